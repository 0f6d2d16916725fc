//! The server's one way of writing what devices bring: a batch of rounds, whole or not at all.
//!
//! [`Ledger::apply`] writes changes, entries, leaves of the log, the numbers of the rounds and their receipts
//! in one transaction with one wait for the disk. What a batch contains was parsed, verified and decided
//! before; inside, the ledger only sequences and writes. The trait is written for databases that several
//! processes share: a batch names the moment at which its decisions were made, an error says whether
//! something may have been written, and a batch may be applied again without doing anything twice.

use std::collections::HashSet;

use super::{Store, StoreError, Write, group_commit};
use crate::clock::UtcMillis;
use crate::document::CheckedChange;
use crate::entry::Statement;
use crate::ids::{Digest, EntryId, Subject};

/// A state of the ledger, as seen by those who share it. Two equal moments of one ledger mean that nobody
/// else has written in between.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Moment(pub u64);

/// What one round brings.
#[derive(Debug, Clone)]
pub struct Round<'a> {
    /// The name of the value that holds the number of the device's newest round.
    pub counter: &'a str,
    /// The number of this round. Nothing of the round is written unless it is higher than the newest one.
    pub number: u64,
    /// The checked changes, each with its document.
    pub changes: Vec<(Subject, &'a CheckedChange)>,
    /// The time of arrival, for the leaves of the entries that are new.
    pub received_at: UtcMillis,
    /// Further writes of the round.
    pub beside: Vec<Write<'a>>,
}

/// Rounds that are written together.
#[derive(Debug, Clone)]
pub struct Batch<'a> {
    /// The moment at which everything in the batch was decided, see [`Ledger::moment`].
    pub decided: Moment,
    /// The rounds, in the order in which they are sequenced.
    pub rounds: Vec<Round<'a>>,
    /// Further writes, made after those of the rounds.
    pub beside: Vec<Write<'a>>,
}

/// What became of one round.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Sequenced {
    /// The number of the device's newest round, if this round's number was not higher. Nothing of it was then
    /// written.
    pub old_number: Option<u64>,
    /// The entries that were new to the ledger, each with the document that brought it.
    pub new: Vec<(Subject, EntryId)>,
}

/// What became of a batch.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Outcome {
    /// The batch is on the disk. For every round what became of it.
    Applied(Vec<Sequenced>),
    /// Somebody else wrote since the batch was decided. Nothing was written; decide again.
    Overtaken,
}

/// A receipt to keep: the signed bytes and the entries it covers.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SignedReceipt {
    /// The exact signed bytes.
    pub bytes: Vec<u8>,
    /// The entries that the receipt covers.
    pub entries: Vec<EntryId>,
}

/// Who signs for a batch. The ledger asks once, after the rounds are written and before they are durable.
pub trait Confirm {
    /// Signs receipts for the rounds. `ledger` shows the state with the batch written. The receipts are kept
    /// in the transaction of the batch; nothing signed may be handed out before the batch is applied.
    fn confirm(&mut self, ledger: &dyn Store, rounds: &[Sequenced]) -> Vec<SignedReceipt>;
}

impl<F: FnMut(&dyn Store, &[Sequenced]) -> Vec<SignedReceipt>> Confirm for F {
    fn confirm(&mut self, ledger: &dyn Store, rounds: &[Sequenced]) -> Vec<SignedReceipt> {
        self(ledger, rounds)
    }
}

/// Why a batch was not applied.
#[derive(Debug, thiserror::Error)]
pub enum ApplyError {
    /// Nothing of the batch was written.
    #[error(transparent)]
    NotWritten(StoreError),
    /// The ledger failed while it made the batch durable, and whether it is written is unknown. The batch may
    /// be applied again.
    #[error("whether it was written is unknown: {0}")]
    Unknown(StoreError),
}

impl ApplyError {
    /// Returns the failure of the store.
    pub fn into_store_error(self) -> StoreError {
        match self {
            ApplyError::NotWritten(error) | ApplyError::Unknown(error) => error,
        }
    }
}

/// Storage of a server.
///
/// Positions ([`Store::newest_position`], [`Store::changes_after`]) are given to changes in the order in
/// which they become visible: whoever has seen a position never sees a change appear at or before it. A counter of
/// the database that is drawn before the commit does not promise that.
pub trait Ledger: Store {
    /// Returns the present moment.
    ///
    /// # Errors
    /// [`StoreError`] when the database fails.
    fn moment(&self) -> Result<Moment, StoreError>;

    /// Writes a batch and what is signed for it durably, or nothing of it. Applying a batch again writes
    /// nothing and finds its rounds old.
    ///
    /// # Errors
    /// [`ApplyError`].
    fn apply(&mut self, batch: &Batch<'_>, confirm: &mut dyn Confirm) -> Result<Outcome, ApplyError>;
}

/// Applies a batch by commits of a store that nobody else writes to: the reference for a ledger of its own.
///
/// # Errors
/// [`ApplyError`].
pub fn apply_by_commits(
    store: &mut dyn Store,
    batch: &Batch<'_>,
    confirm: &mut dyn Confirm,
) -> Result<Outcome, ApplyError> {
    // Where the store has no transaction around several commits, what the first one wrote stays.
    let mut written = false;
    let done = group_commit(store, |store| {
        let (rounds, mut kept) = write_rounds(store, batch)?;
        written = true;
        let receipts = confirm.confirm(store, &rounds);
        kept.extend(receipts.iter().map(|r| Write::Receipt { bytes: &r.bytes, entries: &r.entries }));
        if !kept.is_empty() {
            store.commit(&kept)?;
        }
        Ok(Outcome::Applied(rounds))
    });
    match done {
        Ok(Ok(outcome)) => Ok(outcome),
        Ok(Err(error)) if !written && is_determinate(&error) => Err(ApplyError::NotWritten(error)),
        Ok(Err(error)) | Err(error) => Err(ApplyError::Unknown(error)),
    }
}

/// Returns true if a failed commit surely wrote nothing.
pub fn is_determinate(error: &StoreError) -> bool {
    match error {
        StoreError::Full | StoreError::Busy | StoreError::NoPlace(_) | StoreError::TooNew { .. } => true,
        StoreError::Database(_) => false,
    }
}

/// Writes the rounds of a batch. Returns what became of them, and the rows of the photographs they announce.
fn write_rounds<'a>(
    store: &mut dyn Store,
    batch: &'a Batch<'_>,
) -> Result<(Vec<Sequenced>, Vec<Write<'a>>), StoreError> {
    let numbers: Vec<[u8; 8]> = batch.rounds.iter().map(|round| round.number.to_be_bytes()).collect();
    let (mut rounds, mut writes) = (Vec::new(), Vec::new());
    for (at, (round, number)) in batch.rounds.iter().zip(&numbers).enumerate() {
        let earlier = batch.rounds.iter().take(at).filter(|other| other.counter == round.counter);
        let stored = store.value(round.counter)?.and_then(|v| v.try_into().ok()).map(u64::from_be_bytes);
        let newest = earlier.map(|other| other.number).chain(stored).max().unwrap_or(0);
        if round.number <= newest {
            rounds.push(Sequenced { old_number: Some(newest), new: Vec::new() });
            continue;
        }
        rounds.push(Sequenced::default());
        writes.push(Write::Value { key: round.counter, value: number });
        for (subject, change) in &round.changes {
            writes.extend(writes_of(change, *subject, true));
            writes.extend(change.entries().iter().map(|entry| Write::Leaf {
                entry: entry.id,
                received_at: round.received_at,
                about: Some(entry.body.about),
            }));
        }
        writes.extend(round.beside.iter().cloned());
    }
    if rounds.iter().any(|round| round.old_number.is_none()) {
        writes.extend(batch.beside.iter().cloned());
    }
    let mut new: HashSet<EntryId> = store.commit(&writes)?.into_iter().collect();
    let mut photos = Vec::new();
    for (round, sequenced) in batch.rounds.iter().zip(&mut rounds) {
        if sequenced.old_number.is_some() {
            continue;
        }
        for (subject, change) in &round.changes {
            for entry in change.entries().iter().filter(|entry| new.remove(&entry.id)) {
                sequenced.new.push((*subject, entry.id));
                photos.extend(announced_by(&entry.body.says));
            }
        }
    }
    Ok((rounds, photos))
}

/// Returns the row of the photograph that a new statement announces, so that the server expects it.
pub fn announced_by(says: &Statement) -> Option<Write<'_>> {
    let Statement::Photo { photo, .. } = says else { return None };
    let (sha256, length, media) = (photo.sha256, photo.length, photo.media.as_str());
    Some(Write::Photo { sha256, length, media, here: false, held: false })
}

/// Returns the writes that store a checked change and its entries.
pub(crate) fn writes_of(change: &CheckedChange, subject: Subject, held: bool) -> Vec<Write<'_>> {
    let mut writes: Vec<Write<'_>> =
        change.entries().iter().map(|entry| Write::Entry { subject, entry }).collect();
    writes.push(Write::Checked { subject, change, held });
    writes
}

/// The bytes that prove a list of ids to belong to a change.
const CHECK: usize = 8;

fn check_of(hash: Digest, ids: &[u8]) -> [u8; CHECK] {
    let mut all = hash.0.to_vec();
    all.extend_from_slice(ids);
    Digest::of(&all).0.first_chunk().copied().unwrap_or_default()
}

/// Returns the stored form of the ids of a change's entries.
pub fn ids_kept(change: &CheckedChange) -> Vec<u8> {
    let mut bytes: Vec<u8> = change.entries().iter().flat_map(|entry| entry.id.0).collect();
    let check = check_of(change.hash(), &bytes);
    bytes.extend_from_slice(&check);
    bytes
}

/// Reads the form of [`ids_kept`]. Returns `None` for damaged bytes.
pub fn ids_read(hash: Digest, bytes: &[u8]) -> Option<Vec<EntryId>> {
    let (ids, check) = bytes.split_at_checked(bytes.len().checked_sub(CHECK)?)?;
    let sound = ids.len().is_multiple_of(32) && check_of(hash, ids) == check;
    sound.then(|| ids.chunks_exact(32).filter_map(|id| Some(EntryId(id.try_into().ok()?))).collect())
}
