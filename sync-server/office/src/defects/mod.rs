//! The defects of all stays, with the overdue ones first, and the wear of fittings.
//!
//! This file combines the facts of stays; its functions are pure. `mail` sends letters, and `queue` holds the
//! waiting ones. The core decides what a defect and wear are.

pub mod mail;
pub mod queue;
pub mod rounds;

use std::collections::BTreeMap;

use farsiding_core::calc::wear::{Effort, EffortBand, Trend, Wear, judge};
use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::vocabulary::{Fitting, Part};
use farsiding_core::ids::{DefectId, VisitId};
use farsiding_core::view::{VisitView, fate_spoken};

use farsiding_reconcile::facts::{DefectFact, Facts};

const DAY: i64 = 86_400_000;
/// The number of days after which an open defect that nobody forwarded counts as overdue (a default of this
/// tool, no source).
pub const FORWARD_WITHIN_DAYS: i64 = 2;

/// A defect as the office sees it.
#[derive(Debug, Clone, PartialEq)]
pub struct KnownDefect {
    /// The defect.
    pub defect: DefectFact,
    /// The car's number.
    pub car: String,
    /// The name of the site where the defect was noted, if known.
    pub site_name: String,
    /// A visit that shows the defect.
    pub visit: Option<VisitId>,
    /// Why the defect is overdue; empty if it is not.
    pub overdue: String,
}

/// Returns every defect once, taken from the stay that knows most about it: the overdue ones first, then the
/// open ones, then by time. `mailed` says whether the office sent a letter about a defect.
pub fn known(all: &[Facts], mailed: &dyn Fn(DefectId) -> bool, now: UtcMillis) -> Vec<KnownDefect> {
    let mut by_id: BTreeMap<DefectId, KnownDefect> = BTreeMap::new();
    for facts in all {
        for defect in &facts.defects {
            let here = defect.visit.is_none_or(|visit| facts.visits.contains(&visit));
            let known = KnownDefect {
                overdue: overdue(defect, mailed(defect.id), now),
                defect: defect.clone(),
                car: facts.car.clone(),
                site_name: if here { facts.site_name.clone() } else { String::new() },
                visit: defect.visit.or(facts.visit()),
            };
            match by_id.entry(defect.id) {
                std::collections::btree_map::Entry::Vacant(place) => {
                    place.insert(known);
                }
                std::collections::btree_map::Entry::Occupied(mut place) => {
                    let name = [place.get().site_name.clone(), known.site_name.clone()];
                    if known.defect.progress() > place.get().defect.progress() {
                        place.insert(known);
                    }
                    place.get_mut().site_name =
                        name.into_iter().find(|name| !name.is_empty()).unwrap_or_default();
                }
            }
        }
    }
    let mut known: Vec<KnownDefect> = by_id.into_values().collect();
    known.sort_by_key(|known| (known.overdue.is_empty(), !known.defect.is_open(), known.defect.noted));
    known
}

fn overdue(defect: &DefectFact, mailed: bool, now: UtcMillis) -> String {
    if !defect.is_open() {
        return String::new();
    }
    if let Some(due) = defect.written_due.filter(|due| now > *due) {
        let days = now.since(due) / DAY;
        return format!(
            "the approval spoken for it is {days} days past the day it was due in writing (49 CFR 174.50)"
        );
    }
    let age = now.since(defect.noted) / DAY;
    if defect.forwarded.is_empty() && !mailed && age >= FORWARD_WITHIN_DAYS {
        return format!("noted {age} days ago and forwarded to nobody");
    }
    if defect.needs_authority && defect.authority.is_empty() && age >= FORWARD_WITHIN_DAYS {
        return format!("needs an authority's answer, {age} days old");
    }
    String::new()
}

/// A fitting whose closing efforts are conspicuous.
#[derive(Debug, Clone, PartialEq)]
pub struct Worn {
    /// The car's number.
    pub car: String,
    /// The fitting.
    pub fitting: Fitting,
    /// The efforts over time, in ft·lbf.
    pub efforts: Vec<(UtcMillis, f64)>,
    /// The core's judgement of the efforts.
    pub wear: Wear,
    /// The last visit.
    pub visit: Option<VisitId>,
}

/// An effort: its time, its amount and its stay.
type Point = (UtcMillis, f64, Option<VisitId>);

/// Returns the fittings of all visits whose efforts are above the band or rising, worst first.
pub fn worn(all: &[Facts]) -> Vec<Worn> {
    let mut by_fitting: BTreeMap<(&str, Fitting), Vec<Point>> = BTreeMap::new();
    for facts in all {
        for effort in facts.efforts.iter().filter(|effort| effort.part == Part::Valve) {
            let place = by_fitting.entry((&facts.car, effort.fitting)).or_default();
            place.push((effort.at, effort.foot_pounds, facts.visit()));
        }
    }
    let mut worn: Vec<Worn> = by_fitting
        .into_iter()
        .filter_map(|((car, fitting), mut efforts)| {
            efforts.sort_by_key(|(at, _, _)| *at);
            let points: Vec<Effort> = efforts
                .iter()
                .map(|(at, foot_pounds, _)| Effort {
                    day: at.0 as f64 / DAY as f64,
                    foot_pounds: *foot_pounds,
                })
                .filter(|effort| judge(&[*effort], EffortBand::default()).is_ok())
                .collect();
            let wear = judge(&points, EffortBand::default()).ok()?;
            let tells = wear.trend == Trend::Rising || wear.last > EffortBand::default().high;
            tells.then(|| Worn {
                car: car.to_owned(),
                fitting,
                visit: efforts.last().and_then(|(_, _, visit)| *visit),
                efforts: efforts.iter().map(|(at, value, _)| (*at, *value)).collect(),
                wear,
            })
        })
        .collect();
    worn.sort_by(|a, b| b.wear.last.total_cmp(&a.wear.last));
    worn
}

/// Returns the subject of a letter about a defect.
pub fn subject_of(known: &KnownDefect) -> String {
    let fitting = known.defect.fitting.map_or(String::new(), |fitting| format!(", {}", fitting.name()));
    let subject = format!("Car {}{fitting}: {}", known.car, known.defect.what);
    subject.chars().map(|c| if c.is_control() { ' ' } else { c }).take(150).collect()
}

/// Returns what the record of a stay says of a defect and of its fitting, entry by entry in order of time:
/// who, when, on which device, with what result, and the entry's id, by which the entry is found in the
/// packet.
pub fn extract_of(known: &KnownDefect, view: &VisitView) -> String {
    let defect = &known.defect;
    let own = format!("defect/{}", defect.id);
    let at =
        |slot: &str| slot.strip_prefix("fitting/").and_then(|rest| Fitting::read(rest.split('/').next()?));
    let about = |slot: &str| slot.starts_with(&own) || at(slot).is_some_and(|f| defect.fitting == Some(f));
    let mut text = format!(
        "Extract of the record of {} at {}\nStay {}\nIt lists what was recorded of this defect and of the fitting it is at; the packet of the stay \
         holds every entry, signed.\n",
        known.car,
        known.site_name,
        view.header.visits.iter().map(ToString::to_string).collect::<Vec<_>>().join(", ")
    );
    let mut lines: Vec<_> = view.history.iter().filter(|line| about(&line.slot)).collect();
    lines.sort_by_key(|line| (line.said.claimed, line.said.entry));
    for line in lines {
        let said = &line.said;
        text.push_str(&format!("\n{}  {}\n", said.shown, line.sentence));
        text.push_str(&format!("    {}, on {}\n", said.name, said.device_name));
        for why in [&said.why, &line.why_gone].into_iter().filter(|why| !why.is_empty()) {
            text.push_str(&format!("    {why}\n"));
        }
        if let Some(word) = fate_spoken(line.fate) {
            text.push_str(&format!("    {word}\n"));
        }
        text.push_str(&format!("    entry {}\n", said.entry));
    }
    text.push_str(&format!("\n{}\n", farsiding_core::view::NOTE));
    text
}

/// Returns the text of a letter about a defect: a person's words, then the extract from the record.
pub fn letter_of(known: &KnownDefect, words: &str) -> String {
    let defect = &known.defect;
    let mut text = String::new();
    if !words.trim().is_empty() {
        text = format!("{}\n\n", words.trim());
    }
    let mut line = |name: &str, value: &str| {
        if !value.is_empty() {
            text.push_str(&format!("{name}: {value}\n"));
        }
    };
    line("Car", &known.car);
    line("Site", &known.site_name);
    line("Fitting", defect.fitting.map_or("", |fitting| fitting.name()));
    line("Defect", &defect.what);
    line("Noted", &format!("{}, {}", defect.by, defect.noted_shown));
    if defect.needs_authority && defect.authority.is_empty() {
        line("Waits for", "an authority's answer before the car moves");
    }
    line("Authority", &defect.authority);
    for sent in &defect.forwarded {
        line("Forwarded before", sent);
    }
    line("Record", &known.visit.map_or(String::new(), |visit| visit.to_string()));
    line("Defect's id", &defect.id.to_string());
    text.push_str(&format!("\n{}\n", farsiding_core::view::NOTE));
    text
}
