//! The ledger as the index and the pages read it: a connection of its own that can only read, so that
//! looking never waits for a sync and a sync never waits for somebody looking.
//!
//! Every row's digest is checked. Does not live here: writing (the core's store).

use std::path::Path;
use std::time::Duration;

use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::{Certificate, Entry, PublicKey};
use farsiding_core::ids::{DeviceId, Digest, EntryId, Subject};
use farsiding_core::view::DeviceFacts;
use rusqlite::{Connection, OpenFlags, OptionalExtension as _, Row};
use std::collections::BTreeMap;

use super::IndexError;

/// An entry at the office, and when it came in, where that is known.
#[derive(Debug, Clone)]
pub struct Held {
    /// The checked entry.
    pub entry: Entry,
    /// By the server's clock.
    pub received_at: Option<UtcMillis>,
}

/// The ledger, for reading.
#[derive(Debug)]
pub struct LedgerReader {
    connection: Connection,
}

fn opened(id: [u8; 32], bytes: Vec<u8>) -> Option<Entry> {
    let id = EntryId(id);
    if Digest::of(&bytes).0 != id.0 {
        return None; // damaged; the document or a device still has it whole
    }
    Entry::reopen(id, bytes).ok()
}

impl LedgerReader {
    /// Opens the ledger's file, which must be there.
    ///
    /// # Errors
    /// [`IndexError`], as for every call below.
    pub fn open(file: &Path) -> Result<LedgerReader, IndexError> {
        let flags = OpenFlags::SQLITE_OPEN_READ_ONLY | OpenFlags::SQLITE_OPEN_NO_MUTEX;
        let connection = Connection::open_with_flags(file, flags)?;
        connection.busy_timeout(Duration::from_secs(10))?;
        connection.set_prepared_statement_cache_capacity(32);
        Ok(LedgerReader { connection })
    }

    /// Runs `read` on one state of the ledger, whatever is written meanwhile.
    ///
    /// # Errors
    /// [`IndexError`].
    pub fn at_one_moment<T>(
        &self,
        read: impl FnOnce(&LedgerReader) -> Result<T, IndexError>,
    ) -> Result<T, IndexError> {
        let moment = self.connection.unchecked_transaction()?;
        let outcome = read(self);
        moment.finish()?;
        outcome
    }

    /// The entries of a document, in order of arrival.
    ///
    /// # Errors
    /// [`IndexError`].
    pub fn entries_of(&self, subject: Subject) -> Result<Vec<Held>, IndexError> {
        let mut statement = self.connection.prepare_cached(
            "SELECT id, bytes, received_at FROM standing JOIN entry USING(position)
             LEFT JOIN log ON log.entry = entry.position WHERE subject = ?1 ORDER BY entry.position",
        )?;
        let read = |row: &Row<'_>| Ok((row.get(0)?, row.get(1)?, row.get::<_, Option<i64>>(2)?));
        let rows = statement.query_map([subject.to_bytes()], read)?;
        let mut held = Vec::new();
        for row in rows {
            let (id, bytes, at) = row?;
            let received_at = at.map(UtcMillis);
            held.extend(opened(id, bytes).map(|entry| Held { entry, received_at }));
        }
        Ok(held)
    }

    /// Entries that arrived after a position, at most so many, and the position reached.
    ///
    /// # Errors
    /// [`IndexError`].
    pub fn entries_after(&self, position: i64, most: usize) -> Result<(Vec<Entry>, i64), IndexError> {
        let sql = "SELECT id, bytes, position FROM entry WHERE position > ?1 ORDER BY position LIMIT ?2";
        let mut statement = self.connection.prepare_cached(sql)?;
        let most = i64::try_from(most).unwrap_or(i64::MAX);
        let rows =
            statement.query_map([position, most], |row| Ok((row.get(0)?, row.get(1)?, row.get(2)?)))?;
        let (mut entries, mut reached) = (Vec::new(), position);
        for row in rows {
            let (id, bytes, at): ([u8; 32], Vec<u8>, i64) = row?;
            entries.extend(opened(id, bytes));
            reached = at;
        }
        Ok((entries, reached))
    }

    /// Documents changed after a position, and the newest position.
    ///
    /// # Errors
    /// [`IndexError`].
    pub fn changed_after(&self, position: i64) -> Result<(Vec<Subject>, i64), IndexError> {
        let sql = "SELECT DISTINCT subject FROM change WHERE position > ?1";
        let mut statement = self.connection.prepare_cached(sql)?;
        let rows = statement.query_map([position], |row| row.get::<_, Vec<u8>>(0))?;
        let mut subjects = Vec::new();
        for row in rows {
            subjects.extend(Subject::from_bytes(&row?));
        }
        Ok((subjects, self.newest("SELECT max(position) FROM change")?.max(position)))
    }

    fn newest(&self, sql: &str) -> Result<i64, IndexError> {
        let newest: Option<i64> = self.connection.prepare_cached(sql)?.query_row([], |row| row.get(0))?;
        Ok(newest.unwrap_or(0))
    }

    /// Position of the newest entry and of the newest change.
    ///
    /// # Errors
    /// [`IndexError`].
    pub fn newest_positions(&self) -> Result<(i64, i64), IndexError> {
        let entry = self.newest("SELECT max(position) FROM entry")?;
        Ok((entry, self.newest("SELECT max(position) FROM change")?))
    }

    /// The rosters: the organisation's people stand in them.
    ///
    /// # Errors
    /// [`IndexError`].
    pub fn rosters(&self) -> Result<Vec<Subject>, IndexError> {
        let sql = "SELECT DISTINCT subject FROM standing WHERE subject >= x'72' AND subject < x'73'";
        let mut statement = self.connection.prepare_cached(sql)?;
        let rows = statement.query_map([], |row| row.get::<_, Vec<u8>>(0))?;
        let mut subjects = Vec::new();
        for row in rows {
            subjects.extend(Subject::from_bytes(&row?).filter(|s| matches!(s, Subject::Roster(_))));
        }
        Ok(subjects)
    }

    /// What the organisation says of its devices.
    ///
    /// # Errors
    /// [`IndexError`].
    pub fn devices(&self, key: &PublicKey) -> Result<BTreeMap<DeviceId, DeviceFacts>, IndexError> {
        let mut statement = self.connection.prepare_cached("SELECT device, bytes FROM certificate")?;
        let rows = statement
            .query_map([], |row: &Row<'_>| Ok((DeviceId(row.get(0)?), row.get::<_, Vec<u8>>(1)?)))?;
        let mut devices = BTreeMap::new();
        for row in rows {
            let (device, bytes) = row?;
            if let Ok(certificate) = Certificate::open(&bytes, key) {
                devices.insert(device, DeviceFacts::from(&certificate));
            }
        }
        Ok(devices)
    }

    /// The signed certificates of the organisation's devices, unopened.
    ///
    /// # Errors
    /// [`IndexError`].
    pub fn certificates(&self) -> Result<Vec<(DeviceId, Vec<u8>)>, IndexError> {
        let mut statement = self.connection.prepare_cached("SELECT device, bytes FROM certificate")?;
        let rows = statement.query_map([], |row| Ok((DeviceId(row.get(0)?), row.get(1)?)))?;
        Ok(rows.collect::<Result<_, _>>()?)
    }

    /// Media type of a photograph, and whether its bytes are here.
    ///
    /// # Errors
    /// [`IndexError`].
    pub fn photo(&self, sha256: Digest) -> Result<Option<(String, bool)>, IndexError> {
        let sql = "SELECT media, here FROM photo WHERE sha256 = ?1";
        let found = self
            .connection
            .prepare_cached(sql)?
            .query_row([sha256.0], |row| Ok((row.get(0)?, row.get(1)?)))
            .optional()?;
        Ok(found)
    }

    /// How many photographs are spoken of whose bytes have not come.
    ///
    /// # Errors
    /// [`IndexError`].
    pub fn photos_to_come(&self) -> Result<i64, IndexError> {
        let sql = "SELECT count(*) FROM photo WHERE here = 0";
        Ok(self.connection.prepare_cached(sql)?.query_row([], |row| row.get(0))?)
    }

    /// A named value of the ledger.
    ///
    /// # Errors
    /// [`IndexError`].
    pub fn value(&self, key: &str) -> Result<Option<Vec<u8>>, IndexError> {
        let sql = "SELECT value FROM value WHERE key = ?1";
        Ok(self.connection.prepare_cached(sql)?.query_row([key], |row| row.get(0)).optional()?)
    }
}
