//! The selection of readings for each formula, and their uncertainty.
//!
//! A reading is used if it stands, is undisputed and has a number. The uncertainty of an instrument comes
//! from the site's document; if nothing is recorded there, a usual instrument is presumed and the result says
//! so.

use std::collections::BTreeMap;

use chrono::{Datelike as _, NaiveDate};
use serde::{Serialize, Serializer};

use crate::calc::arrival;
use crate::calc::error::{CalcError, input};
use crate::calc::fluid::grade::{Composition, Grade};
use crate::calc::instrument::Limited;
use crate::calc::outage_table::OutageTable;
use crate::calc::product::{GradeFrom, Product, grade_of};
use crate::calc::uncertainty::{Measured, presumed_limits};
use crate::clock::UtcMillis;
use crate::entry::cbor;
use crate::entry::site_facts::{Instrument, Tank};
use crate::entry::vocabulary::Measured as What;
use crate::entry::vocabulary::{BilledBy, EmptySign, Insulation, Place, Precipitation, Purpose, Receiver};
use crate::entry::{Paper, Reading, RecoveryPlanned, Slot, Statement, TankGauged, under};
use crate::ids::Digest;
use crate::procedure::Stage;
use crate::units::{Amount, Finding, Severity, Unit};
use crate::view::car::{CarView, OutageTableView};
use crate::view::fold_context::FoldContext;
use crate::view::reading_uncertainty::gauge_of;
use crate::view::received;
use crate::view::site::one_name;
use crate::view::story::reading_title;
use crate::view::tally::EmptyView;
use crate::{Arg, Message, message};

/// A reading prepared for a formula, with findings about it.
pub struct Input {
    pub measured: Measured,
    pub findings: Vec<Finding>,
}

type Given<T> = Result<T, Message>;
type What3 = (Purpose, What, Place);

/// Everything that formulas may use from the record. Two visits whose `Inputs` have the same encoding have
/// the same results, so [`crate::view::Formulas`] caches results under its digest. Missing input is
/// represented by a sentence.
#[derive(Debug, Serialize)]
pub struct Inputs<'l> {
    /// The readings with a single true value: the standing one, or `None` if entries disagree.
    readings: BTreeMap<What3, Option<&'l Reading>>,
    /// The points of the series that formulas use, by corrected time. Formulas depend on the order of times
    /// and the intervals between them, but not on the time of day.
    #[serde(serialize_with = "by_spans")]
    series: BTreeMap<What3, Vec<(UtcMillis, &'l Reading)>>,
    air: Option<&'l Reading>,
    precipitation: Option<Precipitation>,
    paper: Option<&'l Paper>,
    elevation: Option<&'l Amount>,
    instruments: &'l [Instrument],
    /// The tanks of the site.
    pub(super) tanks: &'l [Tank],
    /// What the receiving tank showed before the transfer, if somebody named it.
    pub(super) tank_before: Option<&'l TankGauged>,
    /// What the recovery is planned to reach.
    pub(super) plan: Option<&'l RecoveryPlanned>,
    /// Whether the receiver is a tank of the site and not a truck.
    pub(super) into_tank: bool,
    capacity: Option<(&'l Amount, bool)>,
    insulation: Option<Insulation>,
    diameter: Option<(&'l Amount, bool)>,
    outage_table: Option<(&'l OutageTableView, bool)>,
    #[serde(serialize_with = "as_days")]
    today: Option<NaiveDate>,
    /// The undisputed signs for or against remaining liquid, and whether each was seen.
    signs: Vec<(EmptySign, bool)>,
    /// Whether the job is in a stage in which liquid may flash at a fitting.
    pub liquid_may_flash: bool,
}

/// The series that formulas use.
const SERIES: [What3; 5] = [
    (Purpose::Transfer, What::Pressure, Place::Car),
    (Purpose::EmptyProof, What::Pressure, Place::Car),
    (Purpose::EmptyProof, What::Temperature, Place::CarLow),
    (Purpose::Recovery, What::Pressure, Place::Car),
    (Purpose::HoldTest, What::Pressure, Place::Car),
];

/// Encodes the points with times counted from the earliest one, so that equal readings at different times of
/// day have equal results.
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

/// Returns why a formula refused its inputs.
pub(super) fn refused(error: CalcError) -> Message {
    error.message()
}

impl<'l> Inputs<'l> {
    /// Returns the digest of the encoding, or `None` if the input cannot be encoded.
    pub fn key(&self) -> Option<Digest> {
        cbor::encode(self).ok().map(|bytes| Digest::of(&bytes))
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
            tank_before: received::before(ledger),
            plan: ledger.slots.latest(&Slot::RECOVERY_PLANNED).and_then(|item| match item.claim {
                Some(Statement::RecoveryPlanned(plan)) => Some(plan),
                _ => None,
            }),
            into_tank: ledger.receiver == Some(Receiver::FixedTank),
            capacity: car.capacity.as_ref().map(|known| (&known.value, known.disputed)),
            insulation: car.insulation.as_ref().filter(|known| !known.disputed).map(|known| known.value),
            diameter: car.diameter.as_ref().map(|known| (&known.value, known.disputed)),
            outage_table: car.outage_table.as_ref().map(|known| (&known.value, known.disputed)),
            today: ledger.today,
            signs: signs.map(|sign| (sign.sign, sign.seen.value)).collect(),
            liquid_may_flash: stage >= Stage::Connect && stage <= Stage::Disconnect,
        }
    }

    /// Returns the standing, undisputed reading with a single true value.
    pub fn reading(&self, purpose: Purpose, what: What, place: Place) -> Given<&'l Reading> {
        let title = || reading_title(purpose, what, place);
        match self.readings.get(&(purpose, what, place)) {
            Some(Some(reading)) => Ok(reading),
            Some(None) => Err(message!("quantity-entries-differ", what = title())),
            None => Err(message!("quantity-not-recorded", what = title())),
        }
    }

    /// Returns the points of a series, by corrected time.
    pub fn series(&self, purpose: Purpose, what: What, place: Place) -> &[(UtcMillis, &'l Reading)] {
        self.series.get(&(purpose, what, place)).map(Vec::as_slice).unwrap_or_default()
    }

    /// Returns the air temperature that was recorded last, for any purpose.
    pub fn air_temperature(&self) -> Option<&'l Reading> {
        self.air
    }

    pub fn precipitation(&self) -> Option<Precipitation> {
        self.precipitation
    }

    pub fn paper(&self) -> Option<&'l Paper> {
        self.paper
    }

    /// Returns whether a sign was seen, if somebody looked for it and the result is undisputed.
    pub fn sign(&self, sign: EmptySign) -> Option<bool> {
        self.signs.iter().find(|(known, _)| *known == sign).map(|(_, seen)| *seen)
    }

    pub fn has_signs(&self) -> bool {
        !self.signs.is_empty()
    }

    /// Returns the possible compositions of the product: the grade that the identification number on the
    /// paper allows.
    pub fn composition(&self) -> Given<(Product, Composition)> {
        let paper = self.paper().ok_or(Message::new("quantity-no-paper"))?;
        let product = Product::read(&paper.un_number).ok_or_else(|| match paper.un_number.trim() {
            "" => Message::new("quantity-no-un-number"),
            odd => message!("quantity-unknown-product", product = Arg::typed(odd)),
        })?;
        Ok((product, Composition::Presumed(self.grade(product).0)))
    }

    /// Returns the grade of the product and where it is from.
    fn grade(&self, product: Product) -> (Grade, GradeFrom) {
        let paper = self.paper();
        let stated = paper.and_then(|paper| paper.grade).and_then(|grade| Grade::from_key(grade.word()));
        let name = paper.map_or("", |paper| &paper.product);
        let rd60 =
            paper.and_then(|paper| paper.relative_density.as_ref()).and_then(|rd| rd.value_in(Unit::One));
        grade_of(product, stated, name, rd60)
    }

    /// Returns what there is to say about the grade: that nobody stated it under a number that names none.
    pub fn grade_finding(&self) -> Option<Finding> {
        let product = Product::read(&self.paper()?.un_number)?;
        let (grade, from) = self.grade(product);
        let id = match from {
            GradeFrom::Number if product == Product::Un1075 => "calc-grade-usual",
            GradeFrom::Density => "calc-grade-by-density",
            _ => return None,
        };
        let said =
            Message::new(id).with("number", Arg::typed(product.un_number())).with("grade", grade.term());
        Some(Finding::new("grade_presumed", Severity::Note, said))
    }

    /// Returns how the billed quantity was measured, if the paper says it.
    pub fn billed_by(&self) -> Option<BilledBy> {
        self.paper()?.billed_by
    }

    /// Returns the insulation of the car's tank, if it is recorded and undisputed.
    pub fn insulation(&self) -> Option<arrival::Insulation> {
        self.insulation.map(|insulation| match insulation {
            Insulation::None => arrival::Insulation::None,
            Insulation::ThermalProtection => arrival::Insulation::ThermalProtection,
            Insulation::Insulated => arrival::Insulation::Insulated,
        })
    }

    /// Returns whether the car was filled to winter limits, if the paper says it.
    pub fn winter_fill(&self) -> Option<bool> {
        self.paper()?.winter_fill
    }

    /// Returns the elevation of the site, for converting gauge to absolute pressure. It is never presumed,
    /// because the atmospheric pressure enters every result.
    pub fn elevation(&self) -> Given<Measured> {
        let elevation = self.elevation.ok_or(Message::new("quantity-no-elevation"))?;
        Measured::of("elevation", elevation, 0.0).map_err(refused)
    }

    /// Returns the shell capacity of the car.
    pub fn shell(&self) -> Given<Measured> {
        known(self.capacity, "shell", "slot-car_capacity")
    }

    pub fn diameter(&self) -> Given<Measured> {
        known(self.diameter, "diameter", "slot-outage_table_or_diameter")
    }

    /// Returns the owner's outage table in gallons of liquid.
    pub fn outage_table(&self) -> Option<Given<(OutageTable, Vec<Finding>)>> {
        let (table, disputed) = self.outage_table?;
        if disputed {
            return Some(Err(message!("quantity-entries-differ", what = Message::new("slot-outage_table"))));
        }
        let rows: Given<Vec<(f64, f64)>> = if table.liquid {
            Ok(table.rows.clone())
        } else {
            self.shell().and_then(|shell| {
                let shell = shell.to(Unit::Gallon).map_err(refused)?;
                Ok(table.rows.iter().map(|(outage, empty)| (*outage, shell.value - empty)).collect())
            })
        };
        Some(rows.and_then(|rows| OutageTable::from_rows(&rows).map_err(|e| e.message())))
    }

    /// Returns the relative density at 60 °F as measured on arrival, or otherwise as billed.
    pub fn relative_density(&self) -> Given<Input> {
        if let Ok(reading) = self.reading(Purpose::Arrival, What::RelativeDensity, Place::Car) {
            return self.limited(Limited::HYDROMETER, "relative density", &reading.amount);
        }
        let billed = self.paper().and_then(|paper| paper.relative_density.as_ref());
        let billed = billed.ok_or(Message::new("quantity-no-relative-density"))?;
        self.limited(Limited::HYDROMETER, "relative density (paper)", billed)
    }

    fn instrument(&self, name: &str) -> Option<&'l Instrument> {
        self.instruments.iter().find(|known| one_name(&known.name) == one_name(name))
    }

    pub fn temperature(&self, reading: &Reading) -> Given<Input> {
        self.limited(Limited::THERMOMETER, "temperature", &reading.amount)
    }

    pub fn outage(&self, reading: &Reading) -> Given<Input> {
        self.limited(Limited::GAUGE_ROD, "outage", &reading.amount)
    }

    fn limited(&self, limits: Limited, name: &str, amount: &Amount) -> Given<Input> {
        let value =
            amount.value.ok_or_else(|| message!("quantity-not-a-number", text = Arg::typed(&amount.text)))?;
        let (mut measured, findings) = limits.measured(name, value, amount.unit).map_err(refused)?;
        measured.presumed = Some(presumed_limits(name, limits.unit, limits.half_width));
        // What is said about a reading is said in the unit that was typed.
        let measured = measured.to(amount.unit).map_err(refused)?;
        Ok(Input { measured, findings })
    }

    /// Returns a pressure with the uncertainty of its gauge: by grade, span and calibration according to the
    /// site's document, or otherwise of a usual gauge.
    pub fn pressure(&self, reading: &Reading) -> Given<Input> {
        let name = "pressure";
        let amount = &reading.amount;
        let value =
            amount.value.ok_or_else(|| message!("quantity-not-a-number", text = Arg::typed(&amount.text)))?;
        let Some((gauge, presumed)) = gauge_of(reading, self.instrument(&reading.instrument), self.today)
        else {
            // No usual dial shows an absolute pressure, so only the resolution of the last digit is known.
            let measured = Measured::presumed(name, value, amount.unit, 0.5);
            return Ok(Input { measured, findings: Vec::new() });
        };
        let (mut measured, findings) = gauge.measured(name, value, amount.unit).map_err(refused)?;
        if presumed {
            measured.presumed = Some(message!(
                "calc-presumed-gauge",
                input = input(name),
                grade = Arg::typed(gauge.grade.mark()),
                span = gauge.unit.plain(gauge.span),
            ));
        }
        // What is said about a reading is said in the unit that was typed.
        let measured = measured.to(amount.unit).map_err(refused)?;
        Ok(Input { measured, findings })
    }
}

/// Returns an undisputed fact about the car.
fn known(fact: Option<(&Amount, bool)>, name: &str, slot: &'static str) -> Given<Measured> {
    match fact {
        None => Err(message!("quantity-not-known", what = Message::new(slot))),
        Some((_, true)) => Err(message!("quantity-entries-differ", what = Message::new(slot))),
        Some((amount, false)) => Measured::of(name, amount, 0.0).map_err(refused),
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
                Some((item.done_at, item.claim_place, reading))
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
            && latest.is_none_or(|(at, place, _)| (item.done_at, item.claim_place) > (at, place))
        {
            latest = Some((item.done_at, item.claim_place, reading));
        }
    }
    latest.map(|(_, _, reading)| reading)
}
