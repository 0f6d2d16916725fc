//! The SQLite store: each commit is one transaction, which is on the disk when the call returns.
//!
//! Native files use WAL with synchronous=FULL. File systems without shared memory (such as the browser's
//! private file system) use a truncated rollback journal, also with synchronous=FULL.

use std::cell::RefCell;
use std::collections::HashSet;

use rusqlite::{Connection, ErrorCode, OpenFlags, OptionalExtension, TransactionBehavior, params};

use super::ledger::ids_read;
use super::sqlite_write::write_all;
use super::{
    LogRows, Quarantined, Rows, ScopeRows, SetDigest, Store, StoreError, StoredChange, StoredEntry,
    StoredPhoto, Write, sqlite_heal, sqlite_scope, sqlite_unsound,
};
use crate::clock::UtcMillis;
use crate::ids::{DeviceId, Digest, EntryId, Subject};
use crate::tree::heads::Heads;

/// The migrations, applied in order. The file's `user_version` is the number of migrations applied so far.
const MIGRATIONS: &[&str] = &[
    include_str!("migrations/0001.sql"),
    include_str!("migrations/0002.sql"),
    include_str!("migrations/0003.sql"),
    include_str!("migrations/0004.sql"),
    include_str!("migrations/0005.sql"),
    include_str!("migrations/0006.sql"),
];
/// The schema number that added the tables of scopes. They are derived from the entries and filled in when a
/// file reaches this schema.
const SCOPES: i64 = 3;
/// The schema number that added the set digest over all documents, which is derived likewise.
const STANDINGS: i64 = 6;

pub(super) const TALLY: &str = "store/tally";

/// The way commits are made durable.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Durability {
    /// A write-ahead log with synchronous=FULL, for ordinary file systems.
    WriteAheadLog,
    /// A truncated rollback journal with synchronous=FULL, for file systems on which memory cannot be mapped.
    RollbackJournal,
}

/// A store in one SQLite file.
#[derive(Debug)]
pub struct SqliteStore {
    pub(super) connection: Connection,
    /// Whether a group of commits is open, see [`super::group_commit`].
    holds: bool,
    /// The heads of the documents in the log, computed as far as they were asked for.
    pub(super) heads: RefCell<Heads>,
    /// Entries with an invalid signature of a person that were stored before such signatures were checked.
    unsound: HashSet<EntryId>,
}

impl SqliteStore {
    /// Opens or creates the file and migrates it to the newest schema.
    ///
    /// # Errors
    /// - [`StoreError::TooNew`] for a file written by a later version.
    /// - [`StoreError::NoPlace`] if the file cannot be created or is not a record store.
    /// - [`StoreError::Busy`] if another program has locked the file.
    /// - [`StoreError::Database`] for any other failure.
    pub fn open(path: &str, durability: Durability) -> Result<SqliteStore, StoreError> {
        let connection = connect(path).map_err(|error| match error.sqlite_error_code() {
            Some(
                ErrorCode::CannotOpen
                | ErrorCode::NotADatabase
                | ErrorCode::PermissionDenied
                | ErrorCode::ReadOnly,
            ) => StoreError::NoPlace(error.to_string()),
            _ => error.into(),
        })?;
        let journal = match durability {
            Durability::WriteAheadLog => "WAL",
            Durability::RollbackJournal => "TRUNCATE",
        };
        connection.pragma_update(None, "journal_mode", journal)?;
        connection.pragma_update(None, "synchronous", "FULL")?;
        connection.pragma_update(None, "foreign_keys", true)?;
        // A name that was removed is overwritten in the file, not only unlinked.
        connection.pragma_update(None, "secure_delete", true)?;
        connection.set_prepared_statement_cache_capacity(64);
        let mut store =
            SqliteStore { connection, holds: false, heads: RefCell::default(), unsound: HashSet::new() };
        store.migrate()?;
        store.unsound = sqlite_unsound::known_or_found(&mut store.connection)?;
        Ok(store)
    }

    /// Opens a file for reading only; nothing is created or written beside it. `write_protected` states that
    /// the file or its folder cannot be written to; the content of a write-ahead log beside the file is then
    /// ignored. Returns `None` for a file of an earlier schema, because only [`SqliteStore::open`] can
    /// migrate it.
    ///
    /// # Errors
    /// As for [`SqliteStore::open`].
    pub fn open_to_read(path: &str, write_protected: bool) -> Result<Option<SqliteStore>, StoreError> {
        let flags = OpenFlags::SQLITE_OPEN_READ_ONLY | OpenFlags::SQLITE_OPEN_URI;
        let uri = uri_to_read(path, write_protected);
        let connection = Connection::open_with_flags(uri, flags)
            .and_then(|connection| {
                connection.busy_timeout(std::time::Duration::from_secs(10))?;
                connection.query_row("PRAGMA schema_version", [], |row| row.get::<_, i64>(0))?;
                Ok(connection)
            })
            .map_err(|error| StoreError::NoPlace(error.to_string()))?;
        let known = i64::try_from(MIGRATIONS.len()).unwrap_or(i64::MAX);
        let found: i64 = connection.query_row("PRAGMA user_version", [], |row| row.get(0))?;
        if found > known {
            return Err(StoreError::TooNew { found, known });
        }
        if found < known {
            return Ok(None);
        }
        let unsound = sqlite_unsound::known(&connection)?;
        let unsound = match unsound {
            Some(known) => known,
            None => sqlite_unsound::found(&connection)?,
        };
        Ok(Some(SqliteStore { connection, holds: false, heads: RefCell::default(), unsound }))
    }

    fn migrate(&mut self) -> Result<(), StoreError> {
        let known = i64::try_from(MIGRATIONS.len()).unwrap_or(i64::MAX);
        let found: i64 = self.connection.query_row("PRAGMA user_version", [], |row| row.get(0))?;
        if found > known {
            return Err(StoreError::TooNew { found, known });
        }
        for (migration, version) in MIGRATIONS.iter().zip(1i64..).filter(|(_, version)| *version > found) {
            let transaction = self.connection.transaction_with_behavior(TransactionBehavior::Immediate)?;
            let now: i64 = transaction.query_row("PRAGMA user_version", [], |row| row.get(0))?;
            if now < version {
                transaction.execute_batch(migration)?;
                if version == SCOPES {
                    sqlite_heal::heal(&transaction)?;
                    sqlite_scope::fill(&transaction)?;
                }
                if version == STANDINGS {
                    sqlite_scope::count_standings(&transaction)?;
                }
                transaction.pragma_update(None, "user_version", version)?;
                transaction.commit()?;
            }
        }
        Ok(())
    }

    /// Returns the journal mode and the synchronous level in force, for the tests of durability.
    #[cfg(test)]
    pub(super) fn pragmas(&self) -> (String, i64) {
        let ask = |name: &str| format!("PRAGMA {name}");
        (
            self.connection.query_row(&ask("journal_mode"), [], |row| row.get(0)).unwrap_or_default(),
            self.connection.query_row(&ask("synchronous"), [], |row| row.get(0)).unwrap_or(-1),
        )
    }

    /// Writes a consistent copy of the store to a new file while the store stays in use.
    ///
    /// # Errors
    /// [`StoreError::Database`] if the target exists or cannot be written.
    pub fn copy_to(&self, path: &str) -> Result<(), StoreError> {
        self.connection.execute("VACUUM INTO ?1", [path])?;
        Ok(())
    }
}

/// Returns the URI by which SQLite opens a file for reading only. With `write_protected` SQLite does not look
/// for files beside it, which it could not create.
pub fn uri_to_read(path: &str, write_protected: bool) -> String {
    let path: String = path
        .chars()
        .map(|c| match c {
            '%' => "%25".to_owned(),
            '?' => "%3f".to_owned(),
            '#' => "%23".to_owned(),
            other => other.to_string(),
        })
        .collect();
    format!("file:{path}?mode=ro{}", if write_protected { "&immutable=1" } else { "" })
}

/// Opens the file and reads its header, so that a file of another kind is recognised at once.
fn connect(path: &str) -> Result<Connection, rusqlite::Error> {
    let connection = Connection::open(path)?;
    connection.busy_timeout(std::time::Duration::from_secs(10))?;
    connection.query_row("PRAGMA schema_version", [], |row| row.get::<_, i64>(0))?;
    Ok(connection)
}

impl From<rusqlite::Error> for StoreError {
    fn from(error: rusqlite::Error) -> Self {
        match error.sqlite_error_code() {
            Some(ErrorCode::DiskFull) => StoreError::Full,
            Some(ErrorCode::DatabaseBusy | ErrorCode::DatabaseLocked) => StoreError::Busy,
            _ => StoreError::Database(error.to_string()),
        }
    }
}

pub(super) fn put_value(transaction: &Connection, key: &str, value: &[u8]) -> Result<(), rusqlite::Error> {
    transaction
        .prepare_cached("INSERT OR REPLACE INTO value(key, value) VALUES(?1, ?2)")?
        .execute(params![key, value])?;
    Ok(())
}

pub(super) fn get_value(connection: &Connection, key: &str) -> Result<Option<Vec<u8>>, rusqlite::Error> {
    connection
        .prepare_cached("SELECT value FROM value WHERE key = ?1")?
        .query_row([key], |row| row.get(0))
        .optional()
}

pub(super) fn get_tally(connection: &Connection) -> Result<SetDigest, rusqlite::Error> {
    Ok(get_value(connection, TALLY)?.as_deref().and_then(SetDigest::from_bytes).unwrap_or_default())
}

pub(super) fn subject_at(row: &rusqlite::Row<'_>, column: usize) -> Result<Subject, rusqlite::Error> {
    let bytes: Vec<u8> = row.get(column)?;
    Subject::from_bytes(&bytes).ok_or_else(|| {
        let why = "a subject of unknown kind".into();
        rusqlite::Error::FromSqlConversionFailure(column, rusqlite::types::Type::Blob, why)
    })
}

pub(super) const CHANGE_COLUMNS: &str = "position, subject, hash, bytes, digest, ids";

/// Returns a column's bytes whatever type a damaged row claims for it. The digest check then finds the
/// damage, and the rows around it can still be read.
pub fn bytes_at(row: &rusqlite::Row<'_>, column: usize) -> Result<Vec<u8>, rusqlite::Error> {
    use rusqlite::types::ValueRef;
    Ok(match row.get_ref(column)? {
        ValueRef::Blob(bytes) | ValueRef::Text(bytes) => bytes.to_vec(),
        ValueRef::Null | ValueRef::Integer(_) | ValueRef::Real(_) => Vec::new(),
    })
}

/// Reads a change row, and whether its digest matches its bytes.
pub(super) fn change_at(row: &rusqlite::Row<'_>) -> Result<(StoredChange, bool), rusqlite::Error> {
    let bytes = bytes_at(row, 3)?;
    let sound = Digest::of(&bytes).0.as_slice() == bytes_at(row, 4)?;
    let position: i64 = row.get(0)?;
    let (position, hash) = (position.cast_unsigned(), Digest(row.get(2)?));
    let entries = ids_read(hash, &bytes_at(row, 5)?);
    Ok((StoredChange { position, subject: subject_at(row, 1)?, hash, bytes, entries }, sound))
}

/// Reads an entry row, and whether its digest matches its bytes.
fn entry_at(row: &rusqlite::Row<'_>) -> Result<(StoredEntry, bool), rusqlite::Error> {
    let position: i64 = row.get(0)?;
    let id = EntryId(row.get(1)?);
    let bytes = bytes_at(row, 2)?;
    let sound = Digest::of(&bytes).0 == id.0;
    let receipted = row.get::<_, Option<i64>>(3)?.is_some();
    Ok((StoredEntry { id, bytes, position: position.cast_unsigned(), receipted }, sound))
}

impl SqliteStore {
    fn changes_where(
        &self,
        condition: &str,
        position: u64,
        bytes: usize,
    ) -> Result<Vec<StoredChange>, StoreError> {
        let sql = format!(
            "SELECT {CHANGE_COLUMNS} FROM change WHERE {condition} AND position > ?1 ORDER BY position"
        );
        let mut statement = self.connection.prepare_cached(&sql)?;
        let mut rows = statement.query([position.cast_signed()])?;
        let (mut changes, mut total) = (Vec::new(), 0);
        while let Some(row) = rows.next()? {
            let (change, sound) = change_at(row)?;
            if !sound {
                continue; // its entries still stand in the entry table
            }
            total += change.bytes.len();
            if total > bytes && !changes.is_empty() {
                break;
            }
            changes.push(change);
        }
        Ok(changes)
    }
}

impl Store for SqliteStore {
    fn commit(&mut self, writes: &[Write<'_>]) -> Result<Vec<EntryId>, StoreError> {
        if self.holds {
            // A failure as severe as a full disk makes SQLite roll back the whole transaction, so later
            // commits must not be reported as kept.
            if self.connection.is_autocommit() {
                return Err(StoreError::Database("what was held back is lost".to_owned()));
            }
            let savepoint = self.connection.savepoint()?;
            let new = write_all(&savepoint, writes)?;
            savepoint.commit()?;
            return Ok(new);
        }
        let transaction = self.connection.transaction_with_behavior(TransactionBehavior::Immediate)?;
        let new = write_all(&transaction, writes)?;
        transaction.commit()?;
        Ok(new)
    }

    fn begin(&mut self) -> Result<(), StoreError> {
        self.connection.execute_batch("BEGIN IMMEDIATE")?;
        self.holds = true;
        Ok(())
    }

    fn end(&mut self) -> Result<(), StoreError> {
        if self.holds {
            self.connection.execute_batch("COMMIT")?; // fails where the transaction is over already
            self.holds = false;
        }
        Ok(())
    }

    fn abandon(&mut self) {
        if std::mem::take(&mut self.holds) && !self.connection.is_autocommit() {
            // If the rollback fails as well, the next transaction cannot begin and reports the error.
            let _ = self.connection.execute_batch("ROLLBACK");
        }
    }

    fn entry(&self, id: EntryId) -> Result<Option<StoredEntry>, StoreError> {
        let found = self
            .connection
            .prepare_cached("SELECT position, id, bytes, receipt FROM entry WHERE id = ?1")?
            .query_row([id.0], entry_at)
            .optional()?;
        let found = found.filter(|(entry, sound)| *sound && !self.unsound.contains(&entry.id));
        Ok(found.map(|(entry, _)| entry))
    }

    fn entries_of(&self, subject: Subject) -> Result<Rows<StoredEntry>, StoreError> {
        let mut statement = self.connection.prepare_cached(
            "SELECT entry.position, id, bytes, receipt FROM standing JOIN entry USING(position)
             WHERE subject = ?1 ORDER BY entry.position",
        )?;
        let mut listing = Rows { rows: Vec::new(), damaged: Vec::new() };
        for row in statement.query_map([subject.to_bytes()], entry_at)? {
            let (entry, sound) = row?;
            if sound && !self.unsound.contains(&entry.id) {
                listing.rows.push(entry)
            } else {
                listing.damaged.push(entry.id.to_string())
            }
        }
        Ok(listing)
    }

    fn holds_any_of(&self, subject: Subject) -> Result<bool, StoreError> {
        let mut statement = self.connection.prepare_cached("SELECT 1 FROM standing WHERE subject = ?1")?;
        Ok(statement.exists([subject.to_bytes()])?)
    }

    fn subjects(&self) -> Result<Vec<Subject>, StoreError> {
        let mut statement =
            self.connection.prepare_cached("SELECT DISTINCT subject FROM standing ORDER BY subject")?;
        let rows = statement.query_map([], |row| subject_at(row, 0))?;
        Ok(rows.collect::<Result<_, _>>()?)
    }

    fn changes_of(&self, subject: Subject) -> Result<Rows<StoredChange>, StoreError> {
        let sql = format!("SELECT {CHANGE_COLUMNS} FROM change WHERE subject = ?1 ORDER BY position");
        let mut statement = self.connection.prepare_cached(&sql)?;
        let mut listing = Rows { rows: Vec::new(), damaged: Vec::new() };
        for row in statement.query_map([subject.to_bytes()], change_at)? {
            let (change, sound) = row?;
            if sound { listing.rows.push(change) } else { listing.damaged.push(change.hash.to_string()) }
        }
        Ok(listing)
    }

    fn has_change(&self, subject: Subject, hash: Digest) -> Result<bool, StoreError> {
        let mut statement =
            self.connection.prepare_cached("SELECT 1 FROM change WHERE subject = ?1 AND hash = ?2")?;
        Ok(statement.exists(params![subject.to_bytes(), hash.0])?)
    }

    fn changes_not_held(&self, bytes: usize) -> Result<Vec<StoredChange>, StoreError> {
        self.changes_where("held = 0", 0, bytes)
    }

    fn changes_after(&self, position: u64, bytes: usize) -> Result<Vec<StoredChange>, StoreError> {
        self.changes_where("true", position, bytes)
    }

    fn newest_position(&self) -> Result<u64, StoreError> {
        let newest: Option<i64> = self
            .connection
            .prepare_cached("SELECT max(position) FROM change")?
            .query_row([], |row| row.get(0))?;
        Ok(newest.unwrap_or(0).cast_unsigned())
    }

    fn entries_without_receipt(&self, most: usize) -> Result<Vec<EntryId>, StoreError> {
        let mut statement = self
            .connection
            .prepare_cached("SELECT id FROM entry WHERE receipt IS NULL ORDER BY position LIMIT ?1")?;
        let most = i64::try_from(most).unwrap_or(i64::MAX);
        let rows = statement.query_map([most], |row| Ok(EntryId(row.get(0)?)))?;
        Ok(rows.collect::<Result<_, _>>()?)
    }

    fn count_without_receipt(&self) -> Result<u64, StoreError> {
        let count: i64 = self
            .connection
            .prepare_cached("SELECT count(*) FROM entry WHERE receipt IS NULL")?
            .query_row([], |row| row.get(0))?;
        Ok(count.cast_unsigned())
    }

    fn receipts_of(&self, id: EntryId) -> Result<Vec<Vec<u8>>, StoreError> {
        let mut statement = self.connection.prepare_cached(
            "SELECT receipt.bytes FROM entry JOIN receipt ON entry.receipt = receipt.number WHERE id = ?1",
        )?;
        let rows = statement.query_map([id.0], |row| row.get(0))?;
        Ok(rows.collect::<Result<_, _>>()?)
    }

    fn certificates(&self) -> Result<Vec<(DeviceId, Vec<u8>)>, StoreError> {
        let mut statement =
            self.connection.prepare_cached("SELECT device, bytes FROM certificate ORDER BY device")?;
        let rows = statement.query_map([], |row| Ok((DeviceId(row.get(0)?), bytes_at(row, 1)?)))?;
        Ok(rows.collect::<Result<_, _>>()?)
    }

    fn certificate(&self, device: DeviceId) -> Result<Option<Vec<u8>>, StoreError> {
        let mut statement =
            self.connection.prepare_cached("SELECT bytes FROM certificate WHERE device = ?1")?;
        Ok(statement.query_row([device.0], |row| row.get(0)).optional()?)
    }

    fn quarantined(&self) -> Result<Vec<Quarantined>, StoreError> {
        let mut statement = self
            .connection
            .prepare_cached("SELECT subject, bytes, why, at FROM quarantine ORDER BY at, digest")?;
        let rows = statement.query_map([], |row| {
            let subject: Option<Vec<u8>> = row.get(0)?;
            let subject = subject.as_deref().and_then(Subject::from_bytes);
            Ok(Quarantined { subject, bytes: row.get(1)?, why: row.get(2)?, at: UtcMillis(row.get(3)?) })
        })?;
        Ok(rows.collect::<Result<_, _>>()?)
    }

    fn photos(&self) -> Result<Vec<StoredPhoto>, StoreError> {
        let mut statement = self
            .connection
            .prepare_cached("SELECT sha256, length, media, here, held FROM photo ORDER BY sha256")?;
        let rows = statement.query_map([], photo_at)?;
        Ok(rows.collect::<Result<_, _>>()?)
    }

    fn photo(&self, sha256: Digest) -> Result<Option<StoredPhoto>, StoreError> {
        let mut statement = self
            .connection
            .prepare_cached("SELECT sha256, length, media, here, held FROM photo WHERE sha256 = ?1")?;
        Ok(statement.query_row([sha256.0], photo_at).optional()?)
    }

    fn drafts(&self) -> Result<Vec<(String, String)>, StoreError> {
        let mut statement = self.connection.prepare_cached("SELECT key, text FROM draft ORDER BY key")?;
        let rows = statement.query_map([], |row| Ok((row.get(0)?, row.get(1)?)))?;
        Ok(rows.collect::<Result<_, _>>()?)
    }

    fn value(&self, key: &str) -> Result<Option<Vec<u8>>, StoreError> {
        Ok(get_value(&self.connection, key)?)
    }

    fn tally(&self) -> Result<SetDigest, StoreError> {
        Ok(get_tally(&self.connection)?)
    }

    fn log(&self) -> &dyn LogRows {
        self
    }

    fn scopes(&self) -> &dyn ScopeRows {
        self
    }
}

fn photo_at(row: &rusqlite::Row<'_>) -> Result<StoredPhoto, rusqlite::Error> {
    let length: i64 = row.get(1)?;
    Ok(StoredPhoto {
        sha256: Digest(row.get(0)?),
        length: length.cast_unsigned(),
        media: row.get(2)?,
        here: row.get(3)?,
        held: row.get(4)?,
    })
}
