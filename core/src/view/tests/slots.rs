//! Tests of what stands in a slot and of the fate of all other entries.

use super::*;
use proptest::prelude::*;

const SLOT: &str = "reading/final/pressure/car";

fn final_psi(text: &str) -> Statement {
    psi(Purpose::Final, Place::Car, text, "LG-1")
}

fn live(phone: &Phone, slot: &str) -> Vec<EntryId> {
    Slots::fold(all(&phone.knows)).live(slot).map(|i| i.entry.id).collect()
}

#[test]
fn a_state_that_moves_on_leaves_one_value_and_nobody_wrong() {
    let mut phone = Phone::of("op-a", 1);
    let first = phone.says(valve(Fitting::LiquidA, ValvePosition::Shut));
    let second = phone.says(valve(Fitting::LiquidA, ValvePosition::Open));
    let slots = Slots::fold(all(&phone.knows));
    assert_eq!(live(&phone, "fitting/liquid_a/valve"), [second]);
    assert_eq!(slots.item(first).unwrap().fate, Fate::MovedOn);
    assert!(!slots.is_disputed("fitting/liquid_a/valve"));
}

#[test]
fn a_correction_stands_in_place_of_what_was_wrong_and_keeps_it_readable() {
    let mut phone = Phone::of("op-a", 1);
    let wrong = phone.says(final_psi("83"));
    let right = phone.corrects(wrong, final_psi("38"), "digits swapped");
    assert_eq!(live(&phone, SLOT), [right]);
    let view = phone.view();
    let reading = view.readings.iter().find(|r| r.slot == SLOT).unwrap();
    assert_eq!(reading.current.as_ref().unwrap().value.amount.text, "38");
    assert_eq!(reading.history.len(), 2);
    assert_eq!(reading.history[0].fate, Fate::Corrected);
    assert_eq!(reading.history[0].why_gone.en(), "digits swapped");
    assert_eq!(reading.current.as_ref().unwrap().said.why, "digits swapped");
}

#[test]
fn a_withdrawn_entry_gives_back_what_it_had_followed() {
    let mut phone = Phone::of("op-a", 1);
    let first = phone.says(valve(Fitting::LiquidA, ValvePosition::Shut));
    let mistaken = phone.says(valve(Fitting::LiquidA, ValvePosition::Open));
    phone.withdraws(mistaken, "that was the other car");
    assert_eq!(live(&phone, "fitting/liquid_a/valve"), [first]);
}

#[test]
fn a_withdrawal_stands_for_nothing_itself() {
    let mut phone = Phone::of("op-a", 1);
    let only = phone.says(final_psi("38"));
    phone.withdraws(only, "wrong car");
    assert!(live(&phone, SLOT).is_empty());
    assert!(Slots::fold(all(&phone.knows)).latest(SLOT).is_none());
}

#[test]
fn a_withdrawal_removes_only_what_it_names() {
    let mut phone = Phone::of("op-a", 1);
    let standing = phone.says(valve(Fitting::LiquidA, ValvePosition::Shut));
    let says = Statement::Withdrawn {};
    phone.seal("fitting/liquid_a/valve".into(), says, vec![standing], vec![EntryId([9; 32])], "stray");
    assert_eq!(live(&phone, "fitting/liquid_a/valve"), [standing]);
}

#[test]
fn two_phones_apart_disagree_and_one_word_settles_it() {
    let (mut a, mut b) = (Phone::of("op-a", 1), Phone::of("op-b", 2));
    let four = a.says(final_psi("4"));
    b.says(final_psi("9"));
    a.meets(&mut b);
    let view = a.view();
    assert_eq!(view.disagreements.len(), 1);
    let texts: Vec<String> = view.disagreements[0].claims.iter().map(|c| c.sentence.en()).collect();
    assert!(texts[0].contains("4 psi") && texts[1].contains("9 psi"), "{texts:?}");
    assert!(codes(&view).contains(&"disagreement.reading/final/pressure/car"));

    b.settles(SLOT, four, "read again together");
    let view = b.view();
    assert!(view.disagreements.is_empty());
    let current = view.readings[0].current.as_ref().unwrap();
    assert_eq!(current.value.amount.text, "4");
    assert_eq!(view.ended_disagreements.len(), 1);
    assert!(view.ended_disagreements[0].settled);
    assert_eq!(view.ended_disagreements[0].ended_by.said.why, "read again together");
}

#[test]
fn two_settlements_made_apart_disagree_again_unless_they_keep_the_same() {
    let (mut a, mut b) = (Phone::of("op-a", 1), Phone::of("op-b", 2));
    let four = a.says(final_psi("4"));
    let nine = b.says(final_psi("9"));
    a.meets(&mut b);
    let (mut c, mut d) = (a.clone(), b.clone());
    a.settles(SLOT, four, "mine");
    b.settles(SLOT, nine, "mine");
    a.meets(&mut b);
    assert!(Slots::fold(all(&a.knows)).is_disputed(SLOT));

    c.settles(SLOT, nine, "yours");
    d.settles(SLOT, nine, "mine");
    c.meets(&mut d);
    let slots = Slots::fold(all(&c.knows));
    assert!(!slots.is_disputed(SLOT));
    assert_eq!(slots.latest(SLOT).unwrap().claim, Some(&final_psi("9")));
}

#[test]
fn the_same_value_typed_two_ways_is_corroboration() {
    let (mut a, mut b) = (Phone::of("op-a", 1), Phone::of("op-b", 2));
    a.says(final_psi("38"));
    b.says(final_psi("38.0 psig"));
    a.meets(&mut b);
    let view = a.view();
    assert!(view.disagreements.is_empty());
    assert_eq!(view.readings[0].current.as_ref().unwrap().also, 1);
}

#[test]
fn points_of_a_series_stand_side_by_side() {
    let (mut a, mut b) = (Phone::of("op-a", 1), Phone::of("op-b", 2));
    a.says(psi(Purpose::Transfer, Place::Car, "120", ""));
    b.says(psi(Purpose::Transfer, Place::Car, "110", ""));
    let wrong = a.says(psi(Purpose::Transfer, Place::Car, "11", ""));
    a.corrects(wrong, psi(Purpose::Transfer, Place::Car, "111", ""), "a digit was missing");
    a.meets(&mut b);
    let view = a.view();
    assert!(view.disagreements.is_empty());
    let texts: Vec<&str> = view.series[0].points.iter().map(|p| p.amount.text.as_str()).collect();
    assert_eq!(texts, ["120", "110", "111"]);
    assert_eq!(view.series[0].struck.len(), 1);
    assert!(
        Slots::fold(all(&a.knows)).follows_for("series/transfer/pressure/car", a.key.public()).is_empty()
    );
}

#[test]
fn an_entry_cannot_make_another_slot_move_on() {
    let mut phone = Phone::of("op-a", 1);
    let open = phone.says(valve(Fitting::LiquidA, ValvePosition::Open));
    let says = closure(Fitting::LiquidA, ClosureState::ToolTight);
    phone.seal(says.slot(), says, vec![open], vec![], "");
    assert_eq!(live(&phone, "fitting/liquid_a/valve"), [open]);
}

#[test]
fn an_entry_filed_under_another_slot_is_read_for_what_it_says() {
    let mut phone = Phone::of("op-a", 1);
    let says = valve(Fitting::LiquidA, ValvePosition::Open);
    let id = phone.seal("fitting/liquid_b/valve".into(), says, vec![], vec![], "");
    assert_eq!(live(&phone, "fitting/liquid_a/valve"), [id]);
    assert!(finding(&phone.view(), "entry_misfiled").is_some());
}

#[test]
fn a_kind_of_entry_unknown_here_is_never_taken_for_agreement() {
    let mut phone = Phone::of("op-a", 1);
    phone.says(valve(Fitting::LiquidA, ValvePosition::Shut));
    let later = Statement::Unrecognised { kind: "valve_by_robot".into() };
    // The entry is built by hand, because this version cannot write a kind it does not know.
    let mut entry = phone.knows[0].clone();
    entry.id = EntryId([0xee; 32]);
    entry.body.says = later;
    entry.body.seq = 2;
    phone.knows.push(entry);
    let slots = Slots::fold(all(&phone.knows));
    assert!(slots.is_disputed("fitting/liquid_a/valve"));
    let view = phone.view();
    assert_eq!(view.unrecognised.len(), 1);
    assert!(codes(&view).contains(&"valve_not_shut.liquid_a"));
}

#[test]
fn two_entries_of_one_unknown_kind_are_not_taken_to_say_the_same() {
    let mut phone = Phone::of("op-a", 1);
    phone.says(valve(Fitting::LiquidA, ValvePosition::Shut));
    let unknown = |id: u8| {
        let mut entry = phone.knows[0].clone();
        entry.id = EntryId([id; 32]);
        entry.body.says = Statement::Unrecognised { kind: "valve_by_robot".into() };
        entry
    };
    let entries = [unknown(1), unknown(2)];
    assert!(Slots::fold(all(&entries)).is_disputed("fitting/liquid_a/valve"));
}

/// Two or three phones record at random, sometimes meet, and sometimes correct or withdraw.
pub(super) fn scribble(actions: &[(u8, u8, u8)]) -> Vec<Entry> {
    let mut phones = [Phone::of("op-a", 1), Phone::of("op-b", 2), Phone::of("op-c", 3)];
    for (who, what, detail) in actions {
        let who = usize::from(*who) % phones.len();
        let fitting = Fitting::ALL[usize::from(*detail) % 3];
        let known: Vec<EntryId> = phones[who].knows.iter().map(|e| e.id).collect();
        let some = known.get(usize::from(*detail) % known.len().max(1)).copied();
        let phone = &mut phones[who];
        match (what % 16, some) {
            (0, _) => drop(phone.says(opened(Receiver::FixedTank))),
            (1, _) => drop(phone.says(valve(fitting, ValvePosition::ALL[usize::from(*detail) % 2]))),
            (2, _) => drop(phone.says(closure(fitting, ClosureState::ALL[usize::from(*detail) % 3]))),
            (3, _) => drop(phone.says(quiet(fitting))),
            (4, _) => drop(phone.says(line(fitting, detail % 2 == 0))),
            (5, _) => drop(phone.says(final_psi(&format!("{}", detail % 4)))),
            (6, _) => drop(phone.says(psi(Purpose::Transfer, Place::Car, &format!("{detail}"), "PG-1"))),
            (7, Some(wrong)) => drop(phone.corrects(wrong, final_psi("7"), "wrong")),
            (8, Some(wrong)) => drop(phone.withdraws(wrong, "not so")),
            (9, Some(keeps)) => drop(phone.settles(SLOT, keeps, "settled")),
            (10, _) => drop(phone.says(protection(Protection::BlueSign, detail % 2 == 0))),
            (11, _) => drop(phone.says_because(
                Statement::PassedOver { blocker: "empty_not_accepted".into(), seen: vec![] },
                "seen",
            )),
            (12, _) => drop(phone.says(empty_accepted())),
            (13, _) => drop(phone.says(turns(fitting, &format!("{}", detail % 5)))),
            (14, _) => phone.now += i64::from(*detail) * 7 * MINUTE,
            (15, _) => {
                let other = (who + 1) % phones.len();
                let mut friend = phones[other].clone();
                phones[who].meets(&mut friend);
                phones[other] = friend;
            }
            _ => {}
        }
    }
    let mut all: Vec<Entry> = phones.into_iter().flat_map(|p| p.knows).collect();
    all.sort_by_key(|e| e.id);
    all.dedup_by_key(|e| e.id);
    all
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    #[test]
    fn any_order_and_any_doubles_give_the_same_view(
        actions in prop::collection::vec((any::<u8>(), any::<u8>(), any::<u8>()), 1..40),
        shuffle in any::<u64>(),
    ) {
        let entries = scribble(&actions);
        let now = UtcMillis(MORNING + 600 * MINUTE);
        let expected = view_of(&entries, now);
        // A deterministic shuffle in which every third entry occurs twice.
        let mut shuffled: Vec<Entry> = entries.iter().enumerate()
            .flat_map(|(i, e)| std::iter::repeat_n(e.clone(), 1 + usize::from(i % 3 == 0)))
            .collect();
        let mut dice = farsiding_testkit::Dice::of(shuffle);
        for i in (1..shuffled.len()).rev() {
            shuffled.swap(i, dice.below(i + 1));
        }
        let view = view_of(&shuffled, now);
        prop_assert_eq!(&view, &expected);
        prop_assert_eq!(view.entries, entries.len());
        // Printing is total as well and covers every entry.
        prop_assert!(show(&view).contains("does not declare the car safe"));
    }

    #[test]
    fn no_entry_disappears_from_the_history(
        actions in prop::collection::vec((any::<u8>(), any::<u8>(), any::<u8>()), 1..40),
    ) {
        let entries = scribble(&actions);
        let view = view_of(&entries, UtcMillis(MORNING));
        let mut told: Vec<EntryId> = view.history.iter().map(|line| line.said.entry).collect();
        told.sort_unstable();
        prop_assert_eq!(told, entries.iter().map(|e| e.id).collect::<Vec<_>>());
    }

    #[test]
    fn what_follows_or_replaces_stands_after_it(
        actions in prop::collection::vec((any::<u8>(), any::<u8>(), any::<u8>()), 1..40),
    ) {
        let entries = scribble(&actions);
        let slots = Slots::fold(all(&entries));
        for item in slots.items() {
            let body = &item.entry.body;
            for earlier in body.follows.iter().chain(&body.replaces).chain(&body.prev) {
                if let Some(earlier) = slots.item(*earlier) {
                    prop_assert!(earlier.place < item.place);
                }
            }
        }
    }
}

#[test]
fn a_later_entry_does_not_end_a_disagreement_but_its_own_side_may_move_on() {
    let (mut a, mut b, mut c) = (Phone::of("op-a", 1), Phone::of("op-b", 2), Phone::of("op-c", 3));
    let slot = "reading/final/pressure/car";
    a.says(psi(Purpose::Final, Place::Car, "4", ""));
    b.says(psi(Purpose::Final, Place::Car, "9", ""));
    a.meets(&mut b);
    a.meets(&mut c);
    c.says(psi(Purpose::Final, Place::Car, "9", ""));
    c.meets(&mut a);
    let claims = |view: &VisitView| view.disagreements.iter().map(|d| d.claims.len()).sum::<usize>();
    assert_eq!(claims(&a.view()), 3, "a third reading stands beside the two");
    a.says(psi(Purpose::Final, Place::Car, "9", ""));
    assert_eq!(claims(&a.view()), 0, "the one who read 4 read 9 later, as the others had");
    assert!(Slots::fold(all(&a.knows)).settled(slot).is_some());
}

#[test]
fn what_was_seen_before_the_lines_came_off_stays_before_it_however_late_it_is_settled() {
    let (mut a, mut b) = (Phone::of("op-a", 1), Phone::of("op-b", 2));
    let slot = "reading/final/pressure/car";
    let early = a.says(psi(Purpose::Final, Place::Car, "4", ""));
    b.says(psi(Purpose::Final, Place::Car, "9", ""));
    a.meets(&mut b);
    let off = a.says(Statement::Remark { text: "something happens in between".into() });
    a.settles(slot, early, "read again on the better gauge");
    let slots = Slots::fold(all(&a.knows));
    let kept = slots.settled(slot).unwrap();
    let between = slots.item(off).unwrap();
    assert!(kept.place > between.place, "the settlement comes later");
    assert!(kept.claim_place < between.place, "what it keeps does not");
    assert!(kept.claim_at < between.at);
    let view = a.view();
    let known = view.readings[0].current.clone().unwrap();
    assert_eq!(known.kept.map(|said| said.entry), Some(early));
}
