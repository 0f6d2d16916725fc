//! Proofs that entries stand in the office's log, as a device keeps them.
//!
//! Does not live here: asking for them (`log_watch`), the proof of one entry alone (`log`'s `Inclusion`).

use serde::{Deserialize, Serialize};

use crate::clock::UtcMillis;
use crate::entry::{PublicKey, Trusts, cbor};
use crate::ids::{Digest, EntryId, Subject};
use crate::log::{Checkpoint, Inclusion};
use crate::store::{Store, StoreError, organisation_keys};
use crate::tree::{LogLeaf, merkle};

/// A proof for several entries at once, as kept: the checkpoint, the leaves and what leads from them to its
/// root.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct KeptProof {
    /// The checkpoint's note.
    #[serde(rename = "c")]
    pub note: String,
    /// Number, entry and time of each leaf, ascending by number.
    #[serde(rename = "l")]
    pub leaves: Vec<(u64, EntryId, UtcMillis)>,
    /// For each leaf, what it says its entry is about; empty when none says it.
    #[serde(rename = "a", default, skip_serializing_if = "Vec::is_empty")]
    pub abouts: Vec<Option<Subject>>,
    /// The other hashes (see [`merkle::stored_batch`]).
    #[serde(rename = "h")]
    pub hashes: Vec<Digest>,
}

impl KeptProof {
    /// The proof of one of its entries, with the checkpoint it leads to; nothing when something in it does not
    /// hold.
    pub fn of(&self, entry: EntryId, organisation: &dyn Trusts) -> Option<(Inclusion, Checkpoint)> {
        let checkpoint = Checkpoint::open(&self.note, organisation).ok()?;
        let at = self.leaves.iter().position(|(_, id, _)| *id == entry)?;
        let (number, _, received_at) = *self.leaves.get(at)?;
        let (_, mut paths) = merkle::batch_paths(&self.hashed(), checkpoint.size, &self.hashes)?;
        let inclusion = Inclusion {
            number,
            received_at,
            path: paths.swap_remove(at),
            about: self.abouts.get(at).copied().flatten(),
        };
        inclusion.check(entry, &checkpoint).ok()?;
        Some((inclusion, checkpoint))
    }

    /// Every entry of it and when it came to the ledger; nothing when something in it does not hold.
    pub fn all(
        &self,
        organisation: &dyn Trusts,
    ) -> Option<impl Iterator<Item = (EntryId, UtcMillis)> + use<'_>> {
        let checkpoint = Checkpoint::open(&self.note, organisation).ok()?;
        let (root, _) = merkle::batch_paths(&self.hashed(), checkpoint.size, &self.hashes)?;
        (root == checkpoint.root).then(|| self.leaves.iter().map(|(_, entry, at)| (*entry, *at)))
    }

    /// Number and hash of each leaf.
    pub(super) fn hashed(&self) -> Vec<(u64, Digest)> {
        let hash = |(at, (number, entry, received_at)): (usize, &(u64, EntryId, UtcMillis))| {
            let about = self.abouts.get(at).copied().flatten();
            (*number, LogLeaf { entry: *entry, received_at: *received_at, about }.hash())
        };
        self.leaves.iter().enumerate().map(hash).collect()
    }
}

/// The proof this device keeps for an entry, checked anew, with the checkpoint it leads to.
///
/// # Errors
/// [`StoreError`].
pub fn proof_of(
    store: &dyn Store,
    entry: EntryId,
    root: &PublicKey,
) -> Result<Option<(Inclusion, KeptProof)>, StoreError> {
    let keys = organisation_keys(store, root)?;
    let kept = store.log().proof_of(entry)?.and_then(|bytes| cbor::decode::<KeptProof>(&bytes).ok());
    Ok(kept.and_then(|kept| Some((kept.of(entry, &keys)?.0, kept))))
}
