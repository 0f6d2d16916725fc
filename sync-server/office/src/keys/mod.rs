//! The office's keys: the signing key, the root's statements about keys, and changes of keys (`changing`).
//!
//! The file formats are in `key_files`, the meaning of a statement in the core's `OrganisationKeys`, and the
//! command in the program. The code here never searches for the root key: it is read from where an
//! administrator says, possibly on another machine.

pub mod changing;

use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::{KeyStanding, OrganisationKey};

/// How long before the end of a key its end is reported, in milliseconds.
const SAID_BEFORE: i64 = 30 * 24 * 60 * 60 * 1000;

/// Returns a sentence that says that the key may sign now, and until when.
///
/// # Errors
/// Returns a sentence on why the key may not sign and what to do.
pub fn may_sign(key: &OrganisationKey, now: UtcMillis) -> Result<String, String> {
    let signer = key.signer();
    let renew = "Name another with the root: farsiding key renew (or key request, sign, take)";
    match key.keys().standing(&signer, now) {
        KeyStanding::Root => {
            Ok("It is the root itself. farsiding key offline takes the root off this server.".to_owned())
        }
        KeyStanding::Working { until: None } => Ok("It signs in the root's place.".to_owned()),
        KeyStanding::Working { until: Some(until) } => {
            Ok(format!("It signs in the root's place until {}.", until.rfc3339()))
        }
        KeyStanding::NotYet { from } => Err(format!(
            "the signing key {signer} begins at {}; look at this machine's clock",
            from.rfc3339()
        )),
        KeyStanding::Ended { until } => {
            Err(format!("the signing key {signer} ended at {}. {renew}", until.rfc3339()))
        }
        KeyStanding::Withdrawn { why, at, .. } => Err(format!(
            "the signing key {signer} was withdrawn as {} at {}. {renew}",
            why.word(),
            at.rfc3339()
        )),
        KeyStanding::Unknown => Err(format!("the signing key {signer} is none the root named. {renew}")),
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
