//! `farsiding move`: moves an organisation's ledger from the file in its folder into a PostgreSQL database, or back.
//!
//! The work is done by `office::ledger_move`.

use std::io::Write as _;
use std::time::{Duration, Instant};

use clap::Args;
use serde_json::json;

use crate::database_address;
use crate::office_folder::{OfficeArguments, clock};
use crate::outcome::CommandError;
use farsiding_host::CommandOutput;
use farsiding_office::data_folder::{DataFolder, organisation_id};
use farsiding_office::ledger_move::{self, Moved};

const HELP: &str = "\
The server must not run; phones go on afterwards where they were, and nothing is sent to them anew. Every entry is
compared with its id and every change with its digest on the way, and at the end both places are compared row by row.
Only then does the folder name the new place. If the command is interrupted, say it again.

What is left behind is kept: a file is renamed to ledger.moved-TIME.db, and a ledger in a database is marked, so that no
older copy of this folder serves it. Remove either once a backup of the new place was made.";

/// The arguments of `farsiding move`.
#[derive(Debug, Args)]
#[command(group(clap::ArgGroup::new("where").required(true).args(["to", "to_file"])), after_help = HELP)]
pub(crate) struct MoveArguments {
    #[command(flatten)]
    pub(crate) office: OfficeArguments,
    /// The PostgreSQL database (15 or later) to move the ledger into, such as postgres://user@host/name. With a
    /// password, name a file that holds the address: @FILE.
    #[arg(long, value_name = "URL|@FILE")]
    to: Option<String>,
    /// Move the ledger out of its database into ledger.db in the folder.
    #[arg(long)]
    to_file: bool,
    /// Replace the rows that an earlier move away from this database left there.
    #[arg(long, requires = "to")]
    replace_left: bool,
}

/// Returns a function that writes progress to standard error, at most twice a second.
fn throttled_progress() -> impl FnMut(&str, u64, u64) -> bool {
    let mut last: Option<Instant> = None;
    move |what, at, total| {
        if last.is_none_or(|last| last.elapsed() > Duration::from_millis(500)) {
            last = Some(Instant::now());
            let _ = writeln!(std::io::stderr(), "{what}: {at} of {total}");
        }
        true
    }
}

/// Runs `farsiding move`.
pub(crate) fn run(arguments: &MoveArguments) -> Result<CommandOutput, CommandError> {
    let address = arguments.to.as_deref().map(database_address::read).transpose()?;
    let folder = DataFolder::open(&arguments.office.data)?;
    let _held = folder.hold()?;
    // What another move did before the lock was free counts.
    let folder = DataFolder::open(&arguments.office.data)?;
    let (now, began, mut progress) = (clock()?.time(), Instant::now(), throttled_progress());
    let (moved, place) = match address {
        Some(address) => {
            let organisation = organisation_id(&folder.organisation_key_here()?);
            let to = (address.as_str(), organisation);
            let moved = ledger_move::to_database(folder, to, arguments.replace_left, now, &mut progress)?;
            (moved, "the database")
        }
        None => (ledger_move::to_file(folder, now, &mut progress)?, "ledger.db"),
    };
    let Moved { was_named, entries, changes, leaves, rows } = moved;
    let text = if was_named {
        format!(
            "The ledger is in {place}, where an earlier move had brought it; what was left of that move is done."
        )
    } else {
        format!(
            "The ledger is in {place} now: {entries} entries, {changes} changes, {leaves} leaves of the log, {rows} rows \
             in all, each compared, in {:.1} s.\nStart the server again; phones go on where they were.",
            began.elapsed().as_secs_f64()
        )
    };
    let json = json!({
        "place": if arguments.to_file { "file" } else { "database" }, "was_named": was_named,
        "entries": entries, "changes": changes, "leaves": leaves, "rows": rows,
    });
    Ok(CommandOutput::new(text, json))
}
