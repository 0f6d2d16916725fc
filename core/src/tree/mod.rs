//! The trees of the transparency log: its leaves, the Merkle tree over them, and the map of documents' heads.
//!
//! This module consists of pure functions over hashes. Stores hold leaves and subtree hashes and provide them
//! through [`merkle::Subtrees`] and [`heads::Leaves`]. Signatures and proofs are in `log`, storage is in
//! `store`.

pub mod heads;
mod leaf;
pub mod merkle;

pub use leaf::LogLeaf;

use crate::ids::{Digest, EntryId};

/// Returns the root of the tree over the ids of some entries, as a receipt's head contains it; `None` if
/// there are no entries.
pub(crate) fn tree_of(entries: &[EntryId]) -> Option<Digest> {
    let leaves: Vec<_> = entries.iter().map(|id| merkle::leaf_hash(&id.0)).collect();
    (!leaves.is_empty()).then(|| merkle::root(&leaves))
}
