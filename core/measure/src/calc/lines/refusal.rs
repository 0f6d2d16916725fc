//! The reason why a line has no answer: a code for the script, and a sentence for people.
//!
//! It covers errors of formulas (`calc::error`) and lines that reach no formula because they cannot be read
//! or name an unknown one.

use crate::calc::CalcError;

/// A refused line.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Refusal {
    pub code: &'static str,
    pub message: String,
}

impl Refusal {
    pub(super) fn new(code: &'static str, message: impl Into<String>) -> Refusal {
        Refusal { code, message: message.into() }
    }
}

impl From<CalcError> for Refusal {
    fn from(error: CalcError) -> Refusal {
        Refusal { code: error.code(), message: error.to_string() }
    }
}
