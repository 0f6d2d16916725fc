//! What the ledger's log costs the office.

use std::path::Path;
use std::time::{Duration, Instant};

use farsiding_core::clock::{Stamp, UtcMillis};
use farsiding_core::entry::{Body, DeviceKey, Entry, OrganisationKey};
use farsiding_core::evidence::{ledger_log, merkle};
use farsiding_core::ids::{Subject, VisitId};
use farsiding_core::store::{Durability, SqliteStore, Store as _, Write};

use super::table::{Aim, Figure, Table, middle, timed};
use super::workload::{operator, reading};

const VISIT: Subject = Subject::Visit(VisitId([7; 16]));

fn median(work: &dyn Fn(u64)) -> Duration {
    middle((0..200).map(|round| timed(|| work(round))).collect())
}

/// What the ledger's log adds at the server: an entry committed with its leaf, against one without; then what
/// a checkpoint and proofs cost on a log of 100,000.
pub fn ledger_log(table: &mut Table, folder: &Path) {
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
            by: operator(),
            seq: n,
            prev: None,
            when: Stamp { at: UtcMillis(0), offset_minutes: 0, ahead_millis: None },
            place: None,
            seen: None,
            hand: None,
            done: None,
            rests_on: None,
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
            let leaf = |entry: &Entry| Write::Leaf {
                entry: entry.id,
                received_at: UtcMillis(round as i64),
                about: Some(entry.body.about),
            };
            let logged: Vec<Write> = plain.iter().cloned().chain(entries.iter().map(leaf)).collect();
            let start = Instant::now();
            with.commit(&logged).unwrap();
            ours.push(start.elapsed());
            let start = Instant::now();
            without.commit(&plain).unwrap();
            theirs.push(start.elapsed());
        }
        let (ours, theirs) = (Figure::Time(middle(ours)), Figure::Time(middle(theirs)));
        table.row(what, ours, "the same without", theirs, Aim::AtMost(1.5));
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
    let proven = median(&|_| {
        ledger_log::inclusion(&store, newest, LONG).unwrap().unwrap();
    });
    let followed = median(&|round| {
        merkle::stored_consistency(store.log(), LONG / 2 + round, LONG).unwrap().unwrap();
    });
    table.note(&format!(
        "a log of {LONG}: brought in {brought_in:.2?}, {} bytes an entry; checkpoint {published:.2?}, \
         inclusion {proven:.2?}, consistency {followed:.2?}",
        (after - before) / LONG
    ));
}
