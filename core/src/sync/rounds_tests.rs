//! Rounds that are answered together: what each device is told, and who revokes meanwhile.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a failed unwrap is a failed test")]

use super::tests::{Server, phone, write};
use super::wire::{ReplyBulk, ReplyHead, open_bulk, parts};
use super::*;
use crate::book::Book;
use crate::clock::UtcMillis;
use crate::entry::DeviceKey;
use crate::ids::DeviceId;
use crate::store::{Durability, Ledger, MemoryStore, SqliteStore, Store as _, Write};
use farsiding_testkit::Dice;

const NOW: UtcMillis = UtcMillis(1_000_000);
const MOST: usize = 1 << 20;

fn key(seed: u64) -> DeviceKey {
    let mut secret = [0; 32];
    Dice::of(seed).fill(&mut secret);
    DeviceKey::from_secret(secret)
}

fn opened(server: &Server, request: &[u8]) -> OpenedRequest {
    let devices = Devices::read(&server.store).unwrap();
    OpenedRequest::read(request, &devices, &server.key, MOST).unwrap()
}

/// Answers one request of each phone together.
fn answered(ledger: &mut dyn Ledger, server: &Server, requests: &[OpenedRequest]) -> Vec<Answer> {
    let mut rounds = Rounds::begin(ledger, &server.key, server.epoch).unwrap();
    for request in requests {
        rounds.add(ledger, request, NOW, None).unwrap();
    }
    let answers = rounds.answer(ledger, &mut |_, _| {}).unwrap();
    answers.into_iter().map(Result::unwrap).collect()
}

#[test]
fn each_of_several_rounds_gets_its_own_receipt_and_learns_of_the_others() {
    let mut server = Server::new();
    let mut phones: Vec<Book> = (1..=5).map(|seed| phone(seed, &mut server)).collect();
    let mut requests = Vec::new();
    let mut sessions = Vec::new();
    for (n, phone) in phones.iter_mut().enumerate() {
        write(phone, &format!("of phone {n}"));
        let mut session = phone.sync_session().unwrap();
        requests.push(opened(&server, &phone.sync_request(&mut session).unwrap()));
        sessions.push(session);
    }
    let mut store = std::mem::replace(&mut server.store, MemoryStore::new());
    let mut new = Vec::new();
    let mut rounds = Rounds::begin(&store, &server.key, server.epoch).unwrap();
    for request in &requests {
        rounds.add(&store, request, NOW, None).unwrap();
    }
    let answers =
        rounds.answer(&mut store, &mut |answer, entry| new.push((answer.device, entry.id))).unwrap();
    server.store = store;
    assert_eq!(new.len(), 5, "each new entry is told of once: {new:?}");
    for ((phone, session), answer) in phones.iter_mut().zip(&mut sessions).zip(answers) {
        let answer = answer.unwrap();
        let step = phone.sync_receive(session, &answer.reply).unwrap();
        assert_eq!(step, Step::Done, "nothing is left to ask");
        assert_eq!(phone.store().count_without_receipt().unwrap(), 0);
        assert_eq!(phone.store().tally().unwrap(), server.store.tally().unwrap());
        assert!(new.contains(&(answer.device, answer.new[0].1)));
    }
    assert_eq!(server.store.log().size().unwrap(), 5);
    assert_eq!(server.store.count_without_receipt().unwrap(), 0, "the office keeps each receipt too");
}

#[test]
fn a_request_twice_in_one_batch_is_answered_once() {
    let mut server = Server::new();
    let mut a = phone(1, &mut server);
    write(&mut a, "sent twice");
    let mut session = a.sync_session().unwrap();
    let request = a.sync_request(&mut session).unwrap();
    let both = [opened(&server, &request), opened(&server, &request)];
    let mut store = std::mem::replace(&mut server.store, MemoryStore::new());
    let answers = answered(&mut store, &server, &both);
    let heads = answers
        .iter()
        .map(|answer| ReplyHead::open(&parts(&answer.reply).unwrap().head, &server.key.public()).unwrap());
    let old: Vec<_> = heads.map(|head| head.old_number.is_some()).collect();
    assert_eq!(old, [false, true]);
    assert_eq!((answers[0].new.len(), answers[1].new.len()), (1, 0));
    a.sync_receive(&mut session, &answers[0].reply).unwrap();
    assert_eq!(a.store().count_without_receipt().unwrap(), 0);
}

/// A server's ledger in a file, of which another process may have a second connection.
fn on_disk(server: &Server, devices: &[DeviceId]) -> (tempfile::TempDir, SqliteStore, SqliteStore) {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("ledger.db");
    let open = || SqliteStore::open(path.to_str().unwrap(), Durability::WriteAheadLog).unwrap();
    let (mut ledger, other) = (open(), open());
    for device in devices {
        let bytes = server.store.certificate(*device).unwrap().unwrap();
        ledger.commit(&[Write::Certificate { device: *device, bytes: &bytes }]).unwrap();
    }
    let version = server.store.value(CERTIFICATES_VERSION).unwrap().unwrap();
    ledger.commit(&[Write::Value { key: CERTIFICATES_VERSION, value: &version }]).unwrap();
    (folder, ledger, other)
}

#[test]
fn who_is_revoked_by_another_process_while_rounds_are_decided_is_answered_as_revoked() {
    let mut server = Server::new();
    let (mut a, mut b) = (phone(1, &mut server), phone(2, &mut server));
    let (_folder, mut ledger, mut other) = on_disk(&server, &[a.device(), b.device()]);
    write(&mut a, "sent just before");
    write(&mut b, "of one who stays");
    let (mut of_a, mut of_b) = (a.sync_session().unwrap(), b.sync_session().unwrap());
    let requests = [
        opened(&server, &a.sync_request(&mut of_a).unwrap()),
        opened(&server, &b.sync_request(&mut of_b).unwrap()),
    ];
    let key = server.key.clone();
    let mut rounds = Rounds::begin(&ledger, &key, server.epoch).unwrap();
    for request in &requests {
        rounds.add(&ledger, request, NOW, None).unwrap();
    }
    // A command of the program revokes the first device and signs a later time, before anything is written.
    let bytes = server.certify(a.device(), true);
    let version = server.store.value(CERTIFICATES_VERSION).unwrap().unwrap();
    let later = UtcMillis(NOW.0 + 5);
    other
        .commit(&[
            Write::Certificate { device: a.device(), bytes: &bytes },
            Write::Value { key: CERTIFICATES_VERSION, value: &version },
            Write::Value { key: ledger_time::NEWEST_SIGNED, value: &later.0.to_be_bytes() },
        ])
        .unwrap();
    let answers = rounds.answer(&mut ledger, &mut |_, _| {}).unwrap();
    let [to_a, to_b] = answers.try_into().unwrap_or_else(|_| panic!("two rounds"));
    let (to_a, to_b) = (to_a.unwrap(), to_b.unwrap());
    assert!(to_a.revoked && !to_b.revoked);
    let message = parts(&to_a.reply).unwrap();
    let head = ReplyHead::open(&message.head, &server.key.public()).unwrap();
    let bulk: ReplyBulk = open_bulk(&message, head.bulk, MOST).unwrap();
    assert!(head.revoked && bulk.changes.is_empty() && bulk.certificates.is_none(), "{bulk:?}");
    assert_eq!(head.at, later, "no time falls behind one that was signed meanwhile");
    let received = ledger.log().received_at(to_a.new[0].1).unwrap();
    assert_eq!(received, Some(later), "receipt and leaf share it");
    assert_eq!(
        ledger.tally().unwrap().count,
        2,
        "what a revoked device sent is kept, for the office to judge"
    );
    b.sync_receive(&mut of_b, &to_b.reply).unwrap();
    assert_eq!(b.store().count_without_receipt().unwrap(), 0);
}

#[test]
fn a_device_whose_certificate_is_gone_meanwhile_writes_nothing() {
    let mut server = Server::new();
    let mut a = phone(1, &mut server);
    let (folder, mut ledger, other) = on_disk(&server, &[a.device()]);
    write(&mut a, "of nobody by now");
    let mut session = a.sync_session().unwrap();
    let request = opened(&server, &a.sync_request(&mut session).unwrap());
    let mut rounds = Rounds::begin(&ledger, &server.key, server.epoch).unwrap();
    rounds.add(&ledger, &request, NOW, None).unwrap();
    drop(other);
    let raw = rusqlite::Connection::open(folder.path().join("ledger.db")).unwrap();
    raw.execute_batch(
        "DELETE FROM certificate; UPDATE value SET value = x'00000000000000ff' WHERE key = 'certificates/version'",
    )
    .unwrap();
    let answers = rounds.answer(&mut ledger, &mut |_, _| {}).unwrap();
    assert!(matches!(answers[0], Err(AnswerError::UnknownDevice)), "{answers:?}");
    assert_eq!((ledger.tally().unwrap().count, ledger.log().size().unwrap()), (0, 0));
}

#[test]
fn a_delivery_is_the_same_whether_ids_were_kept_lost_or_damaged() {
    let mut server = Server::new();
    let (mut a, b) = (phone(1, &mut server), phone(2, &mut server));
    let (folder, mut ledger, _other) = on_disk(&server, &[a.device(), b.device()]);
    for n in 0..3 {
        write(&mut a, &format!("entry {n}"));
    }
    let mut session = a.sync_session().unwrap();
    let request = opened(&server, &a.sync_request(&mut session).unwrap());
    let brought = answered(&mut ledger, &server, &[request]);
    assert_eq!(brought[0].new.len(), 3);
    let raw = rusqlite::Connection::open(folder.path().join("ledger.db")).unwrap();
    let mut delivered = Vec::new();
    for (number, damage) in
        ["", "UPDATE change SET ids = zeroblob(length(ids))", "UPDATE change SET ids = NULL"]
            .iter()
            .enumerate()
    {
        raw.execute_batch(damage).unwrap();
        let head = wire::RequestHead {
            number: 10 + number as u64,
            cursor: None,
            certificates: u64::MAX,
            at: NOW,
            bulk: None,
            statement: None,
        };
        let request = wire::seal_request(head, &wire::RequestBulk::default(), &key(2)).unwrap();
        let answers = answered(&mut ledger, &server, &[opened(&server, &request)]);
        let message = parts(&answers[0].reply).unwrap();
        let head = ReplyHead::open(&message.head, &server.key.public()).unwrap();
        let bulk: ReplyBulk = open_bulk(&message, head.bulk, MOST).unwrap();
        delivered.push((head.delivers.unwrap(), bulk.changes));
    }
    assert_eq!(delivered[0], delivered[1]);
    assert_eq!(delivered[0], delivered[2]);
    assert_eq!(delivered[0].1.len(), 3);
}
