//! Accounts of the people who sign in: made, listed, given roles and disabled on the command line.

use farsiding_core::clock::UtcMillis;
use farsiding_core::ids::Randomness;
use rusqlite::{Connection, OptionalExtension as _, Row, params};

use super::roles::AccountRole;
use super::{AccountError, browsers, passwords, second_factor, sessions};
use crate::names::clean_name;

/// A person who may sign in.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Account {
    /// Its row.
    pub number: i64,
    /// What it is called; entries made by it carry this name.
    pub name: String,
    /// What it may do; nothing when its role is of a later version.
    pub role: Option<AccountRole>,
    /// When it was made.
    pub made_at: UtcMillis,
    /// When it was disabled.
    pub disabled_at: Option<UtcMillis>,
}

fn account_at(row: &Row<'_>) -> rusqlite::Result<Account> {
    let role = AccountRole::read(&row.get::<_, String>("role")?);
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

/// Gives an account a new password, ends its sessions and forgets the browsers it signed in from.
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
    put_password(connection, found.number, &hashed, None)?;
    Ok(found)
}

/// Keeps a password's hash and ends every session but `but`'s, by its token.
///
/// # Errors
/// Returns a [`DatabaseError`] when the database fails.
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

/// Gives an account another role, at once.
///
/// # Errors
/// [`AccountError::NoSuchAccount`], or the database's.
pub fn change_role(connection: &Connection, name: &str, role: AccountRole) -> Result<Account, AccountError> {
    let unknown = || AccountError::NoSuchAccount(name.trim().to_owned());
    let number = by_name(connection, name)?.ok_or_else(unknown)?.0.number;
    connection.execute("UPDATE account SET role = ?2 WHERE number = ?1", params![number, role.as_str()])?;
    Ok(by_name(connection, name)?.ok_or_else(unknown)?.0)
}

/// Takes the second factor from an account whose telephone is lost, and ends its sessions.
///
/// # Errors
/// [`AccountError::NoSuchAccount`], or the database's.
pub fn reset_second_factor(connection: &mut Connection, name: &str) -> Result<Account, AccountError> {
    let unknown = || AccountError::NoSuchAccount(name.trim().to_owned());
    let found = by_name(connection, name)?.ok_or_else(unknown)?.0;
    second_factor::remove(connection, found.number)?;
    sessions::end_others(connection, found.number, None)?;
    Ok(found)
}

/// Returns an account by its row.
///
/// # Errors
/// Returns a [`DatabaseError`] when the database fails.
pub fn by_number(connection: &Connection, number: i64) -> Result<Option<(Account, String)>, AccountError> {
    let found = connection.query_row("SELECT * FROM account WHERE number = ?1", [number], |row| {
        Ok((account_at(row)?, row.get("password")?))
    });
    Ok(found.optional()?)
}

/// Disables an account and ends its sessions, at once.
///
/// # Errors
/// [`AccountError::NoSuchAccount`], or the database's.
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

/// Returns all accounts, by name.
///
/// # Errors
/// Returns a [`DatabaseError`] when the database fails.
pub fn list(connection: &Connection) -> Result<Vec<Account>, AccountError> {
    let mut statement = connection.prepare("SELECT * FROM account ORDER BY name")?;
    let rows = statement.query_map([], account_at)?;
    Ok(rows.collect::<Result<_, _>>()?)
}

/// Returns an account and its password's hash, by name; case does not matter.
///
/// # Errors
/// Returns a [`DatabaseError`] when the database fails.
pub fn by_name(connection: &Connection, name: &str) -> Result<Option<(Account, String)>, AccountError> {
    let found = connection.query_row("SELECT * FROM account WHERE name = ?1", [name.trim()], |row| {
        Ok((account_at(row)?, row.get("password")?))
    });
    Ok(found.optional()?)
}
