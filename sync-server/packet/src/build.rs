//! Builds the sealed file from the attachments.
//!
//! The pages are drawn from the folded attachments, the file is written with a placeholder for the seal, and
//! the seal replaces the placeholder. Nothing here depends on a clock, a random number or the ledger, because
//! verifiers draw the packet again (`redraw`).

use std::collections::{BTreeMap, BTreeSet};

use farsiding_core::entry::{AnyTime, OrganisationKeys, Trusts as _, cbor};
use farsiding_core::evidence::packet::{
    CERTIFICATES, DESCRIPTION, ENGLISH, ENTRIES, FRONT, Fact, Front, HOW_TO_CHECK, KEYS, KeyStatements,
    LARGEST_ATTACHMENT, LARGEST_RECORD, LAST_ENTRY, LOG, Listed, NAMES, PAGES, PROCEDURE, PROCEDURE_WORDS,
    Parts, RECEIPTS, Refolded, SEAL, Seal, SealedEntries, VIEW, last_entry_proof, photo_name, placeholder,
    refold, seal,
};
use farsiding_core::ids::Digest;
use farsiding_core::procedure::{Procedure, Procedures};
use farsiding_core::view::FOLD_VERSION;
use farsiding_core::{Arg, Message, message};
use farsiding_words::{Language, Words};

use super::ink::{Attachment, Drawn, Picture, Running, draw_all, read_pictures};
use super::marks::Paper;
use super::pages::{self, Numbered, Shown, Told};
use super::typeface::Typefaces;
use super::{LAYOUT_VERSION, PacketError, PacketSource, Photographs, picture_size};

/// Returns what an attachment is.
fn what_is(name: &str, bytes: &[u8]) -> Message {
    let digest = || Arg::typed(spaced(&Digest::of(bytes)));
    Message::new(match name {
        PROCEDURE => return message!("packet-file-procedure", digest = digest()),
        PROCEDURE_WORDS => return message!("packet-file-procedure-words", digest = digest()),
        ENTRIES => "packet-file-entries",
        CERTIFICATES => "packet-file-certificates",
        RECEIPTS => "packet-file-receipts",
        KEYS => "packet-file-keys",
        NAMES => "packet-file-names",
        LOG => "packet-file-log",
        VIEW => "packet-file-view",
        LAST_ENTRY => "packet-file-last-entry",
        HOW_TO_CHECK => "packet-file-description",
        FRONT => "packet-file-front",
        PAGES => "packet-file-pages",
        SEAL => "packet-file-seal",
        _ => "packet-file-photograph",
    })
}

/// Returns a digest in groups, so that a line can end between them.
fn spaced(digest: &Digest) -> String {
    let digits = digest.to_string();
    let groups: Vec<&str> = (0..4).filter_map(|at| digits.get(at * 16..at * 16 + 16)).collect();
    groups.join(" ")
}

/// Returns the text of the stay's procedure, and its sentences in a language if the catalogues have them.
fn procedure_files(
    procedures: &Procedures,
    refolded: &Refolded,
    language: Language,
) -> Vec<(String, Vec<u8>)> {
    let named = refolded.view.header.procedure;
    // The organisation's own text keeps sentences of the edition that it starts from.
    let own = refolded.own_text.as_ref().and_then(|(_, text)| {
        let starts_from = Procedure::read(text).ok()?.starts_from?;
        Some((procedures.get(starts_from)?, text.as_str()))
    });
    let known = || named.and_then(|digest| Some((procedures.get(digest)?, procedures.text(digest)?)));
    let Some((procedure, text)) = own.or_else(known) else { return Vec::new() };
    let name = format!("{}.ftl", procedure.title.id());
    let words = farsiding_words::files(language).iter().find(|(file, _)| *file == name);
    let words = words.filter(|_| procedure.in_catalogues).map(|(_, words)| (PROCEDURE_WORDS, *words));
    let files = [(PROCEDURE, text)].into_iter().chain(words);
    files.map(|(name, text)| (name.to_owned(), text.as_bytes().to_vec())).collect()
}

fn media_of(name: &str) -> &'static str {
    match name.rsplit('.').next() {
        Some("cbor") => "application/cbor",
        Some("json") => "application/json",
        Some("txt" | "tlog-proof" | "ftl") => "text/plain",
        Some("toml") => "application/toml",
        Some("jpg") => "image/jpeg",
        Some("png") => "image/png",
        Some("webp") => "image/webp",
        Some("heic") => "image/heic",
        _ => "application/octet-stream",
    }
}

/// Returns the photographs named in the record that the office holds.
fn photographs(
    held: &dyn Photographs,
    named: &BTreeMap<Digest, String>,
) -> Result<BTreeMap<Digest, (String, Vec<u8>)>, PacketError> {
    let mut files = BTreeMap::new();
    for (sha256, media) in named {
        let Some(bytes) = held.bytes(*sha256)? else { continue };
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

/// Everything a file is drawn from. All of it is attached to the file, so that verifiers can draw the packet
/// again.
pub(super) struct Drawing<'a> {
    /// The attached records.
    pub parts: &'a Parts,
    /// The source of the photographs.
    pub photographs: &'a dyn Photographs,
    /// The organisation's keys.
    pub keys: &'a OrganisationKeys,
    /// The format description that is attached.
    pub description: &'a [u8],
    /// The procedures.
    pub procedures: &'a Procedures,
    /// The attached text of the procedure and its sentences, where a packet is drawn again; otherwise they
    /// are taken from `procedures` and the catalogues.
    pub procedure: Option<Vec<(String, Vec<u8>)>>,
    /// The language of the pages.
    pub language: Language,
}

/// A file in which only the seal is missing.
pub(super) struct Unsealed {
    /// The file, with a placeholder where the seal belongs.
    pub file: Vec<u8>,
    /// The seal, complete except for the file's digest.
    pub seal: Seal,
    /// The placeholder.
    pub stands: Vec<u8>,
}

/// Builds the sealed file.
pub(super) fn build(
    source: &PacketSource<'_>,
    parts: &Parts,
    procedures: &Procedures,
) -> Result<Vec<u8>, PacketError> {
    let drawing = Drawing {
        parts,
        photographs: source.photographs,
        keys: source.key.keys(),
        description: DESCRIPTION.as_bytes(),
        procedures,
        procedure: None,
        language: source.language,
    };
    let drawn = draw(&drawing, |seal| Ok(placeholder(seal, source.key)?))?;
    put_seal(drawn, source)
}

/// Draws the file. `stands_for` returns the placeholder for the seal.
pub(super) fn draw(
    drawing: &Drawing<'_>,
    stands_for: impl Fn(&Seal) -> Result<Vec<u8>, PacketError>,
) -> Result<Unsealed, PacketError> {
    let Drawing { parts, keys, procedures, .. } = *drawing;
    let organisation_key = keys.root();
    let refolded = refold(parts, &AnyTime(keys), procedures);
    let view_json = serde_json::to_vec(&refolded.view).map_err(|e| PacketError::Layout(e.to_string()))?;
    let named: BTreeMap<Digest, String> =
        refolded.view.photos.iter().map(|p| (p.photo.sha256, p.photo.media.clone())).collect();
    let photos = photographs(drawing.photographs, &named)?;
    let records = parts.files()?;
    if let Some((name, bytes)) = records.iter().find(|(_, bytes)| bytes.len() > LARGEST_RECORD) {
        return Err(PacketError::TooLarge { name, length: bytes.len(), most: LARGEST_RECORD });
    }
    let mut files: Vec<(String, Vec<u8>)> =
        records.into_iter().map(|(name, bytes)| (name.to_owned(), bytes)).collect();
    files.push((VIEW.to_owned(), view_json));
    files.extend(last_entry_proof(parts).map(|proof| (LAST_ENTRY.to_owned(), proof.into_bytes())));
    files.extend(
        drawing.procedure.clone().unwrap_or_else(|| procedure_files(procedures, &refolded, drawing.language)),
    );
    files.push((HOW_TO_CHECK.to_owned(), drawing.description.to_vec()));
    if keys.count() > 0 {
        let statements = cbor::encode(&KeyStatements::of(keys));
        files.push((KEYS.to_owned(), statements.map_err(farsiding_core::entry::EntryError::from)?));
    }
    files.extend(photos.values().cloned());
    files.sort();
    let manifest = cbor::encode(&listed(&files)).map_err(farsiding_core::entry::EntryError::from)?;
    let document = document_id(&Digest::of(&manifest));
    // These attachments are made after the pages, so the pages cannot list their lengths.
    let made_last = [FRONT, PAGES, SEAL];
    let mut told_files: Vec<(String, Option<usize>, Message)> = files
        .iter()
        .map(|(name, bytes)| (name.clone(), Some(bytes.len()), what_is(name, bytes)))
        .chain(made_last.map(|name| (name.to_owned(), None, what_is(name, &[]))))
        .collect();
    told_files.sort();
    let words = Words::of(drawing.language);
    let car = refolded.view.header.car.as_str();
    let title = match car.is_empty() {
        true => message!("packet-title-not-known"),
        false => message!("packet-title", car = Arg::typed(car)),
    };
    let author = message!("packet-author", key = Arg::typed(organisation_key.to_string()));
    let running = Running {
        title: words.text(&title),
        subject: words.say("packet-subject"),
        author: words.text(&author),
        document: document.clone(),
        at: refolded.at,
        language: drawing.language,
        producer: format!("farsiding evidence packet, layout {LAYOUT_VERSION}"),
    };
    let faces = Typefaces::load()?;
    let paper = Paper::of_zone(&refolded.view.header.zone);
    let numbered = Numbered::of(parts);
    let place = |page: usize, pages: usize| {
        let (page, pages) = (Arg::typed(page.to_string()), Arg::typed(pages.to_string()));
        words.text(&message!("packet-page", page = page, pages = pages))
    };
    let mut undrawable: BTreeSet<Digest> = BTreeSet::new();
    loop {
        let (pictures, shown) = to_draw(&named, &photos, &undrawable);
        let images = match read_pictures(&pictures) {
            Ok(images) => images,
            Err(refused) => {
                undrawable.extend(refused);
                continue;
            }
        };
        let told = Told {
            words,
            parts,
            refolded: &refolded,
            photos: &shown,
            organisation_key,
            keys,
            document: &document,
            files: &told_files,
            numbered: &numbered,
            standing: pages::standing(&numbered, &refolded),
        };
        let (sheet, facts) = pages::write(&faces, paper, &told);
        let set = sheet.finish(&running.title, &document, place);
        let last = place(1, set.pages.len());
        let front = front(facts, &faces, &running, &last);
        let mut all = files.clone();
        all.push((PAGES.to_owned(), set.text().into_bytes()));
        all.push((FRONT.to_owned(), front.to_bytes()?));
        all.sort();
        let unsealed = Seal {
            format: farsiding_core::evidence::packet::FORMAT.to_owned(),
            fold: Some(FOLD_VERSION),
            pages: Some(LAYOUT_VERSION),
            language: Some(drawing.language.as_str().to_owned()).filter(|tag| tag != ENGLISH),
            file: Digest([0; 32]),
            stay: parts.entries.stay.clone(),
            at: refolded.at,
            entries: SealedEntries::of(&parts.entries),
            attachments: listed(&all),
        };
        let stands = stands_for(&unsealed)?;
        all.push((SEAL.to_owned(), stands.clone()));
        let attachments = all.into_iter().map(|file| attachment(file, words)).collect();
        match draw_all(&faces, &running, &set, (&pictures, &images), attachments)? {
            Drawn::File(file) => return Ok(Unsealed { file, seal: unsealed, stands }),
            Drawn::Without(refused) => {
                if refused.iter().all(|sha256| undrawable.contains(sha256)) {
                    return Err(PacketError::Layout("a picture is refused twice".to_owned()));
                }
                undrawable.extend(refused);
            }
        }
    }
}

/// The largest number of pixels of all decoded pictures. Further pictures are attached and not drawn.
const MOST_DECODED: u64 = 16_000_000;

/// Returns the pictures to draw, and every photograph in the form that the pages need.
fn to_draw(
    named: &BTreeMap<Digest, String>,
    photos: &BTreeMap<Digest, (String, Vec<u8>)>,
    undrawable: &BTreeSet<Digest>,
) -> (Vec<Picture>, BTreeMap<Digest, Shown>) {
    let (mut pictures, mut shown, mut room) = (Vec::new(), BTreeMap::new(), MOST_DECODED);
    for sha256 in named.keys() {
        let file = photos.get(sha256);
        let drawn = file.filter(|_| !undrawable.contains(sha256)).and_then(|(_, bytes)| {
            let (png, size) = picture_size::of(bytes)?;
            if png {
                room = room.checked_sub(u64::from(size.0) * u64::from(size.1))?;
            }
            pictures.push(Picture { sha256: *sha256, bytes: bytes.clone(), png });
            Some((pictures.len() - 1, size))
        });
        shown.insert(*sha256, Shown { drawn, file: file.map(|(name, _)| name.clone()) });
    }
    (pictures, shown)
}

/// Returns the facts of the first page, with its header and footer.
fn front(facts: Vec<Fact>, faces: &Typefaces, running: &Running, place: &str) -> Front {
    let frame = |text: &str| Fact {
        kind: "frame".into(),
        label: String::new(),
        text: faces.showable(text),
        cites: Vec::new(),
        said: None,
    };
    let mut all = vec![frame(&running.title)];
    all.extend(facts);
    all.push(frame(&running.document));
    all.push(frame(place));
    Front { facts: all }
}

fn attachment((name, bytes): (String, Vec<u8>), words: &Words) -> Attachment {
    let media = media_of(&name);
    let picture = matches!(media, "image/jpeg" | "image/png" | "image/webp" | "image/heic");
    Attachment {
        media,
        description: words.text(&what_is(&name, &bytes)),
        source: name == ENTRIES,
        deflate: name != SEAL && !picture,
        name,
        bytes,
    }
}

fn listed(files: &[(String, Vec<u8>)]) -> Vec<Listed> {
    let list = |(name, bytes): &(String, Vec<u8>)| Listed {
        name: name.clone(),
        sha256: Digest::of(bytes),
        length: bytes.len() as u64,
    };
    files.iter().map(list).collect()
}

/// Returns the document id that is printed on every page, such as "FP 1a2b 3c4d …". It is the shortened
/// digest of the list of attachments.
fn document_id(manifest: &Digest) -> String {
    let digits = manifest.to_string();
    let groups: Vec<&str> = (0..5).filter_map(|at| digits.get(at * 4..at * 4 + 4)).collect();
    format!("FP {}", groups.join(" "))
}

fn put_seal(drawn: Unsealed, source: &PacketSource<'_>) -> Result<Vec<u8>, PacketError> {
    let misplaced = || PacketError::Layout("the place for the seal is not in the file once".to_owned());
    let Unsealed { mut file, seal: unsealed, stands } = drawn;
    let place = super::read::only_place_of(&file, &stands).ok_or_else(misplaced)?;
    let hole = file.get_mut(place..place + stands.len()).ok_or_else(misplaced)?;
    hole.fill(0);
    let sealed = seal(&Seal { file: Digest::of(&file), ..unsealed }, source.key)?;
    if sealed.len() != stands.len() {
        return Err(misplaced());
    }
    if let Some(hole) = file.get_mut(place..place + sealed.len()) {
        hole.copy_from_slice(&sealed);
    }
    Ok(file)
}
