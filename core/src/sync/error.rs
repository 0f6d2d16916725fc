//! Why a round of sync failed on the asking side.
//!
//! Does not live here: why a server refuses a request (`answer`'s `Refusal`).

/// Why a round failed on the asking side. Nothing local is lost by any of these.
#[derive(Debug, thiserror::Error)]
pub enum SyncError {
    /// What came back was not written by the server this device was enrolled with: a captive portal,
    /// a proxy, another server.
    #[error(
        "the answer did not come from the office server (a login page in between, or the wrong address?): {0}"
    )]
    NotTheServer(String),
    /// The answer is the server's, but to another request.
    #[error("the server answered another request")]
    OtherRequest,
    /// This device has not been enrolled.
    #[error("this device is not enrolled yet")]
    NotEnrolled,
    /// The local store failed.
    #[error(transparent)]
    Store(#[from] crate::store::StoreError),
    /// A document failed.
    #[error(transparent)]
    Document(#[from] crate::document::DocumentError),
    /// An envelope could not be written.
    #[error(transparent)]
    Entry(#[from] crate::entry::EntryError),
    /// The two sides still differ after as many rounds as should ever be needed.
    #[error(
        "the records still differ from the office's after {0} rounds; they will be compared again next time"
    )]
    StillDiffers(u32),
}
