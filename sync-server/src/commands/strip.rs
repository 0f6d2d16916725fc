//! `farsiding export strip`: the steps on paper, of a stay or blank for a site, as a PDF.
//!
//! What stands on the paper is decided in `farsiding_packet::strip`.

use std::path::PathBuf;

use clap::Args;
use farsiding_core::book::Snapshot;
use farsiding_core::entry::vocabulary::Receiver;
use farsiding_core::ids::VisitId;
use farsiding_core::procedure::{Procedures, built_in};
use farsiding_packet::PacketError;
use farsiding_packet::strip::{Strip, pdf};
use farsiding_words::Language;
use serde_json::json;

use crate::commands::packet::{find_stay, read_language};
use crate::outcome::CommandError;
use farsiding_host::{CommandOutput, ProcessClock, SystemRandomness, whole_file};
use farsiding_office::OfficeError;
use farsiding_office::data_folder::DataFolder;
use farsiding_office::language;
use farsiding_office::ledger::{Ledger as _, OfficeLedger};

/// The arguments of `farsiding export strip`.
#[derive(Debug, Args)]
pub struct StripArguments {
    /// The office's data folder. The server may be running.
    #[arg(long, value_name = "DIR")]
    data: PathBuf,
    /// The visit's id, or the beginning of it.
    #[arg(long, value_name = "ID", required_unless_present_any = ["car", "site"], conflicts_with_all = ["car", "site"])]
    visit: Option<String>,
    /// The car's number. The strip is of the car's last stay.
    #[arg(long, value_name = "NUMBER", conflicts_with = "site")]
    car: Option<String>,
    /// The name of a site. The strip is blank, of the procedure that new stays there begin under.
    #[arg(long, value_name = "NAME")]
    site: Option<String>,
    /// What the site unloads into, for a blank strip: fixed_tank or truck.
    #[arg(long, value_name = "WORD", default_value = "fixed_tank", value_parser = read_receiver)]
    into: Receiver,
    /// The file to write; by default steps-<visit>.pdf, or steps.pdf for a site, in the current folder.
    #[arg(long, value_name = "FILE")]
    out: Option<PathBuf>,
    /// The language of the strip: en-US, es-MX or fr-CA; by default the organisation's.
    #[arg(long, value_name = "TAG", value_parser = read_language)]
    lang: Option<Language>,
    /// Print the answer as JSON.
    #[arg(long)]
    pub json: bool,
}

fn read_receiver(word: &str) -> Result<Receiver, String> {
    Receiver::read(word).ok_or_else(|| {
        let known: Vec<&str> = Receiver::ALL.iter().map(|receiver| receiver.word()).collect();
        format!("\u{201c}{word}\u{201d} is none of {}", known.join(", "))
    })
}

/// Runs `farsiding export strip …`.
///
/// # Errors
/// Returns a [`CommandError`] when the stay or the site is unknown, or the file cannot be written.
pub fn run(arguments: &StripArguments) -> Result<CommandOutput, CommandError> {
    let mut randomness = SystemRandomness::new().map_err(CommandError::failed)?;
    let folder = DataFolder::open(&arguments.data)?;
    let key = folder.organisation_key(&mut randomness)?;
    let ledger = OfficeLedger::open_to_read(&folder.ledger_place()).map_err(OfficeError::from)?;
    let now = ProcessClock::from_environment().map_err(CommandError::failed)?.time();
    let procedures = Procedures::built_in().map_err(PacketError::from)?;
    let gathered = Snapshot::read(ledger.store(), Some(&key.public()), now).map_err(CommandError::failed)?;
    let language = match arguments.lang {
        Some(language) => language,
        None => language::of_folder(&folder)?,
    };
    let (strip, zone, name) = match &arguments.site {
        Some(name) => {
            let site = gathered.sites.values().find(|site| site.name.trim() == name.trim());
            let site = site.ok_or_else(|| {
                CommandError::refused(format!("no site is called \u{201c}{name}\u{201d} at this office"))
            })?;
            let own = site.id.and_then(|id| gathered.editions.for_site(id));
            let procedure = own.or(built_in().last()).ok_or_else(|| CommandError::failed("no procedure"))?;
            let strip = Strip::blank(procedure, &site.name, &site.local_rules, arguments.into);
            (strip, site.zone.clone(), "steps.pdf".to_owned())
        }
        None => {
            let asked = (arguments.visit.as_deref(), arguments.car.as_deref());
            let stay = find_stay(&ledger, &key.public(), asked)?;
            let visit =
                stay.first().copied().ok_or_else(|| CommandError::refused("no such visit".to_owned()))?;
            let view = gathered.view(visit, &procedures);
            let view = view.ok_or_else(|| CommandError::from(PacketError::NoSuchVisit(visit)))?;
            let zone = view.header.zone.clone();
            let name = format!("steps-{}.pdf", VisitId::short(&visit));
            (Strip::of_visit(&view, now), zone, name)
        }
    };
    let file = pdf(&strip, language, &zone, now)?;
    let out = arguments.out.clone().unwrap_or_else(|| PathBuf::from(name));
    whole_file::write(&out, &file)?;
    let text = format!("{}: {} steps, {} bytes", out.display(), strip.steps.len(), file.len());
    let json = json!({ "file": out.display().to_string(), "bytes": file.len(), "steps": strip.steps.len() });
    Ok(CommandOutput::new(text, json))
}
