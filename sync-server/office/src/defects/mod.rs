//! The defects of all stays, with the overdue ones first, and the wear of fittings.
//!
//! This file combines the facts of stays; its functions are pure. `mail` sends letters, and `queue` holds the
//! waiting ones. The core decides what a defect and wear are.

pub mod mail;
pub mod queue;
pub mod rounds;

use farsiding_words::Words;
use std::collections::BTreeMap;

use farsiding_core::calc::wear::{Effort, EffortBand, Trend, Wear, judge};
use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::vocabulary::{Fitting, Part};
use farsiding_core::ids::{DefectId, VisitId};
use farsiding_core::view::{VisitView, fate_message};
use farsiding_core::{Arg, Message, message};

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
    pub overdue: Message,
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

fn overdue(defect: &DefectFact, mailed: bool, now: UtcMillis) -> Message {
    if !defect.is_open() {
        return Message::default();
    }
    let count = |days: i64| u64::try_from(days).unwrap_or(0);
    if let Some(due) = defect.written_due.filter(|due| now > *due) {
        return message!("office-overdue-approval", count = count(now.since(due) / DAY));
    }
    let age = now.since(defect.noted) / DAY;
    if defect.forwarded.is_empty() && !mailed && age >= FORWARD_WITHIN_DAYS {
        return message!("office-overdue-not-reported", count = count(age));
    }
    if defect.needs_authority && defect.authority.is_empty() && age >= FORWARD_WITHIN_DAYS {
        return message!("office-overdue-no-answer", count = count(age));
    }
    Message::default()
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
pub fn subject_of(w: &Words, known: &KnownDefect) -> String {
    let (car, what) = (Arg::typed(&known.car), Arg::typed(&known.defect.what));
    let subject = w.text(&match known.defect.fitting {
        Some(fitting) => message!("letters-subject-at", car = car, fitting = fitting.term(), what = what),
        None => message!("letters-subject", car = car, what = what),
    });
    subject.chars().map(|c| if c.is_control() { ' ' } else { c }).take(150).collect()
}

/// Returns what the record of a stay says of a defect and of its fitting, entry by entry in order of time:
/// who, when, on which device, with what result, and the entry's id, by which the entry is found in the
/// packet.
pub fn extract_of(w: &Words, known: &KnownDefect, view: &VisitView) -> String {
    let defect = &known.defect;
    let own = format!("defect/{}", defect.id);
    let at =
        |slot: &str| slot.strip_prefix("fitting/").and_then(|rest| Fitting::read(rest.split('/').next()?));
    let about = |slot: &str| slot.starts_with(&own) || at(slot).is_some_and(|f| defect.fitting == Some(f));
    let stays = view.header.visits.iter().map(ToString::to_string).collect::<Vec<_>>().join(", ");
    let title =
        message!("letters-extract", car = Arg::typed(&known.car), site = Arg::typed(&known.site_name));
    let stay = message!("letters-stay", stay = Arg::typed(stays));
    let mut text = format!("{}\n{}\n{}\n", w.text(&title), w.text(&stay), w.say("letters-extract-holds"));
    let mut lines: Vec<_> = view.history.iter().filter(|line| about(&line.slot)).collect();
    lines.sort_by_key(|line| (line.said.claimed, line.said.entry));
    for line in lines {
        let said = &line.said;
        text.push_str(&format!("\n{}  {}\n", said.shown, w.text(&line.sentence)));
        let by =
            message!("letters-by", name = Arg::typed(&said.name), device = Arg::typed(&said.device_name));
        text.push_str(&format!("    {}\n", w.text(&by)));
        for why in [&said.why, &w.text(&line.why_gone)].into_iter().filter(|why| !why.is_empty()) {
            text.push_str(&format!("    {why}\n"));
        }
        if let Some(word) = fate_message(line.fate) {
            text.push_str(&format!("    {}\n", w.text(&word)));
        }
        let entry = message!("letters-entry", entry = Arg::typed(said.entry.to_string()));
        text.push_str(&format!("    {}\n", w.text(&entry)));
    }
    text.push_str(&format!("\n{}\n", w.text(&view.release.note)));
    text
}

/// Returns the text of a letter about a defect: a person's words, then the extract from the record.
pub fn letter_of(w: &Words, known: &KnownDefect, words: &str) -> String {
    let defect = &known.defect;
    let mut text = String::new();
    if !words.trim().is_empty() {
        text = format!("{}\n\n", words.trim());
    }
    let mut line = |said: Message| text.push_str(&format!("{}\n", w.text(&said)));
    let given = |value: &str| (!value.is_empty()).then(|| Arg::typed(value));
    if let Some(car) = given(&known.car) {
        line(message!("letters-car", car = car));
    }
    if let Some(site) = given(&known.site_name) {
        line(message!("letters-site", site = site));
    }
    if let Some(fitting) = defect.fitting {
        line(message!("letters-fitting", fitting = fitting.term()));
    }
    if let Some(what) = given(&defect.what) {
        line(message!("letters-defect", what = what));
    }
    line(message!("letters-noted", by = Arg::typed(&defect.by), time = Arg::typed(&defect.noted_shown)));
    if defect.needs_authority && defect.authority.is_empty() {
        line(message!("letters-waits"));
    }
    if let Some(answer) = given(&defect.authority) {
        line(message!("letters-approval", answer = answer));
    }
    for sent in defect.forwarded.iter().filter(|sent| !sent.is_empty()) {
        line(message!("letters-reported", sent = Arg::typed(sent)));
    }
    if let Some(visit) = known.visit {
        line(message!("letters-record", visit = Arg::typed(visit.to_string())));
    }
    line(message!("letters-id", id = Arg::typed(defect.id.to_string())));
    text.push_str(&format!("\n{}\n", w.say(farsiding_core::view::NOTE)));
    text
}
