//! Reading an office's databases where nothing may be written: a copy on a write-protected disk, a folder of another
//! owner. Nothing is made beside them, not even what SQLite would make for a moment.
//!
//! Called by exports and by `check`. Whoever may write opens them as always.

use std::io;
use std::path::{Path, PathBuf};

use farsiding_core::store::{SqliteStore, StoreError, uri_to_read};

use farsiding_host::private_file::folder_of;

/// Whether a file that is there, or its folder, cannot be written to by this process.
pub fn is_write_protected(file: &Path) -> bool {
    #[cfg(unix)]
    {
        use rustix::fs::{Access, access};
        let refused = |path: &Path| access(path, Access::WRITE_OK).is_err();
        file.exists() && (refused(file) || refused(folder_of(file)))
    }
    #[cfg(not(unix))]
    {
        let readonly =
            |path: &Path| std::fs::metadata(path).is_ok_and(|found| found.permissions().readonly());
        readonly(file) || readonly(folder_of(file))
    }
}

fn beside(file: &Path, end: &str) -> PathBuf {
    let mut name = file.as_os_str().to_owned();
    name.push(end);
    PathBuf::from(name)
}

/// Whether nothing beside the file is to be looked at, because nothing could be made there.
fn stands_alone(file: &Path) -> io::Result<bool> {
    if !is_write_protected(file) {
        return Ok(false);
    }
    let log = std::fs::metadata(beside(file, "-wal")).map_or(0, |found| found.len());
    if log == 0 {
        return Ok(true);
    }
    if beside(file, "-shm").exists() {
        return Ok(false); // both can be read as they are
    }
    Err(io::Error::other(
        "it is write-protected, and what was written last still stands in the -wal file beside it; copy both into a \
         folder that can be written to, or take a backup",
    ))
}

/// The address by which SQLite opens a database for reading.
///
/// # Errors
/// When what was written last cannot be read.
pub fn uri(file: &Path) -> io::Result<String> {
    let path = file.to_str().ok_or_else(|| io::Error::other("the path is not UTF-8"))?;
    Ok(uri_to_read(path, stands_alone(file)?))
}

/// The ledger's store for reading; nothing where an earlier version wrote it.
///
/// # Errors
/// [`StoreError`].
pub fn store(file: &Path) -> Result<Option<SqliteStore>, StoreError> {
    let unread = |why: io::Error| StoreError::NoPlace(why.to_string());
    let path = file.to_str().ok_or_else(|| StoreError::NoPlace("the path is not UTF-8".to_owned()))?;
    SqliteStore::open_to_read(path, stands_alone(file).map_err(unread)?)
}
