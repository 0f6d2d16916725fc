//! Whether the device's records equal the server's, and which documents differ.
//!
//! The exchange of differing documents is in `session`, and the server's part of the comparison in `answer`.

use std::collections::{BTreeMap, BTreeSet};

use super::answer::survey;
use super::put_off::PutOff;
use super::wire::{ReplyHead, Surveyed, short_sum, shortest_sum};
use crate::ids::{EntryId, Subject};
use crate::store::{Scope, Store, StoreError, Write, counted_as};

/// The name of the value that holds the entries which the server refused for good.
pub(super) const REFUSED: &str = "sync/refused";

/// The most entries outside the device's sites that one comparison asks about: as many as the server answers
/// in one request.
const MOST_OUTSIDE: usize = super::opened::MOST_ASKS;

/// Returns entries of documents outside the device's scope. The server does not include them in the set
/// digest, so the device asks about them individually. A device that receives everything has none.
pub(super) fn entries_outside(store: &dyn Store, scope: &Scope) -> Result<Vec<EntryId>, StoreError> {
    if *scope == Scope::Everything {
        return Ok(Vec::new());
    }
    // An entry may stand in two documents but is asked about once.
    let mut outside = BTreeSet::new();
    for subject in store.subjects()? {
        if !store.scopes().is_in(subject, scope)? && outside.len() < MOST_OUTSIDE {
            outside.extend(store.entries_of(subject)?.rows.into_iter().map(|row| row.id));
        }
    }
    Ok(outside.into_iter().take(MOST_OUTSIDE).collect())
}

/// The name of the value that holds the last entry outside the device's sites that was asked about in passing
/// and answered for.
const ASKED_OUTSIDE: &str = "sync/asked_outside";

/// The most entries outside the device's sites that a session asks about in passing.
const OUTSIDE_IN_PASSING: usize = 64;

/// Returns some entries outside the device's scope that the server has confirmed, a few further ones each
/// time: those after the last one that was answered for, then from the first on, up to and with that one.
///
/// A server that was put back from a copy without saying so lacks entries that it confirmed. Those in the device's
/// scope show in the set digest, and those outside of it only when they are asked about.
pub(super) fn confirmed_outside(store: &dyn Store, scope: &Scope) -> Result<Vec<EntryId>, StoreError> {
    if *scope == Scope::Everything {
        return Ok(Vec::new());
    }
    let inside: BTreeSet<Subject> = store.scopes().subjects_in(scope)?.into_iter().collect();
    let last = store.value(ASKED_OUTSIDE)?.and_then(|bytes| bytes.try_into().ok().map(EntryId));
    let mut outside = BTreeSet::new();
    for subject in store.subjects()?.into_iter().filter(|subject| !inside.contains(subject)) {
        outside.extend(store.entries_of(subject)?.rows.into_iter().map(|row| row.id));
    }
    let (earlier, later): (Vec<EntryId>, Vec<EntryId>) =
        outside.into_iter().partition(|id| last.is_some_and(|last| *id <= last));
    let mut asked = Vec::new();
    for id in later.into_iter().chain(earlier) {
        if asked.len() == OUTSIDE_IN_PASSING {
            break;
        }
        if store.entry(id)?.is_some_and(|entry| entry.receipted) {
            asked.push(id);
        }
    }
    Ok(asked)
}

/// Records that the server answered for these entries of [`confirmed_outside`], so that the next session asks
/// about those after them. A question whose answer was lost is asked again.
pub(super) fn answered_outside(store: &mut dyn Store, asked: &[EntryId]) -> Result<(), StoreError> {
    let Some(last) = asked.last() else { return Ok(()) };
    store.commit(&[Write::Value { key: ASKED_OUTSIDE, value: &last.0 }]).map(|_| ())
}

/// Marks the documents of entries that the server was asked about and lacks for sending again.
pub(super) fn send_what_is_lacking(
    store: &mut dyn Store,
    asked: &[EntryId],
    lacking: &[u32],
) -> Result<(), StoreError> {
    let mut subjects = BTreeSet::new();
    for id in lacking.iter().filter_map(|at| asked.get(usize::try_from(*at).ok()?)) {
        subjects.extend(store.scopes().standings_of(*id)?);
    }
    if subjects.is_empty() {
        return Ok(());
    }
    let subjects: Vec<Subject> = subjects.into_iter().collect();
    store.commit(&[Write::ChangesLacking(&subjects)]).map(|_| ())
}

/// Returns true if the server's set digest equals the device's, leaving out the entries that the server
/// refused, for good or for now.
///
/// For a reader of everything the set digest counts an entry once, though it may stand in two documents. A
/// server that was put back without saying so may lack it in one of them, which the sum over all documents
/// shows. While changes are put off, that sum is not compared, because the server may have such an entry by
/// its other document.
pub(super) fn same(
    store: &dyn Store,
    head: &ReplyHead,
    scope: &Scope,
    put_off: &PutOff,
) -> Result<bool, StoreError> {
    let (_, lacking) = put_off.lacking(store)?;
    let mut without = refused_entries(store)?;
    without.extend(lacking);
    without.sort_unstable();
    without.dedup();
    let tally = store.scopes().tally_without(scope, &without)?;
    if tally.count != head.count || short_sum(&tally) != head.sum {
        return Ok(false);
    }
    let Some(theirs) = head.standings.filter(|_| *scope == Scope::Everything && put_off.is_empty()) else {
        return Ok(true);
    };
    let mut ours = store.scopes().tally_of_standings()?;
    for id in &without {
        for subject in store.scopes().standings_of(*id)? {
            ours.remove(counted_as(subject, *id));
        }
    }
    Ok(shortest_sum(&ours) == theirs.into_array())
}

/// Returns the documents that differ from the server's or exist on one side only, except those that the
/// server does not accept for now.
pub(super) fn differing_subjects(
    store: &dyn Store,
    theirs: &[Surveyed],
    scope: &Scope,
    put_off: &PutOff,
) -> Result<Vec<Subject>, StoreError> {
    let (later, _) = put_off.lacking(store)?;
    let ours: BTreeMap<Subject, [u8; 8]> =
        survey(store, scope)?.into_iter().map(|s| (s.subject, s.digest)).collect();
    let theirs: BTreeMap<Subject, [u8; 8]> = theirs.iter().map(|s| (s.subject, s.digest)).collect();
    let mut all: Vec<Subject> = ours.keys().chain(theirs.keys()).copied().collect();
    all.sort_unstable();
    all.dedup();
    all.retain(|subject| ours.get(subject) != theirs.get(subject) && !later.contains(subject));
    Ok(all)
}

/// Returns the entries that the server refused for good.
pub(super) fn refused_entries(store: &dyn Store) -> Result<Vec<EntryId>, StoreError> {
    let bytes = store.value(REFUSED)?.unwrap_or_default();
    Ok(bytes.chunks_exact(32).filter_map(|chunk| chunk.try_into().ok().map(EntryId)).collect())
}
