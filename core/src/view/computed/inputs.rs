//! Which readings go into which formula, and how well each is known.
//!
//! A reading counts when it stands, nobody disagrees with it and it has a number. What an instrument is
//! worth comes from the site's document; where nobody recorded that, a usual one is presumed and the
//! result says so.

use super::super::car::{CarView, last_day};
use super::super::ledger::Ledger;
use crate::calc::fluid::grade::Composition;
use crate::calc::instrument::{Gauge, GaugeGrade, Limited, presumed_gauge};
use crate::calc::outage_table::OutageTable;
use crate::calc::product::Product;
use crate::calc::uncertainty::Measured;
use crate::clock::UtcMillis;
use crate::entry::vocabulary::Measured as What;
use crate::entry::vocabulary::{Place, Precipitation, Purpose};
use crate::entry::{Paper, Reading, Statement};
use crate::units::{Amount, Finding, Unit};

/// A reading ready for a formula, with what is to be doubted about it.
pub struct Input {
    pub measured: Measured,
    pub findings: Vec<Finding>,
}

/// Everything formulas may ask the record for. A missing thing is a sentence.
pub struct Inputs<'l, 'a> {
    ledger: &'l Ledger<'a>,
    car: &'l CarView,
}

type Given<T> = Result<T, String>;

impl<'l, 'a> Inputs<'l, 'a> {
    pub fn new(ledger: &'l Ledger<'a>, car: &'l CarView) -> Inputs<'l, 'a> {
        Inputs { ledger, car }
    }

    /// The reading of one truth that stands undisputed.
    pub fn reading(&self, purpose: Purpose, what: What, place: Place) -> Given<&'a Reading> {
        let slot = format!("reading/{purpose}/{what}/{place}");
        let title = || format!("{} {} at the {}", purpose.spoken(), what.spoken(), place.spoken());
        if self.ledger.slots.is_disputed(&slot) {
            return Err(format!("the records differ on the {}", title()));
        }
        match self.ledger.slots.latest(&slot).and_then(|item| item.claim) {
            Some(Statement::Reading(reading)) => Ok(reading),
            _ => Err(format!("the {} was not recorded", title())),
        }
    }

    /// The points of a series, by corrected time.
    pub fn series(&self, purpose: Purpose, what: What, place: Place) -> Vec<(UtcMillis, &'a Reading)> {
        let mut points: Vec<(UtcMillis, usize, &Reading)> = self
            .ledger
            .slots
            .stood(&format!("series/{purpose}/{what}/{place}"))
            .filter_map(|item| match item.claim {
                Some(Statement::Reading(reading)) if reading.amount.value.is_some() => {
                    Some((item.at, item.place, reading))
                }
                _ => None,
            })
            .collect();
        points.sort_by_key(|(at, place, _)| (*at, *place));
        points.into_iter().map(|(at, _, reading)| (at, reading)).collect()
    }

    /// The air temperature recorded last, whatever for.
    pub fn air_temperature(&self) -> Option<&'a Reading> {
        Purpose::ALL
            .iter()
            .flat_map(|purpose| {
                let group = if purpose.has_one_truth() { "reading" } else { "series" };
                let slot = format!("{group}/{purpose}/{}/{}", What::Temperature, Place::Air);
                self.ledger.slots.live(&slot).copied().collect::<Vec<_>>()
            })
            .max_by_key(|item| (item.at, item.place))
            .and_then(|item| match item.claim {
                Some(Statement::Reading(reading)) => Some(reading),
                _ => None,
            })
    }

    pub fn precipitation(&self) -> Option<Precipitation> {
        match self.ledger.slots.latest("series/weather")?.claim? {
            Statement::Weather { precipitation, .. } => Some(*precipitation),
            _ => None,
        }
    }

    pub fn paper(&self) -> Option<&'a Paper> {
        match self.ledger.slots.settled("paper")?.claim? {
            Statement::Paper(paper) => Some(paper),
            _ => None,
        }
    }

    /// What the product may be made of: the grade that the paper's identification number allows.
    pub fn composition(&self) -> Given<(Product, Composition)> {
        let paper = self.paper().ok_or("no paper says what the product is")?;
        let product = Product::read(&paper.un_number).ok_or_else(|| match paper.un_number.trim() {
            "" => "the paper as entered has no identification number".to_owned(),
            odd => format!("{odd} is not a product this tool has formulas for"),
        })?;
        Ok((product, Composition::Presumed(product.presumed_grade())))
    }

    /// Elevation of the site, for gauge to absolute. Never presumed: the atmosphere is in every result.
    pub fn elevation(&self) -> Given<Measured> {
        let elevation = self.ledger.ctx.site.and_then(|site| site.elevation.as_ref());
        let elevation = elevation.ok_or("the site's elevation is not known here")?;
        Measured::of("elevation", elevation, 0.0).map_err(|e| e.to_string())
    }

    /// Shell capacity of the car.
    pub fn shell(&self) -> Given<Measured> {
        let known = self.car.capacity.as_ref().ok_or("the car's capacity is not known")?;
        if known.disputed {
            return Err("the records differ on the car's capacity".to_owned());
        }
        Measured::of("shell", &known.value, 0.0).map_err(|e| e.to_string())
    }

    pub fn diameter(&self) -> Given<Measured> {
        let known =
            self.car.diameter.as_ref().ok_or("neither an outage table nor the inside diameter is known")?;
        Measured::of("diameter", &known.value, 0.0).map_err(|e| e.to_string())
    }

    /// The owner's outage table, in gallons of liquid.
    pub fn outage_table(&self) -> Option<Given<(OutageTable, Vec<Finding>)>> {
        let known = self.car.outage_table.as_ref()?;
        let table = &known.value;
        let rows: Given<Vec<(f64, f64)>> = if table.liquid {
            Ok(table.rows.clone())
        } else {
            self.shell().and_then(|shell| {
                let shell = shell.to(Unit::Gallon).map_err(|e| e.to_string())?;
                Ok(table.rows.iter().map(|(outage, empty)| (*outage, shell.value - empty)).collect())
            })
        };
        Some(rows.and_then(|rows| OutageTable::from_rows(&rows).map_err(|e| e.to_string())))
    }

    /// Relative density at 60 °F: as measured on arrival, else as billed.
    pub fn relative_density(&self) -> Given<Input> {
        if let Ok(reading) = self.reading(Purpose::Arrival, What::RelativeDensity, Place::Car) {
            return self.limited(Limited::HYDROMETER, "relative density", &reading.amount, "±0.001");
        }
        let billed = self.paper().and_then(|paper| paper.relative_density.as_ref());
        let billed = billed.ok_or("no relative density was read or stands on the paper")?;
        self.limited(Limited::HYDROMETER, "relative density (paper)", billed, "±0.001")
    }

    pub fn temperature(&self, reading: &Reading) -> Given<Input> {
        self.limited(Limited::THERMOMETER, "temperature", &reading.amount, "±1 °F")
    }

    pub fn outage(&self, reading: &Reading) -> Given<Input> {
        self.limited(Limited::GAUGE_ROD, "outage", &reading.amount, "±1/8 in")
    }

    fn limited(&self, limits: Limited, name: &str, amount: &Amount, limit: &str) -> Given<Input> {
        let value = amount
            .value
            .ok_or_else(|| format!("the {name} \u{201c}{}\u{201d} is not a number", amount.text))?;
        let (mut measured, findings) =
            limits.measured(name, value, amount.unit).map_err(|e| e.to_string())?;
        measured.presumed = Some(format!("{name} {limit}"));
        Ok(Input { measured, findings })
    }

    /// A pressure on its gauge: the site's word for grade, span and calibration, else a usual gauge.
    pub fn pressure(&self, reading: &Reading) -> Given<Input> {
        let name = "pressure";
        let amount = &reading.amount;
        let value = amount
            .value
            .ok_or_else(|| format!("the pressure \u{201c}{}\u{201d} is not a number", amount.text))?;
        let known = self.ledger.ctx.site.and_then(|site| site.instrument(&reading.instrument));
        let recorded = known.and_then(|instrument| {
            let grade = GaugeGrade::ALL.into_iter().find(|g| g.mark() == instrument.grade.trim())?;
            let span = instrument.span.value?;
            let today = self.ledger.ctx.now.to_datetime().map(|now| now.date_naive());
            let overdue =
                last_day(&instrument.calibration_due).zip(today).is_some_and(|(due, now)| now > due);
            Some(Gauge { grade, span, unit: instrument.span.unit, overdue })
        });
        let gauge = match (recorded, amount.value_in(Unit::PsiGauge)) {
            (Some(gauge), _) => gauge,
            (None, Some(psig)) => presumed_gauge(psig),
            (None, None) => {
                // An absolute reading: no dial of the usual kind; its last digit is all that is known.
                let measured = Measured::presumed(name, value, amount.unit, 0.5);
                return Ok(Input { measured, findings: Vec::new() });
            }
        };
        let (mut measured, findings) = gauge.measured(name, value, amount.unit).map_err(|e| e.to_string())?;
        if recorded.is_none() {
            measured.presumed = Some(format!(
                "{name}: a gauge of grade {}, span {} {}",
                gauge.grade.mark(),
                gauge.span,
                gauge.unit
            ));
        }
        Ok(Input { measured, findings })
    }
}
