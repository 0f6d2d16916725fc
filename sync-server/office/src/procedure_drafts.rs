//! Editions of the organisation's procedures while they are made: kept in the office database until they are published
//! or thrown away. Nothing of them leaves the office.
//!
//! The pages of procedures call this module. What a text says is decided in `farsiding_core::procedure`.

use farsiding_core::clock::UtcMillis;
use farsiding_core::ids::Digest;
use rusqlite::{Connection, OptionalExtension as _, Row};

use crate::database_error::DatabaseError;

/// An edition while it is made.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ProcedureDraft {
    /// The number of its row.
    pub number: i64,
    /// The edition that it was started from.
    pub made_from: Digest,
    /// Its text.
    pub text: String,
    /// The account that started it.
    pub begun_by: String,
    /// The account that changed it last.
    pub changed_by: String,
    /// When it was changed last.
    pub changed_at: UtcMillis,
}

const COLUMNS: &str = "number, made_from, text, begun_by, changed_by, changed_at";

fn draft_of(row: &Row<'_>) -> rusqlite::Result<ProcedureDraft> {
    Ok(ProcedureDraft {
        number: row.get(0)?,
        made_from: Digest(row.get(1)?),
        text: row.get(2)?,
        begun_by: row.get(3)?,
        changed_by: row.get(4)?,
        changed_at: UtcMillis(row.get(5)?),
    })
}

/// Starts a draft with a text and returns its number.
///
/// # Errors
/// Returns a [`DatabaseError`] when the database fails.
pub fn begin(
    connection: &Connection,
    (made_from, text): (Digest, &str),
    by: &str,
    now: UtcMillis,
) -> Result<i64, DatabaseError> {
    let sql = "INSERT INTO procedure_draft (made_from, text, begun_by, begun_at, changed_by, changed_at)
               VALUES (?1, ?2, ?3, ?4, ?3, ?4)";
    connection.execute(sql, (made_from.0, text, by, now.0))?;
    Ok(connection.last_insert_rowid())
}

/// Returns all drafts, the one changed last first.
///
/// # Errors
/// Returns a [`DatabaseError`] when the database fails.
pub fn all(connection: &Connection) -> Result<Vec<ProcedureDraft>, DatabaseError> {
    let sql = format!("SELECT {COLUMNS} FROM procedure_draft ORDER BY changed_at DESC, number DESC");
    let mut statement = connection.prepare_cached(&sql)?;
    let rows = statement.query_map([], draft_of)?;
    Ok(rows.collect::<Result<Vec<_>, _>>()?)
}

/// Returns a draft.
///
/// # Errors
/// Returns a [`DatabaseError`] when the database fails.
pub fn one(connection: &Connection, number: i64) -> Result<Option<ProcedureDraft>, DatabaseError> {
    let sql = format!("SELECT {COLUMNS} FROM procedure_draft WHERE number = ?1");
    Ok(connection.query_row(&sql, [number], draft_of).optional()?)
}

/// Keeps a changed text.
///
/// # Errors
/// Returns a [`DatabaseError`] when the database fails.
pub fn keep(
    connection: &Connection,
    (number, text): (i64, &str),
    by: &str,
    now: UtcMillis,
) -> Result<(), DatabaseError> {
    let sql = "UPDATE procedure_draft SET text = ?2, changed_by = ?3, changed_at = ?4 WHERE number = ?1";
    connection.execute(sql, (number, text, by, now.0))?;
    Ok(())
}

/// Throws a draft away.
///
/// # Errors
/// Returns a [`DatabaseError`] when the database fails.
pub fn discard(connection: &Connection, number: i64) -> Result<(), DatabaseError> {
    connection.execute("DELETE FROM procedure_draft WHERE number = ?1", [number])?;
    Ok(())
}
