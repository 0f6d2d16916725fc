//! A series of readings over time as a drawing: points with what the instrument allows, corrected ones as
//! crosses. The same values stand in the table beside it.

use std::fmt::Write as _;

use farsiding_core::clock::UtcMillis;
use farsiding_core::units::Unit;
use maud::{Markup, PreEscaped};

/// A point of a chart.
#[derive(Debug, Clone, Copy)]
pub struct Mark {
    /// When.
    pub at: UtcMillis,
    /// How much.
    pub value: f64,
    /// Half the width of what the instrument allows, where it is known.
    pub plus_minus: Option<f64>,
    /// Whether it stands; otherwise it was corrected or withdrawn.
    pub stands: bool,
}

const WIDTH: f64 = 600.0;
const HEIGHT: f64 = 230.0;
const LEFT: f64 = 62.0;
const RIGHT: f64 = 588.0;
const TOP: f64 = 14.0;
const BOTTOM: f64 = 196.0;

/// A step of 1, 2 or 5 times a power of ten that divides a range into about four.
fn step(range: f64) -> f64 {
    let rough = range / 4.0;
    let power = 10f64.powf(rough.log10().floor());
    let times = rough / power;
    power
        * if times < 1.5 {
            1.0
        } else if times < 3.5 {
            2.0
        } else if times < 7.5 {
            5.0
        } else {
            10.0
        }
}

/// The drawing; nothing when fewer than two points can be drawn.
pub fn draw(marks: &[Mark], unit: Unit, zone: chrono_tz::Tz) -> Option<Markup> {
    let (mut low, mut high) = (f64::INFINITY, f64::NEG_INFINITY);
    for mark in marks {
        let pm = mark.plus_minus.unwrap_or(0.0);
        low = low.min(mark.value - pm);
        high = high.max(mark.value + pm);
    }
    let (from, until) = (marks.iter().map(|m| m.at.0).min()?, marks.iter().map(|m| m.at.0).max()?);
    if marks.len() < 2 || until <= from || !low.is_finite() || !high.is_finite() || high - low > 1e12 {
        return None;
    }
    if high - low < 1e-9 {
        (low, high) = (low - 1.0, high + 1.0);
    }
    let step = step(high - low);
    let (low, high) = ((low / step).floor() * step, (high / step).ceil() * step);
    // Times are spread over less than a lifetime: exact as f64.
    let x = |at: UtcMillis| LEFT + (RIGHT - LEFT) * ((at.0 - from) as f64 / (until - from) as f64);
    let y = |value: f64| BOTTOM - (BOTTOM - TOP) * (value - low) / (high - low);
    let mut out = String::with_capacity(4096);
    let _ = write!(
        out,
        r#"<svg class="chart" viewBox="0 0 {WIDTH} {HEIGHT}" role="img" aria-label="Chart; the values stand in the table of readings">"#
    );
    let decimals = if step < 0.1 { 2 } else { usize::from(step < 1.0) };
    let mut line = low;
    while line <= high + step / 2.0 {
        let at = y(line);
        let _ = write!(
            out,
            r#"<path class="c-grid" d="M{LEFT} {at:.1}H{RIGHT}"/><text x="{:.1}" y="{:.1}" text-anchor="end">{line:.decimals$}</text>"#,
            LEFT - 8.0,
            at + 5.0
        );
        line += step;
    }
    let _ = write!(out, r#"<path class="c-frame" d="M{LEFT} {TOP}V{BOTTOM}H{RIGHT}"/>"#);
    for (at, anchor) in [(UtcMillis(from), "start"), (UtcMillis(until), "end")] {
        let _ = write!(
            out,
            r#"<text x="{:.1}" y="{:.1}" text-anchor="{anchor}">{}</text>"#,
            x(at),
            BOTTOM + 24.0,
            at.shown_in(zone)
        );
    }
    let standing: Vec<&Mark> = marks.iter().filter(|mark| mark.stands).collect();
    let path: Vec<String> =
        standing.iter().map(|mark| format!("{:.1} {:.1}", x(mark.at), y(mark.value))).collect();
    if !path.is_empty() {
        let _ = write!(out, r#"<path class="c-line" d="M{}"/>"#, path.join("L"));
    }
    for mark in marks {
        let (px, py) = (x(mark.at), y(mark.value));
        if let Some(pm) = mark.plus_minus.filter(|_| mark.stands) {
            let (above, below) = (y(mark.value + pm), y(mark.value - pm));
            let _ = write!(
                out,
                r#"<path class="c-bar" d="M{px:.1} {above:.1}V{below:.1}M{:.1} {above:.1}h8M{:.1} {below:.1}h8"/>"#,
                px - 4.0,
                px - 4.0
            );
        }
        let _ = if mark.stands {
            write!(out, r#"<circle class="c-dot" cx="{px:.1}" cy="{py:.1}" r="4"/>"#)
        } else {
            write!(out, r#"<path class="c-gone" d="M{:.1} {:.1}l10 10m0 -10l-10 10"/>"#, px - 5.0, py - 5.0)
        };
    }
    let _ = write!(out, r#"<text x="{RIGHT}" y="{:.1}" text-anchor="end">{unit}</text></svg>"#, TOP - 2.0);
    Some(PreEscaped(out))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn mark(minute: i64, value: f64) -> Mark {
        Mark { at: UtcMillis(minute * 60_000), value, plus_minus: Some(1.0), stands: true }
    }

    #[test]
    fn a_chart_is_drawn_of_two_points_and_of_no_fewer() {
        let zone = chrono_tz::Tz::UTC;
        assert!(draw(&[mark(0, 93.0)], Unit::PsiGauge, zone).is_none());
        assert!(draw(&[mark(0, 93.0), mark(0, 94.0)], Unit::PsiGauge, zone).is_none());
        assert!(draw(&[mark(0, f64::INFINITY), mark(9, 94.0)], Unit::PsiGauge, zone).is_none());
        let drawn = draw(&[mark(0, 93.0), mark(30, 40.0)], Unit::PsiGauge, zone).map(|m| m.into_string());
        let drawn = drawn.unwrap_or_default();
        assert_eq!(drawn.matches("c-dot").count(), 2, "{drawn}");
        assert!(drawn.contains(">100<") && drawn.contains(">40<"), "{drawn}");
        assert!(!drawn.contains("NaN") && !drawn.contains("inf"), "{drawn}");
    }

    #[test]
    fn steps_are_round() {
        assert_eq!(step(60.0), 20.0);
        assert_eq!(step(4.0), 1.0);
        assert!((step(0.3) - 0.1).abs() < 1e-12);
    }
}
