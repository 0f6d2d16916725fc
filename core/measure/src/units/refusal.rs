//! Why a typed text is not an amount, for whoever typed it.

use std::fmt;

use farsiding_message::{Arg, Message, message};

use super::{Amount, Unit};

/// The reason why a text is not an amount.
#[derive(Clone, Debug, PartialEq)]
pub enum AmountRefusal {
    /// Nothing was typed.
    Nothing,
    /// The text is not a number.
    NotANumber(String),
    /// The number is followed by something that is not a unit.
    Behind(String),
    /// The text is ambiguous.
    Two {
        /// The reading in which the mark is a decimal mark.
        decimal: Box<Amount>,
        /// The reading in which the mark separates thousands.
        thousands: Box<Amount>,
    },
    /// No instrument shows such a number (see [`Unit::can_be`]).
    CannotBe {
        /// The text as typed.
        text: String,
        /// The unit.
        unit: Unit,
    },
    /// The typed unit measures another quantity than the one asked for.
    OtherKind {
        /// The unit typed.
        typed: Unit,
        /// The unit of what was asked.
        asked: Unit,
    },
}

impl AmountRefusal {
    /// Returns the reason for whoever typed the text.
    pub fn message(&self) -> Message {
        match self {
            AmountRefusal::Nothing => Message::new("units-nothing-typed"),
            AmountRefusal::NotANumber(text) => message!("units-not-a-number", text = Arg::typed(text)),
            AmountRefusal::Behind(text) => message!("units-behind-number", text = Arg::typed(text)),
            AmountRefusal::Two { decimal, thousands } => message!(
                "units-two-readings",
                text = Arg::typed(decimal.text.trim()),
                decimal = decimal.number(),
                thousands = thousands.number(),
            ),
            AmountRefusal::CannotBe { text, unit } => {
                message!("units-cannot-be", text = Arg::typed(text), unit = unit.term())
            }
            AmountRefusal::OtherKind { typed, asked } => {
                message!("units-other-kind", typed = typed.term(), asked = asked.term())
            }
        }
    }

    /// Returns a stable name in snake_case, for programs.
    pub const fn code(&self) -> &'static str {
        match self {
            AmountRefusal::Nothing => "nothing",
            AmountRefusal::NotANumber(_) => "not_a_number",
            AmountRefusal::Behind(_) => "trailing_text",
            AmountRefusal::Two { .. } => "two_readings",
            AmountRefusal::CannotBe { .. } => "cannot_be",
            AmountRefusal::OtherKind { .. } => "other_kind",
        }
    }
}

/// Writes the stable name, for logs. People read [`AmountRefusal::message`].
impl fmt::Display for AmountRefusal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.code())
    }
}

impl std::error::Error for AmountRefusal {}
