//! The clock of this process: the system's clock, or one that is set by hand.
//!
//! The variable `FARSIDING_CLOCK` sets the clock by hand, for demonstrations and tests. Its value is an RFC
//! 3339 time, from which the clock runs on, or `@FILE`, whose file holds the time. A released program (built
//! without debug assertions) ignores the variable unless it was built with the feature `hand-set-clock`,
//! because no environment variable may decide the times that a server signs.

use chrono::Offset as _;
use farsiding_core::clock::{Clock, UtcMillis};
use std::io::Write as _;
use std::path::PathBuf;
use std::time::{Instant, SystemTime, UNIX_EPOCH};

/// The environment variable that sets the clock by hand.
pub const CLOCK_VARIABLE: &str = "FARSIDING_CLOCK";

/// Whether this program was built for tests and demonstrations and therefore reads [`CLOCK_VARIABLE`].
const OBEYS_THE_VARIABLE: bool = cfg!(any(debug_assertions, feature = "hand-set-clock"));

/// The clock of this process.
#[derive(Debug, Clone)]
pub enum ProcessClock {
    /// The system's clock.
    System,
    /// A clock that was set to a time and has run on since.
    PutTo {
        /// The time the clock was set to.
        at: UtcMillis,
        /// The clock's offset from UTC, in minutes.
        offset_minutes: i16,
        /// The moment at which the clock was set.
        since: Instant,
    },
    /// A clock that always shows the time written in a file.
    InFile(PathBuf),
}

/// The hand-set time could not be read.
#[derive(Debug, thiserror::Error)]
#[error("{CLOCK_VARIABLE} is \"{0}\", which is no RFC 3339 time such as 2026-01-31T08:00:00-06:00")]
pub struct ClockError(String);

impl ProcessClock {
    /// Returns the clock that the environment asks for.
    ///
    /// # Errors
    /// Returns [`ClockError`] when a hand-set time cannot be read.
    pub fn from_environment() -> Result<ProcessClock, ClockError> {
        match std::env::var(CLOCK_VARIABLE) {
            Err(_) => Ok(ProcessClock::System),
            Ok(_) if !OBEYS_THE_VARIABLE => {
                static SAID: std::sync::Once = std::sync::Once::new();
                SAID.call_once(|| {
                    let _ = writeln!(
                        std::io::stderr(),
                        "farsiding: {CLOCK_VARIABLE} sets no clock in a released program; the system's is used"
                    );
                });
                Ok(ProcessClock::System)
            }
            Ok(text) => match text.strip_prefix('@') {
                Some(path) => {
                    let clock = ProcessClock::InFile(PathBuf::from(path));
                    clock.in_file().map(|_| clock.clone()).ok_or(ClockError(text.clone()))
                }
                None => {
                    let (at, offset_minutes) = read_time(&text).ok_or(ClockError(text))?;
                    Ok(ProcessClock::PutTo { at, offset_minutes, since: Instant::now() })
                }
            },
        }
    }

    fn in_file(&self) -> Option<(UtcMillis, i16)> {
        match self {
            ProcessClock::InFile(path) => read_time(std::fs::read_to_string(path).ok()?.trim()),
            _ => None,
        }
    }

    /// Returns the time, without the offset.
    pub fn time(&self) -> UtcMillis {
        self.now().0
    }
}

fn read_time(text: &str) -> Option<(UtcMillis, i16)> {
    let time = chrono::DateTime::parse_from_rfc3339(text.trim()).ok()?;
    let minutes = time.offset().local_minus_utc() / 60;
    Some((UtcMillis(time.timestamp_millis()), i16::try_from(minutes).ok()?))
}

fn system_time() -> (UtcMillis, i16) {
    let since = SystemTime::now().duration_since(UNIX_EPOCH).unwrap_or_default();
    let at = UtcMillis(i64::try_from(since.as_millis()).unwrap_or(i64::MAX));
    let offset = chrono::Local::now().offset().fix().local_minus_utc() / 60;
    (at, i16::try_from(offset).unwrap_or(0))
}

impl Clock for ProcessClock {
    fn now(&self) -> (UtcMillis, i16) {
        match self {
            ProcessClock::System => system_time(),
            ProcessClock::PutTo { at, offset_minutes, since } => {
                let on = i64::try_from(since.elapsed().as_millis()).unwrap_or(0);
                (UtcMillis(at.0.saturating_add(on)), *offset_minutes)
            }
            // The file existed at the start. If it has vanished since, the system's clock is the best
            // substitute.
            ProcessClock::InFile(_) => self.in_file().unwrap_or_else(system_time),
        }
    }
}

/// Returns a sentence that says how far a clock is off. The text is empty when the clock is off by at most
/// two minutes.
pub fn clock_words(ahead_millis: i64) -> String {
    let seconds = ahead_millis.unsigned_abs() / 1000;
    if seconds < 120 {
        return String::new();
    }
    let size = match seconds {
        0..7200 => format!("{} min", seconds / 60),
        7200..172_800 => format!("{} h", seconds / 3600),
        _ => format!("{} days", seconds / 86_400),
    };
    format!(" · its clock is {size} {}", if ahead_millis > 0 { "ahead" } else { "behind" })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_hand_set_clock_keeps_the_offset_it_was_given() {
        let read = read_time("2026-01-31T08:00:00-06:00");
        assert_eq!(read, Some((UtcMillis(1_769_868_000_000), -360)));
        assert_eq!(read_time("yesterday"), None);
    }
}
