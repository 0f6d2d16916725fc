//! What a device may still bring: a server's own bounds, asked for each change before it is kept.
//!
//! Does not live here: how much that is and how it is counted (the server). [`super::Answerer`] asks.

use super::wire::Change;
use crate::clock::UtcMillis;
use crate::document::CheckedChange;
use crate::ids::Subject;
use crate::store::{Store, StoreError};

/// Why a change is not taken in for now, and when it may come again.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Over {
    /// The bound in words, and who may lift it. It is shown on the device.
    pub why: String,
    /// From when on it is taken, by the server's clock.
    pub until: UtcMillis,
}

/// The bounds of the device that is answered.
pub trait Allowance {
    /// Counts a change that is about to be kept, or says why it is not taken in for now. One that the ledger
    /// holds already costs nothing: it may come twice when an answer got lost.
    ///
    /// # Errors
    /// [`StoreError`].
    fn take(
        &mut self,
        store: &dyn Store,
        subject: Subject,
        change: &CheckedChange,
    ) -> Result<Option<Over>, StoreError>;

    /// Takes what was refused for good, to be kept aside as far as there is room.
    fn set_aside(&mut self, refused: &Change, why: &str);
}
