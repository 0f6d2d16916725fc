//! What an edition leaves out of the one it starts from. What law asks for can be reworded and moved; it is left out,
//! or asked for in a weaker form, only with a reason that stands in the text.
//!
//! `load` checks a text against the built-in edition that it starts from, and `view::editions` a published text
//! against the edition that it was made from.

use serde::{Deserialize, Serialize};

use super::gate_rule::{Asked, AskedFor, Condition, GateRule};
use super::mistake::ProcedureError;
use super::source::Law;
use super::step::{Procedure, Record, Step, StepOf};
use crate::entry::vocabulary::Gate;

/// Something that is left out, as it stands in a text.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct LeftOutText {
    step: Option<String>,
    gate: Option<String>,
    #[serde(default)]
    because: String,
}

/// What a text says about one thing that it leaves out or asks for in a weaker form.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct LeftOut {
    /// What it is.
    pub what: Lost,
    /// Why.
    pub because: String,
}

/// One thing that is left out or asked for in a weaker form.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Lost {
    /// A step, by its id.
    Step(String),
    /// The rules of a gate with this code.
    Rule(String),
}

impl Lost {
    /// Returns its name in a text.
    pub fn name(&self) -> &str {
        match self {
            Lost::Step(name) | Lost::Rule(name) => name,
        }
    }
}

impl LeftOut {
    pub(super) fn read(text: LeftOutText) -> Result<LeftOut, ProcedureError> {
        let what = match (text.step, text.gate) {
            (Some(step), None) => Lost::Step(step),
            (None, Some(rule)) => Lost::Rule(rule),
            (step, rule) => {
                return Err(ProcedureError::LeftOutUnclear(step.or(rule).unwrap_or_default()));
            }
        };
        if text.because.trim().is_empty() {
            return Err(ProcedureError::LeftOutUnclear(what.name().to_owned()));
        }
        Ok(LeftOut { what, because: text.because.trim().to_owned() })
    }
}

/// Returns true if a law stands among others: the same citation, binding the same.
fn has_all(laws: &[Law], of: &[Law]) -> bool {
    of.iter().all(|law| laws.iter().any(|own| own.source.cites == law.source.cites && own.binds == law.binds))
}

/// Returns true if a step asks for all that another does. Words, order and a shorter interval may differ.
fn keeps_step(kept: &Step, of: &Step) -> bool {
    has_all(&kept.laws, &of.laws)
        && of.records.iter().all(|record| kept.records.contains(record))
        && of.holds.iter().all(|holds| kept.holds.contains(holds))
        && (of.optional || !kept.optional)
        && (kept.only_for.is_none() || kept.only_for == of.only_for)
        && (kept.stage, kept.for_each, kept.fitting) == (of.stage, of.for_each, of.fitting)
        && (kept.since, kept.as_found) == (of.since, of.as_found)
        && (kept.of == of.of || kept.of == StepOf::Car)
        && (of.repeat_minutes.is_none() || kept.repeat_minutes.is_some())
}

/// Returns true if a rule asks for all that another does. Its sentences may differ, and the span of a gauge, which is
/// a threshold.
fn keeps_rule(kept: &GateRule, of: &GateRule) -> bool {
    let span = |asked: &Asked| matches!(asked, Asked::Condition(Condition::FinalPressureSpan { .. }));
    of.gates.iter().all(|gate| kept.gates.contains(gate))
        && (kept.item, &kept.of, kept.each) == (of.item, &of.of, of.each)
        && (kept.only_for.is_none() || kept.only_for == of.only_for)
        && (kept.asked == of.asked || (span(&kept.asked) && span(&of.asked)))
        && has_all(kept.laws(), of.laws())
        && (!matches!(of.asked_for, AskedFor::ThisRecord(_)) || kept.asked_for == of.asked_for)
}

/// Returns everything of `base` that `edition` leaves out or asks for in a weaker form, with the laws that ask for it.
pub fn lost(base: &Procedure, edition: &Procedure) -> Vec<(Lost, Vec<Law>)> {
    let mut lost: Vec<(Lost, Vec<Law>)> = Vec::new();
    for step in &base.steps {
        let kept = edition.steps.iter().find(|own| own.id == step.id);
        if !kept.is_some_and(|kept| keeps_step(kept, step)) {
            lost.push((Lost::Step(step.id.clone()), step.laws.clone()));
        }
    }
    for rule in &base.gates {
        if edition.gates.iter().any(|kept| keeps_rule(kept, rule)) {
            continue;
        }
        let what = Lost::Rule(rule.code());
        match lost.iter_mut().find(|(known, _)| *known == what) {
            Some((_, laws)) => laws.extend(rule.laws().iter().cloned()),
            None => lost.push((what, rule.laws().to_vec())),
        }
    }
    lost
}

/// Checks that everything which law asks for in `base` and `edition` leaves out has a reason.
///
/// # Errors
/// [`ProcedureError::StepUnexplained`] or [`ProcedureError::RuleUnexplained`].
pub fn check(base: &Procedure, edition: &Procedure) -> Result<(), ProcedureError> {
    for (what, laws) in lost(base, edition) {
        if laws.is_empty() || edition.left_out.iter().any(|own| own.what == what) {
            continue;
        }
        return Err(match what {
            Lost::Step(step) => ProcedureError::StepUnexplained(step),
            Lost::Rule(rule) => ProcedureError::RuleUnexplained(rule),
        });
    }
    Ok(())
}

/// Returns true for a record without which nobody can open, clear or release a stay.
fn is_essential(record: &Record) -> bool {
    matches!(record, Record::Opened {} | Record::FitToUnload {} | Record::Released {})
}

/// Checks an organisation's own text against the built-in edition that it starts from: what law asks for, what no
/// record can do without, and that no step blocks a gate that is signed before the step comes.
pub(super) fn check_whole(root: &Procedure, edition: &Procedure) -> Result<(), ProcedureError> {
    check(root, edition)?;
    let all_lost = lost(root, edition);
    for own in &edition.left_out {
        let known = match &own.what {
            Lost::Step(id) => root.steps.iter().any(|step| step.id == *id),
            Lost::Rule(code) => root.gates.iter().any(|rule| rule.code() == *code),
        };
        let stands = match &own.what {
            Lost::Step(id) => edition.steps.iter().any(|step| step.id == *id),
            Lost::Rule(code) => edition.gates.iter().any(|rule| rule.code() == *code),
        };
        if stands && !(known && all_lost.iter().any(|(what, _)| *what == own.what)) {
            return Err(ProcedureError::LeftOutStands(own.what.name().to_owned()));
        }
    }
    for (what, _) in &all_lost {
        let essential = match what {
            Lost::Step(id) => {
                root.steps.iter().any(|step| step.id == *id && step.records.iter().any(is_essential))
            }
            Lost::Rule(code) => root.gates.iter().any(|rule| rule.code() == *code && rule.is_essential()),
        };
        if essential {
            return Err(ProcedureError::Essential(what.name().to_owned()));
        }
    }
    if root.not_right_holds && !edition.not_right_holds {
        return Err(ProcedureError::Essential("not_right_holds".to_owned()));
    }
    let place = |wanted: &dyn Fn(&Step) -> bool| edition.steps.iter().position(wanted);
    for rule in &edition.gates {
        let Asked::Step(id) = &rule.asked else { continue };
        for gate in &rule.gates {
            let signed = place(&|step| {
                step.records.iter().any(|record| match gate {
                    Gate::Unload => *record == Record::FitToUnload {},
                    Gate::Release => *record == Record::Released {},
                })
            });
            if signed.is_some_and(|signed| place(&|step| step.id == *id).is_some_and(|at| at >= signed)) {
                return Err(ProcedureError::BlocksTooLate { step: id.clone(), gate: *gate });
            }
        }
    }
    Ok(())
}
