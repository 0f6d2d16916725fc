//! Defects and their handling, and holds.
//!
//! A defect is noted, then reported to somebody, answered by an authority, or repaired. An approval given
//! orally for one movement must be confirmed in writing within two weeks (49 CFR 174.50, read).

use serde::Serialize;

use super::fold_context::{Attested, Attribution, FoldContext};
use super::order::by_place;
use crate::clock::UtcMillis;
use crate::entry::coded::{Coded, Told};
use crate::entry::vocabulary::{Fitting, PhotoOf};
use crate::entry::{Slot, Statement, under};
use crate::ids::{DefectId, Digest, HoldId, Subject, VisitId};

/// The time in milliseconds (two weeks) within which an oral approval must be confirmed in writing (49 CFR
/// 174.50, read).
pub const WRITTEN_WITHIN_MILLIS: i64 = 14 * 24 * 60 * 60 * 1000;

/// A report of a defect to a person or office.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct ForwardedView {
    /// The recipient.
    pub to: String,
    /// The means, as a code or as typed.
    pub how: Coded<Told>,
    /// The entry's attribution.
    pub said: Attribution,
}

/// An authority's answer.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct AuthorityView {
    /// The person or office that answered.
    pub by: String,
    /// The reference of the answer.
    pub reference: String,
    /// The time of the oral answer.
    pub spoken_at: Option<UtcMillis>,
    /// The time of the written answer.
    pub written_at: Option<UtcMillis>,
    /// The time by which an oral answer must be confirmed in writing.
    pub written_due: Option<UtcMillis>,
    /// The same time in the site's zone.
    pub written_due_shown: Option<String>,
    /// Whether that time has passed.
    pub overdue: bool,
}

/// A defect and its handling.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct DefectView {
    /// The id of the defect.
    pub id: DefectId,
    /// The fitting, if the defect is at one.
    pub fitting: Option<Fitting>,
    /// A description of the defect.
    pub what: String,
    /// Whether the car may be moved only with an authority's approval.
    pub needs_authority: bool,
    /// Photographs of it.
    pub photos: Vec<Digest>,
    /// The attribution of the entry that noted it.
    pub said: Attribution,
    /// The visit during which it was noted.
    pub visit: Option<VisitId>,
    /// The reports of the defect.
    pub forwarded: Vec<ForwardedView>,
    /// The authority's answer.
    pub authority: Option<Attested<AuthorityView>>,
    /// The repair.
    pub resolved: Option<Attested<String>>,
}

impl DefectView {
    /// Returns true if the defect still requires action.
    pub fn is_open(&self) -> bool {
        self.resolved.is_none()
    }

    /// Returns true if there is no authority's answer, or only one without a date or a name.
    pub fn lacks_authority(&self) -> bool {
        let answered = self.authority.as_ref().is_some_and(|known| {
            let dated = known.value.spoken_at.is_some() || known.value.written_at.is_some();
            dated && !known.value.by.trim().is_empty() && !known.disputed
        });
        self.needs_authority && self.is_open() && !answered
    }
}

/// A hold.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct HoldView {
    /// The id of the hold.
    pub id: HoldId,
    /// The reason.
    pub because: String,
    /// The attribution of the entry that placed the hold.
    pub said: Attribution,
    /// Whether the hold still stands.
    pub open: bool,
    /// The reason for lifting it, with attribution.
    pub lifted: Option<Attested<String>>,
}

/// Returns all defects in the order in which they were noted.
pub(super) fn fold(ledger: &FoldContext<'_>) -> Vec<DefectView> {
    let mut defects: Vec<(usize, DefectView)> = Vec::new();
    for slot in ledger.slots.names_under(under::DEFECTS) {
        let Some(item) = ledger.slots.latest(slot) else { continue };
        let Some(Statement::Defect(defect)) = item.claim else { continue };
        let id = defect.defect;
        let mut photos: Vec<Digest> = defect.photo.into_iter().collect();
        photos.extend(photos_about(ledger, slot));
        photos.sort_unstable();
        photos.dedup();
        let visit = match item.entry.body.about {
            Subject::Visit(visit) => Some(visit),
            _ => None,
        };
        let view = DefectView {
            id,
            fitting: defect.fitting,
            what: defect.what.trim().to_owned(),
            needs_authority: ledger
                .claims(slot)
                .iter()
                .any(|claim| matches!(claim, Some(Statement::Defect(d)) if d.needs_authority)),
            photos,
            said: ledger.said(item),
            visit,
            forwarded: forwarded(ledger, id),
            authority: authority(ledger, id),
            resolved: ledger.known(&Slot::resolved(&id), |says| match says {
                Statement::Resolved { how, .. } => Some(how.trim().to_owned()),
                _ => None,
            }),
        };
        defects.push((item.place, view));
    }
    by_place(defects)
}

/// Returns the photographs that state a slot as their subject.
pub(super) fn photos_about(ledger: &FoldContext<'_>, slot: &str) -> Vec<Digest> {
    ledger.photos_about(slot).to_vec()
}

/// Returns true if there is a photograph of a fitting's threads.
pub(super) fn threads_photographed(ledger: &FoldContext<'_>, threads_slot: &str) -> bool {
    !ledger.photos_about(threads_slot).is_empty()
        && ledger.slots.stood(&Slot::PHOTOS).any(|item| {
            matches!(item.claim, Some(Statement::Photo { of: PhotoOf::Threads | PhotoOf::Defect, about, .. })
                if about == threads_slot)
        })
}

fn forwarded(ledger: &FoldContext<'_>, id: DefectId) -> Vec<ForwardedView> {
    ledger
        .slots
        .stood(&Slot::forwarded(&id))
        .filter_map(|item| match item.claim {
            Some(Statement::Forwarded { to, how, .. }) => {
                Some(ForwardedView { to: to.clone(), how: how.clone(), said: ledger.said(item) })
            }
            _ => None,
        })
        .collect()
}

fn authority(ledger: &FoldContext<'_>, id: DefectId) -> Option<Attested<AuthorityView>> {
    ledger.known(&Slot::authority(&id), |says| match says {
        Statement::Authority { by, reference, spoken_at, written_at, .. } => {
            let written_due = match (spoken_at, written_at) {
                (Some(spoken), None) => Some(UtcMillis(spoken.0.saturating_add(WRITTEN_WITHIN_MILLIS))),
                _ => None,
            };
            Some(AuthorityView {
                by: by.trim().to_owned(),
                reference: reference.trim().to_owned(),
                spoken_at: *spoken_at,
                written_at: *written_at,
                written_due,
                written_due_shown: written_due.map(|due| ledger.shown(due)),
                overdue: written_due.is_some_and(|due| ledger.ctx.now > due),
            })
        }
        _ => None,
    })
}

/// Returns all holds in the order in which they were placed. A hold is lifted only by an undisputed
/// statement.
pub(super) fn holds(ledger: &FoldContext<'_>) -> Vec<HoldView> {
    let mut holds: Vec<(usize, HoldView)> = Vec::new();
    for slot in ledger.slots.names_under(under::HOLDS) {
        let said_stop = ledger.slots.stood(slot).find_map(|item| match item.claim {
            Some(Statement::Hold { hold, because }) => Some((item, *hold, because)),
            _ => None,
        });
        let Some((item, id, because)) = said_stop else { continue };
        let open = !ledger.all_claim(slot, |says| matches!(says, Statement::HoldLifted { .. }));
        let lifted = ledger.known(slot, |says| match says {
            Statement::HoldLifted { because, .. } => Some(because.trim().to_owned()),
            _ => None,
        });
        let view = HoldView { id, because: because.trim().to_owned(), said: ledger.said(item), open, lifted };
        holds.push((item.place, view));
    }
    by_place(holds)
}
