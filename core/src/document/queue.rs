//! The queue that applies changes in an order Automerge accepts and drops those that can never be applied.
//!
//! Automerge holds back a change until the changes it builds on are present. It then assumes that the change
//! carries its actor's next sequence number and panics otherwise, so out-of-sequence changes are dropped
//! here. A change from an unmodified device builds on the actor's previous change, so its number is the next
//! one when its turn comes. The entries of a dropped change were checked individually and stand in the
//! store's entry table; [`Document::lacks_entries`] tells the caller that the next edit should add them
//! again. Only `document` uses this module.

use std::collections::{HashMap, HashSet};
use std::panic::{AssertUnwindSafe, catch_unwind};

use automerge::{ActorId, Automerge, Change};

use super::{Document, DocumentError, library};

/// The most passes over the waiting changes. Changes written by unmodified devices need one pass.
const MOST_PASSES: usize = 32;

/// Changes that wait for their predecessors, and the last sequence number applied for each actor.
#[derive(Debug, Clone, Default)]
pub(super) struct Queue {
    waiting: Vec<Change>,
    reached: HashMap<ActorId, u64>,
}

impl Queue {
    /// Records changes that the document holds already.
    pub(super) fn note<'a>(&mut self, changes: impl IntoIterator<Item = &'a Change>) {
        for change in changes {
            let reached = self.reached.entry(change.actor_id().clone()).or_default();
            *reached = change.seq().max(*reached);
        }
    }

    /// Returns true if any change is waiting.
    pub(super) fn waits(&self) -> bool {
        !self.waiting.is_empty()
    }

    /// Removes from the queue the changes that can be applied now, in an applicable order, and counts those
    /// dropped because they never can be.
    fn ready(&mut self, document: &Automerge) -> (Vec<Change>, usize) {
        // A change's first operation has a higher counter than those of the changes it builds on, so this
        // order puts predecessors first.
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
    /// Applies the given and the waiting changes as far as possible. The remaining ones stay queued or are
    /// dropped.
    ///
    /// # Errors
    /// [`DocumentError`] for the last change that could not be applied; all applicable changes are applied
    /// even then.
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

/// Returns a copy of the document with the changes applied. A copy is used because Automerge may leave a
/// document inconsistent when it panics.
fn applied(document: &Automerge, changes: Vec<Change>) -> Result<Automerge, DocumentError> {
    let mut trial = document.clone();
    let attempt = catch_unwind(AssertUnwindSafe(|| trial.apply_changes(changes).map_err(library)));
    attempt.map_err(|_| DocumentError::Library("a change cannot be applied".to_owned()))??;
    Ok(trial)
}
