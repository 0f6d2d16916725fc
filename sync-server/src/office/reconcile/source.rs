//! Where reconciling reads: facts folded from the ledger, settings and papers from the register.
//!
//! The pages take facts from the index, which keeps them up to date; this reads everything once, for the command
//! line and for tests. The only file of this module that touches a database.

use farsiding_core::book::{BookError, Gathered};
use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::PublicKey;
use farsiding_core::procedure::Procedures;
use farsiding_core::store::Store;
use rusqlite::{Connection, OptionalExtension as _};

use super::{HeldPaper, Settings};
use crate::office::facts::Facts;
use crate::office::register::RegisterError;

/// The key settings are kept under, in the register's table of settings.
const SETTINGS: &str = "reconcile";

/// Facts of every stay of a ledger, in no particular order.
///
/// # Errors
/// The store's.
pub fn of_ledger(
    store: &dyn Store,
    key: &PublicKey,
    procedures: &Procedures,
    now: UtcMillis,
) -> Result<Vec<Facts>, BookError> {
    let gathered = Gathered::read(store, Some(key), now)?;
    let facts = gathered.stays().iter().filter_map(|stay| {
        let view = gathered.view(*stay.first()?, procedures)?;
        let site = view.header.site.and_then(|site| gathered.sites.get(&site));
        Some(Facts::of(&view, gathered.entries_of(stay).map(|(_, entry)| entry), site))
    });
    Ok(facts.collect())
}

/// Settings and held papers.
///
/// # Errors
/// The register's.
pub fn of_register(register: &Connection) -> Result<(Settings, Vec<HeldPaper>), RegisterError> {
    Ok((settings(register)?, Vec::new()))
}

/// The settings; the defaults where none were kept or what was kept cannot be read.
///
/// # Errors
/// The register's.
pub fn settings(register: &Connection) -> Result<Settings, RegisterError> {
    let kept: Option<String> = register
        .query_row("SELECT value FROM setting WHERE key = ?1", [SETTINGS], |row| row.get(0))
        .optional()?;
    Ok(kept.and_then(|text| serde_json::from_str(&text).ok()).unwrap_or_default())
}

/// Keeps settings.
///
/// # Errors
/// The register's.
pub fn keep_settings(register: &Connection, settings: &Settings) -> Result<(), RegisterError> {
    let text = serde_json::to_string(settings).map_err(|error| RegisterError::Database(error.to_string()))?;
    register.execute("INSERT OR REPLACE INTO setting(key, value) VALUES(?1, ?2)", [SETTINGS, &text])?;
    Ok(())
}
