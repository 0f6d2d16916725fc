//! The server's side of the log: which log the ledger is writing, bringing in entries of before, publishing
//! checkpoints, and beginning anew after a backup was put back.
//!
//! Leaves themselves are written with their entries (`sync::answer`). Does not live here: what devices make
//! of checkpoints (`sync::log_watch`).

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

/// Entries brought in with one commit.
const BROUGHT_IN_AT_ONCE: usize = 1000;

/// The organisation's signed word that its ledger came back from a backup: what the log before published
/// beyond `size` is lost there, and another log goes on from that point. Without it a log that comes out
/// shorter or different is a rewritten one.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Restored {
    /// The log before.
    #[serde(rename = "b")]
    pub before: String,
    /// How many of its leaves the backup held.
    #[serde(rename = "n")]
    pub size: u64,
    /// The root over these.
    #[serde(rename = "r")]
    pub root: Digest,
    /// The log that goes on.
    #[serde(rename = "o")]
    pub origin: String,
    /// When it was begun, by the server's clock.
    #[serde(rename = "t")]
    pub at: UtcMillis,
}

impl Restored {
    /// Signs it.
    ///
    /// # Errors
    /// [`EntryError`] when it cannot be encoded.
    pub fn seal(&self, key: &OrganisationKey) -> Result<Vec<u8>, EntryError> {
        Ok(key.seal_addressed(cbor::encode(self)?, PURPOSE, &[]))
    }

    /// Checks it against the organisation's keys.
    ///
    /// # Errors
    /// [`EntryError`] when the signature does not hold, or is by a key that may not declare it.
    pub fn open(bytes: &[u8], organisation: &dyn Trusts) -> Result<Restored, EntryError> {
        let read = |payload: &[u8]| Ok(cbor::decode(payload)?);
        let made = |restored: &Restored| Use::Past { at: restored.at };
        Ok(open_of_organisation(bytes, PURPOSE, organisation, read, made)?.1)
    }
}

/// The name of the log the ledger is writing.
///
/// # Errors
/// [`StoreError`], as for every function here.
pub fn origin(store: &dyn Store, organisation_key: &PublicKey) -> Result<String, StoreError> {
    let kept = store.value(ORIGIN)?.and_then(|bytes| String::from_utf8(bytes).ok());
    Ok(kept.unwrap_or_else(|| Checkpoint::first_origin(organisation_key)))
}

/// The declarations that the ledger came back from a backup, as signed, oldest first.
///
/// # Errors
/// [`StoreError`].
pub fn restores(store: &dyn Store) -> Result<Vec<serde_bytes::ByteBuf>, StoreError> {
    Ok(store.value(RESTORES)?.and_then(|bytes| cbor::decode(&bytes).ok()).unwrap_or_default())
}

/// Keeps declarations, each once.
///
/// # Errors
/// [`StoreError`].
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

/// Signs declarations anew whose signature is believed no longer, beside those of before: the office knows what it
/// declared.
///
/// # Errors
/// [`StoreError`].
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

/// Gives a leaf to every entry that has none: those of a ledger older than its log. Their time is that of the
/// receipt kept with them, if there is one, else now: it says that they were here by then. Returns how many.
///
/// # Errors
/// [`StoreError`]; what was brought in stays.
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

/// Publishes a checkpoint of the log as it stands, with the heads of all documents in it, unless that was done;
/// returns the newest. One published before checkpoints said anything of documents is signed anew with them.
///
/// # Errors
/// [`StoreError`].
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

/// Whether a checkpoint of before needs no new signature: it says the heads, and no key signed it alone that
/// somebody else may have.
fn may_stand(note: &str, key: &OrganisationKey) -> bool {
    Checkpoint::open_signed(note, key)
        .is_ok_and(|(signer, checkpoint)| checkpoint.heads.is_some() && !key.keys().is_stolen(&signer))
}

/// Notes how long the log is when a server starts on it, for a declaration made later; returns it.
///
/// # Errors
/// [`StoreError`].
pub fn note_start(store: &mut dyn Store) -> Result<u64, StoreError> {
    let size = store.log().size()?;
    store.commit(&[Write::Value { key: AT_START, value: &size.to_be_bytes() }])?;
    Ok(size)
}

/// How long the log was when a server last started on it; its whole length when none did.
///
/// # Errors
/// [`StoreError`].
pub fn size_at_start(store: &dyn Store) -> Result<u64, StoreError> {
    let size = store.log().size()?;
    let noted = store.value(AT_START)?.and_then(|v| v.try_into().ok()).map(u64::from_be_bytes);
    Ok(noted.unwrap_or(size).min(size))
}

/// Begins another log after the ledger was put back from a backup: it keeps the leaves there are, takes another
/// name and declares, signed, that the backup held the first `held` of them (at most all). `name` is the
/// ledger's new random name.
///
/// # Errors
/// [`StoreError`].
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

/// The proof that an entry stands in the log of the first `size` leaves; nothing when it does not.
///
/// # Errors
/// [`StoreError`].
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
