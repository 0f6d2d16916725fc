//! The lines of the packet for every kind of statement that a person records of a stay: the sentence stands on the pages,
//! and says every text, amount and word that was given.

use farsiding_core::book::Snapshot;
use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::StatementKind;
use farsiding_core::entry::spec::{Field, Shape, TypedIn};
use farsiding_core::evidence::packet::PAGES;
use farsiding_core::procedure::Procedures;
use farsiding_packet::take_apart;
use farsiding_words::Words;
use serde_json::Value;

use super::{PICTURE, good, packet, stay};

/// A text with one blank between words, as it is found on pages.
fn flat(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// What the sentence must say of a field, from its example; nothing for ids, times, and yes and no, whose words are the
/// sentence's own.
fn said_of(field: &Field, value: &Value) -> Option<String> {
    let words = Words::english();
    match field.shape {
        Shape::Text | Shape::Prose | Shape::CarNumber | Shape::Date => value.as_str().map(str::to_owned),
        Shape::Amount(_) | Shape::AmountOf(_) => Some("12.5".to_owned()),
        Shape::Word(vocabulary) => value.as_str().map(|word| words.text(&(vocabulary.message)(word))),
        _ => None,
    }
}

/// Fields of which the sentence says something else than their example: the step by its title, a number in its normal
/// form, or nothing because other fields decide.
const OTHERWISE: &[&str] = &[];

#[test]
fn the_packet_has_a_line_for_every_kind_that_says_all_that_was_recorded() {
    let mut synthetic = stay::record(PICTURE);
    let kinds: Vec<StatementKind> = StatementKind::ALL
        .iter()
        .copied()
        .filter(|kind| kind.spec().typed_in == Some(TypedIn::Visit) && kind.spec().word != "opened")
        .collect();
    for kind in &kinds {
        synthetic.says(kind.example().unwrap());
    }
    let key = synthetic.office.key.public();
    let gathered = Snapshot::read(&synthetic.office.store, Some(&key), UtcMillis(1_800_000_000_000)).unwrap();
    let view = gathered.view(synthetic.visit, &Procedures::built_in().unwrap()).unwrap();
    let records = take_apart(&packet(&synthetic)).unwrap().files.records;
    let pages = flat(&String::from_utf8(records[PAGES].clone()).unwrap());
    let (words, mut without) = (Words::english(), Vec::new());
    let ours = view.history.len() - kinds.len();
    for (kind, line) in kinds.iter().zip(&view.history[ours..]) {
        let spec = kind.spec();
        let sentence = flat(&words.text(&line.sentence));
        if !pages.contains(&sentence) {
            without.push(format!("{}: \u{201c}{sentence}\u{201d} is on no page", spec.word));
        }
        let given = serde_json::to_value(kind.example().unwrap()).unwrap();
        for field in spec.asked() {
            let name = format!("{}.{}", spec.word, field.name);
            let said = said_of(field, &given[spec.word][field.name]);
            let told = |said: String| sentence.to_lowercase().contains(&flat(&said).to_lowercase());
            if !said.is_none_or(told) && !OTHERWISE.contains(&name.as_str()) {
                without.push(format!("{name} is not in \u{201c}{sentence}\u{201d}"));
            }
        }
    }
    assert!(kinds.len() > 40, "{} kinds", kinds.len());
    assert!(without.is_empty(), "{}", without.join("\n"));
}

/// What stands under "Claimed" is what the device claimed; where its clock was found to be wrong, the corrected time stands
/// beside it.
#[test]
fn a_claimed_time_is_the_devices_own() {
    let records = take_apart(&good().0).unwrap().files.records;
    let pages = String::from_utf8(records[PAGES].clone()).unwrap();
    // The second phone of the stay is seven minutes ahead.
    let told: Vec<&str> = pages.lines().filter(|line| line.contains("corrected: ")).collect();
    assert!(!told.is_empty(), "nothing is corrected");
    assert!(
        flat(&pages).contains("08:25 -06 = 14:25 UTC corrected: 2026-11-24 08:18 -06 = 14:18 UTC"),
        "{told:?}"
    );
}
