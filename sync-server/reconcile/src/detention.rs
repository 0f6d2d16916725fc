//! The detention clock: free time from an event, then days charged by a tariff.
//!
//! All rules belong to the tariff: which event starts the clock, how much time is free, whether weekends and
//! holidays count, and what a day costs in which currency. Free time of 24 to 48 h is usual (from memory). A
//! receiver pays for time after it if the receiver had notice before placement (49 CFR 1333, read); the
//! carrier's tariff takes precedence. Days are days at the site. Called by `report`.

use chrono::{Datelike as _, Duration, NaiveDate, NaiveTime, TimeZone as _, Weekday};
use chrono_tz::Tz;
use farsiding_core::clock::UtcMillis;
use serde::{Deserialize, Serialize};

use crate::facts::Facts;

const HOUR: i64 = 3_600_000;
/// The largest number of days that are examined. A stay of several years is a wrong date.
const LONGEST_DAYS: u32 = 3_660;

/// A tariff.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Tariff {
    /// The tariff's name.
    pub name: String,
    /// The events that start the clock, by the record's words for clock events. The first one that is
    /// recorded counts.
    pub from: Vec<String>,
    /// The event that stops the clock; `released` is the record's own release.
    pub until: Vec<String>,
    /// The time of day (`HH:MM`) at which the clock starts, at its first occurrence after the event. If
    /// empty, the clock starts at once.
    pub starts_at: String,
    /// The free time, in hours.
    pub free_hours: u32,
    /// Whether Saturdays and Sundays count.
    pub weekends_count: bool,
    /// The holidays, as `YYYY-MM-DD`.
    pub holidays: Vec<String>,
    /// Whether holidays count.
    pub holidays_count: bool,
    /// Whether every day counts once the free time is over.
    pub all_days_once_over: bool,
    /// The charge for each begun day of 24 h, a decimal number as text.
    pub per_day: String,
    /// The currency, as text.
    pub currency: String,
}

impl Default for Tariff {
    /// Returns a tariff to fill in, not the tariff of any carrier: 48 h from actual placement, weekends and
    /// holidays counted, and no charge.
    fn default() -> Tariff {
        Tariff {
            name: "not filled in".to_owned(),
            from: vec!["constructive_placement".to_owned(), "actual_placement".to_owned()],
            until: vec!["carrier_told".to_owned(), "released".to_owned(), "pulled".to_owned()],
            starts_at: String::new(),
            free_hours: 48,
            weekends_count: true,
            holidays: Vec::new(),
            holidays_count: true,
            all_days_once_over: true,
            per_day: String::new(),
            currency: String::new(),
        }
    }
}

/// The detention of one stay.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Detention {
    /// The event that started the clock.
    pub from_event: String,
    /// The time at which the clock started.
    pub from: UtcMillis,
    /// The event that stopped the clock; empty while the clock runs.
    pub until_event: String,
    /// The time at which the clock stopped, or the current time.
    pub until: UtcMillis,
    /// The end of the free time.
    pub free_until: UtcMillis,
    /// The counted time after the free time, in hours.
    pub over_hours: f64,
    /// The number of charged days, which are begun days of 24 h.
    pub days: u32,
    /// The charge, a decimal number as text; empty when the tariff names no charge.
    pub charge: String,
    /// The currency.
    pub currency: String,
    /// The tariff's name.
    pub tariff: String,
}

impl Detention {
    /// Returns whether the clock is still running.
    pub fn runs(&self) -> bool {
        self.until_event.is_empty()
    }
}

impl Tariff {
    /// Returns the faults of the tariff as sentences. The list is empty if the tariff can be used.
    pub fn faults(&self) -> Vec<String> {
        let mut faults = Vec::new();
        if self.from.is_empty() || self.until.is_empty() {
            faults.push("Say from which event to which the clock runs.".to_owned());
        }
        if !self.starts_at.is_empty() && time_of(&self.starts_at).is_none() {
            faults.push(format!("\u{201c}{}\u{201d} is no time of day (HH:MM).", self.starts_at));
        }
        for day in self.holidays.iter().filter(|day| day.parse::<NaiveDate>().is_err()) {
            faults.push(format!("\u{201c}{day}\u{201d} is no day (YYYY-MM-DD)."));
        }
        if !self.per_day.is_empty() && times(&self.per_day, 1).is_none() {
            faults.push(format!("\u{201c}{}\u{201d} is no amount.", self.per_day));
        }
        if self.free_hours > 24 * 365 {
            faults.push("More than a year of free time is a mistake.".to_owned());
        }
        faults
    }

    fn counts(&self, day: NaiveDate) -> bool {
        let weekend = matches!(day.weekday(), Weekday::Sat | Weekday::Sun);
        let holiday = self.holidays.iter().any(|known| known.parse() == Ok(day));
        (self.weekends_count || !weekend) && (self.holidays_count || !holiday)
    }
}

fn time_of(text: &str) -> Option<NaiveTime> {
    NaiveTime::parse_from_str(text.trim(), "%H:%M").ok()
}

/// Returns the detention of a stay under a tariff.
///
/// # Errors
/// Returns a sentence on why there is no detention.
pub fn detention(facts: &Facts, tariff: &Tariff, now: UtcMillis) -> Result<Detention, String> {
    if let Some(fault) = tariff.faults().first() {
        return Err(format!("the tariff cannot be used: {fault}"));
    }
    let at = |event: &str| match event {
        "released" => facts.released,
        event => facts.clock.get(event).copied(),
    };
    let first = |events: &[String]| events.iter().find_map(|event| Some((event.clone(), at(event)?)));
    let (from_event, event_at) =
        first(&tariff.from).ok_or_else(|| format!("{} was not recorded", spoken(&tariff.from)))?;
    let (until_event, until) = first(&tariff.until).unwrap_or((String::new(), now));
    let zone = facts.tz();
    let from = start(event_at, tariff, zone).ok_or("the time of the event is in no calendar")?;
    let until = UtcMillis(until.0.max(from.0));
    let free = i64::from(tariff.free_hours) * HOUR;
    let free_until = after(from, free, tariff, zone).ok_or("free time never ends under this tariff")?;
    let over = if until <= free_until {
        0
    } else if tariff.all_days_once_over {
        until.since(free_until)
    } else {
        counted(free_until, until, tariff, zone)
    };
    // The addition saturates, because a time near the end of the calendar must not overflow.
    let days = u32::try_from(over.saturating_add(24 * HOUR - 1) / (24 * HOUR)).unwrap_or(u32::MAX);
    Ok(Detention {
        from_event,
        from,
        until_event,
        until,
        free_until,
        over_hours: over as f64 / HOUR as f64,
        days,
        charge: times(&tariff.per_day, days).unwrap_or_default(),
        currency: tariff.currency.clone(),
        tariff: tariff.name.clone(),
    })
}

fn spoken(events: &[String]) -> String {
    events.join(" or ").replace('_', " ")
}

/// Returns when the clock starts: at the event, or at the first start time of the tariff that is not before
/// the event.
fn start(event: UtcMillis, tariff: &Tariff, zone: Tz) -> Option<UtcMillis> {
    let Some(time) = time_of(&tariff.starts_at) else { return Some(event) };
    let day = event.to_datetime()?.with_timezone(&zone).date_naive();
    let today = instant(day, time, zone)?;
    if today >= event { Some(today) } else { instant(day.succ_opt()?, time, zone) }
}

/// Returns the instant of a local time. A local time that a clock change skipped is taken one hour later.
fn instant(day: NaiveDate, time: NaiveTime, zone: Tz) -> Option<UtcMillis> {
    let wall = day.and_time(time);
    let found = zone.from_local_datetime(&wall).earliest();
    let found = found.or_else(|| zone.from_local_datetime(&(wall + Duration::hours(1))).earliest())?;
    Some(UtcMillis(found.timestamp_millis()))
}

/// Returns the days at the site from an instant on, each with its end.
fn days(from: UtcMillis, zone: Tz) -> impl Iterator<Item = (NaiveDate, UtcMillis)> {
    let first = from.to_datetime().map(|at| at.with_timezone(&zone).date_naive());
    let days = std::iter::successors(first, |day| day.succ_opt()).take(LONGEST_DAYS as usize);
    days.map_while(move |day| Some((day, instant(day.succ_opt()?, NaiveTime::MIN, zone)?)))
}

/// Returns the instant at which the given amount of counted time has passed.
fn after(from: UtcMillis, millis: i64, tariff: &Tariff, zone: Tz) -> Option<UtcMillis> {
    let (mut at, mut left) = (from, millis);
    for (day, ends) in days(from, zone) {
        if left <= 0 {
            return Some(at);
        }
        let length = ends.since(at).max(0);
        if tariff.counts(day) {
            if length >= left {
                return Some(UtcMillis(at.0 + left));
            }
            left -= length;
        }
        at = ends;
    }
    None
}

/// Returns how much of a span counts, in milliseconds.
fn counted(from: UtcMillis, until: UtcMillis, tariff: &Tariff, zone: Tz) -> i64 {
    let (mut at, mut sum) = (from, 0);
    for (day, ends) in days(from, zone) {
        if at >= until {
            break;
        }
        let end = ends.min(until);
        if tariff.counts(day) {
            sum += end.since(at).max(0);
        }
        at = ends;
    }
    sum
}

/// Returns a decimal number as text multiplied by a count, with the same number of decimals, or `None` if the
/// text is not a number.
fn times(text: &str, count: u32) -> Option<String> {
    let text = text.trim();
    let (whole, part) = text.split_once('.').unwrap_or((text, ""));
    let digits = |text: &str| text.chars().all(|c| c.is_ascii_digit());
    if whole.is_empty() || !digits(whole) || !digits(part) || part.len() > 6 || whole.len() > 12 {
        return None;
    }
    let scale = 10_i128.pow(u32::try_from(part.len()).ok()?);
    let units: i128 = format!("{whole}{part}").parse().ok()?;
    let units = units * i128::from(count);
    Some(match part.len() {
        0 => units.to_string(),
        places => format!("{}.{:0places$}", units / scale, units % scale),
    })
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]
    use super::*;
    use crate::facts::sample;

    fn stay(placed: &str, told: &str) -> Facts {
        let mut facts = sample("ZZQX 1");
        facts.zone = "America/Chicago".to_owned();
        facts.clock.insert("actual_placement".to_owned(), UtcMillis::read(placed).unwrap());
        facts.released = None;
        if !told.is_empty() {
            facts.clock.insert("carrier_told".to_owned(), UtcMillis::read(told).unwrap());
        }
        facts
    }

    fn tariff() -> Tariff {
        Tariff {
            name: "invented".to_owned(),
            from: vec!["actual_placement".to_owned()],
            per_day: "75.50".to_owned(),
            currency: "USD".to_owned(),
            ..Tariff::default()
        }
    }

    #[test]
    fn a_begun_day_past_free_time_is_a_day() {
        let now = UtcMillis::read("2026-12-01T00:00:00Z").unwrap();
        let free = stay("2026-11-09T08:00:00-06:00", "2026-11-11T08:00:00-06:00");
        assert_eq!(detention(&free, &tariff(), now).unwrap().days, 0, "to the minute within 48 h");
        let late = stay("2026-11-09T08:00:00-06:00", "2026-11-12T08:01:00-06:00");
        let late = detention(&late, &tariff(), now).unwrap();
        assert_eq!((late.days, late.charge.as_str(), late.runs()), (2, "151.00", false));
    }

    #[test]
    fn weekends_and_holidays_stand_still_when_the_tariff_says_so() {
        let now = UtcMillis::read("2026-12-01T00:00:00Z").unwrap();
        // The car is placed on a Friday at noon with 24 h of free time. Nothing counts until Monday, and
        // Tuesday is a holiday.
        let stay = stay("2026-11-06T12:00:00-06:00", "2026-11-12T12:00:00-06:00");
        let weekdays = Tariff {
            free_hours: 24,
            weekends_count: false,
            holidays: vec!["2026-11-10".to_owned()],
            holidays_count: false,
            all_days_once_over: false,
            ..tariff()
        };
        let clock = detention(&stay, &weekdays, now).unwrap();
        assert_eq!(clock.free_until, UtcMillis::read("2026-11-09T12:00:00-06:00").unwrap());
        assert_eq!((clock.over_hours, clock.days), (48.0, 2), "Monday noon to Thursday noon without Tuesday");
        let all = detention(&stay, &Tariff { all_days_once_over: true, ..weekdays }, now).unwrap();
        assert_eq!(all.days, 3);
    }

    #[test]
    fn the_clock_may_start_at_a_time_of_day_and_runs_over_a_clock_change() {
        let now = UtcMillis::read("2026-12-01T00:00:00Z").unwrap();
        // The clocks go back by an hour in the night to 1 November 2026.
        let stay = stay("2026-10-30T09:30:00-05:00", "2026-11-02T08:00:00-06:00");
        let morning = Tariff { starts_at: "07:00".to_owned(), free_hours: 48, ..tariff() };
        let clock = detention(&stay, &morning, now).unwrap();
        assert_eq!(clock.from, UtcMillis::read("2026-10-31T07:00:00-05:00").unwrap());
        assert_eq!(clock.free_until, UtcMillis::read("2026-11-02T06:00:00-06:00").unwrap());
        assert_eq!((clock.over_hours, clock.days), (2.0, 1));
    }

    #[test]
    fn a_car_that_is_still_there_costs_up_to_now_and_one_never_placed_has_no_clock() {
        let now = UtcMillis::read("2026-11-12T08:00:00-06:00").unwrap();
        let here = detention(&stay("2026-11-09T08:00:00-06:00", ""), &tariff(), now).unwrap();
        assert!(here.runs() && here.days == 1);
        let mut unplaced = stay("2026-11-09T08:00:00-06:00", "");
        unplaced.clock.clear();
        assert!(detention(&unplaced, &tariff(), now).unwrap_err().contains("actual placement"));
        for wrong in ["12,50", "1e3", "-4", "x", "1.2.3"] {
            let tariff = Tariff { per_day: wrong.to_owned(), ..tariff() };
            assert!(detention(&here_again(), &tariff, now).is_err(), "{wrong}");
        }
    }

    fn here_again() -> Facts {
        stay("2026-11-09T08:00:00-06:00", "")
    }
}
