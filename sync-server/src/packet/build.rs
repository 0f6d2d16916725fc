//! From attachments to the sealed file.
//!
//! The pages are drawn from the folded attachments, the file is written with a placeholder for the seal,
//! and the seal is put in its place. Nothing here depends on a clock, a random number or the ledger.

use std::collections::{BTreeMap, BTreeSet};

use farsiding_core::entry::{AnyTime, cbor};
use farsiding_core::evidence::packet::{
    CERTIFICATES, DESCRIPTION, ENTRIES, HOW_TO_CHECK, KEYS, KeyStatements, LARGEST_ATTACHMENT, LOG, Listed,
    Parts, RECEIPTS, SEAL, Seal, SealedEntries, VIEW, photo_name, placeholder, refold, seal,
};
use farsiding_core::ids::Digest;
use farsiding_core::procedure::Procedures;
use farsiding_core::view::FOLD_VERSION;

use super::ink::{Attachment, Drawn, Picture, Running, draw_all};
use super::pages::{self, Shown, Told};
use super::sheet::Sheet;
use super::typeface::Typefaces;
use super::{PacketError, PacketSource, picture_size};

fn what_is(name: &str) -> &'static str {
    match name {
        ENTRIES => "the signed entries, byte for byte",
        CERTIFICATES => "the devices' certificates",
        RECEIPTS => "the office's receipts",
        KEYS => "what the root said of the organisation's keys",
        LOG => "places in the log, checkpoints, chains",
        VIEW => "the folded record, for programs",
        HOW_TO_CHECK => "description of this format, how to check",
        _ => "photograph, byte for byte",
    }
}

fn media_of(name: &str) -> &'static str {
    match name.rsplit('.').next() {
        Some("cbor") => "application/cbor",
        Some("json") => "application/json",
        Some("txt") => "text/plain",
        Some("jpg") => "image/jpeg",
        Some("png") => "image/png",
        Some("webp") => "image/webp",
        Some("heic") => "image/heic",
        _ => "application/octet-stream",
    }
}

/// The photographs named in the record, as far as the office holds them.
fn photographs(
    source: &PacketSource<'_>,
    named: &BTreeMap<Digest, String>,
) -> Result<BTreeMap<Digest, (String, Vec<u8>)>, PacketError> {
    let mut files = BTreeMap::new();
    for (sha256, media) in named {
        let Some(bytes) = source.photographs.bytes(*sha256)? else { continue };
        if bytes.len() > LARGEST_ATTACHMENT {
            continue;
        }
        if Digest::of(&bytes) != *sha256 {
            let why = "its bytes are no longer those received; put it back from a copy".to_owned();
            return Err(PacketError::Photo { sha256: *sha256, why });
        }
        files.insert(*sha256, (photo_name(*sha256, media), bytes));
    }
    Ok(files)
}

/// Makes the file.
pub(super) fn build(
    source: &PacketSource<'_>,
    parts: &Parts,
    procedures: &Procedures,
) -> Result<Vec<u8>, PacketError> {
    let organisation_key = source.key.public();
    let refolded = refold(parts, &AnyTime(source.key), procedures);
    let view_json = serde_json::to_vec(&refolded.view).map_err(|e| PacketError::Layout(e.to_string()))?;
    let named: BTreeMap<Digest, String> =
        refolded.view.photos.iter().map(|p| (p.photo.sha256, p.photo.media.clone())).collect();
    let photos = photographs(source, &named)?;
    let mut files: Vec<(String, Vec<u8>)> =
        parts.files()?.into_iter().map(|(name, bytes)| (name.to_owned(), bytes)).collect();
    files.push((VIEW.to_owned(), view_json));
    files.push((HOW_TO_CHECK.to_owned(), DESCRIPTION.as_bytes().to_vec()));
    if source.key.keys().count() > 0 {
        let statements = cbor::encode(&KeyStatements::of(source.key.keys()));
        files.push((KEYS.to_owned(), statements.map_err(farsiding_core::entry::EntryError::from)?));
    }
    files.extend(photos.values().cloned());
    files.sort();
    let listed: Vec<Listed> = files
        .iter()
        .map(|(name, bytes)| Listed {
            name: name.clone(),
            sha256: Digest::of(bytes),
            length: bytes.len() as u64,
        })
        .collect();
    let manifest = cbor::encode(&listed).map_err(farsiding_core::entry::EntryError::from)?;
    let document = document_id(&Digest::of(&manifest));
    let unsealed = Seal {
        format: farsiding_core::evidence::packet::FORMAT.to_owned(),
        fold: Some(FOLD_VERSION),
        file: Digest([0; 32]),
        stay: parts.entries.stay.clone(),
        at: refolded.at,
        entries: SealedEntries::of(&parts.entries),
        attachments: listed,
    };
    let blank = placeholder(&unsealed, source.key)?;
    let told_files: Vec<(String, usize, String)> = files
        .iter()
        .map(|(name, bytes)| (name.clone(), bytes.len(), what_is(name).to_owned()))
        .chain([(SEAL.to_owned(), blank.len(), "the organisation's seal on this file".to_owned())])
        .collect();
    let car = &refolded.view.header.car;
    let running = Running {
        title: format!("Evidence packet, car {}", if car.is_empty() { "not known" } else { car }),
        subject: "The record of a tank car's stay at a siding, with its proof attached".to_owned(),
        author: format!("Organisation with the public key {organisation_key}"),
        document: document.clone(),
        at: refolded.at,
    };
    let faces = Typefaces::load()?;
    let mut undrawable: BTreeSet<Digest> = BTreeSet::new();
    loop {
        let (mut pictures, mut shown) = (Vec::new(), BTreeMap::new());
        for sha256 in named.keys() {
            let file = photos.get(sha256);
            let drawn = file.filter(|_| !undrawable.contains(sha256)).and_then(|(_, bytes)| {
                let (png, size) = picture_size::of(bytes)?;
                pictures.push(Picture { sha256: *sha256, bytes: bytes.clone(), png });
                Some((pictures.len() - 1, size))
            });
            shown.insert(*sha256, Shown { drawn, file: file.map(|(name, _)| name.clone()) });
        }
        let told = Told {
            parts,
            refolded: &refolded,
            photos: &shown,
            organisation_key,
            keys: source.key.keys(),
            document: &document,
            files: &told_files,
        };
        let mut sheet = Sheet::new(&faces);
        pages::write(&mut sheet, &told);
        let attachments = files
            .iter()
            .cloned()
            .chain([(SEAL.to_owned(), blank.clone())])
            .map(|(name, bytes)| Attachment {
                media: media_of(&name),
                description: if name == SEAL {
                    "the organisation's seal".to_owned()
                } else {
                    what_is(&name).to_owned()
                },
                source: name == ENTRIES,
                deflate: name != SEAL
                    && !matches!(media_of(&name), "image/jpeg" | "image/png" | "image/webp" | "image/heic"),
                name,
                bytes,
            })
            .collect();
        match draw_all(&faces, &running, &sheet.finish(), &pictures, attachments)? {
            Drawn::File(file) => return put_seal(file, unsealed, &blank, source),
            Drawn::Without(refused) => {
                if refused.iter().all(|sha256| undrawable.contains(sha256)) {
                    return Err(PacketError::Layout("a picture is refused twice".to_owned()));
                }
                undrawable.extend(refused);
            }
        }
    }
}

/// "FP 1a2b 3c4d …": the digest of the list of attachments, shortened, as printed on every page.
fn document_id(manifest: &Digest) -> String {
    let digits = manifest.to_string();
    let groups: Vec<&str> = (0..5).filter_map(|at| digits.get(at * 4..at * 4 + 4)).collect();
    format!("FP {}", groups.join(" "))
}

fn put_seal(
    mut file: Vec<u8>,
    unsealed: Seal,
    blank: &[u8],
    source: &PacketSource<'_>,
) -> Result<Vec<u8>, PacketError> {
    let misplaced = || PacketError::Layout("the place for the seal is not in the file once".to_owned());
    let mut places = super::read::places_of(&file, blank);
    let (Some(place), None) = (places.next(), places.next()) else { return Err(misplaced()) };
    drop(places);
    let hole = file.get_mut(place..place + blank.len()).ok_or_else(misplaced)?;
    hole.fill(0);
    let sealed = seal(&Seal { file: Digest::of(&file), ..unsealed }, source.key)?;
    if sealed.len() != blank.len() {
        return Err(misplaced());
    }
    if let Some(hole) = file.get_mut(place..place + sealed.len()) {
        hole.copy_from_slice(&sealed);
    }
    Ok(file)
}
