//! What a program of the office or of a device needs from the machine it runs on.
//!
//! Lives here: the process's clock, random numbers, files that are private or written whole, calls to somebody
//! outside, and what a command says, what was kept aside written into a folder. Does not live here: anything that knows what an office is.

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
