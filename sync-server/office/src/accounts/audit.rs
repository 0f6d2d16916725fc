//! The audit trail: who looked at what and when, who signed in or failed to, and who did what at the office.
//!
//! Rows are only added, and they form a chain (`audit_chain`). Texts typed by strangers are shortened and put
//! on one line, so that a printed row is always one line.

use farsiding_core::clock::UtcMillis;
use rusqlite::{Connection, Row, params};

use crate::audit_chain::{self, Looked};
use crate::database_error::DatabaseError;

/// Returns a text on one line, of at most 120 characters.
fn one_line(text: &str) -> String {
    let plain =
        text.chars().map(|c| if c.is_control() || matches!(c, '\u{2028}' | '\u{2029}') { ' ' } else { c });
    plain.take(120).collect()
}

/// Adds a row to the audit.
///
/// # Errors
/// Returns a [`DatabaseError`] when the database fails.
pub fn note(connection: &Connection, row: &Looked) -> Result<(), DatabaseError> {
    let kept = Looked {
        at: row.at,
        who: one_line(&row.who),
        role: one_line(&row.role),
        did: one_line(&row.did),
        subject: one_line(&row.subject),
    };
    audit_chain::append(connection, &kept)
}

/// Returns the newest rows about a subject, newest first.
///
/// # Errors
/// Returns a [`DatabaseError`] when the database fails.
pub fn of(connection: &Connection, subject: &str, most: usize) -> Result<Vec<Looked>, DatabaseError> {
    let sql =
        "SELECT at, who, role, did, subject FROM audit WHERE subject = ?1 ORDER BY number DESC LIMIT ?2";
    let mut statement = connection.prepare_cached(sql)?;
    let most = i64::try_from(most).unwrap_or(i64::MAX);
    let rows = statement.query_map(params![subject, most], looked_at)?;
    Ok(rows.collect::<Result<_, _>>()?)
}

/// Returns every act that was ever written, as it is stored.
///
/// # Errors
/// Returns a [`DatabaseError`] when the database fails.
pub fn acts(connection: &Connection) -> Result<Vec<String>, DatabaseError> {
    let mut statement = connection.prepare_cached("SELECT DISTINCT did FROM audit")?;
    let rows = statement.query_map([], |row| row.get(0))?;
    Ok(rows.collect::<Result<_, _>>()?)
}

/// Returns the newest rows that contain a text in any column or have one of the acts, newest first, each with
/// its number. An empty text matches all rows. Only rows before row `before` are returned.
///
/// # Errors
/// Returns a [`DatabaseError`] when the database fails.
pub fn newest(
    connection: &Connection,
    (holds, acts): (&str, &[String]),
    before: i64,
    most: usize,
) -> Result<Vec<(i64, Looked)>, DatabaseError> {
    let sql = "SELECT at, who, role, did, subject, number FROM audit
               WHERE number < ?1
                 AND (?2 = ''
                      OR instr(lower(who || char(10) || did || char(10) || subject), lower(?2)) > 0
                      OR did IN (SELECT value FROM json_each(?4)))
               ORDER BY number DESC LIMIT ?3";
    let mut statement = connection.prepare_cached(sql)?;
    let most = i64::try_from(most).unwrap_or(i64::MAX);
    let acts = serde_json::to_string(acts).map_err(|e| DatabaseError::Database(e.to_string()))?;
    let rows =
        statement.query_map(params![before, holds, most, acts], |row| Ok((row.get(5)?, looked_at(row)?)))?;
    Ok(rows.collect::<Result<_, _>>()?)
}

fn looked_at(row: &Row<'_>) -> rusqlite::Result<Looked> {
    Ok(Looked {
        at: UtcMillis(row.get(0)?),
        who: row.get(1)?,
        role: row.get(2)?,
        did: row.get(3)?,
        subject: row.get(4)?,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_row_stays_on_its_line() {
        let forged = one_line("x\r\n2026-01-01 office signed in\u{2028}y\u{1b}[2J");
        assert!(!forged.chars().any(char::is_control), "{forged:?}");
        assert_eq!(one_line(&"é".repeat(500)).chars().count(), 120);
    }
}
