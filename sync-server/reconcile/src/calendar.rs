//! Events, days and amounts of the clocks: local times as instants, the days at a site, and exact amounts of money.
//!
//! Called by `demurrage` and `detention`.

use chrono::{Duration, NaiveDate, NaiveTime, TimeZone as _};
use chrono_tz::Tz;
use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::vocabulary::ClockEvent;
use farsiding_core::{Arg, Joint, Message};

/// The largest number of days that are examined. A stay of several years is a wrong date.
const LONGEST_DAYS: u32 = 3_660;

/// Returns a time of day written as `HH:MM`.
pub fn time_of(text: &str) -> Option<NaiveTime> {
    NaiveTime::parse_from_str(text.trim(), "%H:%M").ok()
}

/// Returns the instant of a local time. A local time that a clock change skipped is taken one hour later.
pub fn instant(day: NaiveDate, time: NaiveTime, zone: Tz) -> Option<UtcMillis> {
    let wall = day.and_time(time);
    let found = zone.from_local_datetime(&wall).earliest();
    let found = found.or_else(|| zone.from_local_datetime(&(wall + Duration::hours(1))).earliest())?;
    Some(UtcMillis(found.timestamp_millis()))
}

/// Returns the days at the site from an instant on, each with its end.
pub fn days(from: UtcMillis, zone: Tz) -> impl Iterator<Item = (NaiveDate, UtcMillis)> {
    let first = from.to_datetime().map(|at| at.with_timezone(&zone).date_naive());
    let days = std::iter::successors(first, |day| day.succ_opt()).take(LONGEST_DAYS as usize);
    days.map_while(move |day| Some((day, instant(day.succ_opt()?, NaiveTime::MIN, zone)?)))
}

/// Returns a decimal number as text multiplied by a count, with the same number of decimals, or `None` if the
/// text is not a number.
pub fn times(text: &str, count: u32) -> Option<String> {
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

/// The event of the day on the paper, on which the car left its supplier loaded.
pub const SHIPPED: &str = "shipped";

/// Returns the events of a tariff in words.
pub fn events(events: &[String]) -> Arg {
    let term = |event: &String| match ClockEvent::read(event) {
        Some(event) => event.term(),
        None if event == "released" => Message::new("office-event-released"),
        None if event == SHIPPED => Message::new("office-event-shipped"),
        None => Message::typed(event.replace('_', " ")),
    };
    Arg::list(Joint::Or, events.iter().map(term))
}
