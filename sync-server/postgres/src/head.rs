//! The head of an organisation: the one row that every transaction reads first and writes last.

use farsiding_core::ids::Digest;
use farsiding_core::store::{SetDigest, StoreError};
use tokio_postgres::Row;

/// What stands in the row, see the migrations.
#[derive(Debug, Clone, Default)]
pub(crate) struct Head {
    pub(crate) moment: i64,
    pub(crate) writer: Vec<u8>,
    pub(crate) fence: i64,
    pub(crate) entries: i64,
    pub(crate) changes: i64,
    pub(crate) receipts: i64,
    pub(crate) proofs: i64,
    pub(crate) checkpoints: i64,
    pub(crate) feed: i64,
    pub(crate) fed: i64,
    pub(crate) tally: SetDigest,
    pub(crate) leaves: i64,
    pub(crate) leaf_at: i64,
    /// The hashes of the complete subtrees at the right edge of the log, the largest first: one for each bit of
    /// the number of leaves.
    pub(crate) peaks: Vec<Digest>,
    /// The moment at which a ledger was carried here that no folder names yet, or 0.
    pub(crate) arrived: i64,
    /// Where the ledger was carried to; empty if it is served here.
    pub(crate) gone: Vec<u8>,
}

/// Reads an organisation's head.
pub(crate) const READ: &str =
    "SELECT moment, writer, fence, entries, changes, receipts, proofs, checkpoints, feed,
    fed, tally, leaves, leaf_at, peaks, arrived, gone FROM farsiding.head WHERE organisation = $1";

/// Makes the head of a new organisation.
pub(crate) const MAKE: &str = "INSERT INTO farsiding.head VALUES
    ($1, 0, '', 0, 0, 0, 0, 0, 0, 0, 0, decode(repeat('00', 40), 'hex'), 0, -9223372036854775808, '')
    ON CONFLICT DO NOTHING";

/// Writes the head, if it is still what the transaction read.
pub(crate) const WRITE: &str = "UPDATE farsiding.head SET moment = moment + 1, writer = $4, entries = $5, changes = $6,
    receipts = $7, proofs = $8, checkpoints = $9, feed = $10, fed = $11, tally = $12, leaves = $13, leaf_at = $14,
    peaks = $15, arrived = $16, gone = $17 WHERE organisation = $1 AND moment = $2 AND fence = $3";

impl Head {
    /// Reads a row of [`READ`].
    pub(crate) fn read(row: &Row) -> Head {
        let (tally, peaks): (&[u8], &[u8]) = (row.get(10), row.get(13));
        Head {
            moment: row.get(0),
            writer: row.get(1),
            fence: row.get(2),
            entries: row.get(3),
            changes: row.get(4),
            receipts: row.get(5),
            proofs: row.get(6),
            checkpoints: row.get(7),
            feed: row.get(8),
            fed: row.get(9),
            tally: SetDigest::from_bytes(tally).unwrap_or_default(),
            leaves: row.get(11),
            leaf_at: row.get(12),
            peaks: peaks.chunks_exact(32).filter_map(|hash| Some(Digest(hash.try_into().ok()?))).collect(),
            arrived: row.get(14),
            gone: row.get(15),
        }
    }

    /// Refuses a ledger that was carried elsewhere.
    pub(crate) fn is_served(&self) -> Result<(), StoreError> {
        if self.gone.is_empty() {
            return Ok(());
        }
        let to = String::from_utf8_lossy(&self.gone);
        Err(StoreError::NoPlace(format!(
            "the organisation's ledger is no longer served from this database: {to}"
        )))
    }

    /// Returns the bytes of the peaks.
    pub(crate) fn peaks_kept(&self) -> Vec<u8> {
        self.peaks.iter().flat_map(|hash| hash.0).collect()
    }
}
