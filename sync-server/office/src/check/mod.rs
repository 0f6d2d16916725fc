//! The full check of a data folder: every entry, change, receipt and certificate, the log's tree, every
//! photograph, the databases and the audit chain. Each damaged row is named.
//!
//! The check writes nothing, and works beside a running server and on a write-protected copy. Called by
//! `farsiding check`, by the server every night, and before a backup. Repairs are in `mend`.

mod log_tree;
pub mod mend;
mod photographs;
mod records;

use std::path::Path;
use std::time::Instant;

use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::{AnyTime, PublicKey, Trusts};
use farsiding_core::store::{SqliteStore, organisation_keys};
use farsiding_postgres::PostgresStore;
use rusqlite::{Connection, OpenFlags};
use serde::{Deserialize, Serialize};

use super::OfficeError;
use super::audit_anchor;
use super::audit_chain;
use super::backup::SNAPSHOTS;
use super::data_folder::DataFolder;
use super::ledger::LedgerPlace;
use super::ledger_copy::{self, CopyError};
use super::reading;
use farsiding_host::private_file;

/// The number of damaged rows that are named. Further ones are only counted.
const MOST_NAMED: usize = 1000;
/// The file with the last result, which survives a restart of the server.
const RESULT: &str = "check.json";

/// A damaged row.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub struct Damage {
    /// The kind of the row: `entry`, `change`, `receipt`, `certificate`, `log`, `photograph`, `database` or
    /// `audit`.
    pub part: String,
    /// The identity of the row.
    pub row: String,
    /// What is wrong with the row.
    pub why: String,
}

/// The result of the full check.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct CheckReport {
    /// The time at which the check began, in milliseconds since 1970.
    pub at: i64,
    /// The duration of the check, in milliseconds.
    pub took_millis: u64,
    /// The number of entries read.
    pub entries: u64,
    /// The number of changes of documents read.
    pub changes: u64,
    /// The number of receipts read.
    pub receipts: u64,
    /// The number of certificates read.
    pub certificates: u64,
    /// The number of leaves of the log read.
    pub leaves: u64,
    /// The number of photographs read.
    pub photographs: u64,
    /// The total size of the photographs, in bytes.
    pub photograph_bytes: u64,
    /// The number of audit rows read.
    pub audit_rows: u64,
    /// The damaged rows, at most the first thousand.
    pub damage: Vec<Damage>,
    /// The number of further damaged rows.
    pub more: u64,
}

impl CheckReport {
    /// Returns whether nothing is damaged.
    pub fn is_whole(&self) -> bool {
        self.damage.is_empty()
    }

    /// Returns the time at which the check began.
    pub fn began(&self) -> UtcMillis {
        UtcMillis(self.at)
    }

    /// Returns the number of damaged rows.
    pub fn damaged(&self) -> u64 {
        self.damage.len() as u64 + self.more
    }

    /// Returns a sentence on how much was read.
    pub fn counts(&self) -> String {
        format!(
            "{} entries, {} changes, {} receipts, {} certificates, {} leaves of the log, {} photographs ({} bytes), {} \
             rows of the audit",
            self.entries,
            self.changes,
            self.receipts,
            self.certificates,
            self.leaves,
            self.photographs,
            self.photograph_bytes,
            self.audit_rows
        )
    }

    fn damaged_row(&mut self, part: &str, row: impl Into<String>, why: impl Into<String>) {
        if self.damage.len() < MOST_NAMED {
            self.damage.push(Damage { part: part.to_owned(), row: row.into(), why: why.into() });
        } else {
            self.more += 1;
        }
    }
}

/// A callback for the progress, called with the kind of row, the number of finished rows and the total.
/// Returns whether to continue.
pub type Progress<'a> = &'a mut dyn FnMut(&str, u64, u64) -> bool;

/// The connections that a check reads from.
struct Reading {
    ledger: Connection,
    store: SqliteStore,
    /// The database that the ledger was copied from, if it is in one.
    live: Option<PostgresStore>,
    database: Connection,
}

/// Runs the full check of a data folder.
///
/// # Errors
/// Returns an [`OfficeError`] when the folder cannot be read at all, or when the check was told to stop.
/// Damage is not an error but is returned as [`Damage`].
pub fn check(
    folder: &DataFolder,
    key: &PublicKey,
    now: UtcMillis,
    progress: Progress<'_>,
) -> Result<CheckReport, OfficeError> {
    let began = Instant::now();
    let mut report = CheckReport { at: now.0, ..CheckReport::default() };
    let unread =
        |file: &Path, why: String| folder.refuse(&format!("{} cannot be read: {why}", file.display()));
    let open = |file: &Path| {
        let flags = OpenFlags::SQLITE_OPEN_READ_ONLY | OpenFlags::SQLITE_OPEN_URI;
        let uri = reading::uri(file).map_err(|why| unread(file, why.to_string()))?;
        let connection =
            Connection::open_with_flags(uri, flags).map_err(|why| unread(file, why.to_string()))?;
        let patience = std::time::Duration::from_secs(30);
        connection.busy_timeout(patience).map_err(|why| unread(file, why.to_string()))?;
        Ok::<_, OfficeError>(connection)
    };
    let (mut ledger_file, database_file) = (folder.ledger_file(), folder.database_file());
    // A ledger in a database is read as it is at one moment, from a copy of its rows.
    let (mut live, mut _copied) = (None, None);
    if let LedgerPlace::Database { address, organisation } = folder.ledger_place() {
        let place = tempfile::Builder::new().prefix(SNAPSHOTS).tempdir_in(folder.path());
        let place = place.map_err(|why| unread(folder.path(), why.to_string()))?;
        ledger_file = place.path().join("ledger.db");
        let copied = ledger_copy::into_file((&address, organisation), &ledger_file, progress);
        live = Some(copied.map_err(|why| match why {
            CopyError::Store(error) => OfficeError::Ledger(error),
            why => folder.refuse(&format!("its ledger was not read through: {why}")),
        })?);
        _copied = Some(place);
    }
    let store = reading::store(&ledger_file)?.ok_or_else(|| {
        folder.refuse("its ledger was written by an earlier version; start this version's server on it once")
    })?;
    let reading = Reading { ledger: open(&ledger_file)?, store, live, database: open(&database_file)? };
    for (name, connection) in [("ledger.db", &reading.ledger), ("server.db", &reading.database)] {
        database(name, connection, &mut report, progress);
    }
    let stopped = || folder.refuse("the check was stopped before its end");
    let failed = |why: rusqlite::Error| unread(&ledger_file, why.to_string());
    records::entries(&reading, &mut report, progress).map_err(failed)?.then_some(()).ok_or_else(stopped)?;
    records::changes(&reading, &mut report, progress).map_err(failed)?.then_some(()).ok_or_else(stopped)?;
    // The check looks for damage only, so a signature counts even if its key was not entitled to sign at the
    // time.
    let keys = organisation_keys(&reading.store, key)?;
    let key: &dyn Trusts = &AnyTime(&keys);
    records::receipts(&reading, key, &mut report).map_err(failed)?;
    records::certificates(&reading, key, &mut report).map_err(failed)?;
    log_tree::check(&reading, key, &mut report, progress)?.then_some(()).ok_or_else(stopped)?;
    photographs::check(&reading, &folder.photo_folder(), &mut report, progress)
        .map_err(failed)?
        .then_some(())
        .ok_or_else(stopped)?;
    audit(&reading, key, &mut report);
    report.took_millis = u64::try_from(began.elapsed().as_millis()).unwrap_or(u64::MAX);
    Ok(report)
}

/// Runs SQLite's own checks of pages, indexes and references.
fn database(name: &str, connection: &Connection, report: &mut CheckReport, progress: Progress<'_>) {
    let _ = progress(name, 0, 1);
    let found = connection.prepare("PRAGMA integrity_check(20)").and_then(|mut statement| {
        let rows = statement.query_map([], |row| row.get::<_, String>(0))?;
        rows.collect::<Result<Vec<_>, _>>()
    });
    match found {
        Ok(lines) => {
            for line in lines.into_iter().filter(|line| line != "ok") {
                report.damaged_row("database", name, line);
            }
        }
        Err(why) => report.damaged_row("database", name, why.to_string()),
    }
}

fn audit(reading: &Reading, key: &dyn Trusts, report: &mut CheckReport) {
    let anchor = audit_anchor::newest(&reading.store, key, &reading.database);
    let known = anchor.ok().flatten().map(|anchor| anchor.head());
    match audit_chain::check(&reading.database, known) {
        Ok(chain) => {
            report.audit_rows = chain.rows;
            if let Some(broken) = chain.broken {
                report.damaged_row("audit", format!("row {}", broken.number), broken.why);
            }
        }
        Err(why) => report.damaged_row("audit", "the chain", why.to_string()),
    }
}

/// Returns the last stored result of a folder.
pub fn last(folder: &DataFolder) -> Option<CheckReport> {
    let text = std::fs::read(folder.path().join(RESULT)).ok()?;
    serde_json::from_slice(&text).ok()
}

/// Stores a result for [`last`]. A failure is ignored, because the result itself is complete.
pub fn keep(folder: &DataFolder, report: &CheckReport) {
    let path = folder.path().join(RESULT);
    let kept = serde_json::to_vec(report).map_err(std::io::Error::from).and_then(|text| {
        private_file::make_private(&path)?;
        farsiding_host::whole_file::write(&path, &text)
    });
    if let Err(error) = kept {
        tracing::warn!(%error, "the result of reading the folder through could not be kept");
    }
}
