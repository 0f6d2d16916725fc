//! Everything that reads bytes from outside, given bytes that were altered, cut, spliced, nested and blown up.
//!
//! What must hold: no panic, no hang, no more than 64 MB for one of them, never an entry that was not signed as
//! it stands, and one bad visit never keeps the others from the office. The sweep is drawn from a printed seed
//! (`FARSIDING_SEED` plays it again) and lasts `FARSIDING_HOSTILE_SECONDS`: a few under a plain `cargo test`, 75
//! by `./tests/run hostile`. What is in `corpus/` is always tried first; a case that failed is written to
//! `target/hostile/` and belongs there once mended. `FARSIDING_WRITE_CORPUS=1` writes the corpus's sound
//! examples anew. Lines that begin with `hostile ` are counts and figures.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    missing_docs,
    reason = "a failed unwrap is a failed test, and stories are read, not linked to"
)]

mod answers;
mod bombs;
mod kinds;
mod letters;
mod mutation;
mod parties;
mod quarantine;
mod requests;
mod stories;
mod sweep;
mod watch;

use farsiding_testkit::{job, stage};
