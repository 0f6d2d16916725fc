//! All checks of a packet that need no PDF. From the attachments, the seal and the organisation's key they
//! determine what holds and what does not.
//!
//! The checks are pure and total: hostile bytes lead to lines in the report and never to a panic. The
//! `verify` command and every importer of packets call this module. The second verifier follows `FORMAT.md`,
//! as these checks do.

use std::collections::{BTreeMap, BTreeSet};

use super::devices;
use super::front;
use super::keys_check;
use super::last_entry;
use super::log_check;
use super::names::{self, NamesFile};
use super::parts::{Certificates, Entries, Log, Parts, PartsError, Receipts, read};
use super::refold::refold;
use super::report::{CheckReport, Code, shown};
use super::seal::{Seal, SealedEntries};
use super::{CERTIFICATES, ENTRIES, LOG, NAMES, RECEIPTS, SEAL, VIEW, photo_named};
use super::{sealed as sealing, times, whole};
use crate::clock::UtcMillis;
use crate::entry::{AnyTime, Entry, EntryError, OrganisationKeys, PublicKey, Statement, Trusts, hint_of};
use crate::ids::{DeviceId, Digest, EntryId, Subject};
use crate::log::{Checkpoint, Receipt};
use crate::procedure::Procedures;
use crate::view::FOLD_VERSION;
use crate::{Arg, Joint, Message, message};

/// The tolerance in milliseconds by which a receipt's time may precede the log's, because an office's clock
/// may have been set back between the two.
pub(super) const CLOCK_PLAY_MILLIS: i64 = 10 * 60 * 1000;

/// The newest version of the rules that this version knows; see [`Rules`].
pub(super) const NEWEST_RULES: u64 = 4;

/// An attached photograph, reduced to its digest.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct PhotoFile {
    /// The SHA-256 of its bytes.
    pub sha256: Digest,
    /// The number of bytes.
    pub length: u64,
}

/// A checkpoint from another source, for comparison with the packet's.
#[derive(Debug, Clone, Default)]
pub struct OtherNote {
    /// The signed note.
    pub note: String,
    /// A consistency proof between the two checkpoints, if they differ in size.
    pub consistency: Vec<Digest>,
}

/// The attachments extracted from a packet.
#[derive(Debug, Clone, Default)]
pub struct Files {
    /// All attachments except photographs, by name.
    pub records: BTreeMap<String, Vec<u8>>,
    /// The photographs, by name.
    pub photos: BTreeMap<String, PhotoFile>,
    /// The SHA-256 of the file with the seal's bytes zeroed; `None` if the seal's bytes do not occur exactly
    /// once in the file.
    pub file: Option<Digest>,
}

/// The rules by which a packet is checked. They are always those of the program version that sealed the
/// packet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Rules {
    /// Every entry counts, whoever signed it.
    First,
    /// Entries may carry a person's signature; entries of devices that do not count are kept and marked.
    Second,
    /// The log determines completeness, and entries name the checkpoints that their devices had seen.
    Third,
}

impl Rules {
    /// Returns the rules for a fold version; without a seal that states one, the newest.
    fn of(fold: Option<u64>) -> Rules {
        match fold {
            Some(0 | 1) => Rules::First,
            Some(2) => Rules::Second,
            Some(_) | None => Rules::Third,
        }
    }
}

/// Performs all checks with only the organisation's root key.
pub fn check(
    files: &Files,
    key: &PublicKey,
    against: Option<&OtherNote>,
    procedures: &Procedures,
) -> CheckReport {
    check_with(files, &OrganisationKeys::of_root(*key), against, procedures)
}

/// Does the same as [`check`] with additional knowledge of the organisation's keys. A packet cannot contain
/// statements made after it.
pub fn check_with(
    files: &Files,
    keys: &OrganisationKeys,
    against: Option<&OtherNote>,
    procedures: &Procedures,
) -> CheckReport {
    let mut report = CheckReport::default();
    let keys = keys_check::known(files, keys, &mut report);
    let key = &AnyTime(&keys);
    let Some(sealed) = seal(files, key, &mut report) else { return report };
    let Some(parts) = parts(files, &mut report) else { return report };
    let fold = sealed.as_ref().map(Seal::fold);
    let rules = Rules::of(fold);
    let opened = entries(&parts, rules, &mut report);
    match rules {
        Rules::First => devices::of_version_one(&parts, &opened, key, &mut report),
        Rules::Second | Rules::Third => devices::judged(&parts, &opened, key, &mut report),
    }
    let missing = log_check::check(&parts, &opened, key, &mut report);
    counted(&parts, &opened, missing, sealed.as_ref(), &mut report);
    chains(&parts, &opened, &mut report);
    receipts(&parts, &opened, key, &mut report);
    if rules >= Rules::Third {
        whole::check(&parts, &opened, key, &mut report);
        times::check(&parts, &opened, key, &mut report);
        if let Some(sealed) = &sealed {
            sealing::agrees(sealed, &parts, &opened, &mut report);
            sealing::asks_for_unknown(sealed.fold(), &mut report);
        }
        sealing::foreign(files, sealed.as_ref(), &opened, &mut report);
        if fold.is_some_and(|fold| fold >= 4) {
            sealing::procedure(files, &opened, &mut report);
        }
    } else {
        whole::unsaid(&mut report);
        let last = parts.log.checkpoints.last().and_then(|note| Checkpoint::open(note, key).ok());
        sealing::asks_for_less(&parts, last.is_some_and(|last| last.heads.is_some()), &mut report);
    }
    if let Some(other) = against {
        log_check::compare(&parts.log, other, key, &mut report);
    }
    log_check::tokens(&parts.log, key, &mut report);
    keys_check::check(files, &parts, &keys, against, &mut report);
    last_entry::check(files, &parts, &opened, key, &mut report);
    photos(files, &opened, rules, sealed.as_ref(), &mut report);
    names::check(&parts, &opened, &mut report);
    front::check((files, &parts), sealed.as_ref(), &opened, key, &mut report);
    match fold {
        Some(FOLD_VERSION) => view(files, &parts, key, procedures, &mut report),
        Some(other) => {
            let what = message!("verify-other-fold", fold = shown(other), own = shown(FOLD_VERSION));
            report.mark(Code::OtherFold, what);
            if rules >= Rules::Third && !files.records.contains_key(VIEW) {
                report.broken(Code::UnreadableAttachment, message!("verify-missing", name = shown(VIEW)));
            }
        }
        // Without a seal nothing states the rules of the fold, and the report already says so.
        None => {}
    }
    report
}

/// Checks the seal. Returns `None` if it is another organisation's, in which case no further check makes
/// sense.
fn seal(files: &Files, key: &dyn Trusts, report: &mut CheckReport) -> Option<Option<Seal>> {
    let Some(bytes) = files.records.get(SEAL) else {
        report.broken(Code::RemovedAttachment, message!("verify-missing", name = shown(SEAL)));
        return Some(None);
    };
    let sealed = match Seal::open(bytes, key) {
        Ok(sealed) => sealed,
        Err(PartsError::Unwritable(EntryError::WrongSigner)) => {
            let by = hint_of(bytes).ok().and_then(|kid| kid.try_into().ok()).map(DeviceId);
            let what = by.map_or_else(
                || message!("verify-wrong-seal"),
                |by| message!("verify-wrong-key", key = shown(by)),
            );
            report.broken(Code::WrongKey, what);
            return None;
        }
        Err(why) => {
            report.broken(Code::AlteredSeal, message!("verify-altered-seal", why = shown(why)));
            return Some(None);
        }
    };
    let mut intact = true;
    let mut there: BTreeMap<&str, (Digest, u64)> = files
        .records
        .iter()
        .filter(|(name, _)| *name != SEAL)
        .map(|(name, bytes)| (name.as_str(), (Digest::of(bytes), bytes.len() as u64)))
        .collect();
    there.extend(files.photos.iter().map(|(name, photo)| (name.as_str(), (photo.sha256, photo.length))));
    for listed in &sealed.attachments {
        match there.remove(listed.name.as_str()) {
            Some(found) if found == (listed.sha256, listed.length) => {}
            Some(_) => {
                intact = false;
                report.broken(
                    Code::AlteredAttachment,
                    message!("verify-altered-attachment", name = shown(&listed.name)),
                );
            }
            None => {
                intact = false;
                report.broken(
                    Code::RemovedAttachment,
                    message!("verify-removed-attachment", name = shown(&listed.name)),
                );
            }
        }
    }
    for name in there.keys() {
        intact = false;
        report.broken(Code::AddedAttachment, message!("verify-added-attachment", name = shown(name)));
    }
    if files.file == Some(sealed.file) {
        report.holds(Code::Seal, message!("verify-seal"));
    } else if intact {
        report.broken(Code::EditedPages, message!("verify-edited-pages"));
    }
    Some(Some(sealed))
}

fn parts(files: &Files, report: &mut CheckReport) -> Option<Parts> {
    fn part<T>(
        files: &Files,
        name: &'static str,
        read: impl Fn(&[u8]) -> Result<T, PartsError>,
        report: &mut CheckReport,
    ) -> Option<T> {
        let Some(bytes) = files.records.get(name) else {
            report.broken(Code::UnreadableAttachment, message!("verify-missing", name = shown(name)));
            return None;
        };
        read(bytes)
            .map_err(|why| report.broken(Code::UnreadableAttachment, Message::typed(why.to_string())))
            .ok()
    }
    let entries = part(files, ENTRIES, Entries::from_bytes, report);
    let certificates = part(files, CERTIFICATES, |b| read::<Certificates>(CERTIFICATES, b), report);
    let receipts = part(files, RECEIPTS, |b| read::<Receipts>(RECEIPTS, b), report);
    let log = part(files, LOG, Log::from_bytes, report);
    let names = match files.records.contains_key(NAMES) {
        true => part(files, NAMES, NamesFile::from_bytes, report).map(|file| file.names),
        false => None,
    };
    let names = names.unwrap_or_default();
    Some(Parts { entries: entries?, certificates: certificates?, receipts: receipts?, log: log?, names })
}

/// The valid entries by id, and the number of invalid ones.
pub(super) struct Opened {
    pub(super) visit: Vec<Entry>,
    pub(super) besides: Vec<(&'static str, Entry)>,
    pub(super) order: Vec<(&'static str, Vec<EntryId>)>,
    pub(super) altered: usize,
}

impl Opened {
    pub(super) fn all(&self) -> impl Iterator<Item = &Entry> {
        self.visit.iter().chain(self.besides.iter().map(|(_, entry)| entry))
    }

    /// Returns the entries of one list.
    pub(super) fn list(&self, name: &str) -> impl Iterator<Item = &Entry> {
        let visit = if name == "visit" { self.visit.as_slice() } else { &[] };
        let besides = self.besides.iter().filter(move |(list, _)| *list == name);
        visit.iter().chain(besides.map(|(_, entry)| entry))
    }
}

fn entries(parts: &Parts, rules: Rules, report: &mut CheckReport) -> Opened {
    let mut opened = Opened { visit: Vec::new(), besides: Vec::new(), order: Vec::new(), altered: 0 };
    for (name, list) in parts.entries.lists() {
        let mut order = Vec::new();
        for (at, bytes) in list.iter().enumerate() {
            let opening = match rules {
                Rules::First => Entry::open_of_version_one(bytes),
                Rules::Second | Rules::Third => Entry::open(bytes),
            };
            match opening {
                Ok(entry) => {
                    let right = match (name, entry.body.about) {
                        ("visit", Subject::Visit(visit)) => {
                            let joins = || {
                                entry.body.joins().is_some_and(|other| parts.entries.stay.contains(&other))
                            };
                            parts.entries.stay.contains(&visit) || (rules >= Rules::Third && joins())
                        }
                        ("car", Subject::Car(_) | Subject::Visit(_)) => true,
                        ("site", Subject::Site(_)) | ("roster", Subject::Roster(_)) => true,
                        _ => false,
                    };
                    if !right {
                        let what = message!(
                            "verify-foreign-entry",
                            entry = shown(entry.id),
                            about = shown(entry.body.about),
                            list = shown(name)
                        );
                        report.broken(Code::ForeignEntry, what);
                    }
                    order.push(entry.id);
                    if name == "visit" {
                        opened.visit.push(entry)
                    } else {
                        opened.besides.push((name, entry))
                    }
                }
                Err(why) => {
                    opened.altered += 1;
                    let what = message!(
                        "verify-altered-entry",
                        number = shown(at + 1),
                        list = shown(name),
                        why = shown(why)
                    );
                    report.broken(Code::AlteredEntry, what);
                }
            }
        }
        opened.order.push((name, order));
    }
    if opened.altered == 0 {
        let count = opened.all().count();
        report.holds(Code::Entries, message!("verify-entries", count = count));
    }
    opened
}

/// Finds entries that the log or the seal counts but that are missing. An altered entry accounts for one that
/// the log names.
fn counted(
    parts: &Parts,
    opened: &Opened,
    missing: Vec<EntryId>,
    sealed: Option<&Seal>,
    report: &mut CheckReport,
) {
    if missing.len() > opened.altered {
        let ids = missing.iter().take(8).map(|id| Message::typed(id.to_string()));
        let what = message!(
            "verify-removed-entry",
            count = missing.len() - opened.altered,
            entries = Arg::list(Joint::Comma, ids)
        );
        report.broken(Code::RemovedEntry, what);
    }
    if let Some(sealed) = sealed {
        let here = SealedEntries::of(&parts.entries);
        if here.count < sealed.entries.count {
            let what = message!(
                "verify-fewer-entries",
                sealed = shown(sealed.entries.count),
                here = shown(here.count)
            );
            report.broken(Code::RemovedEntry, what);
        }
    }
}

fn chains(parts: &Parts, opened: &Opened, report: &mut CheckReport) {
    // The numbers and ids of all entries present or given by id, and whether the entry itself is present.
    let mut known: BTreeMap<DeviceId, BTreeMap<u64, BTreeSet<EntryId>>> = BTreeMap::new();
    let mut spans: BTreeMap<DeviceId, (u64, u64)> = BTreeMap::new();
    for entry in opened.all() {
        known.entry(entry.device).or_default().entry(entry.body.seq).or_default().insert(entry.id);
    }
    for entry in &opened.visit {
        let seq = entry.body.seq;
        let span = spans.entry(entry.device).or_insert((seq, seq));
        *span = (span.0.min(seq), span.1.max(seq));
    }
    let mut declared: BTreeMap<DeviceId, &[(u64, u64)]> = BTreeMap::new();
    for chain in &parts.log.chains {
        declared.insert(chain.device, &chain.missing);
        for other in &chain.elsewhere {
            known.entry(chain.device).or_default().entry(other.seq).or_default().insert(other.entry);
        }
    }
    let mut all = opened.altered == 0;
    for (device, (first, last)) in &spans {
        let Some(chain) = known.get(device) else { continue };
        let missing = declared.get(device).copied().unwrap_or_default();
        let mut expected = *first;
        for (seq, ids) in chain.range(*first..=*last) {
            if *seq > expected {
                let (from, to) = (expected, *seq - 1);
                let told = missing.iter().any(|(a, b)| *a <= from && to <= *b);
                if told {
                    report.mark(
                        Code::ChainGap,
                        message!(
                            "verify-chain-gap",
                            from = shown(from),
                            to = shown(to),
                            device = shown(device.short())
                        ),
                    );
                } else if opened.altered == 0 {
                    all = false;
                    report.broken(
                        Code::RemovedEntry,
                        message!(
                            "verify-chain-removed",
                            from = shown(from),
                            to = shown(to),
                            device = shown(device)
                        ),
                    );
                }
            }
            if ids.len() > 1 {
                report.mark(
                    Code::ChainGap,
                    message!(
                        "verify-chain-twice",
                        count = ids.len(),
                        device = shown(device.short()),
                        number = shown(seq)
                    ),
                );
            }
            expected = seq.saturating_add(1);
        }
    }
    let mut broken = 0usize;
    for entry in &opened.visit {
        let before = entry.body.seq.checked_sub(1).and_then(|seq| known.get(&entry.device)?.get(&seq));
        if let Some(before) = before
            && entry.body.prev.is_none_or(|prev| !before.contains(&prev))
        {
            broken += 1;
        }
    }
    if broken > 0 {
        report.mark(Code::ChainGap, message!("verify-chain-other", count = broken));
    }
    if all {
        report.holds(Code::Chains, message!("verify-chains", count = spans.len()));
    }
}

fn receipts(parts: &Parts, opened: &Opened, key: &dyn Trusts, report: &mut CheckReport) {
    let received: BTreeMap<EntryId, UtcMillis> =
        parts.log.leaves.iter().map(|leaf| (leaf.entry, leaf.received_at)).collect();
    let mut covered: BTreeSet<EntryId> = BTreeSet::new();
    let mut all = true;
    for bytes in &parts.receipts.receipts {
        let receipt = Receipt::from_bytes(bytes).map_err(|e| e.to_string());
        let checked = receipt.and_then(|r| r.check(key).map(|at| (r, at)).map_err(|e| e.to_string()));
        let (receipt, at) = match checked {
            Ok(checked) => checked,
            Err(why) => {
                all = false;
                report.broken(Code::ForgedReceipt, Message::typed(why));
                continue;
            }
        };
        let latest = receipt.entries.iter().filter_map(|id| received.get(id)).max();
        if let Some(latest) = latest
            && at.0.saturating_add(CLOCK_PLAY_MILLIS) < latest.0
        {
            all = false;
            let what = message!(
                "verify-backdated-receipt",
                at = shown(at.rfc3339()),
                received = shown(latest.rfc3339())
            );
            report.broken(Code::BackdatedReceipt, what);
        }
        covered.extend(receipt.entries);
    }
    if all {
        let count = opened.visit.iter().filter(|entry| covered.contains(&entry.id)).count();
        let what = message!(
            "verify-receipts",
            count = parts.receipts.receipts.len(),
            here = shown(count),
            all = shown(opened.visit.len())
        );
        report.holds(Code::Receipts, what);
    }
    let early = opened
        .all()
        .filter(|entry| {
            let claimed = entry.body.when.corrected();
            let at = received.get(&entry.id);
            at.is_some_and(|at| at.0.saturating_add(CLOCK_PLAY_MILLIS) < claimed.0)
        })
        .count();
    if early > 0 {
        report.mark(Code::ClaimedAfterReceived, message!("verify-claimed-after", count = early));
    }
}

fn photos(files: &Files, opened: &Opened, rules: Rules, sealed: Option<&Seal>, report: &mut CheckReport) {
    let mut signed: BTreeMap<Digest, BTreeSet<u64>> = BTreeMap::new();
    let mut named: BTreeSet<Digest> = BTreeSet::new();
    for entry in opened.all() {
        match &entry.body.says {
            Statement::Photo { photo, .. } => {
                let lengths = signed.entry(photo.sha256).or_default();
                // Version one checked only the last one.
                if rules == Rules::First {
                    lengths.clear();
                }
                lengths.insert(photo.length);
            }
            Statement::Seal(seal) => named.extend(seal.photo),
            Statement::Defect(defect) => named.extend(defect.photo),
            _ => {}
        }
    }
    let mut all = true;
    let mut sound = 0usize;
    let mut there: BTreeSet<Digest> = BTreeSet::new();
    for (name, photo) in &files.photos {
        let Some(named_digest) = photo_named(name) else { continue };
        there.insert(named_digest);
        if photo.sha256 == named_digest {
            let lengths = signed.get(&named_digest);
            let other = lengths.is_some_and(|lengths| lengths.iter().any(|length| *length != photo.length));
            match rules {
                Rules::First if other => {
                    all = false;
                    report.broken(Code::AlteredPhoto, message!("verify-photo-length", name = shown(name)));
                    continue;
                }
                // The digest decides, so that a wrong length in a signed entry does not make a genuine
                // photograph appear forged.
                Rules::Second | Rules::Third if other => {
                    let what = message!("verify-other-length", name = shown(name));
                    report.mark(Code::OtherLength, what);
                }
                _ => {}
            }
            sound += 1;
        } else if signed.contains_key(&photo.sha256) || named.contains(&photo.sha256) {
            all = false;
            report.broken(
                Code::SwappedPhoto,
                message!("verify-swapped-photo", name = shown(name), digest = shown(photo.sha256)),
            );
        } else {
            all = false;
            report.broken(Code::AlteredPhoto, message!("verify-altered-photo", name = shown(name)));
        }
    }
    let sealed_here = |digest: &Digest| {
        sealed.is_some_and(|seal| seal.attachments.iter().any(|l| photo_named(&l.name) == Some(*digest)))
    };
    let absent = signed.keys().filter(|digest| !there.contains(*digest) && !sealed_here(digest)).count();
    if absent > 0 {
        let what = match rules {
            Rules::First => message!("verify-absent-photo", count = absent),
            Rules::Second | Rules::Third => message!("verify-absent-photo-or", count = absent),
        };
        report.mark(Code::AbsentPhoto, what);
    }
    if all {
        report.holds(Code::Photos, message!("verify-photos", count = sound));
    }
}

fn view(files: &Files, parts: &Parts, key: &dyn Trusts, procedures: &Procedures, report: &mut CheckReport) {
    let Some(bytes) = files.records.get(VIEW) else {
        return report.broken(Code::UnreadableAttachment, message!("verify-missing", name = shown(VIEW)));
    };
    let again = serde_json::to_vec(&refold(parts, key, procedures).view).unwrap_or_default();
    if *bytes == again {
        report.holds(Code::View, message!("verify-view"));
    } else {
        report.broken(Code::AlteredView, message!("verify-altered-view"));
    }
}
