//! A person's own signature on an entry, in addition to the device's.
//!
//! The person signs the entry's whole body without this signature, together with the key of the device that
//! will sign the entry. So the signature cannot be moved to another entry or another device. Whether the key
//! is that person's is decided in `authority`.

use serde::{Deserialize, Serialize};

use super::cbor;
use super::error::EntryError;
use super::key::{PersonSigner, PublicKey, open_detached, seal_detached};
use crate::ids::DeviceId;

const PURPOSE: &str = "farsiding person 1";

/// A person's signature on an entry.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Hand {
    /// The person's Ed25519 public key (RFC 8032).
    pub key: PublicKey,
    /// The signature (64 bytes), made as that of a COSE_Sign1 (RFC 9052, 4.4) with the person's key as key id
    /// and the device's key followed by the body as payload.
    #[serde(with = "serde_bytes")]
    pub signature: Vec<u8>,
}

impl Hand {
    /// Signs the encoding of a body that does not carry a person's signature yet.
    pub(super) fn over(body: Vec<u8>, device: DeviceId, person: &PersonSigner) -> Hand {
        Hand { key: person.public(), signature: seal_detached(person, payload(body, device), PURPOSE) }
    }
}

fn payload(body: Vec<u8>, device: DeviceId) -> Vec<u8> {
    let mut payload = device.0.to_vec();
    payload.extend(body);
    payload
}

/// Accepts only the form with two byte strings. Serde would also accept a list of numbers or a text as bytes,
/// which another verifier would refuse.
fn is_two_byte_strings(hand: &ciborium::Value) -> bool {
    let Some(fields) = hand.as_map() else { return false };
    let of = |name: &str| fields.iter().any(|(key, value)| key.as_text() == Some(name) && value.is_bytes());
    fields.len() == 2 && of("key") && of("signature")
}

/// Returns true if the signature is valid for a body as it was read, whatever kind of statement it carries.
///
/// # Errors
/// [`EntryError::Cbor`] if the body cannot be encoded again.
pub(super) fn holds_over(
    hand: &Hand,
    mut body: ciborium::Value,
    device: DeviceId,
) -> Result<bool, EntryError> {
    if let Some(fields) = body.as_map_mut() {
        let written = fields.iter().find(|(key, _)| key.as_text() == Some("hand"));
        if !written.is_some_and(|(_, hand)| is_two_byte_strings(hand)) {
            return Ok(false);
        }
        fields.retain(|(key, _)| key.as_text() != Some("hand"));
    }
    let payload = payload(cbor::encode(&body)?, device);
    Ok(open_detached(&hand.key, &hand.signature, payload, PURPOSE))
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a failed unwrap is a failed test")]
    use super::*;
    use crate::clock::{Stamp, UtcMillis};
    use crate::entry::{Body, DeviceKey, Entry, Statement};
    use crate::ids::{OperatorId, Subject, VisitId};

    fn body(text: &str) -> Body {
        let says = Statement::Remark { text: text.to_owned() };
        Body {
            about: Subject::Visit(VisitId([1; 16])),
            slot: says.slot(),
            says,
            follows: Vec::new(),
            replaces: Vec::new(),
            why: String::new(),
            by: OperatorId("ash".to_owned()),
            seq: 1,
            prev: None,
            when: Stamp { at: UtcMillis(1), offset_minutes: 0, ahead_millis: None },
            place: None,
            seen: None,
            hand: None,
            done: None,
            rests_on: None,
        }
    }

    #[test]
    fn a_persons_signature_holds_on_its_own_entry_and_on_no_other() {
        let (device, person) = (DeviceKey::from_secret([1; 32]), PersonSigner::from_secret([2; 32]));
        let signed = Entry::seal_by_hand(body("mine"), &person, &device).unwrap();
        assert_eq!(Entry::open(signed.bytes()).unwrap(), signed);
        let hand = signed.body.hand.clone();
        // The signature was moved to another entry of the same device, or the same entry is made by another
        // device.
        let lifted = Entry::seal(Body { hand: hand.clone(), ..body("not mine") }, &device).unwrap();
        assert_eq!(Entry::open(lifted.bytes()), Err(EntryError::BadHand));
        let other = DeviceKey::from_secret([3; 32]);
        let lifted = Entry::seal(Body { hand, ..body("mine") }, &other).unwrap();
        assert_eq!(Entry::open(lifted.bytes()), Err(EntryError::BadHand));
    }

    #[test]
    fn a_signature_written_as_a_list_or_with_more_beside_it_is_refused() {
        use ciborium::Value;
        let (device, person) = (DeviceKey::from_secret([1; 32]), PersonSigner::from_secret([2; 32]));
        let signed = Entry::seal_by_hand(body("mine"), &person, &device).unwrap();
        let hand = signed.body.hand.clone().unwrap();
        let bytes = |bytes: &[u8]| Value::Bytes(bytes.to_vec());
        let list = Value::Array(hand.signature.iter().map(|b| Value::from(*b)).collect());
        let key = |name: &str| Value::Text(name.to_owned());
        let plain = vec![(key("key"), bytes(&hand.key.0)), (key("signature"), bytes(&hand.signature))];
        let as_list = vec![(key("key"), bytes(&hand.key.0)), (key("signature"), list)];
        let more = [plain.clone(), vec![(key("x"), Value::Null)]].concat();
        for (fields, sound) in [(plain, true), (as_list, false), (more, false)] {
            let mut value = Value::serialized(&signed.body).unwrap();
            for (name, inner) in value.as_map_mut().unwrap() {
                if name.as_text() == Some("hand") {
                    *inner = Value::Map(fields.clone());
                }
            }
            let entry = device.seal(cbor::encode(&value).unwrap(), "farsiding entry 1");
            assert_eq!(Entry::open(&entry).is_ok(), sound);
            assert!(Entry::open_of_version_one(&entry).is_ok());
        }
    }

    /// Other verifiers accept only one form of an id. If this one accepted more, a genuine packet would fail
    /// there.
    #[test]
    fn an_id_written_as_text_is_no_id_in_an_entry() {
        use ciborium::Value;
        let device = DeviceKey::from_secret([1; 32]);
        let prev = Some(crate::ids::EntryId([3; 32]));
        let value = Value::serialized(&Body { prev, ..body("x") }).unwrap();
        let with = |name: &str, text: String| {
            let mut value = value.clone();
            for (key, inner) in value.as_map_mut().unwrap() {
                if key.as_text() == Some(name) {
                    *inner = Value::Text(text.clone());
                }
            }
            device.seal(cbor::encode(&value).unwrap(), "farsiding entry 1")
        };
        assert!(Entry::open(&with("slot", "series/remark".to_owned())).is_ok());
        for (name, text) in [("prev", "03".repeat(32)), ("about", format!("visit:{}", "01".repeat(16)))] {
            assert!(
                matches!(Entry::open(&with(name, text)), Err(crate::entry::EntryError::Cbor(_))),
                "{name}"
            );
        }
    }

    #[test]
    fn bytes_that_are_no_signature_are_refused() {
        let device = DeviceKey::from_secret([1; 32]);
        for (key, length) in [([0xff; 32], 64), ([2; 32], 0), ([2; 32], 65)] {
            let hand = Some(Hand { key: DeviceId(key), signature: vec![7; length] });
            let entry = Entry::seal(Body { hand, ..body("x") }, &device).unwrap();
            assert_eq!(Entry::open(entry.bytes()), Err(EntryError::BadHand));
        }
    }
}
