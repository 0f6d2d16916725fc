//! The shape of a procedure: stages, steps, what each records and what must come before what.
//!
//! Plain data with serde names that are the TOML keys of `core/procedures`. Reading and checking a
//! text is `load`; repeating steps per fitting is `expand`; whether a step was done is `view::steps`.

use serde::{Deserialize, Serialize};

use super::source::{Basis, Source};
use crate::entry::vocabulary::{
    ClockEvent, ClosureState, EmptySign, Fitting, Measured, Part, PhotoOf, Place, Presence, Protection,
    Purpose, Receiver, SealEvent, SealPlace, TestDate, ValvePosition,
};
use crate::entry::{Slot, Statement};
use crate::units::Unit;

/// The parts of the job, in order.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Stage {
    /// Paper, seals, protections, the car as found.
    Receive,
    /// How much is in it, and is there room.
    Gauge,
    /// Lines on and proved tight.
    Connect,
    /// Liquid moves.
    Transfer,
    /// Vapour is drawn down.
    Recover,
    /// Is the liquid out?
    ProveEmpty,
    /// Lines off, one at a time.
    Disconnect,
    /// The last pressure, at the car.
    FinalPressure,
    /// Closed, counted, pinned, sealed.
    Close,
    /// Paper, placards, sign, carrier.
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

    /// The word as stored and as used in commands.
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

    /// The word with spaces, for people.
    pub fn spoken(self) -> String {
        self.word().replace('_', " ")
    }
}

/// One thing a step records: enough for a phone to present the right form. Where it speaks of a
/// fitting, the fitting is the step's.
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
    /// Whether it speaks of a fitting.
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

    /// Whether it makes sense at `fitting`: an opening without a valve has none to shut or to hear.
    pub fn fits(&self, fitting: Fitting) -> bool {
        match self {
            Record::Valve { .. } | Record::Listen {} => fitting.has_valve(),
            Record::Effort { part: Part::Valve } => fitting.has_valve(),
            Record::Line { .. } => fitting.is_line(),
            _ => true,
        }
    }

    /// The slots in which such a statement stands. Empty for kinds whose slot carries a random id, and without the
    /// fitting it speaks of.
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

    /// Whether a statement found in one of [`Record::slots`] is what is asked for.
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
            // Every other kind has a slot of its own, and whatever was said there answers the step.
            _ => true,
        }
    }

    /// With `{fitting}` in an item's name filled in.
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

/// Over which fittings a step repeats.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum ForEach {
    /// Every fitting that can carry a transfer line.
    Lines,
    /// The liquid ones among them.
    LiquidLines,
    /// The small openings: gauging device, thermometer well, sample line.
    Openings,
}

impl ForEach {
    /// Whether the step is repeated at `fitting`.
    pub fn includes(self, fitting: Fitting) -> bool {
        match self {
            ForEach::Lines => fitting.is_line(),
            ForEach::LiquidLines => fitting.is_liquid(),
            ForEach::Openings => !fitting.is_line() && fitting != Fitting::ReliefDevice,
        }
    }
}

/// What must have happened before a record counts for a step. Without it, a valve found shut on
/// arrival would pass for the valve shut after the transfer.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Since {
    /// The line was last put on this fitting.
    Connected,
    /// The valve of this fitting was last shut with the line on.
    Shut,
    /// The line was last taken off this fitting.
    LineOff,
    /// The car was last taken as empty of liquid.
    EmptyDecision,
}

/// One step as it stands in the text.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Step {
    /// Stable name in snake_case.
    pub id: String,
    /// Which part of the job.
    pub stage: Stage,
    /// A few words.
    pub title: String,
    /// A sentence or two.
    pub what_to_do: String,
    /// The reason for it.
    pub why: String,
    /// The law behind it, if there is one.
    pub law: Option<Source>,
    /// When the law binds only one kind of receiver.
    pub law_binds: Option<Receiver>,
    /// What can hurt here.
    pub cautions: Vec<String>,
    /// What it records. Empty: the step is only acknowledged, done or skipped with a reason.
    pub records: Vec<Record>,
    /// What it may record besides.
    pub may_record: Vec<Record>,
    /// Over which fittings it repeats.
    pub for_each: Option<ForEach>,
    /// The one fitting it is about, when it does not repeat.
    pub fitting: Option<Fitting>,
    /// The only kind of receiver it is for.
    pub only_for: Option<Receiver>,
    /// What must have happened before a record counts.
    pub since: Option<Since>,
    /// Steps that belong before it.
    pub after: Vec<String>,
    /// How often it is repeated, minutes.
    pub repeat_minutes: Option<u32>,
    /// Whether the job is complete without it.
    pub optional: bool,
}

impl Step {
    /// Who asks for the step, given the receiver.
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
    /// Between `from` and `to` of one fitting, no other fitting may be at `from`.
    OneAtATime {
        /// Where the dangerous stretch begins.
        from: String,
        /// Where it ends.
        to: String,
    },
    /// The step is done at every liquid fitting before it is done at a vapour fitting.
    VapourLast {
        /// Which step.
        step: String,
    },
}

/// A procedure, known by the digest of its text.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Procedure {
    /// SHA-256 of the text.
    pub digest: crate::ids::Digest,
    /// Its name, the same over all editions.
    pub id: String,
    /// Which edition.
    pub edition: String,
    /// Its title.
    pub title: String,
    /// What stands above it, always shown.
    pub note: String,
    /// Its steps, in order.
    pub steps: Vec<Step>,
    /// Rules about the order of repeated steps.
    pub order: Vec<OrderRule>,
}
