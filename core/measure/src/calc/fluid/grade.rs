//! Commercial grades as ranges of compositions, and results as bands over these ranges.
//!
//! If only the grade is known, the composition is not. A formula is then computed for every corner of the
//! grade, and the lowest and the highest result are shown instead of one number. The formulas of `calc` that
//! take a [`Composition`] call this module through [`band`].

use serde::{Deserialize, Serialize};

use super::composition::{Fluid, Mix};
use crate::calc::error::CalcError;
use crate::units::Computed;
use crate::{Message, message};

/// A named commercial grade.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Grade {
    /// Special-duty propane, GPA 2140 HD-5: propane 90 % or more, propylene 5 % or less, butanes 2.5 % or
    /// less (liquid volume), 208 psig or less at 100 °F.
    Hd5Propane,
    /// Commercial propane, GPA 2140: propane and propylene, butanes 2.5 % or less, 208 psig or less at 100
    /// °F.
    CommercialPropane,
    /// Commercial butane, GPA 2140: butanes, 70 psig or less at 100 °F.
    CommercialButane,
    /// Butane–propane mixes, GPA 2140: anything from butane to propane, 208 psig or less at 100 °F.
    ButanePropane,
    /// Isobutane of 95 % or more.
    Isobutane,
    /// Propylene of polymer to chemical grade, 92 % or more, the rest propane.
    Propylene,
}

/// Mole fractions at the corners of a grade.
type Corners = &'static [&'static [(Fluid, f64)]];

impl Grade {
    /// Every grade.
    pub const ALL: [Grade; 6] = [
        Grade::Hd5Propane,
        Grade::CommercialPropane,
        Grade::CommercialButane,
        Grade::ButanePropane,
        Grade::Isobutane,
        Grade::Propylene,
    ];

    /// The name in data and scripts.
    pub const fn key(self) -> &'static str {
        match self {
            Grade::Hd5Propane => "hd5_propane",
            Grade::CommercialPropane => "commercial_propane",
            Grade::CommercialButane => "commercial_butane",
            Grade::ButanePropane => "butane_propane",
            Grade::Isobutane => "isobutane",
            Grade::Propylene => "propylene",
        }
    }

    /// The name for people.
    pub fn term(self) -> Message {
        Message::term("calc_grade", self.key())
    }

    /// The grade of that exact key.
    pub fn from_key(key: &str) -> Option<Grade> {
        Grade::ALL.into_iter().find(|grade| grade.key() == key)
    }

    /// The highest vapour pressure that the grade allows at 100 °F, psig; `None` if the grade states none.
    /// GPA 2140 limits from memory.
    pub const fn highest_psig_100f(self) -> Option<f64> {
        match self {
            Grade::Hd5Propane | Grade::CommercialPropane | Grade::ButanePropane => Some(208.0),
            Grade::CommercialButane => Some(70.0),
            Grade::Isobutane | Grade::Propylene => None,
        }
    }

    /// The compositions at the grade's corners: heaviest, lightest and between, mole fractions.
    ///
    /// Limits of GPA 2140 from memory; the light corners carry as much ethane, propylene or propane as the
    /// vapour pressure limit lets through (independent calculation, CoolProp 8.0.0). Pentanes and
    /// non-condensables are not covered.
    const fn corners(self) -> Corners {
        use Fluid::{Ethane, Isobutane, NButane, Propane, Propylene};
        match self {
            Grade::Hd5Propane => &[
                &[(Propane, 0.975), (NButane, 0.025)],
                &[(Propane, 1.0)],
                &[(Propane, 0.95), (Propylene, 0.05)],
                &[(Propane, 0.924), (Ethane, 0.076)],
            ],
            Grade::CommercialPropane => &[
                &[(Propane, 0.975), (NButane, 0.025)],
                &[(Propane, 1.0)],
                &[(Propane, 0.2), (Propylene, 0.8)],
                &[(Propane, 0.924), (Ethane, 0.076)],
            ],
            Grade::CommercialButane => &[
                &[(NButane, 1.0)],
                &[(Isobutane, 1.0)],
                &[(NButane, 0.74), (Propane, 0.26)],
                &[(Isobutane, 0.89), (Propane, 0.11)],
            ],
            Grade::ButanePropane => &[
                &[(NButane, 1.0)],
                &[(NButane, 0.5), (Propane, 0.5)],
                &[(Propane, 1.0)],
                &[(Propane, 0.924), (Ethane, 0.076)],
            ],
            Grade::Isobutane => &[
                &[(Isobutane, 0.95), (NButane, 0.05)],
                &[(Isobutane, 1.0)],
                &[(Isobutane, 0.95), (Propane, 0.05)],
            ],
            Grade::Propylene => &[&[(Propylene, 0.92), (Propane, 0.08)], &[(Propylene, 1.0)]],
        }
    }

    /// Returns the corners as mixes.
    ///
    /// # Errors
    /// [`CalcError`] as for every mix. It does not occur with the corners above.
    pub fn mixes(self) -> Result<Vec<Mix>, CalcError> {
        self.corners().iter().map(|parts| Mix::new(parts)).collect()
    }
}

/// What is known of the product's composition.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Composition {
    /// An analysis, or a pure product.
    Known(Mix),
    /// Only the grade.
    Presumed(Grade),
}

impl Composition {
    /// The mixes to work a formula out for: one, or the grade's corners.
    ///
    /// # Errors
    /// As [`Grade::mixes`].
    pub fn mixes(&self) -> Result<Vec<Mix>, CalcError> {
        match self {
            Composition::Known(mix) => Ok(vec![mix.clone()]),
            Composition::Presumed(grade) => grade.mixes(),
        }
    }

    /// "propane" or "HD-5 propane, composition presumed".
    pub fn message(&self) -> Message {
        match self {
            Composition::Known(mix) => mix.message(),
            Composition::Presumed(grade) => message!("calc-composition-presumed", grade = grade.term()),
        }
    }
}

/// A result over the possible compositions. With a known composition both ends are the same.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Band {
    /// The lowest result.
    pub low: Computed,
    /// The composition that gives it.
    pub low_for: Message,
    /// The highest result.
    pub high: Computed,
    /// The composition that gives it.
    pub high_for: Message,
}

impl Band {
    /// The lowest value less its ±, in the result's unit.
    pub fn least(&self) -> f64 {
        self.low.value - self.low.plus_minus.unwrap_or(0.0)
    }

    /// The highest value plus its ±.
    pub fn most(&self) -> f64 {
        self.high.value + self.high.plus_minus.unwrap_or(0.0)
    }
}

/// Computes `formula` for every composition that the car may contain.
///
/// # Errors
/// The first error, because a band is meaningful only if every composition in it has a result.
pub fn band(
    composition: &Composition,
    formula: impl Fn(&Mix) -> Result<Computed, CalcError>,
) -> Result<Band, CalcError> {
    let mut found: Option<Band> = None;
    for mix in composition.mixes()? {
        let computed = formula(&mix)?;
        found = Some(match found {
            None => Band {
                low: computed.clone(),
                low_for: mix.message(),
                high: computed,
                high_for: mix.message(),
            },
            Some(band) if computed.value < band.low.value => {
                Band { low: computed, low_for: mix.message(), ..band }
            }
            Some(band) if computed.value > band.high.value => {
                Band { high: computed, high_for: mix.message(), ..band }
            }
            Some(band) => band,
        });
    }
    found.ok_or_else(|| CalcError::Inconsistent(Message::new("calc-no-composition")))
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a test may stop at a surprise")]
    use super::*;
    use crate::calc::fluid::bubble;
    use crate::units::Unit;

    #[test]
    fn every_corner_of_a_grade_keeps_its_vapour_pressure_limit_and_the_lightest_nearly_reaches_it() {
        for grade in Grade::ALL {
            let Some(limit) = grade.highest_psig_100f() else { continue };
            let pressures: Vec<f64> = grade
                .mixes()
                .unwrap()
                .iter()
                .map(|mix| bubble(mix, Unit::Fahrenheit.to_si(100.0)).unwrap().pascal)
                .map(|pascal| Unit::PsiAbsolute.from_si(pascal) - 14.696)
                .collect();
            let highest = pressures.iter().copied().fold(0.0, f64::max);
            assert!(highest <= limit && highest > limit - 2.0, "{}: {pressures:?}", grade.key());
        }
    }

    #[test]
    fn grades_read_back_from_their_keys() {
        for grade in Grade::ALL {
            assert_eq!(Grade::from_key(grade.key()), Some(grade));
            assert_eq!(serde_json::to_string(&grade).unwrap(), format!("\"{}\"", grade.key()));
        }
    }
}
