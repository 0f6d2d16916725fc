//! Records that may belong to one stay: the same car twice, or car numbers that differ by one typing error.
//!
//! Two people at one car may each have opened a visit, or somebody may have typed a neighbouring car's
//! number. Nothing is joined automatically: an offer is shown, and a person decides. The fold and the code
//! that gathers the documents of joined stays call this module.

use std::collections::{BTreeMap, BTreeSet};

use serde::Serialize;

use super::fold_context::briefly;
use crate::clock::UtcMillis;
use crate::entry::car_number::CarNumber;
use crate::ids::{SiteId, VisitId};
use crate::{Arg, Message, message};

const DAY: i64 = 24 * 60 * 60 * 1000;

/// The facts about a visit that are needed to compare it with others.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Brief {
    /// The visit; for a joined stay, the first one.
    pub visit: VisitId,
    /// All visits of the stay.
    pub joined: Vec<VisitId>,
    /// The car number as typed.
    pub car: CarNumber,
    /// The site.
    pub site: Option<SiteId>,
    /// The earliest claimed time.
    pub from: UtcMillis,
    /// The latest claimed time; `None` as long as the car is still there. The brief does not depend on the
    /// present time, so two devices with the same entries have the same brief.
    pub until: Option<UtcMillis>,
    /// The visits that were stated not to be the same stay.
    pub not_joined: Vec<VisitId>,
}

/// The similarity between two visits.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Likeness {
    /// The same car number.
    SameCar,
    /// The car numbers differ by a single typing error.
    NearNumber,
}

/// An offer to join a visit with another one.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Offer {
    /// The other visit.
    pub other: VisitId,
    /// The other visit's car number.
    pub car: CarNumber,
    /// The reason for the offer.
    pub likeness: Likeness,
    /// A sentence for people.
    pub sentence: Message,
}

/// Returns the offers for one visit. The times of two visits count as overlapping if they come within a day
/// of each other, because a clock may be wrong and a record may be opened late.
pub fn offers(this: &Brief, others: &[Brief]) -> Vec<Offer> {
    let joined: BTreeSet<VisitId> = this.joined.iter().copied().collect();
    let declined: BTreeSet<VisitId> = this.not_joined.iter().copied().collect();
    let number = this.car.normal();
    let mut found: Vec<Offer> = others
        .iter()
        .filter(|other| this.site.is_some() && this.site == other.site && days_overlap(this, other))
        .filter(|other| other.visit != this.visit && !joined.contains(&other.visit))
        .filter(|other| !other.joined.iter().any(|visit| joined.contains(visit)))
        .filter(|other| {
            !std::iter::once(&other.visit).chain(&other.joined).any(|visit| declined.contains(visit))
        })
        .filter(|other| !other.not_joined.iter().any(|visit| *visit == this.visit || joined.contains(visit)))
        .filter_map(|other| {
            let theirs = other.car.normal();
            let (likeness, sentence) = if number == theirs {
                (Likeness::SameCar, message!("near-same-car", car = Arg::typed(briefly(&theirs))))
            } else if this.car.is_near(&other.car) {
                (
                    Likeness::NearNumber,
                    message!(
                        "near-number",
                        theirs = Arg::typed(briefly(&theirs)),
                        ours = Arg::typed(briefly(&number)),
                    ),
                )
            } else {
                return None;
            };
            Some(Offer { other: other.visit, car: other.car.clone(), likeness, sentence })
        })
        .collect();
    found.sort_by_key(|offer| offer.other);
    found.dedup_by_key(|offer| offer.other);
    found
}

fn days_overlap(a: &Brief, b: &Brief) -> bool {
    let began_before_end_of =
        |one: &Brief, other: &Brief| other.until.is_none_or(|end| one.from.0.saturating_sub(DAY) <= end.0);
    began_before_end_of(a, b) && began_before_end_of(b, a)
}

/// Returns the first visit of the stay to which a visit belongs so far. The path to it is shortened for later
/// calls, so that a long chain of joins is followed only once.
fn first_of(leader: &mut BTreeMap<VisitId, VisitId>, visit: VisitId) -> Option<VisitId> {
    let mut first = *leader.get(&visit)?;
    while let Some(next) = leader.get(&first).filter(|next| **next != first) {
        first = *next;
    }
    let mut here = visit;
    while let Some(next) = leader.insert(here, first).filter(|next| *next != first && *next != here) {
        here = next;
    }
    Some(first)
}

/// Groups visits into stays; each pair states that two visits are one stay. Groups and the visits within them
/// are in ascending order, and a visit in no pair forms a group of its own.
pub fn stays(visits: &[VisitId], joined: &[(VisitId, VisitId)]) -> Vec<Vec<VisitId>> {
    let mut leader: BTreeMap<VisitId, VisitId> = visits.iter().map(|v| (*v, *v)).collect();
    for (a, b) in joined {
        let (Some(a), Some(b)) = (first_of(&mut leader, *a), first_of(&mut leader, *b)) else { continue };
        leader.insert(a.max(b), a.min(b));
    }
    let mut groups: BTreeMap<VisitId, BTreeSet<VisitId>> = BTreeMap::new();
    for visit in visits {
        if let Some(first) = first_of(&mut leader, *visit) {
            groups.entry(first).or_default().insert(*visit);
        }
    }
    groups.into_values().map(|group| group.into_iter().collect()).collect()
}
