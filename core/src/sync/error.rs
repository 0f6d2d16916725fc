//! The error type of the asking side of a sync round.
//!
//! The errors of the answering side are `answer`'s `AnswerError`.

use crate::{Message, message};

/// The reason why a round failed on the asking side. No local data is lost in any of these cases.
#[derive(Debug, thiserror::Error)]
pub enum SyncError {
    /// The response was not signed by the server that this device was enrolled with. It came from a captive
    /// portal, a proxy or another server.
    #[error(
        "the answer did not come from the office server (a login page in between, or the wrong address?): {0}"
    )]
    NotTheServer(String),
    /// The response is the server's, but answers another request.
    #[error("the server answered another request")]
    OtherRequest,
    /// This device has not been enrolled.
    #[error("this device is not enrolled yet")]
    NotEnrolled,
    /// The local store failed.
    #[error(transparent)]
    Store(#[from] crate::store::StoreError),
    /// A document could not be read or changed.
    #[error(transparent)]
    Document(#[from] crate::document::DocumentError),
    /// An envelope could not be encoded or opened.
    #[error(transparent)]
    Entry(#[from] crate::entry::EntryError),
    /// The two sides still differ after the maximum number of rounds.
    #[error(
        "the records still differ from the office's after {0} rounds; they will be compared again next time"
    )]
    StillDiffers(u32),
}

impl SyncError {
    /// Returns what a person is told: what happened, and what to do about it.
    pub fn message(&self) -> Message {
        match self {
            SyncError::NotTheServer(_) => Message::new("refusal-not-the-office"),
            SyncError::OtherRequest => Message::new("refusal-other-request"),
            SyncError::NotEnrolled => Message::new("refusal-not-enrolled"),
            SyncError::Store(error) => error.message(),
            SyncError::Document(error) => error.message(),
            SyncError::Entry(error) => error.message(),
            SyncError::StillDiffers(rounds) => message!("refusal-still-differs", rounds = *rounds),
        }
    }
}
