//! Whether all of the stay is here: what the log's last checkpoint says of each visit as a whole, visits that
//! entries say are of the same stay, and photographs that other stays name as well.

use std::collections::{BTreeMap, BTreeSet};

use super::check::Opened;
use super::parts::{Log, Parts, VisitHead};
use super::report::{CheckReport, Code};
use crate::entry::{Entry, Statement, Trusts};
use crate::ids::{EntryId, OrganisationId, Subject, VisitId};
use crate::log::Checkpoint;
use crate::tree::heads::{Head, HeadsRoot, root_by_path};

pub(super) fn check(parts: &Parts, opened: &Opened, key: &dyn Trusts, report: &mut CheckReport) {
    let last = parts.log.checkpoints.last().and_then(|note| Checkpoint::open(note, key).ok());
    // A checkpoint that does not hold was told already.
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
        let what =
            format!("{elsewhere} photographs of this stay are named by entries of other stays as well");
        report.mark(Code::PhotoElsewhere, what);
    }
}

/// Where nothing says how many entries there are, as before fold 3.
pub(super) fn unsaid(report: &mut CheckReport) {
    let what = "the log's checkpoint does not say how many entries there are of a stay: that all are here rests on \
                the organisation's word";
    report.mark(Code::NoHead, what);
}

/// When the last checkpoint's newest leaf that is here came in, to say as of when.
fn received(log: &Log) -> String {
    let newest = log.leaves.iter().map(|leaf| leaf.received_at).max();
    newest.map_or_else(String::new, |at| format!(", the newest of those here received {}", at.rfc3339()))
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
            // One without a place is in no log, which was told; it is here all the same.
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
            let what = format!(
                "how many entries the log holds of {about} is not proven: that all are here rests on the organisation's word"
            );
            report.mark(Code::NoHead, what);
            continue;
        };
        let head = Head { count: first.count, root: first.root };
        if !told.iter().all(leads) {
            whole = false;
            let what = format!(
                "what is said of {about} as a whole is not what the checkpoint of size {} commits to",
                last.size
            );
            report.broken(Code::OtherHead, what);
            continue;
        }
        if head == Head::of(&ids) {
            count += head.count;
            continue;
        }
        whole = false;
        let held = ids.len() as u64;
        // An altered entry stands in the place of one the log counts; that was told.
        if held + (opened.altered as u64) < head.count {
            let what = format!("the log holds {} entries of {about}, {held} are here", head.count);
            report.broken(Code::RemovedEntry, what);
        } else if opened.altered == 0 {
            let what = format!("the entries here are not the {} that the log holds of {about}", head.count);
            report.broken(Code::OtherHead, what);
        }
    }
    if whole {
        let what = format!(
            "all {count} entries that the log of {} entries holds of this stay are here{}",
            last.size,
            received(&parts.log)
        );
        report.holds(Code::Whole, what);
    }
}

/// Visits that an entry here calls part of the stay, whether as the other or as its own, unless an entry says that
/// the two are not of one stay.
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
        let what = format!("an entry says that visit {visit} is of the same stay; its entries are not here");
        report.mark(Code::AbsentVisit, what);
    }
}

/// Visits sealed as one stay that nobody said are one.
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
        let what = format!("no entry says that visit {visit} is of one stay with the others here");
        report.mark(Code::UnjoinedVisit, what);
    }
}

/// What is attached of a site must be of the one the stay was opened at, what is attached of people of this
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
            let what = format!("entry {} is about {}, which is not this stay's", entry.id, entry.body.about);
            report.broken(Code::ForeignEntry, what);
        }
    }
}
