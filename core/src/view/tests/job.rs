//! Tests of the stages of the job, and of steps that close by what is recorded.

use super::*;
use crate::procedure::Stage;

#[test]
fn the_job_moves_from_stage_to_stage_by_what_is_recorded() {
    let mut phone = Phone::of("op-a", 1);
    assert_eq!(phone.view().stage, Stage::Receive);
    phone.says(opened(Receiver::FixedTank));
    let view = phone.view();
    assert_eq!(view.steps.step("open_visit").unwrap().status, StepStatus::Recorded);
    assert_eq!(view.steps.next[0], "number_again");
    phone.says(psi(Purpose::Arrival, Place::Car, "118", "PG-1"));
    let view = phone.view();
    assert_eq!(view.stage, Stage::Gauge);
    assert!(view.steps.left_behind.contains(&"paper".to_owned()));
    phone.says(closure(Fitting::LiquidA, ClosureState::Open));
    assert_eq!(phone.view().stage, Stage::Connect);
    phone.says(psi(Purpose::Transfer, Place::Car, "121", "PG-1"));
    assert_eq!(phone.view().stage, Stage::Transfer);
    phone.says(psi(Purpose::Recovery, Place::Car, "60", "PG-1"));
    assert_eq!(phone.view().stage, Stage::Recover);
    phone.says(Statement::EmptySign { sign: EmptySign::RodAtBottom, seen: true });
    assert_eq!(phone.view().stage, Stage::ProveEmpty);
    phone.says(line(Fitting::LiquidA, true));
    phone.says(empty_accepted());
    phone.says(line(Fitting::LiquidA, false));
    assert_eq!(phone.view().stage, Stage::Disconnect);
    phone.says(psi(Purpose::Final, Place::Car, "38", "LG-1"));
    assert_eq!(phone.view().stage, Stage::Close);
    phone.says(Statement::Released { as_residue: true });
    let view = phone.view();
    assert_eq!(view.stage, Stage::Release);
    assert!(view.steps.next.is_empty());
}

#[test]
fn a_valve_found_shut_is_not_a_valve_shut_after_the_transfer() {
    let mut phone = Phone::of("op-a", 1);
    let a = Fitting::LiquidA;
    let status = |phone: &Phone, id: &str| phone.view().steps.step(id).unwrap().status;
    phone.says(opened(Receiver::FixedTank));
    phone.says(valve(a, ValvePosition::Shut));
    phone.says(line(a, true));
    phone.says(valve(a, ValvePosition::Open));
    assert_eq!(status(&phone, "shut_valve.liquid_a"), StepStatus::Open);
    phone.says(valve(a, ValvePosition::Shut));
    assert_eq!(status(&phone, "shut_valve.liquid_a"), StepStatus::Recorded);
    assert_eq!(status(&phone, "listen.liquid_a"), StepStatus::Open);
    phone.says(quiet(a));
    assert_eq!(status(&phone, "listen.liquid_a"), StepStatus::Recorded);
}

#[test]
fn a_paper_made_out_early_does_not_put_the_car_at_release() {
    let mut phone = Phone::of("op-a", 1);
    phone.says(opened(Receiver::FixedTank));
    phone.says(psi(Purpose::Transfer, Place::Car, "121", "PG-1"));
    let paper =
        || Statement::Check { what: "residue paper made out".into(), right: true, note: String::new() };
    phone.says(paper());
    assert_eq!(phone.view().stage, Stage::Transfer);
    phone.says(line(Fitting::LiquidA, true));
    phone.says(empty_accepted());
    phone.says(paper());
    assert_eq!(phone.view().steps.step("residue_paper").unwrap().status, StepStatus::Open);
    phone.says(line(Fitting::LiquidA, false));
    phone.says(paper());
    assert_eq!(phone.view().steps.step("residue_paper").unwrap().status, StepStatus::Recorded);
}

#[test]
fn a_step_is_skipped_only_with_a_reason() {
    let mut phone = Phone::of("op-a", 1);
    phone.says(opened(Receiver::FixedTank));
    let skip = |note: &str| Statement::Step {
        step: "odorant".into(),
        outcome: StepOutcome::Skipped,
        note: note.into(),
    };
    phone.says(skip(" "));
    let view = phone.view();
    assert_eq!(view.steps.step("odorant").unwrap().status, StepStatus::Open);
    assert!(finding(&view, "skipped_without_reason").is_some());
    phone.says(skip("done at the terminal, paper says so"));
    let step = phone.view().steps.step("odorant").unwrap().clone();
    assert_eq!(step.status, StepStatus::Skipped);
    assert!(step.note.contains("terminal"));
}

#[test]
fn calling_a_step_done_does_not_stand_in_for_its_record() {
    let mut phone = Phone::of("op-a", 1);
    phone.says(opened(Receiver::FixedTank));
    let done = Statement::Step { step: "chocks".into(), outcome: StepOutcome::Done, note: String::new() };
    phone.says(done);
    assert_eq!(phone.view().steps.step("chocks").unwrap().status, StepStatus::Partly);
    let done = Statement::Step { step: "escape_way".into(), outcome: StepOutcome::Done, note: String::new() };
    phone.says(done);
    assert_eq!(phone.view().steps.step("escape_way").unwrap().status, StepStatus::Done);
}

#[test]
fn a_line_that_was_never_put_on_asks_for_nothing_once_liquid_moves() {
    let phone = whole_job(Receiver::FixedTank);
    let view = phone.view();
    let status = |id: &str| view.steps.step(id).unwrap().status;
    assert_eq!(status("hose_on.liquid_b"), StepStatus::NotUsed);
    assert_eq!(status("break_coupling.liquid_b"), StepStatus::NotUsed);
    assert_eq!(status("break_coupling.liquid_a"), StepStatus::Recorded);
    assert!(!view.steps.next.iter().any(|id| id.ends_with(".liquid_b")));
}

#[test]
fn two_couplings_open_at_once_and_vapour_first_are_pointed_out() {
    let mut phone = Phone::of("op-a", 1);
    phone.says(opened(Receiver::FixedTank));
    for fitting in [Fitting::LiquidA, Fitting::Vapour] {
        phone.says(line(fitting, true));
    }
    phone.says(line(Fitting::Vapour, false));
    phone.says(line(Fitting::LiquidA, false));
    let view = phone.view();
    assert!(finding(&view, "two_lines_open").is_some());
    assert!(finding(&view, "vapour_not_last").is_some());
    let whole = whole_job(Receiver::FixedTank).view();
    assert!(finding(&whole, "two_lines_open").is_none());
    assert!(finding(&whole, "vapour_not_last").is_none());
}

#[test]
fn readings_on_a_clock_come_due_again() {
    let mut phone = Phone::of("op-a", 1);
    phone.says(opened(Receiver::FixedTank));
    phone.says(line(Fitting::LiquidA, true));
    phone.says(psi(Purpose::Transfer, Place::Car, "120", "PG-1"));
    let now = UtcMillis(phone.now + 5 * MINUTE);
    assert!(!view_of(&phone.knows, now).steps.next.contains(&"transfer_readings".to_owned()));
    let now = UtcMillis(phone.now + 61 * MINUTE);
    assert_eq!(view_of(&phone.knows, now).steps.next[0], "transfer_readings");
}

#[test]
fn a_transfer_whose_steps_are_all_recorded_goes_on_until_recovery_begins() {
    let mut phone = Phone::of("op-a", 1);
    phone.says(opened(Receiver::FixedTank));
    phone.says(line(Fitting::LiquidA, true));
    phone.says(Statement::Attendance { presence: Presence::Here });
    phone.says(psi(Purpose::Transfer, Place::Car, "120", "PG-1"));
    phone.says(Statement::Reading(Reading {
        measured: Measured::Level,
        place: Place::StorageTank,
        purpose: Purpose::Transfer,
        amount: Amount::of(40.0, Unit::Percent),
        instrument: String::new(),
    }));
    let next = |phone: &Phone, minutes: i64| {
        view_of(&phone.knows, UtcMillis(phone.now + minutes * MINUTE)).steps.next
    };
    assert_eq!(next(&phone, 5)[0], "liquid_closed", "the stage is complete");
    assert_eq!(next(&phone, 61)[..2], ["transfer_readings".to_owned(), "tank_level".to_owned()]);
    let done = StepOutcome::Done;
    phone.says(Statement::Step { step: "liquid_closed".into(), outcome: done, note: String::new() });
    assert!(!next(&phone, 61).contains(&"transfer_readings".to_owned()), "recovery began");
}

#[test]
fn the_tally_knows_what_is_out_and_what_came_back_from_nowhere() {
    let mut phone = Phone::of("op-a", 1);
    phone.says(Statement::ItemOut { item: "Adapter liquid a".into(), fitting: Some(Fitting::LiquidA) });
    phone.says(Statement::ItemOut { item: "bleed hose".into(), fitting: None });
    phone.says(Statement::ItemIn { item: "adapter liquid A".into() });
    phone.says(Statement::ItemIn { item: "wrench".into() });
    let view = phone.view();
    let out: Vec<&str> = view.tally.out.iter().map(|i| i.item.as_str()).collect();
    assert_eq!(out, ["bleed hose"]);
    assert_eq!(view.tally.back.len(), 1);
    assert_eq!(view.tally.unknown[0].item, "wrench");
    assert!(finding(&view, "item_back_unknown").is_some());
}

#[test]
fn a_thing_one_says_is_out_and_one_says_is_back_is_out() {
    let mut a = Phone::of("op-a", 1);
    a.says(Statement::ItemOut { item: "cap".into(), fitting: None });
    let mut b = a.clone();
    b.key = DeviceKey::from_secret([2; 32]);
    (b.seq, b.prev) = (0, None);
    a.says(Statement::ItemIn { item: "cap".into() });
    b.says(Statement::ItemOut { item: "cap".into(), fitting: None });
    a.meets(&mut b);
    assert_eq!(a.view().tally.out.len(), 1);
}

/// Every kind of statement in the table has a sentence of its own, which is not a debug print and contains
/// neither a field name in braces nor a wire word.
#[test]
fn every_kind_of_statement_is_a_sentence() {
    use super::super::fold_context::FoldContext;
    use crate::entry::StatementKind;
    let procedures = Procedures::built_in().unwrap();
    let ctx = Context::at(UtcMillis(MORNING), &procedures);
    let ledger = FoldContext::of_stay(&[], &ctx, false);
    let mut sentences = std::collections::BTreeMap::new();
    for kind in StatementKind::ALL {
        let spec = kind.spec();
        let says = kind.example().unwrap();
        for language in farsiding_words::Language::all() {
            let sentence = farsiding_words::Words::of(language).text(&ledger.says(&says));
            let words = sentence.split_whitespace().count();
            assert!(words >= 1 && sentence.chars().any(char::is_alphabetic), "{}: {sentence}", spec.word);
            assert!(
                !sentence.contains(['{', '}', '_', '[', ']', '⟨']),
                "{language} {}: {sentence}",
                spec.word
            );
            if let Some(other) = sentences.insert((language, sentence.clone()), spec.word) {
                panic!("{language}: {other} and {} both read \"{sentence}\"", spec.word);
            }
        }
    }
    assert_eq!(sentences.len(), StatementKind::ALL.len() * farsiding_words::Language::all().count());
}

/// Checks the sentences and the units in them.
#[test]
fn statements_are_sentences_with_their_units() {
    use crate::entry::site_facts::*;
    use crate::entry::{Defect, Paper};
    use crate::ids::{DefectId, HoldId};
    let (defect, hold) = (DefectId([1; 16]), HoldId([1; 16]));
    let gal = || Amount::of(9_200.0, Unit::Gallon);
    let at = UtcMillis(MORNING);
    let a = Fitting::LiquidA;
    let cases: Vec<(Statement, &str)> = vec![
        (
            Statement::Paper(Paper { un_number: "UN1978".into(), billed: Some(gal()), ..Paper::default() }),
            "Shipping paper: UN1978, billed 9200 gal.",
        ),
        (
            Statement::Clock { event: ClockEvent::ActualPlacement, at },
            "Time, actually placed: 2026-11-24 14:00 UTC.",
        ),
        (
            psi(Purpose::Final, Place::Car, "38", ""),
            "Reading, final pressure (car): 38 psig, instrument not named.",
        ),
        (
            Statement::Effort { fitting: a, part: Part::Valve, amount: Amount::of(34.0, Unit::FootPound) },
            "Torque to close (liquid valve A, valve stem): 34 ft·lbf.",
        ),
        (turns(a, "4.5"), "Threads engaged (liquid valve A): 4.5 turns."),
        (Statement::ItemOut { item: "cap".into(), fitting: None }, "Out: cap. It must be returned."),
        (
            Statement::Forwarded { defect, to: "owner".into(), how: "voice".into() },
            "Defect reported to owner (by phone or in person).",
        ),
        (
            Statement::Authority {
                defect,
                by: "X".into(),
                reference: "".into(),
                spoken_at: Some(at),
                written_at: None,
            },
            "Approval for a defect: X, reference \u{2014}, verbal 2026-11-24 14:00 UTC.",
        ),
        (Statement::Resolved { defect, how: "shop.".into() }, "Defect repaired: shop."),
        (Statement::Hold { hold, because: "leak".into() }, "HOLD: leak."),
        (Statement::HoldLifted { hold, because: "dry".into() }, "Hold lifted: dry."),
        (Statement::HandoverGiven { to: OperatorId("b".into()) }, "Handed over to b."),
        (Statement::Attendance { presence: Presence::Away }, "Attendance: left the car."),
        (cover(true), "Housing cover closed, pin in, 8 of 8 bolts in place."),
        (protection(Protection::BlueSign, false), "Protection, blue sign: taken down."),
        (
            Statement::EmptySign { sign: EmptySign::RodAtBottom, seen: true },
            "Sign, gauge rod at its bottom: yes.",
        ),
        (
            Statement::EmptyDecision { accepted: false, grounds: "".into() },
            "NOT accepted as empty of liquid: \u{2014}.",
        ),
        (Statement::TruckLoad(TruckLoad::of("T-1", gal())), "Truck T-1 loaded with 9200 gal."),
        (
            Statement::Step {
                step: "bleed.liquid_a".into(),
                outcome: StepOutcome::NotRight,
                note: "ice".into(),
            },
            "Step \u{201c}Bleed the hose · liquid valve A\u{201d}: not right (ice).",
        ),
        (Statement::PassedOver { blocker: "cover_bolts".into(), seen: vec![] }, "Overridden: cover bolts."),
        (Statement::Released { as_residue: true }, "Released as residue."),
        (
            Statement::CarFittings { fittings: vec![a], gauging: None, vapour_end: None },
            "Under the housing: liquid valve A.",
        ),
        (
            Statement::OutageTable { name: "".into(), rows: vec![(0.0, 1.0)], liquid: true },
            "Outage table \u{2014}, 1 row, gallons of liquid.",
        ),
        (
            Statement::CarTestDate { test: TestDate::ReliefDevice, due: "2030".into() },
            "Test date, relief valve test: due 2030.",
        ),
        (
            Statement::Defect(Defect {
                defect,
                fitting: Some(a),
                what: "worn".into(),
                needs_authority: true,
                photo: None,
            }),
            "Defect (liquid valve A): worn. The car moves only with an approval.",
        ),
        (
            Statement::Hose(Hose { name: "H-1".into(), service: "LPG".into(), test_due: "".into() }),
            "Hose H-1 for LPG.",
        ),
        (Statement::Joined { other: VisitId([8; 16]) }, "Same stay as record 08080808."),
    ];
    for (says, expected) in cases {
        let mut phone = Phone::of("op-a", 1);
        phone.says(says);
        assert_eq!(phone.view().history[0].sentence.en(), expected);
    }
    let mut phone = Phone::of("op-a", 1);
    phone.says(psi(Purpose::Final, Place::Car, "38", "none"));
    phone.says(Statement::Line { fitting: a, connected: true, hose: "0".into() });
    let typed: Vec<String> = phone.view().history.iter().map(|line| line.sentence.en()).collect();
    assert_eq!(
        typed[0], "Reading, final pressure (car): 38 psig, on none.",
        "what is typed is never a missing field"
    );
    assert_eq!(typed[1], "Line connected (liquid valve A), hose 0.");
    let mut phone = Phone::of("op-a", 1);
    let wrong = phone.says(psi(Purpose::Final, Place::Car, "83", "LG-1"));
    phone.corrects(wrong, psi(Purpose::Final, Place::Car, "38", "LG-1"), "digits swapped");
    let view = phone.view();
    assert_eq!(
        view.history[1].sentence.en(),
        "Reading, final pressure (car): 38 psig, on LG-1. Corrects \u{201c}Reading, final pressure (car): 83 psig, on LG-1.\u{201d}."
    );
}
