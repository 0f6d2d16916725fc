//! Computed quantities: where formulas meet the record.
//!
//! Nothing here is stored: each value is made again from the readings that stand, carries its unit,
//! its uncertainty where that is known, its formula and its source. The formulas live in `calc`.

use serde::Serialize;

use super::car::CarView;
use crate::entry::vocabulary::{Fitting, Part};
use crate::units::{Computed, Finding, Severity, Unit};

/// A computed quantity, or why it cannot be computed.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Quantity {
    /// Stable name, such as `residue`.
    pub name: &'static str,
    /// What it is, for people.
    pub title: &'static str,
    /// The value.
    pub value: Option<Computed>,
    /// Why there is none, in a sentence.
    pub missing: Option<String>,
}

/// Closing efforts of a valve usually lie between these, ft·lbf (common practice, no source).
pub const USUAL_EFFORT: (f64, f64) = (20.0, 40.0);

/// What a fitting's past suggests to whoever works it next.
pub(super) fn wear_advice(fitting: Fitting, car: &CarView) -> Vec<Finding> {
    let efforts: Vec<(f64, &super::car::WearPoint)> = car
        .efforts
        .iter()
        .filter(|point| point.fitting == fitting && point.part == Part::Valve)
        .filter_map(|point| point.amount.value_in(Unit::FootPound).map(|value| (value, point)))
        .collect();
    let heavy: Vec<&(f64, &super::car::WearPoint)> =
        efforts.iter().filter(|(value, _)| *value > USUAL_EFFORT.1).collect();
    match heavy.last() {
        Some((_, point)) => {
            let message = format!(
                "Closing the {} took {} ({}); {} to {} ft·lbf is usual. {} of {} recorded efforts were above that: it may be wearing out. Close it to its seat, snug, and report it.",
                fitting.name(),
                point.amount.shown(),
                point.said.shown,
                USUAL_EFFORT.0,
                USUAL_EFFORT.1,
                heavy.len(),
                efforts.len(),
            );
            vec![Finding::new("effort_above_usual", Severity::Check, message)]
        }
        None => Vec::new(),
    }
}
