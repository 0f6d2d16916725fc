//! Slots: what stands now, what stood before, and where two entries differ.
//!
//! `follows` says that the state moved on and nobody was wrong; `replaces` says that an entry was
//! wrong. An entry is *replaced* when any entry replaces it. It is *moved on* when an entry of its own
//! slot that is not replaced follows it. What is neither, and no withdrawal, is *live*. Two live
//! entries of one slot that claim different things are a disagreement; points of a series never are.
//! Used by the fold of visits, cars and sites, and by whoever writes an entry (`follows_for`).

use std::cell::OnceCell;
use std::collections::{BTreeMap, HashMap, HashSet};

use serde::Serialize;

use super::order::{Placed, in_order};
use crate::authority::{Judged, Verdict};
use crate::clock::UtcMillis;
use crate::entry::{ClaimKey, Claims, Entry, Statement};
use crate::ids::{DeviceId, EntryId};

/// What became of an entry.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Fate {
    /// It stands.
    Live,
    /// The state moved on; it was right when it was made.
    MovedOn,
    /// Another entry stands in its place.
    Corrected,
    /// It was withdrawn and nothing stands in its place.
    Withdrawn,
    /// A disagreement it was part of was settled in favour of another account.
    Settled,
    /// A disagreement it was part of was settled in its favour: it is the account agreed on.
    Agreed,
    /// It is itself a withdrawal: it only removes.
    Withdrawal,
    /// It is kept and does not count, or is not checked yet.
    Kept,
}

/// An entry in its slot.
#[derive(Clone, Copy, Debug)]
pub struct Item<'a> {
    /// The entry.
    pub entry: &'a Entry,
    /// Its place in the order of all entries: 0 is the first.
    pub place: usize,
    /// Its claimed time, corrected by what is known of its device's clock.
    pub at: UtcMillis,
    /// What the device's clock is known to be ahead, milliseconds.
    pub ahead_millis: Option<i64>,
    /// Whether that was said by a neighbouring entry of the device.
    pub ahead_from_neighbour: bool,
    /// What became of it.
    pub fate: Fate,
    /// Place of the entry that corrected, settled or withdrew it; that entry says why.
    pub replaced_by: Option<usize>,
    /// What it claims: its own statement or, for an agreement, that of the entry kept. Nothing for a
    /// withdrawal and for an agreement on an entry that is not here.
    pub claim: Option<&'a Statement>,
    /// Place of the entry whose claim that is: its own or, for an agreement, of the entry kept. What was
    /// seen before something else stays before it, however late it is settled.
    pub claim_place: usize,
    /// Claimed time of that entry.
    pub claim_at: UtcMillis,
    /// Whether it says it speaks about another slot than its statement does.
    pub misfiled: bool,
    /// Whether it counts.
    pub verdict: Verdict,
    /// Whether its claimed time can be true, so that it may decide what was said last.
    pub credible: bool,
}

/// A disagreement that is over.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Ended {
    /// The slot.
    pub slot: String,
    /// Places of the entries that differed.
    pub between: Vec<usize>,
    /// Place of the entry that ended it.
    pub by: usize,
}

#[derive(Clone, Debug, Default)]
struct Slot {
    /// Tells slots apart more cheaply than their names.
    number: usize,
    places: Vec<usize>,
    live: Vec<usize>,
    disputed: bool,
}

/// Entries by slot.
#[derive(Clone, Debug, Default)]
pub struct Slots<'a> {
    items: Vec<Item<'a>>,
    at: HashMap<EntryId, usize>,
    slots: BTreeMap<String, Slot>,
    kept: Vec<Item<'a>>,
}

/// The slot an entry stands in, and whether it says it speaks about another.
pub(super) fn slot_of(entry: &Entry) -> (String, bool) {
    let slot = entry.body.speaks_of();
    let misfiled = slot != entry.body.slot;
    (slot, misfiled)
}

/// Whether a slot is a series.
pub fn is_series(slot: &str) -> bool {
    crate::entry::Slot::is_series(slot)
}

impl<'a> Slots<'a> {
    /// Sorts entries into their slots. Order and doubles do not matter. What does not count takes no part and
    /// is handed out by [`Slots::kept`] alone.
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
                    // An entry replaced in several ways: a correction says most, a withdrawal least.
                    let known = replaced.entry(*gone).or_insert((fate, item.place));
                    if stronger(known.0, fate) != known.0 {
                        *known = (fate, item.place);
                    }
                }
            }
        }
        let moved_on = self.moved_on(slot_numbers, &replaced, &reopened);
        // Later ones first, so that an agreement's own fate is known before that of what it keeps.
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

    /// The settlements that were taken back: what they settled is open again, as if they had never been made.
    fn taken_back(&self) -> HashSet<usize> {
        self.items
            .iter()
            .filter(|item| matches!(item.entry.body.says, Statement::Withdrawn {}))
            .flat_map(|item| item.entry.body.replaces.iter().filter_map(|id| self.at.get(id)))
            .copied()
            .filter(|place| matches!(self.items[*place].entry.body.says, Statement::Agreement { .. }))
            .collect()
    }

    /// The entries that another of their slot follows. What came after a settlement that was taken back came
    /// after what that settled.
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
        // Where each entry's claim is made; found once and then handed on, however long agreements keep agreements.
        let mut made_at: Vec<Option<Option<usize>>> = vec![None; self.items.len()];
        for place in 0..self.items.len() {
            let (mut here, mut way) = (place, Vec::new());
            let found = loop {
                if let Some(known) = made_at[here] {
                    break known;
                }
                way.push(here);
                // No circle can close, an id being the digest of what names it; were there one, it claims nothing.
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
            }
        }
    }

    fn find_live(&mut self) {
        for (name, slot) in &mut self.slots {
            slot.live = slot.places.iter().copied().filter(|p| self.items[*p].fate == Fate::Live).collect();
            slot.disputed = !is_series(name) && any_differ(&self.items, &slot.live);
        }
    }

    /// Entries that do not count, in order: shown with the reason, and never read for what they say.
    pub fn kept(&self) -> &[Item<'a>] {
        &self.kept
    }

    /// All entries that count, in causal and then claimed order.
    pub fn items(&self) -> &[Item<'a>] {
        &self.items
    }

    /// One entry.
    pub fn item(&self, id: EntryId) -> Option<&Item<'a>> {
        self.at.get(&id).map(|place| &self.items[*place])
    }

    /// The names of all slots, ascending.
    pub fn names(&self) -> impl Iterator<Item = &str> {
        self.slots.keys().map(String::as_str)
    }

    /// The names of the slots that begin with `prefix`, ascending.
    pub fn names_under<'s>(&'s self, prefix: &'s str) -> impl Iterator<Item = &'s str> {
        self.slots
            .range(prefix.to_owned()..)
            .map(|(name, _)| name.as_str())
            .take_while(move |name| name.starts_with(prefix))
    }

    /// Every entry of a slot, whatever became of it, in order.
    pub fn all(&self, slot: &str) -> impl DoubleEndedIterator<Item = &Item<'a>> {
        self.places(slot).iter().map(|place| &self.items[*place])
    }

    /// The entries of a slot that nobody called wrong: live, or moved on from. In order.
    pub fn stood(&self, slot: &str) -> impl DoubleEndedIterator<Item = &Item<'a>> {
        self.all(slot).filter(|item| matches!(item.fate, Fate::Live | Fate::MovedOn))
    }

    /// The live entries of a slot, in order. For a series: all its points that stand.
    pub fn live(&self, slot: &str) -> impl DoubleEndedIterator<Item = &Item<'a>> {
        let live = self.slots.get(slot).map(|s| s.live.as_slice()).unwrap_or_default();
        live.iter().map(|place| &self.items[*place])
    }

    /// The live entry last claimed. In a slot without disagreement it is the current value, and the
    /// other live entries say the same. A time that cannot be true is no claim to be the last.
    pub fn latest(&self, slot: &str) -> Option<&Item<'a>> {
        self.live(slot).max_by_key(|item| (item.credible, item.at, item.place))
    }

    /// Whether two live entries of the slot claim different things.
    pub fn is_disputed(&self, slot: &str) -> bool {
        self.slots.get(slot).is_some_and(|s| s.disputed)
    }

    /// The current value, where there is one and nobody disagrees.
    pub fn settled(&self, slot: &str) -> Option<&Item<'a>> {
        if self.is_disputed(slot) { None } else { self.latest(slot) }
    }

    /// The slots in disagreement, ascending.
    pub fn disagreements(&self) -> impl Iterator<Item = &str> {
        self.slots.iter().filter(|(_, slot)| slot.disputed).map(|(name, _)| name.as_str())
    }

    /// Disagreements that are over: an entry that follows or replaces two that differed.
    pub fn ended(&self) -> Vec<Ended> {
        let mut ended = Vec::new();
        // Which slot an entry stands in, looked up once for all that name it.
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

    /// What a new entry of this slot should put into its `follows`: everything live there now. Where
    /// that is in dispute, only what the device itself said: an entry that just comes later must not end a
    /// disagreement that takes a reason. Nothing for a series, whose points stand side by side.
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
        misfiled,
        verdict: Verdict::Counts,
        credible: true,
    }
}

fn stronger(a: Fate, b: Fate) -> Fate {
    let rank = |fate| match fate {
        Fate::Corrected => 2,
        Fate::Settled => 1,
        _ => 0,
    };
    if rank(b) > rank(a) { b } else { a }
}

/// Whether any two of the entries claim different things, found in one pass.
fn any_differ(items: &[Item<'_>], places: &[usize]) -> bool {
    if places.len() < 2 {
        return false;
    }
    let mut claims = Claims::default();
    places.iter().for_each(|place| claims.take(items[*place].claim));
    claims.differ()
}

/// Whether two claims differ. What cannot be read here is never taken for the same as anything.
pub fn differ(a: Option<&Statement>, b: Option<&Statement>) -> bool {
    match (a, b) {
        (Some(Statement::Unrecognised { .. }), _) | (_, Some(Statement::Unrecognised { .. })) => true,
        (Some(a), Some(b)) => !a.same_claim(b),
        _ => true,
    }
}
