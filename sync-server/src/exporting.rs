//! `farsiding export …`: figures of a month for other programs, and packets.
//!
//! Called by `command`; the figures come from `office::reconcile`, the tables from `office::papers`.

use std::io::Write as _;
use std::path::PathBuf;

use clap::{Args, Subcommand, ValueEnum};
use farsiding_core::clock::UtcMillis;
use farsiding_core::procedure::Procedures;

use crate::command::Failure;
use crate::office::OfficeError;
use crate::office::data_folder::DataFolder;
use crate::office::ledger::{Ledger as _, SqliteLedger};
use crate::office::papers::tables::{csv_of, tables_of, workbook_of};
use crate::office::reconcile::{Report, Selection, source};
use crate::office::register::Register;
use crate::surroundings::{ProcessClock, SystemRandomness};

/// What to export.
#[derive(Debug, Args)]
pub struct ExportArguments {
    #[command(subcommand)]
    what: Export,
}

impl ExportArguments {
    /// Whether failures are told in JSON.
    pub fn wants_json(&self) -> bool {
        match &self.what {
            Export::Reconcile(arguments) => arguments.format == Format::Json,
        }
    }
}

#[derive(Debug, Subcommand)]
enum Export {
    /// A month's figures: billed, found, taken in, over and short, bias, detention, what is pointed out.
    Reconcile(ReconcileArguments),
}

#[derive(Debug, Args)]
struct ReconcileArguments {
    /// The office's data folder; the server may be running.
    #[arg(long, value_name = "DIR")]
    data: PathBuf,
    /// The month, YYYY-MM.
    #[arg(long, value_name = "YYYY-MM")]
    month: String,
    /// One site alone, by its name.
    #[arg(long, value_name = "NAME")]
    site: Option<String>,
    /// Which form.
    #[arg(long, value_enum, default_value_t = Format::Csv)]
    format: Format,
    /// Which table, for CSV: cars, totals, bias, cusum, detention, findings, notes.
    #[arg(long, value_name = "NAME", default_value = "cars")]
    table: String,
    /// Where to write it; by default standard output.
    #[arg(long, value_name = "FILE")]
    out: Option<PathBuf>,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Format {
    /// One table, comma-separated.
    Csv,
    /// All tables, a sheet each.
    Xlsx,
    /// Everything, with the parts of each uncertainty.
    Json,
}

fn refuse(message: String) -> Failure {
    Failure { message, name: "refused", code: 3 }
}

fn failed(error: impl ToString) -> Failure {
    Failure { message: error.to_string(), name: "failed", code: 1 }
}

/// Runs `farsiding export …`.
///
/// # Errors
/// [`Failure`].
pub fn run(arguments: &ExportArguments) -> Result<(), Failure> {
    match &arguments.what {
        Export::Reconcile(arguments) => reconcile(arguments),
    }
}

fn reconcile(arguments: &ReconcileArguments) -> Result<(), Failure> {
    let month = arguments.month.trim();
    if format!("{month}-01").parse::<chrono::NaiveDate>().is_err() || month.len() != 7 {
        return Err(refuse(format!("\u{201c}{month}\u{201d} is no month; write it as 2026-10")));
    }
    let mut randomness = SystemRandomness::new().map_err(failed)?;
    let folder = DataFolder::open(&arguments.data)?;
    let key = folder.organisation_key(&mut randomness)?;
    let ledger = SqliteLedger::open(&folder.ledger_file()).map_err(OfficeError::from)?;
    let register = Register::open(&folder.register_file()).map_err(OfficeError::from)?;
    let now = ProcessClock::from_environment().map_err(failed)?.time();
    let procedures = Procedures::built_in().map_err(failed)?;
    let all = source::of_ledger(ledger.store(), &key.public(), &procedures, now).map_err(failed)?;
    let site = match &arguments.site {
        None => None,
        Some(name) => {
            let found = all.iter().find(|facts| facts.site_name.trim() == name.trim());
            Some(
                found
                    .and_then(|facts| facts.site)
                    .ok_or_else(|| refuse(format!("no stay is at \u{201c}{name}\u{201d}")))?,
            )
        }
    };
    let (settings, papers) = source::of_register(register.connection()).map_err(failed)?;
    let selection = Selection { month: month.to_owned(), site };
    let report = Report::of(&all, &papers, &[], selection, &settings, now);
    write(arguments, &report, now)
}

fn write(arguments: &ReconcileArguments, report: &Report, _now: UtcMillis) -> Result<(), Failure> {
    let bytes = match arguments.format {
        Format::Json => {
            let mut bytes = serde_json::to_vec_pretty(report).map_err(failed)?;
            bytes.push(b'\n');
            bytes
        }
        Format::Xlsx => workbook_of(&tables_of(report)).map_err(failed)?,
        Format::Csv => {
            let tables = tables_of(report);
            let names: Vec<&str> = tables.iter().map(|table| table.name).collect();
            let table = tables.iter().find(|table| table.name == arguments.table);
            let table = table.ok_or_else(|| {
                refuse(format!(
                    "\u{201c}{}\u{201d} is no table; there are {}",
                    arguments.table,
                    names.join(", ")
                ))
            })?;
            csv_of(table).map_err(failed)?
        }
    };
    match &arguments.out {
        Some(file) => std::fs::write(file, bytes)?,
        None => {
            let mut out = std::io::stdout().lock();
            match out.write_all(&bytes).and_then(|()| out.flush()) {
                Err(error) if error.kind() == std::io::ErrorKind::BrokenPipe => {}
                outcome => outcome?,
            }
        }
    }
    Ok(())
}
