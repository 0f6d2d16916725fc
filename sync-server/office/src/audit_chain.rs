//! The audit as a hash chain: each row holds the SHA-256 digest of the row before it and of its own content,
//! so that a row that is changed, removed or inserted is noticed.
//!
//! A chain alone cannot show that its end was cut off. To detect that, keep the head (the number and hash of
//! the newest row), which the audit page and `farsiding audit check` show.

use farsiding_core::clock::UtcMillis;
use farsiding_core::ids::Digest;
use rusqlite::{Connection, OptionalExtension as _, Row, Transaction, TransactionBehavior, params};
use sha2::{Digest as _, Sha256};

use crate::database_error::DatabaseError;

/// The prefix of the digested bytes, which keeps these digests apart from all other digests.
const PURPOSE: &[u8] = b"farsiding audit row 1\n";
/// The setting with the newest removed row, whose hash the first remaining row is chained to.
const BEGINS: &str = "audit/begins";
/// The hash that the very first row is chained to.
const BEGINNING: Digest = Digest([0; 32]);

/// The content of one audit row.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Looked {
    /// The time of the action.
    pub at: UtcMillis,
    /// The account that acted; for a failed sign-in, the name that was tried.
    pub who: String,
    /// The account's role, or `inspector`, or empty for nobody.
    pub role: String,
    /// The action, in a word or two.
    pub did: String,
    /// The object of the action: `visit:…`, `device:…`, or the text that was searched for.
    pub subject: String,
}

/// The newest row of the chain. Whoever keeps a head can check later that the rows up to it are unchanged.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Head {
    /// The row's number, or 0 for an empty chain.
    pub number: i64,
    /// The row's hash.
    pub hash: Digest,
}

impl std::fmt::Display for Head {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{}:{}", self.number, self.hash)
    }
}

impl Head {
    /// Parses a head in the form `NUMBER:HASH`.
    pub fn read(text: &str) -> Option<Head> {
        let (number, hash) = text.trim().split_once(':')?;
        let number = number.parse().ok().filter(|number| *number >= 0)?;
        Some(Head { number, hash: Digest::read(hash).ok()? })
    }
}

/// The place at which the chain is broken.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Broken {
    /// The number of the first row that does not fit.
    pub number: i64,
    /// What is wrong with the row.
    pub why: String,
}

/// The result of checking the chain.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Chain {
    /// The number of rows read.
    pub rows: u64,
    /// The newest row.
    pub head: Head,
    /// The first row that does not fit, or `None` if all rows fit.
    pub broken: Option<Broken>,
}

fn hash_of(before: Digest, number: i64, row: &Looked) -> Digest {
    let mut sha = Sha256::new();
    sha.update(PURPOSE);
    sha.update(before.0);
    sha.update(number.to_be_bytes());
    sha.update(row.at.0.to_be_bytes());
    for text in [&row.who, &row.role, &row.did, &row.subject] {
        sha.update((text.len() as u64).to_be_bytes());
        sha.update(text.as_bytes());
    }
    Digest(sha.finalize().into())
}

/// Returns the newest row of the chain.
///
/// # Errors
/// Returns a [`DatabaseError`] when the database fails.
pub fn head(connection: &Connection) -> Result<Head, DatabaseError> {
    let found = connection
        .prepare_cached("SELECT number, hash FROM audit ORDER BY number DESC LIMIT 1")?
        .query_row([], |row| Ok((row.get(0)?, row.get::<_, Option<[u8; 32]>>(1)?)))
        .optional()?;
    Ok(match found {
        Some((number, hash)) => Head { number, hash: hash.map_or(BEGINNING, Digest) },
        None => Head { number: 0, hash: BEGINNING },
    })
}

/// Adds a row to the end of the chain. Reading the end and adding the row happen in one transaction, because
/// two processes may write.
///
/// # Errors
/// Returns a [`DatabaseError`] when the database fails.
pub(super) fn append(connection: &Connection, row: &Looked) -> Result<(), DatabaseError> {
    let own = match connection.is_autocommit() {
        true => Some(Transaction::new_unchecked(connection, TransactionBehavior::Immediate)?),
        false => None, // the caller has begun a transaction
    };
    let before = head(connection)?;
    let number = before.number + 1;
    connection
        .prepare_cached(
            "INSERT INTO audit(number, at, who, role, did, subject, hash) VALUES(?1, ?2, ?3, ?4, ?5, ?6, ?7)",
        )?
        .execute(params![
            number,
            row.at.0,
            row.who,
            row.role,
            row.did,
            row.subject,
            hash_of(before.hash, number, row).0
        ])?;
    if let Some(own) = own {
        own.commit()?;
    }
    Ok(())
}

fn row_at(row: &Row<'_>) -> rusqlite::Result<(i64, Looked, Option<Vec<u8>>)> {
    let looked = Looked {
        at: UtcMillis(row.get(1)?),
        who: row.get(2)?,
        role: row.get(3)?,
        did: row.get(4)?,
        subject: row.get(5)?,
    };
    Ok((row.get(0)?, looked, row.get(6)?))
}

const ALL: &str = "SELECT number, at, who, role, did, subject, hash FROM audit ORDER BY number";

/// Chains the rows that were written before the audit became a chain. They form the beginning of the chain.
///
/// # Errors
/// Returns a [`DatabaseError`] when the database fails.
pub fn chain_rows_of_before(connection: &Connection) -> Result<(), DatabaseError> {
    let mut statement = connection.prepare(ALL)?;
    let mut write = connection.prepare("UPDATE audit SET hash = ?2 WHERE number = ?1")?;
    let (mut rows, mut before) = (statement.query([])?, BEGINNING);
    while let Some(row) = rows.next()? {
        let (number, looked, _) = row_at(row)?;
        before = hash_of(before, number, &looked);
        write.execute(params![number, before.0])?;
    }
    Ok(())
}

/// Returns the row after which the chain begins: the last row that retention removed, or the row 0.
///
/// # Errors
/// Returns a [`DatabaseError`] when the database fails.
pub fn beginning(connection: &Connection) -> Result<Head, DatabaseError> {
    let kept: Option<String> = connection
        .query_row("SELECT value FROM setting WHERE key = ?1", [BEGINS], |row| row.get(0))
        .optional()?;
    Ok(kept.as_deref().and_then(Head::read).unwrap_or(Head { number: 0, hash: BEGINNING }))
}

/// Returns the number of the last row in the run of oldest rows that are all older than `before`. Only such a
/// run may be removed.
fn last_before(connection: &Connection, before: UtcMillis) -> Result<i64, DatabaseError> {
    let first_kept: Option<i64> =
        connection.query_row("SELECT min(number) FROM audit WHERE at >= ?1", [before.0], |row| row.get(0))?;
    let newest = head(connection)?.number;
    // The newest row is never removed, because it is the head.
    Ok(first_kept.unwrap_or(newest).saturating_sub(1))
}

/// Returns how many rows at the beginning of the chain are older than `before`.
///
/// # Errors
/// Returns a [`DatabaseError`] when the database fails.
pub fn rows_before(connection: &Connection, before: UtcMillis) -> Result<u64, DatabaseError> {
    let last = last_before(connection, before)?;
    let count: i64 =
        connection.query_row("SELECT count(*) FROM audit WHERE number <= ?1", [last], |row| row.get(0))?;
    Ok(count.cast_unsigned())
}

/// Deletes the rows at the beginning of the chain that are older than `before`. The hash of the last deleted
/// row is kept, so that the remaining rows can still be checked.
///
/// # Errors
/// Returns a [`DatabaseError`] when the database fails.
pub fn forget_before(connection: &mut Connection, before: UtcMillis) -> Result<(), DatabaseError> {
    let transaction = connection.transaction_with_behavior(TransactionBehavior::Immediate)?;
    let last = last_before(&transaction, before)?;
    let hash: Option<[u8; 32]> = transaction
        .query_row("SELECT hash FROM audit WHERE number = ?1", [last], |row| row.get(0))
        .optional()?;
    let Some(hash) = hash else { return Ok(()) };
    let begins = Head { number: last, hash: Digest(hash) };
    let stays: String = transaction.query_row(
        "SELECT sql FROM sqlite_master WHERE type = 'trigger' AND name = 'audit_is_kept'",
        [],
        |row| row.get(0),
    )?;
    transaction.execute_batch("DROP TRIGGER audit_is_kept")?;
    transaction.execute("DELETE FROM audit WHERE number <= ?1", [last])?;
    transaction.execute_batch(&stays)?;
    transaction.execute(
        "INSERT OR REPLACE INTO setting(key, value) VALUES(?1, ?2)",
        params![BEGINS, begins.to_string()],
    )?;
    Ok(transaction.commit()?)
}

/// Checks the whole chain. `known` is a head that somebody kept: its row must be unchanged.
///
/// # Errors
/// Returns a [`DatabaseError`] when the rows cannot be read at all.
pub fn check(connection: &Connection, known: Option<Head>) -> Result<Chain, DatabaseError> {
    let mut statement = connection.prepare(ALL)?;
    let mut rows = statement.query([])?;
    let mut chain = Chain { rows: 0, head: beginning(connection)?, broken: None };
    let mut met = known.is_none_or(|known| known == chain.head);
    while let Some(row) = rows.next()? {
        let (number, looked, kept) = row_at(row)?;
        let hash = hash_of(chain.head.hash, number, &looked);
        let fits = kept.as_deref() == Some(hash.0.as_slice());
        let why = match (fits, known) {
            (false, _) => Some(
                "it does not fit the row before it: one of the two was changed, or a row between them is missing",
            ),
            (true, Some(known)) if known.number == number && known.hash != hash => {
                Some("it is not the row that was kept as the head: the audit up to here was written anew")
            }
            _ => None,
        };
        if let Some(why) = why {
            chain.broken = Some(Broken { number, why: why.to_owned() });
            return Ok(chain);
        }
        met |= known.is_some_and(|known| known.number == number);
        chain.rows += 1;
        chain.head = Head { number, hash };
    }
    if let Some(known) = known.filter(|_| !met) {
        let why = format!("it is missing: the audit ends at row {} and was longer", chain.head.number);
        chain.broken = Some(Broken { number: known.number, why });
    }
    Ok(chain)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]
    use super::*;
    use crate::accounts::audit::note;
    use crate::office_database::OfficeDatabase;

    fn row(at: i64, did: &str) -> Looked {
        let word = |text: &str| text.to_owned();
        Looked {
            at: UtcMillis(at),
            who: word("Clerk"),
            role: word("reader"),
            did: word(did),
            subject: word("x"),
        }
    }

    fn register_with(rows: i64) -> (tempfile::TempDir, OfficeDatabase) {
        let folder = tempfile::tempdir().unwrap();
        let database = OfficeDatabase::open(&folder.path().join("server.db")).unwrap();
        for at in 1..=rows {
            note(database.connection(), &row(at, "looked")).unwrap();
        }
        (folder, database)
    }

    /// Changes the file as an attacker would who has the file and knows of the triggers.
    fn meddle(database: &OfficeDatabase, sql: &str) {
        let free = "DROP TRIGGER IF EXISTS audit_stays; DROP TRIGGER IF EXISTS audit_is_kept;";
        database.connection().execute_batch(&format!("{free}{sql}")).unwrap();
    }

    fn broken_at(database: &OfficeDatabase, known: Option<Head>) -> Option<i64> {
        check(database.connection(), known).unwrap().broken.map(|broken| broken.number)
    }

    #[test]
    fn whatever_is_done_to_a_row_the_first_that_does_not_fit_is_named() {
        for (meddling, first) in [
            ("UPDATE audit SET who = 'Nobody' WHERE number = 4", 4),
            ("UPDATE audit SET at = 5 WHERE number = 4", 4),
            ("UPDATE audit SET did = 'looke', subject = 'dx' WHERE number = 4", 4),
            ("UPDATE audit SET hash = zeroblob(32) WHERE number = 4", 4),
            ("UPDATE audit SET hash = NULL WHERE number = 4", 4),
            ("DELETE FROM audit WHERE number = 4", 5),
            ("DELETE FROM audit WHERE number = 1", 2),
            ("UPDATE audit SET number = 99 WHERE number = 4", 5),
        ] {
            let (_folder, database) = register_with(7);
            assert_eq!(broken_at(&database, None), None);
            meddle(&database, meddling);
            assert_eq!(broken_at(&database, None), Some(first), "{meddling}");
        }
    }

    #[test]
    fn an_end_that_was_cut_off_shows_to_whoever_kept_the_head() {
        let (_folder, database) = register_with(7);
        let kept = head(database.connection()).unwrap();
        assert_eq!(Head::read(&kept.to_string()), Some(kept));
        note(database.connection(), &row(8, "looked")).unwrap();
        assert_eq!(broken_at(&database, Some(kept)), None, "a head stays good while rows are added");
        meddle(&database, "DELETE FROM audit WHERE number > 5");
        assert_eq!(broken_at(&database, None), None);
        assert_eq!(broken_at(&database, Some(kept)), Some(7));
        for at in 6..9 {
            note(database.connection(), &row(at, "looked elsewhere")).unwrap();
        }
        assert_eq!(broken_at(&database, Some(kept)), Some(7), "written anew");
    }

    #[test]
    fn a_row_cannot_be_changed_or_removed_by_the_program_itself() {
        let (_folder, database) = register_with(2);
        for sql in ["UPDATE audit SET who = 'x'", "DELETE FROM audit"] {
            let refused = database.connection().execute(sql, []).unwrap_err().to_string();
            assert!(refused.contains("never"), "{refused}");
        }
    }

    #[test]
    fn rows_of_before_are_the_chains_beginning() {
        let folder = tempfile::tempdir().unwrap();
        let old = Connection::open(folder.path().join("server.db")).unwrap();
        for schema in [
            include_str!("migrations/0001.sql"),
            include_str!("migrations/0002.sql"),
            include_str!("migrations/0003.sql"),
            include_str!("migrations/0004.sql"),
        ] {
            old.execute_batch(schema).unwrap();
        }
        old.execute_batch(
            "INSERT INTO audit(at, who, role, did, subject) VALUES(1, 'Clerk', 'office', 'looked', 'today');
             INSERT INTO audit(at, who, role, did, subject) VALUES(2, 'Clerk', 'office', 'looked', 'today');
             INSERT INTO account(name, password, role, made_at) VALUES('Clerk', 'x', 'office', 1);
             PRAGMA user_version = 4;",
        )
        .unwrap();
        drop(old);
        let database = OfficeDatabase::open(&folder.path().join("server.db")).unwrap();
        note(database.connection(), &row(3, "looked")).unwrap();
        let chain = check(database.connection(), None).unwrap();
        assert_eq!((chain.rows, chain.head.number, chain.broken), (3, 3, None));
        let role: String =
            database.connection().query_row("SELECT role FROM account", [], |row| row.get(0)).unwrap();
        assert_eq!(role, "administrator", "who had an account may do what they might before");
        meddle(&database, "UPDATE audit SET who = 'Nobody' WHERE number = 1");
        assert_eq!(broken_at(&database, None), Some(1));
    }
}
