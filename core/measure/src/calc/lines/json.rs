//! One line of JSON as it was written, with the order of keys and repeated keys.
//!
//! `serde_json::Value` silently keeps the last of two equal keys, but a script that sends two temperatures
//! should be told. Only `calc::lines` uses this module.

use serde::de::{Deserialize, Deserializer, MapAccess, SeqAccess, Visitor};

use super::line_error::LineError;
use crate::{Arg, Message, message};

/// A JSON value with its object keys in order, repeated ones included.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Json {
    Nothing,
    Flag(bool),
    Number(f64),
    Text(String),
    List(Vec<Json>),
    Object(Vec<(String, Json)>),
}

/// Longest line accepted, bytes.
pub(super) const LONGEST_LINE: usize = 256 * 1024;

impl Json {
    /// Reads a line that must contain one JSON object.
    ///
    /// The literals NaN, Infinity and −Infinity are not part of JSON, but some programs write them. They are
    /// reported by name instead of as invalid JSON.
    pub(super) fn object(line: &str) -> Result<Vec<(String, Json)>, LineError> {
        if line.len() > LONGEST_LINE {
            return Err(LineError::new(
                "line_too_long",
                message!("calc-line-too-long", count = LONGEST_LINE),
            ));
        }
        let line = line.trim_start_matches('\u{feff}').trim();
        match serde_json::from_str::<Json>(line) {
            Ok(Json::Object(fields)) => Ok(fields),
            Ok(_) => Err(LineError::new("not_an_object", Message::new("calc-line-no-object"))),
            Err(error) => {
                if let Some(literal) = not_finite(line) {
                    let message = message!("calc-line-no-json-number", text = Arg::typed(literal));
                    return Err(LineError::new("not_a_number", message));
                }
                if error.to_string().starts_with("number out of range") {
                    return Err(LineError::new("not_a_number", Message::new("calc-line-number-too-large")));
                }
                Err(LineError::new(
                    "bad_json",
                    message!("calc-line-no-json", error = Arg::Typed(error.to_string())),
                ))
            }
        }
    }
}

/// Returns the first NaN or infinity outside any text.
fn not_finite(line: &str) -> Option<&'static str> {
    let (mut in_text, mut escaped) = (false, false);
    for (at, c) in line.char_indices() {
        match c {
            _ if escaped => escaped = false,
            '\\' if in_text => escaped = true,
            '"' => in_text = !in_text,
            _ if in_text => {}
            'N' if line[at..].starts_with("NaN") => return Some("NaN"),
            'I' if line[at..].starts_with("Inf") => return Some("Infinity"),
            _ => {}
        }
    }
    None
}

impl<'de> Deserialize<'de> for Json {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Json, D::Error> {
        deserializer.deserialize_any(AsWritten)
    }
}

struct AsWritten;

impl<'de> Visitor<'de> for AsWritten {
    type Value = Json;

    fn expecting(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str("a JSON value")
    }

    fn visit_unit<E>(self) -> Result<Json, E> {
        Ok(Json::Nothing)
    }

    fn visit_bool<E>(self, value: bool) -> Result<Json, E> {
        Ok(Json::Flag(value))
    }

    fn visit_i64<E>(self, value: i64) -> Result<Json, E> {
        Ok(Json::Number(value as f64))
    }

    fn visit_u64<E>(self, value: u64) -> Result<Json, E> {
        Ok(Json::Number(value as f64))
    }

    fn visit_f64<E>(self, value: f64) -> Result<Json, E> {
        Ok(Json::Number(value))
    }

    fn visit_str<E>(self, value: &str) -> Result<Json, E> {
        Ok(Json::Text(value.to_owned()))
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut list: A) -> Result<Json, A::Error> {
        let mut items = Vec::new();
        while let Some(item) = list.next_element()? {
            items.push(item);
        }
        Ok(Json::List(items))
    }

    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<Json, A::Error> {
        let mut fields = Vec::new();
        while let Some(field) = map.next_entry()? {
            fields.push(field);
        }
        Ok(Json::Object(fields))
    }
}
