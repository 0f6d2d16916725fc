//! Uploads of photographs as the database has them: which were announced by whom, which an entry names, which
//! have not gone on for too long.
//!
//! Does not live here: their bytes (`photo_store`), the protocol (`http::photo_routes`).

use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::Statement;
use farsiding_core::ids::{DeviceId, Digest};
use rusqlite::{Connection, OptionalExtension as _, Row, params};

use super::OfficeError;
use super::index::IndexError;
use super::index::ledger_reader::LedgerReader;
use super::office_database::OfficeDatabase;
use crate::database_error::DatabaseError;

/// A photograph on its way in.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Upload {
    /// SHA-256 of its bytes.
    pub sha256: Digest,
    /// Who sends it: two devices that send the same do not get in each other's way.
    pub device: DeviceId,
    /// The number of its bytes.
    pub length: u64,
    /// Media type.
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

/// A device's upload under way.
///
/// # Errors
/// [`DatabaseError`], as for every call below.
pub fn find(
    database: &Connection,
    sha256: Digest,
    device: DeviceId,
) -> Result<Option<Upload>, DatabaseError> {
    let sql = format!("SELECT {COLUMNS} FROM sending WHERE sha256 = ?1 AND device = ?2");
    Ok(database.query_row(&sql, params![sha256.0, device.0], upload_at).optional()?)
}

/// All uploads of a photograph.
///
/// # Errors
/// [`DatabaseError`].
pub fn all_of(database: &Connection, sha256: Digest) -> Result<Vec<Upload>, DatabaseError> {
    let mut statement = database.prepare(&format!("SELECT {COLUMNS} FROM sending WHERE sha256 = ?1"))?;
    let rows = statement.query_map([sha256.0], upload_at)?;
    Ok(rows.collect::<Result<_, _>>()?)
}

/// How many uploads of a device are under way.
///
/// # Errors
/// [`DatabaseError`].
pub fn under_way(database: &Connection, device: DeviceId) -> Result<u64, DatabaseError> {
    let sql = "SELECT count(*) FROM sending WHERE device = ?1";
    Ok(database.query_row(sql, [device.0], |row| row.get::<_, i64>(0))?.cast_unsigned())
}

/// Notes an upload, or another length for one that is there: what came of it then begins anew.
///
/// # Errors
/// [`DatabaseError`].
pub fn begin(database: &Connection, upload: &Upload, now: UtcMillis) -> Result<(), DatabaseError> {
    database.execute(
        "INSERT OR REPLACE INTO sending(sha256, device, length, media, began_at, moved_at)
         VALUES(?1, ?2, ?3, ?4, ?5, ?5)",
        params![upload.sha256.0, upload.device.0, upload.length.cast_signed(), upload.media, now.0],
    )?;
    Ok(())
}

/// Notes that more of an upload came.
///
/// # Errors
/// [`DatabaseError`].
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

/// Forgets an upload that is complete, was refused or did not go on.
///
/// # Errors
/// [`DatabaseError`].
pub fn end(database: &Connection, sha256: Digest, device: DeviceId) -> Result<(), DatabaseError> {
    database.execute("DELETE FROM sending WHERE sha256 = ?1 AND device = ?2", params![sha256.0, device.0])?;
    Ok(())
}

/// Uploads that have not gone on since.
///
/// # Errors
/// [`DatabaseError`].
pub fn at_rest(database: &Connection, since: UtcMillis) -> Result<Vec<Upload>, DatabaseError> {
    let mut statement = database.prepare(&format!("SELECT {COLUMNS} FROM sending WHERE moved_at < ?1"))?;
    let rows = statement.query_map([since.0], upload_at)?;
    Ok(rows.collect::<Result<_, _>>()?)
}

/// Every upload under way.
///
/// # Errors
/// [`DatabaseError`].
pub fn all(database: &Connection) -> Result<Vec<Upload>, DatabaseError> {
    at_rest(database, UtcMillis(i64::MAX))
}

/// Notes what the entries of a ledger name that were not looked at when the server started last: those of before
/// this table, and those that came just before a power cut.
///
/// # Errors
/// What reading the ledger or the database fails with.
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

/// The setting that says up to which entry of the ledger this was done.
const NAMED_TO: &str = "photos_named_to";

/// Notes photographs that entries name, with the length each gives. Entries that lie about a length stand
/// beside those that do not.
///
/// # Errors
/// [`DatabaseError`].
pub fn name(database: &Connection, photos: &[(Digest, u64)]) -> Result<(), DatabaseError> {
    let mut statement =
        database.prepare_cached("INSERT OR IGNORE INTO photo_named(sha256, length) VALUES(?1, ?2)")?;
    for (sha256, length) in photos {
        statement.execute(params![sha256.0, length.cast_signed()])?;
    }
    Ok(())
}

/// What the entries that name a photograph give as its length; nothing when none names it.
///
/// # Errors
/// [`DatabaseError`].
pub fn lengths_of(database: &Connection, sha256: Digest) -> Result<Vec<u64>, DatabaseError> {
    let mut statement = database.prepare_cached("SELECT length FROM photo_named WHERE sha256 = ?1")?;
    let rows = statement.query_map([sha256.0], |row| Ok(row.get::<_, i64>(0)?.cast_unsigned()))?;
    Ok(rows.collect::<Result<_, _>>()?)
}
