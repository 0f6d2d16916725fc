//! The trees that the ledger's log is made of: its leaves, the Merkle tree over them, and the map of documents' heads.
//!
//! Pure functions over hashes. Stores keep leaves and subtree hashes and read them back through [`merkle::Subtrees`] and
//! [`heads::Leaves`]. Does not live here: what is signed about a tree and proven from it (`log`), where it is kept
//! (`store`).

pub mod heads;
mod leaf;
pub mod merkle;

pub use leaf::LogLeaf;

use crate::ids::{Digest, EntryId};

/// The root of the tree of some entries' ids, as a receipt's head gives it; nothing for none.
pub(crate) fn tree_of(entries: &[EntryId]) -> Option<Digest> {
    let leaves: Vec<_> = entries.iter().map(|id| merkle::leaf_hash(&id.0)).collect();
    (!leaves.is_empty()).then(|| merkle::root(&leaves))
}
