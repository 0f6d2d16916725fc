//! Measurement: pure formulas that take typed inputs and return a value with unit, uncertainty and findings.
//!
//! Everything that computes is here. What was recorded is in `farsiding-core`'s `entry`, and what a result
//! means for a release in its `view`. The view, the phone and the office call the formulas through `view`,
//! and scripts call them through [`lines`]. No formula keeps state, and each refuses input outside its range
//! (invariant 9).

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
mod said;
pub mod sources;
pub mod tank;
pub mod transfer;
pub mod uncertainty;
pub mod water;
pub mod wear;

pub use error::{CalcError, Range};
pub use uncertainty::Measured;
