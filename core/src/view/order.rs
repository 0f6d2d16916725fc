//! A total order of a set of entries that does not depend on the order of arrival.
//!
//! An entry comes after every entry that it follows or replaces and after its own device's earlier entries.
//! Beyond that, entries are ordered by claimed time, corrected by the known clock difference of the device.
//! `view::slots` calls this module.

use std::cmp::Reverse;
use std::collections::{BinaryHeap, HashMap};

use crate::clock::UtcMillis;
use crate::entry::Entry;
use crate::ids::{DeviceId, EntryId};

/// An entry in its place in the order.
#[derive(Clone, Copy, Debug)]
pub struct Placed<'a> {
    /// The entry.
    pub entry: &'a Entry,
    /// The claimed time minus the known clock difference of the device.
    pub at: UtcMillis,
    /// The known difference of the device's clock to the server's, in milliseconds; positive if it is ahead.
    pub ahead_millis: Option<i64>,
    /// Whether the difference comes from a neighbouring entry of the device instead of this one.
    pub ahead_from_neighbour: bool,
}

/// Returns things in the order of the places that they come with. Things of one place keep their order.
///
/// Numbers are sorted in place of things: sorting is compiled anew for each type.
pub(super) fn by_place<T>(things: Vec<(usize, T)>) -> Vec<T> {
    let mut order: Vec<(usize, usize)> =
        things.iter().enumerate().map(|(at, (place, _))| (*place, at)).collect();
    order.sort_unstable();
    let mut things: Vec<Option<T>> = things.into_iter().map(|(_, thing)| Some(thing)).collect();
    order.into_iter().filter_map(|(_, at)| things[at].take()).collect()
}

/// Returns the entries without duplicates in causal order, and otherwise in order of claimed time.
pub fn in_order<'a>(entries: impl IntoIterator<Item = &'a Entry>) -> Vec<Placed<'a>> {
    let mut given: Vec<&Entry> = entries.into_iter().collect();
    given.sort_unstable_by_key(|e| (e.device, e.body.seq, e.id));
    given.dedup_by_key(|e| e.id);
    let placed = with_clock_differences(&given);
    let at: HashMap<EntryId, usize> = placed.iter().enumerate().map(|(i, p)| (p.entry.id, i)).collect();

    // Edges lead from earlier to later entries.
    let mut later: Vec<Vec<usize>> = vec![Vec::new(); placed.len()];
    let mut waits: Vec<usize> = vec![0; placed.len()];
    for (i, p) in placed.iter().enumerate() {
        let before = p.entry.body.follows.iter().chain(&p.entry.body.replaces).filter_map(|id| at.get(id));
        for &b in before.filter(|b| **b != i) {
            later[b].push(i);
            waits[i] += 1;
        }
        // `given` is sorted by device and sequence number, so the neighbour is the device's previous entry.
        if i > 0 && placed[i - 1].entry.device == p.entry.device {
            later[i - 1].push(i);
            waits[i] += 1;
        }
    }

    let key = |i: usize| -> Key {
        (placed[i].at, placed[i].entry.device, placed[i].entry.body.seq, placed[i].entry.id, i)
    };
    let mut ready: BinaryHeap<Reverse<Key>> =
        (0..placed.len()).filter(|i| waits[*i] == 0).map(|i| Reverse(key(i))).collect();
    let mut done = vec![false; placed.len()];
    let mut order = Vec::with_capacity(placed.len());
    // A device with false sequence numbers can create a cycle; the earliest remaining entry breaks it.
    let mut left: Vec<Key> = Vec::new();
    let mut left_made = false;
    while order.len() < placed.len() {
        let next = match ready.pop() {
            Some(Reverse((.., i))) => i,
            None => {
                if !left_made {
                    left = (0..placed.len()).filter(|i| !done[*i]).map(key).collect();
                    left.sort_unstable_by(|a, b| b.cmp(a));
                    left_made = true;
                }
                match left.pop() {
                    Some((.., i)) => i,
                    None => break,
                }
            }
        };
        if std::mem::replace(&mut done[next], true) {
            continue;
        }
        order.push(placed[next]);
        for &l in &later[next] {
            waits[l] = waits[l].saturating_sub(1);
            if waits[l] == 0 && !done[l] {
                ready.push(Reverse(key(l)));
            }
        }
    }
    order
}

type Key = (UtcMillis, DeviceId, u64, EntryId, usize);

/// Adds the clock differences to `entries`, which are sorted by device and sequence number. A device learns
/// its difference only on contact with the server. A stated difference therefore applies to the device's
/// preceding entries, back to the previous statement, and to the following entries until the next one.
fn with_clock_differences<'a>(entries: &[&'a Entry]) -> Vec<Placed<'a>> {
    let mut placed: Vec<Placed<'a>> = entries
        .iter()
        .map(|e| Placed {
            entry: e,
            at: e.body.when.corrected(),
            ahead_millis: e.body.when.ahead_millis,
            ahead_from_neighbour: false,
        })
        .collect();
    for group in placed.chunk_by_mut(|a, b| a.entry.device == b.entry.device) {
        let mut known: Option<i64> = None;
        let lend = |p: &mut Placed<'_>, known: &mut Option<i64>| match (p.ahead_millis, *known) {
            (Some(own), _) => *known = Some(own),
            (None, Some(lent)) => {
                p.ahead_millis = Some(lent);
                p.ahead_from_neighbour = true;
                p.at = UtcMillis(p.entry.body.when.at.0.saturating_sub(lent));
            }
            (None, None) => {}
        };
        group.iter_mut().rev().for_each(|p| lend(p, &mut known));
        known = None;
        group.iter_mut().for_each(|p| lend(p, &mut known));
    }
    placed
}
