//! The uncertainty of a reading: the ± that its instrument allows, and what the ± is based on.
//!
//! This module finds the instrument of a reading and converts its limits to a ± in the reading's own unit.
//! The limits are in `calc::instrument`, and results computed from readings in `computed`. The fold of
//! readings calls this module, so that each reading can be shown with its ±.

use chrono::NaiveDate;
use serde::Serialize;

use super::car::last_day;
use super::fold_context::FoldContext;
use crate::calc::error::CalcError;
use crate::calc::instrument::{Gauge, GaugeGrade, Limited, presumed_gauge};
use crate::calc::uncertainty::Measured;
use crate::entry::site_facts::Instrument;
use crate::entry::vocabulary::Measured as What;
use crate::entry::{Reading, Statement, under};
use crate::units::{Amount, Unit};
use crate::{Arg, Message, message};

/// The ± of a reading.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct ReadingUncertainty {
    /// The expanded uncertainty at about 95 %, in the unit of the reading; `None` if it is not known.
    pub plus_minus: Option<f64>,
    /// The basis in words: the instrument's grade and span or what was presumed, or why there is no ±.
    pub by: Message,
}

impl ReadingUncertainty {
    fn none(why: Message) -> ReadingUncertainty {
        ReadingUncertainty { plus_minus: None, by: why }
    }

    fn of(measured: Result<Measured, CalcError>, unit: Unit, by: Message) -> ReadingUncertainty {
        match measured.and_then(|measured| measured.to(unit)) {
            Ok(measured) => ReadingUncertainty { plus_minus: Some(measured.plus_minus()), by },
            Err(error) => ReadingUncertainty::none(error.message()),
        }
    }
}

/// Returns the uncertainty of a reading, from the site's record of its instruments.
pub(super) fn of(reading: &Reading, ledger: &FoldContext<'_>) -> ReadingUncertainty {
    let amount = &reading.amount;
    let Some(value) = amount.value else {
        return ReadingUncertainty::none(Message::new("uncertainty-not-a-number"));
    };
    let limited = |limits: Limited, name: &str| {
        let half_width = Arg::Figure {
            value: limits.half_width.to_string(),
            plus_minus: None,
            unit: limits.unit.word().to_owned(),
        };
        let by = message!("uncertainty-presumed", half_width = half_width);
        ReadingUncertainty::of(
            limits.measured(name, value, amount.unit).map(|(measured, _)| measured),
            amount.unit,
            by,
        )
    };
    match reading.measured {
        What::Pressure => {
            let known = ledger.instrument(&reading.instrument);
            let Some((gauge, presumed)) = gauge_of(reading, known, ledger.today) else {
                return ReadingUncertainty::none(Message::new("uncertainty-absolute-gauge"));
            };
            let span = Arg::Figure {
                value: gauge.span.to_string(),
                plus_minus: None,
                unit: gauge.unit.word().to_owned(),
            };
            let grade = Arg::typed(gauge.grade.mark());
            let by = match presumed {
                true => message!("uncertainty-usual-gauge", grade = grade, span = span),
                false => message!("uncertainty-gauge", grade = grade, span = span),
            };
            let measured = gauge.measured("pressure", value, amount.unit).map(|(measured, _)| measured);
            ReadingUncertainty::of(measured, amount.unit, by)
        }
        What::Temperature => limited(Limited::THERMOMETER, "temperature"),
        What::Outage => limited(Limited::GAUGE_ROD, "outage"),
        What::RelativeDensity => limited(Limited::HYDROMETER, "relative density"),
        What::Level | What::Volume | What::Rate => {
            ReadingUncertainty::none(Message::new("uncertainty-not-known"))
        }
    }
}

/// Returns the gauge on which a pressure was read, and whether the gauge is only presumed. Grade, span and
/// calibration come from the site's document, or otherwise from a usual gauge. Returns `None` for an absolute
/// pressure, which no usual dial shows.
pub(super) fn gauge_of(
    reading: &Reading,
    instrument: Option<&Instrument>,
    today: Option<NaiveDate>,
) -> Option<(Gauge, bool)> {
    let known = instrument.and_then(|instrument| {
        let grade = GaugeGrade::ALL.into_iter().find(|g| g.mark() == instrument.grade.trim())?;
        let span = instrument.span.value?;
        let overdue =
            last_day(&instrument.calibration_due).zip(today).is_some_and(|(due, today)| today > due);
        Some(Gauge { grade, span, unit: instrument.span.unit, overdue })
    });
    match known {
        Some(gauge) => Some((gauge, false)),
        None => Some((presumed_gauge(reading.amount.value_in(Unit::PsiGauge)?), true)),
    }
}

/// The most readings of one slot that are compared with each other; more of them disagree if any two differ.
const COMPARED: usize = 12;

/// Two readings of one truth that differ by less than their combined ± (the root of the sum of the squares) do not
/// disagree: nobody could tell them apart. A ± that is only presumed settles nothing between two people.
pub(super) fn agree_within(ledger: &mut FoldContext<'_>) {
    let agreeing: Vec<String> = ledger
        .slots
        .disagreements()
        .filter(|slot| slot.starts_with(under::READINGS))
        .filter(|slot| all_agree(ledger, slot))
        .map(str::to_owned)
        .collect();
    agreeing.iter().for_each(|slot| ledger.slots.agree(slot));
}

/// Returns true unless the ± rests on the site's record of the instrument.
fn is_presumed(reading: &Reading, ledger: &FoldContext<'_>) -> bool {
    let known = ledger.instrument(&reading.instrument);
    reading.measured != What::Pressure
        || gauge_of(reading, known, ledger.today).is_none_or(|(_, presumed)| presumed)
}

fn all_agree(ledger: &FoldContext<'_>, slot: &str) -> bool {
    let mut read: Vec<(f64, f64)> = Vec::new();
    let mut unit = None;
    for item in ledger.slots.live(slot) {
        let Some(Statement::Reading(reading)) = item.claim else { return false };
        if is_presumed(reading, ledger) {
            return false;
        }
        let amount = &reading.amount;
        let unit = *unit.get_or_insert(amount.unit);
        let Some(plus_minus) = of(reading, ledger).plus_minus else { return false };
        let Some(upper) = amount.value.map(|value| Amount::of(value + plus_minus, amount.unit)) else {
            return false;
        };
        let (Some(value), Some(upper)) = (amount.value_in(unit), upper.value_in(unit)) else { return false };
        read.push((value, upper - value));
    }
    let apart = |a: &(f64, f64), b: &(f64, f64)| (a.0 - b.0).abs() >= a.1.hypot(b.1);
    read.len() <= COMPARED && read.iter().enumerate().all(|(n, a)| read[n + 1..].iter().all(|b| !apart(a, b)))
}
