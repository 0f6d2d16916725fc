//! Letters whose envelope is right and whose content is not: signed by a device or an office that means harm.

use farsiding_core::entry::{PersonName, cbor};
use farsiding_core::ids::{Digest, EntryId, Subject};
use farsiding_core::sync::wire::{
    CertificateList, Change, Cursor, Later, ReplyBulk, ReplyHead, RequestBulk, RequestHead, inflate, parts,
    seal_reply, seal_request,
};

use crate::mutation::{mutated, with_checksum};
use crate::parties::{NOW, OTHER, VISIT, device_key, office_key};
use farsiding_testkit::Dice;

const MOST: usize = 8 * 1024 * 1024;

/// Deflated, as carry files are, and as bulks may be.
pub fn deflated(plain: &[u8]) -> Vec<u8> {
    use std::io::Write as _;
    let mut out = flate2::write::DeflateEncoder::new(Vec::new(), flate2::Compression::fast());
    out.write_all(plain).unwrap();
    out.finish().unwrap()
}

pub fn inflated(body: &[u8]) -> Vec<u8> {
    use std::io::Read as _;
    let mut plain = Vec::new();
    flate2::read::DeflateDecoder::new(body).take(MOST as u64).read_to_end(&mut plain).unwrap();
    plain
}

fn change(dice: &mut Dice, seeds: &[Vec<u8>]) -> Change {
    let bytes = mutated(&seeds[dice.below(seeds.len())], seeds, dice);
    let bytes = if dice.once_in(3) { bytes } else { with_checksum(bytes) };
    let subject: Subject = dice.one_of(&[VISIT, OTHER]);
    Change { subject, bytes }
}

fn several(dice: &mut Dice, seeds: &[Vec<u8>]) -> Vec<Change> {
    (0..dice.below(4)).map(|_| change(dice, seeds)).collect()
}

fn ids(dice: &mut Dice) -> Vec<EntryId> {
    let many = if dice.once_in(20) { 20_000 } else { dice.below(5) };
    (0..many).map(|at| EntryId([u8::try_from(at % 251).unwrap(); 32])).collect()
}

/// Names of people that fit nothing, fit themselves alone, or have no bounds.
fn names(dice: &mut Dice) -> Vec<PersonName> {
    let one = |dice: &mut Dice| {
        let name = "n".repeat(dice.one_of(&[0, 1, 200, 201, 100_000]));
        let row = PersonName::of(&name, dice);
        if dice.once_in(2) { PersonName { named: Digest([dice.one_of(&[0, 7]); 32]), ..row } } else { row }
    };
    (0..dice.below(4)).map(|_| one(dice)).collect()
}

/// A request signed by an enrolled device, as hostile as can be built; or its bulk altered byte by byte.
pub fn request(dice: &mut Dice, sound: &[Vec<u8>], changes: &[Vec<u8>], messages: &[Vec<u8>]) -> Vec<u8> {
    let key = device_key(0);
    let number = u64::try_from(dice.below(1 << 40)).unwrap();
    let head = RequestHead { number, cursor: None, certificates: 0, at: NOW, bulk: None, statement: None };
    if dice.once_in(2) {
        let bulk = RequestBulk {
            changes: several(dice, changes),
            asks: ids(dice),
            photos: ids(dice).into_iter().map(|id| Digest(id.0)).collect(),
            survey: dice.once_in(3),
            messages: several(dice, messages),
            whole: if dice.once_in(3) { vec![VISIT, OTHER, VISIT] } else { Vec::new() },
            unsent: dice.once_in(3).then_some((u64::MAX, u64::MAX)),
            most: dice.once_in(3).then_some(dice.one_of(&[0, 1, u32::MAX])),
            names: names(dice),
        };
        let cursor = dice.once_in(3).then(|| Cursor { epoch: 1, position: dice.next() });
        return seal_request(RequestHead { cursor, ..head }, &bulk, &key).unwrap();
    }
    let message = parts(&sound[dice.below(sound.len())]).unwrap();
    let plain = if message.bulk.is_empty() { vec![0xa0] } else { inflate(&message.bulk, MOST).unwrap() };
    let bulk = deflated(&mutated(&plain, changes, dice));
    let head = RequestHead { bulk: Some(Digest::of(&bulk)), ..head };
    let head = key.seal_addressed(cbor::encode(&head).unwrap(), "farsiding request 1", &key.public().0[..8]);
    joined(&head, &bulk)
}

/// A reply signed by an office that means harm, to this very request.
pub fn reply(dice: &mut Dice, request: &[u8], sound: &[u8], changes: &[Vec<u8>]) -> Vec<u8> {
    let message = parts(sound).unwrap();
    let head = ReplyHead::open(&message.head, &office_key().public()).unwrap();
    let mut short = [0u8; 16];
    short.copy_from_slice(&Digest::of(request).0[..16]);
    let mut head = ReplyHead { request: short, ..head };
    if dice.once_in(3) {
        head.count = dice.next();
    }
    if dice.once_in(4) {
        head.cursor.position = dice.next();
    }
    if dice.once_in(6) {
        head.covers = Some(Digest([9; 32]));
    }
    if dice.once_in(8) {
        head.old_number = Some(dice.next());
    }
    if dice.once_in(2) {
        let places = |dice: &mut Dice| -> Vec<u32> {
            (0..dice.below(4)).map(|_| dice.one_of(&[0, 1, 2, 7, u32::MAX])).collect()
        };
        let bulk = ReplyBulk {
            changes: several(dice, changes),
            more: dice.once_in(4),
            lacking: places(dice),
            refused: places(dice).into_iter().map(|at| (at, "no".repeat(dice.below(100)))).collect(),
            later: dice.once_in(4).then(|| Later { places: places(dice), at: head.at }),
            photos: places(dice),
            certificates: dice
                .once_in(2)
                .then(|| CertificateList { version: dice.next(), ..Default::default() }),
            names: dice.once_in(2).then(|| names(dice)),
            survey: Vec::new(),
            messages: several(dice, changes),
        };
        return seal_reply(head, &bulk, &office_key()).unwrap();
    }
    let plain = if message.bulk.is_empty() { vec![0xa0] } else { inflate(&message.bulk, MOST).unwrap() };
    let bulk = deflated(&mutated(&plain, changes, dice));
    head.bulk = Some(Digest::of(&bulk));
    let head = office_key().seal_addressed(cbor::encode(&head).unwrap(), "farsiding reply 1", &[]);
    joined(&head, &bulk)
}

/// A head and a bulk as one message.
pub fn joined(head: &[u8], bulk: &[u8]) -> Vec<u8> {
    use ciborium::Value;
    let text = |text: &str| Value::Text(text.to_owned());
    let message =
        Value::Map(vec![(text("h"), Value::Bytes(head.to_vec())), (text("b"), Value::Bytes(bulk.to_vec()))]);
    cbor::encode(&message).unwrap()
}
