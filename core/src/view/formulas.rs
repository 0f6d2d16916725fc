//! The memory of what formulas made, for whoever folds often.
//!
//! The equations of state take tens of milliseconds. A result is remembered by the digest of everything that went into it
//! and is the one that would be made again, so that an entry the formulas do not look at costs nothing. Does not live
//! here: what goes in, and the formulas' results themselves (`computed`, `quantity`).

use std::collections::HashMap;
use std::sync::{Arc, Mutex, PoisonError};

use super::quantity::Made;
use crate::calc::empty_proof::Weighed;
use crate::ids::Digest;

/// What formulas made of which inputs. A fold without one computes everything afresh.
#[derive(Debug, Default)]
pub struct Formulas {
    made: Remembered<Made>,
    weighed: Remembered<Option<Result<Weighed, String>>>,
}

type Remembered<T> = Mutex<HashMap<Digest, Arc<T>>>;

/// More records than an office looks at in a day; beyond it all are forgotten and made again.
const REMEMBERED: usize = 512;

impl Formulas {
    /// All that formulas make of the inputs with this digest; made afresh where there is none.
    pub(super) fn made(&self, inputs: Option<Digest>, make: impl Fn() -> Made) -> Arc<Made> {
        remember(&self.made, inputs, make)
    }

    /// What was recorded on whether the liquid is out, weighed; for lists, which need nothing else.
    pub(super) fn weighed(
        &self,
        inputs: Option<Digest>,
        weigh: impl Fn() -> Option<Result<Weighed, String>>,
    ) -> Option<Result<Weighed, String>> {
        Option::clone(&remember(&self.weighed, inputs, weigh))
    }

    /// How many results are remembered.
    #[cfg(test)]
    pub(in crate::view) fn remembered(&self) -> usize {
        let made = self.made.lock().unwrap_or_else(PoisonError::into_inner).len();
        made + self.weighed.lock().unwrap_or_else(PoisonError::into_inner).len()
    }
}

fn remember<T>(known: &Remembered<T>, inputs: Option<Digest>, make: impl Fn() -> T) -> Arc<T> {
    let Some(key) = inputs else { return Arc::new(make()) };
    // Not held while formulas run: a panic elsewhere or a slow record must not stop other folds.
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
