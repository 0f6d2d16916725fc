//! Tests of convergence: whatever is lost, duplicated, delayed or truncated, devices and server end with the
//! same records, and nothing that was ever recorded is missing anywhere.
#![allow(clippy::unwrap_used, missing_docs, reason = "a failed unwrap is a failed test")]

use std::collections::BTreeSet;

use farsiding_core::book::{Book, BookParts, Draft};
use farsiding_core::clock::{HandSetClock, UtcMillis};
use farsiding_core::entry::vocabulary::{ClosureState, Fitting};
use farsiding_core::entry::{Certificate, DeviceKey, OrganisationKey, Role, Statement};
use farsiding_core::ids::{EntryId, OperatorId, OrganisationId, Randomness, Subject, VisitId};
use farsiding_core::store::{MemoryStore, Store, Write};
use farsiding_core::sync::{Answerer, CERTIFICATES_VERSION, Session, Step};
use farsiding_testkit::Dice;
use proptest::prelude::*;

/// The dice in the form in which the core asks for randomness.
struct Chance(Dice);
impl Randomness for Chance {
    fn fill(&mut self, bytes: &mut [u8]) {
        self.0.fill(bytes);
    }
}

const DEVICES: usize = 3;
const VISITS: [Subject; 2] = [Subject::Visit(VisitId([1; 16])), Subject::Visit(VisitId([2; 16]))];

/// One event of a random history.
#[derive(Debug, Clone)]
enum Event {
    /// A device records something.
    Record { device: usize, visit: usize, kind: u8 },
    /// A device sends its next request; `fate` decides what happens to the request and its reply.
    Round { device: usize, fate: Fate },
    /// One device hands another a carry file.
    Carry { from: usize, to: usize },
    /// A session is dropped midway, as when the program is killed.
    Forget { device: usize },
}

#[derive(Debug, Clone, Copy)]
enum Fate {
    Arrives,
    RequestLost,
    ReplyLost,
    RequestTwice,
    ReplyTwice,
    ReplyCutShort,
}

fn event() -> impl Strategy<Value = Event> {
    let device = 0..DEVICES;
    let fate = prop_oneof![
        4 => Just(Fate::Arrives),
        1 => Just(Fate::RequestLost),
        1 => Just(Fate::ReplyLost),
        1 => Just(Fate::RequestTwice),
        1 => Just(Fate::ReplyTwice),
        1 => Just(Fate::ReplyCutShort),
    ];
    prop_oneof![
        4 => (device.clone(), 0..VISITS.len(), any::<u8>())
            .prop_map(|(device, visit, kind)| Event::Record { device, visit, kind }),
        5 => (device.clone(), fate).prop_map(|(device, fate)| Event::Round { device, fate }),
        1 => (device.clone(), device.clone()).prop_map(|(from, to)| Event::Carry { from, to }),
        1 => device.prop_map(|device| Event::Forget { device }),
    ]
}

struct World {
    server: MemoryStore,
    key: OrganisationKey,
    books: Vec<Book>,
    sessions: Vec<Option<Session>>,
    recorded: BTreeSet<EntryId>,
}

impl World {
    fn new(seed: u64) -> World {
        let mut server = MemoryStore::new();
        let key = OrganisationKey::from_secret([42; 32]);
        let mut books = Vec::new();
        for n in 0..DEVICES {
            let mut book = Book::open(BookParts {
                store: Box::new(MemoryStore::new()),
                key: DeviceKey::from_secret([n as u8 + 1; 32]),
                clock: Box::new(HandSetClock::at(UtcMillis(1_000 * n as i64), 0)),
                randomness: Box::new(Chance(Dice::of(seed + n as u64))),
            });
            let certificate = Certificate::by_role(
                OrganisationId([1; 16]),
                book.device(),
                format!("device {n}"),
                Role::Operator,
                UtcMillis(0),
            );
            let bytes = certificate.seal(&key).unwrap();
            server
                .commit(&[
                    Write::Certificate { device: book.device(), bytes: &bytes },
                    Write::Value { key: CERTIFICATES_VERSION, value: &(n as u64 + 1).to_be_bytes() },
                ])
                .unwrap();
            book.enrolled(key.public(), &bytes).unwrap();
            books.push(book);
        }
        let sessions = (0..DEVICES).map(|_| None).collect();
        World { server, key, books, sessions, recorded: BTreeSet::new() }
    }

    fn play(&mut self, event: &Event) {
        match event {
            Event::Record { device, visit, kind } => {
                let says = match kind % 3 {
                    0 => Statement::Remark { text: format!("remark {kind}") },
                    1 => Statement::Closure { fitting: Fitting::LiquidA, state: ClosureState::HandTight },
                    _ => Statement::Closure { fitting: Fitting::LiquidA, state: ClosureState::ToolTight },
                };
                let by = OperatorId(format!("op-{device}"));
                let ids = self.books[*device].append(VISITS[*visit], vec![Draft::of(says)], &by).unwrap();
                self.recorded.extend(ids);
            }
            Event::Round { device, fate } => self.round(*device, *fate),
            Event::Carry { from, to } if from != to => {
                let file = self.books[*from].carry_out(&VISITS, vec![]).unwrap();
                self.books[*to].carry_in(&file).unwrap();
            }
            Event::Carry { .. } => {}
            Event::Forget { device } => self.sessions[*device] = None,
        }
    }

    fn round(&mut self, device: usize, fate: Fate) {
        let book = &mut self.books[device];
        let mut session = self.sessions[device].take().unwrap_or_else(|| book.sync_session().unwrap());
        let request = book.sync_request(&mut session).unwrap();
        let mut answer = || {
            Answerer::new(&mut self.server, &self.key, 1).answer(&request, UtcMillis(5_000)).unwrap().reply
        };
        match fate {
            Fate::RequestLost => {}
            Fate::ReplyLost => {
                answer();
            }
            Fate::RequestTwice => {
                answer();
                // The server answers the second request by stating that its number is old, and the device
                // asks again.
                let reply = answer();
                book.sync_receive(&mut session, &reply).unwrap();
            }
            Fate::ReplyCutShort => {
                let reply = answer();
                assert!(book.sync_receive(&mut session, &reply[..reply.len() / 2]).is_err());
            }
            Fate::Arrives | Fate::ReplyTwice => {
                let reply = answer();
                let step = book.sync_receive(&mut session, &reply).unwrap();
                if matches!(fate, Fate::ReplyTwice) {
                    assert!(book.sync_receive(&mut session, &reply).is_err(), "a reply is taken once");
                }
                if step == Step::Done {
                    return;
                }
            }
        }
        self.sessions[device] = Some(session);
    }

    fn make_quiet(&mut self) {
        for _ in 0..2 {
            for device in 0..DEVICES {
                self.sessions[device] = None;
                for _ in 0..50 {
                    self.round(device, Fate::Arrives);
                    if self.sessions[device].is_none() {
                        break;
                    }
                }
                assert!(self.sessions[device].is_none(), "device {device} never came to an end");
            }
        }
    }
}

fn ids_of(store: &dyn Store) -> BTreeSet<EntryId> {
    VISITS.iter().flat_map(|v| store.entries_of(*v).unwrap().rows).map(|row| row.id).collect()
}

fn heads_of(store: &dyn Store) -> Vec<BTreeSet<Vec<u8>>> {
    VISITS.iter().map(|v| store.changes_of(*v).unwrap().rows.into_iter().map(|c| c.bytes).collect()).collect()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    #[test]
    fn everybody_ends_up_with_everything(events in prop::collection::vec(event(), 1..60), seed in any::<u32>()) {
        let mut world = World::new(u64::from(seed));
        for event in &events {
            world.play(event);
            // A receipt never exists without its entry being at the server.
            for book in &world.books {
                for visit in VISITS {
                    for row in book.store().entries_of(visit).unwrap().rows {
                        if row.receipted {
                            prop_assert!(world.server.entry(row.id).unwrap().is_some());
                        }
                    }
                }
            }
        }
        world.make_quiet();
        prop_assert_eq!(ids_of(&world.server), world.recorded.clone());
        for book in &world.books {
            prop_assert_eq!(ids_of(book.store()), world.recorded.clone());
            prop_assert_eq!(book.store().tally().unwrap(), world.server.tally().unwrap());
            prop_assert_eq!(heads_of(book.store()), heads_of(&world.server));
            prop_assert_eq!(book.store().count_without_receipt().unwrap(), 0);
        }
    }
}
