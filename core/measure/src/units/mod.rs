//! Units and amounts: what a person typed, what it means in SI, and how it is printed.
//!
//! Lives here: [`Unit`], [`Dimension`], [`Amount`] (typed text + value + unit) and [`Computed`] (a
//! derived value with its uncertainty and method). Does not live here: any formula (see `calc`).
//! Everything that shows or stores a number goes through this module, so no number is ever naked.

mod amount;
pub mod bounds;
mod computed;
pub mod exact;
pub mod typed;
mod unit;

pub use amount::{Amount, AmountFinding, AmountRefusal, Unused, agree};
pub use computed::{Computed, Finding, Severity};
pub use typed::DecimalMark;
pub use unit::{Dimension, Unit, UnitError};
