//! The contract, held by the two stores of the core.
#![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]

use std::sync::Mutex;

use super::contract::{Engine, Opens, Own, Place};
use super::{Durability, Ledger, MemoryStore, SqliteStore};

struct Memory;

impl Engine for Memory {
    fn place(&self) -> Box<dyn Place> {
        Box::new(InMemory::default())
    }
}

/// A store in memory has no connections: its workers take turns.
#[derive(Default)]
struct InMemory(Mutex<MemoryStore>);

impl Place for InMemory {
    fn with(&self, _: &mut Own, work: &mut dyn FnMut(&mut dyn Ledger)) {
        work(&mut *self.0.lock().unwrap());
    }
}

struct Sqlite;

fn open(path: &str) -> Box<dyn Ledger> {
    Box::new(SqliteStore::open(path, Durability::WriteAheadLog).unwrap())
}

impl Engine for Sqlite {
    fn place(&self) -> Box<dyn Place> {
        let folder = tempfile::tempdir().unwrap();
        let path = move || folder.path().join("ledger.db").to_str().unwrap().to_owned();
        drop(open(&path()));
        Box::new(Opens(move || open(&path())))
    }

    fn scratch(&self) -> Box<dyn Place> {
        Box::new(Opens(|| open(":memory:")))
    }
}

mod memory {
    crate::store_contract!(super::Memory);
}

mod sqlite {
    crate::store_contract!(shared super::Sqlite);
}
