//! What a store keeps of the ledger's log: leaves and subtree hashes at the server, checkpoints on both
//! sides, proofs on a device.
//!
//! Lives here: the reading side and its row types. Writing is a [`super::Write`] like any other. Does not
//! live here: what leaves and checkpoints mean (`tree`, `log`), who asks whom for them (`sync`).

use super::StoreError;
use crate::clock::UtcMillis;
use crate::ids::{Digest, EntryId, Subject};
use crate::tree::LogLeaf;
use crate::tree::heads::{HeadsRoot, Leaves};
use crate::tree::merkle::Subtrees;

/// A checkpoint row.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StoredCheckpoint {
    /// The log's name.
    pub origin: String,
    /// How many leaves.
    pub size: u64,
    /// The signed note, byte for byte.
    pub note: String,
    /// When it was published, or checked here.
    pub at: UtcMillis,
    /// What leads here from the checkpoint before, as the one who checked it kept it; may be empty.
    pub since: Vec<u8>,
    /// The earliest time stamp on it.
    pub stamp: Option<StoredStamp>,
}

/// A time stamp on a checkpoint.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StoredStamp {
    /// The note that was stamped: the checkpoint's as it was then (witnesses may have signed it since).
    pub note: String,
    /// The token (RFC 3161, DER).
    pub token: Vec<u8>,
    /// When it was asked for, by the server's clock.
    pub at: UtcMillis,
}

/// The log as stored.
pub trait LogRows {
    /// How many leaves there are.
    ///
    /// # Errors
    /// [`StoreError`], as for every call below.
    fn size(&self) -> Result<u64, StoreError>;
    /// One leaf, by number from 0.
    fn leaf(&self, number: u64) -> Result<Option<LogLeaf>, StoreError>;
    /// The entries of at most `most` leaves from number `from` on, and what each is about: as the leaf says, or
    /// as the entry says behind a leaf of version one; nothing where such an entry cannot be read.
    fn subjects(&self, from: u64, most: usize) -> Result<Vec<(EntryId, Option<Subject>)>, StoreError>;
    /// What a checkpoint of the first `size` leaves commits to of the documents in it.
    fn heads(&self, size: u64) -> Result<HeadsRoot, StoreError>;
    /// Where an entry stands in the log, and when it came in.
    fn place(&self, entry: EntryId) -> Result<Option<(u64, UtcMillis)>, StoreError>;
    /// The hash of a complete subtree of level 1 or more.
    fn subtree_hash(&self, level: u32, place: u64) -> Result<Option<Digest>, StoreError>;
    /// Entries that have no leaf, in order of arrival, at most `most`.
    fn without_leaf(&self, most: usize) -> Result<Vec<EntryId>, StoreError>;
    /// The checkpoint written last.
    fn newest_checkpoint(&self) -> Result<Option<StoredCheckpoint>, StoreError>;
    /// The checkpoint of a log at a size.
    fn checkpoint(&self, origin: &str, size: u64) -> Result<Option<StoredCheckpoint>, StoreError>;
    /// The first checkpoint written of those with at least `size` leaves; with `stamped`, of those with a
    /// time stamp.
    fn first_checkpoint_of(&self, size: u64, stamped: bool) -> Result<Option<StoredCheckpoint>, StoreError>;
    /// The smallest checkpoint of a log with at least `size` leaves that others than the log have signed as well, going
    /// by the number of its lines: whose they are is not looked at.
    fn first_cosigned_of(&self, origin: &str, size: u64) -> Result<Option<StoredCheckpoint>, StoreError>;
    /// The proof kept for an entry.
    fn proof_of(&self, entry: EntryId) -> Result<Option<Vec<u8>>, StoreError>;
    /// Entries with a receipt and without a proof, newest first, at most `most`.
    fn without_proof(&self, most: usize) -> Result<Vec<EntryId>, StoreError>;

    /// When an entry first came to the ledger.
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
