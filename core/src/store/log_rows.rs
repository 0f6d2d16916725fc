//! The rows of the transparency log: leaves and subtree hashes at the server, checkpoints on both sides,
//! proofs on a device.
//!
//! This module holds the reading side and its row types. Rows are written by [`super::Write`]. The meaning of
//! leaves and checkpoints is defined in `tree` and `log`, and the exchange of both in `sync`.

use super::StoreError;
use crate::clock::UtcMillis;
use crate::ids::{Digest, EntryId, Subject};
use crate::tree::LogLeaf;
use crate::tree::heads::{HeadsRoot, Leaves};
use crate::tree::merkle::Subtrees;

/// A checkpoint row.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StoredCheckpoint {
    /// The log's name (its origin line).
    pub origin: String,
    /// The number of leaves.
    pub size: u64,
    /// The signed note, byte for byte.
    pub note: String,
    /// The time when the checkpoint was published (at the server) or checked (on a device).
    pub at: UtcMillis,
    /// The consistency proof from the previous checkpoint, in the form in which the checking side stored it;
    /// may be empty.
    pub since: Vec<u8>,
    /// The earliest time stamp on the checkpoint.
    pub stamp: Option<StoredStamp>,
}

/// A time stamp on a checkpoint.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StoredStamp {
    /// The note that was stamped. The checkpoint's own note may have gained witness signatures since.
    pub note: String,
    /// The token (RFC 3161, DER).
    pub token: Vec<u8>,
    /// The time of the request by the server's clock.
    pub at: UtcMillis,
}

/// Read access to the stored transparency log.
pub trait LogRows {
    /// Returns the number of leaves.
    ///
    /// # Errors
    /// [`StoreError`] here and in every method below, when the database fails.
    fn size(&self) -> Result<u64, StoreError>;
    /// Returns a leaf by its number, counted from 0.
    fn leaf(&self, number: u64) -> Result<Option<LogLeaf>, StoreError>;
    /// Returns the entries of at most `most` leaves from number `from` on, each with its subject. The subject
    /// is taken from the leaf, or for a leaf of version one from the entry; it is `None` when that entry
    /// cannot be read.
    fn subjects(&self, from: u64, most: usize) -> Result<Vec<(EntryId, Option<Subject>)>, StoreError>;
    /// Returns what a checkpoint of the first `size` leaves commits to about the heads of the documents in
    /// them.
    fn heads(&self, size: u64) -> Result<HeadsRoot, StoreError>;
    /// Returns an entry's leaf number and the time when the entry arrived.
    fn place(&self, entry: EntryId) -> Result<Option<(u64, UtcMillis)>, StoreError>;
    /// Returns the hash of a complete subtree of level 1 or higher.
    fn subtree_hash(&self, level: u32, place: u64) -> Result<Option<Digest>, StoreError>;
    /// Returns entries without a leaf in order of arrival, at most `most` of them.
    fn without_leaf(&self, most: usize) -> Result<Vec<EntryId>, StoreError>;
    /// Returns the checkpoint that was written last.
    fn newest_checkpoint(&self) -> Result<Option<StoredCheckpoint>, StoreError>;
    /// Returns the checkpoint of a log at a given size.
    fn checkpoint(&self, origin: &str, size: u64) -> Result<Option<StoredCheckpoint>, StoreError>;
    /// Returns the first written checkpoint that has at least `size` leaves; if `stamped` is true, the first
    /// of those with a time stamp.
    fn first_checkpoint_of(&self, size: u64, stamped: bool) -> Result<Option<StoredCheckpoint>, StoreError>;
    /// Returns the smallest checkpoint of a log with at least `size` leaves that carries signatures besides
    /// the log's own. Only the number of signature lines is counted; who signed is not checked.
    fn first_cosigned_of(&self, origin: &str, size: u64) -> Result<Option<StoredCheckpoint>, StoreError>;
    /// Returns the proof stored for an entry.
    fn proof_of(&self, entry: EntryId) -> Result<Option<Vec<u8>>, StoreError>;
    /// Returns entries that have a receipt but no proof, newest first, at most `most` of them.
    fn without_proof(&self, most: usize) -> Result<Vec<EntryId>, StoreError>;

    /// Returns the time when an entry arrived at the ledger, taken from its leaf.
    fn received_at(&self, entry: EntryId) -> Result<Option<UtcMillis>, StoreError> {
        Ok(self.place(entry)?.map(|(_, received_at)| received_at))
    }
}

impl Subtrees for dyn LogRows + '_ {
    type Error = StoreError;

    fn subtree(&self, level: u32, place: u64) -> Result<Digest, StoreError> {
        let found = match level {
            0 => self.leaf(place)?.map(LogLeaf::hash),
            _ => self.subtree_hash(level, place)?,
        };
        found.ok_or_else(|| StoreError::Database(format!("the log lacks its hash {level}/{place}")))
    }
}

impl Leaves for dyn LogRows + '_ {
    type Error = StoreError;

    fn entry_at(&self, number: u64) -> Result<Option<EntryId>, StoreError> {
        Ok(self.leaf(number)?.map(|leaf| leaf.entry))
    }

    fn subjects_from(&self, from: u64, most: usize) -> Result<Vec<(EntryId, Option<Subject>)>, StoreError> {
        self.subjects(from, most)
    }
}
