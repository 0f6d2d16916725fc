//! Reconciling: compares what was billed, found and received over many cars, and finds systematic differences
//! and contradictions.
//!
//! All functions are pure: facts of stays, imported papers and settings go in, a [`MonthReport`] comes out, and
//! nothing is stored. Each idea has its own file: `comparison` (one car), `totals` (many cars), `bias` (mean,
//! interval, CUSUM), `judgement` (findings), `records` (numbers, seals, gaps, fill) `demurrage` (the carrier's clock) and
//! `detention` (the clock of the car's supplier). `facts`
//! holds what is needed of one stay; `papers` reads shipping papers and writes tables. Called by the pages,
//! the export and the command line. A wrong accusation is worse than silence, so every threshold is a field
//! of [`Settings`] and is shown in the report.

pub mod bias;
mod calendar;
pub mod comparison;
pub mod demurrage;
pub mod detention;
pub mod distribution;
pub mod facts;
pub mod judgement;
pub mod papers;
pub mod records;
pub mod report;
mod sharing;
pub mod totals;

use farsiding_core::entry::vocabulary::BilledBy;
use serde::{Deserialize, Serialize};

pub use bias::{Bias, Cusum};
pub use comparison::{Compared, Comparison, compare};
use facts::Facts;

pub use demurrage::{Account, Demurrage, Tariff, demurrage};
pub use detention::{Detention, DetentionTariff, detention};
pub use judgement::{Finding, FindingKind};
pub use report::{MonthReport, Selection};
pub use totals::Total;

/// The assumptions and thresholds of the comparisons. All of them are shown beside the figures.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Settings {
    /// The assumed uncertainty of a shipper's quantity, ±% at 95 %. The error of one shipper repeats from car
    /// to car. Common practice, no source.
    pub billed_percent: f64,
    /// The probability of any finding in a month in which everybody measured within the limits of their
    /// instruments, in %.
    pub false_alarm_percent: f64,
    /// The smallest number of cars for a bias or a chart.
    pub fewest_cars: usize,
    /// The reference value of the CUSUM beyond the repeated uncertainty of instruments, in standard
    /// deviations.
    pub cusum_reference: f64,
    /// The decision interval of the CUSUM, in standard deviations.
    pub cusum_interval: f64,
    /// The number of days without an entry after which an unreleased stay is called incomplete.
    pub silent_days: i64,
    /// The carrier's tariff for each site, by the site's name. The tariff under the empty name applies to all other
    /// sites.
    pub tariffs: std::collections::BTreeMap<String, Tariff>,
    /// The tariff of each supplier of cars, by the shipper's name in lower case. The tariff under the empty name applies to
    /// all others.
    pub detention_tariffs: std::collections::BTreeMap<String, DetentionTariff>,
    /// How shippers measure what they bill, by the shipper's name in lower case, for papers that do not say it.
    pub billed_by: std::collections::BTreeMap<String, BilledBy>,
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
            detention_tariffs: std::collections::BTreeMap::new(),
            billed_by: std::collections::BTreeMap::new(),
        }
    }
}

impl Settings {
    /// Returns how the quantity billed for a stay was measured: as the paper says, or else as is known of its shipper.
    pub fn basis(&self, facts: &Facts) -> Option<BilledBy> {
        let of_shipper = || self.billed_by.get(&facts.paper.shipper.trim().to_lowercase()).copied();
        facts.paper.billed_by.or_else(of_shipper)
    }

    /// Returns the tariff of whoever supplied a car.
    pub fn detention_tariff(&self, supplier: &str) -> Option<&DetentionTariff> {
        let supplier = supplier.trim().to_lowercase();
        self.detention_tariffs.get(&supplier).or_else(|| self.detention_tariffs.get(""))
    }

    /// Returns the tariff of a site.
    pub fn tariff(&self, site: &str) -> Option<&Tariff> {
        self.tariffs.get(site.trim()).or_else(|| self.tariffs.get(""))
    }
}

/// An imported shipping paper that the office holds.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct HeldPaper {
    /// The paper's number.
    pub number: String,
    /// The car's number as printed.
    pub car: String,
    /// The shipper.
    pub shipper: String,
    /// The quantity billed, as printed with its unit.
    pub billed: String,
    /// The day on which the paper was made out, as `YYYY-MM-DD`; empty when the paper has none.
    pub day: String,
}
