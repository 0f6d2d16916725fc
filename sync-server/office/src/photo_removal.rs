//! Photographs that were removed: their bytes go, their digest stays in the record, and no device brings them again.
//!
//! Entries are never changed: what a record says of the photograph stands, and packets mark it as absent. The ledger's
//! row goes on saying that the photograph came, which is what devices are told. Called by `farsiding photo remove` and
//! by the office's page.

use std::io;
use std::path::Path;

use farsiding_core::clock::UtcMillis;
use farsiding_core::ids::Digest;
use farsiding_core::store::{Store, StoreError, Write};
use serde::{Deserialize, Serialize};

/// The list of removed photographs, JSON.
pub const REMOVED: &str = "photos/removed";
/// Characters of a reason that are kept.
const LONGEST_REASON: usize = 400;

/// One removed photograph.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Removed {
    /// SHA-256 of the bytes it had.
    pub sha256: Digest,
    /// When, milliseconds since 1970.
    pub at: i64,
    /// Who.
    pub by: String,
    /// Why.
    pub why: String,
}

/// Why a photograph was not removed.
#[derive(Debug, thiserror::Error)]
pub enum RemovalError {
    /// The ledger failed.
    #[error(transparent)]
    Ledger(#[from] StoreError),
    /// Nothing in the record speaks of it.
    #[error("no record speaks of photograph {0}")]
    Unknown(Digest),
    /// It was done before.
    #[error("photograph {0} was removed before")]
    Before(Digest),
    /// No reason was given.
    #[error("a photograph is removed with a reason, which stays in the audit")]
    NoReason,
    /// Its file could not be removed.
    #[error("the photograph's file cannot be removed: {0}")]
    File(#[from] io::Error),
}

/// The photographs removed so far, oldest first.
///
/// # Errors
/// [`StoreError`].
pub fn removed(store: &dyn Store) -> Result<Vec<Removed>, StoreError> {
    Ok(read(store.value(REMOVED)?.as_deref()))
}

/// The list as it is kept.
pub fn read(value: Option<&[u8]>) -> Vec<Removed> {
    value.and_then(|bytes| serde_json::from_slice(bytes).ok()).unwrap_or_default()
}

/// Removes a photograph's bytes from the photographs' `folder`; that it was removed is written first, so that a power
/// cut in between leaves a file that nobody is given, and the next attempt takes it away.
///
/// # Errors
/// [`RemovalError`].
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
        // It is told to devices as held, so that those that still have it do not bring it.
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
        std::fs::write(&file, b"a face").unwrap(); // a backup put it back
        go("again", &mut store).unwrap();
        assert_eq!((file.exists(), removed(&store).unwrap().len()), (false, 1));
    }
}
