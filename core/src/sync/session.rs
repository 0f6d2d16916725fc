//! The asking side: a state machine that is asked for a request, given the reply, and says whether
//! to go on. It keeps nothing that matters outside the store, so it may be dropped at any point.

use std::collections::{BTreeMap, BTreeSet};

use super::SyncError;
use super::answer::{load, writes_of};
use super::certificates::{Word, scope_of, take_certificate};
use super::difference::{
    REFUSED, differing_subjects, entries_outside, refused_entries, same, send_what_is_lacking,
};
use super::keys::{known_up_to, take_statements};
use super::put_off::PutOff;
use super::session_report::{Step, SyncReport};
use super::wire::{
    CHANGES_PER_ROUND, Change, Cursor, LARGEST_BULK, ReplyBulk, ReplyHead, RequestBulk, RequestHead,
    Surveyed, open_bulk, parts, request_digest, seal_request,
};
use crate::clock::UtcMillis;
use crate::document::{CheckedChange, Document, ReconcileState};
use crate::entry::{Certificate, DeviceKey, OrganisationKeys, PublicKey};
use crate::ids::{DeviceId, Digest, EntryId, Subject};
use crate::log::Receipt;
use crate::store::{Scope, Store, StoreError, Write, organisation_keys};
use crate::tree::tree_of;

/// Names of the values a session keeps.
const CURSOR: &str = "sync/cursor";
const NUMBER: &str = "sync/number";
const CERTIFICATES: &str = "sync/certificates";
/// Device clock minus server clock in milliseconds, to the whole minute, big-endian i64, as last seen.
pub const CLOCK_AHEAD: &str = "sync/clock_ahead";

/// Entries a receipt is asked for in one round beyond those being sent.
const ASKS_PER_ROUND: usize = 500;
/// Bytes of changes in a session's first request: a bad line carries a little before it is cut. Doubled
/// with every answer, halved with every request that gets none.
const FIRST_CHANGES: usize = 64 * 1024;
const FEWEST_CHANGES: usize = 4 * 1024;
/// Rounds of reconciling messages about a document before it is exchanged whole.
const PATIENCE: u32 = 6;
/// Documents reconciled in one round, so that neither request nor reply outgrows what is taken.
pub(super) const DOCUMENTS_PER_ROUND: usize = 40;
/// Rounds after which a session gives up until next time.
const MOST_ROUNDS: u32 = 10_000;

/// A comparison over a line of unknown delay is worth no more than a minute: within half a minute there is no
/// difference to correct by.
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
    sent: Vec<(Subject, Digest, Vec<EntryId>)>,
    photos: Vec<Digest>,
    at: UtcMillis,
    device: DeviceId,
}

/// One run of rounds until both sides have the same.
#[derive(Debug)]
pub struct Session {
    phase: Phase,
    outstanding: Option<Outstanding>,
    report: SyncReport,
    root: PublicKey,
    /// Outside of which sites entries were asked about last, while the records are compared.
    outside_of: Option<Scope>,
    /// Bytes of changes that go into a request now.
    budget: usize,
}

impl Session {
    /// A session with the server of the organisation that enrolled this device.
    pub fn new(root: PublicKey) -> Session {
        Session {
            phase: Phase::Exchange,
            outstanding: None,
            report: SyncReport::default(),
            root,
            outside_of: None,
            budget: FIRST_CHANGES,
        }
    }

    /// What has happened so far.
    pub fn report(&self) -> &SyncReport {
        &self.report
    }

    /// The next request's bytes. May be called again when the reply to the last one got lost.
    ///
    /// # Errors
    /// [`SyncError`]; nothing is lost by it.
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
        let mut sent = Vec::new();
        match &mut self.phase {
            Phase::Exchange => {
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
                // Those that had the fewest rounds first, so that a document that cannot be settled
                // does not keep the others waiting.
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
        }
        let asks = bulk.asks.clone();
        // Where the records drifted apart, what was said of photographs may be out of date as well.
        let doubted = matches!(self.phase, Phase::Survey);
        let photos = store.photos()?;
        bulk.photos = photos.iter().filter(|p| !p.held || (doubted && p.here)).map(|p| p.sha256).collect();
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
            sent,
            photos,
            at: now,
            device: key.public(),
        });
        Ok(request)
    }

    /// Takes the reply to the last request.
    ///
    /// # Errors
    /// [`SyncError::NotTheServer`] for anything the organisation's key did not sign; the session may
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
        // Half the way there and back belongs to the request.
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
        take_certificates(store, &bulk, &keys)?;
        let scope = scope_of(store, &outstanding.device, &keys)?;
        take_photos(store, &outstanding.photos, &bulk.photos)?;
        if head.revoked {
            self.report.revoked = true;
            return Ok(Step::Done);
        }
        if matches!(self.phase, Phase::Survey) {
            send_what_is_lacking(store, &outstanding.asks, &bulk.lacking)?;
        }
        self.next_phase(store, &head, &bulk, &scope, now)
    }

    /// Notes what the server does not take for now, so that it is not sent over and over until then.
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
        // What was refused for good stays here without a receipt and is not sent for ever.
        let for_good = bulk.refused.iter().filter(|(at, _)| !later.contains(&(*at as usize)));
        self.report.refused.extend(for_good.map(|(_, why)| why.clone()));
        let mut all_refused = refused_entries(store)?;
        all_refused.extend(refused_ids);
        all_refused.sort_unstable();
        all_refused.dedup();
        let all_refused: Vec<u8> = all_refused.iter().flat_map(|id| id.0).collect();
        let sent = outstanding.sent.iter().enumerate().filter(|(at, _)| !later.contains(at));
        let sent: Vec<(Subject, Digest)> = sent.map(|(_, (subject, hash, _))| (*subject, *hash)).collect();
        let receipt = Receipt { head: head_bytes.to_vec(), entries: held };
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
        self.report.received += new.len() as u64;
        if !new.is_empty() && !self.report.touched.contains(&subject) {
            self.report.touched.push(subject);
        }
        Ok(())
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
                    // A server put back from a copy: whatever it said before is compared. Until that is
                    // done the cursor stays the old ledger's, should this end in the middle.
                    self.phase = Phase::Survey;
                    return Ok(Step::Again);
                }
                write_cursor(store, head.cursor)?;
                let put_off = PutOff::read(store, now)?;
                if bulk.more || !put_off.changes_to_send(store, 1)?.is_empty() {
                    return Ok(Step::Again);
                }
                // Documents that could not be settled are left for next time, and so is what was put off: the others
                // have been compared.
                let left =
                    !self.report.differing.is_empty() || (self.report.reconciled && !put_off.is_empty());
                if same(store, head, scope, &put_off)? || left {
                    return Ok(Step::Done);
                }
                self.phase = Phase::Survey;
                Ok(Step::Again)
            }
            Phase::Survey => {
                self.report.reconciled = true;
                let peers = differing(store, &bulk.survey, scope, &PutOff::read(store, now)?)?;
                if peers.is_empty() {
                    return self.finish_reconciling(store, head, scope, now);
                }
                self.phase = Phase::Reconcile { peers };
                Ok(Step::Again)
            }
            Phase::Reconcile { .. } => {
                self.take_messages(store, bulk, now)?;
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

    /// Both sides hold the same entries, but for documents that would not settle: read on from where the ledger
    /// is now, and ask for receipts. What was not compared, or not settled, is sent as anything new is.
    fn finish_reconciling(
        &mut self,
        store: &mut dyn Store,
        head: &ReplyHead,
        scope: &Scope,
        now: UtcMillis,
    ) -> Result<Step, SyncError> {
        if self.outside_of.as_ref() != Some(scope) {
            // The device was given other sites in the meantime: what is outside of them now was not asked about.
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
        let done = store.entries_without_receipt(1)?.is_empty() && store.changes_not_held(1)?.is_empty();
        Ok(if done { Step::Done } else { Step::Again })
    }
}

fn take_certificates(
    store: &mut dyn Store,
    bulk: &ReplyBulk,
    keys: &OrganisationKeys,
) -> Result<(), SyncError> {
    let Some(list) = &bulk.certificates else { return Ok(()) };
    for bytes in &list.certificates {
        if let Ok(certificate) = Certificate::open(bytes, keys) {
            take_certificate(store, &certificate, bytes, keys, Word::OfTheServer)?;
        }
    }
    store.commit(&[Write::Value { key: CERTIFICATES, value: &list.version.to_be_bytes() }])?;
    Ok(())
}

/// Notes which of the photographs asked about the server holds, and which it does not after all.
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
        // A server tells nothing of a document that it does not know to be of this device's sites; it takes it.
        let untold = *scope != Scope::Everything && !theirs.iter().any(|s| s.subject == subject);
        let rounds = if untold { PATIENCE } else { 0 };
        let document = load(store, subject)?;
        peers.insert(subject, Peer { document, state: ReconcileState::default(), rounds });
    }
    Ok(peers)
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
