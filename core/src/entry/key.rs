//! Ed25519 keys, and the COSE_Sign1 envelope (RFC 9052, 4.2) in which all signed content travels.
//!
//! The protected header is exactly `{1: -8, 4: public key}`, and the unprotected header is empty. Since each
//! envelope has exactly one encoding, an envelope is checked by encoding it again.

use coset::{CborSerializable, CoseSign1, CoseSign1Builder, HeaderBuilder, TaggedCborSerializable, iana};
use ed25519_dalek::{Signature, Signer, SigningKey, VerifyingKey};

use super::error::EntryError;
use super::organisation::{OrganisationKeys, Trusts, Use};
use crate::ids::{DeviceId, Randomness};
use std::sync::Arc;

/// The Ed25519 public key of a signer, 32 bytes (RFC 8032).
pub type PublicKey = DeviceId;

/// A device's signing key.
pub struct DeviceKey(SigningKey);

/// The organisation's signing key, held by the server: the root key itself, or a working key named by the
/// root.
pub struct OrganisationKey {
    signing: SigningKey,
    keys: Arc<OrganisationKeys>,
}

/// A person's own signing key, stored on a phone under the person's PIN or by the platform.
pub struct PersonSigner(SigningKey);

macro_rules! signing_key {
    ($name:ident) => {
        impl $name {
            /// Creates a new key from the injected randomness.
            pub fn random(randomness: &mut dyn Randomness) -> Self {
                let mut secret = [0u8; 32];
                randomness.fill(&mut secret);
                Self::from_secret(secret)
            }
            /// Creates the key with this secret (RFC 8032, 5.1.5).
            pub fn from_secret(secret: [u8; 32]) -> Self {
                Self(SigningKey::from_bytes(&secret))
            }
            /// Returns the secret, which the shell must store safely.
            pub fn secret(&self) -> [u8; 32] {
                self.0.to_bytes()
            }
            /// Returns the public key.
            pub fn public(&self) -> PublicKey {
                DeviceId(self.0.verifying_key().to_bytes())
            }
            /// Signs `payload` into an envelope. `purpose` prevents one kind of message from being accepted
            /// as another; it is the external data of RFC 9052, 4.4.
            pub fn seal(&self, payload: Vec<u8>, purpose: &'static str) -> Vec<u8> {
                let kid = self.0.verifying_key().to_bytes();
                seal_envelope(&self.0, payload, purpose, &kid)
            }
            /// Signs a transport message. The recipient knows the key, so the header contains only `hint`: a
            /// few bytes by which to find the key, or none.
            pub fn seal_addressed(&self, payload: Vec<u8>, purpose: &'static str, hint: &[u8]) -> Vec<u8> {
                seal_envelope(&self.0, payload, purpose, hint)
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
signing_key!(PersonSigner);

impl OrganisationKey {
    /// Creates a new root key from the injected randomness; it signs for itself.
    pub fn random(randomness: &mut dyn Randomness) -> Self {
        let mut secret = [0u8; 32];
        randomness.fill(&mut secret);
        Self::from_secret(secret)
    }

    /// Creates the root key with this secret (RFC 8032, 5.1.5); it signs for itself.
    pub fn from_secret(secret: [u8; 32]) -> Self {
        let signing = SigningKey::from_bytes(&secret);
        let keys = OrganisationKeys::of_root(DeviceId(signing.verifying_key().to_bytes()));
        Self { signing, keys: Arc::new(keys) }
    }

    /// Creates the key with this secret as one of an organisation's keys: the root, or a key it named.
    /// [`OrganisationKeys::standing`] tells whether the key may sign now.
    pub fn among(secret: [u8; 32], keys: OrganisationKeys) -> Self {
        Self { signing: SigningKey::from_bytes(&secret), keys: Arc::new(keys) }
    }

    /// Returns the secret, which the shell must store safely.
    pub fn secret(&self) -> [u8; 32] {
        self.signing.to_bytes()
    }

    /// Returns the organisation's public key: the pinned root key, whose digest is the organisation's id.
    pub fn public(&self) -> PublicKey {
        self.keys.root()
    }

    /// Returns the public key of the signing key.
    pub fn signer(&self) -> PublicKey {
        DeviceId(self.signing.verifying_key().to_bytes())
    }

    /// Returns the organisation's keys as the holder of this key knows them.
    pub fn keys(&self) -> &OrganisationKeys {
        &self.keys
    }

    /// Signs `payload` into an envelope that names the signing key; `purpose` as for [`DeviceKey::seal`].
    pub fn seal(&self, payload: Vec<u8>, purpose: &'static str) -> Vec<u8> {
        seal_envelope(&self.signing, payload, purpose, &self.signer().0)
    }

    /// Signs a transport message as [`DeviceKey::seal_addressed`] does.
    pub fn seal_addressed(&self, payload: Vec<u8>, purpose: &'static str, hint: &[u8]) -> Vec<u8> {
        seal_envelope(&self.signing, payload, purpose, hint)
    }
}

impl std::fmt::Debug for OrganisationKey {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "OrganisationKey({} of {})", self.signer().short(), self.public().short())
    }
}

impl Clone for OrganisationKey {
    fn clone(&self) -> Self {
        Self { signing: self.signing.clone(), keys: self.keys.clone() }
    }
}

macro_rules! signs_notes {
    ($($name:ident: $key:tt),*) => { $(
        impl $name {
            /// Signs a bare text without an envelope. This is only for the text of a signed note, which
            /// begins with its log's name and so cannot be confused with an envelope, which begins with 0x84.
            pub(crate) fn sign_text(&self, text: &str) -> [u8; 64] {
                self.$key.sign(text.as_bytes()).to_bytes()
            }
        }
    )* };
}
signs_notes!(DeviceKey: 0, OrganisationKey: signing);

/// Returns the protected header: algorithm EdDSA and, unless it is empty, the key id.
fn header(kid: &[u8]) -> coset::Header {
    HeaderBuilder::new().algorithm(iana::Algorithm::EdDSA).key_id(kid.to_vec()).build()
}

/// Signs `payload` into a tagged COSE_Sign1 envelope.
fn seal_envelope(key: &SigningKey, payload: Vec<u8>, purpose: &str, kid: &[u8]) -> Vec<u8> {
    CoseSign1Builder::new()
        .protected(header(kid))
        .payload(payload)
        .create_signature(purpose.as_bytes(), |message| key.sign(message).to_bytes().to_vec())
        .build()
        .to_tagged_vec()
        .unwrap_or_default() // a definite map of two integers and byte strings always encodes
}

/// Returns only the signature of an envelope over `payload`, for callers that store signer and payload
/// elsewhere.
pub(super) fn seal_detached(key: &PersonSigner, payload: Vec<u8>, purpose: &str) -> Vec<u8> {
    let kid = key.public().0;
    CoseSign1Builder::new()
        .protected(header(&kid))
        .payload(payload)
        .create_signature(purpose.as_bytes(), |message| key.0.sign(message).to_bytes().to_vec())
        .build()
        .signature
}

/// Returns true if `signature` is that of an envelope by `signer` over `payload`.
pub(super) fn open_detached(signer: &PublicKey, signature: &[u8], payload: Vec<u8>, purpose: &str) -> bool {
    let envelope = CoseSign1Builder::new()
        .protected(header(&signer.0))
        .payload(payload)
        .signature(signature.to_vec())
        .build();
    verify(&envelope, purpose, signer).is_ok()
}

/// Checks an envelope and returns its signer and payload.
///
/// # Errors
/// [`EntryError::NotAnEnvelope`] for anything but the one accepted encoding, [`EntryError::BadSignature`] if
/// the signature is invalid (strict verification, RFC 8032).
pub fn open_envelope(bytes: &[u8], purpose: &str) -> Result<(PublicKey, Vec<u8>), EntryError> {
    let (signer, envelope) = parse_envelope(bytes)?;
    verify(&envelope, purpose, &signer)?;
    Ok((signer, envelope.payload.unwrap_or_default()))
}

/// Does the same as [`open_envelope`] for a message whose payload tells the purpose it was signed for. `read`
/// receives bytes that are not verified yet; its result is returned only after the signature was verified.
///
/// # Errors
/// As for [`open_envelope`], and the errors of `read`.
pub(super) fn open_envelope_as<T>(
    bytes: &[u8],
    read: impl FnOnce(&[u8]) -> Result<(&'static str, T), EntryError>,
) -> Result<(PublicKey, T), EntryError> {
    let (signer, envelope) = parse_envelope(bytes)?;
    let (purpose, content) = read(envelope.payload.as_deref().unwrap_or_default())?;
    verify(&envelope, purpose, &signer)?;
    Ok((signer, content))
}

/// Checks a transport message with the key that must have signed it, and returns its payload.
///
/// # Errors
/// As for [`open_envelope`].
pub fn open_addressed(bytes: &[u8], purpose: &str, signer: &PublicKey) -> Result<Vec<u8>, EntryError> {
    let envelope = parse_any(bytes)?;
    verify(&envelope, purpose, signer)?;
    Ok(envelope.payload.unwrap_or_default())
}

/// Checks a transport message of an organisation, which does not name its signer. `read` receives verified
/// bytes and returns what the signature was used for.
///
/// # Errors
/// As for [`open_envelope`], [`EntryError::Key`] if the key was not permitted to sign the message, and the
/// errors of `read`.
pub fn open_of_organisation<T>(
    bytes: &[u8],
    purpose: &str,
    keys: &dyn Trusts,
    read: impl FnOnce(&[u8]) -> Result<T, EntryError>,
    made: impl FnOnce(&T) -> Use<'static>,
) -> Result<(PublicKey, T), EntryError> {
    let envelope = parse_any(bytes)?;
    let mut signers = keys.signers().into_iter();
    let signer =
        signers.find(|signer| verify(&envelope, purpose, signer).is_ok()).ok_or(EntryError::BadSignature)?;
    let said = read(envelope.payload.as_deref().unwrap_or_default())?;
    keys.allows(&signer, made(&said))?;
    Ok((signer, said))
}

/// Returns the bytes by which the signer of a transport message can be found. Nothing is verified.
///
/// # Errors
/// [`EntryError::NotAnEnvelope`] if the bytes are not an envelope.
pub fn hint_of(bytes: &[u8]) -> Result<Vec<u8>, EntryError> {
    Ok(parse_any(bytes)?.protected.header.key_id)
}

/// Returns true if `signer` signed this bare text (strict verification, RFC 8032).
pub(crate) fn text_signature_holds(signer: &PublicKey, text: &str, signature: &[u8]) -> bool {
    let Ok(key) = VerifyingKey::from_bytes(&signer.0) else { return false };
    Signature::from_slice(signature).is_ok_and(|s| key.verify_strict(text.as_bytes(), &s).is_ok())
}

/// Returns true if a device or person may have this public key: it is a point of the curve in its canonical
/// encoding (RFC 8032, 5.1.3) and not one of small order, for which signatures prove nothing.
pub fn is_sound_key(key: &PublicKey) -> bool {
    let one_encoding = || is_below_field(&key.0);
    VerifyingKey::from_bytes(&key.0).is_ok_and(|point| !point.is_weak()) && one_encoding()
}

/// Returns true if the y coordinate of an encoded point (its low 255 bits) is below 2^255 - 19.
fn is_below_field(bytes: &[u8; 32]) -> bool {
    let high = bytes[31] & 0x7f;
    high != 0x7f || bytes[1..31].iter().any(|byte| *byte != 0xff) || bytes[0] < 0xed
}

fn verify(envelope: &CoseSign1, purpose: &str, signer: &PublicKey) -> Result<(), EntryError> {
    let key = VerifyingKey::from_bytes(&signer.0).map_err(|_| EntryError::BadSignature)?;
    envelope.verify_signature(purpose.as_bytes(), |signature, message| {
        let signature = Signature::from_slice(signature).map_err(|_| EntryError::BadSignature)?;
        key.verify_strict(message, &signature).map_err(|_| EntryError::BadSignature)
    })
}

/// Parses an envelope without verifying its signature.
pub(super) fn parse_envelope(bytes: &[u8]) -> Result<(PublicKey, CoseSign1), EntryError> {
    let envelope = parse_any(bytes)?;
    let signer =
        envelope.protected.header.key_id.as_slice().try_into().map_err(|_| EntryError::NotAnEnvelope)?;
    Ok((DeviceId(signer), envelope))
}

/// Finds signer and payload in an envelope that was verified on arrival and whose digest was compared since.
/// There is only one encoding, so both are at known positions.
pub(super) fn slice_envelope(bytes: &[u8]) -> Option<(PublicKey, &[u8])> {
    // Tag 18, an array of 4, and 38 bytes of protected header ({1: -8, 4: 32 bytes}), followed by an empty
    // map.
    const START: [u8; 10] = [0xd2, 0x84, 0x58, 0x26, 0xa2, 0x01, 0x27, 0x04, 0x58, 0x20];
    let rest = bytes.strip_prefix(&START)?;
    let (signer, rest) = rest.split_first_chunk::<32>()?;
    let (length, rest) = match rest.strip_prefix(&[0xa0])? {
        [n @ 0x40..=0x57, rest @ ..] => (usize::from(n - 0x40), rest),
        [0x58, n, rest @ ..] => (usize::from(*n), rest),
        [0x59, high, low, rest @ ..] => (usize::from(u16::from_be_bytes([*high, *low])), rest),
        _ => return None,
    };
    Some((DeviceId(*signer), rest.get(..length)?))
}

/// Parses an envelope in the one accepted encoding, with any key id.
fn parse_any(bytes: &[u8]) -> Result<CoseSign1, EntryError> {
    let envelope = CoseSign1::from_tagged_slice(bytes).map_err(|_| EntryError::NotAnEnvelope)?;
    let expected =
        header(&envelope.protected.header.key_id).to_vec().map_err(|_| EntryError::NotAnEnvelope)?;
    let plain = envelope.protected.original_data.as_deref() == Some(expected.as_slice())
        && envelope.unprotected.is_empty()
        && envelope.payload.is_some()
        && envelope.signature.len() == 64
        && bytes.len() == envelope_length(expected.len(), envelope.payload.as_ref().map_or(0, Vec::len));
    if plain { Ok(envelope) } else { Err(EntryError::NotAnEnvelope) }
}

/// Returns the length of that encoding: tag, array of four, three byte strings and an empty map.
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
