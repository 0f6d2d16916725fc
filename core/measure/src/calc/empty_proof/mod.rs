//! Is the liquid out? Weighs the evidence piece by piece and says what each is worth.
//!
//! Lives here: what may be given ([`Evidence`]), what comes out ([`Weighed`]), how the pieces are put together.
//! Each piece is judged in `pieces`. Called by the view before the release; a person decides and signs.
//!
//! **Model, not field-tested.** Its thresholds come from a calculation (lumped car, propane, compressor of 29 and
//! 60 ft³/min), not from cars. It errs towards "liquid indicated": one piece that shows liquid outweighs all
//! that show none.

mod pieces;

use serde::{Deserialize, Serialize};

use super::error::CalcError;
use super::fluid::{self, Composition, Mix};
use super::uncertainty::Measured;
use crate::units::{Computed, Unit};

/// What stands beside every outcome.
pub const CAUTION: &str = "Model, not field-tested. It weighs what was recorded; it does not know the car. \
                           A person decides and signs; a car shipped as residue with liquid in it hurts the next one who opens it.";
/// Superheat above which the low part of the tank counts as dry, °F. Model.
pub const DRY_SUPERHEAT_F: f64 = 8.0;
/// Superheat under which it counts as wet, °F. Model.
pub const WET_SUPERHEAT_F: f64 = 4.0;
/// Superheat says nothing when the pressure saturates nearer than this to the outside temperature, °F. Model.
pub const NEAR_AMBIENT_F: f64 = 10.0;
/// A rebound above this shows liquid, psi: over twice what a dry car at 60 ft³/min shows in 15 min. Model.
pub const LARGE_REBOUND_PSI: f64 = 2.0;

/// What the gauge rod shows.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum GaugeRod {
    /// At the bottom of its travel, no liquid seen or felt.
    AtBottom,
    /// It finds liquid.
    FindsLiquid,
}

/// What comes out of a liquid valve.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum LiquidValve {
    /// Vapour alone.
    Vapour,
    /// Liquid, or spray that chills white.
    Liquid,
}

/// A hold with the compressor stopped and the car shut.
#[derive(Clone, Debug, PartialEq)]
pub struct HoldTest {
    /// Pressure when the compressor stopped.
    pub start: Measured,
    /// Pressure at the end, on the same gauge.
    pub end: Measured,
    /// How long it was held.
    pub minutes: f64,
}

/// All that is known. Every piece may be missing; what is missing is asked for.
#[derive(Clone, Debug, PartialEq)]
pub struct Evidence {
    /// What the product is, known or presumed.
    pub composition: Composition,
    /// Elevation of the site.
    pub elevation: Measured,
    /// The gauge rod.
    pub gauge_rod: Option<GaugeRod>,
    /// The liquid valve.
    pub liquid_valve: Option<LiquidValve>,
    /// Pressure in the car, read at the car.
    pub pressure: Option<Measured>,
    /// Temperature low in the tank (well or shell at the bottom).
    pub low_temperature: Option<Measured>,
    /// Outside temperature.
    pub ambient: Option<Measured>,
    /// The hold test.
    pub hold: Option<HoldTest>,
}

/// What a piece speaks for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "shell-types", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Says {
    /// Liquid is there.
    Liquid,
    /// No liquid is there.
    NoLiquid,
    /// Nothing either way.
    Nothing,
}

/// How much a piece weighs.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[cfg_attr(feature = "shell-types", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Weight {
    /// Nothing.
    None,
    /// A hint: it misses a heel below its reach.
    Weak,
    /// It separates wet from dry in the model.
    Moderate,
    /// It could not be so otherwise, readings granted.
    Strong,
}

/// One piece of evidence, judged.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "shell-types", derive(ts_rs::TS))]
pub struct Piece {
    /// Stable name: gauge_rod, liquid_valve, superheat, hold_test, saturation_bound.
    #[cfg_attr(
        feature = "shell-types",
        ts(type = "\"gauge_rod\" | \"liquid_valve\" | \"superheat\" | \"hold_test\" | \"saturation_bound\"")
    )]
    pub name: &'static str,
    /// What it speaks for.
    pub says: Says,
    /// How much it weighs.
    pub weight: Weight,
    /// Why, with the arithmetic.
    pub reason: String,
    /// The number behind it, where there is one.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "shell-types", ts(optional))]
    pub computed: Option<Computed>,
}

/// What all of it together indicates. Never "empty": that is a person's word.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "shell-types", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Outcome {
    /// A piece shows liquid.
    LiquidIndicated,
    /// The superheat shows none, something else agrees, and nothing speaks against it.
    NoLiquidIndicated,
    /// Neither.
    NotEnoughEvidence,
}

/// The evidence, weighed.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(feature = "shell-types", derive(ts_rs::TS))]
pub struct Weighed {
    /// What it indicates.
    pub outcome: Outcome,
    /// Each piece that was given.
    pub pieces: Vec<Piece>,
    /// What to do next, most telling first.
    pub next: Vec<String>,
    /// What stands beside every outcome.
    pub caution: &'static str,
}

/// Weighs the evidence.
///
/// Inputs: see [`Evidence`]; temperatures −80 to 200 °F, pressures gauge or absolute, hold 1 to 1 440 min. Method:
/// each piece by the rules in `pieces`; any piece that shows liquid decides; "no liquid indicated" takes a
/// valid superheat that shows none and one more piece that agrees. What makes it wrong: a thermometer in the
/// sun or high in the tank, a gauge not at the car, a heel of heavier product than presumed.
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
    Ok(Weighed { outcome, pieces, next, caution: CAUTION })
}

/// Superheat of a vapour: its temperature less that at which it would condense at the pressure, °F.
///
/// Inputs: temperature (−80 to 200 °F), the two psi parts of the absolute pressure (see
/// [`super::residue::absolute_pressure`]), composition. Method: dew temperature by equation of state. What makes
/// it wrong: a temperature not taken low in the tank, a heel heavier than the composition given.
///
/// # Errors
/// Out of range, wrong unit, not a number, not converged.
pub fn superheat(temperature: &Measured, parts: &[Measured; 2], mix: &Mix) -> Result<Computed, CalcError> {
    let temperature = temperature.checked(fluid::TEMPERATURE_F)?;
    let found = pieces::superheat(&temperature, parts, mix)?;
    let findings = super::quantity::estimated_pair(mix);
    Ok(found.computed(Unit::FahrenheitDifference, pieces::SUPERHEAT, &mix.source(), findings))
}

fn next_steps(evidence: &Evidence, outcome: Outcome, pieces: &[Piece]) -> Vec<String> {
    let mut next = Vec::new();
    if outcome == Outcome::LiquidIndicated {
        next.push("Go back to taking liquid off, then to recovery; do not disconnect as empty.".to_owned());
        next.push("Afterwards weigh it again with fresh readings.".to_owned());
        return next;
    }
    let wanted = [
        (evidence.pressure.is_none(), "Read the pressure at the car on a low-range gauge."),
        (
            evidence.low_temperature.is_none(),
            "Read the temperature low in the tank, in the well or on the shell's underside, out of the sun.",
        ),
        (evidence.ambient.is_none(), "Record the outside temperature in the shade."),
        (
            evidence.liquid_valve.is_none(),
            "Crack a liquid valve through the line and see what comes: vapour or liquid.",
        ),
        (evidence.gauge_rod.is_none(), "Lower the gauge rod to the bottom."),
        (
            evidence.hold.is_none(),
            "Stop the compressor, shut the car, and hold 15 min: a large rise means liquid; no rise proves nothing.",
        ),
    ];
    if outcome == Outcome::NotEnoughEvidence {
        next.extend(wanted.iter().filter(|(missing, _)| *missing).map(|(_, step)| (*step).to_owned()));
        let blind = |piece: &Piece| piece.name == "superheat" && piece.says == Says::Nothing;
        if pieces.iter().any(blind) {
            next.push(
                "Draw the pressure further down and read pressure and low temperature again: superheat separates better at a lower pressure."
                    .to_owned(),
            );
        }
    }
    next.push("Whoever signs looks at each piece above and decides.".to_owned());
    next
}

#[cfg(test)]
mod tests;
