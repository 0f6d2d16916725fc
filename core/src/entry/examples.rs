//! An example of every kind of statement, generated from its row in the table.
//!
//! Tests and generated lists that cover every kind use these examples; every kind with a row has one. The
//! values depend on the row alone, so the example of a kind never changes and can be frozen. Examples with
//! chosen values are in `tests/acceptance/wire.rs`.

use serde_json::{Map, Value, json};

use super::kinds::StatementKind;
use super::spec::{Field, Shape};
use super::statement::Statement;

impl StatementKind {
    /// Returns a statement of this kind with an example value in every field.
    ///
    /// # Errors
    /// An error of serde if the row's fields or shapes do not match the statement.
    pub fn example(self) -> Result<Statement, serde_json::Error> {
        self.made_of(|field| Some(example_value(field)))
    }

    /// Returns a statement of this kind from the given fields, each in its JSON form.
    ///
    /// # Errors
    /// An error of serde if a required field is missing or a value does not have the field's shape.
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

/// Returns an example value of the field's shape in its JSON form.
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
        Shape::Defect
        | Shape::Hold
        | Shape::Incident
        | Shape::Leak
        | Shape::Note
        | Shape::Visit
        | Shape::Site
        | Shape::Nonce => id(16),
        Shape::Entry | Shape::Key | Shape::Procedure | Shape::Photo | Shape::File | Shape::Commitment => {
            id(32)
        }
        Shape::ProcedureText => json!("# no step stands here\n"),
        Shape::Sites => json!([id(16)]),
        Shape::Entries | Shape::Commitments => json!([id(32)]),
        Shape::Items => json!(["cover_bolts", "item_out.wrench"]),
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

    /// The row has the word and exactly the field names used on the wire, and no two kinds share a word.
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

    /// The fields that a person fills in come before those that the program fills in.
    #[test]
    fn the_fields_that_are_asked_stand_first() {
        for kind in StatementKind::ALL {
            let spec = kind.spec();
            let asked = spec.fields.iter().filter(|field| field.asked).count();
            assert_eq!(spec.asked().len(), asked, "{}", spec.word);
        }
    }

    /// The subject of a form, and the field that an amount follows, are fields of the row.
    #[test]
    fn a_row_names_its_own_fields() {
        use crate::entry::spec::OnPhone;
        for kind in StatementKind::ALL {
            let spec = kind.spec();
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
