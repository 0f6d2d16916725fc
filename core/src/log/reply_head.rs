//! The signed head of a server's reply, which is kept as the receipt.
//!
//! Field names are one letter because a siding's signal is bad. Does not live here: the message that the head comes in
//! (`sync::wire`), the list of entries kept with it (`receipt`).

use serde::{Deserialize, Serialize};

use crate::clock::UtcMillis;
use crate::entry::{
    EntryError, OrganisationKey, PublicKey, Trusts, Use, cbor, hint_of, open_of_organisation,
};
use crate::ids::Digest;

const REPLY: &str = "farsiding reply 1";

/// The server's ledger as a reader knows it: which ledger, and how far it was read.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct Cursor {
    /// Random name of the ledger; a restored server takes a new one.
    #[serde(rename = "e")]
    pub epoch: u64,
    /// The last position read.
    #[serde(rename = "p")]
    pub position: u64,
}

/// The signed part of a reply, and the receipt.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct ReplyHead {
    /// The first sixteen bytes of the SHA-256 of the request this answers.
    #[serde(rename = "q", with = "serde_bytes")]
    pub request: [u8; 16],
    /// The server's time: its clock's, but never before what it has signed already.
    #[serde(rename = "t")]
    pub at: UtcMillis,
    /// Where to read on next time.
    #[serde(rename = "c")]
    pub cursor: Cursor,
    /// How many entries the server holds.
    #[serde(rename = "n")]
    pub count: u64,
    /// The first sixteen bytes of the sum of their ids.
    #[serde(rename = "s", with = "serde_bytes")]
    pub sum: [u8; 16],
    /// Root of the tree (RFC 9162) of the entries this receipt covers, in the order asked.
    #[serde(rename = "r", default, skip_serializing_if = "Option::is_none")]
    pub covers: Option<Digest>,
    /// Root of the tree of the entries in the changes this reply delivers, in their order.
    #[serde(rename = "d", default, skip_serializing_if = "Option::is_none")]
    pub delivers: Option<Digest>,
    /// SHA-256 of the bulk.
    #[serde(rename = "b", default, skip_serializing_if = "Option::is_none")]
    pub bulk: Option<Digest>,
    /// The device is revoked: what it sent was kept, nothing is delivered to it.
    #[serde(rename = "v", default, skip_serializing_if = "std::ops::Not::not")]
    pub revoked: bool,
    /// The request's number was old: nothing was done, this is the last one seen.
    #[serde(rename = "o", default, skip_serializing_if = "Option::is_none")]
    pub old_number: Option<u64>,
    /// What the server's machine shows, where that is before what it has signed already: `at` is then the newest
    /// of that, and clocks are compared with this one.
    #[serde(rename = "w", default, skip_serializing_if = "Option::is_none")]
    pub machine: Option<UtcMillis>,
    /// The asker's clock less the server's machine's in milliseconds, as the request came in: the comparison that
    /// belongs to what the request brought. Absent from servers before this was said.
    #[serde(rename = "a", default, skip_serializing_if = "Option::is_none")]
    pub asker_ahead: Option<i64>,
}

impl ReplyHead {
    /// Signs it.
    ///
    /// # Errors
    /// [`EntryError`] when it cannot be encoded.
    pub fn seal(&self, key: &OrganisationKey) -> Result<Vec<u8>, EntryError> {
        Ok(key.seal_addressed(cbor::encode(self)?, REPLY, &[]))
    }

    /// Checks the head of a reply that just came against the organisation's keys.
    ///
    /// # Errors
    /// [`EntryError`] when the signature does not hold, or is by a key that may not answer.
    pub fn open(head: &[u8], organisation: &dyn Trusts) -> Result<ReplyHead, EntryError> {
        let made = |head: &ReplyHead| Use::Answer { at: head.at };
        let read = |payload: &[u8]| Ok(cbor::decode(payload)?);
        Ok(open_of_organisation(head, REPLY, organisation, read, made)?.1)
    }

    /// Checks a head that was kept as a receipt, and tells which key signed it.
    ///
    /// # Errors
    /// As [`ReplyHead::open`].
    pub fn open_kept(head: &[u8], organisation: &dyn Trusts) -> Result<(PublicKey, ReplyHead), EntryError> {
        // It names no key: whose it is, is tried with the organisation's.
        if !hint_of(head)?.is_empty() {
            return Err(EntryError::NotAnEnvelope);
        }
        let made = |head: &ReplyHead| Use::Word { at: head.at };
        let read = |payload: &[u8]| Ok(cbor::decode(payload)?);
        open_of_organisation(head, REPLY, organisation, read, made)
    }
}
