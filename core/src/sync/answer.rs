//! The answering side: one call per request, no memory between calls but the store's.

use std::collections::{BTreeSet, HashSet};

use super::allowance::{Allowance, Over};
use super::keys::lacking;
use super::ledger_time::{NEWEST_SIGNED, ledger_time};
use super::opened::{Devices, OpenedRequest};
use super::session::DOCUMENTS_PER_ROUND;
use super::wire::{
    CHANGES_PER_ROUND, CertificateList, Change, Cursor, LARGEST_BULK, Later, ReplyBulk, ReplyHead,
    RequestBulk, RequestHead, Surveyed, entries_digest, parts, seal_reply_with, short_sum,
};
use crate::clock::UtcMillis;
use crate::document::{CheckedChange, Document, ReconcileState};
use crate::entry::{Certificate, EntryError, OrganisationKey};
use crate::ids::{DeviceId, Digest, EntryId, Subject};
use crate::log::Receipt;
use crate::store::{Scope, Store, StoreError, Write};
use crate::tree::tree_of;

/// Why a request was not answered.
#[derive(Debug, thiserror::Error)]
pub enum Refusal {
    /// Not a request.
    #[error("not a request of this protocol: {0}")]
    Unreadable(#[from] EntryError),
    /// Signed by nobody this organisation enrolled.
    #[error("this device is not enrolled with this organisation")]
    UnknownDevice,
    /// The device was revoked: nothing is delivered to it.
    #[error("this device has been revoked")]
    Revoked,
    /// It asks for more at once than any device does, or for something twice.
    #[error("it asks for too many {0} in one request, or for some of them twice")]
    TooMuch(&'static str),
    /// The ledger failed.
    #[error(transparent)]
    Store(#[from] StoreError),
}

/// What a request led to.
#[derive(Debug)]
pub struct Answer {
    /// The reply's bytes.
    pub reply: Vec<u8>,
    /// Who asked.
    pub device: DeviceId,
    /// Whether that device is revoked.
    pub revoked: bool,
    /// Entries that were new to the ledger, with their documents.
    pub new: Vec<(Subject, EntryId)>,
    /// Changes and messages that were refused and kept aside.
    pub refused: usize,
    /// Device clock minus the clock of the server's machine, milliseconds.
    pub device_ahead_millis: i64,
    /// Entries and photographs the device still has unsent once it has this reply, by its own count.
    pub unsent: (u64, u64),
}

/// A ledger that answers.
pub struct Answerer<'a> {
    /// The ledger.
    pub store: &'a mut dyn Store,
    /// The organisation's key.
    pub key: &'a OrganisationKey,
    /// Random name of the ledger, see [`Cursor::epoch`].
    pub epoch: u64,
    /// The largest bulk after inflation, bytes.
    pub largest_bulk: usize,
    /// What the asker may still bring; without it everything, and what is refused is kept in the ledger.
    pub allowance: Option<&'a mut dyn Allowance>,
}

/// The name of the value that holds the certificate list's version.
pub const CERTIFICATES_VERSION: &str = "certificates/version";

/// The time a round is answered with, and what the machine's clock shows: the same unless that went back.
#[derive(Clone, Copy)]
struct Times {
    signed: UtcMillis,
    clock: UtcMillis,
}

/// What one request asks and what is being gathered for its reply.
#[derive(Default)]
struct Work {
    asked: Vec<EntryId>,
    sent: HashSet<(Subject, Digest)>,
    new: Vec<(Subject, EntryId)>,
    refused: usize,
    delivered: Vec<EntryId>,
    /// How far the asker has read once it has this reply; absent when it reads nothing on.
    reached: Option<u64>,
    bulk: ReplyBulk,
}

impl<'a> Answerer<'a> {
    /// An answerer with the usual limits.
    pub fn new(store: &'a mut dyn Store, key: &'a OrganisationKey, epoch: u64) -> Answerer<'a> {
        Answerer { store, key, epoch, largest_bulk: LARGEST_BULK, allowance: None }
    }

    /// Answers one request. Doing it twice changes nothing.
    ///
    /// # Errors
    /// [`Refusal`]; what a request's good parts brought is kept even when others are refused.
    pub fn answer(&mut self, request: &[u8], now: UtcMillis) -> Result<Answer, Refusal> {
        let devices = Devices::read(self.store)?;
        let opened = OpenedRequest::read(request, &devices, self.key, self.largest_bulk)?;
        self.answer_opened(&opened, now)
    }

    /// Answers a request that was opened before anybody waited for the ledger. `clock` is what the machine shows;
    /// receipt and leaves share one time, which is never before what was signed already.
    ///
    /// # Errors
    /// As [`Answerer::answer`].
    pub fn answer_opened(&mut self, opened: &OpenedRequest, clock: UtcMillis) -> Result<Answer, Refusal> {
        let now = Times { signed: ledger_time(self.store, clock)?, clock };
        let OpenedRequest { digest: request, head, asked, .. } = opened;
        let certificate = opened.certificate_now(self.store, self.key)?;
        let number_key = format!("round/{}", certificate.device);
        let last = self.number_seen(&number_key)?;
        let scope = Scope::of(&certificate);
        let mut work = Work::default();
        if head.number <= last {
            return self.reply(*request, &certificate, head, work, now, Some(last));
        }
        self.take_changes(opened, &mut work, now.signed)?;
        self.store.commit(&[
            Write::Value { key: &number_key, value: &head.number.to_be_bytes() },
            Write::Value { key: NEWEST_SIGNED, value: &now.signed.0.to_be_bytes() },
        ])?;
        work.asked.extend(&asked.asks);
        for (at, id) in (0u32..).zip(work.asked.clone()) {
            if self.store.entry(id)?.is_none() {
                work.bulk.lacking.push(at);
            }
        }
        for (at, photo) in (0u32..).zip(&asked.photos) {
            if self.store.photo(*photo)?.is_some_and(|p| p.here) {
                work.bulk.photos.push(at);
            }
        }
        if certificate.revoked_at.is_none() {
            self.reconcile(asked, &scope, &mut work, now.signed)?;
            self.deliver(head, asked, &scope, &mut work)?;
            self.add_certificates(head.certificates, &certificate, &scope, &mut work)?;
        }
        let (entries, photos) = asked.unsent.unwrap_or_default();
        let receipted = work.asked.len() - work.bulk.lacking.len();
        let unsent =
            (entries.saturating_sub(receipted as u64), photos.saturating_sub(work.bulk.photos.len() as u64));
        let mut answer = self.reply(*request, &certificate, head, work, now, None)?;
        answer.unsent = unsent;
        Ok(answer)
    }

    fn number_seen(&self, key: &str) -> Result<u64, StoreError> {
        let value = self.store.value(key)?;
        Ok(value.and_then(|v| v.try_into().ok()).map_or(0, u64::from_be_bytes))
    }

    fn take_changes(
        &mut self,
        opened: &OpenedRequest,
        work: &mut Work,
        now: UtcMillis,
    ) -> Result<(), StoreError> {
        for (at, (change, checked)) in (0u32..).zip(opened.asked.changes.iter().zip(&opened.changes)) {
            match checked {
                Ok(checked) => {
                    if let Some(why) = self.put_off(change.subject, checked, at, work)? {
                        work.bulk.refused.push((at, why));
                        continue;
                    }
                    work.sent.insert((change.subject, checked.hash()));
                    work.asked.extend(checked.entries().iter().map(|e| e.id));
                    self.keep(checked, change.subject, work, now)?;
                }
                Err(why) => {
                    self.set_aside(change, why, now)?;
                    work.refused += 1;
                    work.bulk.refused.push((at, why.clone()));
                }
            }
        }
        Ok(())
    }

    /// Why a change is not taken in for now, if it is more than the asker is allowed. Its place is noted, so
    /// that the asker brings it again.
    fn put_off(
        &mut self,
        subject: Subject,
        checked: &CheckedChange,
        at: u32,
        work: &mut Work,
    ) -> Result<Option<String>, StoreError> {
        let Some(over) = self.over(subject, checked)? else { return Ok(None) };
        let later = work.bulk.later.get_or_insert_with(|| Later { places: Vec::new(), at: over.until });
        later.places.push(at);
        Ok(Some(over.why))
    }

    fn over(&mut self, subject: Subject, checked: &CheckedChange) -> Result<Option<Over>, StoreError> {
        match &mut self.allowance {
            Some(allowance) => allowance.take(self.store, subject, checked),
            None => Ok(None),
        }
    }

    /// Keeps a change, its entries and their leaves in the log, all or none.
    fn keep(
        &mut self,
        checked: &CheckedChange,
        subject: Subject,
        work: &mut Work,
        now: UtcMillis,
    ) -> Result<(), StoreError> {
        let mut writes = writes_of(checked, subject, true);
        let entries = checked.entries().iter();
        writes.extend(entries.map(|entry| Write::Leaf {
            entry: entry.id,
            received_at: now,
            about: Some(entry.body.about),
        }));
        let new = self.store.commit(&writes)?;
        work.new.extend(new.into_iter().map(|id| (subject, id)));
        Ok(())
    }

    fn set_aside(&mut self, change: &Change, why: &str, now: UtcMillis) -> Result<(), StoreError> {
        if let Some(allowance) = &mut self.allowance {
            allowance.set_aside(change, why);
            return Ok(());
        }
        let subject = Some(change.subject);
        self.store.commit(&[Write::Quarantine { subject, bytes: &change.bytes, why, at: now }])?;
        Ok(())
    }

    /// Answers reconciling messages, the survey, and requests for whole documents: what they bring is taken
    /// whatever it is of, what they ask is told of documents of the asker's scope alone.
    fn reconcile(
        &mut self,
        asked: &RequestBulk,
        scope: &Scope,
        work: &mut Work,
        now: UtcMillis,
    ) -> Result<(), Refusal> {
        // What is asked beyond an honest round is not answered: each costs a document.
        for message in asked.messages.iter().take(DOCUMENTS_PER_ROUND) {
            let outcome = load(self.store, message.subject).and_then(|mut document| {
                let mut state = ReconcileState::default();
                let outcome = document.reconcile_receive(&mut state, &message.bytes, message.subject)?;
                Ok((document.reconcile_message(&mut state), outcome))
            });
            match outcome {
                Ok((answer, outcome)) => {
                    for checked in &outcome.new {
                        // What is put off here is put off again, with its place, when it comes as a change.
                        if self.over(message.subject, checked)?.is_none() {
                            self.keep(checked, message.subject, work, now)?;
                        }
                    }
                    for (bytes, why) in outcome.refused {
                        self.set_aside(&Change { subject: message.subject, bytes }, &why, now)?;
                        work.refused += 1;
                    }
                    if let Some(bytes) = answer
                        && self.store.scopes().is_in(message.subject, scope)?
                    {
                        work.bulk.messages.push(Change { subject: message.subject, bytes });
                    }
                }
                Err(super::SyncError::Store(error)) => return Err(error.into()),
                Err(error) => {
                    self.set_aside(message, &error.to_string(), now)?;
                    work.refused += 1;
                }
            }
        }
        let whole: BTreeSet<&Subject> = asked.whole.iter().take(DOCUMENTS_PER_ROUND).collect();
        for subject in whole {
            if !self.store.scopes().is_in(*subject, scope)? {
                continue;
            }
            for change in self.store.changes_of(*subject)?.rows {
                work.add_delivery(change.subject, change.bytes);
            }
        }
        if asked.survey || !asked.messages.is_empty() || !asked.whole.is_empty() {
            work.bulk.survey = survey(self.store, scope)?;
        }
        Ok(())
    }

    /// What the asker has not read yet. Its own changes of this very request are not sent back.
    fn deliver(
        &mut self,
        head: &RequestHead,
        asked: &RequestBulk,
        scope: &Scope,
        work: &mut Work,
    ) -> Result<(), StoreError> {
        if matches!(scope, Scope::Sites(_)) {
            self.store.commit(&[Write::Feed])?;
        }
        let reconciling = asked.survey || !asked.messages.is_empty() || !asked.whole.is_empty();
        if reconciling {
            return Ok(());
        }
        let newest = self.store.scopes().newest_in(scope)?;
        let from = match head.cursor {
            Some(cursor) if cursor.epoch == scope.epoch(self.epoch) => cursor.position,
            // It read another ledger (this one before a copy was put back, or what is of other sites): it will
            // compare, not read all again.
            Some(_) => newest,
            None => 0,
        };
        let mut reached = from.min(newest);
        let most = asked.most.and_then(|most| usize::try_from(most).ok());
        let mut budget = most.unwrap_or(CHANGES_PER_ROUND).min(CHANGES_PER_ROUND);
        while reached < newest && budget > 0 {
            let page = self.store.scopes().fed_after(scope, reached, budget)?;
            let Some(last) = page.last() else {
                reached = newest; // only damaged rows are left; their entries go out by reconciling
                break;
            };
            reached = last.position;
            for change in page.into_iter().map(|fed| fed.change) {
                if work.sent.contains(&(change.subject, change.hash)) {
                    continue;
                }
                budget = budget.saturating_sub(change.bytes.len().max(1));
                work.add_delivery(change.subject, change.bytes);
            }
        }
        work.bulk.more = reached < newest;
        work.reached = Some(reached);
        Ok(())
    }

    /// The certificates, when the asker knows another list: all of them, or to whom nothing else is told, its own.
    fn add_certificates(
        &mut self,
        known: u64,
        own: &Certificate,
        scope: &Scope,
        work: &mut Work,
    ) -> Result<(), StoreError> {
        let version = self.number_seen(CERTIFICATES_VERSION)?;
        if version != known {
            let certificates = match scope {
                Scope::Nothing => self.store.certificate(own.device)?.into_iter().collect(),
                Scope::Everything | Scope::Sites(_) => {
                    self.store.certificates()?.into_iter().map(|(_, bytes)| bytes).collect::<Vec<_>>()
                }
            };
            let certificates = certificates.into_iter().map(serde_bytes::ByteBuf::from).collect();
            work.bulk.certificates = Some(CertificateList { version, certificates });
        }
        Ok(())
    }

    fn reply(
        &mut self,
        request: [u8; 16],
        certificate: &Certificate,
        head: &RequestHead,
        work: Work,
        now: Times,
        old_number: Option<u64>,
    ) -> Result<Answer, Refusal> {
        let ahead = head.at.since(now.clock);
        let scope = Scope::of(certificate);
        let tally = self.store.scopes().tally_in(&scope)?;
        let absent = &work.bulk.lacking; // in ascending order, as they were gone through
        let held: Vec<EntryId> = (0u32..)
            .zip(&work.asked)
            .filter(|(at, _)| absent.binary_search(at).is_err())
            .map(|(_, id)| *id)
            .collect();
        let position = match work.reached {
            Some(reached) => reached,
            None => self.store.scopes().newest_in(&scope)?,
        };
        let reply_head = ReplyHead {
            request,
            at: now.signed,
            cursor: Cursor { epoch: scope.epoch(self.epoch), position },
            count: tally.count,
            sum: short_sum(&tally),
            covers: tree_of(&held),
            delivers: tree_of(&work.delivered),
            bulk: None,
            revoked: certificate.revoked_at.is_some(),
            old_number,
            machine: (now.signed != now.clock).then_some(now.clock),
            asker_ahead: Some(ahead),
        };
        let statements = lacking(self.key.keys(), head.statement.as_deref().map(Vec::as_slice));
        let reply = seal_reply_with(reply_head, &work.bulk, self.key, statements)?;
        self.keep_receipt(&reply, held)?;
        Ok(Answer {
            reply,
            device: certificate.device,
            revoked: certificate.revoked_at.is_some(),
            new: work.new,
            refused: work.refused,
            device_ahead_millis: ahead,
            unsent: (0, 0),
        })
    }

    /// Keeps the receipt given here for entries that had none: packets show it years later. It is the same
    /// bytes the device keeps.
    fn keep_receipt(&mut self, reply: &[u8], held: Vec<EntryId>) -> Result<(), Refusal> {
        let mut first = false;
        for id in &held {
            first |= self.store.receipts_of(*id)?.is_empty();
        }
        if first {
            let receipt = Receipt { head: parts(reply)?.head, entries: held };
            let bytes = receipt.to_bytes()?;
            self.store.commit(&[Write::Receipt { bytes: &bytes, entries: &receipt.entries }])?;
        }
        Ok(())
    }
}

impl Work {
    fn add_delivery(&mut self, subject: Subject, bytes: Vec<u8>) {
        // Stored changes were checked when they came in; the ids are read again for the receipt.
        if let Ok(checked) = CheckedChange::check(&bytes, subject) {
            self.delivered.extend(checked.entries().iter().map(|e| e.id));
            self.bulk.changes.push(Change { subject, bytes });
        }
    }
}

/// The writes that keep a checked change and its entries.
pub(super) fn writes_of(checked: &CheckedChange, subject: Subject, held: bool) -> Vec<Write<'_>> {
    let mut writes: Vec<Write<'_>> =
        checked.entries().iter().map(|entry| Write::Entry { subject, entry }).collect();
    writes.push(Write::Change { subject, hash: checked.hash(), bytes: checked.bytes(), held });
    writes
}

/// A document from its stored changes, for reconciling only: it makes no changes of its own.
pub(super) fn load(store: &dyn Store, subject: Subject) -> Result<Document, super::SyncError> {
    const NOBODY: [u8; 16] = [0xff; 16];
    let changes = store.changes_of(subject)?.rows;
    Ok(Document::load(NOBODY, changes.iter().map(|c| c.bytes.as_slice()))?)
}

/// All documents of a scope with the digest of their entries.
pub(super) fn survey(store: &dyn Store, scope: &Scope) -> Result<Vec<Surveyed>, StoreError> {
    store
        .scopes()
        .subjects_in(scope)?
        .into_iter()
        .map(|subject| {
            let rows = store.entries_of(subject)?.rows;
            Ok(Surveyed { subject, digest: entries_digest(rows.iter().map(|r| &r.id)) })
        })
        .collect()
}
