//! The formulas for scripts: one JSON object a line in, one a line out. Pure; reading and writing streams
//! is the shell's business (`farsiding calc`).
//!
//! Lives here: [`answer`] and the shape of an answer. The formulas' inputs are in `catalogue`, how a line
//! is read in `reading`. A bad line is an answer with `"ok": false`, so it never stops a stream.
//!
//! Every numeric key may be followed by the same key with `_pm`: its ± at 95 %, in the same unit. Without
//! it the catalogue's presumed limits are used, and a finding says so. `id` comes back as it was given.

mod catalogue;
mod first;
mod json;
mod listing;
mod reading;
mod refusal;

use serde::Serialize;

pub use self::catalogue::{Formula, Input, Kind, Need, catalogue};
pub use self::listing::{listing, listing_json};

use self::json::Json;
use self::reading::Reading;
use self::refusal::Refusal;
use crate::units::{Computed, Unit};

/// The answer to one line, without its line end. Never fails and never panics.
///
/// `{"ok":true,"value":…,"unit":…,"plus_minus":…,"largest":…,"formula":…,"source":…,"findings":[…],
/// "uncertainty":{…}}`, with further results under `also`, or `{"ok":false,"error":CODE,"message":…}`.
pub fn answer(formula: &str, line: &str) -> String {
    let mut id = None;
    let outcome = respond(formula, line, &mut id);
    let text = match &outcome {
        Ok(answer) => serde_json::to_string(&Good::new(answer, id.as_ref())),
        Err(refusal) => serde_json::to_string(&Bad {
            ok: false,
            error: refusal.code,
            message: &refusal.message,
            id: id.as_ref(),
        }),
    };
    text.unwrap_or_else(|_| {
        r#"{"ok":false,"error":"internal","message":"the answer could not be written"}"#.to_owned()
    })
}

fn respond(name: &str, line: &str, id: &mut Option<Id>) -> Result<Answer, Refusal> {
    let formula = catalogue().iter().find(|formula| formula.name == name).ok_or_else(|| {
        let known: Vec<&str> = catalogue().iter().map(|formula| formula.name).collect();
        Refusal::new("unknown_formula", format!("\"{name}\" is not a formula; known: {}", known.join(", ")))
    })?;
    let fields = Json::object(line)?;
    *id = fields.iter().find(|(key, _)| key == "id").and_then(|(_, value)| match value {
        Json::Text(text) => Some(Id::Text(text.clone())),
        Json::Number(number) => Some(Id::Number(*number)),
        _ => None,
    });
    let reading = Reading::new(formula, fields)?;
    let mut answer = (formula.answer)(&reading)?;
    answer.main.findings.splice(0..0, reading.findings());
    Ok(answer)
}

/// A line's own name for itself, given back with the answer.
#[derive(Serialize)]
#[serde(untagged)]
enum Id {
    Text(String),
    Number(f64),
}

/// What a formula answers: the value asked for and others that come with it.
pub struct Answer {
    main: Computed,
    also: Vec<(&'static str, Computed)>,
    detail: Option<serde_json::Value>,
}

impl From<Computed> for Answer {
    fn from(main: Computed) -> Answer {
        Answer { main, also: Vec::new(), detail: None }
    }
}

impl Answer {
    fn with(mut self, name: &'static str, computed: Computed) -> Answer {
        self.also.push((name, computed));
        self
    }
}

#[derive(Serialize)]
struct Good<'a> {
    ok: bool,
    #[serde(flatten)]
    main: &'a Computed,
    uncertainty: Uncertainty<'a>,
    #[serde(skip_serializing_if = "Also::is_empty")]
    also: Also<'a>,
    #[serde(skip_serializing_if = "Option::is_none")]
    detail: Option<&'a serde_json::Value>,
    #[serde(skip_serializing_if = "Option::is_none")]
    id: Option<&'a Id>,
}

#[derive(Serialize)]
struct Uncertainty<'a> {
    plus_minus: f64,
    unit: Unit,
    level: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    largest: Option<&'a str>,
}

/// Further results by name, in their order.
struct Also<'a>(&'a [(&'static str, Computed)]);

impl Also<'_> {
    const fn is_empty(&self) -> bool {
        self.0.is_empty()
    }
}

impl Serialize for Also<'_> {
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_map(self.0.iter().map(|(name, computed)| (name, computed)))
    }
}

impl<'a> Good<'a> {
    fn new(answer: &'a Answer, id: Option<&'a Id>) -> Good<'a> {
        let main = &answer.main;
        let uncertainty = Uncertainty {
            plus_minus: main.plus_minus.unwrap_or(0.0),
            unit: main.unit,
            level: "95 %, k = 2",
            largest: main.largest.as_deref(),
        };
        Good { ok: true, main, uncertainty, also: Also(&answer.also), detail: answer.detail.as_ref(), id }
    }
}

#[derive(Serialize)]
struct Bad<'a> {
    ok: bool,
    error: &'a str,
    message: &'a str,
    #[serde(skip_serializing_if = "Option::is_none")]
    id: Option<&'a Id>,
}
