//! Whether a signature of the organisation is trusted, depending on the key and on what was signed.

use crate::Message;
use crate::clock::UtcMillis;
use crate::entry::PublicKey;
use crate::entry::key::OrganisationKey;
use crate::ids::Digest;

use super::statement::WhyWithdrawn;

/// The tolerance in milliseconds for clock errors at the beginning and end of a key's period.
pub const CLOCK_PLAY_MILLIS: i64 = 10 * 60 * 1000;

/// What a signature was made for. It decides whether the key could sign it at that time.
#[derive(Clone, Copy, Debug)]
pub enum Use<'a> {
    /// A certificate, judged by the latest of its times.
    Certificate {
        /// The time of its last issue, renewal or revocation.
        at: UtcMillis,
    },
    /// A receipt or a declaration, judged by its own time.
    Word {
        /// The time it contains.
        at: UtcMillis,
    },
    /// The reply to a question that was asked just now.
    Answer {
        /// The time of the reply by the server's clock.
        at: UtcMillis,
    },
    /// A checkpoint of the log, which contains no time.
    Checkpoint {
        /// The log's name.
        origin: &'a str,
        /// The number of leaves.
        size: u64,
        /// The root hash over the leaves.
        root: &'a Digest,
        /// The root hash over the heads of documents, if the checkpoint contains it.
        heads: Option<&'a Digest>,
    },
    /// Content about a past time, such as a packet's seal or a declaration. It was signed at that time or
    /// later.
    Past {
        /// The past time.
        at: UtcMillis,
    },
}

/// The reason why a valid signature is not trusted.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum KeyFault {
    /// The organisation did not name the key.
    #[error("the key {0} is none of the organisation's that is known here")]
    Unknown(PublicKey),
    /// The signature predates the key's period.
    #[error("the key {key} signs from {} on, and this says {}", from.rfc3339(), at.rfc3339())]
    Before {
        /// The key.
        key: PublicKey,
        /// The beginning of the period.
        from: UtcMillis,
        /// The time in the signed content.
        at: UtcMillis,
    },
    /// The signature postdates the key's period.
    #[error("the key {key} ended at {}, and this says {}", until.rfc3339(), at.rfc3339())]
    Ended {
        /// The key.
        key: PublicKey,
        /// The end of the period.
        until: UtcMillis,
        /// The time in the signed content.
        at: UtcMillis,
    },
    /// The key was withdrawn, and the signed content does not predate the withdrawal.
    #[error("the key {key} was withdrawn as {} at {}", why.word(), at.rfc3339())]
    Withdrawn {
        /// The key.
        key: PublicKey,
        /// The reason.
        why: WhyWithdrawn,
        /// The time of the withdrawal according to the statement.
        at: UtcMillis,
    },
}

impl KeyFault {
    /// Returns what a person is told.
    pub fn message(&self) -> Message {
        Message::new(match self {
            KeyFault::Unknown(_) => "refusal-key-unknown",
            KeyFault::Before { .. } | KeyFault::Ended { .. } => "refusal-key-period",
            KeyFault::Withdrawn { .. } => "refusal-key-withdrawn",
        })
    }
}

/// Knowledge of the keys that speak for an organisation: its pinned root key alone, or that key together with
/// its statements.
pub trait Trusts {
    /// Returns the pinned key, whose digest is the organisation's id.
    fn root(&self) -> PublicKey;

    /// Returns all keys known to have signed for the organisation at any time, the pinned one first. Messages
    /// that do not name their signer are tried with each.
    fn signers(&self) -> Vec<PublicKey>;

    /// Decides whether a valid signature by `key` is trusted.
    ///
    /// # Errors
    /// [`KeyFault`] with the reason if it is not.
    fn allows(&self, key: &PublicKey, made: Use<'_>) -> Result<(), KeyFault>;
}

impl Trusts for PublicKey {
    fn root(&self) -> PublicKey {
        *self
    }

    fn signers(&self) -> Vec<PublicKey> {
        vec![*self]
    }

    fn allows(&self, key: &PublicKey, _: Use<'_>) -> Result<(), KeyFault> {
        if key == self { Ok(()) } else { Err(KeyFault::Unknown(*key)) }
    }
}

impl Trusts for OrganisationKey {
    fn root(&self) -> PublicKey {
        self.public()
    }

    fn signers(&self) -> Vec<PublicKey> {
        self.keys().signers()
    }

    fn allows(&self, key: &PublicKey, made: Use<'_>) -> Result<(), KeyFault> {
        self.keys().allows(key, made)
    }
}

/// Trusts every key that ever spoke for the organisation, regardless of time and content. It serves to
/// identify the signer before judging whether the signature was made in time.
#[derive(Clone, Copy)]
pub struct AnyTime<'a>(pub &'a dyn Trusts);

impl Trusts for AnyTime<'_> {
    fn root(&self) -> PublicKey {
        self.0.root()
    }

    fn signers(&self) -> Vec<PublicKey> {
        self.0.signers()
    }

    fn allows(&self, key: &PublicKey, _: Use<'_>) -> Result<(), KeyFault> {
        if self.0.signers().contains(key) { Ok(()) } else { Err(KeyFault::Unknown(*key)) }
    }
}

impl std::fmt::Debug for AnyTime<'_> {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "AnyTime({})", self.root().short())
    }
}
