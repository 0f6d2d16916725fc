//! The test suite that every store passes: one function a test, made into tests by [`crate::store_contract`].
//!
//! The suite is compiled into the tests of the core, and for the tests of crates with a store of their own by the
//! feature `contract`, which dev-dependencies alone switch on.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a failed unwrap is a failed test")]

use super::*;
use crate::clock::Stamp;
use crate::entry::{Body, DeviceKey, Statement};
use crate::ids::{OperatorId, VisitId};

pub use super::contract_ledger::{
    a_batch_is_written_as_commits_would_have_written_it,
    a_batch_whose_fate_is_unknown_is_applied_again_and_stands_once,
    a_reader_that_polls_while_sixteen_write_meets_every_position_once, brought,
    ids_are_kept_beside_a_change_and_believed_only_if_they_belong_to_it, signed,
    two_writers_at_once_lose_nothing_and_write_nothing_twice, who_was_overtaken_decides_again,
};
pub use super::contract_log::{
    a_proof_is_wanted_for_what_is_receipted_and_the_first_one_stays,
    checkpoints_come_back_by_age_and_size_and_a_stamped_one_is_found_first,
    entries_without_a_leaf_are_found_in_order_of_arrival,
    leaves_stand_in_order_of_arrival_and_their_times_never_fall,
    stored_hashes_give_the_roots_and_paths_of_the_leaves_at_every_size,
    the_smallest_checkpoint_that_others_signed_too_is_found,
};
pub use super::contract_scope::what_is_kept_along_equals_a_recount_and_readers_meet_all_of_their_sites;

/// A way of storing that is put to the test.
pub trait Engine: Sync {
    /// Makes a new, empty ledger.
    fn place(&self) -> Box<dyn Place>;

    /// Makes a new, empty ledger that is opened once, in the quickest way there is.
    fn scratch(&self) -> Box<dyn Place> {
        self.place()
    }

    /// The number of random histories that are played.
    fn histories(&self) -> u32 {
        64
    }
}

/// The connection of one worker to a [`Place`], opened when it is needed first.
pub type Own = Option<Box<dyn Ledger>>;

/// A ledger that several workers may open.
pub trait Place: Sync {
    /// Calls `work` with the ledger. `own` keeps the worker's connection from one call to the next.
    fn with(&self, own: &mut Own, work: &mut dyn FnMut(&mut dyn Ledger));
}

/// A place of which every worker opens a connection of its own.
pub struct Opens<F>(pub F);

impl<F: Fn() -> Box<dyn Ledger> + Sync> Place for Opens<F> {
    fn with(&self, own: &mut Own, work: &mut dyn FnMut(&mut dyn Ledger)) {
        work(own.get_or_insert_with(&self.0).as_mut());
    }
}

/// Works on a ledger and returns the result.
pub(super) fn on<T>(place: &dyn Place, own: &mut Own, work: impl FnOnce(&mut dyn Ledger) -> T) -> T {
    let (mut work, mut done) = (Some(work), None);
    place.with(own, &mut |ledger| done = work.take().map(|work| work(ledger)));
    done.unwrap()
}

/// Runs a test on a new ledger.
pub(super) fn each(engine: &dyn Engine, test: impl FnOnce(&mut dyn Ledger)) {
    on(&*engine.place(), &mut None, test);
}

/// Makes the tests of the suite for one [`Engine`], given as an expression. With `shared`, as after
/// `store_contract!(shared ENGINE)`, it also tests what workers with connections of their own are told.
#[macro_export]
macro_rules! store_contract {
    (shared $engine:expr) => {
        $crate::store_contract!($engine);
        $crate::store_contract!(@tests $engine, [who_was_overtaken_decides_again]);
    };
    (@tests $engine:expr, [$($name:ident),* $(,)?]) => {
        $(
            #[test]
            fn $name() {
                $crate::store::contract::$name(&$engine);
            }
        )*
    };
    ($engine:expr) => {
        $crate::store_contract!(@tests $engine, [
            an_entry_comes_back_byte_for_byte_and_counts_once,
            one_entry_may_stand_in_two_documents,
            changes_are_sent_until_they_are_held,
            one_change_may_stand_in_two_documents,
            a_receipt_covers_what_it_names,
            the_small_things_come_back,
            a_batch_is_written_as_commits_would_have_written_it,
            a_batch_whose_fate_is_unknown_is_applied_again_and_stands_once,
            two_writers_at_once_lose_nothing_and_write_nothing_twice,
            a_reader_that_polls_while_sixteen_write_meets_every_position_once,
            ids_are_kept_beside_a_change_and_believed_only_if_they_belong_to_it,
            leaves_stand_in_order_of_arrival_and_their_times_never_fall,
            stored_hashes_give_the_roots_and_paths_of_the_leaves_at_every_size,
            entries_without_a_leaf_are_found_in_order_of_arrival,
            checkpoints_come_back_by_age_and_size_and_a_stamped_one_is_found_first,
            the_smallest_checkpoint_that_others_signed_too_is_found,
            a_proof_is_wanted_for_what_is_receipted_and_the_first_one_stays,
            what_is_kept_along_equals_a_recount_and_readers_meet_all_of_their_sites,
        ]);
    };
}

/// The document that most tests write to.
pub const VISIT: Subject = Subject::Visit(VisitId([7; 16]));
const OTHER: Subject = Subject::Visit(VisitId([8; 16]));

/// An entry of [`VISIT`] with this number.
pub fn entry(n: u64) -> Entry {
    let says = Statement::Remark { text: format!("remark {n}") };
    let body = Body {
        about: VISIT,
        slot: says.slot(),
        says,
        follows: vec![],
        replaces: vec![],
        why: String::new(),
        by: OperatorId("op-1".into()),
        seq: n,
        prev: None,
        when: Stamp { at: UtcMillis(0), offset_minutes: 0, ahead_millis: None },
        place: None,
        seen: None,
        hand: None,
        done: None,
        rests_on: None,
    };
    Entry::seal(body, &DeviceKey::from_secret([1; 32])).unwrap()
}

pub(super) fn change(n: u8, held: bool) -> Write<'static> {
    Write::Change { subject: VISIT, hash: Digest([n; 32]), bytes: b"change bytes", held }
}

/// An entry comes back byte for byte and counts once.
pub fn an_entry_comes_back_byte_for_byte_and_counts_once(engine: &dyn Engine) {
    each(engine, |store| {
        let (a, b) = (entry(1), entry(2));
        assert_eq!(store.commit(&[Write::Entry { subject: VISIT, entry: &a }]).unwrap(), [a.id]);
        let again = [Write::Entry { subject: VISIT, entry: &a }, Write::Entry { subject: VISIT, entry: &b }];
        assert_eq!(store.commit(&again).unwrap(), [b.id]);
        let rows = store.entries_of(VISIT).unwrap();
        assert!(rows.damaged.is_empty());
        assert_eq!(rows.rows.iter().map(|r| r.bytes.as_slice()).collect::<Vec<_>>(), [a.bytes(), b.bytes()]);
        let mut tally = SetDigest::default();
        tally.add(b.id);
        tally.add(a.id);
        assert_eq!(store.tally().unwrap(), tally);
    });
}

/// One entry may stand in two documents.
pub fn one_entry_may_stand_in_two_documents(engine: &dyn Engine) {
    each(engine, |store| {
        let a = entry(1);
        store
            .commit(&[Write::Entry { subject: VISIT, entry: &a }, Write::Entry { subject: OTHER, entry: &a }])
            .unwrap();
        assert_eq!(store.entries_of(OTHER).unwrap().rows.len(), 1);
        assert_eq!(store.subjects().unwrap(), [VISIT, OTHER]);
        assert_eq!(store.tally().unwrap().count, 1);
    });
}

/// Changes are sent until they are held.
pub fn changes_are_sent_until_they_are_held(engine: &dyn Engine) {
    each(engine, |store| {
        store.commit(&[change(1, false), change(2, true), change(3, false)]).unwrap();
        let waiting = |store: &dyn Store| -> Vec<u8> {
            store.changes_not_held(1 << 20).unwrap().iter().map(|c| c.hash.0[0]).collect()
        };
        assert_eq!(waiting(store), [1, 3]);
        assert_eq!(store.changes_not_held(1).unwrap().len(), 1, "at least one, however small the bound");
        store.commit(&[Write::ChangesHeld(&[(VISIT, Digest([1; 32]))])]).unwrap();
        assert_eq!(waiting(store), [3]);
        store.commit(&[change(2, false)]).unwrap();
        assert_eq!(waiting(store), [3], "what is held stays held");
        assert_eq!(store.changes_after(1, 1 << 20).unwrap().len(), 2);
        assert_eq!(store.newest_position().unwrap(), 3);
        assert!(store.has_change(VISIT, Digest([2; 32])).unwrap());
        assert!(!store.has_change(VISIT, Digest([9; 32])).unwrap());
        store.commit(&[Write::ChangesLacking(&[VISIT])]).unwrap();
        assert_eq!(waiting(store), [1, 2, 3], "a server that lost a document is sent all of it again");
    });
}

/// One change may stand in two documents.
pub fn one_change_may_stand_in_two_documents(engine: &dyn Engine) {
    each(engine, |store| {
        let under = |subject, held| Write::Change { subject, hash: Digest([1; 32]), bytes: b"same", held };
        store.commit(&[under(VISIT, false), under(OTHER, false), under(VISIT, false)]).unwrap();
        assert_eq!(store.changes_of(VISIT).unwrap().rows.len(), 1);
        assert_eq!(store.changes_of(OTHER).unwrap().rows.len(), 1);
        store.commit(&[Write::ChangesHeld(&[(VISIT, Digest([1; 32]))])]).unwrap();
        let waiting = store.changes_not_held(1 << 20).unwrap();
        assert_eq!(waiting.iter().map(|c| c.subject).collect::<Vec<_>>(), [OTHER], "each is told of alone");
        assert!(!store.has_change(Subject::Visit(VisitId([9; 16])), Digest([1; 32])).unwrap());
    });
}

/// A receipt covers what it names.
pub fn a_receipt_covers_what_it_names(engine: &dyn Engine) {
    each(engine, |store| {
        let (a, b) = (entry(1), entry(2));
        store
            .commit(&[Write::Entry { subject: VISIT, entry: &a }, Write::Entry { subject: VISIT, entry: &b }])
            .unwrap();
        assert_eq!(store.count_without_receipt().unwrap(), 2);
        store.commit(&[Write::Receipt { bytes: b"signed", entries: &[a.id] }]).unwrap();
        assert_eq!(store.entries_without_receipt(9).unwrap(), [b.id]);
        assert_eq!(store.receipts_of(a.id).unwrap(), [b"signed"]);
        assert!(store.receipts_of(b.id).unwrap().is_empty());
        assert!(store.entry(a.id).unwrap().unwrap().receipted);
    });
}

/// The small things come back.
pub fn the_small_things_come_back(engine: &dyn Engine) {
    each(engine, |store| {
        let device = DeviceId([5; 32]);
        store
            .commit(&[
                Write::Value { key: "cursor", value: b"9" },
                Write::Draft { key: "final pressure", text: "1" },
                Write::Draft { key: "final pressure", text: "12" },
                Write::Draft { key: "remark", text: "half a sen" },
                Write::Draft { key: "remark", text: "" },
                Write::Certificate { device, bytes: b"old" },
                Write::Certificate { device, bytes: b"new" },
                Write::Quarantine { subject: Some(VISIT), bytes: b"bad", why: "why", at: UtcMillis(5) },
                Write::Photo {
                    sha256: Digest([1; 32]),
                    length: 9,
                    media: "image/jpeg",
                    here: true,
                    held: false,
                },
                Write::Photo {
                    sha256: Digest([1; 32]),
                    length: 9,
                    media: "image/jpeg",
                    here: false,
                    held: true,
                },
            ])
            .unwrap();
        assert_eq!(store.value("cursor").unwrap().unwrap(), b"9");
        assert_eq!(store.value("nothing").unwrap(), None);
        assert_eq!(store.drafts().unwrap(), [("final pressure".to_owned(), "12".to_owned())]);
        assert_eq!(store.certificates().unwrap(), [(device, b"new".to_vec())]);
        assert_eq!(store.quarantined().unwrap()[0].why, "why");
        store.commit(&[Write::PurgeQuarantine]).unwrap();
        assert!(store.quarantined().unwrap().is_empty());
        let photo = store.photo(Digest([1; 32])).unwrap().unwrap();
        assert!(photo.here && photo.held, "neither flag is ever lost");
        store.commit(&[Write::PhotosLacking(&[Digest([1; 32]), Digest([2; 32])])]).unwrap();
        let photo = store.photo(Digest([1; 32])).unwrap().unwrap();
        assert!(photo.here && !photo.held, "but for a server that lacks it after all");
    });
}
