//! Tests that freeze the paths of slots: what stands in signed entries never changes.
//!
//! `tests/golden/slots.txt` contains the path of every entry in `tests/golden/entries` and in the stores that
//! released versions wrote (`tests/golden/v1`, `v2`). **A line there is never changed or removed.** The paths
//! of kinds added later are covered by the second test, because each stands in the signed example of its
//! kind.

#![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]

use std::collections::BTreeMap;
use std::io::Read as _;
use std::path::{Path, PathBuf};

use farsiding_core::entry::{Entry, Statement};

/// The stores written by released versions.
const STORES: [&str; 4] =
    ["v1/device/record.db.gz", "v1/office/ledger.db.gz", "v2/device/record.db.gz", "v2/office/ledger.db.gz"];

fn golden() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../tests/golden")
}

fn unhex(text: &str) -> Vec<u8> {
    let digits: String = text.lines().filter(|line| !line.starts_with('#')).collect();
    (0..digits.len() / 2).map(|at| u8::from_str_radix(&digits[2 * at..2 * at + 2], 16).unwrap()).collect()
}

/// Returns the frozen examples by file name.
fn examples() -> BTreeMap<String, Entry> {
    let files = std::fs::read_dir(golden().join("entries")).unwrap().map(|item| item.unwrap().path());
    files
        .map(|path| {
            let entry = Entry::open(&unhex(&std::fs::read_to_string(&path).unwrap())).unwrap();
            (format!("entries/{}", path.file_name().unwrap().to_string_lossy()), entry)
        })
        .collect()
}

/// Returns the entries of a store that a released version wrote.
fn stored(store: &str) -> Vec<Entry> {
    let packed = std::fs::File::open(golden().join(store)).unwrap();
    let mut bytes = Vec::new();
    flate2::read::GzDecoder::new(packed).read_to_end(&mut bytes).unwrap();
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("store.db");
    std::fs::write(&file, bytes).unwrap();
    let database = rusqlite::Connection::open(&file).unwrap();
    let mut entries = database.prepare("SELECT bytes FROM entry ORDER BY id").unwrap();
    let rows = entries.query_map([], |row| row.get::<_, Vec<u8>>(0)).unwrap();
    rows.map(|bytes| Entry::open(&bytes.unwrap()).unwrap()).collect()
}

/// Returns the path that the statement determines, or the stated path for a statement that determines none.
fn path_of(entry: &Entry) -> String {
    match &entry.body.says {
        Statement::Agreement { .. } | Statement::Withdrawn {} => entry.body.speaks_of(),
        says => says.slot(),
    }
}

fn lines_of_today() -> Vec<String> {
    let mut lines: Vec<String> =
        examples().iter().map(|(name, entry)| format!("{name} {}", path_of(entry))).collect();
    for store in STORES {
        let mut counted: BTreeMap<String, usize> = BTreeMap::new();
        for entry in stored(store) {
            *counted.entry(path_of(&entry)).or_default() += 1;
        }
        lines.extend(counted.into_iter().map(|(path, number)| format!("{store} {number} {path}")));
    }
    lines
}

#[test]
fn every_path_that_was_ever_written_is_made_again_as_it_was() {
    let today = lines_of_today();
    let frozen = std::fs::read_to_string(golden().join("slots.txt")).unwrap();
    let frozen: Vec<&str> = frozen.lines().filter(|line| !line.starts_with('#')).collect();
    assert!(frozen.len() > 150, "{} lines are frozen", frozen.len());
    for line in frozen {
        assert!(today.iter().any(|now| now == line), "\"{line}\" is no longer made");
    }
}

/// In every frozen entry the signed slot equals the slot that the statement determines.
#[test]
fn what_was_signed_is_what_the_statement_says() {
    for (name, entry) in examples() {
        assert_eq!(path_of(&entry), entry.body.slot, "{name}");
    }
}
