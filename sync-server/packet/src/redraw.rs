//! Draws the pages again from the attachments and compares them with those in the file.
//!
//! A file is a function of its attachments and the organisation's key: the same layout version makes the same
//! bytes. Nobody, whatever keys they hold, can therefore print something else on the pages, or make a viewer
//! show something else than a verifier reads, without being noticed. Called by [`super::check_file`] after
//! everything else was checked.

use std::collections::BTreeMap;

use farsiding_core::entry::{AnyTime, OrganisationKeys};
use farsiding_core::evidence::packet::{
    CERTIFICATES, Certificates, CheckReport, Code, ENGLISH, ENTRIES, Entries, Files, HOW_TO_CHECK, LOG, Log,
    NAMES, NamesFile, PROCEDURE, PROCEDURE_WORDS, Parts, RECEIPTS, Receipts, SEAL, Seal, placeholder_of,
    read_part,
};
use farsiding_core::ids::Digest;
use farsiding_core::procedure::Procedures;
use farsiding_core::view::FOLD_VERSION;
use farsiding_core::{Arg, Message, message};
use farsiding_words::Language;

use super::build::{Drawing, draw};
use super::objects::Value;
use super::read::{Attachments, only_place_of};
use super::{LAYOUT_VERSION, PacketError, Photographs};

struct Attached(BTreeMap<Digest, Vec<u8>>);

impl Photographs for Attached {
    fn bytes(&self, sha256: Digest) -> Result<Option<Vec<u8>>, PacketError> {
        Ok(self.0.get(&sha256).cloned())
    }
}

/// Returns a number, a tag or what an error says as it is in every language.
fn typed(what: impl ToString) -> Arg {
    Arg::typed(what.to_string())
}

/// Draws the pages again if this program can, and reports the result.
pub(super) fn compare(
    file: &[u8],
    files: &Files,
    keys: &OrganisationKeys,
    procedures: &Procedures,
    report: &mut CheckReport,
) {
    let Some(sealed) = files.records.get(SEAL).and_then(|bytes| Seal::open(bytes, &AnyTime(keys)).ok())
    else {
        return report.mark(Code::PagesNotDrawn, message!("verify-pages-no-seal"));
    };
    if sealed.pages != Some(LAYOUT_VERSION) || sealed.fold() != FOLD_VERSION {
        let of = sealed.pages.unwrap_or(1);
        let what = message!(
            "verify-pages-other",
            layout = typed(of),
            fold = typed(sealed.fold()),
            own_layout = typed(LAYOUT_VERSION),
            own_fold = typed(FOLD_VERSION)
        );
        return report.mark(Code::PagesNotDrawn, what);
    }
    // A language that this program has no words for is that of a program with other pages.
    let language = sealed.language.as_deref().unwrap_or(ENGLISH);
    let Some(language) = Language::all().find(|known| known.as_str() == language) else {
        return report
            .mark(Code::PagesNotDrawn, message!("verify-pages-language", language = typed(language)));
    };
    // Other changes have been reported already, and everything drawn from changed attachments would differ.
    if !report.all_holds() && !report.found(Code::AlteredPages) {
        return report.mark(Code::PagesNotDrawn, message!("verify-pages-not-drawn"));
    }
    match again(file, files, (keys, language), procedures) {
        Ok(drawn) if drawn == file => {
            report.holds(Code::Pages, message!("verify-pages"));
        }
        Ok(drawn) => {
            for what in differing(file, &drawn) {
                report.broken(Code::AlteredPages, what);
            }
        }
        Err(why) => report.broken(Code::AlteredPages, message!("verify-pages-cannot", why = typed(why))),
    }
}

fn again(
    file: &[u8],
    files: &Files,
    (keys, language): (&OrganisationKeys, Language),
    procedures: &Procedures,
) -> Result<Vec<u8>, PacketError> {
    let record = |name: &str| files.records.get(name).map(Vec::as_slice).unwrap_or_default();
    let parts = Parts {
        entries: Entries::from_bytes(record(ENTRIES))?,
        certificates: read_part::<Certificates>(CERTIFICATES, record(CERTIFICATES))?,
        receipts: read_part::<Receipts>(RECEIPTS, record(RECEIPTS))?,
        log: read_part::<Log>(LOG, record(LOG))?,
        names: match files.records.get(NAMES) {
            Some(bytes) => NamesFile::from_bytes(bytes)?.names,
            None => Vec::new(),
        },
    };
    let mut description = Vec::new();
    let mut photographs = BTreeMap::new();
    let mut procedure = Vec::new();
    let attachments = Attachments::find(file).map_err(|why| PacketError::Layout(why.to_string()))?;
    for attached in attachments.each() {
        let (name, bytes) = attached.map_err(|why| PacketError::Layout(why.to_string()))?;
        if name == HOW_TO_CHECK {
            description = bytes;
        } else if name == PROCEDURE || name == PROCEDURE_WORDS {
            procedure.push((name, bytes));
        } else if files.photos.contains_key(&name) {
            photographs.insert(Digest::of(&bytes), bytes);
        }
    }
    let drawing = Drawing {
        parts: &parts,
        photographs: &Attached(photographs),
        keys,
        description: &description,
        procedures,
        procedure: Some(procedure),
        language,
    };
    // The file's own id is computed from its content, so the seal is inserted afterwards, as when the packet
    // was made.
    let sealed = record(SEAL);
    let mut drawn = draw(&drawing, |_| Ok(placeholder_of(sealed.len())))?;
    let place = only_place_of(&drawn.file, &drawn.stands);
    let hole = place.and_then(|at| drawn.file.get_mut(at..at + sealed.len()));
    hole.ok_or_else(|| PacketError::Layout("no place for the seal".to_owned()))?.copy_from_slice(sealed);
    Ok(drawn.file)
}

/// Returns which pages of a file differ from the drawn ones. If no page differs, returns that something
/// around the pages does.
fn differing(file: &[u8], drawn: &[u8]) -> Vec<Message> {
    let (Some(theirs), Some(ours)) = (pages_of(file), pages_of(drawn)) else {
        return vec![message!("verify-pages-unreadable")];
    };
    let mut found: Vec<Message> = theirs
        .iter()
        .zip(&ours)
        .enumerate()
        .filter(|(_, (their, our))| their != our)
        .map(|(at, _)| message!("verify-page-differs", page = typed(at + 1)))
        .collect();
    if theirs.len() > ours.len() {
        found.push(message!("verify-pages-added", from = typed(ours.len() + 1), to = typed(theirs.len())));
    } else if theirs.len() < ours.len() {
        found.push(message!("verify-pages-gone", from = typed(theirs.len() + 1), to = typed(ours.len())));
    }
    if found.is_empty() {
        found.push(message!("verify-pages-around"));
    }
    found
}

/// The largest number of pages that are compared.
const MOST_PAGES: usize = 20_000;

/// Returns a digest of everything each page shows: the page object and everything it refers to. Returns
/// `None` when the pages cannot be parsed.
fn pages_of(file: &[u8]) -> Option<Vec<Digest>> {
    let attachments = Attachments::find(file).ok()?;
    let objects = attachments.objects();
    let root = objects.root()?;
    let mut waiting = vec![(root.get("Pages")?.clone(), 0usize)];
    let mut pages = Vec::new();
    while let Some((node, depth)) = waiting.pop() {
        let node = objects.resolve(&node)?;
        match node.get("Kids").map(|kids| objects.resolve(kids)) {
            Some(Some(Value::List(kids))) if depth < 16 && waiting.len() + kids.len() <= MOST_PAGES => {
                waiting.extend(kids.into_iter().rev().map(|kid| (kid, depth + 1)));
            }
            Some(_) => return None,
            None => pages.push(objects.digest(&node, &["Parent", "StructParents"])?),
        }
        if pages.len() > MOST_PAGES {
            return None;
        }
    }
    Some(pages)
}
