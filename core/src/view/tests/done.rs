//! What was done before its entry was made: shown beside the entry's time, counted with by formulas, and without a
//! say in the order of the record.

use super::*;

fn steps_codes(view: &VisitView) -> Vec<&str> {
    view.findings.iter().map(|finding| finding.code.as_str()).collect()
}

#[test]
fn a_thing_done_earlier_says_both_times_wherever_it_is_told() {
    let mut phone = Phone::of("op-a", 1);
    phone.says(opened(Receiver::FixedTank));
    phone.now += 40 * MINUTE;
    phone.done = Some(UtcMillis(MORNING + 5 * MINUTE));
    phone.says(valve(Fitting::LiquidA, ValvePosition::Shut));
    phone.says(quiet(Fitting::LiquidA));
    let view = phone.view();
    let told = view.history.iter().find(|line| line.slot.ends_with("valve")).unwrap();
    assert_eq!(told.sentence.en(), "Valve (liquid valve A): closed. Done 14:05, entered 14:42.");
    let plain = view.history.iter().find(|line| line.slot.ends_with("listen")).unwrap();
    assert_eq!(plain.sentence.en(), "Listened (liquid valve A): no leak heard.");
    let valve = view.fittings.iter().find(|f| f.fitting == Fitting::LiquidA).unwrap().valve.as_ref().unwrap();
    assert_eq!(valve.said.signature().en(), "op-a, done 14:05, entered 2026-11-24 14:42 UTC");
    assert_eq!(valve.said.done_at(), UtcMillis(MORNING + 5 * MINUTE));
    assert!(!steps_codes(&view).contains(&"done_impossible"));
}

#[test]
fn on_another_day_the_date_stands_beside_the_time() {
    let mut phone = Phone::of("op-a", 1);
    phone.says(opened(Receiver::FixedTank));
    phone.now += 24 * 60 * MINUTE;
    phone.done = Some(UtcMillis(MORNING + 5 * MINUTE));
    phone.says(Statement::Remark { text: "blocked both ends".into() });
    let sentence = phone.view().history[1].sentence.en();
    assert!(sentence.contains("Done 2026-11-24 14:05, entered 2026-11-25 14:02"), "{sentence}");
}

/// Whoever writes afterwards that they listened before the valve was shut did not listen after it.
#[test]
fn the_order_of_the_record_keeps_to_the_entries() {
    let mut phone = Phone::of("op-a", 1);
    phone.says(opened(Receiver::FixedTank));
    phone.now += 60 * MINUTE;
    phone.says(quiet(Fitting::LiquidA));
    phone.done = Some(UtcMillis(MORNING + 10 * MINUTE));
    phone.says(valve(Fitting::LiquidA, ValvePosition::Shut));
    let view = phone.view();
    let missing = |view: &VisitView| view.blockers.iter().any(|b| b.code == "listen_missing.liquid_a");
    assert!(missing(&view), "the valve was entered after listening, whenever it was shut");
    let slots: Vec<&str> = view.history.iter().map(|line| line.slot.as_str()).collect();
    assert_eq!(slots[1..], ["fitting/liquid_a/listen", "fitting/liquid_a/valve"]);
    phone.done = Some(UtcMillis(MORNING + 9 * MINUTE));
    phone.says(quiet(Fitting::LiquidA));
    assert!(!missing(&phone.view()));
}

#[test]
fn a_repeated_reading_is_due_from_when_it_was_taken() {
    let mut phone = received(Receiver::FixedTank);
    phone.now += 60 * MINUTE;
    phone.says(line(Fitting::LiquidA, true));
    phone.done = Some(UtcMillis(phone.now - 30 * MINUTE));
    phone.says(psi(Purpose::Transfer, Place::Car, "120", "PG-1"));
    let taken = phone.now - 31 * MINUTE;
    let view = phone.view();
    let due = view.steps.steps.iter().find(|step| step.id == "transfer_readings").unwrap().due;
    assert_eq!(due, Some(UtcMillis(taken + 60 * MINUTE)));
}

#[test]
fn a_time_after_the_entry_or_before_the_visit_is_pointed_out_and_counts_for_nothing() {
    for (done, placed, odd) in [
        (90, None, true),
        (-30, None, true),
        (-30, Some(-45), false),
        (-50, Some(-45), true),
        (1, None, false),
    ] {
        let mut phone = Phone::of("op-a", 1);
        phone.says(opened(Receiver::FixedTank));
        if let Some(minutes) = placed {
            let at = UtcMillis(MORNING + minutes * MINUTE);
            phone.says(Statement::Clock { event: ClockEvent::ActualPlacement, at });
        }
        phone.done = Some(UtcMillis(MORNING + done * MINUTE + 2_000));
        phone.says(psi(Purpose::Transfer, Place::Car, "120", "PG-1"));
        let view = phone.view();
        assert_eq!(steps_codes(&view).contains(&"done_impossible"), odd, "{done} {placed:?}");
        let point = &view.series[0].points[0];
        assert!(point.said.done_at() <= UtcMillis(phone.now), "no reading is from the future");
    }
}
