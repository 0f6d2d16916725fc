//! Gathering the input of views: the records of a device or an office, read once.
//!
//! Shells call [`super::Book::gather`] and an office calls [`Snapshot::read`]; the result provides rows and
//! views. Folds that cannot have changed are cached in the result as long as the caller keeps it; nothing is
//! stored. The meaning of records is defined in `view`.

use std::cell::RefCell;
use std::collections::{BTreeMap, BTreeSet};

use super::{Book, BookError, Kept};
use crate::authority::Authority;
use crate::clock::UtcMillis;
use crate::entry::{Entry, Opened, PublicKey, Statement, Trusts};
use crate::ids::{CarId, DeviceId, Digest, EntryId, OperatorId, OrganisationId, SiteId, Subject, VisitId};
use crate::procedure::Procedures;
use crate::store::{Names, Store, kept_names, organisation_keys};
use crate::sync::received_from_revoked;
use crate::view::{
    self, Brief, Chains, Context, DeviceFacts, Editions, ExpectedCar, Formulas, Person, Recorded, SiteView,
    Sought, StayOfCar, VisitRow, VisitView,
};

/// How long ago something may have been recorded on another car for it to be taken over, in milliseconds; the day of the
/// site's zone decides (see `view::is_of_the_track`).
const DAY: i64 = 24 * 60 * 60 * 1000;

/// The records of a device or an office, read once.
#[derive(Debug, Default)]
pub struct Snapshot {
    now: Option<UtcMillis>,
    visits: BTreeMap<VisitId, Vec<Kept>>,
    cars: BTreeMap<CarId, Vec<Kept>>,
    at_sites: BTreeMap<SiteId, Vec<Kept>>,
    rosters: BTreeMap<OrganisationId, Vec<Kept>>,
    authority: Authority,
    /// The known sites.
    pub sites: BTreeMap<SiteId, SiteView>,
    /// The names kept beside the roster.
    names: Names,
    /// The people of the organisation by code.
    pub people: BTreeMap<OperatorId, Person>,
    /// The editions of procedures that the organisation published.
    pub editions: Editions,
    devices: BTreeMap<DeviceId, DeviceFacts>,
    received: BTreeMap<EntryId, UtcMillis>,
    chains: Chains,
    stays: Vec<Vec<VisitId>>,
    /// The names of damaged entry rows.
    pub damaged: Vec<String>,
    unreadable: BTreeMap<Subject, BTreeSet<EntryId>>,
    /// The visits on whose entries those of a visit rest, for visits that rest on any.
    rests: BTreeMap<VisitId, BTreeSet<VisitId>>,
    outlines: RefCell<BTreeMap<Vec<VisitId>, Outline>>,
    /// The rows of completed stays; they change only when their input does.
    finished: RefCell<BTreeMap<Vec<VisitId>, VisitRow>>,
    /// Cached results of formulas, because the open car is folded after every entry.
    formulas: Formulas,
}

/// What is known about a stay without folding it.
#[derive(Debug)]
struct Outline {
    opened: Option<Opened>,
    /// When the car was released, if it was.
    released: Option<UtcMillis>,
    /// Whether the office has issued receipts for all entries.
    receipted: bool,
    since: Option<UtcMillis>,
}

/// The purpose of a fold.
#[derive(Clone, Copy, PartialEq, Eq)]
enum For {
    /// A whole record.
    View,
    /// A row or a comparison, for which neither quantities nor chains are needed.
    List,
}

impl Book {
    /// Reads all records of this device.
    ///
    /// # Errors
    /// [`BookError`] when the store fails.
    pub fn gather(&self) -> Result<Snapshot, BookError> {
        let (key, now) = (self.organisation_key()?, self.stamp()?.corrected());
        Snapshot::read(self.store(), key.as_ref(), now)
    }

    /// Reads the given documents again, with everything that may depend on them.
    ///
    /// # Errors
    /// [`BookError`] when the store fails; the result may then be partly outdated.
    pub fn refresh(&self, gathered: &mut Snapshot, changed: &[Subject]) -> Result<(), BookError> {
        let (key, now) = (self.organisation_key()?, self.stamp()?.corrected());
        gathered.refresh(self.store(), key.as_ref(), now, changed)
    }

    /// Takes the present time into what was gathered: views then tell what became due since, although nothing was
    /// recorded.
    ///
    /// # Errors
    /// [`BookError`] when the store fails; the time of the last reading is then kept.
    pub fn look(&self, gathered: &mut Snapshot) -> Result<(), BookError> {
        gathered.now = Some(self.stamp()?.corrected());
        Ok(())
    }
}

impl Snapshot {
    /// Reads all records of a store without a device's key, as an office does.
    ///
    /// `organisation_key` decides whose certificates and receipts count; `now` is the present time for views.
    ///
    /// # Errors
    /// [`BookError`] when the store fails.
    pub fn read(
        store: &dyn Store,
        organisation_key: Option<&PublicKey>,
        now: UtcMillis,
    ) -> Result<Snapshot, BookError> {
        let mut gathered = Snapshot::default();
        let all = store.subjects()?;
        gathered.refresh(store, organisation_key, now, &all)?;
        Ok(gathered)
    }

    /// Reads the given documents of a store again, with everything that may depend on them. On a fresh
    /// [`Snapshot::default`] it reads only these documents; gaps in the chains of devices then only mean that
    /// other documents were not read.
    ///
    /// # Errors
    /// [`BookError`] when the store fails; the result may then be partly outdated.
    pub fn refresh(
        &mut self,
        store: &dyn Store,
        organisation_key: Option<&PublicKey>,
        now: UtcMillis,
        changed: &[Subject],
    ) -> Result<(), BookError> {
        self.now = Some(now);
        self.names = kept_names(store)?;
        let certificates = store.certificates()?;
        let keys = organisation_key.map(|root| organisation_keys(store, root)).transpose()?;
        let bytes = certificates.iter().map(|(_, bytes)| bytes.as_slice());
        let authority = Authority::read(keys.as_ref().map(|keys| keys as &dyn Trusts), bytes, false);
        let devices = authority.devices().iter().map(|(device, known)| (*device, known.into())).collect();
        let mut all_rows = devices != self.devices;
        self.devices = devices;
        for subject in changed {
            let (entries, damaged) = super::kept(store, *subject)?;
            self.unreadable.remove(subject);
            if !damaged.is_empty() {
                let ids: BTreeSet<EntryId> = damaged.iter().filter_map(|id| EntryId::read(id).ok()).collect();
                self.chains.add_unreadable(ids.iter().copied());
                self.unreadable.insert(*subject, ids);
            }
            for (entry, _) in &entries {
                self.chains.add(entry);
            }
            self.file(*subject, entries);
        }
        let named: BTreeSet<EntryId> = self.unreadable.values().flatten().copied().collect();
        self.damaged = named.iter().map(ToString::to_string).collect();
        let authority = authority.vouching(self.all_entries()).at(now);
        if let Some(key) = &keys {
            let received = received_from_revoked(store, key, &authority, self.all_entries())?;
            all_rows |= received != self.received;
            self.received = received;
        }
        all_rows |= self.take_authority(authority, changed, all_rows);
        self.stays = self.join();
        self.forget(changed, all_rows);
        Ok(())
    }

    fn all_entries(&self) -> impl Iterator<Item = &Entry> {
        let documents = self.visits.values().chain(self.cars.values()).chain(self.at_sites.values());
        documents.chain(self.rosters.values()).flatten().map(|(entry, _)| entry)
    }

    fn received_entries<'a>(
        &'a self,
        entries: &'a [Kept],
    ) -> impl Iterator<Item = (&'a Entry, Option<UtcMillis>)> {
        entries.iter().map(|(entry, _)| (entry, self.received.get(&entry.id).copied()))
    }

    /// Judges all entries by a new authority and folds the sites and people, on which every record depends.
    /// Returns true if cached rows may have changed.
    ///
    /// A site whose document did not change is not folded again as long as the same devices may speak there: over the
    /// years it holds a paper for every car, and the phone reads its records again after every tap.
    fn take_authority(&mut self, authority: Authority, changed: &[Subject], devices_changed: bool) -> bool {
        let on_rosters = self.rosters.values().flat_map(|entries| self.received_entries(entries));
        let judged = authority.roster(on_rosters);
        let people = view::people(judged.iter().copied(), &self.names);
        let editions = Editions::fold(judged.iter().copied(), &self.editions);
        let authority = authority.clone().with_roster(judged);
        let same = !devices_changed && authority.same_but_for_time(&self.authority);
        let mut known = std::mem::take(&mut self.sites);
        let sites: BTreeMap<SiteId, SiteView> = self
            .at_sites
            .iter()
            .map(|(site, entries)| {
                let kept = known.remove(site).filter(|_| same && !changed.contains(&Subject::Site(*site)));
                let folded = || SiteView::fold(Some(*site), authority.site(self.received_entries(entries)));
                (*site, kept.unwrap_or_else(folded))
            })
            .collect();
        let changed = people != self.people
            || editions != self.editions
            || !authority.same_but_for_time(&self.authority);
        (self.people, self.sites, self.authority, self.editions) = (people, sites, authority, editions);
        changed
    }

    /// Discards the cached results of stays that depend on one of the changed documents.
    fn forget(&mut self, changed: &[Subject], all_rows: bool) {
        let changed: BTreeSet<Subject> = changed.iter().copied().collect();
        let changed_visit = |stay: &[VisitId]| stay.iter().any(|v| changed.contains(&Subject::Visit(*v)));
        self.outlines.borrow_mut().retain(|stay, _| !changed_visit(stay));
        if all_rows {
            self.finished.borrow_mut().clear();
            return;
        }
        let reads = |opened: Opened| {
            changed.contains(&Subject::Car(opened.car.id())) || changed.contains(&Subject::Site(opened.site))
        };
        let rests = |stay: &[VisitId]| {
            let on = stay.iter().filter_map(|visit| self.rests.get(visit)).flatten();
            on.into_iter().any(|visit| changed.contains(&Subject::Visit(*visit)))
        };
        let mut finished = std::mem::take(&mut *self.finished.borrow_mut());
        finished
            .retain(|stay, _| !changed_visit(stay) && !rests(stay) && !self.opened(stay).is_some_and(reads));
        *self.finished.borrow_mut() = finished;
    }

    #[cfg(test)]
    pub(super) fn rows_remembered(&self) -> usize {
        self.finished.borrow().len()
    }

    /// Returns the documents with entries not known to have a receipt. A sync with the office may change
    /// these documents even if nobody else writes to them.
    pub fn without_receipt(&self) -> Vec<Subject> {
        let lacks = |entries: &[Kept]| entries.iter().any(|(_, receipted)| !receipted);
        let visits = self.visits.iter().filter(|(_, e)| lacks(e)).map(|(visit, _)| Subject::Visit(*visit));
        let cars = self.cars.iter().filter(|(_, e)| lacks(e)).map(|(car, _)| Subject::Car(*car));
        visits.chain(cars).collect()
    }

    fn file(&mut self, subject: Subject, mut entries: Vec<Kept>) {
        if entries.is_empty() && !self.unreadable.contains_key(&subject) {
            // It left this device.
            match subject {
                Subject::Visit(visit) => {
                    self.rests.remove(&visit);
                    self.visits.remove(&visit).is_some()
                }
                Subject::Car(car) => self.cars.remove(&car).is_some(),
                Subject::Site(site) => self.at_sites.remove(&site).is_some(),
                Subject::Roster(organisation) => self.rosters.remove(&organisation).is_some(),
            };
            return;
        }
        match subject {
            Subject::Visit(visit) => {
                // A statement of another visit about being one stay with this one counts in the document of
                // that visit.
                entries.retain(|(entry, _)| entry.body.about == subject);
                let rests = view::rested_on(entries.iter().map(|(entry, _)| entry));
                match rests.is_empty() {
                    true => drop(self.rests.remove(&visit)),
                    false => drop(self.rests.insert(visit, rests)),
                }
                self.visits.insert(visit, entries);
            }
            Subject::Car(car) => {
                self.cars.insert(car, entries);
            }
            Subject::Site(site) => {
                self.at_sites.insert(site, entries);
            }
            Subject::Roster(organisation) => {
                self.rosters.insert(organisation, entries);
            }
        }
    }

    fn join(&self) -> Vec<Vec<VisitId>> {
        let ids: Vec<VisitId> = self.visits.keys().copied().collect();
        let opened = |visit: VisitId| {
            let entries = self.visits.get(&visit)?;
            view::opened_of(&self.authority, self.received_entries(entries))
        };
        let mut pairs = Vec::new();
        for (visit, entries) in &self.visits {
            let joined = view::joined_with(&self.authority, *visit, self.received_entries(entries), opened);
            pairs.extend(joined.into_iter().map(|other| (*visit, other)));
        }
        view::stays(&ids, &pairs)
    }

    /// Returns the authority as far as it is known here.
    pub fn authority(&self) -> &Authority {
        &self.authority
    }

    /// Returns the time when the server received an entry, if that decides whether the entry counts.
    pub fn received(&self, entry: &Entry) -> Option<UtcMillis> {
        self.received.get(&entry.id).copied()
    }

    /// Returns the procedure under which a new stay at a site begins: the newest edition that the organisation
    /// published for the site and did not take back, or else the built-in one.
    pub fn procedure_for(&self, site: SiteId, procedures: &Procedures) -> Option<Digest> {
        let own = self.editions.for_site(site);
        own.or_else(|| procedures.default_procedure()).map(|procedure| procedure.digest)
    }

    /// Returns the known stays, each with its visits.
    pub fn stays(&self) -> &[Vec<VisitId>] {
        &self.stays
    }

    /// Returns the stay that a visit belongs to.
    pub fn stay_of(&self, visit: VisitId) -> Option<&[VisitId]> {
        self.stays.iter().find(|stay| stay.contains(&visit)).map(Vec::as_slice)
    }

    /// Returns the entries of a stay, each with the visit whose document holds it.
    pub fn entries_of<'a>(&'a self, stay: &'a [VisitId]) -> impl Iterator<Item = (VisitId, &'a Entry)> {
        stay.iter()
            .flat_map(|visit| self.visits.get(visit).into_iter().flatten().map(|(entry, _)| (*visit, entry)))
    }

    /// Returns the present statement of how the stay was opened.
    pub fn opened(&self, stay: &[VisitId]) -> Option<Opened> {
        self.outline(stay, |outline| outline.opened.clone())
    }

    /// Returns true if the car was released.
    pub fn is_released(&self, stay: &[VisitId]) -> bool {
        self.outline(stay, |outline| outline.released.is_some())
    }

    /// Returns a site as it is now, with the cars that are expected and have not come.
    pub fn site_now(&self, site: SiteId) -> Option<SiteView> {
        let view = self.sites.get(&site)?;
        let stays: Vec<StayOfCar> = self.stays.iter().filter_map(|stay| self.stay_at(stay, site)).collect();
        let now = self.now.unwrap_or(UtcMillis(0));
        Some(SiteView { expected: view.papers.waiting(&stays, now), ..view.clone() })
    }

    /// Returns the stay's own paper, if the office sent one.
    pub fn paper_of(&self, stay: &[VisitId]) -> Option<ExpectedCar> {
        let site = self.opened(stay)?.site;
        let this = self.stay_at(stay, site)?;
        let others = self.stays.iter().filter(|other| other.as_slice() != stay);
        let others: Vec<StayOfCar> = others.filter_map(|other| self.stay_at(other, site)).collect();
        self.sites.get(&site)?.papers.paper_of(&this, &others).cloned()
    }

    /// Returns what decides which paper is a stay's own; `None` if the stay is at another site.
    fn stay_at(&self, stay: &[VisitId], site: SiteId) -> Option<StayOfCar> {
        self.outline(stay, |outline| {
            let opened = outline.opened.as_ref().filter(|opened| opened.site == site)?;
            Some(StayOfCar { car: opened.car.clone(), since: outline.since?, until: outline.released })
        })
    }

    fn outline<T>(&self, stay: &[VisitId], wanted: impl Fn(&Outline) -> T) -> T {
        if let Some(outline) = self.outlines.borrow().get(stay) {
            return wanted(outline);
        }
        let entries = || self.entries_of(stay).map(|(_, entry)| entry);
        let received = entries().map(|entry| (entry, self.received.get(&entry.id).copied()));
        let (opened, released) = view::opened_and_released(&self.authority, received);
        let mut kept = stay.iter().filter_map(|visit| self.visits.get(visit)).flatten();
        let outline = Outline {
            opened,
            released,
            receipted: kept.all(|(_, receipted)| *receipted),
            since: entries().map(|entry| entry.body.when.corrected()).min(),
        };
        let answer = wanted(&outline);
        self.outlines.borrow_mut().insert(stay.to_vec(), outline);
        answer
    }

    fn fold<'s>(
        &'s self,
        stay: &[VisitId],
        others: &[Brief],
        procedures: &Procedures,
        sketched: &'s [Entry],
        wanted: For,
    ) -> VisitView {
        let recorded_of = |(entry, receipted): &'s Kept| Recorded {
            entry,
            receipted: *receipted,
            received_at: self.received.get(&entry.id).copied(),
        };
        let recorded: Vec<Recorded<'_>> = stay
            .iter()
            .flat_map(|visit| self.visits.get(visit).into_iter().flatten())
            .map(recorded_of)
            .chain(sketched.iter().map(Recorded::unsent))
            .collect();
        let opened = self.opened(stay);
        let car: Vec<Recorded<'_>> = opened
            .as_ref()
            .and_then(|opened| self.cars.get(&opened.car.id()))
            .map_or(Vec::new(), |entries| entries.iter().map(recorded_of).collect());
        let track: Vec<Recorded<'_>> = self
            .track_of(stay, opened.as_ref(), sketched, wanted)
            .into_iter()
            .filter_map(|visit| self.visits.get(&visit))
            .flatten()
            .filter(|(entry, _)| view::is_of_the_track(entry))
            .map(recorded_of)
            .collect();
        let context = Context {
            track: &track,
            site: opened.as_ref().and_then(|opened| self.sites.get(&opened.site)),
            authority: &self.authority,
            car: &car,
            devices: &self.devices,
            people: &self.people,
            editions: Some(&self.editions),
            // A device's chain grows with all its entries, so it is checked only for a full view and not for
            // rows, which do not show the result.
            chains: (wanted == For::View).then_some(&self.chains),
            compute: wanted == For::View,
            formulas: Some(&self.formulas),
            others,
            unreadable: self.unreadable_in(stay, opened.as_ref()),
            ..Context::at(self.now.unwrap_or(UtcMillis(0)), procedures)
        };
        view::fold(&recorded, &context)
    }

    /// Returns the visits on which a stay rests and, for a whole record, those at its site from which something can be
    /// taken over: where something was recorded during the last day.
    fn track_of(
        &self,
        stay: &[VisitId],
        opened: Option<&Opened>,
        sketched: &[Entry],
        wanted: For,
    ) -> BTreeSet<VisitId> {
        let mut track = view::rested_on(sketched);
        track.extend(stay.iter().filter_map(|visit| self.rests.get(visit)).flatten());
        if let (Some(opened), For::View) = (opened, wanted) {
            let now = self.now.unwrap_or(UtcMillis(0));
            let lately = |entry: &Entry| now.since(entry.body.when.corrected()) < DAY;
            let alike = self.visits.iter().filter(|(visit, entries)| {
                !stay.contains(visit)
                    && entries.iter().any(|(entry, _)| lately(entry))
                    && entries.iter().any(|(entry, _)| {
                        matches!(&entry.body.says, Statement::Opened(other) if other.site == opened.site)
                    })
            });
            track.extend(alike.map(|(visit, _)| *visit));
        }
        track
    }

    /// Returns the number of damaged entry rows in a stay and in its car's document.
    fn unreadable_in(&self, stay: &[VisitId], opened: Option<&Opened>) -> usize {
        if self.unreadable.is_empty() {
            return 0;
        }
        let documents = stay.iter().map(|visit| Subject::Visit(*visit));
        let documents = documents.chain(opened.map(|opened| Subject::Car(opened.car.id())));
        let ids: BTreeSet<EntryId> =
            documents.filter_map(|subject| self.unreadable.get(&subject)).flatten().copied().collect();
        ids.len()
    }

    /// Returns the rows of stays that are not completed: the car is still there, or not all entries have
    /// receipts. Even on a device with a thousand past stays these are only a few.
    pub fn standing(&self, procedures: &Procedures) -> Vec<VisitRow> {
        self.rows_where(procedures, |stay| !self.is_over(stay))
    }

    /// Returns the number of completed stays and the rows of some of them, the latest first.
    pub fn over(&self, from: usize, most: usize, procedures: &Procedures) -> (usize, Vec<VisitRow>) {
        let mut over: Vec<&[VisitId]> =
            self.stays.iter().map(Vec::as_slice).filter(|stay| self.is_over(stay)).collect();
        over.sort_by_cached_key(|stay| std::cmp::Reverse(self.outline(stay, |outline| outline.since)));
        let rows = over.iter().skip(from).take(most).map(|stay| self.row(stay, procedures)).collect();
        (over.len(), rows)
    }

    fn is_over(&self, stay: &[VisitId]) -> bool {
        self.outline(stay, |outline| outline.released.is_some() && outline.receipted)
    }

    /// Returns the rows of the stays selected by `wanted`.
    pub fn rows_where(&self, procedures: &Procedures, wanted: impl Fn(&[VisitId]) -> bool) -> Vec<VisitRow> {
        self.stays.iter().filter(|stay| wanted(stay)).map(|stay| self.row(stay, procedures)).collect()
    }

    /// Returns the rows of the stays in which a recorded car number, seal number or spot contains `sought`.
    pub fn find(&self, sought: &Sought, procedures: &Procedures) -> Vec<VisitRow> {
        let holds = |stay: &[VisitId]| {
            self.entries_of(stay).any(|(_, entry)| sought.stands_in_entry(&entry.body.says))
        };
        if sought.is_empty() { Vec::new() } else { self.rows_where(procedures, holds) }
    }

    /// Returns one row per stay.
    pub fn rows(&self, procedures: &Procedures) -> Vec<VisitRow> {
        self.stays.iter().map(|stay| self.row(stay, procedures)).collect()
    }

    fn row(&self, stay: &[VisitId], procedures: &Procedures) -> VisitRow {
        if let Some(row) = self.finished.borrow().get(stay) {
            return row.clone();
        }
        let row = VisitRow::of(&self.fold(stay, &[], procedures, &[], For::List));
        if row.released {
            self.finished.borrow_mut().insert(stay.to_vec(), row.clone());
        }
        row
    }

    /// Returns the full record of the stay that a visit belongs to, compared with the other known stays.
    pub fn view(&self, visit: VisitId, procedures: &Procedures) -> Option<VisitView> {
        self.view_with(visit, procedures, &[])
    }

    /// Returns the record as it would be with the `sketched` entries, which are not stored.
    pub fn view_with(
        &self,
        visit: VisitId,
        procedures: &Procedures,
        sketched: &[Entry],
    ) -> Option<VisitView> {
        let stay = self.stay_of(visit)?;
        // Only a similar car number can lead to an offer, and folding every stay for the comparison would be
        // slow.
        let number = self.opened(stay).map(|opened| opened.car);
        let alike = |other: &&Vec<VisitId>| {
            let theirs = self.opened(other).map(|opened| opened.car);
            number.as_ref().zip(theirs).is_some_and(|(a, b)| a.normal() == b.normal() || a.is_near(&b))
        };
        let others: Vec<Brief> = self
            .stays
            .iter()
            .filter(|other| other.as_slice() != stay)
            .filter(alike)
            .filter_map(|other| self.fold(other, &[], procedures, &[], For::List).brief)
            .collect();
        Some(self.fold(stay, &others, procedures, sketched, For::View))
    }
}
