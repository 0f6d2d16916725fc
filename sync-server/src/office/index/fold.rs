//! Folding one stay from the ledger: its entries, its car's document, its site, the people and devices.
//!
//! The index folds every stay once to find it again; a page folds the one it shows, so that what is
//! shown is never older than the ledger. What a record means is the core's view.

use std::collections::BTreeMap;

use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::car_number::CarNumber;
use farsiding_core::entry::site_facts::Operator;
use farsiding_core::entry::{Entry, Opened, PublicKey, Statement};
use farsiding_core::ids::{CarId, DeviceId, EntryId, OperatorId, SiteId, Subject, VisitId};
use farsiding_core::procedure::Procedures;
use farsiding_core::view::{
    self, Brief, Context, DeviceFacts, Formulas, Recorded, SiteView, Slots, VisitView,
};

use super::IndexError;
use super::ledger_reader::{Held, LedgerReader};

/// What folds of many stays have in common, read as it is needed.
#[derive(Debug)]
pub struct Surroundings<'r> {
    reader: &'r LedgerReader,
    procedures: &'r Procedures,
    formulas: &'r Formulas,
    devices: BTreeMap<DeviceId, DeviceFacts>,
    people: BTreeMap<OperatorId, Operator>,
    sites: BTreeMap<SiteId, SiteView>,
    now: UtcMillis,
}

/// The entries of a stay, laid out for folding.
#[derive(Debug)]
pub struct Stay {
    held: Vec<Held>,
    car: Vec<Held>,
    /// How it now says it was opened.
    pub opened: Option<Opened>,
}

impl Stay {
    /// Its entries, visit by visit, in order of arrival.
    pub fn entries(&self) -> impl Iterator<Item = &Entry> {
        self.held.iter().map(|held| &held.entry)
    }

    /// When each entry came in, where that is known.
    pub fn received(&self) -> BTreeMap<EntryId, UtcMillis> {
        self.held.iter().filter_map(|held| Some((held.entry.id, held.received_at?))).collect()
    }

    /// The car's document.
    pub fn car_id(&self) -> Option<CarId> {
        self.opened.as_ref().map(|opened| opened.car.id())
    }
}

/// How a set of a visit's entries says it was opened.
fn opened_of<'e>(entries: impl Iterator<Item = &'e Entry>) -> Option<Opened> {
    let slots = Slots::fold(entries.filter(|entry| entry.body.slot == "opened"));
    match slots.latest("opened").and_then(|item| item.claim) {
        Some(Statement::Opened(opened)) => Some(opened.clone()),
        _ => None,
    }
}

/// The visits a visit's entries say are the same stay.
pub fn joined_with<'e>(entries: impl Iterator<Item = &'e Entry>) -> Vec<VisitId> {
    let slots = Slots::fold(entries.filter(|entry| entry.body.slot.starts_with("joined/")));
    let named = slots.names_under("joined/");
    named
        .filter_map(|slot| match slots.settled(slot)?.claim? {
            Statement::Joined { other } => Some(*other),
            _ => None,
        })
        .collect()
}

impl<'r> Surroundings<'r> {
    /// Reads who the people and devices are.
    ///
    /// # Errors
    /// [`IndexError`], as for every call below.
    pub fn read(
        reader: &'r LedgerReader,
        key: &PublicKey,
        (procedures, formulas): (&'r Procedures, &'r Formulas),
        now: UtcMillis,
    ) -> Result<Surroundings<'r>, IndexError> {
        let mut people = BTreeMap::new();
        for roster in reader.rosters()? {
            let held = reader.entries_of(roster)?;
            people.extend(view::people(held.iter().map(|held| &held.entry)));
        }
        let devices = reader.devices(key)?;
        Ok(Surroundings { reader, procedures, formulas, devices, people, sites: BTreeMap::new(), now })
    }

    /// The devices of the organisation.
    pub const fn devices(&self) -> &BTreeMap<DeviceId, DeviceFacts> {
        &self.devices
    }

    /// A site.
    ///
    /// # Errors
    /// [`IndexError`].
    pub fn site(&mut self, site: SiteId) -> Result<&SiteView, IndexError> {
        if !self.sites.contains_key(&site) {
            let held = self.reader.entries_of(Subject::Site(site))?;
            let view = SiteView::fold(Some(site), held.iter().map(|held| &held.entry));
            self.sites.insert(site, view);
        }
        Ok(self.sites.entry(site).or_default())
    }

    /// Reads the entries of a stay and of its car.
    ///
    /// # Errors
    /// [`IndexError`].
    pub fn gather(&self, visits: &[VisitId]) -> Result<Stay, IndexError> {
        let mut held = Vec::new();
        for visit in visits {
            held.extend(self.reader.entries_of(Subject::Visit(*visit))?);
        }
        let opened = opened_of(held.iter().map(|held| &held.entry));
        let car = match &opened {
            Some(opened) => self.reader.entries_of(Subject::Car(opened.car.id()))?,
            None => Vec::new(),
        };
        Ok(Stay { held, car, opened })
    }

    /// Folds a stay, laid beside the others it may be mixed up with.
    ///
    /// # Errors
    /// [`IndexError`].
    pub fn fold(&mut self, stay: &Stay, others: &[Brief]) -> Result<VisitView, IndexError> {
        if let Some(opened) = &stay.opened {
            self.site(opened.site)?;
        }
        let site = stay.opened.as_ref().and_then(|opened| self.sites.get(&opened.site));
        // What the office holds is received: that is what being here means.
        let recorded: Vec<Recorded<'_>> = stay
            .held
            .iter()
            .map(|held| Recorded { entry: &held.entry, receipted: true, received_at: held.received_at })
            .collect();
        let car: Vec<&Entry> = stay.car.iter().map(|held| &held.entry).collect();
        let context = Context {
            site,
            car: &car,
            devices: &self.devices,
            people: &self.people,
            others,
            formulas: Some(self.formulas),
            ..Context::at(self.now, self.procedures)
        };
        Ok(view::fold(&recorded, &context))
    }
}

/// Letters and digits alone, upper case: how numbers are compared whatever was typed between them.
pub fn plain(text: &str) -> String {
    text.chars().filter(|c| c.is_alphanumeric()).flat_map(char::to_uppercase).collect()
}

/// A car's number as it is compared: its normal form without the space.
pub fn plain_car(text: &str) -> String {
    plain(&CarNumber(text.to_owned()).normal())
}
