//! The office server and the command line, as a library so that tests and the demo can use its parts.
//!
//! Lives here: everything that touches the network, an async runtime, or a command line. Does not
//! live here: any rule of records, sync, measurement or release; those are `farsiding-core`'s.

mod account_lines;
mod audit_lines;
mod backup_lines;
pub mod calc_lines;
mod check_lines;
pub mod command;
pub mod device;
mod drawing;
mod enrolment_lines;
pub mod exporting;
mod keeping_lines;
pub mod kept_aside;
mod key_lines;
pub mod mail_lines;
pub mod office;
pub mod open_log;
mod outside_call;
pub mod packet;
pub mod private_file;
pub mod surroundings;
pub mod timestamp;
pub mod whole_file;
