//! Stories of people who mean harm, each against a real office and real devices: what must hold whatever they send.
//!
//! Lives here: an office with a site and a car, and a forger, who signs whatever he likes with whatever key he has.
//! One file per kind of harm. Stories look at what people see (views as JSON, pages, files, answers), never inside.

mod claimed_time;
mod documents;
mod doors;
mod drawings;
mod enrolment;
mod fill;
mod folder;
mod joins;
mod late;
mod lists;
mod photographs;
mod sites;
mod texts;
mod who_may_say;
mod who_may_say_of_a_stay;

use std::sync::atomic::{AtomicI64, Ordering};

use farsiding_core::document::Document;
use farsiding_core::entry::{Body, DeviceKey, Entry};
use farsiding_core::ids::{EntryId, Subject};
use farsiding_core::sync::wire::{Change, RequestBulk, RequestHead, seal_request};
use serde_json::{Value, json};

use crate::requests::ask;
use crate::stage::{Answer, Device, Server, farsiding, now};

/// An office that described its site and its people, and an honest phone at a car with a hold and a reading.
pub struct Siding {
    pub folder: tempfile::TempDir,
    pub server: Server,
    pub office: Device,
    pub phone: Device,
    pub site: String,
    pub visit: String,
}

pub const SITE: &str = "Invented Spur";

impl Siding {
    pub fn set() -> Siding {
        let folder = tempfile::tempdir().unwrap();
        let server = Server::in_folder(folder.path());
        let office = Device::enrolled_as(&server, &folder.path().join("office-1"), "elm", "office");
        office.yes(&["site", "new", SITE, "Etc/GMT+6", "1240 ft", "40"]);
        office.yes(&["site", "set", SITE, "contact", "emergency", "Depot", "555-0100"]);
        office.yes(&["site", "set", SITE, "tank", "T-1", "30 000 gal", "no"]);
        office.yes(&["person", "ash", "Ash"]);
        office.yes(&["sync"]);
        let site = office.yes(&["site", "list"])["sites"][0]["site"].as_str().unwrap().to_owned();
        let phone = Device::enrolled(&server, &folder.path().join("phone-1"), "ash");
        phone.yes(&["sync"]);
        let said = phone.yes(&["open", "--car", "ZZQX 4417", "--site", SITE, "--spot", "2"]);
        let visit = said["visit"].as_str().unwrap().to_owned();
        phone.yes(&["add", &visit, "hold", "a smell of gas"]);
        phone.yes(&["add", &visit, "reading", "pressure", "car", "final", "38 psi"]);
        phone.yes(&["sync"]);
        Siding { folder, server, office, phone, site, visit }
    }

    pub fn path(&self, name: &str) -> std::path::PathBuf {
        self.folder.path().join(name)
    }

    pub fn data(&self) -> String {
        self.path("office").to_str().unwrap().to_owned()
    }

    pub fn about_site(&self) -> Subject {
        Subject::read(&format!("site:{}", self.site)).unwrap()
    }

    pub fn about_visit(&self) -> Subject {
        Subject::read(&format!("visit:{}", self.visit)).unwrap()
    }

    pub fn about_people(&self) -> Subject {
        let organisation = self.phone.yes(&["whoami"])["organisation"].as_str().unwrap().to_owned();
        Subject::read(&format!("roster:{organisation}")).unwrap()
    }

    /// A phone of the organisation that was lost and is revoked; its key.
    pub fn revoked(&self, name: &str) -> DeviceKey {
        let device = Device::of_operator(&self.server, &self.path(name), "birch");
        device.yes(&["sync"]);
        self.revoke(name);
        device.key()
    }

    pub fn revoke(&self, name: &str) {
        let output = farsiding(&["revoke", "--data", &self.data(), "--device", name]).output().unwrap();
        assert!(output.status.success(), "{output:?}");
    }

    /// Another honest phone, which has everything the office has now.
    pub fn bystander(&self, name: &str) -> Device {
        let device = Device::of_operator(&self.server, &self.path(name), "cedar");
        device.yes(&["sync"]);
        device
    }

    /// What the phone in the field shows of the site, once it has met the office.
    pub fn site_on(&self, device: &Device) -> Value {
        device.yes(&["sync"]);
        device.yes(&["site", "show", SITE])["site"].clone()
    }

    /// The id of the one entry of the visit whose sentence has these words.
    pub fn entry(&self, words: &str) -> EntryId {
        let view = self.phone.view(&self.visit);
        let lines = view["history"].as_array().unwrap();
        let line = lines.iter().find(|line| line["sentence"]["text"].as_str().unwrap().contains(words));
        let line = line.unwrap_or_else(|| panic!("nothing says {words:?}: {}", view["history"]));
        EntryId::read(line["said"]["entry"].as_str().unwrap()).unwrap()
    }
}

pub fn amount(value: f64, unit: &str) -> Value {
    json!({ "text": format!("{value} {unit}"), "unit": unit, "value": value })
}

pub fn reading(purpose: &str, value: f64) -> Value {
    json!({ "reading": { "measured": "pressure", "place": "car", "purpose": purpose, "amount": amount(value, "psi") } })
}

/// Somebody with a key who signs what no shell would let him type.
pub struct Forger {
    pub key: DeviceKey,
    pub by: String,
    /// What his clock says, milliseconds; the true time when he lies about nothing.
    pub at: Option<i64>,
    seq: u64,
    prev: Option<EntryId>,
}

impl Forger {
    /// A key nobody ever enrolled.
    pub fn stranger() -> Forger {
        let mut secret = [0u8; 32];
        getrandom::fill(&mut secret).unwrap();
        Forger::with(DeviceKey::from_secret(secret))
    }

    pub fn with(key: DeviceKey) -> Forger {
        Forger { key, by: "ash".to_owned(), at: None, seq: 0, prev: None }
    }

    pub fn says(&mut self, about: Subject, says: Value) -> Entry {
        self.speaks(about, says, &[], &[], "")
    }

    /// An entry as the wire has it, after and in place of others.
    pub fn speaks(
        &mut self,
        about: Subject,
        says: Value,
        follows: &[EntryId],
        replaces: &[EntryId],
        why: &str,
    ) -> Entry {
        let statement: farsiding_core::entry::Statement = serde_json::from_value(says.clone()).unwrap();
        self.in_slot(&statement.slot(), about, says, (follows, replaces), why)
    }

    pub fn in_slot(
        &mut self,
        slot: &str,
        about: Subject,
        says: Value,
        (follows, replaces): (&[EntryId], &[EntryId]),
        why: &str,
    ) -> Entry {
        self.seq += 1;
        let at = self.at.unwrap_or_else(|| now().0);
        let body: Body = serde_json::from_value(json!({
            "about": about, "slot": slot, "says": says, "follows": follows, "replaces": replaces, "why": why,
            "by": self.by, "seq": self.seq, "prev": self.prev, "when": { "at": at, "offset_minutes": -360 },
        }))
        .unwrap();
        let entry = Entry::seal(body, &self.key).unwrap();
        self.prev = Some(entry.id);
        entry
    }
}

/// A change that adds these entries to a document.
pub fn change(subject: Subject, entries: &[Entry]) -> (Subject, Vec<u8>) {
    let mut actor = [0u8; 16];
    getrandom::fill(&mut actor).unwrap();
    (subject, Document::new(actor).unwrap().add(entries).unwrap().unwrap())
}

/// The head of a round, with a number above any before.
pub fn head() -> RequestHead {
    static NUMBER: AtomicI64 = AtomicI64::new(0);
    NUMBER.fetch_max(now().0 * 1000, Ordering::SeqCst);
    let number = NUMBER.fetch_add(1, Ordering::SeqCst) + 1;
    serde_json::from_value(json!({ "n": number, "k": 0, "t": now() })).unwrap()
}

/// A round as a device with this key sends it.
pub fn round(key: &DeviceKey, changes: Vec<(Subject, Vec<u8>)>) -> Vec<u8> {
    let head = head();
    let changes = changes.into_iter().map(|(subject, bytes)| Change { subject, bytes }).collect();
    seal_request(head, &RequestBulk { changes, ..RequestBulk::default() }, key).unwrap()
}

/// Whatever becomes of it: it is taken, kept aside or turned away, and the office goes on.
pub fn relay(server: &Server, key: &DeviceKey, changes: Vec<(Subject, Vec<u8>)>) -> Answer {
    let answer = ask(server, "POST", "/v1/sync", &[], &round(key, changes));
    assert!(answer.status == 200 || (400..500).contains(&answer.status), "{answer:?}");
    answer
}

/// Registers a key by a code, as `POST /v1/enrol` takes it.
pub fn enrol(server: &Server, code: &str, device: &str, name: &str) -> Answer {
    let body = json!({ "code": code, "device": device, "name": name }).to_string();
    ask(server, "POST", "/v1/enrol", &[("content-type", "application/json")], body.as_bytes())
}

/// A one-time code and, where it is refused, why.
pub fn code(data: &str, name: &str, more: &[&str]) -> Result<String, String> {
    let output = farsiding(&["enrol", "--data", data, "--name", name, "--json"]).args(more).output().unwrap();
    let told: Value = serde_json::from_slice(&output.stdout).unwrap_or_default();
    match told["code"].as_str() {
        Some(code) if output.status.success() => Ok(code.to_owned()),
        _ => Err(String::from_utf8_lossy(&[output.stdout, output.stderr].concat()).into_owned()),
    }
}

/// The database's row of a device.
pub fn registered(data: &str, device: &str) -> Value {
    let output = farsiding(&["devices", "--data", data, "--json"]).output().unwrap();
    let told: Value = serde_json::from_slice(&output.stdout).unwrap();
    let rows = told["devices"].as_array().unwrap();
    rows.iter().find(|row| row["device"] == device).cloned().unwrap_or_default()
}

/// A change as a carry file brings it.
pub fn carried(subject: Subject, bytes: &[u8]) -> Vec<u8> {
    use farsiding_core::document::CheckedChange;
    use farsiding_core::store::{MemoryStore, Store as _, Write};
    let mut store = MemoryStore::new();
    let hash = CheckedChange::hash_of(bytes).unwrap();
    store.commit(&[Write::Change { subject, hash, bytes, held: false }]).unwrap();
    farsiding_core::sync::carry_out(&store, &[subject], Vec::new()).unwrap()
}

/// A page as somebody signed in sees it.
pub fn page(server: &Server, cookie: &str, path: &str) -> String {
    let answer = ask(server, "GET", path, &[("cookie", cookie)], b"");
    assert_eq!(answer.status, 200, "{path}: {}", String::from_utf8_lossy(&answer.body));
    String::from_utf8_lossy(&answer.body).into_owned()
}

/// Asks until the page says something: the index follows a moment after a sync.
pub fn page_until(server: &Server, cookie: &str, path: &str, says: impl Fn(&str) -> bool) -> String {
    let began = std::time::Instant::now();
    loop {
        let shown = page(server, cookie, path);
        if says(&shown) {
            return shown;
        }
        assert!(began.elapsed().as_secs() < 20, "{path} never said it: {shown}");
        std::thread::sleep(std::time::Duration::from_millis(100));
    }
}
