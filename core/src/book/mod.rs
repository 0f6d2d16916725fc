//! The book: one device's records, key and clock, and the interface through which shells use the core.
//!
//! Shells call this module and none below it. It signs and chains entries, commits each together with its
//! change, and creates sync sessions and carry files. Rules of the trade are in `procedure` and `view`, and
//! the network is in the shells.

mod acts;
mod append;
mod error;
mod people;
mod pin;
mod snapshot;
mod weighing;

#[cfg(test)]
mod people_tests;
#[cfg(test)]
mod shell_types_tests;
#[cfg(test)]
mod tests;

use std::cell::RefCell;
use std::collections::HashMap;

use crate::authority::Authority;
use crate::clock::{Clock, Stamp, UtcMillis};
use crate::document::{Document, random_actor};
use crate::entry::{DeviceKey, EnrolmentRequest, Entry, EntryError, OrganisationKeys, PublicKey};
use crate::ids::{DeviceId, EntryId, OrganisationId, Randomness, Subject};
use crate::store::{Store, StoreError, Write, learn_keys, organisation_keys};
use crate::sync::{
    CarriedPhoto, CarryReport, LogStanding, LogWatch, PassRequest, Session, Step, SyncError, carry_in,
    carry_out, log_standing,
};

pub use append::{Draft, OpenVisit};
pub use error::BookError;
pub use people::{KeyHere, KeyHolder, PeopleHere, Roster, SHIFT_HOURS};
pub use pin::{Beside, MOST_TRIES, PinCost, PinError, fit_to_choose, storage_key};
pub use snapshot::Snapshot;

const CHAIN: &str = "book/chain";
/// The name of the value that holds the root of the checkpoint which an entry made here named last.
const SEEN: &str = "book/seen";
const ORGANISATION_KEY: &str = "book/organisation_key";

/// An entry, and whether a receipt covers it.
pub type Kept = (Entry, bool);

/// The parts of a book, all of which come from outside.
pub struct BookParts {
    /// The store for the records.
    pub store: Box<dyn Store>,
    /// The device's signing key.
    pub key: DeviceKey,
    /// The device's clock.
    pub clock: Box<dyn Clock>,
    /// The source of random bytes.
    pub randomness: Box<dyn Randomness>,
}

/// The records of one device.
pub struct Book {
    store: Box<dyn Store>,
    key: DeviceKey,
    clock: Box<dyn Clock>,
    randomness: Box<dyn Randomness>,
    actor: [u8; 16],
    documents: HashMap<Subject, Document>,
    known: HashMap<Subject, Vec<Entry>>,
    /// The authority from the stored certificates; cleared whenever certificates may have changed.
    certified: RefCell<Option<Authority>>,
    people: people::People,
}

impl std::fmt::Debug for Book {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Book").field("device", &self.device()).finish_non_exhaustive()
    }
}

impl Book {
    /// Creates a book from its parts.
    pub fn open(parts: BookParts) -> Book {
        let BookParts { store, key, clock, mut randomness } = parts;
        let actor = random_actor(randomness.as_mut());
        Book {
            store,
            key,
            clock,
            randomness,
            actor,
            documents: HashMap::new(),
            known: HashMap::new(),
            certified: RefCell::default(),
            people: people::People::default(),
        }
    }

    /// Returns the id of this device.
    pub fn device(&self) -> DeviceId {
        self.key.public()
    }

    /// Returns the store for reading.
    pub fn store(&self) -> &dyn Store {
        self.store.as_ref()
    }

    /// Returns the store for data that the book does not handle (photographs, drafts, values).
    pub fn store_mut(&mut self) -> &mut dyn Store {
        self.certified.take();
        self.store.as_mut()
    }

    /// Returns the source of random bytes, for ids that are created outside.
    pub fn randomness(&mut self) -> &mut dyn Randomness {
        self.randomness.as_mut()
    }

    /// Returns the device's present time with what is known about its error.
    ///
    /// # Errors
    /// [`BookError::Store`] when the store fails.
    pub fn stamp(&self) -> Result<Stamp, BookError> {
        let (at, offset_minutes) = self.clock.now();
        let ahead = self.store.value(crate::sync::CLOCK_AHEAD)?;
        let ahead_millis = ahead.and_then(|v| v.try_into().ok()).map(i64::from_be_bytes);
        Ok(Stamp { at, offset_minutes, ahead_millis })
    }

    /// Returns the time of the device's clock.
    pub fn now(&self) -> UtcMillis {
        self.clock.now().0
    }

    /// Returns the root key of the organisation that enrolled this device, or `None` before enrolment.
    ///
    /// # Errors
    /// [`BookError::Store`] when the store fails.
    pub fn organisation_key(&self) -> Result<Option<PublicKey>, BookError> {
        let value = self.store.value(ORGANISATION_KEY)?;
        Ok(value.and_then(|v| v.try_into().ok()).map(DeviceId))
    }

    /// Returns the keys of that organisation as far as they are known here.
    ///
    /// # Errors
    /// [`BookError::Store`] when the store fails.
    pub fn organisation_keys(&self) -> Result<Option<OrganisationKeys>, BookError> {
        let Some(root) = self.organisation_key()? else { return Ok(None) };
        Ok(Some(organisation_keys(self.store(), &root)?))
    }

    /// Stores the result of enrolment: the organisation's root key and this device's certificate.
    ///
    /// # Errors
    /// [`BookError::Entry`] if the certificate is for another device or from another organisation.
    pub fn enrolled(&mut self, organisation_key: PublicKey, certificate: &[u8]) -> Result<(), BookError> {
        self.enrolled_with::<&[u8]>(organisation_key, &[], certificate)
    }

    /// Does the same as [`Book::enrolled`], and also stores the root key's statements.
    ///
    /// # Errors
    /// As for [`Book::enrolled`].
    pub fn enrolled_with<B: AsRef<[u8]>>(
        &mut self,
        organisation_key: PublicKey,
        statements: &[B],
        certificate: &[u8],
    ) -> Result<(), BookError> {
        let mut keys = organisation_keys(self.store(), &organisation_key)?;
        let known = keys.clone();
        let _ = keys.learn(statements); // what does not join names no key, and the certificate then says so
        let opened = crate::entry::Certificate::open(certificate, &keys)?;
        if opened.device != self.device() {
            return Err(EntryError::WrongSigner.into());
        }
        self.certified.take();
        let mut kept = known;
        learn_keys(self.store.as_mut(), &mut kept, statements)?;
        self.store.commit(&[
            Write::Value { key: ORGANISATION_KEY, value: &organisation_key.0 },
            Write::Certificate { device: opened.device, bytes: certificate },
        ])?;
        Ok(())
    }

    /// Returns the checked entries of a document in order of arrival, each with whether a receipt covers it,
    /// and the names of damaged rows.
    ///
    /// # Errors
    /// [`BookError`] when the store fails.
    pub fn entries(&self, subject: Subject) -> Result<(Vec<Kept>, Vec<String>), BookError> {
        kept(self.store(), subject)
    }

    /// Starts a sync session with the office.
    ///
    /// # Errors
    /// [`SyncError::NotEnrolled`] before enrolment.
    pub fn sync_session(&self) -> Result<Session, BookError> {
        Ok(Session::new(self.organisation_key()?.ok_or(SyncError::NotEnrolled)?))
    }

    /// Returns the session's next request.
    ///
    /// # Errors
    /// [`BookError::Sync`].
    pub fn sync_request(&mut self, session: &mut Session) -> Result<Vec<u8>, BookError> {
        let now = self.now();
        Ok(session.request(self.store.as_mut(), &self.key, now)?)
    }

    /// Passes a reply to the session.
    ///
    /// # Errors
    /// [`BookError::Sync`].
    pub fn sync_receive(&mut self, session: &mut Session, reply: &[u8]) -> Result<Step, BookError> {
        let now = self.now();
        let left = session.report().left.len();
        let result = session.receive(self.store.as_mut(), reply, now);
        self.forget_documents(&session.report().touched.clone());
        if session.report().left.len() > left {
            self.forget_documents(&session.report().left.clone());
            // A document that left and is begun here anew would repeat the numbers of this actor's changes.
            self.actor = random_actor(self.randomness.as_mut());
        }
        Ok(result?)
    }

    /// Starts a check of the office's log; to be called after a sync.
    ///
    /// # Errors
    /// [`SyncError::NotEnrolled`] before enrolment.
    pub fn log_watch(&self) -> Result<LogWatch, BookError> {
        Ok(LogWatch::new(self.organisation_key()?.ok_or(SyncError::NotEnrolled)?))
    }

    /// Returns the check's next request, or `None` if there is nothing to ask.
    ///
    /// # Errors
    /// [`BookError::Sync`].
    pub fn log_request(&self, watch: &mut LogWatch) -> Result<Option<Vec<u8>>, BookError> {
        Ok(watch.request(self.store.as_ref(), &self.key, self.now())?)
    }

    /// Passes a reply to the check.
    ///
    /// # Errors
    /// [`BookError::Sync`].
    pub fn log_receive(&mut self, watch: &mut LogWatch, reply: &[u8]) -> Result<Step, BookError> {
        let now = self.now();
        Ok(watch.receive(self.store.as_mut(), reply, now)?)
    }

    /// Returns the state of the office's log as known here, or `None` before enrolment.
    ///
    /// # Errors
    /// [`BookError::Store`] when the store fails.
    pub fn log_standing(&self) -> Result<Option<LogStanding>, BookError> {
        let Some(key) = self.organisation_key()? else { return Ok(None) };
        Ok(Some(log_standing(self.store.as_ref(), &key)?))
    }

    /// Returns a signed request for enrolment by a one-time code, for the server that stated this key and
    /// time.
    ///
    /// # Errors
    /// [`BookError::Entry`] if the request cannot be encoded.
    pub fn enrol_request(
        &self,
        code: &str,
        name: &str,
        organisation_key: &PublicKey,
        server_time: UtcMillis,
    ) -> Result<Vec<u8>, BookError> {
        let request = EnrolmentRequest {
            code: code.to_owned(),
            organisation: OrganisationId::of_key(organisation_key),
            at: server_time,
            name: name.to_owned(),
        };
        Ok(request.seal(&self.key)?)
    }

    /// Returns a signed request for access to photographs. `server_time` is the time that the server stated
    /// when it refused an earlier request because of a wrong clock.
    ///
    /// # Errors
    /// [`SyncError::NotEnrolled`] before enrolment.
    pub fn pass_request(&mut self, server_time: Option<UtcMillis>) -> Result<Vec<u8>, BookError> {
        let organisation_key = self.organisation_key()?.ok_or(SyncError::NotEnrolled)?;
        let at = server_time.unwrap_or(self.stamp()?.corrected());
        let request = PassRequest::new(organisation_key, at, self.randomness.as_mut());
        Ok(request.seal(&self.key)?)
    }

    /// Writes documents and the given photographs into a carry file and returns its bytes.
    ///
    /// # Errors
    /// [`BookError::Sync`].
    pub fn carry_out(&self, subjects: &[Subject], photos: Vec<CarriedPhoto>) -> Result<Vec<u8>, BookError> {
        Ok(carry_out(self.store.as_ref(), subjects, photos)?)
    }

    /// Reads a carry file into the store.
    ///
    /// # Errors
    /// [`BookError::Sync`] if the bytes are not a carry file.
    pub fn carry_in(&mut self, file: &[u8]) -> Result<CarryReport, BookError> {
        let (now, key) = (self.now(), self.organisation_key()?);
        let report = carry_in(self.store.as_mut(), file, key.as_ref(), now)?;
        self.forget_documents(&report.touched);
        Ok(report)
    }

    /// Discards documents in memory whose stored content has changed; they are loaded again when needed.
    fn forget_documents(&mut self, subjects: &[Subject]) {
        self.certified.take();
        for subject in subjects {
            self.documents.remove(subject);
            self.known.remove(subject);
        }
    }

    fn chain(&self) -> Result<(u64, Option<EntryId>), StoreError> {
        let Some(value) = self.store.value(CHAIN)? else { return Ok((0, None)) };
        let Some((seq, id)) = value.split_at_checked(8) else { return Ok((0, None)) };
        let seq = seq.try_into().map(u64::from_be_bytes).unwrap_or(0);
        Ok((seq, id.try_into().ok().map(EntryId)))
    }
}

/// Reads the checked entries of a document from a store, and the names of damaged rows.
fn kept(store: &dyn Store, subject: Subject) -> Result<(Vec<Kept>, Vec<String>), BookError> {
    let rows = store.entries_of(subject)?;
    let mut entries = Vec::with_capacity(rows.rows.len());
    for row in rows.rows {
        entries.push((Entry::reopen(row.id, row.bytes)?, row.receipted));
    }
    Ok((entries, rows.damaged))
}
