//! Who was responsible and who was there: handovers, attendance gaps, the car's clock.

use std::collections::{HashMap, VecDeque};

use serde::Serialize;

use super::fold_context::{Attested, Attribution, FoldContext};
use super::slots::Item;
use crate::clock::UtcMillis;
use crate::entry::vocabulary::{ClockEvent, Fitting, Presence, ValvePosition};
use crate::entry::{Role, Slot, Statement};
use crate::ids::OperatorId;

/// Minutes without a sign of attendance that are pointed out while a site has not said otherwise
/// (a default of this tool, no source).
pub const USUAL_GAP_MINUTES: u32 = 30;

/// A handover.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct HandoverView {
    /// Who gave.
    pub from: OperatorId,
    /// Who took.
    pub to: OperatorId,
    /// The giver's entry.
    pub given: Option<Attribution>,
    /// The taker's entry.
    pub taken: Option<Attribution>,
    /// Signed by one of the two only.
    pub one_sided: bool,
}

/// A time without a sign of attendance while a line was connected.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct GapView {
    /// From.
    pub from: UtcMillis,
    /// Until.
    pub until: UtcMillis,
    /// From and until in the site's zone.
    pub shown: String,
    /// How long, minutes.
    pub minutes: i64,
    /// Whether somebody had written that they left.
    pub said_away: bool,
    /// Whether every valve with a line on it was recorded shut when it began.
    pub valves_shut: bool,
    /// Whether it still goes on.
    pub open: bool,
}

/// Attendance.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct AttendanceView {
    /// How many minutes without a sign are pointed out.
    pub threshold_minutes: u32,
    /// Whether the site said so, or the tool's default is used.
    pub threshold_from_site: bool,
    /// Whether a line is on now.
    pub connected: bool,
    /// The gaps.
    pub gaps: Vec<GapView>,
}

/// An event of the car's clock: raw times, from which detention is reckoned.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct ClockView {
    /// Which event.
    pub event: ClockEvent,
    /// When it happened.
    pub at: Attested<UtcMillis>,
    /// The same in the site's zone.
    pub shown: String,
}

/// Handovers in order, each entry paired with the first later one of the other side.
pub(super) fn handovers(ledger: &FoldContext<'_>) -> Vec<HandoverView> {
    let mut handovers: Vec<HandoverView> = Vec::new();
    // The halves that wait for their other one, earliest first, by giver and taker.
    let mut given: HashMap<(&str, &str), VecDeque<usize>> = HashMap::new();
    let mut taken: HashMap<(&str, &str), VecDeque<usize>> = HashMap::new();
    for item in ledger.slots.stood(&Slot::HANDOVERS) {
        let by = &item.entry.body.by;
        match item.claim {
            Some(Statement::HandoverGiven { to }) => {
                let people = (by.0.as_str(), to.0.as_str());
                match taken.get_mut(&people).and_then(VecDeque::pop_front) {
                    Some(half) => handovers[half].given = Some(ledger.said(item)),
                    None => {
                        given.entry(people).or_default().push_back(handovers.len());
                        handovers.push(HandoverView {
                            from: by.clone(),
                            to: to.clone(),
                            given: Some(ledger.said(item)),
                            taken: None,
                            one_sided: true,
                        });
                    }
                }
            }
            Some(Statement::HandoverTaken { from }) => {
                let people = (from.0.as_str(), by.0.as_str());
                match given.get_mut(&people).and_then(VecDeque::pop_front) {
                    Some(half) => handovers[half].taken = Some(ledger.said(item)),
                    None => {
                        taken.entry(people).or_default().push_back(handovers.len());
                        handovers.push(HandoverView {
                            from: from.clone(),
                            to: by.clone(),
                            given: None,
                            taken: Some(ledger.said(item)),
                            one_sided: true,
                        });
                    }
                }
            }
            _ => {}
        }
    }
    for handover in &mut handovers {
        handover.one_sided = handover.given.is_none() || handover.taken.is_none();
    }
    handovers
}

/// Who is responsible now: whoever took the car last, otherwise whoever opened the visit. A handover
/// that only the giver signed hands nothing over.
pub(super) fn responsible(ledger: &FoldContext<'_>, handovers: &[HandoverView]) -> Option<OperatorId> {
    let taken = handovers.iter().rev().find(|h| h.taken.is_some()).map(|h| h.to.clone());
    taken.or_else(|| ledger.slots.stood(&Slot::OPENED).next().map(|item| item.entry.body.by.clone()))
}

pub(super) fn clock(ledger: &FoldContext<'_>) -> Vec<ClockView> {
    ClockEvent::ALL
        .iter()
        .filter_map(|event| {
            let at = ledger.known(&Slot::clock(*event), |says| match says {
                Statement::Clock { at, .. } => Some(*at),
                _ => None,
            })?;
            let shown = ledger.shown(at.value);
            Some(ClockView { event: *event, at, shown })
        })
        .collect()
}

/// Every entry made at the car is a sign of attendance, unless it says that its author left. Entries
/// made at the office are none.
pub(super) fn attendance(ledger: &FoldContext<'_>) -> AttendanceView {
    let from_site = ledger.ctx.site.and_then(|site| site.attendance_gap_minutes);
    let threshold = from_site.unwrap_or(USUAL_GAP_MINUTES);
    let mut at_the_car: Vec<&Item<'_>> = ledger
        .slots
        .items()
        .iter()
        .filter(|item| {
            ledger.ctx.devices.get(&item.entry.device).is_none_or(|facts| facts.role == Role::Operator)
        })
        .collect();
    at_the_car.sort_by_key(|item| (item.claim_at, item.claim_place));
    let mut watch = Watch::default();
    let mut gaps = Vec::new();
    let limit = i64::from(threshold).saturating_mul(60_000);
    for item in at_the_car {
        watch.until(item.claim_at, limit, false, ledger, &mut gaps);
        watch.see(item);
    }
    let released = ledger.slots.latest(&Slot::RELEASED).is_some();
    if !released {
        watch.until(ledger.ctx.now, limit, true, ledger, &mut gaps);
    }
    AttendanceView {
        threshold_minutes: threshold,
        threshold_from_site: from_site.is_some(),
        connected: watch.connected(),
        gaps,
    }
}

#[derive(Default)]
struct Watch {
    lines: [bool; Fitting::ALL.len()],
    valves_open: [bool; Fitting::ALL.len()],
    last_sign: Option<UtcMillis>,
    away: bool,
}

impl Watch {
    fn connected(&self) -> bool {
        self.lines.iter().any(|on| *on)
    }

    /// Time goes on to `at`: was anybody there?
    fn until(
        &self,
        at: UtcMillis,
        limit: i64,
        open: bool,
        ledger: &FoldContext<'_>,
        gaps: &mut Vec<GapView>,
    ) {
        let Some(from) = self.last_sign else { return };
        let length = at.since(from);
        let too_long = length > limit || (self.away && length > 0);
        if self.connected() && too_long {
            let open_behind_a_line =
                self.lines.iter().zip(&self.valves_open).any(|(line, open)| *line && *open);
            gaps.push(GapView {
                from,
                until: at,
                shown: format!("{} to {}", ledger.shown(from), ledger.shown(at)),
                minutes: length / 60_000,
                said_away: self.away,
                valves_shut: !open_behind_a_line,
                open,
            });
        }
    }

    fn see(&mut self, item: &Item<'_>) {
        let index = |fitting: Fitting| Fitting::ALL.iter().position(|f| *f == fitting);
        let stands = matches!(item.fate, super::slots::Fate::Live | super::slots::Fate::MovedOn);
        if stands {
            match &item.entry.body.says {
                Statement::Line { fitting, connected, .. } => {
                    if let Some(line) = index(*fitting).and_then(|i| self.lines.get_mut(i)) {
                        *line = *connected;
                    }
                }
                Statement::Valve { fitting, position } => {
                    if let Some(valve) = index(*fitting).and_then(|i| self.valves_open.get_mut(i)) {
                        *valve = *position == ValvePosition::Open;
                    }
                }
                _ => {}
            }
        }
        self.last_sign = Some(item.claim_at);
        self.away =
            stands && matches!(item.entry.body.says, Statement::Attendance { presence: Presence::Away });
    }
}
