//! Ed25519 keys and the COSE_Sign1 envelope (RFC 9052, 4.2) every signed thing here travels in.
//!
//! The protected header is exactly `{1: -8, 4: public key}`; nothing is unprotected. Since there is
//! one way to write it, an envelope is checked by writing it again.

use coset::{CborSerializable, CoseSign1, CoseSign1Builder, HeaderBuilder, TaggedCborSerializable, iana};
use ed25519_dalek::{Signature, Signer, SigningKey, VerifyingKey};

use super::envelope::EntryError;
use crate::ids::{DeviceId, Randomness};

/// Who signed: 32 bytes of Ed25519 public key (RFC 8032).
pub type PublicKey = DeviceId;

/// A device's signing key.
pub struct DeviceKey(SigningKey);

/// The organisation's signing key, held by the server.
pub struct OrganisationKey(SigningKey);

macro_rules! signing_key {
    ($name:ident) => {
        impl $name {
            /// A new key from the injected randomness.
            pub fn random(randomness: &mut dyn Randomness) -> Self {
                let mut secret = [0u8; 32];
                randomness.fill(&mut secret);
                Self::from_secret(secret)
            }
            /// The key with this secret (RFC 8032, 5.1.5).
            pub fn from_secret(secret: [u8; 32]) -> Self {
                Self(SigningKey::from_bytes(&secret))
            }
            /// The secret, for the shell's safe keeping.
            pub fn secret(&self) -> [u8; 32] {
                self.0.to_bytes()
            }
            /// The public half.
            pub fn public(&self) -> PublicKey {
                DeviceId(self.0.verifying_key().to_bytes())
            }
            /// Signs `payload` into an envelope; `purpose` keeps one kind of message from being taken
            /// for another (it is the external data of RFC 9052, 4.4).
            pub fn seal(&self, payload: Vec<u8>, purpose: &'static str) -> Vec<u8> {
                seal_envelope(&self.0, payload, purpose)
            }
        }
        impl std::fmt::Debug for $name {
            fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                write!(f, "{}({})", stringify!($name), self.public().short())
            }
        }
        impl Clone for $name {
            fn clone(&self) -> Self {
                Self(self.0.clone())
            }
        }
    };
}
signing_key!(DeviceKey);
signing_key!(OrganisationKey);

/// Signs `payload` into a tagged COSE_Sign1 envelope.
pub fn seal_envelope(key: &SigningKey, payload: Vec<u8>, purpose: &str) -> Vec<u8> {
    let header = HeaderBuilder::new()
        .algorithm(iana::Algorithm::EdDSA)
        .key_id(key.verifying_key().to_bytes().to_vec())
        .build();
    CoseSign1Builder::new()
        .protected(header)
        .payload(payload)
        .create_signature(purpose.as_bytes(), |message| key.sign(message).to_bytes().to_vec())
        .build()
        .to_tagged_vec()
        .unwrap_or_default() // a definite map of two integers and byte strings always encodes
}

/// Checks an envelope and returns its signer and payload.
///
/// # Errors
/// [`EntryError::NotAnEnvelope`] for anything but the one form this tool writes,
/// [`EntryError::BadSignature`] when the signature does not hold (strict verification, RFC 8032).
pub fn open_envelope(bytes: &[u8], purpose: &str) -> Result<(PublicKey, Vec<u8>), EntryError> {
    let (signer, envelope) = parse_envelope(bytes)?;
    let key = VerifyingKey::from_bytes(&signer.0).map_err(|_| EntryError::BadSignature)?;
    envelope.verify_signature(purpose.as_bytes(), |signature, message| {
        let signature = Signature::from_slice(signature).map_err(|_| EntryError::BadSignature)?;
        key.verify_strict(message, &signature).map_err(|_| EntryError::BadSignature)
    })?;
    let payload = envelope.payload.unwrap_or_default();
    Ok((signer, payload))
}

/// Takes an envelope apart without checking its signature: only for bytes that were checked when
/// they came in and whose digest was compared since.
pub(super) fn parse_envelope(bytes: &[u8]) -> Result<(PublicKey, CoseSign1), EntryError> {
    let envelope = CoseSign1::from_tagged_slice(bytes).map_err(|_| EntryError::NotAnEnvelope)?;
    let signer: [u8; 32] =
        envelope.protected.header.key_id.as_slice().try_into().map_err(|_| EntryError::NotAnEnvelope)?;
    let expected = HeaderBuilder::new()
        .algorithm(iana::Algorithm::EdDSA)
        .key_id(signer.to_vec())
        .build()
        .to_vec()
        .map_err(|_| EntryError::NotAnEnvelope)?;
    let plain = envelope.protected.original_data.as_deref() == Some(expected.as_slice())
        && envelope.unprotected.is_empty()
        && envelope.payload.is_some()
        && envelope.signature.len() == 64
        && bytes.len() == envelope_length(expected.len(), envelope.payload.as_ref().map_or(0, Vec::len));
    if plain { Ok((DeviceId(signer), envelope)) } else { Err(EntryError::NotAnEnvelope) }
}

/// Length of the one encoding: tag, array of four, three byte strings and an empty map.
fn envelope_length(protected: usize, payload: usize) -> usize {
    let byte_string = |n: usize| {
        n + match n {
            0..=23 => 1,
            24..=0xff => 2,
            0x100..=0xffff => 3,
            _ => 5,
        }
    };
    1 + 1 + byte_string(protected) + 1 + byte_string(payload) + byte_string(64)
}
