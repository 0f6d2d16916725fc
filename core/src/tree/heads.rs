//! The heads of documents: for each document the number of its entries in the log and the root hash over
//! them.
//!
//! A checkpoint commits to all heads at once, by the root of a map from document to head. So nobody can show
//! fewer entries of a stay than the log holds, and a row missing from the office's tables is noticed. The map
//! is a binary tree over the bits of the hash of a document's name; each document has exactly one place in it
//! and cannot occur twice. Everything here is computed from the log's leaves and is not stored. The log's own
//! tree is in `merkle`; `log` requests the roots.

use std::collections::{BTreeMap, BTreeSet};

use sha2::{Digest as _, Sha256};

use super::merkle::{leaf_hash, node_hash};
use crate::ids::{Digest, EntryId, Subject};

/// The number of leaves read from a store at once.
const READ_AT_ONCE: usize = 4096;

/// Read access to a log's leaves by their numbers, counted from 0.
pub trait Leaves {
    /// The error of a failed read.
    type Error;

    /// Returns the entry of a leaf, or `None` beyond the end of the log.
    ///
    /// # Errors
    /// [`Leaves::Error`] when the leaf cannot be read.
    fn entry_at(&self, number: u64) -> Result<Option<EntryId>, Self::Error>;
    /// Returns the entries of at most `most` leaves from number `from` on, each with its subject if that is
    /// known.
    ///
    /// # Errors
    /// [`Leaves::Error`] when a leaf cannot be read.
    fn subjects_from(&self, from: u64, most: usize) -> Result<Vec<(EntryId, Option<Subject>)>, Self::Error>;
}

/// The state of one document in the log.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Head {
    /// The number of entries about the document.
    pub count: u64,
    /// The tree hash (RFC 9162) with their ids as leaf data, in the order of the log.
    pub root: Digest,
}

impl Head {
    /// Computes the head of a document with these entries, given in the order of the log.
    pub fn of(entries: &[EntryId]) -> Head {
        let mut frontier = Frontier::default();
        for entry in entries {
            frontier.push(*entry);
        }
        frontier.head()
    }

    /// Returns SHA-256(0x02 ‖ key ‖ count ‖ root), with the count as 8 bytes, big-endian.
    fn hash(self, key: &Key) -> Digest {
        let parts = Sha256::new().chain_update([2]).chain_update(key).chain_update(self.count.to_be_bytes());
        Digest(parts.chain_update(self.root.0).finalize().into())
    }
}

/// What a checkpoint commits to about the documents.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct HeadsRoot {
    /// The number of documents.
    pub count: u64,
    /// The root of the map from document to head; 32 zero bytes if there is no document.
    pub root: Digest,
}

/// The SHA-256 of a document's 17 bytes. Its bits, the highest first, lead to the document's place.
type Key = [u8; 32];

const EMPTY: Digest = Digest([0; 32]);

fn key_of(about: Subject) -> Key {
    Digest::of(&about.to_bytes()).0
}

fn bit(key: &Key, depth: usize) -> usize {
    key.get(depth / 8).map_or(0, |byte| usize::from(byte >> (7 - depth % 8) & 1))
}

/// Returns SHA-256(0x03 ‖ left ‖ right).
fn inner(left: Digest, right: Digest) -> Digest {
    Digest(Sha256::new().chain_update([3]).chain_update(left.0).chain_update(right.0).finalize().into())
}

/// Returns the root of the map to which a document's head leads along `path`, the sibling hashes from its
/// place upwards. Returns `None` if the path is too long.
pub fn root_by_path(about: Subject, head: Head, path: &[Digest]) -> Option<Digest> {
    let key = key_of(about);
    let mut hash = head.hash(&key);
    if path.len() > key.len() * 8 {
        return None;
    }
    for (at, beside) in path.iter().enumerate() {
        hash = match bit(&key, path.len() - 1 - at) {
            0 => inner(hash, *beside),
            _ => inner(*beside, hash),
        };
    }
    Some(hash)
}

/// The complete subtrees over the entries of one document, the largest first.
#[derive(Debug, Clone, Default)]
struct Frontier {
    count: u64,
    peaks: Vec<Digest>,
}

impl Frontier {
    fn push(&mut self, entry: EntryId) {
        let mut hash = leaf_hash(&entry.0);
        let mut count = self.count;
        while count & 1 == 1
            && let Some(left) = self.peaks.pop()
        {
            hash = node_hash(left, hash);
            count >>= 1;
        }
        self.peaks.push(hash);
        self.count += 1;
    }

    fn head(&self) -> Head {
        let folded = self.peaks.iter().rev().copied().reduce(|right, left| node_hash(left, right));
        Head { count: self.count, root: folded.unwrap_or_else(|| Digest::of(b"")) }
    }
}

#[derive(Debug, Clone)]
enum Node {
    Document { key: Key, hash: Digest },
    Fork { hash: Option<Digest>, sides: Box<[Option<Node>; 2]> },
}

impl Node {
    /// Returns the node after inserting a document below `depth` or changing its head.
    fn with(this: Option<Node>, depth: usize, key: Key, hash: Digest) -> Node {
        match this {
            None => Node::Document { key, hash },
            Some(Node::Document { key: other, .. }) if other == key => Node::Document { key, hash },
            Some(Node::Document { key: other, hash: theirs }) => {
                let mut sides = [None, None];
                if let Some(side) = sides.get_mut(bit(&other, depth)) {
                    *side = Some(Node::Document { key: other, hash: theirs });
                }
                Node::with(Some(Node::Fork { hash: None, sides: Box::new(sides) }), depth, key, hash)
            }
            Some(Node::Fork { mut sides, .. }) => {
                if let Some(side) = sides.get_mut(bit(&key, depth)) {
                    *side = Some(Node::with(side.take(), depth + 1, key, hash));
                }
                Node::Fork { hash: None, sides }
            }
        }
    }

    fn hash(&mut self) -> Digest {
        match self {
            Node::Document { hash, .. } | Node::Fork { hash: Some(hash), .. } => *hash,
            Node::Fork { hash, sides } => {
                let [left, right] = sides.as_mut();
                let of = |side: &mut Option<Node>| side.as_mut().map_or(EMPTY, Node::hash);
                *hash.insert(inner(of(left), of(right)))
            }
        }
    }

    /// Returns the sibling hashes on the way from a document's place to the root.
    fn path(&mut self, depth: usize, key: &Key) -> Option<Vec<Digest>> {
        match self {
            Node::Document { key: other, .. } => (other == key).then(Vec::new),
            Node::Fork { sides, .. } => {
                let at = bit(key, depth);
                let mut path = sides.get_mut(at)?.as_mut()?.path(depth + 1, key)?;
                path.push(sides.get_mut(1 - at)?.as_mut().map_or(EMPTY, Node::hash));
                Some(path)
            }
        }
    }
}

/// The heads of all documents in the leaves read so far.
#[derive(Debug, Clone, Default)]
pub struct Heads {
    size: u64,
    last: Option<EntryId>,
    documents: BTreeMap<Subject, Frontier>,
    map: Option<Node>,
}

impl Heads {
    /// Computes the heads of the first `size` leaves of a log.
    ///
    /// # Errors
    /// The log's error when a leaf cannot be read.
    pub fn at<L: Leaves + ?Sized>(log: &L, size: u64) -> Result<Heads, L::Error> {
        let mut heads = Heads::default();
        heads.go_on_to(log, size)?;
        Ok(heads)
    }

    /// Reads further leaves up to `size`. Starts again from the beginning if the log is not the one read
    /// before.
    ///
    /// # Errors
    /// The log's error when a leaf cannot be read.
    pub fn go_on_to<L: Leaves + ?Sized>(&mut self, log: &L, size: u64) -> Result<(), L::Error> {
        let same = match self.size.checked_sub(1) {
            Some(last) => log.entry_at(last)? == self.last && self.size <= size,
            None => true,
        };
        if !same {
            *self = Heads::default();
        }
        let mut changed: BTreeSet<Subject> = BTreeSet::new();
        while self.size < size {
            let most = usize::try_from(size - self.size).unwrap_or(READ_AT_ONCE).min(READ_AT_ONCE);
            let read = log.subjects_from(self.size, most)?;
            if read.is_empty() {
                break;
            }
            for (entry, about) in read {
                self.size += 1;
                self.last = Some(entry);
                if let Some(about) = about {
                    self.documents.entry(about).or_default().push(entry);
                    changed.insert(about);
                }
            }
        }
        for about in changed {
            let Some(frontier) = self.documents.get(&about) else { continue };
            let key = key_of(about);
            self.map = Some(Node::with(self.map.take(), 0, key, frontier.head().hash(&key)));
        }
        Ok(())
    }

    /// Adds the next leaf of a log that the caller reads.
    pub fn append(&mut self, entry: EntryId, about: Option<Subject>) {
        self.size += 1;
        self.last = Some(entry);
        let Some(about) = about else { return };
        let frontier = self.documents.entry(about).or_default();
        frontier.push(entry);
        let key = key_of(about);
        self.map = Some(Node::with(self.map.take(), 0, key, frontier.head().hash(&key)));
    }

    /// Returns the number of leaves read.
    pub const fn size(&self) -> u64 {
        self.size
    }

    /// Returns what a checkpoint of these leaves commits to.
    pub fn root(&mut self) -> HeadsRoot {
        let root = self.map.as_mut().map_or(EMPTY, Node::hash);
        HeadsRoot { count: self.documents.len() as u64, root }
    }

    /// Returns a document's head and the path from it to the root, or `None` if the log has no entry about
    /// it.
    pub fn proof(&mut self, about: Subject) -> Option<(Head, Vec<Digest>)> {
        let head = self.documents.get(&about)?.head();
        Some((head, self.map.as_mut()?.path(0, &key_of(about))?))
    }

    /// Returns every document with its head.
    pub fn all(&self) -> impl Iterator<Item = (Subject, Head)> {
        self.documents.iter().map(|(about, frontier)| (*about, frontier.head()))
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]
    use super::*;
    use crate::ids::VisitId;
    use crate::tree::{merkle, tree_of};

    /// A log with generated entries; entry n is about visit n % visits.
    struct Counted {
        size: u64,
        visits: u8,
        without: Option<u64>,
    }

    fn entry(n: u64) -> EntryId {
        EntryId(Digest::of(&n.to_be_bytes()).0)
    }

    fn visit(n: u8) -> Subject {
        Subject::Visit(VisitId([n; 16]))
    }

    impl Leaves for Counted {
        type Error = std::convert::Infallible;

        fn entry_at(&self, number: u64) -> Result<Option<EntryId>, Self::Error> {
            Ok((number < self.size).then_some(entry(number)))
        }
        fn subjects_from(
            &self,
            from: u64,
            most: usize,
        ) -> Result<Vec<(EntryId, Option<Subject>)>, Self::Error> {
            let all = from..self.size.min(from + most as u64);
            let about =
                |n: u64| Some(visit((n % u64::from(self.visits)) as u8)).filter(|_| self.without != Some(n));
            Ok(all.map(|n| (entry(n), about(n))).collect())
        }
    }

    fn log(size: u64, visits: u8) -> Counted {
        Counted { size, visits, without: None }
    }

    #[test]
    fn a_head_counts_its_entries_and_hashes_them_as_receipts_do() {
        for count in 0..40 {
            let entries: Vec<EntryId> = (0..count).map(entry).collect();
            let head = Head::of(&entries);
            assert_eq!(head.count, count);
            assert!(tree_of(&entries).is_none_or(|root| root == head.root));
            let leaves: Vec<Digest> = entries.iter().map(|e| merkle::leaf_hash(&e.0)).collect();
            assert_eq!(head.root, merkle::root(&leaves));
        }
    }

    #[test]
    fn every_document_is_proven_and_no_other_head_of_it() {
        for (size, visits) in [(1, 1), (2, 2), (500, 3), (700, 200)] {
            let mut heads = Heads::at(&log(size, visits), size).unwrap();
            let root = heads.root();
            assert_eq!(root.count, u64::from(visits).min(size));
            for n in 0..visits {
                let (head, path) = heads.proof(visit(n)).unwrap();
                assert_eq!(root_by_path(visit(n), head, &path), Some(root.root));
                let fewer = Head { count: head.count - 1, ..head };
                assert_ne!(root_by_path(visit(n), fewer, &path), Some(root.root));
                assert_ne!(root_by_path(visit(n.wrapping_add(1)), head, &path), Some(root.root));
                if let Some((_, shorter)) = path.split_last() {
                    assert_ne!(root_by_path(visit(n), head, shorter), Some(root.root));
                }
            }
            assert_eq!(heads.proof(visit(255)), None);
        }
        assert_eq!(Heads::default().root(), HeadsRoot { count: 0, root: EMPTY });
        let long = vec![EMPTY; 257];
        assert_eq!(root_by_path(visit(1), Head::of(&[]), &long), None);
    }

    #[test]
    fn going_on_comes_to_what_reading_anew_comes_to() {
        let mut going = Heads::default();
        for size in [1, 2, 7, 8, 100, 5000] {
            going.go_on_to(&log(size, 90), size).unwrap();
            let mut anew = Heads::at(&log(size, 90), size).unwrap();
            assert_eq!((going.size(), going.root()), (size, anew.root()));
        }
        // The ledger was restored from a backup, so the leaves read beyond it are discarded.
        going.go_on_to(&log(50, 90), 50).unwrap();
        assert_eq!(going.root(), Heads::at(&log(50, 90), 50).unwrap().root());
    }

    #[test]
    fn a_leaf_of_which_nothing_is_known_changes_no_head() {
        let mut with = Heads::at(&log(10, 2), 10).unwrap();
        let mut without = Heads::at(&Counted { without: Some(9), ..log(10, 2) }, 10).unwrap();
        assert_eq!(without.proof(visit(1)).unwrap().0.count, 4);
        assert_ne!(with.root(), without.root());
    }

    /// The expected values were computed by `tests/golden/log/heads.py` with Python's hashlib.
    #[test]
    fn the_map_hashes_as_another_program_computes_it() {
        let wanted = include_str!("../../../tests/golden/log/heads.txt");
        let mut lines = wanted.lines();
        for (size, visits) in [(1, 1), (9, 4), (700, 200)] {
            let mut heads = Heads::at(&log(size, visits), size).unwrap();
            assert_eq!(lines.next().unwrap(), format!("{size} {visits} {}", heads.root().root));
        }
    }
}
