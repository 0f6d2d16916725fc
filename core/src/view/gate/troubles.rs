//! The conditions about trouble and about how the car is left: incidents, leaks, moves, and how it goes away.

use super::rules::{Evaluation, Lack, Outcome};
use crate::entry::Slot;
use crate::entry::Statement;
use crate::entry::vocabulary::Fitting;
use crate::view::leaving::{lacks_reason, moved_or_left};
use crate::view::rounds::place_of;

impl Evaluation<'_, '_> {
    pub(super) fn incidents_closed(&self) -> Outcome {
        let incidents = self.facts.parts.incidents;
        let open = incidents.iter().filter(|incident| incident.open).map(|incident| Lack {
            of: incident.id.short(),
            slot: Slot::incident(&incident.id).into(),
            evidence: vec![Slot::incident_closed(&incident.id).into()],
            ..Lack::new().with("incident", incident.message(self.ledger))
        });
        let closed = incidents.iter().map(|incident| Slot::incident_closed(&incident.id));
        Outcome::of(closed, open.collect::<Vec<_>>())
    }

    pub(super) fn leaks_tight(&self) -> Outcome {
        let leaks = self.facts.parts.leaks;
        let open = leaks.iter().filter(|leak| leak.open).map(|leak| Lack {
            of: leak.id.short(),
            slot: Slot::leak(&leak.id).into(),
            evidence: vec![Slot::leak_checked(&leak.id).into()],
            fitting: leak.fitting,
            ..Lack::new().with("leak", leak.message())
        });
        let checked = leaks.iter().map(|leak| Slot::leak_checked(&leak.id));
        Outcome::of(checked, open.collect::<Vec<_>>())
    }

    /// A car that stands with its lines off, and on which none was put since, has nothing that must be protected
    /// again.
    pub(super) fn protected_since_moved(&self) -> Outcome {
        let slots = self.facts.parts.leaving.set_again.iter().map(|what| Slot::protection(*what));
        let Some(moved) = moved_or_left(self.ledger) else { return Outcome::of([], None) };
        let on_since = Fitting::LINES.iter().any(|fitting| {
            let slot = Slot::line(*fitting);
            let is_on = |says: &Statement| matches!(says, Statement::Line { connected: true, .. });
            let stood = || self.ledger.slots.stood(&slot);
            let later = |place: usize| place > moved;
            // On when the car was left, or put on since.
            let before =
                stood().filter(|item| !later(place_of(self.ledger, item))).max_by_key(|i| i.claim_place);
            before.is_some_and(|item| item.claim.is_some_and(is_on))
                || stood().any(|item| item.claim.is_some_and(is_on) && later(place_of(self.ledger, item)))
        });
        let lacks = self.facts.parts.leaving.set_again.iter().filter(|_| on_since).map(|what| Lack {
            of: what.word().to_owned(),
            slot: Slot::protection(*what).into(),
            evidence: vec![Slot::CAR_MOVED.into(), Slot::CAR_LEFT.into()],
            ..Lack::new().with("protection", what.term())
        });
        Outcome::of(slots, lacks.collect::<Vec<_>>())
    }

    pub(super) fn outcome_explained(&self) -> Outcome {
        let here = |visit: Option<crate::ids::VisitId>| {
            visit.is_none_or(|visit| self.ledger.visits.contains(&visit))
        };
        let has_defect = self.facts.parts.defects.iter().any(|defect| here(defect.visit) && defect.is_open());
        let outcome = self.facts.parts.leaving.outcome.as_ref().map(|known| &known.value);
        let lack = outcome
            .filter(|outcome| lacks_reason(outcome, has_defect))
            .map(|outcome| Lack::new().with("because", outcome.because.message()));
        Outcome::of([Slot::OUTCOME], lack)
    }
}
