//! Which checkpoint a witness signed goes into a packet: the earliest that covers its entries and that a witness known
//! at this office signed; and which witnesses are known here.

use farsiding_core::entry::Trusts;
use farsiding_core::evidence::{Checkpoint, VerifierKey, cosignatures};
use farsiding_core::store::{Store, StoreError, StoredCheckpoint, Write};

/// Where the list of them is kept.
const WITNESSES: &str = "log/witnesses";

/// Returns the earliest checkpoint of the log `origin` with at least `size` entries that a known witness
/// signed, its signatures checked. With `heads` only one that says what is whole.
///
/// # Errors
/// [`StoreError`].
pub(super) fn witnessed(
    store: &dyn Store,
    key: &dyn Trusts,
    (origin, size): (&str, u64),
    heads: bool,
) -> Result<Option<StoredCheckpoint>, StoreError> {
    let known = known_witnesses(store)?;
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

/// Returns the witnesses whose lines are known here, whether they are asked or not.
///
/// # Errors
/// [`StoreError`].
pub fn known_witnesses(store: &dyn Store) -> Result<Vec<VerifierKey>, StoreError> {
    let kept = store.value(WITNESSES)?.and_then(|bytes| String::from_utf8(bytes).ok()).unwrap_or_default();
    Ok(kept.lines().filter_map(VerifierKey::read).collect())
}

/// Keeps a witness's key, so that its lines are known.
///
/// # Errors
/// [`StoreError`].
pub fn know_witness(store: &mut dyn Store, witness: &VerifierKey) -> Result<(), StoreError> {
    let mut known = known_witnesses(store)?;
    if known.contains(witness) {
        return Ok(());
    }
    known.push(witness.clone());
    let list: String = known.iter().map(|witness| format!("{witness}\n")).collect();
    store.commit(&[Write::Value { key: WITNESSES, value: list.as_bytes() }])?;
    Ok(())
}
