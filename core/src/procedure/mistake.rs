//! Why the text of a procedure is refused: each mistake by name, the line on which it stands, and a sentence for people.
//!
//! `load` and `left_out` find the mistakes. Pages and commands show them.

use toml::Spanned;
use toml::de::DeTable;

use super::load;
use super::thresholds::Threshold;
use crate::entry::site_facts::LARGEST_PROCEDURE;
use crate::entry::value_reader::{ReadError, ReadMistake};
use crate::entry::vocabulary::Gate;
use crate::{Arg, Joint, Message, message};

/// The mistake in a procedure's text.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum ProcedureError {
    /// The text is not TOML or does not have the expected shape.
    #[error("the procedure cannot be read: {0}")]
    Unreadable(ReadError),
    /// The text is too large; the field is its size in bytes.
    #[error("the procedure has {0} bytes; {LARGEST_PROCEDURE} is the most")]
    TooLarge(usize),
    /// The procedure has no steps.
    #[error("the procedure has no steps")]
    Empty,
    /// A required text is empty.
    #[error("step \"{step}\": {field} is empty")]
    EmptyField {
        /// The step.
        step: String,
        /// The key of the empty text.
        field: &'static str,
    },
    /// A text is written under something that is no tag of a language.
    #[error("step \"{step}\": {field} is written under something that is no language")]
    NoLanguage {
        /// The step; empty for the procedure itself.
        step: String,
        /// The key of the text.
        field: &'static str,
    },
    /// A step's id contains characters other than a–z, 0–9 and the underscore.
    #[error("step \"{0}\": a step's id is made of a–z, 0–9 and _")]
    BadId(String),
    /// Two steps have the same id.
    #[error("two steps are called \"{0}\"")]
    DuplicateId(String),
    /// A step of an earlier stage comes after one of a later stage.
    #[error("step \"{0}\" stands after a step of a later stage")]
    StageOutOfOrder(String),
    /// A step names a predecessor that does not exist or comes later.
    #[error("step \"{step}\" is to come after \"{after}\", which does not stand before it")]
    UnknownAfter {
        /// The step.
        step: String,
        /// The id of the predecessor.
        after: String,
    },
    /// A step records something in a form that does not exist.
    #[error("step \"{step}\": a record cannot be read: {why}")]
    BadRecord {
        /// The step.
        step: String,
        /// What is wrong with it.
        why: ReadError,
    },
    /// A record concerns a fitting, but its step has none.
    #[error("step \"{0}\" records something of a fitting but is not about one")]
    NoFitting(String),
    /// A step both repeats over fittings and names one.
    #[error("step \"{0}\" both repeats over fittings and names one")]
    TwoFittings(String),
    /// A step without a fitting has a `since` that requires one.
    #[error("step \"{0}\": its `since` is about a fitting but the step is not")]
    SinceWithoutFitting(String),
    /// A step's bad answers are not answers of the record, or are on a step whose record has none.
    #[error("step \"{0}\": `holds` names what is no answer of the record")]
    BadHolds(String),
    /// A step has sentences though the catalogues have them, or a required one is missing.
    #[error("step \"{0}\": the sentences of this procedure stand in the catalogues")]
    SentenceInCatalogues(String),
    /// A unit does not match the measured quantity.
    #[error("step \"{0}\": the unit does not fit what is measured")]
    WrongUnit(String),
    /// A step has `law_known` or `law_binds` without `law`, or a law without `law_known`.
    #[error("step \"{0}\": `law` and `law_known` belong together")]
    LawUnclear(String),
    /// The interval of a step lies outside 1 to 1,440 minutes, or is given twice.
    #[error("step \"{0}\": the interval is 1 to 1440 minutes, given once")]
    BadInterval(String),
    /// An order rule names a step that does not exist or does not repeat.
    #[error("an order rule names \"{0}\", which is not a step that repeats over lines")]
    BadOrderRule(String),
    /// Steps that one key is to record cannot be recorded so.
    #[error("steps together \"{group}\": {why}")]
    BadTogether {
        /// The id of the group.
        group: String,
        /// The id of the message that says what is wrong with it.
        why: &'static str,
    },
    /// A rule of a gate cannot be evaluated.
    #[error("gate rule \"{rule}\": {why}")]
    BadGateRule {
        /// The code of the rule's item.
        rule: String,
        /// The id of the message that says what is wrong with it.
        why: &'static str,
    },
    /// A step is to block a gate that it comes after.
    #[error("step \"{step}\" is to block a gate that is signed before it")]
    BlocksTooLate {
        /// The step.
        step: String,
        /// The gate.
        gate: Gate,
    },
    /// The text does not say which edition it starts from, or names one that is not built in here.
    #[error("`starts_from` names no edition that this version has built in")]
    UnknownStart,
    /// A text that starts from an edition has a note of its own; the note of that edition stays.
    #[error("the note above the steps stays that of the edition that the text starts from")]
    NoteOfItsOwn,
    /// A step that law asks for is missing or asks for less, and no reason is given.
    #[error("step \"{0}\" is asked for by law and left out or changed without a reason")]
    StepUnexplained(String),
    /// A rule of a gate that law asks for is missing or asks for less, and no reason is given.
    #[error("gate item \"{0}\" is asked for by law and left out or changed without a reason")]
    RuleUnexplained(String),
    /// What is left out has no reason, or names nothing or two things.
    #[error("`left_out` \"{0}\" names one step or one gate item and has a reason")]
    LeftOutUnclear(String),
    /// What is said to be left out stands in the text as it was.
    #[error("\"{0}\" is said to be left out but stands in the text")]
    LeftOutStands(String),
    /// Something without which no record can be kept is left out.
    #[error("\"{0}\" cannot be left out: no record can be kept without it")]
    Essential(String),
    /// A threshold lies outside its bounds.
    #[error("threshold \"{}\" is {} to {}", .0.word(), .0.bounds().0, .0.bounds().1)]
    OutOfBounds(Threshold),
}

/// Where a mistake stands.
enum Place<'e> {
    /// Where the reader of the form stopped.
    Form,
    /// At the last step with this id.
    Step(&'e str),
    /// At the rule with this code.
    Rule(&'e str),
    /// At what is left out under this name.
    LeftOut(&'e str),
    /// At this threshold.
    Threshold(&'e str),
    /// At this key of the text itself.
    Key(&'static str),
    /// Nowhere: something is missing.
    Nowhere,
}

/// Says why a text was not read.
fn read(why: &ReadError) -> Message {
    match why.mistake() {
        ReadMistake::Syntax => Message::new("procedure-read-syntax"),
        ReadMistake::Unknown { name, known } => message!(
            "procedure-read-unknown",
            name = Arg::typed(name),
            known = Arg::list(Joint::Comma, known.iter().map(|word| Message::typed(*word))),
        ),
        ReadMistake::Missing(name) => message!("procedure-read-missing", name = Arg::typed(*name)),
        ReadMistake::Twice(name) => message!("procedure-read-twice", name = Arg::typed(*name)),
        ReadMistake::OtherKind => Message::new("procedure-read-other-kind"),
    }
}

impl ProcedureError {
    fn place(&self) -> Place<'_> {
        use ProcedureError as E;
        match self {
            E::Unreadable(_) => Place::Form,
            E::TooLarge(_) | E::Empty => Place::Nowhere,
            E::EmptyField { step, field } | E::NoLanguage { step, field } if step.is_empty() => {
                Place::Key(field)
            }
            E::EmptyField { step, .. }
            | E::NoLanguage { step, .. }
            | E::UnknownAfter { step, .. }
            | E::BadRecord { step, .. }
            | E::BlocksTooLate { step, .. }
            | E::BadId(step)
            | E::DuplicateId(step)
            | E::StageOutOfOrder(step)
            | E::NoFitting(step)
            | E::TwoFittings(step)
            | E::SinceWithoutFitting(step)
            | E::BadHolds(step)
            | E::SentenceInCatalogues(step)
            | E::WrongUnit(step)
            | E::LawUnclear(step)
            | E::BadInterval(step)
            | E::StepUnexplained(step)
            | E::Essential(step) => Place::Step(step),
            E::BadOrderRule(_) => Place::Key("order"),
            E::BadTogether { .. } => Place::Key("together"),
            E::BadGateRule { rule, .. } => Place::Rule(rule),
            E::RuleUnexplained(rule) => Place::Rule(rule),
            E::UnknownStart => Place::Key("starts_from"),
            E::NoteOfItsOwn => Place::Key("note"),
            E::LeftOutUnclear(name) | E::LeftOutStands(name) => Place::LeftOut(name),
            E::OutOfBounds(threshold) => Place::Threshold(threshold.word()),
        }
    }

    /// Returns the line of the text on which the mistake stands, counted from 1. `None` if something is missing that
    /// would stand nowhere yet.
    pub fn line(&self, text: &str) -> Option<usize> {
        let at = match self.place() {
            Place::Form => load::form_ends_at(text)?,
            Place::Key(key) => {
                let begins = |line: &str| line.trim_start().trim_start_matches('[').starts_with(key);
                return text.lines().position(begins).map(|line| line + 1);
            }
            place => Outline::of(text)?.find(&place)?,
        };
        Some(text.get(..at)?.matches('\n').count() + 1)
    }

    /// Returns the mistake for people.
    pub fn message(&self) -> Message {
        use ProcedureError as E;
        let of = |id: &'static str, step: &str| Message::new(id).with("step", Arg::typed(step));
        match self {
            E::Unreadable(why) => message!("procedure-error-unreadable", why = read(why)),
            E::TooLarge(bytes) => {
                message!("procedure-error-too-large", bytes = *bytes, most = LARGEST_PROCEDURE)
            }
            E::Empty => Message::new("procedure-error-empty"),
            E::EmptyField { step, field } => {
                of("procedure-error-empty-field", step).with("field", Arg::typed(*field))
            }
            E::NoLanguage { step, field } => {
                of("procedure-error-no-language", step).with("field", Arg::typed(*field))
            }
            E::BadId(step) => of("procedure-error-bad-id", step),
            E::DuplicateId(step) => of("procedure-error-duplicate-id", step),
            E::StageOutOfOrder(step) => of("procedure-error-stage-order", step),
            E::UnknownAfter { step, after } => {
                of("procedure-error-unknown-after", step).with("after", Arg::typed(after))
            }
            E::BadRecord { step, why } => of("procedure-error-bad-record", step).with("why", read(why)),
            E::NoFitting(step) | E::TwoFittings(step) | E::SinceWithoutFitting(step) => {
                of("procedure-error-fitting", step)
            }
            E::BadHolds(step) => of("procedure-error-holds", step),
            E::SentenceInCatalogues(step) => of("procedure-error-sentence", step),
            E::WrongUnit(step) => of("procedure-error-unit", step),
            E::LawUnclear(step) => of("procedure-error-law", step),
            E::BadInterval(step) => of("procedure-error-interval", step),
            E::BadOrderRule(step) => of("procedure-error-order", step),
            E::BadTogether { group, why } => {
                message!("procedure-error-together", group = Arg::typed(group), why = Message::new(why))
            }
            E::BadGateRule { rule, why } => {
                message!("procedure-error-gate", rule = Arg::typed(rule), why = Message::new(why))
            }
            E::BlocksTooLate { step, gate } => {
                of("procedure-error-blocks-too-late", step).with("gate", gate.term())
            }
            E::UnknownStart => Message::new("procedure-error-unknown-start"),
            E::NoteOfItsOwn => Message::new("procedure-error-note"),
            E::StepUnexplained(step) => of("procedure-error-step-unexplained", step),
            E::RuleUnexplained(rule) => message!("procedure-error-rule-unexplained", rule = Arg::typed(rule)),
            E::LeftOutUnclear(name) => message!("procedure-error-left-out-unclear", name = Arg::typed(name)),
            E::LeftOutStands(name) => message!("procedure-error-left-out-stands", name = Arg::typed(name)),
            E::Essential(name) => message!("procedure-error-essential", name = Arg::typed(name)),
            E::OutOfBounds(threshold) => {
                let (least, most) = threshold.bounds();
                message!(
                    "procedure-error-out-of-bounds",
                    threshold = Message::term("procedure-threshold", threshold.word()),
                    least = least,
                    most = most,
                )
            }
        }
    }

    /// Returns the mistake for people with the line on which it stands.
    pub fn message_in(&self, text: &str) -> Message {
        match self.line(text) {
            Some(line) => message!("procedure-error-on-line", line = line, what = self.message()),
            None => self.message(),
        }
    }
}

/// Where the parts of a text stand.
struct Outline<'t>(Spanned<DeTable<'t>>);

impl<'t> Outline<'t> {
    fn of(text: &'t str) -> Option<Outline<'t>> {
        DeTable::parse(text).ok().map(Outline)
    }

    fn list(&self, name: &str) -> impl DoubleEndedIterator<Item = &DeTable<'t>> {
        let items = self.0.get_ref().get(name).and_then(|value| value.get_ref().as_array());
        items.into_iter().flat_map(|items| items.iter()).filter_map(|item| item.get_ref().as_table())
    }

    fn find(&self, place: &Place<'_>) -> Option<usize> {
        let text = |table: &DeTable<'t>, name: &str| {
            table.get(name).and_then(|value| value.get_ref().as_str()).unwrap_or_default().to_owned()
        };
        let start = |table: &DeTable<'t>, name: &str| table.get(name).map(|value| value.span().start);
        match place {
            Place::Form | Place::Key(_) | Place::Nowhere => None,
            Place::Step(step) => self
                .list("steps")
                .rev()
                .find(|known| text(known, "id") == *step)
                .and_then(|at| start(at, "id")),
            Place::Rule(rule) => self
                .list("gate")
                .find(|known| super::gate_rule::code(&text(known, "item"), &text(known, "of")) == *rule)
                .and_then(|found| start(found, "item")),
            Place::LeftOut(name) => {
                let found = self.list("left_out").find(|known| {
                    let named = ["step", "gate"].map(|of| known.get(of).map(|_| text(known, of)));
                    named.iter().flatten().any(|known| known == name)
                        || (name.is_empty() && named.iter().all(Option::is_none))
                })?;
                ["step", "gate", "because"].iter().find_map(|of| start(found, of))
            }
            Place::Threshold(word) => start(self.0.get_ref().get("thresholds")?.get_ref().as_table()?, word),
        }
    }
}
