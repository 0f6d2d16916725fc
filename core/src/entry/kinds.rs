//! The table of kinds: one row for each kind of statement.
//!
//! The row of a kind is the one place where the program says which slot it speaks about, whose act it is, how it is
//! typed and how it reads (`spec` says what a row can hold); DEVELOPERS.md says what else a new kind needs. The
//! variants are in `statement`.

use super::slot::Slot;
use super::spec::*;
use super::statement::Statement;
use super::vocabulary::SealEvent;
use crate::units::{Amount, Unit};

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
        ]).typed_in(TypedIn::Visit);
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
        ]).follows_the_car().typed_in(TypedIn::Visit);
    ValveFeel(said) => Slot::feel(said.fitting), [],
        StatementSpec::of("valve_feel", Act::KnowCar, &[
            must("feel", Shape::Word(FEEL)), must("fitting", Shape::Word(FITTING)),
        ]).follows_the_car().typed_in(TypedIn::Visit).phone_form();
    PlugCondition(said) => Slot::plug(said.fitting), [],
        StatementSpec::of("plug_condition", Act::KnowCar, &[
            must("state", Shape::Word(PLUG_STATE)), must("fitting", Shape::Word(FITTING)),
            may("note", Shape::Prose),
        ]).follows_the_car().typed_in(TypedIn::Visit).phone_form();
    CoverCondition(said) => Slot::cover_part(said.part), [],
        StatementSpec::of("cover_condition", Act::KnowCar, &[
            must("part", Shape::Word(COVER_PART)), must("state", Shape::Word(PART_STATE)),
            may("note", Shape::Prose),
        ]).follows_the_car().typed_in(TypedIn::Visit).phone_form();
    HosePressure { fitting, amount } => Slot::hose_pressure(*fitting), [amount],
        StatementSpec::of("hose_pressure", Act::Record, &[
            must("fitting", Shape::Word(FITTING)), must("amount", Shape::Amount(Unit::PsiGauge)),
        ]).typed_in(TypedIn::Visit).phone_form();
    NextTime(said) => Slot::next_time(&said.note), [],
        StatementSpec::of("next_time", Act::KnowCar, &[
            must("what", Shape::Prose), may("fitting", Shape::Word(FITTING)), may("note", Shape::Note),
        ]).follows_the_car().typed_in(TypedIn::Visit).phone_form();
    NextTimeDone(said) => Slot::next_time_done(&said.note), [],
        StatementSpec::of("next_time_done", Act::KnowCar, &[
            must("note", Shape::Note), may("how", Shape::Prose),
        ]).follows_the_car().typed_in(TypedIn::Visit).phone_form_about("note");
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
            may("note", Shape::Coded(SEAL_NOTE)), may("because", Shape::Text),
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
        ]).follows_the_car().typed_in(TypedIn::Visit).phone_form_about("defect") ;
    Authority { defect, .. } => Slot::authority(defect), [],
        StatementSpec::of("authority", Act::KnowCar, &[
            must("defect", Shape::Defect), must("by", Shape::Text), must("reference", Shape::Text),
            may("spoken_at", Shape::Time), may("written_at", Shape::Time),
        ]).follows_the_car().typed_in(TypedIn::Visit).phone_form_about("defect");
    Resolved { defect, .. } => Slot::resolved(defect), [],
        StatementSpec::of("resolved", Act::KnowCar, &[
            must("defect", Shape::Defect), must("how", Shape::Prose),
        ]).follows_the_car().typed_in(TypedIn::Visit).phone_form_about("defect") ;
    Hold { hold, .. } => Slot::hold(hold), [],
        StatementSpec::of("hold", Act::Record, &[must("because", Shape::Prose), may("hold", Shape::Hold)])
            .typed_in(TypedIn::Visit).phone_form();
    HoldLifted { hold, .. } => Slot::hold(hold), [],
        StatementSpec::of("hold_lifted", Act::LiftHold, &[
            must("hold", Shape::Hold), must("because", Shape::Prose),
        ]).binds().typed_in(TypedIn::Visit).phone_form_about("hold");
    Incident(said) => Slot::incident(&said.incident), [],
        StatementSpec::of("incident", Act::Record, &[
            must("source", Shape::Coded(INCIDENT_SOURCE)), usually("noticed_at", Shape::Time, "now"),
            may("injury", Shape::Word(INJURY)), may("ignition", Shape::YesNo),
            may("evacuation", Shape::Word(EVACUATION)), may("closed", Shape::YesNo), may("what", Shape::Prose),
            may("fitting", Shape::Word(FITTING)), may("incident", Shape::Incident),
        ]).typed_in(TypedIn::Visit).phone_form();
    IncidentStopped(said) => Slot::incident_stopped(&said.incident), [said.loss.as_ref()],
        StatementSpec::of("incident_stopped", Act::Record, &[
            must("incident", Shape::Incident), usually("at", Shape::Time, "now"),
            may("loss", Shape::Amount(Unit::Gallon)), may("minimal", Shape::YesNo),
        ]).typed_in(TypedIn::Visit).phone_form_about("incident");
    IncidentCall(said) => Slot::incident_calls(&said.incident), [],
        StatementSpec::of("incident_call", Act::Record, &[
            must("incident", Shape::Incident), must("to", Shape::Coded(CALLED)),
            usually("at", Shape::Time, "now"), may("number", Shape::Text),
        ]).typed_in(TypedIn::Visit).phone_form_about("incident");
    IncidentClosed { incident, .. } => Slot::incident_closed(incident), [],
        StatementSpec::of("incident_closed", Act::LiftHold, &[
            must("incident", Shape::Incident), must("how", Shape::Prose),
        ]).binds().typed_in(TypedIn::Visit).phone_form_about("incident");
    Leak(said) => Slot::leak(&said.leak), [],
        StatementSpec::of("leak", Act::Record, &[
            must("at", Shape::Coded(LEAK_AT)), may("action", Shape::Prose), may("fitting", Shape::Word(FITTING)),
            may("leak", Shape::Leak),
        ]).typed_in(TypedIn::Visit).phone_form();
    LeakChecked(said) => Slot::leak_checked(&said.leak), [],
        StatementSpec::of("leak_checked", Act::Record, &[
            must("leak", Shape::Leak), must("tight", Shape::YesNo), may("note", Shape::Prose),
        ]).typed_in(TypedIn::Visit).phone_form_about("leak");
    CarLeft(_) => Slot::CAR_LEFT, [],
        StatementSpec::of("car_left", Act::Record, &[
            must("connected", Shape::YesNo), may("conditions", Shape::Words(LEFT_CONDITION)),
            may("until", Shape::Time), may("note", Shape::Prose),
        ]).typed_in(TypedIn::Visit).phone_form();
    CarMoved(_) => Slot::CAR_MOVED, [],
        StatementSpec::of("car_moved", Act::Record, &[may("to", Shape::Text), may("by", Shape::Text)])
            .typed_in(TypedIn::Visit).phone_form();
    Outcome(_) => Slot::OUTCOME, [],
        StatementSpec::of("outcome", Act::Record, &[
            must("load", Shape::Word(CAR_LOAD)), must("because", Shape::Coded(LEAVES_AS)), may("to", Shape::Text),
            may("note", Shape::Prose),
        ]).binds().typed_in(TypedIn::Visit).phone_form();
    HandoverGiven { .. } => Slot::HANDOVERS, [],
        StatementSpec::of("handover_given", Act::Record, &[must("to", Shape::Person)])
            .typed_in(TypedIn::Visit);
    HandoverTaken { .. } => Slot::HANDOVERS, [],
        StatementSpec::of("handover_taken", Act::Record, &[must("from", Shape::Person)])
            .typed_in(TypedIn::Visit);
    Attendance { .. } => Slot::ATTENDANCE, [],
        StatementSpec::of("attendance", Act::Record, &[must("presence", Shape::Word(PRESENCE))])
            .typed_in(TypedIn::Visit);
    CheckedIn {} => Slot::CHECKED_IN, [],
        StatementSpec::of("checked_in", Act::Record, &[]).typed_in(TypedIn::Visit);
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
            may("odorised", Shape::YesNo), may("grade", Shape::Word(GRADE)),
            may("billed_by", Shape::Word(BILLED_BY)), may("winter_fill", Shape::YesNo),
            given("compared", Shape::Entry),
        ]).typed_in(TypedIn::Visit);
    TruckLoad(load) => Slot::TRUCK_LOADS, [&load.amount, load.level.as_ref(), load.temperature.as_ref()],
        StatementSpec::of("truck_load", Act::Record, &[
            must("truck", Shape::Text), must("amount", Shape::Amount(Unit::Gallon)), may("ticket", Shape::Text),
            may("driver", Shape::Text), may("level", Shape::Amount(Unit::Percent)),
            may("temperature", Shape::Amount(Unit::Fahrenheit)), may("seal", Shape::Text),
        ]).typed_in(TypedIn::Visit).phone_form();
    TankGauged(said) => Slot::TANKS_GAUGED,
        [said.level.as_ref(), said.pressure.as_ref(), said.temperature.as_ref(), said.meter.as_ref()],
        StatementSpec::of("tank_gauged", Act::Record, &[
            must("moment", Shape::Word(TANK_MOMENT)), must("tank", Shape::Text),
            may("level", Shape::Amount(Unit::Percent)), may("pressure", Shape::Amount(Unit::PsiGauge)),
            may("temperature", Shape::Amount(Unit::Fahrenheit)), may("meter", Shape::Amount(Unit::Gallon)),
        ]).typed_in(TypedIn::Visit).phone_form();
    RecoveryPlanned(said) => Slot::RECOVERY_PLANNED,
        [&said.target, said.swept.as_ref(), said.efficiency.as_ref(), said.price.as_ref(), said.cost.as_ref()],
        StatementSpec::of("recovery_planned", Act::Record, &[
            must("target", Shape::Amount(Unit::PsiGauge)), may("swept", Shape::Amount(Unit::CubicFootPerMinute)),
            may("efficiency", Shape::Amount(Unit::Percent)), may("price", Shape::Amount(Unit::Money)),
            may("cost", Shape::Amount(Unit::MoneyPerHour)),
        ]).typed_in(TypedIn::Visit).phone_form();
    Inspection(_) => Slot::INSPECTIONS, [],
        StatementSpec::of("inspection", Act::Record, &[
            must("by", Shape::Text), may("looked_at", Shape::Prose), may("found", Shape::YesNo),
            may("finding", Shape::Prose), may("copy_left", Shape::YesNo),
        ]).typed_in(TypedIn::Visit).phone_form();
    Check { what, .. } => Slot::check(&what.text()), [],
        StatementSpec::of("check", Act::Record, &[
            must("what", Shape::Coded(CHECKED)), must("right", Shape::YesNo), may("note", Shape::Prose),
        ]).typed_in(TypedIn::Visit);
    Remark { .. } => Slot::REMARKS, [],
        StatementSpec::of("remark", Act::Note, &[must("text", Shape::Prose)])
            .typed_in(TypedIn::Visit).phone_form();
    CarNumberAgain { .. } => Slot::CAR_NUMBER_AGAIN, [],
        StatementSpec::of("car_number_again", Act::Record, &[must("car", Shape::CarNumber)])
            .typed_in(TypedIn::Visit).phone_form();
    CarFittings { .. } => Slot::CAR_FITTINGS, [],
        StatementSpec::of("car_fittings", Act::KnowCar, &[
            must("fittings", Shape::Words(FITTING)), may("gauging", Shape::Word(GAUGING_KIND)),
            may("vapour_end", Shape::Word(CAR_END)),
        ]).follows_the_car().typed_in(TypedIn::Visit);
    CarCapacity { capacity, .. } => Slot::CAR_CAPACITY, [capacity],
        StatementSpec::of("car_capacity", Act::KnowCar, &[
            must("capacity", Shape::Amount(Unit::Gallon)), may("insulation", Shape::Word(INSULATION)),
        ]).follows_the_car().typed_in(TypedIn::Visit);
    CarDiameter { diameter } => Slot::CAR_DIAMETER, [diameter],
        StatementSpec::of("car_diameter", Act::KnowCar, &[must("diameter", Shape::Amount(Unit::Inch))])
            .follows_the_car().typed_in(TypedIn::Visit);
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
        StatementSpec::of("joined", Act::Join, &[must("other", Shape::Visit)]).binds() ;
    NotJoined { other } => Slot::joined(other), [],
        StatementSpec::of("not_joined", Act::Join, &[must("other", Shape::Visit)]).binds() ;
    PassedOver { blocker, .. } => Slot::passed_over(blocker), [],
        StatementSpec::of("passed_over", Act::PassOver, &[
            must("blocker", Shape::Text), given("seen", Shape::Entries),
        ]).binds();
    Overridden { .. } => Slot::OVERRIDDEN, [],
        StatementSpec::of("overridden", Act::PassOver, &[
            must("gate", Shape::Word(GATE)), must("reason", Shape::Coded(OVERRIDE_REASON)),
            given("items", Shape::Items), given("seen", Shape::Entries),
        ]).binds();
    LastRound { .. } => Slot::LAST_ROUND, [],
        StatementSpec::of("last_round", Act::Record, &[
            must("fittings", Shape::Words(FITTING)), may("except", Shape::Words(FITTING)),
            may("note", Shape::Prose), may("photo", Shape::Photo),
        ]).binds().typed_in(TypedIn::Visit);
    FitToUnload {} => Slot::FIT_TO_UNLOAD, [],
        StatementSpec::of("fit_to_unload", Act::Clear, &[]).binds();
    Released { .. } => Slot::RELEASED, [],
        StatementSpec::of("released", Act::Release, &[must("as_residue", Shape::YesNo)]).binds();
    Site(site) => Slot::SITE, [&site.elevation],
        StatementSpec::of("site", Act::KeepSite, &[
            must("name", Shape::Text), must("zone", Shape::Text), must("elevation", Shape::Amount(Unit::Foot)),
            usually("attendance_gap_minutes", Shape::Count, "0"), may("local_rules", Shape::Prose),
            may("organisation", Shape::Text), may("address", Shape::Text),
        ]).typed_in(TypedIn::Site);
    Tank(tank) => Slot::tank(&tank.name), [&tank.water_capacity],
        StatementSpec::of("tank", Act::KeepSite, &[
            must("name", Shape::Text), must("water_capacity", Shape::Amount(Unit::Gallon)),
            usually("underground", Shape::YesNo, "no"),
        ]).typed_in(TypedIn::Site);
    Instrument(instrument) => Slot::instrument(&instrument.name), [&instrument.span],
        StatementSpec::of("instrument", Act::KeepSite, &[
            must("name", Shape::Text), must("measures", Shape::Word(MEASURED)),
            must("span", Shape::AmountOf("measures")), may("grade", Shape::Text),
            may("calibration_due", Shape::Date),
        ]).typed_in(TypedIn::Site);
    Hose(hose) => Slot::hose(&hose.name), [],
        StatementSpec::of("hose", Act::KeepSite, &[
            must("name", Shape::Text), must("service", Shape::Text), may("test_due", Shape::Date),
        ]).typed_in(TypedIn::Site);
    Contact(contact) => Slot::contact(&contact.role.text()), [],
        StatementSpec::of("contact", Act::KeepSite, &[
            must("role", Shape::Coded(CONTACT_ROLE)), must("name", Shape::Text),
            must("telephone", Shape::Text), may("note", Shape::Text),
        ]).typed_in(TypedIn::Site);
    SealStock(stock) => Slot::seal_stock(&stock.from), [],
        StatementSpec::of("seal_stock", Act::IssueSeals, &[
            must("from", Shape::Text), must("to", Shape::Text), must("kind", Shape::Coded(SEAL_KIND_OR_TEXT)),
        ]).typed_in(TypedIn::Site);
    Operator(operator) => Slot::operator(&operator.operator), [],
        StatementSpec::of("operator", Act::KeepPeople, &[
            must("operator", Shape::Text), must("name", Shape::Text), may("trained_on", Shape::Date),
            usually("active", Shape::YesNo, "yes"), given("named", Shape::Commitment),
        ]).typed_in(TypedIn::Roster);
    NameForgotten(said) => Slot::name_forgotten(&said.person), [],
        StatementSpec::of("name_forgotten", Act::KeepPeople, &[
            must("person", Shape::Person), given("named", Shape::Commitments),
        ]);
    PersonKey(made) => Slot::person_key(&made.key), [],
        StatementSpec::of("person_key", Act::OfferKey, &[
            must("person", Shape::Person), given("key", Shape::Key), given("kept", Shape::Word(KEY_KEPT)),
        ]).binds();
    PersonKeyConfirmed { key, .. } => Slot::person_key_confirmed(key), [],
        StatementSpec::of("person_key_confirmed", Act::KeepPeople, &[
            must("person", Shape::Person), must("key", Shape::Key),
        ]);
    PersonKeyEnded { key, .. } => Slot::person_key_ended(key), [],
        StatementSpec::of("person_key_ended", Act::KeepPeople, &[
            must("person", Shape::Person), must("key", Shape::Key), given("last", Shape::LastEntry),
        ]);
    HeldBy { .. } => Slot::HELD_BY, [],
        StatementSpec::of("held_by", Act::HoldPhone, &[must("person", Shape::Person)]).binds() ;
    Admitted { entry } => Slot::admitted(entry), [],
        StatementSpec::of("admitted", Act::Admit, &[must("entry", Shape::Entry)]).binds() ;
    Rules(_) => Slot::RULES, [],
        StatementSpec::of("rules", Act::KeepPeople, &[
            must("unlocking", Shape::Word(UNLOCKING)), usually("signature_required", Shape::YesNo, "no"),
            may("operator_rights", Shape::Words(RIGHT)),
        ]).typed_in(TypedIn::Rules);
    ProcedurePublished(said) => Slot::procedure(&said.procedure), [],
        StatementSpec::of("procedure_published", Act::PublishProcedure, &[
            may("note", Shape::Prose), given("procedure", Shape::Procedure), given("text", Shape::ProcedureText),
            given("sites", Shape::Sites), given("from", Shape::Procedure),
        ]);
    ProcedureWithdrawn { procedure, .. } => Slot::procedure(procedure), [],
        StatementSpec::of("procedure_withdrawn", Act::PublishProcedure, &[
            must("because", Shape::Prose), given("procedure", Shape::Procedure),
        ]);
    PaperExpected(said) => Slot::expected(&said.car), [said.billed.as_ref(), said.relative_density.as_ref()],
        StatementSpec::of("paper_expected", Act::ExpectCar, &[
            given("car", Shape::CarNumber), given("number", Shape::Text), given("shipper", Shape::Text),
            given("un_number", Shape::Text), given("product", Shape::Text),
            given("billed", Shape::Amount(Unit::Gallon)), given("relative_density", Shape::Amount(Unit::One)),
            given("odorised", Shape::YesNo), given("grade", Shape::Word(GRADE)),
            given("billed_by", Shape::Word(BILLED_BY)), given("winter_fill", Shape::YesNo),
            given("dated", Shape::Date), given("expected", Shape::Date),
            given("file", Shape::File), given("file_name", Shape::Text), given("line", Shape::Count),
        ]);
    PaperTakenBack(said) => Slot::expected(&said.car), [],
        StatementSpec::of("paper_taken_back", Act::ExpectCar, &[
            must("because", Shape::Prose), given("car", Shape::CarNumber),
        ]);
}
