//! What stories of real programs are played on: the office as a server process, devices in folders, signed-in browsers, and
//! a few bytes on a socket.

mod answer;
mod device;
mod office;
pub mod session;

use std::process::Output;

use farsiding_core::clock::UtcMillis;
use serde_json::Value;

pub use crate::program::{farsiding, program};
pub use answer::{Answer, request};
pub use device::{Device, ids, picture};
pub use office::Server;

/// The true time.
pub fn now() -> UtcMillis {
    let millis = std::time::SystemTime::now().duration_since(std::time::UNIX_EPOCH).unwrap().as_millis();
    UtcMillis(i64::try_from(millis).unwrap())
}

/// What a program said in JSON.
pub fn said_by(output: &Output) -> Value {
    serde_json::from_slice(&output.stdout).unwrap_or_else(|_| panic!("this is no JSON: {output:?}"))
}
