//! Sessions: a random token in a cookie, whose hash is stored in a row. A session ends when it is idle too
//! long, and after a maximum time in any case.

use farsiding_core::clock::UtcMillis;
use farsiding_core::ids::{Digest, Randomness, VisitId};
use farsiding_words::Language;
use rusqlite::{Connection, OptionalExtension as _, params};

use super::links::visits_of;
use super::roles::AccountRole;
use super::{AccountError, hash_of, new_secret};

const MINUTE: i64 = 60_000;
/// How long a session may be idle before it ends, in milliseconds.
pub const IDLE_MILLIS: i64 = 120 * MINUTE;
/// The longest duration of a session, in milliseconds.
pub const LONGEST_MILLIS: i64 = 12 * 60 * MINUTE;
/// How often the row of a session in use is written, in milliseconds.
const NOTED_EVERY: i64 = MINUTE;

/// The holder of a session.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Principal {
    /// A person with an account.
    Account {
        /// The number of the account's row.
        number: i64,
        /// The account's name.
        name: String,
        /// The account's role; `None` if the role comes from a later version of the program.
        role: Option<AccountRole>,
        /// The language in which the person reads the pages; `None` means the organisation's.
        language: Option<Language>,
        /// Whether the person must set up a second factor before anything else.
        factor_missing: bool,
    },
    /// A person with a link to one visit.
    Link {
        /// The number of the link's row.
        number: i64,
        /// For whom the link was made.
        label: String,
        /// The visits that the link opens, which were one stay when the link was made.
        visits: Vec<VisitId>,
    },
}

/// For whom a new session is begun.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum For {
    /// The account with this number.
    Account(i64),
    /// The link with this number.
    Link(i64),
}

fn kept(token: &str) -> Digest {
    hash_of("session", token)
}

/// Returns the token that every form of a session carries. It is derived from the session's own token, so a
/// page of another site, which sees neither, cannot know it.
pub fn form_token(token: &str) -> String {
    hash_of("form", token).to_string()
}

/// Begins a session with a new token and returns the token. If the browser sent the token of an earlier
/// session, that session ends, so that a token somebody planted in the browser is worthless.
///
/// # Errors
/// Returns an [`AccountError`] when the database fails.
pub fn begin(
    connection: &Connection,
    whose: For,
    before: Option<&str>,
    now: UtcMillis,
    randomness: &mut dyn Randomness,
) -> Result<String, AccountError> {
    connection.execute(
        "DELETE FROM session WHERE seen_at <= ?1 OR made_at <= ?2",
        params![now.0 - IDLE_MILLIS, now.0 - LONGEST_MILLIS],
    )?;
    if let Some(before) = before {
        end(connection, before)?;
    }
    let token = new_secret(randomness);
    let (account, link) = match whose {
        For::Account(number) => (Some(number), None),
        For::Link(number) => (None, Some(number)),
    };
    connection.execute(
        "INSERT INTO session(token_hash, account, link, made_at, seen_at) VALUES(?1, ?2, ?3, ?4, ?4)",
        params![kept(&token).0, account, link, now.0],
    )?;
    Ok(token)
}

/// Ends a session.
///
/// # Errors
/// Returns an [`AccountError`] when the database fails.
pub fn end(connection: &Connection, token: &str) -> Result<(), AccountError> {
    connection.execute("DELETE FROM session WHERE token_hash = ?1", [kept(token).0])?;
    Ok(())
}

/// Ends all sessions of an account except for the one with the token `but`.
///
/// # Errors
/// Returns an [`AccountError`] when the database fails.
pub fn end_others(connection: &Connection, account: i64, but: Option<&str>) -> Result<usize, AccountError> {
    let but = but.map(|token| kept(token).0);
    let sql = "DELETE FROM session WHERE account = ?1 AND (?2 IS NULL OR token_hash <> ?2)";
    Ok(connection.execute(sql, params![account, but])?)
}

/// Returns the number of open sessions of an account.
///
/// # Errors
/// Returns an [`AccountError`] when the database fails.
pub fn open_of(connection: &Connection, account: i64, now: UtcMillis) -> Result<usize, AccountError> {
    let sql = "SELECT count(*) FROM session WHERE account = ?1 AND seen_at > ?2 AND made_at > ?3";
    let open = params![account, now.0 - IDLE_MILLIS, now.0 - LONGEST_MILLIS];
    let count: i64 = connection.query_row(sql, open, |row| row.get(0))?;
    Ok(usize::try_from(count).unwrap_or_default())
}

/// Returns the hash under which the attempts of a signed-in person are counted.
pub fn counted_as(token: &str) -> Digest {
    hash_of("tries", token)
}

/// Returns the holder of the session with this token, if the session is open and its account or link is still
/// valid. `used` says that a person made the request and not an automatic refresh.
///
/// # Errors
/// Returns an [`AccountError`] when the database fails.
pub fn holder(
    connection: &Connection,
    token: &str,
    now: UtcMillis,
    used: bool,
) -> Result<Option<Principal>, AccountError> {
    let found = connection
        .prepare_cached(
            "SELECT session.seen_at, session.made_at, account.number, account.name, account.role,
                    link.number, link.label, link.visit,
                    EXISTS (SELECT 1 FROM setting WHERE key = 'second_factor' AND value = 'required')
                    AND NOT EXISTS (SELECT 1 FROM second_factor
                                    WHERE second_factor.account = account.number AND confirmed_at IS NOT NULL),
                    link.visits, account.language
             FROM session LEFT JOIN account ON account.number = session.account
                          LEFT JOIN link ON link.number = session.link
             WHERE token_hash = ?1
               AND (account.number IS NULL OR account.disabled_at IS NULL)
               AND (link.number IS NULL OR (link.revoked_at IS NULL AND link.expires_at > ?2))",
        )?
        .query_row(params![kept(token).0, now.0], |row| {
            let (seen, made): (i64, i64) = (row.get(0)?, row.get(1)?);
            let holder = match row.get::<_, Option<i64>>(2)? {
                Some(number) => Principal::Account {
                    number,
                    name: row.get(3)?,
                    role: AccountRole::read(&row.get::<_, String>(4)?),
                    language: row.get::<_, Option<String>>(10)?.and_then(|tag| tag.parse().ok()),
                    factor_missing: row.get(8)?,
                },
                None => {
                    let opened: Option<Vec<u8>> = row.get(9)?;
                    let visits = visits_of(VisitId(row.get(7)?), opened.as_deref());
                    Principal::Link { number: row.get(5)?, label: row.get(6)?, visits }
                }
            };
            Ok((seen, made, holder))
        })
        .optional()?;
    let Some((seen, made, holder)) = found else { return Ok(None) };
    if now.since(UtcMillis(seen)) >= IDLE_MILLIS || now.since(UtcMillis(made)) >= LONGEST_MILLIS {
        end(connection, token)?;
        return Ok(None);
    }
    if used && now.since(UtcMillis(seen)) >= NOTED_EVERY {
        connection
            .prepare_cached("UPDATE session SET seen_at = ?2 WHERE token_hash = ?1")?
            .execute(params![kept(token).0, now.0])?;
    }
    Ok(Some(holder))
}
