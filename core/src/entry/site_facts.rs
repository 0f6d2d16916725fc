//! What is known of a site and of the people: statements of the site and roster documents.

use serde::{Deserialize, Serialize};

use crate::ids::OperatorId;
use crate::units::Amount;

/// What a site is.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct SiteProfile {
    /// Its name.
    pub name: String,
    /// IANA time zone, such as `Etc/GMT+6`; times are shown in it.
    pub zone: String,
    /// Elevation above sea level, for gauge to absolute.
    pub elevation: Amount,
    /// How long the connected car may show no sign of attendance before the gap is pointed out, minutes.
    pub attendance_gap_minutes: u32,
    /// Local code and owner's instructions that come first, in words.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub local_rules: String,
}

/// A receiving tank.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Tank {
    /// Its name at the site.
    pub name: String,
    /// Water capacity.
    pub water_capacity: Amount,
    /// Whether it is buried or mounded.
    pub underground: bool,
}

/// An instrument.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Instrument {
    /// Its name at the site, as written on it.
    pub name: String,
    /// What it measures: `pressure`, `temperature`, …
    pub measures: String,
    /// Full span.
    pub span: Amount,
    /// Accuracy grade (ASME B40.100 for pressure gauges: 4A, 3A, 2A, 1A, A, B, C, D); empty when unknown.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub grade: String,
    /// When its calibration is due, `YYYY-MM-DD`; empty when unknown.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub calibration_due: String,
}

/// A hose.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Hose {
    /// Its number at the site.
    pub name: String,
    /// The service it is made for, as marked on it.
    pub service: String,
    /// When its test is due, `YYYY-MM-DD`; empty when unknown.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub test_due: String,
}

/// Somebody to call.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Contact {
    /// What for: `emergency`, `carrier`, `office`, …
    pub role: String,
    /// Who.
    pub name: String,
    /// Telephone.
    pub telephone: String,
    /// Where to stand, which shut-off, anything else.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
}

/// Seals issued to a site, a range of numbers.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct SealStock {
    /// First number.
    pub from: String,
    /// Last number.
    pub to: String,
    /// What kind.
    pub kind: String,
}

/// A person of the organisation.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Operator {
    /// The short code.
    pub operator: OperatorId,
    /// The name.
    pub name: String,
    /// Last training, `YYYY-MM-DD`; empty when unknown.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub trained_on: String,
    /// Whether they are with the organisation now.
    pub active: bool,
}
