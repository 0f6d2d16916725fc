//! Access to the office's pages: accounts with roles, passwords and second factors, sessions, links that let
//! an inspector read one visit, limits on guessing, and the audit of who looked at what.
//!
//! The tables are part of the office database (`server.db`). HTTP is handled in `pages::user`, and pages
//! in `pages`.

pub mod attempts;
pub mod audit;
pub mod browsers;
pub mod factor_key;
pub mod links;
pub mod passwords;
pub mod people;
pub mod roles;
pub mod second_factor;
pub mod sessions;

use base64::Engine as _;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;
use farsiding_core::ids::{Digest, Randomness};

use crate::database_error::DatabaseError;

/// The error of an operation on an account or a link.
#[derive(Debug, thiserror::Error)]
pub enum AccountError {
    /// The name is empty, too long or taken.
    #[error("an account needs a name of 1 to 64 characters without line breaks, that nobody else has")]
    BadName,
    /// The password is too short or too long.
    #[error("a password needs at least {shortest} characters and at most {longest}; a short sentence is easy to keep",
        shortest = passwords::SHORTEST, longest = passwords::LONGEST)]
    BadPassword,
    /// There is no account of that name.
    #[error("there is no account called \"{0}\"")]
    NoSuchAccount(String),
    /// The password could not be hashed.
    #[error("the password could not be hashed: {0}")]
    Hashing(String),
    /// A second factor is set up already.
    #[error("a second factor is set up already; turn it off first")]
    FactorExists,
    /// The second factor could not be set up or used.
    #[error("{0}")]
    Factor(String),
    /// The database failed.
    #[error(transparent)]
    OfficeDatabase(#[from] DatabaseError),
}

impl From<rusqlite::Error> for AccountError {
    fn from(error: rusqlite::Error) -> Self {
        AccountError::OfficeDatabase(error.into())
    }
}

/// Returns a secret of 256 random bits as text, for a cookie or a link.
pub fn new_secret(randomness: &mut dyn Randomness) -> String {
    let mut secret = [0u8; 32];
    randomness.fill(&mut secret);
    URL_SAFE_NO_PAD.encode(secret)
}

/// Returns the hash of a secret for storing. `purpose` keeps the hashes of different kinds of secrets apart.
fn hash_of(purpose: &str, secret: &str) -> Digest {
    Digest::of(format!("farsiding {purpose} {secret}").as_bytes())
}
