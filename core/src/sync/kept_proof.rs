//! Proofs that entries stand in the office's log, in the form in which a device stores them.
//!
//! Requesting them is in `log_watch`; the proof of a single entry is `log`'s `Inclusion`.

use serde::{Deserialize, Serialize};

use crate::clock::UtcMillis;
use crate::entry::{PublicKey, Trusts, cbor};
use crate::ids::{Digest, EntryId, Subject};
use crate::log::{Checkpoint, Inclusion};
use crate::store::{Store, StoreError, organisation_keys};
use crate::tree::{LogLeaf, merkle};

/// A stored proof for several entries at once: the checkpoint, the leaves, and the hashes that lead from the
/// leaves to the checkpoint's root.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct KeptProof {
    /// The checkpoint's note.
    #[serde(rename = "c")]
    pub note: String,
    /// The number, entry and arrival time of each leaf, in ascending order of number.
    #[serde(rename = "l")]
    pub leaves: Vec<(u64, EntryId, UtcMillis)>,
    /// The subject in each leaf; empty if no leaf contains one.
    #[serde(rename = "a", default, skip_serializing_if = "Vec::is_empty")]
    pub abouts: Vec<Option<Subject>>,
    /// The remaining hashes, see [`merkle::stored_batch`].
    #[serde(rename = "h")]
    pub hashes: Vec<Digest>,
}

impl KeptProof {
    /// Returns the proof of one entry, with the checkpoint that the proof leads to. Returns `None` if the
    /// entry is not covered or the checkpoint, its signature or the hashes do not verify.
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

    /// Returns every entry of the proof with the time when it arrived at the ledger, or `None` if the proof
    /// does not verify.
    pub fn all(
        &self,
        organisation: &dyn Trusts,
    ) -> Option<impl Iterator<Item = (EntryId, UtcMillis)> + use<'_>> {
        let checkpoint = Checkpoint::open(&self.note, organisation).ok()?;
        let (root, _) = merkle::batch_paths(&self.hashed(), checkpoint.size, &self.hashes)?;
        (root == checkpoint.root).then(|| self.leaves.iter().map(|(_, entry, at)| (*entry, *at)))
    }

    /// Returns the number and the hash of each leaf.
    pub(super) fn hashed(&self) -> Vec<(u64, Digest)> {
        let hash = |(at, (number, entry, received_at)): (usize, &(u64, EntryId, UtcMillis))| {
            let about = self.abouts.get(at).copied().flatten();
            (*number, LogLeaf { entry: *entry, received_at: *received_at, about }.hash())
        };
        self.leaves.iter().enumerate().map(hash).collect()
    }
}

/// Returns the stored proof of an entry after checking it again, with the checkpoint that the proof leads to.
///
/// # Errors
/// [`StoreError`] when the database fails.
pub fn proof_of(
    store: &dyn Store,
    entry: EntryId,
    root: &PublicKey,
) -> Result<Option<(Inclusion, KeptProof)>, StoreError> {
    let keys = organisation_keys(store, root)?;
    let kept = store.log().proof_of(entry)?.and_then(|bytes| cbor::decode::<KeptProof>(&bytes).ok());
    Ok(kept.and_then(|kept| Some((kept.of(entry, &keys)?.0, kept))))
}
