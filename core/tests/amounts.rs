//! Tests of amounts as they are signed: whatever the reader accepts can be signed and is read back from its
//! bytes.

#![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]

use farsiding_core::entry::cbor::{self, CborError};
use farsiding_core::units::{Amount, AmountRefusal, DecimalMark, Unit};
use proptest::prelude::*;
use serde::Serialize;

/// An amount in the form of entries and messages, with any number.
#[derive(Serialize)]
struct Written {
    text: String,
    unit: Unit,
    value: Option<f64>,
}

/// The bits of any number, with those that are none among them often enough to be tried in every run.
fn number_bits() -> impl Strategy<Value = u64> {
    prop_oneof![
        8 => any::<u64>(),
        1 => any::<u64>().prop_map(|bits| bits | f64::INFINITY.to_bits()),
        1 => Just(f64::NAN.to_bits()),
    ]
}

proptest! {
    /// An amount that the reader accepts can be signed, is read back from its bytes, and never becomes
    /// another number.
    #[test]
    fn what_is_read_can_be_signed(text in "[-−+]?[0-9.,' \u{a0}/]{0,12}( ?(gal|psi|L|in|'|\"))?", at in 0..Unit::ALL.len()) {
        let unit = Unit::ALL[at];
        for mark in [None, Some(DecimalMark::Point), Some(DecimalMark::Comma)] {
            let amounts = match Amount::typed(&text, unit, mark) {
                Ok(amount) => vec![amount],
                Err(AmountRefusal::Two { decimal, thousands }) => {
                    prop_assert!(mark.is_none());
                    vec![*decimal, *thousands]
                }
                Err(_) => Vec::new(),
            };
            for amount in amounts {
                prop_assert_eq!(amount.check_signed(), Ok(()));
                let bytes = cbor::encode(&amount).map_err(|e| TestCaseError::fail(e.to_string()))?;
                let again: Amount =
                    cbor::decode(&bytes).map_err(|e| TestCaseError::fail(e.to_string()))?;
                prop_assert_eq!(again, amount);
            }
        }
        let (amount, _) = Amount::read(&text, unit);
        prop_assert_eq!(amount.check_signed(), Ok(()));
    }

    /// Whether it comes from a keypad, a program, JSON or CBOR, an amount contains a possible number or none.
    #[test]
    fn no_number_that_cannot_be_gets_into_an_amount(bits in number_bits(), at in 0..Unit::ALL.len()) {
        let (value, unit) = (f64::from_bits(bits), Unit::ALL[at]);
        let holds = |amount: &Amount| amount.value.is_none_or(|value| unit.can_be(value));
        let text = format!("{value}");
        prop_assert!(holds(&Amount::of(value, unit)));
        prop_assert!(holds(&Amount::read(&text, unit).0));
        let written = Written { text: text.clone(), unit, value: Some(value) };
        let bytes = cbor::encode(&written).map_err(|e| TestCaseError::fail(e.to_string()))?;
        let read = cbor::decode::<Amount>(&bytes);
        // Of the values that are no number, one alone is part of the deterministic encoding.
        if value.is_nan() && bits != f64::NAN.to_bits() {
            prop_assert!(matches!(read, Err(CborError::NotDeterministic)));
            return Ok(());
        }
        let read = read.map_err(|e| TestCaseError::fail(e.to_string()))?;
        prop_assert!(holds(&read));
        prop_assert_eq!(&read.text, &text);
        let quick: Amount = minicbor_serde::from_slice(&bytes).map_err(|e| TestCaseError::fail(e.to_string()))?;
        prop_assert_eq!(quick, read);
    }
}
