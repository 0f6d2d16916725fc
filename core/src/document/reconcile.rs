//! Reconciliation of two copies of a document by the Automerge sync protocol.
//!
//! It is used when a cursor or a digest shows that the cheaper incremental sync has lost track, for example
//! after a phone or a server was restored from a backup. The answering side keeps no state between messages:
//! each message carries the sender's heads, needs and a summary of the changes it has. Incoming changes are
//! first decoded on a copy and checked one by one before they are applied.

use std::panic::{AssertUnwindSafe, catch_unwind};

use automerge::sync::{Message, State, SyncDoc};

use super::change::CheckedChange;
use super::{Document, DocumentError, extent};
use crate::ids::Subject;

/// What one side knows about the other within one reconciliation.
#[derive(Debug, Default, Clone)]
pub struct ReconcileState(State);

/// The changes that a message contained.
#[derive(Debug, Default)]
pub struct Reconciled {
    /// New changes that passed the check, in an order that can be applied.
    pub new: Vec<CheckedChange>,
    /// Refused changes with the reason. The caller puts them into quarantine.
    pub refused: Vec<(Vec<u8>, String)>,
}

impl Document {
    /// Returns the next message for the other side. Returns `None` when both sides are known to have the same
    /// heads, or when the other side's messages make an answer impossible; the documents are then exchanged
    /// whole.
    pub fn reconcile_message(&self, state: &mut ReconcileState) -> Option<Vec<u8>> {
        let attempt = catch_unwind(AssertUnwindSafe(|| self.automerge.generate_sync_message(&mut state.0)));
        attempt.ok().flatten().map(Message::encode)
    }

    /// Receives the other side's message. New changes are applied and returned, so that the caller can store
    /// them.
    ///
    /// # Errors
    /// [`DocumentError`] when the message cannot be read; the document is then unchanged.
    pub fn reconcile_receive(
        &mut self,
        state: &mut ReconcileState,
        message: &[u8],
        subject: Subject,
    ) -> Result<Reconciled, DocumentError> {
        let before = self.automerge.get_heads();
        extent::check_message(message)?;
        let attempt = catch_unwind(AssertUnwindSafe(|| {
            let message = Message::decode(message).map_err(|e| DocumentError::Unreadable(e.to_string()))?;
            let mut trial = self.automerge.clone();
            trial.receive_sync_message(&mut state.0, message).map_err(super::library)?;
            let changes = trial.get_changes(&before);
            Ok((trial, changes))
        }));
        let (trial, changes): (automerge::Automerge, Vec<automerge::Change>) = match attempt {
            Ok(Ok(read)) => read,
            Ok(Err(error)) => return Err(error),
            Err(_) => return Err(DocumentError::Unreadable("malformed beyond reading".to_owned())),
        };
        let mut outcome = Reconciled::default();
        for change in changes {
            let bytes = change.raw_bytes().to_vec();
            if self.automerge.get_change_meta_by_hash(&change.hash()).is_some() {
                continue;
            }
            match CheckedChange::check(&bytes, subject) {
                Ok(checked) => outcome.new.push(checked),
                Err(error) => outcome.refused.push((bytes, error.to_string())),
            }
        }
        if outcome.refused.is_empty() {
            self.automerge = trial;
            self.queue.note(outcome.new.iter().map(CheckedChange::change));
        } else {
            for checked in &outcome.new {
                self.apply(checked)?;
            }
        }
        Ok(outcome)
    }
}
