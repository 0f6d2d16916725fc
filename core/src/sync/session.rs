//! The asking side: a state machine that produces a request, takes the reply, and tells whether to continue.
//! All lasting state is in the store, so a session may be dropped at any point.

use std::collections::{BTreeMap, BTreeSet};

use super::SyncError;
use super::answer::load;
use super::certificates::{Word, own_certificate, scope_of, take_certificate};
use super::difference::{
    REFUSED, answered_outside, confirmed_outside, differing_subjects, entries_outside, refused_entries, same,
    send_what_is_lacking,
};
use super::keys::{known_up_to, take_statements};
use super::leaving::{Leaving, leaving, note_given, take_off};
use super::names::{MOST_NAMES, encoded, settle_names};
use super::put_off::PutOff;
use super::session_report::{Step, SyncReport};
use super::wire::{
    CHANGES_PER_ROUND, Change, Cursor, LARGEST_BULK, ReplyBulk, ReplyHead, RequestBulk, RequestHead,
    Surveyed, open_bulk, parts, request_digest, seal_request,
};
use crate::clock::UtcMillis;
use crate::document::{CheckedChange, Document, ReconcileState};
use crate::entry::{Certificate, DeviceKey, OrganisationKeys, PublicKey};
use crate::ids::{DeviceId, Digest, EntryId, OrganisationId, Subject};
use crate::log::Receipt;
use crate::store::{
    NAMES, Names, OWN_NAMES, Scope, Store, StoreError, Write, name_rows, organisation_keys, writes_of,
};
use crate::tree::tree_of;

/// The name of the value that holds the cursor.
const CURSOR: &str = "sync/cursor";
const NUMBER: &str = "sync/number";
const CERTIFICATES: &str = "sync/certificates";
/// The name of the value that holds the last known difference of device clock minus server clock
/// (milliseconds rounded to a whole minute, big-endian i64).
pub const CLOCK_AHEAD: &str = "sync/clock_ahead";

/// The most receipts requested per round for entries other than those being sent.
const ASKS_PER_ROUND: usize = 500;
/// The bytes of changes in a session's first request, chosen small because a poor connection carries little
/// before it breaks. The amount doubles with every answer and halves with every unanswered request.
const FIRST_CHANGES: usize = 64 * 1024;
const FEWEST_CHANGES: usize = 4 * 1024;
/// The number of rounds of reconciling messages for a document before the document is exchanged whole.
const PATIENCE: u32 = 6;
/// The most documents reconciled per round, which keeps requests and replies within their limits.
pub(super) const DOCUMENTS_PER_ROUND: usize = 40;
/// The number of rounds after which a session stops until the next sync.
const MOST_ROUNDS: u32 = 10_000;

/// Rounds a clock difference to whole minutes. The delay of the connection is unknown, so a difference below
/// half a minute is no reason for a correction.
const fn to_the_minute(millis: i64) -> i64 {
    const MINUTE: i64 = 60_000;
    let half = if millis < 0 { -MINUTE / 2 } else { MINUTE / 2 };
    millis.saturating_add(half) / MINUTE * MINUTE
}

#[derive(Debug)]
enum Phase {
    Exchange,
    Survey,
    Reconcile { peers: BTreeMap<Subject, Peer> },
}

#[derive(Debug)]
struct Peer {
    document: Document,
    state: ReconcileState,
    rounds: u32,
}

#[derive(Debug)]
struct Outstanding {
    digest: [u8; 16],
    asks: Vec<EntryId>,
    /// How many of `asks`, the last ones, were confirmed before and asked about in passing.
    in_passing: usize,
    /// The documents that may leave this device if the server holds all of them. Their entries stand in `asks`
    /// before those asked about in passing.
    leaving: Vec<Leaving>,
    sent: Vec<(Subject, Digest, Vec<EntryId>)>,
    photos: Vec<Digest>,
    at: UtcMillis,
    device: DeviceId,
}

/// One run of rounds until both sides hold the same records.
#[derive(Debug)]
pub struct Session {
    phase: Phase,
    outstanding: Option<Outstanding>,
    report: SyncReport,
    root: PublicKey,
    /// The scope outside of which entries were last asked about during a comparison.
    outside_of: Option<Scope>,
    /// The epoch of the ledger that the comparison began with.
    compared_epoch: Option<u64>,
    /// Whether this session has asked about confirmed entries outside its scope.
    asked_in_passing: bool,
    /// Whether documents that may leave this device were asked about in vain.
    leaving_in_vain: bool,
    /// The number of bytes of changes for the next request.
    budget: usize,
    /// Whether the roster or the names of people may have changed since the names were last settled. A session
    /// settles them once in any case, because an earlier one may have been cut off before it did.
    names_unsettled: bool,
}

impl Session {
    /// Creates a session with the server of the organisation with this root key.
    pub fn new(root: PublicKey) -> Session {
        Session {
            phase: Phase::Exchange,
            outstanding: None,
            report: SyncReport::default(),
            root,
            outside_of: None,
            compared_epoch: None,
            asked_in_passing: false,
            leaving_in_vain: false,
            budget: FIRST_CHANGES,
            names_unsettled: true,
        }
    }

    /// Returns what the session has done so far.
    pub fn report(&self) -> &SyncReport {
        &self.report
    }

    /// Returns the bytes of the next request. The method may be called again if the last reply was lost.
    ///
    /// # Errors
    /// [`SyncError`]; no state is lost.
    pub fn request(
        &mut self,
        store: &mut dyn Store,
        key: &DeviceKey,
        now: UtcMillis,
    ) -> Result<Vec<u8>, SyncError> {
        let keys = organisation_keys(store, &self.root)?;
        let unanswered = self.outstanding.is_some();
        if unanswered {
            self.budget = (self.budget / 2).max(FEWEST_CHANGES);
        }
        let put_off = PutOff::read(store, now)?;
        self.report.put_off = put_off.why().map(str::to_owned);
        let number = read_u64(store, NUMBER)?.saturating_add(1);
        store.commit(&[Write::Value { key: NUMBER, value: &number.to_be_bytes() }])?;
        let mut bulk = RequestBulk::default();
        let (mut sent, mut in_passing, mut going) = (Vec::new(), Vec::new(), Vec::new());
        match &mut self.phase {
            Phase::Exchange => {
                bulk.names = name_rows(store, OWN_NAMES)?;
                bulk.names.truncate(MOST_NAMES);
                for change in put_off.changes_to_send(store, self.budget)? {
                    let ids = CheckedChange::check(&change.bytes, change.subject)
                        .map(|checked| checked.entries().iter().map(|e| e.id).collect())
                        .unwrap_or_default();
                    sent.push((change.subject, change.hash, ids));
                    bulk.changes.push(Change { subject: change.subject, bytes: change.bytes });
                }
            }
            Phase::Survey => {
                bulk.survey = true;
                let scope = scope_of(store, &key.public(), &keys)?;
                bulk.asks = entries_outside(store, &scope)?;
                self.outside_of = Some(scope);
            }
            Phase::Reconcile { peers } => {
                let mut budget = self.budget;
                // Documents with the fewest rounds go first, so that a document that cannot be reconciled
                // does not delay the others.
                let mut turn: Vec<(&Subject, &mut Peer)> = peers.iter_mut().collect();
                turn.sort_by_key(|(_, peer)| peer.rounds);
                for (subject, peer) in turn.into_iter().take(DOCUMENTS_PER_ROUND) {
                    if budget == 0 {
                        break; // the others have their turn in a later round
                    }
                    peer.rounds += 1;
                    let message = peer.document.reconcile_message(&mut peer.state);
                    if let (Some(bytes), true) = (message, peer.rounds <= PATIENCE) {
                        budget = budget.saturating_sub(bytes.len());
                        bulk.messages.push(Change { subject: *subject, bytes });
                    } else {
                        bulk.whole.push(*subject);
                        for change in store.changes_of(*subject)?.rows {
                            budget = budget.saturating_sub(change.bytes.len());
                            bulk.changes.push(Change { subject: *subject, bytes: change.bytes });
                            sent.push((*subject, change.hash, Vec::new()));
                        }
                    }
                }
            }
        }
        if sent.is_empty() && matches!(self.phase, Phase::Exchange) {
            let refused = refused_entries(store)?;
            let (_, later) = put_off.lacking(store)?;
            bulk.asks = store.entries_without_receipt(refused.len() + later.len() + ASKS_PER_ROUND)?;
            bulk.asks.retain(|id| !refused.contains(id) && !later.contains(id));
            bulk.asks.truncate(ASKS_PER_ROUND);
            let scope = scope_of(store, &key.public(), &keys)?;
            if !self.leaving_in_vain {
                going = leaving(store, &scope)?;
            }
            let of_these: BTreeSet<EntryId> = going.iter().flat_map(|l| &l.entries).copied().collect();
            bulk.asks.extend(&of_these);
            if !self.asked_in_passing {
                self.asked_in_passing = true;
                in_passing = confirmed_outside(store, &scope)?;
                in_passing.retain(|id| !of_these.contains(id));
                bulk.asks.extend(&in_passing);
            }
        }
        let asks = bulk.asks.clone();
        // After the records have drifted apart, the record of which photographs the server holds may be
        // outdated too.
        let doubted = matches!(self.phase, Phase::Survey);
        let photos = store.photos()?;
        let leaves = |photo: &Digest| going.iter().any(|leaving| leaving.photos.contains(photo));
        let asked = photos.iter().filter(|p| !p.held || (p.here && (doubted || leaves(&p.sha256))));
        bulk.photos = asked.map(|p| p.sha256).collect();
        if !bulk.photos.is_empty() || !sent.is_empty() {
            bulk.unsent = Some((store.count_without_receipt()?, bulk.photos.len() as u64));
        }
        if unanswered {
            bulk.most = u32::try_from(self.budget).ok(); // nor does an answer of the usual size come through
        }
        let photos = bulk.photos.clone();
        let cursor = match self.phase {
            Phase::Exchange => read_cursor(store)?,
            _ => None,
        };
        let certificates = read_u64(store, CERTIFICATES)?;
        let statement = known_up_to(&keys);
        let head = RequestHead { number, cursor, certificates, at: now, bulk: None, statement };
        let request = seal_request(head, &bulk, key)?;
        self.outstanding = Some(Outstanding {
            digest: request_digest(&request),
            asks,
            in_passing: in_passing.len(),
            leaving: going,
            sent,
            photos,
            at: now,
            device: key.public(),
        });
        Ok(request)
    }

    /// Processes the reply to the last request.
    ///
    /// # Errors
    /// [`SyncError::NotTheServer`] for any reply that the organisation's key did not sign; the session may
    /// then be asked for a request again.
    pub fn receive(
        &mut self,
        store: &mut dyn Store,
        reply: &[u8],
        now: UtcMillis,
    ) -> Result<Step, SyncError> {
        let not_the_server = |e: crate::entry::EntryError| SyncError::NotTheServer(e.to_string());
        let message = parts(reply).map_err(not_the_server)?;
        let (keys, _) = take_statements(store, &self.root, &message.statements, now)?;
        let head = ReplyHead::open(&message.head, &keys).map_err(not_the_server)?;
        let Some(outstanding) = self.outstanding.take().filter(|o| o.digest == head.request) else {
            return Err(SyncError::OtherRequest);
        };
        let bulk: ReplyBulk = open_bulk(&message, head.bulk, LARGEST_BULK).map_err(not_the_server)?;
        self.report.rounds += 1;
        self.budget = (self.budget * 2).min(CHANGES_PER_ROUND);
        if self.report.rounds > MOST_ROUNDS {
            return Err(SyncError::StillDiffers(self.report.rounds));
        }
        // Half of the round-trip time is attributed to the request.
        let middle = outstanding.at.0 + now.since(outstanding.at) / 2;
        self.report.ahead_millis = middle.saturating_sub(head.machine.unwrap_or(head.at).0);
        let kept = to_the_minute(self.report.ahead_millis);
        store.commit(&[Write::Value { key: CLOCK_AHEAD, value: &kept.to_be_bytes() }])?;
        if let Some(last) = head.old_number {
            store.commit(&[Write::Value { key: NUMBER, value: &last.to_be_bytes() }])?;
            return Ok(Step::Again);
        }
        self.take_put_off(store, &outstanding, &bulk, now)?;
        self.report.put_off = PutOff::read(store, now)?.why().map(str::to_owned);
        self.take_receipts(store, &outstanding, &head, &bulk, &message.head)?;
        self.take_changes(store, &head, &bulk, &message.head, now)?;
        let before = own_certificate(store, &outstanding.device, &keys)?;
        if let Some(certificate) = &before {
            note_given(store, &Scope::of(certificate), Some(certificate))?;
        }
        let names = store.value(NAMES)?;
        self.report.names_unfit += take_certificates(store, &bulk, &keys)?;
        if store.value(NAMES)? != names {
            self.names_unsettled = true;
            self.touch_roster();
        }
        self.settle(store)?;
        let scope = scope_of(store, &outstanding.device, &keys)?;
        note_given(store, &scope, None)?;
        take_photos(store, &outstanding.photos, &bulk.photos)?;
        if head.revoked {
            self.report.revoked = true;
            return Ok(Step::Done);
        }
        if matches!(self.phase, Phase::Survey) {
            send_what_is_lacking(store, &outstanding.asks, &bulk.lacking)?;
        } else if outstanding.in_passing > 0 || !outstanding.leaving.is_empty() {
            let leaving: BTreeSet<&EntryId> = outstanding.leaving.iter().flat_map(|l| &l.entries).collect();
            let confirmed_before = outstanding.in_passing + leaving.len();
            let first = outstanding.asks.len().saturating_sub(confirmed_before);
            let lacking: Vec<u32> = bulk
                .lacking
                .iter()
                .copied()
                .filter(|at| usize::try_from(*at).is_ok_and(|at| at >= first))
                .collect();
            send_what_is_lacking(store, &outstanding.asks, &lacking)?;
            if outstanding.in_passing > 0 {
                answered_outside(store, &outstanding.asks)?;
            }
            self.take_off_what_is_held(store, &outstanding, &head, &bulk, &scope)?;
        }
        self.next_phase(store, &head, &bulk, &scope, now)
    }

    /// Takes the documents off this device that may leave it and that the server holds, by this reply, to the last
    /// entry and photograph. A ledger that is not the one known here is compared first.
    fn take_off_what_is_held(
        &mut self,
        store: &mut dyn Store,
        outstanding: &Outstanding,
        head: &ReplyHead,
        bulk: &ReplyBulk,
        scope: &Scope,
    ) -> Result<(), SyncError> {
        if outstanding.leaving.is_empty() || read_cursor(store)?.is_some_and(|c| c.epoch != head.cursor.epoch)
        {
            return Ok(());
        }
        let lacking: BTreeSet<&EntryId> =
            bulk.lacking.iter().filter_map(|at| outstanding.asks.get(usize::try_from(*at).ok()?)).collect();
        let held: BTreeSet<&Digest> =
            bulk.photos.iter().filter_map(|at| outstanding.photos.get(usize::try_from(*at).ok()?)).collect();
        let confirmed = |document: &&Leaving| {
            document.entries.iter().all(|id| !lacking.contains(id))
                && document.photos.iter().all(|photo| held.contains(photo))
        };
        let confirmed: Vec<Leaving> = outstanding.leaving.iter().filter(confirmed).cloned().collect();
        let (subjects, photos) = take_off(store, scope, &confirmed)?;
        self.leaving_in_vain = subjects.is_empty();
        self.report.left.extend(subjects);
        self.report.left_photos.extend(photos);
        Ok(())
    }

    /// Returns true if documents may leave this device that were not asked about yet.
    fn more_may_leave(&self, store: &dyn Store, scope: &Scope) -> Result<bool, StoreError> {
        Ok(!self.leaving_in_vain && !leaving(store, scope)?.is_empty())
    }

    /// Records the changes that the server does not accept for now, so that they are not sent again before
    /// that time.
    fn take_put_off(
        &mut self,
        store: &mut dyn Store,
        outstanding: &Outstanding,
        bulk: &ReplyBulk,
        now: UtcMillis,
    ) -> Result<(), SyncError> {
        let Some(later) = &bulk.later else { return Ok(()) };
        let places = later.places.iter().filter_map(|at| usize::try_from(*at).ok());
        let changes = places
            .filter_map(|at| outstanding.sent.get(at).map(|(subject, hash, _)| (*subject, *hash)))
            .collect::<Vec<_>>();
        let mut reasons = bulk.refused.iter().filter(|(at, _)| later.places.contains(at));
        let why = reasons.next().map_or("", |(_, why)| why.as_str());
        let until = UtcMillis(later.at.0.saturating_add(self.report.ahead_millis));
        PutOff::read(store, now)?.add(store, &changes, until, why)?;
        Ok(())
    }

    fn take_receipts(
        &mut self,
        store: &mut dyn Store,
        outstanding: &Outstanding,
        head: &ReplyHead,
        bulk: &ReplyBulk,
        head_bytes: &[u8],
    ) -> Result<(), SyncError> {
        if matches!(self.phase, Phase::Reconcile { .. }) {
            return Ok(()); // receipts are asked for once both sides hold the same
        }
        let refused: BTreeSet<usize> = bulk.refused.iter().map(|(at, _)| *at as usize).collect();
        let places = bulk.later.iter().flat_map(|later| &later.places);
        let later: BTreeSet<usize> =
            places.map(|at| *at as usize).filter(|at| refused.contains(at)).collect();
        let (mut asked, mut refused_ids) = (Vec::new(), Vec::new());
        for (at, (_, _, ids)) in outstanding.sent.iter().enumerate() {
            match (refused.contains(&at), later.contains(&at)) {
                (false, _) => asked.extend(ids.iter().copied()),
                (true, false) => refused_ids.extend(ids.iter().copied()),
                (true, true) => {}
            }
        }
        asked.extend(outstanding.asks.iter().copied());
        let lacking: BTreeSet<u32> = bulk.lacking.iter().copied().collect();
        let held: Vec<EntryId> =
            (0u32..).zip(asked).filter(|(at, _)| !lacking.contains(at)).map(|(_, id)| id).collect();
        if tree_of(&held) != head.covers {
            return Err(SyncError::NotTheServer("the receipt is for other entries".to_owned()));
        }
        // Changes that were refused for good stay on this device without a receipt and are not sent again.
        let for_good = bulk.refused.iter().filter(|(at, _)| !later.contains(&(*at as usize)));
        self.report.refused.extend(for_good.map(|(_, why)| why.clone()));
        let mut all_refused = refused_entries(store)?;
        all_refused.extend(refused_ids);
        all_refused.sort_unstable();
        all_refused.dedup();
        let all_refused: Vec<u8> = all_refused.iter().flat_map(|id| id.0).collect();
        let sent = outstanding.sent.iter().enumerate().filter(|(at, _)| !later.contains(at));
        let sent: Vec<(Subject, Digest)> = sent.map(|(_, (subject, hash, _))| (*subject, *hash)).collect();
        // A receipt for entries that all have one already would only take up room.
        let mut is_news = outstanding.in_passing == 0 && outstanding.leaving.is_empty();
        for id in &held {
            is_news = is_news || store.entry(*id)?.is_some_and(|entry| !entry.receipted);
        }
        let receipt = Receipt { head: head_bytes.to_vec(), entries: if is_news { held } else { Vec::new() } };
        let receipt_bytes = receipt.to_bytes()?;
        let mut writes = vec![Write::ChangesHeld(&sent)];
        if !bulk.refused.is_empty() {
            writes.push(Write::Value { key: REFUSED, value: &all_refused });
        }
        if !receipt.entries.is_empty() {
            writes.push(Write::Receipt { bytes: &receipt_bytes, entries: &receipt.entries });
        }
        let before = store.count_without_receipt()?;
        if !sent.is_empty() || !receipt.entries.is_empty() {
            store.commit(&writes)?;
        }
        self.report.receipted += before.saturating_sub(store.count_without_receipt()?);
        Ok(())
    }

    fn take_changes(
        &mut self,
        store: &mut dyn Store,
        head: &ReplyHead,
        bulk: &ReplyBulk,
        head_bytes: &[u8],
        now: UtcMillis,
    ) -> Result<(), SyncError> {
        let mut delivered = Vec::new();
        for change in &bulk.changes {
            match CheckedChange::check(&change.bytes, change.subject) {
                Ok(checked) => {
                    delivered.extend(checked.entries().iter().map(|e| e.id));
                    self.keep(store, &checked, change.subject, true)?;
                }
                Err(error) => {
                    self.set_aside(store, change.subject, &change.bytes, &error.to_string(), now)?
                }
            }
        }
        if tree_of(&delivered).is_some_and(|root| head.delivers == Some(root)) {
            let receipt = Receipt { head: head_bytes.to_vec(), entries: delivered.clone() }.to_bytes()?;
            store.commit(&[Write::Receipt { bytes: &receipt, entries: &delivered }])?;
        }
        Ok(())
    }

    fn keep(
        &mut self,
        store: &mut dyn Store,
        checked: &CheckedChange,
        subject: Subject,
        held: bool,
    ) -> Result<(), StoreError> {
        let new = store.commit(&writes_of(checked, subject, held))?;
        self.names_unsettled |= matches!(subject, Subject::Roster(_));
        self.report.received += new.len() as u64;
        // An entry of a car stands in the documents of car and visit; it is new in the store only once.
        if !checked.entries().is_empty() && !self.report.touched.contains(&subject) {
            self.report.touched.push(subject);
        }
        Ok(())
    }

    /// Deletes the names that the roster no longer keeps, as far as something new came.
    fn settle(&mut self, store: &mut dyn Store) -> Result<(), StoreError> {
        if !self.names_unsettled {
            return Ok(());
        }
        let settled = settle_names(store, &self.root, &[], None)?;
        self.names_unsettled = false;
        if settled.changed() {
            self.touch_roster();
        }
        Ok(())
    }

    /// Notes that people may be shown by other names, which shells read again with the roster.
    fn touch_roster(&mut self) {
        let roster = Subject::Roster(OrganisationId::of_key(&self.root));
        if !self.report.touched.contains(&roster) {
            self.report.touched.push(roster);
        }
    }

    fn set_aside(
        &mut self,
        store: &mut dyn Store,
        subject: Subject,
        bytes: &[u8],
        why: &str,
        at: UtcMillis,
    ) -> Result<(), StoreError> {
        self.report.set_aside += 1;
        store.commit(&[Write::Quarantine { subject: Some(subject), bytes, why, at }])?;
        Ok(())
    }

    fn next_phase(
        &mut self,
        store: &mut dyn Store,
        head: &ReplyHead,
        bulk: &ReplyBulk,
        scope: &Scope,
        now: UtcMillis,
    ) -> Result<Step, SyncError> {
        match &mut self.phase {
            Phase::Exchange => {
                let other_ledger = read_cursor(store)?.is_some_and(|c| c.epoch != head.cursor.epoch);
                if other_ledger {
                    // The server was restored from a backup, so its earlier confirmations must be compared.
                    // Until the comparison is complete the stored cursor remains that of the old ledger, in
                    // case the session ends midway.
                    self.phase = Phase::Survey;
                    return Ok(Step::Again);
                }
                write_cursor(store, head.cursor)?;
                let put_off = PutOff::read(store, now)?;
                if bulk.more || !put_off.changes_to_send(store, 1)?.is_empty() {
                    return Ok(Step::Again);
                }
                // Documents that could not be reconciled, and changes that were put off, are left for the
                // next sync; all other documents have been compared.
                let left =
                    !self.report.differing.is_empty() || (self.report.reconciled && !put_off.is_empty());
                if same(store, head, scope, &put_off)? || left {
                    return Ok(if self.more_may_leave(store, scope)? { Step::Again } else { Step::Done });
                }
                self.phase = Phase::Survey;
                Ok(Step::Again)
            }
            Phase::Survey => {
                self.report.reconciled = true;
                self.report.differing.clear();
                self.compared_epoch = Some(head.cursor.epoch);
                let peers = differing(store, &bulk.survey, scope, &PutOff::read(store, now)?)?;
                if peers.is_empty() {
                    return self.finish_reconciling(store, head, scope, now);
                }
                self.phase = Phase::Reconcile { peers };
                Ok(Step::Again)
            }
            Phase::Reconcile { .. } => {
                self.take_messages(store, bulk, now)?;
                self.settle(store)?;
                if self.compared_epoch != Some(head.cursor.epoch) {
                    // The server was restored during the comparison. What it answered before, about entries
                    // outside the scope and about photographs too, it may have lost since.
                    self.phase = Phase::Survey;
                    return Ok(Step::Again);
                }
                let still = differing_subjects(store, &bulk.survey, scope, &PutOff::read(store, now)?)?;
                let Phase::Reconcile { peers } = &mut self.phase else { return Ok(Step::Done) };
                peers.retain(|subject, peer| {
                    let settled = !still.contains(subject);
                    if !settled && peer.rounds > 2 * PATIENCE {
                        self.report.differing.push(*subject);
                        return false;
                    }
                    !settled
                });
                // What others brought to the server meanwhile lies before the cursor of this reply. The set
                // digest would not show all of it: an entry counts there once, though two documents hold it.
                for subject in still {
                    if !peers.contains_key(&subject) && !self.report.differing.contains(&subject) {
                        peers.insert(subject, peer(store, &bulk.survey, scope, subject)?);
                    }
                }
                if peers.is_empty() {
                    return self.finish_reconciling(store, head, scope, now);
                }
                Ok(Step::Again)
            }
        }
    }

    fn take_messages(
        &mut self,
        store: &mut dyn Store,
        bulk: &ReplyBulk,
        now: UtcMillis,
    ) -> Result<(), SyncError> {
        for message in &bulk.messages {
            let Phase::Reconcile { peers } = &mut self.phase else { return Ok(()) };
            let Some(peer) = peers.get_mut(&message.subject) else { continue };
            match peer.document.reconcile_receive(&mut peer.state, &message.bytes, message.subject) {
                Ok(outcome) => {
                    for checked in &outcome.new {
                        self.keep(store, checked, message.subject, true)?;
                    }
                    for (bytes, why) in outcome.refused {
                        self.set_aside(store, message.subject, &bytes, &why, now)?;
                    }
                }
                Err(error) => {
                    self.set_aside(store, message.subject, &message.bytes, &error.to_string(), now)?;
                }
            }
        }
        Ok(())
    }

    /// Both sides hold the same entries, except in documents that could not be reconciled. The session
    /// continues to read from the ledger's current position and asks for receipts. Documents that were not
    /// compared or not reconciled are sent like new changes.
    fn finish_reconciling(
        &mut self,
        store: &mut dyn Store,
        head: &ReplyHead,
        scope: &Scope,
        now: UtcMillis,
    ) -> Result<Step, SyncError> {
        if self.outside_of.as_ref() != Some(scope) {
            // The device was assigned other sites in the meantime, so the entries outside its present scope
            // were not asked about.
            self.phase = Phase::Survey;
            return Ok(Step::Again);
        }
        write_cursor(store, head.cursor)?;
        let put_off = PutOff::read(store, now)?;
        let mut compared = Vec::new();
        for change in put_off.changes_to_send(store, usize::MAX)? {
            if store.scopes().is_in(change.subject, scope)?
                && !self.report.differing.contains(&change.subject)
            {
                compared.push((change.subject, change.hash));
            }
        }
        store.commit(&[Write::ChangesHeld(&compared)])?;
        self.phase = Phase::Exchange;
        let done = store.entries_without_receipt(1)?.is_empty()
            && store.changes_not_held(1)?.is_empty()
            && !self.more_may_leave(store, scope)?;
        Ok(if done { Step::Done } else { Step::Again })
    }
}

/// Stores the office's list of certificates and names. Returns the number of names that do not fit.
fn take_certificates(
    store: &mut dyn Store,
    bulk: &ReplyBulk,
    keys: &OrganisationKeys,
) -> Result<u64, SyncError> {
    let Some(list) = &bulk.certificates else { return Ok(0) };
    for bytes in &list.certificates {
        if let Ok(certificate) = Certificate::open(bytes, keys) {
            take_certificate(store, &certificate, bytes, keys, Word::OfTheServer)?;
        }
    }
    let version = list.version.to_be_bytes();
    let mut writes = vec![Write::Value { key: CERTIFICATES, value: &version }];
    // A name that does not fit its commitment is kept nowhere, not even aside.
    let names = bulk.names.as_ref().map(|rows| Names::of(rows.iter().cloned()));
    let unfit = bulk.names.iter().flatten().filter(|row| !row.fits()).count();
    let rows = names.map(|names| encoded(&names.rows().cloned().collect::<Vec<_>>())).transpose()?;
    if let Some(rows) = &rows {
        writes.push(Write::Value { key: NAMES, value: rows });
    }
    store.commit(&writes)?;
    Ok(unfit as u64)
}

/// Records which of the photographs asked about the server holds, including those it was believed to hold but
/// lacks.
fn take_photos(store: &mut dyn Store, asked: &[Digest], held: &[u32]) -> Result<(), StoreError> {
    let (mut lacking, held) = (Vec::new(), held.iter().collect::<BTreeSet<_>>());
    for (at, sha256) in (0u32..).zip(asked) {
        let Some(photo) = store.photo(*sha256)? else { continue };
        if held.contains(&at) {
            let (sha256, length, media) = (photo.sha256, photo.length, photo.media.as_str());
            store.commit(&[Write::Photo { sha256, length, media, here: photo.here, held: true }])?;
        } else if photo.held {
            lacking.push(*sha256);
        }
    }
    if lacking.is_empty() { Ok(()) } else { store.commit(&[Write::PhotosLacking(&lacking)]).map(|_| ()) }
}

fn differing(
    store: &dyn Store,
    theirs: &[Surveyed],
    scope: &Scope,
    put_off: &PutOff,
) -> Result<BTreeMap<Subject, Peer>, SyncError> {
    let mut peers = BTreeMap::new();
    for subject in differing_subjects(store, theirs, scope, put_off)? {
        peers.insert(subject, peer(store, theirs, scope, subject)?);
    }
    Ok(peers)
}

fn peer(store: &dyn Store, theirs: &[Surveyed], scope: &Scope, subject: Subject) -> Result<Peer, SyncError> {
    // A server accepts changes for documents outside the device's scope but does not list these documents.
    let untold = *scope != Scope::Everything && !theirs.iter().any(|s| s.subject == subject);
    let rounds = if untold { PATIENCE } else { 0 };
    Ok(Peer { document: load(store, subject)?, state: ReconcileState::default(), rounds })
}

fn read_u64(store: &dyn Store, key: &str) -> Result<u64, StoreError> {
    Ok(store.value(key)?.and_then(|v| v.try_into().ok()).map_or(0, u64::from_be_bytes))
}

fn read_cursor(store: &dyn Store) -> Result<Option<Cursor>, StoreError> {
    let Some(value) = store.value(CURSOR)? else { return Ok(None) };
    let Ok(bytes) = <[u8; 16]>::try_from(value) else { return Ok(None) };
    let (epoch, position) = bytes.split_at(8);
    let number = |half: &[u8]| half.try_into().map(u64::from_be_bytes).unwrap_or(0);
    Ok(Some(Cursor { epoch: number(epoch), position: number(position) }))
}

fn write_cursor(store: &mut dyn Store, cursor: Cursor) -> Result<(), StoreError> {
    if read_cursor(store)? == Some(cursor) {
        return Ok(());
    }
    let mut bytes = [0u8; 16];
    bytes[..8].copy_from_slice(&cursor.epoch.to_be_bytes());
    bytes[8..].copy_from_slice(&cursor.position.to_be_bytes());
    store.commit(&[Write::Value { key: CURSOR, value: &bytes }])?;
    Ok(())
}
