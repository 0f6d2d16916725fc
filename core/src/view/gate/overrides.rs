//! Words of overriding: a person saw an item of a gate and went on, with a reason. Whether each still stands is
//! decided here: not voided, with a reason, and the record has not said anything else of the item since.

use std::collections::{HashMap, HashSet};

use serde::Serialize;

use super::Blocker;
use crate::Message;
use crate::entry::vocabulary::Gate;
use crate::entry::{ClaimKey, Statement};
use crate::ids::EntryId;
use crate::procedure::BlockerKind;
use crate::units::agree;
use crate::view::fold_context::{Attribution, FoldContext};
use crate::view::slots::Fate;
use crate::view::story::code_message;

/// A person's word that a blocker was seen and passed over.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct PassedOver {
    /// The blocker's code.
    pub blocker: String,
    /// The code in words.
    pub spoken: Message,
    /// At which gate; `None` for a word of an earlier version, which holds at both.
    pub gate: Option<Gate>,
    /// Why: a reason from the list, or in the person's words.
    pub why: Message,
    /// Who and when.
    pub said: Attribution,
    /// Whether this word still stands: given with a reason, not withdrawn, and the record has not
    /// said anything else since.
    pub stands: bool,
    /// Why it does not stand, when it does not.
    pub fallen: Option<Message>,
    /// Whether the blocker is still there.
    pub blocks_still: bool,
}

/// The most items of one act that are looked at. A gate has fewer.
const MOST_ITEMS: usize = 200;

/// Every word of overriding ever given, in order. `at_gates` holds what is missing at each gate now.
pub(in crate::view) fn passed_over(
    ledger: &FoldContext<'_>,
    at_gates: &[(Gate, &[Blocker])],
) -> Vec<PassedOver> {
    let mut words = Vec::new();
    let mut by_code: HashMap<&str, Vec<(Gate, &Blocker)>> = HashMap::new();
    for (gate, blockers) in at_gates {
        for blocker in *blockers {
            by_code.entry(&blocker.code).or_default().push((*gate, blocker));
        }
    }
    let mut stands: HashMap<(Gate, &str), Stands> = HashMap::new();
    for item in ledger.slots.items() {
        let said = &item.entry.body;
        let own_words = || Message::typed(said.why.trim());
        let (gate, codes, seen, why) = match &said.says {
            Statement::PassedOver { blocker, seen } => {
                (None, std::slice::from_ref(blocker), seen, own_words())
            }
            Statement::Overridden { gate, items, seen, reason } => {
                (Some(*gate), items.as_slice(), seen, reason.message())
            }
            _ => continue,
        };
        let gone = !matches!(item.fate, Fate::Live | Fate::MovedOn);
        for code in codes.iter().take(MOST_ITEMS) {
            let known = by_code.get(code.as_str()).into_iter().flatten();
            let blockers: Vec<_> =
                known.filter(|(at, _)| gate.is_none_or(|gate| gate == *at) || is_shared(code)).collect();
            let fallen = if gone {
                Some(Message::new("gate-override-voided"))
            } else if why.is_empty() {
                Some(Message::new("gate-override-without-reason"))
            } else if blockers.iter().any(|(gate, blocker)| {
                let of = stands.entry((*gate, &blocker.code));
                !of.or_insert_with(|| Stands::of(ledger, &blocker.evidence)).was_seen(ledger, seen)
            }) {
                Some(Message::new("gate-override-overtaken"))
            } else {
                None
            };
            words.push(PassedOver {
                blocker: code.clone(),
                spoken: code_message(code),
                gate,
                why: why.clone(),
                said: ledger.said(item),
                stands: fallen.is_none(),
                fallen,
                blocks_still: !blockers.is_empty(),
            });
        }
    }
    words
}

/// An alarm and a disagreement are answered once, for both gates.
pub(super) fn is_shared(code: &str) -> bool {
    let kind = code.split('.').next().and_then(BlockerKind::read);
    matches!(kind, Some(BlockerKind::Alarm | BlockerKind::Disagreement))
}

/// What a blocker stands on, each claim once with the entries that make it.
struct Stands {
    claims: Vec<(String, Option<ClaimKey>, Vec<EntryId>)>,
}

impl Stands {
    fn of(ledger: &FoldContext<'_>, evidence: &[EntryId]) -> Stands {
        let mut known: HashMap<(String, Vec<u8>, u64), usize> = HashMap::new();
        let mut claims: Vec<(String, Option<ClaimKey>, Vec<EntryId>)> = Vec::new();
        for id in evidence {
            let Some(item) = ledger.slots.item(*id) else {
                claims.push((String::new(), None, vec![*id]));
                continue;
            };
            let slot = item.entry.body.says.slot();
            let Some(key) = item.claim.and_then(Statement::claim_key) else {
                claims.push((slot, None, vec![*id]));
                continue;
            };
            let one = (slot.clone(), key.words.clone(), key.number.map_or(u64::MAX, f64::to_bits));
            let at = *known.entry(one).or_insert_with(|| {
                claims.push((slot, Some(key), Vec::new()));
                claims.len() - 1
            });
            claims[at].2.push(*id);
        }
        Stands { claims }
    }

    /// Whether all of it was seen, or says the same as something that was seen.
    fn was_seen(&self, ledger: &FoldContext<'_>, seen: &[EntryId]) -> bool {
        if seen.is_empty() {
            return true;
        }
        let ids: HashSet<EntryId> = seen.iter().copied().collect();
        let mut said: HashMap<(String, Vec<u8>), Vec<Option<f64>>> = HashMap::new();
        for item in ids.iter().filter_map(|id| ledger.slots.item(*id)) {
            if let Some(key) = item.claim.and_then(Statement::claim_key) {
                said.entry((item.entry.body.says.slot(), key.words)).or_default().push(key.number);
            }
        }
        for numbers in said.values_mut() {
            numbers.sort_by(|a, b| a.unwrap_or(0.0).total_cmp(&b.unwrap_or(0.0)));
        }
        self.claims.iter().all(|(slot, key, made_by)| {
            made_by.iter().all(|id| ids.contains(id))
                || key.as_ref().is_some_and(|key| {
                    let numbers = said.get(&(slot.clone(), key.words.clone()));
                    numbers.is_some_and(|numbers| holds(numbers, key.number))
                })
        })
    }
}

/// Whether one of these numbers, ascending, is this one within rounding: its neighbours are asked.
fn holds(numbers: &[Option<f64>], number: Option<f64>) -> bool {
    let Some(number) = number else { return !numbers.is_empty() };
    let after = numbers.partition_point(|known| known.is_some_and(|known| known < number));
    let neighbours = numbers[after.saturating_sub(1)..].iter().take(2);
    neighbours.flatten().any(|known| agree(*known, number))
}
