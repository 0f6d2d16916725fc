//! The messages of a round, byte for byte. Field names are one letter because a siding's signal is bad.
//!
//! Both messages are a CBOR map of two byte strings: a small signed head and an optional bulk,
//! deflated behind what is familiar to both sides, whose SHA-256 stands in the head. The reply's head alone is the
//! receipt and is kept ([`ReplyHead`]).

use serde::{Deserialize, Serialize};
use std::io::{Read as _, Write as _};

use crate::clock::UtcMillis;
use crate::entry::{DeviceKey, EntryError, OrganisationKey, PublicKey, cbor, open_addressed};
use crate::ids::{Digest, EntryId, Subject};
use crate::store::SetDigest;

pub use crate::log::{Cursor, ReplyHead};

/// The largest bulk after inflation, in bytes, unless a server says otherwise.
pub const LARGEST_BULK: usize = 8 * 1024 * 1024;

/// About how many bytes of changes go into one message.
pub const CHANGES_PER_ROUND: usize = 256 * 1024;

const REQUEST: &str = "farsiding request 1";

/// The signed part of a request.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct RequestHead {
    /// Rises with every request of the device; an old one is not answered again.
    #[serde(rename = "n")]
    pub number: u64,
    /// How far the ledger was read; absent at first and while reconciling.
    #[serde(rename = "c", default, skip_serializing_if = "Option::is_none")]
    pub cursor: Option<Cursor>,
    /// The version of the certificate list known here.
    #[serde(rename = "k")]
    pub certificates: u64,
    /// The device's clock, for telling how far it is off.
    #[serde(rename = "t")]
    pub at: UtcMillis,
    /// SHA-256 of the bulk.
    #[serde(rename = "b", default, skip_serializing_if = "Option::is_none")]
    pub bulk: Option<Digest>,
    /// The last key statement known here: the first eight bytes of its SHA-256; absent when none is.
    #[serde(rename = "s", default, skip_serializing_if = "Option::is_none")]
    pub statement: Option<serde_bytes::ByteBuf>,
}

/// The unsigned part of a request.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
pub struct RequestBulk {
    /// New changes, each with its document.
    #[serde(rename = "c", default, skip_serializing_if = "Vec::is_empty")]
    pub changes: Vec<Change>,
    /// Entries beyond those in `changes` a receipt is wanted for.
    #[serde(rename = "a", default, skip_serializing_if = "Vec::is_empty")]
    pub asks: Vec<EntryId>,
    /// Photographs a word is wanted about.
    #[serde(rename = "p", default, skip_serializing_if = "Vec::is_empty")]
    pub photos: Vec<Digest>,
    /// Whether the list of all documents is wanted, for reconciling.
    #[serde(rename = "s", default, skip_serializing_if = "std::ops::Not::not")]
    pub survey: bool,
    /// Reconciling messages, one per document.
    #[serde(rename = "m", default, skip_serializing_if = "Vec::is_empty")]
    pub messages: Vec<Change>,
    /// Documents wanted whole because messages alone did not settle them.
    #[serde(rename = "w", default, skip_serializing_if = "Vec::is_empty")]
    pub whole: Vec<Subject>,
    /// What the device still has that the server has not receipted: entries and photographs.
    #[serde(rename = "u", default, skip_serializing_if = "Option::is_none")]
    pub unsent: Option<(u64, u64)>,
    /// About how many bytes of changes the reply may bring, when larger ones were lost on the way.
    #[serde(rename = "l", default, skip_serializing_if = "Option::is_none")]
    pub most: Option<u32>,
}

/// Bytes of one document: a change or a reconciling message.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Change {
    /// The document.
    #[serde(rename = "d")]
    pub subject: Subject,
    /// The bytes.
    #[serde(rename = "b", with = "serde_bytes")]
    pub bytes: Vec<u8>,
}

/// The unsigned part of a reply, bound to the head by its digest.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
pub struct ReplyBulk {
    /// Changes new to the asker.
    #[serde(rename = "c", default, skip_serializing_if = "Vec::is_empty")]
    pub changes: Vec<Change>,
    /// There is more to read after the cursor.
    #[serde(rename = "m", default, skip_serializing_if = "std::ops::Not::not")]
    pub more: bool,
    /// Places (from 0) in the list asked about of entries the server does not hold.
    #[serde(rename = "x", default, skip_serializing_if = "Vec::is_empty")]
    pub lacking: Vec<u32>,
    /// Places of changes that were refused, with the reason.
    #[serde(rename = "f", default, skip_serializing_if = "Vec::is_empty")]
    pub refused: Vec<(u32, String)>,
    /// Which of them were refused only for now, and until when.
    #[serde(rename = "l", default, skip_serializing_if = "Option::is_none")]
    pub later: Option<Later>,
    /// Places of photographs held whole.
    #[serde(rename = "p", default, skip_serializing_if = "Vec::is_empty")]
    pub photos: Vec<u32>,
    /// The certificate list and its version, when the asker's is another.
    #[serde(rename = "k", default, skip_serializing_if = "Option::is_none")]
    pub certificates: Option<CertificateList>,
    /// All documents with the digest of their heads.
    #[serde(rename = "s", default, skip_serializing_if = "Vec::is_empty")]
    pub survey: Vec<Surveyed>,
    /// Reconciling messages.
    #[serde(rename = "a", default, skip_serializing_if = "Vec::is_empty")]
    pub messages: Vec<Change>,
}

/// Changes that are more than a device is allowed for now: the device keeps them and brings them again.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Later {
    /// Their places among those sent; each also stands in [`ReplyBulk::refused`], with the reason.
    #[serde(rename = "p")]
    pub places: Vec<u32>,
    /// From when on they are taken, by the server's clock.
    #[serde(rename = "t")]
    pub at: UtcMillis,
}

/// A document and what its heads are, digested.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct Surveyed {
    /// The document.
    #[serde(rename = "d")]
    pub subject: Subject,
    /// See [`entries_digest`].
    #[serde(rename = "h", with = "serde_bytes")]
    pub digest: [u8; 8],
}

/// The certificates of all devices.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct CertificateList {
    /// Rises with every enrolment and revocation.
    #[serde(rename = "v")]
    pub version: u64,
    /// The signed certificates.
    #[serde(rename = "c")]
    pub certificates: Vec<serde_bytes::ByteBuf>,
}

/// Eight bytes that differ when two copies of a document hold different entries.
pub fn entries_digest<'a>(ids: impl IntoIterator<Item = &'a EntryId>) -> [u8; 8] {
    let mut tally = SetDigest::default();
    for id in ids {
        tally.add(*id);
    }
    let digest = Digest::of(&tally.to_bytes());
    let mut short = [0u8; 8];
    short.copy_from_slice(&digest.0[..8]);
    short
}

/// The first sixteen bytes of a tally's sum.
pub(super) fn short_sum(tally: &SetDigest) -> [u8; 16] {
    let mut short = [0u8; 16];
    short.copy_from_slice(&tally.sum[..16]);
    short
}

#[derive(Serialize, Deserialize)]
struct Message {
    #[serde(rename = "h", with = "serde_bytes")]
    head: Vec<u8>,
    #[serde(rename = "b", with = "serde_bytes", default, skip_serializing_if = "Vec::is_empty")]
    bulk: Vec<u8>,
    #[serde(rename = "k", default, skip_serializing_if = "Vec::is_empty")]
    statements: Vec<serde_bytes::ByteBuf>,
}

/// A message taken apart: the signed head's bytes and the bulk, deflated as it came.
#[derive(Debug, Clone, Default)]
pub struct Parts {
    /// The signed head.
    pub head: Vec<u8>,
    /// The bulk; empty when there is none.
    pub bulk: Vec<u8>,
    /// With a reply: the key statements the asker lacks, which prove themselves.
    pub statements: Vec<serde_bytes::ByteBuf>,
}

/// Takes a message apart.
///
/// # Errors
/// [`EntryError::Cbor`] when it is none.
pub fn parts(bytes: &[u8]) -> Result<Parts, EntryError> {
    let message: Message = cbor::decode(bytes)?;
    Ok(Parts { head: message.head, bulk: message.bulk, statements: message.statements })
}

pub(super) fn join(head: Vec<u8>, bulk: Vec<u8>) -> Result<Vec<u8>, EntryError> {
    join_with(head, bulk, Vec::new())
}

/// As [`join`], with key statements beside.
pub(super) fn join_with(
    head: Vec<u8>,
    bulk: Vec<u8>,
    statements: Vec<serde_bytes::ByteBuf>,
) -> Result<Vec<u8>, EntryError> {
    Ok(cbor::encode(&Message { head, bulk, statements })?)
}

/// The first sixteen bytes of the SHA-256 of a request's bytes.
pub(super) fn request_digest(request: &[u8]) -> [u8; 16] {
    let mut short = [0u8; 16];
    short.copy_from_slice(&Digest::of(request).0[..16]);
    short
}

/// What messages mostly say, as the deterministic encoding has it. Both sides begin their window with it, so
/// that a round with one entry need not spell it out. Part of the form of messages: never edited.
pub(super) const DEFLATE_DICTIONARY: &[u8] = b"\x61u\x82\x01\x00\x61c\x81\xa2\x61b\x59\x02\
    \x01entries\xd2\x84\x58\x26\xa2\x01\x27\x04\x58\x20\
    \xa0\x59\x01\xaa\x62by\x64op-1\x63seq\x19\x01\x63why\x60\x64prev\x58\x20\
    \x64says\xa1\x66remark\xa1\x64text\x64says\xa1\x65valve\xa2\x67fitting\x68liquid_a\x68position\x64shut\x64open\
    \x64says\xa1\x64step\xa3\x64note\x60\x64step\x67outcome\x64done\
    \x64says\xa1\x67reading\xa5\x65place\x63car\x66amount\xa2\x64unit\x66degF_\x65psi_g\x65value\xfb\x40\x67purpose\
    \x67arrival\x65final\x68recovery\x68transfer\x68measured\x66outage\x6btemperature\x68pressure\x6ainstrument\x63G-3\
    \x64slot\x6fseries/transfer/pressure/car\x64when\xa3\x62at\x1b\x00\x00\x01\x9f\
    \x6cahead_millis\x19\x01\x6eoffset_minutes\x39\x01\x67\x65about\xa1\x65visit\x50\x67follows\x81\x58\x20\
    \x68replaces\x81\x58\x20\x58\x40\x61d\xa1\x65visit\x50";

fn deflate(bulk: &[u8]) -> Vec<u8> {
    let mut encoder = flate2::write::DeflateEncoder::new(Vec::new(), flate2::Compression::new(6));
    // Writing into memory does not fail; should it, the message is refused as unreadable.
    let primed = encoder
        .write_all(DEFLATE_DICTIONARY)
        .and_then(|()| encoder.flush())
        .map(|()| encoder.get_ref().len());
    let written = encoder.write_all(bulk).and_then(|()| encoder.finish());
    match (primed, written) {
        (Ok(primed), Ok(mut out)) => out.split_off(primed),
        _ => Vec::new(),
    }
}

/// A bulk's encoding, out of the form it travels in.
///
/// # Errors
/// [`EntryError`] when it is none, or inflates beyond `most` bytes.
pub fn inflate(bulk: &[u8], most: usize) -> Result<Vec<u8>, EntryError> {
    // What is familiar as one stored block (RFC 1951, 3.2.4), in front of what came.
    let length = u16::try_from(DEFLATE_DICTIONARY.len()).unwrap_or(u16::MAX);
    let [low, high] = length.to_le_bytes();
    let stored = [0, low, high, !low, !high];
    let mut decoder = flate2::read::DeflateDecoder::new(stored.chain(DEFLATE_DICTIONARY).chain(bulk));
    let mut out = Vec::new();
    std::io::copy(&mut decoder.by_ref().take(u64::from(length)), &mut std::io::sink())
        .and_then(|_| decoder.take(most as u64 + 1).read_to_end(&mut out))
        .map_err(|e| EntryError::Cbor(cbor::CborError::Unreadable(e.to_string())))?;
    if out.len() > most { Err(EntryError::TooLarge(out.len())) } else { Ok(out) }
}

pub(super) fn pack<T: Serialize + Default + PartialEq>(
    bulk: &T,
) -> Result<(Vec<u8>, Option<Digest>), EntryError> {
    if *bulk == T::default() {
        return Ok((Vec::new(), None));
    }
    let bytes = deflate(&cbor::encode(bulk)?);
    let digest = Digest::of(&bytes);
    Ok((bytes, Some(digest)))
}

/// Opens a bulk that a head vouches for.
///
/// # Errors
/// [`EntryError`] when it is another bulk, inflates beyond `most`, or is none.
pub fn open_bulk<T: for<'a> Deserialize<'a> + Default>(
    parts: &Parts,
    vouched: Option<Digest>,
    most: usize,
) -> Result<T, EntryError> {
    match vouched {
        None if parts.bulk.is_empty() => Ok(T::default()),
        Some(digest) if digest == Digest::of(&parts.bulk) => Ok(cbor::decode(&inflate(&parts.bulk, most)?)?),
        _ => Err(EntryError::BadSignature),
    }
}

/// Signs and joins a request.
///
/// # Errors
/// [`EntryError`] when it cannot be encoded.
pub fn seal_request(
    mut head: RequestHead,
    bulk: &RequestBulk,
    key: &DeviceKey,
) -> Result<Vec<u8>, EntryError> {
    let (bulk, digest) = pack(bulk)?;
    head.bulk = digest;
    join(key.seal_addressed(cbor::encode(&head)?, REQUEST, &key.public().0[..8]), bulk)
}

/// Checks a request's head against the device's key.
///
/// # Errors
/// [`EntryError`] when the signature does not hold.
pub fn open_request(parts: &Parts, device: &PublicKey) -> Result<RequestHead, EntryError> {
    Ok(cbor::decode(&open_addressed(&parts.head, REQUEST, device)?)?)
}

/// Signs and joins a reply.
///
/// # Errors
/// [`EntryError`] when it cannot be encoded.
pub fn seal_reply(head: ReplyHead, bulk: &ReplyBulk, key: &OrganisationKey) -> Result<Vec<u8>, EntryError> {
    seal_reply_with(head, bulk, key, Vec::new())
}

/// As [`seal_reply`], with the key statements the asker lacks.
///
/// # Errors
/// As [`seal_reply`].
pub(super) fn seal_reply_with(
    mut head: ReplyHead,
    bulk: &ReplyBulk,
    key: &OrganisationKey,
    statements: Vec<serde_bytes::ByteBuf>,
) -> Result<Vec<u8>, EntryError> {
    let (bulk, digest) = pack(bulk)?;
    head.bulk = digest;
    join_with(head.seal(key)?, bulk, statements)
}
