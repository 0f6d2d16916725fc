//! People's keys and the organisation's rules, folded from the roster's document.
//!
//! Only entries that count are read; who may confirm or end a key is decided in `authority`. A key appears
//! only if the entry that announces it is signed with that same key, so nobody can claim another person's
//! key.

use std::collections::BTreeMap;

use serde::Serialize;

use super::slots::Slots;
use crate::authority::Judged;
use crate::clock::UtcMillis;
use crate::entry::site_facts::{KeyKept, PersonKey, Rules};
use crate::entry::{LastEntry, Slot, Statement};
use crate::ids::{DeviceId, EntryId, OperatorId};

/// A person's key as recorded in the roster.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PersonKeyView {
    /// The person to whom the key belongs according to its announcement.
    pub person: OperatorId,
    /// The public key.
    pub key: DeviceId,
    /// The sixteen digits for comparison by telephone.
    pub fingerprint: String,
    /// How the secret key is protected.
    pub kept: KeyKept,
    /// The phone on which the key was created and is stored.
    pub device: DeviceId,
    /// The time of creation by that phone's clock.
    pub made_at: UtcMillis,
    /// The number of the announcing entry in the phone's chain; later entries have greater numbers.
    pub made_seq: u64,
    /// The confirmation; `None` if there is none.
    pub confirmed: Option<KeyAct>,
    /// The ending; `None` if the key is valid.
    pub ended: Option<KeyAct>,
    /// For an ended key, the last entry of the phone that counts as signed.
    pub last: Option<LastEntry>,
}

/// The confirmation or ending of a key.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct KeyAct {
    /// The entry's id.
    pub entry: EntryId,
    /// The person who made the entry.
    pub by: OperatorId,
    /// The time by the clock of the entry's device.
    pub at: UtcMillis,
    /// The reason, if one was stated.
    pub why: String,
}

/// Returns every announced key, ordered by person, time and key. The order of entries and duplicates do not
/// matter.
pub fn person_keys(judged: &[Judged<'_>]) -> Vec<PersonKeyView> {
    let mut keys: BTreeMap<DeviceId, PersonKeyView> = BTreeMap::new();
    for entry in judged.iter().filter(|judged| judged.verdict().counts()).map(Judged::entry) {
        let Statement::PersonKey(PersonKey { person, key, kept }) = &entry.body.says else { continue };
        let by_itself = entry.body.hand.as_ref().is_some_and(|hand| hand.key == *key);
        if !by_itself || entry.body.by != *person {
            continue;
        }
        let made = PersonKeyView {
            person: person.clone(),
            key: *key,
            fingerprint: PersonKey::fingerprint(key),
            kept: *kept,
            device: entry.device,
            made_at: entry.body.when.at,
            made_seq: entry.body.seq,
            confirmed: None,
            ended: None,
            last: None,
        };
        // A key is created once. If its announcement is repeated, the first one in the phone's chain counts.
        keys.entry(*key)
            .and_modify(|known| {
                if (made.made_at, made.device) < (known.made_at, known.device) {
                    *known = made.clone();
                }
            })
            .or_insert(made);
    }
    let slots = Slots::fold(judged.iter().copied());
    let act_of = |slot: &str| -> Option<(KeyAct, &Statement)> {
        let item = slots.latest(slot)?;
        let body = &item.entry.body;
        let (by, at, why) = (body.by.clone(), body.when.at, body.why.clone());
        Some((KeyAct { entry: item.entry.id, by, at, why }, item.claim?))
    };
    for known in keys.values_mut() {
        if let Some((act, Statement::PersonKeyConfirmed { person, key })) =
            act_of(&Slot::person_key_confirmed(&known.key))
            && (person, key) == (&known.person, &known.key)
        {
            known.confirmed = Some(act);
        }
        if let Some((act, Statement::PersonKeyEnded { person, key, last })) =
            act_of(&Slot::person_key_ended(&known.key))
            && (person, key) == (&known.person, &known.key)
        {
            known.ended = Some(act);
            known.last = *last;
        }
    }
    let mut all: Vec<PersonKeyView> = keys.into_values().collect();
    all.sort_by(|a, b| (&a.person, a.made_at, a.key).cmp(&(&b.person, b.made_at, b.key)));
    all
}

/// Returns the rules of the organisation, or the built-in ones if none were recorded.
pub fn rules(judged: &[Judged<'_>]) -> Rules {
    match Slots::fold(judged.iter().copied()).latest(&Slot::RULES).and_then(|item| item.claim) {
        Some(Statement::Rules(rules)) => rules.clone(),
        _ => Rules::default(),
    }
}
