//! How a car is left: for a time with nobody at it, moved during its stay, and how it goes away.
//!
//! After a move, and after a time with nobody at it, what was protected is recorded again. A car that does not go as
//! residue is not asked for proof that it is empty of liquid.

use serde::Serialize;

use super::findings::Found;
use super::fold_context::{Attested, Attribution, FoldContext};
use super::order::by_place;
use super::rounds::place_of;
use super::watch::AttendanceView;
use crate::entry::coded::Coded;
use crate::entry::vocabulary::{CarLoad, LeavesAs, LeftCondition, Protection, Receiver};
use crate::entry::{CarLeft, CarMoved, CarOutcome, Slot, Statement};
use crate::procedure::Leaving;
use crate::{Arg, Joint, Message, message};

use super::incidents::LAW_READ;

/// What a track and a car on it are protected with, and what is recorded again after a move (49 CFR 173.31(g), read:
/// before any closure is unsecured).
pub(super) const PROTECTED: [Protection; 4] =
    [Protection::TrackSecured, Protection::HandBrake, Protection::Chocks, Protection::BlueSign];

/// A time at which the car was left, or a move.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct LeftView {
    /// How it was left; `None` for a move.
    pub left: Option<CarLeft>,
    /// Where it was moved; `None` if it was left.
    pub moved: Option<CarMoved>,
    /// The entry's attribution.
    pub said: Attribution,
}

/// How a car is left.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct LeavingView {
    /// How it goes away, if somebody said.
    pub outcome: Option<Attested<CarOutcome>>,
    /// The times at which it was left or moved, in order.
    pub left: Vec<LeftView>,
    /// The protections that were not recorded as set again since.
    pub set_again: Vec<Protection>,
}

pub(super) fn fold(ledger: &FoldContext<'_>) -> LeavingView {
    let mut left: Vec<(usize, LeftView)> = Vec::new();
    for item in ledger.slots.stood(&Slot::CAR_LEFT).chain(ledger.slots.stood(&Slot::CAR_MOVED)) {
        let (car_left, moved) = match item.claim {
            Some(Statement::CarLeft(left)) => (Some(left.clone()), None),
            Some(Statement::CarMoved(moved)) => (None, Some(moved.clone())),
            _ => continue,
        };
        left.push((item.place, LeftView { left: car_left, moved, said: ledger.said(item) }));
    }
    let outcome = ledger.known(&Slot::OUTCOME, |says| match says {
        Statement::Outcome(outcome) => Some(outcome.clone()),
        _ => None,
    });
    LeavingView { outcome, left: by_place(left), set_again: to_set_again(ledger) }
}

/// Returns how the car goes away. Until somebody says otherwise it goes as residue, which asks for most.
pub(super) fn leaving(ledger: &FoldContext<'_>) -> Leaving {
    let as_residue =
        |says: &Statement| !matches!(says, Statement::Outcome(outcome) if outcome.load != CarLoad::Residue);
    match ledger.slots.live(&Slot::OUTCOME).next() {
        Some(_) if !ledger.claims(&Slot::OUTCOME).iter().any(|says| says.is_none_or(as_residue)) => {
            Leaving::Loaded
        }
        _ => Leaving::Residue,
    }
}

/// Returns the place at which the car was last moved, or left with nobody at it.
pub(super) fn moved_or_left(ledger: &FoldContext<'_>) -> Option<usize> {
    let (left, moved) = (Slot::CAR_LEFT, Slot::CAR_MOVED);
    let stood = ledger.slots.stood(&left).chain(ledger.slots.stood(&moved));
    stood.map(|item| place_of(ledger, item)).max()
}

/// Returns the protections that were not recorded as set since the car was last moved or left.
fn to_set_again(ledger: &FoldContext<'_>) -> Vec<Protection> {
    let Some(moved) = moved_or_left(ledger) else { return Vec::new() };
    let set_since = |what: &Protection| {
        ledger.slots.stood(&Slot::protection(*what)).any(|item| {
            matches!(item.claim, Some(Statement::Protection { set: true, .. }))
                && place_of(ledger, item) > moved
        })
    };
    PROTECTED.into_iter().filter(|what| !set_since(what)).collect()
}

/// Points out what a car that was left or moved still needs.
pub(super) fn findings(
    ledger: &FoldContext<'_>,
    leaving: &LeavingView,
    attendance: &AttendanceView,
    found: &mut Found<'_>,
) {
    let released = ledger.slots.latest(&Slot::RELEASED).is_some();
    if let Some(LeftView { left: Some(left), said, .. }) = leaving.left.last() {
        left_over_night(ledger, left, said, attendance, found);
    }
    if !leaving.set_again.is_empty() && !released {
        let again = Arg::list(Joint::Comma, leaving.set_again.iter().map(|what| what.term()));
        found.check("protect_again", message!("finding-protect-again", again = again));
    }
    let as_residue = ledger.known(&Slot::RELEASED, |says| match says {
        Statement::Released { as_residue } => Some(*as_residue),
        _ => None,
    });
    if let (Some(outcome), Some(released)) = (&leaving.outcome, as_residue)
        && released.value != (outcome.value.load == CarLoad::Residue)
    {
        let message = message!("finding-released-otherwise", load = outcome.value.load.term());
        found.check("released_otherwise", message);
    }
}

fn left_over_night(
    ledger: &FoldContext<'_>,
    left: &CarLeft,
    said: &Attribution,
    attendance: &AttendanceView,
    found: &mut Found<'_>,
) {
    if !left.connected {
        if attendance.connected {
            let message = message!("finding-left-with-line", who = said.signature());
            found.check("left_with_line", message);
        }
        return;
    }
    let read = || Arg::typed(LAW_READ);
    match ledger.receiver {
        Some(Receiver::FixedTank) => {
            found.check("left_connected", message!("finding-left-at-tank", read = read()));
        }
        _ => {
            let missing = LeftCondition::ALL.iter().filter(|one| !left.conditions.contains(one));
            let missing: Vec<Message> = missing.map(|one| one.term()).collect();
            if !missing.is_empty() {
                let missing = Arg::list(Joint::Semicolon, missing);
                let message = message!("finding-left-at-truck", missing = missing, read = read());
                found.check("left_connected", message);
            }
        }
    }
}

/// Returns whether what was said of how the car goes away lacks something: bad order without a defect, refused or
/// diverted without a reason or a place.
pub(super) fn lacks_reason(outcome: &CarOutcome, has_defect: bool) -> bool {
    let explained = !outcome.note.trim().is_empty();
    match &outcome.because {
        Coded::Code(LeavesAs::Unloaded) => false,
        Coded::Code(LeavesAs::BadOrder) => !has_defect,
        Coded::Code(LeavesAs::Diverted) => outcome.to.trim().is_empty() && !explained,
        Coded::Code(LeavesAs::Refused) => !explained,
        Coded::Typed(text) => text.trim().is_empty(),
    }
}
