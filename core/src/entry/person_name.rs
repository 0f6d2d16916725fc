//! A person's name as it is kept beside the roster: the name, a salt, and the commitment that the entry holds in
//! their place.
//!
//! An entry cannot be changed, so it holds no name but [`PersonName::named`], from which nobody can compute or
//! guess the name without the salt. Whoever shows a name compares it with the commitment of the entry that
//! counts. Where name and salt are deleted, the entry, its signature and its place in the log stay what they
//! are. Who keeps names where is in `store` and `sync`; FORMAT.md, section 13, describes the form.

use serde::{Deserialize, Serialize};
use serde_bytes::ByteArray;

use crate::ids::{Digest, Randomness};

/// The longest name of a person, in bytes of UTF-8.
pub const LONGEST_NAME: usize = 200;

const CONTEXT: &[u8] = b"farsiding name 1";

/// A person's name with its salt.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub struct PersonName {
    /// The commitment that stands in the entry: see [`PersonName::commitment`].
    pub named: Digest,
    /// The random salt, 32 bytes.
    pub salt: ByteArray<32>,
    /// The name.
    pub name: String,
}

impl PersonName {
    /// Makes the row of a name under a fresh salt.
    pub fn of(name: &str, randomness: &mut dyn Randomness) -> PersonName {
        let mut salt = [0u8; 32];
        randomness.fill(&mut salt);
        PersonName {
            named: PersonName::commitment(&salt, name),
            salt: ByteArray::new(salt),
            name: name.to_owned(),
        }
    }

    /// Returns the SHA-256 of a fixed text, the salt and the name.
    pub fn commitment(salt: &[u8; 32], name: &str) -> Digest {
        let mut made_from = CONTEXT.to_vec();
        made_from.extend_from_slice(salt);
        made_from.extend_from_slice(name.as_bytes());
        Digest::of(&made_from)
    }

    /// Returns true if the name is within bounds and is the one that the commitment stands for.
    pub fn fits(&self) -> bool {
        is_name(&self.name) && PersonName::commitment(&self.salt, &self.name) == self.named
    }
}

/// Returns true if a text can be a person's name: it is not blank and has at most [`LONGEST_NAME`] bytes.
pub fn is_name(text: &str) -> bool {
    !text.trim().is_empty() && text.len() <= LONGEST_NAME
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]
    use super::*;

    struct Ones;
    impl Randomness for Ones {
        fn fill(&mut self, bytes: &mut [u8]) {
            bytes.fill(1);
        }
    }

    /// The commitment is wire format: this value was computed by another program.
    #[test]
    fn a_commitment_is_the_digest_that_the_format_describes() {
        let row = PersonName::of("Ash Example", &mut Ones);
        assert_eq!(row.named.to_string(), FROZEN);
        assert!(row.fits());
    }

    const FROZEN: &str = "5088bc0f6a2700c37606268a2ac6e2f37fe2614a7ec1cc508762160e147f098b";

    #[test]
    fn another_name_another_salt_and_a_name_without_bounds_do_not_fit() {
        let row = PersonName::of("Ash Example", &mut Ones);
        assert!(!PersonName { name: "Ash example".into(), ..row.clone() }.fits());
        assert!(!PersonName { salt: ByteArray::new([2; 32]), ..row }.fits());
        assert!(PersonName::of(&"x".repeat(LONGEST_NAME), &mut Ones).fits());
        assert!(!PersonName::of(&"x".repeat(LONGEST_NAME + 1), &mut Ones).fits());
        assert!(!PersonName::of(&"x".repeat(1 << 20), &mut Ones).fits());
        assert!(!PersonName::of("  ", &mut Ones).fits());
    }
}
