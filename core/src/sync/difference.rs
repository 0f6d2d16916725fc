//! Whether a device's records are the server's, and which documents differ.
//!
//! Does not live here: exchanging what differs (`session`), what the server says of its own (`answer`).

use std::collections::{BTreeMap, BTreeSet};

use super::answer::survey;
use super::put_off::PutOff;
use super::wire::{ReplyHead, Surveyed, short_sum};
use crate::ids::{EntryId, Subject};
use crate::store::{Scope, Store, StoreError, Write};

/// The name of the value that holds the entries a server refused for good.
pub(super) const REFUSED: &str = "sync/refused";

/// Entries outside a device's sites that are asked about when the records are compared: as many as an office
/// answers at once.
const MOST_OUTSIDE: usize = super::opened::MOST_ASKS;

/// Entries of documents that the server does not compare with this device: they are asked about instead. For
/// a device that is given everything there are none.
pub(super) fn entries_outside(store: &dyn Store, scope: &Scope) -> Result<Vec<EntryId>, StoreError> {
    if *scope == Scope::Everything {
        return Ok(Vec::new());
    }
    // An entry may stand in two documents and is asked about once.
    let mut outside = BTreeSet::new();
    for subject in store.subjects()? {
        if !store.scopes().is_in(subject, scope)? && outside.len() < MOST_OUTSIDE {
            outside.extend(store.entries_of(subject)?.rows.into_iter().map(|row| row.id));
        }
    }
    Ok(outside.into_iter().take(MOST_OUTSIDE).collect())
}

/// The documents of entries that the server was asked about and lacks are to be sent again.
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

/// Whether the server's tally is ours, leaving out what it refused, for good or for now.
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

/// Documents that differ from the server's, or that one side lacks, but those it does not take more of for now.
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

/// The entries that the server refused for good.
pub(super) fn refused_entries(store: &dyn Store) -> Result<Vec<EntryId>, StoreError> {
    let bytes = store.value(REFUSED)?.unwrap_or_default();
    Ok(bytes.chunks_exact(32).filter_map(|chunk| chunk.try_into().ok().map(EntryId)).collect())
}
