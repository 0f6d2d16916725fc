//! The reason why a line has no answer: a code for the script, and a message for people.
//!
//! It covers errors of formulas (`calc::error`) and lines that reach no formula because they cannot be read
//! or name an unknown one.

use crate::Message;
use crate::calc::CalcError;

/// A refused line.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct LineError {
    pub code: &'static str,
    pub message: Message,
}

impl LineError {
    pub(super) fn new(code: &'static str, message: Message) -> LineError {
        LineError { code, message }
    }
}

impl From<CalcError> for LineError {
    fn from(error: CalcError) -> LineError {
        LineError { code: error.code(), message: error.message() }
    }
}
