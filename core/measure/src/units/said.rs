//! Values with their unit as arguments of messages.

use farsiding_message::{Arg, Message};

use super::{Dimension, Unit};

impl Unit {
    /// Returns the unit as it stands beside a number, as a message.
    pub fn term(self) -> Message {
        Message::term("unit", self.word())
    }

    /// Returns a value in this unit as an argument of a message, with a fixed number of decimals.
    pub fn figure(self, value: f64, decimals: usize) -> Arg {
        self.written(unsigned_zero(format!("{value:.decimals$}")), None)
    }

    /// Returns a value with its ± as an argument of a message, both with a fixed number of decimals.
    pub fn figure_within(self, value: f64, plus_minus: f64, decimals: usize) -> Arg {
        let plus_minus = format!("{plus_minus:.decimals$}");
        self.written(unsigned_zero(format!("{value:.decimals$}")), Some(plus_minus))
    }

    /// Returns a value in this unit as an argument of a message, with the decimals that it has.
    pub fn plain(self, value: f64) -> Arg {
        self.written(value.to_string(), None)
    }

    /// Returns the unit of absolute pressure that belongs to a unit of gauge pressure, and any other unit
    /// itself.
    pub const fn absolute(self) -> Unit {
        match self {
            Unit::PsiGauge => Unit::PsiAbsolute,
            Unit::KilopascalGauge | Unit::BarGauge => Unit::KilopascalAbsolute,
            other => other,
        }
    }

    /// Returns true if the unit is one of gauge pressure.
    pub fn is_gauge(self) -> bool {
        self.dimension() == Dimension::GaugePressure
    }

    fn written(self, value: String, plus_minus: Option<String>) -> Arg {
        Arg::Figure { value, plus_minus, unit: self.word().to_owned() }
    }
}

/// A value that rounds to nothing has no sign.
fn unsigned_zero(value: String) -> String {
    match value.strip_prefix('-') {
        Some(number) if number.chars().all(|c| matches!(c, '0' | '.')) => number.to_owned(),
        _ => value,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_rounds_to_nothing_is_not_less_than_nothing() {
        assert_eq!(Unit::PsiGauge.figure(-0.04, 1), Unit::PsiGauge.figure(0.0, 1));
        assert_ne!(Unit::PsiGauge.figure(-0.06, 1), Unit::PsiGauge.figure(0.1, 1));
    }
}
