//! How a car is left: over night, moved, and away otherwise than as residue.

use super::*;
use crate::entry::{CarLeft, CarMoved, CarOutcome, Defect};
use crate::ids::DefectId;
use crate::units::Severity;

fn left(connected: bool, conditions: &[LeftCondition]) -> Statement {
    let conditions = conditions.to_vec();
    Statement::CarLeft(CarLeft { connected, conditions, until: None, note: String::new() })
}

fn moved(to: &str) -> Statement {
    Statement::CarMoved(CarMoved { to: to.into(), by: "carrier".into() })
}

fn outcome(load: CarLoad, because: LeavesAs, note: &str) -> Statement {
    let because = Coded::Code(because);
    Statement::Outcome(CarOutcome { load, because, to: String::new(), note: note.into() })
}

fn told(view: &VisitView, code: &str) -> Option<String> {
    view.findings.iter().find(|finding| finding.code == code).map(|finding| finding.message.en())
}

fn protect(phone: &mut Phone) {
    for what in [Protection::TrackSecured, Protection::HandBrake, Protection::Chocks, Protection::BlueSign] {
        phone.says(protection(what, true));
    }
}

/// Moved before the first closure came out: what was protected on the old track counts for nothing on the new one.
#[test]
fn after_a_move_the_gate_before_unloading_asks_for_the_protections_again() {
    let mut phone = received(Receiver::FixedTank);
    let protections = |view: &VisitView| {
        let codes = view.unloading.blockers.iter().map(|b| b.code.clone());
        codes.filter(|code| code.starts_with("protection_not_set")).collect::<Vec<_>>()
    };
    assert_eq!(protections(&phone.view()), Vec::<String>::new());
    phone.says(moved("track 3"));
    let view = phone.view();
    assert_eq!(view.header.spot, "track 3", "it stands where it was moved");
    let again = ["track_secured", "blue_sign", "hand_brake", "chocks"]
        .map(|what| format!("protection_not_set.{what}"));
    assert_eq!(protections(&view), again);
    assert_eq!(view.steps.step("chocks").unwrap().status, StepStatus::Open, "the step is open again");
    assert!(told(&view, "protect_again").unwrap().contains("wheel"), "{:?}", told(&view, "protect_again"));
    protect(&mut phone);
    let view = phone.view();
    assert_eq!(protections(&view), Vec::<String>::new());
    assert_eq!(view.steps.step("chocks").unwrap().status, StepStatus::Recorded);
    assert_eq!(told(&view, "protect_again"), None);
}

/// Moved with the job half done: a line that is put on afterwards over missing protections stays an item for ever.
#[test]
fn a_line_put_on_after_a_move_needs_the_protections_again() {
    let half = |again: bool| {
        let mut phone = received(Receiver::FixedTank);
        phone.says(Statement::FitToUnload {});
        let mut phone = unloaded(phone);
        phone.says(moved("track 3"));
        if again {
            protect(&mut phone);
        }
        phone
    };
    let is_again = |view: &VisitView| codes(view).iter().any(|code| code.starts_with("protection_not_set"));
    let mut phone = half(false);
    assert!(!is_again(&phone.view()), "with all lines off nothing is asked of the release");
    phone.says(line(Fitting::Vapour, true));
    assert!(is_again(&phone.view()));
    let mut phone = half(true);
    phone.says(line(Fitting::Vapour, true));
    assert!(!is_again(&phone.view()));
}

/// At a fixed tank nothing makes an unattended connection right; for transloading the five conditions do.
#[test]
fn a_car_left_connected_is_held_to_the_conditions_that_bind() {
    let connected = |receiver: Receiver, conditions: &[LeftCondition]| {
        let mut phone = received(receiver);
        phone.says(line(Fitting::LiquidA, true));
        phone.says(left(true, conditions));
        phone
    };
    let at_tank = told(&connected(Receiver::FixedTank, LeftCondition::ALL).view(), "left_connected").unwrap();
    assert!(at_tank.contains("1910.110(b)(14)(i)") && at_tank.contains("transloading only"), "{at_tank}");
    let some = connected(Receiver::Truck, &[LeftCondition::ValvesClosed, LeftCondition::BrakesBlocked]);
    let missing = told(&some.view(), "left_connected").unwrap();
    assert!(missing.contains("174.67(k)") && missing.contains("every hour"), "{missing}");
    assert!(!missing.contains("valves of car"), "{missing}");
    assert_eq!(told(&connected(Receiver::Truck, LeftCondition::ALL).view(), "left_connected"), None);
    let mut phone = connected(Receiver::FixedTank, &[]);
    phone.says(left(false, &[]));
    assert!(told(&phone.view(), "left_with_line").is_some(), "left as disconnected, and a line is on");
    phone.says(line(Fitting::LiquidA, false));
    assert_eq!(told(&phone.view(), "left_with_line"), None);
}

/// Nobody who left keeps "I have the car": the time until somebody came back is a gap, and said to be one.
#[test]
fn whoever_leaves_the_car_connected_is_away() {
    let mut phone = received(Receiver::Truck);
    phone.says(Statement::Attendance { presence: Presence::Here });
    phone.says(line(Fitting::LiquidA, true));
    phone.says(left(true, LeftCondition::ALL));
    phone.now += 10 * 60 * MINUTE;
    phone.says(protection(Protection::HandBrake, true));
    let gap = phone.view().attendance.gaps.into_iter().next_back().unwrap();
    assert!(gap.said_away && !gap.declared && gap.minutes >= 600);
    let after = phone.view();
    assert!(
        after.blockers.iter().any(|b| b.code == "protection_not_set.chocks"),
        "a line is on, and nobody looked again"
    );
    assert!(!after.blockers.iter().any(|b| b.code == "protection_not_set.hand_brake"));
}

/// Who left the car and said that its valves are closed is not told that one was recorded open.
#[test]
fn valves_said_to_be_closed_when_the_car_was_left_are_not_open_in_the_gap() {
    let gap = |conditions: &[LeftCondition]| {
        let mut phone = received(Receiver::Truck);
        phone.says(line(Fitting::LiquidA, true));
        phone.says(valve(Fitting::LiquidA, ValvePosition::Open));
        phone.says(left(true, conditions));
        phone.now += 10 * 60 * MINUTE;
        protect(&mut phone);
        finding(&phone.view(), "attendance_gap").map(|gap| gap.severity)
    };
    assert_eq!(gap(LeftCondition::ALL), Some(Severity::Check));
    assert_eq!(gap(&[LeftCondition::Monitored]), Some(Severity::Alarm));
}

/// The car is refused on arrival and goes back as it came: no proof that it is empty, and a paper for the load.
fn refused(note: &str) -> Phone {
    let mut phone = received(Receiver::FixedTank);
    phone.says(outcome(CarLoad::Loaded, LeavesAs::Refused, note));
    phone.says(last_round());
    phone.says(cover(true));
    phone.says(seal_applied());
    for what in [Checked::OutsideBeforeOffered, Checked::LoadedPaper, Checked::Placards] {
        phone.says(checked(what));
    }
    phone
}

#[test]
fn a_car_released_loaded_needs_no_empty_proof_but_its_own_items() {
    let phone = refused("paper is for butane");
    let view = phone.view();
    assert_eq!(open_codes(&view), Vec::<&str>::new());
    assert!(!view.steps.steps.iter().any(|step| step.id == "empty_decision" || step.id == "residue_paper"));
    assert!(view.steps.steps.iter().any(|step| step.id == "loaded_paper"));
    // What it needs of its own.
    for (out, code) in [
        (Checked::LoadedPaper, "check_missing.loaded_paper"),
        (Checked::Placards, "check_missing.placards in place"),
    ] {
        let mut without = Phone::of("op-a", 1);
        for entry in &phone.knows {
            if !matches!(&entry.body.says, Statement::Check { what, .. } if *what == Coded::Code(out)) {
                without.says(entry.body.says.clone());
            }
        }
        assert_eq!(open_codes(&without.view()), [code]);
    }
    let mut open = phone.clone();
    open.says(closure(Fitting::LiquidB, ClosureState::HandTight));
    assert!(open_codes(&open.view()).contains(&"closure_not_tool_tight.liquid_b"));
    // The same record as residue asks for everything.
    let mut as_residue = phone;
    as_residue.says(outcome(CarLoad::Residue, LeavesAs::Unloaded, ""));
    let codes = as_residue.view();
    for code in ["empty_not_accepted", "final_pressure_missing", "check_missing.residue paper made out"] {
        assert!(open_codes(&codes).contains(&code), "{code}: {:?}", open_codes(&codes));
    }
}

/// Two who say differently how the car goes: the one that asks for most counts until it is settled.
#[test]
fn a_disputed_outcome_is_asked_for_as_residue() {
    let mut one = received(Receiver::FixedTank);
    let mut other =
        Phone { person: "op-b", key: DeviceKey::from_secret([2; 32]), seq: 0, prev: None, ..one.clone() };
    one.says(outcome(CarLoad::Loaded, LeavesAs::Refused, "wrong product"));
    other.says(outcome(CarLoad::Residue, LeavesAs::Unloaded, ""));
    one.meets(&mut other);
    let view = one.view();
    assert!(codes(&view).contains(&"empty_not_accepted") && codes(&view).contains(&"disagreement.outcome"));
}

#[test]
fn bad_order_needs_a_defect_and_a_refusal_its_reason() {
    let unexplained = |view: &VisitView| codes(view).contains(&"outcome_unexplained");
    assert!(unexplained(&refused("").view()));
    assert!(!unexplained(&refused("wrong product").view()));
    let mut phone = refused("x");
    phone.says(outcome(CarLoad::PartLoaded, LeavesAs::BadOrder, "valve will not close"));
    assert!(unexplained(&phone.view()), "a sentence is no defect");
    phone.says(Statement::Defect(Defect {
        defect: DefectId([2; 16]),
        fitting: Some(Fitting::LiquidA),
        what: "stem bent".into(),
        needs_authority: false,
        photo: None,
    }));
    assert!(!unexplained(&phone.view()));
}

/// "As residue" is not signed over a record that says loaded, and somebody else's is pointed out.
#[test]
fn a_car_is_released_as_it_was_said_to_go() {
    use crate::book::Draft;
    let mut phone = refused("wrong product");
    let view = phone.view();
    let refusal = Draft::releasing(&view, true).unwrap_err().message().en();
    assert!(refusal.contains("the car goes loaded"), "{refusal}");
    assert!(Draft::releasing(&view, false).is_ok());
    let whole = whole_job(Receiver::FixedTank).view();
    assert!(Draft::releasing(&whole, true).is_ok() && Draft::releasing(&whole, false).is_ok());
    phone.says(Statement::Released { as_residue: true });
    assert!(told(&phone.view(), "released_otherwise").is_some());
}

/// An edition without ways of going away asks what it asked.
#[test]
fn under_the_first_edition_a_loaded_car_is_still_asked_for_the_empty_proof() {
    let mut phone = Phone::of("op-a", 1);
    phone.says(opened_before_rules(Receiver::FixedTank));
    phone.says(outcome(CarLoad::Loaded, LeavesAs::Refused, "wrong product"));
    assert!(codes(&phone.view()).contains(&"empty_not_accepted"));
}
