//! What every catalogue must be: readable, complete, the same in every language but for its words, and in use.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a failed test says so")]

mod shared;

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

use farsiding_words::{Language, files};
use shared::{Message, messages, sources};

/// Ids that are put together from parts, by the beginning that stands in the source.
fn families(sources: &[(String, String)]) -> BTreeSet<String> {
    let mut families = BTreeSet::new();
    let mut between = |text: &str, before: &str, after: &str, made: fn(&str) -> String| {
        for (at, _) in text.match_indices(before) {
            let rest = &text[at + before.len()..];
            if let Some(end) = rest.find(after)
                && !rest[..end].is_empty()
                && rest[..end].chars().all(|c| c.is_ascii_alphanumeric() || matches!(c, '-' | '_'))
            {
                families.insert(made(&rest[..end]));
            }
        }
    };
    for (_, text) in sources {
        // `Message::term("family", …)`, the vocabularies' `Name as "family" {`, and ids with a part filled in.
        between(text, "term(\"", "\"", |family| format!("{family}-"));
        between(&text.replace(['\n', ' '], ""), "term(\"", "\"", |family| format!("{family}-"));
        // What is passed on to `term`.
        between(text, "known(w, \"", "\"", |family| format!("{family}-"));
        between(text, "Word(\"", "\"", |family| format!("{family}-"));
        // The vocabularies of a row: `CONSTANT "name" "family" words`.
        between(text, "\" \"", "\" ", |family| format!("{family}-"));
        between(text, " as \"", "\" {", |family| format!("{family}-"));
        between(text, "\"", "-{", |family| format!("{family}-"));
        between(text, "`", "-${", |family| format!("{family}-"));
    }
    families
}

#[test]
fn every_file_can_be_read_whole() {
    for language in Language::all() {
        assert!(!files(language).is_empty(), "{language} has no files");
        for (file, text) in files(language) {
            if let Err((_, errors)) = fluent_syntax::parser::parse(*text) {
                panic!("{language}/{file}: {errors:?}");
            }
            assert!(text.starts_with("### "), "{language}/{file} begins by saying what lives in it");
        }
    }
}

#[test]
fn no_id_stands_twice() {
    for language in Language::all() {
        let mut seen: BTreeMap<String, &str> = BTreeMap::new();
        for message in messages(language) {
            if let Some(before) = seen.insert(message.id.clone(), message.file) {
                panic!("{language}: {} stands in {before} and in {}", message.id, message.file);
            }
        }
    }
}

#[test]
fn every_language_has_the_same_ids_with_the_same_arguments() {
    let form = |message: &Message| (message.file, message.id.clone(), message.args.clone());
    let english: BTreeSet<_> = messages(Language::ENGLISH).iter().map(form).collect();
    let mut wrong = Vec::new();
    for language in Language::all() {
        let other: BTreeSet<_> = messages(language).iter().map(form).collect();
        wrong.extend(
            english
                .difference(&other)
                .map(|(file, id, args)| format!("{language} lacks {file}: {id} {args:?}")),
        );
        wrong.extend(
            other
                .difference(&english)
                .map(|(file, id, args)| format!("{language} alone has {file}: {id} {args:?}")),
        );
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn an_id_begins_with_the_topic_of_its_file() {
    for message in messages(Language::ENGLISH) {
        let topic = Path::new(message.file).file_stem().unwrap().to_str().unwrap();
        let free = matches!(topic, "lists-and-units" | "vocabulary" | "record" | "measure");
        let topic = topic.split('-').next().unwrap();
        assert!(free || message.id.starts_with(topic), "{}: {}", message.file, message.id);
    }
}

/// Returns true if an id may be put together from the beginning that stands in a source. Its end stands somewhere
/// in quotes as well: `phone-seal-${place}` says nothing of `phone-seal-number`.
fn is_of(id: &str, family: &str, ends: &BTreeSet<String>) -> bool {
    // What a step or a rule says is put together from several parts of the procedure's file, whose own test
    // compares them.
    let of_procedure = id.starts_with("procedure-");
    id.strip_prefix(family).is_some_and(|end| {
        of_procedure || ends.contains(end) || end.split_once('.').is_some_and(|(end, _)| ends.contains(end))
    })
}

/// What stands in quotes, as `Message::term` writes it into an id.
fn ends(text: &str) -> BTreeSet<String> {
    let mut ends = BTreeSet::new();
    for line in text.lines() {
        for mark in ['"', '\'', '`'] {
            for word in line.split(mark) {
                let term = farsiding_message::Message::term("x", word);
                ends.insert(term.id().trim_start_matches("x-").to_owned());
            }
        }
    }
    ends
}

#[test]
fn a_word_of_a_family_is_used_only_where_its_end_is_a_code() {
    let ends =
        ends("term(\"plastic\"); say('phone-seal-scan'); did(\"signed in\"); // nothing is forgotten here");
    assert!(is_of("phone-seal-plastic", "phone-seal-", &ends));
    assert!(is_of("office-did-signed_in", "office-did-", &ends));
    assert!(is_of("calc_formula-plastic.source", "calc_formula-", &ends));
    for (dead, family) in [
        ("phone-seal-forgotten", "phone-seal-"),
        ("seal_kind-forgotten", "seal_kind-"),
        ("office-papers-forgotten", "office-"),
    ] {
        assert!(!is_of(dead, family, &ends), "{dead}");
    }
}

#[test]
fn no_message_is_unused() {
    let sources = sources();
    assert!(sources.len() > 500, "only {} sources were found", sources.len());
    let families = families(&sources);
    let all: String = sources.iter().map(|(_, text)| text.as_str()).collect::<Vec<_>>().join("\n");
    let ends = ends(&all);
    let quoted: BTreeSet<&str> = all.split(['"', '\'', '`', '\n', ' ']).collect();
    let unused: Vec<String> = messages(Language::ENGLISH)
        .into_iter()
        .map(|message| message.id)
        .filter(|id| !quoted.contains(id.as_str()))
        .filter(|id| !quoted.contains(id.split('.').next().unwrap()))
        .filter(|id| !families.iter().any(|family| is_of(id, family, &ends)))
        .collect();
    assert!(unused.is_empty(), "in the catalogues and in no source:\n{}", unused.join("\n"));
}

#[test]
fn no_message_is_missing() {
    let known: BTreeSet<String> = messages(Language::ENGLISH).into_iter().map(|message| message.id).collect();
    let mut missing = Vec::new();
    for (path, text) in sources() {
        if path.contains("/tests/")
            || path.contains("/unit/")
            || path.contains("_tests.rs")
            || path.ends_with("/tests.rs")
            || path.contains("/core/message/")
            || path.contains("/core/words/")
        {
            continue;
        }
        for before in ["message!(\"", "message!(\n", "Message::new(\"", ".say(\"", " say(\""] {
            for (at, _) in text.match_indices(before) {
                let rest = text[at + before.len()..].trim_start().trim_start_matches('"');
                let id: String = rest
                    .chars()
                    .take_while(|c| c.is_ascii_alphanumeric() || matches!(c, '-' | '_' | '.'))
                    .collect();
                // What ends with `-` is the beginning of an id with a part filled in.
                if id.contains('-') && !id.ends_with('-') && !known.contains(&id) {
                    missing.push(format!("{path}: {id}"));
                }
            }
        }
    }
    assert!(missing.is_empty(), "said and in no catalogue:\n{}", missing.join("\n"));
}
