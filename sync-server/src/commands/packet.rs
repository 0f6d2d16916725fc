//! `farsiding export packet` and `farsiding verify`: their arguments, what they print and how they end.

use std::path::{Path, PathBuf};

use clap::Args;
use farsiding_core::entry::car_number::CarNumber;
use farsiding_core::entry::{OrganisationKeys, PublicKey, Trusts as _};
use farsiding_core::evidence::packet::{CheckReport, Code, OtherNote, Outcome, Said};
use farsiding_core::ids::{DeviceId, Digest, VisitId};
use farsiding_core::message;
use farsiding_core::procedure::Procedures;
use serde_json::json;

use crate::commands::witness::read_witness;
use crate::office_folder::{OfficeArguments, open_database};
use crate::outcome::{CommandError, ErrorKind};
use farsiding_host::CommandOutput;
use farsiding_host::whole_file;
use farsiding_host::{ProcessClock, SystemRandomness};
use farsiding_office::OfficeError;
use farsiding_office::data_folder::DataFolder;
use farsiding_office::key_files;
use farsiding_office::language;
use farsiding_office::ledger::{Ledger as _, OfficeLedger};
use farsiding_office::photo_store::PhotoStore;
use farsiding_office::stored_photographs::StoredPhotographs;
use farsiding_packet::{
    LARGEST_FILE, Outside, PacketError, PacketSource, Trusted, check_with, first_page, of_stay, stay_of,
};
use farsiding_words::{Language, Words};

/// The arguments of `farsiding export packet`.
#[derive(Debug, Args)]
pub struct PacketArguments {
    /// The office's data folder. The server may be running.
    #[arg(long, value_name = "DIR")]
    data: PathBuf,
    /// The visit's id, or the beginning of it.
    #[arg(long, value_name = "ID", required_unless_present = "car", conflicts_with = "car")]
    visit: Option<String>,
    /// The car's number. The packet is of the car's last stay.
    #[arg(long, value_name = "NUMBER")]
    car: Option<String>,
    /// The file to write; by default packet-<visit>.pdf in the current folder.
    #[arg(long, value_name = "FILE")]
    out: Option<PathBuf>,
    /// The language of the pages: en-US, es-MX or fr-CA; by default the organisation's (see
    /// `farsiding language`).
    #[arg(long, value_name = "TAG", value_parser = read_language)]
    lang: Option<Language>,
    /// Print the answer as JSON.
    #[arg(long)]
    pub json: bool,
}

/// The arguments of `farsiding language`.
#[derive(Debug, Args)]
pub struct LanguageArguments {
    #[command(flatten)]
    pub(crate) office: OfficeArguments,
    /// The language to set: en-US, es-MX or fr-CA. Without it the present one is printed.
    #[arg(value_name = "TAG", value_parser = read_language)]
    tag: Option<Language>,
}

/// Reads a language in which packets can be made.
pub(crate) fn read_language(tag: &str) -> Result<Language, String> {
    let mut known = Language::all();
    known.find(|language| language.as_str().eq_ignore_ascii_case(tag.trim())).ok_or_else(|| {
        let known: Vec<&str> = Language::all().map(Language::as_str).collect();
        format!("\u{201c}{tag}\u{201d} is no language of this program; known: {}", known.join(", "))
    })
}

/// Runs `farsiding language …`: shows or sets the language of the organisation's packets.
///
/// # Errors
/// Returns a [`CommandError`] when the office's database cannot be read or written.
pub fn run_language(arguments: &LanguageArguments) -> Result<CommandOutput, CommandError> {
    let folder = DataFolder::open(&arguments.office.data)?;
    let kept = match arguments.tag {
        None => language::of_folder(&folder)?,
        Some(tag) => {
            language::keep(&open_database(&folder)?, tag).map_err(OfficeError::from)?;
            tag
        }
    };
    Ok(CommandOutput::new(kept.as_str(), json!({ "language": kept.as_str() })))
}

/// The arguments of `farsiding verify`.
#[derive(Debug, Args)]
pub struct VerifyArguments {
    /// The packet's file.
    file: PathBuf,
    /// The organisation's public key: 64 hexadecimal digits, or a file that holds them.
    #[arg(long, value_name = "HEX|FILE")]
    key: String,
    /// A file with a checkpoint of the organisation's log from another source (a device or a witness), to
    /// compare with. Base64 lines after the signed note are read as a consistency proof between the two
    /// checkpoints.
    #[arg(long, value_name = "NOTE_FILE")]
    against: Option<PathBuf>,
    /// A file with the root's statements about its keys, newer than the packet and from another source
    /// (written by `farsiding key show --out`). A packet alone cannot tell that a key was withdrawn after the
    /// packet was made.
    #[arg(long, value_name = "FILE")]
    keys: Option<PathBuf>,
    /// A witness's key, as NAME+ID+KEY. One of the named witnesses must have signed one of the packet's
    /// checkpoints. Repeat the option for each witness.
    #[arg(long = "witness", value_name = "KEY")]
    witnesses: Vec<String>,
    /// A PEM file with root certificates that must certify the time stamp's authority. Repeat the option for
    /// each file.
    #[arg(long = "tsa-root", value_name = "PEM")]
    tsa_roots: Vec<PathBuf>,
    /// Fail unless the packet has a time stamp that leads to a given root and the signature of a given
    /// witness.
    #[arg(long)]
    strict: bool,
    /// The language of the report: en-US, es-MX or fr-CA. Named, the first page is shown in it too, where the
    /// packet holds it as messages.
    #[arg(long, value_name = "TAG", value_parser = read_language)]
    lang: Option<Language>,
    /// Print the answer as JSON.
    #[arg(long)]
    pub json: bool,
}

/// Runs `farsiding export packet …`.
///
/// # Errors
/// Returns a [`CommandError`] when the stay is unknown or the packet cannot be built or written.
pub fn run_export(packet: &PacketArguments) -> Result<CommandOutput, CommandError> {
    let mut randomness = SystemRandomness::new().map_err(|e| OfficeError::Surroundings(e.to_string()))?;
    let folder = DataFolder::open(&packet.data)?;
    let key = folder.organisation_key(&mut randomness)?;
    let ledger = OfficeLedger::open_to_read(&folder.ledger_place()).map_err(OfficeError::from)?;
    let stay = find_stay(&ledger, &key.public(), (packet.visit.as_deref(), packet.car.as_deref()))?;
    let photos = PhotoStore::to_read(&folder.photo_folder(), &folder.upload_folder())
        .map_err(|e| OfficeError::Stopped(e.to_string()))?;
    let runtime = tokio::runtime::Builder::new_current_thread().enable_all().build()?;
    let photographs = StoredPhotographs { store: &photos, runtime: runtime.handle() };
    let language = match packet.lang {
        Some(language) => language,
        None => language::of_folder(&folder)?,
    };
    let source = PacketSource { store: ledger.store(), key: &key, photographs: &photographs, language };
    let file = of_stay(&source, &stay)?;
    let name = stay.first().map(VisitId::short).unwrap_or_default();
    let out = packet.out.clone().unwrap_or_else(|| PathBuf::from(format!("packet-{name}.pdf")));
    whole_file::write(&out, &file)?;
    let sha256 = Digest::of(&file);
    let json = json!({
        "file": out.display().to_string(), "bytes": file.len(), "sha256": sha256.to_string(),
        "visits": stay.iter().map(ToString::to_string).collect::<Vec<_>>(),
        "organisation_key": key.public().to_string(),
    });
    let text = format!(
        "{}: {} bytes, SHA-256 {sha256}\nCheck it with: farsiding verify {} --key {}",
        out.display(),
        file.len(),
        out.display(),
        key.public()
    );
    Ok(CommandOutput::new(text, json))
}

/// Finds a stay by the beginning of its visit's id, or the last one of a car.
pub(crate) fn find_stay(
    ledger: &OfficeLedger,
    key: &PublicKey,
    (visit, car): (Option<&str>, Option<&str>),
) -> Result<Vec<VisitId>, CommandError> {
    let store = ledger.store();
    if let Some(number) = car {
        let wanted = CarNumber(number.to_owned()).normal();
        let clock = ProcessClock::from_environment().map_err(|e| OfficeError::Surroundings(e.to_string()))?;
        let gathered = farsiding_core::book::Snapshot::read(store, Some(key), clock.time())
            .map_err(CommandError::failed)?;
        let procedures = Procedures::built_in().map_err(PacketError::from)?;
        let mut rows = gathered.rows(&procedures);
        rows.retain(|row| CarNumber(row.car.clone()).normal() == wanted);
        rows.sort_by_key(|row| row.since);
        return rows.pop().map(|row| row.visits).ok_or_else(|| {
            CommandError::refused(format!("no stay of car {wanted} is recorded at this office"))
        });
    }
    let wanted = visit.unwrap_or_default().trim().to_lowercase();
    let found: Vec<VisitId> = store
        .subjects()
        .map_err(OfficeError::from)?
        .into_iter()
        .filter_map(|subject| match subject {
            farsiding_core::ids::Subject::Visit(visit) => Some(visit),
            _ => None,
        })
        .filter(|visit| !wanted.is_empty() && visit.to_string().starts_with(&wanted))
        .collect();
    match found.as_slice() {
        [visit] => Ok(stay_of(store, key, *visit)?),
        [] => Err(CommandError::refused(format!("no visit \"{wanted}\" is recorded at this office"))),
        several => Err(CommandError::refused(format!(
            "\"{wanted}\" begins the ids of {} visits; give more of it",
            several.len()
        ))),
    }
}

pub(crate) fn read_key(text: &str) -> Result<PublicKey, CommandError> {
    if let Ok(key) = DeviceId::read(text) {
        return Ok(key);
    }
    let held = std::fs::read_to_string(Path::new(text)).map_err(|e| {
        CommandError::refused(format!(
            "--key is neither 64 hexadecimal digits nor a file that can be read: {e}"
        ))
    })?;
    DeviceId::read(held.trim()).map_err(|_| {
        CommandError::refused(format!("{text} does not hold a public key of 64 hexadecimal digits"))
    })
}

/// Reads a signed note and the consistency proof after it. The proof is empty if the file holds none.
pub(crate) fn read_note(file: &Path) -> Result<OtherNote, CommandError> {
    use base64::Engine as _;
    let text = small_text(file)?;
    let mut lines: Vec<&str> = text.lines().collect();
    let mut consistency = Vec::new();
    while let Some(line) = lines.last().copied() {
        let decoded = base64::engine::general_purpose::STANDARD.decode(line.trim()).ok();
        match decoded.and_then(|bytes| <[u8; 32]>::try_from(bytes).ok()) {
            Some(digest) if !line.starts_with('\u{2014}') => {
                consistency.push(Digest(digest));
                lines.pop();
            }
            _ => break,
        }
    }
    consistency.reverse();
    Ok(OtherNote { note: lines.join("\n") + "\n", consistency })
}

fn small_text(file: &Path) -> Result<String, CommandError> {
    let length = std::fs::metadata(file)?.len();
    if length > 1024 * 1024 {
        return Err(CommandError::refused(format!("{} is too large to be a checkpoint", file.display())));
    }
    Ok(std::fs::read_to_string(file)?)
}

/// Returns the organisation's keys: the root given with `--key`, and the statements given with `--keys`.
fn keys_given(arguments: &VerifyArguments, key: PublicKey) -> Result<OrganisationKeys, CommandError> {
    let Some(file) = &arguments.keys else { return Ok(OrganisationKeys::of_root(key)) };
    read_keys(file, key)
}

/// Reads a file with the root's statements, which must be about the organisation of this root key.
///
/// # Errors
/// A [`CommandError`] when the file cannot be read, does not hold or is about another organisation.
pub(crate) fn read_keys(file: &Path, key: PublicKey) -> Result<OrganisationKeys, CommandError> {
    let keys = key_files::read_statements(file)?;
    if keys.root() != key {
        return Err(CommandError::refused(format!(
            "{} is about the keys of another organisation than --key",
            file.display()
        )));
    }
    Ok(keys)
}

/// Returns the witnesses and the time stamp roots named on the command line.
fn trusted(arguments: &VerifyArguments) -> Result<Trusted, CommandError> {
    let witnesses = arguments.witnesses.iter().map(|key| read_witness(key)).collect::<Result<Vec<_>, _>>()?;
    let mut tsa_roots = Vec::new();
    for file in &arguments.tsa_roots {
        let unusable =
            |why: String| CommandError::refused(format!("{} is no file of roots: {why}", file.display()));
        let pem = std::fs::read(file).map_err(|e| unusable(e.to_string()))?;
        tsa_roots.extend(farsiding_timestamp::read_roots(&pem).map_err(|e| unusable(e.to_string()))?);
    }
    Ok(Trusted { witnesses, tsa_roots })
}

fn told(words: &Words, outside: &Outside, report: &CheckReport, compared: bool) -> serde_json::Value {
    let whole = !report.lines.iter().any(|line| line.code == Code::NoHead);
    let compared = compared && !report.found(Code::LogFork) && !report.found(Code::NotCompared);
    let not_after: Vec<_> = outside
        .not_after
        .iter()
        .map(|stamp| json!({ "at": stamp.at.rfc3339(), "authority": stamp.authority, "size": stamp.size }))
        .collect();
    let witnesses: Vec<_> = outside
        .witnessed
        .iter()
        .map(|signed| {
            json!({ "name": signed.name, "at": signed.at.rfc3339(), "size": signed.size, "all": signed.covers_all })
        })
        .collect();
    json!({
        "not_after": not_after, "witnesses": witnesses, "strict": outside.is_strict(),
        "verdict": words.text(&outside.verdict()),
        "word": outside.word(whole, compared),
    })
}

/// Runs `farsiding verify …`.
///
/// # Errors
/// Returns a [`CommandError`] when a part of the packet does not hold, or when a file cannot be read.
pub fn run_verify(arguments: &VerifyArguments) -> Result<CommandOutput, CommandError> {
    let key = read_key(&arguments.key)?;
    let against = arguments.against.as_deref().map(read_note).transpose()?;
    let trusted = trusted(arguments)?;
    let length = std::fs::metadata(&arguments.file)?.len();
    if length > LARGEST_FILE as u64 {
        return Err(CommandError::refused(format!("{} is larger than any packet", arguments.file.display())));
    }
    let file = std::fs::read(&arguments.file)?;
    let (report, outside) =
        check_with(&file, &keys_given(arguments, key)?, against.as_ref(), &trusted, arguments.strict)?;
    let holds = report.all_holds();
    let words = Words::of(arguments.lang.unwrap_or(Language::ENGLISH));
    let facts = arguments.lang.map(|_| first_page(&file)).unwrap_or_default();
    let text = verified_text(words, &outside, &report, &facts);
    let mut json = json!({
        "ok": holds, "lines": report.lines, "outside": told(words, &outside, &report, against.is_some()),
    });
    if !facts.is_empty() {
        let facts = facts.iter().map(|said| json!({ "label": said.label, "text": said.text }));
        json["first_page"] = facts.collect();
    }
    words.fill(&mut json);
    let output = CommandOutput::new(text, json);
    if holds {
        Ok(output)
    } else {
        let message = format!("{} does not hold", arguments.file.display());
        Err(CommandError::after(output, ErrorKind::DoesNotHold, message))
    }
}

/// Returns what was found as text: a line for each part, the verdict, and the first page's facts.
fn verified_text(words: &Words, outside: &Outside, report: &CheckReport, facts: &[Said]) -> String {
    let mut lines = Vec::new();
    for line in &report.lines {
        let mark = words.say(match line.outcome {
            Outcome::Holds => "verify-mark-holds",
            Outcome::Marked => "verify-mark-marked",
            Outcome::Broken => "verify-mark-broken",
        });
        lines.push(format!("{mark:<6}  {:<22}  {}", line.code.word(), words.text(&line.message)));
    }
    let notes = report.lines.iter().filter(|line| line.outcome == Outcome::Marked).count();
    let shows = message!("verify-shows");
    lines.push(words.text(&match (report.all_holds(), notes) {
        (true, 0) => message!("verify-all-holds", shows = shows),
        (true, notes) => message!("verify-holds-with-notes", count = notes, shows = shows),
        (false, _) => message!("verify-does-not-hold"),
    }));
    lines.push(words.text(&outside.verdict()));
    if report.all_holds() && !facts.is_empty() {
        let drawn = report.lines.iter().any(|line| line.code == Code::Pages);
        lines.push(String::new());
        lines.push(words.say(if drawn { "verify-first-page-says" } else { "verify-first-page-undrawn" }));
        for said in facts {
            let (label, text) = (words.text(&said.label), words.text(&said.text).replace('\n', " "));
            lines.push(format!("{label:<22}  {text}").trim_start().to_owned());
        }
    }
    lines.join("\n")
}
