//! Gathering what views are folded from: the records of a device, read once and laid side by side.
//!
//! Shells call [`super::Book::gather`] and ask the result for rows and views. Nothing is stored and
//! nothing is kept between calls; what a record means is the view's.

use std::collections::BTreeMap;

use super::{Book, BookError};
use crate::clock::UtcMillis;
use crate::entry::site_facts::Operator;
use crate::entry::{Certificate, Entry, Opened, PublicKey, Statement};
use crate::evidence::Receipt;
use crate::ids::{CarId, DeviceId, EntryId, OperatorId, SiteId, Subject, VisitId};
use crate::procedure::Procedures;
use crate::view::{self, Brief, Chains, Context, DeviceFacts, Recorded, Row, SiteView, Slots, VisitView};

/// An entry here, and whether a receipt covers it.
type Kept = (Entry, bool);

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
}

impl Book {
    /// Reads all records of this device.
    ///
    /// # Errors
    /// [`BookError`] when the store fails.
    pub fn gather(&self) -> Result<Gathered, BookError> {
        let mut gathered = Gathered { now: Some(self.stamp()?.corrected()), ..Gathered::default() };
        let organisation_key = self.organisation_key()?;
        if let Some(key) = &organisation_key {
            for (device, bytes) in self.store().certificates()? {
                if let Ok(certificate) = Certificate::open(&bytes, key) {
                    gathered.devices.insert(device, DeviceFacts::from(&certificate));
                }
            }
        }
        for subject in self.store().subjects()? {
            let (entries, damaged) = self.entries(subject)?;
            gathered.damaged.extend(damaged);
            for (entry, _) in &entries {
                gathered.chains.add(entry);
            }
            gathered.file(subject, entries);
        }
        if let Some(key) = &organisation_key {
            gathered.received = self.received(&gathered, key)?;
        }
        gathered.stays = gathered.join();
        Ok(gathered)
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
    fn file(&mut self, subject: Subject, entries: Vec<Kept>) {
        match subject {
            Subject::Visit(visit) => {
                self.visits.insert(visit, entries);
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
            let slots = Slots::fold(entries.iter().map(|(entry, _)| entry));
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
        let entries = self.entries_of(stay).map(|(_, entry)| entry);
        let slots = Slots::fold(entries.filter(|entry| entry.body.slot == "opened"));
        match slots.latest("opened").and_then(|item| item.claim) {
            Some(Statement::Opened(opened)) => Some(opened.clone()),
            _ => None,
        }
    }

    /// Whether the car was released.
    pub fn is_released(&self, stay: &[VisitId]) -> bool {
        let entries = self.entries_of(stay).map(|(_, entry)| entry);
        let slots = Slots::fold(entries.filter(|entry| entry.body.slot == "released"));
        slots.latest("released").is_some()
    }

    fn fold(&self, stay: &[VisitId], others: &[Brief], procedures: &Procedures) -> VisitView {
        let recorded: Vec<Recorded<'_>> = stay
            .iter()
            .flat_map(|visit| self.visits.get(visit).into_iter().flatten())
            .map(|(entry, receipted)| Recorded {
                entry,
                receipted: *receipted,
                received_at: self.received.get(&entry.id).copied(),
            })
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
            chains: Some(&self.chains),
            others,
            ..Context::at(self.now.unwrap_or(UtcMillis(0)), procedures)
        };
        view::fold(&recorded, &context)
    }

    /// One row per stay.
    pub fn rows(&self, procedures: &Procedures) -> Vec<Row> {
        self.stays.iter().map(|stay| Row::of(&self.fold(stay, &[], procedures))).collect()
    }

    /// The whole record of the stay a visit belongs to, laid beside the other stays known here.
    pub fn view(&self, visit: VisitId, procedures: &Procedures) -> Option<VisitView> {
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
            .filter_map(|other| self.fold(other, &[], procedures).brief)
            .collect();
        Some(self.fold(stay, &others, procedures))
    }
}
