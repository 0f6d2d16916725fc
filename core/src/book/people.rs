//! People with keys of their own on this device: making one, unlocking it with the PIN, signing with it,
//! locking it again.
//!
//! One key per person and device; it never leaves. One person at a time is unlocked: who holds the phone.
//! Under "per act" the key is forgotten after the act it was unlocked for, under "per shift" when the shift
//! is ended here or its hours are over; a program that ends forgets it in any case. Who may confirm or end
//! a key, and what its signature is worth, is not decided here.

use std::collections::{BTreeMap, BTreeSet};

use serde::{Deserialize, Serialize};

use super::pin::{Beside, Pin, PinCost, PinError, Sealed, Tries};
use super::snapshot::received_from_revoked;
use super::{Book, BookError, Draft};
use crate::authority::Authority;
use crate::clock::UtcMillis;
use crate::entry::site_facts::{KeyKept, Operator, PersonKey, Rules, Unlocking};
use crate::entry::{Entry, PersonSigner, PublicKey, Statement, cbor};
use crate::ids::{OperatorId, OrganisationId, Subject};
use crate::store::{Store, Write, organisation_keys};
use crate::sync::SyncError;
use crate::view::{PersonKeyView, people, person_keys, rules};

/// After so many hours a shift is over whoever forgot to end it. Common practice, no source.
pub const SHIFT_HOURS: i64 = 12;
const HOUR: i64 = 60 * 60 * 1000;
/// A key that was unlocked for one act waits so long for it.
const ACT_MILLIS: i64 = 5 * 60 * 1000;

const KEYS: &str = "book/person_keys";

/// A key as it is kept here.
#[derive(Clone, Debug, Serialize, Deserialize)]
struct KeptKey {
    person: OperatorId,
    key: PublicKey,
    /// Nothing once it is locked for good.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    sealed: Option<Sealed>,
    tries: Tries,
}

/// What the book knows of people while the program runs.
#[derive(Default)]
pub(super) struct People {
    beside: Option<Beside>,
    unlocked: Option<Unlocked>,
}

struct Unlocked {
    person: OperatorId,
    signer: PersonSigner,
    since: UtcMillis,
    until: UtcMillis,
    how: Unlocking,
    /// The visits in which it was said who holds the phone.
    said_in: BTreeSet<Subject>,
}

/// Who holds the phone: the person whose key is unlocked.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Holder {
    /// Who.
    pub person: OperatorId,
    /// For one act or the shift.
    pub how: Unlocking,
    /// Since when.
    pub since: UtcMillis,
    /// Until when at the latest.
    pub until: UtcMillis,
}

/// A key that lives on this device.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct KeyHere {
    /// Whose.
    pub person: OperatorId,
    /// The public half.
    pub key: PublicKey,
    /// Its sixteen digits, for the telephone.
    pub fingerprint: String,
    /// Tries left before it is locked here for good; none when it is.
    pub tries_left: u32,
    /// From when it may be tried again, if it has to wait.
    pub wait_until: Option<UtcMillis>,
    /// Whether the office confirmed it, as far as is known here.
    pub confirmed: bool,
    /// Whether the office ended it, as far as is known here.
    pub ended: bool,
}

/// The people of this device as a shell shows them.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct PeopleHere {
    /// Who holds the phone now.
    pub holder: Option<Holder>,
    /// The keys that live here.
    pub keys: Vec<KeyHere>,
    /// What the organisation decided.
    pub rules: Rules,
    /// Whether a key can be made: the device is enrolled and the secret beside was handed over.
    pub can_make: bool,
}

impl Book {
    /// Takes the random secret that the shell keeps beside the device's key, apart from the store. Without
    /// it no person's key can be made or unlocked; with another one no PIN is right.
    pub fn keep_beside(&mut self, beside: Beside) {
        self.people.beside = Some(beside);
    }

    /// Makes a person's key under a PIN and says so in the roster, signed by the very key. It is unlocked
    /// then, as the organisation's rules say. A key that is locked for good or was ended makes room.
    ///
    /// # Errors
    /// [`BookError::Pin`], [`SyncError::NotEnrolled`] before there is an organisation; nothing was then made.
    pub fn make_person_key(
        &mut self,
        person: &OperatorId,
        pin: &str,
        cost: PinCost,
    ) -> Result<PublicKey, BookError> {
        let pin = Pin::choose(pin)?;
        if person.0.trim().is_empty() {
            return Err(BookError::NoOperator);
        }
        let beside = self.beside_secret()?;
        let roster = self.roster()?.ok_or(SyncError::NotEnrolled)?;
        let mut kept = self.kept_keys()?;
        if let Some(old) = kept.iter().find(|k| k.person == *person)
            && old.sealed.is_some()
            && !self.is_ended(&old.key)?
        {
            return Err(PinError::HasKey(person.clone()).into());
        }
        let signer = PersonSigner::random(self.randomness.as_mut());
        let sealed = Sealed::seal(&signer, person, (&pin, &beside), cost, self.randomness.as_mut())?;
        let key = signer.public();
        // On the disk before the roster says so: a key that is announced can be used.
        kept.retain(|k| k.person != *person);
        let old = self.kept_keys()?;
        kept.push(KeptKey { person: person.clone(), key, sealed: Some(sealed), tries: Tries::default() });
        self.keep_keys(&kept)?;
        let says = Statement::PersonKey(PersonKey { person: person.clone(), key, kept: KeyKept::Pin });
        if let Err(error) = self.append_by_hand(roster, vec![Draft::of(says)], person, &signer) {
            self.keep_keys(&old)?;
            return Err(error);
        }
        self.unlocked_now(person, signer)?;
        Ok(key)
    }

    /// Unlocks a person's key with the PIN; whoever held the phone before holds it no more. A wrong PIN
    /// locks nobody out who is unlocked.
    ///
    /// # Errors
    /// [`BookError::Pin`] saying how many tries are left, or how long to wait.
    pub fn unlock_person(&mut self, person: &OperatorId, pin: &str) -> Result<(), BookError> {
        let signer = self.try_pin(person, pin)?;
        self.unlocked_now(person, signer)
    }

    /// Forgets whoever is unlocked: the shift is over, or the phone changes hands.
    pub fn lock_people(&mut self) {
        self.people.unlocked = None;
    }

    /// Gives a key another PIN. It stays the same key.
    ///
    /// # Errors
    /// [`BookError::Pin`]; the old PIN then stays.
    pub fn change_pin(
        &mut self,
        person: &OperatorId,
        old: &str,
        new: &str,
        cost: PinCost,
    ) -> Result<(), BookError> {
        let new = Pin::choose(new)?;
        let signer = self.try_pin(person, old)?;
        let beside = self.beside_secret()?;
        let sealed = Sealed::seal(&signer, person, (&new, &beside), cost, self.randomness.as_mut())?;
        self.change_key(person, |kept| kept.sealed = Some(sealed))
    }

    /// Drops a person's key from this device, for a forgotten PIN. What it signed stays signed; the office
    /// ends it in the roster, and the person makes a new one.
    ///
    /// # Errors
    /// [`BookError::Store`]; it is then still here.
    pub fn forget_person_key(&mut self, person: &OperatorId) -> Result<(), BookError> {
        let mut kept = self.kept_keys()?;
        if !kept.iter().any(|k| k.person == *person) {
            return Err(PinError::NoKey(person.clone()).into());
        }
        kept.retain(|k| k.person != *person);
        self.keep_keys(&kept)?;
        if self.people.unlocked.as_ref().is_some_and(|u| u.person == *person) {
            self.lock_people();
        }
        Ok(())
    }

    /// Who holds the phone, whose keys are here and what the organisation decided.
    ///
    /// # Errors
    /// [`BookError::Store`].
    pub fn people_here(&mut self) -> Result<PeopleHere, BookError> {
        let now = self.now();
        self.forget_what_is_over(now);
        let (known, rules) = self.roster_facts()?;
        let of = |key: &PublicKey| known.iter().find(|k| k.key == *key);
        // The office's word that a key is over may have come while it was unlocked.
        if let Some(unlocked) = &self.people.unlocked
            && of(&unlocked.signer.public()).is_some_and(|k| k.ended.is_some())
        {
            self.lock_people();
        }
        let keys = self
            .kept_keys()?
            .into_iter()
            .map(|kept| KeyHere {
                fingerprint: PersonKey::fingerprint(&kept.key),
                tries_left: if kept.sealed.is_some() { kept.tries.left() } else { 0 },
                wait_until: kept.tries.as_of(now).wait(now),
                confirmed: of(&kept.key).is_some_and(|k| k.confirmed.is_some()),
                ended: of(&kept.key).is_some_and(|k| k.ended.is_some()),
                person: kept.person,
                key: kept.key,
            })
            .collect();
        let holder = self.people.unlocked.as_ref().map(|u| Holder {
            person: u.person.clone(),
            how: u.how,
            since: u.since,
            until: u.until,
        });
        let can_make = self.people.beside.is_some() && self.organisation_key()?.is_some();
        Ok(PeopleHere { holder, keys, rules, can_make })
    }

    /// The key to sign with for `by`, if it is unlocked now.
    pub(super) fn hand_of(&mut self, by: &OperatorId) -> Option<PersonSigner> {
        let now = self.now();
        self.forget_what_is_over(now);
        self.people.unlocked.as_ref().filter(|u| u.person == *by).map(|u| u.signer.clone())
    }

    /// Whether the visit must first be told who holds the phone in this shift. Asked after
    /// [`Book::hand_of`], which forgets what is over.
    pub(super) fn must_say_who_holds(&self, subject: Subject, by: &OperatorId) -> bool {
        let Some(unlocked) = self.people.unlocked.as_ref().filter(|u| u.person == *by) else { return false };
        matches!(subject, Subject::Visit(_))
            && unlocked.how == Unlocking::Shift
            && !unlocked.said_in.contains(&subject)
    }

    /// Entries were kept: what was unlocked for one act is forgotten after it.
    pub(super) fn key_was_used(&mut self, subject: Subject, by: &OperatorId, bound: bool) {
        let Some(unlocked) = self.people.unlocked.as_mut().filter(|u| u.person == *by) else { return };
        match unlocked.how {
            Unlocking::Act if bound => self.people.unlocked = None,
            Unlocking::Act => {}
            Unlocking::Shift => {
                unlocked.said_in.insert(subject);
            }
        }
    }

    fn beside_secret(&self) -> Result<Beside, PinError> {
        self.people.beside.ok_or(PinError::NothingBeside)
    }

    fn roster(&self) -> Result<Option<Subject>, BookError> {
        Ok(self.organisation_key()?.map(|key| Subject::Roster(OrganisationId::of_key(&key))))
    }

    fn unlocked_now(&mut self, person: &OperatorId, signer: PersonSigner) -> Result<(), BookError> {
        let (since, how) = (self.now(), self.roster_facts()?.1.unlocking);
        let lasts = match how {
            Unlocking::Act => ACT_MILLIS,
            Unlocking::Shift => SHIFT_HOURS * HOUR,
        };
        let until = UtcMillis(since.0.saturating_add(lasts));
        let said_in = BTreeSet::new();
        self.people.unlocked = Some(Unlocked { person: person.clone(), signer, since, until, how, said_in });
        Ok(())
    }

    /// A clock that was put back before the unlocking ends it too: nobody prolongs a shift by the clock.
    fn forget_what_is_over(&mut self, now: UtcMillis) {
        if self.people.unlocked.as_ref().is_some_and(|u| now < u.since || u.until <= now) {
            self.lock_people();
        }
    }

    fn try_pin(&mut self, person: &OperatorId, pin: &str) -> Result<PersonSigner, BookError> {
        let pin = Pin::read(pin)?;
        let (beside, now) = (self.beside_secret()?, self.now());
        let kept = self.kept_keys()?.into_iter().find(|k| k.person == *person);
        let kept = kept.ok_or_else(|| PinError::NoKey(person.clone()))?;
        let Some(sealed) = &kept.sealed else { return Err(PinError::Locked.into()) };
        if self.is_ended(&kept.key)? {
            return Err(PinError::Ended.into());
        }
        let tries = kept.tries.as_of(now);
        if tries != kept.tries {
            self.change_key(person, |kept| kept.tries = tries)?;
        }
        let tries = tries.begin(now)?;
        self.change_key(person, |kept| kept.tries = tries)?;
        let opened = sealed.open((person, &kept.key), (&pin, &beside))?;
        let Some(signer) = opened else {
            if tries.left() > 0 {
                return Err(PinError::Wrong { left: tries.left() }.into());
            }
            self.change_key(person, |kept| kept.sealed = None)?;
            return Err(PinError::Locked.into());
        };
        self.change_key(person, |kept| kept.tries = Tries::default())?;
        Ok(signer)
    }

    fn is_ended(&self, key: &PublicKey) -> Result<bool, BookError> {
        Ok(self.roster_facts()?.0.iter().any(|k| k.key == *key && k.ended.is_some()))
    }

    fn roster_facts(&self) -> Result<(Vec<PersonKeyView>, Rules), BookError> {
        let Some(key) = self.organisation_key()? else { return Ok((Vec::new(), Rules::default())) };
        let roster = Roster::read(self.store(), &key)?;
        Ok((roster.keys, roster.rules))
    }

    fn kept_keys(&self) -> Result<Vec<KeptKey>, BookError> {
        match self.store.value(KEYS)? {
            Some(bytes) => Ok(cbor::decode(&bytes).map_err(|_| PinError::Damaged)?),
            None => Ok(Vec::new()),
        }
    }

    fn keep_keys(&mut self, keys: &[KeptKey]) -> Result<(), BookError> {
        let value = cbor::encode(&keys).map_err(|_| PinError::Damaged)?;
        self.store.commit(&[Write::Value { key: KEYS, value: &value }])?;
        Ok(())
    }

    fn change_key(
        &mut self,
        person: &OperatorId,
        change: impl FnOnce(&mut KeptKey),
    ) -> Result<(), BookError> {
        let mut kept = self.kept_keys()?;
        let one = kept.iter_mut().find(|k| k.person == *person);
        change(one.ok_or_else(|| PinError::NoKey(person.clone()))?);
        self.keep_keys(&kept)
    }
}

/// What the roster's document says, as far as it counts.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Roster {
    /// The people, by code.
    pub people: BTreeMap<OperatorId, Operator>,
    /// Their keys.
    pub keys: Vec<PersonKeyView>,
    /// What the organisation decided.
    pub rules: Rules,
}

impl Roster {
    /// Reads it from a store.
    ///
    /// # Errors
    /// [`BookError`] when the store fails.
    pub fn read(store: &dyn Store, organisation_key: &PublicKey) -> Result<Roster, BookError> {
        let subject = Subject::Roster(OrganisationId::of_key(organisation_key));
        let entries: Vec<Entry> =
            super::kept(store, subject)?.0.into_iter().map(|(entry, _)| entry).collect();
        let certificates = store.certificates()?;
        let bytes = certificates.iter().map(|(_, bytes)| bytes.as_slice());
        let keys = organisation_keys(store, organisation_key)?;
        let authority = Authority::read(Some(&keys), bytes, false).vouching(&entries);
        let received = received_from_revoked(store, &keys, &authority, entries.iter())?;
        let when = |entry: &Entry| received.get(&entry.id).copied();
        let judged = authority.roster(entries.iter().map(|entry| (entry, when(entry))));
        let (keys, rules) = (person_keys(&judged), rules(&judged));
        Ok(Roster { people: people(judged), keys, rules })
    }
}
