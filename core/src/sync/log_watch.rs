//! A device's check of the office's log. The device stores the newest verified checkpoint and a proof for
//! each entry, and detects when the office contradicts what it showed before, to this device or to another
//! one.
//!
//! A contradiction removes nothing: records stay, sync continues, and the verified checkpoint remains the
//! reference. Both signed notes are stored, because together they prove the contradiction to anybody. The
//! messages are in `log_wire`, the kinds of contradictions in `log_alarm`, stored proofs in `kept_proof`, and
//! hashes and signatures in `tree` and `log`.

use super::SyncError;
use super::kept_proof::KeptProof;
use super::keys::{known_up_to, take_statements};
use super::log_alarm::{ALARMS, Alarm, LogContradiction, keep_alarm, read_list, write_list};
use super::log_wire::{LogReply, LogRequest, MOST_ENTRIES, MOST_SIZES, open_log_reply};
use super::session_report::Step;
use super::wire::{parts, request_digest};
use crate::clock::UtcMillis;
use crate::entry::{AnyTime, DeviceKey, Entry, EntryError, OrganisationKeys, PublicKey, Trusts, cbor};
use crate::ids::{Digest, EntryId, Subject};
use crate::log::{Checkpoint, Restored, ledger_log};
use crate::store::{Store, StoreError, StoredCheckpoint, Write, organisation_keys};
use crate::tree::merkle;

const CHECKED_AT: &str = "log/checked_at";
const CARRIED: &str = "log/carried";

/// The time in milliseconds after which the log is requested again even if there is nothing new to prove.
const LONGEST_UNCHECKED: i64 = 24 * 60 * 60 * 1000;
/// The most log requests per sync. A device that joins a large ledger collects its proofs over several syncs.
const MOST_ROUNDS: u32 = 6;

/// The outcome of a check of the log.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct LogReport {
    /// The number of requests answered.
    pub rounds: u32,
    /// The number of entries that gained a proof.
    pub proven: u64,
    /// The size of the last verified checkpoint; `None` if there was none.
    pub size: Option<u64>,
    /// The contradictions found in this check, including those stored before.
    pub contradictions: Vec<LogContradiction>,
    /// New declarations that the ledger was restored from a backup.
    pub restored: Vec<Restored>,
}

/// The state of the office's log as this device knows it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LogStanding {
    /// The newest verified checkpoint.
    pub checkpoint: Option<StoredCheckpoint>,
    /// The time of the office's last answer about the log, by this device's clock.
    pub checked_at: Option<UtcMillis>,
    /// All stored contradictions, oldest first.
    pub alarms: Vec<Alarm>,
    /// The declarations that the ledger was restored from a backup.
    pub restores: Vec<Restored>,
}

/// Returns the state of the office's log as stored here.
///
/// # Errors
/// [`StoreError`] when the database fails.
pub fn log_standing(store: &dyn Store, root: &PublicKey) -> Result<LogStanding, StoreError> {
    let keys = organisation_keys(store, root)?;
    let checked_at = store.value(CHECKED_AT)?.and_then(|v| v.try_into().ok()).map(i64::from_be_bytes);
    let restores = ledger_log::restores(store)?;
    Ok(LogStanding {
        checkpoint: store.log().newest_checkpoint()?,
        checked_at: checked_at.map(UtcMillis),
        alarms: read_list(store, ALARMS)?,
        restores: restores.iter().filter_map(|bytes| Restored::open(bytes, &keys).ok()).collect(),
    })
}

/// Compares a checkpoint from a carry file with the checkpoints this device knows. If the office's help is
/// needed for the comparison, the next sync asks for it.
///
/// # Errors
/// [`StoreError`] when the database fails.
pub(super) fn compare_carried(
    store: &mut dyn Store,
    note: &str,
    keys: &dyn Trusts,
    now: UtcMillis,
) -> Result<Option<LogContradiction>, StoreError> {
    let Ok(carried) = Checkpoint::open(note, keys) else { return Ok(None) };
    // Any verified checkpoint of that log and size is suitable, not only the newest one.
    if let Some(ours) = store.log().checkpoint(&carried.origin, carried.size)?
        && let Ok(known) = Checkpoint::open(&ours.note, keys)
    {
        if known.root == carried.root {
            return Ok(None);
        }
        let kind = LogContradiction::TwoVersions;
        keep_alarm(store, Alarm { kind, at: now, ours: ours.note, theirs: note.to_owned(), entry: None })?;
        return Ok(Some(kind));
    }
    let mut waiting: Vec<String> = read_list(store, CARRIED)?;
    if !waiting.iter().any(|known| known == note) && waiting.len() < MOST_SIZES - 1 {
        waiting.push(note.to_owned());
        write_list(store, CARRIED, &waiting)?;
    }
    Ok(None)
}

/// One check of the office's log, over as many rounds as needed.
#[derive(Debug)]
pub struct LogWatch {
    /// The organisation's keys when the last message was made or read.
    keys: OrganisationKeys,
    outstanding: Option<Outstanding>,
    report: LogReport,
}

#[derive(Debug)]
struct Outstanding {
    digest: [u8; 16],
    known: Option<Known>,
    carried: Vec<Known>,
    entries: Vec<EntryId>,
}

/// A checkpoint together with its signed note.
#[derive(Debug, Clone)]
struct Known {
    note: String,
    checkpoint: Checkpoint,
}

impl Known {
    fn open(note: String, keys: &dyn Trusts) -> Option<Known> {
        let checkpoint = Checkpoint::open(&note, keys).ok()?;
        Some(Known { note, checkpoint })
    }
}

impl LogWatch {
    /// Creates a check of the log of the organisation with this root key.
    pub fn new(root: PublicKey) -> LogWatch {
        LogWatch { keys: OrganisationKeys::of_root(root), outstanding: None, report: LogReport::default() }
    }

    /// Returns what the check has found so far.
    pub const fn report(&self) -> &LogReport {
        &self.report
    }

    /// Returns the bytes of the next request, or `None` if there is nothing to ask: every entry with a
    /// receipt has a proof, no carried checkpoint awaits comparison, and the log was requested within the
    /// last day. The method may be called again if the last reply was lost.
    ///
    /// # Errors
    /// [`SyncError`]; no state is lost.
    pub fn request(
        &mut self,
        store: &dyn Store,
        key: &DeviceKey,
        now: UtcMillis,
    ) -> Result<Option<Vec<u8>>, SyncError> {
        let entries = store.log().without_proof(MOST_ENTRIES)?;
        let carried: Vec<String> = read_list(store, CARRIED)?;
        let checked_at = store.value(CHECKED_AT)?.and_then(|v| v.try_into().ok()).map(i64::from_be_bytes);
        // A negative age means that the clock was set back; the log is then requested, or the check could
        // stay silent for years.
        let fresh = checked_at.is_some_and(|at| (0..LONGEST_UNCHECKED).contains(&now.since(UtcMillis(at))));
        if entries.is_empty() && carried.is_empty() && fresh {
            return Ok(None);
        }
        self.keys = organisation_keys(store, &self.keys.root())?;
        let known = match store.log().newest_checkpoint()? {
            Some(kept) => Known::open(kept.note, &self.keys),
            None => None,
        };
        let carried: Vec<Known> =
            carried.into_iter().filter_map(|note| Known::open(note, &self.keys)).collect();
        let origin = known.as_ref().map(|k| k.checkpoint.origin.clone()).unwrap_or_default();
        let sizes = known.iter().chain(&carried).map(|k| k.checkpoint.size).take(MOST_SIZES).collect();
        let statement = known_up_to(&self.keys);
        let request = LogRequest { at: now, origin, sizes, entries: entries.clone(), statement }.seal(key)?;
        self.outstanding = Some(Outstanding { digest: request_digest(&request), known, carried, entries });
        Ok(Some(request))
    }

    /// Processes the reply to the last request.
    ///
    /// # Errors
    /// [`SyncError::NotTheServer`] for any reply that the organisation's key did not sign. A contradiction is
    /// not an error; it is stored and appears in the report.
    pub fn receive(
        &mut self,
        store: &mut dyn Store,
        reply: &[u8],
        now: UtcMillis,
    ) -> Result<Step, SyncError> {
        let not_the_server = |e: &dyn std::fmt::Display| SyncError::NotTheServer(e.to_string());
        let brought = parts(reply).map_err(|e| not_the_server(&e))?.statements;
        self.keys = take_statements(store, &self.keys.root(), brought, now)?.0;
        let (head, reply) = open_log_reply(reply, &self.keys).map_err(|e| not_the_server(&e))?;
        let Some(asked) = self.outstanding.take().filter(|asked| asked.digest == head.request) else {
            return Err(SyncError::OtherRequest);
        };
        let checkpoint = Checkpoint::open(&reply.note, &self.keys).map_err(|e| not_the_server(&e))?;
        let offered = Known { note: reply.note.clone(), checkpoint };
        self.report.rounds += 1;
        let restores = self.take_restores(store, &reply)?;
        let kept = self.kept_restores(store)?;
        if let Err((kind, ours)) = self.follows(asked.known.as_ref(), &offered, &reply, &restores, &kept) {
            self.contradicts(store, kind, &ours, &offered.note, None, now)?;
            return Ok(Step::Done);
        }
        self.compare_all_carried(store, &asked, &offered, &reply, (&restores, &kept), now)?;
        self.adopt(store, asked.known.as_ref(), &offered, &reply, now)?;
        self.take_proofs(store, &asked, &offered, &reply, now)?;
        if !self.report.contradictions.is_empty() {
            return Ok(Step::Done);
        }
        store.commit(&[Write::Value { key: CHECKED_AT, value: &now.0.to_be_bytes() }])?;
        let more = !store.log().without_proof(1)?.is_empty();
        Ok(if more && self.report.rounds < MOST_ROUNDS { Step::Again } else { Step::Done })
    }

    fn contradicts(
        &mut self,
        store: &mut dyn Store,
        kind: LogContradiction,
        ours: &str,
        theirs: &str,
        entry: Option<EntryId>,
        at: UtcMillis,
    ) -> Result<(), StoreError> {
        self.report.contradictions.push(kind);
        // Clearing this time makes every sync ask again until the office answers.
        store.commit(&[Write::Value { key: CHECKED_AT, value: &[] }])?;
        keep_alarm(store, Alarm { kind, at, ours: ours.to_owned(), theirs: theirs.to_owned(), entry })
    }

    fn take_restores(
        &mut self,
        store: &mut dyn Store,
        reply: &LogReply,
    ) -> Result<Vec<(Restored, Vec<Digest>)>, SyncError> {
        let known = ledger_log::restores(store)?;
        // A declaration that was signed again with another key is the same declaration and not new.
        let open = |bytes: &serde_bytes::ByteBuf| Restored::open(bytes, &AnyTime(&self.keys)).ok();
        let declared: Vec<Restored> = known.iter().filter_map(open).collect();
        let (mut opened, mut new) = (Vec::new(), Vec::new());
        for (bytes, path) in &reply.restores {
            let restored =
                Restored::open(bytes, &self.keys).map_err(|e| SyncError::NotTheServer(e.to_string()))?;
            if !known.contains(bytes) {
                new.push((bytes.to_vec(), restored.clone()));
            }
            opened.push((restored, path.clone()));
        }
        // A device that never saw the earlier log has no use for the news.
        if store.log().newest_checkpoint()?.is_some() {
            let news = new.iter().map(|(_, restored)| restored).filter(|new| !declared.contains(new));
            self.report.restored.extend(news.cloned());
        }
        ledger_log::keep_restores(store, new.into_iter().map(|(bytes, _)| bytes))?;
        Ok(opened)
    }

    fn kept_restores(&self, store: &dyn Store) -> Result<Vec<Restored>, StoreError> {
        let all = ledger_log::restores(store)?;
        Ok(all.iter().filter_map(|bytes| Restored::open(bytes, &self.keys).ok()).collect())
    }

    /// Checks that the offered checkpoint follows from the known one: the same log with leaves appended, or
    /// another log that a declaration leads to. Otherwise returns the contradiction and the note that the
    /// offered one contradicts.
    fn follows(
        &self,
        known: Option<&Known>,
        offered: &Known,
        reply: &LogReply,
        restores: &[(Restored, Vec<Digest>)],
        kept: &[Restored],
    ) -> Result<(), (LogContradiction, String)> {
        // The offered log must begin with the leaves that its declaration names.
        let new = &offered.checkpoint;
        let note = known.map_or_else(|| offered.note.clone(), |known| known.note.clone());
        for (restored, path) in restores {
            if !merkle::consistency_holds(restored.size, restored.root, new.size, new.root, path) {
                return Err((LogContradiction::Rewritten, note));
            }
        }
        let Some(known) = known else { return Ok(()) };
        let path = reply.consistency.first().and_then(Option::as_deref);
        if known.checkpoint.origin == new.origin {
            return grown(&known.checkpoint, new, path).map_err(|kind| (kind, note));
        }
        match declared(&known.checkpoint.origin, &new.origin, restores) {
            None if both_left_one(&known.checkpoint.origin, &new.origin, restores, kept) => Ok(()),
            None => Err((LogContradiction::AnotherLog, note)),
            // The leaves beyond the backup are lost, as declared. Their notes and proofs stay on this device.
            Some(first) if known.checkpoint.size > first.size => Ok(()),
            Some(_) => grown(&known.checkpoint, new, path).map_err(|kind| (kind, note)),
        }
    }

    fn compare_all_carried(
        &mut self,
        store: &mut dyn Store,
        asked: &Outstanding,
        offered: &Known,
        reply: &LogReply,
        (restores, kept): (&[(Restored, Vec<Digest>)], &[Restored]),
        now: UtcMillis,
    ) -> Result<(), StoreError> {
        if asked.carried.is_empty() {
            return Ok(());
        }
        let skip = usize::from(asked.known.is_some());
        let paths = reply.consistency.iter().skip(skip).map(Option::as_deref).chain(std::iter::repeat(None));
        for (carried, path) in asked.carried.iter().zip(paths) {
            let (theirs, new) = (&carried.checkpoint, &offered.checkpoint);
            let verdict = if theirs.origin == new.origin {
                grown(theirs, new, path)
            } else {
                match declared(&theirs.origin, &new.origin, restores) {
                    Some(first) if theirs.size > first.size => Ok(()),
                    Some(_) => grown(theirs, new, path),
                    None if both_left_one(&theirs.origin, &new.origin, restores, kept) => Ok(()),
                    None => Err(LogContradiction::AnotherLog),
                }
            };
            if let Err(kind) = verdict {
                self.contradicts(store, kind, &carried.note, &offered.note, None, now)?;
            }
        }
        // The carried checkpoints that were asked about have been decided; those that arrived in the meantime
        // wait for the next check.
        let mut waiting: Vec<String> = read_list(store, CARRIED)?;
        waiting.retain(|note| !asked.carried.iter().any(|carried| carried.note == *note));
        write_list(store, CARRIED, &waiting)
    }

    fn adopt(
        &mut self,
        store: &mut dyn Store,
        known: Option<&Known>,
        offered: &Known,
        reply: &LogReply,
        now: UtcMillis,
    ) -> Result<(), SyncError> {
        let new = &offered.checkpoint;
        self.report.size = Some(new.size);
        let same = known.is_some_and(|known| known.checkpoint == *new);
        if same && known.is_some_and(|known| known.note == offered.note) {
            return Ok(());
        }
        let since = match (known, reply.consistency.first()) {
            (Some(known), Some(Some(path))) => {
                cbor::encode(&(known.checkpoint.size, path)).map_err(EntryError::from)?
            }
            _ => Vec::new(),
        };
        let (origin, size, note) = (new.origin.as_str(), new.size, offered.note.as_str());
        store.commit(&[Write::Checkpoint { origin, size, note, at: now, since: &since }])?;
        Ok(())
    }

    fn take_proofs(
        &mut self,
        store: &mut dyn Store,
        asked: &Outstanding,
        offered: &Known,
        reply: &LogReply,
        now: UtcMillis,
    ) -> Result<(), SyncError> {
        if asked.entries.is_empty() {
            return Ok(());
        }
        let note = offered.note.as_str();
        let mut leaves = Vec::new();
        for (at, entry) in asked.entries.iter().enumerate() {
            match reply.leaves.get(at).copied().flatten() {
                Some((number, received_at)) => {
                    // The subject comes from the entry stored here. A leaf with another subject has another
                    // hash, so its proof fails.
                    let about = match reply.bound.get(at) {
                        Some(true) => about_of(store, *entry)?,
                        _ => None,
                    };
                    leaves.push(((number, *entry, received_at), about));
                }
                None => {
                    let kind = LogContradiction::EntryMissing;
                    self.contradicts(store, kind, note, note, Some(*entry), now)?;
                }
            }
        }
        if leaves.is_empty() {
            return Ok(());
        }
        leaves.sort_unstable_by_key(|((number, _, _), _)| *number);
        let (leaves, mut abouts): (Vec<_>, Vec<_>) = leaves.into_iter().unzip();
        if abouts.iter().all(Option::is_none) {
            abouts.clear();
        }
        let proof = KeptProof { note: note.to_owned(), leaves, abouts, hashes: reply.hashes.clone() };
        let reached = merkle::batch_paths(&proof.hashed(), offered.checkpoint.size, &proof.hashes);
        if reached.map(|(root, _)| root) != Some(offered.checkpoint.root) {
            return Ok(self.contradicts(store, LogContradiction::ProofFails, note, note, None, now)?);
        }
        let bytes = cbor::encode(&proof).map_err(EntryError::from)?;
        let entries: Vec<EntryId> = proof.leaves.iter().map(|(_, entry, _)| *entry).collect();
        store.commit(&[Write::Proof { bytes: &bytes, entries: &entries }])?;
        self.report.proven += entries.len() as u64;
        Ok(())
    }
}

/// Returns the subject of an entry stored here.
fn about_of(store: &dyn Store, entry: EntryId) -> Result<Option<Subject>, StoreError> {
    let row = store.entry(entry)?;
    Ok(row.and_then(|row| Entry::reopen(row.id, row.bytes).ok()).map(|entry| entry.body.about))
}

/// Checks that the log of `new` is that of `old`, unchanged or with leaves appended.
fn grown(old: &Checkpoint, new: &Checkpoint, path: Option<&[Digest]>) -> Result<(), LogContradiction> {
    if new.size < old.size {
        return Err(LogContradiction::Shorter);
    }
    if new.size == old.size {
        return if new.root == old.root { Ok(()) } else { Err(LogContradiction::TwoVersions) };
    }
    let path = path.unwrap_or_default();
    if merkle::consistency_holds(old.size, old.root, new.size, new.root, path) {
        Ok(())
    } else {
        Err(LogContradiction::Rewritten)
    }
}

/// Returns the declaration by which the log `old` ended, if an unbroken chain of declarations leads from it
/// to `new`.
fn declared<'a>(old: &str, new: &str, restores: &'a [(Restored, Vec<Digest>)]) -> Option<&'a Restored> {
    let mut at = new;
    for _ in restores {
        let (restored, _) = restores.iter().find(|(restored, _)| restored.origin == at)?;
        if restored.before == old {
            return Some(restored);
        }
        at = &restored.before;
    }
    None
}

/// Returns true if both logs descend, by declaration, from a common earlier log. This happens when a backup
/// is restored and later an even older one: the office then no longer knows of the log `old`, but this device
/// does (`kept`).
fn both_left_one(old: &str, new: &str, restores: &[(Restored, Vec<Digest>)], kept: &[Restored]) -> bool {
    let mut at = old;
    for _ in kept {
        let Some(left) = kept.iter().find(|restored| restored.origin == at) else { return false };
        at = &left.before;
        if at == new || declared(at, new, restores).is_some() {
            return true;
        }
    }
    false
}
