//! `farsiding log tiles` and `farsiding log audit`: their arguments, what they print and how they end.

use std::io::Write as _;
use std::path::PathBuf;
use std::time::{Duration, Instant};

use clap::{Args, Subcommand};
use farsiding_core::evidence::tile_audit::{AuditError, Audited, HeadsMade, Shelf, audit};
use farsiding_core::evidence::{Checkpoint, VerifierKey, cosignatures, ledger_log};
use serde_json::json;

use crate::commands::packet::{read_key, read_keys, read_note};
use crate::commands::witness::read_witness;
use crate::office_folder::OpenOffice;
use crate::outcome::{CommandError, ErrorKind};
use farsiding_host::CommandOutput;
use farsiding_office::ledger::Ledger as _;
use farsiding_office::open_log::{FolderShelf, WebShelf, keys_beside, write_tiles};

/// The arguments of `farsiding log`.
#[derive(Debug, Args)]
pub struct LogArguments {
    #[command(subcommand)]
    command: LogCommand,
}

#[derive(Debug, Subcommand)]
enum LogCommand {
    /// Write the log into a folder that any web server can publish (C2SP tlog-tiles). Only new parts are
    /// written.
    Tiles(TilesArguments),
    /// Audit a published log. Only its files and the organisation's public key are needed.
    Audit(AuditArguments),
}

#[derive(Debug, Args)]
struct TilesArguments {
    /// The office's data folder. The server may be running.
    #[arg(long, value_name = "DIR")]
    data: PathBuf,
    /// The folder to write into: new, empty, or with an earlier part of this log.
    #[arg(long, value_name = "FOLDER")]
    out: PathBuf,
    /// Print the answer as JSON.
    #[arg(long)]
    json: bool,
}

#[derive(Debug, Args)]
struct AuditArguments {
    /// The folder of the log, or the address that has `checkpoint` and `tile/` below it.
    #[arg(value_name = "FOLDER|URL")]
    log: String,
    /// The organisation's public key: 64 hexadecimal digits, or a file that holds them.
    #[arg(long, value_name = "HEX|FILE")]
    key: String,
    /// A file with the root's statements about the organisation's keys, from another source than the log and
    /// perhaps newer (`farsiding key show --out`). The statements that lie beside the log are read anyway.
    #[arg(long, value_name = "FILE")]
    keys: Option<PathBuf>,
    /// A file with an earlier checkpoint of this log. The check fails if the log does not continue it.
    #[arg(long, value_name = "NOTE_FILE")]
    against: Option<PathBuf>,
    /// A witness's key, as NAME+ID+KEY, whose signature is looked for. Repeat the option for each witness.
    #[arg(long = "witness", value_name = "KEY")]
    witnesses: Vec<String>,
    /// Print the answer as JSON.
    #[arg(long)]
    json: bool,
}

impl LogArguments {
    /// Returns whether the answer is printed as JSON.
    pub const fn wants_json(&self) -> bool {
        match &self.command {
            LogCommand::Tiles(arguments) => arguments.json,
            LogCommand::Audit(arguments) => arguments.json,
        }
    }
}

/// Runs `farsiding log …`.
///
/// # Errors
/// Returns a [`CommandError`] when the log cannot be read or written, or does not hold.
pub fn run(arguments: &LogArguments) -> Result<CommandOutput, CommandError> {
    match &arguments.command {
        LogCommand::Tiles(arguments) => write(arguments),
        LogCommand::Audit(arguments) => read(arguments),
    }
}

/// Returns a function that writes progress to standard error, at most twice a second.
fn throttled_progress(what: &'static str) -> impl FnMut(u64, u64) {
    let mut last = Instant::now();
    move |at, total| {
        if last.elapsed() > Duration::from_millis(500) {
            last = Instant::now();
            let _ = writeln!(std::io::stderr(), "{at} of {total} {what}"); // progress is not worth an error
        }
    }
}

fn write(arguments: &TilesArguments) -> Result<CommandOutput, CommandError> {
    let mut opened = OpenOffice::open(&arguments.data)?;
    let (key, now) = (opened.key.clone(), opened.now);
    let store = opened.ledger.store_mut();
    let newest = ledger_log::publish(store, &key, now).map_err(CommandError::failed)?;
    let mut progress = throttled_progress("tiles");
    let written = write_tiles(store, key.keys(), &newest.note, &arguments.out, &mut progress)?;
    let json = json!({
        "size": written.size, "before": written.before, "files": written.files,
        "organisation_key": key.public().to_string(),
    });
    let out = arguments.out.display();
    let text = format!(
        "{out} holds the log of {} entries ({} before); {} files were written.\nAnybody reads it through with: \
         farsiding log audit {out} --key {}",
        written.size,
        written.before,
        written.files,
        key.public()
    );
    Ok(CommandOutput::new(text, json))
}

fn read(arguments: &AuditArguments) -> Result<CommandOutput, CommandError> {
    let root = read_key(&arguments.key)?;
    let given = arguments.keys.as_deref().map(|file| read_keys(file, root)).transpose()?;
    let witnesses = arguments
        .witnesses
        .iter()
        .map(|key| read_witness(key))
        .collect::<Result<Vec<VerifierKey>, CommandError>>()?;
    let mut shelf: Box<dyn Shelf> = if arguments.log.contains("://") {
        Box::new(WebShelf::new(&arguments.log).map_err(CommandError::refused)?)
    } else {
        let folder = PathBuf::from(&arguments.log);
        if !folder.is_dir() {
            return Err(CommandError::refused(format!(
                "{} is neither a folder nor an address",
                folder.display()
            )));
        }
        Box::new(FolderShelf(folder))
    };
    let keys = match keys_beside(shelf.as_mut(), root, given) {
        Ok(keys) => keys,
        Err(error) => return Err(does_not_hold(error)),
    };
    let against = arguments.against.as_deref().map(read_note).transpose()?;
    let against = against.map(|other| Checkpoint::open(&other.note, &keys)).transpose();
    let against = against
        .map_err(|e| CommandError::refused(format!("the checkpoint seen before does not hold: {e}")))?;
    let mut progress = throttled_progress("entries");
    let audited = audit(shelf.as_mut(), &keys, against.as_ref(), &mut HeadsMade::default(), &mut progress);
    match audited {
        Ok(audited) => Ok(told(&audited, &witnesses, against.as_ref())),
        Err(error) => Err(does_not_hold(error)),
    }
}

fn does_not_hold(error: AuditError) -> CommandError {
    match error {
        AuditError::Wrong { path, leaf, what } => {
            let message = format!("the log does NOT hold; the first place that is wrong: {path}: {what}");
            let json = json!({ "ok": false, "path": path, "entry": leaf, "what": what });
            CommandError::after(CommandOutput::new("", json), ErrorKind::DoesNotHold, message)
        }
        unread @ AuditError::Unread { .. } => CommandError::failed(unread),
    }
}

fn told(audited: &Audited, witnesses: &[VerifierKey], against: Option<&Checkpoint>) -> CommandOutput {
    let lines = cosignatures(&audited.note).unwrap_or_default();
    let signed = |witness: &VerifierKey| {
        lines.iter().find(|line| line.check(&audited.note, witness).is_ok()).map(|line| line.at.rfc3339())
    };
    let (first, last) = (audited.first.map(|at| at.rfc3339()), audited.last.map(|at| at.rfc3339()));
    let Checkpoint { origin, size, root, .. } = &audited.checkpoint;
    let mut lines = vec![format!(
        "holds  {size} entries of {origin}: every tile and the signed root are what the entries make"
    )];
    if let (Some(first), Some(last)) = (&first, &last) {
        lines.push(format!("holds  their times never fall: received {first} to {last}"));
    }
    if let Some(seen) = against {
        lines.push(format!("holds  it begins with the {} entries of the checkpoint seen before", seen.size));
    }
    lines.push(match &audited.checkpoint.heads {
        Some(heads) if audited.heads_checked => {
            format!("holds  it commits to {} documents as a whole, as the entries make them", heads.count)
        }
        Some(heads) => format!(
            "note   it commits to {} documents as a whole; that cannot be made again, since older entries here do \
             not say what they are about",
            heads.count
        ),
        None => "note   it does not say how many entries there are of a document".to_owned(),
    });
    lines.extend(witnesses.iter().map(|witness| match signed(witness) {
        Some(at) => format!("holds  {} signed it at {at}", witness.name),
        None => format!("note   {} has not signed this checkpoint", witness.name),
    }));
    lines.push("What was never brought to the office, or was true, no log can say.".to_owned());
    let heads = audited.checkpoint.heads.map(|heads| {
        json!({ "count": heads.count, "root": heads.root.to_string(), "checked": audited.heads_checked })
    });
    let witnesses: Vec<_> =
        witnesses.iter().map(|key| json!({ "name": key.name, "signed_at": signed(key) })).collect();
    let json = json!({
        "origin": origin, "size": size, "root": root.to_string(), "first": first, "last": last,
        "heads": heads, "witnesses": witnesses, "begins_with": against.map(|seen| seen.size),
    });
    CommandOutput::new(lines.join("\n"), json)
}
