//! Everything an entry can say: one variant per kind of statement, and the slot each speaks about.
//!
//! Wire format: the variant's snake_case name and its field names are frozen (see the examples in
//! `tests/golden/entries`). A kind this version does not know is kept as [`Statement::Unrecognised`]
//! and never dropped.

use serde::{Deserialize, Serialize};

use super::car_number::CarNumber;
use super::certificate::LastEntry;
use super::coded::{Checked, Coded, SealNote, Told, Wind};
use super::site_facts::{
    Contact, Hose, Instrument, Operator, PersonKey, Rules, SealStock, SiteProfile, Tank,
};
use super::vocabulary::{
    ClockEvent, ClosureState, EmptySign, Fitting, Heard, Measured, Part, PhotoOf, PhotoRef, Place,
    Precipitation, Presence, Protection, Purpose, Receiver, SealEvent, SealKind, SealPlace, StepOutcome,
    TestDate, ValvePosition,
};
use crate::clock::UtcMillis;
use crate::ids::{DefectId, DeviceId, Digest, EntryId, HoldId, OperatorId, SiteId, VisitId, VisitNonce};
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
    TruckLoad {
        /// Which truck.
        truck: String,
        /// How much went into it.
        amount: Amount,
    },
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
    },
    /// Shell capacity of the car, from its stencil or the owner.
    CarCapacity {
        /// How much it holds, shell full.
        capacity: Amount,
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
    /// A kind of statement a later version may know. Kept whole.
    #[serde(skip)]
    Unrecognised {
        /// Its name.
        kind: String,
    },
}

/// The beginning of a visit.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Opened {
    /// The car's number as read from the stencil.
    pub car: CarNumber,
    /// Where it stands.
    pub site: SiteId,
    /// What receives the cargo.
    pub receiver: Receiver,
    /// Which procedure, by the digest of its text.
    pub procedure: Digest,
    /// Track or spot, as the site calls it.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub spot: String,
    /// What the visit's id was made from together with the site, see [`VisitId::at_site`]: it binds the
    /// visit to the site it was begun at. Absent in records of version one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub nonce: Option<VisitNonce>,
}

/// What the shipping paper says. Every field may be empty: what is not on the paper is not made up.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Paper {
    /// The paper's own number.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub number: String,
    /// The car number as printed there.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub car: String,
    /// Who shipped it.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub shipper: String,
    /// Identification number, such as UN1075.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub un_number: String,
    /// Proper shipping name.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub product: String,
    /// Billed quantity.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub billed: Option<Amount>,
    /// Relative density at 60 °F as billed.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub relative_density: Option<Amount>,
    /// Odorised, as the paper says; absent when it says nothing.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub odorised: Option<bool>,
}

/// One reading of one instrument.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Reading {
    /// What it measures.
    pub measured: Measured,
    /// Where.
    pub place: Place,
    /// What for.
    pub purpose: Purpose,
    /// What the instrument said, as typed.
    pub amount: Amount,
    /// The site's name for the instrument; empty when it was not said.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub instrument: String,
}

/// One event of one seal.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Seal {
    /// Found, applied or removed.
    pub event: SealEvent,
    /// Where.
    pub place: SealPlace,
    /// Its number, as read; empty when illegible or none.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub number: String,
    /// Its kind.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub kind: Option<SealKind>,
    /// Whether it was whole.
    pub intact: bool,
    /// The photograph of it in place.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub photo: Option<Digest>,
    /// Why there is no photograph; or, with an illegible or broken seal, what was seen. A code, or as typed.
    #[serde(default, skip_serializing_if = "Coded::is_empty")]
    pub note: Coded<SealNote>,
}

/// A defect of the car or its equipment.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Defect {
    /// This defect.
    pub defect: DefectId,
    /// At which fitting, if at one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub fitting: Option<Fitting>,
    /// What is wrong.
    pub what: String,
    /// Whether the car may move only with an authority's approval.
    pub needs_authority: bool,
    /// The photograph of it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub photo: Option<Digest>,
}

impl Statement {
    /// The slot this statement speaks about. Entries of one slot that differ disagree, unless
    /// [`Statement::is_series`].
    pub fn slot(&self) -> String {
        match self {
            Statement::Opened(_) => "opened".into(),
            Statement::Paper(_) => "paper".into(),
            Statement::Clock { event, .. } => format!("clock/{event}"),
            Statement::Reading(r) => {
                let kind = if r.purpose.has_one_truth() { "reading" } else { "series" };
                [kind, r.purpose.word(), r.measured.word(), r.place.word()].join("/")
            }
            Statement::Step { step, .. } => format!("step/{step}"),
            Statement::Valve { fitting, .. } => format!("fitting/{fitting}/valve"),
            Statement::Closure { fitting, .. } => format!("fitting/{fitting}/closure"),
            Statement::Listen { fitting, .. } => format!("fitting/{fitting}/listen"),
            Statement::Line { fitting, .. } => format!("fitting/{fitting}/line"),
            Statement::Effort { fitting, part, .. } => format!("series/effort/{fitting}/{part}"),
            Statement::Threads { fitting, .. } => format!("fitting/{fitting}/threads"),
            Statement::ItemOut { item, .. } | Statement::ItemIn { item } => {
                format!("item/{}", item.trim().to_lowercase())
            }
            Statement::Seal(s) if s.event == SealEvent::Found => format!("seal/{}/found", s.place),
            Statement::Seal(s) => format!("seal/{}", s.place),
            Statement::Photo { .. } => "series/photo".into(),
            Statement::Defect(d) => format!("defect/{}", d.defect),
            Statement::Forwarded { defect, .. } => format!("series/forwarded/{defect}"),
            Statement::Authority { defect, .. } => format!("defect/{defect}/authority"),
            Statement::Resolved { defect, .. } => format!("defect/{defect}/resolved"),
            Statement::Hold { hold, .. } | Statement::HoldLifted { hold, .. } => format!("hold/{hold}"),
            Statement::HandoverGiven { .. } | Statement::HandoverTaken { .. } => "series/handover".into(),
            Statement::Attendance { .. } => "series/attendance".into(),
            Statement::Cover { .. } => "cover".into(),
            Statement::Protection { what, .. } => format!("protection/{what}"),
            Statement::Weather { .. } => "series/weather".into(),
            Statement::EmptySign { sign, .. } => format!("empty/{sign}"),
            Statement::EmptyDecision { .. } => "empty/decision".into(),
            Statement::TruckLoad { .. } => "series/truck_load".into(),
            Statement::Check { what, .. } => format!("check/{}", what.text().trim().to_lowercase()),
            Statement::Remark { .. } => "series/remark".into(),
            // These two speak about the slot of what they settle; the author sets it.
            Statement::Agreement { .. } | Statement::Withdrawn {} => String::new(),
            Statement::Joined { other } | Statement::NotJoined { other } => format!("joined/{other}"),
            Statement::PassedOver { blocker, .. } => format!("passed_over/{blocker}"),
            Statement::Released { .. } => "released".into(),
            Statement::CarNumberAgain { .. } => "car_number/again".into(),
            Statement::CarFittings { .. } => "car/fittings".into(),
            Statement::CarCapacity { .. } => "car/capacity".into(),
            Statement::CarDiameter { .. } => "car/diameter".into(),
            Statement::OutageTable { .. } => "car/outage_table".into(),
            Statement::CarTestDate { test, .. } => format!("car/test/{test}"),
            Statement::Site(_) => "site".into(),
            Statement::Tank(t) => format!("tank/{}", t.name),
            Statement::Instrument(i) => format!("instrument/{}", i.name),
            Statement::Hose(h) => format!("hose/{}", h.name),
            Statement::Contact(c) => format!("contact/{}", c.role.text()),
            Statement::SealStock(s) => format!("seal_stock/{}", s.from),
            Statement::Operator(o) => format!("operator/{}", o.operator),
            Statement::PersonKey(k) => format!("series/person_key/{}", k.key),
            Statement::PersonKeyConfirmed { key, .. } => format!("person_key/{key}/confirmed"),
            Statement::PersonKeyEnded { key, .. } => format!("person_key/{key}/ended"),
            Statement::HeldBy { .. } => "series/held_by".into(),
            Statement::Admitted { entry } => format!("admitted/{entry}"),
            Statement::Rules(_) => "rules".into(),
            Statement::Unrecognised { kind } => format!("series/unrecognised/{kind}"),
        }
    }

    /// The amounts it holds, each as somebody typed it.
    pub fn amounts(&self) -> impl Iterator<Item = &Amount> {
        let amounts = match self {
            Statement::Reading(reading) => [Some(&reading.amount), None],
            Statement::Effort { amount, .. } | Statement::TruckLoad { amount, .. } => [Some(amount), None],
            Statement::Threads { engaged, .. } => [Some(engaged), None],
            Statement::CarCapacity { capacity } => [Some(capacity), None],
            Statement::CarDiameter { diameter } => [Some(diameter), None],
            Statement::Paper(paper) => [paper.billed.as_ref(), paper.relative_density.as_ref()],
            Statement::Site(site) => [Some(&site.elevation), None],
            Statement::Tank(tank) => [Some(&tank.water_capacity), None],
            Statement::Instrument(instrument) => [Some(&instrument.span), None],
            _ => [None, None],
        };
        amounts.into_iter().flatten()
    }

    /// Whether entries of this kind are points of a series, which never disagree with one another.
    pub fn is_series(&self) -> bool {
        self.slot().starts_with("series/")
    }

    /// Whether this is known of the car rather than of the stay, and follows it to its next visit.
    /// A withdrawal or an agreement goes where what it speaks about goes.
    pub fn follows_the_car(&self) -> bool {
        matches!(
            self,
            Statement::Effort { .. }
                | Statement::Threads { .. }
                | Statement::Defect(_)
                | Statement::Forwarded { .. }
                | Statement::Authority { .. }
                | Statement::Resolved { .. }
                | Statement::Agreement { .. }
                | Statement::Withdrawn {}
                | Statement::CarFittings { .. }
                | Statement::CarCapacity { .. }
                | Statement::CarDiameter { .. }
                | Statement::OutageTable { .. }
                | Statement::CarTestDate { .. }
        )
    }

    /// Whether saying this binds the person: it carries the person's own signature where there is a key.
    /// What is merely seen, read or done is covered by who holds the phone.
    pub fn binds(&self) -> bool {
        match self {
            Statement::Released { .. }
            | Statement::PassedOver { .. }
            | Statement::Agreement { .. }
            | Statement::Withdrawn {}
            | Statement::HoldLifted { .. }
            | Statement::Joined { .. }
            | Statement::NotJoined { .. }
            | Statement::EmptyDecision { .. }
            | Statement::Admitted { .. }
            | Statement::HeldBy { .. }
            | Statement::PersonKey(_) => true,
            Statement::Opened(_)
            | Statement::Paper(_)
            | Statement::Clock { .. }
            | Statement::Reading(_)
            | Statement::Step { .. }
            | Statement::Valve { .. }
            | Statement::Closure { .. }
            | Statement::Listen { .. }
            | Statement::Line { .. }
            | Statement::Effort { .. }
            | Statement::Threads { .. }
            | Statement::ItemOut { .. }
            | Statement::ItemIn { .. }
            | Statement::Seal(_)
            | Statement::Photo { .. }
            | Statement::Defect(_)
            | Statement::Forwarded { .. }
            | Statement::Authority { .. }
            | Statement::Resolved { .. }
            | Statement::Hold { .. }
            | Statement::HandoverGiven { .. }
            | Statement::HandoverTaken { .. }
            | Statement::Attendance { .. }
            | Statement::Cover { .. }
            | Statement::Protection { .. }
            | Statement::Weather { .. }
            | Statement::EmptySign { .. }
            | Statement::TruckLoad { .. }
            | Statement::Check { .. }
            | Statement::Remark { .. }
            | Statement::CarNumberAgain { .. }
            | Statement::CarFittings { .. }
            | Statement::CarCapacity { .. }
            | Statement::CarDiameter { .. }
            | Statement::OutageTable { .. }
            | Statement::CarTestDate { .. }
            | Statement::Site(_)
            | Statement::Tank(_)
            | Statement::Instrument(_)
            | Statement::Hose(_)
            | Statement::Contact(_)
            | Statement::SealStock(_)
            | Statement::Operator(_)
            | Statement::PersonKeyConfirmed { .. }
            | Statement::PersonKeyEnded { .. }
            | Statement::Rules(_)
            | Statement::Unrecognised { .. } => false,
        }
    }

    /// The snake_case name of the kind.
    pub fn kind(&self) -> String {
        if let Statement::Unrecognised { kind } = self {
            return kind.clone();
        }
        match serde_json::to_value(self) {
            Ok(serde_json::Value::Object(map)) => map.keys().next().cloned().unwrap_or_default(),
            Ok(serde_json::Value::String(word)) => word,
            _ => String::new(),
        }
    }
}
