//! What was refused and kept aside, listed and written into a folder for whoever looks into it.
//!
//! Called for a device's folder and for an office's. Nothing is taken out of the store by it. An office keeps no
//! more than the beginning of each, so that the name of a file is the digest of the whole.

use std::fmt::Write as _;
use std::io;
use std::path::Path;

use farsiding_core::clock::UtcMillis;
use farsiding_core::ids::{DeviceId, Digest, Subject};
use farsiding_core::store::Quarantined;
use serde_json::{Value, json};

use crate::{private_file, whole_file};

/// Something refused, as far as it was kept.
#[derive(Debug, Clone)]
pub struct QuarantinedItem {
    /// SHA-256 of all its bytes.
    pub sha256: Digest,
    /// Its length.
    pub length: u64,
    /// The document it claimed to be of.
    pub subject: Option<Subject>,
    /// Who sent it, where that is known.
    pub device: Option<DeviceId>,
    /// Why it was refused.
    pub why: String,
    /// When.
    pub at: UtcMillis,
    /// Its bytes, or their beginning.
    pub bytes: Vec<u8>,
}

impl From<Quarantined> for QuarantinedItem {
    fn from(kept: Quarantined) -> QuarantinedItem {
        let Quarantined { subject, bytes, why, at } = kept;
        let (sha256, length) = (Digest::of(&bytes), bytes.len() as u64);
        QuarantinedItem { sha256, length, subject, device: None, why, at, bytes }
    }
}

/// Lists what was kept aside; with a folder, writes each into it under its own digest, with
/// `kept-aside.json` to say what each is. Files that are there already are left as they are.
///
/// # Errors
/// The file system's.
pub fn tell(kept: &[QuarantinedItem], out: Option<&Path>) -> io::Result<(String, Value)> {
    let mut text = String::new();
    let mut list = Vec::new();
    for item in kept {
        let sha256 = item.sha256;
        let about = item.subject.map_or_else(|| "unknown".to_owned(), |subject| subject.to_string());
        let file = format!("{sha256}.bin");
        let _ = writeln!(
            text,
            "{}  {} bytes, {}{}, about {about}: {}",
            sha256.short(),
            item.length,
            item.at.rfc3339(),
            item.device.map_or_else(String::new, |device| format!(", from {}", device.short())),
            item.why
        );
        list.push(json!({
            "sha256": sha256.to_string(), "bytes": item.length, "kept_bytes": item.bytes.len(), "about": about, "why": item.why,
            "at": item.at.rfc3339(), "file": file,
            "device": item.device.map(|device| device.to_string()),
        }));
        if let Some(folder) = out {
            private_file::make_private_folder(folder)?;
            write(folder, &file, &item.bytes)?;
        }
    }
    let told = json!({ "kept_aside": list, "out": out.map(|folder| folder.display().to_string()) });
    match out {
        _ if kept.is_empty() => text.push_str("Nothing was refused and kept aside.\n"),
        Some(folder) => {
            let listing = serde_json::to_vec_pretty(&told).map_err(io::Error::other)?;
            whole_file::write(&folder.join("kept-aside.json"), &listing)?;
            let _ = writeln!(text, "Written into {}.", folder.display());
        }
        None => text.push_str("They are kept; write them out with --out DIR.\n"),
    }
    Ok((text, told))
}

fn write(folder: &Path, file: &str, bytes: &[u8]) -> io::Result<()> {
    match private_file::write_new(&folder.join(file), bytes) {
        // Its name is its digest: what is there is the same.
        Err(error) if error.kind() == io::ErrorKind::AlreadyExists => Ok(()),
        outcome => outcome,
    }
}
