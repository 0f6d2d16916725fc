//! The content of the larger statements of a visit: the opening, the shipping paper, a reading, a seal, a
//! defect.
//!
//! The fields are frozen wire format. The statements that contain them, and their slots, are in `statement`;
//! facts about sites and people are in `site_facts`.

use serde::{Deserialize, Serialize};

use super::car_number::CarNumber;
use super::coded::{Coded, SealNote};
use super::vocabulary::{
    BilledBy, Fitting, Measured, Place, ProductGrade, Purpose, Receiver, SealEvent, SealKind, SealPlace,
};
use crate::ids::{DefectId, Digest, EntryId, SiteId, VisitNonce};
use crate::units::Amount;

/// The opening of a visit.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Opened {
    /// The car number as read from the stencil.
    pub car: CarNumber,
    /// The site where the car stands.
    pub site: SiteId,
    /// What receives the cargo.
    pub receiver: Receiver,
    /// The digest of the procedure's text.
    pub procedure: Digest,
    /// The track or spot as the site names it.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub spot: String,
    /// The nonce from which, together with the site, the visit's id was computed (see
    /// [`at_site`](crate::ids::VisitId::at_site)). It ties the visit to the site where it began. Absent in
    /// records of version one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub nonce: Option<VisitNonce>,
}

/// The content of the shipping paper. Any field may be empty, because nothing that is missing on the paper
/// may be made up.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Paper {
    /// The number of the paper.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub number: String,
    /// The car number as printed on the paper.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub car: String,
    /// The shipper.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub shipper: String,
    /// The identification number, such as UN1075.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub un_number: String,
    /// The proper shipping name.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub product: String,
    /// The billed quantity.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub billed: Option<Amount>,
    /// The relative density at 60 °F as billed.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub relative_density: Option<Amount>,
    /// Whether the product is odorised according to the paper; absent if the paper does not say.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub odorised: Option<bool>,
    /// The grade of the product, if the paper or the shipper says it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub grade: Option<ProductGrade>,
    /// How the shipper measured the billed quantity.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub billed_by: Option<BilledBy>,
    /// Whether the car was filled to winter limits, according to the shipper's notice.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub winter_fill: Option<bool>,
    /// The entry of the office that said what the paper says. The person compared it with the paper in hand; the
    /// figures that are the same here and there were written by the office's import and typed by nobody.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub compared: Option<EntryId>,
}

/// One reading of one instrument.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Reading {
    /// The measured quantity.
    pub measured: Measured,
    /// The place of measurement.
    pub place: Place,
    /// The purpose of the reading.
    pub purpose: Purpose,
    /// The value that the instrument showed, as typed.
    pub amount: Amount,
    /// The site's name for the instrument; empty if it was not stated.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub instrument: String,
}

/// One event of a seal.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Seal {
    /// Whether the seal was found, applied or removed.
    pub event: SealEvent,
    /// The place of the seal.
    pub place: SealPlace,
    /// The number as read; empty if it is illegible or missing.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub number: String,
    /// Its kind.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub kind: Option<SealKind>,
    /// Whether the seal was intact.
    pub intact: bool,
    /// The photograph of it in place.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub photo: Option<Digest>,
    /// Why there is no photograph or, for an illegible or broken seal, what was seen; as a code or as typed.
    #[serde(default, skip_serializing_if = "Coded::is_empty")]
    pub note: Coded<SealNote>,
    /// Why another seal takes the place of the one before, or why it was removed.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub because: String,
}

/// A defect of the car or its equipment.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Defect {
    /// The id of the defect.
    pub defect: DefectId,
    /// The fitting with the defect, if it is at one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub fitting: Option<Fitting>,
    /// A description of the defect.
    pub what: String,
    /// Whether the car may be moved only with an authority's approval.
    pub needs_authority: bool,
    /// The photograph of it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub photo: Option<Digest>,
}
