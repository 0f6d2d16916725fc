//! People's keys and the organisation's rules, folded from the roster's document.
//!
//! Only what counts is read; who may confirm or end a key is decided in `authority`. A key is shown only
//! when the very key signed its making: nobody can claim a key that is another's.

use std::collections::BTreeMap;

use serde::Serialize;

use super::slots::Slots;
use crate::authority::Judged;
use crate::clock::UtcMillis;
use crate::entry::site_facts::{KeyKept, PersonKey, Rules};
use crate::entry::{LastEntry, Slot, Statement};
use crate::ids::{DeviceId, EntryId, OperatorId};

/// A person's key as the roster knows it.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PersonKeyView {
    /// Whose it says it is.
    pub person: OperatorId,
    /// The public half.
    pub key: DeviceId,
    /// Its sixteen digits, for the telephone.
    pub fingerprint: String,
    /// How the secret half is kept.
    pub kept: KeyKept,
    /// The phone it was made on and lives on.
    pub device: DeviceId,
    /// When it was made, by that phone's clock.
    pub made_at: UtcMillis,
    /// The number of the entry that says so in the phone's chain: what was made later has a greater one.
    pub made_seq: u64,
    /// Who confirmed it, and when; nothing while nobody did.
    pub confirmed: Option<KeyAct>,
    /// Who ended it, and when; nothing while it holds.
    pub ended: Option<KeyAct>,
    /// With an end: the last entry of the phone that counts as signed.
    pub last: Option<LastEntry>,
}

/// What was done about a key, by whom.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct KeyAct {
    /// The entry that says it.
    pub entry: EntryId,
    /// Who.
    pub by: OperatorId,
    /// When, by the clock of the device it was said on.
    pub at: UtcMillis,
    /// Why, if it was said.
    pub why: String,
}

/// Every key made, in the order of person, time and key. Order and doubles of the entries do not matter.
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
        // A key is made once. Should its holder say it again, the first by the phone's chain stands.
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

/// The rules of the organisation; the built-in ones while nobody said any.
pub fn rules(judged: &[Judged<'_>]) -> Rules {
    match Slots::fold(judged.iter().copied()).latest(&Slot::RULES).and_then(|item| item.claim) {
        Some(Statement::Rules(rules)) => rules.clone(),
        _ => Rules::default(),
    }
}
