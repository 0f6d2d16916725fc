//! Translations follow the glossary (`glossary.toml`): a word of the trade is the trade's word in every language, and words that would say
//! something else do not occur.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a failed test says so")]

mod shared;

use std::collections::BTreeMap;

use farsiding_words::Language;
use serde::Deserialize;
use shared::messages;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Glossary {
    term: Vec<Term>,
    never: Vec<Never>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Term {
    en: Vec<String>,
    #[serde(default)]
    exact: bool,
    es: Vec<String>,
    fr: Vec<String>,
    #[serde(default)]
    free: Vec<String>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Never {
    language: String,
    word: String,
    says: String,
    #[serde(default)]
    except: Vec<String>,
    #[serde(default)]
    within: Vec<String>,
}

/// Returns true if the word stands in the text with no letter beside it.
fn has_word(text: &str, word: &str) -> bool {
    text.match_indices(word).any(|(at, _)| {
        let letter = |c: Option<char>| c.is_some_and(|c| c.is_alphanumeric());
        !letter(text[..at].chars().next_back()) && !letter(text[at + word.len()..].chars().next())
    })
}

#[test]
fn translations_use_the_words_of_the_glossary() {
    let glossary: Glossary = toml::from_str(include_str!("../glossary.toml")).unwrap();
    let texts = |tag: &str| -> BTreeMap<String, String> {
        messages(tag.parse::<Language>().unwrap()).into_iter().map(|m| (m.id, m.text)).collect()
    };
    let (english, spanish, french) = (texts("en-US"), texts("es-MX"), texts("fr-CA"));
    let mut wrong = Vec::new();
    for term in &glossary.term {
        for id in &term.free {
            assert!(english.contains_key(id), "{id} is free of {:?} and does not exist", term.en);
        }
        for (id, text) in &english {
            let text = if term.exact { text.clone() } else { text.to_lowercase() };
            if term.free.contains(id) || !term.en.iter().any(|word| has_word(&text, word)) {
                continue;
            }
            for (language, others, wanted) in [("es-MX", &spanish, &term.es), ("fr-CA", &french, &term.fr)] {
                let other = others.get(id).map(|t| t.to_lowercase()).unwrap_or_default();
                if !wanted.iter().any(|stem| other.contains(&stem.to_lowercase())) {
                    wrong.push(format!("{language} {id}: {:?} is {wanted:?}, not in: {other}", term.en));
                }
            }
        }
    }
    assert!(wrong.is_empty(), "{} places:\n{}", wrong.len(), wrong.join("\n"));
}

#[test]
fn no_translation_uses_a_false_friend() {
    let glossary: Glossary = toml::from_str(include_str!("../glossary.toml")).unwrap();
    let mut wrong = Vec::new();
    for never in &glossary.never {
        for message in messages(never.language.parse::<Language>().unwrap()) {
            let mut text = message.text.to_lowercase();
            for phrase in &never.within {
                text = text.replace(phrase.as_str(), "");
            }
            let plural = format!("{}s", never.word);
            if !never.except.contains(&message.id)
                && (has_word(&text, &never.word) || has_word(&text, &plural))
            {
                wrong
                    .push(format!("{} {}: \"{}\" is {}", never.language, message.id, never.word, never.says));
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}
