//! Conditions at a fitting: that somebody listened, that nothing was heard, and that short threads were reported.

use super::rules::{Evaluation, Lack, Outcome};
use crate::entry::vocabulary::{Fitting, Heard, ValvePosition};
use crate::entry::{Slot, Statement};
use crate::units::{Amount, Unit};
use crate::view::defects::{DefectView, threads_photographed};
use crate::view::fittings::{FittingSlots, listened_since_shut};
use crate::{Arg, Joint, Message};

fn at(fitting: Fitting) -> Lack {
    Lack { of: fitting.word().to_owned(), fitting: Some(fitting), ..Lack::new() }
        .with("fitting", fitting.term())
}

impl Evaluation<'_, '_> {
    /// A valve recorded shut is believed once somebody listened after that. This is asked of every valve that was
    /// recorded shut, found so on arrival too: a valve that passes behind its plug is heard, not seen, and nobody
    /// can tell from the record whether "shut" was found or done.
    pub(super) fn listened(&self, fitting: Fitting) -> Outcome {
        let slots = FittingSlots::of(fitting);
        let ever_shut =
            self.ledger.slots.stood(&slots.valve).any(|item| {
                matches!(item.claim, Some(Statement::Valve { position: ValvePosition::Shut, .. }))
            });
        let lacks = ever_shut && !listened_since_shut(self.ledger, fitting, &slots);
        let evidence = vec![slots.valve.to_string()];
        Outcome::of([slots.listen], lacks.then(|| Lack { evidence, ..at(fitting) }))
    }

    pub(super) fn no_leak_heard(&self, fitting: Fitting) -> Outcome {
        let slot = Slot::listen(fitting);
        let round = self.places.round(fitting);
        let hiss = self
            .ledger
            .slots
            .live(&slot)
            .filter(|item| round.is_none_or(|round| item.claim_place > round))
            .any(|item| matches!(item.claim, Some(Statement::Listen { heard: Heard::Hiss, .. })));
        Outcome::of([slot], hiss.then(|| at(fitting)))
    }

    /// A plug that bottoms with one full thread or less engaged is documented, photographed and reported up; the
    /// operator may not change it.
    pub(super) fn threads(&self, fitting: Fitting) -> Outcome {
        let slot = Slot::threads(fitting);
        let counts: Vec<&Amount> = self
            .ledger
            .slots
            .live(&slot)
            .filter_map(|item| match item.claim {
                Some(Statement::Threads { engaged, .. }) => Some(engaged),
                _ => None,
            })
            .collect();
        // A count that cannot be read, or is of another unit, is not taken for a good one.
        let doubtful =
            counts.iter().find(|count| count.value_in(Unit::Turns).is_none_or(|turns| turns <= 1.0));
        let Some(count) = doubtful else { return Outcome::of([slot], None) };
        let here = |defect: &&DefectView| {
            defect.fitting == Some(fitting)
                && defect.visit.is_none_or(|visit| self.ledger.visits.contains(&visit))
        };
        let mine: Vec<&DefectView> = self.facts.parts.defects.iter().filter(here).collect();
        let photographed =
            mine.iter().any(|d| !d.photos.is_empty()) || threads_photographed(self.ledger, &slot);
        let mut lacks = Vec::new();
        if mine.is_empty() {
            lacks.push(Message::new("gate-threads-lacks-defect"));
        }
        if !photographed {
            lacks.push(Message::new("gate-threads-lacks-photo"));
        }
        if !mine.iter().any(|d| !d.forwarded.is_empty()) {
            lacks.push(Message::new("gate-threads-lacks-report"));
        }
        let lack = (!lacks.is_empty())
            .then(|| at(fitting).with("count", count.arg()).with("lacks", Arg::list(Joint::And, lacks)));
        Outcome::of([slot], lack)
    }
}
