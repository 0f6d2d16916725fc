//! The atmospheric pressure at a site from its elevation, which is the difference between gauge and absolute
//! pressure.
//!
//! Every formula with a gauge reading calls this module. A barometer at the site is far more accurate.

use super::error::{CalcError, Limits, Range};

/// The accepted elevations, ft: from below the lowest land to above the highest railway.
pub const ELEVATION_FT: Range =
    Range::new(-1_500.0, 20_000.0, crate::units::Unit::Foot, Limits::Reason("calc-limits-sidings"));

/// The half-width that weather adds to the standard atmosphere, Pa: ±2 kPa covers about the usual highs and
/// lows at one place. Common practice, no source.
pub const WEATHER_PA: f64 = 2_000.0;

/// Standard atmospheric pressure in Pa at an elevation in metres.
///
/// Method: ISO 2533:1975, troposphere, p = p₀ (1 − βH/T₀)^(gM/Rβ), with p₀ = 101 325 Pa, T₀ = 288.15 K,
/// β = 6.5 K/km, R = 287.052 87 J/(kg K), H taken as the geometric elevation (0.02 % at 5 000 ft).
/// Range: −1 500 to 20 000 ft. What makes it wrong: weather, by up to about 2 kPa (0.3 psi).
///
/// # Errors
/// [`CalcError::OutOfRange`] outside the range, [`CalcError::NotANumber`] for NaN and infinities.
pub fn pressure_pa(elevation_m: f64) -> Result<f64, CalcError> {
    let feet = crate::units::Unit::Foot.from_si(elevation_m);
    ELEVATION_FT.check("elevation", feet)?;
    const BASE: f64 = 101_325.0;
    const BASE_KELVIN: f64 = 288.15;
    const LAPSE: f64 = 0.0065;
    const GAS: f64 = 287.052_87;
    let exponent = crate::units::exact::STANDARD_GRAVITY / (GAS * LAPSE);
    Ok(BASE * (1.0 - LAPSE * elevation_m / BASE_KELVIN).powf(exponent))
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a test may stop at a surprise")]
    use super::*;
    use crate::units::Unit;

    /// ISO 2533:1975 table values: sea level 1 013.25 hPa, 1 000 m 898.746 hPa (geopotential), 3 000 m
    /// 701.085 hPa.
    #[test]
    fn the_standard_atmosphere_is_met() {
        for (metres, pascal) in [(0.0, 101_325.0), (1_000.0, 89_874.6), (3_000.0, 70_108.5)] {
            assert!((pressure_pa(metres).unwrap() - pascal).abs() < 5.0, "{metres} m");
        }
        let five_thousand = Unit::PsiAbsolute.from_si(pressure_pa(Unit::Foot.to_si(5_000.0)).unwrap());
        assert!((five_thousand - 12.227_78).abs() < 1e-3);
    }

    #[test]
    fn no_air_is_made_up_outside_the_table() {
        for metres in [f64::NAN, f64::INFINITY, -2_000.0, 50_000.0] {
            assert!(pressure_pa(metres).is_err());
        }
    }
}
