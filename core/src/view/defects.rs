//! Defects with what became of them, and holds.
//!
//! A defect is noted, reported up, answered by an authority or put right. An approval spoken for one
//! movement is confirmed in writing within two weeks (49 CFR 174.50, read).

use serde::Serialize;

use super::fold_context::{Attested, Attribution, FoldContext};
use crate::clock::UtcMillis;
use crate::entry::coded::{Coded, Told};
use crate::entry::vocabulary::{Fitting, PhotoOf};
use crate::entry::{Slot, Statement, under};
use crate::ids::{DefectId, Digest, HoldId, Subject, VisitId};

/// Two weeks: by then a spoken approval is confirmed in writing (49 CFR 174.50, read).
pub const WRITTEN_WITHIN_MILLIS: i64 = 14 * 24 * 60 * 60 * 1000;

/// A report of a defect to somebody.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct ForwardedView {
    /// To whom.
    pub to: String,
    /// How: a code, or as typed.
    pub how: Coded<Told>,
    /// Who reported it.
    pub said: Attribution,
}

/// An authority's answer.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct AuthorityView {
    /// Who gave it.
    pub by: String,
    /// Its reference.
    pub reference: String,
    /// When it was spoken.
    pub spoken_at: Option<UtcMillis>,
    /// When it came in writing.
    pub written_at: Option<UtcMillis>,
    /// By when it must come in writing, when it was spoken only.
    pub written_due: Option<UtcMillis>,
    /// The same in the site's zone.
    pub written_due_shown: Option<String>,
    /// Whether that is past.
    pub overdue: bool,
}

/// A defect and what became of it.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct DefectView {
    /// Which.
    pub id: DefectId,
    /// At which fitting.
    pub fitting: Option<Fitting>,
    /// What is wrong.
    pub what: String,
    /// Whether the car moves only with an authority's approval.
    pub needs_authority: bool,
    /// Photographs of it.
    pub photos: Vec<Digest>,
    /// Who noted it.
    pub said: Attribution,
    /// During which visit.
    pub visit: Option<VisitId>,
    /// To whom it was reported.
    pub forwarded: Vec<ForwardedView>,
    /// What an authority answered.
    pub authority: Option<Attested<AuthorityView>>,
    /// How it was put right.
    pub resolved: Option<Attested<String>>,
}

impl DefectView {
    /// Whether it still asks for something.
    pub fn is_open(&self) -> bool {
        self.resolved.is_none()
    }

    /// Whether an authority's answer is missing: none, or one without a date and a name.
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
    /// Which.
    pub id: HoldId,
    /// Why.
    pub because: String,
    /// Who said stop.
    pub said: Attribution,
    /// Whether it still stands.
    pub open: bool,
    /// Why it was lifted, and by whom.
    pub lifted: Option<Attested<String>>,
}

/// All defects, by the order in which they were noted.
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
    defects.sort_by_key(|(place, _)| *place);
    defects.into_iter().map(|(_, defect)| defect).collect()
}

/// Photographs that say they belong to a slot.
pub(super) fn photos_about(ledger: &FoldContext<'_>, slot: &str) -> Vec<Digest> {
    ledger.photos_about(slot).to_vec()
}

/// Whether there is a photograph of the threads of a fitting.
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

/// All holds, by the order in which they were said. Only a lifting that nobody contradicts lifts.
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
    holds.sort_by_key(|(place, _)| *place);
    holds.into_iter().map(|(_, hold)| hold).collect()
}
