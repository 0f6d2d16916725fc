//! People with keys of their own on this device: creating a key, unlocking it with the PIN, signing with it,
//! and locking it again.
//!
//! Each person has one key per device, which never leaves the device. At most one person's key is unlocked at
//! a time: that of the person who holds the phone. Under the rule "per act" the key is locked after the act
//! it was unlocked for; under "per shift" it is locked when the shift is ended here or its hours are over.
//! When the program ends, keys are locked in any case. Who may confirm or end a key, and the value of its
//! signature, are decided elsewhere.

use std::collections::{BTreeMap, BTreeSet};

use serde::{Deserialize, Serialize};

use super::pin::{Beside, Pin, PinCost, PinError, Sealed, Tries};
use super::{Book, BookError, Draft};
use crate::authority::{Authority, Judged, NamesSaid};
use crate::clock::UtcMillis;
use crate::entry::site_facts::{KeyKept, PersonKey, Rules, Unlocking};
use crate::entry::{Entry, PersonSigner, PublicKey, Statement, cbor};
use crate::ids::{Digest, OperatorId, OrganisationId, Subject};
use crate::store::{Store, Write, kept_names, organisation_keys};
use crate::sync::{SyncError, received_from_revoked};
use crate::view::{Editions, Person, PersonKeyView, people, person_keys, rules};

/// The number of hours after which a shift ends even if nobody ended it. Common practice, no source.
pub const SHIFT_HOURS: i64 = 12;
const HOUR: i64 = 60 * 60 * 1000;
/// The time in milliseconds that a key unlocked for one act waits for that act.
const ACT_MILLIS: i64 = 5 * 60 * 1000;

const KEYS: &str = "book/person_keys";

/// A person's key as stored on this device.
#[derive(Clone, Debug, Serialize, Deserialize)]
struct KeptKey {
    person: OperatorId,
    key: PublicKey,
    /// The encrypted key; `None` once it is locked permanently.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    sealed: Option<Sealed>,
    tries: Tries,
}

/// What the book knows about people while the program runs.
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
    /// The visits in which an entry states who holds the phone.
    said_in: BTreeSet<Subject>,
}

/// The person who holds the phone, whose key is unlocked.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct KeyHolder {
    /// Who.
    pub person: OperatorId,
    /// Whether the key is unlocked for one act or for the shift.
    pub how: Unlocking,
    /// The time of unlocking.
    pub since: UtcMillis,
    /// The time at which the key is locked at the latest.
    pub until: UtcMillis,
}

/// A person's key stored on this device.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct KeyHere {
    /// The person.
    pub person: OperatorId,
    /// The public key.
    pub key: PublicKey,
    /// The sixteen digits for comparison by telephone.
    pub fingerprint: String,
    /// The number of tries left before the key is locked permanently; 0 if it is.
    pub tries_left: u32,
    /// The time from which the PIN may be tried again, if there is a waiting time.
    pub wait_until: Option<UtcMillis>,
    /// Whether the office has confirmed the key, as far as is known here.
    pub confirmed: bool,
    /// Whether the office has ended the key, as far as is known here.
    pub ended: bool,
}

/// The people of this device in the form that shells show.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct PeopleHere {
    /// The person who holds the phone now.
    pub holder: Option<KeyHolder>,
    /// The keys stored here.
    pub keys: Vec<KeyHere>,
    /// The organisation's rules.
    pub rules: Rules,
    /// Whether a key can be created: the device is enrolled, and the shell has passed in its secret.
    pub can_make: bool,
}

impl Book {
    /// Sets the random secret that the shell stores beside the device's key, apart from the store. Without it
    /// no person's key can be created or unlocked, and with a wrong one no PIN is correct.
    pub fn keep_beside(&mut self, beside: Beside) {
        self.people.beside = Some(beside);
    }

    /// Creates a person's key under a PIN and announces it in the roster, in an entry signed with that key.
    /// The key is then unlocked according to the organisation's rules. It replaces a key that is locked
    /// permanently or was ended.
    ///
    /// # Errors
    /// [`BookError::Pin`], or [`SyncError::NotEnrolled`] before enrolment; no key was then created.
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
        // The key is stored before the roster announces it, so that every announced key can be used.
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

    /// Unlocks a person's key with the PIN. Another person whose key was unlocked no longer holds the phone.
    /// A wrong PIN does not lock anybody's unlocked key.
    ///
    /// # Errors
    /// [`BookError::Pin`] with the number of tries left or the waiting time.
    pub fn unlock_person(&mut self, person: &OperatorId, pin: &str) -> Result<(), BookError> {
        let signer = self.try_pin(person, pin)?;
        self.unlocked_now(person, signer)
    }

    /// Locks the unlocked key, because the shift is over or the phone changes hands.
    pub fn lock_people(&mut self) {
        self.people.unlocked = None;
    }

    /// Changes the PIN of a key. The key itself stays the same.
    ///
    /// # Errors
    /// [`BookError::Pin`]; the old PIN then remains valid.
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

    /// Deletes a person's key from this device, when the PIN was forgotten. Existing signatures remain valid;
    /// the office ends the key in the roster, and the person creates a new one.
    ///
    /// # Errors
    /// [`BookError::Store`]; the key is then still here.
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

    /// Returns who holds the phone, whose keys are stored here, and the organisation's rules.
    ///
    /// # Errors
    /// [`BookError::Store`] when the store fails.
    pub fn people_here(&mut self) -> Result<PeopleHere, BookError> {
        let now = self.now();
        self.forget_what_is_over(now);
        let (known, rules) = self.roster_facts()?;
        let of = |key: &PublicKey| known.iter().find(|k| k.key == *key);
        // The office may have ended the key while it was unlocked.
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
        let holder = self.people.unlocked.as_ref().map(|u| KeyHolder {
            person: u.person.clone(),
            how: u.how,
            since: u.since,
            until: u.until,
        });
        let can_make = self.people.beside.is_some() && self.organisation_key()?.is_some();
        Ok(PeopleHere { holder, keys, rules, can_make })
    }

    /// Returns the key to sign with for `by`, if it is unlocked now.
    pub(super) fn hand_of(&mut self, by: &OperatorId) -> Option<PersonSigner> {
        let now = self.now();
        self.forget_what_is_over(now);
        self.people.unlocked.as_ref().filter(|u| u.person == *by).map(|u| u.signer.clone())
    }

    /// Returns true if the visit does not state yet who holds the phone in this shift. To be called after
    /// [`Book::hand_of`], which locks expired keys.
    pub(super) fn must_say_who_holds(&self, subject: Subject, by: &OperatorId) -> bool {
        let Some(unlocked) = self.people.unlocked.as_ref().filter(|u| u.person == *by) else { return false };
        matches!(subject, Subject::Visit(_))
            && unlocked.how == Unlocking::Shift
            && !unlocked.said_in.contains(&subject)
    }

    /// Records that entries were stored: a key that was unlocked for one act is locked after it.
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

    /// Locks an expired key. A clock that shows a time before the unlocking also locks the key, so that a
    /// shift cannot be prolonged by changing the clock.
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

/// The content of the roster's document, as far as it counts.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Roster {
    /// The people, by code.
    pub people: BTreeMap<OperatorId, Person>,
    /// The people's keys.
    pub keys: Vec<PersonKeyView>,
    /// The organisation's rules.
    pub rules: Rules,
    /// The editions of procedures that the organisation published.
    pub editions: Editions,
    /// What is said of names: which commitments stand here, and which names were removed.
    pub names: NamesSaid,
    /// The commitments to the names of each person, also to earlier names.
    pub committed: BTreeMap<OperatorId, BTreeSet<Digest>>,
}

/// Returns the commitments of each person's names.
fn committed(judged: &[Judged<'_>]) -> BTreeMap<OperatorId, BTreeSet<Digest>> {
    let mut all: BTreeMap<OperatorId, BTreeSet<Digest>> = BTreeMap::new();
    for judged in judged.iter().filter(|judged| judged.verdict().counts()) {
        if let Statement::Operator(said) = &judged.entry().body.says {
            all.entry(said.operator.clone()).or_default().extend(said.named);
        }
    }
    all
}

impl Roster {
    /// Reads the roster from a store.
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
        let editions = Editions::fold(judged.iter().copied(), &Editions::default());
        let people = people(judged.iter().copied(), &kept_names(store)?);
        let names = NamesSaid::of(judged.iter().copied());
        let committed = committed(&judged);
        Ok(Roster { people, keys, rules, editions, names, committed })
    }
}
