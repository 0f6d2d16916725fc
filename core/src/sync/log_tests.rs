//! Tests of devices that watch the office's log: an honest log, and every way of rewriting one.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a failed unwrap is a failed test")]

use super::tests::{Server, VISIT, phone, sync, texts, write};
use super::*;
use crate::book::Book;
use crate::clock::UtcMillis;
use crate::ids::EntryId;
use crate::log::{Checkpoint, ledger_log};
use crate::store::{MemoryStore, Store, Write};
use crate::tree::LogLeaf;
use farsiding_testkit::Dice;

/// Runs a check of the log over as many rounds as needed. Returns `None` if there was nothing to ask.
pub(super) fn watch(book: &mut Book, server: &mut Server) -> Option<LogReport> {
    let mut watch = book.log_watch().unwrap();
    let mut asked = false;
    while let Some(request) = book.log_request(&mut watch).unwrap() {
        asked = true;
        let answer = answer_log(&mut server.store, &server.key, &request, UtcMillis(1_000_000)).unwrap();
        if book.log_receive(&mut watch, &answer.reply).unwrap() == Step::Done {
            break;
        }
    }
    asked.then(|| watch.report().clone())
}

fn record(book: &mut Book, server: &mut Server, text: &str) {
    write(book, text);
    sync(book, server);
}

fn leaves(store: &dyn Store) -> Vec<LogLeaf> {
    (0..store.log().size().unwrap()).map(|n| store.log().leaf(n).unwrap().unwrap()).collect()
}

/// Returns the server's ledger with all its content but another log.
fn with_log(server: &Server, log: &[LogLeaf]) -> MemoryStore {
    let mut store = MemoryStore::new();
    for (device, bytes) in server.store.certificates().unwrap() {
        store.commit(&[Write::Certificate { device, bytes: &bytes }]).unwrap();
        let key = format!("round/{device}");
        if let Some(value) = server.store.value(&key).unwrap() {
            store.commit(&[Write::Value { key: &key, value: &value }]).unwrap();
        }
    }
    let version = server.store.value(CERTIFICATES_VERSION).unwrap().unwrap();
    store.commit(&[Write::Value { key: CERTIFICATES_VERSION, value: &version }]).unwrap();
    for change in server.store.changes_after(0, usize::MAX).unwrap() {
        let checked = crate::document::CheckedChange::check(&change.bytes, change.subject).unwrap();
        store.commit(&crate::store::writes_of(&checked, change.subject, true)).unwrap();
    }
    for LogLeaf { entry, received_at, about } in log.iter().copied() {
        store.commit(&[Write::Leaf { entry, received_at, about }]).unwrap();
    }
    store
}

fn ids(book: &Book) -> Vec<EntryId> {
    book.store().entries_of(VISIT).unwrap().rows.iter().map(|row| row.id).collect()
}

fn standing(book: &Book) -> LogStanding {
    book.log_standing().unwrap().unwrap()
}

#[test]
fn a_device_gets_and_keeps_a_proof_for_every_entry_and_then_asks_no_more() {
    let mut server = Server::new();
    let (mut a, mut b) = (phone(1, &mut server), phone(2, &mut server));
    for n in 0..30 {
        write(&mut a, &format!("remark {n}"));
    }
    sync(&mut a, &mut server);
    let report = watch(&mut a, &mut server).unwrap();
    assert_eq!((report.rounds, report.proven, report.size), (1, 30, Some(30)));
    assert_eq!(watch(&mut a, &mut server), None, "nothing to ask, nothing sent");
    record(&mut b, &mut server, "from b");
    sync(&mut a, &mut server);
    assert_eq!(watch(&mut a, &mut server).unwrap().proven, 1);
    assert_eq!(watch(&mut b, &mut server).unwrap().proven, 31, "what came from a is proven as well");
    for book in [&a, &b] {
        let key = server.key.public();
        for id in ids(book) {
            let (inclusion, kept) = proof_of(book.store(), id, &key).unwrap().unwrap();
            let checkpoint = Checkpoint::open(&kept.note, &key).unwrap();
            assert_eq!(inclusion.check(id, &checkpoint), Ok(()));
            assert_eq!(server.store.log().received_at(id).unwrap(), Some(inclusion.received_at));
        }
        assert!(standing(book).alarms.is_empty());
    }
}

#[test]
fn what_the_log_costs_on_a_bad_signal() {
    let mut server = Server::new();
    let mut a = phone(1, &mut server);
    for n in 0..120 {
        write(&mut a, &format!("remark {n}"));
    }
    sync(&mut a, &mut server);
    let mut watch = a.log_watch().unwrap();
    let request = a.log_request(&mut watch).unwrap().unwrap();
    let answer = answer_log(&mut server.store, &server.key, &request, UtcMillis(1_000_000)).unwrap();
    a.log_receive(&mut watch, &answer.reply).unwrap();
    println!("120 entries proven: {} bytes up, {} down", request.len(), answer.reply.len());
    assert!(request.len() < 120 * 34 + 200, "{} bytes", request.len());
    assert!(answer.reply.len() < 1200, "{} bytes", answer.reply.len());
    write(&mut a, "one more");
    sync(&mut a, &mut server);
    let request = a.log_request(&mut watch).unwrap().unwrap();
    let answer = answer_log(&mut server.store, &server.key, &request, UtcMillis(1_000_000)).unwrap();
    a.log_receive(&mut watch, &answer.reply).unwrap();
    println!("one entry more: {} bytes up, {} down", request.len(), answer.reply.len());
    assert!(request.len() < 250 && answer.reply.len() < 1000);
    assert_eq!(watch.report().proven, 121);
}

type Rewriting = fn(&mut Vec<LogLeaf>);

#[test]
fn a_log_that_was_rewritten_is_noticed_kept_as_proof_and_stops_nothing() {
    let rewriting: [(&str, Rewriting); 4] = [
        ("an entry taken out", |log| {
            log.remove(1);
        }),
        ("two entries swapped", |log| {
            let times = (log[1].received_at, log[2].received_at);
            log.swap(1, 2);
            (log[1].received_at, log[2].received_at) = times;
        }),
        ("dated back", |log| log[0].received_at = UtcMillis(log[0].received_at.0 - 1)),
        ("dated forward", |log| {
            log[3].received_at = UtcMillis(log[3].received_at.0 + 1);
            log[4].received_at = log[3].received_at.max(log[4].received_at);
        }),
    ];
    for (what, rewrite) in rewriting {
        let mut server = Server::new();
        let mut a = phone(1, &mut server);
        for n in 0..4 {
            record(&mut a, &mut server, &format!("remark {n}"));
        }
        assert!(watch(&mut a, &mut server).unwrap().contradictions.is_empty());
        let before = standing(&a).checkpoint.unwrap();
        let proofs: Vec<_> = ids(&a).iter().map(|id| a.store().log().proof_of(*id).unwrap()).collect();
        // Two more entries arrive, and the log before them is a different one.
        for text in ["a fifth", "a sixth"] {
            record(&mut a, &mut server, text);
        }
        let mut log = leaves(&server.store);
        rewrite(&mut log);
        server.store = with_log(&server, &log);
        let report = watch(&mut a, &mut server).unwrap();
        assert_eq!(report.contradictions, [LogContradiction::Rewritten], "{what}");
        let now = standing(&a);
        assert_eq!(now.checkpoint.as_ref(), Some(&before), "{what}: what was checked stays what counts");
        let key = server.key.public();
        assert_eq!(now.alarms.len(), 1);
        let (ours, theirs) = (&now.alarms[0].ours, &now.alarms[0].theirs);
        assert!(Checkpoint::open(ours, &key).is_ok() && Checkpoint::open(theirs, &key).is_ok());
        assert_eq!(ours, &before.note);
        assert_ne!(ours, theirs);
        let after: Vec<_> = ids(&a)[..4].iter().map(|id| a.store().log().proof_of(*id).unwrap()).collect();
        assert_eq!(after, proofs, "{what}: the proofs held before are held still");
        // Recording continues, and the contradiction is reported on each check.
        write(&mut a, "afterwards");
        assert_eq!(sync(&mut a, &mut server).receipted, 1);
        assert_eq!(watch(&mut a, &mut server).unwrap().contradictions, [LogContradiction::Rewritten]);
        assert_eq!(texts(&server.store).len(), 7);
    }
}

#[test]
fn a_log_of_the_same_length_and_another_root_is_two_versions_of_it() {
    let mut server = Server::new();
    let mut a = phone(1, &mut server);
    for n in 0..3 {
        record(&mut a, &mut server, &format!("remark {n}"));
    }
    watch(&mut a, &mut server).unwrap();
    let mut log = leaves(&server.store);
    log[0].received_at = UtcMillis(5);
    server.store = with_log(&server, &log);
    let mut watching = a.log_watch().unwrap();
    // Nothing is new, so the log is requested again only after a day.
    assert_eq!(a.log_request(&mut watching).unwrap(), None);
    let tomorrow = UtcMillis(1_000_500 + 25 * 3_600_000);
    let key = crate::entry::DeviceKey::from_secret(secret(1));
    let request = watching.request(a.store(), &key, tomorrow).unwrap().unwrap();
    let answer = answer_log(&mut server.store, &server.key, &request, tomorrow).unwrap();
    watching.receive(a.store_mut(), &answer.reply, tomorrow).unwrap();
    assert_eq!(watching.report().contradictions, [LogContradiction::TwoVersions]);
}

fn secret(seed: u64) -> [u8; 32] {
    let mut secret = [0u8; 32];
    Dice::of(seed).fill(&mut secret);
    secret
}

#[test]
fn a_log_that_shrank_is_noticed_and_the_server_learns_of_it_too() {
    let mut server = Server::new();
    let mut a = phone(1, &mut server);
    for n in 0..3 {
        record(&mut a, &mut server, &format!("remark {n}"));
    }
    watch(&mut a, &mut server).unwrap();
    let log = leaves(&server.store);
    record(&mut a, &mut server, "a fourth");
    server.store = with_log(&server, &log[..2]);
    let mut watching = a.log_watch().unwrap();
    let request = a.log_request(&mut watching).unwrap().unwrap();
    let answer = answer_log(&mut server.store, &server.key, &request, UtcMillis(1_000_000)).unwrap();
    assert_eq!(answer.device_knows_more, Some(3));
    a.log_receive(&mut watching, &answer.reply).unwrap();
    assert_eq!(watching.report().contradictions, [LogContradiction::Shorter]);
    assert_eq!(standing(&a).alarms[0].kind, LogContradiction::Shorter);
}

#[test]
fn an_entry_that_was_receipted_and_left_out_of_the_log_is_missed() {
    let mut server = Server::new();
    let mut a = phone(1, &mut server);
    for n in 0..3 {
        record(&mut a, &mut server, &format!("remark {n}"));
    }
    let log = leaves(&server.store);
    server.store = with_log(&server, &[log[0], log[2]]);
    let report = watch(&mut a, &mut server).unwrap();
    assert_eq!((report.contradictions, report.proven), (vec![LogContradiction::EntryMissing], 2));
    assert_eq!(standing(&a).alarms[0].entry, Some(log[1].entry));
}

/// Two devices that were shown different logs by a server that maintains two versions.
fn split(later: usize) -> (Server, Book, Server, Book) {
    let mut server = Server::new();
    let (mut a, mut b) = (phone(1, &mut server), phone(2, &mut server));
    for n in 0..3 {
        record(&mut a, &mut server, &format!("remark {n}"));
    }
    sync(&mut b, &mut server);
    watch(&mut a, &mut server).unwrap();
    let mut log = leaves(&server.store);
    log[1].received_at = UtcMillis(log[1].received_at.0 + 7);
    log[2].received_at = log[1].received_at;
    let mut other = Server { store: with_log(&server, &log), key: server.key.clone(), epoch: server.epoch };
    for n in 0..later {
        record(&mut b, &mut other, &format!("shown to b alone {n}"));
    }
    watch(&mut b, &mut other).unwrap();
    (server, a, other, b)
}

#[test]
fn two_devices_shown_different_logs_notice_when_they_meet_by_carry_file() {
    let (_, a, _, mut b) = split(0);
    let file = a.carry_out(&[VISIT], Vec::new()).unwrap();
    let report = b.carry_in(&file).unwrap();
    assert_eq!(report.contradictions, [LogContradiction::TwoVersions], "at once: both are of one size");
    assert_eq!(standing(&b).alarms.len(), 1);

    // For checkpoints of different sizes the server's help is needed, and the server cannot be consistent
    // with both.
    let (_, a, mut other, mut b) = split(2);
    let file = a.carry_out(&[VISIT], Vec::new()).unwrap();
    assert!(b.carry_in(&file).unwrap().contradictions.is_empty());
    assert_eq!(watch(&mut b, &mut other).unwrap().contradictions, [LogContradiction::Rewritten]);

    // In the opposite direction the log shown to device a is even shorter than the one carried to it.
    let (mut server, mut a, _, b) = split(2);
    let file = b.carry_out(&[VISIT], Vec::new()).unwrap();
    assert!(a.carry_in(&file).unwrap().contradictions.is_empty());
    sync(&mut a, &mut server);
    let found = watch(&mut a, &mut server).unwrap().contradictions;
    assert!(
        matches!(
            found[..],
            [LogContradiction::Rewritten | LogContradiction::TwoVersions | LogContradiction::Shorter]
        ),
        "{found:?}"
    );
}

#[test]
fn devices_of_an_honest_office_meet_without_alarm() {
    let mut server = Server::new();
    let (mut a, mut b) = (phone(1, &mut server), phone(2, &mut server));
    record(&mut a, &mut server, "from a");
    watch(&mut a, &mut server).unwrap();
    record(&mut b, &mut server, "from b");
    watch(&mut b, &mut server).unwrap();
    let (from_a, from_b) =
        (a.carry_out(&[VISIT], Vec::new()).unwrap(), b.carry_out(&[VISIT], Vec::new()).unwrap());
    a.carry_in(&from_b).unwrap();
    b.carry_in(&from_a).unwrap();
    for book in [&mut a, &mut b] {
        sync(book, &mut server);
        assert!(watch(book, &mut server).unwrap().contradictions.is_empty());
        assert_eq!(watch(book, &mut server), None, "what was carried is compared once");
        assert!(standing(book).alarms.is_empty());
    }
}

#[test]
fn a_restored_backup_that_was_declared_is_told_and_is_no_alarm() {
    let mut server = Server::new();
    let (mut a, mut b) = (phone(1, &mut server), phone(2, &mut server));
    record(&mut a, &mut server, "before the backup");
    sync(&mut b, &mut server);
    watch(&mut b, &mut server).unwrap();
    let backup = server.store.clone();
    record(&mut a, &mut server, "after the backup");
    watch(&mut a, &mut server).unwrap();
    let proven: Vec<EntryId> = ids(&a);
    server.store = backup;
    server.epoch = 2;
    let declared =
        ledger_log::begin_anew(&mut server.store, &server.key, 2, 99, UtcMillis(1_000_000)).unwrap();
    assert_eq!(declared.size, 1);
    record(&mut b, &mut server, "after it was put back");
    sync(&mut a, &mut server);
    for book in [&mut a, &mut b] {
        let report = watch(book, &mut server).unwrap();
        assert_eq!((&report.contradictions[..], &report.restored[..]), (&[][..], &[declared.clone()][..]));
        assert_eq!(watch(book, &mut server), None);
        sync(book, &mut server);
        assert_eq!(standing(book).restores, std::slice::from_ref(&declared));
        assert!(standing(book).alarms.is_empty());
    }
    // The proofs from the previous log remain valid, because the office has signed them.
    for id in proven {
        assert!(proof_of(a.store(), id, &server.key.public()).unwrap().is_some());
    }
    // From here on the new log is watched like any other.
    let log = leaves(&server.store);
    record(&mut a, &mut server, "later");
    let restored = server.store.value("log/restores").unwrap().unwrap();
    let mut forged = with_log(&server, &[log[1], log[0], log[2]]);
    forged.commit(&[Write::Value { key: "log/restores", value: &restored }]).unwrap();
    forged.commit(&[Write::Value { key: "log/origin", value: declared.origin.as_bytes() }]).unwrap();
    server.store = forged;
    assert_eq!(watch(&mut a, &mut server).unwrap().contradictions, [LogContradiction::Rewritten]);
}

#[test]
fn an_older_backup_put_back_after_another_is_no_alarm_either_when_both_were_declared() {
    let mut server = Server::new();
    let (mut a, mut b, mut c) = (phone(1, &mut server), phone(2, &mut server), phone(3, &mut server));
    record(&mut a, &mut server, "before the backup");
    let backup = server.store.clone();
    for epoch in [2, 3] {
        record(&mut a, &mut server, "after the backup");
        watch(&mut a, &mut server).unwrap();
        // One phone saw only the second log, and another one learned of it from a carry file.
        sync(&mut b, &mut server);
        watch(&mut b, &mut server);
        c.carry_in(&a.carry_out(&[VISIT], vec![]).unwrap()).unwrap();
        server.store = backup.clone();
        server.epoch = epoch;
        ledger_log::begin_anew(&mut server.store, &server.key, epoch, 99, UtcMillis(1_000_000)).unwrap();
    }
    for book in [&mut a, &mut b, &mut c] {
        record(book, &mut server, "later");
        watch(book, &mut server).unwrap();
        assert!(standing(book).alarms.is_empty(), "{:?}", standing(book).alarms);
    }
}

#[test]
fn a_declaration_does_not_cover_a_rewriting_nor_does_another_name_without_one() {
    let before = || {
        let mut server = Server::new();
        let mut a = phone(1, &mut server);
        for n in 0..3 {
            record(&mut a, &mut server, &format!("remark {n}"));
        }
        watch(&mut a, &mut server).unwrap();
        (server, a)
    };
    // The declaration says that the backup held every leaf, but the restored log has different ones.
    let (mut server, mut a) = before();
    let mut log = leaves(&server.store);
    log[0].received_at = UtcMillis(5);
    server.store = with_log(&server, &log);
    ledger_log::begin_anew(&mut server.store, &server.key, 2, 99, UtcMillis(1_000_000)).unwrap();
    record(&mut a, &mut server, "next");
    assert_eq!(watch(&mut a, &mut server).unwrap().contradictions, [LogContradiction::Rewritten]);

    // The log that continues is not the one that the declaration names.
    let (mut server, mut a) = before();
    let declared =
        ledger_log::begin_anew(&mut server.store, &server.key, 2, 99, UtcMillis(1_000_000)).unwrap();
    let restored = server.store.value("log/restores").unwrap().unwrap();
    let mut log = leaves(&server.store);
    log.swap(0, 1);
    record(&mut a, &mut server, "next");
    server.store = with_log(&server, &log);
    server.store.commit(&[Write::Value { key: "log/restores", value: &restored }]).unwrap();
    server.store.commit(&[Write::Value { key: "log/origin", value: declared.origin.as_bytes() }]).unwrap();
    assert_eq!(watch(&mut a, &mut server).unwrap().contradictions, [LogContradiction::Rewritten]);

    // The log has another name, and there is no declaration.
    let (mut server, mut a) = before();
    ledger_log::begin_anew(&mut server.store, &server.key, 2, 99, UtcMillis(1_000_000)).unwrap();
    server.store.commit(&[Write::Value { key: "log/restores", value: &[0x80] }]).unwrap();
    record(&mut a, &mut server, "next");
    assert_eq!(watch(&mut a, &mut server).unwrap().contradictions, [LogContradiction::AnotherLog]);
}

#[test]
fn nothing_but_the_offices_own_answer_is_believed() {
    let mut server = Server::new();
    let mut a = phone(1, &mut server);
    record(&mut a, &mut server, "first");
    let mut watching = a.log_watch().unwrap();
    let old = a.log_request(&mut watching).unwrap().unwrap();
    let answer = answer_log(&mut server.store, &server.key, &old, UtcMillis(1_000_000)).unwrap().reply;
    record(&mut a, &mut server, "second");
    let request = a.log_request(&mut watching).unwrap().unwrap();
    let refused = watching.receive(a.store_mut(), b"<html>sign in</html>", UtcMillis(1_000_500));
    assert!(matches!(refused, Err(SyncError::NotTheServer(_))), "{refused:?}");
    let refused = watching.receive(a.store_mut(), &answer, UtcMillis(1_000_500));
    assert!(matches!(refused, Err(SyncError::OtherRequest)), "{refused:?}");
    // The note is signed with another key, inside a reply with the office's own signature.
    let other = crate::entry::OrganisationKey::from_secret([9; 32]);
    let origin = Checkpoint::first_origin(&server.key.public());
    let forged =
        Checkpoint { origin, size: 0, root: crate::tree::merkle::root(&[]), heads: None }.sign(&other);
    let reply = LogReply { note: forged, ..LogReply::default() };
    let reply = seal_log_reply(&request, &reply, &server.key, UtcMillis(1_000_000)).unwrap();
    let again = a.log_request(&mut watching).unwrap().unwrap();
    assert_eq!(again, request, "the clock stands still here");
    let refused = watching.receive(a.store_mut(), &reply, UtcMillis(1_000_500));
    assert!(matches!(refused, Err(SyncError::NotTheServer(_))), "{refused:?}");
    assert_eq!(standing(&a).checkpoint, None);
    // A request from an unknown device, and a request of no bytes.
    let stranger = LogRequest {
        at: UtcMillis(1),
        origin: String::new(),
        sizes: vec![],
        entries: vec![],
        statement: None,
    };
    let stranger = stranger.seal(&crate::entry::DeviceKey::from_secret([77; 32])).unwrap();
    for request in [&stranger[..], b""] {
        assert!(answer_log(&mut server.store, &server.key, request, UtcMillis(1)).is_err());
    }
    server.certify(a.device(), true);
    let request = a.log_request(&mut watching).unwrap().unwrap();
    let refused = answer_log(&mut server.store, &server.key, &request, UtcMillis(1));
    assert!(matches!(refused, Err(AnswerError::Revoked)));
}

#[test]
fn no_mutation_of_request_or_reply_crashes_or_is_believed() {
    let mut server = Server::new();
    let mut a = phone(1, &mut server);
    for n in 0..3 {
        record(&mut a, &mut server, &format!("remark {n}"));
    }
    let mut watching = a.log_watch().unwrap();
    let request = a.log_request(&mut watching).unwrap().unwrap();
    let reply = answer_log(&mut server.store, &server.key, &request, UtcMillis(1_000_000)).unwrap().reply;
    for at in 0..request.len() {
        let mut altered = request.clone();
        altered[at] ^= 1;
        assert!(answer_log(&mut server.store, &server.key, &altered, UtcMillis(1)).is_err(), "byte {at}");
    }
    for at in 0..reply.len() {
        let mut altered = reply.clone();
        altered[at] ^= 1;
        let mut watching = a.log_watch().unwrap();
        a.log_request(&mut watching).unwrap();
        assert!(watching.receive(a.store_mut(), &altered, UtcMillis(1_000_500)).is_err(), "byte {at}");
    }
    assert_eq!(standing(&a).checkpoint, None);
}
