//! A derived value: number, unit, uncertainty, the formula that produced it, and findings.
//!
//! Computed values are never stored (invariant 3); they are computed again from entries each time they are
//! shown.

use farsiding_message::{Arg, Message};
use serde::{Deserialize, Serialize};

use super::Unit;

/// The importance of a finding.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[cfg_attr(feature = "shell-types", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Severity {
    /// The reader should know it.
    Note,
    /// The reader should check it before going on.
    Check,
    /// Something is wrong, and work should stop until the cause is found.
    Alarm,
}

/// An observation about an input or a result, with advice that a person can act on.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "shell-types", derive(ts_rs::TS))]
pub struct Finding {
    /// A stable identifier in snake_case, for tests and translations.
    pub code: String,
    /// The importance.
    pub severity: Severity,
    /// One or two sentences, including the arithmetic if there is any.
    pub message: Message,
}

impl Finding {
    /// Creates a finding with its stable code.
    pub fn new(code: &str, severity: Severity, message: Message) -> Finding {
        Finding { code: code.to_owned(), severity, message }
    }
}

/// A computed value. `plus_minus` is half the width of the 95 % interval, in `unit`.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "shell-types", derive(ts_rs::TS))]
pub struct Computed {
    /// The value in `unit`, finite.
    pub value: f64,
    /// The unit.
    pub unit: Unit,
    /// The expanded uncertainty at 95 % in `unit` (JCGM 100:2008, 6.2); absent if the uncertainty of the
    /// inputs is unknown.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub plus_minus: Option<f64>,
    /// The input that contributes most to `plus_minus`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub largest: Option<Message>,
    /// The id and version of the formula, such as `residue/1`.
    pub formula: String,
    /// What the formula rests on: document, edition, table or equation.
    pub source: Message,
    /// The reasons to doubt the value.
    #[serde(default)]
    pub findings: Vec<Finding>,
}

impl Computed {
    /// Returns the number of decimals that the uncertainty supports.
    fn decimals(&self) -> usize {
        match self.plus_minus {
            Some(pm) if pm > 0.0 => (1.0 - pm.log10().floor()).clamp(0.0, 6.0) as usize,
            _ => self.unit.usual_decimals(),
        }
    }

    /// Returns value, ± and unit as an argument of a message, rounded to the digits that the uncertainty supports.
    pub fn arg(&self) -> Arg {
        let decimals = self.decimals();
        Arg::Figure {
            value: format!("{:.decimals$}", self.value),
            plus_minus: self.plus_minus.map(|pm| format!("{pm:.decimals$}")),
            unit: self.unit.word().to_owned(),
        }
    }

    /// Returns value, ± and unit in plain text, rounded to the digits that the uncertainty supports.
    pub fn shown(&self) -> String {
        let decimals = self.decimals();
        match self.plus_minus {
            Some(pm) => format!("{:.decimals$} ± {:.decimals$} {}", self.value, pm, self.unit),
            None => format!("{:.decimals$} {}", self.value, self.unit),
        }
    }
}
