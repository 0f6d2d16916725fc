//! The signed request a device makes to be let at photographs for a while.
//!
//! Photographs travel apart from the record, over requests too many and too small to sign one by one.
//! A device signs this once and is given a short-lived pass for them. What the pass looks like is the
//! server's business.

use serde::{Deserialize, Serialize};

use crate::clock::UtcMillis;
use crate::entry::{DeviceKey, EntryError, PublicKey, cbor, open_envelope};
use crate::ids::{DeviceId, Randomness};

const PURPOSE: &str = "farsiding pass 1";

/// How far the time in a request may be from the server's, milliseconds.
pub const PASS_WINDOW_MILLIS: i64 = 5 * 60 * 1000;

/// "Let me at the photographs", as signed.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct PassRequest {
    /// Whose server it is meant for.
    #[serde(rename = "o")]
    pub organisation_key: PublicKey,
    /// The server's time as the device believes it to be: its own, corrected by what it last learned.
    #[serde(rename = "t")]
    pub at: UtcMillis,
    /// Random, so that no request is taken twice.
    #[serde(rename = "n", with = "serde_bytes")]
    pub nonce: [u8; 16],
}

impl PassRequest {
    /// A request for the server with this key.
    pub fn new(organisation_key: PublicKey, at: UtcMillis, randomness: &mut dyn Randomness) -> PassRequest {
        let mut nonce = [0u8; 16];
        randomness.fill(&mut nonce);
        PassRequest { organisation_key, at, nonce }
    }

    /// Signs it.
    ///
    /// # Errors
    /// [`EntryError`] when it cannot be encoded.
    pub fn seal(&self, key: &DeviceKey) -> Result<Vec<u8>, EntryError> {
        Ok(key.seal(cbor::encode(self)?, PURPOSE))
    }

    /// Checks the signature and returns who signed. Whether that device is enrolled, the request is
    /// meant for this server, fresh and new is for the caller to say.
    ///
    /// # Errors
    /// [`EntryError`] when the envelope or its signature is not right.
    pub fn open(bytes: &[u8]) -> Result<(DeviceId, PassRequest), EntryError> {
        let (device, payload) = open_envelope(bytes, PURPOSE)?;
        Ok((device, cbor::decode(&payload)?))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_pass_request_reads_back_and_an_altered_one_does_not() {
        let key = DeviceKey::from_secret([3; 32]);
        let request =
            PassRequest { organisation_key: DeviceId([9; 32]), at: UtcMillis(1_000), nonce: [4; 16] };
        let bytes = request.seal(&key).unwrap_or_default();
        assert_eq!(PassRequest::open(&bytes), Ok((key.public(), request)));
        for at in 0..bytes.len() {
            let mut altered = bytes.clone();
            altered[at] ^= 1;
            assert!(PassRequest::open(&altered).is_err(), "byte {at}");
        }
    }
}
