//! Whoever has the car, often alone, says every so often that all is well.
//!
//! A procedure may ask for it (`check_in_minutes`); it asks while somebody has the car by their own word. Any entry made at
//! the car counts as such a word. This is no rescue device: without signal nobody sees that a word is missing, and a
//! missing word may be lack of signal alone. It is no item of a gate.

use serde::{Deserialize, Serialize};

use super::fold_context::FoldContext;
use super::slots::{Fate, Item};
use crate::clock::UtcMillis;
use crate::entry::vocabulary::Presence;
use crate::entry::{Role, Slot, Statement};
use crate::procedure::Threshold;

/// How long after it was due a word is overdue, in milliseconds (chosen for this program, no source).
const PATIENCE_MILLIS: i64 = 5 * 60_000;
/// How far before the last word the present may lie before a clock is taken for wrong (chosen for this program, no
/// source).
const CLOCK_PLAY_MILLIS: i64 = 2 * 60_000;

/// How the next word stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum CheckIn {
    /// It is not due yet.
    NotYet,
    /// It is due.
    Due,
    /// It is overdue.
    Overdue,
}

/// The last word that all is well, while somebody has the car.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct CheckInView {
    /// How often it is asked for, in minutes.
    pub minutes: u32,
    /// The name of whoever made the last entry at the car.
    pub name: String,
    /// When that was, by the office's clock as far as it is known.
    pub last: UtcMillis,
    /// The same in the site's zone.
    pub shown: String,
    /// When the next word is due.
    pub due: UtcMillis,
}

impl CheckInView {
    /// Returns how the next word stands. A present before the last word means that a clock was set back: it is then due.
    pub fn at(&self, now: UtcMillis) -> CheckIn {
        let set_back = self.last.since(now) > CLOCK_PLAY_MILLIS;
        match now.since(self.due) {
            _ if set_back => CheckIn::Due,
            late if late > PATIENCE_MILLIS => CheckIn::Overdue,
            late if late >= 0 => CheckIn::Due,
            _ => CheckIn::NotYet,
        }
    }
}

/// Returns the last word, if the procedure asks for one and somebody has the car.
pub(super) fn fold(ledger: &FoldContext<'_>) -> Option<CheckInView> {
    let minutes = ledger.threshold(Threshold::CheckIn)?;
    if ledger.slots.latest(&Slot::RELEASED).is_some() {
        return None;
    }
    // What a device says of the time after the office had it is worth nothing: a clock ahead would keep the office
    // waiting.
    let said_at = |item: &Item<'_>| {
        let (_, received) = ledger.receipt(item);
        received.map_or(item.claim_at, |received| received.min(item.claim_at))
    };
    let at_the_car: Vec<&Item<'_>> = ledger
        .slots
        .items()
        .iter()
        .filter(|item| matches!(item.fate, Fate::Live | Fate::MovedOn))
        .filter(|item| {
            ledger.ctx.devices.get(&item.entry.device).is_none_or(|facts| facts.role == Role::Operator)
        })
        .collect();
    let has_the_car = |says: &Statement| match says {
        Statement::Attendance { presence } => Some(*presence == Presence::Here),
        Statement::HandoverTaken { .. } => Some(true),
        Statement::HandoverGiven { .. } | Statement::CarLeft(_) => Some(false),
        _ => None,
    };
    // Who has the car follows the order of the record: a clock that ran backwards does not turn it round.
    let declared = at_the_car.iter().rev().find_map(|item| has_the_car(&item.entry.body.says));
    let last = at_the_car.iter().max_by_key(|item| (said_at(item), item.claim_place));
    let last = last.filter(|_| declared == Some(true))?;
    let at = said_at(last);
    let due = UtcMillis(at.0.saturating_add(i64::from(minutes).saturating_mul(60_000)));
    Some(CheckInView {
        minutes,
        name: ledger.name(&last.entry.body.by),
        last: at,
        shown: ledger.shown(at),
        due,
    })
}
