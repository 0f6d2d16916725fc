//! Who may look at the office's pages: accounts, their roles, passwords and second factors, sessions, links that
//! let an inspector read one visit, limits on guessing, and the audit of who looked at what.
//!
//! Own tables of the database (`server.db`). Does not live here: HTTP (`pages::user`), what a page
//! shows (`pages`).

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

/// Why an account or a link was not made or used.
#[derive(Debug, thiserror::Error)]
pub enum AccountError {
    /// A name that says nothing, too much, or is taken.
    #[error("an account needs a name of 1 to 64 characters without line breaks, that nobody else has")]
    BadName,
    /// Too short to be worth anything.
    #[error("a password needs at least {shortest} characters and at most {longest}; a short sentence is easy to keep",
        shortest = passwords::SHORTEST, longest = passwords::LONGEST)]
    BadPassword,
    /// Nobody by that name.
    #[error("there is no account called \"{0}\"")]
    NoSuchAccount(String),
    /// The password could not be hashed.
    #[error("the password could not be hashed: {0}")]
    Hashing(String),
    /// The second factor cannot be set up.
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

/// A secret of 256 random bits as text, for a cookie or a link.
pub fn new_secret(randomness: &mut dyn Randomness) -> String {
    let mut secret = [0u8; 32];
    randomness.fill(&mut secret);
    URL_SAFE_NO_PAD.encode(secret)
}

/// What is kept of a secret. `purpose` keeps one kind from being taken for another.
fn hash_of(purpose: &str, secret: &str) -> Digest {
    Digest::of(format!("farsiding {purpose} {secret}").as_bytes())
}
