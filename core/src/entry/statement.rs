//! Everything an entry can say: one variant per kind of statement, and below them one row per kind.
//!
//! Wire format: the variant's snake_case name and its field names are frozen (see the examples in
//! `tests/golden/entries`). A kind this version does not know is kept as [`Statement::Unrecognised`]
//! and never dropped. The row of a kind is the one place where the program says which slot it speaks about, whose act
//! it is, how it is typed and how it reads (`spec` says what a row can hold); DEVELOPERS.md says what else a new kind
//! needs.

use serde::{Deserialize, Serialize};

use super::car_number::CarNumber;
use super::certificate::LastEntry;
use super::coded::{Checked, Coded, Told, Wind};
use super::site_facts::{
    Contact, Hose, Instrument, Operator, PersonKey, Rules, SealStock, SiteProfile, Tank,
};
use super::slot::Slot;
use super::spec::*;
use super::visit_facts::{Defect, Opened, Paper, Reading, Seal};
use super::vocabulary::{
    ClockEvent, ClosureState, EmptySign, Fitting, Heard, Part, PhotoOf, PhotoRef, Precipitation, Presence,
    Protection, SealEvent, StepOutcome, TestDate, ValvePosition,
};
use crate::clock::UtcMillis;
use crate::ids::{DefectId, DeviceId, EntryId, HoldId, OperatorId, VisitId};
use crate::units::{Amount, Unit};

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

// One row for each kind: the slot it speaks about, the amounts it holds, and what else the program has to know of it.
statement_kinds! {
    Reading(said) => Slot::reading(said.purpose, said.measured, said.place), [&said.amount],
        StatementSpec::of("reading", Act::Record, &[
            must("measured", Shape::Word(MEASURED)), must("place", Shape::Word(PLACE)),
            must("purpose", Shape::Word(PURPOSE)), must("amount", Shape::AmountOf("measured")),
            may("instrument", Shape::Text),
        ]).typed_in(TypedIn::Visit);
    Valve { fitting, .. } => Slot::valve(*fitting), [],
        StatementSpec::of("valve", Act::Record, &[
            must("fitting", Shape::Word(FITTING)), must("position", Shape::Word(VALVE_POSITION)),
        ]).typed_in(TypedIn::Visit);
    Closure { fitting, .. } => Slot::closure(*fitting), [],
        StatementSpec::of("closure", Act::Record, &[
            must("fitting", Shape::Word(FITTING)), must("state", Shape::Word(CLOSURE_STATE)),
        ]).typed_in(TypedIn::Visit);
    Listen { fitting, .. } => Slot::listen(*fitting), [],
        StatementSpec::of("listen", Act::Record, &[
            must("fitting", Shape::Word(FITTING)), must("heard", Shape::Word(HEARD)),
        ]).typed_in(TypedIn::Visit).reads("Listened at the {fitting}: {heard}.");
    Line { fitting, .. } => Slot::line(*fitting), [],
        StatementSpec::of("line", Act::Record, &[
            must("fitting", Shape::Word(FITTING)), must("connected", Shape::YesNo), may("hose", Shape::Text),
        ]).typed_in(TypedIn::Visit);
    Effort { fitting, part, amount } => Slot::effort(*fitting, *part), [amount],
        StatementSpec::of("effort", Act::KnowCar, &[
            must("fitting", Shape::Word(FITTING)), must("part", Shape::Word(PART)),
            must("amount", Shape::Amount(Unit::FootPound)),
        ]).follows_the_car().typed_in(TypedIn::Visit);
    Threads { fitting, engaged } => Slot::threads(*fitting), [engaged],
        StatementSpec::of("threads", Act::KnowCar, &[
            must("fitting", Shape::Word(FITTING)), must("engaged", Shape::Amount(Unit::Turns)),
        ]).follows_the_car().typed_in(TypedIn::Visit).reads("Threads engaged at the {fitting}: {engaged}.");
    ItemOut { item, .. } => Slot::item(item), [],
        StatementSpec::of("item_out", Act::Record, &[
            must("item", Shape::Text), may("fitting", Shape::Word(FITTING)),
        ]).typed_in(TypedIn::Visit);
    ItemIn { item } => Slot::item(item), [],
        StatementSpec::of("item_in", Act::Record, &[must("item", Shape::Text)]).typed_in(TypedIn::Visit);
    Step { step, .. } => Slot::step(step), [],
        StatementSpec::of("step", Act::Record, &[
            must("step", Shape::Text), usually("outcome", Shape::Word(STEP_OUTCOME), "done"),
            may("note", Shape::Prose),
        ]).typed_in(TypedIn::Visit);
    Seal(seal) => match seal.event {
            SealEvent::Found => Slot::seal_found(seal.place),
            SealEvent::Applied | SealEvent::Removed => Slot::seal(seal.place),
        }, [],
        StatementSpec::of("seal", Act::Record, &[
            must("event", Shape::Word(SEAL_EVENT)), must("place", Shape::Word(SEAL_PLACE)),
            may("number", Shape::Text), may("kind", Shape::Word(SEAL_KIND)),
            usually("intact", Shape::YesNo, "yes"), may("photo", Shape::Photo),
            may("note", Shape::Coded(SEAL_NOTE)),
        ]).typed_in(TypedIn::Visit);
    Cover { .. } => Slot::COVER, [],
        StatementSpec::of("cover", Act::Record, &[
            must("closed", Shape::YesNo), must("pinned", Shape::YesNo), must("bolts_in_place", Shape::Count),
            must("bolts_required", Shape::Count),
        ]).typed_in(TypedIn::Visit);
    Protection { what, .. } => Slot::protection(*what), [],
        StatementSpec::of("protection", Act::Record, &[
            must("what", Shape::Word(PROTECTION)), must("set", Shape::YesNo),
        ]).typed_in(TypedIn::Visit);
    EmptySign { sign, .. } => Slot::empty_sign(*sign), [],
        StatementSpec::of("empty_sign", Act::Record, &[
            must("sign", Shape::Word(EMPTY_SIGN)), must("seen", Shape::YesNo),
        ]).typed_in(TypedIn::Visit);
    EmptyDecision { .. } => Slot::EMPTY_DECISION, [],
        StatementSpec::of("empty_decision", Act::Record, &[
            must("accepted", Shape::YesNo), must("grounds", Shape::Prose),
        ]).binds().typed_in(TypedIn::Visit).phone_form();
    Defect(defect) => Slot::defect(&defect.defect), [],
        StatementSpec::of("defect", Act::KnowCar, &[
            must("what", Shape::Prose), usually("needs_authority", Shape::YesNo, "no"),
            may("fitting", Shape::Word(FITTING)), may("photo", Shape::Photo), may("defect", Shape::Defect),
        ]).follows_the_car().typed_in(TypedIn::Visit);
    Forwarded { defect, .. } => Slot::forwarded(defect), [],
        StatementSpec::of("forwarded", Act::KnowCar, &[
            must("defect", Shape::Defect), must("to", Shape::Text), must("how", Shape::Coded(TOLD)),
        ]).follows_the_car().typed_in(TypedIn::Visit).phone_form_about("defect")
            .reads("Defect reported to {to} ({how}).");
    Authority { defect, .. } => Slot::authority(defect), [],
        StatementSpec::of("authority", Act::KnowCar, &[
            must("defect", Shape::Defect), must("by", Shape::Text), must("reference", Shape::Text),
            may("spoken_at", Shape::Time), may("written_at", Shape::Time),
        ]).follows_the_car().typed_in(TypedIn::Visit).phone_form_about("defect");
    Resolved { defect, .. } => Slot::resolved(defect), [],
        StatementSpec::of("resolved", Act::KnowCar, &[
            must("defect", Shape::Defect), must("how", Shape::Prose),
        ]).follows_the_car().typed_in(TypedIn::Visit).phone_form_about("defect")
            .reads("Defect put right: {how}.");
    Hold { hold, .. } => Slot::hold(hold), [],
        StatementSpec::of("hold", Act::Record, &[must("because", Shape::Prose), may("hold", Shape::Hold)])
            .typed_in(TypedIn::Visit).phone_form().reads("HOLD: {because}.");
    HoldLifted { hold, .. } => Slot::hold(hold), [],
        StatementSpec::of("hold_lifted", Act::LiftHold, &[
            must("hold", Shape::Hold), must("because", Shape::Prose),
        ]).binds().typed_in(TypedIn::Visit).phone_form_about("hold").reads("Hold lifted: {because}.");
    HandoverGiven { .. } => Slot::HANDOVERS, [],
        StatementSpec::of("handover_given", Act::Record, &[must("to", Shape::Person)])
            .typed_in(TypedIn::Visit).reads("Handed over to {to}.");
    HandoverTaken { .. } => Slot::HANDOVERS, [],
        StatementSpec::of("handover_taken", Act::Record, &[must("from", Shape::Person)])
            .typed_in(TypedIn::Visit).reads("Taken over from {from}.");
    Attendance { .. } => Slot::ATTENDANCE, [],
        StatementSpec::of("attendance", Act::Record, &[must("presence", Shape::Word(PRESENCE))])
            .typed_in(TypedIn::Visit);
    Clock { event, .. } => Slot::clock(*event), [],
        StatementSpec::of("clock", Act::Record, &[
            must("event", Shape::Word(CLOCK_EVENT)), usually("at", Shape::Time, "now"),
        ]).typed_in(TypedIn::Visit).phone_form_about("event");
    Weather { .. } => Slot::WEATHER, [],
        StatementSpec::of("weather", Act::Record, &[
            must("precipitation", Shape::Word(PRECIPITATION)), may("wind", Shape::Coded(WIND)),
        ]).typed_in(TypedIn::Visit);
    Paper(paper) => Slot::PAPER, [paper.billed.as_ref(), paper.relative_density.as_ref()],
        StatementSpec::of("paper", Act::Record, &[
            may("number", Shape::Text), may("car", Shape::Text), may("shipper", Shape::Text),
            may("un_number", Shape::Text), may("product", Shape::Text),
            may("billed", Shape::Amount(Unit::Gallon)), may("relative_density", Shape::Amount(Unit::One)),
            may("odorised", Shape::YesNo),
        ]).typed_in(TypedIn::Visit);
    TruckLoad { amount, .. } => Slot::TRUCK_LOADS, [amount],
        StatementSpec::of("truck_load", Act::Record, &[
            must("truck", Shape::Text), must("amount", Shape::Amount(Unit::Gallon)),
        ]).typed_in(TypedIn::Visit).reads("Truck {truck} loaded with {amount}.");
    Check { what, .. } => Slot::check(&what.text()), [],
        StatementSpec::of("check", Act::Record, &[
            must("what", Shape::Coded(CHECKED)), must("right", Shape::YesNo), may("note", Shape::Prose),
        ]).typed_in(TypedIn::Visit);
    Remark { .. } => Slot::REMARKS, [],
        StatementSpec::of("remark", Act::Note, &[must("text", Shape::Prose)])
            .typed_in(TypedIn::Visit).phone_form();
    CarNumberAgain { .. } => Slot::CAR_NUMBER_AGAIN, [],
        StatementSpec::of("car_number_again", Act::Record, &[must("car", Shape::CarNumber)])
            .typed_in(TypedIn::Visit).phone_form().reads("Number read again from the stencil: {car}.");
    CarFittings { .. } => Slot::CAR_FITTINGS, [],
        StatementSpec::of("car_fittings", Act::KnowCar, &[must("fittings", Shape::Words(FITTING))])
            .follows_the_car().typed_in(TypedIn::Visit);
    CarCapacity { capacity } => Slot::CAR_CAPACITY, [capacity],
        StatementSpec::of("car_capacity", Act::KnowCar, &[must("capacity", Shape::Amount(Unit::Gallon))])
            .follows_the_car().typed_in(TypedIn::Visit).reads("Shell capacity {capacity}.");
    CarDiameter { diameter } => Slot::CAR_DIAMETER, [diameter],
        StatementSpec::of("car_diameter", Act::KnowCar, &[must("diameter", Shape::Amount(Unit::Inch))])
            .follows_the_car().typed_in(TypedIn::Visit).reads("Inside diameter {diameter}.");
    CarTestDate { test, .. } => Slot::car_test(*test), [],
        StatementSpec::of("car_test_date", Act::KnowCar, &[
            must("test", Shape::Word(TEST_DATE)), must("due", Shape::Date),
        ]).follows_the_car().typed_in(TypedIn::Visit).phone_form_about("test");
    OutageTable { .. } => Slot::OUTAGE_TABLE, [],
        StatementSpec::of("outage_table", Act::KnowCar, &[
            must("name", Shape::Text), must("rows", Shape::Table), usually("liquid", Shape::YesNo, "yes"),
        ]).follows_the_car().typed_in(TypedIn::Visit);
    // It is typed only to correct how a visit was opened; what is not given stays as it was.
    Opened(_) => Slot::OPENED, [],
        StatementSpec::of("opened", Act::Open, &[
            must("car", Shape::CarNumber), may("receiver", Shape::Word(RECEIVER)), may("spot", Shape::Text),
            given("site", Shape::Site), given("procedure", Shape::Procedure), given("nonce", Shape::Nonce),
        ]).typed_in(TypedIn::Visit);
    Photo { .. } => Slot::PHOTOS, [],
        StatementSpec::of("photo", Act::Note, &[
            must("of", Shape::Word(PHOTO_OF)), may("about", Shape::Text), given("photo", Shape::PhotoFile),
        ]);
    Agreement { .. } => Slot::NONE, [],
        StatementSpec::of("agreement", Act::Settle, &[must("keeps", Shape::Entry)]).binds().follows_the_car();
    Withdrawn {} => Slot::NONE, [],
        StatementSpec::of("withdrawn", Act::Withdraw, &[]).binds().follows_the_car();
    Joined { other } => Slot::joined(other), [],
        StatementSpec::of("joined", Act::Join, &[must("other", Shape::Visit)]).binds()
            .reads("The same stay as visit {other}.");
    NotJoined { other } => Slot::joined(other), [],
        StatementSpec::of("not_joined", Act::Join, &[must("other", Shape::Visit)]).binds()
            .reads("Not the same stay as visit {other}.");
    PassedOver { blocker, .. } => Slot::passed_over(blocker), [],
        StatementSpec::of("passed_over", Act::PassOver, &[
            must("blocker", Shape::Text), given("seen", Shape::Entries),
        ]).binds();
    Released { .. } => Slot::RELEASED, [],
        StatementSpec::of("released", Act::Release, &[must("as_residue", Shape::YesNo)]).binds();
    Site(site) => Slot::SITE, [&site.elevation],
        StatementSpec::of("site", Act::KeepSite, &[
            must("name", Shape::Text), must("zone", Shape::Text), must("elevation", Shape::Amount(Unit::Foot)),
            usually("attendance_gap_minutes", Shape::Count, "0"), may("local_rules", Shape::Prose),
        ]).typed_in(TypedIn::Site).reads("Site {name}, zone {zone}.");
    Tank(tank) => Slot::tank(&tank.name), [&tank.water_capacity],
        StatementSpec::of("tank", Act::KeepSite, &[
            must("name", Shape::Text), must("water_capacity", Shape::Amount(Unit::Gallon)),
            usually("underground", Shape::YesNo, "no"),
        ]).typed_in(TypedIn::Site).reads("Tank {name}, {water_capacity}.");
    Instrument(instrument) => Slot::instrument(&instrument.name), [&instrument.span],
        StatementSpec::of("instrument", Act::KeepSite, &[
            must("name", Shape::Text), must("measures", Shape::Word(MEASURED)),
            must("span", Shape::AmountOf("measures")), may("grade", Shape::Text),
            may("calibration_due", Shape::Date),
        ]).typed_in(TypedIn::Site);
    Hose(hose) => Slot::hose(&hose.name), [],
        StatementSpec::of("hose", Act::KeepSite, &[
            must("name", Shape::Text), must("service", Shape::Text), may("test_due", Shape::Date),
        ]).typed_in(TypedIn::Site).reads("Hose {name} for {service}.");
    Contact(contact) => Slot::contact(&contact.role.text()), [],
        StatementSpec::of("contact", Act::KeepSite, &[
            must("role", Shape::Coded(CONTACT_ROLE)), must("name", Shape::Text),
            must("telephone", Shape::Text), may("note", Shape::Text),
        ]).typed_in(TypedIn::Site).reads("{role}: {name}, {telephone}.");
    SealStock(stock) => Slot::seal_stock(&stock.from), [],
        StatementSpec::of("seal_stock", Act::IssueSeals, &[
            must("from", Shape::Text), must("to", Shape::Text), must("kind", Shape::Coded(SEAL_KIND_OR_TEXT)),
        ]).typed_in(TypedIn::Site).reads("Seals {from} to {to} issued.");
    Operator(operator) => Slot::operator(&operator.operator), [],
        StatementSpec::of("operator", Act::KeepPeople, &[
            must("operator", Shape::Text), must("name", Shape::Text), may("trained_on", Shape::Date),
            usually("active", Shape::YesNo, "yes"),
        ]).typed_in(TypedIn::Roster).reads("{operator} is {name}.");
    PersonKey(made) => Slot::person_key(&made.key), [],
        StatementSpec::of("person_key", Act::OfferKey, &[
            must("person", Shape::Person), given("key", Shape::Key), given("kept", Shape::Word(KEY_KEPT)),
        ]).binds().reads("{person} made a key of their own on this phone ({key}).");
    PersonKeyConfirmed { key, .. } => Slot::person_key_confirmed(key), [],
        StatementSpec::of("person_key_confirmed", Act::KeepPeople, &[
            must("person", Shape::Person), must("key", Shape::Key),
        ]).reads("The key {key} of {person} was confirmed.");
    PersonKeyEnded { key, .. } => Slot::person_key_ended(key), [],
        StatementSpec::of("person_key_ended", Act::KeepPeople, &[
            must("person", Shape::Person), must("key", Shape::Key), given("last", Shape::LastEntry),
        ]).reads("The key {key} of {person} is over.");
    HeldBy { .. } => Slot::HELD_BY, [],
        StatementSpec::of("held_by", Act::HoldPhone, &[must("person", Shape::Person)]).binds()
            .reads("This phone is now held by {person}.");
    Admitted { entry } => Slot::admitted(entry), [],
        StatementSpec::of("admitted", Act::Admit, &[must("entry", Shape::Entry)]).binds()
            .reads("Late entry {entry} admitted.");
    Rules(_) => Slot::RULES, [],
        StatementSpec::of("rules", Act::KeepPeople, &[
            must("unlocking", Shape::Word(UNLOCKING)), usually("signature_required", Shape::YesNo, "no"),
            may("operator_rights", Shape::Words(RIGHT)),
        ]).typed_in(TypedIn::Rules).reads("What roles may do was set for this organisation.");
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
