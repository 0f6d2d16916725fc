//! The names of people in a packet: each is the one that an entry here commits to, and belongs to somebody whom
//! the entries name.

use std::collections::BTreeSet;

use serde::{Deserialize, Serialize};

use super::NAMES;
use super::check::Opened;
use super::parts::{Parts, PartsError, read};
use super::refold::people_named;
use super::report::{CheckReport, Code, shown};
use crate::entry::{LONGEST_NAME, PersonName, Statement};
use crate::ids::Digest;
use crate::message;

/// The content of `names.cbor`.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct NamesFile {
    /// The names, in ascending order of their commitments, none twice.
    pub names: Vec<PersonName>,
}

impl NamesFile {
    /// Reads `names.cbor`.
    ///
    /// # Errors
    /// [`PartsError::Unreadable`] if the bytes do not have this form.
    pub fn from_bytes(bytes: &[u8]) -> Result<NamesFile, PartsError> {
        let file: NamesFile = read(NAMES, bytes)?;
        let refuse = |why: &str| Err(PartsError::Unreadable { name: NAMES, why: why.to_owned() });
        if file.names.is_empty() {
            return refuse("it names nobody");
        }
        if !file.names.windows(2).all(|pair| matches!(pair, [a, b] if a.named < b.named)) {
            return refuse("the names are not in order");
        }
        if file.names.iter().any(|row| row.name.is_empty() || row.name.len() > LONGEST_NAME) {
            return refuse("a name is empty or too long");
        }
        Ok(file)
    }
}

pub(super) fn check(parts: &Parts, opened: &Opened, report: &mut CheckReport) {
    if parts.names.is_empty() {
        return;
    }
    let people = people_named(opened.list("visit").chain(opened.list("car")));
    let committed: BTreeSet<Digest> = opened
        .list("roster")
        .filter_map(|entry| match &entry.body.says {
            Statement::Operator(said) if people.contains(&said.operator) => said.named,
            _ => None,
        })
        .collect();
    let mut all = true;
    for row in &parts.names {
        if PersonName::commitment(&row.salt, &row.name) != row.named {
            all = false;
            report.broken(Code::AlteredName, message!("verify-altered-name", named = shown(row.named)));
        } else if opened.altered == 0 && !committed.contains(&row.named) {
            all = false;
            report.broken(Code::ForeignName, message!("verify-foreign-name", named = shown(row.named)));
        }
    }
    if all {
        report.holds(Code::Names, message!("verify-names", count = parts.names.len()));
    }
}
