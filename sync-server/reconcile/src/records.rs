//! Finds records that do not fit together: car numbers, seals, gaps in a device's entries, and cars that are
//! too full.
//!
//! Two cars of one fleet often have numbers that differ by one digit, and both are right. A near miss is
//! therefore pointed out only if a paper or a second reading says that it means this car. Called by `report`.

use std::collections::{BTreeMap, BTreeSet};

use chrono::NaiveDate;
use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::car_number::CarNumber;
use farsiding_core::entry::vocabulary::SealEvent;
use farsiding_core::ids::VisitId;
use farsiding_core::units::Unit;
use farsiding_core::{Arg, Joint, Message, message};
use serde::{Deserialize, Serialize};

use super::judgement::{Finding, FindingKind};
use super::{HeldPaper, Settings};
use crate::facts::{Facts, GapFact, Missing};

/// The largest number of days between a paper's date and the beginning of its stay. A stay may also begin up
/// to two days before the paper's date.
pub const PAPER_DAYS: i64 = 45;
/// The length below which seal numbers are not compared between cars.
pub const SHORTEST_SEAL: usize = 4;
const DAY: i64 = 86_400_000;

/// A remark that accuses nobody.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Note {
    /// The kind of remark: `incomplete`, `joined`, `fill_in_doubt` or `same_stay`.
    pub code: String,
    /// The car.
    pub about: String,
    /// The stays.
    pub visits: Vec<VisitId>,
    /// The remark.
    pub sentence: Message,
}

/// Returns a seal number for comparison: only its letters and digits, in upper case.
pub fn seal_key(number: &str) -> String {
    number.chars().filter(|c| c.is_alphanumeric()).flat_map(char::to_uppercase).collect()
}

/// Adds findings for cars that came fuller than the limit allows, and notes for cars that may have.
pub fn fill(stays: &[&Facts], findings: &mut Vec<Finding>, notes: &mut Vec<Note>) {
    for facts in stays {
        let Some(fill) = &facts.fill else { continue };
        let said = |id| {
            Message::new(id)
                .with("car", Arg::typed(&facts.car))
                .with("reference", Unit::Fahrenheit.figure(fill.reference_f, 0))
                .with("outage", Unit::Percent.figure_within(fill.outage_percent, fill.plus_minus, 2))
                .with("least", Unit::Percent.plain(fill.least_percent))
                .with("source", fill.source.clone())
        };
        if fill.overfilled() {
            findings.push(of_stay(FindingKind::Overfilled, facts, said("reconcile-overfilled")));
        } else if fill.in_doubt() {
            notes.push(note("fill_in_doubt", facts, said("reconcile-fill-in-doubt")));
        }
    }
}

/// Adds a finding for each gap, once regardless of how many stays the device took part in. `beside` are gaps
/// that are known apart from the stays.
pub fn gaps(stays: &[&Facts], beside: &[GapFact], findings: &mut Vec<Finding>) {
    let mut seen: BTreeMap<&GapFact, (String, BTreeSet<VisitId>)> = BTreeMap::new();
    for facts in stays {
        for gap in &facts.gaps {
            seen.entry(gap)
                .or_insert_with(|| (facts.site_name.clone(), BTreeSet::new()))
                .1
                .extend(&facts.visits);
        }
    }
    let told: BTreeSet<_> = seen.keys().map(|gap| (gap.device, gap.from, gap.to, gap.missing)).collect();
    for gap in beside {
        if !told.contains(&(gap.device, gap.from, gap.to, gap.missing)) {
            seen.entry(gap).or_default();
        }
    }
    // A broken link directly after missing entries is part of the same gap.
    let holes: BTreeSet<_> =
        seen.keys().filter(|gap| gap.missing).map(|gap| (gap.device, gap.to.saturating_add(1))).collect();
    for (gap, (site, visits)) in seen {
        if !gap.missing && holes.contains(&(gap.device, gap.from)) {
            continue;
        }
        let kind = if gap.missing { FindingKind::LostEntry } else { FindingKind::BrokenChain };
        let sentence = match visits.len() {
            0 => gap.sentence.clone(),
            count => message!("reconcile-gap-in-stays", gap = gap.sentence.clone(), count = count),
        };
        let about = gap.device.short().to_string();
        findings.push(Finding { kind, about, site, visits: visits.into_iter().collect(), sentence });
    }
}

/// Adds a finding for each seal number that was found on more than one car, over all known stays, if a stay
/// of the month took part.
pub fn seals(all: &[&Facts], in_month: impl Fn(&Facts) -> bool, findings: &mut Vec<Finding>) {
    let mut by_number: BTreeMap<String, Vec<(&Facts, usize)>> = BTreeMap::new();
    for facts in all {
        for (at, seal) in facts.seals.iter().enumerate() {
            let key = seal_key(&seal.number);
            if key.chars().count() >= SHORTEST_SEAL {
                by_number.entry(key).or_default().push((facts, at));
            }
        }
    }
    for (number, uses) in by_number {
        let cars: BTreeSet<&str> = uses.iter().map(|(facts, _)| facts.car.as_str()).collect();
        if cars.len() < 2 || !uses.iter().any(|(facts, _)| in_month(facts)) {
            continue;
        }
        let kinds: BTreeSet<_> = uses.iter().filter_map(|(facts, at)| facts.seals[*at].kind).collect();
        if kinds.len() > 1 {
            continue; // different makers may use the same numbers
        }
        let told = uses.iter().map(|(facts, at)| {
            let seal = &facts.seals[*at];
            let id = match seal.event {
                SealEvent::Found => "reconcile-seal-found",
                SealEvent::Applied => "reconcile-seal-applied",
                SealEvent::Removed => "reconcile-seal-removed",
            };
            Message::new(id)
                .with("car", Arg::typed(&facts.car))
                .with("site", Arg::typed(&facts.site_name))
                .with("day", Arg::Typed(day(facts, seal.at)))
        });
        let sentence = message!(
            "reconcile-seal-on-two-cars",
            seal = Arg::typed(&number),
            count = cars.len(),
            uses = Arg::list(Joint::Semicolon, told),
        );
        let mut visits: Vec<VisitId> = uses.iter().filter_map(|(facts, _)| facts.visit()).collect();
        visits.sort_unstable();
        visits.dedup();
        findings.push(Finding {
            kind: FindingKind::SealOnTwoCars,
            about: number.clone(),
            site: String::new(),
            visits,
            sentence,
        });
    }
}

fn day(facts: &Facts, at: UtcMillis) -> String {
    crate::facts::day_of(at, facts.tz())
}

/// Returns whether a paper of the given day may belong to the stay.
fn in_time(paper_day: &str, facts: &Facts) -> bool {
    let (Ok(paper), Some(stay)) = (paper_day.parse::<NaiveDate>(), facts.date()) else { return true };
    (-2..=PAPER_DAYS).contains(&(stay - paper).num_days())
}

/// Returns the stay's paper among `papers`: by the paper's number if the record names one, or else the latest
/// paper with the car's number.
pub fn paper_of<'p>(facts: &Facts, papers: &'p [HeldPaper]) -> Option<&'p HeldPaper> {
    let number = facts.paper.number.trim();
    let same_car = |paper: &&HeldPaper| CarNumber(paper.car.clone()).normal() == facts.car;
    let by_number = papers.iter().filter(|paper| !number.is_empty() && paper.number.trim() == number);
    let by_car = papers.iter().filter(same_car).filter(|paper| in_time(&paper.day, facts));
    by_number.clone().find(same_car).or_else(|| by_car.max_by_key(|paper| paper.day.clone()))
}

/// Adds findings for numbers that differ by one slip and that, according to a paper or a second reading, mean
/// the same car.
pub fn numbers(
    stays: &[&Facts],
    all: &[&Facts],
    papers: &[HeldPaper],
    findings: &mut Vec<Finding>,
    notes: &mut Vec<Note>,
) {
    let known: BTreeSet<&str> = all.iter().map(|facts| facts.car.as_str()).collect();
    for facts in stays.iter().filter(|facts| !facts.car.is_empty()) {
        let car = CarNumber(facts.car.clone());
        let paper_car = CarNumber(facts.paper.car.clone());
        if !facts.paper.car.is_empty() && paper_car.normal() != facts.car {
            let said = |id| {
                Message::new(id)
                    .with("car", Arg::typed(&facts.car))
                    .with("paper", Arg::typed(&facts.paper.number))
                    .with("other", Arg::Typed(paper_car.normal()))
            };
            findings.push(match car.is_near(&paper_car) {
                true => of_stay(FindingKind::NearNumber, facts, said("reconcile-paper-near-car")),
                false => of_stay(FindingKind::OtherCar, facts, said("reconcile-paper-other-car")),
            });
            continue;
        }
        let again = CarNumber(facts.car_again.clone());
        if !facts.car_again.is_empty() && again.normal() != facts.car && car.is_near(&again) {
            let sentence = message!(
                "reconcile-read-again",
                car = Arg::typed(&facts.car),
                again = Arg::Typed(again.normal()),
            );
            findings.push(of_stay(FindingKind::NearNumber, facts, sentence));
            continue;
        }
        if paper_of(facts, papers).is_some() || !facts.paper.car.is_empty() {
            continue; // a paper confirms this car's number
        }
        let near = papers.iter().find(|paper| {
            let theirs = CarNumber(paper.car.clone());
            car.is_near(&theirs) && !known.contains(theirs.normal().as_str()) && in_time(&paper.day, facts)
        });
        if let Some(paper) = near {
            let sentence = message!(
                "reconcile-paper-without-record",
                car = Arg::typed(&facts.car),
                paper = Arg::typed(&paper.number),
                other = Arg::Typed(CarNumber(paper.car.clone()).normal()),
            );
            findings.push(of_stay(FindingKind::NearNumber, facts, sentence));
        }
    }
    same_stay(stays, all, notes);
}

/// Adds notes for pairs of records that may be of one stay. A note suggests a look and accuses nobody.
fn same_stay(stays: &[&Facts], all: &[&Facts], notes: &mut Vec<Note>) {
    let mut of_one_car: BTreeMap<&str, Vec<&Facts>> = BTreeMap::new();
    for facts in all {
        of_one_car.entry(&facts.car).or_default().push(facts);
    }
    for facts in stays {
        for other in of_one_car.get(facts.car.as_str()).into_iter().flatten() {
            let apart = facts.visits.iter().all(|visit| !other.visits.contains(visit));
            let (Some(a), Some(b)) = (facts.visit(), other.visit()) else { continue };
            if !apart || a >= b || facts.site.is_none() || facts.site != other.site || !overlap(facts, other)
            {
                continue;
            }
            let declined = |a: &Facts, b: &Facts| a.not_joined.iter().any(|visit| b.visits.contains(visit));
            if !declined(facts, other) && !declined(other, facts) {
                let sentence = message!(
                    "reconcile-same-stay",
                    car = Arg::typed(&facts.car),
                    site = Arg::typed(&facts.site_name),
                );
                let mut note = note("same_stay", facts, sentence);
                note.visits.extend(&other.visits);
                notes.push(note);
            }
        }
    }
}

fn overlap(a: &Facts, b: &Facts) -> bool {
    let (Some(a_from), Some(a_until), Some(b_from), Some(b_until)) = (a.from, a.latest, b.from, b.latest)
    else {
        return false;
    };
    a_from.0.saturating_sub(DAY) <= b_until.0 && b_from.0.saturating_sub(DAY) <= a_until.0
}

/// Adds notes for stays that are incomplete and for stays made of several records.
pub fn completeness(stays: &[&Facts], settings: &Settings, now: UtcMillis, notes: &mut Vec<Note>) {
    for facts in stays {
        if facts.visits.len() > 1 {
            let sentence =
                message!("reconcile-joined", car = Arg::typed(&facts.car), count = facts.visits.len());
            notes.push(note("joined", facts, sentence));
        }
        let mut lacks: Vec<Message> = Vec::new();
        let silent = facts.latest.is_some_and(|latest| now.since(latest) > settings.silent_days * DAY);
        if facts.released.is_none() && silent {
            let days = u64::try_from(settings.silent_days).unwrap_or(0);
            lacks.push(message!("reconcile-lacks-release", count = days));
        }
        if facts.released.is_some() && facts.open_blockers > 0 {
            lacks.push(message!("reconcile-lacks-closing", count = facts.open_blockers));
        }
        if !facts.disagreements.is_empty() {
            let about = Arg::list(Joint::Comma, facts.disagreements.iter().cloned());
            lacks.push(message!("reconcile-lacks-agreement", about = about));
        }
        if facts.released.is_some() || silent {
            lacks.extend(facts.missing.iter().map(Missing::message));
        }
        if !lacks.is_empty() {
            let lacks = Arg::list(Joint::Semicolon, lacks);
            let sentence = message!("reconcile-incomplete", car = Arg::typed(&facts.car), lacks = lacks);
            notes.push(note("incomplete", facts, sentence));
        }
    }
}

fn of_stay(kind: FindingKind, facts: &Facts, sentence: Message) -> Finding {
    Finding {
        kind,
        about: facts.car.clone(),
        site: facts.site_name.clone(),
        visits: facts.visit().into_iter().collect(),
        sentence,
    }
}

fn note(code: &str, facts: &Facts, sentence: Message) -> Note {
    Note {
        code: code.to_owned(),
        about: facts.car.clone(),
        visits: facts.visit().into_iter().collect(),
        sentence,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::facts::{SealFact, sample};
    use farsiding_core::entry::vocabulary::{SealKind, SealPlace};
    use farsiding_core::ids::EntryId;

    fn sealed(car: &str, number: &str, kind: SealKind) -> Facts {
        let mut facts = sample(car);
        facts.seals.push(SealFact {
            event: SealEvent::Applied,
            place: SealPlace::HousingPin,
            number: number.to_owned(),
            kind: Some(kind),
            intact: true,
            note: String::new(),
            at: UtcMillis(1_793_000_000_000),
            entry: EntryId([0; 32]),
        });
        facts
    }

    fn seals_of(stays: &[Facts]) -> Vec<Finding> {
        let all: Vec<&Facts> = stays.iter().collect();
        let mut findings = Vec::new();
        seals(&all, |_| true, &mut findings);
        findings
    }

    #[test]
    fn one_seal_on_two_cars_is_found_however_it_was_typed() {
        let found = seals_of(&[
            sealed("ZZQX 1", "K-400 107", SealKind::Cable),
            sealed("ZZQX 2", "k400107", SealKind::Cable),
        ]);
        assert_eq!(found.len(), 1);
        let said = farsiding_words::english(&found[0].sentence);
        assert!(said.contains("ZZQX 1") && said.contains("ZZQX 2"), "{said}");
    }

    #[test]
    fn one_cars_seal_put_on_and_found_again_is_none_and_neither_are_two_makers_numbers() {
        assert!(
            seals_of(&[
                sealed("ZZQX 1", "K1001", SealKind::Cable),
                sealed("ZZQX 1", "K1001", SealKind::Cable)
            ])
            .is_empty()
        );
        assert!(
            seals_of(&[
                sealed("ZZQX 1", "100123", SealKind::Cable),
                sealed("ZZQX 2", "100123", SealKind::Plastic)
            ])
            .is_empty()
        );
        assert!(
            seals_of(&[sealed("ZZQX 1", "12", SealKind::Cable), sealed("ZZQX 2", "12", SealKind::Cable)])
                .is_empty()
        );
    }

    fn numbers_of(stays: &[Facts], papers: &[HeldPaper]) -> Vec<Finding> {
        let all: Vec<&Facts> = stays.iter().collect();
        let mut findings = Vec::new();
        numbers(&all, &all, papers, &mut findings, &mut Vec::new());
        findings
    }

    fn paper(car: &str) -> HeldPaper {
        HeldPaper {
            number: format!("P-{car}"),
            car: car.to_owned(),
            shipper: String::new(),
            billed: String::new(),
            day: "2026-10-24".to_owned(),
        }
    }

    #[test]
    fn neighbours_of_one_fleet_are_not_accused_of_being_one_car() {
        let fleet = [sample("ZZQX 4417"), sample("ZZQX 4418"), sample("ZZQX 4471")];
        assert!(numbers_of(&fleet, &[]).is_empty());
        assert!(numbers_of(&fleet, &[paper("ZZQX 4417"), paper("ZZQX 4418"), paper("ZZQX 4471")]).is_empty());
    }

    #[test]
    fn a_number_one_slip_from_its_paper_is_pointed_out_once() {
        let mut swapped = sample("ZZQX 4471");
        swapped.paper.car = "ZZQX 4417".to_owned();
        let found = numbers_of(&[swapped], &[paper("ZZQX 4417")]);
        assert_eq!(found.len(), 1);
        assert_eq!(found[0].kind, FindingKind::NearNumber);
        // No paper was recorded at the car, but the office holds one that can mean no other car.
        assert_eq!(numbers_of(&[sample("ZZQX 4471")], &[paper("ZZQX 4417")]).len(), 1);
        let both = [sample("ZZQX 4471"), sample("ZZQX 4417")];
        assert!(numbers_of(&both, &[paper("ZZQX 4417")]).is_empty(), "that paper has its car");
        let mut old = paper("ZZQX 4417");
        old.day = "2025-01-01".to_owned();
        assert!(numbers_of(&[sample("ZZQX 4471")], &[old]).is_empty());
    }
}
