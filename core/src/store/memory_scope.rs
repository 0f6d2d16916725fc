//! Scopes in the memory store: the simple reference for `sqlite_scope`.

use std::collections::{BTreeMap, BTreeSet};

use super::memory::MemoryStore;
use super::scope::{Area, Fed, OpenedAt, Scope, ScopeRows, area_by_kind, counted_as, photograph_of};
use super::{SetDigest, Store as _, StoreError};
use crate::entry::Entry;
use crate::ids::{CarId, Digest, EntryId, SiteId, Subject};

/// Areas, their set digests, and the feed for readers of a scope.
#[derive(Debug, Clone, Default)]
pub(super) struct ScopeIndex {
    opened: BTreeSet<OpenedAt>,
    areas: BTreeMap<Subject, BTreeSet<Area>>,
    tallies: BTreeMap<Area, SetDigest>,
    photos: BTreeMap<Digest, BTreeSet<Subject>>,
    /// The area and the index of each fed change; a row's position is its index in this list plus one. A row
    /// is `None` once its document no longer belongs to the area.
    feed: Vec<Option<(Area, usize)>>,
    /// The number of changes that are in the feed already.
    fed: usize,
    /// Pairs of document and area whose earlier changes are not in the feed yet.
    not_fed: BTreeSet<(Subject, Area)>,
}

impl ScopeIndex {
    /// The sites of the visits that match `fits`, without openings that name another site than the visit's id
    /// proves.
    fn areas_where(&self, fits: impl Fn(&OpenedAt) -> bool) -> BTreeSet<Area> {
        let bound_elsewhere = |row: &OpenedAt| {
            let mut bound =
                self.opened.iter().filter(|other| other.visit == row.visit && other.bound).peekable();
            bound.peek().is_some() && !bound.any(|other| other.site == row.site)
        };
        let rows = self.opened.iter().filter(|row| fits(row) && !bound_elsewhere(row));
        rows.map(|row| Area::Site(row.site)).collect()
    }
}

impl MemoryStore {
    /// Updates the index for an entry that was added to a document.
    pub(super) fn note_standing(&mut self, subject: Subject, entry: &Entry) {
        let before = self.scopes.areas.get(&subject).cloned().unwrap_or_default();
        for area in before.into_iter().chain([Area::Everything]) {
            self.scopes.tallies.entry(area).or_default().add(counted_as(subject, entry.id));
        }
        if let Some(area) = area_by_kind(subject) {
            self.belong(subject, &BTreeSet::from([area]));
        }
        if let Some(opened) = OpenedAt::of(subject, entry)
            && self.scopes.opened.insert(opened)
        {
            let of_the_visit = self.scopes.opened.iter().filter(|row| row.visit == opened.visit);
            let cars: BTreeSet<CarId> = of_the_visit.map(|row| row.car).collect();
            self.belong(subject, &self.scopes.areas_where(|row| row.visit == opened.visit));
            for car in cars {
                self.belong(Subject::Car(car), &self.scopes.areas_where(|row| row.car == car));
            }
        }
        if let Some(photo) = photograph_of(&entry.body.says) {
            self.scopes.photos.entry(photo).or_default().insert(subject);
        }
    }

    /// Makes `wanted` the areas of the document.
    fn belong(&mut self, subject: Subject, wanted: &BTreeSet<Area>) {
        let before = self.scopes.areas.insert(subject, wanted.clone()).unwrap_or_default();
        let rows = self.standing.get(&subject).into_iter().flatten().filter_map(|at| self.entries.get(*at));
        let counted: Vec<EntryId> = rows.map(|row| counted_as(subject, row.id)).collect();
        for area in wanted.difference(&before) {
            self.scopes.not_fed.insert((subject, *area));
            let tally = self.scopes.tallies.entry(*area).or_default();
            counted.iter().for_each(|id| tally.add(*id));
        }
        for area in before.difference(wanted) {
            self.scopes.not_fed.remove(&(subject, *area));
            let tally = self.scopes.tallies.entry(*area).or_default();
            counted.iter().for_each(|id| tally.remove(*id));
            for row in &mut self.scopes.feed {
                let of_it = |at: usize| self.changes.get(at).is_some_and(|(c, _)| c.subject == subject);
                if row.is_some_and(|(of, at)| of == *area && of_it(at)) {
                    *row = None;
                }
            }
        }
    }

    /// Removes from the index what it holds of a document, and returns the photographs that no document names any
    /// more. The document must still stand.
    pub(super) fn take_out(&mut self, subject: Subject) -> Vec<Digest> {
        let rows = self.standing.get(&subject).into_iter().flatten().filter_map(|at| self.entries.get(*at));
        let counted: Vec<EntryId> = rows.map(|row| counted_as(subject, row.id)).collect();
        // A car belongs where its visits are, with or without a document of its own.
        let areas = match subject {
            Subject::Car(_) => self.scopes.areas.get(&subject).cloned(),
            _ => self.scopes.areas.remove(&subject),
        };
        for area in areas.unwrap_or_default().into_iter().chain([Area::Everything]) {
            self.scopes.not_fed.remove(&(subject, area));
            let tally = self.scopes.tallies.entry(area).or_default();
            counted.iter().for_each(|id| tally.remove(*id));
        }
        if let Subject::Visit(visit) = subject {
            let of_it = self.scopes.opened.iter().filter(|row| row.visit == visit);
            let cars: BTreeSet<CarId> = of_it.map(|row| row.car).collect();
            self.scopes.opened.retain(|row| row.visit != visit);
            for car in cars {
                self.belong(Subject::Car(car), &self.scopes.areas_where(|row| row.car == car));
            }
        }
        let photos = &mut self.scopes.photos;
        photos.values_mut().for_each(|subjects| {
            subjects.remove(&subject);
        });
        let gone = photos.iter().filter(|(_, of)| of.is_empty()).map(|(photo, _)| *photo).collect::<Vec<_>>();
        photos.retain(|_, of| !of.is_empty());
        gone
    }

    /// Puts the feed's rows in terms of the changes that stay: `now_at` tells where a change stands now.
    pub(super) fn feed_again(&mut self, now_at: &BTreeMap<usize, usize>) {
        let ScopeIndex { feed, fed, .. } = &mut self.scopes;
        for row in feed.iter_mut() {
            *row = row.and_then(|(area, at)| Some((area, *now_at.get(&at)?)));
        }
        *fed = now_at.keys().filter(|at| **at < *fed).count();
    }

    /// Adds all outstanding changes to the feed.
    pub(super) fn feed(&mut self) {
        let fed = self.scopes.fed;
        for (subject, area) in std::mem::take(&mut self.scopes.not_fed) {
            let earlier = self.changes.iter().take(fed).enumerate();
            let earlier = earlier.filter(|(_, (change, _))| change.subject == subject).map(|(at, _)| at);
            self.scopes.feed.extend(earlier.map(|at| Some((area, at))));
        }
        for (at, (change, _)) in self.changes.iter().enumerate().skip(fed) {
            let areas = self.scopes.areas.get(&change.subject).into_iter().flatten();
            self.scopes.feed.extend(areas.map(|area| Some((*area, at))));
        }
        self.scopes.fed = self.changes.len();
    }
}

impl ScopeRows for MemoryStore {
    fn tally_in(&self, scope: &Scope) -> Result<SetDigest, StoreError> {
        if *scope == Scope::Everything {
            return self.tally();
        }
        let mut all = SetDigest::default();
        scope.areas().iter().filter_map(|area| self.scopes.tallies.get(area)).for_each(|t| all.merge(t));
        Ok(all)
    }

    fn tally_of_standings(&self) -> Result<SetDigest, StoreError> {
        Ok(self.scopes.tallies.get(&Area::Everything).copied().unwrap_or_default())
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

    fn sites_of(&self, subject: Subject) -> Result<BTreeSet<SiteId>, StoreError> {
        let areas = self.scopes.areas.get(&subject).into_iter().flatten();
        Ok(areas.filter_map(|area| area.site()).collect())
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
        let rows = self.scopes.feed.iter().enumerate().skip(start);
        for (at, (area, change)) in rows.filter_map(|(at, row)| row.as_ref().map(|row| (at, row))) {
            let met = |row: &Option<(Area, usize)>| {
                row.is_some_and(|(other, same)| same == *change && areas.contains(&other))
            };
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
        let of_it = |row: &Option<(Area, usize)>| row.is_some_and(|(area, _)| areas.contains(&area));
        let newest = self.scopes.feed.iter().rposition(of_it);
        Ok(newest.map_or(0, |at| at as u64 + 1))
    }

    fn naming_photo(&self, sha256: Digest) -> Result<Vec<Subject>, StoreError> {
        Ok(self.scopes.photos.get(&sha256).into_iter().flatten().copied().collect())
    }
}
