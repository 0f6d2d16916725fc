//! `farsiding procedure`: publish an edition of the organisation's own procedure from a file, list the editions, and take
//! one back.
//!
//! The pages of the office do the same without a file. What a text must be is checked in `farsiding_core`.

use std::path::PathBuf;

use clap::{Args, Subcommand};
use farsiding_core::book::{Draft, Roster};
use farsiding_core::entry::Statement;
use farsiding_core::entry::site_facts::PublishedProcedure;
use farsiding_core::ids::{Digest, OrganisationId, SiteId, Subject};
use farsiding_core::procedure::{Procedure, built_in};
use farsiding_core::view::{Editions, fit_to_publish};
use farsiding_words::Words;
use serde_json::json;

use crate::office_folder::{OfficeArguments, OpenOffice};
use crate::outcome::CommandError;
use farsiding_host::CommandOutput;
use farsiding_office::ledger::Ledger as _;

/// The arguments of `farsiding procedure`.
#[derive(Debug, Args)]
pub(crate) struct ProcedureArguments {
    #[command(subcommand)]
    what: ProcedureWhat,
}

#[derive(Debug, Subcommand)]
enum ProcedureWhat {
    /// Publish an edition. New stays at its sites begin under it once their phones have it.
    Publish {
        #[command(flatten)]
        office: OfficeArguments,
        /// The text of the edition, a TOML file.
        file: PathBuf,
        /// A site at which new stays begin under it, by its id; repeat the option for more. Without it: all sites.
        #[arg(long, value_name = "ID", value_parser = read_site)]
        site: Vec<SiteId>,
        /// The edition that it was made from, by the SHA-256 of its text. Without it: the one that the text starts from.
        #[arg(long, value_name = "SHA256", value_parser = read_digest)]
        from: Option<Digest>,
        /// What was changed, and why.
        #[arg(long)]
        note: String,
    },
    /// List the editions that were published, the newest last.
    List {
        #[command(flatten)]
        office: OfficeArguments,
    },
    /// Take an edition back. Stays that began under it keep it.
    Withdraw {
        #[command(flatten)]
        office: OfficeArguments,
        /// The edition, by the SHA-256 of its text.
        #[arg(value_parser = read_digest)]
        procedure: Digest,
        /// Why it is taken back.
        #[arg(long)]
        why: String,
    },
}

fn read_digest(text: &str) -> Result<Digest, String> {
    Digest::read(text).map_err(|_| "an edition is named by its SHA-256, 64 hexadecimal digits".to_owned())
}

fn read_site(text: &str) -> Result<SiteId, String> {
    SiteId::read(text).map_err(|error| error.to_string())
}

impl ProcedureArguments {
    fn office(&self) -> &OfficeArguments {
        match &self.what {
            ProcedureWhat::Publish { office, .. }
            | ProcedureWhat::List { office }
            | ProcedureWhat::Withdraw { office, .. } => office,
        }
    }

    /// Returns whether the answer is printed as JSON.
    pub(crate) fn wants_json(&self) -> bool {
        self.office().json
    }
}

/// Runs `farsiding procedure`.
pub(crate) fn run(arguments: &ProcedureArguments) -> Result<CommandOutput, CommandError> {
    let office = arguments.office();
    let mut open = OpenOffice::open(&office.data)?;
    let roster = Roster::read(open.ledger.store(), &open.key.public()).map_err(CommandError::failed)?;
    let subject = Subject::Roster(OrganisationId::of_key(&open.key.public()));
    match &arguments.what {
        ProcedureWhat::List { .. } => Ok(list(&roster.editions)),
        ProcedureWhat::Publish { file, site, from, note, .. } => {
            let text = std::fs::read_to_string(file)?;
            let known = |digest: Digest| -> Option<&Procedure> {
                let ours = built_in().iter().find(|procedure| procedure.digest == digest);
                ours.or_else(|| roster.editions.get(digest))
            };
            if note.trim().is_empty() {
                return Err(CommandError::refused("say with --note what was changed".to_owned()));
            }
            let base = match from {
                Some(from) => Some(
                    known(*from)
                        .ok_or_else(|| CommandError::refused(format!("there is no edition {from}")))?,
                ),
                None => None,
            };
            let procedure = fit_to_publish(&text, base)
                .map_err(|why| CommandError::refused(Words::english().text(&why)))?;
            let says = Statement::ProcedurePublished(PublishedProcedure {
                procedure: procedure.digest,
                text,
                sites: site.clone(),
                from: from.or(procedure.starts_from),
                note: note.trim().to_owned(),
            });
            open.sign(
                subject,
                vec![Draft::of(says)],
                ("published a procedure", &format!("procedure:{}", procedure.digest)),
            )?;
            let text = format!("Published. Its SHA-256 is {}.", procedure.digest);
            Ok(CommandOutput::new(text, json!({ "procedure": procedure.digest.to_string() })))
        }
        ProcedureWhat::Withdraw { procedure, why, .. } => {
            let known = roster.editions.edition(*procedure).filter(|edition| edition.taken_back.is_none());
            if known.is_none() {
                let missing = format!("there is no published edition {procedure} that was not taken back");
                return Err(CommandError::refused(missing));
            }
            if why.trim().is_empty() {
                return Err(CommandError::refused("say with --why it is taken back".to_owned()));
            }
            let says =
                Statement::ProcedureWithdrawn { procedure: *procedure, because: why.trim().to_owned() };
            open.sign(
                subject,
                vec![Draft::of(says)],
                ("took back a procedure", &format!("procedure:{procedure}")),
            )?;
            let json = json!({ "withdrawn": procedure.to_string() });
            Ok(CommandOutput::new("Taken back. Stays that began under it keep it.", json))
        }
    }
}

fn list(editions: &Editions) -> CommandOutput {
    let words = Words::english();
    let shown: Vec<serde_json::Value> = editions
        .iter()
        .map(|edition| {
            let (title, wrong) = match &edition.procedure {
                Ok(procedure) => (words.text(&procedure.title), None),
                Err(why) => (String::new(), Some(words.text(why))),
            };
            json!({
                "procedure": edition.digest.to_string(),
                "edition": edition.procedure.as_ref().map_or("", |procedure| procedure.edition.as_str()),
                "title": title,
                "unusable": wrong,
                "sites": edition.published.sites.iter().map(ToString::to_string).collect::<Vec<_>>(),
                "note": edition.published.note,
                "by": edition.by.to_string(),
                "at": edition.at.rfc3339(),
                "taken_back": edition.taken_back.as_ref().map(|end| end.because.clone()),
            })
        })
        .collect();
    let text = |value: &serde_json::Value| value.as_str().unwrap_or_default().to_owned();
    let lines: Vec<String> = shown
        .iter()
        .map(|edition| {
            let sites = edition["sites"].as_array().map_or(0, Vec::len);
            let sites = if sites == 0 { "all sites".to_owned() } else { format!("{sites} sites") };
            let standing = match (&edition["taken_back"], &edition["unusable"]) {
                (serde_json::Value::String(why), _) => format!("taken back: {why}"),
                (_, serde_json::Value::String(why)) => format!("cannot be used: {why}"),
                _ => "in force".to_owned(),
            };
            format!(
                "{} {} ({sites}), {} by {}, {standing}",
                text(&edition["procedure"]),
                text(&edition["edition"]),
                text(&edition["at"]),
                text(&edition["by"])
            )
        })
        .collect();
    let none = "No edition was published; the built-in one applies.".to_owned();
    let text = if lines.is_empty() { none } else { lines.join("\n") };
    CommandOutput::new(text, json!({ "editions": shown }))
}
