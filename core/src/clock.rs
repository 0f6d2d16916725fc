//! Time as a device knows it: its clock, its offset from UTC, and how far it was from the server's.
//!
//! Nothing in the core reads a clock; shells hand one in (invariant 5). A claimed time is kept as the
//! device had it, however wrong: what is known of its error stands beside it.

use chrono::{DateTime, FixedOffset, Utc};
use serde::{Deserialize, Serialize};
use std::fmt;

/// Milliseconds since 1970-01-01T00:00:00Z.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(transparent)]
pub struct UtcMillis(pub i64);

impl UtcMillis {
    /// The instant, for times chrono can hold (years −262143 to 262142).
    pub fn to_datetime(self) -> Option<DateTime<Utc>> {
        DateTime::from_timestamp_millis(self.0)
    }

    /// Milliseconds from `earlier` to here, saturating.
    pub fn since(self, earlier: UtcMillis) -> i64 {
        self.0.saturating_sub(earlier.0)
    }

    /// Reads RFC 3339 with any offset.
    pub fn read(text: &str) -> Option<UtcMillis> {
        DateTime::parse_from_rfc3339(text.trim()).ok().map(|t| UtcMillis(t.timestamp_millis()))
    }

    /// RFC 3339 in UTC, to the second; `?` for instants beyond the calendar.
    pub fn rfc3339(self) -> String {
        self.to_datetime()
            .map_or_else(|| "?".to_owned(), |t| t.to_rfc3339_opts(chrono::SecondsFormat::Secs, true))
    }

    /// Date and time in a zone, with the zone's abbreviation: `2026-11-24 14:05 CST`.
    pub fn shown_in(self, zone: chrono_tz::Tz) -> String {
        self.to_datetime().map_or_else(
            || "?".to_owned(),
            |t| t.with_timezone(&zone).format("%Y-%m-%d %H:%M %Z").to_string(),
        )
    }
}

impl fmt::Debug for UtcMillis {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.rfc3339())
    }
}

/// When an entry says it was made.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Stamp {
    /// The device's clock.
    pub at: UtcMillis,
    /// The device's offset from UTC in minutes, −1439…1439.
    pub offset_minutes: i16,
    /// Device clock minus server clock in milliseconds when they last spoke; absent when they never did.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub ahead_millis: Option<i64>,
}

impl Stamp {
    /// The claimed time corrected by the last known difference from the server's clock.
    pub fn corrected(&self) -> UtcMillis {
        UtcMillis(self.at.0.saturating_sub(self.ahead_millis.unwrap_or(0)))
    }

    /// The claimed time as the device displayed it.
    pub fn local(&self) -> String {
        let offset = FixedOffset::east_opt(i32::from(self.offset_minutes) * 60);
        match (self.at.to_datetime(), offset) {
            (Some(t), Some(offset)) => t.with_timezone(&offset).format("%Y-%m-%d %H:%M %:z").to_string(),
            _ => "?".to_owned(),
        }
    }
}

/// A device's clock.
pub trait Clock: Send {
    /// The device's time and offset now.
    fn now(&self) -> (UtcMillis, i16);
}

/// A clock that stands where it is put: for tests, simulations and replays. Clones share their hands.
#[derive(Clone, Debug, Default)]
pub struct HandSetClock {
    millis: std::sync::Arc<std::sync::atomic::AtomicI64>,
    offset_minutes: i16,
}

impl HandSetClock {
    /// A clock at `at` showing an offset of `offset_minutes`.
    pub fn at(at: UtcMillis, offset_minutes: i16) -> HandSetClock {
        let clock = HandSetClock { offset_minutes, ..HandSetClock::default() };
        clock.set(at);
        clock
    }

    /// Puts the hands to `at`.
    pub fn set(&self, at: UtcMillis) {
        self.millis.store(at.0, std::sync::atomic::Ordering::SeqCst);
    }

    /// Moves the hands on by `millis`.
    pub fn advance(&self, millis: i64) {
        self.millis.fetch_add(millis, std::sync::atomic::Ordering::SeqCst);
    }
}

impl Clock for HandSetClock {
    fn now(&self) -> (UtcMillis, i16) {
        (UtcMillis(self.millis.load(std::sync::atomic::Ordering::SeqCst)), self.offset_minutes)
    }
}
