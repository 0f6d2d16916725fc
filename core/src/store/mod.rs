//! The store: the rows that a device or server keeps, one per entry and per change, each with its digest.
//!
//! The entry rows are the ledger of record. Documents can be rebuilt from the entries, and the entries from
//! the documents. This module holds the [`Store`] trait, its two implementations and the test suite that both
//! must pass. Only the `sqlite…` files name rusqlite. Checking incoming changes is the task of `document`,
//! and deciding what to send is the task of `sync`.

#[cfg(any(test, feature = "contract"))]
pub mod contract;
#[cfg(any(test, feature = "contract"))]
mod contract_ledger;
#[cfg(any(test, feature = "contract"))]
mod contract_log;
#[cfg(any(test, feature = "contract"))]
mod contract_scope;
#[cfg(test)]
mod contract_tests;
mod error;
mod ledger;
pub mod ledger_rows;
mod log_rows;
mod memory;
mod memory_scope;
mod names;
mod organisation_keys;
mod scope;
mod sqlite;
mod sqlite_heal;
mod sqlite_ledger;
mod sqlite_log;
mod sqlite_rows;
mod sqlite_scope;
mod sqlite_take_off;
#[cfg(test)]
mod sqlite_tests;
mod sqlite_unsound;
mod sqlite_write;

pub use error::StoreError;
pub(crate) use ledger::writes_of;
pub use ledger::{
    ApplyError, Batch, Confirm, Ledger, Moment, Outcome, Round, Sequenced, SignedReceipt, apply_by_commits,
};
pub use log_rows::{LogRows, StoredCheckpoint, StoredStamp};
pub use memory::MemoryStore;
pub use names::{NAMES, Names, OWN_NAMES, kept_names, name_rows, read_names};
pub use organisation_keys::{
    KEY_STATEMENTS, key_statements, learn_keys, organisation_keys, read_key_statements,
};
pub use scope::{Fed, Scope, ScopeRows};
pub(crate) use scope::{counted_as, photograph_of};
pub use sqlite::{Durability, SqliteStore, bytes_at, uri_to_read};
pub use sqlite_unsound::UNSOUND;

use crate::clock::UtcMillis;
use crate::document::CheckedChange;
use crate::entry::Entry;
use crate::ids::{DeviceId, Digest, EntryId, Subject};

/// What a store in another crate needs to keep the same rows as the stores here.
pub mod parts {
    pub use super::ledger::{announced_by, ids_kept, ids_read, is_determinate};
    pub use super::scope::{Area, OpenedAt, area_by_kind, counted_as, photograph_of};
}

/// One row or mark to write. The writes passed to one [`Store::commit`] happen together or not at all.
#[derive(Debug, Clone)]
pub enum Write<'a> {
    /// An entry and a document that holds it. Writing the same pair twice is not an error and changes
    /// nothing.
    Entry {
        /// The document.
        subject: Subject,
        /// The checked entry.
        entry: &'a Entry,
    },
    /// A change of a document. Writing it twice is not an error. The same change may be stored under several
    /// documents.
    Change {
        /// The document.
        subject: Subject,
        /// Its hash, by which others depend on it.
        hash: Digest,
        /// Its exact bytes.
        bytes: &'a [u8],
        /// Whether the server is known to hold it.
        held: bool,
    },
    /// A checked change of a document, kept with the ids of its entries.
    Checked {
        /// The document.
        subject: Subject,
        /// The change.
        change: &'a CheckedChange,
        /// Whether the server is known to hold it.
        held: bool,
    },
    /// The server is known to hold these changes, each under the given document.
    ChangesHeld(&'a [(Subject, Digest)]),
    /// The server was found to lack part of these documents, contrary to what it confirmed before. All their
    /// changes will be sent again.
    ChangesLacking(&'a [Subject]),
    /// Removes documents from a device's store with everything that stands in no other document: entries with
    /// their receipts and proofs, and the rows of photographs. Not for a store with a log, whose leaves need
    /// their entries.
    TakeOff(&'a [Subject]),
    /// Makes the changes committed since the last `Feed` available to readers of a scope, see
    /// [`ScopeRows::fed_after`].
    Feed,
    /// A receipt: the server's signed statement that it holds these entries.
    Receipt {
        /// The exact signed bytes.
        bytes: &'a [u8],
        /// The entries that the receipt covers.
        entries: &'a [EntryId],
    },
    /// A signed device certificate. Among several certificates of a device the last one written counts as the
    /// newest.
    Certificate {
        /// The device that the certificate is for.
        device: DeviceId,
        /// The exact signed bytes.
        bytes: &'a [u8],
    },
    /// Bytes that were refused. They go into quarantine together with the reason.
    Quarantine {
        /// The document they claimed to be of, if known.
        subject: Option<Subject>,
        /// The exact bytes.
        bytes: &'a [u8],
        /// Why they were refused.
        why: &'a str,
        /// The time of the refusal by the local clock.
        at: UtcMillis,
    },
    /// Empties the quarantine.
    PurgeQuarantine,
    /// A photograph that an entry names, with or without its bytes.
    Photo {
        /// SHA-256 of its bytes.
        sha256: Digest,
        /// The number of bytes.
        length: u64,
        /// Media type.
        media: &'a str,
        /// Whether this store's owner has the bytes.
        here: bool,
        /// Whether the server is known to have the bytes.
        held: bool,
    },
    /// The server was found to lack these photographs, contrary to what it confirmed before. They will be
    /// sent again.
    PhotosLacking(&'a [Digest]),
    /// Text that a user is still typing, kept so that a crash does not lose it. An empty text removes the
    /// draft.
    Draft {
        /// The input field that the draft belongs to.
        key: &'a str,
        /// The text.
        text: &'a str,
    },
    /// A small named value (keys, cursors, settings).
    Value {
        /// Its name.
        key: &'a str,
        /// Its bytes.
        value: &'a [u8],
    },
    /// The next leaf of the transparency log, for one entry. Nothing is written if the entry already has a
    /// leaf or is not in the store.
    Leaf {
        /// The entry.
        entry: EntryId,
        /// The server's clock when the entry arrived, or the time of the previous leaf if the clock was set
        /// back.
        received_at: UtcMillis,
        /// The subject of the entry. `None` writes a leaf of version one, which does not commit to a subject.
        about: Option<Subject>,
    },
    /// A signed checkpoint. Writing a checkpoint again for the same log and size replaces only the note,
    /// because witnesses may have added signatures.
    Checkpoint {
        /// The log's name (its origin line).
        origin: &'a str,
        /// The number of leaves.
        size: u64,
        /// The signed note.
        note: &'a str,
        /// The time when the checkpoint was published (at the server) or checked (on a device).
        at: UtcMillis,
        /// The consistency proof from the previous checkpoint; may be empty.
        since: &'a [u8],
    },
    /// A time stamp on a stored checkpoint.
    TimeStamp {
        /// The log's name (its origin line).
        origin: &'a str,
        /// The number of leaves.
        size: u64,
        /// The note in the form that was stamped.
        note: &'a str,
        /// The time-stamp token (RFC 3161, DER).
        token: &'a [u8],
        /// The time of the request.
        at: UtcMillis,
    },
    /// A proof that entries stand in the server's log. For each entry the first stored proof is kept.
    Proof {
        /// The encoded proof.
        bytes: &'a [u8],
        /// The entries that the proof covers.
        entries: &'a [EntryId],
    },
}

/// An entry row. Its digest was compared with its bytes on reading.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StoredEntry {
    /// SHA-256 of the bytes.
    pub id: EntryId,
    /// The exact signed bytes.
    pub bytes: Vec<u8>,
    /// The order of arrival in this store; rises with each entry.
    pub position: u64,
    /// Whether a receipt covers it.
    pub receipted: bool,
}

/// A change row. Its digest was compared with its bytes on reading.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StoredChange {
    /// The order of arrival in this store; rises with each change. A server's cursors are positions.
    pub position: u64,
    /// The document.
    pub subject: Subject,
    /// Its hash.
    pub hash: Digest,
    /// Its exact bytes.
    pub bytes: Vec<u8>,
    /// The ids of its entries, where they were kept with it.
    pub entries: Option<Vec<EntryId>>,
}

/// The rows that were read, and the keys of rows whose digest no longer matches their bytes.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Rows<T> {
    /// The undamaged rows.
    pub rows: Vec<T>,
    /// The keys of the damaged rows. They stay in the file; the server or another device can supply the
    /// undamaged bytes.
    pub damaged: Vec<String>,
}

/// A photograph the store knows of.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StoredPhoto {
    /// SHA-256 of its bytes.
    pub sha256: Digest,
    /// The number of bytes.
    pub length: u64,
    /// Media type.
    pub media: String,
    /// Whether the bytes are here.
    pub here: bool,
    /// Whether the server is known to hold them.
    pub held: bool,
}

/// Refused bytes in quarantine.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Quarantined {
    /// The document that the bytes claimed to belong to, if it is known.
    pub subject: Option<Subject>,
    /// The exact bytes.
    pub bytes: Vec<u8>,
    /// Why they were refused.
    pub why: String,
    /// The time of the refusal by the local clock.
    pub at: UtcMillis,
}

/// A digest of a set of entries: their number, and the sum of their ids as 256-bit numbers.
///
/// Two stores with equal set digests hold the same entries unless somebody forged a collision, so a set
/// digest is fit for noticing a difference and not for proving anything to an adversary.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct SetDigest {
    /// The number of entries.
    pub count: u64,
    /// The sum of the ids modulo 2^256, big-endian.
    pub sum: [u8; 32],
}

impl SetDigest {
    /// Adds one entry to the set.
    pub fn add(&mut self, id: EntryId) {
        let mut carry = 0u16;
        for (digit, other) in self.sum.iter_mut().zip(id.0).rev() {
            let total = u16::from(*digit) + u16::from(other) + carry;
            *digit = (total & 0xff) as u8;
            carry = total >> 8;
        }
        self.count += 1;
    }

    /// Removes one entry from the set. The entry must have been added before.
    pub fn remove(&mut self, id: EntryId) {
        let mut borrow = 0i16;
        for (digit, other) in self.sum.iter_mut().zip(id.0).rev() {
            let difference = i16::from(*digit) - i16::from(other) - borrow;
            *digit = difference.rem_euclid(256) as u8;
            borrow = i16::from(difference < 0);
        }
        self.count = self.count.saturating_sub(1);
    }

    /// Returns count (8 bytes, big-endian) and sum (32 bytes).
    pub fn to_bytes(self) -> [u8; 40] {
        let mut bytes = [0u8; 40];
        bytes[..8].copy_from_slice(&self.count.to_be_bytes());
        bytes[8..].copy_from_slice(&self.sum);
        bytes
    }

    /// Reads the form written by [`SetDigest::to_bytes`]. Returns `None` if there are fewer than 40 bytes.
    pub fn from_bytes(bytes: &[u8]) -> Option<SetDigest> {
        let count = u64::from_be_bytes(bytes.get(..8)?.try_into().ok()?);
        Some(SetDigest { count, sum: bytes.get(8..40)?.try_into().ok()? })
    }
}

/// Runs `work` and makes all its commits durable with a single disk sync. If `work` panics, none of its
/// commits is kept.
///
/// # Errors
/// [`StoreError`] when the commits could not be made durable. None of them may then be kept, even those that
/// returned `Ok`.
pub fn group_commit<T>(
    store: &mut dyn Store,
    work: impl FnOnce(&mut dyn Store) -> T,
) -> Result<T, StoreError> {
    struct Held<'a>(&'a mut dyn Store);
    impl Drop for Held<'_> {
        fn drop(&mut self) {
            self.0.abandon();
        }
    }
    store.begin()?;
    let held = Held(store);
    let done = work(&mut *held.0);
    held.0.end()?;
    Ok(done)
}

/// Storage of a device or server. All calls are synchronous; when `commit` returns, its writes are on the
/// disk (outside [`group_commit`]).
pub trait Store: Send {
    /// Writes all of `writes` durably, or none of them. Returns the ids of the entries that were new.
    ///
    /// # Errors
    /// [`StoreError`]; nothing was then written.
    fn commit(&mut self, writes: &[Write<'_>]) -> Result<Vec<EntryId>, StoreError>;

    /// Starts a group of commits. Each remains all-or-nothing, and [`Store::end`] makes the group durable at
    /// once. Only [`group_commit`] calls this. A store with the default implementation makes each commit
    /// durable separately.
    ///
    /// # Errors
    /// [`StoreError`]; no group was then started.
    fn begin(&mut self) -> Result<(), StoreError> {
        Ok(())
    }
    /// Ends the group and makes its commits durable.
    ///
    /// # Errors
    /// [`StoreError`]; the commits of the group may then be lost.
    fn end(&mut self) -> Result<(), StoreError> {
        Ok(())
    }
    /// Discards the commits of the group. Has no effect after [`Store::end`].
    fn abandon(&mut self) {}

    /// Returns an entry by its id.
    ///
    /// # Errors
    /// [`StoreError`] here and in every method below, when the database fails.
    fn entry(&self, id: EntryId) -> Result<Option<StoredEntry>, StoreError>;
    /// Returns all entries of a document in order of arrival.
    fn entries_of(&self, subject: Subject) -> Result<Rows<StoredEntry>, StoreError>;
    /// Returns true if the store has any entry of a document.
    fn holds_any_of(&self, subject: Subject) -> Result<bool, StoreError> {
        Ok(!self.entries_of(subject)?.rows.is_empty())
    }
    /// Returns the subjects of all documents in ascending order.
    fn subjects(&self) -> Result<Vec<Subject>, StoreError>;
    /// Returns all changes of a document in order of arrival.
    fn changes_of(&self, subject: Subject) -> Result<Rows<StoredChange>, StoreError>;
    /// Returns true if the change is stored under that document.
    fn has_change(&self, subject: Subject, hash: Digest) -> Result<bool, StoreError>;
    /// Returns changes that the server is not known to hold, oldest first, up to about `bytes` bytes but at
    /// least one change.
    fn changes_not_held(&self, bytes: usize) -> Result<Vec<StoredChange>, StoreError>;
    /// Returns changes that arrived after `position`, oldest first, up to about `bytes` bytes but at least
    /// one change.
    fn changes_after(&self, position: u64, bytes: usize) -> Result<Vec<StoredChange>, StoreError>;
    /// Returns the position of the newest change, or 0 if there is none.
    fn newest_position(&self) -> Result<u64, StoreError>;
    /// Returns entries without a receipt, oldest first, at most `most` of them.
    fn entries_without_receipt(&self, most: usize) -> Result<Vec<EntryId>, StoreError>;
    /// Returns the number of entries without a receipt.
    fn count_without_receipt(&self) -> Result<u64, StoreError>;
    /// Returns the signed receipts that cover an entry.
    fn receipts_of(&self, id: EntryId) -> Result<Vec<Vec<u8>>, StoreError>;
    /// Returns the newest certificate of every device.
    fn certificates(&self) -> Result<Vec<(DeviceId, Vec<u8>)>, StoreError>;
    /// Returns the newest certificate of one device.
    fn certificate(&self, device: DeviceId) -> Result<Option<Vec<u8>>, StoreError>;
    /// Returns the contents of the quarantine.
    fn quarantined(&self) -> Result<Vec<Quarantined>, StoreError>;
    /// Returns all photographs that the store has or that an entry names.
    fn photos(&self) -> Result<Vec<StoredPhoto>, StoreError>;
    /// Returns one photograph by its digest.
    fn photo(&self, sha256: Digest) -> Result<Option<StoredPhoto>, StoreError>;
    /// Returns all drafts as pairs of key and text, ordered by key.
    fn drafts(&self) -> Result<Vec<(String, String)>, StoreError>;
    /// Returns a named value.
    fn value(&self, key: &str) -> Result<Option<Vec<u8>>, StoreError>;
    /// Returns the set digest of all entries.
    fn tally(&self) -> Result<SetDigest, StoreError>;
    /// Returns the stored part of the transparency log.
    fn log(&self) -> &dyn LogRows;
    /// Returns the rows that say which documents belong to which sites.
    fn scopes(&self) -> &dyn ScopeRows;
}
