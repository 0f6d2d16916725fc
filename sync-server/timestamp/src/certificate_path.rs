//! The path of certificates from a time stamp's signer to a trusted root: signatures, validity, and the right
//! to certify others.

use der::asn1::ObjectIdentifier;
use der::{Decode as _, Encode as _};
use farsiding_core::clock::UtcMillis;
use p256::ecdsa::signature::Verifier as _;
use p256::ecdsa::signature::hazmat::PrehashVerifier as _;
use rsa::pkcs1::{DecodeRsaPublicKey as _, RsaPssParams};
use rsa::sha2::{Digest as _, Sha256, Sha384, Sha512};
use rsa::{RsaPublicKey, pkcs1v15, pss};
use x509_cert::Certificate;
use x509_cert::ext::pkix::{BasicConstraints, KeyUsage};
use x509_cert::spki::{AlgorithmIdentifierOwned, SubjectPublicKeyInfoOwned};

use super::{StampError, unreadable};

const RSA: ObjectIdentifier = ObjectIdentifier::new_unwrap("1.2.840.113549.1.1.1");
const RSA_PSS: ObjectIdentifier = ObjectIdentifier::new_unwrap("1.2.840.113549.1.1.10");
const RSA_SHA256: ObjectIdentifier = ObjectIdentifier::new_unwrap("1.2.840.113549.1.1.11");
const RSA_SHA384: ObjectIdentifier = ObjectIdentifier::new_unwrap("1.2.840.113549.1.1.12");
const RSA_SHA512: ObjectIdentifier = ObjectIdentifier::new_unwrap("1.2.840.113549.1.1.13");
const MASK_GENERATION: ObjectIdentifier = ObjectIdentifier::new_unwrap("1.2.840.113549.1.1.8");
const ECDSA_SHA256: ObjectIdentifier = ObjectIdentifier::new_unwrap("1.2.840.10045.4.3.2");
const ECDSA_SHA384: ObjectIdentifier = ObjectIdentifier::new_unwrap("1.2.840.10045.4.3.3");
const ECDSA_SHA512: ObjectIdentifier = ObjectIdentifier::new_unwrap("1.2.840.10045.4.3.4");
const P256: ObjectIdentifier = ObjectIdentifier::new_unwrap("1.2.840.10045.3.1.7");
const P384: ObjectIdentifier = ObjectIdentifier::new_unwrap("1.3.132.0.34");
const BASIC_CONSTRAINTS: ObjectIdentifier = ObjectIdentifier::new_unwrap("2.5.29.19");
const KEY_USAGE: ObjectIdentifier = ObjectIdentifier::new_unwrap("2.5.29.15");
const EXTENDED_KEY_USAGE: ObjectIdentifier = ObjectIdentifier::new_unwrap("2.5.29.37");
const CERTIFICATE_POLICIES: ObjectIdentifier = ObjectIdentifier::new_unwrap("2.5.29.32");
pub(super) const SHA256: ObjectIdentifier = ObjectIdentifier::new_unwrap("2.16.840.1.101.3.4.2.1");
pub(super) const SHA384: ObjectIdentifier = ObjectIdentifier::new_unwrap("2.16.840.1.101.3.4.2.2");
pub(super) const SHA512: ObjectIdentifier = ObjectIdentifier::new_unwrap("2.16.840.1.101.3.4.2.3");

/// The longest path that is followed, in certificates.
const LONGEST: usize = 8;

/// Parses one or more trusted roots from PEM.
///
/// # Errors
/// Returns [`StampError::NotAToken`] when the text holds no certificate.
pub fn read_roots(pem: &[u8]) -> Result<Vec<Certificate>, StampError> {
    if !pem.windows(27).any(|window| window == b"-----BEGIN CERTIFICATE-----") {
        return Err(unreadable("there is no certificate (PEM) in the file of roots"));
    }
    Certificate::load_pem_chain(pem).map_err(unreadable)
}

/// Checks a signature made with `algorithm`. If the algorithm names only the kind of key, `digest` names the
/// digest. Known are RSA with PKCS #1 v1.5 and PSS (RFC 8017), and ECDSA on P-256 and P-384 (FIPS 186-5), each
/// with SHA-256, SHA-384 and SHA-512.
///
/// # Errors
/// Returns [`StampError::BadSignature`], or [`StampError::Unsupported`] for an unknown algorithm.
pub(super) fn check_signature(
    key: &SubjectPublicKeyInfoOwned,
    algorithm: &AlgorithmIdentifierOwned,
    digest: ObjectIdentifier,
    message: &[u8],
    signature: &[u8],
) -> Result<(), StampError> {
    match algorithm.oid {
        RSA => check_rsa(key, digest, message, signature),
        RSA_SHA256 => check_rsa(key, SHA256, message, signature),
        RSA_SHA384 => check_rsa(key, SHA384, message, signature),
        RSA_SHA512 => check_rsa(key, SHA512, message, signature),
        RSA_PSS => check_pss(key, algorithm, message, signature),
        ECDSA_SHA256 => check_ecdsa(key, &Sha256::digest(message), signature),
        ECDSA_SHA384 => check_ecdsa(key, &Sha384::digest(message), signature),
        ECDSA_SHA512 => check_ecdsa(key, &Sha512::digest(message), signature),
        other => Err(StampError::Unsupported(other.to_string())),
    }
}

/// Returns the RSA key of a certificate, whether the certificate names it for RSA or for PSS alone.
fn rsa_key(key: &SubjectPublicKeyInfoOwned) -> Result<RsaPublicKey, StampError> {
    if ![RSA, RSA_PSS].contains(&key.algorithm.oid) {
        return Err(StampError::BadSignature);
    }
    let bytes = key.subject_public_key.as_bytes().ok_or_else(|| unreadable("its key has odd bits"))?;
    RsaPublicKey::from_pkcs1_der(bytes).map_err(unreadable)
}

fn check_rsa(
    key: &SubjectPublicKeyInfoOwned,
    digest: ObjectIdentifier,
    message: &[u8],
    signature: &[u8],
) -> Result<(), StampError> {
    let key = rsa_key(key)?;
    let signature = pkcs1v15::Signature::try_from(signature).map_err(|_| StampError::BadSignature)?;
    let outcome = match digest {
        SHA256 => pkcs1v15::VerifyingKey::<Sha256>::new(key).verify(message, &signature),
        SHA384 => pkcs1v15::VerifyingKey::<Sha384>::new(key).verify(message, &signature),
        SHA512 => pkcs1v15::VerifyingKey::<Sha512>::new(key).verify(message, &signature),
        other => return Err(StampError::Unsupported(other.to_string())),
    };
    outcome.map_err(|_| StampError::BadSignature)
}

/// Checks a PSS signature by the digest, mask and length of salt that the algorithm's parameters name. A mask
/// made with another digest than the message's is not supported.
fn check_pss(
    key: &SubjectPublicKeyInfoOwned,
    algorithm: &AlgorithmIdentifierOwned,
    message: &[u8],
    signature: &[u8],
) -> Result<(), StampError> {
    let parameters = algorithm.parameters.as_ref().ok_or_else(|| unreadable("PSS without parameters"))?;
    let parameters = parameters.to_der().map_err(unreadable)?;
    let parameters = RsaPssParams::from_der(&parameters).map_err(unreadable)?;
    let digest = parameters.hash.oid;
    let mask = parameters.mask_gen.parameters.map(|digest| digest.oid);
    if parameters.mask_gen.oid != MASK_GENERATION || mask != Some(digest) {
        return Err(StampError::Unsupported("a PSS mask of another digest".to_owned()));
    }
    let (key, salt) = (rsa_key(key)?, usize::from(parameters.salt_len));
    let signature = pss::Signature::try_from(signature).map_err(|_| StampError::BadSignature)?;
    let outcome = match digest {
        SHA256 => pss::VerifyingKey::<Sha256>::new_with_salt_len(key, salt).verify(message, &signature),
        SHA384 => pss::VerifyingKey::<Sha384>::new_with_salt_len(key, salt).verify(message, &signature),
        SHA512 => pss::VerifyingKey::<Sha512>::new_with_salt_len(key, salt).verify(message, &signature),
        other => return Err(StampError::Unsupported(other.to_string())),
    };
    outcome.map_err(|_| StampError::BadSignature)
}

fn check_ecdsa(key: &SubjectPublicKeyInfoOwned, digest: &[u8], signature: &[u8]) -> Result<(), StampError> {
    let curve = key.algorithm.parameters.as_ref().and_then(|p| p.decode_as::<ObjectIdentifier>().ok());
    let point = key.subject_public_key.as_bytes().ok_or_else(|| unreadable("its key has odd bits"))?;
    let outcome = match curve {
        Some(P256) => {
            let key = p256::ecdsa::VerifyingKey::from_sec1_bytes(point).map_err(unreadable)?;
            p256::ecdsa::Signature::from_der(signature).and_then(|one| key.verify_prehash(digest, &one))
        }
        Some(P384) => {
            let key = p384::ecdsa::VerifyingKey::from_sec1_bytes(point).map_err(unreadable)?;
            p384::ecdsa::Signature::from_der(signature).and_then(|one| key.verify_prehash(digest, &one))
        }
        other => {
            let curve = other.map_or_else(String::new, |curve| format!(" ({curve})"));
            return Err(StampError::Unsupported(format!(
                "an elliptic curve other than P-256 and P-384{curve}"
            )));
        }
    };
    outcome.map_err(|_| StampError::BadSignature)
}

/// Checks that a certificate was valid at an instant.
///
/// # Errors
/// Returns [`StampError::NotValidThen`] when it was not.
pub(super) fn check_validity(certificate: &Certificate, at: UtcMillis) -> Result<(), StampError> {
    let validity = certificate.tbs_certificate.validity;
    let seconds = |time: x509_cert::time::Time| time.to_unix_duration().as_secs();
    let then = u64::try_from(at.0.div_euclid(1000)).unwrap_or(0);
    if (seconds(validity.not_before)..=seconds(validity.not_after)).contains(&then) {
        Ok(())
    } else {
        Err(StampError::NotValidThen(certificate.tbs_certificate.subject.to_string()))
    }
}

/// Returns whether a certificate may certify others, with `below` certificates of authorities between it and
/// the signer.
fn may_certify(certificate: &Certificate, below: usize) -> bool {
    let tbs = &certificate.tbs_certificate;
    let constraints = tbs.get::<BasicConstraints>().ok().flatten().map(|(_, constraints)| constraints);
    let long_enough = |most: Option<u8>| most.is_none_or(|most| below <= usize::from(most));
    let usage = tbs.get::<KeyUsage>().map(|found| found.is_none_or(|(_, usage)| usage.key_cert_sign()));
    constraints.is_some_and(|constraints| constraints.ca && long_enough(constraints.path_len_constraint))
        && usage.unwrap_or(false)
}

/// Refuses a certificate with an unknown critical extension, as RFC 5280, 4.2 requires.
///
/// # Errors
/// Returns [`StampError::Unsupported`] for an unknown critical extension.
pub(super) fn check_critical(certificate: &Certificate) -> Result<(), StampError> {
    let known = [BASIC_CONSTRAINTS, KEY_USAGE, EXTENDED_KEY_USAGE, CERTIFICATE_POLICIES];
    let mut all = certificate.tbs_certificate.extensions.iter().flatten();
    match all.find(|extension| extension.critical && !known.contains(&extension.extn_id)) {
        Some(unknown) => Err(StampError::Unsupported(format!("critical extension {}", unknown.extn_id))),
        None => Ok(()),
    }
}

/// Returns whether `issuer` certified `certificate`, with `below` authorities between it and the signer.
fn certified(certificate: &Certificate, issuer: &Certificate, below: usize) -> bool {
    let (tbs, by) = (&certificate.tbs_certificate, &issuer.tbs_certificate);
    let Ok(message) = tbs.to_der() else { return false };
    let Some(signature) = certificate.signature.as_bytes() else { return false };
    let algorithm = &certificate.signature_algorithm;
    tbs.issuer == by.subject
        && may_certify(issuer, below)
        && check_signature(&by.subject_public_key_info, algorithm, SHA256, &message, signature).is_ok()
}

/// Checks that a path leads from `signer` over `others` to one of `roots`.
///
/// # Errors
/// Returns [`StampError::OtherRoot`] when no path leads to a root, or [`StampError::NotValidThen`].
pub(super) fn check_path(
    signer: &Certificate,
    others: &[Certificate],
    roots: &[Certificate],
    at: UtcMillis,
) -> Result<(), StampError> {
    let mut here = signer;
    for below in 0..LONGEST {
        check_validity(here, at)?;
        check_critical(here)?;
        if roots.contains(here) {
            return Ok(());
        }
        if let Some(root) = roots.iter().find(|root| certified(here, root, below)) {
            return check_validity(root, at);
        }
        let Some(next) = others.iter().find(|other| *other != here && certified(here, other, below)) else {
            break;
        };
        here = next;
    }
    Err(StampError::OtherRoot(here.tbs_certificate.issuer.to_string()))
}

/// Parses a certificate from DER.
///
/// # Errors
/// Returns [`StampError::NotAToken`] when the bytes are not a certificate.
pub(super) fn read_certificate(der: &[u8]) -> Result<Certificate, StampError> {
    Certificate::from_der(der).map_err(unreadable)
}
