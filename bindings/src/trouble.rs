//! The one error type that crosses the border, by what the person can do about it. Every module here
//! converts into it; the shells turn the variants into sentences of the user's language.

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
    /// A mistake in the calling program, such as a key of the wrong length.
    #[error("the call was wrong: {why}")]
    WrongCall {
        /// Which argument, and what it should have been.
        why: String,
    },
}

impl From<rusqlite::Error> for Trouble {
    fn from(error: rusqlite::Error) -> Self {
        use rusqlite::ErrorCode as Code;
        let why = error.to_string();
        match error.sqlite_error_code() {
            Some(Code::CannotOpen | Code::PermissionDenied) => Trouble::NoStorage { why },
            Some(Code::DatabaseBusy | Code::DatabaseLocked | Code::FileLockingProtocolFailed) => {
                Trouble::OpenElsewhere { why }
            }
            Some(Code::NotADatabase | Code::DatabaseCorrupt) => Trouble::Refused { why },
            _ => Trouble::NotStored { why },
        }
    }
}
