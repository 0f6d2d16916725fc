//! A synthetic stay of 120 entries and 12 photographs on three devices, synced to an office in memory. It has
//! a disagreement, a correction, a defect, a revoked phone, unusual characters and another car in between.
//! Everything in it is invented. Used by the tests of packets and by the example `synthetic_packets`.
#![allow(
    dead_code,
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "shared by two programs of the tests: they stop where something is wrong"
)]

use std::collections::BTreeMap;

use farsiding_core::book::{Book, BookParts, Draft, OpenVisit};
use farsiding_core::clock::{Clock as _, HandSetClock, Stamp, UtcMillis};
use farsiding_core::document::{CheckedChange, Document};
use farsiding_core::entry::site_facts::{Instrument, Operator, SiteProfile};
use farsiding_core::entry::vocabulary::{
    ClockEvent, ClosureState, EmptySign, Fitting, Heard, Measured, PhotoOf, PhotoRef, Place, Purpose,
    Receiver, SealEvent, SealKind, SealPlace, ValvePosition,
};
use farsiding_core::entry::{
    Body, Certificate, Defect, DeviceKey, EarlierGrant, Entry, LastEntry, OrganisationKey, Paper,
    PersonSigner, PublicKey, Reading, Right, Role, Seal, Statement,
};
use farsiding_core::evidence::ledger_log;
use farsiding_core::ids::{
    DefectId, Digest, EntryId, HoldId, OperatorId, OrganisationId, SiteId, Subject, VisitId,
};
use farsiding_core::procedure::Procedures;
use farsiding_core::store::{MemoryStore, Store, Write};
use farsiding_core::sync::{Answerer, CERTIFICATES_VERSION, Step, carry_out};
use farsiding_core::units::{Amount, Unit};
use farsiding_packet::{PacketError, Photographs};
use farsiding_testkit::Dice;

pub struct Held(pub BTreeMap<Digest, Vec<u8>>);
impl Photographs for Held {
    fn bytes(&self, sha256: Digest) -> Result<Option<Vec<u8>>, PacketError> {
        Ok(self.0.get(&sha256).cloned())
    }
}

pub struct Office {
    pub store: MemoryStore,
    pub key: OrganisationKey,
    now: i64,
}

pub struct Hand {
    pub book: Book,
    clock: HandSetClock,
    pub operator: OperatorId,
    ahead: i64,
}

impl Office {
    /// Returns an office without any entries.
    pub fn new() -> Office {
        Office { store: MemoryStore::new(), key: OrganisationKey::from_secret([42; 32]), now: BEGIN }
    }
}

const BEGIN: i64 = 1_795_528_800_000; // 2026-11-24T20:00:00Z
const MINUTE: i64 = 60_000;

impl Office {
    pub fn certify(&mut self, key: &DeviceKey, name: &str, change: impl FnOnce(&mut Certificate)) -> Vec<u8> {
        let mut certificate = Certificate::by_role(
            OrganisationId::of_key(&self.key.public()),
            key.public(),
            name,
            Role::Operator,
            UtcMillis(BEGIN - 86_400_000),
        );
        change(&mut certificate);
        let bytes = certificate.seal(&self.key).unwrap();
        let version = self.store.value(CERTIFICATES_VERSION).unwrap();
        let version = version.map_or(1, |v| u64::from_be_bytes(v.try_into().unwrap()) + 1);
        self.store
            .commit(&[
                Write::Certificate { device: key.public(), bytes: &bytes },
                Write::Value { key: CERTIFICATES_VERSION, value: &version.to_be_bytes() },
            ])
            .unwrap();
        bytes
    }

    pub fn hand(
        &mut self,
        secret: u8,
        name: &str,
        operator: &str,
        ahead_minutes: i64,
        change: impl FnOnce(&mut Certificate),
    ) -> Hand {
        let key = DeviceKey::from_secret([secret; 32]);
        let certificate = self.certify(&key, name, change);
        let clock = HandSetClock::at(UtcMillis(BEGIN + ahead_minutes * MINUTE), -360);
        let mut book = Book::open(BookParts {
            store: Box::new(MemoryStore::new()),
            key,
            clock: Box::new(clock.clone()),
            randomness: Box::new(Dice::of(u64::from(secret))),
        });
        book.enrolled(self.key.public(), &certificate).unwrap();
        Hand { book, clock, operator: OperatorId(operator.into()), ahead: ahead_minutes * MINUTE }
    }

    /// Returns the body of the first entry of a device without a book.
    pub fn body(&self, visit: VisitId, says: Statement, operator: &str, before: Option<&Entry>) -> Body {
        Body {
            about: Subject::Visit(visit),
            slot: says.slot(),
            says,
            follows: Vec::new(),
            replaces: Vec::new(),
            why: String::new(),
            by: OperatorId(operator.into()),
            seq: before.map_or(1, |entry| entry.body.seq + 1),
            prev: before.map(|entry| entry.id),
            when: Stamp { at: UtcMillis(self.now - MINUTE), offset_minutes: -360, ahead_millis: None },
            place: None,
            seen: None,
            hand: None,
            done: None,
            rests_on: None,
        }
    }

    pub fn sync(&mut self, hand: &mut Hand) {
        let theirs = hand.clock.now().0.0 - hand.ahead;
        self.now = self.now.max(theirs) + 2 * MINUTE;
        hand.clock.set(UtcMillis(self.now + hand.ahead));
        let mut session = hand.book.sync_session().unwrap();
        for _ in 0..40 {
            let request = hand.book.sync_request(&mut session).unwrap();
            let answer =
                Answerer::new(&mut self.store, &self.key, 1).answer(&request, UtcMillis(self.now)).unwrap();
            if matches!(hand.book.sync_receive(&mut session, &answer.reply).unwrap(), Step::Done) {
                break;
            }
        }
        ledger_log::publish(&mut self.store, &self.key, UtcMillis(self.now)).unwrap();
    }
}

impl Hand {
    pub fn says(&mut self, visit: VisitId, says: Vec<Statement>) {
        for statement in says {
            self.clock.advance(MINUTE);
            self.book
                .append(Subject::Visit(visit), vec![Draft::of(statement)], &self.operator.clone())
                .unwrap();
        }
    }
}

impl Hand {
    /// Returns the entry of the visit with the wanted statement.
    pub fn said(&self, visit: VisitId, wanted: impl Fn(&Statement) -> bool) -> EntryId {
        let entries = self.book.entries(Subject::Visit(visit)).unwrap().0;
        entries.into_iter().find(|(entry, _)| wanted(&entry.body.says)).unwrap().0.id
    }
}

/// Returns twelve JPEGs made from one, each with a comment of its own.
pub fn photographs(picture: &[u8]) -> Vec<Vec<u8>> {
    (0u8..12)
        .map(|n| {
            let comment = format!("synthetic photograph {n}");
            let length = u16::try_from(comment.len() + 2).unwrap().to_be_bytes();
            [&picture[..2], &[0xff, 0xfe], &length, comment.as_bytes(), &picture[2..]].concat()
        })
        .collect()
}

pub fn reading(purpose: Purpose, measured: Measured, amount: &str, unit: Unit) -> Statement {
    Statement::Reading(Reading {
        measured,
        place: Place::Car,
        purpose,
        amount: Amount::read(amount, unit).0,
        instrument: "G-160".into(),
    })
}

/// Adds entries that come in other ways: with a person's own signature, from a device with an expired
/// certificate, and from a stranger who lies about a photograph.
fn of_others(
    office: &mut Office,
    carrier: &mut Hand,
    visit: VisitId,
    issuer: PublicKey,
    (hold, called): (HoldId, EntryId),
    photograph: &[u8],
) {
    let (shared, spare) = (DeviceKey::from_secret([4; 32]), DeviceKey::from_secret([5; 32]));
    let (lark, stranger) = (PersonSigner::from_secret([11; 32]), DeviceKey::from_secret([77; 32]));
    office.certify(&shared, "Shared phone", |_| {});
    office.certify(&spare, "Spare phone", |certificate| {
        certificate.issuer = Some(issuer);
        certificate.valid_until = Some(UtcMillis(BEGIN));
    });
    let held = office.body(visit, Statement::HeldBy { person: OperatorId("LARK".into()) }, "LARK", None);
    let held = Entry::seal_by_hand(held, &lark, &shared).unwrap();
    let lifted = Statement::HoldLifted { hold, because: "the hose was changed".into() };
    let lifted = Body { follows: vec![called], ..office.body(visit, lifted, "LARK", Some(&held)) };
    let lifted = Entry::seal_by_hand(lifted, &lark, &shared).unwrap();
    let covered = Statement::Remark { text: "under the word of who holds the phone".into() };
    let covered = Entry::seal(office.body(visit, covered, "LARK", Some(&lifted)), &shared).unwrap();
    let expired = Statement::Remark { text: "on the phone whose day was over".into() };
    let expired = Entry::seal(office.body(visit, expired, "LARK", None), &spare).unwrap();
    let lie = Statement::Photo {
        photo: PhotoRef { sha256: Digest::of(photograph), length: 7, media: "image/jpeg".into() },
        of: PhotoOf::Other,
        about: String::new(),
    };
    let lie = Entry::seal(office.body(visit, lie, "NOBODY", None), &stranger).unwrap();
    let released = Statement::Released { as_residue: true };
    let released = Entry::seal(office.body(visit, released, "NOBODY", Some(&lie)), &stranger).unwrap();
    carry(office, carrier, visit, &[held, lifted, covered, expired, lie, released]);
}

/// Brings entries that no book made to the office in a carry file.
pub fn carry(office: &mut Office, carrier: &mut Hand, visit: VisitId, entries: &[Entry]) {
    let change = Document::new([7; 16]).unwrap().add(entries).unwrap().unwrap();
    let subject = Subject::Visit(visit);
    let mut file = MemoryStore::new();
    let hash = CheckedChange::hash_of(&change).unwrap();
    file.commit(&[Write::Change { subject, hash, bytes: &change, held: false }]).unwrap();
    carrier.book.carry_in(&carry_out(&file, &[subject], Vec::new()).unwrap()).unwrap();
    office.sync(carrier);
}

/// The stay as the office holds it.
pub struct Synthetic {
    pub office: Office,
    pub photos: Vec<Vec<u8>>,
    pub held: Held,
    pub visit: VisitId,
    yard: Hand,
    other: VisitId,
}

impl Synthetic {
    /// Records something about the stay and brings it to the office.
    pub fn says(&mut self, says: Statement) {
        self.yard.says(self.visit, vec![says]);
        self.office.sync(&mut self.yard);
    }

    /// Records something about the people and brings it to the office.
    #[allow(dead_code, reason = "the example that shares this file does not call it")]
    pub fn on_the_roster(&mut self, says: Statement) {
        let roster = Subject::Roster(OrganisationId::of_key(&self.office.key.public()));
        let operator = self.yard.operator.clone();
        self.yard.book.append(roster, vec![Draft::of(says)], &operator).unwrap();
        self.office.sync(&mut self.yard);
    }

    /// Records something about another car and brings it to the office.
    pub fn something_elsewhere(&mut self) {
        self.yard.says(self.other, vec![Statement::Remark { text: "later, elsewhere".into() }]);
        self.office.sync(&mut self.yard);
    }

    /// Records a remark about the stay and brings it to the office.
    pub fn remark(&mut self, text: &str) {
        self.yard.says(self.visit, vec![Statement::Remark { text: text.into() }]);
        self.office.sync(&mut self.yard);
    }

    /// Returns the number of entries of the stay.
    pub fn entries(&self) -> usize {
        self.office.store.entries_of(Subject::Visit(self.visit)).unwrap().rows.len()
    }
}

/// Records the stay. `picture` is any small JPEG.
pub fn record(picture: &[u8]) -> Synthetic {
    let mut office = Office::new();
    let site = SiteId([9; 16]);
    let issuer = office.key.public();
    // The yard phone also manages the site and the people. The second phone is for this site only, and was
    // for another one earlier.
    let mut a = office.hand(1, "Yard phone", "WREN", 0, |certificate| {
        certificate.issuer = Some(issuer);
        certificate.rights = Some(Right::ALL.to_vec());
    });
    let mut b = office.hand(2, "Second phone", "LARK", 7, |certificate| {
        certificate.issuer = Some(issuer);
        certificate.sites = Some(vec![site]);
        certificate.renewed_at = Some(UtcMillis(BEGIN - 43_200_000));
        certificate.valid_until = Some(UtcMillis(BEGIN + 90 * 86_400_000));
        certificate.earlier = vec![EarlierGrant {
            role: Role::Operator,
            sites: Some(vec![SiteId([8; 16])]),
            rights: None,
            last: LastEntry { seq: 0, entry: EntryId([0; 32]) },
        }];
    });
    let mut c = office.hand(3, "Lost phone", "WREN", 0, |_| {});
    let organisation = OrganisationId::of_key(&office.key.public());
    let at_site = |says: Statement| (Subject::Site(site), says);
    for (subject, says) in [
        at_site(Statement::Site(SiteProfile {
            name: "Synthetic Siding".into(),
            zone: "Etc/GMT+6".into(),
            elevation: Amount::read("1200", Unit::Foot).0,
            attendance_gap_minutes: 30,
            local_rules: "Invented: call the desk before the first valve is opened.".into(),
            organisation: "An invented organisation".into(),
            address: "4 Invented Road, Nowhere".into(),
        })),
        at_site(Statement::Instrument(Instrument {
            name: "G-160".into(),
            measures: "pressure".into(),
            span: Amount::of(160.0, Unit::PsiGauge),
            grade: "B".into(),
            calibration_due: "2027-05-01".into(),
        })),
        (
            Subject::Roster(organisation),
            Statement::PersonKeyConfirmed {
                person: OperatorId("LARK".into()),
                key: PersonSigner::from_secret([11; 32]).public(),
            },
        ),
        (
            Subject::Roster(organisation),
            Statement::Operator(Operator {
                operator: OperatorId("WREN".into()),
                name: "W. Invented".into(),
                named: None,
                trained_on: String::new(),
                active: true,
            }),
        ),
    ] {
        let operator = a.operator.clone();
        a.book.append(subject, vec![Draft::of(says)], &operator).unwrap();
    }
    let procedure = Procedures::built_in().unwrap().default_procedure().unwrap().digest;
    let open = |car: &str| OpenVisit {
        car: car.into(),
        site,
        receiver: Receiver::FixedTank,
        procedure,
        spot: "Spot 2".into(),
    };
    let operator = a.operator.clone();
    let visit = a.book.open_visit(open("ZZQX 120"), &operator).unwrap();
    office.sync(&mut a);
    office.sync(&mut b);
    office.sync(&mut c);
    let photos = photographs(picture);
    let photo = |n: usize, of: PhotoOf, about: &str| Statement::Photo {
        photo: PhotoRef {
            sha256: Digest::of(&photos[n]),
            length: photos[n].len() as u64,
            media: "image/jpeg".into(),
        },
        of,
        about: about.into(),
    };
    a.says(visit, vec![
        Statement::Clock { event: ClockEvent::ActualPlacement, at: UtcMillis(BEGIN - 40 * MINUTE) },
        Statement::Paper(Paper {
            number: "BL-7".into(),
            car: "ZZQX 120".into(),
            shipper: "Invented Shipper".into(),
            un_number: "UN1978".into(),
            product: "Propane".into(),
            billed: Some(Amount::read("30,120 gal", Unit::Gallon).0),
            relative_density: Some(Amount::read("0.506", Unit::One).0),
            odorised: Some(true),
            ..Paper::default()
        }),
        photo(0, PhotoOf::CarNumber, ""),
        photo(1, PhotoOf::Paper, ""),
        reading(Purpose::Arrival, Measured::Pressure, "118", Unit::PsiGauge),
        reading(Purpose::Arrival, Measured::Temperature, "64 °F", Unit::Fahrenheit),
        Statement::Seal(Seal {
            event: SealEvent::Found,
            place: SealPlace::HousingPin,
            number: "S-0001".into(),
            kind: Some(SealKind::ALL[0]),
            intact: true,
            photo: Some(Digest::of(&photos[2])),
            note: "".into(),
            because: String::new(),
        }),
        photo(2, PhotoOf::Seal, "seal/housing_pin/found"),
        Statement::Remark { text: "Wind from the north, \u{65e5}\u{672c} on the placard, \u{202e}odd text\u{202c}, Łukasz and Жук were here \u{1f642}".into() },
    ]);
    // The entries of another car in between are part of the chain but not of the packet.
    let other = a.book.open_visit(open("ZZQX 999"), &operator).unwrap();
    a.says(other, vec![Statement::Remark { text: "another car".into() }]);
    // Two people make statements about one valve, neither knowing of the other's entry.
    a.says(visit, vec![Statement::Valve { fitting: Fitting::LiquidA, position: ValvePosition::Open }]);
    office.sync(&mut a);
    office.sync(&mut b);
    a.says(visit, vec![Statement::Closure { fitting: Fitting::LiquidA, state: ClosureState::ToolTight }]);
    b.says(
        visit,
        vec![
            Statement::Closure { fitting: Fitting::LiquidA, state: ClosureState::HandTight },
            reading(Purpose::Final, Measured::Pressure, "21", Unit::PsiGauge),
        ],
    );
    office.sync(&mut a);
    office.sync(&mut b);
    office.sync(&mut a);
    let procedures = Procedures::built_in().unwrap();
    let view = a.book.gather().unwrap().view(visit, &procedures).unwrap();
    let keeps = view.disagreements[0].claims[0].said.entry;
    let settled = Draft::settling(&view, keeps, "went back up and looked at it together").unwrap();
    a.book.append(Subject::Visit(visit), vec![settled], &operator).unwrap();
    let wrong = view.readings.iter().find(|r| r.purpose == Purpose::Final).unwrap().history[0].said.entry;
    let right = reading(Purpose::Final, Measured::Pressure, "12", Unit::PsiGauge);
    a.book
        .append(
            Subject::Visit(visit),
            vec![Draft::instead_of(right, vec![wrong], "digits swapped when typed")],
            &operator,
        )
        .unwrap();
    let defect = DefectId([5; 16]);
    a.says(
        visit,
        vec![
            Statement::Defect(Defect {
                defect,
                fitting: Some(Fitting::LiquidB),
                what: "plug bottoms with one thread engaged".into(),
                needs_authority: true,
                photo: Some(Digest::of(&photos[3])),
            }),
            photo(3, PhotoOf::Defect, &format!("defect/{defect}")),
            Statement::Forwarded { defect, to: "the owner's desk".into(), how: "telephone".into() },
            Statement::Authority {
                defect,
                by: "Invented Authority".into(),
                reference: "A-77".into(),
                spoken_at: Some(UtcMillis(BEGIN + 200 * MINUTE)),
                written_at: None,
            },
        ],
    );
    for fitting in [Fitting::LiquidA, Fitting::LiquidB, Fitting::Vapour] {
        a.says(
            visit,
            vec![
                Statement::Valve { fitting, position: ValvePosition::Shut },
                Statement::Listen { fitting, heard: Heard::ALL[0] },
                Statement::Threads { fitting, engaged: Amount::read("4", Unit::One).0 },
            ],
        );
    }
    for fitting in [Fitting::LiquidB, Fitting::Vapour, Fitting::GaugingDevice] {
        a.says(visit, vec![Statement::Closure { fitting, state: ClosureState::ToolTight }]);
    }
    a.says(
        visit,
        vec![
            Statement::EmptySign { sign: EmptySign::ALL[0], seen: true },
            Statement::Cover { closed: true, pinned: true, bolts_in_place: 4, bolts_required: 4 },
        ],
    );
    for n in 4..12 {
        a.says(visit, vec![photo(n, PhotoOf::Other, "")]);
    }
    // The lost phone's entries arrive after its revocation, and one of them is admitted.
    c.says(
        visit,
        vec![
            Statement::Remark { text: "written on the phone that was lost".into() },
            Statement::Remark { text: "late, and let in".into() },
        ],
    );
    let late = |says: &Statement| matches!(says, Statement::Remark { text } if text == "late, and let in");
    let let_in = c.said(visit, late);
    office.now += 60 * MINUTE;
    let revoked = office.now;
    office.certify(&DeviceKey::from_secret([3; 32]), "Lost phone", |certificate| {
        certificate.revoked_at = Some(UtcMillis(revoked));
    });
    office.sync(&mut c);
    let hold = HoldId([6; 16]);
    a.says(
        visit,
        vec![
            Statement::Admitted { entry: let_in },
            Statement::Hold { hold, because: "the hose drips".into() },
        ],
    );
    let called = a.said(visit, |says| matches!(says, Statement::Hold { .. }));
    office.sync(&mut a);
    of_others(&mut office, &mut b, visit, issuer, (hold, called), &photos[4]);
    office.sync(&mut a);
    let count = |office: &Office| office.store.entries_of(Subject::Visit(visit)).unwrap().rows.len();
    let mut pressure = 118.0;
    while count(&office) < 120 {
        pressure -= 1.35;
        let left = 120 - count(&office);
        let says: Vec<Statement> = (0..left.min(6))
            .map(|n| {
                reading(
                    Purpose::Recovery,
                    Measured::Pressure,
                    &format!("{:.1}", pressure - n as f64 * 0.2),
                    Unit::PsiGauge,
                )
            })
            .collect();
        a.says(visit, says);
        office.sync(&mut a);
    }
    let held = Held(photos.iter().map(|bytes| (Digest::of(bytes), bytes.clone())).collect());
    Synthetic { office, photos, held, visit, yard: a, other }
}

/// The time at which the first phone is enrolled, and at which later stories begin.
pub const FIRST: UtcMillis = UtcMillis(BEGIN);

impl Office {
    /// Returns an office under the key with another secret.
    pub fn under(secret: u8) -> Office {
        Office { key: OrganisationKey::from_secret([secret; 32]), ..Office::new() }
    }

    /// Returns the time of the office's clock.
    pub fn now(&self) -> UtcMillis {
        UtcMillis(self.now)
    }

    /// Lets time pass in which nothing arrives.
    pub fn wait(&mut self, millis: i64) {
        self.now += millis;
    }
}

impl Hand {
    /// Sets the phone's clock wrong, records, and sets the clock right again.
    pub fn with_clock_off(&mut self, millis: i64, record: impl FnOnce(&mut Hand)) {
        let before = self.clock.now().0.0;
        self.clock.set(UtcMillis(before + millis));
        record(self);
        self.clock.set(UtcMillis(before + MINUTE));
    }
}
