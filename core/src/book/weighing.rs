//! Judging the entries that a book's new entries follow, by the certificates and receipts on this device.
//!
//! `append` uses this module when it makes entries; `gather` judges entries for display in the same way.

use std::collections::BTreeMap;

use super::{Book, BookError};
use crate::authority::{Authority, Judged};
use crate::clock::UtcMillis;
use crate::entry::{Entry, Trusts};
use crate::ids::{EntryId, Subject};
use crate::sync::received_from_revoked;

/// The authority as known on this device, and the times when the office received entries of revoked devices.
pub(super) struct Weighing {
    pub authority: Authority,
    received: BTreeMap<EntryId, UtcMillis>,
}

impl Book {
    /// Reads everything that is needed to judge these entries.
    pub(super) fn weighing(&self, entries: &[Entry]) -> Result<Weighing, BookError> {
        let known = self.certified.borrow().clone();
        let certified = match known {
            Some(certified) => certified,
            None => {
                let keys = self.organisation_keys()?;
                let keys = keys.as_ref().map(|keys| keys as &dyn Trusts);
                let certificates = self.store.certificates()?;
                let bytes = certificates.iter().map(|(_, bytes)| bytes.as_slice());
                self.certified.borrow_mut().insert(Authority::read(keys, bytes, false)).clone()
            }
        };
        let authority = certified.vouching(entries).at(self.stamp()?.corrected());
        let mut weighing = Weighing { authority, received: BTreeMap::new() };
        weighing.take(self, entries)?;
        Ok(weighing)
    }
}

impl Weighing {
    /// Adds further entries.
    pub fn take(&mut self, book: &Book, entries: &[Entry]) -> Result<(), BookError> {
        if let Some(key) = book.organisation_keys()? {
            let received = received_from_revoked(book.store(), &key, &self.authority, entries.iter())?;
            self.received.extend(received);
        }
        Ok(())
    }

    /// Returns the entries with the times when the office received them.
    pub fn received<'e>(
        &self,
        entries: &'e [Entry],
    ) -> impl Iterator<Item = (&'e Entry, Option<UtcMillis>)> + use<'e, '_> {
        entries.iter().map(|entry| (entry, self.received.get(&entry.id).copied()))
    }

    /// Judges entries of one document.
    pub fn judge<'e>(&self, subject: Subject, entries: impl Iterator<Item = &'e Entry>) -> Vec<Judged<'e>> {
        let received = entries.map(|entry| (entry, self.received.get(&entry.id).copied()));
        self.authority.document(subject, received)
    }
}
