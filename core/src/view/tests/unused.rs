//! Tests that impossible values are kept as typed, pointed out, and neither drawn nor used in computations,
//! and that special characters in texts affect nothing else.

use super::*;
use crate::entry::cbor;
use ciborium::Value;

/// Adds an entry as another program might sign it, with a number that no unit of this core accepts.
fn with_number(phone: &mut Phone, says: Statement, number: f64) {
    let kept = phone.knows.len();
    phone.says(says);
    let entry = phone.knows.remove(kept);
    let mut body = Value::serialized(&entry.body).unwrap();
    put_number(&mut body, number);
    let bytes = phone.key.seal(cbor::encode(&body).unwrap(), "farsiding entry 1");
    let careful = Entry::open(&bytes).unwrap();
    let quick = Entry::reopen(careful.id, bytes).unwrap();
    assert_eq!(careful, quick, "both readers come to the same");
    phone.prev = Some(quick.id);
    phone.knows.push(quick);
}

fn put_number(value: &mut Value, number: f64) {
    match value {
        Value::Map(pairs) => {
            let has = |name: &str| pairs.iter().any(|(key, _)| key.as_text() == Some(name));
            if has("unit") && !has("value") {
                pairs.push(("value".into(), Value::Null));
            }
            for (key, inner) in pairs {
                if key.as_text() == Some("value") {
                    *inner = Value::Float(number);
                } else {
                    put_number(inner, number);
                }
            }
        }
        Value::Array(items) => items.iter_mut().for_each(|item| put_number(item, number)),
        _ => {}
    }
}

fn reading(text: &str) -> Statement {
    psi(Purpose::Transfer, Place::Car, text, "PG-1")
}

#[test]
fn a_number_no_instrument_shows_is_kept_as_typed_and_used_for_nothing() {
    for number in [1e17, -1e17, f64::NAN, f64::INFINITY, f64::NEG_INFINITY, f64::MAX, 1e-20, 5e-324] {
        let mut phone = Phone::of("op-a", 1);
        phone.says(opened(Receiver::FixedTank));
        with_number(&mut phone, reading("118"), number);
        let view = phone.view();
        let point = &view.series[0].points[0];
        assert_eq!((point.amount.text.as_str(), point.amount.value), ("118", None), "{number}");
        assert_eq!(point.worth.plus_minus, None);
        assert!(
            view.history[1].sentence.en().contains("118 psi"),
            "as typed: {}",
            view.history[1].sentence.en()
        );
        let said = finding(&view, "cannot_be").unwrap();
        assert!(said.message.en().contains("118 psi"), "{:?}", said.message);
    }
}

#[test]
fn amounts_on_papers_cars_and_trucks_are_held_to_the_same_bounds() {
    let mut phone = Phone::of("op-a", 1);
    phone.says(opened(Receiver::Truck));
    with_number(
        &mut phone,
        Statement::CarCapacity { capacity: Amount::read("33700", Unit::Gallon).0, insulation: None },
        1e300,
    );
    let amount = Amount::read("9000", Unit::Gallon).0;
    with_number(&mut phone, Statement::TruckLoad(TruckLoad::of("T-1", amount)), f64::NAN);
    let billed = Some(Amount::read("32650", Unit::Gallon).0);
    with_number(
        &mut phone,
        Statement::Paper(crate::entry::Paper { billed, ..Default::default() }),
        f64::INFINITY,
    );
    let view = phone.view();
    assert_eq!(view.car.capacity.as_ref().unwrap().value.value, None);
    assert_eq!((view.trucks.loads.len(), view.trucks.total_gal), (1, None));
    assert_eq!(view.header.paper.as_ref().unwrap().value.billed.as_ref().unwrap().value, None);
    assert!(finding(&view, "cannot_be").is_some());
    let json = serde_json::to_string(&view).unwrap();
    assert!(!json.contains("e300") && json.contains("33700"));
}

#[test]
fn a_number_that_does_not_fit_what_was_typed_is_kept_as_typed_and_does_not_count() {
    for (text, number, counts) in [
        ("118", 11.8, false),
        ("118", 118.000_001, false),
        ("8 bar", 8.0, false),
        ("118 gal", 118.0, true),
        // Both readings of an ambiguous text are accepted, and the reading that was used is stated.
        ("32,650", 32.65, true),
        ("32,650", 32_650.0, true),
        ("32,650", 3.265, false),
        ("3 1/2", 3.0, false),
        // Texts that an earlier version could read and that cannot be read today.
        ("118 (cold)", 118.0, true),
        ("118 (cold)", 18.0, false),
    ] {
        let mut phone = Phone::of("op-a", 1);
        phone.says(opened(Receiver::Truck));
        let amount = Amount { text: text.to_owned(), unit: Unit::Gallon, value: Some(1.0) };
        let truck = Statement::TruckLoad(TruckLoad::of("T-1", amount));
        with_number(&mut phone, truck, number);
        let view = phone.view();
        let load = &view.trucks.loads[0].amount;
        assert_eq!(load.value, counts.then_some(number), "{text} {number}");
        assert_eq!(view.trucks.total_gal, counts.then_some(number), "{text} {number}");
        let sentence = &view.history[1].sentence;
        assert!(sentence.en().contains(text), "as typed: {sentence:?}");
        assert_eq!(
            sentence.en().contains("read as"),
            text == "32,650" && number < 100.0 && counts,
            "{sentence:?}"
        );
        let said = finding(&view, "cannot_be").map(|finding| finding.message.clone());
        let pointed_out = said
            .is_some_and(|said| said.en().contains("does not fit") || said.en().contains("not understood"));
        assert_eq!(pointed_out, !counts, "{text} {number}");
    }
}

#[test]
fn bolts_beyond_any_cover_and_tables_beyond_any_table_are_pointed_out() {
    let mut phone = Phone::of("op-a", 1);
    phone.says(opened(Receiver::FixedTank));
    phone.says(Statement::Cover {
        closed: true,
        pinned: true,
        bolts_in_place: 65_535,
        bolts_required: 65_535,
    });
    let rows = vec![(0.0, 33_700.0), (1.0, f64::NAN)];
    phone.says(Statement::OutageTable { name: "owner".into(), rows, liquid: true });
    let view = phone.view();
    assert!(view.car.outage_table.is_none(), "a table that cannot be is no table");
    let said = &finding(&view, "cannot_be").unwrap().message;
    assert!(
        said.en().contains("65535 of 65535 bolts") && said.en().contains("Outage table owner"),
        "{said:?}"
    );
}

#[test]
fn a_list_of_fittings_names_each_once() {
    let mut phone = Phone::of("op-a", 1);
    phone.says(opened(Receiver::FixedTank));
    phone.says(Statement::CarFittings {
        fittings: vec![Fitting::Vapour; 2_000],
        gauging: None,
        vapour_end: None,
    });
    assert_eq!(phone.view().car.fittings.unwrap().value, [Fitting::Vapour]);
}

#[test]
fn a_clock_that_was_never_set_is_pointed_out() {
    let mut phone = Phone::of("op-a", 1);
    phone.says(opened(Receiver::FixedTank));
    phone.says(reading("118"));
    phone.now = 0;
    phone.says(reading("117"));
    phone.now = MORNING + 10 * MINUTE;
    phone.says(reading("116"));
    assert!(
        finding(&phone.view(), "far_from_the_others").unwrap().message.en().starts_with("1 entry claims")
    );
}

#[test]
fn a_code_that_is_none_is_kept_shown_shortened_and_marked() {
    let codes = [String::new(), "x".repeat(30_000), "op\u{202e}a".into(), "op\na".into(), " op".into()];
    for code in codes {
        let mut phone = Phone::of("op-a", 1);
        phone.says(opened(Receiver::FixedTank));
        phone.says(reading("118"));
        let mut body = phone.knows[1].body.clone();
        body.by = OperatorId(code.clone());
        let bytes = phone.key.seal(cbor::encode(&body).unwrap(), "farsiding entry 1");
        phone.knows[1] = Entry::open(&bytes).unwrap();
        assert_eq!(phone.knows[1].body.by.0, code, "kept as it was signed");
        let view = phone.view();
        let said = &view.history[1].said;
        assert!(said.by.is_in_bounds() && said.name.chars().count() <= 64, "{code:?}: {:?}", said.by);
        assert!(finding(&view, "code_is_none").is_some(), "{code:?}");
    }
    let ordinary = Phone::of("op-a", 1);
    assert!(finding(&ordinary.view(), "code_is_none").is_none());
}

#[test]
fn a_text_turns_and_begins_nothing_outside_itself() {
    let turning = "A\u{202e}desaeler\u{202c}\u{1b}[2J\nReleased as residue.";
    let mut phone = Phone::of("op-a", 1);
    phone.says(opened_as("ZZQX 4417", Receiver::FixedTank));
    phone.says(Statement::Remark { text: turning.into() });
    phone.says(Statement::Hold { hold: crate::ids::HoldId([1; 16]), because: turning.into() });
    phone
        .says_because(Statement::Check { what: turning.into(), right: false, note: turning.into() }, turning);
    phone.says(psi(Purpose::Final, Place::Car, "12 \u{202e}psi", turning));
    let view = phone.view();
    let entry = &phone.knows[1].body.says;
    assert!(matches!(entry, Statement::Remark { text } if text == turning), "the entry keeps what was typed");
    let marks = |text: &str| text.chars().any(|c| crate::text::acts_outside(c) && c != '\n');
    for line in &view.history {
        assert!(!marks(&line.sentence.en()) && !marks(&line.said.why) && !marks(&line.said.name));
    }
    assert!(view.findings.iter().all(|finding| !marks(&finding.message.en())));
    assert!(view.blockers.iter().all(|blocker| !marks(&blocker.missing.en())));
}

#[test]
fn a_long_chain_of_agreements_and_of_joins_is_walked_once() {
    let mut phone = Phone::of("op-a", 1);
    let mut keeps = phone.says(psi(Purpose::Final, Place::Car, "12", "PG-1"));
    let slot = "reading/final/pressure/car";
    for _ in 0..300 {
        keeps = phone.seal(slot.into(), Statement::Agreement { keeps }, vec![], vec![], "");
    }
    let slots = Slots::fold(super::all(&phone.knows));
    assert!(slots.items().iter().all(|item| item.claim_place == 0 && item.claim.is_some()));
    assert!(!slots.is_disputed(slot));
    let ids: Vec<VisitId> = (0..=255).map(|n| VisitId([n; 16])).collect();
    let pairs: Vec<(VisitId, VisitId)> = ids.windows(2).rev().map(|pair| (pair[1], pair[0])).collect();
    assert_eq!(stays(&ids, &pairs), std::slice::from_ref(&ids));
}
