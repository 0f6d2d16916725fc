//! Large stays: a packet of one either holds, or is not handed out and the reason is given.

use farsiding_core::book::OpenVisit;
use farsiding_core::entry::Statement;
use farsiding_core::entry::vocabulary::Receiver;
use farsiding_core::ids::SiteId;
use farsiding_core::procedure::Procedures;
use farsiding_packet::{PacketError, PacketSource, of_stay};
use farsiding_words::Language;

use super::stay::{Held, Office};

/// Returns the packet of a stay with this many remarks of 30 000 characters.
fn packet_of(remarks: usize) -> Result<Vec<u8>, PacketError> {
    let mut office = Office::new();
    let mut hand = office.hand(1, "Yard phone", "WREN", 0, |_| {});
    let wanted = OpenVisit {
        car: "ZZQX 4417".into(),
        site: SiteId([9; 16]),
        receiver: Receiver::FixedTank,
        procedure: Procedures::built_in().unwrap().default_procedure().unwrap().digest,
        spot: String::new(),
    };
    let operator = hand.operator.clone();
    let visit = hand.book.open_visit(wanted, &operator).unwrap();
    for number in 0..remarks {
        hand.says(visit, vec![Statement::Remark { text: format!("{number:06} ").repeat(30_000 / 7) }]);
        if number % 40 == 39 {
            office.sync(&mut hand);
        }
    }
    office.sync(&mut hand);
    let source = PacketSource {
        store: &office.store,
        key: &office.key,
        photographs: &Held(Default::default()),
        language: Language::ENGLISH,
    };
    of_stay(&source, &[visit])
}

#[test]
fn a_megabyte_of_entries_goes_into_a_packet_that_holds() {
    let file = packet_of(34).unwrap();
    assert!(file.starts_with(b"%PDF-"));
}

#[test]
fn more_than_a_packet_can_carry_is_not_handed_out_and_the_reason_is_said() {
    let why = packet_of(290).unwrap_err();
    assert!(matches!(why, PacketError::TooLarge { name: "entries.cbor", .. }), "{why}");
    assert!(why.to_string().contains("8388608 is the most"), "{why}");
}
