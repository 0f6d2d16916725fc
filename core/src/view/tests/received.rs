//! Tanks before and after, trucks with their tickets, hoses drawn down, the compressor, the plan of a recovery, and
//! inspections.

use super::*;
use crate::entry::site_facts::{SiteProfile, Tank};
use crate::entry::{Inspection, RecoveryPlanned, TankGauged};

fn site(tanks: &[&str]) -> SiteView {
    let mut office = Phone::of("office", 7);
    office.says(Statement::Site(SiteProfile {
        name: "Example siding".into(),
        zone: "Etc/GMT+6".into(),
        elevation: Amount::of(900.0, Unit::Foot),
        attendance_gap_minutes: 30,
        local_rules: String::new(),
        organisation: String::new(),
        address: String::new(),
    }));
    for name in tanks {
        office.says(Statement::Tank(Tank {
            name: (*name).into(),
            water_capacity: Amount::of(60_000.0, Unit::Gallon),
            underground: false,
        }));
    }
    SiteView::fold(Some(SITE), all(&office.knows))
}

fn view_at(phone: &Phone, site: &SiteView) -> VisitView {
    let procedures = Procedures::built_in().unwrap();
    let recorded: Vec<Recorded<'_>> = phone.knows.iter().map(Recorded::unsent).collect();
    let now = UtcMillis(phone.now + MINUTE);
    fold(&recorded, &Context { site: Some(site), ..Context::at(now, &procedures) })
}

fn told(view: &VisitView, code: &str) -> Vec<String> {
    view.findings.iter().filter(|finding| finding.code == code).map(|finding| finding.message.en()).collect()
}

fn psi_at(place: Place, purpose: Purpose, psi: f64) -> Statement {
    Statement::Reading(Reading {
        measured: Measured::Pressure,
        place,
        purpose,
        amount: Amount::of(psi, Unit::PsiGauge),
        instrument: String::new(),
    })
}

fn gauged_tank(tank: &str, level: f64) -> Statement {
    Statement::TankGauged(TankGauged {
        tank: tank.into(),
        moment: TankMoment::Before,
        level: Some(Amount::of(level, Unit::Percent)),
        pressure: Some(Amount::of(96.0, Unit::PsiGauge)),
        temperature: Some(Amount::of(58.0, Unit::Fahrenheit)),
        meter: None,
    })
}

fn gauged_car() -> Phone {
    let mut phone = Phone::of("op-a", 1);
    phone.says(opened(Receiver::FixedTank));
    phone.says(Statement::Paper(Paper {
        un_number: "UN1978".into(),
        relative_density: Some(Amount::of(0.51, Unit::One)),
        grade: Some(ProductGrade::Hd5Propane),
        ..Paper::default()
    }));
    phone.says(Statement::CarCapacity { capacity: Amount::of(33_687.1, Unit::Gallon), insulation: None });
    phone.says(Statement::CarDiameter { diameter: Amount::of(119.0, Unit::Inch) });
    phone.says(psi(Purpose::Arrival, Place::Car, "125", "PG-1"));
    for (measured, amount) in [
        (Measured::Temperature, Amount::of(80.0, Unit::Fahrenheit)),
        (Measured::Outage, Amount::of(12.0, Unit::Inch)),
    ] {
        let (place, purpose) = (Place::Car, Purpose::Arrival);
        phone.says(Statement::Reading(Reading {
            measured,
            place,
            purpose,
            amount,
            instrument: String::new(),
        }));
    }
    phone
}

/// With two tanks nobody knows which one is meant, until it is named; then its room is computed from its level.
#[test]
fn the_tank_that_receives_is_the_one_that_was_named() {
    let two = site(&["T-1", "T-2"]);
    let mut phone = gauged_car();
    let room = |phone: &Phone, site: &SiteView| {
        view_at(phone, site).computed.into_iter().find(|one| one.name == "receiver_room")
    };
    phone.says(gauged_tank("t-2", 20.0));
    let named = room(&phone, &two).unwrap().value.unwrap().value;
    assert!(named > 10_000.0, "{named}");
    phone.says(gauged_tank("T-2", 75.0));
    assert!(room(&phone, &two).unwrap().value.unwrap().value < named - 20_000.0, "the last reading counts");
    phone.says(gauged_tank("T-9", 20.0));
    let view = view_at(&phone, &two);
    assert_eq!(told(&view, "tank_unknown"), ["Tank T-9 is not one of the site’s tanks."]);
    assert!(room(&phone, &two).unwrap().value.is_none(), "no room is computed for a tank nobody knows");
    let lines: Vec<String> = view.received().map(|line| line.sentence.en()).collect();
    assert_eq!(lines[0], "Tank t-2, before, level 20 %, pressure 96 psig, temperature 58 °F.");
    assert_eq!(lines.len(), 3);
}

/// A level that a broken device wrote, below nothing, makes no room.
#[test]
fn a_level_below_nothing_makes_no_room() {
    let mut phone = gauged_car();
    phone.says(gauged_tank("T-1", -40.0));
    let view = view_at(&phone, &site(&["T-1"]));
    let room = view.computed.iter().find(|one| one.name == "receiver_room").unwrap();
    assert!(room.value.is_none(), "{room:?}");
}

#[test]
fn a_hose_that_is_not_drawn_down_is_pointed_out_while_it_is_on() {
    let mut phone = whole_job(Receiver::FixedTank);
    let left = |fitting, psi| Statement::HosePressure { fitting, amount: Amount::of(psi, Unit::PsiGauge) };
    phone.says(line(Fitting::LiquidA, true));
    phone.says(left(Fitting::LiquidA, 62.0));
    let view = phone.view();
    let hose = told(&view, "hose_pressure");
    assert!(
        hose[0].starts_with("The hose at liquid valve A still holds 62 psig after drawing down"),
        "{hose:?}"
    );
    assert_eq!(hose.len(), 1);
    phone.says(left(Fitting::LiquidA, 12.0));
    assert_eq!(told(&phone.view(), "hose_pressure"), Vec::<String>::new());
    phone.says(left(Fitting::LiquidB, 62.0));
    assert_eq!(told(&phone.view(), "hose_pressure"), Vec::<String>::new(), "no hose is on there");
    assert_eq!(view.received().count(), 1);
}

#[test]
fn a_compressor_whose_suction_is_above_its_discharge_is_pointed_out() {
    let mut phone = whole_job(Receiver::FixedTank);
    phone.says(psi_at(Place::CompressorSuction, Purpose::Recovery, 120.0));
    phone.says(psi_at(Place::CompressorDischarge, Purpose::Transfer, 90.0));
    assert_eq!(told(&phone.view(), "suction_above_discharge"), Vec::<String>::new(), "not of one time");
    phone.says(psi_at(Place::CompressorDischarge, Purpose::Recovery, 90.0));
    assert_eq!(told(&phone.view(), "suction_above_discharge").len(), 1);
    phone.says(psi_at(Place::CompressorSuction, Purpose::Recovery, 40.0));
    assert_eq!(told(&phone.view(), "suction_above_discharge"), Vec::<String>::new());
}

fn plan(target: f64, priced: bool) -> Statement {
    Statement::RecoveryPlanned(RecoveryPlanned {
        target: Amount::of(target, Unit::PsiGauge),
        swept: Some(Amount::of(30.0, Unit::CubicFootPerMinute)),
        efficiency: Some(Amount::of(75.0, Unit::Percent)),
        price: priced.then(|| Amount::of(1.0, Unit::Money)),
        cost: priced.then(|| Amount::of(60.0, Unit::MoneyPerHour)),
    })
}

/// The same as `calc::recovery` makes of the same figures: t = (V/Sη) ln(ρ1/ρ2).
#[test]
fn a_planned_pressure_has_its_time_and_the_economic_stop_beside_it() {
    let site = site(&["T-1"]);
    let mut phone = gauged_car();
    let value = |phone: &Phone, name: &str| {
        view_at(phone, &site).computed.into_iter().find(|one| one.name == name).map(|one| one.value)
    };
    assert!(value(&phone, "recovery_time").is_none(), "nothing is computed that nobody planned");
    phone.says(psi_at(Place::Car, Purpose::Recovery, 100.0));
    phone.says(plan(30.0, false));
    let minutes = value(&phone, "recovery_time").unwrap().unwrap();
    // Ideal gas: 4503 ft³ / (30 × 0.75) × ln(114.2 / 44.2) = 190 min; the real vapor is denser at the start.
    assert!(minutes.unit == Unit::Minute && (190.0..235.0).contains(&minutes.value), "{minutes:?}");
    assert!(value(&phone, "economic_stop").is_none(), "without a price and a cost there is none");
    phone.says(plan(30.0, true));
    let stop = value(&phone, "economic_stop").unwrap().unwrap();
    assert!(stop.unit == Unit::PsiGauge && (0.0..100.0).contains(&stop.value), "{stop:?}");
    phone.says(plan(110.0, false));
    assert!(value(&phone, "recovery_time").unwrap().is_none(), "the plan lies above the pressure read last");
}

#[test]
fn what_an_inspector_found_is_pointed_out_and_what_was_in_order_is_not() {
    let mut phone = whole_job(Receiver::FixedTank);
    let inspected = |found, finding: &str| {
        Statement::Inspection(Inspection {
            by: "Ash of the invented agency".into(),
            looked_at: "placards".into(),
            found: Some(found),
            finding: finding.into(),
            copy_left: Some(true),
        })
    };
    phone.says(inspected(false, ""));
    assert_eq!(told(&phone.view(), "inspection_finding"), Vec::<String>::new());
    phone.says(inspected(true, "one placard is torn"));
    let view = phone.view();
    assert_eq!(
        told(&view, "inspection_finding"),
        ["Inspection by Ash of the invented agency found: one placard is torn"]
    );
    let lines: Vec<String> = view.received().map(|line| line.sentence.en()).collect();
    assert_eq!(
        lines,
        [
            "Inspected by Ash of the invented agency: placards. Nothing found. A copy was left.",
            "Inspected by Ash of the invented agency: placards. Something to put right. one placard is torn. A copy was left.",
        ]
    );
}

#[test]
fn a_truck_load_reads_with_its_ticket_and_as_before_without_one() {
    let mut phone = whole_job(Receiver::Truck);
    let bare = TruckLoad::of("T-1", Amount::of(9_200.0, Unit::Gallon));
    phone.says(Statement::TruckLoad(bare.clone()));
    phone.says(Statement::TruckLoad(TruckLoad {
        ticket: "5501".into(),
        driver: "Birch".into(),
        level: Some(Amount::of(84.0, Unit::Percent)),
        temperature: Some(Amount::of(54.0, Unit::Fahrenheit)),
        seal: "L-20".into(),
        ..bare
    }));
    let view = phone.view();
    let lines: Vec<String> = view.received().map(|line| line.sentence.en()).collect();
    assert!(lines.contains(&"Truck T-1 loaded with 9200 gal.".to_owned()), "{lines:?}");
    let whole = "Truck T-1 loaded with 9200 gal, ticket 5501, driver Birch, level 84 %, temperature 54 °F, seal L-20.";
    assert!(lines.contains(&whole.to_owned()), "{lines:?}");
}
