//! Blockers at a fitting: valve, closure, listening, line, threads.

use super::super::VisitParts;
use super::super::defects::{DefectView, threads_photographed};
use super::super::fittings::{FittingSlots, listened_since_shut};
use super::super::fold_context::FoldContext;
use super::{Blocker, BlockerKind};
use crate::entry::Statement;
use crate::entry::vocabulary::{ClosureState, Fitting, Heard, ValvePosition};
use crate::procedure::{Basis, Source};
use crate::units::{Amount, Unit};

pub(super) fn blockers(ledger: &FoldContext<'_>, parts: &VisitParts<'_>, blockers: &mut Vec<Blocker>) {
    for fitting in parts.counting.iter().copied() {
        let slots = FittingSlots::of(fitting);
        line(ledger, fitting, &slots, blockers);
        if fitting.has_valve() {
            valve(ledger, fitting, &slots, blockers);
            listen(ledger, fitting, &slots, blockers);
        }
        closure(ledger, fitting, &slots, blockers);
        threads(ledger, fitting, &slots, parts.defects, blockers);
    }
}

fn when_empty(ledger: &FoldContext<'_>) -> Basis {
    Basis::transloading(Source::from_memory("49 CFR 174.67(n)"), ledger.receiver)
}

/// A hose left on and pulled is the worst of all (from memory).
fn line(ledger: &FoldContext<'_>, fitting: Fitting, slots: &FittingSlots, blockers: &mut Vec<Blocker>) {
    let connected = ledger
        .claims(&slots.line)
        .iter()
        .any(|claim| !matches!(claim, Some(Statement::Line { connected: false, .. })));
    if connected {
        let missing = format!("The line on the {} has not been recorded as taken off.", fitting.name());
        let of = (BlockerKind::LineConnected, fitting.word());
        blockers.push(Blocker::new(ledger, of, missing, when_empty(ledger), &slots.line).at(fitting));
    }
}

/// A plug being tight says nothing of the valve behind it: both liquid valves were found open behind
/// tight plugs (reported under form 5800.1).
fn valve(ledger: &FoldContext<'_>, fitting: Fitting, slots: &FittingSlots, blockers: &mut Vec<Blocker>) {
    let shut = ledger.all_claim(&slots.valve, |says| {
        matches!(says, Statement::Valve { position: ValvePosition::Shut, .. })
    });
    if shut {
        return;
    }
    let recorded = ledger.slots.latest(&slots.valve).is_some();
    let missing = if recorded {
        format!("The {} is recorded open.", fitting.name())
    } else {
        format!(
            "Nobody recorded the {} itself as shut; its closure is another thing and another entry.",
            fitting.name()
        )
    };
    let of = (BlockerKind::ValveNotShut, fitting.word());
    blockers.push(Blocker::new(ledger, of, missing, when_empty(ledger), &slots.valve).at(fitting));
}

/// A valve recorded shut is believed once somebody listened after that. This is asked of every valve
/// that was recorded shut, found so on arrival too: a valve that passes behind its plug is heard, not
/// seen, and nobody can tell from the record whether "shut" was found or done.
fn listen(ledger: &FoldContext<'_>, fitting: Fitting, slots: &FittingSlots, blockers: &mut Vec<Blocker>) {
    let ever_shut = ledger
        .slots
        .stood(&slots.valve)
        .any(|item| matches!(item.claim, Some(Statement::Valve { position: ValvePosition::Shut, .. })));
    let evidence = [slots.valve.as_str(), slots.listen.as_str()];
    if ever_shut && !listened_since_shut(ledger, slots) {
        let missing = format!("Nobody listened at the {} after it was last shut.", fitting.name());
        let blocker = Blocker::new(
            ledger,
            (BlockerKind::ListenMissing, fitting.word()),
            missing,
            Basis::practice(),
            &slots.listen,
        );
        blockers.push(blocker.at(fitting).standing_on(ledger, evidence));
    }
    let hiss = ledger
        .claims(&slots.listen)
        .iter()
        .any(|claim| matches!(claim, Some(Statement::Listen { heard: Heard::Hiss, .. })));
    if hiss {
        let missing = format!("A hiss was heard at the {}: something passes.", fitting.name());
        let of = (BlockerKind::HissHeard, fitting.word());
        let blocker = Blocker::new(ledger, of, missing, Basis::practice(), &slots.listen);
        blockers.push(blocker.at(fitting));
    }
}

fn closure(ledger: &FoldContext<'_>, fitting: Fitting, slots: &FittingSlots, blockers: &mut Vec<Blocker>) {
    let tight = ledger.all_claim(&slots.closure, |says| {
        matches!(says, Statement::Closure { state: ClosureState::ToolTight, .. })
    });
    if tight {
        return;
    }
    let missing = match ledger.slots.latest(&slots.closure).map(|item| item.claim) {
        None => format!("Nobody recorded the closure of the {} as tool-tight.", fitting.name()),
        Some(Some(Statement::Closure { state: ClosureState::HandTight, .. })) => {
            format!("The closure of the {} is hand-tight only.", fitting.name())
        }
        Some(Some(Statement::Closure { state: ClosureState::Open, .. })) => {
            format!("The closure of the {} is open.", fitting.name())
        }
        Some(_) => format!("It is not agreed that the closure of the {} is tool-tight.", fitting.name()),
    };
    let basis = Basis::law(Source::from_memory("49 CFR 173.31(d)(1), closures tightened with a tool"));
    let of = (BlockerKind::ClosureNotToolTight, fitting.word());
    blockers.push(Blocker::new(ledger, of, missing, basis, &slots.closure).at(fitting));
}

/// A plug that bottoms with one full thread or less engaged is documented, photographed and reported
/// up; the operator may not change it (common practice, no source).
fn threads(
    ledger: &FoldContext<'_>,
    fitting: Fitting,
    slots: &FittingSlots,
    defects: &[DefectView],
    blockers: &mut Vec<Blocker>,
) {
    let counts: Vec<&Amount> = ledger
        .slots
        .live(&slots.threads)
        .filter_map(|item| match item.claim {
            Some(Statement::Threads { engaged, .. }) => Some(engaged),
            _ => None,
        })
        .collect();
    // A count that cannot be read, or is of another unit, is not taken for a good one.
    let doubtful = counts.iter().find(|count| count.value_in(Unit::Turns).is_none_or(|turns| turns <= 1.0));
    let Some(count) = doubtful else { return };
    let here = |defect: &&DefectView| {
        defect.fitting == Some(fitting) && defect.visit.is_none_or(|visit| ledger.visits.contains(&visit))
    };
    let mine: Vec<&DefectView> = defects.iter().filter(here).collect();
    let photographed =
        mine.iter().any(|d| !d.photos.is_empty()) || threads_photographed(ledger, &slots.threads);
    let mut lacks = Vec::new();
    if mine.is_empty() {
        lacks.push("a defect");
    }
    if !photographed {
        lacks.push("a photograph");
    }
    if !mine.iter().any(|d| !d.forwarded.is_empty()) {
        lacks.push("a report to the owner or the office");
    }
    if lacks.is_empty() {
        return;
    }
    let missing = format!(
        "{} engaged at the {}, where more than one full turn is needed: {} is missing.",
        count.shown(),
        fitting.name(),
        lacks.join(" and ")
    );
    let of = (BlockerKind::ThreadsOneOrLess, fitting.word());
    blockers.push(Blocker::new(ledger, of, missing, Basis::practice(), &slots.threads).at(fitting));
}
