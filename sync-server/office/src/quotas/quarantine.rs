//! Quarantined data: of what a device sent and the office refused for good, the digest, the length, the
//! reason and the first bytes are kept, up to a limit for each device.
//!
//! Earlier versions stored all bytes in the ledger; that data is listed and deleted together with this.

use farsiding_core::clock::UtcMillis;
use farsiding_core::ids::{DeviceId, Digest, Subject};
use farsiding_core::store::{Store, Write};
use rusqlite::{Connection, params};

use crate::OfficeError;
use crate::database_error::DatabaseError;
use crate::office_database::OfficeDatabase;
use farsiding_host::quarantine::QuarantinedItem;

/// The largest number of first bytes that are kept.
pub const BEGINNING: usize = 4096;
/// The largest number of refused messages kept for one device.
const MOST_OF_ONE: i64 = 200;
/// The largest total size of the first bytes kept for one device.
const MOST_BYTES_OF_ONE: i64 = 256 * 1024;

/// A refused message.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RefusedItem {
    /// The SHA-256 digest of the whole message.
    pub digest: Digest,
    /// The document the message claimed to belong to.
    pub subject: Option<Subject>,
    /// The length of the whole message, in bytes.
    pub length: u64,
    /// The first bytes of the message.
    pub beginning: Vec<u8>,
    /// Why the message was refused.
    pub why: String,
    /// The time of the refusal, by the server's clock.
    pub at: UtcMillis,
}

/// Stores a refused message, unless the limit of its device is reached.
///
/// # Errors
/// Returns a [`DatabaseError`] when the database fails.
pub fn keep(database: &Connection, device: DeviceId, aside: &RefusedItem) -> Result<(), DatabaseError> {
    let sql = "INSERT OR IGNORE INTO refused(device, digest, subject, length, beginning, why, at)
               SELECT ?1, ?2, ?3, ?4, ?5, ?6, ?7
               WHERE (SELECT count(*) < ?8 AND coalesce(sum(length(beginning)), 0) + length(?5) <= ?9
                      FROM refused WHERE device = ?1)";
    database.prepare_cached(sql)?.execute(params![
        device.0,
        aside.digest.0,
        aside.subject.map(Subject::to_bytes),
        aside.length.cast_signed(),
        aside.beginning,
        aside.why,
        aside.at.0,
        MOST_OF_ONE,
        MOST_BYTES_OF_ONE
    ])?;
    Ok(())
}

/// Returns all refused messages with the devices that sent them, oldest first.
///
/// # Errors
/// Returns a [`DatabaseError`] when the database fails.
pub fn list(database: &Connection) -> Result<Vec<(DeviceId, RefusedItem)>, DatabaseError> {
    let sql = "SELECT device, digest, subject, length, beginning, why, at FROM refused ORDER BY at, digest";
    let mut statement = database.prepare(sql)?;
    let rows = statement.query_map([], |row| {
        let subject: Option<Vec<u8>> = row.get(2)?;
        let aside = RefusedItem {
            digest: Digest(row.get(1)?),
            subject: subject.and_then(|bytes| Subject::from_bytes(&bytes)),
            length: row.get::<_, i64>(3)?.cast_unsigned(),
            beginning: row.get(4)?,
            why: row.get(5)?,
            at: UtcMillis(row.get(6)?),
        };
        Ok((DeviceId(row.get(0)?), aside))
    })?;
    Ok(rows.collect::<Result<_, _>>()?)
}

impl RefusedItem {
    /// Returns the message in the form in which it is listed and exported. `device` sent the message.
    pub fn kept_of(self, device: DeviceId) -> QuarantinedItem {
        let RefusedItem { digest: sha256, subject, length, beginning: bytes, why, at } = self;
        QuarantinedItem { sha256, length, subject, device: Some(device), why, at, bytes }
    }
}

/// Returns all refused messages, including those that earlier versions stored in the ledger.
///
/// # Errors
/// Returns an [`OfficeError`] when the office's data cannot be read or written.
pub fn all(ledger: &dyn Store, database: &OfficeDatabase) -> Result<Vec<QuarantinedItem>, OfficeError> {
    let before = ledger.quarantined()?.into_iter().map(QuarantinedItem::from);
    Ok(before
        .chain(list(database.connection())?.into_iter().map(|(device, kept)| kept.kept_of(device)))
        .collect())
}

/// Deletes all refused messages.
///
/// # Errors
/// Returns an [`OfficeError`] when the office's data cannot be read or written.
pub fn purge_all(ledger: &mut dyn Store, database: &OfficeDatabase) -> Result<(), OfficeError> {
    ledger.commit(&[Write::PurgeQuarantine])?;
    database.connection().execute("DELETE FROM refused", []).map_err(DatabaseError::from)?;
    Ok(())
}
