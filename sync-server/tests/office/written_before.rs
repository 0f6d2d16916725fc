//! The data of every earlier version can be opened, continued and verified: an office's data folder, a
//! device's folder, a phone's book, packets and a carry file, as stored in `tests/golden/v1` and `v2`.
//!
//! The interpretation of a record may change with the rules. But every entry must be there, and nothing may
//! need manual work.

use std::collections::BTreeSet;
use std::io::Read as _;
use std::path::{Path, PathBuf};

use farsiding_core::book::{Book, BookParts, Draft};
use farsiding_core::clock::{HandSetClock, UtcMillis};
use farsiding_core::entry::{DeviceKey, Statement};
use farsiding_core::ids::{Digest, OperatorId, Subject, VisitId};
use farsiding_core::procedure::Procedures;
use farsiding_core::store::{Durability, SqliteStore};
use farsiding_core::sync::Step;
use farsiding_testkit::Dice;
use serde_json::Value;

use super::pages_stage::{Session, cookie_of, form, post, text};
use super::stage::{Device, Server, farsiding};

/// A time later than everything in the data.
pub(super) const NOW: &str = "2026-12-05T12:00:00Z";

/// The data of a version, and the expected content.
#[derive(Clone, Copy)]
pub(super) struct Then {
    version: &'static str,
}

pub(super) const V1: Then = Then { version: "v1" };
pub(super) const V2: Then = Then { version: "v2" };

impl Then {
    fn golden(self) -> PathBuf {
        Path::new(env!("CARGO_MANIFEST_DIR")).join("../tests/golden").join(self.version)
    }

    fn expected(self) -> Value {
        serde_json::from_slice(&std::fs::read(self.golden().join("expected.json")).unwrap()).unwrap()
    }
}

/// Defines the same test for every version.
macro_rules! of_every_version {
    ($($story:ident),+ $(,)?) => {
        mod v1 { $(#[test] fn $story() { super::$story(super::V1); })+ }
        mod v2 { $(#[test] fn $story() { super::$story(super::V2); })+ }
    };
}

/// Unpacks stored data into a folder with the permissions that a program would set.
fn thaw(from: &Path, to: &Path) {
    std::fs::create_dir_all(to).unwrap();
    for item in std::fs::read_dir(from).unwrap() {
        let path = item.unwrap().path();
        let target = to.join(path.file_stem().unwrap());
        if path.is_dir() {
            thaw(&path, &target);
            continue;
        }
        let mut bytes = Vec::new();
        let packed = std::fs::File::open(&path).unwrap();
        if path.extension().is_some_and(|end| end == "gz") {
            flate2::read::GzDecoder::new(packed).read_to_end(&mut bytes).unwrap();
            std::fs::write(&target, bytes).unwrap();
            #[cfg(unix)]
            {
                use std::os::unix::fs::PermissionsExt as _;
                std::fs::set_permissions(&target, std::fs::Permissions::from_mode(0o600)).unwrap();
            }
        }
    }
}

pub(super) fn office(then: Then, folder: &Path) -> Server {
    thaw(&then.golden().join("office"), &folder.join("office"));
    Server::start_at(&folder.join("office"), NOW)
}

/// Enrols a new device at the office, which then receives everything.
pub(super) fn newcomer(server: &Server, folder: &Path) -> Device {
    let mut device = Device::new(&folder.join("newcomer"), "ash");
    device.clock = Some(NOW.to_owned());
    let (code, _) = server.code("newcomer", &["--role", "office"]);
    device.yes(&["enrol", "--server", &server.url, "--code", &code]);
    device.yes(&["sync", "--fetch-photos"]);
    device
}

fn entries_of(view: &Value) -> BTreeSet<String> {
    let lines = view["history"].as_array().unwrap().iter();
    lines.map(|line| line["said"]["entry"].as_str().unwrap().to_owned()).collect()
}

/// Checks that no entry of the record is missing.
fn has_every_entry(device: &Device, expected: &Value) {
    for (car, ids) in expected["history"].as_object().unwrap() {
        let found = entries_of(&device.view(car));
        let lacking: Vec<&Value> =
            ids.as_array().unwrap().iter().filter(|id| !found.contains(id.as_str().unwrap())).collect();
        assert!(lacking.is_empty(), "{car} lacks {lacking:?}");
    }
}

fn an_offices_folder_is_served_whole_and_goes_on(then: Then) {
    let (folder, expected) = (tempfile::tempdir().unwrap(), then.expected());
    let server = office(then, folder.path());
    let device = newcomer(&server, folder.path());
    has_every_entry(&device, &expected);

    let released = |car: &str| device.view(car)["release"]["released"].clone();
    for car in ["ZZQX 48213", "ZZQX 30551", "ZZQX 9942"] {
        assert!(!released(car).is_null(), "{car} went, and is not shown as released");
    }
    assert_eq!(device.view("ZZQX 30551")["header"]["visits"].as_array().unwrap().len(), 2, "one stay of two");
    let differs = device.view("ZZQX 7718")["disagreements"].to_string();
    assert!(differs.contains("reading/final/temperature/car"), "nobody settled it: {differs}");
    let sites = device.yes(&["site", "list"])["sites"].as_array().unwrap().len();
    let people = device.yes(&["people"]).to_string();
    assert!(sites == 2 && people.contains("birch"), "{sites} sites, {people}");
    assert!(std::fs::read_dir(device.dir.join("photos")).unwrap().count() > 10, "its photographs come along");

    // The devices are unchanged in the database, including the revoked one.
    let known = expected["office"]["devices"].as_array().unwrap();
    let now = server.devices();
    for one in known {
        let same = now["devices"].as_array().unwrap().iter().find(|d| d["device"] == one["device"]).unwrap();
        for field in ["name", "role", "revoked_at", "issued_at"] {
            assert_eq!(same[field], one[field], "{field} of {one}");
        }
    }
    // The log continues where it was, as a device with a newer entry proves.
    let visit = device.view("ZZQX 7718")["header"]["visits"][0].as_str().unwrap().to_owned();
    let added = device.yes(&["add", &visit, "remark", "after the change of program"]);
    let synced = device.yes(&["sync"]);
    assert_eq!(synced["unreceipted_entries"], 0, "{synced}");
    let proof = device.yes(&["proof", "--entry", added["entries"][0].as_str().unwrap()]);
    assert_eq!(proof["proof"]["number"], expected["phone"]["log"]["size"], "the next leaf of the same log");
    assert_eq!(device.yes(&["whoami"])["log"]["alarms"].as_array().map(Vec::len), Some(0));
}

fn accounts_links_and_pages_of_then_work(then: Then) {
    let (folder, expected) = (tempfile::tempdir().unwrap(), then.expected());
    let server = office(then, folder.path());
    let account = &expected["account"];
    let words =
        [("name", account["name"].as_str().unwrap()), ("password", account["password"].as_str().unwrap())];
    let answer = post(&server, "/office/sign-in", &[], &form(&words));
    assert_eq!(answer.status, 303, "{}", text(&answer));
    let session = Session { server: &server, cookie: cookie_of(&answer).unwrap() };
    let visit = expected["visits"]["revoked"].as_str().unwrap();
    let page = session.until(&format!("/office/visits/{visit}"), |page| page.contains("7718"));
    assert!(page.contains("phone-4"), "the record names the phone that was revoked later");

    let inspector = Session::inspector(&server, expected["link"].as_str().unwrap());
    assert!(inspector.page(&format!("/office/visits/{visit}")).contains("7718"));
    let packet = inspector.get(&format!("/office/visits/{visit}/packet"));
    assert!(packet.body.starts_with(b"%PDF"), "{}", text(&packet));
    let file = folder.path().join("again.pdf");
    std::fs::write(&file, &packet.body).unwrap();
    holds(then, &file);
}

fn a_devices_folder_goes_on_and_brings_what_only_it_had(then: Then) {
    let (folder, expected) = (tempfile::tempdir().unwrap(), then.expected());
    let server = office(then, folder.path());
    let dir = folder.path().join("phone-1");
    thaw(&then.golden().join("device"), &dir);
    let device = Device { dir, clock: Some(NOW.to_owned()) };
    let me = device.yes(&["whoami"]);
    for field in
        ["device", "operator", "organisation", "role", "unreceipted_entries", "unsent_photos", "name"]
    {
        assert_eq!(me[field], expected["device"][field], "{field}");
    }
    has_every_entry(&device, &expected);
    assert!(
        device.yes(&["drafts"])["drafts"].to_string().contains("reading"),
        "what was half typed is there"
    );

    let said = device.yes(&["sync", "--server", &server.url]);
    assert_eq!((&said["unreceipted_entries"], &said["unsent_photos"]), (&0.into(), &0.into()), "{said}");
    assert_eq!(device.yes(&["quarantine"])["kept_aside"].as_array().map(Vec::len), Some(0));
    let other = newcomer(&server, folder.path());
    let unsent = expected["visits"]["device_unsent"].as_str().unwrap();
    assert_eq!(entries_of(&other.view(unsent)), entries_of(&device.view(unsent)));
}

/// Returns a phone's book, opened on a copy of the browser's storage.
fn phone(then: Then, folder: &Path) -> Book {
    thaw(&then.golden().join("phone"), folder);
    let file = folder.join("field");
    let store = SqliteStore::open(file.to_str().unwrap(), Durability::RollbackJournal).unwrap();
    let key = std::fs::read_to_string(then.golden().join("phone/key.hex")).unwrap();
    Book::open(BookParts {
        store: Box::new(store),
        key: DeviceKey::from_secret(Digest::read(key.trim()).unwrap().0),
        clock: Box::new(HandSetClock::at(UtcMillis::read(NOW).unwrap(), -360)),
        randomness: Box::new(Dice::of(1)),
    })
}

fn meet(book: &mut Book, server: &Server) {
    let octets = [("content-type", "application/octet-stream")];
    let mut session = book.sync_session().unwrap();
    loop {
        let request = book.sync_request(&mut session).unwrap();
        let answer = server.ask("POST", "/v1/sync", &octets, &request);
        assert_eq!(answer.status, 200, "{}", text(&answer));
        if book.sync_receive(&mut session, &answer.body).unwrap() == Step::Done {
            break;
        }
    }
    let mut watch = book.log_watch().unwrap();
    while let Some(request) = book.log_request(&mut watch).unwrap() {
        let answer = server.ask("POST", "/v1/log", &octets, &request);
        assert_eq!(answer.status, 200, "{}", text(&answer));
        if book.log_receive(&mut watch, &answer.body).unwrap() == Step::Done {
            break;
        }
    }
}

fn a_phones_book_opens_records_and_syncs(then: Then) {
    let (folder, expected) = (tempfile::tempdir().unwrap(), then.expected());
    let server = office(then, folder.path());
    let mut book = phone(then, &folder.path().join("phone"));
    let said = &expected["phone"];
    assert_eq!(book.device().to_string(), said["device"].as_str().unwrap());
    assert_eq!(book.store().tally().unwrap().count, said["entries"].as_u64().unwrap());
    assert_eq!(book.store().count_without_receipt().unwrap(), said["without_receipt"].as_u64().unwrap());
    let drafts = book.store().drafts().unwrap();
    assert_eq!(drafts, [("reading/arrival/temperature/car".to_owned(), "5".to_owned())]);
    let waiting: Vec<_> = book.store().photos().unwrap().into_iter().filter(|p| p.here && !p.held).collect();
    let picture = std::fs::read(then.golden().join("phone/picture.png")).unwrap();
    assert_eq!(waiting.iter().map(|photo| photo.sha256).collect::<Vec<_>>(), [Digest::of(&picture)]);

    let unsent = VisitId::read(expected["visits"]["phone_unsent"].as_str().unwrap()).unwrap();
    let says = Statement::Remark { text: "after the change of program".to_owned() };
    book.append(Subject::Visit(unsent), vec![Draft::of(says)], &OperatorId("birch".to_owned())).unwrap();
    meet(&mut book, &server);
    assert_eq!(book.store().count_without_receipt().unwrap(), 0, "all of it is at the office");
    assert!(book.store().quarantined().unwrap().is_empty());
    assert!(book.log_standing().unwrap().unwrap().alarms.is_empty());
    let (gathered, procedures) = (book.gather().unwrap(), Procedures::built_in().unwrap());
    assert!(gathered.damaged.is_empty());
    let view = gathered.view(unsent, &procedures).unwrap();
    let said: Vec<String> =
        view.history.iter().map(|line| farsiding_words::english(&line.sentence)).collect();
    assert!(said.iter().any(|words| words.contains("No signal since the bridge")), "{said:?}");

    let other = newcomer(&server, folder.path());
    assert_eq!(entries_of(&other.view(&unsent.to_string())).len(), 5);
}

fn verify(then: Then, packet: &Path) -> (bool, Value) {
    let key = then.golden().join("packets/organisation.pub");
    let output = farsiding(&["verify", "--json", "--key", key.to_str().unwrap(), packet.to_str().unwrap()])
        .output()
        .unwrap();
    (output.status.success(), serde_json::from_slice(&output.stdout).unwrap())
}

fn holds(then: Then, packet: &Path) {
    let (good, said) = verify(then, packet);
    assert!(good, "{}: {said}", packet.display());
}

fn packets_made_then_hold_and_a_changed_one_does_not(then: Then) {
    let folder = tempfile::tempdir().unwrap();
    for name in ["ordinary", "photographs", "joined_and_passed_over", "revoked_device"] {
        let file = then.golden().join(format!("packets/{name}.pdf"));
        holds(then, &file);
        let mut bytes = std::fs::read(&file).unwrap();
        let middle = bytes.len() / 2;
        bytes[middle] ^= 1;
        let changed = folder.path().join("changed.pdf");
        std::fs::write(&changed, bytes).unwrap();
        assert!(!verify(then, &changed).0, "{name}: a changed byte went unnoticed");
    }
}

fn a_carry_file_made_then_is_taken_in(then: Then) {
    let (folder, expected) = (tempfile::tempdir().unwrap(), then.expected());
    let taker = Device::new(&folder.path().join("taker"), "birch");
    let file = then.golden().join("out.carry");
    let said = taker.yes(&["carry-in", file.to_str().unwrap()]);
    assert_eq!(said["refused"].as_array().map(Vec::len), Some(0), "{said}");
    assert_eq!((&said["received"], &said["contained"]), (&197.into(), &209.into()), "{said}");
    assert!(said["photos"].as_u64().unwrap() >= 1, "{said}");
    let unsent = expected["visits"]["device_unsent"].as_str().unwrap();
    assert_eq!(taker.view(unsent)["entries"], 6);
    let ids = expected["history"]["ZZQX 48213"].as_array().unwrap();
    let found = entries_of(&taker.view("ZZQX 48213"));
    assert!(ids.iter().all(|id| found.contains(id.as_str().unwrap())));
}

of_every_version!(
    an_offices_folder_is_served_whole_and_goes_on,
    accounts_links_and_pages_of_then_work,
    a_devices_folder_goes_on_and_brings_what_only_it_had,
    a_phones_book_opens_records_and_syncs,
    packets_made_then_hold_and_a_changed_one_does_not,
    a_carry_file_made_then_is_taken_in,
);
