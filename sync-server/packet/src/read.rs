//! Taking a packet's file apart: the attachments by name, and the digest the seal is over.
//!
//! Hostile files lead to an error, never to a panic; an attachment inflates to 64 MB at most, all of them
//! to 1 GB, and only the small records are kept, photographs are digested and let go.

use std::collections::BTreeSet;

use farsiding_core::evidence::packet::{
    CERTIFICATES, ENTRIES, FRONT, Files, KEYS, LARGEST_ATTACHMENT, LAST_ENTRY, LOG, PAGES, PhotoFile,
    RECEIPTS, SEAL, VIEW,
};
use farsiding_core::ids::Digest;
use memchr::memmem;

use super::objects::{Objects, Value};

/// The largest file taken, bytes.
pub const LARGEST_FILE: usize = 1024 * 1024 * 1024;
/// All attachments together, inflated.
const ALL_ATTACHMENTS: usize = 1024 * 1024 * 1024;
const MOST_ATTACHMENTS: usize = 10_000;
/// The attachments whose bytes are kept; of the others a digest is.
const KEPT: [&str; 10] = [ENTRIES, CERTIFICATES, RECEIPTS, LOG, KEYS, VIEW, LAST_ENTRY, FRONT, PAGES, SEAL];
/// All of them together, bytes.
const ALL_KEPT: usize = 64 * 1024 * 1024;

/// Why a file cannot be taken apart.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum ReadError {
    /// It begins as a PDF and does not end as one.
    #[error("the file is cut off: it begins as a PDF and has no end")]
    Truncated,
    /// It is no PDF.
    #[error("this is not a PDF file")]
    NotAPdf,
    /// A PDF, but not one a packet is written as.
    #[error("the attachments cannot be taken out of this PDF: {0}")]
    NotAPacket(String),
}

/// A file taken apart.
#[derive(Debug, Default)]
pub struct Apart {
    /// Its attachments.
    pub files: Files,
}

/// Returns where a needle stands in the file, if it stands there exactly once.
pub(super) fn only_place_of(file: &[u8], needle: &[u8]) -> Option<usize> {
    let mut places = memmem::find_iter(file, needle);
    let (Some(at), None) = (places.next(), places.next()) else { return None };
    Some(at)
}

/// Returns whether `startxref`, a number and `%%EOF` stand in the file. (`%%EOF` alone does not tell:
/// character maps of fonts end with it too.)
fn has_an_end(file: &[u8]) -> bool {
    // No number of a place in a file has more digits, and nobody writes more blanks.
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

/// The attachments of a file, found and not yet taken out.
pub(super) struct Attachments<'f> {
    objects: Objects<'f>,
    specifications: Vec<Value>,
}

impl<'f> Attachments<'f> {
    /// Finds them.
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

    /// Returns the bytes of each by its name, one after the other, so that only one is in memory.
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

/// Takes a packet apart.
///
/// # Errors
/// [`ReadError`].
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

/// Returns the file's SHA-256 with the seal's bytes zeroed; nothing unless they stand in it exactly once.
fn digest_without(file: &[u8], seal: &[u8]) -> Option<Digest> {
    use sha2::Digest as _;
    let at = only_place_of(file, seal)?;
    let mut hash = sha2::Sha256::new();
    hash.update(file.get(..at)?);
    hash.update(vec![0u8; seal.len()]);
    hash.update(file.get(at + seal.len()..)?);
    Some(Digest(hash.finalize().into()))
}

/// Walks the name tree for file specifications.
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
