//! Tests of people with keys of their own: one person on several phones, several people on one phone, wrong
//! and forgotten PINs.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a failed unwrap is a failed test")]

use super::*;
use crate::clock::HandSetClock;
use crate::entry::site_facts::{Operator, PersonKey, Rules, Unlocking};
use crate::entry::{Body, Certificate, Hand, LastEntry, OrganisationKey, Role, Statement};
use crate::ids::{OperatorId, OrganisationId, VisitId};
use crate::store::MemoryStore;
use crate::view::{PersonKeyView, rules};
use farsiding_testkit::Dice;

const CHEAP: PinCost = PinCost { memory_kib: 8, passes: 1 };
const MINUTE: i64 = 60_000;
const HOUR: i64 = 60 * MINUTE;
const PIN: &str = "294611";

fn organisation() -> OrganisationKey {
    OrganisationKey::from_secret([40; 32])
}

fn roster() -> Subject {
    Subject::Roster(OrganisationId::of_key(&organisation().public()))
}

/// Returns the keys that the roster on a device knows.
fn known(book: &Book) -> Vec<PersonKeyView> {
    Roster::read(book.store(), &organisation().public()).unwrap().keys
}

fn person(code: &str) -> OperatorId {
    OperatorId(code.to_owned())
}

/// Returns an enrolled device, a phone or the office's, with its clock.
fn device(n: u8, role: Role) -> (Book, HandSetClock) {
    let clock = HandSetClock::at(UtcMillis(1_790_000_000_000), -360);
    let mut book = Book::open(BookParts {
        store: Box::new(MemoryStore::default()),
        key: DeviceKey::from_secret([n; 32]),
        clock: Box::new(clock.clone()),
        randomness: Box::new(Dice::of(u64::from(n))),
    });
    let id = OrganisationId::of_key(&organisation().public());
    let certificate = Certificate::by_role(id, book.device(), format!("device {n}"), role, UtcMillis(1));
    book.enrolled(organisation().public(), &certificate.seal(&organisation()).unwrap()).unwrap();
    book.keep_beside([n; 32]);
    (book, clock)
}

/// Transfers all records from one device to another.
fn carry(from: &Book, to: &mut Book) {
    let subjects = from.store().subjects().unwrap();
    let file = from.carry_out(&subjects, Vec::new()).unwrap();
    to.carry_in(&file).unwrap();
}

fn made(book: &Book, subject: Subject, id: EntryId) -> Entry {
    let found = book.entries(subject).unwrap().0.into_iter().find(|(entry, _)| entry.id == id);
    found.unwrap().0
}

fn visit() -> Subject {
    Subject::Visit(VisitId([6; 16]))
}

fn release() -> Draft {
    Draft::of(Statement::Released { as_residue: true })
}

fn remark(text: &str) -> Draft {
    Draft::of(Statement::Remark { text: text.to_owned() })
}

/// Records a draft and returns the key of the person who signed it.
fn signed(book: &mut Book, draft: Draft, by: &str) -> Option<PublicKey> {
    let id = book.append(visit(), vec![draft], &person(by)).unwrap()[0];
    made(book, visit(), id).body.hand.map(|hand| hand.key)
}

fn pin_error(result: Result<impl std::fmt::Debug, BookError>) -> PinError {
    match result {
        Err(BookError::Pin(error)) => error,
        other => panic!("{other:?}"),
    }
}

fn with_rules(phone: &mut Book, unlocking: Unlocking) {
    let (mut office, _) = device(50, Role::Office);
    let says = Statement::Rules(Rules { unlocking, ..Rules::default() });
    office.append(roster(), vec![Draft::of(says)], &person("office")).unwrap();
    carry(&office, phone);
}

#[test]
fn a_key_is_made_under_a_pin_signs_its_own_making_and_the_act_it_was_unlocked_for() {
    let (mut phone, _) = device(1, Role::Operator);
    let ada = person("ada");
    assert_eq!(signed(&mut phone, release(), "ada"), None, "a person without a key can record");
    let key = phone.make_person_key(&ada, PIN, CHEAP).unwrap();
    let known = known(&phone);
    assert_eq!((known.len(), known[0].key, &known[0].person), (1, key, &ada));
    assert_eq!(known[0].fingerprint, phone.people_here().unwrap().keys[0].fingerprint);
    assert_eq!(known[0].fingerprint.len(), 19);
    // The key is unlocked from its creation, and signs binding acts but not mere observations.
    assert_eq!(signed(&mut phone, remark("rain"), "ada"), None);
    assert_eq!(signed(&mut phone, release(), "ada"), Some(key));
    assert_eq!(signed(&mut phone, release(), "ada"), None, "it was unlocked for one act");
    phone.unlock_person(&ada, PIN).unwrap();
    assert_eq!(signed(&mut phone, release(), "ben"), None, "another signs nothing with it");
    assert_eq!(signed(&mut phone, release(), "ada"), Some(key));
}

#[test]
fn an_act_that_was_not_kept_leaves_the_key_unlocked_and_one_that_never_comes_does_not() {
    let (mut phone, clock) = device(1, Role::Operator);
    let ada = person("ada");
    let key = phone.make_person_key(&ada, PIN, CHEAP).unwrap();
    let refused = Draft::of(Statement::PassedOver { blocker: "x".into(), seen: Vec::new() });
    assert!(phone.append(visit(), vec![refused], &ada).is_err(), "no reason was given");
    assert_eq!(phone.people_here().unwrap().holder.unwrap().person, ada);
    clock.advance(6 * MINUTE);
    assert_eq!(phone.people_here().unwrap().holder, None);
    assert_eq!(signed(&mut phone, release(), "ada"), None);
    phone.unlock_person(&ada, PIN).unwrap();
    clock.advance(-HOUR);
    assert_eq!(signed(&mut phone, release(), "ada"), None, "a clock put back ends it too");
    phone.unlock_person(&ada, PIN).unwrap();
    assert_eq!(signed(&mut phone, release(), "ada"), Some(key));
}

#[test]
fn under_a_shift_each_visit_is_told_once_who_holds_the_phone() {
    let (mut phone, clock) = device(1, Role::Operator);
    with_rules(&mut phone, Unlocking::Shift);
    let ada = person("ada");
    let key = phone.make_person_key(&ada, PIN, CHEAP).unwrap();
    for text in ["one", "two"] {
        phone.append(visit(), vec![remark(text)], &ada).unwrap();
    }
    phone.append(visit(), vec![remark("ben's")], &person("ben")).unwrap();
    assert_eq!(signed(&mut phone, release(), "ada"), Some(key));
    assert_eq!(signed(&mut phone, release(), "ada"), Some(key), "the shift goes on");
    let said = |phone: &Book| -> Vec<Entry> {
        let entries = phone.entries(visit()).unwrap().0.into_iter().map(|(entry, _)| entry);
        entries.filter(|e| matches!(e.body.says, Statement::HeldBy { .. })).collect()
    };
    let held = said(&phone);
    assert_eq!(held.len(), 1);
    assert_eq!(held[0].body.says, Statement::HeldBy { person: ada.clone() });
    assert_eq!(held[0].body.hand.as_ref().unwrap().key, key);
    let first = phone.entries(visit()).unwrap().0.into_iter().map(|(e, _)| e).find(|e| e.body.seq == 3);
    assert_eq!(first.unwrap().body.prev, Some(held[0].id), "it comes before the first entry");
    // A visit opened later in the shift also states the holder; after the hours are over, nobody holds the
    // phone.
    let other = Subject::Visit(VisitId([7; 16]));
    phone.append(other, vec![remark("x")], &ada).unwrap();
    assert_eq!(phone.entries(other).unwrap().0.len(), 2);
    clock.advance(SHIFT_HOURS * HOUR);
    assert_eq!(signed(&mut phone, release(), "ada"), None);
    // The next shift is stated again.
    phone.unlock_person(&ada, PIN).unwrap();
    phone.append(visit(), vec![remark("next day")], &ada).unwrap();
    phone.lock_people();
    phone.append(visit(), vec![remark("after")], &ada).unwrap();
    assert_eq!(said(&phone).len(), 2);
}

#[test]
fn wrong_pins_are_counted_wait_longer_and_longer_and_lock_the_key_here_for_good() {
    let (mut phone, clock) = device(1, Role::Operator);
    let ada = person("ada");
    let old = phone.make_person_key(&ada, PIN, CHEAP).unwrap();
    phone.lock_people();
    for left in (6..10).rev() {
        assert_eq!(pin_error(phone.unlock_person(&ada, "111222")), PinError::Wrong { left });
    }
    // The correct PIN resets the count of wrong ones.
    phone.unlock_person(&ada, PIN).unwrap();
    phone.lock_people();
    for left in (5..10).rev() {
        assert_eq!(pin_error(phone.unlock_person(&ada, "111222")), PinError::Wrong { left });
    }
    for left in (0..5).rev() {
        let PinError::Wait { until } = pin_error(phone.unlock_person(&ada, PIN)) else { panic!("no wait") };
        assert_eq!(phone.people_here().unwrap().keys[0].wait_until, Some(until));
        clock.set(until);
        let expected = if left > 0 { PinError::Wrong { left } } else { PinError::Locked };
        assert_eq!(pin_error(phone.unlock_person(&ada, "111222")), expected);
    }
    clock.advance(1_000 * HOUR);
    assert_eq!(pin_error(phone.unlock_person(&ada, PIN)), PinError::Locked);
    let kept = phone.store().value("book/person_keys").unwrap().unwrap();
    assert!(kept.len() < 150, "nothing of the secret is left to guess at: {} bytes", kept.len());
    // The person creates a new key; what the old one signed remains signed.
    let new = phone.make_person_key(&ada, "830274", CHEAP).unwrap();
    assert_ne!(new, old);
    assert_eq!(signed(&mut phone, release(), "ada"), Some(new));
}

#[test]
fn a_try_is_used_up_although_the_program_ends_in_the_middle() {
    // The try is recorded before the PIN is checked, so a disk that fails ends the try.
    let (mut phone, _) = device(1, Role::Operator);
    let ada = person("ada");
    phone.make_person_key(&ada, PIN, CHEAP).unwrap();
    phone.lock_people();
    phone.people = people::People::default();
    assert_eq!(pin_error(phone.unlock_person(&ada, PIN)), PinError::NothingBeside);
    phone.keep_beside([99; 32]);
    assert_eq!(pin_error(phone.unlock_person(&ada, PIN)), PinError::Wrong { left: 9 });
    assert_eq!(phone.people_here().unwrap().keys[0].tries_left, 9);
}

#[test]
fn a_pin_is_changed_with_the_old_one_and_stays_the_same_key() {
    let (mut phone, _) = device(1, Role::Operator);
    let ada = person("ada");
    let key = phone.make_person_key(&ada, PIN, CHEAP).unwrap();
    assert_eq!(pin_error(phone.change_pin(&ada, PIN, "123456", CHEAP)), PinError::TooEasy);
    assert_eq!(pin_error(phone.change_pin(&ada, "830275", "830274", CHEAP)), PinError::Wrong { left: 9 });
    phone.change_pin(&ada, PIN, "830274", CHEAP).unwrap();
    phone.lock_people();
    assert_eq!(pin_error(phone.unlock_person(&ada, PIN)), PinError::Wrong { left: 9 });
    phone.unlock_person(&ada, "830274").unwrap();
    assert_eq!(signed(&mut phone, release(), "ada"), Some(key));
}

#[test]
fn a_forgotten_pin_the_office_ends_the_key_and_the_person_makes_a_new_one() {
    let (mut phone, _) = device(1, Role::Operator);
    let (mut office, _) = device(50, Role::Office);
    let ada = person("ada");
    let old = phone.make_person_key(&ada, PIN, CHEAP).unwrap();
    assert_eq!(pin_error(phone.make_person_key(&ada, PIN, CHEAP)), PinError::HasKey(ada.clone()));
    let mine = phone.append(visit(), vec![release()], &ada).unwrap()[0];
    phone.forget_person_key(&ada).unwrap();
    assert_eq!(phone.people_here().unwrap().keys, []);
    assert_eq!(pin_error(phone.unlock_person(&ada, PIN)), PinError::NoKey(ada.clone()));
    let new = phone.make_person_key(&ada, "830274", CHEAP).unwrap();
    carry(&phone, &mut office);
    let last = LastEntry { seq: 2, entry: mine };
    let ends = Statement::PersonKeyEnded { person: ada.clone(), key: old, last: Some(last) };
    let confirms = Statement::PersonKeyConfirmed { person: ada.clone(), key: new };
    let drafts = vec![Draft::of(ends).because("forgotten"), Draft::of(confirms)];
    office.append(roster(), drafts, &person("office")).unwrap();
    carry(&office, &mut phone);
    let known = known(&phone);
    let of = |key: PublicKey| known.iter().find(|k| k.key == key).unwrap();
    assert_eq!(known.len(), 2);
    assert!(of(old).ended.as_ref().is_some_and(|act| act.why == "forgotten"));
    assert_eq!(of(old).last, Some(last));
    assert!(of(new).confirmed.is_some() && of(new).ended.is_none());
    assert_eq!(made(&phone, visit(), mine).body.hand.unwrap().key, old, "it stays signed");
    let here = phone.people_here().unwrap();
    assert!(here.keys[0].confirmed && !here.keys[0].ended);
}

#[test]
fn only_who_keeps_the_people_ends_a_key_or_says_the_rules() {
    let (mut phone, _) = device(1, Role::Operator);
    let ada = person("ada");
    let key = phone.make_person_key(&ada, PIN, CHEAP).unwrap();
    phone.lock_people();
    let end = || Draft::of(Statement::PersonKeyEnded { person: person("ada"), key, last: None });
    let shift = || Draft::of(Statement::Rules(Rules { unlocking: Unlocking::Shift, ..Rules::default() }));
    // An operator's device refuses to make such an entry.
    let (mut other, _) = device(2, Role::Operator);
    for book in [&mut phone, &mut other] {
        for draft in [end(), shift()] {
            let refused = book.append(roster(), vec![draft], &person("ben"));
            assert!(matches!(refused, Err(BookError::MayNot(_))), "{refused:?}");
        }
    }
    // A device that was never enrolled makes it, but it has no effect.
    let mut stranger = Book::open(BookParts {
        store: Box::new(MemoryStore::default()),
        key: DeviceKey::from_secret([77; 32]),
        clock: Box::new(HandSetClock::at(UtcMillis(1_790_000_000_000), -360)),
        randomness: Box::new(Dice::of(77)),
    });
    stranger.append(roster(), vec![end(), shift()], &person("office")).unwrap();
    carry(&stranger, &mut phone);
    phone.unlock_person(&ada, PIN).unwrap();
    let here = phone.people_here().unwrap();
    assert_eq!((here.keys[0].ended, here.rules.unlocking), (false, Unlocking::Act));
    // The office's entry takes effect.
    let (mut office, _) = device(50, Role::Office);
    office.append(roster(), vec![end(), shift()], &person("office")).unwrap();
    carry(&office, &mut phone);
    let here = phone.people_here().unwrap();
    assert_eq!((here.keys[0].ended, here.rules.unlocking), (true, Unlocking::Shift));
    assert_eq!(pin_error(phone.unlock_person(&ada, PIN)), PinError::Ended);
}

#[test]
fn an_ended_key_is_not_unlocked_and_makes_room_for_a_new_one() {
    let (mut phone, _) = device(1, Role::Operator);
    let (mut office, _) = device(50, Role::Office);
    let ada = person("ada");
    let key = phone.make_person_key(&ada, PIN, CHEAP).unwrap();
    let left = Operator {
        operator: ada.clone(),
        name: "Ada".into(),
        named: None,
        trained_on: String::new(),
        active: false,
    };
    let ends = Statement::PersonKeyEnded { person: ada.clone(), key, last: None };
    let drafts = vec![Draft::of(Statement::Operator(left)), Draft::of(ends)];
    office.append(roster(), drafts, &person("office")).unwrap();
    carry(&office, &mut phone);
    let here = phone.people_here().unwrap();
    assert!(here.keys[0].ended && here.holder.is_none(), "whoever looks locks it, though it was unlocked");
    assert_eq!(signed(&mut phone, release(), "ada"), None);
    assert_eq!(pin_error(phone.unlock_person(&ada, PIN)), PinError::Ended);
    let new = phone.make_person_key(&ada, "830274", CHEAP).unwrap();
    assert_ne!(new, key);
}

#[test]
fn several_people_share_a_phone_and_one_at_a_time_holds_it() {
    let (mut phone, _) = device(1, Role::Operator);
    with_rules(&mut phone, Unlocking::Shift);
    let (ada, ben) = (person("ada"), person("ben"));
    let hers = phone.make_person_key(&ada, PIN, CHEAP).unwrap();
    let his = phone.make_person_key(&ben, "830274", CHEAP).unwrap();
    assert_eq!(phone.people_here().unwrap().holder.unwrap().person, ben);
    assert_eq!(signed(&mut phone, release(), "ada"), None);
    assert_eq!(signed(&mut phone, release(), "ben"), Some(his));
    assert_eq!(pin_error(phone.unlock_person(&ada, "830274")), PinError::Wrong { left: 9 });
    assert_eq!(phone.people_here().unwrap().holder.unwrap().person, ben, "a wrong PIN locks nobody out");
    phone.unlock_person(&ada, PIN).unwrap();
    assert_eq!(signed(&mut phone, release(), "ben"), None);
    assert_eq!(signed(&mut phone, release(), "ada"), Some(hers));
    assert_eq!(phone.people_here().unwrap().keys.len(), 2);
    phone.forget_person_key(&ada).unwrap();
    assert_eq!(phone.people_here().unwrap().holder, None);
    phone.unlock_person(&ben, "830274").unwrap();
}

#[test]
fn one_person_has_a_key_on_each_phone_and_both_are_known() {
    let (mut one, _) = device(1, Role::Operator);
    let (mut two, _) = device(2, Role::Operator);
    let ada = person("ada");
    let keys =
        [one.make_person_key(&ada, PIN, CHEAP).unwrap(), two.make_person_key(&ada, "830274", CHEAP).unwrap()];
    carry(&one, &mut two);
    let mut known: Vec<PublicKey> = known(&two).into_iter().map(|k| k.key).collect();
    known.sort_unstable();
    let mut expected = keys.to_vec();
    expected.sort_unstable();
    assert_eq!(known, expected);
    assert_eq!(two.people_here().unwrap().keys.len(), 1, "a key never leaves its phone");
}

#[test]
fn a_key_is_nobodys_who_cannot_sign_with_it_and_a_lifted_signature_holds_on_nothing_else() {
    let (mut phone, _) = device(1, Role::Operator);
    let (mut thief, _) = device(2, Role::Operator);
    let key = phone.make_person_key(&person("ada"), PIN, CHEAP).unwrap();
    let id = phone.append(visit(), vec![release()], &person("ada")).unwrap()[0];
    let genuine = made(&phone, visit(), id);
    // Another person claims the key, but without a signature by that key the claim has no effect.
    let claim = PersonKey { person: person("eve"), key, kept: crate::entry::site_facts::KeyKept::Pin };
    thief.append(roster(), vec![Draft::of(Statement::PersonKey(claim))], &person("eve")).unwrap();
    assert_eq!(known(&thief), []);
    // The signature is moved to another visit, to another person, or to another device's entry.
    let hand: Hand = genuine.body.hand.clone().unwrap();
    let other = VisitId([9; 16]);
    let device_key = DeviceKey::from_secret([1; 32]);
    for (body, key) in [
        (Body { about: Subject::Visit(other), ..genuine.body.clone() }, &device_key),
        (Body { by: person("ben"), ..genuine.body.clone() }, &device_key),
        (Body { seq: 99, ..genuine.body.clone() }, &device_key),
        (genuine.body.clone(), &DeviceKey::from_secret([2; 32])),
    ] {
        let lifted = Entry::seal(Body { hand: Some(hand.clone()), ..body }, key).unwrap();
        assert_eq!(Entry::open(lifted.bytes()), Err(EntryError::BadHand));
    }
}

#[test]
fn before_there_is_an_organisation_no_key_is_made_and_all_else_goes_on() {
    let mut phone = Book::open(BookParts {
        store: Box::new(MemoryStore::default()),
        key: DeviceKey::from_secret([1; 32]),
        clock: Box::new(HandSetClock::at(UtcMillis(0), 0)),
        randomness: Box::new(Dice::of(0)),
    });
    phone.keep_beside([1; 32]);
    let refused = phone.make_person_key(&person("ada"), PIN, CHEAP);
    assert!(matches!(refused, Err(BookError::Sync(SyncError::NotEnrolled))), "{refused:?}");
    assert!(!phone.people_here().unwrap().can_make);
    assert_eq!(signed(&mut phone, release(), "ada"), None);
    assert_eq!(rules(&[]), Rules::default());
}
