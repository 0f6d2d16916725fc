//! Sentences that stand in the table of statement kinds: their fields filled in, each said as its shape is said.
//!
//! Called by `story` for every kind whose row carries its sentence; kinds that take more than filling in are told
//! there. Does not live here: the sentences themselves (`entry::Statement`'s rows).

use serde_json::{Map, Value};

use super::fold_context::FoldContext;
use super::story::stop;
use crate::clock::UtcMillis;
use crate::entry::Statement;
use crate::entry::spec::{Shape, Vocabulary};
use crate::ids::OperatorId;
use crate::units::Amount;

impl FoldContext<'_> {
    /// A sentence with what the statement says in place of the names in braces.
    pub(super) fn filled(&self, sentence: &str, says: &Statement) -> String {
        let fields = fields_of(says);
        let mut text = String::with_capacity(sentence.len() + 32);
        let mut rest = sentence;
        while let Some((before, behind)) = rest.split_once('{') {
            let Some((name, after)) = behind.split_once('}') else { break };
            text.push_str(before);
            if let (Some(field), Some(value)) = (says.spec().field(name), fields.get(name)) {
                text.push_str(&self.field_said(field.shape, value));
            }
            rest = after;
        }
        text + rest
    }

    fn field_said(&self, shape: Shape, value: &Value) -> String {
        let typed = value.as_str().unwrap_or_default();
        match shape {
            Shape::Text => typed.to_owned(),
            Shape::Prose => stop(typed),
            Shape::Person => self.name(&OperatorId(typed.to_owned())),
            Shape::CarNumber | Shape::Date => typed.trim().to_owned(),
            Shape::Word(vocabulary) | Shape::Coded(vocabulary) => (vocabulary.spoken)(typed),
            Shape::Words(vocabulary) => list_said(&vocabulary, value),
            Shape::Amount(_) | Shape::AmountOf(_) => serde_json::from_value(value.clone())
                .map_or_else(|_| String::new(), |amount: Amount| amount.shown()),
            Shape::YesNo => if value == &Value::Bool(true) { "yes" } else { "no" }.to_owned(),
            Shape::Count => value.to_string(),
            Shape::Time => value.as_i64().map(|at| self.shown(UtcMillis(at))).unwrap_or_default(),
            Shape::Table | Shape::Entries => value.as_array().map_or(0, Vec::len).to_string(),
            // An id is said by its first eight digits, for people who have to tell two apart.
            Shape::Defect
            | Shape::Hold
            | Shape::Photo
            | Shape::Visit
            | Shape::Site
            | Shape::Entry
            | Shape::Key
            | Shape::Procedure
            | Shape::Nonce => typed.get(..8).unwrap_or(typed).to_owned(),
            Shape::PhotoFile | Shape::LastEntry => String::new(),
        }
    }
}

fn list_said(vocabulary: &Vocabulary, value: &Value) -> String {
    let words = value.as_array().into_iter().flatten().filter_map(Value::as_str);
    words.map(|word| (vocabulary.spoken)(word)).collect::<Vec<_>>().join(", ")
}

/// The fields of a statement by their names on the wire; those that are empty are left out.
fn fields_of(says: &Statement) -> Map<String, Value> {
    match serde_json::to_value(says) {
        Ok(Value::Object(kinds)) => match kinds.into_iter().next() {
            Some((_, Value::Object(fields))) => fields,
            _ => Map::new(),
        },
        _ => Map::new(),
    }
}
