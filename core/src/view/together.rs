//! The steps that one key records now: the group of the procedure that the next step belongs to, with what the key
//! would record for each of its open steps, or which readings are to be typed.

use serde::Serialize;

use super::car::CarView;
use super::guide::Ask;
use super::step_standing::StepStatus;
use super::steps::StepView;
use super::story::none;
use super::visit::VisitView;
use crate::entry::vocabulary::{Fitting, StepOutcome};
use crate::entry::{RestsOn, Statement};
use crate::procedure::{Procedure, Record, Step, StepAt};
use crate::{Arg, Joint, Message, message};

/// Open steps that one key records.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct StepsTogether {
    /// The id of the group, with its fitting if each line has a key of its own: `line_on.liquid_a`.
    pub id: String,
    /// What the steps are together.
    pub title: Message,
    /// What must have been done before the key is pressed.
    pub what_to_do: Message,
    /// The line, if each has a key of its own.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(test, ts(optional))]
    pub fitting: Option<Fitting>,
    /// The open steps in order: at least two, or one that is taken over from another car on the track.
    pub steps: Vec<StepTogether>,
}

/// One of the steps.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
pub struct StepTogether {
    /// The id of the step.
    pub step: String,
    /// What the key records when all went as listed; nothing where readings are to be typed.
    pub says: Vec<Statement>,
    /// The readings to be typed.
    pub readings: Vec<Ask>,
    /// What the key says once more as it was recorded before, of the car or on another car of the track, one sentence
    /// each.
    pub known: Vec<Message>,
    /// What each of `says` rests on, if it is taken over from another car on the track.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    #[cfg_attr(test, ts(optional, as = "Option<Vec<RestsOn>>"))]
    pub rests_on: Vec<RestsOn>,
}

impl StepsTogether {
    /// Returns the group at hand: the one of the step that comes next. None is at hand while an answer holds one of
    /// its steps, or while fewer than two of them are open.
    pub fn of(view: &VisitView, procedure: &Procedure) -> Option<StepsTogether> {
        let next = view.steps.step(view.steps.next.first()?)?;
        let group = procedure.together.iter().find(|group| group.steps.iter().any(|id| id == base(next)))?;
        let mine = |step: &&StepView| {
            group.steps.iter().any(|id| id == base(step))
                && (!group.at_each || step.fitting == next.fitting)
                && !step.optional
        };
        let of_readings = procedure
            .steps
            .iter()
            .find(|step| group.steps.first() == Some(&step.id))
            .is_some_and(Step::is_of_readings);
        let mut steps = Vec::new();
        for step in view.steps.steps.iter().filter(mine) {
            if step.status == StepStatus::Held {
                return None;
            }
            let again = view.steps.next.contains(&step.id) && step.status.is_closed();
            if !step.status.is_closed() || again {
                let own = procedure.steps.iter().find(|own| own.id == base(step))?;
                let at = StepAt { id: step.id.clone(), step: own, fitting: step.fitting };
                steps.extend(together(view, step, &at, (again, of_readings)));
            }
        }
        // What has to be typed first keeps its own screen.
        let begins = steps.first().is_some_and(|first| first.step == next.id);
        let enough = steps.len() > 1 || steps.iter().any(|step| !step.rests_on.is_empty());
        (begins && enough).then(|| StepsTogether {
            id: match next.fitting.filter(|_| group.at_each) {
                Some(fitting) => format!("{}.{fitting}", group.id),
                None => group.id.clone(),
            },
            title: group.title.clone(),
            what_to_do: group.what_to_do.clone(),
            fitting: next.fitting.filter(|_| group.at_each),
            steps,
        })
    }
}

/// The id of a step in its procedure, without a fitting.
fn base(step: &StepView) -> &str {
    step.id.split_once('.').map_or(step.id.as_str(), |(base, _)| base)
}

/// What the key records for a step, or what is to be read; `again` for a reading that is due once more.
fn together(
    view: &VisitView,
    step: &StepView,
    at: &StepAt<'_>,
    (again, of_readings): (bool, bool),
) -> Option<StepTogether> {
    let asked = if again { &step.records } else { &step.missing };
    if let Some(offer) = view.track.iter().find(|offer| offer.step == at.step.id && !again) {
        let (says, rests_on) = offer.says.iter().cloned().unzip();
        let known = vec![offer.message.clone()];
        return Some(StepTogether { step: step.id.clone(), says, readings: Vec::new(), known, rests_on });
    }
    let readings: Vec<Ask> = asked
        .iter()
        .filter(|record| matches!(record, Record::Reading { .. }))
        .map(|record| Ask::new(record, step.fitting))
        .collect();
    if !readings.is_empty() && !of_readings {
        return None;
    }
    let (mut says, mut known) = (Vec::new(), Vec::new());
    if readings.is_empty() {
        let holds = at.holds();
        for record in asked {
            if record.is_of_the_car() {
                let (again, message) = as_recorded(&view.car, record)?;
                says.push(again);
                known.push(message);
            } else {
                says.push(record.as_listed(step.fitting, &holds)?);
            }
        }
        if step.records.is_empty() {
            let done = StepOutcome::Done;
            says.push(Statement::Step { step: step.id.clone(), outcome: done, note: String::new() });
        }
    }
    Some(StepTogether { step: step.id.clone(), says, readings, known, rests_on: Vec::new() })
}

/// Returns what is known of the car from before as a statement of today, and the sentence that shows it with its
/// day. Nothing is said again that nobody recorded, or that two entries say differently.
fn as_recorded(car: &CarView, record: &Record) -> Option<(Statement, Message)> {
    let (says, message, said) = match record {
        Record::CarCapacity {} => {
            let known = car.capacity.as_ref().filter(|known| !known.disputed)?;
            let insulation = car.insulation.as_ref().filter(|known| !known.disputed);
            let shown = insulation.map_or_else(none, |known| known.value.term().into());
            let insulation = insulation.map(|known| known.value);
            let says = Statement::CarCapacity { capacity: known.value.clone(), insulation };
            let message = message!("log-car_capacity", capacity = known.value.arg(), insulation = shown);
            (says, message, &known.said)
        }
        Record::CarFittings {} => {
            let known = car.fittings.as_ref().filter(|known| !known.disputed)?;
            let terms = Arg::list(Joint::Comma, known.value.iter().map(|fitting| fitting.term()));
            let gauging = car.gauging.as_ref().filter(|known| !known.disputed).map(|known| known.value);
            let vapour_end = car.vapour_end.as_ref().filter(|known| !known.disputed).map(|known| known.value);
            let says = Statement::CarFittings { fittings: known.value.clone(), gauging, vapour_end };
            let message = message!(
                "log-car_fittings",
                fittings = terms,
                gauging = gauging.map_or_else(none, |kind| kind.term().into()),
                vapour_end = vapour_end.map_or_else(none, |end| end.term().into()),
            );
            (says, message, &known.said)
        }
        Record::CarTestDate { test } => {
            let known = car.test_dates.iter().find(|known| known.test == *test)?;
            let says = Statement::CarTestDate { test: *test, due: known.due.clone() };
            let due = Arg::typed(&known.due);
            (says, message!("log-car_test_date", test = test.term(), due = due), &known.said)
        }
        _ => return None,
    };
    let day = said.shown.get(..10).unwrap_or(&said.shown);
    Some((says, message!("step-as_recorded", day = Arg::typed(day), says = message)))
}
