//! Removing photographs: the file is deleted, the digest stays in the record, and devices do not send the
//! photograph again.
//!
//! Entries are never changed: the statements about the photograph stay, and packets mark the photograph as
//! absent. The ledger's row still says that the photograph arrived, which is what devices are told. Called by
//! `farsiding photo remove` and by the office's page.

use std::io;
use std::path::Path;

use farsiding_core::clock::UtcMillis;
use farsiding_core::ids::Digest;
use farsiding_core::store::{Store, StoreError, Write};
use serde::{Deserialize, Serialize};

/// The setting with the list of removed photographs, as JSON.
pub const REMOVED: &str = "photos/removed";
/// The largest number of characters kept of a reason.
const LONGEST_REASON: usize = 400;

/// One removed photograph.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Removed {
    /// The SHA-256 digest of the photograph.
    pub sha256: Digest,
    /// The time of the removal, in milliseconds since 1970.
    pub at: i64,
    /// Who removed the photograph.
    pub by: String,
    /// The reason.
    pub why: String,
}

/// Why a photograph was not removed.
#[derive(Debug, thiserror::Error)]
pub enum RemovalError {
    /// The ledger failed.
    #[error(transparent)]
    Ledger(#[from] StoreError),
    /// No entry refers to the photograph.
    #[error("no record speaks of photograph {0}")]
    Unknown(Digest),
    /// The photograph was removed before.
    #[error("photograph {0} was removed before")]
    Before(Digest),
    /// No reason was given.
    #[error("a photograph is removed with a reason, which stays in the audit")]
    NoReason,
    /// The file could not be deleted.
    #[error("the photograph's file cannot be removed: {0}")]
    File(#[from] io::Error),
}

/// Returns the removed photographs, oldest first.
///
/// # Errors
/// Returns a [`StoreError`] when the ledger's store fails.
pub fn removed(store: &dyn Store) -> Result<Vec<Removed>, StoreError> {
    Ok(read(store.value(REMOVED)?.as_deref()))
}

/// Parses the stored list.
pub fn read(value: Option<&[u8]>) -> Vec<Removed> {
    value.and_then(|bytes| serde_json::from_slice(bytes).ok()).unwrap_or_default()
}

/// Deletes the file of a photograph from `folder`. The removal is recorded first: if the power fails in
/// between, the file is no longer served, and the next attempt deletes it.
///
/// # Errors
/// Returns a [`RemovalError`] when the removal is refused or the file cannot be deleted.
pub fn remove(
    store: &mut dyn Store,
    folder: &Path,
    sha256: Digest,
    (by, why): (&str, &str),
    now: UtcMillis,
) -> Result<Removed, RemovalError> {
    let why: String = why.trim().chars().take(LONGEST_REASON).collect();
    if why.is_empty() {
        return Err(RemovalError::NoReason);
    }
    let known = store.photo(sha256)?.ok_or(RemovalError::Unknown(sha256))?;
    let mut all = removed(store)?;
    let file = folder.join(sha256.to_string().get(..2).unwrap_or_default()).join(sha256.to_string());
    if all.iter().any(|one| one.sha256 == sha256) && !file.exists() {
        return Err(RemovalError::Before(sha256));
    }
    let one = Removed { sha256, at: now.0, by: by.to_owned(), why };
    all.retain(|other| other.sha256 != sha256);
    all.push(one.clone());
    let value = serde_json::to_vec(&all).map_err(|e| StoreError::Database(e.to_string()))?;
    store.commit(&[
        Write::Value { key: REMOVED, value: &value },
        // Devices are told that the office holds the photograph, so that those that still have it do not send
        // it.
        Write::Photo { sha256, length: known.length, media: &known.media, here: true, held: known.held },
    ])?;
    match std::fs::remove_file(&file) {
        Err(error) if error.kind() != io::ErrorKind::NotFound => Err(error.into()),
        _ => Ok(one),
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]
    use super::*;
    use farsiding_core::store::MemoryStore;

    #[test]
    fn a_photograph_goes_and_stays_named_and_counts_as_come() {
        let folder = tempfile::tempdir().unwrap();
        let (mut store, sha256) = (MemoryStore::new(), Digest::of(b"a face"));
        let name = sha256.to_string();
        let file = folder.path().join(&name[..2]).join(&name);
        std::fs::create_dir_all(file.parent().unwrap()).unwrap();
        std::fs::write(&file, b"a face").unwrap();
        let go = |why: &str, store: &mut MemoryStore| {
            remove(store, folder.path(), sha256, ("ash", why), UtcMillis(7))
        };
        assert!(matches!(go("asked to", &mut store), Err(RemovalError::Unknown(_))));
        store
            .commit(&[Write::Photo { sha256, length: 6, media: "image/jpeg", here: false, held: false }])
            .unwrap();
        assert!(matches!(go("  ", &mut store), Err(RemovalError::NoReason)));
        assert!(file.exists());
        go("its subject asked", &mut store).unwrap();
        assert!(!file.exists());
        assert!(store.photo(sha256).unwrap().unwrap().here, "nobody is asked to bring it");
        assert_eq!(removed(&store).unwrap()[0].why, "its subject asked");
        assert!(matches!(go("again", &mut store), Err(RemovalError::Before(_))));
        std::fs::write(&file, b"a face").unwrap(); // as if restored from a backup
        go("again", &mut store).unwrap();
        assert_eq!((file.exists(), removed(&store).unwrap().len()), (false, 1));
    }
}
