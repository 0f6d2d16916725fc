//! What a root says of keys, and how it is signed.

use serde::{Deserialize, Serialize};

use crate::clock::UtcMillis;
use crate::entry::key::{OrganisationKey, PublicKey, open_envelope};
use crate::entry::{EntryError, cbor};
use crate::ids::{Digest, OrganisationId};

const PURPOSE: &str = "farsiding key 1";

/// The largest statement read, in bytes; one has some 250.
const LARGEST: usize = 2048;

/// One statement of the root, a link of the chain. Field names are wire format.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct KeyStatement {
    /// The organisation: the first sixteen bytes of the SHA-256 of its first root.
    pub organisation: OrganisationId,
    /// 1, 2, 3, …
    pub number: u64,
    /// SHA-256 of the statement before, as signed; absent for the first.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub prev: Option<Digest>,
    /// When it was made, by the clock of whoever held the root.
    pub at: UtcMillis,
    /// What is said.
    pub says: KeyWord,
}

/// What a statement says.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum KeyWord {
    /// A key that signs in the root's place from one time to another.
    Key {
        /// The public key.
        key: PublicKey,
        /// From when on.
        from: UtcMillis,
        /// Until when; absent means until it is withdrawn.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        until: Option<UtcMillis>,
    },
    /// A key signs no more, whatever was said of it before.
    KeyWithdrawn {
        /// The public key.
        key: PublicKey,
        /// Why.
        why: WhyWithdrawn,
        /// How far the log is vouched for. What a stolen key signed beyond this is not believed.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        checkpoint: Option<SignedUpTo>,
    },
    /// Another key is the root from here on. The organisation keeps its id.
    Successor {
        /// The new root's public key.
        key: PublicKey,
    },
}

/// Why a key was withdrawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum WhyWithdrawn {
    /// Another took its place before its time. What it signed holds.
    Replaced,
    /// Nobody has it any more. What it signed holds.
    Lost,
    /// Somebody else may have it.
    Stolen,
}

impl WhyWithdrawn {
    /// The wire word, which is also the word shown.
    pub const fn word(self) -> &'static str {
        match self {
            WhyWithdrawn::Replaced => "replaced",
            WhyWithdrawn::Lost => "lost",
            WhyWithdrawn::Stolen => "stolen",
        }
    }

    /// Reads the wire word.
    pub fn read(word: &str) -> Option<WhyWithdrawn> {
        [WhyWithdrawn::Replaced, WhyWithdrawn::Lost, WhyWithdrawn::Stolen]
            .into_iter()
            .find(|why| why.word() == word)
    }
}

/// A log up to a size, as a root vouches for it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct SignedUpTo {
    /// The log's name.
    pub origin: String,
    /// How many leaves.
    pub size: u64,
    /// The root hash over them.
    pub root: Digest,
    /// The root hash over the heads of documents in it, where the checkpoint says them.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub heads: Option<Digest>,
}

impl KeyStatement {
    /// Signs it with the root.
    ///
    /// # Errors
    /// [`EntryError`] when it cannot be encoded.
    pub fn seal(&self, root: &OrganisationKey) -> Result<Vec<u8>, EntryError> {
        Ok(root.seal(cbor::encode(self)?, PURPOSE))
    }

    /// Checks signature and form and tells who signed. Whether that is the root, and whether the statement
    /// follows from those before, is for [`super::OrganisationKeys`].
    ///
    /// # Errors
    /// [`EntryError`]; never panics, whatever the bytes.
    pub fn open(bytes: &[u8]) -> Result<(PublicKey, KeyStatement), EntryError> {
        if bytes.len() > LARGEST {
            return Err(EntryError::TooLarge(bytes.len()));
        }
        let (signer, payload) = open_envelope(bytes, PURPOSE)?;
        let statement: KeyStatement = cbor::decode(&payload)?;
        // What this program would pass over, another might obey: nothing is read that would not be written.
        if cbor::encode(&statement)? != payload {
            return Err(EntryError::NotAllowed("the statement says more than this version knows".to_owned()));
        }
        Ok((signer, statement))
    }
}
