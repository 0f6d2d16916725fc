//! The content of a packet's first page as facts that name the entries they are based on, and the checks of
//! these facts that do not require folding the record.
//!
//! The pages themselves are drawn, and drawn again for verification, by `farsiding-server`'s `packet`; this
//! module covers what a verifier can determine from the attachments. The second verifier follows the same
//! rules from `FORMAT.md`.

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

/// One statement of the first page.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Fact {
    /// The kind of the fact, one of the words in `FORMAT.md`. Verifiers skip unknown kinds.
    pub kind: String,
    /// The label in front of the fact on the page.
    pub label: String,
    /// The text on the page.
    pub text: String,
    /// The numbers of the entries on which the fact is based.
    pub cites: Vec<u64>,
}

/// The content of `front.cbor`.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Front {
    /// The facts in the order of the page.
    pub facts: Vec<Fact>,
}

impl Front {
    /// Reads `front.cbor`.
    ///
    /// # Errors
    /// [`PartsError::Unreadable`] if the bytes do not have this form.
    pub fn from_bytes(bytes: &[u8]) -> Result<Front, PartsError> {
        read(FRONT, bytes)
    }

    /// Returns the encoding.
    ///
    /// # Errors
    /// [`PartsError::Unwritable`] if encoding fails.
    pub fn to_bytes(&self) -> Result<Vec<u8>, PartsError> {
        write(self)
    }
}

/// The sentences of kind `notice` that this version writes. A packet of this layout must not contain others.
pub const NOTICES: [&str; 3] = [
    "This is what people recorded while a pressurised tank car stood at a siding. The organisation named below \
     keeps the record and sealed this file.",
    "It does not prove that a scene was as claimed, that a photograph shows the car it is said to show, or that a \
     time claimed by a device is true: those are the words of whoever made the entry. What the organisation left \
     out of its record altogether, no file can show.",
    "Farsiding records and computes. It never declares a car safe, empty or fit to move. Local codes, the owner's \
     instructions and licensed practice come first.",
];

/// The layout version to which these notices belong.
const NOTICES_OF_LAYOUT: u64 = 2;

/// Removes the characters that count as blanks in the text of the first page.
fn without_blanks(text: &str) -> String {
    text.chars().filter(|c| !matches!(c, ' ' | '\n' | '\u{c}')).collect()
}

/// Returns the ASCII letters in lower case, the digits and the full stops of a text, and drops everything
/// else.
fn reduced(text: &str) -> String {
    text.chars().filter(|c| c.is_ascii_alphanumeric() || *c == '.').map(|c| c.to_ascii_lowercase()).collect()
}

/// The longest quotation compared, in characters. Longer ones are shortened on the page.
const LONGEST_QUOTATION: usize = 40;

/// Returns true if the text contains what was typed in an entry. Long texts, and texts other than plain
/// ASCII, are not compared.
fn quotes(text: &str, typed: &str) -> bool {
    let typed = typed.trim();
    let plain = typed.chars().all(|c| matches!(c, ' '..='~'));
    !plain || typed.len() > LONGEST_QUOTATION || reduced(text).contains(&reduced(typed))
}

/// The entries of a stay that stand, as far as this can be determined without a fold: from the replacements
/// among them.
#[derive(Debug, Default)]
pub struct Standing<'e> {
    replacing: BTreeMap<EntryId, Vec<&'e Entry>>,
    aside: BTreeSet<EntryId>,
    taken_back: BTreeSet<EntryId>,
}

impl<'e> Standing<'e> {
    /// Determines the standing entries of a stay; those in `aside` do not count.
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

    /// Returns true if an entry counts and no counting entry replaces it. A settlement that keeps the entry
    /// does not replace it, and neither does a withdrawn one.
    pub fn stands(&self, entry: EntryId) -> bool {
        let leaves = |by: &&Entry| match by.body.says {
            Statement::Agreement { keeps } => keeps == entry || self.taken_back.contains(&by.id),
            _ => false,
        };
        !self.aside.contains(&entry) && self.replacing.get(&entry).is_none_or(|by| by.iter().all(leaves))
    }
}

/// Returns the kind of fact that must cite every standing entry of this statement's kind, or `None` for other
/// statements.
pub fn told_in_full(says: &Statement) -> Option<&'static str> {
    match says {
        Statement::Released { .. } => Some("release"),
        Statement::Hold { .. } => Some("hold"),
        Statement::PassedOver { .. } => Some("passed_over"),
        _ => None,
    }
}

/// Returns the texts that a fact of this kind must quote from a cited entry: `None` if the entry is of
/// another kind, and an empty list if nothing must be quoted.
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

/// The kinds of facts that are compared with the entries they cite.
const COMPARED: [&str; 8] = ["car", "site", "paper", "pressure", "seal", "release", "hold", "passed_over"];

/// Checks the facts of the first page against its text and the entries.
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
    // If entries are damaged or missing, their numbers are meaningless; the report already says so.
    let damaged = [Code::AlteredEntry, Code::RemovedEntry, Code::ReorderedEntries, Code::ForeignEntry];
    if damaged.iter().any(|code| report.found(*code)) {
        return;
    }
    for wrong in against_entries(&front, (parts, opened), key) {
        report.broken(Code::AlteredPages, format!("page 1: {wrong}"));
    }
}

/// Returns the stay's entries that do not count because of their device: it has no certificate, or they
/// arrived too late.
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
