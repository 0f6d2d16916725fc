//! Tests of settlements: the kept entry is the agreed one, and withdrawing the settlement reopens the
//! disagreement.

use super::*;
use crate::book::Draft;

const SLOT: &str = "reading/final/pressure/car";

/// Two phones read the same gauge differently and meet, and the first one settles in favour of its own
/// reading.
fn settled() -> (Phone, Phone, [EntryId; 3]) {
    let (mut a, mut b) = (Phone::of("op-a", 1), Phone::of("op-b", 2));
    let four = a.says(psi(Purpose::Final, Place::Car, "4", ""));
    let nine = b.says(psi(Purpose::Final, Place::Car, "9", ""));
    a.meets(&mut b);
    let settlement = a.settles(SLOT, four, "read again together");
    a.meets(&mut b);
    (a, b, [four, nine, settlement])
}

fn fate(phone: &Phone, entry: EntryId) -> Fate {
    Slots::fold(all(&phone.knows)).item(entry).unwrap().fate
}

#[test]
fn the_account_that_was_kept_is_agreed_on_and_only_the_other_no_longer_stands() {
    let (a, b, [four, nine, settlement]) = settled();
    for phone in [&a, &b] {
        assert_eq!(fate(phone, four), Fate::Agreed);
        assert_eq!(fate(phone, nine), Fate::Settled);
        assert_eq!(fate(phone, settlement), Fate::Live);
        let view = phone.view();
        assert_eq!(view.ended_disagreements[0].agreed, Some(four));
        assert_eq!(view.ended_disagreements[0].reopened_by_withdrawing, Some(settlement));
    }
}

#[test]
fn a_settlement_taken_back_leaves_both_accounts_against_each_other_everywhere() {
    let (mut a, mut b, [four, nine, settlement]) = settled();
    let back = a.withdraws(settlement, "we had read the wrong gauge");
    a.meets(&mut b);
    let mut backwards = b.knows.clone();
    backwards.reverse();
    for entries in [&a.knows, &b.knows, &backwards] {
        let view = view_of(entries, UtcMillis(MORNING + 60 * MINUTE));
        let open = &view.disagreements[0];
        assert_eq!(open.slot, SLOT);
        let mut differ = open.entries.clone();
        differ.sort_unstable();
        let mut both = vec![four, nine];
        both.sort_unstable();
        assert_eq!(differ, both);
        let reopened: Vec<EntryId> = open.reopened.iter().map(|claim| claim.said.entry).collect();
        assert_eq!(reopened, [back]);
        assert_eq!(open.reopened[0].said.why, "we had read the wrong gauge");
        assert!(view.ended_disagreements.is_empty(), "{:?}", view.ended_disagreements);
        let line = view.history.iter().find(|line| line.said.entry == settlement).unwrap();
        assert_eq!(
            (line.fate, line.why_gone.en().as_str()),
            (Fate::Withdrawn, "we had read the wrong gauge")
        );
    }
}

#[test]
fn it_can_be_settled_again_the_other_way() {
    let (mut a, mut b, [four, nine, settlement]) = settled();
    a.withdraws(settlement, "the wrong gauge");
    a.meets(&mut b);
    b.settles(SLOT, nine, "read on the right one");
    b.meets(&mut a);
    for phone in [&a, &b] {
        assert_eq!((fate(phone, four), fate(phone, nine)), (Fate::Settled, Fate::Agreed));
        assert!(phone.view().disagreements.is_empty());
    }
}

#[test]
fn what_was_recorded_after_a_settlement_came_after_what_it_settled() {
    let (mut a, _, [four, nine, settlement]) = settled();
    let later = a.says(psi(Purpose::Final, Place::Car, "2", ""));
    a.withdraws(settlement, "the wrong gauge");
    assert_eq!((fate(&a, four), fate(&a, nine)), (Fate::MovedOn, Fate::MovedOn));
    assert_eq!(fate(&a, later), Fate::Live);
    assert!(a.view().disagreements.is_empty());
}

#[test]
fn an_agreement_over_an_agreement_keeps_what_the_first_kept_or_does_not() {
    let (mut a, mut b, [four, nine, settlement]) = settled();
    let mut c = Phone::of("op-c", 3);
    let other = c.says(psi(Purpose::Final, Place::Car, "7", ""));
    a.meets(&mut c);
    a.meets(&mut b);
    let second = b.settles(SLOT, settlement, "four it was");
    assert_eq!(
        (fate(&b, four), fate(&b, settlement), fate(&b, other)),
        (Fate::Agreed, Fate::Agreed, Fate::Settled)
    );
    b.withdraws(second, "not yet");
    b.settles(SLOT, other, "seven after all");
    assert_eq!(
        (fate(&b, four), fate(&b, nine), fate(&b, other)),
        (Fate::Settled, Fate::Settled, Fate::Agreed)
    );
}

#[test]
fn only_a_settlement_that_stands_is_reopened_and_only_with_a_reason() {
    let (mut a, _, [four, nine, settlement]) = settled();
    for named in [four, nine, settlement] {
        let draft = Draft::reopening(&a.view(), named, "the wrong gauge").unwrap();
        assert_eq!(draft.replaces, [settlement]);
        assert!(matches!(draft.says, Statement::Withdrawn {}));
    }
    a.withdraws(settlement, "the wrong gauge");
    assert!(Draft::reopening(&a.view(), settlement, "again").is_err());
}
