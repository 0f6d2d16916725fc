//! The proof of the stay's last entry in a form that other programs can check (C2SP tlog-proof): with the
//! keys of the organisation and of a witness, any tool for this format can confirm that the log holds the
//! entry.

use super::LAST_ENTRY;
use super::check::{Files, Opened};
use super::parts::{Leaf, Parts};
use super::report::{CheckReport, Code, shown};
use crate::entry::Trusts;
use crate::ids::EntryId;
use crate::log::{Checkpoint, TlogProof, tlog_proof};
use crate::message;
use crate::tree::LogLeaf;

fn data_of(leaf: &Leaf) -> Vec<u8> {
    LogLeaf { entry: leaf.entry, received_at: leaf.received_at, about: leaf.about }.to_bytes()
}

/// Returns the leaf of the stay's last entry: the one with the highest number among those in `visit`.
fn last_of(parts: &Parts, is_of_visit: impl Fn(&EntryId) -> bool) -> Option<&Leaf> {
    parts.log.leaves.iter().filter(|leaf| is_of_visit(&leaf.entry)).max_by_key(|leaf| leaf.number)
}

/// Returns the text of [`LAST_ENTRY`] for these records, or `None` if no entry has a place in the log.
pub fn last_entry_proof(parts: &Parts) -> Option<String> {
    let visit: std::collections::BTreeSet<EntryId> =
        parts.entries.visit.iter().map(|bytes| EntryId(crate::ids::Digest::of(bytes).0)).collect();
    let leaf = last_of(parts, |entry| visit.contains(entry))?;
    let note = parts.log.checkpoints.last()?;
    Some(tlog_proof(&data_of(leaf), leaf.number, &leaf.path, note))
}

/// Checks the proof if there is one. Packets of earlier versions have none.
pub(super) fn check(
    files: &Files,
    parts: &Parts,
    opened: &Opened,
    key: &dyn Trusts,
    report: &mut CheckReport,
) {
    let Some(bytes) = files.records.get(LAST_ENTRY) else { return };
    let read = std::str::from_utf8(bytes).map_err(|e| e.to_string());
    let proof = match read.and_then(|text| TlogProof::read(text).map_err(|e| e.to_string())) {
        Ok(proof) => proof,
        Err(why) => {
            return report.broken(
                Code::UnreadableAttachment,
                message!("verify-about-file", name = shown(LAST_ENTRY), why = shown(why)),
            );
        }
    };
    let checkpoint = match Checkpoint::open(&proof.note, key) {
        Ok(checkpoint) => checkpoint,
        Err(why) => {
            return report.broken(
                Code::ForgedCheckpoint,
                message!("verify-about-file", name = shown(LAST_ENTRY), why = shown(why)),
            );
        }
    };
    let known = parts.log.checkpoints.iter().filter_map(|note| Checkpoint::open(note, key).ok());
    if !known.into_iter().any(|ours| ours == checkpoint) {
        let what =
            message!("verify-last-entry-fork", name = shown(LAST_ENTRY), size = shown(checkpoint.size));
        return report.broken(Code::LogFork, what);
    }
    // An altered entry may have been the last one; the report already says so.
    if opened.altered > 0 {
        return;
    }
    let visit: std::collections::BTreeSet<EntryId> = opened.list("visit").map(|entry| entry.id).collect();
    let proven = last_of(parts, |entry| visit.contains(entry)).is_some_and(|leaf| {
        let data = data_of(leaf);
        proof.index == leaf.number
            && proof.extra.as_ref().is_none_or(|extra| *extra == data)
            && proof.check(&data, &checkpoint).is_ok()
    });
    if proven {
        report.holds(Code::Log, message!("verify-last-entry", name = shown(LAST_ENTRY)));
    } else {
        report.broken(Code::UnloggedEntry, message!("verify-last-entry-not", name = shown(LAST_ENTRY)));
    }
}
