//! Taking documents off a device: everything that the SQLite store keeps of them, except what also stands in
//! a document that stays.

use std::collections::BTreeSet;

use rusqlite::{Connection, params};

use super::SetDigest;
use super::scope::{Area, counted_as};
use super::sqlite_scope::{AreaTallies, areas_of, belong, listed};
use crate::ids::{CarId, EntryId, Subject};

type Outcome<T> = Result<T, rusqlite::Error>;

/// Removes the documents. An entry, its receipt and its proof go with the last document that holds it.
pub(super) fn take_off(
    transaction: &Connection,
    subjects: &[Subject],
    tally: &mut SetDigest,
    areas: &mut AreaTallies,
) -> Outcome<()> {
    for subject in subjects {
        take_one_off(transaction, *subject, tally, areas)?;
    }
    let unused = |table: &str, column: &str| {
        format!(
            "DELETE FROM {table} WHERE number NOT IN (SELECT {column} FROM entry WHERE {column} IS NOT NULL)"
        )
    };
    transaction.execute(&unused("receipt", "receipt"), [])?;
    transaction.execute(&unused("proof", "proof"), [])?;
    Ok(())
}

fn take_one_off(
    transaction: &Connection,
    subject: Subject,
    tally: &mut SetDigest,
    areas: &mut AreaTallies,
) -> Outcome<()> {
    let key = subject.to_bytes();
    let sql = "SELECT position, id FROM standing JOIN entry USING(position) WHERE subject = ?1";
    let rows: Vec<(i64, EntryId)> =
        listed(transaction, sql, [key], |row| Ok((row.get(0)?, EntryId(row.get(1)?))))?;
    for area in areas_of(transaction, subject)?.into_iter().chain([Area::Everything]) {
        let counted = areas.of(transaction, area)?;
        rows.iter().for_each(|(_, id)| counted.remove(counted_as(subject, *id)));
    }
    let sql = "SELECT sha256 FROM photo_in WHERE subject = ?1";
    let photos: Vec<Vec<u8>> = listed(transaction, sql, [key], |row| row.get(0))?;
    for sql in [
        "DELETE FROM feed WHERE change IN (SELECT position FROM change WHERE subject = ?1)",
        "DELETE FROM change WHERE subject = ?1",
        "DELETE FROM standing WHERE subject = ?1",
        "DELETE FROM photo_in WHERE subject = ?1",
    ] {
        transaction.prepare_cached(sql)?.execute([key])?;
    }
    for (position, id) in rows {
        let sql = "DELETE FROM entry WHERE position = ?1
                   AND NOT EXISTS (SELECT 1 FROM standing WHERE standing.position = entry.position)";
        if transaction.prepare_cached(sql)?.execute([position])? == 1 {
            tally.remove(id);
        }
    }
    for sha256 in photos {
        let sql = "DELETE FROM photo WHERE sha256 = ?1
                   AND NOT EXISTS (SELECT 1 FROM photo_in WHERE photo_in.sha256 = photo.sha256)";
        transaction.prepare_cached(sql)?.execute([sha256])?;
    }
    if !matches!(subject, Subject::Car(_)) {
        // A car belongs where its visits are, with or without a document of its own.
        transaction.prepare_cached("DELETE FROM belonging WHERE subject = ?1")?.execute([key])?;
    }
    if let Subject::Visit(visit) = subject {
        let sql = "SELECT DISTINCT car FROM opened_at WHERE visit = ?1";
        let cars: BTreeSet<CarId> =
            listed(transaction, sql, [visit.0], |row| Ok(CarId(row.get(0)?)))?.into_iter().collect();
        transaction.prepare_cached("DELETE FROM opened_at WHERE visit = ?1")?.execute(params![visit.0])?;
        for car in cars {
            belong(transaction, Subject::Car(car), areas)?;
        }
    }
    Ok(())
}
