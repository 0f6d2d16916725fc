//! What recording and opening cost on a device, beside the bare libraries beneath.

use std::path::Path;

use automerge::ReadDoc as _;
use automerge::transaction::Transactable as _;
use farsiding_core::book::Draft;
use farsiding_core::ids::{Subject, VisitId};
use farsiding_core::procedure::Procedures;

use super::office::book_at;
use super::table::{Aim, Figure, Table, in_turn, middle, timed};
use super::workload::{operator, reading, visit};

/// One entry on the disk, against one bare transaction that writes the same bytes to the same kind of file.
pub fn durable_append(table: &mut Table, folder: &Path) {
    const SUBJECT: Subject = Subject::Visit(VisitId([7; 16]));
    let mut book = book_at(&folder.join("append.db"));
    for n in 0..20 {
        book.append(SUBJECT, vec![Draft::of(reading(n))], &operator()).unwrap();
    }
    let change = book.store().changes_of(SUBJECT).unwrap().rows.pop().unwrap().bytes;
    let entry = book.store().entries_of(SUBJECT).unwrap().rows.pop().unwrap().bytes;
    let bare = rusqlite::Connection::open(folder.join("bare.db")).unwrap();
    bare.pragma_update(None, "journal_mode", "WAL").unwrap();
    bare.pragma_update(None, "synchronous", "FULL").unwrap();
    bare.execute_batch("CREATE TABLE t(id INTEGER PRIMARY KEY, bytes BLOB)").unwrap();
    let both = [entry, change].concat();
    let (ours, theirs) = in_turn(
        400,
        |round| {
            book.append(SUBJECT, vec![Draft::of(reading(round as u32))], &operator()).unwrap();
        },
        |_| {
            bare.execute("INSERT INTO t(bytes) VALUES(?1)", [&both]).unwrap();
        },
    );
    let (ours, theirs) = (Figure::Time(ours), Figure::Time(theirs));
    table.row(
        "durable append of one signed entry",
        ours,
        "bare rusqlite, same bytes",
        theirs,
        Aim::AtMost(1.3),
    );
}

/// Opening a 500-entry visit from the disk and folding it whole (steps, gate, computed values), against
/// loading the same entries as a bare Automerge document; and the two parts apart.
pub fn open_and_fold(table: &mut Table, folder: &Path) {
    const ROUNDS: usize = 200;
    let mut book = book_at(&folder.join("fold.db"));
    let procedures = Procedures::built_in().unwrap();
    let visit = visit(&mut book, &procedures, 4417, 500, 10);
    let subject = Subject::Visit(visit);
    let mut document = automerge::AutoCommit::new();
    let map = document.put_object(automerge::ROOT, "entries", automerge::ObjType::Map).unwrap();
    for row in book.store().entries_of(subject).unwrap().rows {
        document.put(&map, row.id.to_string(), automerge::ScalarValue::Bytes(row.bytes)).unwrap();
        document.commit();
    }
    let saved = document.save();
    let (ours, theirs) = in_turn(
        ROUNDS,
        |_| {
            let view = book.gather().unwrap().view(visit, &procedures).unwrap();
            assert_eq!(view.history.len(), 500);
        },
        |_| {
            let loaded = automerge::Automerge::load(&saved).unwrap();
            let map = loaded.get(automerge::ROOT, "entries").unwrap().unwrap().1;
            assert_eq!(loaded.length(&map), 500);
        },
    );
    let read = middle((0..ROUNDS).map(|_| timed(|| drop(book.entries(subject).unwrap()))).collect());
    let gathered = book.gather().unwrap();
    let again = middle((0..ROUNDS).map(|_| timed(|| drop(gathered.view(visit, &procedures)))).collect());
    let (ours, theirs) = (Figure::Time(ours), Figure::Time(theirs));
    table.row("open and fold a 500-entry visit", ours, "bare automerge load", theirs, Aim::AtMost(1.5));
    table.note(&format!("reading and checking its entries {read:.2?}, folding them again {again:.2?}"));
}
