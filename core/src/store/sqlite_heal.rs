//! Repair of files of schemas 1 and 2, in which a change that arrived under a second document was dropped
//! while its entries were kept.
//!
//! The migration to schema 3 calls this once. The missing changes are copied from the document under which
//! they were stored, and are offered to the server again.

use rusqlite::{Connection, params};

use super::sqlite::subject_at;
use crate::document::CheckedChange;
use crate::ids::Digest;

/// Selects the entries of a document that none of its changes contains. Only entries that stand in two
/// documents can be affected, and a stored change contains its entries' bytes unmodified.
const WITHOUT_A_CHANGE: &str = "
    WITH twice AS (SELECT position FROM standing GROUP BY position HAVING count(*) > 1)
    SELECT standing.subject, standing.position FROM standing JOIN twice USING(position) JOIN entry USING(position)
    WHERE NOT EXISTS (SELECT 1 FROM change
                      WHERE change.subject = standing.subject AND instr(change.bytes, entry.bytes) > 0)
    ORDER BY standing.position, standing.subject";

/// Selects the changes of other documents that contain an entry.
const ELSEWHERE: &str = "
    SELECT change.hash, change.bytes FROM standing JOIN entry USING(position) JOIN change USING(subject)
    WHERE standing.position = ?1 AND instr(change.bytes, entry.bytes) > 0 ORDER BY change.position";

/// Stores the missing changes under the documents that hold their entries.
pub(super) fn heal(transaction: &Connection) -> Result<(), rusqlite::Error> {
    let missing: Vec<_> = transaction
        .prepare(WITHOUT_A_CHANGE)?
        .query_map([], |row| Ok((subject_at(row, 0)?, row.get::<_, i64>(1)?)))?
        .collect::<Result<_, _>>()?;
    for (subject, position) in missing {
        let elsewhere: Vec<(Vec<u8>, Vec<u8>)> = transaction
            .prepare_cached(ELSEWHERE)?
            .query_map([position], |row| Ok((row.get(0)?, row.get(1)?)))?
            .collect::<Result<_, _>>()?;
        for (hash, bytes) in elsewhere {
            let Ok(checked) = CheckedChange::check(&bytes, subject) else { continue };
            transaction
                .prepare_cached(
                    "INSERT OR IGNORE INTO change(subject, hash, bytes, digest, held) VALUES(?1, ?2, ?3, ?4, 0)",
                )?
                .execute(params![subject.to_bytes(), hash, bytes, Digest::of(&bytes).0])?;
            for entry in checked.entries() {
                transaction
                    .prepare_cached(
                        "INSERT OR IGNORE INTO standing(subject, position)
                         SELECT ?1, position FROM entry WHERE id = ?2",
                    )?
                    .execute(params![subject.to_bytes(), entry.id.0])?;
            }
            break;
        }
    }
    Ok(())
}
