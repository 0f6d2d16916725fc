//! Tests that independently created documents merge, and that a change which does more than add entries is
//! refused.
#![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]

use automerge::transaction::{CommitOptions, Transactable};
use automerge::{ActorId, Automerge};

use super::*;
use crate::clock::{Stamp, UtcMillis};
use crate::entry::{Body, DeviceKey, Statement};
use crate::ids::{OperatorId, Subject, VisitId};

const VISIT: Subject = Subject::Visit(VisitId([7; 16]));

fn remark(text: &str, secret: u8) -> Entry {
    let says = Statement::Remark { text: text.to_owned() };
    let body = Body {
        about: VISIT,
        slot: says.slot(),
        says,
        follows: vec![],
        replaces: vec![],
        why: String::new(),
        by: OperatorId("op-1".into()),
        seq: 1,
        prev: None,
        when: Stamp { at: UtcMillis(0), offset_minutes: 0, ahead_millis: None },
        place: None,
        seen: None,
        hand: None,
        done: None,
        rests_on: None,
    };
    Entry::seal(body, &DeviceKey::from_secret([secret; 32])).unwrap()
}

/// Builds the genesis change again. If the result differs from the frozen file, old documents no longer
/// merge.
fn genesis() -> Vec<u8> {
    let mut doc = Automerge::new().with_actor(ActorId::from([0u8; 16]));
    let mut transaction = doc.transaction();
    transaction.put(automerge::ROOT, "format", "farsiding/1").unwrap();
    transaction.put_object(automerge::ROOT, "entries", automerge::ObjType::Map).unwrap();
    transaction.commit_with(CommitOptions::default().with_time(0));
    doc.get_last_local_change().unwrap().raw_bytes().to_vec()
}

#[test]
fn the_genesis_is_frozen_byte_for_byte() {
    if std::env::var_os("FARSIDING_FREEZE_GENESIS").is_some() {
        std::fs::write("src/document/genesis.change", genesis()).unwrap();
    }
    assert_eq!(genesis(), GENESIS);
}

#[test]
fn documents_made_apart_are_one_document() {
    let (mut a, mut b) = (Document::new([1; 16]).unwrap(), Document::new([2; 16]).unwrap());
    let from_a = a.add(&[remark("from a", 1)]).unwrap().unwrap();
    let from_b = b.add(&[remark("from b", 2)]).unwrap().unwrap();
    a.apply(&CheckedChange::check(&from_b, VISIT).unwrap()).unwrap();
    b.apply(&CheckedChange::check(&from_a, VISIT).unwrap()).unwrap();
    assert_eq!(a.heads(), b.heads());
    assert_eq!(a.entry_ids().len(), 2);
    assert_eq!(a.entry_ids(), b.entry_ids());
}

#[test]
fn reloading_the_changes_gives_the_same_document() {
    let mut a = Document::new([1; 16]).unwrap();
    for text in ["one", "two", "three"] {
        a.add(&[remark(text, 1)]).unwrap();
    }
    let changes = a.changes();
    let back = Document::load([9; 16], changes.iter().rev().map(Vec::as_slice)).unwrap();
    assert_eq!(back.heads(), a.heads());
    assert_eq!(back.entry_bytes(remark("two", 1).id).unwrap(), remark("two", 1).bytes());
}

#[test]
fn a_change_whose_predecessor_is_missing_is_known_to_hold_entries_back() {
    let mut a = Document::new([1; 16]).unwrap();
    let changes: Vec<Vec<u8>> =
        ["one", "two"].iter().map(|text| a.add(&[remark(text, 1)]).unwrap().unwrap()).collect();
    let second = Document::load([9; 16], [changes[1].as_slice()]).unwrap();
    assert!(second.lacks_entries() && second.entry_ids().is_empty(), "the next edit puts its entry back");
    let both = Document::load([9; 16], changes.iter().rev().map(Vec::as_slice)).unwrap();
    assert!(!both.lacks_entries());
}

fn change_by(edit: impl FnOnce(&mut automerge::transaction::Transaction<'_>, &ObjId)) -> Vec<u8> {
    let mut document = Document::new([3; 16]).unwrap();
    document.add(&[remark("victim", 1)]).unwrap();
    let entries = document.entries.clone();
    let mut transaction = document.automerge.transaction();
    edit(&mut transaction, &entries);
    transaction.commit();
    document.automerge.get_last_local_change().unwrap().raw_bytes().to_vec()
}

#[test]
fn a_change_that_does_more_than_add_is_refused() {
    let victim = change::key_of(remark("victim", 1).id);
    let other = remark("other", 2);
    let refused = [
        change_by(|t, entries| t.delete(entries, victim.clone()).unwrap()),
        change_by(|t, entries| {
            t.put(entries, victim.clone(), ScalarValue::Bytes(other.bytes().to_vec())).unwrap()
        }),
        // The change uses the digest of an entry that is not here yet and would occupy that entry's key.
        change_by(|t, entries| {
            let place = change::key_of(remark("not here", 3).id);
            t.put(entries, place, ScalarValue::Bytes(other.bytes().to_vec())).unwrap()
        }),
        change_by(|t, _| t.put(automerge::ROOT, "format", "other").unwrap()),
        change_by(|t, entries| t.put(entries, "short", ScalarValue::Bytes(other.bytes().to_vec())).unwrap()),
        change_by(|t, entries| t.put(entries, change::key_of(other.id), "text").unwrap()),
        change_by(|t, entries| {
            let mut bytes = other.bytes().to_vec();
            *bytes.last_mut().unwrap() ^= 1;
            t.put(entries, change::key_of(EntryId(Digest::of(&bytes).0)), ScalarValue::Bytes(bytes)).unwrap();
        }),
    ];
    for (at, bytes) in refused.iter().enumerate() {
        assert!(CheckedChange::check(bytes, VISIT).is_err(), "case {at} was let in");
    }
    let fine = change_by(|t, entries| {
        t.put(entries, change::key_of(other.id), ScalarValue::Bytes(other.bytes().to_vec())).unwrap();
    });
    assert!(CheckedChange::check(&fine, VISIT).is_ok());
    let elsewhere = Subject::Visit(VisitId([8; 16]));
    assert!(matches!(CheckedChange::check(&fine, elsewhere), Err(DocumentError::WrongDocument)));
}

#[test]
fn two_copies_that_lost_track_reconcile() {
    let (mut a, mut b) = (Document::new([1; 16]).unwrap(), Document::new([2; 16]).unwrap());
    for n in 0..20 {
        a.add(&[remark(&format!("a{n}"), 1)]).unwrap();
        b.add(&[remark(&format!("b{n}"), 2)]).unwrap();
    }
    let mut state = ReconcileState::default();
    for _ in 0..10 {
        let Some(message) = a.reconcile_message(&mut state) else { break };
        // The answering side keeps no state between messages.
        let mut fresh = ReconcileState::default();
        b.reconcile_receive(&mut fresh, &message, VISIT).unwrap();
        if let Some(answer) = b.reconcile_message(&mut fresh) {
            a.reconcile_receive(&mut state, &answer, VISIT).unwrap();
        }
        if a.heads() == b.heads() {
            break;
        }
    }
    assert_eq!(a.heads(), b.heads());
    assert_eq!(a.entry_ids().len(), 40);
}

#[test]
fn a_deflated_bomb_is_refused_before_it_grows() {
    let mut encoder = flate2::write::DeflateEncoder::new(Vec::new(), flate2::Compression::best());
    std::io::Write::write_all(&mut encoder, &vec![0u8; 64 * 1024 * 1024]).unwrap();
    let body = encoder.finish().unwrap();
    let mut bomb = vec![0x85, 0x6f, 0x4a, 0x83, 0, 0, 0, 0, 2];
    let mut length = body.len();
    while length >= 0x80 {
        bomb.push((length as u8 & 0x7f) | 0x80);
        length >>= 7;
    }
    bomb.push(length as u8);
    bomb.extend_from_slice(&body);
    assert!(matches!(CheckedChange::check(&bomb, VISIT), Err(DocumentError::TooLarge(_))));
}

/// Encodes a number as LEB128.
fn leb(out: &mut Vec<u8>, mut value: u64, signed: bool) {
    loop {
        let low = (value & 0x7f) as u8;
        value >>= 7;
        if value == 0 && (!signed || low & 0x40 == 0) {
            out.push(low);
            return;
        }
        out.push(low | 0x80);
    }
}

fn run(of: u64, value: &[u8]) -> Vec<u8> {
    let mut out = Vec::new();
    leb(&mut out, of, true);
    out.extend_from_slice(value);
    out
}

fn chunk(kind: u8, body: &[u8]) -> Vec<u8> {
    let mut rest = vec![kind];
    leb(&mut rest, body.len() as u64, false);
    rest.extend_from_slice(body);
    let digest = Digest::of(&rest);
    [&[0x85, 0x6f, 0x4a, 0x83], &digest.0[..4], &rest].concat()
}

/// Builds a change that consists of the given columns only.
fn change_of(columns: &[(u64, Vec<u8>)]) -> Vec<u8> {
    let mut body = vec![0, 1, 7, 1, 1, 0, 0, 0]; // builds on nothing; actor 7; its first, at time 0
    leb(&mut body, columns.len() as u64, false);
    for (specification, data) in columns {
        leb(&mut body, *specification, false);
        leb(&mut body, data.len() as u64, false);
    }
    columns.iter().for_each(|(_, data)| body.extend_from_slice(data));
    chunk(1, &body)
}

/// Builds a change of `rows` equal operations: each puts null under `key` at the root and overwrites
/// `members` operations.
fn bomb(rows: u64, key: &str, members: u64) -> Vec<u8> {
    let (mut no, mut group, mut text) = (Vec::new(), Vec::new(), Vec::new());
    leb(&mut no, rows, false);
    leb(&mut group, members, false);
    leb(&mut text, key.len() as u64, false);
    text.extend_from_slice(key.as_bytes());
    let mut columns = vec![
        (21, run(rows, &text)),
        (52, no),
        (66, run(rows, &[1])),
        (86, run(rows, &[0])),
        (112, run(rows, &group)),
    ];
    if members > 0 {
        columns.extend([(113, run(rows * members, &[0])), (115, run(rows * members, &[1]))]);
    }
    change_of(&columns)
}

/// The first of these changes would take longer than a lifetime to expand.
#[test]
fn a_change_that_claims_more_than_its_bytes_can_hold_is_refused_before_it_grows() {
    let small = automerge::Change::from_bytes(bomb(3, "a", 0)).unwrap();
    assert_eq!(small.len(), 3, "the library reads what is built here");
    for (rows, key, members) in
        [(1 << 40, "a", 0), (2_000, "a", 0), (1, "a", 1 << 40), (60, &"k".repeat(500_000), 0)]
    {
        let bytes = bomb(rows, key, members);
        let refused = CheckedChange::check(&bytes, VISIT);
        assert!(matches!(refused, Err(DocumentError::Unreadable(_))), "{rows} rows: {refused:?}");
    }
}

#[test]
fn a_message_that_claims_more_than_its_bytes_can_hold_is_refused_before_it_grows() {
    let mut a = Document::new([1; 16]).unwrap();
    a.add(&[remark("a", 1)]).unwrap();
    let with = |have: &[u8], changes: &[&[u8]]| {
        let mut message = vec![0x42, 0, 0];
        leb(&mut message, u64::from(!have.is_empty()), false);
        if !have.is_empty() {
            message.push(0);
            leb(&mut message, have.len() as u64, false);
            message.extend_from_slice(have);
        }
        leb(&mut message, changes.len() as u64, false);
        for change in changes {
            leb(&mut message, change.len() as u64, false);
            message.extend_from_slice(change);
        }
        message
    };
    // One filter claims four thousand million probes, the other has zero bits per entry.
    let mut probes = vec![1, 10];
    leb(&mut probes, u64::from(u32::MAX), false);
    probes.extend([0, 0]);
    let no_bits = vec![1, 0, 7];
    // A document whose single column inflates beyond the limit.
    let mut encoder = flate2::write::DeflateEncoder::new(Vec::new(), flate2::Compression::best());
    std::io::Write::write_all(&mut encoder, &vec![0u8; 64 * 1024 * 1024]).unwrap();
    let column = encoder.finish().unwrap();
    let mut body = vec![0, 0, 1, 1 | 8];
    leb(&mut body, column.len() as u64, false);
    body.push(0);
    body.extend_from_slice(&column);
    let (rows, document) = (bomb(1 << 40, "a", 0), chunk(0, &body));
    for message in [
        with(&probes, &[]),
        with(&no_bits, &[]),
        with(&[], &[&rows]),
        with(&[], &[&document]),
        with(&[], &[&rows[..30], &rows[30..]]),
    ] {
        let mut state = ReconcileState::default();
        assert!(a.reconcile_receive(&mut state, &message, VISIT).is_err());
        assert!(a.reconcile_message(&mut state).is_some(), "it can still be talked to");
    }
}

#[test]
fn a_change_that_jumps_ahead_is_left_out_and_the_others_are_read() {
    let mut a = Document::new([1; 16]).unwrap();
    let changes: Vec<Vec<u8>> =
        ["one", "two", "three"].iter().map(|text| a.add(&[remark(text, 1)]).unwrap().unwrap()).collect();
    // The sequence number follows the dependencies (one hash) and the actor (sixteen bytes).
    let number = 8 + 1 + 2 + 1 + 32 + 1 + 16;
    let mut ahead = changes[1].clone();
    assert_eq!(ahead[number], 2);
    ahead[number] = 100;
    let digest = Digest::of(&ahead[8..]);
    ahead[4..8].copy_from_slice(&digest.0[..4]);
    let checked = CheckedChange::check(&ahead, VISIT).unwrap(); // its entry is signed, and that is all one sees

    let mut b = Document::new([2; 16]).unwrap();
    b.apply(&CheckedChange::check(&changes[0], VISIT).unwrap()).unwrap();
    assert!(b.apply(&checked).is_err());
    for change in &changes[1..] {
        b.apply(&CheckedChange::check(change, VISIT).unwrap()).unwrap();
    }
    assert_eq!(b.entry_ids(), a.entry_ids());
    let stored = [&changes[0], &ahead, &changes[1], &changes[2]];
    let loaded = Document::load([9; 16], stored.map(Vec::as_slice)).unwrap();
    assert!(loaded.lacks_entries() && loaded.entry_ids() == a.entry_ids());
    let alone = Document::load([9; 16], [ahead.as_slice()]).unwrap();
    assert!(alone.lacks_entries() && alone.entry_ids().is_empty());
}

#[test]
fn a_whole_document_in_a_message_is_read() {
    let mut full = Document::new([1; 16]).unwrap();
    for n in 0..60 {
        full.add(&[remark(&format!("a{n}"), 1)]).unwrap();
    }
    assert!(extent::check_chunk(&full.save()).is_ok());
    assert!(extent::check_chunk(GENESIS).is_ok());
    assert!(extent::check_chunk(&Document::new([1; 16]).unwrap().save()).is_ok());
}

#[test]
fn no_mutation_of_a_change_crashes_or_slips_in_unseen() {
    let mut document = Document::new([3; 16]).unwrap();
    let entry = remark("true", 1);
    let good = document.add(std::slice::from_ref(&entry)).unwrap().unwrap();
    for at in 0..good.len() {
        for flip in [0x01, 0x80, 0xff] {
            let mut bad = good.clone();
            bad[at] ^= flip;
            assert!(CheckedChange::check(&bad, VISIT).is_err(), "byte {at}: no byte of a change is idle");
        }
    }
}
