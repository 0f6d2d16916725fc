//! What a person writes or ticks on paper for a record: the places of a printed step, with their words and units.
//!
//! The words of the fields stand here once; the office's strip reads them, and the phone's print page reads the table
//! that a test writes from them. How a place is drawn, and which steps are printed, is up to the shells.

use ciborium::Value;

use super::step::Record;
use crate::entry::StatementKind;
use crate::entry::spec::{Field, Shape, StatementSpec, Vocabulary};
use crate::entry::value_writer::to_value;
use crate::units::Unit;
use crate::{Message, message};

/// What is filled in at a place.
#[derive(Clone, Debug, PartialEq)]
pub enum Fill {
    /// A number, with the unit printed beside it.
    Number(Unit),
    /// One or more of these words, each with a box.
    Choice(Vec<Message>),
    /// A line of writing.
    Text,
    /// A day or a time.
    Time,
    /// A box to tick.
    Tick,
}

/// A place on paper.
#[derive(Clone, Debug, PartialEq)]
pub struct PaperPlace {
    /// What is filled in.
    pub label: Message,
    /// How it is filled in.
    pub fill: Fill,
}

/// A field that has a place on paper: its name, the id of its label (that of the record itself if empty), and its
/// vocabulary.
#[derive(Clone, Copy, Debug)]
pub struct PaperField {
    /// The field of the statement.
    pub field: &'static Field,
    /// The id of the label; empty if the label is the title of the record.
    pub label: &'static str,
}

/// The labels of fields, by statement and field. An empty label stands for the title of the record.
const LABELS: &[(&str, &[(&str, &str)])] = &[
    ("opened", &[("car", "phone-new-whole"), ("receiver", "phone-new-receiver"), ("spot", "phone-new-spot")]),
    ("car_number_again", &[("car", "")]),
    (
        "paper",
        &[
            ("number", "phone-paper-number"),
            ("car", "phone-paper-car"),
            ("shipper", "phone-paper-shipper"),
            ("un_number", "phone-paper-un"),
            ("product", "phone-paper-product"),
            ("billed", "phone-paper-billed"),
            ("relative_density", "phone-paper-relative_density"),
            ("odorised", "phone-paper-odorised"),
            ("grade", "phone-paper-grade"),
            ("billed_by", "phone-paper-billed_by"),
            ("winter_fill", "phone-paper-winter"),
        ],
    ),
    ("clock", &[("at", "")]),
    ("reading", &[("amount", ""), ("instrument", "phone-strip-instrument")]),
    ("valve", &[("position", "")]),
    ("closure", &[("state", "")]),
    ("listen", &[("heard", "")]),
    ("line", &[("hose", "phone-hose-number")]),
    ("effort", &[("amount", "")]),
    ("threads", &[("engaged", "")]),
    ("valve_feel", &[("feel", "")]),
    ("plug_condition", &[("state", ""), ("note", "phone-note")]),
    (
        "cover_condition",
        &[("part", "phone-part-which"), ("state", "phone-part-state"), ("note", "phone-note")],
    ),
    ("hose_pressure", &[("amount", "")]),
    ("next_time", &[("what", "")]),
    ("item_out", &[]),
    ("item_in", &[]),
    (
        "seal",
        &[
            ("place", "phone-seal-place"),
            ("number", "phone-seal-number"),
            ("kind", "phone-seal-kind"),
            ("intact", "phone-seal-whole"),
            ("note", "phone-note"),
            ("because", "phone-seal-because"),
        ],
    ),
    ("photo", &[]),
    ("defect", &[("what", "phone-defect-what"), ("needs_authority", "phone-defect-approval")]),
    ("forwarded", &[("to", "phone-forwarded-to"), ("how", "phone-forwarded-how")]),
    ("hold", &[("because", "phone-why")]),
    ("attendance", &[]),
    (
        "cover",
        &[
            ("closed", "phone-cover-closed"),
            ("pinned", "phone-cover-pin_in"),
            ("bolts_in_place", "phone-cover-bolts"),
            ("bolts_required", "phone-cover-should"),
        ],
    ),
    ("protection", &[]),
    ("weather", &[("precipitation", "phone-weather-falls"), ("wind", "phone-weather-wind")]),
    ("empty_sign", &[("seen", "")]),
    ("empty_decision", &[("accepted", "phone-decision-yes"), ("grounds", "phone-decision-grounds")]),
    (
        "truck_load",
        &[
            ("truck", "phone-truck-which"),
            ("amount", "phone-truck-amount"),
            ("ticket", "phone-truck-ticket"),
            ("driver", "phone-truck-driver"),
            ("level", "measured-level"),
            ("temperature", "measured-temperature"),
            ("seal", "phone-truck-seal"),
        ],
    ),
    (
        "tank_gauged",
        &[
            ("moment", "phone-tank-moment"),
            ("tank", "phone-tank-which"),
            ("level", "measured-level"),
            ("pressure", "measured-pressure"),
            ("temperature", "measured-temperature"),
            ("meter", "phone-tank-meter"),
        ],
    ),
    (
        "recovery_planned",
        &[
            ("target", "phone-plan-target"),
            ("swept", "phone-plan-swept"),
            ("efficiency", "phone-plan-efficiency"),
            ("price", "phone-plan-price"),
            ("cost", "phone-plan-cost"),
        ],
    ),
    (
        "inspection",
        &[
            ("by", "phone-inspection-by"),
            ("looked_at", "phone-inspection-looked"),
            ("found", "phone-inspection-found"),
            ("finding", "phone-inspection-finding"),
            ("copy_left", "phone-inspection-copy"),
        ],
    ),
    ("check", &[]),
    (
        "car_fittings",
        &[
            ("fittings", "phone-fittings-there"),
            ("gauging", "phone-fittings-gauging"),
            ("vapour_end", "phone-fittings-vapor"),
        ],
    ),
    ("car_capacity", &[("capacity", ""), ("insulation", "phone-shell-insulation")]),
    ("car_diameter", &[("diameter", "")]),
    ("outage_table", &[("name", "")]),
    ("car_test_date", &[("due", "")]),
    (
        "incident",
        &[
            ("source", "phone-incident-source"),
            ("noticed_at", "phone-incident-noticed"),
            ("injury", "phone-incident-injury"),
            ("ignition", "phone-incident-ignition"),
            ("evacuation", "phone-incident-evacuation"),
            ("closed", "phone-incident-closed"),
            ("what", "phone-what-seen"),
        ],
    ),
    ("leak", &[("at", "phone-leak-at"), ("action", "phone-leak-action")]),
    (
        "car_left",
        &[
            ("connected", "phone-left-connected"),
            ("conditions", "phone-left-conditions"),
            ("until", "phone-left-until"),
            ("note", "phone-note"),
        ],
    ),
    ("car_moved", &[("to", "phone-moved-to"), ("by", "phone-moved-by")]),
    (
        "outcome",
        &[
            ("load", "phone-outcome-load"),
            ("because", "phone-outcome-because"),
            ("to", "phone-outcome-to"),
            ("note", "phone-note"),
        ],
    ),
    ("fit_to_unload", &[]),
    ("last_round", &[("fittings", ""), ("except", "phone-strip-except"), ("note", "phone-note")]),
    ("released", &[("as_residue", "phone-strip-residue")]),
];

/// Fields of these kinds that need no place: the box of the step is the answer, the step says it already, the picture is
/// taken with a camera, or the office enters it.
#[cfg(test)]
const NOT_ON_PAPER: &[&str] = &[
    "line.connected",
    "photo.of",
    "photo.about",
    "attendance.presence",
    "protection.what",
    "protection.set",
    "check.what",
    "check.right",
    "check.note",
    "item_out.item",
    "item_in.item",
    "effort.part",
    "clock.event",
    "seal.event",
    "empty_sign.sign",
    "car_test_date.test",
    "reading.measured",
    "reading.place",
    "reading.purpose",
    "outage_table.rows",
    "outage_table.liquid",
];

/// The records of which a step's box says nothing, because what was found may differ from what is asked.
const AS_FOUND: [&str; 2] = ["valve", "closure"];

fn spec_of(word: &str) -> Option<&'static StatementSpec> {
    StatementKind::ALL.iter().map(|kind| kind.spec()).find(|spec| spec.word == word)
}

/// Returns the statements that steps may ask for, in the order of [`Record`], each with the fields that have a place.
pub fn paper_fields() -> impl Iterator<Item = (&'static str, Vec<PaperField>)> {
    LABELS.iter().map(|(statement, labels)| (*statement, fields_of(statement, labels)))
}

fn fields_of(statement: &str, labels: &'static [(&str, &'static str)]) -> Vec<PaperField> {
    let spec = spec_of(statement);
    let field = |(name, label): &(&str, &'static str)| Some(PaperField { field: spec?.field(name)?, label });
    labels.iter().filter_map(field).collect()
}

impl PaperField {
    /// Returns how the field is filled in; `unit` is that of the record, where the record has one.
    pub fn fill(&self, unit: Option<Unit>) -> Fill {
        match self.field.shape {
            Shape::Word(words) | Shape::Words(words) => Fill::Choice(words_of(&words)),
            // A text with words of its own has boxes where there is a choice among few.
            Shape::Coded(words) if (2..=8).contains(&words.words().len()) => Fill::Choice(words_of(&words)),
            Shape::YesNo => Fill::Choice(vec![message!("phone-yes"), message!("phone-no")]),
            Shape::Amount(own) => Fill::Number(own),
            Shape::AmountOf(_) => Fill::Number(unit.unwrap_or(Unit::One)),
            Shape::Count => Fill::Number(Unit::One),
            Shape::Time => Fill::Time,
            _ => Fill::Text,
        }
    }
}

fn words_of(words: &Vocabulary) -> Vec<Message> {
    words.words().into_iter().map(|word| (words.message)(word)).collect()
}

impl Record {
    /// Returns the record's word, as in the texts of procedures.
    pub fn word(&self) -> String {
        let fields = self.fields();
        let word = fields.iter().find(|(name, _)| name.as_text() == Some("statement"));
        word.and_then(|(_, word)| word.as_text()).unwrap_or_default().to_owned()
    }

    /// Returns what the record's text says, by name.
    fn fields(&self) -> Vec<(Value, Value)> {
        to_value(self).ok().and_then(|value| value.into_map().ok()).unwrap_or_default()
    }

    /// Returns what the record is called, as the phone calls it.
    pub fn title(&self) -> Message {
        match self {
            Record::Reading { measured, place, .. } => {
                message!("phone-reading-at", measured = measured.term(), place = place.term())
            }
            Record::Protection { what, .. } => what.term(),
            Record::EmptySign { sign } => sign.term(),
            Record::Clock { event } => event.term(),
            Record::Photo { of } => message!("phone-photo-of", what = of.term()),
            Record::Seal { event } => event.term(),
            Record::CarTestDate { test } => test.term(),
            Record::Effort { part } => Message::term("phone-effort", part.word()),
            Record::LastRound {} => Message::new("slot-last_round"),
            Record::FitToUnload {} => Message::new("slot-fit_to_unload"),
            Record::Check { what } | Record::ItemOut { item: what } | Record::ItemIn { item: what } => {
                Message::typed(what)
            }
            other => Message::term("phone-ask", &other.word()),
        }
    }

    /// Returns the places on paper for what the record asks for.
    pub fn paper_places(&self) -> Vec<PaperPlace> {
        let (word, title) = (self.word(), self.title());
        if matches!(self, Record::Photo { .. }) {
            return vec![PaperPlace { label: title, fill: Fill::Tick }];
        }
        if matches!(self, Record::Line { connected: false }) {
            return Vec::new();
        }
        let given = self.fields();
        let unit = match self {
            Record::Reading { unit, .. } => Some(*unit),
            _ => None,
        };
        let fields = LABELS.iter().find(|(statement, _)| *statement == word);
        let fields = fields.map(|(statement, labels)| fields_of(statement, labels)).unwrap_or_default();
        let asked = |one: &PaperField| {
            AS_FOUND.contains(&word.as_str())
                || given.iter().all(|(name, _)| name.as_text() != Some(one.field.name))
        };
        let place = |one: PaperField| PaperPlace {
            label: if one.label.is_empty() { title.clone() } else { Message::new(one.label) },
            fill: one.fill(unit),
        };
        fields.into_iter().filter(asked).map(place).collect()
    }

    /// Returns true for what is recorded only when something is wrong or comes between. Paper has a place for each of
    /// these once, not at every step.
    pub fn is_aside(&self) -> bool {
        matches!(
            self,
            Record::Incident {}
                | Record::Leak {}
                | Record::Hold {}
                | Record::Defect {}
                | Record::Forwarded {}
                | Record::CarLeft {}
                | Record::CarMoved {}
                | Record::Outcome {}
                | Record::NextTime {}
        )
    }
}

/// What has a place at the end of the paper, once.
pub const ASIDE: [Record; 8] = [
    Record::Leak {},
    Record::Hold {},
    Record::Defect {},
    Record::Forwarded {},
    Record::Incident {},
    Record::CarLeft {},
    Record::CarMoved {},
    Record::NextTime {},
];

#[cfg(test)]
mod tests {
    #![allow(clippy::panic, clippy::unwrap_used, reason = "a failed unwrap is a failed test")]
    use std::collections::BTreeSet;

    use super::*;

    /// The words of all records, from what serde says of one that is none.
    fn every_record() -> Vec<String> {
        let refused = serde_json::from_str::<Record>(r#"{"statement":"no such"}"#).unwrap_err().to_string();
        let (_, known) = refused.split_once("expected one of ").unwrap();
        known.split('`').skip(1).step_by(2).map(str::to_owned).collect()
    }

    #[test]
    fn every_record_has_a_row_and_every_field_that_a_person_fills_in_has_a_place_or_a_reason() {
        let records = every_record();
        assert!(records.len() > 40, "{records:?}");
        let rows: Vec<String> = LABELS.iter().map(|(statement, _)| (*statement).to_owned()).collect();
        assert_eq!(rows.iter().collect::<BTreeSet<_>>(), records.iter().collect::<BTreeSet<_>>());
        let mut without = Vec::new();
        let mut spare: BTreeSet<&str> = NOT_ON_PAPER.iter().copied().collect();
        for (statement, labels) in LABELS {
            let spec = spec_of(statement).unwrap();
            for (field, _) in *labels {
                assert!(spec.field(field).is_some(), "{statement} has no {field}");
            }
            for field in spec.asked() {
                let name = format!("{statement}.{}", field.name);
                let id = matches!(
                    field.shape,
                    Shape::Photo | Shape::Defect | Shape::Hold | Shape::Incident | Shape::Leak | Shape::Note
                );
                let labelled = labels.iter().any(|(label, _)| *label == field.name);
                let reason = spare.remove(name.as_str());
                if !(labelled || reason || id || field.name == "fitting") {
                    without.push(name);
                }
            }
        }
        assert!(without.is_empty(), "no place on paper: {without:?}");
        assert!(spare.is_empty(), "no such field: {spare:?}");
    }

    #[test]
    fn a_number_has_its_unit_and_what_the_step_says_already_is_not_asked_again() {
        let reading: Record = serde_json::from_str(
            r#"{"statement":"reading","measured":"pressure","place":"car","purpose":"final","unit":"psi"}"#,
        )
        .unwrap();
        let fills: Vec<Fill> = reading.paper_places().into_iter().map(|place| place.fill).collect();
        assert_eq!(fills, [Fill::Number(Unit::PsiGauge), Fill::Text]);
        let shut: Record = serde_json::from_str(r#"{"statement":"valve","position":"shut"}"#).unwrap();
        let Fill::Choice(words) = &shut.paper_places()[0].fill else { panic!("no choice") };
        assert_eq!(words.len(), 2, "what was found may differ from what is asked");
        for alone in [r#"{"statement":"line","connected":false}"#, r#"{"statement":"fit_to_unload"}"#] {
            let record: Record = serde_json::from_str(alone).unwrap();
            assert!(record.paper_places().is_empty(), "{alone}");
        }
    }
}
