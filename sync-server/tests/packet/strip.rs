//! The steps on paper, read back with pdftotext (poppler-utils): every step in order, every number with its unit,
//! every page with what it is, nothing beyond the edges, in every language.

use std::process::Command;

use farsiding_core::book::Snapshot;
use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::vocabulary::Receiver;
use farsiding_core::procedure::{Fill, Procedures, built_in};
use farsiding_packet::strip::{Strip, pdf};
use farsiding_words::{Language, Words};

use super::{PICTURE, stay};

const AT: UtcMillis = UtcMillis(1_796_000_000_000);
const ZONE: &str = "America/Chicago";

/// Runs pdftotext over a file and returns what it prints.
fn pdftotext(file: &[u8], how: &[&str]) -> String {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("strip.pdf");
    std::fs::write(&path, file).unwrap();
    let run = Command::new("pdftotext").args(how).arg(&path).arg("-").output();
    let run = run.unwrap_or_else(|error| panic!("pdftotext (poppler-utils) is needed: {error}"));
    assert!(run.status.success(), "{}", String::from_utf8_lossy(&run.stderr));
    String::from_utf8(run.stdout).unwrap()
}

/// A text with one blank between words, as it is found on paper.
fn flat(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

fn blank(receiver: Receiver) -> Strip {
    Strip::blank(built_in().last().unwrap(), "Lantern Spur (invented)", "Call the yard first.", receiver)
}

/// Every step, one after another, with what to do, its cautions and its places.
fn holds_every_step(strip: &Strip, file: &[u8], language: Language) {
    let words = Words::of(language);
    let text = flat(&pdftotext(file, &["-raw"]));
    let titles: Vec<String> = strip
        .steps
        .iter()
        .enumerate()
        .map(|(at, step)| flat(&format!("{}. {}", at + 1, words.text(&step.title))))
        .collect();
    let mut at = 0;
    let mut places = Vec::new();
    for title in &titles {
        let found = text[at..].find(title.as_str());
        at += found
            .unwrap_or_else(|| panic!("{language}: \u{201c}{title}\u{201d} is not there, or before others"));
        places.push(at);
    }
    places.push(text.len());
    for (step, part) in strip.steps.iter().zip(places.windows(2)) {
        let part = &text[part[0]..part[1]];
        let said = |message| flat(&words.text(message));
        if step.known.is_some() && step.places.is_empty() {
            continue;
        }
        // A step that goes over the end of a column has the foot of the one and the head of the other in it.
        let whole = |sentence: &str| {
            let all = sentence.split(' ').all(|word| part.contains(word));
            assert!(all, "{language}: \u{201c}{sentence}\u{201d} is not in {part}");
        };
        whole(&said(&step.what_to_do));
        step.cautions.iter().for_each(|caution| whole(&said(caution)));
        let mut units = std::collections::BTreeMap::<String, usize>::new();
        for place in &step.places {
            whole(&said(&place.label).chars().skip(1).collect::<String>());
            match &place.fill {
                Fill::Number(unit) => {
                    *units.entry(words.say(&format!("unit-{}", unit.word()))).or_default() += 1
                }
                Fill::Choice(choices) => choices.iter().for_each(|choice| whole(&said(choice))),
                _ => {}
            }
        }
        for (unit, count) in units.iter().filter(|(unit, _)| !unit.is_empty()) {
            let there = part.matches(unit.as_str()).count();
            assert!(there >= *count, "{language}: {there} of {count} {unit} in {part}");
        }
    }
}

/// Nothing is cut at the edges, and no word crosses the middle where the strips are cut apart.
fn stays_within_its_columns(file: &[u8]) {
    let bounds = pdftotext(file, &["-bbox"]);
    let number = |line: &str, name: &str| -> f64 {
        let (_, rest) = line.split_once(&format!("{name}=\"")).unwrap();
        rest.split('"').next().unwrap().parse().unwrap()
    };
    let (mut width, mut height, mut words) = (0.0, 0.0, 0);
    for line in bounds.lines().map(str::trim) {
        if line.starts_with("<page ") {
            (width, height) = (number(line, "width"), number(line, "height"));
        } else if line.starts_with("<word ") {
            let (left, right) = (number(line, "xMin"), number(line, "xMax"));
            let (top, bottom) = (number(line, "yMin"), number(line, "yMax"));
            let middle = width / 2.0;
            assert!(left >= 18.0 && right <= width - 18.0, "cut at a side: {line}");
            assert!(top >= 18.0 && bottom <= height - 18.0, "cut above or below: {line}");
            assert!(right < middle - 8.0 || left > middle + 8.0, "in the cut: {line}");
            words += 1;
        }
    }
    assert!(words > 1_000, "{words} words");
}

#[test]
fn a_blank_strip_names_every_step_in_order_with_every_unit_in_every_language() {
    for language in Language::all() {
        for receiver in Receiver::ALL {
            let strip = blank(*receiver);
            let file = pdf(&strip, language, ZONE, AT).unwrap();
            holds_every_step(&strip, &file, language);
            stays_within_its_columns(&file);
        }
    }
}

#[test]
fn every_column_says_what_it_is_and_what_comes_first() {
    for language in Language::all() {
        let strip = blank(Receiver::FixedTank);
        let words = Words::of(language);
        let file = pdf(&strip, language, ZONE, AT).unwrap();
        let text = flat(&pdftotext(&file, &["-raw"]));
        let edition = flat(&words.text(&strip.procedure));
        let digest = strip.digest.to_string();
        let pages = pdftotext(&file, &["-raw"]).matches('\u{c}').count();
        let columns = text.matches(digest.as_str()).count();
        assert!(columns > pages && columns <= 2 * pages, "{columns} columns on {pages} pages");
        for said in [
            edition.as_str(),
            strip.site.as_str(),
            &words.say("phone-strip-aid"),
            &words.say("phone-strip-first"),
        ] {
            assert_eq!(text.matches(&flat(said)).count(), columns, "{language}: {said}");
        }
        assert!(text.contains("Call the yard first."));
        let last = words.text(&farsiding_core::message!(
            "phone-strip-page",
            page = farsiding_core::Arg::typed(pages.to_string()),
            pages = farsiding_core::Arg::typed(pages.to_string())
        ));
        assert!(text.contains(&flat(&last)), "{last}");
    }
}

#[test]
fn what_is_recorded_is_ticked_and_what_is_open_has_its_places() {
    let synthetic = stay::record(PICTURE);
    let key = synthetic.office.key.public();
    let procedures = Procedures::built_in().unwrap();
    let gathered = Snapshot::read(&synthetic.office.store, Some(&key), AT).unwrap();
    let view = gathered.view(synthetic.visit, &procedures).unwrap();
    let strip = Strip::of_visit(&view, AT);
    let titles: Vec<_> = view.steps.steps.iter().map(|step| step.title.clone()).collect();
    assert_eq!(strip.steps.iter().map(|step| step.title.clone()).collect::<Vec<_>>(), titles);
    assert_eq!(Some(strip.digest), view.header.procedure);
    let file = pdf(&strip, Language::ENGLISH, ZONE, AT).unwrap();
    holds_every_step(&strip, &file, Language::ENGLISH);
    stays_within_its_columns(&file);
    let text = flat(&pdftotext(&file, &["-raw"]));
    assert!(text.contains(&view.header.car) && text.contains("Ticked as recorded"), "{text}");
    let (closed, open): (Vec<_>, Vec<_>) = strip.steps.iter().partition(|step| step.known.is_some());
    assert!(!closed.is_empty() && !open.is_empty());
    let by = |step: &farsiding_core::view::StepView| {
        step.said.as_ref().map(|said| format!("{}, {}", said.name, said.shown))
    };
    for step in view.steps.steps.iter().filter(|step| step.status.is_closed()) {
        if let Some(by) = by(step) {
            assert!(text.contains(&flat(&by)), "{}: {by}", step.id);
        }
    }
}

#[test]
fn a_site_with_a_long_name_and_a_step_of_many_words_are_not_cut() {
    let mut strip = blank(Receiver::Truck);
    strip.site =
        "A siding whose name was meant for a much wider sheet of paper than this one (invented) ".repeat(3);
    strip.local_rules = "Hold the rail. ".repeat(60);
    strip.car = "ZZQX 48213".to_owned();
    let file = pdf(&strip, Language::ENGLISH, "Europe/Berlin", AT).unwrap();
    stays_within_its_columns(&file);
    holds_every_step(&strip, &file, Language::ENGLISH);
}
