//! Carry files, which move records and photographs by hand where there is no server.

use std::fs;
use std::path::Path;

use farsiding_core::ids::{Digest, Subject};
use farsiding_core::store::{Store, StoreError};
use farsiding_core::sync::CarriedPhoto;
use serde_json::json;

use super::folder::DeviceFolder;
use super::{DeviceError, address, photos};
use farsiding_host::CommandOutput;
use farsiding_host::private_file;

/// The largest total size of the photographs in a carry file, in bytes. Photographs beyond it are left out
/// and listed.
const MOST_PHOTO_BYTES: u64 = 48 * 1024 * 1024;

/// Writes visits, or everything, into a new carry file, together with what is known of their cars and sites.
///
/// # Errors
/// Returns a [`DeviceError`] when the file exists already or cannot be written.
pub fn carry_out(
    folder: &mut DeviceFolder,
    file: &Path,
    visits: &[String],
) -> Result<CommandOutput, DeviceError> {
    let gathered = folder.read().gather()?;
    let store = folder.read().store();
    let mut subjects: Vec<Subject> = Vec::new();
    for text in visits {
        let visit = address::visit(&gathered, text)?;
        let stay = gathered.stay_of(visit).map_or_else(|| vec![visit], <[_]>::to_vec);
        subjects.extend(stay.iter().map(|visit| Subject::Visit(*visit)));
        if let Some(opened) = gathered.opened(&stay) {
            subjects.extend([Subject::Car(opened.car.id()), Subject::Site(opened.site)]);
        }
    }
    if visits.is_empty() {
        subjects = store.subjects()?;
    } else {
        subjects.extend(store.subjects()?.into_iter().filter(|s| matches!(s, Subject::Roster(_))));
    }
    subjects.sort_unstable();
    subjects.dedup();
    let wanted = photos_of(store, &subjects)?;
    let (mut carried, mut left, mut total) = (Vec::new(), 0u64, 0u64);
    for photo in store.photos()?.into_iter().filter(|photo| photo.here && wanted.contains(&photo.sha256)) {
        total += photo.length;
        match fs::read(folder.photo_file(photo.sha256)) {
            Ok(bytes) if total <= MOST_PHOTO_BYTES => {
                carried.push(CarriedPhoto { media: photo.media, bytes })
            }
            _ => left += 1,
        }
    }
    let count = carried.len();
    let bytes = folder.read().carry_out(&subjects, carried)?;
    private_file::write_new(file, &bytes).map_err(|e| match e.kind() {
        std::io::ErrorKind::AlreadyExists => {
            DeviceError::Refused(format!("{} is there already; give another name", file.display()))
        }
        _ => DeviceError::Failed(format!("{}: {e}", file.display())),
    })?;
    let mut text = format!(
        "{} holds {} documents and {count} photographs ({} bytes). What is in it stays here as well, and counts as \
         only here until the office receipts it.",
        file.display(),
        subjects.len(),
        bytes.len()
    );
    if left > 0 {
        text.push_str(&format!(
            "\n{left} photographs did not fit or could not be read; they stay here for the next sync."
        ));
    }
    let json = json!({
        "file": file.display().to_string(), "documents": subjects.len(), "photos": count,
        "photos_left": left, "bytes": bytes.len(),
    });
    Ok(CommandOutput::new(text, json))
}

/// Returns the digests of the photographs that the documents refer to.
fn photos_of(store: &dyn Store, subjects: &[Subject]) -> Result<Vec<Digest>, StoreError> {
    let mut wanted = Vec::new();
    for subject in subjects {
        for row in store.entries_of(*subject)?.rows {
            if let Ok(entry) = farsiding_core::entry::Entry::reopen(row.id, row.bytes)
                && let farsiding_core::entry::Statement::Photo { photo, .. } = entry.body.says
            {
                wanted.push(photo.sha256);
            }
        }
    }
    Ok(wanted)
}

/// Reads a carry file into the device's record.
///
/// # Errors
/// Returns [`DeviceError::Refused`] when the file is not a carry file.
pub fn carry_in(folder: &mut DeviceFolder, file: &Path) -> Result<CommandOutput, DeviceError> {
    let bytes = fs::read(file)
        .map_err(|e| DeviceError::Refused(format!("{} cannot be read: {e}", file.display())))?;
    let report = folder.book().carry_in(&bytes).map_err(|error| match DeviceError::from(error) {
        DeviceError::Failed(why) => {
            DeviceError::Refused(format!("{} was not taken in: {why}", file.display()))
        }
        other => other,
    })?;
    for photo in &report.photos {
        photos::keep(folder, &photo.bytes, &photo.media)?;
    }
    let mut text = format!(
        "{} of {} entries were new here, and {} photographs came along.",
        report.received,
        report.contained,
        report.photos.len()
    );
    for why in &report.refused {
        text.push_str(&format!("\nset aside: {why}"));
    }
    if report.names_unfit > 0 {
        text.push_str(&format!(
            "\n{} names do not fit the entries; they were not taken.",
            report.names_unfit
        ));
    }
    for kind in &report.contradictions {
        text.push_str(&format!(
            "\nWARNING: {} Both signed notes are kept here; records are untouched.",
            kind.sentence()
        ));
    }
    let json = json!({
        "contradictions": report.contradictions,
        "received": report.received, "contained": report.contained, "photos": report.photos.len(),
        "refused": report.refused,
    });
    Ok(CommandOutput::new(text, json))
}
