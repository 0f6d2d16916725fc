//! What the core is handed from the platform: its clock and its randomness. Called by `book` alone.

use chrono::Local;
use farsiding_core::clock::{Clock, UtcMillis};
use farsiding_core::ids::Randomness;
use farsiding_core::store::StoreError;

use crate::FarsidingError;

/// The platform's clock with its offset from UTC.
pub(crate) struct PlatformClock;

impl Clock for PlatformClock {
    fn now(&self) -> (UtcMillis, i16) {
        let now = Local::now();
        let minutes = now.offset().local_minus_utc() / 60;
        (UtcMillis(now.timestamp_millis()), i16::try_from(minutes).unwrap_or(0))
    }
}

/// The platform's randomness.
pub(crate) struct PlatformRandomness;

impl Randomness for PlatformRandomness {
    fn fill(&mut self, bytes: &mut [u8]) {
        // Ids made of zeros would collide and merge what is not one; there is no going on without.
        if getrandom::fill(bytes).is_err() {
            std::process::abort();
        }
    }
}

/// A new secret of 32 random bytes: a device's key for `Book::open`, or the secret for `keep_beside`. The
/// caller keeps it where the platform keeps secrets. Whoever loses a device's key cannot open its book as
/// that device again.
///
/// # Errors
/// - `NoStorage`: the platform has no randomness.
#[uniffi::export]
pub fn new_key() -> Result<Vec<u8>, FarsidingError> {
    let mut key = vec![0u8; 32];
    getrandom::fill(&mut key).map_err(|error| {
        FarsidingError::of_storage(error.to_string(), &StoreError::NoPlace(String::new()))
    })?;
    Ok(key)
}
