//! Letting changes in, in an order that applies, and leaving out those that can never be.
//!
//! The library waits for what a change builds on, and then takes for granted that its number is its actor's
//! next: one that is not, whoever made it so, would end the program. An honest change builds on its actor's
//! last, so that its number is the next when its turn comes; one that jumps ahead is left out. Its entries were
//! checked one by one and stand in the entry table; [`Document::lacks_entries`] says that the next edit shall put
//! them back. Called by `document` alone.

use std::collections::{HashMap, HashSet};
use std::panic::{AssertUnwindSafe, catch_unwind};

use automerge::{ActorId, Automerge, Change};

use super::{Document, DocumentError, library};

/// How often what waits is gone through: once is enough for what honest devices wrote.
const MOST_PASSES: usize = 32;

/// Changes that wait for others, and how far each actor's were let in.
#[derive(Debug, Clone, Default)]
pub(super) struct Queue {
    waiting: Vec<Change>,
    reached: HashMap<ActorId, u64>,
}

impl Queue {
    /// Notes what the document holds already.
    pub(super) fn note<'a>(&mut self, changes: impl IntoIterator<Item = &'a Change>) {
        for change in changes {
            let reached = self.reached.entry(change.actor_id().clone()).or_default();
            *reached = change.seq().max(*reached);
        }
    }

    /// Whether anything waits.
    pub(super) fn waits(&self) -> bool {
        !self.waiting.is_empty()
    }

    /// Takes out what can be let in now, in order; and how many never can be.
    fn ready(&mut self, document: &Automerge) -> (Vec<Change>, usize) {
        // What builds on something begins behind it.
        self.waiting.sort_by_key(|change| (change.start_op(), change.hash()));
        let (mut ready, mut known, mut left_out) = (Vec::new(), HashSet::new(), 0);
        let mut reached = self.reached.clone();
        for _ in 0..MOST_PASSES {
            let before = ready.len() + left_out;
            for change in std::mem::take(&mut self.waiting) {
                let hash = change.hash();
                if known.contains(&hash) || document.get_change_meta_by_hash(&hash).is_some() {
                    continue;
                }
                let there = |hash| known.contains(hash) || document.get_change_meta_by_hash(hash).is_some();
                if !change.deps().iter().all(there) {
                    self.waiting.push(change);
                    continue;
                }
                let last = reached.entry(change.actor_id().clone()).or_default();
                if change.seq() > last.saturating_add(1) {
                    left_out += 1;
                    continue;
                }
                *last = change.seq().max(*last);
                known.insert(hash);
                ready.push(change);
            }
            if ready.len() + left_out == before || self.waiting.is_empty() {
                break;
            }
        }
        (ready, left_out)
    }
}

impl Document {
    /// Lets in what can be, now and of what waited before; the rest waits or is left out.
    ///
    /// # Errors
    /// [`DocumentError`] for the last one that could not be let in; the others are in all the same.
    pub(super) fn let_in(&mut self, changes: Vec<Change>) -> Result<(), DocumentError> {
        self.queue.waiting.extend(changes);
        let (ready, left_out) = self.queue.ready(&self.automerge);
        let mut outcome = Ok(());
        if left_out > 0 {
            outcome = Err(DocumentError::Library("a change jumps ahead of its actor's last".to_owned()));
        }
        if ready.is_empty() {
            return outcome;
        }
        if let Ok(trial) = applied(&self.automerge, ready.clone()) {
            self.automerge = trial;
            self.queue.note(&ready);
            return outcome;
        }
        for change in ready {
            match applied(&self.automerge, vec![change.clone()]) {
                Ok(trial) => {
                    self.automerge = trial;
                    self.queue.note([&change]);
                }
                Err(error) => outcome = Err(error),
            }
        }
        outcome
    }
}

/// A copy with the changes in it: the library leaves a document as it may be when it panics.
fn applied(document: &Automerge, changes: Vec<Change>) -> Result<Automerge, DocumentError> {
    let mut trial = document.clone();
    let attempt = catch_unwind(AssertUnwindSafe(|| trial.apply_changes(changes).map_err(library)));
    attempt.map_err(|_| DocumentError::Library("a change cannot be applied".to_owned()))??;
    Ok(trial)
}
