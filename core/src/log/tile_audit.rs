//! Verification of a whole log from its tiles, as an outsider does it with only the files and the
//! organisation's key: every leaf, every tile, and the signed root.
//!
//! The verification does no IO; the caller supplies the files through [`Shelf`]. Only the right edge of the
//! tree is kept, so a log of any length needs little memory. A failed verification reports the first wrong
//! place. Downloading from a web server and output on a terminal are in the server's `open_log`.

use super::checkpoint::Checkpoint;
use super::tiles::{CHECKPOINT, FULL, GrowingTree, Tile, TileKind, leaves_in};
use crate::clock::UtcMillis;
use crate::entry::{KeyStanding, OrganisationKeys, SignedUpTo, WhyWithdrawn};
use crate::ids::Digest;
use crate::tree::LogLeaf;
use crate::tree::heads::{Heads, HeadsRoot};
use crate::tree::merkle::leaf_hash;

/// The source of a log's files.
pub trait Shelf {
    /// Returns a file's bytes, or `None` if the file does not exist.
    ///
    /// # Errors
    /// A text that tells why the file cannot be read.
    fn read(&mut self, path: &str) -> Result<Option<Vec<u8>>, String>;
}

/// The reason why a log is not valid or could not be read.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum AuditError {
    /// The first wrong place.
    #[error("{path}: {what}")]
    Wrong {
        /// The path of the file.
        path: String,
        /// The leaf's number in the log, if the fault concerns one leaf.
        leaf: Option<u64>,
        /// What is wrong.
        what: String,
    },
    /// A file could not be read, which proves nothing about the log.
    #[error("{path} cannot be read: {why}")]
    Unread {
        /// The path of the file.
        path: String,
        /// The reason.
        why: String,
    },
}

/// A computation of the heads of all documents from the leaves, for comparison with the checkpoint's `heads`
/// line.
pub trait HeadsCheck {
    /// Adds the next leaf in the order of the log.
    fn leaf(&mut self, leaf: &LogLeaf);
    /// Returns the result, or `None` if the heads are not checked or cannot be: a leaf of version one has no
    /// subject.
    fn made(&mut self) -> Option<HeadsRoot>;
}

/// Computes the heads. The heads of a log with leaves of version one remain unchecked.
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

/// The result for a valid log.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Audited {
    /// The newest checkpoint.
    pub checkpoint: Checkpoint,
    /// The checkpoint's signed note.
    pub note: String,
    /// The arrival time of the first leaf by the organisation's clock.
    pub first: Option<UtcMillis>,
    /// The arrival time of the last leaf.
    pub last: Option<UtcMillis>,
    /// Whether the heads of all documents were computed from the leaves and equal those in the checkpoint.
    pub heads_checked: bool,
}

fn wrong(path: &str, leaf: Option<u64>, what: impl Into<String>) -> AuditError {
    AuditError::Wrong { path: path.to_owned(), leaf, what: what.into() }
}

/// Verifies a log. `against` is an opened checkpoint seen before; the log must begin with the leaves that it
/// commits to. It must also pass through whatever the root vouched for when it withdrew a key, and a checkpoint by
/// a stolen key counts only if it is the very one that the root vouched for. `progress` receives the number of leaves read and their total.
///
/// # Errors
/// [`AuditError`]. The function does not panic on any content of the files.
pub fn audit(
    shelf: &mut dyn Shelf,
    keys: &OrganisationKeys,
    against: Option<&Checkpoint>,
    heads: &mut dyn HeadsCheck,
    progress: &mut dyn FnMut(u64, u64),
) -> Result<Audited, AuditError> {
    let (checkpoint, note) = checkpoint(shelf, keys)?;
    let vouched = vouched_for(keys, &checkpoint);
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
    let passes =
        |tree: &GrowingTree, up_to: &SignedUpTo| tree.size() != up_to.size || tree.root() == up_to.root;
    let mut missed = vouched.iter().find(|up_to| !passes(&reading.tree, up_to));
    let size = checkpoint.size;
    for number in 0..size.div_ceil(FULL) {
        let width = (size - number * FULL).min(FULL);
        let (path, leaves) = reading.bundle(number, width)?;
        for leaf in leaves {
            heads.leaf(&reading.push(&path, &leaf)?);
            held &= against.is_none_or(|seen| agrees(&reading.tree, seen));
            missed = missed.or_else(|| vouched.iter().find(|up_to| !passes(&reading.tree, up_to)));
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
    if let Some(up_to) = missed {
        let what = format!(
            "the log does not begin with the {} entries that the root vouched for when it withdrew a key",
            up_to.size
        );
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

fn checkpoint(shelf: &mut dyn Shelf, keys: &OrganisationKeys) -> Result<(Checkpoint, String), AuditError> {
    let unread = |why: String| AuditError::Unread { path: CHECKPOINT.to_owned(), why };
    let bytes = shelf.read(CHECKPOINT).map_err(unread)?;
    let bytes = bytes.ok_or_else(|| wrong(CHECKPOINT, None, "it is not there"))?;
    let note = String::from_utf8(bytes).map_err(|_| wrong(CHECKPOINT, None, "it is no text"))?;
    let (key, checkpoint) =
        Checkpoint::open_signed(&note, keys).map_err(|why| wrong(CHECKPOINT, None, why.to_string()))?;
    if let KeyStanding::Withdrawn { why: WhyWithdrawn::Stolen, checkpoint: up_to, .. } =
        keys.standing(&key, UtcMillis(i64::MAX))
        && up_to.is_none_or(|up_to| up_to.size != checkpoint.size)
    {
        let what = format!(
            "{key}, which signed it, was withdrawn as stolen, and the root does not vouch for these {} entries",
            checkpoint.size
        );
        return Err(wrong(CHECKPOINT, None, what));
    }
    Ok((checkpoint, note))
}

/// Returns the beginnings of this log that the root vouched for when it withdrew keys.
fn vouched_for(keys: &OrganisationKeys, checkpoint: &Checkpoint) -> Vec<SignedUpTo> {
    let of_key = |key| match keys.standing(key, UtcMillis(i64::MAX)) {
        KeyStanding::Withdrawn { checkpoint, .. } => checkpoint,
        _ => None,
    };
    let all = keys.known().iter().filter_map(|known| of_key(&known.key));
    all.filter(|up_to| up_to.origin == checkpoint.origin && up_to.size <= checkpoint.size).collect()
}

/// A verification in progress.
struct Reading<'s> {
    shelf: &'s mut dyn Shelf,
    tree: GrowingTree,
    /// The times of the first and the last leaf.
    times: Option<(UtcMillis, UtcMillis)>,
    /// The first tile that differs from the hashes of the entries.
    odd_tile: Option<AuditError>,
}

impl Reading<'_> {
    /// Reads the file of a tile or bundle. Also returns whether a full one was found in place of a partial
    /// one, which happens if the log has grown since the checkpoint.
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

    /// Compares a tile with the hashes of the entries. The first difference is recorded; the root shows at
    /// the end which of the two is wrong.
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
