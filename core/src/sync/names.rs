//! The names of people: which rows a store takes in, which it deletes, and which the office gives to devices.
//!
//! A row is taken only if it fits its commitment, an entry about a person that counts holds this commitment, and
//! no entry that counts removes it. Whoever brings a row can therefore add no name, alter none, and bring none
//! back. What the office sends is its whole list: what is not in it any longer is deleted here too, unless the
//! office is not known to have had it.

use std::collections::{BTreeMap, BTreeSet};

use super::answer::{Answer, AnswerError, CERTIFICATES_VERSION};
use super::opened::OpenedRequest;
use super::received::received_from_revoked;
use crate::authority::{Authority, NamesSaid};
use crate::clock::UtcMillis;
use crate::entry::{Entry, OrganisationKeys, PersonName, PublicKey, Trusts as _, cbor};
use crate::ids::{Digest, OrganisationId, Subject};
use crate::store::{NAMES, OWN_NAMES, Store, StoreError, Write, kept_names, name_rows, organisation_keys};

/// The most rows in one request. A device sends those that it made since it last met the office.
pub(super) const MOST_NAMES: usize = 1_000;

/// What became of the names in a store.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct NamesSettled {
    /// The number of rows that were taken in.
    pub taken: usize,
    /// The number of rows that were deleted.
    pub deleted: usize,
    /// The number of brought rows whose name does not fit the commitment.
    pub unfit: usize,
}

impl NamesSettled {
    /// Returns true if the store's names changed.
    pub fn changed(&self) -> bool {
        (self.taken, self.deleted) != (0, 0)
    }
}

/// Returns what the roster says of names, by the entries that count.
///
/// # Errors
/// [`StoreError`] when the database fails.
pub fn names_said(store: &dyn Store, keys: &OrganisationKeys) -> Result<NamesSaid, StoreError> {
    let roster = Subject::Roster(OrganisationId::of_key(&keys.root()));
    let rows = store.entries_of(roster)?.rows;
    let entries: Vec<Entry> =
        rows.into_iter().filter_map(|row| Entry::reopen(row.id, row.bytes).ok()).collect();
    let certificates = store.certificates()?;
    let bytes = certificates.iter().map(|(_, bytes)| bytes.as_slice());
    let authority = Authority::read(Some(keys), bytes, false).vouching(&entries);
    let received = received_from_revoked(store, keys, &authority, entries.iter())?;
    let judged = authority.roster(entries.iter().map(|entry| (entry, received.get(&entry.id).copied())));
    Ok(NamesSaid::of(judged))
}

/// Takes brought rows in and deletes those that the roster no longer keeps. To be called whenever the roster or
/// the rows changed. With `renew`, as at the office, a change raises the version of the list that devices compare.
///
/// # Errors
/// [`StoreError`] when the database fails; nothing was then changed.
pub fn settle_names(
    store: &mut dyn Store,
    root: &PublicKey,
    brought: &[PersonName],
    renew: Option<UtcMillis>,
) -> Result<NamesSettled, StoreError> {
    let (office, own) = (name_rows(store, NAMES)?, name_rows(store, OWN_NAMES)?);
    let mut settled = NamesSettled::default();
    if office.is_empty() && own.is_empty() && brought.is_empty() {
        return Ok(settled);
    }
    let said = names_said(store, &organisation_keys(store, root)?)?;
    let before: BTreeSet<Digest> = office.iter().chain(&own).map(|row| row.named).collect();
    // The roster may still be on its way when its names are here, so a row of the office is kept without it.
    let kept: BTreeMap<Digest, PersonName> = office
        .iter()
        .filter(|row| row.fits() && !said.forgotten.contains(&row.named))
        .map(|row| (row.named, row.clone()))
        .collect();
    settled.unfit = brought.iter().filter(|row| !row.fits()).count();
    let others: BTreeMap<Digest, PersonName> = own
        .iter()
        .chain(brought)
        .filter(|row| row.fits() && said.keeps(&row.named) && !kept.contains_key(&row.named))
        .map(|row| (row.named, row.clone()))
        .collect();
    let after: BTreeSet<Digest> = kept.keys().chain(others.keys()).copied().collect();
    settled.taken = after.difference(&before).count();
    settled.deleted = before.difference(&after).count();
    let (kept, others): (Vec<PersonName>, Vec<PersonName>) =
        (kept.into_values().collect(), others.into_values().collect());
    if kept == office && others == own {
        return Ok(settled);
    }
    let (kept, others) = (encoded(&kept)?, encoded(&others)?);
    let mut writes =
        vec![Write::Value { key: NAMES, value: &kept }, Write::Value { key: OWN_NAMES, value: &others }];
    let version = renew.filter(|_| settled.changed()).map(|now| next_version(now, &others));
    if let Some(version) = &version {
        writes.push(Write::Value { key: CERTIFICATES_VERSION, value: version });
    }
    store.commit(&writes)?;
    Ok(settled)
}

/// Tells devices that the list of certificates and names is another one, for example after the office named
/// somebody itself.
///
/// # Errors
/// [`StoreError`] when the database fails.
pub fn renew_names(store: &mut dyn Store, now: UtcMillis) -> Result<(), StoreError> {
    let own = store.value(OWN_NAMES)?.unwrap_or_default();
    let version = next_version(now, &own);
    store.commit(&[Write::Value { key: CERTIFICATES_VERSION, value: &version }]).map(|_| ())
}

/// Returns a version that differs from all earlier ones: the time, and a part of a digest, so that two processes
/// that write at once differ too. Devices compare versions for equality alone.
fn next_version(now: UtcMillis, rows: &[u8]) -> [u8; 8] {
    let digest = Digest::of(rows);
    let part = u64::from(u16::from_be_bytes([digest.0[0], digest.0[1]]));
    ((now.0.cast_unsigned() << 16) | part).to_be_bytes()
}

pub(super) fn encoded(rows: &[PersonName]) -> Result<Vec<u8>, StoreError> {
    cbor::encode(&rows).map_err(|error| StoreError::Database(error.to_string()))
}

/// Returns the rows that the office gives to a device.
pub(super) fn given(store: &dyn Store) -> Result<Vec<PersonName>, StoreError> {
    Ok(kept_names(store)?.rows().cloned().collect())
}

/// At the office, after rounds were answered: takes in the names that devices brought with entries about people,
/// and deletes those that a new entry removes.
///
/// # Errors
/// [`StoreError`] when the database fails. The devices then send the names again with their next request.
pub fn settle_after<'r>(
    store: &mut dyn Store,
    root: &PublicKey,
    rounds: impl IntoIterator<Item = (&'r OpenedRequest, &'r Result<Answer, AnswerError>)>,
    now: UtcMillis,
) -> Result<NamesSettled, StoreError> {
    let mut brought: Vec<PersonName> = Vec::new();
    let mut on_the_roster = false;
    for (opened, answer) in rounds {
        let Ok(answer) = answer else { continue };
        on_the_roster |= answer.new.iter().any(|(subject, _)| matches!(subject, Subject::Roster(_)));
        if !answer.revoked {
            brought.extend(opened.asked.names.iter().cloned());
        }
    }
    if brought.is_empty() && !on_the_roster {
        return Ok(NamesSettled::default());
    }
    settle_names(store, root, &brought, Some(now))
}
