//! The checks whether a seal describes its packet: the stay and the time, rules that this verifier knows and
//! that fit the packet, and attachments that belong to the packet.

use std::collections::{BTreeMap, BTreeSet};

use super::check::{Files, NEWEST_RULES, Opened};
use super::parts::Parts;
use super::report::{CheckReport, Code, shown};
use super::seal::{Seal, SealedEntries};
use super::{HOW_TO_CHECK, PROCEDURE, PROCEDURE_WORDS, RECORDS, photo_named};
use crate::clock::UtcMillis;
use crate::entry::{Entry, Statement};
use crate::ids::{Digest, EntryId};
use crate::{Message, message};

/// Compares the seal's statements with what it seals (since fold 3). Content altered after the sealing cannot
/// match and is already reported.
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
    let mut other = |what: Message| report.broken(Code::AlteredSeal, what);
    if sealed.stay != parts.entries.stay {
        other(message!("verify-seal-visits"));
    }
    if sealed.entries != SealedEntries::of(&parts.entries) {
        other(message!("verify-seal-entries"));
    }
    if opened.altered == 0 && at.is_some_and(|at| at != sealed.at) {
        other(message!("verify-seal-time"));
    }
}

/// Reports a seal that states old rules for content that only newer rules produce, which would reduce the
/// checks.
pub(super) fn asks_for_less(parts: &Parts, heads: bool, report: &mut CheckReport) {
    let log = &parts.log;
    let later = heads
        || !(log.heads.is_empty() && log.seen.is_empty() && log.photos_elsewhere.is_empty())
        || log.leaves.iter().any(|leaf| leaf.about.is_some());
    if later {
        report.mark(Code::OlderRules, message!("verify-older-rules"));
    }
}

/// Reports a seal that states rules this verifier does not know.
pub(super) fn asks_for_unknown(fold: u64, report: &mut CheckReport) {
    if fold > NEWEST_RULES {
        let what = message!("verify-later-rules", fold = shown(fold), own = shown(NEWEST_RULES));
        report.mark(Code::LaterRules, what);
    }
}

/// Compares the attached procedure with the one that the stay's entries name (since fold 4), and names the
/// digests of its text and of its sentences. Content altered after the sealing is already reported.
pub(super) fn procedure(files: &Files, opened: &Opened, report: &mut CheckReport) {
    let digest = |name: &str| match files.records.get(name) {
        Some(bytes) => Some(Digest::of(bytes)),
        None => files.photos.get(name).map(|file| file.sha256),
    };
    let (text, words) = (digest(PROCEDURE), digest(PROCEDURE_WORDS));
    let named = |digest: &Digest| {
        opened.list("visit").any(|entry| match &entry.body.says {
            Statement::Opened(opened) => opened.procedure == *digest,
            _ => false,
        })
    };
    if report.found(Code::AlteredAttachment) || report.found(Code::EditedPages) {
        return;
    }
    match (text, words) {
        (Some(text), words) if named(&text) => report.holds(
            Code::Seal,
            match words {
                Some(words) => message!("verify-procedure-words", text = shown(text), words = shown(words)),
                None => message!("verify-procedure", text = shown(text)),
            },
        ),
        (Some(_), _) => {
            report
                .broken(Code::AlteredAttachment, message!("verify-other-procedure", name = shown(PROCEDURE)));
        }
        (None, Some(_)) => {
            report.broken(
                Code::AlteredAttachment,
                message!("verify-other-procedure", name = shown(PROCEDURE_WORDS)),
            );
        }
        (None, None) => {}
    }
}

/// Reports attachments that neither the format nor an entry names.
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
        let what = message!("verify-foreign-attachment", name = shown(name));
        report.mark(Code::ForeignAttachment, what);
    }
}

/// Returns the photographs that an entry names.
fn photographs(entry: &Entry) -> impl Iterator<Item = Digest> {
    match &entry.body.says {
        Statement::Photo { photo, .. } => Some(photo.sha256),
        Statement::Seal(seal) => seal.photo,
        Statement::Defect(defect) => defect.photo,
        _ => None,
    }
    .into_iter()
}
