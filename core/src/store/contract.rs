//! The suite every store passes, and what only a file can be asked.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a failed unwrap is a failed test")]

use super::*;
use crate::clock::Stamp;
use crate::entry::{Body, DeviceKey, Statement};
use crate::ids::{OperatorId, VisitId};

pub(super) const VISIT: Subject = Subject::Visit(VisitId([7; 16]));
const OTHER: Subject = Subject::Visit(VisitId([8; 16]));

pub(super) fn entry(n: u64) -> Entry {
    let says = Statement::Remark { text: format!("remark {n}") };
    let body = Body {
        about: VISIT,
        slot: says.slot(),
        says,
        follows: vec![],
        replaces: vec![],
        why: String::new(),
        by: OperatorId("op-1".into()),
        seq: n,
        prev: None,
        when: Stamp { at: UtcMillis(0), offset_minutes: 0, ahead_millis: None },
        place: None,
        seen: None,
        hand: None,
    };
    Entry::seal(body, &DeviceKey::from_secret([1; 32])).unwrap()
}

fn change(n: u8, held: bool) -> Write<'static> {
    Write::Change { subject: VISIT, hash: Digest([n; 32]), bytes: b"change bytes", held }
}

fn on_disk() -> (tempfile::TempDir, SqliteStore) {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("store.db");
    let store = SqliteStore::open(path.to_str().unwrap(), Durability::WriteAheadLog).unwrap();
    (folder, store)
}

pub(super) fn every_store(test: impl Fn(&mut dyn Store)) {
    test(&mut MemoryStore::new());
    let (_folder, mut store) = on_disk();
    test(&mut store);
}

#[test]
fn an_entry_comes_back_byte_for_byte_and_counts_once() {
    every_store(|store| {
        let (a, b) = (entry(1), entry(2));
        assert_eq!(store.commit(&[Write::Entry { subject: VISIT, entry: &a }]).unwrap(), [a.id]);
        let again = [Write::Entry { subject: VISIT, entry: &a }, Write::Entry { subject: VISIT, entry: &b }];
        assert_eq!(store.commit(&again).unwrap(), [b.id]);
        let rows = store.entries_of(VISIT).unwrap();
        assert!(rows.damaged.is_empty());
        assert_eq!(rows.rows.iter().map(|r| r.bytes.as_slice()).collect::<Vec<_>>(), [a.bytes(), b.bytes()]);
        let mut tally = SetDigest::default();
        tally.add(b.id);
        tally.add(a.id);
        assert_eq!(store.tally().unwrap(), tally);
    });
}

#[test]
fn one_entry_may_stand_in_two_documents() {
    every_store(|store| {
        let a = entry(1);
        store
            .commit(&[Write::Entry { subject: VISIT, entry: &a }, Write::Entry { subject: OTHER, entry: &a }])
            .unwrap();
        assert_eq!(store.entries_of(OTHER).unwrap().rows.len(), 1);
        assert_eq!(store.subjects().unwrap(), [VISIT, OTHER]);
        assert_eq!(store.tally().unwrap().count, 1);
    });
}

#[test]
fn changes_are_sent_until_they_are_held() {
    every_store(|store| {
        store.commit(&[change(1, false), change(2, true), change(3, false)]).unwrap();
        let waiting = |store: &dyn Store| -> Vec<u8> {
            store.changes_not_held(1 << 20).unwrap().iter().map(|c| c.hash.0[0]).collect()
        };
        assert_eq!(waiting(store), [1, 3]);
        assert_eq!(store.changes_not_held(1).unwrap().len(), 1, "at least one, however small the bound");
        store.commit(&[Write::ChangesHeld(&[(VISIT, Digest([1; 32]))])]).unwrap();
        assert_eq!(waiting(store), [3]);
        store.commit(&[change(2, false)]).unwrap();
        assert_eq!(waiting(store), [3], "what is held stays held");
        assert_eq!(store.changes_after(1, 1 << 20).unwrap().len(), 2);
        assert_eq!(store.newest_position().unwrap(), 3);
        assert!(store.has_change(VISIT, Digest([2; 32])).unwrap());
        assert!(!store.has_change(VISIT, Digest([9; 32])).unwrap());
        store.commit(&[Write::ChangesLacking(&[VISIT])]).unwrap();
        assert_eq!(waiting(store), [1, 2, 3], "a server that lost a document is sent all of it again");
    });
}

#[test]
fn one_change_may_stand_in_two_documents() {
    every_store(|store| {
        let under = |subject, held| Write::Change { subject, hash: Digest([1; 32]), bytes: b"same", held };
        store.commit(&[under(VISIT, false), under(OTHER, false), under(VISIT, false)]).unwrap();
        assert_eq!(store.changes_of(VISIT).unwrap().rows.len(), 1);
        assert_eq!(store.changes_of(OTHER).unwrap().rows.len(), 1);
        store.commit(&[Write::ChangesHeld(&[(VISIT, Digest([1; 32]))])]).unwrap();
        let waiting = store.changes_not_held(1 << 20).unwrap();
        assert_eq!(waiting.iter().map(|c| c.subject).collect::<Vec<_>>(), [OTHER], "each is told of alone");
        assert!(!store.has_change(Subject::Visit(VisitId([9; 16])), Digest([1; 32])).unwrap());
    });
}

#[test]
fn a_receipt_covers_what_it_names() {
    every_store(|store| {
        let (a, b) = (entry(1), entry(2));
        store
            .commit(&[Write::Entry { subject: VISIT, entry: &a }, Write::Entry { subject: VISIT, entry: &b }])
            .unwrap();
        assert_eq!(store.count_without_receipt().unwrap(), 2);
        store.commit(&[Write::Receipt { bytes: b"signed", entries: &[a.id] }]).unwrap();
        assert_eq!(store.entries_without_receipt(9).unwrap(), [b.id]);
        assert_eq!(store.receipts_of(a.id).unwrap(), [b"signed"]);
        assert!(store.receipts_of(b.id).unwrap().is_empty());
        assert!(store.entry(a.id).unwrap().unwrap().receipted);
    });
}

#[test]
fn the_small_things_come_back() {
    every_store(|store| {
        let device = DeviceId([5; 32]);
        store
            .commit(&[
                Write::Value { key: "cursor", value: b"9" },
                Write::Draft { key: "final pressure", text: "1" },
                Write::Draft { key: "final pressure", text: "12" },
                Write::Draft { key: "remark", text: "half a sen" },
                Write::Draft { key: "remark", text: "" },
                Write::Certificate { device, bytes: b"old" },
                Write::Certificate { device, bytes: b"new" },
                Write::Quarantine { subject: Some(VISIT), bytes: b"bad", why: "why", at: UtcMillis(5) },
                Write::Photo {
                    sha256: Digest([1; 32]),
                    length: 9,
                    media: "image/jpeg",
                    here: true,
                    held: false,
                },
                Write::Photo {
                    sha256: Digest([1; 32]),
                    length: 9,
                    media: "image/jpeg",
                    here: false,
                    held: true,
                },
            ])
            .unwrap();
        assert_eq!(store.value("cursor").unwrap().unwrap(), b"9");
        assert_eq!(store.value("nothing").unwrap(), None);
        assert_eq!(store.drafts().unwrap(), [("final pressure".to_owned(), "12".to_owned())]);
        assert_eq!(store.certificates().unwrap(), [(device, b"new".to_vec())]);
        assert_eq!(store.quarantined().unwrap()[0].why, "why");
        store.commit(&[Write::PurgeQuarantine]).unwrap();
        assert!(store.quarantined().unwrap().is_empty());
        let photo = store.photo(Digest([1; 32])).unwrap().unwrap();
        assert!(photo.here && photo.held, "neither flag is ever lost");
        store.commit(&[Write::PhotosLacking(&[Digest([1; 32]), Digest([2; 32])])]).unwrap();
        let photo = store.photo(Digest([1; 32])).unwrap().unwrap();
        assert!(photo.here && !photo.held, "but for a server that lacks it after all");
    });
}

#[test]
fn what_was_committed_is_there_after_reopening() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("store.db");
    let open = || SqliteStore::open(path.to_str().unwrap(), Durability::WriteAheadLog).unwrap();
    open().commit(&[Write::Entry { subject: VISIT, entry: &entry(1) }, change(1, false)]).unwrap();
    let store = open();
    assert_eq!(store.entries_of(VISIT).unwrap().rows.len(), 1);
    assert_eq!(store.changes_of(VISIT).unwrap().rows.len(), 1);
    assert_eq!(store.tally().unwrap().count, 1);
}

#[test]
fn a_damaged_row_is_named_and_the_others_still_read() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("store.db");
    let mut store = SqliteStore::open(path.to_str().unwrap(), Durability::WriteAheadLog).unwrap();
    let (a, b) = (entry(1), entry(2));
    store
        .commit(&[
            Write::Entry { subject: VISIT, entry: &a },
            Write::Entry { subject: VISIT, entry: &b },
            change(1, false),
        ])
        .unwrap();
    let raw = rusqlite::Connection::open(&path).unwrap();
    raw.execute("UPDATE entry SET bytes = x'00' WHERE id = ?1", [a.id.0]).unwrap();
    raw.execute("UPDATE change SET bytes = x'00'", []).unwrap();
    let rows = store.entries_of(VISIT).unwrap();
    assert_eq!(rows.damaged, [a.id.to_string()]);
    assert_eq!(rows.rows.len(), 1);
    assert_eq!(store.entry(a.id).unwrap(), None);
    assert_eq!(store.changes_of(VISIT).unwrap().damaged.len(), 1);
    assert!(store.changes_not_held(1 << 20).unwrap().is_empty());
}

#[test]
fn a_file_of_a_later_version_is_left_alone() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("store.db");
    let raw = rusqlite::Connection::open(&path).unwrap();
    raw.pragma_update(None, "user_version", 99).unwrap();
    drop(raw);
    let refused = SqliteStore::open(path.to_str().unwrap(), Durability::WriteAheadLog);
    assert!(matches!(refused, Err(StoreError::TooNew { found: 99, .. })));
}

#[test]
fn a_place_that_keeps_nothing_is_told_from_a_disk_that_fails() {
    let folder = tempfile::tempdir().unwrap();
    let other = folder.path().join("letter.txt");
    std::fs::write(&other, "no record store, and longer than its head of a hundred bytes".repeat(4)).unwrap();
    for path in [folder.path().join("nowhere/store.db"), other.clone()] {
        let refused = SqliteStore::open(path.to_str().unwrap(), Durability::WriteAheadLog);
        assert!(matches!(refused, Err(StoreError::NoPlace(_))), "{refused:?}");
    }
    assert!(std::fs::read_to_string(other).unwrap().starts_with("no record store"), "it is left as it was");
}

#[test]
fn commits_wait_for_the_disk() {
    let (_folder, store) = on_disk();
    drop(store);
    let folder = tempfile::tempdir().unwrap();
    for (durability, journal) in
        [(Durability::WriteAheadLog, "wal"), (Durability::RollbackJournal, "truncate")]
    {
        let path = folder.path().join(journal);
        let store = SqliteStore::open(path.to_str().unwrap(), durability).unwrap();
        let (mode, synchronous) = store.pragmas();
        assert_eq!((mode.as_str(), synchronous), (journal, 2), "2 is FULL");
    }
}

#[test]
fn commits_held_together_are_kept_together_or_not_at_all() {
    let (folder, mut store) = on_disk();
    let path = folder.path().join("store.db");
    let seen_by_others = || {
        let other = SqliteStore::open(path.to_str().unwrap(), Durability::WriteAheadLog).unwrap();
        other.tally().unwrap().count
    };
    let (a, b, c) = (entry(1), entry(2), entry(3));
    let put = |store: &mut dyn Store, entry: &Entry| store.commit(&[Write::Entry { subject: VISIT, entry }]);
    group_commit(&mut store, |store| {
        put(store, &a).unwrap();
        put(store, &b).unwrap();
        assert_eq!(store.tally().unwrap().count, 2, "seen at once by who wrote it");
        assert_eq!(seen_by_others(), 0, "and by nobody else yet");
    })
    .unwrap();
    assert_eq!(seen_by_others(), 2);
    // A panic takes all of it back, and the store goes on.
    let attempt = std::panic::catch_unwind(std::panic::AssertUnwindSafe(|| {
        group_commit(&mut store, |store| {
            put(store, &c).unwrap();
            panic!("while it was held back");
        })
    }));
    assert!(attempt.is_err());
    assert_eq!(store.tally().unwrap().count, 2);
    put(&mut store, &c).unwrap();
    assert_eq!(seen_by_others(), 3);
    // Where the database itself gave the transaction up (a full disk, say), nothing passes for kept.
    store.begin().unwrap();
    put(&mut store, &entry(4)).unwrap();
    store.connection.execute_batch("ROLLBACK").unwrap();
    assert!(put(&mut store, &entry(5)).is_err(), "what is lost is not gone on with");
    assert!(store.end().is_err());
    store.abandon();
    assert_eq!(seen_by_others(), 3);
    put(&mut store, &entry(4)).unwrap();
    assert_eq!(seen_by_others(), 4);
}
