//! A loaded car as a whole: net liquid, the vapour space as liquid equivalent, litres, weights.
//!
//! This module holds [`Load`] and [`quantity`]. The corrections themselves are in the parent module.

use serde::Serialize;

use super::{Expansion, FORMULA_NET, VOLUME_GAL, Weights, estimated_pair, litres_15c, weights};
use crate::calc::error::CalcError;
use crate::calc::fluid::{self, Mix};
use crate::calc::uncertainty::{Measured, Method, Propagated, propagate, propagate_all};
use crate::calc::water::DENSITY_60F;
use crate::calc::{residue, said, sources};
use crate::message;
use crate::units::{Computed, Finding, Severity, Unit};

/// Id of the whole quantity, liquid and vapour.
pub const FORMULA_QUANTITY: &str = "quantity/1";

/// A loaded car as gauged.
#[derive(Clone, Debug, PartialEq)]
pub struct Load {
    /// Liquid at its own temperature.
    pub liquid: Measured,
    /// Water capacity of the shell.
    pub shell: Measured,
    /// Temperature of the liquid.
    pub temperature: Measured,
    /// What the correction of volume rests on.
    pub expansion: Expansion,
    /// What the product is made of, for the vapour space.
    pub mix: Mix,
    /// Pressure in the vapour space, where it was read; otherwise saturation is taken.
    pub pressure: Option<Measured>,
    /// Elevation of the site, for a gauge pressure.
    pub elevation: Measured,
}

/// How much is in a car, each figure labelled by its field.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Quantity {
    /// Liquid at its own temperature, gal.
    pub gross_gallons: Computed,
    /// Liquid, net gal at 60 °F.
    pub liquid_gallons: Computed,
    /// Vapour space as liquid equivalent, gal at 60 °F.
    pub vapour_gallons: Computed,
    /// Liquid and vapour together, net gal at 60 °F.
    pub net_gallons: Computed,
    /// The same in litres at 15 °C.
    pub net_litres: Computed,
    /// The same by weight.
    pub weights: Weights,
}

/// Everything about a load at once.
///
/// Inputs: see [`Load`]. Method: [`super::net_volume`]; vapour by the equation of state at the liquid's
/// temperature, at the pressure read if that is below saturation, else saturated; mass over the liquid's
/// density at 60 °F. What makes it wrong: vapour and liquid at different temperatures, air or nitrogen in the
/// vapour.
///
/// # Errors
/// As [`super::net_volume`]; [`CalcError::Inconsistent`] when the liquid is more than the shell.
pub fn quantity(load: &Load) -> Result<Quantity, CalcError> {
    let liquid = load.liquid.checked(VOLUME_GAL)?;
    let shell = load.shell.checked(residue::SHELL_GAL)?;
    let temperature = load.temperature.checked(fluid::TEMPERATURE_F)?;
    if liquid.value > shell.value {
        return Err(CalcError::Inconsistent(message!(
            "calc-liquid-over-capacity",
            liquid = Unit::Gallon.figure(liquid.value, 0),
            capacity = Unit::Gallon.figure(shell.value, 0),
        )));
    }
    let rd60 = load.expansion.rd60()?;
    let printed = liquid.value * load.expansion.printed(temperature.value, rd60.value)?;
    let (vapour_pressure, vapour_findings) = VapourSpace::of(load, temperature.value)?;
    let [reading, air] = vapour_pressure.parts();
    let inputs = [&liquid, &temperature, &rd60, &shell, &reading, &air];
    let vapour_method = Method::Relative("vapor composition", 0.01);
    let methods = [load.expansion.method(), vapour_method, load.expansion.method()];
    let [liquid_net, vapour, total] = propagate_all(&inputs, methods, |x| {
        let net = x[0] * load.expansion.unrounded(x[1], x[2])?;
        let density = vapour_pressure.density(&load.mix, x[1], x[4] + x[5])?;
        let vapour = (x[3] - x[0]) * density / (x[2] * DENSITY_60F);
        Ok([net, vapour, net + vapour])
    })?;
    let liquid_net = Propagated { value: printed, ..liquid_net };
    let total = Propagated { value: printed + vapour.value, ..total };
    let source = load.expansion.source();
    let of_vapour = message!("calc-source-vapor", source = load.mix.source());
    let with_vapour = sources::several([source.clone(), of_vapour]);
    let net =
        Measured { standard: total.standard, ..Measured::exact("net volume", total.value, Unit::Gallon) };
    let gross = propagate(&[&liquid], Method::Exact, |x| Ok(x[0]))?;
    Ok(Quantity {
        gross_gallons: gross.computed(
            Unit::Gallon,
            "gross_volume/1",
            &sources::said("calc-source-gauged"),
            Vec::new(),
        ),
        liquid_gallons: liquid_net.computed(Unit::Gallon, FORMULA_NET, &source, Vec::new()),
        vapour_gallons: vapour.computed(
            Unit::Gallon,
            "vapour_equivalent/1",
            &load.mix.source(),
            vapour_findings,
        ),
        net_gallons: total.computed(Unit::Gallon, FORMULA_QUANTITY, &with_vapour, estimated_pair(&load.mix)),
        net_litres: litres_15c(&net, &load.expansion)?,
        weights: weights(&net, &rd60)?,
    })
}

/// What the vapour space is taken as.
enum VapourSpace {
    /// At the liquid's saturation: no pressure was read, or it was not below saturation.
    Saturated,
    /// At the pressure read: the reading and the atmosphere under it, psi.
    At([Measured; 2]),
}

impl VapourSpace {
    fn of(load: &Load, fahrenheit: f64) -> Result<(VapourSpace, Vec<Finding>), CalcError> {
        let Some(pressure) = &load.pressure else { return Ok((VapourSpace::Saturated, Vec::new())) };
        let parts = residue::absolute_pressure(pressure, &load.elevation)?;
        let psia = parts[0].value + parts[1].value;
        let point = fluid::bubble(&load.mix, Unit::Fahrenheit.to_si(fahrenheit))?;
        let saturation = Unit::PsiAbsolute.from_si(point.pascal);
        if psia < saturation {
            return Ok((VapourSpace::At(parts), Vec::new()));
        }
        let finding = Finding::new(
            "vapour_taken_as_saturated",
            Severity::Note,
            message!(
                "calc-vapor-saturated",
                read = said::pressure(psia, pressure, parts[1].value),
                saturation = said::pressure(saturation, pressure, parts[1].value),
            ),
        );
        Ok((VapourSpace::Saturated, vec![finding]))
    }

    /// The uncertain inputs behind the pressure; exact zeros where none was used.
    fn parts(&self) -> [Measured; 2] {
        match self {
            VapourSpace::At(parts) => parts.clone(),
            VapourSpace::Saturated => {
                ["pressure", "atmosphere"].map(|name| Measured::exact(name, 0.0, Unit::PsiAbsolute))
            }
        }
    }

    /// Density of what the liquid gives off, kg/m³, at °F and psia.
    fn density(&self, mix: &Mix, fahrenheit: f64, psia: f64) -> Result<f64, CalcError> {
        let kelvin = Unit::Fahrenheit.to_si(fahrenheit);
        let point = fluid::bubble(mix, kelvin)?;
        match self {
            VapourSpace::Saturated => Ok(point.vapour),
            VapourSpace::At(_) => {
                match fluid::vapour_density(&point.vapour_mix, kelvin, Unit::PsiAbsolute.to_si(psia)) {
                    // One standard uncertainty may carry the pressure past saturation: the vapour stops
                    // there.
                    Err(CalcError::AboveSaturation { .. }) => Ok(point.vapour),
                    other => other,
                }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a test may stop at a surprise")]
    use super::*;
    use crate::calc::ctl;
    use crate::calc::fluid::Fluid;

    fn rd60() -> Measured {
        Measured::within("relative density", 0.507, Unit::One, 0.001)
    }

    fn load() -> Load {
        Load {
            liquid: Measured::within("liquid volume", 29_000.0, Unit::Gallon, 60.0),
            shell: Measured::exact("shell", 33_800.0, Unit::Gallon),
            temperature: Measured::within("temperature", 80.0, Unit::Fahrenheit, 1.0),
            expansion: Expansion::Table { rd60: rd60() },
            mix: Mix::pure(Fluid::Propane),
            pressure: None,
            elevation: Measured::exact("elevation", 0.0, Unit::Foot),
        }
    }

    #[test]
    fn liquid_and_vapour_make_the_whole_and_the_whole_is_labelled_in_every_unit() {
        let found = quantity(&load()).unwrap();
        let liquid = 29_000.0 * ctl::table_24e(80.0, 0.507).unwrap();
        assert!((found.liquid_gallons.value - liquid).abs() < 1e-9);
        // 4 800 gal of saturated vapour, 1.37 lb/ft³ at 80 °F against 4.23 lb/gal: about 207 gal.
        assert!((found.vapour_gallons.value - 207.0).abs() < 5.0, "{}", found.vapour_gallons.value);
        let total = found.liquid_gallons.value + found.vapour_gallons.value;
        assert!((found.net_gallons.value - total).abs() < 1e-9);
        // A litre at 15 °C is smaller than at 60 °F by the pull of 1 °F: 3.7854 L a gallon less 0.17 %.
        assert!((found.net_litres.value / total - 3.785_411_784 * (1.0 - 0.001_6)).abs() < 2e-3);
        assert!((found.weights.lb_vacuum.value / (total * 0.507) - 8.337_19).abs() < 1e-4);
        assert!((found.weights.kg_air.value / (total * 0.507 * 8.328_28) - 0.453_592_37).abs() < 1e-6);
        assert!(found.net_gallons.plus_minus.unwrap() > 60.0);
        assert!(farsiding_words::english(&found.net_gallons.largest.unwrap()).contains("variance"));
    }

    #[test]
    fn a_pressure_below_saturation_thins_the_vapour_and_one_above_is_pointed_out() {
        let at = |psig: f64| {
            let pressure = Some(Measured::within("pressure", psig, Unit::PsiGauge, 2.0));
            quantity(&Load { pressure, ..load() }).unwrap().vapour_gallons
        };
        assert!(at(100.0).value < at(120.0).value);
        let above = at(140.0);
        assert!(above.findings.iter().any(|finding| finding.code == "vapour_taken_as_saturated"));
        assert!((above.value - quantity(&load()).unwrap().vapour_gallons.value).abs() < 1e-9);
    }

    #[test]
    fn more_liquid_than_shell_is_refused() {
        let liquid = Measured::exact("liquid volume", 34_000.0, Unit::Gallon);
        assert!(matches!(quantity(&Load { liquid, ..load() }), Err(CalcError::Inconsistent(_))));
    }
}
