//! A person's secret key under a six-digit PIN: encryption, decryption, and the counting of tries.
//!
//! Six digits allow only a million guesses. Three things make guessing expensive: each guess takes much
//! memory and about a second, each try is counted before it is made, and the encryption includes a random
//! secret that the shell stores beside the device's key, so the store alone is not enough for guessing.
//! Somebody who extracts both store and secret from a phone can try all PINs within days; the office
//! therefore ends the keys on a lost phone. This module uses no clock, store or statements. `people` calls
//! it.

use argon2::{Algorithm, Argon2, Block, Params, Version};
use chacha20poly1305::aead::{Aead, KeyInit, Payload};
use chacha20poly1305::{ChaCha20Poly1305, Nonce};
use serde::{Deserialize, Serialize};

use crate::clock::UtcMillis;
use crate::entry::{PersonSigner, PublicKey};
use crate::ids::{OperatorId, Randomness};
use crate::{Arg, Message, message};

/// The random secret that a shell stores beside the device's key, apart from the store.
pub type Beside = [u8; 32];

/// The reason why an operation with a PIN or a key under a PIN failed.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum PinError {
    /// The PIN does not consist of six digits.
    #[error("a PIN has six digits")]
    NotSixDigits,
    /// The PIN is among the first that anybody would guess.
    #[error("this PIN is among the first that anybody tries")]
    TooEasy,
    /// The PIN was wrong.
    #[error("wrong PIN; {left} tries left")]
    Wrong {
        /// The number of tries left before the key is locked here.
        left: u32,
    },
    /// The next try must wait; this applies after five wrong tries.
    #[error("too many wrong tries; wait")]
    Wait {
        /// The time from which the PIN may be tried again, by this device's clock.
        until: UtcMillis,
    },
    /// The key was deleted from this device after ten wrong tries.
    #[error("the key is locked after {MOST_TRIES} wrong tries; a new one must be made")]
    Locked,
    /// The person has no key on this device.
    #[error("there is no key of {0} on this device")]
    NoKey(OperatorId),
    /// The person has a key on this device already.
    #[error("there is a key of {0} on this device already")]
    HasKey(OperatorId),
    /// The organisation has ended the key.
    #[error("this key was ended by the office; a new one must be made")]
    Ended,
    /// The shell has not passed in the secret that it stores beside the device's key.
    #[error("the secret kept beside the device's key was not handed over")]
    NothingBeside,
    /// The stored key cannot be decrypted because it is damaged.
    #[error("what was kept of the key cannot be read")]
    Damaged,
}

impl PinError {
    /// Returns what a person is told: what happened, and what to do about it.
    pub fn message(&self) -> Message {
        match self {
            PinError::NotSixDigits => Message::new("refusal-pin-not-six-digits"),
            PinError::TooEasy => Message::new("refusal-pin-too-easy"),
            PinError::Wrong { left } => message!("refusal-pin-wrong", left = *left),
            PinError::Wait { .. } => Message::new("refusal-pin-wait"),
            PinError::Locked => message!("refusal-pin-locked", tries = MOST_TRIES),
            PinError::NoKey(person) => message!("refusal-pin-no-key", person = Arg::typed(&*person.0)),
            PinError::HasKey(person) => message!("refusal-pin-has-key", person = Arg::typed(&*person.0)),
            PinError::Ended => Message::new("refusal-pin-ended"),
            PinError::NothingBeside => Message::new("refusal-pin-nothing-beside"),
            PinError::Damaged => Message::new("refusal-pin-damaged"),
        }
    }
}

/// The number of wrong tries after which the key is deleted from the device.
pub const MOST_TRIES: u32 = 10;

/// Returns the waiting time in milliseconds before the next try, after the given number of wrong ones.
fn wait_after(wrong: u32) -> i64 {
    const MINUTE: i64 = 60_000;
    match wrong {
        0..=4 => 0,
        5 => MINUTE / 2,
        6 => 2 * MINUTE,
        7 => 10 * MINUTE,
        8 => 30 * MINUTE,
        _ => 120 * MINUTE,
    }
}

/// A PIN of six digits.
#[derive(Clone, PartialEq, Eq)]
pub struct Pin([u8; 6]);

impl Pin {
    /// Parses six digits.
    ///
    /// # Errors
    /// [`PinError::NotSixDigits`] for any other text.
    pub fn read(text: &str) -> Result<Pin, PinError> {
        let digits: [u8; 6] = text.as_bytes().try_into().map_err(|_| PinError::NotSixDigits)?;
        if digits.iter().all(u8::is_ascii_digit) { Ok(Pin(digits)) } else { Err(PinError::NotSixDigits) }
    }

    /// Parses a PIN that somebody chooses. Repetitions of one digit, pair or triple and ascending or
    /// descending runs are refused.
    ///
    /// # Errors
    /// [`PinError::NotSixDigits`] or [`PinError::TooEasy`].
    pub fn choose(text: &str) -> Result<Pin, PinError> {
        let pin = Pin::read(text)?;
        let digits = pin.0;
        let repeats = |period: usize| digits.iter().skip(period).eq(digits.iter().take(6 - period));
        let steps = |by: u8| digits.windows(2).all(|two| (two[0] - b'0' + by) % 10 == two[1] - b'0');
        if repeats(1) || repeats(2) || repeats(3) || steps(1) || steps(9) {
            return Err(PinError::TooEasy);
        }
        Ok(pin)
    }
}

impl std::fmt::Debug for Pin {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str("Pin(…)")
    }
}

/// The cost of one try (Argon2id, RFC 9106).
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct PinCost {
    /// The memory in KiB.
    pub memory_kib: u32,
    /// The number of passes over the memory.
    pub passes: u32,
}

impl PinCost {
    /// The cost that shells use: about a second on a phone, and 64 MiB, which a browser's WebAssembly module
    /// can still allocate.
    pub const FIELD: PinCost = PinCost { memory_kib: 64 * 1024, passes: 3 };
}

/// A secret key in encrypted form.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub(super) struct Sealed {
    #[serde(with = "serde_bytes")]
    salt: Vec<u8>,
    cost: PinCost,
    #[serde(with = "serde_bytes")]
    bytes: Vec<u8>,
}

/// Returns the associated data, which ties the encrypted key to one person and one public key.
fn stands_for(person: &OperatorId, key: &PublicKey) -> Vec<u8> {
    let mut text = b"farsiding person key 1".to_vec();
    text.extend_from_slice(&key.0);
    text.extend_from_slice(person.0.as_bytes());
    text
}

fn cipher(pin: &Pin, beside: &Beside, salt: &[u8], cost: PinCost) -> Result<ChaCha20Poly1305, PinError> {
    Ok(ChaCha20Poly1305::new(&stretched(pin, beside, salt, cost)?.into()))
}

fn stretched(pin: &Pin, beside: &Beside, salt: &[u8], cost: PinCost) -> Result<[u8; 32], PinError> {
    let parameters = Params::new(cost.memory_kib, cost.passes, 1, Some(32)).map_err(|_| PinError::Damaged)?;
    // The memory is passed in because the library's own allocation would pull in a password format.
    let mut memory = vec![Block::default(); parameters.block_count()];
    let maker = Argon2::new_with_secret(beside, Algorithm::Argon2id, Version::V0x13, parameters)
        .map_err(|_| PinError::Damaged)?;
    let mut key = [0u8; 32];
    maker
        .hash_password_into_with_memory(&pin.0, salt, &mut key, &mut memory)
        .map_err(|_| PinError::Damaged)?;
    Ok(key)
}

/// Derives the 32-byte key under which a shell encrypts its storage when a PIN unlocks the phone, from six
/// digits, a 16-byte salt and a secret stored apart from the salt. The derivation is slow on purpose, as
/// stated by `cost`.
///
/// # Errors
/// [`PinError::NotSixDigits`]; [`PinError::Damaged`] for a salt of another length or an impossible cost.
pub fn storage_key(pin: &str, beside: &Beside, salt: &[u8], cost: PinCost) -> Result<[u8; 32], PinError> {
    let salt: [u8; 16] = salt.try_into().map_err(|_| PinError::Damaged)?;
    stretched(&Pin::read(pin)?, beside, &salt, cost)
}

/// Checks whether these six digits may be chosen as a PIN.
///
/// # Errors
/// [`PinError::NotSixDigits`] or [`PinError::TooEasy`].
pub fn fit_to_choose(pin: &str) -> Result<(), PinError> {
    Pin::choose(pin).map(drop)
}

/// The nonce is constant. This is safe because the salt is new each time, so every cipher key encrypts only
/// once.
const NONCE: [u8; 12] = [0; 12];

impl Sealed {
    pub(super) fn seal(
        signer: &PersonSigner,
        person: &OperatorId,
        (pin, beside): (&Pin, &Beside),
        cost: PinCost,
        randomness: &mut dyn Randomness,
    ) -> Result<Sealed, PinError> {
        let mut salt = vec![0u8; 16];
        randomness.fill(&mut salt);
        let about = stands_for(person, &signer.public());
        let payload = Payload { msg: &signer.secret(), aad: &about };
        let bytes = cipher(pin, beside, &salt, cost)?
            .encrypt(&Nonce::from(NONCE), payload)
            .map_err(|_| PinError::Damaged)?;
        Ok(Sealed { salt, cost, bytes })
    }

    /// Decrypts the key. Returns `None` if the PIN or the shell's secret is wrong.
    pub(super) fn open(
        &self,
        (person, key): (&OperatorId, &PublicKey),
        (pin, beside): (&Pin, &Beside),
    ) -> Result<Option<PersonSigner>, PinError> {
        let about = stands_for(person, key);
        let payload = Payload { msg: &self.bytes, aad: &about };
        let Ok(secret) = cipher(pin, beside, &self.salt, self.cost)?.decrypt(&Nonce::from(NONCE), payload)
        else {
            return Ok(None);
        };
        let secret: [u8; 32] = secret.try_into().map_err(|_| PinError::Damaged)?;
        Ok(Some(PersonSigner::from_secret(secret)).filter(|signer| signer.public() == *key))
    }
}

/// The number of wrong tries so far, and the time of the last one.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub(super) struct Tries {
    pub(super) wrong: u32,
    last: Option<UtcMillis>,
}

impl Tries {
    /// Returns the number of tries left.
    pub(super) fn left(self) -> u32 {
        MOST_TRIES.saturating_sub(self.wrong)
    }

    /// Returns the tries as they stand when the clock shows `now`. If the clock was set back, the waiting
    /// time starts again once, so that changing the clock neither ends the wait nor makes it endless.
    pub(super) fn as_of(self, now: UtcMillis) -> Tries {
        Tries { last: self.last.map(|last| last.min(now)), ..self }
    }

    /// Returns the time from which the next try may be made, if there is a waiting time.
    pub(super) fn wait(self, now: UtcMillis) -> Option<UtcMillis> {
        let until = UtcMillis(self.last?.0.saturating_add(wait_after(self.wrong)));
        (now < until).then_some(until)
    }

    /// Counts a try before it is made, so that ending the program in between does not save the try.
    pub(super) fn begin(self, now: UtcMillis) -> Result<Tries, PinError> {
        if self.left() == 0 {
            return Err(PinError::Locked);
        }
        match self.wait(now) {
            Some(until) => Err(PinError::Wait { until }),
            None => Ok(Tries { wrong: self.wrong + 1, last: Some(now) }),
        }
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]
    use super::*;

    const CHEAP: PinCost = PinCost { memory_kib: 8, passes: 1 };

    #[test]
    fn what_is_sealed_opens_with_its_pin_and_its_secret_for_its_person_alone() {
        let (signer, ada, ben) =
            (PersonSigner::from_secret([7; 32]), OperatorId("ada".into()), OperatorId("ben".into()));
        let (pin, other) = (Pin::read("294611").unwrap(), Pin::read("294612").unwrap());
        let (beside, elsewhere) = ([1u8; 32], [2u8; 32]);
        let sealed =
            Sealed::seal(&signer, &ada, (&pin, &beside), CHEAP, &mut farsiding_testkit::Dice::of(0)).unwrap();
        let key = signer.public();
        let opened = |who, key, with| sealed.open((who, key), with).unwrap().map(|s| s.secret());
        assert_eq!(opened(&ada, &key, (&pin, &beside)), Some([7; 32]));
        assert_eq!(opened(&ada, &key, (&other, &beside)), None);
        assert_eq!(opened(&ada, &key, (&pin, &elsewhere)), None, "the PIN alone is not enough");
        assert_eq!(opened(&ben, &key, (&pin, &beside)), None);
        let foreign = PersonSigner::from_secret([8; 32]).public();
        assert_eq!(opened(&ada, &foreign, (&pin, &beside)), None);
        assert!(!sealed.bytes.windows(8).any(|w| w == [7; 8]), "the secret lies open in what is kept");
        for at in 0..sealed.bytes.len() {
            let mut bent = sealed.clone();
            bent.bytes[at] ^= 1;
            assert!(bent.open((&ada, &key), (&pin, &beside)).unwrap().is_none(), "byte {at}");
        }
    }

    #[test]
    fn a_storage_key_hangs_on_the_digits_the_salt_and_the_secret_and_is_what_it_was() {
        let key =
            |pin: &str, beside: u8, salt: u8| storage_key(pin, &[beside; 32], &[salt; 16], CHEAP).unwrap();
        let first = key("294611", 1, 2);
        assert_eq!(first, key("294611", 1, 2));
        for other in [key("294612", 1, 2), key("294611", 3, 2), key("294611", 1, 3)] {
            assert_ne!(first, other);
        }
        // The value is frozen: another one would make every phone that a PIN locks inaccessible.
        assert_eq!(first[..8], [0x48, 0x5d, 0x79, 0xf2, 0x10, 0x25, 0xee, 0x51], "{first:02x?}");
        assert_eq!(storage_key("29461", &[1; 32], &[2; 16], CHEAP), Err(PinError::NotSixDigits));
        assert_eq!(storage_key("294611", &[1; 32], &[2; 8], CHEAP), Err(PinError::Damaged));
        assert_eq!(fit_to_choose("123456"), Err(PinError::TooEasy));
        assert_eq!(fit_to_choose("294611"), Ok(()));
    }

    #[test]
    fn the_first_that_anybody_tries_are_no_pins() {
        for easy in ["000000", "999999", "123456", "654321", "901234", "121212", "123123", "098765"] {
            assert_eq!(Pin::choose(easy), Err(PinError::TooEasy), "{easy}");
        }
        for odd in ["", "12345", "1234567", "12345a", "１２３４５６", " 12345"] {
            assert_eq!(Pin::choose(odd), Err(PinError::NotSixDigits), "{odd}");
        }
        assert!(Pin::choose("294611").is_ok());
    }

    #[test]
    fn waits_grow_and_putting_the_clock_back_neither_ends_nor_prolongs_them_without_end() {
        let (mut tries, mut now) = (Tries::default(), UtcMillis(1_000_000));
        let mut waited = Vec::new();
        while tries.left() > 0 {
            if let Some(until) = tries.wait(now) {
                assert_eq!(tries.begin(now), Err(PinError::Wait { until }));
                let back = UtcMillis(now.0 - 500_000_000);
                let put_back = tries.as_of(back);
                assert_eq!(put_back.wait(back).unwrap().since(back), until.since(now), "the clock put back");
                assert_eq!(put_back.as_of(back).wait(UtcMillis(back.0 + 7_200_000)), None, "for ever");
                waited.push(until.since(now) / 1_000);
                now = until;
            }
            tries = tries.begin(now).unwrap();
        }
        assert_eq!(waited, [30, 120, 600, 1_800, 7_200]);
        assert_eq!(tries.begin(UtcMillis(i64::MAX)), Err(PinError::Locked));
    }
}
