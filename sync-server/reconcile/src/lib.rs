//! Reconciling: what was billed, found and taken in, over many cars; what repeats; what does not fit.
//!
//! Pure: facts of stays, imported papers and settings in, a [`MonthReport`] out; nothing is stored. One file an
//! idea: `comparison` (one car), `totals` (many), `bias` (mean, interval, CUSUM), `judgement` (what is pointed
//! out, and of whom), `records` (numbers, seals, gaps, fill), `detention`. Called by the pages, the export and
//! the command line. `facts` is what is needed of one stay; `papers` reads shipping papers and writes tables. To point at somebody wrongly is worse than to say nothing: every threshold is a field of
//! [`Settings`] and stands in the report.

pub mod bias;
pub mod comparison;
pub mod detention;
pub mod distribution;
pub mod facts;
pub mod judgement;
pub mod papers;
pub mod records;
pub mod report;
pub mod totals;

use serde::{Deserialize, Serialize};

pub use bias::{Bias, Cusum};
pub use comparison::{Compared, Comparison, compare};
pub use detention::{Detention, Tariff, detention};
pub use judgement::{Finding, FindingKind};
pub use report::{MonthReport, Selection};
pub use totals::Total;

/// What the comparisons rest on. Every one is a setting and stands beside the figures.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Settings {
    /// What a shipper's quantity is taken to be worth, ±% at 95 %; one shipper's error repeats from car to car.
    /// Common practice, no source.
    pub billed_percent: f64,
    /// Chance of pointing at anybody in a month in which everybody measured as their instruments allow, %.
    pub false_alarm_percent: f64,
    /// Fewest cars for a bias or a chart.
    pub fewest_cars: usize,
    /// Reference value of the CUSUM beyond what instruments may repeat, in standard deviations.
    pub cusum_reference: f64,
    /// Decision interval of the CUSUM, in standard deviations.
    pub cusum_interval: f64,
    /// A stay without a release and without a record for this many days is called incomplete.
    pub silent_days: i64,
    /// The tariff of each site by its name; the one named by an empty text serves all others.
    pub tariffs: std::collections::BTreeMap<String, Tariff>,
}

impl Default for Settings {
    fn default() -> Settings {
        Settings {
            billed_percent: 0.2,
            false_alarm_percent: 5.0,
            fewest_cars: 5,
            cusum_reference: 0.5,
            cusum_interval: 5.0,
            silent_days: 3,
            tariffs: std::collections::BTreeMap::from([(String::new(), Tariff::default())]),
        }
    }
}

impl Settings {
    /// The tariff of a site.
    pub fn tariff(&self, site: &str) -> Option<&Tariff> {
        self.tariffs.get(site.trim()).or_else(|| self.tariffs.get(""))
    }
}

/// A shipping paper the office holds, from an import.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct HeldPaper {
    /// Its number.
    pub number: String,
    /// The car's number as printed.
    pub car: String,
    /// Who shipped it.
    pub shipper: String,
    /// Billed, as printed with its unit.
    pub billed: String,
    /// The day it was made out, `YYYY-MM-DD`; empty when the paper has none.
    pub day: String,
}
