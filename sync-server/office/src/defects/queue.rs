//! The letters in the office database: waiting, sent and failed.
//!
//! A letter is stored before it is sent, and marked as sent only when the mail server has confirmed it. A
//! letter that may be sent later is tried again after 1, 2, 4 … minutes, at most 6 h apart, for
//! [`MOST_TRIES`] attempts. A letter that is refused for good is marked as failed, with the reason. If the
//! program crashes between the confirmation and the mark, the letter is sent again with the same message id.

use farsiding_core::clock::UtcMillis;
use farsiding_core::ids::{DefectId, Digest, VisitId};
use rusqlite::{Connection, OptionalExtension as _, Row, params};

use super::mail::MailError;
use crate::database_error::DatabaseError;

const MINUTE: i64 = 60_000;
/// The number of attempts after which a letter has failed, which takes about two days.
pub const MOST_TRIES: u32 = 16;

/// A stored letter.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Kept {
    /// The number of the letter.
    pub number: i64,
    /// The defect that the letter is about.
    pub defect: Option<DefectId>,
    /// The visit that the letter is about.
    pub visit: Option<VisitId>,
    /// The recipient's address.
    pub to: String,
    /// The subject.
    pub subject: String,
    /// The text.
    pub body: String,
    /// The extract from the record, entry by entry; empty when there is no record.
    pub extract: String,
    /// The attached photographs.
    pub photos: Vec<Digest>,
    /// Who asked for the letter.
    pub asked_by: String,
    /// The time at which the letter was asked for.
    pub asked_at: UtcMillis,
    /// The letter's state: `waiting`, `sent` or `failed`.
    pub state: String,
    /// The number of attempts.
    pub tries: u32,
    /// The time of the next attempt.
    pub next_at: UtcMillis,
    /// The last reply of the mail server, or the last error.
    pub said: String,
    /// The time at which the letter was sent or given up.
    pub done_at: Option<UtcMillis>,
}

/// A letter to be stored.
#[derive(Debug, Clone)]
pub struct Asked<'a> {
    /// The defect that the letter is about.
    pub defect: Option<DefectId>,
    /// The visit that the letter is about.
    pub visit: Option<VisitId>,
    /// The recipient's address.
    pub to: &'a str,
    /// The subject.
    pub subject: &'a str,
    /// The text.
    pub body: &'a str,
    /// The extract from the record, entry by entry.
    pub extract: &'a str,
    /// The photographs to attach.
    pub photos: &'a [Digest],
    /// Who asks for the letter.
    pub by: &'a str,
}

fn kept(row: &Row<'_>) -> rusqlite::Result<Kept> {
    let photos: Vec<String> = serde_json::from_str(&row.get::<_, String>("photos")?).unwrap_or_default();
    Ok(Kept {
        number: row.get("number")?,
        defect: row.get::<_, Option<[u8; 16]>>("defect")?.map(DefectId),
        visit: row.get::<_, Option<[u8; 16]>>("visit")?.map(VisitId),
        to: row.get("recipient")?,
        subject: row.get("subject")?,
        body: row.get("body")?,
        extract: row.get("extract")?,
        photos: photos.iter().filter_map(|digest| Digest::read(digest).ok()).collect(),
        asked_by: row.get("asked_by")?,
        asked_at: UtcMillis(row.get("asked_at")?),
        state: row.get("state")?,
        tries: row.get("tries")?,
        next_at: UtcMillis(row.get("next_at")?),
        said: row.get("said")?,
        done_at: row.get::<_, Option<i64>>("done_at")?.map(UtcMillis),
    })
}

/// Stores a letter, which is due immediately, and returns its number.
///
/// # Errors
/// Returns a [`DatabaseError`] when the database fails.
pub fn ask(database: &Connection, asked: &Asked<'_>, now: UtcMillis) -> Result<i64, DatabaseError> {
    let photos: Vec<String> = asked.photos.iter().map(ToString::to_string).collect();
    let photos =
        serde_json::to_string(&photos).map_err(|error| DatabaseError::Database(error.to_string()))?;
    database.execute(
        "INSERT INTO mail(defect, visit, recipient, subject, body, photos, asked_by, asked_at, state, tries, next_at, said, extract)
         VALUES(?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, 'waiting', 0, ?8, '', ?9)",
        params![
            asked.defect.map(|id| id.0),
            asked.visit.map(|id| id.0),
            asked.to.trim(),
            asked.subject,
            asked.body,
            photos,
            asked.by,
            now.0,
            asked.extract
        ],
    )?;
    Ok(database.last_insert_rowid())
}

/// Returns the letter that has been due longest.
///
/// # Errors
/// Returns a [`DatabaseError`] when the database fails.
pub fn due(database: &Connection, now: UtcMillis) -> Result<Option<Kept>, DatabaseError> {
    let sql = "SELECT * FROM mail WHERE state = 'waiting' AND next_at <= ?1 ORDER BY next_at, number LIMIT 1";
    Ok(database.query_row(sql, [now.0], kept).optional()?)
}

/// Returns the newest letters.
///
/// # Errors
/// Returns a [`DatabaseError`] when the database fails.
pub fn newest(database: &Connection, most: u32) -> Result<Vec<Kept>, DatabaseError> {
    let mut statement = database.prepare("SELECT * FROM mail ORDER BY number DESC LIMIT ?1")?;
    let rows = statement.query_map([most], kept)?;
    Ok(rows.collect::<Result<_, _>>()?)
}

/// Returns the minutes until the next attempt.
pub fn pause(tries: u32) -> i64 {
    (1_i64 << tries.saturating_sub(1).min(9)).min(360)
}

/// Records the outcome of an attempt.
///
/// # Errors
/// Returns a [`DatabaseError`] when the database fails.
pub fn note(
    database: &Connection,
    letter: &Kept,
    outcome: &Result<String, MailError>,
    now: UtcMillis,
) -> Result<(), DatabaseError> {
    let tries = letter.tries + 1;
    let (state, said) = match outcome {
        Ok(said) => ("sent", said.clone()),
        Err(MailError::Refused(why)) => ("failed", why.clone()),
        Err(error) if tries >= MOST_TRIES => ("failed", format!("given up after {tries} tries: {error}")),
        Err(error) => ("waiting", error.to_string()),
    };
    let done = (state != "waiting").then_some(now.0);
    database.execute(
        "UPDATE mail SET state = ?2, tries = ?3, next_at = ?4, said = ?5, done_at = ?6 WHERE number = ?1",
        params![letter.number, state, tries, now.0 + pause(tries) * MINUTE, said, done],
    )?;
    Ok(())
}

/// Has a failed letter tried again from the first attempt.
///
/// # Errors
/// Returns a [`DatabaseError`] when the database fails.
pub fn again(database: &Connection, number: i64, now: UtcMillis) -> Result<bool, DatabaseError> {
    let changed = database.execute(
        "UPDATE mail SET state = 'waiting', tries = 0, next_at = ?2, done_at = NULL
         WHERE number = ?1 AND state <> 'sent'",
        params![number, now.0],
    )?;
    Ok(changed == 1)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]
    use super::*;
    use crate::office_database::OfficeDatabase;

    #[test]
    fn a_letter_is_sent_only_on_the_servers_word_and_waits_longer_each_time() {
        let folder = tempfile::tempdir().unwrap();
        let database = OfficeDatabase::open(&folder.path().join("server.db")).unwrap();
        let database = database.connection();
        let asked = Asked {
            defect: None,
            visit: None,
            to: "shop@invented.invalid",
            subject: "s",
            body: "b",
            extract: "e",
            photos: &[Digest([7; 32])],
            by: "alder",
        };
        ask(database, &asked, UtcMillis(0)).unwrap();
        let mut now = 0;
        for pause in [1, 2, 4, 8] {
            let letter = due(database, UtcMillis(now)).unwrap().unwrap();
            note(database, &letter, &Err(MailError::Later("down".into())), UtcMillis(now)).unwrap();
            assert!(due(database, UtcMillis(now + pause * MINUTE - 1)).unwrap().is_none());
            now += pause * MINUTE;
        }
        let letter = due(database, UtcMillis(now)).unwrap().unwrap();
        assert_eq!((letter.tries, letter.state.as_str(), letter.said.as_str()), (4, "waiting", "down"));
        assert_eq!((letter.photos.as_slice(), letter.extract.as_str()), (&[Digest([7; 32])][..], "e"));
        note(database, &letter, &Ok("250 taken".into()), UtcMillis(now)).unwrap();
        assert!(due(database, UtcMillis(i64::MAX)).unwrap().is_none());
        assert_eq!(newest(database, 1).unwrap()[0].state, "sent");
        assert!(!again(database, letter.number, UtcMillis(now)).unwrap(), "what was sent is not sent again");
    }

    #[test]
    fn a_letter_refused_for_good_or_tried_too_often_has_failed_and_can_be_asked_for_again() {
        let folder = tempfile::tempdir().unwrap();
        let database = OfficeDatabase::open(&folder.path().join("server.db")).unwrap();
        let database = database.connection();
        let asked = Asked {
            defect: None,
            visit: None,
            to: "x",
            subject: "",
            body: "",
            extract: "",
            photos: &[],
            by: "",
        };
        ask(database, &asked, UtcMillis(0)).unwrap();
        for _ in 0..MOST_TRIES {
            let letter = due(database, UtcMillis(i64::MAX / 2)).unwrap().unwrap();
            note(database, &letter, &Err(MailError::NotSetUp), UtcMillis(0)).unwrap();
        }
        let letter = &newest(database, 1).unwrap()[0];
        assert!(letter.state == "failed" && letter.said.contains("given up"));
        assert!(again(database, letter.number, UtcMillis(5)).unwrap());
        let letter = due(database, UtcMillis(5)).unwrap().unwrap();
        note(database, &letter, &Err(MailError::Refused("550 no such box".into())), UtcMillis(6)).unwrap();
        assert_eq!(newest(database, 1).unwrap()[0].state, "failed");
        assert_eq!(pause(40), 360);
    }
}
