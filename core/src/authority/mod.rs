//! Authority: whether an entry counts, decided from certificates, the same on every replica.
//!
//! A signature shows who said something; whether they may say it is decided here and nowhere else. Every
//! fold (visit, car, site, roster, joins, index, gate) takes its entries as [`Judged`], which only
//! [`Authority`] makes. What does not count is kept, shown with the reason, and touches no state.
//! Lives here: the table, the verdict and the people's keys. Does not live here: what a record means (`view`),
//! who is sent what (`sync`), how certificates are issued (the office).

mod judge;
mod people;
mod table;
#[cfg(test)]
mod tests;
mod verdict;

use std::collections::{BTreeMap, BTreeSet};

pub use judge::{Judged, joins};
pub use people::Named;
pub use table::{Act, ActRow, Homes, TABLE, rights_of};
pub use verdict::{Kept, NotYet, Verdict};

use crate::clock::UtcMillis;
use crate::entry::{Certificate, Entry, LastEntry, Right, Role, Trusts};
use crate::ids::{DeviceId, EntryId, SiteId};
use people::PersonKeys;

/// What is known here of who may say what.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Authority {
    /// Whether an organisation is known here whose word decides.
    organisation: bool,
    /// Whether all its certificates are here, so that a device without one is no device of it.
    complete: bool,
    devices: BTreeMap<DeviceId, Certificate>,
    /// Entries found on the chain that ends with the last entry a certificate names.
    vouched: BTreeSet<EntryId>,
    people: PersonKeys,
    now: Option<UtcMillis>,
}

/// What a certificate gives at one moment of a device's life.
#[derive(Clone, Copy, Debug)]
struct Grant<'a> {
    role: Role,
    sites: Option<&'a [SiteId]>,
    rights: Option<&'a [Right]>,
}

impl Grant<'_> {
    fn gives(&self, right: Right) -> bool {
        self.rights.unwrap_or(rights_of(self.role)).contains(&right)
    }

    fn covers(&self, site: &SiteId) -> bool {
        self.sites.is_none_or(|sites| sites.contains(site))
    }
}

static NOBODY: Authority = Authority {
    organisation: false,
    complete: false,
    devices: BTreeMap::new(),
    vouched: BTreeSet::new(),
    people: PersonKeys::NONE,
    now: None,
};

impl Authority {
    /// Where no organisation is known: whatever is here counts here, and nothing is checked. A phone before
    /// it was enrolled.
    pub fn nobody() -> &'static Authority {
        &NOBODY
    }

    /// The authority of an organisation by its certificates, of which the caller has checked the signatures.
    /// `complete` says that all of them are here, as at the office; elsewhere one may still be on its way.
    pub fn of(certificates: impl IntoIterator<Item = Certificate>, complete: bool) -> Authority {
        let mut devices: BTreeMap<DeviceId, Certificate> = BTreeMap::new();
        for certificate in certificates {
            match devices.entry(certificate.device) {
                std::collections::btree_map::Entry::Vacant(place) => {
                    place.insert(certificate);
                }
                std::collections::btree_map::Entry::Occupied(mut place) => {
                    if certificate.supersedes(place.get()) {
                        place.insert(certificate);
                    }
                }
            }
        }
        Authority { organisation: true, complete, devices, ..Authority::default() }
    }

    /// As [`Authority::of`], from certificates as signed: what does not hold under the organisation's key says
    /// nothing. Nobody's where no organisation is known.
    pub fn read<'b>(
        organisation: Option<&dyn Trusts>,
        certificates: impl IntoIterator<Item = &'b [u8]>,
        complete: bool,
    ) -> Authority {
        let Some(key) = organisation else { return Authority::default() };
        let opened = certificates.into_iter().filter_map(|bytes| Certificate::open(bytes, key).ok());
        Authority::of(opened, complete)
    }

    /// Whether it says the same of every entry, the time aside.
    pub fn same_but_for_time(&self, other: &Authority) -> bool {
        (self.organisation, self.complete, &self.devices, &self.vouched, &self.people)
            == (other.organisation, other.complete, &other.devices, &other.vouched, &other.people)
    }

    /// What it takes for the present: a time later than this wins nothing.
    #[must_use]
    pub fn at(mut self, now: UtcMillis) -> Authority {
        self.now = Some(now);
        self
    }

    /// Takes the people's keys from the entries of the roster.
    #[must_use]
    pub fn with_roster<'e>(mut self, roster: impl IntoIterator<Item = Judged<'e>>) -> Authority {
        self.people = PersonKeys::of(roster);
        self
    }

    /// Whether a certificate of the device is known here.
    pub fn device(&self, device: &DeviceId) -> Option<&Certificate> {
        self.devices.get(device)
    }

    /// Whether an entry's own clock says that it was made before its device was enrolled. It counts all the
    /// same: a phone may be used before it meets its office.
    pub fn was_made_before_enrolment(&self, entry: &Entry) -> bool {
        let made = entry.body.when.corrected();
        self.devices.get(&entry.device).is_some_and(|certificate| made < certificate.issued_at)
    }

    /// The certificates known here.
    pub fn devices(&self) -> &BTreeMap<DeviceId, Certificate> {
        &self.devices
    }

    /// Whether some device known here was revoked, so that it matters when its entries came in.
    pub fn is_revoked(&self, device: &DeviceId) -> bool {
        self.devices.get(device).is_some_and(|certificate| certificate.revoked_at.is_some())
    }

    /// Walks back the chains of revoked and renewed devices from the last entry their certificate names, as
    /// far as they are here: what is found there was there before. Give it all entries that are here.
    #[must_use]
    pub fn vouching<'e>(mut self, entries: impl IntoIterator<Item = &'e Entry>) -> Authority {
        let lasts: Vec<LastEntry> = self.devices.values().flat_map(named_last).collect();
        if lasts.is_empty() {
            return self;
        }
        let concerned = |entry: &&Entry| {
            self.devices
                .get(&entry.device)
                .is_some_and(|certificate| named_last(certificate).next().is_some())
        };
        let before: BTreeMap<EntryId, Option<EntryId>> =
            entries.into_iter().filter(concerned).map(|entry| (entry.id, entry.body.prev)).collect();
        for last in lasts {
            let mut here = Some(last.entry);
            while let Some(id) = here.take() {
                if let Some(prev) = before.get(&id)
                    && self.vouched.insert(id)
                {
                    here = *prev;
                }
            }
        }
        self
    }
}

/// The last entries a certificate names: of a revocation, and of each grant it had before.
fn named_last(certificate: &Certificate) -> impl Iterator<Item = LastEntry> + '_ {
    certificate.last.into_iter().chain(certificate.earlier.iter().map(|earlier| earlier.last))
}
