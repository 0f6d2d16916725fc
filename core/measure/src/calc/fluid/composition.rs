//! The composition of the product: the five fluids, and mixes of them in mole fractions.
//!
//! This module holds [`Fluid`] and [`Mix`]. Named commercial grades are in `calc::fluid::grade`.

use serde::{Deserialize, Serialize};

use super::coefficients::{ETHANE, ISOBUTANE, N_BUTANE, PROPANE, PROPYLENE};
use super::helmholtz::PureFluid;
use crate::calc::error::{CalcError, Range};
use crate::units::Unit;

/// A fluid with a reference equation of state.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Fluid {
    /// Propane.
    Propane,
    /// Normal butane.
    NButane,
    /// Isobutane.
    Isobutane,
    /// Propylene (propene).
    Propylene,
    /// Ethane, a light end of commercial propane.
    Ethane,
}

impl Fluid {
    /// Every fluid, in the order mole fractions are kept.
    pub const ALL: [Fluid; 5] =
        [Fluid::Propane, Fluid::NButane, Fluid::Isobutane, Fluid::Propylene, Fluid::Ethane];

    pub(super) const fn equation(self) -> &'static PureFluid {
        match self {
            Fluid::Propane => &PROPANE,
            Fluid::NButane => &N_BUTANE,
            Fluid::Isobutane => &ISOBUTANE,
            Fluid::Propylene => &PROPYLENE,
            Fluid::Ethane => &ETHANE,
        }
    }

    /// The name in data and scripts: "n_butane".
    pub const fn key(self) -> &'static str {
        self.equation().key
    }

    /// The fluid of that exact key.
    pub fn from_key(key: &str) -> Option<Fluid> {
        Fluid::ALL.into_iter().find(|fluid| fluid.key() == key)
    }

    /// The publication of its equation of state.
    pub const fn source(self) -> &'static str {
        self.equation().source
    }

    /// Molar mass, kg/mol.
    pub const fn molar_mass(self) -> f64 {
        self.equation().molar_mass
    }

    /// Critical temperature, K.
    pub const fn critical_kelvin(self) -> f64 {
        self.equation().critical_kelvin
    }
}

/// A mix of the five fluids, mole fractions that sum to one.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Mix {
    fractions: [f64; 5],
}

/// The largest deviation of the sum of given mole fractions from one. Within it they are scaled to one.
pub const SUM_TOLERANCE: f64 = 0.005;

impl Mix {
    /// One fluid alone.
    pub fn pure(fluid: Fluid) -> Mix {
        let mut fractions = [0.0; 5];
        fractions[fluid as usize] = 1.0;
        Mix { fractions }
    }

    /// From mole fractions, each 0 to 1, together 1 within 0.005; scaled to exactly 1.
    ///
    /// # Errors
    /// [`CalcError::OutOfRange`] or [`CalcError::NotANumber`] for a fraction,
    /// [`CalcError::Inconsistent`] when a fluid stands twice or the sum is not one.
    pub fn new(parts: &[(Fluid, f64)]) -> Result<Mix, CalcError> {
        const FRACTION: Range = Range::new(0.0, 1.0, Unit::One, "mole fractions");
        let mut fractions = [0.0; 5];
        let mut seen = [false; 5];
        for (fluid, fraction) in parts {
            let at = *fluid as usize;
            if std::mem::replace(&mut seen[at], true) {
                return Err(CalcError::Inconsistent(format!("{} stands twice in the mix", fluid.key())));
            }
            fractions[at] = FRACTION.check(fluid.key(), *fraction)?;
        }
        let sum: f64 = fractions.iter().sum();
        if (sum - 1.0).abs() > SUM_TOLERANCE {
            return Err(CalcError::Inconsistent(format!(
                "the mole fractions of the mix sum to {sum:.4}, but must sum to 1"
            )));
        }
        fractions.iter_mut().for_each(|fraction| *fraction /= sum);
        Ok(Mix { fractions })
    }

    /// Mole fractions in the order of [`Fluid::ALL`].
    pub const fn fractions(&self) -> &[f64; 5] {
        &self.fractions
    }

    /// The mole fraction of one fluid.
    pub const fn fraction(&self, fluid: Fluid) -> f64 {
        self.fractions[fluid as usize]
    }

    /// The only fluid, when there is one.
    pub fn single(&self) -> Option<Fluid> {
        Fluid::ALL.into_iter().find(|fluid| self.fraction(*fluid) == 1.0)
    }

    /// Molar mass, kg/mol.
    pub fn molar_mass(&self) -> f64 {
        Fluid::ALL.iter().map(|fluid| self.fraction(*fluid) * fluid.molar_mass()).sum()
    }

    /// "propane" or "97 % propane, 3 % ethane", in mole per cent.
    pub fn described(&self) -> String {
        if let Some(fluid) = self.single() {
            return fluid.key().to_owned();
        }
        let parts: Vec<String> = Fluid::ALL
            .into_iter()
            .filter(|fluid| self.fraction(*fluid) > 0.0)
            .map(|fluid| format!("{} % {}", (self.fraction(fluid) * 1e4).round() / 100.0, fluid.key()))
            .collect();
        parts.join(", ")
    }

    /// The publications behind a result for this mix.
    pub fn source(&self) -> String {
        let mut sources: Vec<&str> = Vec::new();
        for fluid in Fluid::ALL.into_iter().filter(|fluid| self.fraction(*fluid) > 0.0) {
            if !sources.contains(&fluid.source()) {
                sources.push(fluid.source());
            }
        }
        if self.single().is_none() {
            sources.push("mixing by GERG-2008, Kunz & Wagner, J. Chem. Eng. Data 57 (2012) 3032–3091");
            if self.fraction(Fluid::Propylene) > 0.0 {
                sources.push("propylene pairs by Bell & Lemmon, J. Chem. Eng. Data 61 (2016) 3752–3760");
            }
        }
        sources.join("; ")
    }

    /// Whether a pair is present whose interaction nobody published (propylene with n-butane).
    pub fn rests_on_estimated_pair(&self) -> bool {
        self.fraction(Fluid::Propylene) > 0.0 && self.fraction(Fluid::NButane) > 0.0
    }

    pub(super) const fn from_normal(fractions: [f64; 5]) -> Mix {
        Mix { fractions }
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a test may stop at a surprise")]
    use super::*;

    #[test]
    fn a_mix_that_does_not_add_up_is_refused() {
        assert!(Mix::new(&[(Fluid::Propane, 0.9)]).is_err());
        assert!(Mix::new(&[(Fluid::Propane, 95.0), (Fluid::Ethane, 5.0)]).is_err());
        assert!(Mix::new(&[(Fluid::Propane, f64::NAN)]).is_err());
        assert!(Mix::new(&[(Fluid::Propane, 0.5), (Fluid::Propane, 0.5)]).is_err());
        assert!(Mix::new(&[]).is_err());
    }

    #[test]
    fn a_rounding_error_in_a_sum_is_scaled_away() {
        let mix = Mix::new(&[(Fluid::Propane, 0.951), (Fluid::Propylene, 0.05)]).unwrap();
        assert!((mix.fractions().iter().sum::<f64>() - 1.0).abs() < 1e-15);
    }

    #[test]
    fn keys_read_back_as_their_fluid() {
        for fluid in Fluid::ALL {
            assert_eq!(Fluid::from_key(fluid.key()), Some(fluid));
            assert_eq!(serde_json::to_string(&fluid).unwrap(), format!("\"{}\"", fluid.key()));
        }
    }
}
