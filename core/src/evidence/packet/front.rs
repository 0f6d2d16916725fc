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
use crate::ids::{DeviceId, Digest, EntryId};
use crate::{Arg, Message, message};

/// What a fact says as messages, by which a program can show it in another language.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Said {
    /// The label.
    pub label: Message,
    /// The text, whole.
    pub text: Message,
}

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
    /// The same as messages, the JSON of a [`Said`], since layout 3. Verifiers that do not draw the pages do not
    /// compare it. It is a text because messages may nest deeper than values of CBOR in a packet.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub said: Option<String>,
}

impl Fact {
    /// Returns what the fact says as messages, if it holds them.
    pub fn messages(&self) -> Option<Said> {
        serde_json::from_str(self.said.as_ref()?).ok()
    }
}

impl Said {
    /// Returns the form in which a fact holds it.
    pub fn to_json(&self) -> Option<String> {
        serde_json::to_string(self).ok()
    }
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

/// The language of packets whose seal names none.
pub const ENGLISH: &str = "en-US";

/// The words of the first page that verifiers know, in one language of layout 3. `FORMAT.md` lists them.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct OwnWords {
    /// The language.
    pub language: &'static str,
    /// The SHA-256 of each notice.
    pub notices: [&'static str; 3],
    /// How the release fact begins when the car was released.
    pub released: &'static str,
    /// How the release fact begins when it was not.
    pub not_released: &'static str,
    /// How the facts on holds and on what was passed over begin when there is none.
    pub none: &'static str,
}

/// The languages of layout 3. Another language needs another layout.
pub const OWN_WORDS: [OwnWords; 3] = [
    OwnWords {
        language: ENGLISH,
        notices: [
            "bd50f11b98f75b035b3efbf2d326493d82080318ea423b54d9e85870b537773f",
            "ef16fbf34c35a12fe3fa254935ef71ba8e8e91c7f1fece88ca6299e7d9eafd56",
            "19f2a84c6a9fcedd3b7be210aef68f9ffd630c3ca0310d57afda8caa1c95a841",
        ],
        released: "Released",
        not_released: "Not released",
        none: "None",
    },
    OwnWords {
        language: "es-MX",
        notices: [
            "5c286a5b42a0aa23c115ec517a60b4d315e91bc89d346680069fd29c43311acd",
            "0435dd64cf350d3df3e4e3b0e674dcaede8a4f6b292dcfd783ae64cd352b839b",
            "18d81bc78c37329a681bd216c382728d7a8d76be9ae3c18ec0b9d9c83054fcf3",
        ],
        released: "Liberado",
        not_released: "No liberado",
        none: "Ninguna",
    },
    OwnWords {
        language: "fr-CA",
        notices: [
            "16e903a8e51a23ed9d7f82c48b4a49f7c862ae3285e34d2beaf2bd05ae3c230a",
            "ac8d240416406f8f49734f86b49a26235f57cd4ba997c30e6680b970828eb34c",
            "db268814e2aa682dad623d35a6731837702df68483868c177c51a0b8fd538cdf",
        ],
        released: "Lib\u{e9}r\u{e9}",
        not_released: "Non lib\u{e9}r\u{e9}",
        none: "Aucune",
    },
];

/// The layout with those languages.
const LAYOUT_OF_LANGUAGES: u64 = 3;

/// Returns the words of the language that a seal names; those of American English where it names none.
fn own_words(sealed: &Seal) -> Option<&'static OwnWords> {
    let language = sealed.language.as_deref().unwrap_or(ENGLISH);
    OWN_WORDS.iter().find(|words| words.language == language)
}

/// The sentences of kind `notice` that layout 2 writes. A packet of that layout must not contain others.
const NOTICES: [&str; 3] = [
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
pub fn quotes(text: &str, typed: &str) -> bool {
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
        Statement::PassedOver { .. } | Statement::Overridden { .. } => Some("passed_over"),
        _ => None,
    }
}

/// Returns the texts that a fact of this kind must quote from a cited entry: `None` if the entry is of
/// another kind, and an empty list if nothing must be quoted.
fn quoted<'e>(kind: &str, says: &'e Statement) -> Option<Vec<&'e str>> {
    match (kind, says) {
        ("car", Statement::Opened(opened)) => Some(vec![&opened.car.0]),
        ("car", Statement::CarNumberAgain { car }) => Some(vec![&car.0]),
        ("organisation", Statement::Site(site)) => Some(vec![&site.organisation]),
        ("site", Statement::Site(site)) => Some(vec![&site.name, &site.address]),
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
const COMPARED: [&str; 9] =
    ["organisation", "car", "site", "paper", "pressure", "seal", "release", "hold", "passed_over"];

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
        report.broken(Code::UnreadableAttachment, message!("verify-missing", name = Arg::typed(FRONT)));
        return;
    };
    let front = match Front::from_bytes(bytes) {
        Ok(front) => front,
        Err(why) => return report.broken(Code::UnreadableAttachment, Message::typed(why.to_string())),
    };
    let Some(text) = files.records.get(PAGES).and_then(|bytes| std::str::from_utf8(bytes).ok()) else {
        report.broken(Code::UnreadableAttachment, message!("verify-no-text", name = Arg::typed(PAGES)));
        return;
    };
    let first = text.split('\u{c}').next().unwrap_or_default();
    let told: String =
        front.facts.iter().map(|fact| without_blanks(&fact.label) + &without_blanks(&fact.text)).collect();
    if without_blanks(first) != told {
        report.broken(Code::AlteredPages, message!("verify-front-differs", name = Arg::typed(FRONT)));
    }
    let pages = sealed.and_then(|seal| seal.pages).unwrap_or(1);
    let own = sealed.and_then(own_words);
    let is_notice = |text: &str| match (pages, own) {
        (NOTICES_OF_LAYOUT, _) => NOTICES.contains(&text),
        (LAYOUT_OF_LANGUAGES, Some(own)) => {
            let digest = Digest::of(text.as_bytes()).to_string();
            own.notices.contains(&digest.as_str())
        }
        _ => true,
    };
    if front.facts.iter().any(|fact| fact.kind == "notice" && !is_notice(&fact.text)) {
        report.broken(Code::AlteredPages, message!("verify-strange-notice"));
    }
    if pages == LAYOUT_OF_LANGUAGES && own.is_none() {
        report.broken(Code::AlteredPages, message!("verify-strange-language"));
    }
    // If entries are damaged or missing, their numbers are meaningless; the report already says so.
    let damaged = [Code::AlteredEntry, Code::RemovedEntry, Code::ReorderedEntries, Code::ForeignEntry];
    if damaged.iter().any(|code| report.found(*code)) {
        return;
    }
    for wrong in against_entries(&front, own, (parts, opened), key) {
        report.broken(Code::AlteredPages, message!("verify-first-page", what = wrong));
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

fn against_entries(
    front: &Front,
    own: Option<&OwnWords>,
    (parts, opened): (&Parts, &Opened),
    key: &dyn Trusts,
) -> Vec<Message> {
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
            wrong.push(message!("verify-fact-key"));
        }
        for number in &fact.cites {
            let of = |id: &'static str| {
                let label = Arg::typed(fact.label.as_str());
                Message::new(id).with("label", label).with("number", Arg::typed(number.to_string()))
            };
            let Some(entry) = at(*number) else {
                wrong.push(of("verify-fact-cites-nothing"));
                continue;
            };
            if !COMPARED.contains(&fact.kind.as_str()) {
                continue;
            }
            let Some(quoted) = quoted(&fact.kind, &entry.body.says) else {
                wrong.push(of("verify-fact-cites-other"));
                continue;
            };
            cited.entry(fact.kind.as_str()).or_default().insert(entry.id);
            let stay = usize::try_from(*number).is_ok_and(|n| n <= opened.list("visit").count());
            if stay && !standing.stands(entry.id) {
                wrong.push(of("verify-fact-cites-gone"));
            }
            for typed in quoted.into_iter().filter(|typed| !quotes(&fact.text, typed)) {
                wrong.push(of("verify-fact-does-not-quote").with("typed", Arg::typed(typed)));
            }
        }
        let Some(own) = own else { continue };
        let begins = match fact.kind.as_str() {
            "release" if fact.cites.is_empty() => own.not_released.to_owned(),
            "release" => own.released.to_owned(),
            "hold" | "passed_over" if fact.cites.is_empty() => own.none.to_owned(),
            "hold" | "passed_over" => format!("{} ", fact.cites.len()),
            _ => continue,
        };
        if !fact.text.starts_with(&begins) {
            let (label, begins) = (Arg::typed(fact.label.as_str()), Arg::typed(begins));
            wrong.push(message!("verify-fact-beginning", label = label, beginning = begins));
        }
    }
    for (number, entry) in (1u64..).zip(opened.list("visit")) {
        let Some(kind) = told_in_full(&entry.body.says).filter(|_| standing.stands(entry.id)) else {
            continue;
        };
        if !cited.get(kind).is_some_and(|cited| cited.contains(&entry.id)) {
            let (number, kind) = (Arg::typed(number.to_string()), Message::term("verify-kind", kind));
            wrong.push(message!("verify-fact-left-out", number = number, kind = kind));
        }
    }
    for kind in ["release", "hold", "passed_over"] {
        let count = front.facts.iter().filter(|fact| fact.kind == kind).count();
        if count != 1 {
            let kind = Message::term("verify-kind", kind);
            wrong.push(message!("verify-fact-count", count = count, kind = kind));
        }
    }
    wrong
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::evidence::packet::DESCRIPTION;

    #[test]
    fn the_format_lists_the_words_of_every_language() {
        for own in OWN_WORDS {
            let digests: Vec<String> = own.notices.iter().map(|digest| format!("`{digest}`")).collect();
            let row = format!(
                "| `{}` | `{}` | `{}` | `{}` | {} |",
                own.language,
                own.released,
                own.not_released,
                own.none,
                digests.join(" ")
            );
            assert!(DESCRIPTION.contains(&row), "FORMAT.md lacks {row}");
        }
        for notice in NOTICES {
            assert!(DESCRIPTION.contains(notice), "FORMAT.md lacks a notice of layout 2: {notice}");
        }
    }
}
