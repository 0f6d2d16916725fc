//! Lines as bad as sidings have them: 9.6 kbit/s, two seconds there and back, every fifth piece lost, cut at any
//! moment, taken over by login pages. The real programs, with the line between them.
//!
//! Under a plain `cargo test` the line is ten times better (faster, nearer, sooner sent again), to be quick;
//! `./tests/run links` plays it as it is (`FARSIDING_LINE_BETTER=1`). Lines that begin with `link ` are measured.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    missing_docs,
    reason = "a failed unwrap is a failed test, and stories are read, not linked to"
)]

mod claims;
mod day;
mod line;
mod login_page;
mod photographs;

use std::path::{Path, PathBuf};

use farsiding_testkit::{Dice, job, stage};
use line::{LOSS, Quality};

/// How many times better than it should be the line is.
fn better() -> f64 {
    std::env::var("FARSIDING_LINE_BETTER").map_or(10.0, |text| text.parse().unwrap())
}

/// The line this is about, cut by chance so many times in a thousand pieces.
fn bad(cuts: usize) -> Quality {
    Quality { better: better(), loss: LOSS, cuts }
}

/// What figures were measured on.
fn on_what() -> String {
    let better = better();
    if (better - 1.0).abs() < f64::EPSILON {
        String::new()
    } else {
        format!(" (on a line {better} times better)")
    }
}

/// A picture that begins as a JPEG does and cannot be compressed.
fn picture(folder: &Path, name: &str, length: usize, dice: &mut Dice) -> PathBuf {
    stage::picture(folder, name, length, dice.next()).0
}
