//! The meaning of a draft: what would change in a record if the draft were recorded.
//!
//! Screens use it to show the uncertainty and the consequences of a figure while it is being typed. Nothing
//! is stored; two folds of the same stay, without and with the draft, are compared.

use serde::Serialize;

use super::reading_uncertainty::ReadingUncertainty;
use super::{Point, Quantity, VisitView};
use crate::units::{Finding, Severity};
use crate::{Message, message};

/// A consequence of a draft.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Meant {
    /// A sentence for people.
    pub message: Message,
    /// Whether the person should check it before going on.
    pub hot: bool,
}

/// What would change.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Meaning {
    /// The uncertainty of the reading, if the draft is one.
    pub worth: Option<ReadingUncertainty>,
    /// The quantities whose value would change; each has a value.
    pub figures: Vec<Quantity>,
    /// The new blockers, then the new findings, then the reasons why quantities still cannot be computed. No
    /// sentence occurs twice.
    pub findings: Vec<Meant>,
}

impl Meaning {
    /// Compares `then`, the record with a draft, with `now`, the record without it.
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
            |message: Message, hot: bool| match findings.iter_mut().find(|one| one.message == message) {
                Some(known) => known.hot = hot,
                None => findings.push(Meant { message, hot }),
            };
        let stood = |code: &str| now.blockers.iter().any(|blocker| blocker.code == code);
        for blocker in then.blockers.iter().filter(|blocker| !stood(&blocker.code)) {
            add(blocker.missing.clone(), true);
        }
        let known = |message: &Message| pointed_out(now, true).any(|finding| finding.message == *message);
        for finding in pointed_out(then, false) {
            // That steps were done in another order concerns the record and not this draft.
            if !known(&finding.message) && finding.code != "steps_out_of_order" {
                add(finding.message.clone(), finding.severity != Severity::Note);
            }
        }
        let by = worth.as_ref().map(|worth| &worth.by).filter(|by| !by.is_empty());
        for one in &then.computed {
            let Some(missing) = one.missing.as_ref().filter(|missing| !missing.is_empty()) else {
                continue;
            };
            let lacked = was(one).and_then(|was| was.missing.as_ref());
            // Input that the reading itself was already reported to lack is not reported again.
            if lacked != Some(missing) && by != Some(missing) {
                add(message!("quantity-missing", title = one.title.clone(), why = missing.clone()), false);
            }
        }
        Meaning { worth, figures, findings }
    }
}

fn points(view: &VisitView) -> impl Iterator<Item = &Point> {
    let readings = view.readings.iter().flat_map(|reading| &reading.history);
    readings.chain(view.series.iter().flat_map(|series| series.points.iter().chain(&series.struck)))
}

/// Returns the findings about a record, its fittings and its quantities, and if requested those of the
/// quantities' upper bounds.
fn pointed_out(view: &VisitView, of_upper_bounds: bool) -> impl Iterator<Item = &Finding> {
    let of_quantities = view.computed.iter().flat_map(move |one| {
        let upper = one.up_to.as_ref().filter(|_| of_upper_bounds);
        one.value.iter().chain(upper).flat_map(|computed| &computed.findings)
    });
    let of_fittings = view.fittings.iter().flat_map(|fitting| &fitting.advice);
    view.findings.iter().chain(&view.advice).chain(of_fittings).chain(of_quantities)
}

/// A stay as it would be with drafts, and what would change.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct PreviewedVisit {
    /// The record with the drafts.
    #[serde(flatten)]
    pub view: VisitView,
    /// The differences from the record as it stands.
    pub meaning: Meaning,
}
