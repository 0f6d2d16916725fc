//! The statements that a root key makes about keys, and their signature.

use serde::{Deserialize, Serialize};

use crate::Message;
use crate::clock::UtcMillis;
use crate::entry::key::{OrganisationKey, PublicKey, open_envelope};
use crate::entry::{EntryError, cbor};
use crate::ids::{Digest, OrganisationId};

const PURPOSE: &str = "farsiding key 1";

/// The largest statement accepted, in bytes. A typical one has about 250.
const LARGEST: usize = 2048;

/// One statement of the root, a link of the chain. The field names are wire format.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct KeyStatement {
    /// The id of the organisation: the first sixteen bytes of the SHA-256 of its first root key.
    pub organisation: OrganisationId,
    /// The number of the statement: 1, 2, 3, …
    pub number: u64,
    /// The SHA-256 of the previous signed statement; absent for the first one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub prev: Option<Digest>,
    /// The time of the statement by the clock of the root key's holder.
    pub at: UtcMillis,
    /// The content.
    pub says: KeyWord,
}

/// The content of a statement.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum KeyWord {
    /// Names a key that signs in the root's place during a period.
    Key {
        /// The public key.
        key: PublicKey,
        /// The beginning of the period.
        from: UtcMillis,
        /// The end of the period; absent if the key signs until it is withdrawn.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        until: Option<UtcMillis>,
    },
    /// Withdraws a key, regardless of earlier statements about it.
    KeyWithdrawn {
        /// The public key.
        key: PublicKey,
        /// The reason.
        why: WhyWithdrawn,
        /// The part of the log that the root vouches for. Anything beyond it that a stolen key signed is not
        /// trusted.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        checkpoint: Option<SignedUpTo>,
    },
    /// Names another key as the root from here on. The organisation's id stays the same.
    Successor {
        /// The new root's public key.
        key: PublicKey,
    },
}

/// The reason for withdrawing a key.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum WhyWithdrawn {
    /// Another key replaced it early. Its signatures remain valid.
    Replaced,
    /// The key was lost. Its signatures remain valid.
    Lost,
    /// Somebody else may have the key.
    Stolen,
}

impl WhyWithdrawn {
    /// Returns the word used on the wire, which is also shown to people.
    pub const fn word(self) -> &'static str {
        match self {
            WhyWithdrawn::Replaced => "replaced",
            WhyWithdrawn::Lost => "lost",
            WhyWithdrawn::Stolen => "stolen",
        }
    }

    /// Parses the word used on the wire.
    pub fn read(word: &str) -> Option<WhyWithdrawn> {
        [WhyWithdrawn::Replaced, WhyWithdrawn::Lost, WhyWithdrawn::Stolen]
            .into_iter()
            .find(|why| why.word() == word)
    }
}

/// A log up to a given size, for which a root vouches.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct SignedUpTo {
    /// The log's name.
    pub origin: String,
    /// The number of leaves.
    pub size: u64,
    /// The root hash over the leaves.
    pub root: Digest,
    /// The root hash over the heads of documents, if the checkpoint contains it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub heads: Option<Digest>,
}

impl KeyStatement {
    /// Signs the statement with the root key.
    ///
    /// # Errors
    /// [`EntryError`] if the statement cannot be encoded.
    pub fn seal(&self, root: &OrganisationKey) -> Result<Vec<u8>, EntryError> {
        Ok(root.seal(cbor::encode(self)?, PURPOSE))
    }

    /// Checks signature and form and returns the signer. [`super::OrganisationKeys`] decides whether the
    /// signer is the root and whether the statement follows the previous ones.
    ///
    /// # Errors
    /// [`EntryError`]. The method does not panic on any bytes.
    pub fn open(bytes: &[u8]) -> Result<(PublicKey, KeyStatement), EntryError> {
        if bytes.len() > LARGEST {
            return Err(EntryError::TooLarge(bytes.len()));
        }
        let (signer, payload) = open_envelope(bytes, PURPOSE)?;
        let statement: KeyStatement = cbor::decode(&payload)?;
        // Content that this version would skip might be obeyed by another one, so only statements that this
        // version would write itself are accepted.
        if cbor::encode(&statement)? != payload {
            let why = "the statement says more than this version knows".to_owned();
            return Err(EntryError::NotAllowed(why, Message::new("refusal-of-later-version")));
        }
        Ok((signer, statement))
    }
}
