//! Every check of a packet that needs no PDF: given its attachments, the seal and the organisation's key,
//! says what holds and what does not.
//!
//! Pure and total; hostile bytes lead to lines, never to a panic. Called by the `verify` command and by
//! whoever takes a packet in. The second verifier follows `FORMAT.md`, which these checks follow too.

use std::collections::{BTreeMap, BTreeSet};

use super::devices;
use super::front;
use super::keys_check;
use super::last_entry;
use super::log_check;
use super::parts::{Certificates, Entries, Log, Parts, PartsError, Receipts, read};
use super::refold::refold;
use super::report::{CheckReport, Code};
use super::seal::{Seal, SealedEntries};
use super::{CERTIFICATES, ENTRIES, LOG, RECEIPTS, SEAL, VIEW, photo_named};
use super::{sealed as sealing, times, whole};
use crate::clock::UtcMillis;
use crate::entry::{AnyTime, Entry, EntryError, OrganisationKeys, PublicKey, Statement, Trusts, hint_of};
use crate::ids::{DeviceId, Digest, EntryId, Subject};
use crate::log::{Checkpoint, Receipt};
use crate::procedure::Procedures;
use crate::view::FOLD_VERSION;

/// How much earlier than the log's a receipt's time may be, milliseconds: an office's clock may have been
/// set back by so much between the two.
pub(super) const CLOCK_PLAY_MILLIS: i64 = 10 * 60 * 1000;

/// The newest rules known here; see [`Rules`].
pub(super) const NEWEST_RULES: u64 = 3;

/// An attached photograph, digested.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct PhotoFile {
    /// The SHA-256 of its bytes.
    pub sha256: Digest,
    /// Their number.
    pub length: u64,
}

/// A checkpoint from elsewhere, to compare the packet's with.
#[derive(Debug, Clone, Default)]
pub struct OtherNote {
    /// The signed note.
    pub note: String,
    /// A consistency proof between the two, where they differ in size.
    pub consistency: Vec<Digest>,
}

/// What was taken out of a packet.
#[derive(Debug, Clone, Default)]
pub struct Files {
    /// Every attachment but photographs, by name.
    pub records: BTreeMap<String, Vec<u8>>,
    /// The photographs, by name.
    pub photos: BTreeMap<String, PhotoFile>,
    /// The SHA-256 of the file with the seal's bytes zeroed; nothing when they are not found in it once.
    pub file: Option<Digest>,
}

/// Which rules a packet is checked by. A packet is held to those of the program that sealed it, for ever.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Rules {
    /// Every entry counts, whoever signed it.
    First,
    /// Entries may bear a person's signature; those of devices that do not count are kept and marked.
    Second,
    /// The log says what is whole, entries say what their devices had been shown.
    Third,
}

impl Rules {
    /// Of a fold; where no seal says which, the newest.
    fn of(fold: Option<u64>) -> Rules {
        match fold {
            Some(0 | 1) => Rules::First,
            Some(2) => Rules::Second,
            Some(_) | None => Rules::Third,
        }
    }
}

/// Checks everything, with nothing but the organisation's public key.
pub fn check(
    files: &Files,
    key: &PublicKey,
    against: Option<&OtherNote>,
    procedures: &Procedures,
) -> CheckReport {
    check_with(files, &OrganisationKeys::of_root(*key), against, procedures)
}

/// As [`check`], with what is known from elsewhere of the organisation's keys: a packet cannot know what was said
/// after it was made.
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
    front::check((files, &parts), sealed.as_ref(), &opened, key, &mut report);
    match fold {
        Some(FOLD_VERSION) => view(files, &parts, key, procedures, &mut report),
        Some(other) => {
            let what = format!(
                "folded by the rules of another version ({other}, this program's is {FOLD_VERSION}); its view was not compared"
            );
            report.mark(Code::OtherFold, what);
            if rules >= Rules::Third && !files.records.contains_key(VIEW) {
                report.broken(Code::UnreadableAttachment, "view.json is not there");
            }
        }
        // Nobody's word says by which rules it was folded, and that was said above.
        None => {}
    }
    report
}

/// The seal. Nothing is returned when it is another organisation's: then nothing else can be said.
fn seal(files: &Files, key: &dyn Trusts, report: &mut CheckReport) -> Option<Option<Seal>> {
    let Some(bytes) = files.records.get(SEAL) else {
        report.broken(Code::RemovedAttachment, "seal.cbor is not in the file");
        return Some(None);
    };
    let sealed = match Seal::open(bytes, key) {
        Ok(sealed) => sealed,
        Err(PartsError::Unwritable(EntryError::WrongSigner)) => {
            let by = hint_of(bytes).ok().and_then(|kid| kid.try_into().ok()).map(DeviceId);
            let by = by.map_or("another key".to_owned(), |by| format!("the key {by}"));
            report.broken(Code::WrongKey, format!("the packet is sealed by {by}, not by the key given"));
            return None;
        }
        Err(why) => {
            report.broken(Code::AlteredSeal, format!("the seal does not hold: {why}"));
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
                report.broken(Code::AlteredAttachment, format!("{} is not the file sealed", listed.name));
            }
            None => {
                intact = false;
                report.broken(Code::RemovedAttachment, format!("{} was sealed and is gone", listed.name));
            }
        }
    }
    for name in there.keys() {
        intact = false;
        report.broken(Code::AddedAttachment, format!("{name} was not sealed"));
    }
    if files.file == Some(sealed.file) {
        report.holds(Code::Seal, "the whole file is as the organisation sealed it");
    } else if intact {
        let what = "the attached records are the sealed ones, but the file around them is not: what the \
                    pages show was changed, or something was added to the file";
        report.broken(Code::EditedPages, what);
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
            report.broken(Code::UnreadableAttachment, format!("{name} is not there"));
            return None;
        };
        read(bytes).map_err(|why| report.broken(Code::UnreadableAttachment, why.to_string())).ok()
    }
    let entries = part(files, ENTRIES, Entries::from_bytes, report);
    let certificates = part(files, CERTIFICATES, |b| read::<Certificates>(CERTIFICATES, b), report);
    let receipts = part(files, RECEIPTS, |b| read::<Receipts>(RECEIPTS, b), report);
    let log = part(files, LOG, Log::from_bytes, report);
    Some(Parts { entries: entries?, certificates: certificates?, receipts: receipts?, log: log? })
}

/// The entries that open, by id, and how many do not.
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

    /// The entries of one list.
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
                        let what = format!("entry {} is about {}, not {name}", entry.id, entry.body.about);
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
                    let what = format!("entry {} of the list \"{name}\": {why}", at + 1);
                    report.broken(Code::AlteredEntry, what);
                }
            }
        }
        opened.order.push((name, order));
    }
    if opened.altered == 0 {
        let count = opened.all().count();
        report.holds(Code::Entries, format!("{count} entries bear the signatures of their devices"));
    }
    opened
}

/// What log and seal count and is not here. An altered entry stands in the place of one the log names.
fn counted(
    parts: &Parts,
    opened: &Opened,
    missing: Vec<EntryId>,
    sealed: Option<&Seal>,
    report: &mut CheckReport,
) {
    if missing.len() > opened.altered {
        let ids: Vec<String> = missing.iter().take(8).map(ToString::to_string).collect();
        let what = format!(
            "{} entries the log lists are not here, among them {}",
            missing.len() - opened.altered,
            ids.join(", ")
        );
        report.broken(Code::RemovedEntry, what);
    }
    if let Some(sealed) = sealed {
        let here = SealedEntries::of(&parts.entries);
        if here.count < sealed.entries.count {
            let what = format!("{} entries were sealed, {} are here", sealed.entries.count, here.count);
            report.broken(Code::RemovedEntry, what);
        }
    }
}

fn chains(parts: &Parts, opened: &Opened, report: &mut CheckReport) {
    // Numbers and ids of every entry here or given by id, and whether the entry itself is here.
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
                        format!("entries {from} to {to} of device {} are not at the office", device.short()),
                    );
                } else if opened.altered == 0 {
                    all = false;
                    report.broken(
                        Code::RemovedEntry,
                        format!("entries {from} to {to} of the chain of device {device} are gone"),
                    );
                }
            }
            if ids.len() > 1 {
                report.mark(
                    Code::ChainGap,
                    format!("{} entries of device {} carry the number {seq}", ids.len(), device.short()),
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
        let what = format!("{broken} entries name another entry before them than the one known");
        report.mark(Code::ChainGap, what);
    }
    if all {
        report.holds(Code::Chains, format!("the chains of {} devices are accounted for", spans.len()));
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
                report.broken(Code::ForgedReceipt, why);
                continue;
            }
        };
        let latest = receipt.entries.iter().filter_map(|id| received.get(id)).max();
        if let Some(latest) = latest
            && at.0.saturating_add(CLOCK_PLAY_MILLIS) < latest.0
        {
            all = false;
            let what = format!(
                "a receipt says {}, but the log received an entry it covers at {}",
                at.rfc3339(),
                latest.rfc3339()
            );
            report.broken(Code::BackdatedReceipt, what);
        }
        covered.extend(receipt.entries);
    }
    if all {
        let count = opened.visit.iter().filter(|entry| covered.contains(&entry.id)).count();
        let what = format!(
            "{} receipts hold; they cover {count} of the stay's {} entries",
            parts.receipts.receipts.len(),
            opened.visit.len()
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
        let what = format!(
            "{early} entries claim a time after the office received them: the clock of their device was wrong, or the office's"
        );
        report.mark(Code::ClaimedAfterReceived, what);
    }
}

fn photos(files: &Files, opened: &Opened, rules: Rules, sealed: Option<&Seal>, report: &mut CheckReport) {
    let mut signed: BTreeMap<Digest, BTreeSet<u64>> = BTreeMap::new();
    let mut named: BTreeSet<Digest> = BTreeSet::new();
    for entry in opened.all() {
        match &entry.body.says {
            Statement::Photo { photo, .. } => {
                let lengths = signed.entry(photo.sha256).or_default();
                // Version one looked at the last one alone.
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
                    report.broken(Code::AlteredPhoto, format!("{name} has another length than signed for"));
                    continue;
                }
                // The digest decides: whoever signs a wrong length must not make a true photograph a forged one.
                Rules::Second | Rules::Third if other => {
                    let what = format!("an entry gives another length than {name} has; its digest is right");
                    report.mark(Code::OtherLength, what);
                }
                _ => {}
            }
            sound += 1;
        } else if signed.contains_key(&photo.sha256) || named.contains(&photo.sha256) {
            all = false;
            report.broken(
                Code::SwappedPhoto,
                format!("under the name {name} stands photograph {}", photo.sha256),
            );
        } else {
            all = false;
            report.broken(Code::AlteredPhoto, format!("the bytes of {name} are not those signed for"));
        }
    }
    let sealed_here = |digest: &Digest| {
        sealed.is_some_and(|seal| seal.attachments.iter().any(|l| photo_named(&l.name) == Some(*digest)))
    };
    let absent = signed.keys().filter(|digest| !there.contains(*digest) && !sealed_here(digest)).count();
    if absent > 0 {
        let why = match rules {
            Rules::First => "",
            Rules::Second | Rules::Third => ", or only entries that do not count name them",
        };
        let what = format!("{absent} photographs were not at the office when the packet was made{why}");
        report.mark(Code::AbsentPhoto, what);
    }
    if all {
        report.holds(Code::Photos, format!("{sound} photographs are byte for byte those signed for"));
    }
}

fn view(files: &Files, parts: &Parts, key: &dyn Trusts, procedures: &Procedures, report: &mut CheckReport) {
    let Some(bytes) = files.records.get(VIEW) else {
        return report.broken(Code::UnreadableAttachment, "view.json is not there");
    };
    let again = serde_json::to_vec(&refold(parts, key, procedures).view).unwrap_or_default();
    if *bytes == again {
        report.holds(Code::View, "the record shown is the one the entries fold to");
    } else {
        let what = "view.json is not what the entries fold to with this version of the program";
        report.broken(Code::AlteredView, what);
    }
}
