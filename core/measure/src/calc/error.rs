//! The error type of all formulas, and the check of ranges.
//!
//! A result outside a formula's range is an error and never a number (invariant 9). Lines of the script
//! interface that cannot be read have an error type of their own, see `calc::lines`.

use crate::units::Unit;

/// The reason why a formula has no result, in words that a person can act on.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum CalcError {
    /// A required input is missing.
    #[error("{input} is missing; it is needed in {unit}")]
    MissingInput {
        /// The name of the input.
        input: String,
        /// The unit in which the input is expected.
        unit: String,
    },
    /// An input is NaN, infinite, or not a number.
    #[error("{input} is not a number: {found}")]
    NotANumber {
        /// The name of the input.
        input: String,
        /// What was given instead.
        found: String,
    },
    /// An input or a result is outside what the formula or its table covers.
    #[error("{input} is {value} {unit}, outside {low} to {high} {unit}{why}")]
    OutOfRange {
        /// The name of the input or intermediate result.
        input: String,
        /// The value in `unit`.
        value: f64,
        /// The lowest value covered.
        low: f64,
        /// The highest value covered.
        high: f64,
        /// The unit of the three numbers.
        unit: Unit,
        /// The document or reason that sets the limits, beginning with a separator; may be empty.
        why: String,
    },
    /// The pressure is at or above saturation at that temperature, so the space cannot contain vapour alone.
    #[error(
        "{pressure:.2} psia is not below the {saturation:.2} psia at which vapour condenses at {temperature:.1} °F: \
         liquid must be present, or one of the readings is wrong"
    )]
    AboveSaturation {
        /// The given absolute pressure, psia.
        pressure: f64,
        /// The saturation (dew) pressure at the temperature, psia.
        saturation: f64,
        /// The temperature, °F.
        temperature: f64,
    },
    /// The inputs contradict each other.
    #[error("{0}")]
    Inconsistent(String),
    /// The method is not valid for this product.
    #[error("{0}")]
    NotApplicable(String),
    /// A unit has the wrong dimension, such as a length where a pressure is expected.
    #[error("{input} is in {found}, but must be convertible to {wanted}")]
    WrongUnit {
        /// The name of the input.
        input: String,
        /// The given unit.
        found: Unit,
        /// The unit in which the formula works.
        wanted: Unit,
    },
    /// An iteration found no solution.
    #[error("{what} did not converge; check the inputs, and do not use an estimate in its place")]
    NotConverged {
        /// The quantity being solved for.
        what: String,
    },
}

impl CalcError {
    /// Returns a stable identifier in snake_case, for scripts, tests and translations.
    pub const fn code(&self) -> &'static str {
        match self {
            CalcError::MissingInput { .. } => "missing_input",
            CalcError::NotANumber { .. } => "not_a_number",
            CalcError::OutOfRange { .. } => "out_of_range",
            CalcError::AboveSaturation { .. } => "above_saturation",
            CalcError::Inconsistent(_) => "inconsistent_input",
            CalcError::NotApplicable(_) => "not_applicable",
            CalcError::WrongUnit { .. } => "wrong_unit",
            CalcError::NotConverged { .. } => "not_converged",
        }
    }
}

/// The lowest and the highest value that a formula accepts, both included, with the source of the limits.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Range {
    /// The lowest value, included.
    pub low: f64,
    /// The highest value, included.
    pub high: f64,
    /// The unit of both.
    pub unit: Unit,
    /// The document or reason.
    pub why: &'static str,
}

impl Range {
    /// Creates a range with its reason.
    pub const fn new(low: f64, high: f64, unit: Unit, why: &'static str) -> Range {
        Range { low, high, unit, why }
    }

    /// Returns `value` if it is a number inside the range.
    ///
    /// # Errors
    /// [`CalcError::NotANumber`] for NaN and infinities, [`CalcError::OutOfRange`] outside the limits.
    pub fn check(&self, input: &str, value: f64) -> Result<f64, CalcError> {
        if !value.is_finite() {
            return Err(CalcError::NotANumber { input: input.to_owned(), found: value.to_string() });
        }
        if value < self.low || value > self.high {
            let why = if self.why.is_empty() { String::new() } else { format!(" ({})", self.why) };
            return Err(CalcError::OutOfRange {
                input: input.to_owned(),
                value,
                low: self.low,
                high: self.high,
                unit: self.unit,
                why,
            });
        }
        Ok(value)
    }
}
