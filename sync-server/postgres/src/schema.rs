//! The tables, and the version of them that the database holds.

use farsiding_core::store::StoreError;

use crate::line::{Fault, Line};

/// The migrations, applied in order. The version in the database is the number of migrations applied so far.
const MIGRATIONS: &[&str] = &[include_str!("../migrations/0001.sql"), include_str!("../migrations/0002.sql")];

/// The newest version that this program knows.
pub(crate) fn known() -> i64 {
    i64::try_from(MIGRATIONS.len()).unwrap_or(i64::MAX)
}

/// Brings the tables up to the newest version. Many servers may do this at once: the row that holds the version is
/// locked meanwhile. A database that is up to date is only read, so that its role needs no right to create.
pub(crate) fn migrate(line: &mut Line) -> Result<(), Fault> {
    let made = line.rows("SELECT to_regclass('farsiding.schema_version') IS NOT NULL", &[])?;
    let made: bool = made.first().is_some_and(|row| row.get(0));
    if made && version(line, "SELECT version FROM farsiding.schema_version")? == known() {
        return Ok(());
    }
    let create = "
        CREATE SCHEMA IF NOT EXISTS farsiding;
        CREATE TABLE IF NOT EXISTS farsiding.schema_version(
          one     boolean PRIMARY KEY CHECK (one),
          version bigint  NOT NULL);
        INSERT INTO farsiding.schema_version VALUES (true, 0) ON CONFLICT DO NOTHING;";
    // Two that create at once: one finds the other's table there after all, and looks again.
    let mut outcome = line.batch(create);
    for _ in 0..5 {
        if outcome.is_ok() || !line.is_up() {
            break;
        }
        std::thread::sleep(std::time::Duration::from_millis(50));
        outcome = line.batch(create);
    }
    outcome?;
    line.batch("BEGIN")?;
    let done = apply(line);
    line.batch(if done.is_ok() { "COMMIT" } else { "ROLLBACK" })?;
    done
}

fn version(line: &mut Line, sql: &str) -> Result<i64, Fault> {
    let rows = line.rows(sql, &[])?;
    let found: i64 = rows.first().map_or(0, |row| row.get(0));
    if found > known() {
        return Err(Fault::Store(StoreError::TooNew { found, known: known() }));
    }
    Ok(found)
}

fn apply(line: &mut Line) -> Result<(), Fault> {
    let found = version(line, "SELECT version FROM farsiding.schema_version FOR UPDATE")?;
    for (migration, number) in MIGRATIONS.iter().zip(1i64..).filter(|(_, number)| *number > found) {
        line.batch(migration)?;
        line.run("UPDATE farsiding.schema_version SET version = $1", &[&number])?;
    }
    Ok(())
}
