//! Everything an entry can say: one variant per kind of statement.
//!
//! Wire format: the variant's snake_case name and its field names are frozen (see the examples in
//! `tests/golden/entries`). A kind this version does not know is kept as [`Statement::Unrecognised`]
//! and never dropped. The row of each kind is in `kinds`.

use serde::{Deserialize, Serialize};

use super::car_number::CarNumber;
use super::carried_facts::{CoverCondition, NextTime, NextTimeDone, PlugCondition, ValveFeel};
use super::certificate::LastEntry;
use super::coded::{Checked, Coded, OverrideReason, Told, Wind};
use super::kinds::StatementKind;
use super::leaving_facts::{CarLeft, CarMoved, CarOutcome};
use super::paper_facts::{PaperExpected, PaperTakenBack};
use super::site_facts::{
    Contact, Hose, Instrument, NameForgotten, Operator, PersonKey, PublishedProcedure, Rules, SealStock,
    SiteProfile, Tank,
};
use super::slot::Slot;
use super::spec::{StatementSpec, UNRECOGNISED};
use super::transfer_facts::{Inspection, RecoveryPlanned, TankGauged, TruckLoad};
use super::trouble_facts::{Incident, IncidentCall, IncidentStopped, Leak, LeakChecked};
use super::visit_facts::{Defect, Opened, Paper, Reading, Seal};
use super::vocabulary::{
    CarEnd, ClockEvent, ClosureState, EmptySign, Fitting, Gate, GaugingKind, Heard, Insulation, Part,
    PhotoOf, PhotoRef, Precipitation, Presence, Protection, StepOutcome, TestDate, ValvePosition,
};
use crate::clock::UtcMillis;
use crate::ids::{DefectId, DeviceId, Digest, EntryId, HoldId, IncidentId, OperatorId, VisitId};
use crate::units::Amount;

/// What an entry says.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Statement {
    /// The visit began: which car, where, into what, by which procedure.
    Opened(Opened),
    /// What the shipping paper says.
    Paper(Paper),
    /// An event of the car's clock and when it happened.
    Clock {
        /// Which event.
        event: ClockEvent,
        /// When it happened.
        at: UtcMillis,
    },
    /// An instrument was read.
    Reading(Reading),
    /// A step of the procedure was done, found not right, or skipped.
    Step {
        /// The step's id in the procedure, with its fitting where it repeats (`shut_valve.liquid_a`).
        step: String,
        /// How it was left.
        outcome: StepOutcome,
        /// What was seen; required when skipped.
        #[serde(default, skip_serializing_if = "String::is_empty")]
        note: String,
    },
    /// Where a valve stands now.
    Valve {
        /// Whose valve.
        fitting: Fitting,
        /// Where it stands.
        position: ValvePosition,
    },
    /// How far a plug or cap is in now.
    Closure {
        /// Whose closure.
        fitting: Fitting,
        /// How far it is in.
        state: ClosureState,
    },
    /// Somebody listened at a fitting.
    Listen {
        /// Where.
        fitting: Fitting,
        /// What was heard.
        heard: Heard,
    },
    /// A line was put on or taken off.
    Line {
        /// On which fitting.
        fitting: Fitting,
        /// Whether it is connected now.
        connected: bool,
        /// Which hose.
        #[serde(default, skip_serializing_if = "String::is_empty")]
        hose: String,
    },
    /// Torque it took to close a valve or a closure.
    Effort {
        /// At which fitting.
        fitting: Fitting,
        /// Valve or closure.
        part: Part,
        /// How much.
        amount: Amount,
    },
    /// Full threads engaged when a closure bottomed.
    Threads {
        /// At which fitting.
        fitting: Fitting,
        /// Turns engaged.
        engaged: Amount,
    },
    /// How a valve turned by hand.
    ValveFeel(ValveFeel),
    /// The condition of a plug and its square.
    PlugCondition(PlugCondition),
    /// The condition of a part of the housing cover.
    CoverCondition(CoverCondition),
    /// The pressure that was left in a hose after it was drawn down.
    HosePressure {
        /// At which fitting.
        fitting: Fitting,
        /// How much.
        amount: Amount,
    },
    /// A thing was taken out that must come back.
    ItemOut {
        /// What it is called, unique among things out.
        item: String,
        /// The closure it stands in for, if any.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        fitting: Option<Fitting>,
    },
    /// It is back.
    ItemIn {
        /// What it is called.
        item: String,
    },
    /// A seal was found, applied or removed.
    Seal(Seal),
    /// A photograph was taken.
    Photo {
        /// Its bytes' digest and length.
        photo: PhotoRef,
        /// What it shows.
        of: PhotoOf,
        /// The slot it belongs to, such as `seal/housing_pin`; empty when none.
        #[serde(default, skip_serializing_if = "String::is_empty")]
        about: String,
    },
    /// A defect was noted.
    Defect(Defect),
    /// A defect was reported up.
    Forwarded {
        /// Which defect.
        defect: DefectId,
        /// To whom.
        to: String,
        /// How: a code, or as typed.
        how: Coded<Told>,
    },
    /// An authority answered: an approval for one movement, a shop, an owner's instruction.
    Authority {
        /// Which defect.
        defect: DefectId,
        /// Who gave it.
        by: String,
        /// Its number or reference.
        reference: String,
        /// When it was given by voice.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        spoken_at: Option<UtcMillis>,
        /// When it came in writing.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        written_at: Option<UtcMillis>,
    },
    /// A defect was put right.
    Resolved {
        /// Which defect.
        defect: DefectId,
        /// How.
        how: String,
    },
    /// Something went wrong: a release, a fire, an injury. It stops the job until it is closed.
    Incident(Incident),
    /// The release of an incident stopped.
    IncidentStopped(IncidentStopped),
    /// Somebody was called or written to about an incident.
    IncidentCall(IncidentCall),
    /// An incident is over, and work may go on.
    IncidentClosed {
        /// Which incident.
        incident: IncidentId,
        /// What was done, and why work may go on.
        how: String,
    },
    /// A leak was found. It stops the job until it was checked tight again.
    Leak(Leak),
    /// A leak was checked again.
    LeakChecked(LeakChecked),
    /// The car was left with nobody at it.
    CarLeft(CarLeft),
    /// The car was moved during its stay.
    CarMoved(CarMoved),
    /// How the car goes away: how much it holds, and why.
    Outcome(CarOutcome),
    /// A note for the next visit of the car.
    NextTime(NextTime),
    /// Somebody saw to a note for the next visit.
    NextTimeDone(NextTimeDone),
    /// Stop: the car does not move and nothing is opened until this is lifted.
    Hold {
        /// This hold.
        hold: HoldId,
        /// Why.
        because: String,
    },
    /// A hold is over.
    HoldLifted {
        /// Which hold.
        hold: HoldId,
        /// Why it is over.
        because: String,
    },
    /// The person responsible hands the car over.
    HandoverGiven {
        /// To whom.
        to: OperatorId,
    },
    /// The other person takes it.
    HandoverTaken {
        /// From whom.
        from: OperatorId,
    },
    /// Whether somebody is with the connected car.
    Attendance {
        /// Here or away.
        presence: Presence,
    },
    /// Somebody who has the car, often alone, says that all is well.
    CheckedIn {},
    /// The protective housing cover.
    Cover {
        /// Whether it is down.
        closed: bool,
        /// Whether the pin is in.
        pinned: bool,
        /// Bolts counted in place.
        bolts_in_place: u16,
        /// Bolts it should have.
        bolts_required: u16,
    },
    /// A protection was set or taken away.
    Protection {
        /// Which.
        what: Protection,
        /// Whether it is set now.
        set: bool,
    },
    /// The weather at the car.
    Weather {
        /// What falls.
        precipitation: Precipitation,
        /// Wind: a code (`nw light`), or as a person says it.
        #[serde(default, skip_serializing_if = "Coded::is_empty")]
        wind: Coded<Wind>,
    },
    /// A sign that liquid is or is not left.
    EmptySign {
        /// Which sign.
        sign: EmptySign,
        /// Whether it was there.
        seen: bool,
    },
    /// A person weighed the evidence and decides whether the car is taken as empty of liquid.
    EmptyDecision {
        /// Taken as empty of liquid.
        accepted: bool,
        /// On what grounds.
        grounds: String,
    },
    /// A truck was loaded from this car.
    TruckLoad(TruckLoad),
    /// What a receiving tank showed before or after the transfer.
    TankGauged(TankGauged),
    /// Down to which pressure vapor is to be recovered.
    RecoveryPlanned(RecoveryPlanned),
    /// Somebody from outside inspected the car or the site.
    Inspection(Inspection),
    /// A check: one that a procedure asks for, or with a free name.
    Check {
        /// What was checked: a code, or as typed.
        what: Coded<Checked>,
        /// Whether it was right.
        right: bool,
        /// What was seen.
        #[serde(default, skip_serializing_if = "String::is_empty")]
        note: String,
    },
    /// Anything else worth writing down.
    Remark {
        /// The words.
        text: String,
    },
    /// A disagreement is settled in favour of one entry; the reason stands in the entry.
    Agreement {
        /// The entry that stands.
        keeps: EntryId,
    },
    /// An entry was a mistake and nothing stands in its place; the reason stands in the entry.
    Withdrawn {},
    /// That visit and this one are the same stay.
    Joined {
        /// The other visit.
        other: VisitId,
    },
    /// That visit and this one were compared and are not the same stay.
    NotJoined {
        /// The other visit.
        other: VisitId,
    },
    /// A blocker was seen and passed over; the reason stands in the entry.
    PassedOver {
        /// The blocker's code, such as `closure_not_tool_tight.liquid_a`.
        blocker: String,
        /// The entries the blocker stood on when it was passed over. Should the record say something
        /// else later, the blocker is open again. Empty: it holds whatever comes.
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        seen: Vec<EntryId>,
    },
    /// Several items of one gate were seen and overridden in one act, for one reason.
    Overridden {
        /// At which gate.
        gate: Gate,
        /// The codes of the items.
        items: Vec<String>,
        /// The entries that the items stood on. Should the record say something else of an item later, that
        /// item is open again. Empty: it holds whatever comes.
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        seen: Vec<EntryId>,
        /// Why: a code, or as typed.
        reason: Coded<OverrideReason>,
    },
    /// Every valve and closure was gone over once more, after the last work on the car: each valve shut, each
    /// closure tool-tight, nothing heard leaking by, but for the exceptions.
    LastRound {
        /// The fittings that were in order.
        fittings: Vec<Fitting>,
        /// The fittings that were not.
        #[serde(default, skip_serializing_if = "Vec::is_empty")]
        except: Vec<Fitting>,
        /// What was not in order there.
        #[serde(default, skip_serializing_if = "String::is_empty")]
        note: String,
        /// The photograph of the open housing.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        photo: Option<Digest>,
    },
    /// The stay is fit to unload: the first closure of a line may come out.
    FitToUnload {},
    /// The car was released.
    Released {
        /// Whether it goes as residue (not cleaned and purged).
        as_residue: bool,
    },
    /// The car's number read from the stencil a second time, without looking at the first.
    CarNumberAgain {
        /// As read.
        car: CarNumber,
    },
    /// The valves and openings this car has under its housing, as found.
    CarFittings {
        /// All of them, the relief device aside.
        fittings: Vec<Fitting>,
        /// The kind of the gauging device, if that was seen.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        gauging: Option<GaugingKind>,
        /// The end of the car on which the vapor valve is, if that was seen.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        vapour_end: Option<CarEnd>,
    },
    /// Shell capacity of the car, from its stencil or the owner.
    CarCapacity {
        /// How much it holds, shell full.
        capacity: Amount,
        /// How the tank is insulated, if that was seen.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        insulation: Option<Insulation>,
    },
    /// Inside diameter of the car's shell.
    CarDiameter {
        /// The diameter.
        diameter: Amount,
    },
    /// The owner's outage table.
    OutageTable {
        /// Owner's name for the table.
        name: String,
        /// Rows of outage in inches and gallons, as printed, outage rising.
        rows: Vec<(f64, f64)>,
        /// Whether the volumes are of liquid (true) or of the empty space (false).
        liquid: bool,
    },
    /// A test date marked on the car.
    CarTestDate {
        /// Which test.
        test: TestDate,
        /// When it is due, `YYYY-MM` or `YYYY`.
        due: String,
    },
    /// What a site is.
    Site(SiteProfile),
    /// A tank at a site.
    Tank(Tank),
    /// An instrument at a site.
    Instrument(Instrument),
    /// A hose at a site.
    Hose(Hose),
    /// Somebody to call.
    Contact(Contact),
    /// Seals issued to a site.
    SealStock(SealStock),
    /// A person of the organisation.
    Operator(Operator),
    /// A person's name was removed at the office. It is not said again of the same commitment.
    NameForgotten(NameForgotten),
    /// A person's own key, as a phone made it. It counts once somebody who keeps the people confirmed it.
    PersonKey(PersonKey),
    /// A person's key was confirmed: whoever keeps the people asked the person.
    PersonKeyConfirmed {
        /// Whose.
        person: OperatorId,
        /// Which key.
        key: DeviceId,
    },
    /// A person's key is over: forgotten, lost, or the person left. What it signed before stays signed.
    PersonKeyEnded {
        /// Whose.
        person: OperatorId,
        /// Which key.
        key: DeviceId,
        /// The last entry of the device the key lives on that the organisation had; what lies after it is
        /// not signed by the person.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        last: Option<LastEntry>,
    },
    /// This phone is now held by that person; signed by the person's own key.
    HeldBy {
        /// Who.
        person: OperatorId,
    },
    /// Late word of a revoked or lost device is let in after all, one entry at a time.
    Admitted {
        /// Which entry.
        entry: EntryId,
    },
    /// What roles may do in this organisation, and when people sign.
    Rules(Rules),
    /// The organisation publishes an edition of a procedure for its sites.
    ProcedurePublished(PublishedProcedure),
    /// A published edition is taken back: no new stay begins under it. A stay that began under it keeps it.
    ProcedureWithdrawn {
        /// The digest of the edition's text.
        procedure: Digest,
        /// Why.
        because: String,
    },
    /// A car is expected at the site by a shipping paper that the office imported.
    PaperExpected(PaperExpected),
    /// The paper of an expected car is taken back.
    PaperTakenBack(PaperTakenBack),
    /// A kind of statement a later version may know. Kept whole.
    #[serde(skip)]
    Unrecognised {
        /// Its name.
        kind: String,
    },
}

impl Statement {
    /// The path of the slot it speaks about.
    pub fn slot(&self) -> String {
        self.speaks_to().into()
    }

    /// Whether entries of this kind are points of a series, which never disagree with one another.
    pub fn is_series(&self) -> bool {
        Slot::is_series(&self.speaks_to())
    }

    /// The row of its kind.
    pub fn spec(&self) -> &'static StatementSpec {
        self.known_kind().map_or(&UNRECOGNISED, StatementKind::spec)
    }

    /// Whether this is known of the car rather than of the stay, and follows it to its next visit.
    /// A withdrawal or an agreement goes where what it speaks about goes.
    pub fn follows_the_car(&self) -> bool {
        self.spec().follows_the_car
    }

    /// Whether saying this binds the person: it carries the person's own signature where there is a key.
    /// What is merely seen, read or done is covered by who holds the phone.
    pub fn binds(&self) -> bool {
        self.spec().binds
    }

    /// The snake_case name of the kind.
    pub fn kind(&self) -> String {
        match self {
            Statement::Unrecognised { kind } => kind.clone(),
            known => known.spec().word.to_owned(),
        }
    }
}
