//! The error type of entries and of other content signed in the same way.

use super::cbor::CborError;
use super::envelope::LARGEST_ENTRY;
use crate::Message;

/// The reason why bytes are not an entry.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum EntryError {
    /// The bytes are not a COSE_Sign1 envelope in the one accepted form.
    #[error("not a signed envelope of the form this tool writes")]
    NotAnEnvelope,
    /// The signature is invalid.
    #[error("the signature does not hold: the bytes were altered or were never signed by that key")]
    BadSignature,
    /// The signature is valid but by another key than required.
    #[error("signed by another key than the one required")]
    WrongSigner,
    /// The signature is valid and by a key of the organisation, but that key was not permitted to make it.
    #[error(transparent)]
    Key(#[from] super::organisation::KeyFault),
    /// The entry is too large; the field is its size in bytes.
    #[error("the entry has {0} bytes; {LARGEST_ENTRY} is the most")]
    TooLarge(usize),
    /// The person's own signature on the entry is invalid.
    #[error("the person's signature does not hold: it was made for another entry or by another key")]
    BadHand,
    /// The payload is not deterministic CBOR of the right shape.
    #[error(transparent)]
    Cbor(#[from] CborError),
    /// A correction has no reason.
    #[error("an entry that replaces another must say why")]
    NoReason,
    /// The content of a statement violates a rule for making such statements: the rule in English for logs, and
    /// what a person is told.
    #[error("{0}")]
    NotAllowed(String, Message),
}

impl EntryError {
    /// Returns what a person is told: what happened, and what to do about it.
    pub fn message(&self) -> Message {
        Message::new(match self {
            EntryError::NotAllowed(_, says) => return says.clone(),
            EntryError::Key(fault) => return fault.message(),
            EntryError::NotAnEnvelope | EntryError::Cbor(_) => "refusal-entry-unreadable",
            EntryError::BadSignature => "refusal-signature",
            EntryError::WrongSigner => "refusal-other-signer",
            EntryError::TooLarge(_) => "refusal-entry-too-large",
            EntryError::BadHand => "refusal-person-signature",
            EntryError::NoReason => "refusal-no-reason",
        })
    }
}
