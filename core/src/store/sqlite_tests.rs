//! What the SQLite store does beyond the contract: reopening, damaged rows, files of other versions and other kinds,
//! batches that fail.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a failed unwrap is a failed test")]

use super::contract::{VISIT, change, entry};
use super::contract_ledger::{batch, brought, round, signed, told};
use super::contract_scope::{Recount, Written, documents, entry as said, number, seal};
use super::*;
use crate::document::Document;
use crate::entry::{Defect, Statement};
use crate::ids::{DefectId, VisitId};

fn on_disk() -> (tempfile::TempDir, SqliteStore) {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("store.db");
    let store = SqliteStore::open(path.to_str().unwrap(), Durability::WriteAheadLog).unwrap();
    (folder, store)
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
    // A panic discards all commits of the group, and the store remains usable.
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
    // If the database itself rolled the transaction back (because the disk is full, for example), no commit
    // may be reported as kept.
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

#[test]
fn a_batch_that_fails_or_is_not_signed_for_leaves_nothing() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("ledger.db");
    let mut ledger = SqliteStore::open(path.to_str().unwrap(), Durability::WriteAheadLog).unwrap();
    let (one, two) = (brought(1), brought(2));
    let first = batch(&ledger, vec![round("round/a", 1, &[&one])]);
    ledger.apply(&first, &mut signed).unwrap();
    let before = told(&ledger);
    // The log cannot be written: what was written before it in the same batch is taken back.
    let fails = "CREATE TRIGGER fails BEFORE INSERT ON log BEGIN SELECT RAISE(ABORT, 'here'); END";
    ledger.connection.execute_batch(fails).unwrap();
    let second = batch(&ledger, vec![round("round/b", 1, &[]), round("round/a", 2, &[&two])]);
    let refused = ledger.apply(&second, &mut signed).unwrap_err();
    assert!(matches!(refused, ApplyError::NotWritten(StoreError::Database(_))), "{refused}");
    assert_eq!(told(&ledger), before);
    ledger.connection.execute_batch("DROP TRIGGER fails").unwrap();
    // There is no room.
    let pages: i64 = ledger.connection.query_row("PRAGMA page_count", [], |row| row.get(0)).unwrap();
    ledger.connection.pragma_update(None, "max_page_count", pages).unwrap();
    let much = Write::Draft { key: "much", text: &"x".repeat(1 << 20) };
    let full = Batch { beside: vec![much], ..batch(&ledger, vec![round("round/a", 2, &[&two])]) };
    let refused = ledger.apply(&full, &mut signed).unwrap_err();
    assert!(matches!(refused, ApplyError::NotWritten(StoreError::Full)), "{refused}");
    assert_eq!(told(&ledger), before);
    ledger.connection.pragma_update(None, "max_page_count", 1 << 30).unwrap();
    // Whoever signs stops.
    let stopped = std::panic::catch_unwind(std::panic::AssertUnwindSafe(|| {
        let mut stops = |_: &dyn Store, _: &[Sequenced]| -> Vec<SignedReceipt> { panic!("while signing") };
        let _ = ledger.apply(&second, &mut stops);
    }));
    assert!(stopped.is_err());
    assert_eq!(told(&ledger), before);
    ledger.apply(&second, &mut signed).unwrap();
    assert_eq!(ledger.tally().unwrap().count, 2, "and it goes on");
}

#[test]
fn a_file_of_the_first_version_becomes_one_of_this_with_everything_in_it() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("old.db");
    let a = entry(1);
    {
        let raw = rusqlite::Connection::open(&path).unwrap();
        raw.execute_batch(include_str!("migrations/0001.sql")).unwrap();
        raw.pragma_update(None, "user_version", 1).unwrap();
        raw.execute("INSERT INTO entry(id, bytes) VALUES(?1, ?2)", (a.id.0, a.bytes())).unwrap();
        raw.execute("INSERT INTO standing(subject, position) VALUES(?1, 1)", [VISIT.to_bytes()]).unwrap();
    }
    let open = |path: &std::path::Path| {
        SqliteStore::open(path.to_str().unwrap(), Durability::WriteAheadLog).unwrap()
    };
    let store = open(&path);
    assert_eq!(store.entry(a.id).unwrap().unwrap().bytes, a.bytes());
    assert_eq!(store.log().without_leaf(9).unwrap(), [a.id]);
    let fresh = folder.path().join("fresh.db");
    drop(open(&fresh));
    let schema = |path: &std::path::Path| -> Vec<String> {
        let raw = rusqlite::Connection::open(path).unwrap();
        let mut statement =
            raw.prepare("SELECT coalesce(sql, name) FROM sqlite_schema ORDER BY name").unwrap();
        statement.query_map([], |row| row.get(0)).unwrap().map(Result::unwrap).collect()
    };
    assert_eq!(schema(&path), schema(&fresh));
}

/// Creates a database as schema 2 would have written it.
fn written_by_schema_2(path: &std::path::Path, rows: &[(Subject, &Entry)], changes: &[(Subject, &[u8])]) {
    let raw = rusqlite::Connection::open(path).unwrap();
    raw.execute_batch(include_str!("migrations/0001.sql")).unwrap();
    raw.execute_batch(include_str!("migrations/0002.sql")).unwrap();
    raw.pragma_update(None, "user_version", 2).unwrap();
    let mut tally = SetDigest::default();
    for (subject, entry) in rows {
        let new = raw
            .execute("INSERT OR IGNORE INTO entry(id, bytes) VALUES(?1, ?2)", (entry.id.0, entry.bytes()))
            .unwrap();
        if new == 1 {
            tally.add(entry.id);
        }
        let place = "INSERT INTO standing SELECT ?1, position FROM entry WHERE id = ?2";
        raw.execute(place, (subject.to_bytes(), entry.id.0)).unwrap();
    }
    for (subject, bytes) in changes {
        let hash = crate::document::CheckedChange::hash_of(bytes).unwrap();
        let sql = "INSERT INTO change(subject, hash, bytes, digest, held) VALUES(?1, ?2, ?3, ?4, 1)
                   ON CONFLICT(hash) DO UPDATE SET held = max(held, excluded.held)";
        raw.execute(sql, (subject.to_bytes(), hash.0, bytes, Digest::of(bytes).0)).unwrap();
    }
    let value = "INSERT INTO value(key, value) VALUES('store/tally', ?1)";
    raw.execute(value, [tally.to_bytes()]).unwrap();
}

#[test]
fn a_database_of_before_says_of_sites_what_a_fresh_one_says() {
    let folder = tempfile::tempdir().unwrap();
    let documents = documents();
    let written = [
        Written::Remark(1),
        Written::Opened { car: 0, site: 0, nonce: true },
        Written::Opened { car: 1, site: 1, nonce: false },
        Written::Photo(2),
    ];
    let entries: Vec<Entry> = written.iter().map(said).collect();
    let rows: Vec<(Subject, &Entry)> =
        documents.iter().flat_map(|subject| entries.iter().map(|entry| (*subject, entry))).collect();
    let old = folder.path().join("old.db");
    written_by_schema_2(&old, &rows, &[]);
    let upgraded = SqliteStore::open(old.to_str().unwrap(), Durability::WriteAheadLog).unwrap();
    let fresh_path = folder.path().join("fresh.db");
    let mut fresh = SqliteStore::open(fresh_path.to_str().unwrap(), Durability::WriteAheadLog).unwrap();
    let mut recount = Recount::default();
    for (subject, entry) in rows {
        fresh.commit(&[Write::Entry { subject, entry }]).unwrap();
        recount.standing.entry(subject).or_default().insert(entry.id, entry.clone());
    }
    recount.check(&upgraded);
    recount.check(&fresh);
    let dump = |path: &std::path::Path| -> Vec<String> {
        let raw = rusqlite::Connection::open(path).unwrap();
        let sql = "SELECT hex(visit) || hex(car) || hex(site) || bound FROM opened_at
                   UNION ALL SELECT hex(subject) || hex(area) || fed FROM belonging
                   UNION ALL SELECT hex(area) || hex(tally) FROM area_tally
                   UNION ALL SELECT hex(sha256) || hex(subject) FROM photo_in
                   UNION ALL SELECT hex(area) || change FROM feed
                   UNION ALL SELECT coalesce(sql, name) FROM sqlite_schema ORDER BY 1";
        let mut statement = raw.prepare(sql).unwrap();
        statement.query_map([], |row| row.get(0)).unwrap().map(Result::unwrap).collect()
    };
    assert_eq!(dump(&old), dump(&fresh_path));
}

#[test]
fn a_change_that_was_dropped_under_its_second_document_is_put_back() {
    let folder = tempfile::tempdir().unwrap();
    let (visit, car) = (Subject::Visit(VisitId([7; 16])), Subject::Car(number(0).id()));
    let follows = seal(
        visit,
        Statement::Defect(Defect {
            defect: DefectId([1; 16]),
            fitting: None,
            what: "a bent handle".into(),
            needs_authority: false,
            photo: None,
        }),
    );
    let stays = said(&Written::Remark(1));
    let mut document = Document::new([9; 16]).unwrap();
    let first = document.add(std::slice::from_ref(&follows)).unwrap().unwrap();
    let second = document.add(std::slice::from_ref(&stays)).unwrap().unwrap();
    let old = folder.path().join("old.db");
    let rows = [(visit, &follows), (car, &follows), (visit, &stays)];
    // Under schema 2 the second offer of the first change left no row.
    written_by_schema_2(&old, &rows, &[(visit, &first), (car, &first), (visit, &second)]);
    let store = SqliteStore::open(old.to_str().unwrap(), Durability::WriteAheadLog).unwrap();
    let of_the_car = store.changes_of(car).unwrap().rows;
    assert_eq!(of_the_car.iter().map(|c| c.bytes.as_slice()).collect::<Vec<_>>(), [first.as_slice()]);
    assert_eq!(store.changes_of(visit).unwrap().rows.len(), 2, "and nothing else is");
    let waiting = store.changes_not_held(1 << 20).unwrap();
    assert_eq!(
        waiting.iter().map(|c| c.subject).collect::<Vec<_>>(),
        [car],
        "it is offered to the office again"
    );
    let newest = store.newest_position().unwrap();
    assert_eq!(of_the_car[0].position, newest, "whoever read up to here meets it");
    drop(store);
    let again = SqliteStore::open(old.to_str().unwrap(), Durability::WriteAheadLog).unwrap();
    assert_eq!(again.changes_of(car).unwrap().rows.len(), 1);
}
