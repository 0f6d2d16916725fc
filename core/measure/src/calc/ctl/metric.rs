//! The metric tables of API MPMS 11.2.4 / GPA TP-27: 53E/54E at 15 °C, 59E/60E at 20 °C.
//!
//! They are derived from 23E and 24E: the base density is converted to a relative density at 60 °F, and the
//! correction is the ratio of two 24E corrections. `calc::lines` and metric sites use this module.

use super::super::error::{CalcError, Limits, Range};
use super::super::rounding::half_away;
use super::{unrounded_23e, unrounded_24e};
use crate::calc::water::DENSITY_60F;
use crate::units::Unit;
use crate::{Message, message};

const LIMITS: Limits = Limits::Reason("calc-limits-metric");

/// The base temperature of a metric table.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Base {
    /// Tables 53E and 54E.
    C15,
    /// Tables 59E and 60E.
    C20,
}

/// Temperatures of the metric tables, after rounding to 0.05 °C.
pub const TEMPERATURE_C: Range = Range::new(-46.0, 93.0, Unit::Celsius, LIMITS);
/// Observed densities of tables 53E and 59E, after rounding to 0.1 kg/m³.
pub const OBSERVED: Range = Range::new(210.0, 740.0, Unit::KilogramPerCubicMetre, LIMITS);

impl Base {
    const fn fahrenheit(self) -> f64 {
        match self {
            Base::C15 => 59.0,
            Base::C20 => 68.0,
        }
    }

    /// Returns a source with the base temperature that its table is used for.
    pub fn of(self, source: Message) -> Message {
        let base = Unit::Celsius.figure(if self == Base::C15 { 15.0 } else { 20.0 }, 0);
        message!("calc-source-base", source = source, base = base)
    }

    /// Base densities of tables 54E (351.7 to 687.8 kg/m³) and 60E (331.7 to 683.6 kg/m³).
    pub const fn densities(self) -> Range {
        match self {
            Base::C15 => Range::new(351.7, 687.8, Unit::KilogramPerCubicMetre, LIMITS),
            Base::C20 => Range::new(331.7, 683.6, Unit::KilogramPerCubicMetre, LIMITS),
        }
    }
}

/// A temperature to the nearest 0.05 °C, half away from zero.
fn to_twentieth(celsius: f64) -> Result<f64, CalcError> {
    TEMPERATURE_C.check("temperature", half_away(half_away(celsius * 20.0, 9), 0) / 20.0)
}

/// Table 54E (15 °C) or 60E (20 °C): the correction of volume to the base temperature.
///
/// Inputs: temperature, °C (−46 to 93, to 0.05); density at the base, kg/m³ (to 0.1). Result to 0.00001.
/// Method: TP-27, the ratio of 24E at both temperatures, water 999.016 kg/m³ at 60 °F.
/// What makes it wrong: a density at another base, olefins (propylene).
///
/// # Errors
/// Out of range, not a number, above the pseudo-critical temperature.
pub fn ctl(base: Base, celsius: f64, density: f64) -> Result<f64, CalcError> {
    let celsius = to_twentieth(celsius)?;
    let density = base.densities().check("base density", half_away(density, 1))?;
    let rd60 = rd60_from_base(base, density)?;
    let correction = unrounded_24e(celsius * 1.8 + 32.0, rd60)? / unrounded_24e(base.fahrenheit(), rd60)?;
    Ok(half_away(correction, 5))
}

/// Table 53E (15 °C) or 59E (20 °C): density at the base from one observed, kg/m³.
///
/// Inputs: temperature, °C (−46 to 93, to 0.05); observed density, kg/m³ (210 to 740, to 0.1). Result to
/// 0.1. Method: TP-27, by way of the density at 60 °F. What makes it wrong: as [`ctl`].
///
/// # Errors
/// Out of range, not a number, or no base density within the table gives the observation.
pub fn base_density(base: Base, celsius: f64, observed: f64) -> Result<f64, CalcError> {
    let celsius = to_twentieth(celsius)?;
    let observed = OBSERVED.check("observed density", half_away(observed, 1))?;
    let rd60 = unrounded_23e(celsius * 1.8 + 32.0, observed / DENSITY_60F)?;
    let density = half_away(rd60 * unrounded_24e(base.fahrenheit(), rd60)? * DENSITY_60F, 1);
    base.densities().check("base density", density)
}

fn rd60_from_base(base: Base, density: f64) -> Result<f64, CalcError> {
    let observed = density / DENSITY_60F;
    // The printed limits are rounded to 0.1 kg/m³ and may lie slightly outside those of 24E; the edge is then
    // used.
    unrounded_23e(base.fahrenheit(), observed).or_else(|error| {
        let edge = |rd60: f64| unrounded_24e(base.fahrenheit(), rd60).map(|ctl| (rd60, rd60 * ctl));
        for (rd60, at_edge) in [edge(0.35)?, edge(0.688)?] {
            if (at_edge - observed).abs() * DENSITY_60F <= 0.05 {
                return Ok(rd60);
            }
        }
        Err(error)
    })
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a test may stop at a surprise")]
    use super::*;

    #[test]
    fn the_base_itself_is_not_corrected() {
        assert_eq!(ctl(Base::C15, 15.0, 507.6).unwrap(), 1.0);
        assert_eq!(ctl(Base::C20, 20.0, 500.0).unwrap(), 1.0);
    }

    #[test]
    fn the_limits_of_the_metric_tables_are_those_of_24e() {
        for (base, rd60, limit) in [
            (Base::C15, 0.35, 351.7),
            (Base::C15, 0.688, 687.8),
            (Base::C20, 0.35, 331.7),
            (Base::C20, 0.688, 683.6),
        ] {
            let density = rd60 * unrounded_24e(base.fahrenheit(), rd60).unwrap() * DENSITY_60F;
            assert!((density - limit).abs() < 0.06, "{base:?} {rd60}: {density}");
        }
    }

    #[test]
    fn observed_and_back_meet_within_the_rounding() {
        for density in [400.0, 450.0, 507.6, 562.4, 584.2, 650.0] {
            for celsius in [-40.0, -10.0, 0.0, 15.0, 25.05, 40.0] {
                for base in [Base::C15, Base::C20] {
                    let observed = density * ctl(base, celsius, density).unwrap();
                    let back = base_density(base, celsius, observed).unwrap();
                    assert!((back - density).abs() <= 0.11, "{base:?} {celsius} {density}: {back}");
                }
            }
        }
    }
}
