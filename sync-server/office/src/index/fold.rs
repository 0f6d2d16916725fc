//! Folds one stay from the ledger: its entries, its car's document, its site, and the people and devices.
//!
//! The index folds every stay once, for searches. A page folds the stay it shows, so that the page is never
//! older than the ledger. The core's view decides what a record means.

use std::collections::{BTreeMap, BTreeSet};

use farsiding_core::authority::{Authority, Judged};
use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::{Entry, Opened, PublicKey};
use farsiding_core::ids::{CarId, DeviceId, EntryId, OperatorId, SiteId, Subject, VisitId};
use farsiding_core::procedure::Procedures;
use farsiding_core::view::{
    self, Brief, Context, DeviceFacts, Editions, Formulas, HistoryLine, Person, Recorded, SiteView, VisitView,
};

use super::IndexError;
use super::ledger_reader::{Held, LedgerReader};

/// A cache of what the folds of many stays share, read from the ledger when needed.
#[derive(Debug)]
pub struct Surroundings<'r> {
    pub(super) reader: &'r LedgerReader,
    procedures: &'r Procedures,
    formulas: &'r Formulas,
    authority: Authority,
    devices: BTreeMap<DeviceId, DeviceFacts>,
    people: BTreeMap<OperatorId, Person>,
    editions: Editions,
    sites: BTreeMap<SiteId, SiteView>,
    now: UtcMillis,
}

/// The entries of a stay, prepared for folding.
#[derive(Debug)]
pub struct Stay {
    held: Vec<Held>,
    car: Vec<Held>,
    /// The entries of other visits on which the stay rests.
    track: Vec<Held>,
    /// The current statement of how the stay was opened.
    pub opened: Option<Opened>,
    /// The number of unreadable entries of the stay and of its car.
    pub unreadable: usize,
}

impl Stay {
    /// Returns the entries, visit by visit, in order of arrival.
    pub fn entries(&self) -> impl Iterator<Item = &Entry> {
        self.held.iter().map(|held| &held.entry)
    }

    /// Returns the entries that count.
    pub fn judged(&self, authority: &Authority) -> Vec<Judged<'_>> {
        authority.stay(self.held.iter().map(Held::received))
    }

    /// Returns the known times of arrival of the entries.
    pub fn received(&self) -> BTreeMap<EntryId, UtcMillis> {
        self.held.iter().filter_map(|held| Some((held.entry.id, held.received_at?))).collect()
    }

    /// Removes what concerns other visits. When two stays were joined, entries of the other stay are here as
    /// well.
    pub fn keep_only(&mut self, visits: &[VisitId]) {
        self.held.retain(|held| match held.entry.body.about {
            Subject::Visit(visit) => visits.contains(&visit),
            _ => true,
        });
    }

    /// Returns the car's document.
    pub fn car_id(&self) -> Option<CarId> {
        self.opened.as_ref().map(|opened| opened.car.id())
    }
}

impl<'r> Surroundings<'r> {
    /// Reads the people and the devices of the organisation.
    ///
    /// # Errors
    /// Returns an [`IndexError`] when the index or the ledger cannot be read.
    pub fn read(
        reader: &'r LedgerReader,
        key: &PublicKey,
        (procedures, formulas): (&'r Procedures, &'r Formulas),
        now: UtcMillis,
    ) -> Result<Surroundings<'r>, IndexError> {
        let authority = reader.authority(key, now)?;
        let mut held = Vec::new();
        for roster in reader.rosters()? {
            held.extend(reader.entries_of(roster)?);
        }
        let on_roster = authority.roster(held.iter().map(Held::received));
        let people = view::people(on_roster.iter().copied(), &reader.names()?);
        let editions = Editions::fold(on_roster, &Editions::default());
        let devices = authority.devices().iter().map(|(device, known)| (*device, known.into())).collect();
        let sites = BTreeMap::new();
        Ok(Surroundings { reader, procedures, formulas, authority, devices, people, editions, sites, now })
    }

    /// Returns the authority of the organisation, which decides who may say what.
    pub const fn authority(&self) -> &Authority {
        &self.authority
    }

    /// Returns the editions of procedures that the organisation published.
    pub const fn editions(&self) -> &Editions {
        &self.editions
    }

    /// Returns the organisation's devices.
    pub const fn devices(&self) -> &BTreeMap<DeviceId, DeviceFacts> {
        &self.devices
    }

    /// Returns a site, from the cache or from the ledger.
    ///
    /// # Errors
    /// Returns an [`IndexError`] when the index or the ledger cannot be read.
    pub fn site(&mut self, site: SiteId) -> Result<&SiteView, IndexError> {
        if !self.sites.contains_key(&site) {
            let held = self.reader.entries_of(Subject::Site(site))?;
            let view = SiteView::fold(Some(site), self.authority.site(held.iter().map(Held::received)));
            self.sites.insert(site, view);
        }
        Ok(self.sites.entry(site).or_default())
    }

    /// Reads the entries of a stay and of its car.
    ///
    /// # Errors
    /// Returns an [`IndexError`] when the index or the ledger cannot be read.
    pub fn gather(&self, visits: &[VisitId]) -> Result<Stay, IndexError> {
        let (mut held, mut unreadable) = (Vec::new(), BTreeSet::new());
        for visit in visits {
            let document = self.reader.document(Subject::Visit(*visit))?;
            held.extend(document.held);
            unreadable.extend(document.unreadable);
        }
        let opened = view::opened_of(&self.authority, held.iter().map(Held::received));
        let car = match &opened {
            Some(opened) => {
                let document = self.reader.document(Subject::Car(opened.car.id()))?;
                unreadable.extend(document.unreadable);
                document.held
            }
            None => Vec::new(),
        };
        let mut track = Vec::new();
        for visit in view::rested_on(held.iter().map(|held| &held.entry)) {
            if !visits.contains(&visit) {
                track.extend(self.reader.entries_of(Subject::Visit(visit))?);
            }
        }
        track.retain(|held| view::is_of_the_track(&held.entry));
        Ok(Stay { held, car, track, opened, unreadable: unreadable.len() })
    }

    /// Folds a stay and compares it with the other stays it may be confused with.
    ///
    /// # Errors
    /// Returns an [`IndexError`] when the index or the ledger cannot be read.
    pub fn fold(&mut self, stay: &Stay, others: &[Brief]) -> Result<VisitView, IndexError> {
        if let Some(opened) = &stay.opened {
            self.site(opened.site)?;
        }
        let site = stay.opened.as_ref().and_then(|opened| self.sites.get(&opened.site));
        let recorded: Vec<Recorded<'_>> = stay.held.iter().map(Held::recorded).collect();
        let car: Vec<Recorded<'_>> = stay.car.iter().map(Held::recorded).collect();
        let track: Vec<Recorded<'_>> = stay.track.iter().map(Held::recorded).collect();
        let context = Context {
            track: &track,
            site,
            authority: &self.authority,
            car: &car,
            devices: &self.devices,
            people: &self.people,
            editions: Some(&self.editions),
            others,
            unreadable: stay.unreadable,
            formulas: Some(self.formulas),
            ..Context::at(self.now, self.procedures)
        };
        Ok(view::fold(&recorded, &context))
    }
}

/// Returns the entries of one document as sentences, without computing anything.
///
/// # Errors
/// Returns an [`IndexError`] when the index or the ledger cannot be read.
pub fn sentences_of(
    around: &mut Surroundings<'_>,
    subject: Subject,
) -> Result<(Option<Opened>, BTreeMap<EntryId, HistoryLine>), IndexError> {
    let held = around.reader.entries_of(subject)?;
    let opened = view::opened_of(&around.authority, held.iter().map(Held::received));
    let site = match (&opened, subject) {
        (Some(opened), _) => Some(opened.site),
        (None, Subject::Site(site)) => Some(site),
        _ => None,
    };
    if let Some(site) = site {
        around.site(site)?;
    }
    let recorded: Vec<Recorded<'_>> = held.iter().map(Held::recorded).collect();
    let context = Context {
        authority: &around.authority,
        site: site.and_then(|site| around.sites.get(&site)),
        devices: &around.devices,
        people: &around.people,
        editions: Some(&around.editions),
        compute: false,
        ..Context::at(around.now, around.procedures)
    };
    let history = view::fold(&recorded, &context).history;
    Ok((opened, history.into_iter().map(|line| (line.said.entry, line)).collect()))
}
