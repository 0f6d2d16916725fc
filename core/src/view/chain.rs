//! The chain of each device: every entry names the device's previous entry, over all documents.
//!
//! A missing number, a predecessor other than the preceding entry, or two entries with one number mean that
//! entries are missing here or that a device was restored from a backup or copied. Whoever holds all entries
//! maintains [`Chains`] entry by entry; the fold reads them.

use std::collections::{BTreeMap, BTreeSet};

use serde::Serialize;

use crate::entry::Entry;
use crate::ids::{DeviceId, EntryId};
use crate::{Arg, Message, message};

/// An entry's place in its device's chain. Links are ordered by number.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
struct Link {
    seq: u64,
    id: EntryId,
    prev: Option<EntryId>,
}

/// The chains of all entries held in one place.
#[derive(Clone, Debug, Default)]
pub struct Chains {
    devices: BTreeMap<DeviceId, BTreeSet<Link>>,
    /// The entries known only by their id; their predecessors are unknown.
    by_id_alone: BTreeSet<EntryId>,
    /// The entries whose rows are damaged here. They do not count as left out by their device.
    unreadable: BTreeSet<EntryId>,
    /// For chains that are not examined from their beginning, the first number examined.
    from: BTreeMap<DeviceId, u64>,
}

/// A fault in a chain.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
#[serde(rename_all = "snake_case", tag = "what")]
pub enum ChainGap {
    /// Entries of the device are missing here.
    Missing {
        /// The device.
        device: DeviceId,
        /// The first missing number.
        from: u64,
        /// The last missing number.
        to: u64,
    },
    /// Two entries have the same number, because the device was copied or restored from a backup.
    Doubled {
        /// The device.
        device: DeviceId,
        /// The number.
        seq: u64,
        /// The entries.
        entries: Vec<EntryId>,
    },
    /// An entry names another predecessor than the entry before it.
    Broken {
        /// The device.
        device: DeviceId,
        /// The number of the entry with the wrong predecessor.
        seq: u64,
        /// The entry.
        entry: EntryId,
    },
}

impl ChainGap {
    /// Returns the device of the chain.
    pub fn device(&self) -> DeviceId {
        match self {
            ChainGap::Missing { device, .. }
            | ChainGap::Doubled { device, .. }
            | ChainGap::Broken { device, .. } => *device,
        }
    }

    /// Returns a sentence for people.
    pub fn sentence(&self, device_name: &str) -> Message {
        let device = Arg::typed(device_name);
        match self {
            ChainGap::Missing { from, to, .. } if from == to => {
                message!("chain-missing-one", entry = *from, device = device)
            }
            ChainGap::Missing { from, to, .. } => {
                message!("chain-missing", from = *from, to = *to, device = device)
            }
            ChainGap::Doubled { seq, entries, .. } => {
                message!("chain-doubled", count = entries.len(), device = device, entry = *seq)
            }
            ChainGap::Broken { seq, .. } => message!("chain-broken", entry = *seq, device = device),
        }
    }
}

impl Chains {
    /// Builds the chains of these entries.
    pub fn of<'a>(entries: impl IntoIterator<Item = &'a Entry>) -> Chains {
        let mut chains = Chains::default();
        for entry in entries {
            chains.add(entry);
        }
        chains
    }

    /// Adds an entry. Adding it again changes nothing.
    pub fn add(&mut self, entry: &Entry) {
        let link = Link { seq: entry.body.seq, id: entry.id, prev: entry.body.prev };
        self.devices.entry(entry.device).or_default().insert(link);
    }

    /// Adds an entry that is not here itself, by its id alone. It does not count as a gap, and the next entry
    /// must name it as its predecessor.
    pub fn add_by_id(&mut self, device: DeviceId, seq: u64, id: EntryId) {
        self.by_id_alone.insert(id);
        self.devices.entry(device).or_default().insert(Link { seq, id, prev: None });
    }

    /// Records entries whose rows are damaged. Their absence from a chain does not count as a gap.
    pub fn add_unreadable(&mut self, ids: impl IntoIterator<Item = EntryId>) {
        self.unreadable.extend(ids);
    }

    /// Returns the rest of a gap before an entry after damaged entries are accounted for. The last one of the
    /// gap is known by its id, and as many before it as there are damaged rows may be the others.
    fn without_unreadable(&self, (from, to): (u64, u64), links: &[&Link]) -> Option<(u64, u64)> {
        let named = |link: &&Link| link.prev.is_some_and(|prev| self.unreadable.contains(&prev));
        if !links.iter().any(named) {
            return Some((from, to));
        }
        let to = to.saturating_sub(self.unreadable.len() as u64);
        (to >= from).then_some((from, to))
    }

    /// Limits the examination of a device's chain to numbers from `seq` on; missing earlier entries do not
    /// count as a gap.
    pub fn look_from(&mut self, device: DeviceId, seq: u64) {
        self.from.insert(device, seq);
    }

    /// Returns all faults, ordered by device and number. A chain whose newest entries are missing cannot be
    /// told from one that ends earlier.
    pub fn gaps(&self) -> Vec<ChainGap> {
        self.devices.keys().flat_map(|device| self.gaps_of(*device)).collect()
    }

    /// Returns the faults of one device's chain.
    pub fn gaps_of(&self, device: DeviceId) -> Vec<ChainGap> {
        let mut gaps = Vec::new();
        let Some(chain) = self.devices.get(&device) else { return gaps };
        let first = self.from.get(&device).copied().unwrap_or(1);
        let chain: Vec<&Link> = chain.iter().collect();
        let mut before: Option<(u64, &[&Link])> = None;
        for links in chain.chunk_by(|a, b| a.seq == b.seq) {
            let seq = links[0].seq;
            let expected = before.map_or(first, |(seq, _)| seq.saturating_add(1));
            if seq > expected
                && let Some((from, to)) = self.without_unreadable((expected, seq - 1), links)
            {
                gaps.push(ChainGap::Missing { device, from, to });
            }
            if links.len() > 1 {
                let entries = links.iter().map(|link| link.id).collect();
                gaps.push(ChainGap::Doubled { device, seq, entries });
            }
            for link in links.iter().filter(|link| !self.by_id_alone.contains(&link.id)) {
                let sound = match (before, link.prev) {
                    (Some((seq_before, links_before)), prev) if seq_before.checked_add(1) == Some(seq) => {
                        // Links with the same number are ordered by id.
                        prev.is_some_and(|prev| {
                            links_before.binary_search_by_key(&prev, |link| link.id).is_ok()
                        })
                    }
                    (None, None) => seq <= 1,
                    (None, Some(_)) => seq > 1,
                    (Some(_), prev) => prev.is_some(),
                };
                if !sound {
                    gaps.push(ChainGap::Broken { device, seq, entry: link.id });
                }
            }
            before = Some((seq, links));
        }
        gaps
    }

    /// Returns the contradictions among the entries themselves. When the device's other documents are
    /// unknown, missing numbers do not count as gaps.
    pub(super) fn contradictions(&self) -> Vec<ChainGap> {
        self.gaps().into_iter().filter(|gap| !matches!(gap, ChainGap::Missing { .. })).collect()
    }
}
