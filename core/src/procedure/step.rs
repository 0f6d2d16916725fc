//! The form of a procedure: stages, steps, what each step records, and rules about their order.
//!
//! These types are plain data whose serde names are the TOML keys of `core/procedures`. Reading and checking
//! a text is in `load`, repeating steps per fitting in `expand`, and the status of steps in `view::steps`.

use serde::{Deserialize, Serialize};

use super::answer::Holds;
use super::source::{Basis, Law};
use crate::Message;
use crate::entry::vocabulary::{
    ClockEvent, ClosureState, CoverPart, EmptySign, Fitting, Measured, Part, PhotoOf, Place, Presence,
    Protection, Purpose, Receiver, SealEvent, SealPlace, TestDate, ValvePosition,
};
use crate::entry::{Slot, Statement};
use crate::units::Unit;

/// The stages of the job, in order.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Stage {
    /// Check paper, seals, protections and the car as found.
    Receive,
    /// Measure the content and check the room in the receiver.
    Gauge,
    /// Connect the lines and prove them tight.
    Connect,
    /// Transfer the liquid.
    Transfer,
    /// Recover the vapour.
    Recover,
    /// Prove that the liquid is out.
    ProveEmpty,
    /// Disconnect the lines one at a time.
    Disconnect,
    /// Read the final pressure at the car.
    FinalPressure,
    /// Close, count, pin and seal.
    Close,
    /// Release the car: paper, placards, sign, carrier.
    Release,
}

impl Stage {
    /// Every stage, in order.
    pub const ALL: [Stage; 10] = [
        Stage::Receive,
        Stage::Gauge,
        Stage::Connect,
        Stage::Transfer,
        Stage::Recover,
        Stage::ProveEmpty,
        Stage::Disconnect,
        Stage::FinalPressure,
        Stage::Close,
        Stage::Release,
    ];

    /// Returns the word as stored and as used in commands.
    pub const fn word(self) -> &'static str {
        match self {
            Stage::Receive => "receive",
            Stage::Gauge => "gauge",
            Stage::Connect => "connect",
            Stage::Transfer => "transfer",
            Stage::Recover => "recover",
            Stage::ProveEmpty => "prove_empty",
            Stage::Disconnect => "disconnect",
            Stage::FinalPressure => "final_pressure",
            Stage::Close => "close",
            Stage::Release => "release",
        }
    }

    /// Returns the word for people.
    pub fn term(self) -> Message {
        Message::term("stage", self.word())
    }

    /// Returns the word with spaces, for people.
    pub fn spoken(self) -> String {
        self.word().replace('_', " ")
    }
}

/// One thing that a step records, with enough detail for a phone to present the right form. A fitting that it
/// concerns is that of the step.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS), ts(rename = "RecordAsk"))]
#[serde(tag = "statement", rename_all = "snake_case", deny_unknown_fields)]
#[allow(missing_docs, reason = "each variant asks for the statement of the same name, with the same fields")]
pub enum Record {
    Opened {},
    CarNumberAgain {},
    Paper {},
    Clock { event: ClockEvent },
    Reading { measured: Measured, place: Place, purpose: Purpose, unit: Unit },
    Valve { position: ValvePosition },
    Closure { state: ClosureState },
    Listen {},
    Line { connected: bool },
    Effort { part: Part },
    Threads {},
    ValveFeel {},
    PlugCondition {},
    CoverCondition {},
    HosePressure {},
    NextTime {},
    ItemOut { item: String },
    ItemIn { item: String },
    Seal { event: SealEvent },
    Photo { of: PhotoOf },
    Defect {},
    Forwarded {},
    Hold {},
    Attendance { presence: Presence },
    Cover {},
    Protection { what: Protection, set: bool },
    Weather {},
    EmptySign { sign: EmptySign },
    EmptyDecision {},
    TruckLoad {},
    TankGauged {},
    RecoveryPlanned {},
    Inspection {},
    Check { what: String },
    CarFittings {},
    CarCapacity {},
    CarDiameter {},
    OutageTable {},
    CarTestDate { test: TestDate },
    Incident {},
    Leak {},
    CarLeft {},
    CarMoved {},
    Outcome {},
    FitToUnload {},
    LastRound {},
    Released {},
}

impl Record {
    /// Returns true if the record concerns a fitting.
    pub fn needs_fitting(&self) -> bool {
        matches!(
            self,
            Record::Valve { .. }
                | Record::Closure { .. }
                | Record::Listen {}
                | Record::Line { .. }
                | Record::Effort { .. }
                | Record::Threads {}
                | Record::ValveFeel {}
                | Record::PlugCondition {}
                | Record::HosePressure {}
        )
    }

    /// Returns true if the record makes sense at `fitting`. A fitting without a valve, for example, has none
    /// to shut or listen to.
    pub fn fits(&self, fitting: Fitting) -> bool {
        match self {
            Record::Valve { .. } | Record::Listen {} | Record::ValveFeel {} => fitting.has_valve(),
            Record::Effort { part: Part::Valve } => fitting.has_valve(),
            Record::Line { .. } | Record::HosePressure {} => fitting.is_line(),
            _ => true,
        }
    }

    /// Returns the slots of the statements that satisfy the record. The list is empty for kinds whose slot
    /// contains a random id, and if a required fitting is missing.
    pub fn slots(&self, fitting: Option<Fitting>) -> Vec<Slot> {
        let at = |slot: fn(Fitting) -> Slot| fitting.map(slot).into_iter().collect();
        match self {
            Record::Opened {} => vec![Slot::OPENED],
            Record::CarNumberAgain {} => vec![Slot::CAR_NUMBER_AGAIN],
            Record::Paper {} => vec![Slot::PAPER],
            Record::Clock { event } => vec![Slot::clock(*event)],
            Record::Reading { measured, place, purpose, .. } => {
                vec![Slot::reading(*purpose, *measured, *place)]
            }
            Record::Valve { .. } => at(Slot::valve),
            Record::Closure { .. } => at(Slot::closure),
            Record::Listen {} => at(Slot::listen),
            Record::Line { .. } => at(Slot::line),
            Record::Effort { part } => {
                fitting.map(|fitting| Slot::effort(fitting, *part)).into_iter().collect()
            }
            Record::Threads {} => at(Slot::threads),
            Record::ValveFeel {} => at(Slot::feel),
            Record::PlugCondition {} => at(Slot::plug),
            Record::HosePressure {} => at(Slot::hose_pressure),
            Record::CoverCondition {} => CoverPart::ALL.iter().map(|part| Slot::cover_part(*part)).collect(),
            Record::ItemOut { item } | Record::ItemIn { item } => vec![Slot::item(item)],
            Record::Seal { event: SealEvent::Found } => {
                SealPlace::ALL.iter().map(|place| Slot::seal_found(*place)).collect()
            }
            Record::Seal { .. } => SealPlace::ALL.iter().map(|place| Slot::seal(*place)).collect(),
            Record::Photo { .. } => vec![Slot::PHOTOS],
            Record::Defect {}
            | Record::Forwarded {}
            | Record::Hold {}
            | Record::Incident {}
            | Record::Leak {}
            | Record::NextTime {} => Vec::new(),
            Record::CarLeft {} => vec![Slot::CAR_LEFT],
            Record::CarMoved {} => vec![Slot::CAR_MOVED],
            Record::Outcome {} => vec![Slot::OUTCOME],
            Record::Attendance { .. } => vec![Slot::ATTENDANCE],
            Record::Cover {} => vec![Slot::COVER],
            Record::Protection { what, .. } => vec![Slot::protection(*what)],
            Record::Weather {} => vec![Slot::WEATHER],
            Record::EmptySign { sign } => vec![Slot::empty_sign(*sign)],
            Record::EmptyDecision {} => vec![Slot::EMPTY_DECISION],
            Record::TruckLoad {} => vec![Slot::TRUCK_LOADS],
            Record::TankGauged {} => vec![Slot::TANKS_GAUGED],
            Record::RecoveryPlanned {} => vec![Slot::RECOVERY_PLANNED],
            Record::Inspection {} => vec![Slot::INSPECTIONS],
            Record::Check { what } => vec![Slot::check(what)],
            Record::CarFittings {} => vec![Slot::CAR_FITTINGS],
            Record::CarCapacity {} => vec![Slot::CAR_CAPACITY],
            Record::CarDiameter {} => vec![Slot::CAR_DIAMETER],
            Record::OutageTable {} => vec![Slot::OUTAGE_TABLE],
            Record::CarTestDate { test } => vec![Slot::car_test(*test)],
            Record::FitToUnload {} => vec![Slot::FIT_TO_UNLOAD],
            Record::LastRound {} => vec![Slot::LAST_ROUND],
            Record::Released {} => vec![Slot::RELEASED],
        }
    }

    /// Returns true if a statement found in one of [`Record::slots`] satisfies the record.
    pub fn is_met_by(&self, says: &Statement) -> bool {
        match (self, says) {
            (Record::Valve { position: asked }, Statement::Valve { position, .. }) => asked == position,
            (Record::Closure { state: asked }, Statement::Closure { state, .. }) => asked == state,
            (Record::Line { connected: asked }, Statement::Line { connected, .. }) => asked == connected,
            (Record::ItemOut { .. }, Statement::ItemOut { .. })
            | (Record::ItemIn { .. }, Statement::ItemIn { .. }) => true,
            (Record::Seal { event: asked }, Statement::Seal(seal)) => *asked == seal.event,
            (Record::Photo { of: asked }, Statement::Photo { of, .. }) => asked == of,
            (Record::Attendance { presence: asked }, Statement::Attendance { presence }) => asked == presence,
            (Record::Protection { set: asked, .. }, Statement::Protection { set, .. }) => asked == set,
            (Record::ItemOut { .. } | Record::ItemIn { .. }, _) => false,
            (_, Statement::Unrecognised { .. }) => false,
            // Every other kind has a slot of its own, and any statement in it satisfies the step.
            _ => true,
        }
    }

    /// Returns the record with `{fitting}` in an item's name replaced.
    pub fn named_for(&self, fitting: Option<Fitting>) -> Record {
        let fill = |item: &String| match fitting {
            Some(fitting) => item.replace("{fitting}", &fitting.spoken()),
            None => item.clone(),
        };
        match self {
            Record::ItemOut { item } => Record::ItemOut { item: fill(item) },
            Record::ItemIn { item } => Record::ItemIn { item: fill(item) },
            other => other.clone(),
        }
    }
}

/// The fittings over which a step repeats.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum ForEach {
    /// Every fitting that can carry a transfer line.
    Lines,
    /// The liquid fittings among them.
    LiquidLines,
    /// The small openings: gauging device, thermometer well, sample line.
    Openings,
    /// Every fitting of the car, lines and small openings, in the order in which a hand goes round.
    Fittings,
}

impl ForEach {
    /// Returns true if the step is repeated at `fitting`.
    pub fn includes(self, fitting: Fitting) -> bool {
        match self {
            ForEach::Lines => fitting.is_line(),
            ForEach::LiquidLines => fitting.is_liquid(),
            ForEach::Openings => !fitting.is_line() && fitting != Fitting::ReliefDevice,
            ForEach::Fittings => fitting != Fitting::ReliefDevice,
        }
    }
}

/// The event after which a statement must come to count for a step. Without it, a valve found shut on arrival
/// would count as the valve shut after the transfer.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Since {
    /// The last connection of the line to this fitting.
    Connected,
    /// The last time the valve of this fitting was shut with the line on.
    Shut,
    /// The last removal of the line from this fitting.
    LineOff,
    /// The removal of the last line of the car. As long as a line is on, or none was, it has not happened.
    LastLineOff,
    /// The last decision that the car is empty of liquid.
    EmptyDecision,
    /// The last time the car was moved, or left with nobody at it. As long as it was not, everything counts.
    MovedOrLeft,
    /// The last time the valve of this fitting was opened with the line on; if it was not, the connection of the line.
    Opened,
    /// The last removal of the line from this fitting, or of any line for a step of no fitting, while nobody had taken
    /// the car as empty of liquid: the transfer goes on later. As long as there was none, everything counts.
    OffBeforeEmpty,
}

impl Since {
    /// Returns true if everything counts as long as the event never came.
    pub fn may_never_come(self) -> bool {
        matches!(self, Since::MovedOrLeft | Since::OffBeforeEmpty)
    }
}

/// What a step is about. What belongs to the track is done once for all cars on it, a day.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum StepOf {
    /// The car.
    #[default]
    Car,
    /// The track on which it stands.
    Track,
}

/// How a car goes away, as far as steps and rules depend on it. Until somebody says otherwise it goes as residue.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Leaving {
    /// Unloaded as far as practicable.
    Residue,
    /// With its load or a part of it.
    Loaded,
}

/// One step as it stands in the text.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Step {
    /// The stable id in snake_case.
    pub id: String,
    /// The stage of the job.
    pub stage: Stage,
    /// A title of a few words.
    pub title: Message,
    /// The instruction, in a sentence or two.
    pub what_to_do: Message,
    /// The reason for the step.
    pub why: Message,
    /// The laws behind the step.
    pub laws: Vec<Law>,
    /// The dangers at this step.
    pub cautions: Vec<Message>,
    /// What the step records. If this is empty, the step is only acknowledged as done or skipped with a
    /// reason.
    pub records: Vec<Record>,
    /// What the step may record in addition.
    pub may_record: Vec<Record>,
    /// The answers that hold the job.
    pub holds: Vec<Holds>,
    /// What to do while an answer holds the job.
    pub what_now: Option<Message>,
    /// What can be recorded while an answer holds the job.
    pub now: Vec<Record>,
    /// The fittings over which the step repeats.
    pub for_each: Option<ForEach>,
    /// The fitting that a step concerns which does not repeat.
    pub fitting: Option<Fitting>,
    /// The only kind of receiver to which the step applies.
    pub only_for: Option<Receiver>,
    /// The only way of going away for which the step applies.
    pub leaves: Option<Leaving>,
    /// The event after which a statement must come to count.
    pub since: Option<Since>,
    /// Whether it is about the car or about the track.
    pub of: StepOf,
    /// Whether a leak that was found, at the step's fitting or at none, holds the job here until it was checked tight.
    pub leaks_hold: bool,
    /// Whether answers count, and hold the job, only until a line is put on this fitting: what is found on arrival is
    /// not what is done later.
    pub as_found: bool,
    /// The ids of steps that come before this one.
    pub after: Vec<String>,
    /// The interval of repetition, in minutes.
    pub repeat_minutes: Option<u32>,
    /// Whether the job is complete without the step.
    pub optional: bool,
}

impl Step {
    /// Returns who asks for the step, given the receiver.
    pub fn basis(&self, receiver: Option<Receiver>) -> Basis {
        Basis::of_laws(&self.laws, receiver)
    }
}

/// A rule about the order of repeated steps.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(tag = "rule", rename_all = "snake_case", deny_unknown_fields)]
pub enum OrderRule {
    /// Between the steps `from` and `to` at one fitting, no other fitting may reach `from`.
    OneAtATime {
        /// The step at which the dangerous period begins.
        from: String,
        /// The step at which it ends.
        to: String,
    },
    /// The step must be done at every liquid fitting before it is done at a vapour fitting.
    VapourLast {
        /// The id of the step.
        step: String,
        /// Whether another order is only noted, because a site may choose it.
        #[serde(default)]
        note: bool,
    },
}

/// A procedure, identified by the digest of its text.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Procedure {
    /// The SHA-256 of the text.
    pub digest: crate::ids::Digest,
    /// The id, which all editions share.
    pub id: String,
    /// The edition.
    pub edition: String,
    /// The built-in edition that an organisation's own text starts from.
    pub starts_from: Option<crate::ids::Digest>,
    /// Whether its sentences stand in the catalogues instead of its text.
    pub in_catalogues: bool,
    /// Its title.
    pub title: Message,
    /// A note that is always shown above the steps.
    pub note: Message,
    /// Whether a step that was recorded as not right holds the job.
    pub not_right_holds: bool,
    /// The steps in order.
    pub steps: Vec<Step>,
    /// The rules about the order of repeated steps.
    pub order: Vec<OrderRule>,
    /// The steps that one key records.
    pub together: Vec<super::together::Together>,
    /// The rules of the gates, in the order in which their items are listed.
    pub gates: Vec<super::gate_rule::GateRule>,
    /// The numbers that it sets.
    pub thresholds: super::thresholds::Thresholds,
    /// What it leaves out of the edition that it starts from, with the reasons.
    pub left_out: Vec<super::left_out::LeftOut>,
}
