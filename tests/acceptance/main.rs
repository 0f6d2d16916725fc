//! The acceptance binary: each module tells stories a user or a contributor relies on.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    missing_docs,
    reason = "a failed unwrap is a failed test, and stories are read, not linked to"
)]

mod calc_by_script;
mod crash;
mod database;
mod dependencies;
mod documents;
mod gate;
mod hostile;
mod moved;
mod next_visit;
mod order;
mod restored;
mod tidy;
mod two_phones;
mod wire;

use farsiding_testkit::{job, stage};
