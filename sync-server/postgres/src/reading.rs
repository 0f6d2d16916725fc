//! What the office's index and pages read beyond the store's own methods. The caller checks digests.

use farsiding_core::ids::{DeviceId, Digest, EntryId, Subject};
use farsiding_core::store::StoreError;
use tokio_postgres::Row;

use crate::line::Given;
use crate::open::PostgresStore;
use crate::rows::{at_most, bytes32, subject_at};

/// An entry's row as it is stored.
#[derive(Debug, Clone)]
pub struct RawEntry {
    /// The id that the row claims.
    pub id: [u8; 32],
    /// The bytes.
    pub bytes: Vec<u8>,
    /// The position.
    pub position: i64,
    /// The time of arrival, in milliseconds since 1970, if the entry has a leaf.
    pub received_at: Option<i64>,
}

/// Selects entries with their times of arrival, read by [`raw_at`].
const RAW: &str = "SELECT e.id, e.bytes, e.position, l.received_at FROM farsiding.entry e
    LEFT JOIN farsiding.log l ON l.organisation = e.organisation AND l.entry = e.position";

fn raw_at(row: &Row) -> Result<RawEntry, StoreError> {
    Ok(RawEntry { id: bytes32(row, 0)?, bytes: row.get(1), position: row.get(2), received_at: row.get(3) })
}

/// Every method returns a [`StoreError`] when the database fails.
#[allow(clippy::missing_errors_doc, reason = "said above")]
impl PostgresStore {
    /// Runs `read` on one consistent state of the ledger, even if others write meanwhile.
    pub fn at_one_moment<T, E: From<StoreError>>(&self, read: impl FnOnce() -> Result<T, E>) -> Result<T, E> {
        self.start_reading().map_err(StoreError::from)?;
        let outcome = read();
        self.stop_reading().map_err(StoreError::from)?;
        outcome
    }

    fn raw(&self, rest: &str, given: Given<'_>) -> Result<Vec<RawEntry>, StoreError> {
        self.rows(&format!("{RAW} {rest}"), given)?.iter().map(raw_at).collect()
    }

    /// Returns the entries of a document, in order of arrival.
    pub fn raw_document(&self, subject: Subject) -> Result<Vec<RawEntry>, StoreError> {
        let rest = "JOIN farsiding.standing s ON s.organisation = e.organisation AND s.position = e.position
                    WHERE e.organisation = $1 AND s.subject = $2 ORDER BY e.position";
        self.raw(rest, &[&self.organisation, &subject.to_bytes().as_slice()])
    }

    /// Returns an entry.
    pub fn raw_entry(&self, id: EntryId) -> Result<Option<RawEntry>, StoreError> {
        let rest = "WHERE e.organisation = $1 AND e.id = $2";
        Ok(self.raw(rest, &[&self.organisation, &id.0.as_slice()])?.pop())
    }

    /// Returns at most `most` entries after a position.
    pub fn raw_after(&self, position: i64, most: usize) -> Result<Vec<RawEntry>, StoreError> {
        let rest = "WHERE e.organisation = $1 AND e.position > $2 ORDER BY e.position LIMIT $3";
        self.raw(rest, &[&self.organisation, &position, &at_most(most)])
    }

    /// Returns the entries signed by a device, in order of arrival. With `since`, those that arrived then or later.
    pub fn raw_of_device(&self, device: DeviceId, since: Option<i64>) -> Result<Vec<RawEntry>, StoreError> {
        // The signer's key stands at the same place in every entry; the index on it is used as it is written here.
        let rest = "WHERE e.organisation = $1 AND substr(e.bytes, 11, 32) = $2
                    AND ($3::bigint IS NULL OR l.received_at >= $3) ORDER BY e.position";
        self.raw(rest, &[&self.organisation, &device.0.as_slice(), &since])
    }

    /// Returns the documents with changes after a position.
    pub fn changed_after(&self, position: i64) -> Result<Vec<Subject>, StoreError> {
        let sql = "SELECT DISTINCT subject FROM farsiding.change WHERE organisation = $1 AND position > $2";
        self.rows(sql, &[&self.organisation, &position])?.iter().map(|row| subject_at(row, 0)).collect()
    }

    /// Returns the positions of the newest entry and of the newest change.
    pub fn newest_positions(&self) -> Result<(i64, i64), StoreError> {
        let head = self.head()?;
        Ok((head.entries, head.changes))
    }

    /// Returns the rosters, whose subjects begin with the letter r.
    pub fn rosters(&self) -> Result<Vec<Subject>, StoreError> {
        let sql = "SELECT DISTINCT subject FROM farsiding.standing
                   WHERE organisation = $1 AND subject >= '\\x72' AND subject < '\\x73'";
        self.rows(sql, &[&self.organisation])?.iter().map(|row| subject_at(row, 0)).collect()
    }

    /// Returns the photographs that are here and whose records have received nothing since `since`, in milliseconds
    /// since 1970.
    pub fn photographs_quiet_since(&self, since: i64) -> Result<Vec<Digest>, StoreError> {
        let sql = "SELECT p.sha256 FROM farsiding.photo p
                   JOIN farsiding.photo_in i ON i.organisation = p.organisation AND i.sha256 = p.sha256
                   JOIN farsiding.standing s ON s.organisation = p.organisation AND s.subject = i.subject
                   JOIN farsiding.log l ON l.organisation = p.organisation AND l.entry = s.position
                   WHERE p.organisation = $1 AND p.here
                   GROUP BY p.sha256 HAVING max(l.received_at) < $2 ORDER BY p.sha256";
        let rows = self.rows(sql, &[&self.organisation, &since])?;
        rows.iter().map(|row| Ok(Digest(bytes32(row, 0)?))).collect()
    }

    /// Returns the number of photographs whose bytes are not here.
    pub fn photos_to_come(&self) -> Result<i64, StoreError> {
        let sql = "SELECT count(*) FROM farsiding.photo WHERE organisation = $1 AND NOT here";
        Ok(self.rows(sql, &[&self.organisation])?.first().map_or(0, |row| row.get(0)))
    }
}
