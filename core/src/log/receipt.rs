//! A receipt: the server's signed word that it holds certain entries, kept with their list.

use serde::{Deserialize, Serialize};

use super::reply_head::ReplyHead;
use crate::clock::UtcMillis;
use crate::entry::{EntryError, PublicKey, Trusts, cbor};
use crate::ids::EntryId;
use crate::tree::tree_of;

/// Why a receipt does not hold.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum ReceiptError {
    /// The signature or the form is not right.
    #[error("the receipt does not hold: {0}")]
    Envelope(#[from] EntryError),
    /// It is about other entries than those listed with it.
    #[error("the receipt was given for other entries than those listed with it")]
    OtherEntries,
}

/// The server's signed reply head and the entries it covers, in the order they were asked about or
/// delivered.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Receipt {
    /// The signed head, byte for byte.
    #[serde(with = "serde_bytes")]
    pub head: Vec<u8>,
    /// The entries.
    pub entries: Vec<EntryId>,
}

impl Receipt {
    /// The stored form.
    ///
    /// # Errors
    /// [`EntryError`] when it cannot be encoded.
    pub fn to_bytes(&self) -> Result<Vec<u8>, EntryError> {
        Ok(cbor::encode(self)?)
    }

    /// Reads the stored form; nothing is checked yet.
    ///
    /// # Errors
    /// [`EntryError`] when the bytes are no receipt.
    pub fn from_bytes(bytes: &[u8]) -> Result<Receipt, EntryError> {
        let receipt: Receipt = cbor::decode(bytes)?;
        // Fields beside these two would be nobody's word.
        if receipt.to_bytes()? == bytes { Ok(receipt) } else { Err(EntryError::NotAnEnvelope) }
    }

    /// Checks signature and coverage; returns when the server says it held the entries.
    ///
    /// # Errors
    /// [`ReceiptError`].
    pub fn check(&self, organisation: &dyn Trusts) -> Result<UtcMillis, ReceiptError> {
        Ok(self.check_signed(organisation)?.1)
    }

    /// As [`Receipt::check`], with the key that signed it.
    ///
    /// # Errors
    /// [`ReceiptError`].
    pub fn check_signed(&self, organisation: &dyn Trusts) -> Result<(PublicKey, UtcMillis), ReceiptError> {
        let (signer, head) = ReplyHead::open_kept(&self.head, organisation)?;
        let root = tree_of(&self.entries).ok_or(ReceiptError::OtherEntries)?;
        if head.covers == Some(root) || head.delivers == Some(root) {
            Ok((signer, head.at))
        } else {
            Err(ReceiptError::OtherEntries)
        }
    }
}
