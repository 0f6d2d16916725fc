//! The content of the statements in site and roster documents: what is known about a site and about the
//! people.

use serde::{Deserialize, Serialize};

use super::certificate::Right;
use super::coded::{Coded, ContactRole};
use super::vocabulary::{Measured, SealKind};
use crate::ids::{DeviceId, Digest, OperatorId, SiteId};
use crate::units::Amount;

/// The profile of a site.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct SiteProfile {
    /// Its name.
    pub name: String,
    /// The IANA time zone, such as `Etc/GMT+6`, in which times are shown.
    pub zone: String,
    /// The elevation above sea level, for converting gauge to absolute pressure.
    pub elevation: Amount,
    /// The longest time in minutes without a sign of attendance at a connected car before a gap is reported.
    pub attendance_gap_minutes: u32,
    /// Local code and owner's instructions that take precedence, as text.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub local_rules: String,
    /// The name of the organisation that keeps the site's record, as it is to stand on paper.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub organisation: String,
    /// Where the site lies: its address, or how it is found where it has none.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub address: String,
}

/// A receiving tank.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Tank {
    /// The tank's name at the site.
    pub name: String,
    /// The water capacity.
    pub water_capacity: Amount,
    /// Whether the tank is buried or mounded.
    pub underground: bool,
}

/// An instrument.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Instrument {
    /// The instrument's name at the site, as written on it.
    pub name: String,
    /// The measured quantity, as a code or as typed.
    pub measures: Coded<Measured>,
    /// The full span.
    pub span: Amount,
    /// The accuracy grade (ASME B40.100 for pressure gauges: 4A, 3A, 2A, 1A, A, B, C, D); empty if unknown.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub grade: String,
    /// The date when calibration is due, `YYYY-MM-DD`; empty if unknown.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub calibration_due: String,
}

/// A hose.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Hose {
    /// The hose's number at the site.
    pub name: String,
    /// The service for which the hose is marked.
    pub service: String,
    /// The date when its test is due, `YYYY-MM-DD`; empty if unknown.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub test_due: String,
}

/// A person or office to call.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Contact {
    /// The purpose of calling, as a code or as typed.
    pub role: Coded<ContactRole>,
    /// The name.
    pub name: String,
    /// The telephone number.
    pub telephone: String,
    /// Further information, such as where to stand or which shut-off to use.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
}

/// A range of seals issued to a site.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct SealStock {
    /// First number.
    pub from: String,
    /// Last number.
    pub to: String,
    /// The kind of seal, as a code or as typed.
    pub kind: Coded<SealKind>,
}

/// A person of the organisation.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Operator {
    /// The person's short code.
    pub operator: OperatorId,
    /// The name as typed, in drafts and in entries of earlier versions. Entries made since hold an empty text
    /// here, which earlier versions read as a person without a name, and `named` in its place.
    pub name: String,
    /// The commitment to the name, see [`super::PersonName`].
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub named: Option<Digest>,
    /// The date of the last training, `YYYY-MM-DD`; empty if unknown.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub trained_on: String,
    /// Whether the person belongs to the organisation now.
    pub active: bool,
}

/// The office removed a person's name: whoever holds name and salt of these commitments deletes them.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct NameForgotten {
    /// The person's code.
    pub person: OperatorId,
    /// The commitments of all names that the roster held of the person.
    pub named: Vec<Digest>,
}

/// How a person's key is protected on the phone where it was created.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum KeyKept {
    /// The key is encrypted under the person's PIN.
    Pin,
    /// The platform stores the key behind its own unlocking.
    Platform,
}

impl KeyKept {
    /// Returns the word as stored.
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
    /// The Ed25519 public key (RFC 8032).
    pub key: DeviceId,
    /// How the secret key is protected.
    pub kept: KeyKept,
}

impl PersonKey {
    /// Returns sixteen digits to be read out over the telephone: the start of the SHA-256 of a fixed text and
    /// the key, as a number. Finding another key with the same digits takes about 2^53 tries.
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
    /// Until the shift is ended on the phone or its hours are over.
    Shift,
}

impl Unlocking {
    /// Returns the word as stored and as used in commands.
    pub const fn word(self) -> &'static str {
        match self {
            Unlocking::Act => "act",
            Unlocking::Shift => "shift",
        }
    }
}

/// The organisation's decisions about rights and signatures. The newest rules count; without any, the
/// built-in rules of `authority` apply.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Rules {
    /// The rights of an operator's device, if they are fewer than the built-in rules grant.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub operator_rights: Option<Vec<Right>>,
    /// How long a person's key stays unlocked.
    #[serde(default)]
    pub unlocking: Unlocking,
    /// Whether binding acts count only with the person's own signature.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub signature_required: bool,
}

/// The largest text of a procedure, in bytes. An entry that publishes one may be larger than other entries by this.
pub const LARGEST_PROCEDURE: usize = 256 * 1024;

/// An edition of a procedure that the organisation publishes for its sites.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct PublishedProcedure {
    /// The SHA-256 of the text, by which stays name the edition.
    pub procedure: Digest,
    /// The whole text, in the form of the texts in `core/procedures`; at most [`LARGEST_PROCEDURE`] bytes.
    pub text: String,
    /// The sites at which new stays begin under the edition; all sites if there is none.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub sites: Vec<SiteId>,
    /// The edition that it was made from: a built-in one, or one that was published before.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub from: Option<Digest>,
    /// What was changed, in the words of the person who publishes.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
}
