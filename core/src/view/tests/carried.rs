//! What one visit of a car leaves for the next: notes, and conditions that are not in order.

use super::*;
use crate::entry::{
    CoverCondition, DeviceKey, NextTime, NextTimeDone, OrganisationKey, PlugCondition, ValveFeel,
};
use crate::ids::{NoteId, OrganisationId};

const NOTE: NoteId = NoteId([8; 16]);

fn note(what: &str) -> Statement {
    Statement::NextTime(NextTime { note: NOTE, what: what.into(), fitting: Some(Fitting::LiquidB) })
}

fn done() -> Statement {
    Statement::NextTimeDone(NextTimeDone { note: NOTE, how: "greased".into() })
}

fn feel(feel: Feel) -> Statement {
    Statement::ValveFeel(ValveFeel { fitting: Fitting::Vapour, feel })
}

fn plug(state: PlugState) -> Statement {
    let (fitting, note) = (Fitting::LiquidA, String::new());
    Statement::PlugCondition(PlugCondition { fitting, state, note })
}

fn pin(state: PartState) -> Statement {
    let (part, note) = (CoverPart::Pin, "bent at the eye".into());
    Statement::CoverCondition(CoverCondition { part, state, note })
}

/// An earlier visit of the same car in which these were said.
fn earlier(says: &[Statement]) -> Phone {
    let mut phone = Phone::of("op-a", 1);
    phone.visit = VisitId([4; 16]);
    says.iter().for_each(|says| {
        phone.says(says.clone());
    });
    phone
}

/// A later visit, opened by somebody else.
fn later() -> Phone {
    let mut phone = Phone::of("op-b", 2);
    phone.now += 90 * 1440 * MINUTE;
    phone.says(opened(Receiver::FixedTank));
    phone
}

fn view_with(visit: &Phone, car: &[Entry], authority: Option<&Authority>) -> VisitView {
    let procedures = Procedures::built_in().unwrap();
    let recorded: Vec<Recorded<'_>> = visit.knows.iter().map(Recorded::unsent).collect();
    let car: Vec<Recorded<'_>> = car.iter().map(Recorded::unsent).collect();
    let plain = Context::at(UtcMillis(visit.now), &procedures);
    let authority = authority.unwrap_or(plain.authority);
    fold(&recorded, &Context { car: &car, authority, ..plain })
}

fn left(view: &VisitView) -> Vec<String> {
    let left = view.car.carried.iter().filter(|one| one.is_left_for(&view.header.visits));
    left.map(|one| one.says.en()).collect()
}

fn told(view: &VisitView, code: &str) -> Vec<String> {
    view.findings.iter().filter(|finding| finding.code == code).map(|finding| finding.message.en()).collect()
}

#[test]
fn a_note_is_shown_to_the_next_person_until_somebody_saw_to_it() {
    let mut first = earlier(&[note("the stem drips when it is cold")]);
    let mut second = later();
    let view = view_with(&second, &first.knows, None);
    assert_eq!(left(&view), ["the stem drips when it is cold"]);
    assert_eq!(view.car.carried[0].fitting, Some(Fitting::LiquidB));
    assert_eq!(
        told(&view, "left_for_next"),
        ["From the last visit: the stem drips when it is cold (op-a, 2026-11-24 14:01 UTC)"]
    );
    assert!(view.blockers.iter().all(|b| !b.code.contains("next")), "a note blocks nothing");

    // The note is put in other words at the first visit, which opens nothing that was seen to.
    second.says(done());
    let said = first.knows[0].id;
    first.corrects(said, note("the stem drips below 20 °F"), "in more words");
    let view = view_with(&second, &first.knows, None);
    assert_eq!((left(&view), told(&view, "left_for_next")), (vec![], vec![]));
    let log: Vec<String> = view.history.iter().map(|line| line.sentence.en()).collect();
    assert!(log.contains(&"Note for next time seen to: greased.".to_owned()), "{log:?}");
}

#[test]
fn a_note_of_this_visit_is_not_shown_to_whoever_wrote_it() {
    let mut phone = later();
    phone.says(note("bring the long wrench"));
    let view = view_with(&phone, &[], None);
    assert_eq!((view.car.carried.len(), left(&view)), (1, vec![]));
    assert_eq!(told(&view, "left_for_next"), Vec::<String>::new());
}

#[test]
fn a_withdrawn_note_and_one_for_another_note_count_for_nothing() {
    let mut first = earlier(&[note("wrong car")]);
    let said = first.knows[0].id;
    first.withdraws(said, "that was another car");
    assert_eq!(left(&view_with(&later(), &first.knows, None)), Vec::<String>::new());
    let mut other = earlier(&[note("bring the long wrench")]);
    other.says(Statement::NextTimeDone(NextTimeDone { note: NoteId([9; 16]), how: String::new() }));
    assert_eq!(left(&view_with(&later(), &other.knows, None)).len(), 1, "another note was seen to");
}

/// What a device writes that nobody enrolled is kept, and is shown to nobody as a note.
#[test]
fn a_strangers_note_does_not_count() {
    let first = earlier(&[note("the stem drips"), plug(PlugState::Rounded)]);
    let organisation = OrganisationKey::from_secret([99; 32]).public();
    let enrolled = |secret: u8| crate::entry::Certificate {
        issuer: Some(organisation),
        renewed_at: Some(UtcMillis(0)),
        ..crate::entry::Certificate::by_role(
            OrganisationId::of_key(&organisation),
            DeviceKey::from_secret([secret; 32]).public(),
            "phone",
            crate::entry::Role::Office,
            UtcMillis(0),
        )
    };
    let nobody_knows_it = Authority::of([enrolled(2)], true);
    assert_eq!(left(&view_with(&later(), &first.knows, Some(&nobody_knows_it))), Vec::<String>::new());
    let known = Authority::of([enrolled(1), enrolled(2)], true);
    assert_eq!(left(&view_with(&later(), &first.knows, Some(&known))).len(), 2);
}

#[test]
fn what_was_not_in_order_is_shown_at_the_next_visit_until_it_is_recorded_in_order() {
    let mut first = earlier(&[
        feel(Feel::Hard),
        plug(PlugState::Rounded),
        pin(PartState::Bent),
        Statement::PlugCondition(PlugCondition {
            fitting: Fitting::Vapour,
            state: PlugState::Sound,
            note: String::new(),
        }),
    ]);
    let mut second = later();
    let view = view_with(&second, &first.knows, None);
    assert_eq!(
        left(&view),
        [
            "Plug at liquid valve A: square rounded.",
            "Valve at vapor valve turned: hard.",
            "Housing cover, pin: bent (bent at the eye).",
        ]
    );
    // It is recorded in order at the second visit; a later word at the first one is older all the same.
    second.says(feel(Feel::Normal));
    second.says(plug(PlugState::Sound));
    second.says(pin(PartState::Sound));
    first.says(feel(Feel::Hard));
    let view = view_with(&second, &first.knows, None);
    assert_eq!(left(&view), Vec::<String>::new());
    assert_eq!(told(&view, "not_in_order"), Vec::<String>::new());
    // And what is found here is pointed out here.
    second.says(plug(PlugState::Seized));
    let here = told(&view_with(&second, &first.knows, None), "not_in_order");
    assert_eq!(here.len(), 1);
    assert!(here[0].starts_with("Plug at liquid valve A: seized."), "{here:?}");
}

/// Two people who felt the same valve differently do not stop the car.
#[test]
fn two_feelings_of_one_valve_are_no_disagreement() {
    let (mut one, mut two) = (Phone::of("op-a", 1), Phone::of("op-b", 2));
    one.says(opened(Receiver::FixedTank));
    one.meets(&mut two);
    one.says(feel(Feel::Hard));
    two.says(feel(Feel::Easy));
    one.meets(&mut two);
    assert!(one.view().disagreements.is_empty());
}
