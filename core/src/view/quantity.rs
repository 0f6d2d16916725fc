//! What formulas make of one record: quantities with their units, and why one is missing.
//!
//! Lives here: the types alone. Which reading goes into which formula is decided in `computed`.

use serde::Serialize;

use crate::calc::empty_proof::Weighed;
use crate::units::{Computed, Finding};

/// All that formulas make of one record.
#[derive(Debug)]
pub(super) struct Made {
    pub quantities: Vec<Quantity>,
    pub advice: Vec<Finding>,
    pub weighed: Option<Result<Weighed, String>>,
}

/// A computed quantity, or why it cannot be computed.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Quantity {
    /// Stable name, such as `residue`.
    pub name: &'static str,
    /// What it is, for people.
    pub title: &'static str,
    /// The value; the lowest one where only the grade of the product is known.
    pub value: Option<Computed>,
    /// The highest value, where only the grade is known and it makes a difference.
    pub up_to: Option<Computed>,
    /// For which product, in words; empty where it does not matter.
    pub product: String,
    /// Why there is no value, in a sentence.
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

    /// The value with its unit, or the lowest and the highest.
    pub fn shown(&self) -> String {
        match (&self.value, &self.up_to) {
            (Some(low), Some(high)) => format!("{} to {}", low.shown(), high.shown()),
            (Some(value), None) => value.shown(),
            (None, _) => self.missing.clone().unwrap_or_default(),
        }
    }

    /// What to doubt about it.
    pub fn findings(&self) -> Vec<&Finding> {
        [&self.value, &self.up_to].into_iter().flatten().flat_map(|value| &value.findings).collect()
    }
}
