//! Key statements received in a reply, in a carry file or at enrolment.
//!
//! They travel beside the signed content and not inside it, because a device that does not know a key yet
//! must read the statement that names the key before it can verify anything signed with it. Each statement is
//! verified with the pinned root key.

use std::collections::BTreeSet;

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;

use super::kept_proof::KeptProof;
use super::log_alarm::{Alarm, LogContradiction, keep_alarm};
use crate::clock::UtcMillis;
use crate::entry::{Forked, KeyWord, OrganisationKeys, PublicKey, WhyWithdrawn, cbor};
use crate::ids::{Digest, Subject};
use crate::log::Receipt;
use crate::store::{Store, StoreError, Write, learn_keys, organisation_keys};

/// Returns the start of the digest of the last known statement, which a request carries to tell the server
/// what the device knows.
pub(super) fn known_up_to(keys: &OrganisationKeys) -> Option<serde_bytes::ByteBuf> {
    keys.signed().last().map(|bytes| serde_bytes::ByteBuf::from(&Digest::of(bytes).0[..8]))
}

/// Returns the statements that follow the one named by `known`, or all statements if that one is not known
/// here.
pub(super) fn lacking(keys: &OrganisationKeys, known: Option<&[u8]>) -> Vec<serde_bytes::ByteBuf> {
    let all: Vec<&[u8]> = keys.signed().collect();
    let known = known.and_then(|known| all.iter().position(|bytes| Digest::of(bytes).0[..8] == *known));
    all.into_iter().skip(known.map_or(0, |at| at + 1)).map(serde_bytes::ByteBuf::from).collect()
}

/// Stores received statements and applies their consequences to the stored data. Returns the resulting keys,
/// and whether the root key was found to have signed two contradictory statements.
///
/// # Errors
/// [`StoreError`] when the database fails.
pub(super) fn take_statements<B: AsRef<[u8]>>(
    store: &mut dyn Store,
    root: &PublicKey,
    brought: impl IntoIterator<Item = B>,
    now: UtcMillis,
) -> Result<(OrganisationKeys, Option<LogContradiction>), StoreError> {
    let mut keys = organisation_keys(store, root)?;
    let before = keys.statements().len();
    let learned = learn_keys(store, &mut keys, brought)?;
    let stolen = keys
        .statements()
        .skip(before)
        .any(|statement| matches!(statement.says, KeyWord::KeyWithdrawn { why: WhyWithdrawn::Stolen, .. }));
    if stolen {
        doubt_receipts(store, &keys)?;
    }
    let Some(Forked { ours, theirs, .. }) = learned.fork else { return Ok((keys, None)) };
    let kind = LogContradiction::TwoRoots;
    let (ours, theirs) = (STANDARD.encode(ours), STANDARD.encode(theirs));
    keep_alarm(store, Alarm { kind, at: now, ours, theirs, entry: None })?;
    Ok((keys, Some(kind)))
}

/// Marks entries for sending again if only receipts of a withdrawn key cover them. A thief may have issued
/// those receipts, so the office may never have received the entries.
fn doubt_receipts(store: &mut dyn Store, keys: &OrganisationKeys) -> Result<(), StoreError> {
    let mut doubted: BTreeSet<Subject> = BTreeSet::new();
    for subject in store.subjects()? {
        for row in store.entries_of(subject)?.rows.into_iter().filter(|row| row.receipted) {
            let receipts = store.receipts_of(row.id)?;
            let held = |bytes: &Vec<u8>| Receipt::from_bytes(bytes).is_ok_and(|r| r.check(keys).is_ok());
            if receipts.is_empty() || receipts.iter().any(held) {
                continue;
            }
            let proof = store.log().proof_of(row.id)?.and_then(|b| cbor::decode::<KeptProof>(&b).ok());
            if proof.is_none_or(|proof| proof.of(row.id, keys).is_none()) {
                doubted.insert(subject);
            }
        }
    }
    let doubted: Vec<Subject> = doubted.into_iter().collect();
    if doubted.is_empty() {
        return Ok(());
    }
    store.commit(&[Write::ChangesLacking(&doubted)]).map(|_| ())
}
