//! Whether a signature of the organisation may be believed: by whom it is, and what it stands under.

use crate::clock::UtcMillis;
use crate::entry::PublicKey;
use crate::entry::key::OrganisationKey;
use crate::ids::Digest;

use super::statement::WhyWithdrawn;

/// By how much a clock may have been off when a key's time began or ended, milliseconds.
pub const CLOCK_PLAY_MILLIS: i64 = 10 * 60 * 1000;

/// What a key's signature stands under. It decides whether the key could sign it then.
#[derive(Clone, Copy, Debug)]
pub enum Use<'a> {
    /// A certificate, by the last of its times.
    Certificate {
        /// When it was issued, renewed or revoked last.
        at: UtcMillis,
    },
    /// A receipt or a declaration, by its own time.
    Word {
        /// When it was given.
        at: UtcMillis,
    },
    /// An answer to a question that was asked just now.
    Answer {
        /// When it was given, by the server's clock.
        at: UtcMillis,
    },
    /// A checkpoint of the log. It bears no time.
    Checkpoint {
        /// The log's name.
        origin: &'a str,
        /// How many leaves.
        size: u64,
        /// The root hash over them.
        root: &'a Digest,
        /// The root hash over the heads of documents, where it says them.
        heads: Option<&'a Digest>,
    },
    /// What speaks of a time gone by, a packet's seal or a declaration: it was signed then or later.
    Past {
        /// That time.
        at: UtcMillis,
    },
}

/// Why a key's signature is not believed although it holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum KeyFault {
    /// Nobody the organisation named.
    #[error("the key {0} is none of the organisation's that is known here")]
    Unknown(PublicKey),
    /// Before the key's time.
    #[error("the key {key} signs from {} on, and this says {}", from.rfc3339(), at.rfc3339())]
    Before {
        /// The key.
        key: PublicKey,
        /// From when on it signs.
        from: UtcMillis,
        /// What was signed says this time.
        at: UtcMillis,
    },
    /// After the key's time.
    #[error("the key {key} ended at {}, and this says {}", until.rfc3339(), at.rfc3339())]
    Ended {
        /// The key.
        key: PublicKey,
        /// Until when it signed.
        until: UtcMillis,
        /// What was signed says this time.
        at: UtcMillis,
    },
    /// The key was withdrawn, and this is nothing it signed before that.
    #[error("the key {key} was withdrawn as {} at {}", why.word(), at.rfc3339())]
    Withdrawn {
        /// The key.
        key: PublicKey,
        /// Why.
        why: WhyWithdrawn,
        /// When, by the statement.
        at: UtcMillis,
    },
}

/// Whoever knows which keys speak for an organisation: its pinned public key alone, or that key with what it
/// said of others.
pub trait Trusts {
    /// The key that is pinned, whose digest is the organisation's id.
    fn root(&self) -> PublicKey;

    /// Every key known to have signed for it at some time, the pinned one first: for messages that do not
    /// name their signer.
    fn signers(&self) -> Vec<PublicKey>;

    /// Whether a signature by `key`, which holds, is to be believed.
    ///
    /// # Errors
    /// [`KeyFault`].
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

/// Takes every key that ever spoke for the organisation, whenever and whatever it signed: for telling whose a
/// signature is before judging whether it was made in time.
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
