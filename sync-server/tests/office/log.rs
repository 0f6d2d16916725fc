//! The ledger's log between a real server and real devices: proofs, rewritten history, backups and witnesses.

use std::path::Path;

use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::DeviceKey;
use farsiding_core::evidence::{Checkpoint, Cosignature, Inclusion, VerifierKey};
use farsiding_core::ids::{DeviceId, Digest, EntryId, Subject};
use farsiding_core::store::{Durability, SqliteStore, Store as _, Write};
use serde_json::Value;

use super::stage::{Device, Server, farsiding};

pub fn organisation(server: &Server) -> DeviceId {
    let secret = std::fs::read_to_string(server.data.join("organisation.key")).unwrap();
    DeviceKey::from_secret(Digest::read(&secret).unwrap().0).public()
}

pub fn office(server: &Server, command: &str, more: &[&str]) -> (i32, Value) {
    let data = server.data.to_str().unwrap();
    let output = farsiding(&[command, "--data", data, "--json"]).args(more).output().unwrap();
    let said = serde_json::from_slice(&output.stdout).unwrap_or_else(|_| panic!("{output:?}"));
    (output.status.code().unwrap(), said)
}

pub fn raw(server: &Server) -> rusqlite::Connection {
    rusqlite::Connection::open(server.data.join("ledger.db")).unwrap()
}

fn count(raw: &rusqlite::Connection, what: &str) -> i64 {
    raw.query_row(&format!("SELECT count(*) FROM {what}"), [], |row| row.get(0)).unwrap()
}

/// Rewrites the ledger's log while no server runs, with `change` applied to its leaves.
pub fn rewrite(server: &Server, change: impl FnOnce(&mut Vec<(EntryId, UtcMillis)>)) {
    let file = server.data.join("ledger.db");
    let mut store = SqliteStore::open(file.to_str().unwrap(), Durability::WriteAheadLog).unwrap();
    let size = store.log().size().unwrap();
    let known: Vec<_> = (0..size).map(|n| store.log().leaf(n).unwrap().unwrap()).collect();
    let mut leaves: Vec<_> = known.iter().map(|leaf| (leaf.entry, leaf.received_at)).collect();
    change(&mut leaves);
    raw(server).execute_batch("DELETE FROM log; DELETE FROM log_tree; DELETE FROM checkpoint;").unwrap();
    for (entry, received_at) in leaves {
        let about = known.iter().find(|leaf| leaf.entry == entry).and_then(|leaf| leaf.about);
        store.commit(&[Write::Leaf { entry, received_at, about }]).unwrap();
    }
}

#[test]
fn a_device_holds_a_proof_for_every_entry_and_shows_it_without_the_office() {
    let folder = tempfile::tempdir().unwrap();
    let mut server = Server::start(&folder.path().join("office"));
    let a = Device::enrolled(&server, &folder.path().join("a"), "op-1");
    a.open("ZZQX 4417");
    let entry = a.yes(&["add", "4417", "remark", "first"])["entries"][0].as_str().unwrap().to_owned();
    let before = a.yes(&["proof", "--entry", &entry[..8]]);
    assert!(before["proof"].is_null() && before["held_at"].is_null(), "{before}");
    let said = a.yes(&["sync"]);
    let held = said["log"]["size"].as_u64().unwrap();
    assert!(held >= 2 && said["log"]["proven"] == held, "{said}");
    assert_eq!(a.yes(&["sync"])["log"]["asked"], false, "nothing new to ask");
    server.kill();

    let said = a.yes(&["proof", "--entry", &entry[..8]]);
    let (proof, key) = (&said["proof"], organisation(&server));
    let checkpoint = Checkpoint::open(proof["checkpoint"].as_str().unwrap(), &key).unwrap();
    let inclusion = Inclusion {
        number: proof["number"].as_u64().unwrap(),
        received_at: UtcMillis(proof["received_at_millis"].as_i64().unwrap()),
        path: serde_json::from_value(proof["path"].clone()).unwrap(),
        about: Some(Subject::read(proof["about"].as_str().unwrap()).unwrap()),
    };
    let id = EntryId::read(&entry).unwrap();
    assert_eq!(inclusion.check(id, &checkpoint), Ok(()));
    assert!(a.words(&["proof", "--entry", &entry]).contains(&checkpoint.origin));
    assert!(a.words(&["whoami"]).contains("Office's log:"));
    assert!(a.no(3, &["proof", "--entry", "ffffffff"]).contains("no entry"));
}

#[test]
fn an_entry_is_kept_with_its_leaf_or_not_at_all() {
    let folder = tempfile::tempdir().unwrap();
    let server = Server::start(&folder.path().join("office"));
    let a = Device::enrolled(&server, &folder.path().join("a"), "op-1");
    a.open("ZZQX 4417");
    let raw = raw(&server);
    raw.execute_batch(
        "CREATE TRIGGER no_leaves BEFORE INSERT ON log BEGIN SELECT RAISE(ABORT, 'the disk fails here'); END",
    )
    .unwrap();
    a.no(4, &["sync", "--attempts", "1"]);
    assert_eq!((count(&raw, "entry"), count(&raw, "change"), count(&raw, "log")), (0, 0, 0));
    raw.execute_batch("DROP TRIGGER no_leaves").unwrap();
    assert_eq!(a.yes(&["sync"])["unreceipted_entries"], 0);
    assert!(count(&raw, "entry") > 0);
    assert_eq!(count(&raw, "entry"), count(&raw, "log"));
}

#[test]
fn a_ledger_of_before_is_brought_into_its_log_when_the_server_starts() {
    let folder = tempfile::tempdir().unwrap();
    let mut server = Server::start(&folder.path().join("office"));
    let a = Device::enrolled(&server, &folder.path().join("a"), "op-1");
    a.open("ZZQX 4417");
    a.yes(&["sync"]);
    server.terminate();
    server.wait();
    let raw = raw(&server);
    // This restores the state of a ledger of the first schema.
    raw.execute_batch(
        "DROP TABLE log; DROP TABLE log_tree; DROP TABLE timestamp; DROP TABLE checkpoint;
         DROP INDEX entry_without_proof; ALTER TABLE entry DROP COLUMN proof; DROP TABLE proof;
         DROP TABLE opened_at; DROP TABLE belonging; DROP TABLE area_tally; DROP TABLE feed; DROP TABLE photo_in;
         PRAGMA user_version = 1;",
    )
    .unwrap();
    server.restart();
    assert_eq!(count(&raw, "entry"), count(&raw, "log"));
    let (_, said) = office(&server, "checkpoint", &[]);
    assert_eq!(said["size"].as_i64().unwrap(), count(&raw, "entry"));
}

#[test]
fn leaves_that_a_killed_server_left_are_covered_by_a_checkpoint_before_anybody_asks() {
    let folder = tempfile::tempdir().unwrap();
    let mut server = Server::start(&folder.path().join("office"));
    let a = Device::enrolled(&server, &folder.path().join("a"), "op-1");
    a.open("ZZQX 4417");
    a.yes(&["add", "4417", "remark", "first"]);
    assert_eq!(a.yes(&["sync"])["unreceipted_entries"], 0);
    server.kill();
    let raw = raw(&server);
    // As if it had been killed between the receipts and the checkpoint that covers them.
    raw.execute_batch("DELETE FROM timestamp; DELETE FROM checkpoint").unwrap();
    let leaves = count(&raw, "log");
    server.restart();
    let covered = || -> Option<i64> {
        raw.query_row("SELECT max(size) FROM checkpoint", [], |row| row.get(0)).unwrap()
    };
    let began = std::time::Instant::now();
    while covered() != Some(leaves) {
        assert!(began.elapsed().as_secs() < 30, "no checkpoint covers the leaves: {:?}", covered());
        std::thread::sleep(std::time::Duration::from_millis(20));
    }
    // What was receipted is proven to the device that asks.
    a.yes(&["add", "4417", "remark", "second"]);
    let said = a.yes(&["sync"]);
    assert!(said["log"]["proven"].as_u64() >= Some(1), "{said}");
}

type Leaves = Vec<(EntryId, UtcMillis)>;
type Change = fn(&mut Leaves);

#[test]
fn a_rewritten_ledger_is_said_loudly_and_keeps_nobody_from_recording() {
    let changes: [(&str, Change); 3] = [
        ("reordered", |leaves| leaves.swap(0, 1)),
        ("removed", |leaves| {
            leaves.remove(0);
        }),
        ("dated anew", |leaves| leaves[0].1 = UtcMillis(leaves[0].1.0 - 60_000)),
    ];
    for (what, change) in changes {
        let folder = tempfile::tempdir().unwrap();
        let mut server = Server::start(&folder.path().join("office"));
        let a = Device::enrolled(&server, &folder.path().join("a"), "op-1");
        a.open("ZZQX 4417");
        a.yes(&["add", "4417", "remark", "first"]);
        a.yes(&["sync"]);
        server.terminate();
        server.wait();
        rewrite(&server, change);
        server.restart();
        a.yes(&["add", "4417", "remark", "second"]);
        let said = a.no(6, &["sync"]);
        assert!(said.contains("rewritten") || said.contains("two different versions"), "{what}: {said}");
        assert!(said.contains("Everything here is receipted"), "{what}: {said}");
        assert!(a.words(&["show", "4417"]).starts_with("WARNING"), "{what}");
        let kept = a.yes(&["whoami"])["log"]["alarms"][0].clone();
        let key = organisation(&server);
        for note in ["ours", "theirs"] {
            assert!(Checkpoint::open(kept[note].as_str().unwrap(), &key).is_ok(), "{what}: {kept}");
        }
        a.yes(&["add", "4417", "remark", "third"]);
        a.no(6, &["sync"]);
        assert_eq!(a.yes(&["receipts"])["unreceipted_entries"], 0);
    }
}

#[test]
fn two_devices_shown_two_ledgers_find_out_when_one_carries_to_the_other() {
    let folder = tempfile::tempdir().unwrap();
    let mut server = Server::start(&folder.path().join("office"));
    let a = Device::enrolled(&server, &folder.path().join("a"), "op-1");
    let b = Device::enrolled(&server, &folder.path().join("b"), "op-2");
    a.open("ZZQX 4417");
    a.yes(&["add", "4417", "remark", "first"]);
    a.yes(&["sync"]);
    server.terminate();
    server.wait();
    rewrite(&server, |leaves| leaves.swap(0, 1));
    server.restart();
    b.yes(&["sync"]); // this device was never shown the other log
    let file = folder.path().join("visit.carry");
    a.yes(&["carry-out", file.to_str().unwrap(), "4417"]);
    let said = b.yes(&["carry-in", file.to_str().unwrap()]);
    assert_eq!(said["contradictions"][0], "two_versions", "{said}");
    assert!(b.words(&["show", "4417"]).contains("two different versions"));
}

fn copy_of(data: &Path, to: &Path) {
    for name in ["ledger.db", "server.db"] {
        let raw = rusqlite::Connection::open(data.join(name)).unwrap();
        raw.execute("VACUUM INTO ?1", [to.join(name).to_str().unwrap()]).unwrap();
    }
}

fn put_back(from: &Path, data: &Path, names: &[&str]) {
    for name in names {
        for tail in ["", "-wal", "-shm"] {
            let _ = std::fs::remove_file(data.join(format!("{name}{tail}")));
        }
        std::fs::copy(from.join(name), data.join(name)).unwrap();
    }
}

#[test]
fn a_ledger_put_back_from_a_copy_declares_it_by_itself_and_is_no_alarm() {
    let folder = tempfile::tempdir().unwrap();
    let mut server = Server::start(&folder.path().join("office"));
    let a = Device::enrolled(&server, &folder.path().join("a"), "op-1");
    a.open("ZZQX 4417");
    a.yes(&["sync"]);
    copy_of(&server.data, folder.path());
    let entry =
        a.yes(&["add", "4417", "remark", "after the copy"])["entries"][0].as_str().unwrap().to_owned();
    a.yes(&["sync"]);
    let proven = a.yes(&["proof", "--entry", &entry])["proof"].clone();
    server.terminate();
    server.wait();
    put_back(folder.path(), &server.data, &["ledger.db"]);
    server.restart();
    a.yes(&["add", "4417", "remark", "after it was put back"]);
    let said = a.yes(&["sync"]);
    assert_eq!(said["log"]["restored"].as_array().unwrap().len(), 1, "{said}");
    assert_eq!(said["log"]["contradictions"].as_array().unwrap().len(), 0);
    assert_eq!(a.yes(&["proof", "--entry", &entry])["proof"], proven, "what was proven stays proven");
    assert!(a.yes(&["show", "4417"])["log_warnings"].as_array().unwrap().is_empty());
}

#[test]
fn a_whole_folder_put_back_is_an_alarm_until_somebody_declares_it() {
    let folder = tempfile::tempdir().unwrap();
    let mut server = Server::start(&folder.path().join("office"));
    let a = Device::enrolled(&server, &folder.path().join("a"), "op-1");
    a.open("ZZQX 4417");
    a.yes(&["sync"]);
    copy_of(&server.data, folder.path());
    a.yes(&["add", "4417", "remark", "after the copy"]);
    a.yes(&["sync"]);
    server.terminate();
    server.wait();
    put_back(folder.path(), &server.data, &["ledger.db", "server.db"]);
    server.restart();
    a.yes(&["add", "4417", "remark", "after it was put back"]);
    let said = a.no(6, &["sync"]);
    assert!(said.contains("rewritten") || said.contains("two different"), "{said}");

    let (code, said) = office(&server, "restored", &[]);
    assert_eq!(code, 0, "{said}");
    let said = a.yes(&["sync"]);
    assert_eq!(said["log"]["restored"].as_array().unwrap().len(), 1, "{said}");
    assert_eq!(said["log"]["contradictions"].as_array().unwrap().len(), 0);
    let said = a.words(&["sync"]);
    assert!(said.contains("Kept from before"), "the alarm is history and stays: {said}");
    assert_eq!(a.yes(&["receipts"])["unreceipted_entries"], 0);
}

#[test]
fn a_witness_signs_a_checkpoint_and_strangers_do_not() {
    let folder = tempfile::tempdir().unwrap();
    let server = Server::start(&folder.path().join("office"));
    let a = Device::enrolled(&server, &folder.path().join("a"), "op-1");
    a.open("ZZQX 4417");
    a.yes(&["sync"]);
    let data = server.data.to_str().unwrap();
    let printed = farsiding(&["checkpoint", "--data", data]).output().unwrap();
    let note = String::from_utf8(printed.stdout).unwrap();
    assert!(Checkpoint::open(&note, &organisation(&server)).is_ok(), "printed as it is signed: {note}");

    let (name, secret) = ("witness.example/w1", DeviceKey::from_secret([9; 32]));
    let key = VerifierKey::witness(name, secret.public()).to_string();
    let line = Cosignature::line(&note, name, &secret, UtcMillis(1_795_528_800_000)).unwrap();
    let file = folder.path().join("line");
    let add = |text: &str, key: &str| {
        std::fs::write(&file, text).unwrap();
        office(&server, "checkpoint", &["--add-cosignature", file.to_str().unwrap(), "--witness", key])
    };
    let (code, said) = add(&line, &key);
    assert_eq!((code, said["witnesses"][0]["name"].as_str()), (0, Some(name)), "{said}");
    assert_eq!(add(&format!("{note}{line}"), &key).0, 0, "the whole note does as well");
    let (_, said) = office(&server, "checkpoint", &[]);
    assert!(said["note"].as_str().unwrap().ends_with(&line), "{said}");
    assert_eq!(said["note"].as_str().unwrap().matches(name).count(), 1, "once");

    let stranger = DeviceKey::from_secret([1; 32]);
    let other = Cosignature::line(&note, name, &stranger, UtcMillis(1_795_528_800_000)).unwrap();
    assert!(add(&other, &key).1["message"].as_str().unwrap().contains("no signature by"));
    let of_another = note.replace("farsiding/", "farsiding/0");
    let wrong = Cosignature::line(&of_another, name, &secret, UtcMillis(1_795_528_800_000)).unwrap();
    assert!(add(&wrong, &key).1["message"].as_str().unwrap().contains("does not hold"));

    // A device that asks for the log also receives the witness's signature.
    a.yes(&["add", "4417", "remark", "second"]);
    a.yes(&["sync"]);
    let note = office(&server, "checkpoint", &[]).1["note"].as_str().unwrap().to_owned();
    let line = Cosignature::line(&note, name, &secret, UtcMillis(1_795_528_900_000)).unwrap();
    assert_eq!(add(&line, &key).0, 0);
    let b = Device::enrolled(&server, &folder.path().join("b"), "op-2");
    b.yes(&["sync"]);
    assert!(b.yes(&["whoami"])["log"]["checkpoint"].as_str().unwrap().ends_with(&line));
}
