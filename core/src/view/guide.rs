//! What a shell needs beside a record so that it decides nothing: what each step asks for and what of it is missing, how
//! what stands in a slot is said again, where a blocker is cleared.
//!
//! The form of [`VisitView`] is frozen with [`super::FOLD_VERSION`], because packets seal it. What only shells read stands
//! here instead: [`GuidedVisit`] is the view with its [`Guide`], and what a shell is handed for a visit.

use serde::{Serialize, Serializer};

use super::VisitView;
use super::gate::{Blocker, BlockerKind};
use crate::entry::vocabulary::{
    ClockEvent, ClosureState, EmptySign, Fitting, Measured, Part, Place, Presence, Protection, Purpose,
    SealEvent, TestDate, ValvePosition,
};
use crate::entry::{Slot, under};
use crate::procedure::Record;
use crate::units::Unit;

/// Something that can be recorded, and at which fitting: enough for a shell to present the right keys or form.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Ask {
    /// The slot the answer stands in, which names the ask in a shell's addresses. Empty for what is filed under a
    /// random id; the first of several for a seal.
    pub slot: String,
    /// At which fitting.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(test, ts(optional))]
    pub fitting: Option<Fitting>,
    /// What is to be recorded.
    #[serde(flatten)]
    pub record: Record,
}

impl Ask {
    /// The ask of a step.
    pub fn new(record: &Record, fitting: Option<Fitting>) -> Ask {
        let slot = record.slots(fitting).into_iter().next().unwrap_or(Slot::NONE).into();
        Ask { slot, fitting, record: record.clone() }
    }

    /// The ask that what stands in a slot answers. Nothing for what has a screen of its own with its own history (holds,
    /// defects, things out, photographs, handovers) and for slots that no person fills.
    pub fn of_slot(slot: &str) -> Option<Ask> {
        let parts: Vec<&str> = slot.split('/').collect();
        let (record, fitting) = match parts.as_slice() {
            ["fitting", fitting, what] => (at_fitting(what)?, Some(Fitting::read(fitting)?)),
            ["series", "effort", fitting, part] => {
                (Record::Effort { part: Part::read(part)? }, Some(Fitting::read(fitting)?))
            }
            ["reading" | "series", purpose, measured, place] => {
                (reading(Measured::read(measured)?, Place::read(place)?, Purpose::read(purpose)?), None)
            }
            _ => (without_fitting(slot, &parts)?, None),
        };
        Some(Ask { slot: slot.to_owned(), fitting, record })
    }
}

fn at_fitting(what: &str) -> Option<Record> {
    match what {
        "valve" => Some(Record::Valve { position: ValvePosition::Shut }),
        "closure" => Some(Record::Closure { state: ClosureState::ToolTight }),
        "listen" => Some(Record::Listen {}),
        "line" => Some(Record::Line { connected: false }),
        "threads" => Some(Record::Threads {}),
        _ => None,
    }
}

fn reading(measured: Measured, place: Place, purpose: Purpose) -> Record {
    let unit = match measured {
        Measured::Pressure => Unit::PsiGauge,
        Measured::Temperature => Unit::Fahrenheit,
        Measured::Outage => Unit::Inch,
        Measured::Level => Unit::Percent,
        Measured::RelativeDensity => Unit::One,
        Measured::Volume => Unit::Gallon,
        Measured::Rate => Unit::GallonPerMinute,
    };
    Record::Reading { measured, place, purpose, unit }
}

fn without_fitting(slot: &str, parts: &[&str]) -> Option<Record> {
    Some(match parts {
        ["opened"] => Record::Opened {},
        ["cover"] => Record::Cover {},
        ["paper"] => Record::Paper {},
        ["car_number", "again"] => Record::CarNumberAgain {},
        ["series", "weather"] => Record::Weather {},
        ["series", "truck_load"] => Record::TruckLoad {},
        ["series", "attendance"] => Record::Attendance { presence: Presence::Here },
        ["protection", what] => Record::Protection { what: Protection::read(what)?, set: true },
        ["empty", "decision"] => Record::EmptyDecision {},
        ["empty", sign] => Record::EmptySign { sign: EmptySign::read(sign)? },
        ["clock", event] => Record::Clock { event: ClockEvent::read(event)? },
        ["seal", _] => Record::Seal { event: SealEvent::Applied },
        ["seal", _, event] => Record::Seal { event: SealEvent::read(event)? },
        ["car", "fittings"] => Record::CarFittings {},
        ["car", "capacity"] => Record::CarCapacity {},
        ["car", "diameter"] => Record::CarDiameter {},
        ["car", "test", test] => Record::CarTestDate { test: TestDate::read(test)? },
        // A check has a free name, which may have strokes in it.
        ["check", ..] => Record::Check { what: slot.strip_prefix(under::CHECKS)?.to_owned() },
        _ => return None,
    })
}

/// An ask of a step, and whether it is still to be answered.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct StepAsk {
    /// What is asked.
    pub ask: Ask,
    /// Whether it is missing.
    pub missing: bool,
}

/// What a step asks for.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct StepAsks {
    /// The step.
    pub id: String,
    /// What it records.
    pub records: Vec<StepAsk>,
    /// What it may record besides.
    pub may_record: Vec<Ask>,
}

/// Where a blocker is cleared.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
#[serde(tag = "to", rename_all = "snake_case")]
pub enum Lead {
    /// Where the accounts of a slot that differ stand side by side.
    Disagreement {
        /// The slot.
        slot: String,
    },
    /// Where the evidence on the liquid is weighed.
    EmptyProof,
    /// Where one thing is recorded.
    Ask {
        /// The slot of the ask, see [`Guide::asks`].
        slot: String,
    },
    /// Where things that are out are counted back in.
    Tally,
    /// Where the housing cover is recorded.
    Cover,
    /// Where a seal is recorded.
    Seal {
        /// What happens to it.
        event: SealEvent,
    },
    /// Where holds are lifted.
    Holds,
    /// Where defects and their approvals stand.
    Defects,
    /// Where a fitting is recorded.
    Fitting {
        /// Which.
        fitting: Fitting,
    },
    /// The step the job stands at: nothing nearer is known.
    Step,
}

impl Lead {
    /// Where this blocker is cleared.
    pub fn of(blocker: &Blocker) -> Lead {
        match blocker.kind {
            BlockerKind::Disagreement => Lead::Disagreement { slot: blocker.slot.clone() },
            BlockerKind::EmptyNotAccepted | BlockerKind::EmptyContradicted => Lead::EmptyProof,
            BlockerKind::FinalPressureMissing | BlockerKind::BlueSignDownEarly => {
                Lead::Ask { slot: blocker.slot.clone() }
            }
            BlockerKind::ItemOut => Lead::Tally,
            BlockerKind::CoverNotClosed | BlockerKind::CoverNotPinned | BlockerKind::CoverBolts => {
                Lead::Cover
            }
            BlockerKind::SealMissing | BlockerKind::SealIncomplete => {
                Lead::Seal { event: SealEvent::Applied }
            }
            BlockerKind::HoldOpen => Lead::Holds,
            BlockerKind::AuthorityMissing => Lead::Defects,
            BlockerKind::LineConnected
            | BlockerKind::ValveNotShut
            | BlockerKind::ListenMissing
            | BlockerKind::HissHeard
            | BlockerKind::ClosureNotToolTight
            | BlockerKind::ThreadsOneOrLess
            | BlockerKind::UnreadableEntries
            | BlockerKind::NotOpened => {
                blocker.fitting.map_or(Lead::Step, |fitting| Lead::Fitting { fitting })
            }
        }
    }
}

/// What kind of blocker it is, and where it is cleared.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct BlockerLead {
    /// Its kind.
    pub kind: BlockerKind,
    /// Where it is cleared.
    pub lead: Lead,
}

/// What a shell needs beside the record.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Guide {
    /// What the steps ask for, in their order; steps that ask for nothing are left out.
    pub steps: Vec<StepAsks>,
    /// Every ask that has a name of its own, by its slot: what steps ask for, what can be recorded at each fitting and
    /// elsewhere at any time, and what was recorded already and may have to be put right.
    #[serde(serialize_with = "by_slot")]
    #[cfg_attr(test, ts(as = "std::collections::BTreeMap<String, Ask>"))]
    pub asks: Vec<Ask>,
    /// Kind and lead of each blocker, by its code.
    #[serde(serialize_with = "by_code")]
    #[cfg_attr(test, ts(as = "std::collections::BTreeMap<String, BlockerLead>"))]
    pub leads: Vec<(String, BlockerLead)>,
}

// Lists that are written as maps: a shell looks a slot or a code up, the core only hands them over, and in the browser's
// module every map of another type costs more than the few comparisons.
fn by_slot<S: Serializer>(asks: &[Ask], serializer: S) -> Result<S::Ok, S::Error> {
    serializer.collect_map(asks.iter().map(|ask| (&ask.slot, ask)))
}

fn by_code<S: Serializer>(leads: &[(String, BlockerLead)], serializer: S) -> Result<S::Ok, S::Error> {
    serializer.collect_map(leads.iter().map(|(code, lead)| (code, lead)))
}

impl Guide {
    /// The guide of a record.
    pub fn of(view: &VisitView) -> Guide {
        let steps: Vec<StepAsks> = view
            .steps
            .steps
            .iter()
            .filter(|step| !step.records.is_empty() || !step.may_record.is_empty())
            .map(|step| StepAsks {
                id: step.id.clone(),
                records: step
                    .records
                    .iter()
                    .map(|record| StepAsk {
                        ask: Ask::new(record, step.fitting),
                        missing: step.missing.contains(record),
                    })
                    .collect(),
                may_record: step.may_record.iter().map(|record| Ask::new(record, step.fitting)).collect(),
            })
            .collect();
        let leads = view
            .blockers
            .iter()
            .map(|blocker| {
                (blocker.code.clone(), BlockerLead { kind: blocker.kind, lead: Lead::of(blocker) })
            })
            .collect();
        Guide { asks: asks(view), steps, leads }
    }
}

/// What can be recorded at any time wherever it is asked for.
fn anywhere() -> [Slot; 6] {
    [
        Slot::ATTENDANCE,
        Slot::TRUCK_LOADS,
        Slot::CAR_CAPACITY,
        Slot::CAR_DIAMETER,
        Slot::FINAL_PRESSURE,
        Slot::reading(Purpose::HoldTest, Measured::Pressure, Place::Car),
    ]
}

fn asks(view: &VisitView) -> Vec<Ask> {
    let mut asks: Vec<Ask> = Vec::new();
    let mut put = |ask: Ask| match asks.iter_mut().find(|known| known.slot == ask.slot) {
        _ if ask.slot.is_empty() => {}
        Some(known) => *known = ask,
        None => asks.push(ask),
    };
    // A step says more than the slot alone, the unit of a reading for one: it comes last and stays.
    for slot in anywhere() {
        Ask::of_slot(&slot).into_iter().for_each(&mut put);
    }
    for protection in &view.protections {
        Ask::of_slot(&Slot::protection(protection.what)).into_iter().for_each(&mut put);
    }
    for slot in view.history.iter().map(|line| &line.slot).chain(view.disagreements.iter().map(|d| &d.slot)) {
        Ask::of_slot(slot).into_iter().for_each(&mut put);
    }
    for fitting in view.fittings.iter().map(|view| view.fitting) {
        let records = [
            Record::Valve { position: ValvePosition::Shut },
            Record::Closure { state: ClosureState::ToolTight },
            Record::Listen {},
            Record::Line { connected: false },
            Record::Threads {},
            Record::Effort { part: Part::Valve },
            Record::Effort { part: Part::Closure },
        ];
        for record in records.iter().filter(|record| record.fits(fitting)) {
            put(Ask::new(record, Some(fitting)));
        }
    }
    for step in &view.steps.steps {
        for record in step.records.iter().chain(&step.may_record) {
            put(Ask::new(record, step.fitting));
        }
    }
    asks
}

/// A whole stay as a shell is handed it.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct GuidedVisit {
    /// The record.
    #[serde(flatten)]
    pub view: VisitView,
    /// What the shell needs beside it.
    pub guide: Guide,
}

impl From<VisitView> for GuidedVisit {
    fn from(view: VisitView) -> GuidedVisit {
        GuidedVisit { guide: Guide::of(&view), view }
    }
}
