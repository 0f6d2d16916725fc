//! A batch of rounds in the SQLite store: one transaction, and no statement more than each row needs.
//!
//! The file may be shared with other processes, such as commands that revoke a device. The count of their
//! commits, which SQLite keeps, tells the moments of the ledger apart.

use std::collections::HashMap;

use rusqlite::params;

use super::ledger::{self, is_determinate};
use super::sqlite::{SqliteStore, TALLY, get_tally, put_value};
use super::sqlite_log::Appending;
use super::sqlite_scope::{self, AreaTallies};
use super::sqlite_write::{put_change, put_receipt, write_one};
use super::{
    ApplyError, Batch, Confirm, Ledger, Moment, Outcome, Round, Sequenced, SetDigest, SignedReceipt, Store,
    StoreError,
};
use crate::clock::UtcMillis;
use crate::entry::Entry;
use crate::ids::{EntryId, Subject};
use crate::tree::LogLeaf;

/// Ends the transaction of a batch that is not durable, also when signing panics.
struct Begun<'a>(&'a mut SqliteStore);

impl Drop for Begun<'_> {
    fn drop(&mut self) {
        self.0.abandon();
    }
}

impl Ledger for SqliteStore {
    fn moment(&self) -> Result<Moment, StoreError> {
        let mut statement = self.connection.prepare_cached("PRAGMA data_version")?;
        let version: i64 = statement.query_row([], |row| row.get(0))?;
        Ok(Moment(version.cast_unsigned()))
    }

    fn apply(&mut self, batch: &Batch<'_>, confirm: &mut dyn Confirm) -> Result<Outcome, ApplyError> {
        self.begin().map_err(ApplyError::NotWritten)?;
        let begun = Begun(self);
        if begun.0.moment().map_err(ApplyError::NotWritten)? != batch.decided {
            return Ok(Outcome::Overtaken);
        }
        let rounds = write_all(begun.0, batch, confirm).map_err(ApplyError::NotWritten)?;
        match begun.0.end() {
            Ok(()) => Ok(Outcome::Applied(rounds)),
            Err(error) if is_determinate(&error) => Err(ApplyError::NotWritten(error)),
            Err(error) => Err(ApplyError::Unknown(error)),
        }
    }
}

fn write_all(
    store: &SqliteStore,
    batch: &Batch<'_>,
    confirm: &mut dyn Confirm,
) -> Result<Vec<Sequenced>, StoreError> {
    let mut writing = Writing::begin(store)?;
    let mut rounds = Vec::with_capacity(batch.rounds.len());
    for round in &batch.rounds {
        rounds.push(writing.round(round)?);
    }
    if rounds.iter().any(|round| round.old_number.is_none()) {
        writing.beside(&batch.beside)?;
    }
    let positions = writing.end()?;
    let receipts = confirm.confirm(store, &rounds);
    for SignedReceipt { bytes, entries } in &receipts {
        put_receipt(&store.connection, bytes, entries, |id| positions.get(&id).copied())?;
    }
    Ok(rounds)
}

/// What is kept in memory while a batch is written, and written once at its end.
struct Writing<'a> {
    store: &'a SqliteStore,
    before: SetDigest,
    tally: SetDigest,
    areas: AreaTallies,
    log: Appending,
    /// The row numbers of the entries that are new.
    positions: HashMap<EntryId, i64>,
}

impl<'a> Writing<'a> {
    fn begin(store: &'a SqliteStore) -> Result<Writing<'a>, StoreError> {
        let before = get_tally(&store.connection)?;
        let (areas, log, positions) = (AreaTallies::default(), Appending::default(), HashMap::new());
        Ok(Writing { store, before, tally: before, areas, log, positions })
    }

    fn round(&mut self, round: &Round<'_>) -> Result<Sequenced, StoreError> {
        let connection = &self.store.connection;
        // Numbers are stored big-endian, so that their bytes compare as they do.
        let number = round.number.to_be_bytes();
        let raised = round.number > 0
            && connection
                .prepare_cached(
                    "INSERT INTO value(key, value) VALUES(?1, ?2)
                 ON CONFLICT(key) DO UPDATE SET value = excluded.value WHERE excluded.value > value",
                )?
                .execute(params![round.counter, number])?
                == 1;
        if !raised {
            let newest = self.store.value(round.counter)?.and_then(|v| v.try_into().ok());
            return Ok(Sequenced { old_number: Some(newest.map_or(0, u64::from_be_bytes)), new: Vec::new() });
        }
        let mut sequenced = Sequenced::default();
        for (subject, change) in &round.changes {
            for entry in change.entries() {
                if self.entry(*subject, entry, round.received_at)? {
                    sequenced.new.push((*subject, entry.id));
                }
            }
            let (hash, ids) = ((*subject, change.hash()), ledger::ids_kept(change));
            put_change(connection, hash, change.bytes(), Some(&ids), true)?;
        }
        self.beside(&round.beside)?;
        Ok(sequenced)
    }

    /// Writes an entry with its leaf and, if it is new, the photograph it announces. Returns true if it is
    /// new.
    fn entry(&mut self, subject: Subject, entry: &Entry, received_at: UtcMillis) -> Result<bool, StoreError> {
        let connection = &self.store.connection;
        let inserted = connection
            .prepare_cached("INSERT INTO entry(id, bytes) VALUES(?1, ?2) ON CONFLICT(id) DO NOTHING")?
            .execute(params![entry.id.0, entry.bytes()])?;
        let leaf = LogLeaf { entry: entry.id, received_at, about: Some(entry.body.about) };
        if inserted == 0 {
            let again = super::Write::Entry { subject, entry };
            self.beside(std::slice::from_ref(&again))?;
            self.log.append_if_missing(connection, leaf)?;
            return Ok(false);
        }
        let position = connection.last_insert_rowid();
        self.tally.add(entry.id);
        self.positions.insert(entry.id, position);
        connection
            .prepare_cached("INSERT INTO standing(subject, position) VALUES(?1, ?2)")?
            .execute(params![subject.to_bytes(), position])?;
        sqlite_scope::note_standing(connection, subject, entry, &mut self.areas)?;
        self.log.append(connection, leaf, position)?;
        if let Some(photo) = ledger::announced_by(&entry.body.says) {
            self.beside(std::slice::from_ref(&photo))?;
        }
        Ok(true)
    }

    fn beside(&mut self, writes: &[super::Write<'_>]) -> Result<(), StoreError> {
        for write in writes {
            write_one(&self.store.connection, write, &mut self.tally, &mut self.areas, &mut Vec::new())?;
        }
        Ok(())
    }

    /// Writes the digests of sets. Returns the row numbers of the entries that are new.
    fn end(self) -> Result<HashMap<EntryId, i64>, StoreError> {
        let connection = &self.store.connection;
        if self.tally != self.before {
            put_value(connection, TALLY, &self.tally.to_bytes())?;
        }
        self.areas.keep(connection)?;
        Ok(self.positions)
    }
}
