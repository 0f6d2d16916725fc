//! What must hold: after every answer, and once everything is quiet.
//!
//! Exactly what may be missing: an entry that a phone put back from a copy, or an office put back from a
//! copy, alone held at that moment, and no other disk (phones that are revoked aside: nothing comes back
//! from them but what they had not sent). Everything else that a phone ever acknowledged is everywhere.
//! Two programs that went on from one copy with the same random numbers make changes that exclude each
//! other: then entries, tallies and views must be the same, and heads need not.

use std::collections::{BTreeMap, BTreeSet};

use farsiding_core::document::{CheckedChange, Document};
use farsiding_core::entry::Entry;
use farsiding_core::evidence::Receipt;
use farsiding_core::ids::{Digest, EntryId, Subject};
use farsiding_core::store::Store;
use farsiding_core::sync::proof_of;
use serde_json::Value;

use crate::disk::Disk;
use crate::parties::entries_on;
use crate::world::{World, photos_here};

/// The changes of each document with the entries each adds.
type Changes = BTreeMap<Subject, BTreeMap<Digest, Vec<EntryId>>>;

impl World {
    /// No receipt without its entry at the office, and none that does not hold.
    pub fn check_receipts(&self, at: usize) {
        let book = &self.phones[at].book;
        let (Ok(subjects), office) = (book.store().subjects(), &self.office) else { return };
        let known: BTreeSet<EntryId> = entries_on(&office.disk);
        for row in subjects.iter().flat_map(|s| book.store().entries_of(*s).unwrap().rows) {
            if row.receipted {
                assert!(
                    known.contains(&row.id) || office.lost.contains(&row.id),
                    "phone {at} has a receipt for {}, which the office never had",
                    row.id
                );
            }
        }
        let held: Vec<Digest> = {
            let photos = book.store().photos().unwrap();
            photos.into_iter().filter(|photo| photo.held).map(|photo| photo.sha256).collect()
        };
        let there = office.photos_here();
        for photo in held {
            assert!(
                there.contains(&photo) || office.lost_photos.contains(&photo),
                "phone {at} was told that {photo} is at the office"
            );
        }
    }

    /// Everything that must hold once everything is quiet.
    pub fn check(&mut self) {
        let live: Vec<usize> =
            (0..self.phones.len()).filter(|at| !self.office.is_revoked(self.phones[*at].device())).collect();
        let office = entries_on(&self.office.disk);
        for (id, event) in &self.acknowledged {
            assert!(
                office.contains(id) || self.may_be_gone.contains(id) || self.held_outside(*id),
                "{id}, acknowledged in event {event}, is not at the office, and nothing excuses that"
            );
        }
        let changes = changes_on(&self.office.disk);
        let standings = standings_on(&self.office.disk);
        for at in 0..self.phones.len() {
            self.check_receipts(at);
            let disk = &self.phones[at].disk;
            self.check_rows(at, disk);
            let own = entries_on(disk);
            if !live.contains(&at) {
                let unsent = own.difference(&office).find(|id| !self.may_be_gone.contains(id));
                let unsent = unsent.filter(|id| !self.office.lost.contains(id));
                assert_eq!(unsent, None, "a revoked phone's entry was not taken in");
                continue;
            }
            if self.is_limited(at) {
                self.check_limited(at);
                continue;
            }
            assert_eq!(own, office, "phone {at} holds other entries than the office");
            assert_eq!(standings_on(disk), standings, "phone {at} holds entries in other documents");
            assert_eq!(
                disk.read(|s| s.tally().unwrap()),
                self.office.disk.read(|s| s.tally().unwrap()),
                "phone {at} counts otherwise than the office"
            );
            if !self.twins {
                self.check_changes(at, &changes);
            }
            let without = disk.read(|s| s.count_without_receipt().unwrap());
            assert_eq!(without, 0, "phone {at} has entries without a receipt");
        }
        self.check_photos(&live);
        self.check_log(&live);
        self.check_who_counts(&live);
        // Records of one stay at two sites show their other half only to who has it.
        let of_everything: Vec<usize> = live.into_iter().filter(|at| !self.is_limited(*at)).collect();
        self.check_views(&of_everything);
    }

    /// Of each document a phone holds the changes the office holds, and then has the same heads. A change may be
    /// on one side alone where each of its entries stands in that document on the other side too, in another
    /// change: one entry is in two changes once somebody offered it a second time, and an office that was put back
    /// may be given it again by either. The two sides compare entries, so nobody misses such a change, and
    /// entries of what builds on it are put back by the next edit (see `Document::load`).
    fn check_changes(&self, at: usize, at_the_office: &Changes) {
        let ours = changes_on(&self.phones[at].disk);
        assert!(ours.keys().eq(at_the_office.keys()), "phone {at} holds other documents than the office");
        let (our_heads, their_heads) = (heads_on(&self.phones[at].disk), heads_on(&self.office.disk));
        for (subject, ours) in &ours {
            let theirs = &at_the_office[subject];
            if ours == theirs {
                assert_eq!(
                    our_heads[subject], their_heads[subject],
                    "phone {at} has other heads of {subject}"
                );
            }
            for (side, other) in [(ours, theirs), (theirs, ours)] {
                let there: BTreeSet<&EntryId> = other.values().flatten().collect();
                for (hash, entries) in side.iter().filter(|(hash, _)| !other.contains_key(hash)) {
                    let superfluous = entries.iter().all(|id| there.contains(id));
                    assert!(superfluous, "{hash} of {subject} is on phone {at} or at the office alone");
                }
            }
        }
    }

    /// Each row is what was signed, and document and entry table tell the same.
    fn check_rows(&self, at: usize, disk: &Disk) {
        disk.read(|store| {
            for subject in store.subjects().unwrap() {
                let rows = store.entries_of(subject).unwrap();
                assert!(rows.damaged.is_empty(), "phone {at}: damaged rows {:?}", rows.damaged);
                let ids: BTreeSet<EntryId> = rows.rows.iter().map(|row| row.id).collect();
                for row in &rows.rows {
                    let entry = Entry::open(&row.bytes);
                    assert!(entry.is_ok_and(|entry| entry.id == row.id), "phone {at} holds a forgery");
                    for bytes in store.receipts_of(row.id).unwrap() {
                        let receipt = Receipt::from_bytes(&bytes).unwrap();
                        let covers = receipt.entries.contains(&row.id);
                        assert!(covers && receipt.check(&self.office.key.public()).is_ok());
                    }
                }
                let document = document_of(store, subject);
                let in_document: BTreeSet<EntryId> = document.entry_ids().into_iter().collect();
                if document.lacks_entries() {
                    assert!(in_document.is_subset(&ids), "phone {at}: an entry that has no row");
                } else {
                    assert_eq!(in_document, ids, "phone {at}: document and entry table of {subject} differ");
                }
            }
        });
    }

    /// A photograph that an unrevoked phone has is at the office, whatever was put back from copies.
    fn check_photos(&self, live: &[usize]) {
        let there = self.office.photos_here();
        for at in live {
            for photo in photos_here(&self.phones[*at].disk) {
                // A server that cannot tell that it went back believes what it told of photographs.
                let excused = !self.office.noticed && self.office.lost_photos.contains(&photo);
                assert!(
                    excused || there.contains(&photo),
                    "phone {at} has the photograph {photo}, not the office"
                );
            }
        }
    }

    /// Every entry is proven to stand in the office's log, and nobody cries wolf: a log that was put back from
    /// a copy and declared so contradicts nothing.
    fn check_log(&self, live: &[usize]) {
        let key = self.office.key.public();
        for at in live {
            let book = &self.phones[*at].book;
            let standing = book.log_standing().unwrap().unwrap();
            if !self.office.noticed {
                continue; // put back and not declared: that is what alarms are for
            }
            assert!(standing.alarms.is_empty(), "phone {at} cries wolf: {:?}", standing.alarms);
            for id in entries_on(&self.phones[*at].disk) {
                let proof = proof_of(book.store(), id, &key).unwrap();
                assert!(proof.is_some(), "phone {at} has no proof that {id} is in the log");
            }
        }
    }

    /// The same record shows the same on every phone at the same time.
    fn check_views(&self, live: &[usize]) {
        let mut first: Option<(usize, BTreeMap<String, Value>)> = None;
        for at in live {
            let gathered = self.phones[*at].book.gather().unwrap();
            let subjects = self.phones[*at].book.store().subjects().unwrap();
            let mut views = BTreeMap::new();
            for subject in subjects {
                if let Subject::Visit(visit) = subject {
                    let view = gathered.view(visit, &self.procedures).unwrap();
                    let mut view = serde_json::to_value(view).unwrap();
                    if self.hangs_on_the_past() {
                        only_what_was_said(&mut view);
                    }
                    views.insert(visit.to_string(), view);
                }
            }
            if !self.hangs_on_the_past() {
                let sites: BTreeMap<String, _> =
                    gathered.sites.iter().map(|(id, s)| (id.to_string(), s)).collect();
                views.insert("sites".to_owned(), serde_json::to_value(sites).unwrap());
                let people: Vec<_> = gathered.people.values().collect();
                views.insert("people".to_owned(), serde_json::to_value(people).unwrap());
            }
            match &first {
                None => first = Some((*at, views)),
                Some((other, expected)) => {
                    for (visit, view) in &views {
                        if let Some(place) = expected.get(visit).and_then(|v| difference(v, view, visit)) {
                            panic!("phones {other} and {at} show otherwise: {place}");
                        }
                    }
                    assert_eq!(views.len(), expected.len());
                }
            }
        }
    }
}

fn document_of(store: &dyn Store, subject: Subject) -> Document {
    let changes = store.changes_of(subject).unwrap().rows;
    Document::load([9; 16], changes.iter().map(|c| c.bytes.as_slice())).unwrap()
}

fn changes_on(disk: &Disk) -> Changes {
    disk.read(|store| {
        let subjects = store.subjects().unwrap();
        let of = |subject| {
            let rows = store.changes_of(subject).unwrap().rows.into_iter();
            rows.map(|change| {
                let checked = CheckedChange::check(&change.bytes, subject).unwrap();
                (change.hash, checked.entries().iter().map(|entry| entry.id).collect())
            })
            .collect()
        };
        subjects.into_iter().map(|subject| (subject, of(subject))).collect()
    })
}

/// Each entry with each document it stands in.
fn standings_on(disk: &Disk) -> BTreeSet<(Subject, EntryId)> {
    disk.read(|store| {
        let subjects = store.subjects().unwrap();
        let of =
            |subject| store.entries_of(subject).unwrap().rows.into_iter().map(move |row| (subject, row.id));
        subjects.into_iter().flat_map(of).collect()
    })
}

fn heads_on(disk: &Disk) -> BTreeMap<Subject, Vec<Digest>> {
    disk.read(|store| {
        let subjects = store.subjects().unwrap();
        let heads = |s| document_of(store, s).heads();
        subjects.into_iter().map(|subject| (subject, heads(subject))).collect()
    })
}

/// A view without what depends on when the office held a revoked device's entries, see
/// [`World::hangs_on_the_past`].
fn only_what_was_said(view: &mut Value) {
    let mut lines: Vec<Value> = view["history"].take().as_array().cloned().unwrap_or_default();
    for line in &mut lines {
        let said = ["entry", "by", "device", "claimed"].map(|field| line["said"][field].take());
        *line = Value::Array(vec![line["slot"].take(), Value::from(said.to_vec())]);
    }
    lines.sort_by_key(Value::to_string);
    *view = Value::Array(lines);
}

/// Where two values differ first, and how.
fn difference(a: &Value, b: &Value, place: &str) -> Option<String> {
    match (a, b) {
        (Value::Object(a), Value::Object(b)) if a.keys().eq(b.keys()) => {
            a.iter().find_map(|(key, value)| difference(value, &b[key], &format!("{place}.{key}")))
        }
        (Value::Array(a), Value::Array(b)) if a.len() == b.len() => {
            a.iter().zip(b).enumerate().find_map(|(n, (a, b))| difference(a, b, &format!("{place}[{n}]")))
        }
        _ => (a != b).then(|| format!("{place}: {a} and {b}")),
    }
}
