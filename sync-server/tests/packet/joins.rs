//! Records are joined, found not to be one stay, and joins are taken back. Whatever people honestly state,
//! the packet of each record holds.

use farsiding_core::book::{Draft, OpenVisit};
use farsiding_core::entry::Statement;
use farsiding_core::entry::vocabulary::{Measured, Place, Purpose, Receiver};
use farsiding_core::ids::{SiteId, Subject, VisitId};
use farsiding_core::procedure::Procedures;
use farsiding_core::units::{Amount, Unit};
use farsiding_packet::{PacketSource, check_file, of_stay, stay_of};
use farsiding_words::Language;

use super::stay::{Hand, Held, Office};

fn open(hand: &mut Hand, procedures: &Procedures) -> VisitId {
    let procedure = procedures.default_procedure().unwrap().digest;
    let wanted = OpenVisit {
        car: "ZZQX 4417".into(),
        site: SiteId([9; 16]),
        receiver: Receiver::FixedTank,
        procedure,
        spot: "Spot 1".into(),
    };
    let operator = hand.operator.clone();
    hand.book.open_visit(wanted, &operator).unwrap()
}

fn pressure(text: &str) -> Statement {
    Statement::Reading(farsiding_core::entry::Reading {
        measured: Measured::Pressure,
        place: Place::Car,
        purpose: Purpose::Arrival,
        amount: Amount::read(text, Unit::PsiGauge).0,
        instrument: "G-1".into(),
    })
}

/// Returns how many visits the packet of each record holds. Each packet is made, checked by the export
/// itself, and checked again.
fn packets(office: &Office, visits: [VisitId; 2]) -> [usize; 2] {
    let held = Held(Default::default());
    visits.map(|visit| {
        let key = office.key.public();
        let source = PacketSource {
            store: &office.store,
            key: &office.key,
            photographs: &held,
            language: Language::ENGLISH,
        };
        let stay = stay_of(&office.store, &key, visit).unwrap();
        let file = of_stay(&source, &stay).unwrap();
        let report = check_file(&file, &key, None).unwrap();
        assert!(report.all_holds(), "{report:?}");
        stay.len()
    })
}

#[test]
fn the_packets_of_records_joined_and_found_not_to_be_one_hold_at_every_step() {
    let procedures = Procedures::built_in().unwrap();
    let mut office = Office::new();
    let mut a = office.hand(1, "Yard phone", "WREN", 0, |_| {});
    let mut b = office.hand(2, "Second phone", "LARK", 3, |_| {});
    let (first, second) = (open(&mut a, &procedures), open(&mut b, &procedures));
    a.says(first, vec![pressure("118")]);
    b.says(second, vec![pressure("121")]);
    office.sync(&mut a);
    office.sync(&mut b);
    office.sync(&mut a);
    assert_eq!(packets(&office, [first, second]), [1, 1]);

    a.says(first, vec![Statement::Joined { other: second }]);
    office.sync(&mut a);
    office.sync(&mut b);
    assert_eq!(packets(&office, [first, second]), [2, 2], "joined");

    // Somebody who did not know of the join states that they are not one stay.
    b.says(second, vec![Statement::NotJoined { other: first }]);
    office.sync(&mut b);
    office.sync(&mut a);
    packets(&office, [first, second]);

    // The author takes back the join, and then the other author takes back the opposite statement.
    for (hand, says_so) in [(&mut a, true), (&mut b, false)] {
        let gathered = hand.book.gather().unwrap();
        let visit = if says_so { first } else { second };
        let view = gathered.view(visit, &procedures).unwrap();
        let said = gathered
            .entries_of(&view.header.visits)
            .find(|(_, entry)| match entry.body.says {
                Statement::Joined { .. } => says_so,
                Statement::NotJoined { .. } => !says_so,
                _ => false,
            })
            .map(|(_, entry)| (entry.body.about, entry.id))
            .unwrap();
        let draft = Draft::withdrawing(&view, said.1, "it was another car").unwrap();
        let Subject::Visit(home) = said.0 else { unreachable!("a join stands in a visit") };
        let operator = hand.operator.clone();
        hand.book.append(Subject::Visit(home), vec![draft], &operator).unwrap();
        office.sync(hand);
        packets(&office, [first, second]);
    }
    assert_eq!(packets(&office, [first, second]), [1, 1], "nobody says any more that they are one");
}
