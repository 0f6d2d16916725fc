//! Carrying a whole ledger into a database or out of it: rows as they stand, whether there are any, and the marks on
//! the head that keep a place from being served while or after its ledger is carried elsewhere.
//!
//! Everything that is carried in stands in one transaction, in which the head is locked: it is there at its end, or
//! nothing of it is.

use farsiding_core::ids::Digest;
use farsiding_core::store::ledger_rows::{
    Cell, Kind, LedgerRows, Numbers, PAGE, PAGE_BYTES, Row, TABLES, Table,
};
use farsiding_core::store::{LogRows as _, Store as _, StoreError};
use farsiding_core::tree::LogLeaf;
use tokio_postgres::types::ToSql;

use crate::open::PostgresStore;
use crate::write::signatures_of;

/// What stands at the place of an organisation's ledger.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Standing {
    /// Nothing.
    Empty,
    /// A ledger that was carried here and that nothing was written to since: no folder names it yet, as far as the
    /// database knows.
    Arrived,
    /// A ledger that was carried elsewhere.
    Gone,
    /// A ledger.
    Kept,
}

/// Returns the place of a table's rows as SQL, and the condition on the organisation.
fn source(table: &Table) -> String {
    match table.name {
        "leaf" => "(SELECT l.organisation, number, id, received_at, about FROM farsiding.log l
                    JOIN farsiding.entry e ON e.organisation = l.organisation AND e.position = l.entry) leaf"
            .to_owned(),
        name => format!("farsiding.{name}"),
    }
}

/// A column's cells as the driver takes them.
enum Column {
    Numbers(Vec<Option<i64>>),
    Flags(Vec<Option<bool>>),
    Bytes(Vec<Option<Vec<u8>>>),
}

impl Column {
    fn of(kind: Kind, cells: impl Iterator<Item = Cell>) -> Column {
        let number = |cell: Cell| match cell {
            Cell::Number(number) => Some(number),
            Cell::Null | Cell::Bytes(_) => None,
        };
        let bytes = |cell: Cell| match cell {
            Cell::Bytes(bytes) => Some(bytes),
            Cell::Null | Cell::Number(_) => None,
        };
        match kind {
            Kind::Number => Column::Numbers(cells.map(number).collect()),
            Kind::Flag => Column::Flags(cells.map(|cell| number(cell).map(|flag| flag != 0)).collect()),
            Kind::Bytes | Kind::Text => Column::Bytes(cells.map(bytes).collect()),
        }
    }

    fn as_sql(&self) -> &(dyn ToSql + Sync) {
        match self {
            Column::Numbers(all) => all,
            Column::Flags(all) => all,
            Column::Bytes(all) => all,
        }
    }

    fn array(&self) -> &'static str {
        match self {
            Column::Numbers(_) => "bigint[]",
            Column::Flags(_) => "boolean[]",
            Column::Bytes(_) => "bytea[]",
        }
    }
}

/// Every method returns a [`StoreError`] when the database fails.
#[allow(clippy::missing_errors_doc, reason = "said above")]
impl PostgresStore {
    /// Returns what stands here.
    pub fn standing(&self) -> Result<Standing, StoreError> {
        let head = self.head()?;
        for table in TABLES {
            let sql =
                format!("SELECT EXISTS (SELECT 1 FROM farsiding.{} WHERE organisation = $1)", table.name);
            let found = self.rows(&sql, &[&self.organisation])?;
            if found.first().is_some_and(|row| row.get(0)) {
                return Ok(match (head.gone.is_empty(), head.arrived) {
                    (false, _) => Standing::Gone,
                    (true, arrived) if arrived != 0 && arrived == head.moment => Standing::Arrived,
                    (true, _) => Standing::Kept,
                });
            }
        }
        Ok(Standing::Empty)
    }

    /// Makes the database wait for long work inside the group of commits that is open: what is read and written
    /// elsewhere meanwhile takes its time.
    pub fn take_time(&self) -> Result<(), StoreError> {
        self.run("SET LOCAL idle_in_transaction_session_timeout = '15min'", &[])?;
        Ok(())
    }

    /// Removes every row of the organisation, and its numbers. Stands in the group of commits that is open.
    pub fn clear(&self) -> Result<(), StoreError> {
        for table in TABLES {
            let sql = format!("DELETE FROM farsiding.{} WHERE organisation = $1", table.name);
            self.run(&sql, &[&self.organisation])?;
        }
        self.change_head(|head| {
            *head = crate::head::Head {
                moment: head.moment,
                writer: std::mem::take(&mut head.writer),
                fence: head.fence,
                leaf_at: i64::MIN,
                ..crate::head::Head::default()
            }
        })
    }

    /// Marks the ledger as carried here by the group of commits that is open.
    pub fn mark_arrived(&self) -> Result<(), StoreError> {
        self.change_head(|head| head.arrived = head.moment + 1)
    }

    /// Takes the mark away: a folder names this ledger now.
    pub fn mark_named(&self) -> Result<(), StoreError> {
        self.rows("UPDATE farsiding.head SET arrived = 0 WHERE organisation = $1", &[&self.organisation])?;
        Ok(())
    }

    /// Marks the ledger as carried elsewhere, in the group of commits that is open. From then on nobody opens it.
    pub fn mark_gone(&self, why: &str) -> Result<(), StoreError> {
        self.change_head(|head| head.gone = why.as_bytes().to_vec())
    }

    fn change_head(&self, change: impl FnOnce(&mut crate::head::Head)) -> Result<(), StoreError> {
        let lost = || StoreError::Database("no transaction is open".to_owned());
        self.open.borrow_mut().as_mut().map(change).ok_or_else(lost)
    }

    /// Computes the right edge of the log from its rows, the largest subtree first.
    fn edge(&self, leaves: u64) -> Result<Vec<Digest>, StoreError> {
        let (mut edge, mut before) = (Vec::new(), 0u64);
        for level in (0..u64::BITS).rev().filter(|level| leaves >> level & 1 == 1) {
            let place = before >> level;
            let hash = match level {
                0 => self.log().leaf(place)?.map(LogLeaf::hash),
                _ => self.subtree_hash(level, place)?,
            };
            let missing = || StoreError::Database(format!("hash {level}/{place} of the log is missing"));
            edge.push(hash.ok_or_else(missing)?);
            before += 1 << level;
        }
        Ok(edge)
    }
}

impl LedgerRows for PostgresStore {
    fn page(&self, table: &Table, after: &[Cell]) -> Result<Vec<Row>, StoreError> {
        let names: Vec<&str> = table.columns.iter().map(|(name, _)| *name).collect();
        let key = names.get(..table.key).unwrap_or(&names).join(", ");
        let columns: Vec<Column> = after
            .iter()
            .zip(table.columns)
            .map(|(cell, (_, kind))| Column::of(*kind, std::iter::once(cell.clone())))
            .collect();
        let follows = match columns.len() {
            0 => String::new(),
            _ => {
                let places =
                    columns.iter().zip(2..).map(|(column, n)| format!("(${n}::{})[1]", column.array()));
                format!("AND ({key}) > ({})", places.collect::<Vec<_>>().join(", "))
            }
        };
        let weights: Vec<String> = table
            .columns
            .iter()
            .filter(|(_, kind)| matches!(kind, Kind::Bytes | Kind::Text))
            .map(|(name, _)| format!("coalesce(octet_length({name}), 0)"))
            .collect();
        let weight = if weights.is_empty() { "0".to_owned() } else { weights.join(" + ") };
        let shown: Vec<String> = table
            .columns
            .iter()
            .map(
                |(name, kind)| {
                    if *kind == Kind::Number { format!("{name}::bigint") } else { (*name).to_owned() }
                },
            )
            .collect();
        // The sum of the rows before each one keeps a page of large rows small.
        let sql = format!(
            "SELECT {} FROM (SELECT *, sum({weight}) OVER (ORDER BY {key} ROWS UNBOUNDED PRECEDING) - ({weight}) AS before
               FROM (SELECT * FROM {} WHERE organisation = $1 {follows} ORDER BY {key} LIMIT {PAGE}) part) page
             WHERE before <= {PAGE_BYTES} ORDER BY {key}",
            shown.join(", "),
            source(table)
        );
        let mut given: Vec<&(dyn ToSql + Sync)> = vec![&self.organisation];
        given.extend(columns.iter().map(Column::as_sql));
        let rows = self.rows(&sql, &given)?;
        let cell = |row: &tokio_postgres::Row, (at, (_, kind)): (usize, &(&str, Kind))| match kind {
            Kind::Number => row.get::<_, Option<i64>>(at).map_or(Cell::Null, Cell::Number),
            Kind::Flag => row.get::<_, Option<bool>>(at).map_or(Cell::Null, |flag| Cell::Number(flag.into())),
            Kind::Bytes | Kind::Text => row.get::<_, Option<Vec<u8>>>(at).map_or(Cell::Null, Cell::Bytes),
        };
        Ok(rows
            .iter()
            .map(|row| table.columns.iter().enumerate().map(|column| cell(row, column)).collect())
            .collect())
    }

    fn count(&self, table: &Table) -> Result<u64, StoreError> {
        let sql = format!("SELECT count(*) FROM {} WHERE organisation = $1", source(table));
        let rows = self.rows(&sql, &[&self.organisation])?;
        Ok(rows.first().map_or(0, |row| row.get::<_, i64>(0).cast_unsigned()))
    }

    fn put(&mut self, table: &Table, rows: &[Row]) -> Result<(), StoreError> {
        let mut names: Vec<&str> = table.columns.iter().map(|(name, _)| *name).collect();
        let mut columns: Vec<Column> = table
            .columns
            .iter()
            .enumerate()
            .map(|(at, (_, kind))| {
                Column::of(*kind, rows.iter().map(|row| row.get(at).cloned().unwrap_or(Cell::Null)))
            })
            .collect();
        // What stands here beside the row and follows from it.
        let of = |name: &str| table.columns.iter().position(|(column, _)| *column == name).unwrap_or(0);
        let bytes = |row: &Row, name: &str| row.get(of(name)).map_or(&[][..], Cell::bytes).to_vec();
        match table.name {
            "receipt" | "proof" => {
                names.push("digest");
                let digest = |row: &Row| Cell::Bytes(Digest::of(&bytes(row, "bytes")).0.to_vec());
                columns.push(Column::of(Kind::Bytes, rows.iter().map(digest)));
            }
            "checkpoint" => {
                names.push("signatures");
                let count = |row: &Row| {
                    Cell::Number(signatures_of(&String::from_utf8_lossy(&bytes(row, "note"))).into())
                };
                columns.push(Column::of(Kind::Number, rows.iter().map(count)));
            }
            _ => {}
        }
        let arrays: Vec<String> =
            columns.iter().zip(2..).map(|(column, n)| format!("${n}::{}", column.array())).collect();
        let sql = format!(
            "INSERT INTO farsiding.{}(organisation, {}) SELECT $1, * FROM unnest({})",
            table.name,
            names.join(", "),
            arrays.join(", ")
        );
        let mut given: Vec<&(dyn ToSql + Sync)> = vec![&self.organisation];
        given.extend(columns.iter().map(Column::as_sql));
        let written = self.run(&sql, &given)?;
        if usize::try_from(written) != Ok(rows.len()) {
            return Err(StoreError::Database(format!("{written} of {} rows were written", rows.len())));
        }
        Ok(())
    }

    fn numbers(&self) -> Result<Numbers, StoreError> {
        let head = self.head()?;
        Ok(Numbers {
            entries: head.entries,
            changes: head.changes,
            receipts: head.receipts,
            proofs: head.proofs,
            checkpoints: head.checkpoints,
            feed: head.feed,
            fed: head.fed,
            tally: head.tally,
        })
    }

    fn set_numbers(&mut self, numbers: &Numbers) -> Result<(), StoreError> {
        let sql =
            "SELECT count(*), coalesce(max(received_at), $2) FROM farsiding.log WHERE organisation = $1";
        let rows = self.rows(sql, &[&self.organisation, &i64::MIN])?;
        let (leaves, leaf_at): (i64, i64) =
            rows.first().map_or((0, i64::MIN), |row| (row.get(0), row.get(1)));
        let peaks = self.edge(leaves.cast_unsigned())?;
        let Numbers { entries, changes, receipts, proofs, checkpoints, feed, fed, tally } = numbers.clone();
        self.change_head(|head| {
            *head = crate::head::Head {
                entries,
                changes,
                receipts,
                proofs,
                checkpoints,
                feed,
                fed,
                tally,
                leaves,
                leaf_at,
                peaks,
                ..head.clone()
            }
        })
    }
}
