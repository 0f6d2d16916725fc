//! The form of a procedure: stages, steps, what each step records, and rules about their order.
//!
//! These types are plain data whose serde names are the TOML keys of `core/procedures`. Reading and checking
//! a text is in `load`, repeating steps per fitting in `expand`, and the status of steps in `view::steps`.

use serde::{Deserialize, Serialize};

use super::source::{Basis, Source};
use crate::entry::vocabulary::{
    ClockEvent, ClosureState, EmptySign, Fitting, Measured, Part, PhotoOf, Place, Presence, Protection,
    Purpose, Receiver, SealEvent, SealPlace, TestDate, ValvePosition,
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
    Check { what: String },
    CarFittings {},
    CarCapacity {},
    CarDiameter {},
    OutageTable {},
    CarTestDate { test: TestDate },
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
        )
    }

    /// Returns true if the record makes sense at `fitting`. A fitting without a valve, for example, has none
    /// to shut or listen to.
    pub fn fits(&self, fitting: Fitting) -> bool {
        match self {
            Record::Valve { .. } | Record::Listen {} => fitting.has_valve(),
            Record::Effort { part: Part::Valve } => fitting.has_valve(),
            Record::Line { .. } => fitting.is_line(),
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
            Record::ItemOut { item } | Record::ItemIn { item } => vec![Slot::item(item)],
            Record::Seal { event: SealEvent::Found } => {
                SealPlace::ALL.iter().map(|place| Slot::seal_found(*place)).collect()
            }
            Record::Seal { .. } => SealPlace::ALL.iter().map(|place| Slot::seal(*place)).collect(),
            Record::Photo { .. } => vec![Slot::PHOTOS],
            Record::Defect {} | Record::Forwarded {} | Record::Hold {} => Vec::new(),
            Record::Attendance { .. } => vec![Slot::ATTENDANCE],
            Record::Cover {} => vec![Slot::COVER],
            Record::Protection { what, .. } => vec![Slot::protection(*what)],
            Record::Weather {} => vec![Slot::WEATHER],
            Record::EmptySign { sign } => vec![Slot::empty_sign(*sign)],
            Record::EmptyDecision {} => vec![Slot::EMPTY_DECISION],
            Record::TruckLoad {} => vec![Slot::TRUCK_LOADS],
            Record::Check { what } => vec![Slot::check(what)],
            Record::CarFittings {} => vec![Slot::CAR_FITTINGS],
            Record::CarCapacity {} => vec![Slot::CAR_CAPACITY],
            Record::CarDiameter {} => vec![Slot::CAR_DIAMETER],
            Record::OutageTable {} => vec![Slot::OUTAGE_TABLE],
            Record::CarTestDate { test } => vec![Slot::car_test(*test)],
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
}

impl ForEach {
    /// Returns true if the step is repeated at `fitting`.
    pub fn includes(self, fitting: Fitting) -> bool {
        match self {
            ForEach::Lines => fitting.is_line(),
            ForEach::LiquidLines => fitting.is_liquid(),
            ForEach::Openings => !fitting.is_line() && fitting != Fitting::ReliefDevice,
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
    /// The last decision that the car is empty of liquid.
    EmptyDecision,
}

/// One step as it stands in the text.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Step {
    /// The stable id in snake_case.
    pub id: String,
    /// The stage of the job.
    pub stage: Stage,
    /// A title of a few words.
    pub title: String,
    /// The instruction, in a sentence or two.
    pub what_to_do: String,
    /// The reason for the step.
    pub why: String,
    /// The law behind the step, if there is one.
    pub law: Option<Source>,
    /// The kind of receiver to which the law applies, if it does not apply to both.
    pub law_binds: Option<Receiver>,
    /// The dangers at this step.
    pub cautions: Vec<String>,
    /// What the step records. If this is empty, the step is only acknowledged as done or skipped with a
    /// reason.
    pub records: Vec<Record>,
    /// What the step may record in addition.
    pub may_record: Vec<Record>,
    /// The fittings over which the step repeats.
    pub for_each: Option<ForEach>,
    /// The fitting that a step concerns which does not repeat.
    pub fitting: Option<Fitting>,
    /// The only kind of receiver to which the step applies.
    pub only_for: Option<Receiver>,
    /// The event after which a statement must come to count.
    pub since: Option<Since>,
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
        match (&self.law, self.law_binds) {
            (None, _) => Basis::practice(),
            (Some(law), None) => Basis::law(law.clone()),
            (Some(law), Some(Receiver::FixedTank)) => match receiver {
                Some(Receiver::Truck) => Basis::practice(),
                _ => Basis::law(law.clone()),
            },
            (Some(law), Some(Receiver::Truck)) => Basis::transloading(law.clone(), receiver),
        }
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
    /// Its title.
    pub title: String,
    /// A note that is always shown above the steps.
    pub note: String,
    /// The steps in order.
    pub steps: Vec<Step>,
    /// The rules about the order of repeated steps.
    pub order: Vec<OrderRule>,
}
