//! The carrier's clock, demurrage: free time from an event, then days by the carrier's tariff (49 CFR 1333).
//!
//! All rules belong to the tariff: which event starts the clock, how much time is free, whether weekends and
//! holidays count, what a day costs in which currency, and whether days are charged car by car or as debits of
//! a month against its credits. Free time comes from the tariff; 24 to 48 h are usual (from memory). A receiver
//! is liable if it had actual notice of the tariff before placement (1333.3(a), read). Time between the order to
//! bring the car in and its actual placement is the carrier's, where the tariff says so. The carrier's tariff and
//! invoice take precedence. Days are days at the site. The clock of the car's supplier is in `detention`. Called
//! by `report`.

use chrono::{Datelike as _, NaiveDate, Weekday};
use chrono_tz::Tz;
use farsiding_core::clock::UtcMillis;
use farsiding_core::{Arg, Message, message};
use serde::{Deserialize, Serialize};

use crate::calendar::{days, events, instant, time_of, times};
use crate::facts::Facts;

const HOUR: i64 = 3_600_000;

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
    /// Whether a month of a site is one account: each begun day is a debit, each released car earns credits, and only
    /// debits beyond the credits are charged. Otherwise the days of each car are charged.
    pub credits_and_debits: bool,
    /// The credits, in days, that a car earns when it is released.
    pub credits_a_car: u32,
    /// Whether the clock stands still from the order to bring the car in until its actual placement.
    pub ordered_in_stops: bool,
}

impl Default for Tariff {
    /// Returns a tariff to fill in, not the tariff of any carrier: 48 h from actual placement, weekends and
    /// holidays counted, and no charge.
    fn default() -> Tariff {
        Tariff {
            name: String::new(),
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
            credits_and_debits: false,
            credits_a_car: 0,
            ordered_in_stops: false,
        }
    }
}

/// The demurrage of one stay.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Demurrage {
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
    /// The days from the order to bring the car in until its placement that do not count, in hours.
    pub stopped_hours: f64,
    /// The credits that the car earned; 0 without credits and debits, and until it is released.
    pub credits: u32,
    /// Whether the days are debits of the month's account instead of being charged themselves.
    pub debits: bool,
    /// The charge, a decimal number as text; empty when the tariff names no charge, or charges the month's account.
    pub charge: String,
    /// The currency.
    pub currency: String,
    /// The tariff's name.
    pub tariff: String,
}

impl Demurrage {
    /// Returns whether the clock is still running.
    pub fn runs(&self) -> bool {
        self.until_event.is_empty()
    }
}

impl Tariff {
    /// Returns the faults of the tariff. The list is empty if the tariff can be used.
    pub fn faults(&self) -> Vec<Message> {
        let mut faults = Vec::new();
        if self.from.is_empty() || self.until.is_empty() {
            faults.push(Message::new("reconcile-tariff-events"));
        }
        if !self.starts_at.is_empty() && time_of(&self.starts_at).is_none() {
            faults.push(message!("reconcile-tariff-time", text = Arg::typed(&self.starts_at)));
        }
        for day in self.holidays.iter().filter(|day| day.parse::<NaiveDate>().is_err()) {
            faults.push(message!("reconcile-tariff-day", text = Arg::typed(day)));
        }
        if !self.per_day.is_empty() && times(&self.per_day, 1).is_none() {
            faults.push(message!("reconcile-tariff-amount", text = Arg::typed(&self.per_day)));
        }
        if self.free_hours > 24 * 365 {
            faults.push(Message::new("reconcile-tariff-free-time"));
        }
        faults
    }

    fn counts(&self, day: NaiveDate) -> bool {
        let weekend = matches!(day.weekday(), Weekday::Sat | Weekday::Sun);
        let holiday = self.holidays.iter().any(|known| known.parse() == Ok(day));
        (self.weekends_count || !weekend) && (self.holidays_count || !holiday)
    }
}

/// Returns the demurrage of a stay under a tariff.
///
/// # Errors
/// Returns why there is no demurrage.
pub fn demurrage(facts: &Facts, tariff: &Tariff, now: UtcMillis) -> Result<Demurrage, Message> {
    if let Some(fault) = tariff.faults().into_iter().next() {
        return Err(message!("reconcile-tariff-unusable", why = fault));
    }
    let at = |event: &str| match event {
        "released" => facts.released,
        event => facts.clock.get(event).copied(),
    };
    let first = |events: &[String]| events.iter().find_map(|event| Some((event.clone(), at(event)?)));
    let (from_event, event_at) =
        first(&tariff.from).ok_or_else(|| message!("reconcile-no-event", events = events(&tariff.from)))?;
    let (until_event, until) = match first(&tariff.until) {
        Some(found) => found,
        // A car that is gone does not go on costing because an event is missing: that is said instead.
        None if facts.released.is_some() || facts.clock.contains_key("pulled") => {
            return Err(message!("reconcile-no-event", events = events(&tariff.until)));
        }
        None => (String::new(), now),
    };
    let zone = facts.tz();
    let from = start(event_at, tariff, zone).ok_or_else(|| Message::new("reconcile-no-calendar"))?;
    let until = UtcMillis(until.0.max(from.0));
    let free = i64::from(tariff.free_hours) * HOUR;
    let free_until =
        after(from, free, tariff, zone).ok_or_else(|| Message::new("reconcile-free-time-never-ends"))?;
    let counts = |from: UtcMillis, until: UtcMillis| {
        if until <= from {
            0
        } else if tariff.all_days_once_over {
            until.since(from)
        } else {
            counted(from, until, tariff, zone)
        }
    };
    let stopped = match (facts.clock.get("ordered_in"), facts.clock.get("actual_placement")) {
        (Some(ordered), Some(placed)) if tariff.ordered_in_stops => {
            counts((*ordered).max(free_until), (*placed).min(until))
        }
        _ => 0,
    };
    let over = (counts(free_until, until) - stopped).max(0);
    // The addition saturates, because a time near the end of the calendar must not overflow.
    let days = u32::try_from(over.saturating_add(24 * HOUR - 1) / (24 * HOUR)).unwrap_or(u32::MAX);
    let runs = until_event.is_empty();
    Ok(Demurrage {
        from_event,
        from,
        until_event,
        until,
        free_until,
        over_hours: over as f64 / HOUR as f64,
        days,
        stopped_hours: stopped as f64 / HOUR as f64,
        credits: if tariff.credits_and_debits && !runs { tariff.credits_a_car } else { 0 },
        debits: tariff.credits_and_debits,
        charge: match tariff.credits_and_debits {
            true => String::new(),
            false => times(&tariff.per_day, days).unwrap_or_default(),
        },
        currency: tariff.currency.clone(),
        tariff: tariff.name.clone(),
    })
}

/// The account of a site for a month, where the tariff has credits and debits.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Account {
    /// The site.
    pub site: String,
    /// The tariff's name.
    pub tariff: String,
    /// The cars in it.
    pub cars: usize,
    /// The days that were begun after free time.
    pub debits: u32,
    /// The days that cars earned.
    pub credits: u32,
    /// The debits beyond the credits.
    pub charged: u32,
    /// The charge, a decimal number as text; empty when the tariff names none.
    pub charge: String,
    /// The currency.
    pub currency: String,
    /// The cars whose clock still runs, so that the account is not final.
    pub running: usize,
}

/// Returns the account of a site; `None` if the tariff charges car by car. Credits that are left over are not paid out.
pub fn account(site: &str, tariff: &Tariff, cars: &[&Demurrage]) -> Option<Account> {
    if !tariff.credits_and_debits || cars.is_empty() {
        return None;
    }
    let debits = cars.iter().fold(0u32, |sum, car| sum.saturating_add(car.days));
    let credits = cars.iter().fold(0u32, |sum, car| sum.saturating_add(car.credits));
    let charged = debits.saturating_sub(credits);
    Some(Account {
        site: site.to_owned(),
        tariff: tariff.name.clone(),
        cars: cars.len(),
        debits,
        credits,
        charged,
        charge: times(&tariff.per_day, charged).unwrap_or_default(),
        currency: tariff.currency.clone(),
        running: cars.iter().filter(|car| car.runs()).count(),
    })
}

/// Returns when the clock starts: at the event, or at the first start time of the tariff that is not before
/// the event.
fn start(event: UtcMillis, tariff: &Tariff, zone: Tz) -> Option<UtcMillis> {
    let Some(time) = time_of(&tariff.starts_at) else { return Some(event) };
    let day = event.to_datetime()?.with_timezone(&zone).date_naive();
    let today = instant(day, time, zone)?;
    if today >= event { Some(today) } else { instant(day.succ_opt()?, time, zone) }
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
        assert_eq!(demurrage(&free, &tariff(), now).unwrap().days, 0, "to the minute within 48 h");
        let late = stay("2026-11-09T08:00:00-06:00", "2026-11-12T08:01:00-06:00");
        let late = demurrage(&late, &tariff(), now).unwrap();
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
        let clock = demurrage(&stay, &weekdays, now).unwrap();
        assert_eq!(clock.free_until, UtcMillis::read("2026-11-09T12:00:00-06:00").unwrap());
        assert_eq!((clock.over_hours, clock.days), (48.0, 2), "Monday noon to Thursday noon without Tuesday");
        let all = demurrage(&stay, &Tariff { all_days_once_over: true, ..weekdays }, now).unwrap();
        assert_eq!(all.days, 3);
    }

    #[test]
    fn the_clock_may_start_at_a_time_of_day_and_runs_over_a_clock_change() {
        let now = UtcMillis::read("2026-12-01T00:00:00Z").unwrap();
        // The clocks go back by an hour in the night to 1 November 2026.
        let stay = stay("2026-10-30T09:30:00-05:00", "2026-11-02T08:00:00-06:00");
        let morning = Tariff { starts_at: "07:00".to_owned(), free_hours: 48, ..tariff() };
        let clock = demurrage(&stay, &morning, now).unwrap();
        assert_eq!(clock.from, UtcMillis::read("2026-10-31T07:00:00-05:00").unwrap());
        assert_eq!(clock.free_until, UtcMillis::read("2026-11-02T06:00:00-06:00").unwrap());
        assert_eq!((clock.over_hours, clock.days), (2.0, 1));
    }

    #[test]
    fn a_car_that_is_still_there_costs_up_to_now_and_one_never_placed_has_no_clock() {
        let now = UtcMillis::read("2026-11-12T08:00:00-06:00").unwrap();
        let here = demurrage(&stay("2026-11-09T08:00:00-06:00", ""), &tariff(), now).unwrap();
        assert!(here.runs() && here.days == 1);
        let mut unplaced = stay("2026-11-09T08:00:00-06:00", "");
        unplaced.clock.clear();
        assert!(
            farsiding_words::english(&demurrage(&unplaced, &tariff(), now).unwrap_err())
                .contains("actually placed")
        );
        for wrong in ["12,50", "1e3", "-4", "x", "1.2.3"] {
            let tariff = Tariff { per_day: wrong.to_owned(), ..tariff() };
            assert!(demurrage(&here_again(), &tariff, now).is_err(), "{wrong}");
        }
    }

    /// An invented tariff: debits of a day each, two credits a car. Cars of 0, 1, 5 and 3 debits: 9 − 8 = 1 day.
    #[test]
    fn credits_of_the_month_are_set_against_its_debits_and_what_is_left_over_is_not_paid_out() {
        let now = UtcMillis::read("2026-12-01T00:00:00Z").unwrap();
        let average = Tariff { credits_and_debits: true, credits_a_car: 2, ..tariff() };
        let car = |told: &str| demurrage(&stay("2026-11-09T08:00:00-06:00", told), &average, now).unwrap();
        let told = ["11T07:00", "11T09:00", "15T09:00", "13T09:00"];
        let cars = told.map(|day| car(&format!("2026-11-{day}:00-06:00")));
        assert_eq!(cars.iter().map(|car| car.days).collect::<Vec<_>>(), [0, 1, 5, 3]);
        assert!(cars.iter().all(|car| car.charge.is_empty() && car.credits == 2 && car.debits));
        let all: Vec<&Demurrage> = cars.iter().collect();
        let month = account("Somewhere (invented)", &average, &all).unwrap();
        assert_eq!((month.debits, month.credits, month.charged, month.charge.as_str()), (9, 8, 1, "75.50"));
        let early = account("Somewhere (invented)", &average, &all[..2]).unwrap();
        assert_eq!((early.charged, early.charge.as_str()), (0, "0.00"), "a credit is not money");
        assert_eq!(account("Somewhere (invented)", &tariff(), &all), None);
        // A car that still stands has debits and earns no credit yet.
        let here = demurrage(&here_again(), &average, now).unwrap();
        assert_eq!(here.credits, 0);
        assert_eq!(account("x", &average, &[&here]).unwrap().running, 1);
    }

    /// Constructively placed on Monday, ordered in on Thursday, brought in two days later: those are the carrier's.
    #[test]
    fn time_between_the_order_and_the_placement_is_the_carriers_where_the_tariff_says_so() {
        let now = UtcMillis::read("2026-12-01T00:00:00Z").unwrap();
        let mut waits = stay("2026-11-14T08:00:00-06:00", "2026-11-15T08:00:00-06:00");
        for (event, at) in [
            ("constructive_placement", "2026-11-09T08:00:00-06:00"),
            ("ordered_in", "2026-11-12T08:00:00-06:00"),
        ] {
            waits.clock.insert(event.to_owned(), UtcMillis::read(at).unwrap());
        }
        let plain = Tariff { from: Tariff::default().from, ..tariff() };
        assert_eq!(demurrage(&waits, &plain, now).unwrap().days, 4, "six days less two free");
        let fair = Tariff { ordered_in_stops: true, ..plain };
        let clock = demurrage(&waits, &fair, now).unwrap();
        assert_eq!((clock.days, clock.stopped_hours), (2, 48.0));
    }

    #[test]
    fn a_car_that_is_gone_without_the_event_that_stops_the_clock_has_no_clock() {
        let now = UtcMillis::read("2026-12-01T00:00:00Z").unwrap();
        let mut gone = stay("2026-11-09T08:00:00-06:00", "");
        gone.released = Some(UtcMillis::read("2026-11-10T08:00:00-06:00").unwrap());
        let told = Tariff { until: vec!["carrier_told".to_owned()], ..tariff() };
        assert!(
            farsiding_words::english(&demurrage(&gone, &told, now).unwrap_err())
                .contains("released to carrier")
        );
    }

    #[test]
    fn a_tariff_stored_before_credits_and_debits_reads_on() {
        let stored = r#"{"name":"old","from":["notice"],"until":["pulled"],"starts_at":"07:00","free_hours":24,
            "weekends_count":false,"holidays":[],"holidays_count":true,"all_days_once_over":false,"per_day":"90",
            "currency":"invented dollars"}"#;
        let tariff: Tariff = serde_json::from_str(stored).unwrap();
        assert!(!tariff.credits_and_debits && !tariff.ordered_in_stops && tariff.per_day == "90");
        let settings: crate::Settings =
            serde_json::from_str(&format!(r#"{{"tariffs":{{"":{stored}}}}}"#)).unwrap();
        assert_eq!(settings.tariff("anywhere"), Some(&tariff));
        assert!(settings.detention_tariffs.is_empty());
    }

    fn here_again() -> Facts {
        stay("2026-11-09T08:00:00-06:00", "")
    }
}
