//! Packets in every language: whatever language people recorded in, the packet is made in the organisation's
//! and verifies.

use farsiding_core::evidence::packet::{
    Code, ENGLISH, FRONT, Front, OWN_WORDS, PAGES, SEAL, Seal, check, seal,
};
use farsiding_core::ids::Digest;
use farsiding_core::procedure::Procedures;
use farsiding_packet::{check_file, first_page, take_apart};
use farsiding_words::{Language, Words};

use super::damage::office;
use super::{PICTURE, held, packet_in, stay, text};

fn front_of(file: &[u8]) -> Front {
    Front::from_bytes(&take_apart(file).unwrap().files.records[FRONT]).unwrap()
}

#[test]
fn a_stay_recorded_in_spanish_and_exported_in_french_verifies() {
    let mut synthetic = stay::record(PICTURE);
    synthetic
        .remark("Se oyó un silbido en la válvula de líquido; se volvió a apretar el tapón. ¿Señal? Ninguna.");
    let key = synthetic.office.key.public();
    let in_french = packet_in(&synthetic, "fr-CA".parse().unwrap());
    let report = check_file(&in_french, &key, None).unwrap();
    assert!(report.all_holds(), "{:?}", report.lines.iter().map(text).collect::<Vec<_>>());
    assert!(held(&report).contains(&Code::Pages), "the pages were drawn again in French: {report:?}");
    let records = take_apart(&in_french).unwrap().files.records;
    let sealed = Seal::open(&records[SEAL], &key).unwrap();
    assert_eq!(sealed.language.as_deref(), Some("fr-CA"));
    let pages = String::from_utf8(records[PAGES].clone()).unwrap();
    let line = pages.replace(['\n', '\u{c}'], " ");
    let line = line.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(line.contains("Annexe A Toutes les entrées du séjour"), "the program's words are French");
    assert!(line.contains("¿Señal?") && line.contains("válvula"), "what was typed stays as typed: {line}");
}

#[test]
fn a_packet_in_each_language_verifies_and_can_be_shown_in_each_other() {
    let synthetic = stay::record(PICTURE);
    let key = synthetic.office.key.public();
    let packets: Vec<(Language, Vec<u8>)> =
        Language::all().map(|language| (language, packet_in(&synthetic, language))).collect();
    for (language, file) in &packets {
        let report = check_file(file, &key, None).unwrap();
        assert!(report.all_holds(), "{language}: {:?}", report.lines.iter().map(text).collect::<Vec<_>>());
        assert!(held(&report).contains(&Code::Pages), "{language}: its pages were drawn again");
        let sealed = Seal::open(&take_apart(file).unwrap().files.records[SEAL], &key).unwrap();
        assert_eq!(sealed.language.as_deref().unwrap_or(ENGLISH), language.as_str());
        assert_eq!(sealed.language.is_none(), *language == Language::ENGLISH);
        // The messages of every packet say the same in another language as the packet made in it.
        for (other, other_file) in &packets {
            let words = Words::of(*other);
            let shown = |file: &[u8]| -> Vec<String> {
                let facts = first_page(file).into_iter();
                facts.map(|said| words.text(&said.label)).collect()
            };
            assert_eq!(shown(file), shown(other_file), "{language} in {other}");
        }
    }
    let notices = |file: &[u8]| -> Vec<String> {
        let facts = front_of(file).facts;
        let notices = facts.into_iter().filter(|fact| fact.kind == "notice");
        notices.map(|fact| Digest::of(fact.text.as_bytes()).to_string()).collect()
    };
    for (language, file) in &packets {
        let own = OWN_WORDS.iter().find(|own| own.language == language.as_str());
        let own = own.unwrap_or_else(|| panic!("FORMAT.md and OWN_WORDS lack {language}"));
        assert_eq!(notices(file), own.notices, "{language}: the notices of this layout are frozen");
        let facts = front_of(file).facts;
        let release = facts.iter().find(|fact| fact.kind == "release").unwrap();
        let begins = if release.cites.is_empty() { own.not_released } else { own.released };
        assert!(release.text.starts_with(begins), "{}", release.text);
        let said = |id: &str| Words::of(*language).say(id);
        assert!(said("packet-not-released").starts_with(own.not_released));
        for id in ["packet-released-see", "packet-released-residue", "packet-released-not-residue"] {
            assert!(said(id).starts_with(own.released), "{language}: {id}");
        }
        assert!(said("packet-none").starts_with(own.none));
    }
}

#[test]
fn a_packet_whose_seal_names_another_language_does_not_hold() {
    let synthetic = stay::record(PICTURE);
    let key = synthetic.office.key.public();
    let file = packet_in(&synthetic, "es-MX".parse().unwrap());
    for language in [None, Some("fr-CA"), Some("xx")] {
        let mut files = take_apart(&file).unwrap().files;
        let sealed = Seal::open(&files.records[SEAL], &key).unwrap();
        let sealed = Seal { language: language.map(str::to_owned), ..sealed };
        files.records.insert(SEAL.to_owned(), seal(&sealed, &office()).unwrap());
        let report = check(&files, &key, None, &Procedures::built_in().unwrap());
        assert!(report.found(Code::AlteredPages), "{language:?}: {report:?}");
    }
}
