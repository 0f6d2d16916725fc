//! What part of an organisation's records a device is given, and to which sites a document belongs.
//!
//! A document belongs to areas: a site's to that site, a visit's to the site of every `opened` standing in it, a
//! car's to every site at which a visit was opened with it, a roster's to everybody. Where the visit's id proves
//! at which site it was begun, an `opened` that names another site counts for nothing: whoever read a visit's id
//! in a car's document cannot have that visit delivered by claiming it. That follows from entries alone, so
//! every store that holds the same entries says the same. A visit that nobody opened yet belongs nowhere. Both
//! stores keep areas, tallies and the feed along with each entry (`memory_scope`, `sqlite_scope`); `sync` asks
//! them. Who may say what is not judged here.

use std::collections::BTreeSet;

use super::{SetDigest, StoreError, StoredChange};
use crate::entry::{Certificate, Entry, Right, Role, Statement};
use crate::ids::{CarId, Digest, EntryId, SiteId, Subject, VisitId};

/// What part of the records somebody is given.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Scope {
    /// All of them.
    Everything,
    /// What belongs to these sites, and what is everybody's.
    Sites(BTreeSet<SiteId>),
    /// None, not even what is everybody's.
    Nothing,
}

impl Scope {
    /// What a certificate's device is given. One that may not read is given nothing, an inspector's neither:
    /// it has what was handed to it.
    pub fn of(certificate: &Certificate) -> Scope {
        let may_read = certificate.rights.as_ref().is_none_or(|rights| rights.contains(&Right::Read));
        match (certificate.role, &certificate.sites) {
            (Role::Inspector, _) => Scope::Nothing,
            _ if !may_read => Scope::Nothing,
            (Role::Office, _) | (Role::Operator, None) => Scope::Everything,
            (Role::Operator, Some(sites)) => Scope::Sites(sites.iter().copied().collect()),
        }
    }

    /// The areas a scope is made of, ascending; nothing for [`Scope::Everything`], which asks for no area.
    pub(super) fn areas(&self) -> Vec<Area> {
        match self {
            Scope::Everything | Scope::Nothing => Vec::new(),
            Scope::Sites(sites) => {
                std::iter::once(Area::Everybody).chain(sites.iter().copied().map(Area::Site)).collect()
            }
        }
    }

    /// The name a ledger goes by towards a reader of this scope. Positions are of one scope: a reader whose
    /// scope changed compares what it holds as it does with a ledger it never met, and reads on from there.
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

/// Where a document belongs. Its order is that of its bytes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Area {
    /// It is for everybody who is given anything.
    Everybody,
    /// It is of this site.
    Site(SiteId),
}

impl Area {
    /// The form it has as a database key.
    pub(super) fn as_bytes(&self) -> &[u8] {
        match self {
            Area::Everybody => &[],
            Area::Site(site) => &site.0,
        }
    }

    /// The inverse of [`Area::as_bytes`].
    pub(super) fn from_bytes(bytes: &[u8]) -> Option<Area> {
        if bytes.is_empty() {
            return Some(Area::Everybody);
        }
        bytes.try_into().ok().map(|id| Area::Site(SiteId(id)))
    }
}

/// That a visit was opened, as far as it matters for where documents belong.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct OpenedAt {
    pub(super) visit: VisitId,
    pub(super) car: CarId,
    pub(super) site: SiteId,
    /// The visit's id proves that it was begun at this site.
    pub(super) bound: bool,
}

impl OpenedAt {
    /// What an entry says of it, standing in the document of `subject`.
    pub(super) fn of(subject: Subject, entry: &Entry) -> Option<OpenedAt> {
        let (Subject::Visit(visit), Statement::Opened(opened)) = (subject, &entry.body.says) else {
            return None;
        };
        let bound = opened.nonce.is_some_and(|nonce| VisitId::at_site(opened.site, nonce) == visit);
        Some(OpenedAt { visit, car: opened.car.id(), site: opened.site, bound })
    }
}

/// Where a document belongs whatever its entries say.
pub(super) fn area_by_kind(subject: Subject) -> Option<Area> {
    match subject {
        Subject::Site(site) => Some(Area::Site(site)),
        Subject::Roster(_) => Some(Area::Everybody),
        Subject::Visit(_) | Subject::Car(_) => None,
    }
}

/// The photograph a statement names.
pub(super) fn photograph_of(says: &Statement) -> Option<Digest> {
    match says {
        Statement::Photo { photo, .. } => Some(photo.sha256),
        Statement::Seal(seal) => seal.photo,
        Statement::Defect(defect) => defect.photo,
        _ => None,
    }
}

/// What an entry adds to the tally of an area, through one document: the same entry in two documents counts
/// as two, and in the other document as another.
pub(super) fn counted_as(subject: Subject, id: EntryId) -> EntryId {
    let mut standing = subject.to_bytes().to_vec();
    standing.extend_from_slice(&id.0);
    EntryId(Digest::of(&standing).0)
}

impl SetDigest {
    /// Adds all of another tally.
    pub(super) fn merge(&mut self, other: &SetDigest) {
        let count = self.count;
        self.add(EntryId(other.sum));
        self.count = count + other.count;
    }
}

/// A change as a scope's reader meets it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fed {
    /// Its place in what such readers read, rising; a document that comes to belong to a site later brings its
    /// earlier changes at new places.
    pub position: u64,
    /// The change.
    pub change: StoredChange,
}

/// What a store tells about scopes. For [`Scope::Everything`] the answers are those of the whole store; for
/// [`Scope::Nothing`] there is never anything.
pub trait ScopeRows {
    /// Count and sum of what a scope holds. For sites: of each entry once for every document it stands in and
    /// every site of the scope that document belongs to.
    ///
    /// # Errors
    /// [`StoreError`], as for every call below.
    fn tally_in(&self, scope: &Scope) -> Result<SetDigest, StoreError>;
    /// The same, leaving out what these entries add.
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
    /// The documents of a scope, ascending.
    fn subjects_in(&self, scope: &Scope) -> Result<Vec<Subject>, StoreError>;
    /// Whether a document is of a scope.
    fn is_in(&self, subject: Subject, scope: &Scope) -> Result<bool, StoreError>;
    /// How often each entry of a document counts in [`ScopeRows::tally_in`] when the scope is of sites.
    fn weight_in(&self, subject: Subject, scope: &Scope) -> Result<usize, StoreError>;
    /// The documents an entry stands in.
    fn standings_of(&self, id: EntryId) -> Result<Vec<Subject>, StoreError>;
    /// Changes a scope's reader has not met after `position`, up to about `bytes` (at least one), as far as
    /// [`super::Write::Feed`] last brought the feed.
    fn fed_after(&self, scope: &Scope, position: u64, bytes: usize) -> Result<Vec<Fed>, StoreError>;
    /// The newest position of a scope; 0 when there is none.
    fn newest_in(&self, scope: &Scope) -> Result<u64, StoreError>;
    /// Whether an entry of a document of the scope names the photograph.
    fn names_photo(&self, sha256: Digest, scope: &Scope) -> Result<bool, StoreError> {
        for subject in self.naming_photo(sha256)? {
            if self.is_in(subject, scope)? {
                return Ok(true);
            }
        }
        Ok(false)
    }
    /// The documents in which an entry names the photograph, ascending.
    fn naming_photo(&self, sha256: Digest) -> Result<Vec<Subject>, StoreError>;
}
