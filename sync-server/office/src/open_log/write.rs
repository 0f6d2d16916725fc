//! Writes the log's files into a folder. Only new files are written, each atomically, and the checkpoint
//! comes last.

use std::path::{Path, PathBuf};

use farsiding_core::entry::{OrganisationKeys, Trusts};
use farsiding_core::evidence::tiles::{self, CHECKPOINT, FULL, Tile, TileKind, append_leaf};
use farsiding_core::evidence::{Checkpoint, merkle};
use farsiding_core::store::{LogRows, Store, StoreError};

use super::KEYS;
use crate::key_files;
use farsiding_host::whole_file;

/// Why the files were not written.
#[derive(Debug, thiserror::Error)]
pub enum OpenLogError {
    /// The ledger failed.
    #[error(transparent)]
    Ledger(#[from] StoreError),
    /// The disk failed.
    #[error("{path}: {why}")]
    Disk {
        /// The path of the file or folder.
        path: PathBuf,
        /// The cause.
        why: std::io::Error,
    },
    /// The ledger's own checkpoint cannot be opened.
    #[error("the ledger's checkpoint cannot be used: {0}")]
    Checkpoint(String),
    /// The folder holds something else.
    #[error("{0}")]
    Folder(String),
}

/// What was written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Written {
    /// The number of entries in the published log now.
    pub size: u64,
    /// The number of entries in the published log before.
    pub before: u64,
    /// The number of files written, including the checkpoint.
    pub files: u64,
}

/// Writes the log of the checkpoint in `note` into `folder`. `progress` is called with the number of finished
/// tiles and their total. A reader who comes meanwhile finds the log in its earlier state.
///
/// # Errors
/// Returns an [`OpenLogError`]; the folder then still holds the complete earlier log.
pub fn write_tiles(
    store: &dyn Store,
    keys: &OrganisationKeys,
    note: &str,
    folder: &Path,
    progress: &mut dyn FnMut(u64, u64),
) -> Result<Written, OpenLogError> {
    let checkpoint = Checkpoint::open(note, keys).map_err(|e| OpenLogError::Checkpoint(e.to_string()))?;
    let before = what_is_there(store.log(), keys, &checkpoint, folder)?;
    let mut out = Out { folder, files: 0 };
    let rows = tiles::rows(checkpoint.size);
    let of_each = |(_, full, partial): &(u32, u64, u64)| full + u64::from(*partial > 0);
    let total = rows.iter().map(of_each).sum::<u64>() + rows.first().map_or(0, of_each);
    let (mut looked_at, mut filled) = (0, Vec::new());
    for (level, full, partial) in rows {
        let already = before >> (8 * level);
        let mut kinds = vec![TileKind::Hashes(level)];
        kinds.extend((level == 0).then_some(TileKind::Entries));
        for kind in kinds {
            let fulls = (0..full).map(|number| Tile { kind, number, width: FULL });
            let edge = (partial > 0).then_some(Tile { kind, number: full, width: partial });
            for tile in fulls.chain(edge) {
                let written = tile.number * FULL + tile.width <= already;
                if !(written && folder.join(tile.path()).is_file()) {
                    out.write(&tile.path(), &bytes_of(store.log(), tile)?)?;
                    filled.extend((tile.width == FULL).then_some(tile));
                }
                looked_at += 1;
                progress(looked_at, total);
            }
        }
    }
    // The statements come first: the checkpoint may be signed by a key that they name.
    if keys.count() > 0 {
        out.write_if_other(KEYS, key_files::statements_text(keys).as_bytes())?;
    }
    out.write_if_other(CHECKPOINT, note.as_bytes())?;
    // A partial tile is no longer referred to once the full tile exists.
    for tile in filled {
        let partial = folder.join(format!("{}.p", tile.path()));
        if partial.is_dir() {
            std::fs::remove_dir_all(&partial).map_err(|why| OpenLogError::Disk { path: partial, why })?;
        }
    }
    Ok(Written { size: checkpoint.size, before, files: out.files })
}

/// Returns the number of entries of the log in the folder. That log must be the beginning of this one.
fn what_is_there(
    rows: &dyn LogRows,
    key: &dyn Trusts,
    checkpoint: &Checkpoint,
    folder: &Path,
) -> Result<u64, OpenLogError> {
    let disk = |why| OpenLogError::Disk { path: folder.to_owned(), why };
    let shown = folder.display();
    std::fs::create_dir_all(folder).map_err(disk)?;
    let note = match std::fs::read_to_string(folder.join(CHECKPOINT)) {
        Ok(note) => note,
        Err(e) if e.kind() == std::io::ErrorKind::NotFound => {
            let mut others = Vec::new();
            for item in std::fs::read_dir(folder).map_err(disk)? {
                others.push(item.map_err(disk)?.file_name());
            }
            // A first run that was interrupted leaves its tiles behind.
            if others.iter().all(|name| name == "tile" || name == KEYS) {
                return Ok(0);
            }
            let what = format!("{shown} holds other things and no log: give a new or an empty folder");
            return Err(OpenLogError::Folder(what));
        }
        Err(why) => return Err(disk(why)),
    };
    let other = |why: String| {
        OpenLogError::Folder(format!(
            "{shown} does not hold the beginning of this log: {why}. Nothing was written"
        ))
    };
    let there = Checkpoint::open(&note, key).map_err(|e| other(e.to_string()))?;
    if there.origin != checkpoint.origin {
        let why =
            format!("it is of the log {}, this is {}; give a new folder", there.origin, checkpoint.origin);
        return Err(other(why));
    }
    if there.size > checkpoint.size {
        return Err(other(format!("it has {} entries, this log {}", there.size, checkpoint.size)));
    }
    if merkle::stored_root(rows, there.size)? != there.root {
        return Err(other(format!("its {} entries are not the first ones here", there.size)));
    }
    Ok(there.size)
}

fn bytes_of(rows: &dyn LogRows, tile: Tile) -> Result<Vec<u8>, StoreError> {
    let TileKind::Hashes(level) = tile.kind else {
        let mut bundle = Vec::new();
        for number in tile.number * FULL..tile.number * FULL + tile.width {
            let lacking = || StoreError::Database(format!("the log lacks its leaf {number}"));
            let leaf = rows.leaf(number)?.ok_or_else(lacking)?;
            if !append_leaf(&mut bundle, &leaf.to_bytes()) {
                return Err(lacking());
            }
        }
        return Ok(bundle);
    };
    tiles::hashes(rows, level, tile.number, tile.width)
}

struct Out<'f> {
    folder: &'f Path,
    files: u64,
}

impl Out<'_> {
    /// Writes a file unless it has this content.
    fn write_if_other(&mut self, path: &str, bytes: &[u8]) -> Result<(), OpenLogError> {
        if std::fs::read(self.folder.join(path)).ok().as_deref() == Some(bytes) {
            return Ok(());
        }
        self.write(path, bytes)
    }

    fn write(&mut self, path: &str, bytes: &[u8]) -> Result<(), OpenLogError> {
        let path = self.folder.join(path);
        let above = path.parent().unwrap_or(self.folder);
        let written = std::fs::create_dir_all(above).and_then(|()| whole_file::write(&path, bytes));
        written.map_err(|why| OpenLogError::Disk { path, why })?;
        self.files += 1;
        Ok(())
    }
}
