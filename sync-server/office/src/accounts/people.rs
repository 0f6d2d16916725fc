//! The accounts of people who sign in. Accounts are created, listed, changed and disabled on the command
//! line.

use farsiding_core::clock::UtcMillis;
use farsiding_core::ids::Randomness;
use farsiding_words::Language;
use rusqlite::{Connection, OptionalExtension as _, Row, params};

use super::roles::AccountRole;
use super::{AccountError, browsers, passwords, second_factor, sessions};
use crate::names::clean_name;

/// A person's account.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Account {
    /// The number of the account's row.
    pub number: i64,
    /// The account's name. Entries made by the account carry this name.
    pub name: String,
    /// The account's role; `None` if the role comes from a later version of the program.
    pub role: Option<AccountRole>,
    /// The language in which the holder reads the pages; `None` means the organisation's.
    pub language: Option<Language>,
    /// The time at which the account was created.
    pub made_at: UtcMillis,
    /// The time at which the account was disabled.
    pub disabled_at: Option<UtcMillis>,
}

fn account_at(row: &Row<'_>) -> rusqlite::Result<Account> {
    let role = AccountRole::read(&row.get::<_, String>("role")?);
    Ok(Account {
        number: row.get("number")?,
        name: row.get("name")?,
        role,
        language: row.get::<_, Option<String>>("language")?.and_then(|tag| tag.parse().ok()),
        made_at: UtcMillis(row.get("made_at")?),
        disabled_at: row.get::<_, Option<i64>>("disabled_at")?.map(UtcMillis),
    })
}

/// Creates an account.
///
/// # Errors
/// Returns an [`AccountError`] for an invalid name or password, or for a name that is taken.
pub fn add(
    connection: &Connection,
    (name, role): (&str, AccountRole),
    password: &str,
    now: UtcMillis,
    randomness: &mut dyn Randomness,
) -> Result<Account, AccountError> {
    let name = clean_name(name).ok_or(AccountError::BadName)?;
    let hashed = passwords::hash(password, randomness)?;
    let added = connection.execute(
        "INSERT INTO account(name, password, role, made_at) VALUES(?1, ?2, ?3, ?4) ON CONFLICT DO NOTHING",
        params![name, hashed, role.as_str(), now.0],
    )?;
    if added == 0 {
        return Err(AccountError::BadName);
    }
    Ok(by_name(connection, &name)?.ok_or(AccountError::NoSuchAccount(name))?.0)
}

/// Sets a new password, ends the account's sessions and forgets its known browsers.
///
/// # Errors
/// Returns an [`AccountError`] for an unknown account or an invalid password.
pub fn change_password(
    connection: &mut Connection,
    name: &str,
    password: &str,
    randomness: &mut dyn Randomness,
) -> Result<Account, AccountError> {
    let hashed = passwords::hash(password, randomness)?;
    let found = by_name(connection, name)?.ok_or_else(|| AccountError::NoSuchAccount(name.to_owned()))?.0;
    put_password(connection, found.number, &hashed, None)?;
    Ok(found)
}

/// Stores a password's hash and ends all sessions of the account except for the one with the token `but`.
///
/// # Errors
/// Returns an [`AccountError`] when the database fails.
pub fn put_password(
    connection: &mut Connection,
    account: i64,
    hashed: &str,
    but: Option<&str>,
) -> Result<(), AccountError> {
    let transaction = connection.transaction()?;
    transaction.execute("UPDATE account SET password = ?2 WHERE number = ?1", params![account, hashed])?;
    sessions::end_others(&transaction, account, but)?;
    browsers::forget(&transaction, account)?;
    transaction.execute("DELETE FROM half_sign_in WHERE account = ?1", [account])?;
    transaction.commit()?;
    Ok(())
}

/// Gives an account another role at once.
///
/// # Errors
/// Returns [`AccountError::NoSuchAccount`], or an error when the database fails.
pub fn change_role(connection: &Connection, name: &str, role: AccountRole) -> Result<Account, AccountError> {
    let unknown = || AccountError::NoSuchAccount(name.trim().to_owned());
    let number = by_name(connection, name)?.ok_or_else(unknown)?.0.number;
    connection.execute("UPDATE account SET role = ?2 WHERE number = ?1", params![number, role.as_str()])?;
    Ok(by_name(connection, name)?.ok_or_else(unknown)?.0)
}

/// Sets the language in which the holder of an account reads the pages; `None` means the organisation's.
///
/// # Errors
/// Returns [`AccountError::NoSuchAccount`], or an error when the database fails.
pub fn change_language(
    connection: &Connection,
    name: &str,
    language: Option<Language>,
) -> Result<Account, AccountError> {
    let unknown = || AccountError::NoSuchAccount(name.trim().to_owned());
    let number = by_name(connection, name)?.ok_or_else(unknown)?.0.number;
    let tag = language.map(Language::as_str);
    connection.execute("UPDATE account SET language = ?2 WHERE number = ?1", params![number, tag])?;
    Ok(by_name(connection, name)?.ok_or_else(unknown)?.0)
}

/// Removes the second factor of an account, for example when the telephone is lost, and ends the account's
/// sessions.
///
/// # Errors
/// Returns [`AccountError::NoSuchAccount`], or an error when the database fails.
pub fn reset_second_factor(connection: &mut Connection, name: &str) -> Result<Account, AccountError> {
    let unknown = || AccountError::NoSuchAccount(name.trim().to_owned());
    let found = by_name(connection, name)?.ok_or_else(unknown)?.0;
    second_factor::remove(connection, found.number)?;
    sessions::end_others(connection, found.number, None)?;
    Ok(found)
}

/// Returns the account with this number and the hash of its password.
///
/// # Errors
/// Returns an [`AccountError`] when the database fails.
pub fn by_number(connection: &Connection, number: i64) -> Result<Option<(Account, String)>, AccountError> {
    let found = connection.query_row("SELECT * FROM account WHERE number = ?1", [number], |row| {
        Ok((account_at(row)?, row.get("password")?))
    });
    Ok(found.optional()?)
}

/// Disables an account and ends its sessions at once.
///
/// # Errors
/// Returns [`AccountError::NoSuchAccount`], or an error when the database fails.
pub fn disable(connection: &mut Connection, name: &str, now: UtcMillis) -> Result<Account, AccountError> {
    let unknown = || AccountError::NoSuchAccount(name.trim().to_owned());
    let number = by_name(connection, name)?.ok_or_else(unknown)?.0.number;
    let transaction = connection.transaction()?;
    transaction.execute(
        "UPDATE account SET disabled_at = coalesce(disabled_at, ?2) WHERE number = ?1",
        params![number, now.0],
    )?;
    sessions::end_others(&transaction, number, None)?;
    browsers::forget(&transaction, number)?;
    transaction.commit()?;
    Ok(by_name(connection, name)?.ok_or_else(unknown)?.0)
}

/// Returns all accounts, sorted by name.
///
/// # Errors
/// Returns an [`AccountError`] when the database fails.
pub fn list(connection: &Connection) -> Result<Vec<Account>, AccountError> {
    let mut statement = connection.prepare("SELECT * FROM account ORDER BY name")?;
    let rows = statement.query_map([], account_at)?;
    Ok(rows.collect::<Result<_, _>>()?)
}

/// Returns the account with this name and the hash of its password. Upper and lower case are equal.
///
/// # Errors
/// Returns an [`AccountError`] when the database fails.
pub fn by_name(connection: &Connection, name: &str) -> Result<Option<(Account, String)>, AccountError> {
    let found = connection.query_row("SELECT * FROM account WHERE name = ?1", [name.trim()], |row| {
        Ok((account_at(row)?, row.get("password")?))
    });
    Ok(found.optional()?)
}
