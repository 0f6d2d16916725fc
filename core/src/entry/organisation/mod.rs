//! The organisation's keys over the years: a root that is pinned and kept away from the server, and the
//! keys that sign in its place for a while.
//!
//! Lives here: the root's signed statements (`statement`), the chain they form and what follows from it
//! for a key (`chain`), and whether a signature may be believed (`trust`). Does not live here: how statements
//! are kept (`store::organisation_keys`) and travel (`sync`), and where the root is (the office).

mod chain;
mod statement;
#[cfg(test)]
mod tests;
mod trust;

pub use chain::{Forked, KeyError, KeyStanding, KnownKey, Learned, MOST_KEY_STATEMENTS, OrganisationKeys};
pub use statement::{KeyStatement, KeyWord, SignedUpTo, WhyWithdrawn};
pub use trust::{AnyTime, CLOCK_PLAY_MILLIS, KeyFault, Trusts, Use};
