//! Moves an office's ledger from the file in its folder into a PostgreSQL database, or back, and keeps every number of
//! its rows: devices go on where they were.
//!
//! At every moment the folder names one whole ledger. The order is: rows are copied and compared while nobody can
//! write to where they come from; the copy is made durable; the folder names it, by one renaming; the place that is
//! left is marked, so that nobody writes there. Whoever is interrupted says the same command again: before the naming
//! it begins anew, after it the rest is done. The caller holds the folder's lock.

use std::fs::File;
use std::path::Path;

use farsiding_core::clock::UtcMillis;
use farsiding_core::ids::OrganisationId;
use farsiding_core::store::{Durability, SqliteStore, Store as _, StoreError};
use farsiding_postgres::{PostgresStore, Standing, address_of};

use super::OfficeError;
use super::data_folder::DataFolder;
use super::ledger::LedgerPlace;
use super::ledger_copy::{self, Contents, CopyError, Progress};

/// What a move did.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Moved {
    /// Whether an earlier move had named the place already, and only the rest was done.
    pub was_named: bool,
    /// The number of entries.
    pub entries: u64,
    /// The number of changes of documents.
    pub changes: u64,
    /// The number of leaves of the log.
    pub leaves: u64,
    /// The number of rows of all tables.
    pub rows: u64,
}

impl Moved {
    fn of(contents: &Contents) -> Moved {
        let rows =
            farsiding_core::store::ledger_rows::TABLES.iter().map(|table| contents.rows(table.name)).sum();
        Moved {
            was_named: false,
            entries: contents.rows("entry"),
            changes: contents.rows("change"),
            leaves: contents.leaves(),
            rows,
        }
    }
}

fn refused(folder: &DataFolder) -> impl Fn(CopyError) -> OfficeError {
    let folder = folder.clone();
    move |error| match error {
        CopyError::Store(error) => OfficeError::Ledger(error),
        CopyError::Damaged { .. } => folder.refuse(&format!(
            "the ledger was not moved, because {error}; see farsiding check, which can mend entries (--mend)"
        )),
        CopyError::Stopped => folder.refuse(&format!("the ledger was not moved: {error}")),
    }
}

/// Compares the copy with what it was made of.
fn same(folder: &DataFolder, from: &Contents, to: &Contents) -> Result<(), OfficeError> {
    match from.difference(to) {
        None => Ok(()),
        Some(why) => Err(folder.refuse(&format!(
            "the ledger was not moved: the copy is not what it was made of ({why}); the ledger is where it was"
        ))),
    }
}

/// Moves the ledger from the folder's file into a database. With `replace_left`, rows of a ledger that was moved away
/// from there before are replaced.
///
/// # Errors
/// Returns an [`OfficeError`]; the folder then names the ledger that it named before, or says that only the rest of the
/// work is missing.
pub fn to_database(
    folder: DataFolder,
    (address, organisation): (&str, OrganisationId),
    replace_left: bool,
    now: UtcMillis,
    progress: Progress<'_>,
) -> Result<Moved, OfficeError> {
    let address = address.trim();
    if let LedgerPlace::Database { address: there, organisation } = folder.ledger_place() {
        if there != address {
            return Err(folder
                .refuse("its ledger is in another database already; move it into a file first (--to-file)"));
        }
        let to = to_carry(&there, organisation)?;
        if to.standing()? == Standing::Gone {
            return Err(OfficeError::Ledger(gone()));
        }
        folder.put_old_file_away(now)?;
        to.mark_named()?;
        return Ok(Moved { was_named: true, ..Moved::default() });
    }
    let file = folder.ledger_file();
    if !file.exists() {
        return Err(folder.refuse(
            "it has no ledger yet; start the server with the database at once (farsiding serve --database)",
        ));
    }
    let path = file.to_str().ok_or_else(|| folder.refuse("its path is not UTF-8"))?;
    let mut from = SqliteStore::open(path, Durability::WriteAheadLog)?;
    if from.is_left()? {
        return Err(folder.refuse("its ledger.db is one that was left when the ledger was moved"));
    }
    let mut to = to_carry(address, organisation)?;
    to.begin()?;
    to.take_time()?;
    match to.standing()? {
        Standing::Empty | Standing::Arrived => {}
        Standing::Gone if replace_left => {}
        Standing::Gone => {
            return Err(folder.refuse(
                "the database still holds this organisation's ledger as it was when it was moved away from there; \
                 replace that one with --replace-left",
            ));
        }
        Standing::Kept => {
            return Err(folder.refuse(
                "the database holds a ledger of this organisation already, and nothing is moved onto it; name an \
                 empty database",
            ));
        }
    }
    to.clear()?;
    from.begin()?; // from here on nobody writes to the file
    let contents =
        ledger_copy::read_through(&from, Some(&mut to), true, progress).map_err(refused(&folder))?;
    let found = ledger_copy::read_through(&to, None, true, progress).map_err(refused(&folder))?;
    same(&folder, &contents, &found)?;
    to.mark_arrived()?;
    to.end()?;
    let folder = folder.name_database(address, organisation)?;
    let rest = |error: &dyn std::fmt::Display| {
        folder.refuse(&format!(
            "the ledger is in the database now and the folder names it; what is left in ledger.db could not be set \
             aside ({error}); say the same command again"
        ))
    };
    from.leave("this ledger was moved into a database; what is written here would be lost")
        .map_err(|e| rest(&e))?;
    from.end().map_err(|e| rest(&e))?;
    drop(from);
    folder.put_old_file_away(now).map_err(|e| rest(&e))?;
    to.mark_named().map_err(|e| rest(&e))?;
    Ok(Moved::of(&contents))
}

/// Moves the ledger from the database that the folder names into a file in the folder.
///
/// # Errors
/// Returns an [`OfficeError`], as [`to_database`] does.
pub fn to_file(folder: DataFolder, now: UtcMillis, progress: Progress<'_>) -> Result<Moved, OfficeError> {
    let LedgerPlace::Database { address, organisation } = folder.ledger_place() else {
        if folder.left_database().is_some() {
            finish(&folder, now)?;
            return Ok(Moved { was_named: true, ..Moved::default() });
        }
        return Err(folder.refuse("its ledger is in ledger.db already"));
    };
    if folder.ledger_file().exists() {
        return Err(folder.refuse(
            "there is a ledger.db in it already, and nothing is moved onto it; set that file aside first",
        ));
    }
    let mut from = to_carry(&address, organisation)?;
    if from.standing()? == Standing::Gone {
        return Err(OfficeError::Ledger(gone()));
    }
    from.take_fence()?; // a server that runs elsewhere on a copy of this folder stops
    from.begin()?; // from here on nobody writes to the database
    from.take_time()?;
    let arriving = folder.arriving_file();
    let mut to = ledger_copy::new_file(&arriving)?;
    let contents =
        ledger_copy::read_through(&from, Some(&mut to), true, progress).map_err(refused(&folder))?;
    let found = ledger_copy::read_through(&to, None, true, progress).map_err(refused(&folder))?;
    same(&folder, &contents, &found)?;
    if let Some(row) = to.dangling()? {
        return Err(folder.refuse(&format!(
            "the ledger was not moved: a row of {row} names another that is not there; see farsiding check"
        )));
    }
    to.keep_rows()?;
    drop(to);
    on_the_disk(&arriving).map_err(|e| folder.refuse(&format!("the ledger was not moved: {e}")))?;
    let folder = folder.name_file()?;
    let rest = |error: StoreError| {
        folder.refuse(&format!(
            "the ledger is in ledger.db now and the folder names it; the database could not be marked as left \
             ({error}); say the same command again"
        ))
    };
    from.mark_gone(&gone_words(&folder, now)).map_err(rest)?;
    from.end().map_err(rest)?;
    folder.forget_left_database()?;
    Ok(Moved::of(&contents))
}

/// Does what is left of a move after the folder named the new place. Does nothing if nothing is left.
///
/// # Errors
/// Returns an [`OfficeError`] when a place that was left cannot be marked.
pub fn finish(folder: &DataFolder, now: UtcMillis) -> Result<(), OfficeError> {
    if folder.has_database() {
        return folder.put_old_file_away(now);
    }
    let Some((address, organisation)) = folder.left_database() else { return Ok(()) };
    let mut from = to_carry(&address, organisation)?;
    from.begin()?;
    if from.standing()? != Standing::Gone {
        from.mark_gone(&gone_words(folder, now))?;
    }
    from.end()?;
    folder.forget_left_database()
}

fn to_carry(address: &str, organisation: OrganisationId) -> Result<PostgresStore, StoreError> {
    PostgresStore::open_to_carry(address_of(address)?, organisation)
}

fn gone() -> StoreError {
    let why = "the organisation's ledger is no longer served from this database, it was moved into a file";
    StoreError::NoPlace(why.to_owned())
}

fn gone_words(folder: &DataFolder, now: UtcMillis) -> String {
    format!(
        "it was moved into ledger.db in {} at {}; a folder that still names this database is an older copy of that one",
        folder.path().display(),
        now.rfc3339()
    )
}

fn on_the_disk(file: &Path) -> std::io::Result<()> {
    File::open(file)?.sync_all()
}
