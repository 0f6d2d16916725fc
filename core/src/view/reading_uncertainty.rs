//! What a reading is worth: the ± its instrument leaves, and on what that rests.
//!
//! Lives here: which instrument a reading was made on, and its limits as a ± in the reading's own unit. Does
//! not live here: the limits (`calc::instrument`), what follows from readings (`computed`). Called by the
//! fold of readings, so that whatever shows a figure can show its ± beside it.

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
    /// Expanded uncertainty at about 95 %, in the unit of the reading; nothing where it is not known.
    pub plus_minus: Option<f64>,
    /// On what it rests, in words: the instrument's grade and span, or what was presumed; why there is none.
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

/// The worth of a reading, by what the site's document knows of its instruments.
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

/// The gauge a pressure was read on (as the site's document has it, where it has), and whether it is only presumed: the site's word for grade, span and
/// calibration, else a usual gauge; nothing for an absolute pressure, which no usual dial shows.
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
