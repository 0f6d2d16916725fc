//! Answers that hold the job: which values of a record are bad, as data of the procedure.
//!
//! A record in a text may carry `holds`, a list of words, of yes and no, or of a limit.
//! `view::step_standing` asks this module whether a statement is such an answer; a step with one is not done
//! until it is answered otherwise.

use serde::{Deserialize, Serialize};

use super::step::Record;
use crate::entry::Statement;
use crate::entry::vocabulary::{ClosureState, Heard, ValvePosition};
use crate::units::Unit;

/// A value of a record that holds the job.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(untagged)]
pub enum BadAnswer {
    /// This yes or no: a check that was not right, a sign that was seen.
    YesNo(bool),
    /// This word, such as `hiss`.
    Word(String),
    /// A number that is no more than this.
    AtMost {
        /// The limit, in the unit of the record.
        at_most: f64,
    },
}

/// The record of a step and the values of it that hold the job.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Holds {
    /// The record.
    pub record: Record,
    /// The bad values.
    pub answers: Vec<BadAnswer>,
}

/// What a statement answers to a record.
enum Answer {
    YesNo(bool),
    Word(&'static str),
    Number(Option<f64>),
}

fn answer(says: &Statement) -> Option<Answer> {
    Some(match says {
        Statement::Valve { position, .. } => Answer::Word(position.word()),
        Statement::Closure { state, .. } => Answer::Word(state.word()),
        Statement::Listen { heard, .. } => Answer::Word(heard.word()),
        Statement::Check { right, .. } => Answer::YesNo(*right),
        Statement::EmptySign { seen, .. } => Answer::YesNo(*seen),
        Statement::EmptyDecision { accepted, .. } => Answer::YesNo(*accepted),
        Statement::Protection { set, .. } => Answer::YesNo(*set),
        Statement::Seal(seal) => Answer::YesNo(seal.intact),
        Statement::LastRound { except, .. } => Answer::YesNo(except.is_empty()),
        Statement::Threads { engaged, .. } => Answer::Number(engaged.value_in(Unit::Turns)),
        _ => return None,
    })
}

impl Holds {
    /// Returns true if the statement, found in a slot of the record, is one of the bad answers.
    pub fn held_by(&self, says: &Statement) -> bool {
        let Some(answer) = answer(says) else { return false };
        self.answers.iter().any(|bad| match (bad, &answer) {
            (BadAnswer::YesNo(bad), Answer::YesNo(said)) => bad == said,
            (BadAnswer::Word(bad), Answer::Word(said)) => bad == said,
            (BadAnswer::AtMost { at_most }, Answer::Number(Some(said))) => said <= at_most,
            _ => false,
        })
    }

    /// Returns true if each bad value is one that the record can have.
    pub fn fits(&self) -> bool {
        let word = |words: &[&str]| -> bool {
            self.answers
                .iter()
                .all(|bad| matches!(bad, BadAnswer::Word(bad) if words.contains(&bad.as_str())))
        };
        match &self.record {
            Record::Valve { .. } => word(&ValvePosition::ALL.iter().map(|w| w.word()).collect::<Vec<_>>()),
            Record::Closure { .. } => word(&ClosureState::ALL.iter().map(|w| w.word()).collect::<Vec<_>>()),
            Record::Listen {} => word(&Heard::ALL.iter().map(|w| w.word()).collect::<Vec<_>>()),
            Record::Check { .. }
            | Record::EmptySign { .. }
            | Record::EmptyDecision {}
            | Record::Protection { .. }
            | Record::LastRound {}
            | Record::Seal { .. } => self.answers.iter().all(|bad| matches!(bad, BadAnswer::YesNo(_))),
            Record::Threads {} => self.answers.iter().all(|bad| matches!(bad, BadAnswer::AtMost { .. })),
            _ => false,
        }
    }
}
