//! The device commands: the same record a phone keeps, worked from a command line.
//!
//! This crate holds the device's folder, its commands, the way statements are typed, and the HTTP client. It
//! holds no rule about records; those are in `farsiding_core::book`, `view` and `sync`.

pub mod address;
pub mod asked;
pub mod carrying;
pub mod folder;
pub mod forms;
mod office_client;
pub mod office_log;
mod open_stay;
pub mod people_book;
pub mod photos;
pub mod queries;
pub mod recording;
pub mod shapes;
pub mod site_book;
pub mod syncing;

use farsiding_core::book::BookError;
use farsiding_core::store::StoreError;
use farsiding_core::sync::SyncError;

/// Why a device command failed. Entries that were recorded before the failure stay recorded.
#[derive(Debug, thiserror::Error)]
pub enum DeviceError {
    /// The device's folder cannot be used.
    #[error("{0}")]
    Folder(String),
    /// A rule refuses the request, or the request is ambiguous.
    #[error("{0}")]
    Refused(String),
    /// The office was not reached, or has not yet sent receipts for everything.
    #[error("{0}")]
    NotAtTheOffice(String),
    /// The device is not enrolled, or was revoked.
    #[error("{0}")]
    NotEnrolled(String),
    /// Everything was exchanged, but the office's log contradicts an earlier state of the log.
    #[error("{0}")]
    LogContradicts(String),
    /// A file or the disk failed.
    #[error("{0}")]
    Failed(String),
}

impl From<BookError> for DeviceError {
    fn from(error: BookError) -> Self {
        match error {
            BookError::Store(error) => error.into(),
            BookError::Sync(SyncError::NotEnrolled) => DeviceError::NotEnrolled(
                "this device is not enrolled yet: ask the office for a code, then \
                 `farsiding device enrol --server URL --code CODE`"
                    .to_owned(),
            ),
            BookError::Sync(
                error @ (SyncError::NotTheServer(_) | SyncError::OtherRequest | SyncError::StillDiffers(_)),
            ) => DeviceError::NotAtTheOffice(format!("{error}. Everything recorded is still here")),
            BookError::NoOperator => DeviceError::Refused(
                "say who you are: --operator CODE, or once for all with `farsiding device operator CODE`"
                    .to_owned(),
            ),
            BookError::Entry(_) | BookError::MayNot(_) | BookError::NotHere(_) => {
                DeviceError::Refused(error.to_string())
            }
            other => DeviceError::Failed(other.to_string()),
        }
    }
}

impl From<StoreError> for DeviceError {
    fn from(error: StoreError) -> Self {
        DeviceError::Failed(error.to_string())
    }
}

impl From<std::io::Error> for DeviceError {
    fn from(error: std::io::Error) -> Self {
        DeviceError::Failed(error.to_string())
    }
}
