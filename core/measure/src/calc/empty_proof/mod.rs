//! The evidence of whether the liquid is out, weighed piece by piece.
//!
//! This module defines the input ([`Evidence`]), the result ([`Weighed`]), and how the pieces are combined.
//! Each piece is judged in `pieces`. The view calls this module before the release; a person decides and
//! signs.
//!
//! **Model, not field-tested.** Its thresholds come from a calculation (lumped car, propane, compressor of 29
//! and 60 ft³/min) and not from measurements on cars. It errs towards "liquid indicated": a single piece that
//! indicates liquid outweighs all that indicate none.

mod pieces;

use serde::{Deserialize, Serialize};

use super::error::CalcError;
use super::fluid::{self, Composition, Mix};
use super::uncertainty::Measured;
use crate::Message;
use crate::units::{Computed, Unit};

/// The superheat above which the bottom of the tank counts as dry, °F; the whole uncertainty must lie above
/// it. Model.
pub const DRY_SUPERHEAT_F: f64 = 8.0;
/// The superheat below which the bottom of the tank counts as wet, °F. Model.
pub const WET_SUPERHEAT_F: f64 = 4.0;
/// The superheat is inconclusive if the saturation temperature at the pressure is closer than this to the
/// outside temperature, °F. Model.
pub const NEAR_AMBIENT_F: f64 = 10.0;
/// A rise in pressure above this value during a hold indicates liquid, psi. It is more than twice what a dry
/// car shows within 15 min after a compressor of 60 ft³/min has stopped. Model.
pub const LARGE_REBOUND_PSI: f64 = 2.0;

/// The result of gauging with the rod.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum GaugeRod {
    /// The rod is at the bottom of its travel, and no liquid was seen or felt.
    AtBottom,
    /// The rod meets liquid.
    FindsLiquid,
}

/// The result of opening a liquid valve.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum LiquidValve {
    /// Only vapour comes out.
    Vapour,
    /// Liquid, or a spray that leaves white frost, comes out.
    Liquid,
}

/// A hold test with the compressor stopped and the car shut.
#[derive(Clone, Debug, PartialEq)]
pub struct HoldTest {
    /// The pressure when the compressor stopped.
    pub start: Measured,
    /// The pressure at the end, on the same gauge.
    pub end: Measured,
    /// The duration in minutes.
    pub minutes: f64,
}

/// All evidence. Every piece may be missing; missing pieces are requested in the result.
#[derive(Clone, Debug, PartialEq)]
pub struct Evidence {
    /// The composition of the product, known or presumed.
    pub composition: Composition,
    /// The elevation of the site.
    pub elevation: Measured,
    /// The result of gauging with the rod.
    pub gauge_rod: Option<GaugeRod>,
    /// The result of opening a liquid valve.
    pub liquid_valve: Option<LiquidValve>,
    /// The pressure in the car, read at the car.
    pub pressure: Option<Measured>,
    /// The temperature at the bottom of the tank (in the well or on the shell).
    pub low_temperature: Option<Measured>,
    /// The outside temperature.
    pub ambient: Option<Measured>,
    /// The hold test.
    pub hold: Option<HoldTest>,
}

/// The indication of a piece of evidence.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "shell-types", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Says {
    /// The piece indicates liquid.
    Liquid,
    /// The piece indicates no liquid.
    NoLiquid,
    /// The piece is inconclusive.
    Nothing,
}

/// The weight of a piece of evidence.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[cfg_attr(feature = "shell-types", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Weight {
    /// No weight.
    None,
    /// A hint, which misses a small remainder of liquid.
    Weak,
    /// The piece separates wet from dry cars in the model.
    Moderate,
    /// Given correct readings, no other explanation is possible.
    Strong,
}

/// One judged piece of evidence.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "shell-types", derive(ts_rs::TS))]
pub struct Piece {
    /// A stable name: gauge_rod, liquid_valve, superheat, hold_test, saturation_bound.
    #[cfg_attr(
        feature = "shell-types",
        ts(type = "\"gauge_rod\" | \"liquid_valve\" | \"superheat\" | \"hold_test\" | \"saturation_bound\"")
    )]
    pub name: &'static str,
    /// The indication.
    pub says: Says,
    /// The weight.
    pub weight: Weight,
    /// The reason, with the arithmetic.
    pub reason: Message,
    /// The number behind the judgement, if there is one.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "shell-types", ts(optional))]
    pub computed: Option<Computed>,
}

/// The indication of all evidence together. There is no outcome "empty", because that decision is a person's.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "shell-types", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Outcome {
    /// At least one piece indicates liquid.
    LiquidIndicated,
    /// The superheat indicates no liquid, another piece agrees, and none indicates liquid.
    NoLiquidIndicated,
    /// Neither of the other outcomes applies.
    NotEnoughEvidence,
}

/// The weighed evidence.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "shell-types", derive(ts_rs::TS))]
pub struct Weighed {
    /// The outcome.
    pub outcome: Outcome,
    /// The judged pieces.
    pub pieces: Vec<Piece>,
    /// The next measurements to make, the most conclusive first.
    pub next: Vec<Message>,
    /// The caution shown with every outcome.
    pub caution: Message,
}

/// Weighs the evidence.
///
/// Inputs: see [`Evidence`]; temperatures −80 to 200 °F, pressures gauge or absolute, hold 1 to 1 440 min.
/// Method: each piece by the rules in `pieces`; any piece that shows liquid decides; "no liquid indicated"
/// takes a valid superheat that shows none and one more piece that agrees. What makes it wrong: a thermometer
/// in the sun or high in the tank, a gauge not at the car, a heel of heavier product than presumed.
///
/// # Errors
/// Out of range, wrong unit, not a number. Missing pieces are no error.
pub fn weigh(evidence: &Evidence) -> Result<Weighed, CalcError> {
    let mut pieces = Vec::new();
    pieces.extend(evidence.gauge_rod.map(pieces::gauge_rod));
    pieces.extend(evidence.liquid_valve.map(pieces::liquid_valve));
    if let (Some(pressure), Some(low)) = (&evidence.pressure, &evidence.low_temperature) {
        let around = pieces::Around {
            pressure,
            low,
            ambient: evidence.ambient.as_ref(),
            elevation: &evidence.elevation,
            composition: &evidence.composition,
        };
        pieces.push(around.saturation_bound()?);
        pieces.push(around.superheat()?);
    }
    if let Some(hold) = &evidence.hold {
        pieces.push(pieces::hold_test(hold, &evidence.elevation)?);
    }
    let shows = |name: &str, says: Says| pieces.iter().any(|piece| piece.name == name && piece.says == says);
    let liquid = pieces.iter().any(|piece| piece.says == Says::Liquid && piece.weight >= Weight::Moderate);
    let agrees = shows("gauge_rod", Says::NoLiquid) || shows("liquid_valve", Says::NoLiquid);
    let outcome = if liquid {
        Outcome::LiquidIndicated
    } else if shows("superheat", Says::NoLiquid) && agrees {
        Outcome::NoLiquidIndicated
    } else {
        Outcome::NotEnoughEvidence
    };
    let next = next_steps(evidence, outcome, &pieces);
    Ok(Weighed { outcome, pieces, next, caution: Message::new("calc-empty-caution") })
}

/// Superheat of a vapour: its temperature less that at which it would condense at the pressure, °F.
///
/// Inputs: temperature (−80 to 200 °F), the two psi parts of the absolute pressure (see
/// [`super::residue::absolute_pressure`]), composition. Method: dew temperature by equation of state. What
/// makes it wrong: a temperature not taken low in the tank, a heel heavier than the composition given.
///
/// # Errors
/// Out of range, wrong unit, not a number, not converged.
pub fn superheat(temperature: &Measured, parts: &[Measured; 2], mix: &Mix) -> Result<Computed, CalcError> {
    let temperature = temperature.checked(fluid::TEMPERATURE_F)?;
    let found = pieces::superheat(&temperature, parts, mix)?;
    let findings = super::quantity::estimated_pair(mix);
    Ok(found.computed(Unit::FahrenheitDifference, pieces::SUPERHEAT, &mix.source(), findings))
}

fn next_steps(evidence: &Evidence, outcome: Outcome, pieces: &[Piece]) -> Vec<Message> {
    let mut next = Vec::new();
    if outcome == Outcome::LiquidIndicated {
        next.push(Message::new("calc-next-liquid-off"));
        next.push(Message::new("calc-next-again"));
        return next;
    }
    let wanted = [
        (evidence.pressure.is_none(), "calc-next-pressure"),
        (evidence.low_temperature.is_none(), "calc-next-low-temperature"),
        (evidence.ambient.is_none(), "calc-next-outside"),
        (evidence.liquid_valve.is_none(), "calc-next-liquid-valve"),
        (evidence.gauge_rod.is_none(), "calc-next-rod"),
        (evidence.hold.is_none(), "calc-next-hold"),
    ];
    if outcome == Outcome::NotEnoughEvidence {
        next.extend(wanted.iter().filter(|(missing, _)| *missing).map(|(_, step)| Message::new(step)));
        let blind = |piece: &Piece| piece.name == "superheat" && piece.says == Says::Nothing;
        if pieces.iter().any(blind) {
            next.push(Message::new("calc-next-draw-down"));
        }
    }
    next.push(Message::new("calc-next-decide"));
    next
}

#[cfg(test)]
mod tests;
