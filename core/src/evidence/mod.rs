//! Evidence: what lets a stranger check a record years later.
//!
//! Lives here: the Merkle tree, receipts built on it, and the ledger's log: its leaves, its signed
//! checkpoints, what they say of each document, the proofs that lead from an entry to one, what witnesses are
//! asked, the log as tiles, and the packet's attachments. Does not live here: entries and their signatures
//! (`entry`), how log and proofs are kept (`store`) and asked for (`sync`).

mod checkpoint;
mod cosignature;
pub mod heads;
pub mod ledger_log;
mod log_leaf;
pub mod merkle;
pub mod packet;
mod proof;
mod receipt;
mod signed_note;
pub mod tile_audit;
pub mod tiles;
mod tlog_proof;
mod witness_call;

pub use checkpoint::{Checkpoint, CheckpointError};
pub use cosignature::{Cosignature, cosignatures};
pub use ledger_log::Restored;
pub use log_leaf::LogLeaf;
pub use proof::{Inclusion, ProofError};
pub(crate) use receipt::tree_of;
pub use receipt::{Receipt, ReceiptError};
pub use signed_note::{LARGEST_NOTE, NoteError, NoteSignature, SignedNote, VerifierKey};
pub use tlog_proof::{TlogProof, TlogProofError, tlog_proof};
pub use witness_call::{LARGEST_ANSWER, WitnessAnswer, WitnessCall, WitnessRefusal, with_cosignature};
