//! The one error type that crosses the border, by what the person can do about it. Every module here
//! converts into it; the shells turn the variants into sentences of the user's language.

use farsiding_core::book::{BookError, PinError};
use farsiding_core::store::StoreError;
use farsiding_core::sync::SyncError;

/// What went wrong, as far as the caller can do something about it.
///
/// `why` is for the log and the support call, in English, never the only thing shown.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error, uniffi::Error)]
#[non_exhaustive]
pub enum Trouble {
    /// Another tab, window or program holds the book: use that one, or close it.
    #[error("the book is open elsewhere: {why}")]
    OpenElsewhere {
        /// What the storage said.
        why: String,
    },
    /// This place cannot keep records (private window, no such folder, no permission): use another.
    #[error("no place to keep records: {why}")]
    NoStorage {
        /// What the storage said.
        why: String,
    },
    /// The disk refused or is full: free space, then try again. Nothing was lost that was confirmed.
    #[error("the record could not be stored: {why}")]
    NotStored {
        /// What the storage said.
        why: String,
    },
    /// What was handed over is not what it claims to be, so it was refused whole.
    #[error("refused: {why}")]
    Refused {
        /// Which rule it broke.
        why: String,
    },
    /// What answered is not the office server: a login page in between, or another address.
    #[error("the answer did not come from the office: {why}")]
    NotTheOffice {
        /// What was wrong with it.
        why: String,
    },
    /// This device has not been enrolled yet: records are kept, but nothing is sent.
    #[error("not enrolled yet: {why}")]
    NotEnrolled {
        /// What was asked for.
        why: String,
    },
    /// A PIN that is not six digits, or among the first that anybody tries: choose another.
    #[error("this PIN will not do: {why}")]
    WeakPin {
        /// What is wrong with it.
        why: String,
    },
    /// The PIN was wrong: try again, or say it is forgotten.
    #[error("wrong PIN: {why}")]
    WrongPin {
        /// For the log.
        why: String,
        /// How many tries are left before the key is locked here for good.
        left: u32,
    },
    /// Too many wrong tries: wait, or say it is forgotten.
    #[error("the PIN waits: {why}")]
    PinWaits {
        /// For the log.
        why: String,
        /// From when it may be tried again, milliseconds since 1970 by this device's clock.
        until: i64,
    },
    /// The key is locked here for good: tell the office, and make a new one.
    #[error("the key is locked: {why}")]
    KeyLocked {
        /// For the log.
        why: String,
    },
    /// The office ended the key: make a new one.
    #[error("the key was ended: {why}")]
    KeyEnded {
        /// For the log.
        why: String,
    },
    /// This person has no key here: make one, or go on without.
    #[error("no key here: {why}")]
    NoKey {
        /// For the log.
        why: String,
    },
    /// This person has a key here already: unlock it, or say its PIN is forgotten.
    #[error("there is a key already: {why}")]
    HasKey {
        /// For the log.
        why: String,
    },
    /// A mistake in the calling program, such as a key of the wrong length.
    #[error("the call was wrong: {why}")]
    WrongCall {
        /// Which argument, and what it should have been.
        why: String,
    },
}

impl From<StoreError> for Trouble {
    fn from(error: StoreError) -> Self {
        let why = error.to_string();
        match error {
            StoreError::TooNew { .. } => Trouble::Refused { why },
            StoreError::Busy => Trouble::OpenElsewhere { why },
            StoreError::NoPlace(_) => Trouble::NoStorage { why },
            StoreError::Full | StoreError::Database(_) => Trouble::NotStored { why },
        }
    }
}

impl From<BookError> for Trouble {
    fn from(error: BookError) -> Self {
        let why = error.to_string();
        match error {
            BookError::Store(store) | BookError::Sync(SyncError::Store(store)) => store.into(),
            BookError::Sync(SyncError::NotTheServer(_) | SyncError::OtherRequest) => {
                Trouble::NotTheOffice { why }
            }
            BookError::Sync(SyncError::NotEnrolled) => Trouble::NotEnrolled { why },
            BookError::NotHere(_) | BookError::NoOperator => Trouble::WrongCall { why },
            BookError::Pin(pin) => of_pin(pin, why),
            BookError::MayNot(_) | BookError::Document(_) | BookError::Entry(_) | BookError::Sync(_) => {
                Trouble::Refused { why }
            }
        }
    }
}

impl From<PinError> for Trouble {
    fn from(error: PinError) -> Self {
        let why = error.to_string();
        of_pin(error, why)
    }
}

fn of_pin(error: PinError, why: String) -> Trouble {
    match error {
        PinError::NotSixDigits | PinError::TooEasy => Trouble::WeakPin { why },
        PinError::Wrong { left } => Trouble::WrongPin { why, left },
        PinError::Wait { until } => Trouble::PinWaits { why, until: until.0 },
        PinError::Locked => Trouble::KeyLocked { why },
        PinError::Ended => Trouble::KeyEnded { why },
        PinError::NoKey(_) => Trouble::NoKey { why },
        PinError::HasKey(_) => Trouble::HasKey { why },
        PinError::NothingBeside => Trouble::WrongCall { why },
        PinError::Damaged => Trouble::Refused { why },
    }
}

impl From<serde_json::Error> for Trouble {
    fn from(error: serde_json::Error) -> Self {
        Trouble::WrongCall { why: error.to_string() }
    }
}
