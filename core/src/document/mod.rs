//! Documents: one Automerge document per visit, car, site and roster, holding signed entries.
//!
//! Root: `{format: "farsiding/1", entries: {entry id -> signed bytes}}`, grow-only. Every document
//! begins with the same frozen genesis change, so that copies made apart are copies of one document.
//! This module alone names automerge (invariant 4). It keeps nothing on disk (see `store`) and does
//! not know what entries mean (see `view`).

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

/// The change every document begins with, byte for byte. Never edited: see `tests/golden/genesis.hex`.
pub const GENESIS: &[u8] = include_bytes!("genesis.change");

/// One document in memory. Its entries are checked when they come in, never changed afterwards.
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

/// A random actor for one process start: never derived from the device or the person, so that a
/// restored backup does not continue an old sequence.
pub fn random_actor(randomness: &mut dyn Randomness) -> [u8; 16] {
    let mut actor = [0u8; 16];
    randomness.fill(&mut actor);
    actor
}

impl Document {
    /// A document that holds nothing but its genesis, for edits by `actor`.
    ///
    /// # Errors
    /// [`DocumentError::Library`] should the frozen genesis not apply.
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

    /// Rebuilds a document from its stored changes, in any order. Changes were checked when stored.
    ///
    /// Where a copied device left two changes with one place in its sequence, the later stored is
    /// left out and [`Document::lacks_entries`] says so: its entries are in the entry table and the
    /// next edit puts them back under a new change. The same where a change builds on one that is not
    /// here (its entries came in another, so nobody missed it), or cannot be applied at all.
    ///
    /// # Errors
    /// [`DocumentError`] for the first change that cannot be read.
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
        // A change that waits for one that never came holds its entries back in the same way.
        document.skipped = !whole || document.queue.waits();
        Ok(document)
    }

    /// Whether loading had to leave changes out, so that entries of the table may be missing here.
    pub fn lacks_entries(&self) -> bool {
        self.skipped
    }

    /// Adds entries in one change and returns the change's bytes, or nothing when all were there.
    ///
    /// # Errors
    /// [`DocumentError::Library`]; the document is then as before.
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

    /// Applies a change that was checked. A change whose predecessors are missing waits inside.
    ///
    /// # Errors
    /// [`DocumentError::DuplicateSequence`] when a copied device's change cannot be applied (its
    /// entries can still be added by [`Document::add`]), or [`DocumentError::Library`].
    pub fn apply(&mut self, checked: &CheckedChange) -> Result<(), DocumentError> {
        self.let_in(vec![checked.change().clone()])
    }

    /// Whether the entry is in the document.
    pub fn contains(&self, id: EntryId) -> bool {
        matches!(self.automerge.get(&self.entries, change::key_of(id)), Ok(Some(_)))
    }

    /// The ids of all entries, ascending.
    pub fn entry_ids(&self) -> Vec<EntryId> {
        let mut ids: Vec<EntryId> =
            self.automerge.keys(&self.entries).filter_map(|key| change::id_of(&key)).collect();
        ids.sort_unstable();
        ids
    }

    /// The signed bytes of an entry.
    pub fn entry_bytes(&self, id: EntryId) -> Option<Vec<u8>> {
        match self.automerge.get(&self.entries, change::key_of(id)) {
            Ok(Some((Value::Scalar(scalar), _))) => match scalar.as_ref() {
                ScalarValue::Bytes(bytes) => Some(bytes.clone()),
                _ => None,
            },
            _ => None,
        }
    }

    /// The hashes of the changes nothing else builds on, ascending: equal heads, equal documents.
    pub fn heads(&self) -> Vec<Digest> {
        let mut heads: Vec<Digest> = self.automerge.get_heads().iter().map(|h| Digest(h.0)).collect();
        heads.sort_unstable();
        heads
    }

    /// All changes but the genesis, oldest first.
    pub fn changes(&self) -> Vec<Vec<u8>> {
        let genesis = automerge::Change::from_bytes(GENESIS.to_vec()).map(|c| c.hash()).ok();
        self.automerge
            .get_changes(&[])
            .into_iter()
            .filter(|c| Some(c.hash()) != genesis)
            .map(|c| c.raw_bytes().to_vec())
            .collect()
    }

    /// The whole document in Automerge's own compressed file form, for exports and comparisons.
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
