//! Stays that began under the first edition keep its release gate: the rules that were in the program before
//! procedures contained them, one blocker at a time.

use super::*;
use crate::entry::Defect;
use crate::ids::{DefectId, HoldId};
use crate::procedure::AskedBy;

/// The whole job as the first edition told it, without anything that its gate did not ask for.
fn whole_job(receiver: Receiver) -> Phone {
    let mut phone = Phone::of("op-a", 1);
    phone.says(opened_before_rules(receiver));
    for what in Protection::ALL {
        phone.says(protection(*what, true));
    }
    for fitting in Fitting::USUAL {
        if fitting.has_valve() {
            phone.says(valve(fitting, ValvePosition::Shut));
            phone.says(quiet(fitting));
        }
        phone.says(closure(fitting, ClosureState::ToolTight));
    }
    let mut phone = unloaded(phone);
    phone.says(psi(Purpose::Final, Place::Car, "38", "LG-1"));
    phone.says(cover(true));
    phone.says(seal_applied());
    phone.says(protection(Protection::Chocks, false));
    phone.says(protection(Protection::BlueSign, false));
    phone
}

#[test]
fn a_whole_job_leaves_nothing_open() {
    for receiver in Receiver::ALL {
        let view = whole_job(*receiver).view();
        assert!(view.blockers.is_empty(), "{:#?}", view.blockers);
        assert_eq!(view.release.open, 0);
        assert_eq!(view.release.note.id(), NOTE);
        assert!(!view.unloading.asked && view.unloading.blockers.is_empty());
    }
}

/// Each case states what is recorded after the whole job and the single blocker that this causes.
#[test]
fn each_cause_brings_its_own_blocker_and_says_who_asks() {
    let a = Fitting::LiquidA;
    let cases: Vec<(Vec<Statement>, &str, AskedBy)> = vec![
        (
            vec![closure(a, ClosureState::HandTight), cover(true), sign_again(false)],
            "closure_not_tool_tight.liquid_a",
            AskedBy::Law,
        ),
        (
            vec![closure(Fitting::GaugingDevice, ClosureState::Open), cover(true)],
            "closure_not_tool_tight.gauging_device",
            AskedBy::Law,
        ),
        (vec![valve(a, ValvePosition::Open), cover(true)], "valve_not_shut.liquid_a", AskedBy::Law),
        (vec![valve(a, ValvePosition::Shut), cover(true)], "listen_missing.liquid_a", AskedBy::Practice),
        (
            vec![Statement::Listen { fitting: a, heard: Heard::Hiss }],
            "hiss_heard.liquid_a",
            AskedBy::Practice,
        ),
        (vec![line(a, true), cover(true)], "line_connected.liquid_a", AskedBy::Law),
        (
            vec![Statement::EmptyDecision { accepted: false, grounds: "doubt".into() }],
            "empty_not_accepted",
            AskedBy::Law,
        ),
        (
            vec![Statement::EmptySign { sign: EmptySign::LiquidAtClosure, seen: true }],
            "empty_contradicted",
            AskedBy::Law,
        ),
        (vec![psi(Purpose::Final, Place::Car, "38", "")], "final_pressure_missing", AskedBy::Practice),
        (vec![psi(Purpose::Final, Place::Car, "low", "LG-1")], "final_pressure_missing", AskedBy::Practice),
        (vec![turns(a, "1")], "threads_one_or_less.liquid_a", AskedBy::Practice),
        (vec![turns(a, "few")], "threads_one_or_less.liquid_a", AskedBy::Practice),
        (
            vec![Statement::ItemOut { item: "Wrench".into(), fitting: None }],
            "item_out.wrench",
            AskedBy::Practice,
        ),
        (vec![cover(false)], "cover_not_closed", AskedBy::Law),
        (
            vec![Statement::Cover { closed: true, pinned: false, bolts_in_place: 8, bolts_required: 8 }],
            "cover_not_pinned",
            AskedBy::Law,
        ),
        (
            vec![Statement::Cover { closed: true, pinned: true, bolts_in_place: 6, bolts_required: 8 }],
            "cover_bolts",
            AskedBy::Law,
        ),
        (vec![closure(a, ClosureState::ToolTight)], "blue_sign_down_early", AskedBy::Law),
        (vec![closure(a, ClosureState::ToolTight), sign_again(false)], "cover_not_closed", AskedBy::Law),
        (
            vec![Statement::Hold { hold: HoldId([1; 16]), because: "leak heard".into() }],
            "hold_open.01010101",
            AskedBy::Practice,
        ),
        (
            vec![Statement::Defect(Defect {
                defect: DefectId([2; 16]),
                fitting: None,
                what: "housing bent".into(),
                needs_authority: true,
                photo: None,
            })],
            "authority_missing.02020202",
            AskedBy::Law,
        ),
    ];
    for (said, code, asked_by) in cases {
        let mut phone = whole_job(Receiver::Truck);
        for says in said.clone() {
            phone.says(says);
        }
        let view = phone.view();
        let blocker = view.blockers.iter().find(|b| b.code == code);
        let blocker = blocker.unwrap_or_else(|| panic!("{code} after {said:?}: {:?}", codes(&view)));
        assert_eq!(blocker.asked_by, asked_by, "{code}");
        assert!(!blocker.source.is_empty() && blocker.missing.en().ends_with('.'), "{blocker:?}");
    }
}

fn sign_again(up: bool) -> Statement {
    protection(Protection::BlueSign, up)
}

#[test]
fn the_sign_law_binds_trucks_and_is_practice_at_a_fixed_tank() {
    for (receiver, asked_by) in [(Receiver::Truck, AskedBy::Law), (Receiver::FixedTank, AskedBy::Practice)] {
        let mut phone = Phone::of("op-a", 1);
        phone.says(opened_before_rules(receiver));
        phone.says(protection(Protection::BlueSign, false));
        let view = phone.view();
        let blocker = view.blockers.iter().find(|b| b.code == "blue_sign_down_early").unwrap();
        assert_eq!(blocker.asked_by, asked_by);
        assert!(blocker.source.en().contains("174.67(a)"));
    }
}
