//! The seal: the organisation's signature over the whole file, kept inside it.
//!
//! `seal.cbor` stands in the file uncompressed. It is signed over the file's digest with the seal's own
//! bytes zeroed; besides the file it lists every attachment, so that it can be said what was changed.

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
    /// Its name.
    pub name: String,
    /// The SHA-256 of its bytes.
    pub sha256: Digest,
    /// Their number.
    pub length: u64,
}

/// The sealed entries: how many in all lists, and the RFC 9162 root over their ids, list after list.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct SealedEntries {
    /// How many.
    pub count: u64,
    /// The root; of no entries the SHA-256 of nothing.
    pub root: Digest,
}

impl SealedEntries {
    /// Of these entries, whatever their bytes are.
    pub fn of(entries: &Entries) -> SealedEntries {
        let ids: Vec<EntryId> = entries.all().map(|bytes| EntryId(Digest::of(bytes).0)).collect();
        let root = tree_of(&ids).unwrap_or_else(|| Digest::of(b""));
        SealedEntries { count: ids.len() as u64, root }
    }
}

/// What is signed. Every field but `file` is known before the file is written, and `file` has a fixed
/// length, so the seal's length is known in advance.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Seal {
    /// Always [`FORMAT`].
    pub format: String,
    /// By which version of the fold its record was made, see [`crate::view::FOLD_VERSION`]. Absent in packets of
    /// version one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub fold: Option<u64>,
    /// By which version of the layout its pages were drawn. Absent in packets of before there were several: their
    /// pages are drawn again by nobody.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub pages: Option<u64>,
    /// The SHA-256 of the whole file with the seal's bytes zeroed.
    pub file: Digest,
    /// The visits of the stay.
    pub stay: Vec<VisitId>,
    /// The time the packet speaks for: when the office received the stay's last entry.
    pub at: UtcMillis,
    /// The entries.
    pub entries: SealedEntries,
    /// Every attachment but the seal, by name.
    pub attachments: Vec<Listed>,
}

impl Seal {
    /// By which version of the fold its record was made.
    pub fn fold(&self) -> u64 {
        self.fold.unwrap_or(1)
    }

    /// Checks the signature and reads the seal.
    ///
    /// # Errors
    /// [`EntryError::WrongSigner`] when it names another key, [`EntryError::BadSignature`] when the
    /// signature does not hold, [`PartsError::Unreadable`] when it is none.
    pub fn open(bytes: &[u8], organisation: &dyn Trusts) -> Result<Seal, PartsError> {
        Ok(Seal::open_signed(bytes, organisation)?.1)
    }

    /// As [`Seal::open`], with the key that sealed it.
    ///
    /// # Errors
    /// As [`Seal::open`].
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
/// [`PartsError::Unwritable`].
pub fn seal(seal: &Seal, key: &OrganisationKey) -> Result<Vec<u8>, PartsError> {
    let payload = cbor::encode(seal).map_err(EntryError::from)?;
    Ok(key.seal(payload, PURPOSE))
}

/// What stands in the file until it can be sealed: as many bytes as the seal will have, unlike anything
/// else in the file.
///
/// # Errors
/// [`PartsError::Unwritable`].
pub fn placeholder(unsealed: &Seal, key: &OrganisationKey) -> Result<Vec<u8>, PartsError> {
    Ok(placeholder_of(seal(unsealed, key)?.len()))
}

/// The same for a seal whose length is known.
pub fn placeholder_of(length: usize) -> Vec<u8> {
    b"the seal goes here ".iter().copied().cycle().take(length).collect()
}
