//! Wear: a fitting's closing efforts over several visits, and their robust slope.
//!
//! The view calls this module with a fitting's history from the car's document. `transfer` also uses
//! [`theil_sen`].

use serde::{Deserialize, Serialize};

use super::error::{CalcError, Limits, Range};
use super::sources;
use crate::units::{Computed, Finding, Severity, Unit};
use crate::{Arg, Message, message};

/// Formula id.
pub const FORMULA: &str = "wear/1";
/// Closing efforts accepted.
pub const EFFORT_FTLBF: Range = Range::new(0.0, 500.0, Unit::FootPound, Limits::TOOL);
/// The fewest days with an effort from which a trend is computed.
pub const FEWEST: usize = 4;

/// A slope with its ± at 95 %.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Slope {
    /// The median of the slopes between all pairs of points.
    pub slope: f64,
    /// Half the distance between the ranks that enclose it at 95 % (normal approximation to Kendall's S).
    pub plus_minus: f64,
}

/// The Theil–Sen slope of points (x, y).
///
/// Range: 2 to 2 000 points, finite, x not all the same. Method: P. K. Sen 1968. What makes it wrong: more
/// than about 29 % of the points being wrong; a relation that is not straight. With fewer than about five
/// points the interval is the whole span of pairwise slopes.
///
/// # Errors
/// Too few or too many points, not a number, all x equal.
pub fn theil_sen(points: &[(f64, f64)]) -> Result<Slope, CalcError> {
    if points.len() < 2 || points.len() > 2_000 {
        return Err(CalcError::Inconsistent(message!("calc-slope-points", count = points.len())));
    }
    if let Some((x, y)) = points.iter().find(|(x, y)| !x.is_finite() || !y.is_finite()) {
        return Err(CalcError::not_a_number("point", format!("{x}, {y}")));
    }
    let mut slopes = Vec::with_capacity(points.len() * (points.len() - 1) / 2);
    for (at, (x0, y0)) in points.iter().enumerate() {
        for (x1, y1) in &points[at + 1..] {
            let slope = (y1 - y0) / (x1 - x0);
            if slope.is_finite() {
                slopes.push(slope);
            }
        }
    }
    if slopes.is_empty() {
        return Err(CalcError::Inconsistent(Message::new("calc-slope-one-place")));
    }
    slopes.sort_by(f64::total_cmp);
    let count = slopes.len();
    let middle =
        if count % 2 == 1 { slopes[count / 2] } else { 0.5 * (slopes[count / 2 - 1] + slopes[count / 2]) };
    let n = points.len() as f64;
    let half_rank = 0.5 * 1.96 * (n * (n - 1.0) * (2.0 * n + 5.0) / 18.0).sqrt();
    let at = |rank: f64| slopes[rank.clamp(0.0, count as f64 - 1.0) as usize];
    let low = at((0.5 * count as f64 - half_rank).floor() - 1.0);
    let high = at((0.5 * count as f64 + half_rank).ceil());
    Ok(Slope { slope: middle, plus_minus: (high - middle).max(middle - low).max(0.0) })
}

/// Days in a year, for slopes a person can picture.
const YEAR: f64 = 365.25;

/// One closing effort on record.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Effort {
    /// When, in days (from any fixed day).
    pub day: f64,
    /// Effort, ft·lbf.
    pub foot_pounds: f64,
}

/// The band closing efforts normally lie in. A setting.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct EffortBand {
    /// Lowest, ft·lbf.
    pub low: f64,
    /// Highest, ft·lbf.
    pub high: f64,
}

impl Default for EffortBand {
    /// 20 to 40 ft·lbf: common practice, no source.
    fn default() -> EffortBand {
        EffortBand { low: 20.0, high: 40.0 }
    }
}

/// What the history of a fitting says.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Trend {
    /// Efforts on fewer than four days.
    TooFew,
    /// No slope that stands out of its ±.
    Steady,
    /// Rising beyond its ±.
    Rising,
    /// Falling beyond its ±.
    Falling,
}

/// A fitting's wear.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Wear {
    /// What the history says.
    pub trend: Trend,
    /// Change of effort a year, ft·lbf; absent with too few visits.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub per_year: Option<Computed>,
    /// The last effort.
    pub last: f64,
    /// How many of the efforts lie above the band.
    pub above_band: usize,
    /// What to tell the next operator who meets this fitting.
    pub findings: Vec<Finding>,
}

/// Judges a fitting's closing efforts.
///
/// Inputs: efforts in any order, 1 or more, 0 to 500 ft·lbf; the band. Method: Theil–Sen slope over days;
/// "rising" when it is positive beyond its ± and at least 1 ft·lbf a year. What makes it wrong: efforts by
/// different wrenches or people, a fitting changed between visits without a record.
///
/// # Errors
/// No effort at all, out of range, not a number, a band that is none.
pub fn judge(efforts: &[Effort], band: EffortBand) -> Result<Wear, CalcError> {
    let low = EFFORT_FTLBF.check("torque band low", band.low)?;
    let high = EFFORT_FTLBF.check("torque band high", band.high)?;
    if low >= high {
        return Err(CalcError::Inconsistent(message!(
            "calc-torque-band",
            low = Arg::Number(low.to_string()),
            high = Unit::FootPound.plain(high),
        )));
    }
    let days = Range::new(-1e6, 1e6, Unit::One, Limits::Unsaid);
    for effort in efforts {
        days.check("day", effort.day)?;
        EFFORT_FTLBF.check("closing torque", effort.foot_pounds)?;
    }
    let mut points: Vec<(f64, f64)> = efforts.iter().map(|effort| (effort.day, effort.foot_pounds)).collect();
    points.sort_by(|a, b| a.0.total_cmp(&b.0));
    let Some((_, last)) = points.last().copied() else {
        return Err(CalcError::missing("closing torque", Unit::FootPound));
    };
    // Efforts of one day are one visit, however many they are: no trend comes of them.
    let mut days: Vec<i64> = points.iter().map(|(day, _)| day.floor() as i64).collect();
    days.dedup();
    let slope = if days.len() < FEWEST { None } else { theil_sen(&points).ok() };
    let slope =
        slope.filter(|slope| (slope.slope * YEAR).is_finite() && (slope.plus_minus * YEAR).is_finite());
    let trend = match slope {
        None => Trend::TooFew,
        Some(slope) if slope.slope * YEAR >= 1.0 && slope.slope > slope.plus_minus => Trend::Rising,
        Some(slope) if slope.slope * YEAR <= -1.0 && -slope.slope > slope.plus_minus => Trend::Falling,
        Some(_) => Trend::Steady,
    };
    let above_band = points.iter().filter(|(_, effort)| *effort > high).count();
    let mut findings = Vec::new();
    if last > high {
        findings.push(Finding::new(
            "effort_above_band",
            Severity::Check,
            message!(
                "calc-torque-high",
                last = Unit::FootPound.figure(last, 0),
                usual = Unit::FootPound.figure(high, 0),
            ),
        ));
    } else if last < low {
        findings.push(Finding::new(
            "effort_below_band",
            Severity::Check,
            message!(
                "calc-torque-low",
                last = Unit::FootPound.figure(last, 0),
                usual = Unit::FootPound.figure(low, 0),
            ),
        ));
    }
    if trend == Trend::Rising {
        let per_year = slope.map_or(0.0, |slope| slope.slope * YEAR);
        findings.push(Finding::new(
            "effort_rising",
            Severity::Check,
            message!("calc-torque-rising", rise = Unit::FootPound.figure(per_year, 0), count = points.len(),),
        ));
    }
    let per_year = slope.map(|slope| Computed {
        value: slope.slope * YEAR,
        unit: Unit::FootPound,
        plus_minus: Some(slope.plus_minus * YEAR),
        largest: Some(Message::new("measure-largest-scatter-of-torques")),
        formula: FORMULA.to_owned(),
        source: sources::said("calc-source-closing-torque"),
        findings: Vec::new(),
    });
    Ok(Wear { trend, per_year, last, above_band, findings })
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a test may stop at a surprise")]
    use super::*;

    fn history(efforts: &[f64]) -> Vec<Effort> {
        efforts.iter().enumerate().map(|(at, e)| Effort { day: 60.0 * at as f64, foot_pounds: *e }).collect()
    }

    #[test]
    fn an_effort_that_climbs_visit_by_visit_is_rising() {
        let wear = judge(&history(&[28.0, 31.0, 33.0, 37.0, 41.0, 46.0]), EffortBand::default()).unwrap();
        assert_eq!(wear.trend, Trend::Rising);
        assert_eq!(wear.above_band, 2);
        let codes: Vec<&str> = wear.findings.iter().map(|finding| &*finding.code).collect();
        assert_eq!(codes, ["effort_above_band", "effort_rising"]);
    }

    #[test]
    fn one_heavy_hand_does_not_make_a_trend() {
        let wear =
            judge(&history(&[30.0, 29.0, 31.0, 80.0, 30.0, 29.0, 31.0]), EffortBand::default()).unwrap();
        assert_eq!(wear.trend, Trend::Steady);
    }

    #[test]
    fn three_visits_are_too_few() {
        let wear = judge(&history(&[20.0, 30.0, 40.0]), EffortBand::default()).unwrap();
        assert_eq!(wear.trend, Trend::TooFew);
        assert!(wear.per_year.is_none());
    }

    #[test]
    fn many_tries_on_one_day_are_one_visit() {
        let tries: Vec<Effort> = (0..6)
            .map(|at| Effort { day: 1e-9 * f64::from(at), foot_pounds: 30.0 + f64::from(at) })
            .collect();
        assert_eq!(judge(&tries, EffortBand::default()).unwrap().trend, Trend::TooFew);
    }

    #[test]
    fn nothing_and_nonsense_are_refused() {
        assert!(judge(&[], EffortBand::default()).is_err());
        assert!(judge(&history(&[f64::NAN]), EffortBand::default()).is_err());
        assert!(judge(&history(&[30.0]), EffortBand { low: 40.0, high: 20.0 }).is_err());
        assert!(theil_sen(&[(1.0, 2.0), (1.0, 3.0)]).is_err());
    }

    #[test]
    fn the_slope_of_a_line_is_its_slope() {
        let line: Vec<(f64, f64)> = (0..20).map(|x| (f64::from(x), 3.0 - 0.5 * f64::from(x))).collect();
        let slope = theil_sen(&line).unwrap();
        assert!((slope.slope + 0.5).abs() < 1e-12 && slope.plus_minus < 1e-12);
    }
}
