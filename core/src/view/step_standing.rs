//! How a step of the procedure stands: what closed it, what of it is missing, and which answer holds the job.
//!
//! A step is closed by its own entry (done, not right, or skipped with a reason) or by the records that it
//! asks for. `view::steps` calls this module for each step of a car.

use std::collections::{BTreeMap, HashSet};

use serde::Serialize;

use super::fittings::{self, FittingSlots};
use super::fold_context::{Attribution, FoldContext};
use super::slots::Item;
use super::{leaks, leaving};
use crate::Message;
use crate::clock::UtcMillis;
use crate::entry::vocabulary::{EmptySign, Fitting, Measured, Place, Purpose, StepOutcome, ValvePosition};
use crate::entry::{Slot, Statement};
use crate::procedure::{Holds, Leaving, Record, Since, Stage, StepAt};

/// The status of a step.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum StepStatus {
    /// Nothing was recorded yet.
    Open,
    /// Some of the records that the step asks for are present.
    Partly,
    /// All records that the step asks for are present.
    Recorded,
    /// The step was acknowledged as done.
    Done,
    /// The step was done and something was not right.
    NotRight,
    /// The step was skipped, with a reason.
    Skipped,
    /// The line of the step was not used.
    NotUsed,
    /// An answer to the step holds the job.
    Held,
}

impl StepStatus {
    /// Returns true if nothing more is expected.
    pub fn is_closed(self) -> bool {
        !matches!(self, StepStatus::Open | StepStatus::Partly | StepStatus::Held)
    }

    /// Returns the status for people.
    pub fn term(self) -> Message {
        let word = match self {
            StepStatus::Open => "open",
            StepStatus::Partly => "partly",
            StepStatus::Recorded => "recorded",
            StepStatus::Done => "done",
            StepStatus::NotRight => "not_right",
            StepStatus::Skipped => "skipped",
            StepStatus::NotUsed => "not_used",
            StepStatus::Held => "held",
        };
        Message::term("step_status", word)
    }
}

/// The largest number of answers that are named for a step that is held.
const MOST_REASONS: usize = 5;

/// How one step of a car stands.
pub(super) struct Closed {
    pub status: StepStatus,
    /// The place of the entry that closed the step.
    pub place: Option<usize>,
    /// Whether it was closed by an entry of its own.
    pub own: bool,
    pub missing: Vec<Record>,
    pub reasons: Vec<Message>,
    pub said: Option<Attribution>,
    pub note: String,
    pub last: Option<UtcMillis>,
}

/// The places of the entries to which `since` refers.
pub(super) struct Anchors {
    /// Of each fitting: the line put on, the valve shut and the line taken off since, and the valve opened since.
    fittings: BTreeMap<Fitting, [Option<usize>; 4]>,
    /// When a line was taken off, at each fitting, before the transfer was over.
    off_before_empty: BTreeMap<Fitting, usize>,
    /// Where somebody said that the transfer is over, or began to close the car up.
    over: Option<usize>,
    first_on: BTreeMap<Fitting, usize>,
    last_line_off: Option<usize>,
    empty_decision: Option<usize>,
    moved_or_left: Option<usize>,
}

impl Anchors {
    pub fn of(ledger: &FoldContext<'_>) -> Anchors {
        let fittings: BTreeMap<Fitting, [Option<usize>; 4]> = Fitting::ALL
            .iter()
            .map(|fitting| {
                let slots = FittingSlots::of(*fitting);
                let connected = fittings::last_place(ledger, &slots.line, |says| {
                    matches!(says, Statement::Line { connected: true, .. })
                });
                let later = |place: Option<usize>| place.filter(|p| connected.is_some_and(|c| *p > c));
                let shut = later(fittings::last_place(ledger, &slots.valve, |says| {
                    matches!(says, Statement::Valve { position: ValvePosition::Shut, .. })
                }));
                let off = later(fittings::last_place(ledger, &slots.line, |says| {
                    matches!(says, Statement::Line { connected: false, .. })
                }));
                let opened = later(fittings::last_place(ledger, &slots.valve, |says| {
                    matches!(says, Statement::Valve { position: ValvePosition::Open, .. })
                }));
                (*fitting, [connected, shut, off, opened.or(connected)])
            })
            .collect();
        let empty_decision = fittings::last_place(ledger, &Slot::EMPTY_DECISION, |says| {
            matches!(says, Statement::EmptyDecision { accepted: true, .. })
        });
        let moved_or_left = leaving::moved_or_left(ledger);
        let over = transfer_over(ledger).max(closing_up(ledger));
        let first_on = Fitting::LINES
            .iter()
            .filter_map(|fitting| {
                let slot = Slot::line(*fitting);
                let on = ledger
                    .slots
                    .stood(&slot)
                    .filter(|item| matches!(item.claim, Some(Statement::Line { connected: true, .. })));
                Some((*fitting, on.map(|item| item.claim_place).min()?))
            })
            .collect();
        let on_now = fittings.values().any(|[connected, _, off, _]| connected.is_some() && off.is_none());
        let last_off = fittings.values().filter_map(|[_, _, off, _]| *off).max();
        let off_before_empty = off_before_empty(ledger, over, moved_or_left);
        // While the transfer waits for a line to be put on again, no line was the last one.
        let waits = over.is_none()
            && moved_or_left.is_some_and(|left| off_before_empty.values().any(|off| left > *off));
        Anchors {
            off_before_empty,
            over,
            fittings,
            first_on,
            last_line_off: last_off.filter(|_| !on_now && !waits),
            empty_decision,
            moved_or_left,
        }
    }

    /// Returns where somebody said that the transfer is over, or began to close the car up.
    pub fn transfer_over(&self) -> Option<usize> {
        self.over
    }

    /// Returns true if lines were on and all of them are off, and none is to be put on again.
    pub fn all_lines_off(&self) -> bool {
        self.last_line_off.is_some()
    }

    /// Returns true if the line of a fitting came off before the transfer was over, and it still is not.
    pub fn is_off_early(&self, fitting: Option<Fitting>) -> bool {
        self.over.is_none() && fitting.is_some_and(|fitting| self.off_before_empty.contains_key(&fitting))
    }

    /// Returns true if the car was moved, or left with nobody at it.
    pub fn was_moved_or_left(&self) -> bool {
        self.moved_or_left.is_some()
    }

    /// Returns the place at which a line came off last before the transfer was over: what was done to transfer, recover
    /// and prove empty before that is done again.
    pub fn taken_up_again(&self) -> Option<usize> {
        self.off_before_empty.values().max().copied()
    }

    fn place(&self, since: Since, fitting: Option<Fitting>) -> Option<usize> {
        let of_fitting = |n: usize| fitting.and_then(|f| self.fittings.get(&f)).and_then(|places| places[n]);
        match since {
            Since::Connected => of_fitting(0),
            Since::Shut => of_fitting(1),
            Since::LineOff => of_fitting(2),
            Since::Opened => of_fitting(3),
            Since::OffBeforeEmpty => match fitting {
                Some(fitting) => self.off_before_empty.get(&fitting).copied(),
                None => self.taken_up_again(),
            },
            Since::LastLineOff => self.last_line_off,
            Since::EmptyDecision => self.empty_decision,
            Since::MovedOrLeft => self.moved_or_left,
        }
    }
}

/// Returns where somebody took the car as empty of liquid, or said why nobody does: the transfer is over.
fn transfer_over(ledger: &FoldContext<'_>) -> Option<usize> {
    let accepted = |says: &Statement| matches!(says, Statement::EmptyDecision { accepted: true, .. });
    let skipped = |says: &Statement| matches!(says, Statement::Step { outcome: StepOutcome::Skipped, .. });
    fittings::last_place(ledger, &Slot::EMPTY_DECISION, accepted).max(fittings::last_place(
        ledger,
        &Slot::step("empty_decision"),
        skipped,
    ))
}

/// Returns where the pressure or the closures were looked at last, after the last word on any line: that is done when no
/// line is to be put on again.
fn closing_up(ledger: &FoldContext<'_>) -> Option<usize> {
    let lines = Fitting::LINES.iter().filter_map(|fitting| {
        let said = ledger.slots.stood(&Slot::line(*fitting)).max_by_key(|item| item.claim_place)?;
        Some((said.claim_place, matches!(said.claim, Some(Statement::Line { connected: true, .. }))))
    });
    let lines: Vec<(usize, bool)> = lines.collect();
    let off = lines.iter().map(|(place, _)| *place).max().filter(|_| lines.iter().all(|(_, on)| !on))?;
    let last = fittings::last_place(ledger, &Slot::FINAL_PRESSURE, |_| true).max(fittings::last_place(
        ledger,
        &Slot::LAST_ROUND,
        |_| true,
    ));
    last.filter(|place| *place > off)
}

/// Returns where vapor was first recovered, or liquid was first looked for: the liquid has been transferred by then.
fn drawn_down(ledger: &FoldContext<'_>) -> Option<usize> {
    let readings = [Purpose::Recovery, Purpose::HoldTest, Purpose::EmptyProof]
        .map(|purpose| Slot::reading(purpose, Measured::Pressure, Place::Car));
    let signs = [EmptySign::RodAtBottom, EmptySign::VapourAtLiquidValve].map(Slot::empty_sign);
    let first = |slot: &Slot| ledger.slots.stood(slot).map(|item| item.claim_place).min();
    readings.iter().chain(&signs).filter_map(first).min()
}

/// Returns where the line of each fitting came off before the transfer was over, and the transfer goes on: a line was put
/// on there again, or the car was left or moved since. A car that goes away loaded has no such end, and neither has one
/// that was drawn down before the line came off.
fn off_before_empty(
    ledger: &FoldContext<'_>,
    over: Option<usize>,
    moved_or_left: Option<usize>,
) -> BTreeMap<Fitting, usize> {
    if leaving::leaving(ledger) == Leaving::Loaded {
        return BTreeMap::new();
    }
    let drawn_down = drawn_down(ledger);
    let before_over = |place: usize| over.is_none_or(|over| place < over);
    let lines = Fitting::LINES.iter().filter_map(|fitting| {
        let slot = Slot::line(*fitting);
        let said = ledger.slots.stood(&slot).filter_map(|item| match item.claim {
            Some(Statement::Line { connected, .. }) => Some((item.claim_place, *connected)),
            _ => None,
        });
        let said: Vec<(usize, bool)> = said.filter(|(place, _)| before_over(*place)).collect();
        let off = said.iter().filter(|(_, connected)| !connected).map(|(place, _)| *place).max()?;
        let on_again = said.iter().any(|(place, connected)| *connected && *place > off);
        // A car taken as empty while this line was off is not connected there again.
        let at_its_end = drawn_down.is_some_and(|drawn| drawn < off);
        let goes_on = over.is_none() && !at_its_end && moved_or_left.is_some_and(|left| left > off);
        (on_again || goes_on).then_some((*fitting, off))
    });
    lines.collect()
}

/// Returns how a step stands.
pub(super) fn close(
    ledger: &FoldContext<'_>,
    anchors: &Anchors,
    step: &StepAt<'_>,
    not_right_holds: bool,
) -> Closed {
    // A car that was never moved, and a line that never came off early, ask nothing again.
    let anchor = step
        .step
        .since
        .map(|since| (since, anchors.place(since, step.fitting)))
        // What proves a line counts no longer once that line came off early.
        .map(|(since, place)| match since {
            Since::Connected if step.step.stage == Stage::Connect => {
                (since, place.max(anchors.place(Since::OffBeforeEmpty, step.fitting)))
            }
            _ => (since, place),
        })
        .filter(|(since, place)| !since.may_never_come() || place.is_some())
        .map(|(_, place)| place);
    let counts = |place: usize| match anchor {
        None => true,
        Some(anchor) => anchor.is_some_and(|anchor| place > anchor),
    };
    let records = step.records();
    let until = step.fitting.filter(|_| step.step.as_found).and_then(|f| anchors.first_on.get(&f));
    let bad = |holds: &Holds, item: &Item<'_>| {
        item.claim.is_some_and(|claim| holds.held_by(claim))
            && counts(item.claim_place)
            && until.is_none_or(|until| item.claim_place < *until)
    };
    let holds = step.holds();
    let is_bad = |record: &Record, item: &Item<'_>| {
        holds.iter().any(|holds| holds.record == *record && bad(holds, item))
    };
    let mut held_by: Vec<&Item<'_>> = Vec::new();
    let mut missing = Vec::new();
    let mut place = None;
    let mut last = None;
    for record in &records {
        let met: Vec<_> = record
            .slots(step.fitting)
            .iter()
            .flat_map(|slot| ledger.slots.stood(slot))
            .filter(|item| {
                counts(item.claim_place)
                    && !ledger.ended.contains_key(&item.place)
                    && until.is_none_or(|until| item.claim_place < *until)
                    && item.claim.is_some_and(|claim| record.is_met_by(claim))
                    && !is_bad(record, item)
            })
            .map(|item| (item.claim_place, item.done_at))
            .collect();
        let held = held_by.len();
        if let Some(holds) = holds.iter().find(|holds| holds.record == *record) {
            let last_good = met.iter().map(|(place, _)| *place).max();
            held_by.extend(holding(ledger, record, step.fitting, |item| bad(holds, item), last_good));
        }
        if held_by.len() > held {
            missing.push(record.clone());
            continue;
        }
        match met.iter().map(|(place, _)| *place).min() {
            Some(first) => {
                place = place.max(Some(first));
                last = last.max(met.iter().map(|(_, at)| *at).max());
            }
            None => missing.push(record.clone()),
        }
    }
    let again = anchor.flatten().filter(|_| step.step.since.is_some_and(Since::may_never_come));
    let own = ledger.slots.latest(&Slot::step(&step.id)).and_then(|item| match item.claim {
        Some(Statement::Step { outcome, note, .. }) => {
            let valid = match outcome {
                // What was left out before the car was moved, or the line came off, is asked again.
                StepOutcome::Skipped if again.is_some_and(|again| item.claim_place <= again) => false,
                StepOutcome::Skipped => !note.trim().is_empty() || !item.entry.body.why.trim().is_empty(),
                _ => anchor.flatten().is_none_or(|anchor| item.claim_place > anchor),
            };
            valid.then_some((item, *outcome, note))
        }
        _ => None,
    });
    let by_records = !records.is_empty() && missing.is_empty();
    if let Some((item, StepOutcome::NotRight, _)) = &own
        && not_right_holds
    {
        held_by.push(item);
    }
    if step.step.leaks_hold {
        held_by.extend(leaks::stopping(ledger, step.fitting));
    }
    // A person who goes on in spite of an answer says so after it, with a reason.
    if let Some((item, StepOutcome::Skipped, _)) = &own {
        held_by.retain(|held| held.claim_place > item.claim_place);
    }
    let (status, note) = match &own {
        Some((_, _, note)) if !held_by.is_empty() => (StepStatus::Held, note.trim()),
        None if !held_by.is_empty() => (StepStatus::Held, ""),
        Some((_, StepOutcome::NotRight, note)) => (StepStatus::NotRight, note.trim()),
        Some((_, StepOutcome::Done, note)) if missing.is_empty() => (StepStatus::Done, note.trim()),
        Some((item, StepOutcome::Skipped, note)) if !by_records => {
            let reason = if note.trim().is_empty() { item.entry.body.why.trim() } else { note.trim() };
            (StepStatus::Skipped, reason)
        }
        _ if by_records => (StepStatus::Recorded, ""),
        // A step acknowledged as done while its records are missing counts as partly done, because the
        // records decide.
        Some((_, StepOutcome::Done, note)) => (StepStatus::Partly, note.trim()),
        _ if missing.len() < records.len() => (StepStatus::Partly, ""),
        _ => (StepStatus::Open, ""),
    };
    let is_own = own.is_some();
    let place = own.as_ref().map(|(item, ..)| item.claim_place).or(place).filter(|_| status.is_closed());
    let said = place.and_then(|place| ledger.slots.items().get(place)).map(|item| ledger.said(item));
    let named = if status == StepStatus::Held { held_by.len().min(MOST_REASONS) } else { 0 };
    let newest = held_by.get(held_by.len() - named..).unwrap_or_default();
    let reasons = newest.iter().map(|item| ledger.sentence_briefly(item)).collect();
    Closed {
        status,
        own: is_own && status.is_closed(),
        place,
        missing,
        reasons,
        said,
        note: note.to_owned(),
        last,
    }
}

/// Returns the answers to a record that hold the job: a bad one that still stands alone in its slot or beside
/// another, and one that came after the last good one.
fn holding<'s, 'a>(
    ledger: &'s FoldContext<'a>,
    record: &Record,
    fitting: Option<Fitting>,
    bad: impl Fn(&Item<'a>) -> bool,
    last_good: Option<usize>,
) -> Vec<&'s Item<'a>> {
    let mut held: Vec<&Item<'a>> = Vec::new();
    for slot in record.slots(fitting) {
        let live: HashSet<usize> = ledger.slots.live(&slot).map(|item| item.place).collect();
        let stood: Vec<&Item<'a>> = ledger.slots.stood(&slot).filter(|item| bad(item)).collect();
        let last = stood.iter().map(|item| item.claim_place).max();
        held.extend(stood.into_iter().filter(|item| {
            let newest =
                Some(item.claim_place) == last && last_good.is_none_or(|good| item.claim_place > good);
            newest || live.contains(&item.place)
        }));
    }
    held
}

/// Marks the steps of unused lines. As soon as a step of a stage after connecting is closed, a line that was
/// never connected counts as unused.
pub(super) fn mark_unused(ledger: &FoldContext<'_>, at: &[StepAt<'_>], closed: &mut [Closed]) {
    let past_connecting = at.iter().zip(closed.iter()).any(|(step, closed)| {
        step.step.stage > Stage::Connect && closed.place.is_some() && closed.status.is_closed()
    });
    if !past_connecting {
        return;
    }
    for (step, closed) in at.iter().zip(closed) {
        let Some(fitting) = step.fitting.filter(|fitting| fitting.is_line()) else { continue };
        let connects = step.step.stage >= Stage::Connect && step.step.stage <= Stage::Disconnect;
        if connects
            && matches!(closed.status, StepStatus::Open | StepStatus::Partly)
            && !fittings::ever_connected(ledger, &FittingSlots::of(fitting))
        {
            closed.status = StepStatus::NotUsed;
            closed.missing.clear();
        }
    }
}
