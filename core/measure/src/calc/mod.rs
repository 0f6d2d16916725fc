//! Measurement: pure formulas, typed inputs in, a value with unit, uncertainty and findings out.
//!
//! Lives here: everything that computes. Does not live here: what was recorded (see `entry`) or what it
//! means for a release (see `view`). Called by the view, the phone and the office through `view`, and by
//! scripts through [`lines`]. No formula keeps state; each refuses input outside its range (invariant 9).

pub mod arrival;
pub mod atmosphere;
pub mod ctl;
pub mod empty_proof;
pub mod error;
pub mod fluid;
pub mod freeze;
pub mod instrument;
pub mod leak;
pub mod lines;
pub mod outage_table;
pub mod over_short;
pub mod product;
pub mod quantity;
pub mod receiver;
pub mod recovery;
pub mod residue;
mod rounding;
pub mod tank;
pub mod transfer;
pub mod uncertainty;
pub mod water;
pub mod wear;

pub use error::{CalcError, Range};
pub use uncertainty::Measured;
