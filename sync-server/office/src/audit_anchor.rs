//! Anchors of the audit: every day the organisation signs which audit row is the newest, and the signature is
//! stored in the ledger's database. Cutting off the end of the audit is then visible to anybody who has both
//! databases.
//!
//! Called by `serve` every night; read by `farsiding audit check` and by `check`.

use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::{OrganisationKey, PublicKey, Trusts, cbor, open_addressed};
use farsiding_core::ids::Digest;
use farsiding_core::store::{Store, StoreError, Write};
use rusqlite::Connection;
use serde::{Deserialize, Serialize};
use serde_bytes::ByteBuf;

use super::OfficeError;
use super::audit_chain::{self, Head};

const ANCHORS: &str = "audit/anchors";
const PURPOSE: &str = "farsiding audit head 1";
/// The number of anchors that are kept: one per day for two years.
const MOST: usize = 730;

/// A signed statement of which audit row was the newest.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct Anchor {
    /// The number of the row.
    #[serde(rename = "n")]
    pub number: i64,
    /// The hash of the row.
    #[serde(rename = "h")]
    pub hash: Digest,
    /// The time at which the statement was signed.
    #[serde(rename = "t")]
    pub at: UtcMillis,
}

impl Anchor {
    /// Returns the row in the form that the audit chain uses.
    pub const fn head(&self) -> Head {
        Head { number: self.number, hash: self.hash }
    }
}

fn kept(store: &dyn Store) -> Result<Vec<ByteBuf>, StoreError> {
    Ok(store.value(ANCHORS)?.and_then(|bytes| cbor::decode(&bytes).ok()).unwrap_or_default())
}

/// Returns the newest anchor with a valid signature whose row retention has not removed.
///
/// # Errors
/// Returns an [`OfficeError`] when the office's data cannot be read or written.
pub fn newest(
    store: &dyn Store,
    key: &dyn Trusts,
    database: &Connection,
) -> Result<Option<Anchor>, OfficeError> {
    let begins = audit_chain::beginning(database)?;
    let opened = |bytes: &ByteBuf| -> Option<Anchor> {
        let signed = |signer: PublicKey| open_addressed(bytes, PURPOSE, &signer).ok();
        cbor::decode(&key.signers().into_iter().find_map(signed)?).ok()
    };
    let all = kept(store)?;
    Ok(all.iter().rev().filter_map(opened).find(|anchor| anchor.number > begins.number))
}

/// Signs which audit row is the newest now. Nothing is signed if the newest anchor already names that row.
///
/// # Errors
/// Returns an [`OfficeError`] when the office's data cannot be read or written.
pub fn anchor(
    store: &mut dyn Store,
    key: &OrganisationKey,
    database: &Connection,
    now: UtcMillis,
) -> Result<(), OfficeError> {
    let head = audit_chain::head(database)?;
    let known = newest(store, &key.public(), database)?;
    if head.number == 0 || known.is_some_and(|known| known.head() == head) {
        return Ok(());
    }
    let unwritable = |e: &dyn std::fmt::Display| StoreError::Database(e.to_string());
    let anchor = Anchor { number: head.number, hash: head.hash, at: now };
    let body = cbor::encode(&anchor).map_err(|e| unwritable(&e))?;
    let mut all = kept(store)?;
    all.push(ByteBuf::from(key.seal_addressed(body, PURPOSE, &[])));
    let spare = all.len().saturating_sub(MOST);
    all.drain(..spare);
    let value = cbor::encode(&all).map_err(|e| unwritable(&e))?;
    store.commit(&[Write::Value { key: ANCHORS, value: &value }])?;
    Ok(())
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]
    use super::*;
    use crate::accounts::audit::note;
    use crate::audit_chain::Looked;
    use crate::office_database::OfficeDatabase;
    use farsiding_core::store::MemoryStore;

    #[test]
    fn an_audit_cut_off_behind_its_anchor_shows() {
        let folder = tempfile::tempdir().unwrap();
        let database = OfficeDatabase::open(&folder.path().join("server.db")).unwrap();
        let (mut store, key) = (MemoryStore::new(), OrganisationKey::from_secret([7; 32]));
        for at in 1..=5 {
            let word = || "x".to_owned();
            let row = Looked { at: UtcMillis(at), who: word(), role: word(), did: word(), subject: word() };
            note(database.connection(), &row).unwrap();
        }
        anchor(&mut store, &key, database.connection(), UtcMillis(9)).unwrap();
        anchor(&mut store, &key, database.connection(), UtcMillis(10)).unwrap();
        assert_eq!(kept(&store).unwrap().len(), 1, "nothing new to say");
        let known = newest(&store, &key.public(), database.connection()).unwrap().unwrap();
        assert_eq!((known.number, known.at), (5, UtcMillis(9)));
        let broken = || audit_chain::check(database.connection(), Some(known.head())).unwrap().broken;
        assert_eq!(broken(), None);
        let free = "DROP TRIGGER audit_is_kept; DELETE FROM audit WHERE number > 3;";
        database.connection().execute_batch(free).unwrap();
        assert_eq!(audit_chain::check(database.connection(), None).unwrap().broken, None, "the chain alone");
        assert!(broken().is_some(), "the anchor knows of row 5");
        let other = OrganisationKey::from_secret([8; 32]).public();
        assert_eq!(newest(&store, &other, database.connection()).unwrap(), None, "nobody else's word");
    }
}
