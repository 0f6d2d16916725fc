//! Visits that are hidden from the office's lists because no enrolled device opened them. Their entries stay
//! in the ledger and its log, their pages can still be opened, and they can be shown again.

use farsiding_core::authority::Authority;
use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::Entry;
use farsiding_core::ids::{EntryId, VisitId};
use farsiding_core::view::opened_of;
use rusqlite::{Connection, params};
use std::collections::BTreeMap;

use crate::database_error::DatabaseError;

/// A hidden visit.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Hidden {
    /// The hidden visit's id.
    pub visit: VisitId,
    /// The reason.
    pub why: String,
    /// Who hid the visit.
    pub by: String,
    /// The time at which the visit was hidden.
    pub at: UtcMillis,
}

/// Returns all hidden visits, newest first.
///
/// # Errors
/// Returns a [`DatabaseError`] when the database fails.
pub fn list(database: &Connection) -> Result<Vec<Hidden>, DatabaseError> {
    let mut statement =
        database.prepare("SELECT visit, why, by, at FROM hidden_visit ORDER BY at DESC, visit")?;
    let rows = statement.query_map([], |row| {
        Ok(Hidden {
            visit: VisitId(row.get(0)?),
            why: row.get(1)?,
            by: row.get(2)?,
            at: UtcMillis(row.get(3)?),
        })
    })?;
    Ok(rows.collect::<Result<_, _>>()?)
}

/// Hides visits from the lists.
///
/// # Errors
/// Returns a [`DatabaseError`] when the database fails.
pub fn hide(database: &Connection, hidden: &[Hidden]) -> Result<(), DatabaseError> {
    for Hidden { visit, why, by, at } in hidden {
        database.execute(
            "INSERT OR IGNORE INTO hidden_visit(visit, why, by, at) VALUES(?1, ?2, ?3, ?4)",
            params![visit.0, why, by, at.0],
        )?;
    }
    Ok(())
}

/// Shows hidden visits again.
///
/// # Errors
/// Returns a [`DatabaseError`] when the database fails.
pub fn show_again(database: &Connection, visits: &[VisitId]) -> Result<(), DatabaseError> {
    for visit in visits {
        database.execute("DELETE FROM hidden_visit WHERE visit = ?1", [visit.0])?;
    }
    Ok(())
}

/// Returns whether a record was opened by nobody with the right to do so, and is therefore no stay of the
/// organisation. `received` holds the known times of arrival of the entries.
pub fn is_phantom(entries: &[Entry], received: &BTreeMap<EntryId, UtcMillis>, authority: &Authority) -> bool {
    let entries = entries.iter().map(|entry| (entry, received.get(&entry.id).copied()));
    opened_of(authority, entries).is_none()
}
