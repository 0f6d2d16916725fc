//! An amount as a person typed it: the text kept for ever, the value when it could be read.
//!
//! Odd input is never refused here (invariant 2): `Amount::read` always returns an amount, with
//! findings beside it. A caller that needs a number asks `value` and handles its absence.

use serde::{Deserialize, Serialize};

use super::typed::{self, DecimalMark, Digits};
use super::{Dimension, Unit};

/// A typed amount. `text` is exactly what was entered; `value` is its reading in `unit`, when it has one.
///
/// Whatever number stands in bytes from outside, one that cannot be ([`Unit::can_be`]) is none here: the text stays.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "shell-types", derive(ts_rs::TS), ts(as = "Written"))]
#[serde(from = "Written", into = "Written")]
pub struct Amount {
    /// What was typed, untouched.
    pub text: String,
    /// The unit chosen or typed.
    pub unit: Unit,
    /// The number read from `text`, in `unit`, within the bounds of its dimension; absent when the text is no number
    /// or one that cannot be.
    pub value: Option<f64>,
}

/// An amount as it stands in entries and messages.
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

/// Whether a number is what a text says, in `unit` and within rounding. Where the text says two things, either is.
fn stands_for(text: &str, unit: Unit, value: f64) -> bool {
    let readings = typed::readings_in(text, unit);
    if typed::take_for(text, unit).unit.is_some_and(|named| named.dimension() != unit.dimension()) {
        return false;
    }
    match readings {
        // A text nobody reads today was perhaps read when the entry was made.
        [None, _] => typed::as_read_before(text).is_some_and(|number| agree(number, value)),
        _ => readings.into_iter().flatten().any(|reading| agree(reading, value)),
    }
}

/// Why a text is no amount, in words for whoever typed it.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum AmountRefusal {
    /// Nothing was typed.
    #[error("nothing was typed")]
    Nothing,
    /// The text is not a number.
    #[error("\u{201c}{0}\u{201d} is no number")]
    NotANumber(String),
    /// Something stands behind the number that is no unit.
    #[error("\u{201c}{0}\u{201d} has something behind the number that is no unit")]
    Behind(String),
    /// It says two things.
    #[error("\u{201c}{}\u{201d} can be {} or {}: write which", .decimal.text.trim(), .decimal.read_as(), .thousands.read_as())]
    Two {
        /// With decimals.
        decimal: Box<Amount>,
        /// With thousands.
        thousands: Box<Amount>,
    },
    /// A number that no instrument shows ([`Unit::can_be`]).
    #[error("\u{201c}{text}\u{201d} is more or less than can be in {unit}")]
    CannotBe {
        /// As typed.
        text: String,
        /// In which unit.
        unit: Unit,
    },
    /// The unit typed measures something else than what was asked for.
    #[error("{typed} is not the kind of unit asked for here, such as {asked}")]
    OtherKind {
        /// The unit typed.
        typed: Unit,
        /// The unit of what was asked.
        asked: Unit,
    },
}

impl AmountRefusal {
    /// A stable name in snake_case, for whoever says it in another language.
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

/// Why nothing is computed of an amount that somebody meant as one.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unused {
    /// The number is one that no instrument shows.
    CannotBe,
    /// The entry has another number than its text, or none.
    DoesNotFit,
    /// It begins as a number and is not understood.
    NotRead,
}

/// What is odd about a typed amount. Shown beside the value, never instead of it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum AmountFinding {
    /// The text is not a number.
    NotANumber,
    /// The number is one that no instrument shows ([`Unit::can_be`]); it is kept as typed and not used.
    CannotBe,
    /// The text carries a unit other than the one chosen on the screen; the typed one was used.
    UnitFromText,
    /// A decimal comma was read as a decimal point.
    DecimalComma,
    /// More text stood behind the number and its unit: it is kept as typed and not used.
    TrailingText,
    /// The text says two things; it was read with a point before decimals.
    PointRule,
}

impl Amount {
    /// Reads what was typed where an amount in `unit` is asked for, by the rules of [`typed`]. `mark` is the decimal
    /// mark usual where it was typed; without it a text that says two things is handed back with both.
    ///
    /// # Errors
    /// [`AmountRefusal`], in words; the text stays with the caller.
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

    /// Reads what was typed: "118", "118 psi", "1,5 bar", "32 650 gal". Never fails: what is not understood is kept
    /// as typed, without a number. Where a text says two things the decimal mark is a point ("32,650" are thousands).
    ///
    /// `unit` is used when the text names none.
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

    /// An amount that came from a program rather than a keypad; `text` is its printed form.
    pub fn of(value: f64, unit: Unit) -> Amount {
        let text = if value.is_finite() { format!("{value}") } else { "not a number".to_owned() };
        Amount { text, unit, value: Some(value).filter(|value| unit.can_be(*value)) }
    }

    /// Why nothing is computed of it although somebody meant it as a number; nothing where it has its number, or where
    /// words were typed ("full").
    pub fn unused(&self) -> Option<Unused> {
        if self.value.is_some() {
            return None;
        }
        let readings = typed::readings_in(&self.text, self.unit);
        if readings.into_iter().flatten().any(|reading| self.unit.can_be(reading)) {
            return Some(Unused::DoesNotFit);
        }
        let taken = typed::take(&self.text);
        // A program's "inf" and "NaN" are numbers to it.
        if readings[0].is_some() || self.text.trim().parse::<f64>().is_ok() {
            return Some(Unused::CannotBe);
        }
        let begins_as_one =
            taken.digits != Digits::None || self.text.trim().starts_with(|c: char| c.is_ascii_digit());
        begins_as_one.then_some(Unused::NotRead)
    }

    /// Whether the number is what the text says and none is left out: asked of every amount before it is signed.
    ///
    /// # Errors
    /// The sentence that says what does not fit.
    pub fn check_signed(&self) -> Result<(), String> {
        let readings = typed::readings_in(&self.text, self.unit);
        let mut can_be =
            readings.into_iter().flatten().filter(|reading| self.unit.can_be(*reading)).peekable();
        let text = crate::text::on_one_line(self.text.trim()).chars().take(40).collect::<String>();
        let said = match self.value {
            None if can_be.peek().is_none() => return Ok(()),
            Some(value) if readings.into_iter().flatten().any(|reading| agree(reading, value)) => {
                return Ok(());
            }
            Some(value) => format!("the number {value}"),
            None => "no number that fits".to_owned(),
        };
        Err(format!(
            "an amount typed as \u{201c}{text}\u{201d} in {} comes with {said}: what was typed is to be read by the \
             reader of amounts",
            self.unit
        ))
    }

    /// The SI value, when there is a number.
    pub fn si(&self) -> Option<f64> {
        self.value.map(|value| self.unit.to_si(value))
    }

    /// The value in another unit of the same dimension.
    pub fn value_in(&self, unit: Unit) -> Option<f64> {
        if unit == self.unit {
            return self.value;
        }
        (unit.dimension() == self.unit.dimension()).then(|| self.si().map(|si| unit.from_si(si)))?
    }

    /// What the amount measures.
    pub fn dimension(&self) -> Dimension {
        self.unit.dimension()
    }

    /// Number and unit for people: the text as typed, with the unit when the text lacks one. Where the text says two
    /// things and stands for the less usual one, the number it stands for follows.
    pub fn shown(&self) -> String {
        let text = crate::text::on_one_line(self.text.trim());
        let bare = text.chars().all(|c| {
            c.is_ascii_digit()
                || typed::is_blank(c)
                || matches!(c, '.' | ',' | '-' | '+' | '−' | '/' | '\'' | '\u{2019}')
        });
        let named = !bare || (text.contains(['\'', '\u{2019}']) && typed::take(&text).unit.is_some());
        let shown = match (named, self.unit) {
            (_, Unit::One) | (true, _) => text.into_owned(),
            (false, unit) => format!("{text} {unit}"),
        };
        match self.value {
            Some(value) if self.text.contains(['.', ',']) && self.stands_for_the_less_usual(value) => {
                format!("{shown} (read as {value})")
            }
            _ => shown,
        }
    }

    /// The number it stands for, with its unit: "32650 gal". As typed where there is none.
    pub fn read_as(&self) -> String {
        self.value.map_or_else(|| self.shown(), |value| Amount::of(value, self.unit).shown())
    }

    fn stands_for_the_less_usual(&self, value: f64) -> bool {
        let digits = typed::take(&self.text).digits;
        matches!(digits, Digits::Two { .. })
            && !digits.by(DecimalMark::Point).is_some_and(|usual| agree(usual, value))
    }

    /// Whether two amounts say the same thing: equal in SI to nine significant digits, or, where one
    /// has no number, equal in text and unit.
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

/// Whether two numbers are one within rounding: equal to nine significant digits. Not handed on: a may agree with b and
/// b with c while a and c do not.
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
        let refused = |text: &str| typed(text, None).unwrap_err().to_string();
        assert_eq!(refused("32,650"), "\u{201c}32,650\u{201d} can be 32.65 gal or 32650 gal: write which");
        assert_eq!(refused("32.650"), "\u{201c}32.650\u{201d} can be 32.65 gal or 32650 gal: write which");
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
        // Of two readings one can be: then it is the only one.
        let ratio = Amount::typed("100.500", Unit::KilogramPerCubicMetre, None).unwrap();
        assert_eq!(ratio.value, Some(100.5));
        assert_eq!(refused("  "), "nothing was typed");
        assert_eq!(refused("full"), "\u{201c}full\u{201d} is no number");
        assert_eq!(refused("3O"), "\u{201c}3O\u{201d} has something behind the number that is no unit");
        assert_eq!(refused("12 psi"), "psi is not the kind of unit asked for here, such as gal");
        assert_eq!(refused("1/2"), "\u{201c}1/2\u{201d} is no number");
        assert!(refused("99999999999999").contains("more or less than can be in gal"));
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
