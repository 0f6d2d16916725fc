//! Reading a log through from its tiles, as a stranger does who has nothing but the files and the organisation's key:
//! every leaf, every tile, the root that was signed.
//!
//! Pure: where the files come from is the caller's ([`Shelf`]). Nothing is kept but the right edge of the tree, so a log
//! of any length is read in little memory. What it ends with is the first place that is wrong. Does not live
//! here: fetching from a web server, words on a terminal (the server's `open_log`).

use super::checkpoint::Checkpoint;
use super::tiles::{CHECKPOINT, FULL, GrowingTree, Tile, TileKind, leaves_in};
use crate::clock::UtcMillis;
use crate::entry::Trusts;
use crate::ids::Digest;
use crate::tree::LogLeaf;
use crate::tree::heads::{Heads, HeadsRoot};
use crate::tree::merkle::leaf_hash;

/// Where the files of a log are read.
pub trait Shelf {
    /// A file's bytes; nothing when there is none.
    ///
    /// # Errors
    /// Why it cannot be read, in words.
    fn read(&mut self, path: &str) -> Result<Option<Vec<u8>>, String>;
}

/// Why a log does not hold, or could not be read.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum AuditError {
    /// The first place that is wrong.
    #[error("{path}: {what}")]
    Wrong {
        /// The file.
        path: String,
        /// The leaf's number in the log, where it is about one.
        leaf: Option<u64>,
        /// What is wrong.
        what: String,
    },
    /// A file could not be read, which says nothing about the log.
    #[error("{path} cannot be read: {why}")]
    Unread {
        /// The file.
        path: String,
        /// Why.
        why: String,
    },
}

/// What makes the heads of all documents from the leaves again, to compare them with the checkpoint's `heads` line.
pub trait HeadsCheck {
    /// Takes the next leaf, in the log's order.
    fn leaf(&mut self, leaf: &LogLeaf);
    /// What the leaves make; nothing when that is not checked, or cannot be: a leaf of version one does not say what
    /// its entry is about.
    fn made(&mut self) -> Option<HeadsRoot>;
}

/// Makes the heads again; a log with leaves of version one leaves them unchecked.
#[derive(Debug, Clone, Default)]
pub struct HeadsMade {
    heads: Heads,
    unsaid: bool,
}

impl HeadsCheck for HeadsMade {
    fn leaf(&mut self, leaf: &LogLeaf) {
        self.unsaid |= leaf.about.is_none();
        if !self.unsaid {
            self.heads.append(leaf.entry, leaf.about);
        }
    }

    fn made(&mut self) -> Option<HeadsRoot> {
        (!self.unsaid).then(|| self.heads.root())
    }
}

/// A log that holds.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Audited {
    /// The checkpoint.
    pub checkpoint: Checkpoint,
    /// Its note, as it stands.
    pub note: String,
    /// When the first leaf came in, by the organisation's clock.
    pub first: Option<UtcMillis>,
    /// When the last one did.
    pub last: Option<UtcMillis>,
    /// Whether the heads of all documents were made again from the leaves and are those it commits to.
    pub heads_checked: bool,
}

fn wrong(path: &str, leaf: Option<u64>, what: impl Into<String>) -> AuditError {
    AuditError::Wrong { path: path.to_owned(), leaf, what: what.into() }
}

/// Reads a log through. `against` is a checkpoint seen before, opened: the log must begin with what it said.
/// `progress` is told how many leaves of how many were read.
///
/// # Errors
/// [`AuditError`]; never panics, whatever the files hold.
pub fn audit(
    shelf: &mut dyn Shelf,
    key: &dyn Trusts,
    against: Option<&Checkpoint>,
    heads: &mut dyn HeadsCheck,
    progress: &mut dyn FnMut(u64, u64),
) -> Result<Audited, AuditError> {
    let (checkpoint, note) = checkpoint(shelf, key)?;
    if let Some(seen) = against {
        if seen.origin != checkpoint.origin {
            let what =
                format!("it is of the log {}, the one seen before of {}", checkpoint.origin, seen.origin);
            return Err(wrong(CHECKPOINT, None, what));
        }
        if seen.size > checkpoint.size {
            let what = format!("it has {} entries, the one seen before {}", checkpoint.size, seen.size);
            return Err(wrong(CHECKPOINT, None, what));
        }
    }
    let mut reading = Reading { shelf, tree: GrowingTree::default(), times: None, odd_tile: None };
    let agrees =
        |tree: &GrowingTree, signed: &Checkpoint| tree.size() != signed.size || tree.root() == signed.root;
    let mut held = against.is_none_or(|seen| agrees(&reading.tree, seen));
    let size = checkpoint.size;
    for number in 0..size.div_ceil(FULL) {
        let width = (size - number * FULL).min(FULL);
        let (path, leaves) = reading.bundle(number, width)?;
        for leaf in leaves {
            heads.leaf(&reading.push(&path, &leaf)?);
            held &= against.is_none_or(|seen| agrees(&reading.tree, seen));
        }
        progress(reading.tree.size(), size);
    }
    reading.right_edge()?;
    let root_holds = reading.tree.root() == checkpoint.root;
    if let Some(odd) = reading.odd_tile {
        let which = if root_holds {
            "the entries lead to the signed root, so the tile is wrong"
        } else {
            "the entries do not lead to the signed root"
        };
        return Err(match odd {
            AuditError::Wrong { path, leaf, what } => wrong(&path, leaf, format!("{what}; {which}")),
            unread @ AuditError::Unread { .. } => unread,
        });
    }
    if !root_holds {
        return Err(wrong(CHECKPOINT, None, "entries and tiles agree with each other and not with its root"));
    }
    if !held {
        let what = "the log does not begin with what the checkpoint seen before said: it was rewritten";
        return Err(wrong(CHECKPOINT, None, what));
    }
    let (first, last) = reading.times.unzip();
    let heads_checked = match (checkpoint.heads, heads.made()) {
        (Some(signed), Some(made)) if signed != made => {
            let what = format!(
                "it commits to {} documents as a whole, the entries make {} others",
                signed.count, made.count
            );
            return Err(wrong(CHECKPOINT, None, what));
        }
        (Some(_), Some(_)) => true,
        _ => false,
    };
    Ok(Audited { checkpoint, note, first, last, heads_checked })
}

fn checkpoint(shelf: &mut dyn Shelf, key: &dyn Trusts) -> Result<(Checkpoint, String), AuditError> {
    let unread = |why: String| AuditError::Unread { path: CHECKPOINT.to_owned(), why };
    let bytes = shelf.read(CHECKPOINT).map_err(unread)?;
    let bytes = bytes.ok_or_else(|| wrong(CHECKPOINT, None, "it is not there"))?;
    let note = String::from_utf8(bytes).map_err(|_| wrong(CHECKPOINT, None, "it is no text"))?;
    let checkpoint = Checkpoint::open(&note, key).map_err(|why| wrong(CHECKPOINT, None, why.to_string()))?;
    Ok((checkpoint, note))
}

/// A log half read.
struct Reading<'s> {
    shelf: &'s mut dyn Shelf,
    tree: GrowingTree,
    /// The first leaf's and the last one's.
    times: Option<(UtcMillis, UtcMillis)>,
    /// The first tile that is not what the entries hash to.
    odd_tile: Option<AuditError>,
}

impl Reading<'_> {
    /// A tile's or bundle's file, and whether it is the full one in the place of a partial one: the log may have
    /// grown on since the checkpoint.
    fn file(&mut self, tile: Tile) -> Result<(String, Vec<u8>, bool), AuditError> {
        for place in [tile, tile.full()] {
            let path = place.path();
            match self.shelf.read(&path) {
                Ok(Some(bytes)) => return Ok((path, bytes, place != tile)),
                Ok(None) => {}
                Err(why) => return Err(AuditError::Unread { path, why }),
            }
        }
        Err(wrong(&tile.path(), None, "it is not there"))
    }

    fn bundle(&mut self, number: u64, width: u64) -> Result<(String, Vec<Vec<u8>>), AuditError> {
        let (path, bytes, grown) = self.file(Tile { kind: TileKind::Entries, number, width })?;
        let leaves = leaves_in(&bytes).ok_or_else(|| wrong(&path, None, "it ends within an entry"))?;
        let (found, wanted) = (leaves.len() as u64, if grown { FULL } else { width });
        if found != wanted {
            let what = format!("it holds {found} entries, {wanted} belong in it");
            return Err(wrong(&path, None, what));
        }
        let taken = usize::try_from(width).unwrap_or(usize::MAX);
        let leaves = leaves.into_iter().take(taken).map(<[u8]>::to_vec).collect();
        Ok((path, leaves))
    }

    fn push(&mut self, path: &str, leaf: &[u8]) -> Result<LogLeaf, AuditError> {
        let at = self.tree.size();
        let Some(read) = LogLeaf::from_bytes(leaf) else {
            let what = format!("entry {at} has {} bytes, which is no entry of such a log", leaf.len());
            return Err(wrong(path, Some(at), what));
        };
        let time = read.received_at;
        match &mut self.times {
            Some((_, last)) if time < *last => {
                let what = format!(
                    "the time falls at entry {at}: received {}, the one before it {}",
                    time.rfc3339(),
                    last.rfc3339()
                );
                return Err(wrong(path, Some(at), what));
            }
            Some((_, last)) => *last = time,
            None => self.times = Some((time, time)),
        }
        for (tile, hashes) in self.tree.push(leaf_hash(leaf)) {
            self.compare(tile, &hashes)?;
        }
        Ok(read)
    }

    fn right_edge(&mut self) -> Result<(), AuditError> {
        let tree = std::mem::take(&mut self.tree);
        for (tile, hashes) in tree.partial() {
            self.compare(tile, hashes)?;
        }
        self.tree = tree;
        Ok(())
    }

    /// Compares a tile with what the entries hash to. The first that differs is kept: which of the two is wrong, the
    /// root tells at the end.
    fn compare(&mut self, tile: Tile, hashes: &[Digest]) -> Result<(), AuditError> {
        let (path, bytes, grown) = self.file(tile)?;
        if self.odd_tile.is_some() {
            return Ok(());
        }
        let wanted = if grown { FULL } else { tile.width };
        if bytes.len() as u64 != wanted * 32 {
            let what = format!("it has {} bytes, {} belong in it", bytes.len(), wanted * 32);
            return Err(wrong(&path, None, what));
        }
        let differs = hashes.iter().zip(bytes.chunks(32)).position(|(hash, found)| hash.0 != found);
        let Some(at) = differs else { return Ok(()) };
        let (place, level) = (tile.number * FULL + at as u64, tile.kind);
        let (what, leaf) = match level {
            TileKind::Hashes(1..) => {
                (format!("its hash {at} is not that of the full tile {place} below it"), None)
            }
            _ => {
                let bundle = Tile { kind: TileKind::Entries, ..tile }.path();
                (format!("its hash {at} is not that of entry {place} in {bundle}"), Some(place))
            }
        };
        self.odd_tile = Some(wrong(&path, leaf, what));
        Ok(())
    }
}

#[cfg(test)]
#[path = "tile_audit_tests.rs"]
mod tests;
