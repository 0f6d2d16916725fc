//! What is known about an entry's time besides its device's claim: events that preceded it, its arrival, and
//! whether its device had a certificate by then.

use std::collections::BTreeMap;

use super::check::{CLOCK_PLAY_MILLIS, Opened};
use super::parts::Parts;
use super::report::{CheckReport, Code};
use crate::clock::UtcMillis;
use crate::entry::{Certificate, Trusts};
use crate::ids::{DeviceId, Digest, EntryId};
use crate::log::Checkpoint;
use crate::tree::merkle;
use crate::{Message, message};

/// The number of milliseconds (seven days) by which a claimed time may precede the arrival before the report
/// mentions it.
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
        report.holds(Code::Times, message!("verify-times", count = bounded));
    }
    for (count, code, what) in [
        (unknown, Code::OtherLogSeen, "verify-other-log-seen"),
        (before_seen, Code::ClaimedBeforeSeen, "verify-claimed-before-seen"),
        (before_certificate, Code::ClaimedBeforeCertificate, "verify-claimed-before-certificate"),
        (long_after, Code::ReceivedLongAfter, "verify-received-long-after"),
    ] {
        if count > 0 {
            report.mark(code, Message::new(what).with("count", count));
        }
    }
}

/// Returns the checkpoints named by entries that this log continues, each with the arrival time of its last
/// leaf.
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
