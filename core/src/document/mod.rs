//! Documents: one Automerge document per visit, car, site and roster, holding signed entries.
//!
//! The root is `{format: "farsiding/1", entries: {entry id -> signed bytes}}` and only grows. Every document
//! begins with the same frozen genesis change, so that copies which two devices create independently merge
//! into one document. This module alone names automerge (invariant 4). It stores nothing on disk (see
//! `store`) and does not interpret entries (see `view`).

mod change;
mod error;
mod extent;
mod queue;
mod reconcile;

use automerge::transaction::{CommitOptions, Transactable};
use automerge::{ActorId, Automerge, ObjId, ReadDoc, ScalarValue, Value};

pub use change::{CheckedChange, LARGEST_CHANGE};
pub use error::DocumentError;
pub use reconcile::{ReconcileState, Reconciled};

use crate::entry::Entry;
use crate::ids::{Digest, EntryId, Randomness};

/// The change every document begins with, byte for byte. The bytes must never change;
/// `tests/golden/genesis.hex` pins them.
pub const GENESIS: &[u8] = include_bytes!("genesis.change");

/// One document in memory. Its entries are checked before they are added and never change afterwards.
pub struct Document {
    automerge: Automerge,
    entries: ObjId,
    queue: queue::Queue,
    skipped: bool,
}

impl std::fmt::Debug for Document {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Document").field("heads", &self.heads()).finish()
    }
}

/// Returns a random Automerge actor id for one start of the program.
///
/// The actor is never derived from the device or the person, so that a device restored from a backup does not
/// continue the sequence numbers of its former self.
pub fn random_actor(randomness: &mut dyn Randomness) -> [u8; 16] {
    let mut actor = [0u8; 16];
    randomness.fill(&mut actor);
    actor
}

impl Document {
    /// Creates a document that holds only the genesis change; later edits are made under `actor`.
    ///
    /// # Errors
    /// [`DocumentError::Library`] if Automerge does not accept the frozen genesis change.
    pub fn new(actor: [u8; 16]) -> Result<Document, DocumentError> {
        let genesis = automerge::Change::from_bytes(GENESIS.to_vec())
            .map_err(|e| DocumentError::Library(e.to_string()))?;
        let mut automerge = Automerge::new().with_actor(ActorId::from(actor));
        let mut queue = queue::Queue::default();
        queue.note([&genesis]);
        automerge.apply_changes([genesis]).map_err(|e| DocumentError::Library(e.to_string()))?;
        let entries = match automerge.get(automerge::ROOT, "entries") {
            Ok(Some((Value::Object(automerge::ObjType::Map), id))) => id,
            _ => return Err(DocumentError::Library("the genesis has no entries".to_owned())),
        };
        Ok(Document { automerge, entries, queue, skipped: false })
    }

    /// Rebuilds a document from its stored changes, given in any order. They were checked before they were
    /// stored and are not checked again.
    ///
    /// A change is left out when a copied device used its sequence number for another change stored earlier,
    /// when it builds on a change that is not stored, or when Automerge cannot apply it.
    /// [`Document::lacks_entries`] then returns true. The entries of such a change are still in the store's
    /// entry table, and the next edit adds them to the document again in a new change.
    ///
    /// # Errors
    /// [`DocumentError::Unreadable`] for the first change that Automerge cannot read.
    pub fn load<'a>(
        actor: [u8; 16],
        changes: impl IntoIterator<Item = &'a [u8]>,
    ) -> Result<Document, DocumentError> {
        let mut document = Document::new(actor)?;
        let changes = changes
            .into_iter()
            .map(|bytes| automerge::Change::from_bytes(bytes.to_vec()))
            .collect::<Result<Vec<_>, _>>()
            .map_err(|e| DocumentError::Unreadable(e.to_string()))?;
        let whole = document.let_in(changes).is_ok();
        // Entries in a change that waits for a missing change are absent from the document as well.
        document.skipped = !whole || document.queue.waits();
        Ok(document)
    }

    /// Returns true when loading left changes out, so that the store's entry table may hold entries that this
    /// document lacks.
    pub fn lacks_entries(&self) -> bool {
        self.skipped
    }

    /// Adds entries in one change and returns the change's bytes, or `None` when the document held all of
    /// them already.
    ///
    /// # Errors
    /// [`DocumentError::Library`] if Automerge fails; the document is then unchanged.
    pub fn add(&mut self, entries: &[Entry]) -> Result<Option<Vec<u8>>, DocumentError> {
        let missing: Vec<&Entry> = entries.iter().filter(|e| !self.contains(e.id)).collect();
        if missing.is_empty() {
            return Ok(None);
        }
        let mut transaction = self.automerge.transaction();
        for entry in missing {
            transaction
                .put(&self.entries, change::key_of(entry.id), ScalarValue::Bytes(entry.bytes().to_vec()))
                .map_err(library)?;
        }
        transaction.commit_with(CommitOptions::default().with_time(0));
        let change = self
            .automerge
            .get_last_local_change()
            .ok_or_else(|| DocumentError::Library("no change was made".to_owned()))?;
        self.queue.note([&change]);
        Ok(Some(change.raw_bytes().to_vec()))
    }

    /// Applies a checked change. A change whose predecessors are missing is queued until they arrive.
    ///
    /// # Errors
    /// [`DocumentError::DuplicateSequence`] when a copied device used the change's sequence number for
    /// another change (its entries can still be added by [`Document::add`]), or [`DocumentError::Library`].
    pub fn apply(&mut self, checked: &CheckedChange) -> Result<(), DocumentError> {
        self.let_in(vec![checked.change().clone()])
    }

    /// Returns true if the entry is in the document.
    pub fn contains(&self, id: EntryId) -> bool {
        matches!(self.automerge.get(&self.entries, change::key_of(id)), Ok(Some(_)))
    }

    /// Returns the ids of all entries in ascending order.
    pub fn entry_ids(&self) -> Vec<EntryId> {
        let mut ids: Vec<EntryId> =
            self.automerge.keys(&self.entries).filter_map(|key| change::id_of(&key)).collect();
        ids.sort_unstable();
        ids
    }

    /// Returns the signed bytes of an entry, or `None` if the document does not hold the entry.
    pub fn entry_bytes(&self, id: EntryId) -> Option<Vec<u8>> {
        match self.automerge.get(&self.entries, change::key_of(id)) {
            Ok(Some((Value::Scalar(scalar), _))) => match scalar.as_ref() {
                ScalarValue::Bytes(bytes) => Some(bytes.clone()),
                _ => None,
            },
            _ => None,
        }
    }

    /// Returns the hashes of the changes that no other change builds on, in ascending order. Two documents
    /// with equal heads are equal.
    pub fn heads(&self) -> Vec<Digest> {
        let mut heads: Vec<Digest> = self.automerge.get_heads().iter().map(|h| Digest(h.0)).collect();
        heads.sort_unstable();
        heads
    }

    /// Returns the bytes of all changes except the genesis, each after the changes it builds on.
    pub fn changes(&self) -> Vec<Vec<u8>> {
        let genesis = automerge::Change::from_bytes(GENESIS.to_vec()).map(|c| c.hash()).ok();
        self.automerge
            .get_changes(&[])
            .into_iter()
            .filter(|c| Some(c.hash()) != genesis)
            .map(|c| c.raw_bytes().to_vec())
            .collect()
    }

    /// Returns the whole document in Automerge's compressed file format, for exports and comparisons.
    pub fn save(&self) -> Vec<u8> {
        self.automerge.save()
    }
}

fn library(error: automerge::AutomergeError) -> DocumentError {
    match error {
        automerge::AutomergeError::DuplicateSeqNumber(..)
        | automerge::AutomergeError::DuplicateActorId(_) => DocumentError::DuplicateSequence,
        other => DocumentError::Library(other.to_string()),
    }
}

#[cfg(test)]
mod tests;
