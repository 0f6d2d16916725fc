//! The request to a time stamp authority and its answer (RFC 3161, 2.4).

use der::asn1::{Any, Int, Null, OctetString};
use der::{Decode as _, Encode as _};
use rsa::sha2::{Digest as _, Sha256};
use x509_cert::spki::AlgorithmIdentifier;
use x509_tsp::{MessageImprint, TimeStampReq, TimeStampResp, TspVersion};

use super::certificate_path::SHA256;
use super::check::read_info;
use super::{StampError, unreadable};

fn nonce_of(nonce: [u8; 8]) -> Result<Int, StampError> {
    // The number must be positive and in its shortest form. A leading byte 0x01 ensures both, whatever
    // follows.
    let bytes = [&[1u8], nonce.as_slice()].concat();
    Int::new(&bytes).map_err(unreadable)
}

/// Returns the request for a time stamp on `stamped`. `nonce` must be random; the authority repeats it in its
/// answer.
///
/// # Errors
/// Returns [`StampError::NotAToken`] when the request cannot be encoded.
pub fn request(stamped: &[u8], nonce: [u8; 8]) -> Result<Vec<u8>, StampError> {
    let imprint = MessageImprint {
        hash_algorithm: AlgorithmIdentifier { oid: SHA256, parameters: Some(Any::from(Null)) },
        hashed_message: OctetString::new(Sha256::digest(stamped).to_vec()).map_err(unreadable)?,
    };
    let request = TimeStampReq {
        version: TspVersion::V1,
        message_imprint: imprint,
        req_policy: None,
        nonce: Some(nonce_of(nonce)?),
        cert_req: true,
        extensions: None,
    };
    request.to_der().map_err(unreadable)
}

/// Returns the token from an authority's answer to a request with this nonce.
///
/// # Errors
/// Returns [`StampError::Refused`] when the authority gave no stamp, [`StampError::OtherRequest`] for another
/// nonce, or [`StampError::NotAToken`].
pub fn token_of(answer: &[u8], nonce: [u8; 8]) -> Result<Vec<u8>, StampError> {
    let answer = TimeStampResp::from_der(answer).map_err(|error| {
        StampError::Refused(format!("what came back is not an authority's answer ({error})"))
    })?;
    let status = answer.status.status as u8;
    let Some(token) = answer.time_stamp_token.filter(|_| status <= 1) else {
        let words: Vec<String> = answer
            .status
            .status_string
            .iter()
            .flatten()
            .map(|text| text.as_str().chars().filter(|c| !c.is_control()).take(200).collect())
            .collect();
        return Err(StampError::Refused(format!("status {status} {}", words.join("; ")).trim().to_owned()));
    };
    let token = token.to_der().map_err(unreadable)?;
    let (_, _, info) = read_info(&token)?;
    if info.nonce != Some(nonce_of(nonce)?) {
        return Err(StampError::OtherRequest);
    }
    Ok(token)
}
