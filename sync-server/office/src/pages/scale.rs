//! Small drawings: the ten stages of a job as a scale with a pointer, and icons beside words.

use farsiding_core::procedure::Stage;
use farsiding_words::Words;
use maud::{Markup, PreEscaped, html};

/// Returns the scale with the stage of a job: the finished stages are filled, and the pointer is at the
/// current one.
pub fn stages(stage: Stage, released: bool) -> Markup {
    let at = Stage::ALL.iter().position(|known| *known == stage).unwrap_or(0);
    html! {
        svg.scale viewBox="0 0 330 30" aria-hidden="true" focusable="false" {
            path.s-line d="M4 24H326" {}
            @for (place, _) in Stage::ALL.iter().enumerate() {
                @let x = 6 + place * 32;
                rect class=(if released || place < at { "s-past" } else { "s-to" }) x=(x) y="14" width="28" height="10" {}
            }
            @if !released {
                path.s-hand d={ "M" (6 + at * 32 + 14) " 14l-8 -13h16z" } {}
            }
        }
    }
}

/// Returns the name of a stage, such as "Final pressure".
pub fn stage_name(w: &Words, stage: Stage) -> String {
    capital(&w.text(&stage.term()))
}

/// Returns a phrase with a capital first letter.
pub fn capital(spoken: &str) -> String {
    let mut chars = spoken.chars();
    chars.next().map_or(String::new(), |first| first.to_uppercase().collect::<String>() + chars.as_str())
}

fn icon(path: &'static str) -> Markup {
    PreEscaped(format!(
        r#"<svg class="icon" viewBox="0 0 24 24" fill="none" stroke="currentColor" stroke-width="2.4" aria-hidden="true" focusable="false"><path d="{path}"/></svg>"#
    ))
}

/// Returns the icon for a hold.
pub fn hold() -> Markup {
    icon("M8 2h8l6 6v8l-6 6H8l-6-6V8zM9 8v8M15 8v8")
}

/// Returns the icon for two accounts that differ.
pub fn differ() -> Markup {
    icon("M3 5h8v14H3zM13 5h8v14h-8zM13 15h8")
}

/// Returns the icon for something that is wrong.
pub fn caution() -> Markup {
    icon("M12 3L22 21H2zM12 10v5M12 17.6v1")
}

/// Returns the icon for the next step.
pub fn forward() -> Markup {
    icon("M9 4l8 8-8 8")
}

/// Returns the icon of a phone.
pub fn phone() -> Markup {
    icon("M7 2h10v20H7zM11 18.5h2")
}
