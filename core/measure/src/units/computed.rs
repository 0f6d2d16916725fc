//! A derived value: number, unit, uncertainty, the formula that made it, and what to doubt about it.
//!
//! Never stored (invariant 3): it is made again from entries each time it is shown.

use serde::{Deserialize, Serialize};

use super::Unit;

/// How much a finding matters to the person reading it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[cfg_attr(feature = "shell-types", derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Severity {
    /// ReadingUncertainty knowing.
    Note,
    /// ReadingUncertainty checking before going on.
    Check,
    /// Something is wrong: stop and find out.
    Alarm,
}

/// Something noticed about an input or a result, in words a person can act on.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "shell-types", derive(ts_rs::TS))]
pub struct Finding {
    /// Stable identifier in snake_case, for tests and translation.
    pub code: String,
    /// How much it matters.
    pub severity: Severity,
    /// One or two sentences, with the arithmetic where there is some.
    pub message: String,
}

impl Finding {
    /// A finding with its stable code.
    pub fn new(code: &str, severity: Severity, message: impl Into<String>) -> Finding {
        Finding { code: code.to_owned(), severity, message: message.into() }
    }
}

/// A computed value. `plus_minus` is half the width of the 95 % interval, in `unit`.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "shell-types", derive(ts_rs::TS))]
pub struct Computed {
    /// The value in `unit`, finite.
    pub value: f64,
    /// Its unit.
    pub unit: Unit,
    /// Expanded uncertainty at 95 % in `unit` (JCGM 100:2008, 6.2); absent when nothing is known of the inputs'.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub plus_minus: Option<f64>,
    /// The input that contributes most to `plus_minus`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub largest: Option<String>,
    /// Formula id and version, such as `residue/1`.
    pub formula: String,
    /// Document, edition, table or equation the formula comes from.
    pub source: String,
    /// What to doubt about it.
    #[serde(default)]
    pub findings: Vec<Finding>,
}

impl Computed {
    /// Value, ± and unit for people, rounded to what the uncertainty supports.
    pub fn shown(&self) -> String {
        let decimals = match self.plus_minus {
            Some(pm) if pm > 0.0 => (1.0 - pm.log10().floor()).clamp(0.0, 6.0) as usize,
            _ => self.unit.usual_decimals(),
        };
        match self.plus_minus {
            Some(pm) => format!("{:.decimals$} ± {:.decimals$} {}", self.value, pm, self.unit),
            None => format!("{:.decimals$} {}", self.value, self.unit),
        }
    }
}
