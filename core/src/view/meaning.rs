//! What a draft means: what of a record would be different with it.
//!
//! Made for screens that show, while a figure is being typed, what it is worth and what follows from it. Nothing here is
//! kept; two folds of the same stay are compared, without the draft and with it.

use serde::Serialize;

use super::reading_uncertainty::ReadingUncertainty;
use super::{Point, Quantity, VisitView};
use crate::units::{Finding, Severity};

/// Something a draft would bring up.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Meant {
    /// In a sentence.
    pub message: String,
    /// Whether it should be looked at before going on.
    pub hot: bool,
}

/// What would be different.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Meaning {
    /// The uncertainty of the reading itself, where the draft is one.
    pub worth: Option<ReadingUncertainty>,
    /// Quantities that have another value; each has one.
    pub figures: Vec<Quantity>,
    /// New blockers first, then new findings, then what still keeps a quantity from being computed. Each sentence once.
    pub findings: Vec<Meant>,
}

impl Meaning {
    /// What is different in `then`, which is `now` with a draft.
    pub fn of(now: &VisitView, then: &VisitView) -> Meaning {
        let had = |point: &Point| points(now).any(|known| known.said.entry == point.said.entry);
        let worth = points(then).find(|point| !had(point)).map(|point| point.worth.clone());
        let was = |one: &Quantity| now.computed.iter().find(|was| was.name == one.name);
        let figures = then
            .computed
            .iter()
            .filter(|one| one.value.is_some() && was(one).map(|was| &was.value) != Some(&one.value))
            .cloned()
            .collect();
        let mut findings: Vec<Meant> = Vec::new();
        let mut add =
            |message: String, hot: bool| match findings.iter_mut().find(|one| one.message == message) {
                Some(known) => known.hot = hot,
                None => findings.push(Meant { message, hot }),
            };
        let stood = |code: &str| now.blockers.iter().any(|blocker| blocker.code == code);
        for blocker in then.blockers.iter().filter(|blocker| !stood(&blocker.code)) {
            add(blocker.missing.clone(), true);
        }
        let known = |message: &str| pointed_out(now, true).any(|finding| finding.message == message);
        for finding in pointed_out(then, false) {
            // That steps were ticked off in another order is true of the record, not of this draft.
            if !known(&finding.message) && finding.code != "steps_out_of_order" {
                add(finding.message.clone(), finding.severity != Severity::Note);
            }
        }
        let by = worth.as_ref().map(|worth| worth.by.as_str()).filter(|by| !by.is_empty());
        for one in &then.computed {
            let Some(missing) = one.missing.as_deref().filter(|missing| !missing.is_empty()) else {
                continue;
            };
            let lacked = was(one).and_then(|was| was.missing.as_deref());
            // What the reading itself was already said to lack is not said again.
            if lacked != Some(missing) && !by.is_some_and(|by| missing.ends_with(by)) {
                add(format!("{}: {missing}", one.title), false);
            }
        }
        Meaning { worth, figures, findings }
    }
}

fn points(view: &VisitView) -> impl Iterator<Item = &Point> {
    let readings = view.readings.iter().flat_map(|reading| &reading.history);
    readings.chain(view.series.iter().flat_map(|series| series.points.iter().chain(&series.struck)))
}

/// What is pointed out of a record, of its fittings and of its quantities; those of upper bounds too, where asked for.
fn pointed_out(view: &VisitView, of_upper_bounds: bool) -> impl Iterator<Item = &Finding> {
    let of_quantities = view.computed.iter().flat_map(move |one| {
        let upper = one.up_to.as_ref().filter(|_| of_upper_bounds);
        one.value.iter().chain(upper).flat_map(|computed| &computed.findings)
    });
    let of_fittings = view.fittings.iter().flat_map(|fitting| &fitting.advice);
    view.findings.iter().chain(&view.advice).chain(of_fittings).chain(of_quantities)
}

/// A stay as it would be with drafts, and what would be different.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct PreviewedVisit {
    /// The record with the drafts.
    #[serde(flatten)]
    pub view: VisitView,
    /// What is different from the record as it stands.
    pub meaning: Meaning,
}
