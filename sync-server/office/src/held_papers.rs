//! The stored papers: each file as it was uploaded, the papers read from it, and the column mapping for the
//! next file of the same kind.
//!
//! These are tables of the office database. Called by the papers page and by `reconcile::source`.

use farsiding_core::clock::UtcMillis;
use farsiding_core::ids::Digest;
use rusqlite::{Connection, OptionalExtension as _, params};

use crate::database_error::DatabaseError;
use farsiding_reconcile::HeldPaper;
use farsiding_reconcile::papers::import::{Mapping, PaperLine, Sheet};

/// An uploaded file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TakenFile {
    /// The SHA-256 digest of the file.
    pub digest: Digest,
    /// The file's name at upload.
    pub name: String,
    /// The time of the upload.
    pub taken_at: UtcMillis,
    /// Who uploaded the file.
    pub taken_by: String,
    /// The number of papers read from the file.
    pub papers: u64,
}

/// Stores a file with the papers read from it, and remembers the column mapping. A file that was uploaded
/// before is not stored twice; its lines are read again with the mapping given now. Returns the number of
/// papers.
///
/// # Errors
/// Returns a [`DatabaseError`] when the database fails; nothing is then stored.
pub fn keep(
    database: &mut Connection,
    (name, bytes): (&str, &[u8]),
    (sheet, mapping): (&Sheet, &Mapping),
    by: &str,
    now: UtcMillis,
) -> Result<usize, DatabaseError> {
    let digest = Digest::of(bytes);
    let text = serde_json::to_string(mapping).map_err(|error| DatabaseError::Database(error.to_string()))?;
    let signature = sheet.signature();
    let lines = sheet.read(mapping);
    let transaction = database.transaction()?;
    transaction.execute(
        "INSERT INTO paper_file(digest, name, bytes, signature, mapping, taken_at, taken_by)
         VALUES(?1, ?2, ?3, ?4, ?5, ?6, ?7)
         ON CONFLICT(digest) DO UPDATE SET mapping = excluded.mapping",
        params![digest.0, name, bytes, signature, text, now.0, by],
    )?;
    transaction.execute(
        "INSERT OR REPLACE INTO paper_mapping(signature, mapping, used_at) VALUES(?1, ?2, ?3)",
        params![signature, text, now.0],
    )?;
    transaction.execute("DELETE FROM paper WHERE file = ?1", [digest.0])?;
    let good: Vec<&PaperLine> = lines.iter().filter(|line| line.faults.is_empty()).collect();
    for line in &good {
        let paper = &line.paper;
        transaction.execute(
            "INSERT INTO paper(file, line, number, car, shipper, billed, density, day)
             VALUES(?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8)",
            params![
                digest.0,
                line.line.cast_signed(),
                paper.number,
                paper.car,
                paper.shipper,
                paper.billed,
                line.density,
                paper.day
            ],
        )?;
    }
    transaction.commit()?;
    Ok(good.len())
}

/// Returns the mapping that was last used for files with the same column headings.
///
/// # Errors
/// Returns a [`DatabaseError`] when the database fails.
pub fn mapping_of(database: &Connection, sheet: &Sheet) -> Result<Option<Mapping>, DatabaseError> {
    let text: Option<String> = database
        .query_row("SELECT mapping FROM paper_mapping WHERE signature = ?1", [sheet.signature()], |row| {
            row.get(0)
        })
        .optional()?;
    Ok(text.and_then(|text| serde_json::from_str(&text).ok()))
}

/// Returns all papers.
///
/// # Errors
/// Returns a [`DatabaseError`] when the database fails.
pub fn papers(database: &Connection) -> Result<Vec<HeldPaper>, DatabaseError> {
    let mut statement = database
        .prepare("SELECT DISTINCT number, car, shipper, billed, day FROM paper ORDER BY day DESC, number")?;
    let rows = statement.query_map([], |row| {
        Ok(HeldPaper {
            number: row.get(0)?,
            car: row.get(1)?,
            shipper: row.get(2)?,
            billed: row.get(3)?,
            day: row.get(4)?,
        })
    })?;
    Ok(rows.collect::<Result<_, _>>()?)
}

/// Returns the uploaded files, newest first.
///
/// # Errors
/// Returns a [`DatabaseError`] when the database fails.
pub fn files(database: &Connection) -> Result<Vec<TakenFile>, DatabaseError> {
    let mut statement = database.prepare(
        "SELECT digest, name, taken_at, taken_by, (SELECT count(*) FROM paper WHERE file = digest)
         FROM paper_file ORDER BY taken_at DESC LIMIT 50",
    )?;
    let rows = statement.query_map([], |row| {
        Ok(TakenFile {
            digest: Digest(row.get(0)?),
            name: row.get(1)?,
            taken_at: UtcMillis(row.get(2)?),
            taken_by: row.get(3)?,
            papers: row.get::<_, i64>(4)?.cast_unsigned(),
        })
    })?;
    Ok(rows.collect::<Result<_, _>>()?)
}

/// Returns a file as it was uploaded with the mapping by which its papers were read last, so that every column can be
/// read again.
///
/// # Errors
/// Returns a [`DatabaseError`] when the database fails.
pub fn file_of(
    database: &Connection,
    digest: Digest,
) -> Result<Option<(String, Vec<u8>, Mapping)>, DatabaseError> {
    let found: Option<(String, Vec<u8>, String)> = database
        .query_row("SELECT name, bytes, mapping FROM paper_file WHERE digest = ?1", [digest.0], |row| {
            Ok((row.get(0)?, row.get(1)?, row.get(2)?))
        })
        .optional()?;
    Ok(found.and_then(|(name, bytes, mapping)| Some((name, bytes, serde_json::from_str(&mapping).ok()?))))
}

/// Returns the name and the original bytes of an uploaded file.
///
/// # Errors
/// Returns a [`DatabaseError`] when the database fails.
pub fn bytes_of(database: &Connection, digest: Digest) -> Result<Option<(String, Vec<u8>)>, DatabaseError> {
    let found =
        database.query_row("SELECT name, bytes FROM paper_file WHERE digest = ?1", [digest.0], |row| {
            Ok((row.get(0)?, row.get(1)?))
        });
    Ok(found.optional()?)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]
    use super::*;
    use crate::office_database::OfficeDatabase;
    use farsiding_reconcile::papers::import::{Field, take_apart};

    #[test]
    fn a_file_is_kept_as_it_came_and_its_mapping_serves_the_next_of_its_kind() {
        let folder = tempfile::tempdir().unwrap();
        let mut database = OfficeDatabase::open(&folder.path().join("server.db")).unwrap();
        let first = b"A,B\nINV-1,ZZQX 1\nINV-2,nonsense\n";
        let sheet = take_apart(first).unwrap();
        assert_eq!(mapping_of(database.connection(), &sheet).unwrap(), None);
        let mapping =
            Mapping { columns: [(Field::Number, 0), (Field::Car, 1)].into(), unit: "lb".to_owned() };
        let now = UtcMillis(1);
        let kept =
            keep(database.connection_mut(), ("a.csv", first), (&sheet, &mapping), "alder", now).unwrap();
        assert_eq!(kept, 1, "the line that cannot be read is not taken");
        let (_, bytes) = bytes_of(database.connection(), Digest::of(first)).unwrap().unwrap();
        assert_eq!(bytes, first, "and is still in the file");
        let next = take_apart(b"a, B\nINV-9,ZZQX 9\n").unwrap();
        assert_eq!(mapping_of(database.connection(), &next).unwrap(), Some(mapping.clone()));
        keep(database.connection_mut(), ("a.csv", first), (&sheet, &mapping), "alder", now).unwrap();
        assert_eq!(papers(database.connection()).unwrap().len(), 1, "twice is once");
        assert_eq!(files(database.connection()).unwrap().len(), 1);
    }
}
