//! The signed request by which a device obtains access to photographs for a limited time.
//!
//! Photographs are transferred apart from the records, in requests that are too many and too small to sign
//! individually. A device signs one request and receives a short-lived token. The form of the token is up to
//! the server.

use serde::{Deserialize, Serialize};

use crate::clock::UtcMillis;
use crate::entry::{DeviceKey, EntryError, PublicKey, cbor, open_envelope};
use crate::ids::{DeviceId, Randomness};

const PURPOSE: &str = "farsiding pass 1";

/// The largest difference accepted between the time in a request and the server's time, in milliseconds.
pub const PASS_WINDOW_MILLIS: i64 = 5 * 60 * 1000;

/// The signed content of a request for access to photographs.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct PassRequest {
    /// The root key of the organisation whose server the request is meant for.
    #[serde(rename = "o")]
    pub organisation_key: PublicKey,
    /// The server's time as the device estimates it: the device's clock corrected by the last known
    /// difference.
    #[serde(rename = "t")]
    pub at: UtcMillis,
    /// Random bytes, so that no request is accepted twice.
    #[serde(rename = "n", with = "serde_bytes")]
    pub nonce: [u8; 16],
}

impl PassRequest {
    /// Creates a request for the server of the organisation with this key.
    pub fn new(organisation_key: PublicKey, at: UtcMillis, randomness: &mut dyn Randomness) -> PassRequest {
        let mut nonce = [0u8; 16];
        randomness.fill(&mut nonce);
        PassRequest { organisation_key, at, nonce }
    }

    /// Signs the request.
    ///
    /// # Errors
    /// [`EntryError`] when the request cannot be encoded.
    pub fn seal(&self, key: &DeviceKey) -> Result<Vec<u8>, EntryError> {
        Ok(key.seal(cbor::encode(self)?, PURPOSE))
    }

    /// Checks the signature and returns the signer and the request. The caller must check that the device is
    /// enrolled and that the request is meant for this server, recent, and not used before.
    ///
    /// # Errors
    /// [`EntryError`] when the bytes are not such a request or the signature is invalid.
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
