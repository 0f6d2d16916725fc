//! The command line of `farsiding`: what it takes, and how outcomes become words and exit codes.
//!
//! Each command stands in its own file under `commands`; the work is done in the crates of the office, of the device and
//! of the packet. Nothing is decided here.

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

/// Records of pressurised tank cars at rural sidings, kept offline first.
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
    /// Issue a one-time code by which one device enrols.
    Enrol(enrolment::EnrolArguments),
    /// Give a device a new certificate: other sites, rights or a later last day.
    Renew(enrolment::RenewArguments),
    /// Revoke a device, at once; what it sent stays.
    Revoke(enrolment::RevokeArguments),
    /// List the devices of an office.
    Devices(OfficeArguments),
    /// What devices sent that was refused and kept aside.
    Quarantine(quarantine::QuarantineArguments),
    /// Read a data folder through: every entry, photograph and hash of the log; name what is damaged.
    Check(check::CheckArguments),
    /// Back an office up while it runs: records, photographs, keys.
    Backup(backup::BackupArguments),
    /// Restore a backup into a new folder; devices bring back what came after it.
    Restore(backup::RestoreArguments),
    /// People who sign in at the office's pages.
    Account(account::AccountArguments),
    /// Whether the audit of who looked at what still holds.
    Audit(audit::AuditArguments),
    /// Remove a photograph's bytes; its digest stays.
    Photo(keeping::PhotoArguments),
    /// For how long photographs, the audit, sessions and refused bytes are kept.
    Retention(keeping::RetentionArguments),
    /// Print the newest signed checkpoint of the ledger's log, or add a witness's signature to one.
    Checkpoint(log::CheckpointArguments),
    /// The organisation's keys: the root, the key that signs in its place, and changing them.
    Key(keys::KeyArguments),
    /// Have the newest checkpoint time-stamped by an authority (RFC 3161).
    Timestamp(log::TimestampArguments),
    /// Who outside is asked to sign the log's checkpoints.
    Witness(witness::WitnessArguments),
    /// The log as files that any web server can hand out and any stranger can read through.
    Log(open_log::LogArguments),
    /// Declare that the data folder was put back from a backup, so that devices know it was no rewriting.
    Restored(log::RestoredArguments),
    /// Check an evidence packet with nothing but the file and the organisation's public key.
    Verify(packet::VerifyArguments),
    /// A device without a screen.
    Device(device::DeviceArguments),
    /// Compute: one JSON object a line from standard input, one answer a line.
    Calc(calc::CalcArguments),
    /// Write evidence and figures out of an office's data folder.
    Export(export::ExportArguments),
    /// The office's mail: set it up, try it, send what waits.
    Mail(mail::MailArguments),
}

/// Runs what the command line asks for.
pub fn run() -> ExitCode {
    // Both the server and the client take the process's default; it can only be set once.
    let _ = rustls::crypto::ring::default_provider().install_default();
    let arguments = Arguments::parse();
    let (outcome, as_json) = match arguments.command {
        Command::Serve(arguments) => (serve::run(arguments), false),
        Command::Enrol(arguments) => (enrolment::enrol(&arguments), arguments.office.json),
        Command::Renew(arguments) => (enrolment::renew(&arguments), arguments.office.json),
        Command::Revoke(arguments) => (enrolment::revoke(&arguments), arguments.office.json),
        Command::Devices(arguments) => (enrolment::devices(&arguments), arguments.json),
        Command::Quarantine(arguments) => (quarantine::run(&arguments), arguments.office.json),
        // What is damaged is in the answer already.
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
        // What does not hold is in the answer already.
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
