//! The Merkle tree of RFC 9162, section 2.1: tree hash, audit paths, consistency paths, and their
//! verification.
//!
//! There are two ways to the same hashes. The functions over a slice of leaves follow the recursive
//! definitions of the standard literally; they serve small trees and are the reference in tests. The
//! functions over [`Subtrees`] read stored hashes of complete subtrees and need only a few reads for a log of
//! any size. The content of a leaf is in `leaf`, and the storage of hashes in `store`.

use sha2::{Digest as _, Sha256};

use crate::ids::Digest;

/// Returns the hash of a leaf's data: SHA-256(0x00 || data).
pub fn leaf_hash(data: &[u8]) -> Digest {
    Digest(Sha256::new().chain_update([0]).chain_update(data).finalize().into())
}

/// Returns the hash over two subtrees: SHA-256(0x01 || left || right).
pub fn node_hash(left: Digest, right: Digest) -> Digest {
    Digest(Sha256::new().chain_update([1]).chain_update(left.0).chain_update(right.0).finalize().into())
}

/// Returns the largest power of two smaller than `n`, for `n` > 1.
fn split(n: u64) -> u64 {
    1 << (u64::BITS - 1 - (n - 1).leading_zeros())
}

fn halves(leaves: &[Digest]) -> (&[Digest], &[Digest]) {
    leaves.split_at(usize::try_from(split(leaves.len() as u64)).unwrap_or(0))
}

/// Returns the tree hash over the given leaf hashes. The hash of an empty tree is the SHA-256 of no bytes.
pub fn root(leaves: &[Digest]) -> Digest {
    match leaves {
        [] => Digest::of(b""),
        [leaf] => *leaf,
        _ => {
            let (left, right) = halves(leaves);
            node_hash(root(left), root(right))
        }
    }
}

/// Returns the audit path of leaf `at`, from the leaf upwards, or `None` if there is no such leaf.
pub fn path(leaves: &[Digest], at: usize) -> Option<Vec<Digest>> {
    if at >= leaves.len() {
        return None;
    }
    if leaves.len() == 1 {
        return Some(Vec::new());
    }
    let (left, right) = halves(leaves);
    let (mut below, sibling) = if at < left.len() {
        (path(left, at)?, root(right))
    } else {
        (path(right, at - left.len())?, root(left))
    };
    below.push(sibling);
    Some(below)
}

/// Returns the consistency path from the first `old` leaves to all of them (RFC 9162, 2.1.4.1), or `None` if
/// there are fewer than `old`. The path from zero leaves or from all of them is empty.
pub fn consistency(leaves: &[Digest], old: usize) -> Option<Vec<Digest>> {
    fn subproof(leaves: &[Digest], old: usize, whole: bool) -> Vec<Digest> {
        if old == leaves.len() {
            return if whole { Vec::new() } else { vec![root(leaves)] };
        }
        let (left, right) = halves(leaves);
        let (mut below, other) = if old <= left.len() {
            (subproof(left, old, whole), root(right))
        } else {
            (subproof(right, old - left.len(), false), root(left))
        };
        below.push(other);
        below
    }
    match old {
        0 => Some(Vec::new()),
        _ if old <= leaves.len() => Some(subproof(leaves, old, true)),
        _ => None,
    }
}

/// Returns the root to which leaf `at` of `size` leaves leads along `path` (RFC 9162, 2.1.3.2), or `None` if
/// the path has the wrong length.
///
/// ```
/// use farsiding_core::tree::merkle::{leaf_hash, path, root, root_by_path};
///
/// let leaves = [leaf_hash(b"a"), leaf_hash(b"b"), leaf_hash(b"c")];
/// let audit_path = path(&leaves, 2).unwrap_or_default();
/// assert_eq!(root_by_path(leaves[2], 2, 3, &audit_path), Some(root(&leaves)));
/// assert_ne!(root_by_path(leaves[1], 2, 3, &audit_path), Some(root(&leaves)));
/// ```
pub fn root_by_path(leaf: Digest, at: u64, size: u64, path: &[Digest]) -> Option<Digest> {
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

/// Returns true if the tree of `new` leaves begins with the tree of `old` leaves (RFC 9162, 2.1.4.2). Every
/// tree begins with the empty one.
pub fn consistency_holds(old: u64, old_root: Digest, new: u64, new_root: Digest, proof: &[Digest]) -> bool {
    if old > new {
        return false;
    }
    if old == 0 || old == new {
        let same = old == 0 && old_root == root(&[]) && (new > 0 || new_root == old_root);
        return proof.is_empty() && (same || (old == new && old_root == new_root));
    }
    // If the old tree is complete, its root is the first hash, and the path omits it.
    let first = if old.is_power_of_two() { Some(&old_root) } else { None };
    let mut hashes = first.into_iter().chain(proof);
    let Some(start) = hashes.next() else { return false };
    let (mut node, mut last) = (old - 1, new - 1);
    while node & 1 == 1 {
        node >>= 1;
        last >>= 1;
    }
    let (mut from_old, mut from_new) = (*start, *start);
    for hash in hashes {
        if last == 0 {
            return false;
        }
        if node & 1 == 1 || node == last {
            from_old = node_hash(*hash, from_old);
            from_new = node_hash(*hash, from_new);
            while node & 1 == 0 && node != 0 {
                node >>= 1;
                last >>= 1;
            }
        } else {
            from_new = node_hash(from_new, *hash);
        }
        node >>= 1;
        last >>= 1;
    }
    last == 0 && from_old == old_root && from_new == new_root
}

/// Read access to stored hashes of complete subtrees: `subtree(level, place)` covers the 2^level leaves from
/// place * 2^level on. Level 0 holds the leaves' own hashes.
pub trait Subtrees {
    /// The error of a failed read.
    type Error;
    /// Returns the hash of a complete subtree.
    ///
    /// # Errors
    /// [`Subtrees::Error`] when the hash is missing or cannot be read.
    fn subtree(&self, level: u32, place: u64) -> Result<Digest, Self::Error>;
}

/// Returns the hash over the leaves `from..from + n`, where `from` is a multiple of the smallest power of two
/// that is at least `n`.
fn range_root<T: Subtrees + ?Sized>(tree: &T, from: u64, n: u64) -> Result<Digest, T::Error> {
    if n == 0 {
        return Ok(root(&[]));
    }
    if n.is_power_of_two() {
        let level = n.trailing_zeros();
        return tree.subtree(level, from >> level);
    }
    let k = split(n);
    Ok(node_hash(range_root(tree, from, k)?, range_root(tree, from + k, n - k)?))
}

/// Returns the root of the first `size` leaves.
///
/// # Errors
/// [`Subtrees::Error`] when a hash cannot be read. This holds for every function over [`Subtrees`].
pub fn stored_root<T: Subtrees + ?Sized>(tree: &T, size: u64) -> Result<Digest, T::Error> {
    range_root(tree, 0, size)
}

/// Returns the audit path of leaf `at` in the tree of the first `size` leaves, or `None` if the leaf is not
/// among them.
///
/// # Errors
/// As for [`stored_root`].
pub fn stored_path<T: Subtrees + ?Sized>(
    tree: &T,
    at: u64,
    size: u64,
) -> Result<Option<Vec<Digest>>, T::Error> {
    if at >= size {
        return Ok(None);
    }
    let (mut from, mut n, mut down) = (0, size, Vec::new());
    while n > 1 {
        let k = split(n);
        if at < from + k {
            down.push(range_root(tree, from + k, n - k)?);
            n = k;
        } else {
            down.push(range_root(tree, from, k)?);
            from += k;
            n -= k;
        }
    }
    down.reverse();
    Ok(Some(down))
}

/// Returns the consistency path from the first `old` to the first `new` leaves, or `None` if `old` is
/// greater.
///
/// # Errors
/// As for [`stored_root`].
pub fn stored_consistency<T: Subtrees + ?Sized>(
    tree: &T,
    old: u64,
    new: u64,
) -> Result<Option<Vec<Digest>>, T::Error> {
    if old > new {
        return Ok(None);
    }
    if old == 0 || old == new {
        return Ok(Some(Vec::new()));
    }
    // Of the `n` leaves from `from` on, `rest` belong to the old tree.
    let (mut from, mut n, mut rest, mut whole, mut down) = (0, new, old, true, Vec::new());
    while rest < n {
        let k = split(n);
        if rest <= k {
            down.push(range_root(tree, from + k, n - k)?);
            n = k;
        } else {
            down.push(range_root(tree, from, k)?);
            from += k;
            n -= k;
            rest -= k;
            whole = false;
        }
    }
    if !whole {
        down.push(range_root(tree, from, n)?);
    }
    down.reverse();
    Ok(Some(down))
}

/// Returns the hashes that, together with the leaves `asked`, lead to the root of the first `size` leaves:
/// the hashes of the largest ranges without any of these leaves, from left to right. `asked` must be
/// ascending, without duplicates and below `size`. Adjacent leaves share nearly all hashes.
///
/// # Errors
/// As for [`stored_root`].
pub fn stored_batch<T: Subtrees + ?Sized>(
    tree: &T,
    asked: &[u64],
    size: u64,
) -> Result<Vec<Digest>, T::Error> {
    fn walk<T: Subtrees + ?Sized>(
        tree: &T,
        asked: &[u64],
        from: u64,
        n: u64,
        out: &mut Vec<Digest>,
    ) -> Result<(), T::Error> {
        if asked.is_empty() {
            out.push(range_root(tree, from, n)?);
        } else if n > 1 {
            let k = split(n);
            let (left, right) = asked.split_at(asked.partition_point(|at| *at < from + k));
            walk(tree, left, from, k, out)?;
            walk(tree, right, from + k, n - k, out)?;
        }
        Ok(())
    }
    let mut out = Vec::new();
    if size > 0 {
        walk(tree, asked, 0, size, &mut out)?;
    }
    Ok(out)
}

/// Returns the root to which `leaves` (number and hash, ascending by number, without duplicates) and the
/// `others` from [`stored_batch`] lead, and the audit path of each leaf. Returns `None` if they do not fit
/// together.
pub fn batch_paths(
    leaves: &[(u64, Digest)],
    size: u64,
    others: &[Digest],
) -> Option<(Digest, Vec<Vec<Digest>>)> {
    fn walk(
        leaves: &[(u64, Digest)],
        n: u64,
        from: u64,
        others: &mut std::slice::Iter<'_, Digest>,
        paths: &mut [Vec<Digest>],
    ) -> Option<Digest> {
        match leaves {
            [] => others.next().copied(),
            [(_, hash)] if n == 1 => Some(*hash),
            _ if n <= 1 => None,
            _ => {
                let k = split(n);
                let middle = leaves.partition_point(|(at, _)| *at < from + k);
                let (left, right) = leaves.split_at(middle);
                let (left_paths, right_paths) = paths.split_at_mut(middle);
                let left_hash = walk(left, k, from, others, left_paths)?;
                let right_hash = walk(right, n - k, from + k, others, right_paths)?;
                left_paths.iter_mut().for_each(|path| path.push(right_hash));
                right_paths.iter_mut().for_each(|path| path.push(left_hash));
                Some(node_hash(left_hash, right_hash))
            }
        }
    }
    let ascending = leaves.windows(2).all(|pair| pair[0].0 < pair[1].0);
    if !ascending || size == 0 || leaves.last().is_some_and(|(at, _)| *at >= size) {
        return None;
    }
    let (mut others, mut paths) = (others.iter(), vec![Vec::new(); leaves.len()]);
    let root = walk(leaves, size, 0, &mut others, &mut paths)?;
    others.next().is_none().then_some((root, paths))
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]
    use super::*;
    use serde::Deserialize;
    use std::convert::Infallible;

    fn leaves(n: usize) -> Vec<Digest> {
        (0..n).map(|i| leaf_hash(&(i as u32).to_be_bytes())).collect()
    }

    /// Complete subtrees computed from a slice of leaf hashes.
    struct Plain<'a>(&'a [Digest]);
    impl Subtrees for Plain<'_> {
        type Error = Infallible;
        fn subtree(&self, level: u32, place: u64) -> Result<Digest, Infallible> {
            let from = (place << level) as usize;
            Ok(root(&self.0[from..from + (1 << level)]))
        }
    }

    #[derive(Deserialize)]
    struct Golden {
        leaves: Vec<String>,
        roots: Vec<Digest>,
        inclusions: Vec<Inclusion>,
        consistencies: Vec<Consistency>,
    }
    #[derive(Deserialize)]
    struct Inclusion {
        at: u64,
        size: u64,
        path: Vec<Digest>,
    }
    #[derive(Deserialize)]
    struct Consistency {
        old: u64,
        new: u64,
        path: Vec<Digest>,
    }

    /// The expected roots and paths of the published test leaves and of a larger tree were computed by
    /// another implementation (see the citation in the file).
    #[test]
    fn roots_and_paths_are_those_another_implementation_computed() {
        let golden: Golden =
            serde_json::from_str(include_str!("../../../tests/golden/log/merkle.json")).unwrap();
        let unhex = |text: &str| -> Vec<u8> {
            (0..text.len() / 2).map(|i| u8::from_str_radix(&text[2 * i..2 * i + 2], 16).unwrap()).collect()
        };
        let hashed: Vec<Digest> = golden.leaves.iter().map(|data| leaf_hash(&unhex(data))).collect();
        assert_eq!((hashed.len(), golden.inclusions.len(), golden.consistencies.len()), (21, 70, 231));
        for (size, expected) in golden.roots.iter().enumerate() {
            assert_eq!(root(&hashed[..size]), *expected, "{size} leaves");
        }
        for case in golden.inclusions {
            let tree = &hashed[..case.size as usize];
            assert_eq!(path(tree, case.at as usize).unwrap(), case.path, "{} of {}", case.at, case.size);
            let reached = root_by_path(tree[case.at as usize], case.at, case.size, &case.path);
            assert_eq!(reached, Some(golden.roots[case.size as usize]));
        }
        for Consistency { old, new, path } in golden.consistencies {
            assert_eq!(consistency(&hashed[..new as usize], old as usize).unwrap(), path, "{old} to {new}");
            let (old_root, new_root) = (golden.roots[old as usize], golden.roots[new as usize]);
            assert!(consistency_holds(old, old_root, new, new_root, &path), "{old} to {new}");
        }
    }

    #[test]
    fn every_path_leads_to_the_root_and_no_other_does() {
        for n in 1..40 {
            let leaves = leaves(n);
            for at in 0..n {
                let path = path(&leaves, at).unwrap_or_default();
                let reached = |leaf| root_by_path(leaf, at as u64, n as u64, &path);
                assert_eq!(reached(leaves[at]), Some(root(&leaves)), "{at} of {n}");
                assert_ne!(reached(leaf_hash(b"forged")), Some(root(&leaves)));
            }
        }
    }

    #[test]
    fn a_tree_that_does_not_begin_with_the_old_one_is_never_consistent() {
        for new in 1..33u64 {
            let all = leaves(new as usize);
            for old in 0..=new {
                let proof = consistency(&all, old as usize).unwrap();
                let (old_root, new_root) = (root(&all[..old as usize]), root(&all));
                assert!(consistency_holds(old, old_root, new, new_root, &proof), "{old} to {new}");
                assert!(!consistency_holds(new + 1, old_root, new, new_root, &proof), "shrunk");
                let mut rewritten = all.clone();
                if old > 0 {
                    for at in [0, old as usize - 1] {
                        rewritten[at] = leaf_hash(b"rewritten");
                    }
                    let proof = consistency(&rewritten, old as usize).unwrap();
                    assert!(
                        !consistency_holds(old, old_root, new, root(&rewritten), &proof),
                        "{old} of {new}"
                    );
                }
                for at in 0..proof.len() {
                    let mut altered = proof.clone();
                    altered[at].0[0] ^= 1;
                    assert!(!consistency_holds(old, old_root, new, new_root, &altered));
                    altered.remove(at);
                    assert!(!consistency_holds(old, old_root, new, new_root, &altered));
                }
                let mut longer = proof.clone();
                longer.push(new_root);
                assert!(!consistency_holds(old, old_root, new, new_root, &longer));
            }
        }
        assert!(!consistency_holds(0, leaf_hash(b""), 0, root(&[]), &[]));
        assert!(!consistency_holds(3, root(&leaves(3)), 5, root(&leaves(5)), &[]));
    }

    #[test]
    fn stored_subtrees_give_what_the_standards_recursions_give() {
        for n in 0..70u64 {
            let all = leaves(n as usize);
            let tree = Plain(&all);
            assert_eq!(stored_root(&tree, n), Ok(root(&all)));
            for at in 0..n + 1 {
                assert_eq!(stored_path(&tree, at, n), Ok(path(&all, at as usize)), "{at} of {n}");
                assert_eq!(stored_consistency(&tree, at, n), Ok(consistency(&all, at as usize)));
            }
        }
    }

    #[test]
    fn a_batch_of_leaves_gives_each_its_path_and_neighbours_cost_next_to_nothing() {
        let mut dice = farsiding_testkit::Dice::of(1);
        for n in 1..60u64 {
            let all = leaves(n as usize);
            let tree = Plain(&all);
            for _ in 0..20 {
                let asked: Vec<u64> = (0..n).filter(|_| dice.once_in(2)).collect();
                let others = stored_batch(&tree, &asked, n).unwrap();
                let given: Vec<(u64, Digest)> = asked.iter().map(|at| (*at, all[*at as usize])).collect();
                let (reached, paths) = batch_paths(&given, n, &others).unwrap();
                assert_eq!(reached, root(&all));
                for (at, path) in asked.iter().zip(&paths) {
                    assert_eq!(root_by_path(all[*at as usize], *at, n, path), Some(root(&all)));
                }
                if !others.is_empty() {
                    assert_eq!(batch_paths(&given, n, &others[1..]), None, "one hash short");
                }
                let more = [others.as_slice(), &[reached]].concat();
                assert_eq!(batch_paths(&given, n, &more), None, "one hash too many");
            }
        }
        let all = leaves(1000);
        let asked: Vec<u64> = (700..820).collect();
        assert!(stored_batch(&Plain(&all), &asked, 1000).unwrap().len() <= 20);
        assert_eq!(batch_paths(&[(3, all[3]), (3, all[3])], 1000, &[]), None, "twice the same");
        assert_eq!(batch_paths(&[(1000, all[3])], 1000, &[]), None, "beyond the end");
    }
}
