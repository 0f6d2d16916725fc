//! The power is cut at every sync of recording, photographs, syncing, backing up and migrating, with what
//! was not synced lost, kept or torn; then the core's own store opens what is left. It opens, everything
//! that was acknowledged is there, nothing shows by halves, and work goes on. In both journal modes.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    missing_docs,
    reason = "a failed unwrap is a failed test"
)]

use std::collections::BTreeSet;
use std::path::Path;

use farsiding_core::book::{Book, BookParts, Draft, OpenVisit};
use farsiding_core::clock::{HandSetClock, UtcMillis};
use farsiding_core::document::Document;
use farsiding_core::entry::vocabulary::{Fitting, Part, Receiver};
use farsiding_core::entry::{Certificate, DeviceKey, Entry, OrganisationKey, Role, Statement};
use farsiding_core::ids::{Digest, EntryId, OperatorId, OrganisationId, SiteId, Subject};
use farsiding_core::store::{Durability, MemoryStore, SetDigest, SqliteStore, Store, StoreError, Write};
use farsiding_core::sync::{Answerer, Step};
use farsiding_core::units::{Amount, Unit};
use farsiding_power::{Kept, Operation, after_cut, mark, path, start, stop};
use farsiding_testkit::Dice;

const MODES: [Durability; 2] = [Durability::WriteAheadLog, Durability::RollbackJournal];
const PHOTO: Digest = Digest([7; 32]);

/// A folder in memory where there is one: the real disk has no part in this.
fn folder() -> tempfile::TempDir {
    let shm = Path::new("/dev/shm");
    if shm.is_dir() { tempfile::tempdir_in(shm) } else { tempfile::tempdir() }.unwrap()
}

fn book_on(store: SqliteStore, seed: u64) -> Book {
    Book::open(BookParts {
        store: Box::new(store),
        key: DeviceKey::from_secret([3; 32]),
        clock: Box::new(HandSetClock::at(UtcMillis(1_790_000_000_000), -360)),
        randomness: Box::new(Dice::of(seed)),
    })
}

fn op() -> OperatorId {
    OperatorId("op-1".into())
}

/// What was done: entries made together, in the order they were acknowledged, and the operations between.
struct Run {
    log: Vec<Operation>,
    batches: Vec<Vec<EntryId>>,
    /// From which mark on the photograph was noted, and from which the office's receipt was.
    photo_after: usize,
    receipt_after: usize,
    mode: Durability,
}

/// A day's work on a phone whose disk is recorded.
fn a_days_work(mode: Durability) -> Run {
    let folder = folder();
    let folder = folder.path();
    start(folder);
    let database = path(folder, "record.db");
    let open = |seed| book_on(SqliteStore::open(&database, mode).unwrap(), seed);
    let mut book = open(1);
    let mut batches: Vec<Vec<EntryId>> = Vec::new();
    let visit = OpenVisit {
        car: "ZZQX 4417".into(),
        site: SiteId([4; 16]),
        receiver: Receiver::FixedTank,
        procedure: Digest([1; 32]),
        spot: "1".into(),
    };
    let visit = Subject::Visit(book.open_visit(visit, &op()).unwrap());
    batches.push(book.entries(visit).unwrap().0.into_iter().map(|(entry, _)| entry.id).collect());
    mark(folder, batches.len());
    let mut work = |book: &mut Book, times: usize| {
        for n in 0..times {
            // Two of three also go into the car's document: one commit in two places.
            let effort =
                Statement::Effort { fitting: Fitting::LiquidA, part: Part::Valve, amount: amount(n) };
            let remark = Statement::Remark { text: format!("{n} {}", "long ".repeat(n * 97 % 700)) };
            let drafts = vec![Draft::of(effort.clone()), Draft::of(remark), Draft::of(effort)];
            batches.push(book.append(visit, drafts, &op()).unwrap());
            mark(folder, batches.len());
        }
        batches.len()
    };
    work(&mut book, 6);
    book.store_mut().commit(&[photo()]).unwrap();
    let photo_after = work(&mut book, 2);
    // The program ends and starts again: a log is folded into the database and deleted.
    drop(book);
    let mut book = open(2);
    work(&mut book, 4);
    sync(&mut book);
    let receipt_after = work(&mut book, 3);
    drop(book);
    let store = SqliteStore::open(&database, mode).unwrap();
    store.copy_to(folder.join("copy.db").to_str().unwrap()).unwrap();
    let mut book = book_on(store, 3);
    work(&mut book, 3);
    drop(book);
    Run { log: stop(folder), batches, photo_after, receipt_after, mode }
}

fn amount(n: usize) -> Amount {
    Amount::of(30.0 + n as f64, Unit::FootPound)
}

fn photo() -> Write<'static> {
    Write::Photo { sha256: PHOTO, length: 9, media: "image/jpeg", here: true, held: false }
}

fn sync(book: &mut Book) {
    let (mut server, key) = (MemoryStore::new(), OrganisationKey::from_secret([42; 32]));
    let certificate =
        Certificate::by_role(OrganisationId([1; 16]), book.device(), "phone", Role::Operator, UtcMillis(0));
    let bytes = certificate.seal(&key).unwrap();
    server.commit(&[Write::Certificate { device: book.device(), bytes: &bytes }]).unwrap();
    book.enrolled(key.public(), &bytes).unwrap();
    let mut session = book.sync_session().unwrap();
    loop {
        let request = book.sync_request(&mut session).unwrap();
        let answer = Answerer::new(&mut server, &key, 1).answer(&request, UtcMillis(5)).unwrap();
        if book.sync_receive(&mut session, &answer.reply).unwrap() == Step::Done {
            return;
        }
    }
}

/// Cuts the power after `done` operations and looks at what is left; why it is not as it must be, if so.
fn look(run: &Run, done: usize, kept: Kept) -> Result<(), String> {
    let folder = folder();
    after_cut(&run.log, done, kept, folder.path()).unwrap();
    let marks = run.log[..done].iter().filter_map(|operation| match operation {
        Operation::Mark(batches) => Some(*batches),
        _ => None,
    });
    let acknowledged = marks.max().unwrap_or(0);
    let file = folder.path().join("record.db");
    let store =
        SqliteStore::open(file.to_str().unwrap(), run.mode).map_err(|e| format!("no opening: {e}"))?;
    look_at(&store, run, acknowledged).map_err(|e: Trouble| e.0)?;
    if done.is_multiple_of(5) {
        go_on(store, run).map_err(|e| format!("no going on: {e}"))?;
    }
    Ok(())
}

struct Trouble(String);
impl From<StoreError> for Trouble {
    fn from(error: StoreError) -> Trouble {
        Trouble(error.to_string())
    }
}

fn look_at(store: &SqliteStore, run: &Run, acknowledged: usize) -> Result<(), Trouble> {
    let trouble = |why: String| Err(Trouble(why));
    let mut here = BTreeSet::new();
    for subject in store.subjects()? {
        let rows = store.entries_of(subject)?;
        let changes = store.changes_of(subject)?;
        if !rows.damaged.is_empty() || !changes.damaged.is_empty() {
            return trouble(format!("damaged rows: {:?} {:?}", rows.damaged, changes.damaged));
        }
        let ids: BTreeSet<EntryId> = rows.rows.iter().map(|row| row.id).collect();
        if rows.rows.iter().any(|row| Entry::open(&row.bytes).is_err()) {
            return trouble("an entry whose signature does not hold".to_owned());
        }
        let document = Document::load([9; 16], changes.rows.iter().map(|change| change.bytes.as_slice()));
        let document = document.map_err(|e| Trouble(e.to_string()))?;
        if document.entry_ids().into_iter().collect::<BTreeSet<_>>() != ids {
            return trouble(format!("document and entry table of {subject} differ"));
        }
        here.extend(ids);
    }
    for (at, batch) in run.batches.iter().enumerate() {
        let found = batch.iter().filter(|id| here.contains(id)).count();
        if at < acknowledged && found < batch.len() {
            return trouble(format!("batch {at} was acknowledged and is gone"));
        }
        if found != 0 && found != batch.len() {
            return trouble(format!("batch {at} is there by halves"));
        }
    }
    let mut tally = SetDigest::default();
    here.iter().for_each(|id| tally.add(*id));
    if store.tally()? != tally {
        return trouble("the tally is not that of the entries".to_owned());
    }
    if acknowledged >= run.photo_after && !store.photo(PHOTO)?.is_some_and(|photo| photo.here) {
        return trouble("the photograph's note is gone".to_owned());
    }
    if acknowledged >= run.receipt_after && store.receipts_of(run.batches[0][0])?.is_empty() {
        return trouble("a receipt is gone".to_owned());
    }
    Ok(())
}

/// Work goes on where it stopped, with no gap in the device's chain.
fn go_on(store: SqliteStore, run: &Run) -> Result<(), String> {
    let mut book = book_on(store, 77);
    let visit = Subject::Visit(farsiding_core::ids::VisitId([5; 16]));
    let draft = Draft::of(Statement::Remark { text: "and on".into() });
    let id = book.append(visit, vec![draft], &op()).map_err(|e| e.to_string())?[0];
    let subjects = book.store().subjects().map_err(|e| e.to_string())?;
    let all = subjects.iter().flat_map(|subject| book.entries(*subject).unwrap().0);
    let all: BTreeSet<(u64, EntryId)> = all.map(|(entry, _)| (entry.body.seq, entry.id)).collect();
    let before = run.batches.iter().flatten().filter(|id| all.iter().any(|(_, known)| known == *id)).count();
    let expected = before as u64 + 1;
    match all.last() {
        Some((seq, last)) if *last == id && *seq == expected && all.len() as u64 == expected => Ok(()),
        other => Err(format!("the chain ends in {other:?}, {before} entries before")),
    }
}

/// Every cut that is worth one: before and after each sync, and in every fashion. The ways to fail found.
fn cut_everywhere(run: &Run) -> (usize, Vec<String>) {
    let (mut cuts, mut failures) = (0, Vec::new());
    let mut try_at = |done: usize, kept: Kept| {
        cuts += 1;
        if let Err(why) = look(run, done, kept) {
            failures.push(format!("{:?}, after operation {done}, {kept:?}: {why}", run.mode));
        }
    };
    for (at, operation) in run.log.iter().enumerate() {
        let at_seed = at as u64;
        match operation {
            Operation::Sync(_) | Operation::Delete(..) => {
                try_at(at, Kept::Nothing);
                try_at(at, Kept::Everything);
                try_at(at, Kept::Beginning(at_seed));
                try_at(at, Kept::Anything(at_seed));
                try_at(at + 1, Kept::Anything(at_seed + 1));
            }
            // What was acknowledged must not hang on what comes after.
            Operation::Mark(_) => try_at(at + 1, Kept::Nothing),
            _ => {}
        }
    }
    (cuts, failures)
}

#[test]
fn whatever_a_power_cut_leaves_opens_with_everything_that_was_acknowledged() {
    for mode in MODES {
        let run = a_days_work(mode);
        let syncs = run.log.iter().filter(|operation| matches!(operation, Operation::Sync(_))).count();
        let (cuts, failures) = cut_everywhere(&run);
        println!("{mode:?}: {} operations, {syncs} syncs, {cuts} cuts", run.log.len());
        assert!(syncs > run.batches.len(), "every commit waits for the disk");
        assert!(
            failures.is_empty(),
            "{} of {cuts}: {:#?}",
            failures.len(),
            &failures[..failures.len().min(5)]
        );
    }
}

#[test]
fn a_sync_left_out_anywhere_would_be_seen() {
    for mode in MODES {
        let whole = a_days_work(mode);
        for (what, of) in [("any", ""), ("a journal's or log's", "-"), ("the database's", "record.db")] {
            let deaf = |operation: &Operation| match operation {
                Operation::Sync(file) if of == "record.db" => file == of,
                Operation::Sync(file) => file.contains(of),
                _ => false,
            };
            let log = whole.log.iter().filter(|operation| !deaf(operation)).cloned().collect();
            let run = Run { log, batches: whole.batches.clone(), ..whole };
            let seen = (0..run.log.len())
                .filter(|at| matches!(run.log[*at], Operation::Mark(_)))
                .find_map(|at| look(&run, at + 1, Kept::Nothing).err());
            println!("{mode:?} without {what} sync: {seen:?}");
            assert!(seen.is_some(), "{mode:?}: without {what} sync nothing is lost: the cuts are too tame");
        }
    }
}

/// The numbered migrations, as they lie in the core's folder.
fn migrations() -> Vec<String> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../core/src/store/migrations");
    let mut files: Vec<_> = std::fs::read_dir(folder).unwrap().map(|item| item.unwrap().path()).collect();
    files.sort();
    files.iter().map(|file| std::fs::read_to_string(file).unwrap()).collect()
}

/// Fills a database of the first schema, as a phone of the first version left it.
fn of_the_first_version(file: &str, first: &str, entries: &[Entry], subject: Subject) {
    let old = rusqlite::Connection::open(file).unwrap();
    old.execute_batch(first).unwrap();
    old.pragma_update(None, "user_version", 1).unwrap();
    let mut tally = SetDigest::default();
    for (entry, position) in entries.iter().zip(1i64..) {
        tally.add(entry.id);
        old.execute("INSERT INTO entry(id, bytes) VALUES(?1, ?2)", (entry.id.0, entry.bytes())).unwrap();
        old.execute("INSERT INTO standing VALUES(?1, ?2)", (subject.to_bytes(), position)).unwrap();
    }
    let change = Document::new([8; 16]).unwrap().add(entries).unwrap().unwrap();
    let hash = farsiding_core::document::CheckedChange::hash_of(&change).unwrap();
    let row = (subject.to_bytes(), hash.0, &change, Digest::of(&change).0);
    old.execute("INSERT INTO change(subject, hash, bytes, digest, held) VALUES(?1, ?2, ?3, ?4, 0)", row)
        .unwrap();
    old.execute("INSERT INTO value VALUES('store/tally', ?1)", [tally.to_bytes()]).unwrap();
}

fn schema(file: &Path) -> Vec<String> {
    let database = rusqlite::Connection::open(file).unwrap();
    let mut statement =
        database.prepare("SELECT sql FROM sqlite_schema WHERE sql IS NOT NULL ORDER BY name").unwrap();
    let rows = statement.query_map([], |row| row.get::<_, String>(0)).unwrap();
    rows.map(|row| row.unwrap().split_whitespace().collect::<Vec<_>>().join(" ")).collect()
}

#[test]
fn a_migration_broken_off_anywhere_is_taken_up_again_and_ends_as_a_fresh_file() {
    let migrations = migrations();
    let made = folder();
    let mut book =
        book_on(SqliteStore::open(made.path().join("x.db").to_str().unwrap(), MODES[0]).unwrap(), 1);
    let subject = Subject::Visit(farsiding_core::ids::VisitId([6; 16]));
    let drafts = (0..40).map(|n| Draft::of(Statement::Remark { text: format!("of before {n}") })).collect();
    let ids = book.append(subject, drafts, &op()).unwrap();
    let entries: Vec<Entry> = book.entries(subject).unwrap().0.into_iter().map(|(entry, _)| entry).collect();
    let fresh = schema(&made.path().join("x.db"));
    for mode in MODES {
        for from in 0..=1usize {
            // From nothing, and from the first version to the newest.
            let at_work = folder();
            start(at_work.path());
            let file = path(at_work.path(), "record.db");
            if from == 1 {
                of_the_first_version(&file, &migrations[0], &entries, subject);
            }
            mark(at_work.path(), 1);
            drop(SqliteStore::open(&file, mode).unwrap());
            let log = stop(at_work.path());
            let begun = log.iter().position(|o| matches!(o, Operation::Mark(_))).unwrap();
            let mut cuts = 0;
            for at in begun..=log.len() {
                for kept in [Kept::Nothing, Kept::Beginning(at as u64), Kept::Anything(at as u64)] {
                    let left = folder();
                    after_cut(&log, at, kept, left.path()).unwrap();
                    let file = left.path().join("record.db");
                    let store = SqliteStore::open(file.to_str().unwrap(), mode)
                        .unwrap_or_else(|e| panic!("{mode:?} from {from}, operation {at}, {kept:?}: {e}"));
                    if from == 1 {
                        let rows = store.entries_of(subject).unwrap().rows;
                        let found: Vec<EntryId> = rows.iter().map(|row| row.id).collect();
                        assert_eq!(found, ids, "{mode:?}, operation {at}, {kept:?}");
                    }
                    drop(store);
                    assert_eq!(schema(&file), fresh, "{mode:?} from {from}, operation {at}, {kept:?}");
                    cuts += 1;
                }
            }
            println!("{mode:?} from version {from} to {}: {cuts} cuts", migrations.len());
        }
    }
}
