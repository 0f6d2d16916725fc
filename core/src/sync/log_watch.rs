//! A device watching the office's log: it keeps the newest checkpoint it checked and a proof for each entry,
//! and notices when what the office shows contradicts what it showed before, here or to another device.
//!
//! A contradiction takes nothing away: records stay, sync goes on, the checkpoint that was checked stays the
//! one that counts, and both signed notes are kept, since together they show it to anybody. Does not live
//! here: the messages (`log_wire`), kinds of contradictions (`log_alarm`), proofs as kept (`kept_proof`), hashes and
//! signatures (`tree`, `log`).

use super::SyncError;
use super::kept_proof::KeptProof;
use super::keys::{known_up_to, take_statements};
use super::log_alarm::{ALARMS, Alarm, Contradiction, keep_alarm, read_list, write_list};
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

/// With nothing new to prove, the log is asked for again after this long.
const LONGEST_UNCHECKED: i64 = 24 * 60 * 60 * 1000;
/// Rounds about the log in one sync, so that a device that joins a large ledger gets its proofs over several.
const MOST_ROUNDS: u32 = 6;

/// What checking the log brought about.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct LogReport {
    /// Requests answered.
    pub rounds: u32,
    /// Entries this device now holds a proof for.
    pub proven: u64,
    /// How long the log is that was checked last; nothing when none was.
    pub size: Option<u64>,
    /// Contradictions met with now, whether they were kept before or not.
    pub contradictions: Vec<Contradiction>,
    /// Declarations, newly met with, that the ledger came back from a backup.
    pub restored: Vec<Restored>,
}

/// How the office's log stands, as this device knows it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LogStanding {
    /// The newest checkpoint checked.
    pub checkpoint: Option<StoredCheckpoint>,
    /// When the office last answered about it, by this device's clock.
    pub checked_at: Option<UtcMillis>,
    /// Every contradiction ever noticed, oldest first.
    pub alarms: Vec<Alarm>,
    /// Declarations that the ledger came back from a backup.
    pub restores: Vec<Restored>,
}

/// How the office's log stands, as kept here.
///
/// # Errors
/// [`StoreError`].
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

/// Compares a checkpoint another device was shown, and carried here, with what this one was shown. What can
/// only be told with the office's help is asked at the next sync.
///
/// # Errors
/// [`StoreError`].
pub(super) fn compare_carried(
    store: &mut dyn Store,
    note: &str,
    keys: &dyn Trusts,
    now: UtcMillis,
) -> Result<Option<Contradiction>, StoreError> {
    let Ok(carried) = Checkpoint::open(note, keys) else { return Ok(None) };
    // Any checkpoint of that log and size this device ever checked will do, not only its newest.
    if let Some(ours) = store.log().checkpoint(&carried.origin, carried.size)?
        && let Ok(known) = Checkpoint::open(&ours.note, keys)
    {
        if known.root == carried.root {
            return Ok(None);
        }
        let kind = Contradiction::TwoVersions;
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

/// One check of the office's log, over as many rounds as it takes.
#[derive(Debug)]
pub struct LogWatch {
    /// As known when the last message was made or read.
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

/// A checkpoint with the note that proves it.
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
    /// A check of the log of the organisation that enrolled this device.
    pub fn new(root: PublicKey) -> LogWatch {
        LogWatch { keys: OrganisationKeys::of_root(root), outstanding: None, report: LogReport::default() }
    }

    /// What has happened so far.
    pub const fn report(&self) -> &LogReport {
        &self.report
    }

    /// The next request's bytes; nothing when there is nothing to ask: every receipted entry is proven, no
    /// carried checkpoint waits to be compared, and the log was asked for within the last day. May be called
    /// again when the reply to the last one got lost.
    ///
    /// # Errors
    /// [`SyncError`]; nothing is lost by it.
    pub fn request(
        &mut self,
        store: &dyn Store,
        key: &DeviceKey,
        now: UtcMillis,
    ) -> Result<Option<Vec<u8>>, SyncError> {
        let entries = store.log().without_proof(MOST_ENTRIES)?;
        let carried: Vec<String> = read_list(store, CARRIED)?;
        let checked_at = store.value(CHECKED_AT)?.and_then(|v| v.try_into().ok()).map(i64::from_be_bytes);
        // A clock that was put back must not silence the check for years.
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

    /// Takes the reply to the last request.
    ///
    /// # Errors
    /// [`SyncError::NotTheServer`] for anything the organisation's key did not sign. A contradiction is no
    /// error: it is in the report, and kept.
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
        kind: Contradiction,
        ours: &str,
        theirs: &str,
        entry: Option<EntryId>,
        at: UtcMillis,
    ) -> Result<(), StoreError> {
        self.report.contradictions.push(kind);
        // It is asked about again at every sync until it is answered.
        store.commit(&[Write::Value { key: CHECKED_AT, value: &[] }])?;
        keep_alarm(store, Alarm { kind, at, ours: ours.to_owned(), theirs: theirs.to_owned(), entry })
    }

    fn take_restores(
        &mut self,
        store: &mut dyn Store,
        reply: &LogReply,
    ) -> Result<Vec<(Restored, Vec<Digest>)>, SyncError> {
        let known = ledger_log::restores(store)?;
        // Signed anew by another key it is the same declaration, and no news.
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
        // To a device that never saw an earlier log they are no news.
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

    /// Whether the checkpoint offered follows from the one known: the same log grown, or another one that a
    /// declaration leads to. Else what contradicts, and the note it contradicts.
    fn follows(
        &self,
        known: Option<&Known>,
        offered: &Known,
        reply: &LogReply,
        restores: &[(Restored, Vec<Digest>)],
        kept: &[Restored],
    ) -> Result<(), (Contradiction, String)> {
        // The log offered must begin with everything it declares to have begun with.
        let new = &offered.checkpoint;
        let note = known.map_or_else(|| offered.note.clone(), |known| known.note.clone());
        for (restored, path) in restores {
            if !merkle::consistency_holds(restored.size, restored.root, new.size, new.root, path) {
                return Err((Contradiction::Rewritten, note));
            }
        }
        let Some(known) = known else { return Ok(()) };
        let path = reply.consistency.first().and_then(Option::as_deref);
        if known.checkpoint.origin == new.origin {
            return grown(&known.checkpoint, new, path).map_err(|kind| (kind, note));
        }
        match declared(&known.checkpoint.origin, &new.origin, restores) {
            None if both_left_one(&known.checkpoint.origin, &new.origin, restores, kept) => Ok(()),
            None => Err((Contradiction::AnotherLog, note)),
            // What was known beyond the backup is lost, as declared; the notes and proofs of it stay here.
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
                    None => Err(Contradiction::AnotherLog),
                }
            };
            if let Err(kind) = verdict {
                self.contradicts(store, kind, &carried.note, &offered.note, None, now)?;
            }
        }
        // Those asked about have their verdict; what was carried in meanwhile waits.
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
                    // What it is about is read here: a leaf that says something else does not hash alike.
                    let about = match reply.bound.get(at) {
                        Some(true) => about_of(store, *entry)?,
                        _ => None,
                    };
                    leaves.push(((number, *entry, received_at), about));
                }
                None => {
                    let kind = Contradiction::EntryMissing;
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
            return Ok(self.contradicts(store, Contradiction::ProofFails, note, note, None, now)?);
        }
        let bytes = cbor::encode(&proof).map_err(EntryError::from)?;
        let entries: Vec<EntryId> = proof.leaves.iter().map(|(_, entry, _)| *entry).collect();
        store.commit(&[Write::Proof { bytes: &bytes, entries: &entries }])?;
        self.report.proven += entries.len() as u64;
        Ok(())
    }
}

/// What an entry held here is about.
fn about_of(store: &dyn Store, entry: EntryId) -> Result<Option<Subject>, StoreError> {
    let row = store.entry(entry)?;
    Ok(row.and_then(|row| Entry::reopen(row.id, row.bytes).ok()).map(|entry| entry.body.about))
}

/// Whether `new` is `old` grown, or as it was.
fn grown(old: &Checkpoint, new: &Checkpoint, path: Option<&[Digest]>) -> Result<(), Contradiction> {
    if new.size < old.size {
        return Err(Contradiction::Shorter);
    }
    if new.size == old.size {
        return if new.root == old.root { Ok(()) } else { Err(Contradiction::TwoVersions) };
    }
    let path = path.unwrap_or_default();
    if merkle::consistency_holds(old.size, old.root, new.size, new.root, path) {
        Ok(())
    } else {
        Err(Contradiction::Rewritten)
    }
}

/// The declaration by which the log `old` was left, when an unbroken line of them leads from it to `new`.
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

/// Whether the log `new` and the log `old` both went on, as declared, from one log before: a backup was put
/// back, and later another made before that. The second no longer knows of `old`; this device (`kept`) does.
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
