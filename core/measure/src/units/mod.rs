//! Units and amounts: what a person typed, its value in SI units, and its printed form.
//!
//! This module holds [`Unit`], [`Dimension`], [`Amount`] (typed text, value and unit) and [`Computed`] (a
//! derived value with its uncertainty and method). Formulas are in `calc`. All code that shows or stores a
//! number uses these types, so a number never appears without its unit.

mod amount;
pub mod bounds;
mod computed;
pub mod exact;
mod refusal;
mod said;
pub mod typed;
mod unit;

pub use amount::{Amount, AmountFinding, Unused, agree};
pub use computed::{Computed, Finding, Severity};
pub use refusal::AmountRefusal;
pub use typed::DecimalMark;
pub use unit::{Dimension, Unit, UnitError};
