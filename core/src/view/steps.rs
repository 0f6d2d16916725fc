//! The steps of the procedure compared with the record: which are done, which come next, and which were left
//! open.
//!
//! A step is closed by its own entry (done, not right, or skipped with a reason) or by the records that it
//! asks for. Steps never block a release; that is the task of `view::gate`.

use std::collections::BTreeSet;

use serde::Serialize;

use super::fold_context::{Attribution, FoldContext};
use super::leaving::leaving;
use super::step_standing::{Anchors, Closed, StepStatus, close, mark_unused};
use crate::clock::UtcMillis;
use crate::entry::vocabulary::Fitting;
use crate::entry::{Slot, under};
use crate::procedure::{AskedBy, OrderRule, Procedure, Record, Since, Stage, StepAt};
use crate::units::{Finding, Severity};
use crate::{Arg, Message, message};

/// One step of this car.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct StepView {
    /// The id, such as `shut_valve.liquid_a`.
    pub id: String,
    /// The stage of the job.
    pub stage: Stage,
    /// A title of a few words.
    pub title: Message,
    /// The instruction, in a sentence or two.
    pub what_to_do: Message,
    /// The reason for the step.
    pub why: Message,
    /// Who asks for the step, given this receiver.
    pub asked_by: AskedBy,
    /// The source, in words.
    pub source: Message,
    /// The dangers at this step.
    pub cautions: Vec<Message>,
    /// The fitting, if the step has one.
    pub fitting: Option<Fitting>,
    /// What the step records, that is, the forms to present. If this is empty, the step is only acknowledged.
    pub records: Vec<Record>,
    /// What the step may record in addition.
    pub may_record: Vec<Record>,
    /// Those of `records` that are still missing.
    pub missing: Vec<Record>,
    /// The status.
    pub status: StepStatus,
    /// The attribution of the entry that closed the step.
    pub said: Option<Attribution>,
    /// The note in that entry; for a skipped step the reason.
    pub note: String,
    /// If an answer holds the job: which, one sentence each.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    #[cfg_attr(test, ts(optional, as = "Option<Vec<Message>>"))]
    pub reasons: Vec<Message>,
    /// If an answer holds the job: what to do now.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(test, ts(optional))]
    pub what_now: Option<Message>,
    /// If an answer holds the job: what can be recorded now.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    #[cfg_attr(test, ts(optional, as = "Option<Vec<Record>>"))]
    pub now: Vec<Record>,
    /// The interval of repetition, in minutes.
    pub repeat_minutes: Option<u32>,
    /// The time when the step is due again.
    pub due: Option<UtcMillis>,
    /// Whether the job is complete without the step.
    pub optional: bool,
}

/// The progress of a stage.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct StageProgress {
    /// The stage.
    pub stage: Stage,
    /// The number of closed steps.
    pub closed: usize,
    /// The number of steps, without optional ones and those of unused lines.
    pub of: usize,
}

/// The steps, and the present stage of the job.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct StepsView {
    /// The present stage of the job.
    pub stage: Stage,
    /// The progress of each stage.
    pub stages: Vec<StageProgress>,
    /// The ids of the next steps: what holds the job, what is asked again, what is due again, the decision about the
    /// liquid if the car is being closed up without it, and the first open steps of the stage.
    pub next: Vec<String>,
    /// The ids of the steps that are asked again because the car was moved, or left with nobody at it: they come
    /// before anything else that is next, until the car is closed up.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    #[cfg_attr(test, ts(optional, as = "Option<Vec<String>>"))]
    pub again: Vec<String>,
    /// The ids of open steps of earlier stages.
    pub left_behind: Vec<String>,
    /// Every step in order.
    pub steps: Vec<StepView>,
    /// Sentences about step entries whose step is not in the procedure.
    pub unknown: Vec<Message>,
}

impl StepsView {
    /// Returns the step with this id.
    pub fn step(&self, id: &str) -> Option<&StepView> {
        self.steps.iter().find(|step| step.id == id)
    }
}

/// The number of open steps shown as next.
const NEXT: usize = 3;

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
            again: Vec::new(),
            left_behind: Vec::new(),
            steps: Vec::new(),
            unknown: Vec::new(),
        };
    };
    let at = procedure.expand(ledger.receiver, leaving(ledger), counting);
    let anchors = Anchors::of(ledger);
    let mut closed: Vec<Closed> =
        at.iter().map(|step| close(ledger, &anchors, step, procedure.not_right_holds)).collect();
    mark_unused(ledger, &at, &mut closed);
    let reached = reached(&at, &closed, &anchors);
    let stage = stage_of(ledger, &at, &closed, reached);
    order_findings(procedure, &at, &closed, findings);
    for (step, closed) in at.iter().zip(&closed) {
        if closed.status == StepStatus::NotRight {
            let note = match closed.note.trim() {
                "" => super::story::none(),
                note => Arg::typed(note),
            };
            let message = message!("finding-step-not-right", step = step.title(), note = note);
            findings.push(Finding::new("step_not_right", Severity::Check, message));
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
    let known: BTreeSet<&str> = at.iter().map(|step| step.id.as_str()).collect();
    let unknown = ledger
        .slots
        .names_under(under::STEPS)
        .filter(|slot| !known.contains(slot.trim_start_matches(under::STEPS)))
        .filter_map(|slot| ledger.slots.latest(slot))
        .map(|item| ledger.sentence(item))
        .collect();
    let steps: Vec<StepView> =
        at.iter().zip(closed).map(|(step, closed)| view(ledger, step, closed, reached)).collect();
    let released = ledger.slots.latest(&Slot::RELEASED).is_some();
    let open = |step: &&StepView| !step.status.is_closed() && !step.optional;
    let since_moved: BTreeSet<&str> = at
        .iter()
        .filter(|step| step.step.since == Some(Since::MovedOrLeft))
        .map(|step| step.id.as_str())
        .collect();
    let again: Vec<String> = steps
        .iter()
        .filter(|step| step.stage < stage && stage < Stage::Close && anchors.was_moved_or_left())
        .filter(open)
        .filter(|step| since_moved.contains(step.id.as_str()))
        .map(|step| step.id.clone())
        .collect();
    let mut next: Vec<String> = Vec::new();
    if !released {
        let due = steps.iter().filter(|step| step.due.is_some_and(|due| due <= ledger.ctx.now));
        let held = steps.iter().filter(|step| step.status == StepStatus::Held);
        next.extend(held.map(|step| step.id.clone()));
        next.extend(again.iter().cloned());
        next.extend(due.map(|step| step.id.clone()));
        // What nobody decided of the liquid is asked before the car is closed up.
        let undecided = steps.iter().filter(|step| step.stage < stage && stage >= Stage::FinalPressure);
        let undecided =
            undecided.filter(open).filter(|step| step.missing.contains(&Record::EmptyDecision {}));
        next.extend(undecided.map(|step| step.id.clone()));
        let first_open = steps.iter().filter(|step| step.stage == stage).filter(open).take(NEXT);
        next.extend(first_open.map(|step| step.id.clone()));
        let mut seen = BTreeSet::new();
        next.retain(|id| seen.insert(id.clone()));
    }
    let left_behind =
        steps.iter().filter(|step| step.stage < stage).filter(open).map(|step| step.id.clone()).collect();
    StepsView { stage, stages, next, again, left_behind, steps, unknown }
}

/// Returns the latest stage in which somebody closed a step. A line that came off before the transfer was over leads
/// back to connecting, and from there to the transfer: what was done after it counts.
///
/// A valve shut in the middle of the transfer does not end it: at a line, what is recorded of a valve or heard there
/// reaches the stage only when a step that belongs before it is closed, when somebody said that a step is done, or when
/// all lines are off.
fn reached(at: &[StepAt<'_>], closed: &[Closed], anchors: &Anchors) -> Stage {
    let is_closed = |id: &String, fitting: Option<Fitting>| {
        at.iter().zip(closed).any(|(step, closed)| {
            step.step.id == *id
                && (step.fitting.is_none() || fitting.is_none() || step.fitting == fitting)
                && closed.place.is_some()
        })
    };
    let belongs = |id: &String| at.iter().any(|step| step.step.id == *id);
    let of_a_line = |step: &StepAt<'_>| {
        let alone = |record: &Record| {
            matches!(record, Record::Valve { .. } | Record::Listen {} | Record::Line { connected: false })
        };
        step.step.stage > Stage::Transfer
            && !step.step.records.is_empty()
            && step.step.records.iter().all(alone)
    };
    let begun = at.iter().zip(closed).filter(|(step, closed)| {
        let before = &step.step.after;
        closed.place.is_some()
            && (closed.own
                || !of_a_line(step)
                || anchors.all_lines_off()
                || !before.iter().any(belongs)
                || closed.place > anchors.transfer_over().or(Some(usize::MAX))
                || before.iter().any(|id| is_closed(id, step.fitting)))
    });
    let latest = |begun: &mut dyn Iterator<Item = (&StepAt<'_>, &Closed)>| {
        begun.map(|(step, _)| step.step.stage).max().unwrap_or(Stage::Receive)
    };
    let mut begun = begun;
    let Some(again) = anchors.taken_up_again() else { return latest(&mut begun) };
    let reached = latest(&mut begun.filter(|(step, closed)| {
        let takes_off = step.step.stage == Stage::Disconnect && anchors.is_off_early(step.fitting);
        closed.place.is_some_and(|place| place > again) && !takes_off
    }));
    match reached {
        Stage::Receive | Stage::Gauge | Stage::Connect if is_complete(at, closed, Stage::Connect) => {
            Stage::Transfer
        }
        reached => reached.max(Stage::Connect),
    }
}

fn is_complete(at: &[StepAt<'_>], closed: &[Closed], stage: Stage) -> bool {
    at.iter()
        .zip(closed)
        .filter(|(step, _)| step.step.stage == stage && !step.step.optional)
        .all(|(_, closed)| closed.status.is_closed())
}

/// Returns the stage that was reached, or the next stage if that one is complete.
fn stage_of(ledger: &FoldContext<'_>, at: &[StepAt<'_>], closed: &[Closed], reached: Stage) -> Stage {
    if ledger.slots.latest(&Slot::RELEASED).is_some() {
        return Stage::Release;
    }
    let complete = |stage: Stage| is_complete(at, closed, stage);
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
                    let message =
                        message!("finding-out-of-order", later = step.title(), earlier = other.title());
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
                            let message =
                                message!("finding-two-lines-open", second = b.term(), first = a.term());
                            findings.push(Finding::new("two_lines_open", Severity::Check, message));
                        }
                    }
                }
            }
            OrderRule::VapourLast { step, note } => {
                let (liquid, vapour): (Vec<Fitting>, Vec<Fitting>) =
                    Fitting::LINES.iter().copied().partition(|f| f.is_liquid());
                let last_liquid = liquid.iter().filter_map(|f| place_of(step, Some(*f))).max();
                let first_vapour = vapour.iter().filter_map(|f| place_of(step, Some(*f))).min();
                if last_liquid.zip(first_vapour).is_some_and(|(liquid, vapour)| vapour < liquid) {
                    let message = Message::new("finding-vapor-not-last");
                    let severity = if *note { Severity::Note } else { Severity::Check };
                    findings.push(Finding::new("vapour_not_last", severity, message));
                }
            }
        }
    }
}

/// A reading is due again until a step of a later stage was done: a transfer whose steps are all recorded still goes on.
fn view(ledger: &FoldContext<'_>, step: &StepAt<'_>, closed: Closed, reached: Stage) -> StepView {
    let basis = step.basis(ledger.receiver);
    let held = closed.status == StepStatus::Held;
    let due = step.step.repeat_minutes.zip(closed.last).and_then(|(minutes, last)| {
        let due = UtcMillis(last.0.saturating_add(i64::from(minutes).saturating_mul(60_000)));
        (step.step.stage == reached).then_some(due)
    });
    StepView {
        id: step.id.clone(),
        stage: step.step.stage,
        title: step.title(),
        what_to_do: step.step.what_to_do.clone(),
        why: step.step.why.clone(),
        asked_by: basis.asked_by,
        source: basis.source.message(),
        cautions: step.step.cautions.clone(),
        fitting: step.fitting,
        records: step.records(),
        may_record: step.may_record(),
        missing: closed.missing,
        status: closed.status,
        said: closed.said,
        note: closed.note,
        what_now: step.step.what_now.clone().filter(|_| held),
        now: if held { step.now() } else { Vec::new() },
        reasons: closed.reasons,
        repeat_minutes: step.step.repeat_minutes,
        due,
        optional: step.step.optional,
    }
}
