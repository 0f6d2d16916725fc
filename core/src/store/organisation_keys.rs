//! Storage of an organisation's key statements: at the office all of them, on a device those it has received.

use super::{Store, StoreError, Write};
use crate::entry::{Learned, OrganisationKeys, PublicKey, cbor};

/// The name of the value that holds the statements.
pub const KEY_STATEMENTS: &str = "keys/statements";

/// Returns the organisation's keys as far as they are known here, for the pinned root key.
///
/// # Errors
/// [`StoreError`] when the database fails.
pub fn organisation_keys(store: &dyn Store, root: &PublicKey) -> Result<OrganisationKeys, StoreError> {
    Ok(OrganisationKeys::read_kept(*root, key_statements(store)?))
}

/// Returns the stored key statements, signed, oldest first.
///
/// # Errors
/// [`StoreError`] when the database fails.
pub fn key_statements(store: &dyn Store) -> Result<Vec<serde_bytes::ByteBuf>, StoreError> {
    Ok(decoded(store.value(KEY_STATEMENTS)?.as_deref()))
}

/// Does the same as [`organisation_keys`] for a caller that has read the value by other means.
pub fn read_key_statements(root: &PublicKey, value: Option<&[u8]>) -> OrganisationKeys {
    OrganisationKeys::read_kept(*root, decoded(value))
}

fn decoded(value: Option<&[u8]>) -> Vec<serde_bytes::ByteBuf> {
    value.and_then(|bytes| cbor::decode(bytes).ok()).unwrap_or_default()
}

/// Stores those of the given statements that extend the chain. `keys` are the keys known so far.
///
/// # Errors
/// [`StoreError`] when the database fails. A statement that does not extend the chain is not an error, see
/// [`Learned`].
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
