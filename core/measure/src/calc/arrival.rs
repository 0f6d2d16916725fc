//! Checks on arrival: whether the car's pressure fits its temperature, and whether the car is overfilled.
//!
//! Each check states its arithmetic in a finding. The view calls this module after the first readings.

use serde::Serialize;

use super::ctl;
use super::error::{CalcError, Range};
use super::fluid::{self, Band, Composition, band};
use super::residue;
use super::uncertainty::{Measured, Method, propagate};
use crate::units::{Computed, Finding, Severity, Unit};

/// The id of the pressure check.
pub const FORMULA_PRESSURE: &str = "arrival_pressure/1";
/// The id of the overfill check.
pub const FORMULA_OVERFILL: &str = "overfill/1";
/// The temperature at which an uninsulated car must still have outage, °F. 49 CFR 173.24b(a), from memory.
pub const REFERENCE_UNINSULATED_F: f64 = 115.0;
/// The same temperature for an insulated or thermally protected car, °F. 49 CFR 173.24b(a), from memory.
pub const REFERENCE_INSULATED_F: f64 = 105.0;
/// The least outage at the reference temperature, % of the shell. 49 CFR 173.24b(a), from memory.
pub const LEAST_OUTAGE_PERCENT: f64 = 1.0;

/// The result of comparing the pressure with saturation.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum PressureVerdict {
    /// The pressure is within the band of saturation and its uncertainty.
    Fits,
    /// The pressure is above the band.
    Above,
    /// The pressure is below the band.
    Below,
}

/// A loaded car's pressure compared with the saturation pressure of its possible content.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ArrivalPressure {
    /// The pressure read, psia.
    pub read: Computed,
    /// The saturation pressure at the liquid's temperature, psia: one value, or a band if the composition is
    /// presumed.
    pub saturation: Band,
    /// The verdict.
    pub verdict: PressureVerdict,
    /// The verdict in words, with the arithmetic.
    pub finding: Finding,
}

/// Saturation pressure with uncertainty, psia.
///
/// Inputs: temperature (−80 to 200 °F, below 98.5 % of critical). Method: bubble point of the reference
/// equations. Uncertainty: the temperature's, the equation's 0.1 % (pure) or 1 % (mix) at 95 %.
///
/// # Errors
/// As [`fluid::bubble`].
pub fn saturation_pressure(temperature: &Measured, mix: &fluid::Mix) -> Result<Computed, CalcError> {
    let temperature = temperature.checked(fluid::TEMPERATURE_F)?;
    let part = if mix.single().is_some() { 0.0005 } else { 0.005 };
    let psia = propagate(&[&temperature], Method::Relative("equation of state", part), |x| {
        let point = fluid::bubble(mix, Unit::Fahrenheit.to_si(x[0]))?;
        Ok(Unit::PsiAbsolute.from_si(point.pascal))
    })?;
    Ok(psia.computed(Unit::PsiAbsolute, "psat/1", &mix.source(), super::quantity::estimated_pair(mix)))
}

/// Compares a loaded car's pressure with saturation.
///
/// Inputs: pressure gauge or absolute, elevation, temperature of the liquid, composition known or presumed.
/// Above the band: inerts, a wrong product or a bad reading. Below: a bad reading, or liquid and vapour not
/// at one temperature. What makes it wrong: a temperature from the sunny side, a gauge left closed.
///
/// # Errors
/// Out of range, wrong unit, not a number, not converged.
pub fn pressure(
    temperature: &Measured,
    reading: &Measured,
    elevation: &Measured,
    composition: &Composition,
) -> Result<ArrivalPressure, CalcError> {
    let parts = residue::absolute_pressure(reading, elevation)?;
    let read = propagate(&[&parts[0], &parts[1]], Method::Exact, |x| Ok(x[0] + x[1]))?;
    let saturation = band(composition, |mix| saturation_pressure(temperature, mix))?;
    let spread = read.plus_minus();
    // Both intervals are at 95 %. The distance at each end is compared with the root of the sum of their
    // squares.
    let over = read.value - saturation.high.value;
    let under = saturation.low.value - read.value;
    let at = |computed: &Computed| computed.plus_minus.unwrap_or(0.0).hypot(spread);
    let verdict = if over > at(&saturation.high) {
        PressureVerdict::Above
    } else if under > at(&saturation.low) {
        PressureVerdict::Below
    } else {
        PressureVerdict::Fits
    };
    let fahrenheit = temperature.to(Unit::Fahrenheit)?.value;
    let (low, high) = (saturation.low.value, saturation.high.value);
    let span = if low == high { format!("{low:.1}") } else { format!("{low:.1} to {high:.1}") };
    let arithmetic = format!(
        "Read {:.1} ± {spread:.1} psia; {} at {fahrenheit:.1} °F saturates at {span} psia.",
        read.value,
        composition.described()
    );
    let finding = match verdict {
        PressureVerdict::Fits => {
            Finding::new("pressure_fits", Severity::Note, format!("{arithmetic} They fit."))
        }
        PressureVerdict::Above => Finding::new(
            "pressure_above_saturation",
            Severity::Check,
            format!(
                "{arithmetic} Too high: air or nitrogen in the vapour, another product, or a bad reading."
            ),
        ),
        PressureVerdict::Below => Finding::new(
            "pressure_below_saturation",
            Severity::Check,
            format!(
                "{arithmetic} Too low: a bad reading, another product, or liquid and vapour not at one temperature."
            ),
        ),
    };
    let read =
        read.computed(Unit::PsiAbsolute, FORMULA_PRESSURE, "gauge + atmosphere, ISO 2533:1975", Vec::new());
    Ok(ArrivalPressure { read, saturation, verdict, finding })
}

/// The outage at the reference temperature, and the verdict on it.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Overfill {
    /// The space above the liquid at the reference temperature, % of the shell; negative if the shell is full
    /// of liquid before that temperature is reached.
    pub outage: Computed,
    /// Whether the outage is less than required.
    pub overfilled: bool,
}

/// How much room a car's liquid leaves at the reference temperature.
///
/// Inputs: net liquid (gal at 60 °F), shell (gal), relative density at 60 °F, reference temperature (°F) and
/// least outage (%), both settings with defaults from 49 CFR 173.24b(a), from memory. Method: net ÷ CTL at
/// the reference temperature. What makes it wrong: propylene by relative density, a shell volume that is not
/// the water capacity. The vapour that condenses as the space shrinks is left out (under 0.5 %).
///
/// # Errors
/// Out of range, wrong unit, not a number.
pub fn overfill(
    net_gallons: &Measured,
    shell: &Measured,
    rd60: &Measured,
    reference_f: f64,
    least_percent: f64,
) -> Result<Overfill, CalcError> {
    let net = net_gallons.checked(super::quantity::VOLUME_GAL)?;
    let shell = shell.checked(residue::SHELL_GAL)?;
    let rd60 = rd60.checked(ctl::RD60)?;
    let reference = ctl::TEMPERATURE_F.check("reference temperature", reference_f)?;
    let least = Range::new(0.0, 50.0, Unit::Percent, "least outage").check("least outage", least_percent)?;
    if net.value > 1.25 * shell.value {
        return Err(CalcError::Inconsistent(format!(
            "{:.0} net gal never fitted a shell of {:.0} gal, however cold it was loaded",
            net.value, shell.value
        )));
    }
    let method = Method::Absolute("Table 24E itself", 0.1);
    let outage = propagate(&[&net, &shell, &rd60], method, |x| {
        Ok(100.0 * (1.0 - x[0] / ctl::unrounded_24e(reference, x[2])? / x[1]))
    })?;
    let overfilled = outage.value < least;
    let arithmetic = format!(
        "{:.0} net gal ÷ CTL {:.5} at {reference:.0} °F = {:.0} gal in a shell of {:.0} gal: outage {:.1} %, at least {least} % asked.",
        net.value,
        ctl::unrounded_24e(reference, rd60.value)?,
        net.value / ctl::unrounded_24e(reference, rd60.value)?,
        shell.value,
        outage.value
    );
    let finding = if overfilled {
        Finding::new(
            "overfilled",
            Severity::Alarm,
            format!("{arithmetic} Overfilled: do not let it warm up, tell the shipper, keep people away."),
        )
    } else {
        Finding::new("not_overfilled", Severity::Note, arithmetic)
    };
    let source = format!("{}; limits 49 CFR 173.24b(a) from memory, configurable", ctl::SOURCE_24E);
    Ok(Overfill {
        outage: outage.computed(Unit::Percent, FORMULA_OVERFILL, &source, vec![finding]),
        overfilled,
    })
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a test may stop at a surprise")]
    use super::super::fluid::{Fluid, Grade, Mix};
    use super::*;

    fn check(psig: f64, composition: &Composition) -> ArrivalPressure {
        pressure(
            &Measured::within("temperature", 60.0, Unit::Fahrenheit, 1.0),
            &Measured::within("pressure", psig, Unit::PsiGauge, 3.2),
            &Measured::exact("elevation", 0.0, Unit::Foot),
            composition,
        )
        .unwrap()
    }

    #[test]
    fn a_car_of_propane_at_its_saturation_fits() {
        // Propane saturates at 107.71 psia, 93.0 psig, at 60 °F (CoolProp 8.0.0).
        let propane = Composition::Known(Mix::pure(Fluid::Propane));
        assert_eq!(check(94.0, &propane).verdict, PressureVerdict::Fits);
        let above = check(110.0, &propane);
        assert_eq!(above.verdict, PressureVerdict::Above);
        assert!(above.finding.message.contains("nitrogen"));
        assert_eq!(check(80.0, &propane).verdict, PressureVerdict::Below);
    }

    #[test]
    fn a_presumed_composition_is_judged_by_its_band() {
        let presumed = Composition::Presumed(Grade::Hd5Propane);
        let result = check(105.0, &presumed);
        assert_eq!(result.verdict, PressureVerdict::Fits);
        assert!(result.saturation.high.value - result.saturation.low.value > 10.0);
        assert_ne!(result.saturation.low_for, result.saturation.high_for);
    }

    #[test]
    fn a_car_too_full_for_summer_is_found_in_winter() {
        let shell = Measured::exact("shell", 33_800.0, Unit::Gallon);
        let rd60 = Measured::within("relative density at 60 °F", 0.508, Unit::One, 0.001);
        let net = |gallons: f64| Measured::within("net volume", gallons, Unit::Gallon, 100.0);
        let full =
            overfill(&net(31_500.0), &shell, &rd60, REFERENCE_UNINSULATED_F, LEAST_OUTAGE_PERCENT).unwrap();
        assert!(full.overfilled && full.outage.value < 0.0, "{}", full.outage.value);
        let fair =
            overfill(&net(29_000.0), &shell, &rd60, REFERENCE_UNINSULATED_F, LEAST_OUTAGE_PERCENT).unwrap();
        assert!(!fair.overfilled && fair.outage.value > 4.0);
    }
}
