//! The ledger, which holds every entry of the office. The trait allows other databases; the default is the
//! core's SQLite store in one file.

use std::path::Path;

use farsiding_core::ids::Randomness;
use farsiding_core::store::{Durability, SqliteStore, Store, StoreError, Write};

use tempfile::TempDir;

use super::reading;
use farsiding_host::private_file;

/// The operations of a ledger. Calls block and are made one at a time from blocking threads. When a commit
/// returns, its data is on the disk.
pub trait Ledger: Send {
    /// Returns the store of entries, changes, certificates and photographs, for writing.
    fn store_mut(&mut self) -> &mut dyn Store;
    /// Returns the store for reading.
    fn store(&self) -> &dyn Store;
}

/// A ledger in one SQLite file.
#[derive(Debug)]
pub struct SqliteLedger {
    store: SqliteStore,
    /// The temporary folder with an upgraded copy of a write-protected file of an earlier version. The folder
    /// is removed with this value.
    _copy: Option<TempDir>,
}

impl SqliteLedger {
    /// Opens the file, or creates it.
    ///
    /// # Errors
    /// Returns a [`StoreError`] when the ledger's store fails.
    pub fn open(file: &Path) -> Result<SqliteLedger, StoreError> {
        let path = file.to_str().ok_or_else(|| StoreError::Database("the path is not UTF-8".into()))?;
        private_file::make_private(file).map_err(|e| StoreError::NoPlace(e.to_string()))?;
        Ok(SqliteLedger { store: SqliteStore::open(path, Durability::WriteAheadLog)?, _copy: None })
    }

    /// Opens the file normally, or only for reading if it is write-protected.
    ///
    /// # Errors
    /// Returns a [`StoreError`] when the ledger's store fails.
    pub fn open_to_read(file: &Path) -> Result<SqliteLedger, StoreError> {
        if !reading::is_write_protected(file) {
            return SqliteLedger::open(file);
        }
        if let Some(store) = reading::store(file)? {
            return Ok(SqliteLedger { store, _copy: None });
        }
        let no_place = |e: std::io::Error| StoreError::NoPlace(e.to_string());
        let folder = tempfile::tempdir().map_err(no_place)?;
        let copy = folder.path().join("ledger.db");
        private_file::make_private(&copy).map_err(no_place)?;
        let mut from = std::fs::File::open(file).map_err(no_place)?;
        let mut to = std::fs::OpenOptions::new().write(true).open(&copy).map_err(no_place)?;
        std::io::copy(&mut from, &mut to).map_err(no_place)?;
        Ok(SqliteLedger { _copy: Some(folder), ..SqliteLedger::open(&copy)? })
    }
}

impl Ledger for SqliteLedger {
    fn store_mut(&mut self) -> &mut dyn Store {
        &mut self.store
    }

    fn store(&self) -> &dyn Store {
        &self.store
    }
}

const EPOCH: &str = "server/epoch";

/// Returns the ledger's random name, by which devices notice that the ledger is not the one they last read.
///
/// `reached` is how far the ledger had been written, as remembered by the office database. A ledger that ends
/// before that position was restored from a backup, and takes a new name.
///
/// # Errors
/// Returns a [`StoreError`] when the ledger's store fails.
pub fn epoch_of(
    store: &mut dyn Store,
    reached: u64,
    randomness: &mut dyn Randomness,
) -> Result<u64, StoreError> {
    let known = store.value(EPOCH)?.and_then(|v| v.try_into().ok()).map(u64::from_be_bytes);
    match known {
        Some(epoch) if store.newest_position()? >= reached => Ok(epoch),
        _ => rename(store, randomness),
    }
}

/// Gives the ledger a new random name and returns it.
///
/// # Errors
/// Returns a [`StoreError`] when the ledger's store fails.
pub fn rename(store: &mut dyn Store, randomness: &mut dyn Randomness) -> Result<u64, StoreError> {
    let mut bytes = [0u8; 8];
    randomness.fill(&mut bytes);
    store.commit(&[Write::Value { key: EPOCH, value: &bytes }])?;
    Ok(u64::from_be_bytes(bytes))
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]
    use super::*;
    use farsiding_core::store::MemoryStore;

    struct Counting(u8);
    impl Randomness for Counting {
        fn fill(&mut self, bytes: &mut [u8]) {
            self.0 += 1;
            bytes.fill(self.0);
        }
    }

    #[test]
    fn a_ledger_keeps_its_name_until_it_comes_back_from_a_backup() {
        let (mut store, mut dice) = (MemoryStore::new(), Counting(0));
        let first = epoch_of(&mut store, 0, &mut dice).unwrap();
        assert_eq!(epoch_of(&mut store, 0, &mut dice).unwrap(), first);
        let after_backup = epoch_of(&mut store, 17, &mut dice).unwrap();
        assert_ne!(after_backup, first, "the register remembers position 17, the ledger ends before it");
    }
}
