//! Papers in, tables out: shipping papers imported from CSV, figures exported as CSV, XLSX and JSON.
//!
//! Lives here: reading and mapping a file (`import`), tables (`tables`). Does not live here: keeping papers and
//! remembering mappings (the office's `held_papers`), what the figures are (`report`).

pub mod import;
pub mod tables;
