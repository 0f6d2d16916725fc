//! The office's keys: the one that signs, what the root said of keys, and changing them.
//!
//! Lives here: what is asked of the root and done with its answer (`changing`). Does not live here: the forms of the
//! files (`key_files`), what a statement means (the core's `OrganisationKeys`), the command. Nothing
//! here looks for the root: it is read where an administrator says it lies, and on another machine as well.

pub mod changing;

use farsiding_core::clock::UtcMillis;
use farsiding_core::entry::{KeyStanding, OrganisationKey};

/// This long before its end a key is said to end.
const SAID_BEFORE: i64 = 30 * 24 * 60 * 60 * 1000;

/// Returns whether the key may sign now: words for whoever looks, also why not.
///
/// # Errors
/// Why it may not, and what to do.
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

/// Returns when the key that signs ends, if that is soon.
pub fn ends_soon(key: &OrganisationKey, now: UtcMillis) -> Option<UtcMillis> {
    match key.keys().standing(&key.signer(), now) {
        KeyStanding::Working { until: Some(until) } => {
            Some(until).filter(|until| until.since(now) <= SAID_BEFORE)
        }
        _ => None,
    }
}
