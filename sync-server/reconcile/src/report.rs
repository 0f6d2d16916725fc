//! The report of a month: cars, totals, biases, findings and detention.
//!
//! Called by the pages, the export and the command line. The report is computed from the facts each time.

use std::collections::BTreeMap;

use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::car_number::CarNumber;
use farsiding_core::entry::vocabulary::BilledBy;
use farsiding_core::ids::{SiteId, VisitId};
use farsiding_core::units::Unit;
use farsiding_core::{Arg, Message, message};
use serde::{Deserialize, Serialize};

use super::bias::{self, Bias};
use super::comparison::{Compared, Comparison, compare};
use super::demurrage::{Account, Demurrage, account, demurrage};
use super::detention::{Detention, detention};
use super::judgement::{Finding, FindingKind, Group, Judged, judge};
use super::records::{self, Note};
use super::totals::{Total, total};
use super::{HeldPaper, Settings};
use crate::facts::{Amounted, Facts, GapFact, Side};

/// The month and the site of a report.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Selection {
    /// The month, as `YYYY-MM`.
    pub month: String,
    /// The only site to report on; `None` for all sites.
    pub site: Option<SiteId>,
}

/// The stay of one car in the report.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct CarLine {
    /// The visit that names the stay.
    pub visit: Option<VisitId>,
    /// The number of records that form the stay.
    pub records: usize,
    /// The car's number.
    pub car: String,
    /// The site's name.
    pub site: String,
    /// The site's time zone.
    pub zone: String,
    /// The day under which the stay is counted.
    pub day: String,
    /// The first time that an entry claims.
    pub from: Option<UtcMillis>,
    /// The shipper.
    pub shipper: String,
    /// The paper's number.
    pub paper: String,
    /// The gauge with which the outage was read.
    pub gauge: String,
    /// The time at which the car was released.
    pub released: Option<UtcMillis>,
    /// The quantity billed.
    pub billed: Option<Amounted>,
    /// How it was measured: by the paper, or else as the office knows it of the shipper; `None` while nobody said.
    #[serde(default)]
    pub billed_by: Option<BilledBy>,
    /// The vapour above the liquid on arrival.
    #[serde(default)]
    pub vapour: Option<Amounted>,
    /// The quantity found on arrival.
    pub found: Option<Amounted>,
    /// The quantity received.
    pub received: Option<Amounted>,
    /// The quantity left in the car.
    pub left: Option<Amounted>,
    /// The comparisons that could be made.
    pub comparisons: Vec<Comparison>,
    /// Why other comparisons could not be made.
    pub not_compared: Vec<Message>,
    /// The part of the difference found that a biased group explains, in gal.
    pub explained: f64,
    /// The day on the paper, as `YYYY-MM-DD`; empty when it is not known.
    pub paper_day: String,
    /// The times of the clock events.
    pub clock: BTreeMap<String, UtcMillis>,
    /// The demurrage by the carrier's tariff, if it can be computed.
    pub demurrage: Option<Demurrage>,
    /// Why there is no demurrage.
    pub no_demurrage: Option<Message>,
    /// The detention by the tariff of the car's supplier, if it can be computed.
    pub detention: Option<Detention>,
    /// Why there is no detention.
    pub no_detention: Option<Message>,
}

impl CarLine {
    /// Returns the comparison of a kind.
    pub fn comparison(&self, compared: Compared) -> Option<&Comparison> {
        self.comparisons.iter().find(|comparison| comparison.compared == compared)
    }
}

/// The report of a month.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct MonthReport {
    /// The month and the site of the report.
    pub selection: Selection,
    /// The time at which the report was computed.
    pub made_at: UtcMillis,
    /// The settings used.
    pub settings: Settings,
    /// The cars in the order in which they came.
    pub cars: Vec<CarLine>,
    /// The sums by site, by shipper and over the month.
    pub totals: Vec<Total>,
    /// The systematic differences.
    pub biases: Vec<Bias>,
    /// The findings, sorted by kind.
    pub findings: Vec<Finding>,
    /// The accounts of sites whose carrier sets credits against debits.
    pub accounts: Vec<Account>,
    /// The notes.
    pub notes: Vec<Note>,
}

impl MonthReport {
    /// Returns the report. `all` holds the facts of every known stay in any order, because other months may
    /// show that a seal was used twice. `gaps` are gaps in devices' chains that are known apart from the
    /// stays.
    pub fn of(
        all: &[Facts],
        papers: &[HeldPaper],
        gaps: &[GapFact],
        selection: Selection,
        settings: &Settings,
        now: UtcMillis,
    ) -> MonthReport {
        let chosen = |facts: &Facts| {
            facts.month() == selection.month && selection.site.is_none_or(|site| facts.site == Some(site))
        };
        let mut all: Vec<Facts> = all.to_vec();
        for facts in &mut all {
            billed_by_the_offices_paper(facts, papers);
        }
        all.sort_by(|a, b| (a.from, &a.visits).cmp(&(b.from, &b.visits)));
        let everything: Vec<&Facts> = all.iter().collect();
        let stays: Vec<&Facts> = all.iter().filter(|facts| chosen(facts)).collect();
        let mut cars: Vec<CarLine> = stays.iter().map(|facts| line(facts, settings, now)).collect();
        let mut findings = Vec::new();
        let mut notes = Vec::new();
        let mut biases = Vec::new();
        for compared in Compared::ALL {
            let (found, explained) = judge_all(&cars, compared, settings);
            biases.extend(biases_of(&cars, compared, settings, &found, &mut findings));
            findings.extend(found);
            if compared == Compared::Found {
                for (car, explained) in cars.iter_mut().zip(explained) {
                    car.explained = explained;
                }
            }
        }
        records::fill(&stays, &mut findings, &mut notes);
        records::numbers(&stays, &everything, papers, &mut findings, &mut notes);
        records::seals(&everything, chosen, &mut findings);
        records::gaps(&stays, gaps, &mut findings);
        records::completeness(&stays, settings, now, &mut notes);
        findings.sort_by(|a, b| (a.kind, &a.about).cmp(&(b.kind, &b.about)));
        let totals = totals_of(&cars, &selection.month);
        let accounts = accounts_of(&cars, settings);
        MonthReport {
            selection,
            made_at: now,
            settings: settings.clone(),
            cars,
            totals,
            biases,
            findings,
            accounts,
            notes,
        }
    }

    /// Returns the months that have stays, newest first.
    pub fn months(all: &[Facts]) -> Vec<String> {
        let mut months: Vec<String> =
            all.iter().map(|facts| facts.month().to_owned()).filter(|month| !month.is_empty()).collect();
        months.sort();
        months.dedup();
        months.reverse();
        months
    }
}

/// Takes the quantity billed from the office's paper if nobody recorded it at the car.
fn billed_by_the_offices_paper(facts: &mut Facts, papers: &[HeldPaper]) {
    use farsiding_core::units::{Amount, Dimension};
    let Some(paper) = records::paper_of(facts, papers).cloned() else { return };
    if facts.paper.shipper.is_empty() {
        facts.paper.shipper = paper.shipper.trim().to_owned();
    }
    if facts.paper.number.is_empty() {
        facts.paper.number = paper.number.trim().to_owned();
    }
    facts.paper.day = paper.day.trim().to_owned();
    if facts.billed.is_some() {
        return;
    }
    let (amount, _) = Amount::read(&paper.billed, Unit::Gallon);
    let unit = if amount.unit.dimension() == Dimension::Mass { Unit::Pound } else { Unit::Gallon };
    if let Some(value) = amount.value_in(unit).filter(|value| *value > 0.0) {
        facts.missing.retain(|missing| missing.of != Side::Billed);
        facts.billed = Some(Amounted {
            value,
            unit,
            parts: Vec::new(),
            how: message!("reconcile-how-office-paper", paper = Arg::typed(&paper.number)),
            instrument: String::new(),
            pounds_per_gallon: None,
            density: None,
        });
    }
}

fn either<T>(clock: Result<T, Message>) -> (Option<T>, Option<Message>) {
    match clock {
        Ok(clock) => (Some(clock), None),
        Err(why) => (None, Some(why)),
    }
}

/// Returns the accounts of the sites whose carrier sets credits against debits.
fn accounts_of(cars: &[CarLine], settings: &Settings) -> Vec<Account> {
    let of_site = |(site, places): (String, Vec<usize>)| {
        let clocks: Vec<&Demurrage> = places.iter().filter_map(|at| cars[*at].demurrage.as_ref()).collect();
        account(&site, settings.tariff(&site)?, &clocks)
    };
    by_name(cars, |car| car.site.clone()).into_iter().filter_map(of_site).collect()
}

fn line(facts: &Facts, settings: &Settings, now: UtcMillis) -> CarLine {
    let mut comparisons = Vec::new();
    let mut not_compared = Vec::new();
    for compared in Compared::ALL {
        match compare(facts, compared, settings) {
            Ok(comparison) => comparisons.push(comparison),
            Err(why) => {
                not_compared.push(message!("reconcile-not-compared", compared = compared.term(), why = why));
            }
        }
    }
    let (demurrage, no_demurrage) = either(match settings.tariff(&facts.site_name) {
        Some(tariff) => demurrage(facts, tariff, now),
        None => Err(Message::new("reconcile-no-tariff")),
    });
    let (detention, no_detention) = either(match settings.detention_tariff(&facts.paper.shipper) {
        Some(tariff) => detention(facts, tariff, now),
        None => Err(Message::new("reconcile-no-supplier-tariff")),
    });
    CarLine {
        visit: facts.visit(),
        records: facts.visits.len(),
        car: if facts.car.is_empty() { "(no number)".to_owned() } else { facts.car.clone() },
        site: facts.site_name.clone(),
        zone: facts.zone.clone(),
        day: facts.day.clone(),
        from: facts.from,
        shipper: facts.paper.shipper.clone(),
        paper: facts.paper.number.clone(),
        gauge: facts.gauge.clone(),
        released: facts.released,
        billed: facts.billed.clone(),
        billed_by: settings.basis(facts),
        vapour: facts.vapour.clone(),
        found: facts.found.clone(),
        received: facts.received.clone(),
        left: facts.left.clone(),
        comparisons,
        not_compared,
        explained: 0.0,
        clock: facts.clock.clone(),
        paper_day: facts.paper.day.clone(),
        demurrage,
        no_demurrage,
        detention,
        no_detention,
    }
}

/// Groups cars by a name. Cars without a name are left out.
fn by_name(cars: &[CarLine], name: impl Fn(&CarLine) -> String) -> BTreeMap<String, Vec<usize>> {
    let mut groups: BTreeMap<String, Vec<usize>> = BTreeMap::new();
    for (at, car) in cars.iter().enumerate() {
        let name = name(car);
        if !name.is_empty() {
            groups.entry(name).or_default().push(at);
        }
    }
    groups
}

/// Returns the key of a car's instrument. Instruments are named within their site, and names are compared
/// regardless of spelling.
fn instrument_of(car: &CarLine, compared: Compared) -> String {
    let instrument = car.comparison(compared).map_or("", |comparison| comparison.instrument.as_str());
    match instrument.trim() {
        "" => String::new(),
        name => format!("{}\u{1f}{}", car.site, name.to_uppercase()),
    }
}

fn named(key: &str) -> (&str, &str) {
    key.split_once('\u{1f}').unwrap_or(("", key))
}

fn judge_all(cars: &[CarLine], compared: Compared, settings: &Settings) -> (Vec<Finding>, Vec<f64>) {
    let judged: Vec<Judged<'_>> = cars
        .iter()
        .map(|car| Judged {
            car: car.car.clone(),
            site: car.site.clone(),
            visit: car.visit,
            comparison: car.comparison(compared),
        })
        .collect();
    let mut groups: Vec<Group> = Vec::new();
    for (key, cars) in by_name(cars, |car| instrument_of(car, compared)) {
        let (site, name) = named(&key);
        let (about, site) = (name.to_owned(), site.to_owned());
        groups.push(Group { kind: FindingKind::BiasedGauge, about, site, cars });
    }
    // If all cars of a site were measured with one instrument, the instrument's group covers them already.
    for (site, cars) in by_name(cars, |car| car.site.clone()) {
        if !groups.iter().any(|group| group.cars == cars) {
            groups.push(Group { kind: FindingKind::BiasedSite, about: site.clone(), site, cars });
        }
    }
    for (about, cars) in by_name(cars, |car| car.shipper.clone()) {
        groups.push(Group { kind: FindingKind::BiasedShipper, about, site: String::new(), cars });
    }
    judge(compared, &judged, &groups, settings)
}

/// Returns the biases to be shown. A drift is added as a finding if a gauge's chart gives a signal and the
/// gauge has no other finding.
fn biases_of(
    cars: &[CarLine],
    compared: Compared,
    settings: &Settings,
    judged: &[Finding],
    findings: &mut Vec<Finding>,
) -> Vec<Bias> {
    let mut biases = Vec::new();
    let pick = |places: &[usize]| -> Vec<(usize, &Comparison)> {
        places.iter().filter_map(|at| Some((*at, cars[*at].comparison(compared)?))).collect()
    };
    let only = |picked: &[(usize, &Comparison)]| -> Vec<(usize, Comparison)> {
        picked.iter().map(|(at, comparison)| (*at, (*comparison).clone())).collect()
    };
    for (key, places) in by_name(cars, |car| instrument_of(car, compared)) {
        let (site, name) = named(&key);
        let picked = pick(&places);
        let comparisons: Vec<&Comparison> = picked.iter().map(|(_, comparison)| *comparison).collect();
        let Some(mut bias) = bias::bias("gauge", name, site, compared, &comparisons) else { continue };
        bias.cusum = bias::cusum(&picked, settings);
        // A car with a finding of its own is left out of the judgement of its gauge, and so is what a shipper
        // explains.
        let alone: Vec<&str> = judged
            .iter()
            .filter(|f| matches!(f.kind, FindingKind::CarShort | FindingKind::CarOver))
            .map(|f| f.about.as_str())
            .collect();
        let shipper = judged.iter().any(|f| f.kind == FindingKind::BiasedShipper);
        let gauge = judged.iter().any(|f| {
            (f.kind == FindingKind::BiasedGauge && f.about == name && f.site == site)
                || (f.kind == FindingKind::BiasedSite && f.site == site)
        });
        let kept: Vec<(usize, Comparison)> =
            only(&picked).into_iter().filter(|(at, _)| !alone.contains(&cars[*at].car.as_str())).collect();
        let kept: Vec<(usize, &Comparison)> = kept.iter().map(|(at, comparison)| (*at, comparison)).collect();
        let chart = bias::cusum(&kept, settings);
        if let Some(chart) = chart.filter(|chart| !gauge && !shipper && !chart.signals.is_empty()) {
            let visits = chart.signals.iter().filter_map(|at| cars[chart.points[*at].car].visit).collect();
            let first = chart.signals.first().map_or("", |at| cars[chart.points[*at].car].car.as_str());
            findings.push(Finding {
                kind: FindingKind::Drift,
                about: name.to_owned(),
                site: site.to_owned(),
                visits,
                sentence: message!(
                    "reconcile-drift",
                    gauge = Arg::typed(name),
                    compared = compared.term(),
                    interval = Unit::Gallon.figure(chart.interval, 0),
                    first = Arg::typed(first),
                    reference = Unit::Gallon.figure(chart.reference, 0),
                ),
            });
        }
        biases.push(bias);
    }
    let groups = [
        ("site", by_name(cars, |car| car.site.clone())),
        ("shipper", by_name(cars, |car| car.shipper.clone())),
    ];
    for (by, groups) in groups {
        for (name, places) in groups {
            let comparisons: Vec<&Comparison> = pick(&places).into_iter().map(|(_, c)| c).collect();
            biases.extend(bias::bias(by, &name, "", compared, &comparisons));
        }
    }
    biases
}

fn totals_of(cars: &[CarLine], month: &str) -> Vec<Total> {
    let mut totals = Vec::new();
    let unnamed = |name: &str, what: &str| {
        if name.is_empty() { format!("(no {what} recorded)") } else { name.to_owned() }
    };
    for compared in Compared::ALL {
        let groups = [
            ("site", by_name(cars, |car| unnamed(&car.site, "site"))),
            ("shipper", by_name(cars, |car| unnamed(&car.shipper, "shipper"))),
            ("month", by_name(cars, |_| month.to_owned())),
        ];
        for (by, groups) in groups {
            for (name, places) in groups {
                let picked: Vec<Option<&Comparison>> =
                    places.iter().map(|at| cars[*at].comparison(compared)).collect();
                totals.push(total(by, &name, compared, &picked));
            }
        }
    }
    totals
}

/// Returns whether two car numbers differ by one slip, for suggestions beside a search.
pub fn near(a: &str, b: &str) -> bool {
    CarNumber(a.to_owned()).is_near(&CarNumber(b.to_owned()))
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]
    use super::*;
    use crate::facts::{PaperFacts, sample};

    /// A paper that was imported, sent to the site and confirmed at the car is one paper: what the person recorded is
    /// billed, once, also where it differs from the file.
    #[test]
    fn a_paper_that_was_sent_to_the_site_and_confirmed_there_is_counted_once() {
        let held = HeldPaper {
            number: "B-7714".to_owned(),
            car: "zzqx 4417".to_owned(),
            shipper: "North (invented)".to_owned(),
            billed: "30100 gal".to_owned(),
            day: "2026-10-24".to_owned(),
        };
        let amount = |value| Amounted {
            value,
            unit: Unit::Gallon,
            parts: Vec::new(),
            how: Message::default(),
            instrument: String::new(),
            pounds_per_gallon: None,
            density: None,
        };
        let recorded = |value| {
            let paper = PaperFacts {
                recorded: true,
                number: held.number.clone(),
                car: "ZZQX 4417".to_owned(),
                shipper: held.shipper.clone(),
                un_number: "UN1075".to_owned(),
                billed_text: format!("{value} gal"),
                day: held.day.clone(),
                billed_by: Some(BilledBy::Meter),
            };
            Facts { paper, billed: Some(amount(value)), found: Some(amount(30_000.0)), ..sample("ZZQX 4417") }
        };
        for value in [30_100.0, 30_400.0] {
            let all = [recorded(value)];
            let selection = Selection { month: all[0].month().to_owned(), site: None };
            let papers = [held.clone()];
            let now = UtcMillis(1_793_050_000_000);
            let report = MonthReport::of(&all, &papers, &[], selection, &Settings::default(), now);
            assert_eq!(report.cars.len(), 1);
            assert_eq!(report.cars[0].billed.as_ref().unwrap().value, value);
            let month: Vec<&Total> = report.totals.iter().filter(|total| total.by == "month").collect();
            assert!(month.iter().all(|total| total.billed <= value), "{month:?}");
            assert!(!report.findings.iter().any(|finding| finding.kind == FindingKind::NearNumber));
        }
    }
}
