//! The book: one device's records, key and clock, and everything a shell asks of them.
//!
//! Shells call this and nothing deeper. It signs entries, chains them, puts them on the disk together
//! with their change, and hands out sync sessions and carry files. It holds no rule of the trade
//! (`procedure`, `view`) and does no network.

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
pub use people::{Holder, KeyHere, PeopleHere, Roster, SHIFT_HOURS};
pub use pin::{Beside, MOST_TRIES, PinCost, PinError, fit_to_choose, storage_key};
pub use snapshot::Snapshot;

const CHAIN: &str = "book/chain";
/// The root of the checkpoint that an entry made here named last.
const SEEN: &str = "book/seen";
const ORGANISATION_KEY: &str = "book/organisation_key";

/// An entry here, and whether a receipt covers it.
pub type Kept = (Entry, bool);

/// What a book is made of: everything that comes from outside.
pub struct BookParts {
    /// Where records are kept.
    pub store: Box<dyn Store>,
    /// The device's key.
    pub key: DeviceKey,
    /// The device's clock.
    pub clock: Box<dyn Clock>,
    /// Random bytes.
    pub randomness: Box<dyn Randomness>,
}

/// One device's records.
pub struct Book {
    store: Box<dyn Store>,
    key: DeviceKey,
    clock: Box<dyn Clock>,
    randomness: Box<dyn Randomness>,
    actor: [u8; 16],
    documents: HashMap<Subject, Document>,
    known: HashMap<Subject, Vec<Entry>>,
    /// The certificates here, opened; dropped whenever others may have come.
    certified: RefCell<Option<Authority>>,
    people: people::People,
}

impl std::fmt::Debug for Book {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Book").field("device", &self.device()).finish_non_exhaustive()
    }
}

impl Book {
    /// Opens the book.
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

    /// This device.
    pub fn device(&self) -> DeviceId {
        self.key.public()
    }

    /// The store, for reading.
    pub fn store(&self) -> &dyn Store {
        self.store.as_ref()
    }

    /// The store, for what the book has no call for (photographs, drafts, values).
    pub fn store_mut(&mut self) -> &mut dyn Store {
        self.certified.take();
        self.store.as_mut()
    }

    /// Random bytes, for ids made outside.
    pub fn randomness(&mut self) -> &mut dyn Randomness {
        self.randomness.as_mut()
    }

    /// The device's time now, with what is known of its error.
    ///
    /// # Errors
    /// [`BookError::Store`].
    pub fn stamp(&self) -> Result<Stamp, BookError> {
        let (at, offset_minutes) = self.clock.now();
        let ahead = self.store.value(crate::sync::CLOCK_AHEAD)?;
        let ahead_millis = ahead.and_then(|v| v.try_into().ok()).map(i64::from_be_bytes);
        Ok(Stamp { at, offset_minutes, ahead_millis })
    }

    /// The device's clock alone.
    pub fn now(&self) -> UtcMillis {
        self.clock.now().0
    }

    /// The key of the organisation that enrolled this device.
    ///
    /// # Errors
    /// [`BookError::Store`].
    pub fn organisation_key(&self) -> Result<Option<PublicKey>, BookError> {
        let value = self.store.value(ORGANISATION_KEY)?;
        Ok(value.and_then(|v| v.try_into().ok()).map(DeviceId))
    }

    /// The keys of that organisation, as far as they are known here.
    ///
    /// # Errors
    /// [`BookError::Store`].
    pub fn organisation_keys(&self) -> Result<Option<OrganisationKeys>, BookError> {
        let Some(root) = self.organisation_key()? else { return Ok(None) };
        Ok(Some(organisation_keys(self.store(), &root)?))
    }

    /// Keeps what enrolment brought: the organisation's key and this device's certificate.
    ///
    /// # Errors
    /// [`BookError::Entry`] when the certificate is not this device's or not that organisation's.
    pub fn enrolled(&mut self, organisation_key: PublicKey, certificate: &[u8]) -> Result<(), BookError> {
        self.enrolled_with::<&[u8]>(organisation_key, &[], certificate)
    }

    /// As [`Book::enrolled`], with what the organisation's root said of its keys.
    ///
    /// # Errors
    /// As [`Book::enrolled`].
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

    /// The checked entries of a document, in order of arrival, each with whether a receipt covers it,
    /// and the names of rows found damaged.
    ///
    /// # Errors
    /// [`BookError`].
    pub fn entries(&self, subject: Subject) -> Result<(Vec<Kept>, Vec<String>), BookError> {
        kept(self.store(), subject)
    }

    /// Begins a sync session with the office.
    ///
    /// # Errors
    /// [`SyncError::NotEnrolled`] when there is no office yet.
    pub fn sync_session(&self) -> Result<Session, BookError> {
        Ok(Session::new(self.organisation_key()?.ok_or(SyncError::NotEnrolled)?))
    }

    /// The session's next request.
    ///
    /// # Errors
    /// [`BookError::Sync`].
    pub fn sync_request(&mut self, session: &mut Session) -> Result<Vec<u8>, BookError> {
        let now = self.now();
        Ok(session.request(self.store.as_mut(), &self.key, now)?)
    }

    /// Hands the session the reply.
    ///
    /// # Errors
    /// [`BookError::Sync`].
    pub fn sync_receive(&mut self, session: &mut Session, reply: &[u8]) -> Result<Step, BookError> {
        let now = self.now();
        let result = session.receive(self.store.as_mut(), reply, now);
        self.forget_documents(&session.report().touched.clone());
        Ok(result?)
    }

    /// Begins a check of the office's log, for after a sync.
    ///
    /// # Errors
    /// [`SyncError::NotEnrolled`] when there is no office yet.
    pub fn log_watch(&self) -> Result<LogWatch, BookError> {
        Ok(LogWatch::new(self.organisation_key()?.ok_or(SyncError::NotEnrolled)?))
    }

    /// The check's next request; nothing when there is nothing to ask.
    ///
    /// # Errors
    /// [`BookError::Sync`].
    pub fn log_request(&self, watch: &mut LogWatch) -> Result<Option<Vec<u8>>, BookError> {
        Ok(watch.request(self.store.as_ref(), &self.key, self.now())?)
    }

    /// Hands the check the reply.
    ///
    /// # Errors
    /// [`BookError::Sync`].
    pub fn log_receive(&mut self, watch: &mut LogWatch, reply: &[u8]) -> Result<Step, BookError> {
        let now = self.now();
        Ok(watch.receive(self.store.as_mut(), reply, now)?)
    }

    /// How the office's log stands, as known here; nothing before this device was enrolled.
    ///
    /// # Errors
    /// [`BookError::Store`].
    pub fn log_standing(&self) -> Result<Option<LogStanding>, BookError> {
        let Some(key) = self.organisation_key()? else { return Ok(None) };
        Ok(Some(log_standing(self.store.as_ref(), &key)?))
    }

    /// A signed request to be enrolled by a one-time code, for the server that said its key and its time
    /// are these.
    ///
    /// # Errors
    /// [`BookError::Entry`] when it cannot be encoded.
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

    /// A signed request to be let at photographs. `server_time` is what the server said its time is,
    /// when it just refused one for being too far off.
    ///
    /// # Errors
    /// [`SyncError::NotEnrolled`] when there is no office yet.
    pub fn pass_request(&mut self, server_time: Option<UtcMillis>) -> Result<Vec<u8>, BookError> {
        let organisation_key = self.organisation_key()?.ok_or(SyncError::NotEnrolled)?;
        let at = server_time.unwrap_or(self.stamp()?.corrected());
        let request = PassRequest::new(organisation_key, at, self.randomness.as_mut());
        Ok(request.seal(&self.key)?)
    }

    /// Writes documents into a carry file, photographs included as given.
    ///
    /// # Errors
    /// [`BookError::Sync`].
    pub fn carry_out(&self, subjects: &[Subject], photos: Vec<CarriedPhoto>) -> Result<Vec<u8>, BookError> {
        Ok(carry_out(self.store.as_ref(), subjects, photos)?)
    }

    /// Reads a carry file.
    ///
    /// # Errors
    /// [`BookError::Sync`] when it is none.
    pub fn carry_in(&mut self, file: &[u8]) -> Result<CarryReport, BookError> {
        let (now, key) = (self.now(), self.organisation_key()?);
        let report = carry_in(self.store.as_mut(), file, key.as_ref(), now)?;
        self.forget_documents(&report.touched);
        Ok(report)
    }

    /// Documents in memory are read again after the store changed beneath them.
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

/// The checked entries of a document in a store, and the names of rows found damaged.
fn kept(store: &dyn Store, subject: Subject) -> Result<(Vec<Kept>, Vec<String>), BookError> {
    let rows = store.entries_of(subject)?;
    let mut entries = Vec::with_capacity(rows.rows.len());
    for row in rows.rows {
        entries.push((Entry::reopen(row.id, row.bytes)?, row.receipted));
    }
    Ok((entries, rows.damaged))
}
