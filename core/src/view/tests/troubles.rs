//! Incidents and leaks: what stops the job, until when, and what the law asks to be told of it.

use super::*;
use crate::entry::{Incident, IncidentCall, IncidentStopped, Leak, LeakChecked};
use crate::ids::{IncidentId, LeakId};

const INCIDENT: IncidentId = IncidentId([4; 16]);
const LEAK: LeakId = LeakId([5; 16]);
const HOUR: i64 = 60 * MINUTE;

fn incident() -> Incident {
    Incident {
        incident: INCIDENT,
        source: Coded::Code(IncidentSource::Hose),
        fitting: Some(Fitting::LiquidA),
        noticed_at: UtcMillis(MORNING + 90 * MINUTE),
        injury: Some(Injury::None),
        ignition: Some(false),
        evacuation: Some(Evacuation::None),
        closed: Some(false),
        what: "hose split at the crimp".into(),
    }
}

fn called(to: Called) -> Statement {
    let at = UtcMillis(MORNING + 95 * MINUTE);
    Statement::IncidentCall(IncidentCall {
        incident: INCIDENT,
        to: Coded::Code(to),
        at,
        number: "R-77".into(),
    })
}

fn stopped(minimal: Option<bool>) -> Statement {
    let (at, loss) = (UtcMillis(MORNING + 100 * MINUTE), Some(Amount::read("40", Unit::Gallon).0));
    Statement::IncidentStopped(IncidentStopped { incident: INCIDENT, at, loss, minimal })
}

fn closed() -> Statement {
    Statement::IncidentClosed { incident: INCIDENT, how: "hose taken out of use, area clear".into() }
}

fn leak(fitting: Option<Fitting>) -> Statement {
    let at = Coded::Code(LeakAt::Coupling);
    Statement::Leak(Leak { leak: LEAK, at, fitting, action: "tightened by hand".into() })
}

fn leak_checked(tight: bool) -> Statement {
    Statement::LeakChecked(LeakChecked { leak: LEAK, tight, note: "soap".into() })
}

fn finding_codes(view: &VisitView) -> Vec<&str> {
    view.findings.iter().map(|finding| finding.code.as_str()).collect()
}

fn told(view: &VisitView, code: &str) -> String {
    view.findings.iter().find(|finding| finding.code == code).unwrap().message.en()
}

fn job_and(says: &[Statement], receiver: Receiver) -> Phone {
    let mut phone = whole_job(receiver);
    says.iter().for_each(|says| {
        phone.says(says.clone());
    });
    phone
}

/// An open incident is an item of both gates and stands in the list of cars; only closing it ends that.
#[test]
fn an_incident_stops_the_job_until_it_is_closed() {
    let mut early = received(Receiver::FixedTank);
    early.says(Statement::Incident(incident()));
    let view = early.view();
    assert!(view.unloading.blockers.iter().any(|b| b.code == "incident_open.04040404"), "before unloading");
    let row = VisitRow::of(&view);
    assert!(row.on_hold, "it is a stop in the list");
    assert_eq!(row.kept_by.en(), "On hold: incident, hose or arm");

    let mut phone = job_and(
        &[Statement::Incident(incident()), stopped(None), called(Called::Emergency)],
        Receiver::FixedTank,
    );
    let view = phone.view();
    assert_eq!(open_codes(&view), ["incident_open.04040404"]);
    let missing = view.blockers[0].missing.en();
    assert!(missing.contains("hose or arm, noticed 2026-11-24 15:30 UTC"), "{missing}");
    assert!(finding_codes(&view).contains(&"incident_open"));
    let shown = &view.incidents[0];
    assert_eq!(shown.stopped.as_ref().unwrap().value.loss.as_ref().unwrap().shown(), "40 gal");
    assert_eq!((shown.calls.len(), shown.calls[0].number.as_str()), (1, "R-77"));
    let log: Vec<String> = view.history.iter().map(|line| line.sentence.en()).collect();
    for said in [
        "INCIDENT: hose or arm (liquid valve A), noticed 2026-11-24 15:30 UTC. hose split at the crimp. Injury: nobody hurt. No fire.",
        "Incident stopped 2026-11-24 15:40 UTC, estimated loss 40 gal.",
        "Told of the incident: local emergency number, 2026-11-24 15:35 UTC, number R-77.",
    ] {
        assert!(log.iter().any(|line| line.starts_with(said)), "{said}: {log:?}");
    }
    phone.says(closed());
    let view = phone.view();
    assert_eq!(open_codes(&view), Vec::<&str>::new());
    assert!(!finding_codes(&view).contains(&"incident_open"));
    assert!(!VisitRow::of(&view).on_hold);
}

/// By telephone within 12 hours of what 171.15(b) names, in writing within 30 days; both stay due after the incident
/// was closed, until they are recorded.
#[test]
fn reports_are_due_within_twelve_hours_and_thirty_days() {
    let hospital = Incident { injury: Some(Injury::Hospital), ..incident() };
    let mut phone = job_and(&[Statement::Incident(hospital), stopped(Some(true)), closed()], Receiver::Truck);
    let view = phone.view();
    let shown = &view.incidents[0];
    let (telephone, written) = (shown.telephone.as_ref().unwrap(), shown.written.as_ref().unwrap());
    assert_eq!(telephone.due, UtcMillis(incident().noticed_at.0 + 12 * HOUR));
    assert_eq!(written.due, UtcMillis(incident().noticed_at.0 + 30 * 24 * HOUR));
    assert!(telephone.must && !telephone.overdue);
    let says = told(&view, "incident_telephone");
    assert!(says.starts_with("Telephone report to make, by 2026-11-25 03:30 UTC: hose or arm"), "{says}");
    assert!(says.contains("49 CFR 171.15, read 2026-11-28"), "{says}");
    phone.now += 13 * HOUR;
    assert!(told(&phone.view(), "incident_telephone").contains("which is past"));
    phone.says(called(Called::ResponseCenter));
    let view = phone.view();
    assert!(!finding_codes(&view).contains(&"incident_telephone"));
    assert!(told(&view, "incident_written").starts_with("Written report to make, by 2026-12-24 15:30 UTC"));
    phone.says(called(Called::WrittenReport));
    assert!(!finding_codes(&phone.view()).contains(&"incident_written"));
}

/// The consignee's own unloading after delivery is no transportation (171.1(d)(2)): check, not must.
#[test]
fn at_a_fixed_tank_the_record_says_check_and_not_must() {
    let hospital = Incident { evacuation: Some(Evacuation::PublicHour), ..incident() };
    let view = job_and(&[Statement::Incident(hospital)], Receiver::FixedTank).view();
    for code in ["incident_telephone", "incident_written"] {
        let says = told(&view, code);
        assert!(says.starts_with("Check whether a") && !says.contains("to make"), "{says}");
    }
    assert!(!view.incidents[0].telephone.as_ref().unwrap().must);
}

/// A puff on disconnecting that damaged nothing is not reported (171.16(d)(1)), unless somebody was hurt; and what was
/// not said is asked.
#[test]
fn a_minimal_release_is_excepted_and_what_was_not_said_is_asked() {
    let both = |injury: Option<Injury>, minimal: Option<bool>| {
        let view = job_and(
            &[Statement::Incident(Incident { injury, ..incident() }), stopped(minimal)],
            Receiver::Truck,
        )
        .view();
        (view.incidents[0].telephone.is_some(), view.incidents[0].written.is_some())
    };
    assert_eq!(both(Some(Injury::None), Some(true)), (false, false));
    assert_eq!(both(Some(Injury::None), Some(false)), (false, true));
    assert_eq!(both(Some(Injury::None), None), (false, true));
    assert_eq!(both(Some(Injury::FirstAid), Some(true)), (false, false));
    assert_eq!(both(Some(Injury::Death), Some(true)), (true, true));
    assert_eq!(both(None, Some(true)), (true, false), "whether anybody was hurt was not said");
}

/// What becomes known later is a further entry of the same incident, and not a second incident.
#[test]
fn an_incident_that_grows_is_told_again() {
    let worse = Incident { injury: Some(Injury::Death), ..incident() };
    let view =
        job_and(&[Statement::Incident(incident()), Statement::Incident(worse)], Receiver::Truck).view();
    assert_eq!(view.incidents.len(), 1);
    assert!(view.incidents[0].telephone.is_some());
    assert!(view.disagreements.is_empty());
}

#[test]
fn a_leak_stops_the_job_until_it_was_checked_tight() {
    let mut phone = job_and(&[leak(Some(Fitting::LiquidA))], Receiver::FixedTank);
    let view = phone.view();
    assert_eq!(open_codes(&view), ["leak_open.05050505"]);
    assert!(view.blockers[0].missing.en().contains("coupling or adapter (liquid valve A)"));
    assert!(finding_codes(&view).contains(&"leak_open"));
    assert_eq!(VisitRow::of(&view).kept_by.en(), "On hold: leak, coupling or adapter (liquid valve A)");
    phone.says(leak_checked(false));
    assert_eq!(open_codes(&phone.view()), ["leak_open.05050505"], "checked, and still leaking");
    phone.says(leak_checked(true));
    let view = phone.view();
    assert_eq!(open_codes(&view), Vec::<&str>::new());
    assert!(view.leaks[0].checked.as_ref().unwrap().value && !view.leaks[0].open);
    phone.says(leak_checked(false));
    assert_eq!(open_codes(&phone.view()), ["leak_open.05050505"], "it leaks again");
    let log: Vec<String> = phone.view().history.iter().map(|line| line.sentence.en()).collect();
    assert!(
        log.contains(&"LEAK: coupling or adapter (liquid valve A). Done about it: tightened by hand.".into())
    );
    assert!(log.contains(&"Leak checked again: STILL LEAKING (soap).".into()), "{log:?}");
}

/// Two people who check one leak at the same time and find different things disagree, and the leak stays open.
#[test]
fn two_who_checked_a_leak_differently_leave_it_open() {
    let mut one = job_and(&[leak(None)], Receiver::FixedTank);
    let mut other =
        Phone { person: "op-b", key: DeviceKey::from_secret([2; 32]), seq: 0, prev: None, ..one.clone() };
    one.says(leak_checked(true));
    other.says(leak_checked(false));
    one.meets(&mut other);
    assert!(one.view().leaks[0].open);
    assert_eq!(one.view().disagreements.len(), 1);
}

/// The step that looks for leaks at this fitting is held with what to do, and no step at another fitting is.
#[test]
fn a_leak_holds_the_leak_check_of_its_fitting() {
    let status = |phone: &Phone, id: &str| phone.view().steps.step(id).unwrap().status;
    let mut phone = received(Receiver::FixedTank);
    phone.says(line(Fitting::LiquidA, true));
    phone.says(step_done("leak_check.liquid_a"));
    assert_eq!(status(&phone, "leak_check.liquid_a"), StepStatus::Done);
    phone.says(leak(Some(Fitting::LiquidA)));
    let view = phone.view();
    let held = view.steps.step("leak_check.liquid_a").unwrap();
    assert_eq!(held.status, StepStatus::Held);
    assert!(held.reasons[0].en().starts_with("LEAK: coupling or adapter"));
    assert!(held.what_now.is_some() && !held.now.is_empty());
    assert_eq!(view.steps.next[0], "vapor_test.liquid_a", "what is held comes first");
    assert_ne!(status(&phone, "leak_check.vapour"), StepStatus::Held);
    phone.says(leak_checked(true));
    assert_eq!(status(&phone, "leak_check.liquid_a"), StepStatus::Done);
}

/// A stay of an edition without these rules keeps its gate; what was found is pointed out all the same.
#[test]
fn a_stay_begun_before_keeps_its_gate_and_is_told_of_the_leak() {
    let mut phone = Phone::of("op-a", 1);
    phone.says(opened_before_rules(Receiver::FixedTank));
    phone.says(leak(None));
    let view = phone.view();
    assert!(!codes(&view).iter().any(|code| code.starts_with("leak_open")));
    assert!(finding_codes(&view).contains(&"leak_open"));
}

/// Facts are added to an incident: what was left open stands as it was said before, it was noticed when the first entry
/// says, and what asks for a report is not taken back by a milder word; a correction with a reason does that.
#[test]
fn added_facts_never_make_an_incident_lighter() {
    let hospital = Incident { injury: Some(Injury::Hospital), fitting: None, ..incident() };
    let later = Incident {
        noticed_at: UtcMillis(incident().noticed_at.0 + HOUR),
        injury: Some(Injury::None),
        evacuation: None,
        what: String::new(),
        ..incident()
    };
    let mut phone = job_and(&[Statement::Incident(hospital), stopped(Some(true))], Receiver::Truck);
    let before = phone.view().incidents[0].telephone.clone();
    phone.says(Statement::Incident(later));
    let view = phone.view();
    assert_eq!(view.incidents.len(), 1, "one incident");
    let shown = &view.incidents[0];
    assert_eq!(shown.known, Incident { injury: Some(Injury::None), ..incident() });
    assert_eq!(shown.telephone, before, "still to be made, by the same time");
    assert!(shown.written.is_some());
}
