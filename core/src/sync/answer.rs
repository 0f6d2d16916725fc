//! The outcome of a request, and what the answering side reads of whole documents.
//!
//! How rounds are decided, written together and answered is in `rounds`, and the call for a single request in
//! `answerer`.

use super::wire::{Surveyed, entries_digest};
use crate::Message;
use crate::document::Document;
use crate::entry::EntryError;
use crate::ids::{DeviceId, EntryId, Subject};
use crate::store::{Scope, Store, StoreError};

/// The reason why a request was not answered.
#[derive(Debug, thiserror::Error)]
pub enum AnswerError {
    /// The bytes are not a request.
    #[error("not a request of this protocol: {0}")]
    Unreadable(#[from] EntryError),
    /// No device that this organisation enrolled signed the request.
    #[error("this device is not enrolled with this organisation")]
    UnknownDevice,
    /// The device was revoked, so nothing is delivered to it.
    #[error("this device has been revoked")]
    Revoked,
    /// The request exceeds a limit or names the same item twice.
    #[error("it asks for too many {0} in one request, or for some of them twice")]
    TooMuch(&'static str),
    /// The store failed.
    #[error(transparent)]
    Store(#[from] StoreError),
}

impl AnswerError {
    /// Returns what the person at the device is told: what happened, and what to do about it.
    pub fn message(&self) -> Message {
        Message::new(match self {
            AnswerError::Unreadable(_) => "refusal-request-unreadable",
            AnswerError::UnknownDevice => "refusal-unknown-device",
            AnswerError::Revoked => "refusal-revoked",
            AnswerError::TooMuch(_) => "refusal-too-much",
            AnswerError::Store(error) => return error.message(),
        })
    }
}

/// The outcome of a request.
#[derive(Debug)]
pub struct Answer {
    /// The reply's bytes.
    pub reply: Vec<u8>,
    /// The device that sent the request.
    pub device: DeviceId,
    /// Whether that device was revoked.
    pub revoked: bool,
    /// Entries that were new to the ledger, each with its document.
    pub new: Vec<(Subject, EntryId)>,
    /// The number of changes and messages that were refused and put into quarantine.
    pub refused: usize,
    /// The device's clock minus the clock of the server's machine, in milliseconds.
    pub device_ahead_millis: i64,
    /// The numbers of entries and photographs that remain unsent on the device after this reply, by its own
    /// count.
    pub unsent: (u64, u64),
}

/// The name of the value that holds the version of the certificate list.
pub const CERTIFICATES_VERSION: &str = "certificates/version";

/// Loads a document from its stored changes for reconciling. The document makes no changes, so its actor id
/// does not matter.
pub(super) fn load(store: &dyn Store, subject: Subject) -> Result<Document, super::SyncError> {
    const NOBODY: [u8; 16] = [0xff; 16];
    let changes = store.changes_of(subject)?.rows;
    Ok(Document::load(NOBODY, changes.iter().map(|c| c.bytes.as_slice()))?)
}

/// Returns all documents of a scope, each with the digest of its entries.
pub(super) fn survey(store: &dyn Store, scope: &Scope) -> Result<Vec<Surveyed>, StoreError> {
    store
        .scopes()
        .subjects_in(scope)?
        .into_iter()
        .map(|subject| {
            let rows = store.entries_of(subject)?.rows;
            Ok(Surveyed { subject, digest: entries_digest(rows.iter().map(|r| &r.id)) })
        })
        .collect()
}
