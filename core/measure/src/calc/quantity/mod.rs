//! The quantity of product: net volume at a base temperature, weight in vacuum and in air.
//!
//! This module holds the correction of volume, net gallons and litres, and weights; `load` computes a whole
//! car with its vapour space as liquid equivalent. The liquid volume under an outage is in `tank` and
//! `outage_table`. `calc::lines`, the view (for the arrival quantity) and the office call this module.

mod load;

use serde::Serialize;

pub use self::load::{FORMULA_QUANTITY, Load, Quantity, quantity};

use super::ctl::{self, metric};
use super::error::{CalcError, Limits, Range};
use super::fluid::{self, Fluid, Mix};
use super::sources;
use super::uncertainty::{Measured, Method, Propagated, propagate};
use super::water::{DENSITY_60F, LB_PER_GALLON_AIR, LB_PER_GALLON_VACUUM};
use crate::units::{Computed, Finding, Severity, Unit};
use crate::{Message, message};

/// Liquid volumes accepted.
pub const VOLUME_GAL: Range = Range::new(0.0, 1_000_000.0, Unit::Gallon, Limits::TOOL);
/// Mole fraction of propylene above which table 24E is refused: its error there passes about 0.3 %.
pub const PROPYLENE_LIMIT: f64 = 0.10;
/// Id of the net volume formula.
pub const FORMULA_NET: &str = "net_volume/1";
/// Id of the weight formula.
pub const FORMULA_WEIGHT: &str = "weight/1";
/// Id of the density ratio formula.
pub const FORMULA_RATIO: &str = "density_ratio/1";

/// The basis of the correction of volume.
#[derive(Clone, Debug, PartialEq)]
pub enum Expansion {
    /// Table 24E by relative density at 60 °F.
    Table {
        /// Relative density at 60 °F.
        rd60: Measured,
    },
    /// Saturated liquid density ratio of the equation of state, for propylene and what contains it.
    Ratio {
        /// The composition.
        mix: Mix,
    },
}

impl Expansion {
    /// Table 24E, unless the composition says that it does not hold.
    ///
    /// # Errors
    /// [`CalcError::NotApplicable`] when the mix holds more than 10 % propylene.
    pub fn table(rd60: Measured, mix: Option<&Mix>) -> Result<Expansion, CalcError> {
        if let Some(mix) = mix.filter(|mix| mix.fraction(Fluid::Propylene) > PROPYLENE_LIMIT) {
            return Err(CalcError::NotApplicable(message!("calc-not-for-propylene", mix = mix.message())));
        }
        Ok(Expansion::Table { rd60 })
    }

    /// The factor that takes volume at a temperature to volume at 60 °F, unrounded, and how well it is known.
    fn unrounded(&self, fahrenheit: f64, rd60: f64) -> Result<f64, CalcError> {
        match self {
            Expansion::Table { .. } => ctl::unrounded_24e(fahrenheit, rd60),
            Expansion::Ratio { mix } => fluid::density_ratio(mix, Unit::Fahrenheit.to_si(fahrenheit)),
        }
    }

    /// As [`Expansion::unrounded`], rounded and range-checked as the table prints it.
    fn printed(&self, fahrenheit: f64, rd60: f64) -> Result<f64, CalcError> {
        match self {
            Expansion::Table { .. } => ctl::table_24e(fahrenheit, rd60),
            Expansion::Ratio { .. } => self.unrounded(fahrenheit, rd60),
        }
    }

    fn rd60(&self) -> Result<Measured, CalcError> {
        match self {
            Expansion::Table { rd60 } => rd60.to(Unit::One),
            Expansion::Ratio { mix } => {
                let name = "relative density";
                Ok(Measured::within(name, fluid::liquid_60f(mix)? / DENSITY_60F, Unit::One, 0.0005))
            }
        }
    }

    const fn method(&self) -> Method {
        match self {
            Expansion::Table { .. } => Method::Relative("table 24e", 0.001),
            Expansion::Ratio { .. } => Method::Relative("equation of state", 0.0005),
        }
    }

    fn source(&self) -> Message {
        match self {
            Expansion::Table { .. } => sources::cited(sources::TABLE_24E),
            Expansion::Ratio { mix } => sources::several([sources::said("calc-source-ratio"), mix.source()]),
        }
    }
}

/// The correction of volume by the equation of state: saturated density at the temperature over that at 60
/// °F.
///
/// Inputs: temperature (−80 to 200 °F and below 98.5 % of critical), composition. Method:
/// [`fluid::density_ratio`]. What makes it wrong: another composition; liquid far above its own vapour
/// pressure (0.1 % per 30 psi).
///
/// # Errors
/// Out of range, not a number, wrong unit, not converged.
pub fn density_ratio(temperature: &Measured, mix: &Mix) -> Result<Computed, CalcError> {
    let temperature = temperature.checked(fluid::TEMPERATURE_F)?;
    let expansion = Expansion::Ratio { mix: mix.clone() };
    let ratio = propagate(&[&temperature], expansion.method(), |x| expansion.unrounded(x[0], 0.0))?;
    Ok(ratio.computed(Unit::One, FORMULA_RATIO, &expansion.source(), estimated_pair(mix)))
}

/// Net volume at 60 °F, gal.
///
/// Inputs: liquid volume at its own temperature (0 to 1 000 000 gal), temperature of the liquid, and what the
/// correction rests on. Method: volume × CTL, CTL rounded as table 24E prints it. The liquid is taken at its
/// own vapour pressure (no CPL). What makes it wrong: a temperature that is not the bulk liquid's, a density
/// that is not this load's, propylene by table 24E.
///
/// # Errors
/// Out of range, not a number, wrong unit, above the pseudo-critical temperature.
pub fn net_volume(
    gross: &Measured,
    temperature: &Measured,
    expansion: &Expansion,
) -> Result<Computed, CalcError> {
    let net = net(gross, temperature, expansion)?;
    Ok(net.computed(Unit::Gallon, FORMULA_NET, &expansion.source(), Vec::new()))
}

fn net(gross: &Measured, temperature: &Measured, expansion: &Expansion) -> Result<Propagated, CalcError> {
    let gross = gross.checked(VOLUME_GAL)?;
    let temperature = temperature.to(Unit::Fahrenheit)?;
    let rd60 = expansion.rd60()?;
    let value = gross.value * expansion.printed(temperature.value, rd60.value)?;
    // Sensitivities around a temperature at the edge of the table may lie outside it; the equation carries
    // on.
    let spread = propagate(&[&gross, &temperature, &rd60], expansion.method(), |x| {
        expansion.unrounded(x[1], x[2]).map(|ctl| ctl * x[0])
    })?;
    Ok(Propagated { value, ..spread })
}

/// Litres at 15 °C of a net volume at 60 °F.
///
/// Method: table 24E from 60 °F to 59 °F (as table 54E does), or the density ratio.
///
/// # Errors
/// As [`net_volume`].
pub fn litres_15c(net_gallons: &Measured, expansion: &Expansion) -> Result<Computed, CalcError> {
    let net_gallons = net_gallons.checked(VOLUME_GAL)?;
    let rd60 = expansion.rd60()?;
    let litres = propagate(&[&net_gallons, &rd60], Method::Exact, |x| {
        Ok(Unit::Litre.from_si(Unit::Gallon.to_si(x[0])) / expansion.unrounded(59.0, x[1])?)
    })?;
    let source = metric::Base::C15.of(expansion.source());
    Ok(litres.computed(Unit::Litre, FORMULA_NET, &source, Vec::new()))
}

/// The weights of one volume, each in its own way of weighing.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Weights {
    /// Pounds in vacuum (mass).
    pub lb_vacuum: Computed,
    /// Pounds weighed in air, by trade practice.
    pub lb_air: Computed,
    /// Kilograms in vacuum (mass).
    pub kg_vacuum: Computed,
    /// Kilograms weighed in air, by trade practice.
    pub kg_air: Computed,
}

/// Weights of a net volume at 60 °F.
///
/// Inputs: net gal at 60 °F (0 to 1 000 000), relative density at 60 °F (0.35 to 0.688). Method: volume ×
/// relative density × water, 8.337 19 lb/gal in vacuum, 8.328 28 lb/gal in air. What makes it wrong: a gross
/// volume taken for net; "in air" is the practice's factor for water, not the buoyancy of this liquid.
///
/// # Errors
/// Out of range, not a number, wrong unit.
pub fn weights(net_gallons: &Measured, rd60: &Measured) -> Result<Weights, CalcError> {
    let net_gallons = net_gallons.checked(VOLUME_GAL)?;
    let rd60 = rd60.checked(ctl::RD60)?;
    let weigh = |unit: Unit, per_gallon: f64, source| -> Result<Computed, CalcError> {
        let weight = propagate(&[&net_gallons, &rd60], Method::Exact, |x| {
            Ok(unit.from_si(Unit::Pound.to_si(x[0] * x[1] * per_gallon)))
        })?;
        Ok(weight.computed(unit, FORMULA_WEIGHT, &sources::said(source), Vec::new()))
    };
    const VACUUM: &str = "calc-source-weight-vacuum";
    const AIR: &str = "calc-source-weight-air";
    Ok(Weights {
        lb_vacuum: weigh(Unit::Pound, LB_PER_GALLON_VACUUM, VACUUM)?,
        lb_air: weigh(Unit::Pound, LB_PER_GALLON_AIR, AIR)?,
        kg_vacuum: weigh(Unit::Kilogram, LB_PER_GALLON_VACUUM, VACUUM)?,
        kg_air: weigh(Unit::Kilogram, LB_PER_GALLON_AIR, AIR)?,
    })
}

/// A finding for mixes that rest on the estimated pair.
pub(super) fn estimated_pair(mix: &Mix) -> Vec<Finding> {
    if !mix.rests_on_estimated_pair() {
        return Vec::new();
    }
    vec![Finding::new("estimated_pair", Severity::Check, Message::new("calc-estimated-pair"))]
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a test may stop at a surprise")]
    use super::*;

    #[test]
    fn propylene_is_refused_by_the_table_and_served_by_the_ratio() {
        let propylene = Mix::pure(Fluid::Propylene);
        assert!(matches!(
            Expansion::table(Measured::exact("rd60", 0.5217, Unit::One), Some(&propylene)),
            Err(CalcError::NotApplicable(_))
        ));
        let gross = Measured::exact("gross volume", 1_000.0, Unit::Gallon);
        let hot = Measured::exact("temperature", 130.0, Unit::Fahrenheit);
        let ratio = net_volume(&gross, &hot, &Expansion::Ratio { mix: propylene }).unwrap();
        // Table 24E would err by +3.0 % at 130 °F (independent calculation, CoolProp 8.0.0).
        let table = net_volume(
            &gross,
            &hot,
            &Expansion::table(Measured::exact("rd60", 0.5217, Unit::One), None).unwrap(),
        );
        assert!((table.unwrap().value / ratio.value - 1.03).abs() < 0.005);
    }
}
