//! Tests of people's names: how they reach devices, how they are removed, and everybody who might bring one back
//! or bring a false one.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a failed unwrap is a failed test")]

use super::tests::{Server, phone, sync};
use super::wire::{LARGEST_BULK, ReplyBulk, ReplyHead, open_bulk, parts, seal_reply};
use super::*;
use crate::book::{Book, BookError, BookParts, Draft, Roster};
use crate::clock::{HandSetClock, Stamp, UtcMillis};
use crate::entry::site_facts::{NameForgotten, Operator};
use crate::entry::{Body, Certificate, DeviceKey, Entry, LONGEST_NAME, PersonName, Role, Statement, cbor};
use crate::ids::{Digest, OperatorId, OrganisationId, Subject};
use crate::store::{MemoryStore, NAMES, OWN_NAMES, Store, Write, kept_names, name_rows};
use crate::view::NameStanding;
use farsiding_testkit::Dice;

const NAME: &str = "Ash Example (invented)";
const DESK: [u8; 32] = [50; 32];

fn ash() -> OperatorId {
    OperatorId("ash".to_owned())
}

fn roster(server: &Server) -> Subject {
    Subject::Roster(OrganisationId::of_key(&server.key.public()))
}

/// Returns a device of the office, which may keep the people.
fn desk(server: &mut Server) -> Book {
    let mut book = Book::open(BookParts {
        store: Box::new(MemoryStore::new()),
        key: DeviceKey::from_secret(DESK),
        clock: Box::new(HandSetClock::at(UtcMillis(1_000_500), -360)),
        randomness: Box::new(Dice::of(50)),
    });
    let id = OrganisationId::of_key(&server.key.public());
    let certificate = Certificate::by_role(id, book.device(), "desk", Role::Office, UtcMillis(0));
    let bytes = certificate.seal(&server.key).unwrap();
    let version = server.store.value(CERTIFICATES_VERSION).unwrap();
    let version = version.map_or(1, |v| u64::from_be_bytes(v.try_into().unwrap()) + 1);
    let device = book.device();
    server
        .store
        .commit(&[
            Write::Certificate { device, bytes: &bytes },
            Write::Value { key: CERTIFICATES_VERSION, value: &version.to_be_bytes() },
        ])
        .unwrap();
    book.enrolled(server.key.public(), &bytes).unwrap();
    book
}

fn named(name: &str) -> Draft {
    Draft::of(Statement::Operator(Operator {
        operator: ash(),
        name: name.to_owned(),
        named: None,
        trained_on: String::new(),
        active: true,
    }))
}

fn known(store: &dyn Store, server: &Server) -> Roster {
    Roster::read(store, &server.key.public()).unwrap()
}

/// How a store shows Ash: by which text, and why.
fn shown(store: &dyn Store, server: &Server) -> (String, NameStanding) {
    let person = known(store, server).people[&ash()].clone();
    (person.name, person.name_is)
}

fn forgetting(desk: &mut Book, server: &Server) {
    let named = known(desk.store(), server).committed[&ash()].iter().copied().collect();
    let says = Statement::NameForgotten(NameForgotten { person: ash(), named });
    desk.append(roster(server), vec![Draft::of(says)], &OperatorId("alder".into())).unwrap();
}

/// Returns whether the name stands anywhere in a store's values, entries or quarantine.
fn holds_the_name(store: &dyn Store) -> bool {
    let within = |bytes: &[u8]| bytes.windows(NAME.len()).any(|part| part == NAME.as_bytes());
    let values = [NAMES, OWN_NAMES].into_iter().filter_map(|key| store.value(key).unwrap());
    let entries =
        store.subjects().unwrap().into_iter().flat_map(|subject| store.entries_of(subject).unwrap().rows);
    let aside = store.quarantined().unwrap().into_iter().map(|aside| aside.bytes);
    values.chain(entries.map(|row| row.bytes)).chain(aside).any(|bytes| within(&bytes))
}

fn carry(from: &Book, to: &mut Book) -> CarryReport {
    let subjects = from.store().subjects().unwrap();
    to.carry_in(&from.carry_out(&subjects, Vec::new()).unwrap()).unwrap()
}

/// A server, its desk, and two phones that know the name.
fn scene() -> (Server, Book, Book, Book) {
    let mut server = Server::new();
    let (mut one, mut two) = (phone(1, &mut server), phone(2, &mut server));
    let mut desk = desk(&mut server);
    desk.append(roster(&server), vec![named(NAME)], &OperatorId("alder".into())).unwrap();
    sync(&mut desk, &mut server);
    sync(&mut one, &mut server);
    sync(&mut two, &mut server);
    (server, desk, one, two)
}

#[test]
fn a_name_stands_in_no_entry_and_reaches_everybody_who_is_given_the_roster() {
    let (server, desk, one, two) = scene();
    for store in [&server.store as &dyn Store, desk.store(), one.store(), two.store()] {
        assert_eq!(shown(store, &server), (NAME.to_owned(), NameStanding::Kept));
        for row in store.entries_of(roster(&server)).unwrap().rows {
            assert!(!row.bytes.windows(NAME.len()).any(|part| part == NAME.as_bytes()));
        }
    }
    assert_eq!(name_rows(one.store(), NAMES).unwrap().len(), 1);
    assert!(name_rows(one.store(), OWN_NAMES).unwrap().is_empty());
}

#[test]
fn what_was_named_here_is_the_offices_list_after_the_next_meeting() {
    let (mut server, mut desk, _, _) = scene();
    sync(&mut desk, &mut server);
    assert!(name_rows(desk.store(), OWN_NAMES).unwrap().is_empty());
    assert_eq!(shown(desk.store(), &server).1, NameStanding::Kept);
    // Saying something else of a person under the same name makes no new commitment.
    let before = known(desk.store(), &server).committed[&ash()].clone();
    desk.append(roster(&server), vec![named(NAME)], &OperatorId("alder".into())).unwrap();
    assert_eq!(known(desk.store(), &server).committed[&ash()], before);
}

#[test]
fn a_removed_name_is_gone_at_the_office_and_on_every_device_that_meets_it() {
    let (mut server, mut desk, mut one, mut two) = scene();
    let before: Vec<_> =
        server.store.entries_of(roster(&server)).unwrap().rows.iter().map(|r| r.id).collect();
    forgetting(&mut desk, &server);
    sync(&mut desk, &mut server);
    assert_eq!(shown(&server.store, &server), ("ash".to_owned(), NameStanding::Removed));
    assert!(!holds_the_name(&server.store), "the office deleted name and salt");
    // Two phones that were away for a week still know it, also from each other, until they meet the office.
    carry(&one, &mut two);
    assert_eq!(shown(two.store(), &server).1, NameStanding::Kept);
    for phone in [&mut one, &mut two] {
        let report = sync(phone, &mut server);
        assert!(report.touched.contains(&roster(&server)), "shells read the people again");
        assert_eq!(shown(phone.store(), &server), ("ash".to_owned(), NameStanding::Removed));
        assert!(!holds_the_name(phone.store()));
    }
    let after: Vec<_> = server.store.entries_of(roster(&server)).unwrap().rows.iter().map(|r| r.id).collect();
    assert!(before.iter().all(|id| after.contains(id)), "no entry was taken out");
}

#[test]
fn nobody_brings_a_removed_name_back() {
    let (mut server, mut desk, mut one, two) = scene();
    forgetting(&mut desk, &server);
    sync(&mut desk, &mut server);
    sync(&mut one, &mut server);
    // A phone that has not met the office since carries it to one that has, and to a new one.
    carry(&two, &mut one);
    assert_eq!(shown(one.store(), &server).1, NameStanding::Removed);
    assert!(!holds_the_name(one.store()));
    let mut third = phone(3, &mut server);
    carry(&two, &mut third);
    assert_eq!(shown(third.store(), &server).1, NameStanding::Kept, "it was not told yet");
    // It sends what the office is not known to hold, and the office does not take it.
    let mut session = third.sync_session().unwrap();
    let request = third.sync_request(&mut session).unwrap();
    assert!(!name_rows(third.store(), OWN_NAMES).unwrap().is_empty());
    server.answer(&request).unwrap();
    assert!(!holds_the_name(&server.store));
    sync(&mut third, &mut server);
    assert!(!holds_the_name(third.store()));
    // A backup of a phone that is put back knows it until the next meeting.
    carry(&third, &mut one);
    assert!(!holds_the_name(one.store()));
}

#[test]
fn an_office_restored_from_a_backup_learns_again_that_a_name_was_removed() {
    let (mut server, mut desk, mut one, _) = scene();
    let backup = server.store.clone();
    forgetting(&mut desk, &server);
    sync(&mut desk, &mut server);
    sync(&mut one, &mut server);
    (server.store, server.epoch) = (backup, 2);
    assert_eq!(shown(&server.store, &server).1, NameStanding::Kept, "the backup brought it back");
    sync(&mut one, &mut server);
    assert_eq!(shown(&server.store, &server).1, NameStanding::Removed);
    assert!(!holds_the_name(&server.store));
    assert!(!holds_the_name(one.store()), "nor did the phone take it from the restored office");
}

#[test]
fn a_false_name_from_the_office_is_not_shown_and_said() {
    let (mut server, _, mut one, _) = scene();
    let mut dice = Dice::of(9);
    let mut told = |change: &dyn Fn(&mut PersonName)| {
        let mut session = one.sync_session().unwrap();
        // The device's list is another one, so the office sends its own again.
        let version = dice.next().to_be_bytes();
        server.store.commit(&[Write::Value { key: CERTIFICATES_VERSION, value: &version }]).unwrap();
        let request = one.sync_request(&mut session).unwrap();
        let reply = server.answer(&request).unwrap().reply;
        let message = parts(&reply).unwrap();
        let head = ReplyHead::open(&message.head, &server.key).unwrap();
        let mut bulk: ReplyBulk = open_bulk(&message, head.bulk, LARGEST_BULK).unwrap();
        bulk.names.as_mut().unwrap().iter_mut().for_each(change);
        let false_one = seal_reply(head, &bulk, &server.key).unwrap();
        one.sync_receive(&mut session, &false_one).unwrap();
        (session.report().names_unfit, shown(one.store(), &server))
    };
    let nobody = ("ash".to_owned(), NameStanding::NotHere);
    assert_eq!(told(&|row| row.name = "Somebody Else".into()), (1, nobody.clone()));
    assert_eq!(told(&|row| row.name = "x".repeat(1 << 20)), (1, nobody.clone()));
    // A row that fits itself, and no entry.
    let stranger = PersonName::of("Somebody Else", &mut Dice::of(3));
    assert_eq!(told(&|row| *row = stranger.clone()), (0, nobody));
}

#[test]
fn a_name_without_bounds_is_given_by_nobody_and_taken_from_nobody() {
    let (mut server, mut desk, mut one, _) = scene();
    for long in [LONGEST_NAME + 1, 1 << 20] {
        let refused =
            desk.append(roster(&server), vec![named(&"x".repeat(long))], &OperatorId("alder".into()));
        assert!(matches!(refused, Err(BookError::Entry(_))), "{long} bytes");
    }
    // A device of the office that does not keep to the bound.
    let row = PersonName::of(&"x".repeat(1 << 20), &mut Dice::of(4));
    let own = cbor::encode(&vec![row]).unwrap();
    one.store_mut().commit(&[Write::Value { key: OWN_NAMES, value: &own }]).unwrap();
    let mut session = one.sync_session().unwrap();
    let request = one.sync_request(&mut session).unwrap();
    server.answer(&request).unwrap();
    assert_eq!(kept_names(&server.store).unwrap().rows().count(), 1);
    assert!(server.store.value(OWN_NAMES).unwrap().unwrap().len() < 1_000);
}

#[test]
fn whoever_may_not_keep_the_people_removes_no_name_and_gives_none() {
    let (mut server, desk, mut one, _) = scene();
    let row = name_rows(one.store(), NAMES).unwrap().remove(0);
    let forget = Statement::NameForgotten(NameForgotten { person: ash(), named: vec![row.named] });
    let refused = one.append(roster(&server), vec![Draft::of(forget.clone())], &ash());
    assert!(matches!(refused, Err(BookError::MayNot(_))));
    // A program that does not ask whether it may.
    let key = DeviceKey::from_secret([77; 32]);
    let body = Body {
        about: roster(&server),
        slot: forget.slot(),
        says: forget,
        follows: vec![],
        replaces: vec![],
        why: String::new(),
        by: ash(),
        seq: 1,
        prev: None,
        when: Stamp { at: UtcMillis(1_000_000), offset_minutes: 0, ahead_millis: None },
        place: None,
        seen: None,
        hand: None,
        done: None,
        rests_on: None,
    };
    let entry = Entry::seal(body, &key).unwrap();
    server.certify(key.public(), false);
    for store in [&mut server.store as &mut dyn Store, one.store_mut()] {
        store.commit(&[Write::Entry { subject: entry.body.about, entry: &entry }]).unwrap();
    }
    let root = server.key.public();
    settle_names(&mut server.store, &root, &[], None).unwrap();
    settle_names(one.store_mut(), &root, &[], None).unwrap();
    assert_eq!(shown(&server.store, &server).1, NameStanding::Kept);
    assert_eq!(shown(one.store(), &server).1, NameStanding::Kept);
    assert_eq!(shown(desk.store(), &server).1, NameStanding::Kept);
}

#[test]
fn an_entry_of_an_earlier_version_is_read_with_the_name_in_it() {
    let (server, mut desk, _, _) = scene();
    let Statement::Operator(person) = named("Wren Example (invented)").says else { panic!() };
    let says = Statement::Operator(Operator { operator: OperatorId("wren".into()), ..person });
    let last = desk.entries(roster(&server)).unwrap().0.pop().unwrap().0;
    let body = Body { slot: says.slot(), says, seq: last.body.seq + 1, prev: Some(last.id), ..last.body };
    let entry = Entry::seal(body, &DeviceKey::from_secret(DESK)).unwrap();
    desk.store_mut().commit(&[Write::Entry { subject: entry.body.about, entry: &entry }]).unwrap();
    let roster = known(desk.store(), &server);
    let wren = &roster.people[&OperatorId("wren".into())];
    assert_eq!((wren.name.as_str(), wren.name_is), ("Wren Example (invented)", NameStanding::Open));
    assert_eq!(roster.committed[&OperatorId("wren".into())].len(), 0);
}

/// A statement of a version before names were kept apart reads and writes the same bytes, and one of now reads as a
/// person without a name by the fields that version knew.
#[test]
fn the_form_on_the_wire_is_one_that_earlier_versions_read() {
    #[derive(serde::Deserialize)]
    struct OfBefore {
        name: String,
        active: bool,
    }
    let before =
        Operator { operator: ash(), name: NAME.into(), named: None, trained_on: String::new(), active: true };
    let bytes = cbor::encode(&before).unwrap();
    assert!(!bytes.windows(5).any(|part| part == b"named"));
    let now = Operator { name: String::new(), named: Some(Digest([7; 32])), ..before };
    let read: OfBefore = cbor::decode(&cbor::encode(&now).unwrap()).unwrap();
    assert_eq!((read.name.as_str(), read.active), ("", true));
}
