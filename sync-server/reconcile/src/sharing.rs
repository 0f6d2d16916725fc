//! The uncertainty of a sum whose parts may be shared: what one instrument, table or shipper is behind pulls one way.
//!
//! Called by `comparison` for one car, and by `totals` and `bias` for many.

use std::collections::BTreeMap;

use crate::facts::Share;

/// Returns the standard uncertainty of a sum of cars in two parts: what cars share, and what belongs to single
/// cars.
pub fn of_sum<'a>(cars: impl IntoIterator<Item = &'a [Share]>) -> (f64, f64) {
    let mut shared: BTreeMap<&str, f64> = BTreeMap::new();
    let mut alone = 0.0_f64;
    for parts in cars {
        for part in parts {
            if part.key.is_empty() {
                alone = alone.hypot(part.standard);
            } else {
                *shared.entry(&part.key).or_default() += part.standard;
            }
        }
    }
    (shared.values().fold(0.0_f64, |sum, part| sum.hypot(*part)), alone)
}
