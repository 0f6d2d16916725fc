//! The transparency log of a ledger, and receipts: what the organisation signs about the entries it holds.
//!
//! This module holds receipts, the server's log, its signed checkpoints, the proofs that lead from an entry
//! to a checkpoint, the requests to witnesses, and the log in the form of tiles. Leaves and the trees over
//! them are in `tree`; storage is in `store`, transfer in `sync`, and the presentation to outsiders in
//! `evidence`.

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
