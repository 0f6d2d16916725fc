//! Computed quantities: where formulas meet the record.
//!
//! Nothing here is stored: each value is made again from the readings that stand, carries its unit, its
//! uncertainty, its formula and its source, and where it cannot be made it says what is missing. The
//! formulas live in `calc`; which reading goes into which is decided in `inputs`.

mod advice;
mod inputs;
mod quantities;
mod receiving;
mod recovering;

pub(super) use advice::{wear, weigh};
pub(super) use inputs::Inputs;

use super::quantity::Made;

/// All that formulas make of what a record holds for them.
pub(super) fn make(inputs: &Inputs<'_>) -> Made {
    let (mut quantities, checks) = quantities::quantities(inputs);
    recovering::recovery(inputs, &mut quantities);
    let mut advice = advice::freeze(inputs);
    advice.extend(checks);
    Made { quantities, advice, weighed: advice::weigh(inputs) }
}
