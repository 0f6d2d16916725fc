//! Scopes: which part of an organisation's records a device receives, and which sites a document belongs to.
//!
//! A document belongs to areas. A site's document belongs to that site, a visit's to the site of every
//! `opened` statement in it, a car's to every site at which a visit was opened for the car, and a roster's to
//! everybody. A visit that nobody has opened yet belongs to no area. If a visit's id proves the site where
//! the visit began, an `opened` statement that names another site is ignored; otherwise a device that learned
//! a visit's id from a car's document could have the visit delivered to it by claiming the visit. Areas
//! follow from entries alone, so all stores with the same entries agree on them. Both stores update areas,
//! set digests and the feed with each entry (`memory_scope`, `sqlite_scope`), and `sync` queries them.
//! Whether a person may make a statement is not decided here.

use std::collections::BTreeSet;

use super::{SetDigest, StoreError, StoredChange};
use crate::entry::{Certificate, Entry, Right, Role, Statement};
use crate::ids::{CarId, Digest, EntryId, SiteId, Subject, VisitId};

/// The part of the records that a device receives.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Scope {
    /// All records.
    Everything,
    /// The records of these sites and those for everybody.
    Sites(BTreeSet<SiteId>),
    /// No records at all.
    Nothing,
}

impl Scope {
    /// Returns the scope of the device that the certificate is for. A device without the right to read
    /// receives nothing. The same holds for an inspector's device, which holds only what was handed to it.
    pub fn of(certificate: &Certificate) -> Scope {
        let may_read = certificate.rights.as_ref().is_none_or(|rights| rights.contains(&Right::Read));
        match (certificate.role, &certificate.sites) {
            (Role::Inspector, _) => Scope::Nothing,
            _ if !may_read => Scope::Nothing,
            (Role::Office, _) | (Role::Operator, None) => Scope::Everything,
            (Role::Operator, Some(sites)) => Scope::Sites(sites.iter().copied().collect()),
        }
    }

    /// Returns the areas of a scope in ascending order, or `None` for [`Scope::Everything`], which is not
    /// restricted to areas.
    pub fn areas(&self) -> Vec<Area> {
        match self {
            Scope::Everything | Scope::Nothing => Vec::new(),
            Scope::Sites(sites) => {
                std::iter::once(Area::Everybody).chain(sites.iter().copied().map(Area::Site)).collect()
            }
        }
    }

    /// Returns the ledger's epoch as readers of this scope see it. Positions are counted per scope, so a
    /// reader whose scope changed must compare its records as with an unknown ledger and read on from there.
    pub fn epoch(&self, ledger: u64) -> u64 {
        let mut all = b"farsiding scope".to_vec();
        all.extend_from_slice(&ledger.to_be_bytes());
        match self {
            Scope::Everything => return ledger,
            Scope::Nothing => {}
            Scope::Sites(sites) => {
                all.push(1);
                sites.iter().for_each(|site| all.extend_from_slice(&site.0));
            }
        }
        let digest = Digest::of(&all);
        digest.0.first_chunk().copied().map_or(ledger, u64::from_be_bytes)
    }
}

/// An area that documents belong to. Areas are ordered by their bytes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Area {
    /// The area of documents that every reader receives.
    Everybody,
    /// The area of one site.
    Site(SiteId),
    /// All documents. No document belongs to it; its set digest alone is kept.
    Everything,
}

impl Area {
    /// Returns the site if this is the area of one.
    pub fn site(self) -> Option<SiteId> {
        match self {
            Area::Site(site) => Some(site),
            Area::Everybody | Area::Everything => None,
        }
    }

    /// Returns the area's form as a database key.
    pub fn as_bytes(&self) -> &[u8] {
        match self {
            Area::Everybody => &[],
            Area::Site(site) => &site.0,
            Area::Everything => &[0],
        }
    }

    /// Reads the form returned by [`Area::as_bytes`].
    pub fn from_bytes(bytes: &[u8]) -> Option<Area> {
        if bytes.is_empty() {
            return Some(Area::Everybody);
        }
        bytes.try_into().ok().map(|id| Area::Site(SiteId(id)))
    }
}

/// An `opened` statement, reduced to what decides the areas of documents.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct OpenedAt {
    /// The visit.
    pub visit: VisitId,
    /// The car that was opened.
    pub car: CarId,
    /// The site that the statement names.
    pub site: SiteId,
    /// Whether the visit's id proves that the visit began at this site.
    pub bound: bool,
}

impl OpenedAt {
    /// Reads the opening from an entry in the document of `subject`. Returns `None` for any other statement.
    pub fn of(subject: Subject, entry: &Entry) -> Option<OpenedAt> {
        let (Subject::Visit(visit), Statement::Opened(opened)) = (subject, &entry.body.says) else {
            return None;
        };
        let bound = opened.nonce.is_some_and(|nonce| VisitId::at_site(opened.site, nonce) == visit);
        Some(OpenedAt { visit, car: opened.car.id(), site: opened.site, bound })
    }
}

/// Returns the area of a document whose kind alone decides it.
pub fn area_by_kind(subject: Subject) -> Option<Area> {
    match subject {
        Subject::Site(site) => Some(Area::Site(site)),
        Subject::Roster(_) => Some(Area::Everybody),
        Subject::Visit(_) | Subject::Car(_) => None,
    }
}

/// Returns the photograph that a statement names.
pub fn photograph_of(says: &Statement) -> Option<Digest> {
    match says {
        Statement::Photo { photo, .. } => Some(photo.sha256),
        Statement::Seal(seal) => seal.photo,
        Statement::Defect(defect) => defect.photo,
        _ => None,
    }
}

/// Returns the id under which an entry counts in an area's set digest. The id depends on the document as
/// well, so an entry in two documents counts twice and with two different ids.
pub fn counted_as(subject: Subject, id: EntryId) -> EntryId {
    let mut standing = subject.to_bytes().to_vec();
    standing.extend_from_slice(&id.0);
    EntryId(Digest::of(&standing).0)
}

impl SetDigest {
    /// Adds another set digest to this one.
    pub fn merge(&mut self, other: &SetDigest) {
        let count = self.count;
        self.add(EntryId(other.sum));
        self.count = count + other.count;
    }
}

/// A change in the order in which readers of a scope receive changes.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fed {
    /// The position within the scope; rises with each change. When a document comes to belong to a site
    /// later, its earlier changes get new positions.
    pub position: u64,
    /// The change.
    pub change: StoredChange,
}

/// What a store can tell about scopes. For [`Scope::Everything`] the methods answer for the whole store; for
/// [`Scope::Nothing`] they return nothing.
pub trait ScopeRows {
    /// Returns the set digest of a scope. For a scope of sites each entry counts once for every document that
    /// holds it and every site of the scope which that document belongs to.
    ///
    /// # Errors
    /// [`StoreError`] here and in every method below, when the database fails.
    fn tally_in(&self, scope: &Scope) -> Result<SetDigest, StoreError>;
    /// Returns the set digest of a scope without the given entries.
    fn tally_without(&self, scope: &Scope, left_out: &[EntryId]) -> Result<SetDigest, StoreError> {
        let mut tally = self.tally_in(scope)?;
        for id in left_out {
            if *scope == Scope::Everything {
                tally.remove(*id);
                continue;
            }
            for subject in self.standings_of(*id)? {
                for _ in 0..self.weight_in(subject, scope)? {
                    tally.remove(counted_as(subject, *id));
                }
            }
        }
        Ok(tally)
    }
    /// Returns the set digest over all documents, in which an entry counts once for every document that holds
    /// it, by an id that depends on the document.
    fn tally_of_standings(&self) -> Result<SetDigest, StoreError>;
    /// Returns the subjects of a scope's documents in ascending order.
    fn subjects_in(&self, scope: &Scope) -> Result<Vec<Subject>, StoreError>;
    /// Returns true if a document belongs to the scope.
    fn is_in(&self, subject: Subject, scope: &Scope) -> Result<bool, StoreError>;
    /// Returns the sites that a document belongs to. A roster belongs to everybody and so to no site, and a visit
    /// that nobody has opened belongs to none yet.
    fn sites_of(&self, subject: Subject) -> Result<BTreeSet<SiteId>, StoreError>;
    /// Returns how often each entry of a document counts in [`ScopeRows::tally_in`] for a scope of sites.
    fn weight_in(&self, subject: Subject, scope: &Scope) -> Result<usize, StoreError>;
    /// Returns the documents that hold an entry.
    fn standings_of(&self, id: EntryId) -> Result<Vec<Subject>, StoreError>;
    /// Returns changes after `position` for readers of a scope, up to about `bytes` bytes but at least one
    /// change. Changes committed since the last [`super::Write::Feed`] are not included.
    fn fed_after(&self, scope: &Scope, position: u64, bytes: usize) -> Result<Vec<Fed>, StoreError>;
    /// Returns the newest position of a scope, or 0 if there is none.
    fn newest_in(&self, scope: &Scope) -> Result<u64, StoreError>;
    /// Returns true if an entry in a document of the scope names the photograph.
    fn names_photo(&self, sha256: Digest, scope: &Scope) -> Result<bool, StoreError> {
        for subject in self.naming_photo(sha256)? {
            if self.is_in(subject, scope)? {
                return Ok(true);
            }
        }
        Ok(false)
    }
    /// Returns the documents that hold an entry naming the photograph, in ascending order.
    fn naming_photo(&self, sha256: Digest) -> Result<Vec<Subject>, StoreError>;
}
