//! The error type of documents and their changes.

use super::LARGEST_CHANGE;
use crate::Message;
use crate::entry::EntryError;

/// The reason why a document or a change was refused.
#[derive(Debug, thiserror::Error)]
pub enum DocumentError {
    /// The bytes are not a change or message that Automerge can read.
    #[error("not a readable change: {0}")]
    Unreadable(String),
    /// The change does something other than add entries.
    #[error("the change does not only add entries: {0}")]
    NotGrowOnly(String),
    /// A map key is not the id of the entry stored under it.
    #[error("an entry stands under a key that is not its digest")]
    WrongKey,
    /// An entry within the change is invalid.
    #[error("an entry within the change does not hold: {0}")]
    Entry(#[from] EntryError),
    /// An entry is about another subject and may not stand in this document.
    #[error("an entry about something else stands in this document")]
    WrongDocument,
    /// The change is larger than any that Farsiding writes; the field is its size in bytes.
    #[error("the change has {0} bytes; {LARGEST_CHANGE} is the most")]
    TooLarge(usize),
    /// Two different changes have the same actor and sequence number, which happens after a device was
    /// copied.
    #[error("two different changes claim one place in a sequence: a device was restored or copied")]
    DuplicateSequence,
    /// Automerge returned an error or panicked.
    #[error("the document library refused: {0}")]
    Library(String),
}

impl DocumentError {
    /// Returns what a person is told: what happened, and what to do about it.
    pub fn message(&self) -> Message {
        Message::new(match self {
            DocumentError::Entry(error) => return error.message(),
            DocumentError::Unreadable(_) | DocumentError::Library(_) => "refusal-change-unreadable",
            DocumentError::NotGrowOnly(_)
            | DocumentError::WrongKey
            | DocumentError::WrongDocument
            | DocumentError::TooLarge(_) => "refusal-change-not-allowed",
            DocumentError::DuplicateSequence => "refusal-device-copied",
        })
    }
}
