//! Visits kept out of the office's lists: records that no enrolled device opened. Their entries stay in the ledger
//! and its log, their page can still be opened, and they can be shown again.

use farsiding_core::authority::Authority;
use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::Entry;
use farsiding_core::ids::{EntryId, VisitId};
use farsiding_core::view::opened_of;
use rusqlite::{Connection, params};
use std::collections::BTreeMap;

use crate::database_error::DatabaseError;

/// A visit kept out of the lists, by whom and why.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Hidden {
    /// The visit.
    pub visit: VisitId,
    /// Why.
    pub why: String,
    /// Who did it.
    pub by: String,
    /// When.
    pub at: UtcMillis,
}

/// All of them, newest first.
///
/// # Errors
/// [`DatabaseError`], as for every call below.
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

/// Keeps visits out of the lists.
///
/// # Errors
/// [`DatabaseError`].
pub fn hide(database: &Connection, hidden: &[Hidden]) -> Result<(), DatabaseError> {
    for Hidden { visit, why, by, at } in hidden {
        database.execute(
            "INSERT OR IGNORE INTO hidden_visit(visit, why, by, at) VALUES(?1, ?2, ?3, ?4)",
            params![visit.0, why, by, at.0],
        )?;
    }
    Ok(())
}

/// Shows visits again.
///
/// # Errors
/// [`DatabaseError`].
pub fn show_again(database: &Connection, visits: &[VisitId]) -> Result<(), DatabaseError> {
    for visit in visits {
        database.execute("DELETE FROM hidden_visit WHERE visit = ?1", [visit.0])?;
    }
    Ok(())
}

/// Whether nobody who may opened this record: it is no stay as far as the organisation is concerned. `received` says
/// when each entry came in, where that is known.
pub fn is_phantom(entries: &[Entry], received: &BTreeMap<EntryId, UtcMillis>, authority: &Authority) -> bool {
    let entries = entries.iter().map(|entry| (entry, received.get(&entry.id).copied()));
    opened_of(authority, entries).is_none()
}
