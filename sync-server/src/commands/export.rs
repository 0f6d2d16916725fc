//! `farsiding export …`: exports the figures of a month for other programs, and evidence packets.
//!
//! Called by `command`. The figures and tables come from `office::reconcile` and `office::papers`.

use std::io::Write as _;
use std::path::PathBuf;

use clap::{Args, Subcommand, ValueEnum};
use farsiding_core::procedure::Procedures;

use crate::commands::packet::{self as packet_command, PacketArguments};
use crate::commands::strip::{self, StripArguments};
use crate::outcome::CommandError;
use farsiding_host::CommandOutput;
use farsiding_host::whole_file;
use farsiding_host::{ProcessClock, SystemRandomness};
use farsiding_office::OfficeError;
use farsiding_office::data_folder::DataFolder;
use farsiding_office::hidden;
use farsiding_office::ledger::{Ledger as _, OfficeLedger};
use farsiding_office::month;
use farsiding_office::office_database::OfficeDatabase;
use farsiding_office::photo_store::PhotoStore;
use farsiding_office::stored_photographs::StoredPhotographs;
use farsiding_packet as packet;
use farsiding_reconcile::papers::tables::{csv_of, tables_of, workbook_of};
use farsiding_reconcile::{MonthReport, Selection};
use farsiding_words::{Language, Words};

/// The arguments of `farsiding export`.
#[derive(Debug, Args)]
pub struct ExportArguments {
    #[command(subcommand)]
    what: Export,
}

impl ExportArguments {
    /// Returns whether errors are printed as JSON.
    pub fn wants_json(&self) -> bool {
        match &self.what {
            Export::Reconcile(arguments) => arguments.format == Format::Json,
            Export::Packet(arguments) => arguments.json,
            Export::Strip(arguments) => arguments.json,
            Export::Packets(_) => false,
        }
    }
}

#[derive(Debug, Subcommand)]
enum Export {
    /// Export the figures of a month: quantities billed, found and taken in, amounts over and short, bias,
    /// demurrage, detention and findings.
    Reconcile(ReconcileArguments),
    /// Write the evidence packet of a stay: one PDF/A-3 file with all proofs attached.
    Packet(PacketArguments),
    /// Write the steps of a stay or of a site's procedure on paper: one PDF with boxes, for places where no phone may go.
    Strip(StripArguments),
    /// Write the packets of all stays released in a month, one file for each stay.
    Packets(PacketsArguments),
}

#[derive(Debug, Args)]
struct PacketsArguments {
    /// The office's data folder. The server may be running.
    #[arg(long, value_name = "DIR")]
    data: PathBuf,
    /// The month, as YYYY-MM.
    #[arg(long, value_name = "YYYY-MM")]
    month: String,
    /// The folder to write the packets into. It is created if it does not exist.
    #[arg(long, value_name = "DIR")]
    out: PathBuf,
    /// The largest number of packets to write.
    #[arg(long, value_name = "N")]
    most: Option<usize>,
    /// The language of the pages: en-US, es-MX or fr-CA; by default the organisation's.
    #[arg(long, value_name = "TAG", value_parser = packet_command::read_language)]
    lang: Option<Language>,
}

#[derive(Debug, Args)]
struct ReconcileArguments {
    /// The office's data folder. The server may be running.
    #[arg(long, value_name = "DIR")]
    data: PathBuf,
    /// The month, as YYYY-MM.
    #[arg(long, value_name = "YYYY-MM")]
    month: String,
    /// The name of the only site to export.
    #[arg(long, value_name = "NAME")]
    site: Option<String>,
    /// The format of the export.
    #[arg(long, value_enum, default_value_t = Format::Csv)]
    format: Format,
    /// The table to export as CSV: cars, totals, bias, cusum, demurrage, demurrage_accounts, detention, findings
    /// or notes.
    #[arg(long, value_name = "NAME", default_value = "cars")]
    table: String,
    /// A JSON file with settings to use instead of those of the office. A setting that is left out has its
    /// default.
    #[arg(long, value_name = "FILE")]
    settings: Option<PathBuf>,
    /// The file to write; by default standard output.
    #[arg(long, value_name = "FILE")]
    out: Option<PathBuf>,
    /// The language of sentences, and of everything in a workbook: en-US, es-MX or fr-CA; English when left out.
    #[arg(long, value_name = "TAG", value_parser = packet_command::read_language)]
    lang: Option<Language>,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Format {
    /// One table, with commas between the columns.
    Csv,
    /// All tables, one per sheet.
    Xlsx,
    /// Everything, with the parts of each uncertainty.
    Json,
}

/// Runs `farsiding export …`.
///
/// # Errors
/// Returns a [`CommandError`] when the office cannot be read or the file cannot be written.
pub fn run(arguments: &ExportArguments) -> Result<CommandOutput, CommandError> {
    match &arguments.what {
        Export::Reconcile(arguments) => reconcile(arguments),
        Export::Packet(arguments) => packet_command::run_export(arguments),
        Export::Strip(arguments) => strip::run(arguments),
        Export::Packets(arguments) => packets(arguments),
    }
}

fn check_month(month: &str) -> Result<(), CommandError> {
    if format!("{month}-01").parse::<chrono::NaiveDate>().is_err() || month.len() != 7 {
        return Err(CommandError::refused(format!(
            "\u{201c}{month}\u{201d} is no month; write it as 2026-10"
        )));
    }
    Ok(())
}

fn packets(arguments: &PacketsArguments) -> Result<CommandOutput, CommandError> {
    check_month(arguments.month.trim())?;
    let mut randomness = SystemRandomness::new().map_err(CommandError::failed)?;
    let folder = DataFolder::open(&arguments.data)?;
    let key = folder.organisation_key(&mut randomness)?;
    let ledger = OfficeLedger::open_to_read(&folder.ledger_place()).map_err(OfficeError::from)?;
    let now = ProcessClock::from_environment().map_err(CommandError::failed)?.time();
    let procedures = Procedures::built_in().map_err(CommandError::failed)?;
    let all =
        month::of_ledger(ledger.store(), &key.public(), &procedures, now).map_err(CommandError::failed)?;
    let photos =
        PhotoStore::to_read(&folder.photo_folder(), &folder.upload_folder()).map_err(CommandError::failed)?;
    let runtime = tokio::runtime::Builder::new_current_thread().enable_all().build()?;
    let photographs = StoredPhotographs { store: &photos, runtime: runtime.handle() };
    let language = match arguments.lang {
        Some(language) => language,
        None => farsiding_office::language::of_folder(&folder)?,
    };
    let from = packet::PacketSource { store: ledger.store(), key: &key, photographs: &photographs, language };
    std::fs::create_dir_all(&arguments.out)?;
    let stays =
        all.iter().filter(|facts| facts.month() == arguments.month.trim() && facts.released.is_some());
    let mut count = 0;
    for facts in stays.take(arguments.most.unwrap_or(usize::MAX)) {
        let file = packet::of_stay(&from, &facts.visits).map_err(CommandError::failed)?;
        let visit = facts.visit().map(|visit| visit.short()).unwrap_or_default();
        let car: String = facts.car.chars().filter(char::is_ascii_alphanumeric).collect();
        whole_file::write(&arguments.out.join(format!("packet-{}-{car}-{visit}.pdf", facts.day)), &file)?;
        count += 1;
    }
    let noun = if count == 1 { "packet" } else { "packets" };
    Ok(CommandOutput::text(format!("{count} {noun} in {}", arguments.out.display())))
}

fn reconcile(arguments: &ReconcileArguments) -> Result<CommandOutput, CommandError> {
    let month = arguments.month.trim();
    check_month(month)?;
    let mut randomness = SystemRandomness::new().map_err(CommandError::failed)?;
    let folder = DataFolder::open(&arguments.data)?;
    let key = folder.organisation_key(&mut randomness)?;
    let ledger = OfficeLedger::open_to_read(&folder.ledger_place()).map_err(OfficeError::from)?;
    let database = OfficeDatabase::open_to_read(&folder.database_file()).map_err(OfficeError::from)?;
    let now = ProcessClock::from_environment().map_err(CommandError::failed)?.time();
    let procedures = Procedures::built_in().map_err(CommandError::failed)?;
    let mut all =
        month::of_ledger(ledger.store(), &key.public(), &procedures, now).map_err(CommandError::failed)?;
    let hidden = hidden::list(database.connection()).map_err(OfficeError::from)?;
    all.retain(|facts| !facts.visits.iter().all(|visit| hidden.iter().any(|one| one.visit == *visit)));
    let site = match &arguments.site {
        None => None,
        Some(name) => {
            let found = all.iter().find(|facts| facts.site_name.trim() == name.trim());
            Some(
                found
                    .and_then(|facts| facts.site)
                    .ok_or_else(|| CommandError::refused(format!("no stay is at \u{201c}{name}\u{201d}")))?,
            )
        }
    };
    let (mut settings, papers) = month::of_database(database.connection()).map_err(CommandError::failed)?;
    if let Some(file) = &arguments.settings {
        let text = std::fs::read_to_string(file)?;
        settings = serde_json::from_str(&text)
            .map_err(|e| CommandError::refused(format!("{}: {e}", file.display())))?;
    }
    let selection = Selection { month: month.to_owned(), site };
    let report = MonthReport::of(&all, &papers, &[], selection, &settings, now);
    write(arguments, &report)?;
    Ok(CommandOutput::none())
}

fn write(arguments: &ReconcileArguments, report: &MonthReport) -> Result<(), CommandError> {
    let words = Words::of(arguments.lang.unwrap_or(Language::ENGLISH));
    let bytes = match arguments.format {
        Format::Json => {
            let mut value = serde_json::to_value(report).map_err(CommandError::failed)?;
            words.fill(&mut value);
            let mut bytes = serde_json::to_vec_pretty(&value).map_err(CommandError::failed)?;
            bytes.push(b'\n');
            bytes
        }
        Format::Xlsx => workbook_of(&tables_of(report, words), words).map_err(CommandError::failed)?,
        Format::Csv => {
            let tables = tables_of(report, words);
            let names: Vec<&str> = tables.iter().map(|table| table.name).collect();
            let table = tables.iter().find(|table| table.name == arguments.table);
            let table = table.ok_or_else(|| {
                CommandError::refused(format!(
                    "\u{201c}{}\u{201d} is no table; there are {}",
                    arguments.table,
                    names.join(", ")
                ))
            })?;
            csv_of(table).map_err(CommandError::failed)?
        }
    };
    match &arguments.out {
        Some(file) => whole_file::write(file, &bytes)?,
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
