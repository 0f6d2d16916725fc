//! Last rounds of all closures, and the place in the record at which an entry's event happened.
//!
//! One entry says of many fittings that each is shut, tool-tight and quiet. It takes the place of what was
//! recorded of them one by one before. The views of fittings and the gates read it here.

use std::collections::BTreeSet;

use super::fold_context::FoldContext;
use super::slots::Item;
use crate::entry::vocabulary::Fitting;
use crate::entry::{Slot, Statement};

/// The most corrections of corrections that are followed back to the entry that was wrong.
const FOLLOWED_BACK: usize = 64;

/// Returns the place of the event that an entry tells of. A correction tells of the event of what it corrects:
/// it neither happens later nor counts as made later.
pub(super) fn place_of(ledger: &FoldContext<'_>, item: &Item<'_>) -> usize {
    let mut earliest = item.claim_place;
    let mut seen = BTreeSet::from([earliest]);
    let mut way = vec![earliest];
    while let Some(place) = way.pop() {
        let Some(here) = ledger.slots.items().get(place) else { continue };
        if !matches!(here.entry.body.says, Statement::Agreement { .. } | Statement::Withdrawn {}) {
            earliest = earliest.min(place);
        }
        if seen.len() > FOLLOWED_BACK {
            break;
        }
        let replaced = here.entry.body.replaces.iter().filter_map(|id| ledger.slots.item(*id));
        way.extend(replaced.map(|item| item.place).filter(|place| seen.insert(*place)));
    }
    earliest
}

/// A last round that stands.
pub(super) struct Round<'a> {
    /// Its place.
    pub place: usize,
    /// The fittings that were in order.
    pub fittings: &'a [Fitting],
    /// Its entry.
    pub item: Item<'a>,
}

/// Returns the rounds that stand, in order.
pub(super) fn rounds<'a>(ledger: &FoldContext<'a>) -> Vec<Round<'a>> {
    ledger
        .slots
        .stood(&Slot::LAST_ROUND)
        .filter_map(|item| match item.claim {
            Some(Statement::LastRound { fittings, .. }) => {
                Some(Round { place: place_of(ledger, item), fittings, item: *item })
            }
            _ => None,
        })
        .collect()
}

/// Returns the last round in which this fitting was in order.
pub(super) fn last_round_of<'a>(ledger: &FoldContext<'a>, fitting: Fitting) -> Option<Round<'a>> {
    let of_it = rounds(ledger).into_iter().filter(|round| round.fittings.contains(&fitting));
    of_it.max_by_key(|round| round.place)
}
