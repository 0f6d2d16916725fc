//! Papers in, tables out: shipping papers imported from CSV, figures exported as CSV, XLSX and JSON.
//!
//! Lives here: reading and mapping a file (`import`), keeping papers and remembering mappings (`keeping`),
//! tables (`tables`). Does not live here: what the figures are (`reconcile`), the pages (`pages::papers`).

pub mod import;
pub mod keeping;
pub mod tables;
