//! The files in which keys are moved: the root's statements, requests to the root, and signing keys.

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
/// The largest file that is read, in bytes. Centuries of statements are far smaller.
const LARGEST: u64 = 1024 * 1024;
/// The words between a working key's secret and the root's public key in the file of a working key.
const SIGNS_FOR: &str = "signs for";

/// Why a file of keys cannot be used.
#[derive(Debug, thiserror::Error)]
pub enum KeyFileError {
    /// The file could not be read or written.
    #[error("{file}: {why}")]
    File {
        /// The path of the file.
        file: String,
        /// The cause.
        why: String,
    },
    /// The file has a different content than expected.
    #[error("{0} holds no {1}")]
    Form(String, &'static str),
    /// A statement in the file does not follow from the ones before.
    #[error("{0}: {1}")]
    Statement(String, KeyError),
}

impl KeyFileError {
    pub(super) fn file(path: &Path, why: impl std::fmt::Display) -> KeyFileError {
        KeyFileError::File { file: path.display().to_string(), why: why.to_string() }
    }
}

/// The content of a file of statements. It holds no secrets, and readers check its signatures themselves.
#[derive(Debug, Clone, Serialize, Deserialize)]
struct Statements {
    format: String,
    organisation_key: PublicKey,
    statements: Vec<String>,
}

/// A request to whoever holds the root key.
#[derive(Debug, Clone, Serialize, Deserialize)]
pub struct Request {
    format: String,
    organisation_key: PublicKey,
    statements: Vec<String>,
    /// The time of the request, by the office's clock.
    pub at: UtcMillis,
    /// The statements that the root is asked to sign, in this order.
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

/// Reads a file of statements and checks each statement from the root that the file names. The caller must
/// compare that root with the expected one.
///
/// # Errors
/// Returns a [`KeyFileError`] when the file cannot be read or a statement does not hold.
pub fn read_statements(path: &Path) -> Result<OrganisationKeys, KeyFileError> {
    statements_in(path, read(path, "statements about keys")?)
}

/// Does the same as [`read_statements`] for the content of a file named `path`.
///
/// # Errors
/// Returns a [`KeyFileError`] when the content is no such file or a statement does not hold.
pub fn parse_statements(path: &Path, content: &[u8]) -> Result<OrganisationKeys, KeyFileError> {
    let found = serde_json::from_slice(content);
    let form = |_| KeyFileError::Form(path.display().to_string(), "statements about keys");
    statements_in(path, found.map_err(form)?)
}

fn statements_in(path: &Path, found: Statements) -> Result<OrganisationKeys, KeyFileError> {
    if found.format != STATEMENTS {
        return Err(KeyFileError::Form(path.display().to_string(), "statements about keys"));
    }
    decoded(path, found.organisation_key, &found.statements)
}

/// Returns the content of a file of statements.
pub fn statements_text(keys: &OrganisationKeys) -> String {
    let (format, organisation_key, statements) = (STATEMENTS.to_owned(), keys.root(), encoded(keys));
    text_of(&Statements { format, organisation_key, statements })
}

/// Writes a file of statements, replacing an existing one.
///
/// # Errors
/// Returns [`KeyFileError::File`] when the file cannot be written.
pub fn write_statements(path: &Path, keys: &OrganisationKeys) -> Result<(), KeyFileError> {
    whole_file::write(path, statements_text(keys).as_bytes()).map_err(|e| KeyFileError::file(path, e))
}

impl Request {
    /// Returns a request to the root of `keys`.
    pub fn new(keys: &OrganisationKeys, at: UtcMillis, asks: Vec<KeyWord>) -> Request {
        let (format, organisation_key, statements) = (REQUEST.to_owned(), keys.root(), encoded(keys));
        Request { format, organisation_key, statements, at, asks }
    }

    /// Reads a request from a file.
    ///
    /// # Errors
    /// Returns a [`KeyFileError`] when the file cannot be read or is not a request.
    pub fn read(path: &Path) -> Result<(Request, OrganisationKeys), KeyFileError> {
        let request: Request = read(path, "request about keys")?;
        if request.format != REQUEST || request.asks.is_empty() {
            return Err(KeyFileError::Form(path.display().to_string(), "request about keys"));
        }
        let keys = decoded(path, request.organisation_key, &request.statements)?;
        Ok((request, keys))
    }

    /// Returns the content of the request's file.
    pub fn text(&self) -> String {
        text_of(self)
    }
}

/// Reads a secret key from the data folder. For a working key, also returns the public key of the root it
/// signs for.
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

/// Writes the secret of a working key into a new file. An earlier version of the program finds no usable key
/// in such a file, so it cannot mistake the working key for another organisation's key.
pub(super) fn write_signing(path: &Path, secret: [u8; 32], root: PublicKey) -> std::io::Result<()> {
    private_file::write_new(path, format!("{} {SIGNS_FOR} {root}\n", Digest(secret)).as_bytes())
}
