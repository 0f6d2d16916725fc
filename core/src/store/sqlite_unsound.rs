//! Entries with an invalid signature of a person that were stored before such signatures were checked. They
//! are treated like damaged rows.
//!
//! Each file is searched for them once, when a version that checks opens it first; entries that arrived since
//! then were checked on arrival. Only `sqlite` uses this module.

use std::collections::HashSet;

use rusqlite::{Connection, TransactionBehavior};

use super::sqlite::{bytes_at, get_value, put_value};
use crate::entry::{Entry, EntryError};
use crate::ids::EntryId;

/// The name of the value that holds the ids of those entries, concatenated. It is empty if all signatures are
/// valid.
pub const UNSOUND: &str = "entries/unsound";

/// Selects entries that may carry a person's signature: their bytes contain the field name `hand` as CBOR
/// encodes it.
const WITH_A_HAND: &str = "SELECT id, bytes FROM entry WHERE instr(bytes, x'6468616e64') > 0";

/// Returns the result of the search, or `None` if this file was not searched yet.
pub(super) fn known(connection: &Connection) -> Result<Option<HashSet<EntryId>>, rusqlite::Error> {
    let kept = get_value(connection, UNSOUND)?;
    Ok(kept.map(|ids| ids.chunks_exact(32).filter_map(|id| Some(EntryId(id.try_into().ok()?))).collect()))
}

/// Searches the file.
pub(super) fn found(connection: &Connection) -> Result<HashSet<EntryId>, rusqlite::Error> {
    let mut statement = connection.prepare(WITH_A_HAND)?;
    let mut rows = statement.query([])?;
    let mut unsound = HashSet::new();
    while let Some(row) = rows.next()? {
        let (id, bytes) = (bytes_at(row, 0)?, bytes_at(row, 1)?);
        let Ok(id) = <[u8; 32]>::try_from(id.as_slice()) else { continue };
        if matches!(Entry::open(&bytes), Err(EntryError::BadHand)) {
            unsound.insert(EntryId(id));
        }
    }
    Ok(unsound)
}

/// Returns the result of the search; searches the file and stores the result first if that has not been done.
pub(super) fn known_or_found(connection: &mut Connection) -> Result<HashSet<EntryId>, rusqlite::Error> {
    if let Some(known) = known(connection)? {
        return Ok(known);
    }
    let transaction = connection.transaction_with_behavior(TransactionBehavior::Immediate)?;
    let unsound = found(&transaction)?;
    let mut ids: Vec<EntryId> = unsound.iter().copied().collect();
    ids.sort_unstable();
    let ids: Vec<u8> = ids.iter().flat_map(|id| id.0).collect();
    put_value(&transaction, UNSOUND, &ids)?;
    transaction.commit()?;
    Ok(unsound)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]
    use crate::clock::{Stamp, UtcMillis};
    use crate::entry::{Body, DeviceKey, Entry, PersonSigner, Statement};
    use crate::ids::{OperatorId, Subject, VisitId};
    use crate::store::{Durability, SqliteStore, Store as _, Write};

    const VISIT: Subject = Subject::Visit(VisitId([1; 16]));

    fn body(text: &str) -> Body {
        let says = Statement::Remark { text: text.to_owned() };
        Body {
            about: VISIT,
            slot: says.slot(),
            says,
            follows: Vec::new(),
            replaces: Vec::new(),
            why: String::new(),
            by: OperatorId("ash".to_owned()),
            seq: 1,
            prev: None,
            when: Stamp { at: UtcMillis(1), offset_minutes: 0, ahead_millis: None },
            place: None,
            seen: None,
            hand: None,
            done: None,
            rests_on: None,
        }
    }

    #[test]
    fn a_persons_signature_that_was_taken_in_unchecked_and_does_not_hold_counts_no_more() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("record.db");
        let path = path.to_str().unwrap();
        let (device, person) = (DeviceKey::from_secret([1; 32]), PersonSigner::from_secret([2; 32]));
        let signed = Entry::seal_by_hand(body("mine"), &person, &device).unwrap();
        let hand = signed.body.hand.clone();
        let forged = Entry::seal(Body { hand, ..body("not mine") }, &device).unwrap();
        let mut store = SqliteStore::open(path, Durability::RollbackJournal).unwrap();
        for entry in [&signed, &forged] {
            store.commit(&[Write::Entry { subject: VISIT, entry }]).unwrap();
        }
        // A version that does not check leaves no mark that the file was searched.
        store.connection.execute("DELETE FROM value WHERE key = 'entries/unsound'", []).unwrap();
        drop(store);
        for _ in 0..2 {
            let store = SqliteStore::open(path, Durability::RollbackJournal).unwrap();
            let rows = store.entries_of(VISIT).unwrap();
            assert_eq!(rows.rows.iter().map(|row| row.id).collect::<Vec<_>>(), [signed.id]);
            assert_eq!(rows.damaged, [forged.id.to_string()], "it is said, and counts for nothing");
            assert!(store.entry(forged.id).unwrap().is_none());
        }
        let read = SqliteStore::open_to_read(path, true).unwrap().unwrap();
        assert_eq!(read.entries_of(VISIT).unwrap().rows.len(), 1);
    }

    #[test]
    fn a_damaged_row_is_whole_again_once_its_entry_comes_again() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("record.db");
        let entry = Entry::seal(body("whole"), &DeviceKey::from_secret([1; 32])).unwrap();
        let mut store = SqliteStore::open(path.to_str().unwrap(), Durability::RollbackJournal).unwrap();
        store.commit(&[Write::Entry { subject: VISIT, entry: &entry }]).unwrap();
        store.connection.execute("UPDATE entry SET bytes = x'00' || substr(bytes, 2)", []).unwrap();
        assert_eq!(store.entries_of(VISIT).unwrap().damaged.len(), 1);
        store.commit(&[Write::Entry { subject: VISIT, entry: &entry }]).unwrap();
        assert_eq!(store.entries_of(VISIT).unwrap().rows[0].bytes, entry.bytes());
        assert_eq!(store.tally().unwrap().count, 1, "it is counted once");
    }
}
