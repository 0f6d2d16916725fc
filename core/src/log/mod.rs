//! The transparency log of a ledger, and receipts: what the organisation signs about the entries it holds.
//!
//! Lives here: receipts, the log as a server keeps it, its signed checkpoints, the proofs that lead from an entry to one,
//! what witnesses are asked, and the log as tiles. Does not live here: leaves and the trees over them (`tree`), how log
//! and proofs are kept (`store`), how they are asked for (`sync`), and what is made of them for a stranger (`evidence`).

mod checkpoint;
mod cosignature;
pub mod ledger_log;
mod proof;
mod receipt;
mod reply_head;
mod signed_note;
pub mod tile_audit;
pub mod tiles;
mod tlog_proof;
mod witness_call;

pub use checkpoint::{Checkpoint, CheckpointError};
pub use cosignature::{Cosignature, cosignatures};
pub use ledger_log::Restored;
pub use proof::{Inclusion, ProofError};
pub use receipt::{Receipt, ReceiptError};
pub use reply_head::{Cursor, ReplyHead};
pub use signed_note::{LARGEST_NOTE, NoteError, NoteSignature, SignedNote, VerifierKey};
pub use tlog_proof::{TlogProof, TlogProofError, tlog_proof};
pub use witness_call::{LARGEST_ANSWER, WitnessAnswer, WitnessCall, WitnessRefusal, with_cosignature};
