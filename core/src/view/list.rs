//! One row per stay: what an overview shows of many cars.

use serde::Serialize;

use super::VisitView;
use crate::clock::UtcMillis;
use crate::ids::{SiteId, VisitId};
use crate::procedure::Stage;
use crate::units::Severity;

/// A stay in a list.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct VisitRow {
    /// The visits of the stay.
    pub visits: Vec<VisitId>,
    /// The car's number.
    pub car: String,
    /// Where.
    pub site: Option<SiteId>,
    /// The site's name.
    pub site_name: String,
    /// Track or spot, as the record was opened with it; empty when nobody said.
    pub spot: String,
    /// Where the job stands.
    pub stage: Stage,
    /// Whether it was released.
    pub released: bool,
    /// What keeps it, in a few words; empty when nothing does.
    pub kept_by: String,
    /// Blockers nobody passed over.
    pub open_blockers: usize,
    /// Whether a hold stands.
    pub on_hold: bool,
    /// Disagreements nobody settled.
    pub disagreements: usize,
    /// Findings that say that something is wrong. In a list, the evidence on the liquid is weighed only while
    /// the car stands; the record of one that left says it still.
    pub alarms: usize,
    /// Its first claimed time.
    pub since: Option<UtcMillis>,
    /// The same in the site's zone.
    pub since_shown: String,
    /// Entries that no receipt covers.
    pub unreceipted: usize,
}

impl VisitRow {
    /// The row of a view.
    pub fn of(view: &VisitView) -> VisitRow {
        let released = view.release.released.is_some();
        let on_hold = view.holds.iter().any(|hold| hold.open);
        VisitRow {
            visits: view.header.visits.clone(),
            car: view.header.car.clone(),
            site: view.header.site,
            site_name: view.header.site_name.clone(),
            spot: view.header.spot.clone(),
            stage: view.stage,
            released,
            kept_by: kept_by(view, released, on_hold),
            open_blockers: view.release.open,
            on_hold,
            disagreements: view.disagreements.len(),
            alarms: view.findings.iter().filter(|finding| finding.severity == Severity::Alarm).count(),
            since: view.header.since,
            since_shown: view.header.since_shown.clone(),
            unreceipted: view.unreceipted,
        }
    }
}

fn kept_by(view: &VisitView, released: bool, on_hold: bool) -> String {
    if on_hold {
        let because = view.holds.iter().find(|hold| hold.open).map_or("", |hold| hold.because.as_str());
        return format!("on hold: {because}");
    }
    if released {
        return match view.release.open {
            0 => String::new(),
            n => format!("released, {n} open"),
        };
    }
    if let Some(disagreement) = view.disagreements.first() {
        return format!("two accounts: {}", disagreement.about);
    }
    // Until the lines are off, what is missing for release is simply the rest of the job.
    if view.stage < Stage::FinalPressure {
        let next = view.steps.next.first().and_then(|id| view.steps.step(id));
        return next.map_or(String::new(), |step| format!("next: {}", step.title));
    }
    match view.blockers.iter().find(|blocker| blocker.passed_over.is_none()) {
        Some(first) if view.release.open > 1 => {
            format!("{} and {} more", first.missing.trim_end_matches('.'), view.release.open - 1)
        }
        Some(first) => first.missing.trim_end_matches('.').to_owned(),
        None => String::new(),
    }
}
