//! The content of the statements about shipping papers that the office sends to a site before the car is opened there.
//!
//! The paper of a stay, which a person at the car compared with the paper in hand, is `visit_facts::Paper`.

use serde::{Deserialize, Serialize};

use super::car_number::CarNumber;
use super::visit_facts::Paper;
use super::vocabulary::{BilledBy, ProductGrade};
use crate::ids::Digest;
use crate::units::Amount;

/// The longest text in one field of a paper that the office sends, in bytes.
pub const LONGEST_PAPER_FIELD: usize = 200;

/// A shipping paper that the office imported and sent to a site. It says what is printed there and where the office
/// read it; nobody at the car has compared it with anything yet.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct PaperExpected {
    /// The car number as printed.
    pub car: CarNumber,
    /// The number of the paper.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub number: String,
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
    /// The grade of the product, if the file says it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub grade: Option<ProductGrade>,
    /// How the shipper measured the billed quantity, if the file says it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub billed_by: Option<BilledBy>,
    /// Whether the car was filled to winter limits, if the file says it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub winter_fill: Option<bool>,
    /// The day on which the paper was made out, `YYYY-MM-DD`; empty if the file does not say.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub dated: String,
    /// The day on which the car is expected, `YYYY-MM-DD`; empty if the file does not say.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub expected: String,
    /// The SHA-256 of the imported file.
    pub file: Digest,
    /// The name of the imported file.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub file_name: String,
    /// The line in the file; the headings are line 1.
    pub line: u32,
}

/// The office takes the paper of a car back: the car is not expected by it any more.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct PaperTakenBack {
    /// The car number as printed on the paper.
    pub car: CarNumber,
    /// Why.
    pub because: String,
}

impl PaperExpected {
    /// Returns what the paper says, in the form in which a stay records it.
    pub fn paper(&self) -> Paper {
        Paper {
            number: self.number.clone(),
            car: self.car.normal(),
            shipper: self.shipper.clone(),
            un_number: self.un_number.clone(),
            product: self.product.clone(),
            billed: self.billed.clone(),
            relative_density: self.relative_density.clone(),
            odorised: self.odorised,
            grade: self.grade,
            billed_by: self.billed_by,
            winter_fill: self.winter_fill,
            compared: None,
        }
    }

    /// Returns true if every field is of a size that a phone shows, and the car has a number of a usual form.
    pub fn is_in_bounds(&self) -> bool {
        let texts = [
            &self.car.0,
            &self.number,
            &self.shipper,
            &self.un_number,
            &self.product,
            &self.dated,
            &self.expected,
            &self.file_name,
        ];
        let amounts = self.billed.iter().chain(&self.relative_density).map(|amount| &amount.text);
        let short = texts.into_iter().chain(amounts).all(|text| text.len() <= LONGEST_PAPER_FIELD);
        short && self.car.findings().is_empty()
    }
}
