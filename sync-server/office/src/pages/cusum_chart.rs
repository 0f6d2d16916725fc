//! Draws the cumulative sums of a gauge: the upper sum above the line, the lower sum below, the decision
//! interval as dashed lines, each car's own difference as a dot, and signals as crosses. The same is said in
//! words below the chart.

use std::fmt::Write as _;

use farsiding_core::{Arg, Message, message};
use farsiding_words::Words;
use maud::{Markup, PreEscaped, html};

use farsiding_packet::drawing;
use farsiding_reconcile::Bias;
use farsiding_reconcile::comparison::Compared;
use farsiding_reconcile::report::CarLine;

const WIDTH: f64 = 600.0;
const LEFT: f64 = 58.0;
const RIGHT: f64 = 588.0;
const MIDDLE: f64 = 105.0;
const HALF: f64 = 84.0;

/// Returns the chart of a gauge with its caption, or `None` if there is no chart.
pub fn figure(w: &Words, bias: &Bias, cars: &[CarLine]) -> Option<Markup> {
    let chart = bias.cusum.as_ref()?;
    let reach =
        |point: &farsiding_reconcile::bias::Point| point.upper.max(point.lower).max(point.difference.abs());
    let most = chart.points.iter().map(reach).fold(chart.interval, f64::max);
    if chart.points.len() < 2 || !most.is_finite() || most <= 0.0 {
        return None;
    }
    let step = (RIGHT - LEFT) / (chart.points.len() - 1) as f64;
    let share = |sum: f64| if sum.is_finite() { (sum / most).clamp(-1.0, 1.0) / 1.1 } else { 0.0 };
    let (x, y) = (|at: usize| LEFT + step * at as f64, |sum: f64| MIDDLE - HALF * share(sum));
    let places: Vec<usize> = (0..chart.points.len()).collect();
    let places =
        drawing::thinned(&places, drawing::MOST_POINTS, |at| chart.points.get(*at).map_or(0.0, reach));
    let points: Vec<_> = places.into_iter().filter_map(|at| Some((*at, chart.points.get(*at)?))).collect();
    let mut lines = String::new();
    for sign in [1.0, -1.0] {
        let level = y(sign * chart.interval);
        let word = if sign > 0.0 { w.say("office-chart-over") } else { w.say("office-chart-short") };
        let _ = write!(
            lines,
            r#"<path class="c-limit" d="M{LEFT} {level:.1}H{RIGHT}"/><text x="4" y="{:.1}">{word}</text>"#,
            level + 5.0
        );
        let path: Vec<String> = points
            .iter()
            .map(|(at, point)| {
                format!("{:.1} {:.1}", x(*at), y(if sign > 0.0 { point.upper } else { -point.lower }))
            })
            .collect();
        let _ = write!(lines, r#"<path class="c-line" d="M{}"/>"#, path.join("L"));
    }
    for (at, point) in &points {
        let _ = write!(
            lines,
            r#"<circle class="c-dot" cx="{:.1}" cy="{:.1}" r="2.6"/>"#,
            x(*at),
            y(point.difference)
        );
    }
    for at in drawing::thinned(&chart.signals, drawing::MOST_POINTS, |at| *at as f64) {
        let Some(point) = chart.points.get(*at) else { continue };
        let (x, y) = (x(*at), y(if point.upper >= point.lower { point.upper } else { -point.lower }));
        let _ =
            write!(lines, r#"<path class="c-gone" d="M{:.1} {:.1}l10 10m0 -10l-10 10"/>"#, x - 5.0, y - 5.0);
    }
    let words = match chart.signals.as_slice() {
        [] => message!("office-chart-no-signal"),
        [first, rest @ ..] => {
            let car = chart.points.get(*first).and_then(|point| cars.get(point.car));
            let car = car.map_or("", |car| car.car.as_str());
            match rest.len() {
                0 => message!("office-chart-signal", car = Arg::typed(car)),
                more => {
                    message!("office-chart-signals", car = Arg::typed(car), count = more)
                }
            }
        }
    };
    let title = w.text(&message!(
        "office-chart-sums",
        name = Arg::typed(&bias.name),
        count = bias.cars,
        says = words.clone()
    ));
    Some(html! {
        figure {
            figcaption { (bias.name) @if !bias.site.is_empty() { " · " (bias.site) } ", " (w.text(&against(bias.compared))) }
            svg.chart role="img" aria-label=(title) viewBox={ "0 0 " (WIDTH) " 210" } {
                (PreEscaped(format!(r#"<path class="c-frame" d="M{LEFT} {MIDDLE}H{RIGHT}"/>{lines}"#)))
                text x="4" y=(MIDDLE + 5.0) { "0" }
            }
            p.small {
                (w.text(&message!(
                    "office-chart-read",
                    says = words,
                    reference = Arg::number(chart.reference, 0),
                    interval = Arg::number(chart.interval, 0),
                    sigma = Arg::number(chart.sigma, 0)
                )))
            }
        }
    })
}

/// Returns what is compared with the billed quantity.
pub fn against(compared: Compared) -> Message {
    match compared {
        Compared::Found => message!("office-reconcile-against-found"),
        Compared::Received => message!("office-reconcile-against-received"),
    }
}
