//! The form of every statement as typed on a command line: its fields, their order, what they take.
//!
//! A form turns words into the statement's own JSON, which the core reads: what the core would refuse
//! is refused here with the core's words. Does not live here: which visit or site it goes to.

use std::collections::BTreeMap;

use farsiding_core::entry::vocabulary as v;
use farsiding_core::entry::{Coded, Right, Statement, coded};
use farsiding_core::units::Unit;
use serde_json::{Map, Value, json};

use super::DeviceError;
use super::shapes::{self, Codes, Here, Shape};

/// A field of a form.
#[derive(Debug, Clone, Copy)]
pub struct Field {
    /// Its name, as in the statement.
    pub name: &'static str,
    /// What it takes.
    pub shape: Shape,
    /// Whether it must be given.
    pub must: bool,
    /// What it is when not given, as typed; nothing means it is left out.
    pub usual: Option<&'static str>,
}

/// A statement's form.
#[derive(Debug, Clone, Copy)]
pub struct Form {
    /// The statement's kind.
    pub kind: &'static str,
    /// Its fields in the order they are typed in.
    pub fields: &'static [Field],
}

const fn must(name: &'static str, shape: Shape) -> Field {
    Field { name, shape, must: true, usual: None }
}
const fn may(name: &'static str, shape: Shape) -> Field {
    Field { name, shape, must: false, usual: None }
}
const fn usually(name: &'static str, shape: Shape, usual: &'static str) -> Field {
    Field { name, shape, must: false, usual: Some(usual) }
}

macro_rules! words {
    ($name:ident) => {
        || v::$name::ALL.iter().map(|word| word.word()).collect()
    };
}

macro_rules! coded {
    ($name:ident) => {
        Shape::Coded(Codes {
            described: || {
                let words: Vec<&str> = coded::$name::ALL.iter().map(|word| word.word()).collect();
                words.join(" | ")
            },
            read: |text| Coded::<coded::$name>::typed(text).text().into_owned(),
        })
    };
}

const WIND: Shape = Shape::Coded(Codes {
    described: || {
        let from: Vec<&str> = coded::WindFrom::ALL.iter().map(|word| word.word()).collect();
        let force: Vec<&str> = coded::WindForce::ALL.iter().map(|word| word.word()).collect();
        format!("\"{} {}\"", from.join("|"), force.join("|"))
    },
    read: |text| Coded::<coded::Wind>::typed(text).text().into_owned(),
});
const FITTING: Shape = Shape::Word(words!(Fitting));

/// Forms of what is recorded in a visit.
pub const VISIT_FORMS: &[Form] = &[
    Form {
        kind: "reading",
        fields: &[
            must("measured", Shape::Word(words!(Measured))),
            must("place", Shape::Word(words!(Place))),
            must("purpose", Shape::Word(words!(Purpose))),
            must("amount", Shape::AmountOf("measured")),
            may("instrument", Shape::Text),
        ],
    },
    Form {
        kind: "valve",
        fields: &[must("fitting", FITTING), must("position", Shape::Word(words!(ValvePosition)))],
    },
    Form {
        kind: "closure",
        fields: &[must("fitting", FITTING), must("state", Shape::Word(words!(ClosureState)))],
    },
    Form { kind: "listen", fields: &[must("fitting", FITTING), must("heard", Shape::Word(words!(Heard)))] },
    Form {
        kind: "line",
        fields: &[must("fitting", FITTING), must("connected", Shape::YesNo), may("hose", Shape::Text)],
    },
    Form {
        kind: "effort",
        fields: &[
            must("fitting", FITTING),
            must("part", Shape::Word(words!(Part))),
            must("amount", Shape::Amount(Unit::FootPound)),
        ],
    },
    Form {
        kind: "threads",
        fields: &[must("fitting", FITTING), must("engaged", Shape::Amount(Unit::Turns))],
    },
    Form { kind: "item_out", fields: &[must("item", Shape::Text), may("fitting", FITTING)] },
    Form { kind: "item_in", fields: &[must("item", Shape::Text)] },
    Form {
        kind: "step",
        fields: &[
            must("step", Shape::Text),
            usually("outcome", Shape::Word(words!(StepOutcome)), "done"),
            may("note", Shape::Text),
        ],
    },
    Form {
        kind: "seal",
        fields: &[
            must("event", Shape::Word(words!(SealEvent))),
            must("place", Shape::Word(words!(SealPlace))),
            may("number", Shape::Text),
            may("kind", Shape::Word(words!(SealKind))),
            usually("intact", Shape::YesNo, "yes"),
            may("photo", Shape::Photo),
            may("note", coded!(SealNote)),
        ],
    },
    Form {
        kind: "cover",
        fields: &[
            must("closed", Shape::YesNo),
            must("pinned", Shape::YesNo),
            must("bolts_in_place", Shape::Count),
            must("bolts_required", Shape::Count),
        ],
    },
    Form {
        kind: "protection",
        fields: &[must("what", Shape::Word(words!(Protection))), must("set", Shape::YesNo)],
    },
    Form {
        kind: "empty_sign",
        fields: &[must("sign", Shape::Word(words!(EmptySign))), must("seen", Shape::YesNo)],
    },
    Form { kind: "empty_decision", fields: &[must("accepted", Shape::YesNo), must("grounds", Shape::Text)] },
    Form {
        kind: "defect",
        fields: &[
            must("what", Shape::Text),
            usually("needs_authority", Shape::YesNo, "no"),
            may("fitting", FITTING),
            may("photo", Shape::Photo),
            may("defect", Shape::Defect),
        ],
    },
    Form {
        kind: "forwarded",
        fields: &[must("defect", Shape::Defect), must("to", Shape::Text), must("how", coded!(Told))],
    },
    Form {
        kind: "authority",
        fields: &[
            must("defect", Shape::Defect),
            must("by", Shape::Text),
            must("reference", Shape::Text),
            may("spoken_at", Shape::Time),
            may("written_at", Shape::Time),
        ],
    },
    Form { kind: "resolved", fields: &[must("defect", Shape::Defect), must("how", Shape::Text)] },
    Form { kind: "hold", fields: &[must("because", Shape::Text), may("hold", Shape::Hold)] },
    Form { kind: "hold_lifted", fields: &[must("hold", Shape::Hold), must("because", Shape::Text)] },
    Form { kind: "handover_given", fields: &[must("to", Shape::Text)] },
    Form { kind: "handover_taken", fields: &[must("from", Shape::Text)] },
    Form { kind: "attendance", fields: &[must("presence", Shape::Word(words!(Presence)))] },
    Form {
        kind: "clock",
        fields: &[must("event", Shape::Word(words!(ClockEvent))), usually("at", Shape::Time, "now")],
    },
    Form {
        kind: "weather",
        fields: &[must("precipitation", Shape::Word(words!(Precipitation))), may("wind", WIND)],
    },
    Form {
        kind: "paper",
        fields: &[
            may("number", Shape::Text),
            may("car", Shape::Text),
            may("shipper", Shape::Text),
            may("un_number", Shape::Text),
            may("product", Shape::Text),
            may("billed", Shape::Amount(Unit::Gallon)),
            may("relative_density", Shape::Amount(Unit::One)),
            may("odorised", Shape::YesNo),
        ],
    },
    Form {
        kind: "truck_load",
        fields: &[must("truck", Shape::Text), must("amount", Shape::Amount(Unit::Gallon))],
    },
    Form {
        kind: "check",
        fields: &[must("what", coded!(Checked)), must("right", Shape::YesNo), may("note", Shape::Text)],
    },
    Form { kind: "remark", fields: &[must("text", Shape::Text)] },
    Form { kind: "car_number_again", fields: &[must("car", Shape::Text)] },
    Form { kind: "car_fittings", fields: &[must("fittings", Shape::Words(words!(Fitting)))] },
    Form { kind: "car_capacity", fields: &[must("capacity", Shape::Amount(Unit::Gallon))] },
    Form { kind: "car_diameter", fields: &[must("diameter", Shape::Amount(Unit::Inch))] },
    Form {
        kind: "car_test_date",
        fields: &[must("test", Shape::Word(words!(TestDate))), must("due", Shape::Text)],
    },
    Form {
        kind: "outage_table",
        fields: &[
            must("name", Shape::Text),
            must("rows", Shape::Table),
            usually("liquid", Shape::YesNo, "yes"),
        ],
    },
    // Only to correct how a visit was opened; what is not given stays as it was.
    Form {
        kind: "opened",
        fields: &[
            must("car", Shape::Text),
            may("receiver", Shape::Word(words!(Receiver))),
            may("spot", Shape::Text),
        ],
    },
];

/// Forms of what is known of a site.
pub const SITE_FORMS: &[Form] = &[
    Form {
        kind: "site",
        fields: &[
            must("name", Shape::Text),
            must("zone", Shape::Text),
            must("elevation", Shape::Amount(Unit::Foot)),
            usually("attendance_gap_minutes", Shape::Count, "0"),
            may("local_rules", Shape::Text),
        ],
    },
    Form {
        kind: "tank",
        fields: &[
            must("name", Shape::Text),
            must("water_capacity", Shape::Amount(Unit::Gallon)),
            usually("underground", Shape::YesNo, "no"),
        ],
    },
    Form {
        kind: "instrument",
        fields: &[
            must("name", Shape::Text),
            must("measures", Shape::Word(words!(Measured))),
            must("span", Shape::AmountOf("measures")),
            may("grade", Shape::Text),
            may("calibration_due", Shape::Text),
        ],
    },
    Form {
        kind: "hose",
        fields: &[must("name", Shape::Text), must("service", Shape::Text), may("test_due", Shape::Text)],
    },
    Form {
        kind: "contact",
        fields: &[
            must("role", coded!(ContactRole)),
            must("name", Shape::Text),
            must("telephone", Shape::Text),
            may("note", Shape::Text),
        ],
    },
    Form {
        kind: "seal_stock",
        fields: &[must("from", Shape::Text), must("to", Shape::Text), must("kind", coded!(SealKind))],
    },
];

/// Forms of what is known of the organisation's people.
pub const ROSTER_FORMS: &[Form] = &[Form {
    kind: "operator",
    fields: &[
        must("operator", Shape::Text),
        must("name", Shape::Text),
        may("trained_on", Shape::Text),
        usually("active", Shape::YesNo, "yes"),
    ],
}];

/// The form of what the organisation decided about signatures and rights.
pub const RULES_FORMS: &[Form] = &[Form {
    kind: "rules",
    fields: &[
        must("unlocking", Shape::Word(|| vec!["act", "shift"])),
        usually("signature_required", Shape::YesNo, "no"),
        may("operator_rights", Shape::Words(|| Right::ALL.iter().map(|right| right.word()).collect())),
    ],
}];

/// What a form needs besides words: ids that only the record knows.
pub trait Surrounding {
    /// The time and offset here.
    fn here(&self) -> Here;
    /// The defect whose id begins so.
    fn defect(&self, text: &str) -> Result<String, DeviceError>;
    /// The hold whose id begins so.
    fn hold(&self, text: &str) -> Result<String, DeviceError>;
    /// The photograph whose digest begins so.
    fn photo(&self, text: &str) -> Result<String, DeviceError>;
    /// A new random id of sixteen bytes.
    fn new_id(&mut self) -> String;
}

/// A filled form.
#[derive(Debug)]
pub struct Filled {
    /// The statement.
    pub says: Statement,
    /// What is odd about what was typed.
    pub remarks: Vec<String>,
}

/// What stands behind the kind, sorted: fields by name, and the words without one.
#[derive(Debug, Default)]
pub struct Words {
    /// `name=value` and `--name value`.
    pub named: BTreeMap<String, String>,
    /// The others, in order.
    pub plain: Vec<String>,
}

/// Finds a form.
///
/// # Errors
/// [`DeviceError::Refused`] listing the kinds.
pub fn form_of(kind: &str, forms: &'static [Form]) -> Result<&'static Form, DeviceError> {
    let folded = kind.trim().to_lowercase().replace('-', "_");
    forms.iter().find(|form| form.kind == folded).ok_or_else(|| {
        let kinds: Vec<&str> = forms.iter().map(|form| form.kind).collect();
        DeviceError::Refused(format!(
            "\"{kind}\" is no kind of statement here; there are: {}",
            kinds.join(", ")
        ))
    })
}

/// Fills a form. `before` holds the fields of the statement that is being corrected: what is not given
/// stays as it was there.
///
/// # Errors
/// [`DeviceError::Refused`] saying which field and what it takes.
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
    for (kind, id) in [("defect", "defect"), ("hold", "hold")] {
        if form.kind == kind && !values.contains_key(id) {
            values.insert(id.to_owned(), around.new_id().into());
        }
    }
    let says = serde_json::from_value(json!({ form.kind: values }))
        .map_err(|error| DeviceError::Refused(format!("{}: {error}", form.kind)))?;
    Ok(Filled { says, remarks })
}

fn missing(form: &Form, field: &Field) -> DeviceError {
    DeviceError::Refused(format!(
        "{} is missing ({}). It is typed: {}",
        field.name,
        field.shape.described(),
        usage(form)
    ))
}

/// Gives every word its field: named ones first, the others in the form's order. Words left over belong
/// to the last text.
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
            (None, Some(Field { name, shape: Shape::Text | Shape::Coded(_), .. })) => {
                let text = typed.entry(name).or_default();
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
        Shape::Text => text.into(),
        Shape::Coded(codes) => (codes.read)(text).into(),
        Shape::Word(choices) => shapes::word(text, &choices())?.into(),
        Shape::Words(choices) => {
            let choices = choices();
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
        Shape::Photo => around.photo(text)?.into(),
        Shape::Table => {
            let file = std::fs::read_to_string(text)
                .map_err(|error| DeviceError::Refused(format!("\"{text}\" cannot be read: {error}")))?;
            shapes::table(&file)?
        }
    })
}

fn amount_json(text: &str, unit: Unit, remarks: &mut Vec<String>) -> Result<Value, DeviceError> {
    serde_json::to_value(shapes::amount(text, unit, remarks)).map_err(|e| DeviceError::Failed(e.to_string()))
}

/// How a form is typed, in one line.
pub fn usage(form: &Form) -> String {
    let mut text = form.kind.to_owned();
    for field in form.fields {
        let name = field.name.to_uppercase();
        text.push_str(&if field.must { format!(" {name}") } else { format!(" [{name}]") });
    }
    text
}

/// The forms of a visit, for help.
pub fn help() -> String {
    help_of(VISIT_FORMS)
}

/// Forms, each with what its fields take.
pub fn help_of(forms: &[Form]) -> String {
    let mut text = String::from(
        "Fields are given in order, or as name=value, or as --name value. What is typed as an amount may carry \
         its unit (\"12 psi\").\n--replaces ENTRY --why REASON makes it a correction: fields not given stay as \
         they were.\n\nKinds:\n",
    );
    for form in forms {
        text.push_str(&format!("  {}\n", usage(form)));
        for field in form.fields {
            if !matches!(field.shape, Shape::Text) {
                text.push_str(&format!("      {}: {}\n", field.name, field.shape.described()));
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
        fn here(&self) -> Here {
            Here { now: UtcMillis(0), offset_minutes: 0 }
        }
        fn defect(&self, _: &str) -> Result<String, DeviceError> {
            Ok("11".repeat(16))
        }
        fn hold(&self, _: &str) -> Result<String, DeviceError> {
            Ok("22".repeat(16))
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

    /// A word every shape takes.
    fn example(field: &Field, folder: &std::path::Path) -> String {
        match field.shape {
            Shape::Word(words) | Shape::Words(words) => words()[0].to_owned(),
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
        let all = VISIT_FORMS.iter().chain(SITE_FORMS).chain(ROSTER_FORMS).chain(RULES_FORMS);
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
