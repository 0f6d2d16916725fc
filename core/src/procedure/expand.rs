//! The expansion of a procedure to the steps of one car: the steps for its receiver, repeated over its
//! fittings.
//!
//! Neighbouring steps that repeat over lines form a block, and the whole block is completed at one fitting
//! before the next: shut, bleed, listen, break and plug at liquid A, and only then at liquid B. `view::steps`
//! calls this module.

use super::answer::Holds;
use super::source::Basis;
use super::step::{ForEach, Leaving, Procedure, Record, Step};
use crate::entry::vocabulary::{Fitting, Receiver};
use crate::{Message, message};

/// A step at one fitting, or a step that does not repeat.
#[derive(Clone, Debug, PartialEq)]
pub struct StepAt<'a> {
    /// The id: `shut_valve.liquid_a`, or the id of the step alone.
    pub id: String,
    /// The step in the procedure.
    pub step: &'a Step,
    /// The fitting, if the step has one.
    pub fitting: Option<Fitting>,
}

impl StepAt<'_> {
    /// Returns the title with the fitting: "Shut the valve · liquid valve A".
    pub fn title(&self) -> Message {
        let title = self.step.title.clone();
        match self.fitting {
            Some(fitting) => message!("step-at", title = title, fitting = fitting.term()),
            None => title,
        }
    }

    /// Returns what the step records here.
    pub fn records(&self) -> Vec<Record> {
        self.fitted(&self.step.records)
    }

    /// Returns what the step may record in addition.
    pub fn may_record(&self) -> Vec<Record> {
        self.fitted(&self.step.may_record)
    }

    /// Returns what can be recorded while an answer to the step holds the job.
    pub fn now(&self) -> Vec<Record> {
        self.fitted(&self.step.now)
    }

    /// Returns the answers that hold the job here.
    pub fn holds(&self) -> Vec<Holds> {
        let fits = |holds: &&Holds| self.fitting.is_none_or(|fitting| holds.record.fits(fitting));
        let named = |holds: &Holds| Holds {
            record: holds.record.named_for(self.fitting),
            answers: holds.answers.clone(),
        };
        self.step.holds.iter().filter(fits).map(named).collect()
    }

    /// Returns who asks for the step and on what basis.
    pub fn basis(&self, receiver: Option<Receiver>) -> Basis {
        self.step.basis(receiver)
    }

    fn fitted(&self, records: &[Record]) -> Vec<Record> {
        records
            .iter()
            .filter(|record| self.fitting.is_none_or(|fitting| record.fits(fitting)))
            .map(|record| record.named_for(self.fitting))
            .collect()
    }
}

impl Procedure {
    /// Returns the steps of one car in order, for how it goes away. While the receiver is unknown, steps for only one kind of
    /// receiver are left out.
    pub fn expand(
        &self,
        receiver: Option<Receiver>,
        leaving: Leaving,
        fittings: &[Fitting],
    ) -> Vec<StepAt<'_>> {
        let mine: Vec<&Step> = self
            .steps
            .iter()
            .filter(|step| step.only_for.is_none_or(|only| receiver == Some(only)))
            .filter(|step| step.leaves.is_none_or(|only| leaving == only))
            .collect();
        let mut expanded = Vec::with_capacity(mine.len() * 2);
        for block in mine.chunk_by(|a, b| {
            a.stage == b.stage && kind_of_block(a).is_some() && kind_of_block(a) == kind_of_block(b)
        }) {
            if block.first().is_some_and(|step| kind_of_block(step).is_none()) {
                expanded.extend(block.iter().map(|step| {
                    let id = match step.fitting {
                        Some(fitting) => format!("{}.{fitting}", step.id),
                        None => step.id.clone(),
                    };
                    StepAt { id, step, fitting: step.fitting }
                }));
                continue;
            }
            for fitting in fittings {
                for step in block {
                    if step.for_each.is_some_and(|each| each.includes(*fitting)) {
                        let id = format!("{}.{fitting}", step.id);
                        expanded.push(StepAt { id, step, fitting: Some(*fitting) });
                    }
                }
            }
        }
        expanded
    }
}

/// The kind of block of a step that repeats: over lines, small openings, or all fittings.
fn kind_of_block(step: &Step) -> Option<u8> {
    step.for_each.map(|each| match each {
        ForEach::Lines | ForEach::LiquidLines => 0,
        ForEach::Openings => 1,
        ForEach::Fittings => 2,
    })
}
