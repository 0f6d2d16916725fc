//! Which readings go into which formula, and how well each is known.
//!
//! A reading counts when it stands, nobody disagrees with it and it has a number. What an instrument is
//! worth comes from the site's document; where nobody recorded that, a usual one is presumed and the
//! result says so.

use std::collections::BTreeMap;

use chrono::{Datelike as _, NaiveDate};
use serde::{Serialize, Serializer};

use crate::calc::fluid::grade::Composition;
use crate::calc::instrument::Limited;
use crate::calc::outage_table::OutageTable;
use crate::calc::product::Product;
use crate::calc::uncertainty::Measured;
use crate::clock::UtcMillis;
use crate::entry::site_facts::{Instrument, Tank};
use crate::entry::vocabulary::Measured as What;
use crate::entry::vocabulary::{EmptySign, Place, Precipitation, Purpose, Receiver};
use crate::entry::{Paper, Reading, Slot, Statement, under};
use crate::ids::Digest;
use crate::procedure::Stage;
use crate::units::{Amount, Finding, Unit};
use crate::view::car::{CarView, OutageTableView};
use crate::view::fold_context::FoldContext;
use crate::view::reading_uncertainty::gauge_of;
use crate::view::site::one_name;
use crate::view::tally::EmptyView;

/// A reading ready for a formula, with what is to be doubted about it.
pub struct Input {
    pub measured: Measured,
    pub findings: Vec<Finding>,
}

type Given<T> = Result<T, String>;
type What3 = (Purpose, What, Place);

/// Everything formulas may ask the record for, and nothing else: two visits whose `Inputs` are
/// written alike compute alike, which is what [`crate::view::Formulas`] remembers results by. A missing thing is a sentence.
#[derive(Debug, Serialize)]
pub struct Inputs<'l> {
    /// Readings of one truth that somebody made: the one that stands, or nothing where records differ.
    readings: BTreeMap<What3, Option<&'l Reading>>,
    /// Points of the series that formulas use, by corrected time. Formulas look at the order of times and at what lies
    /// between them, never at the hour.
    #[serde(serialize_with = "by_spans")]
    series: BTreeMap<What3, Vec<(UtcMillis, &'l Reading)>>,
    air: Option<&'l Reading>,
    precipitation: Option<Precipitation>,
    paper: Option<&'l Paper>,
    elevation: Option<&'l Amount>,
    instruments: &'l [Instrument],
    /// The site's tanks.
    pub(super) tanks: &'l [Tank],
    /// Whether a tank of the site receives, not a truck.
    pub(super) into_tank: bool,
    capacity: Option<(&'l Amount, bool)>,
    diameter: Option<(&'l Amount, bool)>,
    outage_table: Option<(&'l OutageTableView, bool)>,
    #[serde(serialize_with = "as_days")]
    today: Option<NaiveDate>,
    /// Signs of liquid nobody disagrees on, and whether they were seen.
    signs: Vec<(EmptySign, bool)>,
    /// Whether the job is where liquid may flash at a fitting.
    pub liquid_may_flash: bool,
}

/// What formulas read from series.
const SERIES: [What3; 4] = [
    (Purpose::EmptyProof, What::Pressure, Place::Car),
    (Purpose::EmptyProof, What::Temperature, Place::CarLow),
    (Purpose::Recovery, What::Pressure, Place::Car),
    (Purpose::HoldTest, What::Pressure, Place::Car),
];

/// The points with their times counted from the earliest of all: what is read alike at two hours computes alike.
fn by_spans<S: Serializer>(
    series: &BTreeMap<What3, Vec<(UtcMillis, &Reading)>>,
    serializer: S,
) -> Result<S::Ok, S::Error> {
    let first = series.values().flatten().map(|(at, _)| *at).min().unwrap_or(UtcMillis(0));
    let span = |points: &Vec<(UtcMillis, &Reading)>| -> Vec<(i64, Reading)> {
        points.iter().map(|(at, reading)| (at.since(first), (*reading).clone())).collect()
    };
    serializer.collect_map(series.iter().map(|(what, points)| (what, span(points))))
}

fn as_days<S: Serializer>(day: &Option<NaiveDate>, serializer: S) -> Result<S::Ok, S::Error> {
    day.map(|day| day.num_days_from_ce()).serialize(serializer)
}

impl<'l> Inputs<'l> {
    /// All of it in one canonical form: what two of them are told apart by. Nothing where it cannot be written.
    pub fn key(&self) -> Option<Digest> {
        minicbor_serde::to_vec(self).ok().map(|bytes| Digest::of(&bytes))
    }

    pub fn gather<'a: 'l>(
        ledger: &FoldContext<'a>,
        car: &'l CarView,
        empty: &EmptyView,
        stage: Stage,
    ) -> Inputs<'l> {
        let site = ledger.ctx.site;
        let paper = ledger.slots.settled(&Slot::PAPER).and_then(|item| match item.claim {
            Some(Statement::Paper(paper)) => Some(paper),
            _ => None,
        });
        let precipitation = ledger.slots.latest(&Slot::WEATHER).and_then(|item| match item.claim {
            Some(Statement::Weather { precipitation, .. }) => Some(*precipitation),
            _ => None,
        });
        let signs = empty.signs.iter().filter(|sign| !sign.seen.disputed);
        Inputs {
            readings: readings(ledger),
            series: SERIES.into_iter().map(|what| (what, series(ledger, what))).collect(),
            air: air_temperature(ledger),
            precipitation,
            paper,
            elevation: site.and_then(|site| site.elevation.as_ref()),
            instruments: site.map_or(&[], |site| site.instruments.as_slice()),
            tanks: site.map_or(&[], |site| site.tanks.as_slice()),
            into_tank: ledger.receiver == Some(Receiver::FixedTank),
            capacity: car.capacity.as_ref().map(|known| (&known.value, known.disputed)),
            diameter: car.diameter.as_ref().map(|known| (&known.value, known.disputed)),
            outage_table: car.outage_table.as_ref().map(|known| (&known.value, known.disputed)),
            today: ledger.today,
            signs: signs.map(|sign| (sign.sign, sign.seen.value)).collect(),
            liquid_may_flash: stage >= Stage::Connect && stage <= Stage::Disconnect,
        }
    }

    /// The reading of one truth that stands undisputed.
    pub fn reading(&self, purpose: Purpose, what: What, place: Place) -> Given<&'l Reading> {
        let title = || format!("{} {} at the {}", purpose.spoken(), what.spoken(), place.spoken());
        match self.readings.get(&(purpose, what, place)) {
            Some(Some(reading)) => Ok(reading),
            Some(None) => Err(format!("the records differ on the {}", title())),
            None => Err(format!("the {} was not recorded", title())),
        }
    }

    /// The points of a series, by corrected time.
    pub fn series(&self, purpose: Purpose, what: What, place: Place) -> &[(UtcMillis, &'l Reading)] {
        self.series.get(&(purpose, what, place)).map(Vec::as_slice).unwrap_or_default()
    }

    /// The air temperature recorded last, whatever for.
    pub fn air_temperature(&self) -> Option<&'l Reading> {
        self.air
    }

    pub fn precipitation(&self) -> Option<Precipitation> {
        self.precipitation
    }

    pub fn paper(&self) -> Option<&'l Paper> {
        self.paper
    }

    /// Whether a sign was seen, where somebody looked and nobody disagrees.
    pub fn sign(&self, sign: EmptySign) -> Option<bool> {
        self.signs.iter().find(|(known, _)| *known == sign).map(|(_, seen)| *seen)
    }

    pub fn has_signs(&self) -> bool {
        !self.signs.is_empty()
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
        let elevation = self.elevation.ok_or("the site's elevation is not known here")?;
        Measured::of("elevation", elevation, 0.0).map_err(|e| e.to_string())
    }

    /// Shell capacity of the car.
    pub fn shell(&self) -> Given<Measured> {
        known(self.capacity, "shell", "the car's capacity")
    }

    pub fn diameter(&self) -> Given<Measured> {
        known(self.diameter, "diameter", "the car's outage table or inside diameter")
    }

    /// The owner's outage table, in gallons of liquid.
    pub fn outage_table(&self) -> Option<Given<(OutageTable, Vec<Finding>)>> {
        let (table, disputed) = self.outage_table?;
        if disputed {
            return Some(Err("the records differ on the car's outage table".to_owned()));
        }
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

    fn instrument(&self, name: &str) -> Option<&'l Instrument> {
        self.instruments.iter().find(|known| one_name(&known.name) == one_name(name))
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
        let Some((gauge, presumed)) = gauge_of(reading, self.instrument(&reading.instrument), self.today)
        else {
            // An absolute reading: no dial of the usual kind; its last digit is all that is known.
            let measured = Measured::presumed(name, value, amount.unit, 0.5);
            return Ok(Input { measured, findings: Vec::new() });
        };
        let (mut measured, findings) = gauge.measured(name, value, amount.unit).map_err(|e| e.to_string())?;
        if presumed {
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

/// A fact of the car that nobody disputes.
fn known(fact: Option<(&Amount, bool)>, name: &str, spoken: &str) -> Given<Measured> {
    match fact {
        None => Err(format!("{spoken} is not known")),
        Some((_, true)) => Err(format!("the records differ on {spoken}")),
        Some((amount, false)) => Measured::of(name, amount, 0.0).map_err(|e| e.to_string()),
    }
}

fn readings<'l>(ledger: &FoldContext<'l>) -> BTreeMap<What3, Option<&'l Reading>> {
    ledger
        .slots
        .names_under(under::READINGS)
        .filter_map(|slot| match ledger.slots.latest(slot)?.claim? {
            Statement::Reading(reading) => {
                let stands = (!ledger.slots.is_disputed(slot)).then_some(reading);
                Some(((reading.purpose, reading.measured, reading.place), stands))
            }
            _ => None,
        })
        .collect()
}

fn series<'l>(ledger: &FoldContext<'l>, (purpose, what, place): What3) -> Vec<(UtcMillis, &'l Reading)> {
    let mut points: Vec<(UtcMillis, usize, &Reading)> = ledger
        .slots
        .stood(&Slot::reading(purpose, what, place))
        .filter_map(|item| match item.claim {
            Some(Statement::Reading(reading)) if reading.amount.value.is_some() => {
                Some((item.claim_at, item.claim_place, reading))
            }
            _ => None,
        })
        .collect();
    points.sort_by_key(|(at, place, _)| (*at, *place));
    points.into_iter().map(|(at, _, reading)| (at, reading)).collect()
}

fn air_temperature<'l>(ledger: &FoldContext<'l>) -> Option<&'l Reading> {
    let mut latest: Option<(UtcMillis, usize, &Reading)> = None;
    for purpose in Purpose::ALL {
        let slot = Slot::reading(*purpose, What::Temperature, Place::Air);
        if let Some(item) = ledger.slots.latest(&slot)
            && let Some(Statement::Reading(reading)) = item.claim
            && latest.is_none_or(|(at, place, _)| (item.claim_at, item.claim_place) > (at, place))
        {
            latest = Some((item.claim_at, item.claim_place, reading));
        }
    }
    latest.map(|(_, _, reading)| reading)
}
