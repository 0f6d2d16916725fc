//! Tests that everything that stands in a person's way has its words in every language: open items of the release
//! gate, reasons why an entry does not count, and errors.
#![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]

use std::collections::BTreeSet;

use farsiding_core::Message;
use farsiding_core::authority::{Kept, NotYet, Verdict};
use farsiding_core::book::{BookError, Draft, PinError};
use farsiding_core::clock::{Stamp, UtcMillis};
use farsiding_core::document::DocumentError;
use farsiding_core::entry::car_number::CarNumber;
use farsiding_core::entry::vocabulary::*;
use farsiding_core::entry::{
    Body, CarOutcome, Defect, DeviceKey, Entry, EntryError, Incident, KeyFault, Leak, Opened, Paper, Reading,
    Right, Seal, Statement, WhyWithdrawn,
};
use farsiding_core::ids::{
    DefectId, EntryId, HoldId, IncidentId, LeakId, OperatorId, SiteId, Subject, VisitId,
};
use farsiding_core::procedure::BlockerKind;
use farsiding_core::procedure::Procedures;
use farsiding_core::store::StoreError;
use farsiding_core::sync::{AnswerError, LogContradiction, SyncError};
use farsiding_core::units::{Amount, Unit};
use farsiding_core::view::{Context, Recorded, VisitView, fold};
use farsiding_words::{Language, Words};

const MORNING: i64 = 1_795_528_800_000;

/// Renders a message in every language and fails where a catalogue lacks it or one of its arguments. The texts of two
/// languages differ.
fn said_everywhere(message: &Message) {
    let texts: Vec<String> = Language::all().map(|language| Words::of(language).text(message)).collect();
    for text in &texts {
        assert!(!text.trim().is_empty(), "{message:?} says nothing");
        assert!(!text.contains(['{', '\u{27e8}']), "{message:?}: {text}");
    }
    let different: BTreeSet<&String> = texts.iter().collect();
    assert_eq!(different.len(), texts.len(), "one text in two languages: {texts:?}");
}

fn person() -> OperatorId {
    OperatorId("op-a".to_owned())
}

fn entries(statements: impl IntoIterator<Item = (u8, Statement)>) -> Vec<Entry> {
    let mut seqs = [0_u64; 8];
    let made = statements.into_iter().enumerate().map(|(n, (device, says))| {
        seqs[usize::from(device)] += 1;
        let body = Body {
            about: Subject::Visit(VisitId([7; 16])),
            slot: says.slot(),
            says,
            follows: Vec::new(),
            replaces: Vec::new(),
            why: String::new(),
            by: person(),
            seq: seqs[usize::from(device)],
            prev: None,
            when: Stamp {
                at: UtcMillis(MORNING + i64::try_from(n).unwrap() * 60_000),
                offset_minutes: -360,
                ahead_millis: None,
            },
            place: None,
            seen: None,
            hand: None,
            done: None,
            rests_on: None,
        };
        Entry::seal(body, &DeviceKey::from_secret([device + 1; 32])).unwrap()
    });
    made.collect()
}

fn view(entries: &[Entry], unreadable: usize) -> VisitView {
    let procedures = Procedures::built_in().unwrap();
    let recorded: Vec<Recorded<'_>> = entries.iter().map(Recorded::unsent).collect();
    let context = Context { unreadable, ..Context::at(UtcMillis(MORNING + 86_400_000), &procedures) };
    fold(&recorded, &context)
}

/// A stay in which nearly everything is left undone.
fn neglected() -> Vec<Entry> {
    let fitting = Fitting::LiquidA;
    let procedure = Procedures::built_in().unwrap().default_procedure().unwrap().digest;
    let opened = Opened {
        car: CarNumber("ZZQX 4417".to_owned()),
        site: SiteId([9; 16]),
        receiver: Receiver::Truck,
        procedure,
        spot: "track 2".to_owned(),
        nonce: None,
    };
    let defect = Defect {
        defect: DefectId([2; 16]),
        fitting: None,
        what: "housing bent".to_owned(),
        needs_authority: true,
        photo: None,
    };
    let seal = Seal {
        event: SealEvent::Applied,
        place: SealPlace::HousingPin,
        number: String::new(),
        kind: None,
        intact: false,
        photo: None,
        note: "".into(),
        because: String::new(),
    };
    let closure = |state| Statement::Closure { fitting, state };
    entries([
        (0, Statement::Opened(opened)),
        (0, Statement::Valve { fitting, position: ValvePosition::Shut }),
        (0, Statement::Listen { fitting: Fitting::Vapour, heard: Heard::Hiss }),
        (0, Statement::Line { fitting, connected: true, hose: String::new() }),
        (0, Statement::Threads { fitting, engaged: Amount::read("1", Unit::Turns).0 }),
        (0, Statement::EmptyDecision { accepted: true, grounds: "rod".to_owned() }),
        (0, Statement::EmptySign { sign: EmptySign::LiquidAtClosure, seen: true }),
        (0, Statement::ItemOut { item: "wrench".to_owned(), fitting: None }),
        (0, Statement::Cover { closed: false, pinned: false, bolts_in_place: 1, bolts_required: 4 }),
        (0, Statement::Seal(seal)),
        (0, Statement::Protection { what: Protection::BlueSign, set: false }),
        (0, Statement::Hold { hold: HoldId([1; 16]), because: "leak heard".to_owned() }),
        (0, Statement::Defect(defect)),
        (0, closure(ClosureState::Open)),
        (1, closure(ClosureState::HandTight)),
    ])
}

/// A stay before whose first closure comes out much speaks against it.
fn doubtful(and_then: Vec<(u8, Statement)>) -> Vec<Entry> {
    let procedure = Procedures::built_in().unwrap().default_procedure().unwrap().digest;
    let opened = Opened {
        car: CarNumber("ZZQX 4417".to_owned()),
        site: SiteId([9; 16]),
        receiver: Receiver::FixedTank,
        procedure,
        spot: String::new(),
        nonce: None,
    };
    let reading = |measured, purpose, amount| {
        let place = Place::Car;
        Statement::Reading(Reading { measured, place, purpose, amount, instrument: "G-1".to_owned() })
    };
    let paper = Paper { un_number: "UN1978".to_owned(), product: "Propane".to_owned(), ..Paper::default() };
    let not_right = |step: &str| {
        let (step, outcome, note) = (step.to_owned(), StepOutcome::NotRight, "the lamp is out".to_owned());
        Statement::Step { step, outcome, note }
    };
    let said = [
        (0, Statement::Opened(opened)),
        (0, Statement::Paper(paper)),
        (0, reading(Measured::Temperature, Purpose::Arrival, Amount::of(50.0, Unit::Fahrenheit))),
        (0, reading(Measured::Pressure, Purpose::Arrival, Amount::of(400.0, Unit::PsiGauge))),
        (0, Statement::Check { what: "hoses".into(), right: false, note: "one is worn".to_owned() }),
        (0, not_right("escape_way")),
        (0, not_right("emergency_shut_off")),
        (0, reading(Measured::Pressure, Purpose::Final, Amount::of(30.0, Unit::PsiGauge))),
    ];
    entries(said.into_iter().chain(and_then))
}

/// Trouble of every kind that stops the job, and a car that is refused without a reason.
fn troubled() -> Vec<Entry> {
    let incident = Incident {
        incident: IncidentId([4; 16]),
        source: "hose".into(),
        fitting: None,
        noticed_at: UtcMillis(MORNING),
        injury: None,
        ignition: None,
        evacuation: None,
        closed: None,
        what: String::new(),
    };
    let leak = Leak { leak: LeakId([5; 16]), at: "packing".into(), fitting: None, action: String::new() };
    let because = "refused".into();
    let outcome = CarOutcome { load: CarLoad::Loaded, because, to: String::new(), note: String::new() };
    doubtful(vec![
        (0, Statement::Incident(incident)),
        (0, Statement::Leak(leak)),
        (0, Statement::Outcome(outcome)),
    ])
}

/// The same with a paper for a product that is not taken, and nothing else.
fn of_another_product() -> Vec<Entry> {
    let opened = doubtful(Vec::new()).remove(0);
    let paper = Paper { un_number: "UN1005".to_owned(), ..Paper::default() };
    let mut all = entries([(0, opened.body.says.clone()), (0, Statement::Paper(paper))]);
    all.truncate(2);
    all
}

#[test]
fn every_open_item_has_words_in_every_language() {
    let line = |connected| Statement::Line { fitting: Fitting::LiquidA, connected, hose: String::new() };
    let hurried = doubtful(vec![(0, line(true)), (0, line(false))]);
    let stays = [Vec::new(), neglected(), doubtful(Vec::new()), of_another_product(), hurried, troubled()];
    let views: Vec<VisitView> = stays.iter().map(|stay| view(stay, stay.len().min(2))).collect();
    let mut seen = BTreeSet::new();
    for blocker in views.iter().flat_map(|view| view.blockers.iter().chain(&view.unloading.blockers)) {
        seen.insert(blocker.kind);
        said_everywhere(&blocker.missing);
        said_everywhere(&blocker.kind.term());
        said_everywhere(&blocker.asked_by.term());
        assert!(!Words::english().text(&blocker.source).contains(['{', '\u{27e8}']), "{:?}", blocker.source);
        let text = Words::english().text(&blocker.missing);
        assert!(text.ends_with('.') && text.starts_with(|c: char| !c.is_lowercase()), "{text}");
    }
    // A doubt takes a site's elevation: `view::tests::quantities` brings one.
    seen.insert(BlockerKind::Doubt);
    let lacking: Vec<&BlockerKind> = BlockerKind::ALL.iter().filter(|kind| !seen.contains(kind)).collect();
    assert!(lacking.is_empty(), "no record here brings {lacking:?}");
    for view in &views {
        said_everywhere(&view.release.note);
    }
    for finding in views.iter().flat_map(|view| &view.findings) {
        said_everywhere(&finding.message);
    }
    said_everywhere(&Draft::releasing(&views[5], true).unwrap_err().message());
    let refused = Draft::releasing(&views[1], true).unwrap_err();
    said_everywhere(&refused.message());
    assert!(Words::english().text(&refused.message()).contains("housing bent"), "the open items are named");
}

/// Also holds this list to the enum: a new reason does not compile until it stands here.
fn verdicts() -> Vec<Verdict> {
    let not_yet = [
        NotYet::NoCertificate,
        NotYet::BeforeRevocationUnknown,
        NotYet::SiteUnknown,
        NotYet::ReplacedUnknown,
        NotYet::KindUnknown,
        NotYet::GroundUnknown,
    ];
    for reason in not_yet {
        match reason {
            NotYet::NoCertificate
            | NotYet::BeforeRevocationUnknown
            | NotYet::SiteUnknown
            | NotYet::ReplacedUnknown
            | NotYet::KindUnknown
            | NotYet::GroundUnknown => {}
        }
    }
    let mut kept = vec![
        Kept::NoDevice,
        Kept::AfterRevocation,
        Kept::Expired,
        Kept::OtherSite,
        Kept::NotOwn,
        Kept::Misplaced,
        Kept::GroundFell,
    ];
    kept.extend(Right::ALL.map(Kept::NoRight));
    for reason in &kept {
        match reason {
            Kept::NoDevice
            | Kept::AfterRevocation
            | Kept::Expired
            | Kept::OtherSite
            | Kept::NoRight(_)
            | Kept::NotOwn
            | Kept::Misplaced
            | Kept::GroundFell => {}
        }
    }
    not_yet.map(Verdict::NotChecked).into_iter().chain(kept.into_iter().map(Verdict::Kept)).collect()
}

#[test]
fn every_reason_why_an_entry_does_not_count_has_words_in_every_language() {
    for verdict in verdicts() {
        said_everywhere(&verdict.reason().unwrap());
        if verdict.refused_when_made() {
            assert!(verdict.refusal().is_some(), "{verdict:?} has no English for logs");
            said_everywhere(&BookError::MayNot(verdict).message());
        }
    }
}

fn entry_errors() -> Vec<EntryError> {
    let (key, at) = (DeviceKey::from_secret([1; 32]).public(), UtcMillis(MORNING));
    let mut errors = vec![
        EntryError::NotAnEnvelope,
        EntryError::BadSignature,
        EntryError::WrongSigner,
        EntryError::TooLarge(1 << 20),
        EntryError::BadHand,
        EntryError::NoReason,
    ];
    let faults = [
        KeyFault::Unknown(key),
        KeyFault::Before { key, from: at, at },
        KeyFault::Ended { key, until: at, at },
        KeyFault::Withdrawn { key, why: WhyWithdrawn::Stolen, at },
    ];
    errors.extend(faults.map(EntryError::Key));
    errors
}

#[test]
fn every_error_that_a_person_meets_has_words_in_every_language() {
    let stores = || {
        [
            StoreError::Database("x".to_owned()),
            StoreError::Full,
            StoreError::Busy,
            StoreError::NoPlace("x".to_owned()),
            StoreError::TooNew { found: 9, known: 1 },
        ]
    };
    let text = || "x".to_owned();
    let documents = [
        DocumentError::Unreadable(text()),
        DocumentError::NotGrowOnly(text()),
        DocumentError::WrongKey,
        DocumentError::Entry(EntryError::BadSignature),
        DocumentError::WrongDocument,
        DocumentError::TooLarge(1 << 20),
        DocumentError::DuplicateSequence,
        DocumentError::Library(text()),
    ];
    let syncs = [
        SyncError::NotTheServer(text()),
        SyncError::OtherRequest,
        SyncError::NotEnrolled,
        SyncError::Store(StoreError::Full),
        SyncError::Document(DocumentError::WrongKey),
        SyncError::Entry(EntryError::BadSignature),
        SyncError::StillDiffers(4),
    ];
    let pins = [
        PinError::NotSixDigits,
        PinError::TooEasy,
        PinError::Wrong { left: 1 },
        PinError::Wrong { left: 4 },
        PinError::Wait { until: UtcMillis(MORNING) },
        PinError::Locked,
        PinError::NoKey(person()),
        PinError::HasKey(person()),
        PinError::Ended,
        PinError::NothingBeside,
        PinError::Damaged,
    ];
    let mut all: Vec<BookError> = stores().map(BookError::Store).into();
    all.extend(documents.map(BookError::Document));
    all.extend(entry_errors().into_iter().map(BookError::Entry));
    all.extend(syncs.map(BookError::Sync));
    all.extend(pins.map(BookError::Pin));
    all.extend([BookError::NotHere(text()), BookError::NoOperator]);
    for error in &all {
        said_everywhere(&error.message());
        assert!(!error.to_string().is_empty(), "{error:?} has no English for logs");
    }
    let refusals = [
        AnswerError::Unreadable(EntryError::NotAnEnvelope),
        AnswerError::UnknownDevice,
        AnswerError::Revoked,
        AnswerError::TooMuch("photographs"),
        AnswerError::Store(StoreError::Full),
    ];
    refusals.iter().for_each(|refusal| said_everywhere(&refusal.message()));
    for log in [
        LogContradiction::Rewritten,
        LogContradiction::TwoVersions,
        LogContradiction::Shorter,
        LogContradiction::AnotherLog,
        LogContradiction::EntryMissing,
        LogContradiction::ProofFails,
        LogContradiction::TwoRoots,
    ] {
        said_everywhere(&log.message());
    }
}

#[test]
fn acts_on_a_record_that_has_changed_are_refused_in_every_language() {
    let view = view(&neglected(), 0);
    let nobody = EntryId([0; 32]);
    let refused = [
        Draft::settling(&view, nobody, "why"),
        Draft::reopening(&view, nobody, "why"),
        Draft::withdrawing(&view, nobody, "why"),
        Draft::passing_over(&view, "item_out.shovel", "why"),
    ];
    for draft in refused {
        said_everywhere(&draft.unwrap_err().message());
    }
}
