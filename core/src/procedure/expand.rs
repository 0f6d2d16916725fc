//! From a procedure to the steps of one car: the receiver's own, repeated over the car's fittings.
//!
//! Neighbouring steps that repeat over lines are taken as one block, and the whole block is gone
//! through at one fitting before the next: shut, bleed, listen, break, plug at liquid A, and only
//! then at liquid B. Called by `view::steps`.

use super::source::Basis;
use super::step::{ForEach, Procedure, Record, Step};
use crate::entry::vocabulary::{Fitting, Receiver};

/// One step at one fitting, or the one step where it does not repeat.
#[derive(Clone, Debug, PartialEq)]
pub struct StepAt<'a> {
    /// `shut_valve.liquid_a`, or the step's id alone.
    pub id: String,
    /// The step as it stands in the procedure.
    pub step: &'a Step,
    /// Where.
    pub fitting: Option<Fitting>,
}

impl StepAt<'_> {
    /// Title with the fitting: "Shut the valve · liquid valve A".
    pub fn title(&self) -> String {
        match self.fitting {
            Some(fitting) => format!("{} · {}", self.step.title, fitting.name()),
            None => self.step.title.clone(),
        }
    }

    /// What it records here.
    pub fn records(&self) -> Vec<Record> {
        self.fitted(&self.step.records)
    }

    /// What it may record besides.
    pub fn may_record(&self) -> Vec<Record> {
        self.fitted(&self.step.may_record)
    }

    /// Who asks for it.
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
    /// The steps of one car, in order. While the receiver is not known, steps for either are left out.
    pub fn expand(&self, receiver: Option<Receiver>, fittings: &[Fitting]) -> Vec<StepAt<'_>> {
        let mine: Vec<&Step> = self
            .steps
            .iter()
            .filter(|step| step.only_for.is_none_or(|only| receiver == Some(only)))
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

fn kind_of_block(step: &Step) -> Option<bool> {
    step.for_each.map(|each| each == ForEach::Openings)
}
