//! Reading columns: digests, subjects, texts and changes.

use farsiding_core::ids::{Digest, Subject};
use farsiding_core::store::parts::ids_read;
use farsiding_core::store::{StoreError, StoredChange};
use tokio_postgres::Row;

/// The columns of a change, read by [`change_at`].
pub(crate) const CHANGE: &str = "c.position, c.subject, c.hash, c.bytes, c.digest, c.ids";

/// Returns a bound on the number of rows as SQL takes it.
pub(crate) fn at_most(most: usize) -> i64 {
    i64::try_from(most).unwrap_or(i64::MAX)
}

/// Reads 32 bytes. Other lengths can only be damage.
pub(crate) fn bytes32(row: &Row, column: usize) -> Result<[u8; 32], StoreError> {
    let bytes: &[u8] = row.get(column);
    bytes.try_into().map_err(|_| StoreError::Database("a digest of another length".to_owned()))
}

/// Reads a subject.
pub(crate) fn subject_at(row: &Row, column: usize) -> Result<Subject, StoreError> {
    let damaged = || StoreError::Database("a subject of unknown kind".to_owned());
    Subject::from_bytes(row.get(column)).ok_or_else(damaged)
}

/// Reads a text, which is kept as bytes.
pub(crate) fn text_at(row: &Row, column: usize) -> String {
    String::from_utf8_lossy(row.get(column)).into_owned()
}

/// Reads a change, and whether its digest matches its bytes.
pub(crate) fn change_at(row: &Row) -> Result<(StoredChange, bool), StoreError> {
    let (bytes, digest, ids): (Vec<u8>, &[u8], Option<&[u8]>) = (row.get(3), row.get(4), row.get(5));
    let sound = Digest::of(&bytes).0.as_slice() == digest;
    let hash = Digest(bytes32(row, 2)?);
    let entries = ids.and_then(|ids| ids_read(hash, ids));
    let position = row.get::<_, i64>(0).cast_unsigned();
    Ok((StoredChange { position, subject: subject_at(row, 1)?, hash, bytes, entries }, sound))
}
