//! One car's stay as entries: what its operator writes, and when.

use farsiding_core::book::Draft;
use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::Statement;
use farsiding_core::entry::car_number::CarNumber;
use farsiding_core::entry::vocabulary::{
    ClockEvent, ClosureState, EmptySign, Fitting, Gate, Heard, Insulation, Measured, Part, Place,
    Precipitation, Presence, Protection, Purpose, SealEvent, SealKind, SealPlace, StepOutcome, TestDate,
    ValvePosition,
};
use farsiding_core::entry::{Paper, Reading, Seal};
use farsiding_core::units::{Amount, Unit};

use super::world::{Car, DIAMETER, Site, World};

const MINUTE: i64 = 60_000;

/// What is written together, so many minutes after the placement.
#[derive(Debug)]
pub struct Act {
    /// Minutes after the placement.
    pub after: i64,
    /// The drafts; the first act of a stay opens it and has none of its own before.
    pub drafts: Vec<Draft>,
    /// Whether it is the release.
    pub releases: bool,
}

fn amount(text: &str, unit: Unit) -> Amount {
    Amount::read(text, unit).0
}

fn reading(purpose: Purpose, measured: Measured, place: Place, text: &str, unit: Unit, by: &str) -> Draft {
    let (amount, instrument) = (amount(text, unit), by.to_owned());
    Draft::of(Statement::Reading(Reading { measured, place, purpose, amount, instrument }))
}

fn seal(event: SealEvent, number: &str, kind: SealKind) -> Draft {
    Draft::of(Statement::Seal(Seal {
        event,
        place: SealPlace::HousingPin,
        number: number.to_owned(),
        kind: Some(kind),
        intact: true,
        photo: None,
        note: "no camera in this demonstration".into(),
        because: String::new(),
    }))
}

fn check(what: &str) -> Draft {
    Draft::of(Statement::Check { what: what.into(), right: true, note: String::new() })
}

fn step(step: &str) -> Draft {
    Draft::of_step(step, StepOutcome::Done, "")
}

fn closed(fitting: Fitting) -> Vec<Draft> {
    let mut drafts = Vec::new();
    if fitting.has_valve() {
        drafts.push(Draft::of(Statement::Valve { fitting, position: ValvePosition::Shut }));
    }
    drafts.push(Draft::of(Statement::Closure { fitting, state: ClosureState::ToolTight }));
    drafts.push(Draft::of(Statement::Listen { fitting, heard: Heard::Quiet }));
    drafts
}

const LINES: [Fitting; 3] = [Fitting::LiquidA, Fitting::LiquidB, Fitting::Vapour];

/// The acts of a stay in order, its opening aside.
pub fn acts(world: &World, car: &Car, placed: UtcMillis) -> Vec<Act> {
    let site = &world.sites[car.site];
    let told = (car.stood * 60.0) as i64;
    let work = 95; // the operator comes an hour and a half after the placement
    let mut acts = vec![
        Act { after: work, drafts: received(world, car, placed), releases: false },
        Act { after: work + 45, drafts: gauged(site, car), releases: false },
        Act { after: work + 80, drafts: connected(site), releases: false },
    ];
    for at in 0..3 {
        let pressure = format!("{} psi", car.pressure + 12.0 - 3.0 * f64::from(at));
        let drafts = vec![
            reading(Purpose::Transfer, Measured::Pressure, Place::Car, &pressure, Unit::PsiGauge, ""),
            Draft::of(Statement::Attendance { presence: Presence::Here }),
        ];
        acts.push(Act { after: work + 105 + 30 * i64::from(at), drafts, releases: false });
    }
    acts.push(Act { after: work + 190, drafts: emptied(site, car), releases: false });
    acts.push(Act { after: work + 215, drafts: disconnected(site, car), releases: false });
    acts.push(Act { after: work + 250, drafts: closing(site, car), releases: false });
    let carrier =
        Statement::Clock { event: ClockEvent::CarrierTold, at: UtcMillis(placed.0 + told * MINUTE) };
    acts.push(Act { after: told, drafts: vec![Draft::of(carrier)], releases: true });
    acts
}

fn received(world: &World, car: &Car, placed: UtcMillis) -> Vec<Draft> {
    let shipper = &world.shippers[car.shipper];
    let unit = super::unit_of(shipper.by);
    let paper = Paper {
        number: paper_number(car),
        car: car.number.clone(),
        shipper: shipper.name.to_owned(),
        un_number: "UN1978".to_owned(),
        product: "Propane".to_owned(),
        billed: Some(amount(&format!("{} {unit}", car.billed), unit)),
        billed_by: Some(shipper.by),
        relative_density: Some(amount(&format!("{:.4}", car.density), Unit::One)),
        odorised: Some(true),
        winter_fill: Some(false),
        ..Paper::default()
    };
    let mut drafts = vec![
        Draft::of(Statement::CarNumberAgain { car: CarNumber(car.opened_as.clone()) }),
        Draft::of(Statement::Paper(paper)),
        Draft::of(Statement::Clock { event: ClockEvent::Notice, at: UtcMillis(placed.0 - 14 * 60 * MINUTE) }),
        Draft::of(Statement::Clock { event: ClockEvent::ActualPlacement, at: placed }),
        Draft::of(Statement::Weather { precipitation: Precipitation::Dry, wind: "light".into() }),
        check("hoses: service and test date"),
        check("outside of the car"),
        step("escape_way"),
    ];
    for what in Protection::ALL {
        drafts.push(Draft::of(Statement::Protection { what: *what, set: true }));
    }
    for test in TestDate::ALL {
        drafts.push(Draft::of(Statement::CarTestDate { test: *test, due: "2031".to_owned() }));
    }
    drafts.push(Draft::of(Statement::CarCapacity {
        capacity: amount(&format!("{} gal", car.shell), Unit::Gallon),
        insulation: Some(Insulation::None),
    }));
    drafts
        .push(Draft::of(Statement::CarDiameter { diameter: amount(&format!("{DIAMETER} in"), Unit::Inch) }));
    drafts.push(seal(SealEvent::Found, &car.found_seal, SealKind::Plastic));
    drafts.push(seal(SealEvent::Removed, &car.found_seal, SealKind::Plastic));
    drafts.push(Draft::of(Statement::CarFittings {
        fittings: Fitting::USUAL.to_vec(),
        gauging: None,
        vapour_end: None,
    }));
    drafts
}

/// The number of a car's paper.
pub fn paper_number(car: &Car) -> String {
    format!("INV-{}", car.number.replace(' ', "-"))
}

fn gauged(site: &Site, car: &Car) -> Vec<Draft> {
    let arrival = |measured, text: &str, unit, by: &str| {
        reading(Purpose::Arrival, measured, Place::Car, text, unit, by)
    };
    vec![
        arrival(Measured::Pressure, &format!("{} psi", car.pressure), Unit::PsiGauge, ""),
        arrival(
            Measured::Temperature,
            &format!("{:.1} °F", car.temperature),
            Unit::Fahrenheit,
            &site.thermometer.0,
        ),
        arrival(Measured::Outage, &format!("{:.2} in", car.outage), Unit::Inch, &site.rods[car.rod].0),
        check("odorant"),
        step("against_paper"),
        overridden(Gate::Unload, &["not_recorded_as_found.housing", "reading_missing.tank_level"]),
        Draft::of(Statement::FitToUnload {}),
    ]
}

/// A month records what is reconciled; what the gates ask for beside it is overridden, and the record says so.
fn overridden(gate: Gate, items: &[&str]) -> Draft {
    let items = items.iter().map(|item| (*item).to_owned()).collect();
    let reason = "an invented month records what is reconciled".into();
    Draft::of(Statement::Overridden { gate, items, seen: Vec::new(), reason })
}

fn connected(site: &Site) -> Vec<Draft> {
    let mut drafts = Vec::new();
    for (fitting, hose) in LINES.into_iter().zip(&site.hoses) {
        drafts.push(Draft::of(Statement::Closure { fitting, state: ClosureState::Open }));
        drafts.push(Draft::of(Statement::Line { fitting, connected: true, hose: hose.clone() }));
        drafts.push(Draft::of(Statement::Valve { fitting, position: ValvePosition::Open }));
        drafts.push(step(&format!("leak_check.{fitting}")));
    }
    drafts
}

fn emptied(site: &Site, car: &Car) -> Vec<Draft> {
    let sign = |sign, seen| Draft::of(Statement::EmptySign { sign, seen });
    let pressure = format!("{:.1} psi", car.last_pressure);
    let temperature = format!("{:.1} °F", car.last_temperature);
    vec![
        sign(EmptySign::RodAtBottom, true),
        sign(EmptySign::VapourAtLiquidValve, true),
        sign(EmptySign::FrostRing, false),
        sign(EmptySign::LiquidAtClosure, false),
        reading(
            Purpose::EmptyProof,
            Measured::Pressure,
            Place::Car,
            &pressure,
            Unit::PsiGauge,
            &site.low_gauge.0,
        ),
        reading(
            Purpose::EmptyProof,
            Measured::Temperature,
            Place::CarLow,
            &temperature,
            Unit::Fahrenheit,
            &site.thermometer.0,
        ),
        Draft::of(Statement::EmptyDecision {
            accepted: true,
            grounds: "rod at its bottom, vapour only, far below saturation".to_owned(),
        }),
        reading(
            Purpose::Final,
            Measured::Volume,
            Place::StorageTank,
            &format!("{} gal", car.metered),
            Unit::Gallon,
            &site.meter.0,
        ),
        Draft::of(Statement::Attendance { presence: Presence::Here }),
    ]
}

fn disconnected(site: &Site, car: &Car) -> Vec<Draft> {
    let mut drafts = Vec::new();
    for ((fitting, hose), effort) in LINES.into_iter().zip(&site.hoses).zip(car.efforts) {
        let amount = amount(&format!("{effort} ft·lbf"), Unit::FootPound);
        drafts.push(Draft::of(Statement::Valve { fitting, position: ValvePosition::Shut }));
        drafts.push(Draft::of(Statement::Effort { fitting, part: Part::Valve, amount }));
        drafts.push(Draft::of(Statement::Listen { fitting, heard: Heard::Quiet }));
        drafts.push(Draft::of(Statement::Line { fitting, connected: false, hose: hose.clone() }));
        drafts.push(Draft::of(Statement::Closure { fitting, state: ClosureState::ToolTight }));
        let engaged = Amount::read("5 turns", Unit::Turns).0;
        drafts.push(Draft::of(Statement::Threads { fitting, engaged }));
    }
    drafts
}

fn closing(site: &Site, car: &Car) -> Vec<Draft> {
    let last = |measured, text: String, unit, by: &str| {
        reading(Purpose::Final, measured, Place::Car, &text, unit, by)
    };
    let mut drafts = vec![
        last(Measured::Pressure, format!("{:.1} psi", car.last_pressure), Unit::PsiGauge, &site.low_gauge.0),
        last(
            Measured::Temperature,
            format!("{:.1} °F", car.last_temperature),
            Unit::Fahrenheit,
            &site.thermometer.0,
        ),
    ];
    for fitting in Fitting::USUAL {
        drafts.extend(closed(fitting));
    }
    drafts.push(check("no tools under the housing"));
    drafts.push(Draft::of(Statement::Cover {
        closed: true,
        pinned: true,
        bolts_in_place: 4,
        bolts_required: 4,
    }));
    drafts.push(seal(SealEvent::Applied, &car.seal, SealKind::Cable));
    let checks = ["plant_closed", "platform_up", "lines clear of the car", "residue paper made out"];
    for what in checks.into_iter().chain(["placards in place", "outside of the car, before it is offered"]) {
        drafts.push(check(what));
    }
    drafts.push(overridden(Gate::Release, &["photo_missing.car_number"]));
    for what in [Protection::Chocks, Protection::TrackSecured, Protection::BlueSign] {
        drafts.push(Draft::of(Statement::Protection { what, set: false }));
    }
    drafts
}
