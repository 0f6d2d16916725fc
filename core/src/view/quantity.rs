//! The results of formulas for one record: quantities with their units, or the reason why one is missing.
//!
//! This module holds only the types. The readings that go into each formula are selected in `computed`.

use serde::Serialize;

use crate::calc::empty_proof::Weighed;
use crate::units::{Computed, Finding};
use crate::{Message, message};

/// All results of formulas for one record.
#[derive(Debug)]
pub(super) struct Made {
    pub quantities: Vec<Quantity>,
    pub advice: Vec<Finding>,
    pub weighed: Option<Result<Weighed, Message>>,
}

/// A computed quantity, or the reason why it cannot be computed.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Quantity {
    /// A stable name, such as `residue`.
    pub name: &'static str,
    /// The title for people.
    pub title: Message,
    /// The value; the lowest one if only the grade of the product is known.
    pub value: Option<Computed>,
    /// The highest value, if only the grade is known and the composition makes a difference.
    pub up_to: Option<Computed>,
    /// The product that the value applies to, in words; empty if the product does not matter.
    pub product: Message,
    /// A sentence that tells why there is no value.
    pub missing: Option<Message>,
}

/// Returns the title of a quantity.
fn title_of(name: &str) -> Message {
    Message::term("quantity_title", name)
}

impl Quantity {
    pub(super) fn one(name: &'static str, value: Computed, product: &Message) -> Quantity {
        Quantity {
            name,
            title: title_of(name),
            value: Some(value),
            up_to: None,
            product: product.clone(),
            missing: None,
        }
    }

    pub(super) fn between(name: &'static str, low: Computed, high: Computed, product: &Message) -> Quantity {
        let up_to = Some(high).filter(|high| high.value != low.value);
        Quantity {
            name,
            title: title_of(name),
            value: Some(low),
            up_to,
            product: product.clone(),
            missing: None,
        }
    }

    pub(super) fn missing(name: &'static str, why: impl Into<Message>) -> Quantity {
        let missing = Some(why.into());
        Quantity {
            name,
            title: title_of(name),
            value: None,
            up_to: None,
            product: Message::default(),
            missing,
        }
    }

    /// Returns the value with its unit, or the lowest and the highest one, or why there is none.
    pub fn message(&self) -> Message {
        match (&self.value, &self.up_to) {
            (Some(low), Some(high)) => message!("quantity-between", low = low.arg(), high = high.arg()),
            (Some(value), None) => message!("quantity-value", value = value.arg()),
            (None, _) => self.missing.clone().unwrap_or_default(),
        }
    }

    /// Returns the findings about the value.
    pub fn findings(&self) -> Vec<&Finding> {
        [&self.value, &self.up_to].into_iter().flatten().flat_map(|value| &value.findings).collect()
    }
}
