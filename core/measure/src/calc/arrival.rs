//! Checks on arrival: whether the car's pressure fits its temperature, and whether the car is overfilled.
//!
//! Each check states its arithmetic in a finding. The view calls this module after the first readings.

use serde::{Deserialize, Serialize};

use super::ctl;
use super::error::{CalcError, Limits, Range};
use super::fluid::{self, Band, Composition, band};
use super::residue;
use super::said;
use super::sources;
use super::uncertainty::{Measured, Method, propagate};
use crate::units::{Computed, Finding, Severity, Unit};
use crate::{Message, message};

/// The id of the pressure check.
pub const FORMULA_PRESSURE: &str = "arrival_pressure/1";
/// The id of the overfill check.
pub const FORMULA_OVERFILL: &str = "overfill/1";
/// The insulation of a car's tank, by which the reference temperatures of 49 CFR 173.314(c), notes 9 and 10,
/// are chosen.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Insulation {
    /// Not insulated.
    None,
    /// A thermal protection system with a metal jacket, at most 0.5 Btu/h·ft²·°F at 60 °F.
    ThermalProtection,
    /// An insulation system with a metal jacket, at most 0.075 Btu/h·ft²·°F.
    Insulated,
}

impl Insulation {
    /// Every kind, the strictest first.
    pub const ALL: [Insulation; 3] = [Insulation::None, Insulation::ThermalProtection, Insulation::Insulated];

    /// The temperature at which the car must still have outage, °F: 49 CFR 173.314(c), note 9; in winter note
    /// 10, for a car filled from November to March and shipped directly to a consumer who was told (read).
    pub const fn reference_f(self, winter: bool) -> f64 {
        match (self, winter) {
            (Insulation::None, false) => REFERENCE_UNINSULATED_F,
            (Insulation::ThermalProtection, false) => 110.0,
            (Insulation::Insulated, false) => 105.0,
            (Insulation::None, true) => 100.0,
            (Insulation::ThermalProtection, true) => 90.0,
            (Insulation::Insulated, true) => 85.0,
        }
    }
}

/// The temperature at which a car without insulation must still have outage, °F. 49 CFR 173.314(c), note 9
/// (read).
pub const REFERENCE_UNINSULATED_F: f64 = 115.0;
/// The least outage at the reference temperature, % of the shell. 49 CFR 173.24b(a) and 173.314(c), note 9
/// (read).
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
    let said = |id| {
        let (low, high) = (saturation.low.value, saturation.high.value);
        Message::new(id)
            .with("read", said::pressure(read.value, reading, parts[1].value))
            .with("spread", said::pressure_difference(spread, None, reading))
            .with("product", composition.message())
            .with("temperature", said::temperature(fahrenheit, temperature))
            .with("saturation", said::pressures(low, high, reading, parts[1].value))
    };
    let finding = match verdict {
        PressureVerdict::Fits => Finding::new("pressure_fits", Severity::Note, said("calc-arrival-fits")),
        PressureVerdict::Above => {
            Finding::new("pressure_above_saturation", Severity::Check, said("calc-arrival-above"))
        }
        PressureVerdict::Below => {
            Finding::new("pressure_below_saturation", Severity::Check, said("calc-arrival-below"))
        }
    };
    let read = read.computed(
        Unit::PsiAbsolute,
        FORMULA_PRESSURE,
        &sources::said("calc-source-gauge-and-air"),
        Vec::new(),
    );
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
/// least outage (%), both settings with defaults from 49 CFR 173.24b(a) and 173.314(c), note 9 (read).
/// Method: net ÷ CTL at the reference temperature. What makes it wrong: propylene by relative density, a
/// shell volume that is not the water capacity. The vapour that condenses as the space shrinks is left out
/// (under 0.5 %).
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
    let least = Range::new(0.0, 50.0, Unit::Percent, Limits::Unsaid).check("least outage", least_percent)?;
    if net.value > 1.25 * shell.value {
        return Err(CalcError::Inconsistent(message!(
            "calc-net-over-shell",
            net = Unit::Gallon.figure(net.value, 0),
            shell = Unit::Gallon.figure(shell.value, 0),
        )));
    }
    let method = Method::Absolute("table 24e", 0.1);
    let outage = propagate(&[&net, &shell, &rd60], method, |x| {
        Ok(100.0 * (1.0 - x[0] / ctl::unrounded_24e(reference, x[2])? / x[1]))
    })?;
    let overfilled = outage.value < least;
    let warm = net.value / ctl::unrounded_24e(reference, rd60.value)?;
    let said = |id| {
        Message::new(id)
            .with("net", Unit::Gallon.figure(net.value, 0))
            .with("warm", Unit::Gallon.figure(warm, 0))
            .with("reference", Unit::Fahrenheit.figure(reference, 0))
            .with("shell", Unit::Gallon.figure(shell.value, 0))
            .with("outage", Unit::Percent.figure(outage.value, 1))
            .with("least", Unit::Percent.plain(least))
    };
    let finding = if overfilled {
        Finding::new("overfilled", Severity::Alarm, said("calc-overfilled"))
    } else {
        Finding::new("not_overfilled", Severity::Note, said("calc-not-overfilled"))
    };
    let source =
        sources::several([sources::cited(sources::TABLE_24E), sources::said("calc-source-outage-limits")]);
    Ok(Overfill {
        outage: outage.computed(Unit::Percent, FORMULA_OVERFILL, &source, vec![finding]),
        overfilled,
    })
}

/// What the outages at the reference temperatures say, with what is known of the car.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum FillVerdict {
    /// Enough outage, whatever is not known.
    Within,
    /// Too little outage, whatever is not known.
    Overfilled,
    /// It depends on the car's insulation, which is not known.
    AskInsulation,
    /// It depends on whether the car was filled to winter limits, which is not known.
    AskWinter,
    /// Enough outage by winter limits alone.
    WinterFill,
}

/// The judgement on a car's fill.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Fill {
    /// The verdict.
    pub verdict: FillVerdict,
    /// The outage at the reference temperature that decides, %.
    pub outage: Computed,
    /// That reference temperature, °F.
    pub reference_f: f64,
}

/// Judges how full a car is by 49 CFR 173.314(c), notes 9 and 10.
///
/// Inputs: as [`overfill`], the car's insulation and whether it was filled to winter limits, each if known.
/// Method: the outage at every reference temperature that is possible; only what all of them agree on is
/// said. What makes it wrong: as [`overfill`].
///
/// # Errors
/// As [`overfill`].
pub fn fill(
    net_gallons: &Measured,
    shell: &Measured,
    rd60: &Measured,
    insulation: Option<Insulation>,
    winter: Option<bool>,
) -> Result<Fill, CalcError> {
    let at = |insulation: Insulation, winter: bool| {
        let reference = insulation.reference_f(winter);
        overfill(net_gallons, shell, rd60, reference, LEAST_OUTAGE_PERCENT).map(|found| (reference, found))
    };
    let strictest = insulation.unwrap_or(Insulation::None);
    let mildest = insulation.unwrap_or(Insulation::Insulated);
    let (hot, first) = at(strictest, winter.unwrap_or(false))?;
    let (cool, last) = at(mildest, winter.unwrap_or(true))?;
    let by_insulation =
        winter.is_some() || at(strictest, true)?.1.overfilled || !at(mildest, false)?.1.overfilled;
    let verdict = match (first.overfilled, last.overfilled) {
        (false, _) if winter == Some(true) && at(strictest, false)?.1.overfilled => FillVerdict::WinterFill,
        (false, _) => FillVerdict::Within,
        (true, true) => FillVerdict::Overfilled,
        (true, false) if insulation.is_none() && by_insulation => FillVerdict::AskInsulation,
        (true, false) => FillVerdict::AskWinter,
    };
    let (reference_f, decides) = match verdict {
        FillVerdict::Overfilled => (cool, last),
        _ => (hot, first),
    };
    let mut outage = decides.outage;
    let said = |id| {
        Message::new(id)
            .with("reference", Unit::Fahrenheit.figure(reference_f, 0))
            .with("outage", Unit::Percent.figure(outage.value, 1))
            .with("least", Unit::Percent.plain(LEAST_OUTAGE_PERCENT))
    };
    let finding = match verdict {
        FillVerdict::Within | FillVerdict::Overfilled => None,
        FillVerdict::AskInsulation => {
            Some(Finding::new("fill_ask_insulation", Severity::Check, said("calc-fill-ask-insulation")))
        }
        FillVerdict::AskWinter => {
            Some(Finding::new("fill_ask_winter", Severity::Check, said("calc-fill-ask-winter")))
        }
        FillVerdict::WinterFill => {
            Some(Finding::new("fill_winter", Severity::Note, said("calc-fill-winter")))
        }
    };
    if let Some(finding) = finding {
        outage.findings.retain(|found| !matches!(&*found.code, "overfilled" | "not_overfilled"));
        outage.findings.push(finding);
    }
    Ok(Fill { verdict, outage, reference_f })
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
        assert!(farsiding_words::english(&above.finding.message).contains("nitrogen"));
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

    /// 173.314(c), note 10: 100 °F for a car without insulation in winter, 85 °F for an insulated one. CTL of
    /// Table 24E as published: 0.93152 at 100 °F and 0.51, 0.97480 at 85 °F and 0.60.
    #[test]
    fn outage_at_a_reference_temperature_follows_from_the_published_table() {
        let shell = Measured::exact("shell", 33_700.0, Unit::Gallon);
        for (rd60, ctl, insulation) in
            [(0.51, 0.931_52, Insulation::None), (0.60, 0.974_80, Insulation::Insulated)]
        {
            let rd60 = Measured::exact("relative density", rd60, Unit::One);
            // Exactly one per cent of outage, and one gallon more or less.
            let limit = 0.99 * 33_700.0 * ctl;
            let net = |gallons: f64| Measured::exact("net volume", gallons, Unit::Gallon);
            let judged =
                |gallons: f64| fill(&net(gallons), &shell, &rd60, Some(insulation), Some(true)).unwrap();
            assert!((judged(limit).outage.value - 1.0).abs() < 2e-3, "{}", judged(limit).outage.value);
            assert_eq!(judged(limit - 2.0).verdict, FillVerdict::WinterFill);
            assert_eq!(judged(limit + 2.0).verdict, FillVerdict::Overfilled);
        }
    }

    #[test]
    fn a_car_is_called_overfilled_only_if_every_answer_that_is_missing_says_so() {
        let shell = Measured::exact("shell", 33_700.0, Unit::Gallon);
        let rd60 = Measured::exact("relative density", 0.51, Unit::One);
        let room = |reference: f64| 0.99 * 33_700.0 * ctl::unrounded_24e(reference, 0.51).unwrap();
        let judged = |gallons: f64, insulation, winter| {
            let net = Measured::exact("net volume", gallons, Unit::Gallon);
            let found = fill(&net, &shell, &rd60, insulation, winter).unwrap();
            let alarms = found.outage.findings.iter().any(|finding| finding.severity == Severity::Alarm);
            assert_eq!(alarms, found.verdict == FillVerdict::Overfilled);
            found.verdict
        };
        // Between the limits of 115 and 110 °F, of 110 and 105 °F, of 105 and 100 °F.
        let (warm, middle, cold) = (room(112.0), room(107.0), room(102.0));
        assert_eq!(judged(room(116.0), None, None), FillVerdict::Within);
        assert_eq!(judged(warm, None, Some(false)), FillVerdict::AskInsulation);
        assert_eq!(judged(warm, Some(Insulation::None), Some(false)), FillVerdict::Overfilled);
        assert_eq!(judged(warm, Some(Insulation::ThermalProtection), Some(false)), FillVerdict::Within);
        assert_eq!(judged(middle, Some(Insulation::ThermalProtection), Some(false)), FillVerdict::Overfilled);
        assert_eq!(judged(middle, Some(Insulation::Insulated), Some(false)), FillVerdict::Within);
        assert_eq!(judged(cold, Some(Insulation::Insulated), Some(false)), FillVerdict::Overfilled);
        assert_eq!(judged(cold, Some(Insulation::None), None), FillVerdict::AskWinter);
        assert_eq!(judged(cold, Some(Insulation::None), Some(true)), FillVerdict::WinterFill);
        assert_eq!(judged(room(80.0), None, None), FillVerdict::Overfilled);
    }
}
