//! What is left in the car as vapour at its final pressure.
//!
//! Called by `calc::lines` and by the view for the release and the office's credit line.

use super::atmosphere;
use super::error::{CalcError, Range};
use super::fluid::{self, Fluid, Mix, PRESSURE_PSIA};
use super::quantity;
use super::uncertainty::{Measured, Method, Propagated, propagate};
use crate::units::{Computed, Unit};

/// Formula id.
pub const FORMULA: &str = "residue/1";
/// Gauge pressures accepted.
pub const GAUGE_PSI: Range = Range::new(-14.0, 500.0, Unit::PsiGauge, "limits of this tool");
/// Shell volumes accepted.
pub const SHELL_GAL: Range = Range::new(10.0, 100_000.0, Unit::Gallon, "limits of this tool");

/// What the residue is worked out from.
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
    /// What the vapour is made of.
    pub mix: Mix,
}

/// What is left, in the forms the papers and the office want.
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
    let base = fluid::liquid_60f(&evidence.mix)?;
    let gallons = evidence.vapour(|density, shell, _| Unit::Gallon.from_si(density * shell / base))?;
    Ok(gallons.computed(Unit::Gallon, FORMULA, &evidence.source(), quantity::estimated_pair(&evidence.mix)))
}

/// Everything about the residue at once. As [`residue`].
///
/// # Errors
/// As [`residue`].
pub fn all(evidence: &Evidence) -> Result<Residue, CalcError> {
    let source = evidence.source();
    let computed = |unit: Unit, of: &dyn Fn(f64, f64, f64) -> f64| -> Result<Computed, CalcError> {
        Ok(evidence.vapour(of)?.computed(unit, FORMULA, &source, Vec::new()))
    };
    Ok(Residue {
        gallons: residue(evidence)?,
        pounds: computed(Unit::Pound, &|density, shell, _| Unit::Pound.from_si(density * shell))?,
        kilograms: computed(Unit::Kilogram, &|density, shell, _| density * shell)?,
        density: computed(Unit::PoundPerCubicFoot, &|density, _, _| {
            Unit::PoundPerCubicFoot.from_si(density)
        })?,
        pressure: computed(Unit::PsiAbsolute, &|_, _, pascal| Unit::PsiAbsolute.from_si(pascal))?,
    })
}

/// The residue as the office credits it.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct CreditLine {
    /// The residue.
    pub residue: Residue,
    /// Its part of what was billed, %.
    pub percent_of_billed: f64,
    /// One line for the office.
    pub text: String,
}

/// The credit line for a car billed at `billed` net gallons at 60 °F. Whether it is credited is the contract's
/// business; this says what was left and how well that is known.
///
/// # Errors
/// As [`residue`]; billed out of 1 to 1 000 000 gal.
pub fn credit(evidence: &Evidence, billed: &Measured) -> Result<CreditLine, CalcError> {
    const BILLED: Range = Range::new(1.0, 1_000_000.0, Unit::Gallon, "limits of this tool");
    let billed = billed.checked(BILLED)?;
    let residue = all(evidence)?;
    let percent_of_billed = 100.0 * residue.gallons.value / billed.value;
    let text = format!(
        "Residue as vapour: {} net at 60 °F, {} in vacuum, {percent_of_billed:.2} % of {:.0} gal billed.",
        residue.gallons.shown(),
        residue.pounds.shown(),
        billed.value
    );
    Ok(CreditLine { residue, percent_of_billed, text })
}

/// The residue when only the grade is known: lowest and highest over the compositions it allows.
///
/// # Errors
/// As [`residue`] for any of them.
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

    /// Propagates `of(density kg/m³, shell m³, pressure Pa)`.
    fn vapour(&self, of: impl Fn(f64, f64, f64) -> f64) -> Result<Propagated, CalcError> {
        let temperature = self.temperature.checked(fluid::TEMPERATURE_F)?.to(Unit::Kelvin)?;
        let shell = self.shell.checked(SHELL_GAL)?.to(Unit::CubicMetre)?;
        let absolute = absolute_pressure(&self.pressure, &self.elevation)?;
        let method = Method::Relative("equation of state", 0.0003);
        propagate(&[&temperature, &absolute[0], &absolute[1], &shell], method, |x| {
            let pascal = Unit::PsiAbsolute.to_si(x[1] + x[2]);
            fluid::vapour_density(&self.mix, x[0], pascal).map(|density| of(density, x[3], pascal))
        })
    }

    fn source(&self) -> String {
        format!("{}; atmosphere ISO 2533:1975", self.mix.source())
    }
}

/// The reading and the atmosphere under it (zero for an absolute reading), both in psi: two independent
/// inputs whose sum is the absolute pressure.
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
    PRESSURE_PSIA.check("absolute pressure (gauge reading and atmosphere)", reading.value + air.value)?;
    Ok([reading, air])
}
