//! Passwords, hashed by argon2id with the library's parameters (19 MiB, two passes: the second choice of the
//! OWASP password storage cheat sheet) and a salt each. A name without an account takes as long to check as a
//! real one.

use argon2::Argon2;
use argon2::password_hash::{PasswordHash, PasswordHasher as _, PasswordVerifier as _, SaltString};
use farsiding_core::ids::Randomness;

use super::AccountError;

/// The shortest password, in characters.
pub const SHORTEST: usize = 12;
/// The longest password, in characters. Hashing takes longer for longer ones.
pub const LONGEST: usize = 256;

/// Hashes a new password.
///
/// # Errors
/// Returns [`AccountError::BadPassword`] when the password is too short or too long.
pub fn hash(password: &str, randomness: &mut dyn Randomness) -> Result<String, AccountError> {
    if !(SHORTEST..=LONGEST).contains(&password.chars().count()) {
        return Err(AccountError::BadPassword);
    }
    let mut salt = [0u8; 16];
    randomness.fill(&mut salt);
    let salt = SaltString::encode_b64(&salt).map_err(|e| AccountError::Hashing(e.to_string()))?;
    let hashed = Argon2::default().hash_password(password.as_bytes(), &salt);
    hashed.map(|hash| hash.to_string()).map_err(|e| AccountError::Hashing(e.to_string()))
}

/// A hash that matches no password. It is used for unknown names, so that they take as long to refuse as a
/// wrong password.
const NOBODYS: &str =
    "$argon2id$v=19$m=19456,t=2,p=1$bm9ib2R5IGhhcyB0aGlz$vS1lMM0QKkkNPz6HhYgYzUkkRTpVOtHyoUD3phzUhBw";

/// Returns whether a password matches a stored hash. Without a hash the check takes as long and returns
/// false.
pub fn fits(password: &str, kept: Option<&str>) -> bool {
    if password.chars().count() > LONGEST {
        return false;
    }
    let Ok(hash) = PasswordHash::new(kept.unwrap_or(NOBODYS)) else { return false };
    Argon2::default().verify_password(password.as_bytes(), &hash).is_ok() && kept.is_some()
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]
    use super::*;

    struct Same;
    impl Randomness for Same {
        fn fill(&mut self, bytes: &mut [u8]) {
            bytes.fill(7);
        }
    }

    #[test]
    fn a_password_fits_its_own_hash_and_no_other() {
        let kept = hash("four short plain words", &mut Same).unwrap();
        assert!(kept.starts_with("$argon2id$v=19$m=19456,t=2,p=1$"), "{kept}");
        assert!(fits("four short plain words", Some(&kept)));
        assert!(!fits("four short plain word", Some(&kept)));
        assert!(!fits("four short plain words", None));
        assert!(!fits("four short plain words", Some("not a hash")));
    }

    #[test]
    fn a_name_nobody_has_costs_as_much_as_a_wrong_password() {
        assert!(PasswordHash::new(NOBODYS).is_ok(), "a hash that cannot be read would be refused at once");
    }

    #[test]
    fn a_short_password_is_refused() {
        assert!(matches!(hash("elevenchars", &mut Same), Err(AccountError::BadPassword)));
        assert!(matches!(hash(&"x".repeat(257), &mut Same), Err(AccountError::BadPassword)));
    }
}
