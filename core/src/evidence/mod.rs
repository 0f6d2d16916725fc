//! Evidence: what enables an outsider to check a record years later.
//!
//! This module holds the attachments of an evidence packet and their checks, described in
//! [`FORMAT.md`](FORMAT.md). It also re-exports receipts, the log, its proofs and its trees for verifiers;
//! these are defined in `log` and `tree`. Entries and their signatures are in `entry`, and the packet's PDF
//! is in the server's `packet`.

pub mod packet;

pub use crate::log::{
    Checkpoint, CheckpointError, Cosignature, Inclusion, LARGEST_ANSWER, LARGEST_NOTE, NoteError,
    NoteSignature, ProofError, Receipt, ReceiptError, Restored, SignedNote, TlogProof, TlogProofError,
    VerifierKey, WitnessAnswer, WitnessCall, WitnessRefusal, cosignatures, ledger_log, tile_audit, tiles,
    tlog_proof, with_cosignature,
};
pub use crate::tree::{LogLeaf, heads, merkle};
