//! Tests of records that meet: joined stays, similar car numbers, differing clocks, chains with gaps.

use super::*;
use crate::entry::Role;
use crate::entry::car_number::CarNumber;
use std::collections::BTreeMap;

#[test]
fn a_clock_a_year_wrong_is_shown_as_claimed_and_corrected_when_known() {
    let year = 365 * 24 * 60 * MINUTE;
    let mut phone = Phone::of("op-a", 1);
    phone.now += year;
    phone.says(opened(Receiver::FixedTank));
    let early = phone.says(psi(Purpose::Arrival, Place::Car, "118", "PG-1"));
    let view = view_of(&phone.knows, UtcMillis(MORNING + 10 * MINUTE));
    assert!(finding(&view, "from_the_future").is_some());

    // The phone contacts the server for the first time and learns its clock difference.
    phone.ahead = Some(year);
    phone.says(quiet(Fitting::LiquidA));
    let view = view_of(&phone.knows, UtcMillis(MORNING + 10 * MINUTE));
    assert!(finding(&view, "from_the_future").is_none());
    assert!(finding(&view, "clock_off").unwrap().message.en().contains("365 d"));
    let said = view.history.iter().map(|l| &l.said).find(|s| s.entry == early).unwrap();
    assert!(said.ahead_from_neighbour);
    assert!(said.shown.starts_with("2026-11-24"), "{}", said.shown);
    assert!(said.device_time.starts_with("2027-11-24 08"), "{}", said.device_time);
    assert_eq!(said.claimed, UtcMillis(MORNING + year + 2 * MINUTE + 1000));
}

#[test]
fn a_wrong_clock_does_not_put_an_effect_before_its_cause() {
    let (mut a, mut b) = (Phone::of("op-a", 1), Phone::of("op-b", 2));
    b.now -= 365 * 24 * 60 * MINUTE;
    let shut = a.says(valve(Fitting::LiquidA, ValvePosition::Shut));
    a.meets(&mut b);
    let open = b.says(valve(Fitting::LiquidA, ValvePosition::Open));
    let slots = Slots::fold(all(&b.knows));
    assert!(slots.item(shut).unwrap().place < slots.item(open).unwrap().place);
    assert_eq!(slots.latest("fitting/liquid_a/valve").unwrap().entry.id, open);
}

#[test]
fn a_clock_set_back_during_the_visit_is_pointed_out() {
    let mut phone = Phone::of("op-a", 1);
    phone.says(opened(Receiver::FixedTank));
    phone.now -= 30 * MINUTE;
    phone.says(quiet(Fitting::LiquidA));
    assert!(finding(&phone.view(), "clock_set_back").is_some());
}

#[test]
fn two_records_of_one_stay_are_one_view_once_joined() {
    let (mut a, mut b) = (Phone::of("op-a", 1), Phone::of("op-b", 2));
    b.visit = VisitId([8; 16]);
    a.says(opened(Receiver::FixedTank));
    a.says(psi(Purpose::Arrival, Place::Car, "118", "PG-1"));
    b.says(opened(Receiver::FixedTank));
    b.says(psi(Purpose::Final, Place::Car, "38", "LG-1"));

    let procedures = Procedures::built_in().unwrap();
    let other = b.view().brief.unwrap();
    let offers = |phone: &Phone| {
        let others = [other.clone()];
        let recorded: Vec<Recorded<'_>> = phone.knows.iter().map(Recorded::unsent).collect();
        let ctx = Context { others: &others, ..Context::at(UtcMillis(phone.now), &procedures) };
        fold(&recorded, &ctx).offers
    };
    assert_eq!(offers(&a)[0].likeness, Likeness::SameCar);

    let mut declined = a.clone();
    declined.says(Statement::NotJoined { other: b.visit });
    assert!(offers(&declined).is_empty(), "compared and found to be another stay");

    a.says(Statement::Joined { other: b.visit });
    assert!(offers(&a).is_empty());
    a.meets(&mut b);
    let view = a.view();
    assert_eq!(view.header.visits, [VISIT, VisitId([8; 16])]);
    assert_eq!(view.readings.len(), 2);
    assert!(view.disagreements.is_empty(), "both opened the same car at the same site");
    assert_eq!(view.header.opened.unwrap().also, 1);
}

#[test]
fn joined_records_of_different_cars_disagree_on_which_car_it_is() {
    let (mut a, mut b) = (Phone::of("op-a", 1), Phone::of("op-b", 2));
    b.visit = VisitId([8; 16]);
    a.says(opened_as("ZZQX 4417", Receiver::FixedTank));
    b.says(opened_as("ZZQX 4471", Receiver::FixedTank));
    a.meets(&mut b);
    assert!(codes(&a.view()).contains(&"disagreement.opened"));
}

#[test]
fn near_misses_are_offered_at_one_site_in_the_same_days_only() {
    let brief = |visit: u8, car: &str, site: u8, day: i64| Brief {
        visit: VisitId([visit; 16]),
        joined: vec![VisitId([visit; 16])],
        car: CarNumber(car.into()),
        site: Some(SiteId([site; 16])),
        from: UtcMillis(MORNING + day * 1440 * MINUTE),
        until: Some(UtcMillis(MORNING + (day + 1) * 1440 * MINUTE)),
        not_joined: vec![],
    };
    let this = brief(1, "ZZQX 4417", 1, 0);
    let others = [
        brief(2, "ZZQX 4471", 1, 1),
        brief(3, "ZZQX 4471", 2, 1),
        brief(4, "ZZQX 4471", 1, 9),
        brief(5, "ZZQX 9999", 1, 0),
        brief(6, "zzqx 4417", 1, 0),
        brief(1, "ZZQX 4417", 1, 0),
    ];
    let found: Vec<(u8, Likeness)> =
        offers(&this, &others).iter().map(|o| (o.other.0[0], o.likeness)).collect();
    assert_eq!(found, [(2, Likeness::NearNumber), (6, Likeness::SameCar)]);
}

#[test]
fn a_car_that_was_not_released_is_still_there_however_long_nobody_wrote() {
    let procedures = Procedures::built_in().unwrap();
    let (mut standing, mut fresh) = (Phone::of("op-a", 1), Phone::of("op-b", 2));
    fresh.visit = VisitId([8; 16]);
    standing.says(opened(Receiver::FixedTank));
    fresh.now += 9 * 1440 * MINUTE;
    fresh.says(opened(Receiver::FixedTank));
    let offers_beside = |other: &Brief| {
        let others = [other.clone()];
        let recorded: Vec<Recorded<'_>> = fresh.knows.iter().map(Recorded::unsent).collect();
        let ctx = Context { others: &others, ..Context::at(UtcMillis(fresh.now), &procedures) };
        fold(&recorded, &ctx).offers
    };
    assert_eq!(offers_beside(&standing.view().brief.unwrap())[0].likeness, Likeness::SameCar);

    standing.says(Statement::Released { as_residue: true });
    assert!(offers_beside(&standing.view().brief.unwrap()).is_empty(), "it left nine days before");
}

#[test]
fn two_phones_with_the_same_entries_show_the_same_whatever_their_clocks_say() {
    let (mut a, mut b) = (Phone::of("op-a", 1), Phone::of("op-b", 2));
    a.says(opened(Receiver::FixedTank));
    b.says(psi(Purpose::Arrival, Place::Car, "118", "PG-1"));
    a.says(closure(Fitting::LiquidA, ClosureState::HandTight));
    b.says(closure(Fitting::LiquidA, ClosureState::ToolTight));
    a.meets(&mut b);
    b.now += 47 * MINUTE; // seen later, and by a clock that runs ahead
    let seen = |phone: &Phone| serde_json::to_value(phone.view()).unwrap();
    assert_eq!(seen(&a), seen(&b));
    assert_eq!(VisitRow::of(&a.view()), VisitRow::of(&b.view()));
}

#[test]
fn pairs_of_visits_gather_into_stays() {
    let v = |n: u8| VisitId([n; 16]);
    let groups = stays(&[v(1), v(2), v(3), v(4)], &[(v(3), v(1)), (v(4), v(3)), (v(9), v(1))]);
    assert_eq!(groups, [vec![v(1), v(3), v(4)], vec![v(2)]]);
}

#[test]
fn a_missing_a_doubled_and_a_broken_link_are_told_apart() {
    let mut phone = Phone::of("op-a", 1);
    for fitting in [Fitting::LiquidA, Fitting::LiquidB, Fitting::Vapour] {
        phone.says(quiet(fitting));
    }
    let all = phone.knows.clone();
    let device = all[0].device;
    assert!(Chains::of(&all).gaps().is_empty());

    let missing = [all[0].clone(), all[2].clone()];
    assert_eq!(Chains::of(&missing).gaps(), [ChainGap::Missing { device, from: 2, to: 2 }]);

    // The phone is restored from a backup made after its first entry, and continues.
    let mut restored = phone.clone();
    restored.knows.truncate(1);
    (restored.seq, restored.prev) = (1, Some(all[0].id));
    restored.says(closure(Fitting::LiquidA, ClosureState::Open));
    let both: Vec<Entry> = all.iter().chain(&restored.knows[1..]).cloned().collect();
    assert!(matches!(Chains::of(&both).gaps()[..], [ChainGap::Doubled { seq: 2, .. }]));

    let mut liar = phone.clone();
    liar.knows.clear();
    (liar.seq, liar.prev) = (3, Some(EntryId([1; 32])));
    liar.says(quiet(Fitting::SampleLine));
    let broken: Vec<Entry> = all.iter().chain(&liar.knows).cloned().collect();
    assert!(matches!(Chains::of(&broken).gaps()[..], [ChainGap::Broken { seq: 4, .. }]));
}

#[test]
fn entries_of_other_visits_are_no_gap_and_really_missing_ones_are() {
    let mut phone = Phone::of("op-a", 1);
    phone.says(opened(Receiver::FixedTank));
    phone.visit = VisitId([8; 16]);
    phone.says(quiet(Fitting::LiquidB));
    phone.visit = VISIT;
    phone.says(quiet(Fitting::LiquidA));
    let here: Vec<Entry> =
        phone.knows.iter().filter(|e| e.body.about == Subject::Visit(VISIT)).cloned().collect();
    let procedures = Procedures::built_in().unwrap();
    let gaps = |chains: &Chains| {
        let recorded: Vec<Recorded<'_>> = here.iter().map(Recorded::unsent).collect();
        let ctx = Context { chains: Some(chains), ..Context::at(UtcMillis(phone.now), &procedures) };
        fold(&recorded, &ctx).chain_gaps
    };
    assert!(view_of(&here, UtcMillis(phone.now)).chain_gaps.is_empty());
    assert!(gaps(&Chains::of(&phone.knows)).is_empty());
    assert_eq!(gaps(&Chains::of(&here)).len(), 1);
}

#[test]
fn certificates_names_and_receipts_stand_beside_each_entry() {
    let (mut a, mut b) = (Phone::of("op-a", 1), Phone::of("op-b", 2));
    a.says(opened(Receiver::FixedTank));
    b.says(quiet(Fitting::LiquidA));
    b.says(quiet(Fitting::LiquidB));
    b.says(quiet(Fitting::Vapour));
    a.meets(&mut b);
    let revoked_at = UtcMillis(MORNING + 60 * MINUTE);
    let devices = BTreeMap::from([
        (a.key.public(), DeviceFacts { name: "north phone".into(), role: Role::Operator, revoked_at: None }),
        (
            b.key.public(),
            DeviceFacts { name: "lost phone".into(), role: Role::Operator, revoked_at: Some(revoked_at) },
        ),
    ]);
    let person = crate::entry::site_facts::Operator {
        operator: OperatorId("op-a".into()),
        name: "A. Example".into(),
        named: None,
        trained_on: String::new(),
        active: true,
    };
    let person = crate::view::Person {
        operator: person.operator.clone(),
        name: person.name.clone(),
        name_is: crate::view::NameStanding::Open,
        trained_on: String::new(),
        active: true,
        said: person,
    };
    let people = BTreeMap::from([(OperatorId("op-a".into()), person)]);
    let procedures = Procedures::built_in().unwrap();
    let ctx = Context { devices: &devices, people: &people, ..Context::at(UtcMillis(a.now), &procedures) };
    // One entry reached the server before the revocation; another one is known from the lost phone alone.
    let recorded: Vec<Recorded<'_>> = a
        .knows
        .iter()
        .map(|entry| {
            let received = entry.body.says == quiet(Fitting::LiquidA);
            let late = entry.body.says == quiet(Fitting::Vapour);
            let received_at = match (received, late) {
                (true, _) => Some(UtcMillis(MORNING + 5 * MINUTE)),
                (_, true) => Some(UtcMillis(MORNING + 61 * MINUTE)),
                _ => None,
            };
            Recorded { entry, receipted: received, received_at }
        })
        .collect();
    let view = fold(&recorded, &ctx);
    let of = |sentence: &str| {
        view.history.iter().find(|line| line.sentence.en().contains(sentence)).unwrap().said.clone()
    };
    assert_eq!(of("opened").name, "A. Example");
    assert_eq!(of("opened").device_name, "north phone");
    assert_eq!(of("opened").standing, Standing::Certified);
    assert_eq!(of("liquid valve A").standing, Standing::BeforeRevocation);
    assert_eq!(of("liquid valve B").standing, Standing::NotHeldBeforeRevocation);
    assert_eq!(of("vapor valve").standing, Standing::NotHeldBeforeRevocation);
    assert_eq!((view.entries, view.unreceipted), (4, 3));
    assert!(finding(&view, "device_standing").unwrap().message.en().contains("lost phone"));
}
