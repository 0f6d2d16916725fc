//! A packet holds the procedure under which its stay was begun and, in its language, the procedure's sentences.
//! Both digests are named, and a packet that was sealed with others does not hold.

use farsiding_core::evidence::packet::{
    Code, Files, Listed, PAGES, PROCEDURE, PROCEDURE_WORDS, PhotoFile, SEAL, Seal, check, seal,
};
use farsiding_core::ids::Digest;
use farsiding_core::procedure::{BUILT_IN, Procedures};
use farsiding_packet::{check_file, take_apart};
use farsiding_words::Language;

use super::damage::office;
use super::{PICTURE, good, packet_in, stay, text};

fn sentences(language: Language) -> &'static str {
    let named = |(name, _): &&(&str, &str)| *name == "procedure-pressure-car-lpg-2.ftl";
    farsiding_words::files(language).iter().find(named).unwrap().1
}

#[test]
fn a_packet_names_the_procedure_and_the_sentences_that_its_reader_had() {
    let synthetic = stay::record(PICTURE);
    let key = synthetic.office.key.public();
    let meaning = Digest::of(BUILT_IN[BUILT_IN.len() - 1].as_bytes());
    let mut seen = std::collections::BTreeSet::new();
    for language in Language::all() {
        let file = packet_in(&synthetic, language);
        let files = take_apart(&file).unwrap().files;
        let words = Digest::of(sentences(language).as_bytes());
        assert_eq!(files.photos[PROCEDURE].sha256, meaning, "one meaning in every language");
        assert_eq!(files.photos[PROCEDURE_WORDS].sha256, words, "{language}");
        assert!(seen.insert(words), "each language has sentences of its own");
        let report = check_file(&file, &key, None).unwrap();
        let lines: Vec<String> = report.lines.iter().map(text).collect();
        assert!(report.all_holds(), "{lines:?}");
        let both = |line: &String| line.contains(&meaning.to_string()) && line.contains(&words.to_string());
        assert!(lines.iter().any(both), "{lines:?}");
        let pages = String::from_utf8(files.records[PAGES].clone()).unwrap();
        let pages: String = pages.chars().filter(|c| !c.is_whitespace()).collect();
        for digest in [meaning, words] {
            let parts = digest.to_string();
            assert!(pages.contains(&parts[..16]), "{language}: {digest} stands on no page");
        }
    }
}

/// Seals the good packet again after a change of its list of attachments.
fn resealed(change: impl FnOnce(&mut Files)) -> Files {
    let mut files = take_apart(&good().0).unwrap().files;
    change(&mut files);
    let sealed = Seal::open(&files.records[SEAL], &good().1).unwrap();
    let listed = |(name, file): (&String, &PhotoFile)| Listed {
        name: name.clone(),
        sha256: file.sha256,
        length: file.length,
    };
    let mut attachments: Vec<Listed> = files.photos.iter().map(listed).collect();
    let is_record = |one: &&Listed| files.records.contains_key(&one.name);
    attachments.extend(sealed.attachments.iter().filter(is_record).cloned());
    attachments.sort_by(|a, b| a.name.cmp(&b.name));
    let sealed = Seal { attachments, ..sealed };
    files.records.insert(SEAL.to_owned(), seal(&sealed, &office()).unwrap());
    files.file = Some(sealed.file);
    files
}

#[test]
fn another_procedure_than_the_one_the_stay_was_begun_under_is_found() {
    let told = |files: &Files| check(files, &good().1, None, &Procedures::built_in().unwrap());
    assert!(!told(&resealed(|_| {})).found(Code::AlteredAttachment));
    let first = Digest::of(BUILT_IN[0].as_bytes());
    let swapped = resealed(|files| {
        files.photos.entry(PROCEDURE.to_owned()).and_modify(|file| file.sha256 = first);
    });
    assert!(told(&swapped).found(Code::AlteredAttachment), "the first edition in the place of the second");
    let alone = resealed(|files| {
        files.photos.remove(PROCEDURE);
    });
    assert!(told(&alone).found(Code::AlteredAttachment), "sentences without their procedure");
}
