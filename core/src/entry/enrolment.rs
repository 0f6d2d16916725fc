//! The signed request a device makes to be enrolled.
//!
//! The device signs the one-time code together with the organisation and the server's time, so that whoever
//! sees a code cannot enrol a key that is not theirs, and a request overheard is worth nothing at another
//! organisation or later. Whether the code is good and the device welcome is the server's business.

use serde::{Deserialize, Serialize};

use super::cbor;
use super::error::EntryError;
use super::key::{DeviceKey, PublicKey, is_sound_key, open_envelope};
use crate::clock::UtcMillis;
use crate::ids::OrganisationId;

const PURPOSE: &str = "farsiding enrolment 1";

/// How far the time in a request may be from the server's, milliseconds: the device signs what the server
/// said moments before, and the slowest line takes a while to bring it back.
pub const ENROLMENT_WINDOW_MILLIS: i64 = 10 * 60 * 1000;

/// "Enrol me by this code", as signed.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct EnrolmentRequest {
    /// The one-time code as it was typed.
    pub code: String,
    /// Which organisation it is meant for.
    pub organisation: OrganisationId,
    /// The server's time, as the server told it when it was asked who it is.
    pub at: UtcMillis,
    /// What the device calls itself; may be empty.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub name: String,
}

impl EnrolmentRequest {
    /// Signs the request with the key that is to be enrolled.
    ///
    /// # Errors
    /// [`EntryError`] when it cannot be encoded.
    pub fn seal(&self, key: &DeviceKey) -> Result<Vec<u8>, EntryError> {
        Ok(key.seal(cbor::encode(self)?, PURPOSE))
    }

    /// Checks the signature and returns whose key made it. Whether the code is good, the organisation this
    /// one and the time near is for the caller to say.
    ///
    /// # Errors
    /// [`EntryError`] when the envelope or its signature is not right, or the key is none that a device
    /// should have.
    pub fn open(bytes: &[u8]) -> Result<(PublicKey, EnrolmentRequest), EntryError> {
        let (device, payload) = open_envelope(bytes, PURPOSE)?;
        if !is_sound_key(&device) {
            return Err(EntryError::NotAllowed("this is no key a device can have".to_owned()));
        }
        Ok((device, cbor::decode(&payload)?))
    }

    /// Whether the time in the request is near the server's.
    pub fn is_fresh(&self, now: UtcMillis) -> bool {
        self.at.0.abs_diff(now.0) <= ENROLMENT_WINDOW_MILLIS.unsigned_abs()
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]
    use super::*;
    use crate::ids::DeviceId;

    fn request() -> EnrolmentRequest {
        EnrolmentRequest {
            code: "ABCD-EFGH-JKMN".to_owned(),
            organisation: OrganisationId([7; 16]),
            at: UtcMillis(1_000_000),
            name: "Phone".to_owned(),
        }
    }

    #[test]
    fn a_request_reads_back_and_an_altered_one_does_not() {
        let key = DeviceKey::from_secret([3; 32]);
        let bytes = request().seal(&key).unwrap();
        assert_eq!(EnrolmentRequest::open(&bytes), Ok((key.public(), request())));
        for at in 0..bytes.len() {
            let mut altered = bytes.clone();
            altered[at] ^= 1;
            assert!(EnrolmentRequest::open(&altered).is_err(), "byte {at}");
        }
    }

    #[test]
    fn the_same_words_signed_for_something_else_enrol_nobody() {
        let key = DeviceKey::from_secret([3; 32]);
        let payload = cbor::encode(&request()).unwrap();
        for purpose in ["farsiding entry 1", "farsiding pass 1", "farsiding person 1"] {
            assert!(EnrolmentRequest::open(&key.seal(payload.clone(), purpose)).is_err(), "{purpose}");
        }
    }

    #[test]
    fn a_request_is_fresh_within_its_window_on_either_side() {
        let (request, window) = (request(), ENROLMENT_WINDOW_MILLIS);
        for (now, fresh) in [
            (1_000_000 + window, true),
            (1_000_000 - window, true),
            (1_000_001 + window, false),
            (999_999 - window, false),
            (i64::MIN, false),
            (i64::MAX, false),
        ] {
            assert_eq!(request.is_fresh(UtcMillis(now)), fresh, "{now}");
        }
    }

    #[test]
    fn points_that_are_no_keys_are_known_as_such() {
        // Small-order points, RFC 7748 section 7 and RFC 8032 section 5.1.3: the identity, order 2, order 4.
        let mut identity = [0u8; 32];
        identity[0] = 1;
        let mut order_two = [0xffu8; 32];
        (order_two[0], order_two[31]) = (0xec, 0x7f);
        // y = p + 1 is the identity written another way; RFC 8032 5.1.3 refuses y >= p.
        let mut not_canonical = [0xffu8; 32];
        (not_canonical[0], not_canonical[31]) = (0xee, 0x7f);
        // y = 2 is on no point of the curve.
        let mut off_curve = [0u8; 32];
        off_curve[0] = 2;
        for bytes in [identity, order_two, [0; 32], not_canonical, off_curve, [0xff; 32]] {
            assert!(!is_sound_key(&DeviceId(bytes)), "{bytes:02x?}");
        }
        assert!(is_sound_key(&DeviceKey::from_secret([3; 32]).public()));
        // A point of full order written with y >= p (y = 3 + p is on the curve or not; neither is a key).
        for low in 0xedu8..=0xff {
            let mut bytes = [0xffu8; 32];
            (bytes[0], bytes[31]) = (low, 0x7f);
            assert!(!is_sound_key(&DeviceId(bytes)), "y = p + {}", low - 0xed);
        }
    }
}
