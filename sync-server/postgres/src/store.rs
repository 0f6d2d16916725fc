//! The rows of the record: reading them, and commits.

use farsiding_core::clock::UtcMillis;
use farsiding_core::ids::{DeviceId, Digest, EntryId, Subject};
use farsiding_core::store::{
    LogRows, Quarantined, Rows, ScopeRows, SetDigest, Store, StoreError, StoredChange, StoredEntry,
    StoredPhoto, Write,
};
use tokio_postgres::Row;

use crate::line::{Fault, Given};
use crate::open::{Ended, PostgresStore, REPEATS};
use crate::rows::{CHANGE, at_most, bytes32, change_at, subject_at, text_at};
use crate::write;

/// The columns of an entry, read by [`entry_at`].
const ENTRY: &str = "e.position, e.id, e.bytes, EXISTS (SELECT 1 FROM farsiding.covered r
    WHERE r.organisation = e.organisation AND r.position = e.position)";

/// How many changes are read at once while a page of them is collected.
const AT_ONCE: i64 = 256;

fn entry_at(row: &Row) -> Result<(StoredEntry, bool), StoreError> {
    let (position, id, bytes) =
        (row.get::<_, i64>(0).cast_unsigned(), EntryId(bytes32(row, 1)?), row.get::<_, Vec<u8>>(2));
    let sound = Digest::of(&bytes).0 == id.0;
    Ok((StoredEntry { id, bytes, position, receipted: row.get(3) }, sound))
}

fn photo_at(row: &Row) -> Result<StoredPhoto, StoreError> {
    Ok(StoredPhoto {
        sha256: Digest(bytes32(row, 0)?),
        length: row.get::<_, i64>(1).cast_unsigned(),
        media: text_at(row, 2),
        here: row.get(3),
        held: row.get(4),
    })
}

impl PostgresStore {
    /// Returns the first column of the first row, as bytes.
    pub(crate) fn one(&self, sql: &str, given: Given<'_>) -> Result<Option<Vec<u8>>, StoreError> {
        Ok(self.rows(sql, given)?.first().map(|row| row.get(0)))
    }

    /// Returns the ids that a statement selects.
    pub(crate) fn ids(&self, sql: &str, given: Given<'_>) -> Result<Vec<EntryId>, StoreError> {
        self.rows(sql, given)?.iter().map(|row| Ok(EntryId(bytes32(row, 0)?))).collect()
    }

    fn changes_where(
        &self,
        condition: &str,
        position: u64,
        bytes: usize,
    ) -> Result<Vec<StoredChange>, StoreError> {
        let sql = format!(
            "SELECT {CHANGE} FROM farsiding.change c WHERE organisation = $1 AND position > $2 AND {condition}
             ORDER BY position LIMIT $3"
        );
        let (mut changes, mut total, mut after) = (Vec::new(), 0, position.cast_signed());
        loop {
            let rows = self.rows(&sql, &[&self.organisation, &after, &AT_ONCE])?;
            for row in &rows {
                let (change, sound) = change_at(row)?;
                after = change.position.cast_signed();
                if !sound {
                    continue; // its entries still stand in the entry table
                }
                total += change.bytes.len();
                if total > bytes && !changes.is_empty() {
                    return Ok(changes);
                }
                changes.push(change);
            }
            if at_most(rows.len()) < AT_ONCE {
                return Ok(changes);
            }
        }
    }

    fn commit_once(&self, writes: &[Write<'_>]) -> Result<Vec<EntryId>, Fault> {
        self.start()?;
        match write::all(self, writes) {
            Ok(new) => match self.finish() {
                Ended::Written => Ok(new),
                Ended::NotWritten(fault) | Ended::Unknown(fault) => Err(fault),
            },
            Err(fault) => {
                self.discard();
                Err(fault)
            }
        }
    }
}

impl Store for PostgresStore {
    fn commit(&mut self, writes: &[Write<'_>]) -> Result<Vec<EntryId>, StoreError> {
        if self.holds {
            if self.open.borrow().is_none() {
                return Err(StoreError::Database("what was held back is lost".to_owned()));
            }
            return Ok(self.all_or_nothing(|| write::all(self, writes))?);
        }
        let mut done = self.commit_once(writes);
        for _ in 0..REPEATS {
            if !matches!(done, Err(Fault::Again)) {
                break;
            }
            done = self.commit_once(writes);
        }
        Ok(done?)
    }

    fn begin(&mut self) -> Result<(), StoreError> {
        self.start()?;
        self.holds = true;
        Ok(())
    }

    fn end(&mut self) -> Result<(), StoreError> {
        if self.holds {
            match self.finish() {
                Ended::Written => self.holds = false,
                Ended::NotWritten(fault) | Ended::Unknown(fault) => return Err(fault.into()),
            }
        }
        Ok(())
    }

    fn abandon(&mut self) {
        self.holds = false;
        self.discard();
    }

    fn entry(&self, id: EntryId) -> Result<Option<StoredEntry>, StoreError> {
        let sql = format!("SELECT {ENTRY} FROM farsiding.entry e WHERE organisation = $1 AND id = $2");
        let rows = self.rows(&sql, &[&self.organisation, &id.0.as_slice()])?;
        let found = rows.first().map(entry_at).transpose()?;
        let found = found.filter(|(entry, sound)| *sound && !self.unsound.contains(&entry.id));
        Ok(found.map(|(entry, _)| entry))
    }

    fn entries_of(&self, subject: Subject) -> Result<Rows<StoredEntry>, StoreError> {
        let sql = format!(
            "SELECT {ENTRY} FROM farsiding.standing s JOIN farsiding.entry e USING (organisation, position)
             WHERE organisation = $1 AND subject = $2 ORDER BY position"
        );
        let mut listing = Rows { rows: Vec::new(), damaged: Vec::new() };
        for row in self.rows(&sql, &[&self.organisation, &subject.to_bytes().as_slice()])? {
            let (entry, sound) = entry_at(&row)?;
            if sound && !self.unsound.contains(&entry.id) {
                listing.rows.push(entry);
            } else {
                listing.damaged.push(entry.id.to_string());
            }
        }
        Ok(listing)
    }

    fn holds_any_of(&self, subject: Subject) -> Result<bool, StoreError> {
        let sql = "SELECT 1 FROM farsiding.standing WHERE organisation = $1 AND subject = $2 LIMIT 1";
        Ok(!self.rows(sql, &[&self.organisation, &subject.to_bytes().as_slice()])?.is_empty())
    }

    fn subjects(&self) -> Result<Vec<Subject>, StoreError> {
        let sql = "SELECT DISTINCT subject FROM farsiding.standing WHERE organisation = $1 ORDER BY subject";
        self.rows(sql, &[&self.organisation])?.iter().map(|row| subject_at(row, 0)).collect()
    }

    fn changes_of(&self, subject: Subject) -> Result<Rows<StoredChange>, StoreError> {
        let sql = format!(
            "SELECT {CHANGE} FROM farsiding.change c WHERE organisation = $1 AND subject = $2 ORDER BY position"
        );
        let mut listing = Rows { rows: Vec::new(), damaged: Vec::new() };
        for row in self.rows(&sql, &[&self.organisation, &subject.to_bytes().as_slice()])? {
            let (change, sound) = change_at(&row)?;
            if sound { listing.rows.push(change) } else { listing.damaged.push(change.hash.to_string()) }
        }
        Ok(listing)
    }

    fn has_change(&self, subject: Subject, hash: Digest) -> Result<bool, StoreError> {
        let sql = "SELECT 1 FROM farsiding.change WHERE organisation = $1 AND subject = $2 AND hash = $3";
        let subject = subject.to_bytes();
        Ok(!self.rows(sql, &[&self.organisation, &subject.as_slice(), &hash.0.as_slice()])?.is_empty())
    }

    fn changes_not_held(&self, bytes: usize) -> Result<Vec<StoredChange>, StoreError> {
        self.changes_where("NOT held", 0, bytes)
    }

    fn changes_after(&self, position: u64, bytes: usize) -> Result<Vec<StoredChange>, StoreError> {
        self.changes_where("true", position, bytes)
    }

    fn newest_position(&self) -> Result<u64, StoreError> {
        Ok(self.head()?.changes.cast_unsigned())
    }

    fn entries_without_receipt(&self, most: usize) -> Result<Vec<EntryId>, StoreError> {
        let sql = "SELECT id FROM farsiding.entry e WHERE organisation = $1 AND NOT EXISTS (
                     SELECT 1 FROM farsiding.covered r WHERE r.organisation = e.organisation AND r.position = e.position)
                   ORDER BY position LIMIT $2";
        self.ids(sql, &[&self.organisation, &at_most(most)])
    }

    fn count_without_receipt(&self) -> Result<u64, StoreError> {
        let sql = "SELECT (SELECT count(*) FROM farsiding.entry WHERE organisation = $1)
                        - (SELECT count(*) FROM farsiding.covered WHERE organisation = $1)";
        let rows = self.rows(sql, &[&self.organisation])?;
        Ok(rows.first().map_or(0, |row| row.get::<_, i64>(0).cast_unsigned()))
    }

    fn receipts_of(&self, id: EntryId) -> Result<Vec<Vec<u8>>, StoreError> {
        let sql =
            "SELECT r.bytes FROM farsiding.entry e JOIN farsiding.covered c USING (organisation, position)
                   JOIN farsiding.receipt r ON r.organisation = e.organisation AND r.number = c.receipt
                   WHERE e.organisation = $1 AND e.id = $2";
        Ok(self.rows(sql, &[&self.organisation, &id.0.as_slice()])?.iter().map(|row| row.get(0)).collect())
    }

    fn certificates(&self) -> Result<Vec<(DeviceId, Vec<u8>)>, StoreError> {
        let sql = "SELECT device, bytes FROM farsiding.certificate WHERE organisation = $1 ORDER BY device";
        let rows = self.rows(sql, &[&self.organisation])?;
        rows.iter().map(|row| Ok((DeviceId(bytes32(row, 0)?), row.get(1)))).collect()
    }

    fn certificate(&self, device: DeviceId) -> Result<Option<Vec<u8>>, StoreError> {
        let sql = "SELECT bytes FROM farsiding.certificate WHERE organisation = $1 AND device = $2";
        self.one(sql, &[&self.organisation, &device.0.as_slice()])
    }

    fn quarantined(&self) -> Result<Vec<Quarantined>, StoreError> {
        let sql = "SELECT subject, bytes, why, at FROM farsiding.quarantine WHERE organisation = $1
                   ORDER BY at, digest";
        let read = |row: &Row| Quarantined {
            subject: row.get::<_, Option<&[u8]>>(0).and_then(Subject::from_bytes),
            bytes: row.get(1),
            why: text_at(row, 2),
            at: UtcMillis(row.get(3)),
        };
        Ok(self.rows(sql, &[&self.organisation])?.iter().map(read).collect())
    }

    fn photos(&self) -> Result<Vec<StoredPhoto>, StoreError> {
        let sql = "SELECT sha256, length, media, here, held FROM farsiding.photo WHERE organisation = $1
                   ORDER BY sha256";
        self.rows(sql, &[&self.organisation])?.iter().map(photo_at).collect()
    }

    fn photo(&self, sha256: Digest) -> Result<Option<StoredPhoto>, StoreError> {
        let sql = "SELECT sha256, length, media, here, held FROM farsiding.photo
                   WHERE organisation = $1 AND sha256 = $2";
        self.rows(sql, &[&self.organisation, &sha256.0.as_slice()])?.first().map(photo_at).transpose()
    }

    fn drafts(&self) -> Result<Vec<(String, String)>, StoreError> {
        let sql = "SELECT key, text FROM farsiding.draft WHERE organisation = $1 ORDER BY key";
        let rows = self.rows(sql, &[&self.organisation])?;
        Ok(rows.iter().map(|row| (text_at(row, 0), text_at(row, 1))).collect())
    }

    fn value(&self, key: &str) -> Result<Option<Vec<u8>>, StoreError> {
        let sql = "SELECT value FROM farsiding.value WHERE organisation = $1 AND key = $2";
        self.one(sql, &[&self.organisation, &key.as_bytes()])
    }

    fn tally(&self) -> Result<SetDigest, StoreError> {
        Ok(self.head()?.tally)
    }

    fn log(&self) -> &dyn LogRows {
        self
    }

    fn scopes(&self) -> &dyn ScopeRows {
        self
    }
}
