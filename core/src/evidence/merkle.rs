//! The Merkle tree of RFC 9162, section 2.1: tree hash, inclusion path, and its check.

use sha2::{Digest as _, Sha256};

use crate::ids::Digest;

/// The hash of a leaf's data: SHA-256(0x00 || data).
pub fn leaf_hash(data: &[u8]) -> Digest {
    Digest(Sha256::new().chain_update([0]).chain_update(data).finalize().into())
}

fn node_hash(left: Digest, right: Digest) -> Digest {
    Digest(Sha256::new().chain_update([1]).chain_update(left.0).chain_update(right.0).finalize().into())
}

/// The largest power of two smaller than `n`, for `n` > 1.
fn split(n: usize) -> usize {
    1 << (usize::BITS - 1 - (n - 1).leading_zeros())
}

/// The tree hash of leaves that are hashed already; the hash of nothing is SHA-256 of no bytes.
pub fn root(leaves: &[Digest]) -> Digest {
    match leaves {
        [] => Digest::of(b""),
        [leaf] => *leaf,
        _ => {
            let (left, right) = leaves.split_at(split(leaves.len()));
            node_hash(root(left), root(right))
        }
    }
}

/// The audit path of leaf `at`, from the leaf upwards; nothing when there is no such leaf.
pub fn path(leaves: &[Digest], at: usize) -> Option<Vec<Digest>> {
    if at >= leaves.len() {
        return None;
    }
    if leaves.len() == 1 {
        return Some(Vec::new());
    }
    let (left, right) = leaves.split_at(split(leaves.len()));
    let (mut below, sibling) = if at < left.len() {
        (path(left, at)?, root(right))
    } else {
        (path(right, at - left.len())?, root(left))
    };
    below.push(sibling);
    Some(below)
}

/// The root that leaf `at` of `size` leaves leads to along `path` (RFC 9162, 2.1.3.2); nothing when
/// the path has the wrong length.
pub fn root_by_path(leaf: Digest, at: usize, size: usize, path: &[Digest]) -> Option<Digest> {
    if at >= size {
        return None;
    }
    let (mut node, mut last, mut hash) = (at, size - 1, leaf);
    for sibling in path {
        if last == 0 {
            return None;
        }
        if node & 1 == 1 || node == last {
            hash = node_hash(*sibling, hash);
            while node & 1 == 0 && node != 0 {
                node >>= 1;
                last >>= 1;
            }
        } else {
            hash = node_hash(hash, *sibling);
        }
        node >>= 1;
        last >>= 1;
    }
    (last == 0).then_some(hash)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn leaves(n: usize) -> Vec<Digest> {
        (0..n).map(|i| leaf_hash(&[i as u8])).collect()
    }

    /// The tree of certificate transparency's published test leaves ("", 00, 10, 2021, …): roots as
    /// printed in the reference tests of RFC 6962, which RFC 9162 keeps; from memory.
    #[test]
    fn known_roots_come_out() {
        let data: [&[u8]; 3] = [b"", b"\x00", b"\x10"];
        let hashed: Vec<Digest> = data.iter().map(|d| leaf_hash(d)).collect();
        assert_eq!(root(&[]).to_string(), "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
        assert_eq!(
            root(&hashed[..1]).to_string(),
            "6e340b9cffb37a989ca544e6bb780a2c78901d3fb33738768511a30617afa01d"
        );
        assert_eq!(
            root(&hashed[..2]).to_string(),
            "fac54203e7cc696cf0dfcb42c92a1d9dbaf70ad9e621f4bd8d98662f00e3c125"
        );
        assert_eq!(
            root(&hashed).to_string(),
            "aeb6bcfe274b70a14fb067a5e5578264db0fa9b51af5e0ba159158f329e06e77"
        );
    }

    #[test]
    fn every_path_leads_to_the_root_and_no_other_does() {
        for n in 1..40 {
            let leaves = leaves(n);
            for at in 0..n {
                let path = path(&leaves, at).unwrap_or_default();
                assert_eq!(root_by_path(leaves[at], at, n, &path), Some(root(&leaves)), "{at} of {n}");
                assert_ne!(root_by_path(leaf_hash(b"forged"), at, n, &path), Some(root(&leaves)));
            }
        }
    }
}
