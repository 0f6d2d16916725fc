//! Advice from formulas: wear of a fitting, freezing, and the evidence of whether the liquid is out.

use super::inputs::{Inputs, refused};
use crate::calc::empty_proof::{self, Evidence, GaugeRod, HoldTest, LiquidValve, Weighed};
use crate::calc::error::CalcError;
use crate::calc::{freeze as calc_freeze, wear as calc_wear};
use crate::entry::vocabulary::{EmptySign, Fitting, Measured as What, Part, Place, Precipitation, Purpose};
use crate::units::{Finding, Severity, Unit};
use crate::view::car::CarView;
use crate::{Message, message};

const DAY_MILLIS: f64 = 86_400_000.0;

/// The number of the latest efforts of a fitting that are judged. A fitting is closed once or twice per
/// visit, and the slope is computed from every pair of efforts.
const EFFORTS: usize = 128;

/// Returns advice from a fitting's history for the next person who works on it.
pub fn wear(fitting: Fitting, car: &CarView) -> Vec<Finding> {
    let efforts: Vec<calc_wear::Effort> = car
        .efforts
        .iter()
        .filter(|point| point.fitting == fitting && point.part == Part::Valve)
        .filter_map(|point| {
            let foot_pounds = point.amount.value_in(Unit::FootPound)?;
            let effort = calc_wear::Effort { day: point.at.0 as f64 / DAY_MILLIS, foot_pounds };
            // A single impossible effort, caused by a typing error, must not suppress the others.
            calc_wear::judge(&[effort], calc_wear::EffortBand::default()).is_ok().then_some(effort)
        })
        .collect();
    if efforts.is_empty() {
        return Vec::new();
    }
    let efforts = &efforts[efforts.len().saturating_sub(EFFORTS)..];
    let judged = calc_wear::judge(efforts, calc_wear::EffortBand::default());
    let mut findings = judged.map_or(Vec::new(), |wear| wear.findings);
    for finding in &mut findings {
        finding.message =
            message!("finding-of-fitting", fitting = fitting.term(), says = finding.message.clone());
    }
    findings
}

/// Returns advice on what cold and wet weather mean for the fittings now.
pub fn freeze(inputs: &Inputs<'_>) -> Vec<Finding> {
    let advice = || -> Option<Result<Vec<Finding>, CalcError>> {
        let air = inputs.air_temperature()?.amount.value_in(Unit::Fahrenheit)?;
        let elevation = inputs.elevation().ok()?.to(Unit::Foot).ok()?.value;
        let (_, composition) = inputs.composition().ok()?;
        let mix = composition.mixes().ok()?.into_iter().next()?;
        let precipitation = match inputs.precipitation() {
            None | Some(Precipitation::Dry) => calc_freeze::Precipitation::None,
            Some(Precipitation::Rain) => calc_freeze::Precipitation::Rain,
            Some(Precipitation::FreezingRain) => calc_freeze::Precipitation::FreezingRain,
            Some(Precipitation::Snow) => calc_freeze::Precipitation::Snow,
            Some(Precipitation::Frost) => calc_freeze::Precipitation::Frost,
        };
        let liquid_may_flash = inputs.liquid_may_flash;
        Some(calc_freeze::advice(&calc_freeze::Conditions {
            air,
            precipitation,
            mix,
            elevation,
            liquid_may_flash,
        }))
    };
    match advice() {
        Some(Ok(advice)) => advice,
        Some(Err(refusal)) => {
            vec![Finding::new(
                "freeze_advice_refused",
                Severity::Note,
                message!("finding-no-freeze-advice", why = refused(refusal)),
            )]
        }
        None => Vec::new(),
    }
}

/// Weighs the recorded evidence of whether the liquid is out. Returns `None` if none was recorded.
pub fn weigh(inputs: &Inputs<'_>) -> Option<Result<Weighed, Message>> {
    let last = |purpose, what, place| inputs.series(purpose, what, place).last().map(|(_, reading)| *reading);
    let pressure = last(Purpose::EmptyProof, What::Pressure, Place::Car);
    let low = last(Purpose::EmptyProof, What::Temperature, Place::CarLow);
    // Recovery between two readings separates one hold from the next, so only readings after the last
    // recovery count.
    let recovered = inputs.series(Purpose::Recovery, What::Pressure, Place::Car).last().map(|(at, _)| *at);
    let hold = inputs.series(Purpose::HoldTest, What::Pressure, Place::Car);
    let hold = &hold[hold.partition_point(|(at, _)| recovered.is_some_and(|recovered| *at < recovered))..];
    if !inputs.has_signs() && pressure.is_none() && low.is_none() && hold.len() < 2 {
        return None;
    }
    let evidence = || -> Result<Evidence, Message> {
        let liquid_valve =
            match (inputs.sign(EmptySign::LiquidAtClosure), inputs.sign(EmptySign::VapourAtLiquidValve)) {
                (Some(true), _) | (_, Some(false)) => Some(LiquidValve::Liquid),
                (_, Some(true)) => Some(LiquidValve::Vapour),
                _ => None,
            };
        let gauge_rod = inputs
            .sign(EmptySign::RodAtBottom)
            .map(|at_bottom| if at_bottom { GaugeRod::AtBottom } else { GaugeRod::FindsLiquid });
        let hold = match (hold.first(), hold.last()) {
            (Some((from, start)), Some((until, end))) if until > from => Some(HoldTest {
                start: inputs.pressure(start)?.measured,
                end: inputs.pressure(end)?.measured,
                minutes: until.since(*from) as f64 / 60_000.0,
            }),
            _ => None,
        };
        Ok(Evidence {
            composition: inputs.composition()?.1,
            elevation: inputs.elevation()?,
            gauge_rod,
            liquid_valve,
            pressure: pressure
                .map(|reading| inputs.pressure(reading))
                .transpose()?
                .map(|input| input.measured),
            low_temperature: low
                .map(|reading| inputs.temperature(reading))
                .transpose()?
                .map(|input| input.measured),
            ambient: inputs
                .air_temperature()
                .map(|reading| inputs.temperature(reading))
                .transpose()?
                .map(|input| input.measured),
            hold,
        })
    };
    Some(evidence().and_then(|evidence| empty_proof::weigh(&evidence).map_err(refused)))
}
