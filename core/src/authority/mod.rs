//! Authority: whether an entry counts. The decision follows from certificates and is the same on every
//! replica.
//!
//! A signature shows who made an entry; whether that device was permitted to make it is decided here and
//! nowhere else. Every fold (visit, car, site, roster, joins, index, gate) takes its entries as [`Judged`],
//! which only [`Authority`] creates. Entries that do not count are kept and shown with the reason, and have
//! no effect on any state. This module holds the table of rights, the verdicts and the people's keys. The
//! meaning of records is in `view`, the distribution of records in `sync`; certificates are issued by the
//! office.

mod judge;
mod names;
mod people;
mod table;
#[cfg(test)]
mod tests;
mod verdict;

use std::collections::{BTreeMap, BTreeSet};

pub use judge::{Judged, joins};
pub use names::NamesSaid;
pub use people::Named;
pub use table::{Act, ActRow, Homes, TABLE, rights_of};
pub use verdict::{Kept, NotYet, Verdict};

use crate::clock::UtcMillis;
use crate::entry::{Certificate, Entry, LastEntry, Right, Role, Trusts};
use crate::ids::{DeviceId, EntryId, SiteId};
use people::PersonKeys;

/// What this replica knows about the rights of devices and people.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Authority {
    /// Whether an organisation is known whose certificates decide.
    organisation: bool,
    /// Whether all certificates of the organisation are known, so that a device without one does not belong
    /// to it.
    complete: bool,
    devices: BTreeMap<DeviceId, Certificate>,
    /// The entries on a chain that ends with the last entry named in a certificate.
    vouched: BTreeSet<EntryId>,
    people: PersonKeys,
    now: Option<UtcMillis>,
}

/// What a certificate grants for one period of a device's life.
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
    /// Returns the authority of a replica that knows no organisation, such as a phone before its enrolment.
    /// Every entry counts, and nothing is checked.
    pub fn nobody() -> &'static Authority {
        &NOBODY
    }

    /// Creates the authority of an organisation from its certificates; the caller must have checked their
    /// signatures. `complete` states that these are all certificates, which the office knows; elsewhere one
    /// may still be missing.
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

    /// Does the same as [`Authority::of`] for signed certificates, and ignores those that the organisation's
    /// keys do not verify. Without an organisation the result is [`Authority::nobody`].
    pub fn read<'b>(
        organisation: Option<&dyn Trusts>,
        certificates: impl IntoIterator<Item = &'b [u8]>,
        complete: bool,
    ) -> Authority {
        let Some(key) = organisation else { return Authority::default() };
        let opened = certificates.into_iter().filter_map(|bytes| Certificate::open(bytes, key).ok());
        Authority::of(opened, complete)
    }

    /// Returns true if both reach the same verdict on every entry, apart from the present time.
    pub fn same_but_for_time(&self, other: &Authority) -> bool {
        (self.organisation, self.complete, &self.devices, &self.vouched, &self.people)
            == (other.organisation, other.complete, &other.devices, &other.vouched, &other.people)
    }

    /// Sets the present time. A claimed time after it is not credible.
    #[must_use]
    pub fn at(mut self, now: UtcMillis) -> Authority {
        self.now = Some(now);
        self
    }

    /// Adds the people's keys from the entries of the roster.
    #[must_use]
    pub fn with_roster<'e>(mut self, roster: impl IntoIterator<Item = Judged<'e>>) -> Authority {
        self.people = PersonKeys::of(roster);
        self
    }

    /// Returns the certificate of a device, if it is known.
    pub fn device(&self, device: &DeviceId) -> Option<&Certificate> {
        self.devices.get(device)
    }

    /// Returns true if, by its own clock, an entry was made before its device was enrolled. The entry counts
    /// nevertheless, because a phone may be used before it first contacts the office.
    pub fn was_made_before_enrolment(&self, entry: &Entry) -> bool {
        let made = entry.body.when.corrected();
        self.devices.get(&entry.device).is_some_and(|certificate| made < certificate.issued_at)
    }

    /// Returns all known certificates by device.
    pub fn devices(&self) -> &BTreeMap<DeviceId, Certificate> {
        &self.devices
    }

    /// Returns true if the device is known to be revoked, in which case the arrival times of its entries
    /// matter.
    pub fn is_revoked(&self, device: &DeviceId) -> bool {
        self.devices.get(device).is_some_and(|certificate| certificate.revoked_at.is_some())
    }

    /// Follows the chains of revoked and renewed devices backwards from the last entry named in their
    /// certificates, as far as the entries are present. The entries found this way existed before the
    /// revocation or renewal. `entries` should be all entries of the replica.
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

/// Returns the last entries that a certificate names: that of a revocation, and that of each earlier grant.
fn named_last(certificate: &Certificate) -> impl Iterator<Item = LastEntry> + '_ {
    certificate.last.into_iter().chain(certificate.earlier.iter().map(|earlier| earlier.last))
}
