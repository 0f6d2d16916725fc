//! `farsiding witness …`: adds, lists and removes the witnesses that are asked to sign the log's checkpoints.

use std::path::PathBuf;
use std::sync::Arc;

use clap::{Args, Subcommand};
use farsiding_core::evidence::{VerifierKey, ledger_log};
use serde_json::{Value, json};

use crate::commands::log::log_key;
use crate::office_folder::OpenOffice;
use crate::outcome::CommandError;
use farsiding_host::CommandOutput;
use farsiding_host::outside_call;
use farsiding_office::ledger::Ledger as _;
use farsiding_office::third_parties::SoleLedger;
use farsiding_office::third_parties::witnesses::{self, Called, Standing};
use farsiding_packet::know_witness;

/// The arguments of `farsiding witness`.
#[derive(Debug, Args)]
pub struct WitnessArguments {
    #[command(subcommand)]
    command: Asked,
}

#[derive(Debug, Subcommand)]
enum Asked {
    /// Have the server ask a witness from now on (C2SP tlog-witness). The witness is also asked once
    /// immediately.
    Add(AddArguments),
    /// List the witnesses, what each signed last, and why a signature is missing.
    List(OfArguments),
    /// Stop asking a witness. The signatures it has given stay.
    Remove(RemoveArguments),
}

#[derive(Debug, Args)]
struct OfArguments {
    /// The office's data folder. The server may be running.
    #[arg(long, value_name = "DIR")]
    data: PathBuf,
    /// Print the answer as JSON.
    #[arg(long)]
    json: bool,
}

#[derive(Debug, Args)]
struct AddArguments {
    #[command(flatten)]
    of: OfArguments,
    /// The witness's address. The server adds /add-checkpoint to it.
    #[arg(long, value_name = "URL")]
    url: String,
    /// The key that the witness publishes, as NAME+ID+KEY, of the kind cosignature/v1.
    #[arg(long, value_name = "KEY")]
    key: String,
}

#[derive(Debug, Args)]
struct RemoveArguments {
    #[command(flatten)]
    of: OfArguments,
    /// The witness's name, whole key or address.
    #[arg(long, value_name = "NAME")]
    name: String,
}

impl WitnessArguments {
    /// Returns whether the answer is printed as JSON.
    pub const fn wants_json(&self) -> bool {
        match &self.command {
            Asked::Add(AddArguments { of, .. })
            | Asked::Remove(RemoveArguments { of, .. })
            | Asked::List(of) => of.json,
        }
    }
}

/// Parses a witness's key from the command line.
///
/// # Errors
/// Returns a [`CommandError`] that says what kind of text was given instead.
pub fn read_witness(text: &str) -> Result<VerifierKey, CommandError> {
    let key = VerifierKey::read(text).ok_or_else(|| {
        CommandError::refused("a witness's key is given as NAME+ID+KEY, as it publishes it; this is none, or its id is another key's")
    })?;
    if key.is_witness() {
        return Ok(key);
    }
    Err(CommandError::refused(format!(
        "{} is a key that signs texts plainly, no witness's (cosignature/v1)",
        key.name
    )))
}

fn told(called: &Called, standing: &Standing) -> Value {
    let name = called.verifier().map(|key| key.name).unwrap_or_default();
    json!({
        "name": name, "url": called.url, "key": called.key, "since": called.since.rfc3339(),
        "signed_size": standing.signed_at.map(|_| standing.size), "origin": standing.origin,
        "signed_at": standing.signed_at.map(|at| at.rfc3339()),
        "trouble": standing.trouble.as_ref().map(|trouble| &trouble.words),
        "history": standing.trouble.as_ref().is_some_and(|trouble| trouble.history),
    })
}

/// Runs `farsiding witness …`.
///
/// # Errors
/// Returns a [`CommandError`] when the witness is refused or the list cannot be read or written.
pub fn run(arguments: &WitnessArguments) -> Result<CommandOutput, CommandError> {
    match &arguments.command {
        Asked::Add(arguments) => add(arguments),
        Asked::List(of) => list(of),
        Asked::Remove(arguments) => remove(arguments),
    }
}

fn add(arguments: &AddArguments) -> Result<CommandOutput, CommandError> {
    let verifier = read_witness(&arguments.key)?;
    outside_call::check_address(&arguments.url).map_err(CommandError::refused)?;
    let mut opened = OpenOffice::open(&arguments.of.data)?;
    let (key, now) = (Arc::new(opened.key.clone()), opened.now);
    let called =
        Called { url: arguments.url.trim_end_matches('/').to_owned(), key: verifier.to_string(), since: now };
    let store = opened.ledger.store_mut();
    let mut all = witnesses::list(store).map_err(CommandError::failed)?;
    all.retain(|known| known.key != called.key);
    all.push(called.clone());
    know_witness(store, &verifier).map_err(CommandError::failed)?;
    witnesses::write_list(store, &all).map_err(CommandError::failed)?;
    let origin = ledger_log::origin(store, &key.public()).map_err(CommandError::failed)?;
    let log_key = log_key(&key, &origin);
    let alone = SoleLedger::new(opened.ledger);
    let runtime = tokio::runtime::Builder::new_current_thread().enable_all().build()?;
    runtime.block_on(witnesses::ask(&alone, &key, &called, now)).map_err(CommandError::refused)?;
    let ledger = alone.into_inner();
    let standing = witnesses::standing(ledger.store(), &verifier).map_err(CommandError::failed)?;
    let mut json = told(&called, &standing);
    if let Some(fields) = json.as_object_mut() {
        fields.insert("log_key".to_owned(), json!(log_key));
    }
    let text = format!(
        "The server asks {} from now on. {}
Whoever keeps the witness must know this log by: {log_key}",
        verifier.name,
        witnesses::finding(&called, &standing).words()
    );
    Ok(CommandOutput::new(text, json))
}

fn list(of: &OfArguments) -> Result<CommandOutput, CommandError> {
    let opened = OpenOffice::open(&of.data)?;
    let store = opened.ledger.store();
    let mut rows = Vec::new();
    for called in witnesses::list(store).map_err(CommandError::failed)? {
        let Some(verifier) = called.verifier() else { continue };
        let standing = witnesses::standing(store, &verifier).map_err(CommandError::failed)?;
        rows.push((called, standing));
    }
    let mut text = String::new();
    if rows.is_empty() {
        text.push_str(
            "No witness is asked: nobody outside would notice a rewritten log. farsiding witness add names one.",
        );
    }
    for (called, standing) in &rows {
        let found = witnesses::finding(called, standing);
        text.push_str(&format!("{}\n    {}\n    {}\n", found.words(), called.url, called.key));
    }
    let rows: Vec<Value> = rows.iter().map(|(called, standing)| told(called, standing)).collect();
    Ok(CommandOutput::new(text, json!({ "witnesses": rows })))
}

fn remove(arguments: &RemoveArguments) -> Result<CommandOutput, CommandError> {
    let mut opened = OpenOffice::open(&arguments.of.data)?;
    let store = opened.ledger.store_mut();
    let mut all = witnesses::list(store).map_err(CommandError::failed)?;
    let wanted = arguments.name.trim();
    let is_it = |called: &Called| {
        let name = called.verifier().map(|key| key.name).unwrap_or_default();
        name == wanted || called.key == wanted || called.url == wanted.trim_end_matches('/')
    };
    match all.iter().filter(|called| is_it(called)).count() {
        0 => {
            return Err(CommandError::refused(format!(
                "no witness \"{wanted}\" is asked; farsiding witness list shows them"
            )));
        }
        1 => {}
        several => {
            return Err(CommandError::refused(format!(
                "{several} witnesses are called \"{wanted}\"; give the whole key of one"
            )));
        }
    }
    all.retain(|called| !is_it(called));
    witnesses::write_list(store, &all).map_err(CommandError::failed)?;
    let left = if all.is_empty() { " Nobody is asked any more." } else { "" };
    let text = format!("{wanted} is asked no more; what it signed stays.{left}");
    Ok(CommandOutput::new(text, json!({ "left": all.len() })))
}
