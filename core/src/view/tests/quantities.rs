//! Tests of formulas on records: which readings are used, and what is reported if one is missing.

use super::*;
use crate::calc::empty_proof::Outcome;
use crate::entry::Paper;
use crate::entry::site_facts::{SiteProfile, Tank};
use crate::entry::vocabulary::{BilledBy, Insulation};

fn read(measured: Measured, place: Place, purpose: Purpose, text: &str, unit: Unit) -> Statement {
    let amount = Amount::read(text, unit).0;
    Statement::Reading(Reading { measured, place, purpose, amount, instrument: String::new() })
}

fn site(elevation_ft: f64) -> SiteView {
    let mut office = Phone::of("office", 7);
    office.says(Statement::Site(SiteProfile {
        name: "Example siding".into(),
        zone: "Etc/GMT+6".into(),
        elevation: Amount::of(elevation_ft, Unit::Foot),
        attendance_gap_minutes: 30,
        local_rules: String::new(),
        organisation: String::new(),
        address: String::new(),
    }));
    SiteView::fold(Some(SITE), all(&office.knows))
}

fn view_at(phone: &Phone, site: &SiteView) -> VisitView {
    let procedures = Procedures::built_in().unwrap();
    let recorded: Vec<Recorded<'_>> = phone.knows.iter().map(Recorded::unsent).collect();
    let now = UtcMillis(phone.now + MINUTE);
    fold(&recorded, &Context { site: Some(site), ..Context::at(now, &procedures) })
}

fn gauged(un_number: &str) -> Phone {
    gauged_for(Paper {
        un_number: un_number.into(),
        billed: Some(Amount::of(31_000.0, Unit::Gallon)),
        relative_density: Some(Amount::of(0.51, Unit::One)),
        ..Paper::default()
    })
}

fn gauged_for(paper: Paper) -> Phone {
    let mut phone = Phone::of("op-a", 1);
    phone.says(opened(Receiver::FixedTank));
    phone.says(Statement::Paper(paper));
    phone.says(Statement::CarCapacity { capacity: Amount::of(33_687.1, Unit::Gallon), insulation: None });
    phone.says(Statement::CarDiameter { diameter: Amount::of(119.0, Unit::Inch) });
    phone.says(psi(Purpose::Arrival, Place::Car, "125", "PG-1"));
    phone.says(read(Measured::Temperature, Place::Car, Purpose::Arrival, "80", Unit::Fahrenheit));
    phone.says(read(Measured::Outage, Place::Car, Purpose::Arrival, "12", Unit::Inch));
    phone
}

fn quantity<'v>(view: &'v VisitView, name: &str) -> &'v Quantity {
    view.computed.iter().find(|q| q.name == name).unwrap_or_else(|| panic!("no {name}"))
}

/// With D = 119 in, L = 660 in and an outage of 12 in the liquid is 31 958.5 gal (independent calculation).
/// CTL at 80 °F and 0.51 is 0.96709 (public results sheet), so the liquid is 30 906.7 gal at 60 °F.
#[test]
fn what_is_gauged_becomes_net_gallons_with_their_plus_minus() {
    let view = view_at(&gauged("UN1978"), &site(900.0));
    let gross = quantity(&view, "gross_volume").value.as_ref().unwrap();
    assert!((gross.value - 31_958.5).abs() < 0.6, "{gross:?}");
    let net = quantity(&view, "net_volume");
    let (low, high) = (net.value.as_ref().unwrap(), net.up_to.as_ref().unwrap());
    // The grade allows much propylene, which expands more. At the other extreme of the grade table 24E is
    // valid.
    assert!(low.value > 30_600.0 && low.value < 30_906.7, "{low:?}");
    assert!((high.value - 30_906.7).abs() < 1.0, "{high:?}");
    assert!(low.plus_minus.unwrap() > 10.0);
    assert!(net.product.en().contains("composition presumed"));
    assert!(quantity(&view, "against_paper").value.is_some());
    let pounds = quantity(&view, "weight_in_vacuum").value.as_ref().unwrap();
    assert_eq!(pounds.unit, Unit::Pound);
}

#[test]
fn a_missing_input_is_named_and_nothing_is_made_up() {
    let phone = gauged("UN1978");
    // Without the site there is no elevation, so gauge pressures cannot be converted to absolute ones; net
    // gallons need none.
    let view = phone.view();
    let missing = quantity(&view, "vapor_volume").missing.as_ref().unwrap();
    assert!(missing.en().contains("elevation"), "{missing:?}");
    assert!(quantity(&view, "net_volume").value.is_some());
    let view = view_at(&gauged(""), &site(900.0));
    assert!(quantity(&view, "vapor_volume").missing.as_ref().unwrap().en().contains("UN number"));
    let net = quantity(&view, "net_volume").value.as_ref().unwrap();
    assert!((net.value - 30_906.7).abs() < 1.0, "temperature and density are enough: {net:?}");
    let residue = quantity(&view, "residue").missing.as_ref().unwrap();
    assert!(residue.en().contains("not recorded (final pressure (car))"), "{residue:?}");
}

fn shown(difference: &Quantity) -> f64 {
    assert!(difference.up_to.is_none(), "{difference:?}");
    difference.value.as_ref().unwrap_or_else(|| panic!("{difference:?}")).value
}

/// UN1075 names no grade. With a propane density on the paper it is propane, so that residue and arrival
/// pressure have results: 125 psig at 80 °F is within what HD-5 propane saturates at.
#[test]
fn un1075_is_calculated_as_the_propane_that_its_paper_says() {
    let mut phone = gauged("UN1075");
    phone.says(psi(Purpose::Final, Place::Car, "38", "LG-1"));
    phone.says(read(Measured::Temperature, Place::Car, Purpose::Final, "60", Unit::Fahrenheit));
    phone.says(psi(Purpose::EmptyProof, Place::Car, "38", "LG-1"));
    phone.says(read(Measured::Temperature, Place::CarLow, Purpose::EmptyProof, "60", Unit::Fahrenheit));
    phone.says(read(Measured::Temperature, Place::Air, Purpose::Arrival, "75", Unit::Fahrenheit));
    phone.says(Statement::EmptySign { sign: EmptySign::RodAtBottom, seen: true });
    let view = view_at(&phone, &site(900.0));
    let residue = quantity(&view, "residue");
    let (low, high) = (residue.value.as_ref().unwrap(), residue.up_to.as_ref().unwrap());
    assert!(low.value > 400.0 && high.value < 600.0, "{low:?} {high:?}");
    let codes: Vec<&str> = view.advice.iter().map(|f| f.code.as_str()).collect();
    assert!(codes.contains(&"pressure_fits") && codes.contains(&"grade_presumed"), "{codes:?}");
    assert_eq!(view.empty.weighed.as_ref().unwrap().outcome, Outcome::NoLiquidIndicated);
}

/// 30 906.7 gal of liquid (see above) against 31 000 gal billed by outage table: short by 93.3 gal. The vapor
/// above the liquid is on neither side.
#[test]
fn a_bill_by_table_or_meter_is_compared_with_the_liquid_alone() {
    for billed_by in [None, Some(BilledBy::Table), Some(BilledBy::Meter)] {
        let phone = gauged_for(Paper {
            un_number: "UN1075".into(),
            billed: Some(Amount::of(31_000.0, Unit::Gallon)),
            relative_density: Some(Amount::of(0.51, Unit::One)),
            billed_by,
            ..Paper::default()
        });
        let view = view_at(&phone, &site(900.0));
        assert!((shown(quantity(&view, "against_paper")) + 93.3).abs() < 1.0);
        assert!(quantity(&view, "vapor_volume").value.as_ref().unwrap().value > 50.0);
    }
}

/// 30 906.7 gal × 0.51 × 8.337 19 lb/gal = 131 414 lb of liquid. A scale weighs the vapor too, and the car
/// before loading with the heel in it.
#[test]
fn a_bill_by_scale_is_a_difference_of_weights_without_the_heel() {
    let billed_by = |billed_by| {
        gauged_for(Paper {
            un_number: "UN1075".into(),
            billed: Some(Amount::of(131_000.0, Unit::Pound)),
            relative_density: Some(Amount::of(0.51, Unit::One)),
            billed_by: Some(billed_by),
            ..Paper::default()
        })
    };
    let here = site(900.0);
    let liquid = shown(quantity(&view_at(&billed_by(BilledBy::Table), &here), "against_paper"));
    assert!((liquid - 414.0).abs() < 5.0, "{liquid}");
    let mut phone = billed_by(BilledBy::Scale);
    let before = view_at(&phone, &here);
    let scale = quantity(&before, "against_paper");
    assert!(scale.value.as_ref().unwrap().value > liquid + 200.0, "the vapor is weighed: {scale:?}");
    assert!(scale.findings().iter().any(|finding| finding.code == "heel_unknown"));
    phone.says(psi(Purpose::Final, Place::Car, "38", "LG-1"));
    phone.says(read(Measured::Temperature, Place::Car, Purpose::Final, "60", Unit::Fahrenheit));
    let after = view_at(&phone, &here);
    let less = quantity(&after, "against_paper");
    let heel = scale.value.as_ref().unwrap().value - less.value.as_ref().unwrap().value;
    // 33 687 gal of propane vapor at 38 psig and 60 °F: about 0.47 lb/ft³ × 4 503 ft³ (equation of state).
    assert!((1_900.0..2_400.0).contains(&heel), "{heel}");
    assert!(!less.findings().iter().any(|finding| finding.code == "heel_unknown"));
}

/// 31 958.5 gal at 80 °F and 0.51 are too much at 115 °F and enough at 105 °F.
#[test]
fn a_full_car_is_an_alarm_only_when_its_insulation_is_known() {
    let here = site(900.0);
    let mut phone = gauged_for(Paper {
        un_number: "UN1075".into(),
        relative_density: Some(Amount::of(0.51, Unit::One)),
        winter_fill: Some(false),
        ..Paper::default()
    });
    phone.says(read(Measured::Outage, Place::Car, Purpose::Arrival, "14", Unit::Inch));
    let codes = |phone: &Phone| -> Vec<String> {
        view_at(phone, &here).advice.iter().map(|finding| finding.code.clone()).collect()
    };
    let unknown = codes(&phone);
    let says = |codes: &[String], code: &str| codes.iter().any(|found| found == code);
    assert!(says(&unknown, "fill_ask_insulation") && !says(&unknown, "overfilled"), "{unknown:?}");
    let capacity = Amount::of(33_687.1, Unit::Gallon);
    phone.says(Statement::CarCapacity { capacity: capacity.clone(), insulation: Some(Insulation::None) });
    assert!(says(&codes(&phone), "overfilled"));
    phone.says(Statement::CarCapacity { capacity, insulation: Some(Insulation::Insulated) });
    assert!(says(&codes(&phone), "not_overfilled"));
}

#[test]
fn a_finding_speaks_the_unit_that_was_typed() {
    let mut phone = gauged("UN1075");
    phone.says(read(Measured::Pressure, Place::Car, Purpose::Arrival, "862", Unit::KilopascalGauge));
    phone.says(read(Measured::Temperature, Place::Car, Purpose::Arrival, "26.7", Unit::Celsius));
    let view = view_at(&phone, &site(900.0));
    let said = view.advice.iter().find(|finding| finding.code == "pressure_fits").unwrap().message.en();
    assert!(said.contains("862.0 kPa") && said.contains("26.7 °C") && !said.contains("psi"), "{said}");
}

#[test]
fn a_disputed_reading_is_not_computed_with() {
    let (mut a, mut b) = (gauged("UN1978"), Phone::of("op-b", 2));
    b.says(read(Measured::Outage, Place::Car, Purpose::Arrival, "21", Unit::Inch));
    a.meets(&mut b);
    let view = view_at(&a, &site(900.0));
    let missing = quantity(&view, "gross_volume").missing.as_ref().unwrap();
    assert!(missing.en().contains("entries differ"), "{missing:?}");
}

#[test]
fn the_owners_outage_table_governs() {
    let mut phone = gauged("UN1978");
    let rows = vec![(0.0, 33_000.0), (6.0, 32_000.0), (12.0, 31_000.0), (18.0, 29_500.0), (24.0, 28_000.0)];
    phone.says(Statement::OutageTable { name: "owner's".into(), rows, liquid: true });
    let view = view_at(&phone, &site(900.0));
    let gross = quantity(&view, "gross_volume").value.as_ref().unwrap();
    assert!((gross.value - 31_000.0).abs() < 0.01);
}

#[test]
fn what_is_left_is_a_band_for_a_grade_and_refused_above_saturation() {
    let mut phone = gauged("UN1978");
    phone.says(psi(Purpose::Final, Place::Car, "38", "LG-1"));
    phone.says(read(Measured::Temperature, Place::Car, Purpose::Final, "60", Unit::Fahrenheit));
    let view = view_at(&phone, &site(900.0));
    let residue = quantity(&view, "residue");
    let (low, high) = (residue.value.as_ref().unwrap(), residue.up_to.as_ref().unwrap());
    assert!(low.value > 400.0 && high.value < 700.0, "{low:?} {high:?}");

    phone.says(psi(Purpose::Final, Place::Car, "150", "PG-1"));
    let view = view_at(&phone, &site(900.0));
    let refused = quantity(&view, "residue").missing.as_ref().unwrap();
    assert!(refused.en().contains("liquid is present"), "{refused:?}");
}

#[test]
fn an_arrival_pressure_that_does_not_fit_the_product_is_an_item_before_unloading() {
    use crate::procedure::BlockerKind;
    let doubts = |phone: &Phone| {
        let view = view_at(phone, &site(900.0));
        let all = view.unloading.blockers.into_iter().filter(|blocker| blocker.kind == BlockerKind::Doubt);
        all.map(|blocker| blocker.missing.en()).collect::<Vec<_>>()
    };
    let mut phone = gauged("UN1978");
    assert_eq!(doubts(&phone), Vec::<String>::new());
    phone.says(psi(Purpose::Arrival, Place::Car, "400", "PG-1"));
    let [doubt] = &doubts(&phone)[..] else { panic!("{:?}", doubts(&phone)) };
    assert!(doubt.ends_with("Find the cause first."), "{doubt}");
}

#[test]
fn a_decision_against_the_evidence_is_an_alarm() {
    let mut phone = gauged("UN1978");
    phone.says(read(Measured::Temperature, Place::Air, Purpose::Arrival, "70", Unit::Fahrenheit));
    phone.says(Statement::EmptySign { sign: EmptySign::VapourAtLiquidValve, seen: false });
    phone.says(empty_accepted());
    let view = view_at(&phone, &site(900.0));
    assert_eq!(view.empty.weighed.as_ref().unwrap().outcome, Outcome::LiquidIndicated);
    assert!(finding(&view, "empty_against_evidence").is_some());
    assert!(show(&view).contains("A person decides and signs"));
}

#[test]
fn a_second_recovery_does_not_hide_the_rise_in_the_hold_after_it() {
    let mut phone = gauged("UN1978");
    phone.says(read(Measured::Temperature, Place::Air, Purpose::Arrival, "70", Unit::Fahrenheit));
    for text in ["50", "51"] {
        phone.says(psi(Purpose::HoldTest, Place::Car, text, "LG-1"));
    }
    phone.says(psi(Purpose::Recovery, Place::Car, "25", "LG-1"));
    for text in ["25", "33"] {
        phone.says(psi(Purpose::HoldTest, Place::Car, text, "LG-1"));
    }
    let view = view_at(&phone, &site(900.0));
    let hold = view.empty.weighed.as_ref().unwrap().pieces.iter().find(|piece| piece.name == "hold_test");
    let rise = hold.unwrap().computed.as_ref().unwrap();
    assert!((rise.value - 8.0).abs() < 1e-9, "from 25 to 33 psi, not from the first hold: {rise:?}");
}

/// Readings entered one after the other after climbing down span the time between the readings themselves.
#[test]
fn a_hold_is_judged_by_when_its_readings_were_taken() {
    let hold = |stated: bool| {
        let mut phone = gauged("UN1978");
        phone.says(read(Measured::Temperature, Place::Air, Purpose::Arrival, "70", Unit::Fahrenheit));
        phone.now += 120 * MINUTE;
        for (minute, text) in [(95, "25"), (50, "25")] {
            phone.done = stated.then_some(UtcMillis(MORNING + minute * MINUTE));
            phone.says(psi(Purpose::HoldTest, Place::Car, text, "LG-1"));
        }
        let view = view_at(&phone, &site(900.0));
        let series = view.series.iter().find(|s| s.purpose == Purpose::HoldTest).unwrap();
        let at: Vec<i64> = series.points.iter().map(|p| p.said.done_at().0).collect();
        let piece = view.empty.weighed.unwrap().pieces.into_iter().find(|piece| piece.name == "hold_test");
        (at[1] - at[0], piece)
    };
    let (stated, entered) = (hold(true), hold(false));
    assert_eq!((stated.0, entered.0), (45 * MINUTE, MINUTE), "in the order in which they were taken");
    assert!(stated.1.is_some());
    assert_ne!(stated.1, entered.1, "the hold is judged by its true length");
}

#[test]
fn freezing_rain_brings_advice_with_its_reason() {
    let mut phone = gauged("UN1978");
    phone.says(read(Measured::Temperature, Place::Air, Purpose::Arrival, "28", Unit::Fahrenheit));
    phone.says(Statement::Weather { precipitation: Precipitation::FreezingRain, wind: "N".into() });
    let view = view_at(&phone, &site(900.0));
    let codes: Vec<&str> = view.advice.iter().map(|f| f.code.as_str()).collect();
    assert!(codes.contains(&"oil_male_threads") && codes.contains(&"ice_underfoot"), "{codes:?}");
}

#[test]
fn a_list_does_without_formulas() {
    let phone = gauged("UN1978");
    let procedures = Procedures::built_in().unwrap();
    let recorded: Vec<Recorded<'_>> = phone.knows.iter().map(Recorded::unsent).collect();
    let ctx = Context { compute: false, ..Context::at(UtcMillis(phone.now), &procedures) };
    assert!(fold(&recorded, &ctx).computed.is_empty());
}

#[test]
fn truck_loads_add_up_in_gallons_and_an_unreadable_one_leaves_no_sum() {
    let mut phone = Phone::of("op-a", 1);
    phone.says(opened(Receiver::Truck));
    let load = |text: &str, unit| Statement::TruckLoad(TruckLoad::of("T-1", Amount::read(text, unit).0));
    phone.says(load("9,200", Unit::Gallon));
    phone.says(load("34069", Unit::Litre));
    let view = phone.view();
    assert!((view.trucks.total_gal.unwrap() - 18_200.0).abs() < 0.1, "{:?}", view.trucks.total_gal);
    phone.says(load("full", Unit::Gallon));
    assert_eq!(phone.view().trucks.total_gal, None);
}

#[test]
fn remembered_results_are_the_ones_that_would_be_made_again() {
    let procedures = Procedures::built_in().unwrap();
    let (formulas, here) = (Formulas::default(), site(900.0));
    let both = |phone: &Phone, site: &SiteView| {
        let recorded: Vec<Recorded<'_>> = phone.knows.iter().map(Recorded::unsent).collect();
        let fresh = Context { site: Some(site), ..Context::at(UtcMillis(phone.now), &procedures) };
        let remembering = Context { formulas: Some(&formulas), ..fresh };
        let expected = fold(&recorded, &fresh);
        for _ in 0..2 {
            assert_eq!(fold(&recorded, &remembering), expected);
        }
        expected
    };
    let mut phone = gauged("UN1978");
    let first = both(&phone, &here);
    phone.says(Statement::Remark { text: "nothing formulas look at".into() });
    assert_eq!(both(&phone, &here).computed, first.computed);
    // Each of these changes the input, so the cached result must not be used.
    phone.says(read(Measured::Outage, Place::Car, Purpose::Arrival, "13", Unit::Inch));
    let second = both(&phone, &here);
    assert_ne!(second.computed, first.computed);
    phone.says(Statement::CarCapacity { capacity: Amount::of(33_000.0, Unit::Gallon), insulation: None });
    let third = both(&phone, &here);
    assert_ne!(third.computed, second.computed);
    assert_ne!(both(&phone, &site(5_000.0)).computed, third.computed);
    phone.says(Statement::EmptySign { sign: EmptySign::RodAtBottom, seen: false });
    assert!(both(&phone, &here).empty.weighed.is_some());
}

/// Two cars with equal readings at different times of day are weighed once, because only the intervals
/// between readings matter.
#[test]
fn what_reads_alike_at_another_hour_is_computed_once() {
    let procedures = Procedures::built_in().unwrap();
    let (formulas, here) = (Formulas::default(), site(900.0));
    let weighed = |begins: i64, between: i64| {
        let mut phone = gauged("UN1978");
        phone.now += begins;
        phone.says(read(Measured::Pressure, Place::Car, Purpose::EmptyProof, "40", Unit::PsiGauge));
        phone.says(read(Measured::Pressure, Place::Car, Purpose::HoldTest, "20", Unit::PsiGauge));
        phone.now += between;
        phone.says(read(Measured::Pressure, Place::Car, Purpose::HoldTest, "22", Unit::PsiGauge));
        phone.says(Statement::EmptyDecision { accepted: true, grounds: "it held".into() });
        let recorded: Vec<Recorded<'_>> = phone.knows.iter().map(Recorded::unsent).collect();
        let fresh =
            Context { site: Some(&here), compute: false, ..Context::at(UtcMillis(phone.now), &procedures) };
        let view = fold(&recorded, &Context { formulas: Some(&formulas), ..fresh });
        assert_eq!(view, fold(&recorded, &fresh));
        assert!(view.empty.weighed.is_some(), "{:?}", view.empty);
        formulas.remembered()
    };
    assert_eq!(weighed(0, 600_000), 1);
    assert_eq!(weighed(61_234, 600_000), 1, "the same, a minute later");
    assert_eq!(weighed(0, 1_200_000), 2, "another time between");
}

fn site_with_tanks(tanks: &[(&str, f64)]) -> SiteView {
    let mut office = Phone::of("office", 7);
    for (name, gallons) in tanks {
        office.says(Statement::Tank(Tank {
            name: (*name).into(),
            water_capacity: Amount::of(*gallons, Unit::Gallon),
            underground: false,
        }));
    }
    SiteView {
        elevation: Some(Amount::of(900.0, Unit::Foot)),
        ..SiteView::fold(Some(SITE), all(&office.knows))
    }
}

/// The tank has 30 000 gal above ground, and the relative density is 0.51. WAC 296-307-41037 Table U-4 (row
/// 0.504–0.510) permits a filling density of 45 %, so 30 000 × 0.45 ÷ 0.51 = 26 471 gal at 60 °F may be in
/// it.
#[test]
fn what_does_not_fit_the_tank_is_said_before_anything_is_opened() {
    let mut phone = gauged("UN1978");
    assert!(phone.view().computed.iter().all(|q| q.name != "receiver_room"), "nobody read the level yet");
    phone.says(read(Measured::Level, Place::StorageTank, Purpose::Arrival, "20", Unit::Percent));
    let view = view_at(&phone, &site_with_tanks(&[("T-1", 30_000.0)]));
    let room = quantity(&view, "receiver_room").value.as_ref().unwrap();
    // The tank holds 6 000 gal at about 80 °F, which are 5 800 gal at 60 °F.
    assert!((room.value - 20_670.0).abs() < 30.0, "{room:?}");
    assert!(room.plus_minus.unwrap() > 500.0, "two per cent of the level alone are 600 gal: {room:?}");
    let told = view.advice.iter().find(|f| f.code == "does_not_fit").unwrap();
    assert!(told.message.en().starts_with("Receiving tank"), "{told:?}");
    let large = view_at(&phone, &site_with_tanks(&[("T-1", 90_000.0)]));
    assert!(large.advice.iter().all(|f| f.code != "does_not_fit"), "{:?}", large.advice);
    let two = view_at(&phone, &site_with_tanks(&[("T-1", 30_000.0), ("T-2", 30_000.0)]));
    assert!(
        quantity(&two, "receiver_room")
            .missing
            .as_ref()
            .unwrap()
            .en()
            .contains("the receiving one is not recorded")
    );
}
