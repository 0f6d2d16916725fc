//! Records that may be of one stay: the same car twice, or car numbers one slip apart.
//!
//! Two people at one car may each have opened a visit, and a tired hand may have typed a neighbour's
//! number. Nothing is joined by itself: an offer is shown, and a person says yes or no. Called by the
//! fold, and by whoever gathers the documents of a joined stay.

use std::collections::{BTreeMap, BTreeSet};

use serde::Serialize;

use super::fold_context::briefly;
use crate::clock::UtcMillis;
use crate::entry::car_number::CarNumber;
use crate::ids::{SiteId, VisitId};

const DAY: i64 = 24 * 60 * 60 * 1000;

/// What there is to know of a visit to compare it with others.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Brief {
    /// The visit; of a joined stay, the first of them.
    pub visit: VisitId,
    /// All visits of the stay.
    pub joined: Vec<VisitId>,
    /// The car's number as typed.
    pub car: CarNumber,
    /// Where.
    pub site: Option<SiteId>,
    /// Its first claimed time.
    pub from: UtcMillis,
    /// Its last claimed time; nothing while the car is still there, whatever clock looks at it: two
    /// devices with the same entries have the same brief.
    pub until: Option<UtcMillis>,
    /// Visits it was compared with and found not to be the same stay as.
    pub not_joined: Vec<VisitId>,
}

/// Why two visits are laid side by side.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum Likeness {
    /// The same car number.
    SameCar,
    /// Car numbers that one slip of the hand makes of each other.
    NearNumber,
}

/// An offer to join a visit with another.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct Offer {
    /// The other visit.
    pub other: VisitId,
    /// Its car's number.
    pub car: CarNumber,
    /// Why it is offered.
    pub likeness: Likeness,
    /// In a sentence.
    pub sentence: String,
}

/// The offers for one visit. Days overlap when they come within a day of each other, since a clock
/// may be wrong and a record may be opened late.
pub fn offers(this: &Brief, others: &[Brief]) -> Vec<Offer> {
    let joined: BTreeSet<VisitId> = this.joined.iter().copied().collect();
    let declined: BTreeSet<VisitId> = this.not_joined.iter().copied().collect();
    let number = this.car.normal();
    let mut found: Vec<Offer> = others
        .iter()
        .filter(|other| this.site.is_some() && this.site == other.site && days_overlap(this, other))
        .filter(|other| other.visit != this.visit && !joined.contains(&other.visit))
        .filter(|other| !other.joined.iter().any(|visit| joined.contains(visit)))
        .filter(|other| !std::iter::once(&other.visit).chain(&other.joined).any(|visit| declined.contains(visit)))
        .filter(|other| !other.not_joined.iter().any(|visit| *visit == this.visit || joined.contains(visit)))
        .filter_map(|other| {
            let theirs = other.car.normal();
            let (likeness, sentence) = if number == theirs {
                (
                    Likeness::SameCar,
                    format!("Another record of {} at this site in these days: is it the same stay?", briefly(&theirs)),
                )
            } else if this.car.is_near(&other.car) {
                (
                    Likeness::NearNumber,
                    format!(
                        "{} is at this site in these days too, one slip away from {}: is one of the numbers mistyped?",
                        briefly(&theirs),
                        briefly(&number)
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

/// The first visit of the stay a visit is in so far. The way there is shortened for whoever asks next, so that a long
/// chain of joins is walked once.
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

/// Visits gathered into stays: each pair says that the two are one stay. The groups are ascending and
/// so are the visits within; a visit in no pair stands alone.
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
