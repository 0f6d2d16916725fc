//! The part of the store contract that concerns scopes: the incrementally kept indexes equal a recount, for
//! any history.
#![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]

use std::collections::{BTreeMap, BTreeSet};

use proptest::prelude::*;

use super::contract::{Engine, on};
use super::scope::counted_as;
use super::*;
use crate::clock::Stamp;
use crate::entry::car_number::CarNumber;
use crate::entry::vocabulary::{PhotoOf, PhotoRef, Receiver};
use crate::entry::{Body, DeviceKey, Opened, Statement};
use crate::ids::{CarId, OperatorId, OrganisationId, SiteId, VisitId, VisitNonce};

const SITES: [SiteId; 3] = [SiteId([0xa; 16]), SiteId([0xb; 16]), SiteId([0xc; 16])];
const NONCE: VisitNonce = VisitNonce([5; 16]);

pub(super) fn number(car: usize) -> CarNumber {
    CarNumber(format!("ZZQX {car}"))
}

/// Visits whose id proves a site, visits whose id does not, cars, sites and a roster.
pub(super) fn documents() -> Vec<Subject> {
    let bound = |site| Subject::Visit(VisitId::at_site(site, NONCE));
    let mut all = vec![bound(SITES[0]), bound(SITES[1])];
    all.extend([7, 8, 9].map(|n| Subject::Visit(VisitId([n; 16]))));
    all.extend((0..2).map(|car| Subject::Car(number(car).id())));
    all.extend(SITES.map(Subject::Site));
    all.push(Subject::Roster(OrganisationId([1; 16])));
    all
}

/// One step of a random history.
#[derive(Debug, Clone)]
pub(super) enum Written {
    Remark(u8),
    Opened { car: usize, site: usize, nonce: bool },
    Photo(u8),
}

#[derive(Debug, Clone)]
enum Step {
    Entry(usize, Written),
    Change(usize, u8),
    Feed,
    TakeOff(usize, usize),
    /// A reader reads a page.
    Read(usize, usize),
}

fn step() -> impl Strategy<Value = Step> {
    let count = documents().len();
    let written = prop_oneof![
        2 => (0..6u8).prop_map(Written::Remark),
        3 => (0..2usize, 0..3usize, any::<bool>())
            .prop_map(|(car, site, nonce)| Written::Opened { car, site, nonce }),
        1 => (0..3u8).prop_map(Written::Photo),
    ];
    prop_oneof![
        5 => (0..count, written).prop_map(|(document, written)| Step::Entry(document, written)),
        5 => (0..count, 0..20u8).prop_map(|(document, n)| Step::Change(document, n)),
        2 => Just(Step::Feed),
        1 => (0..count, 0..count).prop_map(|(first, second)| Step::TakeOff(first, second)),
        3 => (0..scopes().len(), 1..60usize).prop_map(|(scope, bytes)| Step::Read(scope, bytes)),
    ]
}

fn scopes() -> Vec<Scope> {
    let of = |sites: &[usize]| Scope::Sites(sites.iter().map(|n| SITES[*n]).collect());
    vec![of(&[0]), of(&[1]), of(&[0, 1]), of(&[2]), of(&[]), Scope::Everything, Scope::Nothing]
}

pub(super) fn entry(written: &Written) -> Entry {
    let says = match written {
        Written::Remark(n) => Statement::Remark { text: format!("remark {n}") },
        Written::Opened { car, site, nonce } => Statement::Opened(Opened {
            car: number(*car),
            site: SITES[*site],
            receiver: Receiver::FixedTank,
            procedure: Digest([3; 32]),
            spot: String::new(),
            nonce: nonce.then_some(NONCE),
        }),
        Written::Photo(n) => Statement::Photo {
            photo: PhotoRef { sha256: Digest([*n; 32]), length: 9, media: "image/jpeg".into() },
            of: PhotoOf::Seal,
            about: String::new(),
        },
    };
    seal(Subject::Visit(VisitId([7; 16])), says)
}

pub(super) fn seal(about: Subject, says: Statement) -> Entry {
    let body = Body {
        about,
        slot: says.slot(),
        says,
        follows: vec![],
        replaces: vec![],
        why: String::new(),
        by: OperatorId("op-1".into()),
        seq: 1,
        prev: None,
        when: Stamp { at: UtcMillis(0), offset_minutes: 0, ahead_millis: None },
        place: None,
        seen: None,
        hand: None,
        done: None,
        rests_on: None,
    };
    Entry::seal(body, &DeviceKey::from_secret([1; 32])).unwrap()
}

/// Everything written so far, from which the expected answers are computed in the simplest way.
#[derive(Default)]
pub(super) struct Recount {
    pub(super) standing: BTreeMap<Subject, BTreeMap<EntryId, Entry>>,
    changes: BTreeSet<(Subject, Digest)>,
}

impl Recount {
    fn openings(&self) -> Vec<(VisitId, CarId, SiteId)> {
        let mut openings = Vec::new();
        for (subject, entries) in &self.standing {
            let Subject::Visit(visit) = subject else { continue };
            let opened = entries.values().filter_map(|entry| match &entry.body.says {
                Statement::Opened(opened) => Some(opened),
                _ => None,
            });
            let proven =
                opened.clone().find(|o| o.nonce.is_some_and(|n| VisitId::at_site(o.site, n) == *visit));
            let counts = opened.filter(|o| proven.is_none_or(|proven| proven.site == o.site));
            openings.extend(counts.map(|o| (*visit, o.car.id(), o.site)));
        }
        openings
    }

    /// The sites that a document belongs to; `None` for a document that everybody receives.
    fn sites_of(&self, subject: Subject) -> Option<BTreeSet<SiteId>> {
        let openings = self.openings();
        match subject {
            Subject::Roster(_) => None,
            Subject::Site(site) => Some(BTreeSet::from([site])),
            Subject::Visit(visit) => {
                Some(openings.iter().filter(|(v, _, _)| *v == visit).map(|(_, _, site)| *site).collect())
            }
            Subject::Car(car) => {
                Some(openings.iter().filter(|(_, c, _)| *c == car).map(|(_, _, site)| *site).collect())
            }
        }
    }

    fn weight(&self, subject: Subject, scope: &Scope) -> usize {
        match scope {
            Scope::Everything => 1,
            Scope::Nothing => 0,
            Scope::Sites(sites) => self.sites_of(subject).map_or(1, |of| of.intersection(sites).count()),
        }
    }

    fn tally(&self, scope: &Scope) -> SetDigest {
        let mut tally = SetDigest::default();
        if *scope == Scope::Everything {
            let all: BTreeSet<EntryId> = self.standing.values().flat_map(|of| of.keys().copied()).collect();
            all.into_iter().for_each(|id| tally.add(id));
            return tally;
        }
        for (subject, entries) in &self.standing {
            for _ in 0..self.weight(*subject, scope) {
                entries.keys().for_each(|id| tally.add(counted_as(*subject, *id)));
            }
        }
        tally
    }

    pub(super) fn check(&self, store: &dyn Store) {
        let mut standings = SetDigest::default();
        for (subject, entries) in &self.standing {
            entries.keys().for_each(|id| standings.add(counted_as(*subject, *id)));
            assert_eq!(
                store.scopes().sites_of(*subject).unwrap(),
                self.sites_of(*subject).unwrap_or_default()
            );
            assert_eq!(store.entries_of(*subject).unwrap().rows.len(), entries.len());
        }
        assert_eq!(store.scopes().tally_of_standings().unwrap(), standings);
        assert_eq!(store.count_without_receipt().unwrap(), self.tally(&Scope::Everything).count);
        for (subject, hash) in &self.changes {
            assert!(store.has_change(*subject, *hash).unwrap());
        }
        for scope in scopes() {
            let rows = store.scopes();
            assert_eq!(rows.tally_in(&scope).unwrap(), self.tally(&scope), "{scope:?}");
            let mut subjects: Vec<Subject> =
                self.standing.keys().filter(|s| self.weight(**s, &scope) > 0).copied().collect();
            subjects.sort_by_key(|subject| subject.to_bytes());
            assert_eq!(rows.subjects_in(&scope).unwrap(), subjects, "{scope:?}");
            for photo in (0..3).map(|n| Digest([n; 32])) {
                let named = self.standing.iter().any(|(subject, entries)| {
                    let names = |entry: &Entry| {
                        matches!(&entry.body.says, Statement::Photo { photo: p, .. } if p.sha256 == photo)
                    };
                    self.weight(*subject, &scope) > 0 && entries.values().any(names)
                });
                assert_eq!(rows.names_photo(photo, &scope).unwrap(), named, "{scope:?}");
            }
        }
        for (subject, entries) in &self.standing {
            for id in entries.keys() {
                assert!(store.scopes().standings_of(*id).unwrap().contains(subject));
            }
        }
    }

    fn in_scope(&self, scope: &Scope) -> BTreeSet<(Subject, Digest)> {
        self.changes.iter().filter(|(subject, _)| self.weight(*subject, scope) > 0).copied().collect()
    }
}

/// Applies a history to a store and compares its answers with the recount.
fn play(store: &mut dyn Store, steps: &[Step]) {
    let documents = documents();
    let mut recount = Recount::default();
    let mut readers: Vec<(u64, Vec<(Subject, Digest)>)> = vec![(0, Vec::new()); scopes().len()];
    let mut left = false;
    let mut fed: BTreeSet<(Subject, Digest)> = BTreeSet::new();
    let finish = (0..scopes().len()).map(|scope| Step::Read(scope, usize::MAX));
    let steps: Vec<Step> = steps.iter().cloned().chain([Step::Feed]).chain(finish).collect();
    for step in &steps {
        match step {
            Step::Entry(document, written) => {
                let (subject, entry) = (documents[*document], entry(written));
                let before: Vec<_> = documents.iter().map(|d| recount.sites_of(*d)).collect();
                store.commit(&[Write::Entry { subject, entry: &entry }]).unwrap();
                recount.standing.entry(subject).or_default().insert(entry.id, entry);
                let after = documents.iter().map(|d| recount.sites_of(*d));
                left |= before.into_iter().zip(after).any(|pair| match pair {
                    (Some(before), Some(after)) => !before.is_subset(&after),
                    _ => false,
                });
            }
            Step::Change(document, n) => {
                // A document that has a change has an entry.
                let (subject, hash) = (documents[*document], Digest([*n; 32]));
                let first = entry(&Written::Remark(0));
                let bytes = vec![*n; usize::from(*n) + 1];
                store
                    .commit(&[
                        Write::Entry { subject, entry: &first },
                        Write::Change { subject, hash, bytes: &bytes, held: true },
                    ])
                    .unwrap();
                recount.standing.entry(subject).or_default().insert(first.id, first);
                recount.changes.insert((subject, hash));
            }
            Step::Feed => {
                store.commit(&[Write::Feed]).unwrap();
                fed = recount.changes.clone();
            }
            Step::TakeOff(first, second) => {
                let gone = [documents[*first], documents[*second]];
                store.commit(&[Write::TakeOff(&gone)]).unwrap();
                recount.standing.retain(|subject, _| !gone.contains(subject));
                recount.changes.retain(|(subject, _)| !gone.contains(subject));
                fed.retain(|(subject, _)| !gone.contains(subject));
                // A device's store has no readers, so nobody reads on where rows went away.
                readers.iter_mut().for_each(|reader| *reader = (0, Vec::new()));
                left = true;
            }
            Step::Read(at, bytes) => {
                let scope = &scopes()[*at];
                let (cursor, read) = &mut readers[*at];
                let page = store.scopes().fed_after(scope, *cursor, *bytes).unwrap();
                for Fed { position, change } in page {
                    assert!(position > *cursor, "positions rise");
                    *cursor = position;
                    assert!(
                        recount.weight(change.subject, scope) > 0,
                        "{scope:?} is told of {}",
                        change.subject
                    );
                    read.push((change.subject, change.hash));
                }
            }
        }
        recount.check(store);
    }
    assert_eq!(fed, recount.changes);
    for (scope, (cursor, read)) in scopes().iter().zip(readers) {
        let all: BTreeSet<(Subject, Digest)> = read.iter().copied().collect();
        assert!(recount.in_scope(scope).is_subset(&all), "{scope:?} was not told of everything");
        assert!(left || all.len() == read.len(), "{scope:?} was told of something twice");
        // The rows of a document that left the scope are gone, so the newest position may be below the
        // reader's cursor.
        assert!(left || store.scopes().newest_in(scope).unwrap() >= cursor);
        assert!(store.scopes().fed_after(scope, cursor, 1).unwrap().is_empty());
    }
}

/// What is kept along equals a recount, and readers meet all of their sites.
pub fn what_is_kept_along_equals_a_recount_and_readers_meet_all_of_their_sites(engine: &dyn Engine) {
    let config =
        ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(engine.histories()) };
    proptest!(config, |(steps in prop::collection::vec(step(), 1..60))| {
        on(&*engine.scratch(), &mut None, |store| play(store, &steps));
    });
}
