//! The steps of the procedure against the record: what is done, what is next, what was left behind.
//!
//! A step is closed by its own entry (done, not right, skipped with a reason) or by the records it
//! asks for. Nothing here blocks a release; that is `view::gate`.

use std::collections::BTreeMap;

use serde::Serialize;

use super::fittings::{self, FittingSlots};
use super::fold_context::{Attribution, FoldContext};
use crate::clock::UtcMillis;
use crate::entry::vocabulary::{Fitting, StepOutcome, ValvePosition};
use crate::entry::{Slot, Statement, under};
use crate::procedure::{AskedBy, OrderRule, Procedure, Record, Since, Stage, StepAt};
use crate::units::{Finding, Severity};

/// How a step stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum StepStatus {
    /// Nothing recorded yet.
    Open,
    /// Some of what it records is there.
    Partly,
    /// All it records is there.
    Recorded,
    /// Acknowledged as done.
    Done,
    /// Looked at, and something was not right.
    NotRight,
    /// Left out, with a reason.
    Skipped,
    /// Its line was not used.
    NotUsed,
}

impl StepStatus {
    /// Whether nothing more is expected.
    pub fn is_closed(self) -> bool {
        !matches!(self, StepStatus::Open | StepStatus::Partly)
    }

    /// For people.
    pub fn spoken(self) -> &'static str {
        match self {
            StepStatus::Open => "open",
            StepStatus::Partly => "partly recorded",
            StepStatus::Recorded => "recorded",
            StepStatus::Done => "done",
            StepStatus::NotRight => "NOT right",
            StepStatus::Skipped => "skipped",
            StepStatus::NotUsed => "line not used",
        }
    }
}

/// One step of this car.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct StepView {
    /// `shut_valve.liquid_a`.
    pub id: String,
    /// Which part of the job.
    pub stage: Stage,
    /// A few words.
    pub title: String,
    /// A sentence or two.
    pub what_to_do: String,
    /// The reason for it.
    pub why: String,
    /// Who asks for it, with this receiver.
    pub asked_by: AskedBy,
    /// On what ground, in words.
    pub source: String,
    /// What can hurt here.
    pub cautions: Vec<String>,
    /// At which fitting.
    pub fitting: Option<Fitting>,
    /// What it records: the forms to present. Empty: only acknowledged.
    pub records: Vec<Record>,
    /// What it may record besides.
    pub may_record: Vec<Record>,
    /// Which of `records` are still missing.
    pub missing: Vec<Record>,
    /// How it stands.
    pub status: StepStatus,
    /// Who closed it.
    pub said: Option<Attribution>,
    /// What was noted with it; the reason when it was skipped.
    pub note: String,
    /// How often it is repeated, minutes.
    pub repeat_minutes: Option<u32>,
    /// When it is due again.
    pub due: Option<UtcMillis>,
    /// Whether the job is complete without it.
    pub optional: bool,
}

/// How far a stage is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct StageProgress {
    /// Which.
    pub stage: Stage,
    /// Steps closed.
    pub closed: usize,
    /// Steps in all, optional ones and unused lines aside.
    pub of: usize,
}

/// The steps, and where the job stands.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct StepsView {
    /// Where the job stands.
    pub stage: Stage,
    /// How far each stage is.
    pub stages: Vec<StageProgress>,
    /// What comes next, by id: the first open steps of the stage, and what is due again.
    pub next: Vec<String>,
    /// Open steps of earlier stages, by id.
    pub left_behind: Vec<String>,
    /// Every step, in order.
    pub steps: Vec<StepView>,
    /// Step entries whose step is not in the procedure, as sentences.
    pub unknown: Vec<String>,
}

impl StepsView {
    /// The step with this id.
    pub fn step(&self, id: &str) -> Option<&StepView> {
        self.steps.iter().find(|step| step.id == id)
    }
}

/// How many open steps are shown as next.
const NEXT: usize = 3;

struct Closed {
    status: StepStatus,
    /// Place of the entry that closed it.
    place: Option<usize>,
    missing: Vec<Record>,
    said: Option<Attribution>,
    note: String,
    last: Option<UtcMillis>,
}

pub(super) fn fold(
    ledger: &FoldContext<'_>,
    procedure: Option<&Procedure>,
    counting: &[Fitting],
    findings: &mut Vec<Finding>,
) -> StepsView {
    let Some(procedure) = procedure else {
        return StepsView {
            stage: Stage::Receive,
            stages: Vec::new(),
            next: Vec::new(),
            left_behind: Vec::new(),
            steps: Vec::new(),
            unknown: Vec::new(),
        };
    };
    let at = procedure.expand(ledger.receiver, counting);
    let anchors = Anchors::of(ledger);
    let mut closed: Vec<Closed> = at.iter().map(|step| close(ledger, &anchors, step)).collect();
    mark_unused(ledger, &at, &mut closed);
    let stage = stage_of(ledger, &at, &closed);
    order_findings(procedure, &at, &closed, findings);
    for (step, closed) in at.iter().zip(&closed) {
        if closed.status == StepStatus::NotRight {
            let message = format!("Not right: {}. {}", step.title(), closed.note);
            findings.push(Finding::new("step_not_right", Severity::Check, message.trim()));
        }
    }
    let stages = Stage::ALL
        .iter()
        .map(|stage| {
            let counted = at.iter().zip(&closed).filter(|(step, closed)| {
                step.step.stage == *stage && !step.step.optional && closed.status != StepStatus::NotUsed
            });
            let (mut done, mut of) = (0, 0);
            for (_, closed) in counted {
                of += 1;
                done += usize::from(closed.status.is_closed());
            }
            StageProgress { stage: *stage, closed: done, of }
        })
        .collect();
    let known: std::collections::BTreeSet<&str> = at.iter().map(|step| step.id.as_str()).collect();
    let unknown = ledger
        .slots
        .names_under(under::STEPS)
        .filter(|slot| !known.contains(slot.trim_start_matches(under::STEPS)))
        .filter_map(|slot| ledger.slots.latest(slot))
        .map(|item| ledger.sentence(item))
        .collect();
    let steps: Vec<StepView> =
        at.iter().zip(closed).map(|(step, closed)| view(ledger, step, closed, stage)).collect();
    let released = ledger.slots.latest(&Slot::RELEASED).is_some();
    let open = |step: &&StepView| !step.status.is_closed() && !step.optional;
    let mut next: Vec<String> = Vec::new();
    if !released {
        let due = steps.iter().filter(|step| step.due.is_some_and(|due| due <= ledger.ctx.now));
        next.extend(due.map(|step| step.id.clone()));
        let first_open = steps.iter().filter(|step| step.stage == stage).filter(open).take(NEXT);
        next.extend(first_open.map(|step| step.id.clone()));
        next.dedup();
    }
    let left_behind =
        steps.iter().filter(|step| step.stage < stage).filter(open).map(|step| step.id.clone()).collect();
    StepsView { stage, stages, next, left_behind, steps, unknown }
}

/// Places of the entries that `since` refers to.
struct Anchors {
    fittings: BTreeMap<Fitting, [Option<usize>; 3]>,
    empty_decision: Option<usize>,
}

impl Anchors {
    fn of(ledger: &FoldContext<'_>) -> Anchors {
        let fittings = Fitting::ALL
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
                (*fitting, [connected, shut, off])
            })
            .collect();
        let empty_decision = fittings::last_place(ledger, &Slot::EMPTY_DECISION, |says| {
            matches!(says, Statement::EmptyDecision { accepted: true, .. })
        });
        Anchors { fittings, empty_decision }
    }

    fn place(&self, since: Since, fitting: Option<Fitting>) -> Option<usize> {
        let of_fitting = |n: usize| fitting.and_then(|f| self.fittings.get(&f)).and_then(|places| places[n]);
        match since {
            Since::Connected => of_fitting(0),
            Since::Shut => of_fitting(1),
            Since::LineOff => of_fitting(2),
            Since::EmptyDecision => self.empty_decision,
        }
    }
}

fn close(ledger: &FoldContext<'_>, anchors: &Anchors, step: &StepAt<'_>) -> Closed {
    let anchor = step.step.since.map(|since| anchors.place(since, step.fitting));
    let counts = |place: usize| match anchor {
        None => true,
        Some(anchor) => anchor.is_some_and(|anchor| place > anchor),
    };
    let records = step.records();
    let mut missing = Vec::new();
    let mut place = None;
    let mut last = None;
    for record in &records {
        let met: Vec<_> = record
            .slots(step.fitting)
            .iter()
            .flat_map(|slot| ledger.slots.stood(slot))
            .filter(|item| {
                counts(item.claim_place) && item.claim.is_some_and(|claim| record.is_met_by(claim))
            })
            .map(|item| (item.claim_place, item.claim_at))
            .collect();
        match met.iter().map(|(place, _)| *place).min() {
            Some(first) => {
                place = place.max(Some(first));
                last = last.max(met.iter().map(|(_, at)| *at).max());
            }
            None => missing.push(record.clone()),
        }
    }
    let own = ledger.slots.latest(&Slot::step(&step.id)).and_then(|item| match item.claim {
        Some(Statement::Step { outcome, note, .. }) => {
            let valid = match outcome {
                StepOutcome::Skipped => !note.trim().is_empty() || !item.entry.body.why.trim().is_empty(),
                _ => anchor.flatten().is_none_or(|anchor| item.claim_place > anchor),
            };
            valid.then_some((item, *outcome, note))
        }
        _ => None,
    });
    let by_records = !records.is_empty() && missing.is_empty();
    let (status, note) = match &own {
        Some((_, StepOutcome::NotRight, note)) => (StepStatus::NotRight, note.trim()),
        Some((_, StepOutcome::Done, note)) if missing.is_empty() => (StepStatus::Done, note.trim()),
        Some((item, StepOutcome::Skipped, note)) if !by_records => {
            let reason = if note.trim().is_empty() { item.entry.body.why.trim() } else { note.trim() };
            (StepStatus::Skipped, reason)
        }
        _ if by_records => (StepStatus::Recorded, ""),
        // Called done while what it should record is missing: the record is what counts.
        Some((_, StepOutcome::Done, note)) => (StepStatus::Partly, note.trim()),
        _ if missing.len() < records.len() => (StepStatus::Partly, ""),
        _ => (StepStatus::Open, ""),
    };
    let place = own.as_ref().map(|(item, ..)| item.claim_place).or(place).filter(|_| status.is_closed());
    let said = place.and_then(|place| ledger.slots.items().get(place)).map(|item| ledger.said(item));
    Closed { status, place, missing, said, note: note.to_owned(), last }
}

/// Steps of a line that is not used ask for nothing: from the moment something of a later stage than
/// connecting is recorded, a line that was never put on counts as not used.
fn mark_unused(ledger: &FoldContext<'_>, at: &[StepAt<'_>], closed: &mut [Closed]) {
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
            && !closed.status.is_closed()
            && !fittings::ever_connected(ledger, &FittingSlots::of(fitting))
        {
            closed.status = StepStatus::NotUsed;
            closed.missing.clear();
        }
    }
}

/// The furthest stage in which a step was closed by somebody, or the next one when that is complete.
fn stage_of(ledger: &FoldContext<'_>, at: &[StepAt<'_>], closed: &[Closed]) -> Stage {
    if ledger.slots.latest(&Slot::RELEASED).is_some() {
        return Stage::Release;
    }
    let reached = at
        .iter()
        .zip(closed)
        .filter(|(_, closed)| closed.place.is_some())
        .map(|(step, _)| step.step.stage)
        .max()
        .unwrap_or(Stage::Receive);
    let complete = |stage: Stage| {
        at.iter()
            .zip(closed)
            .filter(|(step, _)| step.step.stage == stage && !step.step.optional)
            .all(|(_, closed)| closed.status.is_closed())
    };
    Stage::ALL.iter().copied().find(|stage| *stage >= reached && !complete(*stage)).unwrap_or(Stage::Release)
}

fn order_findings(procedure: &Procedure, at: &[StepAt<'_>], closed: &[Closed], findings: &mut Vec<Finding>) {
    let place_of = |id: &str, fitting: Option<Fitting>| {
        at.iter()
            .zip(closed)
            .find(|(step, _)| step.step.id == id && step.fitting == fitting)
            .and_then(|(_, closed)| closed.place)
    };
    for (step, this) in at.iter().zip(closed) {
        let Some(place) = this.place else { continue };
        for before in &step.step.after {
            let earlier = at.iter().zip(closed).filter(|(other, _)| {
                other.step.id == *before
                    && (other.fitting.is_none() || step.fitting.is_none() || other.fitting == step.fitting)
            });
            for (other, theirs) in earlier {
                if theirs.place.is_some_and(|theirs| theirs > place) {
                    let message = format!(
                        "\u{201c}{}\u{201d} was recorded before \u{201c}{}\u{201d}.",
                        step.title(),
                        other.title()
                    );
                    findings.push(Finding::new("steps_out_of_order", Severity::Note, message));
                }
            }
        }
    }
    for rule in &procedure.order {
        match rule {
            OrderRule::OneAtATime { from, to } => {
                let stretches: Vec<(Fitting, usize, usize)> = Fitting::LINES
                    .iter()
                    .filter_map(|f| {
                        let begin = place_of(from, Some(*f))?;
                        Some((*f, begin, place_of(to, Some(*f)).unwrap_or(usize::MAX)))
                    })
                    .collect();
                for (a, begin_a, end_a) in &stretches {
                    for (b, begin_b, _) in &stretches {
                        if a != b && begin_a < begin_b && begin_b < end_a {
                            let message = format!(
                                "The {} was opened while the {} was not closed yet: one line at a time.",
                                b.name(),
                                a.name()
                            );
                            findings.push(Finding::new("two_lines_open", Severity::Check, message));
                        }
                    }
                }
            }
            OrderRule::VapourLast { step } => {
                let (liquid, vapour): (Vec<Fitting>, Vec<Fitting>) =
                    Fitting::LINES.iter().copied().partition(|f| f.is_liquid());
                let last_liquid = liquid.iter().filter_map(|f| place_of(step, Some(*f))).max();
                let first_vapour = vapour.iter().filter_map(|f| place_of(step, Some(*f))).min();
                if last_liquid.zip(first_vapour).is_some_and(|(liquid, vapour)| vapour < liquid) {
                    let message =
                        "The vapour line was taken off before the last liquid line; it belongs last.";
                    findings.push(Finding::new("vapour_not_last", Severity::Check, message));
                }
            }
        }
    }
}

fn view(ledger: &FoldContext<'_>, step: &StepAt<'_>, closed: Closed, stage: Stage) -> StepView {
    let basis = step.basis(ledger.receiver);
    let due = step.step.repeat_minutes.zip(closed.last).and_then(|(minutes, last)| {
        let due = UtcMillis(last.0.saturating_add(i64::from(minutes).saturating_mul(60_000)));
        (step.step.stage == stage).then_some(due)
    });
    StepView {
        id: step.id.clone(),
        stage: step.step.stage,
        title: step.title(),
        what_to_do: step.step.what_to_do.clone(),
        why: step.step.why.clone(),
        asked_by: basis.asked_by,
        source: basis.source.shown(),
        cautions: step.step.cautions.clone(),
        fitting: step.fitting,
        records: step.records(),
        may_record: step.may_record(),
        missing: closed.missing,
        status: closed.status,
        said: closed.said,
        note: closed.note,
        repeat_minutes: step.step.repeat_minutes,
        due,
        optional: step.step.optional,
    }
}
