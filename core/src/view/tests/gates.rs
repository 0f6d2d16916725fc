//! The two gates: what must not be possible before unloading and before release, each as a story.

use super::*;
use crate::entry::site_facts::Instrument;
use crate::ids::HoldId;
use crate::procedure::{AskedBy, BUILT_IN, BlockerKind};
use crate::units::Severity;

fn unload_codes(view: &VisitView) -> Vec<&str> {
    view.unloading.blockers.iter().map(|b| b.code.as_str()).collect()
}

fn open_at_unloading(view: &VisitView) -> Vec<&str> {
    let open = view.unloading.blockers.iter().filter(|b| b.passed_over.is_none());
    open.map(|b| b.code.as_str()).collect()
}

fn overridden(gate: Gate, items: &[&str], reason: &str) -> Statement {
    let items = items.iter().map(|item| (*item).to_owned()).collect();
    Statement::Overridden { gate, items, seen: Vec::new(), reason: Coded::typed(reason) }
}

fn not_right(step: &str, note: &str) -> Statement {
    Statement::Step { step: step.into(), outcome: StepOutcome::NotRight, note: note.into() }
}

/// The whole job, with something said just before the last round.
fn job_with(before_the_round: &[Statement]) -> Phone {
    let whole = whole_job(Receiver::FixedTank);
    let mut phone = Phone::of("op-a", 1);
    for entry in whole.knows {
        if matches!(entry.body.says, Statement::LastRound { .. }) {
            for says in before_the_round {
                phone.says(says.clone());
            }
        }
        phone.says(entry.body.says);
    }
    phone
}

/// The whole job without the statements that `leave_out` names.
fn job_without(leave_out: impl Fn(&Statement) -> bool) -> Phone {
    let mut phone = Phone::of("op-a", 1);
    for entry in whole_job(Receiver::FixedTank).knows {
        if !leave_out(&entry.body.says) {
            phone.says(entry.body.says);
        }
    }
    phone
}

#[test]
fn a_car_that_was_received_with_nothing_left_out_is_fit_to_unload() {
    for receiver in Receiver::ALL {
        let view = received(*receiver).view();
        assert!(view.unloading.asked);
        assert_eq!(unload_codes(&view), Vec::<&str>::new());
        assert!(view.unloading.met.iter().any(|met| met.item == BlockerKind::ProtectionNotSet));
        let number = view.unloading.met.iter().find(|met| met.item == BlockerKind::NumberNotChecked);
        assert!(number.unwrap().by.is_some(), "the entry that met it is named");
    }
}

/// Each thing left out on arrival is its own item before unloading, with who asks for it.
#[test]
fn each_thing_left_out_on_arrival_is_an_item_of_its_own() {
    type Out = fn(&Statement) -> bool;
    let cases: [(Out, &str, AskedBy); 11] = [
        (|s| matches!(s, Statement::Photo { .. }), "number_not_checked", AskedBy::Practice),
        (|s| matches!(s, Statement::Paper(_)), "paper_not_compared", AskedBy::Practice),
        (
            |s| matches!(s, Statement::Protection { what: Protection::HandBrake, .. }),
            "protection_not_set.hand_brake",
            AskedBy::Law,
        ),
        (
            |s| matches!(s, Statement::Protection { what: Protection::BlueSign, .. }),
            "protection_not_set.blue_sign",
            AskedBy::Law,
        ),
        (
            |s| matches!(s, Statement::Protection { what: Protection::EmergencyShutOff, .. }),
            "protection_not_set.emergency_shut_off",
            AskedBy::Practice,
        ),
        (|s| matches!(s, Statement::Weather { .. }), "not_recorded_as_found.weather", AskedBy::Practice),
        (|s| matches!(s, Statement::Step { .. }), "step_open.escape_way", AskedBy::Practice),
        (|s| matches!(s, Statement::Seal(_)), "not_recorded_as_found.seals", AskedBy::Practice),
        (
            |s| matches!(s, Statement::Closure { fitting: Fitting::SampleLine, .. }),
            "not_recorded_as_found.housing",
            AskedBy::Practice,
        ),
        (
            |s| matches!(s, Statement::Reading(r) if r.measured == Measured::Pressure),
            "reading_missing.arrival_pressure",
            AskedBy::Practice,
        ),
        (
            |s| matches!(s, Statement::Reading(r) if r.measured == Measured::Level),
            "reading_missing.tank_level",
            AskedBy::Practice,
        ),
    ];
    for (out, code, asked_by) in cases {
        let mut phone = Phone::of("op-a", 1);
        for entry in received(Receiver::FixedTank).knows {
            if !out(&entry.body.says) {
                phone.says(entry.body.says);
            }
        }
        let view = phone.view();
        let found: Vec<_> = view.unloading.blockers.iter().filter(|b| b.code == code).collect();
        let [blocker] = found[..] else { panic!("{code}: {:?}", unload_codes(&view)) };
        assert_eq!(blocker.asked_by, asked_by, "{code}");
        assert!(blocker.missing.en().ends_with('.') && !blocker.source.en().is_empty(), "{blocker:?}");
    }
}

#[test]
fn a_hold_an_alarm_and_a_leak_heard_stop_the_job_before_it_begins() {
    let hold = Statement::Hold { hold: HoldId([1; 16]), because: "wrong car".into() };
    let hiss = Statement::Listen { fitting: Fitting::Vapour, heard: Heard::Hiss };
    let another_car = paper_of("ZZQX 4471", "UN1978");
    let cases = [
        (hold, "hold_open.01010101"),
        (hiss, "hiss_heard.vapour"),
        (another_car, "alarm.paper_for_another_car"),
        (paper_of("ZZQX 4417", "UN1005"), "product_not_taken"),
        (not_right("hand_brake", "does not hold"), "protection_out_of_order.hand_brake"),
    ];
    for (says, code) in cases {
        let mut phone = received(Receiver::FixedTank);
        phone.says(says);
        let view = phone.view();
        assert!(unload_codes(&view).contains(&code), "{code}: {:?}", unload_codes(&view));
        assert_eq!(view.unloading.blockers[0].kind == BlockerKind::Alarm, code.starts_with("alarm"));
    }
}

#[test]
fn unloading_that_began_before_anybody_signed_is_an_alarm_that_blocks_the_release() {
    let phone = job_without(|says| matches!(says, Statement::FitToUnload {}));
    let view = phone.view();
    assert_eq!(open_codes(&view), ["alarm.unloading_not_cleared"]);
    let alarm = finding(&view, "unloading_not_cleared").unwrap();
    assert_eq!(alarm.severity, Severity::Alarm);
    assert!(alarm.message.en().contains("fit to unload"), "{}", alarm.message.en());
}

/// Signed over what was open: at once an alarm, and for ever an item until it is overridden with a reason.
#[test]
fn starting_over_an_open_item_is_an_alarm_until_it_is_overridden_with_a_reason() {
    let brake = |says: &Statement| matches!(says, Statement::Protection { what: Protection::HandBrake, .. });
    let mut signed = Phone::of("op-a", 1);
    for entry in received(Receiver::FixedTank).knows {
        if !brake(&entry.body.says) {
            signed.says(entry.body.says);
        }
    }
    signed.says(Statement::FitToUnload {});
    let view = signed.view();
    assert_eq!(open_at_unloading(&view), ["protection_not_set.hand_brake"]);
    assert!(finding(&view, "fit_over_open_items").is_some());

    let mut phone = job_without(brake);
    let view = phone.view();
    assert_eq!(open_at_unloading(&view), ["protection_not_set.hand_brake"]);
    assert!(open_codes(&view).contains(&"alarm.unloaded_over_open_items"), "{:?}", open_codes(&view));
    phone.says(overridden(Gate::Unload, &["protection_not_set.hand_brake"], "other_means"));
    let view = phone.view();
    assert_eq!((open_at_unloading(&view), open_codes(&view)), (vec![], vec![]));
    assert_eq!(view.passed_over.len(), 1, "the word stays");
}

/// What is undone at the end of the job, such as chocks taken away, does not open the first gate again.
#[test]
fn the_first_gate_stands_as_it_was_when_unloading_began() {
    let view = whole_job(Receiver::FixedTank).view();
    assert!(view.unloading.fit.is_some() && view.unloading.began.is_some());
    assert_eq!(unload_codes(&view), Vec::<&str>::new());
    assert!(view.unloading.met.iter().any(|met| met.item == BlockerKind::ProtectionNotSet));
}

#[test]
fn nothing_entered_on_arrival_satisfies_the_gate_at_departure() {
    let phone = job_without(|says| matches!(says, Statement::LastRound { .. }));
    let view = phone.view();
    assert_eq!(open_codes(&view), ["last_round_missing"]);
    let missing = view.blockers[0].missing.en();
    for never_touched in ["liquid valve B", "sample line"] {
        assert!(missing.to_lowercase().contains(&never_touched.to_lowercase()), "{missing}");
    }
}

/// One by one serves as well as in one act, and a fitting left out of the round is named.
#[test]
fn a_last_round_counts_only_after_the_last_thing_that_could_disturb_a_closure() {
    let is_round = |says: &Statement| matches!(says, Statement::LastRound { .. });
    let mut one_by_one = job_without(is_round);
    for fitting in Fitting::USUAL {
        if fitting.has_valve() {
            one_by_one.says(valve(fitting, ValvePosition::Shut));
            one_by_one.says(quiet(fitting));
        }
        one_by_one.says(closure(fitting, ClosureState::ToolTight));
    }
    assert!(!codes(&one_by_one.view()).contains(&"last_round_missing"));

    let mut but_one = job_without(is_round);
    but_one.says(Statement::LastRound {
        fittings: Fitting::USUAL.into_iter().filter(|f| *f != Fitting::Vapour).collect(),
        except: vec![Fitting::Vapour],
        note: "plug is stiff".into(),
        photo: None,
    });
    let view = but_one.view();
    let round = view.blockers.iter().find(|b| b.code == "last_round_missing").unwrap();
    assert!(round.missing.en().to_lowercase().contains("vapor valve"), "{}", round.missing.en());
    assert!(!round.missing.en().to_lowercase().contains("sample"), "{}", round.missing.en());

    for disturbs in [psi(Purpose::Final, Place::Car, "37", "LG-1"), line(Fitting::Vapour, false)] {
        let mut phone = whole_job(Receiver::FixedTank);
        assert!(!codes(&phone.view()).contains(&"last_round_missing"));
        phone.says(disturbs);
        assert!(codes(&phone.view()).contains(&"last_round_missing"));
    }
}

/// A mistyped reading that is corrected in the office was not taken again, and opens nothing.
#[test]
fn a_correction_happens_when_the_thing_happened_that_it_corrects() {
    let mut phone = whole_job(Receiver::FixedTank);
    let arrival = phone.knows.iter().find(|e| matches!(&e.body.says, Statement::Reading(r) if r.purpose == Purpose::Arrival && r.measured == Measured::Pressure));
    let wrong = arrival.unwrap().id;
    phone.corrects(wrong, psi(Purpose::Arrival, Place::Car, "117", "PG-1"), "misread");
    assert_eq!(open_codes(&phone.view()), Vec::<&str>::new());
    // Nor does correcting what was found on arrival make it a thing done at departure.
    let mut phone = job_without(|says| matches!(says, Statement::LastRound { .. }));
    let found = phone
        .knows
        .iter()
        .find(|e| matches!(e.body.says, Statement::Closure { fitting: Fitting::SampleLine, .. }));
    let found = found.unwrap().id;
    phone.corrects(found, closure(Fitting::SampleLine, ClosureState::ToolTight), "typed twice");
    assert!(codes(&phone.view()).contains(&"last_round_missing"));
}

/// After the round a fitting shows what the round said, and a later word about one fitting is heard again.
#[test]
fn what_a_round_says_of_a_fitting_takes_the_place_of_what_stood_before() {
    let mut phone = unloaded(received(Receiver::FixedTank));
    phone.says(closure(Fitting::LiquidB, ClosureState::Open));
    assert!(codes(&phone.view()).contains(&"closure_not_tool_tight.liquid_b"));
    phone.says(last_round());
    let view = phone.view();
    assert!(!codes(&view).contains(&"closure_not_tool_tight.liquid_b"));
    let shown = view.fittings.iter().find(|f| f.fitting == Fitting::LiquidB).unwrap();
    assert_eq!(shown.closure.as_ref().unwrap().value, ClosureState::ToolTight);
    phone.says(closure(Fitting::LiquidB, ClosureState::HandTight));
    let view = phone.view();
    assert!(codes(&view).contains(&"closure_not_tool_tight.liquid_b"));
    let shown = view.fittings.iter().find(|f| f.fitting == Fitting::LiquidB).unwrap();
    assert_eq!(shown.closure.as_ref().unwrap().value, ClosureState::HandTight);
}

/// Each of these was recorded, nobody put it right, and the car was released: now it is an item.
#[test]
fn what_was_recorded_wrong_blocks_the_release_until_it_is_put_right() {
    let wrong = |what: Checked| Statement::Check {
        what: Coded::Code(what),
        right: false,
        note: "drips at the joint".into(),
    };
    let leaking = Statement::Check { what: Coded::typed("coupling"), right: false, note: "leaks".into() };
    let cases: [(Statement, Statement, &str); 4] = [
        (
            leaking,
            Statement::Check { what: Coded::typed("coupling"), right: true, note: "".into() },
            "check_not_right.coupling",
        ),
        (wrong(Checked::Hoses), checked(Checked::Hoses), "check_not_right.hoses: service and test date"),
        (
            not_right("leak_check.liquid_a", "bubbles"),
            step_done("leak_check.liquid_a"),
            "step_not_right.leak_check.liquid_a",
        ),
        (
            not_right("emergency_shut_off", "valve stays open"),
            step_done("emergency_shut_off"),
            "protection_out_of_order.emergency_shut_off",
        ),
    ];
    for (says, put_right, code) in cases {
        let mut phone = job_with(&[says]);
        assert_eq!(open_codes(&phone.view()), [code]);
        phone.says(put_right);
        assert_eq!(open_codes(&phone.view()), Vec::<&str>::new(), "{code}");
    }
}

#[test]
fn a_sign_of_liquid_blocks_before_and_after_the_decision() {
    let seen = |seen| Statement::EmptySign { sign: EmptySign::LiquidAtClosure, seen };
    let after = job_with(&[seen(true)]);
    assert_eq!(open_codes(&after.view()), ["empty_contradicted"]);
    let mut before = Phone::of("op-a", 1);
    for entry in whole_job(Receiver::FixedTank).knows {
        if matches!(entry.body.says, Statement::EmptyDecision { .. }) {
            before.says(seen(true));
        }
        before.says(entry.body.says);
    }
    assert_eq!(open_codes(&before.view()), ["empty_contradicted"]);
    before.says(seen(false));
    assert_eq!(open_codes(&before.view()), Vec::<&str>::new(), "somebody looked again");
}

#[test]
fn an_alarm_blocks_until_it_is_answered_and_never_stands_beside_no_open_items() {
    let frost = |seen| Statement::EmptySign { sign: EmptySign::FrostRing, seen };
    let mut phone = job_with(&[frost(true)]);
    let view = phone.view();
    assert_eq!(view.blockers[0].code, "alarm.frost_ring", "alarms stand on top");
    for story in [phone.clone(), job_without(|s| matches!(s, Statement::FitToUnload {}))] {
        let view = story.view();
        let alarmed = view.findings.iter().any(|f| f.severity == Severity::Alarm);
        assert!(alarmed && view.release.open > 0);
    }
    let both = ["alarm.frost_ring", "empty_contradicted.frost_ring", "empty_contradicted"];
    let known: Vec<&str> = both.into_iter().filter(|code| codes(&view).contains(code)).collect();
    let seen = view.blockers.iter().flat_map(|b| b.evidence.clone()).collect();
    phone.says(Statement::Overridden {
        gate: Gate::Release,
        items: known.iter().map(|code| (*code).to_owned()).collect(),
        seen,
        reason: "jacket is wet there".into(),
    });
    let view = phone.view();
    assert_eq!(open_codes(&view), Vec::<&str>::new());
    assert!(finding(&view, "frost_ring").is_some(), "the alarm is still shown");
    phone.says(Statement::CarNumberAgain { car: crate::entry::car_number::CarNumber("ZZQX 4471".into()) });
    assert_eq!(open_codes(&phone.view()), ["alarm.car_number_differs"], "another alarm is not answered");
}

fn low_gauge(span: &str) -> Instrument {
    Instrument {
        name: "LG-1".into(),
        measures: Coded::Code(Measured::Pressure),
        span: Amount::read(span, Unit::PsiGauge).0,
        grade: "A".into(),
        calibration_due: String::new(),
    }
}

fn view_with_gauges(phone: &Phone, instruments: Vec<Instrument>) -> VisitView {
    let procedures = Procedures::built_in().unwrap();
    let site = SiteView { instruments, ..SiteView::default() };
    let recorded: Vec<Recorded<'_>> = phone.knows.iter().map(Recorded::unsent).collect();
    let ctx = Context { site: Some(&site), ..Context::at(UtcMillis(phone.now + MINUTE), &procedures) };
    fold(&recorded, &ctx)
}

#[test]
fn the_final_pressure_is_read_last_within_its_scale_and_on_a_low_range_gauge() {
    let early = {
        let mut phone = Phone::of("op-a", 1);
        for entry in whole_job(Receiver::FixedTank).knows {
            let says = entry.body.says;
            let vapour_off = says == line(Fitting::Vapour, false);
            if vapour_off {
                phone.says(psi(Purpose::Final, Place::Car, "38", "LG-1"));
            }
            if !matches!(&says, Statement::Reading(r) if r.purpose == Purpose::Final) {
                phone.says(says);
            }
        }
        phone
    };
    assert_eq!(open_codes(&early.view()), ["final_pressure_doubtful"]);

    let whole = whole_job(Receiver::FixedTank);
    let open = |phone: &Phone, span: &str| {
        let view = view_with_gauges(phone, vec![low_gauge(span)]);
        let found = view.blockers.iter().filter(|b| b.kind == BlockerKind::FinalPressureDoubtful);
        found.map(|b| b.missing.id().to_owned()).collect::<Vec<_>>()
    };
    assert_eq!(open(&whole, "60"), Vec::<String>::new());
    assert_eq!(open(&whole, "100"), Vec::<String>::new());
    assert_eq!(open(&whole, "400"), ["gate-final-pressure-span"]);
    assert_eq!(open(&whole, "30"), ["gate-final-pressure-off-scale"]);
    let other = Instrument { name: "PG-9".into(), ..low_gauge("60") };
    let view = view_with_gauges(&whole, vec![other]);
    let unknown = view.blockers.iter().find(|b| b.kind == BlockerKind::FinalPressureDoubtful).unwrap();
    assert_eq!(unknown.missing.id(), "gate-final-pressure-span-unknown");
}

/// The ban is on filling an overdue car; it may leave empty, and the owner is told.
#[test]
fn an_overdue_test_date_is_a_notice_and_blocks_nothing() {
    let mut phone = whole_job(Receiver::FixedTank);
    phone.says(Statement::CarTestDate { test: TestDate::TankQualification, due: "2020-01".into() });
    let view = phone.view();
    assert!(finding(&view, "test_overdue").is_some_and(|f| f.severity < Severity::Alarm));
    assert_eq!((open_codes(&view), open_at_unloading(&view)), (vec![], vec![]));
}

#[test]
fn what_goes_with_the_car_and_how_it_stood_is_asked_for() {
    type Out = fn(&Statement) -> bool;
    let of = |what: Checked| move |says: &Statement| *says == checked(what);
    for (what, code) in [
        (Checked::OutsideBeforeOffered, "check_missing.outside of the car, before it is offered"),
        (Checked::ResiduePaper, "check_missing.residue paper made out"),
        (Checked::Placards, "check_missing.placards in place"),
    ] {
        let view = job_without(of(what)).view();
        assert_eq!(open_codes(&view), [code]);
        assert_eq!(view.blockers[0].asked_by, AskedBy::Law);
    }
    let number: Out = |says| matches!(says, Statement::Photo { .. });
    assert!(open_codes(&job_without(number).view()).contains(&"photo_missing.car_number"));
}

#[test]
fn a_line_that_was_on_without_the_blue_sign_stays_an_item_when_the_sign_is_up_again() {
    let mut phone = Phone::of("op-a", 1);
    let sign = |set| protection(Protection::BlueSign, set);
    for entry in whole_job(Receiver::FixedTank).knows {
        let decided = matches!(entry.body.says, Statement::EmptyDecision { .. });
        if decided {
            phone.says(sign(false));
            phone.says(sign(true));
        }
        phone.says(entry.body.says);
    }
    assert_eq!(open_codes(&phone.view()), ["sign_down_while_connected"]);
}

#[test]
fn several_items_are_overridden_in_one_act_with_a_reason_of_the_list() {
    let mut phone =
        job_without(|says| *says == checked(Checked::ResiduePaper) || *says == checked(Checked::Placards));
    let view = phone.view();
    let open: Vec<String> = open_codes(&view).into_iter().map(str::to_owned).collect();
    assert_eq!(open.len(), 2);
    let draft = crate::book::Draft::overriding(&view, Gate::Release, &open, "done but not recorded");
    let draft = draft.unwrap();
    assert!(matches!(&draft.says, Statement::Overridden { items, .. } if *items == open));
    assert!(crate::book::Draft::overriding(&view, Gate::Release, &open, "  ").is_err());
    assert!(crate::book::Draft::overriding(&view, Gate::Unload, &open, "reported").is_err());
    phone.says(Statement::Overridden {
        gate: Gate::Release,
        items: open,
        seen: Vec::new(),
        reason: Coded::typed("reported"),
    });
    let view = phone.view();
    assert_eq!(view.release.open, 0);
    assert_eq!((view.release.passed_over, view.passed_over.len()), (2, 2));
    assert!(view.passed_over[0].why.en().contains("somebody else takes it over"));
    // At the other gate the same words would hold nothing.
    let other = Phone { knows: phone.knows[..phone.knows.len() - 1].to_vec(), ..phone.clone() };
    let mut other = other;
    other.says(overridden(Gate::Unload, &["check_missing.placards in place"], "reported"));
    assert_eq!(other.view().release.open, 2);
}

#[test]
fn only_a_whole_gate_is_signed() {
    use crate::book::Draft;
    let mut phone = received(Receiver::FixedTank);
    assert!(Draft::clearing(&phone.view()).is_ok());
    phone.says(protection(Protection::Chocks, false));
    let refused = Draft::clearing(&phone.view()).unwrap_err();
    assert!(refused.to_string().contains("protection_not_set.chocks"), "{refused}");
    let mut first = Phone::of("op-a", 1);
    first.says(opened_before_rules(Receiver::FixedTank));
    assert!(Draft::clearing(&first.view()).is_err(), "the first edition has no such gate");
}

#[test]
fn two_readings_within_their_combined_uncertainty_do_not_disagree() {
    let read_twice = |a: &str, b: &str, gauges: Vec<Instrument>| {
        let mut one = received(Receiver::FixedTank);
        let mut two = one.clone();
        two.key = DeviceKey::from_secret([2; 32]);
        (two.person, two.seq, two.prev) = ("op-b", 0, None);
        one.says(psi(Purpose::Final, Place::Car, a, "LG-1"));
        two.says(psi(Purpose::Final, Place::Car, b, "LG-1"));
        one.meets(&mut two);
        view_with_gauges(&one, gauges).disagreements.len()
    };
    assert_eq!(read_twice("38", "38.4", vec![low_gauge("60")]), 0);
    assert_eq!(read_twice("38", "47", vec![low_gauge("60")]), 1);
    assert_eq!(read_twice("38", "38.4", vec![]), 1, "a presumed uncertainty settles nothing");
}

/// Somebody who took the car, and stood there with a wrench instead of a telephone, is not accused.
#[test]
fn a_gap_in_entries_inside_a_declared_period_is_at_most_a_note() {
    let gap = |declares: bool| {
        let mut phone = received(Receiver::FixedTank);
        if declares {
            phone.says(Statement::Attendance { presence: Presence::Here });
        }
        phone.says(line(Fitting::LiquidA, true));
        phone.says(valve(Fitting::LiquidA, ValvePosition::Open));
        phone.now += 90 * MINUTE;
        phone.says(psi(Purpose::Transfer, Place::Car, "120", "PG-1"));
        let view = phone.view();
        finding(&view, "attendance_gap").map(|gap| gap.severity)
    };
    assert_eq!(gap(false), Some(Severity::Alarm));
    assert_eq!(gap(true), Some(Severity::Note));
    let mut left = received(Receiver::FixedTank);
    left.says(Statement::Attendance { presence: Presence::Here });
    left.says(line(Fitting::LiquidA, true));
    left.says(Statement::Attendance { presence: Presence::Away });
    left.now += 90 * MINUTE;
    left.says(psi(Purpose::Transfer, Place::Car, "120", "PG-1"));
    assert!(finding(&left.view(), "attendance_gap").is_some_and(|gap| gap.severity > Severity::Note));
}

/// An owner's text without rules keeps those of the first edition, and a rule that cannot be evaluated is refused.
#[test]
fn a_text_without_rules_keeps_the_gate_of_the_first_edition() {
    use crate::procedure::Procedure;
    let first = Procedure::read(BUILT_IN[0]).unwrap();
    let own = BUILT_IN[0].replace("edition = \"1\"", "edition = \"ours\"");
    assert_eq!(Procedure::read(&own).unwrap().gates, first.gates);
    assert!(first.gates.iter().all(|rule| rule.gates == [Gate::Release]));
    let with =
        |rule: &str| Procedure::read(&format!("{own}\n[[gate]]\ngate = [\"unload\"]\n{rule}")).map(|_| ());
    assert!(
        with("item = \"step_open\"\nof = \"bleed\"\nstep = \"bleed\"\nsay = \"Bleed the hose first.\"")
            .is_ok()
    );
    for wrong in [
        "item = \"step_open\"\nstep = \"lunch\"\nsay = \"x\"",
        "item = \"alarm\"\nsay = \"x\"",
        "item = \"alarm\"\ncondition = \"luck\"\nsay = \"x\"",
        "item = \"valve_not_shut\"\nrecord = { statement = \"valve\", position = \"shut\" }\nsay = \"x\"",
        "item = \"valve_not_shut\"\ncondition = \"no_leak_heard\"\nsay = \"x\"",
        "item = \"alarm\"\ncondition = \"alarms_answered\"\nsay = \" \"",
        "item = \"alarm\"\ncondition = \"alarms_answered\"\nsay = \"x\"\nlaw = \"49 CFR\"",
    ] {
        assert!(with(wrong).is_err(), "{wrong}");
    }
}

/// A step that an owner marks as blocking blocks, in the owner's own words.
#[test]
fn an_owners_rule_blocks_in_the_owners_words() {
    let own = BUILT_IN[1].replace("edition = \"2\"", "edition = \"ours\"")
        + "\n[[gate]]\ngate = [\"release\"]\nitem = \"step_open\"\nof = \"placement\"\nstep = \"placement\"\nsay = \"Tell the yard when the car was placed.\"\n";
    let mut procedures = Procedures::built_in().unwrap();
    let digest = procedures.add(&own).unwrap();
    let phone = whole_job(Receiver::FixedTank);
    let mut ours = Phone::of("op-a", 1);
    for entry in phone.knows {
        ours.says(match entry.body.says {
            Statement::Opened(opened) => Statement::Opened(Opened { procedure: digest, ..opened }),
            says => says,
        });
    }
    let recorded: Vec<Recorded<'_>> = ours.knows.iter().map(Recorded::unsent).collect();
    let view = fold(&recorded, &Context::at(UtcMillis(ours.now + MINUTE), &procedures));
    assert_eq!(open_codes(&view), ["step_open.placement"]);
    assert_eq!(view.blockers[0].missing.en(), "Tell the yard when the car was placed.");
    let known = BlockerKind::ALL.iter().map(|kind| kind.word()).collect::<Vec<_>>();
    assert!(known.contains(&"step_open"));
}
