//! The chain of each device: every entry names the one before it, over all documents.
//!
//! A missing number, a predecessor that is another than the entry before, or two entries under one
//! number: something is missing here, or a device was restored or copied. Kept by whoever holds all
//! entries ([`Chains`], grown entry by entry); read by the fold.

use std::collections::{BTreeMap, BTreeSet};

use serde::Serialize;

use crate::entry::Entry;
use crate::ids::{DeviceId, EntryId};

/// One entry's place in its device's chain; ordered by number.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
struct Link {
    seq: u64,
    id: EntryId,
    prev: Option<EntryId>,
}

/// The chains of all entries held somewhere.
#[derive(Clone, Debug, Default)]
pub struct Chains {
    devices: BTreeMap<DeviceId, BTreeSet<Link>>,
    /// Entries known by their id alone: what they name before them is not known.
    by_id_alone: BTreeSet<EntryId>,
    /// Entries whose rows are here and cannot be read: no device left them out.
    unreadable: BTreeSet<EntryId>,
    /// The first number looked at, where a chain is not looked at from its beginning.
    from: BTreeMap<DeviceId, u64>,
}

/// What is wrong with a chain.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
#[serde(rename_all = "snake_case", tag = "what")]
pub enum ChainGap {
    /// Entries of the device are not here.
    Missing {
        /// The device.
        device: DeviceId,
        /// First missing number.
        from: u64,
        /// Last missing number.
        to: u64,
    },
    /// Two entries carry one number: the device was copied or put back from a backup.
    Doubled {
        /// The device.
        device: DeviceId,
        /// The number.
        seq: u64,
        /// The entries.
        entries: Vec<EntryId>,
    },
    /// An entry names another predecessor than the entry that stands before it.
    Broken {
        /// The device.
        device: DeviceId,
        /// The number of the entry that names it.
        seq: u64,
        /// The entry.
        entry: EntryId,
    },
}

impl ChainGap {
    /// Whose chain.
    pub fn device(&self) -> DeviceId {
        match self {
            ChainGap::Missing { device, .. }
            | ChainGap::Doubled { device, .. }
            | ChainGap::Broken { device, .. } => *device,
        }
    }

    /// In a sentence.
    pub fn sentence(&self, device_name: &str) -> String {
        match self {
            ChainGap::Missing { from, to, .. } if from == to => {
                format!("Entry {from} of {device_name} is not here.")
            }
            ChainGap::Missing { from, to, .. } => {
                format!("Entries {from} to {to} of {device_name} are not here.")
            }
            ChainGap::Doubled { seq, entries, .. } => format!(
                "{} different entries of {device_name} carry the number {seq}: the device was copied or put back from a backup.",
                entries.len()
            ),
            ChainGap::Broken { seq, .. } => format!(
                "Entry {seq} of {device_name} names another entry before it than the one that is here."
            ),
        }
    }
}

impl Chains {
    /// The chains of these entries.
    pub fn of<'a>(entries: impl IntoIterator<Item = &'a Entry>) -> Chains {
        let mut chains = Chains::default();
        for entry in entries {
            chains.add(entry);
        }
        chains
    }

    /// Adds an entry; adding one twice changes nothing.
    pub fn add(&mut self, entry: &Entry) {
        let link = Link { seq: entry.body.seq, id: entry.id, prev: entry.body.prev };
        self.devices.entry(entry.device).or_default().insert(link);
    }

    /// Adds an entry that is not here itself, by its id alone: it is no gap, and what follows must name it.
    pub fn add_by_id(&mut self, device: DeviceId, seq: u64, id: EntryId) {
        self.by_id_alone.insert(id);
        self.devices.entry(device).or_default().insert(Link { seq, id, prev: None });
    }

    /// Notes entries whose rows are here and cannot be read: what they leave out of a chain is no gap of a device.
    pub fn add_unreadable(&mut self, ids: impl IntoIterator<Item = EntryId>) {
        self.unreadable.extend(ids);
    }

    /// Where the gap before an entry ends once what is merely unreadable here is taken off: the last of it is known
    /// by name, and as many before it as rows are unreadable may be the others.
    fn without_unreadable(&self, (from, to): (u64, u64), links: &[&Link]) -> Option<(u64, u64)> {
        let named = |link: &&Link| link.prev.is_some_and(|prev| self.unreadable.contains(&prev));
        if !links.iter().any(named) {
            return Some((from, to));
        }
        let to = to.saturating_sub(self.unreadable.len() as u64);
        (to >= from).then_some((from, to))
    }

    /// Looks at a device's chain from this number on: what was before it is no gap.
    pub fn look_from(&mut self, device: DeviceId, seq: u64) {
        self.from.insert(device, seq);
    }

    /// Everything that is wrong, by device and number. A chain that breaks off at its newest entry
    /// cannot be told from one that ends there.
    pub fn gaps(&self) -> Vec<ChainGap> {
        self.devices.keys().flat_map(|device| self.gaps_of(*device)).collect()
    }

    /// What is wrong with one device's chain.
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
                        // Within one number links are ordered by id.
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

    /// What is wrong within the entries themselves, when the device's other documents are not known:
    /// numbers left out are then no gap.
    pub(super) fn contradictions(&self) -> Vec<ChainGap> {
        self.gaps().into_iter().filter(|gap| !matches!(gap, ChainGap::Missing { .. })).collect()
    }
}
