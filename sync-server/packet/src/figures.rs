//! The drawings of a packet: the plan of the fittings and the chart of a series. They use lines, greys and
//! words, and no meaning depends on colour.

use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::vocabulary::{ClosureState, Fitting, ValvePosition};
use farsiding_core::units::bounds::MOST_BOLTS;
use farsiding_core::view::{CoverState, FittingView, VisitView};
use farsiding_core::{Arg, Message, message};
use farsiding_words::Words;

use super::marks::{MEASURE, Pen, Ruled};
use super::typeface::Face;
use crate::drawing::{self, Axis, Stretch};

/// The height of the plan, in points.
pub const PLAN_HEIGHT: f32 = 250.0;

/// Returns the position of a fitting, in fractions of the housing's radius from its middle, and the direction
/// of its outlet. The arrangement is a usual one (common practice, no source).
fn place(fitting: Fitting) -> (f32, f32, (f32, f32)) {
    match fitting {
        Fitting::LiquidA => (-0.56, 0.0, (-1.0, 0.0)),
        Fitting::LiquidB => (0.56, 0.0, (1.0, 0.0)),
        Fitting::Vapour => (0.0, -0.56, (0.0, -1.0)),
        Fitting::VapourTwo => (0.0, 0.56, (0.0, 1.0)),
        Fitting::GaugingDevice => (0.0, 0.0, (0.0, 0.0)),
        Fitting::SampleLine => (-0.45, 0.55, (-0.7, 0.7)),
        Fitting::ThermometerWell => (0.45, 0.55, (0.0, 0.0)),
        Fitting::ReliefDevice => (0.50, -0.55, (0.0, 0.0)),
    }
}

/// Returns what is written beside a fitting about its valve, if it has one, and its closure.
fn beside(fitting: &FittingView) -> (Option<Message>, Message) {
    let valve = match (&fitting.valve, fitting.fitting.has_valve()) {
        (Some(valve), _) => Some(message!("packet-plan-valve", state = valve.value.term())),
        (None, true) => Some(message!("packet-plan-valve-not-recorded")),
        (None, false) => None,
    };
    let closure = match &fitting.closure {
        Some(closure) => message!("packet-plan-closure", state = closure.value.term()),
        None => message!("packet-plan-closure-not-recorded"),
    };
    (valve, closure)
}

/// Returns the state of the housing cover.
pub fn cover_words(cover: CoverState) -> Message {
    message!(
        "packet-parts",
        parts = Arg::list(
            farsiding_core::Joint::Comma,
            [cover_and_pin(cover), bolts(cover.bolts_in_place.into(), cover.bolts_required.into()),]
        )
    )
}

fn cover_and_pin(cover: CoverState) -> Message {
    match (cover.closed, cover.pinned) {
        (true, true) => message!("packet-cover-closed-pin-in"),
        (true, false) => message!("packet-cover-closed-pin-out"),
        (false, true) => message!("packet-cover-open-pin-in"),
        (false, false) => message!("packet-cover-open-pin-out"),
    }
}

fn bolts(here: u64, of: u64) -> Message {
    message!("packet-bolts", here = Arg::Number(here.to_string()), count = of)
}

fn one_fitting(pen: &mut Pen<'_>, at: (f32, f32), outlet: (f32, f32), fitting: &FittingView) {
    const R: f32 = 12.0;
    let line = Ruled::black(1.2);
    if outlet != (0.0, 0.0) {
        let end = (at.0 + outlet.0 * 27.0, at.1 + outlet.1 * 27.0);
        pen.line(&[(at.0 + outlet.0 * R, at.1 + outlet.1 * R), end], Ruled::black(4.0));
        // This is drawn across the stem: the outlet's closure or, with a line connected, the hose.
        if fitting.line.as_ref().is_some_and(|line| line.value.connected) {
            pen.line(
                &[end, (end.0 + outlet.0 * 18.0, end.1 + outlet.1 * 18.0)],
                Ruled { width: 3.0, grey: 0, dash: 3.0 },
            );
        }
    }
    pen.circle(at, R, Some(255), Some(line));
    let inner = R - 3.5;
    match fitting.closure.as_ref().map(|closure| closure.value) {
        Some(ClosureState::ToolTight) => pen.circle(at, inner, Some(0), None),
        Some(ClosureState::HandTight) => {
            pen.circle(at, inner, Some(255), Some(Ruled::black(0.8)));
            let half: Vec<(f32, f32)> = (0u8..=16)
                .map(|step| {
                    let angle = std::f32::consts::PI * (f32::from(step) / 16.0);
                    (at.0 + inner * angle.cos(), at.1 + inner * angle.sin())
                })
                .collect();
            pen.shape(&half, Some(0), None);
        }
        Some(ClosureState::Open) => pen.circle(at, inner, Some(255), Some(Ruled::black(0.8))),
        None => pen.centred((at.0, at.1 + 4.5), 13.0, Face::Strong, "?"),
    }
    if outlet != (0.0, 0.0) && fitting.valve.as_ref().is_some_and(|valve| valve.value == ValvePosition::Shut)
    {
        let middle = (at.0 + outlet.0 * 19.5, at.1 + outlet.1 * 19.5);
        let across = (-outlet.1 * 8.0, outlet.0 * 8.0);
        pen.line(
            &[(middle.0 - across.0, middle.1 - across.1), (middle.0 + across.0, middle.1 + across.1)],
            Ruled::black(2.2),
        );
    }
    let disputed = fitting.valve.as_ref().is_some_and(|known| known.disputed)
        || fitting.closure.as_ref().is_some_and(|known| known.disputed);
    if disputed {
        pen.circle(at, R + 4.0, None, Some(Ruled { width: 1.4, grey: 0, dash: 2.5 }));
    }
}

/// Draws the plan of the fittings as last recorded.
pub fn plan(pen: &mut Pen<'_>, view: &VisitView, words: &Words) {
    let middle = (MEASURE / 2.0, PLAN_HEIGHT / 2.0);
    let radius = 98.0;
    // The edges of the shell show which direction is lengthwise.
    for y in [6.0, PLAN_HEIGHT - 6.0] {
        pen.line(&[(0.0, y), (MEASURE, y)], Ruled::grey(0.8, 150));
    }
    pen.circle(middle, radius, Some(255), Some(Ruled::black(1.6)));
    let cover = view.cover.as_ref().map(|cover| cover.value);
    let counted = cover.map(|cover| (cover.bolts_in_place, cover.bolts_required));
    let cover = cover.map_or_else(|| message!("packet-plan-cover-not-recorded"), cover_and_pin);
    if let Some((here, of)) = counted {
        // More bolts than a cover can have are stated in words and not drawn.
        for bolt in 0..if of > MOST_BOLTS { 0 } else { of } {
            let angle = std::f32::consts::TAU * (f32::from(bolt) + 0.5) / f32::from(of.max(1));
            let at = (middle.0 + (radius + 8.0) * angle.cos(), middle.1 + (radius + 8.0) * angle.sin());
            pen.circle(at, 3.0, (bolt < here).then_some(0), Some(Ruled::black(0.8)));
        }
    }
    pen.text((2.0, 20.0), 8.0, Face::Plain, &words.text(&cover));
    if let Some((here, of)) = counted {
        pen.text((2.0, 31.0), 8.0, Face::Plain, &words.text(&bolts(here.into(), of.into())));
    }
    pen.ending((MEASURE - 2.0, 20.0), 8.0, Face::Plain, &words.say("packet-plan-above"));
    let on = view.seals.iter().filter_map(|seal| Some((seal, seal.now.as_ref()?)));
    for (row, (seal, now)) in (0u8..).zip(on) {
        let number: String = now.value.number.chars().take(40).collect();
        let said = message!("packet-plan-seal", number = Arg::typed(number), place = seal.place.term());
        let y = PLAN_HEIGHT - 14.0 - f32::from(row) * 10.0;
        pen.ending((MEASURE - 2.0, y), 8.0, Face::Plain, &words.text(&said));
    }
    for fitting in &view.fittings {
        let (x, y, outlet) = place(fitting.fitting);
        let at = (middle.0 + x * radius, middle.1 + y * radius);
        one_fitting(pen, at, outlet, fitting);
        let (valve, closure) = beside(fitting);
        let mut lines = vec![(words.text(&fitting.fitting.term()), Face::Strong)];
        lines.extend(valve.into_iter().chain([closure]).map(|said| (words.text(&said), Face::Plain)));
        // Words are placed outside the housing, and connected to their fitting by a line where they are not
        // beside it.
        let (anchor, ending) = match fitting.fitting {
            Fitting::LiquidA => ((middle.0 - radius - 22.0, middle.1 - 8.0), true),
            Fitting::LiquidB => ((middle.0 + radius + 22.0, middle.1 - 8.0), false),
            Fitting::Vapour => ((middle.0 + radius + 22.0, middle.1 - 84.0), false),
            Fitting::VapourTwo => ((middle.0 - radius - 22.0, middle.1 + 62.0), true),
            Fitting::GaugingDevice => ((middle.0 - radius - 22.0, middle.1 - 58.0), true),
            Fitting::SampleLine => ((middle.0 - radius - 22.0, middle.1 + 88.0), true),
            Fitting::ThermometerWell => ((middle.0 + radius + 22.0, middle.1 + 62.0), false),
            Fitting::ReliefDevice => ((middle.0 + radius + 22.0, middle.1 - 48.0), false),
        };
        let from = if ending { (anchor.0 + 3.0, anchor.1 + 4.0) } else { (anchor.0 - 3.0, anchor.1 + 4.0) };
        let (dx, dy) = (from.0 - at.0, from.1 - at.1);
        let length = (dx * dx + dy * dy).sqrt().max(1.0);
        pen.line(
            &[from, (at.0 + dx / length * 13.0, at.1 + dy / length * 13.0)],
            Ruled { width: 0.5, grey: 90, dash: 1.5 },
        );
        for (row, (text, face)) in (0u8..).zip(lines) {
            let y = anchor.1 + f32::from(row) * 10.0;
            if ending {
                pen.ending((anchor.0, y), 8.0, face, &text);
            } else {
                pen.text((anchor.0, y), 8.0, face, &text);
            }
        }
    }
}

/// Draws a series over the claimed time, each reading with its uncertainty if known. Points whose times are
/// far from the others are not drawn.
pub fn chart(
    pen: &mut Pen<'_>,
    points: &[(i64, f64, Option<f64>)],
    unit: &str,
    zone: chrono_tz::Tz,
    words: &Words,
) {
    let (left, right, top, bottom) = (46.0f32, MEASURE - 10.0, 10.0f32, 108.0f32);
    let Some(time) = Stretch::over(points.iter().map(|point| point.0)) else { return };
    let near: Vec<(i64, f64, Option<f64>)> =
        points.iter().copied().filter(|(at, value, _)| time.holds(*at) && value.is_finite()).collect();
    // An uncertainty bar longer than the values themselves would flatten the chart, so it is cut off at the
    // ends of the axis.
    let bar = |(_, value, worth): &(i64, f64, Option<f64>)| {
        worth.filter(|w| w.is_finite() && *w <= value.abs().max(1.0)).unwrap_or(0.0)
    };
    let low = near.iter().map(|point| point.1 - bar(point)).fold(f64::INFINITY, f64::min);
    let high = near.iter().map(|point| point.1 + bar(point)).fold(f64::NEG_INFINITY, f64::max);
    let Some(axis) = Axis::over(low, high, 5, (high.abs() * 0.05).max(1e-6)) else { return };
    let x = |at: i64| left + time.share(at) as f32 * (right - left);
    let y = |value: f64| bottom - axis.share(value) as f32 * (bottom - top);
    pen.line(&[(left, top), (left, bottom), (right, bottom)], Ruled::black(0.8));
    for mark in &axis.marks {
        pen.line(&[(left, y(*mark)), (right, y(*mark))], Ruled::grey(0.3, 180));
        pen.ending((left - 4.0, y(*mark) + 2.5), 7.5, Face::Plain, &words.number(&axis.written(*mark)));
    }
    pen.text((0.0, top - 2.0), 7.5, Face::Strong, unit);
    for part in 0..=4i64 {
        // The span is at most two months, so the multiplication cannot overflow.
        let at = time.from + (time.until - time.from) / 4 * part;
        let shown = UtcMillis(at).shown_in(zone);
        let hour: String = shown.chars().skip(11).take(5).collect();
        pen.line(&[(x(at), bottom), (x(at), bottom + 3.0)], Ruled::black(0.6));
        pen.centred((x(at), bottom + 12.0), 7.5, Face::Plain, &hour);
    }
    let mut day: String = UtcMillis(time.from).shown_in(zone).chars().take(10).collect();
    if near.len() < points.len() {
        let left_out = Arg::Number((points.len() - near.len()).to_string());
        let day_typed = Arg::typed(day);
        day = words.text(&message!(
            "packet-chart-left",
            day = day_typed,
            left = left_out,
            count = points.len()
        ));
    }
    pen.text((0.0, bottom + 22.0), 7.5, Face::Plain, &day);
    let few = drawing::thinned(&near, drawing::MOST_POINTS, |point| point.1);
    let drawn: Vec<(f32, f32)> = few.iter().map(|point| (x(point.0), y(point.1))).collect();
    pen.line(&drawn, Ruled::black(1.0));
    for (at, point) in drawn.into_iter().zip(&few) {
        let worth = bar(point);
        if worth > 0.0 {
            let ends = [y(point.1 - worth), y(point.1 + worth)].map(|end| end.clamp(top, bottom));
            pen.line(&[(at.0, ends[0]), (at.0, ends[1])], Ruled::grey(0.7, 60));
            for end in ends {
                pen.line(&[(at.0 - 2.0, end), (at.0 + 2.0, end)], Ruled::grey(0.7, 60));
            }
        }
        pen.circle(at, 2.2, Some(0), None);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::marks::Mark;
    use crate::typeface::Typefaces;
    use proptest::prelude::*;

    fn marks(faces: &Typefaces, points: &[(i64, f64)], worth: Option<f64>) -> Vec<Mark> {
        let mut pen = Pen::new(faces);
        let points: Vec<_> = points.iter().map(|(at, value)| (*at, *value, worth)).collect();
        chart(&mut pen, &points, "psi", chrono_tz::Tz::UTC, Words::english());
        pen.into_marks()
    }

    #[test]
    fn two_readings_of_a_hundred_thousand_billion_pounds_are_drawn_at_once() {
        let faces = Typefaces::load().unwrap_or_else(|error| unreachable!("{error}"));
        let drawn = marks(&faces, &[(0, 1e17), (60_000, 1.000_000_000_000_02e17), (90_000, 1e17)], None);
        assert!((5..60).contains(&drawn.len()), "{}", drawn.len());
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(100))]
        #[test]
        fn any_series_is_drawn_with_few_marks(
            points in prop::collection::vec((any::<i64>(), any::<f64>()), 0..2_000), within in any::<bool>(),
            worth in proptest::option::of(any::<f64>()),
        ) {
            let points: Vec<(i64, f64)> =
                points.into_iter().map(|(at, value)| (if within { at % 1_000_000 } else { at }, value)).collect();
            let faces = Typefaces::load().map_err(|error| TestCaseError::fail(error.to_string()))?;
            let (drawn, took) = drawing::drawn_in_time(|| marks(&faces, &points, worth));
            prop_assert!(took < drawing::LONGEST, "{:?}", took);
            // A point with its bar has four marks; axes and words come to fewer than a hundred.
            prop_assert!(drawn.len() < 4 * drawing::MOST_POINTS + 100, "{}", drawn.len());
            for mark in drawn {
                if let Mark::Circle { at, .. } = mark {
                    prop_assert!((0.0..=MEASURE).contains(&at.0) && (0.0..=PLAN_HEIGHT).contains(&at.1));
                }
            }
        }
    }
}
