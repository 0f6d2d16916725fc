//! Reads an office's databases where nothing may be written: on a write-protected disk, or in a folder of
//! another owner. No file is created beside them, not even SQLite's temporary ones.
//!
//! Called by exports and by `check`. A process that may write opens the databases normally.

use std::io;
use std::path::{Path, PathBuf};

use farsiding_core::store::{SqliteStore, StoreError, uri_to_read};

use farsiding_host::private_file::folder_of;

/// Returns whether an existing file or its folder is write-protected for this process.
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

/// Returns whether SQLite must ignore the files beside the database, because it cannot create any there.
fn stands_alone(file: &Path) -> io::Result<bool> {
    if !is_write_protected(file) {
        return Ok(false);
    }
    let log = std::fs::metadata(beside(file, "-wal")).map_or(0, |found| found.len());
    if log == 0 {
        return Ok(true);
    }
    if beside(file, "-shm").exists() {
        return Ok(false); // both files can be read unchanged
    }
    Err(io::Error::other(
        "it is write-protected, and what was written last still stands in the -wal file beside it; copy both into a \
         folder that can be written to, or take a backup",
    ))
}

/// Returns the URI by which SQLite opens a database for reading.
///
/// # Errors
/// Returns an error when the most recently written data cannot be read.
pub fn uri(file: &Path) -> io::Result<String> {
    let path = file.to_str().ok_or_else(|| io::Error::other("the path is not UTF-8"))?;
    Ok(uri_to_read(path, stands_alone(file)?))
}

/// Returns the ledger's store for reading, or `None` if an earlier version wrote it.
///
/// # Errors
/// Returns a [`StoreError`] when the ledger's store fails.
pub fn store(file: &Path) -> Result<Option<SqliteStore>, StoreError> {
    let unread = |why: io::Error| StoreError::NoPlace(why.to_string());
    let path = file.to_str().ok_or_else(|| StoreError::NoPlace("the path is not UTF-8".to_owned()))?;
    SqliteStore::open_to_read(path, stands_alone(file).map_err(unread)?)
}
