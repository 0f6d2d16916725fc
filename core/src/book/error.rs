//! The error type of the book.

use super::pin::PinError;
use crate::Message;
use crate::authority::Verdict;
use crate::document::DocumentError;
use crate::entry::EntryError;
use crate::store::StoreError;
use crate::sync::SyncError;

/// The reason why the book could not do as asked. The caller still has the input.
#[derive(Debug, thiserror::Error)]
pub enum BookError {
    /// The store failed.
    #[error(transparent)]
    Store(#[from] StoreError),
    /// A document could not be read or changed.
    #[error(transparent)]
    Document(#[from] DocumentError),
    /// An entry violates a rule for making entries, or cannot be encoded.
    #[error(transparent)]
    Entry(#[from] EntryError),
    /// Sync failed.
    #[error(transparent)]
    Sync(#[from] SyncError),
    /// The requested record is not on this device.
    #[error("there is no {0} on this device")]
    NotHere(String),
    /// This device lacks the right to make the entry.
    #[error("this was not recorded: {}", .0.refusal().unwrap_or("it would not count"))]
    MayNot(Verdict),
    /// Nobody was named as the person who makes the entry.
    #[error("say who you are first: an entry needs an operator")]
    NoOperator,
    /// The operation on a person's key or PIN failed.
    #[error(transparent)]
    Pin(#[from] PinError),
}

impl BookError {
    /// Returns what a person is told: what happened, and what to do about it.
    pub fn message(&self) -> Message {
        match self {
            BookError::Store(error) => error.message(),
            BookError::Document(error) => error.message(),
            BookError::Entry(error) => error.message(),
            BookError::Sync(error) => error.message(),
            BookError::NotHere(_) => Message::new("refusal-not-here"),
            BookError::MayNot(verdict) => verdict.refusal_message(),
            BookError::NoOperator => Message::new("refusal-no-operator"),
            BookError::Pin(error) => error.message(),
        }
    }
}
