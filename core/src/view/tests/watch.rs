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
    }));
    let site = SiteView::fold(Some(SITE), all(&office.knows));
    let procedures = Procedures::built_in().unwrap();
    let recorded: Vec<Recorded<'_>> = phone.knows.iter().map(Recorded::unsent).collect();
    let ctx = Context { site: Some(&site), ..Context::at(UtcMillis(phone.now), &procedures) };
    let view = fold(&recorded, &ctx);
    assert!(view.attendance.gaps.is_empty());
    assert!(view.attendance.threshold_from_site);
    assert!(view.header.since_shown.ends_with("08:01 CST"), "{}", view.header.since_shown);
    assert!(show(&view).contains("First of all: Two people while connected."));
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
    assert!(finding(&view, "handover_one_sided").unwrap().message.contains("signed by op-a only"));

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
