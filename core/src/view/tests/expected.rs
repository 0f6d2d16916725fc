//! Tests of papers that the office sends to a site before the car is opened there: which stay takes which, what differs,
//! and that nothing is taken from them by itself.

use super::*;
use crate::entry::car_number::CarNumber;
use crate::entry::{LONGEST_PAPER_FIELD, Paper, PaperExpected, PaperTakenBack};
use crate::view::{MOST_WAITING, StayOfCar};
use proptest::prelude::*;

const DAY: i64 = 1440 * MINUTE;
const CAR: &str = "ZZQX 4417";

fn paper_expected(car: &str, billed: &str) -> PaperExpected {
    PaperExpected {
        car: CarNumber(car.into()),
        number: "INV-1".into(),
        shipper: "North (invented)".into(),
        un_number: "UN1075".into(),
        product: "Liquefied petroleum gas".into(),
        billed: Some(Amount::read(billed, Unit::Gallon).0),
        relative_density: None,
        odorised: Some(true),
        grade: None,
        billed_by: None,
        winter_fill: None,
        dated: "2026-11-23".into(),
        expected: String::new(),
        file: Digest::of(b"file"),
        file_name: "november (invented).csv".into(),
        line: 2,
    }
}

/// The office, writing into the site's document.
struct Desk(Phone);

impl Desk {
    fn new() -> Desk {
        Desk::with(11)
    }

    fn with(secret: u8) -> Desk {
        let mut phone = Phone::of("clerk", secret);
        phone.now = MORNING - DAY;
        Desk(phone)
    }

    fn says(&mut self, says: Statement) -> EntryId {
        let follows = Slots::fold(all(&self.0.knows)).follows_for(&says.slot(), self.0.key.public());
        self.says_after(says, follows, vec![])
    }

    fn says_after(&mut self, says: Statement, follows: Vec<EntryId>, replaces: Vec<EntryId>) -> EntryId {
        let phone = &mut self.0;
        phone.seq += 1;
        phone.now += MINUTE;
        let slot = match (&says, replaces.first()) {
            (Statement::Withdrawn {}, Some(gone)) => {
                phone.knows.iter().find(|entry| entry.id == *gone).unwrap().body.slot.clone()
            }
            _ => says.slot(),
        };
        let body = Body {
            about: Subject::Site(SITE),
            slot,
            says,
            follows,
            why: if replaces.is_empty() { String::new() } else { "a slip".to_owned() },
            replaces,
            by: OperatorId("clerk".into()),
            seq: phone.seq,
            prev: phone.prev,
            when: Stamp { at: UtcMillis(phone.now), offset_minutes: 0, ahead_millis: None },
            place: None,
            seen: None,
            hand: None,
            rests_on: None,
            done: None,
        };
        let entry = Entry::seal(body, &phone.key).unwrap();
        phone.prev = Some(entry.id);
        phone.knows.push(entry.clone());
        entry.id
    }

    fn sends(&mut self, car: &str, billed: &str) -> EntryId {
        self.says(Statement::PaperExpected(paper_expected(car, billed)))
    }

    fn takes_back(&mut self, car: &str) -> EntryId {
        let car = CarNumber(car.into());
        self.says(Statement::PaperTakenBack(PaperTakenBack { car, because: "for another site".into() }))
    }

    fn site(&self) -> SiteView {
        SiteView::fold(Some(SITE), all(&self.0.knows))
    }

    fn waiting(&self, stays: &[StayOfCar], now: i64) -> Vec<String> {
        let waiting = self.site().papers.waiting(stays, UtcMillis(now));
        waiting.into_iter().map(|paper| paper.car).collect()
    }
}

fn stay(car: &str, since: i64, until: Option<i64>) -> StayOfCar {
    StayOfCar { car: CarNumber(car.into()), since: UtcMillis(since), until: until.map(UtcMillis) }
}

fn view_at(phone: &Phone, desk: &Desk, others: &[Brief]) -> VisitView {
    let (procedures, site) = (Procedures::built_in().unwrap(), desk.site());
    let recorded: Vec<Recorded<'_>> = phone.knows.iter().map(Recorded::unsent).collect();
    let now = UtcMillis(phone.now + MINUTE);
    fold(&recorded, &Context { site: Some(&site), others, ..Context::at(now, &procedures) })
}

fn compared(desk: &Desk, entry: EntryId) -> Paper {
    desk.site().papers.paper(entry).unwrap().paper.clone()
}

#[test]
fn a_car_is_expected_until_it_comes_or_its_paper_is_taken_back_or_waited_too_long() {
    let mut desk = Desk::new();
    desk.sends(CAR, "30100 gal");
    desk.sends("ZZQX 5000", "29000 gal");
    let sent = desk.0.now;
    assert_eq!(desk.waiting(&[], sent), ["ZZQX 5000", "ZZQX 4417"], "the newest first");
    assert_eq!(desk.waiting(&[stay("zzqx 004417", sent + 1, None)], sent), ["ZZQX 5000"], "it came");
    let before = |until| stay(CAR, sent - 3 * DAY, until);
    assert_eq!(desk.waiting(&[before(None)], sent), ["ZZQX 5000"], "it stands here already");
    assert_eq!(desk.waiting(&[before(Some(sent + DAY))], sent).len(), 1, "it was still here then");
    assert_eq!(desk.waiting(&[before(Some(sent - DAY))], sent).len(), 2, "that was an earlier trip");
    assert_eq!(desk.waiting(&[], sent + 29 * DAY).len(), 2);
    assert!(desk.waiting(&[], sent + 31 * DAY).is_empty(), "it waited too long");
    desk.takes_back(CAR);
    assert_eq!(desk.waiting(&[], sent), ["ZZQX 5000"]);
    assert!(desk.site().disputed.is_empty());
}

#[test]
fn a_newer_paper_takes_the_place_of_the_one_before_and_an_expected_day_lets_it_wait_longer() {
    let mut desk = Desk::new();
    desk.sends(CAR, "30100 gal");
    let newer = PaperExpected { expected: "2026-12-20".into(), ..paper_expected(CAR, "30400 gal") };
    desk.says(Statement::PaperExpected(newer));
    let sent = desk.0.now;
    let waiting = desk.site().papers.waiting(&[], UtcMillis(sent + 50 * DAY));
    assert_eq!(waiting.len(), 1);
    assert_eq!(waiting[0].paper.billed.as_ref().unwrap().text, "30400 gal");
    let far = PaperExpected { expected: "2031-01-01".into(), ..paper_expected(CAR, "1 gal") };
    desk.says(Statement::PaperExpected(far));
    assert!(
        desk.waiting(&[], desk.0.now + 91 * DAY).is_empty(),
        "a slip in the day does not keep it for years"
    );
}

#[test]
fn two_desks_that_send_different_papers_are_not_taken_for_one() {
    let (mut one, mut other) = (Desk::with(11), Desk::with(12));
    one.sends(CAR, "30100 gal");
    other.sends(CAR, "20100 gal");
    one.0.meets(&mut other.0);
    let waiting = one.site().papers.waiting(&[], UtcMillis(MORNING));
    assert_eq!(waiting.len(), 1);
    assert!(waiting[0].disputed, "neither of them is confirmed by one key");
    assert_eq!(one.site(), other.site());
    one.sends(CAR, "30100 gal");
    assert!(
        one.site().papers.waiting(&[], UtcMillis(MORNING))[0].disputed,
        "saying it again does not end it"
    );
}

#[test]
fn a_withdrawn_entry_gives_way_to_the_paper_before() {
    let mut desk = Desk::new();
    desk.sends(CAR, "30100 gal");
    let wrong = desk.sends(CAR, "40100 gal");
    desk.says_after(Statement::Withdrawn {}, vec![], vec![wrong]);
    let waiting = desk.site().papers.waiting(&[], UtcMillis(MORNING));
    assert_eq!(waiting[0].paper.billed.as_ref().unwrap().text, "30100 gal");
}

#[test]
fn what_is_beyond_its_bounds_is_not_shown() {
    let mut desk = Desk::new();
    let long = "x".repeat(LONGEST_PAPER_FIELD + 1);
    desk.says(Statement::PaperExpected(PaperExpected { shipper: long, ..paper_expected(CAR, "1 gal") }));
    desk.sends("the green one", "30100 gal");
    assert!(desk.waiting(&[], MORNING).is_empty());
    for number in 0..MOST_WAITING + 5 {
        desk.sends(&format!("ZZQX {}", 10_000 + number), "30100 gal");
    }
    let waiting = desk.waiting(&[], desk.0.now);
    assert_eq!((waiting.len(), waiting[0].as_str()), (MOST_WAITING, "ZZQX 10204"), "the newest are shown");
}

#[test]
fn each_trip_of_a_car_takes_its_own_paper() {
    let mut desk = Desk::new();
    let first = desk.sends(CAR, "30100 gal");
    let sent = desk.0.now;
    let arrived = stay(CAR, sent + DAY, Some(sent + 2 * DAY));
    desk.0.now += 10 * DAY;
    let second = desk.sends(CAR, "29500 gal");
    let next = stay(CAR, desk.0.now + DAY, None);
    let papers = desk.site().papers;
    let of = |stay: &StayOfCar, others: &[StayOfCar]| papers.paper_of(stay, others).map(|paper| paper.entry);
    assert_eq!(of(&arrived, std::slice::from_ref(&next)), Some(first));
    assert_eq!(of(&next, std::slice::from_ref(&arrived)), Some(second));
    // A third stay without a paper of its own does not take the second one's.
    let third = stay(CAR, desk.0.now + 3 * DAY, None);
    let gone = StayOfCar { until: Some(UtcMillis(desk.0.now + 2 * DAY)), ..next };
    assert_eq!(of(&third, &[arrived, gone]), None);
}

#[test]
fn the_log_says_who_wrote_the_figures_and_that_a_person_compared_them() {
    let mut desk = Desk::new();
    let sent = desk.sends(CAR, "30100 gal");
    let mut phone = Phone::of("op-a", 1);
    phone.says(opened(Receiver::FixedTank));
    phone.says(Statement::Paper(compared(&desk, sent)));
    let view = view_at(&phone, &desk, &[]);
    let line = view.history.iter().find(|line| line.slot == "paper").unwrap();
    let said = format!("{:?}", line.sentence);
    assert!(said.contains("log-paper-compared") && said.contains("november (invented).csv"), "{said}");
    assert!(said.contains("clerk") && said.contains("30100 gal"), "{said}");
    assert!(finding(&view, "paper_not_as_sent").is_none());
    // Where the office's entry is not here, that is said as well.
    let said = format!("{:?}", phone.view().history.last().unwrap().sentence);
    assert!(said.contains("log-paper-compared-elsewhere"), "{said}");
}

#[test]
fn a_paper_in_hand_that_says_something_else_is_pointed_out_with_both_figures() {
    let mut desk = Desk::new();
    let sent = desk.sends(CAR, "30100 gal");
    let other = Some(Amount::read("30400 gal", Unit::Gallon).0);
    // Compared and changed in the form, and typed by somebody whose phone had no signal: both are found.
    for named in [Some(sent), None] {
        let mut phone = Phone::of("op-a", 1);
        phone.says(opened(Receiver::FixedTank));
        let said = Paper { billed: other.clone(), compared: named, ..compared(&desk, sent) };
        phone.says(Statement::Paper(said));
        let view = view_at(&phone, &desk, &[]);
        let found = format!("{:?}", finding(&view, "paper_not_as_sent").unwrap().message);
        assert!(found.contains("30400 gal") && found.contains("30100 gal"), "{found}");
    }
    // What only one of them says, and the same figure typed otherwise, is no difference.
    let mut phone = Phone::of("op-a", 1);
    phone.says(opened(Receiver::FixedTank));
    let billed = Some(Amount::read("30,100", Unit::Gallon).0);
    phone.says(Statement::Paper(Paper { billed, un_number: "un1075".into(), ..Paper::default() }));
    assert!(finding(&view_at(&phone, &desk, &[]), "paper_not_as_sent").is_none());
}

#[test]
fn two_phones_of_which_one_had_the_offices_paper_do_not_disagree_about_the_same_paper() {
    let mut desk = Desk::new();
    let sent = desk.sends(CAR, "30100 gal");
    let (mut one, mut other) = (Phone::of("op-a", 1), Phone::of("op-b", 2));
    one.says(opened(Receiver::FixedTank));
    one.meets(&mut other);
    let paper = compared(&desk, sent);
    one.says(Statement::Paper(paper.clone()));
    other.says(Statement::Paper(Paper { compared: None, ..paper.clone() }));
    one.meets(&mut other);
    assert!(one.view().disagreements.is_empty());
    other.says(Statement::Paper(Paper { compared: None, number: "INV-9".into(), ..paper.clone() }));
    let mut third = Phone::of("op-c", 3);
    third.knows.clone_from(&one.knows);
    third.says(Statement::Paper(Paper { number: "INV-8".into(), ..paper }));
    other.meets(&mut third);
    assert_eq!(other.view().disagreements.len(), 1, "other figures are two claims");
}

#[test]
fn a_number_one_character_away_from_an_expected_one_is_named_until_the_car_is_read_again() {
    let mut desk = Desk::new();
    desk.sends("ZZQX 4418", "30100 gal");
    let mut phone = Phone::of("op-a", 1);
    phone.says(opened(Receiver::FixedTank));
    let near = |phone: &Phone, others: &[Brief]| {
        finding(&view_at(phone, &desk, others), "expected_number_near").is_some()
    };
    assert!(near(&phone, &[]));
    assert!(view_at(&phone, &desk, &[]).header.paper.is_none(), "and nothing of it is taken");
    // The expected car stands here as well: then it is nobody's slip.
    let neighbour = Brief {
        visit: VisitId([4; 16]),
        joined: vec![],
        car: CarNumber("ZZQX 4418".into()),
        site: Some(SITE),
        from: UtcMillis(MORNING),
        until: None,
        not_joined: vec![],
    };
    assert!(!near(&phone, &[neighbour]));
    let mut again = phone.clone();
    again.says(Statement::CarNumberAgain { car: CarNumber("ZZQX 4417".into()) });
    assert!(!near(&again, &[]), "the number was read on the car a second time");
    phone.says(Statement::Paper(Paper { car: CAR.into(), ..Paper::default() }));
    assert!(!near(&phone, &[]), "the paper in hand names this car");
    let mut other = Desk::new();
    other.sends("ZZQX 4481", "30100 gal");
    let mut far = Phone::of("op-b", 2);
    far.says(opened(Receiver::FixedTank));
    assert!(
        finding(&view_at(&far, &other, &[]), "expected_number_near").is_none(),
        "two characters are no slip"
    );
}

proptest! {
    /// However the entries come in, and however often, the site expects the same cars.
    #[test]
    fn the_order_in_which_papers_come_in_does_not_matter(
        acts in prop::collection::vec((0..3usize, 0..3u8, any::<bool>(), any::<bool>()), 1..14),
        order in any::<u64>(),
    ) {
        let mut desks = [Desk::with(11), Desk::with(12)];
        for (car, act, which, meet) in acts {
            let car = format!("ZZQX {}", 4417 + car);
            let desk = &mut desks[usize::from(which)];
            match act {
                0 => desk.sends(&car, "30100 gal"),
                1 => desk.sends(&car, "29000 gal"),
                _ => desk.takes_back(&car),
            };
            if meet {
                let [one, other] = &mut desks;
                one.0.meets(&mut other.0);
            }
        }
        let [one, other] = &mut desks;
        one.0.meets(&mut other.0);
        let known = one.site();
        let mut shuffled = one.0.knows.clone();
        shuffled.sort_by_key(|entry| u64::from_be_bytes(entry.id.0[..8].try_into().unwrap()) ^ order);
        shuffled.extend(one.0.knows.iter().take(3).cloned());
        let site = SiteView::fold(Some(SITE), all(&shuffled));
        prop_assert_eq!(&site.papers, &known.papers);
        let now = UtcMillis(MORNING);
        prop_assert_eq!(site.papers.waiting(&[], now), known.papers.waiting(&[], now));
    }
}
