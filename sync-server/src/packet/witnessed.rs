//! Which checkpoint a witness signed goes into a packet: the earliest that covers its entries and that a witness known
//! at this office signed.

use farsiding_core::entry::Trusts;
use farsiding_core::evidence::{Checkpoint, cosignatures};
use farsiding_core::store::{Store, StoreError, StoredCheckpoint};

use crate::office::log_desk;

/// The earliest checkpoint of the log `origin` with at least `size` entries that a known witness signed, its signatures
/// checked. With `heads` only one that says what is whole.
///
/// # Errors
/// [`StoreError`].
pub(super) fn witnessed(
    store: &dyn Store,
    key: &dyn Trusts,
    (origin, size): (&str, u64),
    heads: bool,
) -> Result<Option<StoredCheckpoint>, StoreError> {
    let known = log_desk::witnesses(store)?;
    if known.is_empty() {
        return Ok(None);
    }
    let mut at = size;
    while let Some(found) = store.log().first_cosigned_of(origin, at)? {
        let says = Checkpoint::open(&found.note, key).is_ok_and(|opened| !heads || opened.heads.is_some());
        let lines = cosignatures(&found.note).unwrap_or_default();
        let signed = || lines.iter().any(|line| known.iter().any(|key| line.check(&found.note, key).is_ok()));
        if says && signed() {
            return Ok(Some(found));
        }
        at = found.size + 1;
    }
    Ok(None)
}
