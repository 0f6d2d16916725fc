//! Upload tokens: short-lived random texts with which an enrolled device may use photographs and hints.
//!
//! The tokens are kept in memory only. After a restart of the server devices ask for new ones.

use std::collections::HashMap;
use std::sync::{Mutex, PoisonError};
use std::time::{Duration, Instant};

use base64::Engine as _;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;
use farsiding_core::ids::{DeviceId, Digest, Randomness};

/// How long an upload token is valid.
pub const UPLOAD_TOKEN_LIFETIME: Duration = Duration::from_secs(15 * 60);

/// The issued tokens, by the hash of their text, and the requests that were answered.
#[derive(Debug, Default)]
pub struct UploadTokens {
    given: Mutex<HashMap<Digest, (DeviceId, Instant)>>,
    honoured: Mutex<HashMap<Digest, Instant>>,
}

impl UploadTokens {
    /// Issues a token for a signed request. Each request is answered only once.
    pub fn give(
        &self,
        request: &[u8],
        device: DeviceId,
        now: Instant,
        randomness: &mut dyn Randomness,
    ) -> Option<String> {
        let until = now + UPLOAD_TOKEN_LIFETIME;
        {
            let mut honoured = self.honoured.lock().unwrap_or_else(PoisonError::into_inner);
            honoured.retain(|_, until| *until > now);
            if honoured.insert(Digest::of(request), until).is_some() {
                return None;
            }
        }
        let mut secret = [0u8; 32];
        randomness.fill(&mut secret);
        let text = URL_SAFE_NO_PAD.encode(secret);
        let mut given = self.given.lock().unwrap_or_else(PoisonError::into_inner);
        given.retain(|_, (_, until)| *until > now);
        given.insert(Digest::of(text.as_bytes()), (device, until));
        Some(text)
    }

    /// Returns the device that a token belongs to, as long as the token is valid.
    pub fn holder(&self, text: &str, now: Instant) -> Option<DeviceId> {
        let given = self.given.lock().unwrap_or_else(PoisonError::into_inner);
        given.get(&Digest::of(text.as_bytes())).filter(|(_, until)| *until > now).map(|(device, _)| *device)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    struct Same;
    impl Randomness for Same {
        fn fill(&mut self, bytes: &mut [u8]) {
            bytes.fill(7);
        }
    }

    #[test]
    fn a_pass_runs_out_and_a_request_is_honoured_once() {
        let (passes, device, now) = (UploadTokens::default(), DeviceId([1; 32]), Instant::now());
        let pass = passes.give(b"request", device, now, &mut Same).unwrap_or_default();
        assert_eq!(passes.holder(&pass, now), Some(device));
        assert_eq!(passes.holder("another", now), None);
        assert_eq!(passes.holder(&pass, now + UPLOAD_TOKEN_LIFETIME), None);
        assert_eq!(passes.give(b"request", device, now, &mut Same), None);
    }
}
