//! A message: the id of a sentence in the catalogues, and its arguments by name.

use std::borrow::Cow;
use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use crate::Arg;

/// One thing said to people: an id in the catalogues of `farsiding-words`, with the arguments that the sentence has
/// room for. In JSON it is `{"message": id, "args": {name: argument}}`.
///
/// ```
/// use farsiding_message::{Message, Arg, message};
///
/// let said = message!("gate-hold-open", because = Arg::typed("leak at the plug"));
/// assert_eq!(said.id(), "gate-hold-open");
/// ```
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[cfg_attr(feature = "shell-types", derive(ts_rs::TS))]
pub struct Message {
    #[serde(rename = "message")]
    #[cfg_attr(feature = "shell-types", ts(type = "string"))]
    id: Cow<'static, str>,
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    #[cfg_attr(feature = "shell-types", ts(type = "Record<string, Arg>", optional))]
    args: BTreeMap<Cow<'static, str>, Arg>,
}

/// The id of the message that is what a person typed, without a word of ours.
const TYPED: &str = "typed";

/// The id of the message that is what an organisation wrote, in the languages that it wrote it in. Its arguments are
/// named for the languages.
const OWN_WORDS: &str = "own-words";
/// The argument of such a message that is shown in every other language.
const OTHERWISE: &str = "otherwise";

impl Message {
    /// Creates a message without arguments.
    pub const fn new(id: &'static str) -> Message {
        Message { id: Cow::Borrowed(id), args: BTreeMap::new() }
    }

    /// Creates the message for a word of the vocabulary: the id is `family-word`, such as `fitting-liquid_a`, with an
    /// underscore for every run of characters that an id has no room for. Every word of the family stands in the
    /// catalogues.
    pub fn term(family: &'static str, word: &str) -> Message {
        let mut id = format!("{family}-");
        for c in word.chars() {
            match c {
                'a'..='z' | '0'..='9' | '-' => id.push(c),
                _ if id.ends_with('_') => {}
                _ => id.push('_'),
            }
        }
        Message { id: Cow::Owned(id), args: BTreeMap::new() }
    }

    /// Creates a message whose id is put together when the program runs, such as that of a step or
    /// of a gate's rule in a procedure.
    pub fn named(id: String) -> Message {
        Message { id: Cow::Owned(id), args: BTreeMap::new() }
    }

    /// Creates the message that is what a person typed, shown as it is in every language.
    pub fn typed(text: impl Into<String>) -> Message {
        Message::new(TYPED).with("text", Arg::Typed(text.into()))
    }

    /// Creates the message that is what an organisation wrote: a text for each of some languages, by their tags, and
    /// what is shown in the others.
    pub fn in_languages(texts: impl IntoIterator<Item = (String, String)>, otherwise: Message) -> Message {
        let texts = texts.into_iter().map(|(language, text)| (Cow::Owned(language), Arg::Typed(text)));
        Message { id: Cow::Borrowed(OWN_WORDS), args: texts.collect() }.with(OTHERWISE, otherwise)
    }

    /// Returns what such a message says in a language. `None` for every other message.
    pub fn own_words(&self, language: &str) -> Option<&Arg> {
        if self.id != OWN_WORDS {
            return None;
        }
        self.args.get(language).or_else(|| self.args.get(OTHERWISE))
    }

    /// Returns the message with one more argument.
    #[must_use]
    pub fn with(mut self, name: &'static str, arg: impl Into<Arg>) -> Message {
        self.args.insert(Cow::Borrowed(name), arg.into());
        self
    }

    /// Returns true if the message is what a person typed, and that is nothing.
    pub fn is_empty(&self) -> bool {
        self.as_typed().is_some_and(|text| text.trim().is_empty())
    }

    /// Returns the id.
    pub fn id(&self) -> &str {
        &self.id
    }

    /// Returns the arguments in the order of their names.
    pub fn args(&self) -> impl Iterator<Item = (&str, &Arg)> {
        self.args.iter().map(|(name, arg)| (&**name, arg))
    }

    /// Returns an argument by its name.
    pub fn arg(&self, name: &str) -> Option<&Arg> {
        self.args.get(name)
    }

    /// Returns the message for repetition beside another one: each typed text inside is cut to this number of
    /// characters, and each list to a few parts.
    #[must_use]
    pub fn briefly(&self, characters: usize) -> Message {
        const PARTS: usize = 20;
        let cut = |text: &str| match text.char_indices().nth(characters) {
            Some((end, _)) => format!("{}\u{2026}", &text[..end]),
            None => text.to_owned(),
        };
        let brief = |arg: &Arg| match arg {
            Arg::Typed(text) => Arg::Typed(cut(text)),
            Arg::Amount { typed, value, unit, named, echoed } => Arg::Amount {
                typed: cut(typed),
                value: value.clone(),
                unit: unit.clone(),
                named: *named,
                echoed: *echoed,
            },
            Arg::Says(message) => Arg::Says(Box::new(message.briefly(characters))),
            Arg::List { joint, items } => {
                let more = (items.len() > PARTS).then(|| Message::typed("\u{2026}"));
                let items =
                    items.iter().take(PARTS).map(|item| item.briefly(characters)).chain(more).collect();
                Arg::List { joint: *joint, items }
            }
            other => other.clone(),
        };
        Message {
            id: self.id.clone(),
            args: self.args.iter().map(|(name, arg)| (name.clone(), brief(arg))).collect(),
        }
    }

    /// Returns what the person typed, if the message is nothing else.
    pub fn as_typed(&self) -> Option<&str> {
        match (&*self.id, self.args.get("text")) {
            (TYPED, Some(Arg::Typed(text))) => Some(text),
            _ => None,
        }
    }
}

/// Nothing typed.
impl Default for Message {
    fn default() -> Message {
        Message::typed("")
    }
}

/// Makes a [`Message`] from its id and named arguments, each of which is anything that becomes an [`Arg`](crate::Arg).
///
/// ```
/// use farsiding_message::{Arg, message};
///
/// let said = message!("tally-out", count = 2_u64, item = Arg::typed("plug"));
/// assert_eq!(said.args().count(), 2);
/// ```
#[macro_export]
macro_rules! message {
    ($id:literal $(, $name:ident = $arg:expr)* $(,)?) => {
        $crate::Message::new($id)$(.with(stringify!($name), $arg))*
    };
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]
    use super::*;

    #[test]
    fn a_word_with_blanks_becomes_an_id() {
        let term = Message::term("checked", "hoses: service and test date");
        assert_eq!(term.id(), "checked-hoses_service_and_test_date");
    }

    #[test]
    fn the_json_form_is_frozen() {
        let said = message!(
            "tally-out",
            count = 2_u64,
            item = Arg::typed("plug"),
            fitting = Message::term("fitting", "liquid_a"),
            amount = Arg::Amount {
                typed: "12,5".into(),
                value: Some("12.5".into()),
                unit: "psi_gauge".into(),
                named: false,
                echoed: false
            },
        );
        let json = serde_json::to_string(&said).unwrap();
        assert_eq!(
            json,
            r#"{"message":"tally-out","args":{"amount":{"amount":{"typed":"12,5","value":"12.5","unit":"psi_gauge"}},"count":{"count":2},"fitting":{"says":{"message":"fitting-liquid_a"}},"item":{"typed":"plug"}}}"#
        );
        assert_eq!(serde_json::from_str::<Message>(&json).unwrap(), said);
    }
}
