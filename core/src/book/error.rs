//! Why a book could not do as asked.

use super::pin::PinError;
use crate::document::DocumentError;
use crate::entry::EntryError;
use crate::store::StoreError;
use crate::sync::SyncError;

/// Why the book could not do as asked. Whatever was typed is still with the caller.
#[derive(Debug, thiserror::Error)]
pub enum BookError {
    /// The store failed.
    #[error(transparent)]
    Store(#[from] StoreError),
    /// A document failed.
    #[error(transparent)]
    Document(#[from] DocumentError),
    /// An entry breaks a rule for making it.
    #[error(transparent)]
    Entry(#[from] EntryError),
    /// Sync failed.
    #[error(transparent)]
    Sync(#[from] SyncError),
    /// There is no such record here.
    #[error("there is no {0} on this device")]
    NotHere(String),
    /// This device may not say that.
    #[error("this was not recorded: {0}")]
    MayNot(&'static str),
    /// Nothing says who is making the entry.
    #[error("say who you are first: an entry needs an operator")]
    NoOperator,
    /// A person's key or PIN did not do.
    #[error(transparent)]
    Pin(#[from] PinError),
}
