//! One mail round: every due letter is sent, one after the other, and its outcome recorded.
//!
//! Called by the server in the background and by `farsiding mail send`.

use std::path::Path;
use std::sync::{Mutex, PoisonError};

use farsiding_core::clock::UtcMillis;
use farsiding_core::evidence::packet::photo_name;
use futures_util::TryStreamExt as _;

use super::mail::{LARGEST_ATTACHMENTS, Letter, MailError, MailSettings, send};
use super::queue::{self, Kept};
use crate::database_error::DatabaseError;
use crate::language;
use crate::office_database::OfficeDatabase;
use crate::photo_store::PhotoStore;
use farsiding_core::{Arg, message};
use farsiding_host::media::media_of;
use farsiding_words::Words;

/// The largest number of letters in one round, so that the round ends.
const MOST: usize = 200;

/// The outcome of a round.
#[derive(Debug, Default, Clone, Copy, PartialEq, Eq)]
pub struct Round {
    /// The number of letters sent.
    pub sent: usize,
    /// The number of letters deferred.
    pub put_off: usize,
    /// The number of letters that failed for good.
    pub failed: usize,
}

/// Sends the due letters.
///
/// # Errors
/// Returns an error when the database fails. The outcome of each letter is stored with the letter.
pub async fn round(
    folder: &Path,
    database: &Mutex<OfficeDatabase>,
    photos: &PhotoStore,
    now: UtcMillis,
) -> Result<Round, DatabaseError> {
    let mut done = Round::default();
    let words = language::organisation_words(&database.lock().unwrap_or_else(PoisonError::into_inner))?;
    for _ in 0..MOST {
        let due = queue::due(database.lock().unwrap_or_else(PoisonError::into_inner).connection(), now)?;
        let Some(letter) = due else { break };
        let outcome = match MailSettings::read(folder) {
            Ok(settings) => send(&settings, with_photos(words, &letter, photos).await).await,
            Err(error) => Err(error),
        };
        match &outcome {
            Ok(_) => done.sent += 1,
            Err(MailError::Refused(_)) => done.failed += 1,
            Err(_) => done.put_off += 1,
        }
        if let Err(error) = &outcome {
            tracing::warn!(letter = letter.number, %error, "a letter did not go");
        }
        queue::note(
            database.lock().unwrap_or_else(PoisonError::into_inner).connection(),
            &letter,
            &outcome,
            now,
        )?;
    }
    Ok(done)
}

/// Returns the letter with its photographs attached. Photographs that are missing or too large are named in
/// the text instead.
async fn with_photos(words: &Words, kept: &Kept, photos: &PhotoStore) -> Letter {
    let mut files = Vec::new();
    let (mut sum, mut body) = (0, kept.body.clone());
    for (number, sha256) in kept.photos.iter().enumerate() {
        let read = async {
            let (length, mut pieces) = photos.read(*sha256).await.ok()?;
            if sum + usize::try_from(length).ok()? > LARGEST_ATTACHMENTS {
                return None;
            }
            let mut bytes = Vec::new();
            while let Some(piece) = pieces.try_next().await.ok()? {
                bytes.extend_from_slice(&piece);
            }
            Some(bytes)
        };
        match read.await {
            Some(bytes) => {
                sum += bytes.len();
                // The attachment is named by its digest, so that the recipient can find it in the record's
                // packet.
                let media = media_of(&bytes);
                let name = format!("photograph-{}-{}", number + 1, photo_name(*sha256, media));
                files.push((name, media.to_owned(), bytes));
            }
            None => {
                let missing = message!("letters-photo-missing", sha256 = Arg::typed(sha256.to_string()));
                body.push_str(&format!("\n{}\n", words.text(&missing)));
            }
        }
    }
    if !kept.extract.is_empty() {
        let (name, media) = ("record-extract.txt", "text/plain; charset=utf-8");
        files.push((name.to_owned(), media.to_owned(), kept.extract.clone().into_bytes()));
    }
    let id = format!("<farsiding-{}-{}@{}>", kept.number, kept.asked_at.0, "office.invalid");
    Letter { to: kept.to.clone(), subject: kept.subject.clone(), body, files, id }
}
