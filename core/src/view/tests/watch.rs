//! Tests of responsibility and attendance.

use super::*;
use crate::entry::Role;
use crate::entry::site_facts::SiteProfile;
use std::collections::BTreeMap;

fn away() -> Statement {
    Statement::Attendance { presence: Presence::Away }
}

fn connected() -> Phone {
    let mut phone = Phone::of("op-a", 1);
    phone.says(opened(Receiver::Truck));
    phone.says(protection(Protection::BlueSign, true));
    phone.says(line(Fitting::LiquidA, true));
    phone.says(valve(Fitting::LiquidA, ValvePosition::Open));
    phone
}

#[test]
fn a_long_silence_at_a_connected_car_is_a_gap() {
    let mut phone = connected();
    phone.now += 50 * MINUTE;
    phone.says(psi(Purpose::Transfer, Place::Car, "120", "PG-1"));
    let view = phone.view();
    assert_eq!(view.attendance.threshold_minutes, USUAL_GAP_MINUTES);
    let gap = &view.attendance.gaps[0];
    assert_eq!((gap.minutes, gap.said_away, gap.valves_shut, gap.open), (51, false, false, false));
    assert_eq!(finding(&view, "attendance_gap").unwrap().severity, crate::units::Severity::Alarm);
}

#[test]
fn a_silence_before_the_line_is_on_or_after_it_is_off_is_none() {
    let mut phone = Phone::of("op-a", 1);
    phone.says(opened(Receiver::Truck));
    phone.now += 90 * MINUTE;
    phone.says(line(Fitting::LiquidA, true));
    phone.says(line(Fitting::LiquidA, false));
    let now = UtcMillis(phone.now + 300 * MINUTE);
    assert!(view_of(&phone.knows, now).attendance.gaps.is_empty());
}

#[test]
fn a_gap_that_still_goes_on_reaches_to_now() {
    let phone = connected();
    let view = view_of(&phone.knows, UtcMillis(phone.now + 45 * MINUTE));
    assert!(view.attendance.gaps[0].open);
    assert_eq!(view.attendance.gaps[0].minutes, 45);
}

#[test]
fn whoever_writes_that_they_left_leaves_a_gap_however_short() {
    let mut phone = connected();
    phone.says(valve(Fitting::LiquidA, ValvePosition::Shut));
    phone.says(away());
    phone.now += 9 * MINUTE;
    phone.says(Statement::Attendance { presence: Presence::Here });
    let view = phone.view();
    let gap = &view.attendance.gaps[0];
    assert_eq!((gap.minutes, gap.said_away, gap.valves_shut), (10, true, true));
}

#[test]
fn the_sites_own_threshold_and_zone_are_used() {
    let mut phone = connected();
    phone.now += 50 * MINUTE;
    phone.says(quiet(Fitting::LiquidA));
    let mut office = Phone::of("office", 7);
    office.says(Statement::Site(SiteProfile {
        name: "Example siding".into(),
        zone: "America/Chicago".into(),
        elevation: Amount::of(900.0, Unit::Foot),
        attendance_gap_minutes: 60,
        local_rules: "Two people while connected.".into(),
        organisation: String::new(),
        address: String::new(),
    }));
    let site = SiteView::fold(Some(SITE), all(&office.knows));
    let procedures = Procedures::built_in().unwrap();
    let recorded: Vec<Recorded<'_>> = phone.knows.iter().map(Recorded::unsent).collect();
    let ctx = Context { site: Some(&site), ..Context::at(UtcMillis(phone.now), &procedures) };
    let view = fold(&recorded, &ctx);
    assert!(view.attendance.gaps.is_empty());
    assert!(view.attendance.threshold_from_site);
    assert!(view.header.since_shown.ends_with("08:01 CST"), "{}", view.header.since_shown);
    assert_eq!(view.header.local_rules, "Two people while connected.");
}

#[test]
fn what_the_office_writes_is_no_sign_that_somebody_was_at_the_car() {
    let mut phone = connected();
    let mut office = phone.clone();
    office.key = DeviceKey::from_secret([9; 32]);
    (office.person, office.seq, office.prev) = ("office", 0, None);
    office.now += 20 * MINUTE;
    office.says(Statement::Remark { text: "called the carrier".into() });
    phone.now += 40 * MINUTE;
    phone.says(quiet(Fitting::LiquidA));
    phone.meets(&mut office);
    let facts = |name: &str, role| DeviceFacts { name: name.into(), role, revoked_at: None };
    let devices = BTreeMap::from([
        (phone.key.public(), facts("phone", Role::Operator)),
        (office.key.public(), facts("desk", Role::Office)),
    ]);
    let procedures = Procedures::built_in().unwrap();
    let recorded: Vec<Recorded<'_>> = phone.knows.iter().map(Recorded::unsent).collect();
    let ctx = Context { devices: &devices, ..Context::at(UtcMillis(phone.now), &procedures) };
    assert_eq!(fold(&recorded, &ctx).attendance.gaps[0].minutes, 41);
    // Without a certificate of the office, its entry cannot be told from one made at the car.
    assert!(phone.view().attendance.gaps.is_empty());
}

#[test]
fn a_handover_signed_by_both_changes_who_is_responsible_and_a_one_sided_one_does_not() {
    let mut a = Phone::of("op-a", 1);
    a.says(opened(Receiver::FixedTank));
    let mut b = Phone::of("op-b", 2);
    a.says(Statement::HandoverGiven { to: OperatorId("op-b".into()) });
    a.meets(&mut b);
    let view = a.view();
    assert!(view.handovers[0].one_sided);
    assert_eq!(view.header.responsible, Some(OperatorId("op-a".into())));
    assert!(finding(&view, "handover_one_sided").unwrap().message.en().contains("signed by op-a only"));

    b.now = a.now;
    b.says(Statement::HandoverTaken { from: OperatorId("op-a".into()) });
    let view = b.view();
    assert_eq!(view.handovers.len(), 1);
    assert!(!view.handovers[0].one_sided);
    assert_eq!(view.header.responsible, Some(OperatorId("op-b".into())));
    assert!(finding(&view, "handover_one_sided").is_none());
}

#[test]
fn the_cars_clock_keeps_raw_times_in_the_sites_zone() {
    let mut phone = Phone::of("op-a", 1);
    let at = |minutes: i64| UtcMillis(MORNING - minutes * MINUTE);
    phone.says(Statement::Clock { event: ClockEvent::Notice, at: at(1440) });
    phone.says(Statement::Clock { event: ClockEvent::ActualPlacement, at: at(60) });
    let view = phone.view();
    let events: Vec<(ClockEvent, UtcMillis)> = view.clock.iter().map(|c| (c.event, c.at.value)).collect();
    assert_eq!(events, [(ClockEvent::Notice, at(1440)), (ClockEvent::ActualPlacement, at(60))]);
    assert_eq!(view.clock[0].shown, "2026-11-23 14:00 UTC");
}

/// A procedure that asks whoever has the car every half hour.
fn asking(minutes: u32) -> Procedures {
    let mut procedures = Procedures::built_in().unwrap();
    let text = crate::procedure::BUILT_IN.last().unwrap();
    procedures.add(&format!("{text}\n[thresholds]\ncheck_in_minutes = {minutes}\n")).unwrap();
    procedures
}

fn has_the_car(procedures: &Procedures) -> Phone {
    let mut phone = Phone::of("op-a", 1);
    let Statement::Opened(opened) = opened(Receiver::FixedTank) else { panic!("an opening") };
    let procedure = procedures.default_procedure().unwrap().digest;
    phone.says(Statement::Opened(Opened { procedure, ..opened }));
    phone.says(Statement::Attendance { presence: Presence::Here });
    phone
}

fn stands(phone: &Phone, procedures: &Procedures, now: i64) -> Option<CheckIn> {
    let recorded: Vec<Recorded<'_>> = phone.knows.iter().map(Recorded::unsent).collect();
    let view = fold(&recorded, &Context::at(UtcMillis(now), procedures));
    let procedure = view.header.procedure.and_then(|digest| procedures.get(digest));
    Guide::of(&view, procedure).check_in
}

#[test]
fn whoever_has_the_car_is_asked_until_they_say_so_leave_or_the_car_is_released() {
    let procedures = asking(30);
    let mut phone = has_the_car(&procedures);
    let at = |phone: &Phone, minutes: i64| stands(phone, &procedures, phone.now + minutes * MINUTE);
    assert_eq!(at(&phone, 29), Some(CheckIn::NotYet));
    assert_eq!(at(&phone, 30), Some(CheckIn::Due));
    assert_eq!(at(&phone, 36), Some(CheckIn::Overdue));
    phone.now += 31 * MINUTE;
    phone.says(Statement::CheckedIn {});
    assert_eq!(at(&phone, 29), Some(CheckIn::NotYet), "the word counts");
    phone.now += 20 * MINUTE;
    phone.says(quiet(Fitting::LiquidA));
    assert_eq!(at(&phone, 29), Some(CheckIn::NotYet), "so does any entry made at the car");
    let word = phone.view().check_in;
    assert_eq!(word, None, "the built-in procedure asks nobody");
    phone.says(Statement::Attendance { presence: Presence::Away });
    assert_eq!(at(&phone, 60), None);
    phone.says(Statement::Attendance { presence: Presence::Here });
    assert_eq!(at(&phone, 60), Some(CheckIn::Overdue));
    phone.says(Statement::Released { as_residue: true });
    assert_eq!(at(&phone, 60), None);
}

#[test]
fn a_word_that_was_voided_does_not_count_and_no_gate_asks_for_one() {
    let procedures = asking(30);
    let mut phone = has_the_car(&procedures);
    let began = phone.now;
    phone.now += 40 * MINUTE;
    let word = phone.says(Statement::CheckedIn {});
    let recorded: Vec<Recorded<'_>> = phone.knows.iter().map(Recorded::unsent).collect();
    let view = fold(&recorded, &Context::at(UtcMillis(began + 120 * MINUTE), &procedures));
    assert!(codes(&view).iter().all(|code| !code.contains("check_in")));
    phone.now -= 10 * MINUTE;
    phone.withdraws(word, "another car");
    let last = {
        let recorded: Vec<Recorded<'_>> = phone.knows.iter().map(Recorded::unsent).collect();
        fold(&recorded, &Context::at(UtcMillis(phone.now + MINUTE), &procedures)).check_in.unwrap().last
    };
    assert!(last <= UtcMillis(began), "{last:?}");
}

/// A clock that was set back, or that is ahead, keeps nobody waiting.
#[test]
fn a_wrong_clock_does_not_put_the_next_word_off() {
    let procedures = asking(30);
    let phone = has_the_car(&procedures);
    assert_eq!(stands(&phone, &procedures, phone.now - 120 * MINUTE), Some(CheckIn::Due), "set back");
    // The phone is a day ahead and does not know it; the office had the entries when it had them.
    let ahead = 24 * 60 * MINUTE;
    let recorded: Vec<Recorded<'_>> = phone
        .knows
        .iter()
        .map(|entry| Recorded {
            entry,
            receipted: true,
            received_at: Some(UtcMillis(entry.body.when.at.0 - ahead)),
        })
        .collect();
    let now = UtcMillis(phone.now - ahead + 40 * MINUTE);
    let view = fold(&recorded, &Context::at(now, &procedures));
    assert_eq!(view.check_in.unwrap().at(now), CheckIn::Overdue);
    // A phone that knows how far it is ahead says so, and is believed.
    let mut knows = phone.clone();
    knows.ahead = Some(60 * MINUTE);
    knows.says(Statement::CheckedIn {});
    assert_eq!(stands(&knows, &procedures, knows.now - 60 * MINUTE + 29 * MINUTE), Some(CheckIn::NotYet));
    assert_eq!(stands(&knows, &procedures, knows.now - 60 * MINUTE + 31 * MINUTE), Some(CheckIn::Due));
}

/// The clock ran backwards by a little between having the car and leaving it: the order of the record decides.
#[test]
fn whoever_left_is_not_asked_because_a_clock_ran_backwards() {
    let procedures = asking(30);
    let mut phone = has_the_car(&procedures);
    let now = phone.now;
    phone.now -= MINUTE + 4;
    phone.says(Statement::Attendance { presence: Presence::Away });
    assert_eq!(stands(&phone, &procedures, now + 60 * MINUTE), None);
}
