//! The store in memory, for simulations and as a simple reference for the SQLite store.

use std::cell::RefCell;
use std::collections::{BTreeMap, BTreeSet, HashMap};

use super::memory_scope::ScopeIndex;
use super::{
    ApplyError, Batch, Confirm, Ledger, LogRows, Moment, Outcome, Quarantined, Rows, ScopeRows, SetDigest,
    Store, StoreError, StoredChange, StoredCheckpoint, StoredEntry, StoredPhoto, StoredStamp, Write,
    apply_by_commits,
};
use crate::clock::UtcMillis;
use crate::entry::Entry;
use crate::ids::{DeviceId, Digest, EntryId, Subject};
use crate::tree::heads::{Heads, HeadsRoot};
use crate::tree::{LogLeaf, merkle};

/// A store that loses its content when it is dropped. A clone serves as a backup.
#[derive(Debug, Clone, Default)]
pub struct MemoryStore {
    values: BTreeMap<String, Vec<u8>>,
    pub(super) entries: Vec<EntryRow>,
    pub(super) entry_at: HashMap<EntryId, usize>,
    pub(super) standing: BTreeMap<Subject, BTreeSet<usize>>,
    pub(super) changes: Vec<(StoredChange, bool)>,
    change_at: HashMap<(Subject, Digest), usize>,
    pub(super) scopes: ScopeIndex,
    receipts: Vec<Vec<u8>>,
    certificates: BTreeMap<DeviceId, Vec<u8>>,
    quarantine: BTreeMap<Digest, Quarantined>,
    photos: BTreeMap<Digest, StoredPhoto>,
    drafts: BTreeMap<String, String>,
    tally: SetDigest,
    log: Vec<LogLeaf>,
    heads: RefCell<Heads>,
    log_hashes: Vec<Digest>,
    log_place: HashMap<EntryId, u64>,
    checkpoints: Vec<StoredCheckpoint>,
    proofs: Vec<Vec<u8>>,
}

#[derive(Debug, Clone)]
pub(super) struct EntryRow {
    pub(super) id: EntryId,
    bytes: Vec<u8>,
    receipt: Option<usize>,
    proof: Option<usize>,
}

impl MemoryStore {
    /// Creates an empty store.
    pub fn new() -> MemoryStore {
        MemoryStore::default()
    }

    fn stored(&self, at: usize) -> Option<StoredEntry> {
        let row = self.entries.get(at)?;
        let position = at as u64 + 1;
        Some(StoredEntry { id: row.id, bytes: row.bytes.clone(), position, receipted: row.receipt.is_some() })
    }

    fn write_one(&mut self, write: &Write<'_>, new: &mut Vec<EntryId>) {
        match write {
            Write::Entry { subject, entry } => {
                let at = *self.entry_at.entry(entry.id).or_insert_with(|| {
                    self.entries.push(EntryRow {
                        id: entry.id,
                        bytes: entry.bytes().to_vec(),
                        receipt: None,
                        proof: None,
                    });
                    self.tally.add(entry.id);
                    new.push(entry.id);
                    self.entries.len() - 1
                });
                if self.standing.entry(*subject).or_default().insert(at) {
                    self.note_standing(*subject, entry);
                }
            }
            Write::Change { subject, hash, bytes, held } => {
                self.write_change((*subject, *hash), bytes, None, *held);
            }
            Write::Checked { subject, change, held } => {
                let ids = change.entries().iter().map(|entry| entry.id).collect();
                self.write_change((*subject, change.hash()), change.bytes(), Some(ids), *held);
            }
            Write::ChangesHeld(changes) => {
                for at in changes.iter().filter_map(|change| self.change_at.get(change)) {
                    if let Some((_, held)) = self.changes.get_mut(*at) {
                        *held = true;
                    }
                }
            }
            Write::ChangesLacking(subjects) => {
                for (change, held) in &mut self.changes {
                    *held &= !subjects.contains(&change.subject);
                }
            }
            Write::TakeOff(subjects) => self.take_off(subjects),
            Write::Feed => self.feed(),
            Write::Receipt { bytes, entries } => {
                let known = self.receipts.iter().position(|receipt| receipt == bytes);
                let number = known.unwrap_or_else(|| {
                    self.receipts.push(bytes.to_vec());
                    self.receipts.len() - 1
                });
                for at in entries.iter().filter_map(|id| self.entry_at.get(id)) {
                    if let Some(row) = self.entries.get_mut(*at) {
                        row.receipt.get_or_insert(number);
                    }
                }
            }
            Write::Certificate { device, bytes } => {
                self.certificates.insert(*device, bytes.to_vec());
            }
            Write::PurgeQuarantine => self.quarantine.clear(),
            Write::Quarantine { subject, bytes, why, at } => {
                let kept =
                    Quarantined { subject: *subject, bytes: bytes.to_vec(), why: (*why).to_owned(), at: *at };
                self.quarantine.entry(Digest::of(bytes)).or_insert(kept);
            }
            Write::Photo { sha256, length, media, here, held } => {
                let photo = StoredPhoto {
                    sha256: *sha256,
                    length: *length,
                    media: (*media).to_owned(),
                    here: *here,
                    held: *held,
                };
                self.photos
                    .entry(*sha256)
                    .and_modify(|known| {
                        // The length comes from the bytes themselves, because an entry that names the
                        // photograph may state a wrong one.
                        if *here && !known.here {
                            known.length = *length;
                        }
                        known.here |= here;
                        known.held |= held;
                    })
                    .or_insert(photo);
            }
            Write::PhotosLacking(photos) => {
                for photo in *photos {
                    if let Some(known) = self.photos.get_mut(photo) {
                        known.held = false;
                    }
                }
            }
            Write::Draft { key, text } => {
                if text.is_empty() {
                    self.drafts.remove(*key);
                } else {
                    self.drafts.insert((*key).to_owned(), (*text).to_owned());
                }
            }
            Write::Value { key, value } => {
                self.values.insert((*key).to_owned(), value.to_vec());
            }
            Write::Leaf { .. } | Write::Checkpoint { .. } | Write::TimeStamp { .. } | Write::Proof { .. } => {
                self.write_log(write);
            }
        }
    }

    /// Removes documents and the entries that stand in no other. Positions are counted anew.
    fn take_off(&mut self, subjects: &[Subject]) {
        for subject in subjects {
            for photo in self.take_out(*subject) {
                self.photos.remove(&photo);
            }
            self.standing.remove(subject);
        }
        let standing: BTreeSet<usize> = self.standing.values().flatten().copied().collect();
        let mut now_at = BTreeMap::new();
        for (at, row) in std::mem::take(&mut self.entries).into_iter().enumerate() {
            if standing.contains(&at) {
                now_at.insert(at, self.entries.len());
                self.entries.push(row);
            } else {
                self.tally.remove(row.id);
            }
        }
        self.entry_at = self.entries.iter().enumerate().map(|(at, row)| (row.id, at)).collect();
        for of in self.standing.values_mut() {
            *of = of.iter().filter_map(|at| now_at.get(at)).copied().collect();
        }
        let mut now_at = BTreeMap::new();
        for (at, (mut change, held)) in std::mem::take(&mut self.changes).into_iter().enumerate() {
            if !subjects.contains(&change.subject) {
                now_at.insert(at, self.changes.len());
                change.position = self.changes.len() as u64 + 1;
                self.changes.push((change, held));
            }
        }
        let places = self.changes.iter().enumerate();
        self.change_at = places.map(|(at, (change, _))| ((change.subject, change.hash), at)).collect();
        self.feed_again(&now_at);
    }

    fn write_change(
        &mut self,
        (subject, hash): (Subject, Digest),
        bytes: &[u8],
        entries: Option<Vec<EntryId>>,
        held: bool,
    ) {
        let known = self.change_at.get(&(subject, hash)).and_then(|at| self.changes.get_mut(*at));
        if let Some((_, known)) = known {
            *known |= held;
            return;
        }
        self.change_at.insert((subject, hash), self.changes.len());
        let position = self.changes.len() as u64 + 1;
        let change = StoredChange { position, subject, hash, bytes: bytes.to_vec(), entries };
        self.changes.push((change, held));
    }

    fn write_log(&mut self, write: &Write<'_>) {
        match write {
            Write::Leaf { entry, received_at, about }
                if self.entry_at.contains_key(entry) && !self.log_place.contains_key(entry) =>
            {
                let last = self.log.last().map_or(*received_at, |leaf| leaf.received_at);
                let received_at = last.max(*received_at);
                let leaf = LogLeaf { entry: *entry, received_at, about: *about };
                self.log_place.insert(*entry, self.log.len() as u64);
                self.log.push(leaf);
                self.log_hashes.push(leaf.hash());
            }
            Write::Checkpoint { origin, size, note, at, since } => {
                if let Some(known) = self.find(origin, *size) {
                    known.note = (*note).to_owned();
                } else {
                    self.checkpoints.push(StoredCheckpoint {
                        origin: (*origin).to_owned(),
                        size: *size,
                        note: (*note).to_owned(),
                        at: *at,
                        since: since.to_vec(),
                        stamp: None,
                    });
                }
            }
            Write::TimeStamp { origin, size, note, token, at } => {
                if let Some(known) = self.find(origin, *size)
                    && known.stamp.as_ref().is_none_or(|stamp| stamp.at > *at)
                {
                    let stamp = StoredStamp { note: (*note).to_owned(), token: token.to_vec(), at: *at };
                    known.stamp = Some(stamp);
                }
            }
            Write::Proof { bytes, entries } => {
                let known = self.proofs.iter().position(|proof| proof == bytes);
                let number = known.unwrap_or_else(|| {
                    self.proofs.push(bytes.to_vec());
                    self.proofs.len() - 1
                });
                for at in entries.iter().filter_map(|id| self.entry_at.get(id)) {
                    if let Some(row) = self.entries.get_mut(*at) {
                        row.proof.get_or_insert(number);
                    }
                }
            }
            _ => {}
        }
    }

    fn find(&mut self, origin: &str, size: u64) -> Option<&mut StoredCheckpoint> {
        self.checkpoints.iter_mut().find(|known| known.origin == origin && known.size == size)
    }
}

impl Ledger for MemoryStore {
    fn moment(&self) -> Result<Moment, StoreError> {
        Ok(Moment::default()) // nobody shares it
    }

    fn apply(&mut self, batch: &Batch<'_>, confirm: &mut dyn Confirm) -> Result<Outcome, ApplyError> {
        apply_by_commits(self, batch, confirm)
    }
}

impl LogRows for MemoryStore {
    fn size(&self) -> Result<u64, StoreError> {
        Ok(self.log.len() as u64)
    }

    fn leaf(&self, number: u64) -> Result<Option<LogLeaf>, StoreError> {
        Ok(usize::try_from(number).ok().and_then(|number| self.log.get(number)).copied())
    }

    fn subjects(&self, from: u64, most: usize) -> Result<Vec<(EntryId, Option<Subject>)>, StoreError> {
        let from = usize::try_from(from).unwrap_or(usize::MAX);
        let about = |leaf: &LogLeaf| {
            leaf.about.or_else(|| {
                let row = self.entries.get(*self.entry_at.get(&leaf.entry)?)?;
                Some(Entry::reopen(row.id, row.bytes.clone()).ok()?.body.about)
            })
        };
        Ok(self.log.iter().skip(from).take(most).map(|leaf| (leaf.entry, about(leaf))).collect())
    }

    fn heads(&self, size: u64) -> Result<HeadsRoot, StoreError> {
        let mut heads = self.heads.borrow_mut();
        heads.go_on_to(self as &dyn LogRows, size)?;
        Ok(heads.root())
    }

    fn place(&self, entry: EntryId) -> Result<Option<(u64, UtcMillis)>, StoreError> {
        let Some(number) = self.log_place.get(&entry).copied() else { return Ok(None) };
        Ok(self.leaf(number)?.map(|leaf| (number, leaf.received_at)))
    }

    fn subtree_hash(&self, level: u32, place: u64) -> Result<Option<Digest>, StoreError> {
        let range = 1u64.checked_shl(level).and_then(|n| Some((place.checked_mul(n)?, n)));
        let Some((from, n)) = range else { return Ok(None) };
        let (from, n) =
            (usize::try_from(from).unwrap_or(usize::MAX), usize::try_from(n).unwrap_or(usize::MAX));
        Ok(self.log_hashes.get(from..from.saturating_add(n)).map(merkle::root))
    }

    fn without_leaf(&self, most: usize) -> Result<Vec<EntryId>, StoreError> {
        let ids = self.entries.iter().map(|row| row.id);
        Ok(ids.filter(|id| !self.log_place.contains_key(id)).take(most).collect())
    }

    fn newest_checkpoint(&self) -> Result<Option<StoredCheckpoint>, StoreError> {
        Ok(self.checkpoints.last().cloned())
    }

    fn checkpoint(&self, origin: &str, size: u64) -> Result<Option<StoredCheckpoint>, StoreError> {
        Ok(self.checkpoints.iter().find(|known| known.origin == origin && known.size == size).cloned())
    }

    fn first_cosigned_of(&self, origin: &str, size: u64) -> Result<Option<StoredCheckpoint>, StoreError> {
        let lines = |note: &str| note.rsplit_once("\n\n").map_or(0, |(_, lines)| lines.lines().count());
        let cosigned = |c: &&StoredCheckpoint| c.origin == origin && c.size >= size && lines(&c.note) > 1;
        Ok(self.checkpoints.iter().filter(cosigned).min_by_key(|c| c.size).cloned())
    }

    fn first_checkpoint_of(&self, size: u64, stamped: bool) -> Result<Option<StoredCheckpoint>, StoreError> {
        let fits = |known: &&StoredCheckpoint| known.size >= size && (known.stamp.is_some() || !stamped);
        Ok(self.checkpoints.iter().find(fits).cloned())
    }

    fn proof_of(&self, entry: EntryId) -> Result<Option<Vec<u8>>, StoreError> {
        let row = self.entry_at.get(&entry).and_then(|at| self.entries.get(*at));
        Ok(row.and_then(|row| row.proof).and_then(|number| self.proofs.get(number)).cloned())
    }

    fn without_proof(&self, most: usize) -> Result<Vec<EntryId>, StoreError> {
        let waiting = self.entries.iter().rev().filter(|row| row.receipt.is_some() && row.proof.is_none());
        Ok(waiting.map(|row| row.id).take(most).collect())
    }
}

fn up_to(changes: impl Iterator<Item = StoredChange>, bytes: usize) -> Vec<StoredChange> {
    let mut total = 0;
    let mut taken = Vec::new();
    for change in changes {
        total += change.bytes.len();
        if total > bytes && !taken.is_empty() {
            break;
        }
        taken.push(change);
    }
    taken
}

impl Store for MemoryStore {
    fn commit(&mut self, writes: &[Write<'_>]) -> Result<Vec<EntryId>, StoreError> {
        let mut new = Vec::new();
        for write in writes {
            self.write_one(write, &mut new);
        }
        Ok(new)
    }

    fn entry(&self, id: EntryId) -> Result<Option<StoredEntry>, StoreError> {
        Ok(self.entry_at.get(&id).and_then(|at| self.stored(*at)))
    }

    fn entries_of(&self, subject: Subject) -> Result<Rows<StoredEntry>, StoreError> {
        let rows =
            self.standing.get(&subject).into_iter().flatten().filter_map(|at| self.stored(*at)).collect();
        Ok(Rows { rows, damaged: Vec::new() })
    }

    fn subjects(&self) -> Result<Vec<Subject>, StoreError> {
        let mut subjects: Vec<Subject> = self.standing.keys().copied().collect();
        subjects.sort_by_key(|subject| subject.to_bytes());
        Ok(subjects)
    }

    fn changes_of(&self, subject: Subject) -> Result<Rows<StoredChange>, StoreError> {
        let rows = self.changes.iter().map(|(c, _)| c).filter(|c| c.subject == subject).cloned().collect();
        Ok(Rows { rows, damaged: Vec::new() })
    }

    fn has_change(&self, subject: Subject, hash: Digest) -> Result<bool, StoreError> {
        Ok(self.change_at.contains_key(&(subject, hash)))
    }

    fn changes_not_held(&self, bytes: usize) -> Result<Vec<StoredChange>, StoreError> {
        Ok(up_to(self.changes.iter().filter(|(_, held)| !held).map(|(c, _)| c.clone()), bytes))
    }

    fn changes_after(&self, position: u64, bytes: usize) -> Result<Vec<StoredChange>, StoreError> {
        let start = usize::try_from(position).unwrap_or(usize::MAX).min(self.changes.len());
        Ok(up_to(self.changes[start..].iter().map(|(c, _)| c.clone()), bytes))
    }

    fn newest_position(&self) -> Result<u64, StoreError> {
        Ok(self.changes.len() as u64)
    }

    fn entries_without_receipt(&self, most: usize) -> Result<Vec<EntryId>, StoreError> {
        Ok(self.entries.iter().filter(|row| row.receipt.is_none()).map(|row| row.id).take(most).collect())
    }

    fn count_without_receipt(&self) -> Result<u64, StoreError> {
        Ok(self.entries.iter().filter(|row| row.receipt.is_none()).count() as u64)
    }

    fn receipts_of(&self, id: EntryId) -> Result<Vec<Vec<u8>>, StoreError> {
        let receipt = self
            .entry_at
            .get(&id)
            .and_then(|at| self.entries.get(*at))
            .and_then(|row| row.receipt)
            .and_then(|number| self.receipts.get(number));
        Ok(receipt.cloned().into_iter().collect())
    }

    fn certificates(&self) -> Result<Vec<(DeviceId, Vec<u8>)>, StoreError> {
        Ok(self.certificates.iter().map(|(device, bytes)| (*device, bytes.clone())).collect())
    }

    fn certificate(&self, device: DeviceId) -> Result<Option<Vec<u8>>, StoreError> {
        Ok(self.certificates.get(&device).cloned())
    }

    fn quarantined(&self) -> Result<Vec<Quarantined>, StoreError> {
        let mut kept: Vec<(&Digest, &Quarantined)> = self.quarantine.iter().collect();
        kept.sort_by_key(|(digest, q)| (q.at, **digest));
        Ok(kept.into_iter().map(|(_, q)| q.clone()).collect())
    }

    fn photos(&self) -> Result<Vec<StoredPhoto>, StoreError> {
        Ok(self.photos.values().cloned().collect())
    }

    fn photo(&self, sha256: Digest) -> Result<Option<StoredPhoto>, StoreError> {
        Ok(self.photos.get(&sha256).cloned())
    }

    fn drafts(&self) -> Result<Vec<(String, String)>, StoreError> {
        Ok(self.drafts.iter().map(|(key, text)| (key.clone(), text.clone())).collect())
    }

    fn value(&self, key: &str) -> Result<Option<Vec<u8>>, StoreError> {
        Ok(self.values.get(key).cloned())
    }

    fn tally(&self) -> Result<SetDigest, StoreError> {
        Ok(self.tally)
    }

    fn log(&self) -> &dyn LogRows {
        self
    }

    fn scopes(&self) -> &dyn ScopeRows {
        self
    }
}
