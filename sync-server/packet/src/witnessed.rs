//! Chooses the checkpoint with a witness's signature for a packet, which is the earliest one that covers the
//! packet's entries and that a witness known to this office signed. Also stores which witnesses are known.

use farsiding_core::entry::Trusts;
use farsiding_core::evidence::{Checkpoint, VerifierKey, cosignatures};
use farsiding_core::store::{Store, StoreError, StoredCheckpoint, Write};

/// The name of the value that holds the list of known witnesses.
const WITNESSES: &str = "log/witnesses";

/// Returns the earliest checkpoint of the log `origin` with at least `size` entries that a known witness
/// signed, after checking its signatures. With `heads`, only checkpoints that commit to the heads of
/// documents are considered.
///
/// # Errors
/// Returns a [`StoreError`] when the ledger's store fails.
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

/// Returns the witnesses whose signature lines are recognised, whether or not they are asked.
///
/// # Errors
/// Returns a [`StoreError`] when the ledger's store fails.
pub fn known_witnesses(store: &dyn Store) -> Result<Vec<VerifierKey>, StoreError> {
    let kept = store.value(WITNESSES)?.and_then(|bytes| String::from_utf8(bytes).ok()).unwrap_or_default();
    Ok(kept.lines().filter_map(VerifierKey::read).collect())
}

/// Stores a witness's key, so that its signature lines are recognised.
///
/// # Errors
/// Returns a [`StoreError`] when the ledger's store fails.
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
