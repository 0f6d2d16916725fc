//! People with keys of their own on this device, as shells call it. Only conversion happens here.

use farsiding_core::book::{Draft, PinCost, fit_to_choose, storage_key};
use farsiding_core::ids::{OperatorId, OrganisationId, Subject};

use crate::Trouble;
use crate::book::Book;

/// The key that a shell seals its storage under where a PIN opens the phone (Argon2id, 64 MiB, three
/// passes): 32 bytes out of six digits, a random salt of 16 bytes and the 32 bytes kept beside. Takes about
/// a second.
///
/// # Errors
/// `WeakPin` when these are no six digits, `WrongCall` for other lengths.
#[uniffi::export]
pub fn pin_storage_key(pin: String, beside: Vec<u8>, salt: Vec<u8>) -> Result<Vec<u8>, Trouble> {
    let wrong = |why: &str| Trouble::WrongCall { why: why.to_owned() };
    let beside = beside.try_into().map_err(|_| wrong("the secret beside has 32 bytes"))?;
    if salt.len() != 16 {
        return Err(wrong("the salt has 16 bytes"));
    }
    Ok(storage_key(&pin, &beside, &salt, PinCost::FIELD)?.to_vec())
}

/// Whether these six digits may be chosen for a PIN.
///
/// # Errors
/// `WeakPin` when they are not six, or among the first that anybody tries.
#[uniffi::export]
pub fn pin_may_be_chosen(pin: String) -> Result<(), Trouble> {
    Ok(fit_to_choose(&pin)?)
}

#[uniffi::export]
impl Book {
    /// Hands over the random secret of 32 bytes that the shell keeps beside the device's key, made once
    /// with `new_key` and apart from the book's own storage. PINs are worth nothing without it.
    ///
    /// # Errors
    /// `WrongCall` for another length.
    pub fn keep_beside(&self, secret: Vec<u8>) -> Result<(), Trouble> {
        let secret = secret
            .try_into()
            .map_err(|_| Trouble::WrongCall { why: "the secret beside has 32 bytes".to_owned() })?;
        self.state().book.keep_beside(secret);
        Ok(())
    }

    /// Whether any of these drafts binds the person who makes it: with a key here it is to be unlocked first.
    ///
    /// # Errors
    /// `WrongCall` for other JSON.
    pub fn binds(&self, drafts: String) -> Result<bool, Trouble> {
        let drafts: Vec<Draft> = serde_json::from_str(&drafts)?;
        Ok(drafts.iter().any(|draft| draft.says.binds()))
    }

    /// Who holds the phone, whose keys live here, and what the organisation decided. JSON: `{holder: {person,
    /// how, since, until}?, keys: [{person, key, fingerprint, tries_left, wait_until?, confirmed, ended}],
    /// rules: {operator_rights?, unlocking, signature_required}, can_make}`.
    ///
    /// # Errors
    /// `NotStored` when the disk cannot be read.
    pub fn people_here(&self) -> Result<String, Trouble> {
        Ok(serde_json::to_string(&self.state().book.people_here()?)?)
    }

    /// Makes a person's key under a six-digit PIN and says so in the roster; it is unlocked then. Takes
    /// about a second. Returns the key's sixteen digits, for the telephone.
    ///
    /// # Errors
    /// `WeakPin`, `HasKey` when there is one here already, `NotEnrolled`, `NotStored`.
    pub fn make_person_key(&self, person: String, pin: String) -> Result<String, Trouble> {
        let mut state = self.state();
        let key = state.book.make_person_key(&OperatorId(person), &pin, PinCost::FIELD)?;
        let roster = state.book.organisation_key()?.map(|key| OrganisationId::of_key(&key));
        state.read_again(&roster.map(Subject::Roster).into_iter().collect::<Vec<_>>())?;
        Ok(farsiding_core::entry::site_facts::PersonKey::fingerprint(&key))
    }

    /// Unlocks a person's key for the next act that binds, or for the shift, as the organisation decided.
    /// Takes about a second.
    ///
    /// # Errors
    /// `WrongPin` with the tries left, `PinWaits`, `KeyLocked`, `KeyEnded`, `NoKey`.
    pub fn unlock_person(&self, person: String, pin: String) -> Result<(), Trouble> {
        Ok(self.state().book.unlock_person(&OperatorId(person), &pin)?)
    }

    /// Forgets whoever is unlocked: the shift is over, or the phone changes hands.
    pub fn lock_people(&self) {
        self.state().book.lock_people();
    }

    /// Gives a person's key another PIN. Takes about two seconds.
    ///
    /// # Errors
    /// As `unlock_person`, and `WeakPin`; the old PIN then stays.
    pub fn change_pin(&self, person: String, old_pin: String, new_pin: String) -> Result<(), Trouble> {
        Ok(self.state().book.change_pin(&OperatorId(person), &old_pin, &new_pin, PinCost::FIELD)?)
    }

    /// Drops a person's key here, for a forgotten PIN. The office ends it; the person makes a new one. What
    /// it signed stays signed.
    ///
    /// # Errors
    /// `NoKey`, `NotStored`.
    pub fn forget_person_key(&self, person: String) -> Result<(), Trouble> {
        Ok(self.state().book.forget_person_key(&OperatorId(person))?)
    }
}
