//! Tests of the verification of tiles: a valid log, and every kind of fault, each reported by its first
//! place.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a failed unwrap is a failed test")]

use std::collections::BTreeMap;

use super::*;
use crate::entry::OrganisationKey;
use crate::ids::{EntryId, Subject, VisitId};
use crate::log::tiles::{self, append_leaf};
use crate::tree::{LogLeaf, merkle};

#[derive(Clone, Default)]
struct Files(BTreeMap<String, Vec<u8>>);

impl Shelf for Files {
    fn read(&mut self, path: &str) -> Result<Option<Vec<u8>>, String> {
        Ok(self.0.get(path).cloned())
    }
}

fn key() -> OrganisationKey {
    OrganisationKey::from_secret([7; 32])
}

fn leaf(n: u64) -> Vec<u8> {
    let mut id = [0u8; 32];
    id[..8].copy_from_slice(&n.to_be_bytes());
    // Later leaves also contain the subject.
    let about = (n >= 300).then_some(Subject::Visit(VisitId([(n % 7) as u8; 16])));
    LogLeaf { entry: EntryId(id), received_at: UtcMillis(1_795_528_800_000 + n as i64), about }.to_bytes()
}

/// Builds the files of a log with these leaves by plain recursion over all of them.
fn log_of(leaves: &[Vec<u8>]) -> Files {
    let hashes: Vec<Digest> = leaves.iter().map(|leaf| leaf_hash(leaf)).collect();
    let mut files = Files::default();
    for (level, full, partial) in tiles::rows(leaves.len() as u64) {
        for number in 0..=full {
            let width = if number < full { FULL } else { partial };
            if width == 0 {
                continue;
            }
            let below = 256usize.pow(level);
            let first = number as usize * 256;
            let row = (first..first + width as usize)
                .flat_map(|at| merkle::root(&hashes[at * below..(at + 1) * below]).0)
                .collect();
            files.0.insert(Tile { kind: TileKind::Hashes(level), number, width }.path(), row);
            if level == 0 {
                let mut bundle = Vec::new();
                for leaf in &leaves[first..first + width as usize] {
                    assert!(append_leaf(&mut bundle, leaf));
                }
                files.0.insert(Tile { kind: TileKind::Entries, number, width }.path(), bundle);
            }
        }
    }
    let (origin, root) = (Checkpoint::first_origin(&key().public()), merkle::root(&hashes));
    let checkpoint = Checkpoint { origin, size: leaves.len() as u64, root, heads: None };
    files.0.insert(CHECKPOINT.to_owned(), checkpoint.sign(&key()).into_bytes());
    files
}

fn log(size: u64) -> Files {
    log_of(&(0..size).map(leaf).collect::<Vec<_>>())
}

fn read(files: &Files, against: Option<&Checkpoint>) -> Result<Audited, AuditError> {
    let mut seen = 0;
    let audited =
        audit(&mut files.clone(), key().keys(), against, &mut HeadsMade::default(), &mut |at, _| seen = at);
    if let Ok(audited) = &audited {
        assert_eq!(seen, audited.checkpoint.size, "progress is told to the end");
    }
    audited
}

fn opened(files: &Files) -> Checkpoint {
    let note = String::from_utf8(files.0[CHECKPOINT].clone()).unwrap();
    Checkpoint::open(&note, &key().public()).unwrap()
}

fn place(outcome: Result<Audited, AuditError>) -> (String, Option<u64>, String) {
    match outcome {
        Err(AuditError::Wrong { path, leaf, what }) => (path, leaf, what),
        other => panic!("{other:?}"),
    }
}

#[test]
fn an_honest_log_of_any_length_holds() {
    for size in [0, 1, 2, 255, 256, 257, 511, 512, 700] {
        let files = log(size);
        let audited = read(&files, None).unwrap();
        assert_eq!(audited.checkpoint.size, size);
        assert_eq!(audited.first, (size > 0).then_some(UtcMillis(1_795_528_800_000)));
        assert_eq!(audited.last, (size > 0).then(|| UtcMillis(1_795_528_800_000 + size as i64 - 1)));
        assert!(!audited.heads_checked, "there is no line to check");
        for before in [0, size / 2, size] {
            assert!(read(&files, Some(&opened(&log(before)))).is_ok(), "{before} of {size}");
        }
    }
    // Two rows of full tiles, and a partial third row.
    assert!(read(&log(66_000), None).is_ok());
}

#[test]
fn a_partial_tile_that_is_gone_is_read_from_the_full_one() {
    let mut files = log(300);
    let later = log(600);
    for (partial, full) in [("tile/0/001.p/44", "tile/0/001"), ("tile/entries/001.p/44", "tile/entries/001")]
    {
        files.0.remove(partial);
        files.0.insert(full.to_owned(), later.0[full].clone());
    }
    assert!(read(&files, None).is_ok());
}

#[test]
fn every_changed_byte_of_every_file_is_found_and_its_file_named() {
    let files = log(520);
    for (path, bytes) in &files.0 {
        for at in (0..bytes.len()).step_by(if path == CHECKPOINT { 1 } else { 97 }) {
            let mut changed = files.clone();
            changed.0.get_mut(path).unwrap()[at] ^= 0x04;
            let (named, _, what) = place(read(&changed, None));
            let alike = named == *path || (path.starts_with("tile/entries") && named.starts_with("tile/"));
            assert!(alike, "{path} byte {at}: {named}: {what}");
        }
        for cut in [0, 1, bytes.len() / 2, bytes.len() - 1] {
            let mut changed = files.clone();
            changed.0.get_mut(path).unwrap().truncate(cut);
            assert_eq!(place(read(&changed, None)).0, *path, "cut to {cut}");
        }
        let mut changed = files.clone();
        changed.0.remove(path);
        assert_eq!(place(read(&changed, None)).0, *path, "removed");
        let mut changed = files.clone();
        changed.0.get_mut(path).unwrap().push(0);
        assert_eq!(place(read(&changed, None)).0, *path, "something behind");
    }
}

#[test]
fn whether_the_tile_or_the_entry_is_wrong_is_told_by_the_root() {
    let mut tile = log(520);
    tile.0.get_mut("tile/0/001").unwrap()[32 * 7] ^= 1;
    let (path, leaf, what) = place(read(&tile, None));
    assert_eq!((path.as_str(), leaf), ("tile/0/001", Some(263)));
    assert!(what.contains("the tile is wrong"), "{what}");
    let mut entry = log(520);
    entry.0.get_mut("tile/entries/001").unwrap()[42 * 7 + 5] ^= 1;
    let (_, leaf, what) = place(read(&entry, None));
    assert_eq!(leaf, Some(263));
    assert!(what.contains("do not lead to the signed root"), "{what}");
    let mut above = log(520);
    above.0.get_mut("tile/1/000.p/2").unwrap()[40] ^= 1;
    assert!(place(read(&above, None)).2.contains("full tile 1 below it"));
}

#[test]
fn a_leaf_left_out_and_a_time_that_falls_are_found_however_well_the_files_agree() {
    // Somebody who rewrites tiles and bundles lacks the organisation's key.
    let all: Vec<Vec<u8>> = (0..300).map(leaf).collect();
    let mut fewer = all.clone();
    fewer.remove(17);
    fewer.push(leaf(300));
    let mut forged = log_of(&fewer);
    forged.0.insert(CHECKPOINT.to_owned(), log_of(&all).0[CHECKPOINT].clone());
    let (path, _, what) = place(read(&forged, None));
    assert_eq!(path, CHECKPOINT);
    assert!(what.contains("not with its root"), "{what}");
    // The organisation itself has the key; then a checkpoint seen before reveals the rewriting.
    let rewritten = log_of(&fewer);
    assert!(read(&rewritten, None).is_ok());
    for seen in [18, 200, 299, 300] {
        let before = opened(&log_of(&all[..seen]));
        assert!(place(read(&rewritten, Some(&before))).2.contains("rewritten"), "{seen}");
    }
    assert!(read(&rewritten, Some(&opened(&log_of(&all[..17])))).is_ok());
    let longer = opened(&log(301));
    assert!(place(read(&log(300), Some(&longer))).2.contains("seen before 301"));
    // A clock that was set back is detected without an earlier checkpoint.
    let mut fallen = all.clone();
    fallen.swap(5, 6);
    let (path, leaf, what) = place(read(&log_of(&fallen), None));
    assert_eq!((path.as_str(), leaf), ("tile/entries/000", Some(6)));
    assert!(what.contains("the time falls"), "{what}");
    let mut odd = all;
    odd[290].pop();
    let (path, leaf, _) = place(read(&log_of(&odd), None));
    assert_eq!((path.as_str(), leaf), ("tile/entries/001.p/44", Some(290)));
}

#[test]
fn another_key_and_another_log_are_told_from_this_one() {
    let files = log(3);
    let other = OrganisationKey::from_secret([8; 32]);
    let outcome = audit(&mut files.clone(), other.keys(), None, &mut HeadsMade::default(), &mut |_, _| {});
    assert!(place(outcome).2.contains("another organisation"));
    let anew = Checkpoint { origin: format!("{}/0011223344556677", opened(&files).origin), ..opened(&files) };
    assert!(place(read(&files, Some(&anew))).2.contains("seen before of"));
}

#[test]
fn a_file_that_cannot_be_read_says_nothing_about_the_log() {
    struct Broken;
    impl Shelf for Broken {
        fn read(&mut self, _: &str) -> Result<Option<Vec<u8>>, String> {
            Err("the disk does not answer".to_owned())
        }
    }
    let outcome = audit(&mut Broken, key().keys(), None, &mut HeadsMade::default(), &mut |_, _| {});
    assert!(matches!(outcome, Err(AuditError::Unread { .. })), "{outcome:?}");
}

/// Builds the log of these leaves with a checkpoint that contains the given heads.
fn with_heads(leaves: &[Vec<u8>], heads: HeadsRoot) -> Files {
    let mut files = log_of(leaves);
    let checkpoint = Checkpoint { heads: Some(heads), ..opened(&files) };
    files.0.insert(CHECKPOINT.to_owned(), checkpoint.sign(&key()).into_bytes());
    files
}

#[test]
fn what_a_checkpoint_says_of_each_document_is_made_again_from_the_leaves() {
    let leaves: Vec<Vec<u8>> = (300..900).map(leaf).collect();
    let of = |leaves: &[Vec<u8>]| {
        let mut made = HeadsMade::default();
        leaves.iter().for_each(|leaf| made.leaf(&LogLeaf::from_bytes(leaf).unwrap()));
        made.made().unwrap()
    };
    let heads = of(&leaves);
    assert_eq!(heads.count, 7);
    assert!(read(&with_heads(&leaves, heads), None).unwrap().heads_checked);
    let mut swapped = leaves.clone();
    swapped.swap(0, 7); // two entries of one document
    for other in [HeadsRoot { count: 8, ..heads }, of(&leaves[..599]), of(&swapped)] {
        let (path, _, what) = place(read(&with_heads(&leaves, other), None));
        assert!(path == CHECKPOINT && what.contains("documents as a whole"), "{what}");
    }
    // Leaves of version one have no subject, so the heads cannot be checked and are reported as unchecked.
    let older: Vec<Vec<u8>> = (0..600).map(leaf).collect();
    assert!(!read(&with_heads(&older, heads), None).unwrap().heads_checked);
}

/// The root names a working key and withdraws it as stolen, vouching for the log of so many leaves.
fn withdrawn_as_stolen(vouched: &Checkpoint) -> (OrganisationKey, OrganisationKeys) {
    use crate::entry::KeyWord;
    let working = OrganisationKey::from_secret([9; 32]);
    let mut keys = OrganisationKeys::of_root(key().public());
    let begins = KeyWord::Key { key: working.public(), from: UtcMillis(0), until: None };
    keys.say(UtcMillis(0), begins, &key()).unwrap();
    let Checkpoint { origin, size, root, heads } = vouched.clone();
    let up_to = SignedUpTo { origin, size, root, heads: heads.map(|heads| heads.root) };
    let gone =
        KeyWord::KeyWithdrawn { key: working.public(), why: WhyWithdrawn::Stolen, checkpoint: Some(up_to) };
    keys.say(UtcMillis(1_000), gone, &key()).unwrap();
    (OrganisationKey::among(working.secret(), keys.clone()), keys)
}

#[test]
fn a_stolen_keys_checkpoint_counts_only_where_the_root_vouches_for_it() {
    let read_with = |files: &Files, keys: &OrganisationKeys| {
        audit(&mut files.clone(), keys, None, &mut HeadsMade::default(), &mut |_, _| {})
    };
    let signed_by = |files: &Files, key: &OrganisationKey| {
        let mut files = files.clone();
        let note = opened(&files).sign(key);
        files.0.insert(CHECKPOINT.to_owned(), note.into_bytes());
        files
    };
    let files = log(300);
    let (thief, keys) = withdrawn_as_stolen(&opened(&files));
    assert!(read_with(&signed_by(&files, &thief), &keys).is_ok(), "the log that is vouched for");
    // Fewer entries by the thief's word may be others.
    let shorter = signed_by(&log(299), &thief);
    assert!(place(read_with(&shorter, &keys)).2.contains("does not vouch for these 299"));
    // A longer log, signed by the root, passes through what was vouched for.
    assert!(read_with(&log(310), &keys).is_ok());
    let (_, other) = withdrawn_as_stolen(&Checkpoint { root: Digest([1; 32]), ..opened(&files) });
    let told = place(read_with(&log(310), &other)).2;
    assert!(told.contains("the 300 entries that the root vouched for"), "{told}");
}
