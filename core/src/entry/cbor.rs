//! Deterministic CBOR (RFC 8949, section 4.2.1), in which each value has exactly one encoding.
//!
//! `ciborium` already writes the shortest integers and floats and definite lengths. This module adds the
//! order of map keys, and the check that given bytes are the deterministic encoding.

use ciborium::Value;
use serde::Serialize;
use serde::de::DeserializeOwned;

use super::value_reader::from_cbor;
use super::value_writer::to_value;

/// The reason why bytes were not accepted as deterministic CBOR.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum CborError {
    /// The bytes are not CBOR or do not have the expected shape.
    #[error("not readable as CBOR: {0}")]
    Unreadable(String),
    /// The bytes are CBOR but not in the deterministic encoding.
    #[error("not in deterministic encoding (RFC 8949, 4.2.1)")]
    NotDeterministic,
    /// CBOR cannot represent the value.
    #[error("cannot be written as CBOR: {0}")]
    Unwritable(String),
}

/// The deepest nesting accepted, which protects the stack.
const DEEPEST: usize = 32;

/// The most data items in one message. Each item takes thirty to two hundred bytes of memory however short
/// its encoding is, so their number must be limited as well as the bytes. The limit is enough for a survey of
/// 170 000 documents.
const MOST_ITEMS: usize = 1 << 20;

/// Returns the deterministic encoding of `value`.
///
/// # Errors
/// [`CborError::Unwritable`] if serde cannot represent the value.
pub fn encode<T: Serialize>(value: &T) -> Result<Vec<u8>, CborError> {
    let mut value = to_value(value).map_err(|e| CborError::Unwritable(e.to_string()))?;
    sort_keys(&mut value)?;
    encode_plain(&value)
}

/// Reads `bytes` as a `T` and accepts only the deterministic encoding.
///
/// # Errors
/// [`CborError`]. The function does not panic on any bytes.
pub fn decode<T: DeserializeOwned>(bytes: &[u8]) -> Result<T, CborError> {
    from_cbor(&decode_value(bytes)?).map_err(|e| CborError::Unreadable(e.to_string()))
}

/// Reads `bytes` as a generic value and accepts only the deterministic encoding.
///
/// # Errors
/// As for [`decode`].
pub fn decode_value(bytes: &[u8]) -> Result<Value, CborError> {
    if has_more_items_than(MOST_ITEMS, bytes) {
        return Err(CborError::Unreadable("it has too many parts".to_owned()));
    }
    let value = parse(bytes)?;
    if is_deterministic(bytes) { Ok(value) } else { Err(CborError::NotDeterministic) }
}

/// Reads `bytes` that are known to be in the deterministic encoding.
pub(super) fn parse(bytes: &[u8]) -> Result<Value, CborError> {
    ciborium::de::from_reader_with_recursion_limit(bytes, DEEPEST)
        .map_err(|e| CborError::Unreadable(e.to_string()))
}

/// Returns true if bytes that were read as CBOR are one value in its deterministic encoding. Tags, which
/// decoders would skip, and any NaN other than the canonical one are no part of it.
fn is_deterministic(bytes: &[u8]) -> bool {
    end_of_item(bytes, 0, true) == Some(bytes.len())
}

/// Returns the end of the data item at `at`, or `None` if its encoding is not the deterministic one. Inside a
/// map's key the order of further keys is free, because keys are compared by their bytes alone.
fn end_of_item(bytes: &[u8], at: usize, ordered: bool) -> Option<usize> {
    let head = *bytes.get(at)?;
    let (major, info) = (head >> 5, head & 0x1f);
    let follows = match info {
        0..=23 => 0,
        24..=27 => 1usize << (info - 24),
        _ => return None, // of indefinite length, or reserved
    };
    let after = at + 1 + follows;
    let number = bytes.get(at + 1..after)?.iter().fold(0u64, |sum, byte| sum << 8 | u64::from(*byte));
    if major == 7 {
        return is_shortest_simple(info, number).then_some(after);
    }
    // The argument stands in the fewest bytes that can hold it.
    let least = [0, 24, 1 << 8, 0, 1 << 16, 0, 0, 0, 1 << 32].get(follows).copied()?;
    if number < least {
        return None;
    }
    let argument = if follows == 0 { u64::from(info) } else { number };
    match major {
        0 | 1 => Some(after),
        2 | 3 => after.checked_add(usize::try_from(argument).ok()?).filter(|end| *end <= bytes.len()),
        4 => (0..argument).try_fold(after, |at, _| end_of_item(bytes, at, ordered)),
        5 => {
            let (mut at, mut before): (usize, Option<&[u8]>) = (after, None);
            for _ in 0..argument {
                let end = end_of_item(bytes, at, false)?;
                let key = bytes.get(at..end)?;
                if ordered && before.is_some_and(|before| before >= key) {
                    return None;
                }
                before = Some(key);
                at = end_of_item(bytes, end, ordered)?;
            }
            Some(at)
        }
        _ => None,
    }
}

/// Returns true for false, true, null, and a floating-point number in the shortest form that keeps its value.
fn is_shortest_simple(info: u8, bits: u64) -> bool {
    const NAN: u64 = 0x7e00;
    match info {
        20..=22 => true,
        25 => bits & 0x7c00 != 0x7c00 || bits & 0x3ff == 0 || bits == NAN,
        26 => u32::try_from(bits).is_ok_and(|bits| !f32::from_bits(bits).is_nan() && !fits_half(bits)),
        27 => {
            let number = f64::from_bits(bits);
            #[allow(clippy::cast_possible_truncation, reason = "whether it is cut off is what is asked")]
            let single = number as f32;
            !number.is_nan() && f64::from(single).to_bits() != bits
        }
        _ => false,
    }
}

/// Returns true if a single-precision number that is no NaN has the same value in half precision.
const fn fits_half(bits: u32) -> bool {
    let (exponent, fraction) = ((bits >> 23) & 0xff, bits & 0x7f_ffff);
    match exponent {
        // Zero; numbers below the normal singles are below the halves as well. And the infinities.
        0 | 0xff => fraction == 0,
        // 2^-14 to 2^15: thirteen bits of the fraction are cut off.
        113..=142 => fraction & 0x1fff == 0,
        // 2^-24 to 2^-15: each step down cuts off one more, and the leading one stands among them.
        103..=112 => (fraction | 0x80_0000) & ((1 << (126 - exponent)) - 1) == 0,
        _ => false,
    }
}

/// Returns true if there are more than `most` data item heads (RFC 8949, section 3). Their content is not
/// decoded; truncated or malformed bytes are left to the decoder.
pub fn has_more_items_than(most: usize, bytes: &[u8]) -> bool {
    let (mut at, mut items) = (0usize, 0);
    while let Some(head) = bytes.get(at) {
        items += 1;
        if items > most {
            return true;
        }
        let follows = match head & 0x1f {
            info @ 24..=27 => 1usize << (info - 24),
            _ => 0,
        };
        let argument = match (follows, bytes.get(at + 1..at + 1 + follows)) {
            (0, _) => u64::from(head & 0x1f),
            (_, Some(bytes)) => bytes.iter().fold(0, |sum, byte| sum << 8 | u64::from(*byte)),
            (_, None) => return false,
        };
        let text_or_bytes = matches!(head >> 5, 2 | 3);
        let length = if text_or_bytes { usize::try_from(argument).unwrap_or(usize::MAX) } else { 0 };
        at = at.saturating_add(1 + follows).saturating_add(length);
    }
    false
}

fn encode_plain(value: &Value) -> Result<Vec<u8>, CborError> {
    let mut bytes = Vec::new();
    ciborium::into_writer(value, &mut bytes).map_err(|e| CborError::Unwritable(e.to_string()))?;
    Ok(bytes)
}

fn sort_keys(value: &mut Value) -> Result<(), CborError> {
    match value {
        Value::Map(pairs) => {
            let mut keyed = Vec::with_capacity(pairs.len());
            for (key, mut inner) in std::mem::take(pairs) {
                sort_keys(&mut inner)?;
                keyed.push((encode_plain(&key)?, key, inner));
            }
            keyed.sort_by(|a, b| a.0.cmp(&b.0));
            if keyed.windows(2).any(|pair| pair[0].0 == pair[1].0) {
                return Err(CborError::NotDeterministic);
            }
            *pairs = keyed.into_iter().map(|(_, key, inner)| (key, inner)).collect();
        }
        Value::Array(items) => items.iter_mut().try_for_each(sort_keys)?,
        Value::Tag(_, inner) => sort_keys(inner)?,
        _ => {}
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]
    use super::*;
    use proptest::prelude::*;

    /// The definition itself: what was read, written again with its keys in order, gives the same bytes.
    fn is_written_the_same_again(bytes: &[u8], value: &Value) -> bool {
        fn is_plain(value: &Value) -> bool {
            match value {
                Value::Tag(..) => false,
                Value::Float(number) => !number.is_nan() || number.to_bits() == f64::NAN.to_bits(),
                Value::Array(items) => items.iter().all(is_plain),
                Value::Map(pairs) => pairs.iter().all(|(key, inner)| is_plain(key) && is_plain(inner)),
                _ => true,
            }
        }
        let mut sorted = value.clone();
        sort_keys(&mut sorted).is_ok() && is_plain(&sorted) && encode_plain(&sorted).unwrap() == bytes
    }

    fn read(bytes: &[u8]) -> Option<Value> {
        ciborium::de::from_reader_with_recursion_limit(bytes, DEEPEST).ok()
    }

    fn any_value() -> impl Strategy<Value = Value> {
        let leaf = prop_oneof![
            any::<bool>().prop_map(Value::from),
            Just(Value::Null),
            any::<i64>().prop_map(Value::from),
            (-300i64..300).prop_map(Value::from),
            any::<f64>().prop_map(Value::from),
            any::<f32>().prop_map(|number| Value::from(f64::from(number))),
            (-70_000i32..70_000).prop_map(|number| Value::from(f64::from(number) / 64.0)),
            "[a-z]{0,30}".prop_map(Value::from),
            proptest::collection::vec(any::<u8>(), 0..300).prop_map(Value::from),
        ];
        leaf.prop_recursive(4, 40, 6, |inner| {
            prop_oneof![
                proptest::collection::vec(inner.clone(), 0..6).prop_map(Value::from),
                proptest::collection::vec((inner.clone(), inner), 0..6).prop_map(Value::Map),
            ]
        })
    }

    proptest! {
        #[test]
        fn the_check_while_reading_says_what_writing_again_says(
            mut value in any_value(),
            order in any::<bool>(),
            altered in proptest::option::of((any::<proptest::sample::Index>(), any::<u8>())),
        ) {
            if order {
                let _ = sort_keys(&mut value);
            }
            let mut bytes = encode_plain(&value).unwrap();
            if let Some((at, byte)) = altered {
                let at = at.index(bytes.len());
                bytes[at] = byte;
            }
            if let Some(value) = read(&bytes) {
                prop_assert_eq!(is_deterministic(&bytes), is_written_the_same_again(&bytes, &value));
            }
        }

        #[test]
        fn the_check_says_so_of_any_bytes(bytes in proptest::collection::vec(any::<u8>(), 0..24)) {
            if let Some(value) = read(&bytes) {
                prop_assert_eq!(is_deterministic(&bytes), is_written_the_same_again(&bytes, &value));
            }
        }

        #[test]
        fn a_single_is_refused_where_a_half_would_do(bits in any::<u32>(), zeros in 0u32..24) {
            let bits = bits & !((1 << zeros) - 1);
            let bytes = [&[0xfa][..], &bits.to_be_bytes()].concat();
            let value = read(&bytes).unwrap();
            prop_assert_eq!(is_deterministic(&bytes), is_written_the_same_again(&bytes, &value));
        }
    }

    #[test]
    fn every_half_and_every_short_head_is_judged_as_writing_it_again_judges_it() {
        for bits in 0..=u16::MAX {
            let half = [&[0xf9][..], &bits.to_be_bytes()].concat();
            for bytes in [&half[..], &bits.to_be_bytes()] {
                let Some(value) = read(bytes) else { continue };
                assert_eq!(is_deterministic(bytes), is_written_the_same_again(bytes, &value), "{bytes:02x?}");
            }
            if let Some(Value::Float(number)) = read(&half)
                && !number.is_nan()
            {
                #[allow(clippy::cast_possible_truncation, reason = "each half is a single")]
                let single = number as f32;
                assert!(fits_half(single.to_bits()), "{number}");
            }
        }
    }

    #[test]
    fn keys_are_sorted_by_their_encoded_bytes() {
        // Shorter encodings come first only because their bytes sort first (RFC 8949, 4.2.1).
        let bytes = encode(&serde_json::json!({"aa": 1, "b": 2, "a": 3})).unwrap_or_default();
        assert_eq!(bytes, [0xa3, 0x61, b'a', 3, 0x61, b'b', 2, 0x62, b'a', b'a', 1]);
    }

    #[test]
    fn a_tag_and_another_not_a_number_are_refused() {
        assert_eq!(decode_value(&[0xd9, 0xd9, 0xf7, 0xa0]), Err(CborError::NotDeterministic));
        assert_eq!(decode_value(&[0x81, 0xc0, 0x60]), Err(CborError::NotDeterministic));
        assert!(decode_value(&[0xf9, 0x7e, 0x00]).is_ok());
        assert_eq!(decode_value(&[0xf9, 0x7e, 0x01]), Err(CborError::NotDeterministic));
    }

    /// Checks the float examples of RFC 8949, Appendix A: 1.5 is a half, 100000.0 a single, and 1.1 a double.
    #[test]
    fn floats_take_their_shortest_form() {
        assert_eq!(encode(&1.5f64), Ok(vec![0xf9, 0x3e, 0x00]));
        assert_eq!(encode(&100_000.0f64), Ok(vec![0xfa, 0x47, 0xc3, 0x50, 0x00]));
        assert_eq!(encode(&1.1f64), Ok(vec![0xfb, 0x3f, 0xf1, 0x99, 0x99, 0x99, 0x99, 0x99, 0x9a]));
    }

    #[test]
    fn other_encodings_of_the_same_value_are_refused() {
        for bytes in [
            &[0x18, 0x05][..],                     // 5 in two bytes
            &[0xfa, 0x3f, 0xc0, 0x00, 0x00],       // 1.5 as a single
            &[0xa2, 0x61, b'b', 1, 0x61, b'a', 2], // keys out of order
            &[0xa2, 0x61, b'a', 1, 0x61, b'a', 2], // a key twice
            &[0x9f, 0x01, 0xff],                   // indefinite length
            &[0x01, 0x01],                         // something behind the value
        ] {
            assert!(decode_value(bytes).is_err(), "{bytes:02x?}");
        }
    }

    #[test]
    fn a_message_of_very_many_small_parts_is_refused_before_it_grows() {
        let list = |of: usize, each: &[u8]| {
            let mut bytes = vec![0x9a];
            bytes.extend_from_slice(&u32::try_from(of).unwrap_or_default().to_be_bytes());
            bytes.extend(each.iter().copied().cycle().take(of * each.len()));
            bytes
        };
        for each in [&[0x00][..], &[0x60], &[0xf6], &[0x80], &[0xa0]] {
            assert!(decode_value(&list(MOST_ITEMS - 1, each)).is_ok());
            assert!(decode_value(&list(MOST_ITEMS, each)).is_err());
        }
        let bytes = [&[0x59, 0xff, 0xff][..], &[0; 0xffff]].concat();
        assert!(!has_more_items_than(1, &bytes), "what is inside bytes is no part");
        assert!(!has_more_items_than(1, &[0x5b, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0x00]));
    }

    #[test]
    fn deep_nesting_is_an_error_not_a_crash() {
        assert!(decode_value(&[0x81; 100_000]).is_err());
    }
}
