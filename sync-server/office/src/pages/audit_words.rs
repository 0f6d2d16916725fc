//! The rows of the audit in the reader's language.
//!
//! The stored words belong to the audit's chain and are never changed: they are translated only where they
//! are shown. What was written by a later version, or typed by a person, is shown as it is stored.

use farsiding_core::ids::{Digest, VisitId};
use farsiding_core::{Arg, Message, message};
use farsiding_words::Words;
use maud::{Markup, html};

use crate::audit_chain::Looked;

/// Returns the words for a stored text, if the text is one that this version writes.
fn known(w: &Words, family: &'static str, stored: &str) -> Option<String> {
    let says = Message::term(family, stored);
    w.knows(says.id()).then(|| w.text(&says))
}

/// Returns what somebody did.
pub fn did(w: &Words, stored: &str) -> String {
    let entry = |entry: &str| Arg::typed(entry);
    if let Some(late) = stored.strip_prefix("let in late entry ") {
        return w.text(&message!("office-audit-let-in", entry = entry(late)));
    }
    if let Some(late) = stored.strip_prefix("took back letting in late entry ") {
        return w.text(&message!("office-audit-took-back", entry = entry(late)));
    }
    known(w, "office-did", stored).unwrap_or_else(|| stored.to_owned())
}

/// Returns who did it. Beside people, the program itself and its command line are named.
pub fn who(w: &Words, row: &Looked) -> String {
    // An account may have any name, but not with these roles.
    let a_program = row.role.is_empty() || row.who == "the server's command line";
    known(w, "office-who", &row.who).filter(|_| a_program).unwrap_or_else(|| row.who.clone())
}

/// Returns the role of whoever did it.
pub fn role(w: &Words, stored: &str) -> String {
    known(w, "office-role", stored).unwrap_or_else(|| stored.to_owned())
}

/// Returns what it was done to. A visit is a link to its record.
pub fn subject(w: &Words, row: &Looked) -> Markup {
    let visit = row.subject.strip_prefix("visit:").and_then(|id| VisitId::read(id).ok());
    let photo = row.subject.strip_prefix("photo:").and_then(|rest| rest.split_once(" visit:"));
    let photo =
        photo.and_then(|(photo, visit)| Some((Digest::read(photo).ok()?, VisitId::read(visit).ok()?)));
    html! {
        @match (visit, photo) {
            (_, Some((photo, visit))) => {
                a href={ "/office/visits/" (visit) } { (w.text(&message!("office-accounts-photograph", photograph = Arg::typed(photo.short()), record = Arg::typed(visit.short())))) }
            }
            (Some(visit), _) => { a href={ "/office/visits/" (visit) } { (record(w, visit)) } }
            (None, None) if row.subject.is_empty() => { "—" }
            (None, None) => { (named(w, row)) }
        }
    }
}

/// Returns the words for a record, by its short id.
pub fn record(w: &Words, visit: VisitId) -> String {
    w.text(&message!("office-accounts-record", record = Arg::typed(visit.short())))
}

/// Returns a subject that is no record: a page by its name, a thing by its kind and the beginning of its id.
fn named(w: &Words, row: &Looked) -> String {
    let typed_by_a_person = matches!(row.did.as_str(), "looked for" | "made a code for");
    let text = row.subject.as_str();
    if typed_by_a_person {
        return text.to_owned();
    }
    match text.split_once(':') {
        Some((of, id)) => {
            let digest = id.len() >= 32 && id.bytes().all(|b| b.is_ascii_hexdigit());
            // An account is written with its role: "account:Name (clerk)".
            let with_role =
                id.strip_suffix(')').and_then(|id| id.rsplit_once(" (")).filter(|_| of == "account");
            let what = match with_role {
                Some((name, word)) => format!("{name} ({})", role(w, word)),
                None if digest => id.get(..8).unwrap_or(id).to_owned(),
                None => id.to_owned(),
            };
            let says = Message::term("office-subject", of).with("what", Arg::typed(what));
            if w.knows(says.id()) { w.text(&says) } else { text.to_owned() }
        }
        None => known(w, "office-on", text).unwrap_or_else(|| text.to_owned()),
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]
    use super::*;
    use std::path::Path;

    fn sources(folder: &Path, found: &mut Vec<String>) {
        for file in std::fs::read_dir(folder).unwrap() {
            let path = file.unwrap().path();
            if path.is_dir() {
                sources(&path, found);
            } else if path.extension().is_some_and(|ending| ending == "rs") {
                found.push(std::fs::read_to_string(path).unwrap());
            }
        }
    }

    #[test]
    fn every_act_that_the_pages_write_has_words() {
        let mut files = Vec::new();
        sources(&Path::new(env!("CARGO_MANIFEST_DIR")).join("src"), &mut files);
        let (w, mut seen) = (Words::english(), 0);
        for text in files {
            let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
            for before in
                ["note(&office, &user, \"", "note(&office, &own.user, \"", "note(office, &own.user, \""]
            {
                for (at, _) in text.match_indices(before) {
                    let act = text[at + before.len()..].split('"').next().unwrap();
                    assert!(known(w, "office-did", act).is_some(), "{act}");
                    seen += 1;
                }
            }
        }
        assert!(seen > 30, "{seen} acts were found");
    }

    #[test]
    fn a_row_is_shown_in_the_readers_language_and_typed_words_as_they_are() {
        let french = Words::of("fr-CA".parse().unwrap());
        let row = |who: &str, role: &str, did: &str, subject: &str| Looked {
            at: farsiding_core::clock::UtcMillis(0),
            who: who.into(),
            role: role.into(),
            did: did.into(),
            subject: subject.into(),
        };
        assert_eq!(did(french, "signed in"), "s’est connecté");
        assert_eq!(did(french, "of a later version"), "of a later version");
        assert_eq!(did(french, "let in late entry ab12"), "a admis l’entrée tardive ab12");
        assert_eq!(subject(french, &row("A", "clerk", "looked", "devices")).into_string(), "appareils");
        assert_eq!(subject(french, &row("A", "clerk", "looked for", "devices")).into_string(), "devices");
        assert_eq!(who(french, &row("retention", "clerk", "looked", "")), "retention");
        assert_eq!(who(french, &row("retention", "", "looked", "")), "conservation des données");
    }
}
