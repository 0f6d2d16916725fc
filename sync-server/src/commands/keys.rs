//! `farsiding key …`: shows and changes the organisation's keys.

use std::path::{Path, PathBuf};

use clap::{Args, Subcommand, ValueEnum};
use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::{
    KeyStanding, KeyWord, KnownKey, OrganisationKey, OrganisationKeys, Trusts as _, WhyWithdrawn,
};
use farsiding_core::ids::DeviceId;
use serde_json::{Value, json};

use crate::office_folder::{OfficeArguments, clock};
use crate::outcome::CommandError;
use farsiding_host::CommandOutput;
use farsiding_host::SystemRandomness;
use farsiding_host::whole_file;
use farsiding_office::OfficeError;
use farsiding_office::data_folder::DataFolder;
use farsiding_office::grants;
use farsiding_office::key_files::{self, Request};
use farsiding_office::keys::changing::{self, KeyChangeError, KeyChanging, Taken};
use farsiding_office::keys::may_sign;

/// The days for which a new key signs by default: a year, plus a month in which the renewal may be late.
const USUAL_DAYS: u16 = 395;

const KEY_HELP: &str = "\
Phones trust the root key. While the root key is on the server, anybody who copies the server can sign as the
organisation for ever.
  farsiding key offline --data DIR --out FILE    moves the root key into FILE: keep FILE and a copy in safe places
  farsiding key renew --data DIR --root FILE     names the next signing key: once a year, before the current one ends
  farsiding key withdraw --data DIR --root FILE --why stolen
The root key never has to return to the server: use `key request` on the server, `key sign` where the root key is
kept, and `key take` on the server. Stop the server for every change. Update every phone before the root key is
moved: older apps trust the root key only. Earlier backups of the folder still hold the root key: keep them as safe
as the root key itself.";

/// The arguments of `farsiding key`.
#[derive(Debug, Args)]
#[command(after_help = KEY_HELP)]
pub struct KeyArguments {
    #[command(subcommand)]
    what: What,
}

#[derive(Debug, Subcommand)]
enum What {
    /// Show the root's public key, the keys that sign for the root, and the root's statements about them.
    Show(ShowArguments),
    /// Move the root key off this server into a file. A key that the root names signs from then on.
    Offline(OfflineArguments),
    /// Name the next signing key.
    Renew(RenewArguments),
    /// Withdraw a key. If it is the current signing key, also name its successor.
    Withdraw(WithdrawArguments),
    /// Name another root key.
    Successor(SuccessorArguments),
    /// Create the file of a new root key, for `request --successor`.
    NewRoot(NewRootArguments),
    /// Write a request for one of these changes into a file, for a root key that is kept elsewhere.
    Request(RequestArguments),
    /// Sign a request with the root key. No data folder is needed.
    Sign(SignArguments),
    /// Apply the root's signed answer to this office.
    Take(TakeArguments),
}

#[derive(Debug, Args)]
struct ShowArguments {
    #[command(flatten)]
    office: OfficeArguments,
    /// A file to write the statements into as well, for people who check packets with `verify --keys`.
    #[arg(long, value_name = "FILE")]
    out: Option<PathBuf>,
}

#[derive(Debug, Args)]
struct Until {
    /// The last day on which the new key signs, such as 2027-06-30; by default 395 days from now.
    #[arg(long, value_name = "DATE")]
    until: Option<String>,
}

#[derive(Debug, Args)]
struct OfflineArguments {
    #[command(flatten)]
    office: OfficeArguments,
    /// The new file to write the root key into.
    #[arg(long, value_name = "FILE")]
    out: PathBuf,
    #[command(flatten)]
    until: Until,
}

#[derive(Debug, Args)]
struct Root {
    /// The file with the root key.
    #[arg(long, value_name = "FILE")]
    root: PathBuf,
}

#[derive(Debug, Args)]
struct RenewArguments {
    #[command(flatten)]
    office: OfficeArguments,
    #[command(flatten)]
    root: Root,
    #[command(flatten)]
    until: Until,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum WhyWord {
    /// Somebody else may have the key. What it signed is no longer believed.
    Stolen,
    /// Nobody has the key any more. What it signed still holds.
    Lost,
    /// Another key replaces it. What it signed still holds.
    Replaced,
}

impl WhyWord {
    const fn why(self) -> WhyWithdrawn {
        match self {
            WhyWord::Stolen => WhyWithdrawn::Stolen,
            WhyWord::Lost => WhyWithdrawn::Lost,
            WhyWord::Replaced => WhyWithdrawn::Replaced,
        }
    }
}

#[derive(Debug, Args)]
struct Withdrawal {
    /// The first digits of the key to withdraw; by default the current signing key.
    #[arg(long, value_name = "HEX")]
    key: Option<String>,
    /// The newest checkpoint that is still trusted; by default the newest of this office's log.
    #[arg(long, value_name = "NOTE_FILE")]
    checkpoint: Option<PathBuf>,
}

#[derive(Debug, Args)]
struct WithdrawArguments {
    #[command(flatten)]
    office: OfficeArguments,
    #[command(flatten)]
    root: Root,
    /// Why the key is withdrawn.
    #[arg(long)]
    why: WhyWord,
    #[command(flatten)]
    which: Withdrawal,
    #[command(flatten)]
    until: Until,
}

#[derive(Debug, Args)]
struct SuccessorArguments {
    #[command(flatten)]
    office: OfficeArguments,
    #[command(flatten)]
    root: Root,
    /// The file with the new root key. It is created if it does not exist.
    #[arg(long, value_name = "FILE")]
    new: PathBuf,
}

#[derive(Debug, Args)]
struct NewRootArguments {
    /// The new file to write the root key into.
    #[arg(long, value_name = "FILE")]
    out: PathBuf,
    /// Print the answer as JSON.
    #[arg(long)]
    json: bool,
}

#[derive(Debug, Args)]
struct RequestArguments {
    #[command(flatten)]
    office: OfficeArguments,
    /// Ask to withdraw a key, instead of only naming the next one.
    #[arg(long, value_name = "WHY", conflicts_with = "successor")]
    withdraw: Option<WhyWord>,
    #[command(flatten)]
    which: Withdrawal,
    /// Ask to name the root with this public key, instead of the next signing key.
    #[arg(long, value_name = "HEX")]
    successor: Option<String>,
    #[command(flatten)]
    until: Until,
    /// The file to write the request into.
    #[arg(long, value_name = "FILE")]
    out: PathBuf,
}

#[derive(Debug, Args)]
struct SignArguments {
    #[command(flatten)]
    root: Root,
    /// The file with the request.
    request: PathBuf,
    /// The file to write the root's answer into.
    #[arg(long, value_name = "FILE")]
    out: PathBuf,
    /// Print the answer as JSON.
    #[arg(long)]
    json: bool,
}

#[derive(Debug, Args)]
struct TakeArguments {
    #[command(flatten)]
    office: OfficeArguments,
    /// The file with the root's answer, or with statements from elsewhere.
    statements: PathBuf,
}

impl KeyArguments {
    /// Returns whether the answer is printed as JSON.
    pub fn wants_json(&self) -> bool {
        match &self.what {
            What::Show(ShowArguments { office, .. })
            | What::Offline(OfflineArguments { office, .. })
            | What::Renew(RenewArguments { office, .. })
            | What::Withdraw(WithdrawArguments { office, .. })
            | What::Successor(SuccessorArguments { office, .. })
            | What::Request(RequestArguments { office, .. })
            | What::Take(TakeArguments { office, .. }) => office.json,
            What::NewRoot(NewRootArguments { json, .. }) | What::Sign(SignArguments { json, .. }) => *json,
        }
    }
}

fn dice() -> Result<SystemRandomness, CommandError> {
    Ok(SystemRandomness::new().map_err(|e| OfficeError::Surroundings(e.to_string()))?)
}

impl Until {
    fn read(&self, now: UtcMillis) -> Result<Option<UtcMillis>, CommandError> {
        match self.until.as_deref().map(str::trim) {
            None => Ok(Some(grants::days_from(now, USUAL_DAYS))),
            Some("") => Err(CommandError::refused("--until needs a day, as 2027-06-30")),
            Some(text) => grants::read_until(text, now).map_err(|e| CommandError::refused(e.to_string())),
        }
    }
}

/// Runs `farsiding key …`.
///
/// # Errors
/// Returns a [`CommandError`] when the change is refused or fails; the keys are then unchanged.
pub fn run(arguments: &KeyArguments) -> Result<CommandOutput, CommandError> {
    match &arguments.what {
        What::Show(show) => run_show(show),
        What::Offline(offline) => run_offline(offline),
        What::Renew(renew) => {
            let mut desk = open(&renew.office)?;
            let request = desk.ask_renewal(renew.until.read(now()?)?, &mut dice()?)?;
            sign_and_take(&mut desk, &request, &renew.root.root)
        }
        What::Withdraw(withdraw) => {
            let mut desk = open(&withdraw.office)?;
            let request = ask_withdrawal(&desk, withdraw.why, &withdraw.which, &withdraw.until)?;
            sign_and_take(&mut desk, &request, &withdraw.root.root)
        }
        What::Successor(successor) => {
            let mut desk = open(&successor.office)?;
            let new = if successor.new.exists() {
                changing::read_root(&successor.new)?
            } else {
                OrganisationKey::random(&mut dice()?)
            };
            let request = desk.ask_successor(new.public())?;
            let root = changing::read_root(&successor.root.root)?;
            // The request is signed once as a trial, so that a refused request leaves no unneeded file
            // behind. The file is written before the office relies on the new root.
            changing::sign(&request, desk.key().keys().clone(), &root)?;
            changing::write_root(&successor.new, &new)?;
            sign_and_take(&mut desk, &request, &successor.root.root)
        }
        What::NewRoot(new) => {
            let made = OrganisationKey::random(&mut dice()?);
            changing::write_root(&new.out, &made)?;
            let (file, key) = (new.out.display().to_string(), made.public().to_string());
            let text = format!("{file} holds a new root, its owner's alone. Its public key: {key}");
            Ok(CommandOutput::new(text, json!({ "file": file, "key": key })))
        }
        What::Request(request) => run_request(request),
        What::Sign(sign) => run_sign(sign),
        What::Take(take) => {
            let mut desk = open(&take.office)?;
            let brought = key_files::read_statements(&take.statements)?;
            Ok(taken(&desk.take(&brought)?, None))
        }
    }
}

fn now() -> Result<UtcMillis, CommandError> {
    Ok(clock()?.time())
}

fn open(office: &OfficeArguments) -> Result<KeyChanging, CommandError> {
    Ok(KeyChanging::open(&office.data, now()?)?)
}

fn ask_withdrawal(
    desk: &KeyChanging,
    why: WhyWord,
    which: &Withdrawal,
    until: &Until,
) -> Result<Request, CommandError> {
    let note = which.checkpoint.as_deref().map(small_text).transpose()?;
    let until = until.read(now()?)?;
    let named = (why.why(), which.key.as_deref());
    Ok(desk.ask_withdrawal(named, note.as_deref(), until, &mut dice()?)?)
}

fn small_text(file: &Path) -> Result<String, CommandError> {
    let failed = |e: std::io::Error| CommandError::refused(format!("{} cannot be read: {e}", file.display()));
    if std::fs::metadata(file).map_err(failed)?.len() > farsiding_core::evidence::LARGEST_NOTE as u64 {
        return Err(CommandError::refused(format!("{} is too large to be a checkpoint", file.display())));
    }
    std::fs::read_to_string(file).map_err(failed)
}

fn sign_and_take(
    desk: &mut KeyChanging,
    request: &Request,
    root: &Path,
) -> Result<CommandOutput, CommandError> {
    let signed = changing::sign(request, desk.key().keys().clone(), &changing::read_root(root)?)?;
    Ok(taken(&desk.take(&signed)?, None))
}

fn run_offline(arguments: &OfflineArguments) -> Result<CommandOutput, CommandError> {
    let mut desk = open(&arguments.office)?;
    let until = arguments.until.read(now()?)?;
    let done = desk.take_root_off(&arguments.out, until, &mut dice()?)?;
    Ok(taken(&done, Some(&arguments.out)))
}

/// Returns what is told after statements of the root were taken in.
fn taken(taken: &Taken, root: Option<&Path>) -> CommandOutput {
    let Taken { new, signer, certificates } = taken;
    let json = json!({
        "statements": new, "signer": signer.to_string(), "certificates": certificates,
        "root_file": root.map(|file| file.display().to_string()),
    });
    let carry = root.map_or(String::new(), |file| {
        format!(
            "\nThe root is in {} and no longer on this server: the copy was read back. Carry it away, keep a second copy \
             elsewhere, and keep old backups of this folder like the root: they hold it.",
            file.display()
        )
    });
    let text = format!(
        "{new} statements of the root were new here. {signer} signs now; {certificates} certificates were signed anew. \
         Start the server: phones are told at their next sync.{carry}"
    );
    CommandOutput::new(text, json)
}

fn run_request(arguments: &RequestArguments) -> Result<CommandOutput, CommandError> {
    let desk = open(&arguments.office)?;
    let request = match (&arguments.withdraw, &arguments.successor) {
        (Some(why), _) => ask_withdrawal(&desk, *why, &arguments.which, &arguments.until)?,
        (None, Some(text)) => {
            let key = DeviceId::read(text).map_err(|e| CommandError::refused(e.to_string()))?;
            desk.ask_successor(key)?
        }
        (None, None) => desk.ask_renewal(arguments.until.read(now()?)?, &mut dice()?)?,
    };
    // A request that the root would refuse is refused here already, before it is carried to where the root is
    // kept.
    let mut tried = desk.key().keys().clone();
    for says in &request.asks {
        tried.try_next(request.at, says).map_err(KeyChangeError::from)?;
    }
    whole_file::write(&arguments.out, request.text().as_bytes())?;
    let file = arguments.out.display().to_string();
    let text = format!(
        "{file} asks the root to say:\n{}\
         Where the root is: farsiding key sign --root FILE REQUEST --out FILE; then here: farsiding key take.",
        sentences(&request.asks)
    );
    Ok(CommandOutput::new(text, json!({ "file": file, "asks": request.asks })))
}

fn run_sign(arguments: &SignArguments) -> Result<CommandOutput, CommandError> {
    let (request, keys) = Request::read(&arguments.request)?;
    let signed = changing::sign(&request, keys, &changing::read_root(&arguments.root.root)?)?;
    key_files::write_statements(&arguments.out, &signed)?;
    let file = arguments.out.display().to_string();
    let text = format!(
        "Signed for the organisation with the key {}:\n{}On the server: farsiding key take --data DIR {file}",
        signed.root(),
        sentences(&request.asks)
    );
    let json = json!({ "file": file, "said": request.asks, "organisation_key": signed.root() });
    Ok(CommandOutput::new(text, json))
}

/// Returns statements about keys as sentences, one on each line.
fn sentences(asks: &[KeyWord]) -> String {
    asks.iter().map(|says| format!("  {}\n", words(says))).collect()
}

/// Returns a statement about keys as a sentence.
fn words(says: &KeyWord) -> String {
    match says {
        KeyWord::Key { key, from, until } => {
            let until =
                until.map_or("until it is withdrawn".to_owned(), |at| format!("until {}", at.rfc3339()));
            format!("{key} signs in the root's place from {} {until}", from.rfc3339())
        }
        KeyWord::KeyWithdrawn { key, why, checkpoint } => {
            let up_to = match (checkpoint, why) {
                (Some(up_to), WhyWithdrawn::Stolen) => {
                    format!("; of what it signed, only the log's first {} entries are believed", up_to.size)
                }
                (None, WhyWithdrawn::Stolen) => "; nothing it signed is believed".to_owned(),
                _ => "; what it signed before holds".to_owned(),
            };
            format!("{key} is withdrawn as {}{up_to}", why.word())
        }
        KeyWord::Successor { key } => format!("{key} is the root from here on"),
    }
}

fn standing_words(known: &KnownKey, now: UtcMillis) -> String {
    match known.standing(now) {
        KeyStanding::Root => "the root of now".to_owned(),
        KeyStanding::Working { until: None } => "may sign until it is withdrawn".to_owned(),
        KeyStanding::Working { until: Some(until) } => format!("may sign until {}", until.rfc3339()),
        KeyStanding::NotYet { from } => format!("may sign from {} on", from.rfc3339()),
        KeyStanding::Ended { until } => format!("ended at {}", until.rfc3339()),
        KeyStanding::Withdrawn { why, at, .. } => {
            format!("withdrawn as {} at {}", why.word(), at.rfc3339())
        }
        KeyStanding::Unknown => "not known".to_owned(),
    }
}

fn run_show(arguments: &ShowArguments) -> Result<CommandOutput, CommandError> {
    let folder = DataFolder::open(&arguments.office.data)?;
    let (key, now) = (folder.organisation_key_here()?, now()?);
    if let Some(out) = &arguments.out {
        key_files::write_statements(out, key.keys())?;
    }
    let mut text =
        format!("Organisation (pinned by phones, given to whoever checks packets):\n  {}\n", key.public());
    let root = key.keys().root_now();
    if root != key.public() {
        text.push_str(&format!("Root of now:\n  {root}\n"));
    }
    let may = may_sign(&key, now).unwrap_or_else(|why| format!("NOT GOOD: {why}"));
    text.push_str(&format!("Signs here:\n  {}\n  {may}\nKeys:\n", key.signer()));
    for known in key.keys().known() {
        text.push_str(&format!("  {}  {}\n", known.key, standing_words(known, now)));
    }
    if key.keys().count() > 0 {
        text.push_str("The root said:\n");
        for statement in key.keys().statements() {
            let (number, at) = (statement.number, statement.at.rfc3339());
            text.push_str(&format!("  {number}  {at}  {}\n", words(&statement.says)));
        }
    }
    Ok(CommandOutput::new(text, shown_json(&key, now)))
}

fn shown_json(key: &OrganisationKey, now: UtcMillis) -> Value {
    let may = may_sign(key, now);
    let standing = |known: &KnownKey| {
        let time = |at: Option<UtcMillis>| at.map(UtcMillis::rfc3339);
        json!({
            "key": known.key, "root": known.root, "from": time(known.from), "until": time(known.until),
            "standing": standing_words(known, now),
        })
    };
    let keys: &OrganisationKeys = key.keys();
    let statements: Vec<Value> = keys
        .statements()
        .map(|statement| {
            json!({
                "number": statement.number, "at": statement.at.rfc3339(), "says": statement.says,
                "words": words(&statement.says),
            })
        })
        .collect();
    json!({
        "organisation_key": key.public(), "root": keys.root_now(), "signer": key.signer(),
        "may_sign": may.is_ok(), "signing": may.unwrap_or_else(|why| why),
        "keys": keys.known().iter().map(standing).collect::<Vec<_>>(), "statements": statements,
    })
}
