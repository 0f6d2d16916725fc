//! `farsiding photo remove` and `farsiding retention`: remove photographs and set how long data is kept.
//!
//! The work is done by `office::photo_removal` and `office::retention`.

use clap::{Args, Subcommand};
use farsiding_core::ids::Digest;
use serde_json::json;

use crate::office_folder::{OfficeArguments, clock, open_database};
use crate::outcome::CommandError;
use farsiding_host::CommandOutput;
use farsiding_office::OfficeError;
use farsiding_office::accounts::audit;
use farsiding_office::audit_chain::Looked;
use farsiding_office::data_folder::DataFolder;
use farsiding_office::ledger::{Ledger as _, OfficeLedger};
use farsiding_office::photo_removal::{self, RemovalError};
use farsiding_office::retention::{Kind, Retention, UnknownKind};

/// The arguments of `farsiding photo`.
#[derive(Debug, Args)]
pub(crate) struct PhotoArguments {
    #[command(subcommand)]
    what: PhotoWhat,
}

#[derive(Debug, Subcommand)]
enum PhotoWhat {
    /// Delete the file of a photograph at the office for good. The photograph's digest stays in the record,
    /// packets mark the photograph as absent, and no device sends it again. Copies on devices and in earlier
    /// backups remain.
    Remove {
        #[command(flatten)]
        office: OfficeArguments,
        /// The photograph's SHA-256 digest.
        sha256: String,
        /// Why the photograph is removed. The reason stays in the audit trail.
        #[arg(long)]
        why: String,
    },
}

impl PhotoArguments {
    /// Returns whether the answer is printed as JSON.
    pub(crate) fn wants_json(&self) -> bool {
        let PhotoWhat::Remove { office, .. } = &self.what;
        office.json
    }
}

/// Runs `farsiding photo`.
pub(crate) fn run_photo(arguments: &PhotoArguments) -> Result<CommandOutput, CommandError> {
    let PhotoWhat::Remove { office, sha256, why } = &arguments.what;
    let digest = Digest::read(sha256).map_err(|_| {
        CommandError::refused("a photograph is named by its SHA-256, 64 hexadecimal digits".to_owned())
    })?;
    let folder = DataFolder::open(&office.data)?;
    let mut ledger = OfficeLedger::open(&folder.ledger_place()).map_err(OfficeError::from)?;
    let database = open_database(&folder)?;
    let now = clock()?.time();
    let by = ("command line", why.as_str());
    photo_removal::remove(ledger.store_mut(), &folder.photo_folder(), digest, by, now).map_err(|error| {
        match error {
            RemovalError::Ledger(error) => OfficeError::from(error).into(),
            RemovalError::File(error) => CommandError::from(error),
            error => CommandError::refused(error.to_string()),
        }
    })?;
    let row = Looked {
        at: now,
        who: "command line".to_owned(),
        role: String::new(),
        did: "removed a photograph".to_owned(),
        subject: format!("photo:{digest}"),
    };
    audit::note(database.connection(), &row).map_err(OfficeError::from)?;
    let text = "Removed. Its digest stays in the record. Devices that have it, and backups made before, keep their copies.";
    Ok(CommandOutput::new(text, json!({ "removed": digest.to_string() })))
}

/// The arguments of `farsiding retention`.
#[derive(Debug, Args)]
pub(crate) struct RetentionArguments {
    #[command(flatten)]
    pub(crate) office: OfficeArguments,
    /// Keep one kind of data for this many days: photographs, audit-rows, sessions or refused. Repeat the
    /// option for each kind.
    #[arg(long, value_name = "KIND=DAYS", value_parser = read_setting)]
    set: Vec<(Kind, u32)>,
    /// Keep one kind of data for good, which is the default: photographs, audit-rows, sessions or refused.
    #[arg(long, value_name = "KIND")]
    keep: Vec<Kind>,
    /// Show what would be removed now, and remove nothing. A running server removes old data every night.
    #[arg(long, conflicts_with = "now")]
    dry_run: bool,
    /// Remove old data now.
    #[arg(long)]
    now: bool,
}

fn read_setting(text: &str) -> Result<(Kind, u32), String> {
    let (kind, days) = text.split_once('=').ok_or("write it as KIND=DAYS, such as audit-rows=730")?;
    let kind: Kind = kind.parse().map_err(|e: UnknownKind| e.to_string())?;
    match days.trim().parse() {
        Ok(days @ 1..=36_500) => Ok((kind, days)),
        _ => Err(format!("\u{201c}{days}\u{201d} is no number of days from 1 to 36500")),
    }
}

/// Runs `farsiding retention`.
pub(crate) fn run_retention(arguments: &RetentionArguments) -> Result<CommandOutput, CommandError> {
    let folder = DataFolder::open(&arguments.office.data)?;
    let mut database = open_database(&folder)?;
    let mut ledger = OfficeLedger::open(&folder.ledger_place()).map_err(OfficeError::from)?;
    let now = clock()?.time();
    let mut kept = Retention::read(&database).map_err(OfficeError::from)?;
    kept.0.extend(arguments.set.iter().copied());
    kept.0.retain(|kind, _| !arguments.keep.contains(kind));
    if !arguments.dry_run {
        kept.keep(&database).map_err(OfficeError::from)?;
    }
    let due = if arguments.now {
        kept.carry_out(ledger.store_mut(), &folder, &mut database, now)?
    } else {
        kept.due(ledger.store(), &folder.ledger_place(), &database, now)?
    };
    let mut text = String::new();
    for kind in Kind::ALL {
        let days = kept.0.get(&kind).map_or("for good".to_owned(), |days| format!("{days} days"));
        text.push_str(&format!("{:<12} kept {days}\n", kind.as_str()));
    }
    text.push_str(&format!("{}: {}", if arguments.now { "Went" } else { "Due to go now" }, due.words()));
    Ok(CommandOutput::new(text, json!({ "days": kept, "done": arguments.now, "due": due })))
}
