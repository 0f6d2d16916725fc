//! Whose word may count: no entry of a stranger, of a device after its revocation, of a device for other sites, or of
//! one that may only read takes part in what a phone shows.
//!
//! Told here by what the simulation itself saw happen, not by the core's own rules, which are what is tried. What
//! must hold besides is in `checks`.

use std::collections::{BTreeMap, BTreeSet};

use farsiding_core::entry::{Entry, Role, Statement};
use farsiding_core::ids::{EntryId, SiteId, Subject, VisitId};
use farsiding_core::store::{Scope, Store};
use farsiding_core::view::{Fate, SiteView};

use crate::recording::TELEPHONE;
use crate::sites::Given;
use crate::world::World;

/// What one phone holds, document by document.
type Held = BTreeMap<Subject, Vec<Entry>>;

impl World {
    /// On every honest phone, nothing that may not count is counted, in any document; and those who keep the same
    /// site say the same of it.
    pub fn check_who_counts(&self, live: &[usize]) {
        let mut sites: BTreeMap<SiteId, (usize, SiteView)> = BTreeMap::new();
        for at in live {
            let phone = &self.phones[*at];
            // To a device that is given nothing, no word comes that others were revoked or have other sites.
            let scope = self.scope_of(*at);
            let told = scope != Scope::Nothing;
            let held = held_by(phone.book.store());
            let gathered = phone.book.gather().unwrap();
            let vouched = self.vouched(&held);
            // What is known of a car stands in two documents, and is judged for each.
            let mut none: BTreeMap<(Subject, EntryId), String> = BTreeMap::new();
            for (subject, entries) in &held {
                let sites = self.sites_named(*subject, entries);
                for entry in entries {
                    if let Some(why) = self.why_not(*subject, entry, &sites, &vouched)
                        && (told || !self.is_enrolled(entry))
                    {
                        none.insert((*subject, entry.id), why);
                    }
                }
                let received = entries.iter().map(|entry| (entry, gathered.received(entry)));
                for judged in gathered.authority().document(*subject, received) {
                    let id = judged.entry().id;
                    let why = none.get(&(*subject, id)).filter(|_| judged.verdict().counts());
                    assert_eq!(why, None, "phone {at} counts {id} in {subject}");
                }
            }
            for stay in gathered.stays() {
                let view = gathered.view(stay[0], &self.procedures).unwrap();
                let shown = view.history.iter().filter(|line| line.fate != Fate::Kept);
                let shown: BTreeSet<EntryId> = shown.map(|line| line.said.entry).collect();
                for (visit, entry) in gathered.entries_of(stay).filter(|(_, e)| shown.contains(&e.id)) {
                    let why = none.get(&(Subject::Visit(visit), entry.id));
                    assert_eq!(why, None, "phone {at} shows {} of {visit} as counting", entry.id);
                }
            }
            if told && !self.hangs_on_the_past() {
                let kept = held
                    .keys()
                    .filter(|subject| phone.book.store().scopes().is_in(**subject, &scope).unwrap());
                for subject in kept {
                    let Subject::Site(site) = subject else { continue };
                    let ours = (*at, gathered.sites[site].clone());
                    let (other, theirs) = sites.entry(*site).or_insert_with(|| ours.clone());
                    assert_eq!(*theirs, ours.1, "phones {other} and {at} say otherwise of {site}");
                }
            }
            for contact in gathered.sites.values().flat_map(|site| &site.contacts) {
                let telephone = &contact.telephone;
                assert!(telephone.starts_with(TELEPHONE), "phone {at} says to call {telephone}");
            }
        }
    }

    /// Whether what counts may hang on which phone was there when. Where the office lost and got back entries of a
    /// device that is revoked, phones that were there before know an earlier time than those that came after.
    pub fn hangs_on_the_past(&self) -> bool {
        let revoked = self.office.devices.iter().any(|(_, revoked)| revoked.is_some());
        revoked && !self.office.lost.is_empty()
    }

    /// Entries that a revoked device made before the last one the office had of it, by the device's own chain.
    fn vouched(&self, held: &Held) -> BTreeSet<EntryId> {
        let before: BTreeMap<EntryId, Option<EntryId>> =
            held.values().flatten().map(|entry| (entry.id, entry.body.prev)).collect();
        let earlier = self.office.given.values().flat_map(|given| &given.earlier).map(|earlier| earlier.last);
        let mut vouched = BTreeSet::new();
        for last in self.office.lasts.values().copied().chain(earlier) {
            let mut next = Some(last.entry);
            while let Some(id) = next.filter(|id| vouched.insert(*id)) {
                next = before.get(&id).copied().flatten();
            }
        }
        vouched
    }

    /// The sites at which a stay may be, at the most: the one its id was made from, or those named by devices that
    /// are for them; and what devices for one of these corrected it to.
    fn sites_named(&self, subject: Subject, entries: &[Entry]) -> BTreeSet<SiteId> {
        let Subject::Visit(visit) = subject else { return BTreeSet::new() };
        let openings: Vec<_> = entries
            .iter()
            .filter(|entry| entry.body.about == subject)
            .filter_map(|entry| match &entry.body.says {
                Statement::Opened(opened) => Some((entry, opened)),
                _ => None,
            })
            .collect();
        let proven = openings.iter().map(|(_, opened)| opened).find_map(|opened| {
            opened.nonce.filter(|nonce| VisitId::at_site(opened.site, *nonce) == visit).map(|_| opened.site)
        });
        let begun: BTreeSet<SiteId> = match proven {
            Some(site) => BTreeSet::from([site]),
            None => {
                let there =
                    openings.iter().filter(|(entry, opened)| self.is_for(entry, &[opened.site].into()));
                there.map(|(_, opened)| opened.site).collect()
            }
        };
        let corrected = openings.iter().filter(|(entry, _)| self.is_for(entry, &begun));
        corrected.map(|(_, opened)| opened.site).chain(begun.iter().copied()).collect()
    }

    fn is_enrolled(&self, entry: &Entry) -> bool {
        self.office.devices.iter().any(|(device, _)| *device == entry.device)
    }

    /// What a device was ever given that an entry of it may stand on.
    fn given_for(&self, entry: &Entry) -> Vec<(Role, Option<Vec<SiteId>>)> {
        let Some(given) = self.office.given.get(&entry.device) else {
            return self.is_enrolled(entry).then_some((Role::Operator, None)).into_iter().collect();
        };
        let Given { role, sites, earlier, .. } = given.clone();
        let before = earlier.into_iter().filter(|earlier| entry.body.seq <= earlier.last.seq);
        std::iter::once((role, sites)).chain(before.map(|earlier| (earlier.role, earlier.sites))).collect()
    }

    /// Whether the signer of an entry may record at one of some sites.
    fn is_for(&self, entry: &Entry, sites: &BTreeSet<SiteId>) -> bool {
        self.given_for(entry).into_iter().any(|(role, of)| {
            role != Role::Inspector && of.is_none_or(|of| of.iter().any(|site| sites.contains(site)))
        })
    }

    /// Why an entry may not count; nothing where it may.
    fn why_not(
        &self,
        subject: Subject,
        entry: &Entry,
        sites: &BTreeSet<SiteId>,
        vouched: &BTreeSet<EntryId>,
    ) -> Option<String> {
        let office = &self.office;
        let Some((_, revoked)) = office.devices.iter().find(|(device, _)| *device == entry.device) else {
            return Some("a key that nobody enrolled signed it".to_owned());
        };
        if let Some(revoked) = revoked {
            let before = office.first_had.get(&entry.id).is_some_and(|first| first < revoked);
            if !before && !vouched.contains(&entry.id) && !office.doubtful.contains(&entry.device) {
                return Some("it came after its device was revoked".to_owned());
            }
        }
        let given = self.given_for(entry);
        match subject {
            Subject::Visit(_) if !self.is_for(entry, sites) => {
                Some(format!("its device is for {given:?}, and the stay is at {sites:?}"))
            }
            Subject::Site(_) | Subject::Roster(_) if given.iter().all(|(role, _)| *role != Role::Office) => {
                Some("the office alone says so".to_owned())
            }
            Subject::Car(_) if given.iter().all(|(role, _)| *role == Role::Inspector) => {
                Some("its device may read and no more".to_owned())
            }
            _ => None,
        }
    }
}

/// What a store holds. In a visit's document, what was said in that visit.
fn held_by(store: &dyn Store) -> Held {
    let mut held = Held::new();
    for subject in store.subjects().unwrap() {
        let rows = store.entries_of(subject).unwrap().rows.into_iter();
        let mut entries: Vec<Entry> = rows.map(|row| Entry::reopen(row.id, row.bytes).unwrap()).collect();
        if matches!(subject, Subject::Visit(_)) {
            entries.retain(|entry| entry.body.about == subject);
        }
        held.insert(subject, entries);
    }
    held
}
