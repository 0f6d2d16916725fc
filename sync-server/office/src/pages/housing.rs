//! Draws the plan of the fittings under a car's housing, seen from above. The phone shows the same drawing.
//!
//! A solid fitting is shut or tight, a half-filled one is closed by hand, a hollow one is open, and a dashed
//! one is not recorded. The layout is a typical one (common practice, no source), and the drawing says so.
//! Lengths are inches at the car. Every state is also given in words, in the labels of the drawing and in the
//! list beside it.

use std::fmt::Write as _;

use farsiding_core::entry::vocabulary::{ClosureState, Fitting, Heard, ValvePosition};
use farsiding_core::units::bounds::MOST_BOLTS;
use farsiding_core::view::{FittingView, VisitView};
use maud::{Markup, PreEscaped};

/// The inside radius of the housing and the thickness of its wall, in inches; typical values.
const RADIUS: f64 = 17.5;
const WALL: f64 = 1.1;

#[derive(Clone, Copy, PartialEq)]
enum Kind {
    Valve,
    Small,
    Cap,
}

/// The position of a fitting, the direction of its outlet (degrees, 0 = toward the B end), and its label.
struct Place {
    kind: Kind,
    along: f64,
    across: f64,
    outlet: f64,
    label: (f64, f64, &'static str),
    stacked: bool,
}

const fn size(kind: Kind) -> (f64, f64, f64, f64) {
    match kind {
        Kind::Valve => (2.9, 2.6, 1.35, 1.6),
        Kind::Small => (1.7, 1.5, 0.75, 1.0),
        Kind::Cap => (1.8, 0.0, 0.0, 0.0),
    }
}

fn place(fitting: Fitting, two: bool) -> Option<Place> {
    let at = |kind, along, across, outlet, label, stacked| {
        Some(Place { kind, along, across, outlet, label, stacked })
    };
    match fitting {
        Fitting::LiquidA => at(Kind::Valve, -9.2, 0.0, 180.0, (-0.6, -6.75, "middle"), false),
        Fitting::LiquidB => at(Kind::Valve, 9.2, 0.0, 0.0, (0.6, -6.75, "middle"), false),
        Fitting::Vapour => at(Kind::Valve, 0.0, -8.8, -90.0, (4.3, -3.7, "start"), true),
        Fitting::VapourTwo => at(Kind::Valve, 0.0, 8.8, 90.0, (4.3, 1.0, "start"), true),
        Fitting::GaugingDevice => at(Kind::Cap, 0.0, 0.0, 0.0, (0.0, 3.6, "middle"), true),
        Fitting::SampleLine if two => at(Kind::Small, -8.4, 8.2, 180.0, (0.2, 3.5, "middle"), false),
        Fitting::SampleLine => at(Kind::Small, -5.2, 8.6, 180.0, (0.2, 3.5, "middle"), false),
        Fitting::ThermometerWell if two => at(Kind::Cap, 9.4, 8.4, 0.0, (0.2, 3.5, "middle"), false),
        Fitting::ThermometerWell => at(Kind::Cap, 5.4, 8.6, 0.0, (0.2, 3.5, "middle"), false),
        // The relief device is outside, beside the housing.
        Fitting::ReliefDevice => None,
    }
}

const fn short_name(fitting: Fitting) -> &'static str {
    match fitting {
        Fitting::LiquidA => "Liquid A",
        Fitting::LiquidB => "Liquid B",
        Fitting::Vapour => "Vapour",
        Fitting::VapourTwo => "Vapour 2",
        Fitting::GaugingDevice => "Gauge rod",
        Fitting::ThermometerWell => "Thermo well",
        Fitting::SampleLine => "Sample",
        Fitting::ReliefDevice => "Relief",
    }
}

fn valve(out: &mut String, kind: Kind, view: &FittingView) {
    let (body, spout, half, head) = size(kind);
    let tip = body + spout;
    let start = body - 0.3;
    let _ = write!(
        out,
        r#"<path class="p-line" d="M{start:.2} {:.2}H{tip:.2}M{start:.2} {half:.2}H{tip:.2}"/>"#,
        -half
    );
    let line_on = view.line.as_ref().is_some_and(|line| line.value.connected);
    let closure = view.closure.as_ref().map(|known| known.value);
    if line_on {
        let _ = write!(
            out,
            r#"<path class="p-hose" d="M{tip:.2} 0H30"/><path class="p-hose-core" d="M{tip:.2} 0H30"/>"#
        );
        let _ = write!(
            out,
            r#"<rect class="p-solid" x="{:.2}" y="{:.2}" width="1.2" height="{:.2}"/>"#,
            tip - 0.1,
            -half - 0.45,
            2.0 * half + 0.9
        );
    } else {
        match closure {
            Some(ClosureState::ToolTight) => {
                let _ = write!(
                    out,
                    r#"<rect class="p-solid" x="{:.2}" y="{:.2}" width="1.2" height="{:.2}"/><rect class="p-solid" x="{tip:.2}" y="{:.2}" width="{head}" height="{:.2}" rx="0.15"/>"#,
                    tip - 1.1,
                    -half,
                    2.0 * half,
                    -half - 0.5,
                    2.0 * half + 1.0
                );
            }
            Some(ClosureState::HandTight) => {
                let x = tip + 0.75;
                let _ = write!(
                    out,
                    r#"<rect class="p-hollow-hot" x="{x:.2}" y="{:.2}" width="{head}" height="{:.2}" rx="0.15"/><path class="p-hot-fill" d="M{x:.2} 0h{head}v{:.2}h-{head}z"/>"#,
                    -half - 0.5,
                    2.0 * half + 1.0,
                    half + 0.5
                );
            }
            Some(ClosureState::Open) => {
                let _ = write!(
                    out,
                    r#"<path class="p-hot" d="M{tip:.2} {:.2}l0.9 -0.9M{tip:.2} {half:.2}l0.9 0.9"/>"#,
                    -half
                );
            }
            None => {
                let _ = write!(
                    out,
                    r#"<rect class="p-unknown" x="{tip:.2}" y="{:.2}" width="{head}" height="{:.2}"/>"#,
                    -half - 0.4,
                    2.0 * half + 0.8
                );
            }
        }
    }
    let (bar, width) = (body * 1.28, body * 0.36);
    // The handle lies across the outlet when the valve is shut, and along it when the valve is open.
    match view.valve.as_ref().map(|known| known.value) {
        Some(ValvePosition::Shut) => {
            let _ = write!(
                out,
                r#"<circle class="p-solid" r="{body}"/><rect class="p-bar-on-solid" x="{:.2}" y="{:.2}" width="{width:.2}" height="{:.2}" rx="0.3"/>"#,
                -width / 2.0,
                -bar,
                2.0 * bar
            );
        }
        Some(ValvePosition::Open) => {
            let _ = write!(
                out,
                r#"<circle class="p-hollow-hot" r="{body}"/><rect class="p-bar-hot" x="{:.2}" y="{:.2}" width="{:.2}" height="{width:.2}" rx="0.3"/>"#,
                -bar,
                -width / 2.0,
                2.0 * bar
            );
        }
        None => {
            let _ = write!(out, r#"<circle class="p-unknown" r="{body}"/>"#);
        }
    }
}

fn cap(out: &mut String, view: &FittingView) {
    let r = size(Kind::Cap).0;
    let hex: Vec<String> = (0..6)
        .map(|corner| {
            let angle = f64::from(corner) * std::f64::consts::FRAC_PI_3;
            format!("{:.2},{:.2}", r * angle.cos(), r * angle.sin())
        })
        .collect();
    let hex = hex.join(" ");
    let _ = match view.closure.as_ref().map(|known| known.value) {
        Some(ClosureState::ToolTight) => {
            write!(
                out,
                r#"<polygon class="p-solid" points="{hex}"/><circle class="p-on-solid" r="{:.2}"/>"#,
                r * 0.36
            )
        }
        Some(ClosureState::HandTight) => write!(
            out,
            r#"<polygon class="p-hollow-hot" points="{hex}"/><path class="p-hot-fill" d="M-{r} 0H{r}L{:.2} {:.2}H-{:.2}z"/>"#,
            r / 2.0,
            r * 0.866,
            r / 2.0
        ),
        Some(ClosureState::Open) => {
            write!(out, r#"<circle class="p-hollow-hot" r="{r}"/><circle class="p-hot" r="{:.2}"/>"#, r / 2.0)
        }
        None => write!(out, r#"<polygon class="p-unknown" points="{hex}"/>"#),
    };
}

/// Returns the recorded states of a fitting, each in a few words and with whether it needs attention.
fn words(view: &FittingView, disputed: bool) -> Vec<(&'static str, bool)> {
    if disputed {
        return vec![("2 accounts", true)];
    }
    if view.listen.as_ref().is_some_and(|heard| heard.value == Heard::Hiss) {
        return vec![("hiss", true)];
    }
    let mut words = Vec::new();
    if view.fitting.has_valve() {
        words.push(match view.valve.as_ref().map(|known| known.value) {
            Some(ValvePosition::Shut) => ("shut", false),
            Some(ValvePosition::Open) => ("open", true),
            None => ("?", false),
        });
    }
    if view.line.as_ref().is_some_and(|line| line.value.connected) {
        words.push(("hose", false));
    } else {
        words.push(match view.closure.as_ref().map(|known| known.value) {
            Some(ClosureState::ToolTight) => ("tight", false),
            Some(ClosureState::HandTight) => ("by hand", true),
            Some(ClosureState::Open) => ("plug out", true),
            None => ("?", false),
        });
    }
    words
}

fn label(out: &mut String, view: &FittingView, place: &Place, disputed: bool) {
    let (dx, dy, anchor) = place.label;
    let (x, y) = (place.along + dx, place.across + dy);
    let name = short_name(view.fitting);
    let _ = write!(out, r#"<text class="p-name" x="{x:.2}" y="{y:.2}" text-anchor="{anchor}">{name}</text>"#);
    let words = words(view, disputed);
    let span = |(word, hot): &(&str, bool)| {
        let class = if *hot { "p-state-hot" } else { "p-state" };
        format!(r#"<tspan class="{class}">{word}</tspan>"#)
    };
    let lines: Vec<String> = if place.stacked {
        words.iter().map(span).collect()
    } else {
        vec![words.iter().map(span).collect::<Vec<_>>().join(r#"<tspan class="p-state"> · </tspan>"#)]
    };
    for (down, line) in (1u8..).zip(lines) {
        let y = y + 1.85 * f64::from(down);
        let _ = write!(out, r#"<text x="{x:.2}" y="{y:.2}" text-anchor="{anchor}">{line}</text>"#);
    }
}

/// Returns the drawing. All its texts come from a fixed list, so it contains nothing that somebody typed.
pub fn plan(view: &VisitView) -> Markup {
    let mut out = String::with_capacity(8 * 1024);
    let half = RADIUS + WALL + 2.2;
    let (top, height) = (-half + 0.9, 2.0 * half - 0.4);
    let _ = write!(
        out,
        r#"<svg class="plan" viewBox="{:.2} {top:.2} {:.2} {height:.2}" role="img" aria-label="Plan of the fittings under the housing; the same stands in words in the list of fittings">"#,
        -half,
        2.0 * half
    );
    let shell = RADIUS * 0.97;
    let _ = write!(
        out,
        r#"<path class="p-hair" d="M-{half:.2} -{shell:.2}H{half:.2}M-{half:.2} {shell:.2}H{half:.2}"/><circle class="p-wall" r="{:.2}" stroke-width="{WALL}"/><circle class="p-floor" r="{RADIUS}"/><circle class="p-edge" r="{RADIUS}"/><circle class="p-edge" r="{:.2}"/>"#,
        RADIUS + WALL / 2.0,
        RADIUS + WALL
    );
    cover(&mut out, view);
    let two = view.fittings.iter().any(|fitting| fitting.fitting == Fitting::VapourTwo);
    for fitting in &view.fittings {
        let Some(place) = place(fitting.fitting, two) else { continue };
        let slot = format!("fitting/{}/", fitting.fitting);
        let disputed = view.disagreements.iter().any(|differ| differ.slot.starts_with(&slot));
        let _ = write!(out, r#"<g transform="translate({:.2} {:.2})">"#, place.along, place.across);
        if place.kind == Kind::Cap {
            cap(&mut out, fitting);
        } else {
            let _ = write!(out, r#"<g transform="rotate({})">"#, place.outlet);
            valve(&mut out, place.kind, fitting);
            out.push_str("</g>");
        }
        out.push_str("</g>");
        label(&mut out, fitting, &place, disputed);
    }
    let bottom = top + height - 0.7;
    let (left, right) = (-half + 0.9, half - 0.9);
    let _ = write!(
        out,
        r#"<text class="p-small" x="{left:.2}" y="{:.2}">◄ A end</text><text class="p-small" x="{right:.2}" y="{:.2}" text-anchor="end">B end ►</text><text class="p-small" x="{left:.2}" y="{bottom:.2}">typical layout</text></svg>"#,
        top + 2.2,
        top + 2.2
    );
    PreEscaped(out)
}

fn cover(out: &mut String, view: &VisitView) {
    let state = view.cover.as_ref().map(|known| known.value);
    let (closed, pinned) = state.map_or((false, false), |cover| (cover.closed, cover.pinned));
    let (there, wanted) = state.map_or((0, 4), |cover| (cover.bolts_in_place, cover.bolts_required));
    // More bolts than a cover can have are stated in words and not drawn.
    for bolt in 0..if wanted > MOST_BOLTS { 0 } else { wanted } {
        let angle = (90.0 + 360.0 / f64::from(wanted) * (f64::from(bolt) + 0.5)).to_radians();
        let (x, y) = ((RADIUS + WALL / 2.0) * angle.cos(), (RADIUS + WALL / 2.0) * angle.sin());
        let (class, r) = if bolt < there { ("p-solid", 0.8) } else { ("p-hollow-hot", 1.0) };
        let _ = write!(out, r#"<circle class="{class}" cx="{x:.2}" cy="{y:.2}" r="{r}"/>"#);
    }
    let lug = RADIUS + WALL;
    let _ = write!(out, r#"<rect class="p-plain" x="-1.7" y="{:.2}" width="3.4" height="1.9"/>"#, lug - 0.1);
    let _ = if pinned {
        write!(out, r#"<path class="p-pin" d="M-3 {:.2}H3"/>"#, lug + 0.9)
    } else {
        write!(out, r#"<circle class="p-hollow-hot" cx="0" cy="{:.2}" r="0.62"/>"#, lug + 0.9)
    };
    let (said, class) = match state {
        None => ("Cover not recorded".to_owned(), "p-state"),
        Some(_) if !closed => ("Cover open".to_owned(), "p-state-hot"),
        Some(_) if !pinned => ("Pin out".to_owned(), "p-state-hot"),
        Some(_) if there < wanted => (format!("{there} of {wanted} bolts"), "p-state-hot"),
        Some(_) => ("Cover shut".to_owned(), "p-state"),
    };
    let _ = write!(
        out,
        r#"<text class="{class}" x="{:.2}" y="{:.2}" text-anchor="end">{said}</text>"#,
        RADIUS + 2.4,
        lug + 2.3
    );
}
