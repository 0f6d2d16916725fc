//! The steps of a procedure as the phone shows them: stage by stage, in its order and its words.

use farsiding_core::entry::vocabulary::{Fitting, Receiver};
use farsiding_core::message;
use farsiding_core::procedure::{AskedBy, Leaving, Procedure, Stage, StepAt};
use farsiding_words::Words;
use maud::{Markup, html};

/// Returns the steps of a car with the usual fittings, unloaded into a fixed tank, and below them those of a truck.
pub fn preview(w: &Words, procedure: &Procedure) -> Markup {
    let fixed = procedure.expand(Some(Receiver::FixedTank), Leaving::Residue, &Fitting::USUAL);
    let trucks = procedure.expand(Some(Receiver::Truck), Leaving::Residue, &Fitting::USUAL);
    let only_trucks: Vec<&StepAt<'_>> =
        trucks.iter().filter(|step| step.step.only_for == Some(Receiver::Truck)).collect();
    html! {
        p.small { (w.text(&procedure.note)) }
        @for stage in Stage::ALL {
            @let here: Vec<&StepAt<'_>> = fixed.iter().filter(|step| step.step.stage == stage).collect();
            @if !here.is_empty() {
                h3.named { (w.text(&stage.term())) }
                ol.plain { @for step in here { li { (step_of(w, step, Receiver::FixedTank)) } } }
            }
        }
        @if !only_trucks.is_empty() {
            h3 { (w.say("office-procedures-only-trucks")) }
            ol.plain { @for step in only_trucks { li { (step_of(w, step, Receiver::Truck)) } } }
        }
    }
}

fn step_of(w: &Words, step: &StepAt<'_>, receiver: Receiver) -> Markup {
    let basis = step.basis(Some(receiver));
    let minutes = step.step.repeat_minutes;
    html! {
        b { (w.text(&step.title())) }
        @if let Some(minutes) = minutes { " " small { "· " (w.text(&message!("office-procedures-every", minutes = minutes))) } }
        @if step.step.optional { " " small { "· " (w.say("office-procedures-optional")) } }
        p { (w.text(&step.step.what_to_do)) }
        @for caution in &step.step.cautions { p.hot { (w.text(caution)) } }
        p.small { (w.text(&step.step.why)) " " (w.text(&message!("office-procedures-asked-by", by = basis.asked_by.term(), source = basis.source.message()))) }
    }
}

/// Returns the laws that ask for something, as one line; empty if none does.
pub fn law_of(w: &Words, laws: &[farsiding_core::procedure::Law]) -> String {
    let cites: Vec<String> = laws.iter().map(|law| w.text(&law.source.cites)).collect();
    cites.join("; ")
}

/// Returns whether a law asks for a step, whatever it is unloaded into.
pub fn is_law(step: &farsiding_core::procedure::Step) -> bool {
    !step.laws.is_empty() && step.basis(None).asked_by == AskedBy::Law
}
