//! Advice about freezing: the effect of cold, precipitation and flashing liquid on the fittings.
//!
//! Each piece of advice states its reason. The view calls this module with the recorded weather.

use serde::{Deserialize, Serialize};

use super::error::{CalcError, Limits, Range};
use super::fluid::{self, Mix};
use crate::units::{Finding, Severity, Unit};
use crate::{Message, message};

/// Air temperatures accepted.
pub const AIR_F: Range = Range::new(-80.0, 140.0, Unit::Fahrenheit, Limits::TOOL);
/// The air temperature above which nothing freezes without the product's own cooling, °F. It includes a
/// margin over 32 °F for radiation to a clear sky; common practice, no source.
const NEAR_FREEZING_F: f64 = 37.0;

/// The kind of precipitation.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Precipitation {
    /// Dry.
    None,
    /// Rain.
    Rain,
    /// Rain that freezes where it lands.
    FreezingRain,
    /// Snow, dry or wet.
    Snow,
    /// Hoar frost or rime.
    Frost,
}

/// The weather, and what the fittings contain.
#[derive(Clone, Debug, PartialEq)]
pub struct Conditions {
    /// Air temperature, °F.
    pub air: f64,
    /// What falls or forms.
    pub precipitation: Precipitation,
    /// The product.
    pub mix: Mix,
    /// Elevation, ft: liquid let down to the air boils at the air's pressure.
    pub elevation: f64,
    /// Whether liquid may flash at a fitting (bleeding, breaking a line, a leak).
    pub liquid_may_flash: bool,
}

/// The temperature (°F) to which liquid let down to the open air chills itself: its boiling point there.
///
/// Inputs: composition, elevation. Method: bubble temperature at the standard atmosphere. What makes it
/// wrong: a mix, which chills further as its light ends leave.
///
/// # Errors
/// Out of range, not converged.
pub fn flash_temperature(mix: &Mix, elevation_ft: f64) -> Result<f64, CalcError> {
    let pascal = super::atmosphere::pressure_pa(Unit::Foot.to_si(elevation_ft))?;
    fluid::boiling_kelvin(mix, pascal).map(|kelvin| Unit::Fahrenheit.from_si(kelvin))
}

/// Advice with its reasons, the gravest first. Empty when nothing can freeze.
///
/// Inputs: see [`Conditions`]; air −80 to 140 °F. Method: rules of the trade (common practice, no source) on
/// temperature and precipitation, boiling point for flashing liquid. What makes it wrong: weather that turns,
/// so it is asked for again at the close.
///
/// # Errors
/// Out of range, not a number.
pub fn advice(conditions: &Conditions) -> Result<Vec<Finding>, CalcError> {
    let air = AIR_F.check("air temperature", conditions.air)?;
    let flash = flash_temperature(&conditions.mix, conditions.elevation)?;
    let mut advice = Vec::new();
    let weather = |id| {
        Message::new(id)
            .with("air", Unit::Fahrenheit.figure(air, 0))
            .with("precipitation", Message::term("precipitation", word(conditions.precipitation)))
    };
    let wet = !matches!(conditions.precipitation, Precipitation::None);
    let cold = air <= NEAR_FREEZING_F;
    if conditions.liquid_may_flash && flash < 32.0 {
        advice.push(Finding::new(
            "flash_chill",
            Severity::Check,
            message!("calc-freeze-flash", flash = Unit::Fahrenheit.figure(flash, 0)),
        ));
    }
    if matches!(conditions.precipitation, Precipitation::FreezingRain) || (wet && air <= 32.0) {
        advice.push(Finding::new("oil_male_threads", Severity::Check, weather("calc-freeze-threads")));
        advice.push(Finding::new("covers_loose", Severity::Check, Message::new("calc-freeze-covers")));
    }
    if wet && cold {
        advice.push(Finding::new("point_away", Severity::Note, Message::new("calc-freeze-point-away")));
        advice.push(Finding::new("ice_underfoot", Severity::Check, weather("calc-freeze-underfoot")));
    } else if cold {
        advice.push(Finding::new("moisture_freezes", Severity::Note, weather("calc-freeze-moisture")));
    }
    if air > NEAR_FREEZING_F && wet && conditions.liquid_may_flash && flash < 32.0 {
        advice.push(Finding::new("wet_and_flashing", Severity::Check, weather("calc-freeze-wet")));
    }
    Ok(advice)
}

const fn word(precipitation: Precipitation) -> &'static str {
    match precipitation {
        Precipitation::None => "dry",
        Precipitation::Rain => "rain",
        Precipitation::FreezingRain => "freezing_rain",
        Precipitation::Snow => "snow",
        Precipitation::Frost => "frost",
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a test may stop at a surprise")]
    use super::super::fluid::Fluid;
    use super::*;

    fn codes(air: f64, precipitation: Precipitation, fluid: Fluid, liquid_may_flash: bool) -> Vec<String> {
        let conditions =
            Conditions { air, precipitation, mix: Mix::pure(fluid), elevation: 0.0, liquid_may_flash };
        advice(&conditions).unwrap().into_iter().map(|finding| finding.code).collect()
    }

    /// Normal boiling points: propane −43.8 °F, n-butane 31.1 °F (handbook values, from memory).
    #[test]
    fn liquid_chills_itself_to_its_boiling_point() {
        assert!((flash_temperature(&Mix::pure(Fluid::Propane), 0.0).unwrap() + 43.8).abs() < 0.2);
        assert!((flash_temperature(&Mix::pure(Fluid::NButane), 0.0).unwrap() - 31.1).abs() < 0.2);
        let high = flash_temperature(&Mix::pure(Fluid::Propane), 5_000.0).unwrap();
        assert!(high < -50.0, "{high}");
    }

    #[test]
    fn a_dry_summer_day_needs_no_advice_unless_liquid_flashes() {
        assert!(codes(80.0, Precipitation::None, Fluid::Propane, false).is_empty());
        assert_eq!(codes(80.0, Precipitation::None, Fluid::Propane, true), ["flash_chill"]);
    }

    #[test]
    fn freezing_rain_means_oil_on_male_threads_and_loose_covers() {
        let codes = codes(31.0, Precipitation::FreezingRain, Fluid::Propane, false);
        for code in ["oil_male_threads", "covers_loose", "point_away", "ice_underfoot"] {
            assert!(codes.iter().any(|found| found == code), "{code} in {codes:?}");
        }
    }

    #[test]
    fn weather_that_cannot_be_is_refused() {
        let conditions = Conditions {
            air: f64::NAN,
            precipitation: Precipitation::None,
            mix: Mix::pure(Fluid::Propane),
            elevation: 0.0,
            liquid_may_flash: true,
        };
        assert!(advice(&conditions).is_err());
    }
}
