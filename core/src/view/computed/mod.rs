//! Computed quantities: where formulas meet the record.
//!
//! Nothing here is stored: each value is made again from the readings that stand, carries its unit, its
//! uncertainty, its formula and its source, and where it cannot be made it says what is missing. The
//! formulas live in `calc`; which reading goes into which is decided in `inputs`.

mod advice;
mod inputs;
mod quantities;
mod receiving;

use serde::Serialize;

use crate::units::{Computed, Finding};

/// All that formulas make of one record.
#[derive(Debug)]
pub(super) struct Made {
    pub quantities: Vec<Quantity>,
    pub advice: Vec<Finding>,
    pub weighed: Option<Result<Weighed, String>>,
}

/// What formulas made of which inputs, so that an entry they do not look at costs nothing: the equations
/// of state take tens of milliseconds. A result is remembered by everything that went into it and is the
/// one that would be made again. Kept by whoever folds often; a fold without one computes afresh.
#[derive(Debug, Default)]
pub struct Formulas {
    made: Remembered<Made>,
    weighed: Remembered<Option<Result<Weighed, String>>>,
}

type Remembered<T> = Mutex<HashMap<Digest, Arc<T>>>;

/// More records than an office looks at in a day; beyond it all are forgotten and made again.
const REMEMBERED: usize = 512;

impl Formulas {
    pub(super) fn make(&self, inputs: &Inputs<'_>) -> Arc<Made> {
        remember(&self.made, inputs, make)
    }

    /// How many results are remembered.
    #[cfg(test)]
    pub(in crate::view) fn remembered(&self) -> usize {
        let made = self.made.lock().unwrap_or_else(PoisonError::into_inner).len();
        made + self.weighed.lock().unwrap_or_else(PoisonError::into_inner).len()
    }

    /// What was recorded on whether the liquid is out, weighed; for lists, which need nothing else.
    pub(super) fn weigh(&self, inputs: &Inputs<'_>) -> Option<Result<Weighed, String>> {
        Option::clone(&remember(&self.weighed, inputs, advice::weigh))
    }
}

fn remember<T>(known: &Remembered<T>, inputs: &Inputs<'_>, make: impl Fn(&Inputs<'_>) -> T) -> Arc<T> {
    let Some(key) = inputs.key() else { return Arc::new(make(inputs)) };
    // Not held while formulas run: a panic elsewhere or a slow record must not stop other folds.
    let remembered = || known.lock().unwrap_or_else(PoisonError::into_inner);
    if let Some(made) = remembered().get(&key) {
        return made.clone();
    }
    let made = Arc::new(make(inputs));
    let mut remembered = remembered();
    if remembered.len() >= REMEMBERED {
        remembered.clear();
    }
    remembered.insert(key, made.clone());
    made
}

pub(super) fn make(inputs: &Inputs<'_>) -> Made {
    let (quantities, checks) = quantities::quantities(inputs);
    let mut advice = advice::freeze(inputs);
    advice.extend(checks);
    Made { quantities, advice, weighed: advice::weigh(inputs) }
}

use std::collections::HashMap;
use std::sync::{Arc, Mutex, PoisonError};

pub(super) use advice::{wear, weigh};
pub(super) use inputs::Inputs;

use crate::calc::empty_proof::Weighed;
use crate::ids::Digest;

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
    fn one(name: &'static str, title: &'static str, value: Computed, product: &str) -> Quantity {
        Quantity { name, title, value: Some(value), up_to: None, product: product.to_owned(), missing: None }
    }

    fn between(
        name: &'static str,
        title: &'static str,
        low: Computed,
        high: Computed,
        product: &str,
    ) -> Quantity {
        let up_to = Some(high).filter(|high| high.value != low.value);
        Quantity { name, title, value: Some(low), up_to, product: product.to_owned(), missing: None }
    }

    fn missing(name: &'static str, title: &'static str, why: impl Into<String>) -> Quantity {
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
