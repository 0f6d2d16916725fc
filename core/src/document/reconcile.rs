//! Reconciling two copies of a document by the Automerge sync protocol, when a cursor or a digest
//! says that the cheap way has lost track (a restored phone, a restored server).
//!
//! The answering side keeps no state between messages: each message carries the sender's heads, its
//! needs and a summary of what it has. What comes in is tried on a copy and checked change by change
//! before it is let in.

use std::panic::{AssertUnwindSafe, catch_unwind};

use automerge::sync::{Message, State, SyncDoc};

use super::change::CheckedChange;
use super::{Document, DocumentError, extent};
use crate::ids::Subject;

/// One side's memory of the other within one reconciliation.
#[derive(Debug, Default, Clone)]
pub struct ReconcileState(State);

/// What a message brought.
#[derive(Debug, Default)]
pub struct Reconciled {
    /// Changes that were new here, checked, in an order that applies.
    pub new: Vec<CheckedChange>,
    /// Changes that were refused, with the reason; they are kept aside by the caller.
    pub refused: Vec<(Vec<u8>, String)>,
}

impl Document {
    /// The next message to the other side, or nothing when both are known to have the same heads (or none can
    /// be made, after what the other side sent: the documents are then exchanged whole).
    pub fn reconcile_message(&self, state: &mut ReconcileState) -> Option<Vec<u8>> {
        let attempt = catch_unwind(AssertUnwindSafe(|| self.automerge.generate_sync_message(&mut state.0)));
        attempt.ok().flatten().map(Message::encode)
    }

    /// Takes the other side's message. New changes are applied here and returned for storing.
    ///
    /// # Errors
    /// [`DocumentError`] when the message cannot be read; the document is then as before.
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
