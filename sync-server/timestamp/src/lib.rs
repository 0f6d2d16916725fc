//! Time stamps by a third party (RFC 3161): the request for one over a checkpoint's note, and the check of a token.
//!
//! A token says that some bytes existed at a time, by the word of an authority that has nothing to do with the
//! organisation. Lives here: the request and the answer (`ask`), the check (`check`), certificate paths
//! (`certificate_path`). Does not live here: which checkpoint is stamped and where tokens are kept
//! (the office's `third_parties`, the core's store). The browser's part of the core needs none of it.

mod ask;
mod certificate_path;
mod check;

pub use ask::{request, token_of};
pub use certificate_path::read_roots;
pub use check::{Stamp, check};

/// Why there is no time stamp, or why one does not hold.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum StampError {
    /// Not a token, or not in a form this version reads.
    #[error("this is no time stamp token: {0}")]
    NotAToken(String),
    /// It was given for other bytes.
    #[error("the time stamp was given for something else: its digest is not that of what it is shown with")]
    OtherImprint,
    /// What the authority signed was altered afterwards.
    #[error(
        "the time stamp was altered after it was signed: its content does not have the digest that was signed"
    )]
    Altered,
    /// The signature does not hold.
    #[error("the time stamp's signature does not hold: it was altered, or signed by another key")]
    BadSignature,
    /// The signer's certificate is not in it, or is another than the one it names.
    #[error("the time stamp does not carry its signer's certificate: {0}")]
    NoSigner(String),
    /// The signer's certificate is not one for time stamps.
    #[error("the time stamp's signer is not certified to give time stamps")]
    NotAnAuthority,
    /// No path leads from the signer to a root that is trusted here.
    #[error("the time stamp's signer is certified by nobody trusted here: {0}")]
    OtherRoot(String),
    /// A certificate on the path did not hold at the time stamped.
    #[error("a certificate of the time stamp's signer was not valid at the time stamped: {0}")]
    NotValidThen(String),
    /// An algorithm this version does not know.
    #[error("the time stamp uses an algorithm that is not known here ({0})")]
    Unsupported(String),
    /// The authority was not reached, or refused.
    #[error("the time stamp authority gave no time stamp: {0}")]
    Refused(String),
    /// It holds and could not be kept, or could not be asked for.
    #[error("the time stamp could not be kept here: {0}")]
    NotKept(String),
    /// The answer is to another request.
    #[error("the time stamp authority answered another request")]
    OtherRequest,
}

fn unreadable(error: impl std::fmt::Display) -> StampError {
    StampError::NotAToken(error.to_string())
}
