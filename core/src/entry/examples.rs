//! An example of every kind of statement, made from its row in the table alone.
//!
//! For tests that speak of every kind and for generated lists: a kind that has a row has an example. The values depend
//! on nothing but the row, so that the example of a kind is the same for ever and can be frozen. Does not live here:
//! examples with values that somebody chose (`tests/acceptance/wire.rs`).

use serde_json::{Map, Value, json};

use super::spec::{Field, Shape};
use super::statement::{Statement, StatementKind};

impl StatementKind {
    /// A statement of this kind with every field given, each at an example value.
    ///
    /// # Errors
    /// Where the row says other fields or shapes than the statement has.
    pub fn example(self) -> Result<Statement, serde_json::Error> {
        self.made_of(|field| Some(example_value(field)))
    }

    /// A statement of this kind with those fields for which there is a value, each as it stands in JSON.
    ///
    /// # Errors
    /// Where a field is missing that the statement must have, or a value is not of the field's shape.
    pub fn made_of(
        self,
        mut value: impl FnMut(&'static Field) -> Option<Value>,
    ) -> Result<Statement, serde_json::Error> {
        let fields = self.spec().fields.iter();
        let values: Map<String, Value> =
            fields.filter_map(|field| Some((field.name.to_owned(), value(field)?))).collect();
        serde_json::from_value(json!({ self.spec().word: values }))
    }
}

/// A value of the field's shape, as it stands in JSON.
fn example_value(field: &Field) -> Value {
    let id = |length: usize| json!("5a".repeat(length));
    match field.shape {
        Shape::Text => json!(format!("some {}", field.name.replace('_', " "))),
        Shape::Prose => json!("an example, written by nobody"),
        Shape::Person => json!("ash"),
        Shape::CarNumber => json!("ZZQX 4417"),
        Shape::Date => json!("2031-05"),
        Shape::Word(vocabulary) => json!(vocabulary.words().first()),
        Shape::Words(vocabulary) => json!(vocabulary.words().get(..2)),
        Shape::Coded(vocabulary) => {
            let words: Vec<&str> =
                (vocabulary.groups)().iter().filter_map(|group| group.first().copied()).collect();
            json!(words.join(" "))
        }
        Shape::Amount(unit) => json!({ "text": "12.5", "unit": unit.symbol(), "value": 12.5 }),
        Shape::AmountOf(_) => json!({ "text": "12.5 psi", "unit": "psi", "value": 12.5 }),
        Shape::YesNo => json!(true),
        Shape::Count => json!(3),
        // 2026-11-24T14:00:00Z.
        Shape::Time => json!(1_795_528_800_000_i64),
        Shape::Table => json!([[6.0, 33_071.5], [12.0, 31_958.5]]),
        Shape::Defect | Shape::Hold | Shape::Visit | Shape::Site | Shape::Nonce => id(16),
        Shape::Entry | Shape::Key | Shape::Procedure | Shape::Photo => id(32),
        Shape::Entries => json!([id(32)]),
        Shape::LastEntry => json!({ "seq": 7, "entry": id(32) }),
        Shape::PhotoFile => json!({ "sha256": id(32), "length": 120_000, "media": "image/jpeg" }),
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::panic, reason = "a failed unwrap is a failed test")]
    use super::*;
    use std::collections::BTreeSet;

    fn json_of(says: &Statement) -> (String, Map<String, Value>) {
        let Value::Object(kinds) = serde_json::to_value(says).unwrap() else { unreachable!("{says:?}") };
        let (kind, fields) = kinds.into_iter().next().unwrap();
        (kind, fields.as_object().cloned().unwrap())
    }

    /// The row's word and field names are those on the wire: no more, no fewer, and no two kinds share a word.
    #[test]
    fn a_row_says_the_word_and_the_fields_of_its_statement() {
        let mut words = BTreeSet::new();
        for kind in StatementKind::ALL {
            let spec = kind.spec();
            let says = kind.example().unwrap_or_else(|error| panic!("{}: {error}", spec.word));
            assert_eq!(says.known_kind(), Some(*kind));
            let (word, fields) = json_of(&says);
            assert_eq!((word.as_str(), says.kind().as_str()), (spec.word, spec.word));
            let names: BTreeSet<&str> = spec.fields.iter().map(|field| field.name).collect();
            assert_eq!(fields.keys().map(String::as_str).collect::<BTreeSet<_>>(), names, "{word}");
            assert!(words.insert(spec.word), "{word} stands twice");
        }
    }

    #[test]
    fn the_amounts_of_a_row_are_its_fields_that_are_amounts() {
        for kind in StatementKind::ALL {
            let says = kind.example().unwrap();
            let amounts = kind
                .spec()
                .fields
                .iter()
                .filter(|field| matches!(field.shape, Shape::Amount(_) | Shape::AmountOf(_)));
            assert_eq!(says.amounts().count(), amounts.count(), "{}", kind.spec().word);
        }
    }

    /// What a person gives stands in front of what the program fills in.
    #[test]
    fn the_fields_that_are_asked_stand_first() {
        for kind in StatementKind::ALL {
            let spec = kind.spec();
            let asked = spec.fields.iter().filter(|field| field.asked).count();
            assert_eq!(spec.asked().len(), asked, "{}", spec.word);
        }
    }

    /// What a sentence names in braces are fields of the row; what a form is about is one too.
    #[test]
    fn a_row_names_its_own_fields() {
        use crate::entry::spec::{OnPhone, Sentence};
        for kind in StatementKind::ALL {
            let spec = kind.spec();
            if let Sentence::Filled(sentence) = spec.sentence {
                for named in sentence.split('{').skip(1) {
                    let name = named.split('}').next().unwrap();
                    assert!(spec.field(name).is_some(), "{}: {name}", spec.word);
                }
            }
            if let OnPhone::Form(Some(about)) = spec.on_phone {
                assert!(spec.field(about).is_some(), "{}: {about}", spec.word);
            }
            for field in spec.fields {
                if let Shape::AmountOf(other) = field.shape {
                    assert!(spec.field(other).is_some(), "{}: {other}", spec.word);
                }
            }
        }
    }
}
