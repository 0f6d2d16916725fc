//! Why a line got no answer: a code for the script, a sentence for the person.
//!
//! Covers what a formula refuses (`calc::error`) and what never reached one: unreadable lines, unknown names.

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
