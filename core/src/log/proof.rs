//! The proof that an entry stands in the ledger's log: its leaf number, its arrival time, and the path to a
//! checkpoint's root.

use serde::{Deserialize, Serialize};

use super::checkpoint::Checkpoint;
use crate::clock::UtcMillis;
use crate::ids::{Digest, EntryId, Subject};
use crate::tree::LogLeaf;
use crate::tree::merkle;

/// The reason why a proof does not hold.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum ProofError {
    /// The leaf number is not below the checkpoint's size.
    #[error("the entry's place {number} is not among the {size} of the checkpoint")]
    BeyondTheEnd {
        /// The leaf number.
        number: u64,
        /// The checkpoint's size.
        size: u64,
    },
    /// The path does not lead to the checkpoint's root.
    #[error(
        "the path does not lead to the checkpoint: another entry, another time of receipt, another place, or \
         another log"
    )]
    OtherRoot,
}

/// An entry's place in the log, and the audit path from there to a checkpoint's root (RFC 9162).
///
/// ```
/// use farsiding_core::clock::UtcMillis;
/// use farsiding_core::ids::EntryId;
/// use farsiding_core::log::{Checkpoint, Inclusion};
/// use farsiding_core::tree::{LogLeaf, merkle};
///
/// let entries = [EntryId([1; 32]), EntryId([2; 32]), EntryId([3; 32])];
/// let received_at = UtcMillis(1_795_528_800_000);
/// let leaves = entries.map(|entry| LogLeaf { entry, received_at, about: None }.hash());
/// let checkpoint = Checkpoint { origin: "a log".into(), size: 3, root: merkle::root(&leaves), heads: None };
///
/// let path = merkle::path(&leaves, 1).unwrap_or_default();
/// let proof = Inclusion { number: 1, received_at, path, about: None };
/// assert!(proof.check(entries[1], &checkpoint).is_ok());
/// assert!(proof.check(entries[2], &checkpoint).is_err());
/// ```
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Inclusion {
    /// The entry's leaf number, counted from 0.
    #[serde(rename = "n")]
    pub number: u64,
    /// The time when the entry first arrived at the ledger, by the server's clock.
    #[serde(rename = "t")]
    pub received_at: UtcMillis,
    /// The sibling hashes on the way from the leaf to the root.
    #[serde(rename = "p")]
    pub path: Vec<Digest>,
    /// The subject in the leaf; `None` in a leaf of version one.
    #[serde(rename = "a", default, skip_serializing_if = "Option::is_none")]
    pub about: Option<Subject>,
}

impl Inclusion {
    /// Checks that the entry stands at this number and with this time in the log of the checkpoint. The
    /// checkpoint must come from [`Checkpoint::open`], which checks its signature.
    ///
    /// # Errors
    /// [`ProofError::BeyondTheEnd`] if the log has no such leaf, [`ProofError::OtherRoot`] if the path does
    /// not lead to the checkpoint's root.
    pub fn check(&self, entry: EntryId, checkpoint: &Checkpoint) -> Result<(), ProofError> {
        let (number, size) = (self.number, checkpoint.size);
        if number >= size {
            return Err(ProofError::BeyondTheEnd { number, size });
        }
        let leaf = LogLeaf { entry, received_at: self.received_at, about: self.about }.hash();
        match merkle::root_by_path(leaf, number, size, &self.path) {
            Some(root) if root == checkpoint.root => Ok(()),
            _ => Err(ProofError::OtherRoot),
        }
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]
    use super::*;
    use crate::entry::cbor;

    #[test]
    fn a_proof_holds_for_its_entry_place_and_time_and_for_nothing_else() {
        let leaves: Vec<LogLeaf> = (0..11u8)
            .map(|n| LogLeaf {
                entry: EntryId([n; 32]),
                received_at: UtcMillis(1000 + i64::from(n)),
                about: (n > 5).then_some(Subject::Visit(crate::ids::VisitId([n; 16]))),
            })
            .collect();
        let hashes: Vec<Digest> = leaves.iter().map(|leaf| leaf.hash()).collect();
        let checkpoint =
            Checkpoint { origin: "o".into(), size: 11, root: merkle::root(&hashes), heads: None };
        for (at, leaf) in leaves.iter().enumerate() {
            let proof = Inclusion {
                number: at as u64,
                received_at: leaf.received_at,
                path: merkle::path(&hashes, at).unwrap(),
                about: leaf.about,
            };
            assert_eq!(proof.check(leaf.entry, &checkpoint), Ok(()));
            assert_eq!(cbor::decode::<Inclusion>(&cbor::encode(&proof).unwrap()).unwrap(), proof);
            let wrong = Err(ProofError::OtherRoot);
            assert_eq!(proof.check(EntryId([99; 32]), &checkpoint), wrong);
            let later = Inclusion { received_at: UtcMillis(leaf.received_at.0 + 1), ..proof.clone() };
            assert_eq!(later.check(leaf.entry, &checkpoint), wrong);
            let moved = Inclusion { number: (at as u64 + 1) % 11, ..proof.clone() };
            assert_eq!(moved.check(leaf.entry, &checkpoint), wrong);
            let elsewhere = Subject::Visit(crate::ids::VisitId([99; 16]));
            let other = Inclusion { about: Some(elsewhere), ..proof.clone() };
            assert_eq!(other.check(leaf.entry, &checkpoint), wrong);
            let beyond = Inclusion { number: 11, ..proof };
            assert!(matches!(beyond.check(leaf.entry, &checkpoint), Err(ProofError::BeyondTheEnd { .. })));
        }
    }
}
