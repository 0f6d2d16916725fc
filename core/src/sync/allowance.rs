//! The server's limit on how much a device may send, consulted for each change before the change is stored.
//!
//! The limits themselves and the counting are up to the server. [`super::Answerer`] calls this trait.

use super::wire::Change;
use crate::clock::UtcMillis;
use crate::document::CheckedChange;
use crate::ids::Subject;
use crate::store::{Store, StoreError};

/// The reason why a change is not accepted for now, and when the device may send it again.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Over {
    /// The limit in words, with the person who may raise it. The device shows this text.
    pub why: String,
    /// The time from which the change is accepted, by the server's clock.
    pub until: UtcMillis,
}

/// The limits for the device that is being answered.
pub trait Allowance {
    /// Counts a change that is about to be stored, or returns why it is not accepted for now. A change that
    /// the ledger holds already is free, because a device sends it again when a reply was lost.
    ///
    /// # Errors
    /// [`StoreError`] when the database fails.
    fn take(
        &mut self,
        store: &dyn Store,
        subject: Subject,
        change: &CheckedChange,
    ) -> Result<Option<Over>, StoreError>;

    /// Puts a change that was refused for good into quarantine, as far as there is room.
    fn set_aside(&mut self, refused: &Change, why: &str);
}
