//! Photographs and carry files, as shells call them: the shell keeps the bytes, the book knows which they
//! are.
//!
//! Only conversion happens here. A carry file takes records from one device to another by hand.

use std::collections::BTreeSet;

use farsiding_core::entry::Statement;
use farsiding_core::ids::{Digest, Subject};
use farsiding_core::store::{StoredPhoto, Write};
use farsiding_core::sync::CarriedPhoto;
use serde_json::{Value, json};

use crate::FarsidingError;
use crate::book::{Book, read_visit, wrong};

/// A photograph's exact bytes out of a carry file.
#[derive(Debug, Clone, PartialEq, Eq, uniffi::Record)]
pub struct Picture {
    /// Media type, such as `image/jpeg`.
    pub media: String,
    /// The bytes.
    pub bytes: Vec<u8>,
}

/// What a carry file may hold of photographs: records and the file's own limit need the rest.
const MOST_CARRIED_BYTES: usize = 48 * 1024 * 1024;

fn named(photo: &StoredPhoto) -> Value {
    json!({ "sha256": photo.sha256.to_string(), "length": photo.length, "media": photo.media })
}

#[uniffi::export]
impl Book {
    /// Notes that the caller keeps the bytes of a photograph. Returns the photograph as statements name it,
    /// as JSON: `{sha256, length, media}`.
    ///
    /// `sha256` is the SHA-256 of the exact bytes, 64 hexadecimal digits. `length` is their number. `media`
    /// is the media type, such as `image/jpeg`.
    ///
    /// # Errors
    /// - `WrongCall`: `sha256` has not 64 hexadecimal digits.
    /// - `NotStored`: the disk failed or is full.
    pub fn photo_taken(&self, sha256: String, length: u64, media: String) -> Result<String, FarsidingError> {
        let digest = Digest::read(&sha256).map_err(wrong)?;
        let write = Write::Photo { sha256: digest, length, media: &media, here: true, held: false };
        self.state().book.store_mut().commit(&[write])?;
        Ok(json!({ "sha256": sha256, "length": length, "media": media }).to_string())
    }

    /// The photographs that the office has not confirmed to hold, as a JSON list of `{sha256, length, media}`
    /// with `length` in bytes. The office confirms in the signed reply of a later sync, so a sync after
    /// sending them shortens the list.
    ///
    /// # Errors
    /// - `NotStored`: the disk cannot be read.
    pub fn photos_waiting(&self) -> Result<String, FarsidingError> {
        let waiting: Vec<Value> =
            self.state().book.store().photos()?.iter().filter(|p| p.here && !p.held).map(named).collect();
        Ok(Value::Array(waiting).to_string())
    }

    /// The photographs that the given visits speak of and whose bytes are here, as a JSON list of `{sha256,
    /// length, media}` with `length` in bytes. Those that the office is not known to hold come first.
    /// `visits` are ids of 32 hexadecimal digits.
    ///
    /// # Errors
    /// - `WrongCall`: an id cannot be read.
    /// - `NotStored`: the disk cannot be read.
    pub fn photos_of(&self, visits: Vec<String>) -> Result<String, FarsidingError> {
        let state = self.state();
        let wanted = visits.iter().map(|v| read_visit(v)).collect::<Result<Vec<_>, _>>()?;
        let spoken_of: BTreeSet<Digest> = state
            .gathered
            .entries_of(&wanted)
            .filter_map(|(_, entry)| match &entry.body.says {
                Statement::Photo { photo, .. } => Some(photo.sha256),
                _ => None,
            })
            .collect();
        let mut photos = state.book.store().photos()?;
        photos.retain(|photo| photo.here && spoken_of.contains(&photo.sha256));
        photos.sort_by_key(|photo| photo.held);
        Ok(Value::Array(photos.iter().map(named).collect()).to_string())
    }

    /// Takes the exact bytes of one photograph for the next carry file. They wait in memory until
    /// `carry_out`. The same bytes given twice are taken once. All photographs together may have 48 MiB
    /// (50331648 bytes).
    ///
    /// # Errors
    /// - `WrongCall`: the bytes are those of no photograph known here, or 48 MiB would be exceeded.
    /// - `NotStored`: the disk cannot be read.
    pub fn carry_photo(&self, bytes: Vec<u8>) -> Result<(), FarsidingError> {
        let mut state = self.state();
        let Some(known) = state.book.store().photo(Digest::of(&bytes))? else {
            return Err(wrong("these bytes are no photograph that was taken"));
        };
        if state.to_carry.iter().any(|photo| photo.bytes == bytes) {
            return Ok(());
        }
        if state.to_carry.iter().map(|photo| photo.bytes.len()).sum::<usize>() + bytes.len()
            > MOST_CARRIED_BYTES
        {
            return Err(wrong(format!("photographs beyond {MOST_CARRIED_BYTES} bytes do not fit")));
        }
        state.to_carry.push(CarriedPhoto { media: known.media, bytes });
        Ok(())
    }

    /// Writes the given visits with all cars, sites and people into the bytes of one carry file, and the
    /// photographs that were given to `carry_photo` since the last carry file. The file is compressed and not
    /// encrypted: entries in it are signed, and anybody can read them. `visits` are ids of 32 hexadecimal
    /// digits; one that is not here is left out.
    ///
    /// # Errors
    /// - `WrongCall`: an id cannot be read.
    /// - `NotStored`: the disk cannot be read.
    /// - `Refused`: the file could not be encoded.
    pub fn carry_out(&self, visits: Vec<String>) -> Result<Vec<u8>, FarsidingError> {
        let mut state = self.state();
        let photos = std::mem::take(&mut state.to_carry);
        let wanted = visits.iter().map(|v| read_visit(v)).collect::<Result<Vec<_>, _>>()?;
        let mut subjects = Vec::new();
        for subject in state.book.store().subjects()? {
            let take = match subject {
                Subject::Visit(visit) => wanted.contains(&visit),
                _ => true,
            };
            if take {
                subjects.push(subject);
            }
        }
        Ok(state.book.carry_out(&subjects, photos)?)
    }

    /// Takes the bytes of a carry file in. JSON: `{received, contained, refused, photos, contradictions}`.
    /// `received` counts entries that are new here, `contained` all entries in the file. `refused` lists
    /// reasons for parts that were kept aside. `photos` counts photographs, which `carried_photo` hands over.
    /// `contradictions` lists `{kind, sentence}` where the office showed another log to the device that wrote
    /// the file. Taking one file in twice changes nothing.
    ///
    /// # Errors
    /// - `Refused`: the bytes are no carry file, were damaged on their way, or have more than 64 MiB when
    ///   unpacked. Nothing was taken in.
    /// - `NotStored`: the disk failed or is full. Taking the file in again completes it.
    pub fn carry_in(&self, file: Vec<u8>) -> Result<String, FarsidingError> {
        let mut state = self.state();
        let report = state.book.carry_in(&file)?;
        state.read_again(&report.touched)?;
        let (received, contained, refused) = (report.received, report.contained, report.refused);
        state.carried = report.photos;
        state.carried.reverse();
        let photos = state.carried.len();
        let contradictions: Vec<Value> = report
            .contradictions
            .iter()
            .map(|kind| json!({ "kind": kind, "sentence": kind.sentence() }))
            .collect();
        Ok(json!({
            "received": received, "contained": contained, "refused": refused, "photos": photos,
            "contradictions": contradictions,
        })
        .to_string())
    }

    /// Hands over the next photograph of the carry file that was taken in last, each once, or nothing when
    /// there are no more. The caller keeps the bytes and then calls `photo_taken`. Never fails.
    pub fn carried_photo(&self) -> Option<Picture> {
        let CarriedPhoto { media, bytes } = self.state().carried.pop()?;
        Some(Picture { media, bytes })
    }
}
