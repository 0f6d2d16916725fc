//! Witnesses: which ones are asked, what each signed last, and one request to a witness.

use std::sync::Arc;

use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::OrganisationKey;
use farsiding_core::evidence::{
    LARGEST_ANSWER, SignedNote, VerifierKey, WitnessAnswer, WitnessCall, WitnessRefusal, cosignatures,
    ledger_log, merkle, with_cosignature,
};
use farsiding_core::store::{Store, StoreError, Write};
use farsiding_core::{Arg, message};
use serde::{Deserialize, Serialize};

use super::{LedgerAccess, RepeatedFailure, clock_says, read_value, write_value};
use crate::state::findings::Finding;
use farsiding_host::outside_call::Outsider;

const LIST: &str = "log/witness_calls";

/// A witness that is asked.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Called {
    /// The witness's address, without `/add-checkpoint`.
    pub url: String,
    /// The witness's key, as `NAME+ID+KEY`.
    pub key: String,
    /// The time since which the witness is asked.
    pub since: UtcMillis,
}

impl Called {
    /// Returns the parsed key, or `None` if it cannot be parsed.
    pub fn verifier(&self) -> Option<VerifierKey> {
        VerifierKey::read(&self.key)
    }
}

/// The state of a witness.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Standing {
    /// The name of the log the witness signed last.
    pub origin: String,
    /// The number of entries in that log.
    pub size: u64,
    /// The time of the signature, by the witness's clock.
    pub signed_at: Option<UtcMillis>,
    /// The time of the signature, by this server's clock.
    pub kept_at: Option<UtcMillis>,
    /// Why the witness did not sign when it was last asked.
    pub trouble: Option<RepeatedFailure>,
}

fn standing_key(witness: &VerifierKey) -> String {
    // A key's id has only four bytes, which two keys may share, so the whole key is used.
    format!("{LIST}/{}", witness.key)
}

/// Returns the list of the witnesses that are asked.
///
/// # Errors
/// Returns a [`StoreError`] when the ledger's store fails.
pub fn list(store: &dyn Store) -> Result<Vec<Called>, StoreError> {
    Ok(read_value(store, LIST)?.unwrap_or_default())
}

/// Stores the list of the witnesses that are asked.
///
/// # Errors
/// Returns a [`StoreError`] when the ledger's store fails.
pub fn write_list(store: &mut dyn Store, list: &[Called]) -> Result<(), StoreError> {
    write_value(store, LIST, &list)
}

/// Returns the state of a witness.
///
/// # Errors
/// Returns a [`StoreError`] when the ledger's store fails.
pub fn standing(store: &dyn Store, witness: &VerifierKey) -> Result<Standing, StoreError> {
    Ok(read_value(store, &standing_key(witness))?.unwrap_or_default())
}

/// A prepared request to a witness.
struct Prepared {
    call: WitnessCall,
    message: String,
    origin: String,
    note: String,
}

enum Next {
    /// The witness's signature line is there already.
    Nothing,
    Ask(Prepared),
    Refused(WitnessRefusal),
}

/// Prepares a request from the size that the witness signed last, or from `from` if the witness named another
/// size.
fn prepare(
    store: &mut dyn Store,
    key: &OrganisationKey,
    witness: &VerifierKey,
    from: Option<u64>,
    now: UtcMillis,
) -> Result<Next, StoreError> {
    let newest = ledger_log::publish(store, key, now)?;
    let (origin, size, note) = (newest.origin, newest.size, newest.note);
    let signed = |note: &str| {
        cosignatures(note).unwrap_or_default().iter().any(|line| line.check(note, witness).is_ok())
    };
    let known = standing(store, witness)?;
    if from.is_none() && signed(&note) {
        if known.trouble.is_some() {
            write_value(store, &standing_key(witness), &Standing { trouble: None, ..known })?;
        }
        return Ok(Next::Nothing);
    }
    let last = if known.origin == origin { known.size } else { 0 };
    let old = from.unwrap_or(last);
    let Some(proof) = merkle::stored_consistency(store.log(), old, size)? else {
        return Ok(Next::Refused(WitnessRefusal::Longer { signed: old, size }));
    };
    let call = WitnessCall { old, size, again: from.is_some() };
    Ok(Next::Ask(Prepared { call, message: call.message(&proof, &note), origin, note }))
}

/// Stores a witness's signature with the current checkpoint, which other witnesses may have signed meanwhile.
fn keep(
    store: &mut dyn Store,
    prepared: &Prepared,
    signed: &str,
    witness: &VerifierKey,
    now: UtcMillis,
) -> Result<(), String> {
    let failed = |e: StoreError| e.to_string();
    let (origin, size) = (&prepared.origin, prepared.call.size);
    let row = store.log().checkpoint(origin, size).map_err(failed)?;
    let row = row.ok_or("the checkpoint it signed is no longer here")?;
    let lines = SignedNote::read(signed).map_err(|e| e.to_string())?.signatures;
    let note = with_cosignature(&row.note, &lines, witness).map_err(|e| e.to_string())?;
    let of_witness = |line: &&farsiding_core::evidence::Cosignature| line.check(&note, witness).is_ok();
    let signed_at =
        cosignatures(&note).map_err(|e| e.to_string())?.iter().find(of_witness).map(|line| line.at);
    let standing = Standing { origin: origin.clone(), size, signed_at, kept_at: Some(now), trouble: None };
    let value = serde_json::to_vec(&standing).map_err(|e| e.to_string())?;
    store
        .commit(&[
            Write::Checkpoint { origin, size, note: &note, at: row.at, since: &[] },
            Write::Value { key: &standing_key(witness), value: &value },
        ])
        .map_err(failed)?;
    Ok(())
}

/// Asks a witness, and asks again once if the witness last signed another size. Records the outcome.
pub async fn ask(
    ledger: &impl LedgerAccess,
    key: &Arc<OrganisationKey>,
    called: &Called,
    now: UtcMillis,
) -> Result<(), String> {
    let Some(witness) = called.verifier() else { return Ok(()) };
    let refused = match round(ledger, key, (called, &witness), now).await {
        Ok(None) => return Ok(()),
        Ok(Some(refusal)) => (refusal.to_string(), refusal.is_about_history()),
        Err(why) => (why, false),
    };
    ledger
        .with(move |store| {
            let known = standing(store, &witness)?;
            let trouble = Some(RepeatedFailure::again(known.trouble, refused.0, refused.1, now));
            write_value(store, &standing_key(&witness), &Standing { trouble, ..known })
        })
        .await?
        .map_err(|e| e.to_string())
}

/// Sends one request to a witness. Returns successfully when the witness signed now or had signed already.
async fn round(
    ledger: &impl LedgerAccess,
    key: &Arc<OrganisationKey>,
    (called, witness): (&Called, &VerifierKey),
    now: UtcMillis,
) -> Result<Option<WitnessRefusal>, String> {
    let outsider = Outsider::at(&called.url)?;
    let mut from = None;
    loop {
        let (own, of) = (Arc::clone(key), witness.clone());
        let next = ledger.with(move |store| prepare(store, &own, &of, from, now)).await?;
        let prepared = match next.map_err(|e| e.to_string())? {
            Next::Nothing => return Ok(None),
            Next::Refused(refusal) => return Ok(Some(refusal)),
            Next::Ask(prepared) => prepared,
        };
        let (media, message) = ("text/plain; charset=utf-8", prepared.message.clone().into_bytes());
        let answer = outsider.post("add-checkpoint", media, message, LARGEST_ANSWER).await?;
        let call = prepared.call;
        match call.read(answer.status, &answer.media, &answer.body, &prepared.note, witness) {
            WitnessAnswer::Signed(signed) => {
                let of = witness.clone();
                ledger.with(move |store| keep(store, &prepared, &signed, &of, now)).await??;
                return Ok(None);
            }
            // A witness gives this answer only to a first request.
            WitnessAnswer::AskFrom(size) => from = Some(size),
            WitnessAnswer::Refused(refusal) => return Ok(Some(refusal)),
        }
    }
}

/// Returns the state of a witness, for the state of the server.
pub fn finding(called: &Called, known: &Standing) -> Finding {
    let name = called.verifier().map_or_else(|| called.key.clone(), |witness| witness.name);
    let signed = match known.signed_at {
        Some(at) => message!("office-found-signed", count = known.size, at = Arg::typed(at.rfc3339())),
        None => message!("office-found-signed-nothing"),
    };
    let clocks = known.signed_at.zip(known.kept_at).and_then(|(theirs, ours)| clock_says(theirs, ours));
    let (well, says) = match (&known.trouble, clocks) {
        (Some(trouble), _) if trouble.history => {
            (false, message!("office-found-refuses", told = trouble.told(), signed = signed))
        }
        (Some(trouble), _) => {
            (false, message!("office-found-does-not-sign", told = trouble.told(), signed = signed))
        }
        (None, Some(clock)) => (false, message!("office-found-two", first = signed, second = clock)),
        (None, None) => (true, signed),
    };
    let loud = known.trouble.as_ref().is_some_and(|trouble| trouble.history);
    let says = message!("office-found-of", name = Arg::typed(name), found = says);
    Finding { name: "witness", well, loud, says }
}
