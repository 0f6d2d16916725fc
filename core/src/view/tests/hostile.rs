//! Tests that folding and printing are total, whatever an entry contains.

use super::*;
use crate::entry::StatementKind;
use crate::entry::spec::{Shape, Vocabulary};
use crate::ids::{DefectId, HoldId};
use proptest::prelude::*;
use serde_json::{Value, json};

fn any_text() -> impl Strategy<Value = String> {
    prop_oneof![Just(String::new()), ".{0,12}", Just("\u{202e}x\u{0}".to_owned()), Just("9".repeat(40))]
}

fn any_fitting() -> impl Strategy<Value = Fitting> {
    prop::sample::select(Fitting::ALL.to_vec())
}

fn any_amount() -> impl Strategy<Value = Amount> {
    let units = prop::sample::select(Unit::ALL.to_vec());
    let value = prop_oneof![
        Just(None),
        Just(Some(f64::MAX)),
        Just(Some(-f64::MAX)),
        Just(Some(f64::MIN_POSITIVE)),
        (-1e3..1e5_f64).prop_map(Some),
    ];
    (any_text(), units, value).prop_map(|(text, unit, value)| Amount { text, unit, value })
}

fn any_time() -> impl Strategy<Value = UtcMillis> {
    prop_oneof![
        Just(i64::MIN),
        Just(i64::MAX),
        Just(8_210_266_876_799_999),
        Just(-8_334_601_228_800_000),
        MORNING..MORNING + 100_000 * MINUTE,
    ]
    .prop_map(UtcMillis)
}

fn any_statement() -> impl Strategy<Value = Statement> {
    let places = prop::sample::select(Place::ALL.to_vec());
    let purposes = prop::sample::select(Purpose::ALL.to_vec());
    let measured = prop::sample::select(Measured::ALL.to_vec());
    prop_oneof![
        (measured, places, purposes, any_amount(), any_text()).prop_map(
            |(measured, place, purpose, amount, instrument)| Statement::Reading(Reading {
                measured,
                place,
                purpose,
                amount,
                instrument
            })
        ),
        (any_text(), any_text()).prop_map(|(step, note)| Statement::Step {
            step,
            outcome: StepOutcome::Skipped,
            note
        }),
        (any_fitting(), any_amount()).prop_map(|(fitting, engaged)| Statement::Threads { fitting, engaged }),
        (any_fitting(), any_amount()).prop_map(|(fitting, amount)| Statement::Effort {
            fitting,
            part: Part::Valve,
            amount
        }),
        (any_fitting(), any::<bool>()).prop_map(|(fitting, on)| line(fitting, on)),
        any_text().prop_map(|item| Statement::ItemOut { item, fitting: None }),
        any_text().prop_map(|item| Statement::ItemIn { item }),
        any_time().prop_map(|at| Statement::Clock { event: ClockEvent::Notice, at }),
        (any_text(), any_time()).prop_map(|(by, at)| Statement::Authority {
            defect: DefectId([1; 16]),
            by,
            reference: String::new(),
            spoken_at: Some(at),
            written_at: None
        }),
        any_text().prop_map(|because| Statement::Hold { hold: HoldId([1; 16]), because }),
        (any::<u16>(), any::<u16>()).prop_map(|(bolts_in_place, bolts_required)| Statement::Cover {
            closed: true,
            pinned: true,
            bolts_in_place,
            bolts_required
        }),
        any_text().prop_map(|number| Statement::CarNumberAgain {
            car: crate::entry::car_number::CarNumber(number)
        }),
        any_amount().prop_map(|capacity| Statement::CarCapacity { capacity, insulation: None }),
        any_amount().prop_map(|diameter| Statement::CarDiameter { diameter }),
        prop::collection::vec((-1e9..1e9_f64, -1e9..1e9_f64), 0..6).prop_map(|rows| Statement::OutageTable {
            name: String::new(),
            rows,
            liquid: false
        }),
        any_text().prop_map(|due| Statement::CarTestDate { test: TestDate::ReliefDevice, due }),
        (any_text(), any_text()).prop_map(|(blocker, _)| Statement::PassedOver { blocker, seen: vec![] }),
        any_amount().prop_map(|amount| Statement::TruckLoad(TruckLoad::of("T", amount))),
        any_text().prop_map(|un_number| Statement::Paper(crate::entry::Paper {
            un_number,
            billed: Some(Amount::of(1.0, Unit::Pound)),
            ..Default::default()
        })),
        Just(opened(Receiver::Truck)),
        Just(empty_accepted()),
        Just(Statement::Withdrawn {}),
        Just(Statement::Agreement { keeps: EntryId([5; 32]) }),
        Just(Statement::Joined { other: VisitId([3; 16]) }),
        any_of_the_table(),
    ]
}

/// Generates a statement of any kind in the table, with any value in every field.
fn any_of_the_table() -> impl Strategy<Value = Statement> {
    let kinds = prop::sample::select(StatementKind::ALL.to_vec());
    let values = prop::collection::vec((any_text(), any_amount(), any_time(), any::<u8>()), 8);
    (kinds, values).prop_map(|(kind, values)| {
        let mut values = values.iter().cycle();
        let made = kind.made_of(|field| values.next().map(|value| any_value(field.shape, value)));
        made.unwrap_or_else(|error| panic!("{}: {error}", kind.spec().word))
    })
}

/// Generates a value of a field's shape in its JSON form.
fn any_value(shape: Shape, (text, amount, at, byte): &(String, Amount, UtcMillis, u8)) -> Value {
    let id = |length: usize| json!(format!("{:02x}", byte % 4).repeat(length));
    let word = |vocabulary: Vocabulary| {
        let words = vocabulary.words();
        words[usize::from(*byte) % words.len()]
    };
    match shape {
        Shape::Text | Shape::Prose | Shape::Person | Shape::CarNumber | Shape::Date | Shape::Coded(_) => {
            json!(text)
        }
        Shape::Word(vocabulary) => json!(word(vocabulary)),
        Shape::Words(vocabulary) => json!(vec![word(vocabulary); usize::from(byte % 3)]),
        Shape::Amount(_) | Shape::AmountOf(_) => json!(amount),
        Shape::YesNo => json!(byte % 2 == 0),
        Shape::Count => json!(byte),
        Shape::Time => json!(at),
        Shape::Table => json!(vec![(f64::from(*byte), -1e9); usize::from(byte % 4)]),
        Shape::Defect
        | Shape::Hold
        | Shape::Incident
        | Shape::Leak
        | Shape::Note
        | Shape::Visit
        | Shape::Site
        | Shape::Nonce => id(16),
        Shape::Entry | Shape::Key | Shape::Procedure | Shape::Photo | Shape::File | Shape::Commitment => {
            id(32)
        }
        Shape::ProcedureText => json!(text),
        Shape::Sites => json!(vec![id(16); usize::from(byte % 4)]),
        Shape::Entries | Shape::Commitments => json!(vec![id(32); usize::from(byte % 4)]),
        Shape::Items => json!(vec!["cover_bolts"; usize::from(byte % 4)]),
        Shape::LastEntry => json!({ "seq": byte, "entry": id(32) }),
        Shape::PhotoFile => json!({ "sha256": id(32), "length": byte, "media": text }),
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn no_entry_whatever_it_holds_breaks_the_fold(
        said in prop::collection::vec(
            (any_statement(), any_time(), any::<i16>(), prop::option::of(any::<i64>()), any::<u8>()),
            0..24,
        ),
        now in any_time(),
    ) {
        let mut entries: Vec<Entry> = Vec::new();
        for (n, (says, at, offset_minutes, ahead_millis, links)) in said.into_iter().enumerate() {
            let key = DeviceKey::from_secret([links % 3 + 1; 32]);
            let some: Vec<EntryId> = entries.iter().map(|e| e.id).filter(|id| id.0[0] & 7 == links & 7).collect();
            let body = Body {
                about: Subject::Visit(VisitId([links % 2; 16])),
                slot: if links & 8 == 0 { says.slot() } else { "elsewhere".into() },
                says,
                follows: some.clone(),
                replaces: if links & 16 == 0 { vec![] } else { some },
                why: "why".into(),
                by: OperatorId("x".into()),
                seq: u64::from(links % 5).wrapping_sub(u64::from(links & 32 != 0) * n as u64),
                prev: (links & 64 != 0).then_some(EntryId([links; 32])),
                when: Stamp { at, offset_minutes, ahead_millis },
                place: None,
                seen: None,
                hand: None,
                done: ahead_millis.map(UtcMillis),
                rests_on: entries.last().filter(|_| links & 2 == 0).map(|entry| RestsOn {
                    visit: VisitId([links % 4; 16]),
                    entry: entry.id,
                }),
            };
            entries.push(Entry::seal(body, &key).unwrap());
        }
        let site = SiteView { zone: "America/Chicago".into(), elevation: Some(Amount::of(9e9, Unit::Foot)), ..SiteView::default() };
        let procedures = Procedures::built_in().unwrap();
        let recorded: Vec<Recorded<'_>> = entries.iter().map(Recorded::unsent).collect();
        let ctx = Context { site: Some(&site), track: &recorded, ..Context::at(now, &procedures) };
        let view = fold(&recorded, &ctx);
        let reversed: Vec<Recorded<'_>> = entries.iter().rev().map(Recorded::unsent).collect();
        prop_assert_eq!(&fold(&reversed, &ctx), &view);
        prop_assert!(!show(&view).is_empty());
        prop_assert!(serde_json::to_string(&view).is_ok());
        prop_assert_eq!(view.history.len(), entries.len());
        let _ = VisitRow::of(&view);
    }
}

#[test]
fn a_device_that_lies_about_its_sequence_cannot_hide_entries() {
    let mut phone = Phone::of("op-a", 1);
    phone.seq = 10;
    let first = phone.says(opened(Receiver::FixedTank));
    // The second entry claims an earlier time than the first, which it follows.
    phone.seq = 3;
    let says = psi(Purpose::Arrival, Place::Car, "118", "PG-1");
    phone.seal(says.slot(), says, vec![first], vec![], "");
    assert_eq!(phone.view().history.len(), 2);
}
