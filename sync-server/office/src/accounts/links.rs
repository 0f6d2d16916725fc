//! Links for inspectors: a random secret gives access to one visit and its packet until a given time, or
//! until the link is revoked.
//!
//! A link names the visits that were one stay when the link was made. It does not open visits that are joined
//! with them later.

use farsiding_core::clock::UtcMillis;
use farsiding_core::ids::{Randomness, VisitId};
use rusqlite::{Connection, OptionalExtension as _, Row, params};

use super::{AccountError, hash_of, new_secret};
use crate::names::clean_name;

/// A link to one visit.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Link {
    /// The number of the link's row.
    pub number: i64,
    /// The visit that the link opens.
    pub visit: VisitId,
    /// The visits that were one stay with the visit when the link was made, including the visit itself.
    pub visits: Vec<VisitId>,
    /// For whom the link was made.
    pub label: String,
    /// Who made the link.
    pub made_by: String,
    /// The time at which the link was made.
    pub made_at: UtcMillis,
    /// The time at which the link expires.
    pub expires_at: UtcMillis,
    /// The time at which the link was revoked.
    pub revoked_at: Option<UtcMillis>,
}

impl Link {
    /// Returns whether the link is valid now.
    pub fn is_good(&self, now: UtcMillis) -> bool {
        self.revoked_at.is_none() && now < self.expires_at
    }
}

/// Returns the visits of a link from its row. A link of an earlier version opens only the one visit it names.
pub(super) fn visits_of(visit: VisitId, column: Option<&[u8]>) -> Vec<VisitId> {
    let mut visits = vec![visit];
    for id in column.unwrap_or_default().chunks_exact(16) {
        let id = <[u8; 16]>::try_from(id).map(VisitId);
        visits.extend(id.ok().filter(|id| *id != visit));
    }
    visits
}

fn link_at(row: &Row<'_>) -> rusqlite::Result<Link> {
    let visit = VisitId(row.get("visit")?);
    Ok(Link {
        number: row.get("number")?,
        visit,
        visits: visits_of(visit, row.get::<_, Option<Vec<u8>>>("visits")?.as_deref()),
        label: row.get("label")?,
        made_by: row.get("made_by")?,
        made_at: UtcMillis(row.get("made_at")?),
        expires_at: UtcMillis(row.get("expires_at")?),
        revoked_at: row.get::<_, Option<i64>>("revoked_at")?.map(UtcMillis),
    })
}

/// Creates a link to a visit and to the visits that are one stay with it now. Returns the link's secret,
/// which is stored nowhere.
///
/// # Errors
/// Returns [`AccountError::BadName`] when `label` does not say for whom the link is.
pub fn issue(
    connection: &Connection,
    (visit, visits): (VisitId, &[VisitId]),
    label: &str,
    by: &str,
    (now, expires_at): (UtcMillis, UtcMillis),
    randomness: &mut dyn Randomness,
) -> Result<String, AccountError> {
    let label = clean_name(label).ok_or(AccountError::BadName)?;
    let secret = new_secret(randomness);
    let visits: Vec<u8> = visits.iter().flat_map(|visit| visit.0).collect();
    connection.execute(
        "INSERT INTO link(secret_hash, visit, label, made_by, made_at, expires_at, visits)
         VALUES(?1, ?2, ?3, ?4, ?5, ?6, ?7)",
        params![hash_of("link", &secret).0, visit.0, label, by, now.0, expires_at.0, visits],
    )?;
    Ok(secret)
}

/// Returns the link with this secret, valid or not.
///
/// # Errors
/// Returns an [`AccountError`] when the database fails.
pub fn by_secret(connection: &Connection, secret: &str) -> Result<Option<Link>, AccountError> {
    let hash = hash_of("link", secret);
    let found = connection.query_row("SELECT * FROM link WHERE secret_hash = ?1", [hash.0], link_at);
    Ok(found.optional()?)
}

/// Returns the links to any of these visits, newest first.
///
/// # Errors
/// Returns an [`AccountError`] when the database fails.
pub fn of_visits(connection: &Connection, visits: &[VisitId]) -> Result<Vec<Link>, AccountError> {
    let mut statement = connection.prepare_cached("SELECT * FROM link WHERE visit = ?1")?;
    let mut found = Vec::new();
    for visit in visits {
        let rows = statement.query_map([visit.0], link_at)?;
        found.extend(rows.collect::<Result<Vec<_>, _>>()?);
    }
    found.sort_by_key(|link| std::cmp::Reverse(link.number));
    Ok(found)
}

/// Returns the links that are valid now, the first to expire first.
///
/// # Errors
/// Returns an [`AccountError`] when the database fails.
pub fn good(connection: &Connection, now: UtcMillis) -> Result<Vec<Link>, AccountError> {
    let sql = "SELECT * FROM link WHERE revoked_at IS NULL AND expires_at > ?1 ORDER BY expires_at, number";
    let mut statement = connection.prepare_cached(sql)?;
    let rows = statement.query_map([now.0], link_at)?;
    Ok(rows.collect::<Result<_, _>>()?)
}

/// Revokes a link and ends its sessions at once.
///
/// # Errors
/// Returns an [`AccountError`] when the database fails.
pub fn revoke(connection: &mut Connection, number: i64, now: UtcMillis) -> Result<(), AccountError> {
    let transaction = connection.transaction()?;
    transaction.execute(
        "UPDATE link SET revoked_at = coalesce(revoked_at, ?2) WHERE number = ?1",
        params![number, now.0],
    )?;
    transaction.execute("DELETE FROM session WHERE link = ?1", [number])?;
    transaction.commit()?;
    Ok(())
}
