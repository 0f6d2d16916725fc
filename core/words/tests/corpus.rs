//! The messages of `tests/golden/words/corpus.json` have the text that stands there in every language. The phone's own
//! renderer reads the same file (`bindings/phone/unit/render.test.mjs`), so that both say the same.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a failed test says so")]

use std::collections::BTreeMap;
use std::path::Path;

use farsiding_message::Message;
use farsiding_words::{Language, Words};
use serde::Deserialize;

#[derive(Deserialize)]
struct Case {
    name: String,
    message: Message,
    text: BTreeMap<String, String>,
}

#[test]
fn every_message_of_the_corpus_is_rendered_as_it_stands_there() {
    let file = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/golden/words/corpus.json");
    let cases: Vec<Case> = serde_json::from_str(&std::fs::read_to_string(file).unwrap()).unwrap();
    assert!(cases.len() > 20, "only {} messages", cases.len());
    let mut wrong = Vec::new();
    for case in &cases {
        for language in Language::all().chain([Language::PSEUDO]) {
            let Some(expected) = case.text.get(language.as_str()) else {
                panic!("{}: no text in {language}", case.name)
            };
            let text = Words::of(language).text(&case.message);
            if text != *expected {
                wrong.push(format!("{} in {language}: {text:?}, not {expected:?}", case.name));
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}
