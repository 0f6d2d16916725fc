//! The office signer: a device of the office itself, with a key in the data folder and a certificate like any
//! other device's. What is settled at the office is therefore a signed entry like any other.
//!
//! The office signer is enrolled when it signs for the first time. Its entries go into the ledger at once,
//! and phones receive them with their next sync. Called by `pages::visit_acts`. The core decides what an
//! agreement means.

use farsiding_core::book::{Book, BookError, BookParts, Draft};
use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::{DeviceKey, OrganisationKey, Statement};
use farsiding_core::evidence::ledger_log;
use farsiding_core::ids::{EntryId, OperatorId, Subject, VisitId};
use farsiding_core::store::{Durability, SqliteStore, Store, StoreError, Write};
use farsiding_core::sync::{ledger_time, renew_names, settle_names};

use super::data_folder::DataFolder;
use super::enrolment::{self, EnrolmentError};
use super::index::IndexError;
use super::ledger::{LedgerPlace, in_database};
use super::office_database::{OfficeDatabase, Seen};
use crate::database_error::DatabaseError;
use farsiding_host::private_file;
use farsiding_host::{ProcessClock, SystemRandomness};

/// Why the office signer signed nothing.
#[derive(Debug, thiserror::Error)]
pub enum SignError {
    /// The record does not allow the entry.
    #[error(transparent)]
    Book(#[from] BookError),
    /// The ledger failed.
    #[error(transparent)]
    Ledger(#[from] StoreError),
    /// The office database failed.
    #[error(transparent)]
    OfficeDatabase(#[from] DatabaseError),
    /// The ledger could not be read.
    #[error(transparent)]
    Reading(#[from] IndexError),
    /// The office signer could not be enrolled.
    #[error(transparent)]
    Enrolment(#[from] EnrolmentError),
    /// The office signer's key could not be read or created.
    #[error("the desk's key cannot be used: {0}")]
    Key(#[from] std::io::Error),
    /// The office revoked its own signer.
    #[error("the office's desk has been revoked; nothing can be signed with it")]
    Revoked,
}

/// Returns the office signer's key. The key is created if there is none.
fn key_of(folder: &DataFolder, randomness: &mut SystemRandomness) -> Result<DeviceKey, SignError> {
    let file = folder.desk_key_file();
    if !file.exists() {
        let made = DeviceKey::random(randomness);
        match private_file::write_secret(&file, made.secret()) {
            Err(e) if e.kind() != std::io::ErrorKind::AlreadyExists => return Err(e.into()),
            _ => {}
        }
    }
    Ok(DeviceKey::from_secret(private_file::read_secret(&file)?))
}

/// Signs `draft` into a visit's record in the name of `by` and returns the entry. The caller holds the
/// ledger's lock, so that no other entry comes in between.
///
/// # Errors
/// Returns a [`SignError`]; nothing is then recorded.
pub fn sign(
    folder: &DataFolder,
    (database, ledger): (&mut OfficeDatabase, &mut dyn Store),
    organisation: &OrganisationKey,
    clock: &ProcessClock,
    (visit, draft, by): (VisitId, Draft, &str),
) -> Result<EntryId, SignError> {
    sign_into(folder, (database, ledger), organisation, clock, (Subject::Visit(visit), draft, by))
}

/// Signs a draft into any document, such as that of a site; otherwise like [`sign`].
///
/// # Errors
/// Returns a [`SignError`]; nothing is then recorded.
pub fn sign_into(
    folder: &DataFolder,
    office: (&mut OfficeDatabase, &mut dyn Store),
    organisation: &OrganisationKey,
    clock: &ProcessClock,
    (subject, draft, by): (Subject, Draft, &str),
) -> Result<EntryId, SignError> {
    let made = sign_all(folder, office, organisation, clock, (subject, vec![draft], by))?;
    let made = made.first().copied();
    made.ok_or_else(|| StoreError::Database("nothing was written".to_owned()).into())
}

/// Signs several drafts at once; otherwise like [`sign_into`]. Either all of them are recorded or none.
///
/// # Errors
/// Returns a [`SignError`]; nothing is then recorded.
pub fn sign_all(
    folder: &DataFolder,
    (database, ledger): (&mut OfficeDatabase, &mut dyn Store),
    organisation: &OrganisationKey,
    clock: &ProcessClock,
    (subject, drafts, by): (Subject, Vec<Draft>, &str),
) -> Result<Vec<EntryId>, SignError> {
    let mut randomness = SystemRandomness::new().map_err(|e| std::io::Error::other(e.to_string()))?;
    let key = key_of(folder, &mut randomness)?;
    let now = clock.time();
    match database.device(key.public())? {
        Some(desk) if desk.revoked_at.is_some() => return Err(SignError::Revoked),
        Some(_) => {}
        None => {
            let name = enrolment::office_signer_name(database)?;
            enrolment::enrol_own(database, ledger, organisation, (key.public(), &name), now)?;
        }
    }
    let store = own_connection(&folder.ledger_place())?;
    let parts = BookParts { store, key, clock: Box::new(clock.clone()), randomness: Box::new(randomness) };
    let mut book = Book::open(parts);
    let gives_names = drafts.iter().any(|draft| matches!(draft.says, Statement::Operator(_)));
    let by = OperatorId(by.to_owned()).in_bounds();
    let made = book.append(subject, drafts, &by)?;
    // The leaves in the log are added right afterwards. If the power fails in between, the next start adds
    // them.
    let now = ledger_time(ledger, now)?;
    let leaves: Vec<Write<'_>> = made
        .iter()
        .map(|entry| Write::Leaf { entry: *entry, received_at: now, about: Some(subject) })
        .collect();
    ledger.commit(&leaves)?;
    if matches!(subject, Subject::Roster(_)) {
        // A name given or removed here is the office's own, and devices are told that its list is another one.
        let settled = settle_names(ledger, &organisation.public(), &[], Some(now))?;
        if gives_names && !settled.changed() {
            renew_names(ledger, now)?;
        }
    }
    ledger_log::publish(ledger, organisation, now)?;
    Ok(made)
}

/// Returns a separate connection to the ledger. A book owns its store, and a packet is made without holding
/// the ledger's lock.
///
/// # Errors
/// Returns a [`StoreError`] when the ledger's store fails.
pub(super) fn own_connection(place: &LedgerPlace) -> Result<Box<dyn Store>, StoreError> {
    let file = match place {
        LedgerPlace::File(file) => file,
        LedgerPlace::Database { address, organisation } => {
            return Ok(Box::new(in_database(address, *organisation)?));
        }
    };
    let path = file.to_str().ok_or_else(|| StoreError::Database("the path is not UTF-8".to_owned()))?;
    Ok(Box::new(SqliteStore::open(path, Durability::WriteAheadLog)?))
}

/// Records that the office signer was used now, because it never syncs.
///
/// # Errors
/// Returns a [`DatabaseError`] when the database fails.
pub fn seen(
    folder: &DataFolder,
    database: &mut OfficeDatabase,
    ledger_position: u64,
    now: UtcMillis,
) -> Result<(), DatabaseError> {
    let Ok(secret) = private_file::read_secret(&folder.desk_key_file()) else { return Ok(()) };
    let device = DeviceKey::from_secret(secret).public();
    database.seen(&[Seen { device, at: now, ahead_millis: 0, unsent: (0, 0) }], ledger_position, |_| Ok(()))
}
