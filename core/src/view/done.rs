//! When things were done, where an entry states that it was earlier than the entry: a person climbed down first.
//!
//! The stated time is a claim beside the time of the entry. It is shown, and formulas count with it; the order of the
//! record, and what must come after what, keep to the entries. Here stands what makes such a claim impossible.

use super::fold_context::FoldContext;
use super::slots::Item;
use crate::clock::UtcMillis;
use crate::entry::vocabulary::ClockEvent;
use crate::entry::{Body, Statement};
use crate::units::{Finding, Severity};
use crate::{Message, message};

/// Returns the stated time, minus the known clock difference of the device.
pub(super) fn stated_done(item: &Item<'_>) -> Option<UtcMillis> {
    let ahead = item.ahead_millis.unwrap_or(0);
    item.entry.body.done.map(|done| UtcMillis(done.0.saturating_sub(ahead)))
}

/// Returns when a visit began by what its entries claim: when it was opened, or the car was placed, whichever was
/// first; `None` as long as nobody said either.
pub(crate) fn began_by_claim<'b>(bodies: impl Iterator<Item = &'b Body>) -> Option<UtcMillis> {
    bodies.filter_map(begins).min()
}

fn begins(body: &Body) -> Option<UtcMillis> {
    match &body.says {
        Statement::Opened(_) => Some(body.when.corrected_for(body.done.unwrap_or(body.when.at))),
        Statement::Clock { event: ClockEvent::ActualPlacement | ClockEvent::ConstructivePlacement, at } => {
            Some(*at)
        }
        _ => None,
    }
}

/// Points out stated times that cannot be: after the entry was made, or before the visit began. A device that makes
/// such an entry refuses it; another program may have made one.
pub(super) fn findings(ledger: &FoldContext<'_>, findings: &mut Vec<Finding>) {
    let began = began_by_claim(ledger.slots.items().iter().map(|item| &item.entry.body));
    let impossible = ledger.slots.items().iter().filter(|item| {
        stated_done(item).is_some_and(|done| done > item.at || began.is_some_and(|began| done < began))
    });
    for item in impossible {
        let message: Message = message!("finding-done-impossible", entry = ledger.sentence_briefly(item));
        findings.push(Finding::new("done_impossible", Severity::Check, message));
    }
}
