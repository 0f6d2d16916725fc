//! The store: what a device or server keeps, one row per entry and per change, each with its digest.
//!
//! The entry rows are the ledger of record; documents can be rebuilt from them and the other way
//! round. Lives here: the [`Store`] trait, its two implementations and the suite both must pass.
//! The `sqlite…` files alone name rusqlite. Does not live here: checking what comes in (`document`), deciding
//! what to send (`sync`).

#[cfg(test)]
mod contract;
#[cfg(test)]
mod contract_log;
#[cfg(test)]
mod contract_scope;
mod error;
mod log_rows;
mod memory;
mod memory_scope;
mod organisation_keys;
mod scope;
mod sqlite;
mod sqlite_heal;
mod sqlite_log;
mod sqlite_scope;
mod sqlite_unsound;
mod sqlite_write;

pub use error::StoreError;
pub use log_rows::{LogRows, StoredCheckpoint, StoredStamp};
pub use memory::MemoryStore;
pub use organisation_keys::{
    KEY_STATEMENTS, key_statements, learn_keys, organisation_keys, read_key_statements,
};
pub use scope::{Fed, Scope, ScopeRows};
pub use sqlite::{Durability, SqliteStore, bytes_at, uri_to_read};
pub use sqlite_unsound::UNSOUND;

use crate::clock::UtcMillis;
use crate::entry::Entry;
use crate::ids::{DeviceId, Digest, EntryId, Subject};

/// One thing to write. Several are written together or not at all.
#[derive(Debug, Clone)]
pub enum Write<'a> {
    /// An entry and a document it stands in. Writing one twice is no error and changes nothing.
    Entry {
        /// The document.
        subject: Subject,
        /// The checked entry.
        entry: &'a Entry,
    },
    /// A change of a document. Writing one twice is no error. The same change may stand in several documents.
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
    /// These changes, each of its document, are now known to be at the server.
    ChangesHeld(&'a [(Subject, Digest)]),
    /// The server was found to lack something of these documents, whatever it said before: all their changes are
    /// to be sent again.
    ChangesLacking(&'a [Subject]),
    /// Lets the readers of sites meet what has come since this was last written, see [`ScopeRows::fed_after`].
    Feed,
    /// The server's signed word that it holds these entries.
    Receipt {
        /// The exact signed bytes.
        bytes: &'a [u8],
        /// What it covers.
        entries: &'a [EntryId],
    },
    /// A device certificate, as signed. The newest of a device is the last one written.
    Certificate {
        /// Whose.
        device: DeviceId,
        /// The exact signed bytes.
        bytes: &'a [u8],
    },
    /// Bytes that were refused, kept aside with the reason.
    Quarantine {
        /// The document they claimed to be of, if known.
        subject: Option<Subject>,
        /// The exact bytes.
        bytes: &'a [u8],
        /// Why they were refused.
        why: &'a str,
        /// When, by the local clock.
        at: UtcMillis,
    },
    /// All that was refused and kept aside is forgotten.
    PurgeQuarantine,
    /// A photograph this device or server should have.
    Photo {
        /// SHA-256 of its bytes.
        sha256: Digest,
        /// Their number.
        length: u64,
        /// Media type.
        media: &'a str,
        /// Whether the bytes are here.
        here: bool,
        /// Whether the server is known to hold them.
        held: bool,
    },
    /// The server was found to lack these photographs, whatever it said before: they are to be sent again.
    PhotosLacking(&'a [Digest]),
    /// Something half typed under a key, so that a crash does not lose it. Empty text removes it.
    Draft {
        /// Where it was being typed.
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
    /// The next leaf of the ledger's log: an entry, and when it came in by the server's clock (or the time of
    /// the leaf before, should the clock have gone back). An entry that has a leaf gets no other; one that
    /// is not here gets none.
    Leaf {
        /// The entry.
        entry: EntryId,
        /// The server's clock.
        received_at: UtcMillis,
        /// What the entry is about; nothing makes a leaf of version one.
        about: Option<Subject>,
    },
    /// A signed checkpoint. Written again for the same log and size it replaces the note alone: witnesses may
    /// have signed it since.
    Checkpoint {
        /// The log's name.
        origin: &'a str,
        /// How many leaves.
        size: u64,
        /// The signed note.
        note: &'a str,
        /// When it was published, or checked here.
        at: UtcMillis,
        /// What leads here from the checkpoint before; may be empty.
        since: &'a [u8],
    },
    /// A time stamp on a checkpoint that is here.
    TimeStamp {
        /// The log's name.
        origin: &'a str,
        /// How many leaves.
        size: u64,
        /// The note as it was stamped.
        note: &'a str,
        /// The token.
        token: &'a [u8],
        /// When it was asked for.
        at: UtcMillis,
    },
    /// A proof that entries stand in the server's log. The first kept for an entry stays.
    Proof {
        /// The proof, as it is read back.
        bytes: &'a [u8],
        /// What it covers.
        entries: &'a [EntryId],
    },
}

/// An entry row, its digest checked on reading.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StoredEntry {
    /// SHA-256 of the bytes.
    pub id: EntryId,
    /// The exact signed bytes.
    pub bytes: Vec<u8>,
    /// Order of arrival in this store, rising.
    pub position: u64,
    /// Whether a receipt covers it.
    pub receipted: bool,
}

/// A change row, its digest checked on reading.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StoredChange {
    /// Order of arrival in this store, rising; a server's cursor.
    pub position: u64,
    /// The document.
    pub subject: Subject,
    /// Its hash.
    pub hash: Digest,
    /// Its exact bytes.
    pub bytes: Vec<u8>,
}

/// Rows read, and the names of those whose digest no longer fits their bytes.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Rows<T> {
    /// The sound ones.
    pub rows: Vec<T>,
    /// The damaged ones: they are still in the file, and the server or another device has them whole.
    pub damaged: Vec<String>,
}

/// A photograph the store knows of.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StoredPhoto {
    /// SHA-256 of its bytes.
    pub sha256: Digest,
    /// Their number.
    pub length: u64,
    /// Media type.
    pub media: String,
    /// Whether the bytes are here.
    pub here: bool,
    /// Whether the server is known to hold them.
    pub held: bool,
}

/// Bytes kept aside.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Quarantined {
    /// The document they claimed to be of.
    pub subject: Option<Subject>,
    /// The exact bytes.
    pub bytes: Vec<u8>,
    /// Why they were refused.
    pub why: String,
    /// When.
    pub at: UtcMillis,
}

/// Number of entries and the sum of their ids as 256-bit numbers: two stores with equal tallies hold
/// the same entries. It is for noticing a difference, not for proving anything to an adversary.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct SetDigest {
    /// How many.
    pub count: u64,
    /// Sum modulo 2^256, big endian.
    pub sum: [u8; 32],
}

impl SetDigest {
    /// Adds one entry.
    pub fn add(&mut self, id: EntryId) {
        let mut carry = 0u16;
        for (digit, other) in self.sum.iter_mut().zip(id.0).rev() {
            let total = u16::from(*digit) + u16::from(other) + carry;
            *digit = (total & 0xff) as u8;
            carry = total >> 8;
        }
        self.count += 1;
    }

    /// Takes one entry out again.
    pub fn remove(&mut self, id: EntryId) {
        let mut borrow = 0i16;
        for (digit, other) in self.sum.iter_mut().zip(id.0).rev() {
            let difference = i16::from(*digit) - i16::from(other) - borrow;
            *digit = difference.rem_euclid(256) as u8;
            borrow = i16::from(difference < 0);
        }
        self.count = self.count.saturating_sub(1);
    }

    /// Count and sum as 40 bytes.
    pub fn to_bytes(self) -> [u8; 40] {
        let mut bytes = [0u8; 40];
        bytes[..8].copy_from_slice(&self.count.to_be_bytes());
        bytes[8..].copy_from_slice(&self.sum);
        bytes
    }

    /// The inverse of [`SetDigest::to_bytes`].
    pub fn from_bytes(bytes: &[u8]) -> Option<SetDigest> {
        let count = u64::from_be_bytes(bytes.get(..8)?.try_into().ok()?);
        Some(SetDigest { count, sum: bytes.get(8..40)?.try_into().ok()? })
    }
}

/// Makes the commits of `work` durable group_commit, on one wait for the disk. When it panics, nothing of them is
/// kept.
///
/// # Errors
/// [`StoreError`]; nothing may then be kept, whatever the commits themselves said.
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

/// What a device or server keeps. Calls are synchronous; when `commit` returns, what it wrote is on
/// the disk.
pub trait Store: Send {
    /// Writes everything or nothing, durably. Returns the ids of entries that were new.
    ///
    /// # Errors
    /// [`StoreError`]; nothing was then written.
    fn commit(&mut self, writes: &[Write<'_>]) -> Result<Vec<EntryId>, StoreError>;

    /// Holds the commits that follow back, each still all or nothing, until [`Store::end`] puts them on the disk
    /// together. Called by [`together`] alone. A store without this puts each on the disk at once.
    ///
    /// # Errors
    /// [`StoreError`]; nothing is then held back.
    fn begin(&mut self) -> Result<(), StoreError> {
        Ok(())
    }
    /// Puts what was held back on the disk.
    ///
    /// # Errors
    /// [`StoreError`]; what was held back may then not be kept.
    fn end(&mut self) -> Result<(), StoreError> {
        Ok(())
    }
    /// Drops what is held back; nothing after [`Store::end`].
    fn abandon(&mut self) {}

    /// One entry.
    ///
    /// # Errors
    /// [`StoreError`], as for every call below.
    fn entry(&self, id: EntryId) -> Result<Option<StoredEntry>, StoreError>;
    /// All entries of a document, in order of arrival.
    fn entries_of(&self, subject: Subject) -> Result<Rows<StoredEntry>, StoreError>;
    /// All documents, ascending.
    fn subjects(&self) -> Result<Vec<Subject>, StoreError>;
    /// All changes of a document, in order of arrival.
    fn changes_of(&self, subject: Subject) -> Result<Rows<StoredChange>, StoreError>;
    /// Whether a change is here, in that document.
    fn has_change(&self, subject: Subject, hash: Digest) -> Result<bool, StoreError>;
    /// Changes not known to be at the server, oldest first, up to about `bytes` (at least one).
    fn changes_not_held(&self, bytes: usize) -> Result<Vec<StoredChange>, StoreError>;
    /// Changes that arrived after `position`, oldest first, up to about `bytes` (at least one).
    fn changes_after(&self, position: u64, bytes: usize) -> Result<Vec<StoredChange>, StoreError>;
    /// The position of the newest change; 0 when there is none.
    fn newest_position(&self) -> Result<u64, StoreError>;
    /// Entries without a receipt, oldest first, at most `most`.
    fn entries_without_receipt(&self, most: usize) -> Result<Vec<EntryId>, StoreError>;
    /// How many entries have no receipt.
    fn count_without_receipt(&self) -> Result<u64, StoreError>;
    /// The signed receipts that cover an entry.
    fn receipts_of(&self, id: EntryId) -> Result<Vec<Vec<u8>>, StoreError>;
    /// The newest certificate of every device.
    fn certificates(&self) -> Result<Vec<(DeviceId, Vec<u8>)>, StoreError>;
    /// The newest certificate of one device.
    fn certificate(&self, device: DeviceId) -> Result<Option<Vec<u8>>, StoreError>;
    /// What was refused and kept aside.
    fn quarantined(&self) -> Result<Vec<Quarantined>, StoreError>;
    /// All photographs known of.
    fn photos(&self) -> Result<Vec<StoredPhoto>, StoreError>;
    /// One photograph.
    fn photo(&self, sha256: Digest) -> Result<Option<StoredPhoto>, StoreError>;
    /// All drafts, by key.
    fn drafts(&self) -> Result<Vec<(String, String)>, StoreError>;
    /// A named value.
    fn value(&self, key: &str) -> Result<Option<Vec<u8>>, StoreError>;
    /// Count and sum of all entries.
    fn tally(&self) -> Result<SetDigest, StoreError>;
    /// The ledger's log as kept here.
    fn log(&self) -> &dyn LogRows;
    /// What belongs to which sites.
    fn scopes(&self) -> &dyn ScopeRows;
}
