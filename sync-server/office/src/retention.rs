//! Retention: for how many days data outside the ledger is kept, by kind, with a preview of what would be
//! removed.
//!
//! Nothing is removed from the ledger: entries, changes, receipts and the log stay. Photographs are removed
//! by `photo_removal`, and audit rows from the beginning of their chain. Called every night by `serve`, and
//! by `farsiding retention`.

use farsiding_core::clock::UtcMillis;
use farsiding_core::ids::Digest;
use farsiding_core::store::{Store, StoreError};
use rusqlite::{Connection, params};
use serde::{Deserialize, Serialize};

use super::OfficeError;
use super::data_folder::DataFolder;
use super::index::ledger_reader::LedgerReader;
use super::office_database::OfficeDatabase;
use super::photo_removal::{self, RemovalError};
use super::{accounts::audit, audit_chain};
use crate::database_error::DatabaseError;
use crate::ledger::LedgerPlace;

const DAY: i64 = 86_400_000;
/// The name of the setting.
const SETTING: &str = "retention";

/// A kind of data that may be removed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Kind {
    /// Photographs of records that have received nothing for the given time.
    Photographs,
    /// Rows of the audit.
    AuditRows,
    /// Sessions and known browsers that have not been used for the given time.
    Sessions,
    /// The stored beginnings of refused messages.
    Refused,
}

impl Kind {
    /// All kinds.
    pub const ALL: [Kind; 4] = [Kind::Photographs, Kind::AuditRows, Kind::Sessions, Kind::Refused];

    /// Returns the kind's name on the command line.
    pub const fn as_str(self) -> &'static str {
        match self {
            Kind::Photographs => "photographs",
            Kind::AuditRows => "audit-rows",
            Kind::Sessions => "sessions",
            Kind::Refused => "refused",
        }
    }
}

/// A text that names no kind.
#[derive(Debug, thiserror::Error)]
#[error("\u{201c}{0}\u{201d} is no kind; known: {known}", known = Kind::ALL.map(Kind::as_str).join(", "))]
pub struct UnknownKind(String);

impl std::str::FromStr for Kind {
    type Err = UnknownKind;

    fn from_str(word: &str) -> Result<Kind, UnknownKind> {
        let word = word.trim();
        Kind::ALL.into_iter().find(|kind| kind.as_str() == word).ok_or_else(|| UnknownKind(word.to_owned()))
    }
}

/// The number of days for which each kind is kept. A kind that is not listed is kept for good.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Retention(pub std::collections::BTreeMap<Kind, u32>);

/// The data that is due for removal.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct Due {
    /// The photographs.
    pub photographs: Vec<Digest>,
    /// The number of audit rows.
    pub audit_rows: u64,
    /// The number of sessions and known browsers.
    pub sessions: u64,
    /// The number of refused messages.
    pub refused: u64,
}

impl Due {
    /// Returns whether nothing is due.
    pub fn is_empty(&self) -> bool {
        *self == Due::default()
    }

    /// Returns a sentence on what is due.
    pub fn words(&self) -> String {
        format!(
            "{} photographs, {} rows of the audit, {} sessions and browsers, {} refused beginnings",
            self.photographs.len(),
            self.audit_rows,
            self.sessions,
            self.refused
        )
    }
}

impl Retention {
    /// Reads the settings from the office database.
    ///
    /// # Errors
    /// Returns a [`DatabaseError`] when the database fails.
    pub fn read(database: &OfficeDatabase) -> Result<Retention, DatabaseError> {
        let kept = database.setting(SETTING)?;
        Ok(kept.and_then(|text| serde_json::from_str(&text).ok()).unwrap_or_default())
    }

    /// Stores the settings in the office database.
    ///
    /// # Errors
    /// Returns a [`DatabaseError`] when the database fails.
    pub fn keep(&self, database: &OfficeDatabase) -> Result<(), DatabaseError> {
        let text = serde_json::to_string(self).map_err(|e| DatabaseError::Database(e.to_string()))?;
        database.put_setting(SETTING, &text)
    }

    /// Returns the time before which data of a kind is removed, or `None` if the kind is kept for good.
    fn before(&self, kind: Kind, now: UtcMillis) -> Option<i64> {
        self.0.get(&kind).map(|days| now.0.saturating_sub(i64::from(*days).saturating_mul(DAY)))
    }

    /// Returns what is due for removal now, without changing anything.
    ///
    /// # Errors
    /// Returns an [`OfficeError`] when the office's data cannot be read or written.
    pub fn due(
        &self,
        store: &dyn Store,
        ledger: &LedgerPlace,
        database: &OfficeDatabase,
        now: UtcMillis,
    ) -> Result<Due, OfficeError> {
        let mut due = Due::default();
        if let Some(before) = self.before(Kind::Photographs, now) {
            let reader = LedgerReader::open(ledger).map_err(|e| StoreError::Database(e.to_string()))?;
            let quiet = reader.photographs_quiet_since(UtcMillis(before));
            due.photographs = quiet.map_err(|e| StoreError::Database(e.to_string()))?;
            let gone = photo_removal::removed(store)?;
            due.photographs.retain(|sha256| !gone.iter().any(|one| one.sha256 == *sha256));
        }
        let count = |sql: &str, before: Option<i64>| -> Result<u64, DatabaseError> {
            let Some(before) = before else { return Ok(0) };
            let count: i64 = database.connection().query_row(sql, [before], |row| row.get(0))?;
            Ok(count.cast_unsigned())
        };
        due.audit_rows = match self.before(Kind::AuditRows, now) {
            Some(before) => audit_chain::rows_before(database.connection(), UtcMillis(before))?,
            None => 0,
        };
        let sessions = self.before(Kind::Sessions, now);
        due.sessions = count("SELECT count(*) FROM session WHERE seen_at < ?1", sessions)?
            + count("SELECT count(*) FROM known_browser WHERE seen_at < ?1", sessions)?;
        due.refused = count("SELECT count(*) FROM refused WHERE at < ?1", self.before(Kind::Refused, now))?;
        Ok(due)
    }

    /// Removes what is due, and records in the audit how much of each kind was removed.
    ///
    /// # Errors
    /// Returns an [`OfficeError`]; what was removed before the failure stays removed.
    pub fn carry_out(
        &self,
        store: &mut dyn Store,
        folder: &DataFolder,
        database: &mut OfficeDatabase,
        now: UtcMillis,
    ) -> Result<Due, OfficeError> {
        let due = self.due(store, &folder.ledger_place(), database, now)?;
        if due.is_empty() {
            return Ok(due);
        }
        let why = format!("kept for {} days", self.0.get(&Kind::Photographs).copied().unwrap_or_default());
        for sha256 in &due.photographs {
            match photo_removal::remove(store, &folder.photo_folder(), *sha256, ("retention", &why), now) {
                Ok(_) | Err(RemovalError::Before(_)) => {}
                Err(RemovalError::Ledger(error)) => return Err(error.into()),
                Err(error) => return Err(folder.refuse(&error.to_string())),
            }
        }
        if let Some(before) = self.before(Kind::AuditRows, now) {
            audit_chain::forget_before(database.connection_mut(), UtcMillis(before))?;
        }
        let (sessions, refused) = (self.before(Kind::Sessions, now), self.before(Kind::Refused, now));
        database.in_one_step(|connection| {
            forget(connection, sessions, refused)?;
            let went = crate::audit_chain::Looked {
                at: now,
                who: "retention".to_owned(),
                role: String::new(),
                did: "had go what is kept no longer".to_owned(),
                subject: due.words(),
            };
            audit::note(connection, &went)
        })?;
        Ok(due)
    }
}

fn forget(connection: &Connection, sessions: Option<i64>, refused: Option<i64>) -> Result<(), DatabaseError> {
    if let Some(before) = sessions {
        connection.execute("DELETE FROM session WHERE seen_at < ?1", params![before])?;
        connection.execute("DELETE FROM known_browser WHERE seen_at < ?1", params![before])?;
    }
    if let Some(before) = refused {
        connection.execute("DELETE FROM refused WHERE at < ?1", params![before])?;
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]
    use super::*;
    use crate::ledger::{Ledger as _, OfficeLedger};

    #[test]
    fn what_is_due_is_shown_first_goes_then_and_the_audit_still_holds() {
        let folder = tempfile::tempdir().unwrap();
        let folder = DataFolder::open_or_make(folder.path()).unwrap();
        let mut ledger = OfficeLedger::open(&folder.ledger_place()).unwrap();
        let mut database = OfficeDatabase::open(&folder.database_file()).unwrap();
        let row = |at: i64| crate::audit_chain::Looked {
            at: UtcMillis(at),
            who: "Clerk".to_owned(),
            role: "reader".to_owned(),
            did: "looked".to_owned(),
            subject: "x".to_owned(),
        };
        for day in 1..=10 {
            audit::note(database.connection(), &row(day * DAY)).unwrap();
        }
        let rows = |database: &OfficeDatabase| audit_chain::check(database.connection(), None).unwrap();
        let head = rows(&database).head;
        let kept = Retention([(Kind::AuditRows, 5)].into());
        kept.keep(&database).unwrap();
        assert_eq!(Retention::read(&database).unwrap(), kept);
        let now = UtcMillis(10 * DAY + 1);
        let due = kept.due(ledger.store(), &folder.ledger_place(), &database, now).unwrap();
        assert_eq!((due.audit_rows, rows(&database).rows), (5, 10), "shown, and nothing done");
        kept.carry_out(ledger.store_mut(), &folder, &mut database, now).unwrap();
        let after = rows(&database);
        assert_eq!((after.broken, after.rows), (None, 6), "five went, and that they went is noted");
        assert_eq!(after.head.number, 11);
        // A kept head can still be checked as long as its row exists.
        assert_eq!(audit_chain::check(database.connection(), Some(head)).unwrap().broken, None);
        let gone = audit_chain::Head { number: 2, ..head };
        assert!(audit_chain::check(database.connection(), Some(gone)).unwrap().broken.is_some());
        // The remaining rows are protected against changes and deletion as before.
        assert!(database.connection().execute("DELETE FROM audit WHERE number = 7", []).is_err());
        assert!(kept.carry_out(ledger.store_mut(), &folder, &mut database, now).unwrap().is_empty());
        assert!(kept.before(Kind::Photographs, now).is_none(), "what nobody set is kept");
    }
}
