//! Carry files: visits moved by hand between devices when there is no server between them.
//!
//! A carry file holds the same checked changes a server would deliver, certificates, and, if wanted,
//! photographs. It says nothing a stranger must believe: every entry in it is signed.

use serde::{Deserialize, Serialize};
use std::io::{Read, Write as _};

use super::SyncError;
use super::answer::writes_of;
use super::certificates::{Word, take_certificate};
use super::keys::take_statements;
use super::log_alarm::Contradiction;
use super::log_watch::compare_carried;
use super::wire::Change;
use crate::clock::UtcMillis;
use crate::document::CheckedChange;
use crate::entry::cbor::{self, CborError};
use crate::entry::{Certificate, EntryError, PublicKey};
use crate::ids::{Digest, Subject};
use crate::log::{Restored, ledger_log};
use crate::store::{Store, Write, key_statements};

/// The largest carry file after inflation, in bytes.
pub const LARGEST_CARRY: usize = 64 * 1024 * 1024;

/// Checkpoints read from one carry file.
const MOST_CHECKPOINTS: usize = 8;

const MAGIC: &[u8] = b"farsiding carry 1\n";

/// A photograph inside a carry file.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct CarriedPhoto {
    /// Media type.
    pub media: String,
    /// The exact bytes.
    #[serde(with = "serde_bytes")]
    pub bytes: Vec<u8>,
}

#[derive(Default, Serialize, Deserialize)]
struct Carried {
    changes: Vec<Change>,
    certificates: Vec<serde_bytes::ByteBuf>,
    #[serde(default)]
    photos: Vec<CarriedPhoto>,
    /// The newest checkpoint of the office's log this device was shown, for others to compare.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    checkpoints: Vec<String>,
    /// The office's declarations that its ledger came back from a backup, without which they read as another log.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    restores: Vec<serde_bytes::ByteBuf>,
    /// What the organisation's root said of its keys, without which nobody could read whose certificates these are.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    keys: Vec<serde_bytes::ByteBuf>,
    /// SHA-256 of all that, see [`Carried::digest`]. Entries prove themselves; this tells a damaged file from
    /// a whole one, where the damage would put them under another car. Absent in files of before.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    digest: Option<Digest>,
}

impl Carried {
    /// SHA-256 over every part, each with its kind and length.
    fn digest(&self) -> Digest {
        let mut all = Vec::new();
        let mut add = |kind: u8, parts: [&[u8]; 2]| {
            all.push(kind);
            for part in parts {
                all.extend_from_slice(&(part.len() as u64).to_be_bytes());
                all.extend_from_slice(part);
            }
        };
        self.changes.iter().for_each(|change| add(0, [&change.subject.to_bytes(), &change.bytes]));
        self.certificates.iter().for_each(|certificate| add(1, [certificate, &[]]));
        self.checkpoints.iter().for_each(|note| add(3, [note.as_bytes(), &[]]));
        self.restores.iter().for_each(|restored| add(4, [restored, &[]]));
        self.keys.iter().for_each(|statement| add(5, [statement, &[]]));
        self.photos.iter().for_each(|photo| add(2, [photo.media.as_bytes(), &Digest::of(&photo.bytes).0]));
        Digest::of(&all)
    }
}

/// What a carry file brought.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct CarryReport {
    /// Entries that were new here.
    pub received: u64,
    /// Entries it held in all.
    pub contained: u64,
    /// Documents that changed here.
    pub touched: Vec<Subject>,
    /// Reasons for parts that were refused and kept aside.
    pub refused: Vec<String>,
    /// How a checkpoint in it contradicts what this device was shown of the office's log.
    pub contradictions: Vec<Contradiction>,
    /// Photographs in it, whose digests the caller stores the bytes under.
    pub photos: Vec<CarriedPhoto>,
}

/// Writes the given documents into a carry file.
///
/// # Errors
/// [`SyncError`] when the store fails.
pub fn carry_out(
    store: &dyn Store,
    subjects: &[Subject],
    photos: Vec<CarriedPhoto>,
) -> Result<Vec<u8>, SyncError> {
    let mut carried = Carried { photos, ..Carried::default() };
    for subject in subjects {
        let rows = store.changes_of(*subject)?.rows;
        carried.changes.extend(rows.into_iter().map(|c| Change { subject: c.subject, bytes: c.bytes }));
    }
    carried.certificates =
        store.certificates()?.into_iter().map(|(_, bytes)| serde_bytes::ByteBuf::from(bytes)).collect();
    carried.restores = ledger_log::restores(store)?;
    carried.keys = key_statements(store)?;
    carried.checkpoints = store.log().newest_checkpoint()?.map(|kept| kept.note).into_iter().collect();
    carried.digest = Some(carried.digest());
    let plain = cbor::encode(&carried).map_err(EntryError::from)?;
    let mut encoder = flate2::write::DeflateEncoder::new(MAGIC.to_vec(), flate2::Compression::new(6));
    encoder.write_all(&plain).map_err(unreadable)?;
    encoder.finish().map_err(unreadable)
}

/// Reads a carry file into the store. What is refused is kept aside; the rest comes in.
///
/// # Errors
/// [`SyncError`] when it is no carry file, or the store fails; nothing was then taken in.
pub fn carry_in(
    store: &mut dyn Store,
    file: &[u8],
    organisation_key: Option<&PublicKey>,
    now: UtcMillis,
) -> Result<CarryReport, SyncError> {
    let body =
        file.strip_prefix(MAGIC).ok_or_else(|| unreadable("it does not begin as a carry file does"))?;
    let mut plain = Vec::new();
    flate2::read::DeflateDecoder::new(body)
        .take(LARGEST_CARRY as u64 + 1)
        .read_to_end(&mut plain)
        .map_err(unreadable)?;
    if plain.len() > LARGEST_CARRY {
        return Err(EntryError::TooLarge(plain.len()).into());
    }
    let carried: Carried = cbor::decode(&plain).map_err(EntryError::from)?;
    if carried.digest.is_some_and(|digest| digest != carried.digest()) {
        return Err(unreadable("it was damaged on its way; copy it again"));
    }
    let mut report = CarryReport::default();
    for change in &carried.changes {
        match CheckedChange::check(&change.bytes, change.subject) {
            Ok(checked) => {
                report.contained += checked.entries().len() as u64;
                let new = store.commit(&writes_of(&checked, change.subject, false))?;
                report.received += new.len() as u64;
                if !new.is_empty() && !report.touched.contains(&change.subject) {
                    report.touched.push(change.subject);
                }
            }
            Err(error) => {
                let why = error.to_string();
                let subject = Some(change.subject);
                store.commit(&[Write::Quarantine { subject, bytes: &change.bytes, why: &why, at: now }])?;
                report.refused.push(why);
            }
        }
    }
    if let Some(root) = organisation_key {
        let (keys, forked) = take_statements(store, root, &carried.keys, now)?;
        report.contradictions.extend(forked);
        let key = &keys;
        for bytes in &carried.certificates {
            if let Ok(certificate) = Certificate::open(bytes, key) {
                // The server's own list, when it is met, says more than a carried one.
                take_certificate(store, &certificate, bytes, key, Word::Carried)?;
            }
        }
        let restores = carried.restores.iter().filter(|bytes| Restored::open(bytes, key).is_ok());
        ledger_log::keep_restores(store, restores.map(|bytes| bytes.to_vec()))?;
        for note in carried.checkpoints.iter().take(MOST_CHECKPOINTS) {
            report.contradictions.extend(compare_carried(store, note, key, now)?);
        }
    }
    for photo in carried.photos {
        let sha256 = Digest::of(&photo.bytes);
        let length = photo.bytes.len() as u64;
        let media = photo.media.as_str();
        store.commit(&[Write::Photo { sha256, length, media, here: false, held: false }])?;
        report.photos.push(photo);
    }
    Ok(report)
}

fn unreadable(error: impl ToString) -> SyncError {
    SyncError::Entry(EntryError::Cbor(CborError::Unreadable(error.to_string())))
}
