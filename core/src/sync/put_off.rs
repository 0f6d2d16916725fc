//! What the office does not take in for now: a device keeps it unsent, and brings it again when it may.
//!
//! Called by `session` alone. What was refused for good is another list and stands there.

use std::collections::BTreeSet;

use crate::clock::UtcMillis;
use crate::document::CheckedChange;
use crate::ids::{Digest, EntryId, Subject};
use crate::store::{Store, StoreError, StoredChange, Write};

/// The value that keeps it: from when on it is taken by this device's clock, then for each change its hash
/// and its document.
const PUT_OFF: &str = "sync/put_off";
/// The value that keeps the office's reason, for as long as it holds.
const WHY: &str = "sync/put_off_why";
/// Bytes of a change there: its hash and its document.
const CHANGE: usize = 32 + 17;
/// No bound puts anything off for longer: past it, a clock was moved.
const LONGEST: i64 = 2 * 24 * 60 * 60 * 1000;

/// Changes the office said to bring later, with their documents.
#[derive(Debug, Default)]
pub(super) struct PutOff {
    until: i64,
    changes: BTreeSet<(Subject, Digest)>,
    why: String,
}

impl PutOff {
    /// What is not to be sent yet.
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

    /// Adds changes that may come again at `until`, by this device's clock.
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

    /// The office's reason, while something is put off.
    pub(super) fn why(&self) -> Option<&str> {
        Some(self.why.as_str()).filter(|why| !self.is_empty() && !why.is_empty())
    }

    pub(super) fn is_empty(&self) -> bool {
        self.changes.is_empty()
    }

    /// Changes to be sent now, in order, of about so many bytes.
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

    /// The documents that differ from the office's for this reason, and the entries it lacks for it.
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
                    // One that stands in another document as well may be there all the same.
                    if store.receipts_of(entry.id)?.is_empty() {
                        entries.insert(entry.id);
                    }
                }
            }
        }
        Ok((subjects, entries))
    }
}
