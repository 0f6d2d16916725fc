//! The progress of a transfer: the rate and the remaining time from the readings so far, and whether the flow
//! has stalled or reversed.
//!
//! The view calls this module after each reading during a transfer, and `calc::lines` calls it as well.

use serde::Serialize;

use super::error::{CalcError, Limits, Range};
use super::sources;
use super::wear::{Slope, theil_sen};
use crate::Message;
use crate::units::{Computed, Finding, Severity, Unit};

/// Formula id.
pub const FORMULA: &str = "transfer_rate/1";
/// The number of latest readings that determine the present rate.
const RECENT: usize = 6;

/// The shortest distance between two readings in minutes; closer ones count as one reading.
const SHORTEST: f64 = 1.0 / 60.0;

/// One reading of the level in the car.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Level {
    /// Minutes since the transfer began.
    pub minutes: f64,
    /// Liquid left in the car, gal.
    pub gallons: f64,
}

/// The state of the flow.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Flow {
    /// Liquid leaves the car.
    Going,
    /// The rate is below a fifth of the earlier rate.
    Slowing,
    /// The level changes by less than a reading can show.
    Stalled,
    /// Liquid flows back into the car.
    Reversed,
}

/// The rate, the remaining time, and the state of the flow.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Progress {
    /// The present rate out of the car, gal/min; negative if the flow is reversed.
    pub rate: Computed,
    /// The minutes until `target` is left at the present rate; absent if nothing flows.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub minutes_left: Option<Computed>,
    /// The state of the flow.
    pub flow: Flow,
}

/// Rate and time left.
///
/// Inputs: readings in time order, 3 or more, minutes rising, gallons 0 to 1 000 000; `level_limit`:
/// half-width of one level reading, gal; `target`: gallons at which to stop. Method: Theil–Sen slope of the
/// last six readings, so that one misreading does not carry; its spread as in [`theil_sen`]. Stalled: the
/// level moved less than twice a reading's limit over the last three readings while the earlier rate would
/// have moved it more. What makes it wrong: readings of the receiver taken for the car's, level read while it
/// surges.
///
/// # Errors
/// Too few readings, times that do not rise, out of range, not a number.
pub fn progress(readings: &[Level], level_limit: f64, target: f64) -> Result<Progress, CalcError> {
    let minutes = Range::new(0.0, 100_000.0, Unit::Minute, Limits::Unsaid);
    let gallons = super::quantity::VOLUME_GAL;
    gallons.check("target", target)?;
    Range::new(0.0, 10_000.0, Unit::Gallon, Limits::Unsaid).check("level limit", level_limit)?;
    for reading in readings {
        minutes.check("time", reading.minutes)?;
        gallons.check("level", reading.gallons)?;
    }
    if readings.len() < 3 {
        return Err(CalcError::missing("three level readings", Unit::Gallon));
    }
    if readings.windows(2).any(|pair| pair[1].minutes - pair[0].minutes < SHORTEST) {
        return Err(CalcError::Inconsistent(Message::new("calc-level-times")));
    }
    let points: Vec<(f64, f64)> = readings.iter().map(|reading| (reading.minutes, reading.gallons)).collect();
    let recent = &points[points.len().saturating_sub(RECENT)..];
    let Slope { slope, plus_minus } = theil_sen(recent)?;
    let rate = -slope;
    let last_three = &points[points.len() - 3..];
    let moved = last_three[0].1 - last_three[2].1;
    let elapsed = last_three[2].0 - last_three[0].0;
    let earlier = (points.len() > 3)
        .then(|| theil_sen(&points[..points.len() - 2]).map(|earlier| -earlier.slope))
        .transpose()?;
    let telling = 2.0 * level_limit;
    let flow = if moved < -telling {
        Flow::Reversed
    } else if moved.abs() <= telling && earlier.is_none_or(|earlier| earlier * elapsed > telling) {
        Flow::Stalled
    } else if earlier.is_some_and(|earlier| earlier > 0.0 && moved / elapsed < 0.2 * earlier) {
        Flow::Slowing
    } else {
        Flow::Going
    };
    let said = |id| {
        Message::new(id)
            .with("moved", Unit::Gallon.figure(moved, 0))
            .with("elapsed", Unit::Minute.figure(elapsed, 0))
            .with("limit", Unit::Gallon.figure(level_limit, 0))
    };
    let finding = match flow {
        Flow::Going => None,
        Flow::Slowing => Some(Finding::new("slowing", Severity::Check, said("calc-flow-slowing"))),
        Flow::Stalled => Some(Finding::new("stalled", Severity::Check, said("calc-flow-stalled"))),
        Flow::Reversed => Some(Finding::new("reversed", Severity::Alarm, said("calc-flow-reversed"))),
    };
    let computed = |value: f64, unit: Unit, spread: f64, findings: Vec<Finding>| Computed {
        value,
        unit,
        plus_minus: (spread > 0.0).then_some(spread),
        largest: (spread > 0.0).then(|| Message::new("measure-largest-scatter-of-readings")),
        formula: FORMULA.to_owned(),
        source: sources::said("calc-source-slope-of-readings"),
        findings,
    };
    let left = (points[points.len() - 1].1 - target).max(0.0);
    let minutes_left = (matches!(flow, Flow::Going | Flow::Slowing) && rate > 0.0).then(|| {
        let minutes = left / rate;
        computed(
            minutes,
            Unit::Minute,
            minutes * (plus_minus / rate).hypot(level_limit / left.max(level_limit)),
            Vec::new(),
        )
    });
    // If the scatter of the rate exceeds the rate itself, the remaining time would be meaningless.
    let minutes_left = minutes_left.filter(|minutes| minutes.value.is_finite() && plus_minus < rate);
    Ok(Progress {
        rate: computed(rate, Unit::GallonPerMinute, plus_minus, finding.into_iter().collect()),
        minutes_left,
        flow,
    })
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a test may stop at a surprise")]
    use super::*;

    fn levels(gallons: &[f64]) -> Vec<Level> {
        gallons
            .iter()
            .enumerate()
            .map(|(at, gallons)| Level { minutes: 10.0 * at as f64, gallons: *gallons })
            .collect()
    }

    #[test]
    fn a_steady_transfer_gives_its_rate_and_the_time_left() {
        let going = progress(&levels(&[30_000.0, 28_520.0, 26_990.0, 25_510.0]), 50.0, 0.0).unwrap();
        assert_eq!(going.flow, Flow::Going);
        assert!((going.rate.value - 150.0).abs() < 2.0, "{}", going.rate.value);
        assert!((going.minutes_left.unwrap().value - 170.0).abs() < 3.0);
    }

    #[test]
    fn one_misread_level_does_not_carry_the_rate_away() {
        let odd = progress(&levels(&[30_000.0, 28_500.0, 21_000.0, 25_500.0, 24_000.0, 22_500.0]), 50.0, 0.0)
            .unwrap();
        assert!((odd.rate.value - 150.0).abs() < 15.0, "{}", odd.rate.value);
    }

    #[test]
    fn a_stall_and_a_reversal_are_noticed() {
        let stalled =
            progress(&levels(&[30_000.0, 28_500.0, 27_000.0, 26_990.0, 26_980.0]), 50.0, 0.0).unwrap();
        assert_eq!(stalled.flow, Flow::Stalled);
        assert!(stalled.minutes_left.is_none());
        let reversed =
            progress(&levels(&[30_000.0, 28_500.0, 27_000.0, 27_200.0, 27_500.0]), 50.0, 0.0).unwrap();
        assert_eq!(reversed.flow, Flow::Reversed);
        assert!(reversed.rate.findings.iter().any(|finding| finding.severity == Severity::Alarm));
    }

    #[test]
    fn readings_that_cannot_be_are_refused() {
        assert!(progress(&levels(&[30_000.0, 28_500.0]), 50.0, 0.0).is_err());
        assert!(progress(&levels(&[30_000.0, f64::NAN, 28_500.0]), 50.0, 0.0).is_err());
        let mut backwards = levels(&[30_000.0, 28_500.0, 27_000.0]);
        backwards[2].minutes = 5.0;
        assert!(progress(&backwards, 50.0, 0.0).is_err());
    }
}
