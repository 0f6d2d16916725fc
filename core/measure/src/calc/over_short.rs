//! Comparison of the billed with the measured quantity: the difference, in units and in multiples of its
//! uncertainty.
//!
//! The view and the office call this module. The result is over or short only if the difference exceeds the
//! uncertainty of measurement.

use serde::Serialize;

use super::error::{CalcError, Limits, Range};
use super::sources;
use super::uncertainty::{Measured, Method, propagate};
use crate::units::{Computed, Finding, Severity, Unit};
use crate::{Arg, Message};

/// Formula id.
pub const FORMULA: &str = "over_short/1";

/// The result of the comparison.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Verdict {
    /// The difference is within its own ± and can be explained by measurement.
    Agrees,
    /// More was found than billed, by more than the ±.
    Over,
    /// Less was found than billed, by more than the ±.
    Short,
}

/// The comparison of the billed with the found quantity.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct OverShort {
    /// The found minus the billed quantity; negative if short.
    pub difference: Computed,
    /// The difference as a percentage of the billed quantity.
    pub percent: f64,
    /// The difference divided by its ± at 95 %, if there is one.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub multiples: Option<f64>,
    /// The verdict.
    pub verdict: Verdict,
}

/// Found less billed.
///
/// Inputs: two quantities of one dimension, volume or mass, both at the same base (net gal at 60 °F against
/// net gal at 60 °F), 0 to 1e7 in their unit, billed more than 0. Method: difference, uncertainties in
/// squares. What makes it wrong: gross against net, vacuum against air, another base temperature.
///
/// # Errors
/// Out of range, wrong unit, not a number.
pub fn over_short(billed: &Measured, found: &Measured) -> Result<OverShort, CalcError> {
    let unit = billed.unit;
    if !matches!(unit.dimension(), crate::units::Dimension::Volume | crate::units::Dimension::Mass) {
        return Err(CalcError::wrong_unit(&billed.name, unit, Unit::Gallon));
    }
    let billed = billed.checked(Range::new(f64::MIN_POSITIVE, 1e7, unit, Limits::Unsaid))?;
    let found = found.checked(Range::new(0.0, 1e7, unit, Limits::Unsaid))?;
    let difference = propagate(&[&billed, &found], Method::Exact, |x| Ok(x[1] - x[0]))?;
    let spread = difference.plus_minus();
    let multiples = (spread > 0.0).then(|| difference.value / spread);
    let beyond = match multiples {
        Some(multiples) => multiples.abs() > 1.0,
        None => difference.value != 0.0,
    };
    let verdict = match (beyond, difference.value > 0.0) {
        (false, _) => Verdict::Agrees,
        (true, true) => Verdict::Over,
        (true, false) => Verdict::Short,
    };
    let percent = 100.0 * difference.value / billed.value;
    let said = |id| {
        Message::new(id)
            .with("found", unit.figure(found.value, 0))
            .with("billed", unit.figure(billed.value, 0))
            .with("difference", unit.figure_within(difference.value.abs(), spread, 0))
            .with("percent", Arg::number(percent.abs(), 2))
    };
    let finding = match verdict {
        Verdict::Agrees => Finding::new("agrees", Severity::Note, said("calc-bill-agrees")),
        Verdict::Over => Finding::new("over", Severity::Check, said("calc-bill-over")),
        Verdict::Short => Finding::new("short", Severity::Check, said("calc-bill-short")),
    };
    Ok(OverShort {
        difference: difference.computed(
            unit,
            FORMULA,
            &sources::said("calc-source-difference"),
            vec![finding],
        ),
        percent,
        multiples,
        verdict,
    })
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a test may stop at a surprise")]
    use super::*;

    fn gallons(name: &str, value: f64, plus_minus: f64) -> Measured {
        Measured::stated(name, value, Unit::Gallon, plus_minus)
    }

    #[test]
    fn a_difference_the_gauging_can_explain_is_no_shortage() {
        let result =
            over_short(&gallons("billed", 30_000.0, 0.0), &gallons("found", 29_900.0, 150.0)).unwrap();
        assert_eq!(result.verdict, Verdict::Agrees);
        assert!((result.multiples.unwrap() + 100.0 / 150.0).abs() < 1e-6);
    }

    #[test]
    fn a_difference_beyond_it_is() {
        let result =
            over_short(&gallons("billed", 30_000.0, 60.0), &gallons("found", 29_600.0, 150.0)).unwrap();
        assert_eq!(result.verdict, Verdict::Short);
        assert!((result.difference.value + 400.0).abs() < 1e-9);
        assert!(result.difference.findings.iter().any(|finding| finding.code == "short"));
    }

    #[test]
    fn gallons_are_not_compared_with_pounds() {
        let pounds = Measured::exact("found", 120_000.0, Unit::Pound);
        assert!(over_short(&gallons("billed", 30_000.0, 0.0), &pounds).is_err());
    }
}
