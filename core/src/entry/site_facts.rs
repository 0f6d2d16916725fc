//! What is known of a site and of the people: statements of the site and roster documents.

use serde::{Deserialize, Serialize};

use super::certificate::Right;
use super::coded::{Coded, ContactRole};
use super::vocabulary::{Measured, SealKind};
use crate::ids::{DeviceId, Digest, OperatorId};
use crate::units::Amount;

/// What a site is.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
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
#[cfg_attr(test, derive(ts_rs::TS))]
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
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Instrument {
    /// Its name at the site, as written on it.
    pub name: String,
    /// What it measures: a code, or as typed.
    pub measures: Coded<Measured>,
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
#[cfg_attr(test, derive(ts_rs::TS))]
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
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Contact {
    /// What for: a code, or as typed.
    pub role: Coded<ContactRole>,
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
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct SealStock {
    /// First number.
    pub from: String,
    /// Last number.
    pub to: String,
    /// What kind: a code, or as typed.
    pub kind: Coded<SealKind>,
}

/// A person of the organisation.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
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

/// How a person's key is kept on the phone it was made on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum KeyKept {
    /// Encrypted under the person's PIN.
    Pin,
    /// By the platform, behind its own unlocking.
    Platform,
}

impl KeyKept {
    /// The word as stored.
    pub const fn word(self) -> &'static str {
        match self {
            KeyKept::Pin => "pin",
            KeyKept::Platform => "platform",
        }
    }
}

/// A person's own signing key.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct PersonKey {
    /// The person's code.
    pub person: OperatorId,
    /// The public half, Ed25519 (RFC 8032).
    pub key: DeviceId,
    /// How the secret half is kept.
    pub kept: KeyKept,
}

impl PersonKey {
    /// The key in sixteen digits, to be read out over the telephone: the start of the SHA-256 of a fixed
    /// text and the key, as a number. Another key with the same digits takes some 2^53 tries to find.
    pub fn fingerprint(key: &DeviceId) -> String {
        let mut made_from = b"farsiding fingerprint 1".to_vec();
        made_from.extend_from_slice(&key.0);
        let digest = Digest::of(&made_from).0;
        let mut number = [0u8; 8];
        number.copy_from_slice(&digest[..8]);
        let digits = format!("{:016}", u64::from_be_bytes(number) % 10_000_000_000_000_000);
        let groups: Vec<&str> = (0..4).filter_map(|n| digits.get(n * 4..n * 4 + 4)).collect();
        groups.join(" ")
    }
}

/// How long a person's key stays unlocked on a phone.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Unlocking {
    /// For one act.
    #[default]
    Act,
    /// Until the shift is ended on the phone, or its hours are over.
    Shift,
}

impl Unlocking {
    /// The word as stored and as used in commands.
    pub const fn word(self) -> &'static str {
        match self {
            Unlocking::Act => "act",
            Unlocking::Shift => "shift",
        }
    }
}

/// What the organisation decided about rights and signatures. The newest counts; without one the
/// built-in rules of `authority` do.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Rules {
    /// What an operator's device may do, where that is less than the built-in rules give.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub operator_rights: Option<Vec<Right>>,
    /// How long a person's key stays unlocked.
    #[serde(default)]
    pub unlocking: Unlocking,
    /// Whether acts that bind count only with the person's own signature.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub signature_required: bool,
}
