//! Changes that the office does not accept for now. The device keeps them unsent until the time the office
//! stated.
//!
//! Only `session` uses this module. Changes that were refused for good are in another list, which `session`
//! keeps.

use std::collections::BTreeSet;

use crate::clock::UtcMillis;
use crate::document::CheckedChange;
use crate::ids::{Digest, EntryId, Subject};
use crate::store::{Store, StoreError, StoredChange, Write};

/// The name of the value that holds the time (by this device's clock) from which the changes are accepted,
/// and the hash and document of each change.
const PUT_OFF: &str = "sync/put_off";
/// The name of the value that holds the office's reason.
const WHY: &str = "sync/put_off_why";
/// The bytes per change in that value: hash and document.
const CHANGE: usize = 32 + 17;
/// The longest time in milliseconds for which an office puts changes off. A longer wait means that a clock
/// was changed, and is ignored.
const LONGEST: i64 = 2 * 24 * 60 * 60 * 1000;

/// The changes that the office put off, with their documents.
#[derive(Debug, Default)]
pub(super) struct PutOff {
    until: i64,
    changes: BTreeSet<(Subject, Digest)>,
    why: String,
}

impl PutOff {
    /// Reads the changes that must not be sent yet.
    pub(super) fn read(store: &dyn Store, now: UtcMillis) -> Result<PutOff, StoreError> {
        let kept = store.value(PUT_OFF)?.unwrap_or_default();
        let Some((until, rest)) = kept.split_first_chunk::<8>() else { return Ok(PutOff::default()) };
        let until = i64::from_be_bytes(*until);
        if !(now.0..=now.0.saturating_add(LONGEST)).contains(&until) {
            return Ok(PutOff::default());
        }
        let changes = rest.chunks_exact(CHANGE).filter_map(|change| {
            let (hash, subject) = change.split_first_chunk::<32>()?;
            Some((Subject::from_bytes(subject)?, Digest(*hash)))
        });
        let changes = changes.collect();
        let why = String::from_utf8(store.value(WHY)?.unwrap_or_default()).unwrap_or_default();
        Ok(PutOff { until, changes, why })
    }

    /// Adds changes that are accepted from `until` on, by this device's clock.
    pub(super) fn add(
        &mut self,
        store: &mut dyn Store,
        changes: &[(Subject, Digest)],
        until: UtcMillis,
        why: &str,
    ) -> Result<(), StoreError> {
        self.changes.extend(changes.iter().copied());
        self.until = self.until.max(until.0);
        let mut kept = self.until.to_be_bytes().to_vec();
        for (subject, hash) in &self.changes {
            kept.extend(hash.0);
            kept.extend(subject.to_bytes());
        }
        why.clone_into(&mut self.why);
        let why = Write::Value { key: WHY, value: why.as_bytes() };
        store.commit(&[Write::Value { key: PUT_OFF, value: &kept }, why])?;
        Ok(())
    }

    /// Returns the office's reason while any change is put off.
    pub(super) fn why(&self) -> Option<&str> {
        Some(self.why.as_str()).filter(|why| !self.is_empty() && !why.is_empty())
    }

    pub(super) fn is_empty(&self) -> bool {
        self.changes.is_empty()
    }

    /// Returns the changes to send now, in order, up to about the given number of bytes.
    pub(super) fn changes_to_send(
        &self,
        store: &dyn Store,
        bytes: usize,
    ) -> Result<Vec<StoredChange>, StoreError> {
        if self.is_empty() {
            return store.changes_not_held(bytes);
        }
        let mut budget = bytes;
        let mut to_send = store.changes_not_held(usize::MAX)?;
        to_send.retain(|change| !self.changes.contains(&(change.subject, change.hash)));
        let most = to_send.iter().take_while(|change| {
            let room = budget > 0;
            budget = budget.saturating_sub(change.bytes.len().max(1));
            room
        });
        let most = most.count();
        to_send.truncate(most);
        Ok(to_send)
    }

    /// Returns the documents that differ from the office's because of put-off changes, and the entries the
    /// office lacks for this reason.
    pub(super) fn lacking(
        &self,
        store: &dyn Store,
    ) -> Result<(BTreeSet<Subject>, BTreeSet<EntryId>), StoreError> {
        let subjects: BTreeSet<Subject> = self.changes.iter().map(|(subject, _)| *subject).collect();
        let mut entries = BTreeSet::new();
        for subject in &subjects {
            for change in store.changes_of(*subject)?.rows {
                if !self.changes.contains(&(change.subject, change.hash)) {
                    continue;
                }
                let Ok(checked) = CheckedChange::check(&change.bytes, change.subject) else { continue };
                for entry in checked.entries() {
                    // An entry that also stands in another document may have reached the office through that
                    // one.
                    if store.receipts_of(entry.id)?.is_empty() {
                        entries.insert(entry.id);
                    }
                }
            }
        }
        Ok((subjects, entries))
    }
}
