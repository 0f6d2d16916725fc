//! An office and devices in memory, and the sound messages that pass between them: what is altered.

use farsiding_core::book::{Book, BookParts, Draft};
use farsiding_core::clock::{HandSetClock, UtcMillis};
use farsiding_core::entry::{Certificate, DeviceKey, Entry, OrganisationKey, Role, Statement};
use farsiding_core::ids::{DeviceId, Digest, EntryId, OperatorId, OrganisationId, Subject, VisitId};
use farsiding_core::store::{MemoryStore, Store, Write};
use farsiding_core::sync::{AnswerError, Answerer, CERTIFICATES_VERSION, CarriedPhoto, Step, answer_log};

use farsiding_testkit::Dice;

pub const VISIT: Subject = Subject::Visit(VisitId([7; 16]));
pub const OTHER: Subject = Subject::Visit(VisitId([8; 16]));
pub const NOW: UtcMillis = UtcMillis(1_795_528_800_000);
const SECRETS: [[u8; 32]; 2] = [[11; 32], [12; 32]];

pub fn office_key() -> OrganisationKey {
    OrganisationKey::from_secret([42; 32])
}

pub fn device_key(number: usize) -> DeviceKey {
    DeviceKey::from_secret(SECRETS[number])
}

/// An office that knows two devices.
pub struct Office {
    pub store: MemoryStore,
    pub key: OrganisationKey,
}

fn certificate(device: DeviceId) -> Vec<u8> {
    let certificate =
        Certificate::by_role(OrganisationId([1; 16]), device, "phone", Role::Operator, UtcMillis(0));
    certificate.seal(&office_key()).unwrap()
}

impl Office {
    pub fn new() -> Office {
        let mut store = MemoryStore::new();
        for number in 0..SECRETS.len() {
            let device = device_key(number).public();
            store.commit(&[Write::Certificate { device, bytes: &certificate(device) }]).unwrap();
        }
        store.commit(&[Write::Value { key: CERTIFICATES_VERSION, value: &1u64.to_be_bytes() }]).unwrap();
        Office { store, key: office_key() }
    }

    /// Takes every device's next request for a new one, whatever its number.
    pub fn forget_numbers(&mut self) {
        for number in 0..SECRETS.len() {
            let key = format!("round/{}", device_key(number).public());
            self.store.commit(&[Write::Value { key: &key, value: &[0; 8] }]).unwrap();
        }
    }

    pub fn answer(&mut self, request: &[u8]) -> Result<Vec<u8>, AnswerError> {
        Answerer::new(&mut self.store, &self.key, 1).answer(request, NOW).map(|answer| answer.reply)
    }

    pub fn answer_log(&mut self, request: &[u8]) -> Result<Vec<u8>, AnswerError> {
        answer_log(&mut self.store, &self.key, request, NOW).map(|answer| answer.reply)
    }
}

/// A device that is enrolled.
pub fn phone(number: usize, seed: u64) -> Book {
    let mut book = Book::open(BookParts {
        store: Box::new(MemoryStore::new()),
        key: device_key(number),
        clock: Box::new(HandSetClock::at(NOW, -360)),
        randomness: Box::new(Dice::of(seed)),
    });
    let certificate = certificate(book.device());
    book.enrolled(office_key().public(), &certificate).unwrap();
    book
}

pub fn remark(book: &mut Book, about: Subject, text: &str) {
    let says = Statement::Remark { text: text.to_owned() };
    book.append(about, vec![Draft::of(says)], &OperatorId("ash".into())).unwrap();
}

/// Rounds until both have the same; the messages that passed.
pub fn sync(book: &mut Book, office: &mut Office) -> Vec<(Vec<u8>, Vec<u8>)> {
    let mut session = book.sync_session().unwrap();
    let mut passed = Vec::new();
    for _ in 0..100 {
        let request = book.sync_request(&mut session).unwrap();
        let reply = office.answer(&request).unwrap();
        let step = book.sync_receive(&mut session, &reply).unwrap();
        passed.push((request, reply));
        if step == Step::Done {
            return passed;
        }
    }
    panic!("no end of rounds");
}

/// A device with something to say about two visits.
pub fn busy_phone(number: usize, seed: u64) -> Book {
    let mut book = phone(number, seed);
    for about in [VISIT, OTHER] {
        for text in ["92 psi", "valve shut", "sign seen"] {
            remark(&mut book, about, text);
        }
    }
    book
}

/// The changes of a visit as they travel.
pub fn changes(book: &Book, about: Subject) -> Vec<Vec<u8>> {
    book.store().changes_of(about).unwrap().rows.into_iter().map(|row| row.bytes).collect()
}

pub fn carry_file(book: &Book) -> Vec<u8> {
    let photo = CarriedPhoto { media: "image/jpeg".into(), bytes: vec![0xff, 0xd8, 0xff, 1, 2, 3] };
    book.carry_out(&[VISIT, OTHER], vec![photo]).unwrap()
}

/// Every entry in the store was signed by one of the devices, as it stands, and is about what it stands under.
pub fn all_signed(store: &dyn Store) {
    let devices: Vec<DeviceId> = (0..SECRETS.len()).map(|number| device_key(number).public()).collect();
    for subject in store.subjects().unwrap() {
        let rows = store.entries_of(subject).unwrap().rows;
        for row in rows {
            let entry = Entry::open(&row.bytes).expect("an entry nobody signed came in");
            assert_eq!((entry.id, entry.body.about), (EntryId(Digest::of(&row.bytes).0), subject));
            assert!(devices.contains(&entry.device), "an entry of a stranger came in");
        }
    }
}
