//! A synthetic stay that took things over: it was opened from a paper that the office sent, facts of the car and of the
//! track were said to be still so, and the car was handed over between two people. Everything in it is invented. Used
//! by a test of packets and by the example `synthetic_packets`.
#![allow(
    dead_code,
    clippy::unwrap_used,
    clippy::panic,
    reason = "shared by two programs of the tests: they stop where something is wrong"
)]

use farsiding_core::book::{Draft, OpenVisit};
use farsiding_core::entry::car_number::CarNumber;
use farsiding_core::entry::coded::Coded;
use farsiding_core::entry::vocabulary::{
    BilledBy, ClockEvent, Measured, PhotoOf, PhotoRef, Place, Precipitation, Presence, ProductGrade,
    Protection, Purpose, Receiver, TestDate,
};
use farsiding_core::entry::{PaperExpected, Reading, Role, Statement};
use farsiding_core::ids::{Digest, OperatorId, SiteId, Subject, VisitId};
use farsiding_core::procedure::Procedures;
use farsiding_core::units::{Amount, Unit};
use farsiding_core::view::Guide;

use super::stay::{Hand, Held, Office, reading};

const SITE: SiteId = SiteId([9; 16]);
const ELSEWHERE: SiteId = SiteId([8; 16]);
/// The car that takes things over, and the one beside it.
pub const CAR: &str = "ZZQX 4417";
const BESIDE: &str = "ZZQX 4418";

/// The stay as the office holds it.
pub struct TakenOver {
    pub office: Office,
    pub held: Held,
    pub visit: VisitId,
}

fn opens(hand: &mut Hand, car: &str, site: SiteId, spot: &str) -> VisitId {
    let procedure = Procedures::built_in().unwrap().default_procedure().unwrap().digest;
    let (receiver, spot) = (Receiver::FixedTank, spot.to_owned());
    let opening = OpenVisit { car: car.into(), site, receiver, procedure, spot };
    hand.book.open_visit(opening, &hand.operator.clone()).unwrap()
}

fn protection(what: Protection) -> Statement {
    Statement::Protection { what, set: true }
}

/// What the office read on the paper.
fn paper() -> PaperExpected {
    PaperExpected {
        car: CarNumber(CAR.into()),
        number: "B-2".into(),
        shipper: "North (invented)".into(),
        un_number: "UN1978".into(),
        product: "Propane".into(),
        billed: Some(Amount::read("30,120 gal", Unit::Gallon).0),
        relative_density: Some(Amount::read("0.506", Unit::One).0),
        odorised: Some(true),
        grade: Some(ProductGrade::Hd5Propane),
        billed_by: Some(BilledBy::Meter),
        winter_fill: Some(true),
        dated: String::new(),
        expected: String::new(),
        file: Digest::of(b"file"),
        file_name: "november (invented).csv".into(),
        line: 2,
    }
}

/// Presses the key of a group, if it is the one at hand.
fn presses(hand: &mut Hand, visit: VisitId, wanted: &str) {
    let procedures = Procedures::built_in().unwrap();
    let view = hand.book.gather().unwrap().view(visit, &procedures).unwrap();
    let group = Guide::of(&view, procedures.default_procedure()).together;
    let group = group.filter(|group| group.id == wanted);
    let group = group.unwrap_or_else(|| panic!("{wanted} is not at hand; next: {:?}", view.steps.next));
    let drafts = group.steps.iter().flat_map(|step| {
        let rests_on = step.rests_on.iter().copied().map(Some).chain(std::iter::repeat(None));
        let said = step.says.iter().cloned().zip(rests_on);
        said.map(|(says, rests_on)| Draft::of(says).resting_on(rests_on)).collect::<Vec<_>>()
    });
    let drafts: Vec<Draft> = drafts.collect();
    hand.book.append(Subject::Visit(visit), drafts, &hand.operator.clone()).unwrap();
}

/// Records the stay. `picture` is any small JPEG.
pub fn record(picture: &[u8]) -> TakenOver {
    let mut office = Office::new();
    let mut desk = office.hand(6, "Desk", "CLERK", 0, |certificate| certificate.role = Role::Office);
    let mut a = office.hand(1, "Yard phone", "WREN", 0, |_| {});
    let mut b = office.hand(2, "Second phone", "LARK", 0, |_| {});
    let clerk = desk.operator.clone();
    let sent = Draft::of(Statement::PaperExpected(paper()));
    desk.book.append(Subject::Site(SITE), vec![sent], &clerk).unwrap();
    office.sync(&mut desk);
    office.sync(&mut a);

    // The car was at another siding before, and another car stands on the track.
    let earlier = opens(&mut a, CAR, ELSEWHERE, "stub");
    let test = |test, due: &str| Statement::CarTestDate { test, due: due.into() };
    let capacity = Amount::read("33 700 gal", Unit::Gallon).0;
    a.says(
        earlier,
        vec![
            test(TestDate::TankQualification, "2031"),
            test(TestDate::ReliefDevice, "2031"),
            Statement::CarCapacity { capacity, insulation: None },
        ],
    );
    let beside = opens(&mut a, BESIDE, SITE, "track 3, spot 1");
    let on_the_track =
        [Protection::TrackSecured, Protection::HandBrake, Protection::Chocks, Protection::BlueSign];
    a.says(beside, on_the_track.map(protection).to_vec());
    let Statement::Reading(air) = reading(Purpose::Arrival, Measured::Temperature, "41", Unit::Fahrenheit)
    else {
        panic!("a reading")
    };
    a.says(
        beside,
        vec![
            protection(Protection::GasDetector),
            Statement::Weather { precipitation: Precipitation::Dry, wind: Coded::default() },
            Statement::Reading(Reading { place: Place::Air, instrument: String::new(), ..air }),
        ],
    );
    office.sync(&mut a);

    let visit = opens(&mut a, CAR, SITE, "track 3, spot 2");
    let known = a.book.gather().unwrap();
    let offered = known.paper_of(known.stay_of(visit).unwrap()).unwrap();
    let stencil =
        PhotoRef { sha256: Digest::of(picture), length: picture.len() as u64, media: "image/jpeg".into() };
    let placed = office.now();
    a.says(
        visit,
        vec![
            Statement::Photo { photo: stencil, of: PhotoOf::CarNumber, about: String::new() },
            Statement::Paper(offered.paper),
            Statement::Clock { event: ClockEvent::ActualPlacement, at: placed },
        ],
    );
    presses(&mut a, visit, "protections");
    presses(&mut a, visit, "stencil");
    office.sync(&mut a);
    office.sync(&mut b);

    // One hands the car over, the other takes it.
    a.says(visit, vec![Statement::Attendance { presence: Presence::Here }]);
    a.says(visit, vec![reading(Purpose::Arrival, Measured::Pressure, "118", Unit::PsiGauge)]);
    a.says(visit, vec![Statement::HandoverGiven { to: OperatorId("LARK".into()) }]);
    office.sync(&mut a);
    office.sync(&mut b);
    b.says(visit, vec![Statement::HandoverTaken { from: OperatorId("WREN".into()) }]);
    b.says(visit, vec![reading(Purpose::Transfer, Measured::Pressure, "112", Unit::PsiGauge)]);
    office.sync(&mut b);
    let held = Held([(Digest::of(picture), picture.to_vec())].into());
    TakenOver { office, held, visit }
}
