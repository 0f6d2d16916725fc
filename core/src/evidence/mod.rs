//! Evidence: what lets a stranger check a record years later.
//!
//! Lives here: the packet's attachments and their checks, described in [`FORMAT.md`](FORMAT.md). Whoever checks finds
//! receipts, the log, its proofs and its trees under this name as well. Does not live here: these themselves (`log`,
//! `tree`), entries and their signatures (`entry`), the packet's PDF (the server's `packet`).

pub mod packet;

pub use crate::log::{
    Checkpoint, CheckpointError, Cosignature, Inclusion, LARGEST_ANSWER, LARGEST_NOTE, NoteError,
    NoteSignature, ProofError, Receipt, ReceiptError, Restored, SignedNote, TlogProof, TlogProofError,
    VerifierKey, WitnessAnswer, WitnessCall, WitnessRefusal, cosignatures, ledger_log, tile_audit, tiles,
    tlog_proof, with_cosignature,
};
pub use crate::tree::{LogLeaf, heads, merkle};
