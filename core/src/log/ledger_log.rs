//! The server's side of the log: the name of the current log, adding entries of older ledgers, publishing
//! checkpoints, and starting another log after a backup was restored.
//!
//! Leaves are written together with their entries (`sync::answer`). Devices evaluate checkpoints in
//! `sync::log_watch`.

use serde::{Deserialize, Serialize};

use super::checkpoint::Checkpoint;
use super::proof::Inclusion;
use super::receipt::Receipt;
use crate::clock::UtcMillis;
use crate::entry::{
    AnyTime, Entry, EntryError, OrganisationKey, PublicKey, Trusts, Use, cbor, open_of_organisation,
};
use crate::ids::{Digest, EntryId};
use crate::store::{Store, StoreError, StoredCheckpoint, Write};
use crate::tree::merkle;

const ORIGIN: &str = "log/origin";
const RESTORES: &str = "log/restores";
const AT_START: &str = "log/at_start";
const PURPOSE: &str = "farsiding restored log 1";

/// The number of entries added to the log per commit.
const BROUGHT_IN_AT_ONCE: usize = 1000;

/// The organisation's signed declaration that its ledger was restored from a backup. What the previous log
/// published beyond `size` is lost to the office, and another log continues from that point. A shorter or
/// different log without such a declaration has been rewritten.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Restored {
    /// The name of the previous log.
    #[serde(rename = "b")]
    pub before: String,
    /// The number of the previous log's leaves that the backup held.
    #[serde(rename = "n")]
    pub size: u64,
    /// The root hash over these leaves.
    #[serde(rename = "r")]
    pub root: Digest,
    /// The name of the log that continues.
    #[serde(rename = "o")]
    pub origin: String,
    /// The time when the new log was started, by the server's clock.
    #[serde(rename = "t")]
    pub at: UtcMillis,
}

impl Restored {
    /// Signs the declaration.
    ///
    /// # Errors
    /// [`EntryError`] when the declaration cannot be encoded.
    pub fn seal(&self, key: &OrganisationKey) -> Result<Vec<u8>, EntryError> {
        Ok(key.seal_addressed(cbor::encode(self)?, PURPOSE, &[]))
    }

    /// Opens a declaration and checks its signature with the organisation's keys.
    ///
    /// # Errors
    /// [`EntryError`] when the signature is invalid or its key was not permitted to sign the declaration.
    pub fn open(bytes: &[u8], organisation: &dyn Trusts) -> Result<Restored, EntryError> {
        let read = |payload: &[u8]| Ok(cbor::decode(payload)?);
        let made = |restored: &Restored| Use::Past { at: restored.at };
        Ok(open_of_organisation(bytes, PURPOSE, organisation, read, made)?.1)
    }
}

/// Returns the name of the ledger's current log.
///
/// # Errors
/// [`StoreError`] here and in every function below, when the database fails.
pub fn origin(store: &dyn Store, organisation_key: &PublicKey) -> Result<String, StoreError> {
    let kept = store.value(ORIGIN)?.and_then(|bytes| String::from_utf8(bytes).ok());
    Ok(kept.unwrap_or_else(|| Checkpoint::first_origin(organisation_key)))
}

/// Returns the declarations that the ledger was restored from a backup, signed, oldest first.
///
/// # Errors
/// [`StoreError`] when the database fails.
pub fn restores(store: &dyn Store) -> Result<Vec<serde_bytes::ByteBuf>, StoreError> {
    Ok(store.value(RESTORES)?.and_then(|bytes| cbor::decode(&bytes).ok()).unwrap_or_default())
}

/// Stores those declarations that are not stored yet.
///
/// # Errors
/// [`StoreError`] when the database fails.
pub(crate) fn keep_restores(
    store: &mut dyn Store,
    new: impl IntoIterator<Item = Vec<u8>>,
) -> Result<(), StoreError> {
    let mut all = restores(store)?;
    let before = all.len();
    for bytes in new {
        if !all.iter().any(|known| known.as_slice() == bytes) {
            all.push(serde_bytes::ByteBuf::from(bytes));
        }
    }
    if all.len() == before {
        return Ok(());
    }
    let value = cbor::encode(&all).map_err(|e| StoreError::Database(e.to_string()))?;
    store.commit(&[Write::Value { key: RESTORES, value: &value }])?;
    Ok(())
}

/// Signs every declaration again whose signing key is no longer trusted, and stores the result beside the
/// earlier ones. The office may do so because it knows what it declared.
///
/// # Errors
/// [`StoreError`] when the database fails.
pub fn declare_anew(store: &mut dyn Store, key: &OrganisationKey) -> Result<(), StoreError> {
    let mut anew = Vec::new();
    for bytes in restores(store)? {
        if Restored::open(&bytes, key).is_err()
            && let Ok(restored) = Restored::open(&bytes, &AnyTime(key))
        {
            anew.extend(restored.seal(key));
        }
    }
    keep_restores(store, anew)
}

/// Adds a leaf for every entry without one, and returns their number. Such entries come from a ledger older
/// than its log. The leaf's time is that of the entry's stored receipt, or `now` if there is none; it states
/// only that the entry was present by then.
///
/// # Errors
/// [`StoreError`] when the database fails; leaves committed before that remain.
pub fn bring_in(store: &mut dyn Store, organisation: &dyn Trusts, now: UtcMillis) -> Result<u64, StoreError> {
    let mut count = 0;
    loop {
        let waiting = store.log().without_leaf(BROUGHT_IN_AT_ONCE)?;
        if waiting.is_empty() {
            return Ok(count);
        }
        let mut leaves = Vec::with_capacity(waiting.len());
        for entry in waiting {
            let receipts = store.receipts_of(entry)?;
            let held =
                receipts.iter().filter_map(|bytes| Receipt::from_bytes(bytes).ok()?.check(organisation).ok());
            let received_at = held.min().unwrap_or(now).min(now);
            let row = store.entry(entry)?;
            let about =
                row.and_then(|row| Entry::reopen(entry, row.bytes).ok()).map(|opened| opened.body.about);
            leaves.push(Write::Leaf { entry, received_at, about });
        }
        store.commit(&leaves)?;
        count += leaves.len() as u64;
    }
}

/// Publishes a checkpoint of the log's present size with the heads of all documents, unless it is published
/// already, and returns the newest checkpoint. A checkpoint without heads, published by an earlier version,
/// is signed again with them.
///
/// # Errors
/// [`StoreError`] when the database fails.
pub fn publish(
    store: &mut dyn Store,
    key: &OrganisationKey,
    now: UtcMillis,
) -> Result<StoredCheckpoint, StoreError> {
    let (origin, size) = (origin(store, &key.public())?, store.log().size()?);
    let known = store.log().checkpoint(&origin, size)?;
    if let Some(known) = &known
        && may_stand(&known.note, key)
    {
        return Ok(known.clone());
    }
    let root = merkle::stored_root(store.log(), size)?;
    let heads = Some(store.log().heads(size)?);
    let note = Checkpoint { origin: origin.clone(), size, root, heads }.sign(key);
    store.commit(&[Write::Checkpoint { origin: &origin, size, note: &note, at: now, since: &[] }])?;
    Ok(match known {
        Some(known) => StoredCheckpoint { note, ..known },
        None => StoredCheckpoint { origin, size, note, at: now, since: Vec::new(), stamp: None },
    })
}

/// Returns true if an existing checkpoint needs no new signature: it contains the heads, and at least one of
/// the keys that signed it has not been reported stolen.
fn may_stand(note: &str, key: &OrganisationKey) -> bool {
    Checkpoint::open_signed(note, key)
        .is_ok_and(|(signer, checkpoint)| checkpoint.heads.is_some() && !key.keys().is_stolen(&signer))
}

/// Stores and returns the log's size at the start of a server. A later declaration that a backup was restored
/// uses it.
///
/// # Errors
/// [`StoreError`] when the database fails.
pub fn note_start(store: &mut dyn Store) -> Result<u64, StoreError> {
    let size = store.log().size()?;
    store.commit(&[Write::Value { key: AT_START, value: &size.to_be_bytes() }])?;
    Ok(size)
}

/// Returns the log's size when a server last started on this ledger, or the present size if none has.
///
/// # Errors
/// [`StoreError`] when the database fails.
pub fn size_at_start(store: &dyn Store) -> Result<u64, StoreError> {
    let size = store.log().size()?;
    let noted = store.value(AT_START)?.and_then(|v| v.try_into().ok()).map(u64::from_be_bytes);
    Ok(noted.unwrap_or(size).min(size))
}

/// Starts another log after the ledger was restored from a backup. The new log keeps the present leaves,
/// takes a new name, and stores a signed declaration that the backup held the first `held` of them (at most
/// all). `name` is the ledger's new random name.
///
/// # Errors
/// [`StoreError`] when the database fails.
pub fn begin_anew(
    store: &mut dyn Store,
    key: &OrganisationKey,
    name: u64,
    held: u64,
    now: UtcMillis,
) -> Result<Restored, StoreError> {
    let size = store.log().size()?.min(held);
    let restored = Restored {
        before: origin(store, &key.public())?,
        size,
        root: merkle::stored_root(store.log(), size)?,
        origin: format!("{}/{name:016x}", Checkpoint::first_origin(&key.public())),
        at: now,
    };
    let unwritable = |e: &dyn std::fmt::Display| StoreError::Database(e.to_string());
    let mut all = restores(store)?;
    all.push(serde_bytes::ByteBuf::from(restored.seal(key).map_err(|e| unwritable(&e))?));
    let all = cbor::encode(&all).map_err(|e| unwritable(&e))?;
    store.commit(&[
        Write::Value { key: RESTORES, value: &all },
        Write::Value { key: ORIGIN, value: restored.origin.as_bytes() },
    ])?;
    Ok(restored)
}

/// Returns the proof that an entry stands in the log of the first `size` leaves, or `None` if it does not.
///
/// # Errors
/// [`StoreError`] when the database fails.
pub fn inclusion(store: &dyn Store, entry: EntryId, size: u64) -> Result<Option<Inclusion>, StoreError> {
    let Some((number, received_at)) = store.log().place(entry)? else { return Ok(None) };
    let about = store.log().leaf(number)?.and_then(|leaf| leaf.about);
    let path = merkle::stored_path(store.log(), number, size)?;
    Ok(path.map(|path| Inclusion { number, received_at, path, about }))
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]
    use super::*;
    use crate::clock::Stamp;
    use crate::entry::{Body, DeviceKey, Entry, Statement};
    use crate::ids::{OperatorId, Subject, VisitId};
    use crate::store::MemoryStore;

    const VISIT: Subject = Subject::Visit(VisitId([7; 16]));

    fn entry(n: u64) -> Entry {
        let says = Statement::Remark { text: format!("remark {n}") };
        let body = Body {
            about: VISIT,
            slot: says.slot(),
            says,
            follows: vec![],
            replaces: vec![],
            why: String::new(),
            by: OperatorId("op-1".into()),
            seq: n,
            prev: None,
            when: Stamp { at: UtcMillis(0), offset_minutes: 0, ahead_millis: None },
            place: None,
            seen: None,
            hand: None,
            done: None,
            rests_on: None,
        };
        Entry::seal(body, &DeviceKey::from_secret([1; 32])).unwrap()
    }

    fn ledger(entries: u64) -> (MemoryStore, OrganisationKey) {
        let mut store = MemoryStore::new();
        for n in 0..entries {
            store.commit(&[Write::Entry { subject: VISIT, entry: &entry(n) }]).unwrap();
        }
        (store, OrganisationKey::from_secret([7; 32]))
    }

    #[test]
    fn a_ledger_of_before_gets_its_log_once_and_every_entry_a_proof() {
        let (mut store, key) = ledger(2300);
        assert_eq!(bring_in(&mut store, &key.public(), UtcMillis(500)).unwrap(), 2300);
        assert_eq!(bring_in(&mut store, &key.public(), UtcMillis(900)).unwrap(), 0);
        let published = publish(&mut store, &key, UtcMillis(501)).unwrap();
        let checkpoint = Checkpoint::open(&published.note, &key.public()).unwrap();
        assert_eq!((checkpoint.size, published.at), (2300, UtcMillis(501)));
        for n in [0, 1, 1024, 2299] {
            let id = entry(n).id;
            let proof = inclusion(&store, id, 2300).unwrap().unwrap();
            assert_eq!((proof.number, proof.received_at), (n, UtcMillis(500)));
            assert_eq!(proof.check(id, &checkpoint), Ok(()));
        }
        assert_eq!(publish(&mut store, &key, UtcMillis(777)).unwrap(), published, "nothing new to say");
        assert_eq!(inclusion(&store, entry(2299).id, 2299).unwrap(), None);
    }

    #[test]
    fn an_entry_with_a_receipt_is_brought_in_with_the_receipts_time() {
        use super::super::{Cursor, ReplyHead};
        let (mut store, key) = ledger(2);
        let id = entry(0).id;
        let head = ReplyHead {
            request: [0; 16],
            at: UtcMillis(77),
            cursor: Cursor { epoch: 1, position: 1 },
            count: 1,
            sum: [0; 16],
            covers: crate::tree::tree_of(&[id]),
            delivers: None,
            bulk: None,
            revoked: false,
            old_number: None,
            machine: None,
            asker_ahead: None,
            standings: None,
        };
        let receipt = Receipt { head: head.seal(&key).unwrap(), entries: vec![id] }.to_bytes().unwrap();
        store.commit(&[Write::Receipt { bytes: &receipt, entries: &[id] }]).unwrap();
        bring_in(&mut store, &key.public(), UtcMillis(500)).unwrap();
        assert_eq!(store.log().received_at(id).unwrap(), Some(UtcMillis(77)));
        assert_eq!(store.log().received_at(entry(1).id).unwrap(), Some(UtcMillis(500)));
    }

    #[test]
    fn a_log_begun_anew_keeps_its_leaves_and_says_signed_what_it_goes_on_from() {
        let (mut store, key) = ledger(3);
        bring_in(&mut store, &key.public(), UtcMillis(1)).unwrap();
        let before = publish(&mut store, &key, UtcMillis(1)).unwrap();
        let declared = begin_anew(&mut store, &key, 0xabc, 99, UtcMillis(2)).unwrap();
        let after = publish(&mut store, &key, UtcMillis(3)).unwrap();
        assert_eq!((declared.before.as_str(), declared.size), (before.origin.as_str(), 3));
        assert_eq!(after.origin, format!("{}/0000000000000abc", before.origin));
        let opened = Checkpoint::open(&after.note, &key.public()).unwrap();
        assert_eq!((opened.size, opened.root), (3, declared.root));
        let kept = restores(&store).unwrap();
        assert_eq!(Restored::open(&kept[0], &key.public()).unwrap(), declared);
        let other = OrganisationKey::from_secret([8; 32]);
        assert!(Restored::open(&kept[0], &other.public()).is_err());
    }
}
