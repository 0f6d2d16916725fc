//! The phone's list of statement kinds, generated from the table in the core.
//!
//! `FARSIDING_ADD_GOLDEN=1 cargo test -p farsiding-core --test statement_kinds` writes
//! `bindings/phone/src/core/statement-kinds.generated.ts` and `paper-fields.generated.ts` beside it, and the tests
//! compare them. The files are formatted as the phone's formatter would format them.

#![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]

use std::collections::BTreeMap;
use std::path::Path;

use farsiding_core::entry::spec::{Field, OnPhone, Shape, StatementSpec, Vocabulary};
use farsiding_core::entry::vocabulary::SealPlace;
use farsiding_core::entry::{Slot, StatementKind};
use farsiding_core::ids::DefectId;
use farsiding_core::procedure::{Fill, PaperField, paper_fields};
use farsiding_core::units::Unit;

const HEAD: &str = "\
/**
 * The kinds of statements, the words their fields may hold, and the forms that are drawn from them. Made from the
 * core's table by `core/tests/statement_kinds.rs`: edit the table, not this file.
 */
";

const TYPES: &str = "\
export interface KindField {
  name: string;
  shape: FieldShape;
  /** Whether it must be given. */
  must: boolean;
  /** Whose words it holds. */
  vocabulary?: Vocabulary;
  /** The unit of an amount that has none of its own. */
  unit?: string;
  /** What it is when nothing is given, as typed. */
  usual?: string;
}
export interface KindForm {
  /** Whether saying it binds the person. */
  signs: boolean;
  /** The field that the form is about and does not ask. */
  about?: string;
  /** The field that holds the id of what the statement makes. */
  makes?: string;
  fields: readonly KindField[];
}
";

/// A TypeScript value that is formatted within the phone's 110 columns.
enum Ts {
    Word(String),
    List(Vec<Ts>),
    Object(Vec<(String, Ts)>),
}

impl Ts {
    fn text(text: &str) -> Ts {
        Ts::Word(format!("\"{text}\""))
    }

    fn on_one_line(&self) -> String {
        match self {
            Ts::Word(word) => word.clone(),
            Ts::List(items) => {
                format!("[{}]", items.iter().map(Ts::on_one_line).collect::<Vec<_>>().join(", "))
            }
            Ts::Object(fields) => {
                let fields: Vec<String> =
                    fields.iter().map(|(name, value)| format!("{name}: {}", value.on_one_line())).collect();
                format!("{{ {} }}", fields.join(", "))
            }
        }
    }

    /// Formats the value with `before` characters in front of it on its first line and `behind` after it.
    fn laid_out(&self, indent: usize, before: usize, behind: usize) -> String {
        let line = self.on_one_line();
        // The formatter puts each item on its own line if all items are objects or all are lists.
        let many = |items: &[Ts]| {
            items.len() > 1
                && (items.iter().all(|item| matches!(item, Ts::Object(_)))
                    || items.iter().all(|item| matches!(item, Ts::List(_))))
        };
        let opened = match self {
            Ts::Word(_) => false,
            Ts::List(items) => many(items),
            Ts::Object(fields) => {
                fields.iter().any(|(_, value)| matches!(value, Ts::List(items) if many(items)))
            }
        };
        if before + line.chars().count() + behind <= 110 && !opened {
            return line;
        }
        let inner = indent + 2;
        let blanks = " ".repeat(inner);
        let lines: Vec<String> = match self {
            Ts::Word(word) => return word.clone(),
            Ts::List(items) => {
                items.iter().map(|item| format!("{blanks}{},\n", item.laid_out(inner, inner, 1))).collect()
            }
            Ts::Object(fields) => fields
                .iter()
                .map(|(name, value)| {
                    let value = value.laid_out(inner, inner + name.len() + 2, 1);
                    format!("{blanks}{name}: {value},\n")
                })
                .collect(),
        };
        let (open, close) = if matches!(self, Ts::List(_)) { ('[', ']') } else { ('{', '}') };
        format!("{open}\n{}{}{close}", lines.concat(), " ".repeat(indent))
    }
}

fn constant(name: &str, value: Ts, behind: &str) -> String {
    let head = format!("export const {name} = ");
    let value = value.laid_out(0, head.len(), behind.len());
    format!("{head}{value}{behind}\n")
}

/// Returns the shape's word, its vocabulary and its unit.
fn shape(field: &Field) -> (&'static str, Option<Vocabulary>, Option<String>) {
    match field.shape {
        Shape::Text => ("text", None, None),
        Shape::Prose => ("prose", None, None),
        Shape::Person => ("person", None, None),
        Shape::CarNumber => ("car_number", None, None),
        Shape::Date => ("date", None, None),
        Shape::Word(words) => ("word", Some(words), None),
        Shape::Words(words) => ("words", Some(words), None),
        Shape::Coded(words) => ("coded", Some(words), None),
        Shape::Amount(unit) => ("amount", None, Some(unit.symbol().to_owned())),
        Shape::AmountOf(_) => ("amount", None, None),
        Shape::YesNo => ("yes_no", None, None),
        Shape::Count => ("count", None, None),
        Shape::Time => ("time", None, None),
        Shape::Table => ("table", None, None),
        Shape::Defect => ("defect", None, None),
        Shape::Hold => ("hold", None, None),
        Shape::Incident => ("incident", None, None),
        Shape::Leak => ("leak", None, None),
        Shape::Note => ("note", None, None),
        Shape::Photo => ("photo", None, None),
        Shape::PhotoFile => ("photo_file", None, None),
        Shape::Visit => ("visit", None, None),
        Shape::Site => ("site", None, None),
        Shape::Entry => ("entry", None, None),
        Shape::Entries => ("entries", None, None),
        Shape::Items => ("items", None, None),
        Shape::LastEntry => ("last_entry", None, None),
        Shape::Key => ("key", None, None),
        Shape::Procedure => ("procedure", None, None),
        Shape::File => ("file", None, None),
        Shape::Commitment => ("commitment", None, None),
        Shape::Commitments => ("commitments", None, None),
        Shape::ProcedureText => ("procedure_text", None, None),
        Shape::Sites => ("sites", None, None),
        Shape::Nonce => ("nonce", None, None),
    }
}

fn field(field: &Field) -> Ts {
    let (word, vocabulary, unit) = shape(field);
    let mut fields = vec![
        ("name".to_owned(), Ts::text(field.name)),
        ("shape".to_owned(), Ts::text(word)),
        ("must".to_owned(), Ts::Word(field.must.to_string())),
    ];
    fields.extend(vocabulary.map(|words| ("vocabulary".to_owned(), Ts::text(words.name))));
    fields.extend(unit.map(|unit| ("unit".to_owned(), Ts::text(&unit))));
    fields.extend(field.usual.map(|usual| ("usual".to_owned(), Ts::text(usual))));
    Ts::Object(fields)
}

/// Returns true if the field holds the id of what the statement creates: a new defect, hold, incident or leak.
fn is_made(field: &Field) -> bool {
    const MADE: fn(Shape) -> bool =
        |shape| matches!(shape, Shape::Defect | Shape::Hold | Shape::Incident | Shape::Leak | Shape::Note);
    !field.must && MADE(field.shape)
}

fn form(spec: &StatementSpec, about: Option<&str>) -> Ts {
    let mut fields = vec![("signs".to_owned(), Ts::Word(spec.binds.to_string()))];
    fields.extend(about.map(|about| ("about".to_owned(), Ts::text(about))));
    let makes = spec.asked().iter().find(|field| is_made(field));
    fields.extend(makes.map(|field| ("makes".to_owned(), Ts::text(field.name))));
    let asked = spec.asked().iter().filter(|field| Some(field.name) != about && !is_made(field));
    fields.push(("fields".to_owned(), Ts::List(asked.map(field).collect())));
    Ts::Object(fields)
}

fn vocabulary(words: &Vocabulary) -> Ts {
    let groups: Vec<Ts> = (words.groups)()
        .into_iter()
        .map(|group| Ts::List(group.into_iter().map(Ts::text).collect()))
        .collect();
    match <[Ts; 1]>::try_from(groups) {
        Ok([one]) => one,
        Err(several) => Ts::List(several),
    }
}

/// Returns the slot paths that the phone names itself, with placeholders for their words.
fn slots() -> String {
    let left_open = |slot: &str, word: &str, name: &str| slot.replace(word, &format!("${{{name}}}"));
    let seal = left_open(&Slot::seal(SealPlace::HousingPin), SealPlace::HousingPin.word(), "place");
    let id = DefectId([0x5a; 16]);
    let defect = left_open(&Slot::defect(&id), &id.to_string(), "defect");
    format!(
        "\n/** The paths of slots that the phone names. */\n\
         export const SLOTS = {{\n  \
         seal: (place: string) => `{seal}`,\n  \
         defect: (defect: string) => `{defect}`,\n\
         }};\n"
    )
}

fn made() -> String {
    let rows: Vec<&StatementSpec> = StatementKind::ALL.iter().map(|kind| kind.spec()).collect();
    let fields = || rows.iter().flat_map(|row| row.fields);
    let vocabularies: BTreeMap<&str, Ts> =
        fields().filter_map(|one| shape(one).1).map(|words| (words.name, vocabulary(&words))).collect();
    let mut shapes: Vec<&str> = fields().map(|one| shape(one).0).collect();
    shapes.sort_unstable();
    shapes.dedup();
    let forms = rows.iter().filter_map(|row| match row.on_phone {
        OnPhone::Form(about) => Some((row.word.to_owned(), form(row, about))),
        OnPhone::OwnScreen => None,
    });
    let kinds = Ts::List(rows.iter().map(|row| Ts::text(row.word)).collect());
    let vocabularies =
        Ts::Object(vocabularies.into_iter().map(|(name, words)| (name.to_owned(), words)).collect());
    [
        HEAD.to_owned(),
        constant("STATEMENT_KINDS", kinds, " as const;"),
        "export type StatementKind = (typeof STATEMENT_KINDS)[number];\n\n".to_owned(),
        "/** The words of each vocabulary, in the core's order; in groups where a text holds one of each. */\n".to_owned(),
        constant("VOCABULARIES", vocabularies, " as const;"),
        "export type Vocabulary = keyof typeof VOCABULARIES;\n\n".to_owned(),
        format!(
            "export type FieldShape =\n{};\n",
            shapes.iter().map(|word| format!("  | \"{word}\"")).collect::<Vec<_>>().join("\n")
        ),
        TYPES.to_owned(),
        "\n/** The kinds that the phone asks for on a form drawn from their fields. */\n".to_owned(),
        constant(
            "KIND_FORMS",
            Ts::Object(forms.collect()),
            " as const satisfies Partial<Record<StatementKind, KindForm>>;",
        ),
        slots(),
        "\n/** The names that messages have for units, by the symbols with which amounts are stored. */\n".to_owned(),
        constant("UNIT_NAMES", units(), " as const;"),
    ]
    .concat()
}

fn units() -> Ts {
    let is_name = |symbol: &str| symbol.chars().all(|c| c.is_ascii_alphabetic());
    let key = |symbol: &str| if is_name(symbol) { symbol.to_owned() } else { format!("\"{symbol}\"") };
    let named = |unit: &Unit| (key(unit.symbol()), Ts::text(unit.word()));
    Ts::Object(Unit::ALL.iter().map(named).collect())
}

#[test]
fn the_phones_list_of_kinds_is_that_of_the_table() {
    let file =
        Path::new(env!("CARGO_MANIFEST_DIR")).join("../bindings/phone/src/core/statement-kinds.generated.ts");
    let made = made();
    if std::env::var_os("FARSIDING_ADD_GOLDEN").is_some() {
        std::fs::write(&file, &made).unwrap();
    }
    let stands = std::fs::read_to_string(&file).unwrap_or_default();
    assert_eq!(made, stands, "{} is stale: see the head of this test", file.display());
}

const PAPER_HEAD: &str = "\
/**
 * The places on paper for what a step records, by its kind. Made from the core's table by
 * `core/tests/statement_kinds.rs`: edit the table in `core/src/procedure/on_paper.rs`, not this file.
 */
export interface PaperField {
  field: string;
  /** The id of the label; empty where it is what the record itself is called. */
  label: string;
  fill: \"number\" | \"choice\" | \"text\" | \"time\";
  /** The unit of a number that has none of its own. */
  unit?: string;
  /** The ids of the words that are chosen from. */
  words?: readonly string[];
}
";

fn paper_field(place: &PaperField) -> Ts {
    let text = |name: &str, value: &str| (name.to_owned(), Ts::text(value));
    let mut fields = vec![text("field", place.field.name), text("label", place.label)];
    match place.fill(None) {
        Fill::Number(unit) => {
            fields.push(text("fill", "number"));
            fields.push(text("unit", unit.symbol()));
        }
        Fill::Choice(words) => {
            fields.push(text("fill", "choice"));
            let words = words.iter().map(|word| Ts::text(word.id())).collect();
            fields.push(("words".to_owned(), Ts::List(words)));
        }
        Fill::Time => fields.push(text("fill", "time")),
        Fill::Text | Fill::Tick => fields.push(text("fill", "text")),
    }
    Ts::Object(fields)
}

#[test]
fn the_phones_places_on_paper_are_those_of_the_table() {
    let rows = paper_fields().map(|(statement, fields)| {
        (statement.to_owned(), Ts::List(fields.iter().map(paper_field).collect()))
    });
    let table = constant(
        "PAPER_FIELDS",
        Ts::Object(rows.collect()),
        " as const satisfies Record<string, readonly PaperField[]>;",
    );
    let made = format!("{PAPER_HEAD}\n{table}");
    let file =
        Path::new(env!("CARGO_MANIFEST_DIR")).join("../bindings/phone/src/core/paper-fields.generated.ts");
    if std::env::var_os("FARSIDING_ADD_GOLDEN").is_some() {
        std::fs::write(&file, &made).unwrap();
    }
    let stands = std::fs::read_to_string(&file).unwrap_or_default();
    assert_eq!(made, stands, "{} is stale: see the head of this test", file.display());
}

/// Every field of a form can be filled in on a phone.
#[test]
fn every_field_of_a_form_can_be_drawn() {
    for spec in StatementKind::ALL.iter().map(|kind| kind.spec()) {
        let OnPhone::Form(about) = spec.on_phone else { continue };
        for field in spec.asked().iter().filter(|field| Some(field.name) != about && !is_made(field)) {
            let drawn = match field.shape {
                Shape::Coded(words) => (words.groups)().len() == 1,
                shape => matches!(
                    shape,
                    Shape::Text
                        | Shape::Prose
                        | Shape::Person
                        | Shape::CarNumber
                        | Shape::Date
                        | Shape::Word(_)
                        | Shape::Words(_)
                        | Shape::Amount(_)
                        | Shape::YesNo
                        | Shape::Time
                ),
            };
            assert!(drawn, "{}.{} has no drawing", spec.word, field.name);
        }
    }
}
