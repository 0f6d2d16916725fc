//! Gathering what views are folded from: the records of a device, read once and laid side by side.
//!
//! Shells call [`super::Book::gather`], an office [`Snapshot::read`], and ask the result for rows and
//! views. What was folded once and cannot have changed is remembered for as long as the shell keeps the
//! result; nothing is stored, and what a record means is the view's.

use std::cell::RefCell;
use std::collections::{BTreeMap, BTreeSet};

use super::{Book, BookError, Kept};
use crate::authority::Authority;
use crate::clock::UtcMillis;
use crate::entry::site_facts::Operator;
use crate::entry::{Entry, Opened, PublicKey, Trusts, cbor};
use crate::ids::{CarId, DeviceId, EntryId, OperatorId, OrganisationId, SiteId, Subject, VisitId};
use crate::log::Receipt;
use crate::procedure::Procedures;
use crate::store::{Store, organisation_keys};
use crate::sync::KeptProof;
use crate::view::{
    self, Brief, Chains, Context, DeviceFacts, Formulas, Recorded, SiteView, Sought, VisitRow, VisitView,
};

/// The records of a device, read once.
#[derive(Debug, Default)]
pub struct Snapshot {
    now: Option<UtcMillis>,
    visits: BTreeMap<VisitId, Vec<Kept>>,
    cars: BTreeMap<CarId, Vec<Kept>>,
    at_sites: BTreeMap<SiteId, Vec<Kept>>,
    rosters: BTreeMap<OrganisationId, Vec<Kept>>,
    authority: Authority,
    /// The sites known here.
    pub sites: BTreeMap<SiteId, SiteView>,
    /// The people of the organisation, by code.
    pub people: BTreeMap<OperatorId, Operator>,
    devices: BTreeMap<DeviceId, DeviceFacts>,
    received: BTreeMap<EntryId, UtcMillis>,
    chains: Chains,
    stays: Vec<Vec<VisitId>>,
    /// Entries whose rows are here and cannot be read, by name.
    pub damaged: Vec<String>,
    unreadable: BTreeMap<Subject, BTreeSet<EntryId>>,
    outlines: RefCell<BTreeMap<Vec<VisitId>, Outline>>,
    /// Rows of stays that are over: they change only when something they were folded from does.
    finished: RefCell<BTreeMap<Vec<VisitId>, VisitRow>>,
    /// What formulas made, since the open car is folded after every entry.
    formulas: Formulas,
}

/// What is known of a stay without folding it.
#[derive(Debug)]
struct Outline {
    opened: Option<Opened>,
    released: bool,
    /// Whether the office has receipted every entry.
    receipted: bool,
    since: Option<UtcMillis>,
}

/// What a fold is for.
#[derive(Clone, Copy, PartialEq, Eq)]
enum For {
    /// A whole record.
    View,
    /// A row or a comparison, which show no quantity and no chain.
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

    /// Reads the given documents again, and what may have changed with them; the rest stays as read.
    ///
    /// # Errors
    /// [`BookError`] when the store fails; what was gathered may then be partly old.
    pub fn refresh(&self, gathered: &mut Snapshot, changed: &[Subject]) -> Result<(), BookError> {
        let (key, now) = (self.organisation_key()?, self.stamp()?.corrected());
        gathered.refresh(self.store(), key.as_ref(), now, changed)
    }
}

impl Snapshot {
    /// Reads all records of a store, for whoever holds one without a device's key: the office.
    ///
    /// `organisation_key` tells whose certificates and receipts count; `now` is what views take for
    /// the present.
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

    /// Reads the given documents of a store again, and what may have changed with them. On a fresh
    /// [`Snapshot::default`] it reads these documents alone; gaps in the chains of devices then only
    /// mean that other documents were not read.
    ///
    /// # Errors
    /// [`BookError`] when the store fails; what was gathered may then be partly old.
    pub fn refresh(
        &mut self,
        store: &dyn Store,
        organisation_key: Option<&PublicKey>,
        now: UtcMillis,
        changed: &[Subject],
    ) -> Result<(), BookError> {
        self.now = Some(now);
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
        all_rows |= self.take_authority(authority);
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

    /// Judges anew, and folds the sites and the people, which every record reads. Says whether rows that were
    /// folded before may now be others.
    fn take_authority(&mut self, authority: Authority) -> bool {
        let on_rosters = self.rosters.values().flat_map(|entries| self.received_entries(entries));
        let judged = authority.roster(on_rosters);
        let people: BTreeMap<OperatorId, Operator> = view::people(judged.iter().copied());
        let authority = authority.clone().with_roster(judged);
        let sites: BTreeMap<SiteId, SiteView> = self
            .at_sites
            .iter()
            .map(|(site, entries)| {
                let judged = authority.site(self.received_entries(entries));
                (*site, SiteView::fold(Some(*site), judged))
            })
            .collect();
        let changed = people != self.people || !authority.same_but_for_time(&self.authority);
        (self.people, self.sites, self.authority) = (people, sites, authority);
        changed
    }

    /// Drops what was remembered of stays that read one of the changed documents.
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
        let mut finished = std::mem::take(&mut *self.finished.borrow_mut());
        finished.retain(|stay, _| !changed_visit(stay) && !self.opened(stay).is_some_and(reads));
        *self.finished.borrow_mut() = finished;
    }

    #[cfg(test)]
    pub(super) fn rows_remembered(&self) -> usize {
        self.finished.borrow().len()
    }

    /// Documents with entries that no receipt is known to cover: those a meeting with the office may
    /// change without a word from anybody else.
    pub fn without_receipt(&self) -> Vec<Subject> {
        let lacks = |entries: &[Kept]| entries.iter().any(|(_, receipted)| !receipted);
        let visits = self.visits.iter().filter(|(_, e)| lacks(e)).map(|(visit, _)| Subject::Visit(*visit));
        let cars = self.cars.iter().filter(|(_, e)| lacks(e)).map(|(car, _)| Subject::Car(*car));
        visits.chain(cars).collect()
    }

    fn file(&mut self, subject: Subject, mut entries: Vec<Kept>) {
        match subject {
            Subject::Visit(visit) => {
                // What another visit says of being one stay with this one counts where it was said.
                entries.retain(|(entry, _)| entry.body.about == subject);
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

    /// Who may say what, as far as is known here.
    pub fn authority(&self) -> &Authority {
        &self.authority
    }

    /// When the server had an entry, where that decides whether it counts.
    pub fn received(&self, entry: &Entry) -> Option<UtcMillis> {
        self.received.get(&entry.id).copied()
    }

    /// The stays known here, each with its visits.
    pub fn stays(&self) -> &[Vec<VisitId>] {
        &self.stays
    }

    /// The stay a visit belongs to.
    pub fn stay_of(&self, visit: VisitId) -> Option<&[VisitId]> {
        self.stays.iter().find(|stay| stay.contains(&visit)).map(Vec::as_slice)
    }

    /// The entries of a stay, each with the visit whose document it stands in.
    pub fn entries_of<'a>(&'a self, stay: &'a [VisitId]) -> impl Iterator<Item = (VisitId, &'a Entry)> {
        stay.iter()
            .flat_map(|visit| self.visits.get(visit).into_iter().flatten().map(|(entry, _)| (*visit, entry)))
    }

    /// How the stay now says it was opened.
    pub fn opened(&self, stay: &[VisitId]) -> Option<Opened> {
        self.outline(stay, |outline| outline.opened.clone())
    }

    /// Whether the car was released.
    pub fn is_released(&self, stay: &[VisitId]) -> bool {
        self.outline(stay, |outline| outline.released)
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
        let context = Context {
            site: opened.as_ref().and_then(|opened| self.sites.get(&opened.site)),
            authority: &self.authority,
            car: &car,
            devices: &self.devices,
            people: &self.people,
            // A device's chain is as long as its owner's years: walked for the record shown, not for each
            // row, which has no place to say it.
            chains: (wanted == For::View).then_some(&self.chains),
            compute: wanted == For::View,
            formulas: Some(&self.formulas),
            others,
            unreadable: self.unreadable_in(stay, opened.as_ref()),
            ..Context::at(self.now.unwrap_or(UtcMillis(0)), procedures)
        };
        view::fold(&recorded, &context)
    }

    /// How many entries of a stay, and of what is known of its car, are here and cannot be read.
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

    /// Rows of the stays that are not over: the car stands, or the office has not receipted all of it. A
    /// device that has seen a thousand cars folds a few.
    pub fn standing(&self, procedures: &Procedures) -> Vec<VisitRow> {
        self.rows_where(procedures, |stay| !self.is_over(stay))
    }

    /// How many stays are over, and rows of some of them, begun last first.
    pub fn over(&self, from: usize, most: usize, procedures: &Procedures) -> (usize, Vec<VisitRow>) {
        let mut over: Vec<&[VisitId]> =
            self.stays.iter().map(Vec::as_slice).filter(|stay| self.is_over(stay)).collect();
        over.sort_by_cached_key(|stay| std::cmp::Reverse(self.outline(stay, |outline| outline.since)));
        let rows = over.iter().skip(from).take(most).map(|stay| self.row(stay, procedures)).collect();
        (over.len(), rows)
    }

    fn is_over(&self, stay: &[VisitId]) -> bool {
        self.outline(stay, |outline| outline.released && outline.receipted)
    }

    /// Rows of the stays that are wanted.
    pub fn rows_where(&self, procedures: &Procedures, wanted: impl Fn(&[VisitId]) -> bool) -> Vec<VisitRow> {
        self.stays.iter().filter(|stay| wanted(stay)).map(|stay| self.row(stay, procedures)).collect()
    }

    /// Rows of the stays in which somebody recorded a car's number, a seal's or a spot that holds what is sought.
    pub fn find(&self, sought: &Sought, procedures: &Procedures) -> Vec<VisitRow> {
        let holds = |stay: &[VisitId]| {
            self.entries_of(stay).any(|(_, entry)| sought.stands_in_entry(&entry.body.says))
        };
        if sought.is_empty() { Vec::new() } else { self.rows_where(procedures, holds) }
    }

    /// One row per stay.
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

    /// The whole record of the stay a visit belongs to, laid beside the other stays known here.
    pub fn view(&self, visit: VisitId, procedures: &Procedures) -> Option<VisitView> {
        self.view_with(visit, procedures, &[])
    }

    /// The same as it would be with `sketched` entries that are not recorded.
    pub fn view_with(
        &self,
        visit: VisitId,
        procedures: &Procedures,
        sketched: &[Entry],
    ) -> Option<VisitView> {
        let stay = self.stay_of(visit)?;
        // Only a like number can lead to an offer, and folding every stay for each would be slow.
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

/// When the server held the entries of revoked devices: it decides what their word is worth. The log says
/// when they first came; receipts, where there is no proof yet, when it was said to this device.
pub(super) fn received_from_revoked<'e>(
    store: &dyn Store,
    key: &dyn Trusts,
    authority: &Authority,
    entries: impl Iterator<Item = &'e Entry>,
) -> Result<BTreeMap<EntryId, UtcMillis>, BookError> {
    let mut received = BTreeMap::new();
    let mut proven: BTreeMap<EntryId, UtcMillis> = BTreeMap::new();
    for entry in entries.filter(|entry| authority.is_revoked(&entry.device)) {
        // At the office the log itself says it.
        if let Some((_, at)) = store.log().place(entry.id)? {
            received.insert(entry.id, at);
            continue;
        }
        if !proven.contains_key(&entry.id)
            && let Some(proof) = store.log().proof_of(entry.id)?
            && let Ok(proof) = cbor::decode::<KeptProof>(&proof)
            && let Some(all) = proof.all(key)
        {
            proven.extend(all);
        }
        if let Some(at) = proven.get(&entry.id) {
            received.insert(entry.id, *at);
            continue;
        }
        for bytes in store.receipts_of(entry.id)? {
            let at = Receipt::from_bytes(&bytes).ok().and_then(|receipt| receipt.check(key).ok());
            if let Some(at) = at {
                let first = received.entry(entry.id).or_insert(at);
                *first = at.min(*first);
            }
        }
    }
    Ok(received)
}
