//! The state of each fitting (valve, closure, sound, line, threads), and which fittings must be closed.

use serde::Serialize;

use super::car::{CarView, WearPoint};
use super::fold_context::{Attested, FoldContext};
use super::rounds::{Round, last_round_of};
use crate::entry::vocabulary::{ClosureState, Fitting, Heard, ValvePosition};
use crate::entry::{Slot, Statement};
use crate::ids::DefectId;
use crate::units::{Amount, Finding};

/// The state of a line.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct LineState {
    /// Whether it is connected.
    pub connected: bool,
    /// The hose; empty if it was not stated.
    pub hose: String,
}

/// The state of one fitting.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct FittingView {
    /// The fitting.
    pub fitting: Fitting,
    /// The usual name.
    pub name: &'static str,
    /// The position of the valve, if the fitting has one.
    pub valve: Option<Attested<ValvePosition>>,
    /// The state of the plug or cap.
    pub closure: Option<Attested<ClosureState>>,
    /// What was heard last.
    pub listen: Option<Attested<Heard>>,
    /// Whether somebody listened after the valve was last shut.
    pub listened_since_shut: bool,
    /// The state of the line.
    pub line: Option<Attested<LineState>>,
    /// The number of full threads engaged.
    pub threads: Option<Attested<Amount>>,
    /// Whether a line was connected to it at any time in this visit.
    pub used: bool,
    /// The closing efforts over all visits, in order of time.
    pub efforts: Vec<WearPoint>,
    /// The defects at the fitting, from this visit or earlier ones.
    pub defects: Vec<DefectId>,
    /// Advice from the fitting's history for the next person who works on it.
    pub advice: Vec<Finding>,
}

/// Returns the fittings that must be closed before release.
///
/// These are the fittings that the car is recorded to have (in this visit or an earlier one), or the usual
/// ones if nobody recorded them, and in addition every fitting that any entry of this visit concerns. A
/// fitting that nobody touched counts as well, because no entry states that it is closed, and it was under
/// pressure on the way here.
pub(super) fn that_count(ledger: &FoldContext<'_>, car: &CarView) -> Vec<Fitting> {
    let arrangement = car.fittings.as_ref().map_or(&Fitting::USUAL[..], |known| known.value.as_slice());
    Fitting::ALL
        .iter()
        .copied()
        .filter(|fitting| *fitting != Fitting::ReliefDevice)
        .filter(|fitting| {
            arrangement.contains(fitting)
                || ledger.slots.names_under(&Slot::under_fitting(*fitting)).next().is_some()
        })
        .collect()
}

/// The slots of a fitting.
pub(super) struct FittingSlots {
    pub valve: Slot,
    pub closure: Slot,
    pub listen: Slot,
    pub line: Slot,
    pub threads: Slot,
}

impl FittingSlots {
    pub fn of(fitting: Fitting) -> FittingSlots {
        FittingSlots {
            valve: Slot::valve(fitting),
            closure: Slot::closure(fitting),
            listen: Slot::listen(fitting),
            line: Slot::line(fitting),
            threads: Slot::threads(fitting),
        }
    }
}

/// Returns the place of the last standing entry that meets a condition.
pub(super) fn last_place(
    ledger: &FoldContext<'_>,
    slot: &str,
    says: impl Fn(&Statement) -> bool,
) -> Option<usize> {
    ledger.slots.stood(slot).filter(|item| item.claim.is_some_and(&says)).map(|item| item.claim_place).max()
}

/// Returns true if somebody listened after the valve was last recorded as shut.
pub(super) fn listened_since_shut(ledger: &FoldContext<'_>, fitting: Fitting, slots: &FittingSlots) -> bool {
    let shut = last_place(ledger, &slots.valve, |says| {
        matches!(says, Statement::Valve { position: ValvePosition::Shut, .. })
    });
    let listened = last_place(ledger, &slots.listen, |says| matches!(says, Statement::Listen { .. }));
    let listened = listened.max(last_round_of(ledger, fitting).map(|round| round.place));
    match (shut, listened) {
        (Some(shut), Some(listened)) => listened > shut,
        _ => false,
    }
}

/// Returns true if a line was connected to the fitting at any time in this visit.
pub(super) fn ever_connected(ledger: &FoldContext<'_>, slots: &FittingSlots) -> bool {
    last_place(ledger, &slots.line, |says| matches!(says, Statement::Line { connected: true, .. })).is_some()
}

/// Returns the value of a slot, or what a later round of all closures said of it.
fn or_by_round<'a, T>(
    ledger: &FoldContext<'a>,
    (slot, round): (&Slot, Option<&Round<'a>>),
    by_round: T,
    read: impl Fn(&'a Statement) -> Option<T>,
) -> Option<Attested<T>> {
    let later = |round: &&Round<'_>| ledger.slots.live(slot).all(|item| item.claim_place < round.place);
    match round.filter(later) {
        Some(round) => Some(Attested {
            value: by_round,
            said: ledger.said(&round.item),
            kept: None,
            also: 0,
            disputed: false,
        }),
        None => ledger.known(slot, read),
    }
}

/// Returns the state of the counting fittings, and of the relief device if anything was recorded about it.
pub(super) fn fold(ledger: &FoldContext<'_>, counting: &[Fitting], car: &CarView) -> Vec<FittingView> {
    let relief = ledger
        .slots
        .names_under(&Slot::under_fitting(Fitting::ReliefDevice))
        .next()
        .map(|_| Fitting::ReliefDevice);
    counting
        .iter()
        .copied()
        .chain(relief)
        .map(|fitting| {
            let slots = FittingSlots::of(fitting);
            let round = last_round_of(ledger, fitting);
            let round = round.as_ref();
            FittingView {
                fitting,
                name: fitting.name(),
                valve: or_by_round(
                    ledger,
                    (&slots.valve, round.filter(|_| fitting.has_valve())),
                    ValvePosition::Shut,
                    |says| match says {
                        Statement::Valve { position, .. } => Some(*position),
                        _ => None,
                    },
                ),
                closure: or_by_round(ledger, (&slots.closure, round), ClosureState::ToolTight, |says| {
                    match says {
                        Statement::Closure { state, .. } => Some(*state),
                        _ => None,
                    }
                }),
                listen: or_by_round(
                    ledger,
                    (&slots.listen, round.filter(|_| fitting.has_valve())),
                    Heard::Quiet,
                    |says| match says {
                        Statement::Listen { heard, .. } => Some(*heard),
                        _ => None,
                    },
                ),
                listened_since_shut: listened_since_shut(ledger, fitting, &slots),
                line: ledger.known(&slots.line, |says| match says {
                    Statement::Line { connected, hose, .. } => {
                        Some(LineState { connected: *connected, hose: hose.trim().to_owned() })
                    }
                    _ => None,
                }),
                threads: ledger.known(&slots.threads, |says| match says {
                    Statement::Threads { engaged, .. } => Some(engaged.clone()),
                    _ => None,
                }),
                used: ever_connected(ledger, &slots),
                efforts: car.efforts.iter().filter(|point| point.fitting == fitting).cloned().collect(),
                defects: car.defects.iter().filter(|d| d.fitting == Some(fitting)).map(|d| d.id).collect(),
                advice: super::computed::wear(fitting, car),
            }
        })
        .collect()
}
