//! The people of the organisation, folded from the roster's document and the names kept beside it.
//!
//! A name is shown only if it stands in the open in the entry that counts, as in earlier versions, or is the one
//! that this entry commits to and that nobody removed. Otherwise the person's code is shown in its place.

use std::collections::BTreeMap;

use serde::Serialize;

use super::slots::Slots;
use crate::authority::{Judged, NamesSaid};
use crate::entry::site_facts::Operator;
use crate::entry::{Statement, under};
use crate::ids::OperatorId;
use crate::store::Names;

/// Where a person's name comes from, or why there is none.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum NameStanding {
    /// The entry holds the name itself, for good: it was made by an earlier version.
    Open,
    /// The name is kept beside the roster and fits the entry.
    Kept,
    /// The entry names the person, and no name that fits it is known here.
    NotHere,
    /// The name was removed at the office.
    Removed,
}

/// A person of the organisation as known here.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Person {
    /// The person's short code.
    pub operator: OperatorId,
    /// The name, or the code if no name is known here.
    pub name: String,
    /// Where the name comes from.
    pub name_is: NameStanding,
    /// The date of the last training, `YYYY-MM-DD`; empty if unknown.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub trained_on: String,
    /// Whether the person belongs to the organisation now.
    pub active: bool,
    /// The statement that counts.
    #[serde(skip)]
    #[cfg_attr(test, ts(skip))]
    pub said: Operator,
}

impl Person {
    /// Returns the person that a statement describes.
    fn of(said: &Operator, names: &Names, removed: &NamesSaid) -> Person {
        let kept = || said.named.and_then(|named| names.get(&named));
        let (name, name_is) = match said.named {
            Some(named) if removed.forgotten.contains(&named) => (None, NameStanding::Removed),
            Some(_) => match kept() {
                Some(name) => (Some(name), NameStanding::Kept),
                None => (None, NameStanding::NotHere),
            },
            None => (Some(said.name.as_str()), NameStanding::Open),
        };
        let name = name.filter(|name| !name.trim().is_empty());
        Person {
            operator: said.operator.clone(),
            name: name.map_or_else(|| said.operator.in_bounds().0, str::to_owned),
            name_is,
            trained_on: said.trained_on.clone(),
            active: said.active,
            said: said.clone(),
        }
    }
}

/// Returns the people of a roster document by their codes. The order of entries and duplicates do not matter.
pub fn people<'a>(
    entries: impl IntoIterator<Item = Judged<'a>>,
    names: &Names,
) -> BTreeMap<OperatorId, Person> {
    let judged: Vec<Judged<'a>> = entries.into_iter().collect();
    let removed = NamesSaid::of(judged.iter().copied());
    let slots = Slots::fold(judged);
    slots
        .names_under(under::OPERATORS)
        .filter_map(|slot| match slots.latest(slot)?.claim? {
            Statement::Operator(said) => Some((said.operator.clone(), Person::of(said, names, &removed))),
            _ => None,
        })
        .collect()
}
