//! `farsiding check`: reads a whole data folder and lists every damaged row. With `--mend`, the command
//! repairs damaged entries from the second copy of their bytes in the ledger.
//!
//! Called by `command`; the check itself is in `office::check`. Without `--mend` nothing is written.

use std::io::Write as _;
use std::time::{Duration, Instant};

use clap::Args;
use farsiding_core::clock::UtcMillis;
use serde_json::json;

use crate::office_folder::{OfficeArguments, clock};
use crate::outcome::{CommandError, ErrorKind};
use farsiding_host::CommandOutput;
use farsiding_host::SystemRandomness;
use farsiding_office::OfficeError;
use farsiding_office::check::{self, CheckReport};
use farsiding_office::data_folder::DataFolder;
use farsiding_office::ledger::{Ledger as _, OfficeLedger};

/// The arguments of `farsiding check`.
#[derive(Debug, Args)]
pub(crate) struct CheckArguments {
    #[command(flatten)]
    pub(crate) office: OfficeArguments,
    /// First repair damaged entries from the stored changes of their documents, which hold the same signed
    /// bytes. Then check.
    #[arg(long)]
    mend: bool,
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

/// Checks a data folder on behalf of another command, and writes progress to standard error.
pub(crate) fn read_through(folder: &DataFolder, now: UtcMillis) -> Result<CheckReport, OfficeError> {
    let mut randomness = SystemRandomness::new().map_err(|e| OfficeError::Surroundings(e.to_string()))?;
    let key = folder.organisation_key(&mut randomness)?.public();
    check::check(folder, &key, now, &mut throttled_progress())
}

/// Returns the damage found, one line for each row.
pub(crate) fn damage_words(report: &CheckReport) -> String {
    let mut words = String::new();
    for damage in &report.damage {
        words.push_str(&format!("DAMAGED  {:<12} {}: {}\n", damage.part, damage.row, damage.why));
    }
    if report.more > 0 {
        words.push_str(&format!("and {} more\n", report.more));
    }
    words
}

/// Runs `farsiding check`.
///
/// # Errors
/// Returns a [`CommandError`] with exit code 3 when something is damaged.
pub(crate) fn run(arguments: &CheckArguments) -> Result<CommandOutput, CommandError> {
    let folder = DataFolder::open(&arguments.office.data)?;
    let mut whole_again = Vec::new();
    if arguments.mend {
        let mut ledger = OfficeLedger::open(&folder.ledger_place()).map_err(OfficeError::from)?;
        whole_again = check::mend::mend(ledger.store_mut()).map_err(OfficeError::from)?.whole;
    }
    let report = read_through(&folder, clock()?.time())?;
    let mut text = String::new();
    for entry in &whole_again {
        text.push_str(&format!("mended   entry        {entry}\n"));
    }
    let seconds = report.took_millis as f64 / 1000.0;
    text.push_str(&format!("Read: {}, in {seconds:.1} s.\n{}", report.counts(), damage_words(&report)));
    let json = json!({
        "ok": report.is_whole(), "report": report,
        "mended": whole_again.iter().map(ToString::to_string).collect::<Vec<_>>(),
    });
    if report.is_whole() {
        text.push_str("All of it is whole.");
        return Ok(CommandOutput::new(text, json));
    }
    let message = format!(
        "{} rows are damaged. Entries: try --mend, which takes what the ledger holds whole a second time. Anything else: \
         keep this folder as it is, and restore the newest backup into a new one; devices bring back what it lacks",
        report.damaged()
    );
    Err(CommandError::after(CommandOutput::new(text, json), ErrorKind::Damaged, message))
}
