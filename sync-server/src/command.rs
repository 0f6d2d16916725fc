//! The command line of `farsiding`: the list of commands, and how an outcome becomes a message and an exit
//! code.
//!
//! Each command has its own file under `commands`. The work itself is done by the crates of the office, the
//! device and the packet; this file only passes arguments on.

use std::io::Write as _;
use std::process::ExitCode;

use clap::{Parser, Subcommand};
use farsiding_host::say;
use serde_json::json;

use crate::commands::{
    account, audit, backup, calc, check, device, enrolment, export, keeping, keys, log, mail, open_log,
    packet, quarantine, serve, witness,
};
use crate::office_folder::OfficeArguments;
use crate::outcome::{EXIT_CODES, ErrorKind};

/// Keep records of pressurised tank cars at rural sidings, with or without a network.
#[derive(Debug, Parser)]
#[command(name = "farsiding", version, after_help = EXIT_CODES)]
struct Arguments {
    #[command(subcommand)]
    command: Command,
}

#[derive(Debug, Subcommand)]
#[allow(clippy::large_enum_variant, reason = "read once, at the start")]
enum Command {
    /// Run the office server.
    Serve(serve::ServeArguments),
    /// Issue a one-time code with which one device enrols at the office.
    Enrol(enrolment::EnrolArguments),
    /// Give a device a new certificate with other sites, other rights or a later last day.
    Renew(enrolment::RenewArguments),
    /// Revoke a device at once. The records it has already sent stay in the office.
    Revoke(enrolment::RevokeArguments),
    /// List the devices of an office.
    Devices(OfficeArguments),
    /// List what devices sent and the office refused, and save or delete it.
    Quarantine(quarantine::QuarantineArguments),
    /// Check every entry, every photograph and every hash of the log in a data folder, and name what is
    /// damaged.
    Check(check::CheckArguments),
    /// Back up the records, photographs and keys of an office while its server runs.
    Backup(backup::BackupArguments),
    /// Restore a backup into a new folder. Devices then send again what they recorded after the backup.
    Restore(backup::RestoreArguments),
    /// Manage the accounts of the people who sign in to the office's pages.
    Account(account::AccountArguments),
    /// Check that nobody has altered the audit trail, the list of who looked at what.
    Audit(audit::AuditArguments),
    /// Delete the file of a photograph. Its digest stays in the record.
    Photo(keeping::PhotoArguments),
    /// Set for how long photographs, audit rows, sessions and refused uploads are kept.
    Retention(keeping::RetentionArguments),
    /// Print the newest signed checkpoint of the office's log, or add a witness's signature to a checkpoint.
    Checkpoint(log::CheckpointArguments),
    /// Manage the organisation's keys: take the root key off the server, and renew, withdraw or replace a
    /// key.
    Key(keys::KeyArguments),
    /// Have the newest checkpoint time-stamped by a time stamp authority (RFC 3161).
    Timestamp(log::TimestampArguments),
    /// Choose the outside witnesses that are asked to sign the log's checkpoints.
    Witness(witness::WitnessArguments),
    /// Publish the log as files for any web server, or audit a log that was published so.
    Log(open_log::LogArguments),
    /// Declare that the data folder was restored from a backup, so that devices do not take it for a
    /// rewritten history.
    Restored(log::RestoredArguments),
    /// Check an evidence packet. Only the file and the organisation's public key are needed.
    Verify(packet::VerifyArguments),
    /// Record and sync from the command line.
    Device(device::DeviceArguments),
    /// Compute formulas: read one JSON object per line from standard input and write one answer per line.
    Calc(calc::CalcArguments),
    /// Export evidence packets and monthly figures from an office's data folder.
    Export(export::ExportArguments),
    /// Set up the office's mail, send a test letter, send waiting letters, or list letters.
    Mail(mail::MailArguments),
}

/// Parses the command line, runs the command and returns the exit code of the process.
pub fn run() -> ExitCode {
    // The server and the client both use the process-wide TLS provider, which can be installed only once.
    let _ = rustls::crypto::ring::default_provider().install_default();
    let arguments = Arguments::parse();
    let (outcome, as_json) = match arguments.command {
        Command::Serve(arguments) => (serve::run(arguments), false),
        Command::Enrol(arguments) => (enrolment::enrol(&arguments), arguments.office.json),
        Command::Renew(arguments) => (enrolment::renew(&arguments), arguments.office.json),
        Command::Revoke(arguments) => (enrolment::revoke(&arguments), arguments.office.json),
        Command::Devices(arguments) => (enrolment::devices(&arguments), arguments.json),
        Command::Quarantine(arguments) => (quarantine::run(&arguments), arguments.office.json),
        // The JSON answer already names the damage, so no second JSON object with the error is printed.
        Command::Check(arguments) => match check::run(&arguments) {
            Err(error) if error.kind == ErrorKind::Damaged && arguments.office.json => {
                return ExitCode::from(error.kind.exit_code());
            }
            outcome => (outcome, arguments.office.json),
        },
        Command::Backup(arguments) => (backup::run_backup(&arguments), arguments.office.json),
        Command::Restore(arguments) => (backup::run_restore(&arguments), arguments.json),
        Command::Account(arguments) => (account::run(&arguments), arguments.wants_json()),
        Command::Audit(arguments) => (audit::run(&arguments), arguments.wants_json()),
        Command::Photo(arguments) => (keeping::run_photo(&arguments), arguments.wants_json()),
        Command::Retention(arguments) => (keeping::run_retention(&arguments), arguments.office.json),
        Command::Checkpoint(arguments) => (log::checkpoint(&arguments), arguments.wants_json()),
        Command::Key(arguments) => (keys::run(&arguments), arguments.wants_json()),
        Command::Timestamp(arguments) => (log::timestamp(&arguments), arguments.wants_json()),
        Command::Witness(arguments) => (witness::run(&arguments), arguments.wants_json()),
        Command::Log(arguments) => match open_log::run(&arguments) {
            Err(error) if error.kind == ErrorKind::DoesNotHold && arguments.wants_json() => {
                return ExitCode::from(error.kind.exit_code());
            }
            outcome => (outcome, arguments.wants_json()),
        },
        Command::Restored(arguments) => (log::restored(&arguments), arguments.wants_json()),
        // The JSON answer already says what does not hold, so no second JSON object with the error is
        // printed.
        Command::Verify(arguments) => match packet::run_verify(&arguments) {
            Err(error) if error.kind == ErrorKind::DoesNotHold && arguments.json => {
                return ExitCode::from(error.kind.exit_code());
            }
            outcome => (outcome, arguments.json),
        },
        Command::Calc(arguments) => (calc::run(&arguments), false),
        Command::Mail(arguments) => (mail::run(&arguments), false),
        Command::Export(arguments) => (export::run(&arguments), arguments.wants_json()),
        Command::Device(arguments) => {
            let as_json = arguments.wants_json();
            (device::run(arguments), as_json)
        }
    };
    match outcome {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            if as_json {
                let told = json!({ "ok": false, "error": error.kind.as_str(), "message": error.message });
                let _ = say(&told.to_string());
            } else {
                let _ =
                    writeln!(std::io::stderr(), "farsiding: {}", farsiding_core::text::own(&error.message));
            }
            ExitCode::from(error.kind.exit_code())
        }
    }
}
