//! The printed page of a visit: it reads from the state to the event log, with units and cautions, and nothing that
//! somebody typed can begin a line of its own.

#![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]

use farsiding_core::book::{Book, BookParts, Draft, OpenVisit};
use farsiding_core::clock::{HandSetClock, UtcMillis};
use farsiding_core::entry::vocabulary::{Fitting, Measured, Place, Purpose, Receiver};
use farsiding_core::entry::{DeviceKey, Reading, Statement};
use farsiding_core::ids::{HoldId, OperatorId, SiteId, Subject, VisitId};
use farsiding_core::procedure::Procedures;
use farsiding_core::store::MemoryStore;
use farsiding_core::text::acts_outside;
use farsiding_core::units::{Amount, DecimalMark, Unit};
use farsiding_printed::show;
use farsiding_testkit::Dice;
use farsiding_words::Words;

fn op() -> OperatorId {
    OperatorId("op-1".into())
}

fn begun() -> (Book, VisitId) {
    let mut book = Book::open(BookParts {
        store: Box::new(MemoryStore::new()),
        key: DeviceKey::from_secret([3; 32]),
        clock: Box::new(HandSetClock::at(UtcMillis(1_790_000_000_000), -360)),
        randomness: Box::new(Dice::of(0)),
    });
    let visit = OpenVisit {
        car: "ZZQX 4417".into(),
        site: SiteId([4; 16]),
        receiver: Receiver::FixedTank,
        procedure: Procedures::built_in().unwrap().default_procedure().unwrap().digest,
        spot: "1".into(),
    };
    let visit = book.open_visit(visit, &op()).unwrap();
    (book, visit)
}

fn printed(book: &Book, visit: VisitId) -> String {
    printed_in(book, visit, "en-US")
}

fn printed_in(book: &Book, visit: VisitId, language: &str) -> String {
    let view = book.gather().unwrap().view(visit, &Procedures::built_in().unwrap()).unwrap();
    show(&view, Words::of(language.parse().unwrap()))
}

#[test]
fn the_page_reads_from_state_to_event_log_with_units_and_cautions() {
    let (mut book, visit) = begun();
    let early = printed(&book, visit);
    for expected in ["ZZQX 4417", "NEXT", "Why: ", "still open: ", "closure not tool-tight (liquid valve A)"]
    {
        assert!(early.contains(expected), "{expected} is not on the page:\n{early}");
    }
    let (at_hand, rest) = early.split_once("FIT TO RELEASE").unwrap();
    assert!(
        at_hand.contains("MISSING: Shipping paper not recorded"),
        "the gate at hand, item by item:\n{early}"
    );
    assert!(!rest.contains("MISSING:"), "the rest of the job is named in a few lines:\n{early}");
    let read = Statement::Reading(Reading {
        measured: Measured::Pressure,
        place: Place::Car,
        purpose: Purpose::Final,
        amount: Amount::of(38.0, Unit::PsiGauge),
        instrument: "LG-1".into(),
    });
    let line = Statement::Line { fitting: Fitting::LiquidA, connected: true, hose: String::new() };
    let released = Statement::Released { as_residue: true };
    let drafts = [read, line, released].map(Draft::of).to_vec();
    book.append(Subject::Visit(visit), drafts, &op()).unwrap();
    let page = printed(&book, visit);
    for expected in [
        "final pressure (car): 38 psig, on LG-1",
        "MISSING: Line not recorded as disconnected (liquid valve A)",
        "asked for by practice",
        "text read 2026-11-28; check the current text",
        "It does not declare the car safe.",
    ] {
        assert!(page.contains(expected), "{expected} is not on the page:\n{page}");
    }
}

#[test]
fn what_is_typed_neither_begins_a_line_nor_turns_the_text() {
    let (mut book, visit) = begun();
    let turning = "A\u{202e}desaeler\u{202c}\u{1b}[2J\nReleased as residue.";
    let drafts = vec![
        Draft::of(Statement::Remark { text: turning.into() }),
        Draft::of(Statement::Hold { hold: HoldId([1; 16]), because: turning.into() }),
        Draft::of(Statement::Check { what: turning.into(), right: false, note: turning.into() }),
    ];
    book.append(Subject::Visit(visit), drafts, &op()).unwrap();
    let page = printed(&book, visit);
    assert!(!page.chars().any(|c| acts_outside(c) && c != '\n'), "{page:?}");
    assert!(!page.lines().any(|line| line.trim_start().starts_with("Released as residue")), "{page}");
}

#[test]
fn every_line_is_in_the_readers_language_and_says_the_same() {
    let (mut book, visit) = begun();
    let read = Statement::Reading(Reading {
        measured: Measured::Pressure,
        place: Place::Car,
        purpose: Purpose::Final,
        amount: Amount::typed("38,5", Unit::PsiGauge, Some(DecimalMark::Comma)).unwrap(),
        instrument: "LG-1".into(),
    });
    let line = Statement::Line { fitting: Fitting::LiquidA, connected: true, hose: "H-7".into() };
    let wrong = Statement::Check { what: "hose".into(), right: false, note: "cut".into() };
    let hold = Statement::Hold { hold: HoldId([1; 16]), because: "smell of gas".into() };
    book.append(Subject::Visit(visit), [read, line, wrong, hold].map(Draft::of).to_vec(), &op()).unwrap();
    let english = printed(&book, visit);
    // In the made-up language whatever is of a catalogue stands in brackets; the first line is the car's number.
    for line in printed_in(&book, visit, "en-XA").lines().skip(1).filter(|line| !line.trim().is_empty()) {
        assert!(line.contains('['), "of no catalogue: {line}");
    }
    for (language, says) in [
        ("es-MX", ["RETENCIÓN: smell of gas", "LÍNEA CONECTADA (manguera H-7)", "38,5 psi (man.), en LG-1"]),
        (
            "fr-CA",
            ["RETENUE : smell of gas", "CONDUITE RACCORDÉE (flexible H-7)", "38,5 lb/po² (man.), sur LG-1"],
        ),
    ] {
        let page = printed_in(&book, visit, language);
        for says in says {
            assert!(page.contains(says), "{says} is not on the page:\n{page}");
        }
        assert_eq!(page.lines().count(), english.lines().count(), "{page}");
        assert!(!page.contains("MISSING") && !page.contains("because"), "{page}");
    }
}
