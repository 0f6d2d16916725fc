//! Checks of what a packet says of the log: its checkpoints, the place of every entry, a checkpoint from elsewhere, and
//! whether time stamps name their checkpoints.
//!
//! Does not live here: which entries the log counts and are not here (`whole`, `check`), whether witnesses and stamping
//! authorities are believed (`witnesses`).

use std::collections::{BTreeMap, BTreeSet};

use super::check::{Opened, OtherNote};
use super::parts::{Log, Parts};
use super::report::{CheckReport, Code};
use crate::clock::UtcMillis;
use crate::entry::Trusts;
use crate::ids::{Digest, EntryId, Subject};
use crate::log::Checkpoint;
use crate::tree::merkle;

/// The log: checkpoints, their agreement, every entry's place. Returns the entries it speaks for that are
/// not here.
pub(super) fn check(
    parts: &Parts,
    opened: &Opened,
    key: &dyn Trusts,
    report: &mut CheckReport,
) -> Vec<EntryId> {
    let log = &parts.log;
    let here: BTreeSet<EntryId> = opened.all().map(|entry| entry.id).collect();
    let listed: BTreeSet<EntryId> = log.leaves.iter().map(|leaf| leaf.entry).collect();
    let checkpoints: Vec<Option<Checkpoint>> = log
        .checkpoints
        .iter()
        .map(|note| {
            Checkpoint::open(note, key)
                .map_err(|why| {
                    report.broken(Code::ForgedCheckpoint, format!("a checkpoint does not hold: {why}"))
                })
                .ok()
        })
        .collect();
    for (at, pair) in checkpoints.windows(2).enumerate() {
        let [Some(old), Some(new)] = pair else { continue };
        let proof = log.consistency.get(at).map_or(&[][..], Vec::as_slice);
        if new.size < old.size || !agree(old, new, proof) {
            let what =
                format!("the checkpoints of size {} and {} cannot both be of one log", old.size, new.size);
            report.broken(Code::LogFork, what);
        }
    }
    let last = checkpoints.last().and_then(Option::as_ref);
    let mut all = last.is_some();
    if log.checkpoints.is_empty() {
        report.broken(Code::ForgedCheckpoint, "there is no checkpoint");
    }
    let mut before: Option<(u64, UtcMillis)> = None;
    for leaf in &log.leaves {
        if let Some(last) = last {
            let root = merkle::root_by_path(leaf.hash(), leaf.number, last.size, &leaf.path);
            if root != Some(last.root) {
                all = false;
                let what = format!("the log does not hold entry {} at number {}", leaf.entry, leaf.number);
                report.broken(Code::UnloggedEntry, what);
            }
        }
        if before.is_some_and(|(number, at)| leaf.number <= number || leaf.received_at < at) {
            let what = format!("the log's numbers or times fall at number {}", leaf.number);
            report.broken(Code::LogOrder, what);
        }
        before = Some((leaf.number, leaf.received_at));
    }
    let about: BTreeMap<EntryId, Subject> = opened.all().map(|entry| (entry.id, entry.body.about)).collect();
    for leaf in &log.leaves {
        let told = leaf.about.zip(about.get(&leaf.entry));
        if let Some((told, about)) = told.filter(|(told, about)| told != *about) {
            all = false;
            let what = format!("the log says that entry {} is about {told}; it is about {about}", leaf.entry);
            report.broken(Code::UnloggedEntry, what);
        }
    }
    for id in here.difference(&listed) {
        all = false;
        report.broken(Code::UnloggedEntry, format!("entry {id} is in no log"));
    }
    if all && let Some(last) = last {
        let what = format!("the log of {} entries holds each entry at its place", last.size);
        report.holds(Code::Log, what);
    }
    let numbers: BTreeMap<EntryId, u64> = log.leaves.iter().map(|leaf| (leaf.entry, leaf.number)).collect();
    for (name, order) in &opened.order {
        let rising: Vec<u64> = order.iter().filter_map(|id| numbers.get(id).copied()).collect();
        if rising.windows(2).any(|pair| pair[0] >= pair[1]) {
            let what =
                format!("the list \"{name}\" does not stand in the order in which the office received it");
            report.broken(Code::ReorderedEntries, what);
        }
    }
    listed.difference(&here).copied().collect()
}

/// Whether two checkpoints can be of one log.
fn agree(a: &Checkpoint, b: &Checkpoint, proof: &[Digest]) -> bool {
    let (old, new) = if a.size <= b.size { (a, b) } else { (b, a) };
    if a.origin != b.origin {
        return false;
    }
    if old.size == new.size {
        let heads = old.heads.zip(new.heads);
        return old.root == new.root && heads.is_none_or(|(old, new)| old == new);
    }
    old.size == 0 || merkle::consistency_holds(old.size, old.root, new.size, new.root, proof)
}

/// A checkpoint from elsewhere: whether it and the packet's can be of one log.
pub(super) fn compare(log: &Log, other: &OtherNote, key: &dyn Trusts, report: &mut CheckReport) {
    let theirs = match Checkpoint::open(&other.note, key) {
        Ok(theirs) => theirs,
        Err(why) => {
            report.broken(Code::ForgedCheckpoint, format!("the checkpoint given does not hold: {why}"));
            return;
        }
    };
    let ours: Vec<Checkpoint> =
        log.checkpoints.iter().filter_map(|note| Checkpoint::open(note, key).ok()).collect();
    if let Some(last) = ours.last().filter(|last| last.origin != theirs.origin) {
        let what =
            format!("the checkpoint given is of the log {}, the packet's of {}", theirs.origin, last.origin);
        report.broken(Code::NotCompared, what);
        return;
    }
    if let Some(same) = ours.iter().find(|ours| ours.size == theirs.size) {
        if agree(same, &theirs, &[]) {
            report
                .holds(Code::Log, format!("the checkpoint given is the packet's own of size {}", same.size));
        } else {
            let what = format!("two checkpoints of size {} differ: the office has shown two logs", same.size);
            report.broken(Code::LogFork, what);
        }
        return;
    }
    let Some(last) = ours.last() else { return };
    if other.consistency.is_empty() {
        let what = format!(
            "the checkpoint given has size {}, the packet's {}; to compare them the office must add a consistency proof",
            theirs.size, last.size
        );
        report.broken(Code::NotCompared, what);
    } else if agree(last, &theirs, &other.consistency) {
        report.holds(Code::Log, format!("the checkpoint given, of size {}, is of the same log", theirs.size));
        if theirs.size > last.size {
            let what = format!(
                "the log has grown by {} entries since this packet's last checkpoint; what came in since is not here",
                theirs.size - last.size
            );
            report.mark(Code::OlderPacket, what);
        }
    } else {
        let what =
            format!("the checkpoints of size {} and {} cannot both be of one log", last.size, theirs.size);
        report.broken(Code::LogFork, what);
    }
}

/// Time stamps: whether each names its checkpoint. Whether the stamping authority is to be believed is for
/// whoever knows it, with a tool for RFC 3161.
pub(super) fn tokens(log: &Log, key: &dyn Trusts, report: &mut CheckReport) {
    for token in &log.tokens {
        let named = log.checkpoints.iter().any(|note| {
            let digest = Digest::of(note.as_bytes());
            Checkpoint::open(note, key).is_ok_and(|checkpoint| checkpoint.size == token.size)
                && token.token.windows(digest.0.len()).any(|window| window == digest.0)
        });
        if named {
            let what = format!(
                "a third party's time stamp names the checkpoint of size {}; who gave it is for you to judge",
                token.size
            );
            report.holds(Code::TimeStamp, what);
        } else {
            let what = format!("a time stamp is not of the checkpoint of size {}", token.size);
            report.broken(Code::ForgedTimeStamp, what);
        }
    }
}
