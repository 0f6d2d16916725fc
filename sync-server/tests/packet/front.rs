//! Changes of the first page by somebody who holds the organisation's key. Text and facts agree with each
//! other but not with the entries, which is found without drawing the pages.

use farsiding_core::evidence::packet::{
    CheckReport, Code, FRONT, Fact, Files, Front, PAGES, SEAL, Seal, check, seal,
};
use farsiding_core::ids::Digest;
use farsiding_core::procedure::Procedures;
use farsiding_packet::take_apart;

use super::damage::office;
use super::good;

/// Returns the report on the good packet's records with other facts and matching text, sealed again.
fn told(change: impl FnOnce(&mut Vec<Fact>)) -> CheckReport {
    let mut files: Files = take_apart(&good().0).unwrap().files;
    let mut front = Front::from_bytes(&files.records[FRONT]).unwrap();
    change(&mut front.facts);
    let pages = String::from_utf8(files.records[PAGES].clone()).unwrap();
    let first: Vec<String> =
        front.facts.iter().map(|fact| format!("{}\n{}", fact.label, fact.text)).collect();
    let pages: Vec<&str> = pages.split('\u{c}').skip(1).collect();
    let pages = [&[first.join("\n").as_str()], pages.as_slice()].concat().join("\u{c}");
    files.records.insert(FRONT.to_owned(), front.to_bytes().unwrap());
    files.records.insert(PAGES.to_owned(), pages.into_bytes());
    let mut sealed = Seal::open(&files.records[SEAL], &good().1).unwrap();
    for listed in &mut sealed.attachments {
        if let Some(bytes) = files.records.get(&listed.name) {
            (listed.sha256, listed.length) = (Digest::of(bytes), bytes.len() as u64);
        }
    }
    files.records.insert(SEAL.to_owned(), seal(&sealed, &office()).unwrap());
    check(&files, &good().1, None, &Procedures::built_in().unwrap())
}

/// Returns the report after changing the fact of a kind.
fn changed(kind: &str, change: impl FnOnce(&mut Fact)) -> CheckReport {
    told(|facts| change(facts.iter_mut().find(|fact| fact.kind == kind).unwrap()))
}

fn named(report: &CheckReport, words: &str) {
    let lines: Vec<String> =
        report.lines.iter().filter(|l| l.code == Code::AlteredPages).map(super::text).collect();
    assert!(lines.iter().any(|line| line.contains(words)), "{words:?} is not among {lines:?}");
}

#[test]
fn what_the_page_says_of_the_entries_is_held_against_them() {
    assert!(told(|_| {}).all_holds(), "{:?}", told(|_| {}));
    named(&changed("release", |fact| fact.text = "Released as residue".into()), "does not begin with");
    named(&changed("pressure", |fact| fact.text = "0 psi".into()), "does not say \u{201c}12\u{201d}");
    named(&changed("seal", |fact| fact.text = "none was found".into()), "S-0001");
    named(&changed("car", |fact| fact.text = "ZZQX 121".into()), "ZZQX 120");
    named(&changed("site", |fact| fact.text = "Another Siding".into()), "Synthetic Siding");
    named(
        &changed("site", |fact| fact.text = fact.text.replace("4 Invented Road", "5 Invented Road")),
        "4 Invented Road",
    );
    let renamed = |fact: &mut Fact| fact.text = fact.text.replace("An invented organisation", "Another one");
    named(&changed("organisation", renamed), "An invented organisation");
    named(&changed("organisation", |fact| fact.cites = vec![1]), "says something else");
    named(&changed("paper", |fact| fact.text = fact.text.replace("30,120", "31,120")), "30,120");
    named(&changed("car", |fact| fact.cites.push(99_999)), "which is not there");
    named(&changed("pressure", |fact| fact.cites.push(1)), "says something else");
    named(&changed("organisation", |fact| fact.text = "ab".repeat(32)), "organization's key");
    named(&changed("notice", |fact| fact.text = "This car is safe.".into()), "notice");
    named(&told(|facts| facts.retain(|fact| fact.kind != "hold")), "one is needed: hold");
}

#[test]
fn a_reading_that_was_corrected_is_not_the_final_one() {
    // The first of the two final readings was "21"; it is replaced by "12".
    let report = told(|facts| {
        let standing = facts.iter().find(|fact| fact.kind == "pressure").unwrap().cites[0];
        let pressure = facts.iter_mut().find(|fact| fact.kind == "pressure").unwrap();
        (pressure.text, pressure.cites) = ("21 psi".into(), (1..standing).collect());
    });
    named(&report, "no longer stands");
}

#[test]
fn a_hold_that_was_called_is_not_kept_quiet() {
    named(
        &changed("hold", |fact| (fact.text, fact.cites) = ("None.".into(), Vec::new())),
        "leaves out: hold",
    );
}

#[test]
fn a_fact_that_the_page_does_not_say_and_one_more_on_the_page_are_named() {
    let mut files: Files = take_apart(&good().0).unwrap().files;
    let mut pages = files.records[PAGES].clone();
    pages.splice(0..0, b"NOT released: liquid found\n".iter().copied());
    files.records.insert(PAGES.to_owned(), pages);
    named(
        &check(&files, &good().1, None, &Procedures::built_in().unwrap()),
        "something else than front.cbor",
    );
}
