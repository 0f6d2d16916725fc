//! What every store tells of scopes: that what it keeps along with entries equals a recount, for any history.
#![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]

use std::collections::{BTreeMap, BTreeSet};

use proptest::prelude::*;

use super::scope::counted_as;
use super::*;
use crate::clock::Stamp;
use crate::document::Document;
use crate::entry::car_number::CarNumber;
use crate::entry::vocabulary::{PhotoOf, PhotoRef, Receiver};
use crate::entry::{Body, Defect, DeviceKey, Opened, Statement};
use crate::ids::{CarId, DefectId, OperatorId, OrganisationId, SiteId, VisitId, VisitNonce};

const SITES: [SiteId; 3] = [SiteId([0xa; 16]), SiteId([0xb; 16]), SiteId([0xc; 16])];
const NONCE: VisitNonce = VisitNonce([5; 16]);

fn number(car: usize) -> CarNumber {
    CarNumber(format!("ZZQX {car}"))
}

/// Visits whose id proves a site and such whose does not, cars, sites and a roster.
fn documents() -> Vec<Subject> {
    let bound = |site| Subject::Visit(VisitId::at_site(site, NONCE));
    let mut all = vec![bound(SITES[0]), bound(SITES[1])];
    all.extend([7, 8, 9].map(|n| Subject::Visit(VisitId([n; 16]))));
    all.extend((0..2).map(|car| Subject::Car(number(car).id())));
    all.extend(SITES.map(Subject::Site));
    all.push(Subject::Roster(OrganisationId([1; 16])));
    all
}

/// What is written.
#[derive(Debug, Clone)]
enum Written {
    Remark(u8),
    Opened { car: usize, site: usize, nonce: bool },
    Photo(u8),
}

#[derive(Debug, Clone)]
enum Step {
    Entry(usize, Written),
    Change(usize, u8),
    Feed,
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
        3 => (0..scopes().len(), 1..60usize).prop_map(|(scope, bytes)| Step::Read(scope, bytes)),
    ]
}

fn scopes() -> Vec<Scope> {
    let of = |sites: &[usize]| Scope::Sites(sites.iter().map(|n| SITES[*n]).collect());
    vec![of(&[0]), of(&[1]), of(&[0, 1]), of(&[2]), of(&[]), Scope::Everything, Scope::Nothing]
}

fn entry(written: &Written) -> Entry {
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

fn seal(about: Subject, says: Statement) -> Entry {
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
    };
    Entry::seal(body, &DeviceKey::from_secret([1; 32])).unwrap()
}

/// Everything written, and what follows from it in the plainest words.
#[derive(Default)]
struct Recount {
    standing: BTreeMap<Subject, BTreeMap<EntryId, Entry>>,
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

    /// The sites a document belongs to; nothing for one that is everybody's.
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

    fn check(&self, store: &dyn Store) {
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

/// Plays a history on a store beside its recount.
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
        // The rows of a document that left are gone; whoever read them is answered from further back.
        assert!(left || store.scopes().newest_in(scope).unwrap() >= cursor);
        assert!(store.scopes().fed_after(scope, cursor, 1).unwrap().is_empty());
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]
    #[test]
    fn what_is_kept_along_equals_a_recount_and_readers_meet_all_of_their_sites(
        steps in prop::collection::vec(step(), 1..60),
    ) {
        play(&mut MemoryStore::new(), &steps);
        play(&mut SqliteStore::open(":memory:", Durability::WriteAheadLog).unwrap(), &steps);
    }
}

/// A database as schema 2 wrote it, from the same writes.
fn written_by_schema_2(path: &std::path::Path, rows: &[(Subject, &Entry)], changes: &[(Subject, &[u8])]) {
    let raw = rusqlite::Connection::open(path).unwrap();
    raw.execute_batch(include_str!("migrations/0001.sql")).unwrap();
    raw.execute_batch(include_str!("migrations/0002.sql")).unwrap();
    raw.pragma_update(None, "user_version", 2).unwrap();
    let mut tally = SetDigest::default();
    for (subject, entry) in rows {
        let new = raw
            .execute("INSERT OR IGNORE INTO entry(id, bytes) VALUES(?1, ?2)", (entry.id.0, entry.bytes()))
            .unwrap();
        if new == 1 {
            tally.add(entry.id);
        }
        let place = "INSERT INTO standing SELECT ?1, position FROM entry WHERE id = ?2";
        raw.execute(place, (subject.to_bytes(), entry.id.0)).unwrap();
    }
    for (subject, bytes) in changes {
        let hash = crate::document::CheckedChange::hash_of(bytes).unwrap();
        let sql = "INSERT INTO change(subject, hash, bytes, digest, held) VALUES(?1, ?2, ?3, ?4, 1)
                   ON CONFLICT(hash) DO UPDATE SET held = max(held, excluded.held)";
        raw.execute(sql, (subject.to_bytes(), hash.0, bytes, Digest::of(bytes).0)).unwrap();
    }
    let value = "INSERT INTO value(key, value) VALUES('store/tally', ?1)";
    raw.execute(value, [tally.to_bytes()]).unwrap();
}

#[test]
fn a_database_of_before_says_of_sites_what_a_fresh_one_says() {
    let folder = tempfile::tempdir().unwrap();
    let documents = documents();
    let written = [
        Written::Remark(1),
        Written::Opened { car: 0, site: 0, nonce: true },
        Written::Opened { car: 1, site: 1, nonce: false },
        Written::Photo(2),
    ];
    let entries: Vec<Entry> = written.iter().map(entry).collect();
    let rows: Vec<(Subject, &Entry)> =
        documents.iter().flat_map(|subject| entries.iter().map(|entry| (*subject, entry))).collect();
    let old = folder.path().join("old.db");
    written_by_schema_2(&old, &rows, &[]);
    let upgraded = SqliteStore::open(old.to_str().unwrap(), Durability::WriteAheadLog).unwrap();
    let fresh_path = folder.path().join("fresh.db");
    let mut fresh = SqliteStore::open(fresh_path.to_str().unwrap(), Durability::WriteAheadLog).unwrap();
    let mut recount = Recount::default();
    for (subject, entry) in rows {
        fresh.commit(&[Write::Entry { subject, entry }]).unwrap();
        recount.standing.entry(subject).or_default().insert(entry.id, entry.clone());
    }
    recount.check(&upgraded);
    recount.check(&fresh);
    let dump = |path: &std::path::Path| -> Vec<String> {
        let raw = rusqlite::Connection::open(path).unwrap();
        let sql = "SELECT hex(visit) || hex(car) || hex(site) || bound FROM opened_at
                   UNION ALL SELECT hex(subject) || hex(area) || fed FROM belonging
                   UNION ALL SELECT hex(area) || hex(tally) FROM area_tally
                   UNION ALL SELECT hex(sha256) || hex(subject) FROM photo_in
                   UNION ALL SELECT hex(area) || change FROM feed
                   UNION ALL SELECT coalesce(sql, name) FROM sqlite_schema ORDER BY 1";
        let mut statement = raw.prepare(sql).unwrap();
        statement.query_map([], |row| row.get(0)).unwrap().map(Result::unwrap).collect()
    };
    assert_eq!(dump(&old), dump(&fresh_path));
}

#[test]
fn a_change_that_was_dropped_under_its_second_document_is_put_back() {
    let folder = tempfile::tempdir().unwrap();
    let (visit, car) = (Subject::Visit(VisitId([7; 16])), Subject::Car(number(0).id()));
    let follows = seal(
        visit,
        Statement::Defect(Defect {
            defect: DefectId([1; 16]),
            fitting: None,
            what: "a bent handle".into(),
            needs_authority: false,
            photo: None,
        }),
    );
    let stays = entry(&Written::Remark(1));
    let mut document = Document::new([9; 16]).unwrap();
    let first = document.add(std::slice::from_ref(&follows)).unwrap().unwrap();
    let second = document.add(std::slice::from_ref(&stays)).unwrap().unwrap();
    let old = folder.path().join("old.db");
    let rows = [(visit, &follows), (car, &follows), (visit, &stays)];
    // As it was: the second offer of the first change left no row.
    written_by_schema_2(&old, &rows, &[(visit, &first), (car, &first), (visit, &second)]);
    let store = SqliteStore::open(old.to_str().unwrap(), Durability::WriteAheadLog).unwrap();
    let of_the_car = store.changes_of(car).unwrap().rows;
    assert_eq!(of_the_car.iter().map(|c| c.bytes.as_slice()).collect::<Vec<_>>(), [first.as_slice()]);
    assert_eq!(store.changes_of(visit).unwrap().rows.len(), 2, "and nothing else is");
    let waiting = store.changes_not_held(1 << 20).unwrap();
    assert_eq!(
        waiting.iter().map(|c| c.subject).collect::<Vec<_>>(),
        [car],
        "it is offered to the office again"
    );
    let newest = store.newest_position().unwrap();
    assert_eq!(of_the_car[0].position, newest, "whoever read up to here meets it");
    drop(store);
    let again = SqliteStore::open(old.to_str().unwrap(), Durability::WriteAheadLog).unwrap();
    assert_eq!(again.changes_of(car).unwrap().rows.len(), 1);
}
