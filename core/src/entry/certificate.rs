//! Device certificates: the organisation's signed word that a key belongs to one of its devices.

use serde::{Deserialize, Serialize};

use super::cbor;
use super::envelope::EntryError;
use super::key::{OrganisationKey, PublicKey, open_envelope};
use crate::clock::UtcMillis;
use crate::ids::{DeviceId, OrganisationId};

/// What a device or person may do.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Role {
    /// Records at the siding.
    Operator,
    /// Reads everything, settles, issues and revokes.
    Office,
    /// Reads one visit.
    Inspector,
}

/// Who a device is, in the organisation's words.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Certificate {
    /// The organisation.
    pub organisation: OrganisationId,
    /// The device's public key.
    pub device: DeviceId,
    /// The name it was enrolled under.
    pub name: String,
    /// What it may do.
    pub role: Role,
    /// When it was issued, by the server's clock.
    pub issued_at: UtcMillis,
    /// When it was revoked, by the server's clock. A later certificate of the same device replaces
    /// an earlier one; once revoked a device stays revoked.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub revoked_at: Option<UtcMillis>,
}

const PURPOSE: &str = "farsiding certificate 1";

impl Certificate {
    /// Signs the certificate.
    ///
    /// # Errors
    /// [`EntryError`] when it cannot be encoded.
    pub fn seal(&self, key: &OrganisationKey) -> Result<Vec<u8>, EntryError> {
        Ok(key.seal(cbor::encode(self)?, PURPOSE))
    }

    /// Checks a certificate against the organisation's public key.
    ///
    /// # Errors
    /// [`EntryError`] when the envelope, the signature or the signer is not right.
    pub fn open(bytes: &[u8], organisation_key: &PublicKey) -> Result<Certificate, EntryError> {
        let (signer, payload) = open_envelope(bytes, PURPOSE)?;
        if signer != *organisation_key {
            return Err(EntryError::WrongSigner);
        }
        Ok(cbor::decode(&payload)?)
    }
}
