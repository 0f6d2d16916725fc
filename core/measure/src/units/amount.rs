//! An amount as a person typed it: the text, which is always kept, and the value, if the text could be
//! read.
//!
//! Unusual input is never refused here (invariant 2): `Amount::read` always returns an amount, together with
//! findings. A caller that needs a number reads `value` and handles its absence.

use farsiding_message::{Arg, Message, message};
use serde::{Deserialize, Serialize};

use super::refusal::AmountRefusal;
use super::typed::{self, DecimalMark, Digits};
use super::{Dimension, Unit};

/// A typed amount. `text` is exactly what was entered, and `value` is its reading in `unit` if there is one.
///
/// A number from outside that no instrument can show (see [`Unit::can_be`]) is dropped on reading; the text
/// stays.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "shell-types", derive(ts_rs::TS), ts(as = "Written"))]
#[serde(from = "Written", into = "Written")]
pub struct Amount {
    /// The text exactly as typed.
    pub text: String,
    /// The unit, either chosen on the screen or typed.
    pub unit: Unit,
    /// The number read from `text`, in `unit` and within the bounds of its dimension. Absent if the text is
    /// not a number or the number is out of bounds.
    pub value: Option<f64>,
}

/// The form of an amount in entries and messages.
#[derive(Serialize, Deserialize)]
#[cfg_attr(feature = "shell-types", derive(ts_rs::TS))]
#[serde(rename = "Amount")]
struct Written {
    text: String,
    unit: Unit,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    value: Option<f64>,
}

impl From<Written> for Amount {
    fn from(Written { text, unit, value }: Written) -> Amount {
        let value = value.filter(|value| unit.can_be(*value) && stands_for(&text, unit, *value));
        Amount { text, unit, value }
    }
}

impl From<Amount> for Written {
    fn from(Amount { text, unit, value }: Amount) -> Written {
        Written { text, unit, value: value.filter(|value| unit.can_be(*value)) }
    }
}

/// Returns true if a number is what a text says in `unit`, within rounding. For an ambiguous text either
/// reading is accepted.
fn stands_for(text: &str, unit: Unit, value: f64) -> bool {
    let readings = typed::readings_in(text, unit);
    if typed::take_for(text, unit).unit.is_some_and(|named| named.dimension() != unit.dimension()) {
        return false;
    }
    match readings {
        // The text cannot be read today but may have been read by the rules in force when the entry was made.
        [None, _] => typed::as_read_before(text).is_some_and(|number| agree(number, value)),
        _ => readings.into_iter().flatten().any(|reading| agree(reading, value)),
    }
}

/// The reason why an amount that was meant as a number is not used in computations.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unused {
    /// No instrument shows such a number.
    CannotBe,
    /// The entry contains another number than its text, or none.
    DoesNotFit,
    /// The text begins as a number but cannot be read.
    NotRead,
}

/// Something unusual about a typed amount. Findings are shown beside the value and never replace it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum AmountFinding {
    /// The text is not a number.
    NotANumber,
    /// No instrument shows such a number (see [`Unit::can_be`]); the text is kept and the number is not used.
    CannotBe,
    /// The text contains another unit than the one chosen on the screen; the typed unit was used.
    UnitFromText,
    /// A decimal comma was read as a decimal point.
    DecimalComma,
    /// The number and its unit are followed by more text; the text is kept and the number is not used.
    TrailingText,
    /// The text is ambiguous and was read with a point as decimal mark.
    PointRule,
}

impl Amount {
    /// Reads a text typed where an amount in `unit` is asked for, by the rules of [`typed`]. `mark` is the
    /// decimal mark that is usual where the text was typed; without it, an ambiguous text is returned as an
    /// error with both readings.
    ///
    /// # Errors
    /// [`AmountRefusal`] with a sentence for the person who typed; the caller still has the text.
    ///
    /// ```
    /// use farsiding_measure::units::{Amount, AmountRefusal, DecimalMark, Unit};
    ///
    /// let pressure = Amount::typed("1,5 bar", Unit::PsiGauge, None)?;
    /// assert_eq!((pressure.unit, pressure.value), (Unit::BarGauge, Some(1.5)));
    ///
    /// // A mark before exactly three digits is ambiguous unless the usual decimal mark is known.
    /// assert!(matches!(Amount::typed("32,650", Unit::Gallon, None), Err(AmountRefusal::Two { .. })));
    /// let volume = Amount::typed("32,650", Unit::Gallon, Some(DecimalMark::Point))?;
    /// assert_eq!(volume.value, Some(32_650.0));
    /// # Ok::<(), AmountRefusal>(())
    /// ```
    pub fn typed(text: &str, unit: Unit, mark: Option<DecimalMark>) -> Result<Amount, AmountRefusal> {
        let short = || crate::text::on_one_line(text.trim()).chars().take(40).collect::<String>();
        let taken = typed::take_for(text, unit);
        if text.trim().is_empty() {
            return Err(AmountRefusal::Nothing);
        }
        if taken.more {
            return Err(match taken.digits {
                Digits::None => AmountRefusal::NotANumber(short()),
                _ => AmountRefusal::Behind(short()),
            });
        }
        let asked = unit;
        let unit = taken.unit.unwrap_or(unit);
        if unit.dimension() != asked.dimension() {
            return Err(AmountRefusal::OtherKind { typed: unit, asked });
        }
        let with = |value: f64| Amount { text: text.to_owned(), unit, value: Some(value) };
        let can_be: Vec<f64> = match (taken.digits, mark) {
            (Digits::None, _) => return Err(AmountRefusal::NotANumber(short())),
            (digits, Some(mark)) => digits.by(mark).into_iter().collect(),
            (digits, None) => digits.all().into_iter().flatten().collect(),
        };
        let can_be: Vec<f64> = can_be.into_iter().filter(|value| unit.can_be(*value)).collect();
        match can_be.as_slice() {
            [] => Err(AmountRefusal::CannotBe { text: short(), unit }),
            [one] => Ok(with(*one)),
            [first, second, ..] => Err(AmountRefusal::Two {
                decimal: Box::new(with(*first)),
                thousands: Box::new(with(*second)),
            }),
        }
    }

    /// Reads a typed text such as "118", "118 psi", "1,5 bar" or "32 650 gal". The function always succeeds:
    /// a text that cannot be read is kept without a number. In an ambiguous text the decimal mark is taken to
    /// be a point ("32,650" are thousands).
    ///
    /// `unit` applies if the text contains no unit.
    pub fn read(text: &str, unit: Unit) -> (Amount, Vec<AmountFinding>) {
        let mut findings = Vec::new();
        let taken = typed::take_for(text, unit);
        let number = if taken.more { None } else { taken.digits.by(DecimalMark::Point) };
        let typed_unit = taken.unit.unwrap_or(unit);
        if typed_unit != unit {
            findings.push(AmountFinding::UnitFromText);
        }
        match taken.digits {
            Digits::One(_, true) => findings.push(AmountFinding::DecimalComma),
            Digits::Two { .. } if !taken.more => findings.push(AmountFinding::PointRule),
            _ => {}
        }
        let value = number.filter(|number| typed_unit.can_be(*number));
        match (number, value) {
            (None, _) if taken.more && taken.digits != Digits::None => {
                findings.push(AmountFinding::TrailingText)
            }
            (None, _) => findings.push(AmountFinding::NotANumber),
            (Some(_), None) => findings.push(AmountFinding::CannotBe),
            _ => {}
        }
        (Amount { text: text.to_owned(), unit: typed_unit, value }, findings)
    }

    /// Creates an amount from a program's number; `text` is its printed form.
    pub fn of(value: f64, unit: Unit) -> Amount {
        let text = if value.is_finite() { format!("{value}") } else { "not a number".to_owned() };
        Amount { text, unit, value: Some(value).filter(|value| unit.can_be(*value)) }
    }

    /// Returns the reason why the amount is not used in computations although it was meant as a number.
    /// Returns `None` if it has its number, or if words were typed ("full").
    pub fn unused(&self) -> Option<Unused> {
        if self.value.is_some() {
            return None;
        }
        let readings = typed::readings_in(&self.text, self.unit);
        if readings.into_iter().flatten().any(|reading| self.unit.can_be(reading)) {
            return Some(Unused::DoesNotFit);
        }
        let taken = typed::take(&self.text);
        // Programs write "inf" and "NaN" as numbers.
        if readings[0].is_some() || self.text.trim().parse::<f64>().is_ok() {
            return Some(Unused::CannotBe);
        }
        let begins_as_one =
            taken.digits != Digits::None || self.text.trim().starts_with(|c: char| c.is_ascii_digit());
        begins_as_one.then_some(Unused::NotRead)
    }

    /// Checks that the number is what the text says and that none is missing. Every amount is checked before
    /// it is signed.
    ///
    /// # Errors
    /// The contradiction.
    pub fn check_signed(&self) -> Result<(), Message> {
        let readings = typed::readings_in(&self.text, self.unit);
        let mut can_be =
            readings.into_iter().flatten().filter(|reading| self.unit.can_be(*reading)).peekable();
        match self.value {
            None if can_be.peek().is_none() => return Ok(()),
            Some(value) if readings.into_iter().flatten().any(|reading| agree(reading, value)) => {
                return Ok(());
            }
            _ => {}
        }
        let text = crate::text::on_one_line(self.text.trim()).chars().take(40).collect::<String>();
        let (text, unit) = (Arg::Typed(text), self.unit.term());
        Err(match self.value {
            Some(value) => message!(
                "units-other-number",
                text = text,
                unit = unit,
                number = Arg::Number(value.to_string())
            ),
            None => message!("units-no-number", text = text, unit = unit),
        })
    }

    /// Returns the value in SI units, if there is a number.
    pub fn si(&self) -> Option<f64> {
        self.value.map(|value| self.unit.to_si(value))
    }

    /// Returns the value in another unit, if there is a number and the dimensions are the same.
    pub fn value_in(&self, unit: Unit) -> Option<f64> {
        if unit == self.unit {
            return self.value;
        }
        (unit.dimension() == self.unit.dimension()).then(|| self.si().map(|si| unit.from_si(si)))?
    }

    /// Returns the dimension of the amount's unit.
    pub fn dimension(&self) -> Dimension {
        self.unit.dimension()
    }

    /// Returns number and unit for people: the text as typed, with the unit added if the text has none. If an
    /// ambiguous text stands for its less usual reading, the number follows.
    pub fn shown(&self) -> String {
        let text = crate::text::on_one_line(self.text.trim());
        let shown = match (self.names_its_unit(&text), self.unit) {
            (_, Unit::One) | (true, _) => text.into_owned(),
            (false, unit) => format!("{text} {unit}"),
        };
        match self.value {
            Some(value) if self.is_read_unusually(value) => format!("{shown} (read as {value})"),
            _ => shown,
        }
    }

    /// Returns the amount as an argument of a message. Where the reader's language writes the decimal mark as a comma,
    /// the number that was read is shown in its place, so that "12,500" is not read as twelve and a half.
    pub fn arg(&self) -> Arg {
        let text = crate::text::on_one_line(self.text.trim());
        Arg::Amount {
            named: self.names_its_unit(&text),
            echoed: self.value.is_some_and(|value| self.is_read_unusually(value)),
            typed: text.into_owned(),
            value: self.value.map(|value| value.to_string()),
            unit: self.unit.word().to_owned(),
        }
    }

    /// Returns the number with its unit as an argument of a message, or the text as typed if there is no
    /// number.
    pub(super) fn number(&self) -> Arg {
        self.value.map_or_else(|| self.arg(), |value| self.unit.plain(value))
    }

    fn names_its_unit(&self, text: &str) -> bool {
        let bare = text.chars().all(|c| {
            c.is_ascii_digit()
                || typed::is_blank(c)
                || matches!(c, '.' | ',' | '-' | '+' | '−' | '/' | '\'' | '\u{2019}')
        });
        !bare || (text.contains(['\'', '\u{2019}']) && typed::take(text).unit.is_some())
    }

    fn is_read_unusually(&self, value: f64) -> bool {
        self.text.contains(['.', ',']) && self.stands_for_the_less_usual(value)
    }

    /// Returns the number with its unit ("32650 gal"), or the text as typed if there is no number.
    pub fn read_as(&self) -> String {
        self.value.map_or_else(|| self.shown(), |value| Amount::of(value, self.unit).shown())
    }

    fn stands_for_the_less_usual(&self, value: f64) -> bool {
        let digits = typed::take(&self.text).digits;
        matches!(digits, Digits::Two { .. })
            && !digits.by(DecimalMark::Point).is_some_and(|usual| agree(usual, value))
    }

    /// Returns true if two amounts mean the same: they are equal in SI units to nine significant digits or,
    /// if one of them has no number, equal in text and unit.
    pub fn agrees_with(&self, other: &Amount) -> bool {
        if self.dimension() != other.dimension() {
            return false;
        }
        match (self.si(), other.si()) {
            (Some(a), Some(b)) => agree(a, b),
            (None, None) => self.text.trim() == other.text.trim() && self.unit == other.unit,
            _ => false,
        }
    }
}

/// Returns true if two numbers are equal within rounding, that is, to nine significant digits. The relation
/// is not transitive: a may agree with b and b with c while a and c do not agree.
pub fn agree(a: f64, b: f64) -> bool {
    (a - b).abs() <= 1e-9 * a.abs().max(b.abs())
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn the_text_is_kept_and_the_number_understood() {
        for (text, unit, value) in [
            ("118", Unit::PsiGauge, Some(118.0)),
            (" 118.5 psig", Unit::PsiGauge, Some(118.5)),
            ("32,650 gal", Unit::Gallon, Some(32_650.0)),
            ("1,5", Unit::BarGauge, Some(1.5)),
            ("−12", Unit::Fahrenheit, Some(-12.0)),
            ("3O", Unit::PsiGauge, None),
            ("32.650", Unit::Gallon, Some(32.65)),
            ("12' 3 1/2\"", Unit::Inch, Some(147.5)),
            ("full", Unit::Percent, None),
        ] {
            let (amount, _) = Amount::read(text, unit);
            assert_eq!(amount.text, text);
            assert_eq!(amount.value, value, "{text}");
        }
    }

    #[test]
    fn a_number_that_no_gauge_shows_is_kept_as_typed_and_is_none() {
        let (amount, findings) = Amount::read("100000000000000000", Unit::PsiGauge);
        assert_eq!((amount.text.as_str(), amount.value), ("100000000000000000", None));
        assert_eq!(findings, vec![AmountFinding::CannotBe]);
        assert_eq!(amount.shown(), "100000000000000000 psi");
        let (same, _) = Amount::read("100000000000000000", Unit::PsiGauge);
        assert!(amount.agrees_with(&same), "two people who typed the same do not disagree");
    }

    #[test]
    fn a_letter_o_typed_for_a_zero_is_pointed_out() {
        let (_, findings) = Amount::read("3O", Unit::PsiGauge);
        assert_eq!(findings, vec![AmountFinding::TrailingText]);
    }

    #[test]
    fn a_typed_unit_wins_and_is_pointed_out() {
        let (amount, findings) = Amount::read("8 bar", Unit::PsiGauge);
        assert_eq!(amount.unit, Unit::BarGauge);
        assert_eq!(findings, vec![AmountFinding::UnitFromText]);
    }

    #[test]
    fn what_says_two_things_is_asked_back_and_what_is_none_is_refused_in_words() {
        let typed = |text: &str, mark| Amount::typed(text, Unit::Gallon, mark);
        let refused = |text: &str| farsiding_words::english(&typed(text, None).unwrap_err().message());
        assert_eq!(refused("32,650"), "\u{201c}32,650\u{201d} can be 32.65 gal or 32,650 gal. Write which.");
        assert_eq!(refused("32.650"), "\u{201c}32.650\u{201d} can be 32.65 gal or 32,650 gal. Write which.");
        for (text, mark, value) in [
            ("32,650", DecimalMark::Point, 32_650.0),
            ("32,650", DecimalMark::Comma, 32.65),
            ("32.650", DecimalMark::Point, 32.65),
            ("32.650", DecimalMark::Comma, 32_650.0),
            ("32,65", DecimalMark::Point, 32.65),
        ] {
            let amount = typed(text, Some(mark)).unwrap();
            assert_eq!((amount.text.as_str(), amount.value), (text, Some(value)), "{text} {mark:?}");
        }
        for text in ["32 650", "32\u{a0}650 gal", "32'650", "32650"] {
            assert_eq!(typed(text, None).unwrap().value, Some(32_650.0), "{text}");
        }
        // Only one of the two readings is within bounds, so it is taken.
        let ratio = Amount::typed("100.500", Unit::KilogramPerCubicMetre, None).unwrap();
        assert_eq!(ratio.value, Some(100.5));
        assert_eq!(refused("  "), "Nothing was typed.");
        assert_eq!(refused("full"), "\u{201c}full\u{201d} is not a number.");
        assert_eq!(refused("3O"), "\u{201c}3O\u{201d} has something after the number that is not a unit.");
        assert_eq!(refused("12 psi"), "psig is not the kind of unit asked for here, such as gal.");
        assert_eq!(refused("1/2"), "\u{201c}1/2\u{201d} is not a number.");
        assert!(refused("99999999999999").contains("more or less than is possible in gal"));
        assert_eq!(Amount::typed("3 1/2", Unit::Inch, None).unwrap().shown(), "3 1/2 in");
        assert_eq!(Amount::typed("12' 3\"", Unit::Inch, None).unwrap().shown(), "12' 3\"");
    }

    #[test]
    fn only_an_amount_whose_number_is_what_was_typed_is_signed() {
        let amount = |text: &str, value| Amount { text: text.to_owned(), unit: Unit::Gallon, value };
        for (text, value) in
            [("38.5", Some(38.5)), ("32,650", Some(32.65)), ("32,650", Some(32_650.0)), ("full", None)]
        {
            assert_eq!(amount(text, value).check_signed(), Ok(()), "{text} {value:?}");
        }
        for (text, value) in [
            ("38.5", Some(385.0)),
            ("32,650", None),
            ("full", Some(1.0)),
            ("3O", Some(3.0)),
            ("8 L", Some(8.0)),
        ] {
            assert!(amount(text, value).check_signed().is_err(), "{text} {value:?}");
        }
    }

    proptest! {
        #[test]
        fn nothing_typed_is_ever_lost_or_panics(text in ".{0,40}") {
            let (amount, findings) = Amount::read(&text, Unit::PsiGauge);
            prop_assert_eq!(&amount.text, &text);
            let unread = |f: &AmountFinding| {
                matches!(f, AmountFinding::NotANumber | AmountFinding::CannotBe | AmountFinding::TrailingText)
            };
            prop_assert_eq!(amount.value.is_none(), findings.iter().any(unread));
        }
    }
}
