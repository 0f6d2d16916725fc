//! The organisation's keys over time: a pinned root key, which is kept away from the server, and working keys
//! that sign in its place for a limited time.
//!
//! This module holds the root's signed statements (`statement`), the chain they form with its consequences
//! for each key (`chain`), and the decision whether a signature is trusted (`trust`). Storage of the
//! statements is in `store::organisation_keys`, their transfer in `sync`; the root key itself is kept by the
//! office.

mod chain;
mod statement;
#[cfg(test)]
mod tests;
mod trust;

pub use chain::{Forked, KeyError, KeyStanding, KnownKey, Learned, MOST_KEY_STATEMENTS, OrganisationKeys};
pub use statement::{KeyStatement, KeyWord, SignedUpTo, WhyWithdrawn};
pub use trust::{AnyTime, CLOCK_PLAY_MILLIS, KeyFault, Trusts, Use};
