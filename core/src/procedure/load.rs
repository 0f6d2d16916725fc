//! Reading and checking a procedure's text. Every mistake is a typed error that names the step.
//!
//! The registry (`procedure::Procedures`) calls this module for the built-in texts and for an owner's own.

use std::collections::BTreeSet;

use serde::Deserialize;

use super::source::{Source, SourceStanding};
use super::step::{ForEach, OrderRule, Procedure, Record, Since, Stage, Step};
use crate::entry::vocabulary::{Fitting, Receiver};
use crate::ids::Digest;

/// The largest procedure text accepted, in bytes.
pub const LARGEST_PROCEDURE: usize = 256 * 1024;

/// The mistake in a procedure's text.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum ProcedureError {
    /// The text is not TOML or does not have the expected shape.
    #[error("the procedure cannot be read: {0}")]
    Unreadable(String),
    /// The text is too large; the field is its size in bytes.
    #[error("the procedure has {0} bytes; {LARGEST_PROCEDURE} is the most")]
    TooLarge(usize),
    /// The procedure has no steps.
    #[error("the procedure has no steps")]
    Empty,
    /// A required text is empty.
    #[error("step \"{step}\": {field} is empty")]
    EmptyField {
        /// The step.
        step: String,
        /// The key of the empty text.
        field: &'static str,
    },
    /// A step's id contains characters other than a–z, 0–9 and the underscore.
    #[error("step \"{0}\": a step's id is made of a–z, 0–9 and _")]
    BadId(String),
    /// Two steps have the same id.
    #[error("two steps are called \"{0}\"")]
    DuplicateId(String),
    /// A step of an earlier stage comes after one of a later stage.
    #[error("step \"{0}\" stands after a step of a later stage")]
    StageOutOfOrder(String),
    /// A step names a predecessor that does not exist or comes later.
    #[error("step \"{step}\" is to come after \"{after}\", which does not stand before it")]
    UnknownAfter {
        /// The step.
        step: String,
        /// The id of the predecessor.
        after: String,
    },
    /// A record concerns a fitting, but its step has none.
    #[error("step \"{0}\" records something of a fitting but is not about one")]
    NoFitting(String),
    /// A step both repeats over fittings and names one.
    #[error("step \"{0}\" both repeats over fittings and names one")]
    TwoFittings(String),
    /// A step without a fitting has a `since` that requires one.
    #[error("step \"{0}\": its `since` is about a fitting but the step is not")]
    SinceWithoutFitting(String),
    /// A unit does not match the measured quantity.
    #[error("step \"{0}\": the unit does not fit what is measured")]
    WrongUnit(String),
    /// A step has `law_known` or `law_binds` without `law`, or a law without `law_known`.
    #[error("step \"{0}\": `law` and `law_known` belong together")]
    LawUnclear(String),
    /// An order rule names a step that does not exist or does not repeat.
    #[error("an order rule names \"{0}\", which is not a step that repeats over lines")]
    BadOrderRule(String),
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Text {
    id: String,
    edition: String,
    title: String,
    note: String,
    #[serde(default)]
    order: Vec<OrderRule>,
    steps: Vec<StepText>,
}

#[derive(Deserialize)]
#[serde(rename_all = "snake_case")]
enum LawKnown {
    Read,
    Memory,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct StepText {
    id: String,
    stage: Stage,
    title: String,
    what_to_do: String,
    why: String,
    law: Option<String>,
    law_known: Option<LawKnown>,
    law_binds: Option<Receiver>,
    #[serde(default)]
    cautions: Vec<String>,
    #[serde(default)]
    records: Vec<Record>,
    #[serde(default)]
    may_record: Vec<Record>,
    for_each: Option<ForEach>,
    fitting: Option<Fitting>,
    only_for: Option<Receiver>,
    since: Option<Since>,
    #[serde(default)]
    after: Vec<String>,
    repeat_minutes: Option<u32>,
    #[serde(default)]
    optional: bool,
}

impl Procedure {
    /// Reads and checks a procedure's text.
    ///
    /// # Errors
    /// [`ProcedureError`] for the first mistake found.
    pub fn read(text: &str) -> Result<Procedure, ProcedureError> {
        if text.len() > LARGEST_PROCEDURE {
            return Err(ProcedureError::TooLarge(text.len()));
        }
        let digest = Digest::of(text.as_bytes());
        let text: Text = toml::from_str(text).map_err(|e| ProcedureError::Unreadable(e.to_string()))?;
        for (field, value) in [("id", &text.id), ("edition", &text.edition), ("title", &text.title)] {
            if value.trim().is_empty() {
                return Err(ProcedureError::EmptyField { step: String::new(), field });
            }
        }
        let steps = text.steps.into_iter().map(step).collect::<Result<Vec<_>, _>>()?;
        check_order(&steps)?;
        for rule in &text.order {
            check_rule(rule, &steps)?;
        }
        let (id, edition, title, note) = (text.id, text.edition, text.title, text.note);
        Ok(Procedure { digest, id, edition, title, note, steps, order: text.order })
    }
}

fn step(text: StepText) -> Result<Step, ProcedureError> {
    let id = text.id;
    if id.is_empty() || !id.bytes().all(|b| b.is_ascii_lowercase() || b.is_ascii_digit() || b == b'_') {
        return Err(ProcedureError::BadId(id));
    }
    for (field, value) in [("title", &text.title), ("what_to_do", &text.what_to_do), ("why", &text.why)] {
        if value.trim().is_empty() {
            return Err(ProcedureError::EmptyField { step: id, field });
        }
    }
    if text.for_each.is_some() && text.fitting.is_some() {
        return Err(ProcedureError::TwoFittings(id));
    }
    let about_fitting = text.for_each.is_some() || text.fitting.is_some();
    let records = || text.records.iter().chain(&text.may_record);
    if !about_fitting && records().any(Record::needs_fitting) {
        return Err(ProcedureError::NoFitting(id));
    }
    if !about_fitting && matches!(text.since, Some(Since::Connected | Since::Shut | Since::LineOff)) {
        return Err(ProcedureError::SinceWithoutFitting(id));
    }
    if records().any(|record| !unit_fits(record)) {
        return Err(ProcedureError::WrongUnit(id));
    }
    let law = match (text.law, text.law_known) {
        (Some(cites), Some(LawKnown::Read)) => Some(Source { cites, standing: SourceStanding::Read }),
        (Some(cites), Some(LawKnown::Memory)) => Some(Source { cites, standing: SourceStanding::FromMemory }),
        (None, None) if text.law_binds.is_none() => None,
        _ => return Err(ProcedureError::LawUnclear(id)),
    };
    Ok(Step {
        id,
        stage: text.stage,
        title: text.title,
        what_to_do: text.what_to_do,
        why: text.why,
        law,
        law_binds: text.law_binds,
        cautions: text.cautions,
        records: text.records,
        may_record: text.may_record,
        for_each: text.for_each,
        fitting: text.fitting,
        only_for: text.only_for,
        since: text.since,
        after: text.after,
        repeat_minutes: text.repeat_minutes,
        optional: text.optional,
    })
}

fn unit_fits(record: &Record) -> bool {
    use crate::entry::vocabulary::Measured;
    use crate::units::Dimension;
    let Record::Reading { measured, unit, .. } = record else { return true };
    let dimension = unit.dimension();
    match measured {
        Measured::Pressure => matches!(dimension, Dimension::GaugePressure | Dimension::AbsolutePressure),
        Measured::Temperature => dimension == Dimension::Temperature,
        Measured::Outage => dimension == Dimension::Length,
        Measured::Level | Measured::RelativeDensity => dimension == Dimension::Ratio,
        Measured::Volume => dimension == Dimension::Volume,
        Measured::Rate => dimension == Dimension::VolumeRate,
    }
}

fn check_order(steps: &[Step]) -> Result<(), ProcedureError> {
    if steps.is_empty() {
        return Err(ProcedureError::Empty);
    }
    let mut seen = BTreeSet::new();
    let mut stage = Stage::Receive;
    for step in steps {
        if step.stage < stage {
            return Err(ProcedureError::StageOutOfOrder(step.id.clone()));
        }
        stage = step.stage;
        if let Some(after) = step.after.iter().find(|after| !seen.contains(after.as_str())) {
            return Err(ProcedureError::UnknownAfter { step: step.id.clone(), after: after.clone() });
        }
        if !seen.insert(step.id.as_str()) {
            return Err(ProcedureError::DuplicateId(step.id.clone()));
        }
    }
    Ok(())
}

fn check_rule(rule: &OrderRule, steps: &[Step]) -> Result<(), ProcedureError> {
    let named: Vec<&String> = match rule {
        OrderRule::OneAtATime { from, to } => vec![from, to],
        OrderRule::VapourLast { step } => vec![step],
    };
    for name in named {
        let repeats = steps.iter().any(|step| step.id == *name && step.for_each == Some(ForEach::Lines));
        if !repeats {
            return Err(ProcedureError::BadOrderRule(name.clone()));
        }
    }
    Ok(())
}
