//! The people's own keys, and to what degree an entry is confirmed by the person it names.

use std::collections::{BTreeMap, HashSet};

use serde::Serialize;

use super::Judged;
use crate::Message;
use crate::clock::UtcMillis;
use crate::entry::{Entry, LastEntry, PublicKey, Statement};
use crate::ids::{EntryId, OperatorId};

/// The time in milliseconds during which a statement that a person holds the phone covers the entries made
/// with it. It corresponds to a long shift.
const SHIFT_MILLIS: i64 = 14 * 3_600_000;

/// The degree to which an entry is confirmed by the person it names.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Named {
    /// Only the phone named the person.
    #[default]
    ByPhone,
    /// The person had signed that they hold the phone.
    Held,
    /// The person signed the entry with a key that is confirmed as theirs.
    OwnHand,
    /// The entry is signed with a key that, according to the phone, is the person's, but that nobody has
    /// confirmed yet.
    HandNotConfirmed,
    /// The entry is signed with a key that was ended or belongs to another person.
    HandNotTheirs,
}

impl Named {
    /// Returns the description shown to people.
    pub fn term(self) -> Message {
        let word = match self {
            Named::ByPhone => "by_phone",
            Named::Held => "held",
            Named::OwnHand => "own_hand",
            Named::HandNotConfirmed => "hand_not_confirmed",
            Named::HandNotTheirs => "hand_not_theirs",
        };
        Message::term("named", word)
    }
}

#[derive(Clone, Debug, Default, PartialEq)]
struct PersonKeyFacts {
    confirmed_for: Option<OperatorId>,
    ended: bool,
    last: Option<LastEntry>,
}

/// The people's keys by their public keys.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct PersonKeys {
    keys: BTreeMap<PublicKey, PersonKeyFacts>,
}

impl PersonKeys {
    pub(super) const NONE: PersonKeys = PersonKeys { keys: BTreeMap::new() };

    /// Reads the keys from the judged roster.
    pub(super) fn of<'e>(roster: impl IntoIterator<Item = Judged<'e>>) -> PersonKeys {
        let counted: Vec<&Entry> = roster
            .into_iter()
            .filter(|judged| judged.verdict().counts())
            .map(|judged| judged.entry())
            .collect();
        let replaced: HashSet<EntryId> =
            counted.iter().flat_map(|entry| entry.body.replaces.iter().copied()).collect();
        let mut keys: BTreeMap<PublicKey, PersonKeyFacts> = BTreeMap::new();
        for entry in counted.iter().filter(|entry| !replaced.contains(&entry.id)) {
            match &entry.body.says {
                Statement::PersonKeyConfirmed { person, key } => {
                    let facts = keys.entry(*key).or_default();
                    // A key that was confirmed for two people belongs to neither.
                    let same = facts.confirmed_for.as_ref().is_none_or(|known| known == person);
                    facts.ended |= !same;
                    facts.confirmed_for = Some(person.clone());
                }
                Statement::PersonKeyEnded { key, last, .. } => {
                    let facts = keys.entry(*key).or_default();
                    facts.last = match (facts.ended, facts.last, last) {
                        (false, _, last) => *last,
                        (true, Some(a), Some(b)) => Some(if a.seq <= b.seq { a } else { *b }),
                        (true, ..) => None,
                    };
                    facts.ended = true;
                }
                _ => {}
            }
        }
        PersonKeys { keys }
    }

    /// Returns to what degree an entry's own signature by a person confirms it.
    pub(super) fn of_hand(&self, entry: &Entry) -> Named {
        let Some(hand) = &entry.body.hand else { return Named::ByPhone };
        let Some(facts) = self.keys.get(&hand.key) else { return Named::HandNotConfirmed };
        let in_time = !facts.ended || facts.last.is_some_and(|last| entry.body.seq <= last.seq);
        match &facts.confirmed_for {
            Some(person) if *person == entry.body.by && in_time => Named::OwnHand,
            None if in_time => Named::HandNotConfirmed,
            _ => Named::HandNotTheirs,
        }
    }

    /// Returns true if the signer of an entry has proved to be the person in whose name another device made
    /// the other entry.
    pub(super) fn is_by_one_person(&self, entry: &Entry, other: &Entry) -> bool {
        entry.body.by == other.body.by && self.of_hand(entry) == Named::OwnHand
    }
}

impl super::Authority {
    /// Returns for each entry of a stay to what degree the person it names confirms it, in the given order.
    pub fn named(&self, entries: &[Judged<'_>]) -> Vec<Named> {
        // For each device, the entries from which on a person has signed to hold it.
        let mut holds: BTreeMap<crate::ids::DeviceId, Vec<(u64, UtcMillis, &OperatorId)>> = BTreeMap::new();
        for judged in entries.iter().filter(|judged| judged.verdict().counts()) {
            let entry = judged.entry();
            if let Statement::HeldBy { person } = &entry.body.says
                && *person == entry.body.by
                && self.people.of_hand(entry) == Named::OwnHand
            {
                let held = (entry.body.seq, entry.body.when.corrected(), person);
                holds.entry(entry.device).or_default().push(held);
            }
        }
        holds.values_mut().for_each(|held| held.sort_unstable());
        entries
            .iter()
            .map(|judged| {
                let entry = judged.entry();
                let held = holds.get(&entry.device).and_then(|held| {
                    let before = held.partition_point(|(seq, ..)| *seq < entry.body.seq);
                    before.checked_sub(1).and_then(|at| held.get(at))
                });
                match self.people.of_hand(entry) {
                    Named::ByPhone => match held {
                        Some((_, since, person))
                            if **person == entry.body.by
                                && entry.body.when.corrected().since(*since) <= SHIFT_MILLIS =>
                        {
                            Named::Held
                        }
                        _ => Named::ByPhone,
                    },
                    signed => signed,
                }
            })
            .collect()
    }
}
