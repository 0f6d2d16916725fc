//! One bad visit among good ones: the others come in and go on, and the bad one is kept and can be taken out.

use std::path::Path;

use farsiding_core::clock::UtcMillis;
use farsiding_core::document::CheckedChange;
use farsiding_core::ids::{Digest, Subject, VisitId};
use farsiding_core::store::{Durability, MemoryStore, SqliteStore, Store as _, Write};
use farsiding_core::sync::carry_out;
use farsiding_core::sync::wire::{Change, RequestBulk, RequestHead, seal_request};
use serde_json::Value;

use crate::mutation::with_checksum;
use crate::requests::ask;
use crate::stage::{Device, Server, farsiding};

/// The changes of a visit on a device.
fn changes(device: &Device, visit: &str) -> (Subject, Vec<Vec<u8>>) {
    let subject = Subject::Visit(VisitId::read(visit).unwrap());
    let record = device.dir.join("record.db");
    let store = SqliteStore::open(record.to_str().unwrap(), Durability::WriteAheadLog).unwrap();
    (subject, store.changes_of(subject).unwrap().rows.into_iter().map(|row| row.bytes).collect())
}

/// The change with its last entry altered after it was signed, and the checksum made right.
fn altered(change: &[u8]) -> Vec<u8> {
    let mut bytes = change.to_vec();
    let says = b"29 340 gal";
    let at = bytes.windows(says.len()).position(|window| window == says).expect("the paper is in it");
    bytes[at] = b'1';
    let bytes = with_checksum(bytes);
    assert!(CheckedChange::hash_of(&bytes).is_ok(), "the library reads it");
    bytes
}

const PAPER: &str = "paper number=A-1 un_number=UN1978 product=Propane [billed=29 340 gal]";

/// The export holds exactly these bytes under their digest, and says what they are; asked again it is the same.
fn exported(folder: &Path, told: &Value, bad: &[u8]) {
    let kept = told["kept_aside"].as_array().unwrap();
    assert_eq!(kept.len(), 1, "{told}");
    let name = format!("{}.bin", Digest::of(bad));
    assert_eq!(kept[0]["file"], name.as_str(), "{told}");
    assert!(kept[0]["why"].as_str().unwrap().contains("signature does not hold"), "{told}");
    assert_eq!(std::fs::read(folder.join(&name)).unwrap(), bad);
    let listing: Value =
        serde_json::from_slice(&std::fs::read(folder.join("kept-aside.json")).unwrap()).unwrap();
    assert_eq!(listing["kept_aside"], told["kept_aside"]);
}

#[test]
fn a_bad_visit_sent_to_the_office_is_kept_there_and_the_others_get_through() {
    let folder = tempfile::tempdir().unwrap();
    let server = Server::in_folder(folder.path());
    let phone = Device::enrolled(&server, &folder.path().join("phone-1"), "ash");
    let (good, bad) = (phone.open("ZZQX 4417"), phone.open("ZZQX 4418"));
    phone.records(&bad, &[PAPER]);
    let (good, good_changes) = changes(&phone, &good);
    let (bad, bad_changes) = changes(&phone, &bad);
    let forged = altered(bad_changes.last().unwrap());

    // As a phone whose storage was damaged would: both visits in one request, the bad one first.
    let of = |subject, bytes: &[u8]| Change { subject, bytes: bytes.to_vec() };
    let bulk =
        RequestBulk { changes: vec![of(bad, &forged), of(good, &good_changes[0])], ..RequestBulk::default() };
    let head = RequestHead {
        number: 1,
        cursor: None,
        certificates: 0,
        at: UtcMillis(0),
        bulk: None,
        statement: None,
    };
    let request = seal_request(head, &bulk, &phone.key()).unwrap();
    assert_eq!(ask(&server, "POST", "/v1/sync", &[], &request).status, 200);

    let data = folder.path().join("office");
    for _ in 0..2 {
        let out = folder.path().join("kept");
        let arguments =
            ["quarantine", "--json", "--data", data.to_str().unwrap(), "--out", out.to_str().unwrap()];
        let output = farsiding(&arguments).output().unwrap();
        assert!(output.status.success(), "{output:?}");
        exported(&out, &serde_json::from_slice(&output.stdout).unwrap(), &forged);
    }
    let other = Device::of_operator(&server, &folder.path().join("phone-2"), "birch");
    other.yes(&["sync"]);
    assert_eq!(other.view("4417")["entries"], 1, "the good visit is at the office");
    assert_eq!(phone.yes(&["sync"])["unreceipted_entries"], 0, "the true record of the bad one follows");
    other.yes(&["sync"]);
    assert_eq!(other.view("4418")["entries"], 2);
}

#[test]
fn a_bad_visit_in_a_carry_file_is_kept_on_the_device_and_the_others_come_in() {
    let folder = tempfile::tempdir().unwrap();
    let server = Server::in_folder(folder.path());
    let phone = Device::enrolled(&server, &folder.path().join("phone-1"), "ash");
    let (good, bad) = (phone.open("ZZQX 4417"), phone.open("ZZQX 4418"));
    phone.records(&bad, &[PAPER]);
    let mut store = MemoryStore::new();
    let (bad, bad_changes) = changes(&phone, &bad);
    let (good, good_changes) = changes(&phone, &good);
    let forged = altered(bad_changes.last().unwrap());
    for (subject, bytes) in [(bad, &forged), (good, &good_changes[0])] {
        let hash = CheckedChange::hash_of(bytes).unwrap();
        store.commit(&[Write::Change { subject, hash, bytes, held: false }]).unwrap();
    }
    let file = folder.path().join("two.carry");
    std::fs::write(&file, carry_out(&store, &[bad, good], Vec::new()).unwrap()).unwrap();

    let taker = Device::of_operator(&server, &folder.path().join("phone-2"), "birch");
    taker.yes(&["sync"]); // it knows whose devices are the organisation's
    let (_, said) = taker.run(&["carry-in", file.to_str().unwrap()]);
    assert!(said.to_string().contains("signature does not hold"), "{said}");
    assert_eq!(taker.view("4417")["entries"], 1, "the good one came in");
    let out = folder.path().join("kept");
    for _ in 0..2 {
        exported(&out, &taker.yes(&["quarantine", "--out", out.to_str().unwrap()]), &forged);
    }
    assert_eq!(taker.yes(&["sync"])["unreceipted_entries"], 0, "and goes to the office");
}
