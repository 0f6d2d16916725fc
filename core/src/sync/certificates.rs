//! Certificates as they come in, from the server or in a carry file, and what they mean for a device's own round.

use super::SyncError;
use crate::entry::{Certificate, Trusts};
use crate::ids::DeviceId;
use crate::store::{Scope, Store, StoreError, Write};

/// Whose word a certificate comes by. Each is signed by the organisation; they tell which of two is the newer.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Word {
    /// The server's list: the newest there is, but that a server put back from a copy may have forgotten a
    /// revocation.
    OfTheServer,
    /// A carry file, of any age.
    Carried,
}

/// Keeps a certificate unless it is older than the one here. Once revoked stays revoked.
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

/// What a device is given, by its own certificate as it is known to it.
pub(super) fn scope_of(store: &dyn Store, device: &DeviceId, keys: &dyn Trusts) -> Result<Scope, SyncError> {
    let own = store.certificate(*device)?;
    let own = own.and_then(|bytes| Certificate::open(&bytes, keys).ok());
    Ok(own.map_or(Scope::Everything, |certificate| Scope::of(&certificate)))
}
