//! What the programs of the office and of the device need from the machine they run on.
//!
//! This crate holds the process's clock, random numbers, private files, files written atomically, HTTP calls
//! to third parties, and the output of commands. It knows nothing of offices or devices.

mod clock;
mod command_output;
pub mod line;
pub mod media;
pub mod outside_call;
pub mod private_file;
pub mod quarantine;
mod randomness;
pub mod whole_file;

pub use clock::{CLOCK_VARIABLE, ClockError, ProcessClock, clock_words};
pub use command_output::{CommandOutput, say};
pub use randomness::{NoRandomness, SystemRandomness};
