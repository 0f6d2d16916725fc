//! The log in the open (C2SP tlog-tiles): written into a folder that any web server hands out, and read through from
//! there by whoever has the organisation's key.
//!
//! Lives here: files on a disk (`write`), files read from a folder or an address (`shelf`). Does not live here: what a tile holds and what makes a log hold (`farsiding_core::evidence`).

mod shelf;
mod write;

pub use shelf::{FolderShelf, WebShelf};
pub use write::{OpenLogError, Written, write_tiles};
