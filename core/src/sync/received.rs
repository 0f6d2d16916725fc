//! When the office received entries of revoked devices, as far as it is known here.

use std::collections::BTreeMap;

use super::kept_proof::KeptProof;
use crate::authority::Authority;
use crate::clock::UtcMillis;
use crate::entry::{Entry, Trusts, cbor};
use crate::ids::EntryId;
use crate::log::Receipt;
use crate::store::{Store, StoreError};

/// Returns the times when the server received the entries of revoked devices, on which their verdicts depend.
/// The times come from the log or, without a proof, from the receipts given to this device.
///
/// # Errors
/// [`StoreError`] when the database fails.
pub fn received_from_revoked<'e>(
    store: &dyn Store,
    key: &dyn Trusts,
    authority: &Authority,
    entries: impl Iterator<Item = &'e Entry>,
) -> Result<BTreeMap<EntryId, UtcMillis>, StoreError> {
    let mut received = BTreeMap::new();
    let mut proven: BTreeMap<EntryId, UtcMillis> = BTreeMap::new();
    for entry in entries.filter(|entry| authority.is_revoked(&entry.device)) {
        // At the office the time comes directly from the log.
        if let Some((_, at)) = store.log().place(entry.id)? {
            received.insert(entry.id, at);
            continue;
        }
        if !proven.contains_key(&entry.id)
            && let Some(proof) = store.log().proof_of(entry.id)?
            && let Ok(proof) = cbor::decode::<KeptProof>(&proof)
            && let Some(all) = proof.all(key)
        {
            proven.extend(all);
        }
        if let Some(at) = proven.get(&entry.id) {
            received.insert(entry.id, *at);
            continue;
        }
        for bytes in store.receipts_of(entry.id)? {
            let at = Receipt::from_bytes(&bytes).ok().and_then(|receipt| receipt.check(key).ok());
            if let Some(at) = at {
                let first = received.entry(entry.id).or_insert(at);
                *first = at.min(*first);
            }
        }
    }
    Ok(received)
}
