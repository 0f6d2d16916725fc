//! Ed25519 keys and the COSE_Sign1 envelope (RFC 9052, 4.2) every signed thing here travels in.
//!
//! The protected header is exactly `{1: -8, 4: public key}`; nothing is unprotected. Since there is
//! one way to write it, an envelope is checked by writing it again.

use coset::{CborSerializable, CoseSign1, CoseSign1Builder, HeaderBuilder, TaggedCborSerializable, iana};
use ed25519_dalek::{Signature, Signer, SigningKey, VerifyingKey};

use super::error::EntryError;
use super::organisation::{OrganisationKeys, Trusts, Use};
use crate::ids::{DeviceId, Randomness};
use std::sync::Arc;

/// Who signed: 32 bytes of Ed25519 public key (RFC 8032).
pub type PublicKey = DeviceId;

/// A device's signing key.
pub struct DeviceKey(SigningKey);

/// The organisation's signing key, held by the server: the root itself, or a key that signs in its place.
pub struct OrganisationKey {
    signing: SigningKey,
    keys: Arc<OrganisationKeys>,
}

/// A person's own signing key, held on a phone under the person's PIN or by the platform.
pub struct PersonSigner(SigningKey);

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
                let kid = self.0.verifying_key().to_bytes();
                seal_envelope(&self.0, payload, purpose, &kid)
            }
            /// Signs a transport message: the key is known to the other side, so the header carries
            /// only `hint` (a few bytes to find it by, or none).
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
    /// A new root from the injected randomness, which signs for itself.
    pub fn random(randomness: &mut dyn Randomness) -> Self {
        let mut secret = [0u8; 32];
        randomness.fill(&mut secret);
        Self::from_secret(secret)
    }

    /// The root with this secret (RFC 8032, 5.1.5), which signs for itself.
    pub fn from_secret(secret: [u8; 32]) -> Self {
        let signing = SigningKey::from_bytes(&secret);
        let keys = OrganisationKeys::of_root(DeviceId(signing.verifying_key().to_bytes()));
        Self { signing, keys: Arc::new(keys) }
    }

    /// The key with this secret, as one of an organisation's: the root, or a key it named. Whether it may
    /// sign now is for [`OrganisationKeys::standing`].
    pub fn among(secret: [u8; 32], keys: OrganisationKeys) -> Self {
        Self { signing: SigningKey::from_bytes(&secret), keys: Arc::new(keys) }
    }

    /// The secret, for the shell's safe keeping.
    pub fn secret(&self) -> [u8; 32] {
        self.signing.to_bytes()
    }

    /// The organisation's public key: the root's, which is pinned and whose digest is the organisation's id.
    pub fn public(&self) -> PublicKey {
        self.keys.root()
    }

    /// The public half of the key that signs.
    pub fn signer(&self) -> PublicKey {
        DeviceId(self.signing.verifying_key().to_bytes())
    }

    /// The organisation's keys as known to whoever holds this one.
    pub fn keys(&self) -> &OrganisationKeys {
        &self.keys
    }

    /// Signs `payload` into an envelope that names the key that signs; `purpose` as for [`DeviceKey::seal`].
    pub fn seal(&self, payload: Vec<u8>, purpose: &'static str) -> Vec<u8> {
        seal_envelope(&self.signing, payload, purpose, &self.signer().0)
    }

    /// Signs a transport message, as [`DeviceKey::seal_addressed`].
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
            /// Signs a text as it stands, outside any envelope: only for the text of a signed note, which
            /// begins with its log's name as no envelope does (an envelope's begins with 0x84).
            pub(crate) fn sign_text(&self, text: &str) -> [u8; 64] {
                self.$key.sign(text.as_bytes()).to_bytes()
            }
        }
    )* };
}
signs_notes!(DeviceKey: 0, OrganisationKey: signing);

/// The one protected header: algorithm EdDSA and, unless empty, the key id.
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

/// The signature alone of an envelope over `payload`, for whoever keeps signer and payload elsewhere.
pub(super) fn seal_detached(key: &PersonSigner, payload: Vec<u8>, purpose: &str) -> Vec<u8> {
    let kid = key.public().0;
    CoseSign1Builder::new()
        .protected(header(&kid))
        .payload(payload)
        .create_signature(purpose.as_bytes(), |message| key.0.sign(message).to_bytes().to_vec())
        .build()
        .signature
}

/// Whether `signature` is that of an envelope by `signer` over `payload`.
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
/// [`EntryError::NotAnEnvelope`] for anything but the one form this tool writes,
/// [`EntryError::BadSignature`] when the signature does not hold (strict verification, RFC 8032).
pub fn open_envelope(bytes: &[u8], purpose: &str) -> Result<(PublicKey, Vec<u8>), EntryError> {
    let (signer, envelope) = parse_envelope(bytes)?;
    verify(&envelope, purpose, &signer)?;
    Ok((signer, envelope.payload.unwrap_or_default()))
}

/// As [`open_envelope`], for a message whose payload says which purpose it was signed for. `read` is given
/// bytes that are not checked yet; nothing it returns leaves before the signature was found to hold.
///
/// # Errors
/// As [`open_envelope`], and whatever `read` finds wrong.
pub(super) fn open_envelope_as<T>(
    bytes: &[u8],
    read: impl FnOnce(&[u8]) -> Result<(&'static str, T), EntryError>,
) -> Result<(PublicKey, T), EntryError> {
    let (signer, envelope) = parse_envelope(bytes)?;
    let (purpose, content) = read(envelope.payload.as_deref().unwrap_or_default())?;
    verify(&envelope, purpose, &signer)?;
    Ok((signer, content))
}

/// Checks a transport message against the key it must be signed by and returns its payload.
///
/// # Errors
/// As [`open_envelope`].
pub fn open_addressed(bytes: &[u8], purpose: &str, signer: &PublicKey) -> Result<Vec<u8>, EntryError> {
    let envelope = parse_any(bytes)?;
    verify(&envelope, purpose, signer)?;
    Ok(envelope.payload.unwrap_or_default())
}

/// Checks a transport message of an organisation, which does not name its signer. `read` is given bytes whose
/// signature was found to hold, and tells what they stand under.
///
/// # Errors
/// As [`open_envelope`], [`EntryError::Key`] when the key may not have signed it, and whatever `read` finds wrong.
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

/// The bytes a transport message gives to find its signer by; nothing is checked.
///
/// # Errors
/// [`EntryError::NotAnEnvelope`].
pub fn hint_of(bytes: &[u8]) -> Result<Vec<u8>, EntryError> {
    Ok(parse_any(bytes)?.protected.header.key_id)
}

/// Whether `signer` signed this text as it stands (strict verification, RFC 8032).
pub(crate) fn text_signature_holds(signer: &PublicKey, text: &str, signature: &[u8]) -> bool {
    let Ok(key) = VerifyingKey::from_bytes(&signer.0) else { return false };
    Signature::from_slice(signature).is_ok_and(|s| key.verify_strict(text.as_bytes(), &s).is_ok())
}

/// Whether a public key is one a device or person can have: a point of the curve in its one encoding
/// (RFC 8032, 5.1.3), and none of the few of small order, under which a signature says nothing.
pub fn is_sound_key(key: &PublicKey) -> bool {
    let one_encoding = || is_below_field(&key.0);
    VerifyingKey::from_bytes(&key.0).is_ok_and(|point| !point.is_weak()) && one_encoding()
}

/// Whether the y of an encoded point, its low 255 bits, is below the field's 2^255 - 19.
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

/// Takes an envelope apart without checking its signature.
pub(super) fn parse_envelope(bytes: &[u8]) -> Result<(PublicKey, CoseSign1), EntryError> {
    let envelope = parse_any(bytes)?;
    let signer =
        envelope.protected.header.key_id.as_slice().try_into().map_err(|_| EntryError::NotAnEnvelope)?;
    Ok((DeviceId(signer), envelope))
}

/// Finds signer and payload in an envelope that was checked when it came in and whose digest was
/// compared since. There is one encoding, so both stand at known places.
pub(super) fn slice_envelope(bytes: &[u8]) -> Option<(PublicKey, &[u8])> {
    // Tag 18, array of 4, 38 bytes of protected header: {1: -8, 4: 32 bytes}; then an empty map.
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

/// Takes apart an envelope in the one form this tool writes, whatever its key id.
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
