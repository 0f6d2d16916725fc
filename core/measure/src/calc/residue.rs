//! The vapour left in the car at its final pressure.
//!
//! `calc::lines` and the view call this module, the view for the release and for the office's credit line.

use super::atmosphere;
use super::error::{CalcError, Limits, Range};
use super::fluid::{self, Fluid, Mix, PRESSURE_PSIA};
use super::quantity;
use super::sources;
use super::uncertainty::{Measured, Method, Propagated, propagate, propagate_all};
use crate::units::{Computed, Unit};
use crate::{Arg, Message, message};

/// Formula id.
pub const FORMULA: &str = "residue/1";
/// Gauge pressures accepted.
pub const GAUGE_PSI: Range = Range::new(-14.0, 500.0, Unit::PsiGauge, Limits::TOOL);
/// Shell volumes accepted.
pub const SHELL_GAL: Range = Range::new(10.0, 100_000.0, Unit::Gallon, Limits::TOOL);

/// The readings from which the residue is computed.
#[derive(Clone, Debug, PartialEq)]
pub struct Evidence {
    /// Temperature of the vapour in the shell, −80 to 200 °F.
    pub temperature: Measured,
    /// Final pressure read at the car, gauge or absolute.
    pub pressure: Measured,
    /// Elevation of the site, −1 500 to 20 000 ft. Not used for an absolute pressure.
    pub elevation: Measured,
    /// Water capacity of the shell, 10 to 100 000 gal.
    pub shell: Measured,
    /// The composition of the vapour.
    pub mix: Mix,
}

/// The residue in the units that papers and office need.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Residue {
    /// Liquid equivalent at 60 °F, gal.
    pub gallons: Computed,
    /// Mass, lb in vacuum.
    pub pounds: Computed,
    /// Mass, kg in vacuum.
    pub kilograms: Computed,
    /// Vapour density, lb/ft³.
    pub density: Computed,
    /// Absolute pressure used, psia.
    pub pressure: Computed,
}

/// Liquid equivalent at 60 °F of the vapour left, gal.
///
/// Inputs: see [`Evidence`]. Method: absolute pressure from ISO 2533 and the gauge; vapour density from the
/// reference equation of state; mass = density × shell; gallons = mass over the saturated liquid's density at
/// 60 °F. Uncertainty: inputs by JCGM 100, weather by the spread of the atmosphere, equation of state 0.03 %.
/// What makes it wrong: liquid still in the car (then it is far too small), a pressure not read at the car,
/// a shell temperature that is not the vapour's, air or nitrogen in the vapour, a wrong composition.
///
/// # Errors
/// [`CalcError::AboveSaturation`] when liquid must be present; out of range; wrong unit; not a number.
pub fn residue(evidence: &Evidence) -> Result<Computed, CalcError> {
    all(evidence).map(|all| all.gallons)
}

/// Everything about the residue at once. As [`residue`].
///
/// # Errors
/// As [`residue`].
pub fn all(evidence: &Evidence) -> Result<Residue, CalcError> {
    let source = sources::several([evidence.mix.source(), sources::said("calc-source-atmosphere")]);
    let base = fluid::liquid_60f(&evidence.mix)?;
    let temperature = evidence.temperature.checked(fluid::TEMPERATURE_F)?.to(Unit::Kelvin)?;
    let shell = evidence.shell.checked(SHELL_GAL)?.to(Unit::CubicMetre)?;
    let absolute = absolute_pressure(&evidence.pressure, &evidence.elevation)?;
    let state = Method::Relative("equation of state", 0.0003);
    let inputs = [&temperature, &absolute[0], &absolute[1], &shell];
    let [gallons, kilograms, density, pressure] =
        propagate_all(&inputs, [state, state, state, Method::Exact], |x| {
            let psia = x[1] + x[2];
            let density = fluid::vapour_density(&evidence.mix, x[0], Unit::PsiAbsolute.to_si(psia))?;
            let kilograms = density * x[3];
            Ok([Unit::Gallon.from_si(kilograms / base), kilograms, density, psia])
        })?;
    let plain = |found: &Propagated, unit: Unit| {
        found.scaled(unit.from_si(1.0)).computed(unit, FORMULA, &source, Vec::new())
    };
    let findings = quantity::estimated_pair(&evidence.mix);
    Ok(Residue {
        gallons: gallons.computed(Unit::Gallon, FORMULA, &source, findings),
        pounds: plain(&kilograms, Unit::Pound),
        kilograms: plain(&kilograms, Unit::Kilogram),
        density: plain(&density, Unit::PoundPerCubicFoot),
        pressure: pressure.computed(Unit::PsiAbsolute, FORMULA, &source, Vec::new()),
    })
}

/// The residue as credited by the office.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct CreditLine {
    /// The residue.
    pub residue: Residue,
    /// The residue as a percentage of the billed quantity.
    pub percent_of_billed: f64,
    /// One line for the office.
    pub text: Message,
}

/// Returns the credit line for a car billed at `billed` net gallons at 60 °F. Whether the residue is credited
/// depends on the contract; the line states how much was left and how well that is known.
///
/// # Errors
/// As for [`residue`]; `billed` outside 1 to 1 000 000 gal.
pub fn credit(evidence: &Evidence, billed: &Measured) -> Result<CreditLine, CalcError> {
    const BILLED: Range = Range::new(1.0, 1_000_000.0, Unit::Gallon, Limits::TOOL);
    let billed = billed.checked(BILLED)?;
    let residue = all(evidence)?;
    let percent_of_billed = 100.0 * residue.gallons.value / billed.value;
    let text = message!(
        "calc-credit",
        gallons = residue.gallons.arg(),
        pounds = residue.pounds.arg(),
        percent = Arg::number(percent_of_billed, 2),
        billed = Unit::Gallon.figure(billed.value, 0),
    );
    Ok(CreditLine { residue, percent_of_billed, text })
}

/// Returns the residue if only the grade is known: the lowest and the highest over its possible compositions.
///
/// # Errors
/// As for [`residue`], for any of the compositions.
pub fn over_grade(evidence: &Evidence, composition: &fluid::Composition) -> Result<fluid::Band, CalcError> {
    fluid::band(composition, |mix| residue(&Evidence { mix: mix.clone(), ..evidence.clone() }))
}

impl Evidence {
    /// Pure propane vapour, the usual case.
    pub fn propane(
        temperature: Measured,
        pressure: Measured,
        elevation: Measured,
        shell: Measured,
    ) -> Evidence {
        Evidence { temperature, pressure, elevation, shell, mix: Mix::pure(Fluid::Propane) }
    }
}

/// Returns the reading and the atmospheric pressure below it (zero for an absolute reading), both in psi.
/// They are two independent inputs whose sum is the absolute pressure.
///
/// # Errors
/// Out of range, wrong unit, not a number.
pub fn absolute_pressure(reading: &Measured, elevation: &Measured) -> Result<[Measured; 2], CalcError> {
    const ATMOSPHERE: &str = "atmosphere";
    if reading.unit.dimension() == Unit::PsiAbsolute.dimension() {
        let reading = reading.checked(fluid::PRESSURE_PSIA)?;
        return Ok([reading, Measured::exact(ATMOSPHERE, 0.0, Unit::PsiAbsolute)]);
    }
    let reading = reading.checked(GAUGE_PSI)?;
    let elevation = elevation.to(Unit::Metre)?;
    let weather = Unit::PsiAbsolute.from_si(atmosphere::WEATHER_PA) / 3.0_f64.sqrt();
    let air = propagate(&[&elevation], Method::Absolute("weather", weather), |x| {
        atmosphere::pressure_pa(x[0]).map(|pascal| Unit::PsiAbsolute.from_si(pascal))
    })?;
    let air =
        Measured { standard: air.standard, ..Measured::exact(ATMOSPHERE, air.value, Unit::PsiAbsolute) };
    PRESSURE_PSIA.check("absolute pressure", reading.value + air.value)?;
    Ok([reading, air])
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a test may stop at a surprise")]
    use super::*;
    use crate::calc::fluid::{Composition, Grade};

    fn evidence() -> Evidence {
        Evidence::propane(
            Measured::within("temperature", 40.0, Unit::Fahrenheit, 5.0),
            Measured::within("pressure", 40.0, Unit::PsiGauge, 1.2),
            Measured::exact("elevation", 0.0, Unit::Foot),
            Measured::exact("shell", 33_800.0, Unit::Gallon),
        )
    }

    #[test]
    fn the_credit_line_says_how_much_and_how_well_it_is_known() {
        let billed = Measured::exact("billed", 30_000.0, Unit::Gallon);
        let credit = credit(&evidence(), &billed).unwrap();
        // 523 gal (independent calculation, CoolProp 8.0.0).
        assert!(farsiding_words::english(&credit.text).contains("523 ± 17 gal"), "{:?}", credit.text);
        assert!((credit.percent_of_billed - 1.742).abs() < 0.01);
        assert!(
            farsiding_words::english(&credit.residue.pounds.largest.unwrap()).starts_with("pressure, 74 %")
        );
    }

    #[test]
    fn altitude_left_out_overstates_the_residue() {
        let high = Evidence { elevation: Measured::exact("elevation", 5_000.0, Unit::Foot), ..evidence() };
        let less = residue(&evidence()).unwrap().value - residue(&high).unwrap().value;
        assert!((less - 25.0).abs() < 2.0, "{less}");
    }

    #[test]
    fn a_gauge_reading_below_vacuum_at_that_elevation_is_refused() {
        let high = Evidence {
            elevation: Measured::exact("elevation", 9_000.0, Unit::Foot),
            pressure: Measured::within("pressure", -13.0, Unit::PsiGauge, 1.2),
            ..evidence()
        };
        assert!(matches!(residue(&high), Err(CalcError::OutOfRange { .. })));
    }

    #[test]
    fn an_absolute_pressure_needs_no_atmosphere() {
        let psia = Measured::within("pressure", 40.0 + 14.695_949, Unit::PsiAbsolute, 1.2);
        let absolute = residue(&Evidence { pressure: psia, ..evidence() }).unwrap();
        assert!((absolute.value - residue(&evidence()).unwrap().value).abs() < 1e-3);
    }

    #[test]
    fn a_grade_gives_a_band_around_the_pure_product() {
        let band = over_grade(&evidence(), &Composition::Presumed(Grade::Hd5Propane)).unwrap();
        let pure = residue(&evidence()).unwrap().value;
        assert!(band.low.value < pure && pure < band.high.value);
    }
}
