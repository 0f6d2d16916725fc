//! Where the names of people are kept: in two named values beside the roster, never in an entry.
//!
//! One holds the list as the office sent it, the other what this store has besides: names given here, and names
//! brought by a carry file, that the office is not known to hold. At the office itself both are its list. Which
//! rows are taken in and which are deleted is decided in `sync::names`.

use std::collections::BTreeMap;

use super::{Store, StoreError};
use crate::entry::{PersonName, cbor};
use crate::ids::Digest;

/// The name of the value that holds the rows that the office sent.
pub const NAMES: &str = "names/office";
/// The name of the value that holds the rows that the office is not known to hold.
pub const OWN_NAMES: &str = "names/own";

/// The names kept in a store, by their commitments. Every one of them fits its commitment.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Names(BTreeMap<Digest, PersonName>);

impl Names {
    /// Takes the rows that fit their commitments.
    pub fn of(rows: impl IntoIterator<Item = PersonName>) -> Names {
        Names(rows.into_iter().filter(PersonName::fits).map(|row| (row.named, row)).collect())
    }

    /// Returns the name that a commitment stands for, if it is kept.
    pub fn get(&self, named: &Digest) -> Option<&str> {
        self.0.get(named).map(|row| row.name.as_str())
    }

    /// Returns the row of a commitment, if it is kept.
    pub fn row(&self, named: &Digest) -> Option<&PersonName> {
        self.0.get(named)
    }

    /// Returns all rows in ascending order of their commitments.
    pub fn rows(&self) -> impl Iterator<Item = &PersonName> {
        self.0.values()
    }
}

/// Returns the rows of a stored value; none if there is no value or it cannot be read.
pub fn read_names(value: Option<&[u8]>) -> Vec<PersonName> {
    value.and_then(|bytes| cbor::decode(bytes).ok()).unwrap_or_default()
}

/// Returns the rows of one of the two values.
///
/// # Errors
/// [`StoreError`] when the database fails.
pub fn name_rows(store: &dyn Store, key: &str) -> Result<Vec<PersonName>, StoreError> {
    Ok(read_names(store.value(key)?.as_deref()))
}

/// Returns all names kept in a store.
///
/// # Errors
/// [`StoreError`] when the database fails.
pub fn kept_names(store: &dyn Store) -> Result<Names, StoreError> {
    Ok(Names::of(name_rows(store, NAMES)?.into_iter().chain(name_rows(store, OWN_NAMES)?)))
}
