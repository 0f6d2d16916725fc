//! Tests of the guide of a record: its asks, which of them are missing, where blockers lead, and what a draft
//! means.

use super::*;
use crate::procedure::BlockerKind;
use crate::procedure::Record;

#[test]
fn what_stands_in_a_slot_is_asked_again_by_that_slot() {
    for phone in [Phone::of("op-a", 1), whole_job(Receiver::Truck), whole_job(Receiver::FixedTank)] {
        let view = phone.view();
        let guide = Guide::of(&view, None);
        let mut slots: Vec<&String> = guide.asks.iter().map(|ask| &ask.slot).collect();
        slots.sort_unstable();
        slots.dedup();
        assert_eq!(slots.len(), guide.asks.len());
        for ask in &guide.asks {
            let slot = &ask.slot;
            let slots = ask.record.slots(ask.fitting);
            assert!(slots.iter().any(|one| one.as_str() == slot), "{slot} is not a slot of {:?}", ask.record);
            // Objects taken out and photographs are distinguished by more than their slot.
            if !matches!(ask.record, Record::ItemOut { .. } | Record::ItemIn { .. } | Record::Photo { .. }) {
                let again = Ask::of_slot(slot).map(|again| (again.record.slots(ask.fitting), again.fitting));
                let asked_at = if ask.record.needs_fitting() { ask.fitting } else { None };
                if !matches!(
                    ask.record,
                    Record::Released {} | Record::FitToUnload {} | Record::OutageTable {}
                ) {
                    assert_eq!(again, Some((ask.record.slots(ask.fitting), asked_at)), "{slot}");
                }
            }
        }
    }
    for none in
        ["", "fitting/liquid_a/paint", "fitting/nowhere/valve", "series/handover", "hold/00", "item/x"]
    {
        assert_eq!(Ask::of_slot(none), None, "{none}");
    }
    let check = Ask::of_slot("check/hoses and/or gaskets").map(|ask| ask.record);
    assert_eq!(check, Some(Record::Check { what: "hoses and/or gaskets".into() }));
}

#[test]
fn a_fitting_is_asked_for_what_it_has() {
    let guide = Guide::of(&Phone::of("op-a", 1).view(), None);
    let asked = |slot: &str| guide.asks.iter().any(|ask| ask.slot == slot);
    assert!(asked("fitting/liquid_a/valve") && asked("fitting/liquid_a/line"));
    assert!(asked("fitting/sample_line/valve") && !asked("fitting/sample_line/line"));
    assert!(!asked("fitting/gauging_device/valve") && asked("fitting/gauging_device/closure"));
    assert!(asked("series/effort/liquid_a/valve") && asked("series/attendance"));
    assert!(asked("protection/blue_sign") && asked("reading/final/pressure/car"));
}

#[test]
fn the_guide_says_which_ask_of_a_step_is_missing() {
    let mut phone = Phone::of("op-a", 1);
    phone.says(opened(Receiver::Truck));
    let view = phone.view();
    let guide = Guide::of(&view, None);
    assert!(!guide.steps.is_empty());
    for asks in &guide.steps {
        let step = view.steps.step(&asks.id).unwrap();
        let missing: Vec<&Record> =
            asks.records.iter().filter(|a| a.missing).map(|a| &a.ask.record).collect();
        assert_eq!(missing, step.missing.iter().collect::<Vec<_>>(), "{}", asks.id);
        assert!(asks.records.iter().all(|a| a.ask.fitting == step.fitting));
    }
}

#[test]
fn every_blocker_leads_to_where_it_is_cleared() {
    let mut phone = whole_job(Receiver::Truck);
    phone.says(valve(Fitting::LiquidA, ValvePosition::Open));
    phone.says(Statement::EmptyDecision { accepted: false, grounds: "doubt".into() });
    phone.says(Statement::ItemOut { item: "wrench".into(), fitting: None });
    phone.says(Statement::Hold { hold: crate::ids::HoldId([1; 16]), because: "rain".into() });
    let nothing = view_of(&[], UtcMillis(MORNING));
    for view in [phone.view(), nothing] {
        let guide = Guide::of(&view, None);
        let both = || view.unloading.blockers.iter().chain(&view.blockers);
        let codes: std::collections::BTreeSet<&str> = both().map(|blocker| blocker.code.as_str()).collect();
        assert_eq!(guide.leads.len(), codes.len(), "each code once");
        for blocker in both() {
            let told = guide.leads.iter().find(|(code, _)| *code == blocker.code);
            let BlockerLead { kind, lead } = &told.unwrap().1;
            assert!(blocker.code.split('.').next() == Some(kind.word()), "{} is {kind}", blocker.code);
            let right = match lead {
                Lead::Fitting { fitting } => blocker.fitting == Some(*fitting),
                Lead::EmptyProof => blocker.slot == "empty/decision",
                Lead::Ask { slot } => *slot == blocker.slot && guide.asks.iter().any(|ask| ask.slot == *slot),
                Lead::Tally => blocker.slot.starts_with("item/"),
                Lead::Cover => blocker.slot == "cover",
                Lead::Seal { .. } => blocker.slot.starts_with("seal/"),
                Lead::Holds => blocker.slot.starts_with("hold/"),
                Lead::Step => matches!(
                    kind,
                    BlockerKind::NotOpened
                        | BlockerKind::Alarm
                        | BlockerKind::LastRoundMissing
                        | BlockerKind::NotRecordedAsFound
                        | BlockerKind::PhotoMissing
                        | BlockerKind::StepOpen
                ),
                Lead::Defects | Lead::Disagreement { .. } => false,
            };
            assert!(right, "{}: {lead:?}", blocker.code);
        }
    }
}

#[test]
fn the_guide_stands_beside_the_record_and_does_not_change_it() {
    let view = whole_job(Receiver::Truck).view();
    let alone = serde_json::to_value(&view).unwrap();
    let mut guided = serde_json::to_value(GuidedVisit::of(view, &Procedures::built_in().unwrap())).unwrap();
    assert!(guided.as_object_mut().unwrap().remove("guide").is_some());
    assert_eq!(guided, alone);
}

#[test]
fn a_draft_means_what_the_record_does_not_say_yet() {
    let mut phone = whole_job(Receiver::Truck);
    let now = phone.view();
    assert_eq!(Meaning::of(&now, &now), Meaning { worth: None, figures: vec![], findings: vec![] });
    phone.says(psi(Purpose::HoldTest, Place::Car, "41", "PG-1"));
    let then = phone.view();
    let meaning = Meaning::of(&now, &then);
    let point = then.series.iter().find(|s| s.purpose == Purpose::HoldTest).and_then(|s| s.points.last());
    assert_eq!(meaning.worth.as_ref(), point.map(|point| &point.worth));
    assert!(meaning.figures.iter().all(|one| one.value.is_some()));
    let mut phone = whole_job(Receiver::Truck);
    phone.says(valve(Fitting::LiquidA, ValvePosition::Open));
    let meaning = Meaning::of(&now, &phone.view());
    assert_eq!(meaning.worth, None);
    let first = meaning.findings.first().unwrap();
    assert!(first.hot && first.message.en().contains("recorded open"), "{first:?}");
    let mut once: Vec<String> = meaning.findings.iter().map(|one| one.message.en()).collect();
    let all = once.len();
    once.sort_unstable();
    once.dedup();
    assert_eq!(once.len(), all);
}
