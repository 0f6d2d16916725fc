//! `farsiding backup` and `farsiding restore`: their arguments and what they print.
//!
//! The work is done by `office::backup` (a folder) and `office::backup_archive` (one encrypted file).

use std::io::Write as _;
use std::path::PathBuf;

use clap::Args;
use serde_json::json;

use crate::commands::check::{damage_words, read_through};
use crate::office_folder::{OfficeArguments, clock};
use crate::outcome::{CommandError, ErrorKind};
use farsiding_host::CommandOutput;
use farsiding_office::OfficeError;
use farsiding_office::backup::{self, Outcome};
use farsiding_office::backup_archive::{self, Recipients};
use farsiding_office::backup_schedule::Last;
use farsiding_office::data_folder::DataFolder;

/// The arguments of `farsiding backup`.
#[derive(Debug, Args)]
#[command(group(clap::ArgGroup::new("where").required(true).args(["to", "into"])))]
pub(crate) struct BackupArguments {
    #[command(flatten)]
    pub(crate) office: OfficeArguments,
    /// The backup file to write. It holds everything, encrypted for each --recipient.
    #[arg(long, value_name = "FILE")]
    to: Option<PathBuf>,
    /// The folder to write an unencrypted backup into. Each backup gets a folder of its own, and unchanged
    /// photographs are hard links to the previous backup.
    #[arg(long, value_name = "DIR", conflicts_with_all = ["recipient", "recipients_file"])]
    into: Option<PathBuf>,
    /// The public key (age1…) of somebody who can open the backup. Repeat the option for each.
    #[arg(long, value_name = "KEY")]
    recipient: Vec<String>,
    /// A file with the public keys of those who can open the backup, one per line.
    #[arg(long, value_name = "FILE")]
    recipients_file: Option<PathBuf>,
    /// Write the backup unencrypted. Whoever has the file can then read the organisation's key, every record
    /// and every photograph.
    #[arg(long, conflicts_with_all = ["recipient", "recipients_file"])]
    not_encrypted: bool,
    /// Back up even though rows are damaged. Without this option the damaged rows are listed and nothing is
    /// written.
    #[arg(long)]
    although_damaged: bool,
}

/// The arguments of `farsiding restore`.
#[derive(Debug, Args)]
#[command(group(clap::ArgGroup::new("which").required(true).args(["file", "from"])))]
pub(crate) struct RestoreArguments {
    /// The backup: an encrypted file, or the folder of an unencrypted backup.
    #[arg(value_name = "FILE")]
    file: Option<PathBuf>,
    /// The backup, as an option instead of an argument.
    #[arg(long, value_name = "DIR|FILE")]
    from: Option<PathBuf>,
    /// The file with the secret key that opens the backup (AGE-SECRET-KEY-…).
    #[arg(long, value_name = "FILE")]
    identity: Option<PathBuf>,
    /// The data folder to create. It must not exist yet or must be empty.
    #[arg(long, value_name = "DIR", required_unless_present = "check")]
    data: Option<PathBuf>,
    /// Only read every file of the backup and compare it with the backup's own list. Nothing is restored.
    #[arg(long, conflicts_with = "data")]
    check: bool,
    /// Print the answer as JSON.
    #[arg(long)]
    pub(crate) json: bool,
}

/// Returns a function that writes progress to standard error, at most a few lines a second.
fn throttled_progress() -> impl FnMut(usize, usize, &str) {
    let mut last: Option<std::time::Instant> = None;
    move |at, total, name| {
        if last.is_none_or(|last| last.elapsed() > std::time::Duration::from_millis(500)) {
            last = Some(std::time::Instant::now());
            let _ = writeln!(std::io::stderr(), "{} of {total}: {name}", at + 1);
        }
    }
}

/// Runs `farsiding backup`.
pub(crate) fn run_backup(arguments: &BackupArguments) -> Result<CommandOutput, CommandError> {
    let mut recipients =
        Recipients::read(arguments.recipient.iter().map(String::as_str)).map_err(OfficeError::from)?;
    if let Some(file) = &arguments.recipients_file {
        recipients = recipients.with_file(file).map_err(OfficeError::from)?;
    }
    if recipients.is_empty() && !arguments.not_encrypted {
        return Err(CommandError::refused(
            "a backup holds the organisation's key and every record: say whose public key it is encrypted to \
             (--recipient age1…), or that it is to be readable by whoever has it (--not-encrypted)"
                .to_owned(),
        ));
    }
    let folder = DataFolder::open(&arguments.office.data)?;
    let now = clock()?.time();
    let report = read_through(&folder, now)?;
    if !report.is_whole() {
        writeln!(std::io::stderr(), "{}", damage_words(&report).trim_end())?;
        if !arguments.although_damaged {
            let message = format!(
                "{} rows are damaged and no backup was made, so that none takes the place of a whole one. See \
                 farsiding check; with --although-damaged it is made all the same",
                report.damaged()
            );
            return Err(CommandError::new(ErrorKind::Damaged, message));
        }
    }
    let mut progress = throttled_progress();
    let made = match (&arguments.to, &arguments.into) {
        (Some(file), _) => backup_archive::back_up(&folder, file, &recipients, now, &mut progress),
        (None, Some(into)) => backup::back_up(&folder, into, now, &mut progress),
        (None, None) => return Err(CommandError::refused("say where to: --to FILE".to_owned())),
    };
    let made = made.map_err(OfficeError::from)?;
    Last::made(&made, now, report.damaged()).keep(&folder);
    let (path, bytes) = (made.folder.display().to_string(), made.bytes);
    let closing = if recipients.is_empty() {
        "It is NOT encrypted and holds the organisation's key: whoever has it can sign as this office."
    } else {
        "It is encrypted; only who has a secret key of one of its recipients can open it. Keep that key elsewhere, and \
         try it: farsiding restore --check --identity FILE."
    };
    let linked = match made.linked {
        0 => String::new(),
        linked => format!(" ({linked} photographs linked to the backup before)"),
    };
    let text = format!("Backed up {} files, {bytes} bytes{linked} into\n{path}\n{closing}", made.files);
    let json = json!({
        "backup": path, "files": made.files, "bytes": bytes, "linked": made.linked,
        "encrypted": !recipients.is_empty(),
    });
    Ok(CommandOutput::new(text, json))
}

/// Runs `farsiding restore`.
pub(crate) fn run_restore(arguments: &RestoreArguments) -> Result<CommandOutput, CommandError> {
    let mut progress = throttled_progress();
    let from = arguments.file.as_ref().or(arguments.from.as_ref());
    let Some(from) = from else { return Err(CommandError::refused("say which backup".to_owned())) };
    let identity = arguments.identity.as_deref();
    let outcome: Result<Outcome, _> = match (&arguments.data, from.is_dir()) {
        (Some(data), true) => backup::restore(from, data, &mut progress),
        (None, true) => backup::check(from, &mut progress),
        (Some(data), false) => backup_archive::restore(from, identity, data, &mut progress),
        (None, false) => backup_archive::check(from, identity, &mut progress),
    };
    let done = outcome.map_err(OfficeError::from)?;
    let path = done.folder.display().to_string();
    let text = match arguments.data {
        Some(_) => format!(
            "Restored {} files, {} bytes, each as it was when backed up, into {path}\n\
             Stop the old server for good before this one starts. Devices bring back by themselves what they \
             still hold.",
            done.files, done.bytes
        ),
        None => format!("All {} files of {path} are as they were when backed up.", done.files),
    };
    let json = json!({ "folder": path, "files": done.files, "bytes": done.bytes });
    Ok(CommandOutput::new(text, json))
}
