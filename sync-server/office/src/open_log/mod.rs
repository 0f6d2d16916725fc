//! The published log (C2SP tlog-tiles): written into a folder for any web server, and audited from there by
//! anybody who has the organisation's key.
//!
//! Files are written by `write` and read from a folder or an address by `shelf`. The content of a tile and
//! the rules of the audit are in `farsiding_core::evidence`. If the root key has named other keys, its signed
//! statements lie beside the tiles (`statements`), so that an auditor needs the root's public key alone.

mod shelf;
mod statements;
mod write;

pub use shelf::{FolderShelf, WebShelf};
pub use statements::{KEYS, keys_beside};
pub use write::{OpenLogError, Written, write_tiles};
