//! The messages by which a device requests the server's log, and the answering side.
//!
//! They form a round of their own after the records have their receipts, and leave the rounds of records
//! unchanged. The device sends the sizes of the checkpoints it knows and the entries it wants proofs for. The
//! reply contains the newest checkpoint, the consistency paths from those sizes to it, and one proof for all
//! the entries. `log_watch` evaluates the reply.

use serde::{Deserialize, Serialize};

use super::answer::AnswerError;
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

/// The most sizes in one request.
pub const MOST_SIZES: usize = 24;
/// The most entries in one request.
pub const MOST_ENTRIES: usize = 500;

/// A device's request about the log.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct LogRequest {
    /// The device's clock. It also makes every request distinct.
    #[serde(rename = "t")]
    pub at: UtcMillis,
    /// The name of the log that the sizes refer to.
    #[serde(rename = "o", default, skip_serializing_if = "String::is_empty")]
    pub origin: String,
    /// The sizes of the checkpoints from which a consistency path is requested.
    #[serde(rename = "k", default, skip_serializing_if = "Vec::is_empty")]
    pub sizes: Vec<u64>,
    /// The entries for which a proof is requested.
    #[serde(rename = "e", default, skip_serializing_if = "Vec::is_empty")]
    pub entries: Vec<EntryId>,
    /// The last known key statement, as in [`super::wire::RequestHead::statement`].
    #[serde(rename = "s", default, skip_serializing_if = "Option::is_none")]
    pub statement: Option<serde_bytes::ByteBuf>,
}

/// The signed part of a reply.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct LogReplyHead {
    /// The first sixteen bytes of the SHA-256 of the request this answers.
    #[serde(rename = "q", with = "serde_bytes")]
    pub request: [u8; 16],
    /// The server's clock.
    #[serde(rename = "t")]
    pub at: UtcMillis,
    /// The SHA-256 of the bulk.
    #[serde(rename = "b", default, skip_serializing_if = "Option::is_none")]
    pub bulk: Option<Digest>,
}

/// The reply proper, bound to the head by its digest.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
pub struct LogReply {
    /// The signed note of the newest checkpoint.
    #[serde(rename = "n")]
    pub note: String,
    /// For every requested size, the consistency path to the newest checkpoint; `None` if the log is shorter.
    #[serde(rename = "c", default, skip_serializing_if = "Vec::is_empty")]
    pub consistency: Vec<Option<Vec<Digest>>>,
    /// The declarations that the ledger was restored from a backup, oldest first, each with the consistency
    /// path from its size to the newest checkpoint.
    #[serde(rename = "r", default, skip_serializing_if = "Vec::is_empty")]
    pub restores: Vec<(serde_bytes::ByteBuf, Vec<Digest>)>,
    /// For every requested entry its leaf number and arrival time; `None` if the entry is not in the log.
    #[serde(rename = "l", default, skip_serializing_if = "Vec::is_empty")]
    pub leaves: Vec<Option<(u64, UtcMillis)>>,
    /// For every requested entry whether its leaf contains the subject; empty if no leaf does.
    #[serde(rename = "a", default, skip_serializing_if = "Vec::is_empty")]
    pub bound: Vec<bool>,
    /// The hashes that lead from all these leaves to the root, see [`merkle::stored_batch`].
    #[serde(rename = "h", default, skip_serializing_if = "Vec::is_empty")]
    pub hashes: Vec<Digest>,
}

impl LogRequest {
    /// Signs the request.
    ///
    /// # Errors
    /// [`EntryError`] when the request cannot be encoded.
    pub fn seal(&self, key: &DeviceKey) -> Result<Vec<u8>, EntryError> {
        join(key.seal_addressed(cbor::encode(self)?, REQUEST, &key.public().0[..8]), Vec::new())
    }
}

/// Signs a reply to `request`.
///
/// # Errors
/// [`EntryError`] when the reply cannot be encoded.
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

/// Opens a reply and checks that the organisation signed it.
///
/// # Errors
/// [`EntryError`] when the bytes are not a reply, the signature is invalid, or the bulk is not the one in the
/// head.
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

/// The outcome of a log request.
#[derive(Debug)]
pub struct LogAnswer {
    /// The reply's bytes.
    pub reply: Vec<u8>,
    /// The device that sent the request.
    pub device: DeviceId,
    /// The size of a checkpoint that the device knows, if that exceeds the log: the ledger was restored from
    /// a backup without a declaration.
    pub device_knows_more: Option<u64>,
}

/// Finds the device that signed a log request and returns what the request asks.
///
/// # Errors
/// [`AnswerError`] if no known device signed the request or the request exceeds a limit.
pub fn open_log_request(
    devices: &Devices,
    organisation: &dyn Trusts,
    request: &[u8],
) -> Result<(Certificate, LogRequest), AnswerError> {
    let message = parts(request)?;
    let signed = |device: &PublicKey| open_addressed(&message.head, REQUEST, device);
    let (certificate, payload) = devices.signer_of(&message.head, organisation, signed)?;
    let asked: LogRequest = cbor::decode(&payload).map_err(EntryError::from)?;
    if asked.sizes.len() > MOST_SIZES || asked.entries.len() > MOST_ENTRIES {
        let why = CborError::Unreadable("it asks for too much at once".to_owned());
        return Err(EntryError::from(why).into());
    }
    Ok((Certificate::clone(&certificate), asked))
}

/// Answers a log request. A new checkpoint is published first if entries arrived since the last one.
///
/// # Errors
/// [`AnswerError`].
pub fn answer_log(
    store: &mut dyn Store,
    key: &OrganisationKey,
    request: &[u8],
    now: UtcMillis,
) -> Result<LogAnswer, AnswerError> {
    let (certificate, asked) = open_log_request(&Devices::read(store)?, key, request)?;
    if certificate.revoked_at.is_some() {
        return Err(AnswerError::Revoked);
    }
    let published = ledger_log::publish(store, key, now)?;
    let (size, log) = (published.size, store.log());
    let path = |from: u64| merkle::stored_consistency(log, from, size);
    let consistency = asked.sizes.iter().map(|from| path(*from)).collect::<Result<Vec<_>, StoreError>>()?;
    let mut restores = Vec::new();
    for bytes in ledger_log::restores(store)? {
        // A declaration whose signing key is no longer trusted is skipped; it is also stored signed with a
        // trusted key.
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
