//! A cache of formula results for callers that fold often.
//!
//! The equations of state take tens of milliseconds. A result is cached under the digest of all its input and
//! equals the result of a new computation, so an entry that does not affect the input costs nothing. The
//! input and the results are defined in `computed` and `quantity`.

use std::collections::HashMap;
use std::sync::{Arc, Mutex, PoisonError};

use super::quantity::Made;
use crate::calc::empty_proof::Weighed;
use crate::ids::Digest;

/// Cached formula results. A fold without a cache computes everything.
#[derive(Debug, Default)]
pub struct Formulas {
    made: Remembered<Made>,
    weighed: Remembered<Option<Result<Weighed, crate::Message>>>,
}

type Remembered<T> = Mutex<HashMap<Digest, Arc<T>>>;

/// The most cached records, more than an office looks at in a day. Beyond that number the cache is cleared.
const REMEMBERED: usize = 512;

impl Formulas {
    /// Returns the results for the input with this digest; computes and caches them if necessary.
    pub(super) fn made(&self, inputs: Option<Digest>, make: impl Fn() -> Made) -> Arc<Made> {
        remember(&self.made, inputs, make)
    }

    /// Returns the weighed evidence of remaining liquid, which is all that lists need.
    pub(super) fn weighed(
        &self,
        inputs: Option<Digest>,
        weigh: impl Fn() -> Option<Result<Weighed, crate::Message>>,
    ) -> Option<Result<Weighed, crate::Message>> {
        Option::clone(&remember(&self.weighed, inputs, weigh))
    }

    /// Returns the number of cached results.
    #[cfg(test)]
    pub(in crate::view) fn remembered(&self) -> usize {
        let made = self.made.lock().unwrap_or_else(PoisonError::into_inner).len();
        made + self.weighed.lock().unwrap_or_else(PoisonError::into_inner).len()
    }
}

fn remember<T>(known: &Remembered<T>, inputs: Option<Digest>, make: impl Fn() -> T) -> Arc<T> {
    let Some(key) = inputs else { return Arc::new(make()) };
    // The lock is not held while formulas run, so that a panic or a slow computation does not block other
    // folds.
    let remembered = || known.lock().unwrap_or_else(PoisonError::into_inner);
    if let Some(made) = remembered().get(&key) {
        return made.clone();
    }
    let made = Arc::new(make());
    let mut remembered = remembered();
    if remembered.len() >= REMEMBERED {
        remembered.clear();
    }
    remembered.insert(key, made.clone());
    made
}
