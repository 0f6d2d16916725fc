//! An organisation's key statements as a store keeps them: on a device what it was told, at the office all.

use super::{Store, StoreError, Write};
use crate::entry::{Learned, OrganisationKeys, PublicKey, cbor};

/// The name of the value that statements are kept under.
pub const KEY_STATEMENTS: &str = "keys/statements";

/// The organisation's keys as known here, by the root that is pinned.
///
/// # Errors
/// [`StoreError`].
pub fn organisation_keys(store: &dyn Store, root: &PublicKey) -> Result<OrganisationKeys, StoreError> {
    Ok(OrganisationKeys::read_kept(*root, key_statements(store)?))
}

/// The statements kept here, as signed, oldest first.
///
/// # Errors
/// [`StoreError`].
pub fn key_statements(store: &dyn Store) -> Result<Vec<serde_bytes::ByteBuf>, StoreError> {
    Ok(decoded(store.value(KEY_STATEMENTS)?.as_deref()))
}

/// As [`organisation_keys`], for whoever read that value by other means.
pub fn read_key_statements(root: &PublicKey, value: Option<&[u8]>) -> OrganisationKeys {
    OrganisationKeys::read_kept(*root, decoded(value))
}

fn decoded(value: Option<&[u8]>) -> Vec<serde_bytes::ByteBuf> {
    value.and_then(|bytes| cbor::decode(bytes).ok()).unwrap_or_default()
}

/// Takes statements that were brought, and keeps those that join the chain. `keys` are those known here.
///
/// # Errors
/// [`StoreError`]; a statement that does not join is no error, see [`Learned`].
pub fn learn_keys<B: AsRef<[u8]>>(
    store: &mut dyn Store,
    keys: &mut OrganisationKeys,
    brought: impl IntoIterator<Item = B>,
) -> Result<Learned, StoreError> {
    let learned = keys.learn(brought);
    if learned.new > 0 {
        let all: Vec<_> = keys.signed().map(serde_bytes::ByteBuf::from).collect();
        let value = cbor::encode(&all).map_err(|e| StoreError::Database(e.to_string()))?;
        store.commit(&[Write::Value { key: KEY_STATEMENTS, value: &value }])?;
    }
    Ok(learned)
}
