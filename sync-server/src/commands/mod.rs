//! The commands of `farsiding`, one file for each: its arguments, what it prints and how it ends.

pub(crate) mod account;
pub(crate) mod audit;
pub(crate) mod backup;
pub(crate) mod calc;
pub(crate) mod check;
pub(crate) mod device;
pub(crate) mod enrolment;
pub(crate) mod export;
pub(crate) mod keeping;
pub(crate) mod keys;
pub(crate) mod log;
pub(crate) mod mail;
pub(crate) mod moving;
pub(crate) mod open_log;
pub(crate) mod packet;
pub(crate) mod papers;
pub(crate) mod people;
pub(crate) mod procedure;
pub(crate) mod quarantine;
pub(crate) mod serve;
pub(crate) mod strip;
pub(crate) mod witness;
