//! How a command ends: the error with its message, and the exit code for each kind of error.

use std::io::Write as _;

use farsiding_core::store::StoreError;
use farsiding_device::DeviceError;
use farsiding_host::{CommandOutput, say};
use farsiding_office::OfficeError;
use farsiding_office::key_files::KeyFileError;
use farsiding_office::keys::changing::KeyChangeError;
use farsiding_office::open_log::OpenLogError;
use farsiding_packet::PacketError;
use farsiding_timestamp::StampError;
use serde_json::json;

/// The exit codes, as text for the command help.
pub(crate) const EXIT_CODES: &str = "\
Exit codes:
  0  done
  1  failed: a file, the disk or the network is not as it must be
  2  the command line was not understood
  3  refused: the record or its rules do not allow it, or what was named is not there or not clear
  4  everything is safe on this device, but the office could not be reached or has not receipted all of it
  5  this device is not enrolled, or has been revoked
  6  records were exchanged, but the office's log contradicts what it was before: history was rewritten";

/// A kind of error, with a name for programs and an exit code.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum ErrorKind {
    /// A file, the disk or the network did not work as needed.
    Failed,
    /// The authority returned no time stamp.
    NoTimeStamp,
    /// The authority's time stamp failed verification.
    BadTimeStamp,
    /// The record or its rules forbid the request, or what was named does not exist or is ambiguous.
    Refused,
    /// The thing to be checked failed its check.
    DoesNotHold,
    /// The data folder is damaged.
    Damaged,
    /// No formula has that name.
    UnknownFormula,
    /// The office could not be reached, or has not yet sent receipts for everything.
    NotAtTheOffice,
    /// The device is not enrolled, or was revoked.
    NotEnrolled,
    /// The office's log contradicts an earlier state of the log.
    LogContradicts,
}

impl ErrorKind {
    /// Returns the error's name for programs, as printed in JSON.
    pub(crate) const fn as_str(self) -> &'static str {
        match self {
            ErrorKind::Failed => "failed",
            ErrorKind::NoTimeStamp => "no_time_stamp",
            ErrorKind::BadTimeStamp => "bad_time_stamp",
            ErrorKind::Refused => "refused",
            ErrorKind::DoesNotHold => "does_not_hold",
            ErrorKind::Damaged => "damaged",
            ErrorKind::UnknownFormula => "unknown_formula",
            ErrorKind::NotAtTheOffice => "not_at_the_office",
            ErrorKind::NotEnrolled => "not_enrolled",
            ErrorKind::LogContradicts => "log_contradicts",
        }
    }

    /// Returns the exit code, as [`EXIT_CODES`] explains it.
    pub(crate) const fn exit_code(self) -> u8 {
        match self {
            ErrorKind::Failed | ErrorKind::NoTimeStamp | ErrorKind::BadTimeStamp => 1,
            ErrorKind::Refused | ErrorKind::DoesNotHold | ErrorKind::Damaged | ErrorKind::UnknownFormula => 3,
            ErrorKind::NotAtTheOffice => 4,
            ErrorKind::NotEnrolled => 5,
            ErrorKind::LogContradicts => 6,
        }
    }
}

/// The error of a command: a message for a person, and the kind of the error.
#[derive(Debug)]
pub(crate) struct CommandError {
    /// The message for a person.
    pub(crate) message: String,
    /// The kind of the error.
    pub(crate) kind: ErrorKind,
    /// What the command tells all the same, such as what a check found.
    output: Option<Box<CommandOutput>>,
}

impl CommandError {
    /// Returns an error of the kind `kind`.
    pub(crate) fn new(kind: ErrorKind, message: impl ToString) -> CommandError {
        CommandError { message: message.to_string(), kind, output: None }
    }

    /// Returns an error of a command that tells `output` all the same.
    pub(crate) fn after(output: CommandOutput, kind: ErrorKind, message: impl ToString) -> CommandError {
        CommandError { output: Some(Box::new(output)), ..CommandError::new(kind, message) }
    }

    /// Prints what the command tells and the message. As JSON one object is printed: the command's own, which
    /// names what is wrong, or the error. Errors of standard output are ignored, as there is no place left for
    /// them.
    pub(crate) fn tell(self, as_json: bool) {
        match self.output {
            Some(output) => {
                let _ = output.tell(as_json);
                if as_json {
                    return;
                }
            }
            None if as_json => {
                let told = json!({ "ok": false, "error": self.kind.as_str(), "message": self.message });
                let _ = say(&told.to_string());
                return;
            }
            None => {}
        }
        let _ = writeln!(std::io::stderr(), "farsiding: {}", farsiding_core::text::own(&self.message));
    }

    /// Returns an error of the kind [`ErrorKind::Refused`].
    pub(crate) fn refused(message: impl ToString) -> CommandError {
        CommandError::new(ErrorKind::Refused, message)
    }

    /// Returns an error of the kind [`ErrorKind::Failed`].
    pub(crate) fn failed(message: impl ToString) -> CommandError {
        CommandError::new(ErrorKind::Failed, message)
    }
}

impl From<OfficeError> for CommandError {
    fn from(error: OfficeError) -> Self {
        match &error {
            OfficeError::Enrolment(_) | OfficeError::Address(_) | OfficeError::Account(_) => {
                CommandError::refused(error)
            }
            _ => CommandError::failed(error),
        }
    }
}

impl From<std::io::Error> for CommandError {
    fn from(error: std::io::Error) -> Self {
        CommandError::failed(error)
    }
}

impl From<StoreError> for CommandError {
    fn from(error: StoreError) -> Self {
        OfficeError::from(error).into()
    }
}

impl From<PacketError> for CommandError {
    fn from(error: PacketError) -> Self {
        match &error {
            PacketError::NoSuchVisit(_) => CommandError::refused(error),
            _ => CommandError::failed(error),
        }
    }
}

impl From<OpenLogError> for CommandError {
    fn from(error: OpenLogError) -> Self {
        match &error {
            OpenLogError::Folder(_) => CommandError::refused(error),
            _ => CommandError::failed(error),
        }
    }
}

impl From<StampError> for CommandError {
    fn from(error: StampError) -> Self {
        let kind = match &error {
            StampError::Refused(_) | StampError::OtherRequest => ErrorKind::NoTimeStamp,
            _ => ErrorKind::BadTimeStamp,
        };
        CommandError::new(kind, error)
    }
}

impl From<DeviceError> for CommandError {
    fn from(error: DeviceError) -> Self {
        let kind = match &error {
            DeviceError::Folder(_) | DeviceError::Failed(_) => ErrorKind::Failed,
            DeviceError::Refused(_) => ErrorKind::Refused,
            DeviceError::NotAtTheOffice(_) => ErrorKind::NotAtTheOffice,
            DeviceError::NotEnrolled(_) => ErrorKind::NotEnrolled,
            DeviceError::LogContradicts(_) => ErrorKind::LogContradicts,
        };
        CommandError::new(kind, error)
    }
}

impl From<KeyChangeError> for CommandError {
    fn from(error: KeyChangeError) -> Self {
        match error {
            KeyChangeError::Office(error) => error.into(),
            KeyChangeError::File(KeyFileError::File { .. }) => CommandError::failed(error),
            error => CommandError::refused(error),
        }
    }
}

impl From<KeyFileError> for CommandError {
    fn from(error: KeyFileError) -> Self {
        KeyChangeError::File(error).into()
    }
}
