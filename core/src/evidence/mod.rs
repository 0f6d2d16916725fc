//! Evidence: what lets a stranger check a record years later.
//!
//! Lives here: the Merkle tree receipts are built on, and receipts themselves. Does not live here:
//! entries and their signatures (`entry`).

pub mod merkle;
pub mod packet;
mod receipt;

pub(crate) use receipt::tree_of;
pub use receipt::{Receipt, ReceiptError};
