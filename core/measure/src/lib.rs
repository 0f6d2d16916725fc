//! Farsiding measure: typed amounts, units, and every formula of the job.
//!
//! Everything in this crate is a pure function of its arguments. There is no clock, no record and no store,
//! and the formulas can be used without the rest of Farsiding. The modules form one order, and each depends
//! only on those before it: units -> calc. Every word for people is a message of `farsiding-message`. Which reading of a record goes into which formula is
//! decided in `farsiding-core`'s `view`.

// `unit!` expands to further `uom` macros, which must be in textual scope.
#[macro_use]
extern crate uom;

pub mod calc;
pub use farsiding_message::{Arg, Joint, Message, message, text};
pub mod units;
