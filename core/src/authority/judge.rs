//! The verdict on each entry of a document. The computation is pure and takes time linear in the number of
//! entries.

use std::collections::{BTreeMap, BTreeSet, HashMap, HashSet};

use super::table::Act;
use super::verdict::{Kept, NotYet, Verdict};
use super::{Authority, Grant};
use crate::clock::UtcMillis;
use crate::entry::{Certificate, Entry, Opened, Right, Role, Statement, under};
use crate::ids::{DeviceId, EntryId, SiteId, Subject, VisitId};

/// The tolerance in milliseconds by which a claimed time may lie after the present or after the arrival at
/// the office and still be credible. Clocks of phones without reception drift by some minutes.
const PATIENCE_MILLIS: i64 = 10 * 60_000;

/// An entry with its verdict. Folds accept only judged entries, and only [`Authority`] creates them.
#[derive(Clone, Copy, Debug)]
pub struct Judged<'a> {
    entry: &'a Entry,
    verdict: Verdict,
    credible: bool,
}

impl<'a> Judged<'a> {
    /// Returns the entry.
    pub const fn entry(&self) -> &'a Entry {
        self.entry
    }

    /// Returns the verdict.
    pub const fn verdict(&self) -> Verdict {
        self.verdict
    }

    /// Returns the entry as one that rests on an entry of another car that is not known here, or that fell away.
    pub(crate) const fn without_ground(self, known: bool) -> Judged<'a> {
        let verdict = match known {
            true => Verdict::Kept(Kept::GroundFell),
            false => Verdict::NotChecked(NotYet::GroundUnknown),
        };
        Judged { verdict, ..self }
    }

    /// Returns true if the claimed time is plausible: not later than the present, nor later than the arrival
    /// at the office.
    pub const fn credible(&self) -> bool {
        self.credible
    }
}

/// The kind of document whose entries are judged.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Kind {
    Stay,
    Car,
    Site,
    Roster,
}

/// An entry and the time when the office received it, if that is known.
pub type Received<'a> = (&'a Entry, Option<UtcMillis>);

impl Authority {
    /// Judges the entries of a stay, which consists of one visit or of several joined ones.
    pub fn stay<'a>(&self, entries: impl IntoIterator<Item = Received<'a>>) -> Vec<Judged<'a>> {
        self.judge(Kind::Stay, entries)
    }

    /// Judges the entries of a car's document. They may come from visits at any site, because every device
    /// with the right to record somewhere may state facts about a car.
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

    /// Judges the entries of a document according to its subject.
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

    /// Judges those entries of a stay that `wanted` selects, taking all entries into account.
    pub fn stay_where<'a>(
        &self,
        entries: impl IntoIterator<Item = Received<'a>>,
        wanted: impl Fn(&Entry) -> bool,
    ) -> Vec<Judged<'a>> {
        // A stay has hundreds of entries, and a list of a thousand stays needs only a few of each, so only
        // the entries that can affect those are examined.
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

    /// Judges an entry by its device's certificate alone, without regard to rights.
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
                // The office had received the entry before.
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

/// Returns the grants of a certificate that apply to an entry of its device: the present grant, and those
/// before renewals.
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

/// The entries of one document, with what must be known about all of them before a single one can be judged.
struct Case<'a, 'j> {
    authority: &'j Authority,
    kind: Kind,
    /// The entries in this document that others replace.
    makers: HashMap<EntryId, &'a Entry>,
    /// The sites of each visit.
    sites: BTreeMap<VisitId, BTreeSet<SiteId>>,
    /// The late entries that were admitted.
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

    /// Returns the entries that a device with the right to do so has admitted and not withdrawn. An admission
    /// itself can never be admitted.
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

    /// Finds the sites of each visit. A visit's id is computed from its site, so an opening that states the
    /// matching nonce proves the site. For a visit of version one the openings by devices with the right to
    /// record at all sites decide, and without any, those by devices with the right to record at the named
    /// site. A device that may speak in the visit may correct the site.
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
        // A device without a certificate cannot be admitted; admission applies to late entries of known
        // devices only.
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
        // A procedure is the organisation's own word. Neither a right in the certificate of a phone nor the
        // admission of what it sent late makes it one.
        let of_procedures = self.kind == Kind::Roster && self.is_of_procedures(entry, act);
        let of_expected_cars = self.kind == Kind::Site && self.is_of_expected_cars(entry, act);
        let of_the_office = grants(certificate, entry).any(|grant| grant.role == Role::Office);
        if of_procedures && !of_the_office {
            return Err(Verdict::Kept(Kept::NoRight(Right::PublishProcedures)));
        }
        // Which cars a site is told to expect is the word of whoever holds the papers, in the same way.
        if of_expected_cars && !of_the_office {
            return Err(Verdict::Kept(Kept::NoRight(Right::KeepSite)));
        }
        if self.admitted.contains(&entry.id) {
            return Ok(()); // whoever may admit answers for it
        }
        let right = match self.kind {
            Kind::Stay | Kind::Car => row.right,
            Kind::Site if act != Act::Admit => keeping_a_site(entry),
            Kind::Roster if of_procedures => Right::PublishProcedures,
            Kind::Roster if !matches!(act, Act::Admit | Act::OfferKey) => Right::KeepPeople,
            Kind::Site | Kind::Roster => row.right,
        };
        // Entries about a site or the people that the office accepted count on the office's own authority: a
        // device of the organisation made them, and the right to keep these records is the office's, which it
        // exercised by accepting them.
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

    /// Returns true if an entry of the roster is about a procedure, or replaces an entry that is.
    fn is_of_procedures(&self, entry: &Entry, act: Act) -> bool {
        let publishes = |entry: &Entry| Act::of(&entry.body.says) == Act::PublishProcedure;
        act == Act::PublishProcedure
            || entry.body.slot.starts_with(under::PROCEDURES)
            || entry.body.replaces.iter().any(|id| self.makers.get(id).is_some_and(|maker| publishes(maker)))
    }

    /// Returns true if an entry of a site is about the paper of an expected car, or replaces an entry that is.
    fn is_of_expected_cars(&self, entry: &Entry, act: Act) -> bool {
        let expects = |entry: &Entry| Act::of(&entry.body.says) == Act::ExpectCar;
        act == Act::ExpectCar
            || entry.body.slot.starts_with(under::EXPECTED)
            || entry.body.replaces.iter().any(|id| self.makers.get(id).is_some_and(|maker| expects(maker)))
    }

    /// Returns true if the entry may stand in the document that holds it.
    fn is_at_home(&self, entry: &Entry, homes: super::Homes) -> bool {
        match (self.kind, entry.body.about) {
            (Kind::Stay, Subject::Visit(_)) => homes.visit,
            (Kind::Car, Subject::Car(_) | Subject::Visit(_)) => homes.car,
            (Kind::Site, Subject::Site(_)) => homes.site,
            (Kind::Roster, Subject::Roster(_)) => homes.roster,
            _ => false,
        }
    }

    /// Checks that the device has a right at the site that the entry concerns.
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
            (Kind::Roster, _) if matches!(right, Right::KeepPeople | Right::PublishProcedures) => {
                giving.any(|grant| grant.sites.is_none())
            }
            _ => giving.next().is_some(),
        };
        if covered { Ok(()) } else { Err(Verdict::Kept(Kept::OtherSite)) }
    }

    /// A stay whose id proves its site may be opened by a device that may record there. In a correction, the
    /// device that corrects is responsible for the site it names.
    fn may_open_there(&self, certificate: &Certificate, entry: &Entry) -> Result<(), Verdict> {
        let (Statement::Opened(opened), Subject::Visit(visit)) = (&entry.body.says, entry.body.about) else {
            return Ok(());
        };
        let begins = opened.nonce.is_some_and(|nonce| VisitId::at_site(opened.site, nonce) == visit);
        let there = grants(certificate, entry).any(|g| g.gives(Right::Record) && g.covers(&opened.site));
        if begins && !there { Err(Verdict::Kept(Kept::OtherSite)) } else { Ok(()) }
    }

    /// Checks that the entry may replace the entries that it names.
    fn may_replace(&self, certificate: &Certificate, entry: &Entry, act: Act) -> Result<(), Verdict> {
        // A device with the right to keep a site's or the people's records may also correct entries of others
        // there.
        if matches!(self.kind, Kind::Site | Kind::Roster)
            || entry.body.replaces.is_empty()
            || self.has(certificate, entry, Right::WithdrawOthers).is_ok()
        {
            return Ok(());
        }
        // A correction must concern the same slot as the corrected entry, and a settlement must keep one of
        // the entries it settles; otherwise it would be a withdrawal under another name.
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

/// Returns the right that an entry about a site requires. It follows from the statement or, for a settlement
/// or a withdrawal, from the slot concerned.
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

/// Returns true if a statement that two visits are one stay joins them. For visits of the same car at the
/// same site, a device with the right to settle there suffices; otherwise the statement is a disagreement
/// until the office confirms it. If one of the visits is not known to have been opened, only the office's
/// statement joins them.
pub fn joins(authority: &Authority, signer: DeviceId, a: Option<&Opened>, b: Option<&Opened>) -> bool {
    if !authority.organisation {
        return true;
    }
    let alike = a.zip(b).is_some_and(|(a, b)| a.car.normal() == b.car.normal() && a.site == b.site);
    alike || authority.devices.get(&signer).is_some_and(|certificate| certificate.role == Role::Office)
}
