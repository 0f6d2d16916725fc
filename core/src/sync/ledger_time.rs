//! The time that an office signs with: its machine's clock, but never earlier than a time it has signed
//! before.
//!
//! Without this rule, a clock that ran fast and was then set back would produce receipts older than the
//! leaves they refer to, and evidence packets would contradict themselves permanently. The time of every
//! leaf, receipt and checkpoint comes from here. Telling people that the clock is wrong is up to the shells.

use crate::clock::UtcMillis;
use crate::entry::{EntryError, OrganisationKey, Trusts, cbor, open_addressed};
use crate::store::{Store, StoreError, Write};
use serde::{Deserialize, Serialize};

/// The name of the value that holds the newest time of a receipt (milliseconds since 1970, big-endian i64).
pub(super) const NEWEST_SIGNED: &str = "server/newest_time";
const NOTES: &str = "log/clock_notes";
const PURPOSE: &str = "farsiding clock note 1";

/// Returns the newest time that this office has signed: that of its newest leaf or of its newest receipt,
/// whichever is later.
///
/// # Errors
/// [`StoreError`] here and in every function below, when the database fails.
pub fn newest_signed(store: &dyn Store) -> Result<Option<UtcMillis>, StoreError> {
    let noted = store.value(NEWEST_SIGNED)?.and_then(|v| v.try_into().ok()).map(i64::from_be_bytes);
    let log = store.log();
    let leaf = match log.size()?.checked_sub(1) {
        Some(last) => log.leaf(last)?.map(|leaf| leaf.received_at),
        None => None,
    };
    Ok(noted.map(UtcMillis).max(leaf))
}

/// Returns the time to sign with when the machine's clock shows `now`.
///
/// # Errors
/// [`StoreError`] when the database fails.
pub fn ledger_time(store: &dyn Store, now: UtcMillis) -> Result<UtcMillis, StoreError> {
    Ok(newest_signed(store)?.map_or(now, |newest| newest.max(now)))
}

/// Returns a time later than everything signed so far and earlier than everything signed afterwards. A
/// revocation needs such a time to separate the entries before it from those after it.
///
/// # Errors
/// [`StoreError`] when the database fails.
pub fn parting_time(store: &mut dyn Store, now: UtcMillis) -> Result<UtcMillis, StoreError> {
    let at = newest_signed(store)?.map_or(now, |newest| now.max(UtcMillis(newest.0.saturating_add(1))));
    store.commit(&[Write::Value { key: NEWEST_SIGNED, value: &at.0.to_be_bytes() }])?;
    Ok(at)
}

/// The organisation's signed statement that its clock was wrong: from leaf `size` on, the times in the log
/// are `held` instead of the clock's time, until the clock has caught up.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct ClockNote {
    /// The number of leaves in the log at that moment.
    #[serde(rename = "n")]
    pub size: u64,
    /// The newest time signed until then.
    #[serde(rename = "h")]
    pub held: UtcMillis,
    /// The time of the machine's clock.
    #[serde(rename = "t")]
    pub clock: UtcMillis,
    /// The explanation given, at most 400 characters.
    #[serde(rename = "y")]
    pub why: String,
}

impl ClockNote {
    /// Signs the note.
    ///
    /// # Errors
    /// [`EntryError`] when the note cannot be encoded.
    pub fn seal(&self, key: &OrganisationKey) -> Result<Vec<u8>, EntryError> {
        Ok(key.seal_addressed(cbor::encode(self)?, PURPOSE, &[]))
    }

    /// Opens a note and checks its signature with the organisation's keys.
    ///
    /// # Errors
    /// [`EntryError`] when the bytes are not such a note or the signature is invalid.
    pub fn open(bytes: &[u8], organisation: &dyn Trusts) -> Result<ClockNote, EntryError> {
        let mut signers = organisation.signers().into_iter();
        let payload = signers.find_map(|signer| open_addressed(bytes, PURPOSE, &signer).ok());
        Ok(cbor::decode(&payload.ok_or(EntryError::BadSignature)?)?)
    }
}

/// Returns the stored notes, signed, oldest first.
///
/// # Errors
/// [`StoreError`] when the database fails.
pub fn clock_notes(store: &dyn Store) -> Result<Vec<serde_bytes::ByteBuf>, StoreError> {
    Ok(store.value(NOTES)?.and_then(|bytes| cbor::decode(&bytes).ok()).unwrap_or_default())
}

/// Signs a note about the clock and stores it.
///
/// # Errors
/// [`StoreError`] when the database fails.
pub fn keep_clock_note(
    store: &mut dyn Store,
    key: &OrganisationKey,
    note: &ClockNote,
) -> Result<(), StoreError> {
    let unwritable = |e: &dyn std::fmt::Display| StoreError::Database(e.to_string());
    let mut all = clock_notes(store)?;
    all.push(serde_bytes::ByteBuf::from(note.seal(key).map_err(|e| unwritable(&e))?));
    let all = cbor::encode(&all).map_err(|e| unwritable(&e))?;
    store.commit(&[Write::Value { key: NOTES, value: &all }])?;
    Ok(())
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]
    use super::*;
    use crate::store::MemoryStore;

    #[test]
    fn a_note_about_the_clock_is_kept_as_signed() {
        let (mut store, key) = (MemoryStore::new(), OrganisationKey::from_secret([7; 32]));
        let note = ClockNote {
            size: 3,
            held: UtcMillis(90_000_000),
            clock: UtcMillis(5),
            why: "the battery was empty".to_owned(),
        };
        keep_clock_note(&mut store, &key, &note).unwrap();
        let kept = clock_notes(&store).unwrap();
        assert_eq!(ClockNote::open(&kept[0], &key.public()).unwrap(), note);
        let other = OrganisationKey::from_secret([8; 32]);
        assert!(ClockNote::open(&kept[0], &other.public()).is_err());
    }

    #[test]
    fn the_time_to_sign_with_never_falls() {
        let mut store = MemoryStore::new();
        assert_eq!(ledger_time(&store, UtcMillis(70)).unwrap(), UtcMillis(70), "nothing was signed yet");
        store.commit(&[Write::Value { key: NEWEST_SIGNED, value: &100i64.to_be_bytes() }]).unwrap();
        assert_eq!(ledger_time(&store, UtcMillis(70)).unwrap(), UtcMillis(100));
        assert_eq!(ledger_time(&store, UtcMillis(101)).unwrap(), UtcMillis(101));
        let parting = parting_time(&mut store, UtcMillis(70)).unwrap();
        assert_eq!(parting, UtcMillis(101), "what was signed at 100 came before it");
        assert_eq!(ledger_time(&store, UtcMillis(71)).unwrap(), parting, "and what comes now does not");
    }
}
