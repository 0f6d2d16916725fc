//! Parses a packet's file: the attachments by name, and the digest that the seal covers.
//!
//! A hostile file leads to an error, never to a panic. An attachment may decompress to at most 64 MB, and all
//! attachments together to 1 GB. Only the small records are kept; photographs are digested and dropped.

use std::collections::BTreeSet;

use farsiding_core::evidence::packet::{
    CERTIFICATES, ENTRIES, FRONT, Files, KEYS, LARGEST_ATTACHMENT, LAST_ENTRY, LOG, NAMES, PAGES, PhotoFile,
    RECEIPTS, SEAL, VIEW,
};
use farsiding_core::ids::Digest;
use memchr::memmem;

use super::objects::{Objects, Value};

/// The largest accepted file, in bytes.
pub const LARGEST_FILE: usize = 1024 * 1024 * 1024;
/// The largest total size of all decompressed attachments, in bytes.
const ALL_ATTACHMENTS: usize = 1024 * 1024 * 1024;
const MOST_ATTACHMENTS: usize = 10_000;
/// The attachments whose bytes are kept. Of the others only the digest is kept.
const KEPT: [&str; 11] =
    [ENTRIES, CERTIFICATES, RECEIPTS, LOG, KEYS, NAMES, VIEW, LAST_ENTRY, FRONT, PAGES, SEAL];
/// The largest total size of the kept attachments, in bytes.
const ALL_KEPT: usize = 64 * 1024 * 1024;

/// Why a file cannot be parsed.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum ReadError {
    /// The file begins as a PDF but does not end as one.
    #[error("the file is cut off: it begins as a PDF and has no end")]
    Truncated,
    /// The file is not a PDF.
    #[error("this is not a PDF file")]
    NotAPdf,
    /// The file is a PDF, but not of the form of a packet.
    #[error("the attachments cannot be taken out of this PDF: {0}")]
    NotAPacket(String),
}

/// A parsed packet.
#[derive(Debug, Default)]
pub struct Apart {
    /// The packet's attachments.
    pub files: Files,
}

/// Returns the position of `needle` in the file, if it occurs exactly once.
pub(super) fn only_place_of(file: &[u8], needle: &[u8]) -> Option<usize> {
    let mut places = memmem::find_iter(file, needle);
    let (Some(at), None) = (places.next(), places.next()) else { return None };
    Some(at)
}

/// Returns whether the file contains `startxref`, a number and `%%EOF`. (`%%EOF` alone is not enough, because
/// character maps of fonts also end with it.)
fn has_an_end(file: &[u8]) -> bool {
    // No position in a file has more digits, and no program writes more blanks.
    const MOST_BLANKS: usize = 64;
    let after_blanks =
        |rest: &[u8]| rest.iter().take(MOST_BLANKS).take_while(|byte| byte.is_ascii_whitespace()).count();
    memmem::find_iter(file, b"startxref").any(|at| {
        let rest = file.get(at + 9..).unwrap_or_default();
        let rest = rest.get(after_blanks(rest)..).unwrap_or_default();
        let digits = rest.iter().take(20).take_while(|byte| byte.is_ascii_digit()).count();
        let rest = rest.get(digits..).unwrap_or_default();
        digits > 0 && rest.get(after_blanks(rest)..).unwrap_or_default().starts_with(b"%%EOF")
    })
}

/// The attachments of a file, which are located but not yet extracted.
pub(super) struct Attachments<'f> {
    objects: Objects<'f>,
    specifications: Vec<Value>,
}

impl<'f> Attachments<'f> {
    /// Locates the attachments of a file.
    pub(super) fn find(file: &'f [u8]) -> Result<Attachments<'f>, ReadError> {
        let refuse = |why: &str| ReadError::NotAPacket(why.to_owned());
        if !file.starts_with(b"%PDF-") {
            return Err(ReadError::NotAPdf);
        }
        if !has_an_end(file) {
            return Err(ReadError::Truncated);
        }
        let objects = Objects::read(file).ok_or_else(|| refuse("its cross-reference cannot be read"))?;
        let tree = objects
            .root()
            .and_then(|root| objects.resolve(root.get("Names")?))
            .and_then(|names| objects.resolve(names.get("EmbeddedFiles")?))
            .ok_or_else(|| refuse("nothing is attached to it"))?;
        let mut specifications = Vec::new();
        let mut seen = BTreeSet::new();
        gather(&objects, &tree, 0, &mut seen, &mut specifications)
            .ok_or_else(|| refuse("its list of attachments cannot be read"))?;
        Ok(Attachments { objects, specifications })
    }

    /// Returns an iterator over the names and bytes of the attachments. Only one attachment is in memory at a
    /// time.
    pub(super) fn each(&self) -> impl Iterator<Item = Result<(String, Vec<u8>), ReadError>> {
        let mut room = ALL_ATTACHMENTS;
        self.specifications.iter().map(move |specification| {
            let taken = attachment(&self.objects, specification, room.min(LARGEST_ATTACHMENT));
            let (name, bytes) =
                taken.ok_or_else(|| ReadError::NotAPacket("an attachment cannot be taken out".to_owned()))?;
            room = room.saturating_sub(bytes.len());
            Ok((name, bytes))
        })
    }

    /// Returns the file's objects.
    pub(super) fn objects(&self) -> &Objects<'f> {
        &self.objects
    }
}

/// Parses a packet.
///
/// # Errors
/// Returns a [`ReadError`] when the file is not a packet.
pub fn take_apart(file: &[u8]) -> Result<Apart, ReadError> {
    let mut apart = Apart::default();
    let mut room = ALL_KEPT;
    for attached in Attachments::find(file)?.each() {
        let (name, bytes) = attached?;
        let files = &mut apart.files;
        if files.records.contains_key(&name) || files.photos.contains_key(&name) {
            return Err(ReadError::NotAPacket("two attachments have one name".to_owned()));
        }
        if KEPT.contains(&name.as_str()) && bytes.len() <= room {
            room -= bytes.len();
            files.records.insert(name, bytes);
        } else {
            let photo = PhotoFile { sha256: Digest::of(&bytes), length: bytes.len() as u64 };
            files.photos.insert(name, photo);
        }
    }
    if let Some(seal) = apart.files.records.get(SEAL) {
        apart.files.file = digest_without(file, seal);
    }
    Ok(apart)
}

/// Returns the file's SHA-256 digest with the seal's bytes zeroed. Returns `None` unless the seal occurs
/// exactly once.
fn digest_without(file: &[u8], seal: &[u8]) -> Option<Digest> {
    use sha2::Digest as _;
    let at = only_place_of(file, seal)?;
    let mut hash = sha2::Sha256::new();
    hash.update(file.get(..at)?);
    hash.update(vec![0u8; seal.len()]);
    hash.update(file.get(at + seal.len()..)?);
    Some(Digest(hash.finalize().into()))
}

/// Collects the file specifications of the name tree.
fn gather(
    objects: &Objects<'_>,
    node: &Value,
    depth: usize,
    seen: &mut BTreeSet<u32>,
    found: &mut Vec<Value>,
) -> Option<()> {
    if depth > 16 {
        return None;
    }
    if let Some(Value::List(kids)) = node.get("Kids").and_then(|kids| objects.resolve(kids)) {
        for kid in kids {
            if let Value::Reference(number) = kid
                && !seen.insert(number)
            {
                return None;
            }
            gather(objects, &objects.resolve(&kid)?, depth + 1, seen, found)?;
        }
    }
    if let Some(Value::List(names)) = node.get("Names").and_then(|names| objects.resolve(names)) {
        for pair in names.chunks(2) {
            let [_, specification] = pair else { return None };
            found.push(objects.resolve(specification)?);
            if found.len() > MOST_ATTACHMENTS {
                return None;
            }
        }
    }
    Some(())
}

fn attachment(objects: &Objects<'_>, specification: &Value, most: usize) -> Option<(String, Vec<u8>)> {
    let Value::Text(name) = objects.resolve(specification.get("F")?)? else { return None };
    let name = String::from_utf8(name).ok()?;
    let files = objects.resolve(specification.get("EF")?)?;
    let bytes = objects.stream(files.get("F")?, most)?;
    Some((name, bytes))
}
