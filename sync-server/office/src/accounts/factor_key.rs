//! The key that encrypts the secrets of second factors in the database. It is a file of its own beside the
//! database, so that the database alone (in an unencrypted backup, or sent to somebody for repair) opens no
//! account.
//!
//! Each secret is encrypted with XChaCha20-Poly1305 for its account. Called by `second_factor`.

use std::path::{Path, PathBuf};

use chacha20poly1305::aead::{Aead, KeyInit, Payload};
use chacha20poly1305::{XChaCha20Poly1305, XNonce};
use farsiding_core::ids::Randomness;
use rusqlite::{Connection, params};

use super::AccountError;
use farsiding_host::private_file;

/// The key's file name in the data folder.
pub const FILE: &str = "factors.key";
/// The first byte of an encrypted secret. An unencrypted secret has 20 bytes.
const SEALED: u8 = 1;
const NONCE: usize = 24;
const PLAIN: usize = 20;

/// Returns the path of the key file, or `None` for a database in memory.
fn file_of(connection: &Connection) -> Option<PathBuf> {
    let path = Path::new(connection.path().filter(|path| !path.is_empty())?);
    Some(private_file::folder_of(path).join(FILE))
}

fn failed(file: &Path, why: &dyn std::fmt::Display) -> AccountError {
    AccountError::Factor(format!(
        "{} cannot be used: {why}. Put it back from its safe copy; without it every second factor must be set up anew \
         (farsiding account reset-second-factor)",
        file.display()
    ))
}

fn cipher(file: &Path) -> Result<XChaCha20Poly1305, AccountError> {
    let key = private_file::read_secret(file).map_err(|why| failed(file, &why))?;
    Ok(XChaCha20Poly1305::new(&key.into()))
}

fn about(account: i64) -> Vec<u8> {
    [b"farsiding second factor 1\n".as_slice(), &account.to_be_bytes()].concat()
}

/// Returns a secret in its encrypted form.
///
/// # Errors
/// Returns [`AccountError::Factor`] when the key can be neither read nor created.
pub(super) fn seal(
    connection: &Connection,
    account: i64,
    secret: &[u8],
    randomness: &mut dyn Randomness,
) -> Result<Vec<u8>, AccountError> {
    let Some(file) = file_of(connection) else { return Ok(secret.to_vec()) };
    if !file.exists() {
        let mut key = [0u8; 32];
        randomness.fill(&mut key);
        match private_file::write_secret(&file, key) {
            Err(why) if why.kind() != std::io::ErrorKind::AlreadyExists => return Err(failed(&file, &why)),
            _ => {}
        }
    }
    let mut nonce = [0u8; NONCE];
    randomness.fill(&mut nonce);
    let payload = Payload { msg: secret, aad: &about(account) };
    let sealed = cipher(&file)?
        .encrypt(&XNonce::from(nonce), payload)
        .map_err(|_| failed(&file, &"nothing can be sealed with it"))?;
    Ok([&[SEALED][..], &nonce, &sealed].concat())
}

/// Returns a secret in its decrypted form.
///
/// # Errors
/// Returns [`AccountError::Factor`] when the key is missing or is not the right one.
pub(super) fn open(connection: &Connection, account: i64, kept: Vec<u8>) -> Result<Vec<u8>, AccountError> {
    if kept.len() == PLAIN {
        return Ok(kept);
    }
    let Some(file) = file_of(connection) else { return Ok(kept) };
    let sealed = kept.split_first().filter(|(form, _)| **form == SEALED);
    let parts = sealed.and_then(|(_, rest)| rest.split_at_checked(NONCE));
    let parts = parts.and_then(|(nonce, sealed)| Some((<[u8; NONCE]>::try_from(nonce).ok()?, sealed)));
    let Some((nonce, sealed)) = parts else {
        return Err(AccountError::Factor("the second factor's row is damaged; set it up anew".to_owned()));
    };
    cipher(&file)?
        .decrypt(&XNonce::from(nonce), Payload { msg: sealed, aad: &about(account) })
        .map_err(|_| failed(&file, &"it is another key than the one these secrets were sealed with"))
}

/// Encrypts the secrets that an earlier version stored unencrypted, and returns how many.
///
/// # Errors
/// Returns an [`AccountError`] when the key or the database fails.
pub fn seal_what_is_plain(
    connection: &Connection,
    randomness: &mut dyn Randomness,
) -> Result<usize, AccountError> {
    let mut statement =
        connection.prepare("SELECT account, secret FROM second_factor WHERE length(secret) = ?1")?;
    let plain = i64::try_from(PLAIN).unwrap_or_default();
    let rows = statement.query_map([plain], |row| Ok((row.get::<_, i64>(0)?, row.get::<_, Vec<u8>>(1)?)))?;
    let rows: Vec<_> = rows.collect::<Result<_, _>>()?;
    for (account, secret) in &rows {
        let sealed = seal(connection, *account, secret, randomness)?;
        connection.execute(
            "UPDATE second_factor SET secret = ?2 WHERE account = ?1 AND secret = ?3",
            params![account, sealed, secret],
        )?;
    }
    Ok(rows.len())
}
