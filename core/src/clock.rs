//! Time as a device knows it: its clock, its offset from UTC, and its last known difference from the server's
//! clock.
//!
//! Nothing in the core reads a clock; shells provide one (invariant 5). A claimed time is stored as the
//! device showed it, even if it is wrong; what is known about its error is stored beside it.

use chrono::{DateTime, Datelike, FixedOffset, NaiveDateTime, Timelike, Utc};
use serde::{Deserialize, Serialize};
use std::fmt::{self, Write as _};

/// Milliseconds since 1970-01-01T00:00:00Z.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
#[serde(transparent)]
pub struct UtcMillis(pub i64);

impl UtcMillis {
    /// Returns the instant for times that the calendar can represent in every zone (about the years −262143
    /// to 262142), and `None` at the very ends of the calendar, where a zone's offset would overflow.
    pub fn to_datetime(self) -> Option<DateTime<Utc>> {
        const TWO_DAYS: i64 = 2 * 24 * 60 * 60 * 1000;
        let first = DateTime::<Utc>::MIN_UTC.timestamp_millis() + TWO_DAYS;
        let last = DateTime::<Utc>::MAX_UTC.timestamp_millis() - TWO_DAYS;
        (first..=last).contains(&self.0).then(|| DateTime::from_timestamp_millis(self.0))?
    }

    /// Returns the milliseconds from `earlier` to this time; the result saturates.
    pub fn since(self, earlier: UtcMillis) -> i64 {
        self.0.saturating_sub(earlier.0)
    }

    /// Parses RFC 3339 with any offset. Returns `None` for any other text.
    pub fn read(text: &str) -> Option<UtcMillis> {
        DateTime::parse_from_rfc3339(text.trim()).ok().map(|t| UtcMillis(t.timestamp_millis()))
    }

    /// Returns RFC 3339 in UTC with whole seconds, or `?` for an instant beyond the calendar.
    pub fn rfc3339(self) -> String {
        self.to_datetime()
            .map_or_else(|| "?".to_owned(), |t| t.to_rfc3339_opts(chrono::SecondsFormat::Secs, true))
    }

    /// Returns date and time in a zone with the zone's abbreviation: `2026-11-24 14:05 CST`.
    pub fn shown_in(self, zone: chrono_tz::Tz) -> String {
        let Some(instant) = self.to_datetime() else { return "?".to_owned() };
        let local = instant.with_timezone(&zone);
        let mut text = to_the_minute(local.naive_local());
        text.push(' ');
        match chrono_tz::OffsetName::abbreviation(local.offset()) {
            Some(abbreviation) => text.push_str(abbreviation),
            None => text.push_str(&local.format("%Z").to_string()),
        }
        text
    }
}

impl UtcMillis {
    /// Returns the time of day in a zone, `14:05`, for times beside another one of the same day there; with the
    /// date otherwise.
    pub fn shown_beside(self, other: UtcMillis, zone: chrono_tz::Tz) -> String {
        let (Some(this), Some(that)) = (self.to_datetime(), other.to_datetime()) else {
            return self.shown_in(zone);
        };
        let (this, that) = (this.with_timezone(&zone), that.with_timezone(&zone));
        let text = to_the_minute(this.naive_local());
        match (this.date_naive() == that.date_naive(), text.split_once(' ')) {
            (true, Some((_, time))) => time.to_owned(),
            _ => text,
        }
    }
}

impl fmt::Debug for UtcMillis {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.rfc3339())
    }
}

/// Formats a time as `2026-11-24 14:05`. The digits are written one by one because a view shows two times for
/// every entry, and parsing a format string for each took half the time of folding a visit.
fn to_the_minute(local: NaiveDateTime) -> String {
    let mut text = String::with_capacity(24);
    let year = local.year();
    if (0..=9999).contains(&year) {
        let _ = write!(text, "{year:04}");
    } else {
        let _ = write!(text, "{year:+05}");
    }
    for (mark, number) in
        [('-', local.month()), ('-', local.day()), (' ', local.hour()), (':', local.minute())]
    {
        text.push(mark);
        for digit in [number / 10 % 10, number % 10] {
            text.push(char::from_digit(digit, 10).unwrap_or('?'));
        }
    }
    text
}

/// The time when an entry was made, as claimed by its device.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Stamp {
    /// The time of the device's clock.
    pub at: UtcMillis,
    /// The device's offset from UTC in minutes, −1439 to 1439.
    pub offset_minutes: i16,
    /// Device clock minus server clock in milliseconds at their last contact; absent if there was none.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub ahead_millis: Option<i64>,
}

impl Stamp {
    /// Returns the claimed time minus the last known difference from the server's clock.
    pub fn corrected(&self) -> UtcMillis {
        self.corrected_for(self.at)
    }

    /// Returns another time of the same clock minus that difference.
    pub fn corrected_for(&self, claimed: UtcMillis) -> UtcMillis {
        UtcMillis(claimed.0.saturating_sub(self.ahead_millis.unwrap_or(0)))
    }

    /// Returns the claimed time as the device displayed it.
    pub fn local(&self) -> String {
        let offset = FixedOffset::east_opt(i32::from(self.offset_minutes) * 60);
        match (self.at.to_datetime(), offset) {
            (Some(t), Some(offset)) => {
                let mut text = to_the_minute(t.with_timezone(&offset).naive_local());
                let (sign, minutes) = if self.offset_minutes < 0 {
                    ('-', -offset.local_minus_utc() / 60)
                } else {
                    ('+', offset.local_minus_utc() / 60)
                };
                let _ = write!(text, " {sign}{:02}:{:02}", minutes / 60, minutes % 60);
                text
            }
            _ => "?".to_owned(),
        }
    }
}

/// A device's clock.
pub trait Clock: Send {
    /// Returns the device's time and its offset from UTC in minutes.
    fn now(&self) -> (UtcMillis, i16);
}

/// A clock that shows the time it was set to, for tests, simulations and replays. All clones share one time.
#[derive(Clone, Debug, Default)]
pub struct HandSetClock {
    millis: std::sync::Arc<std::sync::atomic::AtomicI64>,
    offset_minutes: i16,
}

impl HandSetClock {
    /// Creates a clock that shows `at` and an offset of `offset_minutes`.
    pub fn at(at: UtcMillis, offset_minutes: i16) -> HandSetClock {
        let clock = HandSetClock { offset_minutes, ..HandSetClock::default() };
        clock.set(at);
        clock
    }

    /// Sets the clock to `at`.
    pub fn set(&self, at: UtcMillis) {
        self.millis.store(at.0, std::sync::atomic::Ordering::SeqCst);
    }

    /// Advances the clock by `millis` milliseconds.
    pub fn advance(&self, millis: i64) {
        self.millis.fetch_add(millis, std::sync::atomic::Ordering::SeqCst);
    }
}

impl Clock for HandSetClock {
    fn now(&self) -> (UtcMillis, i16) {
        (UtcMillis(self.millis.load(std::sync::atomic::Ordering::SeqCst)), self.offset_minutes)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Compares with the calendar library's own formatting.
    #[test]
    fn times_read_as_the_calendar_library_writes_them() {
        for millis in
            [0, -1, 1_795_528_800_000, 253_402_300_799_000, 253_402_300_800_000, -62_200_000_000_000]
        {
            let at = UtcMillis(millis);
            for zone in [chrono_tz::Tz::UTC, chrono_tz::America::Chicago, chrono_tz::Asia::Kathmandu] {
                let expected =
                    at.to_datetime().map(|t| t.with_timezone(&zone).format("%Y-%m-%d %H:%M %Z").to_string());
                assert_eq!(Some(at.shown_in(zone)), expected);
            }
            for offset_minutes in [0, -360, 345, -30] {
                let stamp = Stamp { at, offset_minutes, ahead_millis: None };
                let expected = at
                    .to_datetime()
                    .zip(FixedOffset::east_opt(i32::from(offset_minutes) * 60))
                    .map(|(t, offset)| t.with_timezone(&offset).format("%Y-%m-%d %H:%M %:z").to_string());
                assert_eq!(Some(stamp.local()), expected);
            }
        }
    }

    #[test]
    fn the_ends_of_the_calendar_are_no_instant_and_no_crash() {
        for at in [i64::MIN, i64::MAX, 8_210_266_876_799_999, -8_334_601_228_800_000] {
            assert_eq!(UtcMillis(at).shown_in(chrono_tz::America::Chicago), "?");
            assert_eq!(Stamp { at: UtcMillis(at), offset_minutes: 840, ahead_millis: None }.local(), "?");
        }
    }
}
