//! Tests of requests that are refused before the ledger is locked, and of changes that are put off.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a failed unwrap is a failed test")]

use super::tests::{Server, VISIT, phone, sync, texts, write};
use super::wire::{Change, RequestBulk, RequestHead, parts, seal_request};
use super::*;
use crate::clock::UtcMillis;
use crate::document::CheckedChange;
use crate::entry::{Certificate, DeviceKey, Role, cbor};
use crate::ids::{Digest, EntryId, OrganisationId, Subject};
use crate::store::{Store, StoreError};
use farsiding_testkit::Dice;

const MOST: usize = super::wire::LARGEST_BULK;

fn head() -> RequestHead {
    RequestHead { number: 1, cursor: None, certificates: 0, at: UtcMillis(0), bulk: None, statement: None }
}

fn key(seed: u64) -> DeviceKey {
    let mut secret = [0u8; 32];
    Dice::of(seed).fill(&mut secret);
    DeviceKey::from_secret(secret)
}

#[test]
fn the_first_bytes_of_a_message_say_where_its_parts_lie() {
    for length in [0usize, 1, 23, 24, 200, 255, 256, 5_000, 65_535, 65_536, 300_000] {
        let mut noise = vec![0u8; length];
        Dice::of(3).fill(&mut noise);
        let change = Change { subject: VISIT, bytes: noise };
        let bulk =
            RequestBulk { changes: Vec::from_iter((length > 0).then_some(change)), ..RequestBulk::default() };
        let request = seal_request(head(), &bulk, &key(1)).unwrap();
        let whole = parts(&request).unwrap();
        let outline = Outline::of(&request[..Outline::NEEDED]).unwrap();
        assert_eq!(&request[outline.bulk.clone()].len(), &whole.bulk.len());
        assert!(whole.bulk.is_empty() || request[outline.bulk.clone()] == whole.bulk);
        assert_eq!(outline.head(&request[outline.bulk.end..]).unwrap(), whole.head);
        assert!(request.len() <= outline.longest(), "{} of {}", request.len(), outline.longest());
    }
}

#[test]
fn what_is_no_message_is_refused_by_its_first_bytes() {
    let array_of_a_million = [0x9a, 0, 0x10, 0, 0, 0x80, 0x80, 0x80];
    let map_with_another_key = [0xa2, 0x61, b'a', 0x40, 0x61, b'h', 0x40, 0];
    let longer_than_needed = [0xa2, 0x61, b'b', 0x58, 5, 0, 0, 0];
    let beyond_memory = [0xa2, 0x61, b'b', 0x5b, 0xff, 0xff, 0xff, 0xff];
    for bytes in [[0; 8], array_of_a_million, map_with_another_key, longer_than_needed, beyond_memory] {
        assert!(matches!(Outline::of(&bytes), Err(AnswerError::Unreadable(_))), "{bytes:02x?}");
    }
    let outline = Outline::of(&[0xa1, 0x61, b'h', 0x59, 0xff, 0xff, 0, 0]).unwrap();
    let too_long = [b"\x61h\x59\xff\xff".as_slice(), &[0; 0xffff]].concat();
    assert!(outline.head(&too_long).is_err(), "no head is that long");
    for end in 0..8 {
        let _ = Outline::of(&[0xa2, 0x61, b'b', 0x5a, 0, 1, 0, 0][..end]); // cut short: no panic
    }
}

#[test]
fn two_devices_with_one_hint_are_told_apart_by_their_signatures() {
    let server = Server::new();
    let organisation = server.key.public();
    let (a, b, stranger) = (key(1), key(2), key(3));
    let certificate = |device: &DeviceKey| {
        let certificate = Certificate::by_role(
            OrganisationId([1; 16]),
            device.public(),
            "phone",
            Role::Operator,
            UtcMillis(0),
        );
        certificate.seal(&server.key).unwrap()
    };
    // No two real keys with one hint are at hand, so a second device is entered under the same hint.
    let mut devices = Devices::new(7, [(a.public(), certificate(&a))]);
    devices.same_hint_for_tests(a.public(), b.public(), certificate(&b));
    let hint = &a.public().0[..8];
    let signed =
        |key: &DeviceKey| key.seal_addressed(cbor::encode(&head()).unwrap(), "farsiding request 1", hint);
    assert_eq!(devices.vouch(&signed(&a), &organisation).unwrap().certificate.device, a.public());
    assert_eq!(devices.vouch(&signed(&b), &organisation).unwrap().certificate.device, b.public());
    assert!(matches!(devices.vouch(&signed(&stranger), &organisation), Err(AnswerError::Unreadable(_))));
    let other_hint = stranger.seal_addressed(Vec::new(), "farsiding request 1", &stranger.public().0[..8]);
    assert!(matches!(devices.vouch(&other_hint, &organisation), Err(AnswerError::UnknownDevice)));
}

#[test]
fn nobody_asks_for_more_than_a_device_does_or_for_anything_twice() {
    let mut server = Server::new();
    let device = key(1);
    server.certify(device.public(), false);
    let ids = |many: u32| {
        let id = |n: u32| EntryId(Digest::of(&n.to_be_bytes()).0);
        (0..many).map(id).collect::<Vec<_>>()
    };
    let mut ask = |bulk: RequestBulk| {
        let request = seal_request(head(), &bulk, &device).unwrap();
        server.answer(&request).map(|_| ())
    };
    let same = vec![EntryId([7; 32]); 200_000];
    assert!(matches!(
        ask(RequestBulk { asks: same, ..RequestBulk::default() }),
        Err(AnswerError::TooMuch(_))
    ));
    let asks = ids(u32::try_from(MOST_ASKS).unwrap() + 1);
    assert!(matches!(ask(RequestBulk { asks, ..RequestBulk::default() }), Err(AnswerError::TooMuch(_))));
    let photos = vec![Digest([7; 32]); 2];
    assert!(matches!(ask(RequestBulk { photos, ..RequestBulk::default() }), Err(AnswerError::TooMuch(_))));
    let whole = vec![VISIT; 2];
    assert!(matches!(ask(RequestBulk { whole, ..RequestBulk::default() }), Err(AnswerError::TooMuch(_))));
    let messages = vec![Change { subject: VISIT, bytes: vec![1] }; 2];
    assert!(matches!(ask(RequestBulk { messages, ..RequestBulk::default() }), Err(AnswerError::TooMuch(_))));
    let changes = vec![Change { subject: VISIT, bytes: vec![] }; 30_000];
    assert!(matches!(ask(RequestBulk { changes, ..RequestBulk::default() }), Err(AnswerError::TooMuch(_))));
    assert!(ask(RequestBulk { asks: ids(500), ..RequestBulk::default() }).is_ok());
}

#[test]
fn a_device_revoked_while_its_request_waited_is_answered_as_revoked() {
    let mut server = Server::new();
    let mut a = phone(1, &mut server);
    write(&mut a, "sent just before");
    let mut session = a.sync_session().unwrap();
    let request = a.sync_request(&mut session).unwrap();
    let devices = Devices::read(&server.store).unwrap();
    let opened = OpenedRequest::read(&request, &devices, &server.key.public(), MOST).unwrap();
    server.certify(a.device(), true);
    let mut answerer = Answerer::new(&mut server.store, &server.key, 1);
    let answer = answerer.answer_opened(&opened, UtcMillis(1_000_000)).unwrap();
    a.sync_receive(&mut session, &answer.reply).unwrap();
    assert!(session.report().revoked);
}

/// An allowance of a given number of entries.
struct Few {
    left: usize,
}

impl Allowance for Few {
    fn take(
        &mut self,
        store: &dyn Store,
        subject: Subject,
        change: &CheckedChange,
    ) -> Result<Option<Over>, StoreError> {
        if store.has_change(subject, change.hash())? {
            return Ok(None);
        }
        if self.left < change.entries().len() {
            return Ok(Some(Over {
                why: "enough for today".to_owned(),
                until: UtcMillis(1_000_000 + 3_600_000),
            }));
        }
        self.left -= change.entries().len();
        Ok(None)
    }

    fn set_aside(&mut self, _: &Change, why: &str) {
        panic!("nothing was refused for good: {why}");
    }
}

/// The clock of the first phone, and below it the time by that clock from which put-off changes are accepted.
const NOW: UtcMillis = UtcMillis(1_000_500);
const LATER: UtcMillis = UtcMillis(NOW.0 + 3_600_001);

/// Syncs the first phone.
fn sync_with(book: &mut crate::book::Book, server: &mut Server, left: usize, now: UtcMillis) -> SyncReport {
    let mut session = Session::new(server.key.public());
    let mut few = Few { left };
    for _ in 0..100 {
        let request = session.request(book.store_mut(), &key(1), now).unwrap();
        let mut answerer = Answerer::new(&mut server.store, &server.key, server.epoch);
        answerer.allowance = Some(&mut few);
        let reply = answerer.answer(&request, UtcMillis(1_000_000)).unwrap().reply;
        if session.receive(book.store_mut(), &reply, now).unwrap() == Step::Done {
            return session.report().clone();
        }
    }
    panic!("a device that is put off asks for ever");
}

#[test]
fn what_is_too_much_for_today_stays_unsent_and_is_brought_when_it_may_come() {
    let mut server = Server::new();
    let mut a = phone(1, &mut server);
    for n in 0..5 {
        write(&mut a, &format!("{n}"));
    }
    let report = sync_with(&mut a, &mut server, 3, NOW);
    assert_eq!(report.put_off.as_deref(), Some("enough for today"));
    assert_eq!(report.refused, Vec::<String>::new(), "it is not refused for good");
    assert_eq!((report.receipted, a.store().count_without_receipt().unwrap()), (3, 2));
    assert_eq!(texts(&server.store), ["0", "1", "2"]);
    // Until then nothing is sent again, the records do not count as different, and entries of others arrive.
    let mut b = phone(2, &mut server);
    write(&mut b, "of another");
    sync(&mut b, &mut server);
    let report = sync_with(&mut a, &mut server, 0, NOW);
    assert!(!report.reconciled && report.put_off.is_some(), "it still says why: {report:?}");
    assert_eq!(texts(a.store()), ["0", "1", "2", "3", "4", "of another"]);
    assert_eq!(a.store().count_without_receipt().unwrap(), 2);
    // The limit ends at the time the office stated, converted to this device's clock.
    let report = sync_with(&mut a, &mut server, 100, LATER);
    assert_eq!((report.receipted, a.store().count_without_receipt().unwrap()), (2, 0));
    assert_eq!(report.put_off, None);
    assert_eq!(texts(&server.store), texts(a.store()));
}

#[test]
fn a_ledger_put_back_from_a_copy_is_compared_also_while_something_is_put_off() {
    let mut server = Server::new();
    let mut a = phone(1, &mut server);
    for n in 0..4 {
        write(&mut a, &format!("{n}"));
    }
    sync_with(&mut a, &mut server, 2, NOW);
    server.store = crate::store::MemoryStore::new();
    server.certify(a.device(), false);
    server.epoch = 2;
    let report = sync_with(&mut a, &mut server, 1, NOW);
    assert!(report.reconciled);
    assert!(texts(&server.store).len() <= 1);
    for _ in 0..3 {
        sync_with(&mut a, &mut server, 100, LATER);
    }
    assert_eq!(texts(&server.store), ["0", "1", "2", "3"]);
    assert_eq!(a.store().count_without_receipt().unwrap(), 0);
}
