//! Measures what the product costs beside the bare libraries it stands on, in one run, as ratios.
//!
//! `./tests/run bench` prints a table. Absolute times depend on the machine; the ratios are the point.
#![allow(clippy::unwrap_used, missing_docs, reason = "a bench that fails should stop")]

use std::time::{Duration, Instant};

use automerge::ReadDoc;
use automerge::transaction::Transactable;
use farsiding_core::book::{Book, BookParts, Draft, OpenVisit};
use farsiding_core::clock::{HandSetClock, Stamp, UtcMillis};
use farsiding_core::entry::vocabulary::{Measured, Place, Purpose, Receiver};
use farsiding_core::entry::{Body, DeviceKey, Entry, OrganisationKey, Reading, Statement};
use farsiding_core::evidence::{ledger_log, merkle};
use farsiding_core::ids::{OperatorId, Randomness, SiteId, Subject, VisitId};
use farsiding_core::procedure::Procedures;
use farsiding_core::store::{Durability, SqliteStore, Store as _, Write};
use farsiding_core::units::{Amount, Unit};

struct Os;
impl Randomness for Os {
    fn fill(&mut self, bytes: &mut [u8]) {
        getrandom::fill(bytes).unwrap();
    }
}

const VISIT: Subject = Subject::Visit(VisitId([7; 16]));

fn reading(n: u32) -> Statement {
    Statement::Reading(Reading {
        measured: Measured::Pressure,
        place: Place::Car,
        purpose: Purpose::Transfer,
        amount: Amount::of(80.0 + f64::from(n % 40), Unit::PsiGauge),
        instrument: "G-3".into(),
    })
}

fn book_at(path: &std::path::Path) -> Book {
    let store = SqliteStore::open(path.to_str().unwrap(), Durability::WriteAheadLog).unwrap();
    Book::open(BookParts {
        store: Box::new(store),
        key: DeviceKey::from_secret([5; 32]),
        clock: Box::new(HandSetClock::at(UtcMillis(1_800_000_000_000), -360)),
        randomness: Box::new(Os),
    })
}

/// The median of `rounds` timings.
fn median(rounds: usize, mut work: impl FnMut(usize)) -> Duration {
    let mut times: Vec<Duration> = (0..rounds)
        .map(|round| {
            let start = Instant::now();
            work(round);
            start.elapsed()
        })
        .collect();
    times.sort_unstable();
    times[times.len() / 2]
}

fn line(what: &str, ours: Duration, rival: &str, theirs: Duration, aim: f64) {
    let ratio = ours.as_secs_f64() / theirs.as_secs_f64();
    let verdict = if ratio <= aim { "within" } else { "MISSED" };
    println!(
        "{what:<46} {ours:>10.2?}   {rival:<34} {theirs:>10.2?}   {ratio:>5.2}x   aim {aim:.1}x {verdict}"
    );
}

/// One entry on the disk, against one bare transaction that writes the same bytes to the same kind of file.
fn durable_append(folder: &std::path::Path) {
    const ROUNDS: usize = 400;
    let by = OperatorId("op-1".into());
    let mut book = book_at(&folder.join("append.db"));
    for n in 0..20 {
        book.append(VISIT, vec![Draft::of(reading(n))], &by).unwrap();
    }
    let rows = book.store().changes_of(VISIT).unwrap().rows;
    let change = rows.last().unwrap().bytes.clone();
    let entry = book.store().entries_of(VISIT).unwrap().rows.last().unwrap().bytes.clone();
    let bare = rusqlite::Connection::open(folder.join("bare.db")).unwrap();
    bare.pragma_update(None, "journal_mode", "WAL").unwrap();
    bare.pragma_update(None, "synchronous", "FULL").unwrap();
    bare.execute_batch("CREATE TABLE t(id INTEGER PRIMARY KEY, bytes BLOB)").unwrap();
    let both = [entry, change].concat();
    // Interleaved, so that both meet the same disk.
    let (mut ours, mut theirs) = (Vec::new(), Vec::new());
    for round in 0..ROUNDS {
        let start = Instant::now();
        book.append(VISIT, vec![Draft::of(reading(round as u32))], &by).unwrap();
        ours.push(start.elapsed());
        let start = Instant::now();
        bare.execute("INSERT INTO t(bytes) VALUES(?1)", [&both]).unwrap();
        theirs.push(start.elapsed());
    }
    ours.sort_unstable();
    theirs.sort_unstable();
    line(
        "durable append of one signed entry",
        ours[ROUNDS / 2],
        "bare rusqlite, same bytes",
        theirs[ROUNDS / 2],
        1.3,
    );
}

/// Opening a 500-entry visit from the disk and folding it whole (steps, gate, computed values), against
/// loading the same entries as a bare Automerge document; and the two parts apart.
fn open_and_fold(folder: &std::path::Path) {
    let by = OperatorId("op-1".into());
    let mut book = book_at(&folder.join("fold.db"));
    let procedures = Procedures::built_in().unwrap();
    let opening = OpenVisit {
        car: "ZZQX 4417".into(),
        site: SiteId([4; 16]),
        receiver: Receiver::FixedTank,
        procedure: procedures.default_procedure().unwrap().digest,
        spot: "2".into(),
    };
    let visit = book.open_visit(opening, &by).unwrap();
    let subject = Subject::Visit(visit);
    book.append(subject, (0..9).map(|n| Draft::of(reading(n))).collect(), &by).unwrap();
    for chunk in 0..49 {
        let drafts = (0..10).map(|n| Draft::of(reading(chunk * 10 + n))).collect();
        book.append(subject, drafts, &by).unwrap();
    }
    let mut document = automerge::AutoCommit::new();
    let map = document.put_object(automerge::ROOT, "entries", automerge::ObjType::Map).unwrap();
    for row in book.store().entries_of(subject).unwrap().rows {
        document.put(&map, row.id.to_string(), automerge::ScalarValue::Bytes(row.bytes)).unwrap();
        document.commit();
    }
    let saved = document.save();
    let opened = median(60, |_| {
        let (entries, damaged) = book.entries(subject).unwrap();
        assert!(entries.len() == 500 && damaged.is_empty());
    });
    let gathered = book.gather().unwrap();
    let folded = median(60, |_| {
        assert_eq!(gathered.view(visit, &procedures).unwrap().history.len(), 500);
    });
    let ours = median(60, |_| {
        let view = book.gather().unwrap().view(visit, &procedures).unwrap();
        assert_eq!(view.history.len(), 500);
    });
    let theirs = median(60, |_| {
        let loaded = automerge::Automerge::load(&saved).unwrap();
        let map = loaded.get(automerge::ROOT, "entries").unwrap().unwrap().1;
        assert_eq!(loaded.length(&map), 500);
    });
    line("open and fold a 500-entry visit", ours, "bare automerge load", theirs, 1.5);
    println!("    of which reading and checking the entries {opened:.2?}, folding them {folded:.2?}");
}

/// What the ledger's log adds at the server: an entry committed with its leaf, against one without; then what
/// a checkpoint and proofs cost on a log of 100,000.
fn ledger_log_costs(folder: &std::path::Path) {
    const ROUNDS: usize = 400;
    const LONG: u64 = 100_000;
    let key = OrganisationKey::from_secret([7; 32]);
    let device = DeviceKey::from_secret([5; 32]);
    let entry = |n: u64| {
        let says = reading(n as u32);
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
        };
        Entry::seal(body, &device).unwrap()
    };
    let open = |name: &str| {
        SqliteStore::open(folder.join(name).to_str().unwrap(), Durability::WriteAheadLog).unwrap()
    };
    for (what, at_once) in [("an entry with its leaf", 1), ("20 entries with their leaves", 20)] {
        let (mut with, mut without) =
            (open(&format!("with{at_once}.db")), open(&format!("without{at_once}.db")));
        let (mut ours, mut theirs) = (Vec::new(), Vec::new());
        for round in 0..ROUNDS as u64 {
            let entries: Vec<Entry> = (0..at_once).map(|n| entry(round * at_once + n)).collect();
            let plain: Vec<Write> =
                entries.iter().map(|entry| Write::Entry { subject: VISIT, entry }).collect();
            let leaf = |entry: &Entry| Write::Leaf { entry: entry.id, received_at: UtcMillis(round as i64) };
            let logged: Vec<Write> = plain.iter().cloned().chain(entries.iter().map(leaf)).collect();
            let start = Instant::now();
            with.commit(&logged).unwrap();
            ours.push(start.elapsed());
            let start = Instant::now();
            without.commit(&plain).unwrap();
            theirs.push(start.elapsed());
        }
        ours.sort_unstable();
        theirs.sort_unstable();
        line(what, ours[ROUNDS / 2], "the same without", theirs[ROUNDS / 2], 1.5);
    }
    let mut store = open("long.db");
    let mut newest = entry(0).id;
    for chunk in 0..LONG / 1000 {
        let entries: Vec<Entry> = (0..1000).map(|n| entry(chunk * 1000 + n)).collect();
        newest = entries[999].id;
        let plain = entries.iter().map(|entry| Write::Entry { subject: VISIT, entry });
        store.commit(&plain.collect::<Vec<_>>()).unwrap();
    }
    let before = std::fs::metadata(folder.join("long.db")).unwrap().len();
    let start = Instant::now();
    ledger_log::bring_in(&mut store, &key.public(), UtcMillis(1)).unwrap();
    let brought_in = start.elapsed();
    drop(store);
    let mut store = open("long.db");
    let after = std::fs::metadata(folder.join("long.db")).unwrap().len();
    let start = Instant::now();
    ledger_log::publish(&mut store, &key, UtcMillis(2)).unwrap();
    let published = start.elapsed();
    let proven = median(200, |_| {
        ledger_log::inclusion(&store, newest, LONG).unwrap().unwrap();
    });
    let followed = median(200, |round| {
        merkle::stored_consistency(store.log(), LONG / 2 + round as u64, LONG).unwrap().unwrap();
    });
    println!(
        "    a log of {LONG}: brought in {brought_in:.2?}, {} bytes an entry; checkpoint {published:.2?}, \
         inclusion {proven:.2?}, consistency {followed:.2?}",
        (after - before) / LONG
    );
}

fn main() {
    let folder = tempfile::tempdir().unwrap();
    println!("each line: ours, the rival in the same run, their ratio");
    durable_append(folder.path());
    open_and_fold(folder.path());
    ledger_log_costs(folder.path());
}
