//! Known browsers: browsers from which an account has signed in before. Each holds a random token in a cookie
//! of its own, whose hash is stored here.
//!
//! The token gives no access. It only makes attempts from this browser count apart from those of strangers,
//! so that nobody's guessing slows down a person at their own desk. A row can be deleted, whereas a signature
//! could not be withdrawn.

use farsiding_core::clock::UtcMillis;
use farsiding_core::ids::{Digest, Randomness};
use rusqlite::{Connection, OptionalExtension as _, params};

use super::{AccountError, hash_of, new_secret};

/// How long a browser is remembered after the last sign-in from it, in milliseconds.
pub const KEPT_MILLIS: i64 = 180 * 24 * 60 * 60_000;
/// The number of browsers remembered for one account. The longest unused one is dropped first.
const MOST: i64 = 20;

/// Returns the hash under which a browser's token is stored and counted.
pub fn counted_as(token: &str) -> Digest {
    hash_of("browser", token)
}

/// Returns whether the account of this name has signed in from the browser with this token.
///
/// # Errors
/// Returns an [`AccountError`] when the database fails.
pub fn knows(connection: &Connection, token: &str, name: &str, now: UtcMillis) -> Result<bool, AccountError> {
    let found = connection
        .prepare_cached(
            "SELECT 1 FROM known_browser JOIN account ON account.number = known_browser.account
             WHERE token_hash = ?1 AND account.name = ?2 AND seen_at > ?3",
        )?
        .query_row(params![counted_as(token).0, name.trim(), now.0 - KEPT_MILLIS], |_| Ok(()))
        .optional()?;
    Ok(found.is_some())
}

/// Remembers that an account signed in from a browser and returns a new token for the browser. Accounts that
/// were known under the old token are transferred to the new one.
///
/// # Errors
/// Returns an [`AccountError`] when the database fails.
pub fn remember(
    connection: &Connection,
    account: i64,
    before: Option<&str>,
    now: UtcMillis,
    randomness: &mut dyn Randomness,
) -> Result<String, AccountError> {
    let token = new_secret(randomness);
    let fresh = counted_as(&token).0;
    connection.execute("DELETE FROM known_browser WHERE seen_at <= ?1", [now.0 - KEPT_MILLIS])?;
    if let Some(before) = before {
        let move_over = "UPDATE known_browser SET token_hash = ?2 WHERE token_hash = ?1";
        connection.execute(move_over, params![counted_as(before).0, fresh])?;
    }
    connection.execute(
        "INSERT INTO known_browser(token_hash, account, seen_at) VALUES(?1, ?2, ?3)
         ON CONFLICT(token_hash, account) DO UPDATE SET seen_at = excluded.seen_at",
        params![fresh, account, now.0],
    )?;
    connection.execute(
        "DELETE FROM known_browser WHERE account = ?1 AND token_hash NOT IN
           (SELECT token_hash FROM known_browser WHERE account = ?1 ORDER BY seen_at DESC LIMIT ?2)",
        params![account, MOST],
    )?;
    Ok(token)
}

/// Deletes all known browsers of an account.
///
/// # Errors
/// Returns an [`AccountError`] when the database fails.
pub fn forget(connection: &Connection, account: i64) -> Result<(), AccountError> {
    connection.execute("DELETE FROM known_browser WHERE account = ?1", [account])?;
    Ok(())
}
