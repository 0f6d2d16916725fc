//! The check that a change from another device adds entries under their own digests and does nothing else.
//!
//! The check depends on the change alone and not on the document's present content, so every replica reaches
//! the same verdict in whatever order changes arrive (invariant 1).

use std::panic::{AssertUnwindSafe, catch_unwind};

use automerge::legacy::{Key, ObjectId, OpType};
use automerge::{ActorId, Change, ScalarValue};
use base64::Engine as _;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;

use super::{DocumentError, extent};
use crate::entry::Entry;
use crate::ids::{Digest, EntryId, Subject};

/// The largest change accepted, in bytes, both as received and after inflating.
pub const LARGEST_CHANGE: usize = 1024 * 1024;

/// The byte range of a change's checksum: the first four bytes of the SHA-256 hash over the uncompressed rest
/// of the chunk.
const CHECKSUM: std::ops::Range<usize> = 4..8;

/// The counter of the operation that created the `entries` map in the frozen genesis; its actor is all zeros.
const ENTRIES_OBJECT: u64 = 2;

/// Returns the map key of an entry: its id in base64url without padding (RFC 4648, section 5).
pub(super) fn key_of(id: EntryId) -> String {
    URL_SAFE_NO_PAD.encode(id.0)
}

pub(super) fn id_of(key: &str) -> Option<EntryId> {
    URL_SAFE_NO_PAD.decode(key).ok()?.try_into().ok().map(EntryId)
}

/// A change that was decoded and found to add entries and nothing else.
#[derive(Debug, Clone)]
pub struct CheckedChange {
    change: Change,
    entries: Vec<Entry>,
}

impl CheckedChange {
    /// Checks the bytes of a change to the document of `subject`, including the signature of every entry.
    ///
    /// An entry must be about `subject`, with two exceptions: a car's document also holds the entries of
    /// visits that state facts about the car, and the statement that two visits are one stay stands in the
    /// documents of both.
    ///
    /// # Errors
    /// [`DocumentError`] when any check fails. The check never panics, never inflates beyond
    /// [`LARGEST_CHANGE`], and does not expand a change that claims more operations than its bytes can hold.
    pub fn check(bytes: &[u8], subject: Subject) -> Result<CheckedChange, DocumentError> {
        let checksum = bytes.get(CHECKSUM).map(<[u8]>::to_vec);
        let bytes = inflate(bytes)?;
        extent::check_chunk(&bytes)?;
        // Automerge may panic on bytes that no Automerge library produced. Such a change is refused without
        // ending the program.
        let (change, operations) = catch_unwind(AssertUnwindSafe(|| {
            Change::from_bytes(bytes).map(|change| {
                let expanded = change.decode();
                (change, expanded)
            })
        }))
        .map_err(|_| DocumentError::Unreadable("malformed beyond reading".to_owned()))?
        .map_err(|e| DocumentError::Unreadable(e.to_string()))?;
        // Automerge reads a change even if its checksum is wrong. A change damaged outside its entries (in
        // its sequence number or its dependencies) would decode as a different change and block the undamaged
        // one.
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

    /// Returns the hash of a change that this device created and that therefore needs no check.
    ///
    /// # Errors
    /// [`DocumentError::Unreadable`] if the bytes are not a change.
    pub fn hash_of(bytes: &[u8]) -> Result<Digest, DocumentError> {
        let change =
            Change::from_bytes(bytes.to_vec()).map_err(|e| DocumentError::Unreadable(e.to_string()))?;
        Ok(Digest(change.hash().0))
    }

    /// The entries that the change adds, in the order of its operations.
    pub fn entries(&self) -> &[Entry] {
        &self.entries
    }

    /// The change's hash, by which other changes depend on it.
    pub fn hash(&self) -> Digest {
        Digest(self.change.hash().0)
    }

    /// The change's uncompressed bytes, as they are stored and sent.
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

/// Checks that a change stays within [`LARGEST_CHANGE`] after inflating, and returns its bytes unchanged.
///
/// Automerge writes a change either plain (chunk type 1) or deflated (chunk type 2), and inflates a deflated
/// one without a limit. The limit is therefore enforced here before Automerge sees the bytes.
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
