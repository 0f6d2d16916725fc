//! Bytes that are small and would be large: each must be refused, or read within 64 MB and a few seconds.

use farsiding_core::entry::cbor;
use farsiding_core::ids::Digest;
use farsiding_core::sync::wire::RequestHead;

use crate::kinds::Bench;
use crate::letters::{deflated, joined};
use crate::parties::{NOW, VISIT, device_key};
use crate::watch::watched;
use farsiding_testkit::Dice;

fn request_of(plain: &[u8]) -> Vec<u8> {
    let (key, bulk) = (device_key(0), deflated(plain));
    let head = RequestHead {
        number: 1 << 50,
        cursor: None,
        certificates: 0,
        at: NOW,
        bulk: Some(Digest::of(&bulk)),
        statement: None,
    };
    let head = key.seal_addressed(cbor::encode(&head).unwrap(), "farsiding request 1", &key.public().0[..8]);
    joined(&head, &bulk)
}

fn carry_of(plain: &[u8]) -> Vec<u8> {
    [b"farsiding carry 1\n".as_slice(), &deflated(plain)].concat()
}

/// A list of so many of these.
fn list(of: usize, each: &[u8]) -> Vec<u8> {
    let mut bytes = vec![0x9a];
    bytes.extend(u32::try_from(of).unwrap().to_be_bytes());
    bytes.extend(each.iter().copied().cycle().take(of * each.len()));
    bytes
}

/// A map of one field, as the messages' are.
fn field(name: &str, value: &[u8]) -> Vec<u8> {
    let mut bytes = vec![0xa1, 0x60 | u8::try_from(name.len()).unwrap()];
    bytes.extend(name.as_bytes());
    bytes.extend(value);
    bytes
}

/// Those small enough to be kept in the corpus: kind, name, bytes.
pub fn small() -> Vec<(&'static str, &'static str, Vec<u8>)> {
    let deep = vec![0x81; 5_000];
    vec![
        ("request", "seven-million-numbers", request_of(&field("a", &list(7_000_000, &[0])))),
        ("request", "maps-in-lists", request_of(&field("c", &list(1_000_000, &[0xa1, 0x60, 0xf6])))),
        ("request", "nested", request_of(&deep)),
        ("carry", "numbers", carry_of(&field("changes", &list(30_000_000, &[0])))),
        ("carry", "nested", carry_of(&deep)),
        ("carry", "zeros", carry_of(&vec![0; 100 << 20])),
        ("entry", "nested", deep),
        ("slip", "long", [&[0x9b][..], &[0xff; 8]].concat()),
        ("outage", "commas", vec![b','; 20_000]),
        ("papers", "columns", vec![b';'; 20_000]),
        ("papers", "quote", [&b"a,b\n\""[..], &vec![b'x'; 20_000]].concat()),
    ]
    .into_iter()
    .filter(|(.., bytes)| bytes.len() < 160_000)
    .collect()
}

#[test]
fn what_is_small_and_would_be_large_is_refused_before_it_grows() {
    let mut bench = Bench::new();
    let mut dice = Dice::of(1);
    let mut large = small();
    // One byte string after the other, as ids are.
    let id = [&[0x58, 32][..], &[7; 32]].concat();
    let subject = cbor::encode(&VISIT).unwrap();
    let message = [&[0xa2, 0x61, b'b', 0x45, 0x42, 0, 0, 0, 0, 0x61, b'd'], &subject[..]].concat();
    large.extend([
        ("request", "whole-documents", request_of(&field("w", &list(200_000, &subject)))),
        ("request", "messages", request_of(&field("m", &list(100_000, &message)))),
        ("request", "asks", request_of(&field("a", &list(230_000, &id)))),
        ("request", "photographs", request_of(&field("p", &list(230_000, &id)))),
        ("papers", "lines", b"a,b\n".repeat(20_500)),
        ("papers", "all-columns", format!("{}\n", ",".repeat(199)).repeat(10_400).into_bytes()),
        ("papers", "two-megabytes", vec![b','; 2 << 20]),
        ("outage", "a-line", vec![b' '; 1 << 20]),
        ("outage", "rows", (0..60_000).map(|at| format!("{at},{at}\n")).collect::<String>().into_bytes()),
    ]);
    for (kind, name, bytes) in large {
        let took = watched(kind, &bytes, |bytes| bench.read(kind, bytes, &mut dice));
        println!(
            "hostile bomb {kind}/{name}: {} bytes, {} ms, {} kB",
            bytes.len(),
            took.time.as_millis(),
            took.memory >> 10
        );
    }
    bench.office_is_well();
}
