//! The root key's statements about the organisation's other keys, beside the files of the log.

use std::path::Path;

use farsiding_core::entry::{OrganisationKeys, PublicKey, Trusts as _};
use farsiding_core::evidence::tile_audit::{AuditError, Shelf};

use crate::key_files;

/// The name of the file with the root's statements. A log whose root key signs by itself has none.
pub const KEYS: &str = "keys.json";

/// Returns the organisation's keys as the statements beside a log tell them, for the root key that the auditor
/// knows. `known` are statements that the auditor has from elsewhere, such as one that a key was stolen; the
/// publisher may have left the newest ones out.
///
/// # Errors
/// An [`AuditError`] that names the file when it cannot be read, is about another organisation, does not hold,
/// or contradicts `known`.
pub fn keys_beside(
    shelf: &mut dyn Shelf,
    root: PublicKey,
    known: Option<OrganisationKeys>,
) -> Result<OrganisationKeys, AuditError> {
    let wrong = |what: String| AuditError::Wrong { path: KEYS.to_owned(), leaf: None, what };
    let mut keys = known.unwrap_or_else(|| OrganisationKeys::of_root(root));
    let unread = |why| AuditError::Unread { path: KEYS.to_owned(), why };
    let Some(content) = shelf.read(KEYS).map_err(unread)? else { return Ok(keys) };
    let published =
        key_files::parse_statements(Path::new(KEYS), &content).map_err(|why| wrong(why.to_string()))?;
    if published.root() != root {
        return Err(wrong("it is about the keys of another organisation".to_owned()));
    }
    match keys.learn(published.signed()).refused {
        None => Ok(keys),
        Some(why) => Err(wrong(format!("it contradicts the statements given: {why}"))),
    }
}
