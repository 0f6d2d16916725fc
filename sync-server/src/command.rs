//! The command line of `farsiding`: the list of commands, and how an outcome becomes a message and an exit
//! code.
//!
//! Each command has its own file under `commands`. The work itself is done by the crates of the office, the
//! device and the packet; this file only passes arguments on.

use std::process::ExitCode;

use clap::{Parser, Subcommand};
use farsiding_host::CommandOutput;

use crate::commands::{
    account, audit, backup, calc, check, device, enrolment, export, keeping, keys, log, mail, moving,
    open_log, packet, papers, people, procedure, quarantine, serve, witness,
};
use crate::office_folder::OfficeArguments;
use crate::outcome::{CommandError, EXIT_CODES};

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
    /// Move the ledger from the file in its folder into a PostgreSQL database, or back.
    Move(moving::MoveArguments),
    /// Manage the accounts of the people who sign in to the office's pages.
    Account(account::AccountArguments),
    /// Check that nobody has altered the audit trail, the list of who looked at what.
    Audit(audit::AuditArguments),
    /// List the people of the organisation, or delete a person's name. The entries stay what they are.
    People(people::PeopleArguments),
    /// Publish an edition of the organisation's own procedure, list the editions, or take one back.
    Procedure(procedure::ProcedureArguments),
    /// Import shipping papers and send them to a site, list what was sent, or take one back.
    Papers(papers::PapersArguments),
    /// Delete the file of a photograph. Its digest stays in the record.
    Photo(keeping::PhotoArguments),
    /// Set for how long photographs, audit rows, sessions and refused uploads are kept.
    Retention(keeping::RetentionArguments),
    /// Show or set the language in which the organisation's packets are made.
    Language(packet::LanguageArguments),
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

impl Command {
    /// Returns whether the answer and errors are printed as JSON.
    fn wants_json(&self) -> bool {
        match self {
            Command::Serve(_) | Command::Calc(_) | Command::Mail(_) => false,
            Command::Enrol(arguments) => arguments.office.json,
            Command::Renew(arguments) => arguments.office.json,
            Command::Revoke(arguments) => arguments.office.json,
            Command::Devices(arguments) => arguments.json,
            Command::Quarantine(arguments) => arguments.office.json,
            Command::Check(arguments) => arguments.office.json,
            Command::Backup(arguments) => arguments.office.json,
            Command::Restore(arguments) => arguments.json,
            Command::Move(arguments) => arguments.office.json,
            Command::Account(arguments) => arguments.wants_json(),
            Command::Audit(arguments) => arguments.wants_json(),
            Command::People(arguments) => arguments.wants_json(),
            Command::Procedure(arguments) => arguments.wants_json(),
            Command::Papers(arguments) => arguments.wants_json(),
            Command::Photo(arguments) => arguments.wants_json(),
            Command::Retention(arguments) => arguments.office.json,
            Command::Language(arguments) => arguments.office.json,
            Command::Checkpoint(arguments) => arguments.wants_json(),
            Command::Key(arguments) => arguments.wants_json(),
            Command::Timestamp(arguments) => arguments.wants_json(),
            Command::Witness(arguments) => arguments.wants_json(),
            Command::Log(arguments) => arguments.wants_json(),
            Command::Restored(arguments) => arguments.wants_json(),
            Command::Verify(arguments) => arguments.json,
            Command::Device(arguments) => arguments.wants_json(),
            Command::Export(arguments) => arguments.wants_json(),
        }
    }

    /// Runs the command and returns what it tells.
    fn run(self) -> Result<CommandOutput, CommandError> {
        match self {
            Command::Serve(arguments) => serve::run(arguments),
            Command::Enrol(arguments) => enrolment::enrol(&arguments),
            Command::Renew(arguments) => enrolment::renew(&arguments),
            Command::Revoke(arguments) => enrolment::revoke(&arguments),
            Command::Devices(arguments) => enrolment::devices(&arguments),
            Command::Quarantine(arguments) => quarantine::run(&arguments),
            Command::Check(arguments) => check::run(&arguments),
            Command::Backup(arguments) => backup::run_backup(&arguments),
            Command::Restore(arguments) => backup::run_restore(&arguments),
            Command::Move(arguments) => moving::run(&arguments),
            Command::Account(arguments) => account::run(&arguments),
            Command::Audit(arguments) => audit::run(&arguments),
            Command::People(arguments) => people::run(&arguments),
            Command::Procedure(arguments) => procedure::run(&arguments),
            Command::Papers(arguments) => papers::run(&arguments),
            Command::Photo(arguments) => keeping::run_photo(&arguments),
            Command::Retention(arguments) => keeping::run_retention(&arguments),
            Command::Language(arguments) => packet::run_language(&arguments),
            Command::Checkpoint(arguments) => log::checkpoint(&arguments),
            Command::Key(arguments) => keys::run(&arguments),
            Command::Timestamp(arguments) => log::timestamp(&arguments),
            Command::Witness(arguments) => witness::run(&arguments),
            Command::Log(arguments) => open_log::run(&arguments),
            Command::Restored(arguments) => log::restored(&arguments),
            Command::Verify(arguments) => packet::run_verify(&arguments),
            Command::Device(arguments) => device::run(arguments),
            Command::Calc(arguments) => calc::run(&arguments),
            Command::Export(arguments) => export::run(&arguments),
            Command::Mail(arguments) => mail::run(&arguments),
        }
    }
}

/// Parses the command line, runs the command, prints what it tells and returns the exit code of the process.
pub fn run() -> ExitCode {
    // The server and the client both use the process-wide TLS provider, which can be installed only once.
    let _ = rustls::crypto::ring::default_provider().install_default();
    let Arguments { command } = Arguments::parse();
    let as_json = command.wants_json();
    match command.run().and_then(|output| Ok(output.tell(as_json)?)) {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            let code = error.kind.exit_code();
            error.tell(as_json);
            ExitCode::from(code)
        }
    }
}
