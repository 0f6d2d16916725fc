//! Whether a seal says what the packet is: of which stay and time, by rules this checker knows and the packet was
//! made by, over attachments that belong to it.

use std::collections::{BTreeMap, BTreeSet};

use super::check::{Files, NEWEST_RULES, Opened};
use super::parts::Parts;
use super::report::{CheckReport, Code};
use super::seal::{Seal, SealedEntries};
use super::{HOW_TO_CHECK, RECORDS, photo_named};
use crate::clock::UtcMillis;
use crate::entry::{Entry, Statement};
use crate::ids::{Digest, EntryId};

/// Since fold 3: the seal's own words against what it seals. What was altered since the sealing was told already,
/// and the words cannot agree with it.
pub(super) fn agrees(sealed: &Seal, parts: &Parts, opened: &Opened, report: &mut CheckReport) {
    if [Code::AlteredAttachment, Code::RemovedAttachment, Code::AddedAttachment]
        .iter()
        .any(|c| report.found(*c))
    {
        return;
    }
    let received: BTreeMap<EntryId, UtcMillis> =
        parts.log.leaves.iter().map(|leaf| (leaf.entry, leaf.received_at)).collect();
    let at = opened.visit.iter().filter_map(|entry| received.get(&entry.id)).max().copied();
    let mut other = |what: &str| {
        report.broken(Code::AlteredSeal, format!("the seal's {what} is not that of the entries it seals"));
    };
    if sealed.stay != parts.entries.stay {
        other("list of visits");
    }
    if sealed.entries != SealedEntries::of(&parts.entries) {
        other("count or root of entries");
    }
    if opened.altered == 0 && at.is_some_and(|at| at != sealed.at) {
        other("time");
    }
}

/// A seal that asks for rules of before over what only later ones make: it wants less looked at.
pub(super) fn asks_for_less(parts: &Parts, heads: bool, report: &mut CheckReport) {
    let log = &parts.log;
    let later = heads
        || !(log.heads.is_empty() && log.seen.is_empty() && log.photos_elsewhere.is_empty())
        || log.leaves.iter().any(|leaf| leaf.about.is_some());
    if later {
        let what = "the seal asks for the rules of an earlier version than the one that made this packet: what came \
                    with later rules was not checked";
        report.mark(Code::OlderRules, what);
    }
}

/// A seal that asks for rules this checker does not know.
pub(super) fn asks_for_unknown(fold: u64, report: &mut CheckReport) {
    if fold > NEWEST_RULES {
        let what = format!(
            "the seal asks for rules of version {fold}; this program knows those up to {NEWEST_RULES} and checked by them"
        );
        report.mark(Code::LaterRules, what);
    }
}

/// Attachments that neither the format nor an entry knows.
pub(super) fn foreign(files: &Files, sealed: Option<&Seal>, opened: &Opened, report: &mut CheckReport) {
    let named: BTreeSet<Digest> = opened.all().flat_map(photographs).collect();
    let known = |name: &str| {
        RECORDS.contains(&name)
            || name == HOW_TO_CHECK
            || photo_named(name).is_some_and(|digest| named.contains(&digest))
    };
    let is_sealed =
        |name: &str| sealed.is_some_and(|seal| seal.attachments.iter().any(|listed| listed.name == name));
    let names = files.records.keys().chain(files.photos.keys());
    for name in names.filter(|name| !known(name) && is_sealed(name)) {
        let what =
            format!("{name} was sealed in; no entry here names it, and it proves nothing about this stay");
        report.mark(Code::ForeignAttachment, what);
    }
}

/// The photographs an entry names.
fn photographs(entry: &Entry) -> impl Iterator<Item = Digest> {
    match &entry.body.says {
        Statement::Photo { photo, .. } => Some(photo.sha256),
        Statement::Seal(seal) => seal.photo,
        Statement::Defect(defect) => defect.photo,
        _ => None,
    }
    .into_iter()
}
