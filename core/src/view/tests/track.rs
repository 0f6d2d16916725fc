//! Tests of what a second car takes over from another one on its track: when it may, what it says, and what asks for it
//! again.

use super::*;
use crate::entry::{CarLeft, CarMoved, Certificate, OrganisationKey, Role};
use crate::ids::OrganisationId;
use crate::procedure::{Procedure, StepOf};
use crate::units::Severity;

const SECOND: VisitId = VisitId([8; 16]);

fn opens(car: &str, site: SiteId, spot: &str) -> Statement {
    let Statement::Opened(opened) = opened_as(car, Receiver::FixedTank) else { panic!("an opening") };
    Statement::Opened(Opened { site, spot: spot.to_owned(), ..opened })
}

fn weather(precipitation: Precipitation) -> Statement {
    Statement::Weather { precipitation, wind: Coded::default() }
}

fn air() -> Statement {
    let (amount, _) = Amount::read("41", Unit::Fahrenheit);
    Statement::Reading(Reading {
        measured: Measured::Temperature,
        place: Place::Air,
        purpose: Purpose::Arrival,
        amount,
        instrument: String::new(),
    })
}

/// The first car on the track, looked after from `spot`, with all that belongs to the track recorded.
fn first_on(site: SiteId, spot: &str) -> Phone {
    let mut first = Phone::of("op-a", 1);
    first.says(opens("QZQX 204117", site, spot));
    for what in [Protection::TrackSecured, Protection::HandBrake, Protection::Chocks, Protection::BlueSign] {
        first.says(protection(what, true));
    }
    first.says(protection(Protection::GasDetector, true));
    first.says(step_done("escape_way"));
    first.says(weather(Precipitation::Dry));
    first.says(air());
    first
}

/// A second car that is opened half an hour after what was recorded last at the first.
fn second_beside(first: &Phone, site: SiteId, spot: &str) -> Phone {
    let mut second = Phone::of("op-b", 2);
    second.visit = SECOND;
    second.now = first.now + 30 * MINUTE;
    second.says(opens("QZQX 204118", site, spot));
    second
}

fn on_one_track() -> (Phone, Phone) {
    let first = first_on(SITE, "Track 3, spot 1");
    let second = second_beside(&first, SITE, "track 3, spot 2");
    (first, second)
}

fn judged(first: &Phone, second: &Phone, authority: &Authority) -> (VisitView, Guide) {
    let procedures = Procedures::built_in().unwrap();
    let track: Vec<Recorded<'_>> =
        first.knows.iter().filter(|entry| is_of_the_track(entry)).map(Recorded::unsent).collect();
    let recorded: Vec<Recorded<'_>> = second.knows.iter().map(Recorded::unsent).collect();
    let now = UtcMillis(second.now.max(first.now) + MINUTE);
    let view = fold(&recorded, &Context { track: &track, authority, ..Context::at(now, &procedures) });
    let guide = Guide::of(&view, view.header.procedure.and_then(|digest| procedures.get(digest)));
    (view, guide)
}

fn beside(first: &Phone, second: &Phone) -> (VisitView, Guide) {
    judged(first, second, Authority::nobody())
}

fn offered(first: &Phone, second: &Phone) -> Vec<String> {
    beside(first, second).0.track.into_iter().map(|offer| offer.step).collect()
}

/// Presses the one key of the group that the second car is shown.
fn takes_over(first: &Phone, second: &mut Phone) {
    let group = beside(first, second).1.together.unwrap();
    for step in group.steps {
        for (at, says) in step.says.into_iter().enumerate() {
            second.rests_on = step.rests_on.get(at).copied();
            second.says(says);
        }
    }
}

const OF_THE_TRACK: [&str; 5] = ["track_secured", "blue_sign_up", "gas_detector", "escape_way", "weather"];

fn status(first: &Phone, second: &Phone, step: &str) -> StepStatus {
    beside(first, second).0.steps.step(step).unwrap().status
}

fn is_closed(first: &Phone, second: &Phone) -> Vec<&'static str> {
    OF_THE_TRACK.into_iter().filter(|step| status(first, second, step).is_closed()).collect()
}

/// A second car after its one key.
fn taken() -> (Phone, Phone) {
    let (first, mut second) = on_one_track();
    skips_to_protections(&first, &mut second);
    takes_over(&first, &mut second);
    (first, second)
}

fn skips_to_protections(first: &Phone, second: &mut Phone) {
    loop {
        let next = beside(first, second).0.steps.next.first().unwrap().clone();
        if next == "track_secured" {
            return;
        }
        let note = "not part of this test".to_owned();
        second.says(Statement::Step { step: next, outcome: StepOutcome::Skipped, note });
    }
}

#[test]
fn a_second_car_takes_over_what_belongs_to_the_track_with_one_key_and_says_on_what_it_rests() {
    let (first, mut second) = on_one_track();
    assert_eq!(offered(&first, &second), OF_THE_TRACK);
    skips_to_protections(&first, &mut second);
    let group = beside(&first, &second).1.together.unwrap();
    assert_eq!(group.id, "protections");
    let over: Vec<&str> =
        group.steps.iter().filter(|step| !step.rests_on.is_empty()).map(|step| step.step.as_str()).collect();
    assert_eq!(over, OF_THE_TRACK, "the brake, the blocks and the car itself are looked at");
    let known = group.steps[0].known[0].en();
    assert_eq!(known, "As on track 3 at 14:02, with QZQX 204117: still so.");
    takes_over(&first, &mut second);
    let (view, _) = beside(&first, &second);
    assert_eq!(is_closed(&first, &second), OF_THE_TRACK);
    let gate = |code: &str| view.unloading.blockers.iter().any(|item| item.code == code);
    assert!(!gate("protection_not_set.blue_sign") && !gate("not_recorded_as_found.weather"));
    let line = view.history.iter().find(|line| line.slot == "protection/blue_sign").unwrap();
    let sentence = line.sentence.en();
    assert!(sentence.contains("Rests on the entry of 2026-11-24 14:05 UTC for QZQX 204117"), "{sentence}");
    assert_eq!(line.said.name, "op-b", "whoever says that it is still so answers for it");
}

#[test]
fn an_own_step_stays_the_cars_and_a_procedure_says_which_are() {
    let procedure = Procedures::built_in().unwrap().default_procedure().unwrap().clone();
    let of_the_track = procedure.steps.iter().filter(|step| step.of == StepOf::Track);
    assert_eq!(of_the_track.map(|step| step.id.as_str()).collect::<Vec<_>>(), OF_THE_TRACK);
    // A crafted entry that takes over the hand brake does not count.
    let (first, mut second) = taken();
    let brake = |phone: &Phone| {
        phone.knows.iter().rfind(|entry| entry.body.slot == "protection/hand_brake").unwrap().id
    };
    assert!(status(&first, &second, "hand_brake").is_closed(), "it was looked at");
    let own = brake(&second);
    second.withdraws(own, "not at this car");
    second.rests_on = Some(RestsOn { visit: VISIT, entry: brake(&first) });
    second.says(protection(Protection::HandBrake, true));
    assert_eq!(status(&first, &second, "hand_brake"), StepStatus::Open);
    // An organisation's own text gives a step back to the car.
    let text = crate::procedure::BUILT_IN.last().unwrap().replacen("of = \"track\"\n", "", 1);
    assert!(
        Procedure::read(&text).unwrap().steps.iter().all(|s| s.id != "track_secured" || s.of == StepOf::Car)
    );
}

#[test]
fn nothing_is_taken_over_from_another_track_or_site_or_from_a_track_without_a_name() {
    for (site, there, here) in [
        (SITE, "Track 3", "Track 4"),
        (SITE, "Track 3", "Track 33"),
        (SITE, "", ""),
        (SiteId([1; 16]), "Track 3", "Track 3"),
    ] {
        let first = first_on(site, there);
        let mut second = second_beside(&first, SITE, here);
        assert_eq!(offered(&first, &second), Vec::<String>::new(), "{there} {here}");
        // Nor does it count when a device says so anyway.
        let sign = first.knows.iter().find(|entry| entry.body.slot == "protection/blue_sign").unwrap().id;
        second.rests_on = Some(RestsOn { visit: VISIT, entry: sign });
        second.says(protection(Protection::BlueSign, true));
        let (view, _) = beside(&first, &second);
        assert_eq!(view.steps.step("blue_sign_up").unwrap().status, StepStatus::Open, "{there} {here}");
        assert!(view.unloading.blockers.iter().any(|item| item.code == "protection_not_set.blue_sign"));
        let told = view.history.iter().find(|line| line.slot == "protection/blue_sign").unwrap();
        assert!(told.why_gone.en().contains("does not hold"), "{}", told.why_gone.en());
    }
}

#[test]
fn nothing_is_taken_over_from_another_day() {
    let (mut first, mut second) = on_one_track();
    second.now += 10 * 60 * MINUTE; // past midnight in the zone of the site, which is UTC here
    assert_eq!(offered(&first, &second), Vec::<String>::new());
    // What is said again today is taken over again; what was not stays asked.
    first.now = second.now;
    first.says(protection(Protection::BlueSign, true));
    second.now = first.now;
    assert_eq!(offered(&first, &second), ["blue_sign_up"]);
}

#[test]
fn nothing_is_taken_over_once_the_other_car_was_left_or_moved_or_is_on_hold() {
    let stopped: [fn(&mut Phone); 3] = [
        |first| {
            let (connected, conditions) = (false, Vec::new());
            first.says(Statement::CarLeft(CarLeft {
                connected,
                conditions,
                until: None,
                note: String::new(),
            }));
        },
        |first| {
            first.says(Statement::CarMoved(CarMoved { to: "Track 3, spot 4".into(), by: String::new() }));
        },
        |first| {
            let (hold, because) = (crate::ids::HoldId([3; 16]), "gas at the switch".to_owned());
            first.says(Statement::Hold { hold, because });
        },
    ];
    for stop in stopped {
        let (mut first, second) = on_one_track();
        stop(&mut first);
        assert_eq!(offered(&first, &second), Vec::<String>::new());
    }
}

#[test]
fn what_was_not_right_or_taken_down_there_is_not_taken_over() {
    let (mut first, second) = on_one_track();
    first.says(protection(Protection::BlueSign, false));
    first.says(Statement::Step {
        step: "gas_detector".into(),
        outcome: StepOutcome::NotRight,
        note: "no reading".into(),
    });
    first.says(Statement::Step {
        step: "escape_way".into(),
        outcome: StepOutcome::NotRight,
        note: "gate locked".into(),
    });
    assert_eq!(offered(&first, &second), ["track_secured", "weather"]);
}

/// Whatever is called wrong later makes the item of the second car open again, at its gate as well.
#[test]
fn a_source_that_was_voided_or_corrected_later_asks_again_even_after_unloading_began() {
    let wrong: [fn(&mut Phone, EntryId) -> EntryId; 2] = [
        |first, sign| first.withdraws(sign, "looked at track 4"),
        |first, sign| first.corrects(sign, protection(Protection::BlueSign, false), "it was down"),
    ];
    for calls_wrong in wrong {
        let (mut first, mut second) = taken();
        second.says(closure(Fitting::LiquidA, ClosureState::Open));
        second.says(line(Fitting::LiquidA, true));
        let items = |view: &VisitView| {
            view.unloading.blockers.iter().any(|item| item.code == "protection_not_set.blue_sign")
        };
        assert!(!items(&beside(&first, &second).0));
        let sign = first.knows.iter().find(|entry| entry.body.slot == "protection/blue_sign").unwrap().id;
        first.now = second.now;
        calls_wrong(&mut first, sign);
        let (view, _) = beside(&first, &second);
        assert!(items(&view), "the gate never counts what fell away");
        assert_eq!(view.steps.step("blue_sign_up").unwrap().status, StepStatus::Open);
        assert_eq!(view.steps.step("track_secured").unwrap().status, StepStatus::Recorded);
        assert_eq!(finding(&view, "blue_sign_not_up").unwrap().severity, Severity::Alarm);
        assert!(finding(&view, "entries_not_counted").is_some());
        // Said for itself, it counts.
        second.now = first.now;
        second.says(protection(Protection::BlueSign, true));
        assert!(beside(&first, &second).0.steps.step("blue_sign_up").unwrap().status.is_closed());
    }
}

/// The sign of the first car comes down when that car is released; the second one still has its line on.
#[test]
fn what_ended_on_the_other_car_is_asked_again_and_stood_until_then() {
    let (mut first, mut second) = taken();
    second.says(closure(Fitting::LiquidA, ClosureState::Open));
    second.says(line(Fitting::LiquidA, true));
    first.now = second.now;
    first.says(protection(Protection::BlueSign, false));
    let (view, _) = beside(&first, &second);
    assert_eq!(view.steps.step("blue_sign_up").unwrap().status, StepStatus::Open);
    let ended = finding(&view, "track_ended").unwrap();
    assert_eq!(ended.severity, Severity::Alarm, "a line is on");
    assert!(ended.message.en().contains("QZQX 204117"), "{}", ended.message.en());
    let at_first = |view: &VisitView| {
        view.unloading.blockers.iter().any(|item| item.code == "protection_not_set.blue_sign")
    };
    assert!(!at_first(&view), "when unloading began, the sign was up");
    second.now = first.now;
    second.says(protection(Protection::BlueSign, true));
    let (view, _) = beside(&first, &second);
    assert!(view.steps.step("blue_sign_up").unwrap().status.is_closed());
    assert!(finding(&view, "track_ended").is_none());
}

#[test]
fn what_ends_on_the_other_car_after_this_one_was_released_changes_nothing_here() {
    let (mut first, mut second) = taken();
    second.says(Statement::Released { as_residue: true });
    let before = beside(&first, &second).0;
    first.now = second.now + MINUTE;
    first.says(protection(Protection::BlueSign, false));
    first.says(Statement::CarMoved(CarMoved { to: String::new(), by: String::new() }));
    let after = beside(&first, &second).0;
    assert_eq!(before.steps, after.steps);
    assert!(finding(&after, "track_ended").is_none());
}

#[test]
fn a_move_or_a_night_of_this_car_asks_for_what_it_took_over_again() {
    let (first, mut second) = taken();
    let (connected, conditions) = (false, Vec::new());
    second.says(Statement::CarLeft(CarLeft { connected, conditions, until: None, note: String::new() }));
    assert_eq!(is_closed(&first, &second), Vec::<&str>::new());
    let view = beside(&first, &second).0;
    assert_eq!(view.unloading.blockers.iter().filter(|i| i.code.contains("weather")).count(), 1);
}

/// A third car does not rest on the second: nobody looked there.
#[test]
fn what_was_taken_over_is_no_ground_for_a_third_car() {
    let (_, second) = taken();
    let mut third = Phone::of("op-a", 3);
    third.visit = VisitId([6; 16]);
    third.now = second.now + MINUTE;
    third.says(opens("QZQX 204119", SITE, "Track 3, spot 3"));
    assert_eq!(offered(&second, &third), Vec::<String>::new());
    let entry = second.knows.iter().rfind(|e| e.body.slot == "protection/blue_sign").unwrap().id;
    third.rests_on = Some(RestsOn { visit: SECOND, entry });
    third.says(protection(Protection::BlueSign, true));
    assert_eq!(beside(&second, &third).0.steps.step("blue_sign_up").unwrap().status, StepStatus::Open);
}

/// The first car's entries are not here: nothing is known of them, and nothing counts.
#[test]
fn a_source_that_is_not_here_does_not_count_until_it_is() {
    let (first, second) = taken();
    let nobody = Phone { knows: Vec::new(), ..first.clone() };
    assert_eq!(is_closed(&nobody, &second), Vec::<&str>::new());
    let view = beside(&nobody, &second).0;
    let line = view.history.iter().find(|line| line.slot == "protection/blue_sign").unwrap();
    assert!(line.sentence.en().contains("not here"), "{}", line.sentence.en());
    assert!(line.why_gone.en().contains("is not here"), "{}", line.why_gone.en());
    assert_eq!(is_closed(&first, &second), OF_THE_TRACK);
}

/// Certificates of the two phones: that of the first one is revoked, and the office did not have its entries before.
#[test]
fn a_source_of_a_revoked_or_unknown_device_does_not_count() {
    let (first, second) = taken();
    let organisation = OrganisationKey::from_secret([99; 32]).public();
    let enrolled = |secret: u8, revoked_at: Option<UtcMillis>| Certificate {
        issuer: Some(organisation),
        renewed_at: Some(UtcMillis(0)),
        revoked_at,
        ..Certificate::by_role(
            OrganisationId::of_key(&organisation),
            DeviceKey::from_secret([secret; 32]).public(),
            "phone",
            Role::Office,
            UtcMillis(0),
        )
    };
    let closed = |devices: Vec<Certificate>| {
        let authority = Authority::of(devices, true);
        let view = judged(&first, &second, &authority).0;
        OF_THE_TRACK.into_iter().filter(|id| view.steps.step(id).unwrap().status.is_closed()).count()
    };
    assert_eq!(closed(vec![enrolled(1, None), enrolled(2, None)]), OF_THE_TRACK.len());
    assert_eq!(closed(vec![enrolled(1, Some(UtcMillis(MORNING))), enrolled(2, None)]), 0);
    assert_eq!(closed(vec![enrolled(2, None)]), 0);
}
