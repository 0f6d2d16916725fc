//! The index: the list of all stays and the means to search it, in a file of its own beside the ledger.
//!
//! All of the index is derived from the ledger. The file is built again when it is missing or belongs to
//! another version or another ledger. It is updated after every sync, outside the ledger's lock. The files of
//! this folder update the index (`keeper`), query it (`finding`), fold a stay (`fold`), read the ledger
//! (`ledger_reader`) and find gaps in devices' chains (`chains`). What a page shows is in `pages`.

pub mod chains;
pub mod finding;
pub mod fold;
mod indexer;
pub mod ledger_reader;
mod near_misses;
mod row;

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicU64, Ordering};
use std::sync::{Mutex, PoisonError, RwLock};
use std::time::Duration;

use farsiding_core::entry::PublicKey;
use farsiding_core::ids::VisitId;
use farsiding_core::procedure::Procedures;
use farsiding_core::view::Formulas;
use rusqlite::Connection;

use crate::ledger::LedgerPlace;
use ledger_reader::LedgerReader;
pub use row::IndexRow;

/// The version of the index. It is raised whenever the content of the index changes its meaning.
const VERSION: &str = concat!("4, facts 3 of ", env!("CARGO_PKG_VERSION"));

/// Why the index could not be updated or queried.
#[derive(Debug, thiserror::Error)]
pub enum IndexError {
    /// The database refused the operation or failed.
    #[error("the index or the ledger beneath it failed: {0}")]
    Database(#[from] rusqlite::Error),
    /// The ledger cannot be read.
    #[error("the ledger beneath the index failed: {0}")]
    Ledger(#[from] farsiding_core::store::StoreError),
    /// A row cannot be read; the index is then built again.
    #[error("a line of the index cannot be read: {0}")]
    IndexRow(#[from] serde_json::Error),
    /// The file cannot be used.
    #[error("the index's file cannot be used: {0}")]
    File(#[from] std::io::Error),
    /// A folding thread stopped.
    #[error("folding a stay stopped unexpectedly")]
    Stopped,
}

/// The index of an office.
#[derive(Debug)]
pub struct Index {
    ledger: LedgerPlace,
    key: PublicKey,
    procedures: Procedures,
    formulas: Formulas,
    /// The only connection that writes.
    keeping: Mutex<Connection>,
    /// The connections for reading, each with one to the ledger. Their number is the largest number that was
    /// in use at the same time.
    reading: Mutex<Vec<(Connection, LedgerReader)>>,
    file: PathBuf,
    behind: AtomicU64,
    /// The visits that are hidden from lists.
    left_out: RwLock<BTreeSet<VisitId>>,
}

/// One connection to the index and one to the ledger, for the duration of a query.
pub struct Asking<'i> {
    /// The connection to the index.
    pub index: &'i Connection,
    /// The connection to the ledger.
    pub ledger: &'i LedgerReader,
    whole: &'i Index,
}

impl std::fmt::Debug for Asking<'_> {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Asking").finish_non_exhaustive()
    }
}

fn connect(file: &Path) -> Result<Connection, IndexError> {
    farsiding_host::private_file::make_private(file)?;
    let connection = Connection::open(file)?;
    connection.busy_timeout(Duration::from_secs(10))?;
    connection.pragma_update(None, "journal_mode", "WAL")?;
    // If a power failure loses the newest rows, only a few stays must be folded again.
    connection.pragma_update(None, "synchronous", "NORMAL")?;
    connection.pragma_update(None, "cache_size", -32_000)?;
    connection.set_prepared_statement_cache_capacity(64);
    Ok(connection)
}

fn remove(file: &Path) -> Result<(), IndexError> {
    for tail in ["", "-wal", "-shm"] {
        let mut path = file.as_os_str().to_owned();
        path.push(tail);
        match std::fs::remove_file(&path) {
            Err(error) if error.kind() != std::io::ErrorKind::NotFound => return Err(error.into()),
            _ => {}
        }
    }
    Ok(())
}

/// Returns whether the file is an index of this version and of this ledger.
fn is_ours(connection: &Connection, ledger: &str) -> bool {
    let value = |key: &str| {
        connection
            .query_row("SELECT value FROM meta WHERE key = ?1", [key], |row| row.get::<_, String>(0))
            .ok()
    };
    value("version").as_deref() == Some(VERSION) && value("ledger").as_deref() == Some(ledger)
}

impl Asking<'_> {
    /// Returns whether a stay is hidden from lists, which is the case if all its visits are hidden.
    pub fn leaves_out(&self, visits: &[VisitId]) -> bool {
        !visits.is_empty() && visits.iter().all(|visit| self.whole.leaves_out(*visit))
    }
}

impl Index {
    /// Opens the index of a ledger, or creates a new one, which is empty until it is updated. `name` tells
    /// this ledger from one that was restored or exchanged.
    ///
    /// # Errors
    /// Returns an [`IndexError`] when the index or the ledger cannot be read.
    pub fn open(file: &Path, ledger: &LedgerPlace, name: &str, key: PublicKey) -> Result<Index, IndexError> {
        let mut connection = connect(file);
        if !connection.as_ref().is_ok_and(|connection| is_ours(connection, name)) {
            drop(connection);
            tracing::info!(
                "the index of stays is missing, of another version or of another ledger: it is made anew"
            );
            remove(file)?;
            let fresh = connect(file)?;
            fresh.execute_batch(include_str!("schema.sql"))?;
            let mut insert = fresh.prepare("INSERT INTO meta(key, value) VALUES(?1, ?2)")?;
            insert.execute(["version", VERSION])?;
            insert.execute(["ledger", name])?;
            drop(insert);
            connection = Ok(fresh);
        }
        let procedures = Procedures::built_in().map_err(|e| std::io::Error::other(e.to_string()))?;
        Ok(Index {
            ledger: ledger.clone(),
            key,
            procedures,
            formulas: Formulas::default(),
            keeping: Mutex::new(connection?),
            reading: Mutex::new(Vec::new()),
            file: file.to_owned(),
            // Before the first comparison with the ledger the index counts as not up to date.
            behind: AtomicU64::new(1),
            left_out: RwLock::default(),
        })
    }

    /// Runs a query on a connection of its own. The call blocks.
    ///
    /// # Errors
    /// Returns an [`IndexError`] when the index or the ledger cannot be read.
    pub fn ask<T>(
        &self,
        question: impl FnOnce(&Asking<'_>) -> Result<T, IndexError>,
    ) -> Result<T, IndexError> {
        let idle = self.reading.lock().unwrap_or_else(PoisonError::into_inner).pop();
        let (index, ledger) = match idle {
            Some(pair) => pair,
            None => (connect(&self.file)?, LedgerReader::open(&self.ledger)?),
        };
        let outcome = question(&Asking { index: &index, ledger: &ledger, whole: self });
        self.reading.lock().unwrap_or_else(PoisonError::into_inner).push((index, ledger));
        outcome
    }

    /// Hides these visits from lists, and shows all others.
    pub fn leave_out(&self, visits: impl IntoIterator<Item = VisitId>) {
        *self.left_out.write().unwrap_or_else(PoisonError::into_inner) = visits.into_iter().collect();
    }

    /// Returns whether a visit is hidden from lists.
    pub fn leaves_out(&self, visit: VisitId) -> bool {
        self.left_out.read().unwrap_or_else(PoisonError::into_inner).contains(&visit)
    }

    /// Returns the number of ledger entries that are not in the index yet, as of the last comparison, plus
    /// the number of stays to be folded again.
    pub fn behind(&self) -> u64 {
        self.behind.load(Ordering::Relaxed)
    }
}
