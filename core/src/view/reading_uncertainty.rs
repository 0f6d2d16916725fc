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
use crate::entry::Reading;
use crate::entry::site_facts::Instrument;
use crate::entry::vocabulary::Measured as What;
use crate::units::Unit;

/// The ± of a reading.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct ReadingUncertainty {
    /// The expanded uncertainty at about 95 %, in the unit of the reading; `None` if it is not known.
    pub plus_minus: Option<f64>,
    /// The basis in words: the instrument's grade and span or what was presumed, or why there is no ±.
    pub by: String,
}

impl ReadingUncertainty {
    fn none(why: impl ToString) -> ReadingUncertainty {
        ReadingUncertainty { plus_minus: None, by: why.to_string() }
    }

    fn of(measured: Result<Measured, CalcError>, unit: Unit, by: String) -> ReadingUncertainty {
        match measured.and_then(|measured| measured.to(unit)) {
            Ok(measured) => ReadingUncertainty { plus_minus: Some(measured.plus_minus()), by },
            Err(error) => ReadingUncertainty::none(error),
        }
    }
}

/// Returns the uncertainty of a reading, from the site's record of its instruments.
pub(super) fn of(reading: &Reading, ledger: &FoldContext<'_>) -> ReadingUncertainty {
    let amount = &reading.amount;
    let Some(value) = amount.value else { return ReadingUncertainty::none("not a number") };
    let limited = |limits: Limited, name: &str| {
        let by = format!("\u{b1}{} {} presumed", limits.half_width, limits.unit);
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
                return ReadingUncertainty::none("\u{b1} of an absolute pressure gauge is not known");
            };
            let word = if presumed { "a usual gauge presumed, " } else { "" };
            let by = format!("{word}grade {}, span {} {}", gauge.grade.mark(), gauge.span, gauge.unit);
            let measured = gauge.measured("pressure", value, amount.unit).map(|(measured, _)| measured);
            ReadingUncertainty::of(measured, amount.unit, by)
        }
        What::Temperature => limited(Limited::THERMOMETER, "temperature"),
        What::Outage => limited(Limited::GAUGE_ROD, "outage"),
        What::RelativeDensity => limited(Limited::HYDROMETER, "relative density"),
        What::Level | What::Volume | What::Rate => ReadingUncertainty::none("\u{b1} not known"),
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
