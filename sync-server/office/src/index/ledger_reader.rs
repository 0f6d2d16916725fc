//! Reads the ledger for the index and the pages, over a read-only connection of its own. Readers therefore
//! never wait for a sync, and a sync never waits for readers.
//!
//! The digest of every row is checked. Writing is done by the core's store.

use std::time::Duration;

use farsiding_core::authority::Authority;
use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::{Entry, LastEntry, OrganisationKeys, PublicKey};
use farsiding_core::ids::{DeviceId, Digest, EntryId, Subject};
use farsiding_core::store::{
    KEY_STATEMENTS, NAMES, Names, OWN_NAMES, Store as _, UNSOUND, bytes_at, read_key_statements, read_names,
};
use farsiding_core::view::Recorded;
use farsiding_postgres::{PostgresStore, RawEntry};
use rusqlite::{Connection, OpenFlags, OptionalExtension as _, Row};
use std::collections::{BTreeMap, BTreeSet, HashSet};

use super::IndexError;
use crate::ledger::{LedgerPlace, in_database};

/// The position of the signer's key in an entry's bytes. All envelopes have the same form, so a device's
/// entries can be found without decoding the others. Entries found this way are compared with the key again
/// after decoding.
const SIGNED_BY: &str = "substr(entry.bytes, 11, 32)";

/// An entry in the ledger, with its time of arrival if known.
#[derive(Debug, Clone)]
pub struct Held {
    /// The checked entry.
    pub entry: Entry,
    /// The time of arrival, by the server's clock.
    pub received_at: Option<UtcMillis>,
}

impl Held {
    /// Returns the entry and its time of arrival, in the form the core's authority expects.
    pub fn received(&self) -> (&Entry, Option<UtcMillis>) {
        (&self.entry, self.received_at)
    }

    /// Returns the entry as a recorded entry for folding. Every entry in the office's ledger counts as
    /// received.
    pub fn recorded(&self) -> Recorded<'_> {
        Recorded { entry: &self.entry, receipted: true, received_at: self.received_at }
    }
}

/// A read-only connection to the ledger.
#[derive(Debug)]
pub struct LedgerReader {
    source: Source,
    /// The entries whose personal signature was found to be invalid, see the core's store.
    unsound: HashSet<EntryId>,
}

/// Where the rows are read.
#[derive(Debug)]
enum Source {
    File(Connection),
    Database(Box<PostgresStore>),
}

/// The readable entries of a document, and the ids of the unreadable ones.
#[derive(Debug, Default)]
pub struct Document {
    /// The readable entries, in order of arrival.
    pub held: Vec<Held>,
    /// The entries that are damaged, or signed for a person by somebody else.
    pub unreadable: BTreeSet<EntryId>,
}

impl LedgerReader {
    /// Opens the ledger; a file must exist.
    ///
    /// # Errors
    /// Returns an [`IndexError`] when the index or the ledger cannot be read.
    pub fn open(place: &LedgerPlace) -> Result<LedgerReader, IndexError> {
        let source = match place {
            LedgerPlace::File(file) => Source::File(LedgerReader::connect(file)?),
            LedgerPlace::Database { address, organisation } => {
                Source::Database(Box::new(in_database(address, *organisation)?))
            }
        };
        let mut reader = LedgerReader { source, unsound: HashSet::new() };
        let unsound = reader.value(UNSOUND)?.unwrap_or_default();
        reader.unsound =
            unsound.chunks_exact(32).filter_map(|id| Some(EntryId(id.try_into().ok()?))).collect();
        Ok(reader)
    }

    fn connect(file: &std::path::Path) -> Result<Connection, IndexError> {
        let flags = OpenFlags::SQLITE_OPEN_READ_ONLY | OpenFlags::SQLITE_OPEN_NO_MUTEX;
        let connection = Connection::open_with_flags(file, flags)?;
        connection.busy_timeout(Duration::from_secs(10))?;
        connection.set_prepared_statement_cache_capacity(32);
        Ok(connection)
    }

    /// Opens the entry in a row of a database.
    fn held(&self, row: RawEntry) -> Option<Held> {
        let received_at = row.received_at.map(UtcMillis);
        self.opened(row.id, row.bytes).map(|entry| Held { entry, received_at })
    }

    fn opened(&self, id: [u8; 32], bytes: Vec<u8>) -> Option<Entry> {
        let id = EntryId(id);
        if Digest::of(&bytes).0 != id.0 || self.unsound.contains(&id) {
            return None; // callers that ask for a document report it; an intact copy may exist in the document or on a device
        }
        Entry::reopen(id, bytes).ok()
    }

    /// Returns the number of consecutive unreadable entries before the one that names `prev` as its
    /// predecessor and has the number after `to`. Such entries are missing from the chain, but the device did
    /// not leave them out.
    ///
    /// # Errors
    /// Returns an [`IndexError`] when the index or the ledger cannot be read.
    pub fn unreadable_before(&self, prev: EntryId, to: u64) -> Result<u64, IndexError> {
        let (mut named, mut at, mut count) = (prev, to, 0);
        loop {
            let bytes: Option<Vec<u8>> = match &self.source {
                Source::File(connection) => {
                    let sql = "SELECT bytes FROM entry WHERE id = ?1";
                    let mut statement = connection.prepare_cached(sql)?;
                    statement.query_row([named.0], |row| bytes_at(row, 0)).optional()?
                }
                Source::Database(store) => store.raw_entry(named)?.map(|row| row.bytes),
            };
            let Some(bytes) = bytes.filter(|bytes| self.opened(named.0, bytes.clone()).is_none()) else {
                return Ok(count);
            };
            count += 1;
            // Usually only a few bytes are damaged, and the entry's predecessor can still be read.
            let before = Entry::reopen(named, bytes).ok().filter(|entry| entry.body.seq == at);
            match before.and_then(|entry| entry.body.prev) {
                Some(prev) if at > 1 && count < 10_000 => (named, at) = (prev, at - 1),
                _ => return Ok(count),
            }
        }
    }

    /// Runs `read` on one consistent state of the ledger, even if others write meanwhile.
    ///
    /// # Errors
    /// Returns an [`IndexError`] when the index or the ledger cannot be read.
    pub fn at_one_moment<T>(
        &self,
        read: impl FnOnce(&LedgerReader) -> Result<T, IndexError>,
    ) -> Result<T, IndexError> {
        match &self.source {
            Source::File(connection) => {
                let moment = connection.unchecked_transaction()?;
                let outcome = read(self);
                moment.finish()?;
                outcome
            }
            Source::Database(store) => store.at_one_moment(|| read(self)),
        }
    }

    /// Returns the entries of a document, in order of arrival.
    ///
    /// # Errors
    /// Returns an [`IndexError`] when the index or the ledger cannot be read.
    pub fn entries_of(&self, subject: Subject) -> Result<Vec<Held>, IndexError> {
        Ok(self.document(subject)?.held)
    }

    /// Returns the entries of a document and the ids of those that cannot be read.
    ///
    /// # Errors
    /// Returns an [`IndexError`] when the index or the ledger cannot be read.
    pub fn document(&self, subject: Subject) -> Result<Document, IndexError> {
        let connection = match &self.source {
            Source::File(connection) => connection,
            Source::Database(store) => {
                let mut document = Document::default();
                for row in store.raw_document(subject)? {
                    let id = EntryId(row.id);
                    match self.held(row) {
                        Some(held) => document.held.push(held),
                        None => {
                            document.unreadable.insert(id);
                        }
                    }
                }
                return Ok(document);
            }
        };
        let mut statement = connection.prepare_cached(
            "SELECT id, bytes, received_at FROM standing JOIN entry USING(position)
             LEFT JOIN log ON log.entry = entry.position WHERE subject = ?1 ORDER BY entry.position",
        )?;
        let read = |row: &Row<'_>| Ok((row.get(0)?, bytes_at(row, 1)?, row.get::<_, Option<i64>>(2)?));
        let rows = statement.query_map([subject.to_bytes()], read)?;
        let mut document = Document::default();
        for row in rows {
            let (id, bytes, at) = row?;
            let received_at = at.map(UtcMillis);
            match self.opened(id, bytes) {
                Some(entry) => document.held.push(Held { entry, received_at }),
                None => {
                    document.unreadable.insert(EntryId(id));
                }
            }
        }
        Ok(document)
    }

    /// Returns at most `most` entries that arrived after a position, and the position reached.
    ///
    /// # Errors
    /// Returns an [`IndexError`] when the index or the ledger cannot be read.
    pub fn entries_after(&self, position: i64, most: usize) -> Result<(Vec<Entry>, i64), IndexError> {
        let connection = match &self.source {
            Source::File(connection) => connection,
            Source::Database(store) => {
                let rows = store.raw_after(position, most)?;
                let reached = rows.last().map_or(position, |row| row.position);
                let entries = rows.into_iter().filter_map(|row| self.opened(row.id, row.bytes)).collect();
                return Ok((entries, reached));
            }
        };
        let sql = "SELECT id, bytes, position FROM entry WHERE position > ?1 ORDER BY position LIMIT ?2";
        let mut statement = connection.prepare_cached(sql)?;
        let most = i64::try_from(most).unwrap_or(i64::MAX);
        let rows =
            statement.query_map([position, most], |row| Ok((row.get(0)?, bytes_at(row, 1)?, row.get(2)?)))?;
        let (mut entries, mut reached) = (Vec::new(), position);
        for row in rows {
            let (id, bytes, at): ([u8; 32], Vec<u8>, i64) = row?;
            entries.extend(self.opened(id, bytes));
            reached = at;
        }
        Ok((entries, reached))
    }

    /// Returns the documents that changed after a position, and the newest position.
    ///
    /// # Errors
    /// Returns an [`IndexError`] when the index or the ledger cannot be read.
    pub fn changed_after(&self, position: i64) -> Result<(Vec<Subject>, i64), IndexError> {
        let connection = match &self.source {
            Source::File(connection) => connection,
            Source::Database(store) => {
                let newest = store.newest_positions()?.1.max(position);
                return Ok((store.changed_after(position)?, newest));
            }
        };
        let sql = "SELECT DISTINCT subject FROM change WHERE position > ?1";
        let mut statement = connection.prepare_cached(sql)?;
        let rows = statement.query_map([position], |row| row.get::<_, Vec<u8>>(0))?;
        let mut subjects = Vec::new();
        for row in rows {
            subjects.extend(Subject::from_bytes(&row?));
        }
        Ok((subjects, newest(connection, "SELECT max(position) FROM change")?.max(position)))
    }

    /// Returns the positions of the newest entry and of the newest change.
    ///
    /// # Errors
    /// Returns an [`IndexError`] when the index or the ledger cannot be read.
    pub fn newest_positions(&self) -> Result<(i64, i64), IndexError> {
        match &self.source {
            Source::File(connection) => {
                let entry = newest(connection, "SELECT max(position) FROM entry")?;
                Ok((entry, newest(connection, "SELECT max(position) FROM change")?))
            }
            Source::Database(store) => Ok(store.newest_positions()?),
        }
    }

    /// Returns all entries of a device in the ledger, in order of arrival.
    ///
    /// # Errors
    /// Returns an [`IndexError`] when the index or the ledger cannot be read.
    pub fn chain_of(&self, device: DeviceId) -> Result<Vec<LastEntry>, IndexError> {
        let mut chain = Vec::new();
        let connection = match &self.source {
            Source::File(connection) => connection,
            Source::Database(store) => {
                for row in store.raw_of_device(device, None)? {
                    let entry = self.opened(row.id, row.bytes).filter(|entry| entry.device == device);
                    chain.extend(entry.map(|entry| LastEntry { seq: entry.body.seq, entry: entry.id }));
                }
                return Ok(chain);
            }
        };
        let sql = format!("SELECT id, bytes FROM entry WHERE {SIGNED_BY} = ?1 ORDER BY position");
        let mut statement = connection.prepare_cached(&sql)?;
        let rows = statement.query_map([device.0], |row| Ok((row.get(0)?, bytes_at(row, 1)?)))?;
        for row in rows {
            let (id, bytes) = row?;
            let entry = self.opened(id, bytes).filter(|entry| entry.device == device);
            chain.extend(entry.map(|entry| LastEntry { seq: entry.body.seq, entry: entry.id }));
        }
        Ok(chain)
    }

    /// Returns at most `most` entries of a device for which `wanted` returns true and that arrived at `since`
    /// or later, in order of arrival, and whether there are more.
    ///
    /// # Errors
    /// Returns an [`IndexError`] when the index or the ledger cannot be read.
    pub fn arrived_since(
        &self,
        (device, since): (DeviceId, UtcMillis),
        most: usize,
        wanted: impl Fn(&Entry) -> bool,
    ) -> Result<(Vec<Held>, bool), IndexError> {
        let connection = match &self.source {
            Source::File(connection) => connection,
            Source::Database(store) => {
                let rows = store.raw_of_device(device, Some(since.0))?;
                let fits = |held: &Held| held.entry.device == device && wanted(&held.entry);
                let mut held: Vec<Held> =
                    rows.into_iter().filter_map(|row| self.held(row)).filter(fits).collect();
                let more = held.len() > most;
                held.truncate(most);
                return Ok((held, more));
            }
        };
        let sql = format!(
            "SELECT id, bytes, received_at FROM log JOIN entry ON entry.position = log.entry
             WHERE received_at >= ?1 AND {SIGNED_BY} = ?2 ORDER BY log.number"
        );
        let mut statement = connection.prepare_cached(&sql)?;
        let read = |row: &Row<'_>| Ok((row.get(0)?, bytes_at(row, 1)?, row.get::<_, i64>(2)?));
        let mut held = Vec::new();
        for row in statement.query_map(rusqlite::params![since.0, device.0], read)? {
            let (id, bytes, at) = row?;
            let entry = self.opened(id, bytes).filter(|entry| entry.device == device && wanted(entry));
            let Some(entry) = entry else { continue };
            if held.len() == most {
                return Ok((held, true));
            }
            held.push(Held { entry, received_at: Some(UtcMillis(at)) });
        }
        Ok((held, false))
    }

    /// Returns one entry with its time of arrival.
    ///
    /// # Errors
    /// Returns an [`IndexError`] when the index or the ledger cannot be read.
    pub fn entry(&self, id: EntryId) -> Result<Option<Held>, IndexError> {
        let connection = match &self.source {
            Source::File(connection) => connection,
            Source::Database(store) => return Ok(store.raw_entry(id)?.and_then(|row| self.held(row))),
        };
        let sql = "SELECT id, bytes, received_at FROM entry LEFT JOIN log ON log.entry = entry.position
                   WHERE id = ?1";
        let read = |row: &Row<'_>| Ok((row.get(0)?, bytes_at(row, 1)?, row.get::<_, Option<i64>>(2)?));
        let found = connection.prepare_cached(sql)?.query_row([id.0], read).optional()?;
        Ok(found.and_then(|(id, bytes, at)| {
            self.opened(id, bytes).map(|entry| Held { entry, received_at: at.map(UtcMillis) })
        }))
    }

    /// Returns the rosters, the documents with the organisation's people.
    ///
    /// # Errors
    /// Returns an [`IndexError`] when the index or the ledger cannot be read.
    pub fn rosters(&self) -> Result<Vec<Subject>, IndexError> {
        let connection = match &self.source {
            Source::File(connection) => connection,
            Source::Database(store) => return Ok(store.rosters()?),
        };
        let sql = "SELECT DISTINCT subject FROM standing WHERE subject >= x'72' AND subject < x'73'";
        let mut statement = connection.prepare_cached(sql)?;
        let rows = statement.query_map([], |row| row.get::<_, Vec<u8>>(0))?;
        let mut subjects = Vec::new();
        for row in rows {
            subjects.extend(Subject::from_bytes(&row?).filter(|s| matches!(s, Subject::Roster(_))));
        }
        Ok(subjects)
    }

    /// Returns the signed certificates of all devices.
    ///
    /// # Errors
    /// Returns an [`IndexError`] when the index or the ledger cannot be read.
    pub fn certificates(&self) -> Result<BTreeMap<DeviceId, Vec<u8>>, IndexError> {
        let connection = match &self.source {
            Source::File(connection) => connection,
            Source::Database(store) => return Ok(store.certificates()?.into_iter().collect()),
        };
        let mut statement = connection.prepare_cached("SELECT device, bytes FROM certificate")?;
        let rows = statement.query_map([], |row: &Row<'_>| Ok((DeviceId(row.get(0)?), bytes_at(row, 1)?)))?;
        Ok(rows.collect::<Result<_, _>>()?)
    }

    /// Returns the organisation's keys according to the root's statements.
    fn organisation_keys(&self, root: &PublicKey) -> Result<OrganisationKeys, IndexError> {
        let kept = self.value(KEY_STATEMENTS)?;
        Ok(read_key_statements(root, kept.as_deref()))
    }

    /// Returns the authority of the organisation, which decides who may say what. The office has all
    /// certificates and knows when each entry arrived, so nothing is left unchecked here.
    ///
    /// # Errors
    /// Returns an [`IndexError`] when the index or the ledger cannot be read.
    pub fn authority(&self, key: &PublicKey, now: UtcMillis) -> Result<Authority, IndexError> {
        let certificates = self.certificates()?;
        let bytes = certificates.values().map(Vec::as_slice);
        let keys = self.organisation_keys(key)?;
        let authority = Authority::read(Some(&keys), bytes, true).at(now);
        let mut held = Vec::new();
        for roster in self.rosters()? {
            held.extend(self.entries_of(roster)?);
        }
        let judged = authority.roster(held.iter().map(Held::received));
        Ok(authority.clone().with_roster(judged))
    }

    /// Returns the media type of a photograph, and whether its file is here.
    ///
    /// # Errors
    /// Returns an [`IndexError`] when the index or the ledger cannot be read.
    pub fn photo(&self, sha256: Digest) -> Result<Option<(String, bool)>, IndexError> {
        let connection = match &self.source {
            Source::File(connection) => connection,
            Source::Database(store) => {
                return Ok(store.photo(sha256)?.map(|photo| (photo.media, photo.here)));
            }
        };
        let sql = "SELECT media, here FROM photo WHERE sha256 = ?1";
        let found = connection
            .prepare_cached(sql)?
            .query_row([sha256.0], |row| Ok((row.get(0)?, row.get(1)?)))
            .optional()?;
        Ok(found)
    }

    /// Returns the photographs that have arrived and whose records have received nothing since `since`.
    ///
    /// # Errors
    /// Returns an [`IndexError`] when the index or the ledger cannot be read.
    pub fn photographs_quiet_since(&self, since: UtcMillis) -> Result<Vec<Digest>, IndexError> {
        let connection = match &self.source {
            Source::File(connection) => connection,
            Source::Database(store) => return Ok(store.photographs_quiet_since(since.0)?),
        };
        let sql = "SELECT photo.sha256 FROM photo JOIN photo_in USING(sha256) JOIN standing USING(subject)
                   JOIN log ON log.entry = standing.position WHERE here = 1
                   GROUP BY photo.sha256 HAVING max(received_at) < ?1 ORDER BY photo.sha256";
        let mut statement = connection.prepare_cached(sql)?;
        let rows = statement.query_map([since.0], |row| Ok(Digest(row.get(0)?)))?;
        Ok(rows.collect::<Result<_, _>>()?)
    }

    /// Returns the number of photographs that entries name and whose files have not arrived.
    ///
    /// # Errors
    /// Returns an [`IndexError`] when the index or the ledger cannot be read.
    pub fn photos_to_come(&self) -> Result<i64, IndexError> {
        let connection = match &self.source {
            Source::File(connection) => connection,
            Source::Database(store) => return Ok(store.photos_to_come()?),
        };
        let sql = "SELECT count(*) FROM photo WHERE here = 0";
        Ok(connection.prepare_cached(sql)?.query_row([], |row| row.get(0))?)
    }

    /// Returns the names of people that the ledger keeps.
    ///
    /// # Errors
    /// Returns an [`IndexError`] when the index or the ledger cannot be read.
    pub fn names(&self) -> Result<Names, IndexError> {
        let (office, own) = (self.value(NAMES)?, self.value(OWN_NAMES)?);
        let rows = read_names(office.as_deref()).into_iter().chain(read_names(own.as_deref()));
        Ok(Names::of(rows))
    }

    /// Returns a named value of the ledger.
    ///
    /// # Errors
    /// Returns an [`IndexError`] when the index or the ledger cannot be read.
    pub fn value(&self, key: &str) -> Result<Option<Vec<u8>>, IndexError> {
        let connection = match &self.source {
            Source::File(connection) => connection,
            Source::Database(store) => return Ok(store.value(key)?),
        };
        let sql = "SELECT value FROM value WHERE key = ?1";
        Ok(connection.prepare_cached(sql)?.query_row([key], |row| row.get(0)).optional()?)
    }
}

/// Returns the one number that a statement selects, or 0.
fn newest(connection: &Connection, sql: &str) -> Result<i64, IndexError> {
    let newest: Option<i64> = connection.prepare_cached(sql)?.query_row([], |row| row.get(0))?;
    Ok(newest.unwrap_or(0))
}
