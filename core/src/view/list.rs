//! One row per stay, for the overview of many cars.

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
    /// The car number.
    pub car: String,
    /// The site.
    pub site: Option<SiteId>,
    /// The site's name.
    pub site_name: String,
    /// The track or spot from the opening; empty if it was not stated.
    pub spot: String,
    /// The present stage of the job.
    pub stage: Stage,
    /// Whether it was released.
    pub released: bool,
    /// A short description of what prevents release; empty if nothing does.
    pub kept_by: String,
    /// The number of blockers that were not passed over.
    pub open_blockers: usize,
    /// Whether a hold stands.
    pub on_hold: bool,
    /// The number of unsettled disagreements.
    pub disagreements: usize,
    /// The number of findings of severity alarm. In a list, the evidence of remaining liquid is weighed only
    /// as long as the car stands; the record of a released car still shows it.
    pub alarms: usize,
    /// The earliest claimed time.
    pub since: Option<UtcMillis>,
    /// The same time in the site's zone.
    pub since_shown: String,
    /// The number of entries without a receipt.
    pub unreceipted: usize,
}

impl VisitRow {
    /// Builds the row of a view.
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
