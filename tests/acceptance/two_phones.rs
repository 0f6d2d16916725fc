//! The whole job by hand: two phones without signal at one car, one server, one record.

use crate::job::{CLOSING, UNLOADING};
use crate::stage::{Device, Server};

#[test]
fn two_phones_disagree_meet_settle_and_the_released_record_says_so() {
    let folder = tempfile::tempdir().unwrap();
    let server = Server::in_folder(folder.path());
    let first = Device::enrolled(&server, &folder.path().join("phone-1"), "ash");
    let second = Device::of_operator(&server, &folder.path().join("phone-2"), "birch");
    first.yes(&["person", "ash", "Ash"]);
    first.yes(&["person", "birch", "Birch"]);

    // One opens the visit by hand and brings it up to the decision; the other fetches it.
    let visit = first.open("ZZQX 4417");
    first.records(&visit, UNLOADING);
    first.yes(&["sync"]);
    second.yes(&["sync"]);
    assert_eq!(second.view("4417")["entries"], first.view("4417")["entries"]);

    // No signal from here. One closes the car and reads 38.5; the other reads 44 elsewhere.
    // The last round comes after both, as it must after anything that could disturb a closure.
    let round = CLOSING.iter().rposition(|line| *line == "valve liquid_a shut").unwrap();
    first.records(&visit, &CLOSING[..round]);
    second.yes(&["add", "4417", "reading", "pressure", "car", "final", "44 psi", "PG-1"]);
    first.records(&visit, &CLOSING[round..]);
    assert!(first.missing(&visit).is_empty(), "alone, each knows of no disagreement");

    // They meet through the server: both readings stand, and the car does not go.
    first.yes(&["sync"]);
    let told = second.yes(&["sync"]);
    assert_eq!(told["unreceipted_entries"], 0);
    first.yes(&["sync"]);
    for phone in [&first, &second] {
        assert_eq!(phone.missing("4417"), ["disagreement.reading/final/pressure/car"]);
        let page = phone.words(&["show", "4417"]);
        assert!(page.contains("38.5 psi, on LG-1. — Ash,"), "{page}");
        assert!(page.contains("44 psi, on PG-1. — Birch,"), "{page}");
        phone.no(3, &["release", "4417"]);
    }

    // It is settled with a reason, on the other phone than the one that is kept.
    let view = second.view("4417");
    let claims = view["disagreements"][0]["claims"].as_array().unwrap().clone();
    let kept = claims.iter().find(|claim| claim["said"]["by"] == "ash").unwrap();
    let kept = kept["said"]["entry"].as_str().unwrap().to_owned();
    let why = "read together on the low-range gauge";
    second.no(3, &["settle", "4417", "--keep", &kept, "--why", " "]);
    second.yes(&["settle", "4417", "--keep", &kept, "--why", why]);
    second.yes(&["release", "4417"]);
    second.yes(&["sync"]);
    first.yes(&["sync"]);

    // Months later anybody reads, on any device, what stood and why.
    let page = first.words(&["show", "4417"]);
    for sentence in [
        "ZZQX 4417",
        "Invented Spur · 2 · into a fixed tank",
        "UN1978 Propane (from the paper)",
        "0 not yet at the office",
        "Released as residue — Birch,",
        "Tally: nothing is out.",
        "final pressure (car): 38.5 psi, on LG-1",
        "settled: Resolved, keeping \u{201c}Reading, final pressure (car): 38.5 psi, on LG-1.\u{201d}. — Birch,",
        "because: read together on the low-range gauge",
        "Nothing that this record looks for is missing, or all of it was overridden.",
        "liquid valve A: valve closed, closure tool-tight, no leak heard after it was closed, line off, 5 turns engaged",
        "housing cover: closed, pin in, 4 of 4 bolts in place",
        "housing pin now: K1, cable, applied, whole",
        "Liquid as gauged, net at 60 °F: ",
        "Residue as vapor, liquid equivalent at 60 °F: ",
        "It does not declare the car safe.",
    ] {
        assert!(page.contains(sentence), "\"{sentence}\" is not on the page:\n{page}");
    }
    assert!(!page.contains("MISSING"), "{page}");
    let (mine, theirs) = (first.view("4417"), second.view("4417"));
    let entries = |view: &serde_json::Value| -> Vec<String> {
        let lines = view["history"].as_array().unwrap().iter();
        lines.map(|line| line["said"]["entry"].as_str().unwrap().to_owned()).collect()
    };
    assert_eq!(entries(&mine), entries(&theirs), "both phones hold the same record in the same order");
}
