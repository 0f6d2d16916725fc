//! People's keys at the office: made on a phone, confirmed by telephone and ended; and the organisation's
//! rules.

use farsiding_core::book::{Book, BookError, BookParts, PinCost, PinError};
use farsiding_core::clock::{HandSetClock, UtcMillis};
use farsiding_core::entry::site_facts::Unlocking;
use farsiding_core::entry::{Certificate, DeviceKey, Right};
use farsiding_core::ids::{Digest, OperatorId};
use farsiding_core::store::{Durability, SqliteStore, Store as _};
use farsiding_testkit::Dice;

use super::pages_stage::{Scene, Session, text};
use super::stage::{Device, farsiding};

const CHEAP: PinCost = PinCost { memory_kib: 8, passes: 1 };

/// Returns the rights in the phone's own certificate, as stored on the phone.
fn rights_of(phone: &Device) -> Option<Vec<Right>> {
    let file = phone.dir.join("record.db");
    let store = SqliteStore::open(file.to_str().unwrap(), Durability::WriteAheadLog).unwrap();
    let book = book_of(phone, 4);
    let bytes = store.certificate(book.device()).unwrap().unwrap();
    Certificate::open(&bytes, &book.organisation_key().unwrap().unwrap()).unwrap().rights
}

/// Returns the device's book, opened as by a phone.
fn book_of(device: &Device, seed: u64) -> Book {
    let secret = std::fs::read_to_string(device.dir.join("device.key")).unwrap();
    let file = device.dir.join("record.db");
    let mut book = Book::open(BookParts {
        store: Box::new(SqliteStore::open(file.to_str().unwrap(), Durability::WriteAheadLog).unwrap()),
        key: DeviceKey::from_secret(Digest::read(&secret).unwrap().0),
        clock: Box::new(HandSetClock::at(UtcMillis(1_795_528_800_000), -360)),
        randomness: Box::new(Dice::of(seed)),
    });
    book.keep_beside([9; 32]);
    book
}

fn unlock(phone: &Device, pin: &str) -> Result<(), BookError> {
    book_of(phone, 99).unlock_person(&OperatorId("ada".into()), pin)
}

#[test]
fn a_key_is_confirmed_by_its_digits_and_ended_with_the_last_entry_that_is_here() {
    let scene = Scene::set();
    let (phone, ada) = (&scene.phone, OperatorId("ada".into()));
    let office = Session::office(&scene.server);
    let mut book = book_of(phone, 1);
    let key = book.make_person_key(&ada, "294611", CHEAP).unwrap();
    let digits = book.people_here().unwrap().keys[0].fingerprint.clone();
    drop(book);
    phone.yes(&["sync"]);
    // A person who is not on the roster has a key all the same, but it cannot be confirmed.
    let key = key.to_string();
    let page = office.page("/office/people");
    assert!(page.contains(&digits) && page.contains("not on the roster"), "{page}");
    let early = office.send("/office/people/confirm", &[("key", &key)]);
    assert_eq!(early.status, 409, "{}", text(&early));
    let clerk = Device::new(&scene.folder.path().join("clerk"), "clerk");
    clerk.yes(&["enrol", &scene.server.code("clerk", &["--role", "office"]).1]);
    clerk.yes(&["person", "ada", "Ada <b>"]);
    clerk.yes(&["sync"]);
    let page = office.page("/office/people");
    assert!(page.contains("Ada &lt;b&gt;") && !page.contains("<b>)"), "{page}");
    assert!(page.contains("not confirmed"));
    assert_eq!(office.send("/office/people/confirm", &[("key", &key)]).status, 303);
    assert!(office.page("/office/people").contains("by Clerk"));
    // The phone learns of the confirmation. Then the PIN is forgotten, and a new key is made on the same
    // phone.
    phone.yes(&["sync"]);
    let mut book = book_of(phone, 2);
    assert!(book.people_here().unwrap().keys[0].confirmed);
    book.forget_person_key(&ada).unwrap();
    book.make_person_key(&ada, "830274", CHEAP).unwrap();
    drop(book);
    phone.yes(&["sync"]);
    assert!(office.page("/office/people").contains("A newer key exists on the same phone"));
    assert_eq!(office.send("/office/people/end", &[("key", &key), ("why", " ")]).status, 422);
    assert_eq!(office.send("/office/people/end", &[("key", &key), ("why", "forgotten")]).status, 303);
    assert_eq!(office.send("/office/people/end", &[("key", &key), ("why", "again")]).status, 409);
    clerk.yes(&["sync"]);
    let keys = clerk.yes(&["keys"])["keys"].clone();
    let old = keys.as_array().unwrap().iter().find(|k| k["key"] == key.as_str()).unwrap().clone();
    assert_eq!((&old["ended"]["why"], old["last"]["seq"].is_u64()), (&"forgotten".into(), true), "{old}");
    // One action marks a person as having left, and ends all the person's keys.
    assert!(unlock(phone, "830274").is_ok());
    assert_eq!(office.send("/office/people/left", &[("person", "ada")]).status, 422);
    assert_eq!(office.send("/office/people/left", &[("person", "ada"), ("sure", "yes")]).status, 303);
    let page = office.page("/office/people");
    assert!(page.contains("has left") && !page.contains("/office/people/end"), "{page}");
    phone.yes(&["sync"]);
    assert!(matches!(unlock(phone, "830274"), Err(BookError::Pin(PinError::Ended))));
}

#[test]
fn the_rules_are_decided_on_the_page_or_by_command_and_reach_the_phone() {
    let scene = Scene::set();
    let office = Session::office(&scene.server);
    let rules = |phone: &Device| {
        phone.yes(&["sync"]);
        book_of(phone, 3).people_here().unwrap().rules
    };
    assert_eq!(rules(&scene.phone).unlocking, Unlocking::Act);
    let all =
        [("record", "yes"), ("settle", "yes"), ("lift_hold", "yes"), ("override", "yes"), ("read", "yes")];
    let mut sent = vec![("unlocking", "shift"), ("signature_required", "yes"), ("release", "yes")];
    sent.extend(all);
    assert_eq!(office.send("/office/people/rules", &sent).status, 303);
    let decided = rules(&scene.phone);
    assert_eq!((decided.unlocking, decided.signature_required), (Unlocking::Shift, true));
    assert_eq!(decided.operator_rights, None, "all of them is what the built-in rules give");
    let mut sent = vec![("unlocking", "shift")];
    sent.extend(all);
    assert_eq!(office.send("/office/people/rules", &sent).status, 303);
    let narrowed = rules(&scene.phone).operator_rights.unwrap();
    assert_eq!(narrowed.len(), 5);
    assert_eq!(office.send("/office/people/rules", &[("unlocking", "for ever")]).status, 422);
    // On the command line a setting that is left out does not change, and an operator's device cannot set
    // rules.
    let clerk = Device::new(&scene.folder.path().join("clerk"), "clerk");
    clerk.yes(&["enrol", &scene.server.code("clerk", &["--role", "office"]).1]);
    clerk.yes(&["sync"]);
    clerk.yes(&["rules", "signature_required=yes"]);
    clerk.yes(&["sync"]);
    let decided = rules(&scene.phone);
    assert_eq!((decided.unlocking, decided.signature_required), (Unlocking::Shift, true));
    assert_eq!(decided.operator_rights.unwrap().len(), 5);
    let operator = Device::new(&scene.folder.path().join("operator"), "ash");
    operator.yes(&["enrol", &scene.server.code("operator", &["--role", "operator"]).1]);
    operator.yes(&["sync"]);
    assert_eq!(rights_of(&operator).map(|rights| rights.len()), Some(5));
    // The rules that a device brought are in the operators' certificates at once, without a page or a
    // restart.
    clerk.yes(&["rules", "operator_rights=record,read"]);
    clerk.yes(&["sync"]);
    operator.yes(&["sync"]);
    assert_eq!(rights_of(&operator), Some(vec![Right::Record, Right::Read]));
    assert_ne!(operator.run(&["rules", "act", "no"]).0, 0, "only the office decides");
    assert!(rules(&scene.phone).signature_required);
}

/// The name is deleted at the office and on the phone, the page and the command say so, the audit has the reason, and
/// the name stands nowhere in the office's ledger file.
#[test]
fn a_name_is_removed_with_a_reason_and_goes_from_office_and_phone() {
    let scene = Scene::set();
    let office = Session::office(&scene.server);
    let clerk = Device::new(&scene.folder.path().join("clerk"), "clerk");
    clerk.yes(&["enrol", &scene.server.code("clerk", &["--role", "office"]).1]);
    let name = "Quillon Example (invented)";
    clerk.yes(&["person", "quill", name]);
    clerk.yes(&["person", "wren", "Wren Example (invented)"]);
    clerk.yes(&["sync"]);
    scene.phone.yes(&["sync"]);
    assert!(office.page("/office/people").contains(name));
    let people = |device: &Device| device.yes(&["people"])["people"].to_string();
    assert!(people(&scene.phone).contains(name));
    let forget =
        |person: &str, why: &str| office.send("/office/people/forget", &[("person", person), ("why", why)]);
    assert_eq!(forget("quill", " ").status, 422);
    assert_eq!(forget("nobody", "asked for it").status, 404);
    assert_eq!(forget("quill", "asked for it").status, 303);
    assert_eq!(forget("quill", "again").status, 409);
    let page = office.page("/office/people");
    assert!(!page.contains(name) && page.contains("name removed"), "{page}");
    assert!(page.contains("Wren Example (invented)"), "only that name went");
    assert!(people(&scene.phone).contains(name), "the phone was not told yet");
    for device in [&scene.phone, &clerk] {
        device.yes(&["sync"]);
        let told = people(device);
        assert!(!told.contains(name) && told.contains("removed"), "{told}");
    }
    let audit = office.page("/office/audit");
    assert!(audit.contains("removed a name") && audit.contains("asked for it"), "{audit}");
    // The command does the same, while the server runs.
    let data = scene.server.data.to_str().unwrap();
    let command = |why: &str| {
        farsiding(&["people", "forget", "--data", data, "wren", "--why", why]).output().unwrap().status.code()
    };
    assert_eq!((command(" "), command("asked for it"), command("again")), (Some(3), Some(0), Some(3)));
    let listed = farsiding(&["people", "list", "--data", data]).output().unwrap();
    let listed = String::from_utf8_lossy(&listed.stdout).into_owned();
    assert_eq!(listed.matches("name removed at the office").count(), 2, "{listed}");
    scene.phone.yes(&["sync"]);
    assert!(!people(&scene.phone).contains("Wren Example"));
}
