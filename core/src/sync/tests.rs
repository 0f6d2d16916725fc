//! Tests of rounds between devices and a server, all in memory, including every way in which a round can
//! fail.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a failed unwrap is a failed test")]

use super::wire::{
    DEFLATE_DICTIONARY, LARGEST_BULK, ReplyBulk, ReplyHead, inflate, open_bulk, parts, seal_reply,
};
use super::*;
use crate::book::{Book, BookError, BookParts, Draft};
use crate::clock::{HandSetClock, UtcMillis};
use crate::entry::vocabulary::{Measured, Place, Purpose};
use crate::entry::{Certificate, OrganisationKey, Reading, Role, Statement};
use crate::ids::{DeviceId, EntryId, OperatorId, OrganisationId, Subject, VisitId};
use crate::store::{MemoryStore, Store, Write};
use crate::tree::tree_of;
use crate::units::{Amount, Unit};
use farsiding_testkit::Dice;

pub(super) const VISIT: Subject = Subject::Visit(VisitId([7; 16]));

pub(super) struct Server {
    pub(super) store: MemoryStore,
    pub(super) key: OrganisationKey,
    pub(super) epoch: u64,
}

impl Server {
    pub(super) fn new() -> Server {
        Server { store: MemoryStore::new(), key: OrganisationKey::from_secret([42; 32]), epoch: 1 }
    }

    pub(super) fn certify(&mut self, device: DeviceId, revoked: bool) -> Vec<u8> {
        let certificate = Certificate {
            revoked_at: revoked.then_some(UtcMillis(5)),
            ..Certificate::by_role(OrganisationId([1; 16]), device, "phone", Role::Operator, UtcMillis(0))
        };
        let bytes = certificate.seal(&self.key).unwrap();
        let version = self.store.value(CERTIFICATES_VERSION).unwrap();
        let version = version.map_or(1, |v| u64::from_be_bytes(v.try_into().unwrap()) + 1);
        self.store
            .commit(&[
                Write::Certificate { device, bytes: &bytes },
                Write::Value { key: CERTIFICATES_VERSION, value: &version.to_be_bytes() },
            ])
            .unwrap();
        bytes
    }

    pub(super) fn answer(&mut self, request: &[u8]) -> Result<Answer, AnswerError> {
        Answerer::new(&mut self.store, &self.key, self.epoch).answer(request, UtcMillis(1_000_000))
    }
}

pub(super) fn phone(seed: u64, server: &mut Server) -> Book {
    book_on(MemoryStore::new(), seed, server)
}

fn book_on(store: MemoryStore, seed: u64, server: &mut Server) -> Book {
    let mut dice = Dice::of(seed);
    let mut secret = [0u8; 32];
    Dice::of(seed % 100).fill(&mut secret);
    dice.fill(&mut [0; 8]);
    let mut book = Book::open(BookParts {
        store: Box::new(store),
        key: crate::entry::DeviceKey::from_secret(secret),
        clock: Box::new(HandSetClock::at(UtcMillis(1_000_500), -360)),
        randomness: Box::new(dice),
    });
    let certificate = server.certify(book.device(), false);
    book.enrolled(server.key.public(), &certificate).unwrap();
    book
}

pub(super) fn write(book: &mut Book, text: &str) {
    let says = Statement::Remark { text: text.to_owned() };
    book.append(VISIT, vec![Draft::of(says)], &OperatorId("op-1".into())).unwrap();
}

pub(super) fn sync(book: &mut Book, server: &mut Server) -> SyncReport {
    let mut session = book.sync_session().unwrap();
    for _ in 0..200 {
        let request = book.sync_request(&mut session).unwrap();
        let answer = server.answer(&request).unwrap();
        if book.sync_receive(&mut session, &answer.reply).unwrap() == Step::Done {
            return session.report().clone();
        }
    }
    panic!("no end of rounds");
}

pub(super) fn texts(store: &dyn Store) -> Vec<String> {
    let mut texts: Vec<String> = store
        .entries_of(VISIT)
        .unwrap()
        .rows
        .into_iter()
        .map(|row| match crate::entry::Entry::open(&row.bytes).unwrap().body.says {
            Statement::Remark { text } => text,
            other => panic!("{other:?}"),
        })
        .collect();
    texts.sort();
    texts
}

#[test]
fn two_phones_meet_through_the_server() {
    let mut server = Server::new();
    let (mut a, mut b) = (phone(1, &mut server), phone(2, &mut server));
    write(&mut a, "from a");
    write(&mut b, "from b");
    assert_eq!(sync(&mut a, &mut server).receipted, 1);
    let report = sync(&mut b, &mut server);
    assert_eq!((report.receipted, report.received, report.reconciled), (1, 1, false));
    sync(&mut a, &mut server);
    assert_eq!(texts(a.store()), ["from a", "from b"]);
    assert_eq!(texts(a.store()), texts(b.store()));
    assert_eq!(a.store().count_without_receipt().unwrap(), 0);
    assert_eq!(a.store().tally().unwrap(), server.store.tally().unwrap());
}

#[test]
fn nothing_new_costs_one_small_request() {
    let mut server = Server::new();
    let mut a = phone(1, &mut server);
    for n in 0..50 {
        write(&mut a, &format!("{n}"));
    }
    sync(&mut a, &mut server);
    let mut session = a.sync_session().unwrap();
    let request = a.sync_request(&mut session).unwrap();
    let reply = server.answer(&request).unwrap().reply;
    assert_eq!(a.sync_receive(&mut session, &reply).unwrap(), Step::Done);
    let both = request.len() + reply.len();
    println!("idle round: {} + {} = {both} bytes", request.len(), reply.len());
    assert!(both <= 300, "{both} bytes");
}

#[test]
fn one_new_entry_costs_under_nine_hundred_bytes_both_ways() {
    let mut server = Server::new();
    let mut a = phone(1, &mut server);
    write(&mut a, "first");
    sync(&mut a, &mut server);
    // A typical entry: a reading with its instrument, on a device whose clock is known to be off.
    let reading = Statement::Reading(Reading {
        measured: Measured::Pressure,
        place: Place::Car,
        purpose: Purpose::Final,
        amount: Amount::of(87.5, Unit::PsiGauge),
        instrument: "G-3".into(),
    });
    let drafts = vec![Draft::of(reading)];
    a.append(VISIT, drafts, &OperatorId("op-1".into())).unwrap();
    let mut session = a.sync_session().unwrap();
    let request = a.sync_request(&mut session).unwrap();
    let reply = server.answer(&request).unwrap().reply;
    assert_eq!(a.sync_receive(&mut session, &reply).unwrap(), Step::Done);
    let both = request.len() + reply.len();
    println!("one entry: {} + {} = {both} bytes", request.len(), reply.len());
    assert!(both <= 900, "{both} bytes");
}

#[test]
fn what_is_familiar_to_both_sides_is_frozen_and_need_not_be_used() {
    let digest = crate::ids::Digest::of(DEFLATE_DICTIONARY).to_string();
    assert_eq!(digest, "1abd20792c9c9fb1787194ed3b4847dd5be7437c8fff7fc8b0869c5765e4d927");
    // One stored block, as another encoder may write it (RFC 1951, 3.2.4).
    assert_eq!(inflate(&[1, 2, 0, 0xfd, 0xff, b'h', b'i'], 2).unwrap(), b"hi");
    assert!(inflate(&[1, 2, 0, 0xfd, 0xff, b'h', b'i'], 1).is_err(), "no more than is allowed");
    assert!(inflate(&[1, 2, 0, 0xfd, 0xff, b'h'], 2).is_err(), "cut short");
}

#[test]
fn a_login_page_that_answers_200_is_not_the_office() {
    let mut server = Server::new();
    let mut a = phone(1, &mut server);
    write(&mut a, "kept");
    let mut session = a.sync_session().unwrap();
    a.sync_request(&mut session).unwrap();
    for page in [&b"<html>Welcome, please sign in</html>"[..], b"", b"\xa0"] {
        let refused = a.sync_receive(&mut session, page);
        assert!(matches!(refused, Err(crate::book::BookError::Sync(SyncError::NotTheServer(_)))));
    }
    assert_eq!(a.store().count_without_receipt().unwrap(), 1, "no receipt, no claim");
    assert_eq!(sync(&mut a, &mut server).receipted, 1);
}

#[test]
fn a_reply_signed_by_another_key_gives_no_receipt() {
    let mut server = Server::new();
    let mut a = phone(1, &mut server);
    write(&mut a, "kept");
    let mut session = a.sync_session().unwrap();
    let request = a.sync_request(&mut session).unwrap();
    let mut impostor = Server { key: OrganisationKey::from_secret([6; 32]), ..Server::new() };
    impostor.certify(a.device(), false);
    let reply = impostor.answer(&request).unwrap().reply;
    assert!(a.sync_receive(&mut session, &reply).is_err());
    assert_eq!(a.store().count_without_receipt().unwrap(), 1);
}

#[test]
fn a_receipt_for_other_entries_than_those_sent_counts_for_none() {
    let mut server = Server::new();
    let mut a = phone(1, &mut server);
    write(&mut a, "one");
    write(&mut a, "two");
    let mut session = a.sync_session().unwrap();
    let request = a.sync_request(&mut session).unwrap();
    let reply = parts(&server.answer(&request).unwrap().reply).unwrap();
    // A faulty server signs for half of what it was sent.
    let mut head = ReplyHead::open(&reply.head, &server.key.public()).unwrap();
    let bulk: ReplyBulk = open_bulk(&reply, head.bulk, LARGEST_BULK).unwrap();
    let sent: Vec<EntryId> = a.entries(VISIT).unwrap().0.iter().map(|(entry, _)| entry.id).collect();
    head.covers = tree_of(&sent[..1]);
    head.bulk = None;
    let reply = seal_reply(head, &bulk, &server.key).unwrap();
    assert!(matches!(a.sync_receive(&mut session, &reply), Err(BookError::Sync(SyncError::NotTheServer(_)))));
    assert_eq!(a.store().count_without_receipt().unwrap(), 2);
}

#[test]
fn a_lost_reply_is_asked_for_again_and_nothing_doubles() {
    let mut server = Server::new();
    let mut a = phone(1, &mut server);
    write(&mut a, "once");
    let mut session = a.sync_session().unwrap();
    let request = a.sync_request(&mut session).unwrap();
    server.answer(&request).unwrap(); // the reply never arrives
    let report = sync(&mut a, &mut server);
    assert_eq!(report.receipted, 1);
    assert_eq!(server.store.tally().unwrap().count, 1);
}

#[test]
fn a_replayed_request_is_told_so_and_delivers_nothing() {
    let mut server = Server::new();
    let (mut a, mut b) = (phone(1, &mut server), phone(2, &mut server));
    let mut session = a.sync_session().unwrap();
    let old = a.sync_request(&mut session).unwrap();
    server.answer(&old).unwrap();
    write(&mut b, "secret");
    sync(&mut b, &mut server);
    let answer = server.answer(&old).unwrap();
    let message = wire::parts(&answer.reply).unwrap();
    assert!(message.bulk.is_empty());
    assert!(wire::ReplyHead::open(&message.head, &server.key.public()).unwrap().old_number.is_some());
}

#[test]
fn a_phone_restored_from_backup_gets_back_what_it_had_sent() {
    let mut server = Server::new();
    let mut a = phone(1, &mut server);
    write(&mut a, "before the backup");
    sync(&mut a, &mut server);
    let backup = clone_store(a.store());
    write(&mut a, "after the backup");
    sync(&mut a, &mut server);
    let mut restored = book_on(backup, 101, &mut server); // same key (seed mod 100), new process
    write(&mut restored, "after the restore");
    let report = sync(&mut restored, &mut server);
    assert_eq!(texts(restored.store()), ["after the backup", "after the restore", "before the backup"]);
    assert_eq!(restored.store().count_without_receipt().unwrap(), 0);
    assert!(report.received >= 1);
}

#[test]
fn a_server_that_lost_everything_gets_it_back_in_pieces_it_takes() {
    let mut server = Server::new();
    let mut a = phone(1, &mut server);
    let mut dice = Dice::of(5);
    for n in 0..60u8 {
        let mut noise = [0u8; 12_000];
        dice.fill(&mut noise);
        let text = noise.map(|byte| format!("{byte:02x}")).concat(); // does not deflate away
        let says = Statement::Remark { text };
        let subject = Subject::Visit(VisitId([n + 1; 16]));
        a.append(subject, vec![Draft::of(says)], &OperatorId("op-1".into())).unwrap();
    }
    sync(&mut a, &mut server);
    server.store = MemoryStore::new();
    server.epoch = 2;
    server.certify(a.device(), false);
    let mut session = a.sync_session().unwrap();
    loop {
        let request = a.sync_request(&mut session).unwrap();
        let mut answerer = Answerer::new(&mut server.store, &server.key, server.epoch);
        answerer.largest_bulk = 512 * 1024; // the whole is more than that
        let reply = answerer.answer(&request, UtcMillis(1_000_000)).unwrap().reply;
        if a.sync_receive(&mut session, &reply).unwrap() == Step::Done {
            break;
        }
    }
    assert_eq!(server.store.tally().unwrap(), a.store().tally().unwrap());
    assert!(session.report().reconciled);
}

#[test]
fn a_server_restored_from_backup_gets_back_what_it_lost() {
    let mut server = Server::new();
    let (mut a, mut b) = (phone(1, &mut server), phone(2, &mut server));
    write(&mut a, "before the backup");
    sync(&mut a, &mut server);
    let backup = server.store.clone();
    write(&mut a, "after the backup");
    write(&mut b, "from b");
    sync(&mut a, &mut server);
    sync(&mut b, &mut server);
    server.store = backup;
    let report = sync(&mut a, &mut server);
    assert!(report.reconciled);
    sync(&mut b, &mut server);
    sync(&mut a, &mut server);
    assert_eq!(texts(&server.store), ["after the backup", "before the backup", "from b"]);
    assert_eq!(server.store.tally().unwrap(), a.store().tally().unwrap());
    assert_eq!(server.store.tally().unwrap(), b.store().tally().unwrap());
}

#[test]
fn a_server_put_back_from_a_copy_is_brought_the_photographs_it_lost() {
    let mut server = Server::new();
    let mut a = phone(1, &mut server);
    write(&mut a, "before the backup");
    sync(&mut a, &mut server);
    let backup = server.store.clone();
    let sha256 = crate::ids::Digest([7; 32]);
    let photo = Write::Photo { sha256, length: 9, media: "image/jpeg", here: true, held: false };
    a.store_mut().commit(std::slice::from_ref(&photo)).unwrap();
    server.store.commit(&[photo]).unwrap(); // it was uploaded
    sync(&mut a, &mut server);
    assert!(a.store().photo(sha256).unwrap().unwrap().held);
    // The records are unchanged; only the photograph arrived after the backup was made.
    server.store = backup;
    server.epoch = 2;
    assert!(sync(&mut a, &mut server).reconciled);
    assert!(!a.store().photo(sha256).unwrap().unwrap().held, "it is to be sent again");
    assert!(!sync(&mut a, &mut server).reconciled, "the other ledger is known now");
}

#[test]
fn two_documents_with_one_actor_still_come_to_hold_the_same_entries() {
    // A copied process has the same actor and sequence numbers but different changes.
    let mut server = Server::new();
    let mut a = phone(1, &mut server);
    write(&mut a, "common");
    sync(&mut a, &mut server);
    let copy = clone_store(a.store());
    let mut twin = book_on(copy, 1, &mut server);
    write(&mut a, "from a");
    write(&mut twin, "from the twin");
    sync(&mut a, &mut server);
    sync(&mut twin, &mut server);
    sync(&mut a, &mut server);
    assert_eq!(texts(a.store()), ["common", "from a", "from the twin"]);
    assert_eq!(texts(a.store()), texts(twin.store()));
    write(&mut a, "and goes on");
    sync(&mut a, &mut server);
    sync(&mut twin, &mut server);
    assert_eq!(texts(twin.store()).len(), 4);
}

#[test]
fn a_revoked_device_may_give_but_not_take() {
    let mut server = Server::new();
    let (mut a, mut b) = (phone(1, &mut server), phone(2, &mut server));
    write(&mut b, "for others");
    sync(&mut b, &mut server);
    server.certify(a.device(), true);
    write(&mut a, "late");
    let report = sync(&mut a, &mut server);
    assert!(report.revoked);
    assert_eq!(texts(a.store()), ["late"]);
    assert_eq!(texts(&server.store), ["for others", "late"]);
}

#[test]
fn a_stranger_is_refused() {
    let mut server = Server::new();
    let mut a = phone(1, &mut server);
    let mut elsewhere = Server { key: OrganisationKey::from_secret([9; 32]), ..Server::new() };
    let mut session = a.sync_session().unwrap();
    let request = a.sync_request(&mut session).unwrap();
    assert!(matches!(elsewhere.answer(&request), Err(AnswerError::UnknownDevice)));
}

#[test]
fn a_hostile_change_is_set_aside_and_the_others_come_in() {
    let mut server = Server::new();
    let mut a = phone(1, &mut server);
    write(&mut a, "good");
    let bad = Write::Change {
        subject: VISIT,
        hash: crate::ids::Digest([3; 32]),
        bytes: b"\x85oJ\x83junk",
        held: false,
    };
    a.store_mut().commit(&[bad]).unwrap();
    write(&mut a, "also good");
    let report = sync(&mut a, &mut server);
    assert_eq!(report.refused.len(), 1);
    assert_eq!(texts(&server.store), ["also good", "good"]);
    assert_eq!(server.store.quarantined().unwrap().len(), 1);
    assert_eq!(a.store().count_without_receipt().unwrap(), 0);
}

#[test]
fn a_long_first_sync_goes_in_pages() {
    let mut server = Server::new();
    let mut a = phone(1, &mut server);
    for n in 0..60 {
        write(&mut a, &format!("{n} {}", "long remark ".repeat(600)));
    }
    let report = sync(&mut a, &mut server);
    assert!(report.rounds > 1);
    assert_eq!(report.receipted, 60);
    let mut b = phone(2, &mut server);
    assert_eq!(sync(&mut b, &mut server).received, 60);
    assert_eq!(b.store().count_without_receipt().unwrap(), 0, "what the server delivers, it vouches for");
}

#[test]
fn a_line_that_carries_little_before_it_is_cut_still_carries_everything() {
    const CARRIES: usize = 9 * 1024;
    let mut server = Server::new();
    let (mut a, mut b) = (phone(1, &mut server), phone(2, &mut server));
    let mut dice = Dice::of(9);
    for _ in 0..60 {
        let mut noise = [0u8; 500];
        dice.fill(&mut noise);
        write(&mut a, &noise.map(|byte| format!("{byte:02x}")).concat());
    }
    for book in [&mut a, &mut b] {
        let mut session = book.sync_session().unwrap();
        let mut lost = 0;
        for _ in 0..200 {
            let request = book.sync_request(&mut session).unwrap();
            if request.len() > CARRIES {
                lost += 1;
                continue;
            }
            let reply = server.answer(&request).unwrap().reply;
            if reply.len() > CARRIES {
                lost += 1;
                continue;
            }
            if book.sync_receive(&mut session, &reply).unwrap() == Step::Done {
                break;
            }
        }
        assert!(lost > 0, "the line never said no");
        assert_eq!(texts(book.store()).len(), 60);
        assert_eq!(book.store().count_without_receipt().unwrap(), 0);
    }
}

#[test]
fn a_carry_file_takes_records_where_no_server_is() {
    let mut server = Server::new();
    let (mut a, mut b) = (phone(1, &mut server), phone(2, &mut server));
    write(&mut a, "carried");
    let file = a.carry_out(&[VISIT], vec![]).unwrap();
    let report = b.carry_in(&file).unwrap();
    assert_eq!((report.received, report.contained), (1, 1));
    assert_eq!(b.carry_in(&file).unwrap().received, 0, "twice is once");
    assert_eq!(b.store().count_without_receipt().unwrap(), 1, "carried is not yet at the office");
    assert_eq!(sync(&mut b, &mut server).receipted, 1, "the other phone delivers it");
    assert_eq!(texts(&server.store), ["carried"]);
    for at in 0..file.len() {
        let mut bad = file.clone();
        bad[at] ^= 0x55;
        let mut other = phone(9, &mut server);
        if other.carry_in(&bad).is_ok() {
            // If the file is still accepted, the altered bit was one that the decoder ignores.
            assert_eq!(texts(other.store()), ["carried"], "byte {at}");
        }
    }
}

/// Copies a memory store through the trait alone, as a backup program would.
fn clone_store(store: &dyn Store) -> MemoryStore {
    let mut copy = MemoryStore::new();
    for subject in store.subjects().unwrap() {
        for row in store.entries_of(subject).unwrap().rows {
            let entry = crate::entry::Entry::open(&row.bytes).unwrap();
            copy.commit(&[Write::Entry { subject, entry: &entry }]).unwrap();
            for receipt in store.receipts_of(row.id).unwrap() {
                copy.commit(&[Write::Receipt { bytes: &receipt, entries: &[row.id] }]).unwrap();
            }
        }
        for change in store.changes_of(subject).unwrap().rows {
            let bytes = &change.bytes;
            copy.commit(&[Write::Change { subject, hash: change.hash, bytes, held: true }]).unwrap();
        }
    }
    for key in ["book/chain", "book/organisation_key", "sync/cursor", "sync/number", "sync/certificates"] {
        if let Some(value) = store.value(key).unwrap() {
            copy.commit(&[Write::Value { key, value: &value }]).unwrap();
        }
    }
    copy
}
