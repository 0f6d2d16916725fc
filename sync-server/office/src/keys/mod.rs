//! The office's keys: the signing key, the root's statements about keys, and changes of keys (`changing`).
//!
//! The file formats are in `key_files`, the meaning of a statement in the core's `OrganisationKeys`, and the
//! command in the program. The code here never searches for the root key: it is read from where an
//! administrator says, possibly on another machine.

pub mod changing;

use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::{KeyStanding, OrganisationKey};
use farsiding_core::{Arg, Message, message};
use farsiding_words::english;

/// How long before the end of a key its end is reported, in milliseconds.
const SAID_BEFORE: i64 = 30 * 24 * 60 * 60 * 1000;

/// Returns a sentence that says that the key may sign now, and until when.
///
/// # Errors
/// Returns a sentence on why the key may not sign and what to do.
pub fn may_sign(key: &OrganisationKey, now: UtcMillis) -> Result<String, String> {
    may_sign_says(key, now).map(|says| english(&says)).map_err(|says| english(&says))
}

/// Returns whether the key may sign now, for people in any language.
///
/// # Errors
/// Returns why it may not sign, and what to do.
pub fn may_sign_says(key: &OrganisationKey, now: UtcMillis) -> Result<Message, Message> {
    let signer = key.signer();
    let at = |time: UtcMillis| Arg::typed(time.rfc3339());
    let key_id = || Arg::typed(signer.to_string());
    match key.keys().standing(&signer, now) {
        KeyStanding::Root => Ok(message!("office-found-key-is-root")),
        KeyStanding::Working { until: None } => Ok(message!("office-found-key-works")),
        KeyStanding::Working { until: Some(until) } => {
            Ok(message!("office-found-key-works-until", until = at(until)))
        }
        KeyStanding::NotYet { from } => {
            Err(message!("office-found-key-not-yet", key = key_id(), from = at(from)))
        }
        KeyStanding::Ended { until } => {
            Err(message!("office-found-key-ended", key = key_id(), until = at(until)))
        }
        KeyStanding::Withdrawn { why, at: when, .. } => {
            let why = Message::term("office-withdrawn", why.word());
            Err(message!("office-found-key-withdrawn", key = key_id(), why = why, at = at(when)))
        }
        KeyStanding::Unknown => Err(message!("office-found-key-unknown", key = key_id())),
    }
}

/// Returns the end of the signing key, if it is near.
pub fn ends_soon(key: &OrganisationKey, now: UtcMillis) -> Option<UtcMillis> {
    match key.keys().standing(&key.signer(), now) {
        KeyStanding::Working { until: Some(until) } => {
            Some(until).filter(|until| until.since(now) <= SAID_BEFORE)
        }
        _ => None,
    }
}
