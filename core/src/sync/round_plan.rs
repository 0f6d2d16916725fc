//! One round of several: what is decided about its request before anything is written, and what its reply is
//! read from afterwards.
//!
//! `rounds` has the ledger write the plans of all rounds together, and signs the replies.

use std::collections::{BTreeSet, HashSet};
use std::sync::Arc;

use super::SyncError;
use super::allowance::{Allowance, Over};
use super::answer::{AnswerError, CERTIFICATES_VERSION, load, survey};
use super::names;
use super::opened::OpenedRequest;
use super::session::DOCUMENTS_PER_ROUND;
use super::wire::{CHANGES_PER_ROUND, CertificateList, Change, Later, ReplyBulk, parts};
use crate::clock::UtcMillis;
use crate::document::{CheckedChange, ReconcileState};
use crate::entry::Certificate;
use crate::ids::{Digest, EntryId, Subject};
use crate::log::Receipt;
use crate::store::{Round, Scope, Sequenced, SignedReceipt, Store, StoreError, StoredChange, Write};

/// The time that a round is answered with, and the time of the machine's clock. They differ only after the
/// clock was set back.
#[derive(Debug, Clone, Copy)]
pub(super) struct Times {
    pub(super) signed: UtcMillis,
    pub(super) clock: UtcMillis,
}

/// A change to keep: the request's own, or one that a reconciling message brought.
#[derive(Debug)]
pub(super) enum Kept<'a> {
    Sent(&'a CheckedChange),
    Reconciled(Box<CheckedChange>),
}

impl Kept<'_> {
    pub(super) fn change(&self) -> &CheckedChange {
        match self {
            Kept::Sent(change) => change,
            Kept::Reconciled(change) => change,
        }
    }
}

/// What was decided about one request before anything was written.
#[derive(Debug)]
pub(super) struct Plan<'a> {
    pub(super) opened: &'a OpenedRequest,
    pub(super) certificate: Arc<Certificate>,
    /// Whether the device's certificate is gone since the request was opened.
    pub(super) unknown: bool,
    pub(super) now: Times,
    pub(super) counter: String,
    pub(super) keep: Vec<(Subject, Kept<'a>)>,
    /// Refused bytes for the store's quarantine, with the reason.
    pub(super) aside: Vec<(Change, String)>,
    pub(super) asked: Vec<EntryId>,
    pub(super) sent: HashSet<(Subject, Digest)>,
    pub(super) refused: usize,
    /// The parts of the reply that the request alone decides.
    pub(super) bulk: ReplyBulk,
}

/// The parts of a reply that are read from the ledger.
#[derive(Default)]
pub(super) struct Work {
    pub(super) delivered: Vec<EntryId>,
    /// The position that the device has read up to after this reply; `None` when the reply delivers nothing
    /// further.
    pub(super) reached: Option<u64>,
    pub(super) bulk: ReplyBulk,
}

impl Plan<'_> {
    pub(super) fn scope(&self) -> Scope {
        Scope::of(&self.certificate)
    }

    pub(super) fn round(&self) -> Round<'_> {
        let aside = self.aside.iter().map(|(change, why)| Write::Quarantine {
            subject: Some(change.subject),
            bytes: &change.bytes,
            why,
            at: self.now.signed,
        });
        Round {
            counter: &self.counter,
            // The number of a device that is unknown by now is old, so that nothing of it is written.
            number: if self.unknown { 0 } else { self.opened.head.number },
            changes: self.keep.iter().map(|(subject, kept)| (*subject, kept.change())).collect(),
            received_at: self.now.signed,
            beside: aside.collect(),
        }
    }

    pub(super) fn take_changes(
        &mut self,
        store: &dyn Store,
        allowance: &mut Option<&mut (dyn Allowance + '_)>,
    ) -> Result<(), StoreError> {
        let opened = self.opened;
        for (at, (change, checked)) in (0u32..).zip(opened.asked.changes.iter().zip(&opened.changes)) {
            match checked {
                Ok(checked) => {
                    if let Some(over) = over(store, change.subject, checked, allowance)? {
                        // The device sends the change again, which it finds by its index.
                        let until = over.until;
                        let later =
                            self.bulk.later.get_or_insert_with(|| Later { places: Vec::new(), at: until });
                        later.places.push(at);
                        self.bulk.refused.push((at, over.why));
                        continue;
                    }
                    self.sent.insert((change.subject, checked.hash()));
                    self.asked.extend(checked.entries().iter().map(|e| e.id));
                    self.keep.push((change.subject, Kept::Sent(checked)));
                }
                Err(why) => {
                    self.set_aside(change.clone(), why, allowance);
                    self.bulk.refused.push((at, why.clone()));
                }
            }
        }
        Ok(())
    }

    pub(super) fn set_aside(
        &mut self,
        change: Change,
        why: &str,
        allowance: &mut Option<&mut (dyn Allowance + '_)>,
    ) {
        self.refused += 1;
        match allowance {
            Some(allowance) => allowance.set_aside(&change, why),
            None => self.aside.push((change, why.to_owned())),
        }
    }

    /// Takes the changes out of reconciling messages and answers these. Changes are accepted for any
    /// document; answers are given only for documents in the device's scope.
    pub(super) fn reconcile(
        &mut self,
        store: &dyn Store,
        allowance: &mut Option<&mut (dyn Allowance + '_)>,
    ) -> Result<(), AnswerError> {
        // Messages beyond the usual number per round are ignored, because each requires loading a document.
        for message in self.opened.asked.messages.iter().take(DOCUMENTS_PER_ROUND) {
            let subject = message.subject;
            let outcome = load(store, subject).and_then(|mut document| {
                for (_, kept) in self.keep.iter().filter(|(about, _)| *about == subject) {
                    document.apply(kept.change())?;
                }
                let mut state = ReconcileState::default();
                let outcome = document.reconcile_receive(&mut state, &message.bytes, subject)?;
                Ok((document.reconcile_message(&mut state), outcome))
            });
            match outcome {
                Ok((answer, outcome)) => {
                    for checked in outcome.new {
                        // A change that is put off here arrives again as an ordinary change and is then put
                        // off with its index.
                        if over(store, subject, &checked, allowance)?.is_none() {
                            self.keep.push((subject, Kept::Reconciled(Box::new(checked))));
                        }
                    }
                    for (bytes, why) in outcome.refused {
                        self.set_aside(Change { subject, bytes }, &why, allowance);
                    }
                    if let Some(bytes) = answer {
                        self.bulk.messages.push(Change { subject, bytes });
                    }
                }
                Err(SyncError::Store(error)) => return Err(error.into()),
                Err(error) => self.set_aside(message.clone(), &error.to_string(), allowance),
            }
        }
        Ok(())
    }

    /// Finds which of the entries and photographs asked about the ledger holds. Returns these entries in the
    /// order asked.
    pub(super) fn look_up(&self, store: &dyn Store, work: &mut Work) -> Result<Vec<EntryId>, StoreError> {
        let brought: HashSet<EntryId> =
            self.keep.iter().flat_map(|(_, kept)| kept.change().entries()).map(|entry| entry.id).collect();
        let mut held = Vec::with_capacity(self.asked.len());
        for (at, id) in (0u32..).zip(&self.asked) {
            if brought.contains(id) || store.entry(*id)?.is_some() {
                held.push(*id);
            } else {
                work.bulk.lacking.push(at);
            }
        }
        for (at, photo) in (0u32..).zip(&self.opened.asked.photos) {
            if store.photo(*photo)?.is_some_and(|p| p.here) {
                work.bulk.photos.push(at);
            }
        }
        Ok(held)
    }

    /// Answers the survey and requests for whole documents.
    pub(super) fn answer_comparing(
        &self,
        store: &dyn Store,
        scope: &Scope,
        work: &mut Work,
    ) -> Result<(), StoreError> {
        let asked = &self.opened.asked;
        let mut messages = std::mem::take(&mut work.bulk.messages);
        for message in messages.drain(..) {
            if store.scopes().is_in(message.subject, scope)? {
                work.bulk.messages.push(message);
            }
        }
        let whole: BTreeSet<&Subject> = asked.whole.iter().take(DOCUMENTS_PER_ROUND).collect();
        for subject in whole {
            if !store.scopes().is_in(*subject, scope)? {
                continue;
            }
            for change in store.changes_of(*subject)?.rows {
                work.add_delivery(change);
            }
        }
        if asked.survey || !asked.messages.is_empty() || !asked.whole.is_empty() {
            work.bulk.survey = survey(store, scope)?;
        }
        Ok(())
    }

    /// Adds the changes that the device has not read yet, except those that it sent in this request.
    pub(super) fn deliver(
        &self,
        store: &dyn Store,
        scope: &Scope,
        epoch: u64,
        work: &mut Work,
    ) -> Result<(), StoreError> {
        let asked = &self.opened.asked;
        let reconciling = asked.survey || !asked.messages.is_empty() || !asked.whole.is_empty();
        if reconciling {
            return Ok(());
        }
        let newest = store.scopes().newest_in(scope)?;
        let from = match self.opened.head.cursor {
            Some(cursor) if cursor.epoch == scope.epoch(epoch) => cursor.position,
            // The cursor belongs to another ledger: this one before a backup was restored, or another scope.
            // The device will compare its records, so the whole ledger is not sent again.
            Some(_) => newest,
            None => 0,
        };
        let mut reached = from.min(newest);
        let most = asked.most.and_then(|most| usize::try_from(most).ok());
        let mut budget = most.unwrap_or(CHANGES_PER_ROUND).min(CHANGES_PER_ROUND);
        while reached < newest && budget > 0 {
            let page = store.scopes().fed_after(scope, reached, budget)?;
            let Some(last) = page.last() else {
                reached = newest; // only damaged rows are left; their entries go out by reconciling
                break;
            };
            reached = last.position;
            for change in page.into_iter().map(|fed| fed.change) {
                if self.sent.contains(&(change.subject, change.hash)) {
                    continue;
                }
                budget = budget.saturating_sub(change.bytes.len().max(1));
                work.add_delivery(change);
            }
        }
        work.bulk.more = reached < newest;
        work.reached = Some(reached);
        Ok(())
    }

    /// Adds the certificates and the names of people if the device knows another version of the list: all of
    /// them, or only its own certificate if the device receives nothing else.
    pub(super) fn add_certificates(
        &self,
        store: &dyn Store,
        scope: &Scope,
        work: &mut Work,
    ) -> Result<(), StoreError> {
        let version = number_in(store, CERTIFICATES_VERSION)?;
        if version != self.opened.head.certificates {
            let certificates = match scope {
                Scope::Nothing => store.certificate(self.certificate.device)?.into_iter().collect(),
                Scope::Everything | Scope::Sites(_) => {
                    store.certificates()?.into_iter().map(|(_, bytes)| bytes).collect::<Vec<_>>()
                }
            };
            let certificates = certificates.into_iter().map(serde_bytes::ByteBuf::from).collect();
            work.bulk.certificates = Some(CertificateList { version, certificates });
            if *scope != Scope::Nothing {
                work.bulk.names = Some(names::given(store)?);
            }
        }
        Ok(())
    }
}

impl Work {
    pub(super) fn add_delivery(&mut self, change: StoredChange) {
        let StoredChange { subject, bytes, entries, .. } = change;
        // Stored changes were checked on arrival. Those kept without the ids of their entries are decoded
        // again to get them for the receipt.
        let ids = entries.or_else(|| {
            let checked = CheckedChange::check(&bytes, subject).ok()?;
            Some(checked.entries().iter().map(|entry| entry.id).collect())
        });
        if let Some(ids) = ids {
            self.delivered.extend(ids);
            self.bulk.changes.push(Change { subject, bytes });
        }
    }
}

/// Returns why a change is not accepted for now if it exceeds the device's allowance.
fn over(
    store: &dyn Store,
    subject: Subject,
    checked: &CheckedChange,
    allowance: &mut Option<&mut (dyn Allowance + '_)>,
) -> Result<Option<Over>, StoreError> {
    match allowance {
        Some(allowance) => allowance.take(store, subject, checked),
        None => Ok(None),
    }
}

pub(super) fn number_in(store: &dyn Store, key: &str) -> Result<u64, StoreError> {
    let value = store.value(key)?;
    Ok(value.and_then(|v| v.try_into().ok()).map_or(0, u64::from_be_bytes))
}

/// Returns the receipt if any of its entries had none, in the same bytes that the device stores. Evidence
/// packets may need it years later.
pub(super) fn receipt_to_keep(
    store: &dyn Store,
    reply: &[u8],
    held: Vec<EntryId>,
    sequenced: &Sequenced,
) -> Result<Option<SignedReceipt>, AnswerError> {
    let mut first = !sequenced.new.is_empty();
    for id in &held {
        first = first || store.receipts_of(*id)?.is_empty();
    }
    if !first || held.is_empty() {
        return Ok(None);
    }
    let receipt = Receipt { head: parts(reply)?.head, entries: held };
    Ok(Some(SignedReceipt { bytes: receipt.to_bytes()?, entries: receipt.entries }))
}
