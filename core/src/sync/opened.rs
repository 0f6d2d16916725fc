//! A request as far as it is taken apart and checked before anybody waits for the ledger.
//!
//! Lives here: the outline of a message from its first bytes, whose signature a head carries, the bounds on what
//! one request may ask, and the checking of its changes. Does not live here: what the ledger says to it
//! (`answer`). The server calls it in a request's own task; [`super::Answerer::answer`] calls it for a request
//! that is whole in memory already.

use std::collections::{BTreeMap, BTreeSet};
use std::ops::Range;

use super::answer::{CERTIFICATES_VERSION, Refusal};
use super::wire::{Change, Parts, RequestBulk, RequestHead, inflate, open_request, parts, request_digest};
use crate::document::CheckedChange;
use crate::entry::cbor::{self, CborError};
use crate::entry::{Certificate, EntryError, PublicKey, Trusts, hint_of};
use crate::ids::{DeviceId, Digest};
use crate::store::{Store, StoreError};

/// The longest signed head of a request, in bytes; those of today have about 140.
pub const LARGEST_HEAD: usize = 1024;
/// Entries a receipt may be asked for in one request; a device asks for a few hundred.
pub const MOST_ASKS: usize = 4096;
/// Photographs one request may ask about.
pub const MOST_PHOTOS: usize = 20_000;
/// Changes in one request; a device sends about a thousand at most.
pub const MOST_CHANGES: usize = 10_000;
/// Reconciling messages, and documents wanted whole, in one request; a device sends forty.
pub const MOST_DOCUMENTS: usize = 1_000;
/// Numbers, texts and lists in one request: what the bounds above come to, and room to spare. Each takes up to
/// two hundred bytes of memory while it is read.
const MOST_ITEMS: usize = 1 << 17;

/// Where the parts of a message lie. Its keys are in deterministic order, the bulk before the head, so that the
/// length of the bulk is known from the first bytes and the head comes last.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Outline {
    /// Where the bulk lies; empty when there is none.
    pub bulk: Range<usize>,
}

impl Outline {
    /// How many bytes of a message are needed to read its outline.
    pub const NEEDED: usize = 8;

    /// Reads it from the first bytes of a message.
    ///
    /// # Errors
    /// [`Refusal::Unreadable`] for what is no message, however long it goes on.
    pub fn of(first: &[u8]) -> Result<Outline, Refusal> {
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

    /// The longest a message with this outline may be.
    pub fn longest(&self) -> usize {
        self.bulk.end.saturating_add(LARGEST_HEAD + 8)
    }

    /// The signed head in what follows the bulk.
    ///
    /// # Errors
    /// [`Refusal::Unreadable`] when there is none.
    pub fn head<'m>(&self, after: &'m [u8]) -> Result<&'m [u8], Refusal> {
        let Some(rest) = after.strip_prefix(b"\x61h") else { return Err(unreadable()) };
        let head = byte_string(rest).filter(|head| head.len() <= LARGEST_HEAD).ok_or_else(unreadable)?;
        rest.get(head).ok_or_else(unreadable)
    }
}

fn unreadable() -> Refusal {
    EntryError::from(CborError::Unreadable("it does not begin or end as a message does".to_owned())).into()
}

/// Where the bytes of a byte string lie whose shortest head (RFC 8949, section 3) stands at the beginning.
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

/// The certificates as a server last saw them, by the hint that messages carry. Several devices may have one
/// hint; each of them is tried.
#[derive(Debug, Clone, Default)]
pub struct Devices {
    /// The version of the certificate list.
    pub version: u64,
    by_hint: BTreeMap<[u8; 8], Vec<(DeviceId, Vec<u8>)>>,
}

/// A signed head, and who signed it.
#[derive(Debug, Clone)]
pub struct Vouched {
    /// The signer's certificate, as far as [`Devices`] knew.
    pub certificate: Certificate,
    /// What the head says.
    pub head: RequestHead,
    version: u64,
}

impl Devices {
    /// The certificates with a version that was read before them, so that a change meanwhile is noticed.
    pub fn new(version: u64, certificates: impl IntoIterator<Item = (DeviceId, Vec<u8>)>) -> Devices {
        let mut devices = Devices { version, ..Devices::default() };
        for (device, bytes) in certificates {
            let mut hint = [0u8; 8];
            hint.copy_from_slice(&device.0[..8]);
            devices.by_hint.entry(hint).or_default().push((device, bytes));
        }
        devices
    }

    /// The certificates of a ledger.
    ///
    /// # Errors
    /// [`StoreError`].
    pub fn read(store: &dyn Store) -> Result<Devices, StoreError> {
        Ok(Devices::new(version_in(store)?, store.certificates()?))
    }

    /// Puts a device under the hint of another, as if their keys began alike.
    #[cfg(test)]
    pub(super) fn same_hint_for_tests(&mut self, first: DeviceId, second: DeviceId, certificate: Vec<u8>) {
        let known = self.by_hint.values_mut().find(|known| known.iter().any(|(device, _)| *device == first));
        known.into_iter().for_each(|known| known.push((second, certificate.clone())));
    }

    /// The certificates of the devices that a head's hint may mean.
    fn candidates(&self, head: &[u8], organisation: &dyn Trusts) -> Result<Vec<Certificate>, Refusal> {
        let hint: [u8; 8] = hint_of(head)?.try_into().map_err(|_| Refusal::UnknownDevice)?;
        let known = self.by_hint.get(&hint).map(Vec::as_slice).unwrap_or_default();
        let opened: Vec<Certificate> = known
            .iter()
            .filter_map(|(device, bytes)| {
                Certificate::open(bytes, organisation)
                    .ok()
                    .filter(|certificate| certificate.device == *device)
            })
            .collect();
        if opened.is_empty() { Err(Refusal::UnknownDevice) } else { Ok(opened) }
    }

    /// The certificate of the device for which `holds` finds the signature good.
    pub(super) fn signer_of<T>(
        &self,
        head: &[u8],
        organisation: &dyn Trusts,
        holds: impl Fn(&PublicKey) -> Result<T, EntryError>,
    ) -> Result<(Certificate, T), Refusal> {
        let mut refused = Refusal::UnknownDevice;
        for certificate in self.candidates(head, organisation)? {
            match holds(&certificate.device) {
                Ok(said) => return Ok((certificate, said)),
                Err(error) => refused = error.into(),
            }
        }
        Err(refused)
    }

    /// Whose request it is, by the signature of its head.
    ///
    /// # Errors
    /// [`Refusal`] for what none of these devices signed.
    pub fn vouch(&self, head: &[u8], organisation: &dyn Trusts) -> Result<Vouched, Refusal> {
        let message = Parts { head: head.to_vec(), ..Parts::default() };
        let (certificate, head) =
            self.signer_of(head, organisation, |device| open_request(&message, device))?;
        Ok(Vouched { certificate, head, version: self.version })
    }
}

/// The version of a ledger's certificate list.
fn version_in(store: &dyn Store) -> Result<u64, StoreError> {
    Ok(store.value(CERTIFICATES_VERSION)?.and_then(|v| v.try_into().ok()).map_or(0, u64::from_be_bytes))
}

/// A request whose signature, bounds and changes were checked.
#[derive(Debug)]
pub struct OpenedRequest {
    pub(super) digest: [u8; 16],
    pub(super) certificate: Certificate,
    version: u64,
    pub(super) head: RequestHead,
    pub(super) asked: RequestBulk,
    /// For each of the changes asked to be taken in: what it adds, or why it is refused.
    pub(super) changes: Vec<Result<CheckedChange, String>>,
}

impl OpenedRequest {
    /// Opens a request that is whole in memory.
    ///
    /// # Errors
    /// [`Refusal`].
    pub fn read(
        request: &[u8],
        devices: &Devices,
        organisation: &dyn Trusts,
        most: usize,
    ) -> Result<OpenedRequest, Refusal> {
        let message = parts(request)?;
        let vouched = devices.vouch(&message.head, organisation)?;
        OpenedRequest::open(vouched, &message.bulk, request_digest(request), most)
    }

    /// Opens the bulk that a vouched head speaks for. `digest` is the first half of the whole message's SHA-256.
    ///
    /// # Errors
    /// [`Refusal`] when the head speaks for another bulk, or when it inflates beyond `most` bytes or asks for
    /// too much.
    pub fn open(
        vouched: Vouched,
        bulk: &[u8],
        digest: [u8; 16],
        most: usize,
    ) -> Result<OpenedRequest, Refusal> {
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

    /// Who asks.
    pub fn device(&self) -> DeviceId {
        self.certificate.device
    }

    /// Whether the asker was revoked when the request was opened.
    pub fn is_revoked(&self) -> bool {
        self.certificate.revoked_at.is_some()
    }

    /// The asker's certificate as the ledger has it now: it may have been revoked while the request waited.
    pub(super) fn certificate_now(
        &self,
        store: &dyn Store,
        organisation: &dyn Trusts,
    ) -> Result<Certificate, Refusal> {
        if version_in(store)? == self.version {
            return Ok(self.certificate.clone());
        }
        let found = store.certificates()?.into_iter().find(|(device, _)| *device == self.certificate.device);
        let (_, bytes) = found.ok_or(Refusal::UnknownDevice)?;
        Certificate::open(&bytes, organisation).map_err(|_| Refusal::UnknownDevice)
    }
}

fn check_bounds(asked: &RequestBulk) -> Result<(), Refusal> {
    bounded("receipts", &asked.asks, MOST_ASKS)?;
    bounded("photographs", &asked.photos, MOST_PHOTOS)?;
    bounded("documents", &asked.whole, MOST_DOCUMENTS)?;
    if asked.changes.len() > MOST_CHANGES {
        return Err(too_much("changes"));
    }
    let messages: Vec<_> = asked.messages.iter().map(|message| message.subject).collect();
    bounded("documents", &messages, MOST_DOCUMENTS)
}

/// Each once, and not too many of them: a device asks for nothing twice in one request.
fn bounded<T: Ord>(what: &'static str, list: &[T], most: usize) -> Result<(), Refusal> {
    let distinct: BTreeSet<&T> = list.iter().take(most).collect();
    if distinct.len() < list.len() { Err(too_much(what)) } else { Ok(()) }
}

fn too_much(what: &'static str) -> Refusal {
    Refusal::TooMuch(what)
}
