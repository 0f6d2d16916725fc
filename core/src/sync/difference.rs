//! Whether the device's records equal the server's, and which documents differ.
//!
//! The exchange of differing documents is in `session`, and the server's part of the comparison in `answer`.

use std::collections::{BTreeMap, BTreeSet};

use super::answer::survey;
use super::put_off::PutOff;
use super::wire::{ReplyHead, Surveyed, short_sum};
use crate::ids::{EntryId, Subject};
use crate::store::{Scope, Store, StoreError, Write};

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
    Ok(tally.count == head.count && short_sum(&tally) == head.sum)
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
