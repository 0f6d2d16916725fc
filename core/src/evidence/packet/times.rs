//! What is known of an entry's time besides what its device claims: after what it was made, before what it
//! came in, and whether its device had a certificate by then.

use std::collections::BTreeMap;

use super::check::{CLOCK_PLAY_MILLIS, Opened};
use super::parts::Parts;
use super::report::{CheckReport, Code};
use crate::clock::UtcMillis;
use crate::entry::{Certificate, Trusts};
use crate::ids::{DeviceId, Digest, EntryId};
use crate::log::Checkpoint;
use crate::tree::merkle;

/// A claim further than this before receipt is pointed out, milliseconds: seven days.
const LONG_MILLIS: i64 = 7 * 24 * 60 * 60 * 1000;

pub(super) fn check(parts: &Parts, opened: &Opened, key: &dyn Trusts, report: &mut CheckReport) {
    let shown = shown(parts, key);
    let received: BTreeMap<EntryId, UtcMillis> =
        parts.log.leaves.iter().map(|leaf| (leaf.entry, leaf.received_at)).collect();
    let certified: BTreeMap<DeviceId, UtcMillis> = parts
        .certificates
        .certificates
        .iter()
        .filter_map(|bytes| Certificate::open(bytes, key).ok())
        .map(|certificate| (certificate.device, certificate.issued_at))
        .collect();
    let (mut bounded, mut unknown, mut before_seen) = (0usize, 0usize, 0usize);
    let (mut before_certificate, mut long_after) = (0usize, 0usize);
    for entry in opened.all() {
        let claimed = entry.body.when.corrected();
        if let Some(seen) = &entry.body.seen {
            match shown.get(&(seen.size, seen.root)) {
                Some(not_before) => {
                    bounded += 1;
                    before_seen += usize::from(claimed.0.saturating_add(CLOCK_PLAY_MILLIS) < not_before.0);
                }
                None => unknown += 1,
            }
        }
        if let Some(issued) = certified.get(&entry.device) {
            before_certificate += usize::from(claimed.0.saturating_add(CLOCK_PLAY_MILLIS) < issued.0);
        }
        if let Some(at) = received.get(&entry.id) {
            long_after += usize::from(claimed.0.saturating_add(LONG_MILLIS) < at.0);
        }
    }
    if bounded > 0 {
        let what = format!(
            "{bounded} entries name a checkpoint of this log that their device had been shown: they were made after it"
        );
        report.holds(Code::Times, what);
    }
    for (count, code, what) in [
        (
            unknown,
            Code::OtherLogSeen,
            "entries name a checkpoint that this log does not continue: the log was rewritten or put back from a backup, or their device made it up",
        ),
        (
            before_seen,
            Code::ClaimedBeforeSeen,
            "entries claim a time before that of a checkpoint their device had already been shown",
        ),
        (
            before_certificate,
            Code::ClaimedBeforeCertificate,
            "entries claim a time before their device had a certificate of the organisation",
        ),
        (
            long_after,
            Code::ReceivedLongAfter,
            "entries came in more than seven days after the time they claim; before that nobody but their device can tell of them",
        ),
    ] {
        if count > 0 {
            report.mark(code, format!("{count} {what}"));
        }
    }
}

/// The checkpoints named by entries that this log continues, each with when its last leaf came in.
fn shown(parts: &Parts, key: &dyn Trusts) -> BTreeMap<(u64, Digest), UtcMillis> {
    let last = parts.log.checkpoints.last().and_then(|note| Checkpoint::open(note, key).ok());
    let Some(last) = last else { return BTreeMap::new() };
    parts
        .log
        .seen
        .iter()
        .filter(|seen| {
            let same = seen.size == last.size && seen.root == last.root;
            let leaf = &seen.last;
            let grown = seen.size > 0
                && seen.size < last.size
                && merkle::consistency_holds(seen.size, seen.root, last.size, last.root, &seen.path);
            (same || grown)
                && leaf.number.checked_add(1) == Some(seen.size)
                && merkle::root_by_path(leaf.hash(), leaf.number, last.size, &leaf.path) == Some(last.root)
        })
        .map(|seen| ((seen.size, seen.root), seen.last.received_at))
        .collect()
}
