//! Completeness of the stay: what the log's last checkpoint states about each visit as a whole, visits that
//! entries assign to the stay, and photographs that other stays name too.

use std::collections::{BTreeMap, BTreeSet};

use super::check::Opened;
use super::parts::{Log, Parts, VisitHead};
use super::report::{CheckReport, Code, shown};
use crate::clock::UtcMillis;
use crate::entry::{Entry, Statement, Trusts};
use crate::ids::{EntryId, OrganisationId, Subject, VisitId};
use crate::log::Checkpoint;
use crate::tree::heads::{Head, HeadsRoot, root_by_path};
use crate::{Arg, message};

pub(super) fn check(parts: &Parts, opened: &Opened, key: &dyn Trusts, report: &mut CheckReport) {
    let last = parts.log.checkpoints.last().and_then(|note| Checkpoint::open(note, key).ok());
    // An invalid checkpoint is already reported.
    if let Some(last) = last {
        match last.heads {
            Some(heads) => of_visits(parts, opened, &last, heads, report),
            None => unsaid(report),
        }
    }
    joined(parts, opened, report);
    unjoined(parts, opened, report);
    besides(opened, key, report);
    let elsewhere = parts.log.photos_elsewhere.len();
    if elsewhere > 0 {
        report.mark(Code::PhotoElsewhere, message!("verify-photo-elsewhere", count = elsewhere));
    }
}

/// Reports that nothing states the number of entries, as was the case before fold 3.
pub(super) fn unsaid(report: &mut CheckReport) {
    report.mark(Code::NoHead, message!("verify-no-heads"));
}

/// Returns the arrival time of the newest leaf present, which tells as of when the statement holds.
fn newest(log: &Log) -> Option<UtcMillis> {
    log.leaves.iter().map(|leaf| leaf.received_at).max()
}

fn of_visits(parts: &Parts, opened: &Opened, last: &Checkpoint, heads: HeadsRoot, report: &mut CheckReport) {
    let places: BTreeMap<EntryId, u64> =
        parts.log.leaves.iter().map(|leaf| (leaf.entry, leaf.number)).collect();
    let mut whole = true;
    let mut count = 0;
    for visit in &parts.entries.stay {
        let about = Subject::Visit(*visit);
        let mut here: Vec<(u64, EntryId)> = opened
            .visit
            .iter()
            .filter(|entry| entry.body.about == about)
            // An entry without a place is in no log, which is already reported; it is present nevertheless.
            .map(|entry| (places.get(&entry.id).copied().unwrap_or(u64::MAX), entry.id))
            .collect();
        here.sort_unstable();
        here.dedup();
        let ids: Vec<EntryId> = here.into_iter().map(|(_, id)| id).collect();
        let told: Vec<_> = parts.log.heads.iter().filter(|head| head.about == about).collect();
        let leads = |told: &&VisitHead| {
            let head = Head { count: told.count, root: told.root };
            root_by_path(about, head, &told.path) == Some(heads.root)
        };
        let Some(first) = told.first() else {
            whole = false;
            let what = message!("verify-no-head", about = shown(about));
            report.mark(Code::NoHead, what);
            continue;
        };
        let head = Head { count: first.count, root: first.root };
        if !told.iter().all(leads) {
            whole = false;
            let what = message!("verify-other-head", about = shown(about), size = shown(last.size));
            report.broken(Code::OtherHead, what);
            continue;
        }
        if head == Head::of(&ids) {
            count += head.count;
            continue;
        }
        whole = false;
        let held = ids.len() as u64;
        // An altered entry accounts for one that the log counts; it is already reported.
        if held + (opened.altered as u64) < head.count {
            let what = message!(
                "verify-removed-of-visit",
                count = head.count,
                about = shown(about),
                here = shown(held)
            );
            report.broken(Code::RemovedEntry, what);
        } else if opened.altered == 0 {
            let what = message!("verify-other-entries", count = head.count, about = shown(about));
            report.broken(Code::OtherHead, what);
        }
    }
    if whole {
        let (count, size) = (Arg::Count(count), shown(last.size));
        let what = match newest(&parts.log) {
            None => message!("verify-whole", count = count, size = size),
            Some(at) => {
                message!("verify-whole-newest", count = count, size = size, at = shown(at.rfc3339()))
            }
        };
        report.holds(Code::Whole, what);
    }
}

/// Reports visits that an entry here assigns to the stay, either as the other visit or as its own, unless an
/// entry states that the two are not one stay.
fn joined(parts: &Parts, opened: &Opened, report: &mut CheckReport) {
    let replaced: BTreeSet<EntryId> =
        opened.visit.iter().flat_map(|entry| entry.body.replaces.iter().copied()).collect();
    let pair = |entry: &Entry, other: VisitId| match entry.body.about {
        Subject::Visit(own) => [own.min(other), own.max(other)],
        _ => [other, other],
    };
    let parted: BTreeSet<[VisitId; 2]> = opened
        .visit
        .iter()
        .filter_map(|entry| match entry.body.says {
            Statement::NotJoined { other } => Some(pair(entry, other)),
            _ => None,
        })
        .collect();
    let mut absent: BTreeSet<VisitId> = BTreeSet::new();
    for entry in opened.visit.iter().filter(|entry| !replaced.contains(&entry.id)) {
        if let Statement::Joined { other } = entry.body.says
            && !parted.contains(&pair(entry, other))
        {
            absent.extend(pair(entry, other).iter().filter(|visit| !parts.entries.stay.contains(visit)));
        }
    }
    for visit in absent {
        let what = message!("verify-absent-visit", visit = shown(visit));
        report.mark(Code::AbsentVisit, what);
    }
}

/// Reports visits that are sealed as one stay although no entry joins them.
fn unjoined(parts: &Parts, opened: &Opened, report: &mut CheckReport) {
    let stay = &parts.entries.stay;
    let mut joined: BTreeSet<VisitId> = BTreeSet::new();
    for entry in &opened.visit {
        if let (Statement::Joined { other }, Subject::Visit(own)) = (&entry.body.says, entry.body.about)
            && own != *other
            && stay.contains(other)
            && stay.contains(&own)
        {
            joined.extend([own, *other]);
        }
    }
    let visits: BTreeSet<VisitId> = stay.iter().copied().collect();
    for visit in visits.iter().filter(|visit| visits.len() > 1 && !joined.contains(visit)) {
        let what = message!("verify-unjoined-visit", visit = shown(visit));
        report.mark(Code::UnjoinedVisit, what);
    }
}

/// Checks that attached entries about a site are about the stay's site, and those about people about this
/// organisation's.
fn besides(opened: &Opened, key: &dyn Trusts, report: &mut CheckReport) {
    let sites: BTreeSet<Subject> = opened
        .visit
        .iter()
        .filter_map(|entry| match &entry.body.says {
            Statement::Opened(opened) => Some(Subject::Site(opened.site)),
            _ => None,
        })
        .collect();
    let roster = Subject::Roster(OrganisationId::of_key(&key.root()));
    for (name, entry) in &opened.besides {
        let right = match *name {
            "site" => sites.contains(&entry.body.about) || !matches!(entry.body.about, Subject::Site(_)),
            "roster" => entry.body.about == roster || !matches!(entry.body.about, Subject::Roster(_)),
            _ => true,
        };
        if !right {
            let what =
                message!("verify-not-this-stays", entry = shown(entry.id), about = shown(entry.body.about));
            report.broken(Code::ForeignEntry, what);
        }
    }
}
