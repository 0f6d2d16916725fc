//! The published log: written as files, audited by our own reader and by an independent reader written from
//! the standards.

use std::path::{Path, PathBuf};
use std::process::Command;

use farsiding_core::clock::UtcMillis;
use farsiding_core::store::{Durability, SqliteStore, Store as _, Write};
use serde_json::Value;

use super::log::{organisation, rewrite};
use super::outsider::outsider;
use super::stage::{Device, Server, farsiding};

fn tiles(server: &Server, out: &Path) -> (i32, Value) {
    let (data, out) = (server.data.to_str().unwrap(), out.to_str().unwrap());
    let output = farsiding(&["log", "tiles", "--data", data, "--out", out, "--json"]).output().unwrap();
    let said = serde_json::from_slice(&output.stdout).unwrap_or_else(|_| panic!("{output:?}"));
    (output.status.code().unwrap(), said)
}

fn audit(log: &str, key: &str, more: &[&str]) -> (i32, Value) {
    let output = farsiding(&["log", "audit", log, "--key", key, "--json"]).args(more).output().unwrap();
    let said = serde_json::from_slice(&output.stdout).unwrap_or_else(|_| panic!("{output:?}"));
    (output.status.code().unwrap(), said)
}

/// Runs the reader in `tests/verify`, which shares no code with this program.
fn second(log: &Path, key: &str) -> (i32, Value) {
    let script = Path::new(env!("CARGO_MANIFEST_DIR")).join("../tests/verify/audit_tiles.py");
    let output =
        Command::new("python3").arg(script).arg(log).args(["--key", key, "--json"]).output().unwrap();
    let said = serde_json::from_slice(&output.stdout).unwrap_or_else(|_| panic!("{output:?}"));
    (output.status.code().unwrap(), said)
}

/// Returns the file that both readers name for a log that does not hold.
fn wrong(log: &Path, key: &str) -> String {
    let ((ours, said), (theirs, also)) = (audit(log.to_str().unwrap(), key, &[]), second(log, key));
    assert_eq!((ours, theirs), (3, 3), "{said} {also}");
    assert_eq!(said["path"], also["path"], "{said} {also}");
    said["path"].as_str().unwrap().to_owned()
}

fn files(folder: &Path) -> Vec<(PathBuf, Vec<u8>, std::time::SystemTime)> {
    let (mut found, mut waiting) = (Vec::new(), vec![folder.to_owned()]);
    while let Some(here) = waiting.pop() {
        for item in std::fs::read_dir(here).unwrap() {
            let path = item.unwrap().path();
            if path.is_dir() {
                waiting.push(path);
            } else {
                let changed = std::fs::metadata(&path).unwrap().modified().unwrap();
                found.push((path.clone(), std::fs::read(&path).unwrap(), changed));
            }
        }
    }
    found.sort();
    found
}

/// Returns an office whose log has about this many entries, and one more device that records.
fn office_of(folder: &Path, entries: usize) -> (Server, Device) {
    let server = Server::start(&folder.join("office"));
    let a = Device::enrolled(&server, &folder.join("a"), "op-1");
    a.open("ZZQX 4417");
    grow(&a, entries);
    (server, a)
}

fn grow(a: &Device, entries: usize) {
    for n in 0..entries {
        a.yes(&["add", "4417", "remark", &format!("remark {n}")]);
    }
    a.yes(&["sync"]);
}

/// Adds entries directly to the ledger, as many as a busy month brings.
fn fill(server: &Server, entries: u64) {
    use farsiding_core::clock::Stamp;
    use farsiding_core::entry::{Body, DeviceKey, Entry, Statement};
    use farsiding_core::ids::{OperatorId, Subject, VisitId};
    let file = server.data.join("ledger.db");
    let mut store = SqliteStore::open(file.to_str().unwrap(), Durability::WriteAheadLog).unwrap();
    let (key, subject) = (DeviceKey::from_secret([77; 32]), Subject::Visit(VisitId([7; 16])));
    let made: Vec<Entry> = (0..entries)
        .map(|n| {
            let says = Statement::Remark { text: format!("remark {n}") };
            let body = Body {
                about: subject,
                slot: says.slot(),
                says,
                follows: vec![],
                replaces: vec![],
                why: String::new(),
                by: OperatorId("op-1".into()),
                seq: n + 1,
                prev: None,
                when: Stamp { at: UtcMillis(0), offset_minutes: 0, ahead_millis: None },
                place: None,
                seen: None,
                hand: None,
                done: None,
                rests_on: None,
            };
            Entry::seal(body, &key).unwrap()
        })
        .collect();
    let mut writes: Vec<Write<'_>> = made.iter().map(|entry| Write::Entry { subject, entry }).collect();
    writes.extend(made.iter().map(|entry| Write::Leaf {
        entry: entry.id,
        received_at: UtcMillis(1_795_528_800_000),
        about: Some(subject),
    }));
    store.commit(&writes).unwrap();
}

#[test]
fn a_log_is_written_as_files_and_only_what_is_new_the_next_time() {
    let folder = tempfile::tempdir().unwrap();
    let (server, a) = office_of(folder.path(), 2);
    let key = organisation(&server).to_string();
    let out = folder.path().join("log");
    let (code, said) = tiles(&server, &out);
    assert_eq!((code, said["before"].as_u64(), said["files"].as_u64()), (0, Some(0), Some(3)), "{said}");
    let size = said["size"].as_u64().unwrap();
    let at = out.to_str().unwrap();
    let (code, said) = audit(at, &key, &[]);
    assert_eq!((code, said["size"].as_u64()), (0, Some(size)), "{said}");
    assert!(said["first"].as_str() <= said["last"].as_str(), "{said}");
    assert_eq!(said["heads"]["checked"], true, "{said}");
    assert!(said["heads"]["count"].as_u64() > Some(0), "{said}");
    assert_eq!(second(&out, &key).1["size"], size);
    let seen = folder.path().join("seen");
    std::fs::copy(out.join("checkpoint"), &seen).unwrap();

    fill(&server, 600);
    grow(&a, 1);
    let (code, said) = tiles(&server, &out);
    assert_eq!((code, said["before"].as_u64()), (0, Some(size)), "{said}");
    let first = files(&out);
    assert!(!out.join("tile/0/000.p").exists(), "nobody needs the partial tile any more");
    for outcome in [audit(at, &key, &["--against", seen.to_str().unwrap()]), second(&out, &key)] {
        assert_eq!((outcome.0, outcome.1["size"].as_u64()), (0, Some(size + 601)), "{}", outcome.1);
    }
    assert_eq!(tiles(&server, &out).1["files"], 0, "nothing is new");
    grow(&a, 1);
    let (_, said) = tiles(&server, &out);
    assert_eq!(said["files"], 3, "a tile, its bundle and the checkpoint: {said}");
    let after = files(&out);
    for (path, bytes, changed) in &first {
        let same = after.iter().any(|(p, b, c)| p == path && b == bytes && c == changed);
        assert!(same || path.ends_with("checkpoint"), "{path:?}");
    }
    // A lost file is written again; existing files are not touched.
    std::fs::remove_file(out.join("tile/0/001")).unwrap();
    assert_eq!(wrong(&out, &key), "tile/0/001");
    assert_eq!(tiles(&server, &out).0, 0);
    assert_eq!(audit(at, &key, &[]).0, 0);
    // Our own reader audits the same log over a web server.
    let served = out.clone();
    let url = outsider(move |asked| {
        let path = asked.head.split(' ').nth(1).unwrap().trim_start_matches("/log/").to_owned();
        match std::fs::read(served.join(path)) {
            Ok(bytes) => (200, "application/octet-stream", bytes),
            Err(_) => (404, "text/plain", Vec::new()),
        }
    });
    let (code, said) = audit(&format!("{url}/log/"), &key, &[]);
    assert_eq!((code, said["size"].as_u64()), (0, Some(size + 602)), "{said}");
    let away = audit("http://127.0.0.1:9/log", &key, &[]);
    assert_eq!((away.0, away.1["error"].as_str()), (1, Some("failed")), "{}", away.1);
}

#[test]
fn two_readers_name_the_same_first_place_that_is_wrong() {
    let folder = tempfile::tempdir().unwrap();
    let (server, a) = office_of(folder.path(), 1);
    fill(&server, 600);
    grow(&a, 1);
    let key = organisation(&server).to_string();
    let out = folder.path().join("log");
    assert_eq!(tiles(&server, &out).0, 0);
    let paths: Vec<PathBuf> = files(&out).into_iter().map(|(path, ..)| path).collect();
    let named = |path: &Path| path.strip_prefix(&out).unwrap().to_str().unwrap().to_owned();
    for path in &paths {
        let good = std::fs::read(path).unwrap();
        let mut changed = good.clone();
        changed[good.len() / 2] ^= 1;
        std::fs::write(path, changed).unwrap();
        let said = wrong(&out, &key);
        let its_own = named(path);
        assert!(said == its_own || its_own.contains("entries"), "one byte of {its_own}: {said}");
        std::fs::write(path, &good[..good.len() - 1]).unwrap();
        assert_eq!(wrong(&out, &key), its_own, "cut off");
        std::fs::remove_file(path).unwrap();
        assert_eq!(wrong(&out, &key), its_own, "gone");
        std::fs::write(path, &good).unwrap();
    }
    // A leaf is left out of a bundle.
    let bundle = out.join("tile/entries/001");
    let good = std::fs::read(&bundle).unwrap();
    let first = 2 + usize::from(u16::from_be_bytes([good[0], good[1]]));
    std::fs::write(&bundle, &good[first..]).unwrap();
    assert_eq!(wrong(&out, &key), "tile/entries/001");
    std::fs::write(&bundle, &good).unwrap();
    assert_eq!(audit(out.to_str().unwrap(), &key, &[]).0, 0);
    // The key belongs to another organisation.
    let other = farsiding_core::entry::DeviceKey::from_secret([3; 32]).public().to_string();
    assert_eq!(wrong(&out, &other), "checkpoint");
}

#[test]
fn a_folder_with_something_else_or_with_another_history_is_left_alone() {
    let folder = tempfile::tempdir().unwrap();
    let (mut server, _a) = office_of(folder.path(), 2);
    let key = organisation(&server).to_string();
    let photos = folder.path().join("photographs");
    std::fs::create_dir(&photos).unwrap();
    std::fs::write(photos.join("one.jpg"), b"x").unwrap();
    let (code, said) = tiles(&server, &photos);
    assert!(code == 3 && said["message"].as_str().unwrap().contains("no log"), "{said}");
    assert_eq!(files(&photos).len(), 1);
    let out = folder.path().join("log");
    assert_eq!(tiles(&server, &out).0, 0);
    let before = files(&out);
    server.terminate();
    server.wait();
    rewrite(&server, |leaves| leaves.swap(0, 1));
    server.restart();
    let (code, said) = tiles(&server, &out);
    assert!(code == 3 && said["message"].as_str().unwrap().contains("not the first ones here"), "{said}");
    assert_eq!(files(&out), before, "the log of before stands as evidence");
    let seen = out.join("checkpoint");
    let anew = folder.path().join("anew");
    assert_eq!(tiles(&server, &anew).0, 0);
    let (code, said) = audit(anew.to_str().unwrap(), &key, &["--against", seen.to_str().unwrap()]);
    assert!(code == 3 && said["what"].as_str().unwrap().contains("rewritten"), "{said}");
    let (code, said) = audit(folder.path().join("nowhere").to_str().unwrap(), &key, &[]);
    assert!(code == 3 && said["message"].as_str().unwrap().contains("neither a folder nor"), "{said}");
}
