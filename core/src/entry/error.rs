//! Why bytes are not an entry, or not another thing that is signed as entries are.

use super::cbor::CborError;
use super::envelope::LARGEST_ENTRY;

/// Why bytes are not an entry.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum EntryError {
    /// Not the COSE_Sign1 form this tool writes.
    #[error("not a signed envelope of the form this tool writes")]
    NotAnEnvelope,
    /// The signature does not hold.
    #[error("the signature does not hold: the bytes were altered or were never signed by that key")]
    BadSignature,
    /// Signed, but by another key than required.
    #[error("signed by another key than the one required")]
    WrongSigner,
    /// Signed by a key of the organisation that may not have signed it.
    #[error(transparent)]
    Key(#[from] super::organisation::KeyFault),
    /// Too large.
    #[error("the entry has {0} bytes; {LARGEST_ENTRY} is the most")]
    TooLarge(usize),
    /// The person's own signature does not hold over this entry.
    #[error("the person's signature does not hold: it was made for another entry or by another key")]
    BadHand,
    /// The payload is not deterministic CBOR of the right shape.
    #[error(transparent)]
    Cbor(#[from] CborError),
    /// A correction without a reason.
    #[error("an entry that replaces another must say why")]
    NoReason,
    /// A statement whose content breaks a rule for making it.
    #[error("{0}")]
    NotAllowed(String),
}
