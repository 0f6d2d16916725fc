//! Why a document or a change to one was refused.

use super::LARGEST_CHANGE;
use crate::entry::EntryError;

/// Why a document or a change to one was refused.
#[derive(Debug, thiserror::Error)]
pub enum DocumentError {
    /// Not a change this library can read.
    #[error("not a readable change: {0}")]
    Unreadable(String),
    /// The change does something other than adding entries.
    #[error("the change does not only add entries: {0}")]
    NotGrowOnly(String),
    /// A key does not name the bytes it holds.
    #[error("an entry stands under a key that is not its digest")]
    WrongKey,
    /// An entry within the change does not hold.
    #[error("an entry within the change does not hold: {0}")]
    Entry(#[from] EntryError),
    /// An entry stands in a document it is not about.
    #[error("an entry about something else stands in this document")]
    WrongDocument,
    /// Larger than anything this tool writes.
    #[error("the change has {0} bytes; {LARGEST_CHANGE} is the most")]
    TooLarge(usize),
    /// Two different changes claim one place in an actor's sequence: a device was copied.
    #[error("two different changes claim one place in a sequence: a device was restored or copied")]
    DuplicateSequence,
    /// Automerge refused or failed.
    #[error("the document library refused: {0}")]
    Library(String),
}
