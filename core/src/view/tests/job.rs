//! The job goes through its stages; steps close by what is recorded.

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
    phone.says(empty_accepted());
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
    let now = UtcMillis(phone.now + 31 * MINUTE);
    assert_eq!(view_of(&phone.knows, now).steps.next[0], "transfer_readings");
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

#[test]
fn the_page_reads_from_state_to_history_with_units_and_cautions() {
    let mut phone = whole_job(Receiver::FixedTank);
    phone.says(line(Fitting::LiquidA, true));
    let cautious = show(&Phone::of("op-a", 1).view());
    assert!(cautious.contains("NEXT"), "{cautious}");
    let mut connecting = Phone::of("op-a", 1);
    connecting.says(opened(Receiver::FixedTank));
    connecting.says(closure(Fitting::LiquidA, ClosureState::Open));
    connecting.says(Statement::ItemOut { item: "adapter liquid a".into(), fitting: Some(Fitting::LiquidA) });
    for step in ["threads_inspected.liquid_a", "shut_off_line_on.liquid_a"] {
        connecting.says(Statement::Step {
            step: step.into(),
            outcome: StepOutcome::Done,
            note: String::new(),
        });
    }
    let cautious = show(&connecting.view());
    assert!(cautious.contains("CAUTION: Carry it close and step rather than twist."), "{cautious}");
    let page = show(&phone.view());
    for expected in [
        "ZZQX 4417",
        "Final pressure at the car: 38 psi, on LG-1",
        "MISSING: The line on the liquid valve A has not been recorded as taken off.",
        "asked for by practice",
        "from memory, confirm before relying on it",
        "The tool records what people did and said; it does not declare the car safe.",
    ] {
        assert!(page.contains(expected), "{expected} is not on the page:\n{page}");
    }
}

/// Every kind of statement, as the table has them, reads as a sentence of its own: never as a debug print, with no name
/// of a field left in braces, and with no word of the wire.
#[test]
fn every_kind_of_statement_is_a_sentence() {
    use super::super::fold_context::FoldContext;
    use crate::entry::StatementKind;
    use crate::entry::spec::Sentence;
    let procedures = Procedures::built_in().unwrap();
    let ctx = Context::at(UtcMillis(MORNING), &procedures);
    let ledger = FoldContext::of_stay(&[], &ctx);
    let mut sentences = std::collections::BTreeMap::new();
    for kind in StatementKind::ALL {
        let spec = kind.spec();
        let says = kind.example().unwrap();
        let told = ledger.told(&says);
        assert_eq!(told.is_some(), spec.sentence == Sentence::Told, "{} is told once", spec.word);
        let sentence = ledger.says(&says);
        let words = sentence.split_whitespace().count();
        assert!(words >= 1 && sentence.chars().any(char::is_alphabetic), "{}: {sentence}", spec.word);
        assert!(!sentence.contains(['{', '}', '_', '[', ']']), "{}: {sentence}", spec.word);
        if let Some(other) = sentences.insert(sentence.clone(), spec.word) {
            panic!("{other} and {} both read \"{sentence}\"", spec.word);
        }
    }
    assert_eq!(sentences.len(), StatementKind::ALL.len());
}

/// What the sentences say, with their units.
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
            "Paper: UN1978, billed 9200 gal.",
        ),
        (Statement::Clock { event: ClockEvent::ActualPlacement, at }, "Placed: 2026-11-24 14:00 UTC."),
        (
            psi(Purpose::Final, Place::Car, "38", ""),
            "Final pressure at the car: 38 psi, instrument not named.",
        ),
        (
            Statement::Effort { fitting: a, part: Part::Valve, amount: Amount::of(34.0, Unit::FootPound) },
            "Effort to close the spindle of the liquid valve A: 34 ft·lbf.",
        ),
        (turns(a, "4.5"), "Threads engaged at the liquid valve A: 4.5 turns."),
        (Statement::ItemOut { item: "cap".into(), fitting: None }, "Out: cap. It must come back."),
        (
            Statement::Forwarded { defect, to: "owner".into(), how: "voice".into() },
            "Defect reported to owner (voice).",
        ),
        (
            Statement::Authority {
                defect,
                by: "X".into(),
                reference: "".into(),
                spoken_at: Some(at),
                written_at: None,
            },
            "X answered, reference —, spoken 2026-11-24 14:00 UTC.",
        ),
        (Statement::Resolved { defect, how: "shop.".into() }, "Defect put right: shop."),
        (Statement::Hold { hold, because: "leak".into() }, "HOLD: leak."),
        (Statement::HoldLifted { hold, because: "dry".into() }, "Hold lifted: dry."),
        (Statement::HandoverGiven { to: OperatorId("b".into()) }, "Handed over to b."),
        (Statement::Attendance { presence: Presence::Away }, "Left the car."),
        (cover(true), "Housing cover closed, pin in, 8 of 8 bolts in place."),
        (protection(Protection::BlueSign, false), "Blue sign taken down."),
        (Statement::EmptySign { sign: EmptySign::RodAtBottom, seen: true }, "Gauge rod at its bottom: yes."),
        (
            Statement::EmptyDecision { accepted: false, grounds: "".into() },
            "Not taken as empty of liquid: no grounds given.",
        ),
        (Statement::TruckLoad { truck: "T-1".into(), amount: gal() }, "Truck T-1 loaded with 9200 gal."),
        (
            Statement::Step {
                step: "bleed.liquid_a".into(),
                outcome: StepOutcome::NotRight,
                note: "ice".into(),
            },
            "Step \u{201c}Bleed the hose\u{201d} at the liquid valve A: NOT right (ice).",
        ),
        (Statement::PassedOver { blocker: "cover_bolts".into(), seen: vec![] }, "Passed over: cover bolts."),
        (Statement::Released { as_residue: true }, "Released as residue."),
        (Statement::CarFittings { fittings: vec![a] }, "Under the housing: liquid valve A."),
        (
            Statement::OutageTable { name: "".into(), rows: vec![(0.0, 1.0)], liquid: true },
            "Outage table — with 1 rows, in gal of liquid.",
        ),
        (
            Statement::CarTestDate { test: TestDate::ReliefDevice, due: "2030".into() },
            "Relief device test due 2030.",
        ),
        (
            Statement::Defect(Defect {
                defect,
                fitting: Some(a),
                what: "worn".into(),
                needs_authority: true,
                photo: None,
            }),
            "Defect at the liquid valve A: worn. It moves only with an authority's approval.",
        ),
        (
            Statement::Hose(Hose { name: "H-1".into(), service: "LPG".into(), test_due: "".into() }),
            "Hose H-1 for LPG.",
        ),
        (Statement::Joined { other: VisitId([8; 16]) }, "The same stay as visit 08080808."),
    ];
    for (says, expected) in cases {
        let mut phone = Phone::of("op-a", 1);
        phone.says(says);
        assert_eq!(phone.view().history[0].sentence, expected);
    }
    let mut phone = Phone::of("op-a", 1);
    let wrong = phone.says(psi(Purpose::Final, Place::Car, "83", "LG-1"));
    phone.corrects(wrong, psi(Purpose::Final, Place::Car, "38", "LG-1"), "digits swapped");
    let view = phone.view();
    assert_eq!(
        view.history[1].sentence,
        "Final pressure at the car: 38 psi, on LG-1. Corrects \u{201c}Final pressure at the car: 83 psi, on LG-1.\u{201d}"
    );
    assert!(show(&view).contains("because: digits swapped"));
}

#[test]
fn early_in_the_job_the_page_names_what_is_still_missing_in_few_lines() {
    let mut phone = Phone::of("op-a", 1);
    phone.says(opened(Receiver::FixedTank));
    let page = show(&phone.view());
    assert!(page.contains("still missing: closure not tool tight (liquid a, liquid b, vapour"), "{page}");
    assert!(!page.contains("MISSING:"));
}
