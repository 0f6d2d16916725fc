//! Accounts of the people who sign in: made, listed and disabled on the command line.

use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::Role;
use farsiding_core::ids::Randomness;
use rusqlite::{Connection, OptionalExtension as _, Row, params};

use super::{AccountError, passwords};
use crate::office::enrolment::clean_name;
use crate::office::register::role_word;

/// A person who may sign in.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Account {
    /// Its row.
    pub number: i64,
    /// What it is called; entries made by it carry this name.
    pub name: String,
    /// What it may do.
    pub role: Role,
    /// When it was made.
    pub made_at: UtcMillis,
    /// When it was disabled.
    pub disabled_at: Option<UtcMillis>,
}

fn account_at(row: &Row<'_>) -> rusqlite::Result<Account> {
    let role = match row.get::<_, String>("role")?.as_str() {
        "office" => Role::Office,
        // A word of a later version must never open more than this one knows.
        _ => Role::Inspector,
    };
    Ok(Account {
        number: row.get("number")?,
        name: row.get("name")?,
        role,
        made_at: UtcMillis(row.get("made_at")?),
        disabled_at: row.get::<_, Option<i64>>("disabled_at")?.map(UtcMillis),
    })
}

/// Makes an account.
///
/// # Errors
/// [`AccountError`] for a bad name or password, or a name that is taken.
pub fn add(
    connection: &Connection,
    name: &str,
    password: &str,
    now: UtcMillis,
    randomness: &mut dyn Randomness,
) -> Result<Account, AccountError> {
    let name = clean_name(name).ok_or(AccountError::BadName)?;
    let hashed = passwords::hash(password, randomness)?;
    let added = connection.execute(
        "INSERT INTO account(name, password, role, made_at) VALUES(?1, ?2, ?3, ?4) ON CONFLICT DO NOTHING",
        params![name, hashed, role_word(Role::Office), now.0],
    )?;
    if added == 0 {
        return Err(AccountError::BadName);
    }
    Ok(by_name(connection, &name)?.ok_or(AccountError::NoSuchAccount(name))?.0)
}

/// Gives an account a new password and ends its sessions.
///
/// # Errors
/// [`AccountError`].
pub fn change_password(
    connection: &mut Connection,
    name: &str,
    password: &str,
    randomness: &mut dyn Randomness,
) -> Result<Account, AccountError> {
    let hashed = passwords::hash(password, randomness)?;
    let found = by_name(connection, name)?.ok_or_else(|| AccountError::NoSuchAccount(name.to_owned()))?.0;
    let transaction = connection.transaction()?;
    transaction
        .execute("UPDATE account SET password = ?2 WHERE number = ?1", params![found.number, hashed])?;
    transaction.execute("DELETE FROM session WHERE account = ?1", [found.number])?;
    transaction.commit()?;
    Ok(found)
}

/// Disables an account and ends its sessions, at once.
///
/// # Errors
/// [`AccountError::NoSuchAccount`], or the register's.
pub fn disable(connection: &mut Connection, name: &str, now: UtcMillis) -> Result<Account, AccountError> {
    let unknown = || AccountError::NoSuchAccount(name.trim().to_owned());
    let number = by_name(connection, name)?.ok_or_else(unknown)?.0.number;
    let transaction = connection.transaction()?;
    transaction.execute(
        "UPDATE account SET disabled_at = coalesce(disabled_at, ?2) WHERE number = ?1",
        params![number, now.0],
    )?;
    transaction.execute("DELETE FROM session WHERE account = ?1", [number])?;
    transaction.commit()?;
    Ok(by_name(connection, name)?.ok_or_else(unknown)?.0)
}

/// All accounts, by name.
///
/// # Errors
/// The register's.
pub fn list(connection: &Connection) -> Result<Vec<Account>, AccountError> {
    let mut statement = connection.prepare("SELECT * FROM account ORDER BY name")?;
    let rows = statement.query_map([], account_at)?;
    Ok(rows.collect::<Result<_, _>>()?)
}

/// An account and its password's hash, by name; case does not matter.
///
/// # Errors
/// The register's.
pub fn by_name(connection: &Connection, name: &str) -> Result<Option<(Account, String)>, AccountError> {
    let found = connection.query_row("SELECT * FROM account WHERE name = ?1", [name.trim()], |row| {
        Ok((account_at(row)?, row.get("password")?))
    });
    Ok(found.optional()?)
}
