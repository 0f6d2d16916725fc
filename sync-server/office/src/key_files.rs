//! The files keys travel in: statements, requests to the root, and the key that signs.

use std::path::Path;

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::{KeyError, KeyWord, OrganisationKeys, PublicKey, Trusts as _};
use farsiding_core::ids::{DeviceId, Digest};
use serde::{Deserialize, Serialize};

use farsiding_host::private_file;
use farsiding_host::whole_file;

const STATEMENTS: &str = "farsiding keys 1";
const REQUEST: &str = "farsiding key request 1";
/// The largest file read: many times what centuries of statements have.
const LARGEST: u64 = 1024 * 1024;
/// What stands between a working key's secret and the root's public key.
const SIGNS_FOR: &str = "signs for";

/// Why a file of keys cannot be used.
#[derive(Debug, thiserror::Error)]
pub enum KeyFileError {
    /// The file system.
    #[error("{file}: {why}")]
    File {
        /// Which.
        file: String,
        /// What is in the way.
        why: String,
    },
    /// It holds something else.
    #[error("{0} holds no {1}")]
    Form(String, &'static str),
    /// A statement in it does not join.
    #[error("{0}: {1}")]
    Statement(String, KeyError),
}

impl KeyFileError {
    pub(super) fn file(path: &Path, why: impl std::fmt::Display) -> KeyFileError {
        KeyFileError::File { file: path.display().to_string(), why: why.to_string() }
    }
}

/// What the root said of keys, as a file: nothing in it is secret, and nothing has to be believed.
#[derive(Debug, Clone, Serialize, Deserialize)]
struct Statements {
    format: String,
    organisation_key: PublicKey,
    statements: Vec<String>,
}

/// What is asked of whoever holds the root.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub struct Request {
    format: String,
    organisation_key: PublicKey,
    statements: Vec<String>,
    /// The office's time.
    pub at: UtcMillis,
    /// What the root is to say, in this order.
    pub asks: Vec<KeyWord>,
}

fn encoded(keys: &OrganisationKeys) -> Vec<String> {
    keys.signed().map(|bytes| STANDARD.encode(bytes)).collect()
}

fn decoded(path: &Path, root: PublicKey, statements: &[String]) -> Result<OrganisationKeys, KeyFileError> {
    let bytes: Option<Vec<Vec<u8>>> = statements.iter().map(|text| STANDARD.decode(text).ok()).collect();
    let bytes =
        bytes.ok_or_else(|| KeyFileError::Form(path.display().to_string(), "statements in base64"))?;
    OrganisationKeys::read(root, bytes)
        .map_err(|why| KeyFileError::Statement(path.display().to_string(), why))
}

fn read<T: serde::de::DeserializeOwned>(path: &Path, what: &'static str) -> Result<T, KeyFileError> {
    let length = std::fs::metadata(path).map_err(|e| KeyFileError::file(path, e))?.len();
    let text = if length > LARGEST { Ok(String::new()) } else { std::fs::read_to_string(path) };
    let text = text.map_err(|e| KeyFileError::file(path, e))?;
    serde_json::from_str(&text).map_err(|_| KeyFileError::Form(path.display().to_string(), what))
}

fn text_of<T: Serialize>(value: &T) -> String {
    serde_json::to_string_pretty(value).unwrap_or_default() + "\n"
}

/// Reads a file of statements, each checked from the root the file names. Whether that is the root wanted is for the
/// caller to compare.
///
/// # Errors
/// [`KeyFileError`].
pub fn read_statements(path: &Path) -> Result<OrganisationKeys, KeyFileError> {
    let found: Statements = read(path, "statements about keys")?;
    if found.format != STATEMENTS {
        return Err(KeyFileError::Form(path.display().to_string(), "statements about keys"));
    }
    decoded(path, found.organisation_key, &found.statements)
}

/// The text of a file of statements.
pub fn statements_text(keys: &OrganisationKeys) -> String {
    let (format, organisation_key, statements) = (STATEMENTS.to_owned(), keys.root(), encoded(keys));
    text_of(&Statements { format, organisation_key, statements })
}

/// Writes a file of statements, in place of one of before.
///
/// # Errors
/// [`KeyFileError::File`].
pub fn write_statements(path: &Path, keys: &OrganisationKeys) -> Result<(), KeyFileError> {
    whole_file::write(path, statements_text(keys).as_bytes()).map_err(|e| KeyFileError::file(path, e))
}

impl Request {
    /// Something asked of the root of these keys.
    pub fn new(keys: &OrganisationKeys, at: UtcMillis, asks: Vec<KeyWord>) -> Request {
        let (format, organisation_key, statements) = (REQUEST.to_owned(), keys.root(), encoded(keys));
        Request { format, organisation_key, statements, at, asks }
    }

    /// Reads one.
    ///
    /// # Errors
    /// [`KeyFileError`].
    pub fn read(path: &Path) -> Result<(Request, OrganisationKeys), KeyFileError> {
        let request: Request = read(path, "request about keys")?;
        if request.format != REQUEST || request.asks.is_empty() {
            return Err(KeyFileError::Form(path.display().to_string(), "request about keys"));
        }
        let keys = decoded(path, request.organisation_key, &request.statements)?;
        Ok((request, keys))
    }

    /// Its text.
    pub fn text(&self) -> String {
        text_of(self)
    }
}

/// A secret as it lies in the data folder, and for whose root it signs, where it is not the root itself.
pub(crate) fn read_signing(path: &Path) -> std::io::Result<([u8; 32], Option<PublicKey>)> {
    let text = std::fs::read_to_string(path)?;
    let Some((secret, root)) = text.trim().split_once(SIGNS_FOR) else {
        return Ok((private_file::read_secret(path)?, None));
    };
    match (Digest::read(secret.trim()), DeviceId::read(root.trim())) {
        (Ok(secret), Ok(root)) => Ok((secret.0, Some(root))),
        _ => {
            let why =
                "it holds neither a key nor a key that signs for another; put it back from its safe copy";
            Err(std::io::Error::new(std::io::ErrorKind::InvalidData, why))
        }
    }
}

/// Writes the secret of a key that signs for a root into a new file. A program that does not know of such keys
/// finds no key in it, rather than another organisation's.
pub(super) fn write_signing(path: &Path, secret: [u8; 32], root: PublicKey) -> std::io::Result<()> {
    private_file::write_new(path, format!("{} {SIGNS_FOR} {root}\n", Digest(secret)).as_bytes())
}
