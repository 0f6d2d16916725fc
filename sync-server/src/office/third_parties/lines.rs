//! `farsiding witness …`: who is asked to sign the log's checkpoints.

use std::path::PathBuf;
use std::sync::{Arc, Mutex};

use clap::{Args, Subcommand};
use farsiding_core::evidence::{VerifierKey, ledger_log};
use serde_json::{Value, json};

use super::Alone;
use super::witnesses::{self, Called, Standing};
use crate::command::{Failure, say};
use crate::office::ledger::Ledger as _;
use crate::office::log_desk::{self, failed, refused};
use crate::outside_call;

/// `farsiding witness`
#[derive(Debug, Args)]
pub struct WitnessArguments {
    #[command(subcommand)]
    command: Asked,
}

#[derive(Debug, Subcommand)]
enum Asked {
    /// Have a witness asked by the server from now on (C2SP tlog-witness); it is asked once at once.
    Add(AddArguments),
    /// Who is asked, what each signed last, and why it did not.
    List(OfArguments),
    /// Ask a witness no more; what it signed stays.
    Remove(RemoveArguments),
}

#[derive(Debug, Args)]
struct OfArguments {
    /// The office's data folder; the server may be running.
    #[arg(long, value_name = "DIR")]
    data: PathBuf,
    /// Answer in JSON.
    #[arg(long)]
    json: bool,
}

#[derive(Debug, Args)]
struct AddArguments {
    #[command(flatten)]
    of: OfArguments,
    /// Its address, to which /add-checkpoint is added.
    #[arg(long, value_name = "URL")]
    url: String,
    /// Its key as it publishes it, NAME+ID+KEY, of the kind cosignature/v1.
    #[arg(long, value_name = "KEY")]
    key: String,
}

#[derive(Debug, Args)]
struct RemoveArguments {
    #[command(flatten)]
    of: OfArguments,
    /// Its name, its whole key or its address.
    #[arg(long, value_name = "NAME")]
    name: String,
}

impl WitnessArguments {
    /// Whether the answer is to be JSON.
    pub const fn wants_json(&self) -> bool {
        match &self.command {
            Asked::Add(AddArguments { of, .. })
            | Asked::Remove(RemoveArguments { of, .. })
            | Asked::List(of) => of.json,
        }
    }
}

/// Reads a witness's key as a person gives it.
///
/// # Errors
/// [`Failure`] that says what was given instead.
pub fn read_witness(text: &str) -> Result<VerifierKey, Failure> {
    let key = VerifierKey::read(text).ok_or_else(|| {
        refused("a witness's key is given as NAME+ID+KEY, as it publishes it; this is none, or its id is another key's")
    })?;
    if key.is_witness() {
        return Ok(key);
    }
    Err(refused(format!("{} is a key that signs texts plainly, no witness's (cosignature/v1)", key.name)))
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
/// [`Failure`].
pub fn run(arguments: &WitnessArguments) -> Result<(), Failure> {
    match &arguments.command {
        Asked::Add(arguments) => add(arguments),
        Asked::List(of) => list(of),
        Asked::Remove(arguments) => remove(arguments),
    }
}

fn add(arguments: &AddArguments) -> Result<(), Failure> {
    let verifier = read_witness(&arguments.key)?;
    outside_call::read_address(&arguments.url).map_err(refused)?;
    let mut opened = log_desk::open(&arguments.of.data)?;
    let (key, now) = (Arc::new(opened.key.clone()), opened.now);
    let called =
        Called { url: arguments.url.trim_end_matches('/').to_owned(), key: verifier.to_string(), since: now };
    let store = opened.ledger.store_mut();
    let mut all = witnesses::list(store).map_err(failed)?;
    all.retain(|known| known.key != called.key);
    all.push(called.clone());
    log_desk::know_witness(store, &verifier).map_err(failed)?;
    witnesses::write_list(store, &all).map_err(failed)?;
    let origin = ledger_log::origin(store, &key.public()).map_err(failed)?;
    let log_key = log_desk::log_key(&key, &origin);
    let alone = Alone(Mutex::new(opened.ledger));
    let runtime = tokio::runtime::Builder::new_current_thread().enable_all().build()?;
    runtime.block_on(witnesses::ask(&alone, &key, &called, now)).map_err(refused)?;
    let ledger = alone.0.into_inner().map_err(|_| refused("the ledger's thread stopped"))?;
    let standing = witnesses::standing(ledger.store(), &verifier).map_err(failed)?;
    if arguments.of.json {
        let mut answer = told(&called, &standing);
        if let Some(fields) = answer.as_object_mut() {
            fields.insert("ok".to_owned(), json!(true));
            fields.insert("log_key".to_owned(), json!(log_key));
        }
        return Ok(say(&answer.to_string())?);
    }
    say(&format!(
        "The server asks {} from now on. {}
Whoever keeps the witness must know this log by: {log_key}",
        verifier.name,
        witnesses::finding(&called, &standing).words
    ))?;
    Ok(())
}

fn list(of: &OfArguments) -> Result<(), Failure> {
    let opened = log_desk::open(&of.data)?;
    let store = opened.ledger.store();
    let mut rows = Vec::new();
    for called in witnesses::list(store).map_err(failed)? {
        let Some(verifier) = called.verifier() else { continue };
        let standing = witnesses::standing(store, &verifier).map_err(failed)?;
        rows.push((called, standing));
    }
    if of.json {
        let rows: Vec<Value> = rows.iter().map(|(called, standing)| told(called, standing)).collect();
        return Ok(say(&json!({ "ok": true, "witnesses": rows }).to_string())?);
    }
    if rows.is_empty() {
        return Ok(say(
            "No witness is asked: nobody outside would notice a rewritten log. farsiding witness add names one.",
        )?);
    }
    for (called, standing) in rows {
        let found = witnesses::finding(&called, &standing);
        say(&format!("{}\n    {}\n    {}", found.words, called.url, called.key))?;
    }
    Ok(())
}

fn remove(arguments: &RemoveArguments) -> Result<(), Failure> {
    let mut opened = log_desk::open(&arguments.of.data)?;
    let store = opened.ledger.store_mut();
    let mut all = witnesses::list(store).map_err(failed)?;
    let wanted = arguments.name.trim();
    let is_it = |called: &Called| {
        let name = called.verifier().map(|key| key.name).unwrap_or_default();
        name == wanted || called.key == wanted || called.url == wanted.trim_end_matches('/')
    };
    match all.iter().filter(|called| is_it(called)).count() {
        0 => {
            return Err(refused(format!(
                "no witness \"{wanted}\" is asked; farsiding witness list shows them"
            )));
        }
        1 => {}
        several => {
            return Err(refused(format!(
                "{several} witnesses are called \"{wanted}\"; give the whole key of one"
            )));
        }
    }
    all.retain(|called| !is_it(called));
    witnesses::write_list(store, &all).map_err(failed)?;
    if arguments.of.json {
        return Ok(say(&json!({ "ok": true, "left": all.len() }).to_string())?);
    }
    let left = if all.is_empty() { " Nobody is asked any more." } else { "" };
    Ok(say(&format!("{wanted} is asked no more; what it signed stays.{left}"))?)
}
