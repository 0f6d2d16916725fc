//! A leaf of the ledger's log: which entry, and when it came in.
//!
//! Leaves stand in the order in which entries first came to the ledger; their times never fall. Does not
//! live here: the tree over them (`merkle`), where they are kept (`store`).

use super::merkle;
use crate::clock::UtcMillis;
use crate::ids::{Digest, EntryId};

/// One leaf.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct LogLeaf {
    /// The entry.
    pub entry: EntryId,
    /// When it first came to the ledger, by the server's clock.
    pub received_at: UtcMillis,
}

impl LogLeaf {
    /// The leaf's data: the entry's id (32 bytes), then the time in milliseconds since 1970 (8 bytes, two's
    /// complement, big endian).
    pub fn to_bytes(self) -> [u8; 40] {
        let mut bytes = [0u8; 40];
        bytes[..32].copy_from_slice(&self.entry.0);
        bytes[32..].copy_from_slice(&self.received_at.0.to_be_bytes());
        bytes
    }

    /// The leaf's hash in the tree (RFC 9162, 2.1.1).
    pub fn hash(self) -> Digest {
        merkle::leaf_hash(&self.to_bytes())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Python: `sha256(b"\0" + bytes([0xab]*32) + (1795528800000).to_bytes(8, "big", signed=True))`.
    #[test]
    fn a_leaf_hashes_as_another_program_computes_it() {
        let leaf = LogLeaf { entry: EntryId([0xab; 32]), received_at: UtcMillis(1_795_528_800_000) };
        assert_eq!(
            leaf.hash().to_string(),
            "90d205a780a51aa034ee63b8583ddcaadb7a3f8ea59a33d78a5eec085f549028"
        );
    }

    #[test]
    fn another_time_is_another_leaf() {
        let leaf = LogLeaf { entry: EntryId([1; 32]), received_at: UtcMillis(5) };
        assert_ne!(leaf.hash(), LogLeaf { received_at: UtcMillis(6), ..leaf }.hash());
        assert_ne!(leaf.hash(), LogLeaf { entry: EntryId([2; 32]), ..leaf }.hash());
    }
}
