//! Draws a series of readings over time: points with the uncertainty of the instrument, and crosses for
//! corrected readings. The same values are in the table beside the chart.

use std::fmt::Write as _;

use farsiding_core::clock::UtcMillis;
use farsiding_core::message;
use farsiding_core::units::Unit;
use farsiding_words::Words;
use maud::{Markup, PreEscaped};

use farsiding_packet::drawing::{self, Axis, Stretch};

/// A point of a chart.
#[derive(Debug, Clone, Copy)]
pub struct Mark {
    /// The time of the reading.
    pub at: UtcMillis,
    /// The value of the reading.
    pub value: f64,
    /// Half the width of the instrument's uncertainty, if known.
    pub plus_minus: Option<f64>,
    /// Whether the reading stands; otherwise it was corrected or withdrawn.
    pub stands: bool,
}

const WIDTH: f64 = 600.0;
const HEIGHT: f64 = 230.0;
const LEFT: f64 = 62.0;
const RIGHT: f64 = 588.0;
const TOP: f64 = 14.0;
const BOTTOM: f64 = 196.0;

/// Returns the chart, or `None` if fewer than two points can be drawn. Points whose times are far from the
/// others are left out, and the chart says how many.
pub fn draw(w: &Words, marks: &[Mark], unit: Unit, zone: chrono_tz::Tz) -> Option<Markup> {
    let with_number: Vec<Mark> = marks.iter().copied().filter(|mark| mark.value.is_finite()).collect();
    let time = Stretch::over(with_number.iter().map(|mark| mark.at.0))?;
    let near: Vec<Mark> = with_number.iter().copied().filter(|mark| time.holds(mark.at.0)).collect();
    if near.len() < 2 || time.until <= time.from {
        return None;
    }
    let elsewhere = marks.len() - near.len();
    let pm_of = |mark: &Mark| mark.plus_minus.filter(|pm| pm.is_finite()).unwrap_or(0.0);
    let low = near.iter().map(|mark| mark.value - pm_of(mark)).fold(f64::INFINITY, f64::min);
    let high = near.iter().map(|mark| mark.value + pm_of(mark)).fold(f64::NEG_INFINITY, f64::max);
    let axis = Axis::over(low.max(f64::MIN), high.min(f64::MAX), 4, 1e-6)?;
    let x = |at: UtcMillis| LEFT + (RIGHT - LEFT) * time.share(at.0);
    let y = |value: f64| BOTTOM - (BOTTOM - TOP) * axis.share(value);
    let marks = drawing::thinned(&near, drawing::MOST_POINTS, |mark| mark.value);
    let mut out = String::with_capacity(4096);
    let _ = write!(
        out,
        r#"<svg class="chart" viewBox="0 0 {WIDTH} {HEIGHT}" role="img" aria-label="{}">"#,
        maud::html! { (w.say("office-chart-label")) }.into_string()
    );
    for mark in &axis.marks {
        let at = y(*mark);
        let _ = write!(
            out,
            r#"<path class="c-grid" d="M{LEFT} {at:.1}H{RIGHT}"/><text x="{:.1}" y="{:.1}" text-anchor="end">{}</text>"#,
            LEFT - 8.0,
            at + 5.0,
            axis.written(*mark)
        );
    }
    let _ = write!(out, r#"<path class="c-frame" d="M{LEFT} {TOP}V{BOTTOM}H{RIGHT}"/>"#);
    for (at, anchor) in [(UtcMillis(time.from), "start"), (UtcMillis(time.until), "end")] {
        let _ = write!(
            out,
            r#"<text x="{:.1}" y="{:.1}" text-anchor="{anchor}">{}</text>"#,
            x(at),
            BOTTOM + 24.0,
            at.shown_in(zone)
        );
    }
    let standing: Vec<&Mark> = marks.iter().copied().filter(|mark| mark.stands).collect();
    let path: Vec<String> =
        standing.iter().map(|mark| format!("{:.1} {:.1}", x(mark.at), y(mark.value))).collect();
    if !path.is_empty() {
        let _ = write!(out, r#"<path class="c-line" d="M{}"/>"#, path.join("L"));
    }
    for mark in &marks {
        let (px, py) = (x(mark.at), y(mark.value));
        if let Some(pm) = mark.plus_minus.filter(|pm| mark.stands && pm.is_finite()) {
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
    if elsewhere > 0 {
        let said = w.text(&message!("office-chart-elsewhere", count = elsewhere));
        let said = maud::html! { (said) }.into_string();
        let _ = write!(out, r#"<text x="{LEFT}" y="{:.1}">{said}</text>"#, TOP - 2.0);
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
        assert!(draw(Words::english(), &[mark(0, 93.0)], Unit::PsiGauge, zone).is_none());
        assert!(draw(Words::english(), &[mark(0, 93.0), mark(0, 94.0)], Unit::PsiGauge, zone).is_none());
        assert!(
            draw(Words::english(), &[mark(0, f64::INFINITY), mark(9, 94.0)], Unit::PsiGauge, zone).is_none()
        );
        let drawn = draw(Words::english(), &[mark(0, 93.0), mark(30, 40.0)], Unit::PsiGauge, zone)
            .map(|m| m.into_string());
        let drawn = drawn.unwrap_or_default();
        assert_eq!(drawn.matches("c-dot").count(), 2, "{drawn}");
        assert!(drawn.contains(">100<") && drawn.contains(">40<"), "{drawn}");
        assert!(!drawn.contains("NaN") && !drawn.contains("inf"), "{drawn}");
    }

    fn drawn(marks: &[Mark]) -> String {
        draw(Words::english(), marks, Unit::PsiGauge, chrono_tz::Tz::UTC)
            .map(|drawn| drawn.into_string())
            .unwrap_or_default()
    }

    /// This reproduces a fault: the step between the grid lines was smaller than the resolution of such large
    /// numbers, and adding it never ended.
    #[test]
    fn two_readings_of_a_hundred_thousand_billion_pounds_are_drawn_at_once() {
        let began = std::time::Instant::now();
        let svg = drawn(&[mark(0, 1e17), mark(30, 1.000_000_000_000_02e17)]);
        assert!(began.elapsed().as_millis() < 200 && svg.len() < 8_000, "{} bytes", svg.len());
        assert!(!svg.contains("NaN") && !svg.contains("inf"), "{svg}");
    }

    #[test]
    fn a_reading_of_another_time_stretches_nothing_and_is_said() {
        let today = 29_900_000;
        let svg = drawn(&[mark(0, 40.0), mark(today, 93.0), mark(today + 10, 80.0), mark(today + 20, 60.0)]);
        assert_eq!(svg.matches("c-dot").count(), 3);
        assert!(!svg.contains("1970") && svg.contains("1 reading of another time not drawn"), "{svg}");
    }

    proptest::proptest! {
        #![proptest_config(proptest::prelude::ProptestConfig::with_cases(200))]
        #[test]
        fn any_numbers_at_any_times_are_drawn_quickly_and_small(
            points in proptest::collection::vec(
                (proptest::prelude::any::<i64>(), proptest::prelude::any::<f64>(),
                 proptest::option::of(proptest::prelude::any::<f64>()), proptest::prelude::any::<bool>()),
                0..2_000,
            ),
            within in proptest::prelude::any::<bool>(),
        ) {
            let marks: Vec<Mark> = points.into_iter().map(|(at, value, plus_minus, stands)| {
                Mark { at: UtcMillis(if within { at % 1_000_000 } else { at }), value, plus_minus, stands }
            }).collect();
            let (svg, took) = drawing::drawn_in_time(|| drawn(&marks));
            proptest::prop_assert!(took < drawing::LONGEST, "{:?}", took);
            proptest::prop_assert!(svg.len() < 120_000, "{} bytes", svg.len());
            proptest::prop_assert!(!svg.contains("NaN") && !svg.contains("inf"));
        }
    }
}
