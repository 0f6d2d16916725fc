//! Tests of devices that receive the records of some sites or of none: what reaches them, what never does,
//! and that every device ends with the same records as the office, whatever happens in between.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a failed unwrap is a failed test")]

use std::collections::BTreeSet;

use proptest::prelude::*;

use super::tests::{Server, VISIT, phone, texts, write};
use super::wire::{
    Change, LARGEST_BULK, ReplyBulk, ReplyHead, RequestBulk, RequestHead, inflate, open_bulk, parts,
    seal_request,
};
use super::*;
use crate::book::{Book, Draft, OpenVisit};
use crate::clock::UtcMillis;
use crate::document::{CheckedChange, Document, ReconcileState};
use crate::entry::car_number::CarNumber;
use crate::entry::vocabulary::Receiver;
use crate::entry::{Certificate, Defect, DeviceKey, Opened, Role, Statement};
use crate::ids::{DefectId, DeviceId, Digest, EntryId, OperatorId, OrganisationId, SiteId, Subject, VisitId};
use crate::store::writes_of;
use crate::store::{MemoryStore, Scope, Store, Write};
use farsiding_testkit::Dice;

pub(super) const A: SiteId = SiteId([0xa; 16]);
pub(super) const B: SiteId = SiteId([0xb; 16]);
pub(super) const ROSTER: Subject = Subject::Roster(OrganisationId([1; 16]));

pub(super) fn sites(of: &[SiteId]) -> Option<Vec<SiteId>> {
    Some(of.to_vec())
}

/// The office issues a new certificate for a device.
pub(super) fn certify(
    server: &mut Server,
    device: DeviceId,
    role: Role,
    sites: Option<Vec<SiteId>>,
) -> Vec<u8> {
    server.certify(device, false); // raises the list's version
    let version = server.store.value(CERTIFICATES_VERSION).unwrap().unwrap();
    let version = i64::from_be_bytes(version.try_into().unwrap());
    let certificate = Certificate {
        issuer: Some(server.key.public()),
        sites,
        renewed_at: Some(UtcMillis(version)),
        ..Certificate::by_role(OrganisationId([1; 16]), device, "phone", role, UtcMillis(0))
    };
    let bytes = certificate.seal(&server.key).unwrap();
    server.store.commit(&[Write::Certificate { device, bytes: &bytes }]).unwrap();
    bytes
}

pub(super) fn device(seed: u64, server: &mut Server, role: Role, sites: Option<Vec<SiteId>>) -> Book {
    let mut book = phone(seed, server);
    let certificate = certify(server, book.device(), role, sites);
    book.enrolled(server.key.public(), &certificate).unwrap();
    book
}

fn key_of(seed: u64) -> DeviceKey {
    let mut secret = [0u8; 32];
    Dice::of(seed % 100).fill(&mut secret);
    DeviceKey::from_secret(secret)
}

/// Everything that one side was sent, whether it was accepted or not.
#[derive(Debug, Default)]
pub(super) struct Told {
    pub(super) subjects: BTreeSet<Subject>,
    certificates: usize,
    bytes: Vec<u8>,
}

impl Told {
    fn add(&mut self, reply: &[u8], server: &Server) -> ReplyHead {
        let message = parts(reply).unwrap();
        let head = ReplyHead::open(&message.head, &server.key.public()).unwrap();
        let bulk: ReplyBulk = open_bulk(&message, head.bulk, LARGEST_BULK).unwrap();
        self.subjects.extend(bulk.changes.iter().chain(&bulk.messages).map(|change| change.subject));
        self.subjects.extend(bulk.survey.iter().map(|surveyed| surveyed.subject));
        self.certificates += bulk.certificates.map_or(0, |list| list.certificates.len());
        if head.bulk.is_some() {
            self.bytes.extend(inflate(&message.bulk, LARGEST_BULK).unwrap());
        }
        head
    }

    pub(super) fn says(&self, text: &str) -> bool {
        self.bytes.windows(text.len()).any(|window| window == text.as_bytes())
    }
}

pub(super) fn sync_told(book: &mut Book, server: &mut Server) -> (SyncReport, Told) {
    let mut session = book.sync_session().unwrap();
    let mut told = Told::default();
    for _ in 0..200 {
        let request = book.sync_request(&mut session).unwrap();
        let reply = server.answer(&request).unwrap().reply;
        told.add(&reply, server);
        if book.sync_receive(&mut session, &reply).unwrap() == Step::Done {
            return (session.report().clone(), told);
        }
    }
    panic!("no end of rounds: {:?}", session.report());
}

pub(super) fn sync(book: &mut Book, server: &mut Server) -> SyncReport {
    sync_told(book, server).0
}

pub(super) fn by() -> OperatorId {
    OperatorId("op-1".into())
}

pub(super) fn open(book: &mut Book, car: &str, site: SiteId) -> Subject {
    let visit = OpenVisit {
        car: car.into(),
        site,
        receiver: Receiver::FixedTank,
        procedure: Digest([3; 32]),
        spot: String::new(),
    };
    Subject::Visit(book.open_visit(visit, &by()).unwrap())
}

pub(super) fn say(book: &mut Book, subject: Subject, text: &str) -> EntryId {
    let says = Statement::Remark { text: text.into() };
    book.append(subject, vec![Draft::of(says)], &by()).unwrap()[0]
}

pub(super) fn defect(n: u8, what: &str) -> Statement {
    let defect = DefectId([n; 16]);
    Statement::Defect(Defect {
        defect,
        fitting: None,
        what: what.into(),
        needs_authority: false,
        photo: None,
    })
}

pub(super) fn car(number: &str) -> Subject {
    Subject::Car(CarNumber(number.into()).id())
}

pub(super) fn subjects(book: &Book) -> BTreeSet<Subject> {
    book.store().subjects().unwrap().into_iter().collect()
}

/// Asserts that a device holds exactly the office's records of its scope, has the same set digest, and has
/// all receipts.
pub(super) fn check_holds_its_scope(book: &Book, server: &Server, scope: &Scope) {
    let theirs = server.store.scopes().subjects_in(scope).unwrap();
    assert_eq!(book.store().scopes().subjects_in(scope).unwrap(), theirs);
    for subject in theirs {
        let ids = |store: &dyn Store| -> BTreeSet<EntryId> {
            store.entries_of(subject).unwrap().rows.into_iter().map(|row| row.id).collect()
        };
        assert_eq!(ids(book.store()), ids(&server.store), "{subject}");
    }
    let tally = |store: &dyn Store| store.scopes().tally_in(scope).unwrap();
    assert_eq!(tally(book.store()), tally(&server.store));
    assert_eq!(book.store().count_without_receipt().unwrap(), 0);
    assert!(book.store().changes_not_held(1).unwrap().is_empty());
}

pub(super) fn scope(of: &[SiteId]) -> Scope {
    Scope::Sites(of.iter().copied().collect())
}

#[test]
fn a_device_of_one_site_is_given_the_records_of_that_site_alone() {
    let mut server = Server::new();
    let mut office = device(1, &mut server, Role::Office, sites(&[]));
    let mut a = device(2, &mut server, Role::Operator, sites(&[A]));
    let mut b = device(3, &mut server, Role::Operator, sites(&[B]));
    say(&mut office, Subject::Site(A), "the tank of a");
    say(&mut office, Subject::Site(B), "the tank of b");
    say(&mut office, ROSTER, "the people");
    let (at_a, at_b) = (open(&mut a, "ZZQX 1", A), open(&mut b, "ZZQX 2", B));
    say(&mut a, at_a, "seen at a");
    say(&mut b, at_b, "seen at b");
    for _ in 0..2 {
        sync(&mut office, &mut server);
        let (_, told) = sync_told(&mut a, &mut server);
        assert!(!told.says("seen at b") && !told.says("the tank of b"), "no byte of another site");
        assert!(!told.subjects.contains(&at_b) && !told.subjects.contains(&Subject::Site(B)));
        let (_, told) = sync_told(&mut b, &mut server);
        assert!(!told.says("seen at a") && !told.says("the tank of a"));
    }
    assert_eq!(subjects(&a), BTreeSet::from([at_a, Subject::Site(A), ROSTER]));
    assert_eq!(subjects(&b), BTreeSet::from([at_b, Subject::Site(B), ROSTER]));
    assert_eq!(office.store().tally().unwrap(), server.store.tally().unwrap(), "the office has it all");
    check_holds_its_scope(&a, &server, &scope(&[A]));
    check_holds_its_scope(&b, &server, &scope(&[B]));
}

#[test]
fn what_is_known_of_a_car_is_there_when_it_comes_to_the_next_site_and_its_other_stays_are_not() {
    let mut server = Server::new();
    let mut a = device(2, &mut server, Role::Operator, sites(&[A]));
    let mut b = device(3, &mut server, Role::Operator, sites(&[B]));
    let at_a = open(&mut a, "ZZQX 1", A);
    a.append(at_a, vec![Draft::of(defect(1, "a bent handle"))], &by()).unwrap();
    say(&mut a, at_a, "seen at a");
    sync(&mut a, &mut server);
    assert_eq!(sync(&mut b, &mut server).received, 0);
    let at_b = open(&mut b, "ZZQX 1", B);
    sync(&mut b, &mut server);
    let (_, told) = sync_told(&mut b, &mut server);
    assert!(!told.says("seen at a"));
    assert_eq!(subjects(&b), BTreeSet::from([at_b, car("ZZQX 1")]));
    assert_eq!(b.store().entries_of(car("ZZQX 1")).unwrap().rows.len(), 1);
    // What the second site then records about the car reaches the first site.
    b.append(at_b, vec![Draft::of(defect(2, "a lost chain"))], &by()).unwrap();
    sync(&mut b, &mut server);
    assert_eq!(sync(&mut a, &mut server).received, 1);
    check_holds_its_scope(&a, &server, &scope(&[A]));
    check_holds_its_scope(&b, &server, &scope(&[B]));
}

#[test]
fn what_came_of_a_car_changed_the_documents_of_the_stay_and_of_the_car() {
    let mut server = Server::new();
    let mut there = device(1, &mut server, Role::Operator, None);
    let mut here = device(2, &mut server, Role::Operator, None);
    let visit = open(&mut there, "QZQX 204117", A);
    sync(&mut there, &mut server);
    sync(&mut here, &mut server);
    there.append(visit, vec![Draft::of(defect(1, "gland weeps"))], &by()).unwrap();
    sync(&mut there, &mut server);
    let touched: BTreeSet<Subject> = sync(&mut here, &mut server).touched.into_iter().collect();
    assert_eq!(touched, BTreeSet::from([visit, car("QZQX 204117")]));
    // And by hand.
    let mut third = device(3, &mut server, Role::Operator, None);
    let file = there.carry_out(&[visit, car("QZQX 204117")], Vec::new()).unwrap();
    let carried: BTreeSet<Subject> = third.carry_in(&file).unwrap().touched.into_iter().collect();
    assert!(carried.is_superset(&touched), "{carried:?}");
}

#[test]
fn a_stay_is_delivered_whole_once_it_is_known_where_it_is() {
    let mut server = Server::new();
    let mut office = device(1, &mut server, Role::Office, None);
    let mut a = device(2, &mut server, Role::Operator, sites(&[A]));
    write(&mut office, "nobody opened it yet");
    sync(&mut office, &mut server);
    assert_eq!(sync(&mut a, &mut server).received, 0);
    let says = Statement::Opened(opened("ZZQX 1", A));
    office.append(VISIT, vec![Draft::of(says)], &by()).unwrap();
    sync(&mut office, &mut server);
    let report = sync(&mut a, &mut server);
    assert_eq!((report.received, report.reconciled), (2, false), "by the ordinary way");
    check_holds_its_scope(&a, &server, &scope(&[A]));
}

fn opened(number: &str, site: SiteId) -> Opened {
    Opened {
        car: CarNumber(number.into()),
        site,
        receiver: Receiver::FixedTank,
        procedure: Digest([3; 32]),
        spot: String::new(),
        nonce: None,
    }
}

#[test]
fn a_stay_is_not_had_by_claiming_it_for_another_site() {
    let mut server = Server::new();
    let mut a = device(2, &mut server, Role::Operator, sites(&[A]));
    let mut b = device(3, &mut server, Role::Operator, sites(&[B]));
    let mut mate = device(4, &mut server, Role::Operator, sites(&[B]));
    let at_a = open(&mut a, "ZZQX 1", A);
    say(&mut a, at_a, "seen at a");
    sync(&mut a, &mut server);
    // Somebody at the other site read the visit's id in the car's document.
    let says = Statement::Opened(opened("ZZQX 1", B));
    b.append(at_a, vec![Draft::of(says)], &by()).unwrap();
    for book in [&mut b, &mut mate] {
        let mut session = book.sync_session().unwrap();
        for _ in 0..30 {
            let request = book.sync_request(&mut session).unwrap();
            let reply = server.answer(&request).unwrap().reply;
            let mut told = Told::default();
            told.add(&reply, &server);
            assert!(!told.says("seen at a") && !told.subjects.contains(&at_a));
            if book.sync_receive(&mut session, &reply).unwrap() == Step::Done {
                break;
            }
        }
    }
    assert!(!subjects(&mate).contains(&at_a));
    sync(&mut a, &mut server);
    check_holds_its_scope(&a, &server, &scope(&[A]));
}

#[test]
fn a_device_gains_a_site_and_loses_another() {
    let mut server = Server::new();
    let mut office = device(1, &mut server, Role::Office, None);
    let mut a = device(2, &mut server, Role::Operator, sites(&[A]));
    let (at_a, at_b) = (open(&mut office, "ZZQX 1", A), open(&mut office, "ZZQX 2", B));
    say(&mut office, at_b, "long before");
    sync(&mut office, &mut server);
    sync(&mut a, &mut server);
    assert_eq!(subjects(&a), BTreeSet::from([at_a]));
    certify(&mut server, a.device(), Role::Operator, sites(&[A, B]));
    sync(&mut a, &mut server);
    assert_eq!(subjects(&a), BTreeSet::from([at_a, at_b]));
    check_holds_its_scope(&a, &server, &scope(&[A, B]));
    assert!(!sync(&mut a, &mut server).reconciled, "compared once");
    certify(&mut server, a.device(), Role::Operator, sites(&[B]));
    say(&mut office, at_a, "after it left");
    say(&mut office, at_b, "where it is now");
    sync(&mut office, &mut server);
    let (_, told) = sync_told(&mut a, &mut server);
    assert!(told.says("where it is now") && !told.says("after it left"));
    assert!(!subjects(&a).contains(&at_a), "what the office holds of it left");
    check_holds_its_scope(&a, &server, &scope(&[B]));
    // Entries that the device records about the site it lost are still accepted and receipted.
    say(&mut a, at_a, "a last word");
    assert_eq!(sync(&mut a, &mut server).receipted, 1);
    assert!(!sync(&mut a, &mut server).reconciled);
    let office = (Role::Office, None, Scope::Everything); // and then an operator's role again
    for (role, of, scope) in [office, (Role::Operator, sites(&[A]), scope(&[A]))] {
        certify(&mut server, a.device(), role, of);
        sync(&mut a, &mut server);
        check_holds_its_scope(&a, &server, &scope);
    }
    assert_eq!(subjects(&a), BTreeSet::from([at_a]));
}

#[test]
fn an_inspectors_device_receives_nothing_and_its_own_round_is_answered() {
    let mut server = Server::new();
    let mut office = device(1, &mut server, Role::Office, None);
    // The device recorded while it still had the right to, and became an inspector's before its next sync.
    let mut inspector = device(2, &mut server, Role::Operator, None);
    let at_a = open(&mut office, "ZZQX 1", A);
    say(&mut office, ROSTER, "the people");
    sync(&mut office, &mut server);
    say(&mut inspector, at_a, "looked at it");
    let certificate = certify(&mut server, inspector.device(), Role::Inspector, sites(&[A]));
    inspector.enrolled(server.key.public(), &certificate).unwrap();
    let (report, told) = sync_told(&mut inspector, &mut server);
    assert_eq!((report.receipted, report.received), (1, 0));
    assert_eq!((told.subjects, told.certificates), (BTreeSet::new(), 1));
    let (report, told) = sync_told(&mut inspector, &mut server);
    assert_eq!((report.rounds, told.bytes.len()), (1, 0));
    assert_eq!(server.store.entries_of(at_a).unwrap().rows.len(), 2);
}

#[test]
fn nothing_is_told_of_other_sites_to_whoever_asks_for_it() {
    let mut server = Server::new();
    let mut a = device(2, &mut server, Role::Operator, sites(&[A]));
    let mut b = device(3, &mut server, Role::Operator, sites(&[B]));
    let inspector = device(4, &mut server, Role::Inspector, None);
    let (at_a, at_b) = (open(&mut a, "ZZQX 1", A), open(&mut b, "ZZQX 2", B));
    say(&mut b, at_b, "seen at b");
    sync(&mut a, &mut server);
    sync(&mut b, &mut server);
    let empty = Document::new([5; 16]).unwrap();
    let asks = empty.reconcile_message(&mut ReconcileState::default()).unwrap();
    for (seed, own) in [(2, BTreeSet::from([at_a])), (4, BTreeSet::new())] {
        for cursor in [None, Some(wire::Cursor { epoch: server.epoch, position: 0 })] {
            let bulk = RequestBulk {
                survey: cursor.is_none(),
                whole: if cursor.is_none() { vec![at_a, at_b] } else { vec![] },
                messages: match cursor {
                    None => vec![Change { subject: at_b, bytes: asks.clone() }],
                    Some(_) => vec![],
                },
                ..RequestBulk::default()
            };
            let number = 1_000 + u64::from(cursor.is_some());
            let head = RequestHead {
                number,
                cursor,
                certificates: 0,
                at: UtcMillis(0),
                bulk: None,
                statement: None,
            };
            let reply = server.answer(&seal_request(head, &bulk, &key_of(seed)).unwrap()).unwrap().reply;
            let mut told = Told::default();
            let head = told.add(&reply, &server);
            assert!(!told.says("seen at b"));
            assert!(told.subjects.is_subset(&own), "{:?}", told.subjects);
            assert!(head.count <= own.len() as u64, "nor how much there is");
        }
    }
    assert_eq!(inspector.device(), key_of(4).public());
}

#[test]
fn a_device_of_one_site_costs_no_more_than_one_of_all() {
    let mut server = Server::new();
    let mut a = device(2, &mut server, Role::Operator, sites(&[A]));
    let at_a = open(&mut a, "ZZQX 1", A);
    sync(&mut a, &mut server);
    let mut one_round = |a: &mut Book| {
        let mut session = a.sync_session().unwrap();
        let request = a.sync_request(&mut session).unwrap();
        let reply = server.answer(&request).unwrap().reply;
        assert_eq!(a.sync_receive(&mut session, &reply).unwrap(), Step::Done);
        request.len() + reply.len()
    };
    one_round(&mut a);
    let idle = one_round(&mut a);
    println!("idle, one site: {idle} bytes");
    assert!(idle <= 300, "{idle} bytes");
    say(&mut a, at_a, "one more");
    let one = one_round(&mut a);
    println!("one entry, one site: {one} bytes");
    assert!(one <= 900, "{one} bytes");
}

#[test]
fn a_long_first_sync_of_one_site_goes_in_pages_and_brings_no_more_than_that_site() {
    let mut server = Server::new();
    let mut office = device(1, &mut server, Role::Office, None);
    let mut dice = Dice::of(5);
    for n in 0..40 {
        let site = if n % 4 == 0 { A } else { B };
        let visit = open(&mut office, &format!("ZZQX {n}"), site);
        let mut noise = [0u8; 12_000];
        dice.fill(&mut noise);
        say(&mut office, visit, &noise.map(|byte| format!("{byte:02x}")).concat());
    }
    sync(&mut office, &mut server);
    let mut a = device(2, &mut server, Role::Operator, sites(&[A]));
    let mut both = device(3, &mut server, Role::Operator, sites(&[A, B]));
    let (report, told) = sync_told(&mut a, &mut server);
    assert_eq!((report.received, report.reconciled), (20, false));
    let (report, all) = sync_told(&mut both, &mut server);
    assert_eq!((report.received, report.reconciled), (80, false));
    assert!(report.rounds > 2 && all.bytes.len() > 3 * told.bytes.len());
    check_holds_its_scope(&a, &server, &scope(&[A]));
    check_holds_its_scope(&both, &server, &scope(&[A, B]));
}

#[test]
fn an_office_put_back_from_a_copy_is_brought_what_only_a_device_of_another_site_still_has() {
    let mut server = Server::new();
    let mut a = device(2, &mut server, Role::Operator, sites(&[A]));
    let backup = server.store.clone();
    let at_a = open(&mut a, "ZZQX 1", A);
    sync(&mut a, &mut server);
    server.store = backup;
    server.epoch = 2;
    certify(&mut server, a.device(), Role::Operator, sites(&[B]));
    sync(&mut a, &mut server);
    assert_eq!(server.store.entries_of(at_a).unwrap().rows.len(), 1);
    assert!(!sync(&mut a, &mut server).reconciled);
    assert!(a.store().changes_not_held(1).unwrap().is_empty());
}

#[test]
fn an_office_put_back_without_saying_so_is_brought_what_lies_outside_the_sites_of_the_device_that_has_it() {
    let mut server = Server::new();
    let mut a = device(2, &mut server, Role::Operator, sites(&[B])); // what it carries of another site stays
    let at_a = open(&mut a, "ZZQX 1", A);
    let backup = server.store.clone();
    sync(&mut a, &mut server);
    // An only entry outside of the sites is asked about at every sync, however often it was before.
    let certified = server.store.clone();
    for copy in [&backup, &certified, &backup, &backup] {
        server.store = copy.clone();
        certify(&mut server, a.device(), Role::Operator, sites(&[B]));
        sync(&mut a, &mut server);
        assert_eq!(server.store.entries_of(at_a).unwrap().rows.len(), 1);
        assert!(a.store().changes_not_held(1).unwrap().is_empty());
    }
}

#[test]
fn an_office_put_back_again_while_records_are_compared_is_asked_again_about_all_it_confirmed() {
    let mut server = Server::new();
    let mut a = device(2, &mut server, Role::Operator, sites(&[A]));
    let mut office = device(1, &mut server, Role::Office, None);
    let backup = server.store.clone();
    sync(&mut a, &mut server);
    let remark = say(&mut a, VISIT, "outside of all sites");
    let sha256 = Digest([7; 32]);
    let photo = Write::Photo { sha256, length: 9, media: "image/jpeg", here: true, held: false };
    a.store_mut().commit(std::slice::from_ref(&photo)).unwrap();
    server.store = backup.clone();
    server.epoch = 2;
    server.store.commit(&[photo]).unwrap();
    say(&mut office, Subject::Site(A), "the tank of a");
    sync(&mut office, &mut server);
    // The entry is sent and the photograph confirmed, then the records are compared: one document differs.
    let mut session = a.sync_session().unwrap();
    for _ in 0..2 {
        let request = a.sync_request(&mut session).unwrap();
        let reply = server.answer(&request).unwrap().reply;
        assert_eq!(a.sync_receive(&mut session, &reply).unwrap(), Step::Again);
    }
    assert!(server.store.entry(remark).unwrap().is_some());
    assert!(a.store().photo(sha256).unwrap().unwrap().held);
    server.store = backup;
    server.epoch = 3;
    let done = (0..20).any(|_| {
        let request = a.sync_request(&mut session).unwrap();
        let reply = server.answer(&request).unwrap().reply;
        a.sync_receive(&mut session, &reply).unwrap() == Step::Done
    });
    assert!(done, "the rounds come to an end");
    assert!(server.store.entry(remark).unwrap().is_some(), "the office lacks an entry");
    assert!(!a.store().photo(sha256).unwrap().unwrap().held, "the photograph is sent again");
}

#[test]
fn what_others_bring_while_records_are_compared_is_read_in_all_its_documents() {
    let mut server = Server::new();
    let (mut a, mut b) = (phone(1, &mut server), phone(2, &mut server));
    sync(&mut a, &mut server);
    server.epoch = 2;
    let visit = open(&mut b, "ZZQX 1", A);
    sync(&mut b, &mut server);
    let mut session = a.sync_session().unwrap();
    for _ in 0..2 {
        let request = a.sync_request(&mut session).unwrap();
        let reply = server.answer(&request).unwrap().reply;
        assert_eq!(a.sync_receive(&mut session, &reply).unwrap(), Step::Again);
    }
    // The entry stands in the document of the visit, which is compared already, and in that of the car.
    b.append(visit, vec![Draft::of(defect(1, "a bent handle"))], &by()).unwrap();
    sync(&mut b, &mut server);
    assert!(server.store.subjects().unwrap().contains(&car("ZZQX 1")));
    let done = (0..20).any(|_| {
        let request = a.sync_request(&mut session).unwrap();
        let reply = server.answer(&request).unwrap().reply;
        a.sync_receive(&mut session, &reply).unwrap() == Step::Done
    });
    assert!(done, "the rounds come to an end");
    sync(&mut a, &mut server);
    check_holds_its_scope(&a, &server, &Scope::Everything);
}

#[test]
fn a_change_offered_under_two_documents_stands_in_both_everywhere() {
    let mut server = Server::new();
    let (mut a, mut b) = (phone(1, &mut server), phone(2, &mut server));
    // The first change of a document that was not opened here concerns the car, and is also the first change
    // of the car's document.
    let mut document = Document::new([9; 16]).unwrap();
    let made = a.sketch(VISIT, vec![Draft::of(defect(1, "a bent handle"))], &by()).unwrap();
    let change = document.add(&made).unwrap().unwrap();
    for subject in [VISIT, car("ZZQX 1")] {
        let checked = CheckedChange::check(&change, subject).unwrap();
        a.store_mut().commit(&writes_of(&checked, subject, false)).unwrap();
    }
    sync(&mut a, &mut server);
    let report = sync(&mut b, &mut server);
    assert!(!report.reconciled);
    for store in [a.store(), &server.store as &dyn Store, b.store()] {
        assert_eq!(store.subjects().unwrap(), [car("ZZQX 1"), VISIT]);
        for subject in [VISIT, car("ZZQX 1")] {
            assert_eq!(store.changes_of(subject).unwrap().rows.len(), 1);
            assert_eq!(store.entries_of(subject).unwrap().rows.len(), 1);
        }
    }
    // The comparison of records finds no difference.
    server.epoch = 2;
    for book in [&mut a, &mut b] {
        let report = sync(book, &mut server);
        assert_eq!((report.reconciled, report.differing), (true, vec![]));
    }
}

#[test]
fn one_document_that_still_differs_stops_nothing_else() {
    let mut server = Server::new();
    let (mut a, mut b) = (phone(1, &mut server), phone(2, &mut server));
    write(&mut a, "whole");
    sync(&mut a, &mut server);
    // The entry's row exists without its change, so no message can bring it to the office.
    let stuck = Subject::Visit(VisitId([9; 16]));
    let says = Statement::Remark { text: "stuck".into() };
    let made = a.sketch(stuck, vec![Draft::of(says)], &by()).unwrap();
    a.store_mut().commit(&[Write::Entry { subject: stuck, entry: &made[0] }]).unwrap();
    let sha256 = Digest([7; 32]);
    let photo = Write::Photo { sha256, length: 9, media: "image/jpeg", here: true, held: false };
    a.store_mut().commit(std::slice::from_ref(&photo)).unwrap();
    server.store.commit(&[photo]).unwrap();
    write(&mut b, "from b");
    sync(&mut b, &mut server);
    write(&mut a, "and after");
    let report = sync(&mut a, &mut server);
    assert_eq!(report.differing, [stuck]);
    assert_eq!(texts(a.store()), ["and after", "from b", "whole"]);
    assert_eq!(a.store().entries_without_receipt(9).unwrap(), [made[0].id]);
    assert!(a.store().photo(sha256).unwrap().unwrap().held);
    assert!(sync(&mut b, &mut server).differing.is_empty(), "and nobody else hears of it");
}

#[test]
fn a_carried_certificate_is_taken_when_it_is_the_newer_and_never_takes_a_revocation_back() {
    let mut server = Server::new();
    let (mut a, mut b) = (phone(1, &mut server), phone(2, &mut server));
    let other = DeviceId([7; 32]);
    let plain = server.certify(other, false);
    let narrowed = certify(&mut server, other, Role::Operator, sites(&[A]));
    let revoked = server.certify(other, true);
    let forged = Certificate { issuer: None, ..Certificate::open(&revoked, &server.key.public()).unwrap() };
    let forged = forged.seal(&crate::entry::OrganisationKey::from_secret([9; 32])).unwrap();
    let mut hand = |certificate: &[u8]| {
        a.store_mut().commit(&[Write::Certificate { device: other, bytes: certificate }]).unwrap();
        let file = a.carry_out(&[], vec![]).unwrap();
        b.carry_in(&file).unwrap();
        b.store().certificate(other).unwrap()
    };
    assert_eq!(hand(&forged), None, "not the organisation's word");
    assert_eq!(hand(&plain).unwrap(), plain);
    assert_eq!(hand(&narrowed).unwrap(), narrowed);
    assert_eq!(hand(&plain).unwrap(), narrowed, "an older one replaces nothing");
    assert_eq!(hand(&forged).unwrap(), narrowed);
    assert_eq!(hand(&revoked).unwrap(), revoked);
    assert_eq!(hand(&narrowed).unwrap(), revoked, "once revoked stays revoked");
    // Nor does a server that was restored from a backup and does not know of the revocation.
    server.certify(other, false);
    sync(&mut b, &mut server);
    assert_eq!(b.store().certificate(other).unwrap().unwrap(), revoked);
}

/// One event among devices of several sites.
#[derive(Debug, Clone)]
enum Event {
    Open { device: usize, car: u8, site: usize },
    Say { device: usize, visit: usize, follows_the_car: bool },
    Claim { device: usize, visit: usize, site: usize },
    Round { device: usize, arrives: bool },
    Carry { from: usize, to: usize },
    Give { device: usize, sites: u8 },
    PutBack,
    BackUp,
}

const DEVICES: usize = 4;

fn event() -> impl Strategy<Value = Event> {
    let device = 0..DEVICES;
    prop_oneof![
        2 => (device.clone(), 0..3u8, 0..3usize).prop_map(|(device, car, site)| Event::Open { device, car, site }),
        4 => (device.clone(), 0..8usize, any::<bool>())
            .prop_map(|(device, visit, follows_the_car)| Event::Say { device, visit, follows_the_car }),
        1 => (device.clone(), 0..8usize, 0..3usize)
            .prop_map(|(device, visit, site)| Event::Claim { device, visit, site }),
        8 => (device.clone(), prop::bool::weighted(0.8))
            .prop_map(|(device, arrives)| Event::Round { device, arrives }),
        1 => (device.clone(), device.clone()).prop_map(|(from, to)| Event::Carry { from, to }),
        1 => (device.clone(), 0..8u8).prop_map(|(device, sites)| Event::Give { device, sites }),
        1 => Just(Event::PutBack),
        1 => Just(Event::BackUp),
    ]
}

/// All devices, their certificates, and a log of what each was sent.
struct World {
    server: Server,
    backup: MemoryStore,
    books: Vec<Book>,
    sessions: Vec<Option<Session>>,
    given: Vec<Option<Vec<SiteId>>>,
    visits: Vec<Subject>,
}

impl World {
    fn new() -> World {
        let mut server = Server::new();
        let given = vec![None, sites(&[A]), sites(&[A, B]), sites(&[B])];
        let books =
            (1..).zip(&given).map(|(n, of)| device(n, &mut server, Role::Operator, of.clone())).collect();
        let sessions = (0..DEVICES).map(|_| None).collect();
        let backup = server.store.clone();
        World { server, backup, books, sessions, given, visits: vec![VISIT] }
    }

    fn scope(&self, device: usize) -> Scope {
        self.given[device].as_ref().map_or(Scope::Everything, |of| scope(of))
    }

    fn play(&mut self, event: &Event) {
        let places = [A, B, SiteId([0xc; 16])];
        match *event {
            Event::Open { device, car, site } => {
                let number = format!("ZZQX {car}");
                self.visits.push(open(&mut self.books[device], &number, places[site]));
            }
            Event::Say { device, visit, follows_the_car } => {
                let visit = self.visits[visit % self.visits.len()];
                let says = if follows_the_car {
                    defect(device as u8, "a bent handle")
                } else {
                    Statement::Remark { text: "a remark".into() }
                };
                self.books[device].append(visit, vec![Draft::of(says)], &by()).unwrap();
            }
            Event::Claim { device, visit, site } => {
                let visit = self.visits[visit % self.visits.len()];
                let says = Statement::Opened(opened("ZZQX 9", places[site]));
                self.books[device].append(visit, vec![Draft::of(says)], &by()).unwrap();
            }
            Event::Round { device, arrives } => {
                self.round(device, arrives);
            }
            Event::Carry { from, to } => {
                let all = self.books[from].store().subjects().unwrap();
                let file = self.books[from].carry_out(&all, vec![]).unwrap();
                self.books[to].carry_in(&file).unwrap();
            }
            Event::Give { device, sites: of } => {
                let of: Vec<SiteId> =
                    (0..3).filter(|bit| of & (1 << bit) != 0).map(|bit| places[bit]).collect();
                if device > 0 {
                    let id = self.books[device].device();
                    certify(&mut self.server, id, Role::Operator, sites(&of));
                    self.given[device] = sites(&of);
                }
            }
            Event::BackUp => self.backup = self.server.store.clone(),
            Event::PutBack => {
                let version = self.server.store.value(CERTIFICATES_VERSION).unwrap().unwrap();
                let certificates = self.server.store.certificates().unwrap();
                self.server.store = self.backup.clone();
                self.server.epoch += 1;
                for (device, bytes) in certificates {
                    self.server.store.commit(&[Write::Certificate { device, bytes: &bytes }]).unwrap();
                }
                let version = Write::Value { key: CERTIFICATES_VERSION, value: &version };
                self.server.store.commit(&[version]).unwrap();
            }
        }
    }

    fn round(&mut self, device: usize, arrives: bool) -> bool {
        let book = &mut self.books[device];
        let mut session = self.sessions[device].take().unwrap_or_else(|| book.sync_session().unwrap());
        let request = book.sync_request(&mut session).unwrap();
        let reply = self.server.answer(&request).unwrap().reply;
        let mut told = Told::default();
        told.add(&reply, &self.server);
        let scope = self.scope(device);
        for subject in told.subjects {
            assert!(self.server.store.scopes().is_in(subject, &scope).unwrap(), "told of {subject}");
        }
        if arrives && self.books[device].sync_receive(&mut session, &reply).unwrap() == Step::Done {
            return true;
        }
        self.sessions[device] = Some(session);
        false
    }

    fn make_quiet(&mut self) {
        for _ in 0..3 {
            for device in 0..DEVICES {
                self.sessions[device] = None;
                assert!((0..80).any(|_| self.round(device, true)), "device {device} came to no end");
            }
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]
    #[test]
    fn devices_of_any_sites_come_to_hold_what_is_theirs_and_are_told_of_nothing_else(
        events in prop::collection::vec(event(), 1..60),
    ) {
        let mut world = World::new();
        events.iter().for_each(|event| world.play(event));
        world.make_quiet();
        let claimed = events.iter().any(|event| matches!(event, Event::Claim { .. }));
        for device in 0..DEVICES {
            let book = &world.books[device];
            // A visit that only this device claims for its own site belongs to another site at the office, so
            // the two may differ.
            if !claimed {
                check_holds_its_scope(book, &world.server, &world.scope(device));
            }
            for subject in book.store().subjects().unwrap() {
                for row in book.store().entries_of(subject).unwrap().rows {
                    prop_assert!(world.server.store.entry(row.id).unwrap().is_some(), "the office lacks an entry");
                    prop_assert!(book.store().entry(row.id).unwrap().unwrap().receipted);
                }
            }
        }
        prop_assert_eq!(world.books[0].store().tally().unwrap(), world.server.store.tally().unwrap());
    }
}
