//! The uploads of photographs in the office database: which photographs were announced by which device, which
//! of them entries name, and which uploads have stopped.
//!
//! The bytes are in `photo_store`, the protocol in `http::photo_routes`.

use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::Statement;
use farsiding_core::ids::{DeviceId, Digest};
use rusqlite::{Connection, OptionalExtension as _, Row, params};

use super::OfficeError;
use super::index::IndexError;
use super::index::ledger_reader::LedgerReader;
use super::office_database::OfficeDatabase;
use crate::database_error::DatabaseError;

/// An unfinished upload of a photograph.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Upload {
    /// The SHA-256 digest of the photograph.
    pub sha256: Digest,
    /// The sending device. Two devices that send the same photograph have separate uploads.
    pub device: DeviceId,
    /// The length of the photograph, in bytes.
    pub length: u64,
    /// The media type of the photograph.
    pub media: String,
}

const COLUMNS: &str = "sha256, device, length, media";

fn upload_at(row: &Row<'_>) -> rusqlite::Result<Upload> {
    Ok(Upload {
        sha256: Digest(row.get(0)?),
        device: DeviceId(row.get(1)?),
        length: row.get::<_, i64>(2)?.cast_unsigned(),
        media: row.get(3)?,
    })
}

/// Returns a device's unfinished upload of a photograph, if there is one.
///
/// # Errors
/// Returns a [`DatabaseError`] when the database fails.
pub fn find(
    database: &Connection,
    sha256: Digest,
    device: DeviceId,
) -> Result<Option<Upload>, DatabaseError> {
    let sql = format!("SELECT {COLUMNS} FROM sending WHERE sha256 = ?1 AND device = ?2");
    Ok(database.query_row(&sql, params![sha256.0, device.0], upload_at).optional()?)
}

/// Returns all uploads of a photograph.
///
/// # Errors
/// Returns a [`DatabaseError`] when the database fails.
pub fn all_of(database: &Connection, sha256: Digest) -> Result<Vec<Upload>, DatabaseError> {
    let mut statement = database.prepare(&format!("SELECT {COLUMNS} FROM sending WHERE sha256 = ?1"))?;
    let rows = statement.query_map([sha256.0], upload_at)?;
    Ok(rows.collect::<Result<_, _>>()?)
}

/// Returns the number of a device's unfinished uploads.
///
/// # Errors
/// Returns a [`DatabaseError`] when the database fails.
pub fn under_way(database: &Connection, device: DeviceId) -> Result<u64, DatabaseError> {
    let sql = "SELECT count(*) FROM sending WHERE device = ?1";
    Ok(database.query_row(sql, [device.0], |row| row.get::<_, i64>(0))?.cast_unsigned())
}

/// Inserts an upload, or changes the length of an existing one, which then starts from the beginning.
///
/// # Errors
/// Returns a [`DatabaseError`] when the database fails.
pub fn begin(database: &Connection, upload: &Upload, now: UtcMillis) -> Result<(), DatabaseError> {
    database.execute(
        "INSERT OR REPLACE INTO sending(sha256, device, length, media, began_at, moved_at)
         VALUES(?1, ?2, ?3, ?4, ?5, ?5)",
        params![upload.sha256.0, upload.device.0, upload.length.cast_signed(), upload.media, now.0],
    )?;
    Ok(())
}

/// Records that more bytes of an upload have arrived.
///
/// # Errors
/// Returns a [`DatabaseError`] when the database fails.
pub fn moved(
    database: &Connection,
    sha256: Digest,
    device: DeviceId,
    now: UtcMillis,
) -> Result<(), DatabaseError> {
    database.execute(
        "UPDATE sending SET moved_at = ?3 WHERE sha256 = ?1 AND device = ?2",
        params![sha256.0, device.0, now.0],
    )?;
    Ok(())
}

/// Deletes an upload that is complete, was refused or has stopped.
///
/// # Errors
/// Returns a [`DatabaseError`] when the database fails.
pub fn end(database: &Connection, sha256: Digest, device: DeviceId) -> Result<(), DatabaseError> {
    database.execute("DELETE FROM sending WHERE sha256 = ?1 AND device = ?2", params![sha256.0, device.0])?;
    Ok(())
}

/// Returns the uploads that have received nothing since `since`.
///
/// # Errors
/// Returns a [`DatabaseError`] when the database fails.
pub fn at_rest(database: &Connection, since: UtcMillis) -> Result<Vec<Upload>, DatabaseError> {
    let mut statement = database.prepare(&format!("SELECT {COLUMNS} FROM sending WHERE moved_at < ?1"))?;
    let rows = statement.query_map([since.0], upload_at)?;
    Ok(rows.collect::<Result<_, _>>()?)
}

/// Returns all unfinished uploads.
///
/// # Errors
/// Returns a [`DatabaseError`] when the database fails.
pub fn all(database: &Connection) -> Result<Vec<Upload>, DatabaseError> {
    at_rest(database, UtcMillis(i64::MAX))
}

/// Records the photographs named by entries that were not yet examined at the last start of the server:
/// entries from before this table existed, and entries that arrived just before a power failure.
///
/// # Errors
/// Returns an [`OfficeError`] when the ledger or the database cannot be read.
pub fn name_from(ledger: &LedgerReader, database: &mut OfficeDatabase) -> Result<(), OfficeError> {
    let reached = database.connection().query_row(
        "SELECT CAST(value AS INTEGER) FROM setting WHERE key = ?1",
        [NAMED_TO],
        |row| row.get(0),
    );
    let mut reached: i64 = reached.optional().map_err(DatabaseError::from)?.unwrap_or(0);
    loop {
        let failed = |error: IndexError| DatabaseError::Database(error.to_string());
        let (entries, next) = ledger.entries_after(reached, 5_000).map_err(failed)?;
        if next == reached {
            return Ok(());
        }
        let photos: Vec<(Digest, u64)> = entries
            .iter()
            .filter_map(|entry| match &entry.body.says {
                Statement::Photo { photo, .. } => Some((photo.sha256, photo.length)),
                _ => None,
            })
            .collect();
        reached = next;
        database.in_one_step(|database| {
            name(database, &photos)?;
            database.execute(
                "INSERT OR REPLACE INTO setting(key, value) VALUES(?1, ?2)",
                params![NAMED_TO, reached.to_string()],
            )?;
            Ok(())
        })?;
    }
}

/// The setting with the number of the last ledger entry that was examined.
const NAMED_TO: &str = "photos_named_to";

/// Stores the photographs that entries name, with the length that each entry states. Entries may state
/// different lengths; all of them are stored.
///
/// # Errors
/// Returns a [`DatabaseError`] when the database fails.
pub fn name(database: &Connection, photos: &[(Digest, u64)]) -> Result<(), DatabaseError> {
    let mut statement =
        database.prepare_cached("INSERT OR IGNORE INTO photo_named(sha256, length) VALUES(?1, ?2)")?;
    for (sha256, length) in photos {
        statement.execute(params![sha256.0, length.cast_signed()])?;
    }
    Ok(())
}

/// Returns the lengths that entries state for a photograph. The list is empty if no entry names it.
///
/// # Errors
/// Returns a [`DatabaseError`] when the database fails.
pub fn lengths_of(database: &Connection, sha256: Digest) -> Result<Vec<u64>, DatabaseError> {
    let mut statement = database.prepare_cached("SELECT length FROM photo_named WHERE sha256 = ?1")?;
    let rows = statement.query_map([sha256.0], |row| Ok(row.get::<_, i64>(0)?.cast_unsigned()))?;
    Ok(rows.collect::<Result<_, _>>()?)
}
