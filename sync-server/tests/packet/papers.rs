//! A packet of a stay whose paper the office sent names the file and the line that its figures came from, holds the
//! office's signed entry, and nothing of the papers of other cars.

use farsiding_core::book::{Draft, OpenVisit};
use farsiding_core::entry::car_number::CarNumber;
use farsiding_core::entry::vocabulary::Receiver;
use farsiding_core::entry::{Entry, LONGEST_PAPER_FIELD, PaperExpected, PaperTakenBack, Role, Statement};
use farsiding_core::evidence::packet::{ENTRIES, Entries, PAGES};
use farsiding_core::ids::{Digest, SiteId, Subject};
use farsiding_core::procedure::Procedures;
use farsiding_core::units::{Amount, Unit};
use farsiding_packet::{PacketSource, check_file, of_stay, stay_of, take_apart};
use farsiding_words::Language;

use super::stay::{Held, Office};

const SITE: SiteId = SiteId([9; 16]);

fn paper(car: &str, line: u32) -> PaperExpected {
    PaperExpected {
        car: CarNumber(car.into()),
        number: format!("B-{line}"),
        shipper: "North (invented)".into(),
        un_number: "UN1075".into(),
        product: "Liquefied petroleum gas".into(),
        billed: Some(Amount::read("30,120 gal", Unit::Gallon).0),
        relative_density: None,
        odorised: Some(true),
        grade: None,
        billed_by: None,
        winter_fill: None,
        dated: String::new(),
        expected: String::new(),
        file: Digest::of(b"file"),
        file_name: "november (invented).csv".into(),
        line,
    }
}

#[test]
fn a_packet_says_where_the_papers_figures_came_from_and_nothing_of_other_cars() {
    let mut office = Office::new();
    let mut desk = office.hand(1, "Desk", "CLERK", 0, |certificate| certificate.role = Role::Office);
    let mut phone = office.hand(2, "Yard phone", "WREN", 0, |_| {});
    let clerk = desk.operator.clone();
    let drafts = [paper("ZZQX 4417", 2), paper("ZZQX 9901", 3)].map(Statement::PaperExpected).map(Draft::of);
    let sent = desk.book.append(Subject::Site(SITE), drafts.to_vec(), &clerk).unwrap();
    office.sync(&mut desk);
    office.sync(&mut phone);

    let procedure = Procedures::built_in().unwrap().default_procedure().unwrap().digest;
    let opening = OpenVisit {
        car: "ZZQX 4417".into(),
        site: SITE,
        receiver: Receiver::FixedTank,
        procedure,
        spot: String::new(),
    };
    let wren = phone.operator.clone();
    let visit = phone.book.open_visit(opening, &wren).unwrap();
    let known = phone.book.gather().unwrap();
    let offered = known.paper_of(known.stay_of(visit).unwrap()).unwrap();
    assert_eq!(offered.entry, sent[0]);
    assert_eq!(known.site_now(SITE).unwrap().expected.len(), 1, "the other car is expected still");
    phone.says(visit, vec![Statement::Paper(offered.paper)]);
    office.sync(&mut phone);

    let (key, held) = (office.key.public(), Held(Default::default()));
    for language in Language::all() {
        let source = PacketSource { store: &office.store, key: &office.key, photographs: &held, language };
        let file = of_stay(&source, &stay_of(&office.store, &key, visit).unwrap()).unwrap();
        let report = check_file(&file, &key, None).unwrap();
        assert!(report.all_holds(), "{report:?}");
        let files = take_apart(&file).unwrap().files;
        let entries = Entries::from_bytes(&files.records[ENTRIES]).unwrap();
        let of_papers: Vec<_> = entries
            .site
            .iter()
            .map(|bytes| Entry::open(bytes).unwrap())
            .filter(|entry| matches!(entry.body.says, Statement::PaperExpected(_)))
            .map(|entry| entry.id)
            .collect();
        assert_eq!(of_papers, [sent[0]], "the other car's paper is other people's business");
        let pages = String::from_utf8(files.records[PAGES].clone()).unwrap();
        let plain: String = pages.chars().filter(|c| !c.is_whitespace()).collect();
        assert!(
            plain.matches("november(invented).csv").count() >= 2,
            "on the first page and in the event log"
        );
        assert!(!plain.contains("9901"));
    }
}

/// What a phone could not show is not signed in the first place, nor is a paper taken back without a reason.
#[test]
fn a_paper_beyond_its_bounds_and_a_taking_back_without_a_reason_are_refused_when_they_are_made() {
    let mut office = Office::new();
    let mut desk = office.hand(1, "Desk", "CLERK", 0, |certificate| certificate.role = Role::Office);
    let mut phone = office.hand(2, "Yard phone", "WREN", 0, |_| {});
    let long = "x".repeat(LONGEST_PAPER_FIELD + 1);
    let good = paper("ZZQX 4417", 2);
    let back = |because: &str| PaperTakenBack { car: good.car.clone(), because: because.into() };
    let refused = [
        Statement::PaperExpected(PaperExpected { product: long, ..good.clone() }),
        Statement::PaperExpected(PaperExpected { car: CarNumber("the green one".into()), ..good.clone() }),
        Statement::PaperTakenBack(back("  ")),
    ];
    let says = |hand: &mut super::stay::Hand, says: Statement| {
        let operator = hand.operator.clone();
        hand.book.append(Subject::Site(SITE), vec![Draft::of(says)], &operator).is_ok()
    };
    for statement in refused {
        assert!(!says(&mut desk, statement.clone()), "{statement:?}");
    }
    assert!(!says(&mut phone, Statement::PaperExpected(good.clone())), "a phone is no office");
    assert!(says(&mut desk, Statement::PaperExpected(good.clone())));
    assert!(says(&mut desk, Statement::PaperTakenBack(back("for another site"))));
    assert!(desk.book.gather().unwrap().site_now(SITE).unwrap().expected.is_empty());
}
