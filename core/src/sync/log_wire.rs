//! Asking the server for its log: the messages, and the answering side.
//!
//! A round of its own, after records are receipted: the rounds of records stay as they are. The device names
//! the checkpoints it knows by size and the entries it wants proven; back come the newest checkpoint, the
//! paths from those sizes to it, and one proof for all the entries. What the device makes of it is
//! `log_watch`'s.

use serde::{Deserialize, Serialize};

use super::answer::Refusal;
use super::keys::lacking;
use super::opened::Devices;
use super::wire::{LARGEST_BULK, join, join_with, open_bulk, pack, parts, request_digest};
use crate::clock::UtcMillis;
use crate::entry::cbor::{self, CborError};
use crate::entry::{
    Certificate, DeviceKey, EntryError, OrganisationKey, PublicKey, Trusts, Use, open_addressed,
    open_of_organisation,
};
use crate::ids::{DeviceId, Digest, EntryId};
use crate::log::{Restored, ledger_log};
use crate::store::{Store, StoreError};
use crate::tree::merkle;

const REQUEST: &str = "farsiding log request 1";
const REPLY: &str = "farsiding log reply 1";

/// Sizes one request may name.
pub const MOST_SIZES: usize = 24;
/// Entries one request may ask proofs for.
pub const MOST_ENTRIES: usize = 500;

/// What a device asks.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct LogRequest {
    /// The device's clock; makes every request another.
    #[serde(rename = "t")]
    pub at: UtcMillis,
    /// The log the sizes are of, as known here.
    #[serde(rename = "o", default, skip_serializing_if = "String::is_empty")]
    pub origin: String,
    /// Sizes of checkpoints known here, from which a path to the newest is wanted.
    #[serde(rename = "k", default, skip_serializing_if = "Vec::is_empty")]
    pub sizes: Vec<u64>,
    /// Entries a proof is wanted for.
    #[serde(rename = "e", default, skip_serializing_if = "Vec::is_empty")]
    pub entries: Vec<EntryId>,
    /// The last key statement known here, as in [`super::wire::RequestHead::statement`].
    #[serde(rename = "s", default, skip_serializing_if = "Option::is_none")]
    pub statement: Option<serde_bytes::ByteBuf>,
}

/// The signed part of the answer.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct LogReplyHead {
    /// The first sixteen bytes of the SHA-256 of the request this answers.
    #[serde(rename = "q", with = "serde_bytes")]
    pub request: [u8; 16],
    /// The server's clock.
    #[serde(rename = "t")]
    pub at: UtcMillis,
    /// SHA-256 of the bulk.
    #[serde(rename = "b", default, skip_serializing_if = "Option::is_none")]
    pub bulk: Option<Digest>,
}

/// The answer, bound to the head by its digest.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
pub struct LogReply {
    /// The newest checkpoint, a signed note.
    #[serde(rename = "n")]
    pub note: String,
    /// For every size asked about, the path from there to the checkpoint; nothing where the log is shorter.
    #[serde(rename = "c", default, skip_serializing_if = "Vec::is_empty")]
    pub consistency: Vec<Option<Vec<Digest>>>,
    /// Declarations that the ledger came back from a backup, oldest first, each with the path from its size to
    /// the checkpoint.
    #[serde(rename = "r", default, skip_serializing_if = "Vec::is_empty")]
    pub restores: Vec<(serde_bytes::ByteBuf, Vec<Digest>)>,
    /// For every entry asked about, its number and when it came in; nothing for one that is not in the log.
    #[serde(rename = "l", default, skip_serializing_if = "Vec::is_empty")]
    pub leaves: Vec<Option<(u64, UtcMillis)>>,
    /// For every entry asked about, whether its leaf says what it is about; empty when none does.
    #[serde(rename = "a", default, skip_serializing_if = "Vec::is_empty")]
    pub bound: Vec<bool>,
    /// What leads from all these leaves to the root (see [`merkle::stored_batch`]).
    #[serde(rename = "h", default, skip_serializing_if = "Vec::is_empty")]
    pub hashes: Vec<Digest>,
}

impl LogRequest {
    /// Signs it.
    ///
    /// # Errors
    /// [`EntryError`] when it cannot be encoded.
    pub fn seal(&self, key: &DeviceKey) -> Result<Vec<u8>, EntryError> {
        join(key.seal_addressed(cbor::encode(self)?, REQUEST, &key.public().0[..8]), Vec::new())
    }
}

/// Signs an answer to `request`.
///
/// # Errors
/// [`EntryError`] when it cannot be encoded.
pub fn seal_log_reply(
    request: &[u8],
    reply: &LogReply,
    key: &OrganisationKey,
    now: UtcMillis,
) -> Result<Vec<u8>, EntryError> {
    seal_log_reply_with(request, reply, key, now, Vec::new())
}

fn seal_log_reply_with(
    request: &[u8],
    reply: &LogReply,
    key: &OrganisationKey,
    now: UtcMillis,
    statements: Vec<serde_bytes::ByteBuf>,
) -> Result<Vec<u8>, EntryError> {
    let (bulk, digest) = pack(reply)?;
    let head = LogReplyHead { request: request_digest(request), at: now, bulk: digest };
    join_with(key.seal_addressed(cbor::encode(&head)?, REPLY, &[]), bulk, statements)
}

/// Checks that an answer is the organisation's and takes it apart.
///
/// # Errors
/// [`EntryError`].
pub fn open_log_reply(
    bytes: &[u8],
    organisation: &dyn Trusts,
) -> Result<(LogReplyHead, LogReply), EntryError> {
    let message = parts(bytes)?;
    let read = |payload: &[u8]| Ok(cbor::decode(payload)?);
    let made = |head: &LogReplyHead| Use::Answer { at: head.at };
    let (_, head) = open_of_organisation(&message.head, REPLY, organisation, read, made)?;
    let reply = open_bulk(&message, head.bulk, LARGEST_BULK)?;
    Ok((head, reply))
}

/// What a log request led to.
#[derive(Debug)]
pub struct LogAnswer {
    /// The reply's bytes.
    pub reply: Vec<u8>,
    /// Who asked.
    pub device: DeviceId,
    /// The device knows a checkpoint of this log that is longer than the log: the ledger was put back from a
    /// backup and nobody said so.
    pub device_knows_more: Option<u64>,
}

/// Whose log request it is, by its signature, and what it asks.
///
/// # Errors
/// [`Refusal`] for what none of these devices signed, and for more than may be asked at once.
pub fn open_log_request(
    devices: &Devices,
    organisation: &dyn Trusts,
    request: &[u8],
) -> Result<(Certificate, LogRequest), Refusal> {
    let message = parts(request)?;
    let signed = |device: &PublicKey| open_addressed(&message.head, REQUEST, device);
    let (certificate, payload) = devices.signer_of(&message.head, organisation, signed)?;
    let asked: LogRequest = cbor::decode(&payload).map_err(EntryError::from)?;
    if asked.sizes.len() > MOST_SIZES || asked.entries.len() > MOST_ENTRIES {
        let why = CborError::Unreadable("it asks for too much at once".to_owned());
        return Err(EntryError::from(why).into());
    }
    Ok((certificate, asked))
}

/// Answers a log request. A checkpoint is published first if entries came in since the last.
///
/// # Errors
/// [`Refusal`].
pub fn answer_log(
    store: &mut dyn Store,
    key: &OrganisationKey,
    request: &[u8],
    now: UtcMillis,
) -> Result<LogAnswer, Refusal> {
    let (certificate, asked) = open_log_request(&Devices::read(store)?, key, request)?;
    if certificate.revoked_at.is_some() {
        return Err(Refusal::Revoked);
    }
    let published = ledger_log::publish(store, key, now)?;
    let (size, log) = (published.size, store.log());
    let path = |from: u64| merkle::stored_consistency(log, from, size);
    let consistency = asked.sizes.iter().map(|from| path(*from)).collect::<Result<Vec<_>, StoreError>>()?;
    let mut restores = Vec::new();
    for bytes in ledger_log::restores(store)? {
        // One whose signature is believed no longer stands there signed anew as well.
        let Ok(restored) = Restored::open(&bytes, key) else { continue };
        restores.push((bytes, path(restored.size)?.unwrap_or_default()));
    }
    let mut leaves = Vec::with_capacity(asked.entries.len());
    let mut bound = Vec::with_capacity(asked.entries.len());
    for entry in &asked.entries {
        let place = log.place(*entry)?.filter(|(number, _)| *number < size);
        let leaf = match place {
            Some((number, _)) => log.leaf(number)?,
            None => None,
        };
        leaves.push(place);
        bound.push(leaf.is_some_and(|leaf| leaf.about.is_some()));
    }
    if !bound.contains(&true) {
        bound.clear();
    }
    let mut numbers: Vec<u64> = leaves.iter().flatten().map(|(number, _)| *number).collect();
    numbers.sort_unstable();
    numbers.dedup();
    let hashes = if numbers.is_empty() { Vec::new() } else { merkle::stored_batch(log, &numbers, size)? };
    let known = asked.sizes.iter().copied().max().filter(|_| asked.origin == published.origin);
    let reply = LogReply { note: published.note, consistency, restores, leaves, bound, hashes };
    let statements = lacking(key.keys(), asked.statement.as_deref().map(Vec::as_slice));
    Ok(LogAnswer {
        reply: seal_log_reply_with(request, &reply, key, now, statements)?,
        device: certificate.device,
        device_knows_more: known.filter(|known| *known > size),
    })
}
