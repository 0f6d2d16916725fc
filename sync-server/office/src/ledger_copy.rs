//! Copies a whole ledger row by row, from a file into a database or back, and compares the copy with what it was made
//! of. Called by `ledger_move`, and by the check and the backup of a ledger that is in a database.
//!
//! Rows pass page by page, so that the memory needed does not grow with the ledger.

use std::path::Path;

use farsiding_core::ids::{Digest, EntryId, OrganisationId};
use farsiding_core::store::ledger_rows::{
    CHANGE, Cell, ENTRY, LEAVES, LedgerRows, Numbers, Sum, TABLES, Table, Walked, pages,
};
use farsiding_core::store::{Durability, SqliteStore, StoreError};
use farsiding_postgres::PostgresStore;

use super::ledger::in_database;
use farsiding_host::private_file;

/// A callback for the progress, called with the kind of row, the number of finished rows and the total.
/// Returns whether to continue.
pub type Progress<'a> = &'a mut dyn FnMut(&str, u64, u64) -> bool;

/// Why a ledger was not copied.
#[derive(Debug, thiserror::Error)]
pub enum CopyError {
    /// One of the two stores failed.
    #[error(transparent)]
    Store(#[from] StoreError),
    /// A row is not what it was when it was written.
    #[error("{row} is damaged: {why}")]
    Damaged {
        /// The kind of the row and its number.
        row: String,
        /// What is wrong with it.
        why: String,
    },
    /// The callback told to stop.
    #[error("it was stopped before its end")]
    Stopped,
}

/// What a ledger holds, by which two places are compared.
#[derive(Debug, Clone)]
pub struct Contents {
    tables: Vec<(&'static str, Sum)>,
    numbers: Numbers,
    log: Walked,
}

impl Contents {
    /// Returns the number of rows of a table.
    pub fn rows(&self, table: &str) -> u64 {
        self.tables.iter().find(|(name, _)| *name == table).map_or(0, |(_, sum)| sum.rows)
    }

    /// Returns the number of leaves of the log.
    pub fn leaves(&self) -> u64 {
        self.log.leaves
    }

    /// Returns what is kept beside the rows.
    pub fn numbers(&self) -> &Numbers {
        &self.numbers
    }

    /// Returns what differs from another place, as a sentence.
    pub fn difference(&self, other: &Contents) -> Option<String> {
        for ((name, ours), (_, theirs)) in self.tables.iter().zip(&other.tables) {
            if ours.rows != theirs.rows {
                return Some(format!("{} rows of {name} became {}", ours.rows, theirs.rows));
            }
            if ours != theirs {
                return Some(format!("a row of {name} became another"));
            }
        }
        if self.numbers != other.numbers {
            return Some("the newest numbers, or the sum over all entries, became others".to_owned());
        }
        if (self.log.leaves, self.log.root()) != (other.log.leaves, other.log.root()) {
            return Some("the log has another root".to_owned());
        }
        None
    }
}

/// Compares an entry with its id, or a change with its digest.
fn whole(table: &Table, row: &[Cell]) -> Result<(), CopyError> {
    let (bytes, digest) = match (table.name, row) {
        (ENTRY, [_, id, bytes]) => (bytes, id),
        (CHANGE, [_, _, _, bytes, digest, ..]) => (bytes, digest),
        _ => return Ok(()),
    };
    if Digest::of(bytes.bytes()).0.as_slice() == digest.bytes() {
        return Ok(());
    }
    let number = row.first().map_or(0, Cell::number);
    let named = <[u8; 32]>::try_from(digest.bytes()).ok().filter(|_| table.name == ENTRY);
    let named = named.map_or_else(String::new, |id| format!(" {}", EntryId(id)));
    Err(CopyError::Damaged {
        row: format!("{}{named} (row {number})", table.name),
        why: "its bytes are not those that were written".to_owned(),
    })
}

/// Reads every row of a ledger, writes each into `to` if that is given, and returns what was read. With `must_be_whole`
/// a damaged entry or change ends it.
///
/// # Errors
/// Returns a [`CopyError`].
pub fn read_through(
    from: &dyn LedgerRows,
    mut to: Option<&mut dyn LedgerRows>,
    must_be_whole: bool,
    progress: Progress<'_>,
) -> Result<Contents, CopyError> {
    let mut tables = Vec::with_capacity(TABLES.len());
    for table in TABLES {
        let (mut sum, total) = (Sum::default(), from.count(table)?);
        let went_on = pages::<CopyError>(from, table, |rows| {
            for row in rows {
                if must_be_whole {
                    whole(table, row)?;
                }
                sum.add(row);
            }
            if let Some(to) = to.as_deref_mut() {
                to.put(table, rows)?;
            }
            Ok(progress(table.name, sum.rows, total))
        })?;
        if !went_on {
            return Err(CopyError::Stopped);
        }
        tables.push((table.name, sum));
    }
    let numbers = from.numbers()?;
    let mut log = Walked::default();
    if must_be_whole {
        let total = from.count(&LEAVES)?;
        let went_on = pages::<CopyError>(from, &LEAVES, |rows| {
            for row in rows {
                if !log.add(row) {
                    let row = format!("leaf {} of the log", log.leaves);
                    return Err(CopyError::Damaged {
                        row,
                        why: "it is not here, or its entry is not".to_owned(),
                    });
                }
            }
            Ok(progress("leaves of the log", log.leaves, total))
        })?;
        if !went_on {
            return Err(CopyError::Stopped);
        }
    }
    if let Some(to) = to {
        to.set_numbers(&numbers)?;
    }
    Ok(Contents { tables, numbers, log })
}

/// Returns the paths of a database file and of what SQLite keeps beside it.
pub(super) fn with_its_files(file: &Path) -> [std::path::PathBuf; 3] {
    ["", "-wal", "-shm"].map(|end| {
        let mut name = file.as_os_str().to_owned();
        name.push(end);
        name.into()
    })
}

/// Makes a new file for a ledger that is carried into it.
///
/// # Errors
/// Returns a [`StoreError`] when the file cannot be made.
pub(super) fn new_file(file: &Path) -> Result<SqliteStore, StoreError> {
    let no_place = |e: std::io::Error| StoreError::NoPlace(e.to_string());
    for left in with_its_files(file) {
        match std::fs::remove_file(left) {
            Err(error) if error.kind() != std::io::ErrorKind::NotFound => return Err(no_place(error)),
            _ => {}
        }
    }
    private_file::make_private(file).map_err(no_place)?;
    let path = file.to_str().ok_or_else(|| StoreError::NoPlace("the path is not UTF-8".to_owned()))?;
    let store = SqliteStore::open(path, Durability::WriteAheadLog)?;
    store.take_in_rows()?;
    Ok(store)
}

/// Copies the ledger in a database, as it is at one moment, into a new file, damaged rows included. Returns the
/// connection to the database. Nothing is written there, and its server goes on.
///
/// # Errors
/// Returns a [`CopyError`].
pub(super) fn into_file(
    (address, organisation): (&str, OrganisationId),
    file: &Path,
    progress: Progress<'_>,
) -> Result<PostgresStore, CopyError> {
    let from = in_database(address, organisation)?;
    let mut to = new_file(file)?;
    from.at_one_moment(|| read_through(&from, Some(&mut to), false, progress))?;
    to.keep_rows()?;
    Ok(from)
}
