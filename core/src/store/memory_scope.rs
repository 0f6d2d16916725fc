//! Scopes in the memory store: the plain-spoken twin of `sqlite_scope`.

use std::collections::{BTreeMap, BTreeSet};

use super::memory::MemoryStore;
use super::scope::{Area, Fed, Scope, ScopeRows, belongings, counted_as, photograph_of};
use super::{Store as _, StoreError, Tally};
use crate::entry::Entry;
use crate::ids::{Digest, EntryId, Subject};

/// Areas, their tallies and what their readers read.
#[derive(Debug, Clone, Default)]
pub(super) struct ScopeIndex {
    areas: BTreeMap<Subject, BTreeSet<Area>>,
    tallies: BTreeMap<Area, Tally>,
    photos: BTreeMap<Digest, BTreeSet<Subject>>,
    /// Area and place of a change; a row's position is its place here plus one.
    feed: Vec<(Area, usize)>,
    /// Changes that were fed.
    fed: usize,
    /// Belongings whose earlier changes were not fed yet.
    not_fed: BTreeSet<(Subject, Area)>,
}

impl MemoryStore {
    /// Takes note of an entry that newly stands in a document.
    pub(super) fn note_standing(&mut self, subject: Subject, entry: &Entry) {
        let before = self.scopes.areas.get(&subject).cloned().unwrap_or_default();
        for area in before {
            self.scopes.tallies.entry(area).or_default().add(counted_as(subject, entry.id));
        }
        for (of, area) in belongings(subject, entry) {
            if self.scopes.areas.entry(of).or_default().insert(area) {
                self.scopes.not_fed.insert((of, area));
                let ids = self.standing.get(&of).into_iter().flatten();
                let ids: Vec<EntryId> =
                    ids.filter_map(|at| self.entries.get(*at)).map(|row| row.id).collect();
                let tally = self.scopes.tallies.entry(area).or_default();
                ids.into_iter().for_each(|id| tally.add(counted_as(of, id)));
            }
        }
        if let Some(photo) = photograph_of(&entry.body.says) {
            self.scopes.photos.entry(photo).or_default().insert(subject);
        }
    }

    /// Brings the feed up to date.
    pub(super) fn feed(&mut self) {
        let fed = self.scopes.fed;
        for (subject, area) in std::mem::take(&mut self.scopes.not_fed) {
            let earlier = self.changes.iter().take(fed).enumerate();
            let earlier = earlier.filter(|(_, (change, _))| change.subject == subject).map(|(at, _)| at);
            self.scopes.feed.extend(earlier.map(|at| (area, at)));
        }
        for (at, (change, _)) in self.changes.iter().enumerate().skip(fed) {
            let areas = self.scopes.areas.get(&change.subject).into_iter().flatten();
            self.scopes.feed.extend(areas.map(|area| (*area, at)));
        }
        self.scopes.fed = self.changes.len();
    }
}

impl ScopeRows for MemoryStore {
    fn tally_in(&self, scope: &Scope) -> Result<Tally, StoreError> {
        if *scope == Scope::Everything {
            return self.tally();
        }
        let mut all = Tally::default();
        scope.areas().iter().filter_map(|area| self.scopes.tallies.get(area)).for_each(|t| all.merge(t));
        Ok(all)
    }

    fn subjects_in(&self, scope: &Scope) -> Result<Vec<Subject>, StoreError> {
        let mut subjects = self.subjects()?;
        if *scope != Scope::Everything {
            let areas = scope.areas();
            subjects.retain(|subject| {
                self.scopes.areas.get(subject).is_some_and(|of| areas.iter().any(|area| of.contains(area)))
            });
        }
        Ok(subjects)
    }

    fn is_in(&self, subject: Subject, scope: &Scope) -> Result<bool, StoreError> {
        Ok(*scope == Scope::Everything || self.weight_in(subject, scope)? > 0)
    }

    fn weight_in(&self, subject: Subject, scope: &Scope) -> Result<usize, StoreError> {
        let Some(of) = self.scopes.areas.get(&subject) else { return Ok(0) };
        Ok(scope.areas().iter().filter(|area| of.contains(area)).count())
    }

    fn standings_of(&self, id: EntryId) -> Result<Vec<Subject>, StoreError> {
        let Some(at) = self.entry_at.get(&id) else { return Ok(Vec::new()) };
        let mut subjects: Vec<Subject> =
            self.standing.iter().filter(|(_, of)| of.contains(at)).map(|(subject, _)| *subject).collect();
        subjects.sort_by_key(|subject| subject.to_bytes());
        Ok(subjects)
    }

    fn fed_after(&self, scope: &Scope, position: u64, bytes: usize) -> Result<Vec<Fed>, StoreError> {
        if *scope == Scope::Everything {
            let changes = self.changes_after(position, bytes)?;
            return Ok(changes.into_iter().map(|change| Fed { position: change.position, change }).collect());
        }
        let areas = scope.areas();
        let start = usize::try_from(position).unwrap_or(usize::MAX);
        let (mut total, mut fed) = (0, Vec::new());
        for (at, (area, change)) in self.scopes.feed.iter().enumerate().skip(start) {
            let met = |(other, same): &(Area, usize)| same == change && areas.contains(other);
            if !areas.contains(area) || self.scopes.feed.iter().take(at).any(met) {
                continue;
            }
            let Some((change, _)) = self.changes.get(*change) else { continue };
            total += change.bytes.len();
            if total > bytes && !fed.is_empty() {
                break;
            }
            fed.push(Fed { position: at as u64 + 1, change: change.clone() });
        }
        Ok(fed)
    }

    fn newest_in(&self, scope: &Scope) -> Result<u64, StoreError> {
        if *scope == Scope::Everything {
            return self.newest_position();
        }
        let areas = scope.areas();
        let newest = self.scopes.feed.iter().rposition(|(area, _)| areas.contains(area));
        Ok(newest.map_or(0, |at| at as u64 + 1))
    }

    fn names_photo(&self, sha256: Digest, scope: &Scope) -> Result<bool, StoreError> {
        let named_in = self.scopes.photos.get(&sha256).into_iter().flatten();
        for subject in named_in {
            if self.is_in(*subject, scope)? {
                return Ok(true);
            }
        }
        Ok(false)
    }
}
