//! Time stamps by a third party (RFC 3161): the request for a time stamp on a checkpoint's note, and the
//! check of a token.
//!
//! A token confirms that certain bytes existed at a time, by the word of an authority that is independent of
//! the organisation. The request and the answer are in `ask`, the check in `check`, and certificate paths in
//! `certificate_path`. Which checkpoint is stamped and where tokens are stored is decided in the office's
//! `third_parties` and in the core's store. The browser's part of the core needs none of this crate.

mod ask;
mod certificate_path;
mod check;

pub use ask::{request, token_of};
pub use certificate_path::read_roots;
pub use check::{Stamp, check};

/// Why there is no time stamp, or why a time stamp is invalid.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum StampError {
    /// The bytes are not a token, or not in a form that this version reads.
    #[error("this is no time stamp token: {0}")]
    NotAToken(String),
    /// The time stamp is for other bytes.
    #[error("the time stamp was given for something else: its digest is not that of what it is shown with")]
    OtherImprint,
    /// The signed content was altered afterwards.
    #[error(
        "the time stamp was altered after it was signed: its content does not have the digest that was signed"
    )]
    Altered,
    /// The signature is invalid.
    #[error("the time stamp's signature does not hold: it was altered, or signed by another key")]
    BadSignature,
    /// The signer's certificate is missing, or is not the one that the token names.
    #[error("the time stamp does not carry its signer's certificate: {0}")]
    NoSigner(String),
    /// The signer's certificate is not for time stamps.
    #[error("the time stamp's signer is not certified to give time stamps")]
    NotAnAuthority,
    /// No path leads from the signer to a trusted root.
    #[error("the time stamp's signer is certified by nobody trusted here: {0}")]
    OtherRoot(String),
    /// A certificate on the path was not valid at the stamped time.
    #[error("a certificate of the time stamp's signer was not valid at the time stamped: {0}")]
    NotValidThen(String),
    /// The token uses an algorithm that this version does not know.
    #[error("the time stamp uses an algorithm that is not known here ({0})")]
    Unsupported(String),
    /// The authority was not reached, or refused.
    #[error("the time stamp authority gave no time stamp: {0}")]
    Refused(String),
    /// The stamp could not be requested or stored.
    #[error("the time stamp could not be kept here: {0}")]
    NotKept(String),
    /// The answer belongs to another request.
    #[error("the time stamp authority answered another request")]
    OtherRequest,
}

fn unreadable(error: impl std::fmt::Display) -> StampError {
    StampError::NotAToken(error.to_string())
}
