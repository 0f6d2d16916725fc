//! Checks the rows of the ledger one by one: entries, changes, receipts and certificates.

use farsiding_core::entry::{Certificate, Entry, Trusts};
use farsiding_core::evidence::Receipt;
use farsiding_core::ids::{DeviceId, Digest, EntryId, Subject};
use farsiding_core::store::{SetDigest, Store as _, bytes_at};
use rusqlite::{Connection, Row};

use super::{CheckReport, Progress, Reading};

type Outcome<T> = Result<T, rusqlite::Error>;

/// The number of rows read at a time. Short read transactions keep the write-ahead log of a running server
/// from growing.
const AT_ONCE: i64 = 500;

fn count(connection: &Connection, sql: &str) -> Outcome<u64> {
    connection.query_row(sql, [], |row| row.get::<_, i64>(0)).map(i64::cast_unsigned)
}

/// Reads a table page by page and calls `each` with every row and its position. Returns false when told to
/// stop.
fn pages(
    connection: &Connection,
    (name, table, columns): (&str, &str, &str),
    progress: Progress<'_>,
    mut each: impl FnMut(i64, &Row<'_>) -> Outcome<()>,
) -> Outcome<bool> {
    let total = count(connection, &format!("SELECT count(*) FROM {table}"))?;
    let sql = format!(
        "SELECT position, {columns} FROM {table} WHERE position > ?1 ORDER BY position LIMIT {AT_ONCE}"
    );
    let mut statement = connection.prepare(&sql)?;
    let (mut at, mut done) = (i64::MIN, 0u64);
    loop {
        if !progress(name, done, total) {
            return Ok(false);
        }
        let mut rows = statement.query([at])?;
        let before = done;
        while let Some(row) = rows.next()? {
            at = row.get(0)?;
            done += 1;
            each(at, row)?;
        }
        if done == before {
            return Ok(true);
        }
    }
}

/// Returns the description of a row for people: its number and its document.
fn named(connection: &Connection, position: i64, id: &str) -> String {
    let subject: Option<Vec<u8>> = connection
        .prepare_cached("SELECT subject FROM standing WHERE position = ?1 ORDER BY subject DESC LIMIT 1")
        .and_then(|mut statement| statement.query_row([position], |row| row.get(0)))
        .ok();
    let subject = subject.as_deref().and_then(Subject::from_bytes);
    let place = subject.map_or_else(|| "in no document".to_owned(), |subject| format!("of {subject}"));
    format!("{id} (row {position}, {place})")
}

/// Checks every entry: its bytes must match its id, its signatures must be valid, and it must belong to a
/// document. The number of entries must be the counted one. Returns false when told to stop.
pub(super) fn entries(reading: &Reading, report: &mut CheckReport, progress: Progress<'_>) -> Outcome<bool> {
    let connection = &reading.ledger;
    let went_on = pages(connection, ("entries", "entry", "id, bytes"), progress, |position, row| {
        report.entries += 1;
        let (id, bytes) = (bytes_at(row, 1)?, bytes_at(row, 2)?);
        let shown = <[u8; 32]>::try_from(id.as_slice())
            .map_or_else(|_| format!("an id of {} bytes", id.len()), |id| EntryId(id).to_string());
        let wrong = if Digest::of(&bytes).0.as_slice() != id.as_slice() {
            Some("its bytes are not those of its id".to_owned())
        } else {
            Entry::open(&bytes).err().map(|why| why.to_string())
        };
        if let Some(why) = wrong {
            report.damaged_row("entry", named(connection, position, &shown), why);
        }
        Ok(())
    })?;
    for (sql, why) in [
        (
            "SELECT position FROM entry WHERE position NOT IN (SELECT position FROM standing)",
            "it stands in no document",
        ),
        (
            "SELECT position FROM standing WHERE position NOT IN (SELECT position FROM entry)",
            "a document names it, and it is not here",
        ),
    ] {
        let mut statement = connection.prepare(sql)?;
        for position in statement.query_map([], |row| row.get::<_, i64>(0))? {
            report.damaged_row("entry", format!("row {}", position?), why);
        }
    }
    counted(reading, report)?;
    Ok(went_on)
}

/// Compares the number of entries with the stored count. Both are read in one transaction, because a server
/// may be adding entries.
fn counted(reading: &Reading, report: &mut CheckReport) -> Outcome<()> {
    let moment = reading.ledger.unchecked_transaction()?;
    let kept: Option<Vec<u8>> =
        moment.query_row("SELECT value FROM value WHERE key = 'store/tally'", [], |row| row.get(0)).ok();
    let mut tally = SetDigest::default();
    let mut statement = moment.prepare("SELECT id FROM entry")?;
    let mut rows = statement.query([])?;
    while let Some(row) = rows.next()? {
        if let Ok(id) = row.get::<_, [u8; 32]>(0) {
            tally.add(EntryId(id));
        }
    }
    let kept = kept.as_deref().and_then(SetDigest::from_bytes).unwrap_or_default();
    if kept != tally {
        let why = format!(
            "{} entries were counted as they came in, {} are here, or others",
            kept.count, tally.count
        );
        report.damaged_row("entry", "the count of all entries", why);
    }
    Ok(())
}

/// Checks every change: its bytes must be the written ones. Returns false when told to stop.
pub(super) fn changes(reading: &Reading, report: &mut CheckReport, progress: Progress<'_>) -> Outcome<bool> {
    let columns = ("changes", "change", "subject, hash, bytes, digest");
    pages(&reading.ledger, columns, progress, |position, row| {
        report.changes += 1;
        let subject = Subject::from_bytes(&bytes_at(row, 1)?);
        let place =
            subject.map_or_else(|| "of no known document".to_owned(), |subject| format!("of {subject}"));
        let name = format!("row {position}, {place}");
        if Digest::of(&bytes_at(row, 3)?).0.as_slice() != bytes_at(row, 4)? {
            report.damaged_row("change", name, "its bytes are not those that were written");
        } else if subject.is_none() {
            report.damaged_row("change", name, "what document it is of cannot be read");
        }
        Ok(())
    })
}

/// Checks every receipt: the organisation must have signed it for the entries that are listed with it.
pub(super) fn receipts(reading: &Reading, key: &dyn Trusts, report: &mut CheckReport) -> Outcome<()> {
    let mut statement = reading.ledger.prepare("SELECT number, bytes FROM receipt ORDER BY number")?;
    let mut rows = statement.query([])?;
    while let Some(row) = rows.next()? {
        report.receipts += 1;
        let number: i64 = row.get(0)?;
        let bytes = bytes_at(row, 1)?;
        let read = Receipt::from_bytes(&bytes).map_err(|why| why.to_string());
        let sound = read.and_then(|receipt| receipt.check(key).map_err(|why| why.to_string()));
        if let Err(why) = sound {
            report.damaged_row("receipt", format!("number {number}"), why);
        }
    }
    Ok(())
}

/// Checks every certificate: the organisation must have signed it for the device under which it is stored.
pub(super) fn certificates(reading: &Reading, key: &dyn Trusts, report: &mut CheckReport) -> Outcome<()> {
    let Ok(all) = reading.store.certificates() else {
        report.damaged_row("certificate", "all", "their table cannot be read");
        return Ok(());
    };
    for (device, bytes) in all {
        report.certificates += 1;
        let name = |device: DeviceId| format!("of device {device}");
        match Certificate::open(&bytes, key) {
            Ok(certificate) if certificate.device == device => {}
            Ok(_) => report.damaged_row("certificate", name(device), "it is another device's"),
            Err(why) => report.damaged_row("certificate", name(device), why.to_string()),
        }
    }
    Ok(())
}
