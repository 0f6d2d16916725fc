//! People with keys of their own on this device, as shells call it. Only conversion happens here.

use farsiding_core::book::{Draft, PinCost, fit_to_choose, storage_key};
use farsiding_core::entry::value_reader::from_json;
use farsiding_core::entry::value_writer::to_json;
use farsiding_core::ids::{OperatorId, OrganisationId, Subject};

use crate::FarsidingError;
use crate::book::Book;

/// The key of 32 bytes that a shell seals its storage under, where a PIN opens the phone. It is derived by
/// Argon2id with 64 MiB and three passes, which takes about a second.
///
/// `pin` has six decimal digits, `beside` is the secret of 32 bytes that `keep_beside` takes, and `salt` has
/// 16 random bytes that are kept with what is sealed.
///
/// # Errors
/// - `WeakPin`: the PIN has not six digits.
/// - `WrongCall`: `beside` has not 32 bytes, or `salt` has not 16.
#[uniffi::export]
pub fn pin_storage_key(pin: String, beside: Vec<u8>, salt: Vec<u8>) -> Result<Vec<u8>, FarsidingError> {
    let wrong = |why: &str| FarsidingError::wrong_call(why);
    let beside = beside.try_into().map_err(|_| wrong("the secret beside has 32 bytes"))?;
    if salt.len() != 16 {
        return Err(wrong("the salt has 16 bytes"));
    }
    Ok(storage_key(&pin, &beside, &salt, PinCost::FIELD)?.to_vec())
}

/// Returns where `pin` may be chosen as a PIN: six decimal digits, not one digit or one pair or triple over
/// and over, and no run up or down.
///
/// # Errors
/// - `WeakPin`: the PIN is none of these; `why` says which rule it broke.
#[uniffi::export]
pub fn pin_may_be_chosen(pin: String) -> Result<(), FarsidingError> {
    Ok(fit_to_choose(&pin)?)
}

#[uniffi::export]
impl Book {
    /// Hands over the random secret that the caller keeps beside the device's key: exactly 32 bytes, made
    /// once with `new_key`, and kept apart from the book's own storage. Call this after every `open`. Without
    /// it no person's key can be made or unlocked; with another one no PIN is right. The secret stays in
    /// memory only.
    ///
    /// # Errors
    /// - `WrongCall`: the secret has not 32 bytes.
    pub fn keep_beside(&self, secret: Vec<u8>) -> Result<(), FarsidingError> {
        let secret =
            secret.try_into().map_err(|_| FarsidingError::wrong_call("the secret beside has 32 bytes"))?;
        self.state().book.keep_beside(secret);
        Ok(())
    }

    /// Whether any of the drafts is an act that binds the person who makes it, such as a release. Where that
    /// person has a key here, `unlock_person` comes first; otherwise the entry says that the device alone
    /// named the person. `drafts` are as for `append`.
    ///
    /// # Errors
    /// - `WrongCall`: `drafts` is other JSON.
    pub fn binds(&self, drafts: String) -> Result<bool, FarsidingError> {
        let drafts: Vec<Draft> = from_json(&drafts)?;
        Ok(drafts.iter().any(|draft| draft.says.binds()))
    }

    /// Who holds this device now, whose keys live here, and what the organisation decided. JSON: `{holder:
    /// {person, how, since, until} or null, keys: [{person, key, fingerprint, tries_left, wait_until,
    /// confirmed, ended}], rules: {operator_rights?, unlocking, signature_required?}, can_make}`.
    ///
    /// `how` and `unlocking` are `act` (for one act, within 5 minutes) or `shift` (12 hours at most).
    /// `since`, `until` and `wait_until` are milliseconds since 1970-01-01 UTC by this device's clock;
    /// `wait_until` may be null. `key` has 64 hexadecimal digits, `fingerprint` 16 decimal digits in four
    /// groups. `tries_left` is a count from 0 to 10. `can_make` says whether `make_person_key` can succeed:
    /// the device is enrolled, and `keep_beside` was called.
    ///
    /// # Errors
    /// - `NotStored`: the disk cannot be read.
    pub fn people_here(&self) -> Result<String, FarsidingError> {
        Ok(to_json(&self.state().book.people_here()?)?)
    }

    /// Makes a key for the person with the code `person`, under the PIN `pin` of six decimal digits, and says
    /// so in the roster. The key is unlocked then. Returns its fingerprint for the telephone: 16 decimal
    /// digits in four groups. Takes about a second and 64 MiB, in which every other call on this book waits.
    ///
    /// # Errors
    /// - `WeakPin`: the PIN has not six digits, or is among the first that anybody tries.
    /// - `HasKey`: the person has a key on this device already.
    /// - `NotEnrolled`: no office has enrolled this device.
    /// - `WrongCall`: `keep_beside` was not called, or `person` is blank.
    /// - `Refused`: `person` is no code, or this device may not say so.
    /// - `NotStored`: the disk failed or is full. No key was made.
    pub fn make_person_key(&self, person: String, pin: String) -> Result<String, FarsidingError> {
        let mut state = self.state();
        let key = state.book.make_person_key(&OperatorId(person), &pin, PinCost::FIELD)?;
        let roster = state.book.organisation_key()?.map(|key| OrganisationId::of_key(&key));
        state.read_again(&roster.map(Subject::Roster).into_iter().collect::<Vec<_>>())?;
        Ok(farsiding_core::entry::site_facts::PersonKey::fingerprint(&key))
    }

    /// Unlocks a person's key with its PIN of six decimal digits, for the next act that binds or for the
    /// shift, as the organisation decided. Whoever held the device before holds it no more. Takes about a
    /// second and 64 MiB, in which every other call on this book waits. Tries are counted on the disk before
    /// they are made.
    ///
    /// # Errors
    /// - `WrongPin`: with the number of tries left, of 10. Whoever was unlocked stays so.
    /// - `PinWaits`: with the time from which the next try is allowed; from the fifth wrong try on.
    /// - `KeyLocked`: ten wrong tries were made. The key is gone from this device.
    /// - `KeyEnded`: the office ended the key.
    /// - `NoKey`: the person has no key on this device.
    /// - `WeakPin`: the PIN has not six digits; no try was counted.
    /// - `WrongCall`: `keep_beside` was not called.
    /// - `Refused`: what was kept of the key is damaged.
    /// - `NotStored`: the disk failed or is full.
    pub fn unlock_person(&self, person: String, pin: String) -> Result<(), FarsidingError> {
        Ok(self.state().book.unlock_person(&OperatorId(person), &pin)?)
    }

    /// Forgets whose key is unlocked: the shift is over, or the device changes hands. Never fails.
    pub fn lock_people(&self) {
        self.state().book.lock_people();
    }

    /// Gives a person's key the PIN `new_pin` in place of `old_pin`, six decimal digits each. The key stays
    /// the same. Takes about two seconds and 64 MiB, in which every other call on this book waits.
    ///
    /// # Errors
    /// - `WeakPin`: one of the PINs has not six digits, or the new one is among the first that anybody tries.
    /// - As `unlock_person` for the old PIN. Whatever went wrong, the old PIN stays.
    pub fn change_pin(&self, person: String, old_pin: String, new_pin: String) -> Result<(), FarsidingError> {
        Ok(self.state().book.change_pin(&OperatorId(person), &old_pin, &new_pin, PinCost::FIELD)?)
    }

    /// Drops a person's key from this device, for a forgotten PIN. What the key signed stays signed. The
    /// office ends it in the roster, and the person makes a new one with `make_person_key`.
    ///
    /// # Errors
    /// - `NoKey`: the person has no key on this device.
    /// - `NotStored`: the disk failed or is full. The key is then still here.
    pub fn forget_person_key(&self, person: String) -> Result<(), FarsidingError> {
        Ok(self.state().book.forget_person_key(&OperatorId(person))?)
    }
}
