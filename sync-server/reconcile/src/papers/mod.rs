//! Reads shipping papers from CSV (`import`), and writes figures as CSV, XLSX and JSON (`tables`).
//!
//! Papers and mappings are stored by the office's `held_papers`; the figures come from `report`.

mod answers;
pub mod import;
pub mod tables;
