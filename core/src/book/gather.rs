//! Gathering what views are folded from: the records of a device, read once and laid side by side.
//!
//! Shells call [`super::Book::gather`] and ask the result for rows and views. What was folded once and
//! cannot have changed is remembered for as long as the shell keeps the result; nothing is stored, and
//! what a record means is the view's.

use std::cell::RefCell;
use std::collections::{BTreeMap, BTreeSet};

use super::{Book, BookError, Kept};
use crate::clock::UtcMillis;
use crate::entry::site_facts::Operator;
use crate::entry::{Certificate, Entry, Opened, PublicKey, Statement};
use crate::evidence::Receipt;
use crate::ids::{CarId, DeviceId, EntryId, OperatorId, SiteId, Subject, VisitId};
use crate::procedure::Procedures;
use crate::view::{
    self, Brief, Chains, Context, DeviceFacts, Formulas, Recorded, Row, SiteView, Slots, VisitView,
};

/// The records of a device, read once.
#[derive(Debug, Default)]
pub struct Gathered {
    now: Option<UtcMillis>,
    visits: BTreeMap<VisitId, Vec<Kept>>,
    cars: BTreeMap<CarId, Vec<Kept>>,
    /// The sites known here.
    pub sites: BTreeMap<SiteId, SiteView>,
    /// The people of the organisation, by code.
    pub people: BTreeMap<OperatorId, Operator>,
    devices: BTreeMap<DeviceId, DeviceFacts>,
    received: BTreeMap<EntryId, UtcMillis>,
    chains: Chains,
    stays: Vec<Vec<VisitId>>,
    /// Rows whose digest no longer fits their bytes, by name.
    pub damaged: Vec<String>,
    /// How each stay says it was opened.
    openings: RefCell<BTreeMap<Vec<VisitId>, Option<Opened>>>,
    /// Rows of stays that are over: they change only when something they were folded from does.
    finished: RefCell<BTreeMap<Vec<VisitId>, Row>>,
    /// What formulas made, since the open car is folded after every entry.
    formulas: Formulas,
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
    pub fn gather(&self) -> Result<Gathered, BookError> {
        let mut gathered = Gathered::default();
        let all = self.store().subjects()?;
        self.refresh(&mut gathered, &all)?;
        Ok(gathered)
    }

    /// Reads the given documents again, and what may have changed with them; the rest stays as read.
    ///
    /// # Errors
    /// [`BookError`] when the store fails; what was gathered may then be partly old.
    pub fn refresh(&self, gathered: &mut Gathered, changed: &[Subject]) -> Result<(), BookError> {
        gathered.now = Some(self.stamp()?.corrected());
        let organisation_key = self.organisation_key()?;
        let mut devices = BTreeMap::new();
        if let Some(key) = &organisation_key {
            for (device, bytes) in self.store().certificates()? {
                if let Ok(certificate) = Certificate::open(&bytes, key) {
                    devices.insert(device, DeviceFacts::from(&certificate));
                }
            }
        }
        let mut all_rows = devices != gathered.devices;
        gathered.devices = devices;
        let people = gathered.people.clone();
        for subject in changed {
            let (entries, damaged) = self.entries(*subject)?;
            for name in damaged {
                if !gathered.damaged.contains(&name) {
                    gathered.damaged.push(name);
                }
            }
            for (entry, _) in &entries {
                gathered.chains.add(entry);
            }
            gathered.file(*subject, entries);
        }
        all_rows |= people != gathered.people;
        if let Some(key) = &organisation_key {
            let received = self.received(gathered, key)?;
            all_rows |= received != gathered.received;
            gathered.received = received;
        }
        gathered.stays = gathered.join();
        gathered.forget(changed, all_rows);
        Ok(())
    }

    /// When the server held the entries of revoked devices: it decides what their word is worth.
    fn received(
        &self,
        gathered: &Gathered,
        key: &PublicKey,
    ) -> Result<BTreeMap<EntryId, UtcMillis>, BookError> {
        let mut received = BTreeMap::new();
        let revoked =
            |device: &DeviceId| gathered.devices.get(device).is_some_and(|facts| facts.revoked_at.is_some());
        let entries = gathered.visits.values().flatten().map(|(entry, _)| entry);
        for entry in entries.filter(|entry| revoked(&entry.device)) {
            for bytes in self.store().receipts_of(entry.id)? {
                let at = Receipt::from_bytes(&bytes).ok().and_then(|receipt| receipt.check(key).ok());
                if let Some(at) = at {
                    let first = received.entry(entry.id).or_insert(at);
                    *first = at.min(*first);
                }
            }
        }
        Ok(received)
    }
}

impl Gathered {
    /// Drops what was remembered of stays that read one of the changed documents.
    fn forget(&mut self, changed: &[Subject], all_rows: bool) {
        let changed: BTreeSet<Subject> = changed.iter().copied().collect();
        let changed_visit = |stay: &[VisitId]| stay.iter().any(|v| changed.contains(&Subject::Visit(*v)));
        self.openings.borrow_mut().retain(|stay, _| !changed_visit(stay));
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

    fn file(&mut self, subject: Subject, entries: Vec<Kept>) {
        match subject {
            Subject::Visit(visit) => {
                // What another visit says of being one stay with this one counts where it was said.
                let own = entries.into_iter().filter(|(entry, _)| entry.body.about == subject).collect();
                self.visits.insert(visit, own);
            }
            Subject::Car(car) => {
                self.cars.insert(car, entries);
            }
            Subject::Site(site) => {
                let view = SiteView::fold(Some(site), entries.iter().map(|(entry, _)| entry));
                self.sites.insert(site, view);
            }
            Subject::Roster(_) => {
                let slots = Slots::fold(entries.iter().map(|(entry, _)| entry));
                for slot in slots.names_under("operator/") {
                    if let Some(Statement::Operator(person)) = slots.latest(slot).and_then(|i| i.claim) {
                        self.people.insert(person.operator.clone(), person.clone());
                    }
                }
            }
        }
    }

    fn join(&self) -> Vec<Vec<VisitId>> {
        let ids: Vec<VisitId> = self.visits.keys().copied().collect();
        let mut pairs = Vec::new();
        for (visit, entries) in &self.visits {
            let slots = Slots::fold(
                entries.iter().map(|(entry, _)| entry).filter(|entry| entry.body.slot.starts_with("joined/")),
            );
            for slot in slots.names_under("joined/") {
                if let Some(Statement::Joined { other }) = slots.settled(slot).and_then(|item| item.claim) {
                    pairs.push((*visit, *other));
                }
            }
        }
        view::stays(&ids, &pairs)
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
        if let Some(opened) = self.openings.borrow().get(stay) {
            return opened.clone();
        }
        let entries = self.entries_of(stay).map(|(_, entry)| entry);
        let slots = Slots::fold(entries.filter(|entry| entry.body.slot == "opened"));
        let opened = match slots.latest("opened").and_then(|item| item.claim) {
            Some(Statement::Opened(opened)) => Some(opened.clone()),
            _ => None,
        };
        self.openings.borrow_mut().insert(stay.to_vec(), opened.clone());
        opened
    }

    /// Whether the car was released.
    pub fn is_released(&self, stay: &[VisitId]) -> bool {
        let entries = self.entries_of(stay).map(|(_, entry)| entry);
        let slots = Slots::fold(entries.filter(|entry| entry.body.slot == "released"));
        slots.latest("released").is_some()
    }

    fn fold(
        &self,
        stay: &[VisitId],
        others: &[Brief],
        procedures: &Procedures,
        sketched: &[Entry],
        wanted: For,
    ) -> VisitView {
        let recorded: Vec<Recorded<'_>> = stay
            .iter()
            .flat_map(|visit| self.visits.get(visit).into_iter().flatten())
            .map(|(entry, receipted)| Recorded {
                entry,
                receipted: *receipted,
                received_at: self.received.get(&entry.id).copied(),
            })
            .chain(sketched.iter().map(Recorded::unsent))
            .collect();
        let opened = self.opened(stay);
        let car: Vec<&Entry> = opened
            .as_ref()
            .and_then(|opened| self.cars.get(&opened.car.id()))
            .map_or(Vec::new(), |entries| entries.iter().map(|(entry, _)| entry).collect());
        let context = Context {
            site: opened.as_ref().and_then(|opened| self.sites.get(&opened.site)),
            car: &car,
            devices: &self.devices,
            people: &self.people,
            // A device's chain is as long as its owner's years: walked for the record shown, not for each
            // row, which has no place to say it.
            chains: (wanted == For::View).then_some(&self.chains),
            compute: wanted == For::View,
            formulas: Some(&self.formulas),
            others,
            ..Context::at(self.now.unwrap_or(UtcMillis(0)), procedures)
        };
        view::fold(&recorded, &context)
    }

    /// One row per stay.
    pub fn rows(&self, procedures: &Procedures) -> Vec<Row> {
        self.stays.iter().map(|stay| self.row(stay, procedures)).collect()
    }

    fn row(&self, stay: &[VisitId], procedures: &Procedures) -> Row {
        if let Some(row) = self.finished.borrow().get(stay) {
            return row.clone();
        }
        let row = Row::of(&self.fold(stay, &[], procedures, &[], For::List));
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
