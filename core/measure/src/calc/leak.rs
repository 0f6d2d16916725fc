//! The pressure-hold leak test, corrected for temperature.
//!
//! The view calls this module with the readings of a hold. A hold can show a leak, but it cannot exclude one
//! that is too small to be seen; the result states how small that is.

use serde::Serialize;

use super::error::{CalcError, Limits, Range};
use super::fluid::{self, Mix};
use super::residue::absolute_pressure;
use super::said;
use super::sources;
use super::uncertainty::{Measured, Method, propagate};
use crate::Message;
use crate::units::{Computed, Finding, Severity, Unit};

/// Formula id.
pub const FORMULA: &str = "leak_hold/1";
const HOLD_MINUTES: Range = Range::new(1.0, 10_080.0, Unit::Minute, Limits::Reason("calc-limits-hold"));

/// The largest ± of the change, psi, with which a hold may say that no leak is indicated: a hold that could
/// not have shown a loss of this size says nothing. Chosen for this program, no source.
pub const TELLING_PSI: f64 = 2.0;
/// The largest move of the pressure itself, psi, with which a hold may say that no leak is indicated,
/// whatever the temperatures explain: a thermometer may read the air. Chosen for this program, no source.
pub const MOVED_PSI: f64 = 3.0;

/// The gas in the part under test.
#[derive(Clone, Debug, PartialEq)]
pub enum TestGas {
    /// Nitrogen or air, treated as an ideal gas; the error is 0.2 % of the change below 300 psi.
    Permanent,
    /// Product vapour, no liquid.
    Vapour(Mix),
}

/// The readings of a hold. The volume does not change and nothing is let in.
#[derive(Clone, Debug, PartialEq)]
pub struct Hold {
    /// What stands in it.
    pub gas: TestGas,
    /// Pressure at the start.
    pub start: Measured,
    /// Temperature of the gas at the start.
    pub start_temperature: Measured,
    /// Pressure at the end, on the same instrument.
    pub end: Measured,
    /// Temperature of the gas at the end.
    pub end_temperature: Measured,
    /// How long, minutes.
    pub minutes: f64,
    /// Elevation of the site.
    pub elevation: Measured,
}

/// The verdict on a hold.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum LeakVerdict {
    /// The pressure fell by more than temperature and instruments explain.
    LeakIndicated,
    /// The pressure did not fall by more than the ±; smaller leaks remain undetected.
    NoneIndicated,
    /// Neither a leak nor its absence is shown: the instruments are too coarse, or the pressure moved too
    /// far.
    CannotTell,
    /// The pressure rose by more than temperature and instruments explain: gas is let in, or liquid boils.
    Rose,
}

/// The result of a hold.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct LeakTest {
    /// End pressure less the one temperature alone would have given, psi; negative is a loss.
    pub change: Computed,
    /// Pressure that temperature alone would have given at the end, psia.
    pub expected: f64,
    /// The smallest loss this hold could have shown, psi an hour.
    pub smallest_visible: f64,
    /// What that says.
    pub verdict: LeakVerdict,
}

/// Judges a hold.
///
/// Inputs: pressures gauge or absolute, temperatures −80 to 200 °F, 1 to 10 080 min. Method: constant
/// density: p2 = p1 T2/T1 for permanent gases, equation of state for vapour. What makes it wrong: a
/// thermometer that reads the air instead of the gas, sun on the line, liquid in the part, two instruments.
///
/// # Errors
/// Above saturation (vapour), out of range, wrong unit, not a number.
pub fn judge(hold: &Hold) -> Result<LeakTest, CalcError> {
    let minutes = HOLD_MINUTES.check("hold", hold.minutes)?;
    let kelvin = |measured: &Measured| measured.checked(fluid::TEMPERATURE_F)?.to(Unit::Kelvin);
    let (from, to) = (kelvin(&hold.start_temperature)?, kelvin(&hold.end_temperature)?);
    let start = absolute_pressure(&hold.start, &hold.elevation)?;
    let end = absolute_pressure(&hold.end, &hold.elevation)?;
    if start[0].unit != end[0].unit {
        return Err(CalcError::wrong_unit(&hold.end.name, hold.end.unit, hold.start.unit));
    }
    let expected_at = |psia: f64, from: f64, to: f64| -> Result<f64, CalcError> {
        match &hold.gas {
            TestGas::Permanent => Ok(psia * to / from),
            TestGas::Vapour(mix) => {
                let density = fluid::vapour_density(mix, from, Unit::PsiAbsolute.to_si(psia))?;
                fluid::vapour_pressure(mix, to, density).map(|pascal| Unit::PsiAbsolute.from_si(pascal))
            }
        }
    };
    let expected = expected_at(start[0].value + start[1].value, from.value, to.value)?;
    let method = match hold.gas {
        TestGas::Permanent => {
            Method::Absolute("ideal gas", 0.002 * (expected - start[0].value - start[1].value).abs())
        }
        TestGas::Vapour(_) => Method::Absolute("equation of state", 0.0005 * expected),
    };
    let change = propagate(&[&start[0], &end[0], &start[1], &from, &to], method, |x| {
        Ok(x[1] + x[2] - expected_at(x[0] + x[2], x[3], x[4])?)
    })?;
    let spread = change.plus_minus();
    let verdict = if change.value < -spread {
        LeakVerdict::LeakIndicated
    } else if change.value > spread {
        LeakVerdict::Rose
    } else if spread > TELLING_PSI
        || (end[0].value + end[1].value - start[0].value - start[1].value).abs() > MOVED_PSI
    {
        LeakVerdict::CannotTell
    } else {
        LeakVerdict::NoneIndicated
    };
    let smallest_visible = spread * 60.0 / minutes;
    let said = |id| {
        Message::new(id)
            .with("expected", said::pressure(expected, &hold.end, end[1].value))
            .with("read", said::pressure(end[0].value + end[1].value, &hold.end, end[1].value))
            .with("change", said::pressure_difference(change.value, Some(spread), &hold.end))
            .with("minutes", Unit::Minute.figure(minutes, 0))
    };
    let finding = match verdict {
        LeakVerdict::LeakIndicated => {
            Finding::new("leak_indicated", Severity::Alarm, said("calc-leak-found"))
        }
        LeakVerdict::CannotTell => {
            Finding::new("cannot_tell", Severity::Check, said("calc-leak-cannot-tell"))
        }
        LeakVerdict::Rose => Finding::new("pressure_rose", Severity::Check, said("calc-leak-rose")),
        LeakVerdict::NoneIndicated => {
            let visible = said::pressure_difference(smallest_visible, None, &hold.end);
            Finding::new("no_leak_indicated", Severity::Note, said("calc-leak-none").with("visible", visible))
        }
    };
    let source = match &hold.gas {
        TestGas::Permanent => sources::said("calc-source-ideal-gas"),
        TestGas::Vapour(mix) => mix.source(),
    };
    let change = change.computed(Unit::PsiGauge, FORMULA, &source, vec![finding]);
    Ok(LeakTest { change, expected, smallest_visible, verdict })
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a test may stop at a surprise")]
    use super::super::fluid::Fluid;
    use super::*;

    fn hold(gas: TestGas, end: f64, end_f: f64) -> Hold {
        Hold {
            gas,
            start: Measured::within("start pressure", 60.0, Unit::PsiGauge, 0.3),
            start_temperature: Measured::within("start temperature", 60.0, Unit::Fahrenheit, 1.0),
            end: Measured::within("end pressure", end, Unit::PsiGauge, 0.3),
            end_temperature: Measured::within("end temperature", end_f, Unit::Fahrenheit, 1.0),
            minutes: 30.0,
            elevation: Measured::exact("elevation", 0.0, Unit::Foot),
        }
    }

    #[test]
    fn cooling_is_not_taken_for_a_leak() {
        // 74.696 psia × (529.67 − 20)/519.67… : 60 to 40 °F takes 2.87 psi off nitrogen.
        let result = judge(&hold(TestGas::Permanent, 57.1, 40.0)).unwrap();
        assert!((result.expected - 74.696 * 499.67 / 519.67).abs() < 1e-2);
        assert_eq!(result.verdict, LeakVerdict::NoneIndicated);
        assert!(result.smallest_visible > 0.0);
    }

    #[test]
    fn a_loss_at_the_same_temperature_is_one() {
        assert_eq!(judge(&hold(TestGas::Permanent, 57.0, 60.0)).unwrap().verdict, LeakVerdict::LeakIndicated);
        assert_eq!(judge(&hold(TestGas::Permanent, 63.0, 60.0)).unwrap().verdict, LeakVerdict::Rose);
    }

    #[test]
    fn a_hold_whose_instruments_cannot_show_a_leak_does_not_say_that_there_is_none() {
        // 60 to 56 psig in 15 min at one temperature, on a gauge of grade B and 160 psi: each reading ±3.2
        // psi.
        let coarse = Hold {
            start: Measured::within("start pressure", 60.0, Unit::PsiGauge, 3.2),
            end: Measured::within("end pressure", 56.0, Unit::PsiGauge, 3.2),
            minutes: 15.0,
            ..hold(TestGas::Permanent, 56.0, 60.0)
        };
        let result = judge(&coarse).unwrap();
        // 2 × 3.2 / √3 × √2 = 5.23 psi: the loss of 4 psi is within it, and so would a large leak be.
        assert!((result.change.plus_minus.unwrap() - 5.23).abs() < 0.2);
        assert_ne!(result.verdict, LeakVerdict::NoneIndicated);
        assert_ne!(result.verdict, LeakVerdict::LeakIndicated);
        // The same move explained by a thermometer is no better: the gas did not cool by that much in 15 min.
        let cooled = Hold { minutes: 15.0, ..hold(TestGas::Permanent, 55.9, 32.0) };
        assert_ne!(judge(&cooled).unwrap().verdict, LeakVerdict::NoneIndicated);
    }

    #[test]
    fn product_vapour_loses_more_to_cooling_than_nitrogen() {
        let propane = judge(&hold(TestGas::Vapour(Mix::pure(Fluid::Propane)), 56.0, 45.0)).unwrap();
        let nitrogen = judge(&hold(TestGas::Permanent, 56.0, 45.0)).unwrap();
        assert!(propane.expected < nitrogen.expected);
        assert!(judge(&hold(TestGas::Vapour(Mix::pure(Fluid::Propane)), 56.0, 0.0)).is_err());
    }
}
