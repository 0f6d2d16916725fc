//! The formulas for scripts: each line of input is one JSON object and gets one line of output. This module
//! is pure; reading and writing streams is done by the shell (`farsiding calc`).
//!
//! It holds [`answer`] and the form of an answer. The formulas are listed in `catalogue` and described by
//! `schema`; lines are read in `reading`. An invalid line is answered with `"ok": false` and never ends a
//! stream.
//!
//! Each numeric key may be accompanied by the same key with the suffix `_pm`: its ± at 95 %, in the same
//! unit. Without it the limits presumed in the catalogue apply, and a finding says so. `id` is returned as
//! given.

mod catalogue;
mod json;
mod judged;
mod line_error;
mod liquid;
mod listing;
mod reading;
mod schema;
mod vapour;
mod work;

use serde::Serialize;

pub use self::catalogue::catalogue;
pub use self::listing::{listing, listing_json};
pub use self::schema::{Formula, Input, Kind, Need};

use self::json::Json;
use self::line_error::LineError;
use self::reading::Reading;
use crate::calc::fluid::Band;
use crate::units::{Computed, Finding, Unit};
use crate::{Arg, Message, message};

/// Returns the answer to one line, without a line end. The function never fails or panics.
///
/// The answer is
/// `{"ok":true,"value":…,"unit":…,"plus_minus":…,"largest":…,"formula":…,"source":…,"findings":[…],
/// "uncertainty":{…}}`,
/// with further results under `also`, or `{"ok":false,"error":CODE,"message":…}`. `value` is replaced by
/// `band` if the composition is presumed, and by `outcome` for a judgement.
pub fn answer(formula: &str, line: &str) -> String {
    let mut id = None;
    let outcome = respond(formula, line, &mut id);
    let text = match &outcome {
        Ok((answer, findings)) => serde_json::to_string(&Good::new(answer, findings, id.as_ref())),
        Err(refusal) => serde_json::to_string(&Bad {
            ok: false,
            error: refusal.code,
            message: &refusal.message,
            id: id.as_ref(),
        }),
    };
    text.unwrap_or_else(|_| {
        r#"{"ok":false,"error":"internal","message":{"message":"calc-line-not-written"}}"#.to_owned()
    })
}

fn respond(name: &str, line: &str, id: &mut Option<Id>) -> Result<(Answer, Vec<Finding>), LineError> {
    let formula = catalogue().iter().find(|formula| formula.name == name).ok_or_else(|| {
        let known: Vec<&str> = catalogue().iter().map(|formula| formula.name).collect();
        let words = Arg::Typed(known.join(", "));
        LineError::new(
            "unknown_formula",
            message!("calc-line-no-formula", name = Arg::typed(name), words = words),
        )
    })?;
    let fields = Json::object(line)?;
    *id = fields.iter().find(|(key, _)| key == "id").and_then(|(_, value)| match value {
        Json::Text(text) => Some(Id::Text(text.clone())),
        Json::Number(number) => Some(Id::Number(*number)),
        _ => None,
    });
    let reading = Reading::new(formula, fields)?;
    let answer = (formula.answer)(&reading).map_err(|refusal| match (refusal.code, reading.unused()) {
        ("missing_input", unused) if !unused.is_empty() => {
            let unused = Arg::Typed(unused);
            LineError {
                message: message!("calc-line-and-not-used", why = refusal.message, unused = unused),
                ..refusal
            }
        }
        _ => refusal,
    })?;
    Ok((answer, reading.findings()))
}

/// The name that a line gives itself; it is returned with the answer.
#[derive(Serialize)]
#[serde(untagged)]
enum Id {
    Text(String),
    Number(f64),
}

/// A formula's answer with its additional results.
pub struct Answer {
    main: Main,
    also: Vec<(&'static str, Computed)>,
    detail: Option<serde_json::Value>,
}

/// The main result.
enum Main {
    /// One value.
    Value(Computed),
    /// The lowest and the highest value over the possible compositions.
    Band(Box<Band>),
    /// A judgement in words; its numbers are in the detail.
    Outcome { outcome: &'static str, formula: &'static str, source: Message, findings: Vec<Finding> },
}

impl From<Computed> for Answer {
    fn from(main: Computed) -> Answer {
        Answer { main: Main::Value(main), also: Vec::new(), detail: None }
    }
}

impl From<Band> for Answer {
    fn from(band: Band) -> Answer {
        Answer { main: Main::Band(Box::new(band)), also: Vec::new(), detail: None }
    }
}

impl Answer {
    fn judged(
        outcome: &'static str,
        formula: &'static str,
        source: Message,
        findings: Vec<Finding>,
    ) -> Answer {
        Answer { main: Main::Outcome { outcome, formula, source, findings }, also: Vec::new(), detail: None }
    }

    fn with(mut self, name: &'static str, computed: Computed) -> Answer {
        self.also.push((name, computed));
        self
    }

    fn detailed(mut self, detail: serde_json::Value) -> Answer {
        self.detail = Some(detail);
        self
    }
}

/// The written form of an answer. Exactly one of `value`, `band` and `outcome` is present.
#[derive(Serialize)]
struct Good<'a> {
    ok: bool,
    #[serde(skip_serializing_if = "Option::is_none")]
    value: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    band: Option<Span<'a>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    outcome: Option<&'a str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    unit: Option<Unit>,
    #[serde(skip_serializing_if = "Option::is_none")]
    plus_minus: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    largest: Option<&'a Message>,
    formula: &'a str,
    source: &'a Message,
    findings: Vec<&'a Finding>,
    #[serde(skip_serializing_if = "Option::is_none")]
    uncertainty: Option<Uncertainty<'a>>,
    #[serde(skip_serializing_if = "Also::is_empty")]
    also: Also<'a>,
    #[serde(skip_serializing_if = "Option::is_none")]
    detail: Option<&'a serde_json::Value>,
    #[serde(skip_serializing_if = "Option::is_none")]
    id: Option<&'a Id>,
}

#[derive(Serialize)]
struct Span<'a> {
    low: f64,
    low_for: &'a Message,
    high: f64,
    high_for: &'a Message,
}

#[derive(Serialize)]
struct Uncertainty<'a> {
    plus_minus: f64,
    unit: Unit,
    level: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    largest: Option<&'a Message>,
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
    fn new(answer: &'a Answer, of_line: &'a [Finding], id: Option<&'a Id>) -> Good<'a> {
        let bare = |formula: &'a str, source: &'a Message, findings: &'a [Finding]| Good {
            ok: true,
            value: None,
            band: None,
            outcome: None,
            unit: None,
            plus_minus: None,
            largest: None,
            formula,
            source,
            findings: of_line.iter().chain(findings).collect(),
            uncertainty: None,
            also: Also(&answer.also),
            detail: answer.detail.as_ref(),
            id,
        };
        let of = |computed: &'a Computed| Good {
            unit: Some(computed.unit),
            plus_minus: computed.plus_minus,
            largest: computed.largest.as_ref(),
            uncertainty: Some(Uncertainty {
                plus_minus: computed.plus_minus.unwrap_or(0.0),
                unit: computed.unit,
                level: "95 %, k = 2",
                largest: computed.largest.as_ref(),
            }),
            ..bare(&computed.formula, &computed.source, &computed.findings)
        };
        match &answer.main {
            Main::Value(computed) => Good { value: Some(computed.value), ..of(computed) },
            Main::Band(band) => {
                let Band { low, low_for, high, high_for } = &**band;
                let wider = if low.plus_minus > high.plus_minus { low } else { high };
                Good { band: Some(Span { low: low.value, low_for, high: high.value, high_for }), ..of(wider) }
            }
            Main::Outcome { outcome, formula, source, findings } => {
                Good { outcome: Some(outcome), ..bare(formula, source, findings) }
            }
        }
    }
}

#[derive(Serialize)]
struct Bad<'a> {
    ok: bool,
    error: &'a str,
    message: &'a Message,
    #[serde(skip_serializing_if = "Option::is_none")]
    id: Option<&'a Id>,
}
