//! Farsiding words: the catalogues of every language, and messages rendered from them.
//!
//! `locales` holds one folder a language with Project Fluent files; `build.rs` lists them, so a language is added by
//! one folder. The phone reads the same files with its own renderer (`bindings/phone/src/words`), and a test compares
//! what both make of the same messages. What a message is stands in `farsiding-message`.

mod language;
mod numbers;
mod words;

pub use language::{Language, LanguageError};
pub use words::Words;

/// Returns a message in American English, the language of the command line and of logs.
///
/// ```
/// use farsiding_message::Message;
///
/// assert_eq!(farsiding_words::english(&Message::term("fitting", "liquid_a")), "liquid valve A");
/// ```
pub fn english(message: &farsiding_message::Message) -> String {
    Words::english().text(message)
}

/// Every catalogue: the language, and its files by name.
static CATALOGUES: &[(&str, &[(&str, &str)])] = include!(concat!(env!("OUT_DIR"), "/catalogues.rs"));

/// Returns the files of a language, each with its name and text; nothing for the pseudo-language.
pub fn files(language: Language) -> &'static [(&'static str, &'static str)] {
    CATALOGUES.iter().find(|(name, _)| *name == language.as_str()).map_or(&[], |(_, files)| files)
}
