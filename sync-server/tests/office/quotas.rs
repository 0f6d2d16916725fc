//! The daily limits of a device, the limits on quarantined data, and records that nobody opened. What is over
//! a limit is deferred and reported, nothing typed is lost, and nobody can fill the office's disk or lists.

use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::DeviceKey;
use farsiding_core::ids::{Subject, VisitId};
use farsiding_core::sync::wire::{Change, RequestBulk, RequestHead, seal_request};
use farsiding_testkit::Dice;
use serde_json::Value;

use super::pages_stage::{Session, account, text};
use super::stage::{Device, Server, farsiding};

/// A server and a device whose clocks are read from one file.
struct Stage {
    folder: tempfile::TempDir,
    server: Server,
    device: Device,
}

impl Stage {
    fn set(more: &[&str]) -> Stage {
        let folder = tempfile::tempdir().unwrap();
        put(&folder, "2026-11-25T23:50:00Z");
        let clock = format!("@{}", folder.path().join("clock").display());
        let server = Server::start_with_clock(&folder.path().join("office"), more, &clock);
        let mut device = Device::enrolled(&server, &folder.path().join("a"), "op-1");
        device.clock = Some(clock);
        Stage { folder, server, device }
    }

    fn at(&self, time: &str) {
        put(&self.folder, time);
    }
}

fn put(folder: &tempfile::TempDir, time: &str) {
    std::fs::write(folder.path().join("clock"), time).unwrap();
}

fn words(said: &Value) -> String {
    said["put_off"].to_string()
}

#[test]
fn what_is_too_much_for_a_day_is_put_off_in_the_signed_reply_and_taken_the_next() {
    let Stage { folder, server, device } = &Stage::set(&["--quota", "entries=12"]);
    let visit = device.open("ZZQX 4417");
    assert_eq!(device.yes(&["sync"])["unreceipted_entries"], 0);
    for n in 0..15 {
        device.yes(&["add", &visit, "remark", &format!("words {n}")]);
    }
    let said = device.yes(&["sync"]);
    let left = said["unreceipted_entries"].as_u64().unwrap();
    assert!(left > 0 && left < 15, "{said}");
    assert!(words(&said).contains("entries of one device in a day"), "{said}");
    assert!(words(&said).contains("tomorrow") && words(&said).contains("raises"), "who may lift it: {said}");
    assert_eq!(said["refused"].as_array().unwrap().len(), 0);
    // Until the next day it is not sent repeatedly, even after a restart of either side. Other devices are
    // not affected.
    let said = device.yes(&["sync"]);
    let told = (said["unreceipted_entries"].as_u64(), said["rounds"].as_u64());
    assert_eq!(told, (Some(left), Some(1)), "{said}");
    assert!(words(&said).contains("tomorrow"), "it still says why: {said}");
    let mut other = Device::enrolled(server, &folder.path().join("b"), "op-2");
    other.clock.clone_from(&device.clock);
    other.yes(&["sync"]);
    other.yes(&["add", &visit, "remark", "of another"]);
    assert_eq!(other.yes(&["sync"])["unreceipted_entries"], 0);
    let now = device.yes(&["sync"]);
    assert_eq!((now["received"].as_u64(), now["reconciled"].as_bool()), (Some(1), Some(false)), "{now}");

    put(folder, "2026-11-26T00:10:00Z");
    let said = device.yes(&["sync"]);
    assert_eq!((said["unreceipted_entries"].as_u64(), words(&said).as_str()), (Some(0), "null"), "{said}");
    other.yes(&["sync"]);
    assert_eq!(other.view(&visit)["entries"], device.view(&visit)["entries"]);
}

#[test]
fn records_opened_in_a_day_are_bounded() {
    let Stage { device, .. } = &Stage::set(&["--quota", "visits=2"]);
    for car in ["ZZQX 1", "ZZQX 2", "ZZQX 3", "ZZQX 4"] {
        device.open(car);
    }
    let said = device.yes(&["sync"]);
    assert!(words(&said).contains("records opened by one device"), "{said}");
    assert!(said["unreceipted_entries"].as_u64().unwrap() > 0);
}

#[test]
fn a_revoked_device_has_a_small_tray() {
    let stage = Stage::set(&["--quota", "tray-entries=4"]);
    let (server, device) = (&stage.server, &stage.device);
    let visit = device.open("ZZQX 4417");
    device.yes(&["sync"]);
    for n in 0..10 {
        device.yes(&["add", &visit, "remark", &format!("late {n}")]);
    }
    let id = server.devices()["devices"][0]["device"].as_str().unwrap().to_owned();
    assert!(server.revoke(&id).status.success());
    let (code, said) = device.run(&["sync"]);
    assert_eq!(code, 5, "{said}");
    assert!(said["message"].as_str().unwrap().contains("entries of a revoked device"), "{said}");
    let taken = entries_at(server);
    stage.at("2026-11-27T12:00:00Z");
    assert_eq!(device.run(&["sync"]).0, 5);
    assert_eq!(entries_at(server), taken, "the tray does not grow with the days");
}

/// Returns the number of entries in the office's ledger.
fn entries_at(server: &Server) -> i64 {
    let ledger = rusqlite::Connection::open(server.data.join("ledger.db")).unwrap();
    ledger.query_row("SELECT count(*) FROM entry", [], |row| row.get(0)).unwrap()
}

fn send_junk(server: &Server, key: &DeviceKey, number: u64, junk: Vec<u8>) -> u16 {
    let change = Change { subject: Subject::Visit(VisitId([7; 16])), bytes: junk };
    let bulk = RequestBulk { changes: vec![change], ..RequestBulk::default() };
    let head =
        RequestHead { number, cursor: None, certificates: 0, at: UtcMillis(0), bulk: None, statement: None };
    server.ask("POST", "/v1/sync", &[], &seal_request(head, &bulk, key).unwrap()).status
}

fn size_of(server: &Server) -> u64 {
    ["ledger.db", "ledger.db-wal", "server.db", "server.db-wal"]
        .iter()
        .filter_map(|name| std::fs::metadata(server.data.join(name)).ok())
        .map(|file| file.len())
        .sum()
}

fn quarantine(server: &Server, more: &[&str]) -> Value {
    let data = server.data.to_str().unwrap();
    let output = farsiding(&["quarantine", "--data", data, "--json"]).args(more).output().unwrap();
    assert!(output.status.success(), "{output:?}");
    serde_json::from_slice(&output.stdout).unwrap()
}

#[test]
fn of_what_is_refused_little_is_kept_and_the_office_can_forget_it() {
    let folder = tempfile::tempdir().unwrap();
    let server = Server::start(&folder.path().join("office"));
    account(&server, "Clerk");
    let device = Device::enrolled(&server, &folder.path().join("a"), "op-1");
    let mut junk = Dice::of(5).bytes(60_000);
    let before = size_of(&server);
    // One block of bytes is varied by a byte each time. Sixty of them would have been 3.6 MB stored for ever.
    for number in 1..=60u8 {
        junk[100] = number;
        assert_eq!(send_junk(&server, &device.key(), u64::from(number), junk.clone()), 200);
    }
    let kept = quarantine(&server, &[]);
    let kept = kept["kept_aside"].as_array().unwrap();
    assert!((1..=20).contains(&kept.len()), "{} kept: more than a day's bytes are only counted", kept.len());
    assert!(kept.iter().all(|item| item["bytes"] == 60_000 && item["kept_bytes"] == 4096));
    let grown = size_of(&server) - before;
    assert!(grown < 1_500_000, "{grown} bytes");

    let office = Session::office(&server);
    assert!(office.page("/office/refused").contains("60000"));
    assert_eq!(office.send("/office/refused/purge", &[]).status, 422, "not by a slip");
    assert_eq!(quarantine(&server, &[])["kept_aside"].as_array().unwrap().len(), kept.len());
    assert_eq!(office.send("/office/refused/purge", &[("sure", "yes")]).status, 303);
    assert_eq!(quarantine(&server, &[])["kept_aside"].as_array().unwrap().len(), 0);
    assert!(office.page("/office/refused").contains("Nothing was refused"));

    assert_eq!(
        send_junk(&server, &Device::enrolled(&server, &folder.path().join("b"), "op-2").key(), 1, junk),
        200
    );
    assert_eq!(
        quarantine(&server, &["--purge"])["kept_aside"].as_array().unwrap().len(),
        1,
        "told, then forgotten"
    );
    assert_eq!(quarantine(&server, &[])["kept_aside"].as_array().unwrap().len(), 0);
}

#[test]
fn a_record_no_enrolled_device_opened_can_be_kept_out_of_every_list_and_comes_back() {
    let folder = tempfile::tempdir().unwrap();
    let mut server = Server::start(&folder.path().join("office"));
    account(&server, "Clerk");
    let honest = Device::enrolled(&server, &folder.path().join("honest"), "op-1");
    let stolen = Device::enrolled(&server, &folder.path().join("stolen"), "op-2");
    let true_one = honest.open("ZZQX 4417");
    honest.yes(&["sync"]);
    stolen.yes(&["sync"]);
    assert!(server.revoke("stolen").status.success());
    let phantom = stolen.open("QXZZ 999");
    assert_eq!(stolen.run(&["sync"]).0, 5);
    let entries = entries_at(&server);

    let office = Session::office(&server);
    // A visit that a revoked phone opened is not in the lists, but its page can still be opened by its
    // address.
    office.until("/office/", |page| page.contains("ZZQX") && !page.contains("QXZZ"));
    let page = |visit: &str| format!("/office/visits/{visit}");
    assert!(!office.page(&page(&true_one)).contains("/hide"), "an honest record has no such button");
    let refused = office.send(&format!("{}/hide", page(&true_one)), &[("why", "to be rid of it")]);
    assert_eq!(refused.status, 409, "{}", text(&refused));
    assert_eq!(office.send(&format!("{}/hide", page(&phantom)), &[("why", "  ")]).status, 422);
    let done = office.send(&format!("{}/hide", page(&phantom)), &[("why", "made on a stolen phone")]);
    assert_eq!(done.status, 303, "{}", text(&done));
    let gone = |office: &Session<'_>| {
        for list in [
            "/office/",
            "/office/inquiry?q=QXZZ+999",
            "/office/inquiry?q=QXZZ",
            "/office/reconcile",
            "/office/papers",
        ] {
            let page = office.page(list).replace("value=\"QXZZ", "");
            assert!(!page.contains(&phantom), "{list}");
        }
        assert!(office.page("/office/").contains("ZZQX"));
    };
    gone(&office);
    // The entry is kept, reported and written to the audit; nothing is erased.
    assert_eq!(entries_at(&server), entries);
    let shown = office.page(&page(&phantom));
    assert!(shown.contains("made on a stolen phone") && shown.contains("Clerk"), "{shown}");
    assert!(office.page("/office/refused").contains("made on a stolen phone"));
    assert!(office.page("/office/audit").contains("hid from the lists"));
    drop(office);
    server.kill();
    server.restart();
    let office = Session::office(&server);
    gone(&office);
    assert_eq!(office.send(&format!("{}/unhide", page(&phantom)), &[]).status, 303);
    assert!(!office.page("/office/refused").contains("made on a stolen phone"));
}
