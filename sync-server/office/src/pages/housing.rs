//! Writes the plan of the fittings under a car's housing, which the core draws for phone and office alike, as
//! SVG.
//!
//! Every state on the plan is also given in words, in its labels and in the list beside it.

use farsiding_core::view::{HousingPlan, PlanShape, PlanText, PlanWord};
use farsiding_words::Words;
use maud::{Markup, html};

/// The distance between two lines of words, in inches at the car.
const LINE: f64 = 1.85;

/// Returns the drawing. Its texts come from the catalogues, so it contains nothing that somebody typed.
pub fn plan(w: &Words, plan: &HousingPlan) -> Markup {
    let bounds = plan.bounds.map(|bound| bound.to_string()).join(" ");
    html! {
        svg class="plan" viewBox=(bounds) role="img" aria-label=(w.say("plan-label")) {
            (strokes(&plan.ground))
            @for fitting in &plan.fittings {
                @let [x, y] = fitting.at;
                g transform={ "translate(" (x) " " (y) ") rotate(" (fitting.turned) ")" } { (strokes(&fitting.shapes)) }
                @for text in &fitting.words { (words(w, text)) }
            }
            g class="p-beside" { @for text in &plan.words { (words(w, text)) } }
        }
    }
}

/// Each path has an end of its own: in markup that is no XML, one without would hold all that follow.
fn strokes(shapes: &[PlanShape]) -> Markup {
    html! { @for shape in shapes { path class={ "p-" (shape.pen) } d=(shape.path) {} } }
}

/// Writes a line of words. Beside the housing, where there is little room, the rest of a name stands below.
fn words(w: &Words, text: &PlanText) -> Markup {
    let [x, y] = text.at;
    let spoken: Vec<String> = text.words.iter().map(|word| w.text(&word.says)).collect();
    let pen = |word: &PlanWord| format!("p-{}", word.pen);
    html! {
        @if let (true, [word], [whole]) = (text.narrow, text.words.as_slice(), spoken.as_slice()) {
            @let (first, rest) = whole.split_once(' ').unwrap_or((whole, ""));
            text text-anchor=(text.anchor) {
                tspan class=(pen(word)) x=(x) y=(y) { (first) " " }
                tspan class=(pen(word)) x=(x) y=(y + LINE) { (rest) }
            }
        } @else {
            text x=(x) y=(y) text-anchor=(text.anchor) {
                @for (n, (word, says)) in text.words.iter().zip(&spoken).enumerate() {
                    @if n > 0 { tspan class="p-state" { " · " } }
                    tspan class=(pen(word)) { (says) }
                }
            }
        }
    }
}
