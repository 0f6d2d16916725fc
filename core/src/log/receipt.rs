//! Receipts: the server's signed statements that it holds certain entries, each stored with the list of these
//! entries.

use serde::{Deserialize, Serialize};

use super::reply_head::ReplyHead;
use crate::clock::UtcMillis;
use crate::entry::{EntryError, PublicKey, Trusts, cbor};
use crate::ids::EntryId;
use crate::tree::tree_of;

/// The reason why a receipt does not hold.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum ReceiptError {
    /// The signature or the form is invalid.
    #[error("the receipt does not hold: {0}")]
    Envelope(#[from] EntryError),
    /// The receipt covers other entries than those listed with it.
    #[error("the receipt was given for other entries than those listed with it")]
    OtherEntries,
}

/// The server's signed reply head and the entries it covers, in the order in which the device asked about
/// them or the server delivered them.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Receipt {
    /// The bytes of the signed head.
    #[serde(with = "serde_bytes")]
    pub head: Vec<u8>,
    /// The covered entries.
    pub entries: Vec<EntryId>,
}

impl Receipt {
    /// Returns the stored form.
    ///
    /// # Errors
    /// [`EntryError`] when the receipt cannot be encoded.
    pub fn to_bytes(&self) -> Result<Vec<u8>, EntryError> {
        Ok(cbor::encode(self)?)
    }

    /// Reads the stored form without checking the signature.
    ///
    /// # Errors
    /// [`EntryError`] if the bytes are not a receipt.
    pub fn from_bytes(bytes: &[u8]) -> Result<Receipt, EntryError> {
        let receipt: Receipt = cbor::decode(bytes)?;
        // Additional fields would not be covered by the signature, so they are refused.
        if receipt.to_bytes()? == bytes { Ok(receipt) } else { Err(EntryError::NotAnEnvelope) }
    }

    /// Checks the signature and the list of entries. Returns the time at which the server says that it held
    /// the entries.
    ///
    /// # Errors
    /// [`ReceiptError`].
    pub fn check(&self, organisation: &dyn Trusts) -> Result<UtcMillis, ReceiptError> {
        Ok(self.check_signed(organisation)?.1)
    }

    /// Does the same as [`Receipt::check`] and also returns the key that signed.
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
