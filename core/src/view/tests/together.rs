//! Tests of steps that one key records: what the key says, what it never says, and when it is not there.

use super::editions::heard;
use super::*;
use crate::procedure::{Leaving, Procedure, ProcedureError};

fn group(phone: &Phone) -> Option<StepsTogether> {
    let procedures = Procedures::built_in().unwrap();
    GuidedVisit::of(phone.view(), &procedures).guide.together
}

fn steps(group: &StepsTogether) -> Vec<&str> {
    group.steps.iter().map(|step| step.step.as_str()).collect()
}

/// Presses the key of the group at hand, for its first `n` steps.
fn presses(phone: &mut Phone, n: usize) {
    for step in group(phone).unwrap().steps.into_iter().take(n) {
        for says in step.says {
            phone.says(says);
        }
    }
}

/// A car whose next step is `first`, with every earlier one skipped.
fn reached(first: &str) -> Phone {
    reached_by(first, Vec::new())
}

/// The same, after some statements.
fn reached_by(first: &str, statements: Vec<Statement>) -> Phone {
    let mut phone = Phone::of("op-a", 1);
    phone.says(opened(Receiver::FixedTank));
    for says in statements {
        phone.says(says);
    }
    loop {
        let view = phone.view();
        let next = view.steps.next.first().unwrap().clone();
        if next == first {
            return phone;
        }
        let (outcome, note) = (StepOutcome::Skipped, "not part of this test".to_owned());
        phone.says(Statement::Step { step: next, outcome, note });
    }
}

/// A car with one line on, at the step that closes its valve.
fn with_a_line_on() -> Phone {
    let on = [line(Fitting::LiquidA, true), valve(Fitting::LiquidA, ValvePosition::Open)];
    reached_by("shut_valve.liquid_a", on.into())
}

#[test]
fn one_key_records_each_open_step_of_a_line_and_no_other_line() {
    let mut phone = reached("open_closure.liquid_a");
    let at_hand = group(&phone).unwrap();
    assert_eq!(at_hand.id, "line_on.liquid_a");
    assert_eq!(at_hand.fitting, Some(Fitting::LiquidA));
    assert_eq!(
        steps(&at_hand),
        [
            "open_closure.liquid_a",
            "threads_inspected.liquid_a",
            "adapter_in.liquid_a",
            "hose_on.liquid_a",
            "esv_proved.liquid_a",
            "vapor_test.liquid_a"
        ],
        "the optional air line is not claimed by a key that nobody asked about it"
    );
    presses(&mut phone, usize::MAX);
    let view = phone.view();
    for step in steps(&at_hand) {
        assert!(view.steps.step(step).unwrap().status.is_closed(), "{step}");
    }
    let other = view.fittings.iter().find(|f| f.fitting == Fitting::LiquidB).unwrap();
    assert!(other.closure.is_none() && other.line.is_none());
    assert_eq!(group(&phone).unwrap().id, "line_open.liquid_a");
}

#[test]
fn the_key_never_says_what_has_to_be_read_or_decided() {
    let phone = reached("arrival_pressure");
    let readings = group(&phone).unwrap();
    assert_eq!(readings.id, "arrival");
    assert!(readings.steps.iter().all(|step| step.says.is_empty() && step.readings.len() == 1));
    for edition in crate::procedure::BUILT_IN {
        let procedure = Procedure::read(edition).unwrap();
        let at = procedure.expand(Some(Receiver::Truck), Leaving::Residue, Fitting::ALL);
        for group in &procedure.together {
            for step in at.iter().filter(|at| group.steps.contains(&at.step.id)) {
                let holds = step.holds();
                for says in step.records().iter().filter_map(|r| r.as_listed(step.fitting, &holds)) {
                    assert!(!says.binds(), "{}: a signature is never part of a group", step.id);
                    assert!(!holds.iter().any(|bad| bad.held_by(&says)), "{}: {says:?}", step.id);
                }
            }
        }
    }
}

#[test]
fn what_is_not_as_listed_holds_the_job_and_takes_the_key_away() {
    let mut phone = with_a_line_on();
    assert_eq!(group(&phone).unwrap().id, "line_shut.liquid_a");
    presses(&mut phone, 3);
    phone.says(heard(Fitting::LiquidA, Heard::Hiss));
    assert_eq!(phone.view().steps.next[0], "listen.liquid_a");
    assert!(group(&phone).is_none(), "no key beside an answer that holds the job");
    phone.says(heard(Fitting::LiquidA, Heard::Quiet));
    assert_eq!(group(&phone).unwrap().id, "line_off.liquid_a");
}

#[test]
fn an_order_of_entries_is_the_order_of_the_steps() {
    let mut phone = with_a_line_on();
    let out_of_order = |view: &VisitView| {
        view.findings.iter().filter(|finding| finding.code == "steps_out_of_order").count()
    };
    let before = out_of_order(&phone.view());
    presses(&mut phone, usize::MAX);
    presses(&mut phone, usize::MAX);
    let view = phone.view();
    assert_eq!(out_of_order(&view), before, "{}", show(&view));
    let as_found = view.steps.step("line_as_found.liquid_a").unwrap().status;
    assert_eq!(as_found, StepStatus::Open, "a plug made tight at the end was not found tight on arrival");
    let fitting = view.fittings.iter().find(|f| f.fitting == Fitting::LiquidA).unwrap();
    assert_eq!(fitting.closure.as_ref().unwrap().value, ClosureState::ToolTight);
    assert!(!fitting.line.as_ref().unwrap().value.connected && fitting.listened_since_shut);
}

#[test]
fn a_group_that_one_key_cannot_record_is_refused() {
    let text = crate::procedure::BUILT_IN[1];
    let with = |id: &str, more: &str| {
        let group = format!("[[together]]\nid = \"{id}\"\n{more}\n\n[[steps]]");
        Procedure::read(&text.replacen("[[steps]]", &group, 1))
    };
    let refused = |more: &str| matches!(with("own", more), Err(ProcedureError::BadTogether { .. }));
    assert!(refused("steps = [\"fit_to_unload\"]"), "a signature");
    assert!(refused("steps = [\"seals_found\"]"), "a number that is typed");
    assert!(refused("steps = [\"recovery_readings\", \"planned_stop\"]"), "readings beside taps");
    assert!(refused("steps = [\"nowhere\"]") && refused("steps = []"));
    assert!(refused("steps = [\"rod\", \"plant_signs\"]"), "a step of another group");
    assert!(refused("steps = [\"attend\", \"planned_stop\"]"), "two stages");
    assert!(refused("at_each = true\nsteps = [\"attend\"]"), "no line");
    assert!(with("own", "steps = [\"attend\"]").is_ok());
}
