//! Farsiding measure: what is typed as an amount, its units, and every formula of the job.
//!
//! Everything here is a pure function of its arguments: there is no clock, no record and no store, and the formulas can be
//! used without the rest of Farsiding. The modules stand in one order, and each leans only on those before it: text ->
//! units -> calc. Does not live here: which reading of a record goes into which formula (`farsiding-core`'s `view`).

// `unit!` expands to further uom macros that must be in textual scope.
#[macro_use]
extern crate uom;

pub mod calc;
pub mod text;
pub mod units;
