//! Removing the name of a person: name and salt are deleted at the office, and an entry tells every device to
//! delete them too.
//!
//! The entry names the commitments, never the name, and holds no reason, because a reason that somebody types
//! often contains the name; the reason stands in the audit. Called by `farsiding people forget` and by the page
//! of people.

use farsiding_core::book::{BookError, Draft, Roster};
use farsiding_core::entry::site_facts::NameForgotten;
use farsiding_core::entry::{OrganisationKey, Statement};
use farsiding_core::ids::{OperatorId, OrganisationId, Subject};
use farsiding_core::store::Store;
use farsiding_host::ProcessClock;

use crate::data_folder::DataFolder;
use crate::office_database::OfficeDatabase;
use crate::office_signer::{self, SignError};

/// The act as the audit names it.
pub const DID: &str = "removed a name";
/// The largest number of characters kept of a reason.
const LONGEST_REASON: usize = 400;

/// Why a name was not removed.
#[derive(Debug, thiserror::Error)]
pub enum NameRemovalError {
    /// The roster could not be read.
    #[error(transparent)]
    Roster(#[from] BookError),
    /// The entry could not be signed.
    #[error(transparent)]
    Sign(#[from] SignError),
    /// No entry speaks of the person.
    #[error("nobody on the roster has the code {0}")]
    Unknown(OperatorId),
    /// The entries hold the name themselves.
    #[error("the name of {0} was recorded in the open by an earlier version and cannot be removed")]
    Open(OperatorId),
    /// Every name of the person was removed before.
    #[error("the name of {0} was removed before")]
    Before(OperatorId),
    /// No reason was given.
    #[error("a name is removed with a reason, which stays in the audit")]
    NoReason,
}

/// Returns the reason as the audit keeps it.
///
/// # Errors
/// [`NameRemovalError::NoReason`] if it is blank.
pub fn reason(why: &str) -> Result<String, NameRemovalError> {
    let why: String = why.trim().chars().take(LONGEST_REASON).collect();
    if why.is_empty() { Err(NameRemovalError::NoReason) } else { Ok(why) }
}

/// Returns the subject of the audit's row: the person's code and the reason.
pub fn audited(person: &OperatorId, why: &str) -> String {
    format!("person:{person} because: {why}")
}

/// Removes all names of a person that the roster commits to. The caller holds the ledger's lock and writes the
/// audit.
///
/// # Errors
/// [`NameRemovalError`]; nothing is then removed.
pub fn remove(
    folder: &DataFolder,
    (database, ledger): (&mut OfficeDatabase, &mut dyn Store),
    key: &OrganisationKey,
    clock: &ProcessClock,
    (person, by): (&OperatorId, &str),
) -> Result<(), NameRemovalError> {
    let roster = Roster::read(ledger, &key.public())?;
    if !roster.people.contains_key(person) {
        return Err(NameRemovalError::Unknown(person.clone()));
    }
    let committed = roster.committed.get(person).cloned().unwrap_or_default();
    if committed.is_empty() {
        return Err(NameRemovalError::Open(person.clone()));
    }
    let named: Vec<_> = committed.difference(&roster.names.forgotten).copied().collect();
    if named.is_empty() {
        return Err(NameRemovalError::Before(person.clone()));
    }
    let says = Statement::NameForgotten(NameForgotten { person: person.clone(), named });
    let subject = Subject::Roster(OrganisationId::of_key(&key.public()));
    let drafts = (subject, vec![Draft::of(says)], by);
    office_signer::sign_all(folder, (database, ledger), key, clock, drafts)?;
    Ok(())
}
