//! The room in the receiver: whether the car's liquid will fit, today and after it has warmed up.
//!
//! The view calls this module before the transfer, and `calc::lines` calls it as well. The filling limit is a
//! setting: local code and the tank's own plate take precedence.

use serde::{Deserialize, Serialize};

use super::ctl;
use super::error::{CalcError, Limits, Range};
use super::quantity::VOLUME_GAL;
use super::sources;
use super::uncertainty::{Measured, Method, propagate};
use super::water::DENSITY_60F;
use crate::units::{Computed, Finding, Severity, Unit};
use crate::{Message, message};

/// Formula id.
pub const FORMULA: &str = "receiver_room/1";
/// Water capacities accepted.
pub const CAPACITY_GAL: Range = Range::new(10.0, 10_000_000.0, Unit::Gallon, Limits::TOOL);
/// Filling densities accepted.
const DENSITY_PERCENT: Range = Range::new(10.0, 70.0, Unit::Percent, Limits::TOOL);

/// The location and size of the receiving container, which decide the filling density.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Setting {
    /// Above ground, up to 1 200 gal water capacity.
    AboveGroundSmall,
    /// Above ground, over 1 200 gal.
    AboveGroundLarge,
    /// Underground, any size.
    Underground,
}

/// The limit on filling the receiver.
#[derive(Clone, Debug, PartialEq)]
pub enum FillingLimit {
    /// A published table: weight of product as per cent of the weight of water the container holds at 60 °F.
    Table(Setting),
    /// A filling density set by the site, per cent.
    Density(f64),
    /// A liquid level, per cent of the volume as marked on a gauge, that must not be exceeded at today's
    /// temperature.
    Level(f64),
}

/// Maximum permitted filling density in per cent by relative density at 60 °F: first the highest relative
/// density of the row, then above ground to 1 200 gal, above ground over 1 200 gal, underground.
///
/// WAC 296-307-41037, Table U-4 (WSR 20-21-091); its second heading repeats the first, read here as "over
/// 1 200 gal" as in 29 CFR 1910.110(b)(11). A relative density between two rows takes the lighter row.
const FILLING_DENSITY: [(f64, [f64; 3]); 13] = [
    (0.503, [41.0, 44.0, 45.0]),
    (0.510, [42.0, 45.0, 46.0]),
    (0.519, [43.0, 46.0, 47.0]),
    (0.527, [44.0, 47.0, 48.0]),
    (0.536, [45.0, 48.0, 49.0]),
    (0.544, [46.0, 49.0, 50.0]),
    (0.552, [47.0, 50.0, 51.0]),
    (0.560, [48.0, 51.0, 52.0]),
    (0.568, [49.0, 52.0, 53.0]),
    (0.576, [50.0, 53.0, 54.0]),
    (0.584, [51.0, 54.0, 55.0]),
    (0.592, [52.0, 55.0, 56.0]),
    (0.600, [53.0, 56.0, 57.0]),
];
const TABLE_RD60: Range =
    Range::new(0.496, 0.600, Unit::One, Limits::Document("WAC 296-307-41037, Table U-4"));

/// Maximum permitted filling density, per cent, from the published table.
///
/// Range: relative density at 60 °F 0.496 to 0.600. Source: WAC 296-307-41037 Table U-4. What makes it wrong:
/// a container under DOT or another code, a local code with its own table.
///
/// # Errors
/// Outside the table, not a number.
pub fn filling_density(rd60: f64, setting: Setting) -> Result<f64, CalcError> {
    TABLE_RD60.check("relative density", rd60)?;
    // Rows are printed to 0.001; a density of 0.5034 still belongs to "0.496–0.503" when rounded as printed.
    let printed = super::rounding::half_away(rd60, 3);
    let row = FILLING_DENSITY.iter().find(|(highest, _)| printed <= *highest);
    let (_, per_cent) = row.unwrap_or(&FILLING_DENSITY[FILLING_DENSITY.len() - 1]);
    Ok(per_cent[setting as usize])
}

/// Largest liquid volume at a temperature that a filling density allows, gal.
///
/// V = capacity × filling density / (relative density at 60 °F × CTL) — 29 CFR 1910.110(b)(19) in its words.
/// Inputs: capacity (gal water), filling density (%), relative density at 60 °F, temperature (°F).
///
/// # Errors
/// Out of range, not a number.
pub fn largest_liquid(
    capacity: f64,
    density_percent: f64,
    rd60: f64,
    fahrenheit: f64,
) -> Result<f64, CalcError> {
    CAPACITY_GAL.check("capacity", capacity)?;
    DENSITY_PERCENT.check("filling density", density_percent)?;
    // CTL converts a volume at the temperature to 60 °F, so relative density × CTL is the relative density at
    // the temperature.
    let volume = capacity * density_percent / 100.0 / (rd60 * ctl::unrounded_24e(fahrenheit, rd60)?);
    Ok(volume.min(capacity))
}

/// The receiver, and what is to be transferred into it.
#[derive(Clone, Debug, PartialEq)]
pub struct Transfer {
    /// Water capacity of the receiver, gal.
    pub capacity: Measured,
    /// The liquid in the receiver now, gal at its own temperature.
    pub held: Measured,
    /// Temperature of that liquid, °F.
    pub held_temperature: Measured,
    /// The net volume to be transferred, gal at 60 °F.
    pub coming: Measured,
    /// The relative density at 60 °F of both liquids.
    pub rd60: Measured,
    /// The limit on filling.
    pub limit: FillingLimit,
    /// The temperature to which the liquid may warm, °F. The default is 105 °F above ground, from memory.
    pub reference_temperature: f64,
}

/// The room in the receiver.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Room {
    /// The net volume at 60 °F that can still be transferred, gal.
    pub room: Computed,
    /// The net volume at 60 °F that the receiver may hold, gal.
    pub allowed: Computed,
    /// The liquid level after the transfer at today's temperature, % of the capacity.
    pub level_today: Computed,
    /// The liquid level after the transfer at the reference temperature, % of the capacity.
    pub level_warm: Computed,
    /// The filling density used, %, if the limit is one.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub filling_density: Option<f64>,
    /// Whether everything fits, considering limits and uncertainty.
    pub fits: Fits,
}

/// Whether everything fits.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Fits {
    /// Everything fits with more room to spare than the ±.
    Yes,
    /// The difference is within the ±, so the receiver's own gauge must be watched.
    Barely,
    /// Not everything fits.
    No,
}

/// Net gallons at 60 °F that may still come in, and the levels with everything in.
///
/// Inputs: see [`Transfer`]; capacity 10 to 10 000 000 gal, liquid now not more than the capacity,
/// temperature −50.8 to 199.4 °F, relative density 0.35 to 0.688 (0.496 to 0.600 with the table). Method: 24E
/// and the filling limit. What makes it wrong: a receiver that holds another product, a level gauge out of
/// true, a capacity that is not the water capacity, a local code that asks for less.
///
/// # Errors
/// Out of range, wrong unit, not a number, more liquid than capacity.
pub fn room(transfer: &Transfer) -> Result<Room, CalcError> {
    let capacity = transfer.capacity.checked(CAPACITY_GAL)?;
    let held = transfer.held.checked(VOLUME_GAL)?;
    let coming = transfer.coming.checked(VOLUME_GAL)?;
    let temperature = transfer.held_temperature.checked(ctl::TEMPERATURE_F)?;
    let rd60 = transfer.rd60.checked(ctl::RD60)?;
    let warm = ctl::TEMPERATURE_F.check("reference temperature", transfer.reference_temperature)?;
    if held.value > capacity.value {
        return Err(CalcError::Inconsistent(message!(
            "calc-liquid-over-capacity",
            liquid = Unit::Gallon.figure(held.value, 0),
            capacity = Unit::Gallon.figure(capacity.value, 0),
        )));
    }
    let density = match transfer.limit {
        FillingLimit::Table(setting) => Some(filling_density(rd60.value, setting)?),
        FillingLimit::Density(per_cent) => Some(DENSITY_PERCENT.check("filling density", per_cent)?),
        FillingLimit::Level(_) => None,
    };
    let level = match transfer.limit {
        FillingLimit::Level(per_cent) => {
            Some(Range::new(1.0, 95.0, Unit::Percent, Limits::Unsaid).check("level limit", per_cent)?)
        }
        _ => None,
    };
    let source = source(&transfer.limit);
    // Net gallons at 60 °F the receiver may hold; inputs: capacity, temperature, relative density.
    let allowed_of = |x: &[f64]| match (density, level) {
        (Some(density), _) => Ok(x[0] * density / 100.0 / x[2]),
        (None, Some(level)) => Ok(x[0] * level / 100.0 * ctl::unrounded_24e(x[1], x[2])?),
        (None, None) => Err(CalcError::missing("filling limit", Unit::Percent)),
    };
    let method = Method::Relative("table 24e", 0.001);
    let allowed = propagate(&[&capacity, &temperature, &rd60], method, |x| allowed_of(x))?;
    let room = propagate(&[&capacity, &temperature, &rd60, &held], method, |x| {
        Ok(allowed_of(x)? - x[3] * ctl::unrounded_24e(x[1], x[2])?)
    })?;
    let level_at = |fahrenheit: Option<f64>| {
        let inputs = [&capacity, &temperature, &rd60, &held, &coming];
        propagate(&inputs, method, |x| {
            let net = x[3] * ctl::unrounded_24e(x[1], x[2])? + x[4];
            let at = fahrenheit.unwrap_or(x[1]);
            Ok(100.0 * net / ctl::unrounded_24e(at, x[2])? / x[0])
        })
    };
    let (today, hot) = (level_at(None)?, level_at(Some(warm))?);
    let short = coming.value - room.value;
    let spread = room.plus_minus().hypot(coming.plus_minus());
    let fits = if hot.value >= 100.0 {
        Fits::No
    } else if short + spread <= 0.0 {
        Fits::Yes
    } else if short <= spread {
        Fits::Barely
    } else {
        Fits::No
    };
    let said = |id| {
        Message::new(id)
            .with("allowed", Unit::Gallon.figure(allowed.value, 0))
            .with("held", Unit::Gallon.figure(allowed.value - room.value, 0))
            .with("room", Unit::Gallon.figure(room.value, 0))
            .with("coming", Unit::Gallon.figure(coming.value, 0))
            .with("spread", Unit::Gallon.figure(spread, 0))
    };
    let mut findings = vec![match fits {
        Fits::Yes => Finding::new("fits", Severity::Note, said("calc-room-fits")),
        Fits::Barely => Finding::new("fits_barely", Severity::Check, said("calc-room-barely")),
        Fits::No => Finding::new("does_not_fit", Severity::Alarm, said("calc-room-short")),
    }];
    if hot.value >= 100.0 {
        findings.push(Finding::new(
            "liquid_full_when_warm",
            Severity::Alarm,
            message!("calc-room-full-when-warm", warm = Unit::Fahrenheit.figure(warm, 0)),
        ));
    }
    findings.push(Finding::new("local_code_governs", Severity::Note, Message::new("calc-room-local-code")));
    Ok(Room {
        room: room.computed(Unit::Gallon, FORMULA, &source, findings),
        allowed: allowed.computed(Unit::Gallon, FORMULA, &source, Vec::new()),
        level_today: today.computed(Unit::Percent, FORMULA, &source, Vec::new()),
        level_warm: hot.computed(Unit::Percent, FORMULA, &source, Vec::new()),
        filling_density: density,
        fits,
    })
}

fn source(limit: &FillingLimit) -> Message {
    let limit = match limit {
        FillingLimit::Table(_) => sources::cited(sources::FILLING_DENSITIES),
        FillingLimit::Density(_) => sources::said("calc-source-density-of-site"),
        FillingLimit::Level(_) => sources::said("calc-source-level-of-site"),
    };
    let water = Unit::KilogramPerCubicMetre.plain(DENSITY_60F);
    let water = message!("calc-source-water", density = water);
    sources::several([limit, sources::cited(sources::TABLE_24E), water])
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a test may stop at a surprise")]
    use super::*;

    /// 29 CFR 1910.110(b)(19), worked example: 100 gal container, relative density 0.510, filling density 42
    /// %, liquid at 40 °F, factor 1.031: 79.8 gal.
    #[test]
    fn the_worked_example_of_29_cfr_1910_110_is_met() {
        assert_eq!(filling_density(0.510, Setting::AboveGroundSmall), Ok(42.0));
        let gallons = largest_liquid(100.0, 42.0, 0.510, 40.0).unwrap();
        assert!((gallons - 79.8).abs() < 0.1, "{gallons}");
        assert!((ctl::table_24e(40.0, 0.510).unwrap() - 1.031).abs() < 5e-4);
    }

    fn transfer(held: f64, coming: f64) -> Transfer {
        Transfer {
            capacity: Measured::exact("capacity", 60_000.0, Unit::Gallon),
            held: Measured::within("liquid held", held, Unit::Gallon, 150.0),
            held_temperature: Measured::within("temperature", 60.0, Unit::Fahrenheit, 1.0),
            coming: Measured::stated("net volume", coming, Unit::Gallon, 100.0),
            rd60: Measured::within("relative density", 0.508, Unit::One, 0.001),
            limit: FillingLimit::Table(Setting::AboveGroundLarge),
            reference_temperature: 105.0,
        }
    }

    #[test]
    fn it_fits_barely_fits_or_does_not() {
        // 60 000 × 0.45 / 0.508 = 53 150 net gal allowed.
        assert_eq!(room(&transfer(10_000.0, 30_000.0)).unwrap().fits, Fits::Yes);
        assert_eq!(room(&transfer(23_100.0, 30_000.0)).unwrap().fits, Fits::Barely);
        let no = room(&transfer(35_000.0, 30_000.0)).unwrap();
        assert_eq!(no.fits, Fits::No);
        assert!((no.allowed.value - 53_149.6).abs() < 1.0);
        assert!(no.level_warm.value > 100.0);
        assert!(no.room.findings.iter().any(|finding| finding.code == "liquid_full_when_warm"));
    }

    #[test]
    fn a_density_outside_the_published_table_is_refused() {
        assert!(filling_density(0.495, Setting::Underground).is_err());
        assert!(filling_density(f64::NAN, Setting::Underground).is_err());
        assert!(room(&transfer(61_000.0, 1.0)).is_err());
    }
}
