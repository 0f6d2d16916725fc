//! What stands on a packet's first page, as facts that name the entries they rest on, and what can be checked of
//! them without knowing how a record is folded.
//!
//! The pages themselves are drawn and drawn again by `farsiding-server`'s `packet`; here is only what a checker
//! with the attachments can tell. The second verifier follows the same rules from `FORMAT.md`.

use std::collections::{BTreeMap, BTreeSet};

use serde::{Deserialize, Serialize};

use super::check::{Files, Opened};
use super::parts::{Parts, PartsError, read, write};
use super::report::{CheckReport, Code};
use super::{FRONT, PAGES, Seal};
use crate::authority::{Authority, Kept, Verdict};
use crate::clock::UtcMillis;
use crate::entry::{Certificate, Entry, Statement, Trusts};
use crate::ids::{DeviceId, EntryId};

/// One thing the first page says.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Fact {
    /// What it is about: one of the words of `FORMAT.md`; a checker passes over those it does not know.
    pub kind: String,
    /// What stands before it on the page.
    pub label: String,
    /// What the page says.
    pub text: String,
    /// The numbers of the entries it rests on.
    pub cites: Vec<u64>,
}

/// `front.cbor`.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Front {
    /// In the order of the page.
    pub facts: Vec<Fact>,
}

impl Front {
    /// Reads `front.cbor`.
    ///
    /// # Errors
    /// [`PartsError::Unreadable`].
    pub fn from_bytes(bytes: &[u8]) -> Result<Front, PartsError> {
        read(FRONT, bytes)
    }

    /// Its encoding.
    ///
    /// # Errors
    /// [`PartsError::Unwritable`].
    pub fn to_bytes(&self) -> Result<Vec<u8>, PartsError> {
        write(self)
    }
}

/// The sentences of kind `notice`, as this version writes them: a packet of its layout says nothing else under
/// that name.
pub const NOTICES: [&str; 3] = [
    "This is what people recorded while a pressurised tank car stood at a siding. The organisation named below \
     keeps the record and sealed this file.",
    "It does not prove that a scene was as claimed, that a photograph shows the car it is said to show, or that a \
     time claimed by a device is true: those are the words of whoever made the entry. What the organisation left \
     out of its record altogether, no file can show.",
    "Farsiding records and computes. It never declares a car safe, empty or fit to move. Local codes, the owner's \
     instructions and licensed practice come first.",
];

/// The layout whose notices these are.
const NOTICES_OF_LAYOUT: u64 = 2;

/// Of the first page's text only these characters are blanks.
fn without_blanks(text: &str) -> String {
    text.chars().filter(|c| !matches!(c, ' ' | '\n' | '\u{c}')).collect()
}

/// Letters of ASCII in lower case, digits and full stops; nothing else.
fn reduced(text: &str) -> String {
    text.chars().filter(|c| c.is_ascii_alphanumeric() || *c == '.').map(|c| c.to_ascii_lowercase()).collect()
}

/// The longest quotation compared, in characters: longer ones are shortened on the page.
const LONGEST_QUOTATION: usize = 40;

/// Whether the text says what an entry was typed with. What is long, or not of plain ASCII, is not compared.
fn quotes(text: &str, typed: &str) -> bool {
    let typed = typed.trim();
    let plain = typed.chars().all(|c| matches!(c, ' '..='~'));
    !plain || typed.len() > LONGEST_QUOTATION || reduced(text).contains(&reduced(typed))
}

/// Which entries of a stay stand, as far as whoever does not fold can tell: by what replaces them.
#[derive(Debug, Default)]
pub struct Standing<'e> {
    replacing: BTreeMap<EntryId, Vec<&'e Entry>>,
    aside: BTreeSet<EntryId>,
    taken_back: BTreeSet<EntryId>,
}

impl<'e> Standing<'e> {
    /// Of the entries of a stay, those in `aside` not counting.
    pub fn of(entries: impl IntoIterator<Item = &'e Entry>, aside: BTreeSet<EntryId>) -> Standing<'e> {
        let mut standing = Standing { aside, ..Standing::default() };
        for entry in entries {
            if standing.aside.contains(&entry.id) {
                continue;
            }
            for gone in entry.body.replaces.iter().filter(|gone| **gone != entry.id) {
                standing.replacing.entry(*gone).or_default().push(entry);
                if matches!(entry.body.says, Statement::Withdrawn {}) {
                    standing.taken_back.insert(*gone);
                }
            }
        }
        standing
    }

    /// Whether an entry counts and nothing that counts stands in its place. A settlement that keeps it does not,
    /// nor one that was taken back.
    pub fn stands(&self, entry: EntryId) -> bool {
        let leaves = |by: &&Entry| match by.body.says {
            Statement::Agreement { keeps } => keeps == entry || self.taken_back.contains(&by.id),
            _ => false,
        };
        !self.aside.contains(&entry) && self.replacing.get(&entry).is_none_or(|by| by.iter().all(leaves))
    }
}

/// The kind of fact that must cite each entry of this kind that stands; nothing for other entries.
pub fn told_in_full(says: &Statement) -> Option<&'static str> {
    match says {
        Statement::Released { .. } => Some("release"),
        Statement::Hold { .. } => Some("hold"),
        Statement::PassedOver { .. } => Some("passed_over"),
        _ => None,
    }
}

/// What a fact of this kind must quote of an entry it cites: nothing where the entry is not of that kind, an empty
/// list where it need quote nothing.
fn quoted<'e>(kind: &str, says: &'e Statement) -> Option<Vec<&'e str>> {
    match (kind, says) {
        ("car", Statement::Opened(opened)) => Some(vec![&opened.car.0]),
        ("car", Statement::CarNumberAgain { car }) => Some(vec![&car.0]),
        ("site", Statement::Site(site)) => Some(vec![&site.name]),
        ("paper", Statement::Paper(paper)) => {
            let billed = paper.billed.as_ref().map(|billed| billed.text.as_str());
            Some([Some(paper.number.as_str()), billed].into_iter().flatten().collect())
        }
        ("pressure", Statement::Reading(reading)) => Some(vec![&reading.amount.text]),
        ("seal", Statement::Seal(seal)) => Some(vec![&seal.number]),
        ("release" | "hold" | "passed_over", says) => (told_in_full(says) == Some(kind)).then(Vec::new),
        _ => None,
    }
}

/// The kinds whose facts are compared with the entries they cite.
const COMPARED: [&str; 8] = ["car", "site", "paper", "pressure", "seal", "release", "hold", "passed_over"];

/// Checks the first page's facts against its text and the entries.
pub(super) fn check(
    (files, parts): (&Files, &Parts),
    sealed: Option<&Seal>,
    opened: &Opened,
    key: &dyn Trusts,
    report: &mut CheckReport,
) {
    if sealed.and_then(|seal| seal.pages).is_none() {
        return; // of a layout before there were facts
    }
    let Some(bytes) = files.records.get(FRONT) else {
        report.broken(Code::UnreadableAttachment, format!("{FRONT} is not there"));
        return;
    };
    let front = match Front::from_bytes(bytes) {
        Ok(front) => front,
        Err(why) => return report.broken(Code::UnreadableAttachment, why.to_string()),
    };
    let Some(text) = files.records.get(PAGES).and_then(|bytes| std::str::from_utf8(bytes).ok()) else {
        report.broken(Code::UnreadableAttachment, format!("{PAGES} is not there, or no text"));
        return;
    };
    let first = text.split('\u{c}').next().unwrap_or_default();
    let told: String =
        front.facts.iter().map(|fact| without_blanks(&fact.label) + &without_blanks(&fact.text)).collect();
    if without_blanks(first) != told {
        report.broken(Code::AlteredPages, format!("page 1 says something else than {FRONT}"));
    }
    let own_words = sealed.is_some_and(|seal| seal.pages == Some(NOTICES_OF_LAYOUT));
    let strange = |fact: &&Fact| fact.kind == "notice" && !NOTICES.contains(&fact.text.as_str());
    if own_words && front.facts.iter().any(|fact| strange(&fact)) {
        report.broken(Code::AlteredPages, "page 1 has a notice that is none");
    }
    // Where entries are damaged or gone the numbers mean nothing; that was said.
    let damaged = [Code::AlteredEntry, Code::RemovedEntry, Code::ReorderedEntries, Code::ForeignEntry];
    if damaged.iter().any(|code| report.found(*code)) {
        return;
    }
    for wrong in against_entries(&front, (parts, opened), key) {
        report.broken(Code::AlteredPages, format!("page 1: {wrong}"));
    }
}

/// The stay's entries that do not count for their device's sake: not certified, or brought too late.
fn not_of_its_devices(parts: &Parts, opened: &Opened, key: &dyn Trusts) -> BTreeSet<EntryId> {
    let open = |bytes: &serde_bytes::ByteBuf| Certificate::open(bytes, key).ok();
    let certificates: Vec<Certificate> = parts.certificates.certificates.iter().filter_map(open).collect();
    let devices: BTreeSet<DeviceId> = certificates.iter().map(|certificate| certificate.device).collect();
    let received: BTreeMap<EntryId, UtcMillis> =
        parts.log.leaves.iter().map(|leaf| (leaf.entry, leaf.received_at)).collect();
    let authority = Authority::of(certificates, true);
    let late =
        |verdict| matches!(verdict, Verdict::Kept(Kept::AfterRevocation) | Verdict::Kept(Kept::Expired));
    authority
        .stay(opened.list("visit").map(|entry| (entry, received.get(&entry.id).copied())))
        .into_iter()
        .filter(|judged| late(judged.verdict()) || !devices.contains(&judged.entry().device))
        .map(|judged| judged.entry().id)
        .collect()
}

fn against_entries(front: &Front, (parts, opened): (&Parts, &Opened), key: &dyn Trusts) -> Vec<String> {
    let numbered: Vec<&Entry> =
        ["visit", "car", "site", "roster"].iter().flat_map(|l| opened.list(l)).collect();
    let at = |number: u64| numbered.get(usize::try_from(number.checked_sub(1)?).ok()?).copied();
    let mut wrong = Vec::new();
    let mut aside: BTreeSet<EntryId> = not_of_its_devices(parts, opened, key);
    for fact in front.facts.iter().filter(|fact| fact.kind == "aside") {
        aside.extend(fact.cites.iter().filter_map(|number| Some(at(*number)?.id)));
    }
    let standing = Standing::of(opened.list("visit"), aside);
    let mut cited: BTreeMap<&str, BTreeSet<EntryId>> = BTreeMap::new();
    for fact in &front.facts {
        if fact.kind == "organisation" && !reduced(&fact.text).contains(&reduced(&key.root().to_string())) {
            wrong.push("the organisation's key is not the one that sealed it".to_owned());
        }
        for number in &fact.cites {
            let Some(entry) = at(*number) else {
                wrong.push(format!("\u{201c}{}\u{201d} cites No. {number}, which is not there", fact.label));
                continue;
            };
            if !COMPARED.contains(&fact.kind.as_str()) {
                continue;
            }
            let Some(quoted) = quoted(&fact.kind, &entry.body.says) else {
                wrong.push(format!(
                    "\u{201c}{}\u{201d} cites No. {number}, which says something else",
                    fact.label
                ));
                continue;
            };
            cited.entry(fact.kind.as_str()).or_default().insert(entry.id);
            let stay = usize::try_from(*number).is_ok_and(|n| n <= opened.list("visit").count());
            if stay && !standing.stands(entry.id) {
                wrong.push(format!(
                    "\u{201c}{}\u{201d} cites No. {number}, which no longer stands",
                    fact.label
                ));
            }
            for typed in quoted.into_iter().filter(|typed| !quotes(&fact.text, typed)) {
                wrong.push(format!(
                    "\u{201c}{}\u{201d} does not say \u{201c}{typed}\u{201d} of No. {number}",
                    fact.label
                ));
            }
        }
        let begins = match fact.kind.as_str() {
            "release" if fact.cites.is_empty() => "Not released".to_owned(),
            "release" => "Released".to_owned(),
            "hold" | "passed_over" if fact.cites.is_empty() => "None".to_owned(),
            "hold" | "passed_over" => format!("{} ", fact.cites.len()),
            _ => continue,
        };
        if !fact.text.starts_with(&begins) {
            wrong
                .push(format!("\u{201c}{}\u{201d} does not begin with \u{201c}{begins}\u{201d}", fact.label));
        }
    }
    for (number, entry) in (1u64..).zip(opened.list("visit")) {
        let Some(kind) = told_in_full(&entry.body.says).filter(|_| standing.stands(entry.id)) else {
            continue;
        };
        if !cited.get(kind).is_some_and(|cited| cited.contains(&entry.id)) {
            wrong.push(format!(
                "No. {number} says that something was {}, and the page does not",
                kind.replace('_', " ")
            ));
        }
    }
    for kind in ["release", "hold", "passed_over"] {
        let count = front.facts.iter().filter(|fact| fact.kind == kind).count();
        if count != 1 {
            wrong.push(format!("there are {count} facts on {}, one is needed", kind.replace('_', " ")));
        }
    }
    wrong
}
