//! One row per stay, for the overview of many cars.

use serde::Serialize;

use super::{Blocker, IncidentView, LeakView, VisitView};
use crate::clock::UtcMillis;
use crate::ids::{SiteId, VisitId};
use crate::procedure::Stage;
use crate::units::Severity;
use crate::{Message, message};

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
    pub kept_by: Message,
    /// The number of blockers that were not passed over.
    pub open_blockers: usize,
    /// The number of open items of the gate before unloading, as long as nobody signed it.
    pub open_before_unloading: usize,
    /// Whether somebody signed that the stay is fit to unload.
    pub fit_to_unload: bool,
    /// Whether a hold stands, or an incident or a leak that stops the job like one.
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
        let on_hold = stopped_by(view).is_some();
        VisitRow {
            visits: view.header.visits.clone(),
            car: view.header.car.clone(),
            site: view.header.site,
            site_name: view.header.site_name.clone(),
            spot: view.header.spot.clone(),
            stage: view.stage,
            released,
            kept_by: kept_by(view, released),
            open_blockers: view.release.open,
            open_before_unloading: if released { 0 } else { view.unloading.open },
            fit_to_unload: view.unloading.fit.is_some(),
            on_hold,
            disagreements: view.disagreements.len(),
            alarms: view.findings.iter().filter(|finding| finding.severity == Severity::Alarm).count(),
            since: view.header.since,
            since_shown: view.header.since_shown.clone(),
            unreceipted: view.unreceipted,
        }
    }
}

fn open_items(blockers: &[Blocker]) -> impl Iterator<Item = &Blocker> {
    blockers.iter().filter(|blocker| blocker.passed_over.is_none())
}

/// Returns what stops the job: an open incident, a leak, or the reason of a hold.
fn stopped_by(view: &VisitView) -> Option<Message> {
    let incident = view.incidents.iter().find(|incident| incident.open);
    let leak = view.leaks.iter().find(|leak| leak.open);
    let hold = view.holds.iter().find(|hold| hold.open);
    incident
        .map(IncidentView::briefly)
        .or_else(|| leak.map(LeakView::briefly))
        .or_else(|| hold.map(|hold| Message::typed(&hold.because)))
}

fn kept_by(view: &VisitView, released: bool) -> Message {
    if let Some(because) = stopped_by(view) {
        return message!("list-on-hold", because = because);
    }
    if released {
        return match view.release.open {
            0 => Message::default(),
            open => message!("list-released-open", count = open),
        };
    }
    if let Some(disagreement) = view.disagreements.first() {
        return message!("list-differ", about = disagreement.about.clone());
    }
    let before_unloading =
        view.unloading.asked && view.unloading.fit.is_none() && view.stage > Stage::Receive;
    if before_unloading && let Some(first) = open_items(&view.unloading.blockers).next() {
        return message!("list-before-unloading", first = first.missing.clone(), count = view.unloading.open);
    }
    // Until the lines are off, what is missing for release is simply the rest of the job.
    if view.stage < Stage::FinalPressure {
        let next = view.steps.next.first().and_then(|id| view.steps.step(id));
        return next.map_or_else(Message::default, |step| message!("list-next", step = step.title.clone()));
    }
    match open_items(&view.blockers).next() {
        Some(first) if view.release.open > 1 => {
            message!("list-missing-and-more", first = first.missing.clone(), count = view.release.open - 1)
        }
        Some(first) => first.missing.clone(),
        None => Message::default(),
    }
}
