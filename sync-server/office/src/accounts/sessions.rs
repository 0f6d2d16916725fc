//! Sessions: a random token in a cookie, its hash in a row, an end when idle and an end in any case.

use farsiding_core::clock::UtcMillis;
use farsiding_core::ids::{Digest, Randomness, VisitId};
use rusqlite::{Connection, OptionalExtension as _, params};

use super::links::visits_of;
use super::roles::AccountRole;
use super::{AccountError, hash_of, new_secret};

const MINUTE: i64 = 60_000;
/// A session that nothing was asked with for this long is over.
pub const IDLE_MILLIS: i64 = 120 * MINUTE;
/// A session is over this long after it began, whatever is done with it.
pub const LONGEST_MILLIS: i64 = 12 * 60 * MINUTE;
/// How often a session's row is written while it is used.
const NOTED_EVERY: i64 = MINUTE;

/// Whose a session is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Holder {
    /// A person with an account.
    Account {
        /// Its row.
        number: i64,
        /// Its name.
        name: String,
        /// What it may do; nothing when its role is of a later version.
        role: Option<AccountRole>,
        /// Whether it must set up a second factor before anything else.
        factor_missing: bool,
    },
    /// Whoever was given a link to one visit.
    Link {
        /// The link's row.
        number: i64,
        /// For whom it was made.
        label: String,
        /// The visits it opens: one stay as it was when the link was made.
        visits: Vec<VisitId>,
    },
}

/// Whose new session to begin.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum For {
    /// An account's.
    Account(i64),
    /// A link's.
    Link(i64),
}

fn kept(token: &str) -> Digest {
    hash_of("session", token)
}

/// Returns the token every form of a session carries. It follows from the session's own token, so a page of
/// another site, which sees neither, cannot know it.
pub fn form_token(token: &str) -> String {
    hash_of("form", token).to_string()
}

/// Begins a session with a token of its own and ends the one whose token was sent along, if any: what
/// somebody planted in a browser before is worth nothing after. Returns the token.
///
/// # Errors
/// Returns a [`DatabaseError`] when the database fails.
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
/// Returns a [`DatabaseError`] when the database fails.
pub fn end(connection: &Connection, token: &str) -> Result<(), AccountError> {
    connection.execute("DELETE FROM session WHERE token_hash = ?1", [kept(token).0])?;
    Ok(())
}

/// Ends the sessions of an account, all but the one with this token.
///
/// # Errors
/// Returns a [`DatabaseError`] when the database fails.
pub fn end_others(connection: &Connection, account: i64, but: Option<&str>) -> Result<usize, AccountError> {
    let but = but.map(|token| kept(token).0);
    let sql = "DELETE FROM session WHERE account = ?1 AND (?2 IS NULL OR token_hash <> ?2)";
    Ok(connection.execute(sql, params![account, but])?)
}

/// Returns how many sessions of an account are open.
///
/// # Errors
/// Returns a [`DatabaseError`] when the database fails.
pub fn open_of(connection: &Connection, account: i64, now: UtcMillis) -> Result<usize, AccountError> {
    let sql = "SELECT count(*) FROM session WHERE account = ?1 AND seen_at > ?2 AND made_at > ?3";
    let open = params![account, now.0 - IDLE_MILLIS, now.0 - LONGEST_MILLIS];
    let count: i64 = connection.query_row(sql, open, |row| row.get(0))?;
    Ok(usize::try_from(count).unwrap_or_default())
}

/// Returns what the tries of a signed-in person are counted under.
pub fn counted_as(token: &str) -> Digest {
    hash_of("tries", token)
}

/// Returns whose session a token is, while it lasts and its account or link is still good. `used` says that a
/// person asked, not a page that refreshes itself.
///
/// # Errors
/// Returns a [`DatabaseError`] when the database fails.
pub fn holder(
    connection: &Connection,
    token: &str,
    now: UtcMillis,
    used: bool,
) -> Result<Option<Holder>, AccountError> {
    let found = connection
        .prepare_cached(
            "SELECT session.seen_at, session.made_at, account.number, account.name, account.role,
                    link.number, link.label, link.visit,
                    EXISTS (SELECT 1 FROM setting WHERE key = 'second_factor' AND value = 'required')
                    AND NOT EXISTS (SELECT 1 FROM second_factor
                                    WHERE second_factor.account = account.number AND confirmed_at IS NOT NULL),
                    link.visits
             FROM session LEFT JOIN account ON account.number = session.account
                          LEFT JOIN link ON link.number = session.link
             WHERE token_hash = ?1
               AND (account.number IS NULL OR account.disabled_at IS NULL)
               AND (link.number IS NULL OR (link.revoked_at IS NULL AND link.expires_at > ?2))",
        )?
        .query_row(params![kept(token).0, now.0], |row| {
            let (seen, made): (i64, i64) = (row.get(0)?, row.get(1)?);
            let holder = match row.get::<_, Option<i64>>(2)? {
                Some(number) => Holder::Account {
                    number,
                    name: row.get(3)?,
                    role: AccountRole::read(&row.get::<_, String>(4)?),
                    factor_missing: row.get(8)?,
                },
                None => {
                    let opened: Option<Vec<u8>> = row.get(9)?;
                    let visits = visits_of(VisitId(row.get(7)?), opened.as_deref());
                    Holder::Link { number: row.get(5)?, label: row.get(6)?, visits }
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
