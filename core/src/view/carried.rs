//! What one visit of a car leaves for the next: notes for next time, and plugs, valves and parts of the cover that were
//! not in order when they were recorded last.
//!
//! A note stays until somebody says that it was seen to; a condition until it is recorded as in order. Both are in the
//! car's document, so that they are shown at the car's next visit at any site. Defects are in `defects`.

use serde::Serialize;

use super::findings::Found;
use super::fold_context::{Attested, Attribution, FoldContext};
use super::slots::Item;
use crate::entry::vocabulary::{CoverPart, Feel, Fitting, PartState, PlugState};
use crate::entry::{Slot, Statement, under};
use crate::ids::{NoteId, Subject, VisitId};
use crate::{Message, message};

/// A note for the next visit, or a condition that is not in order.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct CarriedView {
    /// The slot, which names it in a shell's addresses.
    pub slot: String,
    /// The id of the note; `None` for a condition, which ends when it is recorded as in order.
    pub note: Option<NoteId>,
    /// The fitting, if it is about one.
    pub fitting: Option<Fitting>,
    /// What is to be known or done.
    pub says: Message,
    /// The attribution of the entry.
    pub said: Attribution,
    /// The visit during which it was recorded.
    pub visit: Option<VisitId>,
    /// What was done about a note.
    pub done: Option<Attested<String>>,
}

impl CarriedView {
    /// Returns true if nobody saw to it yet.
    pub fn is_open(&self) -> bool {
        self.done.is_none()
    }

    /// Returns true if it was left by a visit other than these, and nobody saw to it yet.
    pub fn is_left_for(&self, visits: &[VisitId]) -> bool {
        self.is_open() && self.visit.is_some_and(|visit| !visits.contains(&visit))
    }
}

/// Returns all notes in the order in which they were recorded, and after them the conditions that are not in order.
pub(super) fn fold(ledger: &FoldContext<'_>) -> Vec<CarriedView> {
    let mut notes: Vec<(usize, CarriedView)> = ledger
        .slots
        .names_under(under::NEXT_TIME)
        .filter_map(|slot| {
            let item = ledger.slots.latest(slot)?;
            let Some(Statement::NextTime(note)) = item.claim else { return None };
            let done = ledger.known(&Slot::next_time_done(&note.note), |says| match says {
                Statement::NextTimeDone(done) => Some(done.how.trim().to_owned()),
                _ => None,
            });
            let says = Message::typed(note.what.trim());
            Some((item.place, carried(ledger, (slot, item), (Some(note.note), note.fitting), says, done)))
        })
        .collect();
    notes.sort_by_key(|(place, _)| *place);
    let mut all: Vec<CarriedView> = notes.into_iter().map(|(_, note)| note).collect();
    let at_fittings = Fitting::ALL
        .iter()
        .flat_map(|fitting| [Slot::feel(*fitting), Slot::plug(*fitting)].map(|slot| (slot, Some(*fitting))));
    let of_cover = CoverPart::ALL.iter().map(|part| (Slot::cover_part(*part), None));
    all.extend(at_fittings.chain(of_cover).filter_map(|(slot, fitting)| {
        let item = ledger.slots.latest(&slot)?;
        let says = item.claim.filter(|says| is_not_in_order(says))?;
        Some(carried(ledger, (&slot, item), (None, fitting), ledger.says(says), None))
    }));
    all
}

fn carried<'a>(
    ledger: &FoldContext<'a>,
    (slot, item): (&str, &Item<'a>),
    (note, fitting): (Option<NoteId>, Option<Fitting>),
    says: Message,
    done: Option<Attested<String>>,
) -> CarriedView {
    let visit = match item.entry.body.about {
        Subject::Visit(visit) => Some(visit),
        _ => None,
    };
    CarriedView { slot: slot.to_owned(), note, fitting, says, said: ledger.said(item), visit, done }
}

fn is_not_in_order(says: &Statement) -> bool {
    match says {
        Statement::ValveFeel(said) => said.feel == Feel::Hard,
        Statement::PlugCondition(said) => said.state != PlugState::Sound,
        Statement::CoverCondition(said) => said.state != PartState::Sound,
        _ => false,
    }
}

/// Points out what earlier visits left for this one, and what was found here that is not in order.
pub(super) fn findings(ledger: &FoldContext<'_>, carried: &[CarriedView], found: &mut Found<'_>) {
    for one in carried {
        let who = || one.said.signature();
        if one.is_left_for(&ledger.visits) {
            let says = message!("finding-left-for-next", says = one.says.clone(), who = who());
            found.check("left_for_next", says);
        } else if one.note.is_none() {
            found.check("not_in_order", message!("finding-not-in-order", says = one.says.clone()));
        }
    }
}
