//! Lists what was refused and put into quarantine, and writes it into a folder for inspection.
//!
//! Called for the folder of a device and for the folder of an office. The store is not changed. An office
//! keeps only the beginning of each refused message, so the name of a file is the digest of the whole
//! message.

use std::fmt::Write as _;
use std::io;
use std::path::Path;

use farsiding_core::clock::UtcMillis;
use farsiding_core::ids::{DeviceId, Digest, Subject};
use farsiding_core::store::Quarantined;
use serde_json::{Value, json};

use crate::{private_file, whole_file};

/// One refused message, as far as it was kept.
#[derive(Debug, Clone)]
pub struct QuarantinedItem {
    /// The SHA-256 digest of the whole message.
    pub sha256: Digest,
    /// The length of the whole message, in bytes.
    pub length: u64,
    /// The document the message claimed to belong to.
    pub subject: Option<Subject>,
    /// The device that sent the message, if known.
    pub device: Option<DeviceId>,
    /// Why the message was refused.
    pub why: String,
    /// When the message was refused.
    pub at: UtcMillis,
    /// The bytes of the message, or their beginning.
    pub bytes: Vec<u8>,
}

impl From<Quarantined> for QuarantinedItem {
    fn from(kept: Quarantined) -> QuarantinedItem {
        let Quarantined { subject, bytes, why, at } = kept;
        let (sha256, length) = (Digest::of(&bytes), bytes.len() as u64);
        QuarantinedItem { sha256, length, subject, device: None, why, at, bytes }
    }
}

/// Lists refused messages. If a folder is given, writes each message into it, named by its digest, with a
/// list in `kept-aside.json`. Files that already exist are not touched.
///
/// # Errors
/// Returns the error of the file system.
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
        // The name is the digest of the content, so an existing file has the same content.
        Err(error) if error.kind() == io::ErrorKind::AlreadyExists => Ok(()),
        outcome => outcome,
    }
}
