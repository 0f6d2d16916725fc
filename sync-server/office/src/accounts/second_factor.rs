//! The second factor: codes of six digits that a telephone computes every half minute (RFC 6238), and
//! recovery codes in case the telephone is lost.
//!
//! A code is accepted once for its time step, and no code of an earlier step is accepted afterwards. Checking
//! a code needs the secret itself, so the database holds it encrypted under a separate key (`factor_key`). Of
//! recovery codes only the hashes are stored. The pages use this through `pages::own` and `pages::sign_in`.

use farsiding_core::clock::UtcMillis;
use farsiding_core::ids::{Digest, Randomness};
use rusqlite::{Connection, OptionalExtension as _, params};
use totp_rs::{Builder, Secret, Totp};

use super::{AccountError, factor_key, hash_of, new_secret};

/// The number of recovery codes that are issued together.
pub const RECOVERY_CODES: usize = 8;
/// How long a right password waits for its code, in milliseconds.
pub const HALF_MILLIS: i64 = 5 * 60_000;
/// Letters and digits that are not mistaken for each other: without i, l, o and u, as in Crockford's base 32.
const LETTERS: &[u8; 32] = b"0123456789abcdefghjkmnpqrstvwxyz";

/// A new secret that is not confirmed yet, to be entered into a telephone.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fresh {
    /// The secret as letters, for typing.
    pub letters: String,
    /// The secret as an address, for a QR code.
    pub address: String,
}

/// The state of an account's second factor.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Standing {
    /// The time since which a code is required.
    pub since: Option<UtcMillis>,
    /// The number of unused recovery codes.
    pub codes_left: usize,
}

fn totp(secret: &[u8]) -> Result<Totp, AccountError> {
    // SHA-1, six digits and half a minute are what every authenticator app supports (RFC 6238, sections 4 and
    // 5.2). One step to either side is accepted, because clocks differ.
    let built = Builder::new().with_secret(Secret::from(secret.to_vec())).build();
    built.map_err(|e| AccountError::Factor(e.to_string()))
}

fn percent(text: &str) -> String {
    text.bytes()
        .map(|b| match b {
            b'a'..=b'z' | b'A'..=b'Z' | b'0'..=b'9' | b'-' | b'.' | b'_' => char::from(b).to_string(),
            other => format!("%{other:02X}"),
        })
        .collect()
}

/// Returns the state of an account's second factor.
///
/// # Errors
/// Returns an [`AccountError`] when the database fails.
pub fn standing(connection: &Connection, account: i64) -> Result<Standing, AccountError> {
    let since: Option<Option<i64>> = connection
        .query_row("SELECT confirmed_at FROM second_factor WHERE account = ?1", [account], |row| row.get(0))
        .optional()?;
    let left: i64 =
        connection.query_row("SELECT count(*) FROM recovery_code WHERE account = ?1", [account], |row| {
            row.get(0)
        })?;
    Ok(Standing {
        since: since.flatten().map(UtcMillis),
        codes_left: usize::try_from(left).unwrap_or_default(),
    })
}

/// Begins the set-up of a second factor. No code is required until [`confirm`] succeeds.
///
/// # Errors
/// Returns [`AccountError::Factor`] when a second factor is set up already.
pub fn begin(
    connection: &Connection,
    (account, name): (i64, &str),
    now: UtcMillis,
    randomness: &mut dyn Randomness,
) -> Result<Fresh, AccountError> {
    let mut secret = [0u8; 20];
    randomness.fill(&mut secret);
    let begun = connection.execute(
        "INSERT INTO second_factor(account, secret, begun_at) VALUES(?1, ?2, ?3)
         ON CONFLICT(account) DO UPDATE SET secret = excluded.secret, begun_at = excluded.begun_at, last_step = 0
         WHERE confirmed_at IS NULL",
        params![account, factor_key::seal(connection, account, &secret, randomness)?, now.0],
    )?;
    if begun == 0 {
        return Err(AccountError::FactorExists);
    }
    Ok(fresh(&secret, name))
}

fn fresh(secret: &[u8], name: &str) -> Fresh {
    let letters = Secret::from(secret.to_vec()).to_base32();
    let name = percent(name);
    let address = format!("otpauth://totp/Farsiding:{name}?secret={letters}&issuer=Farsiding");
    Fresh { letters, address }
}

/// Returns the secret that waits for its first code, to show it again after a wrong code.
///
/// # Errors
/// Returns an [`AccountError`] when the database fails.
pub fn unconfirmed(connection: &Connection, account: i64, name: &str) -> Result<Option<Fresh>, AccountError> {
    let sql = "SELECT secret FROM second_factor WHERE account = ?1 AND confirmed_at IS NULL";
    let secret: Option<Vec<u8>> = connection.query_row(sql, [account], |row| row.get(0)).optional()?;
    let secret = secret.map(|kept| factor_key::open(connection, account, kept)).transpose()?;
    Ok(secret.map(|secret| fresh(&secret, name)))
}

/// Checks the first code of a new secret. If the code is right, a code is required from now on, and the
/// recovery codes are returned, to be shown once. Returns `None` for a wrong code.
///
/// # Errors
/// Returns an [`AccountError`] when the database fails.
pub fn confirm(
    connection: &mut Connection,
    account: i64,
    code: &str,
    now: UtcMillis,
    randomness: &mut dyn Randomness,
) -> Result<Option<Vec<String>>, AccountError> {
    let transaction = connection.transaction()?;
    if standing(&transaction, account)?.since.is_some() || !take_step(&transaction, account, code, now)? {
        return Ok(None);
    }
    transaction
        .execute("UPDATE second_factor SET confirmed_at = ?2 WHERE account = ?1", params![account, now.0])?;
    let codes = write_codes(&transaction, account, randomness)?;
    transaction.commit()?;
    Ok(Some(codes))
}

/// Issues new recovery codes. The earlier ones become invalid.
///
/// # Errors
/// Returns an [`AccountError`] when the database fails.
pub fn renew_codes(
    connection: &mut Connection,
    account: i64,
    randomness: &mut dyn Randomness,
) -> Result<Vec<String>, AccountError> {
    let transaction = connection.transaction()?;
    let codes = write_codes(&transaction, account, randomness)?;
    transaction.commit()?;
    Ok(codes)
}

fn write_codes(
    connection: &Connection,
    account: i64,
    randomness: &mut dyn Randomness,
) -> Result<Vec<String>, AccountError> {
    connection.execute("DELETE FROM recovery_code WHERE account = ?1", [account])?;
    let mut codes = Vec::with_capacity(RECOVERY_CODES);
    for _ in 0..RECOVERY_CODES {
        let mut bytes = [0u8; 16];
        randomness.fill(&mut bytes);
        let letters: String = bytes
            .iter()
            .filter_map(|byte| LETTERS.get(usize::from(byte & 31)))
            .map(|letter| char::from(*letter))
            .collect();
        connection.execute(
            "INSERT INTO recovery_code(account, code_hash) VALUES(?1, ?2)",
            params![account, hash_of("recovery", &letters).0],
        )?;
        let pieces: Vec<&str> = [0, 4, 8, 12].iter().filter_map(|at| letters.get(*at..*at + 4)).collect();
        codes.push(pieces.join("-"));
    }
    Ok(codes)
}

/// Returns whether a code is right for a time step that has not been used yet. The step is then marked as
/// used.
fn take_step(
    connection: &Connection,
    account: i64,
    code: &str,
    now: UtcMillis,
) -> Result<bool, AccountError> {
    let found = connection
        .query_row("SELECT secret, last_step FROM second_factor WHERE account = ?1", [account], |row| {
            Ok((row.get::<_, Vec<u8>>(0)?, row.get::<_, i64>(1)?))
        })
        .optional()?;
    let Some((secret, last)) = found else { return Ok(false) };
    let digits: String = code.chars().filter(|c| !c.is_whitespace()).collect();
    if digits.len() != 6 || !digits.bytes().all(|b| b.is_ascii_digit()) {
        return Ok(false);
    }
    let secret = factor_key::open(connection, account, secret)?;
    let seconds = u64::try_from(now.0 / 1000).unwrap_or_default();
    let step = totp(&secret)?.check(&digits, seconds).and_then(|step| i64::try_from(step).ok());
    let Some(step) = step.filter(|step| *step > last) else { return Ok(false) };
    // The condition is checked again in the update, so that of two simultaneous uses only one succeeds.
    let taken = connection.execute(
        "UPDATE second_factor SET last_step = ?2 WHERE account = ?1 AND last_step < ?2",
        params![account, step],
    )?;
    Ok(taken == 1)
}

/// Returns the meant letter of a recovery code, allowing for letters that were misread from paper.
fn as_meant(letter: char) -> char {
    match letter.to_ascii_lowercase() {
        'o' => '0',
        'i' | 'l' => '1',
        other => other,
    }
}

/// The kind of an accepted code.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Taken {
    /// A code of the telephone.
    Code,
    /// A recovery code, with the number that are left.
    Recovery(usize),
}

/// Checks a code of the telephone or a recovery code. An accepted code cannot be used again.
///
/// # Errors
/// Returns an [`AccountError`] when the database fails.
pub fn take(
    connection: &Connection,
    account: i64,
    typed: &str,
    now: UtcMillis,
) -> Result<Option<Taken>, AccountError> {
    if standing(connection, account)?.since.is_none() {
        return Ok(None);
    }
    if take_step(connection, account, typed, now)? {
        return Ok(Some(Taken::Code));
    }
    let letters: String = typed.chars().filter(char::is_ascii_alphanumeric).take(32).map(as_meant).collect();
    let used = connection.execute(
        "DELETE FROM recovery_code WHERE account = ?1 AND code_hash = ?2",
        params![account, hash_of("recovery", &letters).0],
    )?;
    Ok(match used {
        0 => None,
        _ => Some(Taken::Recovery(standing(connection, account)?.codes_left)),
    })
}

/// Removes the second factor of an account. The account may set up another.
///
/// # Errors
/// Returns an [`AccountError`] when the database fails.
pub fn remove(connection: &mut Connection, account: i64) -> Result<(), AccountError> {
    let transaction = connection.transaction()?;
    transaction.execute("DELETE FROM second_factor WHERE account = ?1", [account])?;
    transaction.execute("DELETE FROM recovery_code WHERE account = ?1", [account])?;
    transaction.execute("DELETE FROM half_sign_in WHERE account = ?1", [account])?;
    transaction.commit()?;
    Ok(())
}

fn half(token: &str) -> Digest {
    hash_of("half sign-in", token)
}

/// Remembers that an account's password was right, and returns the token that the form for the code carries.
///
/// # Errors
/// Returns an [`AccountError`] when the database fails.
pub fn wait_for_code(
    connection: &Connection,
    account: i64,
    now: UtcMillis,
    randomness: &mut dyn Randomness,
) -> Result<String, AccountError> {
    connection.execute("DELETE FROM half_sign_in WHERE made_at <= ?1", [now.0 - HALF_MILLIS])?;
    let token = new_secret(randomness);
    connection.execute(
        "INSERT INTO half_sign_in(token_hash, account, made_at) VALUES(?1, ?2, ?3)",
        params![half(&token).0, account, now.0],
    )?;
    Ok(token)
}

/// Returns the account whose password was right and whose code is awaited.
///
/// # Errors
/// Returns an [`AccountError`] when the database fails.
pub fn waits_for_code(
    connection: &Connection,
    token: &str,
    now: UtcMillis,
) -> Result<Option<(i64, String)>, AccountError> {
    let found = connection.query_row(
        "SELECT account.number, account.name FROM half_sign_in JOIN account ON account.number = half_sign_in.account
         WHERE token_hash = ?1 AND half_sign_in.made_at > ?2 AND account.disabled_at IS NULL",
        params![half(token).0, now.0 - HALF_MILLIS],
        |row| Ok((row.get(0)?, row.get(1)?)),
    );
    Ok(found.optional()?)
}

/// Ends the wait for a code.
///
/// # Errors
/// Returns an [`AccountError`] when the database fails.
pub fn end_waiting(connection: &Connection, token: &str) -> Result<(), AccountError> {
    connection.execute("DELETE FROM half_sign_in WHERE token_hash = ?1", [half(token).0])?;
    Ok(())
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]
    use super::*;
    use crate::accounts::people;
    use crate::accounts::roles::AccountRole;
    use crate::office_database::OfficeDatabase;

    fn code(secret: &str, at: i64) -> String {
        let totp = Builder::new().with_secret(Secret::try_from_base32(secret).unwrap()).build().unwrap();
        totp.generate(u64::try_from(at / 1000).unwrap()).to_string()
    }

    /// The values are from RFC 6238, appendix B: the last six of the eight digits printed there, for SHA-1.
    #[test]
    fn codes_are_those_of_the_standard() {
        let totp = totp(b"12345678901234567890").unwrap();
        for (seconds, printed) in [
            (59, "94287082"),
            (1_111_111_109, "07081804"),
            (1_111_111_111, "14050471"),
            (1_234_567_890, "89005924"),
            (2_000_000_000, "69279037"),
            (20_000_000_000, "65353130"),
        ] {
            assert_eq!(totp.generate(seconds).to_string(), printed[2..], "{seconds}");
        }
    }

    fn set_up() -> (tempfile::TempDir, OfficeDatabase, i64, String, Vec<String>) {
        let folder = tempfile::tempdir().unwrap();
        let mut database = OfficeDatabase::open(&folder.path().join("server.db")).unwrap();
        let (mut dice, at) = (farsiding_testkit::Dice::of(1), UtcMillis(1_000_000_000));
        let connection = database.connection();
        let account =
            people::add(connection, ("Clerk", AccountRole::Reader), "four short plain words", at, &mut dice)
                .unwrap();
        let fresh = begin(connection, (account.number, "Clerk"), at, &mut dice).unwrap();
        assert!(fresh.address.contains(&fresh.letters), "{fresh:?}");
        assert_eq!(take(connection, account.number, &code(&fresh.letters, at.0), at).unwrap(), None);
        let connection = database.connection_mut();
        let wrong = confirm(connection, account.number, "000000", at, &mut dice).unwrap();
        assert_eq!(wrong, None);
        let codes =
            confirm(connection, account.number, &code(&fresh.letters, at.0), at, &mut dice).unwrap().unwrap();
        (folder, database, account.number, fresh.letters, codes)
    }

    #[test]
    fn a_code_is_taken_once_and_never_an_older_one_after() {
        let (_folder, database, account, secret, _) = set_up();
        let take = |at: i64, code: &str| take(database.connection(), account, code, UtcMillis(at)).unwrap();
        let at = 1_000_000_000;
        assert_eq!(take(at, &code(&secret, at)), None, "it was taken to confirm");
        let (before, next) = (code(&secret, at + 60_000), code(&secret, at + 90_000));
        assert_eq!(take(at + 90_000, &next), Some(Taken::Code));
        assert_eq!(take(at + 90_000, &next), None, "the same again");
        assert_eq!(take(at + 90_000, &before), None, "one of an earlier step");
        assert_eq!(take(at + 300_000, &code(&secret, at + 180_000)), None, "an old one");
        assert_eq!(
            take(at + 300_000, &code(&secret, at + 330_000)),
            Some(Taken::Code),
            "a clock that is ahead"
        );
        for odd in ["", "12345", "1234567", "abcdef", "١٢٣٤٥٦", "\u{0}00000"] {
            assert_eq!(take(at + 600_000, odd), None, "{odd:?}");
        }
    }

    #[test]
    fn a_recovery_code_opens_once_and_new_ones_end_the_old() {
        let (_folder, mut database, account, _, codes) = set_up();
        assert_eq!(codes.len(), RECOVERY_CODES);
        let at = UtcMillis(1_000_600_000);
        let typed = codes[0].to_uppercase().replace('-', " ").replace('0', "O").replace('1', "l");
        assert_eq!(take(database.connection(), account, &typed, at).unwrap(), Some(Taken::Recovery(7)));
        assert_eq!(take(database.connection(), account, &codes[0], at).unwrap(), None);
        let fresh =
            renew_codes(database.connection_mut(), account, &mut farsiding_testkit::Dice::of(9)).unwrap();
        assert_eq!(take(database.connection(), account, &codes[1], at).unwrap(), None);
        assert_eq!(take(database.connection(), account, &fresh[1], at).unwrap(), Some(Taken::Recovery(7)));
    }

    #[test]
    fn a_secret_lies_sealed_in_the_register_and_one_of_before_is_sealed_at_the_start() {
        let (folder, database, account, secret, _) = set_up();
        let connection = database.connection();
        let kept = |connection: &Connection| -> Vec<u8> {
            connection.query_row("SELECT secret FROM second_factor", [], |row| row.get(0)).unwrap()
        };
        let plain = Secret::try_from_base32(&secret).unwrap().as_bytes().to_vec();
        let sealed = kept(connection);
        assert!(!sealed.windows(plain.len()).any(|window| window == plain));
        // This is how an earlier version stored the secret.
        connection.execute("UPDATE second_factor SET secret = ?1", [&plain]).unwrap();
        assert_eq!(
            factor_key::seal_what_is_plain(connection, &mut farsiding_testkit::Dice::of(9)).unwrap(),
            1
        );
        assert_eq!(
            factor_key::seal_what_is_plain(connection, &mut farsiding_testkit::Dice::of(9)).unwrap(),
            0
        );
        assert!(kept(connection) != plain);
        let at = 1_795_867_200_000;
        assert!(
            take(connection, account, &code(&secret, at + 900_000), UtcMillis(at + 900_000))
                .unwrap()
                .is_some()
        );
        // In the row of another account, or without the key, the secret cannot be decrypted.
        assert!(factor_key::open(connection, account + 1, kept(connection)).is_err());
        std::fs::remove_file(folder.path().join(factor_key::FILE)).unwrap();
        assert!(factor_key::open(connection, account, kept(connection)).is_err());
    }
}
