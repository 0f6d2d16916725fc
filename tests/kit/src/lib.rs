//! What the tests of all crates share. Nothing that is shipped depends on this crate.
//!
//! Lives here: the one generator of random numbers that come again with their seed ([`dice`]); the stage, which is the
//! real `farsiding` program as a server, as devices in folders and as signed-in browsers ([`stage`]); statements as they
//! are typed, and the whole job typed so (`typed`, `job`); a database server of a test's own
//! ([`postgres`]) and a line to it that breaks ([`line`]); the tree of sources, for rules about it ([`tree`]). Stories
//! themselves live with the crate they are about.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    missing_docs,
    reason = "a failed unwrap is a failed test, and the stage is read, not linked to"
)]

pub mod dice;
#[cfg(feature = "typed")]
pub mod job;
pub mod line;
pub mod postgres;
#[cfg(feature = "stage")]
pub mod program;
#[cfg(feature = "stage")]
pub mod stage;
pub mod tree;
#[cfg(feature = "typed")]
pub mod typed;

pub use dice::Dice;
