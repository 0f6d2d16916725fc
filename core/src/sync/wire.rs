//! The messages of a round, byte for byte. Field names have one letter because mobile reception at a siding
//! is poor.
//!
//! Both messages are a CBOR map of two byte strings: a small signed head and an optional bulk. The bulk is
//! compressed with a preset dictionary, and its SHA-256 stands in the head. The head of a reply is also the
//! receipt and is stored alone ([`ReplyHead`]).

use serde::{Deserialize, Serialize};
use std::io::{Read as _, Write as _};

use crate::clock::UtcMillis;
use crate::entry::{DeviceKey, EntryError, OrganisationKey, PersonName, PublicKey, cbor, open_addressed};
use crate::ids::{Digest, EntryId, Subject};
use crate::store::SetDigest;

pub use crate::log::{Cursor, ReplyHead};

/// The default limit on the size of a bulk after inflation, in bytes.
pub const LARGEST_BULK: usize = 8 * 1024 * 1024;

/// The approximate number of bytes of changes in one message.
pub const CHANGES_PER_ROUND: usize = 256 * 1024;

const REQUEST: &str = "farsiding request 1";

/// The signed part of a request.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct RequestHead {
    /// The number of the request, which rises with every request of the device. An old number is not answered
    /// again.
    #[serde(rename = "n")]
    pub number: u64,
    /// The position up to which the device has read the ledger; absent at first and while reconciling.
    #[serde(rename = "c", default, skip_serializing_if = "Option::is_none")]
    pub cursor: Option<Cursor>,
    /// The version of the certificate list that the device knows.
    #[serde(rename = "k")]
    pub certificates: u64,
    /// The device's clock, from which the server computes its error.
    #[serde(rename = "t")]
    pub at: UtcMillis,
    /// The SHA-256 of the bulk.
    #[serde(rename = "b", default, skip_serializing_if = "Option::is_none")]
    pub bulk: Option<Digest>,
    /// The first eight bytes of the SHA-256 of the last known key statement; absent if the device knows none.
    #[serde(rename = "s", default, skip_serializing_if = "Option::is_none")]
    pub statement: Option<serde_bytes::ByteBuf>,
}

/// The unsigned part of a request.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
pub struct RequestBulk {
    /// New changes, each with its document.
    #[serde(rename = "c", default, skip_serializing_if = "Vec::is_empty")]
    pub changes: Vec<Change>,
    /// The entries, besides those in `changes`, for which a receipt is requested.
    #[serde(rename = "a", default, skip_serializing_if = "Vec::is_empty")]
    pub asks: Vec<EntryId>,
    /// The photographs about which the device asks whether the server holds them.
    #[serde(rename = "p", default, skip_serializing_if = "Vec::is_empty")]
    pub photos: Vec<Digest>,
    /// Whether the device requests the list of all documents, for reconciling.
    #[serde(rename = "s", default, skip_serializing_if = "std::ops::Not::not")]
    pub survey: bool,
    /// Reconciling messages, one per document.
    #[serde(rename = "m", default, skip_serializing_if = "Vec::is_empty")]
    pub messages: Vec<Change>,
    /// Documents requested whole because messages alone did not reconcile them.
    #[serde(rename = "w", default, skip_serializing_if = "Vec::is_empty")]
    pub whole: Vec<Subject>,
    /// The numbers of entries and photographs on the device that the server has not confirmed.
    #[serde(rename = "u", default, skip_serializing_if = "Option::is_none")]
    pub unsent: Option<(u64, u64)>,
    /// The approximate most bytes of changes the reply may contain; set when larger replies were lost on the
    /// way.
    #[serde(rename = "l", default, skip_serializing_if = "Option::is_none")]
    pub most: Option<u32>,
    /// The names of people that the server is not known to hold.
    #[serde(rename = "n", default, skip_serializing_if = "Vec::is_empty")]
    pub names: Vec<PersonName>,
}

/// The bytes of a change or of a reconciling message, with the document they belong to.
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
    /// Changes that the device has not read yet.
    #[serde(rename = "c", default, skip_serializing_if = "Vec::is_empty")]
    pub changes: Vec<Change>,
    /// Whether there are more changes after the cursor.
    #[serde(rename = "m", default, skip_serializing_if = "std::ops::Not::not")]
    pub more: bool,
    /// The indexes (from 0), in the request's list of entries, of those the server does not hold.
    #[serde(rename = "x", default, skip_serializing_if = "Vec::is_empty")]
    pub lacking: Vec<u32>,
    /// The indexes of the changes that were refused, with the reason.
    #[serde(rename = "f", default, skip_serializing_if = "Vec::is_empty")]
    pub refused: Vec<(u32, String)>,
    /// The refused changes that are accepted later, and from when on.
    #[serde(rename = "l", default, skip_serializing_if = "Option::is_none")]
    pub later: Option<Later>,
    /// The indexes of the photographs that the server holds completely.
    #[serde(rename = "p", default, skip_serializing_if = "Vec::is_empty")]
    pub photos: Vec<u32>,
    /// The certificate list and its version, if the device knows another version.
    #[serde(rename = "k", default, skip_serializing_if = "Option::is_none")]
    pub certificates: Option<CertificateList>,
    /// The names of people, all that the server holds, with the certificates. A server of an earlier version
    /// sends none, which is not an empty list.
    #[serde(rename = "n", default, skip_serializing_if = "Option::is_none")]
    pub names: Option<Vec<PersonName>>,
    /// All documents with the digest of their entries.
    #[serde(rename = "s", default, skip_serializing_if = "Vec::is_empty")]
    pub survey: Vec<Surveyed>,
    /// Reconciling messages.
    #[serde(rename = "a", default, skip_serializing_if = "Vec::is_empty")]
    pub messages: Vec<Change>,
}

/// Changes that exceed the device's allowance for now. The device keeps them and sends them again.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Later {
    /// The indexes of these changes in the request; each also stands in [`ReplyBulk::refused`] with the
    /// reason.
    #[serde(rename = "p")]
    pub places: Vec<u32>,
    /// The time from which they are accepted, by the server's clock.
    #[serde(rename = "t")]
    pub at: UtcMillis,
}

/// A document and the digest of its entries.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct Surveyed {
    /// The document.
    #[serde(rename = "d")]
    pub subject: Subject,
    /// The digest computed by [`entries_digest`].
    #[serde(rename = "h", with = "serde_bytes")]
    pub digest: [u8; 8],
}

/// The certificates of all devices.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct CertificateList {
    /// The version, which rises with every enrolment and revocation.
    #[serde(rename = "v")]
    pub version: u64,
    /// The signed certificates.
    #[serde(rename = "c")]
    pub certificates: Vec<serde_bytes::ByteBuf>,
}

/// Returns eight bytes that differ when two copies of a document hold different entries.
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

/// Returns the first sixteen bytes of a set digest's sum.
pub(super) fn short_sum(tally: &SetDigest) -> [u8; 16] {
    let mut short = [0u8; 16];
    short.copy_from_slice(&tally.sum[..16]);
    short
}

/// Returns the first four bytes of a set digest's sum.
pub(super) fn shortest_sum(tally: &SetDigest) -> [u8; 4] {
    let mut short = [0u8; 4];
    short.copy_from_slice(&tally.sum[..4]);
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

/// The parts of a message: the bytes of the signed head, and the compressed bulk.
#[derive(Debug, Clone, Default)]
pub struct Parts {
    /// The signed head.
    pub head: Vec<u8>,
    /// The compressed bulk; empty if there is none.
    pub bulk: Vec<u8>,
    /// The key statements that the device lacks (in replies only). They are verified with the root key.
    pub statements: Vec<serde_bytes::ByteBuf>,
}

/// Splits a message into its parts.
///
/// # Errors
/// [`EntryError::Cbor`] if the bytes are not a message.
pub fn parts(bytes: &[u8]) -> Result<Parts, EntryError> {
    let message: Message = cbor::decode(bytes)?;
    Ok(Parts { head: message.head, bulk: message.bulk, statements: message.statements })
}

pub(super) fn join(head: Vec<u8>, bulk: Vec<u8>) -> Result<Vec<u8>, EntryError> {
    join_with(head, bulk, Vec::new())
}

/// Does the same as [`join`], with key statements added.
pub(super) fn join_with(
    head: Vec<u8>,
    bulk: Vec<u8>,
    statements: Vec<serde_bytes::ByteBuf>,
) -> Result<Vec<u8>, EntryError> {
    Ok(cbor::encode(&Message { head, bulk, statements })?)
}

/// Returns the first sixteen bytes of the SHA-256 of a request.
pub(super) fn request_digest(request: &[u8]) -> [u8; 16] {
    let mut short = [0u8; 16];
    short.copy_from_slice(&Digest::of(request).0[..16]);
    short
}

/// The preset dictionary: the text that messages contain most often, in deterministic CBOR. Both sides start
/// their compression window with it, which makes a round with a single entry short. It is part of the wire
/// format and must never change.
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
    // Writing into memory does not fail; if it did, the message would be refused as unreadable.
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

/// Decompresses a bulk.
///
/// # Errors
/// [`EntryError`] if the bytes are not a bulk or inflate beyond `most` bytes.
pub fn inflate(bulk: &[u8], most: usize) -> Result<Vec<u8>, EntryError> {
    // The preset dictionary is prepended as one stored block (RFC 1951, 3.2.4).
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

/// Opens a bulk after comparing it with the digest in its head.
///
/// # Errors
/// [`EntryError`] if the bulk is not the one in the head, inflates beyond `most` bytes, or cannot be decoded.
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

/// Signs a request's head and joins it with the bulk.
///
/// # Errors
/// [`EntryError`] when the request cannot be encoded.
pub fn seal_request(
    mut head: RequestHead,
    bulk: &RequestBulk,
    key: &DeviceKey,
) -> Result<Vec<u8>, EntryError> {
    let (bulk, digest) = pack(bulk)?;
    head.bulk = digest;
    join(key.seal_addressed(cbor::encode(&head)?, REQUEST, &key.public().0[..8]), bulk)
}

/// Checks a request's head with the device's key.
///
/// # Errors
/// [`EntryError`] when the signature is invalid.
pub fn open_request(parts: &Parts, device: &PublicKey) -> Result<RequestHead, EntryError> {
    Ok(cbor::decode(&open_addressed(&parts.head, REQUEST, device)?)?)
}

/// Signs a reply's head and joins it with the bulk.
///
/// # Errors
/// [`EntryError`] when the reply cannot be encoded.
pub fn seal_reply(head: ReplyHead, bulk: &ReplyBulk, key: &OrganisationKey) -> Result<Vec<u8>, EntryError> {
    seal_reply_with(head, bulk, key, Vec::new())
}

/// Does the same as [`seal_reply`], with the key statements that the device lacks.
///
/// # Errors
/// As for [`seal_reply`].
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
