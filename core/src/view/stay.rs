//! How a stay was opened and which records belong to it, read from its entries without folding the whole.
//!
//! The code that gathers records calls this module: `book` on a device, the office's index, and the packet.
//! It is pure.

use std::collections::BTreeSet;

use super::slots::{Slots, slot_of};
use crate::authority::{Authority, joins};
use crate::clock::UtcMillis;
use crate::entry::{Entry, Opened, Slot, Statement, under};
use crate::ids::{Subject, VisitId};

/// Returns the present statement of how the stay was opened.
pub fn opened_of<'a>(
    authority: &Authority,
    entries: impl IntoIterator<Item = (&'a Entry, Option<UtcMillis>)>,
) -> Option<Opened> {
    opened_and_released(authority, entries).0
}

/// Returns the present statement of how the stay was opened, and when the car was released, if it was. Only
/// entries that count are considered.
pub fn opened_and_released<'a>(
    authority: &Authority,
    entries: impl IntoIterator<Item = (&'a Entry, Option<UtcMillis>)>,
) -> (Option<Opened>, Option<UtcMillis>) {
    // The statement decides; for agreements and withdrawals, which may concern either slot, the stated slot
    // does.
    let of_these = |entry: &Entry| match &entry.body.says {
        Statement::Opened(_) | Statement::Released { .. } => true,
        _ => [Slot::OPENED, Slot::RELEASED].iter().any(|slot| slot.as_str() == entry.body.slot),
    };
    let slots = Slots::fold(authority.stay_where(entries, of_these));
    let opened = match slots.latest(&Slot::OPENED).and_then(|item| item.claim) {
        Some(Statement::Opened(opened)) => Some(opened.clone()),
        _ => None,
    };
    (opened, slots.latest(&Slot::RELEASED).map(|item| item.at))
}

/// Returns the visits that a visit's own document joins to it. `opened` tells how another visit was opened,
/// because joining visits of different cars or sites requires the office's statement.
pub fn joined_with<'a>(
    authority: &Authority,
    visit: VisitId,
    entries: impl IntoIterator<Item = (&'a Entry, Option<UtcMillis>)>,
    opened: impl Fn(VisitId) -> Option<Opened>,
) -> Vec<VisitId> {
    let entries: Vec<_> = entries.into_iter().collect();
    if !entries.iter().any(|(entry, _)| entry.body.slot.starts_with(under::JOINED)) {
        return Vec::new();
    }
    let speakers: BTreeSet<Subject> = entries
        .iter()
        .filter(|(entry, _)| entry.body.joins().is_some())
        .map(|(entry, _)| entry.body.about)
        .collect();
    let here = Subject::Visit(visit);
    let mut joined = Vec::new();
    for speaker in speakers {
        let Subject::Visit(speaking) = speaker else { continue };
        let said = entries.iter().filter(|(entry, _)| entry.body.about == speaker).copied();
        let judged = authority.stay_where(said, |entry| slot_of(entry).0.starts_with(under::JOINED));
        let slots = Slots::fold(judged);
        for slot in slots.names_under(under::JOINED) {
            let Some(item) = slots.settled(slot) else { continue };
            let Some(Statement::Joined { other }) = item.claim else { continue };
            let (named, relevant) = match speaker == here {
                true => (*other, true),
                false => (speaking, *other == visit),
            };
            let both = [opened(speaking), opened(*other)];
            if relevant && joins(authority, item.entry.device, both[0].as_ref(), both[1].as_ref()) {
                joined.push(named);
            }
        }
    }
    joined
}
