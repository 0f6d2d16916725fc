//! The one error type that crosses the border, by what the person can do about it. Every module here
//! converts into it; the shells show its message in the user's language.

use farsiding_core::Message;
use farsiding_core::book::{BookError, PinError};
use farsiding_core::entry::value_reader::ReadError;
use farsiding_core::entry::value_writer::{WriteError, to_json};
use farsiding_core::store::StoreError;
use farsiding_core::sync::SyncError;

/// What went wrong, in kinds that say what the caller can do about it. No kind means that anything confirmed
/// was lost.
///
/// Decide by the kind, and show `says` in the person's language. `why` is an English text for the log and the support
/// call, never the only thing shown.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error, uniffi::Error)]
#[non_exhaustive]
pub enum FarsidingError {
    /// Another tab, window or program holds the book. Use that one, or close it and try again.
    #[error("the book is open elsewhere: {why}")]
    OpenElsewhere {
        /// What the storage said.
        why: String,
        /// What to tell the person, as the JSON of a message: an id of the catalogues and its arguments.
        says: String,
    },
    /// This place cannot keep records: a private window, no such folder, no permission. Use another place.
    #[error("no place to keep records: {why}")]
    NoStorage {
        /// What the storage said.
        why: String,
        /// What to tell the person, as the JSON of a message: an id of the catalogues and its arguments.
        says: String,
    },
    /// The disk failed or is full, and the entries that this call was to make were not made. Free some space,
    /// then make the call again.
    #[error("the record could not be stored: {why}")]
    NotStored {
        /// What the storage said.
        why: String,
        /// What to tell the person, as the JSON of a message: an id of the catalogues and its arguments.
        says: String,
    },
    /// What was handed over breaks a rule, or is not what it claims to be, and was refused whole. Show the
    /// reason; the same call would be refused again.
    #[error("refused: {why}")]
    Refused {
        /// Which rule it broke.
        why: String,
        /// What to tell the person, as the JSON of a message: an id of the catalogues and its arguments.
        says: String,
    },
    /// What answered is not the office's server: a login page in between, or another address. Try again
    /// later, with another network.
    #[error("the answer did not come from the office: {why}")]
    NotTheOffice {
        /// What was wrong with the answer.
        why: String,
        /// What to tell the person, as the JSON of a message: an id of the catalogues and its arguments.
        says: String,
    },
    /// No office has enrolled this device yet. Records are kept, and nothing is sent: enrol the device first.
    #[error("not enrolled yet: {why}")]
    NotEnrolled {
        /// What was asked for.
        why: String,
        /// What to tell the person, as the JSON of a message: an id of the catalogues and its arguments.
        says: String,
    },
    /// The PIN is not six digits, or is among the first that anybody tries. Ask for another one.
    #[error("this PIN will not do: {why}")]
    WeakPin {
        /// What is wrong with the PIN.
        why: String,
        /// What to tell the person, as the JSON of a message: an id of the catalogues and its arguments.
        says: String,
    },
    /// The PIN was wrong. Ask again and say how many tries are left, or let the person say that it is
    /// forgotten.
    #[error("wrong PIN: {why}")]
    WrongPin {
        /// What happened, for the log.
        why: String,
        /// What to tell the person, as the JSON of a message: an id of the catalogues and its arguments.
        says: String,
        /// How many tries are left before the key is locked on this device for good: 1 to 9.
        left: u32,
    },
    /// Too many wrong PINs were tried, and this try was not made. Wait until the time given.
    #[error("the PIN waits: {why}")]
    PinWaits {
        /// What happened, for the log.
        why: String,
        /// What to tell the person, as the JSON of a message: an id of the catalogues and its arguments.
        says: String,
        /// From when the next try is allowed: milliseconds since 1970-01-01 UTC by this device's clock.
        until: i64,
    },
    /// Ten wrong PINs were tried, and the key is gone from this device. Tell the office, then make a new key.
    #[error("the key is locked: {why}")]
    KeyLocked {
        /// What happened, for the log.
        why: String,
        /// What to tell the person, as the JSON of a message: an id of the catalogues and its arguments.
        says: String,
    },
    /// The office ended the key. Make a new one.
    #[error("the key was ended: {why}")]
    KeyEnded {
        /// What happened, for the log.
        why: String,
        /// What to tell the person, as the JSON of a message: an id of the catalogues and its arguments.
        says: String,
    },
    /// The person has no key on this device. Make one, or go on without: the device alone then names the
    /// person.
    #[error("no key here: {why}")]
    NoKey {
        /// Whose key was asked for, for the log.
        why: String,
        /// What to tell the person, as the JSON of a message: an id of the catalogues and its arguments.
        says: String,
    },
    /// The person has a key on this device already. Unlock it, or drop it where its PIN is forgotten.
    #[error("there is a key already: {why}")]
    HasKey {
        /// Whose key it is, for the log.
        why: String,
        /// What to tell the person, as the JSON of a message: an id of the catalogues and its arguments.
        says: String,
    },
    /// The calling program made a mistake, such as a key of the wrong length. Mend the program.
    #[error("the call was wrong: {why}")]
    WrongCall {
        /// Which argument was wrong, and what it should have been.
        why: String,
        /// What to tell the person, as the JSON of a message: an id of the catalogues and its arguments.
        says: String,
    },
}

impl From<StoreError> for FarsidingError {
    fn from(error: StoreError) -> Self {
        let (why, says) = (error.to_string(), json(&error.message()));
        match error {
            StoreError::TooNew { .. } => FarsidingError::Refused { why, says },
            StoreError::Busy => FarsidingError::OpenElsewhere { why, says },
            StoreError::NoPlace(_) => FarsidingError::NoStorage { why, says },
            StoreError::Full | StoreError::Database(_) => FarsidingError::NotStored { why, says },
        }
    }
}

impl From<BookError> for FarsidingError {
    fn from(error: BookError) -> Self {
        let (why, says) = (error.to_string(), json(&error.message()));
        match error {
            BookError::Store(store) | BookError::Sync(SyncError::Store(store)) => store.into(),
            BookError::Sync(SyncError::NotTheServer(_) | SyncError::OtherRequest) => {
                FarsidingError::NotTheOffice { why, says }
            }
            BookError::Sync(SyncError::NotEnrolled) => FarsidingError::NotEnrolled { why, says },
            BookError::NotHere(_) | BookError::NoOperator => FarsidingError::WrongCall { why, says },
            BookError::Pin(pin) => of_pin(pin, why, says),
            BookError::MayNot(_) | BookError::Document(_) | BookError::Entry(_) | BookError::Sync(_) => {
                FarsidingError::Refused { why, says }
            }
        }
    }
}

impl From<PinError> for FarsidingError {
    fn from(error: PinError) -> Self {
        let (why, says) = (error.to_string(), json(&error.message()));
        of_pin(error, why, says)
    }
}

fn of_pin(error: PinError, why: String, says: String) -> FarsidingError {
    match error {
        PinError::NotSixDigits | PinError::TooEasy => FarsidingError::WeakPin { why, says },
        PinError::Wrong { left } => FarsidingError::WrongPin { why, says, left },
        PinError::Wait { until } => FarsidingError::PinWaits { why, says, until: until.0 },
        PinError::Locked => FarsidingError::KeyLocked { why, says },
        PinError::Ended => FarsidingError::KeyEnded { why, says },
        PinError::NoKey(_) => FarsidingError::NoKey { why, says },
        PinError::HasKey(_) => FarsidingError::HasKey { why, says },
        PinError::NothingBeside => FarsidingError::WrongCall { why, says },
        PinError::Damaged => FarsidingError::Refused { why, says },
    }
}

impl From<serde_json::Error> for FarsidingError {
    fn from(error: serde_json::Error) -> Self {
        FarsidingError::wrong_call(error.to_string())
    }
}

impl From<WriteError> for FarsidingError {
    fn from(error: WriteError) -> Self {
        FarsidingError::wrong_call(error.to_string())
    }
}

impl From<ReadError> for FarsidingError {
    fn from(error: ReadError) -> Self {
        FarsidingError::wrong_call(error.to_string())
    }
}

impl FarsidingError {
    /// The calling program made a mistake.
    pub(crate) fn wrong_call(why: impl Into<String>) -> FarsidingError {
        FarsidingError::WrongCall { why: why.into(), says: json(&Message::new("refusal-wrong-call")) }
    }

    /// The storage cannot be used, or failed. `error` tells the person which of the two.
    pub(crate) fn of_storage(why: String, error: &StoreError) -> FarsidingError {
        let says = json(&error.message());
        match error {
            StoreError::Busy => FarsidingError::OpenElsewhere { why, says },
            StoreError::NoPlace(_) => FarsidingError::NoStorage { why, says },
            _ => FarsidingError::NotStored { why, says },
        }
    }
}

/// Returns a message as JSON. A message always has one.
fn json(says: &Message) -> String {
    to_json(says).unwrap_or_default()
}
