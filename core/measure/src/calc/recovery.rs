//! Recovery of vapour: the time to reach a pressure, the amount recovered so far, and when it no longer pays.
//!
//! The view calls this module during recovery, and `calc::lines` calls it as well. All formulas assume that
//! the vapour has one temperature and that no liquid is left; with remaining liquid every time computed here
//! is too short.

use serde::Serialize;

use super::error::{CalcError, Limits, Range};
use super::fluid::{self, Mix};
use super::residue::{SHELL_GAL, absolute_pressure};
use super::sources;
use super::uncertainty::{Measured, Method, propagate_all};
use crate::units::{Computed, Finding, Severity, Unit};
use crate::{Message, message};

/// Id of the pump-down formula.
pub const FORMULA: &str = "pump_down/1";
/// Swept volumes accepted.
pub const SWEPT_CFM: Range = Range::new(0.1, 5_000.0, Unit::CubicFootPerMinute, Limits::TOOL);
/// Volumetric efficiencies accepted.
pub const EFFICIENCY: Range = Range::new(0.05, 1.0, Unit::One, Limits::Unsaid);
const METHOD: Method = Method::Relative("equation of state", 0.0005);

/// A car being drawn down by a compressor.
#[derive(Clone, Debug, PartialEq)]
pub struct PumpDown {
    /// Vapour space, water gallons: the whole shell once the liquid is out.
    pub volume: Measured,
    /// Temperature of the vapour, taken as constant.
    pub temperature: Measured,
    /// Pressure at the start, gauge or absolute.
    pub start: Measured,
    /// Swept volume of the compressor, ft³/min.
    pub swept: Measured,
    /// Its volumetric efficiency, 0.05 to 1.
    pub efficiency: Measured,
    /// Elevation of the site.
    pub elevation: Measured,
    /// The composition of the vapour.
    pub mix: Mix,
}

/// The time to reach an end pressure, and the amount recovered by then.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ToPressure {
    /// The minutes from the start.
    pub minutes: Computed,
    /// The amount recovered by then, gal at 60 °F.
    pub gallons: Computed,
    /// The rate at the end, gal/h at 60 °F, which is the most that another hour would yield.
    pub marginal: Computed,
}

impl PumpDown {
    /// Density of the vapour (kg/m³) at psi parts that sum to absolute; saturated where the sum is above it.
    fn density(&self, kelvin: f64, psia: f64) -> Result<f64, CalcError> {
        let pascal = Unit::PsiAbsolute.to_si(psia);
        match fluid::vapour_density(&self.mix, kelvin, pascal) {
            Err(CalcError::AboveSaturation { .. }) => Ok(fluid::dew(&self.mix, kelvin)?.vapour),
            other => other,
        }
    }

    fn findings(&self, kelvin: f64, start_psia: f64) -> Result<Vec<Finding>, CalcError> {
        let mut findings = vec![Finding::new(
            "isothermal_no_heel",
            Severity::Note,
            Message::new("calc-recovery-isothermal"),
        )];
        if kelvin <= fluid::highest_kelvin(&self.mix) {
            let saturation = Unit::PsiAbsolute.from_si(fluid::dew(&self.mix, kelvin)?.pascal);
            if start_psia >= saturation {
                findings.push(Finding::new(
                    "start_at_saturation",
                    Severity::Check,
                    message!(
                        "calc-recovery-saturated",
                        start = Unit::PsiAbsolute.figure(start_psia, 1),
                        saturation = Unit::PsiAbsolute.figure(saturation, 1),
                    ),
                ));
            }
        }
        Ok(findings)
    }

    /// Minutes, gallons and marginal rate down to an end pressure.
    ///
    /// Inputs: see [`PumpDown`]; `end` gauge or absolute, below the start. Method: t = (V/Sη) ln(ρ1/ρ2),
    /// densities by equation of state; time follows density, the pressure form is 9–16 % short. Units: gal,
    /// °F, psi, ft³/min. What makes it wrong: liquid left, a swept volume at another speed, an efficiency
    /// that falls as the pressure ratio grows, a car that chills.
    ///
    /// # Errors
    /// Out of range, wrong unit, not a number, an end not below the start.
    pub fn to_pressure(&self, end: &Measured) -> Result<ToPressure, CalcError> {
        let volume = self.volume.checked(SHELL_GAL)?.to(Unit::CubicFoot)?;
        let temperature = self.temperature.checked(fluid::TEMPERATURE_F)?.to(Unit::Kelvin)?;
        let swept = self.swept.checked(SWEPT_CFM)?;
        let efficiency = self.efficiency.checked(EFFICIENCY)?;
        let start = absolute_pressure(&self.start, &self.elevation)?;
        let finish = absolute_pressure(end, &self.elevation)?;
        // Both readings share one atmospheric pressure, so its error counts once although it does not cancel.
        let atmosphere = if start[1].value > 0.0 { &start[1] } else { &finish[1] };
        let air = |reading: &Measured, air: f64| if reading.unit == Unit::PsiAbsolute { 0.0 } else { air };
        let (start_psia, end_psia) = (
            start[0].value + air(&start[0], atmosphere.value),
            finish[0].value + air(&finish[0], atmosphere.value),
        );
        if end_psia >= start_psia {
            return Err(CalcError::Inconsistent(message!(
                "calc-recovery-end",
                end = Unit::PsiAbsolute.figure(end_psia, 1),
                start = Unit::PsiAbsolute.figure(start_psia, 1),
            )));
        }
        let findings = self.findings(temperature.value, start_psia)?;
        let base = fluid::liquid_60f(&self.mix)?;
        let inputs = [&volume, &temperature, &swept, &efficiency, &start[0], &finish[0], atmosphere];
        let densities = |x: &[f64]| -> Result<(f64, f64), CalcError> {
            Ok((
                self.density(x[1], x[4] + air(&start[0], x[6]))?,
                self.density(x[1], x[5] + air(&finish[0], x[6]))?,
            ))
        };
        let [minutes, gallons, marginal] = propagate_all(&inputs, [METHOD; 3], |x| {
            let (first, last) = densities(x)?;
            let swept = x[2] * x[3];
            Ok([
                x[0] / swept * (first / last).ln(),
                Unit::Gallon.from_si(Unit::CubicFoot.to_si(x[0]) * (first - last) / base),
                Unit::GallonPerHour.from_si(Unit::CubicFootPerMinute.to_si(swept) * last / base),
            ])
        })?;
        let source = self.source();
        Ok(ToPressure {
            minutes: minutes.computed(Unit::Minute, FORMULA, &source, findings),
            gallons: gallons.computed(Unit::Gallon, "recovered/1", &source, Vec::new()),
            marginal: marginal.computed(Unit::GallonPerHour, "marginal_recovery/1", &source, Vec::new()),
        })
    }

    /// Returns the pressure at which another hour no longer pays, and the time to reach it.
    ///
    /// Inputs: `price` of a gallon, `cost` of an hour running, in one currency, each above 0 and below 1e6.
    /// Method: the pressure at which Sηρ/ρ60 × price = cost. What makes it wrong: a price that lacks freight
    /// or tax it should include, and everything named at [`PumpDown::to_pressure`].
    ///
    /// # Errors
    /// Out of range; [`CalcError::Inconsistent`] if an hour never pays, or still pays at the lowest pressure.
    pub fn economic_stop(&self, price: f64, cost: f64) -> Result<EconomicStop, CalcError> {
        const MONEY: Range = Range::new(1e-6, 1e6, Unit::Money, Limits::Unsaid);
        let (price, cost) = (MONEY.check("price of a gallon", price)?, MONEY.check("cost of an hour", cost)?);
        let temperature = self.temperature.checked(fluid::TEMPERATURE_F)?.to(Unit::Kelvin)?;
        let swept = self.swept.checked(SWEPT_CFM)?;
        let efficiency = self.efficiency.checked(EFFICIENCY)?;
        let start = absolute_pressure(&self.start, &self.elevation)?;
        let base = fluid::liquid_60f(&self.mix)?;
        let pays_per_hour = |psia: f64| -> Result<f64, CalcError> {
            let rate = Unit::CubicFootPerMinute.to_si(swept.value * efficiency.value);
            Ok(price * Unit::GallonPerHour.from_si(rate * self.density(temperature.value, psia)? / base))
        };
        let (mut low, mut high) = (1.0_f64, start[0].value + start[1].value);
        if pays_per_hour(high)? <= cost {
            return Err(CalcError::Inconsistent(Message::new("calc-recovery-never-pays")));
        }
        if pays_per_hour(low)? >= cost {
            return Err(CalcError::Inconsistent(Message::new("calc-recovery-always-pays")));
        }
        for _ in 0..60 {
            let middle = 0.5 * (low + high);
            if pays_per_hour(middle)? > cost { high = middle } else { low = middle }
        }
        let stop = Measured::exact("stop pressure", 0.5 * (low + high), Unit::PsiAbsolute);
        let way = self.to_pressure(&stop)?;
        let air = start[1].value;
        Ok(EconomicStop { psia: stop.value, psig: (air > 0.0).then_some(stop.value - air), way })
    }

    fn source(&self) -> Message {
        sources::several([sources::cited(sources::RECOVERY), self.mix.source()])
    }
}

/// The pressure at which recovery stops paying.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct EconomicStop {
    /// Absolute, psia.
    pub psia: f64,
    /// Gauge at the site, psi, when the start was a gauge reading.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub psig: Option<f64>,
    /// Time, gallons and rate down to it.
    pub way: ToPressure,
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a test may stop at a surprise")]
    use super::super::fluid::Fluid;
    use super::*;

    fn car(swept: f64) -> PumpDown {
        PumpDown {
            volume: Measured::exact("shell", 33_700.0, Unit::Gallon),
            temperature: Measured::within("temperature", 80.0, Unit::Fahrenheit, 5.0),
            start: Measured::within("start pressure", 125.0, Unit::PsiGauge, 3.2),
            swept: Measured::exact("swept volume", swept, Unit::CubicFootPerMinute),
            efficiency: Measured::exact("efficiency", 1.0, Unit::One),
            elevation: Measured::exact("elevation", 0.0, Unit::Foot),
            mix: Mix::pure(Fluid::Propane),
        }
    }

    /// The isothermal pressure form gives 117 min at 36 ft³/min from 125 to 40 psig in 4 505 ft³ (independent
    /// calculation); density makes it 9 to 16 % longer.
    #[test]
    fn the_time_is_longer_than_the_pressure_form_says() {
        let end = Measured::within("end pressure", 40.0, Unit::PsiGauge, 1.2);
        let way = car(36.0).to_pressure(&end).unwrap();
        assert!(
            way.minutes.value > 1.09 * 117.0 && way.minutes.value < 1.20 * 117.0,
            "{}",
            way.minutes.value
        );
        assert!(way.minutes.plus_minus.unwrap() > 0.0);
        assert!(way.gallons.value > 900.0 && way.gallons.value < 1_400.0, "{}", way.gallons.value);
    }

    #[test]
    fn the_last_hour_that_pays_brings_what_it_costs() {
        let car = car(29.0);
        let stop = car.economic_stop(1.0, 120.0).unwrap();
        assert!((stop.way.marginal.value - 120.0).abs() < 0.01, "{}", stop.way.marginal.value);
        assert!(stop.psig.unwrap() > 0.0 && stop.psig.unwrap() < 125.0);
        assert!(car.economic_stop(0.001, 500.0).is_err());
        assert!(car.economic_stop(-1.0, 500.0).is_err());
    }

    #[test]
    fn a_start_at_saturation_warns_of_liquid_and_a_rise_is_refused() {
        let mut wet = car(36.0);
        wet.start = Measured::within("start pressure", 131.0, Unit::PsiGauge, 3.2);
        let end = Measured::within("end pressure", 40.0, Unit::PsiGauge, 1.2);
        let way = wet.to_pressure(&end).unwrap();
        assert!(way.minutes.findings.iter().any(|finding| finding.code == "start_at_saturation"));
        let up = Measured::exact("end pressure", 126.0, Unit::PsiGauge);
        assert!(matches!(car(36.0).to_pressure(&up), Err(CalcError::Inconsistent(_))));
    }
}
