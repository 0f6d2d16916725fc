//! The part of the store contract that concerns batches of rounds.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a failed unwrap is a failed test")]

use std::sync::atomic::{AtomicBool, Ordering};

use super::contract::{Engine, Own, Place, VISIT, each, entry, on};
use super::*;
use crate::document::Document;

/// The checked change that adds one entry, made by a device of its own.
pub fn brought(n: u64) -> CheckedChange {
    let mut actor = [0; 16];
    actor[..8].copy_from_slice(&(n + 1).to_be_bytes());
    let bytes = Document::new(actor).unwrap().add(&[entry(n)]).unwrap().unwrap();
    CheckedChange::check(&bytes, VISIT).unwrap()
}

pub(super) fn round<'a>(counter: &'a str, number: u64, changes: &[&'a CheckedChange]) -> Round<'a> {
    let changes = changes.iter().map(|change| (VISIT, *change)).collect();
    let received_at = UtcMillis(i64::try_from(number).unwrap());
    Round { counter, number, changes, received_at, beside: Vec::new() }
}

pub(super) fn batch<'a>(ledger: &dyn Ledger, rounds: Vec<Round<'a>>) -> Batch<'a> {
    Batch { decided: ledger.moment().unwrap(), rounds, beside: Vec::new() }
}

/// Signs one receipt for each round that brought something new.
pub fn signed(_: &dyn Store, rounds: &[Sequenced]) -> Vec<SignedReceipt> {
    let new = rounds.iter().filter(|round| !round.new.is_empty());
    new.map(|round| {
        let entries: Vec<EntryId> = round.new.iter().map(|(_, id)| *id).collect();
        SignedReceipt { bytes: entries.iter().flat_map(|id| id.0).collect(), entries }
    })
    .collect()
}

fn rounds_of(outcome: Outcome) -> Vec<Sequenced> {
    match outcome {
        Outcome::Applied(rounds) => rounds,
        Outcome::Overtaken => panic!("nobody else wrote"),
    }
}

/// What others can tell of a ledger. Positions rise, and may leave numbers out.
pub(super) fn told(ledger: &dyn Store) -> impl PartialEq + std::fmt::Debug + use<> {
    let size = ledger.log().size().unwrap();
    let leaves: Vec<_> = (0..size).map(|n| ledger.log().leaf(n).unwrap().unwrap()).collect();
    let receipts: Vec<_> =
        leaves.iter().map(|leaf| ledger.receipts_of(leaf.entry).unwrap()).map(|r| r.len()).collect();
    let root = crate::tree::merkle::stored_root(ledger.log(), size).unwrap();
    let entries = ledger.entries_of(VISIT).unwrap().rows;
    let changes = ledger.changes_after(0, usize::MAX).unwrap();
    assert!(changes.windows(2).all(|pair| pair[0].position < pair[1].position));
    assert!(entries.windows(2).all(|pair| pair[0].position < pair[1].position));
    let entries: Vec<_> = entries.into_iter().map(|row| (row.id, row.receipted)).collect();
    let changes: Vec<_> =
        changes.into_iter().map(|row| (row.hash, Digest::of(&row.bytes), row.entries)).collect();
    let numbers = ["round/a", "round/b"].map(|counter| ledger.value(counter).unwrap());
    (entries, changes, leaves, receipts, root, ledger.tally().unwrap(), numbers)
}

/// A batch is written as commits would have written it.
pub fn a_batch_is_written_as_commits_would_have_written_it(engine: &dyn Engine) {
    let changes: Vec<CheckedChange> = (1..=5).map(brought).collect();
    let apply = |ledger: &mut dyn Ledger, by_commits: bool| {
        let all: Vec<&CheckedChange> = changes.iter().collect();
        let [one, two, three, four, five] = all[..] else { panic!("five changes") };
        let mut became = Vec::new();
        for rounds in [
            vec![round("round/a", 1, &[one, two]), round("round/b", 4, &[two, three])],
            vec![round("round/a", 1, &[four]), round("round/b", 5, &[]), round("round/b", 5, &[four])],
            vec![round("round/a", 2, &[one, five]), round("round/a", 0, &[])],
        ] {
            let batch = batch(ledger, rounds);
            let outcome = match by_commits {
                true => apply_by_commits(ledger, &batch, &mut signed),
                false => ledger.apply(&batch, &mut signed),
            };
            became.push(rounds_of(outcome.unwrap()));
        }
        (became, told(ledger))
    };
    let expected = apply(&mut MemoryStore::new(), true);
    let counts: Vec<usize> = expected.0.iter().flatten().map(|round| round.new.len()).collect();
    assert_eq!(counts, [2, 1, 0, 0, 0, 1, 0]);
    let old: Vec<_> = expected.0.iter().flatten().map(|sequenced| sequenced.old_number).collect();
    assert_eq!(old, [None, None, Some(1), None, Some(5), None, Some(2)]);
    each(engine, |ledger| assert_eq!(apply(ledger, false), expected));
    each(engine, |ledger| assert_eq!(apply(ledger, true), expected));
}

/// Fails like a connection that breaks before a commit arrives, or after it was carried out.
enum Breaks {
    Before,
    After,
}

fn over_a_bad_line(
    ledger: &mut dyn Ledger,
    batch: &Batch<'_>,
    breaks: &Breaks,
) -> Result<Outcome, ApplyError> {
    let lost = || StoreError::Database("the connection was lost".to_owned());
    match breaks {
        Breaks::Before => Err(ApplyError::NotWritten(lost())),
        Breaks::After => {
            ledger.apply(batch, &mut signed).unwrap();
            Err(ApplyError::Unknown(lost()))
        }
    }
}

/// A batch whose fate is unknown is applied again and stands once.
pub fn a_batch_whose_fate_is_unknown_is_applied_again_and_stands_once(engine: &dyn Engine) {
    let (one, two) = (brought(1), brought(2));
    let mut expected = MemoryStore::new();
    let all =
        |ledger: &dyn Ledger| batch(ledger, vec![round("round/a", 7, &[&one]), round("round/b", 9, &[&two])]);
    let once = all(&expected);
    expected.apply(&once, &mut signed).unwrap();
    for breaks in [Breaks::Before, Breaks::After] {
        each(engine, |ledger| {
            let batch = all(ledger);
            let failed = over_a_bad_line(ledger, &batch, &breaks).unwrap_err();
            assert_eq!(matches!(failed, ApplyError::Unknown(_)), matches!(breaks, Breaks::After));
            let again = rounds_of(ledger.apply(&batch, &mut signed).unwrap());
            let old: Vec<_> = again.iter().map(|round| round.old_number).collect();
            match breaks {
                Breaks::Before => assert_eq!(old, [None, None]),
                Breaks::After => assert_eq!(old, [Some(7), Some(9)], "what was written is found as old"),
            }
            assert_eq!(told(ledger), told(&expected));
        });
    }
}

/// Who was overtaken decides again.
pub fn who_was_overtaken_decides_again(engine: &dyn Engine) {
    let place = engine.place();
    let mut other: Own = None;
    let by_another = |own: &mut Own, write: Write<'_>| {
        on(&*place, own, |other| other.commit(std::slice::from_ref(&write)).unwrap());
    };
    on(&*place, &mut None, |ledger| overtaken(ledger, &mut |write| by_another(&mut other, write)));
}

fn overtaken(ledger: &mut dyn Ledger, by_another: &mut dyn FnMut(Write<'_>)) {
    let (one, two) = (brought(1), brought(2));
    let decided = batch(ledger, vec![round("round/a", 1, &[&one])]);
    by_another(Write::Value { key: "certificates/version", value: b"revoked" });
    let mut signs = |_: &dyn Store, _: &[Sequenced]| -> Vec<SignedReceipt> { panic!("nothing is signed") };
    assert_eq!(ledger.apply(&decided, &mut signs).unwrap(), Outcome::Overtaken);
    assert_eq!(ledger.tally().unwrap().count, 0);
    let again = batch(ledger, vec![round("round/a", 1, &[&one])]);
    rounds_of(ledger.apply(&again, &mut signed).unwrap());
    // Its own writes overtake nobody.
    let own = batch(ledger, vec![round("round/a", 2, &[&two])]);
    ledger.commit(&[Write::Value { key: "own", value: b"write" }]).unwrap();
    rounds_of(ledger.apply(&own, &mut signed).unwrap());
}

/// Has several writers apply their changes at once, each in batches of its own, while `meanwhile` runs.
fn written_at_once(place: &dyn Place, writers: u64, batches: u64, meanwhile: impl FnOnce(&AtomicBool)) {
    let changes: Vec<Vec<CheckedChange>> =
        (0..writers).map(|w| (0..batches).map(|b| brought(1 + w * batches + b)).collect()).collect();
    let done = AtomicBool::new(false);
    std::thread::scope(|threads| {
        let writing: Vec<_> = (0u64..)
            .zip(&changes)
            .map(|(writer, changes)| {
                threads.spawn(move || {
                    let (mut own, counter): (Own, _) = (None, format!("round/{writer}"));
                    for (number, change) in (1u64..).zip(changes) {
                        loop {
                            let outcome = on(place, &mut own, |ledger| {
                                let batch = batch(ledger, vec![round(&counter, number, &[change])]);
                                ledger.apply(&batch, &mut signed)
                            });
                            match outcome {
                                Ok(Outcome::Applied(rounds)) => {
                                    assert_eq!(rounds[0].new.len(), 1);
                                    break;
                                }
                                Ok(Outcome::Overtaken) | Err(ApplyError::NotWritten(StoreError::Busy)) => {}
                                Err(error) => panic!("{error}"),
                            }
                        }
                    }
                })
            })
            .collect();
        let done = &done;
        threads.spawn(move || {
            writing.into_iter().for_each(|writer| writer.join().unwrap());
            done.store(true, Ordering::Release);
        });
        meanwhile(done);
    });
}

/// Two writers at once lose nothing and write nothing twice.
pub fn two_writers_at_once_lose_nothing_and_write_nothing_twice(engine: &dyn Engine) {
    let place = &*engine.place();
    written_at_once(place, 2, 25, |_| ());
    on(place, &mut None, |ledger| {
        let size = ledger.log().size().unwrap();
        assert_eq!((size, ledger.tally().unwrap().count), (50, 50));
        assert_eq!(ledger.changes_after(0, usize::MAX).unwrap().len(), 50);
        assert_eq!(ledger.count_without_receipt().unwrap(), 0);
        let leaves: Vec<Digest> = (0..size).map(|n| ledger.log().leaf(n).unwrap().unwrap().hash()).collect();
        let root = crate::tree::merkle::stored_root(ledger.log(), size).unwrap();
        assert_eq!(root, crate::tree::merkle::root(&leaves), "the hashes fit the leaves");
    });
}

/// A reader that polls while sixteen write meets every position once.
pub fn a_reader_that_polls_while_sixteen_write_meets_every_position_once(engine: &dyn Engine) {
    let place = &*engine.place();
    let mut met: Vec<(u64, Digest)> = Vec::new();
    written_at_once(place, 16, 4, |done| {
        let mut own: Own = None;
        loop {
            let last = done.load(Ordering::Acquire);
            let after = met.last().map_or(0, |(position, _)| *position);
            let page = on(place, &mut own, |ledger| ledger.changes_after(after, 2000).unwrap());
            met.extend(page.iter().map(|change| (change.position, change.hash)));
            if last && page.is_empty() {
                break;
            }
        }
    });
    let all = on(place, &mut None, |ledger| ledger.changes_after(0, usize::MAX).unwrap());
    assert_eq!(met.len(), 64);
    assert_eq!(met, all.iter().map(|change| (change.position, change.hash)).collect::<Vec<_>>());
}

/// Ids are kept beside a change and believed only if they belong to it.
pub fn ids_are_kept_beside_a_change_and_believed_only_if_they_belong_to_it(engine: &dyn Engine) {
    let change = brought(1);
    each(engine, |ledger| {
        let brings = batch(ledger, vec![round("round/a", 1, &[&change])]);
        ledger.apply(&brings, &mut signed).unwrap();
        let kept = ledger.changes_after(0, usize::MAX).unwrap();
        assert_eq!(kept[0].entries.as_deref(), Some([entry(1).id].as_slice()));
    });
    let kept = ledger::ids_kept(&change);
    for at in 0..kept.len() {
        let mut damaged = kept.clone();
        damaged[at] ^= 1;
        assert_eq!(ledger::ids_read(change.hash(), &damaged), None, "byte {at}");
        assert_eq!(ledger::ids_read(change.hash(), &kept[..at]), None, "cut at {at}");
    }
    assert_eq!(ledger::ids_read(Digest([9; 32]), &kept), None, "of another change");
}
