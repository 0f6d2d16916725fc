//! A short stay with two phones, and an office whose ledger can be rebuilt with another story.

use std::collections::{BTreeMap, BTreeSet};

use farsiding_core::book::{Draft, OpenVisit};
use farsiding_core::clock::{Stamp, UtcMillis};
use farsiding_core::entry::site_facts::SiteProfile;
use farsiding_core::entry::vocabulary::{
    ClockEvent, ClosureState, Fitting, Measured, PhotoOf, PhotoRef, Purpose, Receiver, SealEvent, SealKind,
    SealPlace, ValvePosition,
};
use farsiding_core::entry::{
    Body, Certificate, Coded, DeviceKey, Entry, OrganisationKey, Right, Seal, Statement,
};
use farsiding_core::evidence::{LogLeaf, Receipt, ledger_log};
use farsiding_core::ids::{
    DeviceId, Digest, EntryId, HoldId, OperatorId, OrganisationId, SiteId, Subject, VisitId,
};
use farsiding_core::procedure::Procedures;
use farsiding_core::store::{MemoryStore, Store, Write};
use farsiding_core::sync::{CERTIFICATES_VERSION, Step, answer_log};
use farsiding_core::units::{Amount, Unit};
use farsiding_packet::{PacketSource, of_stay, stay_of};
use farsiding_words::Language;

use super::stay::{FIRST, Hand, Held, Office, photographs, reading};

/// A minute, in milliseconds.
pub const MINUTE: i64 = 60_000;
pub const DAY: i64 = 24 * 60 * MINUTE;
/// The time at which the phones are enrolled.
pub const BEGIN: i64 = FIRST.0;
pub const SITE: SiteId = SiteId([9; 16]);
/// The secret of the yard phone, as the tests know it.
pub const YARD: u8 = 1;
pub const SECOND: u8 = 2;
pub const HOLD: HoldId = HoldId([6; 16]);

pub struct World {
    pub office: Office,
    pub yard: Hand,
    pub second: Hand,
    pub visit: VisitId,
    pub photos: Vec<Vec<u8>>,
    pub held: Held,
    /// Whether the phones are shown the office's log at all.
    pub shown: bool,
}

pub fn remark(text: &str) -> Statement {
    Statement::Remark { text: text.into() }
}

pub fn pressure(purpose: Purpose, amount: &str) -> Statement {
    reading(purpose, Measured::Pressure, amount, Unit::PsiGauge)
}

/// Returns the key of the test device with this secret.
pub fn device(secret: u8) -> DeviceKey {
    DeviceKey::from_secret([secret; 32])
}

impl World {
    /// Returns a stay in which the phones are enrolled, the site is known, the car is opened and both phones
    /// were shown the log.
    pub fn begun(picture: &[u8]) -> World {
        World::begun_by(picture, true, 42)
    }

    /// Returns such a stay under the key with the given secret. `shown` says whether the phones are shown the
    /// log.
    pub fn begun_by(picture: &[u8], shown: bool, secret: u8) -> World {
        let mut office = Office::under(secret);
        let issuer = office.key.public();
        let mut yard = office.hand(YARD, "Yard phone", "WREN", 0, |certificate| {
            certificate.issuer = Some(issuer);
            certificate.rights = Some(Right::ALL.to_vec());
        });
        let mut second = office.hand(SECOND, "Second phone", "LARK", 0, |certificate| {
            certificate.issuer = Some(issuer);
            certificate.sites = Some(vec![SITE]);
        });
        let operator = yard.operator.clone();
        let siding = Statement::Site(SiteProfile {
            name: "Synthetic Siding".into(),
            zone: "Etc/GMT+6".into(),
            elevation: Amount::read("1200", Unit::Foot).0,
            attendance_gap_minutes: 30,
            local_rules: String::new(),
            organisation: String::new(),
            address: String::new(),
        });
        yard.book.append(Subject::Site(SITE), vec![Draft::of(siding)], &operator).unwrap();
        let visit = open(&mut yard, "ZZQX 120");
        office.sync(&mut yard);
        office.sync(&mut second);
        let photos = photographs(picture);
        let held = Held(photos.iter().map(|bytes| (Digest::of(bytes), bytes.clone())).collect());
        let mut world = World { office, yard, second, visit, photos, held, shown };
        world.watch();
        world
    }

    /// Returns the whole stay.
    pub fn whole(picture: &[u8]) -> World {
        let mut world = World::begun(picture);
        world.worked();
        world.held_back();
        world
    }

    /// Records the yard phone's part: placement, seal, readings and two photographs.
    pub fn worked(&mut self) {
        let says = vec![
            Statement::Clock { event: ClockEvent::ActualPlacement, at: UtcMillis(BEGIN - 40 * MINUTE) },
            self.photo(0, PhotoOf::CarNumber, ""),
            pressure(Purpose::Arrival, "118"),
            Statement::Seal(Seal {
                event: SealEvent::Found,
                place: SealPlace::HousingPin,
                number: "S-0001".into(),
                kind: Some(SealKind::ALL[0]),
                intact: true,
                photo: Some(Digest::of(&self.photos[1])),
                note: Coded::default(),
                because: String::new(),
            }),
            self.photo(1, PhotoOf::Seal, "seal/housing_pin/found"),
            Statement::Valve { fitting: Fitting::LiquidA, position: ValvePosition::Shut },
            Statement::Closure { fitting: Fitting::LiquidA, state: ClosureState::ToolTight },
        ];
        self.yard.says(self.visit, says);
        self.both_sync();
        self.watch();
    }

    /// Records the second phone's part: the last reading and a hold.
    pub fn held_back(&mut self) {
        let hold = Statement::Hold { hold: HOLD, because: "liquid found at the vapour valve".into() };
        self.second.says(self.visit, vec![pressure(Purpose::Final, "21"), hold]);
        self.both_sync();
        self.watch();
        self.yard.says(self.visit, vec![remark("waiting for word from the desk")]);
        self.both_sync();
    }

    pub fn photo(&self, n: usize, of: PhotoOf, about: &str) -> Statement {
        let photo = PhotoRef {
            sha256: Digest::of(&self.photos[n]),
            length: self.photos[n].len() as u64,
            media: "image/jpeg".into(),
        };
        Statement::Photo { photo, of, about: about.into() }
    }

    pub fn both_sync(&mut self) {
        self.office.sync(&mut self.yard);
        self.office.sync(&mut self.second);
        self.office.sync(&mut self.yard);
    }

    /// Shows the office's log to both phones, which keep its newest checkpoint.
    pub fn watch(&mut self) {
        if !self.shown {
            return;
        }
        for hand in [&mut self.yard, &mut self.second] {
            watch(&mut self.office, hand);
        }
    }

    /// Returns the entry of the stay with the wanted statement.
    pub fn entry(&self, wanted: impl Fn(&Statement) -> bool) -> Entry {
        let rows = self.office.store.entries_of(Subject::Visit(self.visit)).unwrap().rows;
        let mut entries = rows.into_iter().map(|row| Entry::reopen(row.id, row.bytes).unwrap());
        entries.find(|entry| wanted(&entry.body.says)).unwrap()
    }

    /// Returns an entry that was not made by a book but by somebody who has the key.
    pub fn forged(&self, says: Statement, by: &str, key: &DeviceKey, before: Option<&Entry>) -> Entry {
        self.forged_with(says, by, key, before, |_| {})
    }

    /// Returns such an entry with any part of it changed.
    pub fn forged_with(
        &self,
        says: Statement,
        by: &str,
        key: &DeviceKey,
        before: Option<&Entry>,
        change: impl FnOnce(&mut Body),
    ) -> Entry {
        let mut body = self.office.body(self.visit, says, by, before);
        body.when = Stamp { at: self.office.now(), ..body.when };
        change(&mut body);
        Entry::seal(body, key).unwrap()
    }

    /// Returns the packet of the present ledger.
    pub fn packet(&self) -> Vec<u8> {
        self.packet_of(&self.office.store)
    }

    /// Returns the packet of another ledger under the same key.
    pub fn packet_of(&self, store: &MemoryStore) -> Vec<u8> {
        packet(store, &self.office.key, &self.held, self.visit)
    }

    /// Returns the newest checkpoint that a phone keeps.
    pub fn kept_by(&self, hand: &Hand) -> String {
        hand.book.store().log().newest_checkpoint().unwrap().unwrap().note
    }

    /// Returns the leaves of the office's log.
    pub fn leaves(&self) -> Vec<LogLeaf> {
        let log = self.office.store.log();
        (0..log.size().unwrap()).map(|n| log.leaf(n).unwrap().unwrap()).collect()
    }

    /// Returns the ledger as it would be if the log had the given leaves: the same entries, certificates as
    /// changed by `certify`, and a log and a checkpoint of its own.
    pub fn ledger_again(&self, leaves: &[LogLeaf], certify: impl Fn(&mut Certificate)) -> MemoryStore {
        let mut store = self.ledger_unpublished(leaves, certify, true);
        ledger_log::publish(&mut store, &self.office.key, self.office.now()).unwrap();
        store
    }

    /// Returns that ledger before its first checkpoint, with or without its receipts.
    pub fn ledger_unpublished(
        &self,
        leaves: &[LogLeaf],
        certify: impl Fn(&mut Certificate),
        with_receipts: bool,
    ) -> MemoryStore {
        let (old, key) = (&self.office.store, &self.office.key);
        let kept: BTreeSet<EntryId> = leaves.iter().map(|leaf| leaf.entry).collect();
        let mut store = MemoryStore::new();
        for (device, bytes) in old.certificates().unwrap() {
            let mut certificate = Certificate::open(&bytes, &key.public()).unwrap();
            certify(&mut certificate);
            let bytes = certificate.seal(key).unwrap();
            store.commit(&[Write::Certificate { device, bytes: &bytes }]).unwrap();
        }
        let version = old.value(CERTIFICATES_VERSION).unwrap().unwrap();
        store.commit(&[Write::Value { key: CERTIFICATES_VERSION, value: &version }]).unwrap();
        let mut receipts: BTreeMap<Vec<u8>, Vec<EntryId>> = BTreeMap::new();
        for subject in old.subjects().unwrap() {
            for row in old.entries_of(subject).unwrap().rows {
                if !kept.contains(&row.id) {
                    continue;
                }
                for bytes in old.receipts_of(row.id).unwrap() {
                    let entries = Receipt::from_bytes(&bytes).unwrap().entries;
                    receipts.insert(bytes, entries);
                }
                let entry = Entry::reopen(row.id, row.bytes).unwrap();
                store.commit(&[Write::Entry { subject, entry: &entry }]).unwrap();
            }
        }
        for LogLeaf { entry, received_at, about } in leaves.iter().copied() {
            store.commit(&[Write::Leaf { entry, received_at, about }]).unwrap();
        }
        // A receipt that names a forgotten entry would reveal the entry.
        receipts.retain(|_, entries| with_receipts && entries.iter().all(|entry| kept.contains(entry)));
        for (bytes, entries) in &receipts {
            store.commit(&[Write::Receipt { bytes, entries }]).unwrap();
        }
        store
    }
}

pub fn packet(store: &MemoryStore, key: &OrganisationKey, held: &Held, visit: VisitId) -> Vec<u8> {
    let source = PacketSource { store, key, photographs: held, language: Language::ENGLISH };
    of_stay(&source, &stay_of(store, &key.public(), visit).unwrap()).unwrap()
}

pub fn watch(office: &mut Office, hand: &mut Hand) {
    let mut watch = hand.book.log_watch().unwrap();
    while let Some(request) = hand.book.log_request(&mut watch).unwrap() {
        let now = office.now();
        let answer = answer_log(&mut office.store, &office.key, &request, now).unwrap();
        if hand.book.log_receive(&mut watch, &answer.reply).unwrap() == Step::Done {
            break;
        }
    }
}

pub fn open(hand: &mut Hand, car: &str) -> VisitId {
    let procedure = Procedures::built_in().unwrap().default_procedure().unwrap().digest;
    let visit = OpenVisit {
        car: car.into(),
        site: SITE,
        receiver: Receiver::FixedTank,
        procedure,
        spot: "Spot 2".into(),
    };
    let operator = hand.operator.clone();
    hand.book.open_visit(visit, &operator).unwrap()
}

/// Returns the entries of a device.
pub fn of_device(world: &World, device: DeviceId) -> BTreeSet<EntryId> {
    let of = |leaf: &LogLeaf| {
        let row = world.office.store.entry(leaf.entry).unwrap().unwrap();
        Entry::reopen(row.id, row.bytes).unwrap().device == device
    };
    world.leaves().iter().filter(|leaf| of(leaf)).map(|leaf| leaf.entry).collect()
}

/// Returns the organisation's roster.
pub fn roster(office: &Office) -> Subject {
    Subject::Roster(OrganisationId::of_key(&office.key.public()))
}

/// Returns a person of the organisation.
pub fn person(code: &str) -> OperatorId {
    OperatorId(code.into())
}
