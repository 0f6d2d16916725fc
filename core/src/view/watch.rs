//! Responsibility and attendance: handovers, gaps in attendance, and the events for the car's detention.

use std::collections::{HashMap, VecDeque};

use serde::Serialize;

use super::fold_context::{Attested, Attribution, FoldContext};
use super::slots::Item;
use crate::clock::UtcMillis;
use crate::entry::vocabulary::{ClockEvent, Fitting, LeftCondition, Presence, ValvePosition};
use crate::entry::{Role, Slot, Statement};
use crate::ids::OperatorId;
use crate::procedure::Threshold;
use crate::{Arg, Message, message};

/// The minutes without a sign of attendance after which a gap is reported if the site has not stated another
/// limit (chosen for this program, no source).
pub const USUAL_GAP_MINUTES: u32 = 30;

/// A handover.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct HandoverView {
    /// The person who hands over.
    pub from: OperatorId,
    /// The person who takes over.
    pub to: OperatorId,
    /// The attribution of the entry by the person who hands over.
    pub given: Option<Attribution>,
    /// The attribution of the entry by the person who takes over.
    pub taken: Option<Attribution>,
    /// Whether only one of the two made an entry.
    pub one_sided: bool,
}

/// A period without a sign of attendance while a line was connected.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct GapView {
    /// The beginning.
    pub from: UtcMillis,
    /// The end.
    pub until: UtcMillis,
    /// Beginning and end in the site's zone.
    pub shown: Message,
    /// The length in minutes.
    pub minutes: i64,
    /// Whether somebody had recorded that they left.
    pub said_away: bool,
    /// Whether somebody had declared to have the car, and neither left nor handed it over.
    pub declared: bool,
    /// Whether every valve with a connected line was recorded as shut when the period began.
    pub valves_shut: bool,
    /// Whether the period has not ended yet.
    pub open: bool,
}

/// The attendance at the connected car.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct AttendanceView {
    /// The minutes without a sign after which a gap is reported.
    pub threshold_minutes: u32,
    /// Whether the site or its procedure stated this limit; otherwise it is the program's default.
    pub threshold_from_site: bool,
    /// Whether a line is connected now.
    pub connected: bool,
    /// The gaps.
    pub gaps: Vec<GapView>,
}

/// An event that matters for the car's detention, which is computed from these times.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct ClockView {
    /// The event.
    pub event: ClockEvent,
    /// The time of the event.
    pub at: Attested<UtcMillis>,
    /// The same time in the site's zone.
    pub shown: String,
}

/// Returns the handovers in order. Each entry is paired with the first later entry of the other person.
pub(super) fn handovers(ledger: &FoldContext<'_>) -> Vec<HandoverView> {
    let mut handovers: Vec<HandoverView> = Vec::new();
    // The entries that wait for their counterpart, the earliest first, by the two people.
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

/// Returns the person who is responsible now: the one who last took over the car, or otherwise the one who
/// opened the visit. A handover without an entry by the person who takes over has no effect.
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

/// Folds attendance. Every entry made at the car is a sign of attendance unless it states that its author
/// left. Entries made at the office are no such sign.
pub(super) fn attendance(ledger: &FoldContext<'_>) -> AttendanceView {
    let of_procedure = ledger.threshold(Threshold::AttendanceGap);
    let from_site = of_procedure.or(ledger.ctx.site.and_then(|site| site.attendance_gap_minutes));
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
    /// Whether somebody declared to have the car: from that entry until they leave, hand it over, or it ends.
    declared: bool,
}

impl Watch {
    fn connected(&self) -> bool {
        self.lines.iter().any(|on| *on)
    }

    /// Advances the time to `at` and records a gap if nobody attended in between.
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
                shown: message!(
                    "span-between",
                    from = Arg::Typed(ledger.shown(from)),
                    until = Arg::Typed(ledger.shown(at)),
                ),
                minutes: length / 60_000,
                said_away: self.away,
                declared: self.declared,
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
                Statement::Attendance { presence } => self.declared = *presence == Presence::Here,
                Statement::HandoverTaken { .. } => self.declared = true,
                Statement::HandoverGiven { .. } | Statement::Released { .. } => self.declared = false,
                Statement::CarLeft(left) => {
                    self.declared = false;
                    // Said at the car when it was left, as an entry for each valve would be.
                    if left.conditions.contains(&LeftCondition::ValvesClosed) {
                        self.valves_open.fill(false);
                    }
                }
                _ => {}
            }
        }
        self.last_sign = Some(item.claim_at);
        let leaves = matches!(
            item.entry.body.says,
            Statement::Attendance { presence: Presence::Away } | Statement::CarLeft(_)
        );
        self.away = stands && leaves;
    }
}
