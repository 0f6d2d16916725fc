//! Whether the content of the car fits into the site's tank, determined before anything is opened.
//!
//! The record does not name a tank, so the result exists only for a site with exactly one. `quantities` calls
//! this module.

use super::inputs::Inputs;
use super::quantities::{Net, cannot, from};
use crate::calc::receiver::{self, FillingLimit, Setting, Transfer};
use crate::calc::uncertainty::Measured;
use crate::entry::site_facts::Tank;
use crate::entry::vocabulary::{Measured as What, Place, Purpose};
use crate::units::{Finding, Severity, Unit};
use crate::view::quantity::Quantity;

const NAME: &str = "receiver_room";
const TITLE: &str = "Room in the receiving tank, net at 60 °F";
/// The temperature to which the liquid in a tank above ground may warm, °F; from memory.
const WARM_F: f64 = 105.0;
/// The half-width presumed for a float gauge read by eye, per cent of the capacity; common practice, no
/// source.
const LEVEL_PERCENT: f64 = 2.0;
/// The difference presumed between the tank's and the car's liquid temperature if nobody read the tank's, °F.
const TANK_APART_F: f64 = 20.0;
/// The largest above-ground container in the first column of the filling table, gal.
const SMALL_GAL: f64 = 1200.0;

/// Adds the room in the tank, or the reason why it cannot be computed. Adds nothing if no tank receives or
/// nobody read its level.
pub(super) fn room(
    inputs: &Inputs<'_>,
    net: &Net,
    quantities: &mut Vec<Quantity>,
    findings: &mut Vec<Finding>,
) {
    if !inputs.into_tank {
        return;
    }
    let Ok(level) = inputs.reading(Purpose::Arrival, What::Level, Place::StorageTank) else { return };
    let found = || -> Result<receiver::Room, String> {
        let tank = match inputs.tanks {
            [tank] => tank,
            [] => return Err("no receiving tank of this site is known here".to_owned()),
            several => {
                return Err(format!(
                    "the site has {} tanks; which one receives is not recorded",
                    several.len()
                ));
            }
        };
        let level = Measured::of("level", &level.amount, LEVEL_PERCENT).map_err(|e| e.to_string())?;
        let level = level.to(Unit::Percent).map_err(|e| e.to_string())?;
        let capacity = Measured::of("tank", &tank.water_capacity, 0.0).map_err(|e| e.to_string())?;
        let capacity = capacity.to(Unit::Gallon).map_err(|e| e.to_string())?;
        let held = Measured {
            standard: capacity.value * level.standard / 100.0,
            presumed: Some(format!("tank level ±{LEVEL_PERCENT} %")),
            ..Measured::exact("liquid in the tank", capacity.value * level.value / 100.0, Unit::Gallon)
        };
        let transfer = Transfer {
            limit: FillingLimit::Table(setting(tank, capacity.value)),
            capacity,
            held,
            held_temperature: tank_temperature(inputs)?,
            coming: from(&net.high.net_gallons, "to come"),
            rd60: net.relative_density.clone(),
            reference_temperature: WARM_F,
        };
        receiver::room(&transfer).map_err(|e| e.to_string())
    };
    quantities.push(match found() {
        Ok(room) => {
            // A finding that is shown apart from the quantity must name its subject.
            let about = |f: &Finding| {
                let message = format!("Receiving tank as it stands now: {}", f.message);
                Finding { message, ..f.clone() }
            };
            findings.extend(room.room.findings.iter().filter(|f| f.severity > Severity::Note).map(about));
            Quantity::one(NAME, TITLE, room.room, "")
        }
        Err(why) => Quantity::missing(NAME, TITLE, cannot(&why)),
    });
}

fn setting(tank: &Tank, gallons: f64) -> Setting {
    match (tank.underground, gallons > SMALL_GAL) {
        (true, _) => Setting::Underground,
        (false, false) => Setting::AboveGroundSmall,
        (false, true) => Setting::AboveGroundLarge,
    }
}

/// Returns the temperature read at the tank, or otherwise the car's with a wide uncertainty.
fn tank_temperature(inputs: &Inputs<'_>) -> Result<Measured, String> {
    if let Ok(reading) = inputs.reading(Purpose::Arrival, What::Temperature, Place::StorageTank) {
        return Ok(inputs.temperature(reading)?.measured);
    }
    let car = inputs.temperature(inputs.reading(Purpose::Arrival, What::Temperature, Place::Car)?)?;
    let car = car.measured.to(Unit::Fahrenheit).map_err(|e| e.to_string())?;
    Ok(Measured {
        presumed: Some(format!("tank temperature as the car's ±{TANK_APART_F:.0} °F")),
        ..Measured::within("tank temperature", car.value, Unit::Fahrenheit, TANK_APART_F)
    })
}
