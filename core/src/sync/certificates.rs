//! Storing certificates received from the server or in a carry file, and deriving the device's own scope from
//! its certificate.

use super::SyncError;
use crate::entry::{Certificate, Trusts};
use crate::ids::DeviceId;
use crate::store::{Scope, Store, StoreError, Write};

/// The source of a certificate. The organisation signs every certificate; the source helps to decide which of
/// two is newer.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Word {
    /// The server's list. It is the newest, except that a server restored from a backup may lack a
    /// revocation.
    OfTheServer,
    /// A carry file, which may be of any age.
    Carried,
}

/// Stores a certificate unless the stored one is newer. A revoked device stays revoked.
pub(super) fn take_certificate(
    store: &mut dyn Store,
    certificate: &Certificate,
    bytes: &[u8],
    keys: &dyn Trusts,
    word: Word,
) -> Result<(), StoreError> {
    let known = store.certificate(certificate.device)?;
    if known.as_deref() == Some(bytes) {
        return Ok(());
    }
    let known = known.and_then(|bytes| Certificate::open(&bytes, keys).ok());
    let takes = known.is_none_or(|known| match word {
        Word::OfTheServer => certificate.revoked_at.is_some() || known.revoked_at.is_none(),
        Word::Carried => certificate.supersedes(&known),
    });
    if takes {
        store.commit(&[Write::Certificate { device: certificate.device, bytes }])?;
    }
    Ok(())
}

/// Returns this device's own certificate.
pub(super) fn own_certificate(
    store: &dyn Store,
    device: &DeviceId,
    keys: &dyn Trusts,
) -> Result<Option<Certificate>, StoreError> {
    let own = store.certificate(*device)?;
    Ok(own.and_then(|bytes| Certificate::open(&bytes, keys).ok()))
}

/// Returns the scope that this device has by its own certificate.
pub(super) fn scope_of(store: &dyn Store, device: &DeviceId, keys: &dyn Trusts) -> Result<Scope, SyncError> {
    let own = own_certificate(store, device, keys)?;
    Ok(own.map_or(Scope::Everything, |certificate| Scope::of(&certificate)))
}
