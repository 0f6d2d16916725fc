//! What a shell needs in addition to a record so that it decides nothing itself: what each step asks for,
//! which of that is missing, how the content of a slot is recorded again, and where a blocker is cleared.
//!
//! The form of [`VisitView`] is frozen with [`super::FOLD_VERSION`], because packets seal it. Data that only
//! shells read is therefore kept here: [`GuidedVisit`] is the view with its [`Guide`], and shells receive it
//! for a visit.

use serde::{Serialize, Serializer};

use super::VisitView;
use super::check_in::CheckIn;
use super::expected::ExpectedCar;
use super::gate::Blocker;
use super::together::StepsTogether;
use crate::entry::vocabulary::{
    ClockEvent, ClosureState, EmptySign, Fitting, Measured, Part, Place, Presence, Protection, Purpose,
    SealEvent, TestDate, ValvePosition,
};
use crate::entry::{Slot, under};
use crate::procedure::{BlockerKind, Procedure, Procedures, Record, Threshold};
use crate::units::Unit;

/// Something that can be recorded, with its fitting: enough for a shell to present the right keys or form.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Ask {
    /// The slot of the answer, which names the ask in a shell's addresses. Empty if the slot contains a
    /// random id; for a seal the first of several slots.
    pub slot: String,
    /// The fitting, if the ask concerns one.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(test, ts(optional))]
    pub fitting: Option<Fitting>,
    /// What is to be recorded.
    #[serde(flatten)]
    pub record: Record,
}

impl Ask {
    /// Creates the ask of a step.
    pub fn new(record: &Record, fitting: Option<Fitting>) -> Ask {
        let slot = record.slots(fitting).into_iter().next().unwrap_or(Slot::NONE).into();
        Ask { slot, fitting, record: record.clone() }
    }

    /// Returns the ask that the content of a slot answers. Returns `None` for slots whose content has a
    /// screen with a history of its own (holds, defects, objects taken out, photographs, handovers) and for
    /// slots that no person fills in.
    pub fn of_slot(slot: &str) -> Option<Ask> {
        let parts: Vec<&str> = slot.split('/').collect();
        let (record, fitting) = match parts.as_slice() {
            ["fitting", fitting, what] => (at_fitting(what)?, Some(Fitting::read(fitting)?)),
            ["series", "effort", fitting, part] => {
                (Record::Effort { part: Part::read(part)? }, Some(Fitting::read(fitting)?))
            }
            ["series", what @ ("feel" | "plug" | "hose_pressure"), fitting] => {
                let record = match *what {
                    "feel" => Record::ValveFeel {},
                    "plug" => Record::PlugCondition {},
                    _ => Record::HosePressure {},
                };
                (record, Some(Fitting::read(fitting)?))
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
        ["last_round"] => Record::LastRound {},
        ["cover"] => Record::Cover {},
        ["paper"] => Record::Paper {},
        ["car_number", "again"] => Record::CarNumberAgain {},
        ["series", "weather"] => Record::Weather {},
        ["series", "truck_load"] => Record::TruckLoad {},
        ["series", "tank_gauged"] => Record::TankGauged {},
        ["series", "recovery_planned"] => Record::RecoveryPlanned {},
        ["series", "inspection"] => Record::Inspection {},
        ["series", "cover_part", _] => Record::CoverCondition {},
        ["series", "attendance"] => Record::Attendance { presence: Presence::Here },
        ["protection", what] => Record::Protection { what: Protection::read(what)?, set: true },
        ["empty", "decision"] => Record::EmptyDecision {},
        ["empty", sign] => Record::EmptySign { sign: EmptySign::read(sign)? },
        ["clock", event] => Record::Clock { event: ClockEvent::read(event)? },
        ["seal", _] => Record::Seal { event: SealEvent::Applied },
        ["seal", _, event] => Record::Seal { event: SealEvent::read(event)? },
        ["outcome"] => Record::Outcome {},
        ["series", "car_left"] => Record::CarLeft {},
        ["series", "car_moved"] => Record::CarMoved {},
        ["car", "fittings"] => Record::CarFittings {},
        ["car", "capacity"] => Record::CarCapacity {},
        ["car", "diameter"] => Record::CarDiameter {},
        ["car", "test", test] => Record::CarTestDate { test: TestDate::read(test)? },
        // A check has a free name, which may contain slashes.
        ["check", ..] => Record::Check { what: slot.strip_prefix(under::CHECKS)?.to_owned() },
        _ => return None,
    })
}

/// An ask of a step, and whether it is still unanswered.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct StepAsk {
    /// The ask.
    pub ask: Ask,
    /// Whether its answer is missing.
    pub missing: bool,
}

/// The asks of a step.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct StepAsks {
    /// The id of the step.
    pub id: String,
    /// What the step records.
    pub records: Vec<StepAsk>,
    /// What the step may record in addition.
    pub may_record: Vec<Ask>,
    /// What can be recorded now, while an answer to the step holds the job.
    pub now: Vec<Ask>,
}

/// The place in a shell where a blocker is cleared.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
#[serde(tag = "to", rename_all = "snake_case")]
pub enum Lead {
    /// The screen on which the differing entries of a slot are shown side by side.
    Disagreement {
        /// The slot.
        slot: String,
    },
    /// The screen on which the evidence of remaining liquid is weighed.
    EmptyProof,
    /// The form for a single ask.
    Ask {
        /// The slot of the ask, see [`Guide::asks`].
        slot: String,
    },
    /// The screen on which objects that were taken out are recorded as put back.
    Tally,
    /// The form for the housing cover.
    Cover,
    /// The form for a seal.
    Seal {
        /// The event to record.
        event: SealEvent,
    },
    /// The screen with what stops the job: holds to be lifted, leaks to be checked again, incidents to be closed.
    Holds,
    /// The screen with defects and their approvals.
    Defects,
    /// The screen of a fitting.
    Fitting {
        /// The fitting.
        fitting: Fitting,
    },
    /// The present step of the job, if no more specific place is known.
    Step,
}

impl Lead {
    fn of_ask(blocker: &Blocker) -> Lead {
        match Ask::of_slot(&blocker.slot) {
            Some(ask) => Lead::Ask { slot: ask.slot },
            None => Lead::Step,
        }
    }

    /// Returns where this blocker is cleared.
    pub fn of(blocker: &Blocker) -> Lead {
        match blocker.kind {
            BlockerKind::Disagreement => Lead::Disagreement { slot: blocker.slot.clone() },
            BlockerKind::EmptyNotAccepted | BlockerKind::EmptyContradicted => Lead::EmptyProof,
            BlockerKind::FinalPressureMissing
            | BlockerKind::FinalPressureDoubtful
            | BlockerKind::BlueSignDownEarly
            | BlockerKind::NumberNotChecked
            | BlockerKind::PaperNotCompared
            | BlockerKind::ProductNotTaken
            | BlockerKind::ProtectionNotSet
            | BlockerKind::ReadingMissing
            | BlockerKind::CheckMissing
            | BlockerKind::CheckNotRight
            | BlockerKind::OutcomeUnexplained => Lead::of_ask(blocker),
            BlockerKind::NotRecordedAsFound if blocker.slot.starts_with(under::SEALS) => {
                Lead::Seal { event: SealEvent::Found }
            }
            BlockerKind::NotRecordedAsFound => Lead::of_ask(blocker),
            BlockerKind::ItemOut => Lead::Tally,
            BlockerKind::CoverNotClosed | BlockerKind::CoverNotPinned | BlockerKind::CoverBolts => {
                Lead::Cover
            }
            BlockerKind::SealMissing | BlockerKind::SealIncomplete => {
                Lead::Seal { event: SealEvent::Applied }
            }
            BlockerKind::HoldOpen | BlockerKind::IncidentOpen | BlockerKind::LeakOpen => Lead::Holds,
            BlockerKind::AuthorityMissing => Lead::Defects,
            BlockerKind::LineConnected
            | BlockerKind::ValveNotShut
            | BlockerKind::ListenMissing
            | BlockerKind::HissHeard
            | BlockerKind::ClosureNotToolTight
            | BlockerKind::ThreadsOneOrLess
            | BlockerKind::UnreadableEntries
            | BlockerKind::NotOpened
            | BlockerKind::Alarm
            | BlockerKind::Doubt
            | BlockerKind::ProtectionOutOfOrder
            | BlockerKind::StepOpen
            | BlockerKind::StepNotRight
            | BlockerKind::PhotoMissing
            | BlockerKind::LastRoundMissing
            | BlockerKind::SignDownWhileConnected => {
                blocker.fitting.map_or(Lead::Step, |fitting| Lead::Fitting { fitting })
            }
        }
    }
}

/// The kind of a blocker, and where it is cleared.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct BlockerLead {
    /// The kind of the blocker.
    pub kind: BlockerKind,
    /// The place where it is cleared.
    pub lead: Lead,
}

/// What a shell needs in addition to the record.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Guide {
    /// The asks of the steps, in order, without steps that ask for nothing.
    pub steps: Vec<StepAsks>,
    /// Every ask with a slot of its own, by its slot: what steps ask for, what can be recorded at any time at
    /// each fitting and elsewhere, and what was recorded already and may have to be corrected.
    #[serde(serialize_with = "by_slot")]
    #[cfg_attr(test, ts(as = "std::collections::BTreeMap<String, Ask>"))]
    pub asks: Vec<Ask>,
    /// The kind and lead of each blocker, by its code.
    #[serde(serialize_with = "by_code")]
    #[cfg_attr(test, ts(as = "std::collections::BTreeMap<String, BlockerLead>"))]
    pub leads: Vec<(String, BlockerLead)>,
    /// The minutes that a pressure hold lasts, if the procedure sets them.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(test, ts(optional))]
    pub hold_minutes: Option<u32>,
    /// How the word that all is well stands now, while somebody has the car and the procedure asks for it.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(test, ts(optional))]
    pub check_in: Option<CheckIn>,
    /// The steps that one key records now.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(test, ts(optional))]
    pub together: Option<StepsTogether>,
    /// The paper that the office sent for this stay, as long as the stay takes it for its own.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(test, ts(optional))]
    pub office_paper: Option<ExpectedCar>,
}

// These lists are serialised as maps because shells look up a slot or a code, while the core only passes them
// on. In the browser's module, each further map type would cost more than a few comparisons.
fn by_slot<S: Serializer>(asks: &[Ask], serializer: S) -> Result<S::Ok, S::Error> {
    serializer.collect_map(asks.iter().map(|ask| (&ask.slot, ask)))
}

fn by_code<S: Serializer>(leads: &[(String, BlockerLead)], serializer: S) -> Result<S::Ok, S::Error> {
    serializer.collect_map(leads.iter().map(|(code, lead)| (code, lead)))
}

impl Guide {
    /// Builds the guide of a record that follows this procedure.
    pub fn of(view: &VisitView, procedure: Option<&Procedure>) -> Guide {
        let steps: Vec<StepAsks> = view
            .steps
            .steps
            .iter()
            .filter(|step| !(step.records.is_empty() && step.may_record.is_empty() && step.now.is_empty()))
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
                now: step.now.iter().map(|record| Ask::new(record, step.fitting)).collect(),
            })
            .collect();
        let mut leads: Vec<(String, BlockerLead)> = view
            .unloading
            .blockers
            .iter()
            .chain(&view.blockers)
            .map(|blocker| {
                (blocker.code.clone(), BlockerLead { kind: blocker.kind, lead: Lead::of(blocker) })
            })
            .collect();
        // An item that is open at both gates, such as a hold, is cleared once.
        leads.sort_by(|a, b| a.0.cmp(&b.0));
        leads.dedup_by(|a, b| a.0 == b.0);
        let together = procedure.and_then(|procedure| StepsTogether::of(view, procedure));
        let hold_minutes = procedure.and_then(|procedure| procedure.thresholds.get(Threshold::Hold));
        let check_in = view.check_in.as_ref().map(|check_in| check_in.at(view.folded_at));
        Guide { asks: asks(view), steps, leads, hold_minutes, check_in, together, office_paper: None }
    }
}

/// Returns the slots that can be recorded at any time.
fn anywhere() -> [Slot; 9] {
    [
        Slot::ATTENDANCE,
        Slot::TRUCK_LOADS,
        Slot::CAR_CAPACITY,
        Slot::CAR_DIAMETER,
        Slot::FINAL_PRESSURE,
        Slot::OUTCOME,
        Slot::CAR_LEFT,
        Slot::CAR_MOVED,
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
    // A step's ask contains more than the slot alone, such as the unit of a reading. It is therefore inserted
    // last and kept.
    for slot in anywhere() {
        Ask::of_slot(&slot).into_iter().for_each(&mut put);
    }
    for protection in &view.protections {
        Ask::of_slot(&Slot::protection(protection.what)).into_iter().for_each(&mut put);
    }
    for slot in view.history.iter().map(|line| &line.slot).chain(view.disagreements.iter().map(|d| &d.slot)) {
        Ask::of_slot(slot).into_iter().for_each(&mut put);
    }
    for blocker in view.unloading.blockers.iter().chain(&view.blockers) {
        if let Lead::Ask { slot } = Lead::of(blocker) {
            Ask::of_slot(&slot).into_iter().for_each(&mut put);
        }
    }
    for fitting in view.fittings.iter().map(|view| view.fitting) {
        let records = [
            Record::Valve { position: ValvePosition::Shut },
            Record::Closure { state: ClosureState::ToolTight },
            Record::Listen {},
            Record::Line { connected: false },
            Record::Threads {},
            Record::HosePressure {},
            Record::Effort { part: Part::Valve },
            Record::Effort { part: Part::Closure },
        ];
        for record in records.iter().filter(|record| record.fits(fitting)) {
            put(Ask::new(record, Some(fitting)));
        }
    }
    for step in &view.steps.steps {
        for record in step.records.iter().chain(&step.may_record).chain(&step.now) {
            put(Ask::new(record, step.fitting));
        }
    }
    asks
}

/// A stay in the form that shells receive.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct GuidedVisit {
    /// The record.
    #[serde(flatten)]
    pub view: VisitView,
    /// What the shell needs in addition to the record.
    pub guide: Guide,
}

impl GuidedVisit {
    /// Adds the guide to a record; its procedure is found by its digest, as the record's fold finds it.
    pub fn of(view: VisitView, procedures: &Procedures) -> GuidedVisit {
        let own = view.header.procedure.and_then(|digest| procedures.get(digest));
        let procedure = own.or_else(|| procedures.default_procedure());
        GuidedVisit { guide: Guide::of(&view, procedure), view }
    }

    /// Adds the paper that the office sent for this stay.
    pub fn with_paper(mut self, paper: Option<ExpectedCar>) -> GuidedVisit {
        self.guide.office_paper = paper;
        self
    }
}
