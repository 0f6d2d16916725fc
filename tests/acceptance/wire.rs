//! The wire format, frozen: one signed example of every kind of statement, written with a fixed key at a fixed
//! time, and every word of the vocabulary.
//!
//! Today's code must write each file of `tests/golden/entries` byte for byte and read it again, because
//! records signed years ago are read by it. **A file there is never changed or removed.** A new kind of
//! statement gets a new example from its row: run
//! `FARSIDING_ADD_GOLDEN=1 cargo test -p farsiding-tests wire`, which writes files that are missing and
//! touches no other. A field that is added to a kind gets a further example beside the old one, and a word
//! added to the vocabulary a further line in `tests/golden/words.txt`, in the same way.

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

use farsiding_core::clock::{Stamp, UtcMillis};
use farsiding_core::entry::car_number::CarNumber;
use farsiding_core::entry::site_facts::{
    Contact, Hose, Instrument, KeyKept, Operator, PersonKey, Rules, SealStock, SiteProfile, Tank, Unlocking,
};
use farsiding_core::entry::spec::TypedIn;
use farsiding_core::entry::vocabulary as v;
use farsiding_core::entry::{
    Body, Defect, DeviceKey, Entry, LastEntry, Opened, Paper, PersonSigner, Reading, Right, Seal, Statement,
    StatementKind, TruckLoad,
};
use farsiding_core::entry::{cbor, coded};
use farsiding_core::ids::{
    DefectId, DeviceId, Digest, EntryId, HoldId, OperatorId, OrganisationId, SiteId, Subject, VisitId,
    VisitNonce,
};
use farsiding_core::procedure::BlockerKind;
use farsiding_core::units::{Amount, Unit};

const VISIT: Subject = Subject::Visit(VisitId([0x11; 16]));
const SITE: Subject = Subject::Site(SiteId([0x22; 16]));
const ROSTER: Subject = Subject::Roster(OrganisationId([0x33; 16]));
const DEFECT: DefectId = DefectId([0x44; 16]);
const HOLD: HoldId = HoldId([0x55; 16]);
const ENTRY: EntryId = EntryId([0x66; 32]);
const PHOTO: Digest = Digest([0x77; 32]);
/// 2026-11-24T14:00:00Z.
const AT: UtcMillis = UtcMillis(1_795_528_800_000);

fn amount(text: &str, unit: Unit) -> Amount {
    Amount::read(text, unit).0
}

fn body(about: Subject, says: Statement) -> Body {
    Body {
        about,
        slot: says.slot(),
        says,
        follows: Vec::new(),
        replaces: Vec::new(),
        why: String::new(),
        by: OperatorId("ash".to_owned()),
        seq: 7,
        prev: Some(ENTRY),
        when: Stamp { at: AT, offset_minutes: -360, ahead_millis: Some(-1500) },
        place: None,
        seen: None,
        hand: None,
        done: None,
        rests_on: None,
    }
}

fn opened(nonce: Option<VisitNonce>) -> Statement {
    Statement::Opened(Opened {
        car: CarNumber("ZZQX 4417".to_owned()),
        site: SiteId([0x22; 16]),
        receiver: v::Receiver::FixedTank,
        procedure: Digest([0x88; 32]),
        spot: "track 2".to_owned(),
        nonce,
    })
}

/// Statements of the roster since people have keys of their own.
fn of_people() -> Vec<Statement> {
    let (person, key) = (OperatorId("ash".to_owned()), DeviceId([0xcc; 32]));
    vec![
        Statement::PersonKey(PersonKey { person: person.clone(), key, kept: KeyKept::Pin }),
        Statement::PersonKeyConfirmed { person: person.clone(), key },
        Statement::PersonKeyEnded { person, key, last: Some(LastEntry { seq: 12, entry: ENTRY }) },
        Statement::Rules(Rules {
            operator_rights: Some(vec![Right::Record, Right::Read]),
            unlocking: Unlocking::Shift,
            signature_required: true,
        }),
    ]
}

fn of_stays_since_rights() -> Vec<Statement> {
    vec![Statement::HeldBy { person: OperatorId("ash".to_owned()) }, Statement::Admitted { entry: ENTRY }]
}

fn of_visit() -> Vec<Statement> {
    let text = str::to_owned;
    vec![
        opened(None),
        Statement::Paper(Paper {
            number: text("A-1"),
            car: text("ZZQX 4417"),
            shipper: text("Invented Terminal"),
            un_number: text("UN1978"),
            product: text("Propane"),
            billed: Some(amount("29 340 gal", Unit::Gallon)),
            relative_density: Some(amount("0.507", Unit::One)),
            odorised: Some(true),
            ..Paper::default()
        }),
        Statement::Clock { event: v::ClockEvent::ActualPlacement, at: AT },
        Statement::Reading(Reading {
            measured: v::Measured::Pressure,
            place: v::Place::Car,
            purpose: v::Purpose::Final,
            amount: amount("38.5 psi", Unit::PsiGauge),
            instrument: text("LG-12"),
        }),
        Statement::Step {
            step: text("bleed.liquid_a"),
            outcome: v::StepOutcome::Skipped,
            note: text("no bleed"),
        },
        Statement::Valve { fitting: v::Fitting::LiquidA, position: v::ValvePosition::Shut },
        Statement::Closure { fitting: v::Fitting::LiquidA, state: v::ClosureState::ToolTight },
        Statement::Listen { fitting: v::Fitting::LiquidA, heard: v::Heard::Quiet },
        Statement::Line { fitting: v::Fitting::Vapour, connected: true, hose: text("H-103") },
        Statement::Effort {
            fitting: v::Fitting::LiquidB,
            part: v::Part::Valve,
            amount: amount("58", Unit::FootPound),
        },
        Statement::Threads { fitting: v::Fitting::LiquidB, engaged: amount("0,75", Unit::Turns) },
        Statement::ItemOut { item: text("adapter liquid a"), fitting: Some(v::Fitting::LiquidA) },
        Statement::ItemIn { item: text("adapter liquid a") },
        Statement::Seal(Seal {
            event: v::SealEvent::Applied,
            place: v::SealPlace::HousingPin,
            number: text("K400107"),
            kind: Some(v::SealKind::Cable),
            intact: true,
            photo: Some(PHOTO),
            note: "chain, the hole is too far".into(),
            because: String::new(),
        }),
        Statement::Photo {
            photo: v::PhotoRef { sha256: PHOTO, length: 120_000, media: text("image/jpeg") },
            of: v::PhotoOf::Seal,
            about: text("seal/housing_pin"),
        },
        Statement::Defect(Defect {
            defect: DEFECT,
            fitting: Some(v::Fitting::LiquidB),
            what: text("worn plug"),
            needs_authority: true,
            photo: Some(PHOTO),
        }),
        Statement::Forwarded { defect: DEFECT, to: text("the owner"), how: "by telephone".into() },
        Statement::Authority {
            defect: DEFECT,
            by: text("approvals desk"),
            reference: text("SPOKEN-88"),
            spoken_at: Some(AT),
            written_at: Some(UtcMillis(AT.0 + 1)),
        },
        Statement::Resolved { defect: DEFECT, how: text("plug changed by a shop") },
        Statement::Hold { hold: HOLD, because: text("frost ring") },
        Statement::HoldLifted { hold: HOLD, because: text("gone") },
        Statement::HandoverGiven { to: OperatorId(text("birch")) },
        Statement::HandoverTaken { from: OperatorId(text("ash")) },
        Statement::Attendance { presence: v::Presence::Away },
        Statement::Cover { closed: true, pinned: true, bolts_in_place: 3, bolts_required: 4 },
        Statement::Protection { what: v::Protection::BlueSign, set: false },
        Statement::Weather { precipitation: v::Precipitation::FreezingRain, wind: "NE, fresh".into() },
        Statement::EmptySign { sign: v::EmptySign::RodAtBottom, seen: true },
        Statement::EmptyDecision { accepted: true, grounds: text("rod at its bottom") },
        Statement::TruckLoad(TruckLoad::of(text("TRUCK-1"), amount("8 950", Unit::Gallon))),
        Statement::Check { what: "odorant".into(), right: true, note: text("stain tube") },
        Statement::Remark { text: text("Tränen im Schnee · 雪") },
        Statement::Agreement { keeps: ENTRY },
        Statement::Withdrawn {},
        Statement::Joined { other: VisitId([0x99; 16]) },
        Statement::NotJoined { other: VisitId([0x99; 16]) },
        Statement::PassedOver { blocker: text("listen_missing.vapour"), seen: vec![ENTRY] },
        Statement::Overridden {
            gate: v::Gate::Release,
            items: vec![text("cover_bolts"), text("item_out.wrench")],
            seen: vec![ENTRY],
            reason: "reported".into(),
        },
        Statement::LastRound {
            fittings: v::Fitting::USUAL.to_vec(),
            except: vec![v::Fitting::VapourTwo],
            note: text("plug galled"),
            photo: Some(Digest([0x33; 32])),
        },
        Statement::FitToUnload {},
        Statement::Released { as_residue: true },
        Statement::CarNumberAgain { car: CarNumber(text("zzqx4417")) },
        Statement::CarFittings { fittings: v::Fitting::USUAL.to_vec(), gauging: None, vapour_end: None },
        Statement::CarCapacity { capacity: amount("33,700", Unit::Gallon), insulation: None },
        Statement::CarDiameter { diameter: amount("119 in", Unit::Inch) },
        Statement::OutageTable {
            name: text("table 12"),
            rows: vec![(0.0, 33_700.0), (12.5, 31_800.25)],
            liquid: true,
        },
        Statement::CarTestDate { test: v::TestDate::ReliefDevice, due: text("2031-05") },
    ]
}

/// Kinds with the fields that came later.
fn of_more_fields() -> [(&'static str, Statement); 6] {
    let text = str::to_owned;
    let load = TruckLoad {
        ticket: text("T-5501"),
        driver: text("Birch"),
        level: Some(amount("79.5 %", Unit::Percent)),
        temperature: Some(amount("54", Unit::Fahrenheit)),
        seal: text("L-20"),
        ..TruckLoad::of(text("TRUCK-1"), amount("8 950", Unit::Gallon))
    };
    let fittings = Statement::CarFittings {
        fittings: v::Fitting::USUAL.to_vec(),
        gauging: Some(v::GaugingKind::SlipTube),
        vapour_end: Some(v::CarEnd::B),
    };
    let seal = Statement::Seal(Seal {
        event: v::SealEvent::Removed,
        place: v::SealPlace::Elsewhere,
        number: text("K400108"),
        kind: None,
        intact: false,
        photo: None,
        note: "on the ladder side".into(),
        because: text("cut to open the housing"),
    });
    let paper = Paper {
        grade: Some(v::ProductGrade::Hd5Propane),
        billed_by: Some(v::BilledBy::Scale),
        winter_fill: Some(true),
        ..Paper::default()
    };
    let site = SiteProfile {
        name: "Invented Spur".into(),
        zone: "Etc/GMT+6".into(),
        elevation: amount("1240", Unit::Foot),
        attendance_gap_minutes: 40,
        local_rules: String::new(),
        organisation: "the organisation, as on paper".into(),
        address: "the road and the place".into(),
    };
    let compared = Paper { compared: Some(EntryId([0x2c; 32])), ..paper.clone() };
    [
        ("site, with whose it is and where", Statement::Site(site)),
        ("paper, compared with the one that was sent", Statement::Paper(compared)),
        ("truck_load, with its ticket", Statement::TruckLoad(load)),
        ("car_fittings, with the gauging device", fittings),
        ("seal, removed for a reason", seal),
        ("paper, with grade and how it was billed", Statement::Paper(paper)),
    ]
}

fn of_site() -> Vec<Statement> {
    let text = str::to_owned;
    vec![
        Statement::Site(SiteProfile {
            name: text("Invented Spur"),
            zone: text("Etc/GMT+6"),
            elevation: amount("1240", Unit::Foot),
            attendance_gap_minutes: 40,
            local_rules: text("the local code comes first"),
            organisation: String::new(),
            address: String::new(),
        }),
        Statement::Tank(Tank {
            name: text("T-1"),
            water_capacity: amount("30 000", Unit::Gallon),
            underground: false,
        }),
        Statement::Instrument(Instrument {
            name: text("LG-12"),
            measures: "pressure".into(),
            span: amount("60 psi", Unit::PsiGauge),
            grade: text("2A"),
            calibration_due: text("2027-03-01"),
        }),
        Statement::Hose(Hose { name: text("H-101"), service: text("LP-gas"), test_due: text("2027-05-01") }),
        Statement::Contact(Contact {
            role: "emergency".into(),
            name: text("invented fire service"),
            telephone: text("555-0100"),
            note: text("at the gate"),
        }),
        Statement::SealStock(SealStock { from: text("K400100"), to: text("K400199"), kind: "cable".into() }),
    ]
}

/// Every example by its file's name.
fn examples() -> BTreeMap<String, Body> {
    let mut bodies: BTreeMap<String, Body> = BTreeMap::new();
    for (about, statements) in [(VISIT, of_visit()), (SITE, of_site())] {
        bodies.extend(statements.into_iter().map(|says| (says.kind(), body(about, says))));
    }
    let person = Operator {
        operator: OperatorId("ash".to_owned()),
        name: "Ash".to_owned(),
        named: None,
        trained_on: "2025-02-10".to_owned(),
        active: true,
    };
    let named = Operator { name: String::new(), named: Some(Digest([0x5a; 32])), ..person.clone() };
    bodies.insert("operator".to_owned(), body(ROSTER, Statement::Operator(person)));
    bodies.insert("operator, named by a commitment".to_owned(), body(ROSTER, Statement::Operator(named)));
    bodies.extend(of_people().into_iter().map(|says| (says.kind(), body(ROSTER, says))));
    bodies.extend(of_stays_since_rights().into_iter().map(|says| (says.kind(), body(VISIT, says))));
    // A kind that came later has the example its row makes.
    for kind in StatementKind::ALL {
        let spec = kind.spec();
        bodies.entry(spec.word.to_owned()).or_insert_with(|| {
            let about = match spec.typed_in {
                Some(TypedIn::Site) => SITE,
                Some(TypedIn::Roster | TypedIn::Rules) => ROSTER,
                Some(TypedIn::Visit) | None => VISIT,
            };
            body(about, kind.example().unwrap())
        });
    }
    // The paper that the office sends said less at first.
    let paper = bodies.get_mut("paper_expected").unwrap();
    let whole = paper.clone();
    if let Statement::PaperExpected(said) = &mut paper.says {
        (said.grade, said.billed_by, said.winter_fill) = (None, None, None);
    }
    bodies.insert("paper_expected, with grade and how it was billed".to_owned(), whole);
    bodies.insert("opened, bound to its site".to_owned(), body(VISIT, opened(Some(VisitNonce([0xbb; 16])))));
    let released = body(VISIT, Statement::Released { as_residue: true });
    let person = PersonSigner::from_secret([8; 32]);
    let by_hand = Entry::seal_by_hand(released, &person, &DeviceKey::from_secret([7; 32])).unwrap();
    bodies.insert("released, signed by the person".to_owned(), by_hand.body);
    // What stands around a statement: the slot of another, what it follows or replaces, a place, a first entry.
    let settled = bodies.get_mut("agreement").unwrap();
    (settled.slot, settled.why) = ("reading/final/pressure/car".to_owned(), "read together".to_owned());
    settled.replaces = vec![ENTRY, EntryId([0xaa; 32])];
    let withdrawn = bodies.get_mut("withdrawn").unwrap();
    (withdrawn.slot, withdrawn.why) = ("series/remark".to_owned(), "wrong car".to_owned());
    withdrawn.replaces = vec![ENTRY];
    bodies.get_mut("passed_over").unwrap().why = "detector at zero".to_owned();
    bodies.extend(of_more_fields().into_iter().map(|(name, says)| (name.to_owned(), body(VISIT, says))));
    let shut = Statement::Valve { fitting: v::Fitting::SampleLine, position: v::ValvePosition::Open };
    let first = Body {
        follows: vec![ENTRY],
        seq: 1,
        prev: None,
        when: Stamp { at: UtcMillis(-1), offset_minutes: 345, ahead_millis: None },
        place: Some(v::Position { latitude: -12.5, longitude: 170.25, accuracy_m: 8.0 }),
        ..body(VISIT, shut)
    };
    bodies.insert("valve, first of a device, with a place and no server time".to_owned(), first);
    let shut = Statement::Valve { fitting: v::Fitting::LiquidA, position: v::ValvePosition::Shut };
    let earlier = Body { done: Some(UtcMillis(AT.0 - 35 * 60_000)), ..body(VISIT, shut) };
    bodies.insert("valve, done before it was entered".to_owned(), earlier);
    let typed = Statement::Remark { text: String::new() };
    bodies.insert(
        "remark, empty, about a car".to_owned(),
        body(Subject::Car(CarNumber("ZZQX 4417".to_owned()).id()), typed),
    );
    bodies
}

fn golden() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("golden")
}

fn file_of(name: &str) -> PathBuf {
    golden().join("entries").join(format!("{}.hex", name.replace(", ", "-").replace(' ', "_")))
}

fn may_add() -> bool {
    std::env::var_os("FARSIDING_ADD_GOLDEN").is_some()
}

fn hex(bytes: &[u8]) -> String {
    let digits: String = bytes.iter().map(|byte| format!("{byte:02x}")).collect();
    digits.as_bytes().chunks(96).map(|line| format!("{}\n", std::str::from_utf8(line).unwrap())).collect()
}

fn unhex(text: &str) -> Vec<u8> {
    let digits: String = text.lines().filter(|line| !line.starts_with('#')).collect();
    (0..digits.len() / 2).map(|at| u8::from_str_radix(&digits[2 * at..2 * at + 2], 16).unwrap()).collect()
}

#[test]
fn every_kind_of_statement_has_a_frozen_example() {
    let seen: BTreeSet<StatementKind> =
        examples().values().filter_map(|body| body.says.known_kind()).collect();
    assert_eq!(seen, StatementKind::ALL.iter().copied().collect());
    for kind in StatementKind::ALL {
        assert!(file_of(kind.spec().word).exists() || may_add(), "{} is not frozen", kind.spec().word);
    }
}

#[test]
fn the_frozen_examples_are_written_byte_for_byte() {
    let key = DeviceKey::from_secret([7; 32]);
    for (name, body) in examples() {
        let file = file_of(&name);
        let entry = Entry::seal(body, &key).unwrap();
        if !file.exists() && may_add() {
            let head = format!("# {name}: a signed entry, key of 32 times 07; never changed\n");
            std::fs::write(&file, head + &hex(entry.bytes())).unwrap();
        }
        let frozen = std::fs::read_to_string(&file)
            .unwrap_or_else(|_| panic!("{} is missing: see the head of this file", file.display()));
        assert_eq!(hex(entry.bytes()), hex(&unhex(&frozen)), "\"{name}\" is written otherwise than it was");
    }
}

#[test]
fn the_frozen_examples_are_read_as_they_were_meant() {
    let examples = examples();
    let mut read = 0;
    for (name, body) in &examples {
        let bytes = unhex(&std::fs::read_to_string(file_of(name)).unwrap());
        let entry = Entry::open(&bytes).unwrap_or_else(|error| panic!("{name}: {error}"));
        assert_eq!(&entry.body, body, "{name}");
        let payload = cbor::encode(body).unwrap();
        assert_eq!(
            minicbor_serde::from_slice::<Body>(&payload).unwrap(),
            *body,
            "{name}, by the quick reader"
        );
        assert_eq!(Entry::reopen(entry.id, bytes).unwrap().body, *body, "{name}, read back from a store");
        read += 1;
    }
    // Files without an example are older forms: they must still be read, whatever they are.
    for item in std::fs::read_dir(golden().join("entries")).unwrap() {
        let path = item.unwrap().path();
        let entry = Entry::open(&unhex(&std::fs::read_to_string(&path).unwrap()));
        let entry = entry.unwrap_or_else(|error| panic!("{}: {error}", path.display()));
        assert!(entry.body.says.known_kind().is_some(), "{} is no longer recognised", path.display());
    }
    println!("{read} examples read");
}

/// Every document begins with the same change, or copies made apart are not copies of one document.
#[test]
fn the_change_every_document_begins_with_never_changes() {
    let file = golden().join("genesis.hex");
    if !file.exists() && may_add() {
        let head = "# The change every document begins with; never changed\n".to_owned();
        std::fs::write(&file, head + &hex(farsiding_core::document::GENESIS)).unwrap();
    }
    let frozen = std::fs::read_to_string(&file).unwrap();
    assert_eq!(hex(farsiding_core::document::GENESIS), hex(&unhex(&frozen)));
}

#[test]
fn no_byte_of_a_frozen_example_can_be_altered() {
    let bytes = unhex(&std::fs::read_to_string(file_of("reading")).unwrap());
    for at in 0..bytes.len() {
        let mut altered = bytes.clone();
        altered[at] ^= 1;
        assert!(Entry::open(&altered).is_err(), "byte {at} was altered and nobody noticed");
    }
}

#[test]
fn words_of_the_vocabulary_are_only_ever_added() {
    macro_rules! words {
        ($($name:ident),*) => { vec![$((stringify!($name), v::$name::ALL.iter().map(|w| w.word()).collect())),*] };
        (coded: $($name:ident),*) => {
            vec![$((stringify!($name), coded::$name::ALL.iter().map(|w| w.word()).collect())),*]
        };
    }
    let codes: Vec<(&str, Vec<&str>)> =
        words!(coded: Told, OverrideReason, SealNote, ContactRole, Checked, WindFrom, WindForce, Item);
    let troubles: Vec<(&str, Vec<&str>)> =
        words!(IncidentSource, Injury, Evacuation, Called, LeakAt, LeftCondition, CarLoad, LeavesAs);
    let carried: Vec<(&str, Vec<&str>)> =
        words!(Feel, PlugState, CoverPart, PartState, TankMoment, GaugingKind, CarEnd);
    let vocabulary: Vec<(&str, Vec<&str>)> = words!(
        Fitting,
        ValvePosition,
        ClosureState,
        Heard,
        Measured,
        Place,
        Purpose,
        Receiver,
        SealPlace,
        SealEvent,
        SealKind,
        PhotoOf,
        Protection,
        ClockEvent,
        Precipitation,
        EmptySign,
        Presence,
        TestDate,
        StepOutcome,
        Part,
        Gate,
        ProductGrade,
        BilledBy,
        Insulation
    );
    // A blocker that is passed over is named in the entry by its word.
    let blockers = ("BlockerKind", BlockerKind::ALL.iter().map(|kind| kind.word()).collect());
    let vocabulary: Vec<(&str, Vec<&str>)> =
        vocabulary.into_iter().chain(codes).chain([blockers]).chain(troubles).chain(carried).collect();
    let declares = |text: &str| text.lines().filter(|line| line.trim() == "words!(").count();
    let declared: usize =
        farsiding_testkit::tree::product_sources("core").iter().map(|(_, text)| declares(text)).sum();
    assert_eq!(vocabulary.len(), declared, "words are declared that this test does not know of");
    let lines: Vec<String> = vocabulary
        .iter()
        .flat_map(|(name, words)| words.iter().map(move |word| format!("{name} {word}")))
        .collect();
    let file = golden().join("words.txt");
    let mut frozen = std::fs::read_to_string(&file).unwrap_or_else(|_| {
        "# Every word of the vocabulary, one a line. Lines are added, never changed or removed.\n".to_owned()
    });
    let new: Vec<&String> = lines.iter().filter(|line| !frozen.lines().any(|known| known == *line)).collect();
    if may_add() {
        frozen.extend(new.iter().map(|line| format!("{line}\n")));
        std::fs::write(&file, &frozen).unwrap();
    } else {
        assert!(new.is_empty(), "not frozen yet: {new:?}; see the head of this file");
    }
    for known in frozen.lines().filter(|line| !line.starts_with('#')) {
        assert!(lines.iter().any(|line| line == known), "\"{known}\" is gone from the vocabulary");
    }
}
