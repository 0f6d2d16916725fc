//! The daily limits for one device, and the limits on what is kept of refused data.
//!
//! A day is a day in UTC by the server's clock. This file holds the limits and their names on the command
//! line, counts in the database, and answers the core's questions about limits. The frequency of requests is
//! limited in `state::concurrency`, and uploads are handled in `http::photo_routes`.

pub mod quarantine;

use std::collections::BTreeSet;
use std::str::FromStr;

use farsiding_core::clock::UtcMillis;
use farsiding_core::document::CheckedChange;
use farsiding_core::ids::{DeviceId, Digest, Subject};
use farsiding_core::store::{Store, StoreError};
use farsiding_core::sync::wire::Change;
use farsiding_core::sync::{Allowance, Over};
use rusqlite::{Connection, OptionalExtension as _, params};

use crate::database_error::DatabaseError;
use quarantine::{BEGINNING, RefusedItem};

const DAY: i64 = 24 * 60 * 60 * 1000;
/// The day under which late entries of a revoked device are counted.
const TRAY: i64 = -1;

/// The limits. The defaults are many times what a busy phone sends (a default of this tool, no source).
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Quotas {
    /// The bytes of changes that a device may send per day.
    pub bytes: u64,
    /// The entries per day.
    pub entries: u64,
    /// The visits opened per day.
    pub visits: u64,
    /// The photographs announced per day.
    pub photos: u64,
    /// The bytes of photographs per day.
    pub photo_bytes: u64,
    /// The refused bytes per day of which the digest, the reason and the first bytes are kept. Further ones
    /// are only counted.
    pub refused_bytes: u64,
    /// The entries that a revoked device may still send, in all.
    pub tray_entries: u64,
    /// The bytes of changes that a revoked device may still send, in all.
    pub tray_bytes: u64,
    /// The unfinished uploads of one device at the same time.
    pub uploads: u64,
    /// The days after which a stopped upload is deleted.
    pub upload_days: u64,
}

impl Default for Quotas {
    fn default() -> Self {
        Quotas {
            bytes: 64 * 1024 * 1024,
            entries: 20_000,
            visits: 500,
            photos: 2_000,
            photo_bytes: 4 * 1024 * 1024 * 1024,
            refused_bytes: 1024 * 1024,
            tray_entries: 200,
            tray_bytes: 256 * 1024,
            uploads: 200,
            upload_days: 14,
        }
    }
}

impl Quotas {
    /// Returns a limit by its name on the command line.
    fn named(&mut self, name: &str) -> Option<&mut u64> {
        Some(match name {
            "bytes" => &mut self.bytes,
            "entries" => &mut self.entries,
            "visits" => &mut self.visits,
            "photos" => &mut self.photos,
            "photo-bytes" => &mut self.photo_bytes,
            "refused-bytes" => &mut self.refused_bytes,
            "tray-entries" => &mut self.tray_entries,
            "tray-bytes" => &mut self.tray_bytes,
            "uploads" => &mut self.uploads,
            "upload-days" => &mut self.upload_days,
            _ => return None,
        })
    }

    /// Returns these limits with one of them changed.
    #[must_use]
    pub fn with(mut self, setting: &QuotaSetting) -> Quotas {
        if let Some(bound) = self.named(&setting.name) {
            *bound = setting.most;
        }
        self
    }
}

/// A limit as typed: `NAME=NUMBER`.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct QuotaSetting {
    name: String,
    most: u64,
}

impl FromStr for QuotaSetting {
    type Err = String;

    fn from_str(text: &str) -> Result<QuotaSetting, String> {
        let (name, most) = text.split_once('=').ok_or("a quota is written NAME=NUMBER")?;
        if Quotas::default().named(name).is_none() {
            return Err(format!("\"{name}\" is no quota; see the help for their names"));
        }
        let most = most.parse().map_err(|_| format!("\"{most}\" is no whole number"))?;
        Ok(QuotaSetting { name: name.to_owned(), most })
    }
}

/// What a device sent in a day, or, for a revoked device, in all.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Brought {
    /// The bytes of changes.
    pub bytes: u64,
    /// The number of new entries.
    pub entries: u64,
    /// The number of new visits.
    pub visits: u64,
    /// The number of photographs announced.
    pub photos: u64,
    /// The bytes of photographs announced.
    pub photo_bytes: u64,
    /// The number of refused messages.
    pub refused: u64,
    /// The bytes of refused messages.
    pub refused_bytes: u64,
}

/// Returns the day under which something is counted.
pub const fn day_of(now: UtcMillis) -> i64 {
    now.0.div_euclid(DAY)
}

/// Returns the beginning of the next day.
pub const fn tomorrow(now: UtcMillis) -> UtcMillis {
    UtcMillis(day_of(now).saturating_add(1).saturating_mul(DAY))
}

/// Returns what a device sent in a day.
///
/// # Errors
/// Returns a [`DatabaseError`] when the database fails.
pub fn brought(database: &Connection, device: DeviceId, day: i64) -> Result<Brought, DatabaseError> {
    let sql = "SELECT bytes, entries, visits, photos, photo_bytes, refused, refused_bytes
               FROM brought WHERE device = ?1 AND day = ?2";
    let found = database.prepare_cached(sql)?.query_row(params![device.0, day], |row| {
        let number = |at: usize| Ok::<_, rusqlite::Error>(row.get::<_, i64>(at)?.cast_unsigned());
        Ok(Brought {
            bytes: number(0)?,
            entries: number(1)?,
            visits: number(2)?,
            photos: number(3)?,
            photo_bytes: number(4)?,
            refused: number(5)?,
            refused_bytes: number(6)?,
        })
    });
    Ok(found.optional()?.unwrap_or_default())
}

/// Stores what a device has sent so far. Old days are deleted.
///
/// # Errors
/// Returns a [`DatabaseError`] when the database fails.
pub fn note(
    database: &Connection,
    device: DeviceId,
    day: i64,
    brought: &Brought,
) -> Result<(), DatabaseError> {
    let sql =
        "INSERT OR REPLACE INTO brought(device, day, bytes, entries, visits, photos, photo_bytes, refused,
                                              refused_bytes)
               VALUES(?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9)";
    database.prepare_cached(sql)?.execute(params![
        device.0,
        day,
        brought.bytes.cast_signed(),
        brought.entries.cast_signed(),
        brought.visits.cast_signed(),
        brought.photos.cast_signed(),
        brought.photo_bytes.cast_signed(),
        brought.refused.cast_signed(),
        brought.refused_bytes.cast_signed()
    ])?;
    database
        .prepare_cached("DELETE FROM brought WHERE device = ?1 AND day >= 0 AND day < ?2")?
        .execute(params![device.0, day.saturating_sub(31)])?;
    Ok(())
}

/// The counts of one device while one of its rounds is answered.
#[derive(Debug)]
pub struct Account<'q> {
    quotas: &'q Quotas,
    device: DeviceId,
    day: i64,
    now: UtcMillis,
    /// What the device has sent, including this round.
    brought: Brought,
    revoked: bool,
    /// The limit that was passed. Everything after it in the round is deferred as well, because it may build
    /// on what was deferred.
    over: Option<Over>,
    /// The visits known to be in the ledger, so that each is looked up only once.
    begun: BTreeSet<Subject>,
    aside: Vec<RefusedItem>,
}

impl<'q> Account<'q> {
    /// Returns the counts of a device from the database.
    ///
    /// # Errors
    /// Returns a [`DatabaseError`] when the database fails.
    pub fn open(
        quotas: &'q Quotas,
        database: &Connection,
        device: DeviceId,
        revoked: bool,
        now: UtcMillis,
    ) -> Result<Account<'q>, DatabaseError> {
        let day = if revoked { TRAY } else { day_of(now) };
        let brought = brought(database, device, day)?;
        Ok(Account {
            quotas,
            device,
            day,
            now,
            brought,
            revoked,
            over: None,
            begun: BTreeSet::new(),
            aside: Vec::new(),
        })
    }

    /// Begins another round of the same device.
    pub fn next_round(&mut self) {
        self.over = None;
    }

    /// Stores what the round brought, and what of it was refused.
    ///
    /// # Errors
    /// Returns a [`DatabaseError`] when the database fails.
    pub fn close(&self, database: &Connection) -> Result<(), DatabaseError> {
        for refused in &self.aside {
            quarantine::keep(database, self.device, refused)?;
        }
        note(database, self.device, self.day, &self.brought)
    }

    /// Returns the limit that this change would pass, in words.
    fn bound(&self, bytes: u64, entries: u64, opens: u64) -> Option<String> {
        let (quotas, brought) = (self.quotas, &self.brought);
        let most = |held: u64, more: u64, most: u64, of: &str| {
            (held.saturating_add(more) > most).then(|| format!("more than {most} {of}"))
        };
        if self.revoked {
            return most(brought.entries, entries, quotas.tray_entries, "entries of a revoked device")
                .or_else(|| most(brought.bytes, bytes, quotas.tray_bytes, "bytes of a revoked device"));
        }
        most(brought.entries, entries, quotas.entries, "entries of one device in a day")
            .or_else(|| most(brought.bytes, bytes, quotas.bytes, "bytes of one device in a day"))
            .or_else(|| most(brought.visits, opens, quotas.visits, "records opened by one device in a day"))
    }
}

impl Allowance for Account<'_> {
    fn take(
        &mut self,
        store: &dyn Store,
        subject: Subject,
        change: &CheckedChange,
    ) -> Result<Option<Over>, StoreError> {
        if store.has_change(subject, change.hash())? {
            return Ok(None);
        }
        if self.over.is_some() {
            return Ok(self.over.clone());
        }
        let mut entries = 0;
        for entry in change.entries() {
            entries += u64::from(store.entry(entry.id)?.is_none());
        }
        let bytes = change.bytes().len() as u64;
        // A visit counts as new when the first entries of its document arrive, because the office lists it
        // from then on.
        let begins = matches!(subject, Subject::Visit(_))
            && !self.begun.contains(&subject)
            && !store.holds_any_of(subject)?;
        let opens = u64::from(begins);
        if let Some(bound) = self.bound(bytes, entries, opens) {
            let lifts = if self.revoked {
                "this device is revoked; who runs the office's server can raise it (tray-entries, tray-bytes)"
            } else {
                "the rest is taken tomorrow, or when who runs the office's server raises it"
            };
            let over = Over { why: format!("{bound}: {lifts}"), until: tomorrow(self.now) };
            tracing::warn!(device = self.device.short(), bound, "a device brings too much");
            self.over = Some(over.clone());
            return Ok(Some(over));
        }
        self.brought.bytes += bytes;
        self.brought.entries += entries;
        self.brought.visits += opens;
        self.begun.insert(subject);
        Ok(None)
    }

    fn set_aside(&mut self, refused: &Change, why: &str) {
        let length = refused.bytes.len() as u64;
        self.brought.refused += 1;
        self.brought.refused_bytes = self.brought.refused_bytes.saturating_add(length);
        if self.brought.refused_bytes > self.quotas.refused_bytes {
            return; // only counted and reported to the device
        }
        let beginning = refused.bytes.get(..BEGINNING).unwrap_or(&refused.bytes).to_vec();
        let (digest, subject, why) = (Digest::of(&refused.bytes), Some(refused.subject), why.to_owned());
        self.aside.push(RefusedItem { digest, subject, length, beginning, why, at: self.now });
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]
    use super::*;

    #[test]
    fn a_quota_is_named_and_numbered_or_refused() {
        let setting: QuotaSetting = "entries=12".parse().unwrap();
        assert_eq!(Quotas::default().with(&setting).entries, 12);
        for bad in ["entries", "entries=", "entries=-1", "entry=1", "=1"] {
            assert!(bad.parse::<QuotaSetting>().is_err(), "{bad}");
        }
    }

    #[test]
    fn a_day_ends_at_midnight_of_utc() {
        assert_eq!((day_of(UtcMillis(DAY - 1)), day_of(UtcMillis(DAY))), (0, 1));
        assert_eq!(tomorrow(UtcMillis(DAY)), UtcMillis(2 * DAY));
        assert_eq!(tomorrow(UtcMillis(i64::MAX)).0, i64::MAX, "no clock overflows it");
    }
}
