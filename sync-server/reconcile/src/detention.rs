//! The clock of the car's supplier, detention: the days for which a car is away, by the supplier's tariff.
//!
//! Whoever owns or leases the car charges for the days that it is away from them. Nothing of it is in 49 CFR 1333, which
//! is about the carrier; all rules are those of the supplier's contract: from which event to which, whether the first
//! and the last day count, which days are free, and what a day costs. Days are calendar days at the site. An event that
//! was not recorded is said and never assumed. The carrier's clock is in `demurrage`. Called by `report`.

use chrono::NaiveDate;
use farsiding_core::clock::UtcMillis;
use farsiding_core::{Arg, Message, message};
use serde::{Deserialize, Serialize};

use crate::calendar::{SHIPPED, events, times};
use crate::facts::{Facts, day_of};

/// A supplier's tariff.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct DetentionTariff {
    /// The tariff's name.
    pub name: String,
    /// The events that begin the days, by the record's words for clock events, and `shipped` for the day on the paper.
    /// The first one that is recorded counts.
    pub from: Vec<String>,
    /// The events that end the days; `released` is the record's own release.
    pub until: Vec<String>,
    /// Whether the day on which the days begin counts.
    pub first_day_counts: bool,
    /// Whether the day on which the days end counts.
    pub last_day_counts: bool,
    /// The free days.
    pub free_days: u32,
    /// The credit for each car, in days, beyond the free days: what the contract grants for the way back, or for cars
    /// that came back early.
    pub credit_days: u32,
    /// The charge for a day, a decimal number as text.
    pub per_day: String,
    /// The currency, as text.
    pub currency: String,
}

impl Default for DetentionTariff {
    /// Returns a tariff to fill in, not that of any supplier: from the day on the paper until the car is pulled, both days
    /// counted, nothing free and no charge.
    fn default() -> DetentionTariff {
        DetentionTariff {
            name: String::new(),
            from: vec![SHIPPED.to_owned()],
            until: vec!["pulled".to_owned(), "carrier_told".to_owned()],
            first_day_counts: true,
            last_day_counts: true,
            free_days: 0,
            credit_days: 0,
            per_day: String::new(),
            currency: String::new(),
        }
    }
}

impl DetentionTariff {
    /// Returns the faults of the tariff. The list is empty if the tariff can be used.
    pub fn faults(&self) -> Vec<Message> {
        let mut faults = Vec::new();
        if self.from.is_empty() || self.until.is_empty() {
            faults.push(Message::new("reconcile-tariff-events"));
        }
        if !self.per_day.is_empty() && times(&self.per_day, 1).is_none() {
            faults.push(message!("reconcile-tariff-amount", text = Arg::typed(&self.per_day)));
        }
        if self.free_days > 366 || self.credit_days > 366 {
            faults.push(Message::new("reconcile-tariff-free-time"));
        }
        faults
    }
}

/// The detention of one stay.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Detention {
    /// The supplier.
    pub supplier: String,
    /// The event that began the days.
    pub from_event: String,
    /// The first day, as `YYYY-MM-DD` at the site.
    pub from: String,
    /// The event that ended the days; empty while the car is still away.
    pub until_event: String,
    /// The last day, or today.
    pub until: String,
    /// The days for which the car was away.
    pub away: u32,
    /// The free days and the credit, together.
    pub free: u32,
    /// The days charged.
    pub days: u32,
    /// The charge, a decimal number as text; empty when the tariff names none.
    pub charge: String,
    /// The currency.
    pub currency: String,
    /// The tariff's name.
    pub tariff: String,
}

impl Detention {
    /// Returns whether the car is still away.
    pub fn runs(&self) -> bool {
        self.until_event.is_empty()
    }
}

/// Returns the detention of a stay under the tariff of its supplier.
///
/// # Errors
/// Returns why there is no detention.
pub fn detention(facts: &Facts, tariff: &DetentionTariff, now: UtcMillis) -> Result<Detention, Message> {
    if let Some(fault) = tariff.faults().into_iter().next() {
        return Err(message!("reconcile-tariff-unusable", why = fault));
    }
    let zone = facts.tz();
    let day = |event: &str| -> Option<NaiveDate> {
        let at = match event {
            SHIPPED => return facts.paper.day.parse().ok(),
            "released" => facts.released?,
            event => *facts.clock.get(event)?,
        };
        day_of(at, zone).parse().ok()
    };
    let first = |events: &[String]| events.iter().find_map(|event| Some((event.clone(), day(event)?)));
    let missing = |list: &[String]| message!("reconcile-no-event", events = events(list));
    let (from_event, from) = first(&tariff.from).ok_or_else(|| missing(&tariff.from))?;
    let (until_event, until) = match first(&tariff.until) {
        Some(found) => found,
        // A car that is gone does not go on costing because an event is missing: that is said instead.
        None if facts.released.is_some() || facts.clock.contains_key("pulled") => {
            return Err(missing(&tariff.until));
        }
        None => {
            let today = day_of(now, zone).parse().map_err(|_| Message::new("reconcile-no-calendar"))?;
            (String::new(), today)
        }
    };
    let between = until.signed_duration_since(from).num_days();
    if between < 0 {
        return Err(message!(
            "reconcile-days-backward",
            from = Arg::typed(from.to_string()),
            until = Arg::typed(until.to_string())
        ));
    }
    // The two days themselves, and those between them. One day that is both counts once.
    let ends = i64::from(tariff.first_day_counts) + i64::from(tariff.last_day_counts);
    let away = if between == 0 { ends.min(1) } else { between - 1 + ends };
    let away = u32::try_from(away).unwrap_or(u32::MAX);
    let free = tariff.free_days.saturating_add(tariff.credit_days);
    let days = away.saturating_sub(free);
    Ok(Detention {
        supplier: facts.paper.shipper.clone(),
        from_event,
        from: from.to_string(),
        until_event,
        until: until.to_string(),
        away,
        free,
        days,
        charge: times(&tariff.per_day, days).unwrap_or_default(),
        currency: tariff.currency.clone(),
        tariff: tariff.name.clone(),
    })
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]
    use super::*;
    use crate::facts::sample;

    const NOW: &str = "2026-12-01T00:00:00Z";

    fn at(text: &str) -> UtcMillis {
        UtcMillis::read(text).unwrap()
    }

    /// A car that left its supplier on 2 November and was pulled on the 20th at 23:30 of Chicago, which is the 21st in
    /// UTC.
    fn stay(pulled: Option<&str>) -> Facts {
        let mut facts = sample("ZZQX 1");
        facts.zone = "America/Chicago".to_owned();
        facts.paper.day = "2026-11-02".to_owned();
        facts.paper.shipper = "North Terminal (invented)".to_owned();
        facts.released = None;
        if let Some(pulled) = pulled {
            facts.clock.insert("pulled".to_owned(), at(pulled));
        }
        facts
    }

    fn tariff() -> DetentionTariff {
        DetentionTariff {
            name: "invented".to_owned(),
            free_days: 10,
            per_day: "41.75".to_owned(),
            currency: "invented dollars".to_owned(),
            ..DetentionTariff::default()
        }
    }

    /// 2 to 20 November are 19 days with both ends; less 10 free are 9, at 41.75: 375.75.
    #[test]
    fn days_are_those_of_the_calendar_at_the_site_from_the_paper_until_the_car_is_pulled() {
        let clock = detention(&stay(Some("2026-11-20T23:30:00-06:00")), &tariff(), at(NOW)).unwrap();
        assert_eq!((clock.from.as_str(), clock.until.as_str()), ("2026-11-02", "2026-11-20"));
        assert_eq!((clock.away, clock.free, clock.days, clock.charge.as_str()), (19, 10, 9, "375.75"));
        assert!(!clock.runs());
        for (first, last, away) in [(true, false, 18), (false, true, 18), (false, false, 17)] {
            let tariff = DetentionTariff { first_day_counts: first, last_day_counts: last, ..tariff() };
            assert_eq!(
                detention(&stay(Some("2026-11-20T23:30:00-06:00")), &tariff, at(NOW)).unwrap().away,
                away
            );
        }
        let same = detention(&stay(Some("2026-11-02T09:00:00-06:00")), &tariff(), at(NOW)).unwrap();
        assert_eq!((same.away, same.days), (1, 0), "one day that is both counts once");
    }

    /// The clocks go back in the night to 1 November 2026: a day of 25 h is a day.
    #[test]
    fn a_clock_change_adds_no_day() {
        let mut facts = stay(Some("2026-11-02T00:30:00-06:00"));
        facts.paper.day = "2026-10-31".to_owned();
        assert_eq!(detention(&facts, &tariff(), at(NOW)).unwrap().away, 3);
    }

    #[test]
    fn credit_is_taken_off_like_free_days_and_never_becomes_money() {
        let credit = |credit_days| {
            let tariff = DetentionTariff { credit_days, ..tariff() };
            let clock = detention(&stay(Some("2026-11-20T12:00:00-06:00")), &tariff, at(NOW)).unwrap();
            (clock.days, clock.charge)
        };
        assert_eq!(credit(4), (5, "208.75".to_owned()));
        assert_eq!(credit(300), (0, "0.00".to_owned()));
    }

    #[test]
    fn a_car_that_is_still_here_counts_up_to_today_and_a_missing_event_is_said() {
        let here = detention(&stay(None), &tariff(), at("2026-11-15T03:00:00Z")).unwrap();
        assert!(here.runs());
        assert_eq!((here.until.as_str(), here.away), ("2026-11-14", 13), "it is still the 14th at the site");
        let mut gone = stay(None);
        gone.released = Some(at("2026-11-18T12:00:00-06:00"));
        let why = farsiding_words::english(&detention(&gone, &tariff(), at(NOW)).unwrap_err());
        assert!(why.contains("pulled"), "{why}");
        let mut undated = stay(Some("2026-11-20T12:00:00-06:00"));
        undated.paper.day = String::new();
        let why = farsiding_words::english(&detention(&undated, &tariff(), at(NOW)).unwrap_err());
        assert!(why.contains("day on the shipping paper"), "{why}");
        undated.paper.day = "2026-11-25".to_owned();
        let why = farsiding_words::english(&detention(&undated, &tariff(), at(NOW)).unwrap_err());
        assert!(why.contains("2026-11-25"), "{why}");
        for wrong in ["12,50", "1e3", "-4", "x"] {
            let tariff = DetentionTariff { per_day: wrong.to_owned(), ..tariff() };
            assert!(detention(&stay(None), &tariff, at(NOW)).is_err(), "{wrong}");
        }
    }
}
