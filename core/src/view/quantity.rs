//! The results of formulas for one record: quantities with their units, or the reason why one is missing.
//!
//! This module holds only the types. The readings that go into each formula are selected in `computed`.

use serde::Serialize;

use crate::calc::empty_proof::Weighed;
use crate::units::{Computed, Finding};

/// All results of formulas for one record.
#[derive(Debug)]
pub(super) struct Made {
    pub quantities: Vec<Quantity>,
    pub advice: Vec<Finding>,
    pub weighed: Option<Result<Weighed, String>>,
}

/// A computed quantity, or the reason why it cannot be computed.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Quantity {
    /// A stable name, such as `residue`.
    pub name: &'static str,
    /// The title for people.
    pub title: &'static str,
    /// The value; the lowest one if only the grade of the product is known.
    pub value: Option<Computed>,
    /// The highest value, if only the grade is known and the composition makes a difference.
    pub up_to: Option<Computed>,
    /// The product that the value applies to, in words; empty if the product does not matter.
    pub product: String,
    /// A sentence that tells why there is no value.
    pub missing: Option<String>,
}

impl Quantity {
    pub(super) fn one(name: &'static str, title: &'static str, value: Computed, product: &str) -> Quantity {
        Quantity { name, title, value: Some(value), up_to: None, product: product.to_owned(), missing: None }
    }

    pub(super) fn between(
        name: &'static str,
        title: &'static str,
        low: Computed,
        high: Computed,
        product: &str,
    ) -> Quantity {
        let up_to = Some(high).filter(|high| high.value != low.value);
        Quantity { name, title, value: Some(low), up_to, product: product.to_owned(), missing: None }
    }

    pub(super) fn missing(name: &'static str, title: &'static str, why: impl Into<String>) -> Quantity {
        let missing = Some(why.into());
        Quantity { name, title, value: None, up_to: None, product: String::new(), missing }
    }

    /// Returns the value with its unit, or the lowest and the highest one.
    pub fn shown(&self) -> String {
        match (&self.value, &self.up_to) {
            (Some(low), Some(high)) => format!("{} to {}", low.shown(), high.shown()),
            (Some(value), None) => value.shown(),
            (None, _) => self.missing.clone().unwrap_or_default(),
        }
    }

    /// Returns the findings about the value.
    pub fn findings(&self) -> Vec<&Finding> {
        [&self.value, &self.up_to].into_iter().flatten().flat_map(|value| &value.findings).collect()
    }
}
