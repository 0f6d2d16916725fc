//! Writing to the SQLite store: one SQL statement for each kind of [`Write`], inside the transaction of a
//! commit.

use rusqlite::{Connection, params};

use super::sqlite::{TALLY, get_tally, put_value};
use super::sqlite_scope::AreaTallies;
use super::{SetDigest, Write, ledger, sqlite_log, sqlite_scope, sqlite_take_off};
use crate::ids::{Digest, EntryId, Subject};
use crate::tree::LogLeaf;

/// Performs the writes of a commit inside its transaction and returns the ids of the entries that were new.
pub(super) fn write_all(
    transaction: &Connection,
    writes: &[Write<'_>],
) -> Result<Vec<EntryId>, rusqlite::Error> {
    let before = get_tally(transaction)?;
    let (mut tally, mut areas, mut new) = (before, AreaTallies::default(), Vec::new());
    for write in writes {
        write_one(transaction, write, &mut tally, &mut areas, &mut new)?;
    }
    if tally != before {
        put_value(transaction, TALLY, &tally.to_bytes())?;
    }
    areas.keep(transaction)?;
    Ok(new)
}

/// Writes a change. One that is there already is held if it was held or is held now.
pub(super) fn put_change(
    transaction: &Connection,
    (subject, hash): (Subject, Digest),
    bytes: &[u8],
    ids: Option<&[u8]>,
    held: bool,
) -> Result<(), rusqlite::Error> {
    transaction
        .prepare_cached(
            "INSERT INTO change(subject, hash, bytes, digest, held, ids) VALUES(?1, ?2, ?3, ?4, ?5, ?6)
             ON CONFLICT(subject, hash) DO UPDATE SET held = max(held, excluded.held)
             WHERE held < excluded.held",
        )?
        .execute(params![subject.to_bytes(), hash.0, bytes, Digest::of(bytes).0, held, ids])?;
    Ok(())
}

/// Writes a receipt for entries that have none. `position` tells the row of an entry if it is known.
pub(super) fn put_receipt(
    transaction: &Connection,
    bytes: &[u8],
    entries: &[EntryId],
    position: impl Fn(EntryId) -> Option<i64>,
) -> Result<(), rusqlite::Error> {
    let new =
        transaction.prepare_cached("INSERT OR IGNORE INTO receipt(bytes) VALUES(?1)")?.execute([bytes])?;
    let number: i64 = match new {
        0 => transaction
            .prepare_cached("SELECT number FROM receipt WHERE bytes = ?1")?
            .query_row([bytes], |row| row.get(0))?,
        _ => transaction.last_insert_rowid(),
    };
    let mut of_row = transaction
        .prepare_cached("UPDATE entry SET receipt = ?2 WHERE position = ?1 AND receipt IS NULL")?;
    let mut of_id =
        transaction.prepare_cached("UPDATE entry SET receipt = ?2 WHERE id = ?1 AND receipt IS NULL")?;
    for id in entries {
        match position(*id) {
            Some(position) => of_row.execute(params![position, number])?,
            None => of_id.execute(params![id.0, number])?,
        };
    }
    Ok(())
}

pub(super) fn write_one(
    transaction: &Connection,
    write: &Write<'_>,
    tally: &mut SetDigest,
    areas: &mut AreaTallies,
    new: &mut Vec<EntryId>,
) -> Result<(), rusqlite::Error> {
    match write {
        Write::Entry { subject, entry } => {
            let inserted = transaction
                .prepare_cached("INSERT INTO entry(id, bytes) VALUES(?1, ?2) ON CONFLICT(id) DO NOTHING")?
                .execute(params![entry.id.0, entry.bytes()])?;
            if inserted == 0 {
                // An entry's id is the digest of its bytes, so an existing row with other bytes is damaged
                // and is replaced.
                transaction
                    .prepare_cached("UPDATE entry SET bytes = ?2 WHERE id = ?1 AND bytes <> ?2")?
                    .execute(params![entry.id.0, entry.bytes()])?;
            }
            let position: i64 = if inserted == 1 {
                tally.add(entry.id);
                new.push(entry.id);
                transaction.last_insert_rowid()
            } else {
                transaction
                    .prepare_cached("SELECT position FROM entry WHERE id = ?1")?
                    .query_row([entry.id.0], |row| row.get(0))?
            };
            let stands = transaction
                .prepare_cached("INSERT OR IGNORE INTO standing(subject, position) VALUES(?1, ?2)")?
                .execute(params![subject.to_bytes(), position])?;
            if stands == 1 {
                sqlite_scope::note_standing(transaction, *subject, entry, areas)?;
            }
        }
        Write::Change { subject, hash, bytes, held } => {
            put_change(transaction, (*subject, *hash), bytes, None, *held)?;
        }
        Write::Checked { subject, change, held } => {
            let ids = ledger::ids_kept(change);
            put_change(transaction, (*subject, change.hash()), change.bytes(), Some(&ids), *held)?;
        }
        Write::ChangesHeld(changes) => {
            let mut statement =
                transaction.prepare_cached("UPDATE change SET held = 1 WHERE subject = ?1 AND hash = ?2")?;
            for (subject, hash) in *changes {
                statement.execute(params![subject.to_bytes(), hash.0])?;
            }
        }
        Write::ChangesLacking(subjects) => {
            let mut statement =
                transaction.prepare_cached("UPDATE change SET held = 0 WHERE subject = ?1")?;
            for subject in *subjects {
                statement.execute([subject.to_bytes()])?;
            }
        }
        Write::TakeOff(subjects) => sqlite_take_off::take_off(transaction, subjects, tally, areas)?,
        Write::Feed => sqlite_scope::feed(transaction)?,
        Write::Receipt { bytes, entries } => put_receipt(transaction, bytes, entries, |_| None)?,
        Write::Certificate { device, bytes } => {
            transaction
                .prepare_cached("INSERT OR REPLACE INTO certificate(device, bytes) VALUES(?1, ?2)")?
                .execute(params![device.0, bytes])?;
        }
        Write::PurgeQuarantine => {
            transaction.prepare_cached("DELETE FROM quarantine")?.execute([])?;
        }
        Write::Quarantine { subject, bytes, why, at } => {
            transaction
                .prepare_cached("INSERT OR IGNORE INTO quarantine(digest, subject, bytes, why, at) VALUES(?1, ?2, ?3, ?4, ?5)")?
                .execute(params![Digest::of(bytes).0, subject.map(Subject::to_bytes), bytes, why, at.0])?;
        }
        Write::Photo { sha256, length, media, here, held } => {
            transaction
                .prepare_cached(
                    "INSERT INTO photo(sha256, length, media, here, held) VALUES(?1, ?2, ?3, ?4, ?5)
                     ON CONFLICT(sha256) DO UPDATE SET
                       length = CASE WHEN excluded.here > here THEN excluded.length ELSE length END,
                       here = max(here, excluded.here), held = max(held, excluded.held)",
                )?
                .execute(params![sha256.0, length.cast_signed(), media, here, held])?;
        }
        Write::PhotosLacking(photos) => {
            let mut statement = transaction.prepare_cached("UPDATE photo SET held = 0 WHERE sha256 = ?1")?;
            for photo in *photos {
                statement.execute([photo.0])?;
            }
        }
        Write::Draft { key, text: "" } => {
            transaction.prepare_cached("DELETE FROM draft WHERE key = ?1")?.execute([key])?;
        }
        Write::Draft { key, text } => {
            transaction
                .prepare_cached("INSERT OR REPLACE INTO draft(key, text) VALUES(?1, ?2)")?
                .execute(params![key, text])?;
        }
        Write::Value { key, value } => put_value(transaction, key, value)?,
        Write::Leaf { entry, received_at, about } => {
            sqlite_log::append(
                transaction,
                LogLeaf { entry: *entry, received_at: *received_at, about: *about },
            )?;
        }
        Write::Checkpoint { origin, size, note, at, since } => {
            transaction
                .prepare_cached(
                    "INSERT INTO checkpoint(origin, size, note, at, since) VALUES(?1, ?2, ?3, ?4, ?5)
                     ON CONFLICT(origin, size) DO UPDATE SET note = excluded.note",
                )?
                .execute(params![origin, size.cast_signed(), note, at.0, since])?;
        }
        Write::TimeStamp { origin, size, note, token, at } => {
            transaction
                .prepare_cached(
                    "INSERT OR IGNORE INTO timestamp(checkpoint, note, token, at)
                     SELECT number, ?3, ?4, ?5 FROM checkpoint WHERE origin = ?1 AND size = ?2",
                )?
                .execute(params![origin, size.cast_signed(), note, token, at.0])?;
        }
        Write::Proof { bytes, entries } => sqlite_log::keep_proof(transaction, bytes, entries)?,
    }
    Ok(())
}
