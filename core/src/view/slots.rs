//! Slots: what stands now, what stood before, and where entries disagree.
//!
//! `follows` states that the state has changed and that no entry was wrong; `replaces` states that an entry
//! was wrong. An entry is *replaced* if any entry replaces it. It is *moved on* if an entry of its own slot
//! that is not replaced follows it. An entry that is neither, and is not a withdrawal, is *live*. Two live
//! entries of one slot with different claims are a disagreement, except in a series. The folds of visits,
//! cars and sites use this module, and so does code that makes entries (`follows_for`).

use std::cell::OnceCell;
use std::collections::{BTreeMap, HashMap, HashSet};

use serde::Serialize;

use super::order::{Placed, in_order};
use crate::authority::{Judged, Verdict};
use crate::clock::UtcMillis;
use crate::entry::{ClaimKey, Claims, Entry, Statement};
use crate::ids::{DeviceId, EntryId};

/// The fate of an entry.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Fate {
    /// The entry stands.
    Live,
    /// The state has changed since; the entry was right when it was made.
    MovedOn,
    /// Another entry replaced it.
    Corrected,
    /// The entry was withdrawn without a replacement.
    Withdrawn,
    /// The entry was part of a disagreement that was settled in favour of another entry.
    Settled,
    /// The entry was part of a disagreement that was settled in its favour.
    Agreed,
    /// The entry is itself a withdrawal and has no claim of its own.
    Withdrawal,
    /// The entry is kept without counting, or is not checked yet.
    Kept,
}

/// An entry in its slot.
#[derive(Clone, Copy, Debug)]
pub struct Item<'a> {
    /// The entry.
    pub entry: &'a Entry,
    /// The entry's place in the order of all entries, counted from 0.
    pub place: usize,
    /// The claimed time, corrected by the known clock difference of the device.
    pub at: UtcMillis,
    /// The known difference of the device's clock to the server's, in milliseconds; positive if it is ahead.
    pub ahead_millis: Option<i64>,
    /// Whether the difference comes from a neighbouring entry of the device.
    pub ahead_from_neighbour: bool,
    /// The fate of the entry.
    pub fate: Fate,
    /// The place of the entry that corrected, settled or withdrew this one and states the reason.
    pub replaced_by: Option<usize>,
    /// The claim: the entry's own statement or, for an agreement, that of the entry it keeps. `None` for a
    /// withdrawal, and for an agreement on an entry that is not here.
    pub claim: Option<&'a Statement>,
    /// The place of the entry that made the claim: the entry itself or, for an agreement, the entry it keeps.
    /// An observation keeps its place in time even if its disagreement is settled later.
    pub claim_place: usize,
    /// The claimed time of that entry.
    pub claim_at: UtcMillis,
    /// When the thing that it tells of was done: the time stated in that entry, corrected as the claimed time is, or
    /// the claimed time. A stated time after the entry's own counts for nothing. Places keep to the entry.
    pub done_at: UtcMillis,
    /// Whether the entry states another slot than its statement determines.
    pub misfiled: bool,
    /// Whether the entry counts.
    pub verdict: Verdict,
    /// Whether the claimed time is plausible; only then can the entry be the latest.
    pub credible: bool,
}

/// A disagreement that has ended.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Ended {
    /// The slot.
    pub slot: String,
    /// The places of the entries that disagreed.
    pub between: Vec<usize>,
    /// The place of the entry that ended it.
    pub by: usize,
}

#[derive(Clone, Debug, Default)]
struct Slot {
    /// A number that identifies the slot and is cheaper to compare than its name.
    number: usize,
    places: Vec<usize>,
    live: Vec<usize>,
    disputed: bool,
}

/// All entries by slot.
#[derive(Clone, Debug, Default)]
pub struct Slots<'a> {
    items: Vec<Item<'a>>,
    at: HashMap<EntryId, usize>,
    slots: BTreeMap<String, Slot>,
    kept: Vec<Item<'a>>,
}

/// Returns the slot of an entry, and whether the entry states another one.
pub(super) fn slot_of(entry: &Entry) -> (String, bool) {
    let slot = entry.body.speaks_of();
    let misfiled = slot != entry.body.slot;
    (slot, misfiled)
}

/// Returns true if a slot is a series.
pub fn is_series(slot: &str) -> bool {
    crate::entry::Slot::is_series(slot)
}

impl<'a> Slots<'a> {
    /// Sorts entries into their slots. The order of entries and duplicates do not matter. Entries that do not
    /// count take no part and are available only through [`Slots::kept`].
    pub fn fold(entries: impl IntoIterator<Item = Judged<'a>>) -> Slots<'a> {
        let (counted, kept): (Vec<Judged<'a>>, Vec<Judged<'a>>) =
            entries.into_iter().partition(|judged| judged.verdict().counts());
        let judged: HashMap<EntryId, Judged<'a>> = counted.iter().map(|j| (j.entry().id, *j)).collect();
        let placed = in_order(counted.iter().map(Judged::entry));
        let at: HashMap<EntryId, usize> = placed.iter().enumerate().map(|(i, p)| (p.entry.id, i)).collect();
        let mut slots: BTreeMap<String, Slot> = BTreeMap::new();
        let mut items = Vec::with_capacity(placed.len());
        let mut slot_numbers: Vec<usize> = Vec::with_capacity(placed.len());
        for (place, p) in placed.iter().enumerate() {
            let (slot, misfiled) = slot_of(p.entry);
            let number = slots.len();
            let slot = slots.entry(slot).or_insert_with(|| Slot { number, ..Slot::default() });
            slot.places.push(place);
            slot_numbers.push(slot.number);
            let (verdict, credible) =
                judged.get(&p.entry.id).map_or((Verdict::Counts, true), |j| (j.verdict(), j.credible()));
            items.push(Item { verdict, credible, ..item(place, p, misfiled) });
        }
        let kept = kept_items(&kept);
        let mut folded = Slots { items, at, slots, kept };
        folded.decide_fates(&slot_numbers);
        folded.resolve_claims(&slot_numbers);
        folded.find_live();
        folded
    }

    fn decide_fates(&mut self, slot_numbers: &[usize]) {
        let reopened = self.taken_back();
        let mut replaced: HashMap<usize, (Fate, usize)> = HashMap::new();
        let mut kept_by: HashMap<usize, Vec<usize>> = HashMap::new();
        for item in self.items.iter().filter(|item| !reopened.contains(&item.place)) {
            let fate = match item.entry.body.says {
                Statement::Withdrawn {} => Fate::Withdrawn,
                Statement::Agreement { keeps } => {
                    if let Some(kept) = self.at.get(&keeps) {
                        kept_by.entry(*kept).or_default().push(item.place);
                    }
                    Fate::Settled
                }
                _ => Fate::Corrected,
            };
            for gone in item.entry.body.replaces.iter().filter_map(|id| self.at.get(id)) {
                if *gone != item.place {
                    // Of several entries that replace one, a correction takes precedence over a settlement
                    // and a withdrawal comes last.
                    let known = replaced.entry(*gone).or_insert((fate, item.place));
                    if stronger(known.0, fate) != known.0 {
                        *known = (fate, item.place);
                    }
                }
            }
        }
        let moved_on = self.moved_on(slot_numbers, &replaced, &reopened);
        // Later entries come first, so that the fate of an agreement is known before that of the entry it
        // keeps.
        for place in (0..self.items.len()).rev() {
            let (mut by, mut fate) = (None, Fate::Live);
            let withdrawal = matches!(self.items[place].entry.body.says, Statement::Withdrawn {});
            match replaced.get(&place) {
                Some((how, replacing)) => (fate, by) = (*how, Some(*replacing)),
                None if withdrawal => fate = Fate::Withdrawal,
                None if moved_on.contains(&place) => fate = Fate::MovedOn,
                None => {}
            }
            if fate == Fate::Settled {
                let stands = |by: &&usize| {
                    matches!(self.items[**by].fate, Fate::Live | Fate::MovedOn | Fate::Agreed)
                        && self.items[**by].entry.body.replaces.contains(&self.items[place].entry.id)
                };
                if let Some(agreement) = kept_by.get(&place).into_iter().flatten().find(stands) {
                    (fate, by) = (Fate::Agreed, Some(*agreement));
                }
            }
            self.items[place].fate = fate;
            self.items[place].replaced_by = by;
        }
    }

    /// Returns the settlements that were withdrawn. The disagreements they settled are open again, as if the
    /// settlements had never been made.
    fn taken_back(&self) -> HashSet<usize> {
        self.items
            .iter()
            .filter(|item| matches!(item.entry.body.says, Statement::Withdrawn {}))
            .flat_map(|item| item.entry.body.replaces.iter().filter_map(|id| self.at.get(id)))
            .copied()
            .filter(|place| matches!(self.items[*place].entry.body.says, Statement::Agreement { .. }))
            .collect()
    }

    /// Returns the entries that another entry of their slot follows. An entry that follows a withdrawn
    /// settlement follows the entries that it had settled.
    fn moved_on(
        &self,
        slot_numbers: &[usize],
        replaced: &HashMap<usize, (Fate, usize)>,
        reopened: &HashSet<usize>,
    ) -> HashSet<usize> {
        let mut moved_on: HashSet<usize> = HashSet::new();
        let mut way: Vec<usize> = Vec::new();
        for item in &self.items {
            let withdrawal = matches!(item.entry.body.says, Statement::Withdrawn {});
            if replaced.contains_key(&item.place) || withdrawal {
                continue;
            }
            let in_slot = |ids: &[EntryId], way: &mut Vec<usize>| {
                let earlier = ids.iter().filter_map(|id| self.at.get(id)).copied();
                way.extend(
                    earlier.filter(|e| *e != item.place && slot_numbers[*e] == slot_numbers[item.place]),
                );
            };
            in_slot(&item.entry.body.follows, &mut way);
            while let Some(before) = way.pop() {
                if moved_on.insert(before) && reopened.contains(&before) {
                    in_slot(&self.items[before].entry.body.replaces, &mut way);
                }
            }
        }
        moved_on
    }

    fn resolve_claims(&mut self, slot_numbers: &[usize]) {
        // The place of each entry's claim is found once and reused, however long a chain of agreements is.
        let mut made_at: Vec<Option<Option<usize>>> = vec![None; self.items.len()];
        for place in 0..self.items.len() {
            let (mut here, mut way) = (place, Vec::new());
            let found = loop {
                if let Some(known) = made_at[here] {
                    break known;
                }
                way.push(here);
                // A cycle is impossible because an id is the digest of the entry that contains it; if there
                // were one, its entries would have no claim.
                made_at[here] = Some(None);
                here = match &self.items[here].entry.body.says {
                    Statement::Agreement { keeps } => match self.at.get(keeps) {
                        Some(kept) if slot_numbers[*kept] == slot_numbers[place] => *kept,
                        _ => break None,
                    },
                    Statement::Withdrawn {} => break None,
                    _ => break Some(here),
                };
            };
            for passed in way {
                made_at[passed] = Some(found);
            }
            if let Some(here) = found {
                self.items[place].claim = Some(&self.items[here].entry.body.says);
                self.items[place].claim_place = here;
                self.items[place].claim_at = self.items[here].at;
                self.items[place].done_at = self.items[here].done_at;
            }
        }
    }

    fn find_live(&mut self) {
        for (name, slot) in &mut self.slots {
            slot.live = slot.places.iter().copied().filter(|p| self.items[*p].fate == Fate::Live).collect();
            slot.disputed = !is_series(name) && any_differ(&self.items, &slot.live);
        }
    }

    /// Returns the entries that do not count, in order. They are shown with the reason and are never
    /// evaluated.
    pub fn kept(&self) -> &[Item<'a>] {
        &self.kept
    }

    /// Returns all entries that count, in causal order and otherwise by claimed time.
    pub fn items(&self) -> &[Item<'a>] {
        &self.items
    }

    /// Returns an entry by its id.
    pub fn item(&self, id: EntryId) -> Option<&Item<'a>> {
        self.at.get(&id).map(|place| &self.items[*place])
    }

    /// Returns the names of all slots in ascending order.
    pub fn names(&self) -> impl Iterator<Item = &str> {
        self.slots.keys().map(String::as_str)
    }

    /// Returns the names of the slots that begin with `prefix`, in ascending order.
    pub fn names_under<'s>(&'s self, prefix: &'s str) -> impl Iterator<Item = &'s str> {
        self.slots
            .range(prefix.to_owned()..)
            .map(|(name, _)| name.as_str())
            .take_while(move |name| name.starts_with(prefix))
    }

    /// Returns every entry of a slot in order, whatever its fate.
    pub fn all(&self, slot: &str) -> impl DoubleEndedIterator<Item = &Item<'a>> + use<'_, 'a> {
        self.places(slot).iter().map(|place| &self.items[*place])
    }

    /// Returns the entries of a slot, in order, that are live or moved on, that is, those that nobody called
    /// wrong.
    pub fn stood(&self, slot: &str) -> impl DoubleEndedIterator<Item = &Item<'a>> + use<'_, 'a> {
        self.all(slot).filter(|item| matches!(item.fate, Fate::Live | Fate::MovedOn))
    }

    /// Returns the live entries of a slot in order. For a series these are all standing points.
    pub fn live(&self, slot: &str) -> impl DoubleEndedIterator<Item = &Item<'a>> {
        let live = self.slots.get(slot).map(|s| s.live.as_slice()).unwrap_or_default();
        live.iter().map(|place| &self.items[*place])
    }

    /// Returns the live entry that was claimed last. In a slot without disagreement this is the current
    /// value, and all other live entries state the same. Entries with an implausible time are not considered
    /// the last.
    pub fn latest(&self, slot: &str) -> Option<&Item<'a>> {
        self.live(slot).max_by_key(|item| (item.credible, item.at, item.place))
    }

    /// Returns true if two live entries of the slot have different claims.
    pub fn is_disputed(&self, slot: &str) -> bool {
        self.slots.get(slot).is_some_and(|s| s.disputed)
    }

    /// Says of a live entry that what it says has ended, without an entry here that says so.
    pub(super) fn end(&mut self, place: usize) {
        let Some(item) = self.items.get_mut(place) else { return };
        item.fate = Fate::MovedOn;
        for slot in self.slots.values_mut() {
            slot.live.retain(|live| *live != place);
        }
    }

    /// Takes a disagreement for none: the claims differ by less than anybody could tell them apart.
    pub(super) fn agree(&mut self, slot: &str) {
        if let Some(slot) = self.slots.get_mut(slot) {
            slot.disputed = false;
        }
    }

    /// Returns the current value, if there is one and it is undisputed.
    pub fn settled(&self, slot: &str) -> Option<&Item<'a>> {
        if self.is_disputed(slot) { None } else { self.latest(slot) }
    }

    /// Returns the slots with a disagreement, in ascending order.
    pub fn disagreements(&self) -> impl Iterator<Item = &str> {
        self.slots.iter().filter(|(_, slot)| slot.disputed).map(|(name, _)| name.as_str())
    }

    /// Returns the disagreements that have ended, by an entry that follows or replaces two differing ones.
    pub fn ended(&self) -> Vec<Ended> {
        let mut ended = Vec::new();
        // The slot of each entry is looked up once for all entries that name it.
        let mut slot_of_place = vec![usize::MAX; self.items.len()];
        for slot in self.slots.values() {
            slot.places.iter().for_each(|place| slot_of_place[*place] = slot.number);
        }
        let keys: Vec<OnceCell<Option<ClaimKey>>> = vec![OnceCell::new(); self.items.len()];
        let reopened = self.taken_back();
        for (name, slot) in &self.slots {
            if is_series(name) || slot.places.len() < 3 {
                continue;
            }
            for by in slot.places.iter().filter(|by| !reopened.contains(by)) {
                let body = &self.items[*by].entry.body;
                let mut between: Vec<usize> = body
                    .follows
                    .iter()
                    .chain(&body.replaces)
                    .filter_map(|id| self.at.get(id))
                    .copied()
                    .filter(|place| slot_of_place[*place] == slot.number)
                    .collect();
                between.sort_unstable();
                between.dedup();
                let mut claims = Claims::default();
                for place in &between {
                    let key = keys[*place].get_or_init(|| self.items[*place].claim?.claim_key());
                    claims.take_key(key.as_ref());
                }
                if claims.differ() {
                    ended.push(Ended { slot: name.clone(), between, by: *by });
                }
            }
        }
        ended
    }

    /// Returns the entries that a new entry of this slot should list in `follows`: all live ones. In a
    /// disputed slot these are only the device's own entries, because a later entry must not end a
    /// disagreement without giving a reason. Points of a series follow nothing.
    pub fn follows_for(&self, slot: &str, device: DeviceId) -> Vec<EntryId> {
        if is_series(slot) {
            return Vec::new();
        }
        let disputed = self.is_disputed(slot);
        self.live(slot)
            .filter(|item| !disputed || item.entry.device == device)
            .map(|item| item.entry.id)
            .collect()
    }

    fn places(&self, slot: &str) -> &[usize] {
        self.slots.get(slot).map(|s| s.places.as_slice()).unwrap_or_default()
    }
}

fn kept_items<'a>(kept: &[Judged<'a>]) -> Vec<Item<'a>> {
    let verdicts: HashMap<EntryId, Judged<'a>> = kept.iter().map(|j| (j.entry().id, *j)).collect();
    in_order(kept.iter().map(Judged::entry))
        .iter()
        .enumerate()
        .filter_map(|(place, p)| {
            let judged = verdicts.get(&p.entry.id)?;
            let misfiled = slot_of(p.entry).1;
            let (verdict, credible) = (judged.verdict(), judged.credible());
            Some(Item { fate: Fate::Kept, verdict, credible, ..item(place, p, misfiled) })
        })
        .collect()
}

fn item<'a>(place: usize, p: &Placed<'a>, misfiled: bool) -> Item<'a> {
    Item {
        entry: p.entry,
        place,
        at: p.at,
        ahead_millis: p.ahead_millis,
        ahead_from_neighbour: p.ahead_from_neighbour,
        fate: Fate::Live,
        replaced_by: None,
        claim: None,
        claim_place: place,
        claim_at: p.at,
        done_at: done_of(p).map_or(p.at, |done| done.min(p.at)),
        misfiled,
        verdict: Verdict::Counts,
        credible: true,
    }
}

/// Returns the time at which the thing was done, as stated in the entry, minus the known clock difference.
fn done_of(p: &Placed<'_>) -> Option<UtcMillis> {
    p.entry.body.done.map(|done| UtcMillis(done.0.saturating_sub(p.ahead_millis.unwrap_or(0))))
}

fn stronger(a: Fate, b: Fate) -> Fate {
    let rank = |fate| match fate {
        Fate::Corrected => 2,
        Fate::Settled => 1,
        _ => 0,
    };
    if rank(b) > rank(a) { b } else { a }
}

/// Returns true if any two of the entries have different claims; one pass suffices.
fn any_differ(items: &[Item<'_>], places: &[usize]) -> bool {
    if places.len() < 2 {
        return false;
    }
    let mut claims = Claims::default();
    places.iter().for_each(|place| claims.take(items[*place].claim));
    claims.differ()
}

/// Returns true if two claims differ. A claim that cannot be read here differs from every other.
pub fn differ(a: Option<&Statement>, b: Option<&Statement>) -> bool {
    match (a, b) {
        (Some(Statement::Unrecognised { .. }), _) | (_, Some(Statement::Unrecognised { .. })) => true,
        (Some(a), Some(b)) => !a.same_claim(b),
        _ => true,
    }
}
