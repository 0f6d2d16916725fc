//! The log in the form of tiles (C2SP tlog-tiles): the path and content of each file, and the tree computed
//! from the leaves.
//!
//! A tile holds up to 256 hashes of one level, and an entry bundle the data of up to 256 leaves. Both are
//! files that any web server can serve and that never change once they are full. This module does no IO.
//! Verifying the tiles of another party's log is in `tile_audit`, and writing tiles to a disk in the server's
//! `open_log`.

use crate::ids::Digest;
use crate::tree::merkle::{self, Subtrees, node_hash};

/// The number of hashes in a full tile and of leaves in a full bundle.
pub const FULL: u64 = 256;
/// The name of the file with the newest signed checkpoint.
pub const CHECKPOINT: &str = "checkpoint";
/// The longest leaf that a bundle can hold, in bytes.
pub const LARGEST_LEAF: usize = u16::MAX as usize;
/// The largest possible tile or bundle, in bytes.
pub const LARGEST_FILE: usize = 256 * (2 + LARGEST_LEAF);

/// The content of a tile.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TileKind {
    /// Hashes of complete subtrees of 256^level leaves; on level 0 the hashes of the leaves.
    Hashes(u32),
    /// The data of the leaves.
    Entries,
}

/// The position of a tile or bundle.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Tile {
    /// The kind of content.
    pub kind: TileKind,
    /// The number of the tile in its row, counted from 0.
    pub number: u64,
    /// The number of hashes or leaves it holds, 1 to 256. Fewer than 256 occur only at the right edge.
    pub width: u64,
}

impl Tile {
    /// Returns the path of the tile's file: `tile/<level>/<number>` or `tile/entries/<number>`. The number is
    /// written in groups of three digits, all but the last prefixed with `x`; a partial tile has the suffix
    /// `.p/<width>`.
    pub fn path(&self) -> String {
        let mut rest = self.number / 1000;
        let mut number = format!("{:03}", self.number % 1000);
        while rest > 0 {
            number = format!("x{:03}/{number}", rest % 1000);
            rest /= 1000;
        }
        let row = match self.kind {
            TileKind::Hashes(level) => level.to_string(),
            TileKind::Entries => "entries".to_owned(),
        };
        let part = if self.width == FULL { String::new() } else { format!(".p/{}", self.width) };
        format!("tile/{row}/{number}{part}")
    }

    /// Returns the full tile at the same position, which replaces a partial one once the log has grown.
    pub fn full(self) -> Tile {
        Tile { width: FULL, ..self }
    }
}

/// Returns all rows of hash tiles of a log: for each row its level, the number of full tiles, and the width
/// of the partial tile after them (0 if there is none).
pub fn rows(size: u64) -> Vec<(u32, u64, u64)> {
    (0..8u32)
        .map(|level| (level, size >> (8 * level)))
        .take_while(|(_, hashes)| *hashes > 0)
        .map(|(level, hashes)| (level, hashes / FULL, hashes % FULL))
        .collect()
}

/// Returns the bytes of a tile of hashes, computed from the log's stored subtrees.
///
/// # Errors
/// The error of `tree` if a hash cannot be read.
pub fn hashes<T: Subtrees + ?Sized>(
    tree: &T,
    level: u32,
    number: u64,
    width: u64,
) -> Result<Vec<u8>, T::Error> {
    let mut bytes = Vec::with_capacity(32 * usize::try_from(width).unwrap_or(0));
    for place in number * FULL..number * FULL + width {
        bytes.extend_from_slice(&tree.subtree(8 * level, place)?.0);
    }
    Ok(bytes)
}

/// Appends a leaf's data to a bundle: its length (two bytes, big-endian), then the data. Returns false and
/// appends nothing if the leaf is longer than [`LARGEST_LEAF`] bytes.
#[must_use]
pub fn append_leaf(bundle: &mut Vec<u8>, data: &[u8]) -> bool {
    let Ok(length) = u16::try_from(data.len()) else { return false };
    bundle.extend_from_slice(&length.to_be_bytes());
    bundle.extend_from_slice(data);
    true
}

/// Returns the leaves of a bundle, or `None` if the bundle ends within a leaf.
pub fn leaves_in(bundle: &[u8]) -> Option<Vec<&[u8]>> {
    let (mut rest, mut leaves) = (bundle, Vec::new());
    while let Some((length, behind)) = rest.split_first_chunk::<2>() {
        let (leaf, behind) = behind.split_at_checked(usize::from(u16::from_be_bytes(*length)))?;
        leaves.push(leaf);
        rest = behind;
    }
    rest.is_empty().then_some(leaves)
}

/// A tree that grows by one leaf at a time and keeps only its right edge. It yields the content of the tiles,
/// and the root.
#[derive(Debug, Clone, Default)]
pub struct GrowingTree {
    /// The hashes of the incomplete tile in each row.
    rows: Vec<Vec<Digest>>,
    /// The complete subtrees from left to right, as level and hash.
    edge: Vec<(u32, Digest)>,
    size: u64,
}

impl GrowingTree {
    /// Returns the number of leaves.
    pub fn size(&self) -> u64 {
        self.size
    }

    /// Appends a leaf's hash and returns the tiles that it completes, from the lowest level up.
    pub fn push(&mut self, leaf: Digest) -> Vec<(Tile, Vec<Digest>)> {
        let mut here = (0, leaf);
        while let Some((_, left)) = self.edge.pop_if(|(level, _)| *level == here.0) {
            here = (here.0 + 1, node_hash(left, here.1));
        }
        self.edge.push(here);
        self.size += 1;
        let (mut completed, mut rising) = (Vec::new(), leaf);
        for level in 0.. {
            if self.rows.len() == level {
                self.rows.push(Vec::new());
            }
            let Some(row) = self.rows.get_mut(level) else { break };
            row.push(rising);
            if (row.len() as u64) < FULL {
                break;
            }
            let hashes = std::mem::take(row);
            rising = merkle::root(&hashes);
            let level = u32::try_from(level).unwrap_or(u32::MAX);
            let number = (self.size >> (8 * (level + 1))) - 1;
            completed.push((Tile { kind: TileKind::Hashes(level), number, width: FULL }, hashes));
        }
        completed
    }

    /// Returns the partial tiles at the present right edge, from the lowest level up.
    pub fn partial(&self) -> Vec<(Tile, &[Digest])> {
        let rows = self.rows.iter().zip(0u32..).filter(|(row, _)| !row.is_empty());
        rows.map(|(row, level)| {
            let (number, width) = (self.size >> (8 * (level + 1)), row.len() as u64);
            (Tile { kind: TileKind::Hashes(level), number, width }, row.as_slice())
        })
        .collect()
    }

    /// Returns the root of the present leaves.
    pub fn root(&self) -> Digest {
        let mut edge = self.edge.iter().rev().map(|(_, hash)| *hash);
        let Some(last) = edge.next() else { return merkle::root(&[]) };
        edge.fold(last, |right, left| node_hash(left, right))
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::panic, reason = "a failed unwrap is a failed test")]
    use super::*;
    use crate::tree::merkle::leaf_hash;

    #[test]
    fn paths_are_those_of_the_standards_own_examples() {
        let tile = |number, width| Tile { kind: TileKind::Hashes(0), number, width }.path();
        assert_eq!(tile(1_234_067, 256), "tile/0/x001/x234/067");
        assert_eq!(tile(0, 256), "tile/0/000");
        assert_eq!(tile(999, 1), "tile/0/999.p/1");
        assert_eq!(tile(1000, 255), "tile/0/x001/000.p/255");
        let bundle = Tile { kind: TileKind::Entries, number: 273, width: 112 };
        assert_eq!(bundle.path(), "tile/entries/273.p/112");
        assert_eq!(bundle.full().path(), "tile/entries/273");
    }

    #[test]
    fn a_log_has_the_tiles_the_standard_counts() {
        assert_eq!(rows(70_000), [(0, 273, 112), (1, 1, 17), (2, 0, 1)]);
        assert_eq!(rows(256), [(0, 1, 0), (1, 0, 1)]);
        assert_eq!(rows(0), []);
        assert_eq!(rows(1), [(0, 0, 1)]);
        assert_eq!(rows(u64::MAX).len(), 8);
    }

    struct Plain<'a>(&'a [Digest]);
    impl Subtrees for Plain<'_> {
        type Error = std::convert::Infallible;
        fn subtree(&self, level: u32, place: u64) -> Result<Digest, Self::Error> {
            let from = (place << level) as usize;
            Ok(merkle::root(&self.0[from..from + (1 << level)]))
        }
    }

    #[test]
    fn a_tree_grown_leaf_by_leaf_has_the_tiles_and_the_root_of_the_stored_one() {
        let all: Vec<Digest> = (0..70_000u32).map(|n| leaf_hash(&n.to_be_bytes())).collect();
        let (mut tree, mut full) = (GrowingTree::default(), Vec::new());
        assert_eq!(tree.root(), merkle::root(&[]));
        for (leaf, size) in all.iter().zip(1..) {
            full.extend(tree.push(*leaf));
            if size < 600 || size % 9973 == 0 {
                assert_eq!(tree.root(), merkle::root(&all[..size]), "{size}");
            }
        }
        assert_eq!((tree.size(), tree.root()), (70_000, merkle::root(&all)));
        assert_eq!(full.len(), 273 + 1);
        let partial: Vec<(u64, u64)> =
            tree.partial().iter().map(|(tile, _)| (tile.number, tile.width)).collect();
        assert_eq!(partial, [(273, 112), (1, 17), (0, 1)]);
        let stored = Plain(&all);
        for (tile, row) in full
            .iter()
            .map(|(tile, row)| (tile, row.as_slice()))
            .chain(tree.partial().iter().map(|(tile, row)| (tile, *row)))
        {
            let TileKind::Hashes(level) = tile.kind else { panic!() };
            let bytes = hashes(&stored, level, tile.number, tile.width).unwrap();
            let same = bytes.chunks(32).map(|hash| Digest(hash.try_into().unwrap()));
            assert!(same.eq(row.iter().copied()), "{}", tile.path());
        }
    }

    #[test]
    fn a_bundle_that_ends_within_a_leaf_is_none() {
        let mut bundle = Vec::new();
        for leaf in [&b"one"[..], b"", &[7; 57]] {
            assert!(append_leaf(&mut bundle, leaf));
        }
        assert_eq!(&bundle[..5], b"\0\x03one");
        assert_eq!(leaves_in(&bundle).unwrap(), [&b"one"[..], b"", &[7; 57]]);
        assert_eq!(leaves_in(&[]), Some(Vec::new()));
        for cut in 0..bundle.len() {
            let whole = leaves_in(&bundle[..cut]).map(|leaves| leaves.len());
            assert_eq!(whole, [0, 5, 7].iter().position(|end| *end == cut), "cut at {cut}");
        }
        assert!(!append_leaf(&mut bundle, &[0; 65_536]));
    }
}
