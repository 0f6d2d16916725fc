//! The leaves of the transparency log: the entry, its arrival time, and its subject.
//!
//! Leaves stand in the order in which entries first arrived at the ledger, and their times never decrease. A
//! leaf of version one has no subject; a log that began with such leaves continues with leaves of version
//! two. The tree over the leaves is in `merkle`, storage in `store`, and the state of each document as a
//! whole in `heads`.

use super::merkle;
use crate::clock::UtcMillis;
use crate::ids::{Digest, EntryId, Subject};

/// One leaf of the log.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct LogLeaf {
    /// The id of the entry.
    pub entry: EntryId,
    /// The time when the entry first arrived at the ledger, by the server's clock.
    pub received_at: UtcMillis,
    /// The subject of the entry; `None` in a leaf of version one.
    pub about: Option<Subject>,
}

impl LogLeaf {
    /// Returns the leaf's data: the entry's id (32 bytes), the time in milliseconds since 1970 (8 bytes,
    /// two's complement, big-endian) and, in version two, the subject (17 bytes). The length tells the
    /// version.
    pub fn to_bytes(self) -> Vec<u8> {
        let mut bytes = Vec::with_capacity(57);
        bytes.extend_from_slice(&self.entry.0);
        bytes.extend_from_slice(&self.received_at.0.to_be_bytes());
        if let Some(about) = self.about {
            bytes.extend_from_slice(&about.to_bytes());
        }
        bytes
    }

    /// Reads the form written by [`LogLeaf::to_bytes`]. Returns `None` for any other bytes.
    pub fn from_bytes(bytes: &[u8]) -> Option<LogLeaf> {
        let (entry, rest) = bytes.split_first_chunk::<32>()?;
        let (at, about) = rest.split_first_chunk::<8>()?;
        let about = match about {
            [] => None,
            about => Some(Subject::from_bytes(about)?),
        };
        Some(LogLeaf { entry: EntryId(*entry), received_at: UtcMillis(i64::from_be_bytes(*at)), about })
    }

    /// Returns the leaf's hash in the tree (RFC 9162, 2.1.1).
    pub fn hash(self) -> Digest {
        merkle::leaf_hash(&self.to_bytes())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ids::VisitId;

    const LEAF: LogLeaf =
        LogLeaf { entry: EntryId([0xab; 32]), received_at: UtcMillis(1_795_528_800_000), about: None };

    /// The hash was computed in Python: `sha256(b"\0" + bytes([0xab]*32) + (1795528800000).to_bytes(8, "big",
    /// signed=True))`, for version two with `+ b"v" + bytes([7]*16)`.
    #[test]
    fn a_leaf_hashes_as_another_program_computes_it() {
        assert_eq!(
            LEAF.hash().to_string(),
            "90d205a780a51aa034ee63b8583ddcaadb7a3f8ea59a33d78a5eec085f549028"
        );
        let second = LogLeaf { about: Some(Subject::Visit(VisitId([7; 16]))), ..LEAF };
        assert_eq!(
            second.hash().to_string(),
            "1e0b02028dc8c288bd997b6554530394d604be6a15db643c1b5dce72ad963585"
        );
    }

    #[test]
    fn another_time_or_another_subject_is_another_leaf() {
        assert_ne!(LEAF.hash(), LogLeaf { received_at: UtcMillis(6), ..LEAF }.hash());
        assert_ne!(LEAF.hash(), LogLeaf { entry: EntryId([2; 32]), ..LEAF }.hash());
        let about = |visit| LogLeaf { about: Some(Subject::Visit(VisitId([visit; 16]))), ..LEAF };
        assert_ne!(about(1).hash(), about(2).hash());
        assert_ne!(about(1).hash(), LEAF.hash());
    }

    #[test]
    fn bytes_of_both_versions_are_read_back_and_no_others() {
        let second = LogLeaf { about: Some(Subject::Visit(VisitId([7; 16]))), ..LEAF };
        for leaf in [LEAF, second] {
            assert_eq!(LogLeaf::from_bytes(&leaf.to_bytes()), Some(leaf));
        }
        for length in [0, 39, 41, 56, 58] {
            let bytes: Vec<u8> = second.to_bytes().into_iter().chain([0]).take(length).collect();
            assert_eq!(LogLeaf::from_bytes(&bytes), None, "{length} bytes");
        }
    }
}
