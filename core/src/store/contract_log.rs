//! The part of the store contract that concerns the transparency log.
#![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]

use super::contract::{Engine, VISIT, each, entry};
use super::*;
use crate::tree::{LogLeaf, merkle};

fn log_of(store: &dyn Store) -> Vec<LogLeaf> {
    (0..store.log().size().unwrap()).map(|n| store.log().leaf(n).unwrap().unwrap()).collect()
}

/// Leaves stand in order of arrival and their times never fall.
pub fn leaves_stand_in_order_of_arrival_and_their_times_never_fall(engine: &dyn Engine) {
    each(engine, |store| {
        let entries: Vec<Entry> = (1..5).map(entry).collect();
        for (entry, millis) in entries.iter().zip([10, 30, 20, 40]) {
            let leaf = Write::Leaf { entry: entry.id, received_at: UtcMillis(millis), about: None };
            store.commit(&[Write::Entry { subject: VISIT, entry }, leaf]).unwrap();
        }
        let again = Write::Leaf { entry: entries[0].id, received_at: UtcMillis(99), about: None };
        let stranger = Write::Leaf { entry: EntryId([9; 32]), received_at: UtcMillis(99), about: None };
        store.commit(&[again, stranger]).unwrap();
        let leaves = log_of(store);
        assert_eq!(
            leaves.iter().map(|l| l.entry).collect::<Vec<_>>(),
            entries.iter().map(|e| e.id).collect::<Vec<_>>()
        );
        assert_eq!(leaves.iter().map(|l| l.received_at.0).collect::<Vec<_>>(), [10, 30, 30, 40]);
        assert_eq!(store.log().place(entries[2].id).unwrap(), Some((2, UtcMillis(30))));
        assert_eq!(store.log().received_at(entries[3].id).unwrap(), Some(UtcMillis(40)));
        assert_eq!(store.log().received_at(EntryId([9; 32])).unwrap(), None);
    });
}

/// Stored hashes give the roots and paths of the leaves at every size.
pub fn stored_hashes_give_the_roots_and_paths_of_the_leaves_at_every_size(engine: &dyn Engine) {
    each(engine, |store| {
        for n in 1..=37 {
            let entry = entry(n);
            let leaf = Write::Leaf {
                entry: entry.id,
                received_at: UtcMillis(n as i64),
                about: Some(entry.body.about),
            };
            store.commit(&[Write::Entry { subject: VISIT, entry: &entry }, leaf]).unwrap();
        }
        let hashes: Vec<Digest> = log_of(store).into_iter().map(LogLeaf::hash).collect();
        for size in 0..=37 {
            let tree = &hashes[..size];
            assert_eq!(merkle::stored_root(store.log(), size as u64).unwrap(), merkle::root(tree));
            for at in 0..size {
                let path = merkle::stored_path(store.log(), at as u64, size as u64).unwrap();
                assert_eq!(path, merkle::path(tree, at));
                let from = merkle::stored_consistency(store.log(), at as u64, size as u64).unwrap();
                assert_eq!(from, merkle::consistency(tree, at));
            }
        }
        assert!(merkle::stored_root(store.log(), 38).is_err(), "there is no such tree");
    });
}

/// Entries without a leaf are found in order of arrival.
pub fn entries_without_a_leaf_are_found_in_order_of_arrival(engine: &dyn Engine) {
    each(engine, |store| {
        let entries: Vec<Entry> = (1..5).map(entry).collect();
        for entry in &entries {
            store.commit(&[Write::Entry { subject: VISIT, entry }]).unwrap();
        }
        store
            .commit(&[Write::Leaf { entry: entries[1].id, received_at: UtcMillis(1), about: None }])
            .unwrap();
        assert_eq!(store.log().without_leaf(9).unwrap(), [entries[0].id, entries[2].id, entries[3].id]);
        assert_eq!(store.log().without_leaf(1).unwrap(), [entries[0].id]);
    });
}

/// Checkpoints come back by age and size and a stamped one is found first.
pub fn checkpoints_come_back_by_age_and_size_and_a_stamped_one_is_found_first(engine: &dyn Engine) {
    each(engine, |store| {
        let checkpoint = |size, note: &'static str, at| Write::Checkpoint {
            origin: "log",
            size,
            note,
            at: UtcMillis(at),
            since: b"path",
        };
        assert_eq!(store.log().newest_checkpoint().unwrap(), None);
        let three = [checkpoint(3, "three", 1), checkpoint(8, "eight", 2), checkpoint(9, "nine", 3)];
        store.commit(&three).unwrap();
        store.commit(&[checkpoint(3, "three, cosigned", 4)]).unwrap();
        assert_eq!(store.log().newest_checkpoint().unwrap().unwrap().size, 9);
        let first = store.log().first_checkpoint_of(2, false).unwrap().unwrap();
        assert_eq!((first.note.as_str(), first.at, first.stamp), ("three, cosigned", UtcMillis(1), None));
        assert_eq!(store.log().first_checkpoint_of(4, false).unwrap().unwrap().size, 8);
        assert_eq!(store.log().first_checkpoint_of(10, false).unwrap(), None);
        assert_eq!(store.log().first_checkpoint_of(1, true).unwrap(), None);
        let stamp = |size, token: &'static [u8], at| Write::TimeStamp {
            origin: "log",
            size,
            note: "as stamped",
            token,
            at: UtcMillis(at),
        };
        store.commit(&[stamp(9, b"later", 60), stamp(9, b"token", 50), stamp(77, b"of none", 50)]).unwrap();
        let stamped = store.log().first_checkpoint_of(1, true).unwrap().unwrap();
        let expected = StoredStamp { note: "as stamped".into(), token: b"token".to_vec(), at: UtcMillis(50) };
        assert_eq!((stamped.size, stamped.stamp), (9, Some(expected)));
        assert_eq!(stamped.since, b"path");
        assert_eq!(store.log().checkpoint("log", 8).unwrap().unwrap().note, "eight");
        assert_eq!(store.log().checkpoint("other", 8).unwrap(), None);
    });
}

/// The smallest checkpoint that others signed too is found.
pub fn the_smallest_checkpoint_that_others_signed_too_is_found(engine: &dyn Engine) {
    each(engine, |store| {
        let checkpoint = |origin, size, note: &'static str| Write::Checkpoint {
            origin,
            size,
            note,
            at: UtcMillis(1),
            since: b"",
        };
        store
            .commit(&[
                checkpoint("log", 3, "log\n3\nroot\n\n\u{2014} log AAAA\n"),
                checkpoint("other", 4, "other\n4\nroot\n\n\u{2014} other AAAA\n\u{2014} w1 AAAA\n"),
                checkpoint("log", 5, "log\n5\nroot\n\u{2014} no signature\n\n\u{2014} log AAAA\n"),
                checkpoint("log", 8, "log\n8\nroot\n\n\u{2014} log AAAA\n\u{2014} w1 AAAA\n"),
                checkpoint(
                    "log",
                    7,
                    "log\n7\nroot\n\n\u{2014} log AAAA\n\u{2014} w1 AAAA\n\u{2014} w2 AAAA\n",
                ),
            ])
            .unwrap();
        let first = |size| store.log().first_cosigned_of("log", size).unwrap().map(|found| found.size);
        assert_eq!((first(0), first(7), first(8), first(9)), (Some(7), Some(7), Some(8), None));
        assert_eq!(store.log().first_cosigned_of("none", 0).unwrap(), None);
    });
}

/// A proof is wanted for what is receipted and the first one stays.
pub fn a_proof_is_wanted_for_what_is_receipted_and_the_first_one_stays(engine: &dyn Engine) {
    each(engine, |store| {
        let entries: Vec<Entry> = (1..4).map(entry).collect();
        for entry in &entries {
            store.commit(&[Write::Entry { subject: VISIT, entry }]).unwrap();
        }
        assert!(store.log().without_proof(9).unwrap().is_empty(), "nothing is receipted yet");
        store.commit(&[Write::Receipt { bytes: b"r", entries: &[entries[0].id, entries[2].id] }]).unwrap();
        assert_eq!(store.log().without_proof(9).unwrap(), [entries[2].id, entries[0].id], "newest first");
        store.commit(&[Write::Proof { bytes: b"one", entries: &[entries[2].id] }]).unwrap();
        store.commit(&[Write::Proof { bytes: b"two", entries: &[entries[2].id, entries[0].id] }]).unwrap();
        assert_eq!(store.log().proof_of(entries[2].id).unwrap().unwrap(), b"one");
        assert_eq!(store.log().proof_of(entries[0].id).unwrap().unwrap(), b"two");
        assert_eq!(store.log().proof_of(entries[1].id).unwrap(), None);
        assert!(store.log().without_proof(9).unwrap().is_empty());
    });
}
