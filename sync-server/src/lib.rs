//! The command line of `farsiding`, as a library so that tests can run it inside their own process.
//!
//! This crate parses what is typed and prints outcomes. What a command does is decided in the crates beside
//! this one (`office`, `device`, `packet`, `reconcile`, `timestamp`, `host`) and in the core.

pub mod command;
mod commands;
mod database_address;
mod office_folder;
mod outcome;
