//! A disk under SQLite whose power can be cut.
//!
//! [`recording`] is a SQLite file system that hands everything on to the usual one and writes down what
//! was done; [`disk`] makes of such a log the files a disk would hold had the power gone at some moment,
//! with what was not synced lost, kept, torn or in another order. What must hold then is asked in `tests/`.

pub mod disk;
pub mod recording;

pub use disk::{Kept, after_cut};
pub use recording::{Operation, mark, path, start, stop};
