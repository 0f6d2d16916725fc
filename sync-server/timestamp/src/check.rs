//! Checks a time stamp token (RFC 3161 over RFC 5652): what was stamped, when and by whom, and whether a
//! trusted root certifies that authority.

use cms::cert::CertificateChoices;
use cms::content_info::ContentInfo;
use cms::signed_data::{SignedData, SignerIdentifier, SignerInfo};
use der::asn1::{Any, ObjectIdentifier, OctetString};
use der::{Decode as _, Encode as _, Sequence};
use farsiding_core::clock::UtcMillis;
use rsa::sha2::{Digest as _, Sha256, Sha384, Sha512};
use x509_cert::Certificate;
use x509_cert::ext::pkix::{ExtendedKeyUsage, SubjectKeyIdentifier};
use x509_cert::spki::AlgorithmIdentifierOwned;
use x509_tsp::TstInfo;

use super::certificate_path::{
    SHA256, SHA384, SHA512, check_path, check_signature, check_validity, read_certificate,
};
use super::{StampError, unreadable};

const SIGNED_DATA: ObjectIdentifier = ObjectIdentifier::new_unwrap("1.2.840.113549.1.7.2");
const TST_INFO: ObjectIdentifier = ObjectIdentifier::new_unwrap("1.2.840.113549.1.9.16.1.4");
const CONTENT_TYPE: ObjectIdentifier = ObjectIdentifier::new_unwrap("1.2.840.113549.1.9.3");
const MESSAGE_DIGEST: ObjectIdentifier = ObjectIdentifier::new_unwrap("1.2.840.113549.1.9.4");
const SIGNING_CERTIFICATE: ObjectIdentifier = ObjectIdentifier::new_unwrap("1.2.840.113549.1.9.16.2.12");
const SIGNING_CERTIFICATE_V2: ObjectIdentifier = ObjectIdentifier::new_unwrap("1.2.840.113549.1.9.16.2.47");
const TIME_STAMPING: ObjectIdentifier = ObjectIdentifier::new_unwrap("1.3.6.1.5.5.7.3.8");

/// The attribute signing-certificate (RFC 2634, 5.4) or signing-certificate-v2 (RFC 5035, 3), which names the
/// signer's own certificate. The first names no algorithm and always uses SHA-1.
#[derive(Sequence)]
struct SigningCertificate {
    certs: Vec<EssCertId>,
    #[asn1(optional = "true")]
    policies: Option<Any>,
}

#[derive(Sequence)]
struct EssCertId {
    #[asn1(optional = "true")]
    algorithm: Option<AlgorithmIdentifierOwned>,
    hash: OctetString,
    #[asn1(optional = "true")]
    issuer_serial: Option<Any>,
}

/// The content of a token.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Stamp {
    /// The stamped time, to the second.
    pub at: UtcMillis,
    /// The inaccuracy of the time that the authority states, in milliseconds; 0 if it states none.
    pub accuracy_millis: i64,
    /// The token's serial number at its authority, in hexadecimal digits.
    pub serial: String,
    /// The policy of the stamp, as an object identifier.
    pub policy: String,
    /// The authority's name from its certificate.
    pub authority: String,
    /// Whether a path to a trusted root was checked. Without roots only the signature is checked.
    pub to_a_root: bool,
}

fn digest(algorithm: ObjectIdentifier, bytes: &[u8]) -> Result<Vec<u8>, StampError> {
    match algorithm {
        SHA256 => Ok(Sha256::digest(bytes).to_vec()),
        SHA384 => Ok(Sha384::digest(bytes).to_vec()),
        SHA512 => Ok(Sha512::digest(bytes).to_vec()),
        other => Err(StampError::Unsupported(other.to_string())),
    }
}

/// Returns the content of a token without checking anything.
pub(super) fn read_info(token: &[u8]) -> Result<(SignedData, Vec<u8>, TstInfo), StampError> {
    let outer = ContentInfo::from_der(token).map_err(unreadable)?;
    if outer.content_type != SIGNED_DATA {
        return Err(unreadable("it is not signed data"));
    }
    let signed: SignedData = outer.content.decode_as().map_err(unreadable)?;
    if signed.encap_content_info.econtent_type != TST_INFO {
        return Err(unreadable("what is signed in it is no time stamp"));
    }
    let content = signed.encap_content_info.econtent.as_ref().ok_or_else(|| unreadable("it is empty"))?;
    let content: OctetString = content.decode_as().map_err(unreadable)?;
    let info = TstInfo::from_der(content.as_bytes()).map_err(unreadable)?;
    Ok((signed, content.into_bytes(), info))
}

/// Checks that `token` is a time stamp on `stamped` by an authority that `roots` certify. Without roots the
/// path is not checked, which the result says.
///
/// # Errors
/// Returns a [`StampError`] that says which check failed. The function never panics, whatever the bytes are.
pub fn check(token: &[u8], stamped: &[u8], roots: &[Certificate]) -> Result<Stamp, StampError> {
    let (signed, content, info) = read_info(token)?;
    if info.message_imprint.hash_algorithm.oid != SHA256 {
        return Err(StampError::Unsupported(info.message_imprint.hash_algorithm.oid.to_string()));
    }
    if let Some(odd) = info.extensions.iter().flatten().find(|extension| extension.critical) {
        return Err(StampError::Unsupported(odd.extn_id.to_string()));
    }
    let [signer] = signed.signer_infos.0.as_slice() else {
        return Err(unreadable("it must have exactly one signer"));
    };
    let certificates = certificates(&signed)?;
    let certificate = certificates
        .iter()
        .find(|certificate| is_of(&signer.sid, certificate))
        .ok_or_else(|| StampError::NoSigner("none in it is the one it names".to_owned()))?;
    check_signer(signer, &content, certificate)?;
    // The signature of the authority holds; now check that the token is for these bytes.
    if info.message_imprint.hashed_message.as_bytes() != Sha256::digest(stamped).as_slice() {
        return Err(StampError::OtherImprint);
    }
    check_usage(certificate)?;
    check_named(signer, certificate)?;
    let seconds = i64::try_from(info.gen_time.to_unix_duration().as_secs()).map_err(unreadable)?;
    let at = UtcMillis(seconds.saturating_mul(1000));
    check_validity(certificate, at)?;
    if !roots.is_empty() {
        check_path(certificate, &certificates, roots, at)?;
    }
    let accuracy_millis = info.accuracy.as_ref().map_or(0, |accuracy| {
        let seconds = i64::try_from(accuracy.seconds.unwrap_or(0)).unwrap_or(i64::MAX);
        let rest = i64::from(accuracy.millis.unwrap_or(0)) + i64::from(accuracy.micros.unwrap_or(0) > 0);
        seconds.saturating_mul(1000).saturating_add(rest)
    });
    Ok(Stamp {
        at,
        accuracy_millis,
        serial: info.serial_number.as_bytes().iter().map(|byte| format!("{byte:02x}")).collect(),
        policy: info.policy.to_string(),
        authority: certificate.tbs_certificate.subject.to_string(),
        to_a_root: !roots.is_empty(),
    })
}

fn certificates(signed: &SignedData) -> Result<Vec<Certificate>, StampError> {
    let choices = signed.certificates.iter().flat_map(|set| set.0.iter());
    choices
        .filter_map(|choice| match choice {
            CertificateChoices::Certificate(certificate) => Some(certificate.to_der()),
            CertificateChoices::Other(_) => None,
        })
        .map(|der| read_certificate(&der.map_err(unreadable)?))
        .collect()
}

fn is_of(sid: &SignerIdentifier, certificate: &Certificate) -> bool {
    let tbs = &certificate.tbs_certificate;
    match sid {
        SignerIdentifier::IssuerAndSerialNumber(named) => {
            named.issuer == tbs.issuer && named.serial_number == tbs.serial_number
        }
        SignerIdentifier::SubjectKeyIdentifier(named) => tbs
            .get::<SubjectKeyIdentifier>()
            .is_ok_and(|found| found.is_some_and(|(_, own)| own.0 == named.0)),
    }
}

fn check_signer(signer: &SignerInfo, content: &[u8], certificate: &Certificate) -> Result<(), StampError> {
    let attributes = signer.signed_attrs.as_ref().ok_or_else(|| unreadable("it has no signed attributes"))?;
    let attribute = |oid| attribute(signer, oid);
    let lacks = |what: &str| unreadable(format!("it lacks its signed {what}"));
    let signed_type = attribute(CONTENT_TYPE).ok_or_else(|| lacks("content type"))?;
    if signed_type.decode_as::<ObjectIdentifier>().map_err(unreadable)? != TST_INFO {
        return Err(StampError::Altered);
    }
    let signed_digest = attribute(MESSAGE_DIGEST).ok_or_else(|| lacks("digest"))?;
    let signed_digest: OctetString = signed_digest.decode_as().map_err(unreadable)?;
    if signed_digest.as_bytes() != digest(signer.digest_alg.oid, content)? {
        return Err(StampError::Altered);
    }
    let message = attributes.to_der().map_err(unreadable)?;
    let key = &certificate.tbs_certificate.subject_public_key_info;
    check_signature(
        key,
        &signer.signature_algorithm,
        signer.digest_alg.oid,
        &message,
        signer.signature.as_bytes(),
    )?;
    Ok(())
}

/// Returns the value of a signed attribute that occurs once and has one value.
fn attribute(signer: &SignerInfo, oid: ObjectIdentifier) -> Option<Any> {
    let mut found = signer.signed_attrs.as_ref()?.iter().filter(|attribute| attribute.oid == oid);
    let values = found.next().map(|attribute| attribute.values.as_slice());
    match (values, found.next()) {
        (Some([value]), None) => Some(value.clone()),
        _ => None,
    }
}

/// Checks that the token names its signer's certificate by digest (RFC 3161, 2.4.2, and RFC 5816), so that
/// the certificate cannot be replaced by another one with the same key.
fn check_named(signer: &SignerInfo, certificate: &Certificate) -> Result<(), StampError> {
    let der = certificate.to_der().map_err(unreadable)?;
    let mut named_at_all = false;
    for oid in [SIGNING_CERTIFICATE_V2, SIGNING_CERTIFICATE] {
        let Some(named) = attribute(signer, oid) else { continue };
        named_at_all = true;
        let named: SigningCertificate = named.decode_as().map_err(unreadable)?;
        let own = named.certs.first().ok_or_else(|| StampError::NoSigner("it names none".to_owned()))?;
        let digested = if oid == SIGNING_CERTIFICATE {
            <sha1::Sha1 as sha1::Digest>::digest(&der).to_vec()
        } else {
            digest(own.algorithm.as_ref().map_or(SHA256, |algorithm| algorithm.oid), &der)?
        };
        if digested != own.hash.as_bytes() {
            return Err(StampError::NoSigner("the one in it is not the one that was signed with".to_owned()));
        }
    }
    if named_at_all { Ok(()) } else { Err(StampError::NoSigner("it does not name one by digest".to_owned())) }
}

/// Checks that the certificate is for time stamps and nothing else, and that the extension that says so is
/// critical (RFC 3161, 2.3).
fn check_usage(certificate: &Certificate) -> Result<(), StampError> {
    let usage = certificate.tbs_certificate.get::<ExtendedKeyUsage>().map_err(unreadable)?;
    match usage {
        Some((true, usage)) if usage.0.as_slice() == [TIME_STAMPING] => Ok(()),
        _ => Err(StampError::NotAnAuthority),
    }
}
