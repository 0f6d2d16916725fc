//! The chain of each device, stored as runs: stretches of entries each of which names the one before it.
//!
//! A device with a million entries in order is a single run, so gaps are found without keeping every entry in
//! memory. The result is the same as that of the core's `Chains`, which keeps all entries.

use std::collections::BTreeMap;

use farsiding_core::entry::{Entry, LastEntry};
use farsiding_core::ids::{DeviceId, EntryId};
use farsiding_core::{Arg, Message, message};
use rusqlite::{Connection, params};

use super::IndexError;
use super::ledger_reader::LedgerReader;

/// A run of consecutive entries of one device.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Run {
    first: u64,
    last: u64,
    prev: Option<EntryId>,
    last_id: EntryId,
}

/// A fault in a device's chain.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub enum Gap {
    /// Entries that are missing here.
    Missing {
        /// The first missing number.
        from: u64,
        /// The last missing number.
        to: u64,
    },
    /// Different entries with the same number.
    Doubled {
        /// The number.
        from: u64,
    },
    /// An entry whose stated predecessor is not the one that is here.
    Broken {
        /// The number of the entry.
        at: u64,
    },
}

impl Gap {
    /// Returns the fault as a sentence.
    pub fn sentence(&self, device: &str) -> Message {
        let device = Arg::typed(device);
        match self {
            Gap::Missing { from, to } if from == to => {
                message!("chain-not-arrived-one", entry = *from, device = device)
            }
            Gap::Missing { from, to } => {
                message!("chain-not-arrived", from = *from, to = *to, device = device)
            }
            Gap::Doubled { from } => message!("chain-doubled-at-office", entry = *from, device = device),
            Gap::Broken { at } => message!("chain-broken", entry = *at, device = device),
        }
    }
}

/// The runs of the devices with entries in a batch.
#[derive(Debug, Default)]
pub struct Runs(BTreeMap<DeviceId, Vec<Run>>);

impl Runs {
    /// Adds an entry that was not added before.
    ///
    /// # Errors
    /// Returns an [`IndexError`] when the index or the ledger cannot be read.
    pub fn add(&mut self, index: &Connection, entry: &Entry) -> Result<(), IndexError> {
        if let std::collections::btree_map::Entry::Vacant(place) = self.0.entry(entry.device) {
            place.insert(read(index, entry.device)?);
        }
        let runs = self.0.entry(entry.device).or_default();
        put(runs, entry.body.seq, entry.id, entry.body.prev);
        Ok(())
    }

    /// Writes the runs to the index.
    ///
    /// # Errors
    /// Returns an [`IndexError`] when the index or the ledger cannot be read.
    pub fn write(self, index: &Connection) -> Result<(), IndexError> {
        for (device, runs) in self.0 {
            index.prepare_cached("DELETE FROM run WHERE device = ?1")?.execute([device.0])?;
            let mut insert = index.prepare_cached(
                "INSERT INTO run(device, first, last, prev, last_id) VALUES(?1, ?2, ?3, ?4, ?5)",
            )?;
            for run in runs {
                let prev = run.prev.map(|id| id.0);
                let (first, last) = (run.first.cast_signed(), run.last.cast_signed());
                insert.execute(params![device.0, first, last, prev, run.last_id.0])?;
            }
        }
        Ok(())
    }
}

fn read(index: &Connection, device: DeviceId) -> Result<Vec<Run>, IndexError> {
    let sql = "SELECT first, last, prev, last_id FROM run WHERE device = ?1";
    let mut statement = index.prepare_cached(sql)?;
    let rows = statement.query_map([device.0], |row| {
        Ok(Run {
            first: row.get::<_, i64>(0)?.cast_unsigned(),
            last: row.get::<_, i64>(1)?.cast_unsigned(),
            prev: row.get::<_, Option<[u8; 32]>>(2)?.map(EntryId),
            last_id: EntryId(row.get(3)?),
        })
    })?;
    Ok(rows.collect::<Result<_, _>>()?)
}

fn put(runs: &mut Vec<Run>, seq: u64, id: EntryId, prev: Option<EntryId>) {
    let before =
        runs.iter().position(|run| run.last.checked_add(1) == Some(seq) && prev == Some(run.last_id));
    let after = runs.iter().position(|run| seq.checked_add(1) == Some(run.first) && run.prev == Some(id));
    match (before, after) {
        (Some(before), Some(after)) => {
            let (last, last_id) = (runs[after].last, runs[after].last_id);
            runs[before].last = last;
            runs[before].last_id = last_id;
            runs.swap_remove(after);
        }
        (Some(before), None) => {
            runs[before].last = seq;
            runs[before].last_id = id;
        }
        (None, Some(after)) => {
            runs[after].first = seq;
            runs[after].prev = prev;
        }
        (None, None) => runs.push(Run { first: seq, last: seq, prev, last_id: id }),
    }
}

fn gaps_in(mut runs: Vec<Run>) -> Vec<Gap> {
    runs.sort_by_key(|run| (run.first, run.last));
    let mut gaps = Vec::new();
    let mut covered = 0u64;
    for (at, run) in runs.iter().enumerate() {
        if run.first > covered.saturating_add(1) {
            gaps.push(Gap::Missing { from: covered + 1, to: run.first - 1 });
        }
        if at > 0 && run.first <= covered {
            gaps.push(Gap::Doubled { from: run.first });
        }
        let sound = match run.prev {
            None => run.first <= 1,
            Some(prev) if run.first > 1 => {
                // The entry before this run may be missing; if it is here, it must be the one the run names.
                let before = runs.iter().filter(|other| other.last.checked_add(1) == Some(run.first));
                let mut here = before.map(|other| other.last_id).peekable();
                let covered_before = runs.iter().any(|o| o.first < run.first && run.first - 1 <= o.last);
                (here.peek().is_none() && !covered_before) || here.any(|id| id == prev)
            }
            Some(_) => false,
        };
        if !sound {
            gaps.push(Gap::Broken { at: run.first });
        }
        covered = covered.max(run.last);
    }
    gaps.sort();
    gaps.dedup();
    gaps
}

/// Returns the faults in a device's chain. Entries that are unreadable in the ledger are no fault of the
/// chain, because the device did not leave anything out.
///
/// # Errors
/// Returns an [`IndexError`] when the index or the ledger cannot be read.
pub fn gaps_beside(
    index: &Connection,
    device: DeviceId,
    reader: &LedgerReader,
) -> Result<Vec<Gap>, IndexError> {
    let runs = read(index, device)?;
    let mut gaps = Vec::new();
    for gap in gaps_in(runs.clone()) {
        let Gap::Missing { from, to } = gap else {
            gaps.push(gap);
            continue;
        };
        let mut unreadable = 0;
        for prev in runs.iter().filter(|run| run.first == to + 1).filter_map(|run| run.prev) {
            unreadable = reader.unreadable_before(prev, to)?.max(unreadable);
        }
        let to = to.saturating_sub(unreadable);
        if to >= from {
            gaps.push(Gap::Missing { from, to });
        }
    }
    Ok(gaps)
}

/// Returns the newest entry of a device that is in the ledger.
///
/// # Errors
/// Returns an [`IndexError`] when the index or the ledger cannot be read.
pub fn newest_of(index: &Connection, device: DeviceId) -> Result<Option<LastEntry>, IndexError> {
    let newest = read(index, device)?.into_iter().max_by_key(|run| run.last);
    Ok(newest.map(|run| LastEntry { seq: run.last, entry: run.last_id }))
}

/// Returns the faults in the chains of all devices.
///
/// # Errors
/// Returns an [`IndexError`] when the index or the ledger cannot be read.
pub fn all_gaps(index: &Connection, reader: &LedgerReader) -> Result<Vec<(DeviceId, Gap)>, IndexError> {
    // The chain of a device without faults is one run that begins at 1, so only the other devices are
    // examined.
    let mut statement = index.prepare_cached(
        "SELECT device FROM run GROUP BY device HAVING count(*) > 1 OR min(first) <> 1 OR max(prev) IS NOT NULL",
    )?;
    let rows = statement.query_map([], |row| Ok(DeviceId(row.get(0)?)))?;
    let mut gaps = Vec::new();
    for device in rows {
        let device = device?;
        gaps.extend(gaps_beside(index, device, reader)?.into_iter().map(|gap| (device, gap)));
    }
    Ok(gaps)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]
    use super::*;
    use farsiding_core::clock::{Stamp, UtcMillis};
    use farsiding_core::entry::{Body, DeviceKey, Statement};
    use farsiding_core::ids::{OperatorId, Subject, VisitId};
    use farsiding_core::view::{ChainGap, Chains};

    fn entry(key: &DeviceKey, seq: u64, prev: Option<EntryId>, text: &str) -> Entry {
        let says = Statement::Remark { text: text.to_owned() };
        let body = Body {
            about: Subject::Visit(VisitId([1; 16])),
            slot: says.slot(),
            says,
            follows: Vec::new(),
            replaces: Vec::new(),
            why: String::new(),
            by: OperatorId("op".to_owned()),
            seq,
            prev,
            when: Stamp { at: UtcMillis(0), offset_minutes: 0, ahead_millis: None },
            place: None,
            seen: None,
            hand: None,
            done: None,
            rests_on: None,
        };
        Entry::seal(body, key).unwrap()
    }

    /// Returns the faults that the core finds in the same entries, as values of this file.
    fn by_the_core(entries: &[Entry]) -> Vec<Gap> {
        let mut gaps: Vec<Gap> = Chains::of(entries)
            .gaps()
            .into_iter()
            .map(|gap| match gap {
                ChainGap::Missing { from, to, .. } => Gap::Missing { from, to },
                ChainGap::Doubled { seq, .. } => Gap::Doubled { from: seq },
                ChainGap::Broken { seq, .. } => Gap::Broken { at: seq },
            })
            .collect();
        gaps.sort();
        gaps.dedup();
        gaps
    }

    /// Entries of several devices are left out, duplicated and broken, and arrive in any order. The runs find
    /// the same faults as the core, except that of duplicated numbers only the first is named.
    #[test]
    fn runs_say_what_the_core_says_of_every_entry() {
        let seed = 20_261_125u64;
        println!("seed {seed}");
        let mut dice = farsiding_testkit::Dice::of(seed);
        let mut roll = |most: u64| dice.next() % most;
        let key = DeviceKey::from_secret([9; 32]);
        for round in 0..300 {
            let mut chain: Vec<Entry> = Vec::new();
            for seq in 1..=12u64 {
                let prev = chain.last().map(|before: &Entry| before.id);
                chain.push(entry(&key, seq, prev, &format!("{round}")));
            }
            let mut held: Vec<Entry> = chain.iter().filter(|_| roll(5) > 0).cloned().collect();
            if roll(3) == 0 {
                let at = roll(11) + 1;
                held.push(entry(&key, at + 1, Some(chain[usize::try_from(at).unwrap() - 1].id), "copied"));
            }
            if roll(4) == 0 {
                held.push(entry(&key, 14, Some(EntryId([3; 32])), "names another"));
            }
            for at in (1..held.len()).rev() {
                held.swap(at, usize::try_from(roll(at as u64 + 1)).unwrap());
            }
            let mut runs = Vec::new();
            for entry in &held {
                put(&mut runs, entry.body.seq, entry.id, entry.body.prev);
            }
            let (here, core) = (gaps_in(runs), by_the_core(&held));
            let missing = |gaps: &[Gap]| -> Vec<Gap> {
                gaps.iter().filter(|gap| matches!(gap, Gap::Missing { .. })).cloned().collect()
            };
            assert_eq!(missing(&here), missing(&core), "round {round}");
            assert_eq!(here.is_empty(), core.is_empty(), "round {round}: {here:?} {core:?}");
            let first_doubled =
                |gaps: &[Gap]| gaps.iter().find(|g| matches!(g, Gap::Doubled { .. })).cloned();
            assert_eq!(first_doubled(&here), first_doubled(&core), "round {round}: {here:?} {core:?}");
        }
    }

    #[test]
    fn a_sound_chain_is_one_run_however_it_came_in() {
        let key = DeviceKey::from_secret([9; 32]);
        let mut chain: Vec<Entry> = Vec::new();
        for seq in 1..=50 {
            chain.push(entry(&key, seq, chain.last().map(|before: &Entry| before.id), "x"));
        }
        let mut runs = Vec::new();
        for at in (0..50).step_by(2).chain((1..50).step_by(2)) {
            put(&mut runs, chain[at].body.seq, chain[at].id, chain[at].body.prev);
        }
        assert_eq!(runs.len(), 1);
        assert!(gaps_in(runs).is_empty());
    }
}
