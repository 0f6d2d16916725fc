//! The composition of the product: the five fluids, and mixes of them in mole fractions.
//!
//! This module holds [`Fluid`] and [`Mix`]. Named commercial grades are in `calc::fluid::grade`.

use serde::{Deserialize, Serialize};

use super::coefficients::{ETHANE, ISOBUTANE, N_BUTANE, PROPANE, PROPYLENE};
use super::helmholtz::PureFluid;
use crate::calc::error::{CalcError, Limits, Range};
use crate::calc::sources::{cited, said};
use crate::units::Unit;
use crate::{Arg, Joint, Message, message};

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

    /// The name for people.
    pub fn term(self) -> Message {
        Message::term("calc_fluid", self.key())
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
        const FRACTION: Range = Range::new(0.0, 1.0, Unit::One, Limits::Unsaid);
        let mut fractions = [0.0; 5];
        let mut seen = [false; 5];
        for (fluid, fraction) in parts {
            let at = *fluid as usize;
            if std::mem::replace(&mut seen[at], true) {
                return Err(CalcError::Inconsistent(message!("calc-mix-twice", fluid = fluid.term())));
            }
            fractions[at] =
                FRACTION.check("fraction", *fraction).map_err(|error| error.named(fluid.term()))?;
        }
        let sum: f64 = fractions.iter().sum();
        if (sum - 1.0).abs() > SUM_TOLERANCE {
            return Err(CalcError::Inconsistent(message!("calc-mix-sum", sum = Arg::number(sum, 4))));
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
    pub fn message(&self) -> Message {
        if let Some(fluid) = self.single() {
            return fluid.term();
        }
        let parts = Fluid::ALL.into_iter().filter(|fluid| self.fraction(*fluid) > 0.0).map(|fluid| {
            let share = (self.fraction(fluid) * 1e4).round() / 100.0;
            message!("calc-mix-part", share = Arg::Number(share.to_string()), fluid = fluid.term())
        });
        message!("calc-mix", parts = Arg::list(Joint::Comma, parts))
    }

    /// The publications behind a result for this mix.
    pub fn source(&self) -> Message {
        let mut sources: Vec<&str> = Vec::new();
        for fluid in Fluid::ALL.into_iter().filter(|fluid| self.fraction(*fluid) > 0.0) {
            if !sources.contains(&fluid.source()) {
                sources.push(fluid.source());
            }
        }
        let mut sources: Vec<Message> = sources.into_iter().map(cited).collect();
        match self.single() {
            Some(_) => return sources.swap_remove(0),
            None if self.fraction(Fluid::Propylene) > 0.0 => {
                sources.extend([said("calc-source-mixing"), said("calc-source-propylene-pairs")]);
            }
            None => sources.push(said("calc-source-mixing")),
        }
        message!("calc-source-several", parts = Arg::list(Joint::Semicolon, sources))
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
