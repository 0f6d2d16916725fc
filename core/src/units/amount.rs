//! An amount as a person typed it: the text kept for ever, the value when it could be read.
//!
//! Odd input is never refused here (invariant 2): `Amount::read` always returns an amount, with
//! findings beside it. A caller that needs a number asks `value` and handles its absence.

use serde::{Deserialize, Serialize};

use super::{Dimension, Unit};

/// A typed amount. `text` is exactly what was entered; `value` is its reading in `unit`, when it has one.
///
/// Whatever number stands in bytes from outside, one that cannot be ([`Unit::can_be`]) is none here: the text stays.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
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
#[serde(rename = "Amount")]
struct Written {
    text: String,
    unit: Unit,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    value: Option<f64>,
}

impl From<Written> for Amount {
    fn from(Written { text, unit, value }: Written) -> Amount {
        Amount { text, unit, value: value.filter(|value| unit.can_be(*value)) }
    }
}

impl From<Amount> for Written {
    fn from(Amount { text, unit, value }: Amount) -> Written {
        Written { text, unit, value: value.filter(|value| unit.can_be(*value)) }
    }
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
    /// More text stood behind the number and its unit.
    TrailingText,
}

impl Amount {
    /// Reads what was typed: "118", "118 psi", "1,5 bar", "32 650 gal". Never fails.
    ///
    /// `unit` is used when the text names none. A comma followed by exactly three digits is a
    /// thousands separator; any other single comma is a decimal comma.
    pub fn read(text: &str, unit: Unit) -> (Amount, Vec<AmountFinding>) {
        let mut findings = Vec::new();
        let trimmed = text.trim();
        let split = trimmed
            .char_indices()
            .find(|(_, c)| !(c.is_ascii_digit() || matches!(c, '.' | ',' | '-' | '+' | ' ' | '−' | '\u{a0}')))
            .map_or(trimmed.len(), |(at, _)| at);
        let (number, rest) = trimmed.split_at(split);
        let mut unit = unit;
        let rest = rest.trim();
        if !rest.is_empty() {
            match Unit::read(rest) {
                Ok(typed) => {
                    if typed != unit {
                        findings.push(AmountFinding::UnitFromText);
                        unit = typed;
                    }
                }
                Err(_) => findings.push(AmountFinding::TrailingText),
            }
        }
        let number = read_number(number, &mut findings);
        let value = number.filter(|number| unit.can_be(*number));
        match (number, value) {
            (None, _) => findings.push(AmountFinding::NotANumber),
            (Some(_), None) => findings.push(AmountFinding::CannotBe),
            _ => {}
        }
        (Amount { text: text.to_owned(), unit, value }, findings)
    }

    /// An amount that came from a program rather than a keypad; `text` is its printed form.
    pub fn of(value: f64, unit: Unit) -> Amount {
        let text = if value.is_finite() { format!("{value}") } else { "not a number".to_owned() };
        Amount { text, unit, value: Some(value).filter(|value| unit.can_be(*value)) }
    }

    /// Whether a number was typed or sent, and it is one that cannot be: it is then kept as typed and not used.
    pub fn cannot_be(&self) -> bool {
        let text = self.text.trim();
        let end = text.find(|c: char| c.is_alphabetic() || matches!(c, '%' | '°')).unwrap_or(text.len());
        let is_number = || read_number(&text[..end], &mut Vec::new()).is_some();
        // A program's "inf" and "NaN" are numbers to it.
        self.value.is_none() && (is_number() || text.parse::<f64>().is_ok())
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

    /// Number and unit for people: the text as typed, with the unit when the text lacks one.
    pub fn shown(&self) -> String {
        let text = crate::text::on_one_line(self.text.trim());
        let bare = text.chars().all(|c| c.is_ascii_digit() || matches!(c, '.' | ',' | '-' | '+' | ' ' | '−'));
        match (bare, self.unit) {
            (true, Unit::One) | (false, _) => text.into_owned(),
            (true, unit) => format!("{text} {unit}"),
        }
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

fn read_number(text: &str, findings: &mut Vec<AmountFinding>) -> Option<f64> {
    let mut digits: String =
        text.trim().replace('−', "-").chars().filter(|c| !matches!(c, ' ' | '\u{a0}')).collect();
    let commas = digits.matches(',').count();
    if commas > 0 {
        let groups_of_three =
            digits.split(',').skip(1).all(|group| group.split('.').next().is_some_and(|g| g.len() == 3));
        if groups_of_three {
            digits = digits.replace(',', "");
        } else if commas == 1 && !digits.contains('.') {
            findings.push(AmountFinding::DecimalComma);
            digits = digits.replace(',', ".");
        }
    }
    digits.parse::<f64>().ok().filter(|value| value.is_finite())
}

#[cfg(test)]
mod tests {
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
            ("3O", Unit::PsiGauge, Some(3.0)),
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

    proptest! {
        #[test]
        fn nothing_typed_is_ever_lost_or_panics(text in ".{0,40}") {
            let (amount, findings) = Amount::read(&text, Unit::PsiGauge);
            prop_assert_eq!(&amount.text, &text);
            let unread = |f: &AmountFinding| matches!(f, AmountFinding::NotANumber | AmountFinding::CannotBe);
            prop_assert_eq!(amount.value.is_none(), findings.iter().any(unread));
        }

        /// From a keypad, a program, JSON or CBOR, whatever the bits: an amount holds a number that can be, or none.
        #[test]
        fn no_number_that_cannot_be_gets_into_an_amount(bits in any::<u64>(), at in 0..Unit::ALL.len()) {
            let (value, unit) = (f64::from_bits(bits), Unit::ALL[at]);
            let holds = |amount: &Amount| amount.value.is_none_or(|value| unit.can_be(value));
            let text = format!("{value}");
            prop_assert!(holds(&Amount::of(value, unit)));
            prop_assert!(holds(&Amount::read(&text, unit).0));
            let written = Written { text: text.clone(), unit, value: Some(value) };
            let bytes = crate::entry::cbor::encode(&written).map_err(|e| TestCaseError::fail(e.to_string()))?;
            let read: Amount = crate::entry::cbor::decode(&bytes).map_err(|e| TestCaseError::fail(e.to_string()))?;
            prop_assert!(holds(&read));
            prop_assert_eq!(&read.text, &text);
            let quick: Amount = minicbor_serde::from_slice(&bytes).map_err(|e| TestCaseError::fail(e.to_string()))?;
            prop_assert_eq!(quick, read);
        }
    }
}
