//! Decides what is pointed out, and about whom: first gauges, shippers and sites, and only then single cars.
//!
//! A difference may come from a gauge that is off, from a shipper's measure, or from the car itself. Groups
//! are judged first, beginning with the clearest. What a group explains is subtracted from its cars before
//! the next group is judged, and only the rest counts against a single car. The thresholds keep the
//! probability of any wrong finding in a month at [`Settings::false_alarm_percent`] (Bonferroni over
//! everything that is judged). Called by `report`.

use farsiding_core::ids::VisitId;
use farsiding_core::units::Unit;
use farsiding_core::{Arg, Message};
use serde::{Deserialize, Serialize};

use super::Settings;
use super::bias::mean_and_deviation;
use super::comparison::{Compared, Comparison};
use super::distribution::{normal_enclosing, student_enclosing};
use crate::sharing::of_sum;

/// The kind of a finding.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum FindingKind {
    /// The cars gauged with one instrument differ by more than its uncertainty.
    BiasedGauge,
    /// A gauge's differences drift.
    Drift,
    /// One shipper's cars differ by more than the uncertainty of the shipper's measure.
    BiasedShipper,
    /// A site's cars differ.
    BiasedSite,
    /// A car is short by more than the uncertainty of measurement.
    CarShort,
    /// A car is over by more than the uncertainty of measurement.
    CarOver,
    /// A car came fuller than the limit by more than the uncertainty of measurement.
    Overfilled,
    /// Two records name the car by numbers that differ by one slip.
    NearNumber,
    /// The paper names another car altogether.
    OtherCar,
    /// One seal number was found on two cars.
    SealOnTwoCars,
    /// Entries of a device are missing.
    LostEntry,
    /// A device's chain contradicts itself.
    BrokenChain,
}

impl FindingKind {
    /// Returns the kind in words.
    pub fn term(self) -> Message {
        let word = match self {
            FindingKind::BiasedGauge => "biased_gauge",
            FindingKind::Drift => "drift",
            FindingKind::BiasedShipper => "biased_shipper",
            FindingKind::BiasedSite => "biased_site",
            FindingKind::CarShort => "car_short",
            FindingKind::CarOver => "car_over",
            FindingKind::Overfilled => "overfilled",
            FindingKind::NearNumber => "near_number",
            FindingKind::OtherCar => "other_car",
            FindingKind::SealOnTwoCars => "seal_on_two_cars",
            FindingKind::LostEntry => "lost_entry",
            FindingKind::BrokenChain => "broken_chain",
        };
        Message::term("reconcile_kind", word)
    }
}

/// A finding.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Finding {
    /// The kind of the finding.
    pub kind: FindingKind,
    /// The gauge, the car, the seal or the device that the finding is about.
    pub about: String,
    /// The site; empty when the finding belongs to none.
    pub site: String,
    /// The stays on which the finding is based.
    pub visits: Vec<VisitId>,
    /// The finding with the arithmetic and the threshold.
    pub sentence: Message,
}

/// A group of cars that may be off as a whole.
#[derive(Clone, Debug)]
pub struct Group {
    /// The kind of finding if the group is off.
    pub kind: FindingKind,
    /// The name of the gauge, the shipper or the site.
    pub about: String,
    /// The site.
    pub site: String,
    /// The indices of the group's cars.
    pub cars: Vec<usize>,
}

/// A car to be judged.
#[derive(Clone, Debug)]
pub struct Judged<'c> {
    /// The car's number.
    pub car: String,
    /// The site.
    pub site: String,
    /// The visit.
    pub visit: Option<VisitId>,
    /// The car's comparison, or `None` when it could not be compared.
    pub comparison: Option<&'c Comparison>,
}

/// Judges one kind of comparison. Returns the findings, and for each car the part of its difference that
/// groups explain, in gal.
pub fn judge(
    compared: Compared,
    cars: &[Judged<'_>],
    groups: &[Group],
    settings: &Settings,
) -> (Vec<Finding>, Vec<f64>) {
    let mut findings = Vec::new();
    let mut explained = vec![0.0; cars.len()];
    let there = cars.iter().filter(|car| car.comparison.is_some()).count();
    let judged = (there + groups.len()).max(1);
    let probability = 1.0 - settings.false_alarm_percent.clamp(0.01, 50.0) / 100.0 / judged as f64;
    let factor = normal_enclosing(probability);
    let mut open: Vec<&Group> = groups.iter().collect();
    while let Some((place, weight)) = clearest(&open, cars, &explained, settings, probability, factor) {
        let group = open.remove(place);
        let Weighed { mean, error, shared, limit, members, .. } = weight;
        let already = explained.iter().any(|part| *part != 0.0);
        let id = match (mean < 0.0, already) {
            (true, false) => "reconcile-group-less",
            (true, true) => "reconcile-group-less-after-others",
            (false, false) => "reconcile-group-more",
            (false, true) => "reconcile-group-more-after-others",
        };
        let sentence = Message::new(id)
            .with("about", Arg::typed(&group.about))
            .with("count", members.len())
            .with("compared", compared.term())
            .with("mean", Unit::Gallon.figure(mean.abs(), 0))
            .with("error", Unit::Gallon.figure(error, 0))
            .with("shared", Unit::Gallon.figure(shared, 0))
            .with("limit", Unit::Gallon.figure(limit, 0));
        findings.push(Finding {
            kind: group.kind,
            about: group.about.clone(),
            site: group.site.clone(),
            visits: members.iter().filter_map(|at| cars[*at].visit).collect(),
            sentence,
        });
        for at in members {
            explained[at] += mean;
        }
    }
    for (car, part) in cars.iter().zip(&explained) {
        let Some(comparison) = car.comparison else { continue };
        let rest = comparison.difference - part;
        let limit = factor * comparison.standard;
        if rest.abs() <= limit {
            continue;
        }
        let kind = if rest < 0.0 { FindingKind::CarShort } else { FindingKind::CarOver };
        let id = match (rest < 0.0, *part != 0.0) {
            (true, false) => "reconcile-car-short",
            (true, true) => "reconcile-car-short-after-others",
            (false, false) => "reconcile-car-over",
            (false, true) => "reconcile-car-over-after-others",
        };
        let sentence = Message::new(id)
            .with("car", Arg::typed(&car.car))
            .with("compared", compared.term())
            .with("rest", Unit::Gallon.figure(rest.abs(), 0))
            .with("percent", Arg::number(100.0 * rest.abs() / comparison.billed, 2))
            .with("explained", Unit::Gallon.figure(part.abs(), 0))
            .with("limit", Unit::Gallon.figure(limit, 0))
            .with("factor", Arg::number(factor, 2));
        findings.push(Finding {
            kind,
            about: car.car.clone(),
            site: car.site.clone(),
            visits: car.visit.into_iter().collect(),
            sentence,
        });
    }
    (findings, explained)
}

struct Weighed {
    mean: f64,
    error: f64,
    shared: f64,
    limit: f64,
    members: Vec<usize>,
}

/// Returns the group that stands out most clearly, if any does.
fn clearest(
    open: &[&Group],
    cars: &[Judged<'_>],
    explained: &[f64],
    settings: &Settings,
    probability: f64,
    factor: f64,
) -> Option<(usize, Weighed)> {
    let mut best: Option<(usize, Weighed)> = None;
    for (place, group) in open.iter().enumerate() {
        let members: Vec<usize> =
            group.cars.iter().copied().filter(|at| cars[*at].comparison.is_some()).collect();
        if members.len() < settings.fewest_cars.max(2) {
            continue;
        }
        let comparisons: Vec<(&Comparison, f64)> =
            members.iter().filter_map(|at| Some((cars[*at].comparison?, explained[*at]))).collect();
        let rests: Vec<f64> = comparisons.iter().map(|(c, part)| c.difference - part).collect();
        let (mean, deviation) = mean_and_deviation(&rests);
        let count = rests.len() as f64;
        let error = deviation / count.sqrt();
        let shared = of_sum(comparisons.iter().map(|(c, _)| c.parts.as_slice())).0 / count;
        let limit = (student_enclosing(probability, rests.len() - 1) * error).hypot(factor * shared);
        let clearer = |other: &Weighed| mean.abs() / limit > other.mean.abs() / other.limit;
        if mean.abs() > limit && best.as_ref().is_none_or(|(_, other)| clearer(other)) {
            best = Some((place, Weighed { mean, error, shared, limit, members }));
        }
    }
    best
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]
    use super::*;
    use crate::facts::Share;

    fn comparison(difference: f64, gauge: &str) -> Comparison {
        let parts = vec![
            Share { from: Message::default(), key: format!("outage/{gauge}"), standard: 25.0 },
            Share { from: Message::default(), key: String::new(), standard: 30.0 },
        ];
        let standard = 25.0_f64.hypot(30.0);
        Comparison {
            compared: Compared::Found,
            basis: farsiding_core::entry::vocabulary::BilledBy::Table,
            method: Message::default(),
            billed: 30_000.0,
            other: 30_000.0 + difference,
            difference,
            percent: difference / 300.0,
            parts,
            standard,
            plus_minus: 2.0 * standard,
            within: difference.abs() <= 2.0 * standard,
            instrument: gauge.to_owned(),
        }
    }

    /// Returns a scatter without randomness: a few values that repeat.
    fn scatter(at: usize) -> f64 {
        [-40.0, 15.0, 30.0, -10.0, 5.0, -25.0, 25.0][at % 7]
    }

    fn run(shift: impl Fn(usize) -> f64) -> Vec<Finding> {
        let comparisons: Vec<Comparison> = (0..60)
            .map(|at| comparison(scatter(at) + shift(at), if at % 2 == 0 { "GR-1" } else { "GR-2" }))
            .collect();
        let cars: Vec<Judged<'_>> = comparisons
            .iter()
            .enumerate()
            .map(|(at, comparison)| Judged {
                car: format!("ZZQX {at}"),
                site: "Somewhere".to_owned(),
                visit: None,
                comparison: Some(comparison),
            })
            .collect();
        let group = |kind, about: &str, keep: fn(usize) -> bool| Group {
            kind,
            about: about.to_owned(),
            site: String::new(),
            cars: (0..60).filter(|at| keep(*at)).collect(),
        };
        let groups = [
            group(FindingKind::BiasedGauge, "GR-1", |at| at % 2 == 0),
            group(FindingKind::BiasedGauge, "GR-2", |at| at % 2 == 1),
            group(FindingKind::BiasedShipper, "Shipper A", |at| at % 3 == 0),
            group(FindingKind::BiasedShipper, "Shipper B", |at| at % 3 != 0),
        ];
        judge(Compared::Found, &cars, &groups, &Settings::default()).0
    }

    #[test]
    fn honest_scatter_accuses_nobody() {
        assert!(run(|_| 0.0).is_empty());
        assert!(run(|at| if at % 2 == 0 { 60.0 } else { 0.0 }).is_empty(), "a gauge may repeat that much");
    }

    #[test]
    fn a_biased_gauge_is_named_alone_and_neither_its_cars_nor_the_shippers_are() {
        let found = run(|at| if at % 2 == 0 { -260.0 } else { 0.0 });
        assert_eq!(found.len(), 1, "{found:#?}");
        assert_eq!((found[0].kind, found[0].about.as_str()), (FindingKind::BiasedGauge, "GR-1"));
        assert_eq!(found[0].visits.len(), 0);
    }

    #[test]
    fn one_short_car_is_one_short_car_also_behind_a_biased_gauge() {
        let found = run(|at| if at == 7 { -900.0 } else { 0.0 });
        assert_eq!(found.len(), 1, "{found:#?}");
        assert_eq!((found[0].kind, found[0].about.as_str()), (FindingKind::CarShort, "ZZQX 7"));
        let both = run(|at| {
            if at == 8 {
                900.0
            } else if at % 2 == 0 {
                -260.0
            } else {
                0.0
            }
        });
        let kinds: Vec<FindingKind> = both.iter().map(|finding| finding.kind).collect();
        assert_eq!(kinds, [FindingKind::BiasedGauge, FindingKind::CarOver], "{both:#?}");
    }

    #[test]
    fn a_shipper_whose_cars_are_short_by_every_gauge_is_named_and_no_gauge() {
        let found = run(|at| if at % 3 == 0 { -260.0 } else { 0.0 });
        assert_eq!(found.len(), 1, "{found:#?}");
        assert_eq!((found[0].kind, found[0].about.as_str()), (FindingKind::BiasedShipper, "Shipper A"));
    }
}
