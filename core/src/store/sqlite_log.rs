//! The transparency log in the SQLite store: appending a leaf with the subtree hashes it completes, and
//! reading.

use std::collections::HashMap;

use rusqlite::{Connection, OptionalExtension as _, Row, params};

use super::sqlite::SqliteStore;
use super::{LogRows, StoreError, StoredCheckpoint, StoredStamp};
use crate::clock::UtcMillis;
use crate::entry::Entry;
use crate::ids::{Digest, EntryId, Subject};
use crate::tree::LogLeaf;
use crate::tree::heads::HeadsRoot;
use crate::tree::merkle::node_hash;

type Outcome<T> = Result<T, rusqlite::Error>;

/// Appends an entry's leaf and the hashes of the subtrees that the leaf completes. Does nothing if the entry
/// has a leaf already or is not in the store.
pub(super) fn append(transaction: &Connection, leaf: LogLeaf) -> Outcome<()> {
    Appending::default().append_if_missing(transaction, leaf)
}

/// The end of the log while a transaction appends to it: read once, and the hashes that were made since.
#[derive(Debug, Default)]
pub(super) struct Appending {
    /// The number that comes next, and the time of the leaf before it.
    next: Option<(u64, UtcMillis)>,
    made: HashMap<(u32, u64), Digest>,
}

impl Appending {
    /// Appends the leaf of an entry, unless it has one already or is not in the store.
    pub(super) fn append_if_missing(&mut self, transaction: &Connection, leaf: LogLeaf) -> Outcome<()> {
        let position: Option<i64> = transaction
            .prepare_cached(
                "SELECT position FROM entry
                 WHERE id = ?1 AND NOT EXISTS (SELECT 1 FROM log WHERE log.entry = entry.position)",
            )?
            .query_row([leaf.entry.0], |row| row.get(0))
            .optional()?;
        position.map_or(Ok(()), |position| self.append(transaction, leaf, position))
    }

    /// Appends the leaf of the entry in row `position`, which has none.
    pub(super) fn append(&mut self, transaction: &Connection, leaf: LogLeaf, position: i64) -> Outcome<()> {
        let (number, last) = match self.next {
            Some(next) => next,
            None => end_of(transaction)?,
        };
        let leaf = LogLeaf { received_at: leaf.received_at.max(last), ..leaf };
        transaction
            .prepare_cached("INSERT INTO log(number, entry, received_at, about) VALUES(?1, ?2, ?3, ?4)")?
            .execute(params![
                number.cast_signed(),
                position,
                leaf.received_at.0,
                leaf.about.map(Subject::to_bytes)
            ])?;
        self.next = Some((number + 1, leaf.received_at));
        let (mut hash, mut level, mut place) = (leaf.hash(), 0u32, number);
        self.made.insert((level, place), hash);
        while place & 1 == 1 {
            let left = match self.made.get(&(level, place - 1)) {
                Some(made) => Some(*made),
                None if level == 0 => leaf_at(transaction, place - 1)?.map(LogLeaf::hash),
                None => hash_at(transaction, level, place - 1)?,
            };
            hash = node_hash(left.ok_or(rusqlite::Error::QueryReturnedNoRows)?, hash);
            level += 1;
            place >>= 1;
            self.made.insert((level, place), hash);
            transaction
                .prepare_cached("INSERT INTO log_tree(level, place, hash) VALUES(?1, ?2, ?3)")?
                .execute(params![level, place.cast_signed(), hash.0])?;
        }
        Ok(())
    }
}

/// Returns the number that the next leaf gets, and the time of the last one.
fn end_of(connection: &Connection) -> Outcome<(u64, UtcMillis)> {
    let last: Option<(i64, i64)> = connection
        .prepare_cached("SELECT number, received_at FROM log ORDER BY number DESC LIMIT 1")?
        .query_row([], |row| Ok((row.get(0)?, row.get(1)?)))
        .optional()?;
    Ok(last.map_or((0, UtcMillis(i64::MIN)), |(number, at)| (number.cast_unsigned() + 1, UtcMillis(at))))
}

fn leaf_at(connection: &Connection, number: u64) -> Outcome<Option<LogLeaf>> {
    connection
        .prepare_cached(
            "SELECT id, received_at, about FROM log JOIN entry ON entry.position = log.entry WHERE number = ?1",
        )?
        .query_row([number.cast_signed()], |row| {
            let (entry, received_at) = (EntryId(row.get(0)?), UtcMillis(row.get(1)?));
            Ok(LogLeaf { entry, received_at, about: about_at(row, 2)? })
        })
        .optional()
}

/// Reads the subject of a leaf. Bytes that are no subject can only be damage; the leaf is then read as
/// version one, and its hash reveals the damage.
fn about_at(row: &Row<'_>, column: usize) -> Outcome<Option<Subject>> {
    Ok(row.get::<_, Option<Vec<u8>>>(column)?.and_then(|bytes| Subject::from_bytes(&bytes)))
}

fn hash_at(connection: &Connection, level: u32, place: u64) -> Outcome<Option<Digest>> {
    connection
        .prepare_cached("SELECT hash FROM log_tree WHERE level = ?1 AND place = ?2")?
        .query_row(params![level, place.cast_signed()], |row| Ok(Digest(row.get(0)?)))
        .optional()
}

const CHECKPOINT: &str = "SELECT origin, size, checkpoint.note, checkpoint.at, since,
    timestamp.note, token, timestamp.at
    FROM checkpoint LEFT JOIN timestamp ON timestamp.checkpoint = checkpoint.number";

fn checkpoint_at(row: &Row<'_>) -> Outcome<StoredCheckpoint> {
    let size: i64 = row.get(1)?;
    let stamp = match (row.get(5)?, row.get(6)?, row.get::<_, Option<i64>>(7)?) {
        (Some(note), Some(token), Some(at)) => Some(StoredStamp { note, token, at: UtcMillis(at) }),
        _ => None,
    };
    Ok(StoredCheckpoint {
        origin: row.get(0)?,
        size: size.cast_unsigned(),
        note: row.get(2)?,
        at: UtcMillis(row.get(3)?),
        since: row.get(4)?,
        stamp,
    })
}

impl SqliteStore {
    fn ids(&self, sql: &str, most: usize) -> Result<Vec<EntryId>, StoreError> {
        let mut statement = self.connection.prepare_cached(sql)?;
        let most = i64::try_from(most).unwrap_or(i64::MAX);
        let rows = statement.query_map([most], |row| Ok(EntryId(row.get(0)?)))?;
        Ok(rows.collect::<Result<_, _>>()?)
    }
}

impl LogRows for SqliteStore {
    fn size(&self) -> Result<u64, StoreError> {
        let last: Option<i64> =
            self.connection.prepare_cached("SELECT max(number) FROM log")?.query_row([], |row| row.get(0))?;
        Ok(last.map_or(0, |number| number.cast_unsigned() + 1))
    }

    fn leaf(&self, number: u64) -> Result<Option<LogLeaf>, StoreError> {
        Ok(leaf_at(&self.connection, number)?)
    }

    fn subjects(&self, from: u64, most: usize) -> Result<Vec<(EntryId, Option<Subject>)>, StoreError> {
        let mut statement = self.connection.prepare_cached(
            "SELECT id, about, CASE WHEN about IS NULL THEN bytes END
             FROM log JOIN entry ON entry.position = log.entry WHERE number >= ?1 ORDER BY number LIMIT ?2",
        )?;
        let most = i64::try_from(most).unwrap_or(i64::MAX);
        let rows = statement.query_map(params![from.cast_signed(), most], |row| {
            let id = EntryId(row.get(0)?);
            let about = match (about_at(row, 1)?, row.get::<_, Option<Vec<u8>>>(2)?) {
                (Some(about), _) => Some(about),
                (None, Some(bytes)) => Entry::reopen(id, bytes).ok().map(|entry| entry.body.about),
                (None, None) => None,
            };
            Ok((id, about))
        })?;
        Ok(rows.collect::<Result<_, _>>()?)
    }

    fn heads(&self, size: u64) -> Result<HeadsRoot, StoreError> {
        let mut heads = self.heads.borrow_mut();
        heads.go_on_to(self as &dyn LogRows, size)?;
        Ok(heads.root())
    }

    fn place(&self, entry: EntryId) -> Result<Option<(u64, UtcMillis)>, StoreError> {
        let found = self
            .connection
            .prepare_cached(
                "SELECT number, received_at FROM log JOIN entry ON entry.position = log.entry WHERE id = ?1",
            )?
            .query_row([entry.0], |row| Ok((row.get::<_, i64>(0)?.cast_unsigned(), UtcMillis(row.get(1)?))))
            .optional()?;
        Ok(found)
    }

    fn subtree_hash(&self, level: u32, place: u64) -> Result<Option<Digest>, StoreError> {
        Ok(hash_at(&self.connection, level, place)?)
    }

    fn without_leaf(&self, most: usize) -> Result<Vec<EntryId>, StoreError> {
        let sql =
            "SELECT id FROM entry WHERE position NOT IN (SELECT entry FROM log) ORDER BY position LIMIT ?1";
        self.ids(sql, most)
    }

    fn newest_checkpoint(&self) -> Result<Option<StoredCheckpoint>, StoreError> {
        let sql = format!("{CHECKPOINT} ORDER BY checkpoint.number DESC, timestamp.at LIMIT 1");
        Ok(self.connection.prepare_cached(&sql)?.query_row([], checkpoint_at).optional()?)
    }

    fn checkpoint(&self, origin: &str, size: u64) -> Result<Option<StoredCheckpoint>, StoreError> {
        let sql = format!("{CHECKPOINT} WHERE origin = ?1 AND size = ?2 ORDER BY timestamp.at LIMIT 1");
        let wanted = params![origin, size.cast_signed()];
        Ok(self.connection.prepare_cached(&sql)?.query_row(wanted, checkpoint_at).optional()?)
    }

    fn first_checkpoint_of(&self, size: u64, stamped: bool) -> Result<Option<StoredCheckpoint>, StoreError> {
        let sql = format!(
            "{CHECKPOINT} WHERE size >= ?1 AND (token IS NOT NULL OR NOT ?2)
             ORDER BY checkpoint.number, timestamp.at LIMIT 1"
        );
        let wanted = params![size.cast_signed(), stamped];
        Ok(self.connection.prepare_cached(&sql)?.query_row(wanted, checkpoint_at).optional()?)
    }

    fn first_cosigned_of(&self, origin: &str, size: u64) -> Result<Option<StoredCheckpoint>, StoreError> {
        // Matches the empty line before the signatures and at least two signature lines; each begins with an
        // em dash (U+2014).
        let sql = format!(
            "{CHECKPOINT} WHERE origin = ?1 AND size >= ?2
             AND checkpoint.note LIKE '%' || char(10, 10, 8212) || ' %' || char(10, 8212) || ' %'
             ORDER BY size, timestamp.at LIMIT 1"
        );
        let wanted = params![origin, size.cast_signed()];
        Ok(self.connection.prepare_cached(&sql)?.query_row(wanted, checkpoint_at).optional()?)
    }

    fn proof_of(&self, entry: EntryId) -> Result<Option<Vec<u8>>, StoreError> {
        let sql =
            "SELECT proof.bytes FROM entry JOIN proof ON entry.proof = proof.number WHERE entry.id = ?1";
        Ok(self.connection.prepare_cached(sql)?.query_row([entry.0], |row| row.get(0)).optional()?)
    }

    fn without_proof(&self, most: usize) -> Result<Vec<EntryId>, StoreError> {
        let sql = "SELECT id FROM entry WHERE proof IS NULL AND receipt IS NOT NULL ORDER BY position DESC LIMIT ?1";
        self.ids(sql, most)
    }
}

/// Stores a proof and the entries that it covers.
pub(super) fn keep_proof(transaction: &Connection, bytes: &[u8], entries: &[EntryId]) -> Outcome<()> {
    transaction.prepare_cached("INSERT OR IGNORE INTO proof(bytes) VALUES(?1)")?.execute([bytes])?;
    let number: i64 = transaction
        .prepare_cached("SELECT number FROM proof WHERE bytes = ?1")?
        .query_row([bytes], |row| row.get(0))?;
    let mut statement =
        transaction.prepare_cached("UPDATE entry SET proof = ?2 WHERE id = ?1 AND proof IS NULL")?;
    for id in entries {
        statement.execute(params![id.0, number])?;
    }
    Ok(())
}
