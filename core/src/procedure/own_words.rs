//! An organisation's own sentences in the text of a procedure: one for every language, or one for each of some
//! languages. Where it wrote none, the sentence of the edition that the text starts from is kept.
//!
//! `load` reads them with a text, and `edit` writes them.

use std::collections::BTreeMap;

use serde::Deserialize;

use crate::Message;

/// A sentence as it stands in a text.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize)]
#[serde(untagged)]
pub(super) enum OwnWords {
    /// The same in every language.
    One(String),
    /// One for each of some languages, by their tags.
    Each(BTreeMap<String, String>),
}

impl Default for OwnWords {
    fn default() -> OwnWords {
        OwnWords::One(String::new())
    }
}

impl OwnWords {
    /// Returns true if nothing was written.
    pub fn is_empty(&self) -> bool {
        match self {
            OwnWords::One(text) => text.trim().is_empty(),
            OwnWords::Each(texts) => texts.values().all(|text| text.trim().is_empty()),
        }
    }

    /// Returns true if a text is written under something that is no tag of a language.
    pub fn names_no_language(&self) -> bool {
        match self {
            OwnWords::One(_) => false,
            OwnWords::Each(texts) => !texts.keys().all(|tag| is_tag(tag)),
        }
    }

    /// Returns the sentence, or the one that is kept. In a language that it is not written in, the kept one is
    /// shown, and without one the first that was written.
    pub fn or(&self, kept: Option<Message>) -> Option<Message> {
        match self {
            _ if self.is_empty() => kept,
            OwnWords::One(text) => Some(Message::typed(text.as_str())),
            OwnWords::Each(texts) => {
                let written = || texts.iter().filter(|(_, text)| !text.trim().is_empty());
                let otherwise =
                    kept.or_else(|| written().next().map(|(_, text)| Message::typed(text.as_str())));
                let texts = written().map(|(tag, text)| (tag.clone(), text.clone()));
                otherwise.map(|otherwise| Message::in_languages(texts, otherwise))
            }
        }
    }
}

/// Returns true for the tag of a language, such as `en-US`.
fn is_tag(tag: &str) -> bool {
    let mut parts = tag.split('-');
    let main = parts.next().unwrap_or_default();
    (2..=3).contains(&main.len())
        && main.bytes().all(|b| b.is_ascii_lowercase())
        && parts.all(|part| (2..=8).contains(&part.len()) && part.bytes().all(|b| b.is_ascii_alphanumeric()))
}
