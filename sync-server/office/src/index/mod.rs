//! The index: which stays there are and how to find them, in a file of its own beside the ledger.
//!
//! Everything in it is derived. It is made again when it is missing, of another version, or of another
//! ledger, and follows the ledger after every sync, outside the ledger's lock. Lives here: keeping it
//! (`keeper`), asking it (`finding`), folding a stay (`fold`), reading the ledger (`ledger_reader`), gaps in
//! devices' chains (`chains`). Does not live here: what a page shows (`pages`).

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

use ledger_reader::LedgerReader;
pub use row::IndexRow;

/// Raised whenever what stands in the index changes its meaning.
const VERSION: &str = concat!("1, facts 1 of ", env!("CARGO_PKG_VERSION"));

/// Why the index could not be kept or asked.
#[derive(Debug, thiserror::Error)]
pub enum IndexError {
    /// The database refused or failed.
    #[error("the index or the ledger beneath it failed: {0}")]
    Database(#[from] rusqlite::Error),
    /// A line that cannot be read: the index is then made again.
    #[error("a line of the index cannot be read: {0}")]
    IndexRow(#[from] serde_json::Error),
    /// The file cannot be used.
    #[error("the index's file cannot be used: {0}")]
    File(#[from] std::io::Error),
    /// A thread that folds stopped.
    #[error("folding a stay stopped unexpectedly")]
    Stopped,
}

/// The index of an office.
#[derive(Debug)]
pub struct Index {
    ledger: PathBuf,
    key: PublicKey,
    procedures: Procedures,
    formulas: Formulas,
    /// The one connection that writes.
    keeping: Mutex<Connection>,
    /// Connections that read, each with one to the ledger; as many as are in use at once.
    reading: Mutex<Vec<(Connection, LedgerReader)>>,
    file: PathBuf,
    behind: AtomicU64,
    /// Visits kept out of lists.
    left_out: RwLock<BTreeSet<VisitId>>,
}

/// One connection to the index and one to the ledger, for the time of a question.
pub struct Asking<'i> {
    /// The index.
    pub index: &'i Connection,
    /// The ledger.
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
    // It can be made again: losing its end in a power cut costs folding a few stays.
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

/// Whether the file is an index of this version and this ledger.
fn is_ours(connection: &Connection, ledger: &str) -> bool {
    let value = |key: &str| {
        connection
            .query_row("SELECT value FROM meta WHERE key = ?1", [key], |row| row.get::<_, String>(0))
            .ok()
    };
    value("version").as_deref() == Some(VERSION) && value("ledger").as_deref() == Some(ledger)
}

impl Asking<'_> {
    /// Whether a stay is left out of lists: all its visits are.
    pub fn leaves_out(&self, visits: &[VisitId]) -> bool {
        !visits.is_empty() && visits.iter().all(|visit| self.whole.leaves_out(*visit))
    }
}

impl Index {
    /// Opens the index of a ledger, or begins a new one; it is then empty until it is brought up to date.
    /// `name` tells this ledger from one restored or exchanged.
    ///
    /// # Errors
    /// [`IndexError`].
    pub fn open(file: &Path, ledger: &Path, name: &str, key: PublicKey) -> Result<Index, IndexError> {
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
            ledger: ledger.to_owned(),
            key,
            procedures,
            formulas: Formulas::default(),
            keeping: Mutex::new(connection?),
            reading: Mutex::new(Vec::new()),
            file: file.to_owned(),
            // Until it has looked once it does not know: it is not up to date.
            behind: AtomicU64::new(1),
            left_out: RwLock::default(),
        })
    }

    /// Runs a question on a connection of its own. Blocking.
    ///
    /// # Errors
    /// [`IndexError`].
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

    /// Leaves these visits out of lists, and no others.
    pub fn leave_out(&self, visits: impl IntoIterator<Item = VisitId>) {
        *self.left_out.write().unwrap_or_else(PoisonError::into_inner) = visits.into_iter().collect();
    }

    /// Whether a visit is left out.
    pub fn leaves_out(&self, visit: VisitId) -> bool {
        self.left_out.read().unwrap_or_else(PoisonError::into_inner).contains(&visit)
    }

    /// How many entries of the ledger are not in it yet, as last seen; and stays to be folded again.
    pub fn behind(&self) -> u64 {
        self.behind.load(Ordering::Relaxed)
    }
}
