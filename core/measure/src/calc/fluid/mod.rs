//! The product as a fluid: saturation pressure and temperature, density of liquid and vapour.
//!
//! This module holds the public functions with their ranges and typed errors. Equations are in `helmholtz`
//! and `mixture`, coefficients in `coefficients`, searches in `phase`, compositions in `composition`. Most of
//! `calc` calls it. It works in K, Pa and kg/m³; callers convert through `units`.
//!
//! Accuracy against CoolProp 8.0.0: pure fluids within 1e-6, mixes within 1e-4 (tests/golden,
//! tests/coolprop). The equations themselves have an uncertainty of about 0.02–0.1 % in vapour pressure and
//! density for pure fluids; 1 % is claimed for mixes. What makes a result wrong: a composition that is not
//! the real one (3 % of ethane changes the pressure by 7 %), air or nitrogen in the vapour.

mod coefficients;
pub mod composition;
pub mod grade;
mod helmholtz;
mod mixture;
mod phase;

pub use composition::{Fluid, Mix};
pub use grade::{Band, Composition, Grade, band};

use self::mixture::{GAS, Model};
use self::phase::Given;
use super::error::{CalcError, Limits, Range, input};
use crate::units::Unit;
use crate::{Message, message};

/// Temperatures at which the fluid formulas answer.
pub const TEMPERATURE_F: Range = Range::new(-80.0, 200.0, Unit::Fahrenheit, Limits::TOOL);
/// Absolute pressures at which the fluid formulas answer.
pub const PRESSURE_PSIA: Range = Range::new(0.05, 600.0, Unit::PsiAbsolute, Limits::TOOL);
const DENSITY: Range = Range::new(1e-3, 200.0, Unit::KilogramPerCubicMetre, Limits::TOOL);
/// The fraction of its critical temperature above which no saturation is computed for a fluid.
const NEAR_CRITICAL: f64 = 0.985;

/// Liquid and vapour in equilibrium.
#[derive(Clone, Debug, PartialEq)]
pub struct Saturation {
    /// Temperature, K.
    pub kelvin: f64,
    /// Pressure, Pa absolute.
    pub pascal: f64,
    /// Density of the liquid, kg/m³.
    pub liquid: f64,
    /// Density of the vapour, kg/m³.
    pub vapour: f64,
    /// Composition of the liquid.
    pub liquid_mix: Mix,
    /// Composition of the vapour.
    pub vapour_mix: Mix,
}

/// The bubble point: the given mix is the liquid, the vapour over it is what it gives off.
///
/// Range: −80 to 200 °F, below 98.5 % of the pseudo-critical temperature. See the module for method and
/// doubts.
///
/// # Errors
/// Out of range, not a number, or not converged.
pub fn bubble(mix: &Mix, kelvin: f64) -> Result<Saturation, CalcError> {
    saturation(mix, kelvin, Given::Liquid)
}

/// The dew point: the given mix is the vapour, the first drop is what condenses from it.
///
/// Range and errors as [`bubble`].
pub fn dew(mix: &Mix, kelvin: f64) -> Result<Saturation, CalcError> {
    saturation(mix, kelvin, Given::Vapour)
}

fn saturation(mix: &Mix, kelvin: f64, given: Given) -> Result<Saturation, CalcError> {
    check_kelvin(kelvin)?;
    let highest = highest_kelvin(mix);
    if kelvin > highest {
        return Err(too_hot(mix, kelvin, highest));
    }
    let found = phase::saturated(mix, kelvin, given).ok_or_else(|| CalcError::NotConverged {
        what: message!("calc-solved-saturation", mix = mix.message()),
    })?;
    Ok(Saturation {
        kelvin,
        pascal: found.pascal,
        liquid: found.liquid_mol * found.liquid.molar_mass(),
        vapour: found.vapour_mol * found.vapour.molar_mass(),
        liquid_mix: found.liquid,
        vapour_mix: found.vapour,
    })
}

/// The temperature (K) at which a liquid of that mix boils at an absolute pressure (Pa).
///
/// Method: bracketed search on [`bubble`], whose pressure rises with temperature. Range: 0.05 to 600 psia,
/// the answer within [`TEMPERATURE_F`]. What makes it wrong: as for the module.
///
/// # Errors
/// Out of range when no temperature of the range boils at that pressure; not converged.
pub fn boiling_kelvin(mix: &Mix, pascal: f64) -> Result<f64, CalcError> {
    kelvin_at(mix, pascal, Given::Liquid)
}

/// The temperature (K) at which the first drop condenses from a vapour of that mix at a pressure (Pa): for a
/// mix above its boiling temperature, for a pure fluid the same.
///
/// Range, method and errors as [`boiling_kelvin`].
pub fn condensing_kelvin(mix: &Mix, pascal: f64) -> Result<f64, CalcError> {
    kelvin_at(mix, pascal, Given::Vapour)
}

fn kelvin_at(mix: &Mix, pascal: f64, given: Given) -> Result<f64, CalcError> {
    check_pascal(pascal)?;
    let pascal_at = |kelvin: f64| saturation(mix, kelvin, given).map(|found| found.pascal);
    let mut low = Unit::Fahrenheit.to_si(TEMPERATURE_F.low);
    let mut high = Unit::Fahrenheit.to_si(TEMPERATURE_F.high).min(highest_kelvin(mix));
    let at_low = pascal_at(low)?;
    let at_high = pascal_at(high)?;
    if pascal < at_low || pascal > at_high {
        let psia = |pascal: f64| Unit::PsiAbsolute.from_si(pascal);
        return Err(CalcError::OutOfRange {
            input: Box::new(input("pressure")),
            value: psia(pascal),
            low: psia(at_low),
            high: psia(at_high),
            unit: Unit::PsiAbsolute,
            why: Some(Box::new(message!("calc-limits-boiling", mix = mix.message()))),
        });
    }
    // ln p is nearly straight in 1/T: the secant through the bracket's ends converges in a few steps.
    let (mut f_low, mut f_high) = (at_low.ln() - pascal.ln(), at_high.ln() - pascal.ln());
    for _ in 0..60 {
        if f_low.abs() < 1e-11 {
            return Ok(low);
        }
        if f_high.abs() < 1e-11 {
            return Ok(high);
        }
        let inverse = 1.0 / low - f_low * (1.0 / high - 1.0 / low) / (f_high - f_low);
        let kelvin = (1.0 / inverse).clamp(low, high);
        let f = pascal_at(kelvin)?.ln() - pascal.ln();
        if f.abs() < 1e-10 {
            return Ok(kelvin);
        }
        // Illinois: the end that stays put counts half, so it moves soon.
        if f > 0.0 {
            (high, f_high) = (kelvin, f);
            f_low *= 0.5;
        } else {
            (low, f_low) = (kelvin, f);
            f_high *= 0.5;
        }
    }
    Err(CalcError::NotConverged { what: Message::new("calc-solved-boiling") })
}

/// Density (kg/m³) of the mix as vapour alone, at K and Pa absolute.
///
/// Range: [`TEMPERATURE_F`], [`PRESSURE_PSIA`], and below the dew pressure where there is one.
/// What makes it wrong: as for the module; above all a vapour that is not of that composition.
///
/// # Errors
/// [`CalcError::AboveSaturation`] when some of it would condense; out of range; not a number.
pub fn vapour_density(mix: &Mix, kelvin: f64, pascal: f64) -> Result<f64, CalcError> {
    check_kelvin(kelvin)?;
    check_pascal(pascal)?;
    if kelvin <= highest_kelvin(mix) {
        let saturation = dew(mix, kelvin)?;
        if pascal >= saturation.pascal {
            return Err(CalcError::AboveSaturation {
                pressure: Unit::PsiAbsolute.from_si(pascal),
                saturation: Unit::PsiAbsolute.from_si(saturation.pascal),
                temperature: Unit::Fahrenheit.from_si(kelvin),
            });
        }
    } else if pascal > 0.8 * lowest_critical_pascal(mix) {
        return Err(too_hot(mix, kelvin, highest_kelvin(mix)));
    }
    phase::vapour(&Model::new(mix), kelvin, pascal)
        .map(|mol| mol * mix.molar_mass())
        .ok_or_else(|| CalcError::NotConverged { what: Message::new("calc-solved-density") })
}

/// Pressure (Pa absolute) of a vapour of that mix at K and a density in kg/m³.
///
/// Range: [`TEMPERATURE_F`]; densities above 0 and below the saturated vapour's.
///
/// # Errors
/// [`CalcError::AboveSaturation`] when some of it would condense; out of range; not a number.
pub fn vapour_pressure(mix: &Mix, kelvin: f64, density: f64) -> Result<f64, CalcError> {
    let saturated = dew(mix, kelvin)?;
    DENSITY.check("vapor density", density)?;
    if density >= saturated.vapour {
        let psia = Unit::PsiAbsolute.from_si(saturated.pascal);
        let temperature = Unit::Fahrenheit.from_si(kelvin);
        return Err(CalcError::AboveSaturation { pressure: psia, saturation: psia, temperature });
    }
    let mol = density / mix.molar_mass();
    Ok(mol * GAS * kelvin * Model::new(mix).state(kelvin, mol).z)
}

/// Compression factor Z = p/(ρ R T) of a vapour of that density.
pub fn compression_factor(mix: &Mix, kelvin: f64, pascal: f64, density: f64) -> f64 {
    pascal * mix.molar_mass() / (density * GAS * kelvin)
}

/// The correction for temperature from the equation of state: saturated liquid density at a temperature
/// over that at 60 °F. This is what stands in for table 24E where 24E does not hold (propylene).
///
/// # Errors
/// As [`bubble`].
pub fn density_ratio(mix: &Mix, kelvin: f64) -> Result<f64, CalcError> {
    Ok(bubble(mix, kelvin)?.liquid / liquid_60f(mix)?)
}

/// Density of the saturated liquid at 60 °F, kg/m³.
///
/// # Errors
/// As [`bubble`].
pub fn liquid_60f(mix: &Mix) -> Result<f64, CalcError> {
    Ok(bubble(mix, Unit::Fahrenheit.to_si(60.0))?.liquid)
}

/// The highest temperature (K) at which saturation of the mix is answered.
pub fn highest_kelvin(mix: &Mix) -> f64 {
    NEAR_CRITICAL * Model::new(mix).reducing_kelvin()
}

fn lowest_critical_pascal(mix: &Mix) -> f64 {
    let present = Fluid::ALL.into_iter().filter(|fluid| mix.fraction(*fluid) > 0.0);
    present.map(|fluid| fluid.equation().critical_pascal).fold(f64::INFINITY, f64::min)
}

fn check_kelvin(kelvin: f64) -> Result<(), CalcError> {
    TEMPERATURE_F.check("temperature", Unit::Fahrenheit.from_si(kelvin)).map(|_| ())
}

fn check_pascal(pascal: f64) -> Result<(), CalcError> {
    PRESSURE_PSIA.check("pressure", Unit::PsiAbsolute.from_si(pascal)).map(|_| ())
}

fn too_hot(mix: &Mix, kelvin: f64, highest: f64) -> CalcError {
    CalcError::OutOfRange {
        input: Box::new(input("temperature")),
        value: Unit::Fahrenheit.from_si(kelvin),
        low: TEMPERATURE_F.low,
        high: Unit::Fahrenheit.from_si(highest),
        unit: Unit::Fahrenheit,
        why: Some(Box::new(message!("calc-limits-near-critical", mix = mix.message()))),
    }
}
