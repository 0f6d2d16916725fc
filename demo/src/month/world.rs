//! The invented world behind a month: what is truly in each car, and how every instrument errs.
//!
//! Truth is drawn first, readings come of it through instruments that err within their own limits; a planted
//! fault is an instrument or a hand that does not. All names are invented and say so.

use farsiding_core::calc::fluid::{Composition, Fluid};
use farsiding_core::calc::product::Product;
use farsiding_core::calc::quantity::{Expansion, Load, PROPYLENE_LIMIT, quantity};
use farsiding_core::calc::residue;
use farsiding_core::calc::tank::{Heads, outage_volume};
use farsiding_core::calc::uncertainty::Measured;
use farsiding_core::entry::vocabulary::BilledBy;
use farsiding_core::units::Unit;

use super::Fault;
use super::dice::Dice;
use crate::DemoError;

/// The weight of a gallon of water at 60 °F in vacuum, lb (ASTM D1250).
const POUNDS_A_GALLON: f64 = 8.337_19;

/// Cars of a site in the month.
pub const CARS_A_SITE: usize = 60;
/// Inside diameter of every shell, in.
pub const DIAMETER: f64 = 119.0;

/// A site.
#[derive(Debug)]
pub struct Site {
    /// Its name.
    pub name: &'static str,
    /// Its time zone.
    pub zone: &'static str,
    /// Minutes its clocks show off UTC.
    pub offset_minutes: i16,
    /// Its elevation, ft.
    pub elevation: f64,
    /// First letters of its seal numbers.
    pub seals: &'static str,
    /// Its gauge rods with what each truly reads off, in.
    pub rods: Vec<(String, f64)>,
    /// Its thermometer and what it reads off, °F.
    pub thermometer: (String, f64),
    /// Its low-range gauge and what it reads off, psi.
    pub low_gauge: (String, f64),
    /// Its meter and what it is off, as a part.
    pub meter: (String, f64),
    /// Its hoses.
    pub hoses: [String; 3],
    /// The operators of its two phones.
    pub operators: [&'static str; 2],
}

/// A shipper and what its measure is off, as a part.
#[derive(Debug)]
pub struct Shipper {
    /// Its name.
    pub name: &'static str,
    /// What its measure is off.
    pub off: f64,
    /// How it measures what it bills.
    pub by: BilledBy,
}

/// What is written of a car, and what is true of it.
#[derive(Debug, Clone)]
pub struct Car {
    /// Its true number.
    pub number: String,
    /// The number its visit is opened under.
    pub opened_as: String,
    /// Which site.
    pub site: usize,
    /// Which phone.
    pub phone: usize,
    /// Which shipper.
    pub shipper: usize,
    /// Which rod.
    pub rod: usize,
    /// Minutes from the month's beginning to its placement.
    pub placed: i64,
    /// Hours it stood until the carrier was told.
    pub stood: f64,
    /// Shell, gal.
    pub shell: f64,
    /// Outage as read, in.
    pub outage: f64,
    /// Temperature as read, °F.
    pub temperature: f64,
    /// Relative density on the paper.
    pub density: f64,
    /// Liquid in it on arrival, net gal.
    pub liquid: f64,
    /// Billed, in gal, or in lb where the shipper bills by scale.
    pub billed: f64,
    /// Pressure on arrival, psi.
    pub pressure: f64,
    /// Taken in by the meter, gal.
    pub metered: f64,
    /// Final pressure as read, psi.
    pub last_pressure: f64,
    /// Final temperature as read, °F.
    pub last_temperature: f64,
    /// Seal put on.
    pub seal: String,
    /// Seal found.
    pub found_seal: String,
    /// Closing efforts of the two liquid valves and the vapour valve, ft·lbf.
    pub efforts: [f64; 3],
}

/// Everything.
#[derive(Debug)]
pub struct World {
    /// Sites.
    pub sites: Vec<Site>,
    /// Shippers.
    pub shippers: Vec<Shipper>,
    /// Cars in the order in which they are placed.
    pub cars: Vec<Car>,
}

fn wrong(error: impl ToString) -> DemoError {
    DemoError::Scenario { place: "the month".to_owned(), why: error.to_string() }
}

/// What formulas make of true readings, in the middle of what the grade of the product allows, on a few points.
struct Formulas {
    /// Net over gross: temperature 40, 50, 60 °F × relative density 0.504, 0.510 × gross 28 500, 31 500 gal in a
    /// shell of 33 700 gal, that order.
    net: [f64; 12],
    /// Left per gallon of shell: (psi, °F) at (36, 40), (40, 40), (36, 56), (40, 56).
    left: [f64; 4],
}

fn exact(value: f64, unit: Unit) -> Measured {
    Measured::exact("true", value, unit)
}

fn middle(values: &[f64]) -> f64 {
    let low = values.iter().copied().fold(f64::INFINITY, f64::min);
    let high = values.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    0.5 * (low + high)
}

const SHELL: f64 = 33_700.0;

impl Formulas {
    fn at(elevation: f64) -> Result<Formulas, DemoError> {
        let grade = Composition::Presumed(Product::Un1978.presumed_grade());
        let mixes = grade.mixes().map_err(wrong)?;
        let mut net = [0.0; 12];
        let points = [40.0, 50.0, 60.0].into_iter().flat_map(|t| {
            [0.504, 0.510].into_iter().flat_map(move |d| [28_500.0, 31_500.0].map(|gross| (t, d, gross)))
        });
        for (slot, (fahrenheit, rd60, gross)) in net.iter_mut().zip(points) {
            let mut values = Vec::new();
            for mix in &mixes {
                let expansion = if mix.fraction(Fluid::Propylene) > PROPYLENE_LIMIT {
                    Expansion::Ratio { mix: mix.clone() }
                } else {
                    Expansion::table(exact(rd60, Unit::One), Some(mix)).map_err(wrong)?
                };
                let load = Load {
                    liquid: exact(gross, Unit::Gallon),
                    shell: exact(SHELL, Unit::Gallon),
                    temperature: exact(fahrenheit, Unit::Fahrenheit),
                    expansion,
                    mix: mix.clone(),
                    pressure: None,
                    elevation: exact(elevation, Unit::Foot),
                };
                values.push(quantity(&load).map_err(wrong)?.liquid_gallons.value / gross);
            }
            *slot = middle(&values);
        }
        let mut left = [0.0; 4];
        for (slot, (psi, fahrenheit)) in
            left.iter_mut().zip([(36.0, 40.0), (40.0, 40.0), (36.0, 56.0), (40.0, 56.0)])
        {
            let mut values = Vec::new();
            for mix in &mixes {
                let evidence = residue::Evidence {
                    temperature: exact(fahrenheit, Unit::Fahrenheit),
                    pressure: exact(psi, Unit::PsiGauge),
                    elevation: exact(elevation, Unit::Foot),
                    shell: exact(SHELL, Unit::Gallon),
                    mix: mix.clone(),
                };
                values.push(residue::residue(&evidence).map_err(wrong)?.value / SHELL);
            }
            *slot = middle(&values);
        }
        Ok(Formulas { net, left })
    }

    /// Net at 60 °F of a gross volume of liquid.
    fn net_of(&self, gross: f64, fahrenheit: f64, rd60: f64) -> f64 {
        let (y, z) = ((rd60 - 0.504) / 0.006, (gross - 28_500.0) / 3_000.0);
        let at = |place: usize| {
            let [a, b, c, d] = [0, 1, 2, 3].map(|corner| self.net[4 * place + corner]);
            (1.0 - y) * ((1.0 - z) * a + z * b) + y * ((1.0 - z) * c + z * d)
        };
        let x = (fahrenheit - 50.0) / 10.0;
        let (cold, here, warm) = (at(0), at(1), at(2));
        gross * (here + 0.5 * x * (warm - cold) + 0.5 * x * x * (warm - 2.0 * here + cold))
    }

    fn left_over(&self, shell: f64, psi: f64, fahrenheit: f64) -> f64 {
        let (x, y) = ((psi - 36.0) / 4.0, (fahrenheit - 40.0) / 16.0);
        let cold = self.left[0] + x * (self.left[1] - self.left[0]);
        let warm = self.left[2] + x * (self.left[3] - self.left[2]);
        shell * (cold + y * (warm - cold))
    }
}

impl World {
    /// Draws a world.
    ///
    /// # Errors
    /// [`DemoError`] when a formula of the core refuses what was drawn.
    pub fn draw(dice: &Dice, faults: &[Fault]) -> Result<World, DemoError> {
        let sites = vec![
            site(dice, "Quern Loop (invented)", "Etc/GMT+6", -360, 1_180.0, "Q", ["marl", "fen"]),
            site(dice, "Tallow Spur (invented)", "Etc/GMT+7", -420, 4_020.0, "T", ["sedge", "tarn"]),
        ];
        let shippers = ["North Terminal (invented)", "Gravel Pit Plant (invented)", "Far Cavern (invented)"];
        let by = [BilledBy::Table, BilledBy::Meter, BilledBy::Scale];
        let shippers = std::iter::zip(shippers, by);
        let shippers = shippers.map(|(name, by)| Shipper { name, off: dice.within(0.001), by }).collect();
        let mut world = World { sites, shippers, cars: Vec::new() };
        if faults.contains(&Fault::BiasedGauge)
            && let Some(rod) = world.sites[1].rods.get_mut(1)
        {
            rod.1 = 1.1;
        }
        for site in 0..world.sites.len() {
            let formulas = Formulas::at(world.sites[site].elevation)?;
            for at in 0..CARS_A_SITE {
                let overfilled = faults.contains(&Fault::Overfilled) && (site, at) == (0, 23);
                let car = world.car(dice, &formulas, (site, at), overfilled)?;
                world.cars.push(car);
            }
        }
        plant(&mut world.cars, faults);
        world.cars.sort_by_key(|car| (car.placed, car.site));
        Ok(world)
    }

    fn car(
        &self,
        dice: &Dice,
        formulas: &Formulas,
        (site, at): (usize, usize),
        overfilled: bool,
    ) -> Result<Car, DemoError> {
        let place = &self.sites[site];
        let shell = 33_500.0 + 100.0 * dice.below(5) as f64;
        let (fahrenheit, rd60) = (dice.between(40.0, 60.0), dice.between(0.5045, 0.5095));
        let aim = if overfilled { 31_350.0 } else { dice.between(28_700.0, 29_400.0) };
        let gross = |outage: f64| -> Result<f64, DemoError> {
            let (outage, diameter) = (exact(outage, Unit::Inch), exact(DIAMETER, Unit::Inch));
            let gross = outage_volume(&outage, &diameter, &exact(shell, Unit::Gallon), Heads::TwoToOne);
            Ok(gross.map_err(wrong)?.value)
        };
        let net = |outage: f64| Ok::<f64, DemoError>(formulas.net_of(gross(outage)?, fahrenheit, rd60));
        let (mut low, mut high) = (2.0, 60.0);
        for _ in 0..40 {
            let middle = 0.5 * (low + high);
            if net(middle)? > aim { low = middle } else { high = middle }
        }
        let outage = 0.5 * (low + high);
        let truth = net(outage)?;
        let shipper = dice.below(self.shippers.len());
        let rod = dice.below(place.rods.len());
        let off = 1.0 + self.shippers[shipper].off + 0.0003 * dice.normal();
        let (last_pressure, last_temperature) = (dice.between(36.0, 40.0), dice.between(40.0, 56.0));
        let left = formulas.left_over(shell, last_pressure, last_temperature);
        // Propane saturates at about 67 psig at 40 °F and 93 at 60 °F; the car stands a little below its liquid.
        let saturated = 66.0 + 1.25 * (fahrenheit - 40.0);
        let billed = match self.shippers[shipper].by {
            BilledBy::Table | BilledBy::Meter => truth,
            // A scale weighs the vapor with the liquid, and the heel that came back before the car was loaded.
            BilledBy::Scale => {
                let vapour = formulas.left_over(shell - gross(outage)?, saturated, fahrenheit);
                (truth + vapour - left) * rd60 * POUNDS_A_GALLON
            }
        } * off;
        let metered = (truth - left) * (1.0 + place.meter.1 + dice.within(0.0008));
        let number =
            if site == 0 { format!("ZZQX {}", 40_100 + at) } else { format!("ZYLX {}", 71_200 + at) };
        let day = at / 2;
        let placed = (day as i64) * 1_440 + 330 + 150 * (at % 2) as i64 + dice.below(45) as i64;
        let stood = if dice.part() < 0.15 { dice.between(50.0, 100.0) } else { dice.between(9.0, 22.0) };
        let effort = || dice.between(23.0, 37.0).round();
        let pressure = saturated + dice.within(2.0);
        Ok(Car {
            opened_as: number.clone(),
            number,
            site,
            phone: at % 2,
            shipper,
            rod,
            placed,
            stood,
            shell,
            outage: rounded(outage + place.rods[rod].1 + dice.within(0.045), 20.0),
            temperature: rounded(fahrenheit + place.thermometer.1 + dice.within(0.3), 10.0),
            density: rounded(rd60 + dice.within(0.0004), 10_000.0),
            liquid: truth,
            billed: billed.round(),
            pressure: pressure.round(),
            metered: metered.round(),
            last_pressure: rounded(last_pressure + place.low_gauge.1 + dice.within(0.05), 10.0),
            last_temperature: rounded(last_temperature + place.thermometer.1 + dice.within(0.3), 10.0),
            seal: format!("{}{}", place.seals, 500_100 + at),
            found_seal: format!("P{}", 880_000 + 1_000 * site + at),
            efforts: [effort(), effort(), effort()],
        })
    }
}

fn rounded(value: f64, per_unit: f64) -> f64 {
    (value * per_unit).round() / per_unit
}

fn site(
    dice: &Dice,
    name: &'static str,
    zone: &'static str,
    offset_minutes: i16,
    elevation: f64,
    seals: &'static str,
    operators: [&'static str; 2],
) -> Site {
    let named = |kind: &str, number: u32| format!("{kind}-{seals}{number}");
    Site {
        name,
        zone,
        offset_minutes,
        elevation,
        seals,
        rods: vec![(named("GR", 1), dice.within(0.07)), (named("GR", 2), dice.within(0.07))],
        thermometer: (named("TW", 1), dice.within(0.6)),
        low_gauge: (named("LG", 1), dice.within(0.2)),
        meter: (named("M", 1), dice.within(0.0018)),
        hoses: [named("H", 1), named("H", 2), named("H", 3)],
        operators,
    }
}

/// Faults of hands: what is written is not what was meant.
fn plant(cars: &mut [Car], faults: &[Fault]) {
    let at = |site: usize, place: usize| site * CARS_A_SITE + place;
    if faults.contains(&Fault::DuplicatedSeal) {
        cars[at(1, 41)].seal = cars[at(0, 17)].seal.clone();
    }
    if faults.contains(&Fault::SwappedNumber) {
        // 40149 read as 40194: two neighbours swapped, and no other car of that number.
        let car = &mut cars[at(0, 49)];
        car.opened_as = "ZZQX 40194".to_owned();
    }
}
