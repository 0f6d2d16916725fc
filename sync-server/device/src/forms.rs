//! The form of every statement as it is typed on a command line, read from the core's table of statement
//! kinds.
//!
//! The table (`entry::spec`) says which fields a kind has, in which order they are typed and what each holds.
//! This file turns words into the statement's JSON, which the core parses; if the core refuses the JSON, its
//! message is shown. The visit or site of a statement is found elsewhere, and `shapes` parses single values.

use std::collections::BTreeMap;
use std::sync::LazyLock;

use farsiding_core::entry::spec::{self, TypedIn};
use farsiding_core::entry::{Statement, StatementKind};
use farsiding_core::units::Unit;
use serde_json::{Map, Value, json};

use super::DeviceError;
use super::shapes::{self, FormContext, Shape};

pub use spec::Field;

/// The form of one kind of statement.
#[derive(Debug, Clone, Copy)]
pub struct Form {
    /// The statement's kind.
    pub kind: &'static str,
    /// The kind's fields, in the order in which they are typed.
    pub fields: &'static [Field],
}

/// The forms that belong to one command, in the order of the table.
#[derive(Debug, Clone, Copy)]
pub struct Forms(TypedIn);

static ALL: LazyLock<Vec<(TypedIn, Form)>> = LazyLock::new(|| {
    let rows = StatementKind::ALL.iter().map(|kind| kind.spec());
    rows.filter_map(|row| Some((row.typed_in?, Form { kind: row.word, fields: row.asked() }))).collect()
});

impl Forms {
    /// Returns an iterator over the forms.
    pub fn iter(self) -> impl Iterator<Item = &'static Form> {
        ALL.iter().filter(move |(command, _)| *command == self.0).map(|(_, form)| form)
    }
}

/// The forms of statements about a visit.
pub const VISIT_FORMS: Forms = Forms(TypedIn::Visit);

/// The forms of statements about a site.
pub const SITE_FORMS: Forms = Forms(TypedIn::Site);

/// The forms of statements about the organisation's people.
pub const ROSTER_FORMS: Forms = Forms(TypedIn::Roster);

/// The form of the organisation's rules on signatures and rights.
pub const RULES_FORMS: Forms = Forms(TypedIn::Rules);

/// The context a form needs besides the typed words: the local time, and ids that only the record knows.
pub trait Surrounding {
    /// Returns the local time and its offset.
    fn here(&self) -> FormContext;
    /// Returns the defect whose id begins with `text`.
    fn defect(&self, text: &str) -> Result<String, DeviceError>;
    /// Returns the hold whose id begins with `text`.
    fn hold(&self, text: &str) -> Result<String, DeviceError>;
    /// Returns the incident whose id begins with `text`.
    fn incident(&self, text: &str) -> Result<String, DeviceError>;
    /// Returns the leak whose id begins with `text`.
    fn leak(&self, text: &str) -> Result<String, DeviceError>;
    /// Returns the note for the next visit whose id begins with `text`.
    fn note(&self, text: &str) -> Result<String, DeviceError>;
    /// Returns the photograph whose digest begins with `text`.
    fn photo(&self, text: &str) -> Result<String, DeviceError>;
    /// Returns a new random id of sixteen bytes.
    fn new_id(&mut self) -> String;
}

/// The result of filling a form.
#[derive(Debug)]
pub struct Filled {
    /// The statement.
    pub says: Statement,
    /// Remarks on what is unusual in the typed text.
    pub remarks: Vec<String>,
}

/// The words typed after the kind: fields given by name, and plain words.
#[derive(Debug, Default)]
pub struct Words {
    /// Fields typed as `name=value` or `--name value`.
    pub named: BTreeMap<String, String>,
    /// The other words, in order.
    pub plain: Vec<String>,
}

/// Returns the form of a kind.
///
/// # Errors
/// Returns [`DeviceError::Refused`] with the known kinds when there is no such form.
pub fn form_of(kind: &str, forms: Forms) -> Result<&'static Form, DeviceError> {
    let folded = kind.trim().to_lowercase().replace('-', "_");
    forms.iter().find(|form| form.kind == folded).ok_or_else(|| {
        let kinds: Vec<&str> = forms.iter().map(|form| form.kind).collect();
        DeviceError::Refused(format!(
            "\"{kind}\" is no kind of statement here; there are: {}",
            kinds.join(", ")
        ))
    })
}

/// Fills a form. `before` holds the fields of the statement that is corrected; a field that is not typed
/// keeps its value from there.
///
/// # Errors
/// Returns [`DeviceError::Refused`] with the name of the wrong field and what it takes.
pub fn fill(
    form: &Form,
    words: Words,
    before: Option<Map<String, Value>>,
    around: &mut dyn Surrounding,
) -> Result<Filled, DeviceError> {
    let typed = place_words(form, words)?;
    let mut values = before.clone().unwrap_or_default();
    let mut remarks = Vec::new();
    for field in form.fields {
        let text = match typed.get(field.name) {
            Some(text) => text.clone(),
            None if values.contains_key(field.name) => continue,
            None => match field.usual {
                Some(usual) => usual.to_owned(),
                None if field.must => return Err(missing(form, field)),
                None => continue,
            },
        };
        let value = read_field(field, &text, &values, around, &mut remarks)
            .map_err(|error| DeviceError::Refused(format!("{}: {error}", field.name)))?;
        values.insert(field.name.to_owned(), value);
    }
    // A defect, a hold or the like that the words do not name is a new one.
    for field in form.fields.iter().filter(|field| !field.must) {
        if is_id(field.shape) && !values.contains_key(field.name) {
            values.insert(field.name.to_owned(), around.new_id().into());
        }
    }
    let says = serde_json::from_value(json!({ form.kind: values }))
        .map_err(|error| DeviceError::Refused(format!("{}: {error}", form.kind)))?;
    Ok(Filled { says, remarks })
}

/// Returns true if the field holds the id of something that a statement can begin.
fn is_id(shape: Shape) -> bool {
    matches!(shape, Shape::Defect | Shape::Hold | Shape::Incident | Shape::Leak | Shape::Note)
}

fn missing(form: &Form, field: &Field) -> DeviceError {
    DeviceError::Refused(format!(
        "{} is missing ({}). It is typed: {}",
        field.name,
        shapes::described(field.shape),
        usage(form)
    ))
}

/// Assigns every word to a field: named words first, then the others in the form's order. Words that are left
/// over are appended to the last text field.
fn place_words(form: &Form, words: Words) -> Result<BTreeMap<&'static str, String>, DeviceError> {
    let mut typed: BTreeMap<&'static str, String> = BTreeMap::new();
    for (name, value) in words.named {
        let field =
            form.fields.iter().find(|field| field.name == name.replace('-', "_")).ok_or_else(|| {
                DeviceError::Refused(format!(
                    "{} has no field \"{name}\". It is typed: {}",
                    form.kind,
                    usage(form)
                ))
            })?;
        typed.insert(field.name, value);
    }
    let mut free: Vec<&Field> = form.fields.iter().filter(|field| !typed.contains_key(field.name)).collect();
    free.reverse();
    let mut last: Option<&Field> = None;
    for word in words.plain {
        match (free.pop(), last) {
            (Some(field), _) => {
                typed.insert(field.name, word);
                last = Some(field);
            }
            (None, Some(field)) if shapes::is_text(field.shape) || matches!(field.shape, Shape::Coded(_)) => {
                let text = typed.entry(field.name).or_default();
                text.push(' ');
                text.push_str(&word);
            }
            (None, _) => {
                return Err(DeviceError::Refused(format!(
                    "\"{word}\" is one word too many. It is typed: {}",
                    usage(form)
                )));
            }
        }
    }
    Ok(typed)
}

fn read_field(
    field: &Field,
    text: &str,
    values: &Map<String, Value>,
    around: &mut dyn Surrounding,
    remarks: &mut Vec<String>,
) -> Result<Value, DeviceError> {
    Ok(match field.shape {
        Shape::Coded(vocabulary) => (vocabulary.typed)(text).into(),
        Shape::Word(vocabulary) => shapes::word(text, &vocabulary.words())?.into(),
        Shape::Words(vocabulary) => {
            let choices = vocabulary.words();
            let words =
                text.split(',').map(|part| shapes::word(part, &choices)).collect::<Result<Vec<_>, _>>()?;
            json!(words)
        }
        Shape::Amount(unit) => amount_json(text, unit, remarks)?,
        Shape::AmountOf(other) => {
            let measured = values.get(other).and_then(Value::as_str).unwrap_or_default();
            amount_json(text, shapes::usual_unit(measured), remarks)?
        }
        Shape::YesNo => shapes::yes_no(text)?.into(),
        Shape::Count => text
            .trim()
            .parse::<u32>()
            .map_err(|_| DeviceError::Refused(format!("\"{text}\" is no whole number")))?
            .into(),
        Shape::Time => json!(shapes::time(text, around.here())?),
        Shape::Defect => around.defect(text)?.into(),
        Shape::Hold => around.hold(text)?.into(),
        Shape::Incident => around.incident(text)?.into(),
        Shape::Leak => around.leak(text)?.into(),
        Shape::Note => around.note(text)?.into(),
        Shape::Photo => around.photo(text)?.into(),
        Shape::Table => {
            let file = std::fs::read_to_string(text)
                .map_err(|error| DeviceError::Refused(format!("\"{text}\" cannot be read: {error}")))?;
            shapes::table(&file)?
        }
        Shape::Text | Shape::Prose | Shape::Person | Shape::CarNumber | Shape::Date => text.into(),
        // The program itself fills in these fields; nobody types them, so the text is used unchanged.
        Shape::PhotoFile
        | Shape::Visit
        | Shape::Site
        | Shape::Entry
        | Shape::Entries
        | Shape::Items
        | Shape::LastEntry
        | Shape::Key
        | Shape::Procedure
        | Shape::File
        | Shape::Commitment
        | Shape::Commitments
        | Shape::Sites
        | Shape::ProcedureText
        | Shape::Nonce => text.into(),
    })
}

fn amount_json(text: &str, unit: Unit, remarks: &mut Vec<String>) -> Result<Value, DeviceError> {
    serde_json::to_value(shapes::amount(text, unit, remarks)).map_err(|e| DeviceError::Failed(e.to_string()))
}

/// Returns one line that shows how a form is typed.
pub fn usage(form: &Form) -> String {
    let mut text = form.kind.to_owned();
    for field in form.fields {
        let name = field.name.to_uppercase();
        text.push_str(&if field.must { format!(" {name}") } else { format!(" [{name}]") });
    }
    text
}

/// Returns the help text for the forms of a visit.
pub fn help() -> String {
    help_of(VISIT_FORMS)
}

/// Returns the help text for `forms`, with what each field takes.
pub fn help_of(forms: Forms) -> String {
    let mut text = String::from(
        "Fields are given in order, or as name=value, or as --name value. What is typed as an amount may carry \
         its unit (\"12 psi\").\n--replaces ENTRY --why REASON makes it a correction: fields not given stay as \
         they were. --done TIME says when it was done, where that was earlier than now.\n\nKinds:\n",
    );
    for form in forms.iter() {
        text.push_str(&format!("  {}\n", usage(form)));
        for field in form.fields {
            if !shapes::is_text(field.shape) {
                text.push_str(&format!("      {}: {}\n", field.name, shapes::described(field.shape)));
            }
        }
    }
    text
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]
    use super::*;
    use farsiding_core::clock::UtcMillis;

    struct Nowhere;
    impl Surrounding for Nowhere {
        fn here(&self) -> FormContext {
            FormContext { now: UtcMillis(0), offset_minutes: 0 }
        }
        fn defect(&self, _: &str) -> Result<String, DeviceError> {
            Ok("11".repeat(16))
        }
        fn hold(&self, _: &str) -> Result<String, DeviceError> {
            Ok("22".repeat(16))
        }
        fn incident(&self, _: &str) -> Result<String, DeviceError> {
            Ok("44".repeat(16))
        }
        fn leak(&self, _: &str) -> Result<String, DeviceError> {
            Ok("55".repeat(16))
        }
        fn note(&self, _: &str) -> Result<String, DeviceError> {
            Ok("66".repeat(16))
        }
        fn photo(&self, _: &str) -> Result<String, DeviceError> {
            Ok("33".repeat(32))
        }
        fn new_id(&mut self) -> String {
            "44".repeat(16)
        }
    }

    fn typed(text: &[&str]) -> Words {
        Words { plain: text.iter().map(|w| (*w).to_owned()).collect(), named: BTreeMap::new() }
    }

    /// Returns an example word for a field. Every shape has one.
    fn example(field: &Field, folder: &std::path::Path) -> String {
        match field.shape {
            Shape::Word(vocabulary) | Shape::Words(vocabulary) => vocabulary.words()[0].to_owned(),
            Shape::Amount(_) | Shape::AmountOf(_) => "12".to_owned(),
            Shape::YesNo => "yes".to_owned(),
            Shape::Count => "20".to_owned(),
            Shape::Time => "now".to_owned(),
            Shape::Table => {
                let file = folder.join("table.csv");
                std::fs::write(&file, "6 33000\n12 32000\n").unwrap();
                file.to_string_lossy().into_owned()
            }
            _ => "some text".to_owned(),
        }
    }

    #[test]
    fn every_form_makes_the_statement_it_is_named_for() {
        let folder = tempfile::tempdir().unwrap();
        let all =
            VISIT_FORMS.iter().chain(SITE_FORMS.iter()).chain(ROSTER_FORMS.iter()).chain(RULES_FORMS.iter());
        for form in all.filter(|f| f.kind != "opened") {
            let words: Vec<String> = form.fields.iter().map(|f| example(f, folder.path())).collect();
            let words = Words { plain: words, named: BTreeMap::new() };
            let filled = fill(form, words, None, &mut Nowhere).unwrap();
            assert_eq!(filled.says.kind(), form.kind);
        }
    }

    #[test]
    fn words_left_over_belong_to_the_last_text_and_else_are_refused() {
        let form = form_of("empty-decision", VISIT_FORMS).unwrap();
        let filled = fill(form, typed(&["yes", "rod", "at", "bottom"]), None, &mut Nowhere).unwrap();
        let Statement::EmptyDecision { grounds, .. } = filled.says else { unreachable!("{:?}", filled.says) };
        assert_eq!(grounds, "rod at bottom");
        let form = form_of("valve", VISIT_FORMS).unwrap();
        let refused = fill(form, typed(&["vapour", "shut", "tight"]), None, &mut Nowhere).unwrap_err();
        assert!(refused.to_string().contains("one word too many"), "{refused}");
    }

    #[test]
    fn a_correction_keeps_what_is_not_said_again() {
        let form = form_of("reading", VISIT_FORMS).unwrap();
        let words = ["pressure", "car", "final", "12 psi", "G-3"];
        let first = fill(form, typed(&words), None, &mut Nowhere).unwrap().says;
        let before = serde_json::to_value(&first).unwrap()["reading"].as_object().cloned();
        let mut words = Words::default();
        words.named.insert("amount".to_owned(), "11 psi".to_owned());
        let Statement::Reading(second) = fill(form, words, before, &mut Nowhere).unwrap().says else {
            unreachable!("a reading corrects a reading")
        };
        assert_eq!((second.amount.value, second.instrument.as_str()), (Some(11.0), "G-3"));
    }
}
