//! The rules of the gates as data: what must have been recorded before a stay is fit to unload, and before the
//! car is fit to release.
//!
//! A rule is a `[[gate]]` table in the text of a procedure. It says at which gate it is asked (`gate`), under which
//! code its item is listed (`item`), what is asked (`record`, `condition` or `step`), which sentence is shown
//! while that is missing (`say`), and who asks (`law`, `law_known`, `law_binds`, or `because`; without them it is
//! common practice). `core/procedures/GATES.md` lists the vocabulary with examples. This module holds the types
//! whose serde names are the TOML keys, and the checks of a text. What stands in a record is decided in
//! `view::gate`, with one evaluator for each word of this vocabulary; no rule exists there that no text names.

use std::fmt;

use serde::{Deserialize, Serialize};

use super::load::{LawKnown, LawText, Sentences, laws};
use super::mistake::ProcedureError;
use super::source::{Basis, Law};
use super::step::{Leaving, Record, Step};
use crate::Message;
use crate::entry::vocabulary::{Fitting, Gate, Receiver, words};
use crate::units::Unit;

words!(
    /// What is missing. The words begin the codes of items, and are frozen with them.
    BlockerKind as "blocker_kind" {
        /// A line was not recorded as taken off.
        LineConnected = "line_connected",
        /// A valve is not recorded shut.
        ValveNotShut = "valve_not_shut",
        /// Nobody listened since a valve was shut.
        ListenMissing = "listen_missing",
        /// Something passes.
        HissHeard = "hiss_heard",
        /// A closure is not tool-tight.
        ClosureNotToolTight = "closure_not_tool_tight",
        /// Too few threads are engaged, and it was not reported up.
        ThreadsOneOrLess = "threads_one_or_less",
        /// Entries cannot be read.
        UnreadableEntries = "unreadable_entries",
        /// The entry that opened the visit is not here.
        NotOpened = "not_opened",
        /// Nobody accepted that the car is empty of liquid.
        EmptyNotAccepted = "empty_not_accepted",
        /// A sign of liquid speaks against that.
        EmptyContradicted = "empty_contradicted",
        /// The final pressure was not read at the car.
        FinalPressureMissing = "final_pressure_missing",
        /// The final pressure was read too early, or on a gauge that cannot show it.
        FinalPressureDoubtful = "final_pressure_doubtful",
        /// Something that was taken out is not back.
        ItemOut = "item_out",
        /// The housing cover is not closed.
        CoverNotClosed = "cover_not_closed",
        /// Its pin is not in.
        CoverNotPinned = "cover_not_pinned",
        /// Its bolts are not all in place.
        CoverBolts = "cover_bolts",
        /// Something about a seal was not recorded.
        SealIncomplete = "seal_incomplete",
        /// No seal was put on.
        SealMissing = "seal_missing",
        /// The blue sign came down too early.
        BlueSignDownEarly = "blue_sign_down_early",
        /// A hold stands.
        HoldOpen = "hold_open",
        /// Two accounts differ.
        Disagreement = "disagreement",
        /// An approval is missing.
        AuthorityMissing = "authority_missing",
        /// An alarm was not answered.
        Alarm = "alarm",
        /// A figure calls for a look.
        Doubt = "doubt",
        /// The car number was read once only, without a photograph.
        NumberNotChecked = "number_not_checked",
        /// The shipping paper was not compared with the car.
        PaperNotCompared = "paper_not_compared",
        /// The product is not one that is taken here.
        ProductNotTaken = "product_not_taken",
        /// A protection is not recorded as set.
        ProtectionNotSet = "protection_not_set",
        /// A protection was recorded out of order.
        ProtectionOutOfOrder = "protection_out_of_order",
        /// Something that is looked at on arrival was not recorded.
        NotRecordedAsFound = "not_recorded_as_found",
        /// A check was not made, or not since it could have changed.
        CheckMissing = "check_missing",
        /// A check was recorded not right.
        CheckNotRight = "check_not_right",
        /// A step that the procedure marks as blocking was not done.
        StepOpen = "step_open",
        /// A step was recorded not right.
        StepNotRight = "step_not_right",
        /// A reading is missing.
        ReadingMissing = "reading_missing",
        /// A photograph is missing.
        PhotoMissing = "photo_missing",
        /// Closures were not gone over once more after the last work on the car.
        LastRoundMissing = "last_round_missing",
        /// A line was on while the blue sign was not up.
        SignDownWhileConnected = "sign_down_while_connected",
        /// An incident was not closed.
        IncidentOpen = "incident_open",
        /// A leak was not checked tight.
        LeakOpen = "leak_open",
        /// How the car goes away lacks a reason.
        OutcomeUnexplained = "outcome_unexplained",
    }
);

/// The fittings over which a rule repeats. Neighbouring rules that repeat are gone through fitting by fitting.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Each {
    /// Every valve and opening that must be closed before release.
    Fitting,
    /// Those with a valve of their own.
    Valve,
    /// Those that carry a transfer line.
    Line,
}

impl Each {
    /// Returns true if the rule is asked at `fitting`.
    pub fn includes(self, fitting: Fitting) -> bool {
        match self {
            Each::Fitting => true,
            Each::Valve => fitting.has_valve(),
            Each::Line => fitting.is_line(),
        }
    }
}

/// How the entries of a record's slot must stand to one another.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Must {
    /// There is an entry that stands, and every one that stands says so.
    #[default]
    Stand,
    /// Whatever stands says so; nothing needs to.
    NotDiffer,
    /// Nothing that stands says so.
    NotStand,
    /// It was said at some time and nobody called it wrong, whatever came after.
    HaveStood,
}

/// The event after which an entry must have been made to count. Nothing that was entered on arrival satisfies a
/// rule that names an event of the departure. An event that never came asks nothing.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Event {
    /// The valve of the same fitting was last shut.
    Shut,
    /// The last line came off, at any fitting.
    LastLineOff,
    /// The decision that the car is empty of liquid.
    EmptyDecision,
    /// The last thing that could have disturbed a closure: gauging, sampling, a line put on or taken off.
    Disturbed,
    /// The last time the car was moved, or left with nobody at it.
    MovedOrLeft,
}

/// What a reading must be in addition to being made.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Quality {
    /// It has a number.
    Number,
    /// It names its instrument.
    Instrument,
    /// It lies within the scale of its instrument, where the site's list says that scale.
    WithinScale,
}

/// Conditions that look at more than the entries of one slot.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Condition {
    /// Every entry can be read.
    AllReadable,
    /// Somebody accepted that the car is empty of liquid.
    EmptyAccepted,
    /// Nothing was heard leaking by at this fitting.
    NoLeakHeard,
    /// Somebody listened since the valve of this fitting was last shut, if anybody shut it.
    ListenedSinceShut,
    /// A closure with one thread or less engaged is a defect, photographed and reported.
    ThreadsReported,
    /// No sign of liquid came after the decision that the car is empty.
    NoLiquidSinceDecision,
    /// No sign of liquid stands, before or after that decision.
    NoLiquidSign,
    /// The final pressure was not only read at other places.
    FinalPressureAtCar,
    /// The span of the gauge for the final pressure is known and at most this, where the site lists its gauges.
    FinalPressureSpan {
        /// The largest span that fits.
        most: f64,
        /// Its unit.
        unit: Unit,
    },
    /// What was taken out is back.
    ItemsReturned,
    /// The cover was closed after the last work under it.
    CoverAfterWork,
    /// The cover is closed.
    CoverClosed,
    /// The cover's pin is in.
    CoverPinned,
    /// The cover's bolts are all in place.
    CoverBolted,
    /// What was recorded of each seal that was put on is whole.
    SealsComplete,
    /// A seal was put on, or its step was skipped with a reason.
    SealedOrExplained,
    /// The blue sign did not come down before every closure was secured.
    SignUpUntilClosed,
    /// The blue sign was up whenever a line was on.
    SignUpWhileConnected,
    /// No hold stands.
    HoldsLifted,
    /// No entries of one slot differ.
    EntriesAgree,
    /// Every defect that needs an approval has one.
    ApprovalsGiven,
    /// Every alarm was answered.
    AlarmsAnswered,
    /// No alarm of this code stands.
    NoAlarm(String),
    /// No finding with one of these codes stands.
    NoFinding(Vec<String>),
    /// No check was recorded not right.
    ChecksRight,
    /// No step was recorded not right, protections apart.
    StepsRight,
    /// No step of a protection was recorded not right.
    ProtectionsInOrder,
    /// The shipping paper names a car number to compare with.
    PaperNamesCar,
    /// The identification number on the paper is one of these.
    ProductOneOf(Vec<String>),
    /// Every fitting was recorded as found.
    FittingsFound,
    /// Every closure and valve was gone over since the last thing that could have disturbed it.
    LastRound,
    /// No incident is open.
    IncidentsClosed,
    /// Every leak that was found was checked tight.
    LeaksTight,
    /// What protects track and car was recorded again since the car was moved or left, if a line was on since.
    ProtectedSinceMoved,
    /// How the car goes away is explained: bad order by a defect, refused or diverted by a reason.
    OutcomeExplained,
    /// Unloading did not begin before somebody signed that the stay was fit to unload.
    ClearedBeforeUnloading,
}

impl Condition {
    /// Returns true if the condition is about one fitting and needs `each`.
    pub fn needs_fitting(&self) -> bool {
        matches!(self, Condition::ListenedSinceShut | Condition::ThreadsReported | Condition::NoLeakHeard)
    }
}

/// A sentence for one case: shown while the latest entry of the slot says `record`.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SayIf {
    /// What the latest entry says.
    pub record: Record,
    /// The sentence.
    pub say: String,
}

/// What a rule asks.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub enum Asked {
    /// A record, made in one of these forms.
    Record {
        /// The forms of the record; any of them will do.
        any_of: Vec<Record>,
        /// How the entries must stand to one another.
        must: Must,
        /// The event after which it must have been made.
        since: Option<Event>,
        /// What a reading must be in addition.
        with: Vec<Quality>,
    },
    /// A condition that looks at more than one slot.
    Condition(Condition),
    /// A step of the procedure, which must be closed: done, recorded, or skipped with a reason.
    Step(String),
}

/// Who asks for a rule.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub enum AskedFor {
    /// Common practice, no source.
    Practice,
    /// The record itself, for this reason (an id of the catalogues, or a text of the owner).
    ThisRecord(String),
    /// Laws, each with whom it binds.
    Law(Vec<Law>),
}

/// One rule of a gate.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct GateRule {
    /// The gates at which it is asked.
    pub gates: Vec<Gate>,
    /// The kind of its item, which begins the item's code.
    pub item: BlockerKind,
    /// What stands in the code after the kind, for rules that do not find that out themselves.
    pub of: String,
    /// The fittings over which it repeats.
    pub each: Option<Each>,
    /// The only kind of receiver at which it is asked.
    pub only_for: Option<Receiver>,
    /// The only way of going away at which it is asked.
    pub leaves: Option<Leaving>,
    /// What is asked.
    pub asked: Asked,
    /// The sentence while it is missing: an id of the catalogues (`gate-…`), or a text of the owner.
    pub say: String,
    /// The sentence while nothing is recorded at all, if it is another.
    pub say_none: Option<String>,
    /// The sentences for what is recorded instead.
    pub say_if: Vec<SayIf>,
    /// Who asks.
    pub asked_for: AskedFor,
}

/// Returns a sentence of a text: the message with this id, or the owner's own words.
pub fn sentence(say: &str) -> Message {
    let plain = say.bytes().all(|b| b.is_ascii_lowercase() || b.is_ascii_digit() || matches!(b, b'-' | b'_'));
    let is_id = plain && ["gate-", "finding-", "basis-"].iter().any(|topic| say.starts_with(topic));
    if is_id { Message::named(say.to_owned()) } else { Message::typed(say) }
}

impl GateRule {
    /// Returns the code of its item, without the fitting.
    pub fn code(&self) -> String {
        code(self.item.word(), &self.of)
    }

    /// Returns true if no record can be kept without it: what the record itself needs, and open holds.
    pub fn is_essential(&self) -> bool {
        matches!(self.asked_for, AskedFor::ThisRecord(_)) || self.item == BlockerKind::HoldOpen
    }

    /// Returns the laws that ask for it.
    pub fn laws(&self) -> &[Law] {
        match &self.asked_for {
            AskedFor::Law(laws) => laws,
            AskedFor::Practice | AskedFor::ThisRecord(_) => &[],
        }
    }

    /// Returns who asks for the rule and on what ground, given the receiver.
    pub fn basis(&self, receiver: Option<Receiver>) -> Basis {
        match &self.asked_for {
            AskedFor::Practice => Basis::practice(),
            AskedFor::ThisRecord(why) => Basis::this_record(sentence(why)),
            AskedFor::Law(laws) => Basis::of_laws(laws, receiver),
        }
    }
}

/// Returns the code of a rule's item: its kind, and what stands behind the dot.
pub fn code(item: &str, of: &str) -> String {
    if of.is_empty() { item.to_owned() } else { format!("{item}.{of}") }
}

/// One form of a record, or several.
#[derive(Deserialize)]
#[serde(untagged)]
enum OneOrMore {
    One(Record),
    More(Vec<Record>),
}

/// A rule as it stands in the text.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct RuleText {
    gate: Vec<Gate>,
    item: BlockerKind,
    #[serde(default)]
    of: String,
    each: Option<Each>,
    only_for: Option<Receiver>,
    leaves: Option<Leaving>,
    record: Option<OneOrMore>,
    #[serde(default)]
    must: Must,
    since: Option<Event>,
    #[serde(default)]
    with: Vec<Quality>,
    condition: Option<Condition>,
    step: Option<String>,
    say: String,
    say_none: Option<String>,
    #[serde(default)]
    say_if: Vec<SayIf>,
    law: Option<LawText>,
    law_known: Option<LawKnown>,
    law_binds: Option<Receiver>,
    because: Option<String>,
}

pub(super) fn rule(
    text: RuleText,
    steps: &[Step],
    sentences: &Sentences,
) -> Result<GateRule, ProcedureError> {
    let name = code(text.item.word(), &text.of);
    let wrong = |why: &'static str| Err(ProcedureError::BadGateRule { rule: name.clone(), why });
    let about_fitting = text.each.is_some();
    let asked = match (text.record, text.condition, text.step) {
        (Some(record), None, None) => Asked::Record {
            any_of: match record {
                OneOrMore::One(record) => vec![record],
                OneOrMore::More(records) => records,
            },
            must: text.must,
            since: text.since,
            with: text.with,
        },
        (None, Some(condition), None) => Asked::Condition(condition),
        (None, None, Some(step)) => Asked::Step(step),
        _ => return wrong("procedure-gate-mistake-one-of-three"),
    };
    match &asked {
        Asked::Record { any_of, since, .. } => {
            if any_of.is_empty() {
                return wrong("procedure-gate-mistake-no-record");
            }
            if !about_fitting && any_of.iter().any(Record::needs_fitting) {
                return wrong("procedure-gate-mistake-record-of-fitting");
            }
            if !about_fitting && *since == Some(Event::Shut) {
                return wrong("procedure-gate-mistake-event-of-fitting");
            }
            if any_of.iter().any(|record| record.slots(Some(Fitting::LiquidA)).is_empty()) {
                return wrong("procedure-gate-mistake-no-slot");
            }
        }
        Asked::Condition(condition) if condition.needs_fitting() != about_fitting => {
            return wrong("procedure-gate-mistake-condition-each");
        }
        Asked::Step(step) if !steps.iter().any(|known| known.id == *step) => {
            return wrong("procedure-gate-mistake-unknown-step");
        }
        _ => {}
    }
    if text.gate.is_empty() {
        return wrong("procedure-gate-mistake-no-gate");
    }
    let said =
        std::iter::once(&text.say).chain(&text.say_none).chain(text.say_if.iter().map(|case| &case.say));
    if said.clone().any(|say| say.trim().is_empty()) {
        return wrong("procedure-gate-mistake-empty-sentence");
    }
    let Some(mut laws) = laws(text.law, text.law_known, text.law_binds, sentences) else {
        return wrong("procedure-gate-mistake-law-unclear");
    };
    // A citation may be the id of a sentence that contains one.
    for law in &mut laws {
        if let Some(cites) = law.source.cites.as_typed().filter(|cites| cites.starts_with("basis-")) {
            law.source.cites = sentence(cites);
        }
    }
    let asked_for = match (laws.is_empty(), text.because) {
        (false, None) => AskedFor::Law(laws),
        (true, Some(why)) => AskedFor::ThisRecord(why),
        (true, None) => AskedFor::Practice,
        (false, Some(_)) => return wrong("procedure-gate-mistake-law-and-because"),
    };
    Ok(GateRule {
        gates: text.gate,
        item: text.item,
        of: text.of,
        each: text.each,
        only_for: text.only_for,
        leaves: text.leaves,
        asked,
        say: text.say,
        say_none: text.say_none,
        say_if: text.say_if,
        asked_for,
    })
}
