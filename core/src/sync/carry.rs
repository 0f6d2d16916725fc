//! Carry files, which move visits between devices by hand when there is no server between them.
//!
//! A carry file contains the same checked changes that a server would deliver, certificates, and optionally
//! photographs. The recipient need not trust whoever carried the file, because every entry in it is signed.

use serde::{Deserialize, Serialize};
use std::collections::BTreeSet;
use std::io::{Read, Write as _};

use super::SyncError;
use super::certificates::{Word, take_certificate};
use super::keys::take_statements;
use super::log_alarm::LogContradiction;
use super::log_watch::compare_carried;
use super::names::{given, settle_names};
use super::wire::Change;
use crate::clock::UtcMillis;
use crate::document::CheckedChange;
use crate::entry::cbor::{self, CborError};
use crate::entry::{Certificate, EntryError, PersonName, PublicKey};
use crate::ids::{Digest, EntryId, OrganisationId, Subject};
use crate::log::{Restored, ledger_log};
use crate::store::writes_of;
use crate::store::{Store, Write, key_statements};

/// The largest accepted size of a carry file after inflation, in bytes.
pub const LARGEST_CARRY: usize = 64 * 1024 * 1024;

/// The most checkpoints read from one carry file.
const MOST_CHECKPOINTS: usize = 8;

const MAGIC: &[u8] = b"farsiding carry 1\n";

/// A photograph inside a carry file.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct CarriedPhoto {
    /// The media type.
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
    /// The newest checkpoint of the office's log that the sending device has seen, for comparison by the
    /// recipient.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    checkpoints: Vec<String>,
    /// The office's declarations that its ledger was restored from a backup. Without them the restored log
    /// looks like a different one.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    restores: Vec<serde_bytes::ByteBuf>,
    /// The root key's statements about the organisation's keys, without which the recipient could not verify
    /// the certificates.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    keys: Vec<serde_bytes::ByteBuf>,
    /// The names of people, where the roster is among the documents. They are not part of the digest, which
    /// earlier versions would then not recognise: a name that was damaged on its way does not fit its commitment.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    names: Vec<PersonName>,
    /// The SHA-256 of all parts, see [`Carried::digest`]. Entries are verified by their signatures; this
    /// digest also detects damage that would assign a change to another document. Files of earlier versions
    /// lack it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    digest: Option<Digest>,
}

impl Carried {
    /// Returns the SHA-256 over every part, each preceded by its kind and length.
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

/// The outcome of reading a carry file.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct CarryReport {
    /// The number of entries that were new on this device.
    pub received: u64,
    /// The number of all entries in the file.
    pub contained: u64,
    /// The documents that changed on this device.
    pub touched: Vec<Subject>,
    /// The reasons for parts that were refused and put into quarantine.
    pub refused: Vec<String>,
    /// The number of people's names in the file that do not fit the entries. They are not kept.
    pub names_unfit: u64,
    /// Contradictions between a checkpoint in the file and the office's log as this device has seen it.
    pub contradictions: Vec<LogContradiction>,
    /// The photographs in the file. The caller stores their bytes under their digests.
    pub photos: Vec<CarriedPhoto>,
}

/// Writes the given documents into a carry file and returns its bytes.
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
    if subjects.iter().any(|subject| matches!(subject, Subject::Roster(_))) {
        carried.names = given(store)?;
    }
    carried.digest = Some(carried.digest());
    let plain = cbor::encode(&carried).map_err(EntryError::from)?;
    let mut encoder = flate2::write::DeflateEncoder::new(MAGIC.to_vec(), flate2::Compression::new(6));
    encoder.write_all(&plain).map_err(unreadable)?;
    encoder.finish().map_err(unreadable)
}

/// Reads a carry file into the store. Refused parts go into quarantine; all other parts are stored.
///
/// # Errors
/// [`SyncError`] when the bytes are not a carry file or the store fails; nothing was then stored.
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
    let mut fresh: BTreeSet<EntryId> = BTreeSet::new();
    for change in &carried.changes {
        match CheckedChange::check(&change.bytes, change.subject) {
            Ok(checked) => {
                report.contained += checked.entries().len() as u64;
                let new = store.commit(&writes_of(&checked, change.subject, false))?;
                report.received += new.len() as u64;
                fresh.extend(&new);
                // An entry of a car stands in the documents of car and visit; it is new in the store only once.
                let changed = checked.entries().iter().any(|entry| fresh.contains(&entry.id));
                if changed && !report.touched.contains(&change.subject) {
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
                // The list that a server sends itself takes precedence over a certificate from a carry file.
                take_certificate(store, &certificate, bytes, key, Word::Carried)?;
            }
        }
        let settled = settle_names(store, root, &carried.names, None)?;
        report.names_unfit = settled.unfit as u64;
        let roster = Subject::Roster(OrganisationId::of_key(root));
        if settled.changed() && !report.touched.contains(&roster) {
            report.touched.push(roster);
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
