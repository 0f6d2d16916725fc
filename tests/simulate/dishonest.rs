//! Dishonest parties of a simulation: a key nobody enrolled that records all the same, and whoever offers a change
//! under a document it was not made for.
//!
//! Nothing they say is promised to be kept; what must hold is that none of it counts, that honest replicas come to
//! the same, and that everybody's sync ends. See `counting` and `checks`.

use farsiding_core::book::{BookError, Draft};
use farsiding_core::document::CheckedChange;
use farsiding_core::ids::{OperatorId, Subject};
use farsiding_core::store::{MemoryStore, Store as _, Write};
use farsiding_core::sync::carry_out;

use crate::parties::Phone;
use crate::recording;
use crate::world::World;

impl World {
    /// The stranger takes in what a phone has, says something of it, and hands it to a phone, which may be a
    /// revoked one: that one brings it to the office.
    pub fn stranger_speaks(&mut self, from: usize) {
        let to = self.dice.below(self.phones.len());
        let Some(file) = whole_of(&self.phones[from]) else { return };
        let World { stranger, procedures, dice, .. } = self;
        let _ = stranger.book.carry_in(&file); // whether it reads what honest people say is the stranger's business
        let said = if dice.once_in(4) {
            let contact = recording::contact("555-0", dice);
            let by = OperatorId("op-0".into());
            stranger.book.append(Subject::Site(recording::SITES[0]), vec![Draft::of(contact)], &by)
        } else {
            recording::something(stranger, procedures, dice)
        };
        let Ok(said) = said else { return };
        let Some(file) = whole_of(stranger) else { return };
        let outcome = self.phones[to].book.carry_in(&file);
        self.note("stranger spoke", || format!("{said:?} to phone {to}: {outcome:?}"));
        if let Err(BookError::Store(_)) = outcome {
            self.revive();
        }
    }

    /// A change that somebody holds, offered to a phone under every other document it is valid in.
    pub fn offer_elsewhere(&mut self, from: usize) {
        let to = self.dice.below(self.phones.len());
        let changes = self.phones[from].disk.read(|store| {
            let subjects = store.subjects().unwrap();
            let of = |subject| store.changes_of(subject).unwrap().rows;
            subjects.into_iter().flat_map(of).map(|row| (row.subject, row.bytes)).collect::<Vec<_>>()
        });
        if changes.is_empty() {
            return;
        }
        let (home, bytes) = changes[self.dice.below(changes.len())].clone();
        let mut elsewhere: Vec<Subject> = changes.iter().map(|(subject, _)| *subject).collect();
        elsewhere.sort_unstable();
        elsewhere.dedup();
        elsewhere.retain(|subject| *subject != home && CheckedChange::check(&bytes, *subject).is_ok());
        for subject in elsewhere {
            let mut store = MemoryStore::new();
            let hash = CheckedChange::hash_of(&bytes).unwrap();
            store.commit(&[Write::Change { subject, hash, bytes: &bytes, held: false }]).unwrap();
            let file = carry_out(&store, &[subject], Vec::new()).unwrap();
            let outcome = self.phones[to].book.carry_in(&file).map(|report| report.received);
            self.note("offered elsewhere", || format!("{home} as {subject} to phone {to}: {outcome:?}"));
        }
    }
}

fn whole_of(phone: &Phone) -> Option<Vec<u8>> {
    let subjects = phone.book.store().subjects().ok()?;
    phone.book.carry_out(&subjects, Vec::new()).ok()
}
