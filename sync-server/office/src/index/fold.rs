//! Folding one stay from the ledger: its entries, its car's document, its site, the people and devices.
//!
//! The index folds every stay once to find it again; a page folds the one it shows, so that what is
//! shown is never older than the ledger. What a record means is the core's view.

use std::collections::{BTreeMap, BTreeSet};

use farsiding_core::authority::{Authority, Judged};
use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::site_facts::Operator;
use farsiding_core::entry::{Entry, Opened, PublicKey};
use farsiding_core::ids::{CarId, DeviceId, EntryId, OperatorId, SiteId, Subject, VisitId};
use farsiding_core::procedure::Procedures;
use farsiding_core::view::{
    self, Brief, Context, DeviceFacts, Formulas, HistoryLine, Recorded, SiteView, VisitView,
};

use super::IndexError;
use super::ledger_reader::{Held, LedgerReader};

/// What folds of many stays have in common, read as it is needed.
#[derive(Debug)]
pub struct Surroundings<'r> {
    pub(super) reader: &'r LedgerReader,
    procedures: &'r Procedures,
    formulas: &'r Formulas,
    authority: Authority,
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
    /// How many of its entries, and of what is known of its car, are here and cannot be read.
    pub unreadable: usize,
}

impl Stay {
    /// Its entries, visit by visit, in order of arrival.
    pub fn entries(&self) -> impl Iterator<Item = &Entry> {
        self.held.iter().map(|held| &held.entry)
    }

    /// Those that count.
    pub fn judged(&self, authority: &Authority) -> Vec<Judged<'_>> {
        authority.stay(self.held.iter().map(Held::received))
    }

    /// When each entry came in, where that is known.
    pub fn received(&self) -> BTreeMap<EntryId, UtcMillis> {
        self.held.iter().filter_map(|held| Some((held.entry.id, held.received_at?))).collect()
    }

    /// Leaves out what is about other visits: a word of another stay stands here too when the two were joined.
    pub fn keep_only(&mut self, visits: &[VisitId]) {
        self.held.retain(|held| match held.entry.body.about {
            Subject::Visit(visit) => visits.contains(&visit),
            _ => true,
        });
    }

    /// The car's document.
    pub fn car_id(&self) -> Option<CarId> {
        self.opened.as_ref().map(|opened| opened.car.id())
    }
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
        let authority = reader.authority(key, now)?;
        let mut held = Vec::new();
        for roster in reader.rosters()? {
            held.extend(reader.entries_of(roster)?);
        }
        let people = view::people(authority.roster(held.iter().map(Held::received)));
        let devices = authority.devices().iter().map(|(device, known)| (*device, known.into())).collect();
        let sites = BTreeMap::new();
        Ok(Surroundings { reader, procedures, formulas, authority, devices, people, sites, now })
    }

    /// Who may say what.
    pub const fn authority(&self) -> &Authority {
        &self.authority
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
            let view = SiteView::fold(Some(site), self.authority.site(held.iter().map(Held::received)));
            self.sites.insert(site, view);
        }
        Ok(self.sites.entry(site).or_default())
    }

    /// Reads the entries of a stay and of its car.
    ///
    /// # Errors
    /// [`IndexError`].
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
        Ok(Stay { held, car, opened, unreadable: unreadable.len() })
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
        let recorded: Vec<Recorded<'_>> = stay.held.iter().map(Held::recorded).collect();
        let car: Vec<Recorded<'_>> = stay.car.iter().map(Held::recorded).collect();
        let context = Context {
            site,
            authority: &self.authority,
            car: &car,
            devices: &self.devices,
            people: &self.people,
            others,
            unreadable: stay.unreadable,
            formulas: Some(self.formulas),
            ..Context::at(self.now, self.procedures)
        };
        Ok(view::fold(&recorded, &context))
    }
}

/// What the entries of one document say, each as a sentence, without computing anything.
///
/// # Errors
/// [`IndexError`].
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
        compute: false,
        ..Context::at(around.now, around.procedures)
    };
    let history = view::fold(&recorded, &context).history;
    Ok((opened, history.into_iter().map(|line| (line.said.entry, line)).collect()))
}
