//! `farsiding papers`: import a file of shipping papers and send them to a site, list what was sent, and take one back.
//!
//! The pages of the office do the same. Which lines of a file can be sent is decided in `farsiding_office::expected_papers`,
//! and which cars a phone shows in `farsiding_core::view`.

use std::path::PathBuf;

use clap::{Args, Subcommand};
use farsiding_core::book::Snapshot;
use farsiding_core::entry::car_number::CarNumber;
use farsiding_core::ids::{Digest, SiteId, Subject};
use farsiding_core::view::{ExpectedCar, SiteView};
use farsiding_words::Words;
use serde_json::json;

use crate::office_folder::{BY, OfficeArguments, OpenOffice, open_database};
use crate::outcome::CommandError;
use farsiding_host::CommandOutput;
use farsiding_office::OfficeError;
use farsiding_office::expected_papers::{self, MOST_AT_ONCE};
use farsiding_office::held_papers;
use farsiding_office::ledger::Ledger as _;
use farsiding_reconcile::papers::import::{ImportError, PaperLine, take_apart};

/// The arguments of `farsiding papers`.
#[derive(Debug, Args)]
pub(crate) struct PapersArguments {
    #[command(subcommand)]
    what: PapersWhat,
}

#[derive(Debug, Subcommand)]
enum PapersWhat {
    /// Import a file of shipping papers and send its recent ones to a site, whose phones then show the cars as expected.
    Send {
        #[command(flatten)]
        office: OfficeArguments,
        /// The file: a table in UTF-8 with headings in the first line.
        file: PathBuf,
        /// The site, by its id.
        #[arg(long, value_name = "ID", value_parser = read_site)]
        site: SiteId,
        /// Send the paper of this car alone; repeat the option for more. Without it: every recent paper.
        #[arg(long, value_name = "NUMBER")]
        car: Vec<String>,
    },
    /// List the papers that stand at a site, the newest first.
    List {
        #[command(flatten)]
        office: OfficeArguments,
        /// The site, by its id. Without it: every site.
        #[arg(long, value_name = "ID", value_parser = read_site)]
        site: Option<SiteId>,
    },
    /// Take the paper of an expected car back.
    TakeBack {
        #[command(flatten)]
        office: OfficeArguments,
        /// The car's number.
        car: String,
        /// The site, by its id.
        #[arg(long, value_name = "ID", value_parser = read_site)]
        site: SiteId,
        /// Why it is taken back.
        #[arg(long)]
        why: String,
    },
}

fn read_site(text: &str) -> Result<SiteId, String> {
    SiteId::read(text).map_err(|error| error.to_string())
}

impl PapersArguments {
    fn office(&self) -> &OfficeArguments {
        match &self.what {
            PapersWhat::Send { office, .. }
            | PapersWhat::List { office, .. }
            | PapersWhat::TakeBack { office, .. } => office,
        }
    }

    /// Returns whether the answer is printed as JSON.
    pub(crate) fn wants_json(&self) -> bool {
        self.office().json
    }
}

/// Returns the sites as they are now; `None` for a site that the office does not know.
fn sites(open: &OpenOffice) -> Result<Snapshot, CommandError> {
    Snapshot::read(open.ledger.store(), Some(&open.key.public()), open.now).map_err(CommandError::failed)
}

fn known(snapshot: &Snapshot, site: SiteId) -> Result<&SiteView, CommandError> {
    let found = snapshot.sites.get(&site);
    found.ok_or_else(|| CommandError::refused(format!("there is no site {site}")))
}

/// Runs `farsiding papers`.
pub(crate) fn run(arguments: &PapersArguments) -> Result<CommandOutput, CommandError> {
    let office = arguments.office();
    let mut open = OpenOffice::open(&office.data)?;
    let snapshot = sites(&open)?;
    match &arguments.what {
        PapersWhat::List { site, .. } => list(&snapshot, *site),
        PapersWhat::Send { file, site, car, .. } => {
            let view = known(&snapshot, *site)?;
            let bytes = std::fs::read(file)?;
            let name = file.file_name().map_or(String::new(), |name| name.to_string_lossy().into_owned());
            let sheet = take_apart(&bytes).map_err(|error| refused_file(&error))?;
            let mut database = open_database(&open.folder)?;
            let remembered =
                held_papers::mapping_of(database.connection(), &sheet).map_err(OfficeError::from)?;
            let mapping = remembered.unwrap_or_else(|| sheet.guess());
            let left_out: Vec<PaperLine> =
                sheet.read(&mapping).into_iter().filter(|line| !line.faults.is_empty()).collect();
            let wanted: Vec<String> = car.iter().map(|car| CarNumber(car.clone()).normal()).collect();
            let sendable = expected_papers::sendable((&name, &bytes), &mapping, open.now)
                .map_err(|error| refused_file(&error))?;
            let chosen: Vec<_> = sendable
                .into_iter()
                .filter(|one| match wanted.is_empty() {
                    true => one.recent,
                    false => wanted.contains(&one.paper.car.normal()),
                })
                .map(|one| one.paper)
                .collect();
            if chosen.is_empty() {
                let why = "no line of this file can be sent".to_owned();
                return Err(CommandError::refused(with_left_out(why, &left_out)));
            }
            if chosen.len() > MOST_AT_ONCE {
                let most = format!("at most {MOST_AT_ONCE} papers are sent at once; choose some with --car");
                return Err(CommandError::refused(most));
            }
            held_papers::keep(database.connection_mut(), (&name, &bytes), (&sheet, &mapping), BY, open.now)
                .map_err(OfficeError::from)?;
            let all = chosen.len();
            let new: Vec<_> =
                chosen.into_iter().filter(|paper| !expected_papers::stands_there(view, paper)).collect();
            let cars: Vec<String> = new.iter().map(|paper| paper.car.normal()).collect();
            let file = Digest::of(&bytes);
            if !new.is_empty() {
                let drafts = expected_papers::drafts(new);
                open.sign(
                    Subject::Site(*site),
                    drafts,
                    ("sent papers to a site", &format!("papers:{file}")),
                )?;
            }
            let json = json!({
                "file": file.to_string(), "sent": cars, "stood_there": all - cars.len(),
                "left_out": left_out.iter().map(why_left_out).collect::<Vec<_>>(),
            });
            let text = match cars.as_slice() {
                [] => "Nothing was sent: these papers stand at the site already.".to_owned(),
                cars => format!("Sent: {}.", cars.join(", ")),
            };
            Ok(CommandOutput::new(with_left_out(text, &left_out), json))
        }
        PapersWhat::TakeBack { car, site, why, .. } => {
            let car = CarNumber(car.clone()).normal();
            let standing = known(&snapshot, *site)?.papers.standing().find(|paper| paper.car == car);
            let Some(file) = standing.map(|paper| paper.file) else {
                return Err(CommandError::refused(format!("no paper of {car} stands at this site")));
            };
            if why.trim().is_empty() {
                return Err(CommandError::refused("say with --why it is taken back".to_owned()));
            }
            let draft = expected_papers::taking_back(&car, why);
            open.sign(
                Subject::Site(*site),
                vec![draft],
                ("took a sent paper back", &format!("papers:{file}")),
            )?;
            Ok(CommandOutput::new("Taken back.", json!({ "taken_back": car })))
        }
    }
}

/// Returns why a line is left out, with its number in the file.
fn why_left_out(line: &PaperLine) -> String {
    let words = Words::english();
    let why: Vec<String> = line.faults.iter().map(|fault| words.text(fault)).collect();
    format!("line {}: {}", line.line, why.join("; "))
}

/// Returns a text with the lines that are left out below it, each with its reason.
fn with_left_out(text: String, left_out: &[PaperLine]) -> String {
    let lines = left_out.iter().map(|line| format!("Left out, {}", why_left_out(line)));
    std::iter::once(text).chain(lines).collect::<Vec<_>>().join("\n")
}

fn refused_file(error: &ImportError) -> CommandError {
    CommandError::refused(match error {
        ImportError::NotText => "the file is not UTF-8 text".to_owned(),
        ImportError::NoHeads => "the file has no first line with column headings".to_owned(),
        ImportError::TooMuch(why) => Words::english().text(why),
    })
}

fn list(snapshot: &Snapshot, site: Option<SiteId>) -> Result<CommandOutput, CommandError> {
    if let Some(site) = site {
        known(snapshot, site)?;
    }
    let mut rows: Vec<(SiteId, bool, &ExpectedCar)> = Vec::new();
    for (id, view) in snapshot.sites.iter().filter(|(id, _)| site.is_none_or(|site| site == **id)) {
        let waiting = snapshot.site_now(*id).map_or(Vec::new(), |now| now.expected);
        let waits = |paper: &ExpectedCar| waiting.iter().any(|one| one.entry == paper.entry);
        rows.extend(view.papers.standing().map(|paper| (*id, waits(paper), paper)));
    }
    rows.sort_by(|a, b| b.2.at.cmp(&a.2.at).then_with(|| a.2.line.cmp(&b.2.line)));
    let shown: Vec<serde_json::Value> = rows
        .iter()
        .map(|(site, waits, paper)| {
            json!({
                "site": site.to_string(),
                "car": paper.car,
                "number": paper.paper.number,
                "billed": paper.paper.billed.as_ref().map(|billed| billed.shown()),
                "expected": paper.expected,
                "file": paper.file.to_string(),
                "file_name": paper.file_name,
                "line": paper.line,
                "by": paper.by.to_string(),
                "at": paper.at.rfc3339(),
                "waits": waits,
            })
        })
        .collect();
    let lines: Vec<String> = rows
        .iter()
        .map(|(site, waits, paper)| {
            let standing = if *waits { "expected" } else { "not shown: it came, or did not come in time" };
            format!(
                "{} at {}, paper {} ({}, line {}), {} by {}, {standing}",
                paper.car,
                site.short(),
                paper.paper.number,
                paper.file_name,
                paper.line,
                paper.at.rfc3339(),
                paper.by
            )
        })
        .collect();
    let none = "No paper stands at a site.".to_owned();
    let text = if lines.is_empty() { none } else { lines.join("\n") };
    Ok(CommandOutput::new(text, json!({ "papers": shown })))
}
