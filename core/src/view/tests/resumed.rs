//! Tests of a transfer that goes on later: a valve shut in between, a line taken off and put on again, a car left over night
//! or moved, and what comes next then.

use super::*;
use crate::entry::{CarLeft, CarMoved};
use crate::procedure::Stage;

const A: Fitting = Fitting::LiquidA;

fn left_disconnected() -> Statement {
    Statement::CarLeft(CarLeft { connected: false, conditions: Vec::new(), until: None, note: String::new() })
}

/// Records the whole of each step that comes next as listed, or skips it, until `stage` is reached.
fn until(phone: &mut Phone, stage: Stage) {
    let procedures = Procedures::built_in().unwrap();
    for _ in 0..200 {
        let view = phone.view();
        if view.stage >= stage {
            return;
        }
        let id = view.steps.next.first().unwrap().clone();
        let step = view.steps.step(&id).unwrap().clone();
        let procedure = procedures.default_procedure().unwrap();
        let own = procedure.steps.iter().find(|own| id.split('.').next() == Some(&own.id)).unwrap();
        let listed: Vec<Statement> =
            step.missing.iter().filter_map(|record| record.as_listed(step.fitting, &own.holds)).collect();
        if step
            .fitting
            .is_some_and(|fitting| fitting.is_line() && fitting != A && step.stage == Stage::Connect)
            || listed.len() < step.missing.len()
        {
            let note = "not part of this test".to_owned();
            phone.says(Statement::Step { step: id, outcome: StepOutcome::Skipped, note });
            continue;
        }
        for says in listed {
            phone.says(says);
        }
        if step.records.is_empty() {
            phone.says(step_done(&id));
        }
    }
    panic!("{:?} is not reached: {:?}", stage, phone.view().steps.next);
}

/// A car in the middle of its transfer, liquid valve A open, with a reading made.
fn transferring() -> Phone {
    let mut phone = Phone::of("op-a", 1);
    phone.says(opened(Receiver::FixedTank));
    until(&mut phone, Stage::Transfer);
    phone.says(Statement::Attendance { presence: Presence::Here });
    phone.says(psi(Purpose::Transfer, Place::Car, "120", "G-1"));
    phone.says(percent("40"));
    phone
}

fn status(phone: &Phone, step: &str) -> StepStatus {
    phone.view().steps.step(step).unwrap().status
}

fn takes_off_in_order(phone: &mut Phone) {
    phone.says(valve(A, ValvePosition::Shut));
    phone.says(step_done("draw_down.liquid_a"));
    phone.says(step_done("bleed.liquid_a"));
    phone.says(quiet(A));
    phone.says(line(A, false));
    phone.says(quiet(A));
    phone.says(closure(A, ClosureState::ToolTight));
}

#[test]
fn a_valve_shut_in_the_middle_of_the_transfer_does_not_end_it() {
    let mut phone = transferring();
    let before = phone.view().stage;
    assert!(before < Stage::Disconnect, "{before:?}");
    phone.says(valve(A, ValvePosition::Shut));
    phone.says(quiet(A));
    assert_eq!(phone.view().stage, before, "nobody said that the transfer is over");
    let due = phone.view().steps.step("transfer_readings").unwrap().due;
    assert!(due.is_some(), "readings stay due");
    phone.says(valve(A, ValvePosition::Open));
    assert_eq!(status(&phone, "shut_valve.liquid_a"), StepStatus::Open, "the valve is open again");
    // The operator says how far it is.
    phone.says(step_done("liquid_closed"));
    assert_eq!(phone.view().stage, Stage::Recover);
    phone.says(empty_accepted());
    phone.says(valve(A, ValvePosition::Shut));
    assert_eq!(status(&phone, "shut_valve.liquid_a"), StepStatus::Recorded);
    assert_eq!(phone.view().stage, Stage::Disconnect);
}

#[test]
fn lines_that_come_off_in_order_lead_to_disconnecting_without_a_word() {
    let mut phone = transferring();
    phone.says(empty_accepted());
    takes_off_in_order(&mut phone);
    assert!(phone.view().stage >= Stage::Disconnect);
    for step in ["open_closure", "threads_inspected", "adapter_in", "hose_on", "leak_check"] {
        assert!(
            status(&phone, &format!("{step}.liquid_a")).is_closed(),
            "{step}: the job is over, nothing is put on"
        );
    }
}

/// The line is off over night and the car is not empty: in the morning it is connected, and tested, again.
#[test]
fn a_line_that_came_off_over_night_is_connected_and_tested_again() {
    let mut phone = transferring();
    takes_off_in_order(&mut phone);
    phone.says(left_disconnected());
    phone.now += 12 * 60 * MINUTE;
    let again = [
        "open_closure",
        "threads_inspected",
        "adapter_in",
        "hose_on",
        "esv_proved",
        "vapor_test",
        "leak_check",
    ];
    for step in again {
        assert!(!status(&phone, &format!("{step}.liquid_a")).is_closed(), "{step} is asked for again");
    }
    let view = phone.view();
    assert_eq!(view.stage, Stage::Connect);
    let first: Vec<&str> = view.steps.next.iter().map(String::as_str).take(3).collect();
    assert_eq!(first, ["track_secured", "hand_brake", "chocks"], "protections first");
    assert_eq!(view.steps.again.first().map(String::as_str), Some("track_secured"));
    for what in [Protection::TrackSecured, Protection::HandBrake, Protection::Chocks, Protection::BlueSign] {
        phone.says(protection(what, true));
    }
    let view = phone.view();
    let statuses = ["gas_detector", "escape_way", "weather"].map(|id| (id, status(&phone, id)));
    assert_eq!(
        view.steps.again,
        ["gas_detector", "escape_way", "weather"],
        "{:?} {:?} {statuses:?}",
        view.stage,
        view.steps.next
    );
    phone.says(protection(Protection::GasDetector, true));
    phone.says(step_done("escape_way"));
    phone.says(Statement::Step {
        step: "weather".into(),
        outcome: StepOutcome::Skipped,
        note: "under a roof".into(),
    });
    let view = phone.view();
    assert_eq!(view.steps.again, Vec::<String>::new());
    assert_eq!(view.steps.next.first().map(String::as_str), Some("open_closure.liquid_a"));
    phone.says(closure(A, ClosureState::Open));
    phone.says(step_done("threads_inspected.liquid_a"));
    phone.says(Statement::ItemOut { item: "adapter liquid a".into(), fitting: Some(A) });
    phone.says(line(A, true));
    assert_eq!(phone.view().stage, Stage::Connect);
    assert_eq!(phone.view().steps.next.first().map(String::as_str), Some("esv_proved.liquid_a"));
    phone.says(step_done("esv_proved.liquid_a"));
    phone.says(step_done("vapor_test.liquid_a"));
    phone.says(valve(A, ValvePosition::Open));
    assert_eq!(
        status(&phone, "leak_check.liquid_a"),
        StepStatus::Open,
        "yesterday's check counts for nothing"
    );
    phone.says(step_done("leak_check.liquid_a"));
    let view = phone.view();
    assert!(view.steps.step("transfer_readings").unwrap().due.is_some(), "the transfer goes on");
    assert!(view.stage < Stage::Disconnect);
}

/// A line is taken off and put on in one go, with no night between: its tests are asked again, others are not.
#[test]
fn a_hose_that_was_changed_is_tested_again_and_the_other_line_is_not() {
    let mut phone = transferring();
    phone.says(line(Fitting::Vapour, true));
    phone.says(step_done("leak_check.vapour"));
    takes_off_in_order(&mut phone);
    phone.says(line(A, true));
    assert!(status(&phone, "hose_on.liquid_a").is_closed());
    assert!(!status(&phone, "leak_check.liquid_a").is_closed());
    assert!(status(&phone, "leak_check.vapour").is_closed());
}

/// Somebody said on the evening that the car is empty, with the line off: nothing is put on for that.
#[test]
fn a_car_taken_as_empty_after_its_line_came_off_is_not_connected_again() {
    let mut phone = transferring();
    takes_off_in_order(&mut phone);
    assert!(status(&phone, "hose_on.liquid_a").is_closed(), "nobody left, and no line was put on");
    assert_eq!(phone.view().stage, Stage::Disconnect, "the line came off in order");
    phone.says(left_disconnected());
    assert!(!status(&phone, "hose_on.liquid_a").is_closed());
    phone.says(empty_accepted());
    assert!(status(&phone, "hose_on.liquid_a").is_closed());
    assert!(phone.view().stage >= Stage::Disconnect);
}

/// What asks again keeps back what comes next only until the car is closed up.
#[test]
fn a_car_moved_after_it_was_closed_up_is_not_protected_before_its_release() {
    let mut phone = transferring();
    let moved = |phone: &mut Phone| {
        phone.says(Statement::CarMoved(CarMoved { to: "track 3".into(), by: "carrier".into() }));
    };
    moved(&mut phone);
    assert_eq!(phone.view().steps.again.first().map(String::as_str), Some("track_secured"));
    phone.says(empty_accepted());
    takes_off_in_order(&mut phone);
    until(&mut phone, Stage::Close);
    moved(&mut phone);
    assert_eq!(phone.view().steps.again, Vec::<String>::new());
    assert!(phone.view().steps.left_behind.iter().any(|id| id == "track_secured"), "it is still said");
}

/// A part of the load stays in: nobody decides that the car is empty, and no line is asked for again.
#[test]
fn a_car_that_goes_with_a_part_of_its_load_is_not_connected_again() {
    let mut phone = transferring();
    let (load, because) = (CarLoad::PartLoaded, Coded::Code(LeavesAs::BadOrder));
    phone.says(Statement::Outcome(crate::entry::CarOutcome {
        load,
        because,
        to: String::new(),
        note: "relief device weeps".into(),
    }));
    takes_off_in_order(&mut phone);
    assert!(status(&phone, "hose_on.liquid_a").is_closed());
    assert!(phone.view().stage >= Stage::Disconnect);
}

/// Somebody took the line off without a word on the valve, on what was heard, or on whether liquid is left.
#[test]
fn a_car_whose_lines_are_all_off_is_being_disconnected_whatever_was_not_said() {
    let mut phone = Phone::of("op-a", 1);
    phone.says(opened(Receiver::FixedTank));
    until(&mut phone, Stage::Transfer);
    phone.says(line(Fitting::Vapour, true));
    phone.says(line(A, false));
    assert!(phone.view().stage < Stage::Disconnect, "the vapor line is on");
    phone.says(line(Fitting::Vapour, false));
    let view = phone.view();
    assert_eq!(view.stage, Stage::Disconnect);
    let step = view.steps.step(&view.steps.next[0]).unwrap();
    assert_eq!(step.stage, Stage::Disconnect, "{:?}", view.steps.next);
    phone.says(line(A, true));
    assert!(phone.view().stage < Stage::Disconnect, "a line is on again");
}

/// The vapor was drawn down before the line came off: nothing is put on again after the night.
#[test]
fn a_car_drawn_down_before_its_line_came_off_is_not_connected_again_after_the_night() {
    let mut phone = transferring();
    phone.says(psi(Purpose::Recovery, Place::Car, "38", "G-1"));
    takes_off_in_order(&mut phone);
    phone.says(left_disconnected());
    phone.now += 12 * 60 * MINUTE;
    let view = phone.view();
    assert_eq!(view.stage, Stage::Disconnect);
    assert!(status(&phone, "hose_on.liquid_a").is_closed());
    assert!(view.steps.next.iter().all(|id| !id.starts_with("open_closure")), "{:?}", view.steps.next);
}

/// What is measured and looked at last is measured and looked at once no line is to be put on again. What nobody decided
/// comes before the car is closed up.
#[test]
fn a_car_that_was_moved_and_is_being_closed_up_is_not_shown_as_being_connected() {
    let mut phone = transferring();
    takes_off_in_order(&mut phone);
    phone.says(Statement::CarMoved(CarMoved { to: "track 3".into(), by: "carrier".into() }));
    assert_eq!(phone.view().stage, Stage::Connect, "nobody said that liquid is out");
    phone.says(psi(Purpose::Final, Place::Car, "18", "G-1"));
    let view = phone.view();
    assert_eq!(status(&phone, "final_pressure"), StepStatus::Recorded);
    assert_eq!(view.stage, Stage::Close);
    let first = |phone: &Phone| phone.view().steps.next.first().cloned();
    assert_eq!(first(&phone).as_deref(), Some("empty_decision"));
    phone.says(empty_accepted());
    assert_eq!(first(&phone).as_deref(), Some("tools_look"));
}
