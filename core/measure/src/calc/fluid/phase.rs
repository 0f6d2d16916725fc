//! Phase equilibrium: densities at a pressure, bubble and dew points.
//!
//! This module works in K, Pa and mol/m³. Ranges, units and messages are handled in `calc::fluid`, its only
//! caller. Every search is either monotone or limited in steps, and reports when it ends without a solution.

use super::composition::{Fluid, Mix};
use super::mixture::{GAS, Model};

/// The relative accuracy at which the density searches stop.
const CLOSE: f64 = 1e-11;
/// The change of ln p and of composition below which a saturated state counts as converged. A tighter limit
/// than 1e-9 is not reached at low pressure, where Z of the liquid is the small difference of large sums.
const SETTLED: f64 = 1e-9;

/// Returns the molar density of the vapour at a pressure, or `None` if the vapour branch does not reach that
/// pressure.
///
/// Below its spinodal the branch is concave, so Newton's method from the ideal gas rises without passing the
/// root.
pub(super) fn vapour(model: &Model, kelvin: f64, pascal: f64) -> Option<f64> {
    let rt = GAS * kelvin;
    let mut mol = pascal / rt;
    for _ in 0..80 {
        let state = model.state(kelvin, mol);
        if state.slope <= 0.0 || !state.slope.is_finite() {
            return None;
        }
        let step = (pascal - mol * rt * state.z) / (rt * state.slope);
        mol += step;
        if mol <= 0.0 || mol > model.reducing_mol() {
            return None;
        }
        if step.abs() <= CLOSE * mol {
            return Some(mol);
        }
    }
    None
}

/// Returns the molar density of the liquid at a pressure, or `None` if the liquid branch does not reach that
/// pressure.
///
/// Above its spinodal the branch is convex, so Newton's method from a denser start falls without passing the
/// root.
pub(super) fn liquid(model: &Model, kelvin: f64, pascal: f64) -> Option<f64> {
    let rt = GAS * kelvin;
    let reduced = kelvin / model.reducing_kelvin();
    let below = (1.0 - reduced).max(0.0);
    // Saturated liquids follow this formula closely; a start 8 % above it is certainly on the dense side.
    let mut mol = 1.08 * model.reducing_mol() * (1.0 + 1.85 * below.cbrt() + 0.7 * below);
    for _ in 0..6 {
        let state = model.state(kelvin, mol);
        if mol * rt * state.z > pascal && state.slope > 0.0 {
            break;
        }
        mol *= 1.06;
    }
    for _ in 0..80 {
        let state = model.state(kelvin, mol);
        if state.slope <= 0.0 || !state.slope.is_finite() {
            return None;
        }
        let step = (pascal - mol * rt * state.z) / (rt * state.slope);
        mol += step;
        if mol < model.reducing_mol() {
            return None;
        }
        if step.abs() <= CLOSE * mol {
            return Some(mol);
        }
    }
    None
}

/// A saturated state.
#[derive(Clone, Debug)]
pub(super) struct Saturated {
    pub pascal: f64,
    /// Molar density of the liquid.
    pub liquid_mol: f64,
    /// Molar density of the vapour.
    pub vapour_mol: f64,
    /// The liquid.
    pub liquid: Mix,
    /// The vapour.
    pub vapour: Mix,
}

/// Which of the two phases has the given composition.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Given {
    Liquid,
    Vapour,
}

/// Returns Wilson's estimate of a pure saturation pressure, which serves only as a starting value.
fn wilson(fluid: Fluid, kelvin: f64) -> f64 {
    let equation = fluid.equation();
    let slope = 5.373 * (1.0 + equation.acentric) * (1.0 - equation.critical_kelvin / kelvin);
    equation.critical_pascal * slope.exp()
}

/// Bubble point (given liquid) or dew point (given vapour) at a temperature, or nothing.
///
/// Method: equal fugacities by successive substitution on the other phase's composition, with a Newton step
/// on ln p. For a pure fluid that is Newton alone.
pub(super) fn saturated(mix: &Mix, kelvin: f64, given: Given) -> Option<Saturated> {
    let feed = *mix.fractions();
    let fixed = Model::new(mix);
    let estimates = Fluid::ALL.map(|fluid| wilson(fluid, kelvin));
    let weigh = |k: &[f64; 5]| -> [f64; 5] {
        let mut parts = feed;
        for (part, k) in parts.iter_mut().zip(k) {
            match given {
                Given::Liquid => *part *= k,
                Given::Vapour => *part /= k,
            }
        }
        parts
    };
    let total: f64 = weigh(&estimates).iter().sum();
    let mut pascal = match given {
        Given::Liquid => total,
        Given::Vapour => 1.0 / total,
    };
    let mut other = normal(weigh(&estimates))?;
    for _ in 0..200 {
        let other_model = Model::new(&other);
        let (liquid_model, vapour_model) = match given {
            Given::Liquid => (&fixed, &other_model),
            Given::Vapour => (&other_model, &fixed),
        };
        let Some(vapour_mol) = vapour(vapour_model, kelvin, pascal) else {
            pascal *= 0.9;
            continue;
        };
        let Some(liquid_mol) = liquid(liquid_model, kelvin, pascal) else {
            pascal *= 1.1;
            continue;
        };
        let of_liquid = liquid_model.ln_fugacity(kelvin, liquid_mol);
        let of_vapour = vapour_model.ln_fugacity(kelvin, vapour_mol);
        let mut k = [0.0; 5];
        for (k, (l, v)) in k.iter_mut().zip(of_liquid.iter().zip(of_vapour)) {
            *k = (l - v).exp();
        }
        let parts = weigh(&k);
        let sum: f64 = parts.iter().sum();
        let next = normal(parts)?;
        let volume_change = pascal / (GAS * kelvin) * (1.0 / vapour_mol - 1.0 / liquid_mol);
        if !sum.is_finite() || volume_change <= 1e-3 {
            return None;
        }
        let step = match given {
            Given::Liquid => sum.ln() / volume_change,
            Given::Vapour => -sum.ln() / volume_change,
        };
        let change = other.fractions().iter().zip(next.fractions()).map(|(a, b)| (a - b).abs()).sum::<f64>();
        pascal *= step.clamp(-0.3, 0.3).exp();
        other = next;
        if step.abs() <= SETTLED && change <= SETTLED {
            let (liquid, vapour) = match given {
                Given::Liquid => (mix.clone(), other),
                Given::Vapour => (other, mix.clone()),
            };
            return Some(Saturated { pascal, liquid_mol, vapour_mol, liquid, vapour });
        }
    }
    None
}

fn normal(parts: [f64; 5]) -> Option<Mix> {
    let sum: f64 = parts.iter().sum();
    (sum.is_finite() && sum > 0.0).then(|| Mix::from_normal(parts.map(|part| part / sum)))
}
