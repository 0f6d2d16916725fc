//! Reads the content of a packet from the ledger: the stay's entries, what was known of the car, the site and
//! people, certificates, receipts, and the log's proofs.
//!
//! Later entries than the stay's last one are left out unless they are about the stay itself, or about what it rests on, so that a
//! packet made again later has the same bytes. The meaning of the record is decided in `view`.

use std::collections::{BTreeMap, BTreeSet};

use farsiding_core::authority::Authority;
use farsiding_core::book::Snapshot;
use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::{Entry, Opened, OrganisationKey, PersonName, PublicKey, Slot, Statement, under};
use farsiding_core::evidence::heads::Heads;
use farsiding_core::evidence::packet::{
    Certificates, ElsewhereInChain, Entries, FORMAT, Leaf, Log, Numbered, Parts, Receipts, SeenBefore, Token,
    VisitHead, people_known, people_named,
};
use farsiding_core::evidence::{Checkpoint, Receipt, merkle};
use farsiding_core::ids::{DeviceId, Digest, EntryId, OrganisationId, Subject, VisitId};
use farsiding_core::store::{LogRows, Store, StoreError, StoredCheckpoint, kept_names};
use farsiding_core::view::{NameStanding, is_of_the_track, opened_of, rested_on};
use serde_bytes::ByteBuf;

use super::witnessed::witnessed;
use super::{PacketError, PacketSource};

/// Returns the visits of the stay that a visit belongs to, by reading the whole ledger. A caller with an
/// index of stays should ask the index instead.
///
/// # Errors
/// Returns [`PacketError::NoSuchVisit`] or [`PacketError::Store`].
pub fn stay_of(store: &dyn Store, key: &PublicKey, visit: VisitId) -> Result<Vec<VisitId>, PacketError> {
    let visits: Vec<Subject> =
        store.subjects()?.into_iter().filter(|subject| matches!(subject, Subject::Visit(_))).collect();
    let mut gathered = Snapshot::default();
    gathered
        .refresh(store, Some(key), UtcMillis(i64::MAX), &visits)
        .map_err(|e| PacketError::Damaged(e.to_string()))?;
    gathered.stay_of(visit).map(<[VisitId]>::to_vec).ok_or(PacketError::NoSuchVisit(visit))
}

/// An entry with its place in the log.
struct Placed {
    entry: Entry,
    number: u64,
    received_at: UtcMillis,
}

fn entries_of(source: &PacketSource<'_>, subject: Subject) -> Result<Vec<Placed>, PacketError> {
    let rows = source.store.entries_of(subject)?;
    if !rows.damaged.is_empty() {
        return Err(PacketError::Damaged(rows.damaged.join(", ")));
    }
    let mut placed = Vec::with_capacity(rows.rows.len());
    for row in rows.rows {
        let (number, received_at) = source.store.log().place(row.id)?.ok_or(PacketError::NotInLog(row.id))?;
        placed.push(Placed { entry: Entry::reopen(row.id, row.bytes)?, number, received_at });
    }
    placed.sort_by_key(|placed| placed.number);
    Ok(placed)
}

fn opened(source: &PacketSource<'_>, visit: &[Placed]) -> Result<Option<Opened>, PacketError> {
    let certificates = source.store.certificates()?;
    let bytes = certificates.iter().map(|(_, bytes)| bytes.as_slice());
    let authority = Authority::read(Some(source.key), bytes, true);
    Ok(opened_of(&authority, visit.iter().map(|placed| (&placed.entry, Some(placed.received_at)))))
}

fn bytes(placed: &[Placed]) -> Vec<ByteBuf> {
    placed.iter().map(|p| ByteBuf::from(p.entry.bytes())).collect()
}

/// Returns the office's entry with which the paper of an entry was compared.
fn paper_named(entry: &Entry) -> Option<EntryId> {
    match &entry.body.says {
        Statement::Paper(paper) => paper.compared,
        _ => None,
    }
}

/// Returns the entries of other visits on which the stay rests, and what can say that one of them does not hold. Later
/// entries than the stay's last one are included: whoever calls one wrong later speaks of this stay as well.
fn track(source: &PacketSource<'_>, stay: &[VisitId], visit: &[Placed]) -> Result<Vec<Placed>, PacketError> {
    let mut track = Vec::new();
    for other in rested_on(visit.iter().map(|placed| &placed.entry)) {
        if !stay.contains(&other) {
            let entries = entries_of(source, Subject::Visit(other))?;
            track.extend(entries.into_iter().filter(|placed| {
                placed.entry.body.about == Subject::Visit(other) && is_of_the_track(&placed.entry)
            }));
        }
    }
    Ok(track)
}

/// Returns everything that a packet of the stay holds except for the photographs.
pub(super) fn parts(source: &PacketSource<'_>, stay: &[VisitId]) -> Result<Parts, PacketError> {
    let mut stay = stay.to_vec();
    stay.sort_unstable();
    stay.dedup();
    let mut visit: Vec<Placed> = Vec::new();
    for id in &stay {
        visit.extend(entries_of(source, Subject::Visit(*id))?);
    }
    visit.sort_by_key(|placed| placed.number);
    visit.dedup_by_key(|placed| placed.number);
    let Some(last) = visit.last().map(|placed| placed.number) else {
        return Err(PacketError::NoSuchVisit(stay.first().copied().unwrap_or(VisitId([0; 16]))));
    };
    let here: BTreeSet<EntryId> = visit.iter().map(|placed| placed.entry.id).collect();
    let (mut car, mut site) = (Vec::new(), Vec::new());
    let mut procedure = None;
    if let Some(opened) = opened(source, &visit)? {
        procedure = Some(Slot::procedure(&opened.procedure).to_string());
        car = entries_of(source, Subject::Car(opened.car.id()))?;
        car.retain(|placed| placed.number <= last && !here.contains(&placed.entry.id));
        car.extend(track(source, &stay, &visit)?);
        car.sort_by_key(|placed| placed.number);
        car.dedup_by_key(|placed| placed.number);
        site = entries_of(source, Subject::Site(opened.site))?;
        // The people to call, and their telephone numbers, are private and of no use in a dispute years
        // later.
        site.retain(|placed| placed.number <= last && !placed.entry.body.slot.starts_with("contact/"));
        // The papers of other cars are other people's business; of this car the one that the stay names is enough to
        // show who wrote its figures.
        let compared: BTreeSet<EntryId> = visit.iter().filter_map(|p| paper_named(&p.entry)).collect();
        site.retain(|placed| {
            !placed.entry.body.slot.starts_with(under::EXPECTED) || compared.contains(&placed.entry.id)
        });
    }
    let named: BTreeSet<String> = people_named(visit.iter().chain(&car).map(|p| &p.entry))
        .into_iter()
        .flat_map(|operator| {
            // With what was said of a person goes that the name was removed.
            [Slot::operator(&operator), Slot::name_forgotten(&operator)].map(|slot| slot.to_string())
        })
        .collect();
    let organisation = OrganisationId::of_key(&source.key.public());
    // Everything known of the keys that people used for signing in this stay is included, so that the
    // signatures can be judged.
    let signing: BTreeSet<String> = visit
        .iter()
        .chain(&car)
        .filter_map(|placed| placed.entry.body.hand.as_ref())
        .map(|hand| format!("person_key/{}", hand.key))
        .collect();
    let of_a_key = |slot: &str| {
        let slot = slot.strip_prefix("series/").unwrap_or(slot);
        signing
            .iter()
            .any(|key| slot == key || slot.strip_prefix(key.as_str()).is_some_and(|r| r.starts_with('/')))
    };
    let mut roster = entries_of(source, Subject::Roster(organisation))?;
    let taken = |placed: &Placed| {
        let slot = &placed.entry.body.slot;
        // The organisation's own procedure, as it stood when the stay ended: who published it, and its text.
        let is_procedure = placed.number <= last && procedure.as_ref() == Some(slot);
        named.contains(slot) || of_a_key(slot) || slot == "rules" || is_procedure
    };
    // An admitted late entry is accompanied by its admission, because it would not count without it.
    let admitting: BTreeSet<String> =
        roster.iter().filter(|placed| taken(placed)).map(|p| format!("admitted/{}", p.entry.id)).collect();
    roster.retain(|placed| taken(placed) || admitting.contains(&placed.entry.body.slot));
    let all = || visit.iter().chain(&car).chain(&site).chain(&roster);
    let devices: BTreeSet<DeviceId> = all().map(|placed| placed.entry.device).collect();
    let mut certificates = source.store.certificates()?;
    certificates.retain(|(device, _)| devices.contains(device));
    certificates.sort();
    let log = log(source, &stay, &visit, all)?;
    let photos_elsewhere = photos_elsewhere(source.store, &stay, &visit, last)?;
    let chains = chains(source.store, &visit, all().map(|placed| &placed.entry))?;
    let mut parts = Parts {
        entries: Entries {
            format: FORMAT.to_owned(),
            stay,
            visit: bytes(&visit),
            car: bytes(&car),
            site: bytes(&site),
            roster: bytes(&roster),
        },
        certificates: Certificates {
            certificates: certificates.into_iter().map(|(_, bytes)| ByteBuf::from(bytes)).collect(),
        },
        receipts: receipts(source, &visit)?,
        log: Log { chains, photos_elsewhere, ..log },
        names: Vec::new(),
    };
    parts.names = names(source, &parts)?;
    Ok(parts)
}

/// Returns the names that the packet shows: those of the people in its entries, as far as the office keeps them.
fn names(source: &PacketSource<'_>, parts: &Parts) -> Result<Vec<PersonName>, PacketError> {
    let kept = kept_names(source.store)?;
    let people = people_known(parts, source.key.keys());
    let rows: BTreeSet<&PersonName> = people
        .values()
        .filter(|person| person.name_is == NameStanding::NotHere)
        .filter_map(|person| kept.row(&person.said.named?))
        .collect();
    Ok(rows.into_iter().cloned().collect())
}

fn receipts(source: &PacketSource<'_>, visit: &[Placed]) -> Result<Receipts, PacketError> {
    let mut kept: BTreeSet<Vec<u8>> = BTreeSet::new();
    for placed in visit {
        for bytes in source.store.receipts_of(placed.entry.id)? {
            let sound = Receipt::from_bytes(&bytes).is_ok_and(|r| r.check(source.key).is_ok());
            if sound {
                kept.insert(bytes);
            }
        }
    }
    Ok(Receipts { receipts: kept.into_iter().map(ByteBuf::from).collect() })
}

/// Returns the checkpoint that a packet is based on: the earliest time-stamped one that covers the packet's
/// entries and commits to the heads of the documents, or else the earliest published one with these
/// properties. If the log has only older checkpoints without heads, one of these is used.
fn covering(rows: &dyn LogRows, key: &OrganisationKey, size: u64) -> Result<StoredCheckpoint, PacketError> {
    let first = |stamped: bool| -> Result<Option<StoredCheckpoint>, PacketError> {
        let mut at = size;
        while let Some(found) = rows.first_checkpoint_of(at, stamped)? {
            let note = found.stamp.as_ref().filter(|_| stamped).map_or(&found.note, |stamp| &stamp.note);
            // Old logs have many checkpoints without heads, whose signatures need not be checked.
            if !note.contains("\nheads ") {
                at = found.size + 1;
                continue;
            }
            // A signature of a stolen key proves nothing; the log continues under another key.
            let sound = |(signer, checkpoint): (PublicKey, Checkpoint)| {
                checkpoint.heads.is_some() && !key.keys().is_stolen(&signer)
            };
            if Checkpoint::open_signed(note, key).is_ok_and(sound) {
                return Ok(Some(found));
            }
            at = found.size + 1;
        }
        Ok(None)
    };
    if let Some(stamped) = first(true)? {
        return Ok(stamped);
    }
    if let Some(published) = first(false)? {
        return Ok(StoredCheckpoint { stamp: None, ..published });
    }
    match rows.first_checkpoint_of(size, true)? {
        Some(stamped) => Ok(stamped),
        None => rows.first_checkpoint_of(size, false)?.ok_or(PacketError::NoCheckpoint),
    }
}

/// Returns the checkpoint that the packet is based on; a checkpoint that a witness signed; the checkpoint
/// that first covered an entry of the stay, if it is another one; the path of every entry; the heads of the
/// visits; and the checkpoints that entries refer to.
fn log<'p, I: Iterator<Item = &'p Placed>>(
    source: &PacketSource<'_>,
    stay: &[VisitId],
    visit: &[Placed],
    all: impl Fn() -> I,
) -> Result<Log, PacketError> {
    let (rows, key) = (source.store.log(), source.key);
    let size = all().map(|placed| placed.number + 1).max().unwrap_or(0);
    let covering = covering(rows, key, size)?;
    let says_heads = |note: &str| Checkpoint::open(note, key).is_ok_and(|opened| opened.heads.is_some());
    let witnessed = witnessed(source.store, key, (&covering.origin, size), says_heads(&covering.note))?;
    let mut tokens = Vec::new();
    let mut notes: Vec<(u64, String)> = Vec::new();
    if let Some(stamp) = &covering.stamp {
        tokens.push(Token { size: covering.size, token: ByteBuf::from(stamp.token.clone()) });
        notes.push((covering.size, stamp.note.clone()));
    }
    // A witness may have signed after the time stamp was given. The note is then included twice, as it was
    // stamped and as it is now.
    match witnessed.filter(|found| covering.stamp.as_ref().is_none_or(|stamp| stamp.note != found.note)) {
        Some(found) => notes.push((found.size, found.note)),
        None if notes.is_empty() => notes.push((covering.size, covering.note.clone())),
        None => {}
    }
    notes.sort_by_key(|(size, _)| *size);
    let first = visit.first().map_or(0, |placed| placed.number + 1);
    if let Some(first) = rows.first_checkpoint_of(first, false)?
        && first.origin == covering.origin
        && notes.first().is_some_and(|(size, _)| first.size < *size)
    {
        notes.insert(0, (first.size, first.note));
    }
    let mut consistency = Vec::new();
    for pair in notes.windows(2) {
        let [(old, _), (new, _)] = pair else { continue };
        consistency.push(merkle::stored_consistency(rows, *old, *new)?.ok_or(PacketError::NoCheckpoint)?);
    }
    let (last, note) = notes.last().cloned().ok_or(PacketError::NoCheckpoint)?;
    let checkpoints = notes.into_iter().map(|(_, note)| note).collect();
    let mut leaves = Vec::new();
    for placed in all() {
        leaves.push(leaf(rows, placed.number, last)?);
    }
    leaves.sort_by_key(|leaf| leaf.number);
    leaves.dedup_by_key(|leaf| leaf.number);
    let heads = if says_heads(&note) { heads(rows, stay, last)? } else { Vec::new() };
    let seen = seen(rows, all(), last)?;
    Ok(Log {
        checkpoints,
        consistency,
        leaves,
        chains: Vec::new(),
        tokens,
        heads,
        seen,
        photos_elsewhere: Vec::new(),
    })
}

/// Returns a leaf with its path in the log of `size` leaves.
fn leaf(rows: &dyn LogRows, number: u64, size: u64) -> Result<Leaf, PacketError> {
    let leaf = rows.leaf(number)?.ok_or(PacketError::NoCheckpoint)?;
    let path = merkle::stored_path(rows, number, size)?.ok_or(PacketError::NoCheckpoint)?;
    Ok(Leaf { entry: leaf.entry, number, received_at: leaf.received_at, path, about: leaf.about })
}

/// Returns the heads of the visits that the checkpoint of `size` leaves commits to.
fn heads(rows: &dyn LogRows, stay: &[VisitId], size: u64) -> Result<Vec<VisitHead>, PacketError> {
    let mut heads = Heads::at(rows, size)?;
    let of = |visit: &VisitId| {
        let about = Subject::Visit(*visit);
        let (head, path) = heads.proof(about)?;
        Some(VisitHead { about, count: head.count, root: head.root, path })
    };
    Ok(stay.iter().filter_map(of).collect())
}

/// Returns the checkpoints that entries refer to and that are earlier states of this log.
fn seen<'p>(
    rows: &dyn LogRows,
    all: impl Iterator<Item = &'p Placed>,
    size: u64,
) -> Result<Vec<SeenBefore>, PacketError> {
    let named: BTreeSet<(u64, Digest)> = all
        .filter_map(|placed| placed.entry.body.seen)
        .map(|seen| (seen.size, seen.root))
        .filter(|(named, _)| (1..=size).contains(named))
        .collect();
    let mut seen = Vec::new();
    for (named, root) in named {
        // The office cannot prove a checkpoint that this log never had. Verifiers see that the proof is
        // missing.
        if merkle::stored_root(rows, named)? != root {
            continue;
        }
        let Some(path) = merkle::stored_consistency(rows, named, size)? else { continue };
        seen.push(SeenBefore { size: named, root, path, last: leaf(rows, named - 1, size)? });
    }
    Ok(seen)
}

/// Returns the photographs of the stay that entries of other visits had also named by the time of the stay's
/// last entry.
fn photos_elsewhere(
    store: &dyn Store,
    stay: &[VisitId],
    visit: &[Placed],
    last: u64,
) -> Result<Vec<(Digest, u64)>, PacketError> {
    let photo_of = |entry: &Entry| match &entry.body.says {
        Statement::Photo { photo, .. } => Some(photo.sha256),
        _ => None,
    };
    let photos: BTreeSet<Digest> = visit.iter().filter_map(|placed| photo_of(&placed.entry)).collect();
    let mut elsewhere = Vec::new();
    for photo in photos {
        let mut others: u64 = 0;
        for subject in store.scopes().naming_photo(photo)? {
            if !matches!(subject, Subject::Visit(other) if !stay.contains(&other)) {
                continue;
            }
            let mut named = false;
            for row in store.entries_of(subject)?.rows {
                let early = store.log().place(row.id)?.is_some_and(|(number, _)| number <= last);
                named |= early
                    && Entry::reopen(row.id, row.bytes)
                        .is_ok_and(|entry| entry.body.about == subject && photo_of(&entry) == Some(photo));
            }
            others += u64::from(named);
        }
        if others > 0 {
            elsewhere.push((photo, others));
        }
    }
    Ok(elsewhere)
}

/// Returns, for each device, what lies between its first and its last entry of the stay.
fn chains<'p>(
    store: &dyn Store,
    visit: &[Placed],
    all: impl Iterator<Item = &'p Entry>,
) -> Result<Vec<ElsewhereInChain>, PacketError> {
    let mut spans: BTreeMap<DeviceId, (u64, u64, EntryId)> = BTreeMap::new();
    for placed in visit {
        let entry = &placed.entry;
        let span = spans.entry(entry.device).or_insert((entry.body.seq, entry.body.seq, entry.id));
        span.0 = span.0.min(entry.body.seq);
        if entry.body.seq > span.1 {
            (span.1, span.2) = (entry.body.seq, entry.id);
        }
    }
    let here: BTreeMap<EntryId, &Entry> = all.map(|entry| (entry.id, entry)).collect();
    let mut chains = Vec::new();
    for (device, (first, last, newest)) in spans {
        let (mut elsewhere, whole) = walk(store, &here, newest, first)?;
        let mut missing = Vec::new();
        if !whole {
            elsewhere = search(store, &here, device, (first, last))?;
            let mut numbers: BTreeSet<u64> = elsewhere.iter().map(|other| other.seq).collect();
            numbers.extend(here.values().filter(|e| e.device == device).map(|e| e.body.seq));
            let mut expected = first;
            for seq in numbers.range(first..=last) {
                if *seq > expected {
                    missing.push((expected, *seq - 1));
                }
                expected = seq.saturating_add(1);
            }
        }
        elsewhere.sort_by_key(|other| (other.seq, other.entry));
        if !elsewhere.is_empty() || !missing.is_empty() {
            chains.push(ElsewhereInChain { device, elsewhere, missing });
        }
    }
    Ok(chains)
}

/// Follows a chain backwards from its newest entry to number `first`. Returns false when the chain breaks off
/// earlier.
fn walk(
    store: &dyn Store,
    here: &BTreeMap<EntryId, &Entry>,
    newest: EntryId,
    first: u64,
) -> Result<(Vec<Numbered>, bool), PacketError> {
    let mut elsewhere = Vec::new();
    let Some(mut at) = here.get(&newest).map(|entry| (entry.body.seq, entry.body.prev)) else {
        return Ok((elsewhere, false));
    };
    while at.0 > first {
        let Some(prev) = at.1 else { return Ok((elsewhere, false)) };
        let before = match here.get(&prev) {
            Some(entry) => (entry.body.seq, entry.body.prev),
            None => {
                let Some(row) = store.entry(prev)? else { return Ok((elsewhere, false)) };
                let entry = Entry::reopen(row.id, row.bytes)?;
                elsewhere.push(Numbered { seq: entry.body.seq, entry: prev });
                (entry.body.seq, entry.body.prev)
            }
        };
        // A device whose numbers do not decrease backwards could lead in circles.
        if before.0 >= at.0 {
            return Ok((elsewhere, false));
        }
        if before.0 + 1 != at.0 {
            return Ok((elsewhere, false));
        }
        at = before;
    }
    Ok((elsewhere, true))
}

/// Returns all entries of a device within a span that are missing in the packet. The function reads the whole
/// ledger and is used only for broken chains.
fn search(
    store: &dyn Store,
    here: &BTreeMap<EntryId, &Entry>,
    device: DeviceId,
    (first, last): (u64, u64),
) -> Result<Vec<Numbered>, StoreError> {
    let mut found: BTreeMap<EntryId, u64> = BTreeMap::new();
    for subject in store.subjects()? {
        for row in store.entries_of(subject)?.rows {
            let Ok(entry) = Entry::reopen(row.id, row.bytes) else { continue };
            let within = entry.device == device && (first..=last).contains(&entry.body.seq);
            if within && !here.contains_key(&entry.id) {
                found.insert(entry.id, entry.body.seq);
            }
        }
    }
    Ok(found.into_iter().map(|(entry, seq)| Numbered { seq, entry }).collect())
}
