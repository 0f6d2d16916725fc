//! Whether the content of the car fits into the site's tank, determined before anything is opened.
//!
//! Where the record names no tank, the result exists only for a site with exactly one. `quantities` calls this
//! module.

use super::inputs::{Inputs, refused};
use super::quantities::{Net, cannot, from};
use crate::calc::receiver::{self, FillingLimit, Setting, Transfer};
use crate::calc::uncertainty::{Measured, presumed_limits};
use crate::entry::site_facts::Tank;
use crate::entry::vocabulary::{Measured as What, Place, Purpose};
use crate::units::{Finding, Severity, Unit};
use crate::view::quantity::Quantity;
use crate::view::site::one_name;
use crate::{Message, message};

const NAME: &str = "receiver_room";
/// The temperature to which the liquid in a tank above ground may warm, °F; from memory.
const WARM_F: f64 = 105.0;
/// The half-width presumed for a float gauge read by eye, per cent of the capacity; common practice, no
/// source.
const LEVEL_PERCENT: f64 = 2.0;
/// The difference presumed between the tank's and the car's liquid temperature if nobody read the tank's, °F.
const TANK_APART_F: f64 = 20.0;
/// The half-width presumed for a tank's thermometer, °F; common practice, no source.
const THERMOMETER_F: f64 = 2.0;
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
    let named = inputs.tank_before;
    let gauged = named.and_then(|named| named.level.as_ref());
    let read = || inputs.reading(Purpose::Arrival, What::Level, Place::StorageTank).ok();
    let Some(level) = gauged.or_else(|| read().map(|reading| &reading.amount)) else { return };
    let found = || -> Result<receiver::Room, Message> {
        let is_named =
            |tank: &&Tank| named.is_some_and(|named| one_name(&named.tank) == one_name(&tank.name));
        let tank = match inputs.tanks {
            tanks if named.is_some() => match tanks.iter().find(is_named) {
                Some(tank) => tank,
                None => return Err(Message::new("quantity-no-tank")),
            },
            [tank] => tank,
            [] => return Err(Message::new("quantity-no-tank")),
            several => {
                return Err(message!("quantity-which-tank", count = several.len()));
            }
        };
        let level = Measured::of("level", level, LEVEL_PERCENT).map_err(refused)?;
        let level = level.to(Unit::Percent).map_err(refused)?;
        let capacity = Measured::of("tank", &tank.water_capacity, 0.0).map_err(refused)?;
        let capacity = capacity.to(Unit::Gallon).map_err(refused)?;
        let held = Measured {
            standard: capacity.value * level.standard / 100.0,
            presumed: Some(presumed_limits("tank level", Unit::Percent, LEVEL_PERCENT)),
            ..Measured::exact("liquid in the tank", capacity.value * level.value / 100.0, Unit::Gallon)
        };
        let transfer = Transfer {
            limit: FillingLimit::Table(setting(tank, capacity.value)),
            capacity,
            held,
            held_temperature: tank_temperature(inputs)?,
            coming: from(&net.high, "to come"),
            rd60: net.relative_density.clone(),
            reference_temperature: WARM_F,
        };
        receiver::room(&transfer).map_err(refused)
    };
    quantities.push(match found() {
        Ok(room) => {
            // A finding that is shown apart from the quantity must name its subject.
            let about = |f: &Finding| {
                let message = message!("finding-receiving-tank", says = f.message.clone());
                Finding { message, ..f.clone() }
            };
            findings.extend(room.room.findings.iter().filter(|f| f.severity > Severity::Note).map(about));
            Quantity::one(NAME, room.room, &Message::default())
        }
        Err(why) => Quantity::missing(NAME, cannot(&why)),
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
fn tank_temperature(inputs: &Inputs<'_>) -> Result<Measured, Message> {
    if let Some(read) = inputs.tank_before.and_then(|named| named.temperature.as_ref()) {
        return Measured::of("tank temperature", read, THERMOMETER_F).map_err(refused);
    }
    if let Ok(reading) = inputs.reading(Purpose::Arrival, What::Temperature, Place::StorageTank) {
        return Ok(inputs.temperature(reading)?.measured);
    }
    let car = inputs.temperature(inputs.reading(Purpose::Arrival, What::Temperature, Place::Car)?)?;
    let car = car.measured.to(Unit::Fahrenheit).map_err(refused)?;
    Ok(Measured {
        presumed: Some(message!("calc-presumed-as-car", half_width = Unit::Fahrenheit.plain(TANK_APART_F))),
        ..Measured::within("tank temperature", car.value, Unit::Fahrenheit, TANK_APART_F)
    })
}
