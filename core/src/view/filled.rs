//! Sentences from the table of statement kinds, with their placeholders replaced by the statement's fields.
//!
//! `story` calls this module for every kind whose row contains a template; it builds the sentences of all
//! other kinds itself. The templates are in the rows of `entry::Statement`.

use ciborium::Value;

use super::fold_context::FoldContext;
use super::story::stop;
use crate::clock::UtcMillis;
use crate::entry::Statement;
use crate::entry::spec::{Shape, Vocabulary};
use crate::ids::{OperatorId, to_hex};
use crate::units::Amount;

impl FoldContext<'_> {
    /// Returns a template with the names in braces replaced by the statement's fields.
    pub(super) fn filled(&self, sentence: &str, says: &Statement) -> String {
        let fields = fields_of(says);
        let mut text = String::with_capacity(sentence.len() + 32);
        let mut rest = sentence;
        while let Some((before, behind)) = rest.split_once('{') {
            let Some((name, after)) = behind.split_once('}') else { break };
            text.push_str(before);
            if let (Some(field), Some(value)) = (
                says.spec().field(name),
                fields.iter().find(|(key, _)| key.as_text() == Some(name)).map(|(_, value)| value),
            ) {
                text.push_str(&self.field_said(field.shape, value));
            }
            rest = after;
        }
        text + rest
    }

    fn field_said(&self, shape: Shape, value: &Value) -> String {
        let typed = value.as_text().unwrap_or_default();
        match shape {
            Shape::Text => typed.to_owned(),
            Shape::Prose => stop(typed),
            Shape::Person => self.name(&OperatorId(typed.to_owned())),
            Shape::CarNumber | Shape::Date => typed.trim().to_owned(),
            Shape::Word(vocabulary) | Shape::Coded(vocabulary) => (vocabulary.spoken)(typed),
            Shape::Words(vocabulary) => list_said(&vocabulary, value),
            Shape::Amount(_) | Shape::AmountOf(_) => {
                value.deserialized().map_or_else(|_| String::new(), |amount: Amount| amount.shown())
            }
            Shape::YesNo => if value.as_bool() == Some(true) { "yes" } else { "no" }.to_owned(),
            Shape::Count => whole_of(value).map_or_else(String::new, |count| count.to_string()),
            Shape::Time => whole_of(value).map(|at| self.shown(UtcMillis(at))).unwrap_or_default(),
            Shape::Table | Shape::Entries => value.as_array().map_or(0, Vec::len).to_string(),
            // An id is shown by its first eight digits, enough for people to tell two apart.
            Shape::Defect
            | Shape::Hold
            | Shape::Photo
            | Shape::Visit
            | Shape::Site
            | Shape::Entry
            | Shape::Key
            | Shape::Procedure
            | Shape::Nonce => match value.as_bytes() {
                Some(bytes) => to_hex(bytes.get(..4).unwrap_or(bytes)),
                None => typed.get(..8).unwrap_or(typed).to_owned(),
            },
            Shape::PhotoFile | Shape::LastEntry => String::new(),
        }
    }
}

fn list_said(vocabulary: &Vocabulary, value: &Value) -> String {
    let words = value.as_array().into_iter().flatten().filter_map(Value::as_text);
    words.map(|word| (vocabulary.spoken)(word)).collect::<Vec<_>>().join(", ")
}

fn whole_of(value: &Value) -> Option<i64> {
    value.as_integer().and_then(|whole| whole.try_into().ok())
}

/// Returns the fields of a statement by their wire names, without empty ones. They are read from the form in
/// which the statement is signed, which the program can write in any case.
fn fields_of(says: &Statement) -> Vec<(Value, Value)> {
    let Ok(Value::Map(kinds)) = Value::serialized(says) else { return Vec::new() };
    match kinds.into_iter().next() {
        Some((_, Value::Map(fields))) => fields,
        _ => Vec::new(),
    }
}
