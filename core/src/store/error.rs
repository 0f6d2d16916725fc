//! The error type of stores.
//!
//! All implementations share it; `sqlite` maps SQLite's errors to it.

use crate::Message;

/// The reason why the store failed. A [`super::Store::commit`] that fails has written nothing.
#[derive(Debug, thiserror::Error)]
pub enum StoreError {
    /// The database reported an error.
    #[error("the record store failed: {0}")]
    Database(String),
    /// The disk or the storage quota is full.
    #[error("there is no room left to record; free some space, nothing was lost")]
    Full,
    /// Another program has locked the file.
    #[error("another program is using the record store; close it and try again")]
    Busy,
    /// Nothing can be stored at the path: the folder does not exist, permission is missing, or the file is
    /// not a record store.
    #[error("records cannot be kept there: {0}")]
    NoPlace(String),
    /// A later version of Farsiding wrote the file.
    #[error("this record was written by a later version (schema {found}, this one knows {known})")]
    TooNew {
        /// The schema number found in the file.
        found: i64,
        /// The newest schema number that this version supports.
        known: i64,
    },
}

impl StoreError {
    /// Returns what a person is told: what happened, and what to do about it.
    pub fn message(&self) -> Message {
        Message::new(match self {
            StoreError::Database(_) => "refusal-store-failed",
            StoreError::Full => "refusal-store-full",
            StoreError::Busy => "refusal-store-busy",
            StoreError::NoPlace(_) => "refusal-store-no-place",
            StoreError::TooNew { .. } => "refusal-store-too-new",
        })
    }
}
