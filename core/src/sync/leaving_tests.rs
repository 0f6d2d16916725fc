//! Tests of records outside a device's sites: those that leave it because its certificate no longer names their
//! site, and those asked about in passing; and of an office put back in silence that lacks an entry in one of its
//! two documents.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a failed unwrap is a failed test")]

use std::collections::BTreeSet;

use super::scope_tests::{
    A, B, by, car, certify, check_holds_its_scope, defect, device, open, say, scope, sites, subjects, sync,
    sync_told,
};
use super::tests::{Server, VISIT, phone};
use super::wire::{LARGEST_BULK, RequestBulk, open_bulk, parts};
use super::*;
use crate::book::{Book, Draft};
use crate::clock::UtcMillis;
use crate::document::CheckedChange;
use crate::entry::vocabulary::{PhotoOf, PhotoRef};
use crate::entry::{Certificate, EarlierGrant, Entry, LastEntry, Right, Role, Statement};
use crate::ids::{Digest, EntryId, SiteId, Subject};
use crate::store::{Scope, SetDigest, Store, Write, counted_as, writes_of};

const PHOTO: Digest = Digest([7; 32]);

/// An office, a device of both sites, and a visit at each, all in sync.
fn two_sites() -> (Server, Book, Book, Subject, Subject) {
    let mut server = Server::new();
    let mut office = device(1, &mut server, Role::Office, None);
    let mut a = device(2, &mut server, Role::Operator, sites(&[A, B]));
    say(&mut office, Subject::Site(A), "the tank of a");
    say(&mut office, Subject::Site(B), "the tank of b");
    let (at_a, at_b) = (open(&mut a, "ZZQX 1", A), open(&mut a, "ZZQX 2", B));
    a.append(at_b, vec![Draft::of(defect(1, "a bent handle"))], &by()).unwrap();
    for _ in 0..2 {
        sync(&mut a, &mut server);
        sync(&mut office, &mut server);
    }
    (server, office, a, at_a, at_b)
}

fn narrow(server: &mut Server, book: &Book, to: &[SiteId]) {
    certify(server, book.device(), Role::Operator, sites(to));
}

/// Names a photograph of the visit whose bytes are on the device.
fn photograph(book: &mut Book, visit: Subject) {
    let photo = Write::Photo { sha256: PHOTO, length: 9, media: "image/jpeg", here: true, held: false };
    book.store_mut().commit(&[photo]).unwrap();
    let photo = PhotoRef { sha256: PHOTO, length: 9, media: "image/jpeg".into() };
    let says = Statement::Photo { photo, of: PhotoOf::Seal, about: String::new() };
    book.append(visit, vec![Draft::of(says)], &by()).unwrap();
}

fn upload(server: &mut Server) {
    let photo = Write::Photo { sha256: PHOTO, length: 9, media: "image/jpeg", here: true, held: false };
    server.store.commit(&[photo]).unwrap();
}

#[test]
fn what_a_device_holds_of_a_site_it_lost_leaves_it_and_count_and_sum_stay() {
    let (mut server, mut office, mut a, at_a, at_b) = two_sites();
    narrow(&mut server, &a, &[A]);
    let report = sync(&mut a, &mut server);
    let gone = BTreeSet::from([at_b, car("ZZQX 2"), Subject::Site(B)]);
    assert_eq!(report.left.iter().copied().collect::<BTreeSet<_>>(), gone);
    assert_eq!(subjects(&a), BTreeSet::from([at_a, Subject::Site(A)]));
    assert!(a.store().changes_of(at_b).unwrap().rows.is_empty());
    check_holds_its_scope(&a, &server, &scope(&[A]));
    // Count and sum are those of the same documents at the office.
    let mut held = SetDigest::default();
    for subject in &gone {
        let rows = server.store.entries_of(*subject).unwrap().rows;
        rows.iter().for_each(|row| held.add(counted_as(*subject, row.id)));
    }
    assert_eq!(left(a.store()).unwrap(), [Left { site: B, documents: 3, tally: held }]);
    // Nothing of the site comes again, and nothing is asked about it.
    say(&mut office, at_b, "after it left");
    sync(&mut office, &mut server);
    let (report, told) = sync_told(&mut a, &mut server);
    assert!(!told.says("after it left") && told.subjects.is_disjoint(&gone));
    assert_eq!((report.rounds, report.received, report.reconciled), (1, 0, false));
}

#[test]
fn what_left_comes_back_when_the_site_is_given_again() {
    let (mut server, _, mut a, at_a, at_b) = two_sites();
    narrow(&mut server, &a, &[A]);
    sync(&mut a, &mut server);
    narrow(&mut server, &a, &[A, B]);
    let report = sync(&mut a, &mut server);
    assert_eq!((report.left, report.received), (vec![], 3));
    let all = [at_a, at_b, car("ZZQX 2"), Subject::Site(A), Subject::Site(B)];
    assert_eq!(subjects(&a), BTreeSet::from(all));
    check_holds_its_scope(&a, &server, &scope(&[A, B]));
    assert_eq!(left(a.store()).unwrap(), [], "it is here again");
    // Given everything, it holds what the office holds.
    certify(&mut server, a.device(), Role::Operator, None);
    sync(&mut a, &mut server);
    check_holds_its_scope(&a, &server, &Scope::Everything);
}

#[test]
fn the_device_goes_on_counting_where_its_last_entry_left() {
    let (mut server, _, mut a, at_a, at_b) = two_sites();
    let last = say(&mut a, at_b, "the last at b");
    let number = a.store().entry(last).unwrap().map(|row| Entry::reopen(last, row.bytes).unwrap().body.seq);
    sync(&mut a, &mut server);
    narrow(&mut server, &a, &[A]);
    assert!(sync(&mut a, &mut server).left.contains(&at_b));
    assert!(a.store().entry(last).unwrap().is_none(), "it left");
    let next = say(&mut a, at_a, "the first after it");
    let next = Entry::reopen(next, a.store().entry(next).unwrap().unwrap().bytes).unwrap();
    // A number given twice would make honest records look like those of a copied phone.
    assert_eq!((Some(next.body.seq), next.body.prev), (number.map(|number| number + 1), Some(last)));
    sync(&mut a, &mut server);
    assert!(server.store.entry(next.id).unwrap().is_some());
}

#[test]
fn what_was_not_sent_stays() {
    let (mut server, _, mut a, _, at_b) = two_sites();
    photograph(&mut a, at_b);
    let unsent = say(&mut a, at_b, "said without signal");
    narrow(&mut server, &a, &[A]);
    // The certificate arrives, and the reply that says so is the last for today.
    let mut session = a.sync_session().unwrap();
    let request = a.sync_request(&mut session).unwrap();
    let old = server.answer(&request).unwrap().reply;
    a.sync_receive(&mut session, &old).unwrap();
    say(&mut a, at_b, "said since");
    assert!(subjects(&a).contains(&at_b) && session.report().left.is_empty());
    // All entries are sent, and the photograph is not: the visit and its site stay.
    let report = sync(&mut a, &mut server);
    assert!(server.store.entry(unsent).unwrap().is_some());
    assert!(subjects(&a).contains(&at_b) && subjects(&a).contains(&Subject::Site(B)));
    assert!(!report.left.contains(&at_b) && report.left_photos.is_empty());
    upload(&mut server);
    let report = sync(&mut a, &mut server);
    assert!(report.left.contains(&at_b) && !subjects(&a).contains(&at_b));
    assert_eq!((report.left_photos, a.store().photo(PHOTO).unwrap()), (vec![PHOTO], None));
    check_holds_its_scope(&a, &server, &scope(&[A]));
}

#[test]
fn what_the_office_will_never_take_and_what_is_half_typed_stays() {
    let (mut server, _, mut a, _, at_b) = two_sites();
    // The entry's row exists without its change, so it never has a receipt.
    let says = Statement::Remark { text: "stuck".into() };
    let made = a.sketch(at_b, vec![Draft::of(says)], &by()).unwrap();
    a.store_mut().commit(&[Write::Entry { subject: at_b, entry: &made[0] }]).unwrap();
    narrow(&mut server, &a, &[A]);
    for _ in 0..2 {
        assert!(!sync(&mut a, &mut server).left.contains(&at_b));
    }
    assert_eq!(a.store().entries_without_receipt(9).unwrap(), [made[0].id]);
    let (mut server, _, mut a, at_a, at_b) = two_sites();
    let name = |visit: Subject| format!("remark/{}", visit.to_string().split_once(':').unwrap().1);
    let own = name(at_b);
    for (key, text) in [(&name(at_a), "of another"), (&own, "half a sent")] {
        a.store_mut().commit(&[Write::Draft { key, text }]).unwrap();
    }
    narrow(&mut server, &a, &[A]);
    assert!(!sync(&mut a, &mut server).left.contains(&at_b));
    a.store_mut().commit(&[Write::Draft { key: &own, text: "" }]).unwrap();
    assert!(sync(&mut a, &mut server).left.contains(&at_b));
}

#[test]
fn what_is_known_of_a_car_seen_at_a_site_that_stays_is_kept() {
    let (mut server, _, mut a, _, at_b) = two_sites();
    let again = open(&mut a, "ZZQX 2", A);
    sync(&mut a, &mut server);
    let of_the_car: Vec<EntryId> =
        a.store().entries_of(car("ZZQX 2")).unwrap().rows.into_iter().map(|row| row.id).collect();
    narrow(&mut server, &a, &[A]);
    let report = sync(&mut a, &mut server);
    assert!(report.left.contains(&at_b) && !report.left.contains(&car("ZZQX 2")));
    assert!(subjects(&a).contains(&again));
    // The defect was found at the site that the device lost, and follows the car.
    for id in &of_the_car {
        let entry = a.store().entry(*id).unwrap().unwrap();
        assert!(entry.receipted && !a.store().receipts_of(*id).unwrap().is_empty());
        assert_eq!(a.store().scopes().standings_of(*id).unwrap(), [car("ZZQX 2")]);
    }
    assert_eq!(of_the_car.len(), 1);
    check_holds_its_scope(&a, &server, &scope(&[A]));
    // The car's document grows on, on both sides.
    a.append(again, vec![Draft::of(defect(2, "a lost chain"))], &by()).unwrap();
    sync(&mut a, &mut server);
    check_holds_its_scope(&a, &server, &scope(&[A]));
}

#[test]
fn a_car_that_left_and_comes_to_a_site_that_stays_has_one_document_again() {
    let (mut server, mut office, mut a, _, _) = two_sites();
    narrow(&mut server, &a, &[A]);
    sync(&mut a, &mut server);
    // The same program begins the car's document anew before it hears of the earlier one.
    let again = open(&mut a, "ZZQX 2", A);
    a.append(again, vec![Draft::of(defect(2, "a lost chain"))], &by()).unwrap();
    for _ in 0..2 {
        sync(&mut a, &mut server);
        sync(&mut office, &mut server);
    }
    assert_eq!(a.store().entries_of(car("ZZQX 2")).unwrap().rows.len(), 2);
    check_holds_its_scope(&a, &server, &scope(&[A]));
    check_holds_its_scope(&office, &server, &Scope::Everything);
    let refused = server.store.quarantined().unwrap();
    assert!(refused.is_empty(), "no change excludes another: {refused:?}");
}

#[test]
fn what_the_office_lost_is_given_back_to_it_before_it_leaves() {
    let (mut server, _, mut a, _, at_b) = two_sites();
    let backup = server.store.clone();
    let lost = say(&mut a, at_b, "after the backup");
    photograph(&mut a, at_b);
    upload(&mut server);
    sync(&mut a, &mut server);
    assert!(a.store().photo(PHOTO).unwrap().unwrap().held);
    // Nobody says that the office was put back; the device lost the site meanwhile.
    server.store = backup;
    narrow(&mut server, &a, &[A]);
    sync(&mut a, &mut server);
    assert!(server.store.entry(lost).unwrap().is_some());
    assert!(subjects(&a).contains(&at_b), "the photograph is to be sent again");
    assert!(!a.store().photo(PHOTO).unwrap().unwrap().held);
    upload(&mut server);
    assert!(sync(&mut a, &mut server).left.contains(&at_b));
}

#[test]
fn what_a_device_carries_of_a_site_it_was_never_given_stays() {
    let mut server = Server::new();
    let mut b = device(1, &mut server, Role::Operator, sites(&[B]));
    let mut mule = device(2, &mut server, Role::Operator, sites(&[A]));
    let at_b = open(&mut b, "ZZQX 2", B);
    mule.carry_in(&b.carry_out(&[at_b], vec![]).unwrap()).unwrap();
    for _ in 0..2 {
        assert_eq!(sync(&mut mule, &mut server).left, []);
    }
    assert_eq!(subjects(&mule), BTreeSet::from([at_b]));
    assert!(server.store.holds_any_of(at_b).unwrap(), "it brought them to the office");
}

#[test]
fn a_device_that_was_narrowed_before_it_kept_note_of_its_sites_reads_them_in_its_certificate() {
    let (mut server, _, a, at_a, at_b) = two_sites();
    let mut late = phone(3, &mut server);
    let all = a.store().subjects().unwrap();
    late.carry_in(&a.carry_out(&all, vec![]).unwrap()).unwrap();
    narrow(&mut server, &late, &[A]);
    let certificate = server.store.certificate(late.device()).unwrap().unwrap();
    let last = LastEntry { seq: 0, entry: EntryId([0; 32]) };
    let before = EarlierGrant { role: Role::Operator, sites: sites(&[A, B]), rights: None, last };
    let certificate = Certificate {
        earlier: vec![before],
        ..Certificate::open(&certificate, &server.key.public()).unwrap()
    };
    let bytes = certificate.seal(&server.key).unwrap();
    server.store.commit(&[Write::Certificate { device: late.device(), bytes: &bytes }]).unwrap();
    late.enrolled(server.key.public(), &bytes).unwrap();
    sync(&mut late, &mut server);
    assert!(subjects(&late).contains(&at_a) && !subjects(&late).contains(&at_b));
}

#[test]
fn a_device_that_is_given_nothing_keeps_what_it_records_and_what_was_handed_to_it() {
    for role in [Role::Inspector, Role::Operator] {
        let (mut server, _, mut a, at_a, at_b) = two_sites();
        let before = certify(&mut server, a.device(), role, sites(&[A]));
        let rights = (role == Role::Operator).then(|| vec![Right::Record]);
        let certificate = Certificate { rights, ..Certificate::open(&before, &server.key.public()).unwrap() };
        let bytes = certificate.seal(&server.key).unwrap();
        server.store.commit(&[Write::Certificate { device: a.device(), bytes: &bytes }]).unwrap();
        assert_eq!(Scope::of(&certificate), Scope::Nothing);
        for _ in 0..2 {
            assert_eq!(sync(&mut a, &mut server).left, []);
        }
        assert!(subjects(&a).contains(&at_a) && subjects(&a).contains(&at_b));
    }
}

#[test]
fn asking_in_passing_goes_round_all_there_is_and_a_lost_question_is_asked_again() {
    let mut server = Server::new();
    let mut a = device(2, &mut server, Role::Operator, sites(&[A]));
    let mut outside: BTreeSet<EntryId> =
        (0..70).map(|n| say(&mut a, VISIT, &format!("remark {n}"))).collect();
    sync(&mut a, &mut server);
    let mut ask = |a: &mut Book, arrives: bool| {
        let mut session = a.sync_session().unwrap();
        let request = a.sync_request(&mut session).unwrap();
        let message = parts(&request).unwrap();
        let head = super::wire::open_request(&message, &a.device()).unwrap();
        let bulk: RequestBulk = open_bulk(&message, head.bulk, LARGEST_BULK).unwrap();
        let reply = server.answer(&request).unwrap().reply;
        if arrives {
            assert_eq!(a.sync_receive(&mut session, &reply).unwrap(), Step::Done);
        }
        bulk.asks
    };
    let lost = ask(&mut a, false);
    assert_eq!(lost.len(), 64);
    assert_eq!(ask(&mut a, true), lost);
    let next = ask(&mut a, true);
    assert_ne!(next, lost);
    lost.iter().chain(&next).for_each(|id| assert!(outside.remove(id) || lost.contains(id)));
    assert!(outside.is_empty(), "two answers go round 70 entries");
}

/// A device's entry in a visit and its car, with the change of each document.
fn in_two_documents(book: &mut Book, visit: Subject) -> (EntryId, Vec<(Subject, Vec<u8>)>) {
    let made = book.append(visit, vec![Draft::of(defect(9, "a worn thread"))], &by()).unwrap()[0];
    let subjects = book.store().scopes().standings_of(made).unwrap();
    assert_eq!(subjects.len(), 2);
    let last = |subject: Subject| book.store().changes_of(subject).unwrap().rows.pop().unwrap().bytes;
    (made, subjects.into_iter().map(|subject| (subject, last(subject))).collect())
}

#[test]
fn an_office_put_back_in_silence_is_brought_an_entry_it_has_in_one_of_two_documents_alone() {
    for kept in 0..2 {
        let mut server = Server::new();
        let mut a = phone(1, &mut server);
        let visit = open(&mut a, "ZZQX 1", A);
        sync(&mut a, &mut server);
        let backup = server.store.clone();
        let (entry, changes) = in_two_documents(&mut a, visit);
        sync(&mut a, &mut server);
        // Since the copy was put back, the entry came again in one of its documents.
        server.store = backup;
        let (subject, bytes) = &changes[kept];
        let checked = CheckedChange::check(bytes, *subject).unwrap();
        server.store.commit(&writes_of(&checked, *subject, true)).unwrap();
        assert_eq!(server.store.tally().unwrap(), a.store().tally().unwrap(), "it counts the same entries");
        assert!(sync(&mut a, &mut server).reconciled);
        assert_eq!(server.store.scopes().standings_of(entry).unwrap().len(), 2);
        let report = sync(&mut a, &mut server);
        assert_eq!((report.rounds, report.reconciled), (1, false), "and then they agree");
    }
}

#[test]
fn a_device_that_lacks_an_entry_in_one_of_its_two_documents_is_brought_it() {
    for kept in 0..2 {
        let mut server = Server::new();
        let (mut a, mut b) = (phone(1, &mut server), phone(2, &mut server));
        let visit = open(&mut a, "ZZQX 1", A);
        sync(&mut a, &mut server);
        sync(&mut b, &mut server);
        let (entry, changes) = in_two_documents(&mut a, visit);
        // The office hands out places in its feed again that the device read before it was put back.
        sync(&mut a, &mut server);
        let (subject, bytes) = &changes[kept];
        let checked = CheckedChange::check(bytes, *subject).unwrap();
        b.store_mut().commit(&writes_of(&checked, *subject, true)).unwrap();
        let newest = server.store.newest_position().unwrap();
        let cursor = [server.epoch.to_be_bytes(), newest.to_be_bytes()].concat();
        b.store_mut().commit(&[Write::Value { key: "sync/cursor", value: &cursor }]).unwrap();
        assert!(sync(&mut b, &mut server).reconciled);
        assert_eq!(b.store().scopes().standings_of(entry).unwrap().len(), 2);
        check_holds_its_scope(&b, &server, &Scope::Everything);
    }
}

#[test]
fn a_reply_of_before_says_nothing_of_documents_and_is_understood() {
    let head = crate::log::ReplyHead {
        request: [1; 16],
        at: UtcMillis(5),
        cursor: wire::Cursor { epoch: 1, position: 2 },
        count: 3,
        sum: [4; 16],
        covers: None,
        delivers: None,
        bulk: None,
        revoked: false,
        old_number: None,
        machine: None,
        asker_ahead: None,
        standings: None,
    };
    let before = crate::entry::cbor::encode(&head).unwrap();
    assert_eq!(crate::entry::cbor::decode::<crate::log::ReplyHead>(&before).unwrap(), head);
    let with = crate::log::ReplyHead { standings: Some(serde_bytes::ByteArray::new([9; 4])), ..head.clone() };
    let now = crate::entry::cbor::encode(&with).unwrap();
    assert_eq!(now.len(), before.len() + 7, "two letters and four bytes more on every idle round");
    /// What a device of before reads.
    #[derive(serde::Deserialize)]
    struct Before {
        #[serde(rename = "n")]
        count: u64,
    }
    assert_eq!(crate::entry::cbor::decode::<Before>(&now).unwrap().count, 3);
}
