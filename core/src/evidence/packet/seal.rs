//! The seal: the organisation's signature over the whole file, stored inside the file.
//!
//! `seal.cbor` is stored in the file uncompressed. It signs the digest of the file with the seal's own bytes
//! zeroed. It also lists every attachment, so that a check can tell what was changed.

use serde::{Deserialize, Serialize};

use super::FORMAT;
use super::parts::{Entries, PartsError, read};
use crate::clock::UtcMillis;
use crate::entry::{EntryError, OrganisationKey, PublicKey, Trusts, Use, cbor, open_addressed};
use crate::ids::{Digest, EntryId, VisitId};
use crate::tree::tree_of;

const PURPOSE: &str = "farsiding packet 1";

/// A sealed attachment.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Listed {
    /// The attachment's name.
    pub name: String,
    /// The SHA-256 of its bytes.
    pub sha256: Digest,
    /// The number of bytes.
    pub length: u64,
}

/// The sealed entries: their number in all lists, and the RFC 9162 root over their ids, list after list.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct SealedEntries {
    /// The number of entries.
    pub count: u64,
    /// The root; for no entries the SHA-256 of no bytes.
    pub root: Digest,
}

impl SealedEntries {
    /// Computes both for these entries, whatever their bytes are.
    pub fn of(entries: &Entries) -> SealedEntries {
        let ids: Vec<EntryId> = entries.all().map(|bytes| EntryId(Digest::of(bytes).0)).collect();
        let root = tree_of(&ids).unwrap_or_else(|| Digest::of(b""));
        SealedEntries { count: ids.len() as u64, root }
    }
}

/// The signed content. Every field but `file` is known before the file is written, and `file` has a fixed
/// length, so the length of the seal is known in advance.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Seal {
    /// Always [`FORMAT`].
    pub format: String,
    /// The version of the fold that produced the record, see [`crate::view::FOLD_VERSION`]. Absent in packets
    /// of version one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub fold: Option<u64>,
    /// The version of the layout in which the pages were drawn. Absent in packets from before layouts had
    /// versions; their pages are not drawn again.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub pages: Option<u64>,
    /// The language of the pages, as a BCP 47 tag. Absent in packets in American English, and so in all from
    /// before layouts had languages.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub language: Option<String>,
    /// The SHA-256 of the whole file with the seal's bytes zeroed.
    pub file: Digest,
    /// The visits of the stay.
    pub stay: Vec<VisitId>,
    /// The time that the packet speaks for: the time when the office received the stay's last entry.
    pub at: UtcMillis,
    /// The entries.
    pub entries: SealedEntries,
    /// All attachments except the seal, ordered by name.
    pub attachments: Vec<Listed>,
}

impl Seal {
    /// Returns the version of the fold that produced the record.
    pub fn fold(&self) -> u64 {
        self.fold.unwrap_or(1)
    }

    /// Reads the seal and checks its signature.
    ///
    /// # Errors
    /// [`EntryError::WrongSigner`] if the seal names another key, [`EntryError::BadSignature`] if the
    /// signature is invalid, [`PartsError::Unreadable`] if the bytes are not a seal.
    pub fn open(bytes: &[u8], organisation: &dyn Trusts) -> Result<Seal, PartsError> {
        Ok(Seal::open_signed(bytes, organisation)?.1)
    }

    /// Does the same as [`Seal::open`] and also returns the key that sealed.
    ///
    /// # Errors
    /// As for [`Seal::open`].
    pub fn open_signed(bytes: &[u8], organisation: &dyn Trusts) -> Result<(PublicKey, Seal), PartsError> {
        let named = crate::entry::hint_of(bytes)?;
        let Some(key) = organisation.signers().into_iter().find(|key| named == key.0) else {
            return Err(EntryError::WrongSigner.into());
        };
        let payload = open_addressed(bytes, PURPOSE, &key)?;
        let seal: Seal = read(super::SEAL, &payload)?;
        organisation.allows(&key, Use::Past { at: seal.at }).map_err(EntryError::from)?;
        if seal.format == FORMAT {
            Ok((key, seal))
        } else {
            let why = format!("its format is \"{}\", this version knows \"{FORMAT}\"", seal.format);
            Err(PartsError::Unreadable { name: super::SEAL, why })
        }
    }
}

/// Signs a seal.
///
/// # Errors
/// [`PartsError::Unwritable`] if encoding fails.
pub fn seal(seal: &Seal, key: &OrganisationKey) -> Result<Vec<u8>, PartsError> {
    let payload = cbor::encode(seal).map_err(EntryError::from)?;
    Ok(key.seal(payload, PURPOSE))
}

/// Returns the bytes that reserve the seal's place in the file: as many as the seal will have, and unlike
/// anything else in the file.
///
/// # Errors
/// [`PartsError::Unwritable`] if encoding fails.
pub fn placeholder(unsealed: &Seal, key: &OrganisationKey) -> Result<Vec<u8>, PartsError> {
    Ok(placeholder_of(seal(unsealed, key)?.len()))
}

/// Returns such bytes for a seal of known length.
pub fn placeholder_of(length: usize) -> Vec<u8> {
    b"the seal goes here ".iter().copied().cycle().take(length).collect()
}
