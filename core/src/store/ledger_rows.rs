//! The rows of a ledger as they stand, for carrying a whole ledger from one kind of store into another: the tables,
//! reading them page by page, writing pages, and comparing two places at the end.
//!
//! A row keeps its numbers, so that the cursors of devices and the places in the log stay as they are.

use crate::clock::UtcMillis;
use crate::ids::{Digest, EntryId, Subject};
use crate::tree::LogLeaf;
use crate::tree::merkle::{self, node_hash};

use super::{SetDigest, StoreError};

/// What a column holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// A whole number.
    Number,
    /// Yes or no, carried as 1 or 0.
    Flag,
    /// Bytes.
    Bytes,
    /// Text, carried as its UTF-8 bytes.
    Text,
}

/// The content of a column in a row.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Cell {
    /// Nothing.
    Null,
    /// A number, or a flag as 1 or 0.
    Number(i64),
    /// Bytes, or a text as UTF-8.
    Bytes(Vec<u8>),
}

impl Cell {
    /// Returns the number. Anything else is 0.
    pub fn number(&self) -> i64 {
        match self {
            Cell::Number(number) => *number,
            Cell::Null | Cell::Bytes(_) => 0,
        }
    }

    /// Returns the bytes. Anything else is empty.
    pub fn bytes(&self) -> &[u8] {
        match self {
            Cell::Bytes(bytes) => bytes,
            Cell::Null | Cell::Number(_) => &[],
        }
    }

    /// Returns about how much memory it takes, in bytes.
    pub fn weight(&self) -> usize {
        8 + self.bytes().len()
    }
}

/// A row: one cell for each column of its table.
pub type Row = Vec<Cell>;

/// A table of a ledger.
#[derive(Debug, PartialEq, Eq)]
pub struct Table {
    /// Its name.
    pub name: &'static str,
    /// Its columns. The first ones are the key by which rows are told apart and ordered.
    pub columns: &'static [(&'static str, Kind)],
    /// The number of columns in the key.
    pub key: usize,
}

impl Table {
    /// Returns the key of a row.
    pub fn key_of<'r>(&self, row: &'r [Cell]) -> &'r [Cell] {
        row.get(..self.key).unwrap_or(row)
    }
}

use Kind::{Bytes, Flag, Number, Text};

/// The entries, which are compared with their ids on the way.
pub const ENTRY: &str = "entry";
/// The changes, which are compared with their digests on the way.
pub const CHANGE: &str = "change";

/// Every table, in an order in which no row comes before one that it names. The newest numbers, the set digest and
/// the point up to which changes are in the feed are not rows, see [`Numbers`].
pub const TABLES: &[Table] = &[
    Table { name: "receipt", columns: &[("number", Number), ("bytes", Bytes)], key: 1 },
    Table { name: "proof", columns: &[("number", Number), ("bytes", Bytes)], key: 1 },
    Table { name: ENTRY, columns: &[("position", Number), ("id", Bytes), ("bytes", Bytes)], key: 1 },
    Table { name: "covered", columns: &[("position", Number), ("receipt", Number)], key: 1 },
    Table { name: "proven", columns: &[("position", Number), ("proof", Number)], key: 1 },
    Table { name: "standing", columns: &[("subject", Bytes), ("position", Number)], key: 2 },
    Table {
        name: CHANGE,
        columns: &[
            ("position", Number),
            ("subject", Bytes),
            ("hash", Bytes),
            ("bytes", Bytes),
            ("digest", Bytes),
            ("held", Flag),
            ("ids", Bytes),
        ],
        key: 1,
    },
    Table { name: "value", columns: &[("key", Text), ("value", Bytes)], key: 1 },
    Table { name: "certificate", columns: &[("device", Bytes), ("bytes", Bytes)], key: 1 },
    Table {
        name: "quarantine",
        columns: &[("digest", Bytes), ("subject", Bytes), ("bytes", Bytes), ("why", Text), ("at", Number)],
        key: 1,
    },
    Table {
        name: "photo",
        columns: &[("sha256", Bytes), ("length", Number), ("media", Text), ("here", Flag), ("held", Flag)],
        key: 1,
    },
    Table { name: "draft", columns: &[("key", Text), ("text", Text)], key: 1 },
    Table {
        name: "log",
        columns: &[("number", Number), ("entry", Number), ("received_at", Number), ("about", Bytes)],
        key: 1,
    },
    Table { name: "log_tree", columns: &[("level", Number), ("place", Number), ("hash", Bytes)], key: 2 },
    Table {
        name: "checkpoint",
        columns: &[
            ("number", Number),
            ("origin", Text),
            ("size", Number),
            ("note", Text),
            ("at", Number),
            ("since", Bytes),
        ],
        key: 1,
    },
    Table {
        name: "stamp",
        columns: &[("checkpoint", Number), ("at", Number), ("note", Text), ("token", Bytes)],
        key: 2,
    },
    Table {
        name: "opened_at",
        columns: &[("visit", Bytes), ("car", Bytes), ("site", Bytes), ("bound", Flag)],
        key: 4,
    },
    Table { name: "belonging", columns: &[("subject", Bytes), ("area", Bytes), ("fed", Flag)], key: 2 },
    Table { name: "area_tally", columns: &[("area", Bytes), ("tally", Bytes)], key: 1 },
    Table { name: "feed", columns: &[("position", Number), ("area", Bytes), ("change", Number)], key: 1 },
    Table { name: "photo_in", columns: &[("sha256", Bytes), ("subject", Bytes)], key: 2 },
];

/// The leaves of the log with the ids of their entries: for reading alone.
pub const LEAVES: Table = Table {
    name: "leaf",
    columns: &[("number", Number), ("id", Bytes), ("received_at", Number), ("about", Bytes)],
    key: 1,
};

/// What a ledger keeps beside its rows.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Numbers {
    /// The newest position of an entry that was ever given, and so on. A number is never given twice, also where its
    /// row is gone.
    pub entries: i64,
    /// Of changes.
    pub changes: i64,
    /// Of receipts.
    pub receipts: i64,
    /// Of proofs.
    pub proofs: i64,
    /// Of checkpoints.
    pub checkpoints: i64,
    /// Of rows of the feed.
    pub feed: i64,
    /// The newest change that is in the feed.
    pub fed: i64,
    /// The set digest of all entries.
    pub tally: SetDigest,
}

/// The most rows on a page.
pub const PAGE: usize = 500;
/// About how many bytes are on a page. A single row may be larger.
pub const PAGE_BYTES: usize = 4 * 1024 * 1024;

/// A store whose rows can be carried to another one.
pub trait LedgerRows {
    /// Returns the rows of a table that follow a key, in the order of their keys: at most [`PAGE`] of them and about
    /// [`PAGE_BYTES`], and at least one if there is any. An empty key stands before all rows.
    ///
    /// # Errors
    /// [`StoreError`] here and in every method below, when the database fails.
    fn page(&self, table: &Table, after: &[Cell]) -> Result<Vec<Row>, StoreError>;
    /// Returns the number of rows of a table.
    fn count(&self, table: &Table) -> Result<u64, StoreError>;
    /// Writes new rows, with the numbers they have.
    fn put(&mut self, table: &Table, rows: &[Row]) -> Result<(), StoreError>;
    /// Returns what is kept beside the rows.
    fn numbers(&self) -> Result<Numbers, StoreError>;
    /// Writes what is kept beside the rows, once all rows are there.
    fn set_numbers(&mut self, numbers: &Numbers) -> Result<(), StoreError>;
}

/// Calls `each` with every page of a table. Returns false if `each` did so, which ends the reading.
///
/// # Errors
/// [`StoreError`] of the store or of `each`.
pub fn pages<E: From<StoreError>>(
    rows: &dyn LedgerRows,
    table: &Table,
    mut each: impl FnMut(&[Row]) -> Result<bool, E>,
) -> Result<bool, E> {
    let mut after: Row = Vec::new();
    loop {
        let page = rows.page(table, &after)?;
        let Some(last) = page.last() else { return Ok(true) };
        after = table.key_of(last).to_vec();
        if !each(&page)? {
            return Ok(false);
        }
    }
}

/// A digest over rows in their order, by which two places are compared.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Sum {
    /// The number of rows.
    pub rows: u64,
    /// A chain of SHA-256 over the rows.
    pub digest: Digest,
}

impl Default for Sum {
    fn default() -> Sum {
        Sum { rows: 0, digest: Digest([0; 32]) }
    }
}

impl Sum {
    /// Adds a row.
    pub fn add(&mut self, row: &[Cell]) {
        let mut bytes = self.digest.0.to_vec();
        for cell in row {
            match cell {
                Cell::Null => bytes.push(0),
                Cell::Number(number) => {
                    bytes.push(1);
                    bytes.extend_from_slice(&number.to_be_bytes());
                }
                Cell::Bytes(content) => {
                    bytes.push(2);
                    bytes.extend_from_slice(&(content.len() as u64).to_be_bytes());
                    bytes.extend_from_slice(content);
                }
            }
        }
        self.rows += 1;
        self.digest = Digest::of(&bytes);
    }
}

/// The root of the log, computed from its leaves one after another.
#[derive(Debug, Clone, Default)]
pub struct Walked {
    /// The number of leaves.
    pub leaves: u64,
    /// The complete subtrees at the right edge, the largest first, each with its level.
    edge: Vec<(u32, Digest)>,
}

impl Walked {
    /// Adds a row of [`LEAVES`]. Returns false if it is not the next leaf.
    pub fn add(&mut self, row: &[Cell]) -> bool {
        let [number, id, at, about] = row else { return false };
        let Ok(id) = <[u8; 32]>::try_from(id.bytes()) else { return false };
        if number.number().cast_unsigned() != self.leaves {
            return false;
        }
        let about = Subject::from_bytes(about.bytes());
        let leaf = LogLeaf { entry: EntryId(id), received_at: UtcMillis(at.number()), about };
        let (mut level, mut hash) = (0, leaf.hash());
        while let Some((_, left)) = self.edge.pop_if(|(edge, _)| *edge == level) {
            hash = node_hash(left, hash);
            level += 1;
        }
        self.edge.push((level, hash));
        self.leaves += 1;
        true
    }

    /// Returns the root over the leaves so far.
    pub fn root(&self) -> Digest {
        let edge = self.edge.iter().rev().map(|(_, hash)| *hash);
        edge.reduce(|right, left| node_hash(left, right)).unwrap_or_else(|| merkle::root(&[]))
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]
    use super::*;
    use crate::store::contract::{VISIT, brought, signed};
    use crate::store::{Batch, Durability, Ledger as _, Round, SqliteStore, Store as _, Write};

    fn filled(path: &str, rounds: u64) -> SqliteStore {
        let mut store = SqliteStore::open(path, Durability::WriteAheadLog).unwrap();
        for n in 1..=rounds {
            let change = brought(n);
            let changes = vec![(VISIT, &change)];
            let received_at = UtcMillis(i64::try_from(n).unwrap());
            let round = Round { counter: "round/a", number: n, changes, received_at, beside: Vec::new() };
            let beside = vec![Write::Feed];
            let batch = Batch { decided: store.moment().unwrap(), rounds: vec![round], beside };
            store.apply(&batch, &mut signed).unwrap();
        }
        store
    }

    #[test]
    fn the_root_of_the_leaves_walked_is_the_logs() {
        let folder = tempfile::tempdir().unwrap();
        let store = filled(folder.path().join("ledger.db").to_str().unwrap(), 11);
        let mut walked = Walked::default();
        let whole = pages::<StoreError>(&store, &LEAVES, |rows| Ok(rows.iter().all(|row| walked.add(row))));
        assert!(whole.unwrap());
        let leaves: Vec<Digest> = (0..11).map(|n| store.log().leaf(n).unwrap().unwrap().hash()).collect();
        assert_eq!((walked.leaves, walked.root()), (11, merkle::root(&leaves)));
        assert!(
            !walked.clone().add(&[Cell::Number(12), Cell::Null, Cell::Null, Cell::Null]),
            "one is missing"
        );
    }

    #[test]
    fn every_table_of_the_schema_is_carried_and_a_copy_goes_on_with_the_same_numbers() {
        let folder = tempfile::tempdir().unwrap();
        let path = |name: &str| folder.path().join(name).to_str().unwrap().to_owned();
        let from = filled(&path("from.db"), 3);
        let mut known: Vec<String> =
            TABLES.iter().map(|table| table.name.replace("stamp", "timestamp")).collect();
        known.retain(|name| !["covered", "proven"].contains(&name.as_str())); // columns of an entry
        known.sort();
        let sql =
            "SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite_%' ORDER BY name";
        let mut statement = from.connection.prepare(sql).unwrap();
        let there: Vec<String> =
            statement.query_map([], |row| row.get(0)).unwrap().collect::<Result<_, _>>().unwrap();
        assert_eq!(there, known);
        let mut to = SqliteStore::open(&path("to.db"), Durability::WriteAheadLog).unwrap();
        to.take_in_rows().unwrap();
        for table in TABLES {
            pages::<StoreError>(&from, table, |rows| to.put(table, rows).map(|()| true)).unwrap();
        }
        to.set_numbers(&from.numbers().unwrap()).unwrap();
        to.keep_rows().unwrap();
        for table in TABLES {
            let sum = |store: &SqliteStore| {
                let mut sum = Sum::default();
                pages::<StoreError>(store, table, |rows| {
                    rows.iter().for_each(|row| sum.add(row));
                    Ok(true)
                })
                .unwrap();
                sum
            };
            assert_eq!(sum(&from), sum(&to), "{}", table.name);
        }
        assert_eq!(from.numbers().unwrap(), to.numbers().unwrap());
        drop(to);
        let to = filled(&path("to.db"), 4);
        assert_eq!((to.tally().unwrap().count, to.newest_position().unwrap()), (4, 4), "three were known");
        assert_eq!(to.log().size().unwrap(), 4);
    }

    #[test]
    fn a_ledger_that_was_left_takes_nothing_more() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("ledger.db");
        let mut store = filled(path.to_str().unwrap(), 2);
        store.begin().unwrap();
        store.leave("this ledger was moved, it's said here").unwrap();
        store.end().unwrap();
        let refused = store.commit(&[Write::Value { key: "a", value: b"b" }]).unwrap_err();
        assert!(refused.to_string().contains("this ledger was moved, it's said here"), "{refused}");
        assert_eq!(store.tally().unwrap().count, 2, "it is read all the same");
    }
}
