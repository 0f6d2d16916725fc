//! Compares the server's clock with its own log and with a monotonic clock.
//!
//! A clock that is set back cannot spoil evidence, because the times in the log stand still until the clock
//! has caught up (`farsiding_core::sync::ledger_time`). `health` reports that the clock was set back or
//! jumped forward. The server refuses to start with a clock more than a day behind the log until somebody
//! states that the clock was wrong earlier.

use std::sync::{Mutex, PoisonError};
use std::time::Duration;

use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::OrganisationKey;
use farsiding_core::store::{Store, StoreError};
use farsiding_core::sync::{ClockNote, clock_notes, keep_clock_note, newest_signed};
use farsiding_core::{Arg, Joint, Message, message};
use farsiding_words::english;

use super::OfficeError;

const MINUTE: i64 = 60_000;
const HOUR: i64 = 60 * MINUTE;
const DAY: i64 = 24 * HOUR;
/// The largest number of characters kept of a stated reason.
const LONGEST_REASON: usize = 400;

/// What has been observed about the clock.
#[derive(Debug, Default)]
pub struct ClockWatch {
    seen: Mutex<Seen>,
}

#[derive(Debug, Default)]
struct Seen {
    /// The last time the clock showed, with the monotonic clock at that moment.
    last: Option<(UtcMillis, Duration)>,
    newest_signed: Option<UtcMillis>,
    /// What the clock showed when it was first seen to be behind.
    behind_since: Option<UtcMillis>,
    /// When the clock jumped forward, and by how many milliseconds.
    leapt: Option<(UtcMillis, i64)>,
    /// The statements made about the clock at this start and at earlier ones.
    notes: Vec<ClockNote>,
}

/// Returns the reading of a clock that nobody can set and that runs on while the machine sleeps.
fn steady() -> Duration {
    #[cfg(target_os = "linux")]
    {
        let now = rustix::time::clock_gettime(rustix::time::ClockId::Boottime);
        Duration::new(now.tv_sec.unsigned_abs(), u32::try_from(now.tv_nsec).unwrap_or(0))
    }
    #[cfg(not(target_os = "linux"))]
    {
        static BEGAN: std::sync::OnceLock<std::time::Instant> = std::sync::OnceLock::new();
        BEGAN.get_or_init(std::time::Instant::now).elapsed()
    }
}

impl ClockWatch {
    /// Records what the clock shows, together with the newest time that was signed.
    pub fn look(&self, shows: UtcMillis, newest_signed: Option<UtcMillis>) {
        self.look_at(shows, steady(), newest_signed);
    }

    /// Compares ledger and clock at the start of the server.
    ///
    /// # Errors
    /// Returns a [`StoreError`] when the ledger's store fails.
    pub(super) fn begin(
        &self,
        store: &dyn Store,
        key: &OrganisationKey,
        shows: UtcMillis,
    ) -> Result<(), StoreError> {
        self.look(shows, newest_signed(store)?);
        self.seen.lock().unwrap_or_else(PoisonError::into_inner).notes = notes(store, key)?;
        Ok(())
    }

    fn look_at(&self, shows: UtcMillis, steady: Duration, newest_signed: Option<UtcMillis>) {
        let mut seen = self.seen.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some((before, at)) = seen.last {
            let passed = i64::try_from(steady.saturating_sub(at).as_millis()).unwrap_or(i64::MAX);
            let leap = shows.since(before).saturating_sub(passed);
            if leap > HOUR {
                tracing::error!(minutes = leap / MINUTE, "this machine's clock leapt forward");
                seen.leapt = Some((shows, leap));
            }
        }
        seen.last = Some((shows, steady));
        seen.newest_signed = seen.newest_signed.max(newest_signed);
        let behind = seen.newest_signed.map_or(0, |newest| newest.since(shows));
        // An ordinary clock correction may set the clock back by less than a minute.
        if behind < MINUTE {
            seen.behind_since = None;
        } else if seen.behind_since.is_none() {
            tracing::error!(minutes = behind / MINUTE, "this machine's clock is behind its own log");
            seen.behind_since = Some(shows);
        }
        // The jump is reported for one day. The times it caused in the log stay for good.
        seen.leapt = seen.leapt.filter(|(at, _)| shows.since(*at) < DAY);
    }

    /// Returns the state of the clock: `Ok` if all is well, or `Err` with what is wrong and what to do.
    pub(super) fn says(&self) -> Result<Message, Message> {
        let seen = self.seen.lock().unwrap_or_else(PoisonError::into_inner);
        let newest = seen.newest_signed.unwrap_or(UtcMillis(i64::MIN));
        let shows = seen.last.map_or(newest, |(shows, _)| shows);
        let time = |time: UtcMillis| Arg::typed(time.rfc3339());
        if let Some(since) = seen.behind_since {
            return Err(message!(
                "office-found-clock-behind",
                stretch = stretch_message(newest.since(shows)),
                since = time(since),
                held = time(newest),
            ));
        }
        if let Some((at, by)) = seen.leapt {
            return Err(message!("office-found-clock-jumped", stretch = stretch_message(by), at = time(at)));
        }
        let notes = seen.notes.iter().map(|ClockNote { size, held, clock, why }| {
            message!(
                "office-found-clock-note",
                size = *size,
                held = time(*held),
                clock = time(*clock),
                why = Arg::typed(why),
            )
        });
        let all = std::iter::once(message!("office-found-clock-good")).chain(notes);
        Ok(message!("office-found-all", items = Arg::list(Joint::Sentences, all)))
    }
}

/// Returns a duration for people: `15 min`, `7 h`, `3 days`.
fn stretch_message(millis: i64) -> Message {
    let count = |size: i64| (millis / size).unsigned_abs();
    if millis <= 2 * HOUR {
        message!("office-time-minutes", count = count(MINUTE))
    } else if millis <= 2 * DAY {
        message!("office-time-hours", count = count(HOUR))
    } else {
        message!("office-time-days", count = count(DAY))
    }
}

/// Returns a duration in words of the command line: `15 min`, `7 h`, `3 days`.
pub(super) fn stretch(millis: i64) -> String {
    english(&stretch_message(millis))
}

/// Refuses a clock that is more than a day behind the signed times, unless `why` or a statement from an
/// earlier start says that the clock was wrong. The statement is signed and stored beside the log.
///
/// # Errors
/// Returns [`OfficeError::Surroundings`] when the clock is refused, or the error of the ledger.
pub(super) fn check_at_start(
    store: &mut dyn Store,
    key: &OrganisationKey,
    shows: UtcMillis,
    why: Option<&str>,
) -> Result<(), OfficeError> {
    let Some(newest) = newest_signed(store)?.filter(|newest| *newest > shows) else { return Ok(()) };
    let behind = newest.since(shows);
    if let Some(why) = why.map(str::trim).filter(|why| !why.is_empty()) {
        let why: String = why.chars().take(LONGEST_REASON).collect();
        let note = ClockNote { size: store.log().size()?, held: newest, clock: shows, why };
        keep_clock_note(store, key, &note)?;
        tracing::warn!(why = note.why, "the clock was wrong: a signed note is kept beside the log");
        return Ok(());
    }
    let noted = notes(store, key)?.last().is_some_and(|note| note.held >= newest);
    if behind <= DAY || noted {
        return Ok(());
    }
    Err(OfficeError::Surroundings(format!(
        "this machine's clock shows {}, and the newest record in the ledger is dated {}, {} later. Set the clock right and \
         start again. If it is right now and was wrong then, start once with --clock-was-wrong \"what happened\": that is \
         signed and kept beside the log, and what comes in is dated {} until the clock has caught up",
        shows.rfc3339(),
        newest.rfc3339(),
        stretch(behind),
        newest.rfc3339()
    )))
}

/// Returns the statements about the clock that have valid signatures, oldest first.
///
/// # Errors
/// Returns a [`StoreError`] when the ledger's store fails.
pub fn notes(store: &dyn Store, key: &OrganisationKey) -> Result<Vec<ClockNote>, StoreError> {
    let kept = clock_notes(store)?;
    Ok(kept.iter().filter_map(|bytes| ClockNote::open(bytes, key.keys()).ok()).collect())
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]
    use super::*;

    const NOON: i64 = 1_795_867_200_000; // 2026-11-28T12:00:00Z
    const SECOND: Duration = Duration::from_secs(1);

    #[test]
    fn a_clock_set_back_is_said_until_it_has_caught_up() {
        let watch = ClockWatch::default();
        let fast = UtcMillis(NOON + 15 * MINUTE);
        watch.look_at(fast, SECOND, Some(fast));
        assert!(watch.says().is_ok());
        watch.look_at(UtcMillis(NOON + 1000), 2 * SECOND, Some(fast));
        let words = english(&watch.says().unwrap_err());
        assert!(words.contains("14 min behind its own log since 2026-11-28T12:00:01Z"), "{words}");
        watch.look_at(UtcMillis(NOON + 14 * MINUTE + 30_000), 900 * SECOND, Some(fast));
        assert!(watch.says().is_ok(), "within a minute it is as right as any");
    }

    #[test]
    fn a_leap_forward_is_said_for_a_day_and_waiting_is_no_leap() {
        let watch = ClockWatch::default();
        watch.look_at(UtcMillis(NOON), SECOND, None);
        watch.look_at(UtcMillis(NOON + 3 * HOUR), 3 * 3600 * SECOND, None);
        assert!(watch.says().is_ok(), "three hours passed");
        watch.look_at(UtcMillis(NOON + 5 * HOUR), 3 * 3601 * SECOND, None);
        let words = english(&watch.says().unwrap_err());
        assert!(words.contains("jumped forward by 119 min at 2026-11-28T17:00:00Z"), "{words}");
        watch.look_at(UtcMillis(NOON + 30 * HOUR), 28 * 3600 * SECOND, None);
        assert!(watch.says().is_ok());
    }
}
