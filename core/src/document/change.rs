//! Checking a change from outside: it may add entries under their own digest and do nothing else.
//!
//! The check looks at the change alone, never at what the document holds already, so every replica
//! comes to the same verdict in whatever order changes arrive (invariant 1).

use std::panic::{AssertUnwindSafe, catch_unwind};

use automerge::legacy::{Key, ObjectId, OpType};
use automerge::{ActorId, Change, ScalarValue};
use base64::Engine as _;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;

use super::{DocumentError, extent};
use crate::entry::Entry;
use crate::ids::{Digest, EntryId, Subject};

/// The largest change accepted, in bytes, compressed or not.
pub const LARGEST_CHANGE: usize = 1024 * 1024;

/// Where a change's checksum stands: the first four bytes of the hash of what follows it, uncompressed.
const CHECKSUM: std::ops::Range<usize> = 4..8;

/// The operation that made the `entries` map in the frozen genesis: the second of the zero actor.
const ENTRIES_OBJECT: u64 = 2;

/// The map key of an entry: its id in base64url without padding (RFC 4648, section 5).
pub(super) fn key_of(id: EntryId) -> String {
    URL_SAFE_NO_PAD.encode(id.0)
}

pub(super) fn id_of(key: &str) -> Option<EntryId> {
    URL_SAFE_NO_PAD.decode(key).ok()?.try_into().ok().map(EntryId)
}

/// A change that was taken apart and found to add entries and nothing else.
#[derive(Debug, Clone)]
pub struct CheckedChange {
    change: Change,
    entries: Vec<Entry>,
}

impl CheckedChange {
    /// Checks a change's bytes for the document of `subject`.
    ///
    /// Entries of a car's document may be about a visit: what is known of a car is said during its
    /// visits. That two visits are one stay stands in both their documents. Every signature is verified
    /// here.
    ///
    /// # Errors
    /// [`DocumentError`]; never panics, never inflates beyond [`LARGEST_CHANGE`], and expands nothing that
    /// claims more than its bytes can hold.
    pub fn check(bytes: &[u8], subject: Subject) -> Result<CheckedChange, DocumentError> {
        let checksum = bytes.get(CHECKSUM).map(<[u8]>::to_vec);
        let bytes = inflate(bytes)?;
        extent::check_chunk(&bytes)?;
        // The library may panic on bytes nobody's library wrote; that is a refusal, not a crash.
        let (change, operations) = catch_unwind(AssertUnwindSafe(|| {
            Change::from_bytes(bytes).map(|change| {
                let expanded = change.decode();
                (change, expanded)
            })
        }))
        .map_err(|_| DocumentError::Unreadable("malformed beyond reading".to_owned()))?
        .map_err(|e| DocumentError::Unreadable(e.to_string()))?;
        // The library reads a change whose checksum is wrong. Damaged beside its entries (in its number, or
        // what it builds on), it would be another change that stands in the true one's way.
        if checksum.as_deref() != change.hash().0.get(..4) {
            return Err(DocumentError::Unreadable("its checksum is not that of its bytes".to_owned()));
        }
        if !change.extra_bytes().is_empty() || change.message().is_some() {
            return Err(DocumentError::NotGrowOnly("it carries a message or extra bytes".to_owned()));
        }
        if operations.operations.is_empty() {
            return Err(DocumentError::NotGrowOnly("it adds nothing".to_owned()));
        }
        let entries = operations
            .operations
            .iter()
            .map(|operation| entry_added_by(operation, subject))
            .collect::<Result<Vec<_>, _>>()?;
        Ok(CheckedChange { change, entries })
    }

    /// The hash of a change this device just made, which needs no check.
    ///
    /// # Errors
    /// [`DocumentError::Unreadable`] for anything but a change.
    pub fn hash_of(bytes: &[u8]) -> Result<Digest, DocumentError> {
        let change =
            Change::from_bytes(bytes.to_vec()).map_err(|e| DocumentError::Unreadable(e.to_string()))?;
        Ok(Digest(change.hash().0))
    }

    /// The entries it adds, in its own order.
    pub fn entries(&self) -> &[Entry] {
        &self.entries
    }

    /// The change's hash, by which others depend on it.
    pub fn hash(&self) -> Digest {
        Digest(self.change.hash().0)
    }

    /// The change's uncompressed bytes, as stored and sent.
    pub fn bytes(&self) -> &[u8] {
        self.change.raw_bytes()
    }

    pub(super) fn change(&self) -> &Change {
        &self.change
    }
}

fn entry_added_by(operation: &automerge::legacy::Op, subject: Subject) -> Result<Entry, DocumentError> {
    let refuse = |why: &str| Err(DocumentError::NotGrowOnly(why.to_owned()));
    if !operation.pred.is_empty() {
        return refuse("it overwrites or deletes an entry");
    }
    let in_entries = matches!(&operation.obj, ObjectId::Id(id)
        if id.counter() == ENTRIES_OBJECT && *id.actor() == ActorId::from([0u8; 16]));
    if !in_entries {
        return refuse("it writes outside the entries");
    }
    match (&operation.action, &operation.key) {
        (OpType::Put(ScalarValue::Bytes(bytes)), Key::Map(key)) => {
            let entry = Entry::open(bytes)?;
            if id_of(key) != Some(entry.id) {
                return Err(DocumentError::WrongKey);
            }
            let at_home = entry.body.about == subject;
            let known_of_the_car =
                matches!((subject, entry.body.about), (Subject::Car(_), Subject::Visit(_)))
                    && entry.body.says.follows_the_car();
            let joins = match (subject, entry.body.about) {
                (Subject::Visit(here), Subject::Visit(_)) => entry.body.joins() == Some(here),
                _ => false,
            };
            if at_home || known_of_the_car || joins { Ok(entry) } else { Err(DocumentError::WrongDocument) }
        }
        _ => refuse("it does something other than putting bytes"),
    }
}

/// Automerge writes a change either plain (chunk type 1) or deflated (type 2). A deflated one is
/// inflated here against a bound first: the library itself would inflate whatever it is given.
fn inflate(bytes: &[u8]) -> Result<Vec<u8>, DocumentError> {
    const TYPE_AT: usize = 8; // four magic bytes, four checksum bytes
    const DEFLATED: u8 = 2;
    if bytes.len() > LARGEST_CHANGE {
        return Err(DocumentError::TooLarge(bytes.len()));
    }
    if bytes.get(TYPE_AT) == Some(&DEFLATED) {
        let mut at = TYPE_AT + 1;
        while bytes.get(at).is_some_and(|b| b & 0x80 != 0) {
            at += 1;
        }
        let body = bytes.get(at + 1..).unwrap_or_default();
        let mut limited =
            std::io::Read::take(flate2::read::DeflateDecoder::new(body), LARGEST_CHANGE as u64 + 1);
        let inflated = std::io::copy(&mut limited, &mut std::io::sink())
            .map_err(|e| DocumentError::Unreadable(e.to_string()))?;
        if inflated > LARGEST_CHANGE as u64 {
            return Err(DocumentError::TooLarge(LARGEST_CHANGE + 1));
        }
    }
    Ok(bytes.to_vec())
}
