//! One reader for everything that comes in as CBOR, JSON or TOML.
//!
//! Each format's own library parses the text or the bytes into a [`Value`]; what a value means is read here. Reading
//! each type by each library's own reader made the browser's module a quarter of a megabyte larger.

use std::fmt;

use ciborium::Value;
use serde::de::{self, DeserializeOwned, DeserializeSeed, Visitor};

/// Says why a value is not of the expected shape, and where in it. The text is for developers.
///
/// Boxed: every field of every type hands it on, and each hand-over of a large one is code.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("{}", .0.why)]
pub struct ReadError(Box<Stopped>);

#[derive(Debug, Clone, PartialEq, Eq)]
struct Stopped {
    why: String,
    mistake: ReadMistake,
    /// The names and places that lead to where the reader stopped, the innermost first.
    path: Vec<PathPart>,
}

/// The kinds of mistakes.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum ReadMistake {
    /// The text is not of its format.
    Syntax,
    /// A name or a word that is not among those that can stand there.
    Unknown {
        /// The name.
        name: String,
        /// Those that can stand there.
        known: &'static [&'static str],
    },
    /// A required name is missing.
    Missing(&'static str),
    /// A name stands twice.
    Twice(&'static str),
    /// A value of another kind, length or range is needed.
    OtherKind,
}

/// One step on the way into a value.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum PathPart {
    /// The value, or the name itself, of this name in a map.
    Name(String),
    /// The item at this place in a list, counted from 0.
    Place(usize),
}

impl ReadError {
    /// A text that is not of its format, with what its library says.
    pub fn syntax(why: &str) -> ReadError {
        ReadError::of(why.to_owned(), ReadMistake::Syntax)
    }

    fn of(why: String, mistake: ReadMistake) -> ReadError {
        ReadError(Box::new(Stopped { why, mistake, path: Vec::new() }))
    }

    /// Returns the kind of the mistake.
    pub fn mistake(&self) -> &ReadMistake {
        &self.0.mistake
    }

    /// Returns the way to where the reader stopped, from the outside.
    pub fn path(&self) -> impl Iterator<Item = &PathPart> {
        self.0.path.iter().rev()
    }

    fn at(mut self, part: PathPart) -> ReadError {
        self.0.path.push(part);
        self
    }

    fn at_name(self, name: &Value) -> ReadError {
        self.at(PathPart::Name(name.as_text().unwrap_or_default().to_owned()))
    }
}

impl de::Error for ReadError {
    fn custom<T: fmt::Display>(why: T) -> Self {
        ReadError::of(why.to_string(), ReadMistake::OtherKind)
    }

    fn unknown_variant(name: &str, known: &'static [&'static str]) -> Self {
        ReadError::unknown_field(name, known)
    }

    fn unknown_field(name: &str, known: &'static [&'static str]) -> Self {
        let why = format!("`{name}` is none of {}", known.join(", "));
        ReadError::of(why, ReadMistake::Unknown { name: name.to_owned(), known })
    }

    fn missing_field(name: &'static str) -> Self {
        ReadError::of(format!("`{name}` is missing"), ReadMistake::Missing(name))
    }

    fn duplicate_field(name: &'static str) -> Self {
        ReadError::of(format!("`{name}` stands twice"), ReadMistake::Twice(name))
    }
}

/// Reads a value that came as CBOR: ids are byte strings, and a whole number is no floating-point number.
///
/// # Errors
/// [`ReadError`] if the value is not of the shape of `T`.
pub fn from_cbor<T: DeserializeOwned>(value: &Value) -> Result<T, ReadError> {
    T::deserialize(Reader { value, typed: false })
}

/// Reads JSON: ids are hexadecimal digits, and a whole number may stand for a floating-point number.
///
/// ```
/// let drafts: Vec<farsiding_core::book::Draft> =
///     farsiding_core::entry::value_reader::from_json(r#"[{"says": {"remark": {"text": "light rain"}}}]"#)?;
/// assert_eq!(drafts.len(), 1);
/// # Ok::<(), farsiding_core::entry::value_reader::ReadError>(())
/// ```
///
/// # Errors
/// [`ReadError`] if the text is not JSON or not of the shape of `T`.
pub fn from_json<T: DeserializeOwned>(text: &str) -> Result<T, ReadError> {
    let value: Value = serde_json::from_str(text).map_err(|e| ReadError::syntax(&e.to_string()))?;
    from_typed(&value)
}

/// Reads a value that came from a text a person or a program typed: JSON or TOML.
///
/// # Errors
/// [`ReadError`] if the value is not of the shape of `T`.
pub fn from_typed<T: DeserializeOwned>(value: &Value) -> Result<T, ReadError> {
    T::deserialize(Reader { value, typed: true })
}

#[derive(Clone, Copy)]
struct Reader<'a> {
    value: &'a Value,
    /// Whether the value came from a text.
    typed: bool,
}

impl<'a> Reader<'a> {
    fn of(self, value: &'a Value) -> Reader<'a> {
        Reader { value, ..self }
    }

    fn items(self, items: &'a [Value]) -> Items<'a> {
        Items { of: self, left: items.iter().enumerate() }
    }

    fn pairs(self, pairs: &'a [(Value, Value)]) -> Pairs<'a> {
        Pairs { of: self, left: pairs.iter(), pair: None }
    }

    fn whole_number<'de, V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, ReadError> {
        let Value::Integer(number) = self.value else { return Err(self.unexpected("a whole number")) };
        if let Ok(number) = u64::try_from(*number) {
            visitor.visit_u64(number)
        } else if let Ok(number) = i64::try_from(*number) {
            visitor.visit_i64(number)
        } else {
            visitor.visit_i128(i128::from(*number))
        }
    }

    fn unexpected(&self, expected: &str) -> ReadError {
        let found = match self.value {
            Value::Integer(_) => "a whole number",
            Value::Bytes(_) => "a byte string",
            Value::Float(_) => "a floating-point number",
            Value::Text(_) => "a text",
            Value::Bool(_) => "true or false",
            Value::Null => "null",
            Value::Array(_) => "a list",
            Value::Map(_) => "a map",
            _ => "a tag",
        };
        ReadError::of(format!("invalid type: {found}, expected {expected}"), ReadMistake::OtherKind)
    }
}

/// Reads a whole number, of whatever width.
macro_rules! whole_numbers {
    ($($method:ident)*) => {
        $(fn $method<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, ReadError> {
            self.whole_number(visitor)
        })*
    };
}

/// Reads by another method, which needs fewer arguments.
macro_rules! as_another {
    ($($method:ident($($argument:ty),*) => $other:ident;)*) => {
        $(fn $method<V: Visitor<'de>>(self, $(_: $argument,)* visitor: V) -> Result<V::Value, ReadError> {
            self.$other(visitor)
        })*
    };
}

impl<'de> de::Deserializer<'de> for Reader<'_> {
    type Error = ReadError;

    fn deserialize_any<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, ReadError> {
        match self.value {
            Value::Null => visitor.visit_none(),
            Value::Bool(is) => visitor.visit_bool(*is),
            Value::Float(number) => visitor.visit_f64(*number),
            Value::Text(text) => visitor.visit_str(text),
            Value::Bytes(bytes) => visitor.visit_bytes(bytes),
            Value::Array(items) => visitor.visit_seq(self.items(items)),
            Value::Map(pairs) => visitor.visit_map(self.pairs(pairs)),
            Value::Integer(_) => self.whole_number(visitor),
            _ => Err(self.unexpected("a value without a tag")),
        }
    }

    whole_numbers! {
        deserialize_i8 deserialize_i16 deserialize_i32 deserialize_i64 deserialize_i128
        deserialize_u8 deserialize_u16 deserialize_u32 deserialize_u64 deserialize_u128
    }

    as_another! {
        deserialize_f32() => deserialize_f64;
        deserialize_string() => deserialize_str;
        deserialize_char() => deserialize_str;
        deserialize_identifier() => deserialize_str;
        deserialize_byte_buf() => deserialize_bytes;
        deserialize_tuple(usize) => deserialize_seq;
        deserialize_tuple_struct(&'static str, usize) => deserialize_seq;
        deserialize_struct(&'static str, &'static [&'static str]) => deserialize_map;
        deserialize_unit_struct(&'static str) => deserialize_unit;
    }

    // Each of those below calls the one method of the visitor that its kind of value needs. By way of
    // `deserialize_any` every type would bring along what it does with every other kind.

    fn deserialize_bool<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, ReadError> {
        match self.value {
            Value::Bool(is) => visitor.visit_bool(*is),
            _ => Err(self.unexpected("true or false")),
        }
    }

    fn deserialize_f64<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, ReadError> {
        match self.value {
            Value::Float(number) => visitor.visit_f64(*number),
            Value::Integer(_) if self.typed => self.whole_number(visitor),
            _ => Err(self.unexpected("a floating-point number")),
        }
    }

    fn deserialize_str<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, ReadError> {
        match self.value {
            Value::Text(text) => visitor.visit_str(text),
            _ => Err(self.unexpected("a text")),
        }
    }

    fn deserialize_bytes<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, ReadError> {
        match self.value {
            Value::Bytes(bytes) => visitor.visit_bytes(bytes),
            // Formats without byte strings have lists of numbers.
            Value::Array(items) if self.typed => visitor.visit_seq(self.items(items)),
            _ => Err(self.unexpected("a byte string")),
        }
    }

    fn deserialize_seq<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, ReadError> {
        match self.value {
            Value::Array(items) => visitor.visit_seq(self.items(items)),
            _ => Err(self.unexpected("a list")),
        }
    }

    fn deserialize_map<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, ReadError> {
        match self.value {
            Value::Map(pairs) => visitor.visit_map(self.pairs(pairs)),
            _ => Err(self.unexpected("a map")),
        }
    }

    fn deserialize_unit<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, ReadError> {
        if self.value.is_null() { visitor.visit_unit() } else { Err(self.unexpected("null")) }
    }

    fn deserialize_option<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, ReadError> {
        if self.value.is_null() { visitor.visit_none() } else { visitor.visit_some(self) }
    }

    fn deserialize_newtype_struct<V: Visitor<'de>>(
        self,
        _name: &'static str,
        visitor: V,
    ) -> Result<V::Value, ReadError> {
        visitor.visit_newtype_struct(self)
    }

    /// A word for a variant without content, or a map of one variant to its content.
    fn deserialize_enum<V: Visitor<'de>>(
        self,
        _name: &'static str,
        _variants: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, ReadError> {
        match self.value {
            Value::Text(_) => visitor.visit_enum(Variant { word: self, content: self.of(&Value::Null) }),
            Value::Map(pairs) => match pairs.as_slice() {
                [(word, content)] => {
                    visitor.visit_enum(Variant { word: self.of(word), content: self.of(content) })
                }
                _ => Err(self.unexpected("a map of one")),
            },
            _ => Err(self.unexpected("a word or a map of one")),
        }
    }

    fn deserialize_ignored_any<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, ReadError> {
        visitor.visit_unit()
    }

    fn is_human_readable(&self) -> bool {
        self.typed
    }
}

struct Items<'a> {
    of: Reader<'a>,
    left: std::iter::Enumerate<std::slice::Iter<'a, Value>>,
}

impl<'de> de::SeqAccess<'de> for Items<'_> {
    type Error = ReadError;

    fn next_element_seed<T: DeserializeSeed<'de>>(&mut self, seed: T) -> Result<Option<T::Value>, ReadError> {
        let Some((place, value)) = self.left.next() else { return Ok(None) };
        seed.deserialize(self.of.of(value)).map(Some).map_err(|e| e.at(PathPart::Place(place)))
    }
}

struct Pairs<'a> {
    of: Reader<'a>,
    left: std::slice::Iter<'a, (Value, Value)>,
    /// The pair whose name was read last.
    pair: Option<&'a (Value, Value)>,
}

impl<'de> de::MapAccess<'de> for Pairs<'_> {
    type Error = ReadError;

    fn next_key_seed<K: DeserializeSeed<'de>>(&mut self, seed: K) -> Result<Option<K::Value>, ReadError> {
        self.pair = self.left.next();
        let Some((name, _)) = self.pair else { return Ok(None) };
        seed.deserialize(self.of.of(name)).map(Some).map_err(|e| e.at_name(name))
    }

    fn next_value_seed<V: DeserializeSeed<'de>>(&mut self, seed: V) -> Result<V::Value, ReadError> {
        let Some((name, value)) = self.pair else { return Err(self.of.unexpected("a value")) };
        seed.deserialize(self.of.of(value)).map_err(|e| e.at_name(name))
    }
}

struct Variant<'a> {
    word: Reader<'a>,
    content: Reader<'a>,
}

impl<'a, 'de> de::EnumAccess<'de> for Variant<'a> {
    type Error = ReadError;
    type Variant = Reader<'a>;

    fn variant_seed<V: DeserializeSeed<'de>>(self, seed: V) -> Result<(V::Value, Reader<'a>), ReadError> {
        Ok((seed.deserialize(self.word)?, self.content))
    }
}

impl<'de> de::VariantAccess<'de> for Reader<'_> {
    type Error = ReadError;

    fn unit_variant(self) -> Result<(), ReadError> {
        if self.value.is_null() { Ok(()) } else { Err(self.unexpected("null")) }
    }

    fn newtype_variant_seed<T: DeserializeSeed<'de>>(self, seed: T) -> Result<T::Value, ReadError> {
        seed.deserialize(self)
    }

    fn tuple_variant<V: Visitor<'de>>(self, _len: usize, visitor: V) -> Result<V::Value, ReadError> {
        de::Deserializer::deserialize_seq(self, visitor)
    }

    fn struct_variant<V: Visitor<'de>>(
        self,
        _fields: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, ReadError> {
        de::Deserializer::deserialize_map(self, visitor)
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]
    use proptest::prelude::*;

    use super::*;
    use crate::entry::Body;
    use crate::entry::cbor;
    use crate::entry::statement::Statement;

    /// Returns a value with one of its parts replaced or taken out.
    fn damaged(value: &Value, at: &mut usize, by: &Value) -> Value {
        if *at == 0 {
            *at = usize::MAX;
            return by.clone();
        }
        *at -= 1;
        match value {
            Value::Array(items) => Value::Array(items.iter().map(|item| damaged(item, at, by)).collect()),
            Value::Map(pairs) => Value::Map(
                pairs.iter().map(|(name, inner)| (damaged(name, at, by), damaged(inner, at, by))).collect(),
            ),
            other => other.clone(),
        }
    }

    fn another() -> impl Strategy<Value = Value> {
        prop_oneof![
            Just(Value::Null),
            any::<bool>().prop_map(Value::from),
            any::<i64>().prop_map(Value::from),
            (-300i64..300).prop_map(Value::from),
            any::<f64>().prop_map(Value::from),
            "[a-z]{0,9}".prop_map(Value::from),
            proptest::collection::vec(any::<u8>(), 0..40).prop_map(Value::from),
            Just(Value::Array(vec![Value::from(1)])),
            Just(Value::Map(vec![(Value::from("a"), Value::Null)])),
        ]
    }

    /// The library's own reader of a value, which the first versions used for entries.
    fn as_before(value: &Value) -> Option<Body> {
        value.deserialized().ok()
    }

    proptest! {
        #[test]
        fn a_body_is_read_as_the_library_reads_it(
            which in any::<proptest::sample::Index>(),
            at in 1usize..60,
            by in another(),
        ) {
            let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../tests/golden/entries");
            let files: Vec<_> = std::fs::read_dir(folder).unwrap().map(|file| file.unwrap().path()).collect();
            let text = std::fs::read_to_string(&files[which.index(files.len())]).unwrap();
            let digits: String = text.lines().filter(|line| !line.starts_with('#')).collect();
            let byte = |at| u8::from_str_radix(&digits[at..at + 2], 16).unwrap();
            let bytes: Vec<u8> = (0..digits.len()).step_by(2).map(byte).collect();
            let Some((_, payload)) = crate::entry::key::slice_envelope(&bytes) else { return Ok(()) };
            let value = cbor::decode_value(payload).unwrap();
            prop_assert_eq!(from_cbor::<Body>(&value).ok(), as_before(&value));
            let mut at = at;
            let value = damaged(&value, &mut at, &by);
            let (read, before) = (from_cbor::<Body>(&value).ok(), as_before(&value));
            prop_assert_eq!(format!("{read:?}"), format!("{before:?}"), "{:?}", value);
        }
    }

    #[test]
    fn a_mistake_says_where_it_stands() {
        let json = r#"[{"says": {"remark": {"text": "dry"}}}, {"says": {"remark": {"text": 5}}}]"#;
        let mistake = from_json::<Vec<crate::book::Draft>>(json).unwrap_err();
        let name = |name: &str| PathPart::Name(name.to_owned());
        let way: Vec<_> = mistake.path().cloned().collect();
        assert_eq!(way, [PathPart::Place(1), name("says"), name("text")]);
        assert!(mistake.to_string().contains("a whole number"), "{mistake}");
    }

    #[test]
    fn what_is_not_json_is_refused_as_well_as_ids_in_the_other_form() {
        assert!(from_json::<Statement>("{").is_err());
        let id = Value::from("00".repeat(32));
        assert!(from_typed::<crate::ids::EntryId>(&id).is_ok());
        assert!(from_cbor::<crate::ids::EntryId>(&id).is_err());
        assert_eq!(from_typed::<f64>(&Value::from(3)), Ok(3.0));
        assert!(from_cbor::<f64>(&Value::from(3)).is_err());
    }
}
