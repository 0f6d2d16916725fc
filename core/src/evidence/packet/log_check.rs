//! The checks of a packet's statements about the log: its checkpoints, the place of every entry, a checkpoint
//! from elsewhere, and whether time stamps name their checkpoints.
//!
//! Missing entries are determined in `whole` and `check`; whether witnesses and time-stamping authorities are
//! trusted is determined in `witnesses`.

use std::collections::{BTreeMap, BTreeSet};

use super::check::{Opened, OtherNote};
use super::parts::{Log, Parts};
use super::report::{CheckReport, Code, shown};
use crate::clock::UtcMillis;
use crate::entry::Trusts;
use crate::ids::{Digest, EntryId, Subject};
use crate::log::Checkpoint;
use crate::message;
use crate::tree::merkle;

/// Checks the checkpoints, their consistency, and every entry's place. Returns the entries that the log names
/// but that are missing.
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
                    report.broken(
                        Code::ForgedCheckpoint,
                        message!("verify-forged-checkpoint", why = shown(why)),
                    )
                })
                .ok()
        })
        .collect();
    for (at, pair) in checkpoints.windows(2).enumerate() {
        let [Some(old), Some(new)] = pair else { continue };
        let proof = log.consistency.get(at).map_or(&[][..], Vec::as_slice);
        if new.size < old.size || !agree(old, new, proof) {
            let what = message!("verify-log-fork", old = shown(old.size), new = shown(new.size));
            report.broken(Code::LogFork, what);
        }
    }
    let last = checkpoints.last().and_then(Option::as_ref);
    let mut all = last.is_some();
    if log.checkpoints.is_empty() {
        report.broken(Code::ForgedCheckpoint, message!("verify-no-checkpoint"));
    }
    let mut before: Option<(u64, UtcMillis)> = None;
    for leaf in &log.leaves {
        if let Some(last) = last {
            let root = merkle::root_by_path(leaf.hash(), leaf.number, last.size, &leaf.path);
            if root != Some(last.root) {
                all = false;
                let what =
                    message!("verify-unlogged-place", entry = shown(leaf.entry), number = shown(leaf.number));
                report.broken(Code::UnloggedEntry, what);
            }
        }
        if before.is_some_and(|(number, at)| leaf.number <= number || leaf.received_at < at) {
            let what = message!("verify-log-order", number = shown(leaf.number));
            report.broken(Code::LogOrder, what);
        }
        before = Some((leaf.number, leaf.received_at));
    }
    let about: BTreeMap<EntryId, Subject> = opened.all().map(|entry| (entry.id, entry.body.about)).collect();
    for leaf in &log.leaves {
        let told = leaf.about.zip(about.get(&leaf.entry));
        if let Some((told, about)) = told.filter(|(told, about)| told != *about) {
            all = false;
            let what = message!(
                "verify-unlogged-about",
                entry = shown(leaf.entry),
                told = shown(told),
                about = shown(about)
            );
            report.broken(Code::UnloggedEntry, what);
        }
    }
    for id in here.difference(&listed) {
        all = false;
        report.broken(Code::UnloggedEntry, message!("verify-unlogged-entry", entry = shown(id)));
    }
    if all && let Some(last) = last {
        let what = message!("verify-log", count = last.size);
        report.holds(Code::Log, what);
    }
    let numbers: BTreeMap<EntryId, u64> = log.leaves.iter().map(|leaf| (leaf.entry, leaf.number)).collect();
    for (name, order) in &opened.order {
        let rising: Vec<u64> = order.iter().filter_map(|id| numbers.get(id).copied()).collect();
        if rising.windows(2).any(|pair| pair[0] >= pair[1]) {
            let what = message!("verify-reordered", list = shown(name));
            report.broken(Code::ReorderedEntries, what);
        }
    }
    listed.difference(&here).copied().collect()
}

/// Returns true if two checkpoints can belong to one log.
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

/// Checks whether a checkpoint from elsewhere and the packet's can belong to one log.
pub(super) fn compare(log: &Log, other: &OtherNote, key: &dyn Trusts, report: &mut CheckReport) {
    let theirs = match Checkpoint::open(&other.note, key) {
        Ok(theirs) => theirs,
        Err(why) => {
            report.broken(Code::ForgedCheckpoint, message!("verify-given-forged", why = shown(why)));
            return;
        }
    };
    let ours: Vec<Checkpoint> =
        log.checkpoints.iter().filter_map(|note| Checkpoint::open(note, key).ok()).collect();
    if let Some(last) = ours.last().filter(|last| last.origin != theirs.origin) {
        let what =
            message!("verify-given-other-log", theirs = shown(&theirs.origin), own = shown(&last.origin));
        report.broken(Code::NotCompared, what);
        return;
    }
    if let Some(same) = ours.iter().find(|ours| ours.size == theirs.size) {
        if agree(same, &theirs, &[]) {
            report.holds(Code::Log, message!("verify-given-own", size = shown(same.size)));
        } else {
            let what = message!("verify-given-two-logs", size = shown(same.size));
            report.broken(Code::LogFork, what);
        }
        return;
    }
    let Some(last) = ours.last() else { return };
    if other.consistency.is_empty() {
        let what = message!("verify-given-no-proof", theirs = shown(theirs.size), own = shown(last.size));
        report.broken(Code::NotCompared, what);
    } else if agree(last, &theirs, &other.consistency) {
        report.holds(Code::Log, message!("verify-given-same-log", size = shown(theirs.size)));
        if theirs.size > last.size {
            let what = message!("verify-older-packet", count = theirs.size - last.size);
            report.mark(Code::OlderPacket, what);
        }
    } else {
        let what = message!("verify-log-fork", old = shown(last.size), new = shown(theirs.size));
        report.broken(Code::LogFork, what);
    }
}

/// Checks whether each time stamp names its checkpoint. Whether the time-stamping authority is trusted must
/// be checked with a tool for RFC 3161.
pub(super) fn tokens(log: &Log, key: &dyn Trusts, report: &mut CheckReport) {
    for token in &log.tokens {
        let named = log.checkpoints.iter().any(|note| {
            let digest = Digest::of(note.as_bytes());
            Checkpoint::open(note, key).is_ok_and(|checkpoint| checkpoint.size == token.size)
                && token.token.windows(digest.0.len()).any(|window| window == digest.0)
        });
        if named {
            let what = message!("verify-time-stamp", size = shown(token.size));
            report.holds(Code::TimeStamp, what);
        } else {
            let what = message!("verify-time-stamp-other", size = shown(token.size));
            report.broken(Code::ForgedTimeStamp, what);
        }
    }
}
