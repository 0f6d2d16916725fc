//! A request after the checks that do not need the ledger.
//!
//! This module reads the outline of a message from its first bytes, finds the device that signed the head,
//! applies the limits on what one request may ask, and checks the changes. How the ledger answers is in
//! `answer`. The server calls this module in each request's own task, before it locks the ledger;
//! [`super::Answerer::answer`] calls it for a request that is entirely in memory.

use std::collections::{BTreeMap, BTreeSet};
use std::ops::Range;
use std::sync::{Arc, OnceLock};

use super::answer::{AnswerError, CERTIFICATES_VERSION};
use super::names::MOST_NAMES;
use super::wire::{Change, Parts, RequestBulk, RequestHead, inflate, open_request, parts, request_digest};
use crate::document::CheckedChange;
use crate::entry::cbor::{self, CborError};
use crate::entry::{Certificate, EntryError, PublicKey, Trusts, hint_of};
use crate::ids::{DeviceId, Digest};
use crate::store::{Store, StoreError};

/// The longest signed head of a request, in bytes. Current heads have about 140 bytes.
pub const LARGEST_HEAD: usize = 1024;
/// The most entries for which one request may ask for receipts. A device asks for a few hundred.
pub const MOST_ASKS: usize = 4096;
/// The most photographs one request may ask about.
pub const MOST_PHOTOS: usize = 20_000;
/// The most changes in one request. A device sends about a thousand at most.
pub const MOST_CHANGES: usize = 10_000;
/// The most reconciling messages, and the most documents requested whole, in one request. A device sends
/// forty.
pub const MOST_DOCUMENTS: usize = 1_000;
/// The most CBOR items in one request: what the limits above add up to, with a margin. Each item takes up to
/// two hundred bytes of memory during decoding.
const MOST_ITEMS: usize = 1 << 17;

/// The positions of a message's parts. The map keys are in deterministic order with the bulk before the head,
/// so the first bytes give the length of the bulk, and the head comes last.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Outline {
    /// The byte range of the bulk; empty if there is none.
    pub bulk: Range<usize>,
}

impl Outline {
    /// The number of bytes needed to read an outline.
    pub const NEEDED: usize = 8;

    /// Reads the outline from the first bytes of a message.
    ///
    /// # Errors
    /// [`AnswerError::Unreadable`] if the bytes do not begin a message.
    pub fn of(first: &[u8]) -> Result<Outline, AnswerError> {
        let (Some(0xa1..=0xb7), Some(0x61)) = (first.first(), first.get(1)) else { return Err(unreadable()) };
        match first.get(2) {
            Some(b'h') => Ok(Outline { bulk: 1..1 }),
            Some(b'b') => {
                let text = byte_string(first.get(3..).unwrap_or_default()).ok_or_else(unreadable)?;
                let start = 3 + text.start;
                Ok(Outline { bulk: start..start.saturating_add(text.len()) })
            }
            _ => Err(unreadable()),
        }
    }

    /// Returns the greatest length in bytes of a message with this outline.
    pub fn longest(&self) -> usize {
        self.bulk.end.saturating_add(LARGEST_HEAD + 8)
    }

    /// Returns the signed head from the bytes after the bulk.
    ///
    /// # Errors
    /// [`AnswerError::Unreadable`] if there is no head.
    pub fn head<'m>(&self, after: &'m [u8]) -> Result<&'m [u8], AnswerError> {
        let Some(rest) = after.strip_prefix(b"\x61h") else { return Err(unreadable()) };
        let head = byte_string(rest).filter(|head| head.len() <= LARGEST_HEAD).ok_or_else(unreadable)?;
        rest.get(head).ok_or_else(unreadable)
    }
}

fn unreadable() -> AnswerError {
    EntryError::from(CborError::Unreadable("it does not begin or end as a message does".to_owned())).into()
}

/// Returns the byte range of the byte string at the start of `bytes`. Its length must be encoded in the
/// shortest form (RFC 8949, section 3).
fn byte_string(bytes: &[u8]) -> Option<Range<usize>> {
    let first = *bytes.first()?;
    let (follows, least) = match first {
        0x40..=0x57 => return Some(1..1 + usize::from(first - 0x40)),
        0x58 => (1, 24),
        0x59 => (2, 1 << 8),
        0x5a => (4, 1 << 16),
        _ => return None,
    };
    let number = bytes.get(1..=follows)?.iter().fold(0usize, |sum, byte| sum << 8 | usize::from(*byte));
    (number >= least).then(|| 1 + follows..(1 + follows).saturating_add(number))
}

/// The certificates that a server knew when it last read them, indexed by the key hint in messages. Several
/// devices may share a hint; each of them is then tried. A certificate is opened when its device first asks,
/// with the keys of the organisation it asks; these keys must be the same ones every time.
#[derive(Debug, Clone, Default)]
pub struct Devices {
    /// The version of the certificate list.
    pub version: u64,
    by_hint: BTreeMap<[u8; 8], Vec<Known>>,
}

/// A certificate as stored, and as opened once it was asked for.
#[derive(Debug, Clone)]
struct Known {
    device: DeviceId,
    bytes: Vec<u8>,
    opened: OnceLock<Option<Arc<Certificate>>>,
}

impl Known {
    fn opened(&self, organisation: &dyn Trusts) -> Option<Arc<Certificate>> {
        let open = || {
            let opened = Certificate::open(&self.bytes, organisation).ok();
            opened.filter(|certificate| certificate.device == self.device).map(Arc::new)
        };
        self.opened.get_or_init(open).clone()
    }
}

/// A signed head and its signer.
#[derive(Debug, Clone)]
pub struct Vouched {
    /// The signer's certificate as found in [`Devices`].
    pub certificate: Arc<Certificate>,
    /// The content of the head.
    pub head: RequestHead,
    version: u64,
}

impl Devices {
    /// Indexes certificates. `version` must have been read before the certificates, so that a change in
    /// between is noticed.
    pub fn new(version: u64, certificates: impl IntoIterator<Item = (DeviceId, Vec<u8>)>) -> Devices {
        let mut devices = Devices { version, ..Devices::default() };
        for (device, bytes) in certificates {
            let mut hint = [0u8; 8];
            hint.copy_from_slice(&device.0[..8]);
            let known = Known { device, bytes, opened: OnceLock::new() };
            devices.by_hint.entry(hint).or_default().push(known);
        }
        devices
    }

    /// Indexes certificates that were read again. Those that are the same as before stay open.
    #[must_use]
    pub fn renewed(
        &self,
        version: u64,
        certificates: impl IntoIterator<Item = (DeviceId, Vec<u8>)>,
    ) -> Devices {
        let mut devices = Devices::new(version, certificates);
        for (hint, known) in &mut devices.by_hint {
            let before = self.by_hint.get(hint).map(Vec::as_slice).unwrap_or_default();
            for known in known {
                let same = before.iter().find(|old| old.device == known.device && old.bytes == known.bytes);
                if let Some(same) = same {
                    known.opened = same.opened.clone();
                }
            }
        }
        devices
    }

    /// Reads the certificates from a store.
    ///
    /// # Errors
    /// [`StoreError`] when the database fails.
    pub fn read(store: &dyn Store) -> Result<Devices, StoreError> {
        Ok(Devices::new(version_in(store)?, store.certificates()?))
    }

    /// Adds a device under the hint of another one, as if their keys began with the same bytes.
    #[cfg(test)]
    pub(super) fn same_hint_for_tests(&mut self, first: DeviceId, second: DeviceId, certificate: Vec<u8>) {
        let known = self.by_hint.values_mut().find(|known| known.iter().any(|known| known.device == first));
        let beside = Known { device: second, bytes: certificate, opened: OnceLock::new() };
        known.into_iter().for_each(|known| known.push(beside.clone()));
    }

    /// Returns the certificates of the devices that a head's hint may refer to.
    fn candidates(
        &self,
        head: &[u8],
        organisation: &dyn Trusts,
    ) -> Result<Vec<Arc<Certificate>>, AnswerError> {
        let hint: [u8; 8] = hint_of(head)?.try_into().map_err(|_| AnswerError::UnknownDevice)?;
        let known = self.by_hint.get(&hint).map(Vec::as_slice).unwrap_or_default();
        let opened: Vec<Arc<Certificate>> =
            known.iter().filter_map(|known| known.opened(organisation)).collect();
        if opened.is_empty() { Err(AnswerError::UnknownDevice) } else { Ok(opened) }
    }

    /// Returns the certificate of the device for which `holds` accepts the signature.
    pub(super) fn signer_of<T>(
        &self,
        head: &[u8],
        organisation: &dyn Trusts,
        holds: impl Fn(&PublicKey) -> Result<T, EntryError>,
    ) -> Result<(Arc<Certificate>, T), AnswerError> {
        let mut refused = AnswerError::UnknownDevice;
        for certificate in self.candidates(head, organisation)? {
            match holds(&certificate.device) {
                Ok(said) => return Ok((certificate, said)),
                Err(error) => refused = error.into(),
            }
        }
        Err(refused)
    }

    /// Finds the device that signed a request's head.
    ///
    /// # Errors
    /// [`AnswerError`] if none of these devices signed the head.
    pub fn vouch(&self, head: &[u8], organisation: &dyn Trusts) -> Result<Vouched, AnswerError> {
        let message = Parts { head: head.to_vec(), ..Parts::default() };
        let (certificate, head) =
            self.signer_of(head, organisation, |device| open_request(&message, device))?;
        Ok(Vouched { certificate, head, version: self.version })
    }
}

/// Returns the version of a store's certificate list.
fn version_in(store: &dyn Store) -> Result<u64, StoreError> {
    Ok(store.value(CERTIFICATES_VERSION)?.and_then(|v| v.try_into().ok()).map_or(0, u64::from_be_bytes))
}

/// A request whose signature, limits and changes were checked.
#[derive(Debug)]
pub struct OpenedRequest {
    pub(super) digest: [u8; 16],
    pub(super) certificate: Arc<Certificate>,
    version: u64,
    pub(super) head: RequestHead,
    pub(super) asked: RequestBulk,
    /// For each change in the request, the checked change or the reason for refusing it.
    pub(super) changes: Vec<Result<CheckedChange, String>>,
}

impl OpenedRequest {
    /// Opens a request that is entirely in memory.
    ///
    /// # Errors
    /// [`AnswerError`].
    pub fn read(
        request: &[u8],
        devices: &Devices,
        organisation: &dyn Trusts,
        most: usize,
    ) -> Result<OpenedRequest, AnswerError> {
        let message = parts(request)?;
        let vouched = devices.vouch(&message.head, organisation)?;
        OpenedRequest::open(vouched, &message.bulk, request_digest(request), most)
    }

    /// Opens the bulk that belongs to a verified head. `digest` is the first half of the SHA-256 of the whole
    /// message.
    ///
    /// # Errors
    /// [`AnswerError`] if the head names another bulk, or the bulk inflates beyond `most` bytes or exceeds a
    /// limit.
    pub fn open(
        vouched: Vouched,
        bulk: &[u8],
        digest: [u8; 16],
        most: usize,
    ) -> Result<OpenedRequest, AnswerError> {
        let Vouched { certificate, head, version } = vouched;
        let asked = match head.bulk {
            None if bulk.is_empty() => RequestBulk::default(),
            Some(vouched) if vouched == Digest::of(bulk) => {
                let inflated = inflate(bulk, most)?;
                if cbor::has_more_items_than(MOST_ITEMS, &inflated) {
                    return Err(too_much("parts"));
                }
                cbor::decode(&inflated).map_err(EntryError::from)?
            }
            _ => return Err(EntryError::BadSignature.into()),
        };
        check_bounds(&asked)?;
        let check = |change: &Change| {
            CheckedChange::check(&change.bytes, change.subject).map_err(|error| error.to_string())
        };
        let changes = asked.changes.iter().map(check).collect();
        Ok(OpenedRequest { digest, certificate, version, head, asked, changes })
    }

    /// Returns the device that sent the request.
    pub fn device(&self) -> DeviceId {
        self.certificate.device
    }

    /// Returns true if the device was revoked when the request was opened.
    pub fn is_revoked(&self) -> bool {
        self.certificate.revoked_at.is_some()
    }

    /// Returns the device's current certificate. The device may have been revoked while the request waited.
    pub(super) fn certificate_now(
        &self,
        store: &dyn Store,
        organisation: &dyn Trusts,
    ) -> Result<Arc<Certificate>, AnswerError> {
        if version_in(store)? == self.version {
            return Ok(Arc::clone(&self.certificate));
        }
        let bytes = store.certificate(self.certificate.device)?.ok_or(AnswerError::UnknownDevice)?;
        let opened = Certificate::open(&bytes, organisation).map_err(|_| AnswerError::UnknownDevice)?;
        Ok(Arc::new(opened))
    }
}

fn check_bounds(asked: &RequestBulk) -> Result<(), AnswerError> {
    bounded("receipts", &asked.asks, MOST_ASKS)?;
    bounded("photographs", &asked.photos, MOST_PHOTOS)?;
    bounded("documents", &asked.whole, MOST_DOCUMENTS)?;
    bounded("names", &asked.names, MOST_NAMES)?;
    if asked.changes.len() > MOST_CHANGES {
        return Err(too_much("changes"));
    }
    let messages: Vec<_> = asked.messages.iter().map(|message| message.subject).collect();
    bounded("documents", &messages, MOST_DOCUMENTS)
}

/// Checks that a list has no duplicates and at most `most` items. A device never names an item twice in one
/// request.
fn bounded<T: Ord>(what: &'static str, list: &[T], most: usize) -> Result<(), AnswerError> {
    let distinct: BTreeSet<&T> = list.iter().take(most).collect();
    if distinct.len() < list.len() { Err(too_much(what)) } else { Ok(()) }
}

fn too_much(what: &'static str) -> AnswerError {
    AnswerError::TooMuch(what)
}
