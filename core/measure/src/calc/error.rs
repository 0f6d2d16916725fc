//! The error type of all formulas, and the check of ranges.
//!
//! A result outside a formula's range is an error and never a number (invariant 9). Lines of the script
//! interface that cannot be read have an error type of their own, see `calc::lines`.

use std::fmt;

use crate::units::Unit;
use crate::{Arg, Message, message};

/// Returns the word for an input of a formula, such as "temperature". The words stand in the catalogues under
/// `input-`.
pub fn input(name: &str) -> Message {
    Message::term("input", name)
}

/// The reason why a formula has no result.
#[derive(Clone, Debug, PartialEq)]
pub enum CalcError {
    /// A required input is missing.
    MissingInput {
        /// The input.
        input: Box<Message>,
        /// The unit or the form in which the input is expected.
        wanted: Message,
    },
    /// An input is NaN, infinite, or not a number.
    NotANumber {
        /// The input.
        input: Box<Message>,
        /// What was given instead.
        found: String,
    },
    /// An input or a result is outside what the formula or its table covers.
    OutOfRange {
        /// The input or intermediate result.
        input: Box<Message>,
        /// The value in `unit`.
        value: f64,
        /// The lowest value covered.
        low: f64,
        /// The highest value covered.
        high: f64,
        /// The unit of the three numbers.
        unit: Unit,
        /// The document or reason that sets the limits.
        why: Option<Box<Message>>,
    },
    /// The pressure is at or above saturation at that temperature, so the space cannot contain vapour alone.
    AboveSaturation {
        /// The given absolute pressure, psia.
        pressure: f64,
        /// The saturation (dew) pressure at the temperature, psia.
        saturation: f64,
        /// The temperature, °F.
        temperature: f64,
    },
    /// The inputs contradict each other.
    Inconsistent(Message),
    /// The method is not valid for this product.
    NotApplicable(Message),
    /// A unit has the wrong dimension, such as a length where a pressure is expected.
    WrongUnit {
        /// The input.
        input: Box<Message>,
        /// The given unit.
        found: Unit,
        /// The unit in which the formula works.
        wanted: Unit,
    },
    /// An iteration found no solution.
    NotConverged {
        /// The quantity being solved for.
        what: Message,
    },
}

impl CalcError {
    /// Creates the error for an input that is missing.
    pub fn missing(name: &str, unit: Unit) -> CalcError {
        CalcError::MissingInput { input: Box::new(input(name)), wanted: unit.term() }
    }

    /// Creates the error for an input that is not a number.
    pub fn not_a_number(name: &str, found: impl ToString) -> CalcError {
        CalcError::NotANumber { input: Box::new(input(name)), found: found.to_string() }
    }

    /// Creates the error for an input in a unit of another kind.
    pub fn wrong_unit(name: &str, found: Unit, wanted: Unit) -> CalcError {
        CalcError::WrongUnit { input: Box::new(input(name)), found, wanted }
    }

    /// Returns a stable identifier in snake_case, for scripts and tests.
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

    /// Returns the reason for people.
    pub fn message(&self) -> Message {
        match self {
            CalcError::MissingInput { input, wanted } => {
                message!("calc-error-missing", input = (**input).clone(), wanted = wanted.clone())
            }
            CalcError::NotANumber { input, found } => {
                message!("calc-error-not-a-number", input = (**input).clone(), found = Arg::typed(found))
            }
            CalcError::OutOfRange { input, value, low, high, unit, why } => {
                let said = message!(
                    "calc-error-out-of-range",
                    input = (**input).clone(),
                    value = unit.plain(*value),
                    low = Arg::Number(low.to_string()),
                    high = unit.plain(*high),
                );
                match why {
                    None => said,
                    Some(why) => message!("calc-error-because", said = said, why = (**why).clone()),
                }
            }
            CalcError::AboveSaturation { pressure, saturation, temperature } => message!(
                "calc-error-above-saturation",
                pressure = Unit::PsiAbsolute.figure(*pressure, 1),
                saturation = Unit::PsiAbsolute.figure(*saturation, 1),
                temperature = Unit::Fahrenheit.figure(*temperature, 1),
            ),
            CalcError::Inconsistent(why) | CalcError::NotApplicable(why) => why.clone(),
            CalcError::WrongUnit { input, found, wanted } => message!(
                "calc-error-wrong-unit",
                input = (**input).clone(),
                found = found.term(),
                wanted = wanted.term(),
            ),
            CalcError::NotConverged { what } => message!("calc-error-not-converged", what = what.clone()),
        }
    }

    /// Returns the error with another name for its input, such as the key that a script used.
    #[must_use]
    pub fn named(mut self, name: Message) -> CalcError {
        if let CalcError::MissingInput { input, .. }
        | CalcError::NotANumber { input, .. }
        | CalcError::OutOfRange { input, .. }
        | CalcError::WrongUnit { input, .. } = &mut self
        {
            **input = name;
        }
        self
    }
}

/// Writes the code, for logs. People read [`CalcError::message`].
impl fmt::Display for CalcError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.code())
    }
}

impl std::error::Error for CalcError {}

/// The reason for a formula's limits.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Limits {
    /// None that needs saying.
    Unsaid,
    /// A document, named as it names itself.
    Document(&'static str),
    /// A reason: the id of its message.
    Reason(&'static str),
}

impl Limits {
    /// The limits are this tool's own.
    pub const TOOL: Limits = Limits::Reason("calc-limits-tool");

    fn message(self) -> Option<Message> {
        match self {
            Limits::Unsaid => None,
            Limits::Document(name) => Some(Message::typed(name)),
            Limits::Reason(id) => Some(Message::new(id)),
        }
    }
}

/// The lowest and the highest value that a formula accepts, both included, with the reason for the limits.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Range {
    /// The lowest value, included.
    pub low: f64,
    /// The highest value, included.
    pub high: f64,
    /// The unit of both.
    pub unit: Unit,
    /// The reason.
    pub why: Limits,
}

impl Range {
    /// Creates a range with its reason.
    pub const fn new(low: f64, high: f64, unit: Unit, why: Limits) -> Range {
        Range { low, high, unit, why }
    }

    /// Returns `value` if it is a number inside the range. `name` is the input's word, see [`input`].
    ///
    /// # Errors
    /// [`CalcError::NotANumber`] for NaN and infinities, [`CalcError::OutOfRange`] outside the limits.
    pub fn check(&self, name: &str, value: f64) -> Result<f64, CalcError> {
        if !value.is_finite() {
            return Err(CalcError::not_a_number(name, value));
        }
        if value < self.low || value > self.high {
            return Err(CalcError::OutOfRange {
                input: Box::new(input(name)),
                value,
                low: self.low,
                high: self.high,
                unit: self.unit,
                why: self.why.message().map(Box::new),
            });
        }
        Ok(value)
    }
}
