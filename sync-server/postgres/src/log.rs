//! The transparency log: reading it. Leaves are appended in `writing`.

use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::Entry;
use farsiding_core::ids::{Digest, EntryId, Subject};
use farsiding_core::store::{LogRows, StoreError, StoredCheckpoint, StoredStamp};
use farsiding_core::tree::LogLeaf;
use farsiding_core::tree::heads::HeadsRoot;
use tokio_postgres::Row;

use crate::line::Given;
use crate::open::PostgresStore;
use crate::rows::{at_most, bytes32, text_at};

/// Selects checkpoints, each with its earliest time stamp.
const CHECKPOINT: &str = "SELECT c.origin, c.size, c.note, c.at, c.since, s.note, s.token, s.at
    FROM farsiding.checkpoint c LEFT JOIN LATERAL (
      SELECT note, token, at FROM farsiding.stamp s
      WHERE s.organisation = c.organisation AND s.checkpoint = c.number ORDER BY s.at LIMIT 1) s ON true
    WHERE c.organisation = $1";

fn checkpoint_at(row: &Row) -> StoredCheckpoint {
    let stamp = row.get::<_, Option<i64>>(7).map(|at| StoredStamp {
        note: text_at(row, 5),
        token: row.get(6),
        at: UtcMillis(at),
    });
    StoredCheckpoint {
        origin: text_at(row, 0),
        size: row.get::<_, i64>(1).cast_unsigned(),
        note: text_at(row, 2),
        at: UtcMillis(row.get(3)),
        since: row.get(4),
        stamp,
    }
}

/// Reads the subject of a leaf. Bytes that are no subject can only be damage; the leaf is then read as version one,
/// and its hash reveals the damage.
fn about_at(row: &Row, column: usize) -> Option<Subject> {
    row.get::<_, Option<&[u8]>>(column).and_then(Subject::from_bytes)
}

impl PostgresStore {
    fn checkpoint_where(&self, rest: &str, given: Given<'_>) -> Result<Option<StoredCheckpoint>, StoreError> {
        let rows = self.rows(&format!("{CHECKPOINT} {rest}"), given)?;
        Ok(rows.first().map(checkpoint_at))
    }
}

impl LogRows for PostgresStore {
    fn size(&self) -> Result<u64, StoreError> {
        Ok(self.head()?.leaves.cast_unsigned())
    }

    fn leaf(&self, number: u64) -> Result<Option<LogLeaf>, StoreError> {
        let sql = "SELECT e.id, l.received_at, l.about FROM farsiding.log l
                   JOIN farsiding.entry e ON e.organisation = l.organisation AND e.position = l.entry
                   WHERE l.organisation = $1 AND l.number = $2";
        let rows = self.rows(sql, &[&self.organisation, &number.cast_signed()])?;
        let read = |row: &Row| {
            let (entry, received_at) = (EntryId(bytes32(row, 0)?), UtcMillis(row.get(1)));
            Ok(LogLeaf { entry, received_at, about: about_at(row, 2) })
        };
        rows.first().map(read).transpose()
    }

    fn subjects(&self, from: u64, most: usize) -> Result<Vec<(EntryId, Option<Subject>)>, StoreError> {
        let sql = "SELECT e.id, l.about, CASE WHEN l.about IS NULL THEN e.bytes END FROM farsiding.log l
                   JOIN farsiding.entry e ON e.organisation = l.organisation AND e.position = l.entry
                   WHERE l.organisation = $1 AND l.number >= $2 ORDER BY l.number LIMIT $3";
        let rows = self.rows(sql, &[&self.organisation, &from.cast_signed(), &at_most(most)])?;
        let read = |row: &Row| {
            let id = EntryId(bytes32(row, 0)?);
            let of_entry = || Entry::reopen(id, row.get::<_, Option<Vec<u8>>>(2)?).ok();
            Ok((id, about_at(row, 1).or_else(|| of_entry().map(|entry| entry.body.about))))
        };
        rows.iter().map(read).collect()
    }

    fn heads(&self, size: u64) -> Result<HeadsRoot, StoreError> {
        // The log is read while they are computed, and a connection made anew forgets them.
        let mut heads = self.heads.take();
        heads.go_on_to(self as &dyn LogRows, size)?;
        let root = heads.root();
        *self.heads.borrow_mut() = heads;
        Ok(root)
    }

    fn place(&self, entry: EntryId) -> Result<Option<(u64, UtcMillis)>, StoreError> {
        let sql = "SELECT l.number, l.received_at FROM farsiding.entry e
                   JOIN farsiding.log l ON l.organisation = e.organisation AND l.entry = e.position
                   WHERE e.organisation = $1 AND e.id = $2";
        let rows = self.rows(sql, &[&self.organisation, &entry.0.as_slice()])?;
        Ok(rows.first().map(|row| (row.get::<_, i64>(0).cast_unsigned(), UtcMillis(row.get(1)))))
    }

    fn subtree_hash(&self, level: u32, place: u64) -> Result<Option<Digest>, StoreError> {
        let sql = "SELECT hash FROM farsiding.log_tree WHERE organisation = $1 AND level = $2 AND place = $3";
        let rows = self.rows(sql, &[&self.organisation, &level.cast_signed(), &place.cast_signed()])?;
        rows.first().map(|row| Ok(Digest(bytes32(row, 0)?))).transpose()
    }

    fn without_leaf(&self, most: usize) -> Result<Vec<EntryId>, StoreError> {
        let sql = "SELECT id FROM farsiding.entry e WHERE organisation = $1 AND NOT EXISTS (
                     SELECT 1 FROM farsiding.log l WHERE l.organisation = e.organisation AND l.entry = e.position)
                   ORDER BY position LIMIT $2";
        self.ids(sql, &[&self.organisation, &at_most(most)])
    }

    fn newest_checkpoint(&self) -> Result<Option<StoredCheckpoint>, StoreError> {
        self.checkpoint_where("ORDER BY c.number DESC LIMIT 1", &[&self.organisation])
    }

    fn checkpoint(&self, origin: &str, size: u64) -> Result<Option<StoredCheckpoint>, StoreError> {
        let given: Given<'_> = &[&self.organisation, &origin.as_bytes(), &size.cast_signed()];
        self.checkpoint_where("AND c.origin = $2 AND c.size = $3", given)
    }

    fn first_checkpoint_of(&self, size: u64, stamped: bool) -> Result<Option<StoredCheckpoint>, StoreError> {
        let given: Given<'_> = &[&self.organisation, &size.cast_signed(), &stamped];
        let rest = "AND c.size >= $2 AND (s.token IS NOT NULL OR NOT $3) ORDER BY c.number LIMIT 1";
        self.checkpoint_where(rest, given)
    }

    fn first_cosigned_of(&self, origin: &str, size: u64) -> Result<Option<StoredCheckpoint>, StoreError> {
        let given: Given<'_> = &[&self.organisation, &origin.as_bytes(), &size.cast_signed()];
        let rest = "AND c.origin = $2 AND c.size >= $3 AND c.signatures > 1 ORDER BY c.size LIMIT 1";
        self.checkpoint_where(rest, given)
    }

    fn proof_of(&self, entry: EntryId) -> Result<Option<Vec<u8>>, StoreError> {
        let sql =
            "SELECT p.bytes FROM farsiding.entry e JOIN farsiding.proven v USING (organisation, position)
                   JOIN farsiding.proof p ON p.organisation = e.organisation AND p.number = v.proof
                   WHERE e.organisation = $1 AND e.id = $2";
        self.one(sql, &[&self.organisation, &entry.0.as_slice()])
    }

    fn without_proof(&self, most: usize) -> Result<Vec<EntryId>, StoreError> {
        let sql = "SELECT id FROM farsiding.entry e JOIN farsiding.covered USING (organisation, position)
                   WHERE organisation = $1 AND NOT EXISTS (SELECT 1 FROM farsiding.proven p
                     WHERE p.organisation = e.organisation AND p.position = e.position)
                   ORDER BY position DESC LIMIT $2";
        self.ids(sql, &[&self.organisation, &at_most(most)])
    }
}
