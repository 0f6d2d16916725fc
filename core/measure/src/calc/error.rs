//! Why a formula gave no number. Lives here: the one error type of all formulas and the range check.
//! Does not live here: unreadable lines of the script interface (see `calc::lines`).
//! Called by every formula: a result outside a formula's range is an error, never a number (invariant 9).

use crate::units::Unit;

/// A formula's refusal, in words a person can act on.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum CalcError {
    /// An input the formula cannot do without was not given.
    #[error("{input} is missing; it is needed in {unit}")]
    MissingInput {
        /// The input.
        input: String,
        /// The unit it is wanted in.
        unit: String,
    },
    /// An input is NaN, infinite or no number at all.
    #[error("{input} is not a number: {found}")]
    NotANumber {
        /// The input.
        input: String,
        /// What stood there.
        found: String,
    },
    /// An input or result lies outside what the formula or its table covers.
    #[error("{input} is {value} {unit}, outside {low} to {high} {unit}{why}")]
    OutOfRange {
        /// The input or intermediate result.
        input: String,
        /// Its value in `unit`.
        value: f64,
        /// Lowest value covered.
        low: f64,
        /// Highest value covered.
        high: f64,
        /// Unit of the three numbers.
        unit: Unit,
        /// Which document or reason sets the limits, beginning with a separator, or empty.
        why: String,
    },
    /// The pressure is at or above saturation at that temperature: vapour alone cannot stand there.
    #[error(
        "{pressure:.2} psia is not below the {saturation:.2} psia at which vapour condenses at {temperature:.1} °F: \
         liquid must be present, or one of the readings is wrong"
    )]
    AboveSaturation {
        /// Absolute pressure given, psia.
        pressure: f64,
        /// Saturation (dew) pressure at the temperature, psia.
        saturation: f64,
        /// Temperature, °F.
        temperature: f64,
    },
    /// Inputs that cannot be true together.
    #[error("{0}")]
    Inconsistent(String),
    /// The method does not hold for this product.
    #[error("{0}")]
    NotApplicable(String),
    /// A unit of the wrong kind, such as a length where a pressure is needed.
    #[error("{input} is in {found}, but must be convertible to {wanted}")]
    WrongUnit {
        /// The input.
        input: String,
        /// Unit given.
        found: Unit,
        /// Unit the formula works in.
        wanted: Unit,
    },
    /// An iteration found no solution.
    #[error("{what} did not converge; check the inputs, and do not use an estimate in its place")]
    NotConverged {
        /// What was being solved.
        what: String,
    },
}

impl CalcError {
    /// Stable identifier in snake_case, for scripts, tests and translation.
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

/// Lowest and highest value a formula accepts, both included, and who says so.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Range {
    /// Lowest value, included.
    pub low: f64,
    /// Highest value, included.
    pub high: f64,
    /// Unit of both.
    pub unit: Unit,
    /// Document or reason.
    pub why: &'static str,
}

impl Range {
    /// A range with its reason.
    pub const fn new(low: f64, high: f64, unit: Unit, why: &'static str) -> Range {
        Range { low, high, unit, why }
    }

    /// `value` if it is a number inside the range.
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
