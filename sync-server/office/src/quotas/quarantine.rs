//! What a device sent that was refused for good: digest, length, reason and beginning, bounded for each device.
//!
//! Earlier versions kept the whole bytes in the ledger; those are listed and purged with these.

use farsiding_core::clock::UtcMillis;
use farsiding_core::ids::{DeviceId, Digest, Subject};
use farsiding_core::store::{Store, Write};
use rusqlite::{Connection, params};

use crate::OfficeError;
use crate::database_error::DatabaseError;
use crate::office_database::OfficeDatabase;
use farsiding_host::quarantine::QuarantinedItem;

/// The longest beginning kept, in bytes.
pub const BEGINNING: usize = 4096;
/// Things kept of one device, and bytes of their beginnings.
const MOST_OF_ONE: i64 = 200;
const MOST_BYTES_OF_ONE: i64 = 256 * 1024;

/// Something refused.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RefusedItem {
    /// SHA-256 of all its bytes.
    pub digest: Digest,
    /// The document it claimed to be of.
    pub subject: Option<Subject>,
    /// Its length in bytes.
    pub length: u64,
    /// Its first bytes.
    pub beginning: Vec<u8>,
    /// Why it was refused.
    pub why: String,
    /// When, by the server's clock.
    pub at: UtcMillis,
}

/// Keeps one, unless there is no more room for its device's.
///
/// # Errors
/// [`DatabaseError`], as for every call below.
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

/// All that is kept, oldest first, with whose it was.
///
/// # Errors
/// [`DatabaseError`].
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
    /// As it is listed and written out; `device` sent it.
    pub fn kept_of(self, device: DeviceId) -> QuarantinedItem {
        let RefusedItem { digest: sha256, subject, length, beginning: bytes, why, at } = self;
        QuarantinedItem { sha256, length, subject, device: Some(device), why, at, bytes }
    }
}

/// All that is kept, here and of earlier versions in the ledger.
///
/// # Errors
/// [`OfficeError`].
pub fn all(ledger: &dyn Store, database: &OfficeDatabase) -> Result<Vec<QuarantinedItem>, OfficeError> {
    let before = ledger.quarantined()?.into_iter().map(QuarantinedItem::from);
    Ok(before
        .chain(list(database.connection())?.into_iter().map(|(device, kept)| kept.kept_of(device)))
        .collect())
}

/// Forgets all of it.
///
/// # Errors
/// [`OfficeError`].
pub fn purge_all(ledger: &mut dyn Store, database: &OfficeDatabase) -> Result<(), OfficeError> {
    ledger.commit(&[Write::PurgeQuarantine])?;
    database.connection().execute("DELETE FROM refused", []).map_err(DatabaseError::from)?;
    Ok(())
}
