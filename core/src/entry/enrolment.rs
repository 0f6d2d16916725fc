//! The signed request by which a device asks to be enrolled.
//!
//! The device signs the one-time code together with the organisation and the server's time. So nobody who
//! sees the code can enrol a key other than their own, and an intercepted request is useless for another
//! organisation or at a later time. Whether the code is valid and the device is accepted is up to the server.

use serde::{Deserialize, Serialize};

use super::cbor;
use super::error::EntryError;
use super::key::{DeviceKey, PublicKey, is_sound_key, open_envelope};
use crate::Message;
use crate::clock::UtcMillis;
use crate::ids::OrganisationId;

const PURPOSE: &str = "farsiding enrolment 1";

/// The largest accepted difference between the time in a request and the server's time, in milliseconds. The
/// device signs the time that the server sent moments before, and a slow connection needs a while to return
/// it.
pub const ENROLMENT_WINDOW_MILLIS: i64 = 10 * 60 * 1000;

/// The signed content of a request for enrolment.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct EnrolmentRequest {
    /// The one-time code as it was typed.
    pub code: String,
    /// The organisation that the request is meant for.
    pub organisation: OrganisationId,
    /// The server's time as the server stated it.
    pub at: UtcMillis,
    /// The device's name for itself; may be empty.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub name: String,
}

impl EnrolmentRequest {
    /// Signs the request with the key to be enrolled.
    ///
    /// # Errors
    /// [`EntryError`] if the request cannot be encoded.
    pub fn seal(&self, key: &DeviceKey) -> Result<Vec<u8>, EntryError> {
        Ok(key.seal(cbor::encode(self)?, PURPOSE))
    }

    /// Checks the signature and returns the key that made it. The caller must check the code, the
    /// organisation and the time.
    ///
    /// # Errors
    /// [`EntryError`] if the envelope or its signature is invalid, or the key is not a sound one (see
    /// [`super::is_sound_key`]).
    pub fn open(bytes: &[u8]) -> Result<(PublicKey, EnrolmentRequest), EntryError> {
        let (device, payload) = open_envelope(bytes, PURPOSE)?;
        if !is_sound_key(&device) {
            let says = Message::new("refusal-no-device-key");
            return Err(EntryError::NotAllowed("this is no key a device can have".to_owned(), says));
        }
        Ok((device, cbor::decode(&payload)?))
    }

    /// Returns true if the time in the request is close to the server's.
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
        // Points of small order (RFC 7748, section 7, and RFC 8032, section 5.1.3): the identity, order 2,
        // order 4.
        let mut identity = [0u8; 32];
        identity[0] = 1;
        let mut order_two = [0xffu8; 32];
        (order_two[0], order_two[31]) = (0xec, 0x7f);
        // With y = p + 1 this is a second encoding of the identity; RFC 8032, 5.1.3, refuses y >= p.
        let mut not_canonical = [0xffu8; 32];
        (not_canonical[0], not_canonical[31]) = (0xee, 0x7f);
        // No point of the curve has y = 2.
        let mut off_curve = [0u8; 32];
        off_curve[0] = 2;
        for bytes in [identity, order_two, [0; 32], not_canonical, off_curve, [0xff; 32]] {
            assert!(!is_sound_key(&DeviceId(bytes)), "{bytes:02x?}");
        }
        assert!(is_sound_key(&DeviceKey::from_secret([3; 32]).public()));
        // Encodings with y >= p are refused, whether or not the reduced y is on the curve (y = 3 + p, for
        // example).
        for low in 0xedu8..=0xff {
            let mut bytes = [0xffu8; 32];
            (bytes[0], bytes[31]) = (low, 0x7f);
            assert!(!is_sound_key(&DeviceId(bytes)), "y = p + {}", low - 0xed);
        }
    }
}
