//! The rows of the SQLite store as they stand, for carrying a whole ledger. The receipt and the proof of an entry are
//! columns here and rows of their own elsewhere.

use rusqlite::types::{ToSqlOutput, Value, ValueRef};
use rusqlite::{Connection, OptionalExtension as _, ToSql, params_from_iter};

use super::StoreError;
use super::ledger_rows::{Cell, Kind, LedgerRows, Numbers, PAGE, PAGE_BYTES, Row, Table};
use super::sqlite::{SqliteStore, TALLY, get_tally, get_value, put_value};
use super::sqlite_scope::FED;

/// The tables whose numbers SQLite draws, in the order of [`Numbers`].
const NUMBERED: [&str; 6] = ["entry", "change", "receipt", "proof", "checkpoint", "feed"];

/// Returns the place of a table's rows as SQL: what stands behind FROM.
fn source(table: &Table) -> String {
    match table.name {
        "covered" => "(SELECT position, receipt FROM entry WHERE receipt IS NOT NULL)".to_owned(),
        "proven" => "(SELECT position, proof FROM entry WHERE proof IS NOT NULL)".to_owned(),
        "leaf" => "(SELECT number, id, received_at, about FROM log JOIN entry ON entry.position = log.entry)"
            .to_owned(),
        "stamp" => "timestamp".to_owned(),
        // What is kept beside the rows of other stores.
        "value" => format!("(SELECT key, value FROM value WHERE key NOT IN ('{TALLY}', '{FED}'))"),
        name => name.to_owned(),
    }
}

fn names(table: &Table) -> Vec<&'static str> {
    table.columns.iter().map(|(name, _)| *name).collect()
}

/// Reads a cell. What a damaged row holds in place of bytes is carried as no bytes, which the digest then shows.
fn cell(found: ValueRef<'_>, kind: Kind) -> Cell {
    match (found, kind) {
        (ValueRef::Integer(number), _) => Cell::Number(number),
        (ValueRef::Blob(bytes) | ValueRef::Text(bytes), _) => Cell::Bytes(bytes.to_vec()),
        (ValueRef::Null, _) => Cell::Null,
        (ValueRef::Real(_), Kind::Number | Kind::Flag) => Cell::Number(0),
        (ValueRef::Real(_), Kind::Bytes | Kind::Text) => Cell::Bytes(Vec::new()),
    }
}

impl SqliteStore {
    /// Prepares a new file for rows that are carried into it: nothing is waited for until [`SqliteStore::keep_rows`].
    ///
    /// # Errors
    /// [`StoreError`] here and in every method below, when the database fails.
    pub fn take_in_rows(&self) -> Result<(), StoreError> {
        self.connection.pragma_update(None, "synchronous", "OFF")?;
        // Rows that were damaged where they come from may name others that are gone.
        self.connection.pragma_update(None, "foreign_keys", false)?;
        self.connection.execute_batch("DELETE FROM value")?;
        Ok(())
    }

    /// Puts the rows that were carried here onto the disk, into the one file.
    pub fn keep_rows(&self) -> Result<(), StoreError> {
        self.connection.pragma_update(None, "synchronous", "FULL")?;
        self.connection.pragma_update(None, "foreign_keys", true)?;
        let busy: i64 = self.connection.query_row("PRAGMA wal_checkpoint(TRUNCATE)", [], |row| row.get(0))?;
        if busy != 0 {
            return Err(StoreError::Busy);
        }
        Ok(())
    }

    /// Returns the first row that names another which is not here: its table and its number.
    pub fn dangling(&self) -> Result<Option<String>, StoreError> {
        let mut statement = self.connection.prepare("PRAGMA foreign_key_check")?;
        let found = statement.query_row([], |row| {
            let number: Option<i64> = row.get(1)?;
            Ok(format!("{} (row {})", row.get::<_, String>(0)?, number.unwrap_or(0)))
        });
        Ok(found.optional()?)
    }

    /// Makes every later write fail with a sentence, because the ledger was carried elsewhere. Stands in the group of
    /// commits that is open.
    pub fn leave(&self, why: &str) -> Result<(), StoreError> {
        let why = why.replace('\'', "''");
        for table in ["entry", "change", "value", "log", "certificate", "photo"] {
            for act in ["INSERT", "UPDATE", "DELETE"] {
                self.connection.execute_batch(&format!(
                    "CREATE TRIGGER IF NOT EXISTS left_{table}_{act} BEFORE {act} ON {table}
                     BEGIN SELECT RAISE(ABORT, '{why}'); END;"
                ))?;
            }
        }
        Ok(())
    }

    /// Returns whether the ledger was carried elsewhere.
    pub fn is_left(&self) -> Result<bool, StoreError> {
        let sql = "SELECT EXISTS (SELECT 1 FROM sqlite_schema WHERE type = 'trigger' AND name = 'left_entry_INSERT')";
        Ok(self.connection.query_row(sql, [], |row| row.get(0))?)
    }
}

impl LedgerRows for SqliteStore {
    fn page(&self, table: &Table, after: &[Cell]) -> Result<Vec<Row>, StoreError> {
        let (names, from) = (names(table), source(table));
        let key = names.get(..table.key).unwrap_or(&names).join(", ");
        let follows = match after.len() {
            0 => String::new(),
            length => format!("WHERE ({key}) > ({})", vec!["?"; length].join(", ")),
        };
        let sql = format!("SELECT {} FROM {from} {follows} ORDER BY {key} LIMIT {PAGE}", names.join(", "));
        let mut statement = self.connection.prepare_cached(&sql)?;
        let texts: Vec<Bound<'_>> =
            after.iter().zip(table.columns).map(|(cell, (_, kind))| Bound(cell, *kind)).collect();
        let mut rows = statement.query(params_from_iter(texts))?;
        let (mut page, mut bytes): (Vec<Row>, usize) = (Vec::new(), 0);
        while let Some(row) = rows.next()? {
            let read = |(at, (_, kind)): (usize, &(&str, Kind))| Ok(cell(row.get_ref(at)?, *kind));
            let row: Row = table.columns.iter().enumerate().map(read).collect::<rusqlite::Result<_>>()?;
            bytes += row.iter().map(Cell::weight).sum::<usize>();
            page.push(row);
            if bytes > PAGE_BYTES {
                break;
            }
        }
        Ok(page)
    }

    fn count(&self, table: &Table) -> Result<u64, StoreError> {
        let sql = format!("SELECT count(*) FROM {}", source(table));
        Ok(self.connection.query_row(&sql, [], |row| row.get::<_, i64>(0))?.cast_unsigned())
    }

    fn put(&mut self, table: &Table, rows: &[Row]) -> Result<(), StoreError> {
        let transaction = self.connection.transaction()?;
        {
            let names = names(table);
            let sql = match table.name {
                "covered" => "UPDATE entry SET receipt = ?2 WHERE position = ?1".to_owned(),
                "proven" => "UPDATE entry SET proof = ?2 WHERE position = ?1".to_owned(),
                name => format!(
                    "INSERT INTO {}({}) VALUES({})",
                    if name == "stamp" { "timestamp" } else { name },
                    names.join(", "),
                    vec!["?"; names.len()].join(", ")
                ),
            };
            let mut statement = transaction.prepare_cached(&sql)?;
            for row in rows {
                let cells = row.iter().zip(table.columns).map(|(cell, (_, kind))| Bound(cell, *kind));
                statement.execute(params_from_iter(cells))?;
            }
        }
        transaction.commit()?;
        Ok(())
    }

    fn numbers(&self) -> Result<Numbers, StoreError> {
        let newest = |table: &str| newest(&self.connection, table);
        let fed = get_value(&self.connection, FED)?.and_then(|fed| fed.try_into().ok());
        Ok(Numbers {
            entries: newest("entry")?,
            changes: newest("change")?,
            receipts: newest("receipt")?,
            proofs: newest("proof")?,
            checkpoints: newest("checkpoint")?,
            feed: newest("feed")?,
            fed: fed.map_or(0, i64::from_be_bytes),
            tally: get_tally(&self.connection)?,
        })
    }

    fn set_numbers(&mut self, numbers: &Numbers) -> Result<(), StoreError> {
        let Numbers { entries, changes, receipts, proofs, checkpoints, feed, fed, tally } = numbers;
        let transaction = self.connection.transaction()?;
        for (table, newest) in
            NUMBERED.into_iter().zip([entries, changes, receipts, proofs, checkpoints, feed])
        {
            transaction.execute("DELETE FROM sqlite_sequence WHERE name = ?1", [table])?;
            transaction.execute(
                "INSERT INTO sqlite_sequence(name, seq) VALUES(?1, ?2)",
                rusqlite::params![table, newest],
            )?;
        }
        put_value(&transaction, TALLY, &tally.to_bytes())?;
        if *fed > 0 {
            put_value(&transaction, FED, &fed.to_be_bytes())?;
        }
        transaction.commit()?;
        Ok(())
    }
}

/// Returns the newest number that a table gave, also where its row is gone.
fn newest(connection: &Connection, table: &str) -> rusqlite::Result<i64> {
    let sql = "SELECT seq FROM sqlite_sequence WHERE name = ?1";
    let found: Option<i64> = connection.query_row(sql, [table], |row| row.get(0)).optional()?;
    Ok(found.unwrap_or(0))
}

/// A cell as the column takes it: SQLite keeps texts and bytes apart.
struct Bound<'c>(&'c Cell, Kind);

impl ToSql for Bound<'_> {
    fn to_sql(&self) -> rusqlite::Result<ToSqlOutput<'_>> {
        Ok(match self {
            Bound(Cell::Null, _) => ToSqlOutput::Owned(Value::Null),
            Bound(Cell::Number(number), _) => ToSqlOutput::Owned(Value::Integer(*number)),
            Bound(Cell::Bytes(bytes), Kind::Text) => ToSqlOutput::Borrowed(ValueRef::Text(bytes)),
            Bound(Cell::Bytes(bytes), _) => ToSqlOutput::Borrowed(ValueRef::Blob(bytes)),
        })
    }
}
