//! One writer for everything that goes out as CBOR or JSON.
//!
//! Every type is written by one writer, which keeps either a tree of [`Value`]s, from which the signed bytes are made,
//! or the text that a shell is handed. Writing each type by each library's own writer made the browser's module
//! larger by a tenth of a megabyte.

use ciborium::Value;
use serde::Serialize;
use serde::ser;

/// Says why a value cannot be written. The text is for developers.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("{}", .0.0)]
pub struct WriteError(Box<Why>);

#[derive(Debug, Clone, PartialEq, Eq)]
struct Why(String);

impl WriteError {
    #[cold]
    fn of(why: &str) -> WriteError {
        WriteError(Box::new(Why(why.to_owned())))
    }
}

impl ser::Error for WriteError {
    fn custom<T: std::fmt::Display>(why: T) -> Self {
        WriteError::of(&why.to_string())
    }
}

/// Writes a value as JSON, without blanks, its fields in the order of the type.
///
/// ```
/// let text = farsiding_core::entry::value_writer::to_json(&("light rain", 1.5, None::<u8>))?;
/// assert_eq!(text, r#"["light rain",1.5,null]"#);
/// # Ok::<(), farsiding_core::entry::value_writer::WriteError>(())
/// ```
///
/// # Errors
/// [`WriteError`] if a map has names that are no texts, whole numbers or truth values, or a whole number is beyond 64 bits.
pub fn to_json<T: Serialize + ?Sized>(value: &T) -> Result<String, WriteError> {
    let mut out = Out::Text { text: Vec::new(), open: Vec::new() };
    value.serialize(&mut out)?;
    match out {
        Out::Text { text, .. } => String::from_utf8(text).map_err(ser::Error::custom),
        Out::Tree { .. } => Err(WriteError::of("no text")),
    }
}

/// Writes a value as the tree that CBOR has for it: ids are byte strings.
///
/// # Errors
/// [`WriteError`] if a whole number is beyond 64 bits.
pub fn to_value<T: Serialize + ?Sized>(value: &T) -> Result<Value, WriteError> {
    let mut out = Out::Tree { open: Vec::new(), whole: Value::Null };
    value.serialize(&mut out)?;
    match out {
        Out::Tree { whole, .. } => Ok(whole),
        Out::Text { .. } => Err(WriteError::of("no tree")),
    }
}

/// What was written so far.
enum Out {
    Tree {
        /// Lists and maps that are not complete; a map's names and values stand in turn.
        open: Vec<(Kind, Vec<Value>)>,
        whole: Value,
    },
    Text {
        text: Vec<u8>,
        /// Lists and maps that are not complete, with how many names and values they have.
        open: Vec<(Kind, usize)>,
    },
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Kind {
    List,
    Map,
}

/// One part of a value, in the order in which serde hands them over.
enum Part<'a> {
    Null,
    Bool(bool),
    Whole(u64),
    Negative(i64),
    Float(f64),
    Text(&'a str),
    Bytes(&'a [u8]),
    Begin(Kind),
    End,
}

impl Out {
    #[inline(never)]
    fn put(&mut self, part: Part<'_>) -> Result<(), WriteError> {
        match self {
            Out::Tree { open, whole } => {
                let complete = match part {
                    Part::Null => Value::Null,
                    Part::Bool(is) => Value::Bool(is),
                    Part::Whole(number) => Value::from(number),
                    Part::Negative(number) => Value::from(number),
                    Part::Float(number) => Value::Float(number),
                    Part::Text(text) => Value::Text(text.to_owned()),
                    Part::Bytes(bytes) => Value::Bytes(bytes.to_vec()),
                    Part::Begin(kind) => {
                        open.push((kind, Vec::new()));
                        return Ok(());
                    }
                    Part::End => match open.pop() {
                        Some((Kind::List, items)) => Value::Array(items),
                        Some((Kind::Map, items)) => Value::Map(in_pairs(items)),
                        None => return Err(WriteError::of("an end without a beginning")),
                    },
                };
                match open.last_mut() {
                    Some((_, items)) => items.push(complete),
                    None => *whole = complete,
                }
                Ok(())
            }
            Out::Text { text, open } => put_text(text, open, part),
        }
    }

    fn whole(&mut self, number: i128) -> Result<(), WriteError> {
        match (u64::try_from(number), i64::try_from(number)) {
            (Ok(number), _) => self.put(Part::Whole(number)),
            (_, Ok(number)) => self.put(Part::Negative(number)),
            _ => Err(WriteError::of("a whole number beyond 64 bits")),
        }
    }
}

fn in_pairs(items: Vec<Value>) -> Vec<(Value, Value)> {
    let mut pairs = Vec::with_capacity(items.len() / 2);
    let mut items = items.into_iter();
    while let (Some(name), Some(value)) = (items.next(), items.next()) {
        pairs.push((name, value));
    }
    pairs
}

fn put_text(text: &mut Vec<u8>, open: &mut Vec<(Kind, usize)>, part: Part<'_>) -> Result<(), WriteError> {
    let mut is_name = false;
    if let Part::End = part {
        text.push(if let Some((Kind::Map, _)) = open.pop() { b'}' } else { b']' });
        return Ok(());
    }
    if let Some((kind, parts)) = open.last_mut() {
        is_name = *kind == Kind::Map && *parts % 2 == 0;
        if *kind == Kind::Map && !is_name {
            text.push(b':');
        } else if *parts > 0 {
            text.push(b',');
        }
        *parts += 1;
    }
    let written = match part {
        Part::Text(word) => serde_json::to_writer(&mut *text, word),
        Part::Bool(_) | Part::Whole(_) | Part::Negative(_) if is_name => {
            text.push(b'"');
            let written = put_plain(text, &part);
            text.push(b'"');
            written
        }
        _ if is_name => return Err(WriteError::of("a name of a map must be a text")),
        Part::Bytes(bytes) => serde_json::to_writer(&mut *text, bytes),
        Part::Begin(kind) => {
            text.push(if kind == Kind::Map { b'{' } else { b'[' });
            open.push((kind, 0));
            Ok(())
        }
        plain => put_plain(text, &plain),
    };
    written.map_err(ser::Error::custom)
}

fn put_plain(text: &mut Vec<u8>, part: &Part<'_>) -> serde_json::Result<()> {
    match part {
        Part::Bool(is) => serde_json::to_writer(text, is),
        Part::Whole(number) => serde_json::to_writer(text, number),
        Part::Negative(number) => serde_json::to_writer(text, number),
        Part::Float(number) => serde_json::to_writer(text, number),
        _ => serde_json::to_writer(text, &()),
    }
}

/// A list or a map that is being written, and how many ends it takes.
struct Open<'a> {
    out: &'a mut Out,
    ends: u8,
}

impl Open<'_> {
    fn close(self) -> Result<(), WriteError> {
        (0..self.ends).try_for_each(|_| self.out.put(Part::End))
    }
}

macro_rules! numbers {
    ($($method:ident($number:ty) => $part:ident;)*) => {
        $(fn $method(self, number: $number) -> Result<(), WriteError> {
            self.put(Part::$part(number.into()))
        })*
    };
}

macro_rules! signed_numbers {
    ($($method:ident($number:ty))*) => {
        $(fn $method(self, number: $number) -> Result<(), WriteError> {
            self.whole(number.into())
        })*
    };
}

impl<'a> ser::Serializer for &'a mut Out {
    type Ok = ();
    type Error = WriteError;
    type SerializeSeq = Open<'a>;
    type SerializeTuple = Open<'a>;
    type SerializeTupleStruct = Open<'a>;
    type SerializeTupleVariant = Open<'a>;
    type SerializeMap = Open<'a>;
    type SerializeStruct = Open<'a>;
    type SerializeStructVariant = Open<'a>;

    numbers! {
        serialize_bool(bool) => Bool;
        serialize_u8(u8) => Whole;
        serialize_u16(u16) => Whole;
        serialize_u32(u32) => Whole;
        serialize_u64(u64) => Whole;
        serialize_f32(f32) => Float;
        serialize_f64(f64) => Float;
    }

    signed_numbers! {
        serialize_i8(i8) serialize_i16(i16) serialize_i32(i32) serialize_i64(i64) serialize_i128(i128)
    }

    fn serialize_u128(self, number: u128) -> Result<(), WriteError> {
        self.whole(i128::try_from(number).unwrap_or(i128::MAX))
    }

    fn serialize_char(self, letter: char) -> Result<(), WriteError> {
        self.put(Part::Text(letter.encode_utf8(&mut [0; 4])))
    }

    fn serialize_str(self, text: &str) -> Result<(), WriteError> {
        self.put(Part::Text(text))
    }

    fn serialize_bytes(self, bytes: &[u8]) -> Result<(), WriteError> {
        self.put(Part::Bytes(bytes))
    }

    fn serialize_none(self) -> Result<(), WriteError> {
        self.put(Part::Null)
    }

    fn serialize_some<T: Serialize + ?Sized>(self, value: &T) -> Result<(), WriteError> {
        value.serialize(self)
    }

    fn serialize_unit(self) -> Result<(), WriteError> {
        self.put(Part::Null)
    }

    fn serialize_unit_struct(self, _name: &'static str) -> Result<(), WriteError> {
        self.put(Part::Null)
    }

    fn serialize_unit_variant(
        self,
        _name: &'static str,
        _index: u32,
        variant: &'static str,
    ) -> Result<(), WriteError> {
        self.put(Part::Text(variant))
    }

    fn serialize_newtype_struct<T: Serialize + ?Sized>(
        self,
        _name: &'static str,
        value: &T,
    ) -> Result<(), WriteError> {
        value.serialize(self)
    }

    fn serialize_newtype_variant<T: Serialize + ?Sized>(
        self,
        _name: &'static str,
        _index: u32,
        variant: &'static str,
        value: &T,
    ) -> Result<(), WriteError> {
        self.put(Part::Begin(Kind::Map))?;
        self.put(Part::Text(variant))?;
        value.serialize(&mut *self)?;
        self.put(Part::End)
    }

    fn serialize_seq(self, _len: Option<usize>) -> Result<Open<'a>, WriteError> {
        self.put(Part::Begin(Kind::List))?;
        Ok(Open { out: self, ends: 1 })
    }

    fn serialize_tuple(self, len: usize) -> Result<Open<'a>, WriteError> {
        self.serialize_seq(Some(len))
    }

    fn serialize_tuple_struct(self, _name: &'static str, len: usize) -> Result<Open<'a>, WriteError> {
        self.serialize_seq(Some(len))
    }

    fn serialize_tuple_variant(
        self,
        _name: &'static str,
        _index: u32,
        variant: &'static str,
        _len: usize,
    ) -> Result<Open<'a>, WriteError> {
        self.put(Part::Begin(Kind::Map))?;
        self.put(Part::Text(variant))?;
        self.put(Part::Begin(Kind::List))?;
        Ok(Open { out: self, ends: 2 })
    }

    fn serialize_map(self, _len: Option<usize>) -> Result<Open<'a>, WriteError> {
        self.put(Part::Begin(Kind::Map))?;
        Ok(Open { out: self, ends: 1 })
    }

    fn serialize_struct(self, _name: &'static str, len: usize) -> Result<Open<'a>, WriteError> {
        self.serialize_map(Some(len))
    }

    fn serialize_struct_variant(
        self,
        _name: &'static str,
        _index: u32,
        variant: &'static str,
        _len: usize,
    ) -> Result<Open<'a>, WriteError> {
        self.put(Part::Begin(Kind::Map))?;
        self.put(Part::Text(variant))?;
        self.put(Part::Begin(Kind::Map))?;
        Ok(Open { out: self, ends: 2 })
    }

    fn is_human_readable(&self) -> bool {
        matches!(self, Out::Text { .. })
    }
}

macro_rules! lists {
    ($($of:ident::$method:ident)*) => {
        $(impl ser::$of for Open<'_> {
            type Ok = ();
            type Error = WriteError;

            fn $method<T: Serialize + ?Sized>(&mut self, value: &T) -> Result<(), WriteError> {
                value.serialize(&mut *self.out)
            }

            fn end(self) -> Result<(), WriteError> {
                self.close()
            }
        })*
    };
}

lists! {
    SerializeSeq::serialize_element SerializeTuple::serialize_element
    SerializeTupleStruct::serialize_field SerializeTupleVariant::serialize_field
}

macro_rules! structs {
    ($($of:ident)*) => {
        $(impl ser::$of for Open<'_> {
            type Ok = ();
            type Error = WriteError;

            fn serialize_field<T: Serialize + ?Sized>(
                &mut self,
                name: &'static str,
                value: &T,
            ) -> Result<(), WriteError> {
                self.out.put(Part::Text(name))?;
                value.serialize(&mut *self.out)
            }

            fn end(self) -> Result<(), WriteError> {
                self.close()
            }
        })*
    };
}

structs! { SerializeStruct SerializeStructVariant }

impl ser::SerializeMap for Open<'_> {
    type Ok = ();
    type Error = WriteError;

    fn serialize_key<T: Serialize + ?Sized>(&mut self, name: &T) -> Result<(), WriteError> {
        name.serialize(&mut *self.out)
    }

    fn serialize_value<T: Serialize + ?Sized>(&mut self, value: &T) -> Result<(), WriteError> {
        value.serialize(&mut *self.out)
    }

    fn end(self) -> Result<(), WriteError> {
        self.close()
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]
    use std::collections::BTreeMap;

    use proptest::prelude::*;

    use super::*;
    use crate::entry::StatementKind;

    #[derive(Debug, Clone, Serialize)]
    enum Shape {
        Bare,
        One(f64),
        Two(i8, String),
        Named { left: Option<i64>, right: Vec<u8> },
    }

    #[derive(Debug, Clone, Serialize)]
    struct Unit;

    #[derive(Debug, Clone, Serialize)]
    struct Wrapped(u64);

    #[derive(Debug, Clone, Serialize)]
    struct Everything {
        nothing: (),
        unit: Unit,
        wrapped: Wrapped,
        letter: char,
        shapes: Vec<Shape>,
        by_name: BTreeMap<String, bool>,
        by_number: BTreeMap<i32, f64>,
        by_truth: BTreeMap<bool, u16>,
        #[serde(flatten)]
        beside: Beside,
        #[serde(with = "serde_bytes")]
        bytes: Vec<u8>,
        #[serde(skip_serializing_if = "Option::is_none")]
        perhaps: Option<i64>,
    }

    #[derive(Debug, Clone, Serialize)]
    #[serde(tag = "kind")]
    enum Beside {
        Here { at: i64 },
        There,
    }

    fn shape() -> impl Strategy<Value = Shape> {
        prop_oneof![
            Just(Shape::Bare),
            any::<f64>().prop_map(Shape::One),
            (any::<i8>(), any::<String>()).prop_map(|(number, text)| Shape::Two(number, text)),
            (any::<Option<i64>>(), any::<Vec<u8>>()).prop_map(|(left, right)| Shape::Named { left, right }),
        ]
    }

    fn everything() -> impl Strategy<Value = Everything> {
        let maps =
            (any::<BTreeMap<String, bool>>(), any::<BTreeMap<i32, f64>>(), any::<BTreeMap<bool, u16>>());
        let shapes = proptest::collection::vec(shape(), 0..5);
        (maps, shapes, any::<(u64, char, Option<i64>, Vec<u8>)>()).prop_map(
            |((by_name, by_number, by_truth), shapes, (number, letter, perhaps, bytes))| Everything {
                nothing: (),
                unit: Unit,
                wrapped: Wrapped(number),
                letter,
                shapes,
                by_name,
                by_number,
                by_truth,
                beside: perhaps.map_or(Beside::There, |at| Beside::Here { at }),
                bytes,
                perhaps,
            },
        )
    }

    proptest! {
        #[test]
        fn a_text_is_written_as_the_library_writes_it(value in everything()) {
            prop_assert_eq!(to_json(&value).unwrap(), serde_json::to_string(&value).unwrap());
        }

        #[test]
        fn a_tree_is_written_as_the_library_writes_it(value in everything()) {
            // Compared as text: what is not a number equals nothing.
            let (ours, theirs) = (to_value(&value).unwrap(), Value::serialized(&value).unwrap());
            prop_assert_eq!(format!("{ours:?}"), format!("{theirs:?}"));
        }
    }

    #[test]
    fn every_kind_of_statement_is_written_as_the_libraries_write_it() {
        for kind in StatementKind::ALL {
            let says = kind.example().unwrap();
            assert_eq!(to_json(&says).unwrap(), serde_json::to_string(&says).unwrap());
            assert_eq!(to_value(&says).unwrap(), Value::serialized(&says).unwrap());
        }
    }

    #[test]
    fn a_name_that_is_a_list_is_refused_in_a_text() {
        let odd = BTreeMap::from([(vec![1], 1)]);
        assert!(to_json(&odd).is_err());
        assert!(serde_json::to_string(&odd).is_err());
        assert!(to_value(&odd).is_ok());
    }
}
