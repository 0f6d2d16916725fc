//! Tests of the book as shells use it: what holds when a call returns, and what holds when it fails.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a failed unwrap is a failed test")]

use super::*;
use crate::English as _;
use crate::clock::HandSetClock;
use crate::entry::Statement;
use crate::entry::site_facts::{Operator, SiteProfile};
use crate::entry::vocabulary::{
    ClockEvent, EmptySign, Fitting, Measured, Part, Place, Purpose, Receiver, StepOutcome, TankMoment,
    ValvePosition,
};
use crate::entry::{NextTime, NextTimeDone, Paper, Reading, TankGauged, TruckLoad, cbor};
use crate::ids::{Digest, NoteId, OperatorId, SiteId, VisitId};
use crate::procedure::Procedures;
use crate::store::{MemoryStore, Rows, SetDigest, StoredChange, StoredEntry, StoredPhoto};
use crate::units::{Amount, Unit};
use crate::view::VisitRow;
use farsiding_testkit::Dice;

fn book_on(store: impl Store + 'static) -> Book {
    Book::open(BookParts {
        store: Box::new(store),
        key: DeviceKey::from_secret([3; 32]),
        clock: Box::new(HandSetClock::at(UtcMillis(1_790_000_000_000), -360)),
        randomness: Box::new(Dice::of(0)),
    })
}

#[test]
fn a_reading_becomes_due_although_nothing_is_recorded() {
    let clock = HandSetClock::at(UtcMillis(1_790_000_000_000), -360);
    let mut book = Book::open(BookParts {
        store: Box::new(MemoryStore::new()),
        key: DeviceKey::from_secret([3; 32]),
        clock: Box::new(clock.clone()),
        randomness: Box::new(Dice::of(0)),
    });
    let visit = open(&mut book, "ZZQX 1");
    let on = Statement::Line { fitting: Fitting::LiquidA, connected: true, hose: String::new() };
    let pressure = Statement::Reading(Reading {
        measured: Measured::Pressure,
        place: Place::Car,
        purpose: Purpose::Transfer,
        amount: Amount::of(120.0, Unit::PsiGauge),
        instrument: String::new(),
    });
    book.append(Subject::Visit(visit), vec![Draft::of(on), Draft::of(pressure)], &op()).unwrap();
    let procedures = Procedures::built_in().unwrap();
    let mut gathered = book.gather().unwrap();
    let due = |gathered: &Snapshot| {
        gathered.view(visit, &procedures).unwrap().steps.next.contains(&"transfer_readings".to_owned())
    };
    clock.set(UtcMillis(1_790_000_000_000 + 61 * 60_000));
    assert!(!due(&gathered), "nobody looked since");
    book.look(&mut gathered).unwrap();
    assert!(due(&gathered));
}

fn op() -> OperatorId {
    OperatorId("op-1".into())
}

fn open(book: &mut Book, car: &str) -> VisitId {
    let procedures = Procedures::built_in().unwrap();
    let visit = OpenVisit {
        car: car.into(),
        site: SiteId([4; 16]),
        receiver: Receiver::FixedTank,
        procedure: procedures.default_procedure().unwrap().digest,
        spot: "1".into(),
    };
    book.open_visit(visit, &op()).unwrap()
}

fn effort(amount: f64) -> Draft {
    Draft::of(Statement::Effort {
        fitting: Fitting::LiquidA,
        part: Part::Valve,
        amount: Amount::of(amount, Unit::FootPound),
    })
}

fn final_pressure(text: &str) -> Draft {
    Draft::of(Statement::Reading(Reading {
        measured: Measured::Pressure,
        place: Place::Car,
        purpose: Purpose::Final,
        amount: Amount::read(text, Unit::PsiGauge).0,
        instrument: "G-3".into(),
    }))
}

#[test]
fn an_amount_whose_number_is_not_what_was_typed_is_not_signed() {
    let mut book = book_on(MemoryStore::new());
    let visit = Subject::Visit(open(&mut book, "ZZQX 1"));
    let billed = |text: &str, value: &str| -> Vec<Draft> {
        let json =
            format!(r#"[{{"says":{{"paper":{{"billed":{{"text":"{text}","unit":"gal"{value}}}}}}}}}]"#);
        serde_json::from_str(&json).unwrap()
    };
    for (text, value) in [("32650", r#","value":32.65"#), ("32,650", r#","value":326.5"#), ("32,650", "")] {
        let refused = book.append(visit, billed(text, value), &op()).unwrap_err().to_string();
        assert!(refused.contains(text) && refused.contains("gal"), "{refused}");
        assert!(book.sketch(visit, billed(text, value), &op()).is_err());
    }
    assert_eq!(book.entries(visit).unwrap().0.len(), 1, "nothing was recorded");
    for (text, value) in [("32,650", r#","value":32650"#), ("32,650", r#","value":32.65"#), ("illegible", "")]
    {
        book.append(visit, billed(text, value), &op()).unwrap();
    }
}

/// The time at which a thing was done is signed with the entry, and is neither later than it nor before the visit.
#[test]
fn a_thing_is_done_within_the_visit_and_not_after_its_entry() {
    let mut book = book_on(MemoryStore::new());
    let visit = Subject::Visit(open(&mut book, "ZZQX 1"));
    let opened_at = book.entries(visit).unwrap().0[0].0.body.when.at;
    let done = |millis: i64| Some(UtcMillis(opened_at.0 + millis));
    for (millis, says) in [(1, "later than now"), (-1, "before this visit began")] {
        let refused = book.append(visit, vec![effort(30.0).done_at(done(millis))], &op()).unwrap_err();
        assert!(refused.message().en().contains(says), "{refused}");
    }
    assert_eq!(book.entries(visit).unwrap().0.len(), 1, "nothing was recorded");
    let placed = Statement::Clock { event: ClockEvent::ActualPlacement, at: UtcMillis(opened_at.0 - 60_000) };
    book.append(visit, vec![Draft::of(placed)], &op()).unwrap();
    book.append(visit, vec![effort(30.0).done_at(done(-60_000))], &op()).unwrap();
    let entries = book.entries(visit).unwrap().0;
    let (entry, _) = &entries[2];
    assert_eq!(entry.body.done, done(-60_000));
    assert_eq!(Entry::open(entry.bytes()).unwrap(), *entry, "the time is within what is signed");
}

/// Versions that did not know the field accepted whatever stood there, so the entry stays whole and the time is absent.
#[test]
fn a_done_that_is_no_time_is_as_if_absent() {
    let key = DeviceKey::from_secret([3; 32]);
    let mut book = book_on(MemoryStore::new());
    let visit = Subject::Visit(open(&mut book, "ZZQX 1"));
    let opening = book.entries(visit).unwrap().0[0].0.clone();
    let payload = cbor::encode(&opening.body).unwrap();
    for odd in [ciborium::Value::Text("14:05".into()), ciborium::Value::Null, ciborium::Value::Bool(true)] {
        let mut value = cbor::decode_value(&payload).unwrap();
        value.as_map_mut().unwrap().push((ciborium::Value::Text("done".into()), odd));
        let bytes = key.seal(cbor::encode(&value).unwrap(), "farsiding entry 1");
        let read = Entry::open(&bytes).unwrap();
        assert_eq!(read.body, opening.body);
        assert_eq!(Entry::reopen(read.id, bytes).unwrap().body, opening.body);
    }
}

#[test]
fn entries_of_a_device_are_one_chain_across_all_documents() {
    let mut book = book_on(MemoryStore::new());
    let (a, b) = (open(&mut book, "ZZQX 1"), open(&mut book, "ZZQX 2"));
    book.append(Subject::Visit(a), vec![final_pressure("12"), effort(30.0)], &op()).unwrap();
    book.append(Subject::Visit(b), vec![final_pressure("9")], &op()).unwrap();
    let mut entries: Vec<Entry> = [a, b]
        .iter()
        .flat_map(|visit| book.entries(Subject::Visit(*visit)).unwrap().0)
        .map(|(entry, _)| entry)
        .collect();
    entries.sort_by_key(|entry| entry.body.seq);
    assert_eq!(entries.iter().map(|e| e.body.seq).collect::<Vec<_>>(), [1, 2, 3, 4, 5]);
    assert!(entries.windows(2).all(|pair| pair[1].body.prev == Some(pair[0].id)));
}

#[test]
fn what_is_known_of_a_car_meets_the_next_operator_at_another_visit() {
    let mut book = book_on(MemoryStore::new());
    let first = open(&mut book, "ZZQX 4417");
    book.append(Subject::Visit(first), vec![effort(55.0)], &op()).unwrap();
    let second = open(&mut book, "zzqx 004417");
    let view = book.gather().unwrap().view(second, &Procedures::built_in().unwrap()).unwrap();
    let text = serde_json::to_string(&view).unwrap();
    assert!(text.contains("55"), "{text}");
}

/// The note is at the top of the next visit of that car, whoever reads the number, and of no other car's; once somebody
/// said that it was seen to, no later visit shows it again.
#[test]
fn a_note_for_next_time_meets_the_next_visit_of_that_car_alone() {
    let mut book = book_on(MemoryStore::new());
    let note = NextTime { note: NoteId([8; 16]), what: "bring the long wrench".into(), fitting: None };
    let first = open(&mut book, "ZZQX 4417");
    book.append(Subject::Visit(first), vec![Draft::of(Statement::NextTime(note))], &op()).unwrap();
    let left = |book: &Book, visit: VisitId| -> Vec<String> {
        let view = book.gather().unwrap().view(visit, &Procedures::built_in().unwrap()).unwrap();
        let carried = view.car.carried.iter().filter(|one| one.is_left_for(&view.header.visits));
        carried.map(|one| one.says.en()).collect()
    };
    assert_eq!(left(&book, first), Vec::<String>::new(), "it is for the next visit");
    let other = open(&mut book, "ZZQX 4418");
    assert_eq!(left(&book, other), Vec::<String>::new(), "another car");
    let second = open(&mut book, "zzqx 004417");
    assert_eq!(left(&book, second), ["bring the long wrench"]);
    let done = NextTimeDone { note: NoteId([8; 16]), how: "the long one is on the rack now".into() };
    let seen_to = book.append(Subject::Visit(second), vec![Draft::of(Statement::NextTimeDone(done))], &op());
    assert_eq!(left(&book, second), Vec::<String>::new());
    let third = open(&mut book, "ZZQX 4417");
    assert_eq!(left(&book, third), Vec::<String>::new(), "it does not come again");
    let view = book.gather().unwrap().view(second, &Procedures::built_in().unwrap()).unwrap();
    let draft = Draft::withdrawing(&view, seen_to.unwrap()[0], "that was another note").unwrap();
    book.append(Subject::Visit(second), vec![draft], &op()).unwrap();
    assert_eq!(left(&book, third), ["bring the long wrench"], "nobody saw to it after all");
}

/// A level is a share of a capacity: neither below nothing nor above all of it.
#[test]
fn a_level_that_no_tank_has_is_not_recorded() {
    let mut book = book_on(MemoryStore::new());
    let visit = Subject::Visit(open(&mut book, "ZZQX 1"));
    let level = |text: &str| Amount::read(text, Unit::Percent).0;
    let tank = |text: &str| {
        let tank = TankGauged {
            tank: "T-1".into(),
            moment: TankMoment::Before,
            level: Some(level(text)),
            pressure: None,
            temperature: None,
            meter: None,
        };
        Draft::of(Statement::TankGauged(tank))
    };
    let truck = |text: &str| {
        let load = TruckLoad::of("T-7", Amount::of(9_000.0, Unit::Gallon));
        Draft::of(Statement::TruckLoad(TruckLoad { level: Some(level(text)), ..load }))
    };
    let read = |text: &str| {
        let (measured, place) = (Measured::Level, Place::StorageTank);
        let reading = Reading {
            measured,
            place,
            purpose: Purpose::Arrival,
            amount: level(text),
            instrument: String::new(),
        };
        Draft::of(Statement::Reading(reading))
    };
    for text in ["-1", "100.5", "-0.2 %"] {
        for draft in [tank(text), truck(text), read(text)] {
            let refused = book.append(visit, vec![draft], &op()).unwrap_err();
            assert_eq!(refused.message().en(), "A level lies between 0 and 100 %.", "{text}");
        }
    }
    for text in ["0", "84.5", "100", "about half"] {
        for draft in [tank(text), truck(text), read(text)] {
            book.append(visit, vec![draft], &op()).unwrap();
        }
    }
}

#[test]
fn an_agreement_on_the_visit_alone_does_not_go_to_the_cars_document() {
    let mut book = book_on(MemoryStore::new());
    let visit = open(&mut book, "ZZQX 1");
    let wrong = book.append(Subject::Visit(visit), vec![final_pressure("12")], &op()).unwrap();
    let view = book.gather().unwrap().view(visit, &Procedures::built_in().unwrap()).unwrap();
    let draft = Draft::withdrawing(&view, wrong[0], "wrong car").unwrap();
    book.append(Subject::Visit(visit), vec![draft], &op()).unwrap();
    assert!(!book.store().subjects().unwrap().iter().any(|s| matches!(s, Subject::Car(_))));
}

#[test]
fn rules_for_making_an_entry_are_told_before_anything_is_kept() {
    let mut book = book_on(MemoryStore::new());
    let visit = Subject::Visit(open(&mut book, "ZZQX 1"));
    let before = book.store().tally().unwrap();
    let refused = [
        Draft::of_step("listen.liquid_a", StepOutcome::Skipped, " "),
        Draft::of(Statement::PassedOver { blocker: "cover_bolts".into(), seen: vec![] }),
        Draft::instead_of(Statement::Remark { text: "x".into() }, vec![EntryId([1; 32])], ""),
        Draft::of(Statement::Withdrawn {}),
        Draft::of(Statement::ItemOut { item: " ".into(), fitting: None }),
        Draft::of(Statement::NextTime(NextTime { note: NoteId([1; 16]), what: " ".into(), fitting: None })),
    ];
    for draft in refused {
        assert!(book.append(visit, vec![final_pressure("12"), draft.clone()], &op()).is_err(), "{draft:?}");
    }
    assert!(matches!(
        book.append(visit, vec![final_pressure("12")], &OperatorId("  ".into())),
        Err(BookError::NoOperator)
    ));
    for code in ["x".repeat(65), "op\u{202e}a".into(), "op\na".into(), "\u{200b}".into(), " op-a".into()] {
        let code = OperatorId(code);
        assert!(book.append(visit, vec![final_pressure("12")], &code).is_err(), "{code:?}");
        let named = Draft::of(Statement::HandoverGiven { to: code.clone() });
        assert!(book.append(visit, vec![named], &op()).is_err(), "{code:?}");
    }
    assert_eq!(book.store().tally().unwrap(), before, "all or none");
}

#[test]
fn a_sketch_shows_what_would_be_and_keeps_nothing() {
    let mut book = book_on(MemoryStore::new());
    let visit = open(&mut book, "ZZQX 1");
    let before = book.store().tally().unwrap();
    let sketched = book.sketch(Subject::Visit(visit), vec![final_pressure("12 psi")], &op()).unwrap();
    let procedures = Procedures::built_in().unwrap();
    let gathered = book.gather().unwrap();
    let shown = serde_json::to_string(&gathered.view_with(visit, &procedures, &sketched).unwrap()).unwrap();
    assert!(shown.contains("12 psi"), "{shown}");
    assert!(!serde_json::to_string(&gathered.view(visit, &procedures).unwrap()).unwrap().contains("12 psi"));
    assert_eq!(book.store().tally().unwrap(), before);
}

#[test]
fn reading_again_what_changed_is_the_same_as_reading_everything() {
    let mut book = book_on(MemoryStore::new());
    let procedures = Procedures::built_in().unwrap();
    let visit = open(&mut book, "ZZQX 1");
    let mut kept = book.gather().unwrap();
    kept.rows(&procedures);
    book.append(Subject::Visit(visit), vec![final_pressure("12"), effort(31.0)], &op()).unwrap();
    let changed = book.store().subjects().unwrap();
    book.refresh(&mut kept, &changed).unwrap();
    let fresh = book.gather().unwrap();
    assert_eq!(kept.rows(&procedures), fresh.rows(&procedures));
    assert_eq!(kept.view(visit, &procedures), fresh.view(visit, &procedures));
}

fn released() -> Draft {
    Draft::of(Statement::Released { as_residue: true })
}

fn site_named(name: &str) -> Draft {
    Draft::of(Statement::Site(SiteProfile {
        name: name.into(),
        zone: "Etc/GMT+6".into(),
        elevation: Amount::of(900.0, Unit::Foot),
        attendance_gap_minutes: 30,
        local_rules: String::new(),
        organisation: String::new(),
        address: String::new(),
    }))
}

#[test]
fn rows_of_finished_stays_are_folded_again_only_when_something_they_read_changed() {
    let mut book = book_on(MemoryStore::new());
    let procedures = Procedures::built_in().unwrap();
    let [a, b, c] = ["ZZQX 1", "ZZQX 2", "ZZQX 3"].map(|car| open(&mut book, car));
    for visit in [a, b] {
        book.append(Subject::Visit(visit), vec![effort(31.0), released()], &op()).unwrap();
    }
    let mut kept = book.gather().unwrap();
    kept.rows(&procedures);
    assert_eq!(kept.rows_remembered(), 2);
    let mut change = |book: &mut Book, subject: Subject, draft: Draft, also: Option<Subject>| {
        book.append(subject, vec![draft], &op()).unwrap();
        let changed: Vec<Subject> = std::iter::once(subject).chain(also).collect();
        book.refresh(&mut kept, &changed).unwrap();
        let left = kept.rows_remembered();
        let fresh = book.gather().unwrap();
        assert_eq!(kept.rows(&procedures), fresh.rows(&procedures));
        for visit in [a, b, c] {
            assert_eq!(kept.view(visit, &procedures), fresh.view(visit, &procedures));
        }
        left
    };
    let car = |number: &str| Some(Subject::Car(crate::entry::car_number::CarNumber(number.into()).id()));
    // The open car and its document do not affect the rows of the two cars that left.
    assert_eq!(change(&mut book, Subject::Visit(c), effort(40.0), car("ZZQX 3")), 2);
    // A car that has left still has its own record.
    assert_eq!(change(&mut book, Subject::Visit(a), final_pressure("3 psi"), None), 1);
    assert_eq!(change(&mut book, Subject::Visit(c), effort(41.0), car("ZZQX 1")), 1);
    // Both rows show times in the site's zone and names from the roster.
    assert_eq!(change(&mut book, Subject::Site(SiteId([4; 16])), site_named("Demo siding"), None), 0);
    assert_eq!(change(&mut book, Subject::Site(SiteId([5; 16])), site_named("Elsewhere"), None), 2);
    let person = Operator {
        operator: op(),
        name: "Ada (demo)".into(),
        named: None,
        trained_on: String::new(),
        active: true,
    };
    let roster = Subject::Roster(crate::ids::OrganisationId([7; 16]));
    assert_eq!(change(&mut book, roster, Draft::of(Statement::Operator(person)), None), 0);
}

#[test]
fn a_list_begins_with_what_is_not_over_and_gives_the_rest_a_few_at_a_time() {
    let mut book = book_on(MemoryStore::new());
    let procedures = Procedures::built_in().unwrap();
    let cars: Vec<VisitId> = (1..=6).map(|n| open(&mut book, &format!("ZZQX {n}"))).collect();
    for visit in &cars[..5] {
        book.append(Subject::Visit(*visit), vec![released()], &op()).unwrap();
    }
    // The office has all entries of the first four cars that left.
    let ids: Vec<EntryId> = cars[..4]
        .iter()
        .flat_map(|visit| book.entries(Subject::Visit(*visit)).unwrap().0)
        .map(|(entry, _)| entry.id)
        .collect();
    book.store_mut().commit(&[Write::Receipt { entries: &ids, bytes: b"as if checked" }]).unwrap();
    let gathered = book.gather().unwrap();
    let of = |rows: Vec<VisitRow>| rows.into_iter().flat_map(|row| row.visits).collect::<Vec<_>>();
    let standing = of(gathered.standing(&procedures));
    assert_eq!(standing.len(), 2);
    assert!(standing.contains(&cars[4]) && standing.contains(&cars[5]));
    assert_eq!(gathered.rows_remembered(), 1, "what is over was not folded");
    let mut over = Vec::new();
    for from in [0, 3, 6] {
        let (all, rows) = gathered.over(from, 3, &procedures);
        assert_eq!(all, 4);
        over.extend(of(rows));
    }
    over.sort_unstable();
    let mut expected = cars[..4].to_vec();
    expected.sort_unstable();
    assert_eq!(over, expected);
}

#[test]
fn a_row_says_what_the_whole_record_says() {
    let mut book = book_on(MemoryStore::new());
    let procedures = Procedures::built_in().unwrap();
    let visit = open(&mut book, "ZZQX 1");
    book.append(Subject::Site(SiteId([4; 16])), vec![site_named("Demo siding")], &op()).unwrap();
    let paper = Paper { un_number: "UN1978".into(), product: "Demo propane".into(), ..Paper::default() };
    let sign = |sign, seen| Draft::of(Statement::EmptySign { sign, seen });
    let accepted = Statement::EmptyDecision { accepted: true, grounds: "looked empty".into() };
    for (says, alarms) in [
        (vec![Draft::of(Statement::Paper(paper)), sign(EmptySign::RodAtBottom, false)], 0),
        (vec![sign(EmptySign::LiquidAtClosure, true), Draft::of(accepted)], 1),
        (vec![released()], 1),
    ] {
        book.append(Subject::Visit(visit), says, &op()).unwrap();
        let gathered = book.gather().unwrap();
        let view = gathered.view(visit, &procedures).unwrap();
        let [row] = gathered.rows(&procedures).try_into().unwrap();
        // In a list, the evidence about a car that has left is not weighed again.
        let weighed = if row.released { alarms } else { 0 };
        let whole = VisitRow::of(&view);
        assert_eq!(
            row,
            VisitRow {
                alarms: whole.alarms - weighed,
                open_blockers: row.open_blockers,
                kept_by: row.kept_by.clone(),
                ..whole
            }
        );
        let against = view.findings.iter().filter(|f| f.code == "empty_against_evidence").count();
        assert_eq!(against, alarms);
    }
}

/// A store whose disk is full on every second commit.
struct HalfFull(MemoryStore, u32);
impl Store for HalfFull {
    fn commit(&mut self, writes: &[Write<'_>]) -> Result<Vec<EntryId>, StoreError> {
        self.1 += 1;
        if self.1.is_multiple_of(2) { Err(StoreError::Full) } else { self.0.commit(writes) }
    }
    fn entry(&self, id: EntryId) -> Result<Option<StoredEntry>, StoreError> {
        self.0.entry(id)
    }
    fn entries_of(&self, subject: Subject) -> Result<Rows<StoredEntry>, StoreError> {
        self.0.entries_of(subject)
    }
    fn subjects(&self) -> Result<Vec<Subject>, StoreError> {
        self.0.subjects()
    }
    fn changes_of(&self, subject: Subject) -> Result<Rows<StoredChange>, StoreError> {
        self.0.changes_of(subject)
    }
    fn has_change(&self, subject: Subject, hash: Digest) -> Result<bool, StoreError> {
        self.0.has_change(subject, hash)
    }
    fn changes_not_held(&self, bytes: usize) -> Result<Vec<StoredChange>, StoreError> {
        self.0.changes_not_held(bytes)
    }
    fn changes_after(&self, position: u64, bytes: usize) -> Result<Vec<StoredChange>, StoreError> {
        self.0.changes_after(position, bytes)
    }
    fn newest_position(&self) -> Result<u64, StoreError> {
        self.0.newest_position()
    }
    fn entries_without_receipt(&self, most: usize) -> Result<Vec<EntryId>, StoreError> {
        self.0.entries_without_receipt(most)
    }
    fn count_without_receipt(&self) -> Result<u64, StoreError> {
        self.0.count_without_receipt()
    }
    fn receipts_of(&self, id: EntryId) -> Result<Vec<Vec<u8>>, StoreError> {
        self.0.receipts_of(id)
    }
    fn certificates(&self) -> Result<Vec<(DeviceId, Vec<u8>)>, StoreError> {
        self.0.certificates()
    }
    fn certificate(&self, device: DeviceId) -> Result<Option<Vec<u8>>, StoreError> {
        self.0.certificate(device)
    }
    fn quarantined(&self) -> Result<Vec<crate::store::Quarantined>, StoreError> {
        self.0.quarantined()
    }
    fn photos(&self) -> Result<Vec<StoredPhoto>, StoreError> {
        self.0.photos()
    }
    fn photo(&self, sha256: Digest) -> Result<Option<StoredPhoto>, StoreError> {
        self.0.photo(sha256)
    }
    fn drafts(&self) -> Result<Vec<(String, String)>, StoreError> {
        self.0.drafts()
    }
    fn value(&self, key: &str) -> Result<Option<Vec<u8>>, StoreError> {
        self.0.value(key)
    }
    fn tally(&self) -> Result<SetDigest, StoreError> {
        self.0.tally()
    }
    fn log(&self) -> &dyn crate::store::LogRows {
        self.0.log()
    }
    fn scopes(&self) -> &dyn crate::store::ScopeRows {
        self.0.scopes()
    }
}

#[test]
fn a_full_disk_is_said_and_the_next_try_leaves_no_gap() {
    let mut book = book_on(HalfFull(MemoryStore::new(), 0));
    let visit = Subject::Visit(open(&mut book, "ZZQX 1"));
    for n in 0..5 {
        let draft = final_pressure(&format!("{n}"));
        let refused = book.append(visit, vec![draft.clone()], &op());
        assert!(matches!(refused, Err(BookError::Store(StoreError::Full))));
        book.append(visit, vec![draft], &op()).unwrap();
    }
    let entries = book.entries(visit).unwrap().0;
    assert_eq!(entries.len(), 6);
    assert!(entries.windows(2).all(|pair| pair[1].0.body.prev == Some(pair[0].0.id)));
    let document = crate::document::Document::load(
        [9; 16],
        book.store().changes_of(visit).unwrap().rows.iter().map(|c| c.bytes.as_slice()),
    );
    assert_eq!(document.unwrap().entry_ids().len(), 6, "document and entry table tell the same");
}

#[test]
fn an_entry_of_a_later_kind_is_kept_whole_and_travels_on() {
    // A statement of a later version, signed by its device, in which everything else is known here.
    let known = Draft::of(Statement::Remark { text: "x".into() });
    let mut later = book_on(MemoryStore::new());
    let visit = Subject::Visit(open(&mut later, "ZZQX 1"));
    let entry = later.sketch(visit, vec![known], &op()).unwrap().remove(0);
    let mut body = cbor::decode_value(&cbor::encode(&entry.body).unwrap()).unwrap();
    for (key, value) in body.as_map_mut().unwrap() {
        if key.as_text() == Some("says") {
            *value =
                ciborium::Value::serialized(&serde_json::json!({"drone_flight": {"height": 3}})).unwrap();
        }
    }
    let payload = cbor::encode(&body).unwrap();
    let bytes = DeviceKey::from_secret([3; 32]).seal(payload, "farsiding entry 1");
    let unknown = Entry::open(&bytes).unwrap();
    assert_eq!(unknown.body.says, Statement::Unrecognised { kind: "drone_flight".into() });
    assert_eq!(unknown.bytes(), bytes, "not a byte is lost");
    let again = Entry::reopen(unknown.id, bytes).unwrap();
    assert_eq!(again, unknown);
}

#[test]
fn in_a_joined_stay_what_is_recorded_later_in_either_document_follows_what_stood() {
    let mut book = book_on(MemoryStore::new());
    let (a, b) = (open(&mut book, "ZZQX 1"), open(&mut book, "ZZQX 1"));
    let valve = |position| vec![Draft::of(Statement::Valve { fitting: Fitting::LiquidA, position })];
    book.append(Subject::Visit(a), vec![Draft::of(Statement::Joined { other: b }).because("one car")], &op())
        .unwrap();
    book.append(Subject::Visit(a), valve(ValvePosition::Open), &op()).unwrap();
    book.append(Subject::Visit(b), valve(ValvePosition::Shut), &op()).unwrap();
    book.append(Subject::Visit(a), valve(ValvePosition::Open), &op()).unwrap();
    let procedures = Procedures::built_in().unwrap();
    let view = book.gather().unwrap().view(b, &procedures).unwrap();
    assert_eq!(view.header.visits.len(), 2);
    let about: Vec<String> = view.disagreements.iter().map(|d| d.about.en()).collect();
    assert!(about.iter().all(|about| !about.contains("valve")), "{about:?}");
    let standing = |book: &Book, visit| book.entries(Subject::Visit(visit)).unwrap().0.len();
    assert_eq!((standing(&book, a), standing(&book, b)), (4, 3), "that they are one stands in both");
    // Another device that received only the second document checks its change like any other.
    for change in book.store().changes_of(Subject::Visit(b)).unwrap().rows {
        assert!(crate::document::CheckedChange::check(&change.bytes, Subject::Visit(b)).is_ok());
        assert!(
            crate::document::CheckedChange::check(&change.bytes, Subject::Visit(VisitId([7; 16]))).is_err()
        );
    }
}

#[test]
fn a_store_read_without_a_device_key_shows_the_same_as_the_book_on_it() {
    let mut book = book_on(MemoryStore::new());
    let visit = open(&mut book, "ZZQX 1");
    book.append(Subject::Visit(visit), vec![final_pressure("12"), effort(30.0)], &op()).unwrap();
    let procedures = Procedures::built_in().unwrap();
    let by_book = book.gather().unwrap().view(visit, &procedures).unwrap();
    let now = book.stamp().unwrap().corrected();
    let by_office = Snapshot::read(book.store(), None, now).unwrap().view(visit, &procedures).unwrap();
    assert_eq!(by_book, by_office);
}
