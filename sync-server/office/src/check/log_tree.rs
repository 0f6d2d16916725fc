//! Checks the ledger's log: each leaf, each stored hash of the tree above the leaves, and the published
//! roots.

use std::collections::BTreeMap;

use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::Trusts;
use farsiding_core::evidence::ledger_log::{self, Restored};
use farsiding_core::evidence::{Checkpoint, merkle};
use farsiding_core::ids::Digest;
use farsiding_core::store::{Store as _, StoreError};

use super::{CheckReport, Progress, Reading};

/// Returns the hash above two subtrees of equal size.
fn above(left: Digest, right: Digest) -> Digest {
    merkle::root(&[left, right])
}

/// The tree while it is built leaf by leaf. For each level it holds the last hash that waits for its right
/// neighbour.
#[derive(Default)]
struct Growing {
    waiting: Vec<Option<Digest>>,
}

impl Growing {
    /// Adds a leaf's hash. `completed` receives the level, the place and the hash of each subtree that the
    /// leaf completes.
    fn add(&mut self, number: u64, leaf: Digest, mut completed: impl FnMut(u32, u64, Digest)) {
        let (mut hash, mut level, mut place) = (leaf, 0usize, number);
        loop {
            if self.waiting.len() <= level {
                self.waiting.push(None);
            }
            if place & 1 == 0 {
                self.waiting[level] = Some(hash);
                return;
            }
            let Some(left) = self.waiting[level].take() else { return };
            hash = above(left, hash);
            level += 1;
            place >>= 1;
            completed(u32::try_from(level).unwrap_or(u32::MAX), place, hash);
        }
    }

    /// Returns the root over the leaves added so far, computed from the waiting subtrees, the smallest first.
    fn root(&self) -> Digest {
        let mut root: Option<Digest> = None;
        for left in self.waiting.iter().flatten() {
            root = Some(root.map_or(*left, |right| above(*left, right)));
        }
        root.unwrap_or_else(|| merkle::root(&[]))
    }
}

/// Returns the published checkpoints by their number of leaves. Each must be a root of this tree.
fn published(
    reading: &Reading,
    key: &dyn Trusts,
    report: &mut CheckReport,
) -> Result<BTreeMap<u64, Vec<Checkpoint>>, StoreError> {
    let store = &reading.store;
    let origin = ledger_log::origin(store, &key.root())?;
    // What the log published before a restore holds up to the point that the backup had reached.
    let mut reaches: BTreeMap<String, u64> = BTreeMap::new();
    for bytes in ledger_log::restores(store)? {
        match Restored::open(&bytes, key) {
            Ok(restored) => {
                let reach = reaches.entry(restored.before).or_insert(restored.size);
                *reach = restored.size.min(*reach);
            }
            Err(why) => {
                report.damaged_row("log", "a declaration that a backup was put back", why.to_string())
            }
        }
    }
    let mut statement =
        reading.ledger.prepare("SELECT size, note FROM checkpoint ORDER BY number").map_err(failed)?;
    let rows = statement
        .query_map([], |row| Ok((row.get::<_, i64>(0)?.cast_unsigned(), row.get::<_, String>(1)?)))
        .map_err(failed)?;
    let mut published: BTreeMap<u64, Vec<Checkpoint>> = BTreeMap::new();
    for row in rows {
        let (size, note) = row.map_err(failed)?;
        match Checkpoint::open(&note, key) {
            Ok(checkpoint) if checkpoint.size != size => {
                report.damaged_row(
                    "log",
                    format!("the checkpoint of {size} entries"),
                    "its note is of another size",
                );
            }
            Ok(checkpoint) => {
                let holds = checkpoint.origin == origin
                    || reaches.get(&checkpoint.origin).is_some_and(|reach| size <= *reach);
                if holds {
                    published.entry(size).or_default().push(checkpoint);
                }
            }
            Err(why) => {
                report.damaged_row("log", format!("the checkpoint of {size} entries"), why.to_string())
            }
        }
    }
    Ok(published)
}

fn failed(error: rusqlite::Error) -> StoreError {
    StoreError::Database(error.to_string())
}

fn held_to(
    published: &BTreeMap<u64, Vec<Checkpoint>>,
    size: u64,
    root: impl FnOnce() -> Digest,
    report: &mut CheckReport,
) {
    let Some(at_this_size) = published.get(&size) else { return };
    let root = root();
    for _ in at_this_size.iter().filter(|checkpoint| checkpoint.root != root) {
        let why = "it was published with another root than the entries here have";
        report.damaged_row("log", format!("the checkpoint of {size} entries"), why);
    }
}

/// Checks the log from its first leaf. Returns false when told to stop.
pub(super) fn check(
    reading: &Reading,
    key: &dyn Trusts,
    report: &mut CheckReport,
    progress: Progress<'_>,
) -> Result<bool, StoreError> {
    let store = &reading.store;
    let published = published(reading, key, report)?;
    let size = store.log().size()?;
    let (mut tree, mut before) = (Growing::default(), UtcMillis(i64::MIN));
    held_to(&published, 0, || tree.root(), report);
    for number in 0..size {
        if number % 500 == 0 && !progress("leaves of the log", number, size) {
            return Ok(false);
        }
        let Some(leaf) = store.log().leaf(number)? else {
            let why =
                "it is not here, or its entry is not; nothing after it can be held to what was published";
            report.damaged_row("log", format!("leaf {number}"), why);
            return Ok(true);
        };
        report.leaves += 1;
        if leaf.received_at < before {
            let why = format!(
                "it came in at {}, and the one before it at {}",
                leaf.received_at.rfc3339(),
                before.rfc3339()
            );
            report.damaged_row("log", format!("leaf {number}"), why);
        }
        before = before.max(leaf.received_at);
        let mut completed = Vec::new();
        tree.add(number, leaf.hash(), |level, place, hash| completed.push((level, place, hash)));
        for (level, place, hash) in completed {
            let why = match store.log().subtree_hash(level, place)? {
                Some(stored) if stored == hash => continue,
                Some(_) => "it is not what the leaves below it give",
                None => "it is missing",
            };
            report.damaged_row("log", format!("stored hash {level}/{place}"), why);
        }
        held_to(&published, number + 1, || tree.root(), report);
    }
    if let Some((beyond, _)) = published.range(size + 1..).next_back() {
        // The log may have grown since its size was read, but a checkpoint never appears before its leaves.
        if store.log().size()? < *beyond {
            let why = format!("a checkpoint of {beyond} entries was published, and {size} leaves are here");
            report.damaged_row("log", "the log's end", why);
        }
    }
    for entry in without_leaf(reading)? {
        report.damaged_row("entry", entry, "it has no leaf in the log");
    }
    let strays: i64 = reading
        .ledger
        .query_row("SELECT count(*) FROM log WHERE entry NOT IN (SELECT position FROM entry)", [], |row| {
            row.get(0)
        })
        .map_err(failed)?;
    if strays > 0 {
        report.damaged_row("log", format!("{strays} leaves"), "their entries are not here");
    }
    Ok(true)
}

/// Returns the entries without a leaf in the log. The office's own entries are excluded for a moment, because
/// their leaf follows shortly after the entry.
fn without_leaf(reading: &Reading) -> Result<Vec<String>, StoreError> {
    let first = reading.store.log().without_leaf(100)?;
    if first.is_empty() {
        return Ok(Vec::new());
    }
    std::thread::sleep(std::time::Duration::from_secs(1));
    let still = match &reading.live {
        Some(live) => live.log().without_leaf(100)?,
        None => reading.store.log().without_leaf(100)?,
    };
    Ok(still.iter().filter(|id| first.contains(id)).map(ToString::to_string).collect())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_tree_that_grows_has_the_root_of_all_its_leaves() {
        let leaves: Vec<Digest> = (0..70u8).map(|n| merkle::leaf_hash(&[n])).collect();
        let mut tree = Growing::default();
        for (number, leaf) in (0u64..).zip(&leaves) {
            tree.add(number, *leaf, |level, place, hash| {
                let from = usize::try_from(place << level).unwrap_or(0);
                assert_eq!(hash, merkle::root(&leaves[from..from + (1 << level)]), "{level}/{place}");
            });
            let n = usize::try_from(number).unwrap_or(0) + 1;
            assert_eq!(tree.root(), merkle::root(&leaves[..n]), "{n} leaves");
        }
    }
}
