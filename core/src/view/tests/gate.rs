//! Tests of the release gate, one blocker at a time: each appears with its cause and disappears with it.

use super::*;
use crate::entry::Defect;
use crate::ids::{DefectId, HoldId};
use crate::procedure::AskedBy;

#[test]
fn a_whole_job_leaves_nothing_open() {
    for receiver in Receiver::ALL {
        let view = whole_job(*receiver).view();
        assert!(view.blockers.is_empty(), "{:#?}", view.blockers);
        assert_eq!(view.release.open, 0);
        assert_eq!(view.release.note.id(), NOTE);
    }
}

#[test]
fn an_empty_record_is_not_a_clean_one() {
    let view = view_of(&[], UtcMillis(MORNING));
    let codes = codes(&view);
    for code in
        ["not_opened", "empty_not_accepted", "final_pressure_missing", "cover_not_closed", "seal_missing"]
    {
        assert!(codes.contains(&code), "{code} in {codes:?}");
    }
    for fitting in Fitting::USUAL {
        assert!(codes.contains(&format!("closure_not_tool_tight.{fitting}").as_str()), "{fitting}");
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
fn a_tight_plug_says_nothing_of_the_valve_behind_it() {
    let mut phone = Phone::of("op-a", 1);
    phone.says(opened(Receiver::FixedTank));
    phone.says(closure(Fitting::LiquidA, ClosureState::ToolTight));
    let view = phone.view();
    let codes = codes(&view);
    assert!(codes.contains(&"valve_not_shut.liquid_a"));
    assert!(!codes.contains(&"closure_not_tool_tight.liquid_a"));
}

#[test]
fn listening_counts_only_after_the_valve_was_last_shut() {
    let mut phone = Phone::of("op-a", 1);
    phone.says(quiet(Fitting::Vapour));
    phone.says(valve(Fitting::Vapour, ValvePosition::Shut));
    assert!(codes(&phone.view()).contains(&"listen_missing.vapour"));
    phone.says(quiet(Fitting::Vapour));
    assert!(!codes(&phone.view()).contains(&"listen_missing.vapour"));
}

#[test]
fn a_pressure_read_at_the_compressor_is_not_the_cars() {
    let mut phone = Phone::of("op-a", 1);
    phone.says(psi(Purpose::Final, Place::Compressor, "35", "CG-1"));
    let view = phone.view();
    let blocker = view.blockers.iter().find(|b| b.code == "final_pressure_missing").unwrap();
    assert!(blocker.missing.en().contains("read only here: compressor"), "{:?}", blocker.missing);
}

#[test]
fn one_thread_needs_a_defect_a_photograph_and_a_report() {
    let mut phone = whole_job(Receiver::FixedTank);
    let a = Fitting::LiquidA;
    phone.says(turns(a, "0.75"));
    let lacks = |phone: &Phone| {
        phone
            .view()
            .blockers
            .into_iter()
            .find(|b| b.code == "threads_one_or_less.liquid_a")
            .map(|b| b.missing)
            .unwrap_or_default()
    };
    assert!(lacks(&phone).en().contains("a defect entry, a photograph and a report"), "{:?}", lacks(&phone));
    let defect = DefectId([5; 16]);
    phone.says(Statement::Defect(Defect {
        defect,
        fitting: Some(a),
        what: "plug bottoms early".into(),
        needs_authority: false,
        photo: None,
    }));
    assert!(lacks(&phone).en().contains("Missing: a photograph and a report"), "{:?}", lacks(&phone));
    phone.says(photo(PhotoOf::Threads, "fitting/liquid_a/threads"));
    assert!(lacks(&phone).en().contains("Missing: a report to"), "{:?}", lacks(&phone));
    phone.says(Statement::Forwarded { defect, to: "owner".into(), how: "voice".into() });
    assert!(lacks(&phone).is_empty());
}

#[test]
fn a_seal_is_a_number_a_kind_a_place_and_a_picture_or_a_reason() {
    let seal = |number: &str, kind, photo, note: &str| {
        Statement::Seal(Seal {
            event: SealEvent::Applied,
            place: SealPlace::HousingLug,
            number: number.into(),
            kind,
            intact: true,
            photo,
            note: note.into(),
            because: String::new(),
        })
    };
    let photo_taken = Some(Digest::of(b"p"));
    let blocked = |says: Statement| {
        let mut phone = whole_job(Receiver::FixedTank);
        phone.says(says);
        codes(&phone.view()).contains(&"seal_incomplete.housing_lug")
    };
    assert!(!blocked(seal("77", Some(SealKind::Cable), photo_taken, "")));
    assert!(!blocked(seal("77", Some(SealKind::Cable), None, "camera wet")));
    assert!(blocked(seal("", Some(SealKind::Cable), photo_taken, "")));
    assert!(blocked(seal("77", None, photo_taken, "")));
    assert!(blocked(seal("77", Some(SealKind::Cable), None, "")));
}

#[test]
fn no_seal_at_all_wants_a_reason() {
    let mut phone = Phone::of("op-a", 1);
    assert!(codes(&phone.view()).contains(&"seal_missing"));
    phone.says(Statement::Step {
        step: "seal".into(),
        outcome: StepOutcome::Skipped,
        note: "carrier seals".into(),
    });
    assert!(!codes(&phone.view()).contains(&"seal_missing"));
}

#[test]
fn a_fitting_never_touched_still_counts_and_a_car_may_have_fewer() {
    let mut phone = Phone::of("op-a", 1);
    phone.says(opened(Receiver::FixedTank));
    assert!(codes(&phone.view()).contains(&"closure_not_tool_tight.thermometer_well"));
    phone.says(Statement::CarFittings {
        fittings: vec![Fitting::LiquidA, Fitting::Vapour],
        gauging: None,
        vapour_end: None,
    });
    let view = phone.view();
    let codes = codes(&view);
    assert!(!codes.contains(&"closure_not_tool_tight.thermometer_well"));
    assert!(codes.contains(&"closure_not_tool_tight.vapour"));
    phone.says(closure(Fitting::VapourTwo, ClosureState::Open));
    let view = phone.view();
    assert!(self::codes(&view).contains(&"closure_not_tool_tight.vapour_two"), "what was touched counts");
}

#[test]
fn a_person_may_pass_over_with_a_reason_and_the_record_shows_it_for_ever() {
    let mut phone = whole_job(Receiver::FixedTank);
    let wrench = "item_out.wrench";
    phone.says(Statement::ItemOut { item: "Wrench".into(), fitting: None });
    let seen = phone.view().blockers.iter().find(|b| b.code == wrench).unwrap().evidence.clone();
    assert_eq!(seen.len(), 1);
    let says = Statement::PassedOver { blocker: wrench.into(), seen };
    phone.says_because(says, "dropped into the ballast, seen lying there");
    let view = phone.view();
    assert!(open_codes(&view).is_empty());
    let word = view.blockers[0].passed_over.as_ref().unwrap();
    assert_eq!(word.said.name, "op-a");
    assert!(word.why.en().contains("ballast"));

    phone.says(Statement::Released { as_residue: true });
    let view = phone.view();
    assert!(view.release.released.is_some());
    assert!(finding(&view, "released_over_open_blockers").is_none());

    phone.says(Statement::ItemIn { item: "wrench".into() });
    let view = phone.view();
    assert!(view.blockers.is_empty());
    assert_eq!(view.passed_over.len(), 1, "the word stays");
}

#[test]
fn passing_over_without_a_reason_does_not_count() {
    let mut phone = whole_job(Receiver::FixedTank);
    phone.says(Statement::ItemOut { item: "wrench".into(), fitting: None });
    phone.says(Statement::PassedOver { blocker: "item_out.wrench".into(), seen: vec![] });
    let view = phone.view();
    assert_eq!(open_codes(&view), ["item_out.wrench"]);
    assert_eq!(
        view.passed_over[0].fallen.as_ref().map(crate::Message::id),
        Some("gate-override-without-reason")
    );
}

#[test]
fn what_was_passed_over_blocks_again_when_the_record_says_something_else() {
    let mut phone = whole_job(Receiver::FixedTank);
    let code = "closure_not_tool_tight.sample_line";
    phone.says(closure(Fitting::SampleLine, ClosureState::HandTight));
    let seen = phone.view().blockers.iter().find(|b| b.code == code).unwrap().evidence.clone();
    phone.says_because(Statement::PassedOver { blocker: code.into(), seen }, "plug is galled, reported");
    assert!(!open_codes(&phone.view()).contains(&code));

    // The same statement by another person changes nothing.
    let mut other = phone.clone();
    other.key = DeviceKey::from_secret([2; 32]);
    (other.person, other.seq, other.prev) = ("op-b", 0, None);
    other.seal(
        closure(Fitting::SampleLine, ClosureState::HandTight).slot(),
        closure(Fitting::SampleLine, ClosureState::HandTight),
        vec![],
        vec![],
        "",
    );
    assert!(!open_codes(&other.view()).contains(&code));

    phone.says(closure(Fitting::SampleLine, ClosureState::Open));
    let view = phone.view();
    assert!(open_codes(&view).contains(&code));
    assert!(finding(&view, "passed_over_fell").is_some());
}

#[test]
fn releasing_over_an_open_blocker_is_an_alarm() {
    let mut phone = whole_job(Receiver::FixedTank);
    phone.says(Statement::ItemOut { item: "wrench".into(), fitting: None });
    phone.says(Statement::Released { as_residue: true });
    let view = phone.view();
    let alarm = finding(&view, "released_over_open_blockers").unwrap();
    assert_eq!(alarm.message.en(), "Released with 1 open item that nobody overrode.");
    assert!(view.blockers.iter().any(|blocker| blocker.missing.en().contains("Not returned: wrench")));
}

#[test]
fn one_of_two_people_sure_that_the_valve_is_open_keeps_it_a_blocker() {
    let mut a = whole_job(Receiver::FixedTank);
    let mut b = a.clone();
    b.key = DeviceKey::from_secret([2; 32]);
    (b.person, b.seq, b.prev) = ("op-b", 0, None);
    a.says(valve(Fitting::LiquidA, ValvePosition::Shut));
    b.says(valve(Fitting::LiquidA, ValvePosition::Open));
    a.meets(&mut b);
    let view = a.view();
    let codes = codes(&view);
    assert!(codes.contains(&"disagreement.fitting/liquid_a/valve"));
    assert!(codes.contains(&"valve_not_shut.liquid_a"), "passing over the one must not hide the other");
}

#[test]
fn the_sign_law_binds_every_unloading() {
    for receiver in Receiver::ALL {
        let mut phone = Phone::of("op-a", 1);
        phone.says(opened(*receiver));
        phone.says(protection(Protection::BlueSign, false));
        let view = phone.view();
        let blocker = view.blockers.iter().find(|b| b.code == "blue_sign_down_early").unwrap();
        assert_eq!(blocker.asked_by, AskedBy::Law);
        assert!(blocker.source.en().contains("173.31(g)(2)"));
    }
}

#[test]
fn a_hold_is_lifted_by_a_word_and_comes_back_when_that_is_withdrawn() {
    let mut phone = whole_job(Receiver::FixedTank);
    let hold = HoldId([1; 16]);
    phone.says(Statement::Hold { hold, because: "frost ring".into() });
    assert!(codes(&phone.view()).contains(&"hold_open.01010101"));
    let lifted = phone.says(Statement::HoldLifted { hold, because: "gone after recovery".into() });
    assert!(!codes(&phone.view()).contains(&"hold_open.01010101"));
    phone.withdraws(lifted, "it is back");
    assert!(codes(&phone.view()).contains(&"hold_open.01010101"));
}
