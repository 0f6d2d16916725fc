//! Deterministic CBOR (RFC 8949, section 4.2.1), in which each value has exactly one encoding.
//!
//! `ciborium` already writes the shortest integers and floats and definite lengths. This module adds the
//! order of map keys, and the check that given bytes are the deterministic encoding.

use ciborium::Value;
use serde::Serialize;
use serde::de::DeserializeOwned;

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
    let mut value = Value::serialized(value).map_err(|e| CborError::Unwritable(e.to_string()))?;
    sort_keys(&mut value)?;
    encode_plain(&value)
}

/// Reads `bytes` as a `T` and accepts only the deterministic encoding.
///
/// # Errors
/// [`CborError`]. The function does not panic on any bytes.
pub fn decode<T: DeserializeOwned>(bytes: &[u8]) -> Result<T, CborError> {
    decode_value(bytes)?.deserialized().map_err(|e| CborError::Unreadable(e.to_string()))
}

/// Reads `bytes` as a generic value and accepts only the deterministic encoding.
///
/// # Errors
/// As for [`decode`].
pub fn decode_value(bytes: &[u8]) -> Result<Value, CborError> {
    if has_more_items_than(MOST_ITEMS, bytes) {
        return Err(CborError::Unreadable("it has too many parts".to_owned()));
    }
    let value: Value = ciborium::de::from_reader_with_recursion_limit(bytes, DEEPEST)
        .map_err(|e| CborError::Unreadable(e.to_string()))?;
    let mut sorted = value;
    sort_keys(&mut sorted)?;
    if !is_plain(&sorted) || encode_plain(&sorted)? != bytes {
        return Err(CborError::NotDeterministic);
    }
    Ok(sorted)
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

/// Returns true if the value contains no tags, which decoders would skip, and no NaN other than the canonical
/// one.
fn is_plain(value: &Value) -> bool {
    match value {
        Value::Tag(..) => false,
        Value::Float(number) => !number.is_nan() || number.to_bits() == f64::NAN.to_bits(),
        Value::Array(items) => items.iter().all(is_plain),
        Value::Map(pairs) => pairs.iter().all(|(key, inner)| is_plain(key) && is_plain(inner)),
        _ => true,
    }
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
    use super::*;

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
