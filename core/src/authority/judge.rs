//! The verdict on each entry of a document, pure and in time linear in the entries.

use std::collections::{BTreeMap, BTreeSet, HashMap, HashSet};

use super::table::Act;
use super::verdict::{Kept, NotYet, Verdict};
use super::{Authority, Grant};
use crate::clock::UtcMillis;
use crate::entry::{Certificate, Entry, Opened, Right, Role, Statement, under};
use crate::ids::{DeviceId, EntryId, SiteId, Subject, VisitId};

/// How much later than now, or than the office had it, a claimed time may be before it wins nothing. Clocks
/// of phones without signal drift by some minutes.
const PATIENCE_MILLIS: i64 = 10 * 60_000;

/// An entry with its verdict. Folds take nothing else, and only [`Authority`] makes one.
#[derive(Clone, Copy, Debug)]
pub struct Judged<'a> {
    entry: &'a Entry,
    verdict: Verdict,
    credible: bool,
}

impl<'a> Judged<'a> {
    /// The entry.
    pub const fn entry(&self) -> &'a Entry {
        self.entry
    }

    /// Whether it counts.
    pub const fn verdict(&self) -> Verdict {
        self.verdict
    }

    /// Whether its claimed time can be true: not later than now, nor than when the office had it.
    pub const fn credible(&self) -> bool {
        self.credible
    }
}

/// The kind of document that entries are judged for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Kind {
    Stay,
    Car,
    Site,
    Roster,
}

/// An entry and when the office had it, where that is known.
pub type Received<'a> = (&'a Entry, Option<UtcMillis>);

impl Authority {
    /// Judges the entries of a stay: of one visit, or of several that were joined.
    pub fn stay<'a>(&self, entries: impl IntoIterator<Item = Received<'a>>) -> Vec<Judged<'a>> {
        self.judge(Kind::Stay, entries)
    }

    /// Judges the entries of a car's document, which may have been said during visits at any site: whoever may
    /// record somewhere may say what is known of a car.
    pub fn car<'a>(&self, entries: impl IntoIterator<Item = Received<'a>>) -> Vec<Judged<'a>> {
        self.judge(Kind::Car, entries)
    }

    /// Judges the entries of a site's document.
    pub fn site<'a>(&self, entries: impl IntoIterator<Item = Received<'a>>) -> Vec<Judged<'a>> {
        self.judge(Kind::Site, entries)
    }

    /// Judges the entries of the roster.
    pub fn roster<'a>(&self, entries: impl IntoIterator<Item = Received<'a>>) -> Vec<Judged<'a>> {
        self.judge(Kind::Roster, entries)
    }

    /// Judges the entries of a document by what it is about.
    pub fn document<'a>(
        &self,
        subject: Subject,
        entries: impl IntoIterator<Item = Received<'a>>,
    ) -> Vec<Judged<'a>> {
        let kind = match subject {
            Subject::Visit(_) => Kind::Stay,
            Subject::Car(_) => Kind::Car,
            Subject::Site(_) => Kind::Site,
            Subject::Roster(_) => Kind::Roster,
        };
        self.judge(kind, entries)
    }

    /// Judges those entries of a stay that are wanted, in the light of all of them.
    pub fn stay_where<'a>(
        &self,
        entries: impl IntoIterator<Item = Received<'a>>,
        wanted: impl Fn(&Entry) -> bool,
    ) -> Vec<Judged<'a>> {
        // A stay has hundreds of entries, and whoever lists a thousand stays asks for a few of each: only what may
        // decide about those is looked at.
        let all: Vec<Received<'a>> = entries.into_iter().collect();
        let decides = |entry: &Entry| {
            matches!(
                entry.body.says,
                Statement::Opened(_) | Statement::Admitted { .. } | Statement::Withdrawn {}
            )
        };
        let mut few: Vec<Received<'a>> =
            all.iter().filter(|(entry, _)| wanted(entry) || decides(entry)).copied().collect();
        if few.iter().any(|(entry, _)| !entry.body.replaces.is_empty()) {
            let replaced: HashSet<EntryId> =
                few.iter().flat_map(|(entry, _)| entry.body.replaces.iter().copied()).collect();
            let others = |entry: &Entry| !wanted(entry) && !decides(entry) && replaced.contains(&entry.id);
            few.extend(all.iter().filter(|(entry, _)| others(entry)).copied());
        }
        self.judge_where(Kind::Stay, few, wanted)
    }

    fn judge<'a>(&self, kind: Kind, entries: impl IntoIterator<Item = Received<'a>>) -> Vec<Judged<'a>> {
        self.judge_where(kind, entries, |_| true)
    }

    fn judge_where<'a>(
        &self,
        kind: Kind,
        entries: impl IntoIterator<Item = Received<'a>>,
        wanted: impl Fn(&Entry) -> bool,
    ) -> Vec<Judged<'a>> {
        let given: Vec<Received<'a>> = entries.into_iter().collect();
        let case = Case::new(self, kind, &given);
        given
            .iter()
            .filter(|(entry, _)| wanted(entry))
            .map(|(entry, received)| Judged {
                entry,
                verdict: if self.organisation { case.verdict(entry, *received) } else { Verdict::Unchecked },
                credible: self.credible(entry, *received),
            })
            .collect()
    }

    fn credible(&self, entry: &Entry, received: Option<UtcMillis>) -> bool {
        let claimed = entry.body.when.corrected();
        let not_after = [received, self.now].into_iter().flatten().min();
        not_after.is_none_or(|bound| claimed.0 <= bound.0.saturating_add(PATIENCE_MILLIS))
    }

    /// How the organisation stands behind a device at one entry, rights aside.
    fn device_verdict(
        &self,
        certificate: Option<&Certificate>,
        entry: &Entry,
        received: Option<UtcMillis>,
    ) -> Result<(), Verdict> {
        let Some(certificate) = certificate else {
            return Err(if self.complete {
                Verdict::Kept(Kept::NoDevice)
            } else {
                Verdict::NotChecked(NotYet::NoCertificate)
            });
        };
        if let Some(revoked) = certificate.revoked_at {
            let before = received.is_some_and(|at| at < revoked) || self.vouched.contains(&entry.id);
            let within = certificate.last.is_some_and(|last| entry.body.seq <= last.seq);
            if before {
                // The office had it.
            } else if self.complete || (!within && (certificate.last.is_some() || received.is_some())) {
                return Err(Verdict::Kept(Kept::AfterRevocation));
            } else {
                return Err(Verdict::NotChecked(NotYet::BeforeRevocationUnknown));
            }
        }
        if certificate.valid_until.is_some_and(|until| entry.body.when.corrected() > until) {
            return Err(Verdict::Kept(Kept::Expired));
        }
        Ok(())
    }
}

/// What a certificate gives for an entry of its device: now, and before it was renewed.
fn grants<'c>(certificate: &'c Certificate, entry: &Entry) -> impl Iterator<Item = Grant<'c>> {
    let seq = entry.body.seq;
    let now = Grant {
        role: certificate.role,
        sites: certificate.sites.as_deref(),
        rights: certificate.rights.as_deref(),
    };
    let before = certificate.earlier.iter().filter(move |earlier| seq <= earlier.last.seq).map(|earlier| {
        Grant { role: earlier.role, sites: earlier.sites.as_deref(), rights: earlier.rights.as_deref() }
    });
    std::iter::once(now).chain(before)
}

/// One document's entries, with what must be known of all of them before one is judged.
struct Case<'a, 'j> {
    authority: &'j Authority,
    kind: Kind,
    /// The entries here that others replace.
    makers: HashMap<EntryId, &'a Entry>,
    /// At which sites each visit here is.
    sites: BTreeMap<VisitId, BTreeSet<SiteId>>,
    /// Late entries that were admitted.
    admitted: HashSet<EntryId>,
}

impl<'a, 'j> Case<'a, 'j> {
    fn new(authority: &'j Authority, kind: Kind, given: &[Received<'a>]) -> Case<'a, 'j> {
        let mut case = Case {
            authority,
            kind,
            makers: HashMap::new(),
            sites: BTreeMap::new(),
            admitted: HashSet::new(),
        };
        if !authority.organisation {
            return case;
        }
        let replaced: HashSet<EntryId> =
            given.iter().flat_map(|(entry, _)| entry.body.replaces.iter().copied()).collect();
        if !replaced.is_empty() {
            let makers = given.iter().filter(|(entry, _)| replaced.contains(&entry.id));
            case.makers = makers.map(|(entry, _)| (entry.id, *entry)).collect();
        }
        case.admitted = case.find_admitted(given);
        if kind == Kind::Stay {
            case.find_sites(given);
        }
        case
    }

    fn certificate(&self, device: &DeviceId) -> Option<&'j Certificate> {
        self.authority.devices.get(device)
    }

    /// Entries that somebody who may admitted, and did not take back. Such a word is never itself admitted.
    fn find_admitted(&self, given: &[Received<'a>]) -> HashSet<EntryId> {
        if !given.iter().any(|(entry, _)| matches!(entry.body.says, Statement::Admitted { .. })) {
            return HashSet::new();
        }
        let may_admit = |entry: &Entry, received: &Option<UtcMillis>| {
            let certificate = self.certificate(&entry.device);
            self.authority.device_verdict(certificate, entry, *received).is_ok()
                && certificate.is_some_and(|c| grants(c, entry).any(|grant| grant.gives(Right::Admit)))
        };
        let mut taken_back: HashSet<EntryId> = HashSet::new();
        let mut words: Vec<(EntryId, EntryId)> = Vec::new();
        for (entry, received) in given {
            let replaces = matches!(entry.body.says, Statement::Withdrawn {} | Statement::Admitted { .. });
            if replaces && may_admit(entry, received) {
                taken_back.extend(entry.body.replaces.iter().copied());
                if let Statement::Admitted { entry: late } = entry.body.says {
                    words.push((entry.id, late));
                }
            }
        }
        words.into_iter().filter(|(word, _)| !taken_back.contains(word)).map(|(_, late)| late).collect()
    }

    /// At which sites each visit is. A visit's id is made from its site, so that whoever can name the nonce
    /// shows it; a visit of version one is where those say it is who may record everywhere, or else those who
    /// may record there. Whoever may speak in it may correct the site.
    fn find_sites(&mut self, given: &[Received<'a>]) {
        let openings: Vec<(VisitId, &Entry, &Opened, Option<UtcMillis>)> = given
            .iter()
            .filter_map(|(entry, received)| match (&entry.body.says, entry.body.about) {
                (Statement::Opened(opened), Subject::Visit(visit)) => {
                    Some((visit, *entry, opened, *received))
                }
                _ => None,
            })
            .collect();
        for (visit, _, opened, _) in &openings {
            if opened.nonce.is_some_and(|nonce| VisitId::at_site(opened.site, nonce) == *visit) {
                self.sites.entry(*visit).or_default().insert(opened.site);
            }
        }
        let bound: BTreeSet<VisitId> = self.sites.keys().copied().collect();
        let mut everywhere: BTreeMap<VisitId, BTreeSet<SiteId>> = BTreeMap::new();
        let mut there: BTreeMap<VisitId, BTreeSet<SiteId>> = BTreeMap::new();
        for (visit, entry, opened, received) in &openings {
            let Some(certificate) = self.certificate(&entry.device) else { continue };
            if bound.contains(visit) || !self.stands(certificate, entry, *received) {
                continue;
            }
            let recording = || grants(certificate, entry).filter(|grant| grant.gives(Right::Record));
            if recording().any(|grant| grant.sites.is_none()) {
                everywhere.entry(*visit).or_default().insert(opened.site);
            } else if recording().any(|grant| grant.covers(&opened.site)) {
                there.entry(*visit).or_default().insert(opened.site);
            }
        }
        for (visit, sites) in there {
            everywhere.entry(visit).or_insert(sites);
        }
        self.sites.extend(everywhere);
        let mut corrected: Vec<(VisitId, SiteId)> = Vec::new();
        for (visit, entry, opened, received) in &openings {
            let Some(certificate) = self.certificate(&entry.device) else { continue };
            if self.stands(certificate, entry, *received)
                && self.has(certificate, entry, Right::Record).is_ok()
            {
                corrected.push((*visit, opened.site));
            }
        }
        for (visit, site) in corrected {
            self.sites.entry(visit).or_default().insert(site);
        }
    }

    fn stands(&self, certificate: &Certificate, entry: &Entry, received: Option<UtcMillis>) -> bool {
        self.admitted.contains(&entry.id)
            || self.authority.device_verdict(Some(certificate), entry, received).is_ok()
    }

    fn verdict(&self, entry: &Entry, received: Option<UtcMillis>) -> Verdict {
        match self.judged(entry, received) {
            Ok(()) => Verdict::Counts,
            Err(verdict) => verdict,
        }
    }

    fn judged(&self, entry: &Entry, received: Option<UtcMillis>) -> Result<(), Verdict> {
        let certificate = self.certificate(&entry.device);
        let late = self.authority.device_verdict(certificate, entry, received);
        // A signer nobody knows stays nobody: only a device's word can be admitted.
        let (Some(certificate), true) = (certificate, late.is_ok() || self.admitted.contains(&entry.id))
        else {
            return late;
        };
        let act = Act::of(&entry.body.says);
        let row = act.row();
        let other_roster =
            matches!(entry.body.about, Subject::Roster(roster) if roster != certificate.organisation);
        if !self.is_at_home(entry, row.homes) || other_roster {
            return Err(Verdict::Kept(Kept::Misplaced));
        }
        if act == Act::Unknown {
            return Err(Verdict::NotChecked(NotYet::KindUnknown));
        }
        if self.admitted.contains(&entry.id) {
            return Ok(()); // whoever may admit answers for it
        }
        let right = match self.kind {
            Kind::Stay | Kind::Car => row.right,
            Kind::Site if act != Act::Admit => keeping_a_site(entry),
            Kind::Roster if !matches!(act, Act::Admit | Act::OfferKey) => Right::KeepPeople,
            Kind::Site | Kind::Roster => row.right,
        };
        // What the office let in of a site or of the people stands by the office's own word: it was said by a
        // device of the organisation, and the right to keep them is the office's, which used it here.
        let by_the_office =
            matches!(self.kind, Kind::Site | Kind::Roster) && self.admitted.contains(&entry.id);
        if !by_the_office {
            self.has(certificate, entry, right)?;
        }
        if act == Act::Open {
            self.may_open_there(certificate, entry)?;
        }
        self.may_replace(certificate, entry, act)
    }

    /// Whether the entry may stand where it does.
    fn is_at_home(&self, entry: &Entry, homes: super::Homes) -> bool {
        match (self.kind, entry.body.about) {
            (Kind::Stay, Subject::Visit(_)) => homes.visit,
            (Kind::Car, Subject::Car(_) | Subject::Visit(_)) => homes.car,
            (Kind::Site, Subject::Site(_)) => homes.site,
            (Kind::Roster, Subject::Roster(_)) => homes.roster,
            _ => false,
        }
    }

    /// Whether the device has a right where the entry speaks.
    fn has(&self, certificate: &Certificate, entry: &Entry, right: Right) -> Result<(), Verdict> {
        if !grants(certificate, entry).any(|grant| grant.gives(right)) {
            return Err(Verdict::Kept(Kept::NoRight(right)));
        }
        let mut giving = grants(certificate, entry).filter(|grant| grant.gives(right));
        let covered = match (self.kind, entry.body.about) {
            (Kind::Stay, Subject::Visit(visit)) => match self.sites.get(&visit) {
                Some(sites) => giving.any(|grant| sites.iter().any(|site| grant.covers(site))),
                None if giving.any(|grant| grant.sites.is_none()) => true,
                None => return Err(Verdict::NotChecked(NotYet::SiteUnknown)),
            },
            (Kind::Site, Subject::Site(site)) => giving.any(|grant| grant.covers(&site)),
            (Kind::Roster, _) if right == Right::KeepPeople => giving.any(|grant| grant.sites.is_none()),
            _ => giving.next().is_some(),
        };
        if covered { Ok(()) } else { Err(Verdict::Kept(Kept::OtherSite)) }
    }

    /// A stay that is bound to a site by its id is begun by whoever records there; the site named in a
    /// correction is for the one who corrects to answer for.
    fn may_open_there(&self, certificate: &Certificate, entry: &Entry) -> Result<(), Verdict> {
        let (Statement::Opened(opened), Subject::Visit(visit)) = (&entry.body.says, entry.body.about) else {
            return Ok(());
        };
        let begins = opened.nonce.is_some_and(|nonce| VisitId::at_site(opened.site, nonce) == visit);
        let there = grants(certificate, entry).any(|g| g.gives(Right::Record) && g.covers(&opened.site));
        if begins && !there { Err(Verdict::Kept(Kept::OtherSite)) } else { Ok(()) }
    }

    /// Whether the entry may stand in the place of those it replaces.
    fn may_replace(&self, certificate: &Certificate, entry: &Entry, act: Act) -> Result<(), Verdict> {
        // Whoever keeps a site or the people keeps what others said there, too.
        if matches!(self.kind, Kind::Site | Kind::Roster)
            || entry.body.replaces.is_empty()
            || self.has(certificate, entry, Right::WithdrawOthers).is_ok()
        {
            return Ok(());
        }
        // What is put in the place of another's word speaks of the same thing, and a settlement keeps one of those
        // it settles: otherwise it would be a taking back by another name.
        let keeps_one = match &entry.body.says {
            Statement::Agreement { keeps } => entry.body.replaces.contains(keeps),
            _ => true,
        };
        let settles =
            act != Act::Withdraw && keeps_one && self.has(certificate, entry, Right::Settle).is_ok();
        for replaced in &entry.body.replaces {
            match self.makers.get(replaced) {
                None => return Err(Verdict::NotChecked(NotYet::ReplacedUnknown)),
                Some(other) if other.device == entry.device => {}
                Some(other) if self.authority.people.is_by_one_person(entry, other) => {}
                Some(other) if settles && other.body.speaks_of() == entry.body.speaks_of() => {}
                Some(_) => return Err(Verdict::Kept(Kept::NotOwn)),
            }
        }
        Ok(())
    }
}

/// The right that what is said of a site takes: by what the statement is or, for what settles or takes back,
/// by what it speaks about.
fn keeping_a_site(entry: &Entry) -> Right {
    let of_seals = match &entry.body.says {
        Statement::SealStock(_) => true,
        Statement::Agreement { .. } | Statement::Withdrawn {} => {
            entry.body.slot.starts_with(under::SEAL_STOCKS)
        }
        _ => false,
    };
    if of_seals { Right::IssueSeals } else { Right::KeepSite }
}

/// Whether a word that two visits are one stay joins them. Of one car at one site whoever may settle there
/// says so; else it is a disagreement until the office signs. Where one of the two was not opened as far as is
/// known here, only the office's word joins.
pub fn joins(authority: &Authority, signer: DeviceId, a: Option<&Opened>, b: Option<&Opened>) -> bool {
    if !authority.organisation {
        return true;
    }
    let alike = a.zip(b).is_some_and(|(a, b)| a.car.normal() == b.car.normal() && a.site == b.site);
    alike || authority.devices.get(&signer).is_some_and(|certificate| certificate.role == Role::Office)
}
