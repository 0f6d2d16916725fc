//! Steps that one key records: those of a line, what is found on arrival, the figures of a round of readings.
//!
//! A text lists them in `[[together]]` tables. A shell shows the steps of a group one below another, with one key
//! for those that went as listed; whatever did not is recorded on its own step. A group is either of steps that a
//! tap can answer or of steps that ask for readings. `view::guide` decides which group is at hand.

use serde::{Deserialize, Serialize};

use super::answer::Holds;
use super::mistake::ProcedureError;
use super::step::{ForEach, Record, Step, StepOf};
use crate::Message;
use crate::entry::Statement;
use crate::entry::coded::Coded;
use crate::entry::vocabulary::{EmptySign, Fitting, Heard};

/// Steps that one key records.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Together {
    /// The id of the group.
    pub id: String,
    /// What the steps are together.
    pub title: Message,
    /// What must have been done before the key is pressed.
    pub what_to_do: Message,
    /// The ids of the steps, in the order of the procedure.
    pub steps: Vec<String>,
    /// Whether each fitting has a key of its own; otherwise one key is for all of them.
    pub at_each: bool,
}

/// A group as it stands in a text.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct TogetherText {
    id: String,
    #[serde(default)]
    title: String,
    #[serde(default)]
    what_to_do: String,
    steps: Vec<String>,
    #[serde(default)]
    at_each: bool,
}

impl Record {
    /// Returns true if the record is a fact of the car that its next visits know.
    pub fn is_of_the_car(&self) -> bool {
        matches!(self, Record::CarCapacity {} | Record::CarFittings {} | Record::CarTestDate { .. })
    }

    /// Returns the statement that one tap makes of the record when all is as the step lists it. Returns `None` for
    /// what has to be read, typed, photographed or decided.
    pub fn as_listed(&self, fitting: Option<Fitting>, holds: &[Holds]) -> Option<Statement> {
        let at = |make: fn(Fitting) -> Statement| fitting.map(make);
        Some(match self {
            Record::Valve { position } => Statement::Valve { fitting: fitting?, position: *position },
            Record::Closure { state } => Statement::Closure { fitting: fitting?, state: *state },
            Record::Listen {} => at(|fitting| Statement::Listen { fitting, heard: Heard::Quiet })?,
            Record::Line { connected } => {
                Statement::Line { fitting: fitting?, connected: *connected, hose: String::new() }
            }
            Record::ItemOut { item } => Statement::ItemOut { item: item.clone(), fitting },
            Record::ItemIn { item } => Statement::ItemIn { item: item.clone() },
            Record::Attendance { presence } => Statement::Attendance { presence: *presence },
            Record::Protection { what, set } => Statement::Protection { what: *what, set: *set },
            Record::Check { what } => {
                Statement::Check { what: Coded::read(what), right: true, note: String::new() }
            }
            Record::EmptySign { sign } => sign_as_listed(self, *sign, holds)?,
            _ => return None,
        })
    }
}

/// A sign is as listed when it is not what holds the job. Where no answer holds the job, nothing is listed.
fn sign_as_listed(record: &Record, sign: EmptySign, holds: &[Holds]) -> Option<Statement> {
    let holds = holds.iter().find(|holds| holds.record == *record)?;
    let mut good = [true, false]
        .into_iter()
        .map(|seen| Statement::EmptySign { sign, seen })
        .filter(|says| !holds.held_by(says));
    good.next().filter(|_| good.next().is_none())
}

impl Step {
    /// Returns true if one tap can answer the step: as listed, as last time for what follows the car, or as on another
    /// car for what belongs to the track.
    fn can_be_listed(&self) -> bool {
        let fitting = self.fitting.or(self.for_each.map(|_| Fitting::LiquidA));
        let listed = |record: &Record| {
            record.is_of_the_car()
                || self.of == StepOf::Track
                || record.as_listed(fitting, &self.holds).is_some()
        };
        self.records.iter().all(listed)
    }

    /// Returns true if the step asks for readings alone.
    pub(crate) fn is_of_readings(&self) -> bool {
        !self.records.is_empty() && self.records.iter().all(|record| matches!(record, Record::Reading { .. }))
    }
}

/// Reads the groups of a text and checks them against its steps. `catalogue` is the id from which those of the
/// sentences are made, if they stand in the catalogues.
pub(super) fn groups(
    texts: Vec<TogetherText>,
    steps: &[Step],
    catalogue: Option<&str>,
) -> Result<Vec<Together>, ProcedureError> {
    let mut taken: Vec<&str> = Vec::new();
    for text in &texts {
        let bad = |why: &'static str| ProcedureError::BadTogether { group: text.id.clone(), why };
        let of: Vec<&Step> =
            text.steps.iter().filter_map(|id| steps.iter().find(|step| step.id == *id)).collect();
        let place = |id: &String| steps.iter().position(|step| step.id == *id);
        if of.len() != text.steps.len() || of.is_empty() {
            return Err(bad("procedure-together-mistake-no-such-step"));
        }
        if !text.steps.iter().map(place).is_sorted() {
            return Err(bad("procedure-together-mistake-order"));
        }
        if of.iter().any(|step| taken.contains(&step.id.as_str())) {
            return Err(bad("procedure-together-mistake-two-groups"));
        }
        if of.iter().any(|step| Some(step.stage) != of.first().map(|first| first.stage)) {
            return Err(bad("procedure-together-mistake-stages"));
        }
        if !of.iter().all(|step| step.can_be_listed()) && !of.iter().all(|step| step.is_of_readings()) {
            return Err(bad("procedure-together-mistake-more-than-a-tap"));
        }
        let lines = |each: Option<ForEach>| matches!(each, Some(ForEach::Lines | ForEach::LiquidLines));
        if text.at_each && !of.iter().all(|step| lines(step.for_each)) {
            return Err(bad("procedure-together-mistake-not-over-lines"));
        }
        if catalogue.is_none() && (text.title.trim().is_empty() || text.what_to_do.trim().is_empty()) {
            return Err(bad("procedure-together-mistake-no-title"));
        }
        taken.extend(of.iter().map(|step| step.id.as_str()));
    }
    Ok(texts
        .into_iter()
        .map(|text| {
            let (title, what_to_do) = match catalogue {
                Some(of) => (
                    Message::named(format!("{of}-together-{}", text.id)),
                    Message::named(format!("{of}-together-{}.do", text.id)),
                ),
                None => (Message::typed(text.title), Message::typed(text.what_to_do)),
            };
            Together { id: text.id, title, what_to_do, steps: text.steps, at_each: text.at_each }
        })
        .collect())
}

/// Returns the groups that an edition keeps from the one that it starts from: of each the steps that it still has and
/// that a tap, or a reading, still answers, in its own order. What is left of a group is not moved into another stage.
pub(super) fn inherited(groups: &[Together], steps: &[Step]) -> Vec<Together> {
    groups
        .iter()
        .filter_map(|group| {
            let kept: Vec<&Step> = steps.iter().filter(|step| group.steps.contains(&step.id)).collect();
            let first = kept.first()?;
            let stage = first.stage;
            let readings = first.is_of_readings();
            let fits = |step: &&&Step| {
                let answers = if readings { step.is_of_readings() } else { step.can_be_listed() };
                answers && step.stage == stage
            };
            let ids: Vec<String> = kept.iter().filter(fits).map(|step| step.id.clone()).collect();
            (ids.len() > 1).then(|| Together { steps: ids, ..group.clone() })
        })
        .collect()
}
