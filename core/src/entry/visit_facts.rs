//! What the larger statements of a visit hold: how it was opened, the paper, a reading, a seal, a defect.
//!
//! Fields are frozen like everything on the wire. Which statement holds them, and what slot it speaks about, is
//! `statement`; what is known of a site and of people is `site_facts`.

use serde::{Deserialize, Serialize};

use super::car_number::CarNumber;
use super::coded::{Coded, SealNote};
use super::vocabulary::{Fitting, Measured, Place, Purpose, Receiver, SealEvent, SealKind, SealPlace};
use crate::ids::{DefectId, Digest, SiteId, VisitNonce};
use crate::units::Amount;

/// The beginning of a visit.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Opened {
    /// The car's number as read from the stencil.
    pub car: CarNumber,
    /// Where it stands.
    pub site: SiteId,
    /// What receives the cargo.
    pub receiver: Receiver,
    /// Which procedure, by the digest of its text.
    pub procedure: Digest,
    /// Track or spot, as the site calls it.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub spot: String,
    /// What the visit's id was made from together with the site, see [`VisitId::at_site`]: it binds the
    /// visit to the site it was begun at. Absent in records of version one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub nonce: Option<VisitNonce>,
}

/// What the shipping paper says. Every field may be empty: what is not on the paper is not made up.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Paper {
    /// The paper's own number.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub number: String,
    /// The car number as printed there.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub car: String,
    /// Who shipped it.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub shipper: String,
    /// Identification number, such as UN1075.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub un_number: String,
    /// Proper shipping name.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub product: String,
    /// Billed quantity.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub billed: Option<Amount>,
    /// Relative density at 60 °F as billed.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub relative_density: Option<Amount>,
    /// Odorised, as the paper says; absent when it says nothing.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub odorised: Option<bool>,
}

/// One reading of one instrument.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Reading {
    /// What it measures.
    pub measured: Measured,
    /// Where.
    pub place: Place,
    /// What for.
    pub purpose: Purpose,
    /// What the instrument said, as typed.
    pub amount: Amount,
    /// The site's name for the instrument; empty when it was not said.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub instrument: String,
}

/// One event of one seal.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Seal {
    /// Found, applied or removed.
    pub event: SealEvent,
    /// Where.
    pub place: SealPlace,
    /// Its number, as read; empty when illegible or none.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub number: String,
    /// Its kind.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub kind: Option<SealKind>,
    /// Whether it was whole.
    pub intact: bool,
    /// The photograph of it in place.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub photo: Option<Digest>,
    /// Why there is no photograph; or, with an illegible or broken seal, what was seen. A code, or as typed.
    #[serde(default, skip_serializing_if = "Coded::is_empty")]
    pub note: Coded<SealNote>,
}

/// A defect of the car or its equipment.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Defect {
    /// This defect.
    pub defect: DefectId,
    /// At which fitting, if at one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub fitting: Option<Fitting>,
    /// What is wrong.
    pub what: String,
    /// Whether the car may move only with an authority's approval.
    pub needs_authority: bool,
    /// The photograph of it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub photo: Option<Digest>,
}
