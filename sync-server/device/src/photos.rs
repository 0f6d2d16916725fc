//! The photographs of a device. An entry refers to a photograph by its digest, and the file is kept in the
//! device's folder until the office has it.

use std::fs;
use std::path::Path;

use farsiding_core::book::Draft;
use farsiding_core::entry::Statement;
use farsiding_core::entry::vocabulary::{PhotoOf, PhotoRef};
use farsiding_core::ids::Digest;
use farsiding_core::store::Write;
use serde_json::json;

use farsiding_host::media::media_of;

use super::asked::Attaching;
use super::folder::DeviceFolder;
use super::open_stay::OpenStay;
use super::{DeviceError, shapes};
use farsiding_host::CommandOutput;
use farsiding_host::{private_file, whole_file};

/// Attaches a picture to a visit. The picture's exact bytes are copied to the disk before the entry is made.
///
/// # Errors
/// Returns a [`DeviceError`] when a rule refuses the request or the device's folder fails.
pub fn attach(folder: &mut DeviceFolder, typed: &Attaching) -> Result<CommandOutput, DeviceError> {
    let words: Vec<&'static str> = PhotoOf::ALL.iter().map(|word| word.word()).collect();
    let of = PhotoOf::read(shapes::word(&typed.of, &words)?).unwrap_or(PhotoOf::Other);
    let bytes = fs::read(&typed.file)
        .map_err(|e| DeviceError::Refused(format!("{} cannot be read: {e}", typed.file.display())))?;
    if bytes.is_empty() {
        return Err(DeviceError::Refused(format!("{} is empty", typed.file.display())));
    }
    let open_stay = OpenStay::with(folder, &typed.visit)?;
    let sha256 = keep(open_stay.folder, &bytes, media_of(&bytes))?;
    let photo = PhotoRef { sha256, length: bytes.len() as u64, media: media_of(&bytes).to_owned() };
    let says = Statement::Photo { photo, of, about: typed.about.clone() };
    let home = open_stay.visit;
    let mut said = open_stay.record(home, vec![Draft::of(says)], &[])?;
    said.text.push_str(&format!(
        "  photograph {} ({} bytes), not at the office yet",
        sha256.short(),
        bytes.len()
    ));
    if let Some(fields) = said.json.as_object_mut() {
        fields.insert("photo".to_owned(), json!(sha256.to_string()));
    }
    Ok(said)
}

/// Stores a photograph in the device's folder and marks it as present.
///
/// # Errors
/// Returns a [`DeviceError`] when a rule refuses the request or the device's folder fails.
pub fn keep(folder: &mut DeviceFolder, bytes: &[u8], media: &str) -> Result<Digest, DeviceError> {
    let sha256 = Digest::of(bytes);
    let file = folder.photo_file(sha256);
    if fs::metadata(&file).map(|found| found.len()).ok() != Some(bytes.len() as u64) {
        private_file::make_private_folder(file.parent().unwrap_or(Path::new(".")))?;
        private_file::make_private(&file)?; // rewriting a file keeps its permissions
        whole_file::write(&file, bytes)?;
    }
    let length = bytes.len() as u64;
    folder.book().store_mut().commit(&[Write::Photo { sha256, length, media, here: true, held: false }])?;
    Ok(sha256)
}
