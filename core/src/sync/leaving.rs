//! Records of sites that the device's certificate no longer names: when they leave the device, and what is
//! kept of them.
//!
//! A document leaves when it belongs to sites that the device was given once and has lost, and to no site that
//! it has now. It leaves only when that is safe: everything in it has a receipt, nothing of it waits to be
//! sent, the server holds its photographs, and the server has just now said again that it holds every one of
//! its entries. Documents that the device was never given, such as those that it carries for another, stay. So
//! does everything on a device that is given nothing at all: an inspector's holds what was handed to it, and one
//! that may record and not read holds what it is recording. What the server holds of the documents that left is
//! kept as count and sum per site until the site is given again.

use std::collections::{BTreeMap, BTreeSet};

use super::opened::MOST_ASKS;
use crate::entry::{Certificate, Entry, Statement};
use crate::ids::{Digest, EntryId, SiteId, Subject};
use crate::store::{Scope, SetDigest, Store, StoreError, Write, counted_as, photograph_of};

/// The name of the value that holds the sites that the device was ever given: a byte that is 1 while it is
/// given everything, then the sites.
const GIVEN: &str = "sync/given";
/// The name of the value that holds what left: for each site its id, the number of documents (8 bytes) and
/// their set digest.
const LEFT: &str = "sync/left";
const LEFT_ROW: usize = 16 + 8 + 40;

/// The most entries asked about in one request so that their documents may leave. A single document may exceed
/// the number.
const ASKED_AT_ONCE: usize = 500;
/// The most entries of a document that can be asked about beside the other questions of a request.
const LARGEST: usize = MOST_ASKS - 1000;

/// What left the device of one site.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Left {
    /// The site.
    pub site: SiteId,
    /// The number of documents that left.
    pub documents: u64,
    /// Count and sum of their entries, each counted once for every document that held it. The server's documents
    /// held the same when they left.
    pub tally: SetDigest,
}

/// A document that may leave, with all that must be confirmed before.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Leaving {
    pub(super) subject: Subject,
    pub(super) entries: BTreeSet<EntryId>,
    /// The photographs that its entries name and whose bytes are here.
    pub(super) photos: BTreeSet<Digest>,
    site: SiteId,
}

/// Records the sites that the device is given now, and forgets what left of those that it is given again.
pub(super) fn note_given(
    store: &mut dyn Store,
    scope: &Scope,
    certificate: Option<&Certificate>,
) -> Result<(), StoreError> {
    let before = store.value(GIVEN)?;
    let (everything, mut sites) = read_given(before.as_deref());
    let mut had_everything = everything;
    if before.is_none() {
        // The device was narrowed by a program that did not note it: the certificate names what it gave before.
        for earlier in certificate.iter().flat_map(|certificate| &certificate.earlier) {
            match &earlier.sites {
                Some(named) => sites.extend(named),
                None => had_everything = true,
            }
        }
    }
    if had_everything && *scope != Scope::Everything {
        for subject in store.subjects()? {
            sites.extend(store.scopes().sites_of(subject)?);
        }
    }
    if let Scope::Sites(now) = scope {
        sites.extend(now);
    }
    let mut bytes = vec![u8::from(*scope == Scope::Everything)];
    sites.iter().for_each(|site| bytes.extend_from_slice(&site.0));
    if before.as_deref() != Some(bytes.as_slice()) {
        store.commit(&[Write::Value { key: GIVEN, value: &bytes }])?;
    }
    let all = left(store)?;
    let kept: Vec<Left> = all.iter().filter(|left| !has(scope, left.site)).copied().collect();
    if kept.len() < all.len() {
        write_left(store, &kept)?;
    }
    Ok(())
}

/// Returns what left the device, by site.
///
/// # Errors
/// [`StoreError`] when the database fails.
pub fn left(store: &dyn Store) -> Result<Vec<Left>, StoreError> {
    let bytes = store.value(LEFT)?.unwrap_or_default();
    let read = |row: &[u8]| {
        let (site, rest) = row.split_first_chunk::<16>()?;
        let (documents, tally) = rest.split_first_chunk::<8>()?;
        let documents = u64::from_be_bytes(*documents);
        Some(Left { site: SiteId(*site), documents, tally: SetDigest::from_bytes(tally)? })
    };
    Ok(bytes.chunks_exact(LEFT_ROW).filter_map(read).collect())
}

/// Returns documents that may leave once the server confirms them, as many as one request asks about.
pub(super) fn leaving(store: &dyn Store, scope: &Scope) -> Result<Vec<Leaving>, StoreError> {
    let (_, given) = read_given(store.value(GIVEN)?.as_deref());
    let lost: BTreeSet<SiteId> = given.into_iter().filter(|site| !has(scope, *site)).collect();
    if lost.is_empty() || *scope == Scope::Nothing {
        return Ok(Vec::new());
    }
    let mut outside = Vec::new();
    for subject in store.subjects()? {
        let sites = store.scopes().sites_of(subject)?;
        if !store.scopes().is_in(subject, scope)? && !sites.is_empty() {
            outside.push((subject, sites));
        }
    }
    // A car's document belongs to the sites of its visits and a site is named in them, so cars leave first and
    // sites last.
    outside.sort_by_key(|(subject, _)| match subject {
        Subject::Car(_) => 0,
        Subject::Visit(_) => 1,
        Subject::Site(_) | Subject::Roster(_) => 2,
    });
    let unsent: BTreeSet<Subject> =
        store.changes_not_held(usize::MAX)?.into_iter().map(|change| change.subject).collect();
    let drafts = store.drafts()?;
    let (mut found, mut asked) = (Vec::new(), 0);
    let mut staying: BTreeMap<Subject, &BTreeSet<SiteId>> = BTreeMap::new();
    for (subject, sites) in &outside {
        let ready = if unsent.contains(subject) || !sites.is_subset(&lost) || is_typed_of(&drafts, *subject) {
            None
        } else {
            ready(store, *subject, sites, &staying)?
        };
        let room = |ready: &Leaving| found.is_empty() || asked + ready.entries.len() <= ASKED_AT_ONCE;
        match ready.filter(room) {
            Some(ready) => {
                asked += ready.entries.len();
                found.push(ready);
            }
            None => {
                staying.insert(*subject, sites);
            }
        }
    }
    Ok(found)
}

/// Returns the document if nothing in it is unsent and no document that stays leans on it.
fn ready(
    store: &dyn Store,
    subject: Subject,
    sites: &BTreeSet<SiteId>,
    staying: &BTreeMap<Subject, &BTreeSet<SiteId>>,
) -> Result<Option<Leaving>, StoreError> {
    let Some(site) = sites.first().copied() else { return Ok(None) };
    if matches!(subject, Subject::Site(_)) && staying.values().any(|of| of.contains(&site)) {
        return Ok(None);
    }
    let rows = store.entries_of(subject)?;
    if !rows.damaged.is_empty() || rows.rows.is_empty() || rows.rows.len() > LARGEST {
        return Ok(None);
    }
    let mut leaving = Leaving { subject, entries: BTreeSet::new(), photos: BTreeSet::new(), site };
    for row in rows.rows {
        leaving.entries.insert(row.id);
        let Ok(entry) = Entry::reopen(row.id, row.bytes) else { return Ok(None) };
        let leant_on = match &entry.body.says {
            Statement::Opened(opened) => staying.contains_key(&Subject::Car(opened.car.id())),
            _ => false,
        };
        let photo = photograph_of(&entry.body.says).map(|photo| store.photo(photo)).transpose()?.flatten();
        let unsent_photo = photo.as_ref().is_some_and(|photo| photo.here && !photo.held);
        if !row.receipted || leant_on || unsent_photo {
            return Ok(None);
        }
        leaving.photos.extend(photo.filter(|photo| photo.here).map(|photo| photo.sha256));
    }
    Ok(Some(leaving))
}

/// Takes documents off the device whose entries and photographs the server has just confirmed. Returns the
/// documents, and the photographs that no document here names any more.
pub(super) fn take_off(
    store: &mut dyn Store,
    scope: &Scope,
    confirmed: &[Leaving],
) -> Result<(Vec<Subject>, Vec<Digest>), StoreError> {
    let present = leaving(store, scope)?;
    let going: Vec<&Leaving> = confirmed.iter().filter(|document| present.contains(document)).collect();
    if going.is_empty() {
        return Ok((Vec::new(), Vec::new()));
    }
    let mut all: BTreeMap<SiteId, Left> = left(store)?.into_iter().map(|left| (left.site, left)).collect();
    for document in &going {
        let nothing = Left { site: document.site, documents: 0, tally: SetDigest::default() };
        let left = all.entry(document.site).or_insert(nothing);
        left.documents += 1;
        document.entries.iter().for_each(|id| left.tally.add(counted_as(document.subject, *id)));
    }
    let subjects: Vec<Subject> = going.iter().map(|document| document.subject).collect();
    let photos: BTreeSet<Digest> =
        going.iter().flat_map(|document| document.photos.iter().copied()).collect();
    let rows = encoded(all.values());
    store.commit(&[Write::TakeOff(&subjects), Write::Value { key: LEFT, value: &rows }])?;
    let mut gone = Vec::new();
    for photo in photos {
        if store.photo(photo)?.is_none() {
            gone.push(photo);
        }
    }
    Ok((subjects, gone))
}

fn write_left(store: &mut dyn Store, rows: &[Left]) -> Result<(), StoreError> {
    let bytes = encoded(rows.iter());
    store.commit(&[Write::Value { key: LEFT, value: &bytes }]).map(|_| ())
}

fn encoded<'a>(rows: impl Iterator<Item = &'a Left>) -> Vec<u8> {
    let mut bytes = Vec::new();
    for left in rows {
        bytes.extend_from_slice(&left.site.0);
        bytes.extend_from_slice(&left.documents.to_be_bytes());
        bytes.extend_from_slice(&left.tally.to_bytes());
    }
    bytes
}

fn read_given(bytes: Option<&[u8]>) -> (bool, BTreeSet<SiteId>) {
    let Some((everything, sites)) = bytes.and_then(<[u8]>::split_first) else {
        return (false, BTreeSet::new());
    };
    let sites = sites.chunks_exact(16).filter_map(|site| site.try_into().ok().map(SiteId));
    (*everything == 1, sites.collect())
}

fn has(scope: &Scope, site: SiteId) -> bool {
    match scope {
        Scope::Everything => true,
        Scope::Sites(sites) => sites.contains(&site),
        Scope::Nothing => false,
    }
}

/// Returns true if something half typed on the device names the document.
fn is_typed_of(drafts: &[(String, String)], subject: Subject) -> bool {
    let name = subject.to_string();
    let id = name.split_once(':').map_or(name.as_str(), |(_, id)| id);
    drafts.iter().any(|(key, text)| key.contains(id) || text.contains(id))
}
