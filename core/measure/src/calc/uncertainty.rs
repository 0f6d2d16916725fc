//! Uncertainty according to JCGM 100:2008 (GUM): standard uncertainties, propagated and expanded with k = 2.
//!
//! This module holds [`Measured`] (a number with its uncertainty) and [`propagate`]. The uncertainty of an
//! instrument is determined in `calc::instrument`. Every formula of `calc` takes `Measured` inputs and
//! computes its result through `propagate`, so each result has a ± and names its largest contributor.

use serde::Serialize;

use super::error::{CalcError, Range, input};
use crate::units::{Amount, Computed, Finding, Severity, Unit};
use crate::{Arg, Joint, Message, message};

/// Coverage factor for about 95 % (JCGM 100:2008, 6.3.3 and G.6.6).
pub const COVERAGE: f64 = 2.0;

/// An input with its standard uncertainty.
///
/// ```
/// use farsiding_measure::calc::Measured;
/// use farsiding_measure::units::Unit;
///
/// // Limits of ±0.6 psi, every value within them equally likely: expanded with k = 2.
/// let pressure = Measured::within("pressure", 40.0, Unit::PsiGauge, 0.6);
/// assert!((pressure.plus_minus() - 2.0 * 0.6 / 3f64.sqrt()).abs() < 1e-12);
/// ```
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Measured {
    /// The name, such as "temperature", whose word for people is a message, see [`input`].
    pub name: String,
    /// The value in `unit`.
    pub value: f64,
    /// Its unit.
    pub unit: Unit,
    /// Standard uncertainty in `unit` (for a temperature: in degrees of that scale).
    pub standard: f64,
    /// The source of an uncertainty that nobody stated, such as "temperature ±1 °F".
    #[serde(skip_serializing_if = "Option::is_none")]
    pub presumed: Option<Message>,
}

impl Measured {
    /// A value without uncertainty: a definition, a setting, a number from a paper taken as it stands.
    pub fn exact(name: &str, value: f64, unit: Unit) -> Measured {
        Measured { name: name.to_owned(), value, unit, standard: 0.0, presumed: None }
    }

    /// A value known to lie within ± `half_width`, every place equally likely: standard uncertainty
    /// a/√3 (JCGM 100:2008, 4.3.7).
    pub fn within(name: &str, value: f64, unit: Unit, half_width: f64) -> Measured {
        Measured { standard: half_width.abs() / 3.0_f64.sqrt(), ..Measured::exact(name, value, unit) }
    }

    /// A value stated with ± at 95 %: standard uncertainty half of it (JCGM 100:2008, 4.3.3).
    pub fn stated(name: &str, value: f64, unit: Unit, plus_minus: f64) -> Measured {
        Measured { standard: plus_minus.abs() / COVERAGE, ..Measured::exact(name, value, unit) }
    }

    /// Like [`Measured::within`], for limits nobody stated; the result then says so.
    pub fn presumed(name: &str, value: f64, unit: Unit, half_width: f64) -> Measured {
        let presumed = (half_width != 0.0).then(|| presumed_limits(name, unit, half_width));
        Measured { presumed, ..Measured::within(name, value, unit, half_width) }
    }

    /// Creates an input from a typed amount, within ± `half_width` in the amount's own unit.
    ///
    /// # Errors
    /// [`CalcError::NotANumber`] if the amount has no number.
    pub fn of(name: &str, amount: &Amount, half_width: f64) -> Result<Measured, CalcError> {
        let value = amount.value.ok_or_else(|| CalcError::not_a_number(name, &amount.text))?;
        Ok(Measured::within(name, value, amount.unit, half_width))
    }

    /// Returns the input in another unit of the same dimension.
    ///
    /// # Errors
    /// [`CalcError::WrongUnit`] if the dimensions differ, [`CalcError::NotANumber`] if the value is not
    /// finite.
    pub fn to(&self, unit: Unit) -> Result<Measured, CalcError> {
        if !self.value.is_finite() || !self.standard.is_finite() {
            return Err(CalcError::not_a_number(&self.name, format!("{} ± {}", self.value, self.standard)));
        }
        if unit == self.unit {
            return Ok(self.clone());
        }
        if unit.dimension() != self.unit.dimension() {
            return Err(CalcError::wrong_unit(&self.name, self.unit, unit));
        }
        let slope = (self.unit.to_si(1.0) - self.unit.to_si(0.0)) / (unit.to_si(1.0) - unit.to_si(0.0));
        Ok(Measured {
            value: unit.from_si(self.unit.to_si(self.value)),
            standard: self.standard * slope.abs(),
            unit,
            ..self.clone()
        })
    }

    /// Returns the input in the range's unit after checking it against the range.
    ///
    /// # Errors
    /// As for [`Measured::to`] and [`Range::check`].
    pub fn checked(&self, range: Range) -> Result<Measured, CalcError> {
        let same = self.to(range.unit)?;
        range.check(&self.name, same.value)?;
        Ok(same)
    }

    /// ± at 95 % in the value's unit.
    pub fn plus_minus(&self) -> f64 {
        COVERAGE * self.standard
    }
}

/// Returns the words for limits that nobody stated, such as "temperature ±1 °F".
pub fn presumed_limits(name: &str, unit: Unit, half_width: f64) -> Message {
    message!("calc-presumed-limits", input = input(name), half_width = unit.plain(half_width))
}

/// The contribution of one input to the uncertainty of a result.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Contribution {
    /// The input, or the method itself.
    pub name: String,
    /// Standard uncertainty of the result caused by it alone, in the result's unit.
    pub standard: f64,
}

/// A value with its uncertainty budget.
#[derive(Clone, Debug, PartialEq)]
pub struct Propagated {
    /// The value.
    pub value: f64,
    /// Combined standard uncertainty.
    pub standard: f64,
    /// Contributions, largest first.
    pub contributions: Vec<Contribution>,
    /// The limits of inputs that nobody stated.
    pub presumed: Vec<Message>,
}

/// The uncertainty of the formula itself, in addition to that of its inputs.
#[derive(Clone, Copy, Debug)]
pub enum Method {
    /// Exact, or far better than any input.
    Exact,
    /// Standard uncertainty as a part of the result, with its name: ("equation of state", 0.0005).
    Relative(&'static str, f64),
    /// Standard uncertainty in the unit of the result, with its name.
    Absolute(&'static str, f64),
}

/// Returns the value of `formula` at `inputs` with its uncertainty.
///
/// Each contribution is half the difference between the results for the input plus and minus one standard
/// uncertainty (JCGM 100:2008, 5.1.3 note 2). Inputs are treated as uncorrelated, and contributions are added
/// in squares (5.1.2). If one side lies outside the formula's range, twice the other half is used.
///
/// # Errors
/// The formula's own error at the inputs; [`CalcError::NotConverged`] if its value is not finite;
/// [`CalcError::Inconsistent`] if neither side of an uncertain input can be evaluated.
pub fn propagate(
    inputs: &[&Measured],
    method: Method,
    formula: impl Fn(&[f64]) -> Result<f64, CalcError>,
) -> Result<Propagated, CalcError> {
    let [only] = propagate_all(inputs, [method], |x| formula(x).map(|value| [value]))?;
    Ok(only)
}

/// Does the same as [`propagate`] for several results that one evaluation yields, so that the formula is
/// evaluated once per step instead of once per result. Each result has its own method.
///
/// # Errors
/// As for [`propagate`].
pub fn propagate_all<const N: usize>(
    inputs: &[&Measured],
    methods: [Method; N],
    formula: impl Fn(&[f64]) -> Result<[f64; N], CalcError>,
) -> Result<[Propagated; N], CalcError> {
    let formula = |values: &[f64]| formula(values).map(|results| results.to_vec());
    let results = spread(inputs, &methods, &formula)?;
    results.try_into().map_err(|_| CalcError::NotConverged { what: Message::new("calc-solved-formula") })
}

/// A formula with any number of results.
type Formula<'f> = dyn Fn(&[f64]) -> Result<Vec<f64>, CalcError> + 'f;

/// Propagates for any number of results. It stands once in the program, whatever the formula.
fn spread(
    inputs: &[&Measured],
    methods: &[Method],
    formula: &Formula<'_>,
) -> Result<Vec<Propagated>, CalcError> {
    let finite = |results: &Vec<f64>| results.iter().all(|result| result.is_finite());
    let values: Vec<f64> = inputs.iter().map(|input| input.value).collect();
    let results = formula(&values)?;
    if !finite(&results) {
        return Err(CalcError::NotConverged { what: Message::new("calc-solved-formula") });
    }
    let mut contributions: Vec<Vec<Contribution>> = results.iter().map(|_| Vec::new()).collect();
    for (at, input) in inputs.iter().enumerate() {
        if input.standard == 0.0 {
            continue;
        }
        let beside = |step: f64| {
            let mut moved = values.clone();
            moved[at] += step;
            formula(&moved).ok().filter(finite)
        };
        let (above, below) = (beside(input.standard), beside(-input.standard));
        for (of, contributions) in contributions.iter_mut().enumerate() {
            let standard = match (&above, &below) {
                (Some(above), Some(below)) => (above[of] - below[of]).abs() / 2.0,
                (Some(one), None) | (None, Some(one)) => (one[of] - results[of]).abs(),
                (None, None) => {
                    return Err(CalcError::Inconsistent(message!(
                        "calc-plus-minus-too-wide",
                        input = super::error::input(&input.name)
                    )));
                }
            };
            contributions.push(Contribution { name: input.name.clone(), standard });
        }
    }
    let presumed: Vec<Message> = inputs.iter().filter_map(|input| input.presumed.clone()).collect();
    let mut found = Vec::with_capacity(results.len());
    for ((value, method), mut contributions) in results.into_iter().zip(methods).zip(contributions) {
        match *method {
            Method::Exact => {}
            Method::Relative(name, part) => {
                contributions.push(Contribution { name: name.to_owned(), standard: (part * value).abs() });
            }
            Method::Absolute(name, standard) => {
                contributions.push(Contribution { name: name.to_owned(), standard });
            }
        }
        contributions.sort_by(|a, b| b.standard.total_cmp(&a.standard));
        let standard = contributions.iter().fold(0.0_f64, |sum, c| sum.hypot(c.standard));
        found.push(Propagated { value, standard, contributions, presumed: presumed.clone() });
    }
    Ok(found)
}

impl Propagated {
    /// ± at 95 %.
    pub fn plus_minus(&self) -> f64 {
        COVERAGE * self.standard
    }

    /// Returns the value in another unit with the same zero: everything is multiplied by `factor`.
    pub fn scaled(&self, factor: f64) -> Propagated {
        let scale = |c: &Contribution| Contribution { standard: c.standard * factor, name: c.name.clone() };
        Propagated {
            value: self.value * factor,
            standard: self.standard * factor,
            contributions: self.contributions.iter().map(scale).collect(),
            presumed: self.presumed.clone(),
        }
    }

    /// The largest contributor and its share of the variance: "pressure, 71 % of the variance".
    pub fn largest(&self) -> Option<Message> {
        let first = self.contributions.first().filter(|_| self.standard > 0.0)?;
        let share = 100.0 * (first.standard / self.standard).powi(2);
        Some(message!("measure-largest", input = input(&first.name), share = Arg::number(share, 0)))
    }

    /// Converts to a computed value for people and programs. Presumed uncertainties of inputs become a
    /// finding.
    pub fn computed(
        &self,
        unit: Unit,
        formula: &str,
        source: &Message,
        mut findings: Vec<Finding>,
    ) -> Computed {
        if !self.presumed.is_empty() {
            findings.push(Finding::new(
                "presumed_uncertainty",
                Severity::Note,
                message!("calc-presumed", limits = Arg::list(Joint::Comma, self.presumed.iter().cloned())),
            ));
        }
        let spread = self.plus_minus();
        Computed {
            value: self.value,
            unit,
            plus_minus: (spread > 0.0).then_some(spread),
            largest: self.largest(),
            formula: formula.to_owned(),
            source: source.clone(),
            findings,
        }
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a test may stop at a surprise")]
    use super::*;
    use crate::calc::error::Limits;

    /// JCGM 100:2008, 5.1.3 example: P = V²/R, with the contributions added in squares.
    #[test]
    fn a_product_adds_relative_uncertainties_in_squares() {
        let volts = Measured { standard: 0.1, ..Measured::exact("voltage", 10.0, Unit::One) };
        let ohms = Measured { standard: 0.05, ..Measured::exact("resistance", 5.0, Unit::One) };
        let watts = propagate(&[&volts, &ohms], Method::Exact, |x| Ok(x[0] * x[0] / x[1])).unwrap();
        let expected = 20.0 * ((2.0 * 0.01_f64).powi(2) + 0.01_f64.powi(2)).sqrt();
        assert!((watts.standard - expected).abs() < 1e-3 * expected);
        assert_eq!(watts.contributions[0].name, "voltage");
        assert!(farsiding_words::english(&watts.largest().unwrap()).contains("80 %"));
    }

    #[test]
    fn limits_are_rectangular_and_survive_a_change_of_unit() {
        let degrees = Measured::within("temperature", 40.0, Unit::Fahrenheit, 5.0);
        let kelvin = degrees.to(Unit::Kelvin).unwrap();
        assert!((kelvin.standard - 5.0 / 1.8 / 3.0_f64.sqrt()).abs() < 1e-9);
        assert!(degrees.to(Unit::Inch).is_err());
    }

    #[test]
    fn a_formula_that_stops_beside_the_input_uses_its_other_side() {
        let x = Measured { standard: 1.0, ..Measured::exact("x", 0.0, Unit::One) };
        let range = Range::new(0.0, 10.0, Unit::One, Limits::Unsaid);
        let got = propagate(&[&x], Method::Exact, |v| range.check("x", v[0]).map(|v| 3.0 * v)).unwrap();
        assert!((got.standard - 3.0).abs() < 1e-12);
    }
}
