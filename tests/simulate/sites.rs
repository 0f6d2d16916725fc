//! Phones that are given some sites alone, or nothing, and changes offered under every document they fit: what
//! happens to them, and what must hold.
//!
//! Here belongs what is of sites. What happens to every phone is in `world`, what must hold of those that are
//! given everything in `checks`.

use std::collections::BTreeSet;

use farsiding_core::clock::UtcMillis;
use farsiding_core::document::CheckedChange;
use farsiding_core::entry::{Certificate, DeviceKey, EarlierGrant, Entry, OrganisationKey, Role, Statement};
use farsiding_core::ids::{DeviceId, EntryId, OrganisationId, SiteId, Subject};
use farsiding_core::store::{Scope, Store};
use farsiding_core::sync::wire::{
    Change, LARGEST_BULK, ReplyBulk, ReplyHead, RequestBulk, RequestHead, open_bulk, parts, seal_request,
};

use crate::disk::Disk;
use crate::parties::{Office, entries_on};
use crate::recording::{SITES, say_of};
use crate::world::{Letter, World};

/// What a certificate gives a device since the office's people last thought of it.
#[derive(Debug, Clone)]
pub struct Given {
    pub role: Role,
    pub sites: Option<Vec<SiteId>>,
    pub renewed_at: UtcMillis,
    /// What it gave before.
    pub earlier: Vec<EarlierGrant>,
}

impl Given {
    /// What a device is given that is given everything, in this role.
    pub fn everything(role: Role, renewed_at: UtcMillis) -> Given {
        Given { role, sites: None, renewed_at, earlier: Vec::new() }
    }
}

/// The certificate that says so.
pub fn limited(certificate: Certificate, given: Option<&Given>, key: &OrganisationKey) -> Certificate {
    let Some(Given { role, sites, renewed_at, earlier }) = given.cloned() else { return certificate };
    let (issuer, renewed_at) = (Some(key.public()), Some(renewed_at));
    Certificate { issuer, role, sites, renewed_at, earlier, ..certificate }
}

impl Office {
    /// What a device may be told, by what the office's people last decided.
    pub fn scope_of(&self, device: DeviceId) -> Scope {
        let any = Certificate::by_role(OrganisationId([1; 16]), device, "any", Role::Operator, UtcMillis(0));
        Scope::of(&limited(any, self.given.get(&device), &self.key))
    }
}

/// The visits and cars that are of some sites, read plainly from all that was ever said.
fn of_sites(disk: &Disk, sites: &BTreeSet<SiteId>) -> BTreeSet<Subject> {
    disk.read(|store| {
        let mut of_them = BTreeSet::new();
        for visit in store.subjects().unwrap().into_iter().filter(|subject| subject.kind() == "visit") {
            for row in store.entries_of(visit).unwrap().rows {
                if let Statement::Opened(opened) = Entry::reopen(row.id, row.bytes).unwrap().body.says
                    && sites.contains(&opened.site)
                {
                    of_them.extend([visit, Subject::Car(opened.car.id())]);
                }
            }
        }
        of_them
    })
}

impl World {
    /// What a phone may be told.
    pub fn scope_of(&self, at: usize) -> Scope {
        self.office.scope_of(self.phones[at].device())
    }

    /// Whether a phone is given less than everything.
    pub fn is_limited(&self, at: usize) -> bool {
        self.scope_of(at) != Scope::Everything
    }

    /// The office gives a device other sites, none, or everything. The first phone keeps everything, and a
    /// revoked device stays as it was.
    pub fn give_sites(&mut self, at: usize) {
        let device = self.phones[at].device();
        if device == self.phones[0].device() || self.office.is_revoked(device) {
            return;
        }
        let everything = self.dice.once_in(4);
        let role = if self.dice.once_in(4) && !everything { Role::Inspector } else { Role::Operator };
        let sites = SITES.into_iter().filter(|_| self.dice.once_in(2)).collect();
        // Of two certificates the one issued last counts, so each is later than all before.
        let renewed_at = UtcMillis(i64::try_from(self.event).unwrap() + 1);
        let before = self.office.given.get(&device).cloned();
        let before = before.unwrap_or_else(|| Given::everything(Role::Operator, UtcMillis(0)));
        let mut earlier = before.earlier;
        if let Some(last) = self.office.last_of(device) {
            earlier.push(EarlierGrant { role: before.role, sites: before.sites, rights: None, last });
        }
        let given = Given { role, sites: (!everything).then_some(sites), renewed_at, earlier };
        self.note("given sites", || format!("phone {at}: {given:?}"));
        self.office.given.insert(device, given);
        while self.office.certify(device).is_err() {
            self.office.restart();
        }
    }

    /// Somebody says something of a site or of everybody.
    pub fn tell_of_a_site(&mut self, at: usize) {
        let subject = match self.dice.below(SITES.len() + 1) {
            0 => Subject::Roster(OrganisationId([1; 16])),
            n => Subject::Site(SITES[n - 1]),
        };
        if let Ok(ids) = say_of(&mut self.phones[at], subject, &mut self.dice) {
            self.note("told of a site", || format!("phone {at}: {subject}"));
            let event = self.event;
            self.acknowledged.extend(ids.into_iter().map(|id| (id, event)));
        }
    }

    /// Somebody with a phone's key offers a change the office has under every document it is valid in.
    pub fn offer_everywhere(&mut self, at: usize) {
        let changes = self.office.disk.read(|store| {
            let subjects = store.subjects().unwrap();
            let of = |subject: &Subject| store.changes_of(*subject).unwrap().rows;
            let some = subjects.iter().flat_map(of).map(|change| change.bytes).collect::<Vec<_>>();
            let Some(bytes) = some.get(self.dice.below(some.len())) else { return Vec::new() };
            let fits = |subject: &&Subject| CheckedChange::check(bytes, **subject).is_ok();
            let under = |subject: &Subject| Change { subject: *subject, bytes: bytes.clone() };
            subjects.iter().filter(fits).map(under).collect()
        });
        if changes.len() < 2 {
            return;
        }
        let phone = &self.phones[at];
        let number = phone.disk.read(|store| store.value("sync/number").unwrap());
        let number = number.and_then(|value| value.try_into().ok()).map_or(0, u64::from_be_bytes) + 1;
        let head = RequestHead {
            number,
            cursor: None,
            certificates: 0,
            at: self.office.now,
            bulk: None,
            statement: None,
        };
        let bulk = RequestBulk { changes, ..RequestBulk::default() };
        let bytes = seal_request(head, &bulk, &DeviceKey::from_secret(phone.secret)).unwrap();
        self.note("offered everywhere", || format!("phone {at}: {} documents", bulk.changes.len()));
        self.letters.push(Letter { phone: at, to_office: true, bytes, sound: true });
    }

    /// Nothing of other sites is ever told to a phone, in whatever part of an answer.
    pub fn check_told(&self, at: usize, reply: &[u8]) {
        let device = self.phones[at].device();
        let scope = self.office.scope_of(device);
        if scope == Scope::Everything {
            return;
        }
        let message = parts(reply).unwrap();
        let head = ReplyHead::open(&message.head, &self.office.key.public()).unwrap();
        let bulk: ReplyBulk = open_bulk(&message, head.bulk, LARGEST_BULK).unwrap();
        let told = bulk.changes.iter().chain(&bulk.messages).map(|change| change.subject);
        let told: BTreeSet<Subject> =
            told.chain(bulk.survey.iter().map(|surveyed| surveyed.subject)).collect();
        if let Scope::Sites(sites) = &scope
            && !told.is_empty()
        {
            let may = of_sites(&self.office.disk, sites);
            for subject in &told {
                let of_it = match subject {
                    Subject::Roster(_) => true,
                    Subject::Site(site) => sites.contains(site),
                    Subject::Visit(_) | Subject::Car(_) => may.contains(subject),
                };
                assert!(of_it, "phone {at}, of {scope:?}, was told of {subject}");
            }
        }
        if scope == Scope::Nothing {
            assert!(told.is_empty(), "phone {at} was told of {told:?}");
            assert!(bulk.certificates.is_none_or(|list| list.certificates.len() <= 1));
            assert_eq!(head.count, 0, "phone {at} was told how much there is");
        }
    }

    /// A phone of some sites holds of them exactly what the office holds, counts the same, and everything else
    /// it holds is at the office.
    pub fn check_limited(&self, at: usize) {
        let (scope, disk, office) = (self.scope_of(at), &self.phones[at].disk, &self.office.disk);
        let ours = disk.read(|store| store.scopes().subjects_in(&scope).unwrap());
        assert_eq!(
            ours,
            office.read(|store| store.scopes().subjects_in(&scope).unwrap()),
            "phone {at}, of {scope:?}, holds other documents than the office"
        );
        let entries = |disk: &Disk, subject| -> BTreeSet<EntryId> {
            disk.read(|store| store.entries_of(subject).unwrap().rows.into_iter().map(|row| row.id).collect())
        };
        for subject in &ours {
            assert_eq!(entries(disk, *subject), entries(office, *subject), "phone {at} differs in {subject}");
        }
        let tally = |disk: &Disk| disk.read(|store| store.scopes().tally_in(&scope).unwrap());
        assert_eq!(tally(disk), tally(office), "phone {at} counts otherwise than the office");
        let at_the_office = entries_on(office);
        for id in entries_on(disk) {
            let excused = self.may_be_gone.contains(&id) || self.held_outside(id);
            assert!(excused || at_the_office.contains(&id), "phone {at} has {id}, and the office has not");
        }
        let without = disk.read(|store| store.count_without_receipt().unwrap());
        assert_eq!(without, 0, "phone {at} has entries without a receipt");
    }

    /// Whether an entry may be gone because a phone holds it outside its sites: a server that was put back and
    /// told nobody is not found out there, since such entries are in no tally.
    pub fn held_outside(&self, id: EntryId) -> bool {
        let outside = |at: usize| {
            let scope = self.scope_of(at);
            let rows = |store: &dyn Store| {
                let standings = store.scopes().standings_of(id).unwrap();
                !standings.is_empty()
                    && standings.iter().any(|subject| !store.scopes().is_in(*subject, &scope).unwrap())
            };
            scope != Scope::Everything && self.phones[at].disk.read(rows)
        };
        !self.office.noticed && (0..self.phones.len()).any(outside)
    }
}
