//! The signed head of a server's reply, which is stored as the receipt.
//!
//! Field names have one letter because mobile reception at a siding is poor. The surrounding message is in
//! `sync::wire`, and the list of entries stored with the head in `receipt`.

use serde::{Deserialize, Serialize};

use crate::clock::UtcMillis;
use crate::entry::{
    EntryError, OrganisationKey, PublicKey, Trusts, Use, cbor, hint_of, open_of_organisation,
};
use crate::ids::Digest;

const REPLY: &str = "farsiding reply 1";

/// A reader's position in the server's ledger: which ledger it is, and how far it was read.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct Cursor {
    /// The random name of the ledger. A restored server takes a new one.
    #[serde(rename = "e")]
    pub epoch: u64,
    /// The last position that was read.
    #[serde(rename = "p")]
    pub position: u64,
}

/// The signed part of a reply, which is also the receipt.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct ReplyHead {
    /// The first sixteen bytes of the SHA-256 of the request this answers.
    #[serde(rename = "q", with = "serde_bytes")]
    pub request: [u8; 16],
    /// The server's time: its clock's, but never earlier than a time it signed before.
    #[serde(rename = "t")]
    pub at: UtcMillis,
    /// The position from which the device reads on next time.
    #[serde(rename = "c")]
    pub cursor: Cursor,
    /// The number of entries that the server holds.
    #[serde(rename = "n")]
    pub count: u64,
    /// The first sixteen bytes of the sum of their ids.
    #[serde(rename = "s", with = "serde_bytes")]
    pub sum: [u8; 16],
    /// The root of the tree (RFC 9162) over the entries that this receipt covers, in the order asked.
    #[serde(rename = "r", default, skip_serializing_if = "Option::is_none")]
    pub covers: Option<Digest>,
    /// The root of the tree over the entries in the changes that this reply delivers, in their order.
    #[serde(rename = "d", default, skip_serializing_if = "Option::is_none")]
    pub delivers: Option<Digest>,
    /// The SHA-256 of the bulk.
    #[serde(rename = "b", default, skip_serializing_if = "Option::is_none")]
    pub bulk: Option<Digest>,
    /// Whether the device is revoked. The server kept what the device sent but delivers nothing to it.
    #[serde(rename = "v", default, skip_serializing_if = "std::ops::Not::not")]
    pub revoked: bool,
    /// The last request number that the server has seen, if the request's number was not higher. The server
    /// then did nothing.
    #[serde(rename = "o", default, skip_serializing_if = "Option::is_none")]
    pub old_number: Option<u64>,
    /// The time of the server's machine, if it is earlier than a time signed before. `at` is then the latest
    /// signed time, and clock differences are computed with this one.
    #[serde(rename = "w", default, skip_serializing_if = "Option::is_none")]
    pub machine: Option<UtcMillis>,
    /// The device's clock minus the clock of the server's machine on arrival of the request, in milliseconds;
    /// absent from servers that predate the field.
    #[serde(rename = "a", default, skip_serializing_if = "Option::is_none")]
    pub asker_ahead: Option<i64>,
    /// The first four bytes of the sum over all documents of the ids under which their entries count there,
    /// see `store::ScopeRows::tally_of_standings`. It shows an entry that is missing in one of its two
    /// documents. Given to readers of everything alone, because the sum of a scope of sites is made so
    /// anyway; absent from servers that predate the field.
    #[serde(rename = "u", default, skip_serializing_if = "Option::is_none")]
    pub standings: Option<serde_bytes::ByteArray<4>>,
}

impl ReplyHead {
    /// Signs the head.
    ///
    /// # Errors
    /// [`EntryError`] when the head cannot be encoded.
    pub fn seal(&self, key: &OrganisationKey) -> Result<Vec<u8>, EntryError> {
        Ok(key.seal_addressed(cbor::encode(self)?, REPLY, &[]))
    }

    /// Checks the head of a reply that has just arrived, with the organisation's keys.
    ///
    /// # Errors
    /// [`EntryError`] when the signature is invalid or its key may not answer now.
    pub fn open(head: &[u8], organisation: &dyn Trusts) -> Result<ReplyHead, EntryError> {
        let made = |head: &ReplyHead| Use::Answer { at: head.at };
        let read = |payload: &[u8]| Ok(cbor::decode(payload)?);
        Ok(open_of_organisation(head, REPLY, organisation, read, made)?.1)
    }

    /// Checks a head that was stored as a receipt, and returns the key that signed it.
    ///
    /// # Errors
    /// As for [`ReplyHead::open`].
    pub fn open_kept(head: &[u8], organisation: &dyn Trusts) -> Result<(PublicKey, ReplyHead), EntryError> {
        // The head of a reply names no key, so each of the organisation's keys is tried.
        if !hint_of(head)?.is_empty() {
            return Err(EntryError::NotAnEnvelope);
        }
        let made = |head: &ReplyHead| Use::Word { at: head.at };
        let read = |payload: &[u8]| Ok(cbor::decode(payload)?);
        open_of_organisation(head, REPLY, organisation, read, made)
    }
}
