//! The names of people in packets: exactly those of the people whom the packet names, compared with what the
//! entries commit to, and gone from packets that are made after a name was removed.

use farsiding_core::entry::site_facts::{NameForgotten, Operator};
use farsiding_core::entry::{PersonName, Statement, cbor};
use farsiding_core::evidence::packet::{
    Code, ENTRIES, Entries, Files, Listed, NAMES, NamesFile, PAGES, PhotoFile, SEAL, Seal, check, seal,
};
use farsiding_core::ids::{Digest, OperatorId};
use farsiding_core::procedure::Procedures;
use farsiding_packet::{check_file, take_apart};
use farsiding_testkit::Dice;

use super::damage::office;
use super::{PICTURE, good, packet, stay};

const NAME: &str = "W. Invented";

fn names_in(files: &Files) -> Vec<PersonName> {
    files.records.get(NAMES).map_or_else(Vec::new, |bytes| NamesFile::from_bytes(bytes).unwrap().names)
}

fn without_blanks(bytes: &[u8]) -> String {
    String::from_utf8_lossy(bytes).chars().filter(|c| !c.is_whitespace()).collect()
}

fn person(code: &str, name: &str) -> Statement {
    Statement::Operator(Operator {
        operator: OperatorId(code.to_owned()),
        name: name.to_owned(),
        named: None,
        trained_on: String::new(),
        active: true,
    })
}

#[test]
fn a_packet_holds_the_names_of_those_it_names_and_of_nobody_else() {
    let mut synthetic = stay::record(PICTURE);
    synthetic.on_the_roster(person("FINCH", "F. Elsewhere"));
    let file = packet(&synthetic);
    let files = take_apart(&file).unwrap().files;
    let names = names_in(&files);
    assert_eq!(names.iter().map(|row| row.name.as_str()).collect::<Vec<_>>(), [NAME]);
    assert!(without_blanks(&files.records[PAGES]).contains("W.Invented(WREN)"));
    let report = check_file(&file, &good().1, None).unwrap();
    assert!(report.all_holds(), "{report:?}");
    assert!(report.lines.iter().any(|line| line.code == Code::Names));
    // The name stands in no entry, and nobody who took no part stands anywhere.
    let entries = &files.records[ENTRIES];
    assert!(!entries.windows(NAME.len()).any(|part| part == NAME.as_bytes()));
    assert!(files.records.values().all(|bytes| !without_blanks(bytes).contains("F.Elsewhere")));
}

#[test]
fn a_packet_made_after_a_name_was_removed_shows_the_code_and_holds() {
    let mut synthetic = stay::record(PICTURE);
    let before = packet(&synthetic);
    let named = names_in(&take_apart(&before).unwrap().files)[0].named;
    synthetic.on_the_roster(Statement::NameForgotten(NameForgotten {
        person: OperatorId("WREN".into()),
        named: vec![named],
    }));
    let after = packet(&synthetic);
    let files = take_apart(&after).unwrap().files;
    assert!(names_in(&files).is_empty());
    for (name, bytes) in &files.records {
        assert!(!without_blanks(bytes).contains("W.Invented"), "the name stands in {name}");
    }
    let pages = without_blanks(&files.records[PAGES]);
    assert!(pages.contains("WREN(nameremovedattheoffice)"), "the pages say so");
    for file in [&before, &after] {
        let report = check_file(file, &good().1, None).unwrap();
        assert!(report.all_holds(), "{report:?}");
        assert!(report.lines.iter().any(|line| line.code == Code::Pages), "drawn again and compared");
    }
    // What was signed is what it was.
    let signed =
        |file: &[u8]| Entries::from_bytes(&take_apart(file).unwrap().files.records[ENTRIES]).unwrap();
    let (before, after) = (signed(&before), signed(&after));
    assert_eq!((&before.visit, &before.car, &before.site), (&after.visit, &after.car, &after.site));
    assert!(before.roster.iter().all(|entry| after.roster.contains(entry)));
}

/// Seals the good packet again with other names, as the office itself could.
fn with_names(change: impl FnOnce(&mut Vec<PersonName>)) -> Files {
    let mut files = take_apart(&good().0).unwrap().files;
    let mut names = names_in(&files);
    change(&mut names);
    files.records.insert(NAMES.to_owned(), cbor::encode(&NamesFile { names }).unwrap());
    let sealed = Seal::open(&files.records[SEAL], &good().1).unwrap();
    let photos = files.photos.iter().map(|(name, PhotoFile { sha256, length })| Listed {
        name: name.clone(),
        sha256: *sha256,
        length: *length,
    });
    let records = files.records.iter().filter(|(name, _)| *name != SEAL).map(|(name, bytes)| Listed {
        name: name.clone(),
        sha256: Digest::of(bytes),
        length: bytes.len() as u64,
    });
    let mut attachments: Vec<Listed> = photos.chain(records).collect();
    attachments.sort_by(|a, b| a.name.cmp(&b.name));
    let sealed = Seal { attachments, ..sealed };
    files.records.insert(SEAL.to_owned(), seal(&sealed, &office()).unwrap());
    files.file = Some(sealed.file);
    files
}

#[test]
fn a_false_name_a_strangers_and_one_without_bounds_are_found() {
    let told = |files: &Files| check(files, &good().1, None, &Procedures::built_in().unwrap());
    assert!(told(&with_names(|_| {})).all_holds());
    let altered = told(&with_names(|names| names[0].name = "S. Else".into()));
    assert!(altered.found(Code::AlteredName) && altered.found(Code::AlteredView), "{altered:?}");
    let resalted = told(&with_names(|names| names[0].salt[0] ^= 1));
    assert!(resalted.found(Code::AlteredName), "{resalted:?}");
    let stranger = told(&with_names(|names| {
        names.push(PersonName::of("F. Elsewhere", &mut Dice::of(5)));
        names.sort_unstable();
    }));
    assert!(stranger.found(Code::ForeignName), "{stranger:?}");
    let long = told(&with_names(|names| names[0].name = "x".repeat(1 << 20)));
    assert!(long.found(Code::UnreadableAttachment), "{long:?}");
    let twice = told(&with_names(|names| names.push(names[0].clone())));
    assert!(twice.found(Code::UnreadableAttachment), "{twice:?}");
    let nobody = told(&with_names(Vec::clear));
    assert!(nobody.found(Code::UnreadableAttachment), "{nobody:?}");
}
