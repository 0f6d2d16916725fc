//! The answering side: one call per request. All state between calls is in the store.

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

/// The reason why a request was not answered.
#[derive(Debug, thiserror::Error)]
pub enum Refusal {
    /// The bytes are not a request.
    #[error("not a request of this protocol: {0}")]
    Unreadable(#[from] EntryError),
    /// No device that this organisation enrolled signed the request.
    #[error("this device is not enrolled with this organisation")]
    UnknownDevice,
    /// The device was revoked, so nothing is delivered to it.
    #[error("this device has been revoked")]
    Revoked,
    /// The request exceeds a limit or names the same item twice.
    #[error("it asks for too many {0} in one request, or for some of them twice")]
    TooMuch(&'static str),
    /// The store failed.
    #[error(transparent)]
    Store(#[from] StoreError),
}

/// The outcome of a request.
#[derive(Debug)]
pub struct Answer {
    /// The reply's bytes.
    pub reply: Vec<u8>,
    /// The device that sent the request.
    pub device: DeviceId,
    /// Whether that device was revoked.
    pub revoked: bool,
    /// Entries that were new to the ledger, each with its document.
    pub new: Vec<(Subject, EntryId)>,
    /// The number of changes and messages that were refused and put into quarantine.
    pub refused: usize,
    /// The device's clock minus the clock of the server's machine, in milliseconds.
    pub device_ahead_millis: i64,
    /// The numbers of entries and photographs that remain unsent on the device after this reply, by its own
    /// count.
    pub unsent: (u64, u64),
}

/// The server's side of a sync round.
pub struct Answerer<'a> {
    /// The server's store.
    pub store: &'a mut dyn Store,
    /// The organisation's key.
    pub key: &'a OrganisationKey,
    /// The random name of the ledger, see [`Cursor::epoch`].
    pub epoch: u64,
    /// The largest accepted size of a bulk after inflation, in bytes.
    pub largest_bulk: usize,
    /// The limits for the device that asks. Without an allowance there is no limit, and refused changes go
    /// into the store's quarantine.
    pub allowance: Option<&'a mut dyn Allowance>,
}

/// The name of the value that holds the version of the certificate list.
pub const CERTIFICATES_VERSION: &str = "certificates/version";

/// The time that a round is answered with, and the time of the machine's clock. They differ only after the
/// clock was set back.
#[derive(Clone, Copy)]
struct Times {
    signed: UtcMillis,
    clock: UtcMillis,
}

/// The content of one request, and the parts of its reply collected so far.
#[derive(Default)]
struct Work {
    asked: Vec<EntryId>,
    sent: HashSet<(Subject, Digest)>,
    new: Vec<(Subject, EntryId)>,
    refused: usize,
    delivered: Vec<EntryId>,
    /// The position that the device has read up to after this reply; `None` when the reply delivers nothing
    /// further.
    reached: Option<u64>,
    bulk: ReplyBulk,
}

impl<'a> Answerer<'a> {
    /// Creates an answerer with the default limits.
    pub fn new(store: &'a mut dyn Store, key: &'a OrganisationKey, epoch: u64) -> Answerer<'a> {
        Answerer { store, key, epoch, largest_bulk: LARGEST_BULK, allowance: None }
    }

    /// Answers one request. Answering the same request again changes nothing.
    ///
    /// # Errors
    /// [`Refusal`]. Valid changes of a request are kept even if other changes in it are refused.
    pub fn answer(&mut self, request: &[u8], now: UtcMillis) -> Result<Answer, Refusal> {
        let devices = Devices::read(self.store)?;
        let opened = OpenedRequest::read(request, &devices, self.key, self.largest_bulk)?;
        self.answer_opened(&opened, now)
    }

    /// Answers a request that was opened before the store was locked. `clock` is the time of the machine's
    /// clock. The receipt and the leaves share one time, which is never earlier than a time signed before.
    ///
    /// # Errors
    /// As for [`Answerer::answer`].
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

    /// Returns why a change is not accepted for now if it exceeds the device's allowance, and records the
    /// change's index in the request so that the device sends it again.
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

    /// Stores a change, its entries and their log leaves in one commit.
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

    /// Answers reconciling messages, the survey, and requests for whole documents. Changes are accepted for
    /// any document; answers are given only for documents in the device's scope.
    fn reconcile(
        &mut self,
        asked: &RequestBulk,
        scope: &Scope,
        work: &mut Work,
        now: UtcMillis,
    ) -> Result<(), Refusal> {
        // Messages beyond the usual number per round are ignored, because each requires loading a document.
        for message in asked.messages.iter().take(DOCUMENTS_PER_ROUND) {
            let outcome = load(self.store, message.subject).and_then(|mut document| {
                let mut state = ReconcileState::default();
                let outcome = document.reconcile_receive(&mut state, &message.bytes, message.subject)?;
                Ok((document.reconcile_message(&mut state), outcome))
            });
            match outcome {
                Ok((answer, outcome)) => {
                    for checked in &outcome.new {
                        // A change that is put off here arrives again as an ordinary change and is then put
                        // off with its index.
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

    /// Adds the changes that the device has not read yet, except those that it sent in this request.
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
            // The cursor belongs to another ledger: this one before a backup was restored, or another scope.
            // The device will compare its records, so the whole ledger is not sent again.
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

    /// Adds the certificates if the device knows another version of the list: all of them, or only its own
    /// certificate if the device receives nothing else.
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

    /// Stores the receipt for entries that had none, in the same bytes that the device stores. Evidence
    /// packets may need it years later.
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
        // The stored changes were checked on arrival; they are decoded again only to get the ids for the
        // receipt.
        if let Ok(checked) = CheckedChange::check(&bytes, subject) {
            self.delivered.extend(checked.entries().iter().map(|e| e.id));
            self.bulk.changes.push(Change { subject, bytes });
        }
    }
}

/// Returns the writes that store a checked change and its entries.
pub(super) fn writes_of(checked: &CheckedChange, subject: Subject, held: bool) -> Vec<Write<'_>> {
    let mut writes: Vec<Write<'_>> =
        checked.entries().iter().map(|entry| Write::Entry { subject, entry }).collect();
    writes.push(Write::Change { subject, hash: checked.hash(), bytes: checked.bytes(), held });
    writes
}

/// Loads a document from its stored changes for reconciling. The document makes no changes, so its actor id
/// does not matter.
pub(super) fn load(store: &dyn Store, subject: Subject) -> Result<Document, super::SyncError> {
    const NOBODY: [u8; 16] = [0xff; 16];
    let changes = store.changes_of(subject)?.rows;
    Ok(Document::load(NOBODY, changes.iter().map(|c| c.bytes.as_slice()))?)
}

/// Returns all documents of a scope, each with the digest of its entries.
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
