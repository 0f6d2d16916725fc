//! The command line of `farsiding`, as a library so that tests can run it inside their own process.
//!
//! Lives here: what is typed and how an outcome is said. Does not live here: what a command does; that is in the
//! crates beside this one (`office`, `device`, `packet`, `reconcile`, `timestamp`, `host`) and in the core.

pub mod command;
mod commands;
mod office_folder;
mod outcome;
