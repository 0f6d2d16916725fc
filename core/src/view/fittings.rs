//! Each fitting: its valve, its closure, what was heard, its line, threads, and which fittings count.

use serde::Serialize;

use super::car::{CarView, WearPoint};
use super::fold_context::{Attested, FoldContext};
use crate::entry::vocabulary::{ClosureState, Fitting, Heard, ValvePosition};
use crate::entry::{Slot, Statement};
use crate::ids::DefectId;
use crate::units::{Amount, Finding};

/// A line as it stands.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct LineState {
    /// Whether it is on.
    pub connected: bool,
    /// Which hose; empty when it was not said.
    pub hose: String,
}

/// One fitting as it stands.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct FittingView {
    /// Which.
    pub fitting: Fitting,
    /// As people call it.
    pub name: &'static str,
    /// Where its valve stands, if it has one.
    pub valve: Option<Attested<ValvePosition>>,
    /// How far its plug or cap is in.
    pub closure: Option<Attested<ClosureState>>,
    /// What was heard last.
    pub listen: Option<Attested<Heard>>,
    /// Whether somebody listened after the valve was last shut.
    pub listened_since_shut: bool,
    /// Its line.
    pub line: Option<Attested<LineState>>,
    /// Full threads engaged.
    pub threads: Option<Attested<Amount>>,
    /// Whether a line was ever on it in this visit.
    pub used: bool,
    /// Closing efforts over all visits, by time.
    pub efforts: Vec<WearPoint>,
    /// Defects noted at it, at this visit or earlier ones.
    pub defects: Vec<DefectId>,
    /// What its past and its efforts suggest to whoever works it next.
    pub advice: Vec<Finding>,
}

/// The fittings that must be closed before release.
///
/// The car's own arrangement where somebody recorded it (now or at an earlier visit), otherwise the
/// usual one; and besides, every fitting anybody recorded anything of in this visit. A fitting never
/// touched still counts: nobody has said that it is closed, and it was under pressure on the way here.
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

/// Place of the last entry that stood and says so.
pub(super) fn last_place(
    ledger: &FoldContext<'_>,
    slot: &str,
    says: impl Fn(&Statement) -> bool,
) -> Option<usize> {
    ledger.slots.stood(slot).filter(|item| item.claim.is_some_and(&says)).map(|item| item.claim_place).max()
}

/// Whether somebody listened after the valve was last recorded shut.
pub(super) fn listened_since_shut(ledger: &FoldContext<'_>, slots: &FittingSlots) -> bool {
    let shut = last_place(ledger, &slots.valve, |says| {
        matches!(says, Statement::Valve { position: ValvePosition::Shut, .. })
    });
    let listened = last_place(ledger, &slots.listen, |says| matches!(says, Statement::Listen { .. }));
    match (shut, listened) {
        (Some(shut), Some(listened)) => listened > shut,
        _ => false,
    }
}

/// Whether a line was ever on the fitting in this visit.
pub(super) fn ever_connected(ledger: &FoldContext<'_>, slots: &FittingSlots) -> bool {
    last_place(ledger, &slots.line, |says| matches!(says, Statement::Line { connected: true, .. })).is_some()
}

/// The fittings that count, and whatever was recorded of the relief device.
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
            FittingView {
                fitting,
                name: fitting.name(),
                valve: ledger.known(&slots.valve, |says| match says {
                    Statement::Valve { position, .. } => Some(*position),
                    _ => None,
                }),
                closure: ledger.known(&slots.closure, |says| match says {
                    Statement::Closure { state, .. } => Some(*state),
                    _ => None,
                }),
                listen: ledger.known(&slots.listen, |says| match says {
                    Statement::Listen { heard, .. } => Some(*heard),
                    _ => None,
                }),
                listened_since_shut: listened_since_shut(ledger, &slots),
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
