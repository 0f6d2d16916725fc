//! The languages: those with a folder of catalogues, and one that is made up for tests.

use std::fmt;
use std::str::FromStr;

use crate::CATALOGUES;

/// A language with catalogues, as a BCP 47 tag such as `es-MX`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Language(&'static str);

/// No language has this name.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("\"{0}\" is no language of this program")]
pub struct LanguageError(String);

impl Language {
    /// American English, the language that every other one is compared with.
    pub const ENGLISH: Language = Language("en-US");

    /// The made-up language: English that is longer, accented and in brackets. It is not offered to people; tests
    /// choose it to find text that is cut off or not in the catalogues.
    pub const PSEUDO: Language = Language("en-XA");

    /// Returns every language with catalogues, in the order of their tags.
    pub fn all() -> impl Iterator<Item = Language> {
        CATALOGUES.iter().map(|(name, _)| Language(name))
    }

    /// Returns the tag.
    pub const fn as_str(self) -> &'static str {
        self.0
    }

    /// Returns the direction in which the language is written, as HTML and the browser name it.
    pub fn direction(self) -> &'static str {
        // The main languages whose usual script runs from right to left.
        const RIGHT_TO_LEFT: [&str; 7] = ["ar", "ckb", "fa", "he", "ps", "ur", "yi"];
        if RIGHT_TO_LEFT.contains(&main(self.0).as_str()) { "rtl" } else { "ltr" }
    }

    /// Returns the best language for a list of wishes as in the header `Accept-Language`: the first wish that
    /// is a language here, or whose main language is. Weights other than the order are not read.
    ///
    /// ```
    /// use farsiding_words::Language;
    ///
    /// assert_eq!(Language::wished("fr-FR,fr;q=0.9,en;q=0.5").unwrap().as_str(), "fr-CA");
    /// assert_eq!(Language::wished("de"), None);
    /// ```
    pub fn wished(header: &str) -> Option<Language> {
        header
            .split(',')
            .filter_map(|wish| wish.split(';').next())
            .map(str::trim)
            .find_map(|wish| wish.parse().ok().or_else(|| Language::all().find(|l| main(l.0) == main(wish))))
    }
}

/// Returns the main language of a tag, in lower case.
fn main(tag: &str) -> String {
    tag.split('-').next().unwrap_or_default().to_ascii_lowercase()
}

impl fmt::Display for Language {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.0)
    }
}

impl FromStr for Language {
    type Err = LanguageError;

    fn from_str(tag: &str) -> Result<Language, LanguageError> {
        Language::all()
            .chain([Language::PSEUDO])
            .find(|language| language.0.eq_ignore_ascii_case(tag))
            .ok_or_else(|| LanguageError(tag.to_owned()))
    }
}
